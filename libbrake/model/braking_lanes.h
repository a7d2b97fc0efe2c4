/* SPDX-License-Identifier: MIT */
/* Brakings side by side: what brake_braking_advance does to one, done to several whose heat is
 * worked out together. The numbers of a braking come out the same to the bit alone and in any
 * company. */
#ifndef BRAKE_MODEL_BRAKING_LANES_H
#define BRAKE_MODEL_BRAKING_LANES_H

#include "brake/braking.h"

/* Most of them at once; four fill the widest registers with the heat of their brakes, more keep
 * them filled while some have ended. */
enum { BRAKE_TOGETHER = 8 };

/* One braking and how far it is to go. */
struct brake_braking_task {
    const struct brake_rig *rig;
    const struct brake_application *application;
    double until;                  /* [s] */
    struct brake_braking *braking; /* moved on; as it was when refused, as the next */
    struct brake_outcome *outcome;
    enum brake_status status; /* filled: that of brake_braking_advance */
};

/* Works out up to BRAKE_TOGETHER tasks, each on its own. */
void brake_braking_advance_all(struct brake_braking_task *task, int count);

#endif
