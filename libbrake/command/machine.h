/* SPDX-License-Identifier: MIT */
/* Whether the machine can do the work, asked before it begins: a stack that is too small ends a
 * process without a word, and a runtime of threads that cannot start one ends it with a status of
 * its own. */
#ifndef BRAKE_MACHINE_H
#define BRAKE_MACHINE_H

/* Begins the command; words are those of main. Returns 0, or EXIT_FAILED in words. */
int machine_begin(char **words);

/* How many threads to work with: as many as wanted when all of them can be started, or one. */
int machine_threads(int wanted);

/* From here on the end of the process is the command's own. Returns the status. */
int machine_end(int status);

#endif
