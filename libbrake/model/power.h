/* SPDX-License-Identifier: MIT */
/* Powers within 1 ulp, the same to the bit on every processor and by every compiler: C libraries
 * differ in theirs. For bases from 1e-300 to 1e300, 0, infinite and NaN ones, exponents from 1e-3
 * to 10; powers are held between 1e-300 and 1e300. */
#ifndef BRAKE_MODEL_POWER_H
#define BRAKE_MODEL_POWER_H

#include "brake/constants.h"
#include "pack.h"

/* ln 2 in two parts: products of the first with whole numbers up to 2048 are exact. */
#define LN2_HIGH 0x1.62e42fefa4000p-1
#define LN2_LOW (-0x1.8432a1b0e2634p-43)

/* Of a base: its logarithm is high + low. */
struct logarithm {
    pack base;
    pack high;
    pack low;
};

/* The upper 26 bits: products of two such are exact. */
TARGET static inline pack upper(pack x)
{
    return number_of(bits_of(x) & ~UINT64_C(0x7ffffff));
}

/* log(2^n m) = n ln 2 + log m, 1/sqrt 2 <= m < sqrt 2; log m = 2 (s + s^3/3 + s^5/5 ...) with s =
 * (m - 1)/(m + 1): within 0.172 the first left out, s^23/23, is 1e-19 of s. s is had in two
 * parts. */
TARGET static inline struct logarithm logarithm_of(pack base)
{
    const uint64_t lowest = UINT64_C(0x3fe6a09e667f3bcd); /* 1/sqrt 2 */
    const bits offset = bits_of(base) - lowest + (UINT64_C(1024) << 52);
    const bits exponent = offset >> 52;
    const pack n = number_of(exponent | UINT64_C(0x4330000000000000)) - (0x1p52 + 1024.0);
    const pack m = number_of(bits_of(base) - ((exponent - 1024) << 52));
    const pack f = m - 1.0;
    const pack per = 1.0 / (m + 1.0);
    const pack divisor = upper(m + 1.0);
    const pack s = f * per;
    const pack s_high = upper(s);
    const pack s_low = ((f - s_high * divisor) - s_high * (m - (divisor - 1.0))) * per;
    const pack z = s * s;
    const pack z2 = z * z;
    const pack z4 = z2 * z2;
    const pack first = (2.0 / 3.0 + z * (2.0 / 5.0)) + z2 * (2.0 / 7.0 + z * (2.0 / 9.0));
    const pack second = (2.0 / 11.0 + z * (2.0 / 13.0)) + z2 * (2.0 / 15.0 + z * (2.0 / 17.0));
    const pack series = first + z4 * (second + z4 * (2.0 / 19.0 + z * (2.0 / 21.0)));
    const pack whole = n * LN2_HIGH;
    const pack high = whole + 2.0 * s_high;
    const pack rest = 2.0 * s_high - (high - whole);
    return (struct logarithm){base, high, ((s * z * series + 2.0 * s_low) + n * LN2_LOW) + rest};
}

/* e^(high + low) = 2^k e^r, |r| <= ln 2 / 2; of the series of e^r the first left out, r^14/14!, is
 * 4e-18. */
TARGET static inline pack exponential_of(pack high, pack low)
{
    const double shift = 0x1.8p52; /* what is added to it is rounded to a whole number */
    const pack shifted = (high + low) * 1.4426950408889634 + shift;
    const pack k = shifted - shift;
    const pack major = high - k * LN2_HIGH;
    const pack minor = low - k * LN2_LOW;
    const pack r = major + minor;
    const pack left = (major - r) + minor;
    const pack r2 = r * r;
    const pack r4 = r2 * r2;
    const pack first = (0.5 + r * (1.0 / 6.0)) + r2 * (1.0 / 24.0 + r * (1.0 / 120.0));
    const pack second =
        (1.0 / 720.0 + r * (1.0 / 5040.0)) + r2 * (1.0 / 40320.0 + r * (1.0 / 362880.0));
    const pack third = (1.0 / 3628800.0 + r * (1.0 / 39916800.0)) +
                       r2 * (1.0 / 479001600.0 + r * (1.0 / 6227020800.0));
    const pack value = 1.0 + (r + (left + r2 * (first + r4 * (second + r4 * third))));
    return number_of(bits_of(value) + (bits_of(shifted) << 52));
}

TARGET static inline pack power_of(const struct logarithm *log, pack exponent)
{
    const pack most = all(690.0);
    const pack log_high = upper(log->high);
    const pack exponent_high = upper(exponent);
    const pack high = log_high * exponent_high;
    const pack low = (log->high - log_high) * exponent_high +
                     log->high * (exponent - exponent_high) + log->low * exponent;
    const pack value = exponential_of(greater(-most, lesser(most, high)), low);
    const pack base = log->base;
    return either((base > 0.0) & (base < BRAKE_INFINITY), value, base);
}

TARGET static inline pack power(pack base, pack exponent)
{
    const struct logarithm log = logarithm_of(base);
    return power_of(&log, exponent);
}

#endif
