/* SPDX-License-Identifier: MIT */
/* A document as CSV (RFC 4180): each of its tables under a header that names the columns with their
 * units, a blank line between two; the caution in a first line that begins with #. */
#include <math.h>

#include "brake/file.h"
#include "brake/warnings.h"
#include "csv.h"
#include "document.h"
#include "vehicle/text.h"
#include "file/number.h"

static void put_text(FILE *stream, const char *text)
{
    char cell[BRAKE_CELL_SIZE];
    brake_csv_cell(text, cell, sizeof cell);
    fputs(cell, stream);
}

static void put_number(FILE *stream, double number)
{
    char text[BRAKE_NUMBER_SIZE];
    if (!isfinite(number))
        return;
    brake_number_write(number, text);
    fputs(text, stream);
}

static double in_trade_unit(const struct brake_cell *cell, double value)
{
    return cell->unit != NULL ? brake_cell_value(cell, cell->unit, value) : value;
}

static void put_cell(FILE *stream, const struct brake_cell *cell)
{
    switch (cell->kind) {
    case BRAKE_CELL_NUMBER:
        put_number(stream, in_trade_unit(cell, cell->number));
        break;
    case BRAKE_CELL_TEXT:
    case BRAKE_CELL_IDS:
        put_text(stream, cell->text);
        break;
    case BRAKE_CELL_TRUTH:
        fputs(cell->truth ? "yes" : "no", stream);
        break;
    case BRAKE_CELL_LIST:
        for (int i = 0; i < cell->count; i++) {
            fputs(i > 0 ? " " : "", stream);
            put_number(stream, in_trade_unit(cell, cell->list[i]));
        }
        break;
    case BRAKE_CELL_NOTHING:
    case BRAKE_CELL_BLANK:
        break;
    }
}

/* The unit that all numbers of a column share; NULL: none. */
static const struct brake_unit *unit_of(const struct brake_document *d, const struct brake_node *t,
                                        int column)
{
    const struct brake_unit *unit = NULL;
    for (long row = 0; row < t->count; row++) {
        const struct brake_cell *cell = &brake_node_row(d, t, row)[column];
        if (cell->unit == NULL)
            continue;
        if (unit != NULL && cell->unit != unit)
            return NULL;
        unit = cell->unit;
    }
    return unit;
}

static void put_head(const struct brake_document *d, const struct brake_node *t, FILE *stream)
{
    bool first = true;
    for (int i = 0; i < t->table.columns; i++) {
        if (t->table.column[i].key == NULL)
            continue;
        const struct brake_unit *unit = unit_of(d, t, i);
        fputs(first ? "" : ",", stream);
        put_text(stream, t->table.column[i].key);
        if (unit != NULL && unit->name[0] != '\0')
            brake_text_print(stream, " [%s]", unit->name);
        first = false;
    }
    fputc('\n', stream);
}

static void put_rows(const struct brake_document *d, const struct brake_node *t, FILE *stream)
{
    for (long row = 0; row < t->count; row++) {
        bool first = true;
        for (int i = 0; i < t->table.columns; i++) {
            if (t->table.column[i].key == NULL)
                continue;
            fputs(first ? "" : ",", stream);
            put_cell(stream, &brake_node_row(d, t, row)[i]);
            first = false;
        }
        fputc('\n', stream);
    }
}

void brake_print_csv(const struct brake_document *d, FILE *stream)
{
    bool first = true;
    brake_text_print(stream, "# %s\n", BRAKE_CAUTION);
    for (long i = 0; i < d->nodes; i++) {
        if (d->node[i].kind != BRAKE_NODE_TABLE || d->node[i].key == NULL)
            continue;
        fputs(first ? "" : "\n", stream);
        put_head(d, &d->node[i], stream);
        put_rows(d, &d->node[i], stream);
        first = false;
    }
}
