/* SPDX-License-Identifier: MIT */
/** @file answer.h
 * The answers of the studies as documents. Each function fills a new document; brake_document_print
 * prints it as text, JSON, HTML or CSV.
 */
#ifndef BRAKE_ANSWER_H
#define BRAKE_ANSWER_H

#include "brake/assessment.h"
#include "brake/compare.h"
#include "brake/cooldown.h"
#include "brake/document.h"
#include "brake/duty.h"
#include "brake/log.h"
#include "brake/shakedown.h"
#include "brake/size.h"
#include "brake/spread.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Which trade leads in what people read of a vehicle: that in which its file gives more lines.
 * @param sheet  of a file
 * @return       SI_FIRST or US_FIRST
 */
enum brake_systems brake_answer_systems(const struct brake_sheet *sheet);

/** What `check` prints first: the verdict, what limits, what to do and to measure, and what is not
 * met for sure; 24 lines of 80 columns.
 * @param document    filled
 * @param sheet       complete
 * @param assessment  of it, drawn
 */
void brake_answer_first_screen(struct brake_document *document, const struct brake_sheet *sheet,
                               const struct brake_assessment *assessment);

/** What is said of one vehicle: verdict, limiting requirement, next measurement; requirements,
 * warnings, results, lines, what only an inspector can judge.
 * @param document    filled
 * @param sheet       complete
 * @param assessment  of that sheet
 */
void brake_answer_check(struct brake_document *document, const struct brake_sheet *sheet,
                        const struct brake_assessment *assessment);

/** What was lost between two vehicles and which change took it; like for like, margins, results and
 * lines that differ.
 * @param document    filled
 * @param comparison  with its shares
 * @param before      of it: how sure the loss or the gain is
 */
void brake_answer_comparison(struct brake_document *document,
                             const struct brake_comparison *comparison,
                             const struct brake_before *before);

/** One of several ways to change the same vehicle. */
struct brake_kit {
    const char *file; /**< as it is told of */
    const struct brake_sheet *sheet;
    const struct brake_assessment *assessment; /**< held against what it was before */
};

enum { BRAKE_KITS = 6 /**< most that are held side by side */ };

/** Several changed vehicles beside the one that they were: torque per need regained, verdict, each
 * requirement that one of them does not meet, and the lines in which they differ.
 * @param document  filled
 * @param before    the vehicle that all of them were, complete
 * @param kit       the changed ones
 * @param kits      how many, at most BRAKE_KITS
 */
void brake_answer_kits(struct brake_document *document, const struct brake_sheet *before,
                       const struct brake_kit *kit, int kits);

/** How often the requirements are met, the limiting one and what decides it; percentiles of
 * results.
 * @param document  filled
 * @param spread    drawn
 */
void brake_answer_spread(struct brake_document *document, const struct brake_spread *spread);

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

/** What must be fitted: the answer in a sentence, what limits, what else changes.
 * @param document  filled
 * @param report    what was sized
 */
void brake_answer_size(struct brake_document *document, const struct brake_size_report *report);

/** Exit status of a command that sized something.
 * @param report  what was sized
 * @return        0 there is an answer; 1 there is none; 3 it cannot be said
 */
int brake_size_report_exit(const struct brake_size_report *report);

/** The plan of a shakedown drive, for print.
 * @param document    filled
 * @param sheet       complete
 * @param assessment  of that sheet
 * @param plan        of that sheet
 */
void brake_answer_shakedown(struct brake_document *document, const struct brake_sheet *sheet,
                            const struct brake_assessment *assessment,
                            const struct brake_shakedown *plan);

/** A duty that was run, and its history. */
struct brake_duty_report {
    const struct brake_sheet *sheet;
    enum brake_load load;
    const struct brake_hot_rig *hot;
    const struct brake_duty *duty;
    const struct brake_duty_result *result;
    const struct brake_duty_row *row; /**< the history */
    long rows;
    const struct brake_written_drive *written; /**< the file of a drive; NULL: there is none */
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

/** How hot the brakes get in a duty, what the driver has to do, a chart, warnings.
 * @param document  filled; it draws on the report as long as it is printed
 * @param report    the duty
 */
void brake_answer_heat(struct brake_document *document, const struct brake_duty_report *report);

/** The history of a duty: a table, a row an instant.
 * @param document  filled
 * @param report    the duty
 */
void brake_answer_history(struct brake_document *document, const struct brake_duty_report *report);

/** A cool-down that was measured. */
struct brake_cooldown_report {
    const struct brake_sheet *sheet;
    const struct brake_log *log;
    const struct brake_cooldown *cooldown;
};

/** What factor on the cooling by air a cool-down tells, how surely, and the line to write.
 * @param document  filled
 * @param report    the cool-down
 */
void brake_answer_cooldown(struct brake_document *document,
                           const struct brake_cooldown_report *report);

/** A drive that was held against the prediction. */
struct brake_drive_report {
    const struct brake_sheet *sheet;
    enum brake_load load;
    const struct brake_log *log;
    const struct brake_drive *drive; /**< compared */
    const struct brake_ruling *now;  /**< what the verdicts come to without heat; NULL: not asked */
};

/** Whether a drive agrees with the prediction; stop by stop, repeatability, fade, friction.
 * @param document  filled
 * @param report    the drive
 */
void brake_answer_drive(struct brake_document *document, const struct brake_drive_report *report);

#ifdef __cplusplus
}
#endif

#endif
