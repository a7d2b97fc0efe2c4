/* SPDX-License-Identifier: MIT */
/* A value of an answer, and the one place where it becomes words; private to the library. */
#ifndef BRAKE_CELL_H
#define BRAKE_CELL_H

#include <stdbool.h>
#include <stddef.h>

#include "vehicle/trade.h"
#include "brake/document.h"
#include "brake/units.h"

enum brake_cell_kind {
    BRAKE_CELL_NOTHING, /* not known, or not to be said */
    BRAKE_CELL_NUMBER,
    BRAKE_CELL_TEXT,
    BRAKE_CELL_TRUTH,
    BRAKE_CELL_LIST, /* of numbers */
    BRAKE_CELL_IDS,  /* for programs: words without blanks, a blank between two */
    BRAKE_CELL_BLANK /* to be filled in by hand */
};

/* How a number is rounded for people. */
enum brake_form {
    BRAKE_FOUR_DIGITS,
    BRAKE_TWO_DIGITS,
    BRAKE_THREE_DIGITS,
    BRAKE_SIGNED, /* three digits and the sign: a difference */
    BRAKE_WHOLE,
    BRAKE_SIGNED_WHOLE,
    BRAKE_ONE_DECIMAL,
    BRAKE_TWO_DECIMALS,
    BRAKE_UPWARDS, /* four digits, rounded so that the number is on the far side of a limit */
    BRAKE_DOWNWARDS
};

struct brake_cell {
    enum brake_cell_kind kind;
    enum brake_form form;
    bool difference; /* of two values: a scale's zero does not count */
    bool ranged;     /* made with low and high, known or not */
    bool truth;
    bool quiet;                    /* first of a row that is for programs only */
    bool pairs;                    /* a list of them, (x, y); a list of x, y, x, y, ... */
    double number;                 /* SI */
    double low, high;              /* SI: 90 of 100 lie between; NaN: nothing is known of that */
    const struct brake_unit *unit; /* that of the SI trade; NULL: a plain number */
    const char *text;   /* or what people read for a list, or where the number is not finite */
    const char *before; /* people read it before the number: "at least"; NULL: nothing */
    const double *list; /* SI */
    int count;          /* of the list */
};

struct brake_cell brake_cell_nothing(void);
struct brake_cell brake_cell_blank(void);
struct brake_cell brake_cell_count(long long count);
struct brake_cell brake_cell_number(double value, const struct brake_unit *unit);
struct brake_cell brake_cell_form(double value, const struct brake_unit *unit,
                                  enum brake_form form);
struct brake_cell brake_cell_difference(double value, const struct brake_unit *unit);

/* With the range in which 90 of 100 lie: by its half width, or its ends. */
struct brake_cell brake_cell_within(double value, double half, const struct brake_unit *unit);
struct brake_cell brake_cell_between(double value, double low, double high,
                                     const struct brake_unit *unit);

/* A text, NULL: nothing; a truth; numbers of one unit. They stay the caller's until they are put
 * into a document, which copies them. */
struct brake_cell brake_cell_text(const char *text);
struct brake_cell brake_cell_ids(const char *ids);
struct brake_cell brake_cell_truth(bool truth);
struct brake_cell brake_cell_list(const double *list, int count, const struct brake_unit *unit);

/* The units that a cell is shown in, the first one leading. Returns how many, up to 2. */
int brake_cell_units(const struct brake_cell *cell, enum brake_systems systems,
                     const struct brake_unit *units[2]);

/* Name of a unit as people read it. */
const char *brake_unit_words(const struct brake_unit *unit);

/* A number of the cell in a unit: a difference has no zero of its own. */
double brake_cell_value(const struct brake_cell *cell, const struct brake_unit *unit, double value);

/* The cell in one unit; its name left out when bare. */
void brake_cell_in(const struct brake_cell *cell, const struct brake_unit *unit, bool bare,
                   char *text, size_t size);

/* The cell in all its units: "2.189 m/s2 (7.18 ft/s2, 0.223 g)". */
enum { BRAKE_CELL_WORDS = 240 };
void brake_cell_words(const struct brake_cell *cell, enum brake_systems systems, char *text,
                      size_t size);

/* The same, written into `room`; a text, which may be longer, is returned itself. */
const char *brake_cell_told(const struct brake_cell *cell, enum brake_systems systems,
                            char room[BRAKE_CELL_WORDS]);

/* A text with amounts of the SI trade, such as "81 bar of 97 bar", with them in the units of the
 * reader. A g alone is that of free fall. */
enum { BRAKE_TOLD = 4096 };
void brake_amounts_told(const char *text, enum brake_systems systems, char *told, size_t size);

/* A number with its units, in words. */
void brake_amount_words(double value, const struct brake_unit *unit, enum brake_systems systems,
                        char *text, size_t size);

#endif
