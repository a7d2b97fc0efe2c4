/* SPDX-License-Identifier: MIT */
/* Stops side by side. */
#include "near.h"

#include <stddef.h>
#include <string.h>

#include "brake/balance.h"
#include "brake/parking.h"
#include "brake/pedal.h"
#include "brake/stop.h"
#include "brake/tow.h"
#include "model/lanes.h"

enum { RUNS = 50, ALL = BRAKE_LANES_INTACT | BRAKE_LANES_FAILED };

static double either(struct cases *cases, double one, double other)
{
    return any_between(cases, 0.0, 1.0) < 0.3 ? one : other;
}

/* What is asked by one question alone. */
static void fill_rest(struct cases *cases, int i, struct brake_lane_numbers *n)
{
    for (int j = 0; j < 2; j++) {
        n->rated_axle[j][i] = n->mass[i] * any_between(cases, 0.4, 0.8);
        n->tyres[j][i] = n->mass[i] * any_between(cases, 0.4, 0.8);
        n->circuit[j].gaps[i] = any_between(cases, 0.0, 2e-6);
        n->circuit[j].shoes[i] = any_between(cases, 0.0, 2e-6);
        n->circuit[j].take_up[i] = any_between(cases, 0.0, 2e-6);
        n->circuit[j].compliance[i] = any_between(cases, 0.0, 1e-12);
        n->circuit[j].seating[i] = any_between(cases, 0.0, 1e-6);
        n->circuit[j].hoses[i] = any_between(cases, 0.0, 1e-12);
        n->circuit[j].air[i] = any_between(cases, 0.0, 1e-6);
        n->stroke[j][i] = any_between(cases, 0.01, 0.03);
        n->heat_capacity[j][i] = any_between(cases, 1e3, 1e4);
    }
    n->rated[i] = n->mass[i] * any_between(cases, 0.8, 1.5);
    n->free_play[i] = any_between(cases, 0.0, 0.02);
    n->pedal_travel[i] = any_between(cases, 0.1, 0.2);
    n->reaction_time[i] = any_between(cases, 0.5, 2.0);
    n->trailer_mass[i] = either(cases, 0.0, any_between(cases, 200.0, 3000.0));
    n->trailer_ratio[i] = any_between(cases, 0.2, 0.6);
    n->trailer_working[i] = any_between(cases, 0.0, 1.0);
    n->test_grade[i] = any_between(cases, 0.05, 0.3);
    n->parking_torque[i] = n->mass[i] * any_between(cases, 0.0, 5.0);
    n->parking_on[i] = floor(any_between(cases, 0.0, 3.0));
}

static void fill_lane(struct cases *cases, int i, struct brake_lane_numbers *n)
{
    n->mass[i] = any_between(cases, 800.0, 5000.0);
    n->wheelbase[i] = any_between(cases, 2.0, 4.0);
    n->behind[i] = any_between(cases, 0.35, 0.65) * n->wheelbase[i];
    n->height[i] = any_between(cases, 0.15, 0.4) * n->wheelbase[i];
    n->rolling[i] = any_between(cases, 0.0, 0.02);
    n->knee[i] = either(cases, BRAKE_INFINITY, any_between(cases, 0.0, 8e6));
    n->slope[i] = any_between(cases, 0.0, 1.0);
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        n->wheels[axle].radius[i] = any_between(cases, 0.28, 0.5);
        n->wheels[axle].inertia[i] = any_between(cases, 0.0, 8.0);
        /* 2 to 8 m/s2 by each axle at 10 MPa */
        n->brakes[axle].gain[i] =
            n->mass[i] * any_between(cases, 2.0, 8.0) * n->wheels[axle].radius[i] / 10e6;
        n->brakes[axle].threshold[i] = any_between(cases, 0.0, 0.6e6);
    }
    n->hold_from[i] = either(cases, 0.0, any_between(cases, 1e6, 8e6));
    n->hold_to[i] = n->hold_from[i] > 0.0 ? n->hold_from[i] + any_between(cases, 0.0, 5e6) : 0.0;
    n->held[0].torque[i] = n->held[0].wheels[i] = either(cases, 0.5, 1.0);
    n->held[1].torque[i] = n->held[1].wheels[i] = either(cases, 0.5, 0.0);
    n->ratio[i] = any_between(cases, 3.0, 6.0);
    n->efficiency[i] = any_between(cases, 0.7, 1.0);
    n->booster_gain[i] = either(cases, 1.0, any_between(cases, 1.0, 6.0));
    n->assist[i] = any_between(cases, 0.0, 3000.0);
    n->master_area[i] = any_between(cases, 3e-4, 6e-4);
    n->master_efficiency[i] = any_between(cases, 0.8, 1.0);
    n->pressure_most[i] = either(cases, BRAKE_INFINITY, any_between(cases, 4e6, 15e6));
    n->force[i] = any_between(cases, 0.0, 500.0);
    n->force_most[i] = any_between(cases, 100.0, 1000.0);
    n->adhesion[i] = any_between(cases, 0.1, 1.1);
    n->modulation[i] = any_between(cases, 0.5, 1.0);
    n->speed[i] = any_between(cases, 5.0, 60.0);
    n->dead_time[i] = any_between(cases, 0.0, 0.5);
    n->build_up[i] = any_between(cases, 0.0, 0.5);
    n->target[i] = any_between(cases, 1.0, 8.0);
    n->boosted[i] = either(cases, 0.0, 1.0);
    n->braked[0][i] = either(cases, 0.5, 1.0);
    n->braked[1][i] = either(cases, 0.5, 1.0);
    n->there[i] = either(cases, 0.0, 1.0);
    fill_rest(cases, i, n);
}

static void fill(struct cases *cases, struct brake_lane_numbers *numbers)
{
    memset(numbers, 0, sizeof *numbers);
    for (int i = 0; i < BRAKE_LANES; i++)
        fill_lane(cases, i, numbers);
}

static void the_processor_does_not_change_a_bit_of_the_answers(void **state)
{
    (void)state;
    static struct brake_lane_numbers numbers;
    static struct brake_lane_answers widest, narrow;
    struct cases cases = {7};
    for (int run = 0; run < RUNS; run++) {
        fill(&cases, &numbers);
        brake_lanes_answer(ALL, &numbers, &widest);
        brake_lanes_answer_narrow(ALL, &numbers, &narrow);
        assert_memory_equal(&widest, &narrow, sizeof widest);
        for (int i = 0; i < BRAKE_LANES; i++)
            assert_true(isfinite(widest.at_most[i]) && widest.lock[i] > 0.0);
    }
}

/* None of the valves moves with the body. */
static struct brake_balance balance_of(const struct brake_lane_numbers *n, int i, bool failed)
{
    struct brake_balance balance = {
        .body = {n->mass[i], n->behind[i], n->height[i]},
        .wheelbase = n->wheelbase[i],
        .rolling = n->rolling[i],
        .valve = {n->knee[i], n->slope[i]},
        .hold = {n->hold_from[i], n->hold_to[i]},
    };
    for (int axle = 0; axle < BRAKE_AXLES; axle++)
        balance.axle[axle] = (struct brake_axle_brakes){.gain = n->brakes[axle].gain[i],
                                                        .threshold = n->brakes[axle].threshold[i],
                                                        .radius = n->wheels[axle].radius[i],
                                                        .inertia = n->wheels[axle].inertia[i],
                                                        .wheels = failed ? n->braked[axle][i] : 1.0,
                                                        .held = n->held[axle].torque[i],
                                                        .held_wheels = n->held[axle].wheels[i]};
    return balance;
}

static struct brake_pedal pedal_of(const struct brake_lane_numbers *n, int i)
{
    return (struct brake_pedal){n->ratio[i],  n->efficiency[i],  n->booster_gain[i],
                                n->assist[i], n->master_area[i], n->master_efficiency[i]};
}

static double pressure_of(const struct brake_lane_numbers *n, const struct brake_pedal *pedal,
                          double force, int i)
{
    return fmin(brake_pedal_pressure(pedal, force), n->pressure_most[i]);
}

/* At a pressure, the driver easing off before a wheel locks. */
static double eased(const struct brake_lane_numbers *n, const struct brake_balance *balance,
                    double pressure, int i)
{
    const double lock = brake_balance_lock(balance, n->modulation[i] * n->adhesion[i]).pressure;
    return brake_balance_at(balance, fmin(pressure, lock)).deceleration;
}

/* At the most force. */
static double hardest(const struct brake_lane_numbers *n, int i, bool failed)
{
    const struct brake_balance balance = balance_of(n, i, failed);
    const struct brake_pedal pedal = pedal_of(n, i);
    return eased(n, &balance, pressure_of(n, &pedal, n->force_most[i], i), i);
}

/* Given brakes of which some wheels are let go by a circuit that failed, the lane gives what they
 * do one by one, and nothing where the vehicle has no such circuit. */
static void a_lane_of_what_failed_is_what_the_functions_give(void **state)
{
    (void)state;
    static struct brake_lane_numbers n;
    static struct brake_lane_answers answers;
    struct cases cases = {10};
    int partly = 0;
    fill(&cases, &n);
    for (int i = 0; i < BRAKE_LANES; i += BRAKE_LANES - 1) { /* the first lane and the last */
        n.there[i] = 1.0;
        n.braked[BRAKE_FRONT][i] = 0.5;
    }
    brake_lanes_answer(ALL, &n, &answers);
    for (int i = 0; i < BRAKE_LANES; i++) {
        assert_true(answers.at_most[i] == hardest(&n, i, false));
        if (n.there[i] > 0.0)
            assert_true(answers.failed[i] == hardest(&n, i, true));
        else
            assert_true(isnan(answers.failed[i]));
        partly += n.there[i] > 0.0 && answers.failed[i] != answers.at_most[i];
    }
    assert_in_range(partly, 5, BRAKE_LANES);
}

static void a_lane_is_what_the_functions_give_one_by_one(void **state)
{
    (void)state;
    static struct brake_lane_numbers n;
    static struct brake_lane_answers answers;
    struct cases cases = {8};
    int without = 0;
    fill(&cases, &n);
    for (int i = 0; i < 8; i++)
        n.adhesion[i] = 0.5 * n.rolling[i]; /* glass, on which the first pressure locks */
    brake_lanes_answer_narrow(ALL, &n, &answers);
    for (int i = 0; i < BRAKE_LANES; i++) {
        const struct brake_balance balance = balance_of(&n, i, false);
        const struct brake_lock lock = brake_balance_lock(&balance, n.adhesion[i]);
        const struct brake_pedal pedal = pedal_of(&n, i);
        struct brake_pedal bare = pedal; /* the booster fails */
        bare.gain = 1.0;
        bare.assist = 0.0;
        assert_true(answers.at_force[i] ==
                    eased(&n, &balance, pressure_of(&n, &pedal, n.force[i], i), i));
        if (n.boosted[i] > 0.0)
            assert_true(answers.no_assist[i] ==
                        eased(&n, &balance, pressure_of(&n, &bare, n.force_most[i], i), i));
        else
            assert_nan(answers.no_assist[i]);
        assert_true(answers.lock[i] == lock.deceleration);
        assert_true(answers.lock_force[i] == brake_pedal_force(&pedal, lock.pressure));
        assert_true(answers.distance[i] == brake_stop_distance(n.speed[i], answers.at_most[i],
                                                               n.dead_time[i], n.build_up[i]));
        assert_true(answers.time[i] ==
                    brake_stop_time(n.speed[i], answers.at_most[i], n.dead_time[i], n.build_up[i]));
        without += n.boosted[i] > 0.0 && answers.no_assist[i] < answers.at_most[i];
    }
    assert_in_range(without, 5, BRAKE_LANES);
}

/* At the target the tyres do what the balance says; pressure and pedal are those of brakes of which
 * no stroke ends. */
static void a_lane_tells_what_a_deceleration_takes(void **state)
{
    (void)state;
    static struct brake_lane_numbers n;
    static struct brake_lane_answers answers;
    struct cases cases = {12};
    int held = 0;
    fill(&cases, &n);
    for (int i = 0; i < 8; i++)
        n.target[i] = 0.5 * n.rolling[i] * BRAKE_GRAVITY; /* rolling does it */
    for (int i = 8; i < 24; i++) { /* the valve closes before either axle bites */
        n.knee[i] = any_between(&cases, 0.0, 2e5);
        n.brakes[0].threshold[i] = any_between(&cases, 3e5, 6e5);
        n.brakes[1].threshold[i] = any_between(&cases, 3e5, 6e5);
        n.slope[i] = any_between(&cases, 0.2, 1.0);
        n.target[i] = any_between(&cases, 0.2, 8.0);
    }
    brake_lanes_answer(BRAKE_LANES_TARGET, &n, &answers);
    for (int i = 0; i < BRAKE_LANES; i++) {
        struct brake_balance balance = balance_of(&n, i, false);
        const struct brake_pedal pedal = pedal_of(&n, i);
        const double pressure = brake_balance_pressure(&balance, n.target[i]);
        const struct brake_balance_state at = brake_balance_at(&balance, pressure);
        balance.axle[BRAKE_FRONT].held = balance.axle[BRAKE_REAR].held = 0.0;
        const double endless = brake_balance_pressure(&balance, n.target[i]);
        assert_near(answers.pressure_for_target[i], endless, 1e-12);
        assert_near(answers.force_for_target[i], brake_pedal_force(&pedal, endless), 1e-12);
        held += pressure > endless;
        if (isinf(pressure))
            continue;
        assert_near(answers.front_share[i], at.force[0] / (at.force[0] + at.force[1]), 1e-12);
        assert_near(answers.front_used[i], at.used[BRAKE_FRONT], 1e-12);
        assert_near(answers.rear_used[i], at.used[BRAKE_REAR], 1e-12);
    }
    assert_in_range(held, 5, BRAKE_LANES);
}

/* Given any vehicles, the loads of the axles are its weight about the rear axle and the rest, and
 * what stands beside them is what the public functions give. */
static void a_lane_tells_the_vehicle_itself(void **state)
{
    (void)state;
    static struct brake_lane_numbers n;
    static struct brake_lane_answers answers;
    struct cases cases = {11};
    int rear = 0;
    fill(&cases, &n);
    brake_lanes_answer(BRAKE_LANES_ITSELF, &n, &answers);
    for (int i = 0; i < BRAKE_LANES; i++) {
        const struct brake_balance balance = balance_of(&n, i, false);
        const struct brake_lock lock = brake_balance_lock(&balance, n.adhesion[i]);
        const double share = brake_ideal_share(brake_turning_body(&balance), n.wheelbase[i],
                                               n.target[i] / BRAKE_GRAVITY);
        assert_near(answers.axle[BRAKE_FRONT][i] * n.wheelbase[i],
                    n.mass[i] * (n.wheelbase[i] - n.behind[i]), 1e-12);
        assert_near(answers.axle[0][i] + answers.axle[1][i], answers.total[i], 1e-12);
        assert_true(answers.effective[i] == brake_effective_mass(&balance));
        assert_true(answers.ideal_share[i] == share);
        assert_true(answers.lock_axle[i] == (double)lock.axle);
        assert_near(answers.efficiency[i] * n.adhesion[i] * BRAKE_GRAVITY, lock.deceleration,
                    1e-12);
        assert_true(answers.behind[i] == n.behind[i] && answers.height[i] == n.height[i]);
        assert_true(answers.energy[i] == brake_energy(answers.effective[i], n.speed[i]));
        assert_true(n.knee[i] == BRAKE_INFINITY ? isnan(answers.valve_knee[i])
                                                : answers.valve_knee[i] == n.knee[i]);
        rear += lock.axle == BRAKE_REAR;
    }
    assert_in_range(rear, 1, BRAKE_LANES - 1);
}

/* Of the brakes alone: what an axle must give at the target to slow its share of the mass and its
 * wheels, what it gives at the most force, and where the booster ends. */
static void a_lane_tells_the_torque_of_the_brakes(void **state)
{
    (void)state;
    static struct brake_lane_numbers n;
    static struct brake_lane_answers answers;
    struct cases cases = {13};
    int kneeless = 0;
    fill(&cases, &n);
    brake_lanes_answer(BRAKE_LANES_ITSELF, &n, &answers);
    for (int i = 0; i < BRAKE_LANES; i++) {
        const struct brake_balance balance = balance_of(&n, i, false);
        const struct brake_pedal pedal = pedal_of(&n, i);
        const double most = pressure_of(&n, &pedal, n.force_most[i], i);
        const double share[BRAKE_AXLES] = {answers.ideal_share[i], 1.0 - answers.ideal_share[i]};
        double needed = 0.0;
        double available = 0.0;
        for (int axle = 0; axle < BRAKE_AXLES; axle++) {
            const double radius = n.wheels[axle].radius[i];
            const double must = n.target[i] * (share[axle] * n.mass[i] * radius +
                                               n.wheels[axle].inertia[i] / radius);
            const double can = brake_axle_torque(&balance, (enum brake_axle)axle, most);
            assert_near(answers.needed[axle][i], must, 1e-12);
            assert_near(answers.available[axle][i], can, 1e-12);
            assert_within(answers.margin[axle][i], can / must - 1.0, 1e-12);
            needed += must;
            available += can;
        }
        assert_within(answers.margin_of_both[i], available / needed - 1.0, 1e-12);
        assert_near(answers.brakes_alone[i], brake_balance_at(&balance, most).deceleration, 1e-12);
        const double knee =
            brake_booster_knee(pedal.gain, pedal.assist) / (pedal.ratio * pedal.efficiency);
        kneeless += knee == BRAKE_INFINITY;
        if (knee == BRAKE_INFINITY) {
            assert_nan(answers.knee_force[i]);
            assert_nan(answers.knee_deceleration[i]);
            continue;
        }
        assert_true(answers.knee_force[i] == knee);
        assert_near(answers.knee_deceleration[i],
                    brake_balance_at(&balance, brake_pedal_pressure(&pedal, knee)).deceleration,
                    1e-12);
    }
    assert_in_range(kneeless, 5, BRAKE_LANES - 5);
}

/* With the centre drive locked all wheels lock at once. */
static void a_lane_tells_the_lock_of_a_locked_drive(void **state)
{
    (void)state;
    static struct brake_lane_numbers n;
    static struct brake_lane_answers answers;
    struct cases cases = {14};
    fill(&cases, &n);
    brake_lanes_answer(BRAKE_LANES_ITSELF, &n, &answers);
    for (int i = 0; i < BRAKE_LANES; i++) {
        struct brake_balance balance = balance_of(&n, i, false);
        balance.locked = true;
        assert_near(answers.locked_drive[i],
                    brake_balance_lock(&balance, n.adhesion[i]).deceleration, 1e-12);
    }
}

/* Given brakes that do nothing, none locks: no axle is named. */
static void a_lane_without_brakes_names_no_axle(void **state)
{
    (void)state;
    static struct brake_lane_numbers n;
    static struct brake_lane_answers answers;
    struct cases cases = {15};
    fill(&cases, &n);
    for (int i = 0; i < BRAKE_LANES; i++)
        n.brakes[0].gain[i] = n.brakes[1].gain[i] = 0.0;
    brake_lanes_answer(ALL, &n, &answers);
    for (int i = 0; i < BRAKE_LANES; i++) {
        assert_infinite(answers.lock[i]);
        assert_nan(answers.lock_axle[i]);
    }
}

/* Given a valve that senses the height of the body, its knee is where the law of the file says:
 * down by its rate times the load that leaves the springs, a moment of the sprung mass about the
 * hubs over the wheelbase, of which anti-lift leaves a part (kg per m/s2). Past it the rear gets
 * knee and slope of that instant. */
static void a_lane_pitches_its_valve(void **state)
{
    (void)state;
    static struct brake_lane_numbers n;
    static struct brake_lane_answers answers;
    struct cases cases = {16};
    int passed = 0;
    fill(&cases, &n);
    for (int i = 0; i < BRAKE_LANES; i++) {
        n.knee[i] = any_between(&cases, 3e6, 6e6);
        n.knee_rate[i] = any_between(&cases, 1e3, 4e3);
        n.lift_left[i] = any_between(&cases, 0.3, 1.0);
        n.unsprung[i] = any_between(&cases, 50.0, 300.0);
        n.slope[i] = any_between(&cases, 0.5, 0.9);
        n.hold_from[i] = n.hold_to[i] = n.held[0].torque[i] = n.held[1].torque[i] = 0.0;
        n.boosted[i] = 1.0;
        n.booster_gain[i] = 4.0;
        n.assist[i] = 2000.0;
        n.pressure_most[i] = any_between(&cases, 6e6, 15e6);
        n.force_most[i] = 5000.0;
    }
    brake_lanes_answer(ALL, &n, &answers);
    for (int i = 0; i < BRAKE_LANES; i++) {
        struct brake_balance balance = balance_of(&n, i, false);
        const double hubs = 0.5 * (n.wheels[0].radius[i] + n.wheels[1].radius[i]);
        const double leaves = n.lift_left[i] * (n.mass[i] * n.height[i] - n.unsprung[i] * hubs) /
                              (n.wheelbase[i] * BRAKE_GRAVITY);
        balance.valve.knee = BRAKE_INFINITY;
        const double knee = answers.valve_knee[i];
        assert_near(knee,
                    n.knee[i] -
                        n.knee_rate[i] * leaves * brake_balance_at(&balance, knee).deceleration,
                    1e-9);
        const double most =
            pressure_of(&n,
                        &(struct brake_pedal){n.ratio[i], n.efficiency[i], 4.0, 2000.0,
                                              n.master_area[i], n.master_efficiency[i]},
                        n.force_most[i], i);
        const double a = answers.brakes_alone[i];
        const double now = n.knee[i] - n.knee_rate[i] * leaves * a; /* the knee at that */
        const double rear = answers.available[BRAKE_REAR][i] / n.brakes[BRAKE_REAR].gain[i] +
                            n.brakes[BRAKE_REAR].threshold[i];
        if (most < knee)
            continue;
        assert_near(rear, now + n.slope[i] * (most - now), 1e-9);
        passed++;
    }
    assert_in_range(passed, 10, BRAKE_LANES);
}

static void a_lane_tells_how_it_is_parked(void **state)
{
    (void)state;
    static struct brake_lane_numbers n;
    static struct brake_lane_answers answers;
    struct cases cases = {17};
    int towing = 0;
    fill(&cases, &n);
    n.trailer_mass[0] = 0.5; /* a trailer, if a light one */
    brake_lanes_answer(BRAKE_LANES_PARKING, &n, &answers);
    for (int i = 0; i < BRAKE_LANES; i++) {
        const struct brake_balance balance = balance_of(&n, i, false);
        const enum brake_parking_on on = (enum brake_parking_on)(int)n.parking_on[i];
        const double radius = n.wheels[on == BRAKE_PARKING_FRONT ? 0 : 1].radius[i];
        const double torque = n.parking_torque[i];
        const double grade = tan(asin(n.test_grade[i]));
        const double effort = brake_parking_grade(n.mass[i], torque, radius);
        const double up =
            brake_parking_adhesion(balance.body, n.wheelbase[i], on, n.adhesion[i], 1.0);
        const double down =
            brake_parking_adhesion(balance.body, n.wheelbase[i], on, n.adhesion[i], -1.0);
        assert_near(answers.effort_grade[i], effort, 1e-12);
        assert_near(answers.grade_up[i], fmin(effort, up), 1e-12);
        assert_near(answers.grade_down[i], fmin(effort, down), 1e-12);
        assert_near(answers.parking_needed[i], brake_parking_needed(n.mass[i], grade, radius),
                    1e-12);
        assert_within(answers.parking_margin[i], torque / answers.parking_needed[i] - 1.0, 1e-12);
        assert_near(
            answers.parking[i],
            fmin(torque / radius / brake_effective_mass(&balance), fmin(up, down) * BRAKE_GRAVITY),
            1e-12);
        towing += n.trailer_mass[i] > 0.0;
        if (n.trailer_mass[i] > 0.0)
            assert_near(answers.trailer_grade[i],
                        brake_parking_grade(n.mass[i] + n.trailer_mass[i], torque, radius), 1e-12);
        else
            assert_nan(answers.trailer_grade[i]);
    }
    assert_in_range(towing, 5, BRAKE_LANES - 5);
}

/* What may be carried over what is, less one: loads are weight about the other axle. */
static void a_lane_tells_what_is_left_of_the_ratings(void **state)
{
    (void)state;
    static struct brake_lane_numbers n;
    static struct brake_lane_answers answers;
    struct cases cases = {18};
    fill(&cases, &n);
    brake_lanes_answer(BRAKE_LANES_RATED, &n, &answers);
    for (int i = 0; i < BRAKE_LANES; i++) {
        const double rear = n.mass[i] * n.behind[i] / n.wheelbase[i];
        const double load[BRAKE_AXLES] = {n.mass[i] - rear, rear};
        for (int axle = 0; axle < BRAKE_AXLES; axle++) {
            assert_near((answers.axle_margin[axle][i] + 1.0) * load[axle], n.rated_axle[axle][i],
                        1e-12);
            assert_near((answers.tyre_margin[axle][i] + 1.0) * load[axle], n.tyres[axle][i], 1e-12);
        }
        assert_near((answers.rated_margin[i] + 1.0) * n.mass[i], n.rated[i], 1e-12);
    }
}

static struct brake_fluid fluid_of(const struct brake_lane_numbers *n, int circuit, int i)
{
    return (struct brake_fluid){n->circuit[circuit].gaps[i],    n->circuit[circuit].shoes[i],
                                n->circuit[circuit].take_up[i], n->circuit[circuit].compliance[i],
                                n->circuit[circuit].seating[i], n->circuit[circuit].hoses[i],
                                n->circuit[circuit].air[i]};
}

/* Each circuit's volume moves its piston, and the pedal both, times its ratio; the items of the
 * ledger add up to the whole. */
static void a_lane_tells_where_the_fluid_goes(void **state)
{
    (void)state;
    static struct brake_lane_numbers n;
    static struct brake_lane_answers answers;
    struct cases cases = {19};
    fill(&cases, &n);
    brake_lanes_answer(BRAKE_LANES_FLUID, &n, &answers);
    for (int i = 0; i < BRAKE_LANES; i++) {
        const double p = answers.pressure_for_target[i];
        const struct brake_fluid circuit[2] = {fluid_of(&n, 0, i), fluid_of(&n, 1, i)};
        const struct brake_fluid both = brake_fluid_sum(circuit[0], circuit[1]);
        double rods = 0.0;
        for (int c = 0; c < 2; c++) {
            const double rod = brake_fluid_volume(&circuit[c], p) / n.master_area[i];
            assert_near(answers.stroke_used[c][i] * n.stroke[c][i], rod, 1e-12);
            rods += rod;
        }
        const double travel = n.free_play[i] + n.ratio[i] * rods;
        assert_near(answers.travel[i], travel, 1e-12);
        assert_near(answers.travel_used[i] * n.pedal_travel[i], travel, 1e-12);
        assert_near(answers.gaps[i], both.gaps, 1e-12);
        assert_near(answers.shoes[i], both.shoes, 1e-12);
        assert_near(answers.take_up[i], both.take_up, 1e-12);
        assert_near(answers.hoses[i], both.hoses * p, 1e-12);
        assert_near(answers.compliance[i], both.compliance * p + brake_fluid_seated(&both, p),
                    1e-12);
        assert_near(answers.fluid[i], brake_fluid_volume(&both, p), 1e-12);
        assert_near(answers.air[i],
                    answers.fluid[i] - answers.gaps[i] - answers.shoes[i] - answers.take_up[i] -
                        answers.compliance[i] - answers.hoses[i],
                    1e-9);
    }
}

/* After the hardest stop: sight, heat, and the same with a trailer. */
static void a_lane_tells_what_follows_from_the_hardest_stop(void **state)
{
    (void)state;
    static struct brake_lane_numbers n;
    static struct brake_lane_answers answers;
    struct cases cases = {20};
    fill(&cases, &n);
    brake_lanes_answer(BRAKE_LANES_AFTER, &n, &answers);
    for (int i = 0; i < BRAKE_LANES; i++) {
        const struct brake_balance balance = balance_of(&n, i, false);
        const double a = answers.at_most[i];
        const double pressure = brake_balance_pressure(&balance, a);
        const double energy = brake_energy(brake_effective_mass(&balance), n.speed[i]);
        double force[BRAKE_AXLES];
        for (int axle = 0; axle < BRAKE_AXLES; axle++)
            force[axle] = brake_axle_torque(&balance, (enum brake_axle)axle, pressure) /
                          n.wheels[axle].radius[i];
        assert_near(answers.sight[i], answers.distance[i] + n.speed[i] * n.reaction_time[i], 1e-12);
        assert_near(answers.heat_share[i], force[0] / (force[0] + force[1]), 1e-12);
        assert_near(answers.rise[BRAKE_FRONT][i] * n.heat_capacity[BRAKE_FRONT][i],
                    energy * force[0] / (force[0] + force[1]), 1e-12);
        assert_near(answers.rise[BRAKE_FRONT][i] * n.heat_capacity[BRAKE_FRONT][i] +
                        answers.rise[BRAKE_REAR][i] * n.heat_capacity[BRAKE_REAR][i],
                    energy, 1e-12);
        const double working[] = {0.0, n.trailer_working[i], 1.0};
        const double tow[] = {answers.tow_without[i], answers.tow_stated[i], answers.tow_all[i]};
        for (int k = 0; k < 3; k++)
            assert_near(tow[k],
                        brake_tow_deceleration(n.mass[i], a, n.trailer_mass[i], n.trailer_ratio[i],
                                               working[k]),
                        1e-12);
    }
}

/* From one column up to another. */
struct part {
    size_t from, to;
};

#define ANSWERS(first, behind)                                                                     \
    {                                                                                              \
        offsetof(struct brake_lane_answers, first), offsetof(struct brake_lane_answers, behind)    \
    }

/* Given each question by itself, its columns come out as with all others, and no other column is
 * written. */
static void each_part_is_answered_alone(void **state)
{
    (void)state;
    static struct brake_lane_numbers n;
    static struct brake_lane_answers all, one, untouched;
    static const struct {
        unsigned asked;
        struct part first, second;
    } questions[] = {
        {0, {0, 0}, {0, 0}},
        {BRAKE_LANES_STOP, ANSWERS(at_force, front_share), {0, 0}},
        {BRAKE_LANES_TARGET, ANSWERS(front_share, total), {0, 0}},
        {BRAKE_LANES_ITSELF, ANSWERS(total, failed), {0, 0}},
        {BRAKE_LANES_FAILED, ANSWERS(failed, effort_grade), {0, 0}},
        {BRAKE_LANES_PARKING, ANSWERS(effort_grade, axle_margin), {0, 0}},
        {BRAKE_LANES_RATED, ANSWERS(axle_margin, travel), {0, 0}},
        {BRAKE_LANES_FLUID, ANSWERS(front_share, total), ANSWERS(travel, sight)},
        {BRAKE_LANES_AFTER,
         ANSWERS(at_force, front_share),
         {offsetof(struct brake_lane_answers, sight), sizeof all}},
        /* without what they follow from these are not answered */
        {BRAKE_LANES_FLUID & ~(unsigned)BRAKE_LANES_TARGET, {0, 0}, {0, 0}},
        {BRAKE_LANES_AFTER & ~(unsigned)BRAKE_LANES_STOP, {0, 0}, {0, 0}},
    };
    struct cases cases = {9};
    fill(&cases, &n);
    brake_lanes_answer(ALL, &n, &all);
    memset(&untouched, 0x55, sizeof untouched);
    for (size_t i = 0; i < sizeof questions / sizeof questions[0]; i++) {
        const struct part parts[] = {questions[i].first, questions[i].second};
        one = untouched;
        brake_lanes_answer(questions[i].asked, &n, &one);
        for (int k = 0; k < 2; k++) {
            const size_t size = parts[k].to - parts[k].from;
            assert_memory_equal((char *)&one + parts[k].from, (char *)&all + parts[k].from, size);
            memcpy((char *)&one + parts[k].from, (char *)&untouched + parts[k].from, size);
        }
        assert_memory_equal(&one, &untouched, sizeof one);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_processor_does_not_change_a_bit_of_the_answers),
        cmocka_unit_test(a_lane_is_what_the_functions_give_one_by_one),
        cmocka_unit_test(a_lane_of_what_failed_is_what_the_functions_give),
        cmocka_unit_test(a_lane_tells_what_a_deceleration_takes),
        cmocka_unit_test(a_lane_tells_the_vehicle_itself),
        cmocka_unit_test(a_lane_tells_the_torque_of_the_brakes),
        cmocka_unit_test(a_lane_tells_the_lock_of_a_locked_drive),
        cmocka_unit_test(a_lane_without_brakes_names_no_axle),
        cmocka_unit_test(a_lane_pitches_its_valve),
        cmocka_unit_test(a_lane_tells_how_it_is_parked),
        cmocka_unit_test(a_lane_tells_what_is_left_of_the_ratings),
        cmocka_unit_test(a_lane_tells_where_the_fluid_goes),
        cmocka_unit_test(a_lane_tells_what_follows_from_the_hardest_stop),
        cmocka_unit_test(each_part_is_answered_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
