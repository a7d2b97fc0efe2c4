/* SPDX-License-Identifier: MIT */
/* Files that are written. A file is written aside in its folder, synced and renamed over the old
 * one: whatever fails leaves the old file or all of the new one. */
#ifndef BRAKE_COMMAND_OUTPUT_H
#define BRAKE_COMMAND_OUTPUT_H

#include "command.h"

enum { OUTPUT_PATH = 4096 };

struct command_output {
    FILE *stream;
    const char *path;         /* as given */
    bool replaces;            /* what follows is in use */
    char target[OUTPUT_PATH]; /* behind all symbolic links */
    char aside[OUTPUT_PATH];
};

/* Opens an output, NULL or "-" for standard output. Refuses, in words, a file that cannot be made
 * or that is one of the inputs, which end with NULL. Returns 0, EXIT_REFUSED or EXIT_FAILED. */
int command_open_output(const char *path, char *const *inputs, struct command_output *out);

/* Closes it. Returns 0, or EXIT_FAILED when not all could be written, in words. */
int command_close_output(struct command_output *out);

/* Prints an answer into such a file and frees it; NULL: memory is short. Returns as the two
 * above. */
int command_write(struct brake_document *document, enum brake_format format, const char *path,
                  char *const *inputs);

/* Whether what is written to standard output goes to this file. */
bool command_is_stdout(const char *path);

/* Flushes; false, and errno says why: something written since the beginning is lost. */
bool command_written(FILE *stream);

#endif
