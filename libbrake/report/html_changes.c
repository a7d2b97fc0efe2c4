#include <stddef.h>

#include "differences.h"
#include "html.h"
#include "page.h"

static void row(const struct brake_difference *change, FILE *stream)
{
    fputs("<tr>\n<th scope=\"row\"><bdi>", stream);
    brake_page_text(stream, change->what);
    fputs("</bdi>", stream);
    if (change->shares[0] != '\0') {
        fputs("<br><small>", stream);
        brake_page_text(stream, change->shares);
        fputs("</small>", stream);
    }
    fputs("</th>\n<td><bdi>", stream);
    brake_page_text(stream, change->before);
    fputs("</bdi></td>\n<td><bdi>", stream);
    brake_page_text(stream, change->after);
    fputs("</bdi></td>\n", stream);
    if (change->given[0] != '\0')
        brake_page_element(stream, "td", change->given);
    fputs("</tr>\n", stream);
}

void brake_html_changes(const struct brake_paper *paper, FILE *stream)
{
    static const char *const margins[] = {"Margin of", "Before", "Now", "Given or taken", NULL};
    static const char *const lines[] = {"Line", "Before", "Now", NULL};
    struct brake_difference change;
    int at = 0;
    if (paper->before == NULL)
        return;
    brake_page_section(stream, "changes", "What the changes gave or took");
    brake_page_table(
        stream, "wide of4",
        "Margins of the requirements, before and now; below each what every group of changes "
        "gave or took, its Shapley share: they add up. Not of hot performance.",
        margins);
    while (brake_differing_margin(paper, &at, &change))
        row(&change, stream);
    brake_page_table_end(stream);
    brake_page_table(stream, "wide of3", "What was changed: the lines that differ.", lines);
    at = 0;
    while (brake_differing_line(paper, &at, &change))
        row(&change, stream);
    brake_page_table_end(stream);
    brake_page_section_end(stream);
}
