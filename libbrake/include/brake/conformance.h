/* SPDX-License-Identifier: MIT */
/** @file conformance.h
 * How sure a verdict is, and the word that follows from it.
 *
 * Everything uncertain about a vehicle is drawn at once: what was measured within its tolerance,
 * what was left out within the interval of its usual value, shared causes kept, the model's own
 * error too. P is the share of samples that meet a requirement; one that cannot be worked out does
 * not meet it.
 *
 * The word: `meets` where P is at least 95 of 100, `falls short` where it is below 50, `cannot say`
 * between them or when an input is missing. It is given when the interval that holds P in 99 of 100
 * says so; otherwise twice as many samples are drawn, up to BRAKE_SAMPLES_MOST, and what is still
 * open takes the worse word. Where a drive was learned from there are 1,024 to begin with, and
 * nothing meets that rests on fewer. A requirement that lacks one line and is missed over the whole
 * range that the line accepts falls short. This is the guarded decision rule of metrology (JCGM
 * 106:2012, sec. 8; ISO 14253-1), asymmetric to the safe side. The same samples, and so the same
 * word, in every study.
 */
#ifndef BRAKE_CONFORMANCE_H
#define BRAKE_CONFORMANCE_H

#include "brake/criteria.h"
#include "brake/measuring.h"
#include "brake/watch.h"

#ifdef __cplusplus
extern "C" {
#endif

enum {
    BRAKE_SAMPLES_LEAST = 256, /**< samples to begin with */
    BRAKE_SAMPLES_MOST = 4096, /**< and at the most */
    BRAKE_SAMPLES_HOT = 128,   /**< of hot performance: each is a whole fade procedure */
    BRAKE_MARGIN_STEPS = 7     /**< of the distribution of a margin: 5, 10, 25, 50, 75, 90, 95 of
                                 100 */
};

/** How sure the verdict of one criterion is; NaN and 0 where none was judged. */
struct brake_conformance {
    double met;      /**< [-] P, share of samples that meet it */
    double met_low;  /**< [-] lower end of the interval that holds P in 99 of 100 */
    double met_high; /**< [-] upper end */
    double margin[BRAKE_MARGIN_STEPS]; /**< [-] that so many of 100 are below */
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
struct brake_conformances {
    struct brake_conformance of[BRAKE_CRITERIA];
    long samples;     /**< of rows that are not hot */
    double all_met;   /**< [-] share of samples in which every row that counts and was judged is
                            met */
    long all_samples; /**< that this was counted over */
    struct brake_measuring settle;   /**< lines that could give another word to what counts and is
                                          not met for sure */
    struct brake_measuring overturn; /**< lines that could take the word from what counts and is
                                          met, but rests on lines that were left out */
};

/** Room for the drawing. */
struct brake_conformance_room;

/** Room for the drawing.
 * @return  to be freed by brake_conformance_room_free; NULL when memory is short
 */
struct brake_conformance_room *brake_conformance_room_new(void);

/** Free it.
 * @param room  NULL does nothing
 */
void brake_conformance_room_free(struct brake_conformance_room *room);

#ifdef __cplusplus
}
#endif

#endif
