/* SPDX-License-Identifier: MIT */
/* A table in 80 columns of text. One whose cells fit side by side has columns: both systems of
 * units in a cell, or the other system on a line of its own, or the unit of a row at its end,
 * whichever fits first. Of a wider one the last column is wrapped if that makes room, else each row
 * is a paragraph. */
#include "text_table.h"

#include <string.h>

#include "paragraph.h"
#include "vehicle/text.h"

enum {
    INDENT = 2,
    LAST = 30,    /* least width of a wrapped column */
    WORDS = 4096, /* of a row as a paragraph */
    COLUMN_MOST = 24
};

/* Where the units of a row stand that differ from row to row. */
enum manner { IN_CELL, STACKED, AT_END };

struct page {
    const struct brake_document *d;
    FILE *stream;
};

/* ---- one column ----------------------------------------------------------------------------- */

struct column {
    const char *head;
    int at; /* in the row */
    bool right;
    enum manner manner;
    bool bare;                        /* its one unit stands in the head */
    const struct brake_unit *unit[2]; /* of all its numbers; NULL: they differ, or it has none */
    int width;
};

struct layout {
    struct column column[COLUMN_MOST];
    int columns;
    int lines; /* of a row: one for each system of units */
    int gap;
    int width;
};

static const struct brake_cell *cell_at(const struct page *p, const struct brake_node *t, long row,
                                        int column)
{
    return &brake_node_row(p->d, t, row)[column];
}

static bool has_unit(const struct brake_cell *cell)
{
    return (cell->kind == BRAKE_CELL_NUMBER || cell->kind == BRAKE_CELL_LIST) && cell->unit != NULL;
}

static bool seen(const struct page *p, const struct brake_node *t, long row)
{
    return !cell_at(p, t, row, 0)->quiet;
}

/* Whether all numbers of a column share one unit: it then stands in the head. */
static void find_unit(const struct page *p, const struct brake_node *t, struct column *c)
{
    const struct brake_cell *first = NULL;
    c->right = true;
    c->unit[0] = c->unit[1] = NULL;
    for (long row = 0; row < t->count; row++) {
        const struct brake_cell *cell = cell_at(p, t, row, c->at);
        c->right = c->right && cell->kind != BRAKE_CELL_TEXT && cell->kind != BRAKE_CELL_BLANK;
        if (!has_unit(cell) || !seen(p, t, row))
            continue;
        if (cell->before != NULL)
            return;
        if (first == NULL)
            first = cell;
        else if (cell->unit != first->unit)
            return;
    }
    if (first == NULL || t->count < 2)
        return;
    c->bare = true;
    if (brake_cell_units(first, p->d->systems, c->unit) == 1)
        c->unit[1] = NULL;
}

static void other_line(const struct page *p, const struct brake_cell *cell, bool bare, int line,
                       char text[BRAKE_CELL_WORDS])
{
    const struct brake_unit *unit[2];
    const int units = brake_cell_units(cell, p->d->systems, unit);
    if (line == 0 || (units > 1 && has_unit(cell)))
        brake_cell_in(cell, unit[line], bare, text, BRAKE_CELL_WORDS);
}

/* Line 1 is the number in the other system, where it does not stand beside that of line 0. */
static void cell_line(const struct page *p, const struct brake_cell *cell, const struct column *c,
                      int line, char text[BRAKE_CELL_WORDS])
{
    text[0] = '\0';
    if (!c->bare && (c->manner == IN_CELL || cell->before != NULL))
        brake_cell_words(cell, p->d->systems, text, line == 0 ? BRAKE_CELL_WORDS : 1);
    else if (!c->bare)
        other_line(p, cell, c->manner == AT_END, line, text);
    else if (line == 0 || (has_unit(cell) && c->unit[1] != NULL))
        brake_cell_in(cell, c->unit[line], true, text, BRAKE_CELL_WORDS);
    if (line == 1 && strcmp(text, "-") == 0)
        text[0] = '\0';
}

static int cell_width(const struct page *p, const struct brake_cell *cell, const struct column *c)
{
    char text[BRAKE_CELL_WORDS];
    int width = 0;
    if (cell->kind == BRAKE_CELL_TEXT)
        return brake_letters(cell->text);
    for (int line = 0; line < 2; line++) {
        cell_line(p, cell, c, line, text);
        width = brake_letters(text) > width ? brake_letters(text) : width;
    }
    return width;
}

static void measure(const struct page *p, const struct brake_node *t, struct column *c)
{
    c->width = brake_letters(c->head);
    for (int i = 0; i < 2 && c->bare && c->unit[i] != NULL; i++) {
        const int width = brake_letters(brake_unit_words(c->unit[i]));
        c->width = width > c->width ? width : c->width;
    }
    for (long row = 0; row < t->count; row++) {
        const int width = seen(p, t, row) ? cell_width(p, cell_at(p, t, row, c->at), c) : 0;
        c->width = width > c->width ? width : c->width;
    }
}

static bool second_line(const struct page *p, const struct brake_node *t, const struct column *c)
{
    char text[BRAKE_CELL_WORDS];
    for (long row = 0; row < t->count; row++) {
        cell_line(p, cell_at(p, t, row, c->at), c, 1, text);
        if (text[0] != '\0')
            return true;
    }
    return false;
}

/* The unit that all numbers of a row share which the heads do not tell; NULL: there is none
 * such. */
static const struct brake_cell *unit_of_row(const struct page *p, const struct brake_node *t,
                                            const struct layout *l, long row)
{
    const struct brake_cell *first = NULL;
    for (int i = 0; i < l->columns; i++) {
        const struct brake_cell *cell = cell_at(p, t, row, l->column[i].at);
        if (l->column[i].bare || cell->kind != BRAKE_CELL_NUMBER)
            continue;
        if (cell->before != NULL || cell->unit == NULL ||
            (first != NULL && cell->unit != first->unit))
            return NULL;
        first = cell;
    }
    return first;
}

/* Width of the units at the end of the rows; -1: some row has none, or several. */
static int end_width(const struct page *p, const struct brake_node *t, const struct layout *l)
{
    int width = 0;
    for (long row = 0; row < t->count; row++) {
        const struct brake_unit *unit[2];
        const struct brake_cell *cell = seen(p, t, row) ? unit_of_row(p, t, l, row) : NULL;
        if (seen(p, t, row) && cell == NULL)
            return -1;
        const int units = cell != NULL ? brake_cell_units(cell, p->d->systems, unit) : 0;
        for (int i = 0; i < units; i++) {
            const int letters_of_it = brake_letters(brake_unit_words(unit[i]));
            width = letters_of_it > width ? letters_of_it : width;
        }
    }
    return width;
}

/* Details are for where there is more room. */
static void lay_out(const struct page *p, const struct brake_node *t, enum manner manner, int gap,
                    struct layout *l)
{
    *l = (struct layout){.lines = 1, .gap = gap, .width = INDENT - gap};
    for (int i = 0; i < t->table.columns && l->columns < COLUMN_MOST; i++) {
        if (t->table.column[i].head == NULL || t->table.column[i].place != BRAKE_COLUMN)
            continue;
        struct column *c = &l->column[l->columns++];
        *c = (struct column){.head = t->table.column[i].head, .at = i, .manner = manner};
        find_unit(p, t, c);
        measure(p, t, c);
        l->lines = second_line(p, t, c) ? 2 : l->lines;
        l->width += c->width + gap;
    }
    const int end = manner == AT_END ? end_width(p, t, l) : 0;
    l->width = end < 0 ? BRAKE_TEXT_COLUMNS + 1 : l->width + (end > 0 ? gap + end : 0);
}

/* ---- rows ----------------------------------------------------------------------------------- */

/* A line of a table, grown cell by cell. */
struct line {
    char text[WORDS];
    size_t used;
};

static void add_cell(struct line *line, const struct layout *l, const struct column *c,
                     const char *text)
{
    const int blanks = c->width - brake_letters(text) > 0 ? c->width - brake_letters(text) : 0;
    line->used +=
        (size_t)brake_text_format(line->text + line->used, WORDS - line->used, "%*s%*s%s%*s",
                                  line->used > 0 ? l->gap : INDENT, "", c->right ? blanks : 0, "",
                                  text, c->right ? 0 : blanks, "");
    line->used = line->used < WORDS ? line->used : WORDS - 1;
}

static void end_line(const struct page *p, struct line *line)
{
    while (line->used > 0 && line->text[line->used - 1] == ' ')
        line->text[--line->used] = '\0';
    if (line->used > 0)
        brake_text_print(p->stream, "%s\n", line->text);
}

/* Heads, then the units that stand in them. */
static void head_lines(const struct page *p, const struct layout *l)
{
    for (int at = 0; at < 3; at++) {
        struct line line = {.used = 0};
        for (int i = 0; i < l->columns; i++) {
            const struct column *c = &l->column[i];
            const struct brake_unit *unit = at > 0 && c->bare ? c->unit[at - 1] : NULL;
            add_cell(&line, l, c, at == 0 ? c->head : unit != NULL ? brake_unit_words(unit) : "");
        }
        end_line(p, &line);
    }
}

/* The unit at the end of a line. */
static void add_unit(const struct page *p, const struct brake_cell *cell, const struct layout *l,
                     int at, struct line *line)
{
    const struct brake_unit *unit[2];
    const struct column end = {.right = false};
    if (l->column[0].manner == AT_END && cell != NULL &&
        at < brake_cell_units(cell, p->d->systems, unit))
        add_cell(line, l, &end, brake_unit_words(unit[at]));
}

static void row_line(const struct page *p, const struct brake_node *t, const struct layout *l,
                     long row, int at)
{
    struct line line = {.used = 0};
    for (int i = 0; i < l->columns; i++) {
        const struct column *c = &l->column[i];
        const struct brake_cell *cell = cell_at(p, t, row, c->at);
        char text[BRAKE_CELL_WORDS];
        cell_line(p, cell, c, at, text);
        add_cell(&line, l, c, cell->kind == BRAKE_CELL_TEXT && at == 0 ? cell->text : text);
    }
    add_unit(p, unit_of_row(p, t, l, row), l, at, &line);
    end_line(p, &line);
}

static void notes(const struct page *p, const struct brake_node *t, long row)
{
    for (int i = 0; i < t->table.columns; i++) {
        const char *text = cell_at(p, t, row, i)->text;
        if (t->table.column[i].head != NULL && t->table.column[i].place == BRAKE_NOTE &&
            text != NULL)
            brake_paragraph(p->stream, "      ", text);
    }
}

static void columns(const struct page *p, const struct brake_node *t, const struct layout *l)
{
    head_lines(p, l);
    for (long row = 0; row < t->count; row++) {
        for (int line = 0; line < l->lines && seen(p, t, row); line++)
            row_line(p, t, l, row, line);
        if (seen(p, t, row))
            notes(p, t, row);
    }
}

/* Width of a column with both systems in a cell, and of its head. */
static int words_width(const struct page *p, const struct brake_node *t, const struct column *c)
{
    int width = brake_letters(c->head);
    for (long row = 0; row < t->count; row++) {
        char room[BRAKE_CELL_WORDS];
        if (!seen(p, t, row))
            continue;
        const char *text = brake_cell_told(cell_at(p, t, row, c->at), p->d->systems, room);
        width = brake_letters(text) > width ? brake_letters(text) : width;
    }
    return width;
}

/* Widens the columns for that. Returns whether the last one has room beside the others. */
static bool room_for_last(const struct page *p, const struct brake_node *t, struct layout *l)
{
    int width = INDENT;
    for (int i = 0; i < l->columns - 1; i++) {
        l->column[i].width = words_width(p, t, &l->column[i]);
        l->column[i].right = false;
        width += l->column[i].width + l->gap;
    }
    return l->columns > 1 && width + LAST <= BRAKE_TEXT_COLUMNS;
}

/* All but the last column side by side, that one wrapped beside them. */
static void wrapped(const struct page *p, const struct brake_node *t, const struct layout *l)
{
    const struct column *last = &l->column[l->columns - 1];
    struct line heads = {.used = 0};
    for (int i = 0; i < l->columns; i++)
        add_cell(&heads, l, &l->column[i], l->column[i].head);
    end_line(p, &heads);
    for (long row = 0; row < t->count; row++) {
        struct line line = {.used = 0};
        char room[BRAKE_CELL_WORDS];
        if (!seen(p, t, row))
            continue;
        for (int i = 0; i < l->columns - 1; i++) {
            add_cell(&line, l, &l->column[i],
                     brake_cell_told(cell_at(p, t, row, l->column[i].at), p->d->systems, room));
        }
        brake_text_format(line.text + line.used, WORDS - line.used, "%*s", l->gap, "");
        brake_paragraph(p->stream, line.text,
                        brake_cell_told(cell_at(p, t, row, last->at), p->d->systems, room));
    }
}

/* "head value; head value": behind the first cell, which hangs, and the second, which needs no
 * head; details last, in brackets. */
static void add_part(const struct page *p, const struct brake_column *column,
                     const struct brake_cell *cell, bool headed, char *text)
{
    char room[BRAKE_CELL_WORDS];
    const size_t used = strlen(text);
    if (cell->kind == BRAKE_CELL_NOTHING)
        return;
    const char *shown = brake_cell_told(cell, p->d->systems, room);
    if (shown[0] == '\0')
        return;
    headed = headed && column->head[0] != '\0';
    brake_text_format(text + used, WORDS - used, "%s%s%s%s%s%s", used > 0 ? "; " : "",
                      column->place == BRAKE_DETAIL ? "[" : "", headed ? column->head : "",
                      headed ? " " : "", shown, column->place == BRAKE_DETAIL ? "]" : "");
}

static void paragraphs(const struct page *p, const struct brake_node *t, const struct layout *l)
{
    const int full = words_width(p, t, &l->column[0]);
    const int width = full < BRAKE_TEXT_COLUMNS / 2 ? full : BRAKE_TEXT_COLUMNS / 2;
    for (long row = 0; row < t->count; row++) {
        char head[WORDS];
        char room[BRAKE_CELL_WORDS];
        char text[WORDS] = "";
        if (!seen(p, t, row))
            continue;
        const char *first =
            brake_cell_told(cell_at(p, t, row, l->column[0].at), p->d->systems, room);
        for (int i = 1; i < l->columns; i++)
            add_part(p, &t->table.column[l->column[i].at], cell_at(p, t, row, l->column[i].at),
                     i > 1, text);
        for (int i = 0; i < t->table.columns; i++) {
            if (t->table.column[i].head != NULL && t->table.column[i].place != BRAKE_COLUMN)
                add_part(p, &t->table.column[i], cell_at(p, t, row, i), true, text);
        }
        const int blanks = width - brake_letters(first);
        brake_text_format(head, sizeof head, "%*s%s%*s  ", INDENT, "", first,
                          blanks > 0 ? blanks : 0, "");
        brake_paragraph(p->stream, head, text);
    }
}

/* The first manner of columns that fits; false: none does. */
static bool side_by_side(const struct page *p, const struct brake_node *t, struct layout *l)
{
    static const enum manner manners[] = {IN_CELL, STACKED, AT_END};
    for (int gap = 2; gap > 0; gap--) {
        for (int i = 0; i < 3; i++) {
            lay_out(p, t, manners[i], gap, l);
            if (l->width <= BRAKE_TEXT_COLUMNS && (l->columns > 2 || manners[i] == IN_CELL))
                return true;
        }
    }
    return false;
}

void brake_text_table(const struct brake_document *d, const struct brake_node *table, FILE *stream)
{
    const struct page p = {d, stream};
    struct layout l;
    if (side_by_side(&p, table, &l)) {
        columns(&p, table, &l);
        return;
    }
    lay_out(&p, table, IN_CELL, 2, &l);
    if (room_for_last(&p, table, &l))
        wrapped(&p, table, &l);
    else if (l.columns > 0)
        paragraphs(&p, table, &l);
}
