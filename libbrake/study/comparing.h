/* SPDX-License-Identifier: MIT */
/* What of a comparison decides its verdict; private to the library. */
#ifndef BRAKE_STUDY_COMPARING_H
#define BRAKE_STUDY_COMPARING_H

#include "brake/before.h"
#include "brake/compare.h"

/** Part of a like-for-like figure that is missing.
 * @param like  torque over need, before and after
 * @return      [-] 1 less after over before; 0 when it is regained; NaN when it cannot be said
 */
double brake_like_missing(const struct brake_compared *like);

/** Load case in which most is missing, or least gained, of both axles together.
 * @param comparison  of brake_compare
 * @return            its number
 */
enum brake_load brake_compare_worst(const struct brake_comparison *comparison);

/** Whether a requirement was met before and falls short now.
 * @param comparison  of brake_compare
 * @param criterion   its number
 * @return            true when it does
 */
bool brake_compare_lost(const struct brake_comparison *comparison, int criterion);

/** Torque that a vehicle has over torque that it needs.
 * @param results  of the groups of brake_torque_groups
 * @param like     [-] filled: by load case; front, rear, both; NaN where none is needed
 */
void brake_torque_over_need(const struct brake_results *results,
                            double like[BRAKE_LOADS][BRAKE_AXLES + 1]);

/** Brake torque per need, now over before, as the lines stand.
 * @param before  complete
 * @param after   complete
 * @return        [-] of both axles together, in the load case in which it is less; NaN when it
 *                cannot be said
 */
double brake_before_regained(const struct brake_vehicle *before, const struct brake_vehicle *after);

/** Groups of results that those come from.
 * @return  bits of brake_result_group
 */
unsigned long long brake_torque_groups(void);

/** What the verdicts on one side come to.
 * @param comparison  of brake_compare
 * @param side        0 before, 1 after
 * @param ruling      filled
 */
void brake_compare_ruling(const struct brake_comparison *comparison, int side,
                          struct brake_ruling *ruling);

#endif
