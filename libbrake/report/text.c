#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "brake/file.h"
#include "brake/report.h"
#include "brake/version.h"
#include "paragraph.h"
#include "text.h"
#include "words.h"
#include "vehicle/text.h"

struct page {
    const struct brake_sheet *sheet;
    const struct brake_assessment *a;
    FILE *stream;
};

static void heading(const struct page *p, const char *text)
{
    brake_text_print(p->stream, "\n%s\n", text);
}

/* ---- verdict -------------------------------------------------------------------------------- */

static void sentence(const struct page *p, const char *head, const char *text)
{
    if (text[0] != '\0')
        brake_paragraph(p->stream, head, text);
}

static void verdict(const struct page *p)
{
    char text[600];
    brake_words_verdict(p->a, text, sizeof text);
    sentence(p, "Verdict   ", text);
    brake_words_limiting(p->a, text, sizeof text);
    sentence(p, "Limiting  ", text);
    brake_words_next(p->sheet, p->a, text, sizeof text);
    sentence(p, "Measure   ", text);
    sentence(p, "Caution   ", BRAKE_CAUTION);
}

/* ---- requirements --------------------------------------------------------------------------- */

static void requirement(const struct page *p, int criterion)
{
    const struct brake_criterion *c = brake_criterion_at(criterion);
    const struct brake_judgement *j = &p->a->judgement[criterion];
    char head[40];
    char text[700];
    brake_text_format(head, sizeof head, "  %-11s  ", brake_verdict_words(j->verdict));
    if (j->reason != NULL) {
        brake_text_format(text, sizeof text, "%s: %s. [%s, %s]", c->title, j->reason, c->id,
                          c->clause);
    } else {
        brake_words_judged(p->a, criterion, text, sizeof text);
        brake_text_format(text + strlen(text), sizeof text - strlen(text), ". [%s, %s]", c->id,
                          c->clause);
    }
    brake_paragraph(p->stream, head, text);
}

static void requirements(const struct page *p)
{
    int order[BRAKE_CRITERIA];
    const int count = brake_words_order(p->a, order);
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
        brake_text_print(stream, " %9.4g", brake_unit_from_si(unit, value));
    else
        brake_text_print(stream, " %9s", "-");
}

static void result_line(const struct page *p, int empty, int full)
{
    const struct brake_result *row = brake_result_at(empty);
    const struct brake_unit *unit = brake_unit_of(row->unit, row->dimension);
    const double value[] = {brake_result_value(&p->a->results, empty),
                            full < 0 ? BRAKE_NAN : brake_result_value(&p->a->results, full)};
    if (!isfinite(value[0]) && !isfinite(value[1]))
        return;
    const struct brake_unit *both[] = {unit, brake_unit_beside(unit)};
    for (int u = 0; u < (both[1] != both[0] ? 2 : 1); u++) {
        brake_text_print(p->stream, "  %-40s", u == 0 ? row->name : "");
        number(p->stream, both[u], value[0]);
        if (full >= 0)
            number(p->stream, both[u], value[1]);
        else
            brake_text_print(p->stream, " %9s", "");
        brake_text_print(p->stream, "  %s\n", both[u]->name);
    }
}

static void numbers(const struct page *p)
{
    const int first = brake_result_find("empty.mass.total");
    const int per_case = (brake_result_count() - first) / 2;
    heading(p, "NUMBERS (meaning of each: stopmargin explain NAME)");
    brake_text_print(p->stream, "  %-40s %9s %9s\n", "", "empty", "full");
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

static void inputs(const struct page *p)
{
    char text[2400];
    heading(p, "INPUTS");
    brake_words_origins(p->sheet, text, sizeof text);
    brake_text_print(p->stream, "  %s:\n", text);
    for (int i = 0; i < brake_catalogue_count(); i++) {
        if (brake_words_default(p->sheet, i, text, sizeof text))
            brake_paragraph(p->stream, "  - ", text);
    }
}

static void for_inspector(const struct page *p)
{
    heading(p, "NOT JUDGED HERE, for the inspector");
    for (int i = 0; brake_inspector_item(i) != NULL; i++)
        brake_paragraph(p->stream, "  [ ] ", brake_inspector_item(i));
}

void brake_text_head(const struct brake_sheet *sheet, const struct brake_assessment *assessment,
                     FILE *stream)
{
    const struct page p = {sheet, assessment, stream};
    brake_text_print(stream, "%s\n", brake_words_name(sheet));
    verdict(&p);
}

void brake_text_body(const struct brake_sheet *sheet, const struct brake_assessment *assessment,
                     FILE *stream)
{
    const struct page p = {sheet, assessment, stream};
    requirements(&p);
    warnings(&p);
    numbers(&p);
    inputs(&p);
    for_inspector(&p);
}

void brake_text_end(FILE *stream)
{
    fputc('\n', stream);
    brake_paragraph(stream, "Caution   ", BRAKE_CAUTION);
    brake_text_print(stream, "libbrake %s\n", BRAKE_VERSION);
}

void brake_report_text(const struct brake_sheet *sheet, const struct brake_assessment *assessment,
                       FILE *stream)
{
    brake_text_head(sheet, assessment, stream);
    brake_text_body(sheet, assessment, stream);
    brake_text_end(stream);
}
