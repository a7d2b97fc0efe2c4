/* SPDX-License-Identifier: MIT */
#include "carried.h"

#include <string.h>

#include "vehicle/letters.h"
#include "vehicle/text.h"

bool brake_carried_page(const char *line)
{
    static const char begin[] = "<!doctype html";
    return brake_text_alike(line + brake_text_mark(line), begin, sizeof begin - 1);
}

/* The character that begins here in its escape; fills the length of that. */
static char character_of(const char *text, size_t *length)
{
    static const struct {
        const char *escape;
        char character;
    } of[] = {{"&amp;", '&'}, {"&lt;", '<'}, {"&gt;", '>'}, {"&quot;", '"'}, {"&#39;", '\''}};
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
        *length = strlen(of[i].escape);
        if (strncmp(text, of[i].escape, *length) == 0)
            return of[i].character;
    }
    *length = 1;
    return *text;
}

bool brake_carried_line(char *line)
{
    char *end = strchr(line, '<');
    const char *from = line;
    char *to = line;
    if (end != NULL)
        *end = '\0';
    while (*from != '\0') {
        size_t length;
        *to++ = character_of(from, &length);
        from += length;
    }
    *to = '\0';
    return end == NULL;
}

/* ---- what it says of the vehicle ------------------------------------------------------------- */

static const char *const words[] = {"; libbrake ", "; SHA-256 of its values ", "; made of "};

void brake_carried_write(FILE *stream, const struct brake_mark *mark)
{
    const char *const said[] = {mark->version, mark->digest, mark->file};
    for (int i = 0; i < 3; i++)
        brake_text_print(stream, "%s%s", words[i], said[i]);
    fputc('\n', stream);
}

bool brake_carried_read(const char *line, struct brake_mark *mark)
{
    const struct {
        char *text;
        size_t size;
    } to[] = {{mark->version, sizeof mark->version},
              {mark->digest, sizeof mark->digest},
              {mark->file, sizeof mark->file}};
    for (int i = 0; i < 3; i++) {
        const size_t length = strlen(words[i]);
        if (strncmp(line, words[i], length) != 0)
            return false;
        line += length;
        const size_t said = i < 2 ? strcspn(line, ";") : strlen(line);
        brake_text_format(to[i].text, to[i].size, "%.*s", (int)said, line);
        line += said;
    }
    return true;
}
