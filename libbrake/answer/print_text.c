/* SPDX-License-Identifier: MIT */
/* A document on a terminal: 80 columns, no colour. */

#include "brake/version.h"
#include "brake/warnings.h"
#include "document.h"
#include "paragraph.h"
#include "text_table.h"
#include "vehicle/text.h"

enum {
    HEAD = 81,
    LABEL = 10,  /* of a sentence, with the blank behind it */
    WORDS = 4096 /* of a point of a list */
};

struct page {
    const struct brake_document *d;
    FILE *stream;
};

/* ---- nodes ---------------------------------------------------------------------------------- */

static void list(const struct page *p, const struct brake_node *t)
{
    static const char *const marks[] = {
        [BRAKE_ROWS_LISTED] = "  - ", [BRAKE_ROWS_ALERTS] = "  ! ", [BRAKE_ROWS_TICKED] = "  [ ] "};
    for (long row = 0; row < t->count; row++) {
        bool first = true;
        for (int i = 0; i < t->table.columns; i++) {
            if (t->table.column[i].head == NULL)
                continue;
            const struct brake_cell *cell = &brake_node_row(p->d, t, row)[i];
            char room[BRAKE_CELL_WORDS];
            char text[WORDS];
            brake_text_format(text, sizeof text, "%s%s%s", first ? "" : t->table.column[i].head,
                              first ? "" : ": ", brake_cell_told(cell, p->d->systems, room));
            if (cell->kind != BRAKE_CELL_NOTHING)
                brake_paragraph(p->stream, first ? marks[t->table.rows] : "      ", text);
            first = false;
        }
    }
}

static bool for_people(const struct brake_table *table)
{
    for (int i = 0; i < table->columns; i++) {
        if (table->column[i].head != NULL)
            return true;
    }
    return false;
}

static void table(const struct page *p, const struct brake_node *t)
{
    if (!for_people(&t->table))
        return;
    if (t->table.caption != NULL)
        brake_paragraph(p->stream, "  ", t->table.caption);
    if (t->count == 0 && t->table.none != NULL)
        brake_paragraph(p->stream, "  ", t->table.none);
    if (t->table.rows != BRAKE_ROWS_PLAIN)
        list(p, t);
    else if (t->count > 0)
        brake_text_table(p->d, t, p->stream);
}

static void sentence(const struct page *p, const struct brake_node *node)
{
    char head[HEAD] = "  ";
    const char *text = node->cell.text;
    if (node->head == NULL && node->key != NULL)
        return; /* for programs: people read it elsewhere */
    if (text == NULL || text[0] == '\0')
        return;
    if (node->head != NULL && node->head[0] != '\0')
        brake_text_format(head, sizeof head, "%-*.*s ", LABEL - 1, 40, node->head);
    brake_paragraph(p->stream, head, text);
}

static void fact(const struct page *p, const struct brake_node *node)
{
    char head[HEAD];
    char room[BRAKE_CELL_WORDS];
    if (node->head == NULL || node->cell.kind == BRAKE_CELL_NOTHING)
        return;
    brake_text_format(head, sizeof head, "  %-34.60s  ", node->head);
    brake_paragraph(p->stream, head, brake_cell_told(&node->cell, p->d->systems, room));
}

/* A part of pictures that are drawn, not sketched, has nothing for a terminal. */
static bool only_drawn(const struct brake_node *section)
{
    const struct brake_node *node = section + 1;
    while (node->kind == BRAKE_NODE_FIGURE && node->figure.sketch == NULL)
        node++;
    return node > section + 1 && node->kind == BRAKE_NODE_END;
}

static void print_node(const struct page *p, const struct brake_node *node)
{
    switch (node->kind) {
    case BRAKE_NODE_SECTION:
        if (node->head != NULL && !only_drawn(node))
            brake_text_print(p->stream, "\n%s\n", node->head);
        break;
    case BRAKE_NODE_ANNEX:
        brake_text_print(p->stream, "\n%s\n", "Annex");
        break;
    case BRAKE_NODE_CARRIED:
    case BRAKE_NODE_END:
        break;
    case BRAKE_NODE_SENTENCE:
        sentence(p, node);
        break;
    case BRAKE_NODE_FACT:
        fact(p, node);
        break;
    case BRAKE_NODE_TABLE:
        table(p, node);
        break;
    case BRAKE_NODE_FIGURE:
        if (node->figure.sketch != NULL)
            node->figure.sketch(node->figure.context, p->d->systems, p->stream);
        break;
    }
}

void brake_print_text(const struct brake_document *d, FILE *stream)
{
    const struct page p = {.d = d, .stream = stream};
    brake_text_print(stream, "%s\n%s\n", d->subject, BRAKE_CAUTION_LINE);
    for (long i = 0; i < d->nodes; i++)
        print_node(&p, &d->node[i]);
    fputs(d->brief ? "" : "\n", stream);
    brake_paragraph(stream, "Caution   ", BRAKE_CAUTION);
    if (!d->brief)
        brake_text_print(stream, "libbrake %s\n", BRAKE_VERSION);
}
