#include <stddef.h>

#include "html.h"
#include "page.h"
#include "words.h"

static void row(const struct brake_sheet *sheet, int index, FILE *stream)
{
    static void (*const cells[])(const struct brake_sheet *, int, char *, size_t) = {
        brake_words_input, brake_words_tolerance, brake_words_origin, brake_words_place};
    char path[160];
    char text[2048];
    brake_catalogue_path(&sheet->vehicle, index, path, sizeof path);
    fputs("<tr>\n<th scope=\"row\"><bdi>", stream);
    brake_page_text(stream, path);
    fputs("</bdi> <small>", stream);
    brake_page_text(stream, brake_quantity_at(index)->meaning);
    fputs("</small></th>\n", stream);
    for (size_t i = 0; i < sizeof cells / sizeof cells[0]; i++) {
        cells[i](sheet, index, text, sizeof text);
        fputs("<td><bdi>", stream);
        brake_page_text(stream, text);
        fputs("</bdi></td>\n", stream);
    }
    fputs("</tr>\n", stream);
}

static void defaults(const struct brake_sheet *sheet, FILE *stream)
{
    char text[2400];
    fputs("<div class=\"list box\">\n", stream);
    brake_page_element(stream, "h3", "Left at default: nobody measured these");
    fputs("<ul>\n", stream);
    for (int i = 0; i < brake_catalogue_count(); i++) {
        if (brake_words_default(sheet, i, text, sizeof text))
            brake_page_element(stream, "li", text);
    }
    fputs("</ul>\n</div>\n", stream);
}

void brake_html_inputs(const struct brake_paper *paper, FILE *stream)
{
    static const char *const heads[] = {"Line", "Value", "May be off by", "From", "Line no.", NULL};
    char text[200];
    brake_page_section(stream, "inputs", "Inputs");
    brake_words_origins(paper->sheet, text, sizeof text);
    fputs("<p>", stream);
    brake_page_words(stream, "%s.", text);
    fputs("</p>\n", stream);
    brake_page_table(stream, "wide of5", "Every line that was given, or worked out from such.",
                     heads);
    for (int i = 0; i < brake_catalogue_count(); i++) {
        if (brake_words_given(paper->sheet, i))
            row(paper->sheet, i, stream);
    }
    brake_page_table_end(stream);
    defaults(paper->sheet, stream);
    brake_page_section_end(stream);
}
