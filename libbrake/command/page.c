/* SPDX-License-Identifier: MIT */
/* The page of a report, which carries its vehicle, judged again. */
#define _POSIX_C_SOURCE 200809L /* NOLINT: stat */
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "command.h"
#include "file/carried.h"
#include "file/digest.h"

/* What the page says of its vehicle. What is no regular file, a pipe, is not read a second time. */
static bool read_mark(const char *path, struct brake_mark *mark)
{
    struct stat found;
    if (command_is_stdin(path) || stat(path, &found) != 0 || !S_ISREG(found.st_mode))
        return false;
    FILE *stream = fopen(path, "rb");
    const bool page = stream != NULL && brake_file_mark(stream, mark);
    if (stream != NULL)
        fclose(stream);
    return page;
}

bool command_is_page(const char *path)
{
    struct brake_mark mark;
    return read_mark(path, &mark);
}

/* The table as a text, to be freed; NULL: the page has none, or cannot be read. */
static char *copy_table(const char *path, const char *element, size_t *size,
                        struct brake_error *error)
{
    char *text = NULL;
    FILE *stream = fopen(path, "rb");
    FILE *copy = open_memstream(&text, size);
    error->status = BRAKE_E_MEMORY;
    if (stream != NULL && copy != NULL)
        (void)brake_carried_copy(stream, element, copy, error);
    if (stream != NULL)
        fclose(stream);
    if (copy != NULL)
        fclose(copy);
    if (error->status == BRAKE_OK)
        return text;
    free(text);
    return NULL;
}

int command_table(const char *path, const char *element, command_reader *reader, void *into,
                  bool *there)
{
    struct brake_error error = {.status = BRAKE_OK};
    size_t size = 0;
    char *text = command_is_page(path) ? copy_table(path, element, &size, &error) : NULL;
    *there = text != NULL;
    if (error.status == BRAKE_E_MEMORY)
        return command_short_of_memory();
    if (!*there)
        return error.status == BRAKE_OK || error.status == BRAKE_E_MISSING
                   ? 0
                   : command_refuse(path, &error);
    FILE *table = fmemopen(text, size, "rb");
    if (table != NULL)
        (void)reader(table, into, &error);
    if (table != NULL)
        fclose(table);
    free(text);
    if (table == NULL)
        return command_short_of_memory();
    return error.status == BRAKE_OK ? 0 : command_refuse(path, &error);
}

/* How the file that the page was made of stands today. */
static const char *beside_it(const char *page, const struct brake_mark *mark)
{
    struct brake_sheet sheet;
    struct brake_error error;
    char now[BRAKE_DIGEST_TEXT] = "";
    char *path = NULL;
    FILE *stream = NULL;
    if (mark->file[0] == '\0' || strchr(mark->file, '/') != NULL ||
        command_beside(page, mark->file, &path) != 0)
        return "is not beside it";
    stream = fopen(path, "rb");
    free(path);
    if (stream == NULL)
        return "is not beside it";
    if (brake_file_read(stream, &sheet, &error) == BRAKE_OK &&
        brake_sheet_complete(&sheet, &error) == BRAKE_OK)
        brake_digest_vehicle(&sheet, now);
    fclose(stream);
    return strcmp(now, mark->digest) == 0 ? "beside it is the same" : "beside it IS ANOTHER NOW";
}

void command_tell_page(const char *path, const struct brake_sheet *sheet)
{
    struct brake_mark mark;
    char now[BRAKE_DIGEST_TEXT];
    if (!read_mark(path, &mark))
        return;
    brake_digest_vehicle(sheet, now);
    command_tell("%s: a page made by libbrake %s, this is %s; its vehicle %s; %s %s\n", path,
                 mark.version, brake_version(),
                 strcmp(now, mark.digest) == 0 ? "is as it was printed"
                                               : "IS NOT THAT WHICH WAS PRINTED",
                 mark.file[0] != '\0' ? mark.file : "its file", beside_it(path, &mark));
}
