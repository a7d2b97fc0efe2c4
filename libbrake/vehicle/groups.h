/* SPDX-License-Identifier: MIT */
/* Groups of results that are worked out together; private to the library. */
#ifndef BRAKE_VEHICLE_GROUPS_H
#define BRAKE_VEHICLE_GROUPS_H

#include "brake/evaluate.h"

/** Group of a result and its load case, as a bit: such results are worked out together.
 * @param index  of the result
 * @return       one bit
 */
unsigned long long brake_result_group(int index);

/** Evaluate some groups of results.
 * @param vehicle  complete
 * @param groups   bits of brake_result_group
 * @param results  results of these groups are filled, others left as they are
 */
void brake_evaluate_groups(const struct brake_vehicle *vehicle, unsigned long long groups,
                           struct brake_results *results);

/** Load case of a result.
 * @param index  of the result
 * @return       empty or full; -1 for a result that does not depend on load
 */
int brake_result_load(int index);

/** Whether a result is of the fade procedure, which brake_evaluate does not run.
 * @param index  of the result
 * @return       true when it is
 */
bool brake_result_faded(int index);

/** Value of a result of a duty, a drive or a comparison.
 * @param results  of it
 * @param index    of the result, brake_result_count() and up
 * @return         [SI] value; NaN when it cannot be given
 */
double brake_study_value(const struct brake_study_results *results, int index);

#endif
