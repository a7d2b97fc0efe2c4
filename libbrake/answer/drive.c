/* SPDX-License-Identifier: MIT */
/* The answer of `drivelog`: measured stops held against the prediction. */
#include <math.h>
#include <string.h>

#include "brake/warnings.h"
#include "parts.h"
#include "study/stops.h"
#include "vehicle/system.h"
#include "vehicle/groups.h"

/* ---- verdict -------------------------------------------------------------------------------- */

static const struct {
    const char *id;
    const char *words;
} agreements[] = {
    [BRAKE_AGREES] = {"agrees", "agrees with the prediction"},
    [BRAKE_BELOW] = {"below", "MEASURED BELOW the prediction"},
    [BRAKE_ABOVE] = {"above", "does not agree: measured above the prediction"},
    [BRAKE_NOT_SAID] = {"cannot say", "cannot say whether it agrees with the prediction"}};

static const char *const what_follows[] = {
    [BRAKE_AGREES] = "The stops do not show the file to be wrong. That is not to say that the "
                     "brakes are enough.",
    [BRAKE_BELOW] = "It brakes worse than its parts should: find out why, do not drive it on the "
                    "road.",
    [BRAKE_ABOVE] = "Look for the line of the file that is wrong, or the unit of the log, before "
                    "you rely on either.",
    [BRAKE_NOT_SAID] = "Do not rely on the file by this drive."};

static struct brake_cell deceleration(const struct brake_measured *m)
{
    return brake_part_measured(m, brake_unit_si(BRAKE_ACCELERATION), BRAKE_TWO_DECIMALS);
}

static const char *figures_of(struct brake_document *d, const struct brake_drive *drive)
{
    if (isnan(drive->measured.value))
        return NULL;
    return brake_document_words(d, "measured %s against %s, 90 of 100 each",
                                brake_document_amount(d, deceleration(&drive->measured)),
                                brake_document_amount(d, deceleration(&drive->predicted)));
}

/* Why nothing, or only a bound, could be said. */
static const char *reason_of(const struct brake_drive *drive)
{
    if (drive->counted == 0)
        return "no stop of this log counts";
    if (drive->compared == 0)
        return "the log has neither pedal force nor pressure, so that only the hardest stop can "
               "be held against the most that the vehicle should do";
    return "the prediction cannot be given";
}

static const char *verdict_of(struct brake_document *d, const struct brake_drive *drive)
{
    const char *words = agreements[drive->agreement].words;
    const char *figures = figures_of(d, drive);
    if (drive->compared > 0 && drive->agreement != BRAKE_NOT_SAID)
        return brake_document_words(d, "%s in %d of %d stops taken together: %s", words,
                                    drive->compared, drive->stops, figures != NULL ? figures : "");
    return brake_document_words(d, "%s: %s%s%s", words, reason_of(drive),
                                figures != NULL ? "; " : "", figures != NULL ? figures : "");
}

static const char *log_of(struct brake_document *d, const struct brake_drive_report *r)
{
    const struct brake_drive *drive = r->drive;
    const char *gentle =
        drive->gentle > 0
            ? brake_document_words(d, "; %d more slower than %s, taken as rolling to rest",
                                   drive->gentle, brake_document_told(d, "1 m/s2"))
            : "";
    return brake_document_words(
        d, "%ld rows, one every %.3g s; %d stop%s, %d of them count%s; load %s, %s%s", r->log->rows,
        drive->interval, drive->stops, drive->stops == 1 ? "" : "s", drive->counted,
        drive->counted == 1 ? "s" : "", brake_load_word(r->load),
        brake_document_amount(d,
                              brake_cell_form(brake_vehicle_body(&r->sheet->vehicle, r->load).mass,
                                              brake_unit_find("kg"), BRAKE_WHOLE)),
        gentle);
}

/* ---- stop by stop --------------------------------------------------------------------------- */

static const struct {
    unsigned flag; /* of enum brake_stop_flag */
    const char *id;
    const char *words;
} marks[] = {
    {BRAKE_STOP_GAP, "gap", "rows are missing here"},
    {BRAKE_STOP_WHEEL_LOCK, "wheel_lock",
     "the wheel drops out of the vehicle's speed and comes back: it locked"},
    {BRAKE_STOP_JUMP, "jump",
     "the speed changes more than tyres can do: a wheel that locks to the end, a jump of the log, "
     "or its unit is another"},
    {BRAKE_STOP_COARSE, "coarse", "too few rows or too much noise to give a figure"},
    {BRAKE_STOP_BEGUN, "begun", "the brakes were on when the log began: no distance"},
};

enum { MARKS = sizeof marks / sizeof marks[0] };

/* Ids, or words, of what marks a stop; "" when nothing does. */
static const char *marks_of(struct brake_document *d, const struct brake_drive_stop *stop, bool ids)
{
    const char *all = NULL;
    for (int i = 0; i < MARKS; i++) {
        if (stop->flags & marks[i].flag)
            all = brake_document_join(d, all, ids ? " " : "; ", ids ? marks[i].id : marks[i].words);
    }
    return all != NULL ? all : "";
}

static const char *note_of(struct brake_document *d, const struct brake_drive_report *r,
                           const struct brake_drive_stop *stop)
{
    if (stop->flags == 0)
        return NULL;
    return brake_document_words(d, "%sline %d: %s",
                                brake_drive_counts(stop) ? "" : "does not count, ",
                                r->log->row[stop->flagged].line, marks_of(d, stop, false));
}

static void stop_row(struct brake_document *d, const struct brake_drive_report *r, int number)
{
    const struct brake_drive_stop *stop = &r->drive->stop[number];
    const struct brake_log_row *row = r->log->row;
    const struct brake_unit *metre = brake_unit_si(BRAKE_LENGTH);
    const struct brake_unit *rate = brake_unit_si(BRAKE_ACCELERATION);
    const struct brake_unit *kelvin = brake_unit_of("degC", BRAKE_TEMPERATURE);
    brake_document_row(
        d, (const struct brake_cell[]){
               brake_cell_count(number + 1),
               brake_cell_truth(brake_drive_counts(stop)),
               brake_cell_ids(marks_of(d, stop, true)),
               brake_cell_count(row[stop->first].line),
               brake_cell_count(row[stop->last].line),
               stop->flags != 0 ? brake_cell_count(row[stop->flagged].line) : brake_cell_nothing(),
               brake_cell_count(stop->points),
               brake_cell_number(stop->noise, NULL),
               brake_part_measured(&stop->initial, brake_unit_find("km/h"), BRAKE_ONE_DECIMAL),
               brake_cell_form(stop->initial.value, brake_unit_find("km/h"), BRAKE_ONE_DECIMAL),
               brake_cell_form(stop->nominal, brake_unit_find("km/h"), BRAKE_WHOLE),
               brake_part_measured(&stop->distance, metre, BRAKE_ONE_DECIMAL),
               brake_part_measured(&stop->corrected, metre, BRAKE_ONE_DECIMAL),
               brake_cell_form(stop->corrected.value, metre, BRAKE_ONE_DECIMAL),
               brake_part_measured(&stop->developed, rate, BRAKE_TWO_DECIMALS),
               brake_cell_number(stop->indicated, rate),
               brake_cell_form(stop->pedal_force, brake_unit_si(BRAKE_FORCE), BRAKE_WHOLE),
               brake_cell_number(stop->pressure, brake_unit_find("bar")),
               brake_cell_number(stop->grade, NULL),
               brake_cell_number(stop->heading, NULL),
               brake_cell_number(stop->temperature[BRAKE_FRONT], kelvin),
               brake_cell_number(stop->temperature[BRAKE_REAR], kelvin),
               brake_part_measured(&stop->predicted, rate, BRAKE_TWO_DECIMALS),
               brake_cell_truth(stop->capped),
               brake_cell_text(note_of(d, r, stop))});
}

static void stops(struct brake_document *d, const struct brake_drive_report *r)
{
    static const struct brake_column column[] = {
        {NULL, "stop", BRAKE_COLUMN},
        {"counts", NULL, BRAKE_COLUMN},
        {"flags", NULL, BRAKE_COLUMN},
        {"line", "line", BRAKE_COLUMN},
        {"last_line", NULL, BRAKE_COLUMN},
        {"flagged_line", NULL, BRAKE_COLUMN},
        {"points", NULL, BRAKE_COLUMN},
        {"noise", NULL, BRAKE_COLUMN},
        {"initial_speed", NULL, BRAKE_COLUMN},
        {NULL, "from", BRAKE_COLUMN},
        {"nominal_speed", NULL, BRAKE_COLUMN},
        {"distance", "distance", BRAKE_COLUMN},
        {"corrected_distance", NULL, BRAKE_COLUMN},
        {NULL, "at nominal", BRAKE_COLUMN},
        {"developed_deceleration", "MFDD", BRAKE_COLUMN},
        {"indicated_deceleration", NULL, BRAKE_COLUMN},
        {"pedal_force", "pedal", BRAKE_COLUMN},
        {"pressure", NULL, BRAKE_COLUMN},
        {"grade", NULL, BRAKE_COLUMN},
        {"heading", NULL, BRAKE_COLUMN},
        {"front_temperature", NULL, BRAKE_COLUMN},
        {"rear_temperature", NULL, BRAKE_COLUMN},
        {"predicted_deceleration", "predicted", BRAKE_COLUMN},
        {"limited_by_tyres", NULL, BRAKE_COLUMN},
        {NULL, "", BRAKE_NOTE}};
    brake_document_table(d, &(struct brake_table){.key = "stops",
                                                  .column = column,
                                                  .columns = sizeof column / sizeof column[0]});
    for (int i = 0; i < r->drive->stops; i++)
        stop_row(d, r, i);
}

static const char *day_of(struct brake_document *d, const struct brake_measured *m,
                          const struct brake_unit *unit)
{
    return brake_document_amount(d, brake_part_measured(m, unit, BRAKE_ONE_DECIMAL));
}

static const char *road_of(struct brake_document *d, const struct brake_drive_report *r)
{
    if (r->log->has[BRAKE_LOG_GRADE])
        return "the road to be as steep as the log says";
    return brake_document_words(
        d, "the road to rise by %s the way of the first stop%s",
        day_of(d, &r->drive->day.grade, brake_unit_find("%")),
        r->drive->both_ways ? ", which drops out as the stops went both ways" : "");
}

static void method(struct brake_document *d, const struct brake_drive_report *r)
{
    const struct brake_drive *drive = r->drive;
    brake_document_say(
        d, NULL, NULL,
        drive->timed ? "distance: from the moment the foot goes on until standstill, by integration"
                     : "distance: the log does not tell when the foot came on, so it is counted "
                       "from where the developed deceleration, carried on to the initial speed, "
                       "begins: dead time and half of the build-up are not in it");
    brake_document_say(
        d, NULL, NULL,
        "at nominal: brought to the nominal speed by the square (SAE J299, from memory); "
        "MFDD: "
        "mean between 0.8 and 0.1 of the initial speed (UN R13-H, Annex 3, 1.1.2); check against "
        "the current text");
    brake_document_say_in(d, NULL, NULL,
                          "+-: 90 of 100. The speed is taken to be told %s late, the pedal force "
                          "to be %s of what the "
                          "log says, %s; air and rolling are those of the vehicle file",
                          day_of(d, &drive->day.lag, brake_unit_si(BRAKE_TIME)),
                          day_of(d, &drive->day.gauge, brake_unit_find("%")), road_of(d, r));
}

/* ---- repeatability, fade, friction ---------------------------------------------------------- */

/* For programs: a row a nominal speed. */
static void repeats_by_speed(struct brake_document *d, const struct brake_drive *drive)
{
    static const struct brake_column column[] = {
        {"nominal_speed", NULL, BRAKE_COLUMN},
        {"stops", NULL, BRAKE_COLUMN},
        {"developed_deceleration.mean", NULL, BRAKE_COLUMN},
        {"developed_deceleration.standard_deviation", NULL, BRAKE_COLUMN},
        {"developed_deceleration.least", NULL, BRAKE_COLUMN},
        {"developed_deceleration.most", NULL, BRAKE_COLUMN},
        {"corrected_distance.mean", NULL, BRAKE_COLUMN},
        {"corrected_distance.standard_deviation", NULL, BRAKE_COLUMN},
        {"corrected_distance.least", NULL, BRAKE_COLUMN},
        {"corrected_distance.most", NULL, BRAKE_COLUMN}};
    brake_document_table(
        d, &(struct brake_table){.key = "repeatability", .column = column, .columns = 10});
    for (int g = 0; g < drive->repeats; g++) {
        const struct brake_repeat *r = &drive->repeat[g];
        struct brake_cell cells[10] = {brake_cell_number(r->nominal, NULL),
                                       brake_cell_count(r->stops)};
        for (int k = 0; k < 2; k++) {
            const double figure[] = {r->mean[k], r->spread[k], r->least[k], r->most[k]};
            for (int i = 0; i < 4; i++)
                cells[2 + 4 * k + i] = brake_cell_number(figure[i], NULL);
        }
        brake_document_row(d, cells);
    }
}

static void repeat_row(struct brake_document *d, const struct brake_repeat *r, int measure)
{
    static const char *const names[] = {"deceleration", "distance"};
    const struct brake_unit *unit = brake_unit_si(measure == 0 ? BRAKE_ACCELERATION : BRAKE_LENGTH);
    const double figure[] = {r->mean[measure], r->spread[measure], r->least[measure],
                             r->most[measure]};
    struct brake_cell cells[7] = {brake_cell_form(r->nominal, brake_unit_find("km/h"), BRAKE_WHOLE),
                                  brake_cell_count(r->stops), brake_cell_text(names[measure])};
    for (int i = 0; i < 4; i++)
        cells[3 + i] = i == 0 || r->stops > 1 ? brake_cell_form(figure[i], unit, BRAKE_THREE_DIGITS)
                                              : brake_cell_nothing();
    brake_document_row(d, cells);
}

static void repeats(struct brake_document *d, const struct brake_drive *drive)
{
    static const struct brake_column column[] = {
        {NULL, "from", BRAKE_COLUMN},      {NULL, "stops", BRAKE_COLUMN},
        {NULL, "of", BRAKE_COLUMN},        {NULL, "mean", BRAKE_COLUMN},
        {NULL, "deviation", BRAKE_COLUMN}, {NULL, "least", BRAKE_COLUMN},
        {NULL, "most", BRAKE_COLUMN}};
    repeats_by_speed(d, drive);
    brake_document_section(d, NULL, "Repeatability");
    brake_document_table(d, &(struct brake_table){.none = "No stop of known distance.",
                                                  .column = column,
                                                  .columns = 7});
    for (int g = 0; g < drive->repeats; g++) {
        for (int measure = 0; measure < 2; measure++)
            repeat_row(d, &drive->repeat[g], measure);
    }
    if (!isnan(drive->scatter))
        brake_document_say_in(d, NULL, NULL,
                              "measured over predicted, %d stops: deviation %.1f %%; differences "
                              "in pedal force taken out",
                              drive->compared, 100.0 * drive->scatter);
    brake_document_end(d);
}

static void fade(struct brake_document *d, const struct brake_drive *drive)
{
    const struct brake_measured *f = &drive->fade;
    const bool known = fabs(f->value) > f->half;
    brake_document_section(d, NULL, "First to last");
    if (isnan(f->value))
        brake_document_say(d, NULL, NULL, "cannot say: three stops that count are needed");
    else
        brake_document_say_in(
            d, NULL, NULL,
            "%s from first to last: %+.1f %%, 90 of 100 within %+.1f to %+.1f %%; %s",
            drive->compared > 0 ? "measured over predicted" : "deceleration", 100.0 * f->value,
            100.0 * (f->value - f->half), 100.0 * (f->value + f->half),
            !known           ? "no trend that the log could show"
            : f->value < 0.0 ? "the brakes FADE"
                             : "the brakes get better, as pads that bed in do");
    brake_document_end(d);
}

static const char *friction_of(struct brake_document *d, const struct brake_drive_report *r)
{
    const struct brake_measured *f = &r->drive->friction;
    const char *all;
    if (isnan(f->value))
        return r->drive->compared == 0
                   ? "cannot say without pedal force or pressure"
                   : "cannot say: the tyres limited every stop, or no friction between a tenth and "
                     "three times that of the file explains it";
    all = brake_document_words(
        d,
        "%.2f times that of the file on both axles, 90 of 100 within %.2f to %.2f, the other "
        "lines being as the file has them",
        f->value, f->value - f->half, f->value + f->half);
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        const struct brake_axle_of_vehicle *at = &r->sheet->vehicle.axle[axle];
        const double mu = at->axle.brake == BRAKE_DISC ? at->pads.mu : at->lining.mu;
        if (!isnan(mu))
            all = brake_document_words(d, "%s; %s mu %.3f in place of %.3f", all,
                                       brake_axle_word((enum brake_axle)axle), f->value * mu, mu);
    }
    return all;
}

/* ---- the whole ------------------------------------------------------------------------------ */

static void take_results(const struct brake_drive *drive, struct brake_study_results *value,
                         struct brake_study_results *half)
{
    value->drive.measured_deceleration = drive->measured.value;
    half->drive.measured_deceleration = drive->measured.half;
    value->drive.predicted_deceleration = drive->predicted.value;
    half->drive.predicted_deceleration = drive->predicted.half;
    value->drive.friction_factor = drive->friction.value;
    half->drive.friction_factor = drive->friction.half;
    value->drive.fade = drive->fade.value;
    half->drive.fade = drive->fade.half;
    value->drive.scatter = drive->scatter;
    half->drive.scatter = BRAKE_NAN; /* not known */
}

static void result_row(struct brake_document *d, int index, double value, double half)
{
    const struct brake_result *row = brake_result_at(index);
    brake_document_row(d, (const struct brake_cell[]){
                              brake_cell_text(row->name), brake_cell_number(value, NULL),
                              brake_part_si(row->dimension), brake_cell_number(value - half, NULL),
                              brake_cell_number(value + half, NULL)});
}

/* For programs: every result under its name. */
static void results(struct brake_document *d, const struct brake_drive *drive)
{
    static const struct brake_column column[] = {{"name", NULL, BRAKE_COLUMN},
                                                 {"value", NULL, BRAKE_COLUMN},
                                                 {"unit", NULL, BRAKE_COLUMN},
                                                 {"p05", NULL, BRAKE_COLUMN},
                                                 {"p95", NULL, BRAKE_COLUMN}};
    struct brake_study_results value;
    struct brake_study_results half;
    take_results(drive, &value, &half);
    brake_document_table(
        d, &(struct brake_table){.key = "results", .keyed = true, .column = column, .columns = 5});
    for (int i = brake_result_count(); i < brake_result_all(); i++) {
        if (brake_result_at(i)->group == BRAKE_OF_DRIVE)
            result_row(d, i, brake_study_value(&value, i), brake_study_value(&half, i));
    }
}

static struct brake_cell day_cell(const struct brake_measured *m, enum brake_dimension dimension)
{
    return brake_part_measured(m, brake_unit_si(dimension), BRAKE_FOUR_DIGITS);
}

static void summary(struct brake_document *d, const struct brake_drive_report *r)
{
    const struct brake_drive *drive = r->drive;
    brake_document_section(d, "summary", NULL);
    brake_document_fact(d, "agreement", NULL, brake_cell_text(agreements[drive->agreement].id));
    brake_document_say(d, "verdict", "Verdict", verdict_of(d, drive));
    brake_document_say(d, NULL, "Do", what_follows[drive->agreement]);
    brake_document_say(d, NULL, "Log", log_of(d, r));
    brake_document_fact(d, "load", NULL, brake_cell_text(brake_load_word(r->load)));
    brake_document_fact(d, "stops", NULL, brake_cell_count(drive->stops));
    brake_document_fact(d, "counted", NULL, brake_cell_count(drive->counted));
    brake_document_fact(d, "compared", NULL, brake_cell_count(drive->compared));
    brake_document_fact(d, "gentle", NULL, brake_cell_count(drive->gentle));
    brake_document_fact(d, "distance_from_pedal", NULL, brake_cell_truth(drive->timed));
    brake_document_fact(d, "both_ways", NULL, brake_cell_truth(drive->both_ways));
    brake_document_fact(d, "grade", NULL, day_cell(&drive->day.grade, BRAKE_RATIO));
    brake_document_fact(d, "lag", NULL, day_cell(&drive->day.lag, BRAKE_TIME));
    brake_document_fact(d, "gauge", NULL, day_cell(&drive->day.gauge, BRAKE_RATIO));
    brake_document_end(d);
}

/* Whether the brakes are enough no stop that agrees can tell. */
static void say_now(struct brake_document *d, const struct brake_drive_report *r)
{
    if (r->now == NULL)
        return;
    brake_document_section(d, "now", NULL);
    brake_document_fact(d, "verdict", NULL, brake_cell_text(brake_verdict_words(r->now->verdict)));
    brake_document_say(d, NULL, "Now", brake_part_now(d, &r->sheet->vehicle, r->now, false));
    brake_document_end(d);
}

void brake_part_drive(struct brake_document *d, const struct brake_drive_report *r)
{
    summary(d, r);
    say_now(d, r);
    brake_document_section(d, NULL, "Stop by stop");
    stops(d, r);
    method(d, r);
    brake_document_end(d);
    repeats(d, r->drive);
    fade(d, r->drive);
    brake_document_section(d, NULL, "Friction that would explain what was measured");
    brake_document_say(d, NULL, NULL, friction_of(d, r));
    brake_document_end(d);
    brake_part_notes(d, &r->log->aside);
}

void brake_answer_drive(struct brake_document *document, const struct brake_drive_report *report)
{
    brake_document_head(document, "A measured drive beside the prediction",
                        brake_part_name(report->sheet));
    brake_part_drive(document, report);
    results(document, report->drive);
    brake_part_known(document, report->sheet);
}
