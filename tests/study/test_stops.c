/* SPDX-License-Identifier: MIT */
/* Stops of logs that were made by hand: a straight fall of speed, so that every figure follows from
 * v^2/2a, and then what is wrong with a log. */
#include "../vehicle/sheet.h"

#include "brake/drivelog.h"
#include "brake/log.h"
#include "study/noise.h"
#include "study/stops.h"

enum { ROWS = 8000 };

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
    assert_equal(drive.repeat[2].spread[0], 0.0); /* no group: nothing is said of it */
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
                 {-23, 5, BRAKE_STOP_GAP}, /* less than 1 s before the row with the foot */
                 {-24, 5, 0},
                 {-35, 5, 0},
                 {100, 5, 0}, /* the row before stands, at 0.2 m/s */
                 {101, 5, 0}};
    for (int i = 0; i < 8; i++) {
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

/* To the bit: at 8 rows a second, 0.5 m/s apart, a fall by 1.5 m/s or a rise by 0.5 may be. */
static void what_a_tyre_or_an_engine_just_gives_is_no_jump(void **state)
{
    (void)state;
    for (int rises = 0; rises < 2; rises++) {
        start();
        interval = 0.125;
        const long at = add_stop(20.0, 4.0, 400.0) + 10;
        if (rises)
            row[at].value[BRAKE_LOG_SPEED] = row[at - 1].value[BRAKE_LOG_SPEED] + 0.5;
        for (long k = at; k < rows && !rises; k++)
            row[k].value[BRAKE_LOG_SPEED] = fmax(0.0, row[k].value[BRAKE_LOG_SPEED] - 1.0);
        assert_int_equal(measure()->flags, 0);
    }
}

/* Over 0.1 s, two rows of 0.05 s, by which the vehicle slows by 0.4 m/s: half a metre a second up
 * is noise of a receiver, more is a jump. */
static void a_rise_of_less_than_half_a_metre_a_second_is_none(void **state)
{
    (void)state;
    for (int more = 0; more < 2; more++) {
        start();
        const long at = add_stop(20.0, 4.0, 400.0) + 40;
        const double up = 0.4 + (more ? 0.502 : 0.498); /* and then away over forty rows */
        for (long k = at; k < at + 40; k++)
            row[k].value[BRAKE_LOG_SPEED] += up * (double)(at + 40 - k) / 40.0;
        assert_int_equal(measure()->flags, more ? BRAKE_STOP_JUMP : 0);
    }
}

/* Noise hides from row to row what the whole stop shows: no road tyre slows a vehicle by more than
 * 12 m/s2 (common practice, no source), so that the unit of the speed is another. */
static void more_than_tyres_can_do_in_all_does_not_count(void **state)
{
    (void)state;
    for (int more = 0; more < 2; more++) {
        start();
        const long begins = add_stop(40.0, more ? 12.4 : 11.6, 400.0);
        for (long k = begins + 1; row[k].value[BRAKE_LOG_SPEED] > 1.0; k++)
            row[k].value[BRAKE_LOG_SPEED] += k % 2 == 0 ? 0.05 : -0.05;
        assert_int_equal(measure()->flags, more ? BRAKE_STOP_JUMP : 0);
        assert_int_equal(brake_drive_counts(&drive.stop[0]), !more);
    }
}

/* Three second differences tell a noise, 8.5 m/s in the middle here, of the first row, beside none
 * at all and 12.75; two tell none. */
static void few_rows_tell_no_noise(void **state)
{
    (void)state;
    static const double speed[2][5] = {{16.0, 20.5, 8.0, 0.0}, {16.0, 12.0, 16.5, 8.25, 0.0}};
    for (int many = 0; many < 2; many++) {
        start();
        interval = 1.0;
        for (int i = 0; i < 6; i++)
            add(20.0, 0.0);
        for (int i = 0; i < 4 + many; i++)
            add(speed[many][i], 400.0);
        add(0.0, 0.0);
        assert_int_equal(measure()->flags & BRAKE_STOP_JUMP, many ? 0 : BRAKE_STOP_JUMP);
    }
}

/* Noise of 0.05 m/s up and down from row to row makes second differences of 0.2 m/s, of which white
 * noise has 0.6745 6^(1/2) times its deviation as their median: 0.121 m/s, and five of it for a
 * difference of two, 0.856 m/s, are no motion. With the 0.8 m/s as above: 1.65597. */
static void noise_is_no_jump(void **state)
{
    (void)state;
    static const double rise[] = {1.6555, 1.6565};
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

/* Times of rows from some row on are later. */
static void delay(long first, double by)
{
    for (long i = first; i < rows; i++)
        row[i].value[BRAKE_LOG_TIME] += by;
}

/* More than 3.5 usual intervals, and more than 0.25 s (brake/drivelog.h). */
static void a_gap_is_one_from_a_length_on(void **state)
{
    (void)state;
    static const struct {
        double interval, gap;
        unsigned flags;
    } cases[] = {{0.1, 0.3495, 0},  {0.1, 0.3505, BRAKE_STOP_GAP},  {0.125, 0.4375, 0},
                 {0.05, 0.2495, 0}, {0.05, 0.2505, BRAKE_STOP_GAP}, {0.0625, 0.25, 0}};
    for (int i = 0; i < 6; i++) {
        start();
        interval = cases[i].interval;
        const long begins = add_stop(20.0, 4.0, 400.0);
        delay(begins + 12, cases[i].gap - cases[i].interval);
        assert_int_equal(measure()->flags, cases[i].flags);
    }
}

/* Within the second before a stop, up to where the log begins; of rows a second apart the one
 * before. */
static void a_gap_counts_within_a_second_before_the_stop(void **state)
{
    (void)state;
    start();
    const long begins = add_stop(20.0, 4.0, 400.0);
    take_out(1, begins - 8);
    assert_int_equal(measure()->flags, BRAKE_STOP_GAP);
    assert_int_equal(drive.stop[0].flagged, 1);
    start();
    interval = 1.0;
    const long later = add_stop(20.0, 2.0, 400.0);
    delay(later, 9.0);
    assert_int_equal(measure()->flags, 0);
}

/* The first of them is named; that the log begins in the stop is none that names a row. */
static void of_what_is_wrong_the_first_is_named(void **state)
{
    (void)state;
    for (int begun = 0; begun < 2; begun++) {
        start();
        long begins = add_stop(20.0, 4.0, 400.0);
        row[begins + 40].value[BRAKE_LOG_SPEED] += 3.0;
        delay(begins + 20, 0.3);
        if (begun) {
            take_out(0, begins + 5);
            begins = -5;
        }
        const struct brake_drive_stop *stop = measure();
        assert_true((stop->flags & BRAKE_STOP_GAP) != 0);
        assert_true((stop->flags & (BRAKE_STOP_JUMP | BRAKE_STOP_WHEEL_LOCK)) != 0);
        assert_int_equal((stop->flags & BRAKE_STOP_BEGUN) != 0, begun);
        assert_int_equal(stop->flagged, begins + 20);
    }
}

/* A speed of 0.3 m/s stands, more moves (brake/drivelog.h); moving on past the last row is no
 * stop, whatever lay behind it. */
static void a_vehicle_stands_from_a_speed_on(void **state)
{
    (void)state;
    start();
    const long begins = add_stop(20.0, 4.0, 400.0);
    for (int moves = 0; moves < 2; moves++) {
        for (long i = begins + 98; i < rows; i++)
            row[i].value[BRAKE_LOG_SPEED] = moves ? 0.302 : 0.3;
        measure();
        assert_int_equal(drive.stops, moves ? 0 : 1);
    }
    start();
    rows = add_stop(20.0, 4.0, 400.0) + 99; /* the next would stand */
    measure();
    assert_int_equal(drive.stops, 0);
}

/* The middle one by size, not by place; of many rows those that are looked at are spread evenly. */
static void the_interval_is_the_middle_one(void **state)
{
    (void)state;
    static const double apart[] = {0.3, 0.1, 0.5, 0.2, 0.4};
    start();
    for (int i = 0; i < 8; i++)
        add(20.0, 0.0);
    for (int i = 0; i < 5; i++)
        row[i + 1].value[BRAKE_LOG_TIME] = row[i].value[BRAKE_LOG_TIME] + apart[i];
    rows = 6;
    measure();
    assert_near(drive.interval, 0.3, 1e-9);
    start();
    while (rows < 3100)
        add(20.0, 0.0);
    for (long i = 1400; i < rows; i++)
        row[i].value[BRAKE_LOG_TIME] = row[i - 1].value[BRAKE_LOG_TIME] + 0.2;
    measure();
    assert_near(drive.interval, 0.2, 1e-9);
}

/* Up and down by k/49 of 0.05 m/s at row k of the 50 of a stop: second differences by 4 k/49 of it
 * each. Of rows 2 to 49 the middle one in size is the 25th: 26, as the last, next to rest, is
 * 36.5. What an engine gives and five deviations of a difference more are no motion. */
static void noise_is_the_middle_second_difference(void **state)
{
    (void)state;
    const double noise = 4.0 * 26.0 * 0.05 / 49.0 / (0.6745 * sqrt(6.0));
    const double most = 0.8 + 5.0 * sqrt(2.0) * noise;
    for (int more = 0; more < 2; more++) {
        start();
        interval = 0.2;
        const long begins = add_stop(20.0, 2.0, 400.0);
        for (int k = 1; k < 50; k++)
            row[begins + k].value[BRAKE_LOG_SPEED] += (k % 2 == 0 ? 0.05 : -0.05) * k / 49.0;
        row[begins + 40].value[BRAKE_LOG_SPEED] =
            row[begins + 39].value[BRAKE_LOG_SPEED] + most + (more ? 0.002 : -0.002);
        assert_int_equal(measure()->flags, more ? BRAKE_STOP_JUMP : 0);
    }
}

/* At 16 rows a second a wheel stands from half a second into a stop from 30 m/s, and is back at the
 * vehicle's speed: within 3 s (brake/drivelog.h); else the vehicle stood, and went on by a leap. */
static void a_wheel_stands_for_less_than_three_seconds(void **state)
{
    (void)state;
    for (int count = 48; count <= 49; count++) {
        start();
        interval = 0.0625;
        const long begins = add_stop(30.0, 4.0, 400.0);
        for (long i = 0; i < count; i++)
            row[begins + 8 + i].value[BRAKE_LOG_SPEED] = 0.0;
        measure();
        assert_int_equal(drive.stops, count == 48 ? 1 : 2);
        assert_int_equal(drive.stop[0].first, begins + 1);
        assert_int_equal(drive.stop[0].last > begins + 100, count == 48);
    }
}

/* Nor by more than any engine would bring it, 8 m/s2 over half a second. */
static void what_an_engine_could_do_is_no_lock(void **state)
{
    (void)state;
    for (int more = 0; more < 2; more++) {
        start();
        interval = 0.0625;
        const long begins = add_stop(30.0, 4.0, 400.0);
        for (long i = 8; i < 16; i++)
            row[begins + i].value[BRAKE_LOG_SPEED] = 0.0;
        for (long i = 16; i <= 23; i++)
            row[begins + i].value[BRAKE_LOG_SPEED] = (more ? 4.02 : 4.0) * (double)(i - 15) / 8.0;
        measure();
        assert_int_equal(drive.stops, more ? 1 : 2);
    }
}

/* A log that ends while the wheel stands knows of no coming back. */
static void a_log_that_ends_in_a_lock_ends_in_a_stop(void **state)
{
    (void)state;
    start();
    const long begins = add_stop(20.0, 4.0, 400.0);
    for (long i = begins + 30; i < begins + 40; i++)
        row[i].value[BRAKE_LOG_SPEED] = 0.0;
    for (rows = begins + 31; rows <= begins + 40; rows++) {
        measure();
        assert_int_equal(drive.stops, 1);
        assert_int_equal(drive.stop[0].last, begins + 30);
    }
}

/* Nor does one whose last row shows 0.25 m/s, which stands, but after 1/40 s would be a wheel that
 * comes back at 10 m/s2. */
static void a_last_row_that_stands_is_no_coming_back(void **state)
{
    (void)state;
    start();
    interval = 0.025;
    const long begins = add_stop(20.0, 4.0, 400.0);
    for (long i = begins + 30; i < begins + 40; i++)
        row[i].value[BRAKE_LOG_SPEED] = 0.0;
    for (rows = begins + 32; rows <= begins + 40; rows++) {
        row[rows - 1].value[BRAKE_LOG_SPEED] = 0.25;
        measure();
        assert_int_equal(drive.stops, 1);
        assert_int_equal(drive.stop[0].last, begins + 30);
        row[rows - 1].value[BRAKE_LOG_SPEED] = 0.0;
    }
}

/* Without a foot, at 16 rows a second: 20 m/s, a fall to `low` in some rows, a leap up, a while
 * there, then 4 m/s2 to rest. Row from which on it falls. */
static long add_dip(long fall, double low, double up, long stays)
{
    interval = 0.0625;
    const long begins = rows - 1;
    for (long i = 1; i <= fall; i++)
        add(20.0 + (low - 20.0) * (double)i / (double)fall, BRAKE_NAN);
    for (long i = 0; i < stays; i++)
        add(up, BRAKE_NAN);
    for (double speed = up - 0.25; speed > 0.0; speed -= 0.25)
        add(speed, BRAKE_NAN);
    add(0.0, BRAKE_NAN);
    return begins;
}

static void stand_at(double speed, long count)
{
    start();
    interval = 0.0625;
    for (long i = 0; i < count; i++)
        add(speed, BRAKE_NAN);
}

/* A wheel that was lowest less than a second before it is back, and had that speed less than three
 * seconds before that, locked: the stop begins ahead of it. */
static void a_stop_goes_on_through_a_lock(void **state)
{
    (void)state;
    static const struct {
        long fall, stays;
        bool one;
    } cases[] = {{8, 14, true}, {8, 15, true}, {8, 16, false}, {47, 14, true}, {48, 14, false}};
    for (int i = 0; i < 5; i++) {
        stand_at(20.0, 32);
        const long begins = add_dip(cases[i].fall, 14.0, 20.0, cases[i].stays);
        const struct brake_drive_stop *stop = measure();
        const long peak = begins + cases[i].fall + cases[i].stays;
        assert_int_equal(drive.stops, 1);
        if (cases[i].one)
            assert_in_range(stop->first, begins - 8, begins + 4);
        else
            assert_in_range(stop->first, peak - 8, peak + 4);
    }
}

/* From 14 m/s up by 1 m/s and what an engine gives, 4 m/s2 over 14/16 s: 4.5 m/s, less what the
 * brakes took in the meantime. */
static void a_rise_that_an_engine_gives_is_no_lock(void **state)
{
    (void)state;
    for (int more = 0; more < 2; more++) {
        stand_at(20.0, 32);
        const long begins = rows - 1;
        for (int i = 1; i <= 8; i++)
            add(20.0 - 0.75 * i, BRAKE_NAN);
        for (int i = 1; i <= 8; i++)
            add(14.0 + (more ? 0.75 : 0.745) * i, BRAKE_NAN);
        for (double speed = row[rows - 1].value[BRAKE_LOG_SPEED] - 0.25; speed > 0.0; speed -= 0.25)
            add(speed, BRAKE_NAN);
        add(0.0, BRAKE_NAN);
        const struct brake_drive_stop *stop = measure();
        if (more)
            assert_in_range(stop->first, begins - 8, begins + 4);
        else
            assert_in_range(stop->first, begins + 8, begins + 24);
    }
}

/* Of rows that are as low the last counts: 3.8 m/s over half a second are more than the 3 m/s that
 * an engine gives and one; over the 3/4 s since the first of them it might give 4. */
static void a_lock_is_over_with_its_last_row(void **state)
{
    (void)state;
    stand_at(20.0, 1);
    for (int i = 0; i < 5; i++)
        add(14.2, BRAKE_NAN);
    add_dip(0, 0.0, 19.75, 1);
    measure();
    assert_int_equal(drive.stops, 1);
    assert_int_equal(drive.stop[0].first, 0);
}

/* Its first row is the last before a lock of one row, half a second before the brakes are seen to
 * slow the vehicle. */
static void a_log_may_begin_with_a_lock(void **state)
{
    (void)state;
    stand_at(20.0, 1);
    add(13.9, BRAKE_NAN);
    add_dip(0, 0.0, 19.75, 1);
    const struct brake_drive_stop *stop = measure();
    assert_int_equal(drive.stops, 1);
    assert_int_equal(stop->first, 0);
    assert_int_equal(stop->flags & BRAKE_STOP_BEGUN, BRAKE_STOP_BEGUN);
}

/* Without a foot a stop begins where half a second slows by a third of its mean: from 20 m/s two
 * seconds at a gentle g, then 5 m/s2 to rest. Before the gentle part is cut off the mean is 3.651
 * m/s2 for 1.215 (a third: 1.217), 3.653 for 1.22 (1.2177). */
static void a_gentle_onset_is_no_part_of_a_stop(void **state)
{
    (void)state;
    for (int part = 0; part < 2; part++) {
        const double gentle = part ? 1.22 : 1.215;
        stand_at(20.0, 32);
        const long begins = rows - 1;
        for (int i = 1; i <= 32; i++)
            add(20.0 - gentle * interval * i, BRAKE_NAN);
        while (row[rows - 1].value[BRAKE_LOG_SPEED] > 0.0)
            add(fmax(0.0, row[rows - 1].value[BRAKE_LOG_SPEED] - 5.0 * interval), BRAKE_NAN);
        const struct brake_drive_stop *stop = measure();
        assert_int_equal(drive.stops, 1);
        if (part)
            assert_in_range(stop->first, begins - 8, begins + 2);
        else
            assert_in_range(stop->first, begins + 24, begins + 32);
    }
}

/* Where the speed falls by less than 0.3 m/s2 over half a second no stop is under way. Ten seconds
 * of a little more make its mean so small that the gentle second after them is part of it. */
static void coasting_is_no_part_of_a_stop(void **state)
{
    (void)state;
    for (int slows = 0; slows < 2; slows++) {
        const double coasting = slows ? 0.3015 : 0.2985;
        stand_at(20.0, 32);
        for (int i = 0; i < 160; i++)
            add(row[rows - 1].value[BRAKE_LOG_SPEED] - coasting * interval, BRAKE_NAN);
        const long gentle = rows - 1;
        for (int i = 0; i < 32; i++)
            add(row[rows - 1].value[BRAKE_LOG_SPEED] - 0.9 * interval, BRAKE_NAN);
        while (row[rows - 1].value[BRAKE_LOG_SPEED] > 0.0)
            add(fmax(0.0, row[rows - 1].value[BRAKE_LOG_SPEED] - 5.0 * interval), BRAKE_NAN);
        const struct brake_drive_stop *stop = measure();
        assert_int_equal(drive.stops, 1);
        if (slows)
            assert_in_range(stop->first, gentle - 8, gentle + 2);
        else
            assert_in_range(stop->first, gentle + 24, gentle + 32);
    }
}

/* From the first row of a foot that stays on; 22 N are enough. A foot that came off for a row
 * before begins anew. */
static void a_stop_begins_with_its_foot(void **state)
{
    (void)state;
    start();
    long begins = add_stop(20.0, 4.0, 22.0);
    assert_int_equal(measure()->first, begins + 1);
    for (long i = begins - 12; i <= begins; i++)
        row[i].value[BRAKE_LOG_PEDAL_FORCE] = i == begins - 8 ? 0.0 : 22.0;
    assert_int_equal(measure()->first, begins - 7);
    take_out(0, begins - 8); /* now all but row 0 */
    for (long i = 1; i <= 8; i++)
        row[i].value[BRAKE_LOG_PEDAL_FORCE] = 22.0;
    assert_int_equal(measure()->first, 1);
    row[0].value[BRAKE_LOG_PEDAL_FORCE] = 22.0;
    assert_int_equal(measure()->first, 0);
    assert_int_equal(drive.stop[0].flags, BRAKE_STOP_BEGUN);
    /* a row that is not handed over, ahead of the log, is none of it */
    assert_int_equal(brake_drive_measure(row + 1, rows - 1, &nominal, &day, &drive), BRAKE_OK);
    assert_int_equal(drive.stop[0].first, 0);
}

/* Of the rows of a stop the first alone is faster than 5 m/s, and it is the first of the log. */
static void a_log_may_begin_in_its_only_fast_row(void **state)
{
    (void)state;
    start();
    for (double speed = 5.1; speed > 0.0; speed -= 0.2)
        add(speed, 400.0);
    add(0.0, 400.0);
    measure();
    assert_int_equal(drive.stops, 1);
    assert_int_equal(drive.stop[0].first, 0);
    assert_int_equal(drive.stop[0].flags, BRAKE_STOP_BEGUN);
}

/* What a vehicle does from its first standing row on is none of the stop: off at once by 0.65
 * m/s in a tenth of a second, which within a stop would be a jump. */
static void a_start_right_after_a_stop_is_no_jump(void **state)
{
    (void)state;
    start();
    const long last = add_stop(20.0, 4.0, 400.0) + 99; /* of 0.2 m/s, which stands */
    for (long i = last + 1; i < rows; i++)
        row[i].value[BRAKE_LOG_SPEED] = 0.85;
    const struct brake_drive_stop *stop = measure();
    assert_int_equal(stop->last, last);
    assert_int_equal(stop->flags, 0);
}

/* The way to rest goes on from the last row that moves: what the row that stands says of its speed,
 * up to 0.3 m/s, is not looked at. */
static void the_way_ends_with_the_last_row_that_moves(void **state)
{
    (void)state;
    start();
    const long last = add_stop(20.0, 4.0, 400.0) + 99;
    const double way = measure()->distance.value;
    row[last].value[BRAKE_LOG_SPEED] = 0.3;
    assert_int_equal(measure()->last, last);
    assert_near(drive.stop[0].distance.value, way, 1e-12);
}

/* At 200 rows a second a stop has more rows than a median is taken of: those that are looked at are
 * spread evenly over it. The noise and its bound are those of noise_is_no_jump; over 0.1 s, twenty
 * rows, by which the vehicle slows by 0.4 m/s, an engine gives 0.4. */
static void noise_of_many_rows_is_that_of_some(void **state)
{
    (void)state;
    const double most = 0.4 + 5.0 * sqrt(2.0) * 0.2 / (0.6745 * sqrt(6.0));
    for (int more = 0; more < 2; more++) {
        start();
        interval = 0.005;
        const long begins = add_stop(24.0, 4.0, 400.0);
        const double up = 0.4 + most + (more ? 0.002 : -0.002);
        for (long i = begins + 1; row[i].value[BRAKE_LOG_SPEED] > 1.0; i++)
            row[i].value[BRAKE_LOG_SPEED] += i % 2 == 0 ? 0.05 : -0.05;
        for (long i = 0; i < 400; i++)
            row[begins + 300 + i].value[BRAKE_LOG_SPEED] += up * (double)(400 - i) / 400.0;
        assert_int_equal(measure()->flags, more ? BRAKE_STOP_JUMP : 0);
    }
}

/* Where the foot tells other stops, one without it begins where the speed falls. */
static void a_stop_without_the_foot_is_one_all_the_same(void **state)
{
    (void)state;
    start();
    add_stop(20.0, 4.0, 0.0);
    add_stop(20.0, 4.0, 400.0);
    measure();
    assert_true(drive.timed);
    assert_int_equal(drive.stops, 2);
    assert_near(drive.stop[0].developed.value, 4.0, 1e-9);
    for (long i = 0; i < rows; i++)
        row[i].value[BRAKE_LOG_PEDAL_FORCE] = i == 0 ? 22.0 : 0.0;
    measure();
    assert_true(drive.timed); /* once is enough */
}

/* The least three rows before, whatever their time; 20.5 m/s at half an interval ahead of the foot
 * when they rise by 1 m/s each. One more, far off, does not count. */
static void the_initial_speed_is_that_of_three_rows_or_more(void **state)
{
    (void)state;
    for (int before = 2; before <= 5; before++) {
        start();
        interval = 0.5;
        for (int i = before; i > 3; i--)
            add(9.0, 0.0);
        for (int i = before < 3 ? 1 : 0; i < 3; i++)
            add(18.0 + i, 0.0);
        for (double speed = 19.5; speed > 0.0; speed -= 1.0)
            add(speed, 400.0);
        add(0.0, 400.0);
        add(0.0, 0.0);
        assert_near(measure()->initial.value, before < 3 ? 19.5 : 20.5, 1e-9);
        assert_int_equal(drive.stop[0].first, before);
    }
}

/* Without a foot, half an interval before its first row; that the speed comes late tells nothing.
 */
static void without_a_foot_the_initial_speed_is_that_between_two_rows(void **state)
{
    (void)state;
    start();
    for (int i = 0; i < 60; i++)
        add(20.0 - 0.01 * i, BRAKE_NAN);
    while (row[rows - 1].value[BRAKE_LOG_SPEED] > 0.0)
        add(fmax(0.0, row[rows - 1].value[BRAKE_LOG_SPEED] - 0.3), BRAKE_NAN);
    day.lag.value = 0.5;
    const struct brake_drive_stop *stop = measure();
    assert_in_range(stop->first, 40, 59);
    assert_near(stop->initial.value, 20.0 - 0.01 * ((double)stop->first - 0.5), 1e-9);
}

/* brake/drivelog.h: a straight line below 8 rows, a parabola below 16, else a cubic. What it cannot
 * follow is noise; a parabola bends a line, a cubic a parabola. */
static void more_rows_carry_a_more_bent_curve(void **state)
{
    (void)state;
    int seen[2][4] = {{0}};
    for (int cubic = 0; cubic < 2; cubic++) {
        for (double apart = 0.12; apart < 0.5; apart += 0.005) {
            start();
            interval = apart;
            for (int i = 0; i < 12; i++)
                add(20.0, 0.0);
            for (int i = 1; row[rows - 1].value[BRAKE_LOG_SPEED] > 0.0; i++) {
                const double t = i * apart;
                add(fmax(0.0, 20.0 - 4.0 * t - (cubic ? 0.3 * t * t * t : 0.5 * t * t)), 400.0);
            }
            add(0.0, 0.0);
            const struct brake_drive_stop *stop = measure();
            assert_int_equal(stop->flags & ~(unsigned)BRAKE_STOP_COARSE, 0);
            if (stop->points < BRAKE_STOP_POINTS)
                continue;
            const int terms = stop->points < 8 ? 2 : stop->points < 16 ? 3 : 4;
            assert_int_equal(stop->noise < 1e-6, terms >= (cubic ? 4 : 3));
            seen[cubic][terms - 1]++;
            seen[cubic][0] +=
                stop->points == 7 || stop->points == 8 || stop->points == 15 || stop->points == 16;
        }
        assert_true(seen[cubic][0] > 3 && seen[cubic][1] > 0 && seen[cubic][3] > 0);
    }
}

/* v = 20 - 2 t - t^2/2 from the row before the foot: 16 m/s at (12^1/2 - 2) s, 2 m/s at
 * (40^1/2 - 2) s; the mean over the way between them, (v_b^2 - v_e^2)/2s. */
static void the_deceleration_is_that_over_the_way(void **state)
{
    (void)state;
    start();
    for (int i = 0; i < 40; i++)
        add(20.0, 0.0);
    for (int i = 1; row[rows - 1].value[BRAKE_LOG_SPEED] > 0.0; i++) {
        const double t = i * interval;
        add(fmax(0.0, 20.0 - 2.0 * t - 0.5 * t * t), 400.0);
    }
    add(0.0, 0.0);
    const double t[2] = {sqrt(12.0) - 2.0, sqrt(40.0) - 2.0};
    double way[2];
    for (int i = 0; i < 2; i++)
        way[i] = 20.0 * t[i] - t[i] * t[i] - t[i] * t[i] * t[i] / 6.0;
    const struct brake_drive_stop *stop = measure();
    assert_near(stop->developed.value, (256.0 - 4.0) / (2.0 * (way[1] - way[0])), 1e-9);
}

/* A single speed to be brought to is the nearest; of two as near the first; none behind them. */
static void a_nominal_speed_is_one_of_those_given(void **state)
{
    (void)state;
    static const struct brake_nominal given[] = {{{14.0, 20.0}, 1}, {{16.0, 24.0, 20.0}, 2}};
    static const double expected[] = {14.0, 16.0};
    for (int i = 0; i < 2; i++) {
        start();
        add_stop(20.0, 4.0, 400.0);
        nominal = given[i];
        assert_equal(measure()->nominal, expected[i]);
    }
}

/* Of the row in which the foot comes on. */
static void temperatures_and_heading_are_those_of_the_begin(void **state)
{
    (void)state;
    start();
    const long begins = add_stop(20.0, 4.0, 400.0);
    for (long i = 0; i < rows; i++) {
        row[i].value[BRAKE_LOG_FRONT_TEMPERATURE] = 300.0 + (double)i;
        row[i].value[BRAKE_LOG_FRONT_TEMPERATURE + 1] = 500.0 + (double)i;
        row[i].value[BRAKE_LOG_HEADING] = 0.01 * (double)i;
    }
    const struct brake_drive_stop *stop = measure();
    assert_equal(stop->temperature[0], 300.0 + (double)(begins + 1));
    assert_equal(stop->temperature[1], 500.0 + (double)(begins + 1));
    assert_equal(stop->heading, 0.01 * (double)(begins + 1));
}

/* Exactly 1 m/s2 is no gentle one, exactly 5 m/s no stop; the row of the foot is 0.25 m/s down. */
static void limits_of_stops_are_hit_to_the_bit(void **state)
{
    (void)state;
    start();
    interval = 0.0625;
    add_stop(20.0, 1.0, 400.0);
    measure();
    assert_int_equal(drive.gentle, 0);
    assert_int_equal(drive.stops, 1);
    start();
    interval = 0.0625;
    add_stop(5.25, 4.0, 400.0);
    measure();
    assert_int_equal(drive.stops, 0);
}

/* Two stops differ by 2^1/2 times the half of what they are apart. */
static void two_stops_have_a_spread(void **state)
{
    (void)state;
    start();
    add_stop(20.0, 4.0, 400.0);
    add_stop(20.0, 5.0, 400.0);
    measure();
    assert_int_equal(drive.repeat[0].stops, 2);
    assert_near(drive.repeat[0].spread[0], sqrt(0.5), 1e-9);
}

/* Up by 5 m/s2, five rows there, down by 5. */
static void add_short_stop(double speed)
{
    for (double from = 0.0; from < speed; from += 5.0 * interval)
        add(from, 0.0);
    for (int i = 0; i < 5; i++)
        add(speed, 0.0);
    for (double to = speed - 5.0 * interval; to > 0.0; to -= 5.0 * interval)
        add(to, 400.0);
    add(0.0, 0.0);
}

/* As many speeds as there is room for, and as many stops; one more of either is refused. */
static void more_than_there_is_room_for_is_refused(void **state)
{
    (void)state;
    for (int more = 0; more < 2; more++) {
        start();
        interval = 0.2;
        for (int i = 0; i < BRAKE_DRIVE_SPEEDS + more; i++)
            add_short_stop((30.0 + 10.0 * i) / 3.6);
        assert_int_equal(brake_drive_measure(row, rows, &nominal, &day, &drive),
                         more ? BRAKE_E_SIZE : BRAKE_OK);
        assert_int_equal(drive.repeats, BRAKE_DRIVE_SPEEDS);
    }
    for (int more = 0; more < 2; more++) {
        start();
        interval = 0.2;
        for (int i = 0; i < BRAKE_DRIVE_STOPS + more; i++)
            add_short_stop(8.0);
        assert_int_equal(brake_drive_measure(row, rows, &nominal, &day, &drive),
                         more ? BRAKE_E_SIZE : BRAKE_OK);
        assert_int_equal(drive.stops, BRAKE_DRIVE_STOPS);
    }
}

/* ---- what noise makes of it ------------------------------------------------------------------ */

enum { FIRST = 21, LAST = 90 }; /* rows between 16.08 and 2.01 m/s, from the begin on */

/* Down from 20.1 m/s by 4 m/s2, each row of the fall off by a part of its own. */
static long add_noisy_stop(double off, double force)
{
    struct cases cases = {3};
    start();
    const long begins = add_stop(20.1, 4.0, force);
    for (long i = begins + 2; i < begins + 99; i++)
        row[i].value[BRAKE_LOG_SPEED] += any_between(&cases, -off, off);
    return begins;
}

/* The noise that the log of one such stop shows. */
static struct brake_noise noise_of(long begins)
{
    struct brake_smooth curve;
    struct brake_noise noise;
    memset(&curve, 0, sizeof curve);
    assert_int_equal(drive.stop[0].points, LAST - FIRST + 1);
    assert_true(brake_smooth_fit(row, begins + FIRST, begins + LAST, 4, &curve));
    brake_noise_find(&curve, 1, &noise);
    return noise;
}

/* A figure moves with each row as it does when that row alone is moved; the noise of rows adds up
 * as their weights do. Rows nearest the edges of the band stay off them. */
static void the_deceleration_is_as_sure_as_its_rows(void **state)
{
    (void)state;
    const long begins = add_noisy_stop(0.03, 400.0);
    const double half = measure()->developed.half;
    const struct brake_noise noise = noise_of(begins);
    struct brake_noise_sum sum = {.variance = 0.0};
    assert_near(drive.stop[0].noise, brake_noise_of_row(&noise), 1e-9);
    for (long i = begins + FIRST; i <= begins + LAST; i++) {
        const double step = 1e-4;
        double value[2];
        for (int side = 0; side < 2; side++) {
            row[i].value[BRAKE_LOG_SPEED] += side == 0 ? -step : 2.0 * step;
            value[side] = measure()->developed.value;
        }
        row[i].value[BRAKE_LOG_SPEED] -= step;
        brake_noise_add(&noise, row[i].value[BRAKE_LOG_TIME], (value[1] - value[0]) / (2.0 * step),
                        &sum);
    }
    assert_near(half, 1.6448536269514722 * sqrt(sum.variance), 1e-4);
}

/* reference/method.md: rows by their intervals, the last moving one by the way to rest too; the
 * moment; two bends. Corrected, the initial speed counts twice. */
static void a_distance_is_as_sure_as_its_rows(void **state)
{
    (void)state;
    const long begins = add_noisy_stop(0.03, 400.0);
    const struct brake_drive_stop *stop = measure();
    const struct brake_noise noise = noise_of(begins);
    struct brake_noise_sum sum = {.variance = 0.0};
    const long last = begins + 98 + (row[begins + 99].value[BRAKE_LOG_SPEED] > 0.3);
    for (long i = begins + 1; i <= last; i++) {
        const double rest = i == last ? row[i].value[BRAKE_LOG_SPEED] / stop->developed.value : 0.0;
        brake_noise_add(&noise, row[i].value[BRAKE_LOG_TIME],
                        (i == begins + 1 ? 0.5 : 1.0) * interval + rest, &sum);
    }
    const double moment = interval / sqrt(12.0) * stop->initial.value;
    const double bend = stop->developed.value * interval * interval / 8.0;
    assert_near(stop->distance.half,
                1.6448536269514722 * sqrt(sum.variance + moment * moment + 2.0 * bend * bend / 3.0),
                1e-9);
    assert_true(stop->initial.half > 0.0);
    assert_near(stop->corrected.half / stop->corrected.value,
                hypot(stop->distance.half / stop->distance.value,
                      2.0 * stop->initial.half / stop->initial.value),
                1e-9);
}

/* Without a foot: the way from 0.8 of the initial speed, and 0.18 v_0^2 over the deceleration for
 * the way to there, with what both are sure of. */
static void a_distance_without_a_foot_is_as_sure_as_what_it_is_made_of(void **state)
{
    (void)state;
    const double bend = 4.0 * 0.05 * 0.05 / 8.0 * sqrt(2.0 / 3.0);
    start();
    add_stop(20.1, 4.0, BRAKE_NAN);
    assert_within(measure()->distance.half, 1.6448536269514722 * bend, 1e-9);
    const long begins = add_noisy_stop(0.03, BRAKE_NAN);
    const struct brake_drive_stop *stop = measure();
    const struct brake_noise noise = noise_of(begins);
    struct brake_noise_sum sum = {.variance = 0.0};
    const long last = begins + 98 + (row[begins + 99].value[BRAKE_LOG_SPEED] > 0.3);
    struct brake_smooth curve;
    assert_true(brake_smooth_fit(row, begins + FIRST, begins + LAST, 4, &curve));
    double low = row[begins + FIRST - 2].value[BRAKE_LOG_TIME];
    double high = row[begins + FIRST + 2].value[BRAKE_LOG_TIME];
    for (int i = 0; i < 60; i++) {
        const double middle = 0.5 * (low + high);
        *(brake_smooth_at(&curve, middle) > 0.8 * stop->initial.value ? &low : &high) = middle;
    }
    for (long i = begins; i <= last; i++) {
        const double time = row[i].value[BRAKE_LOG_TIME];
        const double rest = i == last ? row[i].value[BRAKE_LOG_SPEED] / stop->developed.value : 0.0;
        if (time > low)
            brake_noise_add(&noise, time, fmin(interval, time - low) + rest, &sum);
    }
    const double slowing = stop->developed.value;
    const double parts = hypot(sqrt(sum.variance), slowing * 0.05 * 0.05 / 8.0 * sqrt(2.0 / 3.0));
    const double of_figures =
        stop->distance.value *
        hypot(stop->developed.half / slowing, 2.0 * stop->initial.half / stop->initial.value);
    assert_near(stop->distance.half, hypot(1.6448536269514722 * parts, of_figures), 1e-7);
    assert_true(stop->initial.half > 0.0);
}

/* Without a row before it the initial speed is that of its row, and as noisy. */
static void a_stop_at_the_begin_of_a_log_has_the_speed_of_its_row(void **state)
{
    (void)state;
    const long begins = add_noisy_stop(0.03, 400.0);
    take_out(0, begins - 1);
    const struct brake_drive_stop *stop = measure();
    assert_int_equal(stop->first, 2);
    assert_equal(stop->initial.value, row[2].value[BRAKE_LOG_SPEED]);
    assert_true(stop->noise > 0.0);
    assert_near(stop->initial.half, 1.6448536269514722 * stop->noise, ROUNDING);
}

/* A stop at 0.4 s a row, up and down by so much. */
static double part_of(double off)
{
    start();
    interval = 0.4;
    const long begins = add_stop(20.1, 4.0, 400.0);
    for (long i = 2; i < 12; i++)
        row[begins + i].value[BRAKE_LOG_SPEED] += off * sin(5.0 * (double)i);
    const struct brake_drive_stop *stop = measure();
    return stop->developed.half / stop->developed.value;
}

/* The half width goes with the noise: where it comes to a fifth of the deceleration the stop is
 * coarse (brake/drivelog.h). */
static void a_deceleration_that_is_not_sure_is_coarse(void **state)
{
    (void)state;
    static const double part[] = {0.199, 0.201};
    for (int more = 0; more < 2; more++) {
        double off = 0.05;
        double found = part_of(off);
        for (int i = 0; i < 60 && fabs(found - part[more]) > 4e-4; i++) {
            off *= part[more] / found;
            found = part_of(off);
        }
        assert_within(found, part[more], 4e-4);
        assert_int_equal(drive.stop[0].flags, more ? BRAKE_STOP_COARSE : 0);
    }
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
        cmocka_unit_test(what_a_tyre_or_an_engine_just_gives_is_no_jump),
        cmocka_unit_test(a_rise_of_less_than_half_a_metre_a_second_is_none),
        cmocka_unit_test(more_than_tyres_can_do_in_all_does_not_count),
        cmocka_unit_test(few_rows_tell_no_noise),
        cmocka_unit_test(noise_is_no_jump),
        cmocka_unit_test(a_wheel_that_locks_and_comes_back_is_told),
        cmocka_unit_test(a_log_that_begins_in_a_stop_has_no_distance),
        cmocka_unit_test(a_log_of_few_rows_is_coarse),
        cmocka_unit_test(five_rows_carry_a_curve),
        cmocka_unit_test(a_foot_is_on_from_a_force_or_a_pressure),
        cmocka_unit_test(two_rows_tell_their_interval),
        cmocka_unit_test(a_gap_is_one_from_a_length_on),
        cmocka_unit_test(a_gap_counts_within_a_second_before_the_stop),
        cmocka_unit_test(of_what_is_wrong_the_first_is_named),
        cmocka_unit_test(a_vehicle_stands_from_a_speed_on),
        cmocka_unit_test(the_interval_is_the_middle_one),
        cmocka_unit_test(noise_is_the_middle_second_difference),
        cmocka_unit_test(a_wheel_stands_for_less_than_three_seconds),
        cmocka_unit_test(what_an_engine_could_do_is_no_lock),
        cmocka_unit_test(a_log_that_ends_in_a_lock_ends_in_a_stop),
        cmocka_unit_test(a_last_row_that_stands_is_no_coming_back),
        cmocka_unit_test(a_stop_goes_on_through_a_lock),
        cmocka_unit_test(a_rise_that_an_engine_gives_is_no_lock),
        cmocka_unit_test(a_lock_is_over_with_its_last_row),
        cmocka_unit_test(a_log_may_begin_with_a_lock),
        cmocka_unit_test(a_gentle_onset_is_no_part_of_a_stop),
        cmocka_unit_test(coasting_is_no_part_of_a_stop),
        cmocka_unit_test(a_stop_begins_with_its_foot),
        cmocka_unit_test(a_log_may_begin_in_its_only_fast_row),
        cmocka_unit_test(a_start_right_after_a_stop_is_no_jump),
        cmocka_unit_test(the_way_ends_with_the_last_row_that_moves),
        cmocka_unit_test(noise_of_many_rows_is_that_of_some),
        cmocka_unit_test(a_stop_without_the_foot_is_one_all_the_same),
        cmocka_unit_test(the_initial_speed_is_that_of_three_rows_or_more),
        cmocka_unit_test(without_a_foot_the_initial_speed_is_that_between_two_rows),
        cmocka_unit_test(more_rows_carry_a_more_bent_curve),
        cmocka_unit_test(the_deceleration_is_that_over_the_way),
        cmocka_unit_test(a_nominal_speed_is_one_of_those_given),
        cmocka_unit_test(temperatures_and_heading_are_those_of_the_begin),
        cmocka_unit_test(limits_of_stops_are_hit_to_the_bit),
        cmocka_unit_test(two_stops_have_a_spread),
        cmocka_unit_test(more_than_there_is_room_for_is_refused),
        cmocka_unit_test(the_deceleration_is_as_sure_as_its_rows),
        cmocka_unit_test(a_distance_is_as_sure_as_its_rows),
        cmocka_unit_test(a_distance_without_a_foot_is_as_sure_as_what_it_is_made_of),
        cmocka_unit_test(a_stop_at_the_begin_of_a_log_has_the_speed_of_its_row),
        cmocka_unit_test(a_deceleration_that_is_not_sure_is_coarse),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
