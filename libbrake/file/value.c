/* SPDX-License-Identifier: MIT */
#include "value.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "amount.h"
#include "brake/file.h"
#include "spelling.h"
#include "vehicle/letters.h"
#include "vehicle/sections.h"
#include "vehicle/text.h"
#include "vehicle/trade.h"

enum brake_status brake_value_refuse(struct brake_error *error, enum brake_status status, int line,
                                     const char *field, const char *format, ...)
{
    va_list list;
    error->status = status;
    error->line = line;
    brake_text_format(error->field, sizeof error->field, "%.63s", field);
    va_start(list, format);
    brake_text_format_list(error->text, sizeof error->text, format, list);
    va_end(list);
    brake_text_make_plain(error->field);
    brake_text_make_plain(error->text);
    return status;
}

static void trim_end(char *text)
{
    size_t length = strlen(text);
    while (length > 0 && (text[length - 1] == ' ' || text[length - 1] == '\t'))
        text[--length] = '\0';
}

/* ---- where it came from --------------------------------------------------------------------- */

static const char *const from_words[] = {"absent", "default", "estimated", "catalogue", "measured"};

const char *brake_from_word(enum brake_from from)
{
    return from_words[from];
}

/* Number of a word; -1 when a file may not say it. */
static int from_of_word(const char *word)
{
    for (int from = BRAKE_ESTIMATED; from <= BRAKE_MEASURED; from++) {
        if (brake_text_alike(word, from_words[from], strlen(word) + 1))
            return from;
    }
    return -1;
}

/* The next letter of a word in which blanks, dashes and the size of letters do not count: DOT 4 is
 * dot4, duo-servo is duo_servo. */
static int next_letter(const char **word)
{
    *word += strspn(*word, " \t-_");
    return **word != '\0' ? brake_letter_small(*(*word)++) : '\0';
}

static bool is_choice(const char *known, const char *word)
{
    int letter;
    do {
        letter = next_letter(&known);
        if (letter != next_letter(&word))
            return false;
    } while (letter != '\0');
    return true;
}

static const char SAME[] = "same_as_before";

static bool note_from(struct reading *r, const char *word)
{
    const int from = from_of_word(reading_past_blanks(word));
    if (from < 0)
        return false;
    r->from = (enum brake_from)from;
    r->told = true;
    return true;
}

static void cut(char *text, char *at)
{
    *at = '\0';
    trim_end(text);
}

/* Whether a comma stands between numbers: of a curve inside a bracket, or where no pair is; of
 * pistons before the next group. */
static bool is_inside(const struct reading *r, const char *text, const char *comma)
{
    const char *open = strrchr(text, '(');
    const char *close = strrchr(text, ')');
    const char *next = reading_past_blanks(comma + 1);
    if (r->quantity->kind == BRAKE_PISTONS)
        return *next >= '0' && *next <= '9';
    return r->quantity->kind == BRAKE_CURVE && (close == NULL || close < open || close > comma);
}

/* A ; close behind the value parts it from the word where it came from, or begins a comment; before
 * more numbers it is neither. */
static enum brake_status take_semicolon(struct reading *r, char *text)
{
    char *mark = strchr(text, ';');
    if (mark == NULL)
        return BRAKE_OK;
    const char *rest = reading_past_blanks(mark + 1);
    if (!note_from(r, rest) && strchr("0123456789(", *rest) != NULL && *rest != '\0')
        return READING_REFUSE(r, BRAKE_E_SYNTAX,
                              "got '%.40s' after a ;, which begins a comment; write a + or a , "
                              "between numbers, or a word behind the ;",
                              rest);
    cut(text, mark);
    return BRAKE_OK;
}

/* Cuts off what says that the line is of the same part as before a change. */
static enum brake_status take_same(struct reading *r, char *text)
{
    char *comma = strrchr(text, ',');
    r->same = comma != NULL && is_choice(SAME, comma + 1);
    if (r->same)
        cut(text, comma);
    if (!is_choice(SAME, text))
        return BRAKE_OK;
    return READING_REFUSE(r, BRAKE_E_SYNTAX,
                          "write the value as the file before has it, and behind it a comma and "
                          "'same as before'");
}

/* Cuts the word that says where the value came from off the text, behind its last comma. */
static enum brake_status take_from(struct reading *r, char *text)
{
    enum brake_status status = take_semicolon(r, text);
    if (status == BRAKE_OK)
        status = take_same(r, text);
    char *comma = strrchr(text, ',');
    if (status != BRAKE_OK || comma == NULL || is_inside(r, text, comma))
        return status;
    const char *word = reading_past_blanks(comma + 1);
    if (!r->told && note_from(r, word)) {
        cut(text, comma);
        return BRAKE_OK;
    }
    return READING_REFUSE(r, BRAKE_E_SYNTAX,
                          "got '%.40s' after the comma; accepts measured, catalogue or estimated "
                          "(and a point in decimals, not a comma)",
                          word);
}

/* A marking may say where it came from; a name may hold commas of its own. */
static void take_from_of_text(struct reading *r, char *text)
{
    char *comma = strrchr(text, ',');
    if (r->quantity->role != BRAKE_RAW || comma == NULL)
        return;
    if (note_from(r, comma + 1))
        cut(text, comma);
}

/* ---- what is kept --------------------------------------------------------------------------- */

static void record(struct reading *r, int index, const struct amount *amount)
{
    struct brake_record *kept = &r->sheet->record[index];
    const struct brake_quantity *q = brake_quantity_at(index);
    kept->from = r->from;
    kept->line = r->source.line;
    kept->set = r->source.set;
    kept->us = r->us;
    kept->same = r->same;
    kept->worked = false;
    kept->typical = amount != NULL && amount->tolerance < 0.0 && q->typical > 0.0;
    kept->tolerance = 0.0;
    if (amount != NULL)
        kept->tolerance =
            amount->tolerance >= 0.0 ? amount->tolerance : fabs(amount->value) * q->typical;
}

static enum brake_status at_end(struct reading *r, const char *text)
{
    text = reading_past_blanks(text);
    if (*text == '\0')
        return BRAKE_OK;
    return READING_REFUSE(r, BRAKE_E_SYNTAX, "does not understand '%.40s' at its end", text);
}

static enum brake_status read_real(struct reading *r, const char *text)
{
    struct amount amount;
    enum brake_status status = amount_take(r, &text, &amount);
    if (status == BRAKE_OK)
        status = at_end(r, text);
    if (status != BRAKE_OK)
        return status;
    *(double *)brake_quantity_in(&r->sheet->vehicle, r->index) = amount.value;
    record(r, r->index, &amount);
    return BRAKE_OK;
}

/* The choice that a wrong word was meant to be; empty: none is near. */
static const char *near_choice(const char *const *words, const char *text)
{
    struct brake_nearest nearest = brake_nearest_to(text);
    const char *near = "";
    for (; *words != NULL; words++) {
        if (brake_nearest_is(&nearest, *words))
            near = *words;
    }
    return near;
}

static enum brake_status refuse_choice(struct reading *r, const char *text)
{
    const char *const *words = r->quantity->choices;
    const char *near = near_choice(words, text);
    const char *says = brake_trade_says(text);
    char list[200] = "";
    for (int i = 0; words[i] != NULL; i++)
        brake_text_format(list + strlen(list), sizeof list - strlen(list), i > 0 ? ", %s" : "%s",
                          words[i]);
    return READING_REFUSE(r, BRAKE_E_UNKNOWN, "got '%.40s'; %s%s%saccepts %s%s%s", text,
                          near[0] != '\0' ? "did you mean " : "", near,
                          near[0] != '\0' ? "? It " : "", list, says != NULL ? "; " : ". ",
                          says != NULL ? says : r->quantity->meaning);
}

static enum brake_status read_choice(struct reading *r, const char *text)
{
    const char *const *words = r->quantity->choices;
    for (int i = 0; words[i] != NULL; i++) {
        if (is_choice(words[i], text)) {
            *(int *)brake_quantity_in(&r->sheet->vehicle, r->index) = i;
            record(r, r->index, NULL);
            return BRAKE_OK;
        }
    }
    return refuse_choice(r, text);
}

static enum brake_status read_text(struct reading *r, const char *text)
{
    const size_t length = strlen(text);
    if (length >= BRAKE_TEXT_SIZE)
        return READING_REFUSE(r, BRAKE_E_SIZE, "has %zu bytes; accepts up to %d", length,
                              BRAKE_TEXT_SIZE - 1);
    if (text[0] == ';' || strstr(text, " ;") != NULL || strstr(text, "\t;") != NULL)
        return READING_REFUSE(r, BRAKE_E_SYNTAX,
                              "has ; behind a blank, which begins a comment in a file");
    memcpy(brake_quantity_in(&r->sheet->vehicle, r->index), text, length + 1);
    record(r, r->index, NULL);
    return BRAKE_OK;
}

static enum brake_status take_count(struct reading *r, const char **text, double *count)
{
    const enum brake_status status = amount_number(r, text, count);
    if (status != BRAKE_OK)
        return status;
    const size_t times = spelling_times(*text);
    if (times == 0 || *count < 1.0 || *count > 8.0 || *count != floor(*count))
        return READING_REFUSE(r, BRAKE_E_SYNTAX, READING_PISTONS);
    *text += times;
    return BRAKE_OK;
}

/* The diameters are quantities of their own, right after the list. */
static enum brake_status read_pistons(struct reading *r, const char *text)
{
    struct brake_pistons pistons = {{0.0, 0.0, 0.0}, {BRAKE_NAN, BRAKE_NAN, BRAKE_NAN}};
    struct amount amount[BRAKE_GROUPS];
    int groups = 0;
    do {
        if (groups == BRAKE_GROUPS)
            return READING_REFUSE(r, BRAKE_E_SIZE, "accepts up to %d groups of pistons",
                                  BRAKE_GROUPS);
        enum brake_status status = take_count(r, &text, &pistons.count[groups]);
        if (status == BRAKE_OK)
            status = amount_take(r, &text, &amount[groups]);
        if (status != BRAKE_OK)
            return status;
        pistons.diameter[groups] = amount[groups].value;
        groups++;
        text = reading_past_blanks(text);
    } while ((*text == '+' || *text == ',') && *text++ != '\0');
    const enum brake_status status = at_end(r, text);
    if (status != BRAKE_OK)
        return status;
    *(struct brake_pistons *)brake_quantity_in(&r->sheet->vehicle, r->index) = pistons;
    record(r, r->index, NULL);
    for (int i = 0; i < groups; i++)
        record(r, r->index + 1 + i, &amount[i]);
    for (int i = groups; i < BRAKE_GROUPS; i++)
        brake_quantity_clear(r->sheet, r->index + 1 + i);
    return BRAKE_OK;
}

static enum brake_status take_pair(struct reading *r, const char **text, struct brake_point *point)
{
    const struct brake_quantity *q = r->quantity;
    struct written second;
    struct amount amount;
    enum brake_status status = amount_take(r, text, &amount);
    if (status != BRAKE_OK)
        return status;
    *text = reading_past_blanks(*text);
    if (**text != ',')
        return READING_REFUSE(r, BRAKE_E_SYNTAX, "accepts pairs such as (20 bar, 18 bar)");
    (*text)++;
    status = amount_written(r, text, q->second, &second);
    if (status != BRAKE_OK)
        return status;
    if (amount.tolerance >= 0.0 || spelling_plus_minus(*text) > 0)
        return READING_REFUSE(r, BRAKE_E_SYNTAX, "a pair takes no tolerance");
    point->x = amount.value;
    point->y = brake_unit_to_si(second.unit, second.number);
    status = amount_in_range(r, point->y, second.unit, q->second_low, q->second_high);
    if (status != BRAKE_OK)
        return status;
    *text = reading_past_blanks(*text);
    if (**text != ')')
        return READING_REFUSE(r, BRAKE_E_SYNTAX, "a pair is not closed by ')'");
    (*text)++;
    return BRAKE_OK;
}

static enum brake_status read_curve(struct reading *r, const char *text)
{
    struct brake_points *kept = brake_quantity_in(&r->sheet->vehicle, r->index);
    const struct brake_record begun = r->sheet->record[r->index];
    struct brake_points points = {0};
    if (r->source.more) {
        points = *kept;
        if (!r->told)
            r->from = begun.from;
        else if (begun.from > BRAKE_ESTIMATED && begun.from != r->from)
            return READING_REFUSE(r, BRAKE_E_CONFLICT, "got '%s', but the line above it says '%s'",
                                  brake_from_word(r->from), brake_from_word(begun.from));
    }
    text = reading_past_blanks(text);
    while (*text == '(') {
        if (points.count == BRAKE_POINTS)
            return READING_REFUSE(r, BRAKE_E_SIZE, "accepts up to %d pairs", BRAKE_POINTS);
        text++;
        const enum brake_status status = take_pair(r, &text, &points.at[points.count]);
        if (status != BRAKE_OK)
            return status;
        points.count++;
        text = reading_past_blanks(text);
    }
    if (*text != '\0' || points.count == 0)
        return READING_REFUSE(
            r, BRAKE_E_SYNTAX,
            "got '%.40s'; accepts pairs such as (20 bar, 18 bar) (60 bar, 35 bar)", text);
    *kept = points;
    record(r, r->index, NULL);
    if (r->source.more)
        r->sheet->record[r->index].line = begun.line;
    return BRAKE_OK;
}

enum brake_status brake_number_read(const char *name, const char *text,
                                    enum brake_dimension dimension, double *number,
                                    const struct brake_unit **unit, struct brake_error *error)
{
    const struct brake_quantity any = {.kind = BRAKE_REAL,
                                       .dimension = dimension,
                                       .unit = brake_unit_si(dimension)->name,
                                       .high = 20.0}; /* half of it is the example in a message */
    struct reading r = {.error = error, .quantity = &any};
    struct written written;
    brake_text_format(r.path, sizeof r.path, "%s", name);
    const enum brake_status status = amount_written(&r, &text, dimension, &written);
    if (status != BRAKE_OK)
        return status;
    *number = written.number;
    *unit = written.unit;
    return at_end(&r, text);
}

enum brake_status brake_amount_read(const char *name, const char *text,
                                    enum brake_dimension dimension, double *value,
                                    struct brake_error *error)
{
    const struct brake_unit *unit;
    double number = BRAKE_NAN;
    const enum brake_status status =
        brake_number_read(name, text, dimension, &number, &unit, error);
    if (status == BRAKE_OK)
        *value = brake_unit_to_si(unit, number);
    return status;
}

enum brake_status brake_value_read(struct brake_sheet *sheet, int index, const char *text,
                                   struct brake_source source, struct brake_error *error)
{
    struct reading r = {.sheet = sheet,
                        .error = error,
                        .source = source,
                        .index = index,
                        .quantity = brake_quantity_at(index),
                        .from = BRAKE_ESTIMATED};
    char value[BRAKE_LINE_BYTES + 1];
    brake_catalogue_path(&sheet->vehicle, index, r.path, sizeof r.path);
    if (strlen(text) >= sizeof value)
        return READING_REFUSE(&r, BRAKE_E_SIZE, "has %zu bytes; accepts up to %d", strlen(text),
                              BRAKE_LINE_BYTES);
    brake_text_format(value, sizeof value, "%s", reading_past_blanks(text));
    trim_end(value);
    if (value[0] == '\0')
        return READING_REFUSE(&r, BRAKE_E_SYNTAX, "has no value");
    if (r.quantity->kind == BRAKE_TEXT) {
        take_from_of_text(&r, value);
        return read_text(&r, value);
    }
    const enum brake_status status = take_from(&r, value);
    if (status != BRAKE_OK)
        return status;
    switch (r.quantity->kind) {
    case BRAKE_CHOICE:
        return read_choice(&r, value);
    case BRAKE_PISTONS:
        return read_pistons(&r, value);
    case BRAKE_CURVE:
        return read_curve(&r, value);
    case BRAKE_REAL:
    case BRAKE_TEXT:
        break;
    }
    return read_real(&r, value);
}
