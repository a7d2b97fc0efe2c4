/* SPDX-License-Identifier: MIT */
/* Where the uncertainty of a result comes from: first-order and total Sobol indices of any model of
 * independent shares.
 *
 * The first-order index of an input is the part of the variance that vanishes, on average, once
 * this input alone is known; the total index is the part that stays while it alone is not known.
 * They differ by what the input does together with others.
 *
 * Private to the library. */
#ifndef BRAKE_STUDY_INDICES_H
#define BRAKE_STUDY_INDICES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "brake/watch.h"

enum {
    BRAKE_REPLICATES = 16,   /**< independent scrambles of every study by samples */
    BRAKE_MODEL_INPUTS = 256 /**< most inputs: two dimensions of the sequence each */
};

/** Indices of one input for one output; NaN when they cannot be given. */
struct brake_index {
    double first;       /**< [-] first order; noise may take it below 0 */
    double first_error; /**< [-] half width that holds the exact one in 95 of 100 */
    double total;       /**< [-] total, 0 and up */
    double total_error; /**< [-] half width of it */
};

/** A model. */
struct brake_model {
    int inputs;  /**< 1 to BRAKE_MODEL_INPUTS */
    int outputs; /**< 1 and up */
    /** One evaluation, from several threads at once.
     * share [-] above 0 and below 1; output [SI] filled, NaN where it cannot be said. */
    void (*run)(const void *context, const double *share, double *output);
    const void *context; /**< handed to it */
};

/** How indices are to be found. */
struct brake_indices_plan {
    long base;                       /**< base samples: a positive multiple of BRAKE_REPLICATES */
    uint64_t seed;                   /**< of the scrambles */
    void *room;                      /**< brake_indices_room() bytes, aligned as malloc does */
    const struct brake_watch *watch; /**< told the evaluations; NULL: nobody */
};

/** Memory that finding the indices of a model takes, whatever the number of samples.
 * @param model  the model
 * @return       bytes
 */
size_t brake_indices_room(const struct brake_model *model);

/** Evaluations that finding the indices of a model takes.
 * @param model  the model
 * @param base   base samples
 * @return       base x (inputs + 2), and one
 */
long brake_indices_cost(const struct brake_model *model, long base);

/** Indices of all inputs for all outputs. With f(A), f(B) the outputs at two independent samples
 * and f(A_B) that at A with one input of B, V the variance of the output and c its mean,
 *
 *     first = mean of (f(B) - c) (f(A_B) - f(A)) / V,   total = mean of (f(A_B) - f(A))^2 / 2 V
 *
 * Samples at which an output is not finite are left out for that output; its indices are given when
 * no more than 1 of 10 is. Errors come from the scatter of the replicates, effects and variance of
 * each together. The same for any number
 * of threads.
 * @param model  the model
 * @param plan   how
 * @param index  outputs x inputs, those of one output together; filled
 * @return       true; false when it was told to stop, and nothing is filled
 * @source       A. Saltelli et al., Comput. Phys. Commun. 181, 259-270 (2010), table 2 (b) and (f)
 *               (the latter by M. J. W. Jansen, Comput. Phys. Commun. 117, 35-43 (1999)), from
 *               memory
 */
bool brake_indices(const struct brake_model *model, const struct brake_indices_plan *plan,
                   struct brake_index *index);

#endif
