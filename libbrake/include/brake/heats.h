/* SPDX-License-Identifier: MIT */
/** @file heats.h
 * Heat of many cases: vehicles whose lines differ, each through duties that differ; of every case
 * its results, and its history at the same times.
 *
 * A vehicle is a case of a sweep over lines; each goes through each duty. The cases are numbered
 * from 0: that of vehicle v and duty d is v * duties + d. Each is what brake_duty_run gives to that
 * vehicle alone, to the bit, however many are worked out beside it.
 */
#ifndef BRAKE_HEATS_H
#define BRAKE_HEATS_H

#include "brake/duty.h"
#include "brake/sweep.h"

#ifdef __cplusplus
extern "C" {
#endif

enum {
    BRAKE_DUTY_NUMBERS = sizeof(struct brake_duty_row) / sizeof(double) /**< that a row is made of,
                                                                             in their order */
};

/** Cases and what is asked of each. */
struct brake_heats {
    const struct brake_sheet *sheet; /**< complete */
    const struct brake_axis *axis;   /**< lines that differ, in every combination */
    int axes;                        /**< 0 to BRAKE_AXES_OF_SWEEP */
    enum brake_load load;            /**< empty or full */
    const struct brake_duty *duty;   /**< the force of one may be NaN: the vehicle's own
                                          driver.pedal_force_most */
    int duties;                      /**< 1 and up */
    const int *result;               /**< results of heat by their index in the catalogue */
    int results;
    const int *column; /**< of the histories, 0 to BRAKE_DUTY_NUMBERS - 1 */
    int columns;
    const double *time; /**< [s] of the histories, rising */
    long times;
};

/** What comes of them. */
struct brake_heats_room {
    double *result;            /**< [SI] for results, case by case; NaN where it cannot be said */
    double *history;           /**< [SI] for columns, each with its times, case by case; NaN before
                                    the duty begins and after it has ended, rest included */
    enum brake_status *status; /**< of each case: OK, or why there is nothing of it */
};

/** Number of cases.
 * @param heats  what is asked
 * @return       vehicles times duties; -1 when it is beyond 1e15
 */
long long brake_heats_count(const struct brake_heats *heats);

/** Work out all cases.
 * @param heats    what is asked
 * @param threads  1 and up; what comes out does not depend on it
 * @param watch    told the cases, and may stop them; NULL: nobody
 * @param room     filled; when stopped only in part
 * @param error    filled on refusal of all: an axis as in sweep.h, no duty, times that do not rise,
 *                 a result or column that there is not; memory is short
 * @return         OK, or the status of the error
 */
enum brake_status brake_heats_run(const struct brake_heats *heats, int threads,
                                  const struct brake_watch *watch,
                                  const struct brake_heats_room *room, struct brake_error *error);

/** Why there is nothing of a case, in words: it is worked out again by itself.
 * @param heats   as they were run
 * @param number  of the case
 * @param error   filled
 * @return        status of the case
 */
enum brake_status brake_heats_refusal(const struct brake_heats *heats, long long number,
                                      struct brake_error *error);

#ifdef __cplusplus
}
#endif

#endif
