/* SPDX-License-Identifier: MIT */
/* A cool-down that was logged, for `heat`; private to this folder. */
#ifndef BRAKE_COMMAND_COOLDOWN_H
#define BRAKE_COMMAND_COOLDOWN_H

#include "command.h"

struct cooldown_options {
    const char *file; /* the vehicle's */
    const char *log;
    const char *columns; /* units that its head does not give; NULL: none */
    enum brake_systems units;
    bool json;
};

/* Reads the log and tells what cools the brakes. Returns the exit status: 0 it tells, 3 it does
 * not, or a line is missing. */
int cooldown_run(const struct cooldown_options *o, const struct brake_sheet *sheet);

#endif
