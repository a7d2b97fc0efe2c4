/* SPDX-License-Identifier: MIT */
/* The library as Python asks it: a vehicle as one buffer, answers as JSON. */
#ifndef LIBBRAKE_PYTHON_BRIDGE_H
#define LIBBRAKE_PYTHON_BRIDGE_H

#include <stdbool.h>
#include <stddef.h>

#include "brake/brake.h"
#include "columns.h"

enum { BRAKE_PAIR_NUMBERS = 2 * BRAKE_POINTS /* room for every curve and all pistons */ };

/* Version of the library. */
const char *library_version(void);

/* Bytes of a vehicle. */
size_t sheet_size(void);

/* The caution that stands in every output. */
const char *caution_text(void);

/* Refuses bytes that are no vehicle. */
enum brake_status sheet_check(const struct brake_sheet *sheet, struct brake_error *error);

/* Reads and completes a vehicle file, given as its bytes. */
enum brake_status sheet_read(const char *bytes, size_t size, struct brake_sheet *sheet,
                             struct brake_error *error);

/* Learns what the log of a drive tells, given as its bytes and the units that its head lacks,
 * empty: none; takes the sizes of a list of parts. */
enum brake_status sheet_learn(const char *bytes, size_t size, const char *columns,
                              struct brake_sheet *sheet, struct brake_error *error);
enum brake_status sheet_take_parts(const char *bytes, size_t size, struct brake_sheet *sheet,
                                   struct brake_error *error);

/* Forgets its list of parts. */
void sheet_without_sizes(struct brake_sheet *sheet);

/* A table that a page of the report carries, as a text; NULL: it carries none of that name. */
char *page_table(const char *bytes, size_t size, const char *element);

/* Sets one line, "path=value"; complete the vehicle afterwards. */
enum brake_status sheet_set(struct brake_sheet *sheet, const char *setting,
                            struct brake_error *error);
enum brake_status sheet_complete(struct brake_sheet *sheet, struct brake_error *error);

/* Takes a line out, as if the file did not have it; complete the vehicle afterwards. */
void sheet_unset(struct brake_sheet *sheet, int index);

/* Fits a part, or takes the one of that name away; complete the vehicle afterwards. */
enum brake_status sheet_fit_part(struct brake_sheet *sheet, const char *name,
                                 struct brake_error *error);
void sheet_remove_part(struct brake_sheet *sheet, const char *name);

/* What no line of its file says, as texts that another version reads: what a drive told, and the
 * sizes of a list of parts; NULL when memory is short. */
char *sheet_told(const struct brake_sheet *sheet);
char *sheet_sizes(const struct brake_sheet *sheet);
enum brake_status sheet_tell(const char *bytes, size_t size, struct brake_sheet *sheet,
                             struct brake_error *error);

/* Number of a path; -1: there is none. */
int sheet_find(const struct brake_sheet *sheet, const char *path);

/* Names of the parts, one a line. */
void sheet_parts(const struct brake_sheet *sheet, char *text, size_t size);

/* A number; NaN when not known. */
double sheet_number(const struct brake_sheet *sheet, int index);

/* A word or a text; any value as a file has it. */
void sheet_word(const struct brake_sheet *sheet, int index, char *text, size_t size);
void sheet_text(const struct brake_sheet *sheet, int index, char *text, size_t size);

/* Pairs of a curve or of pistons, side by side; gives their number. */
int sheet_pairs(const struct brake_sheet *sheet, int index, double pair[BRAKE_PAIR_NUMBERS]);

/* Whether two vehicles hold the same values from the same sources. */
bool sheet_same(const struct brake_sheet *sheet, const struct brake_sheet *other);

#ifndef SWIG
/* Prints a document and frees it; NULL when memory is short. */
char *bridge_printed(struct brake_document *document, enum brake_format format);
#endif

/* Every line that is known, as JSON: {"lines": {path: {text, from, tolerance}}}. */
char *sheet_json(const struct brake_sheet *sheet);

/* Number of quantities, and the range that one accepts. */
/* Digest of its values, as the paper has it. */
void sheet_digest(const struct brake_sheet *sheet, char *text, size_t size);

int quantity_count(void);
double quantity_low(int index);
double quantity_high(int index);

/* Word and bits of a choice of rules; empty and 0 past the last. */
const char *rules_word(int number);
unsigned rules_bits(int number);

/* Number of results. */
int result_count(void);

/* Word of what keeps a vehicle from being driven; empty past the last. */
const char *obstacle_word(int number);

/* Makes a vehicle before ready to stand beside the other: what belongs to one is carried. */
enum brake_status sheet_fit(struct brake_sheet *sheet, const struct brake_sheet *other,
                            struct brake_error *error);

/* As `stopmargin check` prints it, for people and as JSON, and the results to the bit; before: NULL
 * when it is not told. */
char *sheet_report(const struct brake_sheet *sheet, const struct brake_sheet *before,
                   unsigned rules);
char *sheet_check_json(const struct brake_sheet *sheet, const struct brake_sheet *before,
                       unsigned rules, const struct columns *out);

/* The vehicle as a file. */
char *sheet_file(const struct brake_sheet *sheet);

/* The message of a status. */
const char *status_message(int status);

/* A number of a text with its unit, in SI; `unit` is the SI unit of what it must measure. */
double amount_read(const char *name, const char *text, const char *unit, struct brake_error *error);

/* An array of doubles. */
struct numbers {
    const double *at;
    long count;
};

/* Names of the numbers that make a duty, in their order. */
const char *duty_fields(void);

/* [s] of rest where nothing else is asked for. */
double duty_parked(void);

/* What a duty is, where its fields do not say it all: `points` are time, speed and grade of each
 * row of a drive, `sequence` is the published one that is run, or empty. Gives it as JSON and its
 * history; NULL when the watch stopped it. */
char *duty_run(const struct brake_sheet *sheet, bool full, struct numbers fields,
               struct numbers points, const char *sequence, const struct brake_watch *watch,
               struct brake_history *history, struct brake_error *error);

/* Sections, quantities, results, criteria, messages of the library as JSON. */
char *catalogue_json(void);

#endif
