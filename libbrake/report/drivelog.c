#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "brake/report.h"
#include "brake/version.h"
#include "json.h"
#include "paragraph.h"

/* The units of the trade, and the US ones. */
struct trade {
    const char *speed, *length, *deceleration, *force;
};

static const struct trade trades[] = {{"km/h", "m", "m/s2", "N"}, {"mph", "ft", "ft/s2", "lbf"}};

static double in(const char *unit, double value)
{
    return brake_unit_from_si(brake_unit_find(unit), value);
}

/* ---- verdict -------------------------------------------------------------------------------- */

static const char *const agreement_words[] = {
    [BRAKE_AGREES] = "agrees with the prediction",
    [BRAKE_BELOW] = "MEASURED BELOW the prediction",
    [BRAKE_ABOVE] = "does not agree: measured above the prediction",
    [BRAKE_NOT_SAID] = "cannot say whether it agrees with the prediction"};

static void figures(const struct brake_drive *drive, char *text, size_t size)
{
    const double foot = brake_unit_find("ft")->factor;
    snprintf(text, size,
             "measured %.2f +- %.2f m/s2 against %.2f +- %.2f m/s2 (%.1f +- %.1f against %.1f +- "
             "%.1f ft/s2), 90 of 100 each",
             drive->measured.value, drive->measured.half, drive->predicted.value,
             drive->predicted.half, drive->measured.value / foot, drive->measured.half / foot,
             drive->predicted.value / foot, drive->predicted.half / foot);
}

/* Why nothing, or only a bound, could be said. */
static const char *reason(const struct brake_drive *drive)
{
    if (drive->counted == 0)
        return "no stop of this log counts";
    if (drive->compared == 0)
        return "the log has neither pedal force nor pressure, so that only the hardest stop can "
               "be held against the most that the vehicle should do";
    return "the prediction cannot be given";
}

static void verdict(const struct brake_drive_report *report, char *text, size_t size)
{
    const struct brake_drive *drive = report->drive;
    char numbers[200] = "";
    if (!isnan(drive->measured.value))
        figures(drive, numbers, sizeof numbers);
    if (drive->compared > 0 && drive->agreement != BRAKE_NOT_SAID)
        snprintf(text, size, "%s in %d of %d stops taken together: %s",
                 agreement_words[drive->agreement], drive->compared, drive->stops, numbers);
    else
        snprintf(text, size, "%s: %s%s%s", agreement_words[drive->agreement], reason(drive),
                 numbers[0] != '\0' ? "; " : "", numbers);
}

/* ---- stop by stop --------------------------------------------------------------------------- */

/* "41.23 +-0.85", or a dash. */
static void with_half(FILE *stream, const char *unit, const struct brake_measured *m, int decimals)
{
    char text[40];
    if (isnan(m->value))
        snprintf(text, sizeof text, "-");
    else
        snprintf(text, sizeof text, "%.*f +-%.*f", decimals, in(unit, m->value), decimals,
                 in(unit, m->half));
    fprintf(stream, " %13s", text);
}

static void plain(FILE *stream, const char *unit, double value, int width, int decimals)
{
    if (isnan(value))
        fprintf(stream, " %*s", width, "-");
    else
        fprintf(stream, " %*.*f", width, decimals, in(unit, value));
}

static void table(const struct brake_drive_report *report, const struct trade *trade, FILE *stream)
{
    fprintf(stream, "  stop line  from %13s %7s %13s %5s %13s\n", "distance", "at nom.",
            "developed", "pedal", "predicted");
    fprintf(stream, "            %5s %13s %7s %13s %5s %13s\n", trade->speed, trade->length,
            trade->length, trade->deceleration, trade->force, trade->deceleration);
    for (int i = 0; i < report->drive->stops; i++) {
        const struct brake_drive_stop *stop = &report->drive->stop[i];
        fprintf(stream, "  %3d%c %5d", i + 1, brake_drive_counts(stop) ? ' ' : '*',
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

static const struct {
    unsigned flag;
    const char *id;
    const char *words;
} flags[] = {
    {BRAKE_STOP_GAP, "gap", "rows are missing here"},
    {BRAKE_STOP_WHEEL_LOCK, "wheel_lock",
     "the wheel drops out of the vehicle's speed and comes back: it locked"},
    {BRAKE_STOP_JUMP, "jump",
     "the speed changes more than tyres can do: a wheel that locks to the end, or a jump of the "
     "log"},
    {BRAKE_STOP_COARSE, "coarse", "too few rows or too much noise to give a figure"},
    {BRAKE_STOP_BEGUN, "begun", "the brakes were on when the log began: no distance"},
};

enum { FLAGS = sizeof flags / sizeof flags[0] };

static void flagged(const struct brake_drive_report *report, FILE *stream)
{
    for (int i = 0; i < report->drive->stops; i++) {
        const struct brake_drive_stop *stop = &report->drive->stop[i];
        for (int f = 0; f < FLAGS; f++) {
            char head[40];
            if (!(stop->flags & flags[f].flag))
                continue;
            snprintf(head, sizeof head,
                     "  %c stop %d, line %d: ", brake_drive_counts(stop) ? ' ' : '*', i + 1,
                     report->log->row[stop->flagged].line);
            brake_paragraph(stream, head, flags[f].words);
        }
    }
}

static void explained(const struct brake_drive *drive, FILE *stream)
{
    brake_paragraph(stream, "  ",
                    drive->timed
                        ? "distance: from the foot's coming on to rest, by integration"
                        : "distance: the log does not tell when the foot came on, so it is counted "
                          "from where the developed deceleration, carried on to the initial speed, "
                          "begins: dead time and half of the build-up are not in it");
    brake_paragraph(stream, "  ",
                    "at nom.: brought to the nominal speed by the square (SAE J299, "
                    "from memory); developed: mean between 0.8 and 0.1 of the "
                    "initial speed (UN R13-H, Annex 3, 1.1.2); check against the "
                    "current text");
    brake_paragraph(stream, "  ",
                    "+-: 90 of 100, by noise and sampling interval; scale and lag of "
                    "the instrument are not in it");
}

/* ---- repeatability, fade, friction ---------------------------------------------------------- */

static void repeatability(const struct brake_drive *drive, FILE *stream)
{
    for (int g = 0; g < drive->repeats; g++) {
        const struct brake_repeat *r = &drive->repeat[g];
        fprintf(stream, "  from %.0f km/h (%.0f mph), %d stop%s: %.2f m/s2", 3.6 * r->nominal,
                in("mph", r->nominal), r->stops, r->stops > 1 ? "s" : "", r->mean[0]);
        if (r->stops > 1)
            fprintf(stream, ", deviation %.2f, range %.2f to %.2f", r->spread[0], r->least[0],
                    r->most[0]);
        fprintf(stream, "\n    distance %.1f m (%.0f ft)", r->mean[1], in("ft", r->mean[1]));
        if (r->stops > 1)
            fprintf(stream, ", deviation %.1f m, range %.1f to %.1f m", r->spread[1], r->least[1],
                    r->most[1]);
        fputc('\n', stream);
    }
    if (drive->repeats == 0)
        fputs("  no stop of known distance\n", stream);
}

static void fade(const struct brake_drive *drive, FILE *stream)
{
    const struct brake_measured *f = &drive->fade;
    char text[240];
    if (isnan(f->value)) {
        brake_paragraph(stream, "  ", "cannot say: three stops that count are needed");
        return;
    }
    const bool known = fabs(f->value) > f->half;
    snprintf(text, sizeof text,
             "%s from first to last: %+.1f %%, 90 of 100 within %+.1f to %+.1f %%; %s",
             drive->compared > 0 ? "measured over predicted" : "deceleration", 100.0 * f->value,
             100.0 * (f->value - f->half), 100.0 * (f->value + f->half),
             !known           ? "no trend that the log could show"
             : f->value < 0.0 ? "the brakes FADE"
                              : "the brakes get better, as pads that bed in do");
    brake_paragraph(stream, "  ", text);
}

static void friction(const struct brake_drive_report *report, FILE *stream)
{
    const struct brake_measured *f = &report->drive->friction;
    char text[400];
    if (isnan(f->value)) {
        brake_paragraph(stream, "  ",
                        report->drive->compared == 0
                            ? "cannot say without pedal force or pressure"
                            : "cannot say: the tyres limited every stop, or no friction between a "
                              "tenth and three times that of the file explains it");
        return;
    }
    snprintf(text, sizeof text,
             "%.2f times that of the file on both axles, 90 of 100 within %.2f to %.2f, the other "
             "lines being as the file has them",
             f->value, f->value - f->half, f->value + f->half);
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        const struct brake_axle_of_vehicle *at = &report->sheet->vehicle.axle[axle];
        const double mu = at->axle.brake == BRAKE_DISC ? at->pads.mu : at->lining.mu;
        const size_t used = strlen(text);
        if (!isnan(mu))
            snprintf(text + used, sizeof text - used, "; %s mu %.3f in place of %.3f",
                     brake_axle_word((enum brake_axle)axle), f->value * mu, mu);
    }
    brake_paragraph(stream, "  ", text);
}

/* ---- whole reports -------------------------------------------------------------------------- */

static void log_words(const struct brake_drive_report *report, char *text, size_t size)
{
    const struct brake_drive *drive = report->drive;
    snprintf(text, size,
             "%ld rows, one every %.3g s; %d stop%s, %d of them count%s; load %s, %.0f kg",
             report->log->rows, drive->interval, drive->stops, drive->stops == 1 ? "" : "s",
             drive->counted, drive->counted == 1 ? "s" : "", brake_load_word(report->load),
             brake_vehicle_body(&report->sheet->vehicle, report->load).mass);
    if (drive->gentle > 0)
        snprintf(text + strlen(text), size - strlen(text),
                 "; %d more slower than 1 m/s2, taken as rolling to rest", drive->gentle);
}

static void notes(const struct brake_log *log, FILE *stream)
{
    fputs(log->notes > 0 ? "\nLeft aside\n" : "", stream);
    for (int i = 0; i < log->notes; i++)
        brake_paragraph(stream, "  ", log->note[i]);
    if (log->more > 0)
        fprintf(stream, "  and %ld more of the kind\n", log->more);
}

void brake_report_drive_text(const struct brake_drive_report *report, FILE *stream)
{
    const char *name = report->sheet->vehicle.general.name;
    char text[600];
    fprintf(stream, "%s\n", name[0] != '\0' ? name : "Vehicle without a name");
    verdict(report, text, sizeof text);
    brake_paragraph(stream, "Verdict   ", text);
    log_words(report, text, sizeof text);
    brake_paragraph(stream, "Log       ", text);
    brake_paragraph(stream, "Caution   ", BRAKE_CAUTION);
    for (int t = 0; t < 2; t++) {
        fputs(t == 0 ? "\nStop by stop\n" : "\nThe same in US units\n", stream);
        table(report, &trades[t], stream);
    }
    flagged(report, stream);
    explained(report->drive, stream);
    fputs("\nRepeatability\n", stream);
    repeatability(report->drive, stream);
    fputs("\nFade\n", stream);
    fade(report->drive, stream);
    fputs("\nFriction that would explain what was measured\n", stream);
    friction(report, stream);
    notes(report->log, stream);
    fputc('\n', stream);
    brake_paragraph(stream, "Caution   ", BRAKE_CAUTION);
    fprintf(stream, "libbrake %s\n", BRAKE_VERSION);
}

static void add_measured(cJSON *object, const char *name, const struct brake_measured *m,
                         const char *unit)
{
    cJSON *one = cJSON_CreateObject();
    brake_json_number(one, "value", m->value);
    brake_json_text(one, "unit", unit);
    brake_json_number(one, "p05", m->value - m->half);
    brake_json_number(one, "p95", m->value + m->half);
    cJSON_AddItemToObject(object, name, one);
}

static cJSON *stop_object(const struct brake_drive_report *report,
                          const struct brake_drive_stop *stop)
{
    const struct brake_log_row *row = report->log->row;
    cJSON *one = cJSON_CreateObject();
    cJSON *why = cJSON_CreateArray();
    for (int f = 0; f < FLAGS; f++) {
        if (stop->flags & flags[f].flag)
            cJSON_AddItemToArray(why, cJSON_CreateString(flags[f].id));
    }
    cJSON_AddBoolToObject(one, "counts", brake_drive_counts(stop));
    cJSON_AddItemToObject(one, "flags", why);
    cJSON_AddNumberToObject(one, "line", row[stop->first].line);
    cJSON_AddNumberToObject(one, "last_line", row[stop->last].line);
    if (stop->flags != 0)
        cJSON_AddNumberToObject(one, "flagged_line", row[stop->flagged].line);
    cJSON_AddNumberToObject(one, "points", stop->points);
    brake_json_number(one, "noise", stop->noise);
    add_measured(one, "initial_speed", &stop->initial, "m/s");
    brake_json_number(one, "nominal_speed", stop->nominal);
    add_measured(one, "distance", &stop->distance, "m");
    add_measured(one, "corrected_distance", &stop->corrected, "m");
    add_measured(one, "developed_deceleration", &stop->developed, "m/s2");
    brake_json_number(one, "indicated_deceleration", stop->indicated);
    brake_json_number(one, "pedal_force", stop->pedal_force);
    brake_json_number(one, "pressure", stop->pressure);
    brake_json_number(one, "front_temperature", stop->temperature[BRAKE_FRONT]);
    brake_json_number(one, "rear_temperature", stop->temperature[BRAKE_REAR]);
    add_measured(one, "predicted_deceleration", &stop->predicted, "m/s2");
    cJSON_AddBoolToObject(one, "limited_by_tyres", stop->capped);
    return one;
}

static cJSON *repeat_object(const struct brake_repeat *r)
{
    static const char *const names[] = {"developed_deceleration", "corrected_distance"};
    cJSON *one = cJSON_CreateObject();
    brake_json_number(one, "nominal_speed", r->nominal);
    cJSON_AddNumberToObject(one, "stops", r->stops);
    for (int k = 0; k < 2; k++) {
        cJSON *figure = cJSON_CreateObject();
        brake_json_number(figure, "mean", r->mean[k]);
        brake_json_number(figure, "standard_deviation", r->spread[k]);
        brake_json_number(figure, "least", r->least[k]);
        brake_json_number(figure, "most", r->most[k]);
        cJSON_AddItemToObject(one, names[k], figure);
    }
    return one;
}

static cJSON *summary_object(const struct brake_drive_report *report)
{
    static const char *const ids[] = {"agrees", "below", "above", "cannot say"};
    const struct brake_drive *drive = report->drive;
    cJSON *one = cJSON_CreateObject();
    char text[600];
    verdict(report, text, sizeof text);
    brake_json_text(one, "agreement", ids[drive->agreement]);
    brake_json_text(one, "verdict", text);
    brake_json_text(one, "load", brake_load_word(report->load));
    cJSON_AddNumberToObject(one, "stops", drive->stops);
    cJSON_AddNumberToObject(one, "counted", drive->counted);
    cJSON_AddNumberToObject(one, "compared", drive->compared);
    cJSON_AddNumberToObject(one, "gentle", drive->gentle);
    cJSON_AddBoolToObject(one, "distance_from_pedal", drive->timed);
    return one;
}

static cJSON *results_object(const struct brake_drive *drive)
{
    cJSON *all = cJSON_CreateObject();
    add_measured(all, "drive.measured_deceleration", &drive->measured, "m/s2");
    add_measured(all, "drive.predicted_deceleration", &drive->predicted, "m/s2");
    add_measured(all, "drive.friction_factor", &drive->friction, "");
    add_measured(all, "drive.fade", &drive->fade, "");
    return all;
}

char *brake_report_drive_json(const struct brake_drive_report *report)
{
    const struct brake_drive *drive = report->drive;
    cJSON *all = cJSON_CreateObject();
    cJSON *stops = cJSON_CreateArray();
    cJSON *repeats = cJSON_CreateArray();
    cJSON *aside = cJSON_CreateArray();
    for (int i = 0; i < drive->stops; i++)
        cJSON_AddItemToArray(stops, stop_object(report, &drive->stop[i]));
    for (int g = 0; g < drive->repeats; g++)
        cJSON_AddItemToArray(repeats, repeat_object(&drive->repeat[g]));
    for (int i = 0; i < report->log->notes; i++)
        cJSON_AddItemToArray(aside, cJSON_CreateString(report->log->note[i]));
    brake_json_text(all, "libbrake", BRAKE_VERSION);
    brake_json_text(all, "caution", BRAKE_CAUTION);
    cJSON_AddItemToObject(all, "summary", summary_object(report));
    cJSON_AddItemToObject(all, "vehicle", brake_json_vehicle(report->sheet));
    cJSON_AddItemToObject(all, "results", results_object(drive));
    cJSON_AddItemToObject(all, "stops", stops);
    cJSON_AddItemToObject(all, "repeatability", repeats);
    cJSON_AddItemToObject(all, "notes", aside);
    char *text = cJSON_Print(all);
    cJSON_Delete(all);
    return text;
}
