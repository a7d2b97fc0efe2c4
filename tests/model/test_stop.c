/* SPDX-License-Identifier: MIT */
/* Stopping distance, regulated figures, energy. */
#include "near.h"

#include "brake/stop.h"

/* Mechanics: v^2 / 2a. */
static void an_instant_full_stop_takes_v_squared_over_2a(void **state)
{
    (void)state;
    assert_near(brake_stop_distance(20.0, 5.0, 0.0, 0.0), 40.0, ROUNDING);
    assert_near(brake_stop_time(20.0, 5.0, 0.0, 0.0), 4.0, ROUNDING);
    assert_equal(brake_stop_distance(0.0, 5.0, 0.5, 0.0), 0.0);
    /* The dead time goes by at full speed. */
    assert_near(brake_stop_distance(20.0, 5.0, 0.5, 0.0), 50.0, ROUNDING);
    assert_near(brake_stop_time(20.0, 5.0, 0.5, 0.0), 4.5, ROUNDING);
}

/* The speed falls as v - a t^2 / (2 t_b) while the deceleration builds up: Simpson's rule is exact
 * for it. The rest is an instant stop. */
static void a_linear_build_up_is_two_stretches_in_one(void **state)
{
    (void)state;
    struct cases cases = {17};
    for (int i = 0; i < 1000; i++) {
        const double v = any_between(&cases, 5.0, 50.0);
        const double a = any_between(&cases, 1.0, 10.0);
        const double dead = any_between(&cases, 0.0, 1.5);
        const double rise = any_between(&cases, 0.0, 0.8);
        const double half = v - a * rise / 8.0;
        const double end = v - a * rise / 2.0;
        const double building = rise / 6.0 * (v + 4.0 * half + end);
        assert_near(brake_stop_distance(v, a, dead, rise),
                    v * dead + building + end * end / (2.0 * a), ROUNDING);
        assert_near(brake_stop_time(v, a, dead, rise), dead + rise + end / a, ROUNDING);
    }
}

static void no_deceleration_never_stops(void **state)
{
    (void)state;
    assert_infinite(brake_stop_distance(20.0, 0.0, 0.5, 0.2));
    assert_infinite(brake_stop_time(20.0, 0.0, 0.5, 0.2));
}

/* UN R13-H, Annex 3, 2.1.1: 0.1 v + 0.0060 v^2, v in km/h. */
static void the_allowed_distance_is_that_of_the_regulation(void **state)
{
    (void)state;
    assert_near(brake_stop_allowed(100.0 / 3.6, 0.36, 0.0060), 70.0, ROUNDING);
    assert_near(brake_stop_allowed(50.0 / 3.6, 0.36, 0.0060), 20.0, ROUNDING);
    assert_near(brake_stop_allowed(100.0 / 3.6, 0.54, 0.0060), 75.0, ROUNDING);
    assert_equal(brake_stop_allowed(0.0, 0.36, 0.0060), 0.0);
}

static void the_mean_deceleration_of_a_steady_stop_is_its_deceleration(void **state)
{
    (void)state;
    for (double a = 1.0; a < 11.0; a += 0.7) {
        const double distance = brake_slow_distance(24.0, 3.0, 1.0, a / BRAKE_GRAVITY, 0.0, 0.0);
        assert_near(brake_mfdd(24.0, 3.0, distance), a, ROUNDING);
    }
    assert_infinite(brake_mfdd(24.0, 3.0, 0.0));
}

/* Mannering and Washburn, ch. 2, eq. 2.43. */
static void slowing_in_two_steps_takes_the_same_road(void **state)
{
    (void)state;
    const double whole = brake_slow_distance(30.0, 5.0, 1.04, 0.6, 0.015, 0.03);
    const double first = brake_slow_distance(30.0, 18.0, 1.04, 0.6, 0.015, 0.03);
    const double second = brake_slow_distance(18.0, 5.0, 1.04, 0.6, 0.015, 0.03);
    assert_near(first + second, whole, ROUNDING);
    assert_near(whole, 1.04 * 875.0 / (2.0 * BRAKE_GRAVITY * (0.615 + sin(0.03))), ROUNDING);
    /* Uphill is shorter, a hill as steep as the tyres grip never ends. */
    assert_true(brake_slow_distance(30.0, 5.0, 1.04, 0.6, 0.015, -0.03) > whole);
    assert_infinite(brake_slow_distance(30.0, 5.0, 1.0, 0.0, 0.0, 0.0));
}

/* Wong, ch. 3. */
static void the_mass_factor_grows_with_the_gear(void **state)
{
    (void)state;
    assert_equal(brake_mass_factor(0.0), 1.04);
    assert_near(brake_mass_factor(10.0), 1.29, ROUNDING);
}

/* Mannering and Washburn, ch. 2: 0.01 (1 + V / 147), V in ft/s. */
static void rolling_resistance_doubles_at_147_feet_a_second(void **state)
{
    (void)state;
    assert_equal(brake_rolling_resistance(0.0), 0.01);
    assert_near(brake_rolling_resistance(147.0 * 0.3048), 0.02, ROUNDING);
    assert_near(brake_rolling_resistance(294.0 * 0.3048), 0.03, ROUNDING);
}

/* Mechanics; the work of the brake force over the stop is the energy of motion. */
static void braking_work_is_the_energy_of_motion(void **state)
{
    (void)state;
    assert_near(brake_energy(2000.0, 30.0), 900e3, ROUNDING);
    assert_near(brake_energy(2000.0, 30.0), 2000.0 * 5.0 * brake_stop_distance(30.0, 5.0, 0.0, 0.0),
                ROUNDING);
    /* 9 kg at 500 J/(kg K) take up 45 kJ in 10 K (Limpert, ch. 3). */
    assert_near(brake_bulk_rise(45e3, 9.0, 500.0), 10.0, ROUNDING);
    assert_infinite(brake_bulk_rise(45e3, 0.0, 500.0));
}

/* SAE J299 (from memory): distance goes with the square of the speed. */
static void a_stop_from_too_fast_is_brought_back_to_the_nominal_speed(void **state)
{
    (void)state;
    const double measured = brake_stop_distance(25.3, 7.0, 0.0, 0.0);
    assert_near(brake_distance_corrected(measured, 25.3, 25.0),
                brake_stop_distance(25.0, 7.0, 0.0, 0.0), ROUNDING);
    assert_equal(brake_distance_corrected(measured, 25.0, 25.0), measured);
}

static void a_missing_value_gives_no_distance(void **state)
{
    (void)state;
    assert_nan(brake_stop_distance(BRAKE_NAN, 5.0, 0.0, 0.0));
    assert_nan(brake_stop_distance(20.0, BRAKE_NAN, 0.0, 0.0));
    assert_nan(brake_stop_time(20.0, 5.0, BRAKE_NAN, 0.0));
    assert_nan(brake_stop_allowed(BRAKE_NAN, 0.36, 0.006));
    assert_nan(brake_mfdd(20.0, BRAKE_NAN, 10.0));
    assert_nan(brake_slow_distance(20.0, 0.0, 1.0, 0.5, 0.01, BRAKE_NAN));
    assert_nan(brake_mass_factor(BRAKE_NAN));
    assert_nan(brake_rolling_resistance(BRAKE_NAN));
    assert_nan(brake_energy(BRAKE_NAN, 20.0));
    assert_nan(brake_bulk_rise(BRAKE_NAN, 9.0, 500.0));
    assert_nan(brake_distance_corrected(40.0, BRAKE_NAN, 25.0));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_instant_full_stop_takes_v_squared_over_2a),
        cmocka_unit_test(a_linear_build_up_is_two_stretches_in_one),
        cmocka_unit_test(no_deceleration_never_stops),
        cmocka_unit_test(the_allowed_distance_is_that_of_the_regulation),
        cmocka_unit_test(the_mean_deceleration_of_a_steady_stop_is_its_deceleration),
        cmocka_unit_test(slowing_in_two_steps_takes_the_same_road),
        cmocka_unit_test(the_mass_factor_grows_with_the_gear),
        cmocka_unit_test(rolling_resistance_doubles_at_147_feet_a_second),
        cmocka_unit_test(braking_work_is_the_energy_of_motion),
        cmocka_unit_test(a_stop_from_too_fast_is_brought_back_to_the_nominal_speed),
        cmocka_unit_test(a_missing_value_gives_no_distance),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
