/* SPDX-License-Identifier: MIT */
#include <stdarg.h>
#include <stdbool.h>
#include <string.h>

#include "page.h"
#include "vehicle/letters.h"
#include "vehicle/text.h"

static const char REPLACEMENT[] = "\xEF\xBF\xBD";

/* What HTML calls noncharacters at the end of the first plane are none of a page either. */
static bool forbidden(int length, unsigned code)
{
    return length == 0 || brake_letter_steers(code) || code == 0xFFFE || code == 0xFFFF;
}

/* What stands in the place of a character; NULL: itself. */
static const char *instead(const char *text, int length, unsigned code)
{
    switch (*text) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    case '\'':
        return "&#39;";
    case '\n':
    case '\t':
    case '\r':
        return " ";
    default:
        return forbidden(length, code) ? REPLACEMENT : NULL;
    }
}

void brake_page_text(FILE *stream, const char *text)
{
    const char *kept = text; /* from here on nothing is written yet */
    while (*text != '\0') {
        unsigned code = 0;
        const int length = brake_letter(text, &code);
        const char *other = instead(text, length, code);
        const char *next = text + (length > 0 ? length : 1);
        if (other != NULL) {
            fwrite(kept, 1, (size_t)(text - kept), stream);
            fputs(other, stream);
            kept = next;
        }
        text = next;
    }
    fwrite(kept, 1, (size_t)(text - kept), stream);
}

void brake_page_words(FILE *stream, const char *format, ...)
{
    char text[4096];
    va_list list;
    va_start(list, format);
    brake_text_format_list(text, sizeof text, format, list);
    va_end(list);
    brake_page_text(stream, text);
}
