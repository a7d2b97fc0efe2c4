/* SPDX-License-Identifier: MIT */
/* What the cases of a sweep share. A number that a stop is worked out from follows a few of the
 * axes, by way of the sections that it is built from and of the rules between them: it is tabulated
 * over those alone. So is what may make the vehicle refuse. */
#include "batch.h"

#include <math.h>
#include <stddef.h>

#include "vehicle/work.h"
#include "cases.h"

static const double MOST_NUMBERS = 1 << 19; /* 4 MiB */
static const double WORTH = 8.0; /* cases for each entry of a table, or it does not pay */

/* ---- which tables --------------------------------------------------------------------------- */

/* Axes, as bits, that may move what is built from sections. */
static unsigned axes_moving(const struct brake_sweeper *sweeper, unsigned long long sections)
{
    unsigned axes = 0;
    for (int i = 0; i < sweeper->sweep->axes; i++) {
        if ((work_reached(&sweeper->recalculation, sweeper->index[i]) & sections) != 0)
            axes |= 1U << i;
    }
    return axes;
}

static long long entries_along(const struct brake_sweep *sweep, unsigned axes)
{
    double entries = 1.0;
    for (int i = 0; i < sweep->axes; i++)
        entries *= (axes >> i & 1) != 0 ? (double)sweep->axis[i].count : 1.0;
    return (long long)entries; /* the whole sweep has at most 1e15 */
}

/* The table along these axes, which is added when it is not there. */
static int table_along(const struct brake_sweep *sweep, unsigned axes, struct brake_lookup *lookup)
{
    int i = 0;
    while (i < lookup->tables && lookup->table[i].axes != axes)
        i++;
    if (i == lookup->tables) {
        lookup->table[i].axes = axes;
        lookup->table[i].entries = entries_along(sweep, axes);
        lookup->tables++;
    }
    return i;
}

/* Those of a part in the state of this number. */
static void add_columns(const struct brake_sweeper *sweeper, int number, int state,
                        struct brake_lookup *lookup)
{
    const struct brake_lane_state in = lookup->state[state];
    const struct brake_lane_part part = brake_lane_part(number, in.failure);
    if ((part.asked & ~lookup->asked[state]) != 0)
        return;
    const int table = table_along(sweeper->sweep, axes_moving(sweeper, part.sections), lookup);
    for (int i = part.first; i <= part.last; i++) {
        lookup->column[lookup->columns].table = table;
        lookup->column[lookup->columns].state = state;
        lookup->column[lookup->columns].number = i;
        lookup->column[lookup->columns].open = brake_lane_open(i);
        lookup->columns++;
    }
}

/* Whether a table goes along all of these axes, so that what they refuse shows there. */
static bool shows(const struct brake_lookup *lookup, unsigned axes)
{
    for (int i = 0; i < lookup->tables; i++) {
        if ((lookup->table[i].axes & axes) == axes)
            return true;
    }
    return false;
}

static void add_refusals(const struct brake_sweeper *sweeper, const unsigned long long *sections,
                         int count, struct brake_lookup *lookup)
{
    for (int i = 0; i < count; i++) {
        const unsigned axes = axes_moving(sweeper, sections[i]);
        if (!shows(lookup, axes))
            (void)table_along(sweeper->sweep, axes, lookup);
    }
}

static void choose_tables(const struct brake_sweeper *sweeper, struct brake_lookup *lookup)
{
    lookup->tables = 0;
    lookup->columns = 0;
    brake_batch_states(sweeper->sweep, lookup);
    for (int i = 0; i < BRAKE_LANE_PARTS; i++) {
        for (int state = 0; state < lookup->states; state++)
            add_columns(sweeper, i, state, lookup);
    }
    add_refusals(sweeper, sweeper->recalculation.places.touched, BRAKE_WORK_RULES, lookup);
    add_refusals(sweeper, sweeper->recalculation.places.verified, BRAKE_WORK_VERIFICATIONS, lookup);
}

/* ---- their size ----------------------------------------------------------------------------- */

/* Numbers of all tables; 0 when they would not pay. */
static size_t size_of(const struct brake_sweep *sweep, const struct brake_lookup *lookup)
{
    double entries = 0.0;
    double numbers = 0.0;
    for (int i = 0; i < lookup->tables; i++)
        entries += (double)lookup->table[i].entries;
    for (int i = 0; i < lookup->columns; i++)
        numbers += (double)lookup->table[lookup->column[i].table].entries;
    numbers += entries;
    return WORTH * entries <= (double)brake_sweep_count(sweep) && numbers <= MOST_NUMBERS
               ? (size_t)numbers
               : 0;
}

static bool answers_known(const struct brake_sweep *sweep)
{
    for (int i = 0; i < sweep->outputs; i++) {
        if (!brake_batch_knows(sweep->output[i]))
            return false;
    }
    return true;
}

size_t brake_sweep_room(const struct brake_sweeper *sweeper)
{
    struct brake_lookup lookup;
    if (sweeper->sweep->together || !answers_known(sweeper->sweep) ||
        !brake_lane_known(&sweeper->recalculation.sheet.vehicle))
        return 0;
    choose_tables(sweeper, &lookup);
    return size_of(sweeper->sweep, &lookup);
}

/* ---- filling them --------------------------------------------------------------------------- */

/* Position of an entry; the axes that a table does not go along stand at their first value. */
static void position_of(const struct brake_sweep *sweep, unsigned axes, long long entry,
                        long long *at)
{
    for (int i = sweep->axes - 1; i >= 0; i--) {
        const bool along = (axes >> i & 1) != 0;
        at[i] = along ? entry % sweep->axis[i].count : 0;
        entry /= along ? sweep->axis[i].count : 1;
    }
}

/* Columns of an entry in a state; false when one of them is not known. */
static bool fill_columns(const struct brake_vehicle *vehicle, int table, int state, long long entry,
                         struct brake_lookup *lookup)
{
    struct brake_lane_numbers numbers; /* of each the first lane */
    bool known = true;
    brake_lane_fill(vehicle, lookup->state[state], 0, &numbers);
    for (int i = 0; i < lookup->columns; i++) {
        if (lookup->column[i].table != table || lookup->column[i].state != state)
            continue;
        double *value = lookup->column[i].value;
        value[entry] = *brake_lane_column(&numbers, lookup->column[i].number);
        known = known && (lookup->column[i].open || !isnan(value[entry]));
        lookup->column[i].varies = lookup->column[i].varies || value[entry] != value[0];
    }
    return known;
}

/* Returns whether no entry has to be asked by itself. */
static bool fill_table(struct brake_sweeper *sweeper, int table, double *alone)
{
    struct brake_lookup *lookup = &sweeper->lookup;
    bool whole = true;
    for (long long entry = 0; entry < lookup->table[table].entries; entry++) {
        long long at[BRAKE_AXES_OF_SWEEP];
        struct brake_error error = {0};
        position_of(sweeper->sweep, lookup->table[table].axes, entry, at);
        bool taken = brake_sweep_take(sweeper, at, &error) == BRAKE_OK;
        for (int state = 0; state < lookup->states && taken; state++)
            taken =
                fill_columns(&sweeper->recalculation.sheet.vehicle, table, state, entry, lookup);
        alone[entry] = taken ? 0.0 : 1.0;
        whole = whole && taken;
    }
    return whole;
}

void brake_sweep_share(struct brake_sweeper *sweeper, double *room)
{
    struct brake_lookup *lookup = &sweeper->lookup;
    choose_tables(sweeper, lookup);
    for (int i = 0; i < lookup->columns; i++) {
        lookup->column[i].value = room;
        lookup->column[i].varies = false;
        room += lookup->table[lookup->column[i].table].entries;
    }
    for (int i = 0; i < lookup->tables; i++) {
        lookup->table[i].alone = fill_table(sweeper, i, room) ? NULL : room;
        room += lookup->table[i].entries;
    }
    /* Every table begins with the first case. */
    if (lookup->table[0].alone != NULL && lookup->table[0].alone[0] > 0.0)
        lookup->tables = 0;
}
