#include <math.h>
#include <stdio.h>
#include <string.h>

#include "html.h"
#include "page.h"
#include "words.h"
#include "words_drive.h"
#include "vehicle/text.h"

/* "41.2 +- 0.9 m (135.2 +- 2.8 ft)"; without a half width when that is NaN, a dash when nothing is
 * known. */
static void amount(const char *name, double value, double half, char *text, size_t size)
{
    const struct brake_unit *unit = brake_unit_find(name);
    const struct brake_unit *both[] = {unit, brake_unit_beside(unit)};
    int used = 0;
    if (!isfinite(value)) {
        brake_text_format(text, size, "-");
        return;
    }
    for (int u = 0; u < 2; u++) {
        used += brake_text_format(text + used, size - (size_t)used, "%s%.4g", u > 0 ? " (" : "",
                                  brake_unit_from_si(both[u], value));
        if (isfinite(half))
            used += brake_text_format(text + used, size - (size_t)used, " +- %.2g",
                                      half / both[u]->factor);
        used += brake_text_format(text + used, size - (size_t)used, " %s%s", both[u]->name,
                                  u > 0 ? ")" : "");
    }
}

static void cell(FILE *stream, const char *unit, double value, double half)
{
    char text[120];
    amount(unit, value, half, text, sizeof text);
    brake_page_element(stream, "td", text);
}

static void marks(const struct brake_drive_report *report, const struct brake_drive_stop *stop,
                  FILE *stream)
{
    for (int i = 0; brake_stop_mark_at(i) != NULL; i++) {
        const struct brake_stop_mark *mark = brake_stop_mark_at(i);
        if (stop->flags & mark->flag)
            brake_page_words(stream, "; %sline %d: %s",
                             brake_drive_counts(stop) ? "" : "does not count, ",
                             report->log->row[stop->flagged].line, mark->words);
    }
}

static void row(const struct brake_drive_report *report, int number, FILE *stream)
{
    const struct brake_drive_stop *stop = &report->drive->stop[number];
    char from[120];
    char force[120];
    amount("km/h", stop->initial.value, BRAKE_NAN, from, sizeof from);
    amount("N", stop->pedal_force, BRAKE_NAN, force, sizeof force);
    fputs("<tr>\n<th scope=\"row\">", stream);
    brake_page_words(stream, "%d, from %s, pedal %s", number + 1, from, force);
    fputs(" <small>", stream);
    brake_page_words(stream, "line %d", report->log->row[stop->first].line);
    marks(report, stop, stream);
    fputs("</small></th>\n", stream);
    cell(stream, "m", stop->distance.value, stop->distance.half);
    cell(stream, "m", stop->corrected.value, BRAKE_NAN);
    cell(stream, "m/s2", stop->developed.value, stop->developed.half);
    cell(stream, "m/s2", stop->predicted.value, stop->predicted.half);
    fputs("</tr>\n", stream);
}

static void stops(const struct brake_drive_report *report, FILE *stream)
{
    static const char *const heads[] = {"Stop",      "Distance",  "At nom.",
                                        "Developed", "Predicted", NULL};
    brake_page_table(stream, "wide even of5", "Every stop of the log.", heads);
    for (int i = 0; i < report->drive->stops; i++)
        row(report, i, stream);
    brake_page_table_end(stream);
    for (int i = 0; brake_words_drive_method(report->drive, i) != NULL; i++)
        brake_page_element(stream, "p class=\"small\"", brake_words_drive_method(report->drive, i));
}

static void alike(const struct brake_drive *drive, FILE *stream)
{
    char text[400];
    brake_page_element(stream, "h3", "Repeatability");
    fputs(drive->repeats > 0 ? "<ul>\n" : "<p>No stop of known distance.</p>\n", stream);
    for (int i = 0; i < drive->repeats; i++) {
        brake_words_drive_repeat(&drive->repeat[i], text, sizeof text);
        brake_page_element(stream, "li", text);
    }
    fputs(drive->repeats > 0 ? "</ul>\n" : "", stream);
    brake_words_drive_scatter(drive, text, sizeof text);
    if (text[0] != '\0')
        brake_page_element(stream, "p", text);
}

static void left_aside(const struct brake_log *log, FILE *stream)
{
    if (log->notes == 0)
        return;
    brake_page_element(stream, "h3", "Left aside");
    fputs("<ul>\n", stream);
    for (int i = 0; i < log->notes; i++)
        brake_page_element(stream, "li", log->note[i]);
    if (log->more > 0)
        brake_text_print(stream, "<li>and %ld more of the kind</li>\n", log->more);
    fputs("</ul>\n", stream);
}

void brake_html_drive(const struct brake_paper *paper, FILE *stream)
{
    const struct brake_drive_report *report = paper->drive;
    char text[600] = "The drive ";
    const size_t begun = strlen(text);
    if (report == NULL)
        return;
    brake_page_section(stream, "drive", "What was measured in the drive");
    brake_words_drive_verdict(report, text + begun, sizeof text - begun);
    brake_page_element(stream, "p", text);
    brake_words_drive_log(report, text, sizeof text);
    brake_page_element(stream, "p", text);
    stops(report, stream);
    alike(report->drive, stream);
    brake_page_element(stream, "h3", "First to last");
    brake_words_drive_fade(report->drive, text, sizeof text);
    brake_page_element(stream, "p", text);
    brake_page_element(stream, "h3", "Friction that would explain what was measured");
    brake_words_drive_friction(report, text, sizeof text);
    brake_page_element(stream, "p", text);
    left_aside(report->log, stream);
    brake_page_section_end(stream);
}
