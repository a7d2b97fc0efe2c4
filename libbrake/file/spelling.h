/* SPDX-License-Identifier: MIT */
/* Units as people write them; private to this folder. */
#ifndef BRAKE_FILE_SPELLING_H
#define BRAKE_FILE_SPELLING_H

#include <stdbool.h>
#include <stddef.h>

#include "brake/units.h"

/* A unit that stands at the head of a text. */
struct spelling {
    const struct brake_unit *unit; /* NULL: none does */
    size_t length;                 /* bytes that it takes */
};

/* The unit of a dimension that begins here, by the longest of its spellings. A plain number has the
 * unit of no letters. */
struct spelling spelling_at(const char *text, enum brake_dimension dimension);

/* The same, whatever it measures; the one of no letters aside. */
struct spelling spelling_of_any(const char *text);

/* Bytes of what stands where a unit was wanted: up to blank, bracket, comma, sign or end. */
size_t spelling_length(const char *text);

/* Bytes of a sign "plus or minus", "times" or "from here to there" that begins here, blanks before
 * it aside; 0: none does. */
size_t spelling_plus_minus(const char *text);
size_t spelling_times(const char *text);
size_t spelling_to(const char *text);

#endif
