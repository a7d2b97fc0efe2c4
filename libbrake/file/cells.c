/* SPDX-License-Identifier: MIT */
#include "cells.h"

#include <errno.h>
#include <string.h>

#include "value.h"
#include "vehicle/letters.h"

#define REFUSE(c, status, ...) brake_value_refuse((c)->error, status, (c)->line, "", __VA_ARGS__)

static bool parts_cells(const struct brake_cells *c, char byte)
{
    if (c->separator != '\0')
        return byte == c->separator;
    return byte == ',' || byte == ';' || byte == '\t';
}

static bool is_blank(char byte)
{
    return byte == ' ' || byte == '\t';
}

/* ---- rows ----------------------------------------------------------------------------------- */

/* More of the file behind what is held, which moves to the front. */
static enum brake_status read_on(struct brake_cells *c)
{
    const size_t held = c->end - c->begin;
    memmove(c->held, c->held + c->begin, held);
    c->begin = 0;
    c->end = held;
    const size_t more = fread(c->held + held, 1, BRAKE_ROW_BYTES + 1 - held, c->stream);
    c->end += more;
    c->held[c->end] = '\0';
    c->bytes += more;
    if (ferror(c->stream))
        return brake_value_refuse(c->error, BRAKE_E_READ, 0, "", "cannot be read: %s",
                                  strerror(errno));
    if (c->bytes >= BRAKE_TABLE_BYTES)
        return brake_value_refuse(c->error, BRAKE_E_SIZE, 0, "", "the file is larger than %d MB",
                                  BRAKE_TABLE_BYTES >> 20);
    return BRAKE_OK;
}

/* Whether a quote outside quotes opens some: it begins its cell, or is the second of a pair. */
static bool opens(const struct brake_cells *c, const char *row, size_t at, size_t closed)
{
    if (at > 0 && closed == at - 1)
        return true;
    while (at > 0 && is_blank(row[at - 1]) && !parts_cells(c, row[at - 1]))
        at--;
    return at == 0 || parts_cells(c, row[at - 1]);
}

/* How far a row has been looked at. */
struct look {
    size_t at;
    size_t closed; /* where quotes were closed last */
    bool comment, quoted;
};

/* Goes on to the end of the row, or of what is held; true: it is the end of the row. */
static bool look_on(struct brake_cells *c, struct look *look)
{
    const char *row = c->held + c->begin;
    const size_t held = c->end - c->begin;
    look->comment = held > 0 && *row == '#';
    for (; look->at < held; look->at++) {
        const char byte = row[look->at];
        const bool end = byte == '\n' || byte == '\r';
        if (end && !look->quoted)
            return true;
        if (end)
            c->lines += byte == '\r' || row[look->at - 1] != '\r';
        if (byte != '"' || look->comment)
            continue;
        if (look->quoted)
            look->closed = look->at;
        look->quoted = !look->quoted && opens(c, row, look->at, look->closed);
    }
    return false;
}

/* To where a row begins: past the mark of the file, past the LF of a CR LF. */
static enum brake_status begin_row(struct brake_cells *c)
{
    enum brake_status status = BRAKE_OK;
    if (c->begin == c->end && !feof(c->stream))
        status = read_on(c);
    if (c->lines == 0)
        c->begin += brake_text_mark(c->held + c->begin);
    if (c->after_cr && c->begin < c->end && c->held[c->begin] == '\n')
        c->begin++;
    c->after_cr = false;
    c->line = ++c->lines;
    return status;
}

/* Takes a row, whatever it is. `last`: nothing is left behind it. */
static enum brake_status take_row(struct brake_cells *c, bool *last)
{
    struct look look = {.closed = (size_t)-1};
    enum brake_status status = begin_row(c);
    bool ended = false;
    while (status == BRAKE_OK && !(ended = look_on(c, &look)) && !feof(c->stream)) {
        if (look.at > BRAKE_ROW_BYTES)
            return REFUSE(c, BRAKE_E_SIZE, "is longer than %d bytes%s", BRAKE_ROW_BYTES,
                          look.quoted ? ", from a quote that is not closed" : "");
        status = read_on(c);
    }
    if (status != BRAKE_OK)
        return status;
    if (look.quoted)
        return REFUSE(c, BRAKE_E_SYNTAX, "a quote that opens here is not closed");
    c->row = c->held + c->begin;
    c->length = look.at;
    c->begin += look.at + (ended ? 1 : 0);
    c->after_cr = ended && c->row[look.at] == '\r';
    *last = !ended;
    return BRAKE_OK;
}

static enum brake_status refuse_nul(struct brake_cells *c, const char *nul)
{
    int cell = 1;
    for (const char *at = c->row; at < nul; at++)
        cell += parts_cells(c, *at);
    return REFUSE(c, BRAKE_E_SYNTAX, "a NUL byte in cell %d; a table is plain text in UTF-8", cell);
}

/* A comment, an empty line, or the first line of some spreadsheets, which names the separator. */
static bool is_passed_over(const struct brake_cells *c)
{
    size_t blanks = 0;
    while (blanks < c->length && is_blank(c->row[blanks]))
        blanks++;
    return blanks == c->length || *c->row == '#' ||
           (c->line == 1 && c->length == 5 && memcmp(c->row, "sep=", 4) == 0);
}

enum brake_status brake_cells_next(struct brake_cells *c)
{
    bool last = false;
    enum brake_status status = BRAKE_OK;
    c->length = 0;
    while (status == BRAKE_OK && !last) {
        status = take_row(c, &last);
        const char *nul = status == BRAKE_OK ? memchr(c->row, '\0', c->length) : NULL;
        if (nul != NULL)
            return refuse_nul(c, nul);
        if (status == BRAKE_OK && !is_passed_over(c))
            return BRAKE_OK;
        if (status == BRAKE_OK && c->said != NULL)
            status = brake_said_take(c);
        c->length = 0;
    }
    return status;
}

/* ---- cells ---------------------------------------------------------------------------------- */

/* Copies a cell in quotes, *at being behind the first, and goes behind the last. Returns its
 * end. */
static char *copy_quoted(const struct brake_cells *c, size_t *at, char *to)
{
    for (; *at < c->length; (*at)++) {
        if (c->row[*at] == '"') {
            (*at)++;
            if (*at == c->length || c->row[*at] != '"')
                break;
        }
        *to++ = c->row[*at];
    }
    return to;
}

/* Copies what stands up to the separator, without the blanks behind it. Returns its end. */
static char *copy_plain(const struct brake_cells *c, size_t *at, char *to)
{
    const char *from = c->row + *at;
    const char *found = memchr(from, c->separator, c->length - *at);
    size_t length = found != NULL ? (size_t)(found - from) : c->length - *at;
    *at += length;
    while (length > 0 && is_blank(from[length - 1]))
        length--;
    memcpy(to, from, length);
    return to + length;
}

/* Cuts one cell off the row and goes to the separator behind it. */
static enum brake_status cut_cell(struct brake_cells *c, size_t *at, char **to)
{
    char *cell = *to;
    while (*at < c->length && is_blank(c->row[*at]) && c->row[*at] != c->separator)
        (*at)++;
    const bool quoted = *at < c->length && c->row[*at] == '"';
    if (c->count == BRAKE_CELLS)
        return REFUSE(c, BRAKE_E_SIZE, "more than %d cells", BRAKE_CELLS);
    c->cell[c->count++] = cell;
    if (quoted) {
        (*at)++;
        *to = copy_quoted(c, at, cell);
    }
    char *end = copy_plain(c, at, *to);
    if (quoted && end > *to)
        return REFUSE(c, BRAKE_E_SYNTAX, "cell %d goes on behind its closing quote", c->count);
    *end = '\0';
    *to = end + 1;
    if (end - cell > BRAKE_CELL_BYTES)
        return REFUSE(c, BRAKE_E_SIZE, "cell %d is longer than %d bytes", c->count,
                      BRAKE_CELL_BYTES);
    return BRAKE_OK;
}

enum brake_status brake_cells_cut(struct brake_cells *c, char separator)
{
    char *to = c->text;
    enum brake_status status = BRAKE_OK;
    bool more = true;
    c->separator = separator;
    c->count = 0;
    for (size_t at = 0; status == BRAKE_OK && more; at++) {
        status = cut_cell(c, &at, &to);
        more = at < c->length;
    }
    return status;
}
