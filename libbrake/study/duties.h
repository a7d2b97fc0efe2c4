/* SPDX-License-Identifier: MIT */
/* Duties of several vehicles side by side: what brake_duty_run does for one, with the heat of all
 * brakes worked out together. What comes of a duty is the same to the bit alone and in any company.
 * Private to the library. */
#ifndef BRAKE_STUDY_DUTIES_H
#define BRAKE_STUDY_DUTIES_H

#include "brake/duty.h"

/** One vehicle and its duty. */
struct brake_duty_task {
    const struct brake_hot_rig *hot;
    const struct brake_duty *duty;
    const struct brake_duty_watch *watch; /**< NULL: nobody */
    struct brake_duty_result *result;     /**< filled */
    enum brake_status status;             /**< filled: that of brake_duty_run */
    bool ends;                            /**< true: what lies between the ends of its parts is not
                                               looked at, so that slices may be long */
};

/** Run all duties, each on its own.
 * @param task   them
 * @param count  1 to BRAKE_TOGETHER of model/braking_lanes.h
 */
void brake_duty_run_all(struct brake_duty_task *task, int count);

#endif
