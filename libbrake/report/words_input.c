#include <math.h>
#include <stdio.h>
#include <string.h>

#include "brake/file.h"
#include "words.h"
#include "vehicle/text.h"

bool brake_words_repeats(const struct brake_sheet *sheet, int index)
{
    return brake_quantity_section(index)->same_as != NULL &&
           sheet->record[index].from == BRAKE_DEFAULT;
}

bool brake_words_given(const struct brake_sheet *sheet, int index)
{
    return sheet->record[index].from > BRAKE_DEFAULT;
}

void brake_words_origins(const struct brake_sheet *sheet, char *text, size_t size)
{
    int count[BRAKE_MEASURED + 1] = {0};
    for (int i = 0; i < brake_catalogue_count(); i++)
        count[sheet->record[i].from] += !brake_words_repeats(sheet, i);
    brake_text_format(text, size,
                      "%d measured, %d from catalogues, %d estimated, %d left at default",
                      count[BRAKE_MEASURED], count[BRAKE_CATALOGUE], count[BRAKE_ESTIMATED],
                      count[BRAKE_DEFAULT]);
}

/* Whether no line before it in its section repeats another section as well. */
static bool first_of_repeated(const struct brake_sheet *sheet, int index)
{
    const struct brake_section *section = brake_quantity_section(index);
    for (int i = index - 1; i >= 0 && brake_quantity_section(i) == section; i--) {
        if (brake_words_repeats(sheet, i))
            return false;
    }
    return true;
}

bool brake_words_default(const struct brake_sheet *sheet, int index, char *text, size_t size)
{
    const struct brake_section *section = brake_quantity_section(index);
    const char *why = brake_quantity_at(index)->why;
    char path[160];
    char value[2048];
    if (brake_words_repeats(sheet, index)) {
        brake_text_format(text, size, "[%s] as [%s]", section->path, section->same_as);
        return first_of_repeated(sheet, index);
    }
    brake_catalogue_path(&sheet->vehicle, index, path, sizeof path);
    brake_value_write(&sheet->vehicle, index, value, sizeof value);
    brake_text_format(text, size, "%s = %s%s%s%s", path, value, why != NULL ? " (" : "",
                      why != NULL ? why : "", why != NULL ? ")" : "");
    return sheet->record[index].from == BRAKE_DEFAULT;
}

/* On one line, with one blank where there were several. */
static void join_lines(char *text)
{
    char *to = text;
    for (const char *from = text; *from != '\0'; from++) {
        const bool blank = *from == ' ' || *from == '\n';
        if (!blank)
            *to++ = *from;
        else if (to > text && to[-1] != ' ')
            *to++ = ' ';
    }
    *to = '\0';
}

void brake_words_input(const struct brake_sheet *sheet, int index, char *text, size_t size)
{
    const struct brake_quantity *q = brake_quantity_at(index);
    if (q->kind == BRAKE_REAL)
        brake_words_amount(brake_unit_of(q->unit, q->dimension),
                           brake_quantity_value(&sheet->vehicle, index), text, size);
    else
        brake_value_write(&sheet->vehicle, index, text, size);
    join_lines(text);
}

void brake_words_tolerance(const struct brake_sheet *sheet, int index, char *text, size_t size)
{
    const struct brake_quantity *q = brake_quantity_at(index);
    const struct brake_record *record = &sheet->record[index];
    text[0] = '\0';
    if (!(record->tolerance > 0.0))
        return;
    const struct brake_unit *unit = brake_unit_of(q->unit, q->dimension);
    /* a width has no zero to be counted from */
    const struct brake_unit width = {unit->name, unit->dimension, unit->factor, 0.0};
    const struct brake_unit *us = brake_unit_beside(unit);
    brake_text_format(text, size, "%.3g%s%s", brake_unit_from_si(&width, record->tolerance),
                      unit->name[0] ? " " : "", unit->name);
    if (us != unit)
        brake_text_format(text + strlen(text), size - strlen(text), " (%.3g %s)",
                          record->tolerance / us->factor, us->name);
    if (record->typical)
        brake_text_format(text + strlen(text), size - strlen(text), ", usual");
}

void brake_words_origin(const struct brake_sheet *sheet, int index, char *text, size_t size)
{
    const struct brake_record *record = &sheet->record[index];
    brake_text_format(text, size, "%s%s", brake_from_word(record->from),
                      record->worked ? ", worked out" : "");
}

void brake_words_place(const struct brake_sheet *sheet, int index, char *text, size_t size)
{
    const struct brake_record *record = &sheet->record[index];
    if (record->set)
        brake_text_format(text, size, "--set");
    else if (record->line > 0)
        brake_text_format(text, size, "%d", record->line);
    else
        brake_text_format(text, size, "-");
}
