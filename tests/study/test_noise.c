/* SPDX-License-Identifier: MIT */
/* The noise of a log: reference/method.md, section 11. Held against the same written out with whole
 * matrices: covariance of every row with every other, generalised least squares by Cholesky. */
#include "../model/near.h"

#include <string.h>

#include "study/noise.h"

enum { ROWS = 26, SPLIT = 12, TRIALS = 1 + 6 * BRAKE_NOISE_TIMES };

static const double times[BRAKE_NOISE_TIMES] = {0.1, 0.3, 1.0, 3.0};
static const double ratios[] = {0.03, 0.3, 3.0, 30.0, 300.0, 3e4};

static struct brake_log_row row[ROWS];
static struct brake_smooth curve[3]; /* through rows 0 to SPLIT - 1, and behind; none */

/* Rows that are not evenly spaced, on a curve, each off by a part of its own and one that stays. */
static void make_rows(double off)
{
    struct cases cases = {7};
    double stays = 0.0;
    for (int i = 0; i < ROWS; i++) {
        const double time = 2.0 + 0.1 * i + 0.02 * sin(3.0 * i);
        stays = 0.6 * stays + any_between(&cases, -off, off);
        row[i].value[BRAKE_LOG_TIME] = time;
        row[i].value[BRAKE_LOG_SPEED] =
            20.0 - 4.0 * time + 0.1 * time * time + stays + any_between(&cases, -off, off);
    }
    memset(curve, 0, sizeof curve);
    assert_true(brake_smooth_fit(row, 0, SPLIT - 1, 3, &curve[0]));
    assert_true(brake_smooth_fit(row, SPLIT, ROWS - 1, 4, &curve[1]));
}

/* ---- whole matrices -------------------------------------------------------------------------- */

/* Factor of a matrix, in its lower half; logarithm of its determinant. */
static double factorise(int n, double m[ROWS][ROWS])
{
    double logs = 0.0;
    for (int i = 0; i < n; i++) {
        for (int k = 0; k <= i; k++) {
            for (int j = 0; j < k; j++)
                m[i][k] -= m[i][j] * m[k][j];
            m[i][k] = i == k ? sqrt(m[i][i]) : m[i][k] / m[k][k];
        }
        logs += 2.0 * log(m[i][i]);
    }
    return logs;
}

static void divide(int n, double m[ROWS][ROWS], double *x)
{
    for (int i = 0; i < n; i++) {
        for (int j = 0; j < i; j++)
            x[i] -= m[i][j] * x[j];
        x[i] /= m[i][i];
    }
}

/* A shape of noise, its white part 1. */
struct shape {
    double ratio, time;
    double logs, squares;
    int freedom;
};

static void add_curve(const struct brake_smooth *c, struct shape *shape)
{
    double covariance[ROWS][ROWS];
    double column[BRAKE_SMOOTH_TERMS + 1][ROWS] = {{0.0}};
    double normal[ROWS][ROWS];
    double left[BRAKE_SMOOTH_TERMS] = {0.0};
    double unused[BRAKE_SMOOTH_TERMS];
    const int n = (int)(c->last - c->first) + 1;
    for (int i = 0; i < n; i++) {
        const struct brake_log_row *at = &c->row[c->first + i];
        double term[BRAKE_SMOOTH_TERMS] = {0.0};
        for (int k = 0; k < n; k++) {
            const double apart = at->value[0] - c->row[c->first + k].value[0];
            covariance[i][k] = (i == k) + shape->ratio * exp(-fabs(apart) / shape->time);
        }
        brake_smooth_terms(c, at->value[BRAKE_LOG_TIME], term, unused);
        for (int k = 0; k < c->terms; k++)
            column[k][i] = term[k];
        column[c->terms][i] = at->value[BRAKE_LOG_SPEED];
    }
    shape->logs += factorise(n, covariance);
    for (int k = 0; k <= c->terms; k++)
        divide(n, covariance, column[k]);
    for (int a = 0; a < c->terms; a++) {
        for (int b = 0; b < c->terms; b++) {
            normal[a][b] = 0.0;
            for (int i = 0; i < n; i++)
                normal[a][b] += column[a][i] * column[b][i];
        }
        for (int i = 0; i < n; i++)
            left[a] += column[a][i] * column[c->terms][i];
    }
    shape->logs += factorise(c->terms, normal);
    divide(c->terms, normal, left);
    for (int i = 0; i < n; i++)
        shape->squares += column[c->terms][i] * column[c->terms][i];
    for (int a = 0; a < c->terms; a++)
        shape->squares -= left[a] * left[a];
    shape->freedom += n - c->terms;
}

/* Weighed by likelihood and prior, of which white noise alone has half. */
static void expect(int curves, struct brake_noise *noise)
{
    double weight[TRIALS];
    double all = 0.0;
    struct shape shape[TRIALS];
    memset(noise, 0, sizeof *noise);
    for (int t = 0; t < TRIALS; t++) {
        shape[t] = (struct shape){.ratio = t == 0 ? 0.0 : ratios[(t - 1) / BRAKE_NOISE_TIMES],
                                  .time = t == 0 ? 1.0 : times[(t - 1) % BRAKE_NOISE_TIMES]};
        for (int i = 0; i < curves; i++) {
            if (curve[i].terms > 0)
                add_curve(&curve[i], &shape[t]);
        }
        weight[t] = exp(-0.5 * (shape[t].logs - shape[0].logs)) *
                    pow(shape[t].squares / shape[0].squares, -0.5 * shape[t].freedom) *
                    (t == 0 ? 0.5 : 0.5 / (TRIALS - 1));
        all += weight[t];
    }
    for (int t = 0; t < TRIALS; t++) {
        const double white = weight[t] / all * shape[t].squares / (shape[t].freedom - 2);
        noise->white += white;
        if (t > 0)
            noise->carried[(t - 1) % BRAKE_NOISE_TIMES] += white * shape[t].ratio;
    }
}

/* Of two stops, of one, and past one that has no curve. */
static void the_noise_of_a_log_is_that_of_whole_matrices(void **state)
{
    (void)state;
    struct brake_noise found;
    struct brake_noise expected;
    make_rows(0.05);
    for (int curves = 1; curves <= 3; curves++) {
        brake_noise_find(curve, curves, &found);
        expect(curves, &expected);
        assert_near(found.white, expected.white, 1e-7);
        for (int k = 0; k < BRAKE_NOISE_TIMES; k++)
            assert_near(found.carried[k], expected.carried[k], 1e-7);
    }
}

/* Twice the noise, four times the variances: of which kind it is, is the same. */
static void noise_goes_with_its_size(void **state)
{
    (void)state;
    struct brake_noise one;
    struct brake_noise two;
    make_rows(0.05);
    brake_noise_find(curve, 2, &one);
    make_rows(0.1);
    brake_noise_find(curve, 2, &two);
    assert_near(two.white, 4.0 * one.white, 1e-6);
    assert_near(two.carried[1], 4.0 * one.carried[1], 1e-6);
}

/* Three rows more than the curve takes up tell a noise, two do not; nor do rows that lie on it. */
static void too_few_rows_tell_no_noise(void **state)
{
    (void)state;
    struct brake_noise noise;
    make_rows(0.05);
    for (int more = 2; more <= 3; more++) {
        assert_true(brake_smooth_fit(row, 4, 4 + 2 + more - 1, 2, &curve[0]));
        brake_noise_find(curve, 1, &noise);
        assert_int_equal(noise.white > 0.0, more == 3);
        assert_int_equal(brake_noise_of_row(&noise) > 0.0, more == 3);
    }
    brake_noise_find(curve, 0, &noise);
    assert_equal(brake_noise_of_row(&noise), 0.0);
    for (int i = 0; i < ROWS; i++)
        row[i].value[BRAKE_LOG_SPEED] = 0.0;
    assert_true(brake_smooth_fit(row, 0, 9, 2, &curve[0]));
    brake_noise_find(curve, 1, &noise);
    assert_equal(brake_noise_of_row(&noise), 0.0);
    assert_equal(noise.carried[0], 0.0);
}

static const struct brake_noise mixed = {0.3, {0.2, 0.5, 0.7, 1.1}};

/* Covariance of two rows: the white part where they are the same, the others as far as they are
 * still there. */
static double covariance_of(int i, int k)
{
    const double apart = fabs(row[i].value[BRAKE_LOG_TIME] - row[k].value[BRAKE_LOG_TIME]);
    double sum = i == k ? mixed.white : 0.0;
    for (int n = 0; n < BRAKE_NOISE_TIMES; n++)
        sum += mixed.carried[n] * exp(-apart / times[n]);
    return sum;
}

static void a_row_has_all_variances(void **state)
{
    (void)state;
    assert_near(brake_noise_of_row(&mixed), sqrt(0.3 + 0.2 + 0.5 + 0.7 + 1.1), ROUNDING);
}

static void a_sum_of_rows_has_the_variance_of_the_whole_matrix(void **state)
{
    (void)state;
    struct brake_noise_sum sum = {.variance = 0.0};
    double weight[ROWS];
    double expected = 0.0;
    make_rows(0.05);
    for (int i = 0; i < ROWS; i++) {
        weight[i] = cos(1.0 + 2.0 * i);
        brake_noise_add(&mixed, row[i].value[BRAKE_LOG_TIME], weight[i], &sum);
    }
    for (int i = 0; i < ROWS; i++)
        for (int k = 0; k < ROWS; k++)
            expected += weight[i] * weight[k] * covariance_of(i, k);
    assert_near(sum.variance, expected, 1e-10);
}

/* A figure of a curve moves with each of its rows, the first and the last too. */
static void a_figure_of_a_curve_has_that_of_its_weights(void **state)
{
    (void)state;
    const double gradient[BRAKE_SMOOTH_TERMS] = {1.0, -0.5, 2.0, 0.25};
    double expected = 0.0;
    make_rows(0.05);
    for (int i = SPLIT; i < ROWS; i++)
        for (int k = SPLIT; k < ROWS; k++)
            expected += brake_smooth_weight(&curve[1], i, gradient) *
                        brake_smooth_weight(&curve[1], k, gradient) * covariance_of(i, k);
    assert_near(brake_noise_of_curve(&mixed, &curve[1], gradient), sqrt(expected), 1e-10);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_noise_of_a_log_is_that_of_whole_matrices),
        cmocka_unit_test(noise_goes_with_its_size),
        cmocka_unit_test(too_few_rows_tell_no_noise),
        cmocka_unit_test(a_row_has_all_variances),
        cmocka_unit_test(a_sum_of_rows_has_the_variance_of_the_whole_matrix),
        cmocka_unit_test(a_figure_of_a_curve_has_that_of_its_weights),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
