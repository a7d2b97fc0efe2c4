/* SPDX-License-Identifier: MIT */
/* What a drive has told of a vehicle, as a text that another version of the library reads; private
 * to the library. */
#ifndef BRAKE_FILE_TOLD_H
#define BRAKE_FILE_TOLD_H

#include "brake/file.h"

/* Writes what still holds of it; nothing when there was no drive. */
void brake_told_write(const struct brake_sheet *sheet, FILE *stream);

/* Reads it into a sheet that is complete, in which the same lines are known; what is told of
 * lines that are not uncertain in it is let go. Gives OK, or E_SYNTAX. */
enum brake_status brake_told_read(FILE *stream, struct brake_sheet *sheet,
                                  struct brake_error *error);

#endif
