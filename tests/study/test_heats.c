/* SPDX-License-Identifier: MIT */
/* Heat of many cases, held against duties that are run one by one. */
#include <limits.h>

#include "../vehicle/sheet.h"

#include "brake/evaluate.h"
#include "brake/heats.h"

static const double KMH = 1.0 / 3.6;

static const char heat[] =
    "[front.disc]\nrotor_mass = 8 kg\nrotor_diameter = 300 mm\nhat_mass = 2 kg\nrotor = vented\n"
    "[rear.disc]\nrotor_mass = 5 kg\nrotor_diameter = 300 mm\n"
    "[heat]\niron = grey_250\nambient = 20 degC\nfluid = DOT4\n";

enum {
    MASSES = 3,
    MUS = 2,
    DUTIES = 4,
    CASES = MASSES * MUS * DUTIES,
    RESULTS = 3,
    COLUMNS = 4,
    TIMES = 6
};

static const double mass[] = {1500.0, 1900.0, 2300.0};
static const double mu[] = {0.36, 0.42};
static const double at[TIMES] = {0.0, 0.05, 1.5, 7.0, 61.7, 200.0};
static const int column[COLUMNS] = {offsetof(struct brake_duty_row, speed) / sizeof(double),
                                    offsetof(struct brake_duty_row, torque) / sizeof(double),
                                    offsetof(struct brake_duty_row, face) / sizeof(double) + 1,
                                    offsetof(struct brake_duty_row, fluid) / sizeof(double)};

static struct brake_sheet sheet;
static struct brake_axis axis[2];
static int asked[RESULTS];
static struct brake_duty duty[DUTIES];
static struct brake_heats heats;
static double result[CASES * RESULTS], history[CASES * COLUMNS * TIMES];
static enum brake_status status[CASES];
static const struct brake_heats_room room = {result, history, status};

static void set_up(void)
{
    const char *names[] = {"heat.front_face", "heat.rear_fluid", "heat.pedal_force_last"};
    read_sheet(&sheet, plus(plain, heat));
    axis[0] = (struct brake_axis){.index = index_at(&sheet.vehicle, "vehicle.mass"),
                                  .unit = brake_unit_find("kg"),
                                  .count = MASSES,
                                  .number = mass};
    axis[1] = (struct brake_axis){.index = index_at(&sheet.vehicle, "front.disc.pads.mu"),
                                  .unit = brake_unit_si(BRAKE_RATIO),
                                  .count = MUS,
                                  .number = mu};
    duty[0] = (struct brake_duty){.kind = BRAKE_DUTY_DESCENT,
                                  .descent = {0.08, 900.0, 50.0 * KMH, 0.0},
                                  .force = 800.0,
                                  .rest = 100.0};
    duty[1] = (struct brake_duty){
        .kind = BRAKE_DUTY_STOPS,
        .stops = {2, 80.0 * KMH, 40.0 * KMH, 40.0, BRAKE_HOLDS_DECELERATION, 3.0, NULL},
        .force = BRAKE_NAN};
    duty[2] = (struct brake_duty){.kind = BRAKE_DUTY_STOPS, .force = 800.0, .stops = {.count = 0}};
    duty[3] = (struct brake_duty){.kind = BRAKE_DUTY_STOPS,
                                  .stops = {1, 100.0 * KMH, 0.0, 0.0, BRAKE_HOLDS_FORCE, 0.0, NULL},
                                  .force = 300.0,
                                  .rest = 5.0};
    for (int i = 0; i < RESULTS; i++)
        asked[i] = brake_result_find(names[i]);
    heats = (struct brake_heats){.sheet = &sheet,
                                 .axis = axis,
                                 .axes = 2,
                                 .load = BRAKE_EMPTY,
                                 .duty = duty,
                                 .duties = DUTIES,
                                 .result = asked,
                                 .results = RESULTS,
                                 .column = column,
                                 .columns = COLUMNS,
                                 .time = at,
                                 .times = TIMES};
}

static void run(int threads)
{
    struct brake_error error;
    memset(result, 0, sizeof result);
    memset(history, 0, sizeof history);
    assert_int_equal(brake_heats_run(&heats, threads, NULL, &room, &error), BRAKE_OK);
}

/* The row at each time, of a duty that is watched by itself. */
struct seen {
    struct brake_duty_row row[TIMES];
    bool there[TIMES];
};

static void see(void *context, const struct brake_duty_row *row)
{
    struct seen *seen = context;
    for (int i = 0; i < TIMES; i++) {
        if (fabs(row->time - at[i]) < 1e-6) {
            seen->row[i] = *row;
            seen->there[i] = true;
        }
    }
}

static void assert_alike(double value, double expected)
{
    assert_true(value == expected || (isnan(value) && isnan(expected)));
}

static void assert_case(int number, const struct brake_hot_rig *hot, const struct brake_duty *one)
{
    struct seen seen = {.there = {false}};
    struct brake_duty_result alone;
    const struct brake_duty_watch watch = {
        .row = see, .context = &seen, .time = at, .times = TIMES};
    assert_int_equal(brake_duty_run(hot, one, &watch, &alone), BRAKE_OK);
    assert_alike(result[number * RESULTS], alone.axle[BRAKE_FRONT].face_most);
    assert_alike(result[number * RESULTS + 1], alone.axle[BRAKE_REAR].fluid_most);
    assert_alike(result[number * RESULTS + 2], alone.force_last);
    for (int c = 0; c < COLUMNS; c++) {
        for (int t = 0; t < TIMES; t++) {
            const double *numbers = (const double *)&seen.row[t];
            assert_alike(history[(number * COLUMNS + c) * TIMES + t],
                         seen.there[t] ? numbers[column[c]] : BRAKE_NAN);
        }
    }
    assert_true(seen.there[0] && seen.there[2]);
}

static void cases_are_what_they_are_alone_to_the_bit(void **state)
{
    (void)state;
    static struct brake_hot_rig hot;
    struct brake_error error;
    set_up();
    assert_int_equal(brake_heats_count(&heats), CASES);
    for (int threads = 1; threads <= 3; threads += 2) {
        run(threads);
        for (int i = 0; i < CASES; i++) {
            struct brake_duty one = duty[i % DUTIES];
            struct brake_sheet moved;
            read_sheet(&moved, plus(plain, heat));
            brake_sheet_set(&moved, axis[0].index, mass[i / DUTIES / MUS]);
            brake_sheet_set(&moved, axis[1].index, mu[i / DUTIES % MUS]);
            assert_int_equal(brake_sheet_complete(&moved, &error), BRAKE_OK);
            assert_int_equal(brake_hot_rig_build(&moved.vehicle, BRAKE_EMPTY, &hot, &error),
                             BRAKE_OK);
            assert_int_equal(status[i], i % DUTIES == 2 ? BRAKE_E_RANGE : BRAKE_OK);
            if (isnan(one.force))
                one.force = moved.vehicle.driver.pedal_force_most;
            if (status[i] == BRAKE_OK)
                assert_case(i, &hot, &one);
            else
                assert_true(isnan(result[i * RESULTS]) && isnan(history[i * COLUMNS * TIMES]));
        }
    }
}

/* Mass beyond the range of its line refuses all; a geometry that contradicts itself, one case. */
static void what_cannot_be_is_told(void **state)
{
    (void)state;
    static const double beyond[] = {1500.0, 1900.0, 1e9};
    static const double falling[] = {1.0, 1.0};
    static const double back_again[] = {1.0, 3.0, 2.0};
    static const int none[] = {BRAKE_DUTY_NUMBERS};
    static const double never[] = {BRAKE_NAN};
    struct brake_error error;
    set_up();
    assert_int_equal(brake_heats_refusal(&heats, 2, &error), BRAKE_E_RANGE);
    assert_non_null(strstr(error.text, "number of stops must be 1 to 100,000"));
    assert_int_equal(brake_heats_refusal(&heats, 1, &error), BRAKE_OK);
    assert_string_equal(error.text, "");
    axis[0].number = beyond;
    assert_int_equal(brake_heats_run(&heats, 1, NULL, &room, &error), BRAKE_E_RANGE);
    assert_string_equal(error.field, "vehicle.mass");
    set_up();
    heats.time = falling;
    heats.times = 2;
    assert_int_equal(brake_heats_run(&heats, 1, NULL, &room, &error), BRAKE_E_RANGE);
    heats.time = back_again;
    heats.times = 3;
    assert_int_equal(brake_heats_run(&heats, 1, NULL, &room, &error), BRAKE_E_RANGE);
    heats.time = never;
    heats.times = 1;
    assert_int_equal(brake_heats_run(&heats, 1, NULL, &room, &error), BRAKE_E_RANGE);
    const int no_results[] = {-1, INT_MIN, brake_result_all(), INT_MAX};
    for (int i = 0; i < 4; i++) {
        set_up();
        asked[0] = no_results[i];
        assert_int_equal(brake_heats_run(&heats, 1, NULL, &room, &error), BRAKE_E_RANGE);
    }
    set_up();
    heats.column = none;
    heats.columns = 1;
    assert_int_equal(brake_heats_run(&heats, 1, NULL, &room, &error), BRAKE_E_RANGE);
    set_up();
    asked[0] = brake_result_find("full.stop.distance");
    assert_int_equal(brake_heats_run(&heats, 1, NULL, &room, &error), BRAKE_E_RANGE);
    set_up();
    heats.duties = 0;
    assert_int_equal(brake_heats_run(&heats, 1, NULL, &room, &error), BRAKE_E_RANGE);
}

/* Without the lines that heat needs every case lacks them; without axes the vehicle is one. */
static void a_vehicle_without_its_heat_lines_says_which(void **state)
{
    (void)state;
    struct brake_error error;
    set_up();
    read_sheet(&sheet, plain);
    heats.axes = 0;
    assert_int_equal(brake_heats_count(&heats), DUTIES);
    run(2);
    for (int i = 0; i < DUTIES; i++)
        assert_int_equal(status[i], BRAKE_E_MISSING);
    assert_int_equal(brake_heats_refusal(&heats, 0, &error), BRAKE_E_MISSING);
    assert_string_equal(error.field, "front.disc.rotor_mass");
    read_sheet(&sheet, plus(plain, heat));
    run(2);
    assert_int_equal(status[0], BRAKE_OK);
}

struct told {
    double done, total;
    volatile sig_atomic_t stop;
};

static void stop_at_once(void *context, double done, double total)
{
    struct told *told = context;
    *told = (struct told){done, total, 1};
}

static void who_watches_is_told_and_may_stop_it(void **state)
{
    (void)state;
    static struct brake_duty many[100];
    static double some[100 * RESULTS];
    static enum brake_status each[100];
    const struct brake_heats_room wide = {some, NULL, each};
    struct told told = {0.0, 0.0, 0};
    const struct brake_watch watch = {stop_at_once, &told, &told.stop};
    struct brake_error error;
    set_up();
    for (int i = 0; i < 100; i++)
        many[i] = duty[3];
    heats.axes = 0;
    heats.times = 0;
    heats.duty = many;
    heats.duties = 100;
    each[99] = BRAKE_E_SHAPE;
    assert_int_equal(brake_heats_run(&heats, 1, &watch, &wide, &error), BRAKE_OK);
    assert_equal(told.done, 32.0); /* four rounds of eight */
    assert_equal(told.total, 100.0);
    assert_int_equal(each[99], BRAKE_E_SHAPE);
    told.stop = 0;
    assert_int_equal(brake_heats_run(&heats, 2, &watch, &wide, &error), BRAKE_OK);
    assert_equal(told.done, 64.0); /* of each thread */
}

/* 10^15 cases of a vehicle and a duty are the most: doubles still count them one by one. */
static void cases_are_counted_to_their_end(void **state)
{
    (void)state;
    const struct brake_axis many[] = {{.count = 1000000}, {.count = 1000000}, {.count = 500}};
    struct brake_heats of = {.axis = many, .axes = 3, .duties = 2};
    assert_true(brake_heats_count(&of) == 1000000000000000LL);
    const struct brake_axis more[] = {{.count = 1000000}, {.count = 1000000}, {.count = 501}};
    of.axis = more;
    assert_true(brake_heats_count(&of) == -1);
}

/* Columns of a history are numbers from 0 on. */
static void the_first_and_the_last_column_are_there(void **state)
{
    (void)state;
    struct brake_error error;
    int of[COLUMNS] = {0, BRAKE_DUTY_NUMBERS - 1, 1, 2};
    set_up();
    heats.column = of;
    assert_int_equal(brake_heats_run(&heats, 1, NULL, &room, &error), BRAKE_OK);
    of[1] = BRAKE_DUTY_NUMBERS;
    assert_int_equal(brake_heats_run(&heats, 1, NULL, &room, &error), BRAKE_E_RANGE);
    of[1] = -1;
    assert_int_equal(brake_heats_run(&heats, 1, NULL, &room, &error), BRAKE_E_RANGE);
}

static void one_duty_is_enough(void **state)
{
    (void)state;
    struct brake_error error;
    set_up();
    heats.duties = 1;
    assert_int_equal(brake_heats_run(&heats, 1, NULL, &room, &error), BRAKE_OK);
    heats.duties = 0;
    assert_int_equal(brake_heats_run(&heats, 1, NULL, &room, &error), BRAKE_E_RANGE);
}

/* One axis, one duty, one time: the heavier the vehicle, the more heat; each begins at 100 km/h. */
static void one_axis_and_one_time_are_enough(void **state)
{
    (void)state;
    set_up();
    heats.axes = 1;
    heats.duty = &duty[3];
    heats.duties = 1;
    heats.times = 1;
    run(1);
    for (int i = 0; i < MASSES; i++) {
        assert_int_equal(status[i], BRAKE_OK);
        assert_near(history[i * COLUMNS], 100.0 * KMH, ROUNDING);
        assert_true(i == 0 || result[i * RESULTS] > result[(i - 1) * RESULTS]);
    }
}

/* A row is shown at each half second as well, one of them 0.4 ms before the time that is asked for,
 * and one 0.4 ms behind: neither is of that time, at which the brakes have slowed less or more. */
static void a_row_is_that_of_its_time_alone(void **state)
{
    (void)state;
    double speed[3];
    for (int i = 0; i < 3; i++) {
        const double time = 0.4996 + 0.0004 * i;
        set_up();
        heats.axes = 0;
        heats.duty = &duty[3];
        heats.duties = 1;
        heats.time = &time;
        heats.times = 1;
        run(1);
        speed[i] = history[0];
    }
    assert_true(speed[0] > speed[1] && speed[1] > speed[2]);
    assert_within(speed[0] - speed[1], speed[1] - speed[2], 1e-3);
}

/* 18 cases: two rounds of eight, and two; nothing is written behind them. */
static void the_last_round_may_be_short(void **state)
{
    (void)state;
    struct brake_error error;
    set_up();
    heats.duties = 3;
    for (int i = 0; i < CASES; i++)
        status[i] = BRAKE_E_SHAPE;
    result[18 * RESULTS] = -1.0;
    assert_int_equal(brake_heats_run(&heats, 1, NULL, &room, &error), BRAKE_OK);
    assert_int_equal(status[16], BRAKE_OK);
    assert_int_equal(status[17], BRAKE_E_RANGE); /* of no stops */
    assert_int_equal(status[18], BRAKE_E_SHAPE);
    assert_true(result[18 * RESULTS] == -1.0);
}

/* A thread takes 32 cases at once; six duties of no stops of six vehicles are 36. */
static void a_thread_goes_on_to_the_last_case_and_no_further(void **state)
{
    (void)state;
    struct brake_duty none[6];
    enum brake_status told[72];
    struct brake_error error;
    const struct brake_heats_room only = {.status = told};
    set_up();
    for (int i = 0; i < 6; i++) {
        none[i] = duty[0];
        none[i].kind = BRAKE_DUTY_STOPS;
        none[i].stops.count = 0;
    }
    heats.duty = none;
    heats.duties = 6;
    heats.results = 0;
    heats.columns = 0;
    heats.times = 0;
    assert_int_equal(brake_heats_count(&heats), 36);
    for (int i = 0; i < 72; i++)
        told[i] = BRAKE_E_SHAPE;
    assert_int_equal(brake_heats_run(&heats, 1, NULL, &only, &error), BRAKE_OK);
    for (int i = 0; i < 72; i++)
        assert_int_equal(told[i], i < 36 ? BRAKE_E_RANGE : BRAKE_E_SHAPE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_axis_and_one_time_are_enough),
        cmocka_unit_test(cases_are_what_they_are_alone_to_the_bit),
        cmocka_unit_test(what_cannot_be_is_told),
        cmocka_unit_test(a_vehicle_without_its_heat_lines_says_which),
        cmocka_unit_test(the_first_and_the_last_column_are_there),
        cmocka_unit_test(one_duty_is_enough),
        cmocka_unit_test(a_row_is_that_of_its_time_alone),
        cmocka_unit_test(the_last_round_may_be_short),
        cmocka_unit_test(a_thread_goes_on_to_the_last_case_and_no_further),
        cmocka_unit_test(cases_are_counted_to_their_end),
        cmocka_unit_test(who_watches_is_told_and_may_stop_it)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
