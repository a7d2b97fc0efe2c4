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

static double falling(double x)
{
    return 0.5 - x;
}

/* A place is the end of its bracket that counts as got: at a point where the function is 0, that
 * point to the last digit. Of those that are as near as each other the first is the nearest. */
static void a_crossing_on_a_point_is_that_point(void **state)
{
    (void)state;
    find(falling, 0.0, 1.0);
    assert_int_equal(roots.count, 1);
    assert_false(roots.more);
    assert_equal(roots.root[0].x, 0.5);
    assert_equal(roots.nearest, 0.5);
    assert_false(roots.root[0].rises);
}

static double one(double x)
{
    (void)x;
    return 1.0;
}

static void of_what_is_as_near_the_first_is_the_nearest(void **state)
{
    (void)state;
    find(one, -2.0, 3.0);
    assert_int_equal(roots.count, 0);
    assert_equal(roots.nearest, -2.0);
    assert_equal(roots.shortest, 1.0);
}

static double edge_of; /* where that function meets zero */

static double straight(double x)
{
    return x - edge_of;
}

static double bowl(double x)
{
    return (x - edge_of) * (x - edge_of);
}

/* 512 stretches of 1/256 each between 0 and 2. */
static void what_happens_in_the_first_and_last_stretch_is_found(void **state)
{
    (void)state;
    static const double place[] = {0.3, 511.7};
    static const double turns[] = {1.2, 510.8};
    for (int i = 0; i < 2; i++) {
        edge_of = place[i] / 256.0;
        find(straight, 0.0, 2.0);
        assert_int_equal(roots.count, 1);
        assert_root(0, edge_of, BRAKE_CROSSING, true);
        edge_of = turns[i] / 256.0;
        find(bowl, 0.0, 2.0);
        assert_int_equal(roots.count, 1);
        assert_near(roots.root[0].x, edge_of, 1e-6);
        assert_int_equal(roots.root[0].kind, BRAKE_TOUCH);
    }
}

/* Nearer to the point on its left or on its right, just between two, or on one. */
static void a_touch_is_found_wherever_it_lies_between_points(void **state)
{
    (void)state;
    static const double place[] = {179.2, 179.8, 179.5, 180.0};
    for (int i = 0; i < 4; i++) {
        edge_of = place[i] / 256.0;
        find(bowl, 0.0, 2.0);
        assert_int_equal(roots.count, 1);
        assert_near(roots.root[0].x, edge_of, 1e-7);
        assert_true(roots.root[0].rises);
    }
    assert_equal(roots.root[0].x, 180.0 / 256.0);
}

static double depth; /* of the two dips below zero */

static double two_dips(double x)
{
    const double a = x - 3.3;
    const double b = x - 5.05;
    return a * a * b * b - depth;
}

/* Between 0 and 8, asked at every whole number; the dips are 0.01 / 1.75 to either side of where
 * they touch, to first order. */
static void two_dips_close_together_are_two(void **state)
{
    (void)state;
    static const double place[] = {3.3, 5.05};
    struct asked asked = {two_dips, 0};
    const struct brake_scan scan = {ask, &asked, 0.0, 8.0, 9, false, 0.0, NULL};
    depth = 0.0;
    brake_roots_find(&scan, NULL, &roots);
    assert_int_equal(roots.count, 2);
    for (int i = 0; i < 2; i++)
        assert_near(roots.root[i].x, place[i], 1e-7);
    depth = 1e-4;
    brake_roots_find(&scan, NULL, &roots);
    assert_int_equal(roots.count, 4);
    for (int i = 0; i < 4; i++) {
        const double side = i % 2 == 0 ? -0.01 : 0.01;
        assert_within(roots.root[i].x, place[i / 2] + side / 1.75, 1e-4);
        assert_int_equal(roots.root[i].kind, BRAKE_CROSSING);
        assert_int_equal(roots.root[i].rises, i % 2 == 1);
    }
}

static double leap; /* of the function, where it meets zero */

static double leaping(double x)
{
    return x - 0.3 + (x < 0.3 ? -0.5 : 0.5) * leap;
}

static double of_two(double x)
{
    return x <= 0.0 ? -0.5 : x >= 1.0 ? 0.5 : x < 0.3 ? -0.5 * leap : 0.5 * leap;
}

/* A millionth of what two neighbouring points differ by; in a scan of noisy values as much as the
 * noise. */
static void a_leap_of_less_is_a_crossing(void **state)
{
    (void)state;
    static const double part[] = {0.5e-6, 0.98e-6, 1.02e-6, 2e-6};
    for (int i = 0; i < 4; i++) {
        leap = part[i] / 512.0;
        find(leaping, 0.0, 1.0);
        assert_int_equal(roots.count, 1);
        assert_int_equal(roots.root[0].kind, i < 2 ? BRAKE_CROSSING : BRAKE_JUMP);
    }
    leap = 0x1p-10; /* of values that span 1 */
    struct asked asked = {of_two, 0};
    const struct brake_scan scan = {ask, &asked, 0.0, 1.0, 65, false, 0x1p-10, NULL};
    brake_roots_find(&scan, NULL, &roots);
    assert_int_equal(roots.root[0].kind, BRAKE_CROSSING);
    leap *= 1.001;
    brake_roots_find(&scan, NULL, &roots);
    assert_int_equal(roots.root[0].kind, BRAKE_JUMP);
}

static double off; /* from zero, of the nearest point */
static double times_as_large = 1.0;

static double cone(double x)
{
    return times_as_large * (fabs(x - 1.0) + off);
}

/* Within 1e-9 of the span of the values, which is 1 here, or 8. */
static void what_comes_near_enough_is_a_touch(void **state)
{
    (void)state;
    static const double near[] = {1e-9, 1.001e-9};
    for (int i = 0; i < 4; i++) {
        times_as_large = i < 2 ? 1.0 : 8.0;
        off = near[i % 2];
        find(cone, 0.0, 2.0);
        assert_int_equal(roots.count, i % 2 == 0 ? 1 : 0);
    }
}

static double ripple; /* of every other point */

static double rippled(double x)
{
    const long number = lround(512.0 * x);
    return times_as_large * (number == 0 ? 1.0 : number % 2 == 1 ? ripple : 0.0);
}

/* A turn by 1e-12 of the span of the values is noise: nothing is sought there. */
static void a_turn_of_no_more_than_noise_is_none(void **state)
{
    (void)state;
    static const double size[] = {1e-12, 1.01e-12};
    for (int i = 0; i < 4; i++) {
        struct asked asked = {rippled, 0};
        const struct brake_scan scan = {ask, &asked, 0.0, 1.0, BRAKE_SCAN_POINTS, false, 0.0, NULL};
        times_as_large = i < 2 ? 1.0 : 8.0;
        ripple = size[i % 2];
        brake_roots_find(&scan, NULL, &roots);
        assert_int_equal(asked.times > BRAKE_SCAN_POINTS, i % 2 == 1);
        assert_int_equal(roots.count > 0, i % 2 == 1);
    }
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
    assert_false(roots.more);
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

static double middle, reach;

static double around_the_place(double x)
{
    return (x - middle) * (x - middle) - reach * reach;
}

/* A dip to either side of the point nearest to it, near the first of the points and the last. */
static void two_crossings_are_found_wherever_they_lie_between_points(void **state)
{
    (void)state;
    struct asked asked = {around_the_place, 0};
    const struct brake_scan scan = {ask, &asked, 1.0, 2.0, 65, false, 0.0, NULL};
    reach = 1e-4;
    for (int i = 0; i < 10; i++) {
        middle = 1.0 + ((i < 5 ? 1.0 : 62.0) + 0.17 * (i % 5 + 1)) / 64.0;
        brake_roots_find(&scan, NULL, &roots);
        assert_int_equal(roots.count, 2);
        assert_root(0, middle - reach, BRAKE_CROSSING, false);
        assert_root(1, middle + reach, BRAKE_CROSSING, true);
    }
}

static double flat(double x)
{
    return fmax(0.0, fabs(x - middle) - reach);
}

/* Where it is nothing on all of half a stretch the first look into it ends it. */
static void what_touches_is_sought_no_further(void **state)
{
    (void)state;
    struct asked asked = {flat, 0};
    const struct brake_scan scan = {ask, &asked, 1.0, 2.0, 65, false, 0.0, NULL};
    middle = 1.0 + 62.5 / 64.0;
    reach = 0.25 / 64.0;
    brake_roots_find(&scan, NULL, &roots);
    assert_int_equal(roots.count, 1);
    assert_int_equal(roots.root[0].kind, BRAKE_TOUCH);
    assert_within(roots.root[0].x, middle, reach);
    assert_true(asked.times <= 65 + 2 * 2);
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

static double off_an_edge(double x)
{
    return x < edge_of ? 0.0 : -1.0;
}

/* Nothing counts as got: the place is the last before the fall. */
static void what_falls_away_from_nothing_is_left_where_it_is_nothing(void **state)
{
    (void)state;
    for (int i = 1; i < 10; i++) {
        edge_of = 0.1 * i;
        find(off_an_edge, 0.0, 1.0);
        assert_int_equal(roots.count, 1);
        assert_root(0, edge_of, BRAKE_JUMP, false);
    }
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

static double but_for_one(double x)
{
    return x == 0.5 ? BRAKE_NAN : 1.0;
}

static void a_point_without_a_value_is_no_crossing(void **state)
{
    (void)state;
    find(but_for_one, 0.0, 1.0);
    assert_int_equal(roots.count, 0);
    assert_int_equal(roots.known, BRAKE_SCAN_POINTS - 1);
    assert_int_equal(roots.stretches, 1);
    assert_true(roots.stretch[0].low == 0.5 && roots.stretch[0].high == 0.5);
}

static double of_every_second_tenth(double x)
{
    return fmod(10.0 * x, 2.0) < 0.99 ? BRAKE_NAN : 1.0;
}

/* From 0, 0.2 and so on to 0.1 further; of ten there is room for eight, of which the last goes to
 * the end of the tenth. */
static void stretches_are_told_one_by_one(void **state)
{
    (void)state;
    assert_int_equal(BRAKE_STRETCHES, 8);
    find(of_every_second_tenth, 0.0, 1.0);
    assert_int_equal(roots.stretches, 5 + 1); /* and the end itself */
    for (int i = 0; i < 5; i++) {
        assert_within(roots.stretch[i].low, 0.2 * i, 0.003);
        assert_within(roots.stretch[i].high, 0.2 * i + 0.1, 0.003);
    }
    find(of_every_second_tenth, 0.0, 1.99);
    assert_int_equal(roots.stretches, BRAKE_STRETCHES);
    assert_within(roots.stretch[7].low, 1.4, 0.006);
    assert_within(roots.stretch[7].high, 1.9, 0.006);
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

/* Whatever is between them. */
static void the_ends_are_those_that_were_given(void **state)
{
    (void)state;
    for (int i = 1; i < 100; i++) {
        const double low = i / 7.0;
        const double high = 7.0 * i / 3.0;
        for (int by_ratio = 0; by_ratio < 2; by_ratio++) {
            const struct brake_scan scan = {ask, NULL, low, high, 33, by_ratio == 1, 0.0, NULL};
            assert_equal(brake_scan_at(&scan, 0), low);
            assert_equal(brake_scan_at(&scan, 32), high);
        }
    }
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
    find(many, 0.01, (BRAKE_ROOTS + 0.5) * BRAKE_PI / 50.0);
    assert_int_equal(roots.count, BRAKE_ROOTS);
    assert_false(roots.more);
}

/* 256 stretches of 1/128 each: 0 lies between two points. */
static double small(double x)
{
    return x + 0x1p-60;
}

/* Nor at a place that is next to nothing, where no digit of it would ever be the last. */
static void a_place_next_to_nothing_is_found_as_quickly(void **state)
{
    (void)state;
    static const double low[] = {-1.0, -3.0};
    for (int i = 0; i < 2; i++) {
        struct asked asked = {small, 0};
        const struct brake_scan scan = {ask, &asked, low[i], 1.0, 256, false, 0.0, NULL};
        brake_roots_find(&scan, NULL, &roots);
        assert_int_equal(roots.count, 1);
        assert_within(roots.root[0].x, 0.0, 1e-15);
        assert_true(asked.times < 256 + 15);
    }
}

/* Of a range of a ten-thousandth, as of a large one. */
static double tiny_cubic(double x)
{
    return cubic(1e4 * x);
}

static void a_place_is_as_sure_in_a_small_range(void **state)
{
    (void)state;
    find(tiny_cubic, -3e-4, 10e-4);
    assert_int_equal(roots.count, 1);
    assert_root(0, 1e-4 * cbrt(2.0), BRAKE_CROSSING, true);
}

static void nothing_is_asked_often(void **state)
{
    (void)state;
    struct asked asked = {cubic, 0};
    const struct brake_scan scan = {ask, &asked, -3.0, 10.0, 101, false, 0.0, NULL};
    brake_roots_find(&scan, NULL, &roots);
    assert_true(asked.times < 101 + 15); /* halving alone would take some 45 */
}

/* A straight line worked out in steps of a thousandth of it. */
static double stepped(double x)
{
    return times_as_large * (floor(1000.0 * x + 0.5) / 1000.0 - 0.50025);
}

static void leaps_that_are_noise_are_crossed(void **state)
{
    (void)state;
    struct asked asked = {stepped, 0};
    struct brake_scan scan = {ask, &asked, 0.0, 1.0, 65, false, 0.0, NULL};
    times_as_large = 8.0;
    brake_roots_find(&scan, NULL, &roots);
    assert_root(0, 0.5005, BRAKE_JUMP, true);
    scan.noise = 2e-3;
    brake_roots_find(&scan, NULL, &roots);
    assert_root(0, 0.5005, BRAKE_CROSSING, true);
    scan.noise = 5e-4;
    brake_roots_find(&scan, NULL, &roots);
    assert_root(0, 0.5005, BRAKE_JUMP, true);
}

static void ask_many(void *context, const double *x, int count, double *value)
{
    assert_in_range(count, 1, 64);
    for (int i = 0; i < count; i++)
        value[i] = ask(context, x[i]);
}

static void told_each_64(void *context, double done, double total)
{
    int *told = context;
    assert_true(done == fmin(64.0 * ++*told, total));
    assert_true(total == (double)BRAKE_SCAN_POINTS);
}

/* Number by number: what lies between them in memory is nobody's. */
static void assert_same(const struct brake_roots *one, const struct brake_roots *other)
{
    assert_int_equal(one->count, other->count);
    for (int i = 0; i < one->count; i++) {
        assert_true(one->root[i].x == other->root[i].x);
        assert_int_equal(one->root[i].kind, other->root[i].kind);
        assert_int_equal(one->root[i].rises, other->root[i].rises);
    }
    assert_int_equal(one->stretches, other->stretches);
    assert_memory_equal(one->stretch, other->stretch,
                        (size_t)one->stretches * sizeof one->stretch[0]);
    assert_true(one->more == other->more && one->stopped == other->stopped);
    assert_true(one->known == other->known && one->finite == other->finite);
    assert_true(one->least == other->least && one->most == other->most);
    assert_true(one->nearest == other->nearest && one->shortest == other->shortest);
}

/* As one by one, to the last bit. */
static void points_may_be_asked_at_64_at_a_time(void **state)
{
    (void)state;
    struct asked asked = {cubic, 0};
    int told = 0;
    const struct brake_scan one_by_one = {ask,   &asked, -3.0, 10.0, BRAKE_SCAN_POINTS,
                                          false, 0.0,    NULL};
    struct brake_scan many_at_once = one_by_one;
    const struct brake_watch watch = {told_each_64, &told, NULL};
    struct brake_roots first;
    brake_roots_find(&one_by_one, NULL, &first);
    many_at_once.values = ask_many;
    const int times = asked.times;
    brake_roots_find(&many_at_once, &watch, &roots);
    assert_same(&first, &roots);
    assert_int_equal(first.count, 1);
    assert_int_equal(asked.times, 2 * times);
    assert_int_equal(told, 9);
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
        cmocka_unit_test(a_crossing_on_a_point_is_that_point),
        cmocka_unit_test(of_what_is_as_near_the_first_is_the_nearest),
        cmocka_unit_test(what_happens_in_the_first_and_last_stretch_is_found),
        cmocka_unit_test(a_touch_is_found_wherever_it_lies_between_points),
        cmocka_unit_test(two_dips_close_together_are_two),
        cmocka_unit_test(a_leap_of_less_is_a_crossing),
        cmocka_unit_test(what_comes_near_enough_is_a_touch),
        cmocka_unit_test(a_turn_of_no_more_than_noise_is_none),
        cmocka_unit_test(a_touch_between_two_points_is_found),
        cmocka_unit_test(a_touch_on_a_point_is_one),
        cmocka_unit_test(what_only_comes_near_is_no_touch),
        cmocka_unit_test(two_crossings_between_neighbouring_points_are_found),
        cmocka_unit_test(two_crossings_are_found_wherever_they_lie_between_points),
        cmocka_unit_test(what_touches_is_sought_no_further),
        cmocka_unit_test(leaping_over_zero_is_told_from_crossing_it),
        cmocka_unit_test(what_falls_away_from_nothing_is_left_where_it_is_nothing),
        cmocka_unit_test(a_stretch_without_values_is_passed_over_and_told),
        cmocka_unit_test(without_any_value_nothing_is_known),
        cmocka_unit_test(a_point_without_a_value_is_no_crossing),
        cmocka_unit_test(stretches_are_told_one_by_one),
        cmocka_unit_test(infinite_values_hide_nothing),
        cmocka_unit_test(points_may_be_spaced_by_ratio),
        cmocka_unit_test(the_ends_are_those_that_were_given),
        cmocka_unit_test(more_than_there_is_room_for_is_told),
        cmocka_unit_test(a_place_next_to_nothing_is_found_as_quickly),
        cmocka_unit_test(a_place_is_as_sure_in_a_small_range),
        cmocka_unit_test(nothing_is_asked_often),
        cmocka_unit_test(leaps_that_are_noise_are_crossed),
        cmocka_unit_test(points_may_be_asked_at_64_at_a_time),
        cmocka_unit_test(a_watch_is_told_and_can_stop),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
