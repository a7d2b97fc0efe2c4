/* SPDX-License-Identifier: MIT */
/* Parking brake: torque, grade held by torque, grade held by the tyres. */
#include "near.h"

#include "brake/parking.h"

static const struct brake_body car = {.mass = 1600.0, .behind = 1.2, .height = 0.55};
static const double wheelbase = 2.7;

static void torque_is_the_product_of_the_chain(void **state)
{
    (void)state;
    /* 300 N x 30 x 0.8 x 2 x 0.13 m (Limpert, ch. 2) */
    assert_near(brake_parking_torque(300.0, 30.0, 0.8, 2.0, 0.13, 1.0), 1872.0, ROUNDING);
    /* On the propeller shaft the axle ratio multiplies it. */
    assert_near(brake_parking_torque(300.0, 30.0, 0.8, 2.0, 0.13, 4.1), 7675.2, ROUNDING);
    assert_equal(brake_parking_torque(0.0, 30.0, 0.8, 2.0, 0.13, 1.0), 0.0);
    assert_nan(brake_parking_torque(300.0, 30.0, BRAKE_NAN, 2.0, 0.13, 1.0));
}

/* Statics: a 3-4-5 slope has sin t = 0.6. */
static void the_torque_needed_balances_the_weight_along_the_grade(void **state)
{
    (void)state;
    assert_near(brake_parking_needed(1000.0, 0.75, 0.3), 1000.0 * BRAKE_GRAVITY * 0.6 * 0.3,
                ROUNDING);
    assert_equal(brake_parking_needed(1000.0, 0.0, 0.3), 0.0);
    /* A wall: the whole weight. */
    assert_near(brake_parking_needed(1000.0, 1e12, 0.3), 1000.0 * BRAKE_GRAVITY * 0.3, ROUNDING);
    assert_nan(brake_parking_needed(BRAKE_NAN, 0.2, 0.3));
    assert_nan(brake_parking_needed(1000.0, BRAKE_NAN, 0.3));
}

static void the_grade_held_and_the_torque_needed_undo_each_other(void **state)
{
    (void)state;
    for (double grade = -1.0; grade <= 3.0; grade += 0.05) {
        const double torque = brake_parking_needed(1600.0, grade, 0.31);
        assert_within(brake_parking_grade(1600.0, torque, 0.31), grade, 1e-13 * hypot(1.0, grade));
    }
}

static void a_torque_above_the_weight_holds_a_wall(void **state)
{
    (void)state;
    const double wall = 1600.0 * BRAKE_GRAVITY * 0.31;
    assert_infinite(brake_parking_grade(1600.0, wall * 1.001, 0.31));
    assert_true(brake_parking_grade(1600.0, wall * 0.999, 0.31) > 20.0);
    assert_nan(brake_parking_grade(1600.0, BRAKE_NAN, 0.31));
    assert_nan(brake_parking_grade(BRAKE_NAN, 500.0, 0.31));
}

/* At the limit the force along the slope is the adhesion of the braked axle, whose load is that of
 * the moment balance (Jazar, ch. 2, axle loads of a parked car). */
static void at_the_limit_the_braked_axle_uses_all_its_adhesion(void **state)
{
    (void)state;
    struct cases cases = {7};
    for (int i = 0; i < 500; i++) {
        const struct brake_body body = {any_between(&cases, 500.0, 4000.0),
                                        any_between(&cases, 0.8, 1.9),
                                        any_between(&cases, 0.3, 1.1)};
        const double mu = any_between(&cases, 0.1, 1.0);
        for (double uphill = -1.0; uphill <= 1.0; uphill += 2.0) {
            const double on_front =
                brake_parking_adhesion(body, wheelbase, BRAKE_PARKING_FRONT, mu, uphill);
            double slope = uphill * atan(on_front);
            double load = brake_front_load(body, wheelbase, 0.0, slope);
            const double weight = body.mass * BRAKE_GRAVITY;
            assert_near(mu * load, weight * fabs(sin(slope)), 1e-11);

            const double on_rear =
                brake_parking_adhesion(body, wheelbase, BRAKE_PARKING_REAR, mu, uphill);
            slope = uphill * atan(on_rear);
            load = weight * cos(slope) - brake_front_load(body, wheelbase, 0.0, slope);
            assert_near(mu * load, weight * fabs(sin(slope)), 1e-11);
        }
    }
}

static void all_wheels_hold_the_friction_of_the_road(void **state)
{
    (void)state;
    assert_equal(brake_parking_adhesion(car, wheelbase, BRAKE_PARKING_ALL, 0.6, 1.0), 0.6);
    assert_equal(brake_parking_adhesion(car, wheelbase, BRAKE_PARKING_ALL, 0.6, -1.0), 0.6);
    /* With the centre of gravity on the road the two axles share it and no load moves. */
    struct brake_body flat = car;
    flat.height = 0.0;
    assert_near(brake_parking_adhesion(flat, wheelbase, BRAKE_PARKING_FRONT, 0.6, 1.0) +
                    brake_parking_adhesion(flat, wheelbase, BRAKE_PARKING_REAR, 0.6, -1.0),
                0.6, ROUNDING);
    assert_nan(brake_parking_adhesion(car, wheelbase, BRAKE_PARKING_ALL, BRAKE_NAN, 1.0));
    assert_nan(brake_parking_adhesion(car, BRAKE_NAN, BRAKE_PARKING_REAR, 0.6, 1.0));
    assert_nan(brake_parking_adhesion(car, BRAKE_NAN, BRAKE_PARKING_FRONT, 0.6, 1.0));
}

static void a_rear_brake_holds_better_nose_up_and_a_front_brake_nose_down(void **state)
{
    (void)state;
    assert_true(brake_parking_adhesion(car, wheelbase, BRAKE_PARKING_REAR, 0.6, 1.0) >
                brake_parking_adhesion(car, wheelbase, BRAKE_PARKING_REAR, 0.6, -1.0));
    assert_true(brake_parking_adhesion(car, wheelbase, BRAKE_PARKING_FRONT, 0.6, 1.0) <
                brake_parking_adhesion(car, wheelbase, BRAKE_PARKING_FRONT, 0.6, -1.0));
}

/* Bhandari, ch. 12: tensions multiply along the wrap. */
static void two_half_wraps_make_a_whole_one(void **state)
{
    (void)state;
    const double half = brake_band_ratio(0.25, 2.0);
    assert_near(brake_band_ratio(0.25, 4.0), half * half, ROUNDING);
    assert_near(brake_band_ratio(0.5, 2.0), exp(1.0), ROUNDING);
    assert_equal(brake_band_ratio(0.25, 0.0), 1.0);
    assert_nan(brake_band_ratio(BRAKE_NAN, 2.0));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(torque_is_the_product_of_the_chain),
        cmocka_unit_test(the_torque_needed_balances_the_weight_along_the_grade),
        cmocka_unit_test(the_grade_held_and_the_torque_needed_undo_each_other),
        cmocka_unit_test(a_torque_above_the_weight_holds_a_wall),
        cmocka_unit_test(at_the_limit_the_braked_axle_uses_all_its_adhesion),
        cmocka_unit_test(all_wheels_hold_the_friction_of_the_road),
        cmocka_unit_test(a_rear_brake_holds_better_nose_up_and_a_front_brake_nose_down),
        cmocka_unit_test(two_half_wraps_make_a_whole_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
