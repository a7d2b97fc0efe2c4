#include "html.h"

#include <math.h>
#include <stddef.h>

#include "brake/version.h"
#include "page.h"
#include "picture.h"
#include "standing.h"
#include "words.h"

/* ---- vehicle, date, verdict ----------------------------------------------------------------- */

static void fact(FILE *stream, const char *what, const char *words)
{
    if (words[0] == '\0')
        return;
    brake_page_element(stream, "dt", what);
    fputs("<dd><bdi>", stream);
    brake_page_text(stream, words);
    fputs("</bdi></dd>\n", stream);
}

/* A line of the vehicle file, when it is known. */
static void fact_of(const struct brake_paper *paper, const char *what, const char *path,
                    FILE *stream)
{
    const int index = brake_catalogue_find(&paper->sheet->vehicle, path);
    char text[200];
    brake_words_input(paper->sheet, index, text, sizeof text);
    if (paper->sheet->record[index].from != BRAKE_ABSENT)
        fact(stream, what, text);
}

static void mass_of(const struct brake_paper *paper, const char *what, const char *path,
                    FILE *stream)
{
    char text[80];
    brake_words_result(&paper->assessment->results, brake_result_find(path), text, sizeof text);
    fact(stream, what, text);
}

static void facts(const struct brake_paper *paper, FILE *stream)
{
    brake_page_section(stream, "vehicle", "Vehicle and date");
    fputs("<dl class=\"facts\">\n", stream);
    fact(stream, "Date", paper->date);
    fact(stream, "Vehicle file", paper->file != NULL ? paper->file : "");
    fact(stream, "Before", paper->before_file != NULL ? paper->before_file : "");
    fact(stream, "Drive log", paper->drive_file != NULL ? paper->drive_file : "");
    fact_of(paper, "Category", "vehicle.category", stream);
    fact_of(paper, "First registered", "vehicle.first_registered", stream);
    fact_of(paper, "Rated mass", "vehicle.rated_mass", stream);
    mass_of(paper, "Mass, empty", "empty.mass.total", stream);
    mass_of(paper, "Mass, full", "full.mass.total", stream);
    fact_of(paper, "Front tyre", "front.tyre.marking", stream);
    fact_of(paper, "Rear tyre", "rear.tyre.marking", stream);
    fact_of(paper, "Front brake", "front.axle.brake", stream);
    fact_of(paper, "Rear brake", "rear.axle.brake", stream);
    fputs("</dl>\n", stream);
    brake_page_section_end(stream);
}

static void verdict(const struct brake_paper *paper, FILE *stream)
{
    char text[600];
    brake_page_section(stream, "verdict", "Verdict");
    brake_words_verdict(paper->assessment, text, sizeof text);
    fputs("<p class=\"verdict\"><strong>", stream);
    brake_page_text(stream, text);
    brake_words_limiting(paper->assessment, text, sizeof text);
    fputs("</strong>", stream);
    if (text[0] != '\0')
        brake_page_words(stream, "; what limits is: %s", text);
    fputs(".</p>\n", stream);
    brake_words_next(paper->sheet, paper->assessment, text, sizeof text);
    if (text[0] != '\0') {
        fputs("<p><strong>Measure next:</strong> ", stream);
        brake_page_text(stream, text);
        fputs("</p>\n", stream);
    }
    brake_page_section_end(stream);
}

/* ---- pictures, method ----------------------------------------------------------------------- */

static void pictures(const struct brake_paper *paper, FILE *stream)
{
    brake_page_section(stream, "pictures", "Pictures");
    fputs("<div class=\"pictures\">\n", stream);
    for (int load = 0; load < BRAKE_LOADS; load++)
        brake_picture_balance(paper, (enum brake_load)load, stream);
    for (int load = 0; load < BRAKE_LOADS; load++)
        brake_picture_adhesion(paper, (enum brake_load)load, stream);
    brake_picture_pedal(paper, stream);
    brake_picture_stop(paper, stream);
    brake_picture_heat(paper, BRAKE_PAPER_FADE, stream);
    brake_picture_heat(paper, BRAKE_PAPER_DESCENT, stream);
    brake_picture_spread(paper, stream);
    fputs("</div>\n", stream);
    brake_page_section_end(stream);
}

static void method(FILE *stream)
{
    brake_page_section(stream, "method", "Method and sources");
    for (int i = 0; brake_method_at(i) != NULL; i++)
        brake_page_element(stream, "p", brake_method_at(i));
    brake_page_element(stream, "p", "Worked out by stopmargin, libbrake " BRAKE_VERSION ".");
    brake_page_section_end(stream);
}

void brake_report_html(const struct brake_paper *paper, FILE *stream)
{
    brake_page_open(stream, "Brakes of a modified vehicle: report for inspection",
                    brake_words_name(paper->sheet));
    facts(paper, stream);
    verdict(paper, stream);
    brake_html_requirements(paper, stream);
    brake_html_changes(paper, stream);
    brake_html_drive(paper, stream);
    pictures(paper, stream);
    brake_html_numbers(paper, stream);
    brake_html_inputs(paper, stream);
    brake_html_inspector(paper, stream);
    method(stream);
    brake_page_close(stream);
}
