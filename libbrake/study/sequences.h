/* SPDX-License-Identifier: MIT */
/* Published fade sequences, and what is to be warned of after a duty; private to the library. */
#ifndef BRAKE_STUDY_SEQUENCES_H
#define BRAKE_STUDY_SEQUENCES_H

#include "brake/duty.h"

/** A published fade sequence. To be checked against the current text.
 * @param index  0 and up
 * @return       the sequence; NULL past the last
 */
const struct brake_fade_sequence *brake_fade_sequence_at(int index);

/** Warnings of a duty, each with its number.
 * @param hot       vehicle and brakes
 * @param duty      what they went through
 * @param result    of it
 * @param warnings  room for BRAKE_DUTY_WARNINGS, filled from the start
 * @return          number of warnings
 */
int brake_duty_warnings(const struct brake_hot_rig *hot, const struct brake_duty *duty,
                        const struct brake_duty_result *result, struct brake_warning *warnings);

#endif
