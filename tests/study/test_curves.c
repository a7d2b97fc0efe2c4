/* SPDX-License-Identifier: MIT */
/* Curves through the rows of a log, the noise that they leave over, and least squares of two
 * numbers. */
#include <stdbool.h>
#include <string.h>

#include "../model/near.h"

#include "study/noise.h"
#include "study/pair_fit.h"

enum { ROWS = 60, STOPS = 8 };

static struct brake_log_row row[STOPS][ROWS];
static struct brake_smooth curve[STOPS];

/* ---- curves --------------------------------------------------------------------------------- */

static const double c[] = {20.0, -4.0, 0.3, 0.05};

static double cubic(double t)
{
    return c[0] + t * (c[1] + t * (c[2] + t * c[3]));
}

/* A row each 0.1 s from 5 s on. */
static void fill(int stop, double noise, struct cases *cases)
{
    for (int i = 0; i < ROWS; i++) {
        row[stop][i].value[BRAKE_LOG_TIME] = 5.0 + 0.1 * i;
        row[stop][i].value[BRAKE_LOG_SPEED] = cubic(0.1 * i);
        /* of twelve even numbers the sum is nearly normal, with a deviation of 1 */
        for (int k = 0; k < 12 && cases != NULL; k++)
            row[stop][i].value[BRAKE_LOG_SPEED] += noise * any_between(cases, -0.5, 0.5);
    }
}

static void a_cubic_comes_back_whole(void **state)
{
    (void)state;
    fill(0, 0.0, NULL);
    assert_true(brake_smooth_fit(row[0], 10, 50, 4, &curve[0]));
    for (double t = 0.5; t < 5.5; t += 0.35) {
        double value[BRAKE_SMOOTH_TERMS];
        double begin[BRAKE_SMOOTH_TERMS];
        double end[BRAKE_SMOOTH_TERMS];
        double way = 0.0;
        assert_near(brake_smooth_at(&curve[0], 5.0 + t), cubic(t), 1e-11);
        assert_near(brake_smooth_slope(&curve[0], 5.0 + t),
                    c[1] + t * (2.0 * c[2] + 3.0 * c[3] * t), 1e-9);
        brake_smooth_terms(&curve[0], 6.0, value, begin);
        brake_smooth_terms(&curve[0], 5.0 + t, value, end);
        for (int k = 0; k < 4; k++)
            way += curve[0].c[k] * (end[k] - begin[k]);
        const double integral = t * (c[0] + t * (c[1] / 2.0 + t * (c[2] / 3.0 + t * c[3] / 4.0)));
        const double before = c[0] + c[1] / 2.0 + c[2] / 3.0 + c[3] / 4.0;
        assert_within(way, integral - before, 1e-9);
    }
}

/* As many rows as terms leave nothing over, and say nothing of the noise. */
static void a_curve_takes_one_row_more_than_terms(void **state)
{
    (void)state;
    fill(0, 0.0, NULL);
    for (int terms = 1; terms <= BRAKE_SMOOTH_TERMS; terms++) {
        assert_false(brake_smooth_fit(row[0], 7, 7 + terms - 1, terms, &curve[0]));
        assert_true(brake_smooth_fit(row[0], 7, 7 + terms, terms, &curve[0]));
    }
    for (int i = 0; i < ROWS; i++)
        row[0][i].value[BRAKE_LOG_TIME] = i < 30 ? 5.0 : 6.0; /* two moments carry no parabola */
    assert_false(brake_smooth_fit(row[0], 0, ROWS - 1, 3, &curve[0]));
    assert_true(brake_smooth_fit(row[0], 0, ROWS - 1, 2, &curve[0]));
}

/* Least squares are linear in the readings: a figure is the sum of all by their weights. */
static void weights_of_rows_make_up_a_figure(void **state)
{
    (void)state;
    struct cases cases = {1};
    double gradient[BRAKE_SMOOTH_TERMS];
    double unused[BRAKE_SMOOTH_TERMS];
    double sum = 0.0;
    fill(0, 0.2, &cases);
    assert_true(brake_smooth_fit(row[0], 5, 40, 3, &curve[0]));
    brake_smooth_terms(&curve[0], 7.3, gradient, unused);
    for (long i = 5; i <= 40; i++)
        sum += brake_smooth_weight(&curve[0], i, gradient) * row[0][i].value[BRAKE_LOG_SPEED];
    assert_near(sum, brake_smooth_at(&curve[0], 7.3), 1e-10);
}

/* ---- noise ---------------------------------------------------------------------------------- */

/* Variance of w1 x1 + w2 x2 + w3 x3: of white noise the squares; of noise that dies away by e in T
 * the products too, with exp(-dt / T): T of reference/method.md, section 11. */
static void a_sum_of_rows_has_the_variance_of_its_weights(void **state)
{
    (void)state;
    static const double times[] = {0.1, 0.3, 1.0, 3.0};
    static const double at[] = {2.0, 2.2, 2.5};
    static const double weight[] = {1.0, -0.5, 2.0};
    for (int k = -1; k < BRAKE_NOISE_TIMES; k++) {
        struct brake_noise noise = {.white = k < 0 ? 0.04 : 0.0};
        struct brake_noise_sum sum = {.variance = 0.0};
        double expected = 0.0;
        if (k >= 0)
            noise.carried[k] = 0.09;
        for (int i = 0; i < 3; i++)
            for (int j = 0; j < 3; j++)
                expected += weight[i] * weight[j] *
                            (k < 0 ? 0.04 * (i == j) : 0.09 * exp(-fabs(at[i] - at[j]) / times[k]));
        for (int i = 0; i < 3; i++)
            brake_noise_add(&noise, at[i], weight[i], &sum);
        assert_near(sum.variance, expected, 1e-12);
        assert_near(brake_noise_of_row(&noise), k < 0 ? 0.2 : 0.3, ROUNDING);
    }
    const struct brake_noise both = {.white = 0.09, .carried = {0.0, 0.16, 0.0, 0.0}};
    assert_near(brake_noise_of_row(&both), 0.5, ROUNDING);
}

/* Of a mean of n rows with white noise, one n-th root of it. */
static void the_noise_of_a_mean_falls_with_the_rows(void **state)
{
    (void)state;
    const struct brake_noise white = {.white = 0.04};
    const double gradient[BRAKE_SMOOTH_TERMS] = {1.0};
    fill(0, 0.0, NULL);
    assert_true(brake_smooth_fit(row[0], 0, 24, 1, &curve[0]));
    assert_near(brake_noise_of_curve(&white, &curve[0], gradient), 0.2 / 5.0, 1e-12);
}

static void find_noise(struct brake_noise *noise)
{
    for (int i = 0; i < STOPS; i++)
        assert_true(brake_smooth_fit(row[i], 0, ROWS - 1, 4, &curve[i]));
    brake_noise_find(curve, STOPS, noise);
}

/* 8 stops of 60 rows tell a standard deviation to 1/sqrt(2 x 448), 3.3 %: within four of that. */
static void white_noise_is_found_as_what_it_is(void **state)
{
    (void)state;
    struct cases cases = {7};
    struct brake_noise noise;
    for (int i = 0; i < STOPS; i++)
        fill(i, 0.1, &cases);
    find_noise(&noise);
    assert_near(brake_noise_of_row(&noise), 0.1, 0.14);
    assert_true(noise.white > 0.9 * brake_noise_of_row(&noise) * brake_noise_of_row(&noise));
    curve[3].terms = 0; /* a stop that counts as none */
    struct brake_noise fewer;
    brake_noise_find(curve, STOPS, &fewer);
    assert_true(fewer.white > 0.0 && fewer.white != noise.white);
}

/* Noise that dies away by e in 0.3 s, 3 rows, of 30 times the variance of each row's own, as one of
 * the shapes that are tried. 8 stops of 6 s hold some 80 rows that are independent. */
static void carried_noise_is_found_as_what_it_is(void **state)
{
    (void)state;
    struct cases cases = {11};
    struct brake_noise noise;
    const double stays = exp(-1.0 / 3.0);
    for (int i = 0; i < STOPS; i++) {
        double carried = 0.0;
        fill(i, 0.02, &cases);
        for (int k = -50; k < ROWS; k++) {
            double step = 0.0;
            for (int n = 0; n < 12; n++)
                step += any_between(&cases, -0.5, 0.5);
            carried = stays * carried + sqrt(30.0) * 0.02 * sqrt(1.0 - stays * stays) * step;
            if (k >= 0)
                row[i][k].value[BRAKE_LOG_SPEED] += carried;
        }
    }
    find_noise(&noise);
    /* slower noise is taken for the vehicle's own motion as well: its share is held too large */
    assert_between(sqrt(noise.white), 0.01, 0.03);
    assert_between(brake_noise_of_row(&noise), 0.9 * sqrt(31.0) * 0.02, 1.8 * sqrt(31.0) * 0.02);
    assert_true(noise.carried[1] > noise.white);
}

/* ---- two numbers ---------------------------------------------------------------------------- */

enum { POINTS = 8 };

static bool line(const void *context, const double pair[2], double *y)
{
    (void)context;
    for (int i = 0; i < POINTS; i++)
        y[i] = pair[0] + pair[1] * i;
    return true;
}

static struct brake_pair_fit fit_line(const double *left, double most)
{
    struct brake_pair_fit fit = {.pair = {0.0, 0.0}, .least = -10.0, .most = most};
    double measured[POINTS];
    for (int i = 0; i < POINTS; i++)
        measured[i] = 2.5 - 0.4 * i + 0.1 * left[i];
    assert_true(brake_pair_fit(line, NULL, measured, POINTS, &fit));
    return fit;
}

/* What is left over stands square on 1 and on x, so that the line stays: its variance is 8 x 0.01
 * over 6, of the first number by 140 / (8 x 140 - 28^2) (sums of squares and of 0 to 7). Of
 * neighbours alike by r, (1 + r) / (1 - r) times as much: the lag products over the squares are
 * -1/8, taken as 0, and 3/8. */
static void a_line_is_found_with_its_error(void **state)
{
    (void)state;
    static const double apart[POINTS] = {1, -1, -1, 1, 1, -1, -1, 1};
    static const double alike[POINTS] = {1, 1, -1, -1, -1, -1, 1, 1};
    const struct brake_pair_fit one = fit_line(apart, 10.0);
    const double sigma = sqrt(0.08 / 6.0 * 140.0 / 336.0);
    assert_near(one.pair[0], 2.5, 1e-6);
    assert_near(one.pair[1], -0.4, 1e-6);
    assert_near(one.squares, 0.08, 1e-9);
    assert_near(one.sigma, sigma, 1e-6);
    assert_near(brake_pair_counts(&one, POINTS), 8.0, ROUNDING);
    const struct brake_pair_fit other = fit_line(alike, 10.0);
    assert_near(other.pair[0], 2.5, 1e-6);
    assert_near(other.likeness, 3.0 / 8.0, 1e-6);
    assert_near(other.sigma, sigma * sqrt(1.375 / 0.625), 1e-6);
    assert_near(brake_pair_counts(&other, POINTS), 8.0 * 0.625 / 1.375, 1e-6);
    assert_near(fit_line(apart, 2.0).pair[0], 2.0, ROUNDING); /* and no more */
}

static bool counted_line(const void *context, const double pair[2], double *y)
{
    ++**(int *const *)context;
    return line(NULL, pair, y);
}

/* Least squares of a straight line are one step of Gauss and Newton: the model is asked where it
 * begins, beside it by each number, at the end of the step, and beside that once more. */
static void a_line_is_found_in_one_step(void **state)
{
    (void)state;
    struct brake_pair_fit fit = {.pair = {0.0, 0.0}, .least = -10.0, .most = 10.0};
    double measured[POINTS];
    int calls = 0;
    int *const count = &calls;
    for (int i = 0; i < POINTS; i++)
        measured[i] = 0.9 - 0.4 * i + 0.01 * (i % 2);
    assert_true(brake_pair_fit(counted_line, &count, measured, POINTS, &fit));
    assert_int_equal(calls, 6);
}

static bool nothing(const void *context, const double pair[2], double *y)
{
    (void)context;
    (void)y;
    return pair[0] < 0.5;
}

static void a_model_that_gives_nothing_has_no_fit(void **state)
{
    (void)state;
    static const double measured[POINTS] = {0.0};
    struct brake_pair_fit fit = {.pair = {1.0, 0.0}, .least = -9.0, .most = 9.0};
    assert_false(brake_pair_fit(nothing, NULL, measured, POINTS, &fit));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_cubic_comes_back_whole),
        cmocka_unit_test(a_curve_takes_one_row_more_than_terms),
        cmocka_unit_test(weights_of_rows_make_up_a_figure),
        cmocka_unit_test(a_sum_of_rows_has_the_variance_of_its_weights),
        cmocka_unit_test(the_noise_of_a_mean_falls_with_the_rows),
        cmocka_unit_test(white_noise_is_found_as_what_it_is),
        cmocka_unit_test(carried_noise_is_found_as_what_it_is),
        cmocka_unit_test(a_line_is_found_with_its_error),
        cmocka_unit_test(a_line_is_found_in_one_step),
        cmocka_unit_test(a_model_that_gives_nothing_has_no_fit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
