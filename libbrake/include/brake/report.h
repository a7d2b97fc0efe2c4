/* SPDX-License-Identifier: MIT */
/** @file report.h
 * A sweep as CSV, streamed: it is too long for a document.
 */
#ifndef BRAKE_REPORT_H
#define BRAKE_REPORT_H

#include <stdio.h>

#include "brake/sweep.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Header of a sweep as CSV: axes in their own units, outputs in SI units, then `note`.
 * @param sweep  what is swept
 * @return       one line with its end, to be freed by the caller; NULL when memory is short
 */
char *brake_report_sweep_head(const struct brake_sweep *sweep);

/** First line of a sweep's file, which begins with #: version, digest of the vehicle, the axes and
 * the results, caution. Two sweeps whose rows may differ have two digests.
 * @param sweep  what is swept
 * @return       one line with its end, to be freed by the caller; NULL when memory is short
 */
char *brake_report_sweep_mark(const struct brake_sweep *sweep);

/** Row of a case as CSV. Numbers read back exactly; what cannot be said is an empty cell. Of a case
 * that the vehicle refuses all outputs are empty, and the note says why.
 * @param sweeper  ready; works the case out
 * @param number   of the case
 * @return         one line with its end, to be freed by the caller; NULL when memory is short
 */
char *brake_report_sweep_row(struct brake_sweeper *sweeper, long long number);

/** How far a sweep came. */
struct brake_sweep_tally {
    long long rows;    /**< written */
    long long refused; /**< of them, by the vehicle */
    bool short_of_memory;
};

/** Write the rows of a sweep as CSV, the same bytes for any number of threads, in memory that does
 * not grow with the number of cases.
 * @param sweeper  ready; not changed
 * @param first    case to begin with
 * @param threads  1 and up
 * @param watch    progress and stop; it ends at a whole row
 * @param stream   open for writing; an error of it ends the rows
 * @return         how far it came
 */
struct brake_sweep_tally brake_report_sweep_rows(const struct brake_sweeper *sweeper,
                                                 long long first, int threads,
                                                 const struct brake_watch *watch, FILE *stream);

#ifdef __cplusplus
}
#endif

#endif
