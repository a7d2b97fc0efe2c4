/* SPDX-License-Identifier: MIT */
/* Percentiles of samples. */

#include "../model/near.h"

#include "study/percentile.h"

static void samples_rise_and_those_without_a_value_come_last_and_are_not_counted(void **state)
{
    double value[] = {3.0, BRAKE_NAN, -BRAKE_INFINITY, 1.0, 2.0};
    (void)state;
    assert_int_equal(percentile_sort(value, 5), 4);
    assert_equal(value[0], -BRAKE_INFINITY);
    for (int i = 1; i < 4; i++)
        assert_equal(value[i], i);
    assert_nan(value[4]);
}

/* In whatever order they come: 7 numbers, some twice, among 5 that are none. */
static void any_order_is_put_in_order(void **state)
{
    enum { KNOWN = 7, ALL = 12 };
    struct cases cases = {5};
    (void)state;
    for (int round = 0; round < 500; round++) {
        double value[ALL];
        for (int i = 0; i < ALL; i++)
            value[i] = i < KNOWN ? i / 2 : BRAKE_NAN;
        for (int i = ALL - 1; i > 0; i--) {
            const int other = (int)any_between(&cases, 0.0, i + 0.999);
            const double own = value[i];
            value[i] = value[other];
            value[other] = own;
        }
        assert_int_equal(percentile_sort(value, ALL), KNOWN);
        for (int i = 0; i < KNOWN; i++)
            assert_equal(value[i], i / 2);
        for (int i = KNOWN; i < ALL; i++)
            assert_nan(value[i]);
    }
}

/* At place (n - 1) p of the sorted values, counted from 0, and on a straight line between two:
 * R. J. Hyndman and Y. Fan, Sample Quantiles in Statistical Packages, Am. Stat. 50 (1996),
 * definition 7, from memory; the numbers by hand. */
static void percentiles_are_of_type_7(void **state)
{
    static const double value[] = {1.0, 2.0, 4.0, 8.0};
    static const double expected[][2] = {
        {0.0, 1.0}, {0.25, 1.75}, {0.5, 3.0}, {0.75, 5.0}, {1.0, 8.0}};
    (void)state;
    for (int i = 0; i < 5; i++)
        assert_equal(percentile_at(value, 4, expected[i][0]), expected[i][1]);
    assert_equal(percentile_at(value, 1, 0.95), 1.0);
    assert_nan(percentile_at(value, 0, 0.95));
}

static void between_two_values_without_limit_is_no_limit_either(void **state)
{
    static const double value[] = {BRAKE_INFINITY, BRAKE_INFINITY};
    (void)state;
    assert_infinite(percentile_at(value, 2, 0.5));
}

/* At the place of a value that value alone counts, whatever stands behind it. */
static void what_stands_behind_a_place_is_not_looked_at(void **state)
{
    static const double value[] = {1.0, 2.0, BRAKE_INFINITY, BRAKE_NAN};
    (void)state;
    assert_equal(percentile_at(value, 2, 1.0), 2.0);
    assert_equal(percentile_at(value, 3, 0.5), 2.0);
    assert_infinite(percentile_at(value, 3, 1.0));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(samples_rise_and_those_without_a_value_come_last_and_are_not_counted),
        cmocka_unit_test(any_order_is_put_in_order),
        cmocka_unit_test(percentiles_are_of_type_7),
        cmocka_unit_test(between_two_values_without_limit_is_no_limit_either),
        cmocka_unit_test(what_stands_behind_a_place_is_not_looked_at),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
