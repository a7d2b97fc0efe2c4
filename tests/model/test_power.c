/* SPDX-License-Identifier: MIT */
/* Powers: within 1 ulp of powl of the C library, which is right to some 64 bits where long double
 * has as many; elsewhere the test has nothing to hold them against. */
#define WIDTH 1
#include "near.h"

#include <float.h>

#include "brake/convection.h"
#include "model/power.h"

static long double ulps_between(double found, double base, double exponent)
{
    const long double exact = powl((long double)base, (long double)exponent);
    const double rounded = (double)exact;
    const double ulp = nextafter(rounded, BRAKE_INFINITY) - rounded;
    return fabsl((long double)found - exact) / (long double)ulp;
}

static long double ulps_off(double base, double exponent)
{
    return ulps_between(power(base, exponent), base, exponent);
}

/* 0.83 is the most of 40,000 held against 160 bits by mpmath 1.2. */
static void powers_are_right_to_an_ulp(void **state)
{
    (void)state;
    static const double of_the_laws[] = {0.55, 0.67, 0.8, 1.3, 2.0 / 3.0};
    struct cases cases = {21};
    if (LDBL_MANT_DIG < 64)
        skip();
    for (int i = 0; i < 200000; i++) {
        const double base = exp(any_between(&cases, -5.0, 18.0));
        assert_true(ulps_off(base, of_the_laws[i % 5]) <= 1.0L);
        assert_true(ulps_off(any_between(&cases, 0.5, 2.0), of_the_laws[i % 5]) <= 1.0L);
        assert_true(ulps_off(base, any_between(&cases, 0.001, 3.0)) <= 1.0L);
        assert_true(ulps_off(exp(any_between(&cases, -600.0, 600.0)), 0.8) <= 1.0L);
    }
}

static void ends_of_the_range_are_their_own_powers(void **state)
{
    (void)state;
    assert_equal(power(0.0, 0.8), 0.0);
    assert_infinite(power(BRAKE_INFINITY, 0.8));
    assert_nan(power(BRAKE_NAN, 0.8));
    assert_equal(power(1.0, 0.55), 1.0);
    assert_between(power(1e-300, 10.0), 0.0, 1e-290);
    assert_between(power(1e300, 10.0), 1e290, BRAKE_INFINITY);
}

/* As the library was built: a surface that cools by a power of speed, and by nothing else. */
static void the_law_of_a_power_is_right_to_an_ulp(void **state)
{
    (void)state;
    struct cases cases = {22};
    struct brake_cooling cooling = {.law = BRAKE_COOLING_POWER, .factor = 1.0};
    if (LDBL_MANT_DIG < 64)
        skip();
    for (int i = 0; i < 200000; i++) {
        const double speed = exp(any_between(&cases, -5.0, 18.0));
        cooling.exponent = any_between(&cases, 0.001, 3.0);
        const double found = brake_cooling_coefficient(&cooling, speed, 300.0, BRAKE_ATMOSPHERE);
        assert_true(ulps_between(found, speed, cooling.exponent) <= 1.0L);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(powers_are_right_to_an_ulp),
        cmocka_unit_test(ends_of_the_range_are_their_own_powers),
        cmocka_unit_test(the_law_of_a_power_is_right_to_an_ulp),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
