/* SPDX-License-Identifier: MIT */
/* A short vehicle file to start from: the lines that a kind of vehicle needs for a first verdict,
 * and those that move it most. Which they are follows from the catalogue and from what completion
 * asks for. */
#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "brake/file.h"
#include "brake/warnings.h"
#include "vehicle/sections.h"
#include "vehicle/text.h"
#include "writer.h"

enum { COLUMNS = 98, NAME = 18, VALUE = 24, TEXT = 200 };

/* Whether a line is about the kind of booster that is not there: vacuum, or the oil of a pump. */
static bool is_of_other_booster(const struct brake_sheet *sheet, int index)
{
    const char *other = sheet->vehicle.booster.booster == BRAKE_BOOSTER_HYDRAULIC
                            ? "booster.vacuum"
                            : "booster.pressure";
    return index == brake_catalogue_find(NULL, other);
}

/* Whether a section is about what the vehicle has: its kind of brake, a booster. */
static bool is_of_vehicle(const struct brake_sheet *sheet, const struct brake_section *section)
{
    const bool booster = strcmp(section->path, "booster") == 0;
    return brake_section_belongs(&sheet->vehicle, section) && section->same_as == NULL &&
           !(booster && sheet->vehicle.booster.booster == BRAKE_BOOSTER_NONE);
}

/* Needed are the easiest lines that give what is missing; asked for, those of the catalogue. */
static void find_wanted(const struct brake_sheet *sheet, bool wanted[BRAKE_ROWS])
{
    bool missing[BRAKE_ROWS];
    brake_sheet_missing(sheet, missing);
    for (int i = 0; i < brake_section_first(brake_section_count() - 1); i++) {
        const bool asked = brake_quantity_at(i)->need == BRAKE_ASKED &&
                           is_of_vehicle(sheet, brake_quantity_section(i)) &&
                           !is_of_other_booster(sheet, i);
        int easiest[BRAKE_EASIEST];
        const int count = missing[i] ? brake_catalogue_easiest(i, easiest) : 0;
        wanted[i] = wanted[i] || asked || sheet->record[i].from > BRAKE_DEFAULT;
        for (int line = 0; line < count; line++)
            wanted[easiest[line]] = true;
    }
}

/* ---- one line ------------------------------------------------------------------------------- */

/* The word that stands there to begin with: the one given, else the default, else the first. */
static const char *word_of(const struct brake_sheet *sheet, int index)
{
    const struct brake_quantity *q = brake_quantity_at(index);
    if (sheet->record[index].from > BRAKE_DEFAULT)
        return q->choices[(int)brake_quantity_value(&sheet->vehicle, index)];
    if (isnan(q->fallback))
        return q->choices[0];
    const char *usual = q->choices[(int)q->fallback];
    return strcmp(usual, "unstated") == 0 ? "..." : usual;
}

static void write_value(const struct brake_sheet *sheet, int index, bool us, char *text)
{
    const struct brake_quantity *q = brake_quantity_at(index);
    if (q->kind == BRAKE_CHOICE)
        brake_text_format(text, VALUE, "%s", word_of(sheet, index));
    else if (q->kind == BRAKE_TEXT)
        brake_text_format(text, VALUE, "...");
    else
        brake_text_format(text, VALUE, "...%s %s", q->kind == BRAKE_PISTONS ? " x ..." : "",
                          brake_quantity_unit(q, us)->name);
}

/* What to look for, in one breath: the words of a choice, else how to measure it where that says
 * more than the tool, else what it is. */
static void write_hint(const struct brake_quantity *q, char *text)
{
    enum { ENOUGH = 12, FEW = 6 };
    int count = 0;
    text[0] = '\0';
    for (; q->kind == BRAKE_CHOICE && q->choices[count] != NULL; count++) {
        const size_t used = strlen(text);
        if (count < FEW && strcmp(q->choices[count], "unstated") != 0)
            brake_text_format(text + used, TEXT - used, "%s%s", used > 0 ? ", " : "",
                              q->choices[count]);
    }
    const size_t used = count > FEW ? 0 : strlen(text);
    const bool tool = q->kind == BRAKE_PISTONS || strlen(q->measure) < ENOUGH;
    brake_text_format(text + used, TEXT - used, "%s%s", used > 0 ? ": " : "",
                      tool ? q->meaning : q->measure);
}

/* As much of a hint as fits: whole sentences, else up to a comma or a semicolon, else whole words.
 */
static int fitting(const char *text, int room)
{
    const int length = (int)strlen(text);
    if (length <= room)
        return length;
    for (const char *ends = ".;, "; *ends != '\0'; ends++) {
        for (int at = room; at > room / 3; at--) {
            if (text[at] == *ends && (text[at + 1] == ' ' || *ends == ' '))
                return at;
        }
    }
    return room;
}

static void write_line(const struct brake_sheet *sheet, int index, bool us, FILE *stream)
{
    const struct brake_quantity *q = brake_quantity_at(index);
    char value[VALUE];
    char hint[TEXT];
    write_value(sheet, index, us, value);
    write_hint(q, hint);
    const int column = brake_text_print(stream, "%-*s = %-16s ; ", NAME, q->name, value);
    brake_text_print(stream, "%.*s\n", fitting(hint, COLUMNS - column), hint);
}

void brake_file_start(const struct brake_sheet *sheet, bool us, FILE *stream)
{
    bool wanted[BRAKE_ROWS] = {false};
    const struct brake_section *open = NULL;
    find_wanted(sheet, wanted);
    brake_comment_write(stream, "CAUTION: ", BRAKE_CAUTION);
    fputs(
        "; Write what you measured in place of each ...; what keeps its dots counts as left out.\n",
        stream);
    for (int i = 0; i < brake_section_first(brake_section_count() - 1); i++) {
        if (!wanted[i])
            continue;
        if (open != brake_quantity_section(i)) {
            open = brake_quantity_section(i);
            brake_text_print(stream, "[%s]\n", open->path);
        }
        write_line(sheet, i, us, stream);
    }
}
