/* SPDX-License-Identifier: MIT */
/* The cases of a sweep, one by one, many, and block by block; private to the library. */
#ifndef BRAKE_STUDY_CASES_H
#define BRAKE_STUDY_CASES_H

#include "brake/sweep.h"
#include "vehicle/lane.h"
#include "vehicle/recalculation.h"

enum {
    /** room for the tables of a sweep: of brakes intact and failed, and of what is refused */
    BRAKE_SHARED_TABLES = 2 * BRAKE_LANE_PARTS + BRAKE_WORK_RULES + BRAKE_WORK_VERIFICATIONS,
    BRAKE_SHARED_STATES = BRAKE_LOADS * BRAKE_FAILURES, /**< of the vehicle in its cases */
    BRAKE_SHARED_COLUMNS = BRAKE_SHARED_STATES * BRAKE_LANE_NUMBERS /**< of numbers they hold */
};

/** What cases share: numbers that follow only a few of the axes, tabulated over those. */
struct brake_lookup {
    int tables; /**< 0: every case is worked out by itself */
    struct {
        unsigned axes;     /**< that it goes along, as bits */
        long long entries; /**< positions along them */
        const double
            *alone; /**< [-] by entry: 1 where a case has to be asked by itself, else 0; NULL:
                                nowhere */
    } table[BRAKE_SHARED_TABLES];
    int states; /**< that the outputs ask for */
    struct brake_lane_state state[BRAKE_SHARED_STATES];
    unsigned asked[BRAKE_SHARED_STATES]; /**< of lanes in each: bits of BRAKE_LANES_... */
    int columns;
    struct {
        int table;
        int state;     /**< in which the vehicle has it */
        int number;    /**< which of the numbers that a stop is worked out from */
        bool open;     /**< it may be NaN */
        bool varies;   /**< it is not the same everywhere */
        double *value; /**< [SI] by entry */
    } column[BRAKE_SHARED_COLUMNS];
};

/** What works out cases: a thread has its own, a copy. */
struct brake_sweeper {
    const struct brake_sweep *sweep;
    int index[BRAKE_AXES_OF_SWEEP];
    struct brake_recalculation recalculation;
    struct brake_lookup lookup;
    double *room; /* for what is shared, of brake_sweeper_new; NULL: none */
};

enum { BRAKE_SWEEP_SLOTS = 64 /**< blocks that are worked on before they are taken in order */ };

/** A value along an axis.
 * @param axis    the axis
 * @param number  0 to its count - 1
 * @return        [unit] the value
 */
double brake_axis_number(const struct brake_axis *axis, long long number);

/** Position of a case.
 * @param sweep   what is swept
 * @param number  of the case
 * @param at      filled: number of the value along each axis
 */
void brake_sweep_position(const struct brake_sweep *sweep, long long number, long long *at);

/** Work out a case.
 * @param sweeper  ready
 * @param number   of the case
 * @param value    [SI] room for the outputs; NaN where it cannot be said
 * @param error    filled when the vehicle refuses the case
 * @return         OK, or the status of the error
 */
enum brake_status brake_sweep_case(struct brake_sweeper *sweeper, long long number, double *value,
                                   struct brake_error *error);

/** Work out cases that follow each other.
 * @param sweeper  ready
 * @param first    number of the first case
 * @param count    of them
 * @param value    [SI] room for the outputs of each, case by case; NaN where it cannot be said
 * @param status   filled for each: OK, or why the vehicle refuses it; NULL: not asked
 */
void brake_sweep_cases(struct brake_sweeper *sweeper, long long first, int count, double *value,
                       enum brake_status *status);

/** Who works on the blocks of a sweep, and who takes them. */
struct brake_sweep_run {
    long long first; /**< case to begin with */
    int block;       /**< cases of a block */
    int threads;     /**< 1 and up; what comes out does not depend on it */
    void *context;   /**< handed to both */
    /** Called from any thread, in any order, once a block: works out the cases from `first`. What
     * it makes of them is kept under `slot`, 0 to BRAKE_SWEEP_SLOTS - 1. */
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

/** Make ready to work out cases.
 * @param sweep    what is swept; must outlive the sweeper
 * @param sweeper  filled
 * @param error    filled on refusal: an axis that is no number, stands twice, leaves its range, or
 *                 is of no use to this vehicle
 * @return         OK, E_UNKNOWN, E_DUPLICATE, E_RANGE, E_SIZE: too many axes or cases, or the
 *                 status of brake_recalculation_begin
 */
enum brake_status brake_sweep_begin(const struct brake_sweep *sweep, struct brake_sweeper *sweeper,
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

#endif
