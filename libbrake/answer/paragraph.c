/* SPDX-License-Identifier: MIT */
#include "paragraph.h"

#include <stdbool.h>
#include <string.h>
#include "vehicle/text.h"

static int letters_of(const char *text, size_t length)
{
    int count = 0;
    for (size_t i = 0; i < length; i++)
        count += ((unsigned char)text[i] & 0xc0) != 0x80;
    return count;
}

int brake_letters(const char *text)
{
    return letters_of(text, strlen(text));
}

/* Where a word begins on a line of its own: further left than the others if it is wide, for a path
 * is to be copied whole. */
static int begin(int indent, int width)
{
    const int room = width < BRAKE_TEXT_COLUMNS ? BRAKE_TEXT_COLUMNS - width : 0;
    return room < indent ? room : indent;
}

/* Stream NULL: nothing is printed. Returns the number of lines. */
static int put(FILE *stream, const char *head, const char *text)
{
    const int indent = brake_letters(head);
    int lines = 1;
    size_t written = strlen(head);
    while (written > 0 && head[written - 1] == ' ')
        written--;
    int column = letters_of(head, written);
    int blanks = indent - column;
    if (stream != NULL)
        brake_text_print(stream, "%.*s", (int)written, head);
    while (*text != '\0') {
        const size_t length = strcspn(text, " ");
        const int width = letters_of(text, length);
        const bool broken = column + blanks + width > BRAKE_TEXT_COLUMNS;
        const bool ended = broken && column > 0;
        lines += ended ? 1 : 0;
        column = broken ? 0 : column;
        blanks = broken ? begin(indent, width) : blanks;
        if (stream != NULL)
            brake_text_print(stream, "%s%*s%.*s", ended ? "\n" : "", blanks, "", (int)length, text);
        column += blanks + width;
        blanks = 1;
        text += length;
        text += strspn(text, " ");
    }
    if (stream != NULL)
        fputc('\n', stream);
    return lines;
}

void brake_paragraph(FILE *stream, const char *head, const char *text)
{
    (void)put(stream, head, text);
}

int brake_paragraph_lines(const char *head, const char *text)
{
    return put(NULL, head, text);
}
