/* SPDX-License-Identifier: MIT */
/* The vehicle over a step of a braking, which ends where a smooth piece does. */
#ifndef BRAKE_MODEL_PASSAGE_H
#define BRAKE_MODEL_PASSAGE_H

#include "course.h"

/* A step, tried or taken. */
struct passage {
    struct instant begin;
    struct instant middle; /* of it, but for the limits */
    struct motion to;
    struct instant end;
    struct brake_thermal_state heat[BRAKE_AXLES];
    double friction[BRAKE_AXLES];
    double miss; /* part of the torque by which its end was not as expected */
};

/* Whether a corner lies between its ends. */
static inline bool passes(const struct passage *p, enum corner corner)
{
    return (p->begin.past[corner] > 0.0) != (p->end.past[corner] > 0.0);
}

/* A step of a length, or to the first corner within it: `to`, `middle` and `end` from `begin`. What
 * is not awaited and comes very near the begin is passed over: friction that settles, or rounding,
 * can carry it back and forth. */
void brake_passage_run(struct course *c, double length, struct passage *p);

#endif
