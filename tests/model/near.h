/* SPDX-License-Identifier: MIT */
/* Checks on doubles and a repeatable source of cases, for the tests of the model. */
#ifndef TESTS_MODEL_NEAR_H
#define TESTS_MODEL_NEAR_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "brake/constants.h"

/* Relative error left by a few roundings in double. */
#define ROUNDING 1e-12

static inline void near_hold(double value, double expected, double error, const char *text,
                             const char *file, int line)
{
    /* Equality first: infinities are near themselves. */
    if (value == expected || fabs(value - expected) <= error)
        return;
    print_error("%s = %.17g, expected %.17g within %g\n", text, value, expected, error);
    _fail(file, line);
}

static inline void near_between(double value, double low, double high, const char *text,
                                const char *file, int line)
{
    if (value >= low && value <= high)
        return;
    print_error("%s = %.17g, expected %.17g to %.17g\n", text, value, low, high);
    _fail(file, line);
}

/* Within a relative error. */
#define assert_near(value, expected, relative)                                                     \
    near_hold((value), (expected), (relative)*fabs(expected), #value, __FILE__, __LINE__)
/* Within an error in the unit of the value. */
#define assert_within(value, expected, error)                                                      \
    near_hold((value), (expected), (error), #value, __FILE__, __LINE__)
#define assert_equal(value, expected)                                                              \
    near_hold((value), (expected), 0.0, #value, __FILE__, __LINE__)
#define assert_between(value, low, high)                                                           \
    near_between((value), (low), (high), #value, __FILE__, __LINE__)
#define assert_nan(value) assert_true(isnan(value))
#define assert_infinite(value) assert_equal((value), BRAKE_INFINITY)

/* Numbers that look random and are the same in every run (a linear congruential generator;
 * constants of Knuth's MMIX). */
struct cases {
    uint64_t state;
};

static inline double any_between(struct cases *cases, double low, double high)
{
    cases->state = cases->state * 6364136223846793005u + 1442695040888963407u;
    return low + (high - low) * (double)(cases->state >> 11) / 9007199254740992.0;
}

#endif
