#include <stdarg.h>
#include <stdbool.h>
#include <string.h>

#include "page.h"
#include "vehicle/text.h"

static const char REPLACEMENT[] = "\xEF\xBF\xBD";

/* Bytes of the character that a text begins with; 0 when they are not UTF-8. Source: RFC 3629,
 * sec. 4. */
static int length_of(const unsigned char *text)
{
    static const struct {
        unsigned char low, high;               /* first byte */
        unsigned char second_low, second_high; /* second byte; the others are 80 to BF */
        int length;
    } forms[] = {
        {0x00, 0x7F, 0x00, 0xFF, 1}, {0xC2, 0xDF, 0x80, 0xBF, 2}, {0xE0, 0xE0, 0xA0, 0xBF, 3},
        {0xE1, 0xEC, 0x80, 0xBF, 3}, {0xED, 0xED, 0x80, 0x9F, 3}, {0xEE, 0xEF, 0x80, 0xBF, 3},
        {0xF0, 0xF0, 0x90, 0xBF, 4}, {0xF1, 0xF3, 0x80, 0xBF, 4}, {0xF4, 0xF4, 0x80, 0x8F, 4}};
    for (size_t i = 0; i < sizeof forms / sizeof forms[0]; i++) {
        if (text[0] < forms[i].low || text[0] > forms[i].high)
            continue;
        if (text[1] < forms[i].second_low || text[1] > forms[i].second_high)
            return 0;
        for (int byte = 2; byte < forms[i].length; byte++) {
            if ((text[byte] & 0xC0) != 0x80)
                return 0;
        }
        return forms[i].length;
    }
    return 0;
}

/* Controls, C1 controls, and what HTML calls noncharacters at the end of the first plane. */
static bool forbidden(const unsigned char *at, int length)
{
    if (length == 1)
        return at[0] < 0x20 || at[0] == 0x7F;
    if (length == 2)
        return at[0] == 0xC2 && at[1] < 0xA0;
    return length == 3 && at[0] == 0xEF && at[1] == 0xBF && at[2] >= 0xBE;
}

/* What stands in the place of a character; NULL: itself. */
static const char *instead(const char *text, int length)
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
        return length == 0 || forbidden((const unsigned char *)text, length) ? REPLACEMENT : NULL;
    }
}

void brake_page_text(FILE *stream, const char *text)
{
    const char *kept = text; /* from here on nothing is written yet */
    while (*text != '\0') {
        const int length = length_of((const unsigned char *)text);
        const char *other = instead(text, length);
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
