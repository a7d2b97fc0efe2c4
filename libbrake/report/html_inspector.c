#include <stddef.h>

#include "html.h"
#include "page.h"
#include "standing.h"
#include "words.h"

static void measured(const struct brake_paper *paper, FILE *stream)
{
    static const char *const heads[] = {"To be measured", "Calculated", "Measured", NULL};
    char text[80];
    brake_page_table(stream, "wide of3", "Fill in what the vehicle really does.", heads);
    for (int i = 0; brake_blank_at(i) != NULL; i++) {
        const struct brake_blank *blank = brake_blank_at(i);
        text[0] = '\0';
        if (blank->result != NULL)
            brake_words_result(&paper->assessment->results, brake_result_find(blank->result), text,
                               sizeof text);
        fputs("<tr>\n", stream);
        brake_page_element(stream, "th scope=\"row\"", blank->what);
        brake_page_element(stream, "td", text);
        brake_page_element(stream, "td", "");
        fputs("</tr>\n", stream);
    }
    brake_page_table_end(stream);
}

void brake_html_inspector(const struct brake_paper *paper, FILE *stream)
{
    fputs("<div class=\"fill\">\n", stream);
    brake_page_section(stream, "inspector", "To be checked by hand");
    brake_page_element(stream, "p",
                       "What no calculation can judge. A qualified inspector checks each and ticks "
                       "it.");
    fputs("<ul class=\"ticks\">\n", stream);
    for (int i = 0; brake_inspector_item(i) != NULL; i++)
        brake_page_element(stream, "li", brake_inspector_item(i));
    fputs("</ul>\n", stream);
    measured(paper, stream);
    fputs("<div class=\"together\">\n", stream);
    for (int i = 0; brake_signature_at(i) != NULL; i++)
        brake_page_blank(stream, brake_signature_at(i));
    fputs("</div>\n", stream);
    brake_page_section_end(stream);
    fputs("</div>\n", stream);
}
