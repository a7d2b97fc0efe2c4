/* SPDX-License-Identifier: MIT */
#include "table.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "cells.h"
#include "decimals.h"
#include "heads.h"
#include "value.h"
#include "vehicle/letters.h"
#include "vehicle/limits.h"
#include "vehicle/text.h"

enum { LEFT_ASIDE = -1, WITHOUT_HEAD = -2 };

struct brake_read_table {
    const struct brake_table_kind *kind;
    struct brake_notes *notes;
    struct brake_error *error;
    int heads;
    int column[BRAKE_CELLS]; /* of each cell, or one of the two above */
    bool has[BRAKE_TABLE_COLUMNS];
    const struct brake_unit *unit[BRAKE_TABLE_COLUMNS]; /* NULL: not told yet */
    struct brake_decimals decimals;
    double last[BRAKE_TABLE_COLUMNS]; /* row that counts */
    int last_line;                    /* 0: there is none yet */
    long rows;
    struct brake_cells cells;
};

#define REFUSE(t, status, field, ...)                                                              \
    brake_value_refuse((t)->error, status, (t)->cells.line, field, __VA_ARGS__)

static void note(struct brake_read_table *t, const char *format, const char *what)
{
    struct brake_notes *notes = t->notes;
    if (notes->count == BRAKE_NOTES) {
        notes->more++;
        return;
    }
    char *place = notes->note[notes->count++];
    const int used = brake_text_format(place, BRAKE_NOTE_BYTES, "line %d: ", t->cells.line);
    /* every format is a literal of this file with one %s */
    brake_text_format(place + used, BRAKE_NOTE_BYTES - (size_t)used, format, what);
    brake_text_make_plain(place);
}

/* ---- units ---------------------------------------------------------------------------------- */

static enum brake_status set_unit(struct brake_read_table *t, int column, const char *name)
{
    const struct brake_table_column *known = &t->kind->column[column];
    const struct brake_unit *unit = brake_head_unit(name, known->dimension);
    if (unit == NULL) {
        char names[200];
        brake_unit_names(known->dimension, names, sizeof names);
        return REFUSE(t, BRAKE_E_UNIT, known->name, "got the unit '%.40s'; accepts %s", name,
                      names);
    }
    if (t->unit[column] != NULL && t->unit[column] != unit)
        return REFUSE(t, BRAKE_E_CONFLICT, known->name, "the header says %s, --columns says %s",
                      unit->name, t->unit[column]->name);
    t->unit[column] = unit;
    return BRAKE_OK;
}

/* The names of all columns, for messages. */
static void list_columns(const struct brake_table_kind *kind, char *text, size_t size)
{
    size_t used = 0;
    for (int i = 0; i < kind->columns && used < size; i++)
        used += (size_t)brake_text_format(text + used, size - used, "%s%s", i > 0 ? ", " : "",
                                          kind->column[i].name);
}

/* "time=s" */
static enum brake_status take_unit(struct brake_read_table *t, const char *text, size_t length)
{
    const char *equals = memchr(text, '=', length);
    char unit[BRAKE_HEAD_UNIT];
    if (equals == NULL)
        return REFUSE(t, BRAKE_E_SYNTAX, "--columns",
                      "got '%.40s'; accepts such as time=s,speed=mph", text);
    const size_t name = (size_t)(equals - text);
    const size_t rest = length - name - 1;
    const int column = brake_head_column(t->kind, text, name);
    if (column < 0) {
        char names[200];
        list_columns(t->kind, names, sizeof names);
        return REFUSE(t, BRAKE_E_UNKNOWN, "--columns", "got '%.*s'; accepts %s",
                      (int)(name < 40 ? name : 40), text, names);
    }
    brake_text_format(unit, sizeof unit, "%.*s", (int)(rest < 23 ? rest : 23), equals + 1);
    return set_unit(t, column, unit);
}

static enum brake_status take_units(struct brake_read_table *t, const char *units)
{
    enum brake_status status = BRAKE_OK;
    while (status == BRAKE_OK && units != NULL && *units != '\0') {
        const size_t length = strcspn(units, ",");
        status = take_unit(t, units, length);
        units += length + (units[length] == ',');
    }
    return status;
}

/* ---- the head ------------------------------------------------------------------------------- */

/* Which column that is needed is not among the heads that a separator gives; its number of columns
 * that there are: none lacks. */
static int lacks(struct brake_read_table *t, char separator)
{
    bool has[BRAKE_TABLE_COLUMNS] = {false};
    char unit[BRAKE_HEAD_UNIT];
    if (brake_cells_cut(&t->cells, separator) != BRAKE_OK)
        return 0;
    for (int i = 0; i < t->cells.count; i++) {
        const int column = brake_head_read(t->kind, t->cells.cell[i], unit);
        if (column >= 0)
            has[column] = true;
    }
    int column = 0;
    while (column < t->kind->columns && (has[column] || !t->kind->column[column].needed))
        column++;
    return column;
}

/* The separator that gives the columns that are needed. No two do: a head is what stands
 * between. */
static enum brake_status take_separator(struct brake_read_table *t)
{
    static const char separators[] = ",;\t";
    struct brake_error wrong = {.status = BRAKE_OK}; /* at a separator that may not be the one */
    int missing = 0;
    for (const char *at = separators; *at != '\0'; at++) {
        const int lacking = lacks(t, *at);
        if (wrong.status == BRAKE_OK)
            wrong = *t->error;
        memset(t->error, 0, sizeof *t->error);
        if (lacking == t->kind->columns)
            return BRAKE_OK;
        missing = lacking > missing ? lacking : missing;
    }
    *t->error = wrong;
    if (wrong.status != BRAKE_OK)
        return wrong.status;
    return REFUSE(t, BRAKE_E_MISSING, t->kind->column[missing].name,
                  "no such column in '%.*s'; line %d must be a header such as %s, with commas, "
                  "semicolons or tabs between columns",
                  (int)(t->cells.length < 40 ? t->cells.length : 40), t->cells.row, t->cells.line,
                  t->kind->example);
}

static enum brake_status take_head(struct brake_read_table *t, const char *head)
{
    char unit[BRAKE_HEAD_UNIT];
    const int column = brake_head_read(t->kind, head, unit);
    t->column[t->heads++] = column >= 0 ? column : *head == '\0' ? WITHOUT_HEAD : LEFT_ASIDE;
    if (column < 0) {
        if (*head != '\0')
            note(t, "column '%.40s' is not known and left aside", head);
        return BRAKE_OK;
    }
    const struct brake_table_column *known = &t->kind->column[column];
    if (t->has[column])
        return REFUSE(t, BRAKE_E_DUPLICATE, known->name, "two columns of that name");
    t->has[column] = true;
    if (unit[0] != '\0' || (known->dimension == BRAKE_RATIO && t->unit[column] == NULL))
        return set_unit(t, column, unit);
    if (t->unit[column] != NULL)
        return BRAKE_OK;
    return REFUSE(t, BRAKE_E_UNIT, known->name,
                  "has no unit; write %s [%s] in the header, or --columns %s=%s", known->name,
                  known->unit, known->name, known->unit);
}

static enum brake_status take_heads(struct brake_read_table *t)
{
    enum brake_status status = brake_cells_next(&t->cells);
    if (status == BRAKE_OK && t->cells.length == 0)
        return brake_value_refuse(t->error, BRAKE_E_MISSING, 0, "",
                                  "the file is empty; %s begins with a header such as %s",
                                  t->kind->what, t->kind->example);
    if (status == BRAKE_OK)
        status = take_separator(t);
    for (int i = 0; status == BRAKE_OK && i < t->cells.count; i++)
        status = take_head(t, t->cells.cell[i]);
    return status;
}

struct brake_read_table *brake_table_open(FILE *stream, const struct brake_table_kind *kind,
                                          const char *units, struct brake_notes *notes,
                                          struct brake_said *said, struct brake_error *error)
{
    struct brake_read_table *t = calloc(1, sizeof *t);
    memset(notes, 0, sizeof *notes);
    memset(error, 0, sizeof *error);
    if (t == NULL) {
        brake_value_refuse(error, BRAKE_E_MEMORY, 0, "", "memory is short");
        return NULL;
    }
    t->kind = kind;
    t->notes = notes;
    t->error = error;
    t->cells.stream = stream;
    t->cells.error = error;
    t->cells.said = said;
    enum brake_status status = take_units(t, units);
    if (status == BRAKE_OK)
        status = take_heads(t);
    if (status == BRAKE_OK)
        return t;
    brake_table_close(t);
    return NULL;
}

bool brake_table_has(const struct brake_read_table *t, int column)
{
    return t->has[column];
}

void brake_table_close(struct brake_read_table *t)
{
    free(t);
}

/* ---- rows ----------------------------------------------------------------------------------- */

static enum brake_status refuse_number(struct brake_read_table *t, enum brake_decimal wrong,
                                       const char *name, const char *cell)
{
    switch (wrong) {
    case BRAKE_DECIMAL_GROUPED:
        return REFUSE(t, BRAKE_E_SYNTAX, name,
                      "got '%.40s'; accepts one decimal mark and no marks of thousands", cell);
    case BRAKE_DECIMAL_OTHERWISE:
        return REFUSE(t, BRAKE_E_SYNTAX, name, "got '%.40s', but decimals take a %s in line %d",
                      cell, t->decimals.mark == '.' ? "point" : "comma", t->decimals.line);
    case BRAKE_DECIMAL:
    case BRAKE_DECIMAL_NONE:
        break;
    }
    return REFUSE(t, BRAKE_E_SYNTAX, name,
                  "got '%.40s'; accepts a plain number, or nothing where a reading is missing",
                  cell);
}

static enum brake_status take_value(struct brake_read_table *t, int column, const char *cell,
                                    double *value)
{
    const struct brake_table_column *known = &t->kind->column[column];
    double number;
    if (*cell == '\0')
        return BRAKE_OK;
    const enum brake_decimal read = brake_decimal_read(&t->decimals, cell, t->cells.line, &number);
    if (read != BRAKE_DECIMAL)
        return refuse_number(t, read, known->name, cell);
    *value = brake_unit_to_si(t->unit[column], number);
    if (*value >= known->low && *value <= known->high)
        return BRAKE_OK;
    const struct brake_unit *unit = brake_unit_of(known->unit, known->dimension);
    return REFUSE(t, BRAKE_E_RANGE, known->name, "got %.40s %s; accepts %s: is the unit right?",
                  cell, t->unit[column]->name, limits_words(unit, known->low, known->high).text);
}

static enum brake_status take_cells(struct brake_read_table *t, double *value)
{
    enum brake_status status = BRAKE_OK;
    if (t->cells.count != t->heads)
        return REFUSE(t, BRAKE_E_SYNTAX, "",
                      "has %d cells, the header has %d; decimals take a point, or a comma where "
                      "semicolons or tabs stand between cells",
                      t->cells.count, t->heads);
    for (int i = 0; i < t->kind->columns; i++)
        value[i] = BRAKE_NAN;
    for (int i = 0; status == BRAKE_OK && i < t->heads; i++) {
        if (t->column[i] >= 0)
            status = take_value(t, t->column[i], t->cells.cell[i], &value[t->column[i]]);
        else if (t->column[i] == WITHOUT_HEAD && *t->cells.cell[i] != '\0')
            status = REFUSE(t, BRAKE_E_SYNTAX, "", "cell %d holds '%.40s' and has no head", i + 1,
                            t->cells.cell[i]);
    }
    return status;
}

static bool is_empty(const struct brake_cells *cells)
{
    for (int i = 0; i < cells->count; i++) {
        if (*cells->cell[i] != '\0')
            return false;
    }
    return true;
}

static bool is_same(const struct brake_read_table *t, const double *value)
{
    for (int i = 0; i < t->kind->columns; i++) {
        const bool missing = isnan(value[i]) && isnan(t->last[i]);
        if (!missing && !(value[i] == t->last[i]))
            return false;
    }
    return true;
}

/* Whether a row counts; what is left out is told. */
static enum brake_status counts(struct brake_read_table *t, const double *value, bool *counted)
{
    *counted = false;
    for (int i = 0; i < t->kind->columns; i++) {
        if (t->kind->column[i].whole && t->has[i] && isnan(value[i])) {
            note(t, "no %s; the row is left out", t->kind->column[i].name);
            return BRAKE_OK;
        }
    }
    *counted = t->last_line == 0 || *value > *t->last;
    if (*counted)
        return BRAKE_OK;
    if (is_same(t, value)) {
        note(t, "repeats the row before it%s", "");
        return BRAKE_OK;
    }
    return REFUSE(t, BRAKE_E_CONFLICT, t->kind->column->name,
                  *value == *t->last ? "%.9g s stands in line %d too, with other numbers"
                                     : "%.9g s, less than in line %d; time must rise",
                  *value, t->last_line);
}

/* Past the last row. */
static enum brake_status look_at_whole(const struct brake_read_table *t)
{
    const struct brake_decimals *d = &t->decimals;
    const bool parted_by_comma = t->cells.separator == ',';
    if (t->rows < 2)
        return brake_value_refuse(t->error, BRAKE_E_MISSING, 0, "",
                                  "%s needs two rows or more; this one has %ld", t->kind->what,
                                  t->rows);
    if (d->mark != '\0' && !d->shown && !(d->mark == '.' && parted_by_comma))
        return brake_value_refuse(
            t->error, BRAKE_E_SYNTAX, d->line, "",
            "every %s, here and below, stands before three digits: of decimals or of thousands? "
            "Write one number with more or fewer decimals",
            d->mark == '.' ? "point" : "comma");
    return BRAKE_OK;
}

enum brake_status brake_table_next(struct brake_read_table *t, double *value, int *line)
{
    bool counted = false;
    enum brake_status status = BRAKE_OK;
    *line = 0;
    while (status == BRAKE_OK && !counted) {
        status = brake_cells_next(&t->cells);
        if (status == BRAKE_OK && t->cells.length == 0)
            return look_at_whole(t);
        if (status == BRAKE_OK)
            status = brake_cells_cut(&t->cells, t->cells.separator);
        if (status != BRAKE_OK || is_empty(&t->cells))
            continue;
        status = take_cells(t, value);
        if (status == BRAKE_OK)
            status = counts(t, value, &counted);
    }
    if (status != BRAKE_OK)
        return status;
    memcpy(t->last, value, (size_t)t->kind->columns * sizeof *value);
    *line = t->last_line = t->cells.line;
    t->rows++;
    return BRAKE_OK;
}
