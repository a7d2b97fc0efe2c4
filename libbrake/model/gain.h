/* SPDX-License-Identifier: MIT */
/* Torque of a brake as its friction moves, by a law that is asked many times: brake_gain_ratio of
 * brake/braking.h. */
#ifndef BRAKE_MODEL_GAIN_H
#define BRAKE_MODEL_GAIN_H

#include "brake/braking.h"
#include "drum_shape.h"

/* A law made ready to be asked many times. */
struct gain {
    const struct brake_gain_law *law;
    struct drum_shape drum; /* of a drum whose shoes are known */
    double then;            /* its factor at the friction of the law */
};

/* Fails where the brake grabs at the friction of its law. */
enum brake_status brake_gain_prepare(const struct brake_gain_law *law, struct gain *gain);

/* Torque at a friction over that at the law's. */
enum brake_status brake_gain_find(const struct gain *gain, double mu, double *ratio);

#endif
