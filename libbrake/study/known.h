/* SPDX-License-Identifier: MIT */
/* What a drive has told, in the samples of a vehicle; private to this folder. */
#ifndef BRAKE_STUDY_KNOWN_H
#define BRAKE_STUDY_KNOWN_H

#include "inputs.h"

enum { KNOWN_SIZE = BRAKE_KNOWN_DIRECTIONS };

/* Mark of the lines of a part: another number in any of them, another mark. 0 where a line stands
 * for itself. */
uint64_t known_mark(const struct brake_sheet *sheet, int index);

/* What has a score, as the vehicle has it now; nothing is told of it yet. */
struct brake_known known_of(const struct brake_inputs *inputs, int share);

/* Fills what has been learned of listed inputs from what their sheet knows: lines that are other
 * ones since are left out. */
void known_list(struct brake_inputs *inputs);

/* Whether what a drive told rests on so few samples that nothing may be said to be met by it. */
bool known_thin(const struct brake_knowledge *known);

/* Verdict of the drive itself: brakes that do less than their lines allow fall short; that they do
 * more cannot be. */
enum brake_verdict known_verdict(const struct brake_knowledge *known);

/* Middle of the score of a share, 0 where nothing was told of it. */
double known_shift(const struct brake_learned *learned, int share);

/* Shares as a drive makes them likely, from shares drawn alike; what comes back is one of the
 * two. */
const double *known_shares(const struct brake_inputs *inputs, const double *share, double *told);

#endif
