/* SPDX-License-Identifier: MIT */
/* What to measure, from the drawing of a vehicle; private to the library. */
#ifndef BRAKE_STUDY_MEASURING_H
#define BRAKE_STUDY_MEASURING_H

#include "brake/measuring.h"
#include "inputs.h"

/** A requirement as seen by its margin's normal score: met where that is above a threshold. */
struct brake_measuring_row {
    int criterion;
    double threshold;        /**< [-] normal score from which on it is met */
    const double *part;      /**< [-] correlation of the score with each share of the inputs */
    enum brake_verdict word; /**< that it has now */
};

/** Choose the lines whose knowledge changes most words.
 *
 * The score of a margin and the scores of what is uncertain are taken as jointly normal. A line
 * that is measured takes its part out of the scatter of the score, less what the usual tolerance of
 * a measurement leaves; the probability that P then stands on the other side of 95 or of 50 of 100
 * follows in closed form. Lines are taken one by one, that with the largest gain for what it costs
 * to get it first.
 * @param inputs     listed
 * @param row        requirements that are looked at
 * @param rows       of them, at most BRAKE_CRITERIA
 * @param measuring  filled
 * @source           H. Raiffa and R. Schlaifer, Applied Statistical Decision Theory (1961), ch. 4
 *                   and 5 (preposterior analysis), from memory
 */
void brake_measuring_find(const struct brake_inputs *inputs, const struct brake_measuring_row *row,
                          int rows, struct brake_measuring *measuring);

#endif
