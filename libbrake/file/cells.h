/* SPDX-License-Identifier: MIT */
/* Rows of cells, as loggers and spreadsheets write them; private to this folder.
 *
 * A row ends with LF, CR LF or CR. A cell in quotes holds separators and ends of lines as they are,
 * and a quote as two; one that does not begin with a quote holds quotes as they are. Blanks around
 * a cell do not count. Lines that begin with # and empty ones are passed over. */
#ifndef BRAKE_CELLS_H
#define BRAKE_CELLS_H

#include <stdbool.h>
#include <stdio.h>

#include "brake/catalogue.h"
#include "brake/log.h"

enum {
    BRAKE_CELLS = 256,           /* most in a row */
    BRAKE_CELL_BYTES = 1000,     /* most of a cell */
    BRAKE_ROW_BYTES = 1 << 20,   /* most of a row, quotes and separators too */
    BRAKE_TABLE_BYTES = 1 << 28, /* most of a file */
};

struct brake_cells {
    FILE *stream;
    struct brake_error *error;
    struct brake_said *said; /* takes what comments say of the vehicle; NULL: nothing does */
    char separator; /* between cells; NUL: not known yet, comma, semicolon and tab all count */

    int line;        /* in which the row begins */
    const char *row; /* as it stands in the file */
    size_t length;   /* of the row */
    int count;       /* cells of the row, once it was cut */
    const char *cell[BRAKE_CELLS];

    /* what follows is for cells.c */
    size_t begin, end; /* of what was read and not taken yet */
    size_t bytes;      /* read in all */
    int lines;         /* taken in all */
    bool after_cr;     /* LF that comes next belongs to the end of the row before */
    char held[BRAKE_ROW_BYTES + 2];
    char text[BRAKE_ROW_BYTES + BRAKE_CELLS + 2]; /* the cells, each ended by NUL */
};

/* Take the next row. `length` 0: there is none left. */
enum brake_status brake_cells_next(struct brake_cells *cells);

/* Cut the row at a separator; may be done again at another. */
enum brake_status brake_cells_cut(struct brake_cells *cells, char separator);

/* Keep the row when it is a comment that says a line of the vehicle, `# path = value`. */
enum brake_status brake_said_take(struct brake_cells *cells);

#endif
