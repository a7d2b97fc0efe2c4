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

static void what_does_not_move_an_output_has_no_slope(void **state)
{
    (void)state;
    assert_equal(derive(plain, "empty.deceleration.most", "stop.speed").value, 0.0);
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

static void at_the_end_of_its_range_a_line_has_the_slope_of_one_side(void **state)
{
    (void)state;
    const struct brake_derivative found =
        derive(plain, "empty.deceleration.most", "pedal.efficiency");
    assert_false(found.kink);
    assert_near(found.value, 5.0, 1e-6);
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
    assert_int_equal(brake_gradient(&sheet, &output, 0, &name, 1, &found), BRAKE_E_SIZE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_derivative_is_that_of_the_formula),
        cmocka_unit_test(what_does_not_move_an_output_has_no_slope),
        cmocka_unit_test(a_kink_is_told_with_the_mean_of_both_slopes),
        cmocka_unit_test(at_the_end_of_its_range_a_line_has_the_slope_of_one_side),
        cmocka_unit_test(many_are_those_of_one_by_one),
        cmocka_unit_test(what_is_no_number_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
