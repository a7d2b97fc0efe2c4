/* SPDX-License-Identifier: MIT */
/* A document as one page of HTML for screen, phone and paper: black on white, no script, nothing to
 * be fetched. */
#include <string.h>

#include "document.h"
#include "page.h"
#include "vehicle/text.h"

enum { TEXT = 4096, WIDE_LEAST = 3, WIDE_MOST = 6 };

/* What runs of nodes of one kind are put into. */
enum run { NO_RUN, FACTS, PICTURES, BLANKS };

struct page {
    const struct brake_document *d;
    FILE *stream;
    int sections;
    int depth;           /* of headings that are open */
    const char *heading; /* the last one */
    enum run run;
    bool annex;
};

/* Text that the user may have written: its direction must not spill over. */
static void isolated(FILE *stream, const char *text)
{
    fputs("<bdi>", stream);
    brake_page_text(stream, text);
    fputs("</bdi>", stream);
}

static void put_cell(const struct page *p, const struct brake_cell *cell)
{
    char room[BRAKE_CELL_WORDS];
    if (cell->kind == BRAKE_CELL_BLANK) {
        fputs("<i class=\"line\"></i>", p->stream);
        return;
    }
    if (cell->kind == BRAKE_CELL_TEXT) {
        isolated(p->stream, cell->text);
        return;
    }
    brake_page_text(p->stream, brake_cell_told(cell, p->d->systems, room));
}

/* ---- tables --------------------------------------------------------------------------------- */

static bool for_people(const struct brake_column *column)
{
    return column->head != NULL;
}

/* Columns that people see, details not counted. */
static int width_of(const struct brake_table *t)
{
    int count = 0;
    for (int i = 0; i < t->columns; i++)
        count += for_people(&t->column[i]) && t->column[i].place == BRAKE_COLUMN;
    return count;
}

/* The columns that people see, the leading one first; -1: no more. */
static int column_at(const struct brake_table *t, int place)
{
    if (place == 0)
        return t->lead;
    for (int i = 0; i < t->columns; i++) {
        if (for_people(&t->column[i]) && t->column[i].place == BRAKE_COLUMN && i != t->lead &&
            --place == 0)
            return i;
    }
    return -1;
}

static void open_table(const struct page *p, const struct brake_table *t)
{
    const int width = width_of(t);
    if (width >= WIDE_LEAST && width <= WIDE_MOST)
        brake_text_print(p->stream, "<table class=\"wide of%d\">\n", width);
    else
        brake_text_print(p->stream, "<div class=\"scroll\"><table class=\"even\">\n");
    brake_page_element(p->stream, "caption", t->caption != NULL ? t->caption : p->heading);
    fputs("<thead>\n<tr>\n", p->stream);
    for (int at = 0; column_at(t, at) >= 0; at++)
        brake_page_element(p->stream, "th scope=\"col\"", t->column[column_at(t, at)].head);
    fputs("</tr>\n</thead>\n<tbody>\n", p->stream);
}

static void close_table(const struct page *p, const struct brake_table *t)
{
    const int width = width_of(t);
    const bool wide = width >= WIDE_LEAST && width <= WIDE_MOST;
    brake_text_print(p->stream, "</tbody>\n</table>%s\n", wide ? "" : "</div>");
}

static void put_small(const struct page *p, const struct brake_cell *cell)
{
    if (cell->kind == BRAKE_CELL_NOTHING)
        return;
    fputs("<br><small>", p->stream);
    put_cell(p, cell);
    fputs("</small>", p->stream);
}

/* Details of a cell stand below it, notes on the row below its leading one. */
static void put_below(const struct page *p, const struct brake_table *t,
                      const struct brake_cell *cells, int column)
{
    for (int i = column + 1; i < t->columns && t->column[i].place != BRAKE_COLUMN; i++) {
        if (t->column[i].place == BRAKE_DETAIL)
            put_small(p, &cells[i]);
    }
    for (int i = 0; i < t->columns && column == t->lead; i++) {
        if (for_people(&t->column[i]) && t->column[i].place == BRAKE_NOTE)
            put_small(p, &cells[i]);
    }
}

static void put_row(const struct page *p, const struct brake_table *t,
                    const struct brake_cell *cells)
{
    fputs("<tr>\n", p->stream);
    for (int at = 0; column_at(t, at) >= 0; at++) {
        const int column = column_at(t, at);
        fputs(at == 0 ? "<th scope=\"row\">" : "<td>", p->stream);
        put_cell(p, &cells[column]);
        put_below(p, t, cells, column);
        fputs(at == 0 ? "</th>\n" : "</td>\n", p->stream);
    }
    fputs("</tr>\n", p->stream);
}

/* Each row is one point: its first cell, what else there is below. */
static void put_list(const struct page *p, const struct brake_node *node)
{
    const struct brake_table *t = &node->table;
    fputs(t->rows == BRAKE_ROWS_TICKED ? "<ul class=\"ticks\">\n" : "<ul>\n", p->stream);
    for (long row = 0; row < node->count; row++) {
        bool first = true;
        fputs("<li>", p->stream);
        for (int i = 0; i < t->columns; i++) {
            const struct brake_cell *cell = &brake_node_row(p->d, node, row)[i];
            if (!for_people(&t->column[i]) || cell->kind == BRAKE_CELL_NOTHING)
                continue;
            if (!first) {
                fputs("<br><small>", p->stream);
                brake_page_words(p->stream, "%s: ", t->column[i].head);
            }
            put_cell(p, cell);
            fputs(first ? "" : "</small>", p->stream);
            first = false;
        }
        fputs("</li>\n", p->stream);
    }
    fputs("</ul>\n", p->stream);
}

static void put_table(const struct page *p, const struct brake_node *node)
{
    const struct brake_table *t = &node->table;
    if (width_of(t) == 0)
        return;
    if (node->count == 0 && t->none != NULL)
        brake_page_element(p->stream, "p", t->none);
    if (node->count == 0)
        return;
    if (t->rows != BRAKE_ROWS_PLAIN) {
        if (t->caption != NULL)
            brake_page_element(p->stream, "p", t->caption);
        put_list(p, node);
        return;
    }
    open_table(p, t);
    for (long row = 0; row < node->count; row++) {
        const struct brake_cell *cells = brake_node_row(p->d, node, row);
        if (!cells->quiet)
            put_row(p, t, cells);
    }
    close_table(p, t);
}

/* ---- nodes ---------------------------------------------------------------------------------- */

static void put_sentence(const struct page *p, const struct brake_node *node)
{
    const char *text = node->cell.text;
    if ((node->head == NULL && node->key != NULL) || text == NULL || text[0] == '\0')
        return;
    fputs("<p>", p->stream);
    if (node->head != NULL && node->head[0] != '\0') {
        fputs("<strong>", p->stream);
        brake_page_text(p->stream, node->head);
        fputs("</strong> ", p->stream);
    }
    isolated(p->stream, text);
    fputs("</p>\n", p->stream);
}

/* Ends what runs, and begins another run. */
static void run(struct page *p, enum run next)
{
    static const char *const begin[] = {"", "<dl class=\"facts\">\n", "<div class=\"pictures\">\n",
                                        "<div class=\"together\">\n"};
    static const char *const end[] = {"", "</dl>\n", "</div>\n", "</div>\n"};
    if (p->run != next) {
        fputs(end[p->run], p->stream);
        fputs(begin[next], p->stream);
    }
    p->run = next;
}

static void put_fact(struct page *p, const struct brake_node *node)
{
    if (node->head == NULL || node->cell.kind == BRAKE_CELL_NOTHING)
        return;
    if (node->cell.kind == BRAKE_CELL_BLANK) {
        run(p, BLANKS);
        brake_page_blank(p->stream, node->head);
        return;
    }
    run(p, FACTS);
    brake_page_element(p->stream, "dt", node->head);
    fputs("<dd>", p->stream);
    put_cell(p, &node->cell);
    fputs("</dd>\n", p->stream);
}

/* The first word of its heading; the top parts of a page begin differently, for parts within parts
 * the number tells them apart. */
static void name_part(struct page *p, const char *heading, char *id, size_t size)
{
    static const char letters[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
    const char *word = heading + strcspn(heading, letters);
    const int length = (int)strspn(word, letters);
    char number[16] = "";
    p->sections++;
    if (p->depth > 1)
        brake_text_format(number, sizeof number, "-%d", p->sections);
    brake_text_format(id, size, "%.*s%s", length, word, number);
    if (id[0] >= 'A' && id[0] <= 'Z')
        id[0] = (char)(id[0] - 'A' + 'a');
}

static void put_section(struct page *p, const struct brake_node *node)
{
    char id[80];
    const int level = ++p->depth + 1;
    name_part(p, node->head, id, sizeof id);
    brake_text_print(p->stream, "<section aria-labelledby=\"%s\">\n<h%d id=\"%s\">", id, level, id);
    brake_page_text(p->stream, node->head);
    brake_text_print(p->stream, "</h%d>\n", level);
    p->heading = node->head;
}

static void end_section(struct page *p)
{
    p->depth--;
    brake_page_section_end(p->stream);
}

/* `headed` has a bit for each open section that people see. */
static void put_node(struct page *p, const struct brake_node *node, unsigned *headed)
{
    const bool figure = node->kind == BRAKE_NODE_FIGURE && node->figure.draw != NULL;
    if (node->kind != BRAKE_NODE_FACT)
        run(p, figure ? PICTURES : NO_RUN);
    switch (node->kind) {
    case BRAKE_NODE_SECTION:
        *headed = (*headed << 1) | (node->head != NULL);
        if (node->head != NULL)
            put_section(p, node);
        break;
    case BRAKE_NODE_END:
        if (*headed & 1U)
            end_section(p);
        *headed >>= 1;
        break;
    case BRAKE_NODE_ANNEX:
        fputs("<div class=\"annex\">\n", p->stream);
        p->annex = true;
        break;
    case BRAKE_NODE_SENTENCE:
        put_sentence(p, node);
        break;
    case BRAKE_NODE_FACT:
        put_fact(p, node);
        break;
    case BRAKE_NODE_TABLE:
        put_table(p, node);
        break;
    case BRAKE_NODE_CARRIED:
        brake_page_carry(p->stream, node->key, node->cell.text);
        break;
    case BRAKE_NODE_FIGURE:
        if (figure)
            node->figure.draw(node->figure.context, p->d->systems, p->stream);
        break;
    }
}

void brake_print_html(const struct brake_document *d, FILE *stream)
{
    struct page p = {.d = d, .stream = stream, .heading = d->title};
    unsigned headed = 0;
    brake_page_open(stream, d->title, d->subject);
    for (long i = 0; i < d->nodes; i++)
        put_node(&p, &d->node[i], &headed);
    run(&p, NO_RUN);
    fputs(p.annex ? "</div>\n" : "", stream);
    brake_page_close(stream);
}
