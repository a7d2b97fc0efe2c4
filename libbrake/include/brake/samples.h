/* SPDX-License-Identifier: MIT */
/** @file samples.h
 * Samples of a vehicle as numbers: everything uncertain about it drawn at once, what its lines were
 * in each sample, and what came out. What brake_spread_draw draws with the same seed, shapes and
 * number are these samples; shared causes and what a drive has told are in them.
 */
#ifndef BRAKE_SAMPLES_H
#define BRAKE_SAMPLES_H

#include <stdint.h>

#include "brake/catalogue.h"
#include "brake/distribution.h"
#include "brake/output.h"
#include "brake/watch.h"

#ifdef __cplusplus
extern "C" {
#endif

/** What is to be drawn. */
struct brake_samples_options {
    unsigned rules; /**< families whose margins can be asked for, bits of brake_rules */
    long samples;   /**< as of a spread: brake_spread_wrong complains of others */
    uint64_t seed;  /**< another seed, other samples */
    const enum brake_shape *shape;     /**< of each quantity, by its index; NULL: all normal */
    const struct brake_output *output; /**< results as the lines give them; margins of criteria, the
                                            model's own error in them */
    int outputs;                       /**< 0 to BRAKE_OUTPUTS */
};

/** Samples that can be drawn. */
struct brake_samples;

/** List what is uncertain.
 * @param sheet    complete; must outlive the samples
 * @param options  what is to be drawn; must outlive the samples
 * @param status   filled: OK; E_RANGE: not that many samples; E_SIZE: too much is uncertain, or too
 *                 many outputs; E_MEMORY
 * @return         the samples, to be freed by brake_samples_free; NULL when the status is not OK
 */
struct brake_samples *brake_samples_new(const struct brake_sheet *sheet,
                                        const struct brake_samples_options *options,
                                        enum brake_status *status);

/** How many lines of the file are uncertain: toleranced numbers, and choices that were left out.
 * @param samples  listed
 * @return         count
 */
int brake_samples_lines(const struct brake_samples *samples);

/** Index of an uncertain line in the catalogue.
 * @param samples  listed
 * @param number   0 to brake_samples_lines() - 1
 * @return         index
 */
int brake_samples_line(const struct brake_samples *samples, int number);

/** Draw. Hot performance that is asked for runs a fade procedure in every sample.
 * @param samples  listed
 * @param watch    told the samples; NULL: nobody
 * @param line     [SI] room for samples * lines, sample by sample: what each line was, of a choice
 *                 its number; NULL: not asked
 * @param output   [SI] room for samples * outputs, sample by sample; NaN where it cannot be said,
 *                 infinity where the criterion does not apply to the sample; NULL: not asked
 * @return         true; false when it was told to stop
 */
bool brake_samples_draw(const struct brake_samples *samples, const struct brake_watch *watch,
                        double *line, double *output);

/** Free samples.
 * @param samples  of brake_samples_new; NULL does nothing
 */
void brake_samples_free(struct brake_samples *samples);

#ifdef __cplusplus
}
#endif

#endif
