/* SPDX-License-Identifier: MIT */
/** @file size.h
 * What must be fitted: the value of a quantity that gives a result or a criterion's margin, the
 * tyre that the brakes carry, the parts of a list that work together.
 *
 * A quantity is changed as --set changes it: everything that hangs on it is worked out anew. The
 * other lines stand as they do, but where a drive told of them at the middle of that.
 */
#ifndef BRAKE_SIZE_H
#define BRAKE_SIZE_H

#include <stdbool.h>

#include "brake/catalogue.h"
#include "brake/output.h"
#include "brake/roots.h"
#include "brake/watch.h"

#ifdef __cplusplus
extern "C" {
#endif

enum {
    BRAKE_TARGETS = 8,     /**< most targets at once */
    BRAKE_SIZE_LISTS = 4,  /**< most lists of part sizes at once */
    BRAKE_SIZE_LIMITS = 12 /**< room for what limits */
};

/** How the value that is got must stand to the one that is wanted. */
enum brake_relation { BRAKE_EQUAL, BRAKE_AT_LEAST, BRAKE_AT_MOST };

/** Of what something is wanted. */
enum brake_wish {
    BRAKE_WISH_OUTPUT,  /**< a result, or the margin of a criterion */
    BRAKE_WISH_ALL,     /**< the least margin of all criteria that apply and can be said */
    BRAKE_WISH_REGAINED /**< brake torque per need over that of the vehicle before, less 1 */
};

/** What is wanted of the vehicle. */
struct brake_target {
    enum brake_wish wish;
    struct brake_output output;       /**< of BRAKE_WISH_OUTPUT */
    const struct brake_sheet *before; /**< of BRAKE_WISH_REGAINED: complete */
    unsigned rules;                   /**< of BRAKE_WISH_ALL, as brake_judge_all takes them */
    enum brake_relation relation;
    double value; /**< [SI] wanted; but of a result a margin */
};

/* ---- one quantity over a range --------------------------------------------------------------- */

/** Which quantity is sought for what. */
struct brake_size_question {
    const struct brake_sheet *sheet; /**< complete */
    int by;                          /**< the quantity, a real one */
    double low;                      /**< [SI] of the range, inside the accepted one */
    double high;                     /**< [SI] of the range */
    struct brake_target target;
};

/** What holds the result back where it comes nearest to the target. */
struct brake_size_limit {
    int quantity;
    const char *words; /**< what it stands for, e.g. "the tyres" */
    double value;      /**< [SI] nearest to the target with a tenth more of that quantity */
};

/** The answer. */
struct brake_size {
    struct brake_scan scan;   /**< as it was done; its function is gone */
    struct brake_roots roots; /**< f: value less target, or target less value for "at most" */
    double now;               /**< [SI] what the vehicle gives as it is */
    double best;              /**< [SI] what it gives at roots.nearest */
    bool flat;                /**< the quantity does not move the result */
    struct brake_size_limit limit[BRAKE_SIZE_LIMITS]; /**< filled when there is no
                                                         answer; what helps most first */
    int limits;
    int refused;              /**< roots left out, because the vehicle would be refused there */
    struct brake_error error; /**< why, for the first of them */
};

/** Find every value of a quantity that gives the target.
 * @param question  what is sought
 * @param watch     told of the points of the scan; NULL: nobody
 * @param size      filled
 * @param error     filled on refusal
 * @return          OK, or why the quantity cannot be set on this vehicle
 */
enum brake_status brake_size_find(const struct brake_size_question *question,
                                  const struct brake_watch *watch, struct brake_size *size,
                                  struct brake_error *error);

/* ---- lists of parts -------------------------------------------------------------------------- */

/** Sizes that a part can be had in. */
struct brake_size_list {
    int by;              /**< the quantity, a real one */
    const double *value; /**< [SI] inside the accepted range */
    int count;
};

/** Lists to combine, and what is wanted. */
struct brake_choice_question {
    const struct brake_sheet *sheet; /**< complete */
    const struct brake_size_list *list;
    int lists; /**< 1 to BRAKE_SIZE_LISTS */
    const struct brake_target *target;
    int targets; /**< 1 to BRAKE_TARGETS */
};

/** A combination that works. */
struct brake_choice {
    double value[BRAKE_SIZE_LISTS]; /**< [SI] of each list */
    double got[BRAKE_TARGETS];      /**< [SI] of each target */
    double margin;                  /**< [-] the least of the targets */
    int least;                      /**< target that has it */
};

/** How all combinations fared. */
struct brake_choice_count {
    long cases;                /**< tried */
    long works;                /**< meet every target */
    long fails[BRAKE_TARGETS]; /**< fall short of this target, of others too perhaps */
    long unknown;              /**< of which a target cannot be said */
    long refused;              /**< no vehicle that is accepted */
    struct brake_error error;  /**< why, for the first of those */
    bool stopped;              /**< by the watch, before all were tried */
};

/** Try every combination of the sizes of lists.
 * @param asked   lists and targets
 * @param watch   told of every combination; NULL: nobody
 * @param choice  those that work, largest least margin first
 * @param room    for so many; the others are counted, not kept
 * @param count   filled
 * @return        number of choices filled
 */
int brake_choose(const struct brake_choice_question *asked, const struct brake_watch *watch,
                 struct brake_choice *choice, int room, struct brake_choice_count *count);

/** A tyre of a list. */
struct brake_tyre_choice {
    const char *marking;
    double diameter;           /**< [m] outer, of the marking; NaN when it is refused */
    double rollout;            /**< [m] one turn, of the marking */
    double got[BRAKE_TARGETS]; /**< [SI] of each target */
    double margin;             /**< [-] the least of the targets; NaN when it cannot be said */
    int least;                 /**< target that has it; -1: none */
    struct brake_error error;  /**< of a vehicle that is refused; else its status is OK */
};

/** Try tyres. What was measured on the old tyre (rollout, radius, diameter, ratings) is left out;
 * the hubs rise by half of the difference of diameters; wheel mass, and inertia where it was given,
 * stay those of the old wheels. A rear tyre is changed with the front one.
 * @param question  vehicle and targets; its lists are not used
 * @param marking   of each tyre
 * @param count     of them
 * @param watch     told of every tyre, and may stop it; NULL: nobody
 * @param choice    room for count, filled; smallest diameter first, refused ones last
 * @return          false when it was stopped: of the choices none is of use
 */
bool brake_choose_tyres(const struct brake_choice_question *question, const char *const *marking,
                        int count, const struct brake_watch *watch,
                        struct brake_tyre_choice *choice);

#ifdef __cplusplus
}
#endif

#endif
