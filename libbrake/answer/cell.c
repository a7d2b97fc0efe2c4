/* SPDX-License-Identifier: MIT */
#include "cell.h"

#include <math.h>
#include <string.h>

#include "brake/constants.h"
#include "vehicle/text.h"

/* ---- making --------------------------------------------------------------------------------- */

struct brake_cell brake_cell_nothing(void)
{
    return (struct brake_cell){.kind = BRAKE_CELL_NOTHING};
}

struct brake_cell brake_cell_blank(void)
{
    return (struct brake_cell){.kind = BRAKE_CELL_BLANK};
}

struct brake_cell brake_cell_number(double value, const struct brake_unit *unit)
{
    return (struct brake_cell){.kind = BRAKE_CELL_NUMBER,
                               .number = value,
                               .low = BRAKE_NAN,
                               .high = BRAKE_NAN,
                               .unit = unit};
}

struct brake_cell brake_cell_between(double value, double low, double high,
                                     const struct brake_unit *unit)
{
    struct brake_cell cell = brake_cell_number(value, unit);
    cell.ranged = true;
    cell.low = low;
    cell.high = high;
    return cell;
}

struct brake_cell brake_cell_within(double value, double half, const struct brake_unit *unit)
{
    return brake_cell_between(value, value - half, value + half, unit);
}

struct brake_cell brake_cell_form(double value, const struct brake_unit *unit, enum brake_form form)
{
    struct brake_cell cell = brake_cell_number(value, unit);
    cell.form = form;
    return cell;
}

struct brake_cell brake_cell_difference(double value, const struct brake_unit *unit)
{
    struct brake_cell cell = brake_cell_form(value, unit, BRAKE_SIGNED);
    cell.difference = true;
    return cell;
}

struct brake_cell brake_cell_count(long long count)
{
    return brake_cell_form((double)count, NULL, BRAKE_WHOLE);
}

struct brake_cell brake_cell_text(const char *text)
{
    return (struct brake_cell){.kind = text != NULL ? BRAKE_CELL_TEXT : BRAKE_CELL_NOTHING,
                               .text = text};
}

struct brake_cell brake_cell_ids(const char *ids)
{
    return (struct brake_cell){.kind = BRAKE_CELL_IDS, .text = ids};
}

struct brake_cell brake_cell_truth(bool truth)
{
    return (struct brake_cell){.kind = BRAKE_CELL_TRUTH, .truth = truth};
}

struct brake_cell brake_cell_list(const double *list, int count, const struct brake_unit *unit)
{
    return (struct brake_cell){.kind = BRAKE_CELL_LIST, .list = list, .count = count, .unit = unit};
}

/* ---- units ---------------------------------------------------------------------------------- */

int brake_cell_units(const struct brake_cell *cell, enum brake_systems systems,
                     const struct brake_unit *units[2])
{
    const struct brake_unit *si = cell->unit != NULL ? cell->unit : brake_unit_si(BRAKE_RATIO);
    const struct brake_unit *us = brake_unit_beside(si);
    const bool us_leads = systems == BRAKE_US_FIRST || systems == BRAKE_US_ONLY;
    units[0] = us_leads ? us : si;
    units[1] = us_leads ? si : us;
    return us != si && (systems == BRAKE_SI_FIRST || systems == BRAKE_US_FIRST) ? 2 : 1;
}

const char *brake_unit_words(const struct brake_unit *unit)
{
    return strcmp(unit->name, "g0") == 0 ? "g" : unit->name;
}

/* ---- words ---------------------------------------------------------------------------------- */

/* The form of a number in one of its units: an inch is too long to be told in whole ones what is
 * told in whole millimetres. */
static enum brake_form form_in(const struct brake_cell *cell, const struct brake_unit *unit)
{
    const bool longer = cell->unit != NULL && unit->factor > 10.0 * cell->unit->factor;
    return cell->form == BRAKE_WHOLE && longer ? BRAKE_ONE_DECIMAL : cell->form;
}

double brake_cell_value(const struct brake_cell *cell, const struct brake_unit *unit, double value)
{
    return cell->difference ? value / unit->factor : brake_unit_from_si(unit, value);
}

/* The nearest number of four digits that is not below, or not above. */
static double rounded(double number, bool up)
{
    if (number == 0.0)
        return 0.0;
    const double step = pow(10.0, floor(log10(fabs(number))) - 3.0);
    const double steps = number / step;
    return step * (up ? ceil(steps - 1e-9) : floor(steps + 1e-9));
}

static void write_number(double number, enum brake_form form, char *text, size_t size)
{
    /* from `large` on an exponent, hard to read, would stand: all digits before the point do
     * instead */
    static const struct {
        const char *format;
        const char *whole;
        double large;
    } forms[] = {[BRAKE_TWO_DIGITS] = {"%.2g", "%.0f", 99.5},
                 [BRAKE_FOUR_DIGITS] = {"%.4g", "%.0f", 9999.5},
                 [BRAKE_THREE_DIGITS] = {"%.3g", "%.0f", 999.5},
                 [BRAKE_SIGNED] = {"%+.3g", "%+.0f", 999.5},
                 [BRAKE_WHOLE] = {"%.0f", "%.0f", 9999.5},
                 [BRAKE_SIGNED_WHOLE] = {"%+.0f", "%+.0f", 9999.5},
                 [BRAKE_ONE_DECIMAL] = {"%.1f", "%.0f", 9999.5},
                 [BRAKE_TWO_DECIMALS] = {"%.2f", "%.0f", 9999.5},
                 [BRAKE_UPWARDS] = {"%.4g", "%.0f", 9999.5},
                 [BRAKE_DOWNWARDS] = {"%.4g", "%.0f", 9999.5}};
    if (form == BRAKE_UPWARDS || form == BRAKE_DOWNWARDS)
        number = rounded(number, form == BRAKE_UPWARDS);
    const bool large = fabs(number) >= forms[form].large && fabs(number) < 1e12;
    brake_text_format(text, size, large ? forms[form].whole : forms[form].format, number);
    if (strspn(text, "-0.") == strlen(text) && text[0] == '-')
        memmove(text, text + 1, strlen(text));
}

static void add_range(const struct brake_cell *cell, const struct brake_unit *unit, char *text,
                      size_t size)
{
    const double half = (cell->high - cell->low) / 2.0;
    const double middle = (cell->high + cell->low) / 2.0;
    const enum brake_form form = form_in(cell, unit);
    char low[40];
    char high[40];
    const size_t used = strlen(text);
    if (!isfinite(half))
        return;
    if (fabs(cell->number - middle) <= 0.02 * half) {
        write_number(half / unit->factor, form == BRAKE_FOUR_DIGITS ? BRAKE_TWO_DIGITS : form, low,
                     sizeof low);
        brake_text_format(text + used, size - used, " +-%s", low);
        return;
    }
    write_number(brake_cell_value(cell, unit, cell->low), form, low, sizeof low);
    write_number(brake_cell_value(cell, unit, cell->high), form, high, sizeof high);
    brake_text_format(text + used, size - used, ", %s to %s", low, high);
}

static void write_list(const struct brake_cell *cell, const struct brake_unit *unit, char *text,
                       size_t size)
{
    text[0] = '\0';
    for (int i = 0; i < cell->count; i++) {
        const size_t used = strlen(text);
        char number[40];
        write_number(brake_unit_from_si(unit, cell->list[i]), form_in(cell, unit), number,
                     sizeof number);
        brake_text_format(text + used, size - used, "%s%s", i > 0 ? ", " : "", number);
    }
}

static void write_value(const struct brake_cell *cell, const struct brake_unit *unit, bool bare,
                        char *text, size_t size)
{
    if (cell->kind == BRAKE_CELL_LIST)
        write_list(cell, unit, text, size);
    else
        write_number(brake_cell_value(cell, unit, cell->number), form_in(cell, unit), text, size);
    if (cell->kind == BRAKE_CELL_NUMBER)
        add_range(cell, unit, text, size);
    const size_t used = strlen(text);
    if (!bare && unit->name[0] != '\0')
        brake_text_format(text + used, size - used, " %s", brake_unit_words(unit));
}

static bool is_value(const struct brake_cell *cell)
{
    return (cell->kind == BRAKE_CELL_NUMBER && isfinite(cell->number)) ||
           (cell->kind == BRAKE_CELL_LIST && cell->count > 0 && cell->text == NULL);
}

void brake_cell_in(const struct brake_cell *cell, const struct brake_unit *unit, bool bare,
                   char *text, size_t size)
{
    if (is_value(cell))
        write_value(cell, unit, bare, text, size);
    else if (cell->kind == BRAKE_CELL_TRUTH)
        brake_text_format(text, size, "%s", cell->truth ? "yes" : "no");
    else if (cell->kind == BRAKE_CELL_BLANK)
        brake_text_format(text, size, "________");
    else
        brake_text_format(text, size, "%s", cell->text != NULL ? cell->text : "-");
}

void brake_cell_words(const struct brake_cell *cell, enum brake_systems systems, char *text,
                      size_t size)
{
    const struct brake_unit *unit[2];
    const int units = brake_cell_units(cell, systems, unit);
    const bool value = is_value(cell);
    const size_t ahead = value && cell->before != NULL
                             ? (size_t)brake_text_format(text, size, "%s ", cell->before)
                             : 0;
    brake_cell_in(cell, unit[0], false, text + ahead, size - ahead);
    if (!value)
        return;
    char other[BRAKE_CELL_WORDS] = "";
    char in_g[40] = "";
    if (units == 2)
        brake_cell_in(cell, unit[1], false, other, sizeof other);
    if (unit[0]->dimension == BRAKE_ACCELERATION && cell->kind == BRAKE_CELL_NUMBER)
        brake_text_format(in_g, sizeof in_g, cell->form == BRAKE_SIGNED ? "%+.3g g" : "%.3g g",
                          cell->number / BRAKE_GRAVITY);
    const size_t used = strlen(text);
    if (other[0] != '\0' || in_g[0] != '\0')
        brake_text_format(text + used, size - used, " (%s%s%s)", other,
                          other[0] != '\0' && in_g[0] != '\0' ? ", " : "", in_g);
}

const char *brake_cell_told(const struct brake_cell *cell, enum brake_systems systems,
                            char room[BRAKE_CELL_WORDS])
{
    if (cell->text != NULL && !is_value(cell))
        return cell->text;
    brake_cell_words(cell, systems, room, BRAKE_CELL_WORDS);
    return room;
}

void brake_amount_words(double value, const struct brake_unit *unit, enum brake_systems systems,
                        char *text, size_t size)
{
    const struct brake_cell cell = brake_cell_number(value, unit);
    brake_cell_words(&cell, systems, text, size);
}

/* ---- amounts in a text ---------------------------------------------------------------------- */

static bool ends_here(char letter)
{
    return letter == '\0' || strchr(" ,;:.)", letter) != NULL;
}

/* The unit that a text begins with, whose trade has another beside it; NULL: none does. A
 * difference of temperatures is in kelvin, a temperature in degrees. */
static const struct brake_unit *unit_at(const char *text)
{
    const struct brake_unit *unit;
    for (int i = 0; (unit = brake_unit_at(i)) != NULL; i++) {
        const size_t length = strlen(unit->name);
        if (length > 0 && strncmp(text, unit->name, length) == 0 && ends_here(text[length]) &&
            strcmp(unit->name, "g") != 0)
            return strcmp(unit->name, "K") == 0 ? brake_unit_si(BRAKE_RISE) : unit;
    }
    return NULL;
}

/* The unit of the number before a text, " bar"; of a range, " to 81 bar", it is its last one's. */
static const struct brake_unit *unit_behind(const char *text)
{
    const size_t to = strncmp(text, " to ", 4) == 0 ? 4 + brake_text_number_length(text + 4) : 0;
    return (to == 0 || to > 4) && text[to] == ' ' ? unit_at(text + to + 1) : NULL;
}

/* Bytes of the amount that a text begins with, "81 bar", or "40" of "40 to 81 bar"; 0: it begins
 * with none. */
static size_t amount_at(const char *text, struct brake_cell *cell)
{
    double number;
    const size_t length = brake_text_number_length(text);
    const struct brake_unit *unit = length > 0 ? unit_behind(text + length) : NULL;
    if (unit == NULL || brake_unit_beside(unit) == unit ||
        !brake_text_number(text, length, &number))
        return 0;
    *cell = brake_cell_number(brake_unit_to_si(unit, number), unit);
    return strncmp(text + length, " to ", 4) == 0 ? length : length + 1 + strlen(unit->name);
}

void brake_amounts_told(const char *text, enum brake_systems systems, char *told, size_t size)
{
    size_t used = 0;
    bool word_begins = true;
    while (*text != '\0' && used + 1 < size) {
        struct brake_cell cell;
        const size_t length = word_begins ? amount_at(text, &cell) : 0;
        word_begins = *text == ' ' || *text == '(';
        if (length > 0)
            brake_cell_words(&cell, systems, told + used, size - used);
        else
            brake_text_format(told + used, size - used, "%c", *text);
        used += strlen(told + used);
        text += length > 0 ? length : 1;
    }
    told[used] = '\0';
}
