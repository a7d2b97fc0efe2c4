/* The log of a drive, from its file to the comparison with the prediction. */
#ifndef BRAKE_COMMAND_DRIVE_H
#define BRAKE_COMMAND_DRIVE_H

#include "command.h"

struct drive_options {
    char *log;     /* file */
    char *columns; /* units that its header does not give; NULL: none */
    struct brake_nominal nominal;
    struct brake_drive_day day;
    enum brake_load load; /* as it was driven */
};

/* Reads a log. Returns 0, the log then to be freed by brake_log_free, or the exit status, in
 * words. */
int drive_read(const char *path, const char *columns, struct brake_log *log);

/* Reads a log, measures its stops and holds them against the prediction. Refuses in words a log
 * that cannot be read, is too coarse or holds no stop. Returns 0, the log then to be freed by
 * brake_log_free, or the exit status. */
int drive_take(const struct drive_options *options, const struct brake_sheet *sheet,
               struct brake_log *log, struct brake_drive *drive);

/* Learns of a vehicle what the drive tells that its file names, beside which the log stands.
 * Returns 0, EXIT_REFUSED or EXIT_FAILED, in words. */
int drive_learn(const char *file, struct brake_sheet *sheet);

#endif
