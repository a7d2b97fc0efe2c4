#include "brake/duty.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "brake/stop.h"
#include "model/thermal_lanes.h"
#include "sequences.h"

static const double BRAKED_SLICE = 0.5; /* [s] while a stop or a braked segment of a drive lasts */
static const double SLICE = 1.0; /* [s] at first, on a descent and while the brakes are off */
static const double LONGEST_SLICE = 30.0; /* [s] once all changes slowly */
static const double SHOWN_BRAKED = 0.1;   /* [s] from row to row of the history while they are on */
static const double SHOWN = 1.0;          /* [s] else */
static const double TOO_LONG = 600.0;     /* [s] no stop lasts so long */
static const double MOST = 1e6;           /* [s] a duty may last: a million rows */
static const double LEAST = 100.0; /* [J] a hundredth of a kelvin; less is no use of brakes */
static const double MISSED = 1e-3; /* [m/s2] less is no shortfall */

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
    if (!within(descent->grade, 0.0, 0.5))
        return "the grade must be 0 to 50 %";
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

struct run {
    const struct brake_hot_rig *hot;
    struct brake_rig rig; /* that of hot, as the duty has it */
    const struct brake_duty *duty;
    const struct brake_duty_watch *watch;
    struct brake_duty_result *result;
    struct brake_braking braking;
    struct brake_outcome outcome;
    double time;                /* when the present application or segment began */
    double work[BRAKE_AXLES];   /* of those before it */
    double before[BRAKE_AXLES]; /* supplied to one brake before the duty */
};

static struct brake_duty_row instant(const struct run *run)
{
    const struct brake_braking *b = &run->braking;
    struct brake_duty_row row = {.time = run->time + b->time,
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
    const struct brake_duty_row row = instant(run);
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
    for (int i = 0; i < BRAKE_AXLES; i++) {
        run->work[i] += b->work[i];
        b->work[i] = 0.0;
    }
    b->time = 0.0;
    b->speed = speed;
    b->pedal_force = 0.0;
    b->pressure = 0.0;
    b->deceleration = 0.0;
}

/* A time with the brakes off, speed along a straight line. */
struct rolling {
    double duration;
    double from;
    double to;
};

static double speed_at(const struct rolling *way, double time)
{
    return way->from + (way->to - way->from) * time / way->duration;
}

static enum brake_status roll_until(struct run *run, const struct rolling *way, double until)
{
    struct brake_braking *b = &run->braking;
    const struct brake_thermal_drive drive = {.speed_begin = speed_at(way, b->time),
                                              .speed_end = speed_at(way, until),
                                              .air = run->rig.air};
    struct brake_thermal_task task[BRAKE_AXLES];
    for (int i = 0; i < BRAKE_AXLES; i++)
        task[i] = (struct brake_thermal_task){&run->hot->thermal[i], drive, until - b->time,
                                              &b->heat[i], BRAKE_OK};
    brake_thermal_advance_all(task, BRAKE_AXLES);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        if (task[i].status != BRAKE_OK)
            return task[i].status;
    }
    b->time = until;
    b->speed = drive.speed_end;
    b->deceleration = (way->from - way->to) / way->duration;
    return BRAKE_OK;
}

/* The rows within a slice, on a copy: nothing depends on the watching. */
static enum brake_status tell_rolling(const struct run *run, const struct rolling *way,
                                      double until)
{
    enum brake_status status = BRAKE_OK;
    if (!watched_closely(run))
        return status;
    struct run seen = *run;
    while (status == BRAKE_OK && until - seen.braking.time > SHOWN + 1e-9) {
        status = roll_until(&seen, way, seen.braking.time + SHOWN);
        tell(&seen);
    }
    return status;
}

/* What changes ever more slowly is cut into slices of half the time since it began, in whole
 * seconds: what is hottest at the ends of slices is so within 0.01 K. */
static double slice_after(double time)
{
    return fmin(LONGEST_SLICE, fmax(SLICE, floor(time / 2.0)));
}

static enum brake_status roll(struct run *run, double duration, double from, double to)
{
    const struct rolling way = {duration, from, to};
    enum brake_status status = BRAKE_OK;
    double time = 0.0;
    release(run, from);
    while (status == BRAKE_OK && duration - time > 1e-9 && !stopped(run)) {
        const double slice = slice_after(time);
        time = duration - time > slice + 1e-9 ? time + slice : duration;
        status = tell_rolling(run, &way, time);
        if (status == BRAKE_OK)
            status = roll_until(run, &way, time);
        if (status == BRAKE_OK)
            show(run);
    }
    if (status == BRAKE_OK)
        release(run, to);
    return status;
}

static void begin(struct run *run, const struct brake_application *application)
{
    release(run, application->from);
    brake_braking_begin(&run->rig, application, &run->braking, &run->outcome);
}

/* The rows of a slice that ends at a time, on a copy of where it began. */
static enum brake_status tell_braking(struct run *seen, const struct brake_application *application,
                                      double until)
{
    const double every = seen->duty->kind == BRAKE_DUTY_DESCENT ? SHOWN : SHOWN_BRAKED;
    struct brake_braking *b = &seen->braking;
    enum brake_status status = BRAKE_OK;
    while (status == BRAKE_OK && until - b->time > every + 1e-9) {
        status = brake_braking_advance(&seen->rig, application, b->time + every, b, &seen->outcome);
        if (!isnan(seen->outcome.ended))
            break;
        tell(seen);
    }
    return status;
}

/* Brakes on for a slice, or to the end speed. */
static enum brake_status brake(struct run *run, const struct brake_application *application,
                               double slice)
{
    struct brake_braking *b = &run->braking;
    struct run seen = *run;
    const double settled = run->rig.dead_time + run->rig.rise_time;
    const double until = b->time + slice;
    enum brake_status status =
        brake_braking_advance(&run->rig, application, until, b, &run->outcome);
    if (status == BRAKE_OK && watched_closely(run))
        status = tell_braking(&seen, application, b->time);
    if (status != BRAKE_OK)
        return status;
    if (application->manner == BRAKE_HOLDS_DECELERATION && b->time > settled)
        run->result->shortfall =
            fmax(run->result->shortfall, application->deceleration - b->deceleration);
    show(run);
    return BRAKE_OK;
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
static void hold_force(const struct run *run, struct brake_application *application)
{
    const struct brake_braking *b = &run->braking;
    const double built_up = b->time - run->rig.dead_time - 0.5 * run->rig.rise_time;
    application->manner = BRAKE_HOLDS_FORCE;
    application->force = b->effort / built_up;
}

static enum brake_status run_stops(struct run *run)
{
    const struct brake_stops *stops = &run->duty->stops;
    struct brake_duty_result *result = run->result;
    const bool same_force = stops->sequence != NULL && stops->sequence->same_force;
    struct brake_application application = {stops->manner, run->duty->force, stops->deceleration,
                                            stops->from, stops->to};
    const double most = stops->count > 1 ? stops->interval : TOO_LONG;
    for (int i = 0; i < stops->count && !stopped(run); i++) {
        enum brake_status status = BRAKE_OK;
        begin(run, &application);
        while (status == BRAKE_OK && isnan(run->outcome.ended) && run->braking.time < most &&
               !stopped(run))
            status = brake(run, &application, fmin(BRAKED_SLICE, most - run->braking.time));
        if (status != BRAKE_OK)
            return status;
        keep(run);
        result->force_last = run->outcome.force_most;
        result->force_first = i == 0 ? result->force_last : result->force_first;
        result->held = result->held && !isnan(run->outcome.ended);
        if (!result->held)
            return BRAKE_OK;
        if (i == 0 && same_force)
            hold_force(run, &application);
        if (i + 1 < stops->count)
            status = roll(run, stops->interval - run->braking.time, stops->to, stops->from);
        if (status != BRAKE_OK)
            return status;
    }
    return BRAKE_OK;
}

/* Force of the road against the vehicle: slope, rolling, air. */
static double resistance(const struct brake_rig *rig, double grade, double speed)
{
    const double weight = rig->balance.body.mass * BRAKE_GRAVITY / sqrt(1.0 + grade * grade);
    return weight * (rig->balance.rolling + grade) + rig->air_drag * speed * speed;
}

/* The driver is on the brakes already; the engine's part is put down as rolling resistance. */
static enum brake_status run_descent(struct run *run)
{
    const struct brake_descent *descent = &run->duty->descent;
    const struct brake_application application = {BRAKE_HOLDS_DECELERATION, run->duty->force, 0.0,
                                                  descent->speed, 0.0};
    const double pull = -resistance(&run->rig, -descent->grade, descent->speed);
    if (!(pull > 0.0) || descent->engine == 1.0)
        return roll(run, descent->length / descent->speed, descent->speed, descent->speed);
    run->rig.balance.grade = -descent->grade;
    run->rig.balance.rolling += descent->engine * pull *
                                sqrt(1.0 + descent->grade * descent->grade) /
                                (run->rig.balance.body.mass * BRAKE_GRAVITY);
    /* All goes slowly. */
    run->rig.tolerance *= LONGEST_SLICE / run->rig.step;
    run->rig.step = LONGEST_SLICE;
    begin(run, &application);
    bool first = true;
    while (descent->length - run->braking.distance > 1e-6 && !stopped(run)) {
        const double left = (descent->length - run->braking.distance) / run->braking.speed;
        const enum brake_status status =
            brake(run, &application, fmin(slice_after(run->braking.time), left));
        if (status != BRAKE_OK)
            return status;
        if (first)
            run->result->force_first = run->braking.pedal_force;
        first = false;
        run->result->force_last = run->braking.pedal_force;
    }
    keep(run);
    return BRAKE_OK;
}

/* From one row to the next: on the brakes where the vehicle by itself would slow less. */
static enum brake_status run_segment(struct run *run, const struct brake_cycle_point *point)
{
    const double duration = point[1].time - point->time;
    const double slowing = (point->speed - point[1].speed) / duration;
    const double mean = 0.5 * (point->speed + point[1].speed);
    const double pull = brake_effective_mass(&run->rig.balance) * slowing -
                        resistance(&run->rig, point->grade, mean);
    const struct brake_application application = {BRAKE_HOLDS_DECELERATION, run->duty->force,
                                                  slowing, point->speed,
                                                  slowing > 0.0 ? point[1].speed : 0.0};
    if (!(pull > 0.0) || !(point->speed > 0.0))
        return roll(run, duration, point->speed, point[1].speed);
    run->rig.balance.grade = point->grade;
    begin(run, &application);
    while (isnan(run->outcome.ended) && duration - run->braking.time > 1e-9 && !stopped(run)) {
        const double left = duration - run->braking.time;
        const enum brake_status status = brake(run, &application, fmin(BRAKED_SLICE, left));
        if (status != BRAKE_OK)
            return status;
    }
    keep(run);
    run->result->force_last = run->outcome.force_most;
    if (run->result->applications == 1)
        run->result->force_first = run->result->force_last;
    const double left = duration - run->braking.time;
    return left > 1e-9 ? roll(run, left, point[1].speed, point[1].speed) : BRAKE_OK;
}

static enum brake_status run_cycle(struct run *run)
{
    const struct brake_cycle *cycle = &run->duty->cycle;
    for (int i = 0; i + 1 < cycle->count && !stopped(run); i++) {
        const enum brake_status status = run_segment(run, &cycle->point[i]);
        if (status != BRAKE_OK)
            return status;
    }
    return BRAKE_OK;
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

static enum brake_status start(struct run *run)
{
    const struct brake_duty *duty = run->duty;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const enum brake_status status =
            brake_thermal_start(&run->hot->thermal[i], first_warmth(run), &run->braking.heat[i]);
        if (status != BRAKE_OK)
            return status;
        if (duty->heat != NULL)
            run->braking.heat[i] = duty->heat[i];
        run->before[i] = run->braking.heat[i].supplied;
    }
    if (duty->kind != BRAKE_DUTY_STOPS) {
        run->rig.dead_time = 0.0;
        run->rig.rise_time = 0.0;
    }
    run->braking.speed = first_speed(duty);
    show(run);
    return BRAKE_OK;
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

static enum brake_status run_kind(struct run *run)
{
    switch (run->duty->kind) {
    case BRAKE_DUTY_STOPS:
        return run_stops(run);
    case BRAKE_DUTY_DESCENT:
        return run_descent(run);
    case BRAKE_DUTY_CYCLE:
        return run_cycle(run);
    case BRAKE_DUTY_REST:
        break;
    }
    return BRAKE_OK;
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

enum brake_status brake_duty_run(const struct brake_hot_rig *hot, const struct brake_duty *duty,
                                 const struct brake_duty_watch *watch,
                                 struct brake_duty_result *result)
{
    struct run run = {.hot = hot, .rig = hot->rig, .duty = duty, .watch = watch, .result = result};
    *result = (struct brake_duty_result){.held = true, .developed = BRAKE_NAN};
    if (brake_duty_wrong(duty) != NULL)
        return BRAKE_E_RANGE;
    enum brake_status status = start(&run);
    if (status == BRAKE_OK)
        status = run_kind(&run);
    if (status != BRAKE_OK)
        return status;
    end(&run);
    if (duty->rest > 0.0)
        status = roll(&run, duty->rest, duty->rest_speed, duty->rest_speed);
    sum_up(&run);
    return status;
}
