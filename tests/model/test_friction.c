/* SPDX-License-Identifier: MIT */
/* Friction over temperature, speed and pressure. */
#include "near.h"

#include "brake/friction.h"

static const double ICE = 273.15;

/* A piece of a curve stays between its ends and keeps their sense. */
static void assert_monotone(const struct brake_curve *curve)
{
    for (int i = 0; i + 1 < curve->points; i++) {
        const double low = fmin(curve->y[i], curve->y[i + 1]);
        const double high = fmax(curve->y[i], curve->y[i + 1]);
        const double sense = curve->y[i + 1] - curve->y[i];
        const double slack = 1e-14 * (fabs(low) + fabs(high));
        double before = curve->y[i];
        for (int k = 1; k <= 50; k++) {
            const double x = curve->x[i] + (curve->x[i + 1] - curve->x[i]) * k / 50.0;
            const double y = brake_curve_at(curve, x);
            assert_between(y, low - slack, high + slack);
            assert_true((y - before) * sense >= -slack * fabs(sense));
            before = y;
        }
    }
}

/* Fritsch and Carlson 1980: no overshoot whatever the points. */
static void a_curve_never_leaves_the_range_of_its_points(void **state)
{
    (void)state;
    struct cases cases = {11};
    for (int run = 0; run < 500; run++) {
        double x[BRAKE_CURVE_POINTS];
        double y[BRAKE_CURVE_POINTS];
        const int count = 1 + run % BRAKE_CURVE_POINTS;
        struct brake_curve curve;
        x[0] = any_between(&cases, -100.0, 300.0);
        y[0] = any_between(&cases, 0.0, 1.0);
        for (int i = 1; i < count; i++) {
            x[i] = x[i - 1] + pow(10.0, any_between(&cases, -3.0, 3.0));
            y[i] = run % 3 == 0 ? y[i - 1] + any_between(&cases, 0.0, 1.0)
                                : any_between(&cases, 0.0, 1.0);
            if (run % 7 == 0 && i % 2 == 1)
                y[i] = y[i - 1];
        }
        assert_int_equal(brake_curve_build(x, y, count, &curve), BRAKE_OK);
        assert_monotone(&curve);
        for (int i = 0; i < count; i++)
            assert_within(brake_curve_at(&curve, x[i]), y[i], 1e-14);
        assert_equal(brake_curve_at(&curve, x[0] - 1e3), y[0]);
        assert_equal(brake_curve_at(&curve, x[count - 1] + 1e4), y[count - 1]);
    }
}

/* The derivative runs on across a point. */
static void a_curve_has_no_kink_at_its_points(void **state)
{
    (void)state;
    const double x[] = {0.0, 1.0, 2.5, 3.0, 7.0};
    const double y[] = {0.30, 0.36, 0.40, 0.41, 0.20};
    const double step = 1e-6;
    struct brake_curve curve;
    brake_curve_build(x, y, 5, &curve);
    for (int i = 1; i < 4; i++) {
        const double left = (brake_curve_at(&curve, x[i]) - brake_curve_at(&curve, x[i] - step));
        const double right = (brake_curve_at(&curve, x[i] + step) - brake_curve_at(&curve, x[i]));
        assert_within(left / step, right / step, 1e-5);
        assert_within(right / step, curve.slope[i], 1e-5);
    }
}

/* Slopes by hand: secants 1 and 3 of equal width, (w1 + w2) / (w1/d1 + w2/d2) = 6 / (3 + 1);
 * ends from the parabola x^2 itself. A straight line stays one. */
static void slopes_are_those_of_the_source(void **state)
{
    (void)state;
    const double x[] = {0.0, 1.0, 2.0};
    const double squares[] = {0.0, 1.0, 4.0};
    const double line[] = {1.0, 3.0, 5.0};
    struct brake_curve curve;
    brake_curve_build(x, squares, 3, &curve);
    assert_near(curve.slope[1], 1.5, ROUNDING);
    assert_equal(curve.slope[0], 0.0);
    assert_near(curve.slope[2], 4.0, ROUNDING);
    brake_curve_build(x, line, 3, &curve);
    for (int i = 0; i < 3; i++)
        assert_near(curve.slope[i], 2.0, ROUNDING);
    assert_near(brake_curve_at(&curve, 0.7), 2.4, ROUNDING);
    brake_curve_build(x, line, 2, &curve);
    assert_near(brake_curve_at(&curve, 0.25), 1.5, ROUNDING);
    brake_curve_build(x, line, 1, &curve);
    assert_equal(brake_curve_at(&curve, -1.0), 1.0);
    assert_equal(brake_curve_at(&curve, 0.0), 1.0);
    assert_equal(brake_curve_at(&curve, 1.0), 1.0);
    /* A turn right after the end: three times the secant at most. */
    const double uneven[] = {0.0, 4.0, 4.5};
    const double turn[] = {0.0, 1.0, -9.0};
    brake_curve_build(uneven, turn, 3, &curve);
    assert_near(curve.slope[0], 0.75, ROUNDING);
    assert_equal(curve.slope[1], 0.0);
}

/* SciPy 1.10, PchipInterpolator (the same slopes), printed to 17 figures. */
static void a_curve_is_that_of_another_program(void **state)
{
    (void)state;
    const double x[] = {0.0, 1.0, 2.5, 3.0, 7.0};
    const double y[] = {0.30, 0.36, 0.40, 0.41, 0.20};
    static const double at[][2] = {
        {0.25, 0.3179111842105263}, {0.9, 0.35591052631578945}, {1.7, 0.38165861371775694},
        {2.9, 0.40931720930232557}, {4.0, 0.3991145833333333},  {6.5, 0.25379123263888886},
    };
    struct brake_curve curve;
    brake_curve_build(x, y, 5, &curve);
    for (size_t i = 0; i < sizeof at / sizeof *at; i++)
        assert_near(brake_curve_at(&curve, at[i][0]), at[i][1], 1e-14);
}

static void a_curve_that_cannot_be_laid_is_refused(void **state)
{
    (void)state;
    double x[BRAKE_CURVE_POINTS + 1];
    double y[BRAKE_CURVE_POINTS + 1];
    struct brake_curve curve;
    for (int i = 0; i <= BRAKE_CURVE_POINTS; i++) {
        x[i] = i;
        y[i] = 1.0;
    }
    assert_int_equal(brake_curve_build(x, y, 0, &curve), BRAKE_E_SIZE);
    assert_int_equal(brake_curve_build(x, y, BRAKE_CURVE_POINTS + 1, &curve), BRAKE_E_SIZE);
    assert_nan(brake_curve_at(&curve, 1.0));
    x[1] = x[0];
    assert_int_equal(brake_curve_build(x, y, 3, &curve), BRAKE_E_RANGE);
    x[1] = BRAKE_NAN;
    assert_int_equal(brake_curve_build(x, y, 3, &curve), BRAKE_E_RANGE);
    x[1] = 1.0;
    y[2] = BRAKE_INFINITY;
    assert_int_equal(brake_curve_build(x, y, 3, &curve), BRAKE_E_RANGE);
    y[2] = 1e150; /* squares of more would be infinite */
    assert_int_equal(brake_curve_build(x, y, 3, &curve), BRAKE_E_RANGE);
    y[2] = 1.0;
    x[2] = 1e150;
    assert_int_equal(brake_curve_build(x, y, 3, &curve), BRAKE_E_RANGE);
    x[2] = 2.0;
    assert_int_equal(curve.points, 0);
    y[2] = 1.0;
    assert_int_equal(brake_curve_build(x, y, 3, &curve), BRAKE_OK);
    assert_nan(brake_curve_at(&curve, BRAKE_NAN));
}

/* Rhee, SAE 740415: friction follows powers of speed and pressure. */
static void speed_and_pressure_are_factors(void **state)
{
    (void)state;
    const double speed[] = {1.0, 10.0, 30.0};
    const double fade[] = {1.05, 1.0, 0.9};
    const double pressure[] = {1e6, 5e6};
    const double drop[] = {1.0, 0.92};
    struct brake_friction friction;
    assert_int_equal(brake_friction_usual(0.38, 1.0, &friction), BRAKE_W_NOMINAL);
    const double alone = brake_friction_at(&friction, 400.0, 30.0, 5e6);
    assert_near(brake_friction_at(&friction, 400.0, 0.0, 0.0), alone, ROUNDING);
    brake_curve_build(speed, fade, 3, &friction.speed);
    brake_curve_build(pressure, drop, 2, &friction.pressure);
    assert_near(brake_friction_at(&friction, 400.0, 30.0, 5e6), alone * 0.9 * 0.92, ROUNDING);
    assert_near(brake_friction_at(&friction, 400.0, 10.0, 0.0), alone, ROUNDING);
    assert_nan(brake_friction_at(&friction, 400.0, BRAKE_NAN, 5e6));
    assert_nan(brake_friction_at(&friction, BRAKE_NAN, 10.0, 5e6));
}

/* Assumed shape: rises first, then fades; the working value at 100 degC. */
static void a_usual_pad_rises_first_and_then_fades(void **state)
{
    (void)state;
    struct brake_friction friction;
    for (double mu = 0.1; mu < 0.9; mu += 0.1) {
        assert_int_equal(brake_friction_usual(mu, 1.0, &friction), BRAKE_W_NOMINAL);
        assert_near(brake_friction_at(&friction, ICE + 100.0, 10.0, 3e6), mu, ROUNDING);
        double before = 0.0;
        for (double t = -40.0; t <= 200.0; t += 5.0) {
            const double value = brake_friction_at(&friction, ICE + t, 10.0, 3e6);
            assert_true(value >= before);
            before = value;
        }
        for (double t = 205.0; t <= 900.0; t += 5.0) {
            const double value = brake_friction_at(&friction, ICE + t, 10.0, 3e6);
            assert_true(value <= before);
            before = value;
        }
        /* Between the trade's 0.38 cold and 0.28 hot, 0.74. */
        assert_between(brake_friction_at(&friction, ICE + 500.0, 10.0, 3e6) / mu, 0.65, 0.80);
    }
    assert_int_equal(brake_friction_usual(0.04, 1.0, &friction), BRAKE_E_RANGE);
    assert_nan(brake_friction_at(&friction, 400.0, 10.0, 3e6));
    assert_int_equal(brake_friction_usual(0.91, 1.0, &friction), BRAKE_E_RANGE);
    assert_int_equal(brake_friction_usual(BRAKE_NAN, 1.0, &friction), BRAKE_E_RANGE);
    assert_int_equal(brake_friction_usual(0.38, -0.01, &friction), BRAKE_E_RANGE);
    assert_int_equal(brake_friction_usual(0.38, 4.01, &friction), BRAKE_E_RANGE);
}

/* SAE J866, table 1. */
static void an_edge_code_letter_is_a_band(void **state)
{
    (void)state;
    static const double limit[] = {0.0, 0.15, 0.25, 0.35, 0.45, 0.55};
    struct brake_band band;
    for (int i = 0; i < 5; i++) {
        assert_int_equal(brake_edge_band((char)('C' + i), &band), BRAKE_OK);
        assert_equal(band.low, limit[i]);
        assert_equal(band.high, limit[i + 1]);
    }
    assert_int_equal(brake_edge_band('H', &band), BRAKE_OK);
    assert_equal(band.low, 0.55);
    assert_infinite(band.high);
    for (const char *c = "ZABIf\xff"; *c != '\0'; c++) {
        assert_int_equal(brake_edge_band(*c, &band), BRAKE_E_UNKNOWN);
        assert_nan(band.low);
        assert_nan(band.high);
    }
}

static void an_edge_code_gives_either_end_of_its_bands(void **state)
{
    (void)state;
    struct brake_friction friction;
    assert_int_equal(brake_friction_edge('F', 'E', BRAKE_BAND_LOW, &friction), BRAKE_W_NOMINAL);
    assert_equal(brake_friction_at(&friction, ICE + 20.0, 1.0, 1e6), 0.35);
    assert_equal(brake_friction_at(&friction, ICE + 204.0, 1.0, 1e6), 0.35);
    assert_equal(brake_friction_at(&friction, ICE + 500.0, 1.0, 1e6), 0.25);
    assert_int_equal(brake_friction_edge('F', 'E', BRAKE_BAND_HIGH, &friction), BRAKE_W_NOMINAL);
    assert_equal(brake_friction_at(&friction, ICE + 100.0, 1.0, 1e6), 0.45);
    assert_equal(brake_friction_at(&friction, ICE + 343.0, 1.0, 1e6), 0.35);
    assert_int_equal(brake_friction_edge('H', 'H', BRAKE_BAND_LOW, &friction), BRAKE_W_NOMINAL);
    assert_equal(brake_friction_at(&friction, 400.0, 1.0, 1e6), 0.55);
    assert_int_equal(brake_friction_edge('G', 'H', BRAKE_BAND_HIGH, &friction), BRAKE_E_UNKNOWN);
    assert_nan(brake_friction_at(&friction, 400.0, 1.0, 1e6));
    assert_int_equal(brake_friction_edge('Z', 'F', BRAKE_BAND_LOW, &friction), BRAKE_E_UNKNOWN);
    assert_int_equal(brake_friction_edge('F', 'Z', BRAKE_BAND_LOW, &friction), BRAKE_E_UNKNOWN);
}

static void a_curve_of_more_points_than_it_has_room_for_says_nothing(void **state)
{
    (void)state;
    const struct brake_curve curve = {.points = BRAKE_CURVE_POINTS + 1};
    assert_nan(brake_curve_at(&curve, 0.0));
}

/* reference/method.md: parts of the friction when warm, 20 to 600 degC; from 300 degC on what fades
 * is raised to a power. */
static void a_usual_pad_has_its_published_shape(void **state)
{
    (void)state;
    static const double celsius[] = {20.0, 100.0, 200.0, 300.0, 400.0, 500.0, 600.0};
    static const double part[] = {0.92, 1.00, 1.03, 0.97, 0.86, 0.72, 0.62};
    static const double fades[] = {0.0, 1.0, 2.0, 4.0};
    struct brake_friction friction;
    for (int fade = 0; fade < 4; fade++) {
        assert_int_equal(brake_friction_usual(0.4, fades[fade], &friction), BRAKE_W_NOMINAL);
        for (int i = 0; i < 7; i++) {
            const double expected = i < 3 ? part[i] : pow(part[i], fades[fade]);
            assert_near(brake_friction_at(&friction, ICE + celsius[i], 10.0, 3e6), 0.4 * expected,
                        ROUNDING);
        }
    }
    assert_int_equal(brake_friction_usual(0.05, 1.0, &friction), BRAKE_W_NOMINAL);
    assert_int_equal(brake_friction_usual(0.90, 1.0, &friction), BRAKE_W_NOMINAL);
    assert_int_equal(brake_friction_usual(0.0499, 1.0, &friction), BRAKE_E_RANGE);
    assert_int_equal(brake_friction_usual(0.901, 1.0, &friction), BRAKE_E_RANGE);
    assert_int_equal(brake_friction_usual(0.4, 4.001, &friction), BRAKE_E_RANGE);
    assert_int_equal(brake_friction_usual(0.4, -1e-9, &friction), BRAKE_E_RANGE);
}

/* SAE J866: 400 and 650 degF, 204 and 343 degC; straight between them. */
static void an_edge_code_is_straight_between_its_temperatures(void **state)
{
    (void)state;
    struct brake_friction friction;
    assert_int_equal(brake_friction_edge('F', 'E', BRAKE_BAND_LOW, &friction), BRAKE_W_NOMINAL);
    for (double share = 0.0; share <= 1.0; share += 0.125)
        assert_near(brake_friction_at(&friction, ICE + 204.0 + 139.0 * share, 1.0, 1e6),
                    0.35 - 0.10 * share, ROUNDING);
}

/* As many points as there is room for, and the curve goes through each. */
static void a_curve_may_have_all_its_points(void **state)
{
    (void)state;
    double x[BRAKE_CURVE_POINTS];
    double y[BRAKE_CURVE_POINTS];
    struct brake_curve curve;
    for (int i = 0; i < BRAKE_CURVE_POINTS; i++) {
        x[i] = i - 3.0;
        y[i] = i % 3 == 0 ? 1.0 : -0.5 * i;
    }
    for (int count = 1; count <= BRAKE_CURVE_POINTS; count++) {
        assert_int_equal(brake_curve_build(x, y, count, &curve), BRAKE_OK);
        for (int i = 0; i < count; i++)
            assert_near(brake_curve_at(&curve, x[i]), y[i], ROUNDING);
        assert_equal(brake_curve_at(&curve, -100.0), y[0]);
        assert_equal(brake_curve_at(&curve, 100.0), y[count - 1]);
    }
}

/* Fritsch and Carlson: where the first secant is flat the curve is flat there, and so at its
 * end. */
static void a_curve_that_begins_flat_stays_flat(void **state)
{
    (void)state;
    const double x[] = {0.0, 1.0, 2.0, 3.0};
    const double down[] = {1.0, 1.0, 0.0, 0.0};
    const double up[] = {0.0, 0.0, 1.0, 1.0};
    struct brake_curve curve;
    for (int side = 0; side < 2; side++) {
        const double *y = side == 0 ? down : up;
        assert_int_equal(brake_curve_build(x, y, 4, &curve), BRAKE_OK);
        for (double at = 0.0; at <= 1.0; at += 0.125) {
            assert_equal(brake_curve_at(&curve, at), y[0]);
            assert_equal(brake_curve_at(&curve, 2.0 + at), y[3]);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_curve_of_more_points_than_it_has_room_for_says_nothing),
        cmocka_unit_test(a_curve_never_leaves_the_range_of_its_points),
        cmocka_unit_test(a_curve_has_no_kink_at_its_points),
        cmocka_unit_test(slopes_are_those_of_the_source),
        cmocka_unit_test(a_curve_is_that_of_another_program),
        cmocka_unit_test(a_curve_that_cannot_be_laid_is_refused),
        cmocka_unit_test(speed_and_pressure_are_factors),
        cmocka_unit_test(a_usual_pad_rises_first_and_then_fades),
        cmocka_unit_test(an_edge_code_letter_is_a_band),
        cmocka_unit_test(an_edge_code_gives_either_end_of_its_bands),
        cmocka_unit_test(a_usual_pad_has_its_published_shape),
        cmocka_unit_test(an_edge_code_is_straight_between_its_temperatures),
        cmocka_unit_test(a_curve_may_have_all_its_points),
        cmocka_unit_test(a_curve_that_begins_flat_stays_flat),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
