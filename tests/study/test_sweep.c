/* SPDX-License-Identifier: MIT */
/* Sweeps: the order of the grid, its values, and cases that are to the bit what setting, completing
 * and asking one by one gives. */
#include "../vehicle/sheet.h"

#include "brake/sweep.h"
#include "study/asked.h"
#include "study/batch.h"
#include "model/braking_lanes.h"
#include "study/cases.h"

static struct brake_sheet sheet;
static struct brake_sweeper sweeper;
static struct brake_error error;

static struct brake_axis listed(const char *path, const char *unit, const double *number, int count)
{
    return (struct brake_axis){.index = index_at(&sheet.vehicle, path),
                               .unit = brake_unit_find(unit),
                               .spacing = BRAKE_LISTED,
                               .count = count,
                               .number = number};
}

static struct brake_axis steps(double low, double high, double step)
{
    struct brake_axis axis = {0};
    assert_int_equal(brake_axis_steps(low, high, step, &axis), BRAKE_OK);
    return axis;
}

static struct brake_output output_named(const char *name)
{
    struct brake_output output;
    assert_int_equal(brake_output_find(name, &output), BRAKE_OK);
    return output;
}

static void begin(const struct brake_sweep *sweep)
{
    const enum brake_status status = brake_sweep_begin(sweep, &sweeper, &error);
    if (status != BRAKE_OK)
        print_error("%s: %s\n", error.field, error.text);
    assert_int_equal(status, BRAKE_OK);
}

/* ---- axes ----------------------------------------------------------------------------------- */

static void steps_reach_the_high_end_when_a_whole_number_of_them_does(void **state)
{
    (void)state;
    const struct brake_axis axis = steps(2.2, 2.9, 0.01);
    assert_int_equal(axis.count, 71);
    assert_equal(brake_axis_number(&axis, 0), 2.2);
    assert_equal(brake_axis_number(&axis, 70), 2.9);
    assert_int_equal(steps(0.0, 1.0, 0.1).count, 11);
    assert_int_equal(steps(-0.3, 0.3, 0.1).count, 7);
}

static void steps_that_do_not_reach_the_high_end_stay_below_it(void **state)
{
    (void)state;
    const struct brake_axis axis = steps(1.0, 2.0, 0.3);
    assert_int_equal(axis.count, 4);
    assert_near(brake_axis_number(&axis, 3), 1.9, ROUNDING);
    assert_int_equal(steps(5.0, 5.0, 1.0).count, 1);
    assert_int_equal(steps(5.0, 5.5, 1.0).count, 1);
}

/* In binary 2.2 + 10 x 0.01 is not 2.3. */
static void decimal_steps_give_decimal_numbers(void **state)
{
    (void)state;
    const struct brake_axis axis = steps(2.2, 2.9, 0.01);
    assert_equal(brake_axis_number(&axis, 10), 2.3);
    assert_equal(brake_axis_number(&axis, 33), 2.53);
    /* Nothing is a decimal number as well. */
    const struct brake_axis from_nothing = steps(0.0, 1.0, 0.1);
    assert_equal(brake_axis_number(&from_nothing, 3), 0.3);
}

/* What binary leaves in the last digit is left out, but no more: 0.3 / 0.1 is 3, and what is off by
 * 5e-13 is meant so. */
static void a_last_digit_is_rounded_and_no_other(void **state)
{
    (void)state;
    const struct brake_axis rounded = steps(0.3 / 0.1, 30.0, 0.3 / 0.1);
    assert_true(0.3 / 0.1 < 3.0);
    for (int i = 0; i < 10; i++)
        assert_equal(brake_axis_number(&rounded, i), 3.0 * (i + 1));
    const struct brake_axis odd_step = steps(1.0, 2.0, 0.1 + 5e-13);
    assert_equal(brake_axis_number(&odd_step, 1), 1.0 + (0.1 + 5e-13));
    const struct brake_axis odd_low = steps(1.1 + 5e-13, 2.0, 0.1);
    assert_equal(brake_axis_number(&odd_low, 0), 1.1 + 5e-13);
}

static void steps_of_no_decimal_numbers_are_taken_as_they_are(void **state)
{
    (void)state;
    const struct brake_axis axis = steps(1.0 / 3.0, 1.0, 1.0 / 9.0);
    assert_int_equal(axis.count, 7);
    assert_near(brake_axis_number(&axis, 3), 2.0 / 3.0, ROUNDING);
}

static void ratios_are_equal_and_keep_both_ends(void **state)
{
    (void)state;
    struct brake_axis axis = {0};
    assert_int_equal(brake_axis_ratios(0.1, 100.0, 4, &axis), BRAKE_OK);
    assert_equal(brake_axis_number(&axis, 0), 0.1);
    assert_near(brake_axis_number(&axis, 1), 1.0, ROUNDING);
    assert_near(brake_axis_number(&axis, 2), 10.0, ROUNDING);
    assert_equal(brake_axis_number(&axis, 3), 100.0);
    /* 0.3 times 0.7 / 0.3 is 0.7 but for the last digit. */
    assert_int_equal(brake_axis_ratios(0.3, 0.7, 2, &axis), BRAKE_OK);
    assert_equal(brake_axis_number(&axis, 1), 0.7);
}

static void axes_without_an_end_are_refused(void **state)
{
    (void)state;
    struct brake_axis axis;
    const double wrong[][3] = {{1.0, 2.0, 0.0},       {1.0, 2.0, -0.1},
                               {2.0, 1.0, 0.1},       {1.0, 2.0, 1e-16},
                               {BRAKE_NAN, 2.0, 0.1}, {1.0, BRAKE_NAN, 0.1},
                               {1.0, 2.0, BRAKE_NAN}, {0.0, BRAKE_INFINITY, 1.0}};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        assert_int_equal(brake_axis_steps(wrong[i][0], wrong[i][1], wrong[i][2], &axis),
                         BRAKE_E_RANGE);
    assert_int_equal(brake_axis_ratios(0.0, 1.0, 3, &axis), BRAKE_E_RANGE);
    assert_int_equal(brake_axis_ratios(-1.0, 1.0, 3, &axis), BRAKE_E_RANGE);
    assert_int_equal(brake_axis_ratios(2.0, 1.0, 3, &axis), BRAKE_E_RANGE);
    assert_int_equal(brake_axis_ratios(1.0, 2.0, 1, &axis), BRAKE_E_RANGE);
    assert_int_equal(brake_axis_ratios(1.0, BRAKE_INFINITY, 3, &axis), BRAKE_E_RANGE);
}

/* ---- the grid ------------------------------------------------------------------------------- */

static const double masses[] = {1900.0, 2000.0, 2100.0};
static const double ratios[] = {3.0, 4.0};

/* Two axes of the plain vehicle: 2 pedal ratios x 3 masses. */
struct grid {
    struct brake_axis axis[2];
    struct brake_output output[2];
    struct brake_sweep sweep;
};

static void make_grid(struct grid *grid)
{
    read_sheet(&sheet, plain);
    grid->axis[0] = listed("pedal.ratio", "", ratios, 2);
    grid->axis[1] = listed("vehicle.mass", "kg", masses, 3);
    grid->output[0] = output_named("empty.mass.total");
    grid->output[1] = output_named("empty.deceleration.at_pedal_force");
    grid->sweep = (struct brake_sweep){&sheet, grid->axis, 2, grid->output, 2, false};
    begin(&grid->sweep);
}

static void the_last_axis_runs_fastest(void **state)
{
    (void)state;
    struct grid grid;
    double value[6][2];
    make_grid(&grid);
    assert_int_equal(brake_sweep_count(&grid.sweep), 6);
    assert_int_equal(brake_sweep_values(&sweeper, 1, NULL, &value[0][0]), 6);
    for (int i = 0; i < 6; i++)
        assert_equal(value[i][0], masses[i % 3]);
    assert_true(value[0][1] < value[3][1]);
}

static void a_position_tells_the_value_of_each_axis(void **state)
{
    (void)state;
    struct grid grid;
    long long at[2];
    make_grid(&grid);
    brake_sweep_position(&grid.sweep, 4, at);
    assert_int_equal(at[0], 1);
    assert_int_equal(at[1], 1);
}

static void the_sheet_that_is_swept_stays_as_it_is(void **state)
{
    (void)state;
    struct grid grid;
    double value[12];
    static struct brake_sheet before;
    make_grid(&grid);
    before = sheet;
    (void)brake_sweep_values(&sweeper, 2, NULL, value);
    assert_memory_equal(&before, &sheet, sizeof sheet);
}

static void units_of_an_axis_are_its_own(void **state)
{
    (void)state;
    static const double pounds[] = {4400.0};
    const struct brake_output output = output_named("empty.mass.total");
    double value;
    read_sheet(&sheet, plain);
    const struct brake_axis axis = listed("vehicle.mass", "lb", pounds, 1);
    const struct brake_sweep sweep = {&sheet, &axis, 1, &output, 1, false};
    begin(&sweep);
    assert_int_equal(brake_sweep_case(&sweeper, 0, &value, &error), BRAKE_OK);
    assert_near(value, 4400.0 * 0.45359237, ROUNDING); /* the international pound */
}

/* ---- to the bit ----------------------------------------------------------------------------- */

static bool same(const double *a, const double *b, int count)
{
    bool all = true;
    for (int i = 0; i < count; i++)
        all = all && (a[i] == b[i] || (isnan(a[i]) && isnan(b[i])));
    return all;
}

/* What setting one line, completing and asking gives. */
static enum brake_status one_by_one(int index, double number, const struct brake_output *output,
                                    int count, double *value)
{
    static struct brake_sheet one;
    one = sheet;
    assert_int_equal(brake_sheet_set(&one, index, number), BRAKE_OK);
    const enum brake_status status = brake_sheet_complete(&one, &error);
    if (status == BRAKE_OK)
        brake_outputs(&one.vehicle, output, count, value);
    for (int i = 0; i < count && status != BRAKE_OK; i++)
        value[i] = BRAKE_NAN;
    return status;
}

/* All but those of a fade procedure, which takes its time and asks the same vehicle. */
static int closed_outputs(struct brake_output *output)
{
    int count = 0;
    for (int i = 0; i < brake_output_count(); i++) {
        if (!brake_output_faded(brake_output_at(i)))
            output[count++] = brake_output_at(i);
    }
    return count;
}

/* Low, high and what lies between, so that a case follows others of every kind. */
static int compare_quantity(int index)
{
    static struct brake_output output[BRAKE_OUTPUTS];
    const int count = closed_outputs(output);
    static double value[BRAKE_OUTPUTS];
    static double expected[BRAKE_OUTPUTS];
    const struct brake_quantity *q = brake_quantity_at(index);
    const double have = brake_quantity_value(&sheet.vehicle, index);
    const double middle = isnan(have) ? (q->low + q->high) / 2.0 : have;
    const double number[] = {q->low,  middle,
                             q->high, 0.9 * middle + 0.1 * q->low,
                             middle,  0.98 * middle + 0.02 * q->high};
    const struct brake_axis axis = {.index = index,
                                    .unit = brake_unit_si(q->dimension),
                                    .spacing = BRAKE_LISTED,
                                    .count = 6,
                                    .number = number};
    const struct brake_sweep sweep = {&sheet, &axis, 1, output, count, false};
    struct brake_error told;
    int refused = 0;
    const enum brake_status begun = brake_sweep_begin(&sweep, &sweeper, &told);
    for (int i = 0; i < 6; i++) {
        const enum brake_status status =
            begun == BRAKE_OK ? brake_sweep_case(&sweeper, i, value, &told) : begun;
        const enum brake_status expect = one_by_one(index, number[i], output, count, expected);
        if (begun != BRAKE_OK)
            assert_int_not_equal(expect, BRAKE_OK);
        else
            assert_int_equal(status, expect);
        if (begun != BRAKE_OK)
            continue;
        if (!same(value, expected, count))
            print_error("%s, case %d\n", q->name, i);
        assert_true(same(value, expected, count));
        refused += status != BRAKE_OK;
        if (status != BRAKE_OK)
            assert_string_equal(told.text, error.text);
    }
    return refused;
}

static bool stands_in(int index)
{
    char path[160];
    brake_catalogue_path(&sheet.vehicle, index, path, sizeof path);
    return brake_quantity_at(index)->kind == BRAKE_REAL &&
           brake_catalogue_find(&sheet.vehicle, path) == index;
}

static void compare_all_quantities(int *compared, int *refused)
{
    *compared = *refused = 0;
    for (int i = 0; i < brake_catalogue_count(); i++) {
        if (!stands_in(i))
            continue;
        *refused += compare_quantity(i);
        (*compared)++;
    }
}

static void every_quantity_of_a_vehicle_of_raw_readings_gives_the_same_bits(void **state)
{
    (void)state;
    int compared;
    int refused;
    FILE *stream = fopen(SOURCE_ROOT "/examples/heron.ini", "rb");
    assert_non_null(stream);
    assert_int_equal(brake_file_read(stream, &sheet, &error), BRAKE_OK);
    fclose(stream);
    complete(&sheet);
    compare_all_quantities(&compared, &refused);
    assert_true(compared > 100);
    assert_true(refused > 20);
}

static void every_quantity_of_a_plain_vehicle_gives_the_same_bits(void **state)
{
    (void)state;
    int compared;
    int refused;
    read_sheet(&sheet, drum_text());
    compare_all_quantities(&compared, &refused);
    assert_true(compared > 80);
    assert_true(refused > 5);
}

/* Discs at the rear whose radius follows from their pads, as Heron has none. */
static void every_quantity_of_discs_at_the_rear_gives_the_same_bits(void **state)
{
    (void)state;
    int compared;
    int refused;
    read_sheet(&sheet, plus(swapped(plain, "effective_radius = 0.125 m\n", ""),
                            "[rear.disc.pads]\ninner_radius = 100 mm\nouter_radius = 150 mm\n"));
    const int inner = index_at(&sheet.vehicle, "rear.disc.pads.inner_radius");
    assert_near(value_at(&sheet, "rear.disc.effective_radius"), 0.125, ROUNDING);
    assert_true(compare_quantity(inner) > 0); /* an inner edge outside the outer one */
    compare_all_quantities(&compared, &refused);
    assert_true(compared > 80);
    assert_true(refused > 5);
}

/* Drums of an axle, with or without the shape of their shoes. */
static const char *drums_of(const char *axle, const char *shoes, const char *shape)
{
    char made[600];
    snprintf(made, sizeof made,
             "[%s.drum]\nshoes = %s\ndiameter = 280 mm\ncylinder_diameter = 25 mm\n"
             "efficiency = 1\nthreshold = 0 bar\n[%s.drum.lining]\nmu = 0.25\n%s",
             axle, shoes, axle, shape);
    return kept(made);
}

/* What is left out of a drum follows from its lining: the usual factor from friction, the second
 * shoe of a servo brake from the first. One axle has the one, the other the other, and turned. */
static void drums_follow_their_linings_to_the_bit(void **state)
{
    (void)state;
    static const char *const axles[] = {"front", "rear"};
    static const char *const names[] = {"drum.lining.mu",        "drum.lining.heel",
                                        "drum.lining.toe",       "drum.lining.pivot_radius",
                                        "drum.lining.force_arm", "drum.cylinder_diameter",
                                        "drum.diameter"};
    static const char shape[] =
        "pivot_radius = 105 mm\nforce_arm = 190 mm\nheel = 22 deg\ntoe = 125 deg\n";
    const char *bare = swapped(plain, "brake = disc\n[front.tyre]", "brake = drum\n[front.tyre]");
    bare = swapped(bare, "brake = disc\n[rear.disc]", "brake = drum\n[rear.disc]");
    bare = swapped(bare,
                   "[front.disc]\nmounting = floating\npistons = 1 x 60 mm\n"
                   "effective_radius = 125 mm\nefficiency = 1\nthreshold = 0 bar\n"
                   "compliance = 0 cm3\n[front.disc.pads]\nmu = 0.4\ngap = 0.25 mm\n",
                   "");
    bare = swapped(bare,
                   "[rear.disc]\nmounting = fixed\npistons = 1 x 30 mm\n"
                   "effective_radius = 0.125 m\nefficiency = 1.0\nthreshold = 0 kPa\n"
                   "compliance = 0 mm3\nhat_mass = 0 kg\n[rear.disc.pads]\nmu = 40 %\n"
                   "gap = 0.00025 m\n",
                   "");
    for (int servo = 0; servo < 2; servo++) {
        const char *text = plus(bare, drums_of(axles[servo], "duo_servo", shape));
        text = plus(text, drums_of(axles[1 - servo], "two_leading", ""));
        read_sheet(&sheet, plus(text, "[pedal]\ntravel = 150 mm\n"));
        for (int axle = 0; axle < 2; axle++) {
            for (size_t k = 0; k < sizeof names / sizeof names[0]; k++) {
                char path[80];
                snprintf(path, sizeof path, "%s.%s", axles[axle], names[k]);
                if (axle == servo || strstr(path, "lining") == NULL || k == 0)
                    (void)compare_quantity(index_at(&sheet.vehicle, path));
            }
        }
    }
}

static void hot_performance_gives_the_same_bits(void **state)
{
    (void)state;
    static const double friction[] = {0.38, 0.35, 0.38};
    const struct brake_output output[] = {output_named("us.135.hot"),
                                          output_named("fade.last_snub_force")};
    double value[2];
    double expected[2];
    FILE *stream = fopen(SOURCE_ROOT "/examples/heron.ini", "rb");
    assert_non_null(stream);
    assert_int_equal(brake_file_read(stream, &sheet, &error), BRAKE_OK);
    fclose(stream);
    complete(&sheet);
    const struct brake_axis axis = listed("front.disc.pads.mu", "", friction, 3);
    const struct brake_sweep sweep = {&sheet, &axis, 1, output, 2, false};
    begin(&sweep);
    for (int i = 0; i < 3; i++) {
        assert_int_equal(brake_sweep_case(&sweeper, i, value, &error), BRAKE_OK);
        assert_int_equal(one_by_one(axis.index, friction[i], output, 2, expected), BRAKE_OK);
        assert_true(isfinite(value[0]) && isfinite(value[1]));
        assert_true(same(value, expected, 2));
    }
}

static void any_number_of_threads_gives_the_same_bits(void **state)
{
    (void)state;
    const struct brake_output output = output_named("full.stop.distance");
    static double one[2000];
    static double many[2000];
    read_sheet(&sheet, full_text());
    struct brake_axis axis = steps(2.0, 3.999, 0.001);
    axis.index = index_at(&sheet.vehicle, "vehicle.wheelbase");
    axis.unit = brake_unit_find("m");
    const struct brake_sweep sweep = {&sheet, &axis, 1, &output, 1, false};
    begin(&sweep);
    assert_int_equal(brake_sweep_values(&sweeper, 1, NULL, one), 2000);
    for (int threads = 2; threads <= 7; threads += 5) {
        memset(many, 0, sizeof many);
        assert_int_equal(brake_sweep_values(&sweeper, threads, NULL, many), 2000);
        assert_true(same(one, many, 2000));
    }
}

/* ---- side by side --------------------------------------------------------------------------- */

enum { SIDE = 3, FILLED = 8, BATCH = SIDE * SIDE * FILLED * FILLED };

static const char *const batch_outputs[] = {"full.deceleration.at_pedal_force",
                                            "full.deceleration.most",
                                            "full.deceleration.brakes_alone",
                                            "full.balance.lock_deceleration",
                                            "full.stop.distance",
                                            "full.stop.time",
                                            "full.balance.lock_pedal_force",
                                            "full.failed.no_assist",
                                            "full.mass.total",
                                            "full.mass.effective",
                                            "full.mass.front_axle",
                                            "full.mass.rear_axle",
                                            "full.cg.behind_front_axle",
                                            "full.cg.height",
                                            "full.pedal.knee_force",
                                            "full.pedal.knee_deceleration",
                                            "full.torque.front_needed",
                                            "full.torque.rear_needed",
                                            "full.torque.front_available",
                                            "full.torque.rear_available",
                                            "full.torque.front_margin",
                                            "full.torque.rear_margin",
                                            "full.torque.margin",
                                            "full.balance.ideal_front_share",
                                            "full.balance.lock_axle",
                                            "full.balance.efficiency",
                                            "full.balance.valve_knee",
                                            "full.stop.energy",
                                            "full.mass.front_axle_margin",
                                            "full.mass.rear_axle_margin",
                                            "full.mass.front_tyre_margin",
                                            "full.mass.rear_tyre_margin",
                                            "full.mass.rated_margin",
                                            "full.pedal.travel",
                                            "full.pedal.travel_used",
                                            "full.pedal.primary_stroke_used",
                                            "full.pedal.secondary_stroke_used",
                                            "full.fluid.gaps",
                                            "full.fluid.shoes",
                                            "full.fluid.take_up",
                                            "full.fluid.compliance",
                                            "full.fluid.hoses",
                                            "full.fluid.air",
                                            "full.fluid.total",
                                            "full.stop.sight_distance",
                                            "full.stop.front_heat_share",
                                            "full.stop.front_rise",
                                            "full.stop.rear_rise",
                                            "full.tow.without_brakes",
                                            "full.tow.as_stated",
                                            "full.tow.all_brakes",
                                            "full.parking.needed",
                                            "full.parking.margin",
                                            "full.parking.trailer_grade",
                                            "full.balance.locked_drive_lock_deceleration",
                                            "full.failed.no_antilock",
                                            "full.failed.first_circuit",
                                            "full.failed.second_circuit",
                                            "full.failed.low_vacuum",
                                            "full.failed.valve_open",
                                            "empty.failed.valve_shut",
                                            "full.balance.front_share",
                                            "full.balance.front_adhesion_used",
                                            "full.balance.rear_adhesion_used",
                                            "full.pedal.pressure_for_target",
                                            "full.pedal.force_for_target",
                                            "full.parking.effort_grade",
                                            "full.parking.grade_up",
                                            "full.parking.grade_down",
                                            "full.parking.deceleration",
                                            "empty.deceleration.at_pedal_force",
                                            "empty.stop.distance"};

enum { BATCH_OUTPUTS = sizeof batch_outputs / sizeof batch_outputs[0] };

/* How many sweeps shared numbers, and how many of their cases were refused. */
struct counted {
    int shared;
    int refused;
};

/* As it is, low and high: the vehicle takes the first case. */
static struct brake_axis around(int index, double number[SIDE])
{
    const struct brake_quantity *q = brake_quantity_at(index);
    const double have = brake_quantity_value(&sheet.vehicle, index);
    number[0] = isnan(have) ? (q->low + q->high) / 2.0 : have;
    number[1] = 0.9 * number[0] + 0.1 * q->low;
    number[2] = q->high;
    return (struct brake_axis){.index = index,
                               .unit = brake_unit_si(q->dimension),
                               .spacing = BRAKE_LISTED,
                               .count = SIDE,
                               .number = number};
}

static struct brake_axis filled(const char *path, double low, double step)
{
    struct brake_axis axis = steps(low, low + (FILLED - 1) * step, step);
    axis.index = index_at(&sheet.vehicle, path);
    axis.unit = brake_unit_si(brake_quantity_at(axis.index)->dimension);
    return axis;
}

/* Two lines, with two more along which the cases share what those give. */
static void compare_batch(int first, int second, struct counted *counted)
{
    static double room[1 << 19];
    static double value[BATCH][BATCH_OUTPUTS];
    static enum brake_status status[BATCH];
    struct brake_output output[BATCH_OUTPUTS];
    double number[2][SIDE];
    const struct brake_axis axis[] = {around(first, number[0]), around(second, number[1]),
                                      filled("road.adhesion", 0.5, 0.05),
                                      filled("driver.pedal_force", 100.0, 50.0)};
    const struct brake_sweep sweep = {&sheet, axis, 4, output, BATCH_OUTPUTS, false};
    for (int i = 0; i < BATCH_OUTPUTS; i++)
        output[i] = output_named(batch_outputs[i]);
    if (brake_sweep_begin(&sweep, &sweeper, &error) != BRAKE_OK || brake_sweep_room(&sweeper) == 0)
        return;
    brake_sweep_share(&sweeper, room);
    counted->shared += sweeper.lookup.tables > 0;
    brake_sweep_cases(&sweeper, 0, BATCH, &value[0][0], status);
    for (int i = 0; i < BATCH; i++) {
        double expected[BATCH_OUTPUTS];
        assert_int_equal(brake_sweep_case(&sweeper, i, expected, &error), status[i]);
        if (!same(value[i], expected, BATCH_OUTPUTS))
            print_error("quantities %d and %d, case %d\n", first, second, i);
        assert_true(same(value[i], expected, BATCH_OUTPUTS));
        counted->refused += status[i] != BRAKE_OK;
    }
}

/* Every line beside one near it and one far from it. */
static struct counted compare_all_batch(void)
{
    const int count = brake_catalogue_count();
    struct counted counted = {0, 0};
    for (int i = 0; i < count; i++) {
        for (int away = 1; away <= 40; away += 39) {
            const int other = (i + away) % count;
            if (stands_in(i) && stands_in(other))
                compare_batch(i, other, &counted);
        }
    }
    return counted;
}

static void read_heron(void)
{
    FILE *stream = fopen(SOURCE_ROOT "/examples/heron.ini", "rb");
    assert_non_null(stream);
    assert_int_equal(brake_file_read(stream, &sheet, &error), BRAKE_OK);
    fclose(stream);
    complete(&sheet);
}

static void cases_side_by_side_give_the_bits_of_one_by_one(void **state)
{
    (void)state;
    read_heron();
    struct counted counted = compare_all_batch();
    assert_true(counted.shared > 80);
    assert_true(counted.refused > 1000);
    read_sheet(&sheet, drum_text());
    counted = compare_all_batch();
    assert_true(counted.shared > 60);
}

static size_t room_for(const char *name, int count)
{
    const struct brake_output output = output_named(name);
    struct brake_axis axis[] = {filled("road.adhesion", 0.5, 0.01),
                                filled("driver.pedal_force", 100.0, 10.0)};
    axis[0].count = axis[1].count = count;
    const struct brake_sweep sweep = {&sheet, axis, 2, &output, 1, false};
    begin(&sweep);
    return brake_sweep_room(&sweeper);
}

static void what_cases_do_not_share_is_not_tabulated(void **state)
{
    (void)state;
    read_sheet(&sheet, plain);
    assert_true(room_for("empty.deceleration.at_pedal_force", 32) > 0);
    assert_int_equal(room_for("empty.steering.pull", 32), 0); /* lanes do not know it */
    assert_int_equal(room_for("empty.deceleration.at_pedal_force", 3), 0); /* does not pay */
    assert_int_equal(sweeper.lookup.tables, 0);
}

/* Requirements are no answers of lanes, whatever result has the number of theirs. */
static void requirements_are_not_worked_out_side_by_side(void **state)
{
    (void)state;
    int results = 0;
    for (int i = 0; i < brake_output_count(); i++) {
        const struct brake_output output = brake_output_at(i);
        results += brake_batch_knows(output);
        assert_false(output.criterion && brake_batch_knows(output));
    }
    assert_true(results >= BATCH_OUTPUTS);
}

/* Tables pay from eight cases for each of their entries on: those of a and b values along two axes,
 * and one that goes along none, from a b = 8 (a + b + 1) on. */
static void tables_pay_from_eight_cases_an_entry_on(void **state)
{
    (void)state;
    static const struct {
        int first, second;
        bool pays;
    } of[] = {{16, 17, true}, {16, 16, false}, {17, 16, true}, {14, 20, true}, {14, 19, false}};
    const struct brake_output output = output_named("empty.deceleration.at_pedal_force");
    read_sheet(&sheet, plain);
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
        struct brake_axis axis[] = {filled("road.adhesion", 0.5, 0.01),
                                    filled("driver.pedal_force", 100.0, 10.0)};
        axis[0].count = of[i].first;
        axis[1].count = of[i].second;
        const struct brake_sweep sweep = {&sheet, axis, 2, &output, 1, false};
        begin(&sweep);
        assert_int_equal(brake_sweep_room(&sweeper) > 0, of[i].pays);
    }
}

enum { SIDES = 20, PARTED = 4 * SIDES * SIDES, OUTPUTS = 4 };

/* Cases of which half are refused, 2000 kg of 2000 kg unsprung, along the first axis, the second or
 * the last; of two loads, and of brakes intact and failed. */
static void begin_parted(int place, struct brake_sweep *sweep)
{
    static const char *const names[OUTPUTS] = {"full.stop.distance", "empty.stop.distance",
                                               "full.failed.first_circuit",
                                               "full.deceleration.at_pedal_force"};
    static const double unsprung[] = {400.0, 2000.0, 2000.0, 500.0};
    static struct brake_axis axis[3];
    static struct brake_output output[OUTPUTS];
    read_sheet(&sheet, plain);
    axis[(place + 1) % 3] = filled("road.adhesion", 0.5, 0.02);
    axis[(place + 2) % 3] = filled("driver.pedal_force", 100.0, 20.0);
    axis[(place + 1) % 3].count = axis[(place + 2) % 3].count = SIDES;
    axis[place] = listed("vehicle.unsprung_mass", "kg", unsprung, 4);
    for (int i = 0; i < OUTPUTS; i++)
        output[i] = output_named(names[i]);
    *sweep = (struct brake_sweep){&sheet, axis, 3, output, OUTPUTS, false};
    begin(sweep);
}

static double all[PARTED][OUTPUTS];
static enum brake_status said[PARTED];

/* What each case says by itself. */
static void fill_all(void)
{
    int refused = 0;
    for (int i = 0; i < PARTED; i++) {
        for (int k = 0; k < OUTPUTS; k++)
            all[i][k] = 7.0;
        said[i] = brake_sweep_case(&sweeper, i, all[i], &error);
        assert_true(said[i] == BRAKE_OK || said[i] == BRAKE_E_CONFLICT);
        for (int k = 0; k < OUTPUTS; k++)
            assert_int_equal(isnan(all[i][k]), said[i] != BRAKE_OK);
        refused += said[i] != BRAKE_OK;
    }
    assert_int_equal(refused, PARTED / 2);
}

static void hold_part(int first, int count)
{
    static double value[PARTED + 1][OUTPUTS];
    static enum brake_status status[PARTED + 1];
    value[count][0] = value[count][1] = -77.0;
    status[count] = BRAKE_E_SIZE;
    brake_sweep_cases(&sweeper, first, count, value[0], status);
    assert_true(same(value[0], all[first], OUTPUTS * count));
    assert_memory_equal(status, &said[first], (size_t)count * sizeof status[0]);
    assert_true(value[count][0] == -77.0 && value[count][1] == -77.0);
    assert_int_equal(status[count], BRAKE_E_SIZE);
    memset(value, 0, sizeof value);
    brake_sweep_cases(&sweeper, first, count, value[0], NULL);
    assert_true(same(value[0], all[first], OUTPUTS * count));
}

/* Any part of the cases, one by one or by tables, is what it is among all; behind it nothing is
 * filled. */
static void any_part_of_the_cases_is_that_of_all(void **state)
{
    (void)state;
    static const int part[][2] = {{0, 1},   {0, 63},   {0, 64},  {1, 65},
                                  {5, 130}, {19, 200}, {799, 1}, {PARTED - 65, 65}};
    static double room[1 << 16];
    static double value[PARTED][OUTPUTS];
    for (int place = 0; place < 3; place++) {
        struct brake_sweep sweep;
        begin_parted(place, &sweep);
        fill_all();
        for (int shared = 0; shared < 2; shared++) {
            if (shared == 1) {
                assert_in_range(brake_sweep_room(&sweeper), 1, 1 << 16);
                brake_sweep_share(&sweeper, room);
            }
            assert_int_equal(sweeper.lookup.tables > 0, shared);
            for (size_t i = 0; i < sizeof part / sizeof part[0]; i++)
                hold_part(part[i][0], part[i][1]);
            memset(value, 0, sizeof value);
            assert_int_equal(brake_sweep_values(&sweeper, 2, NULL, value[0]), PARTED);
            assert_true(same(value[0], all[0], OUTPUTS * PARTED));
        }
    }
}

/* What no output hangs on may be refused all the same: a vacuum whose least is more than it is. */
static void what_no_output_hangs_on_is_refused_too(void **state)
{
    (void)state;
    static const double least[] = {45.0, 65.0, 50.0}; /* [kPa] of 60 */
    static double room[1 << 16];
    static double value[3 * SIDES * SIDES];
    static enum brake_status status[3 * SIDES * SIDES];
    const struct brake_output output = output_named("empty.parking.effort_grade");
    read_sheet(&sheet, plus(swapped(plain, "booster = none", "booster = fitted"),
                            "[booster]\ngain = 4\nassist = 1200 N\nvacuum = 60 kPa\n"
                            "vacuum_low = 45 kPa\n[parking]\ntorque = 1000 N*m\n"));
    struct brake_axis axis[] = {listed("booster.vacuum_low", "kPa", least, 3),
                                filled("road.adhesion", 0.5, 0.02),
                                filled("driver.pedal_force", 100.0, 20.0)};
    axis[1].count = axis[2].count = SIDES;
    const struct brake_sweep sweep = {&sheet, axis, 3, &output, 1, false};
    begin(&sweep);
    assert_in_range(brake_sweep_room(&sweeper), 1, 1 << 16);
    brake_sweep_share(&sweeper, room);
    assert_true(sweeper.lookup.tables > 0);
    brake_sweep_cases(&sweeper, 0, 3 * SIDES * SIDES, value, status);
    for (int i = 0; i < 3 * SIDES * SIDES; i++) {
        const bool refused = i / SIDES / SIDES == 1;
        assert_int_equal(status[i], refused ? BRAKE_E_CONFLICT : BRAKE_OK);
        assert_int_equal(isnan(value[i]), refused);
    }
}

/* An axis in steps may be of one value alone, which is looked at. */
static void an_axis_of_one_step_has_one_case(void **state)
{
    (void)state;
    const struct brake_output output = output_named("full.mass.total");
    double value;
    read_sheet(&sheet, plain);
    for (int i = 0; i < 2; i++) {
        struct brake_axis axis = steps(i == 0 ? 1900.0 : 1e9, i == 0 ? 1900.0 : 1e9, 1.0);
        axis.index = index_at(&sheet.vehicle, "vehicle.mass");
        axis.unit = brake_unit_find("kg");
        const struct brake_sweep sweep = {&sheet, &axis, 1, &output, 1, false};
        assert_int_equal(brake_sweep_count(&sweep), 1);
        assert_int_equal(brake_sweep_begin(&sweep, &sweeper, &error),
                         i == 0 ? BRAKE_OK : BRAKE_E_RANGE);
        if (i == 0)
            assert_int_equal(brake_sweep_values(&sweeper, 1, NULL, &value), 1);
    }
    assert_near(value, 2400.0, 1e-9);
}

/* ---- what is refused ------------------------------------------------------------------------ */

static void a_case_that_contradicts_itself_has_no_outputs_and_the_next_has(void **state)
{
    (void)state;
    static const double unsprung[] = {400.0, 2000.0, 400.0}; /* of 2000 kg */
    const struct brake_output output = output_named("full.stop.distance");
    double value[3];
    read_sheet(&sheet, plain);
    const struct brake_axis axis = listed("vehicle.unsprung_mass", "kg", unsprung, 3);
    const struct brake_sweep sweep = {&sheet, &axis, 1, &output, 1, false};
    begin(&sweep);
    for (int i = 0; i < 3; i++)
        assert_int_equal(brake_sweep_case(&sweeper, i, &value[i], &error),
                         i == 1 ? BRAKE_E_CONFLICT : BRAKE_OK);
    assert_nan(value[1]);
    assert_true(value[0] > 0.0);
    assert_equal(value[2], value[0]);
}

static enum brake_status begun_with(const struct brake_axis *axis, int count)
{
    const struct brake_output output = output_named("full.stop.distance");
    const struct brake_sweep sweep = {&sheet, axis, count, &output, 1, false};
    return brake_sweep_begin(&sweep, &sweeper, &error);
}

static void a_value_out_of_range_is_refused_before_it_begins(void **state)
{
    (void)state;
    static const double wrong[] = {2000.0, 90000.0};
    read_sheet(&sheet, plain);
    const struct brake_axis axis = listed("vehicle.mass", "kg", wrong, 2);
    assert_int_equal(begun_with(&axis, 1), BRAKE_E_RANGE);
    assert_string_equal(error.field, "vehicle.mass");
    struct brake_axis stepped = steps(2000.0, 90000.0, 44000.0);
    stepped.index = axis.index;
    stepped.unit = axis.unit;
    assert_int_equal(stepped.count, 3);
    assert_int_equal(begun_with(&stepped, 1), BRAKE_E_RANGE);
    assert_non_null(strstr(error.text, "got 90000 kg; accepts 300 to 12000 kg"));
}

static void an_axis_of_a_thing_that_is_not_fitted_is_refused_before_it_begins(void **state)
{
    (void)state;
    static const double gains[] = {2.0, 3.0};
    read_sheet(&sheet, plain);
    const struct brake_axis axis = listed("booster.gain", "", gains, 2);
    assert_int_equal(begun_with(&axis, 1), BRAKE_E_CONFLICT);
    assert_string_equal(error.field, "booster.gain");
}

static void an_axis_that_is_no_number_or_stands_twice_is_refused(void **state)
{
    (void)state;
    read_sheet(&sheet, plain);
    const struct brake_axis mass = listed("vehicle.mass", "kg", masses, 3);
    const struct brake_axis brake = listed("front.axle.brake", "", ratios, 2);
    assert_int_equal(begun_with(&brake, 1), BRAKE_E_UNKNOWN);
    assert_int_equal(begun_with((struct brake_axis[]){mass, mass}, 2), BRAKE_E_DUPLICATE);
    assert_int_equal(begun_with(&mass, 0), BRAKE_E_SIZE);
}

static void a_grid_without_an_end_is_refused(void **state)
{
    (void)state;
    struct brake_axis axis[2];
    read_sheet(&sheet, plain);
    axis[0] = steps(1000.0, 2000.0, 1e-6);
    axis[0].index = index_at(&sheet.vehicle, "vehicle.mass");
    axis[1] = steps(2.0, 3.0, 1e-8);
    axis[1].index = index_at(&sheet.vehicle, "vehicle.wheelbase");
    axis[0].unit = brake_unit_find("kg");
    axis[1].unit = brake_unit_find("m");
    assert_int_equal(begun_with(axis, 2), BRAKE_E_SIZE);
}

/* ---- watching and stopping ------------------------------------------------------------------ */

struct watched {
    int calls;
    double done;
    double total;
    volatile sig_atomic_t stop;
    int stop_at; /* calls */
};

static void progress(void *context, double done, double total)
{
    struct watched *watched = context;
    assert_true(done > watched->done);
    watched->calls++;
    watched->done = done;
    watched->total = total;
    if (watched->calls == watched->stop_at)
        watched->stop = 1;
}

/* 40,000 cases: more than the blocks of two rounds. */
static long long run_watched(struct watched *watched, double *value)
{
    const struct brake_output output = output_named("empty.mass.total");
    const struct brake_watch watch = {progress, watched, &watched->stop};
    read_sheet(&sheet, plain);
    struct brake_axis axis = steps(1500.0, 1900.0, 0.01);
    axis.index = index_at(&sheet.vehicle, "vehicle.mass");
    axis.unit = brake_unit_find("kg");
    axis.count = 40000;
    const struct brake_sweep sweep = {&sheet, &axis, 1, &output, 1, false};
    begin(&sweep);
    return brake_sweep_values(&sweeper, 2, &watch, value);
}

static void progress_is_told_until_all_is_done(void **state)
{
    (void)state;
    static double value[40000];
    struct watched watched = {0};
    assert_int_equal(run_watched(&watched, value), 40000);
    assert_true(watched.calls > 1);
    assert_equal(watched.done, 40000.0);
    assert_equal(watched.total, 40000.0);
}

static void a_stop_leaves_a_beginning_of_the_cases(void **state)
{
    (void)state;
    static double value[40000];
    struct watched watched = {.stop_at = 1};
    for (int i = 0; i < 40000; i++)
        value[i] = -1.0;
    const long long done = run_watched(&watched, value);
    assert_true(done > 0 && done < 40000);
    for (int i = 0; i < 40000; i++)
        assert_equal(value[i], i < done ? (150000.0 + i) / 100.0 : -1.0);
}

static void a_stop_from_the_start_does_nothing(void **state)
{
    (void)state;
    static double value[40000];
    struct watched watched = {.stop = 1};
    assert_int_equal(run_watched(&watched, value), 0);
    assert_int_equal(watched.calls, 0);
}

/* Friction of the front and pedal force, each case with its own: 10 mu F / 500 N + F / 500 N. */
static void axes_that_go_together_are_taken_value_by_value(void **state)
{
    (void)state;
    const double mu[] = {0.3, 0.4, 0.5}, force[] = {100.0, 200.0, 300.0};
    double value[3];
    read_sheet(&sheet, plain);
    const struct brake_axis axis[] = {listed("front.disc.pads.mu", "", mu, 3),
                                      listed("driver.pedal_force_most", "N", force, 3)};
    const struct brake_output output = output_named("empty.deceleration.most");
    const struct brake_sweep sweep = {&sheet, axis, 2, &output, 1, true};
    assert_int_equal(brake_sweep_count(&sweep), 3);
    struct brake_sweeper *made = brake_sweeper_new(&sweep, &error);
    assert_non_null(made);
    assert_int_equal(brake_sweep_values(made, 2, NULL, value), 3);
    brake_sweeper_free(made);
    for (int i = 0; i < 3; i++)
        assert_near(value[i], (10.0 * mu[i] + 1.0) * force[i] / 500.0, ROUNDING);
}

static void axes_that_go_together_are_of_one_length(void **state)
{
    (void)state;
    const double mu[] = {0.3, 0.4, 0.5};
    read_sheet(&sheet, plain);
    const struct brake_axis axis[] = {listed("front.disc.pads.mu", "", mu, 3),
                                      listed("rear.disc.pads.mu", "", mu, 2)};
    const struct brake_output output = output_named("empty.deceleration.most");
    const struct brake_sweep sweep = {&sheet, axis, 2, &output, 1, true};
    assert_int_equal(brake_sweep_begin(&sweep, &sweeper, &error), BRAKE_E_SIZE);
    assert_string_equal(error.field, "rear.disc.pads.mu");
    assert_string_equal(error.text, "got 2 values; accepts 3, as the first axis");
}

/* ---- limits to the bit ----------------------------------------------------------------------- */

/* 1e15 values or cases are the most (brake/sweep.h); a single one may be even, by ratio two are the
 * least. */
static void an_axis_has_a_most_of_values(void **state)
{
    (void)state;
    struct brake_axis axis;
    assert_int_equal(brake_axis_steps(0.0, 1e15 - 1.0, 1.0, &axis), BRAKE_OK);
    assert_int_equal(axis.count, 1000000000000000LL);
    assert_int_equal(brake_axis_steps(0.0, 1e15, 1.0, &axis), BRAKE_E_RANGE);
    assert_int_equal(brake_axis_ratios(1.0, 2.0, 1000000000000000LL, &axis), BRAKE_OK);
    const struct brake_sweep sweep = {&sheet, &axis, 1, NULL, 0, false};
    assert_int_equal(brake_sweep_count(&sweep), 1000000000000000LL);
    const struct brake_axis both[] = {axis, steps(1.0, 2.0, 1.0)};
    const struct brake_sweep too_large = {&sheet, both, 2, NULL, 0, false};
    assert_int_equal(brake_sweep_count(&too_large), -1);
    assert_int_equal(brake_axis_ratios(1.0, 2.0, 1000000000000001LL, &axis), BRAKE_E_RANGE);
    assert_int_equal(brake_axis_ratios(2.0, 2.0, 2, &axis), BRAKE_OK);
    assert_int_equal(brake_axis_ratios(1.0, 2.0, 1, &axis), BRAKE_E_RANGE);
    /* nine digits behind the point are taken as decimal, ten are not */
    assert_equal(steps(1e-9, 2e-9, 1e-9).scale, 1e9);
    assert_equal(steps(1e-10, 2e-10, 1e-10).scale, 1.0);
    assert_int_equal(steps(0.0, 3.0 + 2e-9, 1.0).count, 4);
    assert_int_equal(steps(0.0, 3.0 - 2e-9, 1.0).count, 4); /* nearly there is there */
    assert_int_equal(steps(0.0, 3.0 - 5e-9, 1.0).count, 3);
}

/* Rounding of a unit, 1e-12 of the range, is let past an end, and the value stands there. */
static void what_rounding_takes_past_an_end_is_taken(void **state)
{
    (void)state;
    static const struct {
        double mass; /* [kg] of 300 to 12000 */
        enum brake_status status;
    } cases[] = {{300.0 - 1.1e-8, BRAKE_OK},
                 {300.0 - 1.3e-8, BRAKE_E_RANGE},
                 {12000.0 + 1.1e-8, BRAKE_OK},
                 {12000.0 + 1.3e-8, BRAKE_E_RANGE}};
    for (int i = 0; i < 4; i++) {
        read_sheet(&sheet, plain);
        const struct brake_axis axis = listed("vehicle.mass", "kg", &cases[i].mass, 1);
        const enum brake_status status = begun_with(&axis, 1);
        assert_int_equal(status == BRAKE_E_RANGE, cases[i].status == BRAKE_E_RANGE);
    }
    const double ratio = 90.0;
    const struct brake_axis axis = listed("pedal.ratio", "", &ratio, 1);
    assert_int_equal(begun_with(&axis, 1), BRAKE_E_RANGE);
    assert_int_equal(strncmp(error.text, "got 90; accepts ", 16), 0);
}

/* Of a list each value is looked at, of steps both ends, a single one too. */
static void every_end_of_an_axis_is_looked_at(void **state)
{
    (void)state;
    static const double list[] = {2000.0, 100.0, 2100.0};
    read_sheet(&sheet, plain);
    const struct brake_axis axis = listed("vehicle.mass", "kg", list, 3);
    assert_int_equal(begun_with(&axis, 1), BRAKE_E_RANGE);
    assert_non_null(strstr(error.text, "got 100 kg"));
    for (int low = 0; low < 2; low++) {
        struct brake_axis stepped = low ? steps(100.0, 2100.0, 1000.0) : steps(100.0, 100.0, 1.0);
        stepped.index = axis.index;
        stepped.unit = axis.unit;
        assert_int_equal(begun_with(&stepped, 1), BRAKE_E_RANGE);
    }
}

static void what_is_refused_says_why(void **state)
{
    (void)state;
    struct brake_axis many[BRAKE_AXES_OF_SWEEP + 1];
    double value[BRAKE_AXES_OF_SWEEP + 1];
    char words[80];
    int count = 0;
    read_sheet(&sheet, plain);
    for (int i = 0; i < brake_catalogue_count() && count <= BRAKE_AXES_OF_SWEEP; i++) {
        const struct brake_quantity *q = brake_quantity_at(i);
        value[count] = brake_quantity_value(&sheet.vehicle, i);
        many[count] = (struct brake_axis){.index = i,
                                          .unit = brake_unit_si(q->dimension),
                                          .spacing = BRAKE_LISTED,
                                          .count = 1,
                                          .number = &value[count]};
        /* those of the text: they go together */
        count += stands_in(i) && sheet.record[i].line > 0 && isfinite(value[count]);
    }
    assert_int_equal(count, BRAKE_AXES_OF_SWEEP + 1);
    assert_int_equal(begun_with(many, BRAKE_AXES_OF_SWEEP), BRAKE_OK);
    assert_int_equal(begun_with(many, BRAKE_AXES_OF_SWEEP + 1), BRAKE_E_SIZE);
    snprintf(words, sizeof words, "got %d axes; accepts 1 to %d", BRAKE_AXES_OF_SWEEP + 1,
             BRAKE_AXES_OF_SWEEP);
    assert_string_equal(error.text, words);
    assert_string_equal(error.field, "");
    many[2] = many[0] = listed("vehicle.mass", "kg", masses, 3);
    assert_int_equal(begun_with(many, 3), BRAKE_E_DUPLICATE);
    assert_string_equal(error.text, "is an axis twice");
    assert_string_equal(error.field, "vehicle.mass");
    many[1] = listed("front.axle.brake", "", ratios, 2);
    assert_int_equal(begun_with(many, 2), BRAKE_E_UNKNOWN);
    assert_string_equal(error.text, "is no number; an axis is a line of one number");
    many[0] = steps(1000.0, 2000.0, 1e-6);
    many[1] = steps(2.0, 3.0, 1e-8);
    assert_int_equal(begun_with(many, 2), BRAKE_E_SIZE);
    assert_string_equal(error.text, "the axes have more than 1e+15 cases");
}

/* ---- in blocks ------------------------------------------------------------------------------- */

struct worked {
    int count[BRAKE_SWEEP_SLOTS];
    long long from[BRAKE_SWEEP_SLOTS];
    int takes, most; /* so many are taken */
    long long told[8];
    int times;
};

static void note_work(void *context, int slot, struct brake_sweeper *own, long long first,
                      int count)
{
    struct worked *worked = context;
    (void)own;
    worked->from[slot] = first;
    worked->count[slot] = count;
}

static bool note_take(void *context, int slot)
{
    struct worked *worked = context;
    assert_int_equal(slot, worked->takes % BRAKE_SWEEP_SLOTS);
    return worked->takes++ < worked->most;
}

static void note_progress(void *context, double done, double total)
{
    struct worked *worked = context;
    (void)total;
    assert_in_range(worked->times, 0, 7);
    worked->told[worked->times++] = (long long)done;
}

static long long run_blocks(long long total, long long first, int block, struct worked *worked)
{
    struct brake_axis axis = steps(1500.0, 1500.0 + (double)(total - 1), 1.0);
    const struct brake_output output = output_named("empty.mass.total");
    read_sheet(&sheet, plain);
    axis.index = index_at(&sheet.vehicle, "vehicle.mass");
    axis.unit = brake_unit_find("kg");
    const struct brake_sweep sweep = {&sheet, &axis, 1, &output, 1, false};
    begin(&sweep);
    const struct brake_sweep_run run = {.first = first,
                                        .block = block,
                                        .threads = 1,
                                        .context = worked,
                                        .work = note_work,
                                        .take = note_take,
                                        .watch = {note_progress, worked, NULL}};
    return brake_sweep_blocks(&sweeper, &run);
}

/* From the first on, the last as short as it has to be; rounds of so many slots; none is begun once
 * one was not taken. */
static void cases_come_in_blocks(void **state)
{
    (void)state;
    struct worked worked = {.most = 1000};
    assert_int_equal(run_blocks(100, 3, 7, &worked), 97);
    assert_int_equal(worked.takes, 14);
    for (int i = 0; i < 14; i++) {
        assert_int_equal(worked.from[i], 3 + 7 * i);
        assert_int_equal(worked.count[i], i < 13 ? 7 : 6);
    }
    assert_int_equal(worked.times, 1);
    assert_int_equal(worked.told[0], 100);
    worked = (struct worked){.most = 3};
    assert_int_equal(run_blocks(100, 0, 7, &worked), 21);
    assert_int_equal(worked.takes, 4);
    assert_int_equal(worked.told[0], 21);
    worked = (struct worked){.most = 0};
    assert_int_equal(run_blocks(100, 0, 7, &worked), 0);
    assert_int_equal(worked.times, 1);
    worked = (struct worked){.most = 100000};
    const long long slots = BRAKE_SWEEP_SLOTS;
    assert_int_equal(run_blocks(2 * slots + 1, 0, 1, &worked), 2 * slots + 1);
    assert_int_equal(worked.times, 3);
    assert_int_equal(worked.told[0], slots);
    assert_int_equal(worked.told[1], 2 * slots);
    assert_int_equal(worked.told[2], 2 * slots + 1);
    worked = (struct worked){.most = (int)slots + 2};
    assert_int_equal(run_blocks(3 * slots, 0, 1, &worked), slots + 2);
    assert_int_equal(worked.times, 2);
}

/* Where brakes are run hot as many as go side by side, 8192 where numbers are tabulated, else
 * 512. */
static void a_block_is_as_large_as_its_way_wants(void **state)
{
    (void)state;
    static double room[1 << 16];
    struct brake_output output = output_named("full.stop.distance");
    read_sheet(&sheet, plain);
    struct brake_axis axis[] = {filled("road.adhesion", 0.5, 0.01),
                                filled("driver.pedal_force", 100.0, 10.0)};
    axis[0].count = axis[1].count = 32;
    const struct brake_sweep sweep = {&sheet, axis, 2, &output, 1, false};
    begin(&sweep);
    assert_int_equal(brake_sweep_block(&sweeper), 512);
    brake_sweep_share(&sweeper, room);
    assert_int_equal(brake_sweep_block(&sweeper), 8192);
    sweeper.lookup.tables = 1;
    assert_int_equal(brake_sweep_block(&sweeper), 8192);
    begin(&sweep);
    output = output_named("us.135.hot");
    assert_int_equal(brake_sweep_block(&sweeper), BRAKE_TOGETHER);
}

/* More than go side by side, one of them refused: each as by itself, and the status tells which. */
static void hot_cases_side_by_side_give_the_bits_of_one_by_one(void **state)
{
    (void)state;
    enum { CASES = 2 * BRAKE_TOGETHER + 3 };
    double unsprung[CASES];
    double value[CASES][2];
    enum brake_status status[CASES + 1];
    const struct brake_output output[] = {output_named("us.135.hot"),
                                          output_named("fade.last_snub_force")};
    FILE *stream = fopen(SOURCE_ROOT "/examples/heron.ini", "rb");
    assert_non_null(stream);
    assert_int_equal(brake_file_read(stream, &sheet, &error), BRAKE_OK);
    fclose(stream);
    complete(&sheet);
    for (int i = 0; i < CASES; i++)
        unsprung[i] = i == BRAKE_TOGETHER + 2 ? value_at(&sheet, "vehicle.mass") : 150.0 + i;
    const struct brake_axis axis = listed("vehicle.unsprung_mass", "kg", unsprung, CASES);
    const struct brake_sweep sweep = {&sheet, &axis, 1, output, 2, false};
    begin(&sweep);
    status[CASES] = BRAKE_E_SIZE;
    for (int told = 0; told < 2; told++) {
        memset(value, 0, sizeof value);
        brake_sweep_cases(&sweeper, 0, CASES, &value[0][0], told ? status : NULL);
        for (int i = 0; i < CASES; i++) {
            double expected[2];
            const enum brake_status own = brake_sweep_case(&sweeper, i, expected, &error);
            assert_int_equal(own == BRAKE_OK, i != BRAKE_TOGETHER + 2);
            if (told)
                assert_int_equal(status[i], own);
            assert_true(same(value[i], expected, 2));
        }
    }
    assert_int_equal(status[CASES], BRAKE_E_SIZE); /* behind the last nothing is filled */
    brake_sweep_cases(&sweeper, BRAKE_TOGETHER + 2, 1, value[0], status);
    assert_int_equal(status[0], BRAKE_E_CONFLICT);
    assert_true(isnan(value[0][0]) && isnan(value[0][1]));
}

/* A load that is not placed follows the ratings of both axles, and the vehicle that it is added
 * to. */
static void a_load_that_fills_the_ratings_gives_the_same_bits(void **state)
{
    (void)state;
    static const char *const paths[] = {"front.axle.rated_mass", "rear.axle.rated_mass",
                                        "vehicle.rated_mass",    "vehicle.mass",
                                        "vehicle.front_share",   "vehicle.wheelbase"};
    const char *bare = swapped(plain,
                               "[load.full]\nmass = 500 kg\nbehind_front_axle = 2000 mm\n"
                               "height = 1000 mm\n",
                               "");
    read_sheet(&sheet,
               plus(bare, "[load.empty]\nmass = 200 kg\n[front.axle]\nrated_mass = 1200 kg\n"
                          "[rear.axle]\nrated_mass = 1600 kg\n"));
    for (size_t i = 0; i < sizeof paths / sizeof paths[0]; i++)
        (void)compare_quantity(index_at(&sheet.vehicle, paths[i]));
}

/* Whether lanes are asked a single question, with what it builds on; the grade on which brakes hold
 * a trailer too is the one answer of two. */
static bool one_question(unsigned asked)
{
    static const unsigned questions[] = {
        BRAKE_LANES_STOP,   BRAKE_LANES_TARGET, BRAKE_LANES_PARKING,
        BRAKE_LANES_ITSELF, BRAKE_LANES_RATED,  BRAKE_LANES_FLUID,
        BRAKE_LANES_AFTER,  BRAKE_LANES_FAILED, BRAKE_LANES_PARKING | BRAKE_LANES_AFTER};
    for (size_t i = 0; i < sizeof questions / sizeof questions[0]; i++) {
        if (asked == questions[i])
            return true;
    }
    return false;
}

/* What an answer needs is tabulated whichever is asked alone, and nothing is left over from what
 * was there before: the numbers are those of single cases. An output behind the last is not looked
 * at. */
static void each_answer_alone_is_worked_out_side_by_side(void **state)
{
    (void)state;
    enum { CASES = 32 * 32 };
    static double room[1 << 16];
    static double value[CASES];
    static enum brake_status status[CASES];
    int told = 0;
    read_heron();
    for (size_t k = 0; k < BATCH_OUTPUTS; k++) {
        const struct brake_output output[] = {output_named(batch_outputs[k]),
                                              output_named(batch_outputs[(k + 1) % BATCH_OUTPUTS])};
        struct brake_axis axis[] = {filled("road.adhesion", 0.5, 0.01),
                                    filled("driver.target", 1.0, 0.1)};
        axis[0].count = axis[1].count = 32;
        const struct brake_sweep sweep = {&sheet, axis, 2, output, 1, false};
        begin(&sweep);
        assert_in_range(brake_sweep_room(&sweeper), 1, 1 << 16);
        memset(room, 0x7f, sizeof room);
        memset(&sweeper.lookup, 0x7f, sizeof sweeper.lookup);
        brake_sweep_share(&sweeper, room);
        assert_int_equal(sweeper.lookup.states, 1);
        assert_true(one_question(sweeper.lookup.asked[0]));
        brake_sweep_cases(&sweeper, 0, CASES, value, status);
        for (int i = 0; i < CASES; i += 31) {
            double expected;
            assert_int_equal(brake_sweep_case(&sweeper, i, &expected, &error), BRAKE_OK);
            assert_int_equal(status[i], BRAKE_OK);
            if (!same(&value[i], &expected, 1))
                print_error("%s, case %d\n", batch_outputs[k], i);
            assert_true(same(&value[i], &expected, 1));
        }
        told += !isnan(value[0]);
    }
    assert_int_equal(told, BATCH_OUTPUTS - 1); /* it has no anti-lock to fail */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(steps_reach_the_high_end_when_a_whole_number_of_them_does),
        cmocka_unit_test(steps_that_do_not_reach_the_high_end_stay_below_it),
        cmocka_unit_test(decimal_steps_give_decimal_numbers),
        cmocka_unit_test(a_last_digit_is_rounded_and_no_other),
        cmocka_unit_test(steps_of_no_decimal_numbers_are_taken_as_they_are),
        cmocka_unit_test(ratios_are_equal_and_keep_both_ends),
        cmocka_unit_test(axes_without_an_end_are_refused),
        cmocka_unit_test(the_last_axis_runs_fastest),
        cmocka_unit_test(a_position_tells_the_value_of_each_axis),
        cmocka_unit_test(the_sheet_that_is_swept_stays_as_it_is),
        cmocka_unit_test(units_of_an_axis_are_its_own),
        cmocka_unit_test(every_quantity_of_a_vehicle_of_raw_readings_gives_the_same_bits),
        cmocka_unit_test(every_quantity_of_a_plain_vehicle_gives_the_same_bits),
        cmocka_unit_test(every_quantity_of_discs_at_the_rear_gives_the_same_bits),
        cmocka_unit_test(drums_follow_their_linings_to_the_bit),
        cmocka_unit_test(hot_performance_gives_the_same_bits),
        cmocka_unit_test(any_number_of_threads_gives_the_same_bits),
        cmocka_unit_test(cases_side_by_side_give_the_bits_of_one_by_one),
        cmocka_unit_test(what_cases_do_not_share_is_not_tabulated),
        cmocka_unit_test(requirements_are_not_worked_out_side_by_side),
        cmocka_unit_test(tables_pay_from_eight_cases_an_entry_on),
        cmocka_unit_test(any_part_of_the_cases_is_that_of_all),
        cmocka_unit_test(what_no_output_hangs_on_is_refused_too),
        cmocka_unit_test(an_axis_of_one_step_has_one_case),
        cmocka_unit_test(a_case_that_contradicts_itself_has_no_outputs_and_the_next_has),
        cmocka_unit_test(a_value_out_of_range_is_refused_before_it_begins),
        cmocka_unit_test(an_axis_of_a_thing_that_is_not_fitted_is_refused_before_it_begins),
        cmocka_unit_test(an_axis_that_is_no_number_or_stands_twice_is_refused),
        cmocka_unit_test(a_grid_without_an_end_is_refused),
        cmocka_unit_test(progress_is_told_until_all_is_done),
        cmocka_unit_test(a_stop_leaves_a_beginning_of_the_cases),
        cmocka_unit_test(a_stop_from_the_start_does_nothing),
        cmocka_unit_test(axes_that_go_together_are_taken_value_by_value),
        cmocka_unit_test(axes_that_go_together_are_of_one_length),
        cmocka_unit_test(an_axis_has_a_most_of_values),
        cmocka_unit_test(what_rounding_takes_past_an_end_is_taken),
        cmocka_unit_test(every_end_of_an_axis_is_looked_at),
        cmocka_unit_test(what_is_refused_says_why),
        cmocka_unit_test(cases_come_in_blocks),
        cmocka_unit_test(a_block_is_as_large_as_its_way_wants),
        cmocka_unit_test(hot_cases_side_by_side_give_the_bits_of_one_by_one),
        cmocka_unit_test(a_load_that_fills_the_ratings_gives_the_same_bits),
        cmocka_unit_test(each_answer_alone_is_worked_out_side_by_side),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
