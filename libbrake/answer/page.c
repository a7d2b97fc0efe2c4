/* SPDX-License-Identifier: MIT */
#include "page.h"

#include <string.h>

#include "brake/version.h"
#include "brake/warnings.h"
#include "style.h"
#include "vehicle/text.h"

void brake_page_element(FILE *stream, const char *element, const char *text)
{
    int name = 0;
    while (element[name] != '\0' && element[name] != ' ')
        name++;
    brake_text_print(stream, "<%s>", element);
    brake_page_text(stream, text);
    brake_text_print(stream, "</%.*s>\n", name, element);
}

static void caution(FILE *stream)
{
    fputs("<p class=\"caution\"><strong>Caution.</strong> ", stream);
    brake_page_text(stream, BRAKE_CAUTION);
    fputs("</p>\n", stream);
}

void brake_page_open(FILE *stream, const char *title, const char *subject)
{
    fputs("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
          "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>",
          stream);
    brake_page_words(stream, "%s: %s", title, subject);
    fputs("</title>\n<style>\n", stream);
    for (int i = 0; brake_style[i] != NULL; i++)
        fputs(brake_style[i], stream);
    fputs("</style>\n</head>\n<body>\n<header>\n", stream);
    caution(stream);
    brake_page_element(stream, "p class=\"kind\"", title);
    fputs("<h1><bdi>", stream);
    brake_page_text(stream, subject);
    fputs("</bdi></h1>\n</header>\n<main>\n", stream);
}

void brake_page_close(FILE *stream)
{
    fputs("</main>\n<footer>\n", stream);
    caution(stream);
    fputs("<p class=\"small\">libbrake " BRAKE_VERSION "</p>\n</footer>\n</body>\n</html>\n",
          stream);
}

void brake_page_section(FILE *stream, const char *id, const char *heading)
{
    brake_text_print(stream, "<section aria-labelledby=\"%s\">\n<h2 id=\"%s\">", id, id);
    brake_page_text(stream, heading);
    fputs("</h2>\n", stream);
}

void brake_page_section_end(FILE *stream)
{
    fputs("</section>\n", stream);
}

void brake_page_table(FILE *stream, const char *style, const char *caption,
                      const char *const *heads)
{
    brake_text_print(stream, "<table class=\"%s\">\n", style);
    brake_page_element(stream, "caption", caption);
    fputs("<thead>\n<tr>\n", stream);
    for (int i = 0; heads[i] != NULL; i++)
        brake_page_element(stream, "th scope=\"col\"", heads[i]);
    fputs("</tr>\n</thead>\n<tbody>\n", stream);
}

void brake_page_table_end(FILE *stream)
{
    fputs("</tbody>\n</table>\n", stream);
}

void brake_page_carry(FILE *stream, const char *name, const char *lines)
{
    enum { LONG = 4096 };
    char line[LONG];
    brake_text_print(stream, "<pre hidden id=\"%s\">\n", name);
    while (*lines != '\0') {
        const size_t length = strcspn(lines, "\n");
        brake_text_format(line, sizeof line, "%.*s", (int)length, lines);
        brake_page_text(stream, line);
        fputc('\n', stream);
        lines += length;
        lines += *lines == '\n' ? 1 : 0;
    }
    fputs("</pre>\n", stream);
}

void brake_page_blank(FILE *stream, const char *what)
{
    fputs("<div class=\"blank\">", stream);
    brake_page_element(stream, "span", what);
    fputs("<i></i></div>\n", stream);
}
