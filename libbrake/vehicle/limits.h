/* SPDX-License-Identifier: MIT */
/* What a line accepts, in words; private to the library. */
#ifndef BRAKE_VEHICLE_LIMITS_H
#define BRAKE_VEHICLE_LIMITS_H

#include "brake/units.h"

struct limits_words {
    char text[80];
};

/* "6.3 to 27.55 in" of 0.16 to 0.7 m: four digits, rounded to the side that is accepted. */
struct limits_words limits_words(const struct brake_unit *unit, double low, double high);

#endif
