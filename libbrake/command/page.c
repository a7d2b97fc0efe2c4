/* The page of a report, which carries its vehicle, judged again. */
#include <stdlib.h>
#include <string.h>

#include "command.h"
#include "file/digest.h"
#include "vehicle/text.h"

/* What the page says of its vehicle. */
static bool read_mark(const char *path, char mark[BRAKE_MARK_BYTES])
{
    FILE *stream = command_is_stdin(path) ? NULL : fopen(path, "rb");
    const bool page = stream != NULL && brake_file_mark(stream, mark);
    if (stream != NULL)
        fclose(stream);
    return page;
}

bool command_is_page(const char *path)
{
    char mark[BRAKE_MARK_BYTES];
    return read_mark(path, mark);
}

/* The word behind some others in the mark, up to the next semicolon; "" when they are not there. */
static void word_of(const char *mark, const char *behind, char *word, size_t size)
{
    const char *from = strstr(mark, behind);
    from = from != NULL ? from + strlen(behind) : "";
    brake_text_format(word, size, "%.*s", (int)strcspn(from, ";"), from);
}

/* How the file that the page was made of stands today. */
static const char *beside_it(const char *page, const char *name, const char *digest)
{
    struct brake_sheet sheet;
    struct brake_error error;
    char now[BRAKE_DIGEST_TEXT] = "";
    char *path = NULL;
    FILE *stream = NULL;
    if (name[0] == '\0' || strchr(name, '/') != NULL || command_beside(page, name, &path) != 0)
        return "is not beside it";
    stream = fopen(path, "rb");
    free(path);
    if (stream == NULL)
        return "is not beside it";
    if (brake_file_read(stream, &sheet, &error) == BRAKE_OK &&
        brake_sheet_complete(&sheet, &error) == BRAKE_OK)
        brake_digest_vehicle(&sheet, now);
    fclose(stream);
    return strcmp(now, digest) == 0 ? "beside it is the same" : "beside it IS ANOTHER NOW";
}

void command_tell_page(const char *path, const struct brake_sheet *sheet)
{
    char mark[BRAKE_MARK_BYTES];
    char version[40];
    char digest[BRAKE_DIGEST_TEXT];
    char now[BRAKE_DIGEST_TEXT];
    char name[400];
    if (!read_mark(path, mark))
        return;
    word_of(mark, "libbrake ", version, sizeof version);
    word_of(mark, "SHA-256 of its values ", digest, sizeof digest);
    word_of(mark, "made of ", name, sizeof name);
    brake_digest_vehicle(sheet, now);
    command_tell("%s: a page made by libbrake %s, this is %s; its vehicle %s; %s %s\n", path,
                 version, brake_version(),
                 strcmp(now, digest) == 0 ? "is as it was printed"
                                          : "IS NOT THAT WHICH WAS PRINTED",
                 name[0] != '\0' ? name : "its file", beside_it(path, name, digest));
}
