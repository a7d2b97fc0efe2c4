/* What outputs ask for; private to the library. */
#ifndef BRAKE_STUDY_ASKED_H
#define BRAKE_STUDY_ASKED_H

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
 * @param value    [SI] room for cases * count, vehicle by vehicle
 */
void brake_outputs_all(const struct brake_vehicle *const *vehicle, int cases,
                       const struct brake_output *output, int count, double *value);

#endif
