#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "brake/file.h"
#include "brake/report.h"
#include "brake/version.h"
#include "paragraph.h"

struct page {
    const struct brake_sheet *sheet;
    const struct brake_assessment *a;
    FILE *stream;
};

static void heading(const struct page *p, const char *text)
{
    fprintf(p->stream, "\n%s\n", text);
}

/* ---- verdict -------------------------------------------------------------------------------- */

static void verdict(const struct page *p)
{
    const struct brake_assessment *a = p->a;
    char text[240];
    const int judged = a->meets + a->falls_short;
    if (a->falls_short > 0)
        snprintf(text, sizeof text, "FALLS SHORT of %d of %d requirements that could be judged",
                 a->falls_short, judged);
    else if (judged > 0)
        snprintf(text, sizeof text, "meets the %d requirements that could be judged", judged);
    else
        snprintf(text, sizeof text, "nothing could be judged");
    if (a->cannot_say > 0)
        snprintf(text + strlen(text), sizeof text - strlen(text),
                 "; of %d more it cannot say, an input is missing", a->cannot_say);
    brake_paragraph(p->stream, "Verdict   ", text);
}

/* The US unit that goes with a trade unit. */
static const struct brake_unit *us_unit(const struct brake_unit *unit)
{
    if (strcmp(unit->name, "m") == 0)
        return brake_unit_find("ft");
    if (unit->dimension == BRAKE_RATIO)
        return unit;
    return brake_unit_us(unit->dimension);
}

static void both_units(char *text, size_t size, const struct brake_unit *unit, double value)
{
    const struct brake_unit *us = us_unit(unit);
    const int used = snprintf(text, size, "%.4g%s%s", brake_unit_from_si(unit, value),
                              unit->name[0] ? " " : "", unit->name);
    if (us != unit && used > 0 && (size_t)used < size)
        snprintf(text + used, size - (size_t)used, " (%.4g %s)", brake_unit_from_si(us, value),
                 us->name);
}

static const struct brake_unit *unit_of(const struct brake_criterion *c)
{
    const enum brake_dimension dimension = brake_measure_dimension(c->measure);
    const bool share = dimension == BRAKE_RATIO && c->measure != BRAKE_REAR_CURVE &&
                       c->measure != BRAKE_ADHESION_CURVE && c->measure != BRAKE_REAR_FIRST;
    return share ? brake_unit_find("%") : brake_unit_si(dimension);
}

static void value_and_limit(const struct page *p, int criterion, char *text, size_t size)
{
    const struct brake_criterion *c = brake_criterion_at(criterion);
    const struct brake_judgement *j = &p->a->judgement[criterion];
    char value[80];
    char limit[80];
    both_units(value, sizeof value, unit_of(c), j->value);
    both_units(limit, sizeof limit, unit_of(c), j->limit);
    snprintf(text, size, "%s, %s%s%s: %s against %s %s", c->title, brake_load_word(j->load),
             j->failure == BRAKE_INTACT ? "" : ", ", brake_failure_words(j->failure),
             isfinite(j->value)                  ? value
             : c->measure == BRAKE_STOP_DISTANCE ? "never"
                                                 : "without limit",
             brake_measure_at_most(c->measure) ? "at most" : "at least", limit);
}

static void margin_words(const struct page *p, int criterion, char *text, size_t size)
{
    const double margin = p->a->judgement[criterion].margin;
    const double half = BRAKE_P95 * p->a->sureness[criterion].sigma;
    if (isinf(margin))
        snprintf(text, size, "margin without limit");
    else if (isinf(half))
        snprintf(text, size, "margin %+.0f %%", 100.0 * margin);
    else
        snprintf(text, size, "margin %+.0f %%, 90 of 100 within %+.0f to %+.0f %%", 100.0 * margin,
                 100.0 * (margin - half), 100.0 * (margin + half));
}

static void limiting(const struct page *p)
{
    const int criterion = p->a->limiting;
    char text[600];
    char margin[100];
    if (criterion < 0)
        return;
    const struct brake_criterion *c = brake_criterion_at(criterion);
    value_and_limit(p, criterion, text, sizeof text);
    margin_words(p, criterion, margin, sizeof margin);
    snprintf(text + strlen(text), sizeof text - strlen(text), "; %s. [%s, %s; check against the "
             "current text]", margin, c->id, c->clause);
    brake_paragraph(p->stream, "Limiting  ", text);
}

static void next_measurement(const struct page *p)
{
    const int criterion = p->a->limiting;
    const int index = criterion >= 0 ? p->a->sureness[criterion].leading : -1;
    char path[160];
    char value[2048];
    char text[600];
    if (index < 0)
        return;
    const struct brake_quantity *q = brake_quantity_at(index);
    brake_catalogue_path(&p->sheet->vehicle, index, path, sizeof path);
    brake_value_write(&p->sheet->vehicle, index, value, sizeof value);
    snprintf(text, sizeof text,
             "%s (now %.60s, %s): it carries %.0f %% of the doubt in that margin. How: %s", path,
             value, brake_from_word(p->sheet->record[index].from),
             100.0 * p->a->sureness[criterion].share, q->measure);
    brake_paragraph(p->stream, "Measure   ", text);
}

/* ---- requirements --------------------------------------------------------------------------- */

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

static int sorted(const struct brake_assessment *a, int order[BRAKE_CRITERIA])
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

static void requirement(const struct page *p, int criterion)
{
    const struct brake_criterion *c = brake_criterion_at(criterion);
    const struct brake_judgement *j = &p->a->judgement[criterion];
    char head[40];
    char text[700];
    char margin[100] = "";
    snprintf(head, sizeof head, "  %-11s  ", brake_verdict_words(j->verdict));
    if (j->reason != NULL) {
        snprintf(text, sizeof text, "%s: %s", c->title, j->reason);
    } else {
        value_and_limit(p, criterion, text, sizeof text);
        margin_words(p, criterion, margin, sizeof margin);
    }
    snprintf(text + strlen(text), sizeof text - strlen(text), "%s%s. [%s, %s]",
             margin[0] ? "; " : "", margin, c->id, c->clause);
    brake_paragraph(p->stream, head, text);
}

static void requirements(const struct page *p)
{
    int order[BRAKE_CRITERIA];
    const int count = sorted(p->a, order);
    heading(p, "REQUIREMENTS (restated; check each against the current text of its clause)");
    for (int i = 0; i < count; i++)
        requirement(p, order[i]);
    if (count == 0)
        fputs("  None of the chosen rules applies to this vehicle.\n", p->stream);
}

/* ---- numbers -------------------------------------------------------------------------------- */

static void number(FILE *stream, const struct brake_unit *unit, double value)
{
    if (isfinite(value))
        fprintf(stream, " %9.4g", brake_unit_from_si(unit, value));
    else
        fprintf(stream, " %9s", "-");
}

static void result_line(const struct page *p, int empty, int full)
{
    const struct brake_result *row = brake_result_at(empty);
    const struct brake_unit *unit = brake_unit_find(row->unit);
    const double value[] = {brake_result_value(&p->a->results, empty),
                            full < 0 ? BRAKE_NAN : brake_result_value(&p->a->results, full)};
    if (!isfinite(value[0]) && !isfinite(value[1]))
        return;
    const struct brake_unit *si =
        row->dimension == BRAKE_RISE ? brake_unit_si(BRAKE_RISE) : unit;
    const struct brake_unit *both[] = {si, us_unit(si)};
    for (int u = 0; u < (both[1] != both[0] ? 2 : 1); u++) {
        fprintf(p->stream, "  %-40s", u == 0 ? row->name : "");
        number(p->stream, both[u], value[0]);
        if (full >= 0)
            number(p->stream, both[u], value[1]);
        else
            fprintf(p->stream, " %9s", "");
        fprintf(p->stream, "  %s\n", both[u]->name);
    }
}

static void numbers(const struct page *p)
{
    const int first = brake_result_find("empty.mass.total");
    const int per_case = (brake_result_count() - first) / 2;
    heading(p, "NUMBERS (meaning of each: stopmargin explain NAME)");
    fprintf(p->stream, "  %-40s %9s %9s\n", "", "empty", "full");
    for (int i = 0; i < per_case; i++)
        result_line(p, first + i, first + per_case + i);
    for (int i = 0; i < first; i++)
        result_line(p, i, -1);
}

/* ---- the rest ------------------------------------------------------------------------------- */

static void warnings(const struct page *p)
{
    heading(p, "WARNINGS");
    for (int i = 0; i < p->a->warnings; i++)
        brake_paragraph(p->stream, "  ! ", p->a->warning[i].text);
    if (p->a->warnings == 0)
        fputs("  None.\n", p->stream);
}

/* Whether a line is there only because its section, left out, repeats another. */
static bool repeats(const struct page *p, int index)
{
    return brake_quantity_section(index)->same_as != NULL &&
           p->sheet->record[index].from == BRAKE_DEFAULT;
}

static void default_line(const struct page *p, int index)
{
    const char *why = brake_quantity_at(index)->why;
    char text[2400];
    char path[160];
    char value[2048];
    brake_catalogue_path(&p->sheet->vehicle, index, path, sizeof path);
    brake_value_write(&p->sheet->vehicle, index, value, sizeof value);
    snprintf(text, sizeof text, "%s = %s%s%s%s", path, value, why != NULL ? " (" : "",
             why != NULL ? why : "", why != NULL ? ")" : "");
    brake_paragraph(p->stream, "  - ", text);
}

static void inputs(const struct page *p)
{
    const int quantities = brake_catalogue_count();
    int count[BRAKE_MEASURED + 1] = {0};
    const struct brake_section *repeated = NULL;
    for (int i = 0; i < quantities; i++)
        count[p->sheet->record[i].from] += !repeats(p, i);
    heading(p, "INPUTS");
    fprintf(p->stream, "  %d measured, %d from catalogues, %d estimated, %d left at default:\n",
            count[BRAKE_MEASURED], count[BRAKE_CATALOGUE], count[BRAKE_ESTIMATED],
            count[BRAKE_DEFAULT]);
    for (int i = 0; i < quantities; i++) {
        const struct brake_section *section = brake_quantity_section(i);
        if (repeats(p, i) && section != repeated) {
            repeated = section;
            fprintf(p->stream, "  - [%s] as [%s]\n", section->path, section->same_as);
        } else if (p->sheet->record[i].from == BRAKE_DEFAULT && !repeats(p, i)) {
            default_line(p, i);
        }
    }
}

static void for_inspector(const struct page *p)
{
    heading(p, "NOT JUDGED HERE, for the inspector");
    for (int i = 0; brake_inspector_item(i) != NULL; i++)
        brake_paragraph(p->stream, "  [ ] ", brake_inspector_item(i));
}

void brake_report_text(const struct brake_sheet *sheet, const struct brake_assessment *assessment,
                       FILE *stream)
{
    const struct page p = {sheet, assessment, stream};
    const char *name = sheet->vehicle.general.name;
    fprintf(stream, "%s\n", name[0] != '\0' ? name : "Vehicle without a name");
    verdict(&p);
    limiting(&p);
    next_measurement(&p);
    brake_paragraph(stream, "Caution   ", BRAKE_CAUTION);
    requirements(&p);
    warnings(&p);
    numbers(&p);
    inputs(&p);
    for_inspector(&p);
    fputc('\n', stream);
    brake_paragraph(stream, "Caution   ", BRAKE_CAUTION);
    fprintf(stream, "libbrake %s\n", BRAKE_VERSION);
}
