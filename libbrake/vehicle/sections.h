/* The table behind catalogue.h, and what only the library needs of it. */
#ifndef BRAKE_SECTIONS_H
#define BRAKE_SECTIONS_H

#include "brake/catalogue.h"

extern const struct brake_section brake_sections[];
extern const int brake_sections_count;

/* Index of the first quantity of a section. */
int brake_section_first(int section);

/* Number of the section whose path is the first `length` bytes; -1: none. */
int brake_section_named(const char *path, size_t length);

/* Slot of the part whose name is the first `length` bytes; -1: none. */
int brake_part_named(const struct brake_vehicle *vehicle, const char *name, size_t length);

/* Make the value of a row absent. */
void brake_row_clear(const struct brake_quantity *row, void *at);

enum { BRAKE_LONGEST_PATH = 64 /* no known path is longer */ };

/* Number of single-letter edits between a word and a known path (Levenshtein). */
int brake_edits(const char *a, const char *b);

/* A hint farther off than this many edits, or than half the word, would mislead. */
int brake_edits_allowed(const char *word);

/* Make a quantity absent. */
void brake_quantity_clear(struct brake_sheet *sheet, int index);

#endif
