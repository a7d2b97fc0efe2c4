/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L /* fmemopen, open_memstream */
#include "answer/document.h"
#include "file/carried.h"
#include "file/digest.h"
#include "file/told.h"
#include "file/writer.h"
#include "vehicle/sections.h"
#include "bridge.h"

#include "call.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const char *library_version(void)
{
    return brake_version();
}

size_t sheet_size(void)
{
    return sizeof(struct brake_sheet);
}

const char *caution_text(void)
{
    return BRAKE_CAUTION;
}

const char *status_message(int status)
{
    return brake_status_message((enum brake_status)status);
}

double amount_read(const char *name, const char *text, const char *unit, struct brake_error *error)
{
    const struct brake_unit *si = brake_unit_find(unit);
    double value = BRAKE_NAN;
    error->status =
        brake_amount_read(name, text, si != NULL ? si->dimension : BRAKE_RATIO, &value, error);
    return value;
}

enum brake_status sheet_check(const struct brake_sheet *sheet, struct brake_error *error)
{
    return brake_sheet_valid(sheet, error);
}

static bool is_row(int index)
{
    return index >= 0 && index < brake_catalogue_count();
}

/* ---- reading and setting -------------------------------------------------------------------- */

enum brake_status sheet_read(const char *bytes, size_t size, struct brake_sheet *sheet,
                             struct brake_error *error)
{
    FILE *stream = fmemopen((void *)(uintptr_t)bytes, size, "rb");
    if (stream == NULL)
        return error->status = BRAKE_E_READ;
    enum brake_status status = brake_file_read(stream, sheet, error);
    fclose(stream);
    return status == BRAKE_OK ? sheet_complete(sheet, error) : status;
}

enum brake_status sheet_take_parts(const char *bytes, size_t size, struct brake_sheet *sheet,
                                   struct brake_error *error)
{
    FILE *stream = fmemopen((void *)(uintptr_t)bytes, size, "rb");
    if (stream == NULL)
        return error->status = BRAKE_E_READ;
    const enum brake_status status = brake_own_sizes_read(stream, &sheet->own, error);
    fclose(stream);
    return status;
}

void sheet_without_sizes(struct brake_sheet *sheet)
{
    sheet->own.count = 0;
}

char *page_table(const char *bytes, size_t size, const char *element)
{
    struct brake_error error;
    char *text = NULL;
    size_t length = 0;
    FILE *stream = fmemopen((void *)(uintptr_t)bytes, size, "rb");
    FILE *copy = open_memstream(&text, &length);
    bool there = stream != NULL && copy != NULL;
    there = there && brake_carried_copy(stream, element, copy, &error) == BRAKE_OK;
    if (stream != NULL)
        fclose(stream);
    if (copy != NULL)
        fclose(copy);
    if (there)
        return text;
    free(text);
    return NULL;
}

enum brake_status sheet_set(struct brake_sheet *sheet, const char *setting,
                            struct brake_error *error)
{
    return brake_file_set(sheet, setting, error);
}

enum brake_status sheet_complete(struct brake_sheet *sheet, struct brake_error *error)
{
    const enum brake_status status = brake_sheet_complete(sheet, error);
    return status == BRAKE_OK && sheet->known.stops == 0 ? brake_tester_learn(sheet) : status;
}

void sheet_unset(struct brake_sheet *sheet, int index)
{
    if (is_row(index))
        brake_quantity_clear(sheet, index);
}

enum brake_status sheet_fit_part(struct brake_sheet *sheet, const char *name,
                                 struct brake_error *error)
{
    return brake_file_part(sheet, name, error);
}

void sheet_remove_part(struct brake_sheet *sheet, const char *name)
{
    const int slot = brake_part_named(&sheet->vehicle, name, strlen(name));
    if (slot >= 0)
        brake_part_remove(sheet, slot);
}

/* ---- what no line says ---------------------------------------------------------------------- */

static void write_sizes(const struct brake_sheet *sheet, FILE *stream)
{
    if (sheet->own.count > 0)
        brake_own_sizes_write(&sheet->own, stream);
}

/* What is written of a vehicle; NULL when memory is short. */
static char *written(const struct brake_sheet *sheet,
                     void (*write)(const struct brake_sheet *, FILE *))
{
    char *text = NULL;
    size_t size = 0;
    FILE *stream = open_memstream(&text, &size);
    if (stream == NULL)
        return NULL;
    write(sheet, stream);
    bool whole = ferror(stream) == 0;
    whole = fclose(stream) == 0 && whole;
    if (whole)
        return text;
    free(text);
    return NULL;
}

char *sheet_told(const struct brake_sheet *sheet)
{
    return written(sheet, brake_told_write);
}

char *sheet_sizes(const struct brake_sheet *sheet)
{
    return written(sheet, write_sizes);
}

char *sheet_file(const struct brake_sheet *sheet)
{
    return written(sheet, brake_file_write);
}

enum brake_status sheet_tell(const char *bytes, size_t size, struct brake_sheet *sheet,
                             struct brake_error *error)
{
    FILE *stream = fmemopen((void *)(uintptr_t)bytes, size, "rb");
    if (stream == NULL)
        return error->status = BRAKE_E_READ;
    const enum brake_status status = brake_told_read(stream, sheet, error);
    fclose(stream);
    return status;
}

/* ---- asking for a value --------------------------------------------------------------------- */

int sheet_find(const struct brake_sheet *sheet, const char *path)
{
    return brake_catalogue_find(&sheet->vehicle, path);
}

void sheet_parts(const struct brake_sheet *sheet, char *text, size_t size)
{
    size_t used = 0;
    for (int i = 0; i < sheet->vehicle.parts && used < size; i++)
        used += (size_t)snprintf(text + used, size - used, "%s\n", sheet->vehicle.part[i].name);
}

double sheet_number(const struct brake_sheet *sheet, int index)
{
    return is_row(index) ? brake_quantity_value(&sheet->vehicle, index) : BRAKE_NAN;
}

void sheet_word(const struct brake_sheet *sheet, int index, char *text, size_t size)
{
    if (!is_row(index) || sheet->record[index].from == BRAKE_ABSENT)
        return;
    const struct brake_quantity *row = brake_quantity_at(index);
    const void *at = brake_quantity_seen(&sheet->vehicle, index);
    if (row->kind == BRAKE_CHOICE)
        snprintf(text, size, "%s", row->choices[*(const int *)at]);
    else if (row->kind == BRAKE_TEXT)
        snprintf(text, size, "%s", (const char *)at);
}

void sheet_text(const struct brake_sheet *sheet, int index, char *text, size_t size)
{
    if (is_row(index))
        brake_value_write(&sheet->vehicle, index, text, size);
}

static int pairs_of_pistons(const struct brake_pistons *pistons, double *pair)
{
    int count = 0;
    for (; count < BRAKE_GROUPS && pistons->count[count] > 0.0; count++) {
        pair[2 * count] = pistons->count[count];
        pair[2 * count + 1] = pistons->diameter[count];
    }
    return count;
}

int sheet_pairs(const struct brake_sheet *sheet, int index, double pair[BRAKE_PAIR_NUMBERS])
{
    const enum brake_kind kind = is_row(index) ? brake_quantity_at(index)->kind : BRAKE_REAL;
    if (kind == BRAKE_PISTONS)
        return pairs_of_pistons(brake_quantity_seen(&sheet->vehicle, index), pair);
    if (kind != BRAKE_CURVE)
        return 0;
    const struct brake_points *points = brake_quantity_seen(&sheet->vehicle, index);
    for (int i = 0; i < points->count; i++) {
        pair[2 * i] = points->at[i].x;
        pair[2 * i + 1] = points->at[i].y;
    }
    return points->count;
}

/* ---- comparing ------------------------------------------------------------------------------ */

static bool same_number(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

static bool same_value(const struct brake_sheet *a, const struct brake_sheet *b, int index)
{
    double one[BRAKE_PAIR_NUMBERS];
    double two[BRAKE_PAIR_NUMBERS];
    char word[2][BRAKE_TEXT_SIZE] = {"", ""};
    const int count = sheet_pairs(a, index, one);
    sheet_word(a, index, word[0], sizeof word[0]);
    sheet_word(b, index, word[1], sizeof word[1]);
    bool same = count == sheet_pairs(b, index, two) && strcmp(word[0], word[1]) == 0 &&
                same_number(sheet_number(a, index), sheet_number(b, index));
    for (int i = 0; same && i < 2 * count; i++)
        same = same_number(one[i], two[i]);
    return same;
}

bool sheet_same(const struct brake_sheet *sheet, const struct brake_sheet *other)
{
    bool same = sheet->vehicle.parts == other->vehicle.parts;
    for (int i = 0; same && i < brake_catalogue_count(); i++) {
        const struct brake_record *a = &sheet->record[i];
        const struct brake_record *b = &other->record[i];
        same = a->from == b->from && same_number(a->tolerance, b->tolerance) &&
               same_value(sheet, other, i);
    }
    return same;
}

/* ---- answers as text ------------------------------------------------------------------------ */

char *bridge_printed(struct brake_document *document, enum brake_format format)
{
    char *text = brake_document_text(document, format);
    brake_document_free(document);
    return text;
}

static void known_lines(struct brake_document *d, const struct brake_sheet *sheet)
{
    static const struct brake_column column[] = {{"path", NULL, BRAKE_COLUMN},
                                                 {"text", NULL, BRAKE_COLUMN},
                                                 {"from", NULL, BRAKE_COLUMN},
                                                 {"tolerance", NULL, BRAKE_COLUMN}};
    brake_document_table(
        d, &(struct brake_table){"lines", .keyed = true, .column = column, .columns = 4});
    for (int i = 0; i < brake_catalogue_count(); i++) {
        const struct brake_record *record = &sheet->record[i];
        char path[160];
        char text[1024];
        if (record->from == BRAKE_ABSENT)
            continue;
        brake_value_write(&sheet->vehicle, i, text, sizeof text);
        brake_catalogue_path(&sheet->vehicle, i, path, sizeof path);
        brake_document_row(
            d, (const struct brake_cell[]){brake_cell_text(path), brake_cell_text(text),
                                           brake_cell_text(brake_from_word(record->from)),
                                           brake_cell_number(record->tolerance, NULL)});
    }
}

char *sheet_json(const struct brake_sheet *sheet)
{
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    if (d == NULL)
        return NULL;
    known_lines(d, sheet);
    return bridge_printed(d, BRAKE_AS_COMPACT_JSON);
}

static struct brake_document *check(const struct brake_sheet *sheet,
                                    const struct brake_assessment *assessment)
{
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    if (d != NULL)
        brake_answer_check(d, sheet, assessment);
    return d;
}

enum brake_status sheet_fit(struct brake_sheet *sheet, const struct brake_sheet *other,
                            struct brake_error *error)
{
    const enum brake_status status = brake_before_fits(sheet, other, error);
    if (status == BRAKE_OK)
        (void)brake_before_carry(sheet, other);
    return status;
}

/* Room for what is said of a vehicle that was another before. */
struct assessed {
    struct brake_assessment assessment;
    struct brake_before loss;
    struct brake_repair repair;
};

/* NULL: memory is short. */
static struct assessed *assess(const struct brake_sheet *sheet, const struct brake_sheet *before,
                               unsigned rules)
{
    struct assessed *a = malloc(sizeof *a);
    bool whole = a != NULL && brake_assess_whole(sheet, rules, NULL, &a->assessment);
    if (whole && before != NULL) {
        whole = brake_before_draw(before, sheet, &a->loss) == BRAKE_OK;
        if (whole)
            brake_assess_before(&a->assessment, &a->loss);
    }
    whole = whole && brake_repair_find(sheet, &a->assessment, &a->repair);
    if (whole) {
        a->assessment.repair = &a->repair;
        return a;
    }
    free(a);
    return NULL;
}

static char *printed(const struct brake_sheet *sheet, struct assessed *assessed,
                     enum brake_format format)
{
    char *text = bridge_printed(check(sheet, &assessed->assessment), format);
    free(assessed);
    return text;
}

char *sheet_report(const struct brake_sheet *sheet, const struct brake_sheet *before,
                   unsigned rules)
{
    struct assessed *assessed = assess(sheet, before, rules);
    return assessed != NULL ? printed(sheet, assessed, BRAKE_AS_TEXT) : NULL;
}

void sheet_digest(const struct brake_sheet *sheet, char *text, size_t size)
{
    char digest[BRAKE_DIGEST_TEXT];
    brake_digest_vehicle(sheet, digest);
    snprintf(text, size, "%s", digest);
}

int quantity_count(void)
{
    return brake_catalogue_count();
}

double quantity_low(int index)
{
    return is_row(index) ? brake_quantity_at(index)->low : BRAKE_NAN;
}

double quantity_high(int index)
{
    return is_row(index) ? brake_quantity_at(index)->high : BRAKE_NAN;
}

const char *rules_word(int number)
{
    unsigned rules;
    const char *word = number >= 0 ? brake_rules_at(number, &rules) : NULL;
    return word != NULL ? word : "";
}

unsigned rules_bits(int number)
{
    unsigned rules = 0;
    (void)(number >= 0 ? brake_rules_at(number, &rules) : NULL);
    return rules;
}

const char *obstacle_word(int number)
{
    const char *words;
    unsigned bit;
    const char *word = brake_obstacle_at(number, &bit, &words);
    return word != NULL ? word : "";
}

int result_count(void)
{
    return brake_result_count();
}

char *sheet_check_json(const struct brake_sheet *sheet, const struct brake_sheet *before,
                       unsigned rules, const struct columns *out)
{
    struct assessed *assessed = assess(sheet, before, rules);
    if (assessed == NULL)
        return NULL;
    if (out->count == 1 && out->column[0].count == brake_result_count()) {
        double *value = columns_writable(out, 0);
        for (int i = 0; i < brake_result_count(); i++)
            value[i] = brake_result_value(&assessed->assessment.results, i);
    }
    return printed(sheet, assessed, BRAKE_AS_COMPACT_JSON);
}
