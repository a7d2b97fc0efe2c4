#include "words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "brake/file.h"
#include "vehicle/text.h"

/* ---- amounts -------------------------------------------------------------------------------- */

const struct brake_unit *brake_unit_beside(const struct brake_unit *unit)
{
    if (strcmp(unit->name, "m") == 0)
        return brake_unit_find("ft");
    if (unit->dimension == BRAKE_RATIO)
        return unit;
    return brake_unit_us(unit->dimension);
}

void brake_words_amount(const struct brake_unit *unit, double value, char *text, size_t size)
{
    const struct brake_unit *us = brake_unit_beside(unit);
    const int used = brake_text_format(text, size, "%.4g%s%s", brake_unit_from_si(unit, value),
                                       unit->name[0] ? " " : "", unit->name);
    if (us != unit && used > 0 && (size_t)used < size)
        brake_text_format(text + used, size - (size_t)used, " (%.4g %s)",
                          brake_unit_from_si(us, value), us->name);
}

const char *brake_words_name(const struct brake_sheet *sheet)
{
    const char *name = sheet->vehicle.general.name;
    return name[0] != '\0' ? name : "Vehicle without a name";
}

void brake_words_result(const struct brake_results *results, int index, char *text, size_t size)
{
    const struct brake_result *row = brake_result_at(index);
    const double value = brake_result_value(results, index);
    const struct brake_unit *unit = brake_unit_of(row->unit, row->dimension);
    if (isfinite(value))
        brake_words_amount(unit, value, text, size);
    else
        brake_text_format(text, size, "-");
}

/* ---- one criterion -------------------------------------------------------------------------- */

static const struct brake_unit *unit_of(const struct brake_criterion *c)
{
    const enum brake_dimension dimension = brake_measure_dimension(c->measure);
    const bool share = dimension == BRAKE_RATIO && c->measure != BRAKE_REAR_CURVE &&
                       c->measure != BRAKE_ADHESION_CURVE && c->measure != BRAKE_REAR_FIRST;
    return share ? brake_unit_find("%") : brake_unit_si(dimension);
}

void brake_words_state(const struct brake_judgement *j, char *text, size_t size)
{
    brake_text_format(text, size, "%s%s%s", brake_load_word(j->load),
                      j->failure == BRAKE_INTACT ? "" : ", ", brake_failure_words(j->failure));
}

void brake_words_value(const struct brake_assessment *a, int criterion, char *text, size_t size)
{
    const struct brake_criterion *c = brake_criterion_at(criterion);
    const double value = a->judgement[criterion].value;
    if (isfinite(value))
        brake_words_amount(unit_of(c), value, text, size);
    else
        brake_text_format(text, size, "%s",
                          brake_measure_dimension(c->measure) == BRAKE_LENGTH ? "never"
                                                                              : "without limit");
}

void brake_words_limit(const struct brake_assessment *a, int criterion, char *text, size_t size)
{
    const struct brake_criterion *c = brake_criterion_at(criterion);
    char limit[80];
    brake_words_amount(unit_of(c), a->judgement[criterion].limit, limit, sizeof limit);
    brake_text_format(text, size, "%s %s",
                      brake_measure_at_most(c->measure) ? "at most" : "at least", limit);
}

void brake_words_margin(const struct brake_assessment *a, int criterion, char *text, size_t size)
{
    const double margin = a->judgement[criterion].margin;
    if (isinf(margin))
        brake_text_format(text, size, "without limit");
    else
        brake_text_format(text, size, "%+.0f %%", 100.0 * margin);
}

void brake_words_range(const struct brake_assessment *a, int criterion, char *text, size_t size)
{
    const double margin = a->judgement[criterion].margin;
    const double half = BRAKE_P95 * a->sureness[criterion].sigma;
    if (isfinite(margin) && isfinite(half))
        brake_text_format(text, size, "%+.0f to %+.0f %%", 100.0 * (margin - half),
                          100.0 * (margin + half));
    else
        brake_text_format(text, size, "%s", "");
}

/* ---- sentences ------------------------------------------------------------------------------ */

void brake_words_verdict(const struct brake_assessment *a, char *text, size_t size)
{
    const int judged = a->meets + a->falls_short;
    if (a->falls_short > 0)
        brake_text_format(text, size, "FALLS SHORT of %d of %d requirements that could be judged",
                          a->falls_short, judged);
    else if (judged > 0)
        brake_text_format(text, size, "meets the %d requirements that could be judged", judged);
    else
        brake_text_format(text, size, "nothing could be judged");
    if (a->cannot_say > 0)
        brake_text_format(text + strlen(text), size - strlen(text),
                          "; of %d more it cannot say, an input is missing", a->cannot_say);
}

void brake_words_judged(const struct brake_assessment *a, int criterion, char *text, size_t size)
{
    char state[80];
    char value[80];
    char limit[100];
    char margin[40];
    char range[60];
    brake_words_state(&a->judgement[criterion], state, sizeof state);
    brake_words_value(a, criterion, value, sizeof value);
    brake_words_limit(a, criterion, limit, sizeof limit);
    brake_words_margin(a, criterion, margin, sizeof margin);
    brake_words_range(a, criterion, range, sizeof range);
    brake_text_format(text, size, "%s, %s: %s against %s; margin %s%s%s",
                      brake_criterion_at(criterion)->title, state, value, limit, margin,
                      range[0] ? ", 90 of 100 within " : "", range);
}

void brake_words_limiting(const struct brake_assessment *a, char *text, size_t size)
{
    text[0] = '\0';
    if (a->limiting < 0)
        return;
    const struct brake_criterion *c = brake_criterion_at(a->limiting);
    brake_words_judged(a, a->limiting, text, size);
    brake_text_format(text + strlen(text), size - strlen(text),
                      ". [%s, %s; check against the current text]", c->id, c->clause);
}

void brake_words_next(const struct brake_sheet *sheet, const struct brake_assessment *a, char *text,
                      size_t size)
{
    const int criterion = brake_assessment_doubted(a);
    const int index = criterion >= 0 ? a->sureness[criterion].leading : -1;
    char path[160];
    char value[2048];
    text[0] = '\0';
    if (index < 0)
        return;
    brake_catalogue_path(&sheet->vehicle, index, path, sizeof path);
    brake_value_write(&sheet->vehicle, index, value, sizeof value);
    brake_text_format(
        text, size, "%s (now %.60s, %s): it carries %.0f %% of the doubt in %s%s. How: %s", path,
        value, brake_from_word(sheet->record[index].from), 100.0 * a->sureness[criterion].share,
        criterion == a->limiting ? "that margin" : "the margin of ",
        criterion == a->limiting ? "" : brake_criterion_at(criterion)->id,
        brake_quantity_at(index)->measure);
}

/* ---- order ---------------------------------------------------------------------------------- */

/* Falls short before meets before cannot say; the smaller margin first; then in their order. */
static int before(const struct brake_assessment *a, int x, int y)
{
    static const int rank[] = {[BRAKE_FALLS_SHORT] = 0, [BRAKE_MEETS] = 1, [BRAKE_CANNOT_SAY] = 2};
    const struct brake_judgement *jx = &a->judgement[x];
    const struct brake_judgement *jy = &a->judgement[y];
    if (jx->verdict != jy->verdict)
        return rank[jx->verdict] < rank[jy->verdict];
    if (jx->margin < jy->margin || jx->margin > jy->margin)
        return jx->margin < jy->margin;
    return x < y;
}

int brake_words_order(const struct brake_assessment *a, int order[BRAKE_CRITERIA])
{
    int count = 0;
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (!brake_assessed(a, i) || !a->judgement[i].applies)
            continue;
        int at = count++;
        for (; at > 0 && before(a, i, order[at - 1]); at--)
            order[at] = order[at - 1];
        order[at] = i;
    }
    return count;
}
