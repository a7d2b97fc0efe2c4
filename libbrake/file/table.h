/* SPDX-License-Identifier: MIT */
/* A table of numbers over time, as loggers and spreadsheets write it; private to this folder.
 *
 * A kind says which columns it may have: their names, what they measure, what is accepted. They
 * stand in any order, among others, which are left aside and told; between cells stands the one of
 * comma, semicolon and tab that gives the columns that are needed. Nothing is guessed: what can be
 * read in two ways is refused. */
#ifndef BRAKE_TABLE_H
#define BRAKE_TABLE_H

#include <stdbool.h>
#include <stdio.h>

#include "brake/catalogue.h"
#include "brake/log.h"

enum { BRAKE_TABLE_COLUMNS = 9 /* most of a kind */ };

struct brake_table_column {
    const char *name;
    enum brake_dimension dimension;
    const char *unit; /* in which the limits are told */
    double low, high; /* [SI] keeps out slips of unit */
    bool needed;      /* in the head */
    bool whole;       /* a row without it is left out */
};

/* The first column is the time, which must rise. */
struct brake_table_kind {
    const char *what;    /* "a log" */
    const char *example; /* of a head */
    const struct brake_table_column *column;
    int columns;
};

struct brake_read_table; /* one on its way in */

/* Reads the head. `units`: "time=s,speed=mph" for heads without a unit, NULL: none. `said`:
 * takes what comments say of the vehicle, NULL: nothing does. NULL: refused. */
struct brake_read_table *brake_table_open(FILE *stream, const struct brake_table_kind *kind,
                                          const char *units, struct brake_notes *notes,
                                          struct brake_said *said, struct brake_error *error);

bool brake_table_has(const struct brake_read_table *table, int column);

/* Reads the next row that counts, [SI], NaN where a cell is empty, and its line; 0: there is
 * none. */
enum brake_status brake_table_next(struct brake_read_table *table, double *value, int *line);

void brake_table_close(struct brake_read_table *table);

#endif
