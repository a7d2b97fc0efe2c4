/* SPDX-License-Identifier: MIT */
/* Balance between the axles: locks, targets, anti-lock. */
#include "near.h"

#include <stdbool.h>

#include "brake/balance.h"
#include "model/force_lines.h"

enum { RANDOM_VEHICLES = 2000 };

/* A front-heavy vehicle of round figures: no losses, no valve. */
static const struct brake_balance plain = {
    .body = {.mass = 2000.0, .behind = 1.2, .height = 0.8},
    .wheelbase = 2.5,
    .axle = {{.gain = 8e-4, .radius = 0.4, .wheels = 1.0},
             {.gain = 2e-4, .radius = 0.4, .wheels = 1.0}},
    .valve = {.knee = BRAKE_INFINITY, .slope = 1.0},
};

static struct brake_balance any_vehicle(struct cases *cases)
{
    struct brake_balance b = {.grade = 0.0};
    b.wheelbase = any_between(cases, 2.0, 4.0);
    b.body.mass = any_between(cases, 800.0, 5000.0);
    b.body.behind = any_between(cases, 0.35, 0.65) * b.wheelbase;
    b.body.height = any_between(cases, 0.15, 0.4) * b.wheelbase;
    b.rolling = any_between(cases, -0.02, 0.02);
    b.rolling = b.rolling > 0.0 ? b.rolling : 0.0;
    b.locked = false;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        struct brake_axle_brakes *axle = &b.axle[i];
        axle->radius = any_between(cases, 0.28, 0.5);
        /* 2 to 8 m/s2 by each axle at 10 MPa */
        axle->gain = b.body.mass * any_between(cases, 2.0, 8.0) * axle->radius / 10e6;
        axle->threshold = any_between(cases, 0.0, 0.6e6);
        axle->inertia = any_between(cases, 0.0, 8.0);
        axle->wheels = any_between(cases, 0.0, 1.0) < 0.2 ? 0.5 : 1.0; /* a circuit has failed */
    }
    b.valve.knee = any_between(cases, 0.0, 8e6);
    b.valve.slope = any_between(cases, 0.0, 1.0);
    if (any_between(cases, 0.0, 1.0) < 0.3)
        b.valve.knee = BRAKE_INFINITY;
    return b;
}

/* Wong, ch. 3: mass factor by parts. */
static void turning_wheels_add_to_the_mass(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    assert_equal(brake_effective_mass(&b), 2000.0);
    b.axle[BRAKE_FRONT].inertia = 3.2;
    b.axle[BRAKE_REAR].inertia = 1.6;
    assert_near(brake_effective_mass(&b), 2030.0, ROUNDING);
    b.axle[BRAKE_REAR].radius = BRAKE_NAN;
    assert_nan(brake_effective_mass(&b));
}

static void the_valve_is_in_the_rear_line_only(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.valve.knee = 2e6;
    b.valve.slope = 0.5;
    b.axle[BRAKE_FRONT].threshold = 0.1e6;
    b.axle[BRAKE_REAR].threshold = 0.2e6;
    assert_near(brake_axle_torque(&b, BRAKE_FRONT, 6e6), 8e-4 * 5.9e6, ROUNDING);
    assert_near(brake_axle_torque(&b, BRAKE_REAR, 6e6), 2e-4 * 3.8e6, ROUNDING);
    assert_equal(brake_axle_torque(&b, BRAKE_FRONT, 0.05e6), 0.0);
    assert_equal(brake_axle_torque(&b, BRAKE_REAR, 0.2e6), 0.0);
    assert_nan(brake_axle_torque(&b, BRAKE_REAR, BRAKE_NAN));
}

/* Newton's law for the vehicle and for each axle (file head of balance.h). */
static void forces_at_the_tyres_and_rolling_resistance_slow_the_mass(void **state)
{
    (void)state;
    struct cases cases = {8};
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        const struct brake_balance b = any_vehicle(&cases);
        const double pressure = any_between(&cases, 0.0, 12e6);
        const struct brake_balance_state at = brake_balance_at(&b, pressure);
        const double weight = b.body.mass * BRAKE_GRAVITY;
        assert_near(at.load[BRAKE_FRONT] + at.load[BRAKE_REAR], weight, ROUNDING);
        assert_within(at.force[BRAKE_FRONT] + at.force[BRAKE_REAR] + b.rolling * weight,
                      b.body.mass * at.deceleration, 1e-12 * weight);
        for (int axle = 0; axle < BRAKE_AXLES; axle++) {
            const double wheel = brake_axle_torque(&b, (enum brake_axle)axle, pressure) -
                                 at.force[axle] * b.axle[axle].radius;
            /* What the tyre does not take turns the wheels slower. */
            assert_within(wheel, b.axle[axle].inertia * at.deceleration / b.axle[axle].radius,
                          1e-12 * weight);
        }
    }
}

/* Gillespie, ch. 1: axle loads on a slope; Newton's law along it. */
/* Load that the turning of the wheels throws forward, over the deceleration: moment of momentum
 * about a point of the road. */
static double wheel_shift(const struct brake_balance *b)
{
    double sum = 0.0;
    for (int i = 0; i < BRAKE_AXLES; i++)
        sum += b->axle[i].inertia / b->axle[i].radius;
    return sum / b->wheelbase;
}

/* Newton's law with an engine on the rear axle (file head): 100 N*m drag it at every pressure, 3.2
 * kg*m2 are 20 kg at the road, and throw no load forward. */
static void an_engine_in_gear_drags_its_axle_and_turns_with_it(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.axle[BRAKE_REAR].inertia = 1.6; /* 10 kg, and 4 kg*m/s of load a m/s2 */
    b.axle[BRAKE_REAR].drag = 100.0;
    b.axle[BRAKE_REAR].geared = 3.2;
    assert_near(brake_effective_mass(&b), 2030.0, ROUNDING);
    const struct brake_balance_state coasting = brake_balance_at(&b, 0.0);
    assert_near(coasting.deceleration, 250.0 / 2030.0, ROUNDING);
    assert_near(coasting.force[BRAKE_FRONT], 0.0, ROUNDING);
    const struct brake_balance_state at = brake_balance_at(&b, 4e6);
    const double a = (3200.0 + 800.0 + 100.0) / 0.4 / 2030.0;
    assert_near(at.deceleration, a, ROUNDING);
    assert_near(at.force[BRAKE_REAR], 2250.0 - 30.0 * a, ROUNDING);
    assert_near(at.load[BRAKE_FRONT],
                (2000.0 * BRAKE_GRAVITY * 1.3 + 2000.0 * 0.8 * a + 4.0 * a) / 2.5, ROUNDING);
    assert_near(brake_balance_at(&b, brake_balance_pressure(&b, 3.0)).deceleration, 3.0, ROUNDING);
    assert_near(brake_axle_torque(&b, BRAKE_REAR, 4e6), 800.0, ROUNDING); /* that of its brakes */
}

/* The driven axle, which the engine drags, is at the limit of adhesion by so much less torque of
 * its brakes; where an anti-lock keeps all wheels at their share, an engine changes nothing. */
static void an_engine_in_gear_locks_its_axle_earlier(void **state)
{
    (void)state;
    struct cases cases = {91};
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        struct brake_balance b = any_vehicle(&cases);
        b.axle[BRAKE_FRONT].wheels = b.axle[BRAKE_REAR].wheels = 1.0;
        b.valve.knee = BRAKE_INFINITY; /* so that 1e9 Pa are enough at the rear */
        const struct brake_balance without = b;
        b.axle[BRAKE_REAR].geared = any_between(&cases, 0.5, 10.0);
        b.axle[BRAKE_REAR].drag = any_between(&cases, 20.0, 300.0);
        const struct brake_lock lock = brake_balance_lock(&b, 0.8);
        const struct brake_balance_state at = brake_balance_at(&b, lock.pressure);
        if (isfinite(lock.pressure) && at.load[BRAKE_REAR] > 1.0)
            assert_near(at.used[lock.axle], 0.8, 1e-9);
        assert_near(brake_balance_deceleration(&b, 1e9, 0.5, 0.8),
                    brake_balance_deceleration(&without, 1e9, 0.5, 0.8), 1e-9);
    }
}

static void a_slope_and_the_air_slow_the_vehicle_and_move_its_load(void **state)
{
    (void)state;
    struct cases cases = {80};
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        struct brake_balance b = any_vehicle(&cases);
        const double pressure = any_between(&cases, 0.0, 12e6);
        b.grade = any_between(&cases, -0.3, 0.3);
        const double slope = atan(b.grade);
        const double weight = b.body.mass * BRAKE_GRAVITY;
        const struct brake_balance_state at = brake_balance_at(&b, pressure);
        assert_within(at.load[BRAKE_FRONT],
                      brake_front_load(b.body, b.wheelbase, at.deceleration, slope) +
                          wheel_shift(&b) * at.deceleration,
                      1e-12 * weight);
        assert_near(at.load[BRAKE_FRONT] + at.load[BRAKE_REAR], weight * cos(slope), 1e-12);
        assert_within(at.force[BRAKE_FRONT] + at.force[BRAKE_REAR] + weight * sin(slope) +
                          b.rolling * weight * cos(slope),
                      b.body.mass * at.deceleration, 1e-12 * weight);

        /* Drag at the centre of gravity slows without moving load: only the tyres do that. */
        b.drag = any_between(&cases, 0.0, 2000.0);
        const struct brake_balance_state windy = brake_balance_at(&b, pressure);
        assert_within(windy.deceleration - at.deceleration, b.drag / brake_effective_mass(&b),
                      1e-12 * BRAKE_GRAVITY);
        const double tyres = windy.force[BRAKE_FRONT] + windy.force[BRAKE_REAR];
        const double calm = at.force[BRAKE_FRONT] + at.force[BRAKE_REAR];
        assert_within(windy.load[BRAKE_FRONT] - at.load[BRAKE_FRONT],
                      (tyres - calm) * b.body.height / b.wheelbase +
                          wheel_shift(&b) * (windy.deceleration - at.deceleration),
                      1e-11 * weight);
    }
}

/* UN R13-H, Annex 5: adhesion used is force over load. */
static void adhesion_used_is_force_over_load(void **state)
{
    (void)state;
    /* 4 MPa: forces 8 kN and 2 kN, 5 m/s2; 3.2 kN moves to the front. */
    const struct brake_balance_state at = brake_balance_at(&plain, 4e6);
    assert_near(at.deceleration, 5.0, ROUNDING);
    assert_near(at.used[BRAKE_FRONT], 8e3 / (2000.0 * BRAKE_GRAVITY * 0.52 + 3200.0), ROUNDING);
    assert_near(at.used[BRAKE_REAR], 2e3 / (2000.0 * BRAKE_GRAVITY * 0.48 - 3200.0), ROUNDING);
    /* One wheel of an axle has half its load. */
    struct brake_balance diagonal = plain;
    diagonal.axle[BRAKE_FRONT].wheels = 0.5;
    assert_near(brake_balance_at(&diagonal, 4e6).used[BRAKE_FRONT], 2.0 * at.used[BRAKE_FRONT],
                ROUNDING);
}

static void an_axle_off_the_road_uses_more_adhesion_than_there_is(void **state)
{
    (void)state;
    /* 20 MPa gives 25 m/s2, more than g x / h = 14.7 m/s2. */
    const struct brake_balance_state at = brake_balance_at(&plain, 20e6);
    assert_true(at.load[BRAKE_REAR] < 0.0);
    assert_infinite(at.used[BRAKE_REAR]);
    /* Without a brake on it nothing is asked of it. */
    struct brake_balance front_only = plain;
    front_only.axle[BRAKE_REAR].gain = 0.0;
    assert_equal(brake_balance_at(&front_only, 20e6).used[BRAKE_REAR], 0.0);
    front_only.axle[BRAKE_REAR].wheels = 0.0;
    assert_equal(brake_balance_at(&front_only, 2e6).used[BRAKE_REAR], 0.0);
}

/* An axle is on the road as long as it carries anything: 0.5 N on the rear of a vehicle whose load
 * does not move. */
static void the_least_load_is_a_load(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.body.height = 0.0;
    b.body.behind = 0.5 / (2000.0 * BRAKE_GRAVITY) * 2.5;
    const struct brake_balance_state at = brake_balance_at(&b, 1e6);
    assert_near(at.load[BRAKE_REAR], 0.5, 1e-9);
    assert_near(at.used[BRAKE_REAR], 2e-4 * 1e6 / 0.4 / 0.5, 1e-9);
}

/* A valve that senses height, on an axle that an engine drags: at its knee it gives what its own
 * law says at the deceleration that is had there. */
static void a_valve_pitches_by_what_an_engine_drags_too(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.rolling = 0.01;
    b.valve = (struct brake_valve){3e6, 0.4};
    b.axle[BRAKE_FRONT].drag = 100.0;
    b.axle[BRAKE_REAR].drag = 400.0;
    b.axle[BRAKE_REAR].threshold = 2e5;
    const struct force_lines lines = force_lines_of(&b);
    const struct valve_pitch pitch = {.rate = 5e3, .left = 0.6, .unsprung = 200.0};
    const struct brake_valve is = pitched_valve(&b, &lines, pitch);
    const double per_deceleration = /* [Pa s2/m] */
        5e3 * 0.6 * (2000.0 * 0.8 - 200.0 * 0.4) / (2.5 * BRAKE_GRAVITY);
    b.valve.knee = is.knee;
    assert_near(is.knee, 3e6 - per_deceleration * brake_balance_at(&b, is.knee).deceleration, 1e-9);
    /* Past it, by the line of the pitched valve, at the knee and by the slope of that instant. */
    b.valve.slope = is.slope;
    const double knee = 3e6 - per_deceleration * brake_balance_at(&b, 6e6).deceleration;
    assert_near(is.knee + is.slope * (6e6 - is.knee), knee + 0.4 * (6e6 - knee), 1e-9);
}

static void pressure_and_deceleration_undo_each_other(void **state)
{
    (void)state;
    struct cases cases = {9};
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        const struct brake_balance b = any_vehicle(&cases);
        const double pressure = any_between(&cases, 0.7e6, 15e6);
        const double a = brake_balance_at(&b, pressure).deceleration;
        assert_near(brake_balance_pressure(&b, a), pressure, 1e-11);
        const double target = any_between(&cases, 0.5, 12.0);
        const double found = brake_balance_pressure(&b, target);
        assert_near(brake_balance_at(&b, found).deceleration, target, 1e-11);
    }
}

static void many_points_at_once_are_those_one_by_one(void **state)
{
    (void)state;
    struct cases cases = {11};
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        struct brake_balance b = any_vehicle(&cases);
        b.regulated = i % 2 == 1;
        const double most = brake_balance_at(&b, 20e6).deceleration;
        const double deceleration[] = {0.2 * most, most, 0.5 * most};
        struct brake_balance_state at[3];
        assert_true(brake_balance_points(&b, deceleration, 3, at));
        for (int k = 0; k < 3; k++) {
            const struct brake_balance_state one =
                brake_balance_at(&b, brake_balance_pressure(&b, deceleration[k]));
            assert_memory_equal(&at[k], &one, sizeof one);
        }
        const double beyond[] = {0.5 * most, BRAKE_INFINITY};
        assert_false(brake_balance_points(&b, beyond, 2, at));
    }
}

static void what_rolling_resistance_gives_needs_no_pressure(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.rolling = 0.015;
    assert_equal(brake_balance_pressure(&b, 0.014 * BRAKE_GRAVITY), 0.0);
    assert_true(brake_balance_pressure(&b, 0.016 * BRAKE_GRAVITY) > 0.0);
    assert_equal(brake_balance_pressure(&b, -1.0), 0.0);
    /* Nor where electronic distribution is at work, whose pressure is sought. */
    b.regulated = true;
    assert_equal(brake_balance_pressure(&b, 0.014 * BRAKE_GRAVITY), 0.0);
    assert_equal(brake_balance_pressure(&b, 0.0), 0.0);
    assert_near(brake_balance_pressure(&b, 0.5 + 0.015 * BRAKE_GRAVITY), 1000.0 * 0.4 / 1e-3, 1e-9);
}

static void a_deceleration_out_of_reach_needs_infinite_pressure(void **state)
{
    (void)state;
    assert_infinite(brake_balance_pressure(&plain, BRAKE_INFINITY));
    struct brake_balance b = plain;
    b.axle[BRAKE_FRONT].gain = 0.0;
    b.valve.knee = 3e6;
    b.valve.slope = 0.0;
    /* 2e-4 x 3 MPa / 0.4 m / 2000 kg = 0.75 m/s2 and no more. */
    assert_near(brake_balance_pressure(&b, 0.749), 3e6 * 0.749 / 0.75, ROUNDING);
    assert_infinite(brake_balance_pressure(&b, 0.751));
    b.axle[BRAKE_REAR].gain = 0.0;
    assert_infinite(brake_balance_pressure(&b, 0.1));
}

static void a_rear_threshold_above_the_knee_is_reached_late_or_never(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.axle[BRAKE_REAR].threshold = 2e6;
    b.valve.knee = 1e6;
    b.valve.slope = 0.25;
    /* 1 MPa + 0.25 (p - 1 MPa) = 2 MPa at 5 MPa: front alone gives 5 m/s2 there. */
    assert_near(brake_balance_pressure(&b, 5.0), 5e6, ROUNDING);
    /* Past it both: 8e-4 + 0.25 x 2e-4 N*m/Pa. */
    assert_near(brake_balance_pressure(&b, 6.0), 5e6 + 800.0 / 8.5e-4, ROUNDING);
    b.valve.slope = 0.0;
    assert_near(brake_balance_pressure(&b, 8.0), 8e6, ROUNDING);
    assert_equal(brake_axle_torque(&b, BRAKE_REAR, 1e9), 0.0);
    /* The rear axle has brakes, but the valve keeps them from working: the front locks. */
    assert_int_equal(brake_balance_lock(&b, 0.7).axle, BRAKE_FRONT);
}

static void the_axle_that_locks_uses_exactly_the_adhesion(void **state)
{
    (void)state;
    struct cases cases = {10};
    int rear_first = 0;
    int locks = 0;
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        const struct brake_balance b = any_vehicle(&cases);
        const double k = any_between(&cases, 0.1, 1.1);
        const struct brake_lock lock = brake_balance_lock(&b, k);
        if (isinf(lock.pressure))
            continue;
        const struct brake_balance_state at = brake_balance_at(&b, lock.pressure);
        const int other = lock.axle == BRAKE_FRONT ? BRAKE_REAR : BRAKE_FRONT;
        assert_near(at.used[lock.axle], k, 1e-10);
        assert_true(at.used[other] <= k * (1.0 + 1e-10));
        assert_near(at.deceleration, lock.deceleration, ROUNDING);
        /* It is the first: at any lower pressure both axles have adhesion left. */
        for (double part = 0.0; part < 0.999; part += 0.05) {
            const struct brake_balance_state before = brake_balance_at(&b, part * lock.pressure);
            assert_true(before.used[BRAKE_FRONT] < k && before.used[BRAKE_REAR] < k);
        }
        locks++;
        rear_first += lock.axle == BRAKE_REAR;
    }
    /* The sample holds plenty of both kinds. */
    assert_true(rear_first > RANDOM_VEHICLES / 10);
    assert_true(locks - rear_first > RANDOM_VEHICLES / 10);
}

/* Wong, ch. 3, in closed form for a fixed share: without inertia the two must agree, on the
 * adhesion that rolling leaves. */
static void the_lock_of_a_fixed_share_is_that_of_the_closed_form(void **state)
{
    (void)state;
    struct cases cases = {11};
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        struct brake_balance b = any_vehicle(&cases);
        const double share = any_between(&cases, 0.5, 0.95);
        const double k = any_between(&cases, 0.1, 1.0);
        b.valve.knee = BRAKE_INFINITY;
        for (int axle = 0; axle < BRAKE_AXLES; axle++) {
            b.axle[axle].inertia = 0.0;
            b.axle[axle].threshold = 0.0;
            b.axle[axle].wheels = 1.0;
            b.axle[axle].radius = 0.4;
            b.axle[axle].gain = 1e-3 * (axle == BRAKE_FRONT ? share : 1.0 - share);
        }
        const double front =
            brake_lock_ratio(b.body, b.wheelbase, share, b.rolling, k, BRAKE_FRONT);
        const double rear = brake_lock_ratio(b.body, b.wheelbase, share, b.rolling, k, BRAKE_REAR);
        const struct brake_lock lock = brake_balance_lock(&b, k + b.rolling);
        assert_near(lock.deceleration / BRAKE_GRAVITY, fmin(front, rear), 1e-11);
        assert_int_equal(lock.axle, rear < front ? BRAKE_REAR : BRAKE_FRONT);
    }
}

static void nothing_locks_without_brakes(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.axle[BRAKE_FRONT].gain = 0.0;
    b.axle[BRAKE_REAR].gain = 0.0;
    const struct brake_lock lock = brake_balance_lock(&b, 0.8);
    assert_infinite(lock.pressure);
    assert_infinite(lock.deceleration);
    /* What cannot lock is limited by its torque alone. */
    b = plain;
    b.axle[BRAKE_FRONT].gain = 0.0;
    b.valve.knee = 1e6;
    b.valve.slope = 0.0;
    assert_infinite(brake_balance_lock(&b, 0.8).pressure);
    assert_near(brake_balance_deceleration(&b, 9e6, 0.8, 0.0), 0.25, ROUNDING);
}

static void brakes_on_one_axle_lock_that_axle(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.axle[BRAKE_REAR].gain = 0.0;
    assert_int_equal(brake_balance_lock(&b, 0.8).axle, BRAKE_FRONT);
    b = plain;
    b.axle[BRAKE_FRONT].gain = 0.0;
    assert_int_equal(brake_balance_lock(&b, 0.8).axle, BRAKE_REAR);
}

/* A road that gives nothing locks at once; a threshold is pressure that locks nothing. */
static void on_glass_the_first_pressure_that_works_locks(void **state)
{
    (void)state;
    assert_equal(brake_balance_lock(&plain, 0.0).pressure, 0.0);
    struct brake_balance b = plain;
    b.axle[BRAKE_FRONT].threshold = 0.2e6;
    b.axle[BRAKE_REAR].threshold = 0.3e6;
    assert_near(brake_balance_lock(&b, 1e-9).pressure, 0.2e6, 1e-6);
}

/* Both axles lock together: equal axles under a centre of gravity on the road half way. */
static void a_symmetric_vehicle_locks_both_axles_together(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.body.behind = 1.25;
    b.body.height = 0.0;
    b.axle[BRAKE_REAR] = b.axle[BRAKE_FRONT];
    const struct brake_lock lock = brake_balance_lock(&b, 0.7);
    const struct brake_balance_state at = brake_balance_at(&b, lock.pressure);
    assert_near(at.used[BRAKE_FRONT], 0.7, ROUNDING);
    assert_near(at.used[BRAKE_REAR], 0.7, ROUNDING);
    assert_near(lock.deceleration, 0.7 * BRAKE_GRAVITY, ROUNDING);
    assert_int_equal(lock.axle, BRAKE_FRONT);
}

/* By the ideal share all adhesion is used at one deceleration (Limpert, ch. 7). */
static void the_ideal_share_locks_both_axles_at_full_adhesion(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    const double k = 0.7;
    const double share = brake_ideal_share(b.body, b.wheelbase, k);
    b.axle[BRAKE_FRONT].gain = 1e-3 * share;
    b.axle[BRAKE_REAR].gain = 1e-3 * (1.0 - share);
    assert_near(brake_balance_lock(&b, k).deceleration, k * BRAKE_GRAVITY, 1e-11);
    assert_near(brake_balance_rear_first(&b, 1.0), k * BRAKE_GRAVITY, 1e-11);
    assert_nan(brake_ideal_share(b.body, BRAKE_NAN, k));
}

static void with_the_centre_drive_locked_both_axles_use_the_same(void **state)
{
    (void)state;
    struct cases cases = {12};
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        struct brake_balance b = any_vehicle(&cases);
        b.locked = true;
        const struct brake_balance_state at = brake_balance_at(&b, any_between(&cases, 0, 9e6));
        assert_equal(at.used[BRAKE_FRONT], at.used[BRAKE_REAR]);
        const double k = any_between(&cases, 0.1, 0.8);
        const struct brake_lock lock = brake_balance_lock(&b, k);
        const struct brake_balance_state there = brake_balance_at(&b, lock.pressure);
        /* The wheels that are braked use all that the road gives them, whatever the shares. */
        double grip = 0.0;
        double asked = 0.0;
        for (int axle = 0; axle < BRAKE_AXLES; axle++) {
            const double wheels = b.axle[axle].wheels;
            const double radius = b.axle[axle].radius;
            grip += k * wheels * there.load[axle];
            asked += there.force[axle] + b.rolling * wheels * there.load[axle];
            /* Wheels without brakes turn free. */
            asked += (1.0 - wheels) * b.axle[axle].inertia * there.deceleration / radius / radius;
        }
        assert_near(asked, grip, 1e-10);
        assert_near(there.used[BRAKE_FRONT], k, 1e-10);
        assert_int_equal(lock.axle, BRAKE_FRONT); /* both: the front is named */
        assert_infinite(brake_balance_rear_first(&b, 0.0));
        b.axle[BRAKE_FRONT].wheels = 1.0;
        b.axle[BRAKE_REAR].wheels = 1.0;
        const struct brake_lock whole = brake_balance_lock(&b, k);
        assert_near(whole.deceleration, k * BRAKE_GRAVITY, 1e-10);
        /* Free axles lock no later. */
        b.locked = false;
        assert_true(brake_balance_lock(&b, k).pressure <= whole.pressure * (1.0 + 1e-12));
    }
}

/* One road at a time or many at once: the same to the bit. Follows from the definition. */
static void many_roads_at_once_give_the_same_locks(void **state)
{
    (void)state;
    static const double adhesion[] = {0.1, 0.35, 0.6, 0.85};
    struct cases cases = {121};
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        struct brake_balance b = any_vehicle(&cases);
        struct brake_lock lock[4];
        b.locked = any_between(&cases, 0.0, 1.0) < 0.3;
        brake_balance_locks(&b, adhesion, 4, lock);
        for (int road = 0; road < 4; road++) {
            const struct brake_lock alone = brake_balance_lock(&b, adhesion[road]);
            assert_equal(lock[road].pressure, alone.pressure);
            assert_equal(lock[road].deceleration, alone.deceleration);
            assert_int_equal(lock[road].axle, alone.axle);
        }
    }
}

/* An axle that no circuit brakes is held by the drive: all four wheels use the road. Follows from
 * equal torque on both sides of an open differential. */
static void a_locked_drive_holds_an_axle_that_has_no_brakes(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.locked = true;
    b.axle[BRAKE_FRONT].gain = 0.0;
    b.axle[BRAKE_FRONT].wheels = 0.0;
    assert_near(brake_balance_lock(&b, 0.5).deceleration, 0.5 * BRAKE_GRAVITY, ROUNDING);
    b.axle[BRAKE_REAR].wheels = 0.5; /* one wheel braked, the other runs free */
    assert_true(brake_balance_lock(&b, 0.5).deceleration < 0.5 * BRAKE_GRAVITY);
}

/* a = g x/h: moment about the front tyres with no load on the rear ones. */
static void no_stop_goes_beyond_the_rear_leaving_the_road(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.body.height = 2.0;
    b.axle[BRAKE_REAR].gain = 0.0;
    const double lift = BRAKE_GRAVITY * b.body.behind / b.body.height;
    const struct brake_lock lock = brake_balance_lock(&b, 1.2);
    assert_near(lock.deceleration, lift, ROUNDING);
    assert_int_equal(lock.axle, BRAKE_REAR);
    assert_near(brake_balance_deceleration(&b, 20e6, 1.2, 0.0), lift, ROUNDING);
    assert_near(brake_balance_deceleration(&b, 20e6, 1.2, 1.0), lift, ROUNDING);
    b.locked = true;
    assert_near(brake_balance_deceleration(&b, 20e6, 1.2, 0.0), lift, ROUNDING);
}

/* Both axles kept: all that the road gives is k m g, rolling included. At first lock likewise. */
static void rolling_adds_nothing_to_what_tyres_can_give(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.rolling = 0.02;
    assert_near(brake_balance_deceleration(&b, 60e6, 0.8, 0.75), 0.6 * BRAKE_GRAVITY, ROUNDING);
    const struct brake_lock lock = brake_balance_lock(&b, 0.7);
    assert_near(brake_balance_at(&b, lock.pressure).used[lock.axle], 0.7, ROUNDING);
    b.locked = true;
    assert_near(brake_balance_lock(&b, 0.7).deceleration, 0.7 * BRAKE_GRAVITY, ROUNDING);
}

/* J = 20 kg of the front axle, 10 kg a wheel: the braked one slows its own, the other one turns
 * free and pulls its own 10 a on. */
static void a_wheel_without_brakes_is_no_load_of_the_braked_one(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.axle[BRAKE_FRONT] = (struct brake_axle_brakes){
        .gain = 4e-4, .radius = 0.4, .inertia = 3.2, .wheels = 0.5}; /* J = 20 kg */
    b.axle[BRAKE_REAR].gain = 0.0;
    b.axle[BRAKE_REAR].wheels = 0.0;
    const struct brake_balance_state at = brake_balance_at(&b, 4e6); /* T/r = 4000 N */
    assert_near(at.deceleration, 4000.0 / 2020.0, ROUNDING);
    assert_near(at.force[BRAKE_FRONT], 4000.0 - 20.0 * at.deceleration, ROUNDING);
    assert_near(at.used[BRAKE_FRONT],
                (4000.0 - 10.0 * at.deceleration) / (0.5 * at.load[BRAKE_FRONT]), ROUNDING);
}

/* ---- a chamber at the end of its stroke ----------------------------------------------------- */

/* Torque of one circuit on an axle at its own pressure: the equations of the file head with two
 * circuits, each with a front and a rear line of its own. */
static double circuit_torque(const struct brake_balance *b, int axle, double share, double pressure)
{
    const bool cut = axle == BRAKE_REAR && pressure > b->valve.knee;
    const double at = cut ? b->valve.knee + b->valve.slope * (pressure - b->valve.knee) : pressure;
    return share * b->axle[axle].gain * fmax(0.0, at - b->axle[axle].threshold);
}

/* Deceleration, and by how much the wheel that is asked most asks for more than it has. */
static double two_circuits(const struct brake_balance *b, double pressure, double adhesion,
                           double *deceleration)
{
    const double held = fmin(pressure, b->hold.from);
    double force = b->rolling * b->body.mass * BRAKE_GRAVITY;
    double mass = b->body.mass;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_axle_brakes *axle = &b->axle[i];
        force += (circuit_torque(b, i, axle->held, held) +
                  circuit_torque(b, i, 1.0 - axle->held, pressure)) /
                 axle->radius;
        mass += axle->inertia / axle->radius / axle->radius;
    }
    const double a = *deceleration = force / mass;
    const double front =
        b->body.mass * (BRAKE_GRAVITY * (b->wheelbase - b->body.behind) + a * b->body.height) /
            b->wheelbase +
        wheel_shift(b) * a;
    const double load[] = {front, b->body.mass * BRAKE_GRAVITY - front};
    double most = -load[BRAKE_REAR];
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_axle_brakes *axle = &b->axle[i];
        const bool apart = axle->held_wheels < 1.0;
        const double torque = apart && axle->held > 0.0
                                  ? circuit_torque(b, i, 1.0, pressure)
                                  : circuit_torque(b, i, axle->held, held) +
                                        circuit_torque(b, i, 1.0 - axle->held, pressure);
        const double asked = (torque - axle->inertia * a / axle->radius) / axle->radius;
        most = fmax(most, asked - (adhesion - b->rolling) * load[i]);
    }
    return most;
}

static struct brake_balance any_held(struct cases *cases)
{
    /* Splits II, II, X, HI, HI, LL: shares of torque and wheels of the held circuit. */
    static const double held[][4] = {{1, 1, 0, 0},   {0, 0, 1, 1},   {0.5, 0.5, 0.5, 0.5},
                                     {0.5, 1, 1, 1}, {0.5, 1, 0, 0}, {0.5, 1, 0.5, 0.5}};
    const double *one = held[(int)any_between(cases, 0.0, 5.999)];
    struct brake_balance b = any_vehicle(cases);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        b.axle[i].wheels = 1.0;
        b.axle[i].held = one[2 * i];
        b.axle[i].held_wheels = one[2 * i + 1];
    }
    b.hold.from = any_between(cases, 0.0, 8e6);
    b.hold.to = b.hold.from + any_between(cases, 0.0, 12e6);
    return b;
}

/* Balance of the forces on the floating piston: reference/method.md, section 4. */
static void a_chamber_at_its_end_holds_its_circuit_and_the_other_goes_on(void **state)
{
    (void)state;
    struct cases cases = {31};
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        const struct brake_balance b = any_held(&cases);
        const double pressure = any_between(&cases, 0.0, 1.0) * b.hold.to;
        double a;
        (void)two_circuits(&b, pressure, 0.8, &a);
        assert_near(brake_balance_at(&b, pressure).deceleration, a, 1e-9 * (1.0 + fabs(a)));
    }
}

static void the_wheel_whose_circuit_goes_on_locks_first(void **state)
{
    (void)state;
    struct cases cases = {32};
    int within = 0;
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        const struct brake_balance b = any_held(&cases);
        const double adhesion = any_between(&cases, 0.2, 1.0);
        const double lock = brake_balance_lock(&b, adhesion).pressure;
        double a;
        if (lock > b.hold.to || lock < 1e3)
            continue;
        const double weight = b.body.mass * BRAKE_GRAVITY;
        within += lock > b.hold.from;
        assert_true(fabs(two_circuits(&b, lock, adhesion, &a)) < 1e-9 * weight);
        for (double part = 0.02; part < 0.99; part += 0.04)
            assert_true(two_circuits(&b, part * lock, adhesion, &a) < 0.0);
    }
    assert_true(within > RANDOM_VEHICLES / 10);
}

/* Beyond both ends nothing is reached: there torque rises as if no chamber ended, so that what it
 * lacks stays what it is, and goes to nothing with the distance between both ends. */
static void beyond_both_ends_what_the_held_circuit_lacks_stays_the_same(void **state)
{
    (void)state;
    struct cases cases = {33};
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        const struct brake_balance b = any_held(&cases);
        struct brake_balance even = b;
        even.hold.to = even.hold.from;
        const double beyond = b.hold.to + any_between(&cases, 0.0, 5e6);
        for (int j = 0; j < BRAKE_AXLES; j++) {
            const enum brake_axle axle = (enum brake_axle)j;
            const double lacks =
                brake_axle_torque(&even, axle, b.hold.to) - brake_axle_torque(&b, axle, b.hold.to);
            assert_near(brake_axle_torque(&even, axle, beyond) -
                            brake_axle_torque(&b, axle, beyond),
                        lacks, 1e-9 * (1.0 + lacks));
        }
    }
}

/* Each wheel of an axle that hangs on both circuits is watched by itself: what it gives is the
 * lesser of what its own pressure and what the road allow. */
static void an_antilock_keeps_each_wheel_of_a_held_axle(void **state)
{
    (void)state;
    struct cases cases = {34};
    int apart = 0;
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        const struct brake_balance b = any_held(&cases);
        const double pressure = any_between(&cases, 0.3, 1.0) * b.hold.to;
        const double grip = 0.8 * any_between(&cases, 0.3, 1.0);
        const struct brake_balance_state at = brake_balance_kept(&b, pressure, grip / 0.8, 0.8);
        double sum = b.rolling * b.body.mass * BRAKE_GRAVITY;
        if (at.load[BRAKE_REAR] <= 1.0)
            continue;
        for (int j = 0; j < BRAKE_AXLES; j++) {
            const struct brake_axle_brakes *axle = &b.axle[j];
            const bool differ = axle->held_wheels == 0.5;
            const double held = circuit_torque(&b, j, 1.0, fmin(pressure, b.hold.from));
            const double on = circuit_torque(&b, j, 1.0, pressure);
            const double share = differ ? 0.5 : axle->held;
            const double wheels[] = {differ ? held : share * held + (1.0 - share) * on,
                                     differ ? on : share * held + (1.0 - share) * on};
            for (int side = 0; side < 2; side++) {
                const double asked =
                    (wheels[side] - axle->inertia * at.deceleration / axle->radius) / axle->radius;
                sum += 0.5 * fmin(asked, (grip - b.rolling) * at.load[j]);
            }
            apart += differ && held < on;
        }
        assert_near(sum, b.body.mass * at.deceleration, 1e-8 * b.body.mass);
    }
    assert_true(apart > RANDOM_VEHICLES / 10);
}

static void hold_crossing(const struct brake_balance *b, double crossing)
{
    const double pressure = brake_balance_pressure(b, crossing);
    const struct brake_balance_state at = brake_balance_at(b, pressure);
    const double step = 1e-6 * pressure;
    const struct brake_balance_state before = brake_balance_at(b, pressure - step);
    const struct brake_balance_state after = brake_balance_at(b, pressure + step);
    assert_near(at.used[BRAKE_FRONT], at.used[BRAKE_REAR], 1e-8);
    assert_true(before.used[BRAKE_REAR] < before.used[BRAKE_FRONT]);
    assert_true(after.used[BRAKE_REAR] > after.used[BRAKE_FRONT]);
}

/* ---- electronic distribution ----------------------------------------------------------------- */

/* Limpert, ch. 7, and Mannering and Washburn, ch. 2, eq. 2.30: both axles use the same adhesion
 * when the front has (L - x + z h)/L of the force; then all of the road is used, a = k g. Alike the
 * rear would lead from the start. */
static void distribution_follows_the_ideal_share(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.regulated = true;
    b.axle[BRAKE_FRONT].gain = b.axle[BRAKE_REAR].gain = 5e-4;
    for (double k = 0.1; k < 1.15; k += 0.1) {
        const double share = (2.5 - 1.2 + k * 0.8) / 2.5;
        const double front = share * k * 2000.0 * BRAKE_GRAVITY;
        const struct brake_lock lock = brake_balance_lock(&b, k);
        assert_near(lock.deceleration, k * BRAKE_GRAVITY, 1e-12);
        assert_near(lock.pressure, front * 0.4 / 5e-4, 1e-12);
        assert_int_equal(lock.axle, BRAKE_FRONT);
        assert_near(brake_balance_pressure(&b, k * BRAKE_GRAVITY), lock.pressure, 1e-12);
        assert_near(brake_axle_torque(&b, BRAKE_REAR, lock.pressure),
                    (1.0 - share) * k * 2000.0 * BRAKE_GRAVITY * 0.4, 1e-11);
    }
    assert_infinite(brake_balance_rear_first(&b, 0.0));
    /* The rear leaves the road when all load is in front: a = x/h g. */
    const struct brake_lock lifted = brake_balance_lock(&b, 1.6);
    assert_near(lifted.deceleration, 1.2 / 0.8 * BRAKE_GRAVITY, 1e-11);
    assert_int_equal(lifted.axle, BRAKE_REAR);
}

/* It takes off what the rear would use beyond the front, and nothing else. */
static void distribution_never_lets_the_rear_lead(void **state)
{
    (void)state;
    struct cases cases = {31};
    int held = 0;
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        struct brake_balance b = any_vehicle(&cases);
        const struct brake_balance open = b;
        b.regulated = true;
        const double pressure = any_between(&cases, 1e6, 15e6);
        const struct brake_balance_state as = brake_balance_at(&open, pressure);
        const struct brake_balance_state is = brake_balance_at(&b, pressure);
        if (!(as.load[BRAKE_REAR] > 0.0) || !(is.load[BRAKE_REAR] > 0.0))
            continue;
        if (as.used[BRAKE_REAR] <= as.used[BRAKE_FRONT]) {
            assert_equal(is.deceleration, as.deceleration);
            assert_equal(is.force[BRAKE_REAR], as.force[BRAKE_REAR]);
            continue;
        }
        held++;
        assert_near(is.used[BRAKE_REAR], is.used[BRAKE_FRONT], 1e-9);
        assert_true(is.deceleration < as.deceleration);
        const double sum = is.force[0] + is.force[1] + b.rolling * b.body.mass * BRAKE_GRAVITY;
        assert_near(sum, b.body.mass * is.deceleration, 1e-9);
        assert_near(brake_balance_pressure(&b, is.deceleration), pressure, 1e-9);
    }
    assert_true(held > RANDOM_VEHICLES / 4);
}

/* Where a front locks under electronic distribution it uses all of the road there is for the wheels
 * that are braked, of one as of both; elsewhere the rear leaves the road. */
static void distribution_locks_where_the_road_is_used_up(void **state)
{
    (void)state;
    struct cases cases = {35};
    int one_wheel = 0;
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        struct brake_balance b = any_vehicle(&cases);
        b.regulated = true;
        const double adhesion = any_between(&cases, 0.2, 1.0);
        const struct brake_lock lock = brake_balance_lock(&b, adhesion);
        if (isinf(lock.pressure) || lock.pressure == 0.0)
            continue;
        const struct brake_balance_state at = brake_balance_at(&b, lock.pressure);
        assert_near(at.deceleration, lock.deceleration, 1e-9);
        if (lock.axle == BRAKE_REAR) {
            assert_within(at.load[BRAKE_REAR], 0.0, 1e-6);
            continue;
        }
        assert_near(at.used[BRAKE_FRONT], adhesion, 1e-9);
        one_wheel += b.axle[BRAKE_FRONT].wheels == 0.5;
    }
    assert_true(one_wheel > RANDOM_VEHICLES / 20);
}

/* What lets no more through than an anti-lock keeps takes nothing from it; where the front does not
 * brake, or both axles turn together, there is nothing to compare. */
static void distribution_takes_nothing_from_an_anti_lock(void **state)
{
    (void)state;
    struct cases cases = {32};
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        struct brake_balance b = any_vehicle(&cases);
        const struct brake_balance open = b;
        b.regulated = true;
        const double pressure = any_between(&cases, 0.0, 15e6);
        const double k = any_between(&cases, 0.2, 1.1);
        const struct brake_balance_state as = brake_balance_kept(&open, pressure, k, 0.9);
        const struct brake_balance_state is = brake_balance_kept(&b, pressure, k, 0.9);
        const double free = brake_balance_at(&b, pressure).deceleration;
        assert_near(is.deceleration, fmin(as.deceleration, free), ROUNDING);
        const struct brake_balance_state at = brake_balance_at(&b, pressure);
        for (int j = 0; j < BRAKE_AXLES && at.load[BRAKE_REAR] > 0.0 && pressure > 1e6; j++) {
            const double alone = as.deceleration < free ? as.force[j] : at.force[j];
            assert_within(is.force[j], alone, 1e-9 * b.body.mass * BRAKE_GRAVITY);
        }
        struct brake_balance loose = b;
        loose.axle[BRAKE_FRONT].gain = 0.0;
        struct brake_balance rear = open;
        rear.axle[BRAKE_FRONT].gain = 0.0;
        assert_equal(brake_balance_at(&loose, pressure).deceleration,
                     brake_balance_at(&rear, pressure).deceleration);
        b.locked = true;
        struct brake_balance stiff = open;
        stiff.locked = true;
        assert_equal(brake_balance_lock(&b, k).pressure, brake_balance_lock(&stiff, k).pressure);
    }
    struct brake_balance b = plain;
    b.regulated = true;
    assert_nan(brake_balance_pressure(&b, BRAKE_NAN));
    assert_nan(brake_balance_lock(&b, BRAKE_NAN).deceleration);
    assert_nan(brake_balance_at(&b, BRAKE_NAN).deceleration);
    b.axle[BRAKE_FRONT].radius = BRAKE_NAN;
    assert_nan(brake_balance_pressure(&b, 3.0));
}

/* Of the plain vehicle with equal brakes, whose rear has a wheel on each circuit, of which one ends
 * at 2 MPa, and its front too when that is so: Newton's law where each rear wheel gives the lesser
 * of its torque over its radius and of what the stronger front wheel uses of the road times the
 * wheel's load, halved down to the root. */
static double each_wheel_kept(double pressure, bool front_too, int *kept)
{
    const double on = 5e-4 * pressure / 0.4;
    const double own[] = {on / 2.0, 5e-4 * fmin(pressure, 2e6) / 0.4 / 2.0};
    const double front = front_too ? own[0] + own[1] : on;
    double range[] = {0.0, 1.2 / 0.8 * BRAKE_GRAVITY};
    for (int i = 0; i < 100; i++) {
        const double a = (range[0] + range[1]) / 2.0;
        const double on_front = 2000.0 * (1.3 * BRAKE_GRAVITY + 0.8 * a) / 2.5;
        const double most = on / on_front * (2000.0 * BRAKE_GRAVITY - on_front) / 2.0;
        const double rear = fmin(own[0], most) + fmin(own[1], most);
        *kept = (own[0] > most) + (own[1] > most);
        range[2000.0 * a < front + rear ? 0 : 1] = a;
    }
    return range[0];
}

/* reference/method.md, electronic distribution: wheel by wheel where one circuit of the rear is at
 * its end: the wheel that goes on is kept first. */
static void distribution_keeps_each_rear_wheel_of_a_held_axle(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    int times[3] = {0, 0, 0};
    b.regulated = true;
    b.axle[BRAKE_FRONT].gain = b.axle[BRAKE_REAR].gain = 5e-4;
    b.axle[BRAKE_REAR].held = b.axle[BRAKE_REAR].held_wheels = 0.5;
    b.hold = (struct brake_hold){2e6, 50e6};
    for (double pressure = 0.5e6; pressure < 12e6; pressure += 0.25e6) {
        int kept;
        const double a = each_wheel_kept(pressure, false, &kept);
        times[kept]++;
        assert_near(brake_balance_at(&b, pressure).deceleration, a, 1e-12);
        struct brake_balance crossed = b;
        crossed.axle[BRAKE_FRONT].held = crossed.axle[BRAKE_FRONT].held_wheels = 0.5;
        assert_near(brake_balance_at(&crossed, pressure).deceleration,
                    each_wheel_kept(pressure, true, &kept), 1e-12);
    }
    assert_true(times[1] > 0 && times[2] > 0);
}

/* 2 MPa and no more at any wheel: (8e-4 + 2e-4) 2e6/(0.4 2000) = 2.5 m/s2 by Newton's law, which
 * locks nothing where the road allows 9.8. */
static void distribution_locks_nothing_where_the_pressure_ends(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.regulated = true;
    b.hold = (struct brake_hold){2e6, BRAKE_INFINITY};
    b.axle[BRAKE_FRONT].held = b.axle[BRAKE_REAR].held = 1.0;
    b.axle[BRAKE_FRONT].held_wheels = b.axle[BRAKE_REAR].held_wheels = 1.0;
    assert_near(brake_balance_at(&b, 20e6).deceleration, 2.5, ROUNDING);
    const struct brake_lock lock = brake_balance_lock(&b, 1.0);
    assert_infinite(lock.pressure);
    assert_infinite(lock.deceleration);
    assert_int_equal(lock.axle, BRAKE_FRONT);
}

static void where_the_rear_takes_the_lead_both_use_the_same(void **state)
{
    (void)state;
    struct cases cases = {13};
    int crossings = 0;
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        const struct brake_balance b = any_vehicle(&cases);
        const double from = any_between(&cases, 1.0, 6.0);
        const struct brake_balance_state begin =
            brake_balance_at(&b, brake_balance_pressure(&b, from));
        const double crossing = brake_balance_rear_first(&b, from);
        if (begin.used[BRAKE_REAR] > begin.used[BRAKE_FRONT]) {
            assert_near(crossing, from, ROUNDING);
            continue;
        }
        if (isinf(crossing)) {
            /* Load moves off the rear until nothing is left: it leads in the end, unless its brakes
             * do no more than slow its own wheels when it leaves the road. */
            const double lift = BRAKE_GRAVITY * b.body.behind / b.body.height;
            const double pressure = brake_balance_pressure(&b, lift);
            assert_true(brake_balance_at(&b, pressure).force[BRAKE_REAR] <= 1e-9);
            continue;
        }
        assert_true(crossing >= from);
        hold_crossing(&b, crossing);
        crossings++;
        /* It is the first: in between the front leads. */
        for (double part = 0.05; part < 0.99; part += 0.1) {
            const struct brake_balance_state between =
                brake_balance_at(&b, brake_balance_pressure(&b, from + part * (crossing - from)));
            assert_true(between.used[BRAKE_REAR] <= between.used[BRAKE_FRONT]);
        }
    }
    assert_true(crossings > RANDOM_VEHICLES / 4);
}

/* Wong, ch. 3: z = (K_f L - l_2) / h. At no pressure both axles use nothing; that must not pass for
 * a lead of the rear. */
static void a_front_biased_vehicle_leads_at_the_front_from_the_first_pressure_on(void **state)
{
    (void)state;
    const double z = (0.8 * 2.5 - 1.3) / 0.8;
    assert_near(brake_balance_rear_first(&plain, 0.0), z * BRAKE_GRAVITY, 1e-11);
    assert_near(brake_balance_rear_first(&plain, 3.0), z * BRAKE_GRAVITY, 1e-11);
    /* Thresholds keep both brakes quiet at first. */
    struct brake_balance b = plain;
    b.axle[BRAKE_FRONT].threshold = 0.3e6;
    b.axle[BRAKE_REAR].threshold = 0.3e6;
    assert_near(brake_balance_rear_first(&b, 0.0), z * BRAKE_GRAVITY, 1e-11);
}

static void a_rear_that_leads_already_leads_from_where_the_question_begins(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.axle[BRAKE_REAR].gain = b.axle[BRAKE_FRONT].gain;
    assert_near(brake_balance_rear_first(&b, 2.0), 2.0, ROUNDING);
    assert_equal(brake_balance_rear_first(&b, 0.0), 0.0);
    /* Past the crossing as well. */
    assert_near(brake_balance_rear_first(&plain, 9.5), 9.5, ROUNDING);
}

static void a_late_front_brake_takes_the_lead_and_loses_it_again(void **state)
{
    (void)state;
    /* The rear alone at first, then the front strongly, then the load transfer decides. */
    struct brake_balance b = plain;
    b.axle[BRAKE_FRONT].threshold = 0.5e6;
    assert_equal(brake_balance_rear_first(&b, 0.0), 0.0);
    const double again = brake_balance_rear_first(&b, 3.0);
    assert_true(again > 3.0);
    hold_crossing(&b, again);
}

static void a_valve_puts_the_lead_of_the_rear_off(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.axle[BRAKE_REAR].gain = 5e-4;
    const double without = brake_balance_rear_first(&b, 1.0);
    b.valve.knee = 1e6;
    b.valve.slope = 0.3;
    const double with = brake_balance_rear_first(&b, 1.0);
    assert_true(with > without);
    hold_crossing(&b, with);
    /* The crossing lies on the piece after the knee. */
    assert_true(with > brake_balance_at(&b, b.valve.knee).deceleration);
}

static void the_rear_never_leads(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.axle[BRAKE_REAR].gain = 0.0;
    assert_infinite(brake_balance_rear_first(&b, 0.0)); /* no rear brake */
    b = plain;
    b.body.height = 0.0;
    assert_infinite(brake_balance_rear_first(&b, 0.0)); /* no load moves */
    b = plain;
    b.valve.knee = 1e6;
    b.valve.slope = 0.0;
    b.axle[BRAKE_FRONT].gain = 0.0;
    assert_infinite(brake_balance_rear_first(&b, 5.0)); /* the deceleration is out of reach */
    b = plain;
    b.body = (struct brake_body){.mass = 2000.0, .behind = 1.25, .height = 0.0};
    b.axle[BRAKE_REAR] = b.axle[BRAKE_FRONT];
    assert_infinite(brake_balance_rear_first(&b, 0.0)); /* both axles are alike in all */
    b = plain;
    b.axle[BRAKE_REAR].gain = 0.0;
    b.axle[BRAKE_REAR].drag = 300.0;
    assert_infinite(brake_balance_rear_first(&b, 0.0)); /* an engine that drags it is no brake */
}

static void without_antilock_the_first_lock_is_the_limit(void **state)
{
    (void)state;
    struct cases cases = {14};
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        const struct brake_balance b = any_vehicle(&cases);
        const double k = any_between(&cases, 0.2, 1.0);
        const double pressure = any_between(&cases, 0.0, 15e6);
        const struct brake_lock lock = brake_balance_lock(&b, k);
        const double a = brake_balance_deceleration(&b, pressure, k, 0.0);
        if (pressure < lock.pressure)
            assert_near(a, brake_balance_at(&b, pressure).deceleration, ROUNDING);
        else
            assert_near(a, lock.deceleration, ROUNDING);
    }
}

static void with_antilock_the_deceleration_lies_between_lock_and_the_road(void **state)
{
    (void)state;
    struct cases cases = {15};
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        const struct brake_balance b = any_vehicle(&cases);
        const double k = any_between(&cases, 0.2, 1.0);
        const double kept = any_between(&cases, 0.7, 1.0);
        const struct brake_lock lock = brake_balance_lock(&b, kept * k);
        const double road = (kept * k + b.rolling) * BRAKE_GRAVITY;
        double last = 0.0;
        for (double pressure = 0.0; pressure <= 40e6; pressure += 0.5e6) {
            const double a = brake_balance_deceleration(&b, pressure, k, kept);
            assert_true(a >= last * (1.0 - 1e-12));
            assert_true(a <= road * (1.0 + 1e-12));
            if (pressure <= lock.pressure)
                assert_near(a, brake_balance_at(&b, pressure).deceleration, ROUNDING);
            else
                assert_true(a >= lock.deceleration * (1.0 - 1e-12));
            last = a;
        }
    }
}

/* Each axle gives the lesser of its torque and its kept adhesion; checked on the result. */
static void with_antilock_each_axle_gives_what_it_can(void **state)
{
    (void)state;
    struct cases cases = {16};
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        struct brake_balance b = any_vehicle(&cases);
        /* Far outside any vehicle as well: strong front brakes on a short, tall body. */
        b.axle[BRAKE_FRONT].gain *= any_between(&cases, 0.3, 6.0);
        b.body.height *= any_between(&cases, 0.5, 2.0);
        const double kept = any_between(&cases, 0.2, 1.0);
        const double pressure = any_between(&cases, 0.0, 20e6);
        const double a = brake_balance_deceleration(&b, pressure, kept, 1.0);
        const double weight = b.body.mass * BRAKE_GRAVITY;
        const double front = brake_front_load(b.body, b.wheelbase, a, 0.0) + wheel_shift(&b) * a;
        const double load[BRAKE_AXLES] = {front, weight - front};
        double force = 0.0;
        for (int axle = 0; axle < BRAKE_AXLES; axle++) {
            const double radius = b.axle[axle].radius;
            const double wheels = b.axle[axle].wheels;
            const double turning = b.axle[axle].inertia * a / radius / radius;
            const double rolling = b.rolling * load[axle];
            const double torque = brake_axle_torque(&b, (enum brake_axle)axle, pressure);
            /* The wheels that are braked, then those that are not. */
            force += fmin(torque / radius - wheels * turning + wheels * rolling,
                          kept * wheels * load[axle]);
            force += (1.0 - wheels) * (rolling - turning);
        }
        /* The rear leaving the road ends it. */
        if (load[BRAKE_REAR] < 1e-9 * weight)
            assert_true(force >= b.body.mass * a * (1.0 - 1e-9));
        else
            assert_within(force, b.body.mass * a, 1e-11 * weight);
    }
}

/* Given random vehicles and a foot that does not ease off, then forces balance with each axle
 * either turning, at no more than the peak, or locked at its sliding friction, no mass of it
 * turning. */
static void an_axle_past_the_peak_slides(void **state)
{
    (void)state;
    struct cases cases = {17};
    int sliding[BRAKE_AXLES + 1] = {0};
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        struct brake_balance b = any_vehicle(&cases);
        b.locked = i % 4 == 0;
        b.axle[BRAKE_FRONT].wheels = b.axle[BRAKE_REAR].wheels = 1.0;
        const double k = any_between(&cases, 0.3, 1.0);
        const double slid = any_between(&cases, 0.6, 1.0);
        const double pressure = any_between(&cases, 0.0, 20e6);
        const double a = brake_balance_sliding(&b, pressure, k, slid);
        const double weight = b.body.mass * BRAKE_GRAVITY;
        const double front = brake_front_load(b.body, b.wheelbase, a, 0.0) + wheel_shift(&b) * a;
        const double load[BRAKE_AXLES] = {front, weight - front};
        double turning[BRAKE_AXLES];
        bool found = load[BRAKE_REAR] < 1e-9 * weight;
        for (int axle = 0; axle < BRAKE_AXLES; axle++)
            turning[axle] = (brake_axle_torque(&b, (enum brake_axle)axle, pressure) -
                             b.axle[axle].inertia * a / b.axle[axle].radius) /
                            b.axle[axle].radius;
        for (int locked = 0; locked < 4; locked++) {
            double force = 0.0;
            for (int axle = 0; axle < BRAKE_AXLES; axle++)
                force += (locked >> axle & 1) != 0 ? slid * k * load[axle]
                                                   : turning[axle] + b.rolling * load[axle];
            if (fabs(force - b.body.mass * a) < 1e-11 * weight) {
                sliding[(locked & 1) + (locked >> 1)]++;
                found = true;
                break;
            }
        }
        assert_true(found);
    }
    for (int axles = 0; axles <= BRAKE_AXLES; axles++)
        assert_true(sliding[axles] > 0);
}

/* Strong front brakes on a tall, rear-heavy body: the free deceleration would lift the rear, but
 * with the front held by the anti-lock the rear stays on the road and keeps its small torque. */
static void an_axle_that_only_seemed_to_lock_is_not_held(void **state)
{
    (void)state;
    const struct brake_balance b = {
        .body = {.mass = 1000.0, .behind = 1.6, .height = 1.2},
        .wheelbase = 2.0,
        .axle = {{.gain = 2.0 * BRAKE_GRAVITY * 1e-3, .radius = 1.0, .wheels = 1.0},
                 {.gain = 0.1 * BRAKE_GRAVITY * 1e-3, .radius = 1.0, .wheels = 1.0}},
        .valve = {.knee = BRAKE_INFINITY},
    };
    /* Over m g: k (0.2 + 0.6 z) + 0.1 = z at k = 1. */
    assert_near(brake_balance_deceleration(&b, 1e6, 1.0, 1.0), 0.75 * BRAKE_GRAVITY, ROUNDING);
}

/* k h / L of 1 and more: the front axle gains load faster than it can use it. */
static void a_front_axle_that_cannot_be_held_is_limited_by_torque(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.body.height = 3.0;
    b.axle[BRAKE_REAR].gain = 0.0;
    const double a = brake_balance_at(&b, 2e6).deceleration;
    assert_near(brake_balance_deceleration(&b, 2e6, 1.0, 1.0), a, ROUNDING);
    assert_infinite(brake_lock_ratio(b.body, b.wheelbase, 1.0, 0.0, 1.0, BRAKE_FRONT));
}

static void antilock_keeps_a_locked_drive_at_its_share_of_the_road(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.locked = true;
    assert_near(brake_balance_deceleration(&b, 20e6, 0.8, 0.0), 0.8 * BRAKE_GRAVITY, ROUNDING);
    assert_near(brake_balance_deceleration(&b, 20e6, 0.8, 0.9), 0.72 * BRAKE_GRAVITY, ROUNDING);
    assert_near(brake_balance_deceleration(&b, 2e6, 0.8, 0.9), 2.5, ROUNDING);
    /* One that lets go of nearly everything is still not one that is missing. */
    assert_near(brake_balance_deceleration(&b, 20e6, 0.8, 0.05), 0.04 * BRAKE_GRAVITY, ROUNDING);
    b.locked = false;
    assert_near(brake_balance_deceleration(&b, 20e6, 0.8, 0.05), 0.04 * BRAKE_GRAVITY, ROUNDING);
}

/* Wong, ch. 3. An axle without brakes never locks; the front is also safe where it gains load
 * faster than brake force. */
static void a_front_axle_that_gains_load_faster_than_force_never_locks(void **state)
{
    (void)state;
    const double shift = 0.9 * plain.body.height / plain.wheelbase;
    assert_infinite(brake_lock_ratio(plain.body, 2.5, 0.0, 0.01, 0.9, BRAKE_FRONT));
    assert_infinite(brake_lock_ratio(plain.body, 2.5, shift, 0.01, 0.9, BRAKE_FRONT));
    assert_true(brake_lock_ratio(plain.body, 2.5, shift * 1.01, 0.01, 0.9, BRAKE_FRONT) > 5.0);
    assert_nan(brake_lock_ratio(plain.body, 2.5, BRAKE_NAN, 0.01, 0.9, BRAKE_FRONT));
    assert_nan(brake_lock_ratio(plain.body, 2.5, 0.6, 0.01, BRAKE_NAN, BRAKE_REAR));
    /* No brake at the rear: it would lock only with no load left, at a = g x / h. */
    assert_near(brake_lock_ratio(plain.body, 2.5, 1.0, 0.0, 0.9, BRAKE_REAR), 1.2 / 0.8, ROUNDING);
}

/* Gillespie, ch. 8. */
static void unequal_front_brakes_pull_at_the_scrub_radius(void **state)
{
    (void)state;
    /* 5 kN and 4 kN: 20 % apart, 1 kN at 30 mm. */
    assert_near(brake_steering_pull(9e3, 0.2, 0.03), 30.0, ROUNDING);
    assert_equal(brake_steering_pull(9e3, 0.0, 0.03), 0.0);
    assert_equal(brake_steering_pull(9e3, 0.2, 0.0), 0.0);
    /* One side dead: all of the force is difference. */
    assert_near(brake_steering_pull(9e3, 1.0, 0.03), 270.0, ROUNDING);
    assert_near(brake_steering_pull(9e3, 0.2, -0.03), -30.0, ROUNDING);
    assert_nan(brake_steering_pull(9e3, BRAKE_NAN, 0.03));
}

static void hold_nan_everywhere(const struct brake_balance *b)
{
    assert_nan(brake_balance_at(b, 5e6).deceleration);
    assert_nan(brake_balance_at(b, 5e6).force[BRAKE_FRONT]);
    assert_nan(brake_balance_at(b, 5e6).used[BRAKE_FRONT]);
    assert_nan(brake_balance_at(b, 5e6).used[BRAKE_REAR]);
    assert_nan(brake_balance_pressure(b, 5.0));
    assert_nan(brake_balance_lock(b, 0.8).pressure);
    assert_nan(brake_balance_lock(b, 0.8).deceleration);
    assert_nan(brake_balance_rear_first(b, 3.0));
    assert_nan(brake_balance_deceleration(b, 5e6, 0.8, 0.0));
    assert_nan(brake_balance_deceleration(b, 5e6, 0.8, 0.9));
}

static void a_missing_value_of_the_vehicle_gives_no_deceleration(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.body.mass = BRAKE_NAN;
    hold_nan_everywhere(&b);
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        b = plain;
        b.axle[axle].gain = BRAKE_NAN;
        hold_nan_everywhere(&b);
        b = plain;
        b.axle[axle].radius = BRAKE_NAN;
        hold_nan_everywhere(&b);
        b = plain;
        b.axle[axle].threshold = BRAKE_NAN;
        hold_nan_everywhere(&b);
        b = plain;
        b.axle[axle].inertia = BRAKE_NAN;
        hold_nan_everywhere(&b);
    }
    b = plain;
    b.valve.knee = BRAKE_NAN;
    hold_nan_everywhere(&b);
    b = plain;
    b.rolling = BRAKE_NAN;
    hold_nan_everywhere(&b);
    /* Where the centre of mass is missing the vehicle still slows, but no load is known. */
    b = plain;
    b.body.height = BRAKE_NAN;
    assert_near(brake_balance_at(&b, 4e6).deceleration, 5.0, ROUNDING);
    assert_nan(brake_balance_at(&b, 4e6).used[BRAKE_REAR]);
    assert_nan(brake_balance_lock(&b, 0.8).pressure);
    assert_nan(brake_balance_deceleration(&b, 5e6, 0.8, 0.0));
    assert_nan(brake_balance_deceleration(&b, 5e6, 0.8, 0.9));
}

static void a_missing_argument_gives_no_answer(void **state)
{
    (void)state;
    assert_nan(brake_balance_at(&plain, BRAKE_NAN).deceleration);
    assert_nan(brake_balance_pressure(&plain, BRAKE_NAN));
    assert_nan(brake_balance_lock(&plain, BRAKE_NAN).pressure);
    assert_nan(brake_balance_rear_first(&plain, BRAKE_NAN));
    assert_nan(brake_balance_deceleration(&plain, BRAKE_NAN, 0.8, 0.0));
    assert_nan(brake_balance_deceleration(&plain, 5e6, BRAKE_NAN, 0.0));
    assert_nan(brake_balance_deceleration(&plain, BRAKE_NAN, 0.8, 0.9));
    assert_nan(brake_balance_deceleration(&plain, 5e6, BRAKE_NAN, 0.9));
    assert_nan(brake_balance_deceleration(&plain, 5e6, 0.8, BRAKE_NAN));
    /* One axle without brakes does not hide that the other's answer is missing. */
    struct brake_balance b = plain;
    b.axle[BRAKE_REAR].gain = 0.0;
    assert_nan(brake_balance_lock(&b, BRAKE_NAN).pressure);
}

/* There and back: the pressure for a deceleration gives it again, far beyond the last bend too.
 * Steps of half a percent leave no gap between the places where the search doubles. */
static void a_pressure_gives_back_its_deceleration(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.axle[BRAKE_REAR].threshold = 0.1e6;
    b.valve = (struct brake_valve){.knee = 2e6, .slope = 0.3};
    for (double a = 0.01; a < 40.0; a *= 1.005)
        assert_near(brake_balance_at(&b, brake_balance_pressure(&b, a)).deceleration, a, 1e-12);
    /* Distribution that takes some off the rear is searched. */
    b.regulated = true;
    b.axle[BRAKE_REAR].gain = 8e-4;
    for (double a = 0.01; a < 14.0; a *= 1.005)
        assert_near(brake_balance_at(&b, brake_balance_pressure(&b, a)).deceleration, a, 1e-12);
}

/* Engine drag is no brake: distribution lets go of the rear brakes down to it, and no further. */
static void distribution_does_not_let_go_of_an_engine(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.regulated = true;
    b.axle[BRAKE_REAR].drag = 3000.0;
    assert_near(brake_axle_torque(&b, BRAKE_REAR, 0.1e6), 3000.0, ROUNDING);
    const struct brake_balance_state at = brake_balance_at(&b, 0.1e6);
    assert_near(at.force[BRAKE_REAR], 3000.0 / 0.4, ROUNDING);
    assert_near(at.deceleration, (3000.0 + 80.0) / 0.4 / 2000.0, ROUNDING);
}

/* A circuit that stays behind leaves one wheel of each axle weaker. On a road that holds all of it
 * an anti-lock has nothing to do; on another the strong wheels have what the road gives, here 0.9 k
 * of their half of the load, and the weak ones all they ask. */
static void an_anti_lock_eases_the_stronger_wheels_alone(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.hold = (struct brake_hold){2e6, 1e9};
    for (int i = 0; i < BRAKE_AXLES; i++)
        b.axle[i].held = b.axle[i].held_wheels = 0.5;
    for (double pressure = 0.5e6; pressure < 9e6; pressure += 0.5e6)
        assert_near(brake_balance_kept(&b, pressure, 5.0, 0.9).deceleration,
                    brake_balance_at(&b, pressure).deceleration, ROUNDING);
    const double pressure = 6e6;
    const struct brake_balance_state at = brake_balance_kept(&b, pressure, 0.5, 0.9);
    const double grip = 0.9 * 0.5 * at.load[BRAKE_FRONT];
    assert_true(8e-4 * pressure / 0.4 > grip);
    assert_near(at.force[BRAKE_FRONT], 0.5 * (grip + 8e-4 * 2e6 / 0.4), 1e-9);
}

/* Deceleration with one axle sliding and the other turning: m a = F_s + F_o, both loads straight in
 * a. */
static double one_slides(const struct brake_balance *b, int slides, double pressure,
                         double friction)
{
    const int other = 1 - slides;
    const struct brake_axle_brakes *axle = &b->axle[other];
    const double weight = b->body.mass * BRAKE_GRAVITY;
    const double still = brake_front_load(b->body, b->wheelbase, 0.0, 0.0);
    const double shift = brake_front_load(b->body, b->wheelbase, 1.0, 0.0) - still + wheel_shift(b);
    const double at_rest[BRAKE_AXLES] = {still, weight - still};
    const double per[BRAKE_AXLES] = {shift, -shift};
    const double force = friction * at_rest[slides] + b->rolling * at_rest[other] +
                         brake_axle_torque(b, (enum brake_axle)other, pressure) / axle->radius;
    return force / (b->body.mass - friction * per[slides] - b->rolling * per[other] +
                    axle->inertia / (axle->radius * axle->radius));
}

/* Up to the pressure of the first lock all wheels turn; past it that axle slides, and the other one
 * only where it would use more than the peak. */
static void no_axle_slides_without_need(void **state)
{
    (void)state;
    struct cases cases = {18};
    int alone = 0;
    int both = 0;
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        struct brake_balance b = any_vehicle(&cases);
        b.axle[BRAKE_FRONT].wheels = b.axle[BRAKE_REAR].wheels = 1.0;
        const double k = any_between(&cases, 0.3, 0.8);
        const struct brake_lock lock = brake_balance_lock(&b, k);
        const double pressure = lock.pressure * any_between(&cases, 0.5, 2.5);
        const double a = brake_balance_sliding(&b, pressure, k, 0.8);
        const double weight = b.body.mass * BRAKE_GRAVITY;
        const double front = brake_front_load(b.body, b.wheelbase, a, 0.0) + wheel_shift(&b) * a;
        if (!isfinite(pressure) || front > (1.0 - 1e-9) * weight)
            continue;
        if (pressure <= lock.pressure) {
            assert_equal(a, brake_balance_at(&b, pressure).deceleration);
            continue;
        }
        const int other = 1 - (int)lock.axle;
        const double turns = one_slides(&b, lock.axle, pressure, 0.8 * k);
        const double load =
            other == BRAKE_FRONT
                ? brake_front_load(b.body, b.wheelbase, turns, 0.0) + wheel_shift(&b) * turns
                : weight - brake_front_load(b.body, b.wheelbase, turns, 0.0) -
                      wheel_shift(&b) * turns;
        const double asks = (brake_axle_torque(&b, (enum brake_axle)other, pressure) -
                             b.axle[other].inertia * turns / b.axle[other].radius) /
                            b.axle[other].radius;
        const bool slides_too = asks > (k - b.rolling) * load;
        assert_near(a, slides_too ? 0.8 * k * BRAKE_GRAVITY : turns, 1e-9);
        both += slides_too;
        alone += !slides_too;
    }
    assert_true(alone > RANDOM_VEHICLES / 10 && both > RANDOM_VEHICLES / 10);
}

/* Given a circuit that failed and with it one wheel of each axle, the wheels that are left slide at
 * half of their axle's load, and the other axle's turns up to the peak on its half: Newton's law
 * for a vehicle without inertia of wheels and rolling. */
static void a_wheel_slides_on_its_own_part_of_the_load(void **state)
{
    (void)state;
    struct cases cases = {20};
    int alone[BRAKE_AXLES] = {0};
    int both = 0;
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        struct brake_balance b = any_vehicle(&cases);
        b.rolling = 0.0;
        for (int axle = 0; axle < BRAKE_AXLES; axle++) {
            b.axle[axle].inertia = 0.0;
            b.axle[axle].wheels = 0.5;
        }
        const double k = any_between(&cases, 0.2, 0.6);
        const struct brake_lock lock = brake_balance_lock(&b, k);
        const double pressure = lock.pressure * any_between(&cases, 1.01, 2.0);
        if (!isfinite(pressure))
            continue;
        const int first = (int)lock.axle;
        const double weight = b.body.mass * BRAKE_GRAVITY;
        const double still[BRAKE_AXLES] = {weight * (1.0 - b.body.behind / b.wheelbase),
                                           weight * b.body.behind / b.wheelbase};
        const double shift = (first == 0 ? 1.0 : -1.0) * b.body.mass * b.body.height / b.wheelbase;
        const double mu = 0.7 * k; /* sliding */
        const double turns = brake_axle_torque(&b, (enum brake_axle)(1 - first), pressure) /
                             b.axle[1 - first].radius;
        const double one =
            (0.5 * mu * still[first] + turns) / (b.body.mass - 0.5 * mu * shift); /* m/s2 */
        const bool slides_too = turns > 0.5 * k * (still[1 - first] - shift * one);
        assert_near(brake_balance_sliding(&b, pressure, k, 0.7),
                    slides_too ? 0.5 * mu * BRAKE_GRAVITY : one, 1e-9);
        both += slides_too;
        alone[first] += !slides_too;
    }
    assert_true(alone[0] > 50 && alone[1] > 50 && both > 50);
}

/* Newton's law for the vehicle, whatever an anti-lock or a driver keeps: tyres and rolling slow its
 * mass; of a tall one too, whose rear would leave the road. */
static void what_is_kept_slows_the_mass(void **state)
{
    (void)state;
    struct cases cases = {19};
    for (int i = 0; i < RANDOM_VEHICLES; i++) {
        struct brake_balance b = any_vehicle(&cases);
        if (i % 3 == 0)
            b.body.height = any_between(&cases, 0.6, 0.9) * b.wheelbase;
        const double pressure = any_between(&cases, 0.0, 30e6);
        const double antilock = i % 2 == 0 ? any_between(&cases, 0.6, 1.0) : 0.0;
        const struct brake_balance_state at =
            brake_balance_kept(&b, pressure, any_between(&cases, 0.2, 1.4), antilock);
        const double weight = b.body.mass * BRAKE_GRAVITY;
        assert_within(at.force[BRAKE_FRONT] + at.force[BRAKE_REAR] + b.rolling * weight,
                      b.body.mass * at.deceleration, 1e-9 * weight);
    }
}

/* An engine that drags the rear alone makes it lead before any brake bears. */
static void a_rear_that_an_engine_drags_leads_from_the_start(void **state)
{
    (void)state;
    struct brake_balance b = plain;
    b.axle[BRAKE_FRONT].threshold = b.axle[BRAKE_REAR].threshold = 1e5;
    b.axle[BRAKE_REAR].drag = 300.0;
    assert_near(brake_balance_rear_first(&b, 0.0), 300.0 / 0.4 / 2000.0, ROUNDING);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(turning_wheels_add_to_the_mass),
        cmocka_unit_test(the_valve_is_in_the_rear_line_only),
        cmocka_unit_test(forces_at_the_tyres_and_rolling_resistance_slow_the_mass),
        cmocka_unit_test(an_engine_in_gear_drags_its_axle_and_turns_with_it),
        cmocka_unit_test(an_engine_in_gear_locks_its_axle_earlier),
        cmocka_unit_test(a_slope_and_the_air_slow_the_vehicle_and_move_its_load),
        cmocka_unit_test(adhesion_used_is_force_over_load),
        cmocka_unit_test(an_axle_off_the_road_uses_more_adhesion_than_there_is),
        cmocka_unit_test(the_least_load_is_a_load),
        cmocka_unit_test(a_valve_pitches_by_what_an_engine_drags_too),
        cmocka_unit_test(pressure_and_deceleration_undo_each_other),
        cmocka_unit_test(many_points_at_once_are_those_one_by_one),
        cmocka_unit_test(what_rolling_resistance_gives_needs_no_pressure),
        cmocka_unit_test(a_deceleration_out_of_reach_needs_infinite_pressure),
        cmocka_unit_test(a_rear_threshold_above_the_knee_is_reached_late_or_never),
        cmocka_unit_test(the_axle_that_locks_uses_exactly_the_adhesion),
        cmocka_unit_test(the_lock_of_a_fixed_share_is_that_of_the_closed_form),
        cmocka_unit_test(nothing_locks_without_brakes),
        cmocka_unit_test(brakes_on_one_axle_lock_that_axle),
        cmocka_unit_test(on_glass_the_first_pressure_that_works_locks),
        cmocka_unit_test(a_symmetric_vehicle_locks_both_axles_together),
        cmocka_unit_test(the_ideal_share_locks_both_axles_at_full_adhesion),
        cmocka_unit_test(with_the_centre_drive_locked_both_axles_use_the_same),
        cmocka_unit_test(many_roads_at_once_give_the_same_locks),
        cmocka_unit_test(a_locked_drive_holds_an_axle_that_has_no_brakes),
        cmocka_unit_test(no_stop_goes_beyond_the_rear_leaving_the_road),
        cmocka_unit_test(rolling_adds_nothing_to_what_tyres_can_give),
        cmocka_unit_test(a_wheel_without_brakes_is_no_load_of_the_braked_one),
        cmocka_unit_test(a_chamber_at_its_end_holds_its_circuit_and_the_other_goes_on),
        cmocka_unit_test(the_wheel_whose_circuit_goes_on_locks_first),
        cmocka_unit_test(beyond_both_ends_what_the_held_circuit_lacks_stays_the_same),
        cmocka_unit_test(an_antilock_keeps_each_wheel_of_a_held_axle),
        cmocka_unit_test(distribution_follows_the_ideal_share),
        cmocka_unit_test(distribution_never_lets_the_rear_lead),
        cmocka_unit_test(distribution_locks_where_the_road_is_used_up),
        cmocka_unit_test(distribution_takes_nothing_from_an_anti_lock),
        cmocka_unit_test(distribution_keeps_each_rear_wheel_of_a_held_axle),
        cmocka_unit_test(distribution_locks_nothing_where_the_pressure_ends),
        cmocka_unit_test(where_the_rear_takes_the_lead_both_use_the_same),
        cmocka_unit_test(a_front_biased_vehicle_leads_at_the_front_from_the_first_pressure_on),
        cmocka_unit_test(a_rear_that_leads_already_leads_from_where_the_question_begins),
        cmocka_unit_test(a_late_front_brake_takes_the_lead_and_loses_it_again),
        cmocka_unit_test(a_valve_puts_the_lead_of_the_rear_off),
        cmocka_unit_test(the_rear_never_leads),
        cmocka_unit_test(without_antilock_the_first_lock_is_the_limit),
        cmocka_unit_test(with_antilock_the_deceleration_lies_between_lock_and_the_road),
        cmocka_unit_test(with_antilock_each_axle_gives_what_it_can),
        cmocka_unit_test(an_axle_past_the_peak_slides),
        cmocka_unit_test(an_axle_that_only_seemed_to_lock_is_not_held),
        cmocka_unit_test(a_front_axle_that_cannot_be_held_is_limited_by_torque),
        cmocka_unit_test(antilock_keeps_a_locked_drive_at_its_share_of_the_road),
        cmocka_unit_test(a_front_axle_that_gains_load_faster_than_force_never_locks),
        cmocka_unit_test(unequal_front_brakes_pull_at_the_scrub_radius),
        cmocka_unit_test(a_missing_value_of_the_vehicle_gives_no_deceleration),
        cmocka_unit_test(a_missing_argument_gives_no_answer),
        cmocka_unit_test(a_pressure_gives_back_its_deceleration),
        cmocka_unit_test(distribution_does_not_let_go_of_an_engine),
        cmocka_unit_test(an_anti_lock_eases_the_stronger_wheels_alone),
        cmocka_unit_test(no_axle_slides_without_need),
        cmocka_unit_test(a_wheel_slides_on_its_own_part_of_the_load),
        cmocka_unit_test(what_is_kept_slows_the_mass),
        cmocka_unit_test(a_rear_that_an_engine_drags_leads_from_the_start),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
