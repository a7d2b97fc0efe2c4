/* SPDX-License-Identifier: MIT */
/* Stops of a drive measured, and compared with the plain vehicle of ../vehicle/sheet.h: a = F / 100
 * empty. */
#include "../vehicle/sheet.h"

#include "brake/drivelog.h"
#include "brake/log.h"
#include "study/driven.h"
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

/* Abramowitz and Stegun, 26.7.4: share of 90 between -t and t for an even number of degrees of
 * freedom. What their expansion 26.7.5 leaves out begins with 1/n^5. */
static void students_t_is_right_to_the_last_term(void **state)
{
    (void)state;
    for (int n = 4; n <= 40; n += 2) {
        const double angle = atan(brake_student_95(n) / sqrt(n));
        double sum = 0.0;
        double term = 1.0;
        for (int k = 1; k <= n / 2; k++) {
            sum += term;
            term *= (2.0 * k - 1.0) / (2.0 * k) * cos(angle) * cos(angle);
        }
        assert_within(sin(angle) * sum, 0.90, 0.04 / pow(n, 5.0));
    }
}

/* Share of 90 between -t and t, by halving; 26.7.4 as above. */
static double exact_t(int n)
{
    double low = 1.0;
    double high = 3.0;
    for (int i = 0; i < 60; i++) {
        const double middle = 0.5 * (low + high);
        const double angle = atan(middle / sqrt(n));
        double sum = 0.0;
        double term = 1.0;
        for (int k = 1; k <= n / 2; k++) {
            sum += term;
            term *= (2.0 * k - 1.0) / (2.0 * k) * cos(angle) * cos(angle);
        }
        *(sin(angle) * sum < 0.90 ? &low : &high) = middle;
    }
    return low;
}

/* The next term of that expansion, 1/n^5, from memory: with it what is left goes with 1/n^6. */
static void each_term_of_students_t_is_that_of_its_source(void **state)
{
    (void)state;
    const double x = 1.6448536269514722;
    const double next = (27.0 * pow(x, 11.0) + 339.0 * pow(x, 9.0) + 930.0 * pow(x, 7.0) -
                         1782.0 * pow(x, 5.0) - 765.0 * pow(x, 3.0) + 17955.0 * x) /
                        368640.0;
    for (int n = 40; n <= 80; n += 4)
        assert_within(brake_student_95(n) + next / pow(n, 5.0), exact_t(n), 0.3 / pow(n, 6.0));
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
    assert_near(drive.friction.value, 0.8, 2e-9);
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
    assert_near(drive.stop[0].predicted.half, drive.predicted.half, 1e-9);
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

/* ---- figures by hand ------------------------------------------------------------------------- */

static struct brake_sheet sheet;

static void make_exact_sheet(void)
{
    read_sheet(&sheet, plain);
    make_exact(&sheet);
    sheet.vehicle.heat.drag_area = 0.0;
}

/* Stops from 20 m/s at 400 N, for which the plain vehicle gives 4 m/s2, by what was measured. */
static void given(const double *deceleration, int stops)
{
    drive = (struct brake_drive){.stops = stops, .counted = stops, .day = exact_day};
    for (int i = 0; i < stops; i++)
        drive.stop[i] = (struct brake_drive_stop){.pedal_force = 400.0,
                                                  .pressure = BRAKE_NAN,
                                                  .heading = BRAKE_NAN,
                                                  .grade = BRAKE_NAN,
                                                  .initial = {20.0, 0.0},
                                                  .developed = {deceleration[i], 0.0}};
    make_exact_sheet();
}

static void compare(void)
{
    brake_drive_compare(&sheet, BRAKE_EMPTY, &drive);
}

/* On 2250 kg, wheels and all: 2000 kg downhill by m g t / sqrt(1 + t^2), the air by 0.5 rho A v^2
 * at the mean of v^2 from 0.8 to 0.1 of 20 m/s, (0.64 + 0.01)/2 of it; rho by ISO 2533. */
static void road_and_air_are_in_the_prediction(void **state)
{
    (void)state;
    const double hill = 2000.0 * 9.80665 * 0.02 / hypot(1.0, 0.02) / 2250.0;
    given((const double[]){4.0}, 1);
    drive.stop[0].grade = 0.02;
    compare();
    assert_within(drive.predicted.value, 4.0 + hill, 1e-6);
    given((const double[]){4.0}, 1);
    drive.day.grade.value = -0.02;
    compare();
    assert_within(drive.predicted.value, 4.0 - hill, 1e-6);
    given((const double[]){4.0}, 1);
    sheet.vehicle.heat.drag_area = 0.6;
    compare();
    assert_within(drive.predicted.value, 4.0 + 0.5 * 1.225 * 0.6 * 0.325 * 400.0 / 2250.0, 1e-6);
}

/* Two stops one way, one the other: each way counts as one half, and what the road rises by one way
 * it falls by the other. Scatter about the mean of each way: (0.05^2 + 0.05^2) / (3 - 2) on weights
 * of 1/4, 1/4 and 1/2, by Student's 6.314 for one degree of freedom. */
static void both_ways_count_alike(void **state)
{
    (void)state;
    const double hill = 2000.0 * 9.80665 * 0.01 / hypot(1.0, 0.01) / 2250.0;
    given((const double[]){4.1 + hill, 4.2 + hill, 3.7 - hill}, 3);
    drive.day.grade.value = 0.01;
    drive.stop[0].heading = 0.1;
    drive.stop[1].heading = 0.0;
    drive.stop[2].heading = 3.2;
    compare();
    assert_true(drive.both_ways);
    assert_within(drive.stop[0].predicted.value, 4.0 + hill, 1e-6);
    assert_within(drive.stop[2].predicted.value, 4.0 - hill, 1e-6);
    assert_within(drive.predicted.value, 4.0, 1e-6);
    assert_within(drive.measured.value, 4.0 + (0.1 + 0.2) / 4.0 - 0.3 / 2.0, 1e-6);
    assert_near(drive.measured.half, 6.314 * sqrt(0.005 * 0.375), 1e-4);
    assert_int_equal(drive.agreement, BRAKE_AGREES);
    const double ratio[] = {(4.1 + hill) / (4.0 + hill), (4.2 + hill) / (4.0 + hill),
                            (3.7 - hill) / (4.0 - hill)};
    const double middle = 0.25 * (ratio[0] + ratio[1]) + 0.5 * ratio[2];
    double squares = 0.0;
    for (int i = 0; i < 3; i++)
        squares += (ratio[i] - middle) * (ratio[i] - middle);
    assert_near(drive.scatter, sqrt(squares / 2.0), 1e-6);
}

/* The first that counts goes the way that the grade is given for, whatever its heading; where it
 * has no pedal all others may go back. */
static void the_first_stop_tells_the_way(void **state)
{
    (void)state;
    const double hill = 2000.0 * 9.80665 * 0.01 / hypot(1.0, 0.01) / 2250.0;
    for (int silent = 0; silent < 2; silent++) {
        given((const double[]){4.0, 4.0, 4.0}, 3);
        drive.day.grade.value = 0.01;
        drive.stop[0].heading = 1.2;
        drive.stop[1].heading = 4.2;
        drive.stop[2].heading = 4.4;
        if (silent)
            drive.stop[0].pedal_force = BRAKE_NAN;
        compare();
        assert_int_equal(drive.both_ways, !silent);
        if (!silent)
            assert_within(drive.stop[0].predicted.value, 4.0 + hill, 1e-6);
        assert_within(drive.stop[1].predicted.value, 4.0 - hill, 1e-6);
        assert_within(drive.stop[2].predicted.value, 4.0 - hill, 1e-6);
    }
}

/* 4 x 400 N on the master cylinder of 20 mm; the gauge reads 2 % less than there is. */
static void a_pressure_is_read_by_the_gauge(void **state)
{
    (void)state;
    given((const double[]){4.0}, 1);
    drive.stop[0].pedal_force = BRAKE_NAN;
    drive.stop[0].pressure = 1600.0 / (0.25 * BRAKE_PI * 0.02 * 0.02);
    drive.day.gauge.value = 1.02;
    compare();
    assert_within(drive.predicted.value, 4.08, 1e-6);
}

/* 700 N lock the front on a road of 0.8, not on one of 1: there its friction moves next to nothing,
 * and a gauge that is off by 2 % moves the rear alone. */
static void the_road_is_that_of_the_vehicle(void **state)
{
    (void)state;
    struct brake_system system;
    given((const double[]){5.0}, 1);
    drive.stop[0].pedal_force = 700.0;
    drive.day.gauge.half = 0.02;
    state_tolerance(&sheet, "front.disc.pads.mu", 0.02, BRAKE_MEASURED);
    compare();
    brake_system_build(&sheet.vehicle, BRAKE_EMPTY, BRAKE_INTACT, &system);
    assert_true(drive.stop[0].capped);
    assert_equal(drive.predicted.value, brake_drive_predict(&drive, &drive.day, 0.0, &system,
                                                            &drive.stop[0], system.adhesion));
    assert_true(drive.predicted.value < 6.999);
    assert_true(drive.predicted.half < 0.1 * 1.6448536 * 0.025 * 5.6); /* of 5.6 m/s2 in front */
    assert_true(drive.measured.half < 0.6 * 0.02 * 7.0);
    const double capped = drive.predicted.value;
    given((const double[]){5.0}, 1);
    drive.stop[0].pedal_force = BRAKE_NAN;
    sheet.vehicle.driver.pedal_force_most = 700.0;
    compare();
    assert_equal(drive.predicted.value, capped);
}

/* What a gauge that reads too much may hide is less brake: just below what locks a wheel all of its
 * 2 % count. */
static void a_gauge_is_off_to_the_side_of_less(void **state)
{
    (void)state;
    double force = 600.0;
    do {
        given((const double[]){5.0}, 1);
        drive.stop[0].pedal_force = ++force;
        compare();
    } while (!drive.stop[0].capped);
    given((const double[]){5.0}, 1);
    drive.stop[0].pedal_force = force - 1.0;
    drive.day.gauge.half = 0.02;
    compare();
    assert_within(drive.measured.half, 0.02 * drive.predicted.value, 1e-6);
}

/* Exact to the last digit, what is as predicted agrees; what is no number does not say. */
static void what_is_as_predicted_agrees(void **state)
{
    (void)state;
    given((const double[]){4.0}, 1);
    compare();
    drive.stop[0].developed.value = drive.predicted.value;
    compare();
    assert_int_equal(drive.agreement, BRAKE_AGREES);
    drive.stop[0].developed.value = BRAKE_NAN;
    compare();
    assert_int_equal(drive.agreement, BRAKE_NOT_SAID);
}

/* With the friction that was found, of pads and of what a drum has, the vehicle does what was
 * measured. */
static void the_friction_found_gives_what_was_measured(void **state)
{
    (void)state;
    /* the last has a secondary shoe that is lined otherwise */
    const char *const servo = swapped(shoe_text(), "leading_trailing", "duo_servo");
    const char *const text[] = {
        drum_text(), shoe_text(),
        plus(swapped(servo, "mu = 0.35", "mu = 0.3"), "secondary_mu = 0.25\n")};
    for (int i = 0; i < 3; i++) {
        given((const double[]){3.0}, 1);
        read_sheet(&sheet, text[i]);
        make_exact(&sheet);
        sheet.vehicle.heat.drag_area = 0.0;
        compare();
        const double factor = drive.friction.value;
        assert_true(factor > 0.1 && fabs(factor - 1.0) > 0.05);
        for (int axle = 0; axle < BRAKE_AXLES; axle++) {
            sheet.vehicle.axle[axle].pads.mu *= factor;
            sheet.vehicle.axle[axle].lining.mu *= factor;
            sheet.vehicle.axle[axle].lining.secondary_mu *= factor;
            sheet.vehicle.axle[axle].drum.brake_factor *= factor;
        }
        compare();
        assert_within(drive.predicted.value, 3.0, 1e-6);
    }
}

/* 2 % of the gauge are 0.08 of 4 m/s2; a road that may rise by 1 % is m g t, as above. Of one way
 * both are the same in all stops. */
static void what_is_off_all_day_is_in_the_range(void **state)
{
    (void)state;
    const double hill = 2000.0 * 9.80665 * 0.01 / hypot(1.0, 0.01) / 2250.0;
    given((const double[]){4.0, 4.0, 4.0, 4.0}, 4);
    drive.day.gauge.half = 0.02;
    drive.day.grade.half = 0.01;
    compare();
    assert_false(drive.both_ways);
    assert_within(drive.measured.half, hypot(hill, 0.08), 1e-6);
}

/* Stops by themselves average out, but are no surer than they are. 0.05 of 4 m/s2 is 0.0125 of the
 * friction, all else being exact. */
static void what_each_stop_is_off_by_averages_out(void **state)
{
    (void)state;
    for (int stops = 1; stops <= 4; stops++) {
        given((const double[]){3.6, 3.6, 3.6, 3.6}, stops);
        for (int i = 0; i < stops; i++)
            drive.stop[i].developed.half = 0.05;
        compare();
        assert_within(drive.measured.half, 0.05 / sqrt(stops), 1e-9);
        assert_within(drive.friction.value, 0.9, 1e-6);
        assert_within(drive.friction.half, 0.05 / sqrt(stops) / 4.0, 1e-6);
        assert_int_equal(drive.agreement, BRAKE_BELOW);
    }
}

/* A radius of the front within 10 %, two standard deviations, with 0.8 of the force: 0.16 of 4
 * m/s2, 0.04 of the friction that explains what was measured. */
static void what_else_is_uncertain_is_in_the_friction_found(void **state)
{
    (void)state;
    given((const double[]){3.6, 3.6}, 2);
    state_tolerance(&sheet, "front.disc.effective_radius", 0.0125, BRAKE_MEASURED);
    compare();
    assert_within(drive.friction.value, 0.9, 1e-6);
    assert_within(drive.friction.half, 1.6448536 * 0.04, 1e-5);
    assert_within(drive.predicted.half, 1.6448536 * 0.16, 1e-5);
}

/* Of 3.6, 4.0, 4.4 over 4: standard deviation 0.1; 4.3332 for Student's 2.920 of two degrees of
 * freedom, 0.4 / 3^(1/2). */
static void the_scatter_of_stops_is_measured_over_predicted(void **state)
{
    (void)state;
    given((const double[]){3.6, 4.0, 4.4}, 3);
    compare();
    assert_within(drive.scatter, 0.1, 1e-6);
    assert_within(drive.measured.value, 4.0, 1e-6);
    assert_near(drive.measured.half, 2.920 * 0.4 / sqrt(3.0), 1e-3);
    assert_int_equal(drive.compared, 3);
    given((const double[]){3.6, 4.4}, 2);
    compare();
    assert_within(drive.scatter, 0.1 * sqrt(2.0), 1e-6);
    given((const double[]){4.5}, 1);
    compare();
    assert_nan(drive.scatter);
    assert_int_equal(drive.agreement, BRAKE_ABOVE);
}

/* The line through 1, 0.9, 1, 0.9 begins at 0.98 and falls by 0.02 a stop; what it leaves, 0.008 in
 * squares over two degrees of freedom and over 5, the squares of the places, is the variance of the
 * slope; Student's factor is 2.920. */
static void fade_is_the_fall_of_a_line_over_its_begin(void **state)
{
    (void)state;
    given((const double[]){4.0, 3.8, 3.6, 3.4}, 4);
    compare();
    assert_within(drive.fade.value, -0.15, 1e-6);
    assert_within(drive.fade.half, 0.0, 1e-6);
    given((const double[]){4.0, 3.6, 4.0, 3.6}, 4);
    compare();
    assert_within(drive.fade.value, -0.06 / 0.98, 1e-6);
    assert_near(drive.fade.half, 2.920 * sqrt(0.008 / 2.0 / 5.0) * 3.0 / 0.98, 1e-3);
    assert_within(drive.fade.half, brake_student_95(2) * sqrt(0.008 / 2.0 / 5.0) * 3.0 / 0.98,
                  1e-6);
    given((const double[]){4.0, 3.6}, 2);
    compare();
    assert_nan(drive.fade.value);
    given((const double[]){4.0, 4.4, 4.8}, 3); /* a heavier foot is no gain */
    for (int i = 0; i < 3; i++)
        drive.stop[i].pedal_force = 400.0 + 40.0 * i;
    compare();
    assert_within(drive.fade.value, 0.0, 1e-6);
}

/* A stop of which no foot was logged has no prediction, and is none of the line of those that have;
 * where none has one, the line is that of the decelerations, however large. One is no line. */
static void fade_is_that_of_stops_with_a_foot_or_of_all(void **state)
{
    (void)state;
    static const double deceleration[][5] = {
        {4.0, 3.85, 3.7, 3.55, 3.4}, {4.0, 3.8, 9.0, 3.6, 3.4}, {4.0, 3.85, 3.7, 3.55, 3.4}};
    static const unsigned feet[] = {0x00, 0x1b, 0x04};
    static const int compared[] = {0, 4, 1};
    for (int i = 0; i < 3; i++) {
        given(deceleration[i], 5);
        for (int k = 0; k < 5; k++) {
            drive.stop[k].predicted.value = BRAKE_NAN;
            if ((feet[i] >> k & 1) == 0)
                drive.stop[k].pedal_force = BRAKE_NAN;
        }
        compare();
        assert_int_equal(drive.compared, compared[i]);
        if (i < 2)
            assert_within(drive.fade.value, -0.15, 1e-6);
        else
            assert_nan(drive.fade.value);
    }
}

/* Between a tenth and three times the friction of the file: a deceleration is it times 4 m/s2. */
static void friction_is_sought_in_reason(void **state)
{
    (void)state;
    static const double factor[] = {0.099, 0.101, 2.99, 3.01};
    for (int i = 0; i < 4; i++) {
        given((const double[]){4.0 * factor[i]}, 1);
        compare();
        if (i == 0 || i == 3)
            assert_nan(drive.friction.value);
        else
            assert_within(drive.friction.value, factor[i], 1e-6);
    }
}

/* The most that 400 N of the driver give is 4 m/s2: only more than that says something. */
static void without_a_foot_only_too_much_says_something(void **state)
{
    (void)state;
    static const double hardest[] = {3.0, 3.99, 4.01};
    for (int i = 0; i < 3; i++) {
        given((const double[]){2.0, hardest[i], 2.5}, 3);
        sheet.vehicle.driver.pedal_force_most = 400.0;
        for (int k = 0; k < 3; k++)
            drive.stop[k].pedal_force = BRAKE_NAN;
        compare();
        assert_int_equal(drive.agreement, i == 2 ? BRAKE_ABOVE : BRAKE_NOT_SAID);
        assert_int_equal(drive.compared, 0);
    }
    /* the first may be the hardest, or the only one that counts; what stands behind is none */
    for (int alone = 0; alone < 2; alone++) {
        for (int hard = 0; hard < 2; hard++) {
            given((const double[]){hard ? 4.01 : 3.99, 3.0, 9.0}, 3);
            sheet.vehicle.driver.pedal_force_most = 400.0;
            drive.stops = 2;
            for (int k = 0; k < 3; k++)
                drive.stop[k].pedal_force = BRAKE_NAN;
            if (alone)
                drive.stop[1].flags = BRAKE_STOP_GAP;
            compare();
            assert_int_equal(drive.agreement, hard ? BRAKE_ABOVE : BRAKE_NOT_SAID);
            assert_within(drive.predicted.value, 4.0, 1e-6);
        }
    }
}

/* Of two as hard the first, here the slower one with the less air to help; where none counts
 * nothing is said. */
static void without_a_foot_the_first_of_the_hardest_is_asked(void **state)
{
    (void)state;
    for (int counts = 0; counts < 2; counts++) {
        given((const double[]){3.9, 3.9}, 2);
        sheet.vehicle.driver.pedal_force_most = 400.0;
        sheet.vehicle.heat.drag_area = 0.6;
        drive.stop[1].initial.value = 30.0;
        for (int k = 0; k < 2; k++) {
            drive.stop[k].pedal_force = BRAKE_NAN;
            drive.stop[k].flags = counts ? 0 : BRAKE_STOP_GAP;
        }
        compare();
        if (counts)
            assert_within(drive.predicted.value, 4.0 + 0.5 * 1.225 * 0.6 * 0.325 * 400.0 / 2250.0,
                          1e-6);
        else
            assert_nan(drive.predicted.value);
    }
}

/* As many stops as there is room for, one way and all alike, are as one of them. */
static void as_many_stops_as_there_is_room_for_are_compared(void **state)
{
    (void)state;
    double deceleration[BRAKE_DRIVE_STOPS];
    for (int i = 0; i < BRAKE_DRIVE_STOPS; i++)
        deceleration[i] = 3.6;
    given(deceleration, BRAKE_DRIVE_STOPS);
    compare();
    assert_int_equal(drive.compared, BRAKE_DRIVE_STOPS);
    assert_within(drive.predicted.value, 4.0, 1e-6);
    assert_within(drive.measured.value, 3.6, 1e-9);
    assert_within(drive.friction.value, 0.9, 1e-6);
}

/* Half of a tolerance is a standard deviation, 90 of 100 lie within 1.645 of them; what is left out
 * is as it usually is (brake/drivelog.h). */
static void the_day_is_that_of_the_file(void **state)
{
    (void)state;
    read_sheet(&sheet, plain);
    const struct brake_drive_day usual = brake_drive_day_of(&sheet);
    assert_memory_equal(&usual, &brake_drive_usual_day, sizeof usual);
    /* level within 1 %, a speed 0 to 0.2 s old, a gauge of a class of 2 % (drivelog.c, from
     * memory) */
    assert_true(usual.grade.value == 0.0 && usual.grade.half == 0.01);
    assert_true(usual.lag.value == 0.1 && usual.lag.half == 0.1);
    assert_true(usual.gauge.value == 1.0 && usual.gauge.half == 0.02);
    read_sheet(&sheet, plus(plain, "[drive]\ngrade = 1 % +- 0.5 %\nlag = 0.2 s +- 0.04 s\n"
                                   "gauge = 0.98 +- 0.01\n"));
    const struct brake_drive_day day = brake_drive_day_of(&sheet);
    assert_near(day.grade.value, 0.01, ROUNDING);
    assert_near(day.grade.half, 1.645 * 0.0025, ROUNDING);
    assert_near(day.lag.value, 0.2, ROUNDING);
    assert_near(day.lag.half, 1.645 * 0.02, ROUNDING);
    assert_near(day.gauge.value, 0.98, ROUNDING);
    assert_near(day.gauge.half, 1.645 * 0.005, ROUNDING);
    make_exact(&sheet); /* what is stated without a tolerance is as sure as usual */
    assert_equal(brake_drive_day_of(&sheet).gauge.half, 0.02);
    assert_near(brake_drive_day_of(&sheet).gauge.value, 0.98, ROUNDING);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(students_t_is_that_of_the_table),
        cmocka_unit_test(students_t_is_right_to_the_last_term),
        cmocka_unit_test(each_term_of_students_t_is_that_of_its_source),
        cmocka_unit_test(a_constant_deceleration_is_measured_as_it_is),
        cmocka_unit_test(the_friction_that_explains_the_difference_is_found),
        cmocka_unit_test(the_spread_of_the_prediction_is_that_of_the_tolerances),
        cmocka_unit_test(what_the_tyres_limit_says_nothing_about_friction),
        cmocka_unit_test(too_many_stops_are_refused),
        cmocka_unit_test(a_log_of_nothing_has_no_stop),
        cmocka_unit_test(road_and_air_are_in_the_prediction),
        cmocka_unit_test(both_ways_count_alike),
        cmocka_unit_test(the_first_stop_tells_the_way),
        cmocka_unit_test(a_pressure_is_read_by_the_gauge),
        cmocka_unit_test(the_road_is_that_of_the_vehicle),
        cmocka_unit_test(a_gauge_is_off_to_the_side_of_less),
        cmocka_unit_test(what_is_as_predicted_agrees),
        cmocka_unit_test(the_friction_found_gives_what_was_measured),
        cmocka_unit_test(what_is_off_all_day_is_in_the_range),
        cmocka_unit_test(what_each_stop_is_off_by_averages_out),
        cmocka_unit_test(what_else_is_uncertain_is_in_the_friction_found),
        cmocka_unit_test(the_scatter_of_stops_is_measured_over_predicted),
        cmocka_unit_test(fade_is_the_fall_of_a_line_over_its_begin),
        cmocka_unit_test(fade_is_that_of_stops_with_a_foot_or_of_all),
        cmocka_unit_test(friction_is_sought_in_reason),
        cmocka_unit_test(without_a_foot_only_too_much_says_something),
        cmocka_unit_test(without_a_foot_the_first_of_the_hardest_is_asked),
        cmocka_unit_test(as_many_stops_as_there_is_room_for_are_compared),
        cmocka_unit_test(the_day_is_that_of_the_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
