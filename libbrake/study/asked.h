/* What outputs ask for; private to the library. */
#ifndef BRAKE_STUDY_ASKED_H
#define BRAKE_STUDY_ASKED_H

#include "brake/output.h"

/** Whether an output is taken from a fade procedure, which takes far longer than all else.
 * @param output  a result or a criterion
 * @return        true when it is
 */
bool brake_output_faded(struct brake_output output);

#endif
