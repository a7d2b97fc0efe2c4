/* SPDX-License-Identifier: MIT */
/* Pieces of a vehicle file that two writers have; private to this folder. */
#ifndef BRAKE_FILE_WRITER_H
#define BRAKE_FILE_WRITER_H

#include <stdio.h>

#include "brake/catalogue.h"
#include "brake/log.h"

/* The lines that a completed vehicle needs to be read again as it is, and nothing else. */
void brake_file_write_lines(const struct brake_sheet *sheet, FILE *stream);

/* A log that reads back as it is. */
void brake_log_write(const struct brake_log *log, FILE *stream);

/* A list of parts that reads back as it is. */
void brake_own_sizes_write(const struct brake_own_sizes *own, FILE *stream);

/* A quantity with what explains it: meaning, how to get it, range; then its line, or that as a
 * comment. */
void brake_write_quantity(const struct brake_sheet *sheet, int index, bool reduced, FILE *stream);

/* A comment, broken at blanks: a file's lines are short. */
void brake_comment_write(FILE *stream, const char *head, const char *text);

/* The head of a section with its meaning. */
void brake_write_section(int section, FILE *stream);

#endif
