/* SPDX-License-Identifier: MIT */
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

/** Evaluate a vehicle.
 * @param vehicle  complete: brake_sheet_complete accepted it
 * @param results  filled
 */
void brake_evaluate(const struct brake_vehicle *vehicle, struct brake_results *results);

#ifdef __cplusplus
}
#endif

#endif
