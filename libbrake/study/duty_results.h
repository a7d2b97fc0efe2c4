/* SPDX-License-Identifier: MIT */
/* What came of a duty as the results that are asked for by name; private to the library. */
#ifndef BRAKE_STUDY_DUTY_RESULTS_H
#define BRAKE_STUDY_DUTY_RESULTS_H

#include "brake/duty.h"
#include "brake/results.h"

/** Put what came of a duty among the results of studies.
 * @param hot      vehicle and brakes
 * @param result   of the duty
 * @param results  those of heat are filled
 */
void brake_duty_results(const struct brake_hot_rig *hot, const struct brake_duty_result *result,
                        struct brake_study_results *results);

#endif
