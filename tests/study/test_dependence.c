/* SPDX-License-Identifier: MIT */
/* Which lines a number depends on. Expected: derivatives taken by hand for the plain vehicle
 * (../vehicle/sheet.h). Deceleration at 500 N, empty: (3600/0.4 + 900/0.4)/2250 = 5 m/s2, of which
 * the front gives 4 and the rear 1, each linear in its friction. */
#include "../vehicle/sheet.h"

#include "study/dependence.h"

#include "brake/evaluate.h"

static struct brake_dependence list[BRAKE_ROWS];
static struct brake_sheet sheet;

static double most(const void *context, const struct brake_vehicle *vehicle)
{
    struct brake_results results;
    (void)context;
    brake_evaluate(vehicle, &results);
    return results.load[BRAKE_EMPTY].deceleration.most;
}

static double mass(const void *context, const struct brake_vehicle *vehicle)
{
    (void)context;
    return vehicle->general.mass;
}

static double ambient(const void *context, const struct brake_vehicle *vehicle)
{
    (void)context;
    return vehicle->heat.ambient;
}

/* None where the front's friction is higher than it is in the plain vehicle. */
static double none_above(const void *context, const struct brake_vehicle *vehicle)
{
    (void)context;
    return vehicle->axle[BRAKE_FRONT].pads.mu > 0.401 ? BRAKE_NAN : 1.0;
}

/* So too, and else a hundredth of each line that stands behind it in the file. */
static double little_or_none(const void *context, const struct brake_vehicle *vehicle)
{
    const double front = none_above(context, vehicle);
    return front + 0.01 * vehicle->axle[BRAKE_REAR].pads.mu + 1e-6 * vehicle->general.mass;
}

static int depend(const char *text, brake_asked *ask)
{
    read_sheet(&sheet, text);
    return brake_depends(&sheet, ask, NULL, list);
}

static int place_of(const char *path, int count)
{
    const int index = brake_catalogue_find(&sheet.vehicle, path);
    assert_true(index >= 0);
    for (int i = 0; i < count; i++) {
        if (list[i].index == index)
            return i;
    }
    return -1;
}

static void what_moves_a_number_is_found_with_its_change(void **state)
{
    (void)state;
    const int count = depend(plain, most);
    assert_near(list[place_of("front.disc.pads.mu", count)].change, 0.04, 1e-9);
    assert_near(list[place_of("rear.disc.pads.mu", count)].change, 0.01, 1e-9);
    /* Nothing locks, nothing is heated. */
    assert_int_equal(place_of("road.adhesion", count), -1);
    assert_int_equal(place_of("heat.ambient", count), -1);
}

/* However little the others move: what has no figure comes last. */
static void what_has_no_figure_comes_last(void **state)
{
    (void)state;
    const int count = depend(plain, little_or_none);
    assert_true(count > 2);
    assert_int_equal(place_of("front.disc.pads.mu", count), count - 1);
    assert_true(!isfinite(list[count - 1].change));
    assert_true(place_of("rear.disc.pads.mu", count) >= 0);
}

static void what_moves_it_most_comes_first(void **state)
{
    (void)state;
    const int count = depend(plain, most);
    for (int i = 1; i < count; i++)
        assert_true(fabs(list[i].change) <= fabs(list[i - 1].change));
    assert_true(place_of("front.disc.pads.mu", count) < place_of("rear.disc.pads.mu", count));
}

/* Given scales, then the mass comes from them, and not from itself. */
static void a_line_that_is_worked_out_depends_on_what_it_comes_from(void **state)
{
    (void)state;
    const char *text = swapped(plain, "mass = 2000 kg\n", "");
    text = swapped(text, "front_share = 50 %\n", "");
    const int count =
        depend(plus(text, "[scales]\nfront_axle = 1000 kg\nrear_axle = 1000 kg\n"), mass);
    assert_int_equal(count, 2);
    assert_near(list[place_of("scales.front_axle", count)].change, 10.0, 1e-9);
    assert_near(list[place_of("scales.rear_axle", count)].change, 10.0, 1e-9);
}

static void a_temperature_is_raised_by_a_kelvin(void **state)
{
    (void)state;
    const int count = depend(plain, ambient);
    assert_int_equal(count, 1);
    assert_near(list[0].change, 1.0, 1e-9);
}

static void what_is_0_is_raised_as_well(void **state)
{
    (void)state;
    const int count = depend(plain, most);
    const int index = place_of("vehicle.rolling_resistance", count);
    assert_true(index >= 0);
    assert_true(list[index].change > 0.0);
}

/* Given a line at the upper end of its range, then it is lowered, and told as if it were raised. */
static void a_line_at_its_upper_end_is_lowered(void **state)
{
    (void)state;
    const int count = depend(plain, most);
    /* efficiency 1 of front and rear brakes: linear, 4 and 1 m/s2. */
    assert_near(list[place_of("front.disc.efficiency", count)].change, 0.04, 1e-9);
}

static void a_number_that_comes_to_nothing_has_no_change_and_stands_last(void **state)
{
    (void)state;
    const int count = depend(plain, none_above);
    assert_int_equal(count, 1);
    assert_int_equal(place_of("front.disc.pads.mu", count), 0);
    assert_nan(list[0].change);
}

static double part_of_it; /* that goes by the front's friction */

static double nearly_all_fixed(const void *context, const struct brake_vehicle *vehicle)
{
    (void)context;
    return 8.0 * (1.0 + part_of_it * (vehicle->axle[BRAKE_FRONT].pads.mu / 0.4 - 1.0));
}

static double naught(const void *context, const struct brake_vehicle *vehicle)
{
    (void)context;
    (void)vehicle;
    return 0.0;
}

/* 1e-9 of the number, of which friction, moved by a hundredth, moves a part. */
static void what_is_less_than_rounding_is_no_change(void **state)
{
    (void)state;
    part_of_it = 0.99e-7;
    assert_int_equal(depend(plain, nearly_all_fixed), 0);
    part_of_it = 1.01e-7;
    assert_int_equal(depend(plain, nearly_all_fixed), 1);
    assert_int_equal(depend(plain, naught), 0);
}

static double rear_radius(const void *context, const struct brake_vehicle *vehicle)
{
    (void)context;
    return vehicle->axle[BRAKE_REAR].tyre.rolling_radius;
}

/* The rear tyre is the front one, unless the file says what it is. */
static void a_line_that_repeats_another_is_not_told(void **state)
{
    (void)state;
    assert_int_equal(depend(plain, rear_radius), 1);
    assert_int_equal(place_of("front.tyre.rolling_radius", 1), 0);
    const char *text =
        plus(plain, "[rear.tyre]\nrolling_radius = 380 mm\nwheel_inertia = 10 kg*m2\n");
    assert_int_equal(depend(text, rear_radius), 1);
    assert_int_equal(place_of("rear.tyre.rolling_radius", 1), 0);
    assert_near(list[0].change, 0.0038, 1e-12);
}

static double of_split_or_torque(const void *context, const struct brake_vehicle *vehicle)
{
    (void)context;
    return vehicle->circuits.split + (isnan(vehicle->parking.torque) ? 0.0 : 100.0);
}

/* Neither the split of the circuits nor a torque that is left out. */
static void what_is_no_number_is_not_moved(void **state)
{
    (void)state;
    assert_int_equal(depend(plain, of_split_or_torque), 0);
}

static double over_efficiency(const void *context, const struct brake_vehicle *vehicle)
{
    (void)context;
    return 1.0 / vehicle->pedal.efficiency;
}

static double resistance(const void *context, const struct brake_vehicle *vehicle)
{
    (void)context;
    return vehicle->general.rolling_resistance;
}

/* An efficiency of 1, the most there is, is lowered; one that comes to 1 is raised. What is nothing
 * is raised by a hundredth of its range. */
static void a_line_is_moved_up_unless_its_range_ends(void **state)
{
    (void)state;
    assert_int_equal(depend(plain, over_efficiency), 1);
    assert_near(list[0].change, -(1.0 / 0.99 - 1.0), 1e-12);
    change(&sheet, "pedal.efficiency=0.9900990099009901");
    assert_equal(1.01 * value_at(&sheet, "pedal.efficiency"), 1.0);
    assert_int_equal(brake_depends(&sheet, over_efficiency, NULL, list), 1);
    assert_near(list[0].change, 1.0 - 1.01, 1e-12);
    assert_int_equal(depend(plain, resistance), 1);
    assert_equal(value_at(&sheet, "vehicle.rolling_resistance"), 0.0);
    assert_near(list[0].change, 0.01 * brake_quantity_at(list[0].index)->high, 1e-15);
}

static double none_above_either(const void *context, const struct brake_vehicle *vehicle)
{
    const bool heavier = vehicle->general.mass > 2001.0;
    return heavier || vehicle->pedal.ratio > 4.01 ? BRAKE_NAN : none_above(context, vehicle);
}

/* Three that have no figure. */
static void what_is_as_large_stands_as_in_the_file(void **state)
{
    (void)state;
    assert_int_equal(depend(plain, none_above_either), 3);
    for (int i = 1; i < 3; i++)
        assert_true(list[i].index > list[i - 1].index);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_moves_a_number_is_found_with_its_change),
        cmocka_unit_test(what_has_no_figure_comes_last),
        cmocka_unit_test(what_moves_it_most_comes_first),
        cmocka_unit_test(a_line_that_is_worked_out_depends_on_what_it_comes_from),
        cmocka_unit_test(a_temperature_is_raised_by_a_kelvin),
        cmocka_unit_test(what_is_0_is_raised_as_well),
        cmocka_unit_test(a_line_at_its_upper_end_is_lowered),
        cmocka_unit_test(a_number_that_comes_to_nothing_has_no_change_and_stands_last),
        cmocka_unit_test(what_is_less_than_rounding_is_no_change),
        cmocka_unit_test(a_line_that_repeats_another_is_not_told),
        cmocka_unit_test(what_is_no_number_is_not_moved),
        cmocka_unit_test(a_line_is_moved_up_unless_its_range_ends),
        cmocka_unit_test(what_is_as_large_stands_as_in_the_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
