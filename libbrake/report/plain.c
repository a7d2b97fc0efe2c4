#include <stddef.h>
#include <string.h>

#include "brake/paper.h"
#include "differences.h"
#include "paragraph.h"
#include "standing.h"
#include "text.h"
#include "words.h"
#include "vehicle/letters.h"
#include "vehicle/text.h"

static void changes(const struct brake_paper *paper, FILE *stream)
{
    struct brake_difference change;
    char text[2 * BRAKE_DIFFERENCE_TEXT + BRAKE_SHARES_TEXT + 300];
    int at = 0;
    if (paper->before == NULL)
        return;
    fputs("\nWHAT THE CHANGES GAVE OR TOOK (margins, before and now; the share of each\n"
          "group of changes, its Shapley value: they add up; not of hot performance)\n",
          stream);
    while (brake_differing_margin(paper, &at, &change)) {
        brake_text_format(text, sizeof text, "%s: %s, now %s (%s)%s%s", change.what, change.before,
                          change.after, change.given, change.shares[0] != '\0' ? ": " : "",
                          change.shares);
        brake_paragraph(stream, "  - ", text);
    }
    fputs("\nWHAT WAS CHANGED\n", stream);
    at = 0;
    while (brake_differing_line(paper, &at, &change)) {
        brake_text_format(text, sizeof text, "%s: %s, now %s", change.what, change.before,
                          change.after);
        brake_paragraph(stream, "  - ", text);
    }
}

static void drive(const struct brake_paper *paper, FILE *stream)
{
    if (paper->drive == NULL)
        return;
    fputs("\nWHAT WAS MEASURED IN THE DRIVE\n", stream);
    brake_text_drive_head(paper->drive, stream);
    brake_text_drive_body(paper->drive, stream);
}

static void duties(const struct brake_paper *paper, FILE *stream)
{
    static const char *const heads[BRAKE_PAPER_DUTIES] = {"THE HARDEST STOP", "FADE SEQUENCE",
                                                          "DESCENT"};
    for (int i = 0; i < BRAKE_PAPER_DUTIES; i++) {
        brake_text_print(stream, "\n%s\n", heads[i]);
        if (paper->duty[i] != NULL) {
            brake_text_duty_head(paper->duty[i], stream);
            brake_text_duty_body(paper->duty[i], stream);
        } else {
            brake_paragraph(stream, "  Cannot be said: ", paper->lacking[i]);
        }
    }
}

static void inputs(const struct brake_paper *paper, FILE *stream)
{
    char path[160];
    char value[2048];
    char tolerance[80];
    char origin[60];
    char place[20];
    char text[2600];
    fputs("\nEVERY LINE THAT WAS GIVEN\n", stream);
    for (int i = 0; i < brake_catalogue_count(); i++) {
        if (!brake_words_given(paper->sheet, i))
            continue;
        brake_catalogue_path(&paper->sheet->vehicle, i, path, sizeof path);
        brake_words_input(paper->sheet, i, value, sizeof value);
        brake_words_tolerance(paper->sheet, i, tolerance, sizeof tolerance);
        brake_words_origin(paper->sheet, i, origin, sizeof origin);
        brake_words_place(paper->sheet, i, place, sizeof place);
        brake_text_format(text, sizeof text, "%s = %s%s%s, %s, line %s", path, value,
                          tolerance[0] ? " +- " : "", tolerance, origin, place);
        brake_paragraph(stream, "  - ", text);
    }
}

static void blanks(const struct brake_paper *paper, FILE *stream)
{
    char value[80];
    fputs("\nTO BE MEASURED (calculated, measured)\n", stream);
    for (int i = 0; brake_blank_at(i) != NULL; i++) {
        const struct brake_blank *blank = brake_blank_at(i);
        value[0] = '\0';
        if (blank->result != NULL)
            brake_words_result(&paper->assessment->results, brake_result_find(blank->result), value,
                               sizeof value);
        brake_text_print(stream, "  %-*s%s\n", value[0] ? 48 : 0, blank->what, value);
        brake_text_print(stream, "%49s ______________________________\n", "");
    }
    fputs("\nSIGNED\n", stream);
    for (int i = 0; brake_signature_at(i) != NULL; i++)
        brake_text_print(stream, "  %s\n\n  %.70s\n\n", brake_signature_at(i),
                         "______________________________________________________________________");
}

/* A name of a file may hold anything but a NUL and a slash. */
static void file_line(FILE *stream, const char *head, const char *name)
{
    char text[4400]; /* the longest path of Linux, and some */
    if (name == NULL)
        return;
    brake_text_format(text, sizeof text, "%s", name);
    brake_text_make_plain(text);
    brake_paragraph(stream, head, text);
}

void brake_report_plain(const struct brake_paper *paper, FILE *stream)
{
    fputs("BRAKES OF A MODIFIED VEHICLE: REPORT FOR INSPECTION\n", stream);
    brake_paragraph(stream, "Caution   ", BRAKE_CAUTION);
    brake_paragraph(stream, "Date      ", paper->date);
    file_line(stream, "File      ", paper->file);
    file_line(stream, "Before    ", paper->before_file);
    file_line(stream, "Drive log ", paper->drive_file);
    fputc('\n', stream);
    brake_text_head(paper->sheet, paper->assessment, stream);
    brake_text_body(paper->sheet, paper->assessment, stream);
    changes(paper, stream);
    drive(paper, stream);
    duties(paper, stream);
    inputs(paper, stream);
    blanks(paper, stream);
    fputs("METHOD AND SOURCES\n", stream);
    for (int i = 0; brake_method_at(i) != NULL; i++)
        brake_paragraph(stream, "  ", brake_method_at(i));
    brake_text_end(stream);
}
