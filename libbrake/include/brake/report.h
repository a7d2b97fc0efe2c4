/** @file report.h
 * An assessment in words for people, and as JSON.
 */
#ifndef BRAKE_REPORT_H
#define BRAKE_REPORT_H

#include <stdio.h>

#include "brake/assessment.h"
#include "brake/compare.h"
#include "brake/duty.h"
#include "brake/log.h"
#include "brake/shakedown.h"
#include "brake/size.h"
#include "brake/spread.h"
#include "brake/sweep.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Write an assessment as plain text of 80 columns: verdict, limiting item and next measurement
 * first, caution always.
 * @param sheet       complete
 * @param assessment  of that sheet
 * @param stream      open for writing
 */
void brake_report_text(const struct brake_sheet *sheet, const struct brake_assessment *assessment,
                       FILE *stream);

/** An assessment as one JSON object: libbrake (version), vehicle, results, criteria, warnings,
 * inspector, summary, caution. Numbers are SI; what is not known is null.
 * @param sheet       complete
 * @param assessment  of that sheet
 * @param compact     true: on one line
 * @return            text to be freed by the caller; NULL when memory is short
 */
char *brake_report_json(const struct brake_sheet *sheet, const struct brake_assessment *assessment,
                        bool compact);

/** A duty that was run, and its history. */
struct brake_duty_report {
    const struct brake_sheet *sheet;
    enum brake_load load;
    const struct brake_hot_rig *hot;
    const struct brake_duty *duty;
    const struct brake_duty_result *result;
    const struct brake_duty_row *row; /**< the history */
    long rows;
};

/** The history of a duty in memory. */
struct brake_history {
    struct brake_duty_row *row; /**< to be freed by the caller, with free() */
    long rows;
    bool short_of_memory; /**< no row is left then */
};

/** Keep a row: a watch of brake_duty_run whose context is a history.
 * @param context  a struct brake_history, cleared at first
 * @param row      to keep
 */
void brake_history_keep(void *context, const struct brake_duty_row *row);

/** Write a duty as plain text of 80 columns, with a chart of the temperatures; caution always.
 * @param report  the duty
 * @param stream  open for writing
 */
void brake_report_duty_text(const struct brake_duty_report *report, FILE *stream);

/** Write the history of a duty as CSV, units in its header.
 * @param report  the duty
 * @param stream  open for writing
 */
void brake_report_duty_csv(const struct brake_duty_report *report, FILE *stream);

/** A duty as one JSON object: libbrake (version), caution, summary, vehicle, results, warnings.
 * Numbers are SI; what is not known is null.
 * @param report  the duty
 * @return        text to be freed by the caller; NULL when memory is short
 */
char *brake_report_duty_json(const struct brake_duty_report *report);

/** Write a spread as plain text of 80 columns: how often the requirements are met, the limiting one
 * and what decides its doubt first; caution always.
 * @param spread  drawn
 * @param stream  open for writing
 */
void brake_report_spread_text(const struct brake_spread *spread, FILE *stream);

/** A spread as one JSON object: libbrake (version), caution, summary, samples, base_samples,
 * replicates, seed, inputs, causes, criteria, results, sensitivity. Numbers are SI; what is not known,
 * or has no end, is null.
 * @param spread  drawn
 * @return        text to be freed by the caller; NULL when memory is short
 */
char *brake_report_spread_json(const struct brake_spread *spread);

/** Header of a sweep as CSV: axes in their own units, outputs in SI units, then `note`.
 * @param sweep  what is swept
 * @return       one line with its end, to be freed by the caller; NULL when memory is short
 */
char *brake_report_sweep_head(const struct brake_sweep *sweep);

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

/** What was sized: one quantity over a range, or lists, or tyres; the other pointers are NULL. */
struct brake_size_report {
    const struct brake_sheet *sheet;
    const struct brake_target *target;
    int targets;
    const struct brake_size_question *question; /**< one quantity over a range, */
    const struct brake_size *size;              /**< and its answer */
    const struct brake_choice_question *lists;  /**< lists, */
    const struct brake_choice *choice;          /**< those that work, */
    int choices;
    const struct brake_choice_count *count; /**< and how all fared */
    const struct brake_tyre_choice *tyre;   /**< tyres, smallest first */
    int tyres;
};

/** Write what was sized as plain text of 80 columns: the answer in a sentence, the caution, details.
 * @param report  what was sized
 * @param stream  open for writing
 */
void brake_report_size_text(const struct brake_size_report *report, FILE *stream);

/** What was sized as one JSON object: libbrake (version), caution, by, for, within, answers, limits,
 * changes, combinations. Numbers are SI; what is not known is null.
 * @param report  what was sized
 * @return        text to be freed by the caller; NULL when memory is short
 */
char *brake_report_size_json(const struct brake_size_report *report);

/** Exit status of a command that sized something.
 * @param report  what was sized
 * @return        0 there is an answer; 1 there is none; 3 it cannot be said
 */
int brake_report_size_exit(const struct brake_size_report *report);

/** A drive that was held against the prediction. */
struct brake_drive_report {
    const struct brake_sheet *sheet;
    enum brake_load load;
    const struct brake_log *log;
    const struct brake_drive *drive; /**< compared */
};

/** Write a drive as plain text of 80 columns: verdict first, then stop by stop; caution always.
 * @param report  the drive
 * @param stream  open for writing
 */
void brake_report_drive_text(const struct brake_drive_report *report, FILE *stream);

/** A drive as one JSON object: libbrake (version), caution, summary, vehicle, results, stops,
 * repeatability, notes. Numbers are SI; what is not known is null.
 * @param report  the drive
 * @return        text to be freed by the caller; NULL when memory is short
 */
char *brake_report_drive_json(const struct brake_drive_report *report);

/** Write the plan of a shakedown drive as one page for print.
 * @param sheet   complete
 * @param plan    of that sheet
 * @param stream  open for writing
 */
void brake_report_shakedown_html(const struct brake_sheet *sheet,
                                 const struct brake_shakedown *plan, FILE *stream);

/** Write the same as plain text of 80 columns.
 * @param sheet   complete
 * @param plan    of that sheet
 * @param stream  open for writing
 */
void brake_report_shakedown_text(const struct brake_sheet *sheet,
                                 const struct brake_shakedown *plan, FILE *stream);

/** The same as one JSON object: libbrake (version), caution, load, lock_deceleration, standing, stages,
 * bedding, vehicle. Numbers are SI; what is not known is null.
 * @param sheet  complete
 * @param plan   of that sheet
 * @return       text to be freed by the caller; NULL when memory is short
 */
char *brake_report_shakedown_json(const struct brake_sheet *sheet,
                                  const struct brake_shakedown *plan);

/** Write a comparison as plain text of 80 columns: what was lost and which change took it first,
 * caution always.
 * @param comparison  with its shares
 * @param stream      open for writing
 */
void brake_report_comparison_text(const struct brake_comparison *comparison, FILE *stream);

/** A comparison as one JSON object: libbrake (version), caution, verdict, before, after, groups,
 * like_for_like, margins, results, lines. Numbers are SI; what is not known is null.
 * @param comparison  with its shares
 * @return            text to be freed by the caller; NULL when memory is short
 */
char *brake_report_comparison_json(const struct brake_comparison *comparison);

#ifdef __cplusplus
}
#endif

#endif
