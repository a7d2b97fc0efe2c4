/* SPDX-License-Identifier: MIT */
/* Cases side by side, from what they share. */
#include <stddef.h>
#include <string.h>

#include "brake/evaluate.h"
#include "batch.h"
#include "vehicle/groups.h"
#include "cases.h"

#define ANSWER(member) (int)(offsetof(struct brake_lane_answers, member) / sizeof(brake_column))

/* Outputs that lanes know, what of their answers each is, and which question gives it. */
#define KNOWN(result, member, asked)                                                               \
    {                                                                                              \
        offsetof(struct brake_case_results, result), ANSWER(member), BRAKE_LANES_##asked           \
    }

static const struct known {
    size_t result;
    int answer;
    unsigned asked;
} known[] = {
    KNOWN(deceleration.at_pedal_force, at_force, STOP),
    KNOWN(deceleration.most, at_most, STOP),
    KNOWN(deceleration.brakes_alone, brakes_alone, STOP),
    KNOWN(balance.lock_deceleration, lock, STOP),
    KNOWN(balance.lock_pedal_force, lock_force, STOP),
    KNOWN(failed.no_assist, no_assist, STOP),
    KNOWN(stop.distance, distance, STOP),
    KNOWN(stop.time, time, STOP),
    KNOWN(balance.front_share, front_share, TARGET),
    KNOWN(balance.front_adhesion_used, front_used, TARGET),
    KNOWN(balance.rear_adhesion_used, rear_used, TARGET),
    KNOWN(pedal.pressure_for_target, pressure_for_target, TARGET),
    KNOWN(pedal.force_for_target, force_for_target, TARGET),
    KNOWN(parking.effort_grade, effort_grade, PARKING),
    KNOWN(parking.grade_up, grade_up, PARKING),
    KNOWN(parking.grade_down, grade_down, PARKING),
    KNOWN(parking.deceleration, parking, PARKING),
};

/* NULL: none. */
static const struct known *known_of(struct brake_output output)
{
    if (output.criterion || brake_result_load(output.index) < 0)
        return NULL;
    const size_t result = brake_result_at(output.index)->offset;
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        if (known[i].result == result)
            return &known[i];
    }
    return NULL;
}

int brake_batch_answer(struct brake_output output)
{
    return known_of(output) != NULL ? known_of(output)->answer : -1;
}

unsigned brake_batch_asked(const struct brake_sweep *sweep)
{
    unsigned asked = 0;
    for (int i = 0; i < sweep->outputs; i++)
        asked |= known_of(sweep->output[i])->asked;
    return asked;
}

bool brake_batch_asks(const struct brake_sweep *sweep, enum brake_load load)
{
    for (int i = 0; i < sweep->outputs; i++) {
        if (!sweep->output[i].criterion && brake_result_load(sweep->output[i].index) == (int)load)
            return true;
    }
    return false;
}

/* ---- numbers -------------------------------------------------------------------------------- */

/* Place in a table, and how far it moves along the last axis. */
struct place {
    long long entry;
    int step;
};

static struct place place_of(const struct brake_sweep *sweep, unsigned axes, const long long *at)
{
    struct place place = {0, (int)(axes >> (sweep->axes - 1) & 1)};
    for (int i = 0; i < sweep->axes; i++) {
        if ((axes >> i & 1) != 0)
            place.entry = place.entry * sweep->axis[i].count + at[i];
    }
    return place;
}

static void copy(const double *from, int step, int count, double *to)
{
    const double same = *from;
    if (step == 1)
        memcpy(to, from, (size_t)count * sizeof *to);
    for (int i = 0; i < count && step == 0; i++)
        to[i] = same;
}

void brake_batch_begin(const struct brake_lookup *lookup, struct brake_batch *batch)
{
    for (int i = 0; i < lookup->columns; i++)
        copy(lookup->column[i].value, 0, BRAKE_LANES,
             brake_lane_column(batch->numbers, lookup->column[i].number));
}

/* Lanes from `lane` on: a stretch of the last axis. */
static void take_run(const struct brake_lookup *lookup, const struct place *place, int lane,
                     int count, struct brake_batch *batch)
{
    for (int i = 0; i < lookup->columns; i++) {
        const struct place at = place[lookup->column[i].table];
        if (lookup->column[i].varies)
            copy(lookup->column[i].value + at.entry, at.step, count,
                 brake_lane_column(batch->numbers, lookup->column[i].number) + lane);
    }
    for (int i = 0; i < lookup->tables; i++) {
        for (int j = 0; j < count && lookup->table[i].alone != NULL; j++)
            batch->alone[lane + j] +=
                lookup->table[i].alone[place[i].entry + (long long)j * place[i].step];
    }
}

/* The next position along the grid after some steps on the last axis, which do not leave it. */
static void move(const struct brake_sweep *sweep, int steps, long long *at)
{
    int i = sweep->axes - 1;
    at[i] += steps;
    while (i > 0 && at[i] == sweep->axis[i].count) {
        at[i--] = 0;
        at[i]++;
    }
}

static void take_numbers(const struct brake_sweeper *sweeper, long long first, int count,
                         struct brake_batch *batch)
{
    const struct brake_sweep *sweep = sweeper->sweep;
    const struct brake_lookup *lookup = &sweeper->lookup;
    const int last = sweep->axes - 1;
    long long at[BRAKE_AXES_OF_SWEEP];
    struct place place[BRAKE_SHARED_TABLES];
    int run;
    memset(batch->alone, 0, sizeof batch->alone);
    brake_sweep_position(sweep, first, at);
    for (int lane = 0; lane < count; lane += run) {
        const long long left = sweep->axis[last].count - at[last];
        run = left < count - lane ? (int)left : count - lane;
        for (int i = 0; i < lookup->tables; i++)
            place[i] = place_of(sweep, lookup->table[i].axes, at);
        take_run(lookup, place, lane, run, batch);
        move(sweep, run, at);
    }
}

/* ---- answers -------------------------------------------------------------------------------- */

void brake_batch_answers(const struct brake_sweeper *sweeper, long long first, int count,
                         struct brake_batch *batch, double *value)
{
    const struct brake_sweep *sweep = sweeper->sweep;
    const unsigned asked = brake_batch_asked(sweep);
    take_numbers(sweeper, first, count, batch);
    for (int load = 0; load < BRAKE_LOADS; load++) {
        if (brake_batch_asks(sweep, (enum brake_load)load))
            brake_lanes_answer(asked, &batch->numbers[load], &batch->answers[load]);
    }
    for (int i = 0; i < sweep->outputs; i++) {
        const int load = brake_result_load(sweep->output[i].index);
        const brake_column *answers = (const brake_column *)&batch->answers[load];
        const double *column = answers[brake_batch_answer(sweep->output[i])];
        for (int lane = 0; lane < count; lane++)
            value[(size_t)lane * (size_t)sweep->outputs + (size_t)i] = column[lane];
    }
}
