/* SPDX-License-Identifier: MIT */
/* A line on the terminal that says how far a study is, at which rate, and how long it will take. */
#ifndef BRAKE_PROGRESS_H
#define BRAKE_PROGRESS_H

#include <stdbool.h>

#include "brake/watch.h"

struct progress {
    const char *unit; /* "cases" */
    double offset;    /* [unit] done before this run, which the rate leaves out */
    double began;     /* [s] */
    double shown;     /* [s] when the line was last written; 0: never */
    bool terminal;    /* standard error is one */
};

/* Begins to watch; nothing is shown before a second has passed, or where nobody looks. */
struct brake_watch progress_begin(struct progress *progress, const char *unit, double offset);

/* The same for a study that can be stopped: from now on a signal that asks the program to end, asks
 * the study to; a second one ends the program at once. */
struct brake_watch progress_begin_study(struct progress *progress, const char *unit, double offset);

/* Takes the line away. */
void progress_end(const struct progress *progress);

/* Exit status of what a signal ended; 0 when there was none. */
int progress_stopped(void);

#endif
