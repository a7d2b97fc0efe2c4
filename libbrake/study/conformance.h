/* SPDX-License-Identifier: MIT */
/* Drawing a vehicle for its verdicts; private to the library. */
#ifndef BRAKE_STUDY_CONFORMANCE_H
#define BRAKE_STUDY_CONFORMANCE_H

#include "brake/conformance.h"
#include "inputs.h"
#include "sobol.h"

enum { BRAKE_SAMPLES_KEPT = 1024 /**< whose margins are kept, to see what moves them */ };

/** Room for the drawing. */
struct brake_conformance_room {
    struct brake_inputs inputs;
    struct brake_sobol sobol;
    double margin[BRAKE_SAMPLES_KEPT][BRAKE_CRITERIA]; /**< of the first samples */
    double block[BRAKE_SAMPLES_LEAST][BRAKE_CRITERIA]; /**< of samples that are drawn at a time */
    double own[BRAKE_SAMPLES_KEPT];                    /**< of one criterion */
    double product[BRAKE_CRITERIA][BRAKE_INPUTS]; /**< of the ranks of margins and the inputs */
    long met[BRAKE_CRITERIA];
    long failed[BRAKE_CRITERIA];
};

/** What is to be judged. */
struct brake_conformance_options {
    unsigned rules;                  /**< families, bits of enum brake_rules; hazards always */
    bool faded;                      /**< hot performance too */
    const struct brake_watch *watch; /**< told the samples, may stop them; NULL: nobody */
};

/** Steps at which the distribution of a margin is given.
 * @param number  0 to BRAKE_MARGIN_STEPS - 1
 * @return        [-] share that lies below, 0.05 to 0.95
 */
double brake_conformance_step(int number);

/** Whether a row counts and was drawn.
 * @param judgement    of it
 * @param conformance  of it
 * @return             true when its word follows from samples, and is one of the verdict's
 */
bool brake_conformance_counts(const struct brake_judgement *judgement,
                              const struct brake_conformance *conformance);

/** Nothing drawn yet.
 * @param conformance  filled: no samples, NaN, no leading line
 */
void brake_conformance_clear(struct brake_conformances *conformance);

/** Draw a vehicle and put the words into its judgements.
 * @param sheet        complete
 * @param options      what is to be judged
 * @param room         for the drawing
 * @param judgement    at face value, by number of the criterion; their verdicts are put right
 * @param conformance  filled
 * @return             true; false when it was told to stop, and nothing is filled that may be used
 */
bool brake_conformance_draw(const struct brake_sheet *sheet,
                            const struct brake_conformance_options *options,
                            struct brake_conformance_room *room, struct brake_judgement *judgement,
                            struct brake_conformances *conformance);

/** The interval that holds a share in 99 of 100, from a count.
 * @param met      samples that meet
 * @param samples  of them all, 1 and up
 * @param low      [-] filled
 * @param high     [-] filled
 * @source         E. B. Wilson, J. Amer. Statist. Assoc. 22, 209 (1927); JCGM 106 leaves the choice
 *                 open
 */
void brake_conformance_interval(long met, long samples, double *low, double *high);

/** The word for a share that was counted.
 * @param low  [-] lower end of the interval that holds it in 99 of 100
 * @return     what follows from the least that P may be
 */
enum brake_verdict brake_conformance_word(double low);

/** What is open: more samples could give another word.
 * @param low   [-] lower end of the interval
 * @param high  [-] upper end
 * @return      true when a limit of the words lies between them
 */
bool brake_conformance_open(double low, double high);

#endif
