/* SPDX-License-Identifier: MIT */
/* Words in a table for spreadsheets; private to this folder. */
#ifndef BRAKE_CSV_H
#define BRAKE_CSV_H

#include <stddef.h>

enum { BRAKE_CELL_SIZE = 2048 /* bytes of a cell with its quotes */ };

/* Words as one cell of CSV, RFC 4180. An apostrophe stands before what a spreadsheet would take for
 * a formula: words that begin with = + - @, tab or CR. Cut to size, and closed. */
void brake_csv_cell(const char *words, char *cell, size_t size);

#endif
