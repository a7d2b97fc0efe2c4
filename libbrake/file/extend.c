/* SPDX-License-Identifier: MIT */
/* A vehicle file written again: the user's lines stay as they are, comments and units too; what
 * they leave out is added below each section, as comments. */
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "brake/file.h"
#include "vehicle/letters.h"
#include "vehicle/sections.h"
#include "writer.h"

enum { NO_SECTION = -1 };

/* What the lines of a file say of the catalogue. */
struct outline {
    int last[BRAKE_SECTIONS]; /* line that a section ends with; 0: it is not there */
    bool named[BRAKE_ROWS];   /* given, or explained in a comment */
};

/* ---- one line ------------------------------------------------------------------------------- */

static size_t blanks(const char *text)
{
    return strspn(text, " \t");
}

static size_t line_length(const char *text)
{
    const size_t length = strcspn(text, "\n");
    return text[length] == '\n' ? length + 1 : length;
}

/* Section that a line opens; `section` where it opens none. */
static int section_after(const char *line, int section)
{
    line += brake_text_mark(line);
    line += blanks(line);
    if (*line != '[')
        return section;
    const size_t length = strcspn(line, "]\n") - 1;
    return brake_section_named(line + 1, length);
}

/* Quantity whose name a line begins with, as a line or as a comment; -1: none. */
static int quantity_named(const char *line, int section)
{
    line += blanks(line);
    if (*line == ';' || *line == '#')
        line += 1 + blanks(line + 1);
    const size_t length = strcspn(line, " \t=\n");
    if (line[length + blanks(line + length)] != '=')
        return -1;
    const struct brake_section *at = brake_section_at(section);
    for (int row = 0; row < at->count; row++) {
        if (strlen(at->rows[row].name) == length &&
            brake_text_alike(at->rows[row].name, line, length))
            return brake_section_first(section) + row;
    }
    return -1;
}

/* Comments above a section belong to it, not to the one before. */
static bool says_something(const char *line)
{
    line += blanks(line);
    return *line != '\0' && *line != '\n' && *line != '\r' && *line != ';' && *line != '#';
}

/* ---- the whole ------------------------------------------------------------------------------ */

static bool is_listed(int section)
{
    return section >= 0 && section < brake_section_count() - 1; /* parts are written as they are */
}

static void look_through(const char *text, struct outline *outline)
{
    int section = NO_SECTION;
    int number = 0;
    *outline = (struct outline){.last = {0}};
    for (; *text != '\0'; text += line_length(text)) {
        section = section_after(text, section);
        number++;
        if (!is_listed(section))
            continue;
        const int index = quantity_named(text, section);
        if (index >= 0)
            outline->named[index] = true;
        if (says_something(text) || index >= 0)
            outline->last[section] = number;
    }
}

static void add_missing(const struct brake_sheet *sheet, const struct outline *outline, int section,
                        FILE *stream)
{
    const int first = brake_section_first(section);
    for (int row = 0; row < brake_section_at(section)->count; row++) {
        if (!outline->named[first + row])
            brake_write_quantity(sheet, first + row, false, stream);
    }
}

static void add_below(const struct brake_sheet *sheet, const struct outline *outline, int number,
                      FILE *stream)
{
    for (int i = 0; is_listed(i); i++) {
        if (outline->last[i] == number)
            add_missing(sheet, outline, i, stream);
    }
}

void brake_file_extend(const char *text, const struct brake_sheet *sheet, FILE *stream)
{
    struct outline outline;
    int number = 0;
    look_through(text, &outline);
    for (; *text != '\0'; text += line_length(text)) {
        const size_t length = line_length(text);
        fwrite(text, 1, length, stream);
        if (text[length - 1] != '\n')
            fputc('\n', stream);
        add_below(sheet, &outline, ++number, stream);
    }
    for (int i = 0; is_listed(i); i++) {
        if (outline.last[i] > 0)
            continue;
        brake_write_section(i, stream);
        add_missing(sheet, &outline, i, stream);
    }
}
