/** @file sureness.h
 * How sure a verdict is, and the word that follows from it.
 *
 * Everything doubtful about a vehicle is drawn at once: what was measured within its tolerance,
 * what was left out within the interval of its usual value, shared causes kept, the model's own
 * error too. P is the share of samples that meet a requirement; one that cannot be worked out does
 * not meet it.
 *
 * The word: `meets` where P is at least 95 of 100, `falls short` where it is below 50, `cannot say`
 * between them or when an input is missing. It is given when the interval that holds P in 99 of 100
 * says so; otherwise twice as many samples are drawn, up to BRAKE_SURE_MOST, and what is still open
 * takes the worse word. A requirement that lacks one line and is missed over the whole range that
 * the line accepts falls short. This is the guarded decision rule of metrology (JCGM 106:2012, sec.
 * 8; ISO 14253-1), asymmetric to the safe side. The same samples, and so the same word, in every
 * study.
 */
#ifndef BRAKE_SURENESS_H
#define BRAKE_SURENESS_H

#include "brake/inputs.h"
#include "brake/sobol.h"
#include "brake/watch.h"

#ifdef __cplusplus
extern "C" {
#endif

enum {
    BRAKE_SURE_LEAST = 256, /**< samples to begin with */
    BRAKE_SURE_MOST = 4096, /**< and at the most */
    BRAKE_SURE_HOT = 128,   /**< of hot performance: each is a whole fade procedure */
    BRAKE_SURE_STEPS = 7    /**< of the distribution of a margin: 5, 10, 25, 50, 75, 90, 95 of
                                 100 */
};

/** How sure the verdict of one criterion is; NaN and 0 where none was judged. */
struct brake_sureness {
    double met;                      /**< [-] P, share of samples that meet it */
    double met_low;                  /**< [-] lower end of the interval that holds P in 99 of 100 */
    double met_high;                 /**< [-] upper end */
    double margin[BRAKE_SURE_STEPS]; /**< [-] that so many of 100 are below */
    long samples;
    long failed;            /**< samples that could not be worked out, and count as not met */
    const char *failing;    /**< why they could not; NULL: none failed */
    bool shoe_locks;        /**< a shoe locks itself in them */
    int leading;            /**< quantity, not measured if there is one, that moves it most; -1:
                                 none */
    double share;           /**< [-] of the scatter of the margin that it carries */
    double by_defaults;     /**< [-] of that scatter that lines left out carry */
    bool rests_on_defaults; /**< the other word is among what the lines left out may make of it */
};

/** How sure everything is that is said of a vehicle. */
struct brake_sure {
    struct brake_sureness of[BRAKE_CRITERIA];
    long samples;     /**< of rows that are not hot */
    double all_met;   /**< [-] share of samples in which every row that applies and was judged is
                            met */
    long all_samples; /**< that this was counted over */
};

/** Room for the drawing. */
struct brake_sure_room {
    struct brake_inputs inputs;
    struct brake_sobol sobol;
    double margin[BRAKE_SURE_LEAST][BRAKE_CRITERIA]; /**< of the first samples */
    double block[BRAKE_SURE_LEAST][BRAKE_CRITERIA];  /**< of samples that are drawn at a time */
    double own[BRAKE_SURE_LEAST];                    /**< of one criterion */
    double product[BRAKE_CRITERIA][BRAKE_INPUTS];    /**< of the ranks of margins and the inputs */
    long met[BRAKE_CRITERIA];
    long failed[BRAKE_CRITERIA];
};

/** What is to be judged. */
struct brake_sure_options {
    unsigned rules;                  /**< families, bits of enum brake_rules; hazards always */
    bool faded;                      /**< hot performance too */
    const struct brake_watch *watch; /**< told the samples, may stop them; NULL: nobody */
};

/** Steps at which the distribution of a margin is given.
 * @param number  0 to BRAKE_SURE_STEPS - 1
 * @return        [-] share that lies below, 0.05 to 0.95
 */
double brake_sure_step(int number);

/** Nothing drawn yet.
 * @param sure  filled: no samples, NaN, no leading line
 */
void brake_sure_clear(struct brake_sure *sure);

/** Draw a vehicle and put the words into its judgements.
 * @param sheet      complete
 * @param options    what is to be judged
 * @param room       for the drawing
 * @param judgement  at face value, by number of the criterion; their verdicts are put right
 * @param sure       filled
 * @return           true; false when it was told to stop, and nothing is filled that may be used
 */
bool brake_sure_draw(const struct brake_sheet *sheet, const struct brake_sure_options *options,
                     struct brake_sure_room *room, struct brake_judgement *judgement,
                     struct brake_sure *sure);

/** The interval that holds a share in 99 of 100, from a count.
 * @param met      samples that meet
 * @param samples  of them all, 1 and up
 * @param low      [-] filled
 * @param high     [-] filled
 * @source         E. B. Wilson, J. Amer. Statist. Assoc. 22, 209 (1927); JCGM 106 leaves the choice
 *                 open
 */
void brake_sure_interval(long met, long samples, double *low, double *high);

/** The word for a share that was counted.
 * @param low  [-] lower end of the interval that holds it in 99 of 100
 * @return     what follows from the least that P may be
 */
enum brake_verdict brake_sure_word(double low);

/** What is open: more samples could give another word.
 * @param low   [-] lower end of the interval
 * @param high  [-] upper end
 * @return      true when a limit of the words lies between them
 */
bool brake_sure_open(double low, double high);

#ifdef __cplusplus
}
#endif

#endif
