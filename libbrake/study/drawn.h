/* SPDX-License-Identifier: MIT */
/* A spread, and what it says for its answer; private to the library. */
#ifndef BRAKE_STUDY_DRAWN_H
#define BRAKE_STUDY_DRAWN_H

#include "brake/criteria.h"
#include "inputs.h"
#include "brake/spread.h"
#include "brake/conformance.h"
#include "indices.h"

enum {
    BRAKE_SPREAD_RESULTS = 16,    /**< room for the headline results */
    BRAKE_SPREAD_BASE_SHARE = 16, /**< samples over base samples of the indices */
    BRAKE_PERCENTILES = 5         /**< 5, 25, 50, 75, 95 */
};

/** What came of one criterion or result. */
struct brake_spread_output {
    double judged;    /**< [-] share of samples that could be worked out */
    double met;       /**< [-] share of all samples that meet the criterion */
    double met_error; /**< [-] half width that holds the probability in 95 of 100 */
    double percentile[BRAKE_PERCENTILES]; /**< [SI] of the margin, or of the result */
};

/** A spread. */
struct brake_spread {
    struct brake_inputs inputs;
    struct brake_judgement judgement[BRAKE_CRITERIA]; /**< of the vehicle as stated; once drawn with
                                                         the words of conformance.h */
    struct brake_conformances conformance;            /**< what those follow from */
    unsigned rules;
    bool faded;
    long samples;
    long base; /**< base samples of the indices */
    uint64_t seed;
    int criteria;                     /**< of the library; those not drawn have no figures */
    int results;                      /**< headline results */
    int result[BRAKE_SPREAD_RESULTS]; /**< numbers of them in the result table */
    struct brake_spread_output output[BRAKE_CRITERIA + BRAKE_SPREAD_RESULTS]; /**< criteria first */
    double all_met;            /**< [-] share of samples that meet all they could be judged by */
    double all_met_error;      /**< [-] half width that holds the probability in 95 of 100 */
    void *room;                /**< of brake_spread_new */
    double *value;             /**< [SI] of each output, rising, NaN last; in the room */
    struct brake_index *index; /**< of each criterion for each share of inputs; in the room */
};

/** Percentiles that are given.
 * @param number  0 to BRAKE_PERCENTILES - 1
 * @return        [-] 0.05, 0.25, 0.50, 0.75, 0.95
 */
double brake_spread_percent(int number);

/** Whether a criterion is drawn: it belongs to the rules, and those of hot performance were asked
 * for. What decides a margin of hot performance is not worked out: it has no indices.
 * @param spread     prepared
 * @param criterion  number of the criterion
 * @return           true when it is
 */
bool brake_spread_draws(const struct brake_spread *spread, int criterion);

/** Criterion least often met; of equals, that of the least median margin.
 * @param spread  drawn
 * @return        number of the criterion; -1 when none could be judged
 */
int brake_spread_limiting(const struct brake_spread *spread);

/** What decides the uncertainty of a margin: inputs and causes by falling total index.
 * @param spread     drawn
 * @param criterion  number of the criterion
 * @param number     room for most, filled with numbers of shares, see brake_inputs_name
 * @param most       of them
 * @return           how many were filled; those of total index 0 are left out
 */
int brake_spread_leading(const struct brake_spread *spread, int criterion, int *number, int most);

/** Index of one share of the inputs for one criterion.
 * @param spread     drawn
 * @param criterion  number of the criterion
 * @param number     of the share
 * @return           its indices
 */
struct brake_index brake_spread_index(const struct brake_spread *spread, int criterion, int number);

/** Prepare a spread: nothing is drawn yet.
 * @param sheet    complete; must outlive the spread
 * @param options  what is to be drawn
 * @param spread   filled
 * @return         OK; E_RANGE for samples that brake_spread_wrong complains of; E_SIZE when more is
 *                 uncertain than BRAKE_INPUTS holds
 */
enum brake_status brake_spread_prepare(const struct brake_sheet *sheet,
                                       const struct brake_spread_options *options,
                                       struct brake_spread *spread);

/** Memory that a spread takes: 8 bytes a sample and output, and a part that does not grow with the
 * samples.
 * @param spread  prepared
 * @return        bytes
 */
size_t brake_spread_room(const struct brake_spread *spread);

/** Draw a prepared spread.
 * @param spread  prepared; filled
 * @param room    brake_spread_room() bytes, aligned as malloc does; must outlive the spread
 * @param watch   told the evaluations; NULL: nobody
 * @return        true; false when it was told to stop, and no figure is filled
 */
bool brake_spread_run(struct brake_spread *spread, void *room, const struct brake_watch *watch);

/** What its verdicts come to.
 * @param spread  drawn
 * @param ruling  filled
 */
void brake_spread_ruling(const struct brake_spread *spread, struct brake_ruling *ruling);

#endif
