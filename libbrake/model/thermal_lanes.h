/* SPDX-License-Identifier: MIT */
/* Heat in brakes side by side: what brake_thermal_advance does to one, done to several at once in
 * wide registers. The numbers of a brake come out the same to the bit alone and in any company. */
#ifndef BRAKE_MODEL_THERMAL_LANES_H
#define BRAKE_MODEL_THERMAL_LANES_H

#include "brake/thermal.h"

/* One brake, what happens to it and for how long. */
struct brake_thermal_task {
    const struct brake_thermal *brake;
    struct brake_thermal_drive drive;
    double duration;                   /* [s] */
    struct brake_thermal_state *state; /* moved on; as it was when refused */
    enum brake_status status;          /* filled: that of brake_thermal_advance */
};

/* Works out all tasks, each on its own. */
void brake_thermal_advance_all(struct brake_thermal_task *task, int count);

#endif
