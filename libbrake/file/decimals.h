/* SPDX-License-Identifier: MIT */
/* Plain decimal numbers of a table that does not say whether a point or a comma is its decimal
 * mark; private to this folder. A mark before three digits may be one of thousands: a table must
 * show once that its marks are none. */
#ifndef BRAKE_DECIMALS_H
#define BRAKE_DECIMALS_H

#include <stdbool.h>

/* What the table has shown of its mark. */
struct brake_decimals {
    char mark;  /* NUL: not met yet */
    int line;   /* where it was met first */
    bool shown; /* that it is no mark of thousands */
};

enum brake_decimal {
    BRAKE_DECIMAL,
    BRAKE_DECIMAL_NONE,     /* is no plain number */
    BRAKE_DECIMAL_GROUPED,  /* has marks of thousands */
    BRAKE_DECIMAL_OTHERWISE /* has the other mark than numbers before it */
};

/* Reads a cell. */
enum brake_decimal brake_decimal_read(struct brake_decimals *decimals, const char *cell, int line,
                                      double *number);

#endif
