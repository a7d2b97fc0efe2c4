/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "brake/file.h"
#include "brake/warnings.h"
#include "vehicle/limits.h"
#include "vehicle/sections.h"
#include "vehicle/text.h"
#include "writer.h"
#include "vehicle/recalculation.h"

static const char *danger_words(enum brake_danger danger)
{
    static const char *const words[] = {"either way", "too low", "too high"};
    return words[danger];
}

/* With as many digits as it takes to be read back, but for the last bits of rounding. */
static void write_number(char *text, size_t size, const struct brake_unit *unit, double value)
{
    const double number = brake_unit_from_si(unit, value);
    for (int digits = 10; digits <= 17; digits++) {
        double read = BRAKE_NAN;
        const int length = brake_text_format(text, size, "%.*g", digits, number);
        if (brake_text_number(text, (size_t)length, &read) &&
            fabs(brake_unit_to_si(unit, read) - value) <= 5e-16 * fabs(value))
            break;
    }
    const size_t used = strlen(text);
    brake_text_format(text + used, size - used, "%s%s", unit->name[0] ? " " : "", unit->name);
}

/* Nothing when it is the catalogue's usual one: it comes back by itself. */
static void write_tolerance(const struct brake_quantity *q, const struct brake_record *record,
                            char *text, size_t size)
{
    struct brake_unit unit = *brake_unit_of(q->unit, q->dimension);
    unit.offset = 0.0;
    text[0] = '\0';
    if (record->typical || (!(record->tolerance > 0.0) && !(q->typical > 0.0)))
        return;
    brake_text_format(text, size, " +- ");
    write_number(text + 4, size - 4, &unit, record->tolerance);
}

/* The records are those of the diameters; NULL: without tolerances. */
static void write_pistons(const struct brake_pistons *pistons, const struct brake_quantity *q,
                          const struct brake_record *record, char *text, size_t size)
{
    text[0] = '\0';
    for (int i = 0; i < BRAKE_GROUPS && pistons->count[i] > 0.0; i++) {
        char diameter[48];
        char tolerance[48] = "";
        const size_t used = strlen(text);
        write_number(diameter, sizeof diameter, brake_unit_of(q->unit, q->dimension),
                     pistons->diameter[i]);
        if (record != NULL)
            write_tolerance(q, &record[i], tolerance, sizeof tolerance);
        brake_text_format(text + used, size - used, "%s%.0f x %s%s", i > 0 ? " + " : "",
                          pistons->count[i], diameter, tolerance);
    }
}

static void write_curve(const struct brake_quantity *q, const struct brake_points *points,
                        char *text, size_t size)
{
    text[0] = '\0';
    for (int i = 0; i < points->count; i++) {
        char x[48];
        char y[48];
        const size_t used = strlen(text);
        write_number(x, sizeof x, brake_unit_of(q->unit, q->dimension), points->at[i].x);
        write_number(y, sizeof y, brake_unit_of(q->second_unit, q->second), points->at[i].y);
        brake_text_format(text + used, size - used, "%s(%s, %s)", i > 0 ? "\n    " : "", x, y);
    }
}

void brake_value_write(const struct brake_vehicle *vehicle, int index, char *text, size_t size)
{
    const struct brake_quantity *q = brake_quantity_at(index);
    const void *at = brake_quantity_seen(vehicle, index);
    text[0] = '\0';
    switch (q->kind) {
    case BRAKE_REAL:
        if (!isnan(*(const double *)at))
            write_number(text, size, brake_unit_of(q->unit, q->dimension), *(const double *)at);
        break;
    case BRAKE_CHOICE:
        brake_text_format(text, size, "%s", q->choices[*(const int *)at]);
        break;
    case BRAKE_TEXT:
        brake_text_format(text, size, "%s", (const char *)at);
        break;
    case BRAKE_PISTONS:
        write_pistons(at, q, NULL, text, size);
        break;
    case BRAKE_CURVE:
        write_curve(q, at, text, size);
        break;
    }
}

/* A line that the file would need to say what is recorded; or the same as a comment, on one
 * line. */
static void write_line(const struct brake_sheet *sheet, int index, bool comment, FILE *stream)
{
    enum { LONG = 2048 };
    char value[LONG];
    char tolerance[60] = "";
    const struct brake_quantity *q = brake_quantity_at(index);
    const struct brake_record *record = &sheet->record[index];
    if (q->kind == BRAKE_PISTONS)
        write_pistons(brake_quantity_seen(&sheet->vehicle, index), q, record + 1, value,
                      sizeof value);
    else
        brake_value_write(&sheet->vehicle, index, value, sizeof value);
    if (q->kind == BRAKE_REAL)
        write_tolerance(q, record, tolerance, sizeof tolerance);
    for (char *at = value; comment && *at != '\0'; at++)
        if (*at == '\n')
            *at = ' ';
    brake_text_print(stream, "%s%s = %s%s", comment ? "; overridden: " : "", q->name, value,
                     tolerance);
    if (record->from > BRAKE_DEFAULT && (q->kind != BRAKE_TEXT || q->role == BRAKE_RAW))
        brake_text_print(stream, ", %s%s", brake_from_word(record->from),
                         record->same ? ", same as before" : "");
    fputc('\n', stream);
}

void brake_comment_write(FILE *stream, const char *head, const char *text)
{
    enum { COLUMNS = 98 };
    int column = brake_text_print(stream, "; %s", head);
    for (bool first = true; *text != '\0'; first = false) {
        const int length = (int)strcspn(text, " ");
        if (!first && column + 1 + length > COLUMNS)
            column = brake_text_print(stream, "\n;  ") - 1;
        column += brake_text_print(stream, "%s%.*s", first ? "" : " ", length, text);
        text += length;
        text += strspn(text, " ");
    }
    fputc('\n', stream);
}

static void write_range(const struct brake_quantity *q, FILE *stream)
{
    if (q->kind == BRAKE_REAL || q->kind == BRAKE_PISTONS) {
        const struct brake_unit *unit = brake_unit_of(q->unit, q->dimension);
        brake_text_print(stream, "; range %s; dangerous when the entry is %s\n",
                         limits_words(unit, q->low, q->high).text, danger_words(q->danger));
    }
    if (q->kind == BRAKE_CHOICE) {
        fputs("; one of", stream);
        for (int i = 0; q->choices[i] != NULL; i++)
            brake_text_print(stream, "%s %s", i > 0 ? "," : "", q->choices[i]);
        fputc('\n', stream);
    }
}

static const char *example(const struct brake_quantity *q)
{
    switch (q->kind) {
    case BRAKE_PISTONS:
        return "2 x 48 mm, measured";
    case BRAKE_CURVE:
        return "(.., ..) (.., ..), measured";
    case BRAKE_TEXT:
    case BRAKE_CHOICE:
    case BRAKE_REAL:
        break;
    }
    return "...";
}

static void write_missing(const struct brake_quantity *q, FILE *stream)
{
    if (!isnan(q->fallback) && q->kind == BRAKE_CHOICE)
        brake_text_print(stream, "; %s = %s\n", q->name, q->choices[(int)q->fallback]);
    else if (!isnan(q->fallback))
        brake_text_print(stream, "; %s = %.6g%s%s\n", q->name,
                         brake_unit_from_si(brake_unit_of(q->unit, q->dimension), q->fallback),
                         q->unit[0] ? " " : "", q->unit);
    else if (q->kind == BRAKE_REAL)
        brake_text_print(stream, "; %s = ...%s%s, measured\n", q->name, q->unit[0] ? " " : "",
                         q->unit);
    else
        brake_text_print(stream, "; %s = %s\n", q->name, example(q));
}

/* Sections, as bits, of which what is worked out is written, and not the readings: a number that
 * was set wins over those, and would contradict them when the file is read. */
static unsigned long long reduced_sections(const struct brake_sheet *sheet)
{
    struct brake_places places;
    unsigned long long set = 0;
    unsigned long long reduced = 0;
    brake_places_fill(&places);
    for (int i = 0; i < brake_section_count() - 1; i++) {
        for (int row = 0; row < brake_section_at(i)->count; row++) {
            const int index = places.first[i] + row;
            if (sheet->record[index].set && brake_quantity_at(index)->role == BRAKE_WORKED)
                set |= 1ULL << i;
        }
    }
    for (int rule = 0; rule < BRAKE_WORK_RULES; rule++)
        reduced |= (places.written[rule] & set) != 0 ? places.touched[rule] : 0;
    return reduced;
}

/* Whether a section that repeats another has a line of its own since: then it does not repeat it
 * when the file is read. */
static bool stands_alone(const struct brake_sheet *sheet, int index)
{
    const struct brake_section *section = brake_quantity_section(index);
    bool set = false;
    for (int i = 0; i < brake_catalogue_count(); i++)
        set = set || (sheet->record[i].set && brake_quantity_section(i) == section);
    return section->same_as != NULL && set;
}

/* A line is there when the file gave it, or when it stands for the readings of its section, or for
 * those that its section repeats. */
static bool has_line(const struct brake_sheet *sheet, int index, bool reduced)
{
    const struct brake_record *record = &sheet->record[index];
    if (record->from == BRAKE_DEFAULT && (reduced || !record->worked) && stands_alone(sheet, index))
        return !reduced || brake_quantity_at(index)->role != BRAKE_RAW;
    if (record->from <= BRAKE_DEFAULT)
        return false;
    return reduced ? record->set || brake_quantity_at(index)->role != BRAKE_RAW : !record->worked;
}

void brake_write_quantity(const struct brake_sheet *sheet, int index, bool reduced, FILE *stream)
{
    const struct brake_quantity *q = brake_quantity_at(index);
    const struct brake_record *record = &sheet->record[index];
    if (q->role == BRAKE_PART_OF)
        return;
    fputc('\n', stream);
    brake_comment_write(
        stream, q->need == BRAKE_NEEDED && q->role != BRAKE_WORKED ? "NEEDED. " : "", q->meaning);
    brake_comment_write(stream, "how: ", q->measure);
    write_range(q, stream);
    if (q->why != NULL)
        brake_comment_write(stream, "left out: ", q->why);
    if (has_line(sheet, index, reduced)) {
        write_line(sheet, index, false, stream);
    } else if (record->from > BRAKE_DEFAULT && !record->worked) {
        write_line(sheet, index, true, stream);
    } else {
        write_missing(q, stream);
    }
}

static void write_part(const struct brake_sheet *sheet, int slot, FILE *stream)
{
    const int section = brake_section_count() - 1;
    const int count = brake_section_at(section)->count;
    const int first = brake_section_first(section) + slot * count;
    brake_text_print(stream, "\n[part.%s]\n", sheet->vehicle.part[slot].name);
    for (int row = 0; row < count; row++)
        write_line(sheet, first + row, false, stream);
}

void brake_write_section(int section, FILE *stream)
{
    const struct brake_section *at = brake_section_at(section);
    brake_text_print(stream, "\n\n[%s]\n; %s\n", at->path, at->meaning);
}

void brake_file_write_lines(const struct brake_sheet *sheet, FILE *stream)
{
    const unsigned long long reduced = reduced_sections(sheet);
    for (int i = 0; i < brake_section_count() - 1; i++) {
        const struct brake_section *section = brake_section_at(i);
        bool begun = false;
        for (int row = 0; row < section->count; row++) {
            const int index = brake_section_first(i) + row;
            if (brake_quantity_at(index)->role == BRAKE_PART_OF ||
                !has_line(sheet, index, (reduced >> i & 1) != 0))
                continue;
            if (!begun)
                brake_text_print(stream, "[%s]\n", section->path);
            begun = true;
            write_line(sheet, index, false, stream);
        }
    }
    for (int slot = 0; slot < sheet->vehicle.parts; slot++)
        write_part(sheet, slot, stream);
}

void brake_file_write(const struct brake_sheet *sheet, FILE *stream)
{
    const int parts = brake_section_count() - 1;
    const unsigned long long reduced = reduced_sections(sheet);
    brake_comment_write(stream, "CAUTION: ", BRAKE_CAUTION);
    fputs("; Vehicle file. A line is: name = number unit +- number unit, where it came from\n"
          "; (measured, catalogue or estimated). Take the ; away from a line to give it; a line\n"
          "; left out takes the default that stands there, or is not known.\n",
          stream);
    for (int i = 0; i < parts; i++) {
        const struct brake_section *section = brake_section_at(i);
        brake_write_section(i, stream);
        for (int row = 0; row < section->count; row++)
            brake_write_quantity(sheet, brake_section_first(i) + row, (reduced >> i & 1) != 0,
                                 stream);
    }
    brake_text_print(stream,
                     "\n\n; %s\n; [part.winch]\n; mass = 38 kg, catalogue\n"
                     "; behind_front_axle = -620 mm, measured\n; height = 780 mm, measured\n",
                     brake_section_at(parts)->meaning);
    for (int slot = 0; slot < sheet->vehicle.parts; slot++)
        write_part(sheet, slot, stream);
}
