/* SPDX-License-Identifier: MIT */
#include "brake/duty.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "brake/stop.h"
#include "model/braked_axles.h"
#include "model/braking_lanes.h"
#include "model/thermal_lanes.h"
#include "duties.h"
#include "sequences.h"

static const double BRAKED_SLICE = 0.5; /* [s] while a stop or a braked segment of a drive lasts */
static const double UNSEEN_SLICE = 1.0; /* [s] of a stop of which only the end is looked at */
static const double SLICE = 1.0; /* [s] at first, on a descent and while the brakes are off */
static const double LONGEST_SLICE = 30.0; /* [s] once all changes slowly */
static const double SHOWN_BRAKED = 0.1;   /* [s] from row to row of the history while they are on */
static const double SHOWN = 1.0;          /* [s] else */
static const double TOO_LONG = 600.0;     /* [s] no stop lasts so long */
static const double MOST = 1e6;           /* [s] a duty may last: a million rows */
static const double LEAST = 1000.0;       /* [J] a tenth of a kelvin; less is no use of brakes */
static const double MISSED = 1e-3;        /* [m/s2] less is no shortfall */

/* ---- published sequences -------------------------------------------------------------------- */

#define KMH (1.0 / 3.6)

/* All texts from memory; the same cycle was read in Directive 71/320/EEC, Annex II, 1.3.1.1, and
 * that the force of its first application is held in 1.3.1.3. The start of 65 degC is that of FMVSS
 * 135, S7.13 (55 to 65); the others name none. */
static const struct brake_fade_sequence sequences[] = {
    {"us.135.fade", "FMVSS 135, S7.13", "from memory; check against the current text", 120.0 * KMH,
     0.8, 0.5, 338.15, 45.0, 3.0, 15, false},
    {"un.13h.fade", "UN R13-H, Annex 3, 1.5.1", "from memory; check against the current text",
     120.0 * KMH, 0.8, 0.5, 338.15, 45.0, 3.0, 15, true},
    {"un.13.fade", "UN R13, Annex 4, 1.5.1, N1", "from memory; check against the current text",
     120.0 * KMH, 0.8, 0.5, 338.15, 55.0, 3.0, 15, true},
    {"au.sa.fade", "South Australia, brake system test procedure",
     "the page itself, undated; that each application ends at rest is not said there", 60.0 * KMH,
     1.0, 0.0, 338.15, 25.0, 4.5, 15, false},
};

const struct brake_fade_sequence *brake_fade_sequence_at(int index)
{
    return index >= 0 && index < (int)(sizeof sequences / sizeof sequences[0]) ? &sequences[index]
                                                                               : NULL;
}

const struct brake_fade_sequence *brake_fade_sequence_find(const char *id)
{
    const struct brake_fade_sequence *sequence;
    for (int i = 0; (sequence = brake_fade_sequence_at(i)) != NULL; i++) {
        if (strcmp(sequence->id, id) == 0)
            break;
    }
    return sequence;
}

struct brake_stops brake_fade_stops(const struct brake_fade_sequence *sequence, double top_speed)
{
    /* fmin passes over a speed that is not known */
    const double from = fmin(sequence->from, sequence->top_share * top_speed);
    const struct brake_stops stops = {.count = sequence->count,
                                      .from = from,
                                      .to = sequence->end_share * from,
                                      .interval = sequence->interval,
                                      .manner = BRAKE_HOLDS_DECELERATION,
                                      .deceleration = sequence->deceleration,
                                      .sequence = sequence};
    return stops;
}

/* ---- what is wrong -------------------------------------------------------------------------- */

static bool within(double value, double low, double high)
{
    return value >= low && value <= high; /* false for NaN */
}

static const char *wrong_stops(const struct brake_stops *stops)
{
    const bool held = stops->manner == BRAKE_HOLDS_DECELERATION;
    if (stops->count < 1 || stops->count > 100000)
        return "the number of stops must be 1 to 100,000";
    if (!within(stops->from, 0.1, 100.0))
        return "the first speed must be 0.1 to 100 m/s (0.36 to 360 km/h)";
    if (!(stops->to >= 0.0 && stops->to < stops->from))
        return "the second speed must be 0 or more and lower than the first";
    if (held && !within(stops->deceleration, 0.05, 15.0))
        return "the deceleration must be 0.05 to 15 m/s2";
    if (!within(stops->interval, 0.0, 86400.0))
        return "the interval must be 0 s to 24 h";
    if (stops->count > 1 && !(stops->interval > 0.0))
        return "more stops than one need an interval";
    if (stops->count * stops->interval > MOST)
        return "all stops together must not last longer than 1e6 s";
    if (stops->count > 1 && held &&
        (stops->from - stops->to) / stops->deceleration >= stops->interval)
        return "the interval is too short: the vehicle is not slowed when it ends";
    return NULL;
}

static const char *wrong_descent(const struct brake_descent *descent)
{
    if (!within(descent->fall, 0.0, 0.5))
        return "the fall must be 0 to 50 %, positive downhill";
    if (!within(descent->speed, 0.1, 100.0))
        return "the speed must be 0.1 to 100 m/s (0.36 to 360 km/h)";
    if (!within(descent->length, 1.0, 1e6))
        return "the length must be 1 m to 1000 km";
    if (descent->length / descent->speed > MOST)
        return "the descent must not last longer than 1e6 s";
    if (!within(descent->engine, 0.0, 1.0))
        return "the engine's share must be 0 to 100 %";
    return NULL;
}

static const char *wrong_cycle(const struct brake_cycle *cycle)
{
    if (cycle->count < 2 || cycle->point == NULL)
        return "a drive needs two rows or more";
    if (cycle->point[cycle->count - 1].time - cycle->point->time > MOST)
        return "the drive must not last longer than 1e6 s";
    for (int i = 0; i < cycle->count; i++) {
        const struct brake_cycle_point *point = &cycle->point[i];
        if (!within(point->time, -1e9, 1e9) || (i > 0 && !(point->time > point[-1].time)))
            return "the times of the rows must rise";
        if (!within(point->speed, 0.0, 100.0))
            return "the speeds of the rows must be 0 to 100 m/s (360 km/h)";
        if (!within(point->grade, -0.5, 0.5))
            return "the grades of the rows must be -50 to 50 %";
    }
    return NULL;
}

const char *brake_duty_wrong(const struct brake_duty *duty)
{
    if (!within(duty->force, 1.0, 5000.0))
        return "the pedal force must be 1 to 5000 N";
    if (!within(duty->rest, 0.0, 86400.0))
        return "the time to cool down must be 0 s to 24 h";
    if (!within(duty->rest_speed, 0.0, 100.0))
        return "the speed while cooling down must be 0 to 100 m/s (360 km/h)";
    switch (duty->kind) {
    case BRAKE_DUTY_STOPS:
        return wrong_stops(&duty->stops);
    case BRAKE_DUTY_DESCENT:
        return wrong_descent(&duty->descent);
    case BRAKE_DUTY_CYCLE:
        return wrong_cycle(&duty->cycle);
    case BRAKE_DUTY_REST:
        return NULL;
    }
    return "there is no such kind of duty";
}

double brake_duty_planned(const struct brake_duty *duty)
{
    const struct brake_cycle *cycle = &duty->cycle;
    switch (duty->kind) {
    case BRAKE_DUTY_STOPS:
        return duty->rest + duty->stops.count * duty->stops.interval;
    case BRAKE_DUTY_DESCENT:
        return duty->rest + duty->descent.length / duty->descent.speed;
    case BRAKE_DUTY_CYCLE:
        return duty->rest + cycle->point[cycle->count - 1].time - cycle->point->time;
    case BRAKE_DUTY_REST:
        break;
    }
    return duty->rest;
}

/* ---- one run -------------------------------------------------------------------------------- */

/* A time with the brakes off, speed along a straight line. */
struct rolling {
    double duration;
    double from;
    double to;
};

struct run {
    enum brake_status status;
    const struct brake_hot_rig *hot;
    struct brake_rig rig; /* that of hot, as the duty has it */
    const struct brake_duty *duty;
    const struct brake_duty_watch *watch;
    struct brake_duty_result *result;
    struct brake_braking braking;
    struct brake_outcome outcome;
    double time;                          /* when the present application or segment began */
    double gone;                          /* [m] by then */
    double work[BRAKE_AXLES];             /* of those before it */
    double before[BRAKE_AXLES];           /* supplied to one brake before the duty */
    struct brake_application application; /* the present one */
    struct rolling way;                   /* the present one */
    double until;                         /* of either: end of the present slice */
    int done;                             /* stops or segments that lie behind */
    bool braked;                          /* in the present segment, or the descent */
    bool ends;                            /* see brake_duty_task */
};

/* Runs that go on side by side. */
struct runs {
    struct run *run[BRAKE_TOGETHER];
    int count;
};

/* Those of them that are well and of which something holds. */
static struct runs those(const struct runs *from, bool (*which)(struct run *run))
{
    struct runs to = {.count = 0};
    for (int i = 0; i < from->count; i++) {
        if (from->run[i]->status == BRAKE_OK && which(from->run[i]))
            to.run[to.count++] = from->run[i];
    }
    return to;
}

/* Does something with each that is well. */
static void with_each(const struct runs *runs, void (*act)(struct run *run))
{
    for (int i = 0; i < runs->count; i++) {
        if (runs->run[i]->status == BRAKE_OK)
            act(runs->run[i]);
    }
}

static struct brake_duty_row instant(const struct run *run)
{
    const struct brake_braking *b = &run->braking;
    struct brake_duty_row row = {.time = run->time + b->time,
                                 .distance = run->gone + b->distance,
                                 .speed = b->speed,
                                 .deceleration = b->deceleration,
                                 .pedal_force = b->pedal_force,
                                 .pressure = b->pressure};
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_thermal *thermal = &run->hot->thermal[i];
        row.face[i] = b->heat[i].face;
        row.mean[i] = brake_thermal_mean(thermal, &b->heat[i]);
        row.pad[i] = brake_thermal_part(thermal, &b->heat[i], BRAKE_PART_PAD);
        row.fluid[i] = brake_thermal_part(thermal, &b->heat[i], BRAKE_PART_FLUID);
        row.work[i] = run->work[i] + b->work[i];
    }
    return row;
}

static bool watched(const struct run *run)
{
    return run->watch != NULL && run->watch->row != NULL;
}

/* Rows are wanted between the ends of slices too. */
static bool watched_closely(const struct run *run)
{
    return watched(run) && !run->watch->coarse;
}

static bool stopped(const struct run *run)
{
    return run->watch != NULL && run->watch->stop != NULL && *run->watch->stop != 0;
}

static void tell(const struct run *run)
{
    struct brake_braked_axle axle[BRAKE_AXLES];
    struct brake_duty_row row = instant(run);
    brake_braked_axles(&run->rig, &run->braking, axle);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        row.brake_pressure[i] = axle[i].pressure;
        row.torque[i] = axle[i].torque;
        row.force[i] = axle[i].force;
    }
    run->watch->row(run->watch->context, &row);
}

/* fmax passes over NaN: a part that is left out is not known, nor is its largest. */
static void show(struct run *run)
{
    const struct brake_duty_row row = instant(run);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        struct brake_duty_heat *heat = &run->result->axle[i];
        heat->face_most = fmax(heat->face_most, row.face[i]);
        heat->mean_most = fmax(heat->mean_most, row.mean[i]);
        heat->pad_most = fmax(heat->pad_most, row.pad[i]);
        heat->fluid_most = fmax(heat->fluid_most, row.fluid[i]);
    }
    if (watched(run))
        tell(run);
}

/* Feet off the brakes: what is shown of them is 0. */
static void release(struct run *run, double speed)
{
    struct brake_braking *b = &run->braking;
    run->time += b->time;
    run->gone += b->distance;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        run->work[i] += b->work[i];
        b->work[i] = 0.0;
    }
    b->time = 0.0;
    b->distance = 0.0;
    b->speed = speed;
    b->pedal_force = 0.0;
    b->pressure = 0.0;
}

static double speed_at(const struct rolling *way, double time)
{
    return way->from + (way->to - way->from) * time / way->duration;
}

static struct brake_thermal_drive drive_of(const struct run *run)
{
    return (struct brake_thermal_drive){.speed_begin = speed_at(&run->way, run->braking.time),
                                        .speed_end = speed_at(&run->way, run->until),
                                        .air = run->rig.air};
}

/* To the end of the slice: first all brakes of one axle, then those of the other. */
static void roll_slice(const struct runs *runs)
{
    struct brake_thermal_task task[BRAKE_AXLES * BRAKE_TOGETHER];
    const int tasks = BRAKE_AXLES * runs->count;
    for (int i = 0; i < tasks; i++) {
        struct run *run = runs->run[i % runs->count];
        struct brake_braking *b = &run->braking;
        const int axle = i / runs->count;
        task[i] = (struct brake_thermal_task){&run->hot->thermal[axle], drive_of(run),
                                              run->until - b->time, &b->heat[axle], BRAKE_OK};
    }
    brake_thermal_advance_all(task, tasks);
    for (int i = 0; i < tasks; i++) {
        struct run *run = runs->run[i % runs->count];
        run->status = run->status == BRAKE_OK ? task[i].status : run->status;
    }
    for (int i = 0; i < runs->count; i++) {
        struct run *run = runs->run[i];
        const double mean = speed_at(&run->way, 0.5 * (run->braking.time + run->until));
        run->braking.distance += mean * (run->until - run->braking.time);
        run->braking.speed = speed_at(&run->way, run->until);
        run->braking.deceleration = (run->way.from - run->way.to) / run->way.duration;
        run->braking.time = run->until;
    }
}

/* When the next row is due, counted as the present application or way counts: one after some
 * time, or at the next of the times that are asked for. */
static double shown_after(const struct run *run, double every)
{
    const struct brake_duty_watch *watch = run->watch;
    const double now = run->braking.time;
    long low = 0;
    long high = watch->times;
    if (watch->time == NULL)
        return now + every;
    while (low < high) {
        const long middle = low + (high - low) / 2;
        const bool past = watch->time[middle] - run->time <= now + 1e-9;
        low = past ? middle + 1 : low;
        high = past ? high : middle;
    }
    return low < watch->times ? watch->time[low] - run->time : BRAKE_INFINITY;
}

/* The rows within a slice, on a copy: nothing depends on the watching. */
static enum brake_status tell_rolling(const struct run *run)
{
    struct run seen = *run;
    const struct runs one = {{&seen}, 1};
    seen.until = shown_after(&seen, SHOWN);
    while (seen.status == BRAKE_OK && seen.until < run->until - 1e-9) {
        roll_slice(&one);
        tell(&seen);
        seen.until = shown_after(&seen, SHOWN);
    }
    return seen.status;
}

/* What changes ever more slowly is cut into slices of half the time since it began, in whole
 * seconds: what is hottest at the ends of slices is so within 0.01 K. */
static double slice_after(double time)
{
    return fmin(LONGEST_SLICE, fmax(SLICE, floor(time / 2.0)));
}

static bool rolls_on(struct run *run)
{
    const double time = run->braking.time;
    const double left = run->way.duration - time;
    const double slice = run->ends ? run->way.duration : slice_after(time);
    if (!(left > 1e-9) || stopped(run))
        return false;
    run->until = left > slice + 1e-9 ? time + slice : run->way.duration;
    if (watched_closely(run))
        run->status = tell_rolling(run);
    return run->status == BRAKE_OK;
}

static void set_out(struct run *run, double duration, double from, double to)
{
    run->way = (struct rolling){duration, from, to};
    release(run, from);
}

static void arrive(struct run *run)
{
    release(run, run->way.to);
}

/* Those that have set out, to the end of their ways. */
static void roll(const struct runs *runs)
{
    struct runs on = those(runs, rolls_on);
    while (on.count > 0) {
        roll_slice(&on);
        with_each(&on, show);
        on = those(&on, rolls_on);
    }
    with_each(runs, arrive);
}

static void begin(struct run *run)
{
    release(run, run->application.from);
    brake_braking_begin(&run->rig, &run->application, &run->braking, &run->outcome);
}

/* The rows of the slice that follows, on a copy. */
static enum brake_status tell_braking(const struct run *run)
{
    const double every = run->duty->kind == BRAKE_DUTY_DESCENT ? SHOWN : SHOWN_BRAKED;
    struct run seen = *run;
    struct brake_braking *b = &seen.braking;
    enum brake_status status = BRAKE_OK;
    double next = shown_after(&seen, every);
    while (status == BRAKE_OK && next < run->until - 1e-9) {
        status = brake_braking_advance(&seen.rig, &seen.application, next, b, &seen.outcome);
        if (status != BRAKE_OK || !isnan(seen.outcome.ended))
            break;
        tell(&seen);
        next = shown_after(&seen, every);
    }
    return status;
}

static void end_slice(struct run *run)
{
    const struct brake_braking *b = &run->braking;
    const struct brake_application *a = &run->application;
    const double settled = run->rig.dead_time + run->rig.rise_time;
    if (a->manner == BRAKE_HOLDS_DECELERATION && b->time > settled)
        run->result->shortfall = fmax(run->result->shortfall, a->deceleration - b->deceleration);
    show(run);
}

/* Brakes on to the end of the slice, or to the end speed. */
static void brake_slice(const struct runs *runs)
{
    struct brake_braking_task task[BRAKE_TOGETHER];
    for (int i = 0; i < runs->count; i++) {
        struct run *run = runs->run[i];
        task[i] = (struct brake_braking_task){&run->rig,     &run->application, run->until,
                                              &run->braking, &run->outcome,     BRAKE_OK};
    }
    brake_braking_advance_all(task, runs->count);
    for (int i = 0; i < runs->count; i++)
        runs->run[i]->status = task[i].status;
    with_each(runs, end_slice);
}

/* Plans the next slice. */
static bool plan_slice(struct run *run, double slice)
{
    run->until = run->braking.time + slice;
    if (watched_closely(run))
        run->status = tell_braking(run);
    return run->status == BRAKE_OK;
}

/* What is to be kept of an application that has ended. */
static void keep(struct run *run)
{
    struct brake_duty_result *result = run->result;
    const struct brake_substance *iron = run->hot->iron;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        struct brake_duty_heat *heat = &result->axle[i];
        const double stress = brake_thermal_stress(iron->modulus, iron->expansion, iron->poisson,
                                                   run->outcome.stress_rise[i]);
        heat->face_most = fmax(heat->face_most, run->outcome.face_most[i]);
        heat->pad_most = fmax(heat->pad_most, run->outcome.pad_most[i]);
        heat->stress_most = fmax(heat->stress_most, stress);
    }
    result->force_most = fmax(result->force_most, run->outcome.force_most);
    result->locked = result->locked || !isnan(run->outcome.lock_time);
    /* A segment of a drive that ends at rest, or nearly, is no stop. */
    if (run->duty->kind == BRAKE_DUTY_STOPS)
        result->developed = run->outcome.developed;
    result->distance = run->braking.distance;
    result->force_mean = run->braking.effort / run->braking.time;
    result->applications++;
}

/* ---- the kinds ------------------------------------------------------------------------------ */

/* The force of the first application, once it is built up, is held from then on. */
static void hold_force(struct run *run)
{
    const struct brake_braking *b = &run->braking;
    const double built_up = b->time - run->rig.dead_time - 0.5 * run->rig.rise_time;
    run->application.manner = BRAKE_HOLDS_FORCE;
    run->application.force = b->effort / built_up;
}

static bool is_stops(struct run *run)
{
    const struct brake_stops *stops = &run->duty->stops;
    run->application = (struct brake_application){stops->manner, run->duty->force,
                                                  stops->deceleration, stops->from, stops->to};
    return run->duty->kind == BRAKE_DUTY_STOPS;
}

static bool begins_stop(struct run *run)
{
    if (run->done == run->duty->stops.count || !run->result->held || stopped(run))
        return false;
    begin(run);
    return true;
}

static bool stops_on(struct run *run)
{
    const struct brake_stops *stops = &run->duty->stops;
    const double most = stops->count > 1 ? stops->interval : TOO_LONG;
    const double left = most - run->braking.time;
    if (!isnan(run->outcome.ended) || !(left > 0.0) || stopped(run))
        return false;
    return plan_slice(run, fmin(run->ends ? UNSEEN_SLICE : BRAKED_SLICE, left));
}

static void end_stop(struct run *run)
{
    const struct brake_fade_sequence *sequence = run->duty->stops.sequence;
    struct brake_duty_result *result = run->result;
    const bool first = run->done++ == 0;
    keep(run);
    result->force_last = run->outcome.force_most;
    result->force_first = first ? result->force_last : result->force_first;
    result->held = result->held && !isnan(run->outcome.ended);
    if (first && result->held && sequence != NULL && sequence->same_force)
        hold_force(run);
}

static bool regains_speed(struct run *run)
{
    const struct brake_stops *stops = &run->duty->stops;
    if (!run->result->held || run->done == stops->count)
        return false;
    set_out(run, stops->interval - run->braking.time, stops->to, stops->from);
    return true;
}

static void run_stops(const struct runs *runs)
{
    struct runs due = those(runs, begins_stop);
    while (due.count > 0) {
        struct runs on = those(&due, stops_on);
        while (on.count > 0) {
            brake_slice(&on);
            on = those(&on, stops_on);
        }
        with_each(&due, end_stop);
        const struct runs between = those(&due, regains_speed);
        roll(&between);
        due = those(&due, begins_stop);
    }
}

/* Force of the road against the vehicle: slope, rolling, air. */
static double resistance(const struct brake_rig *rig, double grade, double speed)
{
    const double weight = rig->balance.body.mass * BRAKE_GRAVITY / sqrt(1.0 + grade * grade);
    return weight * (rig->balance.rolling + grade) + rig->air_drag * speed * speed;
}

/* The driver is on the brakes already; the engine's part is put down as rolling resistance. */
static void begin_descent(struct run *run, double pull)
{
    const struct brake_descent *descent = &run->duty->descent;
    run->rig.balance.grade = -descent->fall;
    run->rig.balance.rolling += descent->engine * pull * sqrt(1.0 + descent->fall * descent->fall) /
                                (run->rig.balance.body.mass * BRAKE_GRAVITY);
    /* All goes slowly. */
    run->rig.tolerance *= LONGEST_SLICE / run->rig.step;
    run->rig.step = LONGEST_SLICE;
    run->application = (struct brake_application){BRAKE_HOLDS_DECELERATION, run->duty->force, 0.0,
                                                  descent->speed, 0.0};
    begin(run);
}

/* Brakes stay off where the vehicle by itself, or the engine, would hold it. */
static bool is_descent(struct run *run)
{
    const struct brake_descent *descent = &run->duty->descent;
    if (run->duty->kind != BRAKE_DUTY_DESCENT)
        return false;
    const double pull = -resistance(&run->rig, -descent->fall, descent->speed);
    run->braked = pull > 0.0 && descent->engine < 1.0;
    if (run->braked)
        begin_descent(run, pull);
    else
        set_out(run, descent->length / descent->speed, descent->speed, descent->speed);
    return true;
}

static bool has_braked(struct run *run)
{
    return run->braked;
}

static bool has_rolled(struct run *run)
{
    return !run->braked;
}

static bool descends_on(struct run *run)
{
    const double way = run->duty->descent.length - run->braking.distance;
    const double left = way / run->braking.speed;
    return way > 1e-6 && !stopped(run) &&
           plan_slice(run, fmin(slice_after(run->braking.time), left));
}

static void note_force(struct run *run)
{
    run->result->force_last = run->braking.pedal_force;
    if (run->done++ == 0)
        run->result->force_first = run->result->force_last;
}

static void run_descents(const struct runs *runs)
{
    const struct runs rolling = those(runs, has_rolled);
    const struct runs braking = those(runs, has_braked);
    roll(&rolling);
    struct runs on = those(&braking, descends_on);
    while (on.count > 0) {
        brake_slice(&on);
        with_each(&on, note_force);
        on = those(&on, descends_on);
    }
    with_each(&braking, keep);
}

static bool is_cycle(struct run *run)
{
    return run->duty->kind == BRAKE_DUTY_CYCLE;
}

/* From one row to the next: on the brakes where the vehicle by itself would slow less. */
static bool begins_segment(struct run *run)
{
    const struct brake_cycle_point *point = &run->duty->cycle.point[run->done];
    if (run->done + 1 >= run->duty->cycle.count || stopped(run))
        return false;
    const double duration = point[1].time - point->time;
    const double slowing = (point->speed - point[1].speed) / duration;
    const double mean = 0.5 * (point->speed + point[1].speed);
    const double pull = brake_effective_mass(&run->rig.balance) * slowing -
                        resistance(&run->rig, point->grade, mean);
    run->done++;
    run->braked = pull > 0.0 && point->speed > 0.0;
    if (!run->braked) {
        set_out(run, duration, point->speed, point[1].speed);
        return true;
    }
    run->application =
        (struct brake_application){BRAKE_HOLDS_DECELERATION, run->duty->force, slowing,
                                   point->speed, slowing > 0.0 ? point[1].speed : 0.0};
    run->rig.balance.grade = point->grade;
    begin(run);
    return true;
}

/* [s] of the present segment */
static double left_of_segment(const struct run *run)
{
    const struct brake_cycle_point *next = &run->duty->cycle.point[run->done];
    return next->time - next[-1].time - run->braking.time;
}

static bool slows_on(struct run *run)
{
    const double left = left_of_segment(run);
    if (!run->braked || !isnan(run->outcome.ended) || !(left > 1e-9) || stopped(run))
        return false;
    return plan_slice(run, fmin(BRAKED_SLICE, left));
}

static void end_braked(struct run *run)
{
    if (!run->braked)
        return;
    keep(run);
    run->result->force_last = run->outcome.force_most;
    if (run->result->applications == 1)
        run->result->force_first = run->result->force_last;
}

/* All of a segment without brakes, or what is left of one with them. */
static bool rolls_in_segment(struct run *run)
{
    const double speed = run->duty->cycle.point[run->done].speed;
    const double left = left_of_segment(run);
    if (!run->braked)
        return true;
    if (!(left > 1e-9))
        return false;
    set_out(run, left, speed, speed);
    return true;
}

static void run_cycles(const struct runs *runs)
{
    struct runs due = those(runs, begins_segment);
    while (due.count > 0) {
        struct runs on = those(&due, slows_on);
        while (on.count > 0) {
            brake_slice(&on);
            on = those(&on, slows_on);
        }
        with_each(&due, end_braked);
        const struct runs rolling = those(&due, rolls_in_segment);
        roll(&rolling);
        due = those(&due, begins_segment);
    }
}

/* ---- the whole ------------------------------------------------------------------------------ */

static double first_speed(const struct brake_duty *duty)
{
    switch (duty->kind) {
    case BRAKE_DUTY_STOPS:
        return duty->stops.from;
    case BRAKE_DUTY_DESCENT:
        return duty->descent.speed;
    case BRAKE_DUTY_CYCLE:
        return duty->cycle.point->speed;
    case BRAKE_DUTY_REST:
        break;
    }
    return duty->rest_speed;
}

static double first_warmth(const struct run *run)
{
    const struct brake_fade_sequence *sequence = run->duty->stops.sequence;
    const bool published = run->duty->kind == BRAKE_DUTY_STOPS && sequence != NULL;
    return published ? sequence->start : run->rig.air;
}

static void start(struct run *run)
{
    const struct brake_duty *duty = run->duty;
    for (int i = 0; i < BRAKE_AXLES && run->status == BRAKE_OK; i++) {
        run->status =
            brake_thermal_start(&run->hot->thermal[i], first_warmth(run), &run->braking.heat[i]);
        if (duty->heat != NULL)
            run->braking.heat[i] = duty->heat[i];
        run->before[i] = run->braking.heat[i].supplied;
    }
    if (run->status != BRAKE_OK)
        return;
    if (duty->kind != BRAKE_DUTY_STOPS) {
        run->rig.dead_time = 0.0;
        run->rig.rise_time = 0.0;
    }
    run->braking.speed = first_speed(duty);
    show(run);
}

static void end(struct run *run)
{
    const struct brake_duty_row row = instant(run);
    run->result->duration = row.time;
    run->result->shortfall = run->result->shortfall > MISSED ? run->result->shortfall : 0.0;
    run->result->held = run->result->held && run->result->shortfall == 0.0;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        struct brake_duty_heat *heat = &run->result->axle[i];
        heat->face_last = row.face[i];
        heat->mean_last = row.mean[i];
        heat->pad_last = row.pad[i];
        heat->fluid_last = row.fluid[i];
        heat->energy = row.work[i];
        run->result->braked[i] = run->braking.heat[i];
    }
}

/* Of one brake: heat that went astray, and work that did not become heat. */
static double astray(const struct run *run, int axle)
{
    const struct brake_thermal_state *state = &run->braking.heat[axle];
    const double stored = brake_thermal_stored(&run->hot->thermal[axle], state);
    const double work = run->before[axle] + run->result->axle[axle].energy / 2.0;
    return fabs(state->supplied - stored - state->convected - state->radiated) +
           fabs(work - state->supplied);
}

static void sum_up(struct run *run)
{
    struct brake_duty_result *result = run->result;
    double energy = 0.0;
    double lost = 0.0;
    double hottest = 0.0;
    double stress = 0.0;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_duty_heat *heat = &result->axle[i];
        hottest = fmax(hottest, heat->fluid_most);
        stress = fmax(stress, heat->stress_most);
        energy += 2.0 * run->braking.heat[i].supplied;
        lost += 2.0 * astray(run, i);
    }
    for (int i = 0; i < BRAKE_AXLES; i++)
        result->heat[i] = run->braking.heat[i];
    result->residual = lost / fmax(energy, LEAST);
    result->fluid_margin = run->hot->boiling - hottest;
    result->stress_share = stress / run->hot->iron->strength;
}

static void begin_run(const struct brake_duty_task *task, struct run *run)
{
    *run = (struct run){.hot = task->hot,
                        .rig = task->hot->rig,
                        .duty = task->duty,
                        .watch = task->watch,
                        .result = task->result,
                        .ends = task->ends};
    *task->result = (struct brake_duty_result){.held = true, .developed = BRAKE_NAN};
    run->status = brake_duty_wrong(task->duty) != NULL ? BRAKE_E_RANGE : BRAKE_OK;
    if (run->status == BRAKE_OK)
        start(run);
}

static bool is_well(struct run *run)
{
    return run->status == BRAKE_OK;
}

static bool rests(struct run *run)
{
    const struct brake_duty *duty = run->duty;
    if (!(duty->rest > 0.0))
        return false;
    set_out(run, duty->rest, duty->rest_speed, duty->rest_speed);
    return true;
}

static void run_all(const struct runs *runs)
{
    const struct runs stops = those(runs, is_stops);
    const struct runs descents = those(runs, is_descent);
    const struct runs cycles = those(runs, is_cycle);
    run_stops(&stops);
    run_descents(&descents);
    run_cycles(&cycles);
    with_each(runs, end);
    const struct runs carried = those(runs, is_well);
    const struct runs resting = those(&carried, rests);
    roll(&resting);
    for (int i = 0; i < carried.count; i++)
        sum_up(carried.run[i]);
}

void brake_duty_run_all(struct brake_duty_task *task, int count)
{
    struct run run[BRAKE_TOGETHER];
    struct runs runs = {.count = count};
    for (int i = 0; i < count; i++) {
        begin_run(&task[i], &run[i]);
        runs.run[i] = &run[i];
    }
    run_all(&runs);
    for (int i = 0; i < count; i++)
        task[i].status = run[i].status;
}

enum brake_status brake_duty_run(const struct brake_hot_rig *hot, const struct brake_duty *duty,
                                 const struct brake_duty_watch *watch,
                                 struct brake_duty_result *result)
{
    struct brake_duty_task task = {hot, duty, watch, result, BRAKE_OK, false};
    brake_duty_run_all(&task, 1);
    return task.status;
}
