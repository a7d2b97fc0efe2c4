/* SPDX-License-Identifier: MIT */
#include "amount.h"

#include <math.h>
#include <string.h>

#include "spelling.h"
#include "vehicle/letters.h"
#include "vehicle/limits.h"
#include "vehicle/sections.h"
#include "vehicle/text.h"

const char *reading_past_blanks(const char *text)
{
    return text + strspn(text, " \t");
}

static bool is_digit(char letter)
{
    return letter >= '0' && letter <= '9';
}

/* ---- refusals ------------------------------------------------------------------------------- */

static enum brake_status refuse_number(struct reading *r, const char *text)
{
    const struct brake_quantity *q = r->quantity;
    if (q->kind == BRAKE_PISTONS)
        return READING_REFUSE(r, BRAKE_E_SYNTAX, READING_PISTONS);
    if (q->kind != BRAKE_REAL)
        return READING_REFUSE(r, BRAKE_E_SYNTAX, "got '%.40s'; a number is wanted", text);
    return READING_REFUSE(
        r, BRAKE_E_SYNTAX, "got '%.40s'; a number is wanted, such as %.4g%s%s", text,
        brake_unit_from_si(brake_unit_of(q->unit, q->dimension), (q->low + q->high) / 2.0),
        q->unit[0] ? " " : "", q->unit);
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
    return READING_REFUSE(r, BRAKE_E_UNIT, "unknown unit '%s'; %s%s%s %s%s", name,
                          near != NULL ? "did you mean " : "", near != NULL ? near->name : "",
                          near != NULL ? "? It accepts" : "accepts",
                          dimension == BRAKE_RATIO ? "no unit or " : "", known);
}

/* A scale reads pounds or kilograms where a force is wanted. */
static const char *force_of(const struct brake_unit *unit, enum brake_dimension wanted)
{
    if (wanted != BRAKE_FORCE || unit->dimension != BRAKE_MASS)
        return "";
    return brake_unit_of_us_trade(unit) ? "; a scale that reads lb reads lbf"
                                        : "; a scale that reads kg reads kgf";
}

static enum brake_status refuse_unit(struct reading *r, const char *text,
                                     enum brake_dimension dimension)
{
    char name[24];
    char known[120];
    const size_t length = spelling_length(text);
    const struct spelling other = spelling_of_any(text);
    brake_text_format(name, sizeof name, "%.*s", (int)(length < 23 ? length : 23), text);
    brake_unit_names(dimension, known, sizeof known);
    if (name[0] == '\0')
        return READING_REFUSE(r, BRAKE_E_UNIT, "has no unit; accepts %s", known);
    if (other.unit == NULL)
        return refuse_unknown_unit(r, name, dimension, known);
    return READING_REFUSE(r, BRAKE_E_UNIT, "got %s in '%.*s'; %s is wanted; accepts %s%s%s",
                          dimension_words(other.unit->dimension),
                          (int)(other.length < 23 ? other.length : 23), text,
                          dimension_words(dimension), dimension == BRAKE_RATIO ? "no unit or " : "",
                          known, force_of(other.unit, dimension));
}

enum brake_status amount_in_range(struct reading *r, double value, const struct brake_unit *unit,
                                  double low, double high)
{
    const char *blank = unit->name[0] != '\0' ? " " : "";
    const double rounding = 1e-12 * fmax(fabs(low), fabs(high));
    if (value >= low - rounding && value <= high + rounding)
        return BRAKE_OK;
    return READING_REFUSE(r, BRAKE_E_RANGE, "got %.10g%s%s; accepts %s",
                          brake_unit_from_si(unit, value), blank, unit->name,
                          limits_words(unit, low, high).text);
}

/* ---- numbers -------------------------------------------------------------------------------- */

enum brake_status amount_number(struct reading *r, const char **text, double *number)
{
    const char *at = reading_past_blanks(*text);
    const size_t length = brake_text_number_length(at);
    const int shown = (int)(length < 40 ? length : 40);
    if (length == 0)
        return refuse_number(r, at);
    if (!brake_text_number(at, length, number))
        return READING_REFUSE(r, BRAKE_E_SYNTAX, "got '%.*s'; that is not a number", shown, at);
    if (!isfinite(*number))
        return READING_REFUSE(r, BRAKE_E_RANGE, "got '%.*s'; that is beyond any number", shown, at);
    if (at[length] == ',' && is_digit(at[length + 1]))
        return READING_REFUSE(r, BRAKE_E_SYNTAX, "got '%.40s'; decimals take a point, not a comma",
                              at);
    *text = at + length;
    return BRAKE_OK;
}

/* Bytes of digits / digits; 0: there is no such fraction. */
static size_t fraction_length(const char *text)
{
    const size_t above = strspn(text, "0123456789");
    const size_t below =
        above > 0 && text[above] == '/' ? strspn(text + above + 1, "0123456789") : 0;
    return below > 0 ? above + 1 + below : 0;
}

static bool halves(double number)
{
    int exponent;
    return number >= 2.0 && number <= 128.0 && frexp(number, &exponent) == 0.5;
}

static enum brake_status take_fraction(struct reading *r, const char **text, double *number)
{
    const size_t length = fraction_length(*text);
    const size_t above = strspn(*text, "0123456789");
    const int shown = (int)(length < 40 ? length : 40);
    double over = BRAKE_NAN;
    double under = BRAKE_NAN;
    (void)brake_text_number(*text, above, &over);
    (void)brake_text_number(*text + above + 1, length - above - 1, &under);
    if (!halves(under) || !(over > 0.0))
        return READING_REFUSE(r, BRAKE_E_SYNTAX,
                              "got '%.*s'; fractions are of an inch, in halves down to 128ths, "
                              "such as 15/16 in",
                              shown, *text);
    *number = over / under;
    *text += length;
    return BRAKE_OK;
}

/* Where the fraction of a mixed number begins, behind its whole part, a blank or a dash. */
static const char *mixed_part(const char *text)
{
    const size_t whole = strspn(text, "0123456789");
    const char *at = text + whole;
    at += *at == '-' ? 1 : strspn(at, " \t");
    return whole > 0 && at > text + whole && fraction_length(at) > 0 ? at : NULL;
}

/* 15/16, 1 3/8, 1-3/8, or a decimal number. */
static enum brake_status take_any_number(struct reading *r, const char **text, double *number,
                                         bool *fraction)
{
    const char *at = reading_past_blanks(*text);
    const double sign = *at == '-' ? -1.0 : 1.0;
    const char *figures = at + (*at == '-' || *at == '+');
    const char *part = mixed_part(figures);
    double whole = 0.0;
    *fraction = part != NULL || fraction_length(figures) > 0;
    if (!*fraction)
        return amount_number(r, text, number);
    if (part != NULL)
        (void)brake_text_number(figures, strspn(figures, "0123456789"), &whole);
    else
        part = figures;
    const enum brake_status status = take_fraction(r, &part, number);
    if (status != BRAKE_OK)
        return status;
    if (whole > 0.0 && *number >= 1.0)
        return READING_REFUSE(r, BRAKE_E_SYNTAX,
                              "got '%.*s'; the fraction behind a whole number is less than 1",
                              (int)(part - at < 40 ? part - at : 40), at);
    *number = sign * (whole + *number);
    *text = part;
    return BRAKE_OK;
}

/* ---- units ---------------------------------------------------------------------------------- */

static bool is_of_inches(const struct brake_unit *unit)
{
    return unit->dimension == BRAKE_LENGTH && brake_unit_of_us_trade(unit);
}

static void note_unit(struct reading *r, const struct brake_unit *unit)
{
    r->us = r->us || brake_unit_of_us_trade(unit);
}

/* 8 ft 9 in: the inches behind whole feet. What is no number of inches is left to others. */
static enum brake_status take_inches(struct reading *r, const char **text, struct written *written)
{
    const char *at = reading_past_blanks(*text);
    const struct brake_unit *inch = brake_unit_us(BRAKE_LENGTH);
    bool fraction;
    double inches = BRAKE_NAN;
    if (strcmp(written->unit->name, "ft") != 0 || !is_digit(*at))
        return BRAKE_OK;
    const enum brake_status status = take_any_number(r, &at, &inches, &fraction);
    if (status != BRAKE_OK)
        return status;
    at = reading_past_blanks(at);
    const struct spelling spelling = spelling_at(at, BRAKE_LENGTH);
    if (spelling.unit != inch || inches >= 12.0 || written->number != floor(written->number) ||
        written->number < 0.0)
        return READING_REFUSE(r, BRAKE_E_SYNTAX,
                              "does not understand '%.40s' behind the feet; accepts whole feet and "
                              "less than 12 inches, such as 8 ft 9 in",
                              reading_past_blanks(*text));
    *written = (struct written){12.0 * written->number + inches, inch, true};
    *text = at + spelling.length;
    return BRAKE_OK;
}

/* The unit behind a number; NULL where none stands. */
static enum brake_status take_unit(struct reading *r, const char **text, bool fraction,
                                   enum brake_dimension dimension, struct written *written)
{
    const char *at = reading_past_blanks(*text);
    const struct spelling spelling = spelling_at(at, dimension);
    written->unit = spelling.unit;
    written->composed = false;
    if (spelling.unit == NULL)
        return BRAKE_OK;
    if (fraction && !is_of_inches(spelling.unit))
        return READING_REFUSE(r, BRAKE_E_SYNTAX,
                              "got a fraction; only inches and feet have them: write decimals");
    note_unit(r, spelling.unit);
    *text = at + spelling.length;
    return take_inches(r, text, written);
}

static enum brake_status take_written(struct reading *r, const char **text,
                                      enum brake_dimension dimension, struct written *written)
{
    bool fraction;
    enum brake_status status = take_any_number(r, text, &written->number, &fraction);
    if (status == BRAKE_OK)
        status = take_unit(r, text, fraction, dimension, written);
    return status;
}

enum brake_status amount_written(struct reading *r, const char **text,
                                 enum brake_dimension dimension, struct written *written)
{
    const enum brake_status status = take_written(r, text, dimension, written);
    if (status == BRAKE_OK && written->unit == NULL)
        return refuse_unit(r, reading_past_blanks(*text), dimension);
    return status;
}

/* ---- tolerances and ranges ------------------------------------------------------------------ */

/* A tolerance without a unit is in that of the number. */
static enum brake_status take_tolerance(struct reading *r, const char **text,
                                        const struct written *of, struct amount *amount)
{
    struct written written = {BRAKE_NAN, NULL, false};
    const struct brake_quantity *q = r->quantity;
    bool fraction;
    enum brake_status status = take_any_number(r, text, &written.number, &fraction);
    if (status != BRAKE_OK)
        return status;
    const char *at = reading_past_blanks(*text);
    if (*at == '%' && of->unit->name[0] != '%') {
        *text = at + 1;
        written.unit = of->unit;
        amount->tolerance = fabs(amount->value) * written.number / 100.0;
    } else {
        const bool bare = spelling_length(at) == 0;
        status = take_unit(r, text, fraction, of->unit->dimension, &written);
        if (status != BRAKE_OK)
            return status;
        if (bare && of->composed)
            return READING_REFUSE(r, BRAKE_E_UNIT,
                                  "has no unit behind +-; feet or inches? Accepts +- 1 in");
        if (written.unit == NULL && !bare)
            return refuse_unit(r, at, of->unit->dimension);
        written.unit = bare ? of->unit : written.unit;
        amount->tolerance = written.number * written.unit->factor;
    }
    const double one = written.unit->factor;
    const char *blank = written.unit->name[0] ? " " : "";
    if (!(written.number >= 0.0) || amount->tolerance > q->high - q->low)
        return READING_REFUSE(r, BRAKE_E_RANGE,
                              "got a tolerance of %.6g%s%s; accepts 0 to %.6g%s%s",
                              amount->tolerance / one, blank, written.unit->name,
                              (q->high - q->low) / one, blank, written.unit->name);
    return BRAKE_OK;
}

/* The unit of a piston that has none: millimetres and inches have no diameter in common. */
static const struct brake_unit *unit_of_piston(const struct brake_quantity *q, double number)
{
    const struct brake_unit *const units[] = {brake_unit_of("mm", BRAKE_LENGTH),
                                              brake_unit_us(BRAKE_LENGTH)};
    for (int i = 0; i < 2 && q->kind == BRAKE_PISTONS; i++) {
        const double value = brake_unit_to_si(units[i], number);
        if (value >= q->low && value <= q->high)
            return units[i];
    }
    return NULL;
}

/* What stands behind the sign of a range: its upper end, and the unit of both where the lower end
 * has none. */
static enum brake_status take_upper(struct reading *r, const char **text, struct written *lower,
                                    struct amount *amount)
{
    struct written upper = {BRAKE_NAN, NULL, false};
    const enum brake_status status = amount_written(r, text, r->quantity->dimension, &upper);
    if (status != BRAKE_OK)
        return status;
    if (lower->unit == NULL || (lower->unit->name[0] == '\0' && lower->unit != upper.unit))
        lower->unit = upper.unit;
    const double low = brake_unit_to_si(lower->unit, lower->number);
    const double high = brake_unit_to_si(upper.unit, upper.number);
    if (!(low < high))
        return READING_REFUSE(
            r, BRAKE_E_SYNTAX, "got a range from %.6g to %.6g; the smaller number comes first%s",
            lower->number, upper.number,
            r->quantity->dimension == BRAKE_RATIO ? " (a ratio of 4 to 1 is written 4)" : "");
    if (spelling_plus_minus(*text) > 0)
        return READING_REFUSE(r, BRAKE_E_SYNTAX, "a range holds its tolerance: leave +- out");
    amount->value = 0.5 * (low + high);
    amount->tolerance = 0.5 * (high - low);
    return BRAKE_OK;
}

/* ---- edge codes ----------------------------------------------------------------------------- */

/* Friction by the first letter of the edge code of a lining: SAE J866 (2019), table 1, read in a
 * restatement (tnlab.org). The second letter is for hot friction and is not used. */
static const struct {
    char letter;
    double low, high;
} edge_codes[] = {{'D', 0.15, 0.25}, {'E', 0.25, 0.35}, {'F', 0.35, 0.45}, {'G', 0.45, 0.55}};

enum { EDGE_CODES = sizeof edge_codes / sizeof edge_codes[0] };

static bool is_edge_code(const struct reading *r, const char *text)
{
    static const char letters[] = "cdefghzCDEFGHZ";
    return r->quantity->edge_coded && strspn(text, letters) == 2 && spelling_length(text) == 2;
}

static enum brake_status take_edge_code(struct reading *r, const char **text, struct amount *amount)
{
    const int letter = brake_letter_small(**text);
    for (int i = 0; i < EDGE_CODES; i++) {
        if (brake_letter_small(edge_codes[i].letter) == letter) {
            amount->value = 0.5 * (edge_codes[i].low + edge_codes[i].high);
            amount->tolerance = 0.5 * (edge_codes[i].high - edge_codes[i].low);
            *text += 2;
            return BRAKE_OK;
        }
    }
    return READING_REFUSE(
        r, BRAKE_E_RANGE,
        "got '%.2s'; as an edge code (SAE J866) that is %s, which is no band: write what is known, "
        "such as %s",
        *text,
        letter == 'c'   ? "friction of 0.15 or less"
        : letter == 'h' ? "friction above 0.55"
                        : "no class of friction",
        letter == 'c'   ? "0.10-0.15"
        : letter == 'h' ? "0.55-0.60"
                        : "0.35-0.45");
}

/* ---- the whole ------------------------------------------------------------------------------ */

enum brake_status amount_take(struct reading *r, const char **text, struct amount *amount)
{
    const struct brake_quantity *q = r->quantity;
    struct written written = {BRAKE_NAN, NULL, false};
    *text = reading_past_blanks(*text);
    amount->tolerance = -1.0;
    if (is_edge_code(r, *text))
        return take_edge_code(r, text, amount);
    enum brake_status status = take_written(r, text, q->dimension, &written);
    if (status != BRAKE_OK)
        return status;
    const size_t to = spelling_to(*text);
    if (to > 0) {
        *text += to;
        status = take_upper(r, text, &written, amount);
    } else {
        if (written.unit == NULL && spelling_length(reading_past_blanks(*text)) == 0)
            written.unit = unit_of_piston(q, written.number);
        if (written.unit == NULL)
            return refuse_unit(r, reading_past_blanks(*text), q->dimension);
        amount->value = brake_unit_to_si(written.unit, written.number);
    }
    if (status == BRAKE_OK)
        status = amount_in_range(r, amount->value, written.unit, q->low, q->high);
    const size_t sign = spelling_plus_minus(*text);
    if (status != BRAKE_OK || sign == 0)
        return status;
    *text += sign;
    return take_tolerance(r, text, &written, amount);
}
