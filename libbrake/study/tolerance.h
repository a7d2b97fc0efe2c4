/* SPDX-License-Identifier: MIT */
/* How sure an answer is, to first order; private to the library. */
#ifndef BRAKE_STUDY_TOLERANCE_H
#define BRAKE_STUDY_TOLERANCE_H

#include "brake/tolerance.h"

/** What is asked of a vehicle again and again, with numbers moved by their uncertainty. */
struct brake_question {
    /** Fills count answers [SI] of a vehicle. */
    void (*ask)(const void *context, const struct brake_vehicle *vehicle, double *answer);
    const void *context;
    int count;                    /**< answers, at most BRAKE_ANSWERS */
    bool (*leave_out)(int index); /**< quantities taken as exact; NULL: none */
};

/** Standard deviations of answers.
 * @param sheet     complete
 * @param question  what is asked
 * @param sigma     [SI] room for its answers, filled
 * @source          JCGM 100 (GUM), sec. 5.1.2 and note 2 of 5.1.3, inputs not correlated
 */
void brake_uncertainty(const struct brake_sheet *sheet, const struct brake_question *question,
                       double *sigma);

#endif
