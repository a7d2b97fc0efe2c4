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
