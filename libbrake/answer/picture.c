/* SPDX-License-Identifier: MIT */
#include "picture.h"

#include "cell.h"
#include "page.h"
#include "svg.h"

void brake_figure_open(FILE *stream, const struct brake_figure *figure, double height)
{
    fputs("<figure>\n", stream);
    brake_svg_open(stream, figure->id, height, figure->title, figure->words);
}

void brake_figure_end(FILE *stream, const struct brake_figure *figure)
{
    brake_svg_end(stream);
    fputs("<figcaption><strong>", stream);
    brake_page_words(stream, "%s.", figure->title);
    fputs("</strong> ", stream);
    brake_page_text(stream, figure->words);
    fputs(figure->warnings > 0 ? "\n<ul>\n" : "", stream);
    for (int i = 0; i < figure->warnings; i++) {
        char told[BRAKE_TOLD];
        brake_amounts_told(figure->warning[i].text, figure->systems, told, sizeof told);
        brake_page_element(stream, "li", told);
    }
    fputs(figure->warnings > 0 ? "</ul>" : "", stream);
    fputs("</figcaption>\n</figure>\n", stream);
}

void brake_figure_missing(FILE *stream, const char *title, const char *why)
{
    fputs("<p class=\"box\"><strong>", stream);
    brake_page_words(stream, "%s.", title);
    fputs("</strong> ", stream);
    brake_page_words(stream, "This picture cannot be drawn: %s", why);
    fputs("</p>\n", stream);
}
