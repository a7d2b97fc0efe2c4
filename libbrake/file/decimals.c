/* SPDX-License-Identifier: MIT */
#include "decimals.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "vehicle/text.h"

enum { NUMBER_BYTES = 60 /* most of a number */ };

static bool is_mark(char letter)
{
    return letter == '.' || letter == ',';
}

static bool is_digit(char letter)
{
    return letter >= '0' && letter <= '9';
}

/* Number of a plain decimal; false when the text is anything else. Up to 15 digits and 10^22 the
 * quotient of two exact numbers is the nearest one, and much quicker than the long way. */
static bool quick_number(const char *text, double *number)
{
    static const double power[] = {1e0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                   1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
    const bool minus = *text == '-';
    const char *at = text + (minus ? 1 : 0);
    long long digits = 0;
    int count = 0;
    int decimals = 0;
    bool marked = false;
    for (; is_digit(*at) || (is_mark(*at) && !marked); at++) {
        if (is_mark(*at)) {
            marked = true;
            continue;
        }
        digits = digits * 10 + (*at - '0');
        decimals += marked;
        if (++count > 15)
            return false;
    }
    *number = (minus ? -1.0 : 1.0) * (double)digits / power[decimals];
    return *at == '\0' && count > 0;
}

/* With an exponent or more digits. */
static bool long_number(const char *text, double *number)
{
    char plain[NUMBER_BYTES + 1];
    const size_t length = strlen(text);
    if (length > NUMBER_BYTES)
        return false;
    memcpy(plain, text, length + 1);
    char *comma = strchr(plain, ',');
    if (comma != NULL)
        *comma = '.';
    return brake_text_number(plain, length, number) && isfinite(*number);
}

/* Whether a mark can only be a decimal one: not one to three digits that do not begin with 0, then
 * three. */
static bool shows(const char *cell, const char *mark)
{
    const char *first = cell + (*cell == '-' || *cell == '+');
    int behind = 0;
    while (is_digit(mark[1 + behind]))
        behind++;
    return mark == first || mark - first > 3 || *first == '0' || behind != 3 ||
           mark[1 + behind] != '\0';
}

enum brake_decimal brake_decimal_read(struct brake_decimals *d, const char *cell, int line,
                                      double *number)
{
    const char *mark = cell;
    while (*mark != '\0' && !is_mark(*mark))
        mark++;
    if (!quick_number(cell, number) && !long_number(cell, number)) {
        const bool again = *mark != '\0' && strpbrk(mark + 1, ".,") != NULL;
        return again && strspn(cell, "+-0123456789.,") == strlen(cell) ? BRAKE_DECIMAL_GROUPED
                                                                       : BRAKE_DECIMAL_NONE;
    }
    if (*mark == '\0')
        return BRAKE_DECIMAL;
    if (d->mark == '\0') {
        d->mark = *mark;
        d->line = line;
    }
    d->shown = d->shown || shows(cell, mark);
    return *mark == d->mark ? BRAKE_DECIMAL : BRAKE_DECIMAL_OTHERWISE;
}
