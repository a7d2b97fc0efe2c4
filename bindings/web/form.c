/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L /* open_memstream, fmemopen */
/* What the form is made from: a file to start from, and the tables of lines and units as JSON. */
#include <stdio.h>
#include <stdlib.h>

#include "answer/document.h"
#include "answer/parts.h"
#include "brake/brake.h"
#include "face.h"
#include "vehicle/sections.h"
#include "vehicle/text.h"

FACE(face_room) void *face_room(int bytes)
{
    return malloc((size_t)bytes);
}

FACE(face_free) void face_free(void *text)
{
    free(text);
}

/* ---- a file to start from ---------------------------------------------------------------- */

static void set(struct brake_sheet *sheet, const char *path, const char *word)
{
    char setting[120];
    struct brake_error error;
    brake_text_format(setting, sizeof setting, "%s=%.60s", path, word);
    (void)brake_file_set(sheet, setting, &error); /* a word that is not known is left out */
}

FACE(face_start)
char *face_start(int front, int rear, int assist, const char *use, const char *country, bool us)
{
    static const char *const brakes[] = {"disc", "drum"};
    static const char *const boosters[] = {"none", "fitted", "hydraulic"};
    char *text = NULL;
    size_t size = 0;
    struct brake_sheet *sheet = brake_sheet_new();
    FILE *stream = open_memstream(&text, &size);
    if (sheet != NULL && stream != NULL) {
        set(sheet, "front.axle.brake", brakes[front == 1]);
        set(sheet, "rear.axle.brake", brakes[rear == 1]);
        set(sheet, "booster.booster", boosters[assist >= 0 && assist < 3 ? assist : 1]);
        set(sheet, "vehicle.use", use);
        set(sheet, "vehicle.country", country);
        brake_file_start(sheet, us, stream);
    }
    if (stream != NULL)
        fclose(stream);
    brake_sheet_free(sheet);
    return text;
}

/* ---- the tables ------------------------------------------------------------------------- */

static void sections(struct brake_document *d)
{
    static const char *const belongs[] = {"", "front disc", "front drum", "rear disc", "rear drum"};
    static const struct brake_column column[] = {{"path", NULL, BRAKE_COLUMN},
                                                 {"meaning", NULL, BRAKE_COLUMN},
                                                 {"belongs", NULL, BRAKE_COLUMN}};
    brake_document_table(d, &(struct brake_table){"sections", .column = column, .columns = 3});
    for (int i = 0; i < brake_section_count(); i++) {
        const struct brake_section *section = brake_section_at(i);
        brake_document_row(d, (const struct brake_cell[]){
                                  brake_cell_text(section->path), brake_cell_text(section->meaning),
                                  brake_cell_text(belongs[section->belongs])});
    }
}

/* Units that a line takes, a blank between two; what is counted has none. */
static const char *units(struct brake_document *d, const struct brake_quantity *row)
{
    if (brake_quantity_unit(row, false)->name[0] == '\0')
        return "";
    const struct brake_unit *unit;
    const char *all = NULL;
    for (int i = 0; (unit = brake_unit_at(i)) != NULL; i++) {
        if (unit->dimension == row->dimension && unit->name[0] != '\0')
            all = brake_document_join(d, all, " ", unit->name);
    }
    return all != NULL ? all : "";
}

static void quantity(struct brake_document *d, const char *section,
                     const struct brake_quantity *row)
{
    static const char *const kinds[] = {"real", "choice", "text", "pistons", "curve"};
    brake_document_row(d, (const struct brake_cell[]){
                              brake_cell_text(section), brake_cell_text(row->name),
                              brake_cell_text(kinds[row->kind]), brake_cell_text(row->meaning),
                              brake_cell_text(row->measure != NULL ? row->measure : ""),
                              brake_cell_text(brake_quantity_unit(row, false)->name),
                              brake_cell_text(brake_quantity_unit(row, true)->name),
                              brake_cell_text(brake_means_word(row->means)),
                              brake_cell_text(brake_part_choices(d, row, " ")),
                              brake_cell_text(units(d, row))});
}

static void quantities(struct brake_document *d)
{
    static const struct brake_column column[] = {
        {"section", NULL, BRAKE_COLUMN}, {"name", NULL, BRAKE_COLUMN},
        {"kind", NULL, BRAKE_COLUMN},    {"meaning", NULL, BRAKE_COLUMN},
        {"measure", NULL, BRAKE_COLUMN}, {"si", NULL, BRAKE_COLUMN},
        {"us", NULL, BRAKE_COLUMN},      {"means", NULL, BRAKE_COLUMN},
        {"choices", NULL, BRAKE_COLUMN}, {"units", NULL, BRAKE_COLUMN}};
    brake_document_table(d, &(struct brake_table){"quantities", .column = column, .columns = 10});
    for (int i = 0; i < brake_section_count(); i++) {
        const struct brake_section *section = brake_section_at(i);
        for (int k = 0; k < section->count; k++) {
            if (section->rows[k].role != BRAKE_PART_OF)
                quantity(d, section->path, &section->rows[k]);
        }
    }
}

/* What the codes of requirements stand for. */
static void requirements(struct brake_document *d)
{
    static const struct brake_column column[] = {{"id", NULL, BRAKE_COLUMN},
                                                 {"title", NULL, BRAKE_COLUMN}};
    brake_document_table(d, &(struct brake_table){"requirements", .column = column, .columns = 2});
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_criterion *row = brake_criterion_at(i);
        brake_document_row(
            d, (const struct brake_cell[]){brake_cell_text(row->id), brake_cell_text(row->title)});
    }
}

FACE(face_catalogue) char *face_catalogue(void)
{
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    if (d != NULL) {
        brake_document_fact(d, "caution_line", NULL, brake_cell_text(BRAKE_CAUTION_LINE));
        sections(d);
        quantities(d);
        requirements(d);
    }
    char *text = brake_document_text(d, BRAKE_AS_COMPACT_JSON);
    brake_document_free(d);
    return text;
}
