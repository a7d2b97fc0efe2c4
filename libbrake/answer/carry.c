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

static void write_all(FILE *stream, const struct brake_sheet *sheet, const char *file)
{
    struct brake_mark mark = {.version = BRAKE_VERSION};
    brake_digest_vehicle(sheet, mark.digest);
    brake_text_format(mark.file, sizeof mark.file, "%s", file != NULL ? file : "");
    brake_carried_write(stream, &mark);
    brake_file_write_lines(sheet, stream);
}

void brake_part_carry(struct brake_document *d, const char *name, const struct brake_sheet *sheet,
                      const char *file)
{
    char *text = NULL;
    size_t size = 0;
    FILE *stream = open_memstream(&text, &size);
    bool whole = stream != NULL;
    if (whole) {
        write_all(stream, sheet, file);
        whole = ferror(stream) == 0;
        whole = fclose(stream) == 0 && whole;
    }
    if (whole)
        brake_document_carry(d, name, text);
    d->short_of_memory = d->short_of_memory || !whole;
    free(text);
}

const char *brake_part_digest(struct brake_document *d, const struct brake_sheet *sheet)
{
    char digest[BRAKE_DIGEST_TEXT];
    brake_digest_vehicle(sheet, digest);
    return brake_document_words(d, "%.4s %.4s %.4s %.4s", digest, digest + 4, digest + 8,
                                digest + 12);
}
