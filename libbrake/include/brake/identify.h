/* SPDX-License-Identifier: MIT */
/** @file identify.h
 * Lines of a vehicle told by drives: what they were before and after, and how well the drives tell
 * them apart.
 *
 *   before    mean m and covariance C of the lines as their tolerances and shared causes have them
 *   after     m', C' of the same when the vehicle is drawn as its drives make likely
 *   learnt    1 - C'_ii / C_ii
 *   combinations of lines w, of the deviations from m over their standard deviations:
 *             w' C' w = (1 - share) w' C w, those of the largest share first
 *   condition (information of the first over that of the last)^(1/2), information = share / (1 -
 *             share)
 *
 * A share near 1: the drives tell that combination of lines; near 0: they tell nothing of it, and
 * the lines in it stay as they were. Both are moments of samples (samples.h).
 *
 * Source: Bayesian linear models, prior and posterior along the generalised eigenvectors: Spantini
 * et al., Optimal low-rank approximations of Bayesian linear inverse problems, 2015 (from memory).
 */
#ifndef BRAKE_IDENTIFY_H
#define BRAKE_IDENTIFY_H

#include "brake/catalogue.h"

#ifdef __cplusplus
extern "C" {
#endif

enum { BRAKE_IDENTIFY_LINES = 12 /**< most lines that are asked for together */ };

/** Mean and covariance of lines. */
struct brake_moments {
    double mean[BRAKE_IDENTIFY_LINES];                             /**< [SI] */
    double covariance[BRAKE_IDENTIFY_LINES][BRAKE_IDENTIFY_LINES]; /**< [SI] */
};

/** What drives tell of some lines. */
struct brake_identified {
    int count;                           /**< of lines */
    struct brake_moments before;         /**< by the lines alone */
    struct brake_moments after;          /**< with the drives */
    double learnt[BRAKE_IDENTIFY_LINES]; /**< [-] share of the variance of each that they took */
    double share[BRAKE_IDENTIFY_LINES];  /**< [-] the same of each combination, falling */
    double combination[BRAKE_IDENTIFY_LINES][BRAKE_IDENTIFY_LINES]; /**< [-] weights of the lines in
                                                                        each, the largest 1 */
    double condition; /**< [-] 1 and up; infinity: nothing is told of a combination */
};

/** What the drives that a vehicle has learned of tell of some lines.
 * @param sheet       complete, that has learned
 * @param line        of the catalogue, each uncertain and each once
 * @param count       1 to BRAKE_IDENTIFY_LINES
 * @param identified  filled
 * @param error       filled on refusal, naming the line
 * @return            OK; E_SIZE for the count; E_MISSING for a line that has no tolerance; E_FIT
 *                    when two of them are one and the same; E_MEMORY
 */
enum brake_status brake_identify(const struct brake_sheet *sheet, const int *line, int count,
                                 struct brake_identified *identified, struct brake_error *error);

#ifdef __cplusplus
}
#endif

#endif
