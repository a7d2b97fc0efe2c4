/* SPDX-License-Identifier: MIT */
#include "limits.h"

#include <math.h>

#include "text.h"

/* Four digits of a number, rounded by a function where that changes it. */
static double four_digits(double number, double (*toward)(double))
{
    if (number == 0.0 || !isfinite(number))
        return number;
    const double scale = pow(10.0, 3.0 - floor(log10(fabs(number))));
    const double digits = number * scale;
    const double near = round(digits);
    return (fabs(digits - near) < 1e-6 ? near : toward(digits)) / scale;
}

struct limits_words limits_words(const struct brake_unit *unit, double low, double high)
{
    struct limits_words words = {""};
    brake_text_format(words.text, sizeof words.text, "%.6g to %.6g%s%s",
                      four_digits(brake_unit_from_si(unit, low), ceil),
                      four_digits(brake_unit_from_si(unit, high), floor),
                      unit->name[0] != '\0' ? " " : "", unit->name);
    return words;
}
