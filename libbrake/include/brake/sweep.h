/** @file sweep.h
 * A sweep: a vehicle worked out at every combination of the values along some axes.
 *
 * An axis is a line of the vehicle file and its values. The cases are numbered from 0; the last axis
 * runs fastest. Each case is what brake_sheet_set on every axis and brake_sheet_complete give. A case
 * that the vehicle refuses, because its values contradict others, has no outputs.
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
    int outputs; /**< 1 and up */
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

/** A value along an axis.
 * @param axis    the axis
 * @param number  0 to its count - 1
 * @return        [unit] the value
 */
double brake_axis_number(const struct brake_axis *axis, long long number);

/** Number of cases.
 * @param sweep  what is swept
 * @return       product of the counts; -1 when it is beyond 1e15
 */
long long brake_sweep_count(const struct brake_sweep *sweep);

/** Position of a case.
 * @param sweep   what is swept
 * @param number  of the case
 * @param at      filled: number of the value along each axis
 */
void brake_sweep_position(const struct brake_sweep *sweep, long long number, long long *at);

enum {
    BRAKE_SHARED_TABLES = 48, /**< room for the tables of a sweep */
    BRAKE_SHARED_COLUMNS = 64 /**< room for the numbers that they hold */
};

/** What cases share: numbers that follow only a few of the axes, tabulated over those. */
struct brake_shared {
    int tables; /**< 0: every case is worked out by itself */
    struct {
        unsigned axes;       /**< that it goes along, as bits */
        long long entries;   /**< positions along them */
        const double *alone; /**< [-] by entry: 1 where a case has to be asked by itself, else 0; NULL:
                                nowhere */
    } table[BRAKE_SHARED_TABLES];
    int columns;
    struct {
        int table;
        int number;    /**< which of the numbers that a stop is worked out from */
        bool varies;   /**< it is not the same everywhere */
        double *value; /**< [SI] by entry */
    } column[BRAKE_SHARED_COLUMNS];
};

/** What works out cases: a thread has its own. It may be copied. */
struct brake_sweeper {
    const struct brake_sweep *sweep;
    int index[BRAKE_AXES_OF_SWEEP];
    struct brake_rework rework;
    struct brake_shared shared;
};

/** Make ready to work out cases.
 * @param sweep    what is swept; must outlive the sweeper
 * @param sweeper  filled
 * @param error    filled on refusal: an axis that is no number, stands twice, leaves its range, or
 *                 is of no use to this vehicle
 * @return         OK, E_UNKNOWN, E_DUPLICATE, E_RANGE, E_SIZE: too many axes or cases, or the status
 *                 of brake_rework_begin
 */
enum brake_status brake_sweep_begin(const struct brake_sweep *sweep, struct brake_sweeper *sweeper,
                                    struct brake_error *error);

/** Work out a case.
 * @param sweeper  ready
 * @param number   of the case
 * @param value    [SI] room for the outputs; NaN where it cannot be said
 * @param error    filled when the vehicle refuses the case
 * @return         OK, or the status of the error
 */
enum brake_status brake_sweep_case(struct brake_sweeper *sweeper, long long number, double *value,
                                   struct brake_error *error);

/** Room that it takes to work out once what many cases share.
 * @param sweeper  ready
 * @return         doubles, at most 2^19; 0 when it would not pay, or is not known for these outputs
 */
size_t brake_sweep_room(const struct brake_sweeper *sweeper);

/** Work out what cases share: brake_sweep_cases then works several out side by side. What comes out
 * is the same to the bit.
 * @param sweeper  ready; its copies share the room
 * @param room     [SI] for brake_sweep_room doubles, more than 0; must outlive the sweeper
 */
void brake_sweep_share(struct brake_sweeper *sweeper, double *room);

/** Work out cases that follow each other.
 * @param sweeper  ready
 * @param first    number of the first case
 * @param count    of them
 * @param value    [SI] room for the outputs of each, case by case; NaN where it cannot be said
 * @param status   filled for each: OK, or why the vehicle refuses it; NULL: not asked
 */
void brake_sweep_cases(struct brake_sweeper *sweeper, long long first, int count, double *value,
                       enum brake_status *status);

enum { BRAKE_SWEEP_SLOTS = 64 /**< blocks that are worked on before they are taken in order */ };

/** Who works on the blocks of a sweep, and who takes them. */
struct brake_sweep_run {
    long long first; /**< case to begin with */
    int block;       /**< cases of a block */
    int threads;     /**< 1 and up; what comes out does not depend on it */
    void *context;   /**< handed to both */
    /** Called from any thread, in any order, once a block: works out the cases from `first`. What it
     * makes of them is kept under `slot`, 0 to BRAKE_SWEEP_SLOTS - 1. */
    void (*work)(void *context, int slot, struct brake_sweeper *sweeper, long long first,
                 int count);
    /** Called from the thread that started, in the order of the cases; false ends the run. May be
     * NULL. */
    bool (*take)(void *context, int slot);
    struct brake_watch watch; /**< progress in cases */
};

/** Work out cases block by block, on several threads, and have them taken in order.
 * @param sweeper  ready; not changed
 * @param run      who works on them
 * @return         cases taken; fewer than there are when stopped, always a beginning of them
 */
long long brake_sweep_blocks(const struct brake_sweeper *sweeper,
                             const struct brake_sweep_run *run);

/** Cases of a block after which progress is told soon enough: few where each runs a fade procedure,
 * many where they are worked out side by side.
 * @param sweeper  ready
 * @return         1 and up
 */
int brake_sweep_block(const struct brake_sweeper *sweeper);

/** Outputs of all cases.
 * @param sweeper  ready; not changed
 * @param threads  1 and up; what comes out does not depend on it
 * @param watch    progress and stop; NULL: none
 * @param value    [SI] room for the outputs of every case, case by case; NaN where it cannot be said
 * @return         cases worked out; fewer than there are when stopped, always a beginning of them
 */
long long brake_sweep_values(const struct brake_sweeper *sweeper, int threads,
                             const struct brake_watch *watch, double *value);

#ifdef __cplusplus
}
#endif

#endif
