/* SPDX-License-Identifier: MIT */
/* Stops of a drive measured, and compared with the plain vehicle of ../vehicle/sheet.h: a = F / 100
 * empty. */
#include "../vehicle/sheet.h"

#include "brake/drivelog.h"
#include "brake/log.h"
#include "study/stops.h"

enum { ROWS = 2000 };

static struct brake_log_row row[ROWS];
static struct brake_drive drive;
static const struct brake_nominal round_speeds = {{0.0}, 0};

/* A level road, a speed that is told at once, a gauge that is right. */
static const struct brake_drive_day exact_day = {.gauge = {1.0, 0.0}};

/* Standing, then stops from a speed at a deceleration that is there at once, at 20 rows a
 * second. */
static long make_rows(const double *deceleration, int stops, double speed, double force)
{
    long count = 0;
    for (int s = 0; s < stops; s++) {
        const double lead = 10.0;
        const double end = lead + speed / deceleration[s] + 3.0;
        for (double t = 0.0; t < end; t += 0.05, count++) {
            const bool on = t > lead;
            assert_true(count < ROWS);
            for (int c = 0; c < BRAKE_LOG_COLUMNS; c++)
                row[count].value[c] = BRAKE_NAN;
            row[count].line = (int)count + 2;
            row[count].value[BRAKE_LOG_TIME] = 0.05 * (double)count;
            row[count].value[BRAKE_LOG_SPEED] =
                fmax(0.0, on ? speed - deceleration[s] * (t - lead) : fmin(speed, 3.0 * t));
            row[count].value[BRAKE_LOG_PEDAL_FORCE] = on ? force : 0.0;
        }
    }
    return count;
}

static void measure(const double *deceleration, int stops, double force)
{
    const long rows = make_rows(deceleration, stops, 20.0, force);
    assert_int_equal(brake_drive_measure(row, rows, &round_speeds, &exact_day, &drive), BRAKE_OK);
    assert_int_equal(drive.stops, stops);
}

/* Abramowitz and Stegun, table 26.10 (Q = 0.05): 1, 2, 3, 5, 10, 30 degrees of freedom. */
static void students_t_is_that_of_the_table(void **state)
{
    (void)state;
    static const struct {
        int freedom;
        double t;
    } table[] = {{1, 6.314}, {2, 2.920}, {3, 2.353}, {5, 2.015}, {10, 1.812}, {30, 1.697}};
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++)
        assert_near(brake_student_95(table[i].freedom), table[i].t, 1e-3);
    assert_nan(brake_student_95(0));
}

/* d_m of a constant deceleration is it; from 20 m/s at 4 m/s2: 50 m, 72 km/h brought to 70. */
static void a_constant_deceleration_is_measured_as_it_is(void **state)
{
    (void)state;
    const double deceleration[] = {4.0};
    measure(deceleration, 1, 400.0);
    const struct brake_drive_stop *stop = &drive.stop[0];
    assert_int_equal(stop->flags, 0);
    assert_near(stop->initial.value, 20.0, 1e-9);
    assert_near(stop->developed.value, 4.0, 1e-9);
    assert_within(stop->distance.value, 50.0, 20.0 * 0.05);
    assert_near(stop->nominal, 70.0 / 3.6, ROUNDING);
    assert_near(stop->corrected.value, stop->distance.value * (70.0 / 72.0) * (70.0 / 72.0), 1e-9);
    assert_near(stop->pedal_force, 400.0, ROUNDING);
    assert_true(drive.timed);
}

/* 400 N give 4 m/s2 to the plain vehicle, 0.8 x mu less a fifth of it. */
static void the_friction_that_explains_the_difference_is_found(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    const double deceleration[] = {3.2, 3.2, 3.2};
    read_sheet(&sheet, plain);
    make_exact(&sheet);
    sheet.vehicle.heat.drag_area = 0.0;
    measure(deceleration, 3, 400.0);
    brake_drive_compare(&sheet, BRAKE_EMPTY, &drive);
    assert_near(drive.predicted.value, 4.0, 1e-6);
    assert_equal(drive.predicted.half, 0.0);
    assert_near(drive.measured.value, 3.2, 1e-9);
    assert_near(drive.friction.value, 0.8, 1e-6);
    assert_int_equal(drive.agreement, BRAKE_BELOW);
    assert_within(drive.fade.value, 0.0, 1e-9);
}

/* A tolerance of 10 % on all the mu is one of 5 % of a as standard deviation for each axle: front
 * has 0.8 of the torque, rear 0.2, so 0.05 x 4 x sqrt(0.64 + 0.04). */
static void the_spread_of_the_prediction_is_that_of_the_tolerances(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    const double deceleration[] = {3.8};
    read_sheet(&sheet, plain);
    make_exact(&sheet);
    sheet.vehicle.heat.drag_area = 0.0;
    state_tolerance(&sheet, "front.disc.pads.mu", 0.04, BRAKE_MEASURED);
    state_tolerance(&sheet, "rear.disc.pads.mu", 0.04, BRAKE_MEASURED);
    measure(deceleration, 1, 400.0);
    brake_drive_compare(&sheet, BRAKE_EMPTY, &drive);
    assert_near(drive.predicted.half, 1.6448536 * 0.05 * 4.0 * sqrt(0.68), 1e-6);
    assert_int_equal(drive.agreement, BRAKE_AGREES);
    /* what is uncertain in the friction itself is no uncertainty in the friction found */
    assert_near(drive.friction.value, 0.95, 1e-6);
    assert_true(drive.friction.half < 0.001);
}

static void what_the_tyres_limit_says_nothing_about_friction(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    const double deceleration[] = {6.0};
    read_sheet(&sheet, plain);
    measure(deceleration, 1, 2000.0);
    brake_drive_compare(&sheet, BRAKE_EMPTY, &drive);
    assert_true(drive.stop[0].capped);
    assert_nan(drive.friction.value);
}

static void too_many_stops_are_refused(void **state)
{
    (void)state;
    static struct brake_log_row many[(BRAKE_DRIVE_STOPS + 2) * 60];
    long count = 0;
    for (int s = 0; s < BRAKE_DRIVE_STOPS + 2; s++) {
        for (int i = 0; i < 60; i++, count++) {
            many[count].value[BRAKE_LOG_TIME] = 0.2 * (double)count;
            many[count].value[BRAKE_LOG_SPEED] =
                i < 30 ? 0.6 * i : fmax(0.0, 17.4 - 0.8 * (i - 30));
        }
    }
    assert_int_equal(brake_drive_measure(many, count, &round_speeds, &exact_day, &drive),
                     BRAKE_E_SIZE);
}

static void a_log_of_nothing_has_no_stop(void **state)
{
    (void)state;
    assert_int_equal(brake_drive_measure(row, 0, &round_speeds, &exact_day, &drive), BRAKE_OK);
    assert_int_equal(drive.stops, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(students_t_is_that_of_the_table),
        cmocka_unit_test(a_constant_deceleration_is_measured_as_it_is),
        cmocka_unit_test(the_friction_that_explains_the_difference_is_found),
        cmocka_unit_test(the_spread_of_the_prediction_is_that_of_the_tolerances),
        cmocka_unit_test(what_the_tyres_limit_says_nothing_about_friction),
        cmocka_unit_test(too_many_stops_are_refused),
        cmocka_unit_test(a_log_of_nothing_has_no_stop),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
