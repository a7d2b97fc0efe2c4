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
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
