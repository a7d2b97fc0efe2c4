/* SPDX-License-Identifier: MIT */
/* The vehicles that a report was made of, carried along in its page so that it can be judged again.
 */
#define _POSIX_C_SOURCE 200809L /* NOLINT: open_memstream */
#include <stdlib.h>

#include "brake/file.h"
#include "brake/version.h"
#include "file/carried.h"
#include "file/digest.h"
#include "file/writer.h"
#include "parts.h"
#include "vehicle/text.h"

/* What is carried, as it is written. */
struct carried {
    const struct brake_sheet *sheet;
    const char *file;
    const struct brake_log *log;
    const struct brake_own_sizes *own;
};

static void write_all(FILE *stream, const struct carried *c)
{
    if (c->sheet != NULL) {
        struct brake_mark mark = {.version = BRAKE_VERSION};
        brake_digest_vehicle(c->sheet, mark.digest);
        brake_text_format(mark.file, sizeof mark.file, "%s", c->file != NULL ? c->file : "");
        brake_carried_write(stream, &mark);
        brake_file_write_lines(c->sheet, stream);
    } else if (c->log != NULL) {
        brake_log_write(c->log, stream);
    } else {
        brake_own_sizes_write(c->own, stream);
    }
}

static void carry(struct brake_document *d, const char *name, const struct carried *c)
{
    char *text = NULL;
    size_t size = 0;
    FILE *stream = open_memstream(&text, &size);
    bool whole = stream != NULL;
    if (whole) {
        write_all(stream, c);
        whole = ferror(stream) == 0;
        whole = fclose(stream) == 0 && whole;
    }
    if (whole)
        brake_document_carry(d, name, text);
    d->short_of_memory = d->short_of_memory || !whole;
    free(text);
}

void brake_part_carry(struct brake_document *d, const char *name, const struct brake_sheet *sheet,
                      const char *file)
{
    carry(d, name, &(struct carried){.sheet = sheet, .file = file});
}

void brake_part_carry_log(struct brake_document *d, const char *name, const struct brake_log *log)
{
    if (log != NULL)
        carry(d, name, &(struct carried){.log = log});
}

void brake_part_carry_parts(struct brake_document *d, const struct brake_own_sizes *own)
{
    if (own->count > 0)
        carry(d, BRAKE_CARRIED_PARTS, &(struct carried){.own = own});
}

const char *brake_part_digest(struct brake_document *d, const struct brake_sheet *sheet)
{
    char digest[BRAKE_DIGEST_TEXT];
    brake_digest_vehicle(sheet, digest);
    return brake_document_words(d, "%.4s %.4s %.4s %.4s", digest, digest + 4, digest + 8,
                                digest + 12);
}
