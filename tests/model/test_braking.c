/* SPDX-License-Identifier: MIT */
/* A braking in time. */
#include "near.h"

#include <stdbool.h>
#include <string.h>

#include "brake/braking.h"
#include "brake/stop.h"
#include "model/braking_lanes.h"

enum { RANDOM_RIGS = 120 };

static const double KMH = 1.0 / 3.6;
static const double FOREVER = 1e4; /* [s] no stop here takes as long */

/* 2000 kg of round figures: 400 N on the pedal give 4 MPa and 5 m/s2 at once, without booster, air,
 * rolling resistance or heat. */
static struct brake_rig plain_rig(void)
{
    const struct brake_rig rig = {
        .balance = {.body = {.mass = 2000.0, .behind = 1.2, .height = 0.5},
                    .wheelbase = 2.5,
                    .axle = {{.gain = 8e-4, .radius = 0.4, .wheels = 1.0},
                             {.gain = 2e-4, .radius = 0.4, .wheels = 1.0}},
                    .valve = {.knee = BRAKE_INFINITY, .slope = 1.0}},
        .pedal = {.ratio = 4.0,
                  .efficiency = 1.0,
                  .gain = 1.0,
                  .assist = 0.0,
                  .master_area = 4e-4,
                  .master_efficiency = 1.0},
        .pressure_most = BRAKE_INFINITY,
        .adhesion = 1.5,
        .air = 293.15,
        .step = 0.01,
        .law = {{.mu = 0.4, .power = 1.0}, {.mu = 0.4, .power = 1.0}},
        .rubbing = {0.4, 0.4},
        .lining = {0.3, 0.3},
    };
    return rig;
}

static const double FORCE_OF_1 = 80.0; /* [N] on the pedal of the plain rig for 1 m/s2 */

static struct brake_application holds_force(double force, double from, double to)
{
    const struct brake_application a = {BRAKE_HOLDS_FORCE, force, 0.0, from, to};
    return a;
}

static struct brake_application holds_deceleration(double deceleration, double from)
{
    const struct brake_application a = {BRAKE_HOLDS_DECELERATION, 5000.0, deceleration, from, 0.0};
    return a;
}

static struct brake_application at_the_verge(double from)
{
    const struct brake_application a = {BRAKE_AT_INCIPIENT_LOCK, 50000.0, 0.0, from, 0.0};
    return a;
}

/* One run from cold. */
struct trip {
    struct brake_braking at;
    struct brake_outcome out;
};

static struct trip go(const struct brake_rig *rig, const struct brake_application *application,
                      double until)
{
    struct trip trip;
    memset(&trip, 0, sizeof trip);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        if (rig->thermal[i] != NULL)
            assert_int_equal(brake_thermal_start(rig->thermal[i], rig->air, &trip.at.heat[i]),
                             BRAKE_OK);
    }
    brake_braking_begin(rig, application, &trip.at, &trip.out);
    assert_int_equal(brake_braking_advance(rig, application, until, &trip.at, &trip.out), BRAKE_OK);
    return trip;
}

static struct trip stop(const struct brake_rig *rig, const struct brake_application *application)
{
    const struct trip trip = go(rig, application, FOREVER);
    assert_true(trip.out.ended > 0.0);
    assert_equal(trip.at.speed, application->to);
    return trip;
}

static struct brake_rig any_rig(struct cases *cases)
{
    struct brake_rig rig = plain_rig();
    struct brake_balance *b = &rig.balance;
    b->wheelbase = any_between(cases, 2.0, 4.0);
    b->body.mass = any_between(cases, 800.0, 5000.0);
    b->body.behind = any_between(cases, 0.4, 0.6) * b->wheelbase;
    b->body.height = any_between(cases, 0.15, 0.3) * b->wheelbase;
    b->rolling = any_between(cases, 0.0, 0.02);
    b->grade = any_between(cases, -0.12, 0.12);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        struct brake_axle_brakes *axle = &b->axle[i];
        axle->radius = any_between(cases, 0.28, 0.5);
        axle->gain = b->body.mass * any_between(cases, 2.0, 6.0) * axle->radius / 10e6;
        axle->threshold = any_between(cases, 0.0, 0.4e6);
        axle->inertia = any_between(cases, 0.0, 8.0);
    }
    if (any_between(cases, 0.0, 1.0) < 0.5)
        b->valve = (struct brake_valve){any_between(cases, 1e6, 5e6), any_between(cases, 0.1, 1.0)};
    b->regulated = any_between(cases, 0.0, 1.0) < 0.2;
    rig.pedal.gain = any_between(cases, 1.0, 6.0);
    rig.pedal.assist = any_between(cases, 500.0, 3000.0);
    rig.air_drag = any_between(cases, 0.0, 1.0);
    rig.adhesion = any_between(cases, 0.5, 1.1);
    rig.antilock = any_between(cases, 0.0, 1.0) < 0.5 ? any_between(cases, 0.7, 1.0) : 0.0;
    rig.dead_time = any_between(cases, 0.0, 0.5);
    rig.rise_time = any_between(cases, 0.0, 0.5);
    rig.booster_lag = any_between(cases, 0.0, 1.0) < 0.5 ? any_between(cases, 0.0, 0.1) : 0.0;
    return rig;
}

/* ---- closed forms of the stop --------------------------------------------------------------- */

/* Bosch Automotive Handbook; Mitschke (closed form of stop.h). */
static void a_straight_rise_is_the_closed_form(void **state)
{
    (void)state;
    struct cases cases = {1};
    for (int i = 0; i < RANDOM_RIGS; i++) {
        struct brake_rig rig = plain_rig();
        const double a = any_between(&cases, 1.0, 10.0);
        const double v = any_between(&cases, 10.0, 60.0);
        rig.dead_time = any_between(&cases, 0.0, 1.0);
        rig.rise_time = any_between(&cases, 0.0, 0.8);
        rig.step = pow(10.0, any_between(&cases, -2.0, 0.0));
        const struct brake_application force = holds_force(FORCE_OF_1 * a, v, 0.0);
        const struct brake_application held = holds_deceleration(a, v);
        const double distance = brake_stop_distance(v, a, rig.dead_time, rig.rise_time);
        const double time = brake_stop_time(v, a, rig.dead_time, rig.rise_time);
        for (int manner = 0; manner < 2; manner++) {
            const struct trip trip = stop(&rig, manner == 0 ? &force : &held);
            assert_near(trip.at.distance, distance, ROUNDING);
            assert_near(trip.at.time, time, ROUNDING);
            assert_equal(trip.out.ended, trip.at.time);
            assert_near(trip.out.force_most, FORCE_OF_1 * a, ROUNDING);
            assert_near(trip.at.effort,
                        FORCE_OF_1 * a * (time - rig.dead_time - rig.rise_time / 2.0), ROUNDING);
            assert_true(trip.out.residual < 1e-12);
            assert_nan(trip.out.lock_time);
            assert_nan(trip.out.knee_time);
        }
    }
}

/* The same with its numbers: check value CV-18 (Mitschke, from memory). */
static void the_stop_of_the_check_values_is_reproduced(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    rig.dead_time = 0.5;
    rig.rise_time = 0.2;
    const struct brake_application a = holds_force(8.0 * FORCE_OF_1, 100.0 * KMH, 0.0);
    const struct trip trip = stop(&rig, &a);
    assert_within(trip.at.distance, 64.87864, 5e-6);
    assert_within(trip.at.time, 4.072222, 5e-7);
    assert_within(go(&rig, &a, 0.7).at.speed, 26.97778, 5e-6);
    /* Through the dead time nothing changes. */
    const struct trip dead = go(&rig, &a, 0.5);
    assert_equal(dead.at.speed, 100.0 * KMH);
    assert_equal(dead.at.pedal_force, 0.0);
    assert_near(dead.at.distance, 50.0 * KMH, ROUNDING);
}

/* Mechanics: v^2 / 2a, approached with the build-up time (v t_b / 2) and with the lag (v lag). */
static void the_shorter_the_build_up_the_nearer_to_v_squared_over_2a(void **state)
{
    (void)state;
    const struct brake_application a = holds_force(5.0 * FORCE_OF_1, 30.0, 0.0);
    struct brake_rig rig = plain_rig();
    assert_near(stop(&rig, &a).at.distance, 90.0, ROUNDING);
    assert_near(stop(&rig, &a).at.time, 6.0, ROUNDING);
    for (double t = 0.1; t > 1e-9; t /= 10.0) {
        rig.rise_time = t;
        rig.booster_lag = 0.0;
        assert_within(stop(&rig, &a).at.distance, 90.0 + 15.0 * t, 5.0 * t * t + 1e-11);
        rig.rise_time = 0.0;
        rig.booster_lag = t;
        for (rig.step = 0.01; rig.step < 1.0; rig.step *= 10.0)
            assert_within(stop(&rig, &a).at.distance, 90.0 + 30.0 * t, 5.0 * t * t + 1e-7);
    }
}

/* UN R13-H, Annex 3, 1.1.2; check value CV-17: 37.80024 m from 80 to 10 km/h at 6.43 m/s2. */
static void a_steady_stop_has_its_deceleration_as_mean(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    rig.dead_time = 0.3;
    rig.rise_time = 0.1;
    for (rig.step = 1.0; rig.step > 1e-3; rig.step /= 3.0) {
        const struct brake_application a = holds_force(6.43 * FORCE_OF_1, 100.0 * KMH, 0.0);
        const struct trip trip = stop(&rig, &a);
        assert_near(trip.out.developed, 6.43, ROUNDING);
        assert_within(trip.out.passed_10 - trip.out.passed_80, 37.80024, 5e-6);
    }
}

/* m dv/dt = -(F + c v^2): s = m/(2c) ln(1 + c v^2/F), t = m/sqrt(F c) atan(v sqrt(c/F)). */
static void the_drag_of_the_air_is_the_closed_form(void **state)
{
    (void)state;
    struct cases cases = {2};
    for (int i = 0; i < RANDOM_RIGS; i++) {
        struct brake_rig rig = plain_rig();
        const double v = any_between(&cases, 20.0, 60.0);
        const double c = any_between(&cases, 0.2, 3.0);
        const double force = any_between(&cases, 2e3, 18e3);
        rig.balance.axle[BRAKE_FRONT].inertia = any_between(&cases, 0.0, 10.0);
        rig.air_drag = c;
        const double mass = brake_effective_mass(&rig.balance);
        const struct brake_application a = holds_force(FORCE_OF_1 * force / 2000.0, v, 0.0);
        const struct trip trip = stop(&rig, &a);
        assert_near(trip.at.distance, mass / (2.0 * c) * log1p(c * v * v / force), 1e-11);
        assert_near(trip.at.time, mass / sqrt(force * c) * atan(v * sqrt(c / force)), 1e-11);
        const double begin = 0.8 * v;
        const double end = 0.1 * v;
        const double between =
            mass / (2.0 * c) * log((force + c * begin * begin) / (force + c * end * end));
        assert_near(trip.out.developed, brake_mfdd(begin, end, between), 1e-11);
        assert_near(trip.at.resisted, mass * v * v / 2.0 - force * trip.at.distance, 1e-9);
    }
}

/* The method is of order 4 in the step (Hairer, Norsett and Wanner, II.1). */
static void without_heat_the_error_goes_with_the_fourth_power_of_the_step(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    const double c = 12.0; /* blunt, for an error that can be seen */
    const double force = 1000.0;
    const double v = 80.0;
    const struct brake_application a = holds_force(FORCE_OF_1 * 0.5, v, 0.0);
    const double exact = 1000.0 / c * log1p(c * v * v / force);
    double error[3];
    rig.air_drag = c;
    for (int i = 0; i < 3; i++) {
        rig.step = 0.5 / (double)(1 << i);
        error[i] = fabs(stop(&rig, &a).at.distance - exact);
    }
    assert_between(log2(error[0] / error[1]), 3.6, 4.4);
    assert_between(log2(error[1] / error[2]), 3.6, 4.4);
}

/* Mechanics: on a slope of angle t the weight adds m g sin t, rolling resistance f m g cos t. */
static void a_slope_helps_or_hinders_by_its_sine(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    const struct brake_application a = holds_force(5.0 * FORCE_OF_1, 30.0, 0.0);
    rig.balance.rolling = 0.015;
    for (double grade = -0.3; grade < 0.31; grade += 0.1) {
        rig.balance.grade = grade;
        const double slope = atan(grade);
        const double deceleration = 5.0 + BRAKE_GRAVITY * (sin(slope) + 0.015 * cos(slope));
        const struct trip trip = stop(&rig, &a);
        assert_near(trip.at.distance, 450.0 / deceleration, ROUNDING);
        assert_near(trip.at.deceleration, deceleration, ROUNDING);
        /* What the brakes did not take went into height and rolling. */
        assert_near(trip.at.work[BRAKE_FRONT] + trip.at.work[BRAKE_REAR], 10e3 * trip.at.distance,
                    ROUNDING);
        assert_within(trip.at.resisted, 2000.0 * (deceleration - 5.0) * trip.at.distance, 1e-6);
    }
}

/* A hill too steep for the brakes: it goes on to the time that was asked, faster and faster. */
static void what_does_not_slow_goes_on_to_the_time_asked(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    const struct brake_application a = holds_force(1.0 * FORCE_OF_1, 10.0, 0.0);
    rig.balance.grade = -0.3;
    const double gained = BRAKE_GRAVITY * sin(atan(0.3)) - 1.0;
    const struct trip trip = go(&rig, &a, 20.0);
    assert_equal(trip.at.time, 20.0);
    assert_near(trip.at.speed, 10.0 + 20.0 * gained, ROUNDING);
    assert_nan(trip.out.ended);
    assert_nan(trip.out.passed_80);
    assert_true(trip.out.residual < 1e-12);
    /* No brakes, no slope: it rolls on for ever. */
    const struct brake_application idle = holds_force(0.0, 10.0, 0.0);
    rig.balance.grade = 0.0;
    assert_near(go(&rig, &idle, 100.0).at.distance, 1000.0, ROUNDING);
    /* A time that is over already changes nothing. */
    struct trip over = go(&rig, &idle, 1.0);
    assert_int_equal(brake_braking_advance(&rig, &idle, 0.5, &over.at, &over.out), BRAKE_OK);
    assert_equal(over.at.time, 1.0);
}

/* ---- pedal, booster, events ----------------------------------------------------------------- */

/* First order: F = F_law (1 - e^(-t/lag)) after a step, F = k (t - lag (1 - e^(-t/lag))) on a rise;
 * its integral twice over is speed and distance. */
static void the_lag_of_the_booster_is_first_order(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    const struct brake_application a = holds_force(5.0 * FORCE_OF_1, 30.0, 0.0);
    for (double lag = 0.001; lag < 2.0; lag *= 3.0) {
        for (double t = 0.05; t < 2.0; t *= 2.0) {
            const double gone = -expm1(-t / lag);
            rig.booster_lag = lag;
            rig.rise_time = 0.0;
            const struct trip step = go(&rig, &a, t);
            assert_near(step.at.output, 1600.0 * gone, ROUNDING);
            assert_within(step.at.speed, 30.0 - 5.0 * (t - lag * gone), 1e-7);
            assert_within(step.at.distance,
                          30.0 * t - 5.0 * (t * t / 2.0 - lag * t + lag * lag * gone), 2e-7);
            rig.rise_time = 2.0;
            const struct trip rise = go(&rig, &a, t);
            assert_within(rise.at.output, 800.0 * (t - lag * gone), 1e-9);
            assert_within(rise.at.speed, 30.0 - 2.5 * (t * t / 2.0 - lag * t + lag * lag * gone),
                          1e-7);
        }
    }
}

/* The output dies out as it came, and no lag or rise is so short that time would stand still. */
static void a_pedal_let_go_leaves_the_lag(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    struct brake_application a = holds_force(5.0 * FORCE_OF_1, 30.0, 0.0);
    rig.booster_lag = 0.1;
    struct trip trip = go(&rig, &a, 2.0);
    a.force = 0.0;
    assert_int_equal(brake_braking_advance(&rig, &a, 2.3, &trip.at, &trip.out), BRAKE_OK);
    assert_near(trip.at.output, 1600.0 * -expm1(-20.0) * exp(-3.0), 1e-11);
    const double rolls = trip.at.speed;
    assert_int_equal(brake_braking_advance(&rig, &a, 50.0, &trip.at, &trip.out), BRAKE_OK);
    assert_within(trip.at.speed, rolls - 5.0 * 0.1 * exp(-3.0), 1e-6);
    assert_true(trip.out.residual < 1e-9);

    const struct brake_application again = holds_force(5.0 * FORCE_OF_1, 30.0, 0.0);
    for (double t = 1e-7; t > 1e-30; t /= 10.0) {
        rig.booster_lag = t;
        rig.rise_time = t;
        rig.dead_time = 0.7;
        assert_within(stop(&rig, &again).at.distance, 21.0 + 90.0, 1e-5);
    }
}

/* Rod force 4 F; the knee of a booster of gain 4 and 1500 N assist is at 500 N: F = 125 N of 400 N.
 * Front limit without load transfer to the rear: closed form of balance.h. */
static void knee_and_lock_come_when_the_pedal_reaches_them(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    rig.dead_time = 0.25;
    rig.rise_time = 0.4;
    rig.pedal.gain = 4.0;
    rig.pedal.assist = 1500.0;
    rig.adhesion = 0.5;
    const struct brake_application a = holds_force(400.0, 30.0, 0.0);
    const double lock = brake_balance_lock(&rig.balance, 0.5).pressure;
    const double force = brake_pedal_force(&rig.pedal, lock);
    for (rig.step = 1.0; rig.step > 1e-3; rig.step /= 3.0) {
        const struct trip trip = stop(&rig, &a);
        assert_within(trip.out.knee_time, 0.25 + 0.4 * 125.0 / 400.0, 1e-9);
        assert_within(trip.out.lock_time, 0.25 + 0.4 * force / 400.0, 1e-9);
        assert_near(trip.at.deceleration, brake_balance_lock(&rig.balance, 0.5).deceleration,
                    ROUNDING);
        assert_near(trip.at.pressure, brake_pedal_pressure(&rig.pedal, 400.0), ROUNDING);
    }
    /* The lag moves what the pressure does, not what the rod does. */
    rig.booster_lag = 0.1;
    const struct trip late = stop(&rig, &a);
    assert_within(late.out.knee_time, 0.25 + 0.4 * 125.0 / 400.0, 1e-9);
    assert_true(late.out.lock_time > 0.25 + 0.4 * force / 400.0 + 0.05);
}

/* p = P (1 - e^(-t/lag)) comes to the pressure of the lock at t = -lag ln(1 - p/P), found to the
 * last digits of the time wherever steps would end. */
static void a_lock_under_a_lag_is_found_to_the_last_digits(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    rig.booster_lag = 0.1;
    const struct brake_application a = holds_force(400.0, 30.0, 0.0);
    for (rig.adhesion = 0.1; rig.adhesion < 0.45; rig.adhesion += 0.05) {
        const double lock = brake_balance_lock(&rig.balance, rig.adhesion).pressure;
        const double time = -0.1 * log1p(-lock / 4e6);
        for (rig.step = 1.0; rig.step > 1e-3; rig.step /= 3.0)
            assert_within(go(&rig, &a, 0.5).out.lock_time, time, 1e-12);
    }
}

/* A foot that comes down at once is beyond knee and limit from that moment. */
static void a_jump_over_knee_and_limit_is_noted_when_it_happens(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    rig.pedal.gain = 4.0;
    rig.pedal.assist = 700.0;
    rig.adhesion = 0.4;
    const struct brake_application a = holds_force(400.0, 30.0, 0.0);
    const double grip = brake_balance_lock(&rig.balance, 0.4).deceleration;
    for (rig.dead_time = 0.0; rig.dead_time < 1.0; rig.dead_time += 0.3) {
        const struct trip trip = stop(&rig, &a);
        assert_equal(trip.out.lock_time, rig.dead_time);
        assert_equal(trip.out.knee_time, rig.dead_time);
        assert_near(trip.at.distance, 30.0 * rig.dead_time + 450.0 / grip, ROUNDING);
    }
}

/* One long step holds the knee, the valve, both thresholds, the limit, all marks and the end: cut
 * at each of them it is as exact as many short ones, also where electronic distribution takes hold
 * and lets go within one. */
static void no_corner_is_stepped_over(void **state)
{
    (void)state;
    struct cases cases = {3};
    for (int i = 0; i < 3 * RANDOM_RIGS; i++) {
        struct brake_rig rig = any_rig(&cases);
        const double v = any_between(&cases, 15.0, 50.0); /* apart: arguments have no order */
        const struct brake_application a = holds_force(any_between(&cases, 100.0, 900.0), v, 0.0);
        rig.balance.grade = any_between(&cases, 0.0, 0.1);
        rig.step = 0.25;
        const struct trip coarse = stop(&rig, &a);
        rig.step = 0.005;
        const struct trip fine = stop(&rig, &a);
        assert_within(coarse.at.distance, fine.at.distance, 1e-5);
        assert_near(coarse.out.developed, fine.out.developed, 1e-7);
        assert_int_equal(isnan(coarse.out.lock_time), isnan(fine.out.lock_time));
        if (!isnan(fine.out.lock_time))
            assert_within(coarse.out.lock_time, fine.out.lock_time, 1e-6);
        if (!isnan(fine.out.knee_time))
            assert_within(coarse.out.knee_time, fine.out.knee_time, 1e-6);
    }
}

static void the_fluid_gives_no_more_pressure_than_it_can(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    const struct brake_application hard = holds_force(10.0 * FORCE_OF_1, 30.0, 0.0);
    const struct brake_application enough = holds_force(5.0 * FORCE_OF_1, 30.0, 0.0);
    const double distance = stop(&rig, &enough).at.distance;
    rig.pressure_most = 4e6;
    assert_near(stop(&rig, &hard).at.distance, distance, ROUNDING);
    assert_near(stop(&rig, &hard).at.pressure, 4e6, ROUNDING);
    /* On a rise it is reached half way, at 0.1 s. */
    rig.rise_time = 0.2;
    const double least = stop(&rig, &hard).at.distance;
    assert_near(least, brake_stop_distance(30.0, 5.0, 0.0, 0.1), ROUNDING);
}

/* Given a call that ends a moment before the pressure does, the next one begins so near to that
 * corner, and cuts its first step there all the same: the closed form comes out to rounding. */
static void a_corner_however_near_is_not_stepped_over(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    const struct brake_application hard = holds_force(10.0 * FORCE_OF_1, 30.0, 0.0);
    rig.pressure_most = 4e6;
    rig.rise_time = 0.2;
    for (double before = 1e-2; before > 2e-9; before /= 3.0) {
        struct trip trip = go(&rig, &hard, 0.1 - before);
        assert_int_equal(brake_braking_advance(&rig, &hard, FOREVER, &trip.at, &trip.out),
                         BRAKE_OK);
        assert_near(trip.at.distance, brake_stop_distance(30.0, 5.0, 0.0, 0.1), ROUNDING);
    }
}

/* Snubs: nothing waits for a mark below the end, and the mean of UN R13-H is that of a stop. */
static void a_snub_ends_above_standstill(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    const double from = 30.0;
    for (double part = 0.05; part < 1.0; part += 0.1) {
        const struct brake_application a = holds_force(5.0 * FORCE_OF_1, from, part * from);
        const struct trip trip = stop(&rig, &a);
        assert_near(trip.at.distance, from * from * (1.0 - part * part) / 10.0, ROUNDING);
        assert_near(trip.at.time, from * (1.0 - part) / 5.0, ROUNDING);
        assert_nan(trip.out.developed);
        assert_nan(trip.out.passed_10); /* the marks are those of a stop */
        assert_nan(trip.out.passed_80);
    }
    const struct brake_application mark = holds_force(5.0 * FORCE_OF_1, from, 0.8 * from);
    const struct trip trip = stop(&rig, &mark);
    /* After the end nothing moves. */
    struct trip again = trip;
    assert_int_equal(brake_braking_advance(&rig, &mark, FOREVER, &again.at, &again.out), BRAKE_OK);
    assert_memory_equal(&again, &trip, sizeof trip);
}

/* ---- what the driver holds ------------------------------------------------------------------ */

static void at_the_verge_without_antilock_it_is_the_first_lock(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    const struct brake_application a = at_the_verge(30.0);
    for (rig.adhesion = 0.2; rig.adhesion < 1.2; rig.adhesion += 0.1) {
        const struct brake_lock lock = brake_balance_lock(&rig.balance, rig.adhesion);
        rig.rise_time = 0.0;
        const struct trip trip = stop(&rig, &a);
        assert_near(trip.at.distance, 450.0 / lock.deceleration, ROUNDING);
        assert_near(trip.at.pressure, lock.pressure, ROUNDING);
        assert_near(trip.out.developed, lock.deceleration, ROUNDING);
        assert_equal(trip.out.lock_time, 0.0);
        rig.rise_time = 0.3;
        assert_within(stop(&rig, &a).out.lock_time, 0.3, 1e-9);
    }
    /* What the foot cannot give it does not get. */
    struct brake_application weak = a;
    weak.force = 100.0;
    rig.rise_time = 0.0;
    const struct trip trip = stop(&rig, &weak);
    assert_near(trip.out.developed, 100.0 / FORCE_OF_1, ROUNDING);
    assert_nan(trip.out.lock_time);
}

/* The same where one circuit is at its end and the other goes on, however they are split: parts of
 * torque and wheels of each axle that the one at its end works. */
static void at_the_verge_a_held_circuit_locks_as_its_balance_says(void **state)
{
    (void)state;
    static const double held[][4] = {{1, 1, 0, 0},   {0, 0, 1, 1},   {0.5, 0.5, 0.5, 0.5},
                                     {0.5, 1, 1, 1}, {0.5, 1, 0, 0}, {0.5, 1, 0.5, 0.5}};
    const struct brake_application a = at_the_verge(30.0);
    int between = 0;
    for (size_t split = 0; split < sizeof held / sizeof held[0]; split++) {
        struct brake_rig rig = plain_rig();
        rig.balance.hold = (struct brake_hold){2e6, 9e6};
        for (int i = 0; i < BRAKE_AXLES; i++) {
            rig.balance.axle[i].held = held[split][2 * i];
            rig.balance.axle[i].held_wheels = held[split][2 * i + 1];
            rig.balance.axle[i].inertia = 3.0;
        }
        for (rig.adhesion = 0.2; rig.adhesion < 1.2; rig.adhesion += 0.1) {
            const struct brake_lock lock = brake_balance_lock(&rig.balance, rig.adhesion);
            const struct trip trip = stop(&rig, &a);
            assert_near(trip.at.pressure, lock.pressure, ROUNDING);
            assert_near(trip.at.deceleration, lock.deceleration, ROUNDING);
            between += lock.pressure > 2e6 && lock.pressure < 9e6;
        }
    }
    assert_true(between > 20);
}

/* UN R13-H, Annexes 5 and 6 (balance.h): each axle up to what its anti-lock keeps. */
static void with_antilock_the_deceleration_is_that_of_the_balance(void **state)
{
    (void)state;
    struct cases cases = {4};
    for (int i = 0; i < RANDOM_RIGS; i++) {
        struct brake_rig rig = any_rig(&cases);
        const struct brake_application a =
            holds_force(any_between(&cases, 50.0, 3000.0), 20.0, 0.0);
        rig.antilock = any_between(&cases, 0.7, 1.0);
        rig.balance.locked = i % 10 == 0;
        rig.rise_time = 0.2;
        const struct trip trip = go(&rig, &a, 0.9);
        struct brake_balance b = rig.balance;
        b.drag = rig.air_drag * trip.at.speed * trip.at.speed;
        assert_near(trip.at.deceleration,
                    brake_balance_deceleration(&b, trip.at.pressure, rig.adhesion, rig.antilock),
                    1e-11);
    }
    /* Both axles at their limit: e k g and nothing else. */
    struct brake_rig rig = plain_rig();
    const struct brake_application a = holds_force(5000.0, 30.0, 0.0);
    rig.adhesion = 0.8;
    rig.antilock = 0.9;
    const struct trip trip = stop(&rig, &a);
    assert_near(trip.at.distance, 900.0 / (2.0 * 0.72 * BRAKE_GRAVITY), ROUNDING);
    assert_equal(trip.out.lock_time, 0.0);
    /* At the verge of its work the first axle has just come to that part. */
    const struct brake_application verge = at_the_verge(30.0);
    assert_near(stop(&rig, &verge).at.deceleration,
                brake_balance_lock(&rig.balance, 0.72).deceleration, ROUNDING);
}

/* g x/h on the level (balance.h): no brake takes more than keeps the rear on the road, and what the
 * brakes take is still what the vehicle loses. */
static void a_tall_vehicle_brakes_until_its_rear_leaves_the_road(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    const struct brake_application a = holds_force(2000.0, 30.0, 0.0);
    rig.balance.body.behind = 1.0;
    rig.balance.body.height = 1.1;
    rig.balance.rolling = 0.01;
    for (int i = 0; i < 2; i++) {
        rig.antilock = i == 0 ? 0.0 : 0.9;
        rig.balance.axle[BRAKE_REAR].gain = i == 0 ? 0.0 : 2e-4; /* else it locks before */
        const struct trip trip = stop(&rig, &a);
        assert_near(trip.at.distance, 450.0 / (BRAKE_GRAVITY / 1.1), ROUNDING);
        assert_true(trip.out.residual < 1e-12);
        assert_equal(trip.out.lock_time, 0.0);
    }
}

static void a_deceleration_is_held_whatever_slope_and_air_do(void **state)
{
    (void)state;
    struct cases cases = {5};
    for (int i = 0; i < RANDOM_RIGS; i++) {
        struct brake_rig rig = any_rig(&cases);
        const double held = any_between(&cases, 3.0, 4.5);
        const double v = any_between(&cases, 15.0, 40.0);
        const struct brake_application a = holds_deceleration(held, v);
        rig.adhesion = 20.0;
        rig.antilock = 0.0;
        rig.dead_time = 0.0;
        rig.rise_time = 0.0;
        const struct trip trip = stop(&rig, &a);
        assert_near(trip.at.distance, v * v / (2.0 * held), ROUNDING);
        assert_near(trip.out.developed, held, ROUNDING);
        struct brake_balance b = rig.balance;
        assert_near(trip.at.pressure, brake_balance_pressure(&b, held), 1e-9);
        assert_near(trip.at.pedal_force, brake_pedal_force(&rig.pedal, trip.at.pressure), 1e-9);
    }
}

/* Before the pedal is touched nothing holds the vehicle back on a hill. */
static void through_the_dead_time_no_foot_is_on_the_pedal(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    rig.dead_time = 0.5;
    rig.balance.grade = -0.1;
    const double gained = BRAKE_GRAVITY * sin(atan(0.1));
    const struct brake_application all[] = {holds_force(400.0, 20.0, 0.0),
                                            holds_deceleration(3.0, 20.0), at_the_verge(20.0)};
    for (int i = 0; i < 3; i++) {
        struct trip trip = go(&rig, &all[i], 0.5);
        assert_near(trip.at.speed, 20.0 + 0.5 * gained, ROUNDING);
        assert_equal(trip.at.pedal_force, 0.0);
        assert_equal(trip.at.pressure, 0.0);
        assert_equal(trip.at.output, 0.0);
        brake_braking_begin(&rig, &all[i], &trip.at, &trip.out);
        assert_near(trip.at.deceleration, -gained, ROUNDING);
    }
}

static void a_deceleration_out_of_reach_takes_all_the_force_there_is(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    struct brake_application a = holds_deceleration(9.0, 30.0);
    a.force = 400.0;
    const struct trip trip = stop(&rig, &a);
    assert_near(trip.out.force_most, 400.0, ROUNDING);
    assert_near(trip.at.distance, 90.0, ROUNDING);
    assert_near(trip.at.output, 1600.0, ROUNDING);
    /* No pressure gives it: no brakes, a hill that stops the vehicle. */
    rig.balance.axle[BRAKE_FRONT].gain = 0.0;
    rig.balance.axle[BRAKE_REAR].gain = 0.0;
    rig.balance.grade = 0.1;
    assert_near(stop(&rig, &a).at.deceleration, BRAKE_GRAVITY * sin(atan(0.1)), ROUNDING);
    /* The air helps until no pressure gives it any more: rear brakes alone, held at 0.5 m/s2. */
    rig.balance.axle[BRAKE_REAR].gain = 2e-4;
    rig.balance.valve = (struct brake_valve){2e6, 0.0};
    rig.balance.grade = 0.0;
    rig.air_drag = 1.0; /* 0.2 m/s2 at 20 m/s */
    a.deceleration = 0.7;
    for (rig.step = 1.0; rig.step > 0.01; rig.step /= 3.0)
        assert_near(stop(&rig, &a).at.distance, 500.0 / 1.4 + 1000.0 * log1p(0.4), 1e-7);
    /* The force is met on the way, as the air helps less and less. */
    rig = plain_rig();
    rig.air_drag = 2.0;
    rig.step = 1.0;
    a.deceleration = 5.5;
    const double v = sqrt(0.5 * 2000.0 / 2.0); /* where the air gives the 0.5 m/s2 that lack */
    const double slowing = 1000.0 / 2.0 * log1p(2.0 * v * v / 10e3);
    assert_near(stop(&rig, &a).at.distance, (900.0 - v * v) / 11.0 + slowing, 1e-6);
}

/* Limpert, ch. 7: kept to the adhesion of the front the rear does 1 - (L - x + z h)/L of the work,
 * at every speed; a = 6 m/s2 takes 600 m at 2 a s = v^2 from 84.9 m/s. */
static void distribution_shares_the_work_as_the_loads_do(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    rig.balance.regulated = true;
    rig.balance.axle[BRAKE_REAR].gain = 8e-4;
    const double a = 6.0;
    const double share = (2.5 - 1.2 + a / BRAKE_GRAVITY * 0.5) / 2.5;
    const double pressure = share * 2000.0 * a * 0.4 / 8e-4;
    const struct brake_application held = holds_force(pressure / 1e4, sqrt(2.0 * a * 600.0), 0.0);
    const struct trip trip = stop(&rig, &held);
    assert_near(trip.at.distance, 600.0, 1e-9);
    assert_near(trip.at.work[BRAKE_FRONT] / (trip.at.work[0] + trip.at.work[1]), share, 1e-9);
    const struct brake_application found = holds_deceleration(a, sqrt(2.0 * a * 600.0));
    const struct trip same = stop(&rig, &found);
    assert_near(same.at.distance, 600.0, 1e-9);
    assert_near(same.out.force_most, pressure / 1e4, 1e-9);
    /* To the verge of locking, both axles at once: all of the road. */
    rig.adhesion = 0.8;
    const struct brake_application verge = at_the_verge(30.0);
    const struct trip all = stop(&rig, &verge);
    assert_near(all.at.distance, 900.0 / (2.0 * 0.8 * BRAKE_GRAVITY), 1e-9);
}

/* ---- friction and heat ---------------------------------------------------------------------- */

/* Disc: torque goes with friction; drum: with its factor (Shigley, sec. 16-3). */
static void torque_follows_friction_as_the_brake_lets_it(void **state)
{
    (void)state;
    struct brake_gain_law law = {.mu = 0.4, .power = 1.0};
    assert_near(brake_gain_ratio(&law, 0.3), 0.75, ROUNDING);
    assert_near(brake_gain_ratio(&law, 0.4), 1.0, ROUNDING);
    law.power = 2.0;
    assert_near(brake_gain_ratio(&law, 0.3), 0.5625, ROUNDING);
    const struct brake_shoe shoe = {
        .drum_radius = 0.125, .pivot_radius = 0.1, .force_arm = 0.2, .heel = 0.3, .toe = 2.2};
    law.shaped = true;
    law.shoe = law.secondary = shoe;
    law.secondary_friction = 1.0;
    for (int kind = BRAKE_LEADING_TRAILING; kind <= BRAKE_DUO_SERVO; kind++) {
        double now;
        double then;
        law.shoes = (enum brake_shoes)kind;
        assert_int_equal(brake_drum_factor_shape(&shoe, law.shoes, 0.35, &now), BRAKE_OK);
        assert_int_equal(brake_drum_factor_shape(&shoe, law.shoes, 0.4, &then), BRAKE_OK);
        assert_near(brake_gain_ratio(&law, 0.35), now / then, ROUNDING);
        assert_equal(brake_gain_ratio(&law, 0.4), 1.0);
        /* A drum that helps itself loses more than a disc. */
        assert_true(brake_gain_ratio(&law, 0.35) < 0.35 / 0.4);
    }
    /* The secondary lining of a duo-servo keeps its own part of the friction. */
    double now;
    double then;
    law.secondary.toe = 2.0;
    law.secondary_friction = 0.8;
    brake_drum_factor_servo(&shoe, 0.35, &law.secondary, 0.28, &now);
    brake_drum_factor_servo(&shoe, 0.40, &law.secondary, 0.32, &then);
    assert_near(brake_gain_ratio(&law, 0.35), now / then, ROUNDING);
    assert_nan(brake_gain_ratio(&law, 5.0));
    assert_nan(brake_gain_ratio(&law, 0.0));
    assert_nan(brake_gain_ratio(&law, BRAKE_NAN));
    law.mu = 5.0;
    assert_nan(brake_gain_ratio(&law, 0.4));
    law.shaped = false;
    law.mu = 0.0;
    assert_nan(brake_gain_ratio(&law, 0.4));
}

/* A wall of grey iron, all of whose heat stays in it. */
static struct brake_thermal_spec wall(int cells)
{
    const struct brake_thermal_spec spec = {
        .material = {.points = 1,
                     .density = 7200.0,
                     .temperature = {300.0},
                     .conductivity = {50.0},
                     .heat_capacity = {500.0}},
        .area = 0.08,
        .thickness = 0.012,
        .cells = cells,
        .ratio = 1.1,
        .share = 1.0,
        .pressure = BRAKE_ATMOSPHERE,
        .tolerance = 1e-6,
    };
    return spec;
}

/* A vehicle with these walls in front and rear and a pad that fades. */
struct hot_rig {
    struct brake_thermal thermal;
    struct brake_friction friction;
    struct brake_rig rig;
};

static void heat_up(const struct brake_thermal_spec *spec, struct hot_rig *hot)
{
    const double kelvin[] = {273.0, 873.0};
    const double mu[] = {0.44, 0.14};
    hot->rig = plain_rig();
    memset(&hot->friction, 0, sizeof hot->friction);
    assert_int_equal(brake_thermal_build(spec, &hot->thermal), BRAKE_OK);
    assert_int_equal(brake_curve_build(kelvin, mu, 2, &hot->friction.temperature), BRAKE_OK);
    hot->rig.rise_time = 0.2;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        hot->rig.thermal[i] = &hot->thermal;
        hot->rig.friction[i] = &hot->friction;
    }
}

/* The same of friction that stays. */
static void heat_up_steadily(double mu, struct hot_rig *hot)
{
    const struct brake_thermal_spec spec = wall(12);
    const double kelvin[] = {293.15};
    heat_up(&spec, hot);
    assert_int_equal(brake_curve_build(kelvin, &mu, 1, &hot->friction.temperature), BRAKE_OK);
}

static double brakes_supplied(const struct brake_braking *at)
{
    return 2.0 * (at->heat[BRAKE_FRONT].supplied + at->heat[BRAKE_REAR].supplied);
}

/* First law: m v^2/2 = work of the brakes + slope, air and rolling; the brakes hold their work. */
static void fade_lengthens_the_stop_and_loses_no_energy(void **state)
{
    (void)state;
    struct hot_rig hot;
    const struct brake_thermal_spec spec = wall(12);
    heat_up(&spec, &hot);
    hot.rig.balance.grade = -0.05;
    hot.rig.balance.rolling = 0.01;
    hot.rig.air_drag = 0.4;
    const struct brake_application a = holds_force(400.0, 50.0, 0.0);
    const struct trip faded = stop(&hot.rig, &a);
    const double energy = 2000.0 * 50.0 * 50.0 / 2.0;
    const double work = faded.at.work[BRAKE_FRONT] + faded.at.work[BRAKE_REAR];
    assert_near(work + faded.at.resisted, energy, 1e-9);
    assert_true(faded.out.residual < 1e-9);
    assert_near(brakes_supplied(&faded.at), work, 1e-12);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_thermal_state *heat = &faded.at.heat[i];
        assert_true(brake_thermal_residual(&hot.thermal, heat) < 1e-11);
        assert_near(heat->time, faded.at.time, 1e-11);
        assert_near(faded.at.friction[i], brake_friction_at(&hot.friction, heat->face, 0.0, 0.0),
                    ROUNDING);
        assert_true(faded.out.face_most[i] >= heat->face);
        assert_true(faded.out.stress_rise[i] > 0.0);
        hot.rig.friction[i] = NULL;
    }
    const struct trip steady = stop(&hot.rig, &a);
    assert_equal(steady.at.friction[BRAKE_FRONT], 0.4);
    assert_true(faded.at.distance > 1.05 * steady.at.distance);
    /* With friction that stays, heat changes nothing in the stop. */
    hot.rig.thermal[BRAKE_FRONT] = NULL;
    hot.rig.thermal[BRAKE_REAR] = NULL;
    const struct trip cold = stop(&hot.rig, &a);
    assert_equal(cold.at.distance, steady.at.distance);
    assert_nan(cold.out.face_most[BRAKE_FRONT]);
    assert_nan(cold.out.stress_rise[BRAKE_REAR]);
    /* Friction of a brake whose heat is not known is that of the law. */
    hot.rig.friction[BRAKE_FRONT] = &hot.friction;
    assert_equal(stop(&hot.rig, &a).at.distance, cold.at.distance);
}

/* One lump: m dv/dt = -F mu(T)/mu_0, C T = work done = m (v_0^2 - v^2)/2, mu = mu_0 (1 - k rise):
 * with w = v_0^2 - v^2, ds = dw / (2 a (1 - k m w / (2 C))), so
 * s = -C/(a k m) ln(1 - k m v_0^2 / (2 C)). */
static void the_fade_of_a_lump_is_the_closed_form(void **state)
{
    (void)state;
    struct hot_rig hot;
    struct brake_thermal_spec spec = wall(1);
    spec.thickness = 1e-5; /* the face is the lump */
    spec.area = 96.0;
    heat_up(&spec, &hot);
    const double capacity = 7200.0 * 500.0 * 96.0 * 1e-5 * 4.0;
    const double kelvin[] = {293.15, 893.15};
    const double mu[] = {0.4, 0.1};
    brake_curve_build(kelvin, mu, 2, &hot.friction.temperature);
    hot.rig.rise_time = 0.0;
    /* Both axles alike, so that both fade alike. */
    hot.rig.balance.axle[BRAKE_FRONT].gain = 5e-4;
    hot.rig.balance.axle[BRAKE_REAR].gain = 5e-4;
    const struct brake_application a = holds_force(400.0, 50.0, 0.0);
    const double k = 0.75 / 600.0;
    const double part = k * 2000.0 * 2500.0 / (2.0 * capacity);
    const double exact = -capacity / (5.0 * k * 2000.0) * log1p(-part);
    hot.rig.step = 0.005;
    const struct trip trip = stop(&hot.rig, &a);
    assert_true(exact > 1.1 * 250.0);
    assert_near(trip.at.distance, exact, 2e-7);
    assert_near(trip.at.heat[BRAKE_FRONT].face, 293.15 + 2.5e6 / capacity, 1e-6);
}

/* As above, but only the front fades: with F_f, F_r the cold forces and C the front's capacity, the
 * front's work is E = C/k (1 - exp(-F_f k s / C)), since dE/ds = F_f (1 - k E / C); all the work is
 * E + F_r s = m v_0^2 / 2. */
static void
a_front_that_fades_alone_is_the_closed_form_when_the_foot_comes_down_at_once(void **state)
{
    (void)state;
    struct hot_rig hot;
    struct brake_thermal_spec spec = wall(1);
    spec.thickness = 1e-5; /* the face is the lump */
    spec.area = 192.0;
    heat_up(&spec, &hot);
    const double capacity = 7200.0 * 500.0 * 192.0 * 1e-5 * 2.0;
    const double kelvin[] = {293.15, 893.15};
    const double mu[] = {0.4, 0.1};
    const double k = 0.75 / 600.0;
    brake_curve_build(kelvin, mu, 2, &hot.friction.temperature);
    hot.rig.rise_time = 0.0;
    hot.rig.friction[BRAKE_REAR] = NULL;
    hot.rig.thermal[BRAKE_REAR] = NULL;
    hot.rig.step = 0.005;
    /* 4 MPa: 8000 N in front, 2000 N behind. */
    const struct brake_application a = holds_force(400.0, 50.0, 0.0);
    const struct trip trip = stop(&hot.rig, &a);
    const double s = trip.at.distance;
    const double front = -capacity / k * expm1(-8000.0 * k * s / capacity);
    assert_true(s > 1.05 * 250.0);
    assert_near(front + 2000.0 * s, 2000.0 * 50.0 * 50.0 / 2.0, 2e-7);
    assert_near(trip.at.work[BRAKE_FRONT], front, 2e-7);
    assert_equal(trip.at.friction[BRAKE_REAR], 0.4);
}

/* Friction that falls with rubbing speed, mu = mu_0 (1 - q u), u = r_e/r v, at one temperature:
 * dv/dt = -a (1 - k v): t = -ln(1 - k v)/(a k). Pressure on the lining: a factor. */
static void friction_follows_speed_and_pressure_of_the_lining(void **state)
{
    (void)state;
    struct hot_rig hot;
    struct brake_thermal_spec spec = wall(1);
    spec.area = 1e3; /* stays cold */
    heat_up(&spec, &hot);
    const double kelvin[] = {300.0};
    const double mu[] = {0.4};
    const double speed[] = {0.0, 40.0};
    const double slower[] = {1.0, 0.6};
    brake_curve_build(kelvin, mu, 1, &hot.friction.temperature);
    brake_curve_build(speed, slower, 2, &hot.friction.speed);
    const struct brake_application a = holds_force(400.0, 50.0, 0.0);
    const double k = 0.01 * 0.4;
    hot.rig.rise_time = 0.0;
    const struct trip trip = stop(&hot.rig, &a);
    assert_near(trip.at.time, -log1p(-k * 50.0) / (5.0 * k), 1e-6);

    const double pressure[] = {0.0, 3e6};
    const double pressed[] = {1.0, 0.7};
    hot.friction.speed.points = 0;
    brake_curve_build(pressure, pressed, 2, &hot.friction.pressure);
    /* 4 MPa in the line, 1.2 MPa on the lining: 0.88 of the friction, from the first moment on. */
    const struct trip uniform = stop(&hot.rig, &a);
    assert_near(uniform.at.distance, 250.0 / 0.88, 1e-9);
    assert_near(uniform.at.friction[BRAKE_REAR], 0.4 * 0.88, ROUNDING);
    /* Behind a valve that holds the rear at 2 MPa: 0.94 of it there, on a fifth of half the
     * force. */
    hot.rig.balance.valve = (struct brake_valve){2e6, 0.0};
    const struct trip valved = stop(&hot.rig, &a);
    assert_near(valved.at.friction[BRAKE_REAR], 0.4 * 0.94, ROUNDING);
    assert_near(valved.at.distance, 250.0 / (0.8 * 0.88 + 0.1 * 0.94), 1e-9);
}

/* A drum that fades fades more, and a held deceleration needs the pedal that makes up for it. */
static void a_held_deceleration_asks_for_more_pedal_as_the_brakes_fade(void **state)
{
    (void)state;
    struct hot_rig hot;
    const struct brake_thermal_spec spec = wall(8);
    heat_up(&spec, &hot);
    hot.rig.rise_time = 0.0;
    const struct brake_application a = holds_deceleration(5.0, 50.0);
    const struct trip trip = stop(&hot.rig, &a);
    assert_near(trip.at.distance, 250.0, 1e-11);
    assert_true(trip.out.force_most > 1.05 * 400.0);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        hot.rig.law[i].shaped = true;
        hot.rig.law[i].shoes = BRAKE_TWO_LEADING;
        hot.rig.law[i].shoe = (struct brake_shoe){
            .drum_radius = 0.125, .pivot_radius = 0.1, .force_arm = 0.2, .heel = 0.3, .toe = 2.2};
    }
    const struct trip drums = stop(&hot.rig, &a);
    assert_near(drums.at.distance, 250.0, 1e-11);
    assert_true(drums.out.force_most > 1.02 * trip.out.force_most);
}

static void assert_second_order(double rise_time)
{
    struct hot_rig hot;
    struct brake_thermal_spec spec = wall(6);
    double distance[4];
    double face[4];
    spec.tolerance = 1e-8;
    heat_up(&spec, &hot);
    hot.rig.rise_time = rise_time;
    const struct brake_application a = holds_force(400.0, 50.0, 0.0);
    hot.rig.step = 1.0 / 5120.0;
    const struct trip exact = stop(&hot.rig, &a);
    /* A straight line of the torque, as the power's is, would be off by 5 and 20 mm. */
    hot.rig.step = 0.1;
    assert_within(stop(&hot.rig, &a).at.distance, exact.at.distance, 1e-3);
    for (int i = 0; i < 4; i++) {
        hot.rig.step = 0.01 / (double)(1 << i);
        const struct trip trip = stop(&hot.rig, &a);
        distance[i] = fabs(trip.at.distance - exact.at.distance);
        face[i] = fabs(trip.at.heat[BRAKE_FRONT].face - exact.at.heat[BRAKE_FRONT].face);
        /* Whatever the step, no energy is lost on the way. */
        assert_near(brakes_supplied(&trip.at), trip.at.work[BRAKE_FRONT] + trip.at.work[BRAKE_REAR],
                    1e-12);
    }
    /* The face's error has parts of both signs, of a microkelvin in all. */
    for (int i = 0; i + 1 < 4; i++) {
        print_message("step %g: distance %.3g, order %.2f; face %.3g, order %.2f\n",
                      0.01 / (double)(1 << i), distance[i], log2(distance[i] / distance[i + 1]),
                      face[i], log2(face[i] / face[i + 1]));
        assert_between(log2(distance[i] / distance[i + 1]), 1.8, 2.2);
        assert_between(log2(face[i] / face[i + 1]), 1.8, 2.2);
    }
}

/* Predictor and corrector; a rise so slow that it asks for no shorter steps. */
static void with_heat_the_error_goes_with_the_square_of_the_step(void **state)
{
    (void)state;
    assert_second_order(1.0);
}

/* The face then jumps, and rises with the root of time. */
static void it_does_so_when_the_foot_comes_down_at_once(void **state)
{
    (void)state;
    assert_second_order(0.0);
}

/* Given a foot that stays off the pedal of a warm vehicle as slow as a walk, its brakes cool in
 * each step as those of a speed that stays: to the bit what thermal.h makes of the same drive. */
static void brakes_cool_at_the_speed_that_there_is(void **state)
{
    (void)state;
    struct hot_rig hot;
    struct brake_thermal_spec spec = wall(6);
    spec.front = (struct brake_cooling){
        .law = BRAKE_COOLING_POWER, .area = 0.1, .factor = 20.0, .exponent = 0.8};
    heat_up(&spec, &hot);
    hot.rig.rise_time = 0.0;
    hot.rig.step = 10.0;
    const struct brake_application idle = holds_force(0.0, 0.5, 0.0);
    struct trip trip = go(&hot.rig, &idle, 0.0);
    struct brake_thermal_state alone;
    assert_int_equal(brake_thermal_start(&hot.thermal, 600.0, &alone), BRAKE_OK);
    for (int i = 0; i < BRAKE_AXLES; i++)
        trip.at.heat[i] = alone;
    assert_int_equal(brake_braking_advance(&hot.rig, &idle, 10.0, &trip.at, &trip.out), BRAKE_OK);
    const struct brake_thermal_drive drive = {0.0, 0.0, 0.5, 0.5, hot.rig.air};
    assert_int_equal(brake_thermal_advance(&hot.thermal, &drive, 10.0, &alone), BRAKE_OK);
    for (int i = 0; i < BRAKE_AXLES; i++)
        assert_memory_equal(&trip.at.heat[i], &alone, sizeof alone);
    assert_true(alone.convected > 0.0);
}

/* Friction that loses 40 % within 60 K, then holds: the steps are short where it falls and long
 * where it does not, and as good as short ones. */
static void steps_follow_the_friction(void **state)
{
    (void)state;
    struct hot_rig hot;
    const struct brake_thermal_spec spec = wall(12);
    const struct brake_application a = holds_force(500.0, 50.0, 0.0);
    for (int i = 0; i < 2; i++) {
        heat_up(&spec, &hot);
        const double cliff = i == 0 ? 380.0 : 480.0;
        const double kelvin[] = {293.15, cliff, cliff + 60.0};
        const double mu[] = {0.4, 0.4, 0.24};
        brake_curve_build(kelvin, mu, 3, &hot.friction.temperature);
        hot.rig.step = 0.002;
        const struct trip exact = stop(&hot.rig, &a);
        hot.rig.step = 0.05;
        const struct trip even = stop(&hot.rig, &a);
        hot.rig.step = 0.5;
        hot.rig.tolerance = 1e-4;
        const struct trip trip = stop(&hot.rig, &a);
        assert_true(exact.at.friction[BRAKE_FRONT] < 0.27);
        assert_within(trip.at.distance, exact.at.distance, 2e-3);
        assert_within(trip.out.developed, exact.out.developed, 1e-4);
        assert_within(trip.out.face_most[BRAKE_FRONT], exact.out.face_most[BRAKE_FRONT], 0.05);
        assert_near(brakes_supplied(&trip.at), trip.at.work[BRAKE_FRONT] + trip.at.work[BRAKE_REAR],
                    1e-12);
        print_message("%ld steps, %ld even ones; %.2g m, %.2g m\n", trip.out.steps, even.out.steps,
                      fabs(trip.at.distance - exact.at.distance),
                      fabs(even.at.distance - exact.at.distance));
        assert_true(3 * trip.out.steps < even.out.steps);
    }
}

/* Where the friction stays, nothing misses: steps double up to the longest. */
static void friction_that_stays_asks_for_no_short_steps(void **state)
{
    (void)state;
    struct hot_rig hot;
    heat_up_steadily(0.4, &hot);
    hot.rig.rise_time = 0.0;
    hot.rig.step = 0.5;
    hot.rig.tolerance = 1e-4;
    const struct brake_application a = holds_force(400.0, 50.0, 0.0);
    const struct trip trip = stop(&hot.rig, &a);
    assert_near(trip.at.distance, 250.0, 1e-11);
    /* 10 s: 0.125, 0.25, then 0.5 s, and a few cut short by what is to be noted */
    assert_true(trip.out.steps <= 25);
}

/* A rise is cut into 8 steps, half as many where heat says how long they may be, twice as many
 * where electronic distribution could take hold and let go within one. */
static void a_rise_is_cut_into_steps(void **state)
{
    (void)state;
    static const long steps[2][2] = {{8, 16}, {4, 8}}; /* by heat, by distribution */
    const struct brake_application a = holds_force(400.0, 50.0, 0.0);
    struct hot_rig hot;
    heat_up_steadily(0.4, &hot);
    for (int heat = 0; heat < 2; heat++) {
        for (int regulated = 0; regulated < 2; regulated++) {
            struct brake_rig rig = heat > 0 ? hot.rig : plain_rig();
            rig.step = 60.0;
            rig.tolerance = 1e-4;
            rig.rise_time = 0.4;
            rig.balance.regulated = regulated > 0;
            rig.balance.axle[BRAKE_FRONT].drag = 100.0; /* the rear is let go from the start on */
            assert_int_equal(go(&rig, &a, 0.4).out.steps, steps[heat][regulated]);
            /* The dead time before is one more. */
            rig.dead_time = 0.3;
            assert_int_equal(go(&rig, &a, 0.7).out.steps, steps[heat][regulated] + 1);
        }
    }
}

/* After a foot that comes down at once the lag has all to make up: a step is an eighth of it, then
 * more as the fifth root of what has died out, e^(t/lag). */
static void a_lag_is_cut_into_steps(void **state)
{
    (void)state;
    const struct brake_application a = holds_force(400.0, 50.0, 0.0);
    struct brake_rig rig = plain_rig();
    rig.step = 60.0;
    rig.booster_lag = 0.4;
    double time = 0.0;
    for (int n = 1; n < 12; n++) {
        const double step = 0.05 * exp(0.2 * time / 0.4);
        assert_int_equal(go(&rig, &a, time + 0.999 * step).out.steps, n);
        assert_int_equal(go(&rig, &a, time + step * (1.0 - 1e-10)).out.steps, n);
        assert_int_equal(go(&rig, &a, time + 1.001 * step).out.steps, n + 1);
        time += step;
    }
}

/* What is left of less than two steps is cut in halves, and a step of less than a tenth of the
 * longest is not taken to say how the brakes change. */
static void no_step_is_a_sliver(void **state)
{
    (void)state;
    const struct brake_application a = holds_force(400.0, 50.0, 0.0);
    struct brake_rig rig = plain_rig();
    rig.step = 0.1;
    assert_int_equal(go(&rig, &a, 0.1).out.steps, 1);
    const double untils[] = {0.101, 0.15, 0.199};
    for (int i = 0; i < 3; i++) {
        const struct trip trip = go(&rig, &a, untils[i]);
        assert_int_equal(trip.out.steps, 2);
        assert_near(trip.at.span, 0.5 * untils[i], 1e-12);
    }
    assert_int_equal(go(&rig, &a, 0.201).out.steps, 3);
    struct trip trip = go(&rig, &a, 0.1);
    assert_equal(trip.at.span, 0.1);
    assert_int_equal(brake_braking_advance(&rig, &a, 0.1099, &trip.at, &trip.out), BRAKE_OK);
    assert_equal(trip.at.span, 0.1);
    assert_int_equal(brake_braking_advance(&rig, &a, 0.1200, &trip.at, &trip.out), BRAKE_OK);
    assert_near(trip.at.span, 0.0101, 1e-9);
}

/* Where heat says how long steps may be the first is a quarter of the longest, and one that misses
 * nothing says that the next may be twice as long; one that was cut says nothing against longer. */
static void steps_that_miss_nothing_double(void **state)
{
    (void)state;
    struct hot_rig hot;
    heat_up_steadily(0.24, &hot);
    hot.rig.rise_time = 0.0;
    hot.rig.step = 0.8;
    hot.rig.tolerance = 1e-4;
    const struct brake_application a = holds_force(400.0, 80.0, 0.0);
    struct trip trip = go(&hot.rig, &a, 0.2);
    assert_int_equal(trip.out.steps, 1);
    assert_equal(trip.at.step, 0.4);
    assert_int_equal(brake_braking_advance(&hot.rig, &a, 0.25, &trip.at, &trip.out), BRAKE_OK);
    assert_equal(trip.at.step, 0.4); /* cut to 0.05 s */
    assert_int_equal(brake_braking_advance(&hot.rig, &a, 0.65, &trip.at, &trip.out), BRAKE_OK);
    assert_int_equal(trip.out.steps, 3);
    assert_near(trip.at.step, 0.8, 1e-12);
    assert_int_equal(brake_braking_advance(&hot.rig, &a, 3.05, &trip.at, &trip.out), BRAKE_OK);
    assert_int_equal(trip.out.steps, 6);
    assert_equal(trip.at.step, 0.8);
}

/* Where friction falls faster than any step follows the first, a quarter of the longest, is tried
 * again at a fifth of that, and then a fortieth of the longest is the shortest there is. */
static void no_step_is_shorter_than_a_fortieth(void **state)
{
    (void)state;
    struct hot_rig hot;
    const struct brake_thermal_spec spec = wall(12);
    const struct brake_application a = holds_force(400.0, 80.0, 0.0);
    heat_up(&spec, &hot);
    hot.rig.rise_time = 0.0;
    hot.rig.step = 0.8;
    hot.rig.tolerance = 1e-13;
    static const double until[] = {0.4399, 0.4401, 0.4599, 0.4601}; /* 0.04 and 0.02 each */
    static const long steps[] = {21, 22, 22, 23};
    for (int i = 0; i < 4; i++) {
        const struct trip trip = go(&hot.rig, &a, until[i]);
        assert_int_equal(trip.out.steps, steps[i]);
        assert_near(trip.at.step, 0.8 / 40.0, ROUNDING);
    }
}

/* Brakings of any kinds side by side, hot ones, cold ones and some that are refused, do to the bit
 * what each does alone. */
static void company_does_not_change_a_braking(void **state)
{
    (void)state;
    struct cases cases = {12};
    struct hot_rig hot;
    const struct brake_thermal_spec spec = wall(10);
    heat_up(&spec, &hot);
    for (int turn = 0; turn < 12; turn++) {
        struct brake_rig rig[BRAKE_TOGETHER];
        struct brake_application a[BRAKE_TOGETHER];
        struct trip together[BRAKE_TOGETHER];
        struct brake_braking_task task[BRAKE_TOGETHER];
        for (int i = 0; i < BRAKE_TOGETHER; i++) {
            rig[i] = any_rig(&cases);
            const double force = any_between(&cases, 100.0, 900.0);
            const double from = any_between(&cases, 10.0, 50.0); /* [m/s] */
            a[i] = holds_force(force, from, any_between(&cases, -1.0, 1.0) > 0.0 ? 0.0 : 5.0);
            rig[i].tolerance = 1e-4;
            rig[i].step = 0.3;
            for (int axle = 0; axle < BRAKE_AXLES; axle++) {
                const bool heats = turn == 0 || any_between(&cases, 0.0, 1.0) < 0.7;
                rig[i].thermal[axle] = heats ? &hot.thermal : NULL;
                rig[i].friction[axle] =
                    turn == 0 || any_between(&cases, 0.0, 1.0) < 0.7 ? &hot.friction : NULL;
            }
            together[i] = go(&rig[i], &a[i], 0.0);
            if (turn > 0 && any_between(&cases, 0.0, 1.0) < 0.15)
                together[i].at.heat[turn % 2].enthalpy[7] = BRAKE_NAN; /* refused on the way */
            if (turn > 0 && any_between(&cases, 0.0, 1.0) < 0.1)
                rig[i].adhesion = 0.0; /* and at once */
        }
        const int count = turn == 0 ? BRAKE_TOGETHER : 1 + turn % BRAKE_TOGETHER;
        struct trip alone[BRAKE_TOGETHER];
        memcpy(alone, together, sizeof alone);
        for (int i = 0; i < BRAKE_TOGETHER; i++)
            task[i] = (struct brake_braking_task){
                &rig[i], &a[i], 0.5 * (i + 2), &together[i].at, &together[i].out, BRAKE_OK};
        brake_braking_advance_all(task, count);
        for (int i = 0; i < count; i++)
            assert_int_equal(task[i].status, brake_braking_advance(&rig[i], &a[i], task[i].until,
                                                                   &alone[i].at, &alone[i].out));
        assert_memory_equal(alone, together, sizeof alone);
    }
}

/* Between the ends of steps too. */
static void the_hottest_moment_is_found(void **state)
{
    (void)state;
    struct hot_rig hot;
    const struct brake_thermal_spec spec = wall(12);
    heat_up(&spec, &hot);
    const struct brake_application a = holds_force(400.0, 50.0, 0.0);
    hot.rig.step = 0.002;
    const struct trip exact = stop(&hot.rig, &a);
    hot.rig.step = 0.4;
    hot.rig.tolerance = 1e-4;
    const struct trip trip = stop(&hot.rig, &a);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        assert_true(exact.out.face_most[i] > exact.at.heat[i].face + 1.0);
        assert_within(trip.out.face_most[i], exact.out.face_most[i], 0.02);
        assert_within(trip.out.stress_rise[i], exact.out.stress_rise[i], 0.1);
    }
}

/* Walls of one cell, and friction that stays; the front brakes alone, 5 m/s2 at 400 N. */
static void heat_up_in_front(double thickness, double rise_time, struct hot_rig *hot)
{
    struct brake_thermal_spec spec = wall(1);
    spec.thickness = thickness;
    heat_up(&spec, hot);
    hot->rig.rise_time = rise_time;
    hot->rig.balance.axle[BRAKE_FRONT].gain = 1e-3;
    hot->rig.balance.axle[BRAKE_REAR].gain = 0.0;
    for (int i = 0; i < BRAKE_AXLES; i++)
        hot->rig.friction[i] = NULL;
}

/* A wall of one cell under a deceleration that is held: power falls straight, P = P0 - p t, the
 * mean rises with its integral and the face lies P l/(3 k A) above (slab heated for long, Carslaw
 * and Jaeger, sec. 3.8). So the face goes through a parabola, whose top lies between the ends of
 * steps wherever they are, and whatever else ends one: P/C = p l/(3 k A) before the end of the
 * stop. */
static void has_its_top_found(double thickness, double from, double every)
{
    struct hot_rig hot;
    heat_up_in_front(thickness, 0.0, &hot);
    const struct brake_application a = holds_force(400.0, from, 0.0);
    const double capacity = 7200.0 * 500.0 * 0.08 * thickness; /* [J/K] */
    const double per_power = thickness / (3.0 * 50.0 * 0.08);  /* [K/W] */
    const double power = 2000.0 * 5.0 * from / 2.0;
    const double falls = 2000.0 * 5.0 * 5.0 / 2.0; /* [W/s] */
    const double time = power / falls - per_power * capacity;
    const double top = 293.15 + (power * time - falls * time * time / 2.0) / capacity +
                       per_power * (power - falls * time);
    for (hot.rig.step = 0.5; hot.rig.step > 0.03; hot.rig.step *= 0.83) {
        const struct trip trip = stop(&hot.rig, &a);
        struct trip halting = go(&hot.rig, &a, 0.0);
        assert_within(trip.out.face_most[BRAKE_FRONT], top, 1e-6);
        assert_equal(trip.out.face_most[BRAKE_REAR], 293.15);
        for (double until = every; isnan(halting.out.ended); until += every)
            assert_int_equal(brake_braking_advance(&hot.rig, &a, until, &halting.at, &halting.out),
                             BRAKE_OK);
        assert_within(halting.out.face_most[BRAKE_FRONT], top, 1e-6);
    }
}

static void the_top_of_a_parabola_is_found_exactly(void **state)
{
    (void)state;
    has_its_top_found(0.012, 40.0, 0.1);
    /* 0.2 s before the end, with nothing after it: a tenth of the speed is passed 0.4 s before the
     * end, and 5 ms before or after that is where a step was to end. */
    has_its_top_found(0.003, 20.0, 0.3605);
    has_its_top_found(0.003, 20.0, 0.3595);
    has_its_top_found(0.003, 20.0, 0.36 + 1e-10);
    has_its_top_found(0.003, 19.0, 0.25);
}

/* The same wall: face less mean is P l/(3 k A), largest where the pedal is all the way down, or an
 * axle locks on the way there. A parabola across that instant would lie above, by 20 K and 2 K. On
 * the way power bends, where a step takes it for straight: 0.04 K in steps of an eighth of it. */
static void no_top_is_sought_where_the_power_bends(void **state)
{
    (void)state;
    struct hot_rig hot;
    heat_up_in_front(0.012, 0.4, &hot);
    const struct brake_application a = holds_force(400.0, 20.0, 0.0);
    const double per_power = 0.012 / (3.0 * 50.0 * 0.08); /* [K/W] */
    const double power = 2000.0 * 5.0 * (20.0 - 5.0 * 0.4 / 2.0) / 2.0;
    hot.rig.step = 0.5;
    struct trip trip = stop(&hot.rig, &a);
    assert_within(trip.out.stress_rise[BRAKE_FRONT], per_power * power, 0.05);
    hot.rig.adhesion = 0.3;
    trip = stop(&hot.rig, &a);
    hot.rig.step = 0.002;
    const struct trip exact = stop(&hot.rig, &a);
    assert_between(trip.out.lock_time, 0.1, 0.3);
    assert_within(trip.out.stress_rise[BRAKE_FRONT], exact.out.stress_rise[BRAKE_FRONT], 0.01);
}

/* Where the foot comes down at once the face jumps by P l/(3 k A): that is no slope from which a
 * top could follow, while it goes on to rise. */
static void no_top_is_sought_where_the_power_jumps(void **state)
{
    (void)state;
    struct hot_rig hot;
    const struct brake_thermal_spec spec = wall(1);
    heat_up(&spec, &hot);
    hot.rig.rise_time = 0.0;
    hot.rig.step = 0.5;
    const struct brake_application a = holds_force(400.0, 40.0, 35.0);
    const struct trip trip = stop(&hot.rig, &a);
    assert_true(trip.out.steps >= 3);
    for (int i = 0; i < BRAKE_AXLES; i++)
        assert_equal(trip.out.face_most[i], trip.at.heat[i].face);
}

/* ---- going on, and refusing ----------------------------------------------------------------- */

static void a_state_that_is_saved_goes_on_as_if_nothing_had_been(void **state)
{
    (void)state;
    struct hot_rig hot;
    const struct brake_thermal_spec spec = wall(8);
    heat_up(&spec, &hot);
    hot.rig.booster_lag = 0.05;
    const struct brake_application a = holds_force(400.0, 40.0, 0.0);
    struct trip first = go(&hot.rig, &a, 1.7);
    const struct trip saved = first;
    assert_int_equal(brake_braking_advance(&hot.rig, &a, FOREVER, &first.at, &first.out), BRAKE_OK);
    struct trip second = saved;
    assert_int_equal(brake_braking_advance(&hot.rig, &a, FOREVER, &second.at, &second.out),
                     BRAKE_OK);
    assert_memory_equal(&first, &second, sizeof first);
}

/* Results do not depend on how often they are asked for. */
static void a_time_cut_into_pieces_gives_the_same(void **state)
{
    (void)state;
    struct cases cases = {6};
    for (int i = 0; i < 30; i++) {
        struct brake_rig rig = any_rig(&cases);
        const double v = any_between(&cases, 15.0, 40.0);
        const struct brake_application a = holds_force(any_between(&cases, 200.0, 900.0), v, 0.0);
        rig.balance.grade = any_between(&cases, 0.0, 0.1);
        rig.antilock = 0.0;
        rig.booster_lag = 0.0;
        rig.balance.regulated = false; /* straight pieces, which steps follow without error */
        const struct trip whole = stop(&rig, &a);
        struct trip cut = go(&rig, &a, 0.0);
        for (int k = 1; isnan(cut.out.ended); k++) {
            const double until = 0.0137 * k;
            assert_int_equal(brake_braking_advance(&rig, &a, until, &cut.at, &cut.out), BRAKE_OK);
            if (isnan(cut.out.ended))
                assert_equal(cut.at.time, until);
        }
        assert_near(cut.at.distance, whole.at.distance, 1e-11);
        assert_near(cut.at.time, whole.at.time, 1e-11);
        assert_near(cut.out.developed, whole.out.developed, 1e-10);
    }
    /* Of whole steps nothing is changed at all. */
    struct hot_rig hot;
    const struct brake_thermal_spec spec = wall(8);
    heat_up(&spec, &hot);
    hot.rig.step = 0.0625;
    hot.rig.rise_time = 0.25;
    const struct brake_application a = holds_force(400.0, 40.0, 0.0);
    const struct trip whole = go(&hot.rig, &a, 1.0);
    struct trip cut = go(&hot.rig, &a, 0.0);
    for (int k = 1; k <= 16; k++)
        brake_braking_advance(&hot.rig, &a, 0.0625 * k, &cut.at, &cut.out);
    assert_memory_equal(&cut, &whole, sizeof cut);
}

/* 10,000 snubs from 100 to 60 km/h, a minute of cooling after each. */
static void ten_thousand_snubs_stay_finite(void **state)
{
    (void)state;
    struct hot_rig hot;
    struct brake_thermal_spec spec = wall(2);
    spec.tolerance = 0.1;
    spec.front = (struct brake_cooling){.law = BRAKE_COOLING_FIXED, .area = 0.1, .factor = 60.0};
    heat_up(&spec, &hot);
    hot.rig.step = 0.5;
    hot.rig.tolerance = 1e-4;
    hot.rig.rise_time = 0.0;
    const struct brake_application a = holds_force(600.0, 100.0 * KMH, 60.0 * KMH);
    const struct brake_thermal_drive cruise = {
        .speed_begin = 100.0 * KMH, .speed_end = 100.0 * KMH, .air = 293.15};
    struct trip trip = stop(&hot.rig, &a);
    double before = 0.0;
    for (int i = 0; i < 10000; i++) {
        before = trip.at.distance;
        for (int axle = 0; axle < BRAKE_AXLES; axle++)
            assert_int_equal(
                brake_thermal_advance(&hot.thermal, &cruise, 60.0, &trip.at.heat[axle]), BRAKE_OK);
        brake_braking_begin(&hot.rig, &a, &trip.at, &trip.out);
        assert_int_equal(brake_braking_advance(&hot.rig, &a, FOREVER, &trip.at, &trip.out),
                         BRAKE_OK);
        assert_true(trip.out.residual < 1e-9);
        assert_between(trip.out.face_most[BRAKE_FRONT], 293.15, 900.0);
    }
    /* By then each is like the one before. */
    assert_near(trip.at.distance, before, 1e-6);
    assert_true(brake_thermal_residual(&hot.thermal, &trip.at.heat[BRAKE_FRONT]) < 1e-9);
}

static void assert_refused(const struct brake_rig *rig, const struct brake_application *a,
                           const struct trip *begun, enum brake_status status)
{
    struct trip trip = *begun;
    assert_int_equal(brake_braking_advance(rig, a, 10.0, &trip.at, &trip.out), status);
    assert_memory_equal(&trip, begun, sizeof trip);
}

/* Every number of the rig, spoiled in turn: refused or without meaning, never a NaN as a result. */
static void what_is_missing_or_out_of_range_is_refused(void **state)
{
    (void)state;
    struct hot_rig hot;
    const struct brake_thermal_spec spec = wall(4);
    heat_up(&spec, &hot);
    hot.rig.booster_lag = 0.05;
    hot.rig.pedal.gain = 2.0;
    hot.rig.pedal.assist = 500.0;
    struct brake_rig *rig = &hot.rig;
    const struct brake_application a = holds_force(400.0, 30.0, 0.0);
    const struct trip begun = go(rig, &a, 0.5);
    struct {
        double *number;
        double wrong;
    } wrong[] = {
        {&rig->step, 0.0},
        {&rig->step, 61.0},
        {&rig->step, BRAKE_NAN},
        {&rig->tolerance, -1e-9},
        {&rig->tolerance, 1.1},
        {&rig->tolerance, BRAKE_NAN},
        {&rig->dead_time, -0.1},
        {&rig->dead_time, BRAKE_INFINITY},
        {&rig->rise_time, BRAKE_NAN},
        {&rig->rise_time, -1.0},
        {&rig->booster_lag, -1.0},
        {&rig->adhesion, 0.0},
        {&rig->adhesion, BRAKE_NAN},
        {&rig->antilock, -0.1},
        {&rig->antilock, 1.1},
        {&rig->air_drag, -1.0},
        {&rig->pressure_most, BRAKE_NAN},
        {&rig->pedal.gain, 0.0},
        {&rig->pedal.assist, -1.0},
        {&rig->pedal.ratio, BRAKE_NAN},
        {&rig->pedal.efficiency, BRAKE_NAN},
        {&rig->pedal.master_area, 0.0},
        {&rig->pedal.master_efficiency, BRAKE_NAN},
        {&rig->air, BRAKE_NAN},
        {&rig->air, 0.0},
        {&rig->law[BRAKE_REAR].mu, 0.0},
        {&rig->law[BRAKE_REAR].power, BRAKE_NAN},
        {&rig->rubbing[BRAKE_REAR], BRAKE_NAN},
        {&rig->balance.body.mass, BRAKE_NAN},
        {&rig->balance.body.height, BRAKE_NAN},
        {&rig->balance.body.behind, BRAKE_NAN},
        {&rig->balance.wheelbase, BRAKE_NAN},
        {&rig->balance.grade, BRAKE_NAN},
        {&rig->balance.rolling, BRAKE_NAN},
        {&rig->balance.valve.knee, BRAKE_NAN},
        {&rig->balance.axle[BRAKE_FRONT].gain, BRAKE_NAN},
        {&rig->balance.axle[BRAKE_FRONT].radius, 0.0},
        {&rig->balance.axle[BRAKE_REAR].threshold, BRAKE_NAN},
        {&rig->balance.axle[BRAKE_REAR].inertia, BRAKE_NAN},
        {&rig->balance.axle[BRAKE_REAR].wheels, BRAKE_NAN},
    };
    /* Only a friction that looks at the speed needs the ratio of speeds. */
    const double speed[] = {0.0};
    const double one[] = {1.0};
    brake_curve_build(speed, one, 1, &hot.friction.speed);
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        const double right = *wrong[i].number;
        *wrong[i].number = wrong[i].wrong;
        assert_refused(rig, &a, &begun, BRAKE_E_RANGE);
        *wrong[i].number = right;
    }
    struct trip good = begun;
    assert_int_equal(brake_braking_advance(rig, &a, 10.0, &good.at, &good.out), BRAKE_OK);
}

static enum brake_status goes_on_with(const struct brake_rig *rig, double *number, double value)
{
    const double usual = *number;
    const struct brake_application a = holds_force(400.0, 30.0, 0.0);
    struct trip trip = go(rig, &a, 0.5);
    *number = value;
    const enum brake_status status = brake_braking_advance(rig, &a, 0.51, &trip.at, &trip.out);
    *number = usual;
    return status;
}

/* Given a number of a rig that has two ends, both are taken and the next numbers beyond are not. */
static void the_ends_of_a_range_are_in_it(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    const struct {
        double *number;
        double low, high;
    } range[] = {{&rig.step, 1e-4, 60.0}, {&rig.tolerance, 0.0, 1.0}, {&rig.antilock, 0.0, 1.0}};
    for (size_t i = 0; i < sizeof range / sizeof range[0]; i++) {
        double *number = range[i].number;
        const double low = range[i].low;
        const double high = range[i].high;
        assert_int_equal(goes_on_with(&rig, number, nextafter(low, -1.0)), BRAKE_E_RANGE);
        assert_int_equal(goes_on_with(&rig, number, low), BRAKE_OK);
        assert_int_equal(goes_on_with(&rig, number, high), BRAKE_OK);
        assert_int_equal(goes_on_with(&rig, number, nextafter(high, 1e3)), BRAKE_E_RANGE);
    }
}

/* Given one that ends at nothing alone, a thousandth is taken and nothing less than none; none
 * itself where that has a meaning. */
static void what_cannot_be_negative_begins_at_none(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    const struct {
        double *number;
        enum brake_status of_none;
    } begins[] = {
        {&rig.dead_time, BRAKE_OK},
        {&rig.rise_time, BRAKE_OK},
        {&rig.booster_lag, BRAKE_OK},
        {&rig.air_drag, BRAKE_OK},
        {&rig.pressure_most, BRAKE_OK},
        {&rig.pedal.assist, BRAKE_OK},
        {&rig.adhesion, BRAKE_E_RANGE},
        {&rig.pedal.gain, BRAKE_E_RANGE},
        {&rig.pedal.master_area, BRAKE_E_RANGE},
        {&rig.law[BRAKE_FRONT].mu, BRAKE_E_RANGE},
    };
    for (size_t i = 0; i < sizeof begins / sizeof begins[0]; i++) {
        double *number = begins[i].number;
        assert_int_equal(goes_on_with(&rig, number, nextafter(0.0, -1.0)), BRAKE_E_RANGE);
        assert_int_equal(goes_on_with(&rig, number, 0.0), begins[i].of_none);
        assert_int_equal(goes_on_with(&rig, number, 1e-3), BRAKE_OK);
    }
}

/* So are those of what is asked and of where it stands: 1e9 s of idling is the most. */
static void the_ends_of_a_task_are_in_it(void **state)
{
    (void)state;
    const struct brake_rig rig = plain_rig();
    const struct brake_application idle = holds_force(0.0, 30.0, 0.0);
    const struct brake_application almost = holds_force(0.0, 1e-3, 0.0);
    const struct brake_application none = holds_deceleration(0.0, 30.0);
    struct trip trip = go(&rig, &idle, 0.0);
    assert_equal(trip.at.time, 0.0);
    assert_int_equal(brake_braking_advance(&rig, &idle, nextafter(0.0, -1.0), &trip.at, &trip.out),
                     BRAKE_E_RANGE);
    trip.at.time = 1e9 - 0.001;
    assert_int_equal(brake_braking_advance(&rig, &idle, 1e9, &trip.at, &trip.out), BRAKE_OK);
    assert_equal(trip.at.time, 1e9);
    assert_int_equal(brake_braking_advance(&rig, &idle, nextafter(1e9, 2e9), &trip.at, &trip.out),
                     BRAKE_E_RANGE);
    assert_near(go(&rig, &almost, 1.0).at.distance, 1e-3, ROUNDING);
    assert_near(go(&rig, &none, 1.0).at.distance, 30.0, ROUNDING);
    /* It may stand. */
    trip = go(&rig, &idle, 0.5);
    trip.at.speed = 0.0;
    assert_int_equal(brake_braking_advance(&rig, &idle, 1.0, &trip.at, &trip.out), BRAKE_OK);
    double *const numbers[] = {&trip.at.time, &trip.at.speed, &trip.at.span, &trip.at.step};
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        trip = go(&rig, &idle, 0.5);
        *numbers[i] = nextafter(0.0, -1.0);
        assert_int_equal(brake_braking_advance(&rig, &idle, 1.0, &trip.at, &trip.out),
                         BRAKE_E_RANGE);
    }
}

static void a_task_or_state_out_of_range_is_refused(void **state)
{
    (void)state;
    const struct brake_rig rig = plain_rig();
    const struct brake_application a = holds_force(400.0, 30.0, 0.0);
    const struct trip begun = go(&rig, &a, 0.5);
    const struct brake_application wrong[] = {
        {BRAKE_HOLDS_FORCE, BRAKE_NAN, 0.0, 30.0, 0.0},
        {BRAKE_HOLDS_FORCE, -1.0, 0.0, 30.0, 0.0},
        {BRAKE_HOLDS_FORCE, BRAKE_INFINITY, 0.0, 30.0, 0.0},
        {BRAKE_HOLDS_FORCE, 400.0, 0.0, BRAKE_NAN, 0.0},
        {BRAKE_HOLDS_FORCE, 400.0, 0.0, 0.0, 0.0},
        {BRAKE_HOLDS_FORCE, 400.0, 0.0, 30.0, 30.0},
        {BRAKE_HOLDS_FORCE, 400.0, 0.0, 30.0, -1.0},
        {BRAKE_HOLDS_FORCE, 400.0, 0.0, 30.0, BRAKE_NAN},
        {BRAKE_HOLDS_DECELERATION, 400.0, BRAKE_NAN, 30.0, 0.0},
        {(enum brake_manner)3, 400.0, 5.0, 30.0, 0.0},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        assert_refused(&rig, &wrong[i], &begun, BRAKE_E_RANGE);
    struct trip trip = begun;
    static const double never[] = {-1.0, 2e9, BRAKE_INFINITY, BRAKE_NAN};
    for (int i = 0; i < 4; i++)
        assert_int_equal(brake_braking_advance(&rig, &a, never[i], &trip.at, &trip.out),
                         BRAKE_E_RANGE);
    double *const numbers[] = {&trip.at.time,
                               &trip.at.distance,
                               &trip.at.speed,
                               &trip.at.output,
                               &trip.at.resisted,
                               &trip.at.effort,
                               &trip.at.work[BRAKE_FRONT],
                               &trip.at.work[BRAKE_REAR],
                               &trip.at.fading[BRAKE_REAR],
                               &trip.at.bending[BRAKE_FRONT],
                               &trip.at.span,
                               &trip.at.step};
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        trip = begun;
        *numbers[i] = BRAKE_NAN;
        assert_int_equal(brake_braking_advance(&rig, &a, 10.0, &trip.at, &trip.out), BRAKE_E_RANGE);
    }
    trip = begun;
    trip.at.speed = -1.0;
    assert_int_equal(brake_braking_advance(&rig, &a, 10.0, &trip.at, &trip.out), BRAKE_E_RANGE);
    trip = begun;
    trip.at.time = -1.0;
    assert_int_equal(brake_braking_advance(&rig, &a, 10.0, &trip.at, &trip.out), BRAKE_E_RANGE);
}

/* A curve through one value whatever the temperature. */
static void hold_friction(struct hot_rig *hot, double cold, double warm)
{
    const double kelvin[] = {293.15, 300.0};
    const double mu[] = {cold, warm};
    assert_int_equal(brake_curve_build(kelvin, mu, 2, &hot->friction.temperature), BRAKE_OK);
}

/* Shigley, sec. 16-3: a leading shoe with B <= mu A locks by itself. */
static void a_shoe_that_grabs_is_refused(void **state)
{
    (void)state;
    struct hot_rig hot;
    const struct brake_thermal_spec spec = wall(4);
    heat_up(&spec, &hot);
    struct brake_gain_law *law = &hot.rig.law[BRAKE_REAR];
    law->shaped = true;
    law->shoes = BRAKE_TWO_LEADING;
    law->shoe = (struct brake_shoe){
        .drum_radius = 0.125, .pivot_radius = 0.1, .force_arm = 0.2, .heel = 0.3, .toe = 2.2};
    const struct brake_application a = holds_force(400.0, 30.0, 0.0);
    /* At once. */
    hold_friction(&hot, 3.0, 3.0);
    const struct trip cold = go(&hot.rig, &a, 0.0);
    assert_refused(&hot.rig, &a, &cold, BRAKE_E_SELF_LOCK);
    /* At once, under a foot that comes down at once: its power makes the faces jump. */
    struct brake_rig sudden = hot.rig;
    sudden.rise_time = 0.0;
    assert_refused(&sudden, &a, &cold, BRAKE_E_SELF_LOCK);
    /* Once warm. */
    hold_friction(&hot, 0.4, 3.0);
    const struct trip begun = go(&hot.rig, &a, 0.0);
    assert_refused(&hot.rig, &a, &begun, BRAKE_E_SELF_LOCK);
    /* At the friction of the law. */
    hold_friction(&hot, 0.4, 0.4);
    law->mu = 3.0;
    assert_refused(&hot.rig, &a, &begun, BRAKE_E_SELF_LOCK);
    law->mu = 0.0;
    assert_refused(&hot.rig, &a, &begun, BRAKE_E_RANGE);
    assert_nan(brake_gain_ratio(law, 0.4));
    law->mu = 0.4;
    law->shoe.toe = 0.2;
    assert_refused(&hot.rig, &a, &begun, BRAKE_E_RANGE);
    /* Friction without a curve is no friction. */
    law->shoe.toe = 2.2;
    hot.friction.temperature.points = 0;
    struct trip trip = begun;
    brake_braking_begin(&hot.rig, &a, &trip.at, &trip.out);
    assert_nan(trip.at.friction[BRAKE_FRONT]);
    assert_refused(&hot.rig, &a, &trip, BRAKE_E_RANGE);
}

/* ---- any vehicle ---------------------------------------------------------------------------- */

/* First law, and each brake holds its work; a firmer foot never stops later. */
static void any_vehicle_keeps_its_energy_and_stops_sooner_by_a_firmer_foot(void **state)
{
    (void)state;
    struct cases cases = {7};
    struct hot_rig hot;
    const struct brake_thermal_spec spec = wall(3);
    for (int i = 0; i < RANDOM_RIGS / 4; i++) {
        heat_up(&spec, &hot);
        struct brake_rig *rig = &hot.rig;
        const struct brake_rig any = any_rig(&cases);
        rig->balance = any.balance;
        rig->pedal = any.pedal;
        rig->adhesion = any.adhesion;
        rig->antilock = any.antilock;
        rig->air_drag = any.air_drag;
        rig->dead_time = any.dead_time;
        rig->booster_lag = any.booster_lag;
        rig->rise_time = any_between(&cases, 0.05, 0.5);
        rig->balance.grade = any_between(&cases, -0.05, 0.1);
        rig->step = 0.02;
        if (i % 3 == 0)
            rig->friction[BRAKE_FRONT] = NULL;
        if (i % 5 == 0)
            rig->thermal[BRAKE_REAR] = NULL;
        const double v = any_between(&cases, 10.0, 45.0);
        const double energy = brake_energy(brake_effective_mass(&rig->balance), v);
        double distance = BRAKE_INFINITY;
        for (double force = 200.0; force < 2000.0; force *= 1.5) {
            struct brake_application a = holds_force(force, v, 0.0);
            if (i % 4 == 3)
                a.manner = BRAKE_AT_INCIPIENT_LOCK;
            const struct trip trip = go(rig, &a, 20.0);
            if (isnan(trip.out.ended))
                continue; /* too weak */
            const double work = trip.at.work[BRAKE_FRONT] + trip.at.work[BRAKE_REAR];
            assert_within(work + trip.at.resisted, energy, 1e-9 * energy);
            assert_true(trip.out.residual < 1e-9);
            assert_true(trip.at.distance <= distance * (1.0 + 1e-5));
            assert_true(trip.out.force_most <= force * (1.0 + 1e-12));
            distance = trip.at.distance;
            for (int axle = 0; axle < BRAKE_AXLES; axle++) {
                assert_true(trip.at.work[axle] >= 0.0);
                if (rig->thermal[axle] != NULL)
                    assert_within(2.0 * trip.at.heat[axle].supplied, trip.at.work[axle],
                                  1e-11 * energy);
            }
        }
        assert_true(distance < BRAKE_INFINITY);
    }
}

/* The pads recover as speed and heat fall: an axle leaves its limit and meets it again. */
static void limits_are_left_as_well_as_met(void **state)
{
    (void)state;
    struct hot_rig hot;
    const struct brake_thermal_spec spec = wall(6);
    heat_up(&spec, &hot);
    hot.rig.adhesion = 0.5;
    const struct brake_application a = holds_force(420.0, 60.0, 0.0);
    for (int i = 0; i < 2; i++) {
        hot.rig.antilock = i == 0 ? 0.0 : 0.9;
        hot.rig.step = 0.1;
        const struct trip coarse = stop(&hot.rig, &a);
        hot.rig.step = 0.005;
        const struct trip fine = stop(&hot.rig, &a);
        assert_near(coarse.at.distance, fine.at.distance, 1e-4);
        assert_within(coarse.out.lock_time, fine.out.lock_time, 1e-3);
        /* Faded, it is below the limit that it met before. */
        assert_true(fine.at.deceleration <
                    0.99 * brake_balance_lock(&hot.rig.balance, 0.5).deceleration);
    }
}

/* The strain of a rotor is that of its face over its mean: no less than at the end, no more than by
 * the hottest face over a wall as cold as at the begin. */
static void strain_lies_between_that_at_the_end_and_that_of_a_cold_wall(void **state)
{
    (void)state;
    struct hot_rig hot;
    const struct brake_thermal_spec spec = wall(12);
    heat_up(&spec, &hot);
    const struct brake_application a = holds_force(400.0, 50.0, 0.0);
    const struct trip trip = stop(&hot.rig, &a);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_thermal_state *end = &trip.at.heat[i];
        assert_between(trip.out.stress_rise[i], end->face - brake_thermal_mean(&hot.thermal, end),
                       trip.out.face_most[i] - hot.rig.air);
    }
}

/* At its begin a braking has done nothing: it rolls, and slows by what is not the brakes. */
static void a_braking_begins_with_nothing_done(void **state)
{
    (void)state;
    struct brake_rig rig = plain_rig();
    struct brake_braking at;
    struct brake_outcome out;
    memset(&at, 7, sizeof at);
    rig.air_drag = 0.5;
    rig.balance.rolling = 0.01;
    const struct brake_application a = holds_force(400.0, 30.0, 0.0);
    brake_braking_begin(&rig, &a, &at, &out);
    const double nothing[] = {at.time,      at.distance,   at.output,      at.resisted,
                              at.effort,    at.pressure,   at.pedal_force, at.span,
                              at.step,      at.work[0],    at.work[1],     at.fading[0],
                              at.fading[1], at.bending[0], at.bending[1]};
    for (size_t i = 0; i < sizeof nothing / sizeof nothing[0]; i++)
        assert_equal(nothing[i], 0.0);
    assert_equal(at.speed, 30.0);
    assert_near(at.deceleration, 0.01 * BRAKE_GRAVITY + 0.5 * 900.0 / 2000.0, ROUNDING);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_straight_rise_is_the_closed_form),
        cmocka_unit_test(the_stop_of_the_check_values_is_reproduced),
        cmocka_unit_test(the_shorter_the_build_up_the_nearer_to_v_squared_over_2a),
        cmocka_unit_test(a_steady_stop_has_its_deceleration_as_mean),
        cmocka_unit_test(the_drag_of_the_air_is_the_closed_form),
        cmocka_unit_test(without_heat_the_error_goes_with_the_fourth_power_of_the_step),
        cmocka_unit_test(a_slope_helps_or_hinders_by_its_sine),
        cmocka_unit_test(what_does_not_slow_goes_on_to_the_time_asked),
        cmocka_unit_test(the_lag_of_the_booster_is_first_order),
        cmocka_unit_test(a_pedal_let_go_leaves_the_lag),
        cmocka_unit_test(knee_and_lock_come_when_the_pedal_reaches_them),
        cmocka_unit_test(a_lock_under_a_lag_is_found_to_the_last_digits),
        cmocka_unit_test(a_jump_over_knee_and_limit_is_noted_when_it_happens),
        cmocka_unit_test(no_corner_is_stepped_over),
        cmocka_unit_test(the_fluid_gives_no_more_pressure_than_it_can),
        cmocka_unit_test(a_corner_however_near_is_not_stepped_over),
        cmocka_unit_test(a_snub_ends_above_standstill),
        cmocka_unit_test(at_the_verge_without_antilock_it_is_the_first_lock),
        cmocka_unit_test(at_the_verge_a_held_circuit_locks_as_its_balance_says),
        cmocka_unit_test(with_antilock_the_deceleration_is_that_of_the_balance),
        cmocka_unit_test(a_tall_vehicle_brakes_until_its_rear_leaves_the_road),
        cmocka_unit_test(a_deceleration_is_held_whatever_slope_and_air_do),
        cmocka_unit_test(through_the_dead_time_no_foot_is_on_the_pedal),
        cmocka_unit_test(a_deceleration_out_of_reach_takes_all_the_force_there_is),
        cmocka_unit_test(distribution_shares_the_work_as_the_loads_do),
        cmocka_unit_test(torque_follows_friction_as_the_brake_lets_it),
        cmocka_unit_test(fade_lengthens_the_stop_and_loses_no_energy),
        cmocka_unit_test(the_fade_of_a_lump_is_the_closed_form),
        cmocka_unit_test(
            a_front_that_fades_alone_is_the_closed_form_when_the_foot_comes_down_at_once),
        cmocka_unit_test(friction_follows_speed_and_pressure_of_the_lining),
        cmocka_unit_test(a_held_deceleration_asks_for_more_pedal_as_the_brakes_fade),
        cmocka_unit_test(with_heat_the_error_goes_with_the_square_of_the_step),
        cmocka_unit_test(it_does_so_when_the_foot_comes_down_at_once),
        cmocka_unit_test(brakes_cool_at_the_speed_that_there_is),
        cmocka_unit_test(steps_follow_the_friction),
        cmocka_unit_test(friction_that_stays_asks_for_no_short_steps),
        cmocka_unit_test(a_rise_is_cut_into_steps),
        cmocka_unit_test(a_lag_is_cut_into_steps),
        cmocka_unit_test(no_step_is_a_sliver),
        cmocka_unit_test(steps_that_miss_nothing_double),
        cmocka_unit_test(no_step_is_shorter_than_a_fortieth),
        cmocka_unit_test(company_does_not_change_a_braking),
        cmocka_unit_test(the_hottest_moment_is_found),
        cmocka_unit_test(the_top_of_a_parabola_is_found_exactly),
        cmocka_unit_test(no_top_is_sought_where_the_power_bends),
        cmocka_unit_test(no_top_is_sought_where_the_power_jumps),
        cmocka_unit_test(a_state_that_is_saved_goes_on_as_if_nothing_had_been),
        cmocka_unit_test(a_time_cut_into_pieces_gives_the_same),
        cmocka_unit_test(ten_thousand_snubs_stay_finite),
        cmocka_unit_test(what_is_missing_or_out_of_range_is_refused),
        cmocka_unit_test(the_ends_of_a_range_are_in_it),
        cmocka_unit_test(what_cannot_be_negative_begins_at_none),
        cmocka_unit_test(the_ends_of_a_task_are_in_it),
        cmocka_unit_test(a_task_or_state_out_of_range_is_refused),
        cmocka_unit_test(a_shoe_that_grabs_is_refused),
        cmocka_unit_test(any_vehicle_keeps_its_energy_and_stops_sooner_by_a_firmer_foot),
        cmocka_unit_test(limits_are_left_as_well_as_met),
        cmocka_unit_test(strain_lies_between_that_at_the_end_and_that_of_a_cold_wall),
        cmocka_unit_test(a_braking_begins_with_nothing_done),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
