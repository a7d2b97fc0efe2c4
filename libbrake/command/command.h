/* The verbs of the command, one file each. A verb gets its arguments from its own name on and
 * returns the exit status. */
#ifndef BRAKE_COMMAND_H
#define BRAKE_COMMAND_H

#include "brake/brake.h"

enum { EXIT_REFUSED = 2 };

int command_check(int count, char **words);
int command_new(int count, char **words);
int command_explain(int count, char **words);

/* Complains about the words of the command line; returns EXIT_REFUSED. */
__attribute__((format(printf, 1, 2))) int command_misused(const char *format, ...);

/* Reads a vehicle file, applies settings in their order and completes it; prints what is wrong.
 * Returns 0 or EXIT_REFUSED. */
int command_read(const char *path, char *const *settings, int count, struct brake_sheet *sheet);

#endif
