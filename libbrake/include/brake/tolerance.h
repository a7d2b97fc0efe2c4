/* SPDX-License-Identifier: MIT */
/** @file tolerance.h
 * How sure an answer is, to first order: every tolerance is moved in turn and the moves are added
 * up in squares. For answers that no limit bends; verdicts are drawn, see conformance.h.
 *
 * Each uncertain number is moved by one standard deviation, half its tolerance, both ways; half the
 * difference is its part. One way alone would take a bend nearby, such as a stroke that runs out,
 * for a slope.
 */
#ifndef BRAKE_TOLERANCE_H
#define BRAKE_TOLERANCE_H

#include <stdbool.h>

#include "brake/catalogue.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Standard deviations from the middle to the 95th of 100 of a normal distribution, as which
 * margins are taken; source: Abramowitz and Stegun, table 26.5. */
#define BRAKE_P95 1.6448536269514722

/** Whether a number is uncertain by itself. A worked value whose tolerance comes from raw readings
 * moves with those.
 * @param record  of a number
 * @return        true when it has a tolerance of its own
 */
bool brake_record_moves(const struct brake_record *record);

enum { BRAKE_ANSWERS = 256 /**< most answers of a question */ };

#ifdef __cplusplus
}
#endif

#endif
