/* SPDX-License-Identifier: MIT */
/* Stops side by side. */
#include "near.h"

#include <stddef.h>
#include <string.h>

#include "brake/balance.h"
#include "brake/pedal.h"
#include "brake/stop.h"
#include "model/lanes.h"

enum { RUNS = 50, ALL = BRAKE_LANES_INTACT | BRAKE_LANES_FAILED };

static double either(struct cases *cases, double one, double other)
{
    return any_between(cases, 0.0, 1.0) < 0.3 ? one : other;
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
    n->booster_gain[i] = any_between(cases, 1.0, 6.0);
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
    n->parking_torque[i] = n->mass[i] * any_between(cases, 0.0, 5.0);
    n->parking_on[i] = floor(any_between(cases, 0.0, 3.0));
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

/* At the most force, the driver easing off before a wheel locks. */
static double hardest(const struct brake_lane_numbers *n, int i, bool failed)
{
    const struct brake_balance balance = balance_of(n, i, failed);
    const struct brake_pedal pedal = {n->ratio[i],  n->efficiency[i],  n->booster_gain[i],
                                      n->assist[i], n->master_area[i], n->master_efficiency[i]};
    const double most = fmin(brake_pedal_pressure(&pedal, n->force_most[i]), n->pressure_most[i]);
    const double eased = brake_balance_lock(&balance, n->modulation[i] * n->adhesion[i]).pressure;
    return brake_balance_at(&balance, fmin(most, eased)).deceleration;
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
    fill(&cases, &n);
    brake_lanes_answer_narrow(ALL, &n, &answers);
    for (int i = 0; i < BRAKE_LANES; i++) {
        const struct brake_balance balance = balance_of(&n, i, false);
        assert_true(answers.lock[i] == brake_balance_lock(&balance, n.adhesion[i]).deceleration);
        assert_true(answers.distance[i] == brake_stop_distance(n.speed[i], answers.at_most[i],
                                                               n.dead_time[i], n.build_up[i]));
        assert_true(answers.time[i] ==
                    brake_stop_time(n.speed[i], answers.at_most[i], n.dead_time[i], n.build_up[i]));
    }
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
        assert_near(answers.margin[BRAKE_FRONT][i] + 1.0,
                    answers.available[BRAKE_FRONT][i] / answers.needed[BRAKE_FRONT][i], 1e-12);
        rear += lock.axle == BRAKE_REAR;
    }
    assert_in_range(rear, 1, BRAKE_LANES - 1);
}

/* Given each question by itself, its columns come out as with all others, and the first one's only
 * when it is asked. */
static void each_part_is_answered_alone(void **state)
{
    (void)state;
    static struct brake_lane_numbers n;
    static struct brake_lane_answers all, stop, others;
    struct cases cases = {9};
    fill(&cases, &n);
    brake_lanes_answer(ALL, &n, &all);
    memset(&stop, 0, sizeof stop);
    memset(&others, 0, sizeof others);
    brake_lanes_answer(BRAKE_LANES_STOP, &n, &stop);
    brake_lanes_answer(BRAKE_LANES_FLUID | BRAKE_LANES_ITSELF | BRAKE_LANES_PARKING |
                           BRAKE_LANES_RATED | BRAKE_LANES_FAILED,
                       &n, &others);
    const size_t from = offsetof(struct brake_lane_answers, front_share);
    const size_t after = offsetof(struct brake_lane_answers, sight);
    for (int i = 0; i < BRAKE_LANES; i++)
        assert_true(stop.front_share[i] == 0.0 && stop.parking[i] == 0.0 && others.time[i] == 0.0 &&
                    others.sight[i] == 0.0);
    assert_memory_equal(&stop, &all, from);
    assert_memory_equal((char *)&others + from, (char *)&all + from, after - from);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_processor_does_not_change_a_bit_of_the_answers),
        cmocka_unit_test(a_lane_is_what_the_functions_give_one_by_one),
        cmocka_unit_test(a_lane_of_what_failed_is_what_the_functions_give),
        cmocka_unit_test(a_lane_tells_the_vehicle_itself),
        cmocka_unit_test(each_part_is_answered_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
