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
        offsetof(struct brake_case_results, result), ANSWER(member), BRAKE_LANES_##asked,          \
            BRAKE_INTACT                                                                           \
    }

#define FAILED(result, failure)                                                                    \
    {                                                                                              \
        offsetof(struct brake_case_results, failed.result), ANSWER(failed), BRAKE_LANES_FAILED,    \
            BRAKE_##failure                                                                        \
    }

static const struct known {
    size_t result;
    int answer;
    unsigned asked;
    enum brake_failure failure;
} known[] = {
    KNOWN(deceleration.at_pedal_force, at_force, STOP),
    KNOWN(deceleration.most, at_most, STOP),
    KNOWN(deceleration.brakes_alone, brakes_alone, ITSELF),
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
    KNOWN(parking.needed, parking_needed, PARKING),
    KNOWN(parking.margin, parking_margin, PARKING),
    KNOWN(parking.trailer_grade, trailer_grade, AFTER | BRAKE_LANES_PARKING),
    KNOWN(mass.total, total, ITSELF),
    KNOWN(mass.effective, effective, ITSELF),
    KNOWN(mass.front_axle, axle[BRAKE_FRONT], ITSELF),
    KNOWN(mass.rear_axle, axle[BRAKE_REAR], ITSELF),
    KNOWN(cg.behind_front_axle, behind, ITSELF),
    KNOWN(cg.height, height, ITSELF),
    KNOWN(pedal.knee_force, knee_force, ITSELF),
    KNOWN(pedal.knee_deceleration, knee_deceleration, ITSELF),
    KNOWN(torque.front_needed, needed[BRAKE_FRONT], ITSELF),
    KNOWN(torque.rear_needed, needed[BRAKE_REAR], ITSELF),
    KNOWN(torque.front_available, available[BRAKE_FRONT], ITSELF),
    KNOWN(torque.rear_available, available[BRAKE_REAR], ITSELF),
    KNOWN(torque.front_margin, margin[BRAKE_FRONT], ITSELF),
    KNOWN(torque.rear_margin, margin[BRAKE_REAR], ITSELF),
    KNOWN(torque.margin, margin_of_both, ITSELF),
    KNOWN(balance.ideal_front_share, ideal_share, ITSELF),
    KNOWN(balance.lock_axle, lock_axle, ITSELF),
    KNOWN(balance.efficiency, efficiency, ITSELF),
    KNOWN(balance.valve_knee, valve_knee, ITSELF),
    KNOWN(balance.locked_drive_lock_deceleration, locked_drive, ITSELF),
    KNOWN(stop.energy, energy, ITSELF),
    KNOWN(mass.front_axle_margin, axle_margin[BRAKE_FRONT], RATED),
    KNOWN(mass.rear_axle_margin, axle_margin[BRAKE_REAR], RATED),
    KNOWN(mass.front_tyre_margin, tyre_margin[BRAKE_FRONT], RATED),
    KNOWN(mass.rear_tyre_margin, tyre_margin[BRAKE_REAR], RATED),
    KNOWN(mass.rated_margin, rated_margin, RATED),
    KNOWN(pedal.travel, travel, FLUID),
    KNOWN(pedal.travel_used, travel_used, FLUID),
    KNOWN(pedal.primary_stroke_used, stroke_used[0], FLUID),
    KNOWN(pedal.secondary_stroke_used, stroke_used[1], FLUID),
    KNOWN(fluid.gaps, gaps, FLUID),
    KNOWN(fluid.shoes, shoes, FLUID),
    KNOWN(fluid.take_up, take_up, FLUID),
    KNOWN(fluid.compliance, compliance, FLUID),
    KNOWN(fluid.hoses, hoses, FLUID),
    KNOWN(fluid.air, air, FLUID),
    KNOWN(fluid.total, fluid, FLUID),
    KNOWN(stop.sight_distance, sight, AFTER),
    KNOWN(stop.front_heat_share, heat_share, AFTER),
    KNOWN(stop.front_rise, rise[BRAKE_FRONT], AFTER),
    KNOWN(stop.rear_rise, rise[BRAKE_REAR], AFTER),
    KNOWN(tow.without_brakes, tow_without, AFTER),
    KNOWN(tow.as_stated, tow_stated, AFTER),
    KNOWN(tow.all_brakes, tow_all, AFTER),
    FAILED(first_circuit, FIRST_CIRCUIT),
    FAILED(second_circuit, SECOND_CIRCUIT),
    FAILED(low_vacuum, LOW_VACUUM),
    FAILED(valve_open, VALVE_OPEN),
    FAILED(valve_shut, VALVE_SHUT),
    FAILED(no_antilock, NO_ANTILOCK),
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

bool brake_batch_knows(struct brake_output output)
{
    return known_of(output) != NULL;
}

static bool asks_in(struct brake_output output, const struct known *of,
                    struct brake_lane_state state)
{
    return brake_result_load(output.index) == (int)state.load && of->failure == state.failure;
}

void brake_batch_states(const struct brake_sweep *sweep, struct brake_lookup *lookup)
{
    lookup->states = 0;
    for (int i = 0; i < sweep->outputs; i++) {
        const struct brake_output output = sweep->output[i];
        const struct known *of = known_of(output);
        int j = 0;
        while (j < lookup->states && !asks_in(output, of, lookup->state[j]))
            j++;
        if (j == lookup->states) {
            lookup->state[j].load = (enum brake_load)brake_result_load(output.index);
            lookup->state[j].failure = of->failure;
            lookup->asked[j] = 0;
            lookup->states++;
        }
        lookup->asked[j] |= of->asked;
    }
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

void brake_batch_begin(const struct brake_lookup *lookup, int state, struct brake_batch *batch)
{
    memset(&batch->numbers, 0, sizeof batch->numbers);
    for (int i = 0; i < lookup->columns; i++) {
        if (lookup->column[i].state == state)
            copy(lookup->column[i].value, 0, BRAKE_LANES,
                 brake_lane_column(&batch->numbers, lookup->column[i].number));
    }
}

/* Cases one after another along the last axis: their lanes, and where they are in the tables. */
struct run {
    long long at[BRAKE_AXES_OF_SWEEP];
    struct place place[BRAKE_SHARED_TABLES];
    int lane;
    int count;
};

static void begin_run(const struct brake_sweeper *sweeper, long long first, struct run *run)
{
    brake_sweep_position(sweeper->sweep, first, run->at);
    run->lane = run->count = 0;
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

/* Whether there is another run of these cases. */
static bool next_run(const struct brake_sweeper *sweeper, int cases, struct run *run)
{
    const struct brake_sweep *sweep = sweeper->sweep;
    const struct brake_lookup *lookup = &sweeper->lookup;
    const int last = sweep->axes - 1;
    move(sweep, run->count, run->at);
    run->lane += run->count;
    const int rest = cases - run->lane;
    const long long left = sweep->axis[last].count - run->at[last];
    run->count = left < rest ? (int)left : rest;
    for (int i = 0; i < lookup->tables && rest > 0; i++)
        run->place[i] = place_of(sweep, lookup->table[i].axes, run->at);
    return rest > 0;
}

static void take_numbers(const struct brake_sweeper *sweeper, int state, long long first, int count,
                         struct brake_lane_numbers *numbers)
{
    const struct brake_lookup *lookup = &sweeper->lookup;
    struct run run;
    begin_run(sweeper, first, &run);
    while (next_run(sweeper, count, &run)) {
        for (int i = 0; i < lookup->columns; i++) {
            const struct place at = run.place[lookup->column[i].table];
            if (lookup->column[i].varies && lookup->column[i].state == state)
                copy(lookup->column[i].value + at.entry, at.step, run.count,
                     brake_lane_column(numbers, lookup->column[i].number) + run.lane);
        }
    }
}

static bool none_alone(const struct brake_lookup *lookup)
{
    for (int i = 0; i < lookup->tables; i++) {
        if (lookup->table[i].alone != NULL)
            return false;
    }
    return true;
}

void brake_batch_alone(const struct brake_sweeper *sweeper, long long first, int count,
                       brake_column alone)
{
    const struct brake_lookup *lookup = &sweeper->lookup;
    struct run run;
    memset(alone, 0, sizeof(brake_column));
    if (none_alone(lookup))
        return;
    begin_run(sweeper, first, &run);
    while (next_run(sweeper, count, &run)) {
        for (int i = 0; i < lookup->tables; i++) {
            const struct place at = run.place[i];
            const double *entry = lookup->table[i].alone;
            for (int j = 0; j < run.count && entry != NULL; j++)
                alone[run.lane + j] += entry[at.entry + (long long)j * at.step];
        }
    }
}

/* ---- answers -------------------------------------------------------------------------------- */

/* Has the memory of the outputs come near while the lanes are worked out. */
static void bring_near(const double *value, size_t count)
{
    enum { LINE = 8 };
    for (size_t i = 0; i < count; i += LINE)
        __builtin_prefetch(value + i, 1);
}

void brake_batch_answers(const struct brake_sweeper *sweeper, int state, long long first, int count,
                         struct brake_batch *batch, double *value)
{
    const struct brake_sweep *sweep = sweeper->sweep;
    const struct brake_lane_state in = sweeper->lookup.state[state];
    const brake_column *answers = (const brake_column *)&batch->answers;
    bring_near(value, (size_t)count * (size_t)sweep->outputs);
    take_numbers(sweeper, state, first, count, &batch->numbers);
    brake_lanes_answer(sweeper->lookup.asked[state], &batch->numbers, &batch->answers);
    for (int i = 0; i < sweep->outputs; i++) {
        const struct known *of = known_of(sweep->output[i]);
        if (!asks_in(sweep->output[i], of, in))
            continue;
        const double *column = answers[of->answer];
        for (int lane = 0; lane < count; lane++)
            value[(size_t)lane * (size_t)sweep->outputs + (size_t)i] = column[lane];
    }
}
