/* SPDX-License-Identifier: MIT */
/** @file paper.h
 * The report for inspection: one vehicle on paper, with pictures, inputs, and blanks to fill in.
 */
#ifndef BRAKE_PAPER_H
#define BRAKE_PAPER_H

#include "brake/answer.h"
#include "brake/compare.h"
#include "brake/repair.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Duties whose history the report shows. */
enum brake_paper_duty {
    BRAKE_PAPER_STOP,    /**< one hardest stop */
    BRAKE_PAPER_FADE,    /**< the snubs of the fade procedure that the vehicle is judged by */
    BRAKE_PAPER_DESCENT, /**< a long way down */
    BRAKE_PAPER_DUTIES
};

/** What the report is made from. */
struct brake_paper {
    const struct brake_sheet *sheet;
    const struct brake_assessment *assessment;
    const struct brake_sheet *before;                 /**< the vehicle before it was changed;
                                                             NULL: not given */
    const struct brake_assessment *before_assessment; /**< NULL as well then */
    const struct brake_comparison *comparison; /**< of both, margins of criteria only, their shares
                                                  worked out; NULL as well */
    const struct brake_duty_report *duty[BRAKE_PAPER_DUTIES]; /**< NULL: could not be run */
    const struct brake_drive_report *drive;                   /**< NULL: no log was given */
    const char *lacking[BRAKE_PAPER_DUTIES]; /**< why such a duty could not be run */
    const char *file;                        /**< name of the vehicle file; NULL: none */
    const char *before_file;                 /**< NULL: none */
    const char *drive_file;                  /**< of the log of a drive; NULL: none */
    const struct brake_log *log;             /**< that the vehicle names, for the page to carry */
    const struct brake_log *before_log;      /**< that the vehicle before names; NULL: none */
    const char *date;                        /**< of the report, in words */
};

/** A duty of the report, and what came of it. */
struct brake_paper_run {
    enum brake_load load;
    struct brake_hot_rig hot;
    struct brake_duty duty;
    struct brake_duty_result result;
    struct brake_history history;
    struct brake_duty_report report;
    char lacking[600]; /**< why it could not be run; empty when it was */
};

/** What a filled paper points to. Large. */
struct brake_paper_room {
    struct brake_assessment assessment;
    struct brake_assessment before_assessment;
    struct brake_comparison comparison;
    struct brake_before loss;
    struct brake_repair repair;
    struct brake_paper_run run[BRAKE_PAPER_DUTIES];
};

/** Work out what the report shows: the assessments, hot performance too, what each change gave or
 * took, and the duties.
 * @param paper  its sheet and date, and the vehicle before, the drive and the names where there are
 *               such; the rest NULL, and filled
 * @param rules  families to judge by, bits of enum brake_rules
 * @param load   load case of stop and descent; the fade procedure is run fully loaded
 * @param room   filled; must stay where it is as long as the paper is used, and is to be freed by
 *               brake_paper_free whatever the status
 * @return       OK; E_MEMORY; E_SIZE when too much is uncertain to draw both vehicles at once
 */
enum brake_status brake_paper_fill(struct brake_paper *paper, unsigned rules, enum brake_load load,
                                   struct brake_paper_room *room);

/** Free what a paper was filled with.
 * @param room  filled
 */
void brake_paper_free(struct brake_paper_room *room);

/** The report for inspection. It draws on the paper as long as the document is printed.
 * @param document  filled
 * @param paper     filled
 */
void brake_answer_report(struct brake_document *document, const struct brake_paper *paper);

#ifdef __cplusplus
}
#endif

#endif
