/* SPDX-License-Identifier: MIT */
/* The table behind catalogue.h, and what only the library needs of it. */
#ifndef BRAKE_SECTIONS_H
#define BRAKE_SECTIONS_H

#include "brake/catalogue.h"

/* Of an array, not of a pointer to one. */
#define COUNT_OF(list) ((int)(sizeof(list) / sizeof((list)[0])))

/* How many there are; the parts come last: they repeat. */
enum { BRAKE_SECTION_COUNT = 34, BRAKE_SECTION_OF_PARTS = BRAKE_SECTION_COUNT - 1 };

extern const struct brake_section brake_sections[BRAKE_SECTION_COUNT];

/* Index of the first quantity of a section. */
int brake_section_first(int section);

/* Number of the section whose path is the first `length` bytes; -1: none. */
int brake_section_named(const char *path, size_t length);

/* Slot of the part whose name is the first `length` bytes; -1: none. */
int brake_part_named(const struct brake_vehicle *vehicle, const char *name, size_t length);

/* Make the value of a row absent. */
void brake_row_clear(const struct brake_quantity *row, void *at);

enum { BRAKE_LONGEST_PATH = 64 /* no known path is longer */ };

/* Looks for the known word that a wrong one was meant to be. */
struct brake_nearest {
    const char *word;
    int length; /* of it; BRAKE_LONGEST_PATH: that long or longer */
    int least;  /* edits of the nearest so far, or one more than a hint may be off */
};

/* Nothing is near yet. What is farther off than half the word, or than five letters, would
 * mislead. */
struct brake_nearest brake_nearest_to(const char *word);

/* Whether a known word of at most BRAKE_LONGEST_PATH letters is nearer than all before it. */
bool brake_nearest_is(struct brake_nearest *nearest, const char *known);

/* What was meant by a path that is not known, and what its section takes: "; did you mean
 * front.disc.pistons? [front.disc] takes ..."; empty when neither can be said. */
enum { BRAKE_HINT_BYTES = 480 };
void brake_catalogue_hint(const struct brake_vehicle *vehicle, const char *path, char *text,
                          size_t size);

enum { BRAKE_EASIEST = 2 /* most lines that stand in for one */ };

/** Lines to write for a quantity that is missing, the easiest way.
 * @param index  of the quantity
 * @param lines  filled: BRAKE_EASIEST or fewer indices; the quantity itself when nothing is easier
 * @return       how many
 */
int brake_catalogue_easiest(int index, int *lines);

/** Find what a vehicle still needs before it can be completed.
 * @param sheet    as read, or with no more than its brakes and its booster named
 * @param missing  filled: true for each quantity that is needed and not known
 */
void brake_sheet_missing(const struct brake_sheet *sheet, bool missing[BRAKE_ROWS]);

/* Make a quantity absent. */
void brake_quantity_clear(struct brake_sheet *sheet, int index);

/* Take a part away with its lines; the parts behind it move up. */
void brake_part_remove(struct brake_sheet *sheet, int slot);

/* Whether the brake that a section describes is the one fitted. */
bool brake_section_belongs(const struct brake_vehicle *vehicle,
                           const struct brake_section *section);

/** Section of a quantity.
 * @param index  of the quantity
 * @return       its section
 */
const struct brake_section *brake_quantity_section(int index);

/** Known section nearest to a wrong one.
 * @param path  as written
 * @return      number of the section, or -1 when nothing is near
 */
int brake_section_nearest(const char *path);

/** Where a quantity lives; the cast that fits its kind is the caller's.
 * @param vehicle  the vehicle
 * @param index    of the quantity
 * @return         address inside the vehicle
 */
void *brake_quantity_in(struct brake_vehicle *vehicle, int index);

/** Room that a quantity takes in a vehicle.
 * @param index  of the quantity
 * @return       bytes
 */
size_t brake_quantity_size(int index);

/** Whether a section has any line given.
 * @param sheet    the sheet
 * @param section  number of the section
 * @return         true when at least one of its lines is there
 */
bool brake_sheet_has(const struct brake_sheet *sheet, int section);

/** Unit that a quantity is told in.
 * @param quantity  its row
 * @param us        whether its line was written in a unit of the US trade
 * @return          that of the one trade or the other
 */
const struct brake_unit *brake_quantity_unit(const struct brake_quantity *quantity, bool us);

/** Word for what it takes to get a number.
 * @param means  one of them
 * @return       e.g. "tape"
 */
const char *brake_means_word(enum brake_means means);

/** Set a choice as --set does. Call brake_sheet_complete afterwards.
 * @param sheet   the sheet
 * @param index   of the quantity
 * @param choice  number of the word
 * @return        OK, or E_RANGE (nothing changed), E_UNKNOWN for a quantity that is not a choice
 */
enum brake_status brake_sheet_choose(struct brake_sheet *sheet, int index, int choice);

#endif
