/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L /* NOLINT: open_memstream */
#include "document.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "vehicle/letters.h"
#include "vehicle/text.h"

/* ---- memory --------------------------------------------------------------------------------- */

enum { CHUNK = 16384 };

struct brake_chunk {
    struct brake_chunk *next;
    size_t used;
    size_t size;
    double bytes[]; /* aligned for whatever is put there */
};

static void *keep(struct brake_document *d, size_t size)
{
    const size_t step = sizeof(double);
    size = (size + step - 1) / step * step;
    if (d->chunk == NULL || d->chunk->size - d->chunk->used < size) {
        const size_t room = size > CHUNK ? size : CHUNK;
        struct brake_chunk *chunk = malloc(sizeof *chunk + room);
        if (chunk == NULL) {
            d->short_of_memory = true;
            return NULL;
        }
        *chunk = (struct brake_chunk){.next = d->chunk, .size = room};
        d->chunk = chunk;
    }
    void *place = (char *)d->chunk->bytes + d->chunk->used;
    d->chunk->used += size;
    return place;
}

static const char *keep_text(struct brake_document *d, const char *text)
{
    if (text == NULL)
        return NULL;
    const size_t size = strlen(text) + 1;
    char *copy = keep(d, size);
    if (copy == NULL)
        return "";
    memcpy(copy, text, size);
    brake_text_make_plain(copy); /* a name may have been written by anybody */
    return copy;
}

const double *brake_document_numbers(struct brake_document *d, const double *list, int count)
{
    double *copy = keep(d, (size_t)count * sizeof *copy);
    return copy != NULL ? memcpy(copy, list, (size_t)count * sizeof *copy) : list;
}

static struct brake_cell keep_cell(struct brake_document *d, struct brake_cell cell)
{
    cell.text = keep_text(d, cell.text);
    cell.before = keep_text(d, cell.before);
    if (cell.kind == BRAKE_CELL_LIST && cell.count > 0)
        cell.list = brake_document_numbers(d, cell.list, cell.count);
    return cell;
}

/* Room for one more; false when memory is short. */
static bool grow(struct brake_document *d, void **array, long *room, long used, size_t size)
{
    if (used < *room)
        return true;
    const long more = *room > 0 ? 2 * *room : 64;
    void *larger = realloc(*array, (size_t)more * size);
    if (larger == NULL) {
        d->short_of_memory = true;
        return false;
    }
    *array = larger;
    *room = more;
    return true;
}

static void add_node(struct brake_document *d, const struct brake_node *node)
{
    void *array = d->node;
    const bool room = grow(d, &array, &d->node_room, d->nodes, sizeof *d->node);
    d->node = array;
    if (room)
        d->node[d->nodes++] = *node;
}

static void add_cell(struct brake_document *d, struct brake_cell cell)
{
    void *array = d->cell;
    const bool room = grow(d, &array, &d->cell_room, d->cells, sizeof *d->cell);
    d->cell = array;
    if (room)
        d->cell[d->cells++] = keep_cell(d, cell);
}

struct brake_document *brake_document_new(enum brake_systems systems)
{
    struct brake_document *d = calloc(1, sizeof *d);
    if (d != NULL)
        *d = (struct brake_document){.systems = systems, .title = "", .subject = ""};
    return d;
}

void brake_document_free(struct brake_document *document)
{
    if (document == NULL)
        return;
    while (document->chunk != NULL) {
        struct brake_chunk *next = document->chunk->next;
        free(document->chunk);
        document->chunk = next;
    }
    free(document->node);
    free(document->cell);
    free(document);
}

/* ---- content -------------------------------------------------------------------------------- */

void brake_document_head(struct brake_document *d, const char *title, const char *subject)
{
    d->title = keep_text(d, title);
    d->subject = keep_text(d, subject);
}

void brake_document_brief(struct brake_document *d)
{
    d->brief = true;
}

void brake_document_section(struct brake_document *d, const char *key, const char *heading)
{
    add_node(d, &(struct brake_node){.kind = BRAKE_NODE_SECTION,
                                     .key = keep_text(d, key),
                                     .head = keep_text(d, heading)});
}

void brake_document_end(struct brake_document *d)
{
    add_node(d, &(struct brake_node){.kind = BRAKE_NODE_END});
}

void brake_document_say(struct brake_document *d, const char *key, const char *label,
                        const char *text)
{
    add_node(d, &(struct brake_node){.kind = BRAKE_NODE_SENTENCE,
                                     .key = keep_text(d, key),
                                     .head = keep_text(d, label),
                                     .cell = keep_cell(d, brake_cell_text(text))});
}

static const char *words(struct brake_document *d, const char *format, va_list list)
{
    va_list again;
    va_copy(again, list);
    const size_t size = (size_t)brake_text_format_list(NULL, 0, format, list) + 1;
    char *text = keep(d, size);
    if (text != NULL)
        brake_text_format_list(text, size, format, again);
    va_end(again);
    return text != NULL ? text : "";
}

const char *brake_document_words(struct brake_document *d, const char *format, ...)
{
    va_list list;
    va_start(list, format);
    const char *text = words(d, format, list);
    va_end(list);
    return text;
}

const char *brake_document_join(struct brake_document *d, const char *all, const char *glue,
                                const char *more)
{
    return all == NULL ? more : brake_document_words(d, "%s%s%s", all, glue, more);
}

void brake_document_say_in(struct brake_document *d, const char *key, const char *label,
                           const char *format, ...)
{
    va_list list;
    va_start(list, format);
    const char *text = words(d, format, list);
    va_end(list);
    brake_document_say(d, key, label, text);
}

const char *brake_document_amount(struct brake_document *d, struct brake_cell value)
{
    char room[BRAKE_CELL_WORDS];
    return keep_text(d, brake_cell_told(&value, d->systems, room));
}

const char *brake_document_told(struct brake_document *d, const char *text)
{
    char room[BRAKE_TOLD];
    brake_amounts_told(text, d->systems, room, sizeof room);
    return keep_text(d, room);
}

void brake_document_fact(struct brake_document *d, const char *key, const char *label,
                         struct brake_cell value)
{
    add_node(d, &(struct brake_node){.kind = BRAKE_NODE_FACT,
                                     .key = keep_text(d, key),
                                     .head = keep_text(d, label),
                                     .cell = keep_cell(d, value)});
}

static struct brake_table keep_table(struct brake_document *d, const struct brake_table *table)
{
    struct brake_table copy = *table;
    struct brake_column *column = keep(d, (size_t)table->columns * sizeof *column);
    copy.key = keep_text(d, table->key);
    copy.caption = keep_text(d, table->caption);
    copy.none = keep_text(d, table->none);
    for (int i = 0; column != NULL && i < table->columns; i++)
        column[i] =
            (struct brake_column){keep_text(d, table->column[i].key),
                                  keep_text(d, table->column[i].head), table->column[i].place};
    copy.column = column;
    copy.columns = column != NULL ? table->columns : 0;
    return copy;
}

void brake_document_table(struct brake_document *d, const struct brake_table *table)
{
    add_node(d, &(struct brake_node){.kind = BRAKE_NODE_TABLE,
                                     .key = keep_text(d, table->key),
                                     .head = keep_text(d, table->caption),
                                     .table = keep_table(d, table),
                                     .first = d->cells});
}

void brake_document_row(struct brake_document *d, const struct brake_cell *cells)
{
    if (d->short_of_memory || d->nodes == 0)
        return;
    struct brake_node *node = &d->node[d->nodes - 1];
    for (int i = 0; i < node->table.columns; i++)
        add_cell(d, cells[i]);
    node->count++;
}

void brake_document_annex(struct brake_document *d)
{
    add_node(d, &(struct brake_node){.kind = BRAKE_NODE_ANNEX});
}

/* Its ends of lines stay; what may not stand in a page the page leaves out. */
void brake_document_carry(struct brake_document *d, const char *name, const char *text)
{
    const size_t size = strlen(text) + 1;
    char *copy = keep(d, size);
    if (copy == NULL)
        return;
    memcpy(copy, text, size);
    add_node(d, &(struct brake_node){.kind = BRAKE_NODE_CARRIED,
                                     .key = keep_text(d, name),
                                     .cell = brake_cell_text(copy)});
}

void brake_document_figure(struct brake_document *d, struct brake_figure_of figure)
{
    add_node(d, &(struct brake_node){.kind = BRAKE_NODE_FIGURE, .figure = figure});
}

const struct brake_cell *brake_node_row(const struct brake_document *d,
                                        const struct brake_node *table, long row)
{
    return &d->cell[table->first + row * table->table.columns];
}

/* ---- printing ------------------------------------------------------------------------------- */

enum brake_status brake_document_status(const struct brake_document *document)
{
    return document == NULL || document->short_of_memory ? BRAKE_E_MEMORY : BRAKE_OK;
}

enum brake_status brake_document_print(const struct brake_document *document,
                                       enum brake_format format, FILE *stream)
{
    if (brake_document_status(document) != BRAKE_OK)
        return BRAKE_E_MEMORY;
    switch (format) {
    case BRAKE_AS_TEXT:
        brake_print_text(document, stream);
        break;
    case BRAKE_AS_JSON:
    case BRAKE_AS_COMPACT_JSON:
        brake_print_json(document, format == BRAKE_AS_COMPACT_JSON, stream);
        break;
    case BRAKE_AS_HTML:
        brake_print_html(document, stream);
        break;
    case BRAKE_AS_CSV:
        brake_print_csv(document, stream);
        break;
    }
    return BRAKE_OK;
}

char *brake_document_text(const struct brake_document *document, enum brake_format format)
{
    char *text = NULL;
    size_t size = 0;
    FILE *stream = open_memstream(&text, &size);
    if (stream == NULL)
        return NULL;
    bool whole = brake_document_print(document, format, stream) == BRAKE_OK;
    whole = ferror(stream) == 0 && whole;
    whole = fclose(stream) == 0 && whole;
    if (whole)
        return text;
    free(text);
    return NULL;
}
