/* SPDX-License-Identifier: MIT */
/* What measured pairs say: line, valve, booster. */
#include "near.h"

#include "brake/fit.h"

enum { MANY = 100 };

static void points_on_a_line_give_the_line(void **state)
{
    (void)state;
    const struct brake_point point[] = {{3.0, 7.0}, {1.0, 3.0}, {-2.0, -3.0}};
    double slope;
    double intercept;
    assert_int_equal(brake_fit_line(point, 3, &slope, &intercept), BRAKE_OK);
    assert_near(slope, 2.0, ROUNDING);
    assert_near(intercept, 1.0, ROUNDING);
}

/* Least squares: what is left over is at right angles to 1 and to x (Press et al., sec. 15.2). */
static void what_the_line_leaves_over_has_no_line_in_it(void **state)
{
    (void)state;
    struct cases cases = {19};
    struct brake_point point[MANY];
    for (int i = 0; i < MANY; i++) {
        point[i].x = any_between(&cases, 0.0, 10.0);
        point[i].y = 3.0 + 0.5 * point[i].x + any_between(&cases, -1.0, 1.0);
    }
    double slope;
    double intercept;
    double sum = 0.0;
    double moment = 0.0;
    assert_int_equal(brake_fit_line(point, MANY, &slope, &intercept), BRAKE_OK);
    for (int i = 0; i < MANY; i++) {
        const double left = point[i].y - slope * point[i].x - intercept;
        sum += left;
        moment += left * point[i].x;
    }
    assert_within(sum, 0.0, 1e-11);
    assert_within(moment, 0.0, 1e-10);
}

static void points_above_each_other_give_no_line(void **state)
{
    (void)state;
    const struct brake_point stacked[] = {{3.0, 7.0}, {3.0, 9.0}, {3.0, 1.0}};
    const struct brake_point missing[] = {{3.0, 7.0}, {BRAKE_NAN, 9.0}, {4.0, 1.0}};
    for (int count = 0; count <= 3; count++) {
        double slope = 1.0;
        double intercept = 1.0;
        assert_int_equal(brake_fit_line(stacked, count, &slope, &intercept), BRAKE_E_FIT);
        assert_nan(slope);
        assert_nan(intercept);
    }
    double slope = 1.0;
    double intercept = 1.0;
    assert_int_equal(brake_fit_line(missing, 3, &slope, &intercept), BRAKE_E_FIT);
    assert_nan(slope);
}

/* Readings taken from brake_valve_pressure must lead back to the valve. */
static void gauge_readings_give_knee_and_slope_of_the_valve(void **state)
{
    (void)state;
    struct cases cases = {20};
    for (int i = 0; i < 500; i++) {
        const struct brake_valve fitted = {any_between(&cases, 0.5e6, 4e6),
                                           any_between(&cases, 0.0, 0.8)};
        struct brake_point reading[12];
        struct brake_valve valve;
        for (int n = 0; n < 12; n++) {
            reading[n].x = 1e6 * (n + 1);
            reading[n].y = brake_valve_pressure(fitted, reading[n].x);
        }
        assert_int_equal(brake_fit_valve(reading, 12, &valve), BRAKE_OK);
        assert_near(valve.knee, fitted.knee, 1e-11);
        assert_within(valve.slope, fitted.slope, 1e-12);
    }
}

/* A limiting valve holds the rear pressure; a reducing one has its knee at nothing. */
static void the_two_extreme_valves_are_valves(void **state)
{
    (void)state;
    const struct brake_point limited[] = {{2e6, 1e6}, {4e6, 1e6}, {8e6, 1e6}};
    const struct brake_point reduced[] = {{2e6, 1e6}, {4e6, 2e6}};
    struct brake_valve valve;
    assert_int_equal(brake_fit_valve(limited, 3, &valve), BRAKE_OK);
    assert_equal(valve.slope, 0.0);
    assert_equal(valve.knee, 1e6);
    assert_int_equal(brake_fit_valve(reduced, 2, &valve), BRAKE_OK);
    assert_equal(valve.slope, 0.5);
    assert_equal(valve.knee, 0.0);
}

static void hold_no_valve(const struct brake_point *reading, int count)
{
    struct brake_valve valve = {1.0, 1.0};
    assert_int_equal(brake_fit_valve(reading, count, &valve), BRAKE_E_FIT);
    assert_nan(valve.knee);
    assert_nan(valve.slope);
}

static void readings_that_no_valve_gives_are_refused(void **state)
{
    (void)state;
    const struct brake_point open[] = {{1e6, 1e6}, {2e6, 2e6}, {5e6, 4.9e6}};
    hold_no_valve(open, 3); /* never past the knee */
    const struct brake_point one[] = {{1e6, 1e6}, {2e6, 1.5e6}};
    hold_no_valve(one, 2); /* one point is no line */
    const struct brake_point falling[] = {{4e6, 3e6}, {8e6, 2e6}};
    hold_no_valve(falling, 2);
    const struct brake_point steep[] = {{4e6, 1e6}, {5e6, 2.5e6}};
    hold_no_valve(steep, 2); /* rear gains on front */
    const struct brake_point offset[] = {{4e6, 1e6}, {8e6, 3e6}};
    hold_no_valve(offset, 2); /* a line that meets the front's below zero */
}

/* fit.h: a pair within 3 % of the front is ahead of the knee. 97 of 100 is so to the bit and is no
 * part of the line 30 + 0.2 p of the others; a hair less is, and bends it. */
static void three_percent_is_still_ahead_of_the_knee(void **state)
{
    (void)state;
    struct brake_point pairs[] = {{100.0, 97.0}, {200.0, 70.0}, {300.0, 90.0}};
    struct brake_valve valve;
    assert_int_equal(brake_fit_valve(pairs, 3, &valve), BRAKE_OK);
    assert_near(valve.slope, 0.2, 1e-12);
    assert_near(valve.knee, 30.0 / 0.8, 1e-12);
    pairs[0].y = nextafter(97.0, 0.0);
    hold_no_valve(pairs, 3); /* falls from 97 to 70 */
}

/* A spread of abscissas of 1e-9 of themselves is rounding, of 1e-8 a line: sum of dx^2 over x^2. */
static void abscissas_that_differ_by_rounding_give_no_line(void **state)
{
    (void)state;
    const struct brake_point apart[] = {{1.0 - 1e-8, 1.0}, {1.0 + 1e-8, 1.0 + 4e-8}};
    const struct brake_point close[] = {{1.0 - 6e-10, 1.0}, {1.0 + 6e-10, 1.0 + 2.4e-9}};
    double slope;
    double intercept;
    assert_int_equal(brake_fit_line(apart, 2, &slope, &intercept), BRAKE_OK);
    assert_near(slope, 2.0, 1e-7);
    assert_int_equal(brake_fit_line(close, 2, &slope, &intercept), BRAKE_E_FIT);
}

static const struct brake_pedal known = {
    .ratio = 4.0, .efficiency = 0.9, .master_area = 4e-4, .master_efficiency = 0.95};

/* Readings taken from brake_pedal_pressure must lead back to the booster. */
static int read_pressures(double gain, double assist, int count, double step,
                          struct brake_point *reading)
{
    struct brake_pedal pedal = known;
    int below = 0;
    pedal.gain = gain;
    pedal.assist = assist;
    for (int i = 0; i < count; i++) {
        reading[i].x = step * (i + 1);
        reading[i].y = brake_pedal_pressure(&pedal, reading[i].x);
        below += reading[i].x * pedal.ratio * pedal.efficiency < brake_booster_knee(gain, assist);
    }
    return below;
}

static void pedal_forces_and_pressures_give_gain_and_assist(void **state)
{
    (void)state;
    struct cases cases = {21};
    int fitted = 0;
    for (int i = 0; i < 500; i++) {
        const double gain = any_between(&cases, 2.0, 8.0);
        const double assist = any_between(&cases, 500.0, 4000.0);
        struct brake_point reading[20];
        const int below = read_pressures(gain, assist, 20, 25.0, reading);
        if (below < 1 || below > 19)
            continue;
        struct brake_pedal pedal = known;
        assert_int_equal(brake_fit_booster(reading, 20, &pedal), BRAKE_OK);
        assert_near(pedal.gain, gain, 1e-11);
        assert_near(pedal.assist, assist, 1e-11);
        assert_equal(pedal.ratio, known.ratio);
        fitted++;
    }
    assert_true(fitted > 300);
}

/* Readings off by up to 1 %: the split is still found, and both figures within the noise. */
static void a_booster_is_found_in_noisy_readings(void **state)
{
    (void)state;
    struct cases cases = {22};
    for (int i = 0; i < 200; i++) {
        const double gain = any_between(&cases, 3.0, 6.0);
        const double assist = any_between(&cases, 1500.0, 2500.0);
        struct brake_point reading[20];
        struct brake_pedal pedal = known;
        const int below = read_pressures(gain, assist, 20, 25.0, reading);
        assert_between(below, 3, 17);
        for (int n = 0; n < 20; n++)
            reading[n].y *= any_between(&cases, 0.99, 1.01);
        assert_int_equal(brake_fit_booster(reading, 20, &pedal), BRAKE_OK);
        assert_near(pedal.gain, gain, 0.01);
        assert_near(pedal.assist, assist, 0.03);
    }
}

static void readings_that_no_booster_gives_are_refused(void **state)
{
    (void)state;
    struct brake_point reading[20];
    struct brake_pedal pedal = known;
    read_pressures(1.0, 0.0, 20, 25.0, reading); /* no booster at all */
    for (int i = 0; i < 20; i++)
        reading[i].y *= 0.9; /* and losses that were not told */
    assert_int_equal(brake_fit_booster(reading, 20, &pedal), BRAKE_E_FIT);
    assert_nan(pedal.gain);
    assert_nan(pedal.assist);
    /* Boosted at first, then less out than in: nothing adds a negative force. */
    struct brake_pedal boosted = known;
    boosted.gain = 4.0;
    boosted.assist = 1e4;
    reading[0].y = brake_pedal_pressure(&boosted, reading[0].x);
    assert_int_equal(brake_fit_booster(reading, 2, &pedal), BRAKE_E_FIT);
    assert_nan(pedal.gain);
    /* A pair on one side of the knee only. */
    read_pressures(4.0, 1000.0, 1, 25.0, reading);
    assert_int_equal(brake_fit_booster(reading, 1, &pedal), BRAKE_E_FIT);
    reading[0].y = BRAKE_NAN;
    read_pressures(4.0, 1000.0, 1, 25.0, &reading[1]);
    assert_int_equal(brake_fit_booster(reading, 2, &pedal), BRAKE_E_FIT);
    assert_nan(pedal.gain);
}

/* None may be left out silently: 64 pairs are fitted, one more is refused. Follows from fit.h. */
static void more_than_64_pairs_are_refused(void **state)
{
    (void)state;
    const struct brake_valve fitted = {1e6, 0.3};
    struct brake_point reading[MANY];
    struct brake_pedal pedal = known;
    struct brake_valve valve;
    read_pressures(4.0, 1000.0, MANY, 5.0, reading);
    assert_int_equal(brake_fit_booster(reading, 64, &pedal), BRAKE_OK);
    assert_near(pedal.gain, 4.0, 1e-11);
    assert_near(pedal.assist, 1000.0, 1e-11);
    assert_int_equal(brake_fit_booster(reading, 65, &pedal), BRAKE_E_FIT);
    for (int i = 0; i < MANY; i++) {
        reading[i].x = 2e6 + 1e5 * i;
        reading[i].y = brake_valve_pressure(fitted, reading[i].x);
    }
    assert_int_equal(brake_fit_valve(reading, 64, &valve), BRAKE_OK);
    assert_near(valve.knee, fitted.knee, 1e-11);
    assert_int_equal(brake_fit_valve(reading, 65, &valve), BRAKE_E_FIT);
    assert_true(isnan(valve.knee));
}

/* A gauge that is 2.5 % off shows no knee yet: the line goes through the pairs that are 3 % below
 * and more, 4.0 and 4.4 MPa at 6 and 8 MPa: 2.8 MPa + 0.2 p, which is p at 3.5 MPa. */
static void a_valve_is_fitted_to_what_is_well_past_its_knee(void **state)
{
    (void)state;
    static const struct brake_point pairs[] = {{2e6, 2e6}, {4e6, 3.9e6}, {6e6, 4e6}, {8e6, 4.4e6}};
    struct brake_valve valve;
    assert_int_equal(brake_fit_valve(pairs, 4, &valve), BRAKE_OK);
    assert_near(valve.slope, 0.2, 1e-12);
    assert_near(valve.knee, 3.5e6, 1e-12);
}

/* Of all ways to part the pairs at the knee the one of least squares is taken, whatever noise they
 * have: the definition, worked out for each. A pedal of ratio 1 on 1 m2. */
static void a_booster_is_the_one_of_least_squares(void **state)
{
    (void)state;
    enum { PAIRS = 7 };
    struct cases cases = {5};
    for (int k = 0; k < 300; k++) {
        struct brake_point pair[PAIRS];
        struct brake_pedal pedal = {
            .ratio = 1.0, .efficiency = 1.0, .master_area = 1.0, .master_efficiency = 1.0};
        double least = BRAKE_INFINITY;
        double gain = BRAKE_NAN;
        double assist = BRAKE_NAN;
        for (int i = 0; i < PAIRS; i++) {
            const double x = 100.0 * (i + 1);
            const double noise = any_between(&cases, 0.7, 1.3);
            pair[i] = (struct brake_point){x, noise * fmin(4.0 * x, x + 1000.0)};
        }
        for (int below = 1; below < PAIRS; below++) {
            double xx = 0.0;
            double xy = 0.0;
            double more = 0.0;
            double squares = 0.0;
            for (int i = 0; i < below; i++) {
                xx += pair[i].x * pair[i].x;
                xy += pair[i].x * pair[i].y;
            }
            for (int i = below; i < PAIRS; i++)
                more += (pair[i].y - pair[i].x) / (PAIRS - below);
            for (int i = 0; i < PAIRS; i++)
                squares += pow(pair[i].y - (i < below ? xy / xx * pair[i].x : pair[i].x + more), 2);
            if (squares < least && xy > xx && more > 0.0) {
                least = squares;
                gain = xy / xx;
                assist = more;
            }
        }
        assert_int_equal(brake_fit_booster(pair, PAIRS, &pedal), BRAKE_OK);
        assert_near(pedal.gain, gain, 1e-12);
        assert_near(pedal.assist, assist, 1e-12);
    }
}

/* A pedal of ratio 1 on 1 m2: pairs of forces. */
static enum brake_status fit_forces(const struct brake_point *pair, int count, double *gain,
                                    double *assist)
{
    struct brake_pedal pedal = {
        .ratio = 1.0, .efficiency = 1.0, .master_area = 1.0, .master_efficiency = 1.0};
    const enum brake_status status = brake_fit_booster(pair, count, &pedal);
    *gain = pedal.gain;
    *assist = pedal.assist;
    return status;
}

/* Limits of what counts as a booster: it multiplies by more than 1 and adds more than nothing. */
static void a_booster_gives_more_than_it_gets(void **state)
{
    (void)state;
    const struct brake_point little[] = {{100.0, 100.5}, {200.0, 200.5}};
    const struct brake_point one[] = {{100.0, 100.0}, {200.0, 200.5}};
    const struct brake_point none[] = {{100.0, 200.0}, {200.0, 200.0}};
    double gain;
    double assist;
    assert_int_equal(fit_forces(little, 2, &gain, &assist), BRAKE_OK);
    assert_near(gain, 1.005, ROUNDING);
    assert_near(assist, 0.5, ROUNDING);
    assert_int_equal(fit_forces(one, 2, &gain, &assist), BRAKE_E_FIT);
    assert_int_equal(fit_forces(none, 2, &gain, &assist), BRAKE_E_FIT);
}

/* Given three pairs at 100 N of 200, 300 and 400 N, either split leaves (50 N)^2 twice: the earlier
 * knee is kept, gain 2 and assist (200 + 300)/2. */
static void of_two_splits_alike_the_earlier_knee_is_kept(void **state)
{
    (void)state;
    const struct brake_point pairs[] = {{100.0, 200.0}, {100.0, 300.0}, {100.0, 400.0}};
    double gain;
    double assist;
    assert_int_equal(fit_forces(pairs, 3, &gain, &assist), BRAKE_OK);
    assert_equal(gain, 2.0);
    assert_equal(assist, 250.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(points_on_a_line_give_the_line),
        cmocka_unit_test(what_the_line_leaves_over_has_no_line_in_it),
        cmocka_unit_test(points_above_each_other_give_no_line),
        cmocka_unit_test(gauge_readings_give_knee_and_slope_of_the_valve),
        cmocka_unit_test(the_two_extreme_valves_are_valves),
        cmocka_unit_test(readings_that_no_valve_gives_are_refused),
        cmocka_unit_test(pedal_forces_and_pressures_give_gain_and_assist),
        cmocka_unit_test(a_booster_is_found_in_noisy_readings),
        cmocka_unit_test(readings_that_no_booster_gives_are_refused),
        cmocka_unit_test(more_than_64_pairs_are_refused),
        cmocka_unit_test(a_valve_is_fitted_to_what_is_well_past_its_knee),
        cmocka_unit_test(a_booster_is_the_one_of_least_squares),
        cmocka_unit_test(three_percent_is_still_ahead_of_the_knee),
        cmocka_unit_test(abscissas_that_differ_by_rounding_give_no_line),
        cmocka_unit_test(a_booster_gives_more_than_it_gets),
        cmocka_unit_test(of_two_splits_alike_the_earlier_knee_is_kept),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
