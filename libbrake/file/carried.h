/* SPDX-License-Identifier: MIT */
/* Vehicles that a page of the report carries: lines of a vehicle file in an element of their own,
 * as the page is written and as a browser saves it again. Private to the library. */
#ifndef BRAKE_FILE_CARRIED_H
#define BRAKE_FILE_CARRIED_H

#include <stdbool.h>
#include <stdio.h>

#include "brake/file.h"

/* The element of the vehicle, and of what it was before. */
#define BRAKE_CARRIED_VEHICLE "lines-of-vehicle"
#define BRAKE_CARRIED_BEFORE "lines-of-before"

/* Those of the drives that both name, and of the vehicle's list of parts. */
#define BRAKE_CARRIED_DRIVE "rows-of-drive"
#define BRAKE_CARRIED_DRIVE_BEFORE "rows-of-earlier-drive"
#define BRAKE_CARRIED_PARTS "rows-of-parts"

enum { BRAKE_CARRIED_BYTES = 1 << 26 /* most of a page that is looked through for a table */ };

/* Copy what stands in an element of a page, its escapes taken back. E_MISSING: there is none. */
enum brake_status brake_carried_copy(FILE *stream, const char *element, FILE *to,
                                     struct brake_error *error);

/* The first line of an element, what it says of the vehicle; reading is false of any other line. */
void brake_carried_write(FILE *stream, const struct brake_mark *mark);
bool brake_carried_read(const char *line, struct brake_mark *mark);

/* Whether the first line of a file begins a page. */
bool brake_carried_page(const char *line);

/* A line within a page, its escapes taken back. Returns false when the element ends with it. */
bool brake_carried_line(char *line);

#endif
