/** @file evaluate.h
 * One evaluation of a vehicle: every result (results.h), for both load cases.
 */
#ifndef BRAKE_EVALUATE_H
#define BRAKE_EVALUATE_H

#include "brake/results.h"
#include "brake/vehicle.h"

#ifdef __cplusplus
extern "C" {
#endif

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

/** Evaluate a vehicle.
 * @param vehicle  complete: brake_sheet_complete accepted it
 * @param results  filled
 */
void brake_evaluate(const struct brake_vehicle *vehicle, struct brake_results *results);

#ifdef __cplusplus
}
#endif

#endif
