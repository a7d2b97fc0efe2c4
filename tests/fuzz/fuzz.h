/* SPDX-License-Identifier: MIT */
/* What the targets share. A target is a file here with one function that takes any bytes at all:
 * `make fuzz` has clang's libFuzzer look for bytes that break it, `make check` shows it its seeds
 * (replay.c). */
#ifndef TESTS_FUZZ_H
#define TESTS_FUZZ_H

#define _POSIX_C_SOURCE 200809L /* NOLINT: fmemopen, and what targets want of POSIX */

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "brake/file.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* What must be true whatever the bytes were. */
#define MUST(true_)                                                                                \
    do {                                                                                           \
        if (!(true_)) {                                                                            \
            fprintf(stderr, "%s:%d: not true: %s\n", __FILE__, __LINE__, #true_);                  \
            abort();                                                                               \
        }                                                                                          \
    } while (0)

/* Bytes as a text that ends where its memory does: to be freed. */
static inline char *text_of(const uint8_t *data, size_t size)
{
    char *text = malloc(size + 1);
    MUST(text != NULL);
    memcpy(text, data, size);
    text[size] = '\0';
    return text;
}

/* Cuts a text behind its first line; returns the rest. */
static inline char *cut_line(char *text)
{
    char *end = strchr(text, '\n');
    if (end == NULL)
        return text + strlen(text);
    *end = '\0';
    return end + 1;
}

/* A table with the units of `--columns` on the line before it, NULL where that line is empty. */
struct table {
    char *text; /* all of it */
    const char *units;
    FILE *stream; /* of the table, NULL when nothing is left for it */
};

static inline struct table table_open(const uint8_t *data, size_t size)
{
    char *text = text_of(data, size);
    char *rest = cut_line(text);
    const size_t length = size - (size_t)(rest - text);
    return (struct table){text, text[0] != '\0' ? text : NULL,
                          length > 0 ? fmemopen(rest, length, "rb") : NULL};
}

static inline void table_close(const struct table *table)
{
    if (table->stream != NULL)
        fclose(table->stream);
    free(table->text);
}

/* A refusal says why. */
static inline bool accepted(enum brake_status status, const struct brake_error *error)
{
    MUST(status == BRAKE_OK || error->text[0] != '\0');
    MUST(memchr(error->text, '\0', sizeof error->text) != NULL || status == BRAKE_OK);
    return status == BRAKE_OK;
}

/* Reads a file of the tree, completes it. */
static inline void read_tree(const char *path, struct brake_sheet *sheet)
{
    struct brake_error error;
    char name[1000];
    snprintf(name, sizeof name, "%s/%s", SOURCE_ROOT, path);
    FILE *stream = fopen(name, "r");
    MUST(stream != NULL);
    MUST(brake_file_read(stream, sheet, &error) == BRAKE_OK);
    MUST(brake_sheet_complete(sheet, &error) == BRAKE_OK);
    fclose(stream);
}

/* The demonstration vehicle, complete: read once. */
static inline const struct brake_sheet *heron(void)
{
    static struct brake_sheet sheet;
    static bool read;
    if (!read)
        read_tree("examples/heron.ini", &sheet);
    read = true;
    return &sheet;
}

#endif
