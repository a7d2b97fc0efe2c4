/* Cases side by side, from what they share. */
#include <stddef.h>
#include <string.h>

#include "brake/evaluate.h"
#include "shared.h"
#include "vehicle/groups.h"
#include "cases.h"

#define ANSWER(member) (int)(offsetof(struct brake_lane_answers, member) / sizeof(brake_column))

int brake_abreast_answer(struct brake_output output)
{
    static const struct {
        size_t result;
        int answer;
    } known[] = {
        {offsetof(struct brake_case_results, deceleration.at_pedal_force), ANSWER(at_force)},
        {offsetof(struct brake_case_results, deceleration.most), ANSWER(at_most)},
        {offsetof(struct brake_case_results, deceleration.brakes_alone), ANSWER(brakes_alone)},
        {offsetof(struct brake_case_results, balance.lock_deceleration), ANSWER(lock)},
        {offsetof(struct brake_case_results, stop.distance), ANSWER(distance)},
        {offsetof(struct brake_case_results, stop.time), ANSWER(time)},
    };
    if (output.criterion || brake_result_load(output.index) < 0)
        return -1;
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        if (brake_result_at(output.index)->offset == known[i].result)
            return known[i].answer;
    }
    return -1;
}

bool brake_abreast_asks(const struct brake_sweep *sweep, enum brake_load load)
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

void brake_abreast_begin(const struct brake_shared *shared, struct brake_abreast *abreast)
{
    for (int i = 0; i < shared->columns; i++)
        copy(shared->column[i].value, 0, BRAKE_LANES,
             brake_lane_column(abreast->numbers, shared->column[i].number));
}

/* Lanes from `lane` on: a stretch of the last axis. */
static void take_run(const struct brake_shared *shared, const struct place *place, int lane,
                     int count, struct brake_abreast *abreast)
{
    for (int i = 0; i < shared->columns; i++) {
        const struct place at = place[shared->column[i].table];
        if (shared->column[i].varies)
            copy(shared->column[i].value + at.entry, at.step, count,
                 brake_lane_column(abreast->numbers, shared->column[i].number) + lane);
    }
    for (int i = 0; i < shared->tables; i++) {
        for (int j = 0; j < count && shared->table[i].alone != NULL; j++)
            abreast->alone[lane + j] +=
                shared->table[i].alone[place[i].entry + (long long)j * place[i].step];
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
                         struct brake_abreast *abreast)
{
    const struct brake_sweep *sweep = sweeper->sweep;
    const struct brake_shared *shared = &sweeper->shared;
    const int last = sweep->axes - 1;
    long long at[BRAKE_AXES_OF_SWEEP];
    struct place place[BRAKE_SHARED_TABLES];
    int run;
    memset(abreast->alone, 0, sizeof abreast->alone);
    brake_sweep_position(sweep, first, at);
    for (int lane = 0; lane < count; lane += run) {
        const long long left = sweep->axis[last].count - at[last];
        run = left < count - lane ? (int)left : count - lane;
        for (int i = 0; i < shared->tables; i++)
            place[i] = place_of(sweep, shared->table[i].axes, at);
        take_run(shared, place, lane, run, abreast);
        move(sweep, run, at);
    }
}

/* ---- answers -------------------------------------------------------------------------------- */

void brake_abreast_answers(const struct brake_sweeper *sweeper, long long first, int count,
                           struct brake_abreast *abreast, double *value)
{
    const struct brake_sweep *sweep = sweeper->sweep;
    take_numbers(sweeper, first, count, abreast);
    for (int load = 0; load < BRAKE_LOADS; load++) {
        if (brake_abreast_asks(sweep, (enum brake_load)load))
            brake_lanes_answer(&abreast->numbers[load], &abreast->answers[load]);
    }
    for (int i = 0; i < sweep->outputs; i++) {
        const int load = brake_result_load(sweep->output[i].index);
        const brake_column *answers = (const brake_column *)&abreast->answers[load];
        const double *column = answers[brake_abreast_answer(sweep->output[i])];
        for (int lane = 0; lane < count; lane++)
            value[(size_t)lane * (size_t)sweep->outputs + (size_t)i] = column[lane];
    }
}
