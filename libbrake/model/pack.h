/* SPDX-License-Identifier: MIT */
/* One number of several cases side by side: WIDTH doubles in the widest registers that there are.
 * What is written with them does in every lane what it does with WIDTH 1, a plain double, to the
 * bit: sums, products, quotients and roots are rounded one by one, and nothing is contracted.
 *
 * A source says WIDTH, and TARGET, the registers its functions may use, before it includes this or
 * what is made of it. */
#ifndef BRAKE_MODEL_PACK_H
#define BRAKE_MODEL_PACK_H

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

#if WIDTH > 2 && defined(__x86_64__)
#include <immintrin.h>
#endif

/* gcc contracts nothing in C11; clang does unless told. */
#ifdef __clang__
#pragma STDC FP_CONTRACT OFF
#endif

#ifndef TARGET
#define TARGET
#endif

#if WIDTH == 1

typedef double pack;
typedef bool mask; /* of lanes */
typedef uint64_t bits;

static inline pack all(double value)
{
    return value;
}

static inline double lane(const pack *from, int i)
{
    (void)i;
    return *from;
}

static inline void set_lane(pack *to, int i, double value)
{
    (void)i;
    *to = value;
}

static inline pack either(mask which, pack yes, pack no)
{
    return which ? yes : no;
}

static inline bool any(mask which)
{
    return which;
}

static inline mask other_than(mask which)
{
    return !which;
}

static inline bool holds(mask which, int i)
{
    (void)i;
    return which;
}

static inline void set_mask(mask *which, int i, bool it)
{
    (void)i;
    *which = it;
}

static inline pack root(pack x)
{
    return sqrt(x);
}

static inline bits bits_of(pack x)
{
    bits b;
    memcpy(&b, &x, sizeof b);
    return b;
}

static inline pack number_of(bits b)
{
    pack x;
    memcpy(&x, &b, sizeof x);
    return x;
}

#else

/* No pack crosses from one source to another. */
#pragma GCC diagnostic ignored "-Wpsabi"

typedef double pack __attribute__((vector_size(8 * WIDTH)));
typedef int64_t mask __attribute__((vector_size(8 * WIDTH)));
typedef uint64_t bits __attribute__((vector_size(8 * WIDTH)));

TARGET static inline pack all(double value)
{
    return value - (pack){0.0};
}

TARGET static inline double lane(const pack *from, int i)
{
    return (*from)[i];
}

TARGET static inline void set_lane(pack *to, int i, double value)
{
    (*to)[i] = value;
}

TARGET static inline pack either(mask which, pack yes, pack no)
{
    return (pack)((which & (mask)yes) | (~which & (mask)no));
}

TARGET static inline bool any(mask which)
{
#if WIDTH == 8 && defined(__x86_64__)
    return _mm512_test_epi64_mask((__m512i)which, (__m512i)which) != 0;
#elif WIDTH == 4 && defined(__x86_64__)
    return !_mm256_testz_si256((__m256i)which, (__m256i)which);
#else
    int64_t some = 0;
    for (int i = 0; i < WIDTH; i++)
        some |= which[i];
    return some != 0;
#endif
}

TARGET static inline mask other_than(mask which)
{
    return ~which;
}

TARGET static inline bool holds(mask which, int i)
{
    return which[i] != 0;
}

TARGET static inline void set_mask(mask *which, int i, bool it)
{
    (*which)[i] = it ? -1 : 0;
}

TARGET static inline pack root(pack x)
{
#if WIDTH == 8 && defined(__x86_64__)
    return (pack)_mm512_sqrt_pd((__m512d)x);
#elif WIDTH == 4 && defined(__x86_64__)
    return (pack)_mm256_sqrt_pd((__m256d)x);
#else
    pack r = x;
    for (int i = 0; i < WIDTH; i++)
        r[i] = sqrt(x[i]);
    return r;
#endif
}

TARGET static inline bits bits_of(pack x)
{
    return (bits)x;
}

TARGET static inline pack number_of(bits b)
{
    return (pack)b;
}

#endif

TARGET static inline pack lesser(pack a, pack b)
{
    return either(a < b, a, b);
}

TARGET static inline pack greater(pack a, pack b)
{
    return either(a > b, a, b);
}

TARGET static inline pack magnitude(pack x)
{
    return number_of(bits_of(x) & (UINT64_MAX >> 1));
}

#endif
