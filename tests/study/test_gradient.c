/* SPDX-License-Identifier: MIT */
/* Derivatives of outputs by lines. Expected: taken by hand for the plain vehicle
 * (../vehicle/sheet.h). Deceleration at force F, empty, is 9 F / 0.4 m / (m + 250 kg) = F/100, of
 * which the front gives 8 parts and the rear 2, each linear in its friction. */
#include "../vehicle/sheet.h"

#include "brake/gradient.h"

static struct brake_sheet sheet;

static struct brake_derivative derive(const char *text, const char *name, const char *path)
{
    struct brake_output output;
    struct brake_derivative found = {0};
    read_sheet(&sheet, text);
    const int line = index_at(&sheet.vehicle, path);
    assert_int_equal(brake_output_find(name, &output), BRAKE_OK);
    assert_int_equal(brake_gradient(&sheet, &output, 1, &line, 1, &found), BRAKE_OK);
    return found;
}

static void assert_derivative(const char *path, double expected)
{
    const struct brake_derivative found = derive(plain, "empty.deceleration.most", path);
    assert_false(found.kink);
    assert_near(found.value, expected, 1e-9);
    assert_true(found.error <= 1e-6 * fabs(expected));
    assert_true(fabs(found.value - expected) <= found.error + 1e-15);
}

static void a_derivative_is_that_of_the_formula(void **state)
{
    (void)state;
    assert_derivative("front.disc.pads.mu", 4.0 / 0.4);
    assert_derivative("rear.disc.pads.mu", 1.0 / 0.4);
    assert_derivative("driver.pedal_force_most", 0.01);
    assert_derivative("vehicle.mass", -5.0 / 2250.0);
    assert_derivative("master.bore", -2.0 * 5.0 / 0.02);
}

/* A straight line has no error but that of rounding: of 5 m/s2, half its last digit or so, over the
 * least step, a 2^-15 part of the number. */
static void the_error_is_that_of_rounding(void **state)
{
    (void)state;
    const struct brake_derivative found =
        derive(plain, "empty.deceleration.most", "driver.pedal_force_most");
    const double rounding = 4e-16 * 5.0 / (500.0 * 0x1p-15);
    assert_between(found.error, 0.999 * rounding, 2.0 * rounding);
    const struct brake_derivative friction =
        derive(plain, "empty.deceleration.most", "front.disc.pads.mu");
    const double of_friction = 4e-16 * 5.0 / (0.4 * 0x1p-15);
    assert_between(friction.error, 0.999 * of_friction, 2.0 * of_friction);
    /* and of a curve, a deceleration as the inverse square of the bore, hardly more */
    assert_true(derive(plain, "empty.deceleration.most", "master.bore").error < 1e-11 * 500.0);
}

/* From the widest steps on, which know of the least rounding, at the end of a range as well: the
 * error of a margin, of numbers some times its size, is little more than that of the least step. */
static void the_widest_steps_count(void **state)
{
    (void)state;
    static const char *const of[][2] = {{"hazard.rear_first", "front.disc.efficiency"},
                                        {"un.13h.adhesion", "vehicle.cg_height"}};
    for (int i = 0; i < 2; i++) {
        const struct brake_derivative found = derive(plain, of[i][0], of[i][1]);
        const double at = value_at(&sheet, of[i][1]);
        struct brake_output output;
        double here;
        assert_int_equal(brake_output_find(of[i][0], &output), BRAKE_OK);
        brake_outputs(&sheet.vehicle, &output, 1, &here);
        const double rounding = 4e-16 * fabs(here) / (at * 0x1p-15);
        assert_between(found.error, 0.999 * rounding, 4.0 * rounding);
    }
}

/* Nothing follows its mass but the rounding of the speed at which its drive locks, to either
 * side. */
static void rounding_is_no_kink(void **state)
{
    (void)state;
    const struct brake_derivative found =
        derive(plain, "full.balance.locked_drive_lock_deceleration", "rear.tyre.wheel_inertia");
    assert_false(found.kink);
    assert_between(found.value, -found.error, found.error);
}

static void what_does_not_move_an_output_has_no_slope(void **state)
{
    (void)state;
    const struct brake_derivative found = derive(plain, "empty.deceleration.most", "stop.speed");
    assert_equal(found.value, 0.0);
    assert_false(found.kink);
}

/* Tyres that raise the hubs raise all of the vehicle. From none at all the first step is a part of
 * the range, from -150 to 300 mm; rounding is that of 0.8 m over a 2^-15 part of it. */
static void a_rise_of_nothing_is_stepped_over_its_range(void **state)
{
    (void)state;
    const struct brake_derivative found = derive(plain, "empty.cg.height", "lift.wheel_rise");
    const double rounding = 4e-16 * 0.8 / (0.45 * 0x1p-15);
    assert_near(found.value, 1.0, 1e-9);
    assert_between(found.error, 0.999 * rounding, 2.0 * rounding);
}

/* Nor has what is nothing, whose slopes are the same to the last bit. */
static void what_is_nothing_has_no_kink(void **state)
{
    (void)state;
    const struct brake_derivative found = derive(plain, "empty.fluid.hoses", "vehicle.mass");
    assert_equal(found.value, 0.0);
    assert_equal(found.error, 0.0);
    assert_false(found.kink);
}

/* 4 m/s2 of the front at 500 N, whose pads need none of the 63.66 bar to come on: by da/dp = a/p
 * less for each that they would. There is no pressure below nothing, but a step of a part of the
 * range above. */
static void a_line_of_nothing_has_the_slope_above(void **state)
{
    (void)state;
    const struct brake_derivative found =
        derive(plain, "empty.deceleration.most", "front.disc.threshold");
    assert_false(found.kink);
    assert_near(found.value, -4.0 * (0.25 * BRAKE_PI * 0.02 * 0.02) / (4.0 * 500.0), 1e-9);
}

/* The distance from v at a/2 per v^2 moves as the inverse of the efficiency, which is 1 at most:
 * d(v^2/2a) = -v^2/2a. Full, 500 N give 45/11 m/s2. */
static void at_the_end_of_its_range_a_curve_is_followed_too(void **state)
{
    (void)state;
    const struct brake_derivative found = derive(plain, "full.stop.distance", "pedal.efficiency");
    const double speed = sheet.vehicle.stop.speed;
    assert_false(found.kink);
    assert_near(found.value, -speed * speed / (2.0 * 45.0 / 11.0), 1e-9);
    assert_true(found.error <= 1e-9 * fabs(found.value));
}

/* 500 N give 4 x 500 N / (pi/4 x 20 mm squared) in the lines, where the valve opens: below it both
 * axles follow the pedal, above it the rear by half. */
static void a_kink_is_told_with_the_mean_of_both_slopes(void **state)
{
    (void)state;
    const char *text = swapped(plain, "[road]\n",
                               "[valve]\nkind = fixed\nknee = 63.66197723675813 bar\n"
                               "slope = 0.5\n[road]\n");
    const struct brake_derivative found =
        derive(text, "empty.deceleration.most", "driver.pedal_force_most");
    assert_true(found.kink);
    assert_near(found.value, 0.5 * (0.010 + 0.009), 1e-6);
    assert_near(found.error, 0.5 * 0.001, 1e-6);
}

/* A slope of the valve just below 1 takes 2 (1 - slope) of 10 from the slope beyond it: a kink is
 * one from 1e-5 of the slope on (brake/gradient.h). */
static void a_kink_is_one_from_a_size_on(void **state)
{
    (void)state;
    for (int i = 0; i < 2; i++) {
        char text[160];
        const double part = i == 0 ? 0.997e-5 : 1.003e-5;
        snprintf(text, sizeof text,
                 "[valve]\nkind = fixed\nknee = 63.66197723675813 bar\nslope = %.12f\n[road]\n",
                 1.0 - 5.0 * part);
        const struct brake_derivative found = derive(
            swapped(plain, "[road]\n", text), "empty.deceleration.most", "driver.pedal_force_most");
        assert_int_equal(found.kink, i == 1);
    }
}

static void at_the_end_of_its_range_a_line_has_the_slope_of_one_side(void **state)
{
    (void)state;
    const struct brake_derivative found =
        derive(plain, "empty.deceleration.most", "pedal.efficiency");
    assert_false(found.kink);
    assert_near(found.value, 5.0, 1e-6);
}

/* A caliper that gives way by nothing, the least there is, takes no fluid: the force at the pedal,
 * with room left in the cylinder, does not go by it. One that gave way by less than nothing would
 * be no caliper, and is not asked. */
static void beyond_the_end_of_a_range_nothing_is_asked(void **state)
{
    (void)state;
    const struct brake_derivative found =
        derive(full_text(), "empty.deceleration.most", "front.disc.compliance");
    assert_equal(value_at(&sheet, "front.disc.compliance"), 0.0);
    assert_false(found.kink);
    assert_equal(found.value, 0.0);
}

static void many_are_those_of_one_by_one(void **state)
{
    (void)state;
    const char *const path[] = {"front.disc.pads.mu", "vehicle.cg_height", "road.adhesion"};
    const char *const name[] = {"full.stop.distance", "empty.balance.rear_first_above"};
    struct brake_derivative found[6];
    struct brake_output output[2];
    int line[3];
    read_sheet(&sheet, plain);
    for (int i = 0; i < 3; i++)
        line[i] = index_at(&sheet.vehicle, path[i]);
    for (int i = 0; i < 2; i++)
        assert_int_equal(brake_output_find(name[i], &output[i]), BRAKE_OK);
    assert_int_equal(brake_gradient(&sheet, output, 2, line, 3, found), BRAKE_OK);
    for (int i = 0; i < 6; i++) {
        const struct brake_derivative one = derive(plain, name[i / 3], path[i % 3]);
        assert_memory_equal(&found[i].value, &one.value, sizeof one.value);
    }
}

static void what_is_no_number_is_refused(void **state)
{
    (void)state;
    struct brake_output output;
    struct brake_derivative found;
    read_sheet(&sheet, plain);
    const int name = index_at(&sheet.vehicle, "vehicle.name");
    assert_int_equal(brake_output_find("full.stop.distance", &output), BRAKE_OK);
    assert_int_equal(brake_gradient(&sheet, &output, 1, &name, 1, &found), BRAKE_E_UNKNOWN);
    const int wrong[] = {-1, brake_catalogue_count(), index_at(&sheet.vehicle, "vehicle.use"),
                         index_at(&sheet.vehicle, "parking.torque")}; /* not stated */
    for (int i = 0; i < 4; i++)
        assert_int_equal(brake_gradient(&sheet, &output, 1, &wrong[i], 1, &found), BRAKE_E_UNKNOWN);
}

static void only_so_many_outputs_of_one_line_or_more_are_told(void **state)
{
    (void)state;
    static struct brake_output output[BRAKE_OUTPUTS];
    static struct brake_derivative found[BRAKE_OUTPUTS];
    read_sheet(&sheet, plain);
    const int line = index_at(&sheet.vehicle, "vehicle.mass");
    for (int i = 0; i < BRAKE_OUTPUTS; i++)
        assert_int_equal(brake_output_find("empty.deceleration.most", &output[i]), BRAKE_OK);
    assert_int_equal(brake_gradient(&sheet, output, 0, &line, 1, found), BRAKE_E_SIZE);
    assert_int_equal(brake_gradient(&sheet, output, 1, &line, 0, found), BRAKE_E_SIZE);
    assert_int_equal(brake_gradient(&sheet, output, BRAKE_OUTPUTS + 1, &line, 1, found),
                     BRAKE_E_SIZE);
    assert_int_equal(brake_gradient(&sheet, output, BRAKE_OUTPUTS, &line, 1, found), BRAKE_OK);
    assert_near(found[BRAKE_OUTPUTS - 1].value, -5.0 / 2250.0, 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_derivative_is_that_of_the_formula),
        cmocka_unit_test(the_error_is_that_of_rounding),
        cmocka_unit_test(the_widest_steps_count),
        cmocka_unit_test(rounding_is_no_kink),
        cmocka_unit_test(what_does_not_move_an_output_has_no_slope),
        cmocka_unit_test(what_is_nothing_has_no_kink),
        cmocka_unit_test(a_rise_of_nothing_is_stepped_over_its_range),
        cmocka_unit_test(a_line_of_nothing_has_the_slope_above),
        cmocka_unit_test(at_the_end_of_its_range_a_curve_is_followed_too),
        cmocka_unit_test(a_kink_is_one_from_a_size_on),
        cmocka_unit_test(a_kink_is_told_with_the_mean_of_both_slopes),
        cmocka_unit_test(at_the_end_of_its_range_a_line_has_the_slope_of_one_side),
        cmocka_unit_test(beyond_the_end_of_a_range_nothing_is_asked),
        cmocka_unit_test(many_are_those_of_one_by_one),
        cmocka_unit_test(what_is_no_number_is_refused),
        cmocka_unit_test(only_so_many_outputs_of_one_line_or_more_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
