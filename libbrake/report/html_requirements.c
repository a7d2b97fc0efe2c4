#include <math.h>
#include <stddef.h>

#include "html.h"
#include "page.h"
#include "words.h"

/* Title, state, clause. */
static void head_of_row(const struct brake_assessment *a, int criterion, FILE *stream)
{
    const struct brake_criterion *c = brake_criterion_at(criterion);
    char state[80] = "";
    if (a->judgement[criterion].reason == NULL)
        brake_words_state(&a->judgement[criterion], state, sizeof state);
    fputs("<tr>\n<th scope=\"row\">", stream);
    brake_page_words(stream, "%s%s%s", c->title, state[0] ? ", " : "", state);
    fputs("<br><small>", stream);
    brake_page_words(stream, "%s [%s]", c->clause, c->id);
    fputs("</small></th>\n", stream);
}

static void figures(const struct brake_assessment *a, int criterion, FILE *stream)
{
    static void (*const cells[])(const struct brake_assessment *, int, char *, size_t) = {
        brake_words_value, brake_words_limit, brake_words_margin, brake_words_range};
    for (size_t i = 0; i < sizeof cells / sizeof cells[0]; i++) {
        char text[100];
        cells[i](a, criterion, text, sizeof text);
        brake_page_element(stream, "td", text);
    }
}

static void row(const struct brake_assessment *a, int criterion, FILE *stream)
{
    const struct brake_judgement *j = &a->judgement[criterion];
    head_of_row(a, criterion, stream);
    brake_page_element(stream, j->verdict == BRAKE_FALLS_SHORT ? "td class=\"strong\"" : "td",
                       brake_verdict_words(j->verdict));
    if (j->reason != NULL)
        brake_page_element(stream, "td colspan=\"4\"", j->reason);
    else
        figures(a, criterion, stream);
    fputs("</tr>\n", stream);
}

static void warnings(const struct brake_assessment *a, FILE *stream)
{
    brake_page_section(stream, "warnings", "Warnings");
    fputs(a->warnings > 0 ? "<ul>\n" : "<p>None.</p>\n", stream);
    for (int i = 0; i < a->warnings; i++)
        brake_page_element(stream, "li", a->warning[i].text);
    fputs(a->warnings > 0 ? "</ul>\n" : "", stream);
    brake_page_section_end(stream);
}

void brake_html_requirements(const struct brake_paper *paper, FILE *stream)
{
    static const char *const heads[] = {
        "Requirement and clause", "Verdict", "Value", "Limit", "Margin", "90 of 100 within", NULL};
    int order[BRAKE_CRITERIA];
    const int count = brake_words_order(paper->assessment, order);
    brake_page_section(stream, "requirements", "Requirements");
    if (count == 0)
        fputs("<p>None of the chosen rules applies to this vehicle.</p>\n", stream);
    else
        brake_page_table(stream, "wide of6",
                         "Restated; check each against the current text of its clause.", heads);
    for (int i = 0; i < count; i++)
        row(paper->assessment, order[i], stream);
    if (count > 0)
        brake_page_table_end(stream);
    brake_page_section_end(stream);
    warnings(paper->assessment, stream);
}
