/* SPDX-License-Identifier: MIT */
#include "brake/shakedown.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "brake/duty.h"
#include "brake/stop.h"
#include "brake/tolerance.h"
#include "vehicle/system.h"
#include "distribution.h"
#include "tolerance.h"

#define KMH (1.0 / 3.6)

/* Common practice, no source: each speed light before firm, the next speed only after both. */
struct planned {
    double speed;        /* [m/s] */
    double deceleration; /* [m/s2] */
};

static const struct planned stages[BRAKE_STAGES] = {
    {20.0 * KMH, 2.0}, {20.0 * KMH, 3.5}, {40.0 * KMH, 2.0}, {40.0 * KMH, 3.5},
    {60.0 * KMH, 3.0}, {60.0 * KMH, 5.0}, {80.0 * KMH, 3.0}, {80.0 * KMH, 5.0}};

/* Where the brakes are not known well enough for more; common practice, no source. */
static const struct planned measuring[] = {{30.0 * KMH, 2.0}, {30.0 * KMH, 3.0}, {30.0 * KMH, 4.0}};

static const double FAR_FROM_LOCK =
    0.85;                               /* [-] of the deceleration at first lock: none is nearer */
static const double FOUR = 4.0;         /* [m/s2] whose pedal force tells how well it is known */
static const double PLENTY = 100.0;     /* [-] adhesion on which no wheel locks */
static const double TOO_WIDE = 0.25;    /* [-] of it, its 90 % interval */
static const double FLOOR_NEAR = 0.90;  /* [-] of the travel to the floor, held firmly */
static const double TRAVEL_LEFT = 0.80; /* [-] of it; 49 CFR 570.55(c), from memory */
static const double HOTTEST = 573.15;   /* [K] common practice, no source, as the next */
static const double FLUID_ROOM = 30.0;  /* [K] below the wet boiling point */

static const struct {
    const char *id;
    unsigned obstacle;
} hazards[] = {{"hazard.floor", BRAKE_NO_RESERVE},
               {"hazard.reserve", BRAKE_NO_RESERVE},
               {"hazard.rear_first", BRAKE_REAR_LOCKS_FIRST},
               {"hazard.rear_first_n1", BRAKE_REAR_LOCKS_FIRST}};

/* Least pedal force that gives a deceleration, by halving; the most when none does. */
static double force_for(const struct brake_system *system, double most, double deceleration)
{
    double low = 0.0;
    double high = most;
    if (!(brake_system_deceleration(system, most) > deceleration))
        return most;
    while (high - low > 1e-6) {
        const double middle = 0.5 * (low + high);
        if (brake_system_deceleration(system, middle) < deceleration)
            low = middle;
        else
            high = middle;
    }
    return high;
}

/* The same of the brakes alone, on tyres that hold whatever they give. */
static double force_alone(const struct brake_system *system, double most, double deceleration)
{
    struct brake_system held = *system;
    held.adhesion = PLENTY;
    return force_for(&held, most, deceleration);
}

enum { ANSWERS = 3 * BRAKE_STAGES + 2 };

/* Deceleration, distance and travel of every stage, then the travel standing and the pedal force
 * for 4 m/s2. */
static void ask(const void *context, const struct brake_vehicle *vehicle, double *answer)
{
    const struct brake_shakedown *plan = context;
    const struct brake_delay delay = brake_vehicle_delay(vehicle);
    struct brake_system system;
    brake_system_build(vehicle, plan->load, BRAKE_INTACT, &system);
    for (int i = 0; i < plan->stages; i++) {
        const double force = plan->stage[i].pedal_force;
        double *one = &answer[3 * (size_t)i];
        one[0] = brake_system_deceleration(&system, force);
        one[1] = brake_stop_distance(plan->stage[i].speed, one[0], delay.dead_time, delay.build_up);
        one[2] = brake_system_travel(&system, brake_system_pressure(&system, force));
    }
    answer[3 * (size_t)plan->stages] =
        brake_system_travel(&system, brake_system_pressure(&system, plan->firm_force));
    answer[3 * (size_t)plan->stages + 1] =
        force_alone(&system, vehicle->driver.pedal_force_most, FOUR);
}

static struct brake_measured measured(const double *answer, const double *sigma, int i)
{
    const struct brake_measured one = {answer[i], BRAKE_P95 * sigma[i]};
    return one;
}

/* What to expect, each with its range. */
static void expect(const struct brake_sheet *sheet, struct brake_shakedown *plan)
{
    const struct brake_question question = {ask, plan, 3 * plan->stages + 2, NULL};
    double answer[ANSWERS] = {0.0};
    double sigma[ANSWERS] = {0.0};
    ask(plan, &sheet->vehicle, answer);
    brake_uncertainty(sheet, &question, sigma);
    for (int i = 0; i < plan->stages; i++) {
        plan->stage[i].deceleration = measured(answer, sigma, 3 * i);
        plan->stage[i].distance = measured(answer, sigma, 3 * i + 1);
        plan->stage[i].travel = measured(answer, sigma, 3 * i + 2);
    }
    plan->firm = measured(answer, sigma, 3 * plan->stages);
    plan->four = measured(answer, sigma, 3 * plan->stages + 1);
}

/* Nothing is let go on with half of what is expected, or with the pedal near the floor, however
 * wide the range is. */
static void set_limits(const struct brake_vehicle *vehicle, struct brake_shakedown *plan)
{
    const struct brake_delay delay = brake_vehicle_delay(vehicle);
    for (int i = 0; i < plan->stages; i++) {
        struct brake_stage *s = &plan->stage[i];
        s->least = fmax(s->deceleration.value - s->deceleration.half, 0.5 * s->deceleration.value);
        s->cone = brake_stop_distance(s->speed, s->least, delay.dead_time, delay.build_up);
        s->most_travel = s->travel.value + s->travel.half;
        if (!isnan(plan->to_floor))
            s->most_travel =
                fmin(s->most_travel, fmax(s->travel.value, TRAVEL_LEFT * plan->to_floor));
    }
}

/* ---- what keeps it from being driven --------------------------------------------------------- */

static unsigned obstacles_of(const struct brake_vehicle *vehicle,
                             const struct brake_assessment *assessment,
                             const struct brake_shakedown *plan)
{
    unsigned found = vehicle->circuits.split == BRAKE_SPLIT_ONE ? BRAKE_ONE_CIRCUIT : 0;
    if (plan->firm.value > FLOOR_NEAR * plan->to_floor) /* false when one is not known */
        found |= BRAKE_NO_RESERVE;
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_judgement *judged = &assessment->judgement[i];
        for (size_t h = 0; h < sizeof hazards / sizeof hazards[0]; h++) {
            if (judged->scope == BRAKE_HAZARD && judged->verdict == BRAKE_FALLS_SHORT &&
                strcmp(brake_criterion_at(i)->id, hazards[h].id) == 0)
                found |= hazards[h].obstacle;
        }
    }
    return found;
}

const char *brake_obstacle_at(int number, unsigned *bit, const char **words)
{
    static const struct {
        const char *word;
        unsigned bit;
        const char *words;
    } all[] = {{"no-reserve", BRAKE_NO_RESERVE,
                "the pedal has no reserve: it comes to the floor, or nearly. Adjust, bleed, or fit "
                "a larger master cylinder before it moves"},
               {"rear-first", BRAKE_REAR_LOCKS_FIRST,
                "the rear wheels lock first, and the vehicle would spin. Take brake force from the "
                "rear, or give it to the front, before it moves"},
               {"one-circuit", BRAKE_ONE_CIRCUIT,
                "it has a single circuit: when one line or seal fails there is no service brake. "
                "The parking brake must stop it by itself"}};
    if (number < 0 || number >= (int)(sizeof all / sizeof all[0]))
        return NULL;
    *bit = all[number].bit;
    *words = all[number].words;
    return all[number].word;
}

/* ---- bedding in ------------------------------------------------------------------------------ */

static bool stands(const struct brake_hot_rig *hot, const struct brake_vehicle *vehicle,
                   struct brake_bedding *bedding)
{
    const struct brake_duty duty = {.kind = BRAKE_DUTY_STOPS,
                                    .stops = {.count = bedding->stops,
                                              .from = bedding->speed,
                                              .interval = bedding->interval,
                                              .manner = BRAKE_HOLDS_DECELERATION,
                                              .deceleration = bedding->deceleration},
                                    .force = vehicle->driver.pedal_force_most,
                                    .rest = BRAKE_PARKED};
    const struct brake_duty_watch watch = {.coarse = true};
    struct brake_duty_result result = {0};
    if (brake_duty_run(hot, &duty, &watch, &result) != BRAKE_OK || !result.held || result.locked)
        return false;
    bedding->hottest = fmax(result.axle[BRAKE_FRONT].face_most, result.axle[BRAKE_REAR].face_most);
    bedding->fluid = fmax(result.axle[BRAKE_FRONT].fluid_most, result.axle[BRAKE_REAR].fluid_most);
    return bedding->hottest <= HOTTEST && result.fluid_margin >= FLUID_ROOM;
}

/* Many stops before few, fast before slow ones, short pauses before long ones; numbers are common
 * practice, no source. */
static bool search(const struct brake_hot_rig *hot, const struct brake_vehicle *vehicle,
                   struct brake_bedding *bedding)
{
    static const int counts[] = {30, 20, 10};
    static const double speeds[] = {60.0 * KMH, 50.0 * KMH, 40.0 * KMH};
    static const double intervals[] = {60.0, 90.0, 120.0, 180.0, 300.0};
    for (size_t c = 0; c < sizeof counts / sizeof counts[0]; c++) {
        for (size_t s = 0; s < sizeof speeds / sizeof speeds[0]; s++) {
            for (size_t i = 0; i < sizeof intervals / sizeof intervals[0]; i++) {
                bedding->stops = counts[c];
                bedding->speed = speeds[s];
                bedding->interval = intervals[i];
                if (!(speeds[s] > vehicle->general.top_speed) && stands(hot, vehicle, bedding))
                    return true;
            }
        }
    }
    return false;
}

static void plan_bedding(const struct brake_sheet *sheet, const struct brake_system *system,
                         double limit, struct brake_shakedown *plan)
{
    struct brake_bedding *bedding = &plan->bedding;
    struct brake_hot_rig hot;
    struct brake_error error;
    *bedding = (struct brake_bedding){.deceleration = fmin(3.0, limit)};
    if (plan->narrow)
        bedding->none = "the brakes are not known well enough";
    else if (!(limit > 0.0))
        bedding->none = "the brakes give no deceleration";
    else if (brake_hot_rig_build(&sheet->vehicle, plan->load, &hot, &error) != BRAKE_OK)
        bedding->none = "a line that heat needs is left out, so how hot they get cannot be said";
    else if (!search(&hot, &sheet->vehicle, bedding))
        bedding->none = "even ten stops from 40 km/h, one in five minutes, would heat rotor or "
                        "fluid past the limits of this plan";
    if (bedding->none != NULL)
        bedding->stops = 0;
    bedding->pedal_force =
        force_for(system, sheet->vehicle.driver.pedal_force_most, bedding->deceleration);
}

/* ---- the whole ------------------------------------------------------------------------------- */

static void set_stages(const struct brake_vehicle *vehicle, const struct brake_system *system,
                       double limit, struct brake_shakedown *plan)
{
    const struct planned *of = plan->narrow ? measuring : stages;
    const int count = plan->narrow ? (int)(sizeof measuring / sizeof measuring[0]) : BRAKE_STAGES;
    plan->stages = 0;
    for (int i = 0; i < count && limit > 0.0; i++) {
        if (of[i].speed > vehicle->general.top_speed) /* false when it is not known */
            continue;
        struct brake_stage *stage = &plan->stage[plan->stages++];
        stage->speed = of[i].speed;
        stage->pedal_force =
            force_for(system, vehicle->driver.pedal_force_most, fmin(of[i].deceleration, limit));
    }
}

/* On the level the pull of a winch does what half of the grade that it should hold does. */
static double parking_pull(const struct brake_body body, double grade)
{
    const double half = 0.5 * grade;
    return body.mass * BRAKE_GRAVITY * half / sqrt(1.0 + half * half);
}

void brake_shakedown_plan(const struct brake_sheet *sheet, enum brake_load load,
                          const struct brake_assessment *assessment, struct brake_shakedown *plan)
{
    const struct brake_vehicle *vehicle = &sheet->vehicle;
    const struct brake_case_results *results = &assessment->results.load[load];
    const double most = vehicle->driver.pedal_force_most;
    struct brake_system system;
    memset(plan, 0, sizeof *plan);
    brake_system_build(vehicle, load, BRAKE_INTACT, &system);
    plan->load = load;
    plan->lock = results->balance.lock_deceleration;
    plan->to_floor = vehicle->pedal.travel;
    plan->grade = fmin(results->parking.grade_up, results->parking.grade_down);
    plan->parking_pull = parking_pull(system.balance.body, plan->grade);
    plan->firm_force = fmin(most, 300.0);
    plan->firm_pressure = brake_system_pressure(&system, plan->firm_force);
    const double limit = FAR_FROM_LOCK * fmin(plan->lock, results->deceleration.most);
    set_stages(vehicle, &system, limit, plan);
    expect(sheet, plan);
    const bool reached = plan->four.value < most;
    plan->narrow = !(reached && 2.0 * plan->four.half <= TOO_WIDE * plan->four.value);
    if (!reached)
        plan->four = (struct brake_measured){BRAKE_NAN, BRAKE_NAN};
    if (plan->narrow) {
        set_stages(vehicle, &system, limit, plan);
        const struct brake_measured four = plan->four;
        expect(sheet, plan);
        plan->four = four;
    }
    set_limits(vehicle, plan);
    plan_bedding(sheet, &system, limit, plan);
    plan->obstacles = obstacles_of(vehicle, assessment, plan);
}
