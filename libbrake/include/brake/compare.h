/* SPDX-License-Identifier: MIT */
/** @file compare.h
 * Two vehicles side by side, before and after, and what each group of changes took or gave.
 *
 * A share is a Shapley value: the mean, over every order in which the groups of changes could have
 * been made, of what a group adds when its turn comes. It does not depend on order, a group that
 * changes nothing has none, and the shares add up to the whole difference.
 *
 * A vehicle with only some groups changed is mixed from two completed vehicles, of worked values
 * and not of raw readings, so that no mixture can contradict itself. Lift, parts and loads are
 * first added up to mass and centre of gravity of each load case.
 */
#ifndef BRAKE_COMPARE_H
#define BRAKE_COMPARE_H

#include <stdbool.h>
#include <stddef.h>

#include "brake/catalogue.h"
#include "brake/criteria.h"
#include "brake/evaluate.h"
#include "brake/output.h"
#include "brake/conformance.h"
#include "brake/watch.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Groups of changes; every quantity belongs to one. */
enum brake_change {
    BRAKE_CHANGE_TYRE,
    BRAKE_CHANGE_MASS,
    BRAKE_CHANGE_CG,
    BRAKE_CHANGE_GEOMETRY,
    BRAKE_CHANGE_CALIPER,
    BRAKE_CHANGE_ROTOR, /**< where the pads rub, too */
    BRAKE_CHANGE_PAD,
    BRAKE_CHANGE_DRUM,       /**< and all of an axle that changes between disc and drum */
    BRAKE_CHANGE_HYDRAULICS, /**< pedal to wheel cylinder, anti-lock too */
    BRAKE_CHANGE_PARKING,
    BRAKE_CHANGE_DRIVELINE,
    BRAKE_CHANGE_CONDITIONS, /**< driver, road, stop, ratings, rules, trailer */
    BRAKE_CHANGES            /**< how many there are; of no group */
};

enum { BRAKE_PLAYERS = 20 /**< most of a game */ };

/** A number of both vehicles, and what each group of changes did to it. */
struct brake_compared {
    double before;               /**< [SI] NaN or infinite: see the reason */
    double after;                /**< [SI] */
    double share[BRAKE_CHANGES]; /**< [SI] by group; 0 for groups that do not differ */
    const char *reason; /**< why there are no shares, which are NaN then; NULL: there are */
};

/** A line of a vehicle file that is not the same in both. */
struct brake_changed_line {
    int before; /**< index of the quantity; -1: of a part that was not there */
    int after;  /**< -1: of a part that is no longer there */
};

/** All axles together, beside enum brake_axle. */
enum { BRAKE_BOTH_AXLES = BRAKE_AXLES };

/** Two vehicles side by side. */
struct brake_comparison {
    const struct brake_sheet *before, *after;
    unsigned rules;                                      /**< families judged */
    bool faded;                                          /**< hot performance is among them */
    int changes;                                         /**< groups that differ */
    enum brake_change change[BRAKE_CHANGES];             /**< which */
    struct brake_results results[2];                     /**< before, after */
    struct brake_judgement judgement[2][BRAKE_CRITERIA]; /**< of hot performance: cannot say,
                                                            until brake_compare_fade */
    struct brake_conformances conformance[2];            /**< of brake_compare_conformance */
    int margins;                                         /**< held side by side */
    struct brake_output output[BRAKE_OUTPUTS];           /**< what each is */
    struct brake_compared margin[BRAKE_OUTPUTS];
    /** Like for like: torque available over torque needed, by load case and axle. */
    struct brake_compared like[BRAKE_LOADS][BRAKE_AXLES + 1];
};

/** Compare two vehicles; shares are still to be worked out.
 * @param before      complete; kept in the comparison
 * @param after       complete; kept in the comparison
 * @param rules       families to judge by, bits of enum brake_rules
 * @param comparison  filled; its shares are NaN
 */
void brake_compare(const struct brake_sheet *before, const struct brake_sheet *after,
                   unsigned rules, struct brake_comparison *comparison);

/** Take in hot performance, for which fade procedures are run: of both vehicles here, and of every
 * choice of groups when the shares are worked out.
 * @param comparison  of brake_compare, its shares still to be worked out
 * @param watch       told how many vehicles are done, and may stop it; NULL: nobody
 * @return            false when it was stopped: hot performance is left out
 */
bool brake_compare_fade(struct brake_comparison *comparison, const struct brake_watch *watch);

/** Draw both vehicles and put the words into their judgements.
 * @param comparison  of brake_compare, hot performance taken in where it is wanted
 * @param watch       told the samples of hot performance, and may stop it; NULL: nobody
 * @param room        for the drawing
 * @return            false when it was stopped
 */
bool brake_compare_conformance(struct brake_comparison *comparison, const struct brake_watch *watch,
                               struct brake_conformance_room *room);

/** Room that brake_compare_share needs.
 * @param comparison  of brake_compare
 * @return            how many numbers
 */
size_t brake_compare_room(const struct brake_comparison *comparison);

/** Work out the shares: an evaluation for every choice of groups, 2 to the number of groups.
 * @param comparison  of brake_compare; its shares are filled
 * @param watch       told how many evaluations are done, and may stop it; NULL: nobody
 * @param room        [any] brake_compare_room numbers
 * @return            false when it was stopped: the shares are NaN
 */
bool brake_compare_share(struct brake_comparison *comparison, const struct brake_watch *watch,
                         double *room);

#ifdef __cplusplus
}
#endif

#endif
