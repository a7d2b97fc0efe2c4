#include <math.h>
#include <stddef.h>

#include "html.h"
#include "page.h"
#include "words.h"

/* Result of no load case: full is -1. Results that are not known of this vehicle are left out. */
static void row(const struct brake_results *results, int empty, int full, FILE *stream)
{
    const struct brake_result *r = brake_result_at(empty);
    const bool known = isfinite(brake_result_value(results, empty)) ||
                       (full >= 0 && isfinite(brake_result_value(results, full)));
    char text[80];
    if (!known)
        return;
    fputs("<tr>\n<th scope=\"row\">", stream);
    brake_page_text(stream, r->name);
    fputs(" <small>", stream);
    brake_page_text(stream, r->meaning);
    fputs("</small></th>\n", stream);
    brake_words_result(results, empty, text, sizeof text);
    brake_page_element(stream, full < 0 ? "td colspan=\"2\"" : "td", text);
    if (full >= 0) {
        brake_words_result(results, full, text, sizeof text);
        brake_page_element(stream, "td", text);
    }
    fputs("</tr>\n", stream);
}

void brake_html_numbers(const struct brake_paper *paper, FILE *stream)
{
    static const char *const heads[] = {"Result", "Empty", "Full", NULL};
    const struct brake_results *results = &paper->assessment->results;
    const int first = brake_result_find("empty.mass.total");
    const int per_case = (brake_result_count() - first) / 2;
    brake_page_section(stream, "numbers", "Numbers");
    brake_page_table(stream, "wide of3", "Every result, empty and full.", heads);
    for (int i = 0; i < per_case; i++)
        row(results, first + i, first + per_case + i, stream);
    for (int i = 0; i < first; i++)
        row(results, i, -1, stream);
    brake_page_table_end(stream);
    brake_page_section_end(stream);
}
