/* SPDX-License-Identifier: MIT */
#include "parts.h"

#include <math.h>
#include <string.h>

#include "brake/file.h"
#include "vehicle/sections.h"
#include "vehicle/groups.h"
#include "criteria/judge.h"

const char *brake_part_name(const struct brake_sheet *sheet)
{
    const char *name = sheet->vehicle.general.name;
    return name[0] != '\0' ? name : "Vehicle without a name";
}

const char *brake_part_path(struct brake_document *d, const struct brake_vehicle *vehicle,
                            int index)
{
    char path[160];
    brake_catalogue_path(vehicle, index, path, sizeof path);
    return brake_document_words(d, "%s", path);
}

const struct brake_unit *brake_part_unit(enum brake_measure measure)
{
    const enum brake_dimension dimension = brake_measure_dimension(measure);
    const bool share = dimension == BRAKE_RATIO && measure != BRAKE_REAR_CURVE &&
                       measure != BRAKE_ADHESION_CURVE && measure != BRAKE_REAR_FIRST;
    return share ? brake_unit_find("%") : brake_unit_si(dimension);
}

const struct brake_unit *brake_part_result_unit(int index)
{
    const struct brake_result *row = brake_result_at(index);
    return brake_unit_of(row->unit, row->dimension);
}

const struct brake_unit *brake_part_output_unit(struct brake_output output)
{
    return output.criterion ? brake_unit_find("%") : brake_part_result_unit(output.index);
}

const struct brake_unit *brake_part_line_unit(int index)
{
    const struct brake_quantity *q = brake_quantity_at(index);
    return brake_unit_of(q->unit, q->dimension);
}

struct brake_cell brake_part_si(enum brake_dimension dimension)
{
    return brake_cell_text(brake_unit_si(dimension)->name);
}

struct brake_cell brake_part_result(const struct brake_results *results, int index)
{
    return brake_cell_number(brake_result_value(results, index), brake_part_result_unit(index));
}

struct brake_cell brake_part_study(const struct brake_study_results *results, int index)
{
    return brake_cell_number(brake_study_value(results, index), brake_part_result_unit(index));
}

int brake_part_insert(int *order, int count, int one,
                      bool (*before)(const void *context, int x, int y), const void *context)
{
    int at = count;
    for (; at > 0 && before(context, one, order[at - 1]); at--)
        order[at] = order[at - 1];
    order[at] = one;
    return count + 1;
}

struct brake_cell brake_part_measured(const struct brake_measured *m, const struct brake_unit *unit,
                                      enum brake_form form)
{
    struct brake_cell cell = brake_cell_within(m->value, m->half, unit);
    cell.form = form;
    return cell;
}

void brake_part_numbers(struct brake_document *d)
{
    static const struct brake_column column[] = {
        {"name", NULL, BRAKE_COLUMN}, {"value", NULL, BRAKE_COLUMN}, {"unit", NULL, BRAKE_COLUMN}};
    brake_document_table(
        d, &(struct brake_table){.key = "results", .keyed = true, .column = column, .columns = 3});
}

void brake_part_number(struct brake_document *d, const char *name, struct brake_cell value)
{
    brake_document_row(d, (const struct brake_cell[]){brake_cell_text(name), value,
                                                      brake_part_si(value.unit->dimension)});
}

/* ---- lines ---------------------------------------------------------------------------------- */

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

const char *brake_part_as_given(struct brake_document *d, const char *text)
{
    return d->systems == BRAKE_US_ONLY ? brake_document_told(d, text) : text;
}

/* Pairs for programs; for people as the file has them. */
static struct brake_cell pairs(struct brake_document *d, const struct brake_vehicle *vehicle,
                               int index, const double *list, int count)
{
    char text[2048];
    brake_value_write(vehicle, index, text, sizeof text);
    join_lines(text);
    struct brake_cell cell = brake_cell_list(brake_document_numbers(d, list, count), count, NULL);
    cell.pairs = true;
    cell.text = brake_document_words(d, "%s", brake_part_as_given(d, text));
    return cell;
}

static struct brake_cell pistons(struct brake_document *d, const struct brake_vehicle *vehicle,
                                 int index, const struct brake_pistons *p)
{
    double list[2 * BRAKE_GROUPS];
    int count = 0;
    for (int i = 0; i < BRAKE_GROUPS && p->count[i] > 0.0; i++) {
        list[count++] = p->count[i];
        list[count++] = p->diameter[i];
    }
    return pairs(d, vehicle, index, list, count);
}

static struct brake_cell curve(struct brake_document *d, const struct brake_vehicle *vehicle,
                               int index, const struct brake_points *p)
{
    double list[2 * BRAKE_POINTS];
    double *value = list;
    for (int i = 0; i < p->count; i++) {
        *value++ = p->at[i].x;
        *value++ = p->at[i].y;
    }
    return pairs(d, vehicle, index, list, 2 * p->count);
}

struct brake_cell brake_part_value(struct brake_document *d, const struct brake_vehicle *vehicle,
                                   int index)
{
    const struct brake_quantity *q = brake_quantity_at(index);
    const void *at = brake_quantity_seen(vehicle, index);
    switch (q->kind) {
    case BRAKE_REAL:
        return brake_cell_number(*(const double *)at, brake_part_line_unit(index));
    case BRAKE_CHOICE:
        return brake_cell_text(q->choices[*(const int *)at]);
    case BRAKE_TEXT:
        return brake_cell_text(brake_document_words(d, "%s", (const char *)at));
    case BRAKE_PISTONS:
        return pistons(d, vehicle, index, at);
    case BRAKE_CURVE:
        return curve(d, vehicle, index, at);
    }
    return brake_cell_nothing();
}

struct brake_cell brake_part_given(struct brake_document *d, const struct brake_sheet *sheet,
                                   int index)
{
    struct brake_cell cell = brake_cell_nothing();
    if (index >= 0 && sheet->record[index].from != BRAKE_ABSENT)
        return brake_part_value(d, &sheet->vehicle, index);
    cell.text = "not given";
    return cell;
}

const char *brake_part_choices(struct brake_document *d, const struct brake_quantity *quantity,
                               const char *glue)
{
    const char *all = NULL;
    for (int i = 0; quantity->choices != NULL && quantity->choices[i] != NULL; i++)
        all = brake_document_join(d, all, glue, quantity->choices[i]);
    return all != NULL ? all : "";
}

static struct brake_cell second_unit(const struct brake_quantity *q)
{
    return q->kind == BRAKE_CURVE ? brake_part_si(q->second) : brake_cell_nothing();
}

/* A width has no zero to be counted from: that of a temperature is a rise. */
static struct brake_cell tolerance_of(const struct brake_quantity *q,
                                      const struct brake_record *record)
{
    const struct brake_unit *unit = q->unit != NULL ? brake_unit_of(q->unit, q->dimension) : NULL;
    if (q->dimension == BRAKE_TEMPERATURE)
        unit = brake_unit_si(BRAKE_RISE);
    struct brake_cell cell = brake_cell_form(record->tolerance, unit, BRAKE_THREE_DIGITS);
    cell.difference = true;
    return cell;
}

static struct brake_cell place_of(struct brake_document *d, const struct brake_record *record)
{
    if (record->set)
        return brake_cell_text("--set");
    return record->line > 0 ? brake_cell_text(brake_document_words(d, "%d", record->line))
                            : brake_cell_nothing();
}

/* Every line that is known. People see it as a table only when they are to. */
static void known_lines(struct brake_document *d, const struct brake_sheet *sheet, bool seen)
{
    const struct brake_column column[] = {
        {"path", seen ? "Line" : NULL, BRAKE_COLUMN},
        {"value", seen ? "Value" : NULL, BRAKE_COLUMN},
        {"unit", NULL, BRAKE_COLUMN},
        {"second_unit", NULL, BRAKE_COLUMN},
        {"tolerance", seen ? "May be off by" : NULL, BRAKE_COLUMN},
        {"from", seen ? "From" : NULL, BRAKE_COLUMN},
        {"worked_out", NULL, BRAKE_COLUMN},
        {"usual_tolerance", NULL, BRAKE_COLUMN},
        {NULL, seen ? "Line no." : NULL, BRAKE_COLUMN}};
    brake_document_table(d, &(struct brake_table){.key = "vehicle",
                                                  .keyed = true,
                                                  .column = column,
                                                  .columns = sizeof column / sizeof column[0]});
    for (int i = 0; i < brake_catalogue_count(); i++) {
        const struct brake_record *record = &sheet->record[i];
        const struct brake_quantity *q = brake_quantity_at(i);
        if (record->from == BRAKE_ABSENT)
            continue;
        struct brake_cell path = brake_cell_text(brake_part_path(d, &sheet->vehicle, i));
        path.quiet = record->from == BRAKE_DEFAULT; /* people read why it is so in a list */
        brake_document_row(
            d, (const struct brake_cell[]){
                   path, brake_part_value(d, &sheet->vehicle, i), brake_part_si(q->dimension),
                   second_unit(q), tolerance_of(q, record),
                   brake_cell_text(brake_from_word(record->from)), brake_cell_truth(record->worked),
                   brake_cell_truth(record->typical), place_of(d, record)});
    }
}

void brake_part_known(struct brake_document *d, const struct brake_sheet *sheet)
{
    known_lines(d, sheet, false);
}

/* ---- defaults ------------------------------------------------------------------------------- */

bool brake_part_repeats(const struct brake_sheet *sheet, int index)
{
    return brake_quantity_section(index)->same_as != NULL &&
           sheet->record[index].from == BRAKE_DEFAULT;
}

/* Whether no line before it in its section repeats another section as well. */
static bool first_that_repeats(const struct brake_sheet *sheet, int index)
{
    const struct brake_section *section = brake_quantity_section(index);
    for (int i = index - 1; i >= 0 && brake_quantity_section(i) == section; i--) {
        if (brake_part_repeats(sheet, i))
            return false;
    }
    return brake_part_repeats(sheet, index);
}

static const char *repeated(struct brake_document *d, int index)
{
    const struct brake_section *section = brake_quantity_section(index);
    return brake_document_words(d, "[%s] as [%s]", section->path, section->same_as);
}

static const char *default_of(struct brake_document *d, const struct brake_sheet *sheet, int index)
{
    const char *why = brake_quantity_at(index)->why;
    const struct brake_cell value = brake_part_value(d, &sheet->vehicle, index);
    return brake_document_words(d, "%s = %s%s%s%s", brake_part_path(d, &sheet->vehicle, index),
                                brake_document_amount(d, value), why != NULL ? " (" : "",
                                why != NULL ? brake_part_as_given(d, why) : "",
                                why != NULL ? ")" : "");
}

static void defaults(struct brake_document *d, const struct brake_sheet *sheet)
{
    const struct brake_column column[] = {{NULL, "Line", BRAKE_COLUMN}};
    brake_document_table(d, &(struct brake_table){.caption = "Left at default, not measured:",
                                                  .rows = BRAKE_ROWS_LISTED,
                                                  .column = column,
                                                  .columns = 1});
    for (int i = 0; i < brake_catalogue_count(); i++) {
        const bool plain = sheet->record[i].from == BRAKE_DEFAULT && !brake_part_repeats(sheet, i);
        if (plain || first_that_repeats(sheet, i))
            brake_document_row(d, (const struct brake_cell[]){brake_cell_text(
                                      plain ? default_of(d, sheet, i) : repeated(d, i))});
    }
}

enum brake_systems brake_answer_systems(const struct brake_sheet *sheet)
{
    int us = 0;
    int si = 0;
    for (int i = 0; i < brake_catalogue_count(); i++) {
        const struct brake_quantity *q = brake_quantity_at(i);
        const struct brake_record *record = &sheet->record[i];
        const struct brake_unit *unit = q->unit != NULL ? brake_part_line_unit(i) : NULL;
        if (record->from <= BRAKE_DEFAULT || record->worked || unit == NULL ||
            brake_unit_beside(unit) == unit)
            continue;
        us += record->us;
        si += !record->us;
    }
    return us > si ? BRAKE_US_FIRST : BRAKE_SI_FIRST;
}

static void origins(struct brake_document *d, const struct brake_sheet *sheet)
{
    int count[BRAKE_MEASURED + 1] = {0};
    for (int i = 0; i < brake_catalogue_count(); i++)
        count[sheet->record[i].from] += !brake_part_repeats(sheet, i);
    brake_document_say_in(d, NULL, NULL,
                          "%d measured, %d from catalogues, %d estimated, %d left at default.",
                          count[BRAKE_MEASURED], count[BRAKE_CATALOGUE], count[BRAKE_ESTIMATED],
                          count[BRAKE_DEFAULT]);
}

void brake_part_lines(struct brake_document *d, const struct brake_sheet *sheet, bool seen)
{
    brake_document_section(d, NULL, "Lines of the vehicle file");
    origins(d, sheet);
    known_lines(d, sheet, seen);
    defaults(d, sheet);
    brake_document_end(d);
}

/* ---- warnings ------------------------------------------------------------------------------- */

void brake_part_warnings(struct brake_document *d, const struct brake_warning *warning, int count)
{
    const struct brake_column column[] = {
        {"id", NULL, BRAKE_COLUMN}, {"text", NULL, BRAKE_COLUMN}, {NULL, "Warning", BRAKE_COLUMN}};
    brake_document_section(d, NULL, "Warnings");
    brake_document_table(d, &(struct brake_table){.key = "warnings",
                                                  .none = "None.",
                                                  .rows = BRAKE_ROWS_ALERTS,
                                                  .column = column,
                                                  .columns = 3});
    for (int i = 0; i < count; i++)
        brake_document_row(d, (const struct brake_cell[]){
                                  brake_cell_text(warning[i].id), brake_cell_text(warning[i].text),
                                  brake_cell_text(brake_document_told(d, warning[i].text))});
    brake_document_end(d);
}

void brake_part_notes(struct brake_document *d, const struct brake_notes *aside)
{
    static const struct brake_column column[] = {{"note", "note", BRAKE_COLUMN}};
    if (aside->count > 0)
        brake_document_section(d, NULL, "Left aside");
    brake_document_table(
        d, &(struct brake_table){
               .key = "notes", .rows = BRAKE_ROWS_LISTED, .column = column, .columns = 1});
    for (int i = 0; i < aside->count; i++)
        brake_document_row(d, (const struct brake_cell[]){brake_cell_text(aside->note[i])});
    if (aside->more > 0)
        brake_document_say_in(d, NULL, NULL, "and %ld more of the kind", aside->more);
    if (aside->count > 0)
        brake_document_end(d);
}
