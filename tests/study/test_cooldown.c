/* SPDX-License-Identifier: MIT */
/* What a cool-down tells: least squares of its two numbers, on cooling that is known exactly. */
#include "../model/near.h"

#include "brake/constants.h"
#include "study/pair_fit.h"

enum { POINTS = 100, LOGS = 400 };

static const double AIR = 20.0;   /* degC */
static const double HOT = 300.0;  /* K over the air at first */
static const double SLOW = 900.0; /* [s] time constant at a factor of 1 */

static double time_of(int i)
{
    return 12.0 * i;
}

/* Newton's law of cooling of a lump: the excess falls by e in a time constant (Incropera and
 * DeWitt, Fundamentals of Heat and Mass Transfer, sec. 5.1, from memory). */
static bool newton(const void *context, const double pair[2], double *y)
{
    (void)context;
    for (int i = 0; i < POINTS; i++)
        y[i] = AIR + HOT * exp(pair[1]) * exp(-exp(pair[0]) * time_of(i) / SLOW);
    return true;
}

static bool nothing(const void *context, const double pair[2], double *y)
{
    (void)context, (void)pair;
    y[0] = BRAKE_NAN;
    return false;
}

/* A generator of its own, sums of twelve shares: normal, standard deviation 1. */
static double noise(unsigned *seed)
{
    double sum = -6.0;
    for (int i = 0; i < 12; i++) {
        *seed = *seed * 1664525U + 1013904223U;
        sum += (*seed >> 8) / 16777216.0;
    }
    return sum;
}

static struct brake_pair_fit start(void)
{
    return (struct brake_pair_fit){.pair = {log(0.65), 0.2}, .least = log(0.02), .most = log(2.0)};
}

static void an_exact_cool_down_gives_its_factor(void **state)
{
    (void)state;
    static const double factors[] = {0.1, 0.4, 0.65, 0.9, 1.5};
    for (size_t k = 0; k < sizeof factors / sizeof factors[0]; k++) {
        const double truth[2] = {log(factors[k]), 0.0};
        double measured[POINTS];
        struct brake_pair_fit fit = start();
        newton(NULL, truth, measured);
        assert_true(brake_pair_fit(newton, NULL, measured, POINTS, &fit));
        assert_near(exp(fit.pair[0]), factors[k], 1e-6);
        assert_near(exp(fit.pair[1]), 1.0, 1e-6);
        assert_true(fit.sigma < 1e-5);
    }
}

/* The standard deviation that each log claims against how its answer scatters over 400 logs: their
 * ratio is known to 1/sqrt(800), 3.5 %, and four of these are allowed. White noise, so that the
 * neighbours' likeness, 0 at least, adds a few percent. */
static void the_scatter_of_the_factor_is_the_one_that_is_claimed(void **state)
{
    (void)state;
    const double truth[2] = {log(0.7), 0.0};
    double clean[POINTS];
    double measured[POINTS];
    double claimed = 0.0;
    double squares = 0.0;
    unsigned seed = 5;
    newton(NULL, truth, clean);
    for (int log = 0; log < LOGS; log++) {
        struct brake_pair_fit fit = start();
        for (int i = 0; i < POINTS; i++)
            measured[i] = clean[i] + 3.0 * noise(&seed);
        assert_true(brake_pair_fit(newton, NULL, measured, POINTS, &fit));
        claimed += fit.sigma / LOGS;
        squares += (fit.pair[0] - truth[0]) * (fit.pair[0] - truth[0]) / LOGS;
    }
    assert_between(claimed / sqrt(squares), 0.86, 1.20);
}

/* What one reading carries into the next, e^-0.5 of it, makes (1 - r)/(1 + r) of them count. */
static void neighbours_that_are_alike_count_for_less(void **state)
{
    (void)state;
    const double truth[2] = {log(0.7), 0.0};
    const double carried = exp(-0.5);
    double measured[POINTS];
    double drift = 0.0;
    unsigned seed = 11;
    struct brake_pair_fit fit = start();
    newton(NULL, truth, measured);
    for (int i = 0; i < POINTS; i++) {
        drift = carried * drift + sqrt(1.0 - carried * carried) * noise(&seed);
        measured[i] += 3.0 * drift;
    }
    assert_true(brake_pair_fit(newton, NULL, measured, POINTS, &fit));
    assert_between(fit.likeness, 0.4, 0.8); /* 0.61, known to 0.08 by 100 readings */
    assert_near(brake_pair_counts(&fit, POINTS),
                POINTS * (1.0 - fit.likeness) / (1.0 + fit.likeness), ROUNDING);
}

static void a_factor_out_of_range_stays_at_its_end(void **state)
{
    (void)state;
    const double truth[2] = {log(5.0), 0.0};
    double measured[POINTS];
    struct brake_pair_fit fit = start();
    newton(NULL, truth, measured);
    (void)brake_pair_fit(newton, NULL, measured, POINTS, &fit);
    assert_near(exp(fit.pair[0]), 2.0, 1e-9);
    assert_false(brake_pair_fit(nothing, NULL, measured, POINTS, &fit));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_exact_cool_down_gives_its_factor),
        cmocka_unit_test(the_scatter_of_the_factor_is_the_one_that_is_claimed),
        cmocka_unit_test(neighbours_that_are_alike_count_for_less),
        cmocka_unit_test(a_factor_out_of_range_stays_at_its_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
