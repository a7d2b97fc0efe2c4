/* SPDX-License-Identifier: MIT */
/* Hot performance: a published fade procedure run on a vehicle at its rated mass.
 *
 * A cold stop; the heating snubs, and beside the procedure half an hour parked right after them; a
 * stop at the mean pedal force of the cold one and a stop at the most that is allowed; cooling
 * stops; a last stop at the cold one's force. All stops are at incipient lock. A stop that fluid
 * or brakes cannot give counts as none. FMVSS 135, S7.13 to S7.16; UN R13-H, Annex 3, 1.5; UN R13,
 * Annex 4, 1.5: from memory, check against the current text.
 *
 * Private to the library. */
#ifndef BRAKE_STUDY_PROCEDURE_H
#define BRAKE_STUDY_PROCEDURE_H

#include "brake/assessment.h"
#include "brake/duty.h"
#include "brake/watch.h"
#include "model/braking_lanes.h"

/** What came of a fade procedure. */
struct brake_fade {
    struct brake_hot_figures figures;
    enum brake_load load;             /**< that it is run at */
    struct brake_duty snubs;          /**< as they are run, and the parking */
    struct brake_duty_result heating; /**< what came of them; duration 0: not run */
    double cold_force;                /**< [N] mean pedal force of the cold stop */
    double residual;                  /**< [-] largest of all parts */
    struct brake_warning warning[BRAKE_DUTY_WARNINGS]; /**< of the snubs, or what is missing */
    int warnings;                                      /**< how many there are */
};

/** Parts of a procedure, as bits. What is left out costs nothing and changes nothing else. */
enum brake_fade_part {
    BRAKE_FADE_STOPS = 1,   /**< all stops and snubs */
    BRAKE_FADE_PARKED = 2,  /**< after the snubs: how hot all gets, for the results */
    BRAKE_FADE_DESCENT = 4, /**< over worn linings: figures.fluid_room */
    BRAKE_FADE_WHOLE = 7
};

/** The part that a criterion of hot performance is judged by.
 * @param criterion  which
 * @return           BRAKE_FADE_STOPS or BRAKE_FADE_DESCENT
 */
unsigned brake_fade_part_of(const struct brake_criterion *criterion);

/** What the warning of a procedure that heat does not allow begins with; the reason follows. */
#define BRAKE_FADE_NONE "No fade procedure: "

/** Run a fade procedure.
 * @param vehicle  complete
 * @param kind     whose procedure
 * @param parts    of enum brake_fade_part
 * @param watch    told how many of its parts are done, and may stop it; NULL: nobody
 * @param rows     shown the rows of the snubs and of the parking; NULL: nobody
 * @param fade     filled; figures.lacks says why when it cannot be run
 */
void brake_fade_run(const struct brake_vehicle *vehicle, enum brake_fade_kind kind, unsigned parts,
                    const struct brake_watch *watch, const struct brake_duty_watch *rows,
                    struct brake_fade *fade);

/** Procedures of several vehicles, run side by side: none depends on those beside it. */
struct brake_fades {
    const struct brake_vehicle *const *vehicle; /**< complete */
    int count;                                  /**< 1 to BRAKE_TOGETHER of model/braking_lanes.h */
    enum brake_fade_kind kind;                  /**< whose procedure */
    unsigned parts;                             /**< of enum brake_fade_part */
    bool coarse; /**< true: for the figures alone, of vehicles of many: longer steps. Of 35,771
                      margins of samples of the vehicles of the tree 99.9 % came out within 0.0008
                      of those by short steps, one of a test's within 0.003. Of 10,000 random
                      vehicles distances came out within 0.11 % of those by steps of 0.02 s at
                      0.001 K, 99 of 100 within 0.05 % */
    void (*take)(void *context, int number, const struct brake_fade *fade); /**< is given each */
    void *context;                                                          /**< handed to it */
};

/** Run them.
 * @param fades  what is run
 */
void brake_fade_run_all(const struct brake_fades *fades);

/** Procedure of a vehicle's own category, whose figures are its results.
 * @param vehicle  complete
 * @return         the procedure
 */
enum brake_fade_kind brake_fade_own(const struct brake_vehicle *vehicle);

/** Put the figures of a procedure among the results of a vehicle.
 * @param fade     run; one that lacks something changes nothing
 * @param results  those of the fade procedure are filled
 */
void brake_fade_results(const struct brake_fade *fade, struct brake_common_results *results);

/** Run what the criteria of an assessment need, judge them, and put the results of the vehicle's
 * own category and the warnings into it.
 * @param sheet       complete
 * @param watch       of the longest part; NULL: nobody
 * @param assessment  as brake_assess left it
 */
void brake_assess_fade(const struct brake_sheet *sheet, const struct brake_watch *watch,
                       struct brake_assessment *assessment);

/** The same, and show the procedure of the vehicle's own category.
 * @param sheet       complete
 * @param watch       of the longest part; NULL: nobody
 * @param rows        as in brake_fade_run; NULL: nobody
 * @param assessment  as brake_assess left it
 * @param own         filled with that procedure
 */
void brake_assess_fade_shown(const struct brake_sheet *sheet, const struct brake_watch *watch,
                             const struct brake_duty_watch *rows,
                             struct brake_assessment *assessment, struct brake_fade *own);

/** Judge a vehicle by the criteria of hot performance; the others stay as they are.
 * @param sheet      complete
 * @param rules      families to judge by, bits of enum brake_rules
 * @param judgement  as brake_judge_all left it, by number of the criterion
 * @param results    those of the fade procedure are filled
 */
void brake_fade_judge(const struct brake_sheet *sheet, unsigned rules,
                      struct brake_judgement *judgement, struct brake_results *results);

#endif
