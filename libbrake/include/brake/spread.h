/** @file spread.h
 * How sure a verdict is: every toleranced number of a vehicle is drawn at once, many times over.
 *
 * Samples are points of BRAKE_REPLICATES independently scrambled Sobol sequences of equal length.
 * Every estimate is taken over all of them, its error from their scatter. The same bytes for the
 * same vehicle, options and version, whatever the number of threads.
 */
#ifndef BRAKE_SPREAD_H
#define BRAKE_SPREAD_H

#include "brake/criteria.h"
#include "brake/indices.h"
#include "brake/inputs.h"

#ifdef __cplusplus
extern "C" {
#endif

enum {
    BRAKE_SPREAD_RESULTS = 16,    /**< room for the headline results */
    BRAKE_SPREAD_LEAST = 1024,    /**< fewest samples */
    BRAKE_SPREAD_MOST = 262144,   /**< most samples */
    BRAKE_SPREAD_BASE_SHARE = 16, /**< samples over base samples of the indices */
    BRAKE_PERCENTILES = 5         /**< 5, 25, 50, 75, 95 */
};

/** What is to be drawn. */
struct brake_spread_options {
    unsigned rules;                     /**< families of requirements, bits of enum brake_rules */
    long samples;                       /**< a power of two, BRAKE_SPREAD_LEAST to _MOST */
    uint64_t seed;                      /**< another seed, other samples */
    enum brake_shape shape[BRAKE_ROWS]; /**< of each quantity, by its index */
    bool faded;                         /**< hot performance too: fade procedures in every sample */
};

/** What came of one criterion or result. */
struct brake_spread_output {
    double judged;    /**< [-] share of samples in which it could be said */
    double met;       /**< [-] share of those that meet the criterion */
    double met_error; /**< [-] half width that holds the probability in 95 of 100 */
    double percentile[BRAKE_PERCENTILES]; /**< [SI] of the margin, or of the result */
};

/** A spread. */
struct brake_spread {
    struct brake_inputs inputs;
    struct brake_judgement judgement[BRAKE_CRITERIA]; /**< of the vehicle as stated */
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
    double *value;             /**< [SI] of each output, rising, NaN last; in the room */
    struct brake_index *index; /**< of each criterion for each share of inputs; in the room */
};

/** What is wrong with a number of samples.
 * @param samples  asked for
 * @return         in words; NULL when nothing is
 */
const char *brake_spread_wrong(long samples);

/** Prepare a spread: nothing is drawn yet.
 * @param sheet    complete; must outlive the spread
 * @param options  what is to be drawn
 * @param spread   filled
 * @return         OK; E_RANGE for samples that brake_spread_wrong complains of; E_SIZE when more is
 *                 doubtful than BRAKE_INPUTS holds
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

/** Exit status of a command that drew a spread.
 * @param spread  drawn
 * @return        1 when a requirement is met in fewer than 95 of 100 samples; else 3 when one that
 *                applies could not be judged in any; else 0
 */
int brake_spread_exit(const struct brake_spread *spread);

#ifdef __cplusplus
}
#endif

#endif
