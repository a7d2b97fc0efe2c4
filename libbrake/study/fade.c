#include "procedure.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "assess.h"
#include "criteria/judge.h"
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
    struct brake_thermal_state heat[BRAKE_AXLES];
    struct brake_fade *fade;
    int done;    /* steps */
    bool boiled; /* the fluid, at a time when a stop was due */
    bool coarse; /* for figures alone, see brake_fade_figures */
};

static void lacks(struct brake_fade *fade, const char *why)
{
    fade->figures.lacks = why;
}

static bool stopped(const struct run *run)
{
    return run->watch != NULL && run->watch->stop != NULL && *run->watch->stop != 0;
}

/* One part of the procedure. */
static bool carry_out(struct run *run, const struct brake_duty *duty,
                      const struct brake_duty_watch *rows, struct brake_duty_result *result)
{
    if (run->fade->figures.lacks != NULL || stopped(run)) {
        lacks(run->fade, run->fade->figures.lacks != NULL ? run->fade->figures.lacks
                                                          : "the fade procedure was interrupted");
        return false;
    }
    const enum brake_status status = brake_duty_run(&run->hot, duty, rows, result);
    if (status != BRAKE_OK) {
        lacks(run->fade, brake_status_message(status));
        return false;
    }
    run->fade->residual = fmax(run->fade->residual, result->residual);
    if (run->watch != NULL && run->watch->progress != NULL)
        run->watch->progress(run->watch->context, ++run->done, STEPS);
    return true;
}

/* Heat goes on from the part before it. */
static bool go_on(struct run *run, struct brake_duty *duty, struct brake_duty_result *result)
{
    duty->heat = run->heat;
    if (!carry_out(run, duty, NULL, result))
        return false;
    memcpy(run->heat, result->heat, sizeof run->heat);
    return true;
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

/* A stop's name, and the way from it to what comes next. */
struct segment {
    const char *when;
    double rest;
    double speed;
};

/* A stop from the speed of the clause at incipient lock. */
static struct brake_hot_stop stop(struct run *run, const struct segment *segment, double force,
                                  double *mean_force)
{
    static const struct brake_hot_stop none = {BRAKE_INFINITY, 0.0};
    struct brake_duty duty = {
        .kind = BRAKE_DUTY_STOPS,
        .stops = {.count = 1, .from = run->speed, .manner = BRAKE_AT_INCIPIENT_LOCK},
        .force = force,
        .rest = segment->rest,
        .rest_speed = segment->speed};
    struct brake_duty_result result;
    if (!go_on(run, &duty, &result))
        return none;
    if (mean_force != NULL)
        *mean_force = result.force_mean;
    if (!result.held || boiled(run, &result, segment->when))
        return none;
    return (struct brake_hot_stop){result.distance, result.developed};
}

static double pause(const struct run *run)
{
    return run->snubs.interval - (run->snubs.from - run->snubs.to) / run->snubs.deceleration;
}

/* The snubs, and how hot all gets when the vehicle is parked right after them; but the procedure
 * goes on without parking: speed is regained as between two snubs. */
static bool heat_up(struct run *run)
{
    struct brake_fade *fade = run->fade;
    struct brake_duty *snubs = &fade->snubs;
    struct brake_duty regain = {.kind = BRAKE_DUTY_REST,
                                .force = run->vehicle->driver.pedal_force_most,
                                .rest = pause(run),
                                .rest_speed = 0.5 * (run->snubs.to + run->speed)};
    struct brake_duty_result result;
    *snubs = (struct brake_duty){.kind = BRAKE_DUTY_STOPS,
                                 .stops = run->snubs,
                                 .force = run->vehicle->driver.pedal_force_most,
                                 .rest = run->coarse ? 0.0 : BRAKE_PARKED};
    if (!carry_out(run, snubs, run->rows, &fade->heating))
        return false;
    memcpy(run->heat, fade->heating.braked, sizeof run->heat);
    fade->warnings = brake_duty_warnings(&run->hot, snubs, &fade->heating, fade->warning);
    return !boiled(run, &fade->heating, "after the snubs") &&
           fade->heating.applications == run->snubs.count && go_on(run, &regain, &result);
}

static void cool_down(struct run *run)
{
    struct brake_duty duty = {.kind = BRAKE_DUTY_STOPS,
                              .stops = {.count = COOLING_STOPS,
                                        .from = COOLING_SPEED,
                                        .interval = COOLING_INTERVAL,
                                        .manner = BRAKE_HOLDS_DECELERATION,
                                        .deceleration = COOLING_RATE},
                              .force = run->vehicle->driver.pedal_force_most,
                              .rest = COOLING_INTERVAL,
                              .rest_speed = COOLING_SPEED};
    struct brake_duty_result result;
    go_on(run, &duty, &result);
}

static void go_through(struct run *run)
{
    static const struct brake_hot_stop none = {BRAKE_INFINITY, 0.0};
    struct brake_fade *fade = run->fade;
    struct brake_hot_figures *figures = &fade->figures;
    const struct procedure *of = run->procedure;
    const double most = of->force > 0.0 ? of->force : run->vehicle->driver.pedal_force_most;
    const struct segment cold = {"in the cold stop", 0.0, 0.0};
    const struct segment first = {"in the first hot stop", pause(run), 0.5 * run->speed};
    const struct segment second = {"in the second hot stop", COOLING_INTERVAL, COOLING_SPEED};
    const struct segment last = {"in the stop after cooling", 0.0, 0.0};
    figures->hot[0] = figures->hot[1] = figures->recovery = none;
    figures->cold = stop(run, &cold, most, &fade->cold_force);
    if (figures->lacks == NULL && !(figures->cold.developed > 0.0))
        lacks(fade, "there is no cold stop to compare with");
    if (!heat_up(run))
        return;
    figures->hot[0] = stop(run, &first, of->alone ? most : fade->cold_force, NULL);
    figures->hot[1] = stop(run, &second, most, NULL);
    if (of->alone)
        return;
    cool_down(run);
    figures->recovery = stop(run, &last, fade->cold_force, NULL);
}

/* [m] where pads and linings are replaced; service data */
static const double WORN_PADS = 3e-3;
static const double WORN_LINING = 2e-3;

static void take_long_steps(struct brake_hot_rig *hot)
{
    hot->rig.tolerance *= 30.0;
    for (int i = 0; i < BRAKE_AXLES; i++)
        hot->thermal[i].spec.tolerance *= 5.0;
}

/* Room to boiling of fluid with water in it, over linings as worn as service allows. The descent of
 * UN R13, Annex 4, 1.6 (Type-II), in gear; from memory. What an engine takes in a low gear: common
 * practice, no source. */
static double descend(const struct brake_vehicle *vehicle, bool coarse)
{
    const struct brake_duty descent = {
        .kind = BRAKE_DUTY_DESCENT,
        .descent = {.grade = 0.06, .length = 6e3, .speed = 30.0 / 3.6, .engine = 0.4},
        .force = vehicle->driver.pedal_force_most,
        .rest = BRAKE_PARKED};
    const double air = vehicle->heat.ambient;
    struct brake_vehicle worn = *vehicle;
    struct brake_hot_rig hot;
    struct brake_duty_result result;
    struct brake_error error;
    double hottest = air;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        worn.axle[i].pads.thickness = fmin(WORN_PADS, vehicle->axle[i].pads.thickness);
        worn.axle[i].lining.thickness = fmin(WORN_LINING, vehicle->axle[i].lining.thickness);
    }
    if (brake_hot_rig_build(&worn, BRAKE_FULL, &hot, &error) != BRAKE_OK)
        return BRAKE_NAN;
    if (coarse)
        take_long_steps(&hot);
    if (brake_duty_run(&hot, &descent, NULL, &result) != BRAKE_OK)
        return BRAKE_NAN;
    for (int i = 0; i < BRAKE_AXLES; i++)
        hottest = fmax(hottest, result.axle[i].fluid_most);
    return (hottest + result.fluid_margin - air) / (hottest - air);
}

static void missing(struct brake_fade *fade, const struct brake_error *error)
{
    fade->warnings = 1;
    fade->warning[0].id = brake_warning_id(BRAKE_WARNS_HEAT_MISSING);
    brake_text_format(fade->warning[0].text, sizeof fade->warning[0].text,
                      "Fade cannot be said: %s: %.150s", error->field, error->text);
    lacks(fade, "a line that heat needs is missing or does not fit; see the warnings");
}

/* As driven when the rated mass is not known: what asks for that is not judged then. */
static enum brake_load load_of(const struct brake_vehicle *vehicle, enum brake_fade_kind kind)
{
    if (procedures[kind].alone)
        return BRAKE_LIGHT;
    return isnan(vehicle->general.rated_mass) ? BRAKE_FULL : BRAKE_RATED;
}

static struct run begin(const struct brake_vehicle *vehicle, enum brake_fade_kind kind,
                        struct brake_fade *fade)
{
    struct run run = {.vehicle = vehicle, .procedure = &procedures[kind], .fade = fade};
    *fade = (struct brake_fade){.load = load_of(vehicle, kind),
                                .cold_force = BRAKE_NAN,
                                .figures = {.fluid_room = BRAKE_NAN}};
    run.speed = brake_test_speed(run.procedure->speed, vehicle->general.top_speed);
    run.snubs = brake_fade_stops(brake_fade_sequence_find(sequence_of(vehicle, kind)),
                                 vehicle->general.top_speed);
    return run;
}

static void run_built(struct run *run)
{
    for (int i = 0; i < BRAKE_AXLES; i++)
        brake_thermal_start(&run->hot.thermal[i], run->snubs.sequence->start, &run->heat[i]);
    run->hot.rig.adhesion *= BRAKE_TEST_ADHESION / run->vehicle->road.adhesion;
    run->fade->figures.fluid_room = descend(run->vehicle, run->coarse);
    go_through(run);
}

void brake_fade_run(const struct brake_vehicle *vehicle, enum brake_fade_kind kind,
                    const struct brake_watch *watch, const struct brake_duty_watch *rows,
                    struct brake_fade *fade)
{
    struct brake_error error;
    struct run run = begin(vehicle, kind, fade);
    run.watch = watch;
    run.rows = rows;
    if (brake_hot_rig_build(vehicle, fade->load, &run.hot, &error) != BRAKE_OK) {
        missing(fade, &error);
        return;
    }
    run_built(&run);
}

void brake_fade_figures(const struct brake_vehicle *vehicle, enum brake_fade_kind kind,
                        struct brake_hot_figures *figures)
{
    struct brake_fade fade;
    struct run run = begin(vehicle, kind, &fade);
    struct brake_error error;
    run.coarse = true;
    if (brake_hot_rig_build(vehicle, fade.load, &run.hot, &error) == BRAKE_OK) {
        take_long_steps(&run.hot);
        run_built(&run);
    } else {
        missing(&fade, &error);
    }
    *figures = fade.figures;
}

/* ---- in an assessment ----------------------------------------------------------------------- */

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

/* Whether any criterion of the families asked for is of this procedure. */
static bool wanted(const struct brake_assessment *a, enum brake_fade_kind kind)
{
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_criterion *c = brake_criterion_at(i);
        if (a->judgement[i].scope != BRAKE_OUTSIDE && brake_measure_hot(c->measure) &&
            c->fade == kind)
            return true;
    }
    return false;
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
        struct brake_fade other;
        struct brake_fade *fade = kind == (int)of ? own : &other;
        if (fade == own || wanted(a, (enum brake_fade_kind)kind)) {
            brake_fade_run(&sheet->vehicle, (enum brake_fade_kind)kind, watch,
                           fade == own ? rows : NULL, fade);
            figures[kind] = fade->figures;
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
