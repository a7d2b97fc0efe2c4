/* SPDX-License-Identifier: MIT */
/* What outputs ask for; private to the library. */
#ifndef BRAKE_STUDY_ASKED_H
#define BRAKE_STUDY_ASKED_H

#include <stddef.h>

#include "brake/output.h"

/** Whether an output is taken from a fade procedure, which takes far longer than all else.
 * @param output  a result or a criterion
 * @return        true when it is
 */
bool brake_output_faded(struct brake_output output);

/** What brake_outputs gives of one vehicle, of several whose fade procedures go side by side: none
 * depends on those beside it.
 * @param vehicle  complete
 * @param cases    how many: 1 to BRAKE_TOGETHER of model/braking_lanes.h
 * @param output   what is asked for of each
 * @param count    of outputs
 * @param stride   from the values of a vehicle to those of the next, count or more
 * @param value    [SI] room for cases * stride
 */
void brake_outputs_all(const struct brake_vehicle *const *vehicle, int cases,
                       const struct brake_output *output, int count, size_t stride, double *value);

#endif
