#include "brake/shakedown.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "brake/evaluate.h"
#include "brake/stop.h"
#include "brake/tolerance.h"
#include "vehicle/system.h"
#include "distribution.h"
#include "tolerance.h"

#define KMH (1.0 / 3.6)

/* Common practice, no source: each speed light before firm, the next speed only after both. */
static const struct {
    double speed;
    double deceleration;
} stages[BRAKE_STAGES] = {{20.0 * KMH, 2.0}, {20.0 * KMH, 3.5}, {40.0 * KMH, 2.0},
                          {40.0 * KMH, 3.5}, {60.0 * KMH, 3.0}, {60.0 * KMH, 5.0},
                          {80.0 * KMH, 3.0}, {80.0 * KMH, 5.0}};

/* [-] of the deceleration at first lock: no stage goes near it. */
static const double FAR_FROM_LOCK = 0.85;

static const struct brake_burnish burnish = {"FMVSS 135, S7.1",
                                             "from memory; check against the current text",
                                             200,
                                             80.0 * KMH,
                                             3.0,
                                             373.15,
                                             2000.0};

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

/* Deceleration, distance and travel of every stage, then the travel standing. */
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
}

static struct brake_measured measured(const double *answer, const double *sigma, int i)
{
    const struct brake_measured one = {answer[i], BRAKE_P95 * sigma[i]};
    return one;
}

/* What to expect, each with its range. */
static void expect(const struct brake_sheet *sheet, struct brake_shakedown *plan)
{
    const struct brake_question question = {ask, plan, 3 * plan->stages + 1, NULL};
    double answer[3 * BRAKE_STAGES + 1] = {0.0};
    double sigma[3 * BRAKE_STAGES + 1] = {0.0};
    ask(plan, &sheet->vehicle, answer);
    brake_uncertainty(sheet, &question, sigma);
    for (int i = 0; i < plan->stages; i++) {
        plan->stage[i].deceleration = measured(answer, sigma, 3 * i);
        plan->stage[i].distance = measured(answer, sigma, 3 * i + 1);
        plan->stage[i].travel = measured(answer, sigma, 3 * i + 2);
    }
    plan->firm = measured(answer, sigma, 3 * plan->stages);
}

void brake_shakedown_plan(const struct brake_sheet *sheet, enum brake_load load,
                          struct brake_shakedown *plan)
{
    const struct brake_vehicle *vehicle = &sheet->vehicle;
    const double most = vehicle->driver.pedal_force_most;
    struct brake_results results;
    struct brake_system system;
    memset(plan, 0, sizeof *plan);
    brake_evaluate(vehicle, &results);
    brake_system_build(vehicle, load, BRAKE_INTACT, &system);
    plan->load = load;
    plan->burnish = &burnish;
    plan->burnish_force = force_for(&system, most, burnish.deceleration);
    plan->lock = results.load[load].balance.lock_deceleration;
    plan->to_floor = vehicle->pedal.travel;
    plan->grade = fmin(results.load[load].parking.grade_up, results.load[load].parking.grade_down);
    plan->firm_force = fmin(most, 300.0);
    plan->firm_pressure = brake_system_pressure(&system, plan->firm_force);
    const double limit = FAR_FROM_LOCK * fmin(plan->lock, results.load[load].deceleration.most);
    for (int i = 0; i < BRAKE_STAGES && limit > 0.0; i++) {
        if (stages[i].speed > vehicle->general.top_speed) /* false when it is not known */
            continue;
        struct brake_stage *stage = &plan->stage[plan->stages++];
        stage->speed = stages[i].speed;
        stage->pedal_force = force_for(&system, most, fmin(stages[i].deceleration, limit));
    }
    expect(sheet, plan);
}
