/* SPDX-License-Identifier: MIT */
/* A document as JSON (RFC 8259): one object, numbers in SI, what is not known null. A section is an
 * object, a fact and a sentence a member, a table an array of objects; of bare values when it has
 * one column, an object when its rows are named. */
#include <math.h>
#include <string.h>

#include "brake/file.h"
#include "brake/version.h"
#include "brake/warnings.h"
#include "document.h"
#include "vehicle/text.h"
#include "file/number.h"

struct writer {
    const struct brake_document *d;
    FILE *stream;
    bool compact;
    int depth;
    unsigned begun; /* a bit for each open object or array, the last one lowest: something stands in
                  it */
};

/* ---- pieces --------------------------------------------------------------------------------- */

/* A broken byte of UTF-8 would break the reader: names come from files, which hold none. */
static void put_text(struct writer *w, const char *text)
{
    fputc('"', w->stream);
    for (; *text != '\0'; text++) {
        const unsigned char letter = (unsigned char)*text;
        if (letter == '"' || letter == '\\')
            brake_text_print(w->stream, "\\%c", letter);
        else if (letter < 0x20 || letter == 0x7f)
            brake_text_print(w->stream, "\\u%04x", (unsigned)letter);
        else
            fputc(letter, w->stream);
    }
    fputc('"', w->stream);
}

static void new_line(struct writer *w)
{
    if (!w->compact)
        brake_text_print(w->stream, "\n%*s", 2 * w->depth, "");
}

/* What comes next, with its key in an object, NULL in an array. */
static void next(struct writer *w, const char *key)
{
    fputs(w->begun & 1U ? "," : "", w->stream);
    w->begun |= 1U;
    new_line(w);
    if (key == NULL)
        return;
    put_text(w, key);
    fputs(w->compact ? ":" : ": ", w->stream);
}

static void open(struct writer *w, char bracket)
{
    fputc(bracket, w->stream);
    w->depth++;
    w->begun <<= 1;
}

static void close(struct writer *w, char bracket)
{
    const bool begun = (w->begun & 1U) != 0;
    w->depth--;
    w->begun >>= 1;
    if (begun)
        new_line(w);
    fputc(bracket, w->stream);
}

static void put_number(struct writer *w, double number)
{
    char text[BRAKE_NUMBER_SIZE];
    if (!isfinite(number)) {
        fputs("null", w->stream);
        return;
    }
    brake_number_write(number, text);
    fputs(text, w->stream);
}

static void number_member(struct writer *w, const char *key, double number)
{
    next(w, key);
    put_number(w, number);
}

static void text_member(struct writer *w, const char *key, const char *text)
{
    next(w, key);
    put_text(w, text);
}

/* ---- cells ---------------------------------------------------------------------------------- */

/* 90 of 100 lie between p05 and p95. */
static void put_range(struct writer *w, const struct brake_cell *cell)
{
    const enum brake_dimension dimension = cell->unit != NULL ? cell->unit->dimension : BRAKE_RATIO;
    open(w, '{');
    number_member(w, "value", cell->number);
    text_member(w, "unit", brake_unit_si(dimension)->name);
    number_member(w, "p05", cell->low);
    number_member(w, "p95", cell->high);
    close(w, '}');
}

static void put_list(struct writer *w, const struct brake_cell *cell)
{
    const int step = cell->pairs ? 2 : 1;
    open(w, '[');
    for (int i = 0; i + step <= cell->count; i += step) {
        next(w, NULL);
        if (!cell->pairs) {
            put_number(w, cell->list[i]);
            continue;
        }
        open(w, '[');
        number_member(w, NULL, cell->list[i]);
        number_member(w, NULL, cell->list[i + 1]);
        close(w, ']');
    }
    close(w, ']');
}

static void put_ids(struct writer *w, const char *ids)
{
    open(w, '[');
    while (*ids != '\0') {
        char id[80];
        const int length = (int)strcspn(ids, " ");
        brake_text_format(id, sizeof id, "%.*s", length, ids);
        text_member(w, NULL, id);
        ids += length;
        ids += strspn(ids, " ");
    }
    close(w, ']');
}

static void put_cell(struct writer *w, const struct brake_cell *cell)
{
    switch (cell->kind) {
    case BRAKE_CELL_NUMBER:
        if (cell->ranged)
            put_range(w, cell);
        else
            put_number(w, cell->number);
        break;
    case BRAKE_CELL_TEXT:
        put_text(w, cell->text);
        break;
    case BRAKE_CELL_TRUTH:
        fputs(cell->truth ? "true" : "false", w->stream);
        break;
    case BRAKE_CELL_LIST:
        put_list(w, cell);
        break;
    case BRAKE_CELL_IDS:
        put_ids(w, cell->text);
        break;
    case BRAKE_CELL_NOTHING:
    case BRAKE_CELL_BLANK:
        fputs("null", w->stream);
        break;
    }
}

/* ---- tables --------------------------------------------------------------------------------- */

/* Column for programs from one on; -1: no more. */
static int next_column(const struct brake_table *t, int column)
{
    for (; column < t->columns; column++) {
        if (t->column[column].key != NULL)
            return column;
    }
    return -1;
}

/* A key with a dot is a member of an object within the row: "percentiles.p05". Length of what it
 * begins with; 0: it has none. */
static size_t inner(const char *key)
{
    const char *dot = strchr(key, '.');
    return dot != NULL ? (size_t)(dot - key) : 0;
}

/* One member, or all of an object within the row. Returns the next column. */
static int put_members(struct writer *w, const struct brake_table *t,
                       const struct brake_cell *cells, int at)
{
    const char *key = t->column[at].key;
    const size_t length = inner(key);
    char name[80];
    if (length == 0) {
        next(w, key);
        put_cell(w, &cells[at]);
        return next_column(t, at + 1);
    }
    brake_text_format(name, sizeof name, "%.*s", (int)length, key);
    next(w, name);
    int known = 0;
    int end = at;
    for (; end >= 0 && strncmp(t->column[end].key, key, length + 1) == 0;
         end = next_column(t, end + 1))
        known += cells[end].kind != BRAKE_CELL_NOTHING;
    if (known == 0) {
        fputs("null", w->stream);
        return end;
    }
    open(w, '{');
    for (; at >= 0 && strncmp(t->column[at].key, key, length + 1) == 0;
         at = next_column(t, at + 1)) {
        next(w, t->column[at].key + length + 1);
        put_cell(w, &cells[at]);
    }
    close(w, '}');
    return at;
}

static void put_row(struct writer *w, const struct brake_table *t, const struct brake_cell *cells)
{
    const int first = next_column(t, 0);
    int at = t->keyed ? next_column(t, first + 1) : first;
    next(w, t->keyed ? cells[first].text : NULL);
    if (!t->keyed && next_column(t, first + 1) < 0) {
        put_cell(w, &cells[first]);
        return;
    }
    open(w, '{');
    while (at >= 0)
        at = put_members(w, t, cells, at);
    close(w, '}');
}

static void put_table(struct writer *w, const struct brake_node *node)
{
    const struct brake_table *t = &node->table;
    if (node->key == NULL || next_column(t, 0) < 0)
        return;
    next(w, node->key);
    open(w, t->keyed ? '{' : '[');
    for (long row = 0; row < node->count; row++)
        put_row(w, t, brake_node_row(w->d, node, row));
    close(w, t->keyed ? '}' : ']');
}

/* ---- nodes ---------------------------------------------------------------------------------- */

/* Sections without a key are no objects: `keyed` has a bit for each that is open. */
static void put_node(struct writer *w, const struct brake_node *node, unsigned *keyed)
{
    switch (node->kind) {
    case BRAKE_NODE_SECTION:
        *keyed = (*keyed << 1) | (node->key != NULL);
        if (node->key != NULL) {
            next(w, node->key);
            open(w, '{');
        }
        break;
    case BRAKE_NODE_END:
        if (*keyed & 1U)
            close(w, '}');
        *keyed >>= 1;
        break;
    case BRAKE_NODE_SENTENCE:
    case BRAKE_NODE_FACT:
        if (node->key != NULL) {
            next(w, node->key);
            put_cell(w, &node->cell);
        }
        break;
    case BRAKE_NODE_TABLE:
        put_table(w, node);
        break;
    case BRAKE_NODE_FIGURE:
    case BRAKE_NODE_CARRIED:
    case BRAKE_NODE_ANNEX:
        break;
    }
}

void brake_print_json(const struct brake_document *d, bool compact, FILE *stream)
{
    struct writer w = {.d = d, .stream = stream, .compact = compact};
    unsigned keyed = 0;
    open(&w, '{');
    text_member(&w, "libbrake", BRAKE_VERSION);
    number_member(&w, "format", BRAKE_FORMAT_VERSION);
    text_member(&w, "caution", BRAKE_CAUTION);
    for (long i = 0; i < d->nodes; i++)
        put_node(&w, &d->node[i], &keyed);
    close(&w, '}');
}
