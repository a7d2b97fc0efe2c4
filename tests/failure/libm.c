/* SPDX-License-Identifier: MIT */
/* Preloaded: another C library, whose functions are off by the last bit, up or down. What is 0 or 1
 * is so in every one. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

static double other(double value)
{
    uint64_t bits;
    memcpy(&bits, &value, sizeof bits);
    if (value == 0.0 || value == 1.0 || !isfinite(value))
        return value;
    return nextafter(value, (bits >> 3 & 1) != 0 ? (double)INFINITY : -(double)INFINITY);
}

typedef double of_one(double x);
typedef double of_two(double x, double y);

/* A pointer to a function is no pointer to an object: copied as bytes, as POSIX has it. */
static of_one *one(const char *name)
{
    void *found = dlsym(RTLD_NEXT, name);
    of_one *function;
    memcpy(&function, &found, sizeof function);
    return function;
}

static of_two *two(const char *name)
{
    void *found = dlsym(RTLD_NEXT, name);
    of_two *function;
    memcpy(&function, &found, sizeof function);
    return function;
}

#define ONE(name)                                                                                  \
    double name(double x)                                                                          \
    {                                                                                              \
        return other(one(#name)(x));                                                               \
    }
#define TWO(name)                                                                                  \
    double name(double x, double y)                                                                \
    {                                                                                              \
        return other(two(#name)(x, y));                                                            \
    }

ONE(sin)
ONE(cos)
ONE(exp)
ONE(expm1)
ONE(log)
ONE(log10)
ONE(erfc)
ONE(asinh)
TWO(pow)
TWO(atan2)
TWO(hypot)

void sincos(double x, double *sine, double *cosine);
void sincos(double x, double *sine, double *cosine)
{
    *sine = sin(x);
    *cosine = cos(x);
}
