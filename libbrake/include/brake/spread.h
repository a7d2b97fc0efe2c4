/* SPDX-License-Identifier: MIT */
/** @file spread.h
 * How sure a verdict is: every toleranced number of a vehicle is drawn at once, many times over.
 *
 * Samples are points of 16 independently scrambled Sobol sequences of equal length. Every
 * estimate is taken over all of them, its error from their scatter. The same bytes for the same
 * vehicle, options and version, whatever the number of threads.
 */
#ifndef BRAKE_SPREAD_H
#define BRAKE_SPREAD_H

#include <stdbool.h>
#include <stdint.h>

#include "brake/catalogue.h"
#include "brake/distribution.h"
#include "brake/watch.h"

#ifdef __cplusplus
extern "C" {
#endif

enum {
    BRAKE_SPREAD_LEAST = 1024,  /**< fewest samples */
    BRAKE_SPREAD_MOST = 262144, /**< most samples */
};

/** What is to be drawn. */
struct brake_spread_options {
    unsigned rules;                     /**< families of requirements, bits of enum brake_rules */
    long samples;                       /**< a power of two, BRAKE_SPREAD_LEAST to _MOST */
    uint64_t seed;                      /**< another seed, other samples */
    enum brake_shape shape[BRAKE_ROWS]; /**< of each quantity, by its index */
    bool faded;                         /**< hot performance too: fade procedures in every sample */
};

/** What is wrong with a number of samples.
 * @param samples  asked for
 * @return         in words; NULL when nothing is
 */
const char *brake_spread_wrong(long samples);

/** A spread. */
struct brake_spread;

/** Make ready to draw: 8 bytes a sample and output, and a part that does not grow with the samples.
 * @param sheet    complete; must outlive the spread
 * @param options  what is to be drawn
 * @param status   filled: OK; E_RANGE for samples that brake_spread_wrong complains of; E_SIZE when
 *                 too much is uncertain; E_MEMORY
 * @return         the spread, to be freed by brake_spread_free; NULL when the status is not OK
 */
struct brake_spread *brake_spread_new(const struct brake_sheet *sheet,
                                      const struct brake_spread_options *options,
                                      enum brake_status *status);

/** Draw.
 * @param spread  ready; filled
 * @param watch   told the evaluations; NULL: nobody
 * @return        true; false when it was told to stop, and no figure is filled
 */
bool brake_spread_draw(struct brake_spread *spread, const struct brake_watch *watch);

/** Free a spread.
 * @param spread  of brake_spread_new; NULL does nothing
 */
void brake_spread_free(struct brake_spread *spread);

/** Exit status of a command that drew a spread.
 * @param spread  drawn
 * @return        1 when something that counts falls short; else 3 when something cannot be
 *                said; else 0
 */
int brake_spread_exit(const struct brake_spread *spread);

#ifdef __cplusplus
}
#endif

#endif
