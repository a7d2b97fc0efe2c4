/* SPDX-License-Identifier: MIT */
/* Distributions: published values of the normal one, and what every shape must keep. */
#include <stdbool.h>

#include "../model/near.h"

#include "brake/distribution.h"
#include "study/distribution.h"
#include "study/replicates.h"

/* Wichura, Algorithm AS 241, Applied Statistics 37 (1988), the test values of PPND16. */
static void the_normal_value_is_that_of_its_source(void **state)
{
    (void)state;
    assert_near(brake_normal_value(0.25), -0.6744897501960817, 1e-15);
    assert_near(brake_normal_value(0.001), -3.090232306167814, 1e-15);
    assert_near(brake_normal_value(1e-20), -9.262340089798408, 1e-15);
    assert_equal(brake_normal_value(0.5), 0.0);
    assert_equal(brake_normal_value(0.0), -BRAKE_INFINITY);
    assert_equal(brake_normal_value(1.0), BRAKE_INFINITY);
    assert_nan(brake_normal_value(-0.1));
    assert_nan(brake_normal_value(1.1));
}

/* The share below the value of a share is that share, by erfc of the C library; far out it moves
 * with the value's square. */
static void value_and_share_undo_each_other(void **state)
{
    (void)state;
    for (double share = 0.002; share < 1.0; share += 0.0031)
        assert_near(brake_normal_share(brake_normal_value(share)), share, 1e-14);
    for (double share = 1e-3; share > 1e-300; share *= 0.037)
        assert_near(brake_normal_share(brake_normal_value(share)), share, 2e-12);
    for (double share = 1e-3; share > 1e-12; share *= 0.37)
        assert_near(1.0 - brake_normal_share(brake_normal_value(1.0 - share)), share, 1e-3);
}

static double at(const struct brake_distribution *distribution, double share)
{
    return brake_distribution_value(distribution, share);
}

/* brake/distribution.h: 95 of 100 lie within the tolerance: to either side of a lean its own. */
static void the_tolerance_holds_95_of_100(void **state)
{
    (void)state;
    for (int shape = 0; shape < BRAKE_SHAPES; shape++) {
        const struct brake_distribution even = brake_distribution_of(
            (enum brake_shape)shape, 10.0, 2.0, 0.0, -BRAKE_INFINITY, BRAKE_INFINITY);
        assert_near(at(&even, 0.025), 8.0, 1e-12);
        assert_near(at(&even, 0.5), 10.0, 1e-12);
        assert_near(at(&even, 0.975), 12.0, 1e-12);
        const struct brake_distribution leaning = brake_distribution_of(
            (enum brake_shape)shape, 10.0, 2.0, 0.25, -BRAKE_INFINITY, BRAKE_INFINITY);
        assert_near(at(&leaning, 0.025), 10.0 - 1.5, 1e-12);
        assert_near(at(&leaning, 0.5), 10.0, 1e-12);
        assert_near(at(&leaning, 0.975), 10.0 + 2.5, 1e-12);
    }
}

/* Uniform: straight. Triangular: the share below is half the square of the way from its end. */
static void shapes_are_what_their_words_say(void **state)
{
    (void)state;
    const struct brake_distribution flat =
        brake_distribution_of(BRAKE_UNIFORM, 0.0, 0.95, 0.0, -BRAKE_INFINITY, BRAKE_INFINITY);
    const struct brake_distribution roof = brake_distribution_of(
        BRAKE_TRIANGULAR, 0.0, 1.0 - sqrt(0.05), 0.0, -BRAKE_INFINITY, BRAKE_INFINITY);
    for (double share = 0.0; share <= 0.5; share += 0.1) {
        assert_within(at(&flat, share), 2.0 * share - 1.0, 1e-12);
        assert_within(at(&roof, share), sqrt(2.0 * share) - 1.0, 1e-12);
        assert_within(at(&roof, 1.0 - share), 1.0 - sqrt(2.0 * share), 1e-12);
    }
    assert_within(at(&roof, 0.502), 1.0 - sqrt(2.0 * 0.498), 1e-12);
    assert_string_equal(brake_shape_word(BRAKE_NORMAL), "normal");
    assert_string_equal(brake_shape_word(BRAKE_UNIFORM), "uniform");
    assert_string_equal(brake_shape_word(BRAKE_TRIANGULAR), "triangular");
}

/* Cut at the ends of what a line accepts: what is left keeps its shape, so that a share of it is
 * (share under the value less that under the low end) over what lies between. */
static void what_a_line_does_not_accept_is_cut_off(void **state)
{
    (void)state;
    for (int shape = 0; shape < BRAKE_SHAPES; shape++) {
        const struct brake_distribution whole = brake_distribution_of(
            (enum brake_shape)shape, 10.0, 2.0, 0.0, -BRAKE_INFINITY, BRAKE_INFINITY);
        const double low = at(&whole, 0.1);
        const double high = at(&whole, 0.8);
        const struct brake_distribution cut =
            brake_distribution_of((enum brake_shape)shape, 10.0, 2.0, 0.0, low, high);
        assert_near(at(&cut, 0.0), low, 1e-12);
        assert_near(at(&cut, 1.0), high, 1e-12);
        assert_near(at(&cut, 0.3), at(&whole, 0.1 + 0.3 * 0.7), 1e-12);
        /* leaning, its upper half is 5/3 as wide, and cut within it by its own width */
        const struct brake_distribution leaning = brake_distribution_of(
            (enum brake_shape)shape, 10.0, 2.0, 0.25, -BRAKE_INFINITY, BRAKE_INFINITY);
        const double end = at(&leaning, 0.6);
        const struct brake_distribution one_side =
            brake_distribution_of((enum brake_shape)shape, 10.0, 2.0, 0.25, -BRAKE_INFINITY, end);
        assert_true(end > 10.0 && end < 11.0);
        assert_near(at(&one_side, 1.0), end, 1e-12);
        assert_near(at(&one_side, 0.5), at(&leaning, 0.3), 1e-12);
        /* a middle past the end stays: half of it is left */
        const struct brake_distribution half =
            brake_distribution_of((enum brake_shape)shape, 10.0, 2.0, 0.0, 11.0, BRAKE_INFINITY);
        assert_near(at(&half, 0.0), 10.0, 1e-12);
    }
}

/* Half width of the mean of 16 estimates: Student's t of 15 degrees of freedom, 2.131 (Abramowitz
 * and Stegun, table 26.10), of which the standard deviation of 1 to 16 is sqrt(68/3). */
static void the_error_of_a_mean_of_replicates(void **state)
{
    (void)state;
    double estimate[BRAKE_REPLICATES];
    assert_int_equal(BRAKE_REPLICATES, 16);
    for (int i = 0; i < BRAKE_REPLICATES; i++)
        estimate[i] = 1.0 + i;
    assert_near(replicates_error(estimate), 2.131 * sqrt(68.0 / 3.0) / 4.0, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_normal_value_is_that_of_its_source),
        cmocka_unit_test(value_and_share_undo_each_other),
        cmocka_unit_test(the_tolerance_holds_95_of_100),
        cmocka_unit_test(shapes_are_what_their_words_say),
        cmocka_unit_test(what_a_line_does_not_accept_is_cut_off),
        cmocka_unit_test(the_error_of_a_mean_of_replicates),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
