/* SPDX-License-Identifier: MIT */
/* The tables of the library as JSON, from which the Python modules and their types are made. */
#include "answer/document.h"
#include "answer/parts.h"
#include "bridge.h"
#include "criteria/meanings.h"

static struct brake_cell plain(double number)
{
    return brake_cell_number(number, NULL);
}

static void sections(struct brake_document *d)
{
    static const struct brake_column column[] = {{"path", NULL, BRAKE_COLUMN},
                                                 {"meaning", NULL, BRAKE_COLUMN}};
    brake_document_table(d, &(struct brake_table){"sections", .column = column, .columns = 2});
    for (int i = 0; i < brake_section_count(); i++) {
        const struct brake_section *section = brake_section_at(i);
        brake_document_row(d, (const struct brake_cell[]){brake_cell_text(section->path),
                                                          brake_cell_text(section->meaning)});
    }
}

/* The rows of all sections, in the order of the sections. */
static void quantities(struct brake_document *d)
{
    static const char *const kinds[] = {"real", "choice", "text", "pistons", "curve"};
    static const struct brake_column column[] = {
        {"section", NULL, BRAKE_COLUMN},     {"name", NULL, BRAKE_COLUMN},
        {"kind", NULL, BRAKE_COLUMN},        {"meaning", NULL, BRAKE_COLUMN},
        {"measure", NULL, BRAKE_COLUMN},     {"unit", NULL, BRAKE_COLUMN},
        {"second_unit", NULL, BRAKE_COLUMN}, {"low", NULL, BRAKE_COLUMN},
        {"high", NULL, BRAKE_COLUMN},        {"fallback", NULL, BRAKE_COLUMN},
        {"part_of", NULL, BRAKE_COLUMN},     {"choices", NULL, BRAKE_COLUMN}};
    brake_document_table(d, &(struct brake_table){"quantities", .column = column, .columns = 12});
    for (int i = 0; i < brake_section_count(); i++) {
        const struct brake_section *section = brake_section_at(i);
        for (int k = 0; k < section->count; k++) {
            const struct brake_quantity *row = &section->rows[k];
            brake_document_row(d,
                               (const struct brake_cell[]){
                                   brake_cell_text(section->path), brake_cell_text(row->name),
                                   brake_cell_text(kinds[row->kind]), brake_cell_text(row->meaning),
                                   brake_cell_text(row->measure != NULL ? row->measure : ""),
                                   brake_cell_text(brake_unit_si(row->dimension)->name),
                                   brake_cell_text(brake_unit_si(row->second)->name),
                                   plain(row->low), plain(row->high), plain(row->fallback),
                                   brake_cell_truth(row->role == BRAKE_PART_OF),
                                   brake_cell_text(brake_part_choices(d, row, " "))});
        }
    }
}

static void results(struct brake_document *d)
{
    static const struct brake_column column[] = {
        {"path", NULL, BRAKE_COLUMN},    {"unit", NULL, BRAKE_COLUMN},
        {"meaning", NULL, BRAKE_COLUMN}, {"symbol", NULL, BRAKE_COLUMN},
        {"section", NULL, BRAKE_COLUMN}, {"evaluated", NULL, BRAKE_COLUMN}};
    brake_document_table(d, &(struct brake_table){"results", .column = column, .columns = 6});
    for (int i = 0; i < brake_result_all(); i++) {
        const struct brake_result *row = brake_result_at(i);
        char path[80];
        brake_result_path(i, path, sizeof path);
        brake_document_row(
            d, (const struct brake_cell[]){
                   brake_cell_text(path), brake_cell_text(brake_unit_si(row->dimension)->name),
                   brake_cell_text(row->meaning), brake_cell_text(row->symbol),
                   brake_cell_count(row->section), brake_cell_truth(i < brake_result_count())});
    }
}

static void criteria(struct brake_document *d)
{
    static const struct brake_column column[] = {{"id", NULL, BRAKE_COLUMN},
                                                 {"title", NULL, BRAKE_COLUMN},
                                                 {"clause", NULL, BRAKE_COLUMN},
                                                 {"meaning", NULL, BRAKE_COLUMN},
                                                 {"unit", NULL, BRAKE_COLUMN}};
    brake_document_table(d, &(struct brake_table){"criteria", .column = column, .columns = 5});
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_criterion *row = brake_criterion_at(i);
        brake_document_row(
            d, (const struct brake_cell[]){brake_cell_text(row->id), brake_cell_text(row->title),
                                           brake_cell_text(row->clause),
                                           brake_cell_text(brake_measure_meaning(row->measure)),
                                           brake_cell_text(brake_part_unit(row->measure)->name)});
    }
}

#define NAME_AND_NUMBER(name, number, text) brake_document_fact(d, #name, NULL, plain(number));

static void statuses(struct brake_document *d)
{
    brake_document_section(d, "statuses", NULL);
    BRAKE_STATUS_LIST(NAME_AND_NUMBER)
    brake_document_end(d);
}

char *catalogue_json(void)
{
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    if (d == NULL)
        return NULL;
    sections(d);
    quantities(d);
    results(d);
    criteria(d);
    statuses(d);
    return bridge_printed(d, BRAKE_AS_COMPACT_JSON);
}
