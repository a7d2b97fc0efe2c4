/* SPDX-License-Identifier: MIT */
/* Stops of logs that were made by hand: a straight fall of speed, so that every figure follows from
 * v^2/2a, and then what is wrong with a log. */
#include "../vehicle/sheet.h"

#include "brake/drivelog.h"
#include "brake/log.h"
#include "study/stops.h"

enum { ROWS = 4000 };

static double interval = 0.05; /* [s] between rows */
static struct brake_log_row row[ROWS];
static long rows;
static struct brake_drive drive;
static struct brake_drive_day day = {.gauge = {1.0, 0.0}};
static struct brake_nominal nominal;

static void start(void)
{
    rows = 0;
    interval = 0.05;
    day = (struct brake_drive_day){.gauge = {1.0, 0.0}};
    nominal.count = 0;
}

static void add(double speed, double force)
{
    assert_true(rows < ROWS);
    for (int c = 0; c < BRAKE_LOG_COLUMNS; c++)
        row[rows].value[c] = BRAKE_NAN;
    row[rows].line = (int)rows + 2;
    row[rows].value[BRAKE_LOG_TIME] = interval * (double)rows;
    row[rows].value[BRAKE_LOG_SPEED] = speed;
    row[rows].value[BRAKE_LOG_PEDAL_FORCE] = force;
    rows++;
}

/* Up to a speed as an engine does it, two seconds there, down to rest, two seconds standing; row
 * at which the fall begins. */
static long add_stop(double speed, double deceleration, double force)
{
    const double off = isnan(force) ? BRAKE_NAN : 0.0;
    for (double from = rows > 0 ? 0.15 : speed; from < speed; from += 0.15)
        add(from, off);
    for (int i = 0; i <= 40; i++)
        add(speed, off);
    const long begins = rows - 1;
    while (row[rows - 1].value[BRAKE_LOG_SPEED] > 0.0)
        add(fmax(0.0, speed - deceleration * interval * (double)(rows - begins)), force);
    for (int i = 0; i < 40; i++)
        add(0.0, off);
    return begins;
}

static const struct brake_drive_stop *measure(void)
{
    assert_int_equal(brake_drive_measure(row, rows, &nominal, &day, &drive), BRAKE_OK);
    return &drive.stop[0];
}

/* 20^2 / 8 = 50 m from where the fall begins. The foot is taken to come on half way to the first
 * row with it, at 20 m/s: the chord from there to that row takes the place of the first. */
static void the_way_counts_from_between_two_rows(void **state)
{
    (void)state;
    start();
    const long begins = add_stop(20.0, 4.0, 400.0);
    const struct brake_drive_stop *stop = measure();
    assert_int_equal(drive.stops, 1);
    assert_int_equal(stop->flags, 0);
    assert_int_equal(stop->first, begins + 1);
    assert_near(drive.interval, interval, 1e-9);
    const double skipped = 20.0 * interval - 2.0 * interval * interval;
    assert_near(stop->distance.value,
                50.0 - skipped + (40.0 - 4.0 * interval) / 2.0 * interval / 2.0, 1e-9);
    /* from 0.8 to 0.1 of 20 m/s at 0.2 m/s a row, both ends in it */
    assert_in_range(stop->points, 69, 72);
}

/* A speed that comes interval/2 late was that of the first row when the foot came on. */
static void a_speed_that_comes_late_moves_the_begin(void **state)
{
    (void)state;
    start();
    add_stop(20.0, 4.0, 400.0);
    day.lag.value = interval / 2.0;
    const double skipped = 20.0 * 2.0 * interval - 2.0 * 4.0 * interval * interval;
    assert_near(measure()->distance.value,
                50.0 - skipped + (40.0 - 8.0 * interval) / 2.0 * interval, 1e-9);
}

/* Takes rows out; those behind come nearer, their times do not. */
static void take_out(long first, long count)
{
    for (long i = first; i + count < rows; i++)
        row[i] = row[i + count];
    rows -= count;
}

/* Rows without noise: what is left is when the foot came on, anywhere in an interval h, h/12^1/2 at
 * 20 m/s, or late by a lag known to 0.03 s (90 of 100), and two bends of a h^2/8 at most, evenly
 * spread. The correction by (v / v_0)^2 takes it over. */
static void without_noise_a_way_is_as_sure_as_its_begin(void **state)
{
    (void)state;
    static const double lag[] = {0.0, 0.03};
    for (int i = 0; i < 2; i++) {
        start();
        add_stop(20.0, 4.0, 400.0);
        day.lag.half = lag[i];
        const struct brake_drive_stop *stop = measure();
        const double moment = hypot(interval / sqrt(12.0), lag[i] / 1.6448536269514722) * 20.0;
        const double bend = 4.0 * interval * interval / 8.0 * sqrt(2.0 / 3.0);
        assert_within(stop->distance.half, 1.6448536269514722 * hypot(moment, bend), 1e-9);
        assert_within(stop->corrected.half / stop->corrected.value,
                      stop->distance.half / stop->distance.value, 1e-9);
        assert_within(stop->developed.half, 0.0, 1e-9);
        assert_within(stop->initial.half, 0.0, 1e-9);
    }
    start();
    take_out(add_stop(20.0, 4.0, 400.0), 1); /* two intervals until the row with the foot */
    assert_within(measure()->distance.half,
                  1.6448536269514722 * hypot(2.0 * interval / sqrt(12.0) * 20.0,
                                             4.0 * interval * interval / 8.0 * sqrt(2.0 / 3.0)),
                  1e-9);
}

/* Where no column tells the foot, the way is drawn back to the initial speed: 50 m whole. */
static void without_a_foot_the_curve_is_drawn_back(void **state)
{
    (void)state;
    start();
    add_stop(20.0, 4.0, BRAKE_NAN);
    const struct brake_drive_stop *stop = measure();
    assert_false(drive.timed);
    assert_near(stop->developed.value, 4.0, 1e-9);
    assert_near(stop->initial.value, 20.0, 1e-9);
    assert_near(stop->distance.value, 50.0, 1e-6);
}

/* Pressure tells the foot where force is not logged. */
static void pressure_tells_the_foot_too(void **state)
{
    (void)state;
    start();
    const long begins = add_stop(20.0, 4.0, 400.0);
    for (long i = 0; i < rows; i++) {
        row[i].value[BRAKE_LOG_PRESSURE] = 1e4 * row[i].value[BRAKE_LOG_PEDAL_FORCE];
        row[i].value[BRAKE_LOG_PEDAL_FORCE] = BRAKE_NAN;
    }
    const struct brake_drive_stop *stop = measure();
    assert_true(drive.timed);
    assert_int_equal(stop->first, begins + 1);
    assert_near(stop->pressure, 4e6, ROUNDING);
    assert_nan(stop->pedal_force);
}

/* A mean over the way counts by speed: 300 N from 16 to 10 m/s and 500 N from there to 2 m/s come
 * to (300 (16^2 - 10^2) + 500 (10^2 - 2^2)) / (16^2 - 2^2) N; rows stand for 0.2 m/s each. */
static void a_mean_over_the_way_counts_by_speed(void **state)
{
    (void)state;
    start();
    add_stop(20.0, 4.0, 400.0);
    for (long i = 0; i < rows; i++) {
        const bool late = row[i].value[BRAKE_LOG_SPEED] < 10.0;
        if (row[i].value[BRAKE_LOG_PEDAL_FORCE] > 0.0)
            row[i].value[BRAKE_LOG_PEDAL_FORCE] = late ? 500.0 : 300.0;
        row[i].value[BRAKE_LOG_GRADE] = late ? 0.05 : 0.03;
        row[i].value[BRAKE_LOG_DECELERATION] = late ? 5.0 : 3.0;
    }
    const struct brake_drive_stop *stop = measure();
    assert_within(stop->pedal_force, (300.0 * 156.0 + 500.0 * 96.0) / 252.0, 1.5);
    assert_near(stop->grade, stop->pedal_force * 1e-4, 1e-9);
    assert_near(stop->indicated, stop->pedal_force * 1e-2, 1e-9);
}

/* The nearest of those that are given, else of tens of km/h: 18.6 m/s are 67 km/h. */
static void a_stop_is_brought_to_the_nearest_speed(void **state)
{
    (void)state;
    start();
    add_stop(18.6, 4.0, 400.0);
    assert_near(measure()->nominal, 70.0 / 3.6, ROUNDING);
    const double factor = 70.0 / 3.6 / 18.6;
    assert_near(drive.stop[0].corrected.value, drive.stop[0].distance.value * factor * factor,
                1e-9);
    nominal = (struct brake_nominal){.speed = {14.0, 17.0, 22.0}, .count = 3};
    assert_near(measure()->nominal, 17.0, ROUNDING);
    nominal = (struct brake_nominal){.speed = {18.0, 17.0, 22.0}, .count = 3};
    assert_near(measure()->nominal, 18.0, ROUNDING);
}

/* Mean 3.6, standard deviation of 3.2, 3.6, 4.0: 0.4. Another speed is a group of its own, with no
 * deviation. */
static void stops_from_one_speed_are_a_group(void **state)
{
    (void)state;
    start();
    add_stop(20.0, 3.2, 400.0);
    add_stop(20.0, 4.0, 400.0);
    add_stop(20.0, 3.6, 400.0);
    add_stop(14.0, 5.0, 400.0);
    measure();
    assert_int_equal(drive.stops, 4);
    assert_int_equal(drive.counted, 4);
    assert_int_equal(drive.repeats, 2);
    const struct brake_repeat *group = &drive.repeat[0];
    assert_int_equal(group->stops, 3);
    assert_near(group->mean[0], 3.6, 1e-9);
    assert_near(group->spread[0], 0.4, 1e-8);
    assert_near(group->least[0], 3.2, 1e-9);
    assert_near(group->most[0], 4.0, 1e-9);
    assert_near(group->least[1], drive.stop[1].corrected.value, 1e-12);
    assert_near(group->most[1], drive.stop[0].corrected.value, 1e-12);
    assert_int_equal(drive.repeat[1].stops, 1);
    assert_nan(drive.repeat[1].spread[0]);
}

/* brake/drivelog.h: less than 1 m/s2 is no use of the brakes, less than 5 m/s no stop. */
static void gentle_and_slow_ones_are_no_stops(void **state)
{
    (void)state;
    start();
    add_stop(20.0, 0.995, 400.0);
    measure();
    assert_int_equal(drive.stops, 0);
    assert_int_equal(drive.gentle, 1);
    add_stop(20.0, 1.005, 400.0);
    /* the row in which the foot comes on is 0.2 m/s below */
    add_stop(5.18, 4.0, 400.0);
    add_stop(5.22, 4.0, 400.0);
    measure();
    assert_int_equal(drive.gentle, 1);
    assert_int_equal(drive.stops, 2);
    assert_near(drive.stop[1].initial.value, 5.22, 1e-9);
}

/* Of six intervals, or just before the stop; of three, or long before it, is none. */
static void rows_that_are_missing_are_told(void **state)
{
    (void)state;
    static const struct {
        long at, count;
        unsigned flags;
    } cases[] = {{20, 5, BRAKE_STOP_GAP},
                 {20, 2, 0},
                 {-15, 5, BRAKE_STOP_GAP},
                 {-35, 5, 0},
                 {101, 5, 0}}; /* standing again from row 100 on */
    for (int i = 0; i < 5; i++) {
        start();
        const long begins = add_stop(20.0, 4.0, 400.0);
        take_out(begins + cases[i].at, cases[i].count);
        const struct brake_drive_stop *stop = measure();
        assert_int_equal(stop->flags, cases[i].flags);
        assert_int_equal(drive.counted, cases[i].flags == 0);
        if (cases[i].flags != 0) {
            assert_int_equal(stop->flagged, begins + cases[i].at);
            assert_nan(stop->distance.value);
        }
    }
}

/* No brake speeds a vehicle up: a row that is 3 m/s too fast is a jump. */
static void a_row_that_is_too_fast_is_a_jump(void **state)
{
    (void)state;
    start();
    const long begins = add_stop(20.0, 4.0, 400.0);
    row[begins + 30].value[BRAKE_LOG_SPEED] += 3.0;
    const struct brake_drive_stop *stop = measure();
    assert_int_equal(drive.stops, 1);
    assert_true((stop->flags & (BRAKE_STOP_JUMP | BRAKE_STOP_WHEEL_LOCK)) != 0);
    assert_int_equal(drive.counted, 0);
}

/* At 5 rows a second, 0.4 m/s apart: up to 0.8 m/s an engine might give (4 m/s2, half of
 * what the strongest does), down to 2.4 m/s a tyre (12 m/s2). A hair more is no motion. */
static void what_no_tyre_and_no_engine_gives_is_a_jump(void **state)
{
    (void)state;
    static const struct {
        double rise, fall; /* [m/s] against the row before */
        unsigned flags;
    } cases[] = {{0.799, 0.0, 0},
                 {0.801, 0.0, BRAKE_STOP_JUMP},
                 {0.0, 2.399, 0},
                 {0.0, 2.401, BRAKE_STOP_JUMP}};
    for (int i = 0; i < 4; i++) {
        start();
        interval = 0.2;
        const long at = add_stop(20.0, 2.0, 400.0) + 20;
        if (cases[i].rise > 0.0)
            row[at].value[BRAKE_LOG_SPEED] = row[at - 1].value[BRAKE_LOG_SPEED] + cases[i].rise;
        for (long k = at; k < rows && cases[i].fall > 0.0; k++)
            row[k].value[BRAKE_LOG_SPEED] =
                fmax(0.0, row[k].value[BRAKE_LOG_SPEED] + 0.4 - cases[i].fall);
        const struct brake_drive_stop *stop = measure();
        assert_int_equal(stop->flags, cases[i].flags);
        if (cases[i].flags != 0)
            assert_int_equal(stop->flagged, at);
    }
}

/* Noise of 0.05 m/s up and down from row to row makes second differences of 0.2 m/s, of which white
 * noise has 0.6745 6^(1/2) times its deviation as their median: 0.121 m/s, and five of it for a
 * difference of two, 0.856 m/s, are no motion. With the 0.8 m/s as above: 1.656. */
static void noise_is_no_jump(void **state)
{
    (void)state;
    static const double rise[] = {1.64, 1.67};
    for (int i = 0; i < 2; i++) {
        start();
        interval = 0.2;
        const long begins = add_stop(20.0, 2.0, 400.0);
        for (long k = begins + 1; row[k].value[BRAKE_LOG_SPEED] > 1.0; k++)
            row[k].value[BRAKE_LOG_SPEED] += k % 2 == 0 ? 0.05 : -0.05;
        row[begins + 20].value[BRAKE_LOG_SPEED] = row[begins + 19].value[BRAKE_LOG_SPEED] + rise[i];
        assert_int_equal(measure()->flags, i == 0 ? 0 : BRAKE_STOP_JUMP);
    }
}

/* Half a second in which the wheel stands, and is back at the vehicle's speed at once: one stop. */
static void a_wheel_that_locks_and_comes_back_is_told(void **state)
{
    (void)state;
    start();
    const long begins = add_stop(20.0, 4.0, 400.0);
    for (long i = begins + 30; i < begins + 40; i++)
        row[i].value[BRAKE_LOG_SPEED] = 0.0;
    const struct brake_drive_stop *stop = measure();
    assert_int_equal(drive.stops, 1);
    assert_int_equal(stop->flags, BRAKE_STOP_WHEEL_LOCK);
    assert_within((double)stop->flagged, (double)begins + 30.0, 2.0);
    assert_int_equal(stop->first, begins + 1);
}

/* A log that begins with the foot on has no way, but a deceleration. */
static void a_log_that_begins_in_a_stop_has_no_distance(void **state)
{
    (void)state;
    start();
    const long begins = add_stop(20.0, 4.0, 400.0);
    take_out(0, begins + 5);
    const struct brake_drive_stop *stop = measure();
    assert_int_equal(stop->flags, BRAKE_STOP_BEGUN);
    assert_int_equal(stop->flagged, 0);
    assert_int_equal(drive.counted, 1);
    assert_int_equal(drive.repeats, 0);
    assert_near(stop->developed.value, 4.0, 1e-9);
    assert_nan(stop->distance.value);
}

/* A row each 20 of these, 1 s: four rows on the way from 0.8 to 0.1 are too few for a curve. */
static void a_log_of_few_rows_is_coarse(void **state)
{
    (void)state;
    start();
    add_stop(20.0, 8.0, 400.0);
    const long all = rows;
    rows = 0;
    for (long i = 0; i < all; i += 20)
        row[rows++] = row[i];
    const struct brake_drive_stop *stop = measure();
    assert_int_equal(drive.stops, 1);
    assert_int_equal(stop->flags, BRAKE_STOP_COARSE);
    assert_int_equal(drive.counted, 0);
}

/* Five rows between 16 and 2 m/s carry a curve (brake/drivelog.h): 14.2, 11.3, 8.4, 5.5 and 2.6 by
 * 2.9 m/s2 and a row a second; by 3.2 m/s2 there are four. */
static void five_rows_carry_a_curve(void **state)
{
    (void)state;
    for (int few = 0; few < 2; few++) {
        start();
        interval = 1.0;
        add_stop(20.0, few ? 3.2 : 2.9, 400.0);
        const struct brake_drive_stop *stop = measure();
        assert_int_equal(stop->flags, few ? BRAKE_STOP_COARSE : 0);
        assert_int_equal(stop->points, few ? 4 : 5);
    }
}

/* 22 N: SAE J299 (2009), read second-hand; 1 bar: common practice, no source. */
static void a_foot_is_on_from_a_force_or_a_pressure(void **state)
{
    (void)state;
    static const struct {
        double force, pressure; /* [N], [Pa] */
        bool on;
    } cases[] = {{21.99, BRAKE_NAN, false},     {22.0, BRAKE_NAN, true},
                 {BRAKE_NAN, 99900.0, false},   {BRAKE_NAN, 1e5, true},
                 {BRAKE_NAN, BRAKE_NAN, false}, {21.99, 1e5, true}};
    for (int i = 0; i < 6; i++) {
        start();
        add_stop(20.0, 4.0, cases[i].force);
        for (long k = 0; k < rows; k++)
            row[k].value[BRAKE_LOG_PRESSURE] = cases[i].pressure;
        assert_int_equal(brake_foot_on(&row[60]), cases[i].on);
        measure();
        assert_int_equal(drive.timed, cases[i].on);
    }
}

/* The least log there is: of its two rows the interval is the one between them. */
static void two_rows_tell_their_interval(void **state)
{
    (void)state;
    start();
    add(20.0, 0.0);
    add(20.0, 0.0);
    measure();
    assert_near(drive.interval, interval, ROUNDING);
    assert_int_equal(drive.stops, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_way_counts_from_between_two_rows),
        cmocka_unit_test(a_speed_that_comes_late_moves_the_begin),
        cmocka_unit_test(without_noise_a_way_is_as_sure_as_its_begin),
        cmocka_unit_test(without_a_foot_the_curve_is_drawn_back),
        cmocka_unit_test(pressure_tells_the_foot_too),
        cmocka_unit_test(a_mean_over_the_way_counts_by_speed),
        cmocka_unit_test(a_stop_is_brought_to_the_nearest_speed),
        cmocka_unit_test(stops_from_one_speed_are_a_group),
        cmocka_unit_test(gentle_and_slow_ones_are_no_stops),
        cmocka_unit_test(rows_that_are_missing_are_told),
        cmocka_unit_test(a_row_that_is_too_fast_is_a_jump),
        cmocka_unit_test(what_no_tyre_and_no_engine_gives_is_a_jump),
        cmocka_unit_test(noise_is_no_jump),
        cmocka_unit_test(a_wheel_that_locks_and_comes_back_is_told),
        cmocka_unit_test(a_log_that_begins_in_a_stop_has_no_distance),
        cmocka_unit_test(a_log_of_few_rows_is_coarse),
        cmocka_unit_test(five_rows_carry_a_curve),
        cmocka_unit_test(a_foot_is_on_from_a_force_or_a_pressure),
        cmocka_unit_test(two_rows_tell_their_interval),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
