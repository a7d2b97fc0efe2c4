/* SPDX-License-Identifier: MIT */
/* One value on its way in; private to this folder. */
#ifndef BRAKE_FILE_READING_H
#define BRAKE_FILE_READING_H

#include "value.h"

struct reading {
    struct brake_sheet *sheet;
    struct brake_error *error;
    struct brake_source source;
    int index;
    const struct brake_quantity *quantity;
    char path[160];
    enum brake_from from;
    bool same; /* it says so: as before the change */
    bool told; /* `from` stands in the text */
    bool us;   /* a unit of the US trade does */
};

#define READING_REFUSE(r, status, ...)                                                             \
    brake_value_refuse((r)->error, status, (r)->source.line, (r)->path, __VA_ARGS__)

/* What a list of pistons looks like. */
#define READING_PISTONS                                                                            \
    "accepts number x diameter of ONE side, such as 2 x 48 mm, or 1 x 44 mm + 1 x 38 mm; 1 to 8 "  \
    "pistons"

/* The text behind its leading blanks. */
const char *reading_past_blanks(const char *text);

#endif
