/* SPDX-License-Identifier: MIT */
/* A number in words that reads back as itself. */
#include <float.h>
#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "brake/file.h"
#include "vehicle/text.h"
#include "number.h"

enum { FEWEST = 15, MOST = 17 /* digits: 15 always survive a double, 17 always hold one */ };
enum { POWERS = 28 /* powers of ten that 64 bits of mantissa hold exactly */ };

static const long double power[POWERS] = {1e0L,  1e1L,  1e2L,  1e3L,  1e4L,  1e5L,  1e6L,
                                          1e7L,  1e8L,  1e9L,  1e10L, 1e11L, 1e12L, 1e13L,
                                          1e14L, 1e15L, 1e16L, 1e17L, 1e18L, 1e19L, 1e20L,
                                          1e21L, 1e22L, 1e23L, 1e24L, 1e25L, 1e26L, 1e27L};

/* The long way, for what the short one leaves open. */
static int write_any(double number, char *text)
{
    int length = 0;
    for (int digits = FEWEST; digits <= MOST; digits++) {
        length = brake_text_format(text, BRAKE_NUMBER_SIZE, "%.*g", digits, number);
        double read;
        if (brake_text_number(text, (size_t)length, &read) && read == number)
            break;
    }
    return length;
}

/* How far digits / 10^places is from the number, over the distance to its neighbours: below half
 * they read back as it. */
static long double miss(uint64_t digits, int places, double number)
{
    const long double exact = (long double)number;
    const long double distance = exact - (long double)nextafter(number, 0.0);
    return fabsl((long double)digits / power[places] - exact) / distance;
}

/* Digits of a number between 1e-4 and 1e14 that read back as it. 0: left open, as the quotient lies
 * too near to half way for its own rounding, or the neighbours of a power of two are not alike. */
static uint64_t digits_of(double number, int before, int *places)
{
    int exponent;
    if (frexp(number, &exponent) == 0.5)
        return 0;
    for (int digits = FEWEST; digits <= MOST; digits++) {
        *places = digits - before;
        const uint64_t whole = (uint64_t)((long double)number * power[*places] + 0.5L);
        const long double off = miss(whole, *places, number);
        if (off < 0.501L)
            return off < 0.499L ? whole : 0;
    }
    return 0;
}

/* Digits with a point before the last `places` of them; zeros at the end are left out. */
static int write_fixed(uint64_t digits, int places, char *text)
{
    char backwards[BRAKE_NUMBER_SIZE] = "";
    int count = 0;
    int length = 0;
    for (; places > 0 && digits % 10 == 0; places--)
        digits /= 10;
    for (int at = 0; digits > 0 || at <= places; at++, digits /= 10) {
        if (at == places && at > 0)
            backwards[count++] = '.';
        backwards[count++] = (char)('0' + (int)(digits % 10));
    }
    while (count > 0)
        text[length++] = backwards[--count];
    text[length] = '\0';
    return length;
}

/* Not every machine that was built for has 64 bits of mantissa: an emulator may compute in 53. */
static bool mantissa_is_wide(void)
{
    const volatile long double one = 1.0L;
    return LDBL_MANT_DIG >= 64 && one + 0x1p-63L > one;
}

int brake_number_write(double number, char *text)
{
    const double size = fabs(number);
    int places = 0;
    uint64_t digits = 0;
    if (size >= 1e-4 && size < 1e14 && mantissa_is_wide())
        digits = digits_of(size, (int)floor(log10(size)) + 1, &places);
    if (digits == 0)
        return write_any(number, text);
    text[0] = '-';
    const int sign = number < 0.0;
    return sign + write_fixed(digits, places, text + sign);
}
