/* SPDX-License-Identifier: MIT */
/* What the verbs of the command share. */
#ifndef BRAKE_COMMAND_H
#define BRAKE_COMMAND_H

#include <stdbool.h>
#include <stdio.h>

#include "brake/brake.h"

enum {
    EXIT_REFUSED = 2, /* the input */
    EXIT_FAILED = 4,  /* the machine: memory, disk, threads */
    EXIT_MISUSED =
        1000, /* the words; main says where they are told of, and ends with EXIT_REFUSED */
    COMMAND_SETTINGS = 64 /* most times --set */
};

/* Prints a line, or the begin of one, to standard error, as text that may be shown: words of the
 * command line and names of files could steer the terminal. What is longer than a path and words is
 * cut. */
__attribute__((format(printf, 1, 2))) void command_tell(const char *format, ...);

/* Complains about the words of the command line; returns EXIT_MISUSED. */
__attribute__((format(printf, 1, 2))) int command_misused(const char *format, ...);

/* Words that an option was given with, each time. */
struct command_list {
    int most;
    int count;
    char *word[COMMAND_SETTINGS];
};

/* Opens a file to read, - for standard input, which is read once. Returns 0, EXIT_REFUSED or
 * EXIT_FAILED, in words. */
int command_open(const char *path, FILE **stream);
void command_close(FILE *stream);

bool command_is_stdin(const char *path);

/* A file that is read as it is told of: "standard input". */
const char *command_name(const char *path);

/* Reads a vehicle file, applies settings in their order, NULL: none, and completes it; learns of
 * it what the drive tells that it names; prints what is wrong. Of both trades, that of the file
 * leads then in the units that are asked for, NULL: none. Returns 0, EXIT_REFUSED or
 * EXIT_FAILED. */
int command_read(const char *path, const struct command_list *settings, enum brake_systems *units,
                 struct brake_sheet *sheet);

/* Reads the person's own list of parts; the one that a vehicle file names, if it does. Return 0,
 * EXIT_REFUSED or EXIT_FAILED. */
int command_parts(const char *path, struct brake_sheet *sheet);
int command_parts_named(const char *file, struct brake_sheet *sheet);

/* Path, to be freed, of a file that another one names: it stands beside it. Returns 0 or
 * EXIT_FAILED. */
int command_beside(const char *file, const char *named, char **path);

/* Reads the vehicle before: the file of the option, NULL: the one that the vehicle's own file
 * names, beside which it stands. Tells whether there is one; what a drive told of it the other
 * vehicle knows too. Returns as command_read does. */
int command_before(const char *option, const char *file, struct brake_sheet *after,
                   struct brake_sheet *before, bool *told);

/* Reads the log that this vehicle before names; its row stays NULL where it names none. Returns as
 * command_read does. */
int command_before_log(const char *option, const char *file, const struct brake_sheet *after,
                       const struct brake_sheet *before, struct brake_log *log);

/* Whether a file is the page of a report, which carries its vehicle; says whether that is what was
 * printed, and whether version and file are the same. */
bool command_is_page(const char *path);
void command_tell_page(const char *path, const struct brake_sheet *sheet);

/* Reads a table that such a page carries in an element; tells whether there is one. Returns 0,
 * EXIT_REFUSED or EXIT_FAILED. */
typedef enum brake_status command_reader(FILE *table, void *into, struct brake_error *error);
int command_table(const char *path, const char *element, command_reader *reader, void *into,
                  bool *there);

/* Whether a vehicle before may stand beside the other; carries what belongs to one of them, and
 * says so. Returns 0 or EXIT_REFUSED. */
int command_fit(const char *path, const struct brake_sheet *after, struct brake_sheet *before);

/* Holds an assessed vehicle against what it was before; the loss is filled and kept. Returns 0,
 * EXIT_REFUSED or EXIT_FAILED. */
int command_look_back(const struct brake_sheet *before, const struct brake_sheet *sheet,
                      struct brake_before *loss, struct brake_assessment *assessment);

/* Says why two vehicles could not be drawn; returns EXIT_REFUSED or EXIT_FAILED. */
int command_no_draw(enum brake_status status);

/* Complain of what stands in a file, of the value of an option; return EXIT_REFUSED, but
 * EXIT_FAILED for a file that the machine has just failed to read. */
int command_refuse(const char *file, const struct brake_error *error);
int command_refuse_value(const char *option, const struct brake_error *error);

/* Says so; returns EXIT_FAILED. */
int command_short_of_memory(void);

/* A new answer, for people in these units, for programs in SI; NULL: memory is short. */
struct brake_document *command_document(enum brake_systems units, enum brake_format format);

/* Everything that is said of a vehicle, hot performance and words too. Returns 0, EXIT_FAILED, or
 * the status of what a signal ended. */
int command_assess(const struct brake_sheet *sheet, unsigned rules,
                   struct brake_assessment *assessment);

/* Prints an answer and frees it; NULL: memory is short. Returns 0 or EXIT_FAILED. */
int command_print(struct brake_document *document, enum brake_format format, FILE *stream);

/* The status for a file that could not be opened, read or written, by errno: EXIT_FAILED when the
 * machine failed, EXIT_REFUSED when no such file can be used. */
int command_failure(int reason);

/* Complains that a file cannot be opened, read, written, and says why, by errno; returns that
 * status. */
int command_cannot(const char *path, const char *what);

#endif
