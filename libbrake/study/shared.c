/* What the cases of a sweep share. A number that a stop is worked out from follows a few of the
 * axes, by way of the sections that it is built from and of the rules between them: it is tabulated
 * over those alone. So is what may make the vehicle refuse. */
#include "shared.h"

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
        if ((work_reached(&sweeper->rework, sweeper->index[i]) & sections) != 0)
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
static int table_along(const struct brake_sweep *sweep, unsigned axes, struct brake_shared *shared)
{
    int i = 0;
    while (i < shared->tables && shared->table[i].axes != axes)
        i++;
    if (i == shared->tables) {
        shared->table[i].axes = axes;
        shared->table[i].entries = entries_along(sweep, axes);
        shared->tables++;
    }
    return i;
}

static void add_columns(const struct brake_sweeper *sweeper, struct brake_lane_part part,
                        struct brake_shared *shared)
{
    const int table = table_along(sweeper->sweep, axes_moving(sweeper, part.sections), shared);
    for (int load = 0; load < BRAKE_LOADS; load++) {
        const bool asked = brake_abreast_asks(sweeper->sweep, (enum brake_load)load);
        for (int i = part.first; i <= part.last && asked; i++) {
            shared->column[shared->columns].table = table;
            shared->column[shared->columns].number = load * BRAKE_LANE_NUMBERS + i;
            shared->columns++;
        }
    }
}

/* Whether a table goes along all of these axes, so that what they refuse shows there. */
static bool shows(const struct brake_shared *shared, unsigned axes)
{
    for (int i = 0; i < shared->tables; i++) {
        if ((shared->table[i].axes & axes) == axes)
            return true;
    }
    return false;
}

static void add_refusals(const struct brake_sweeper *sweeper, const unsigned long long *sections,
                         int count, struct brake_shared *shared)
{
    for (int i = 0; i < count; i++) {
        const unsigned axes = axes_moving(sweeper, sections[i]);
        if (!shows(shared, axes))
            (void)table_along(sweeper->sweep, axes, shared);
    }
}

static void choose_tables(const struct brake_sweeper *sweeper, struct brake_shared *shared)
{
    shared->tables = 0;
    shared->columns = 0;
    for (int i = 0; i < BRAKE_LANE_PARTS; i++)
        add_columns(sweeper, brake_lane_part(i), shared);
    add_refusals(sweeper, sweeper->rework.places.touched, BRAKE_WORK_RULES, shared);
    add_refusals(sweeper, sweeper->rework.places.verified, BRAKE_WORK_VERIFICATIONS, shared);
}

/* ---- their size ----------------------------------------------------------------------------- */

/* Numbers of all tables; 0 when they would not pay. */
static size_t size_of(const struct brake_sweep *sweep, const struct brake_shared *shared)
{
    double entries = 0.0;
    double numbers = 0.0;
    for (int i = 0; i < shared->tables; i++)
        entries += (double)shared->table[i].entries;
    for (int i = 0; i < shared->columns; i++)
        numbers += (double)shared->table[shared->column[i].table].entries;
    numbers += entries;
    return WORTH * entries <= (double)brake_sweep_count(sweep) && numbers <= MOST_NUMBERS
               ? (size_t)numbers
               : 0;
}

static bool answers_known(const struct brake_sweep *sweep)
{
    for (int i = 0; i < sweep->outputs; i++) {
        if (brake_abreast_answer(sweep->output[i]) < 0)
            return false;
    }
    return true;
}

size_t brake_sweep_room(const struct brake_sweeper *sweeper)
{
    struct brake_shared shared;
    if (!answers_known(sweeper->sweep) || !brake_lane_known(&sweeper->rework.sheet.vehicle))
        return 0;
    choose_tables(sweeper, &shared);
    return size_of(sweeper->sweep, &shared);
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

/* Columns of an entry; false when one of them is not known. */
static bool fill_columns(const struct brake_vehicle *vehicle, int table, long long entry,
                         struct brake_shared *shared)
{
    struct brake_lane_numbers numbers[BRAKE_LOADS] = {0}; /* of each the first lane */
    bool known = true;
    for (int load = 0; load < BRAKE_LOADS; load++)
        brake_lane_fill(vehicle, (enum brake_load)load, 0, &numbers[load]);
    for (int i = 0; i < shared->columns; i++) {
        if (shared->column[i].table != table)
            continue;
        double *value = shared->column[i].value;
        value[entry] = *brake_lane_column(numbers, shared->column[i].number);
        known = known && !isnan(value[entry]);
        shared->column[i].varies = shared->column[i].varies || value[entry] != value[0];
    }
    return known;
}

/* Returns whether no entry has to be asked by itself. */
static bool fill_table(struct brake_sweeper *sweeper, int table, double *alone)
{
    struct brake_shared *shared = &sweeper->shared;
    bool whole = true;
    for (long long entry = 0; entry < shared->table[table].entries; entry++) {
        long long at[BRAKE_AXES_OF_SWEEP];
        struct brake_error error = {0};
        position_of(sweeper->sweep, shared->table[table].axes, entry, at);
        const bool taken = brake_sweep_take(sweeper, at, &error) == BRAKE_OK &&
                           fill_columns(&sweeper->rework.sheet.vehicle, table, entry, shared);
        alone[entry] = taken ? 0.0 : 1.0;
        whole = whole && taken;
    }
    return whole;
}

void brake_sweep_share(struct brake_sweeper *sweeper, double *room)
{
    struct brake_shared *shared = &sweeper->shared;
    choose_tables(sweeper, shared);
    for (int i = 0; i < shared->columns; i++) {
        shared->column[i].value = room;
        shared->column[i].varies = false;
        room += shared->table[shared->column[i].table].entries;
    }
    for (int i = 0; i < shared->tables; i++) {
        shared->table[i].alone = fill_table(sweeper, i, room) ? NULL : room;
        room += shared->table[i].entries;
    }
    /* Every table begins with the first case. */
    if (shared->table[0].alone != NULL && shared->table[0].alone[0] > 0.0)
        shared->tables = 0;
}
