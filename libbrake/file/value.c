#include "value.h"

#include <errno.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "brake/file.h"
#include "vehicle/letters.h"
#include "vehicle/sections.h"
#include "vehicle/text.h"

/* One value on its way in. */
struct reading {
    struct brake_sheet *sheet;
    struct brake_error *error;
    struct brake_source source;
    int index;
    const struct brake_quantity *quantity;
    char path[160];
    enum brake_from from;
    bool told; /* `from` stands in the text */
    bool us;   /* a unit of the US trade does */
};

/* A number with its unit and what it may be off by, SI. */
struct amount {
    double value;
    double tolerance; /* below 0: none stated */
};

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

#define REFUSE(r, status, ...)                                                                     \
    brake_value_refuse((r)->error, status, (r)->source.line, (r)->path, __VA_ARGS__)

static const char *past_blanks(const char *text)
{
    while (*text == ' ' || *text == '\t')
        text++;
    return text;
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

/* Whether a comma of a curve stands inside a bracket, or where no pair is: not before a word. */
static bool in_pairs(const char *text, const char *comma)
{
    const char *open = strrchr(text, '(');
    const char *close = strrchr(text, ')');
    return close == NULL || close < open || close > comma;
}

/* Number of a word; -1 when a file may not say it. */
static int from_of_word(const char *word)
{
    for (int from = BRAKE_ESTIMATED; from <= BRAKE_MEASURED; from++) {
        if (strcmp(word, from_words[from]) == 0)
            return from;
    }
    return -1;
}

/* Cuts the word behind the last comma off the text, commas in brackets aside. */
static enum brake_status take_from(struct reading *r, char *text)
{
    char *comma = strrchr(text, ',');
    r->from = BRAKE_ESTIMATED;
    if (comma == NULL || (r->quantity->kind == BRAKE_CURVE && in_pairs(text, comma)))
        return BRAKE_OK;
    const char *word = past_blanks(comma + 1);
    const int from = from_of_word(word);
    if (from >= 0) {
        r->from = (enum brake_from)from;
        r->told = true;
        *comma = '\0';
        trim_end(text);
        return BRAKE_OK;
    }
    return REFUSE(r, BRAKE_E_SYNTAX,
                  "got '%.40s' after the comma; accepts measured, catalogue or estimated (and a "
                  "point in decimals, not a comma)",
                  word);
}

/* A marking may say where it came from; a name may hold commas of its own. */
static void take_from_of_text(struct reading *r, char *text)
{
    char *comma = strrchr(text, ',');
    if (r->quantity->role != BRAKE_RAW || comma == NULL)
        return;
    const int from = from_of_word(past_blanks(comma + 1));
    if (from < 0)
        return;
    r->from = (enum brake_from)from;
    *comma = '\0';
    trim_end(text);
}

/* ---- numbers -------------------------------------------------------------------------------- */

#define PISTON_FORM                                                                                \
    "accepts number x diameter of ONE side, such as 2 x 48 mm, or 1 x 44 mm + 1 x 38 mm; 1 to 8 "  \
    "pistons"

static enum brake_status refuse_number(struct reading *r, const char *text)
{
    const struct brake_quantity *q = r->quantity;
    if (q->kind == BRAKE_PISTONS)
        return REFUSE(r, BRAKE_E_SYNTAX, PISTON_FORM);
    if (q->kind != BRAKE_REAL)
        return REFUSE(r, BRAKE_E_SYNTAX, "got '%.40s'; a number is wanted", text);
    return REFUSE(
        r, BRAKE_E_SYNTAX, "got '%.40s'; a number is wanted, such as %.4g%s%s", text,
        brake_unit_from_si(brake_unit_of(q->unit, q->dimension), (q->low + q->high) / 2.0),
        q->unit[0] ? " " : "", q->unit);
}

static enum brake_status take_number(struct reading *r, const char **text, double *number)
{
    const char *at = past_blanks(*text);
    const size_t length = brake_text_number_length(at);
    const int shown = (int)(length < 40 ? length : 40);
    if (length == 0)
        return refuse_number(r, at);
    if (!brake_text_number(at, length, number))
        return REFUSE(r, BRAKE_E_SYNTAX, "got '%.*s'; that is not a number", shown, at);
    if (!isfinite(*number))
        return REFUSE(r, BRAKE_E_RANGE, "got '%.*s'; that is beyond any number", shown, at);
    if (at[length] == ',' && at[length + 1] >= '0' && at[length + 1] <= '9')
        return REFUSE(r, BRAKE_E_SYNTAX, "got '%.40s'; decimals take a point, not a comma", at);
    *text = at + length;
    return BRAKE_OK;
}

static const char *dimension_words(enum brake_dimension dimension)
{
    static const char *const words[BRAKE_DIMENSIONS] = {"a plain number",
                                                        "a length",
                                                        "an area",
                                                        "a volume",
                                                        "an angle",
                                                        "a time",
                                                        "a speed",
                                                        "a deceleration",
                                                        "a mass",
                                                        "a force",
                                                        "a pressure",
                                                        "a torque",
                                                        "an energy",
                                                        "a power",
                                                        "a moment of inertia",
                                                        "a stiffness",
                                                        "a pressure per mass",
                                                        "a torque per pressure",
                                                        "a temperature",
                                                        "a difference of temperature",
                                                        "a heat capacity"};
    return words[dimension];
}

static const char plus_or_minus[] = "\xc2\xb1";

/* The unit is what stands before blank, bracket, comma, sign or end; J/(kg*K) has brackets. */
static size_t unit_length(const char *text)
{
    size_t length = strcspn(text, " \t(),+");
    if (text[length] == '(' && length > 0)
        length += strcspn(text + length, ")") + 1;
    const char *sign = strstr(text, plus_or_minus);
    return sign != NULL && (size_t)(sign - text) < length ? (size_t)(sign - text) : length;
}

/* The unit of a dimension that stands here, the longest: "degF rise" has a blank. */
static const struct brake_unit *unit_at(const char *text, enum brake_dimension dimension)
{
    const struct brake_unit *unit;
    const struct brake_unit *found = NULL;
    for (int i = 0; (unit = brake_unit_at(i)) != NULL; i++) {
        const size_t length = strlen(unit->name);
        if (unit->dimension == dimension && strncmp(unit->name, text, length) == 0 &&
            unit_length(text + length) == 0 && (found == NULL || length > strlen(found->name)))
            found = unit;
    }
    return found;
}

/* The unit that a wrong one was meant to be; NULL: nothing is near. */
static const struct brake_unit *unit_near(const char *name, enum brake_dimension dimension)
{
    struct brake_nearest nearest = brake_nearest_to(name);
    const struct brake_unit *unit;
    const struct brake_unit *near = NULL;
    for (int i = 0; (unit = brake_unit_at(i)) != NULL; i++) {
        if (unit->dimension == dimension && unit->name[0] != '\0' &&
            brake_nearest_is(&nearest, unit->name))
            near = unit;
    }
    return near;
}

static enum brake_status refuse_unknown_unit(struct reading *r, const char *name,
                                             enum brake_dimension dimension, const char *known)
{
    const struct brake_unit *near = unit_near(name, dimension);
    return REFUSE(r, BRAKE_E_UNIT, "unknown unit '%s'; %s%s%s %s%s", name,
                  near != NULL ? "did you mean " : "", near != NULL ? near->name : "",
                  near != NULL ? "? It accepts" : "accepts",
                  dimension == BRAKE_RATIO ? "no unit or " : "", known);
}

static enum brake_status refuse_unit(struct reading *r, const char *text,
                                     enum brake_dimension dimension)
{
    char name[24];
    char known[120];
    const size_t length = unit_length(text);
    brake_text_format(name, sizeof name, "%.*s", (int)(length < 23 ? length : 23), text);
    brake_unit_names(dimension, known, sizeof known);
    const struct brake_unit *other = brake_unit_find(name);
    if (other == NULL)
        return refuse_unknown_unit(r, name, dimension, known);
    if (name[0] == '\0')
        return REFUSE(r, BRAKE_E_UNIT, "has no unit; accepts %s", known);
    return REFUSE(r, BRAKE_E_UNIT, "got %s in '%s'; %s is wanted; accepts %s%s",
                  dimension_words(other->dimension), name, dimension_words(dimension),
                  dimension == BRAKE_RATIO ? "no unit or " : "", known);
}

static enum brake_status take_unit(struct reading *r, const char **text,
                                   enum brake_dimension dimension, const struct brake_unit **unit)
{
    const char *at = past_blanks(*text);
    *unit = unit_at(at, dimension);
    if (*unit == NULL)
        return refuse_unit(r, at, dimension);
    r->us = r->us || brake_unit_of_us_trade(*unit);
    *text = at + strlen((*unit)->name);
    return BRAKE_OK;
}

static bool take_plus_minus(const char **text)
{
    static const char *const signs[] = {"+-", "+/-", plus_or_minus};
    const char *at = past_blanks(*text);
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++) {
        if (strncmp(at, signs[i], strlen(signs[i])) == 0) {
            *text = at + strlen(signs[i]);
            return true;
        }
    }
    return false;
}

static enum brake_status take_tolerance(struct reading *r, const char **text,
                                        const struct brake_unit *value_unit, struct amount *amount)
{
    const struct brake_unit *unit;
    double number = BRAKE_NAN;
    enum brake_status status = take_number(r, text, &number);
    if (status != BRAKE_OK)
        return status;
    const char *at = past_blanks(*text);
    const bool share = *at == '%' && value_unit->name[0] != '%';
    if (share) {
        *text = at + 1;
        amount->tolerance = fabs(amount->value) * number / 100.0;
    } else {
        status = take_unit(r, text, value_unit->dimension, &unit);
        if (status != BRAKE_OK)
            return status;
        amount->tolerance = number * unit->factor;
    }
    const struct brake_quantity *q = r->quantity;
    const double one = brake_unit_of(q->unit, q->dimension)->factor;
    if (!(number >= 0.0) || amount->tolerance > q->high - q->low)
        return REFUSE(r, BRAKE_E_RANGE, "got a tolerance of %.6g%s%s; accepts 0 to %.6g%s%s",
                      amount->tolerance / one, q->unit[0] ? " " : "", q->unit,
                      (q->high - q->low) / one, q->unit[0] ? " " : "", q->unit);
    return BRAKE_OK;
}

static enum brake_status check_range(struct reading *r, double value, const struct brake_unit *unit,
                                     double low, double high)
{
    const char *blank = unit->name[0] != '\0' ? " " : "";
    const double rounding = 1e-12 * fmax(fabs(low), fabs(high));
    if (value >= low - rounding && value <= high + rounding)
        return BRAKE_OK;
    return REFUSE(r, BRAKE_E_RANGE, "got %.10g%s%s; accepts %.6g to %.6g%s%s",
                  brake_unit_from_si(unit, value), blank, unit->name, brake_unit_from_si(unit, low),
                  brake_unit_from_si(unit, high), blank, unit->name);
}

static enum brake_status take_amount(struct reading *r, const char **text, struct amount *amount)
{
    const struct brake_unit *unit;
    double number = BRAKE_NAN;
    enum brake_status status = take_number(r, text, &number);
    if (status == BRAKE_OK)
        status = take_unit(r, text, r->quantity->dimension, &unit);
    if (status != BRAKE_OK)
        return status;
    amount->value = brake_unit_to_si(unit, number);
    amount->tolerance = -1.0;
    const struct brake_quantity *q = r->quantity;
    status = check_range(r, amount->value, brake_unit_of(q->unit, q->dimension), q->low, q->high);
    if (status == BRAKE_OK && take_plus_minus(text))
        status = take_tolerance(r, text, unit, amount);
    return status;
}

static enum brake_status at_end(struct reading *r, const char *text)
{
    text = past_blanks(text);
    if (*text == '\0')
        return BRAKE_OK;
    return REFUSE(r, BRAKE_E_SYNTAX, "does not understand '%.40s' at its end", text);
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
    kept->worked = false;
    kept->typical = amount != NULL && amount->tolerance < 0.0 && q->typical > 0.0;
    kept->tolerance = 0.0;
    if (amount != NULL)
        kept->tolerance =
            amount->tolerance >= 0.0 ? amount->tolerance : fabs(amount->value) * q->typical;
}

static enum brake_status read_real(struct reading *r, const char *text)
{
    struct amount amount;
    enum brake_status status = take_amount(r, &text, &amount);
    if (status == BRAKE_OK)
        status = at_end(r, text);
    if (status != BRAKE_OK)
        return status;
    *(double *)brake_quantity_in(&r->sheet->vehicle, r->index) = amount.value;
    record(r, r->index, &amount);
    return BRAKE_OK;
}

static int small(char letter)
{
    return letter >= 'A' && letter <= 'Z' ? letter - 'A' + 'a' : letter;
}

static bool same_word(const char *one, const char *other)
{
    while (*one != '\0' && small(*one) == small(*other)) {
        one++;
        other++;
    }
    return *one == *other;
}

static enum brake_status read_choice(struct reading *r, const char *text)
{
    const char *const *words = r->quantity->choices;
    char list[200] = "";
    for (int i = 0; words[i] != NULL; i++) {
        if (same_word(words[i], text)) {
            *(int *)brake_quantity_in(&r->sheet->vehicle, r->index) = i;
            record(r, r->index, NULL);
            return BRAKE_OK;
        }
        brake_text_format(list + strlen(list), sizeof list - strlen(list), i > 0 ? ", %s" : "%s",
                          words[i]);
    }
    return REFUSE(r, BRAKE_E_UNKNOWN, "got '%.40s'; accepts %s", text, list);
}

static enum brake_status read_text(struct reading *r, const char *text)
{
    const size_t length = strlen(text);
    if (length >= BRAKE_TEXT_SIZE)
        return REFUSE(r, BRAKE_E_SIZE, "has %zu bytes; accepts up to %d", length,
                      BRAKE_TEXT_SIZE - 1);
    if (text[0] == ';' || strstr(text, " ;") != NULL || strstr(text, "\t;") != NULL)
        return REFUSE(r, BRAKE_E_SYNTAX, "has ; behind a blank, which begins a comment in a file");
    memcpy(brake_quantity_in(&r->sheet->vehicle, r->index), text, length + 1);
    record(r, r->index, NULL);
    return BRAKE_OK;
}

static enum brake_status take_count(struct reading *r, const char **text, double *count)
{
    enum brake_status status = take_number(r, text, count);
    if (status != BRAKE_OK)
        return status;
    *text = past_blanks(*text);
    if (**text != 'x' || *count < 1.0 || *count > 8.0 || *count != floor(*count))
        return REFUSE(r, BRAKE_E_SYNTAX, PISTON_FORM);
    (*text)++;
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
            return REFUSE(r, BRAKE_E_SIZE, "accepts up to %d groups of pistons", BRAKE_GROUPS);
        enum brake_status status = take_count(r, &text, &pistons.count[groups]);
        if (status == BRAKE_OK)
            status = take_amount(r, &text, &amount[groups]);
        if (status != BRAKE_OK)
            return status;
        pistons.diameter[groups] = amount[groups].value;
        groups++;
        text = past_blanks(text);
    } while (*text == '+' && *text++ != '\0');
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
    const struct brake_unit *unit;
    double number = BRAKE_NAN;
    struct amount amount;
    enum brake_status status = take_amount(r, text, &amount);
    if (status != BRAKE_OK)
        return status;
    *text = past_blanks(*text);
    if (**text != ',')
        return REFUSE(r, BRAKE_E_SYNTAX, "accepts pairs such as (20 bar, 18 bar)");
    (*text)++;
    status = take_number(r, text, &number);
    if (status == BRAKE_OK)
        status = take_unit(r, text, q->second, &unit);
    if (status != BRAKE_OK)
        return status;
    if (amount.tolerance >= 0.0 || take_plus_minus(text))
        return REFUSE(r, BRAKE_E_SYNTAX, "a pair takes no tolerance");
    point->x = amount.value;
    point->y = brake_unit_to_si(unit, number);
    status = check_range(r, point->y, brake_unit_of(q->second_unit, q->second), q->second_low,
                         q->second_high);
    if (status != BRAKE_OK)
        return status;
    *text = past_blanks(*text);
    if (**text != ')')
        return REFUSE(r, BRAKE_E_SYNTAX, "a pair is not closed by ')'");
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
            return REFUSE(r, BRAKE_E_CONFLICT, "got '%s', but the line above it says '%s'",
                          brake_from_word(r->from), brake_from_word(begun.from));
    }
    text = past_blanks(text);
    while (*text == '(') {
        if (points.count == BRAKE_POINTS)
            return REFUSE(r, BRAKE_E_SIZE, "accepts up to %d pairs", BRAKE_POINTS);
        text++;
        const enum brake_status status = take_pair(r, &text, &points.at[points.count]);
        if (status != BRAKE_OK)
            return status;
        points.count++;
        text = past_blanks(text);
    }
    if (*text != '\0' || points.count == 0)
        return REFUSE(r, BRAKE_E_SYNTAX,
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
    brake_text_format(r.path, sizeof r.path, "%s", name);
    enum brake_status status = take_number(&r, &text, number);
    if (status == BRAKE_OK)
        status = take_unit(&r, &text, dimension, unit);
    return status == BRAKE_OK ? at_end(&r, text) : status;
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
        return REFUSE(&r, BRAKE_E_SIZE, "has %zu bytes; accepts up to %d", strlen(text),
                      BRAKE_LINE_BYTES);
    brake_text_format(value, sizeof value, "%s", past_blanks(text));
    trim_end(value);
    if (value[0] == '\0')
        return REFUSE(&r, BRAKE_E_SYNTAX, "has no value");
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
