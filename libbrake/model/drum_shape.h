/* SPDX-License-Identifier: MIT */
/* A drum made ready to be asked its factor at many frictions. Equations and sources:
 * brake/drum.h. */
#ifndef BRAKE_MODEL_DRUM_SHAPE_H
#define BRAKE_MODEL_DRUM_SHAPE_H

#include "brake/drum.h"

/* What the angles of a shoe make of it, which costs most of its factor and does not follow
 * friction: A and B of brake/drum.h, and cos(heel) - cos(toe). */
struct shoe_lengths {
    double normal;
    double friction;
    double reach;
};

struct drum_shape {
    enum brake_shoes shoes;
    const struct brake_shoe *primary; /* the only one but in a duo-servo */
    const struct brake_shoe *secondary;
    struct shoe_lengths length[2];
};

struct drum_shape brake_drum_shape(enum brake_shoes shoes, const struct brake_shoe *primary,
                                   const struct brake_shoe *secondary);

/* As brake_drum_factor_shape and brake_drum_factor_servo say. */
enum brake_status brake_drum_shape_factor(const struct drum_shape *drum, double mu,
                                          double mu_secondary, double *factor);

#endif
