/* SPDX-License-Identifier: MIT */
/* What the cases of a sweep share: which tables there are, and the room that they fill. */
#include "../vehicle/sheet.h"

#include "brake/sweep.h"
#include "study/cases.h"

static struct brake_sheet sheet;
static struct brake_sweeper sweeper;
static struct brake_error error;

enum { MOST_OUTPUTS = 16, MOST_CASES = 1 << 14 };

/* A sweep along some axes, each of values that are evenly apart. */
struct grid {
    struct brake_axis axis[BRAKE_AXES_OF_SWEEP];
    struct brake_output output[MOST_OUTPUTS];
    struct brake_sweep sweep;
};

static void along(struct grid *grid, const char *path, double low, double step, int count)
{
    struct brake_axis *axis = &grid->axis[grid->sweep.axes++];
    assert_int_equal(brake_axis_steps(low, low + (count - 1) * step, step, axis), BRAKE_OK);
    axis->index = index_at(&sheet.vehicle, path);
    axis->unit = brake_unit_si(brake_quantity_at(axis->index)->dimension);
}

static void ask(struct grid *grid, const char *name)
{
    assert_int_equal(brake_output_find(name, &grid->output[grid->sweep.outputs++]), BRAKE_OK);
}

static struct grid *empty_grid(void)
{
    static struct grid grid;
    grid.sweep = (struct brake_sweep){&sheet, grid.axis, 0, grid.output, 0, false};
    return &grid;
}

/* Of what the cases of a grid have in common, whatever stood in the sweeper before. */
static size_t room_of(const struct grid *grid)
{
    memset(&sweeper, 0x7f, sizeof sweeper);
    assert_int_equal(brake_sweep_begin(&grid->sweep, &sweeper, &error), BRAKE_OK);
    return brake_sweep_room(&sweeper);
}

/* Shares that. The room is filled to its last number, and none behind it. */
static void share(const struct grid *grid)
{
    enum { BEHIND = 4096 };
    static double room[(1 << 19) + BEHIND];
    static double untouched;
    const size_t size = room_of(grid);
    assert_in_range(size, 1, 1 << 19);
    memset(&untouched, 0x7f, sizeof untouched);
    memset(room, 0x7f, sizeof room);
    brake_sweep_share(&sweeper, room);
    for (size_t i = 0; i < size; i++)
        assert_memory_not_equal(&room[i], &untouched, sizeof untouched);
    for (size_t i = size; i < size + BEHIND; i++)
        assert_memory_equal(&room[i], &untouched, sizeof untouched);
}

/* Every case is what it is by itself; returns how many the vehicle refuses. */
static int hold_cases(const struct grid *grid)
{
    static double value[MOST_CASES * MOST_OUTPUTS];
    static enum brake_status status[MOST_CASES];
    const int outputs = grid->sweep.outputs;
    const int cases = (int)brake_sweep_count(&grid->sweep);
    int refused = 0;
    assert_in_range(cases, 1, MOST_CASES);
    brake_sweep_cases(&sweeper, 0, cases, value, status);
    for (int i = 0; i < cases; i++) {
        double alone[MOST_OUTPUTS];
        assert_int_equal(brake_sweep_case(&sweeper, i, alone, &error), status[i]);
        for (int k = 0; k < outputs; k++)
            assert_true(value[i * outputs + k] == alone[k] ||
                        (isnan(value[i * outputs + k]) && isnan(alone[k])));
        refused += status[i] != BRAKE_OK;
    }
    return refused;
}

/* Four heights of the springs and 16 masses move where the mass is: a table along both. The
 * wheelbase stands in the section of the mass, the grip follows it too: one along the mass, one
 * along mass and road. The foot has its own, and the rest one along nothing. What the springs alone
 * may have refused shows in the table along springs and mass: it has none of its own. */
static void a_table_along_two_axes_shows_what_one_of_them_refuses(void **state)
{
    (void)state;
    struct grid *grid = empty_grid();
    read_sheet(&sheet, plain);
    ask(grid, "full.stop.distance");
    along(grid, "lift.suspension", 0.0, 0.05, 4);
    along(grid, "vehicle.mass", 1500.0, 50.0, 16);
    along(grid, "road.adhesion", 0.5, 0.02, 16);
    along(grid, "driver.pedal_force", 100.0, 20.0, 16);
    share(grid);
    assert_int_equal(sweeper.lookup.tables, 5);
    assert_int_equal(hold_cases(grid), 0);
}

/* The ratio of the gears is no number of a stop, but with an axle of 10 to 1 all of 1.2 to 1 and
 * more is out of the range of both, 12 to 1. */
static void what_no_number_of_a_stop_follows_is_refused_too(void **state)
{
    (void)state;
    struct grid *grid = empty_grid();
    read_sheet(&sheet, plus(plain, "[driveline]\naxle_ratio = 10\n"));
    ask(grid, "full.stop.distance");
    along(grid, "driveline.gear_ratio", 1.0, 0.1, 4);
    along(grid, "road.adhesion", 0.5, 0.02, 20);
    along(grid, "driver.pedal_force", 100.0, 20.0, 20);
    share(grid);
    assert_int_equal(sweeper.lookup.tables, 4);
    assert_int_equal(hold_cases(grid), 400);
}

/* Both loads, each intact and in all that may fail, from tables of 200 numbers. */
static void every_state_of_the_vehicle_is_shared(void **state)
{
    (void)state;
    static const char *const names[] = {"deceleration.at_pedal_force", "failed.first_circuit",
                                        "failed.second_circuit",       "failed.low_vacuum",
                                        "failed.valve_open",           "failed.valve_shut",
                                        "failed.no_antilock"};
    enum { NAMES = sizeof names / sizeof names[0] };
    struct grid *grid = empty_grid();
    read_sheet(&sheet, plus(swapped(plain, "booster = none", "booster = fitted"),
                            "[booster]\ngain = 4\nassist = 1200 N\nvacuum = 60 kPa\n"
                            "vacuum_low = 45 kPa\n"));
    for (int i = 0; i < 2 * NAMES; i++) {
        char name[64];
        (void)snprintf(name, sizeof name, "%s.%s", i < NAMES ? "empty" : "full", names[i % NAMES]);
        ask(grid, name);
    }
    along(grid, "road.adhesion", 0.5, 0.001, 200);
    along(grid, "driver.pedal_force", 100.0, 20.0, 30);
    share(grid);
    assert_int_equal(sweeper.lookup.states, 2 * NAMES);
    assert_int_equal(hold_cases(grid), 0);
}

/* The first and the last of as many axes as there may be have several values, those between the one
 * that the vehicle has. */
static void as_many_axes_as_there_may_be(void **state)
{
    (void)state;
    struct grid *grid = empty_grid();
    read_sheet(&sheet, plain);
    ask(grid, "full.stop.distance");
    along(grid, "road.adhesion", 0.5, 0.02, 20);
    for (int i = 0; grid->sweep.axes < BRAKE_AXES_OF_SWEEP - 1; i++) {
        char path[160];
        const double value = brake_quantity_value(&sheet.vehicle, i);
        brake_catalogue_path(&sheet.vehicle, i, path, sizeof path);
        if (brake_quantity_at(i)->kind == BRAKE_REAL && !isnan(value) &&
            strcmp(path, "road.adhesion") != 0 && strcmp(path, "driver.pedal_force") != 0 &&
            brake_catalogue_find(&sheet.vehicle, path) == i)
            along(grid, path, value, 1.0, 1);
    }
    along(grid, "driver.pedal_force", 100.0, 20.0, 20);
    share(grid);
    assert_int_equal(hold_cases(grid), 0);
}

/* 2000 kg of 2000 kg unsprung, and then 400 kg: what a refused first case would have in common with
 * the others is not known, so that all are asked by themselves. */
static void nothing_is_shared_where_the_first_case_is_refused(void **state)
{
    (void)state;
    static const double unsprung[] = {2000.0, 400.0};
    static double room[1 << 12];
    struct grid *grid = empty_grid();
    read_sheet(&sheet, plain);
    ask(grid, "full.stop.distance");
    grid->sweep.axes = 1;
    grid->axis[0] = (struct brake_axis){.index = index_at(&sheet.vehicle, "vehicle.unsprung_mass"),
                                        .unit = brake_unit_find("kg"),
                                        .spacing = BRAKE_LISTED,
                                        .count = 2,
                                        .number = unsprung};
    along(grid, "road.adhesion", 0.5, 0.02, 20);
    along(grid, "driver.pedal_force", 100.0, 20.0, 20);
    assert_in_range(room_of(grid), 1, 1 << 12);
    brake_sweep_share(&sweeper, room);
    assert_int_equal(sweeper.lookup.tables, 0);
    assert_int_equal(hold_cases(grid), 400);
}

/* Of a deceleration along grip and foot. */
static size_t room_along(int grips, int forces)
{
    struct grid *grid = empty_grid();
    ask(grid, "full.deceleration.at_pedal_force");
    along(grid, "road.adhesion", 0.5, 1e-6, grips);
    along(grid, "driver.pedal_force", 100.0, 0.001, forces);
    return room_of(grid);
}

/* 2^19 are 4 MiB. Each grip has two numbers, itself and whether it is refused, each force five, and
 * 36 follow neither. */
static void tables_have_half_a_million_numbers_at_most(void **state)
{
    (void)state;
    read_sheet(&sheet, plain);
    assert_int_equal(room_along(100, 200), 2 * 100 + 5 * 200 + 36);
    assert_int_equal(2 * 259626 + 5 * 1000 + 36, 1 << 19);
    assert_int_equal(room_along(259626, 1000), 1 << 19);
    assert_int_equal(2 * 259624 + 5 * 1001 + 36, (1 << 19) + 1);
    assert_int_equal(room_along(259624, 1001), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_table_along_two_axes_shows_what_one_of_them_refuses),
        cmocka_unit_test(what_no_number_of_a_stop_follows_is_refused_too),
        cmocka_unit_test(every_state_of_the_vehicle_is_shared),
        cmocka_unit_test(as_many_axes_as_there_may_be),
        cmocka_unit_test(nothing_is_shared_where_the_first_case_is_refused),
        cmocka_unit_test(tables_have_half_a_million_numbers_at_most),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
