#include <math.h>

#include "paragraph.h"
#include "text.h"
#include "words.h"
#include "words_drive.h"
#include "vehicle/text.h"

/* The units of the trade, and the US ones. */
struct trade {
    const char *speed, *length, *deceleration, *force;
};

static const struct trade trades[] = {{"km/h", "m", "m/s2", "N"}, {"mph", "ft", "ft/s2", "lbf"}};

static double in(const char *unit, double value)
{
    return brake_unit_from_si(brake_unit_find(unit), value);
}

/* ---- stop by stop --------------------------------------------------------------------------- */

/* "41.23 +-0.85", or a dash. */
static void with_half(FILE *stream, const char *unit, const struct brake_measured *m, int decimals)
{
    char text[40];
    if (isnan(m->value))
        brake_text_format(text, sizeof text, "-");
    else
        brake_text_format(text, sizeof text, "%.*f +-%.*f", decimals, in(unit, m->value), decimals,
                          in(unit, m->half));
    brake_text_print(stream, " %13s", text);
}

static void plain(FILE *stream, const char *unit, double value, int width, int decimals)
{
    if (isnan(value))
        brake_text_print(stream, " %*s", width, "-");
    else
        brake_text_print(stream, " %*.*f", width, decimals, in(unit, value));
}

static void table(const struct brake_drive_report *report, const struct trade *trade, FILE *stream)
{
    brake_text_print(stream, "  stop line  from %13s %7s %13s %5s %13s\n", "distance", "at nom.",
                     "developed", "pedal", "predicted");
    brake_text_print(stream, "            %5s %13s %7s %13s %5s %13s\n", trade->speed,
                     trade->length, trade->length, trade->deceleration, trade->force,
                     trade->deceleration);
    for (int i = 0; i < report->drive->stops; i++) {
        const struct brake_drive_stop *stop = &report->drive->stop[i];
        brake_text_print(stream, "  %3d%c %5d", i + 1, brake_drive_counts(stop) ? ' ' : '*',
                         report->log->row[stop->first].line);
        plain(stream, trade->speed, stop->initial.value, 5, 1);
        with_half(stream, trade->length, &stop->distance, 1);
        plain(stream, trade->length, stop->corrected.value, 7, 1);
        with_half(stream, trade->deceleration, &stop->developed, 2);
        plain(stream, trade->force, stop->pedal_force, 5, 0);
        with_half(stream, trade->deceleration, &stop->predicted, 2);
        fputc('\n', stream);
    }
}

static void marked(const struct brake_drive_report *report, FILE *stream)
{
    for (int i = 0; i < report->drive->stops; i++) {
        const struct brake_drive_stop *stop = &report->drive->stop[i];
        for (int m = 0; brake_stop_mark_at(m) != NULL; m++) {
            char head[40];
            if (!(stop->flags & brake_stop_mark_at(m)->flag))
                continue;
            brake_text_format(head, sizeof head,
                              "  %c stop %d, line %d: ", brake_drive_counts(stop) ? ' ' : '*',
                              i + 1, report->log->row[stop->flagged].line);
            brake_paragraph(stream, head, brake_stop_mark_at(m)->words);
        }
    }
}

static void repeatability(const struct brake_drive *drive, FILE *stream)
{
    char text[400];
    for (int g = 0; g < drive->repeats; g++) {
        brake_words_drive_repeat(&drive->repeat[g], text, sizeof text);
        brake_paragraph(stream, "  ", text);
    }
    if (drive->repeats == 0)
        fputs("  no stop of known distance\n", stream);
    brake_words_drive_scatter(drive, text, sizeof text);
    if (text[0] != '\0')
        brake_paragraph(stream, "  ", text);
}

static void notes(const struct brake_log *log, FILE *stream)
{
    fputs(log->notes > 0 ? "\nLeft aside\n" : "", stream);
    for (int i = 0; i < log->notes; i++)
        brake_paragraph(stream, "  ", log->note[i]);
    if (log->more > 0)
        brake_text_print(stream, "  and %ld more of the kind\n", log->more);
}

void brake_text_drive_head(const struct brake_drive_report *report, FILE *stream)
{
    char text[600];
    brake_words_drive_verdict(report, text, sizeof text);
    brake_paragraph(stream, "Verdict   ", text);
    brake_words_drive_log(report, text, sizeof text);
    brake_paragraph(stream, "Log       ", text);
}

void brake_text_drive_body(const struct brake_drive_report *report, FILE *stream)
{
    char text[400];
    for (int t = 0; t < 2; t++) {
        fputs(t == 0 ? "\nStop by stop\n" : "\nThe same in US units\n", stream);
        table(report, &trades[t], stream);
    }
    marked(report, stream);
    for (int i = 0; brake_words_drive_method(report->drive, i) != NULL; i++)
        brake_paragraph(stream, "  ", brake_words_drive_method(report->drive, i));
    fputs("\nRepeatability\n", stream);
    repeatability(report->drive, stream);
    fputs("\nFade\n", stream);
    brake_words_drive_fade(report->drive, text, sizeof text);
    brake_paragraph(stream, "  ", text);
    fputs("\nFriction that would explain what was measured\n", stream);
    brake_words_drive_friction(report, text, sizeof text);
    brake_paragraph(stream, "  ", text);
    notes(report->log, stream);
}

void brake_report_drive_text(const struct brake_drive_report *report, FILE *stream)
{
    brake_text_print(stream, "%s\n", brake_words_name(report->sheet));
    brake_text_drive_head(report, stream);
    brake_paragraph(stream, "Caution   ", BRAKE_CAUTION);
    brake_text_drive_body(report, stream);
    brake_text_end(stream);
}
