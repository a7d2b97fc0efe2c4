/* SPDX-License-Identifier: MIT */
/* Mass, centre of gravity, axle loads. */
#include "near.h"

#include "brake/load.h"

static const struct brake_body truck = {.mass = 2000.0, .behind = 1.2, .height = 0.8};
static const double wheelbase = 2.5;

static double rear_load(struct brake_body body, double deceleration, double slope)
{
    return body.mass * BRAKE_GRAVITY * cos(slope) -
           brake_front_load(body, wheelbase, deceleration, slope);
}

/* Follows from the definition: two equal masses balance half way. */
static void two_equal_bodies_balance_half_way(void **state)
{
    (void)state;
    const struct brake_body a = {100.0, 0.0, 0.4};
    const struct brake_body b = {100.0, 2.0, 0.8};
    const struct brake_body sum = brake_body_sum(a, b);
    assert_near(sum.mass, 200.0, ROUNDING);
    assert_near(sum.behind, 1.0, ROUNDING);
    assert_near(sum.height, 0.6, ROUNDING);
}

static void a_part_taken_off_again_leaves_the_vehicle_as_it_was(void **state)
{
    (void)state;
    const struct brake_body winch = {38.0, -0.62, 0.78};
    const struct brake_body off = {-38.0, -0.62, 0.78};
    const struct brake_body with = brake_body_sum(truck, winch);
    /* Weight ahead of the front axle moves the centre forward. */
    assert_true(with.behind < truck.behind);
    const struct brake_body again = brake_body_sum(with, off);
    assert_near(again.mass, truck.mass, ROUNDING);
    assert_near(again.behind, truck.behind, ROUNDING);
    assert_near(again.height, truck.height, ROUNDING);
}

static void masses_that_cancel_have_no_centre(void **state)
{
    (void)state;
    const struct brake_body off = {-2000.0, 0.5, 0.5};
    const struct brake_body none = brake_body_sum(truck, off);
    assert_equal(none.mass, 0.0);
    assert_nan(none.behind);
    assert_nan(none.height);
    const struct brake_body missing = {BRAKE_NAN, 0.5, 0.5};
    assert_nan(brake_body_sum(truck, missing).behind);
}

/* Gillespie, ch. 1, static axle loads. */
static void the_centre_lies_where_the_axle_loads_balance(void **state)
{
    (void)state;
    assert_near(brake_cg_behind_front(1040.0, 960.0, wheelbase), truck.behind, ROUNDING);
    assert_equal(brake_cg_behind_front(1000.0, 0.0, wheelbase), 0.0);
    assert_near(brake_cg_behind_front(0.0, 1000.0, wheelbase), wheelbase, ROUNDING);
    assert_nan(brake_cg_behind_front(BRAKE_NAN, 960.0, wheelbase));
}

/* ISO 10392, axle lift (from memory). The scale's reading is simulated by the moment balance about
 * the lower contact point: the centre, h above the hub line, moves h sin t towards it. */
static void the_tilt_test_finds_the_height_again(void **state)
{
    (void)state;
    struct cases cases = {2};
    for (int i = 0; i < 1000; i++) {
        const double mass = any_between(&cases, 500.0, 5000.0);
        const double base = any_between(&cases, 1.8, 4.5);
        const double lift = any_between(&cases, 0.02, 0.5) * base;
        const double above_hubs = any_between(&cases, 0.1, 0.8);
        const double sine = lift / base;
        const double cosine = sqrt(1.0 - sine * sine);
        const double gain = mass * above_hubs * sine / (base * cosine);
        assert_near(brake_cg_height_tilt(gain, mass, base, lift, 0.35), above_hubs + 0.35, 1e-11);
    }
}

static void a_lift_that_no_hoist_can_do_is_refused(void **state)
{
    (void)state;
    assert_nan(brake_cg_height_tilt(50.0, 2000.0, wheelbase, 0.0, 0.35));
    assert_nan(brake_cg_height_tilt(50.0, 2000.0, wheelbase, -0.5, 0.35));
    assert_nan(brake_cg_height_tilt(50.0, 2000.0, wheelbase, wheelbase, 0.35));
    assert_nan(brake_cg_height_tilt(50.0, 2000.0, wheelbase, BRAKE_NAN, 0.35));
    assert_nan(brake_cg_height_tilt(BRAKE_NAN, 2000.0, wheelbase, 0.5, 0.35));
}

/* Centre of mass of body and axles, the body raised by lift and tyres, the axles by tyres only. */
static void a_lift_raises_the_body_and_bigger_tyres_raise_everything(void **state)
{
    (void)state;
    const struct brake_body body = {1600.0, 1.2, 0.9};
    const struct brake_body axles = {400.0, 1.2, 0.4};
    const struct brake_body before = brake_body_sum(body, axles);
    const struct brake_body body_up = {1600.0, 1.2, 0.9 + 0.10 + 0.03};
    const struct brake_body axles_up = {400.0, 1.2, 0.4 + 0.03};
    const struct brake_body after = brake_body_sum(body_up, axles_up);
    assert_near(brake_cg_rise(2000.0, 400.0, 0.10, 0.03), after.height - before.height, ROUNDING);
    assert_near(brake_cg_rise(2000.0, 400.0, 0.0, 0.03), 0.03, ROUNDING);
    assert_equal(brake_cg_rise(2000.0, 2000.0, 0.10, 0.0), 0.0);
    assert_nan(brake_cg_rise(2000.0, BRAKE_NAN, 0.1, 0.0));
}

/* Gillespie, ch. 1. Moments about the rear contact point, taken here with forces and arms apart. */
static void the_axle_loads_keep_the_moment_balance(void **state)
{
    (void)state;
    struct cases cases = {3};
    for (int i = 0; i < 1000; i++) {
        const struct brake_body body = {any_between(&cases, 500.0, 5000.0),
                                        any_between(&cases, 0.2, 2.3),
                                        any_between(&cases, 0.3, 1.2)};
        const double a = any_between(&cases, 0.0, 10.0);
        const double slope = any_between(&cases, -0.4, 0.4);
        const double weight = body.mass * BRAKE_GRAVITY;
        const double front = brake_front_load(body, wheelbase, a, slope);
        const double rear = rear_load(body, a, slope);
        assert_near(front + rear, weight * cos(slope), ROUNDING);
        /* About the front contact: rear load lifts, weight across pushes down, inertia and the
         * component along the slope tip. */
        const double moment = rear * wheelbase - weight * cos(slope) * body.behind +
                              (body.mass * a - weight * sin(slope)) * body.height;
        assert_within(moment, 0.0, 1e-10 * weight * wheelbase);
    }
}

static void slowing_loads_the_front_and_a_nose_uphill_unloads_it(void **state)
{
    (void)state;
    const double still = brake_front_load(truck, wheelbase, 0.0, 0.0);
    assert_near(still, truck.mass * BRAKE_GRAVITY * (wheelbase - truck.behind) / wheelbase,
                ROUNDING);
    /* m a h / L = 2000 x 5 x 0.8 / 2.5 N (Gillespie, ch. 1) */
    assert_near(brake_front_load(truck, wheelbase, 5.0, 0.0) - still, 3200.0, 1e-11);
    assert_true(brake_front_load(truck, wheelbase, 0.0, 0.2) < still);
    assert_true(brake_front_load(truck, wheelbase, 0.0, -0.2) > still);
}

/* Past a = g x / h the rear wheels leave the road: the load turns negative, not zero, so that the
 * caller sees it. */
static void past_the_tipping_deceleration_the_rear_load_is_negative(void **state)
{
    (void)state;
    const double tipping = BRAKE_GRAVITY * truck.behind / truck.height;
    const double weight = truck.mass * BRAKE_GRAVITY;
    assert_within(rear_load(truck, tipping, 0.0), 0.0, 1e-11 * weight);
    assert_true(rear_load(truck, 1.1 * tipping, 0.0) < 0.0);
}

static void a_missing_measure_gives_no_load(void **state)
{
    (void)state;
    const struct brake_body no_height = {2000.0, 1.2, BRAKE_NAN};
    assert_nan(brake_front_load(no_height, wheelbase, 1.0, 0.0));
    assert_nan(brake_front_load(truck, BRAKE_NAN, 1.0, 0.0));
    assert_nan(brake_front_load(truck, wheelbase, BRAKE_NAN, 0.0));
    assert_nan(brake_front_load(truck, wheelbase, 1.0, BRAKE_NAN));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_equal_bodies_balance_half_way),
        cmocka_unit_test(a_part_taken_off_again_leaves_the_vehicle_as_it_was),
        cmocka_unit_test(masses_that_cancel_have_no_centre),
        cmocka_unit_test(the_centre_lies_where_the_axle_loads_balance),
        cmocka_unit_test(the_tilt_test_finds_the_height_again),
        cmocka_unit_test(a_lift_that_no_hoist_can_do_is_refused),
        cmocka_unit_test(a_lift_raises_the_body_and_bigger_tyres_raise_everything),
        cmocka_unit_test(the_axle_loads_keep_the_moment_balance),
        cmocka_unit_test(slowing_loads_the_front_and_a_nose_uphill_unloads_it),
        cmocka_unit_test(past_the_tipping_deceleration_the_rear_load_is_negative),
        cmocka_unit_test(a_missing_measure_gives_no_load),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
