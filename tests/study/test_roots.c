/* SPDX-License-Identifier: MIT */
/* Where plain functions meet zero; every expected place is a closed form. */
#include "../model/near.h"

#include "brake/roots.h"
#include "study/scan.h"

struct asked {
    double (*f)(double x);
    int times;
};

static double ask(void *context, double x)
{
    struct asked *asked = context;
    asked->times++;
    return asked->f(x);
}

static struct brake_roots roots;

/* Every place lies on the side of zero that counts as got. */
static void find(double (*f)(double), double low, double high)
{
    struct asked asked = {f, 0};
    const struct brake_scan scan = {ask, &asked, low, high, BRAKE_SCAN_POINTS, false, 0.0, NULL};
    brake_roots_find(&scan, NULL, &roots);
    for (int i = 0; i < roots.count; i++)
        assert_true(roots.root[i].kind == BRAKE_TOUCH || f(roots.root[i].x) >= 0.0);
}

static void assert_root(int i, double x, enum brake_root_kind kind, bool rises)
{
    assert_true(i < roots.count);
    assert_near(roots.root[i].x, x, 1e-13);
    assert_int_equal(roots.root[i].kind, kind);
    assert_int_equal(roots.root[i].rises, rises);
}

static double cubic(double x)
{
    return x * x * x - 2.0;
}

static void a_monotone_function_crosses_once(void **state)
{
    (void)state;
    find(cubic, -3.0, 10.0);
    assert_int_equal(roots.count, 1);
    assert_root(0, cbrt(2.0), BRAKE_CROSSING, true);
    assert_int_equal(roots.known, BRAKE_SCAN_POINTS);
    assert_near(roots.least, -29.0, ROUNDING);
    assert_near(roots.most, 998.0, ROUNDING);
}

static double parabola(double x)
{
    return 2.0 - x * x;
}

static void both_crossings_of_a_parabola_are_found(void **state)
{
    (void)state;
    find(parabola, -3.0, 3.1);
    assert_int_equal(roots.count, 2);
    assert_root(0, -sqrt(2.0), BRAKE_CROSSING, true);
    assert_root(1, sqrt(2.0), BRAKE_CROSSING, false);
}

static void all_crossings_of_a_cosine_are_found(void **state)
{
    (void)state;
    find(cos, 0.0, 60.0);
    assert_int_equal(roots.count, 19);
    for (int i = 0; i < roots.count; i++)
        assert_root(i, (i + 0.5) * BRAKE_PI, BRAKE_CROSSING, i % 2 == 1);
}

static double from_above(double x)
{
    return (x - 0.7) * (x - 0.7);
}

static double from_below(double x)
{
    return -fabs(x - 0.7);
}

static double on_a_point(double x)
{
    return -(x - 1.0) * (x - 1.0); /* the middle of 0 to 2 is a point */
}

static void a_touch_between_two_points_is_found(void **state)
{
    (void)state;
    find(from_above, 0.0, 2.0);
    assert_int_equal(roots.count, 1);
    assert_near(roots.root[0].x, 0.7, 1e-7); /* half the digits: the function is flat there */
    assert_int_equal(roots.root[0].kind, BRAKE_TOUCH);
    assert_true(roots.root[0].rises);
    find(from_below, 0.0, 2.0);
    assert_int_equal(roots.count, 1);
    assert_near(roots.root[0].x, 0.7, 1e-9);
    assert_int_equal(roots.root[0].kind, BRAKE_TOUCH);
    assert_false(roots.root[0].rises);
}

static void a_touch_on_a_point_is_one(void **state)
{
    (void)state;
    find(on_a_point, 0.0, 2.0);
    assert_int_equal(roots.count, 1);
    assert_root(0, 1.0, BRAKE_TOUCH, false);
}

static double missed(double x)
{
    return from_above(x) + 1e-4;
}

static void what_only_comes_near_is_no_touch(void **state)
{
    (void)state;
    find(missed, 0.0, 2.0);
    assert_int_equal(roots.count, 0);
    assert_near(roots.nearest, 0.7, 1e-6);
    assert_near(roots.shortest, 1e-4, 1e-9);
}

static double dip(double x)
{
    return from_above(x) - 1e-8; /* 0.0002 wide; points are 0.0039 apart */
}

static void two_crossings_between_neighbouring_points_are_found(void **state)
{
    (void)state;
    find(dip, 0.0, 2.0);
    assert_int_equal(roots.count, 2);
    assert_near(roots.root[0].x, 0.7 - 1e-4, 1e-11);
    assert_near(roots.root[1].x, 0.7 + 1e-4, 1e-11);
    assert_false(roots.root[0].rises);
    assert_true(roots.root[1].rises);
}

static double step(double x)
{
    return x < 0.3 ? -1.0 - x : 0.01 + x;
}

static double pole(double x)
{
    return 1.0 / (x - 0.3);
}

static void leaping_over_zero_is_told_from_crossing_it(void **state)
{
    (void)state;
    find(step, 0.0, 1.0);
    assert_int_equal(roots.count, 1);
    assert_root(0, 0.3, BRAKE_JUMP, true);
    find(pole, 0.0, 1.0);
    assert_int_equal(roots.count, 1);
    assert_near(roots.root[0].x, 0.3, 1e-12);
    assert_int_equal(roots.root[0].kind, BRAKE_JUMP);
}

static double half(double x)
{
    return sqrt(x) - 0.5; /* NaN below 0 */
}

static void a_stretch_without_values_is_passed_over_and_told(void **state)
{
    (void)state;
    find(half, -1.0, 1.0);
    assert_int_equal(roots.count, 1);
    assert_root(0, 0.25, BRAKE_CROSSING, true);
    assert_int_equal(roots.stretches, 1);
    assert_near(roots.stretch[0].low, -1.0, ROUNDING);
    assert_near(roots.stretch[0].high, -1.0 / 256.0, ROUNDING); /* the last point below 0 */
    assert_int_equal(roots.known, 257);
}

static double nothing(double x)
{
    (void)x;
    return BRAKE_NAN;
}

static void without_any_value_nothing_is_known(void **state)
{
    (void)state;
    find(nothing, 0.0, 1.0);
    assert_int_equal(roots.count, 0);
    assert_int_equal(roots.known, 0);
    assert_int_equal(roots.stretches, 1);
    assert_true(isnan(roots.nearest));
}

static double endless(double x)
{
    return x < 0.2 ? HUGE_VAL : from_above(x); /* still touches at 0.7 */
}

static void infinite_values_hide_nothing(void **state)
{
    (void)state;
    find(endless, 0.0, 2.0);
    assert_int_equal(roots.count, 1);
    assert_near(roots.root[0].x, 0.7, 1e-7);
    assert_int_equal(roots.known, BRAKE_SCAN_POINTS);
    assert_true(roots.finite < roots.known);
}

static double decades(double x)
{
    return log10(x) + 4.0;
}

static void points_may_be_spaced_by_ratio(void **state)
{
    (void)state;
    struct asked asked = {decades, 0};
    const struct brake_scan scan = {ask, &asked, 1e-6, 1e6, 7, true, 0.0, NULL};
    for (int i = 0; i < 7; i++)
        assert_near(brake_scan_at(&scan, i), pow(100.0, i - 3), 1e-12);
    brake_roots_find(&scan, NULL, &roots);
    assert_int_equal(roots.count, 1);
    assert_near(roots.root[0].x, 1e-4, 1e-8); /* 1e-16 of the range */
}

static double many(double x)
{
    return sin(50.0 * x);
}

static void more_than_there_is_room_for_is_told(void **state)
{
    (void)state;
    find(many, 0.01, 2.0 * BRAKE_PI);
    assert_int_equal(roots.count, BRAKE_ROOTS);
    assert_true(roots.more);
    assert_near(roots.root[BRAKE_ROOTS - 1].x, (double)BRAKE_ROOTS * BRAKE_PI / 50.0, 1e-12);
}

static void nothing_is_asked_often(void **state)
{
    (void)state;
    struct asked asked = {cubic, 0};
    const struct brake_scan scan = {ask, &asked, -3.0, 10.0, 101, false, 0.0, NULL};
    brake_roots_find(&scan, NULL, &roots);
    assert_true(asked.times < 101 + 15); /* halving alone would take some 45 */
}

/* A straight line worked out in steps of a thousandth. */
static double stepped(double x)
{
    return floor(1000.0 * x + 0.5) / 1000.0 - 0.50025;
}

static void leaps_that_are_noise_are_crossed(void **state)
{
    (void)state;
    struct asked asked = {stepped, 0};
    struct brake_scan scan = {ask, &asked, 0.0, 1.0, 65, false, 0.0, NULL};
    brake_roots_find(&scan, NULL, &roots);
    assert_root(0, 0.5005, BRAKE_JUMP, true);
    scan.noise = 2e-3;
    brake_roots_find(&scan, NULL, &roots);
    assert_root(0, 0.5005, BRAKE_CROSSING, true);
    scan.noise = 5e-4;
    brake_roots_find(&scan, NULL, &roots);
    assert_root(0, 0.5005, BRAKE_JUMP, true);
}

static void count_progress(void *context, double done, double total)
{
    int *told = context;
    assert_true(done == ++*told);
    assert_true(total == (double)BRAKE_SCAN_POINTS);
}

static void a_watch_is_told_and_can_stop(void **state)
{
    (void)state;
    int told = 0;
    volatile sig_atomic_t stop = 0;
    struct asked asked = {cubic, 0};
    const struct brake_scan scan = {ask, &asked, -3.0, 10.0, BRAKE_SCAN_POINTS, false, 0.0, NULL};
    const struct brake_watch watch = {count_progress, &told, &stop};
    brake_roots_find(&scan, &watch, &roots);
    assert_int_equal(told, BRAKE_SCAN_POINTS);
    assert_false(roots.stopped);
    stop = 1;
    told = 0;
    asked.times = 0;
    brake_roots_find(&scan, &watch, &roots);
    assert_true(roots.stopped);
    assert_int_equal(asked.times, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_monotone_function_crosses_once),
        cmocka_unit_test(both_crossings_of_a_parabola_are_found),
        cmocka_unit_test(all_crossings_of_a_cosine_are_found),
        cmocka_unit_test(a_touch_between_two_points_is_found),
        cmocka_unit_test(a_touch_on_a_point_is_one),
        cmocka_unit_test(what_only_comes_near_is_no_touch),
        cmocka_unit_test(two_crossings_between_neighbouring_points_are_found),
        cmocka_unit_test(leaping_over_zero_is_told_from_crossing_it),
        cmocka_unit_test(a_stretch_without_values_is_passed_over_and_told),
        cmocka_unit_test(without_any_value_nothing_is_known),
        cmocka_unit_test(infinite_values_hide_nothing),
        cmocka_unit_test(points_may_be_spaced_by_ratio),
        cmocka_unit_test(more_than_there_is_room_for_is_told),
        cmocka_unit_test(nothing_is_asked_often),
        cmocka_unit_test(leaps_that_are_noise_are_crossed),
        cmocka_unit_test(a_watch_is_told_and_can_stop),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
