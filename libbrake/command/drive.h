/* SPDX-License-Identifier: MIT */
/* The log of a drive, from its file to the comparison with the prediction. */
#ifndef BRAKE_COMMAND_DRIVE_H
#define BRAKE_COMMAND_DRIVE_H

#include "command.h"

struct drive_options {
    char *log;     /* file */
    char *columns; /* units that its header does not give; NULL: none */
    struct brake_nominal nominal;
    struct brake_drive_day day; /* NaN: as the file or the log says, or as is usual */
    enum brake_load load;       /* as it was driven; BRAKE_LOADS: as the file or the log says */
};

/* Nothing of the day is said. */
#define DRIVE_DAY_UNSAID                                                                           \
    {                                                                                              \
        {BRAKE_NAN, 0.0}, {BRAKE_NAN, 0.0},                                                        \
        {                                                                                          \
            BRAKE_NAN, 0.0                                                                         \
        }                                                                                          \
    }

/* A drive that was read; it stays where it is, and is large. */
struct drive_taken {
    struct brake_sheet driven; /* the vehicle as it was driven */
    struct brake_log log;
    struct brake_drive drive;
    struct brake_drive_report report; /* of the three */
};

/* Reads a log. Returns 0, the log then to be freed by brake_log_free, or the exit status, in
 * words. */
int drive_read(const char *path, const char *columns, struct brake_log *log);

/* Reads a log, measures its stops and holds them against the prediction. Refuses in words a log
 * that cannot be read, is too coarse or holds no stop. Returns 0, the log then to be freed by
 * brake_log_free, or the exit status. */
int drive_take(const struct drive_options *options, const struct brake_sheet *sheet,
               struct drive_taken *taken);

/* Reads the log that a vehicle file names: of a page of the report the one that it carries in that
 * element, else the one beside the file; tells whether there is one, then to be freed. Returns 0,
 * EXIT_REFUSED or EXIT_FAILED, in words. */
int drive_named(const char *file, const char *element, const struct brake_sheet *sheet,
                struct brake_log *log, bool *there);

/* Learns of a vehicle what that log tells. Returns the same. */
int drive_learn(const char *file, const char *element, struct brake_sheet *sheet);

#endif
