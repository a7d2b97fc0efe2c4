/* SPDX-License-Identifier: MIT */
/** @file sweep.h
 * A sweep: a vehicle worked out at every combination of the values along some axes.
 *
 * An axis is a line of the vehicle file and its values. The cases are numbered from 0; of
 * combinations the last axis runs fastest. Each case is what brake_sheet_set on every axis and
 * brake_sheet_complete give. A case that the vehicle refuses, because its values contradict others,
 * has no outputs.
 */
#ifndef BRAKE_SWEEP_H
#define BRAKE_SWEEP_H

#include <stdbool.h>

#include "brake/catalogue.h"
#include "brake/output.h"
#include "brake/watch.h"

#ifdef __cplusplus
extern "C" {
#endif

enum { BRAKE_AXES_OF_SWEEP = 32 /**< most axes */ };

/** How the values of an axis follow each other. */
enum brake_spacing {
    BRAKE_LISTED,  /**< one after the other, as given */
    BRAKE_EVEN,    /**< in equal steps */
    BRAKE_BY_RATIO /**< in equal ratios */
};

/** Values along an axis. */
struct brake_axis {
    int index;                     /**< of a real quantity */
    const struct brake_unit *unit; /**< that the numbers are in */
    enum brake_spacing spacing;
    long long count;      /**< of values, 1 and up */
    const double *number; /**< [unit] listed: all of them */
    double first;         /**< [unit] even: times scale; by ratio: the first */
    double last;          /**< [unit] by ratio: the last */
    double step;          /**< [unit] even: times scale */
    double scale;         /**< [-] a power of ten that makes whole numbers of both, or 1 */
};

/** What is swept and asked. */
struct brake_sweep {
    const struct brake_sheet *sheet; /**< complete */
    const struct brake_axis *axis;
    int axes; /**< 1 to BRAKE_AXES_OF_SWEEP */
    const struct brake_output *output;
    int outputs;   /**< 1 and up */
    bool together; /**< false: every combination; true: case n has value n of every axis, all of
                        them as long as the first */
};

/** Values in equal steps; the last is `high` when a whole number of steps reaches it, to rounding.
 * @param low   [unit] first
 * @param high  [unit] none is higher
 * @param step  [unit] above 0
 * @param axis  spacing and values filled
 * @return      OK, or E_RANGE: no step, high below low, or more than 1e15 values
 */
enum brake_status brake_axis_steps(double low, double high, double step, struct brake_axis *axis);

/** Values in equal ratios.
 * @param low    [unit] first, above 0
 * @param high   [unit] last, not below low
 * @param count  of values, 2 and up
 * @param axis   spacing and values filled
 * @return       OK, or E_RANGE
 */
enum brake_status brake_axis_ratios(double low, double high, long long count,
                                    struct brake_axis *axis);

/** Number of cases.
 * @param sweep  what is swept
 * @return       product of the counts, or together that of one axis; -1 when it is beyond 1e15
 */
long long brake_sweep_count(const struct brake_sweep *sweep);

/** What works out cases. */
struct brake_sweeper;

/** Make ready to work out cases, and work out once what many of them share.
 * @param sweep  what is swept; must outlive the sweeper
 * @param error  filled on refusal: an axis that is no number, stands twice, leaves its range, is of
 *               no use to this vehicle, or is longer or shorter than the one it goes together with;
 *               too many axes or cases; memory is short
 * @return       the sweeper, to be freed by brake_sweeper_free; NULL when refused
 */
struct brake_sweeper *brake_sweeper_new(const struct brake_sweep *sweep, struct brake_error *error);

/** Why the vehicle refuses a case, in words.
 * @param sweeper  ready
 * @param number   of the case
 * @param error    filled when it does
 * @return         OK, or the status of the error
 */
enum brake_status brake_sweep_refusal(struct brake_sweeper *sweeper, long long number,
                                      struct brake_error *error);

/** Free a sweeper.
 * @param sweeper  of brake_sweeper_new; NULL does nothing
 */
void brake_sweeper_free(struct brake_sweeper *sweeper);

/** Outputs of all cases.
 * @param sweeper  ready; not changed
 * @param threads  1 and up; what comes out does not depend on it
 * @param watch    progress and stop; NULL: none
 * @param value    [SI] room for the outputs of every case, case by case; NaN where it cannot be
 *                 said
 * @return         cases worked out; fewer than there are when stopped, always a beginning of them
 */
long long brake_sweep_values(const struct brake_sweeper *sweeper, int threads,
                             const struct brake_watch *watch, double *value);

#ifdef __cplusplus
}
#endif

#endif
