/* SPDX-License-Identifier: MIT */
/* Cases are worked out eight at a time, each into its own place, so that threads leave no trace. */
#include "brake/heats.h"

#include <math.h>
#include <stdlib.h>

#include "batch.h"
#include "cases.h"
#include "duties.h"
#include "duty_results.h"
#include "model/braking_lanes.h"
#include "vehicle/groups.h"
#include "vehicle/text.h"
#include "watching.h"

static const double BESIDE = 1e-6; /* [s] a row so near a time is that of the time */

/* A case among those beside it, and the row that its history has come to. */
struct one {
    const struct brake_heats *heats;
    const struct brake_hot_rig *hot;
    struct brake_duty duty;
    struct brake_duty_watch watch;
    struct brake_duty_result result;
    double *history;
    long told;
};

/* What works out some cases. */
struct bench {
    struct brake_sweep sweep;
    struct brake_sweeper sweeper; /* not begun where no line differs */
    struct brake_hot_rig hot[BRAKE_TOGETHER];
    struct one one[BRAKE_TOGETHER];
    struct brake_error error; /* why the last case that was refused was */
};

/* What is the same for all cases. */
struct run {
    const struct brake_heats *heats;
    const struct brake_heats_room *room;
    const volatile sig_atomic_t *stop;
    const struct bench *ready; /* a copy of it works out some cases */
    int threads;
};

static enum brake_status refuse(struct brake_error *error, enum brake_status status,
                                const char *text)
{
    *error = (struct brake_error){.status = status};
    brake_text_format(error->text, sizeof error->text, "%s", text);
    return status;
}

long long brake_heats_count(const struct brake_heats *heats)
{
    const struct brake_sweep sweep = {.axis = heats->axis, .axes = heats->axes};
    const long long vehicles = brake_sweep_count(&sweep);
    const double count = (double)vehicles * (double)heats->duties;
    return vehicles >= 0 && count <= 1e15 ? vehicles * heats->duties : -1;
}

/* ---- what is wrong -------------------------------------------------------------------------- */

static bool is_heat(int result)
{
    return result >= 0 && result < brake_result_all() &&
           brake_result_at(result)->group == BRAKE_OF_HEAT;
}

static const char *wrong_with(const struct brake_heats *heats)
{
    if (heats->duties < 1 || brake_heats_count(heats) < 0)
        return "accepts one duty and more, and up to 1e15 cases";
    for (int i = 0; i < heats->results; i++) {
        if (!is_heat(heats->result[i]))
            return "a result that is asked for is none of heat";
    }
    for (int i = 0; i < heats->columns; i++) {
        if (heats->column[i] < 0 || heats->column[i] >= BRAKE_DUTY_NUMBERS)
            return "a history has no such column";
    }
    for (long i = 0; i < heats->times; i++) {
        if (!isfinite(heats->time[i]) || (i > 0 && !(heats->time[i] > heats->time[i - 1])))
            return "the times of the history must rise";
    }
    return NULL;
}

/* ---- one case ------------------------------------------------------------------------------- */

/* Rows come in the order of time; those of the times that are asked for are kept. */
static void keep_row(void *context, const struct brake_duty_row *row)
{
    struct one *one = context;
    const struct brake_heats *heats = one->heats;
    const double *number = (const double *)row; /* that it is made of */
    while (one->told < heats->times && heats->time[one->told] < row->time - BESIDE)
        one->told++;
    if (one->told == heats->times || heats->time[one->told] > row->time + BESIDE)
        return;
    for (int i = 0; i < heats->columns; i++)
        one->history[i * heats->times + one->told] = number[heats->column[i]];
    one->told++;
}

/* The rig of a case; that of the case before it where the vehicle is the same. */
static enum brake_status build(const struct brake_heats *heats, struct bench *bench,
                               long long number, int place)
{
    const long long vehicle = number / heats->duties;
    const struct brake_vehicle *at = &heats->sheet->vehicle;
    enum brake_status status = BRAKE_OK;
    if (heats->axes > 0) {
        long long position[BRAKE_AXES_OF_SWEEP];
        brake_sweep_position(&bench->sweep, vehicle, position);
        status = brake_sweep_take(&bench->sweeper, position, &bench->error);
        at = &bench->sweeper.recalculation.sheet.vehicle;
    }
    if (status == BRAKE_OK)
        status = brake_hot_rig_build(at, heats->load, &bench->hot[place], &bench->error);
    bench->one[place].hot = &bench->hot[place];
    bench->one[place].duty = heats->duty[number % heats->duties];
    if (isnan(bench->one[place].duty.force))
        bench->one[place].duty.force = at->driver.pedal_force_most;
    return status;
}

static enum brake_status make_ready(const struct brake_heats *heats, struct bench *bench,
                                    const volatile sig_atomic_t *stop, long long number, int place)
{
    struct one *one = &bench->one[place];
    bench->error = (struct brake_error){.status = BRAKE_OK};
    const enum brake_status status = build(heats, bench, number, place);
    const char *wrong = status == BRAKE_OK ? brake_duty_wrong(&one->duty) : NULL;
    one->heats = heats;
    one->told = 0;
    one->watch = (struct brake_duty_watch){.row = heats->times > 0 ? keep_row : NULL,
                                           .context = one,
                                           .stop = stop,
                                           .time = heats->time,
                                           .times = heats->times};
    return wrong != NULL ? refuse(&bench->error, BRAKE_E_RANGE, wrong) : status;
}

/* ---- some cases ----------------------------------------------------------------------------- */

static void clear(const struct brake_heats *heats, const struct brake_heats_room *room,
                  long long number)
{
    for (long long i = number * heats->results; i < (number + 1) * heats->results; i++)
        room->result[i] = BRAKE_NAN;
    const long long numbers = heats->columns * heats->times;
    for (long long i = number * numbers; i < (number + 1) * numbers; i++)
        room->history[i] = BRAKE_NAN;
}

static void keep_results(const struct brake_heats *heats, const struct one *one, double *value)
{
    struct brake_study_results results = {0};
    brake_duty_results(one->hot, &one->result, &results);
    for (int i = 0; i < heats->results; i++)
        value[i] = brake_study_value(&results, heats->result[i]);
}

static void work(const struct run *run, struct bench *bench, long long first, int count)
{
    const struct brake_heats *heats = run->heats;
    const struct brake_heats_room *room = run->room;
    struct brake_duty_task task[BRAKE_TOGETHER];
    long long number[BRAKE_TOGETHER];
    int tasks = 0;
    for (int i = 0; i < count; i++) {
        struct one *one = &bench->one[tasks];
        clear(heats, room, first + i);
        room->status[first + i] = make_ready(heats, bench, run->stop, first + i, tasks);
        if (room->status[first + i] != BRAKE_OK)
            continue;
        one->history = NULL; /* nobody asked for one */
        if (room->history != NULL)
            one->history = room->history + (first + i) * heats->columns * heats->times;
        number[tasks] = first + i;
        task[tasks++] = (struct brake_duty_task){
            .hot = one->hot, .duty = &one->duty, .watch = &one->watch, .result = &one->result};
    }
    brake_duty_run_all(task, tasks);
    for (int i = 0; i < tasks; i++) {
        room->status[number[i]] = task[i].status;
        if (task[i].status == BRAKE_OK)
            keep_results(heats, &bench->one[i], room->result + number[i] * heats->results);
        else
            clear(heats, room, number[i]);
    }
}

/* ---- all cases ------------------------------------------------------------------------------ */

/* Makes a bench ready; a copy of it is another. */
static enum brake_status set_up(const struct brake_heats *heats, struct bench *bench,
                                struct brake_error *error)
{
    const char *wrong = wrong_with(heats);
    if (wrong != NULL)
        return refuse(error, BRAKE_E_RANGE, wrong);
    bench->sweep =
        (struct brake_sweep){.sheet = heats->sheet, .axis = heats->axis, .axes = heats->axes};
    return heats->axes > 0 ? brake_sweep_begin(&bench->sweep, &bench->sweeper, error) : BRAKE_OK;
}

/* Some cases on a bench of their own; false when there is no memory for it. */
static bool work_apart(const struct run *run, long long first, int count)
{
    struct bench *bench = malloc(sizeof *bench);
    if (bench == NULL)
        return false;
    bench->sweep = run->ready->sweep;
    if (run->heats->axes > 0)
        bench->sweeper = run->ready->sweeper;
    work(run, bench, first, count);
    free(bench);
    return true;
}

/* Cases from `first` on. */
static bool run_round(const struct run *run, long long first, long long end)
{
    bool whole = true;
#pragma omp parallel for num_threads(run->threads) schedule(dynamic, 1) reduction(&& : whole)
    for (long long from = first; from < end; from += BRAKE_TOGETHER) {
        const int count = end - from < BRAKE_TOGETHER ? (int)(end - from) : BRAKE_TOGETHER;
        whole = work_apart(run, from, count) && whole;
    }
    return whole;
}

/* In rounds that keep the threads at work for a while: who watches is told in between. */
static bool run_rounds(const struct run *run, const struct brake_watch *watch)
{
    const long long total = brake_heats_count(run->heats);
    const long long some = 4LL * run->threads * BRAKE_TOGETHER;
    bool whole = true;
    for (long long done = 0; done < total && whole && !watch_stops(watch);) {
        const long long end = total - done < some ? total : done + some;
        whole = run_round(run, done, end);
        done = end;
        watch_tell(watch, (double)done, (double)total);
    }
    return whole;
}

enum brake_status brake_heats_run(const struct brake_heats *heats, int threads,
                                  const struct brake_watch *watch,
                                  const struct brake_heats_room *room, struct brake_error *error)
{
    struct bench *ready = malloc(sizeof *ready);
    const struct run run = {heats, room, watch != NULL ? watch->stop : NULL, ready, threads};
    enum brake_status status = ready != NULL ? set_up(heats, ready, error) : BRAKE_E_MEMORY;
    if (status == BRAKE_OK && !run_rounds(&run, watch))
        status = BRAKE_E_MEMORY;
    if (status == BRAKE_E_MEMORY)
        refuse(error, status, brake_status_message(status));
    free(ready);
    return status;
}

enum brake_status brake_heats_refusal(const struct brake_heats *heats, long long number,
                                      struct brake_error *error)
{
    struct bench *bench = malloc(sizeof *bench);
    if (bench == NULL)
        return refuse(error, BRAKE_E_MEMORY, brake_status_message(BRAKE_E_MEMORY));
    enum brake_status status = set_up(heats, bench, error);
    if (status == BRAKE_OK) {
        struct one *one = &bench->one[0];
        status = make_ready(heats, bench, NULL, number, 0);
        *error = bench->error;
        if (status == BRAKE_OK)
            status = brake_duty_run(one->hot, &one->duty, NULL, &one->result);
        if (status != BRAKE_OK && error->status == BRAKE_OK)
            refuse(error, status, brake_status_message(status));
    }
    free(bench);
    return status;
}
