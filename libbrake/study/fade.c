/* SPDX-License-Identifier: MIT */
#include "procedure.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "assess.h"
#include "criteria/judge.h"
#include "duties.h"
#include "model/braking_lanes.h"
#include "sequences.h"
#include "vehicle/text.h"

#define KMH (1.0 / 3.6)

/* Cooling: 4 stops from 50 km/h at 3 m/s2, 1.5 km apart at that speed. FMVSS 135, S7.15, from
 * memory. */
static const double COOLING_SPEED = 50.0 * KMH;
static const double COOLING_RATE = 3.0;
static const double COOLING_INTERVAL = 1500.0 / (50.0 * KMH);
enum { COOLING_STOPS = 4, STEPS = 7 };

struct procedure {
    const char *sequence;
    double speed; /* of the stops */
    double force; /* most that the clause allows; 0: the driver's most */
    bool alone; /* both hot stops with that force, at once, and nothing after them; lightly laden */
};

static const struct procedure procedures[BRAKE_FADES] = {
    [BRAKE_FADE_CAR] = {"us.135.fade", 100.0 * KMH, 500.0, false},
    [BRAKE_FADE_GOODS] = {"un.13.fade", 80.0 * KMH, 700.0, false},
    [BRAKE_FADE_SA] = {"au.sa.fade", 60.0 * KMH, 0.0, true},
};

/* Rows of both lands are judged by one run, that of the vehicle's own. */
static const char *sequence_of(const struct brake_vehicle *vehicle, enum brake_fade_kind kind)
{
    const int country = vehicle->general.country;
    const bool elsewhere =
        country != BRAKE_IN_US && country != BRAKE_IN_CA && country != BRAKE_COUNTRY_UNSTATED;
    return kind == BRAKE_FADE_CAR && elsewhere ? "un.13h.fade" : procedures[kind].sequence;
}

struct run {
    const struct brake_vehicle *vehicle;
    const struct procedure *procedure;
    double speed; /* of the stops: that of the procedure, or what the vehicle can do */
    const struct brake_watch *watch;
    const struct brake_duty_watch *rows;
    struct brake_stops snubs;
    struct brake_hot_rig hot;
    struct brake_hot_rig worn; /* over pads and linings as thin as service allows */
    struct brake_thermal_state heat[BRAKE_AXLES];
    struct brake_fade *fade;
    struct brake_duty duty;          /* the present part */
    struct brake_duty_result result; /* of it */
    int done;                        /* steps */
    bool boiled;                     /* the fluid, at a time when a stop was due */
    unsigned parts;                  /* that are asked for */
    bool coarse;                     /* for figures alone, see brake_fades */
};

/* Procedures that go on side by side. */
struct runs {
    struct run *run[BRAKE_TOGETHER];
    int count;
};

static struct runs those(const struct runs *from, bool (*which)(struct run *run))
{
    struct runs to = {.count = 0};
    for (int i = 0; i < from->count; i++) {
        if (which(from->run[i]))
            to.run[to.count++] = from->run[i];
    }
    return to;
}

static void with_each(const struct runs *runs, void (*act)(struct run *run))
{
    for (int i = 0; i < runs->count; i++)
        act(runs->run[i]);
}

static void lacks(struct brake_fade *fade, const char *why)
{
    fade->figures.lacks = why;
}

static bool stopped(const struct run *run)
{
    return run->watch != NULL && run->watch->stop != NULL && *run->watch->stop != 0;
}

static bool is_asked(const struct run *run, enum brake_fade_part part)
{
    return (run->parts & part) != 0;
}

static bool may_go_on(struct run *run)
{
    if (run->fade->figures.lacks == NULL && stopped(run))
        lacks(run->fade, "the fade procedure was interrupted");
    return run->fade->figures.lacks == NULL;
}

static bool came_through(struct run *run)
{
    return run->fade->figures.lacks == NULL;
}

static void note_part(struct run *run, enum brake_status status, double residual)
{
    if (status != BRAKE_OK) {
        lacks(run->fade, brake_status_message(status));
        return;
    }
    run->fade->residual = fmax(run->fade->residual, residual);
    if (run->watch != NULL && run->watch->progress != NULL)
        run->watch->progress(run->watch->context, ++run->done, STEPS);
}

/* The snubs have a result of their own, and may be watched. */
static struct brake_duty_task task_of(struct run *run, bool snubs)
{
    struct brake_fade *fade = run->fade;
    if (snubs)
        return (struct brake_duty_task){&run->hot,      &fade->snubs, run->rows,
                                        &fade->heating, BRAKE_OK,     run->coarse};
    return (struct brake_duty_task){&run->hot,    &run->duty, NULL,
                                    &run->result, BRAKE_OK,   run->coarse};
}

/* One part of the procedure: those that are through it. */
static struct runs carry_out(const struct runs *runs, bool snubs)
{
    const struct runs due = those(runs, may_go_on);
    struct brake_duty_task task[BRAKE_TOGETHER];
    for (int i = 0; i < due.count; i++)
        task[i] = task_of(due.run[i], snubs);
    brake_duty_run_all(task, due.count);
    for (int i = 0; i < due.count; i++)
        note_part(due.run[i], task[i].status, task[i].result->residual);
    return those(&due, came_through);
}

/* Heat goes on from the part before it. */
static struct runs go_on(const struct runs *runs)
{
    for (int i = 0; i < runs->count; i++)
        runs->run[i]->duty.heat = runs->run[i]->heat;
    const struct runs through = carry_out(runs, false);
    for (int i = 0; i < through.count; i++)
        memcpy(through.run[i]->heat, through.run[i]->result.heat, sizeof through.run[i]->heat);
    return through;
}

/* Vapour in a line leaves no pedal; said once. */
static bool boiled(struct run *run, const struct brake_duty_result *result, const char *when)
{
    struct brake_fade *fade = run->fade;
    const double hottest =
        fmax(result->axle[BRAKE_FRONT].fluid_last, result->axle[BRAKE_REAR].fluid_last);
    const double boiling = brake_fluid_boiling((enum brake_fluid_kind)run->vehicle->heat.fluid, 0);
    if (!(hottest >= boiling))
        return false;
    if (!run->boiled) {
        struct brake_warning *warning = &fade->warning[fade->warnings++];
        warning->id = brake_warning_id(BRAKE_WARNS_HEAT_BOILED);
        brake_text_format(
            warning->text, sizeof warning->text,
            "In the fade procedure the fluid is at %.0f degC %s, past the %.0f degC at which new "
            "fluid boils: counted as no stop.",
            hottest - 273.15, when, boiling - 273.15);
    }
    run->boiled = true;
    return true;
}

static double pause(const struct run *run)
{
    return run->snubs.interval - (run->snubs.from - run->snubs.to) / run->snubs.deceleration;
}

enum stop { COLD_STOP, FIRST_HOT_STOP, SECOND_HOT_STOP, LAST_STOP };

static struct brake_hot_stop *figure_of(const struct run *run, enum stop which)
{
    struct brake_hot_figures *figures = &run->fade->figures;
    if (which == COLD_STOP)
        return &figures->cold;
    return which == LAST_STOP ? &figures->recovery : &figures->hot[which - FIRST_HOT_STOP];
}

/* A stop from the speed of the clause at incipient lock, and the way from it to what comes next. */
static void plan_stop(struct run *run, enum stop which)
{
    const double rest[] = {0.0, pause(run), COOLING_INTERVAL, 0.0};
    const double speed[] = {0.0, 0.5 * run->speed, COOLING_SPEED, 0.0};
    const struct procedure *of = run->procedure;
    const double most = of->force > 0.0 ? of->force : run->vehicle->driver.pedal_force_most;
    const bool at_most = of->alone || which == COLD_STOP || which == SECOND_HOT_STOP;
    run->duty = (struct brake_duty){
        .kind = BRAKE_DUTY_STOPS,
        .stops = {.count = 1, .from = run->speed, .manner = BRAKE_AT_INCIPIENT_LOCK},
        .force = at_most ? most : run->fade->cold_force,
        .rest = rest[which],
        .rest_speed = speed[which]};
    *figure_of(run, which) = (struct brake_hot_stop){BRAKE_INFINITY, 0.0};
}

static void take_stop(struct run *run, enum stop which)
{
    static const char *const when[] = {"in the cold stop", "in the first hot stop",
                                       "in the second hot stop", "in the stop after cooling"};
    const struct brake_duty_result *result = &run->result;
    if (which == COLD_STOP)
        run->fade->cold_force = result->force_mean;
    if (result->held && !boiled(run, result, when[which]))
        *figure_of(run, which) = (struct brake_hot_stop){result->distance, result->developed};
}

static void stop(const struct runs *runs, enum stop which)
{
    for (int i = 0; i < runs->count; i++)
        plan_stop(runs->run[i], which);
    const struct runs through = go_on(runs);
    for (int i = 0; i < through.count; i++)
        take_stop(through.run[i], which);
}

static void compare_with_cold(struct run *run)
{
    if (run->fade->figures.lacks == NULL && !(run->fade->figures.cold.developed > 0.0))
        lacks(run->fade, "there is no cold stop to compare with");
}

static void plan_snubs(struct run *run)
{
    run->fade->snubs =
        (struct brake_duty){.kind = BRAKE_DUTY_STOPS,
                            .stops = run->snubs,
                            .force = run->vehicle->driver.pedal_force_most,
                            .rest = is_asked(run, BRAKE_FADE_PARKED) ? BRAKE_PARKED : 0.0};
}

/* Whether the procedure goes on: without parking, speed is regained as between two snubs. */
static bool is_heated(struct run *run)
{
    struct brake_fade *fade = run->fade;
    memcpy(run->heat, fade->heating.braked, sizeof run->heat);
    fade->warnings = brake_duty_warnings(&run->hot, &fade->snubs, &fade->heating, fade->warning);
    run->duty = (struct brake_duty){.kind = BRAKE_DUTY_REST,
                                    .force = run->vehicle->driver.pedal_force_most,
                                    .rest = pause(run),
                                    .rest_speed = 0.5 * (run->snubs.to + run->speed)};
    return !boiled(run, &fade->heating, "after the snubs") &&
           fade->heating.applications == run->snubs.count;
}

/* The snubs, and how hot all gets when the vehicle is parked right after them. */
static struct runs heat_up(const struct runs *runs)
{
    with_each(runs, plan_snubs);
    const struct runs through = carry_out(runs, true);
    const struct runs heated = those(&through, is_heated);
    return go_on(&heated);
}

/* Whether the procedure has cooling stops, which are planned then. */
static bool is_cooled(struct run *run)
{
    run->duty = (struct brake_duty){.kind = BRAKE_DUTY_STOPS,
                                    .stops = {.count = COOLING_STOPS,
                                              .from = COOLING_SPEED,
                                              .interval = COOLING_INTERVAL,
                                              .manner = BRAKE_HOLDS_DECELERATION,
                                              .deceleration = COOLING_RATE},
                                    .force = run->vehicle->driver.pedal_force_most,
                                    .rest = COOLING_INTERVAL,
                                    .rest_speed = COOLING_SPEED};
    return !run->procedure->alone;
}

/* Whether stops are asked for, none of which is made yet. */
static bool has_stops(struct run *run)
{
    for (int i = COLD_STOP; i <= LAST_STOP; i++)
        *figure_of(run, (enum stop)i) = (struct brake_hot_stop){BRAKE_INFINITY, 0.0};
    return is_asked(run, BRAKE_FADE_STOPS);
}

static void go_through(const struct runs *runs)
{
    const struct runs due = those(runs, has_stops);
    stop(&due, COLD_STOP);
    with_each(&due, compare_with_cold);
    const struct runs hot = heat_up(&due);
    stop(&hot, FIRST_HOT_STOP);
    stop(&hot, SECOND_HOT_STOP);
    const struct runs cooled = those(&hot, is_cooled);
    go_on(&cooled);
    stop(&cooled, LAST_STOP);
}

/* [m] where pads and linings are replaced; service data */
static const double WORN_PADS = 3e-3;
static const double WORN_LINING = 2e-3;

static void take_long_steps(struct brake_hot_rig *hot)
{
    hot->rig.step *= 2.0;
    hot->rig.tolerance *= 8.0;
    for (int i = 0; i < BRAKE_AXLES; i++)
        hot->thermal[i].spec.tolerance *= 5.0;
}

/* Over linings as worn as service allows. The descent of UN R13, Annex 4, 1.6 (Type-II), in gear;
 * from memory. What an engine takes in a low gear: common practice, no source. */
static bool descends(struct run *run)
{
    const struct brake_vehicle *vehicle = run->vehicle;
    struct brake_vehicle worn = *vehicle;
    struct brake_error error;
    if (!is_asked(run, BRAKE_FADE_DESCENT))
        return false;
    run->duty = (struct brake_duty){
        .kind = BRAKE_DUTY_DESCENT,
        .descent = {.fall = 0.06, .length = 6e3, .speed = 30.0 / 3.6, .engine = 0.4},
        .force = vehicle->driver.pedal_force_most,
        .rest = BRAKE_PARKED};
    for (int i = 0; i < BRAKE_AXLES; i++) {
        worn.axle[i].pads.thickness = fmin(WORN_PADS, vehicle->axle[i].pads.thickness);
        worn.axle[i].lining.thickness = fmin(WORN_LINING, vehicle->axle[i].lining.thickness);
    }
    if (brake_hot_rig_build(&worn, BRAKE_FULL, &run->worn, &error) != BRAKE_OK)
        return false;
    if (run->coarse)
        take_long_steps(&run->worn);
    return true;
}

/* Room to boiling of fluid with water in it. */
static void take_room(struct run *run)
{
    const double air = run->vehicle->heat.ambient;
    double hottest = air;
    for (int i = 0; i < BRAKE_AXLES; i++)
        hottest = fmax(hottest, run->result.axle[i].fluid_most);
    run->fade->figures.fluid_room = (hottest + run->result.fluid_margin - air) / (hottest - air);
}

static void descend(const struct runs *runs)
{
    const struct runs worn = those(runs, descends);
    struct brake_duty_task task[BRAKE_TOGETHER];
    for (int i = 0; i < worn.count; i++) {
        struct run *run = worn.run[i];
        task[i] =
            (struct brake_duty_task){&run->worn, &run->duty, NULL, &run->result, BRAKE_OK, false};
    }
    brake_duty_run_all(task, worn.count);
    for (int i = 0; i < worn.count; i++) {
        if (task[i].status == BRAKE_OK)
            take_room(worn.run[i]);
    }
}

static void missing(struct brake_fade *fade, const struct brake_error *error)
{
    const bool lines = error->status == BRAKE_E_MISSING; /* its text names them all */
    fade->warnings = 1;
    fade->warning[0].id = brake_warning_id(BRAKE_WARNS_HEAT_MISSING);
    brake_text_format(fade->warning[0].text, sizeof fade->warning[0].text,
                      BRAKE_FADE_NONE "%s%s%.150s", lines ? "" : error->field, lines ? "" : ": ",
                      error->text);
    lacks(fade, "a line that heat needs is missing or does not fit; see the warnings");
}

/* As driven when the rated mass is not known: what asks for that is not judged then. */
static enum brake_load load_of(const struct brake_vehicle *vehicle, enum brake_fade_kind kind)
{
    if (procedures[kind].alone)
        return BRAKE_LIGHT;
    return isnan(vehicle->general.rated_mass) ? BRAKE_FULL : BRAKE_RATED;
}

static void begin(const struct brake_vehicle *vehicle, enum brake_fade_kind kind, unsigned parts,
                  struct run *run, struct brake_fade *fade)
{
    *fade = (struct brake_fade){.load = load_of(vehicle, kind),
                                .cold_force = BRAKE_NAN,
                                .figures = {.fluid_room = BRAKE_NAN}};
    run->vehicle = vehicle;
    run->procedure = &procedures[kind];
    run->fade = fade;
    run->watch = NULL;
    run->rows = NULL;
    run->done = 0;
    run->parts = parts;
    run->boiled = run->coarse = false;
    run->speed = brake_test_speed(run->procedure->speed, vehicle->general.top_speed);
    run->snubs = brake_fade_stops(brake_fade_sequence_find(sequence_of(vehicle, kind)),
                                  vehicle->general.top_speed);
}

static bool is_built(struct run *run)
{
    struct brake_error error;
    if (brake_hot_rig_build(run->vehicle, run->fade->load, &run->hot, &error) != BRAKE_OK) {
        missing(run->fade, &error);
        return false;
    }
    if (run->coarse)
        take_long_steps(&run->hot);
    for (int i = 0; i < BRAKE_AXLES; i++)
        brake_thermal_start(&run->hot.thermal[i], run->snubs.sequence->start, &run->heat[i]);
    run->hot.rig.adhesion *= BRAKE_TEST_ADHESION / run->vehicle->road.adhesion;
    return true;
}

static void run_all(const struct runs *runs)
{
    const struct runs built = those(runs, is_built);
    descend(&built);
    go_through(&built);
}

void brake_fade_run(const struct brake_vehicle *vehicle, enum brake_fade_kind kind, unsigned parts,
                    const struct brake_watch *watch, const struct brake_duty_watch *rows,
                    struct brake_fade *fade)
{
    struct run run;
    const struct runs runs = {{&run}, 1};
    begin(vehicle, kind, parts, &run, fade);
    run.watch = watch;
    run.rows = rows;
    run_all(&runs);
}

/* A procedure and what comes of it. */
struct whole {
    struct run run;
    struct brake_fade fade;
};

static void run_together(const struct brake_fades *fades, int first, int count, struct whole *whole)
{
    struct runs runs = {.count = count};
    for (int i = 0; i < count; i++) {
        begin(fades->vehicle[first + i], fades->kind, fades->parts, &whole[i].run, &whole[i].fade);
        whole[i].run.coarse = fades->coarse;
        runs.run[i] = &whole[i].run;
    }
    run_all(&runs);
    for (int i = 0; i < count; i++)
        fades->take(fades->context, first + i, &whole[i].fade);
}

/* Without memory: the same one by one, in room on the stack that is taken here alone. */
__attribute__((noinline)) static void run_one_by_one(const struct brake_fades *fades)
{
    struct whole whole;
    for (int i = 0; i < fades->count; i++)
        run_together(fades, i, 1, &whole);
}

void brake_fade_run_all(const struct brake_fades *fades)
{
    struct whole *whole = calloc((size_t)fades->count, sizeof *whole);
    if (whole != NULL)
        run_together(fades, 0, fades->count, whole);
    else
        run_one_by_one(fades);
    free(whole);
}

/* ---- in an assessment ----------------------------------------------------------------------- */

unsigned brake_fade_part_of(const struct brake_criterion *criterion)
{
    return criterion->measure == BRAKE_FLUID_ROOM ? BRAKE_FADE_DESCENT : BRAKE_FADE_STOPS;
}

enum brake_fade_kind brake_fade_own(const struct brake_vehicle *vehicle)
{
    return vehicle->general.category == BRAKE_N1 ? BRAKE_FADE_GOODS : BRAKE_FADE_CAR;
}

void brake_fade_results(const struct brake_fade *fade, struct brake_common_results *results)
{
    struct brake_common_results *r = results;
    const struct brake_duty_heat *axle = fade->heating.axle;
    if (fade->figures.lacks != NULL)
        return;
    r->fade.cold_deceleration = fade->figures.cold.developed;
    r->fade.cold_force = fade->cold_force;
    r->fade.last_snub_force = fade->heating.force_last;
    r->fade.hot_deceleration = fade->figures.hot[0].developed;
    r->fade.hot_share = r->fade.hot_deceleration / r->fade.cold_deceleration;
    r->fade.recovery_deceleration = fade->figures.recovery.developed;
    r->fade.front_face = axle[BRAKE_FRONT].face_most;
    r->fade.rear_face = axle[BRAKE_REAR].face_most;
    r->fade.front_pad = axle[BRAKE_FRONT].pad_most;
    r->fade.rear_pad = axle[BRAKE_REAR].pad_most;
    r->fade.front_fluid = axle[BRAKE_FRONT].fluid_most;
    r->fade.rear_fluid = axle[BRAKE_REAR].fluid_most;
    r->fade.fluid_margin = fade->heating.fluid_margin;
    r->fade.stress_share = fade->heating.stress_share;
    r->fade.energy_residual = fade->residual;
}

static void put_warnings(const struct brake_fade *fade, struct brake_assessment *a)
{
    for (int i = 0; i < fade->warnings && a->warnings < BRAKE_WARNINGS; i++)
        a->warning[a->warnings++] = fade->warning[i];
}

/* The parts of this procedure that criteria of the families asked for are judged by. */
static unsigned wanted(const struct brake_assessment *a, enum brake_fade_kind kind)
{
    unsigned parts = 0;
    for (int row = 0; row < brake_criterion_count(); row++) {
        const struct brake_criterion *c = brake_criterion_at(row);
        if (a->judgement[row].scope != BRAKE_OUTSIDE && brake_measure_hot(c->measure) &&
            c->fade == kind)
            parts |= brake_fade_part_of(c);
    }
    return parts;
}

void brake_assess_fade(const struct brake_sheet *sheet, const struct brake_watch *watch,
                       struct brake_assessment *assessment)
{
    struct brake_fade own;
    brake_assess_fade_shown(sheet, watch, NULL, assessment, &own);
}

void brake_assess_fade_shown(const struct brake_sheet *sheet, const struct brake_watch *watch,
                             const struct brake_duty_watch *rows,
                             struct brake_assessment *assessment, struct brake_fade *own)
{
    struct brake_assessment *a = assessment;
    const enum brake_fade_kind of = brake_fade_own(&sheet->vehicle);
    struct brake_hot_figures figures[BRAKE_FADES];
    /* A watch is told by one thread. */
#pragma omp parallel for schedule(dynamic, 1) if (watch == NULL)
    for (int kind = 0; kind < BRAKE_FADES; kind++) {
        const unsigned parts = wanted(a, (enum brake_fade_kind)kind);
        struct brake_fade other;
        if (kind == (int)of) {
            brake_fade_run(&sheet->vehicle, of, parts | BRAKE_FADE_STOPS | BRAKE_FADE_PARKED, watch,
                           rows, own);
            figures[kind] = own->figures;
        } else if (parts != 0) {
            brake_fade_run(&sheet->vehicle, (enum brake_fade_kind)kind, parts, watch, NULL, &other);
            figures[kind] = other.figures;
        }
    }
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_criterion *c = brake_criterion_at(i);
        if (a->judgement[i].scope != BRAKE_OUTSIDE && brake_measure_hot(c->measure))
            brake_judge_hot(c, &sheet->vehicle, &figures[c->fade], &a->judgement[i]);
    }
    brake_fade_results(own, &a->results.common);
    put_warnings(own, a);
    brake_assessment_count(&sheet->vehicle, a);
}

void brake_fade_judge(const struct brake_sheet *sheet, unsigned rules,
                      struct brake_judgement *judgement, struct brake_results *results)
{
    struct brake_assessment hot = {.rules = rules};
    memcpy(hot.judgement, judgement, sizeof hot.judgement);
    brake_assess_fade(sheet, NULL, &hot);
    memcpy(judgement, hot.judgement, sizeof hot.judgement);
    results->common.fade = hot.results.common.fade;
}
