/* SPDX-License-Identifier: MIT */
/* The answer of `heat`: how hot the brakes get, whether the driver holds what is asked for, whether
 * the fluid boils. */
#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "brake/criteria.h"
#include "brake/warnings.h"
#include "parts.h"
#include "vehicle/text.h"
#include "study/duty_results.h"
#include "study/sequences.h"

/* ---- what was done, in words ---------------------------------------------------------------- */

/* A text that grows by words and amounts. */
struct words {
    char *text;
    size_t size;
    enum brake_systems systems;
};

__attribute__((format(printf, 2, 3))) static void add(const struct words *w, const char *format,
                                                      ...)
{
    const size_t used = strlen(w->text);
    va_list list;
    va_start(list, format);
    brake_text_format_list(w->text + used, w->size - used, format, list);
    va_end(list);
}

static void add_amount(const struct words *w, const char *before, double value, const char *unit,
                       enum brake_form form)
{
    const struct brake_cell cell = brake_cell_form(value, brake_unit_find(unit), form);
    char amount[BRAKE_CELL_WORDS];
    brake_cell_words(&cell, w->systems, amount, sizeof amount);
    add(w, "%s%s", before, amount);
}

static void add_held(const struct brake_duty *duty, const struct words *w)
{
    switch (duty->stops.manner) {
    case BRAKE_HOLDS_DECELERATION:
        add_amount(w, " at ", duty->stops.deceleration, "m/s2", BRAKE_THREE_DIGITS);
        if (duty->stops.sequence != NULL && duty->stops.sequence->same_force)
            add(w, " in the first, its pedal force held in the others");
        break;
    case BRAKE_HOLDS_FORCE:
        add_amount(w, " at ", duty->force, "N", BRAKE_WHOLE);
        add(w, " on the pedal");
        break;
    case BRAKE_AT_INCIPIENT_LOCK:
        add_amount(w, " as hard as tyres and ", duty->force, "N", BRAKE_WHOLE);
        add(w, " on the pedal allow");
        break;
    }
}

static void add_stops(const struct brake_duty *duty, const struct words *w)
{
    const struct brake_stops *stops = &duty->stops;
    const char *word = stops->to > 0.0 ? "snub" : "stop";
    if (stops->count == 1)
        add(w, "one %s from ", word);
    else
        add(w, "%d %ss from ", stops->count, word);
    add_amount(w, "", stops->from, "km/h", BRAKE_FOUR_DIGITS);
    add_amount(w, " to ", stops->to, "km/h", BRAKE_FOUR_DIGITS);
    add(w, stops->count == 1 ? "," : "");
    add_held(duty, w);
    if (stops->count > 1)
        add(w, ", one every %.4g s", stops->interval);
}

static void add_braking(const struct brake_duty_report *r, const struct words *w)
{
    const struct brake_descent *descent = &r->duty->descent;
    switch (r->duty->kind) {
    case BRAKE_DUTY_STOPS:
        add_stops(r->duty, w);
        break;
    case BRAKE_DUTY_DESCENT:
        add(w, "down %.4g %%", 100.0 * descent->fall);
        add_amount(w, " for ", descent->length, "km", BRAKE_FOUR_DIGITS);
        add_amount(w, " at ", descent->speed, "km/h", BRAKE_FOUR_DIGITS);
        add(w, ", %.3g %% of it held by the engine", 100.0 * descent->engine);
        break;
    case BRAKE_DUTY_CYCLE:
        add(w, "a drive of %d rows, %.4g s%s", r->duty->cycle.count, r->result->duration,
            r->written != NULL && r->written->level ? ", on a level road: the file has no grade"
                                                    : "");
        break;
    case BRAKE_DUTY_REST:
        add(w, "brakes off");
        break;
    }
}

static void add_published(const struct brake_duty *duty, const struct words *w)
{
    const struct brake_fade_sequence *sequence = duty->stops.sequence;
    if (duty->kind != BRAKE_DUTY_STOPS || sequence == NULL)
        return;
    add_amount(w, ", brakes ", sequence->start, "degC", BRAKE_WHOLE);
    add(w, " at first; as heated in %s (%s)", sequence->clause, sequence->text);
}

static void add_rest(const struct brake_duty *duty, const struct words *w)
{
    if (!(duty->rest > 0.0))
        return;
    add(w, "; then %.4g min", duty->rest / 60.0);
    add_amount(w, " at ", duty->rest_speed, "km/h", BRAKE_FOUR_DIGITS);
}

void brake_part_duty(const struct brake_duty_report *r, enum brake_systems systems,
                     char text[BRAKE_DUTY_WORDS])
{
    const struct words w = {text, BRAKE_DUTY_WORDS, systems};
    text[0] = '\0';
    add_braking(r, &w);
    add(&w, "; load %s, ", brake_load_word(r->load));
    add_amount(&w, "", r->hot->rig.balance.body.mass, "kg", BRAKE_WHOLE);
    add_amount(&w, "; air ", r->hot->rig.air, "degC", BRAKE_WHOLE);
    add_published(r->duty, &w);
    add_rest(r->duty, &w);
}

static const char *verdict_of(struct brake_document *d, const struct brake_duty_report *r)
{
    const struct brake_duty_result *result = r->result;
    const bool boils = result->fluid_margin < 0.0;
    const char *margin = brake_document_amount(
        d, brake_cell_form(fabs(result->fluid_margin), brake_unit_si(BRAKE_RISE), BRAKE_WHOLE));
    const char *boiling = brake_document_amount(
        d, brake_cell_form(r->hot->boiling, brake_unit_find("degC"), BRAKE_WHOLE));
    const char *force = brake_document_amount(
        d, brake_cell_form(r->duty->force, brake_unit_find("N"), BRAKE_WHOLE));
    return brake_document_words(d,
                                "%s%s %s the deceleration asked for; the fluid %s %s %s its wet "
                                "boiling point, %s",
                                brake_duty_stood(result) ? "" : "FALLS SHORT: ", force,
                                result->held ? "hold" : "do not hold", boils ? "gets" : "stays",
                                margin, boils ? "above" : "below", boiling);
}

/* ---- numbers -------------------------------------------------------------------------------- */

static void axles(struct brake_document *d, const struct brake_study_results *results)
{
    static const char *const rows[][3] = {
        {"rubbed face, hottest", "heat.front_face", "heat.rear_face"},
        {"rubbed face, at the end", "heat.front_face_last", "heat.rear_face_last"},
        {"rotor or drum, hottest", "heat.front_rotor", "heat.rear_rotor"},
        {"rotor or drum, at the end", "heat.front_rotor_last", "heat.rear_rotor_last"},
        {"pads or linings, hottest", "heat.front_pad", "heat.rear_pad"},
        {"pads or linings, at the end", "heat.front_pad_last", "heat.rear_pad_last"},
        {"fluid, hottest", "heat.front_fluid", "heat.rear_fluid"},
        {"fluid, at the end", "heat.front_fluid_last", "heat.rear_fluid_last"},
        {"stress of the face", "heat.front_stress", "heat.rear_stress"},
        {"heat into both brakes", "heat.front_energy", "heat.rear_energy"},
        {"rise of rotor or drum", "heat.front_rotor_rise", "heat.rear_rotor_rise"}};
    static const struct brake_column column[] = {{NULL, "one brake of an axle", BRAKE_COLUMN},
                                                 {NULL, "front", BRAKE_COLUMN},
                                                 {NULL, "rear", BRAKE_COLUMN}};
    brake_document_table(d, &(struct brake_table){.column = column, .columns = 3});
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        brake_document_row(d, (const struct brake_cell[]){
                                  brake_cell_text(rows[i][0]),
                                  brake_part_study(results, brake_result_find(rows[i][1])),
                                  brake_part_study(results, brake_result_find(rows[i][2]))});
}

static void whole(struct brake_document *d, const struct brake_duty_report *r,
                  const struct brake_study_results *results)
{
    static const char *const rows[][2] = {
        {"pedal force, first", "heat.pedal_force_first"},
        {"pedal force, last", "heat.pedal_force_last"},
        {"pedal force, largest", "heat.pedal_force_most"},
        {"distance of the last stop", "heat.distance"}, /* of stops only */
        {"mean fully developed deceleration", "heat.developed_deceleration"},
        {"deceleration that was missing", "heat.shortfall"},
        {"fluid below its wet boiling point", "heat.fluid_margin"},
        {"stress over tensile strength", "heat.stress_share"},
        {"time, rest aside", "heat.duration"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const int index = brake_result_find(rows[i][1]);
        const struct brake_cell cell = brake_part_study(results, index);
        const bool stops =
            r->duty->kind == BRAKE_DUTY_STOPS || cell.unit->dimension != BRAKE_LENGTH;
        if (isfinite(cell.number) && cell.number != 0.0 && stops)
            brake_document_fact(d, NULL, rows[i][0], cell);
    }
    if (r->result->locked)
        brake_document_say(d, NULL, NULL, "An axle reached the limit of grip.");
}

/* For programs: every result under its name. */
static void results_by_name(struct brake_document *d, const struct brake_duty_report *r)
{
    struct brake_study_results results;
    brake_duty_results(r->hot, r->result, &results);
    brake_part_numbers(d);
    for (int i = brake_result_count(); i < brake_result_all(); i++) {
        if (brake_result_at(i)->group == BRAKE_OF_HEAT)
            brake_part_number(d, brake_result_at(i)->name, brake_part_study(&results, i));
    }
}

/* ---- chart ---------------------------------------------------------------------------------- */

enum { CHART_COLUMNS = 66, CHART_LINES = 10 };

/* Hottest face in each column; a column without a row is as the one before it. */
static void fill_columns(const struct brake_duty_report *report, int axle, double total,
                         double column[CHART_COLUMNS])
{
    for (int i = 0; i < CHART_COLUMNS; i++)
        column[i] = 0.0;
    for (long i = 0; i < report->rows; i++) {
        const double place = report->row[i].time / total * (double)CHART_COLUMNS;
        const int at = place < CHART_COLUMNS - 1 ? (int)place : CHART_COLUMNS - 1;
        column[at] = fmax(column[at], report->row[i].face[axle]);
    }
    for (int i = 1; i < CHART_COLUMNS; i++)
        column[i] = column[i] > 0.0 ? column[i] : column[i - 1];
}

/* Steps and lines are of the unit. */
static void chart_line(double column[BRAKE_AXLES][CHART_COLUMNS], const struct brake_unit *unit,
                       double step, int line, FILE *stream)
{
    char marks[CHART_COLUMNS + 1] = "";
    int used = 0;
    for (int i = 0; i < CHART_COLUMNS; i++) {
        const bool front =
            (int)ceil(brake_unit_from_si(unit, column[BRAKE_FRONT][i]) / step) == line;
        const bool rear = (int)ceil(brake_unit_from_si(unit, column[BRAKE_REAR][i]) / step) == line;
        marks[i] = " FR*"[(front ? 1 : 0) + (rear ? 2 : 0)];
        used = marks[i] != ' ' ? i + 1 : used;
    }
    brake_text_print(stream, "  %4.0f %s |%.*s\n", step * line, unit->name, used, marks);
}

static void chart(const void *context, enum brake_systems systems, FILE *stream)
{
    const struct brake_duty_report *report = context;
    const double total = report->rows > 0 ? report->row[report->rows - 1].time : 0.0;
    const struct brake_cell cell = brake_cell_number(0.0, brake_unit_find("degC"));
    const struct brake_unit *unit[2];
    double column[BRAKE_AXLES][CHART_COLUMNS];
    double top = 0.0;
    (void)brake_cell_units(&cell, systems, unit);
    if (!(total > 0.0))
        return;
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        fill_columns(report, axle, total, column[axle]);
        top = fmax(top, brake_unit_from_si(unit[0], report->result->axle[axle].face_most));
    }
    top = 100.0 * ceil(top / 100.0);
    fputs("\nRubbed face over time: F front, R rear, * both\n", stream);
    for (int line = CHART_LINES; line > 0; line--)
        chart_line(column, unit[0], top / (double)CHART_LINES, line, stream);
    char end[32];
    brake_text_format(end, sizeof end, "%.4g s", total);
    brake_text_print(stream, "%12s0 s%*s\n", "", CHART_COLUMNS - 3, end);
}

/* ---- the whole ------------------------------------------------------------------------------ */

void brake_part_heat(struct brake_document *d, const struct brake_duty_report *r)
{
    struct brake_study_results results;
    brake_duty_results(r->hot, r->result, &results);
    axles(d, &results);
    whole(d, r, &results);
    brake_document_figure(d, (struct brake_figure_of){.sketch = chart, .context = r});
}

void brake_part_duty_of(struct brake_document *d, const struct brake_duty_report *r)
{
    char duty[BRAKE_DUTY_WORDS];
    brake_part_duty(r, d->systems, duty);
    brake_document_say(d, NULL, "Verdict", verdict_of(d, r));
    brake_document_say(d, NULL, "Duty", duty);
    brake_part_heat(d, r);
}

void brake_answer_heat(struct brake_document *document, const struct brake_duty_report *report)
{
    static const struct brake_notes none = {.count = 0};
    struct brake_warning warning[BRAKE_DUTY_WARNINGS];
    const int count = brake_duty_warnings(report->hot, report->duty, report->result, warning);
    char duty[BRAKE_DUTY_WORDS];
    brake_part_duty(report, document->systems, duty);
    brake_document_head(document, "Heat of the brakes", brake_part_name(report->sheet));
    brake_document_section(document, "summary", NULL);
    brake_document_say(document, "verdict", "Verdict", verdict_of(document, report));
    brake_document_say(document, "duty", "Duty", duty);
    brake_document_fact(document, "load", NULL, brake_cell_text(brake_load_word(report->load)));
    brake_document_fact(document, "held", NULL, brake_cell_truth(report->result->held));
    brake_document_fact(document, "stood", NULL,
                        brake_cell_truth(brake_duty_stood(report->result)));
    brake_document_fact(document, "limit_of_adhesion", NULL,
                        brake_cell_truth(report->result->locked));
    brake_document_end(document);
    brake_document_section(document, NULL, "Heat");
    brake_part_heat(document, report);
    brake_document_end(document);
    results_by_name(document, report);
    brake_part_warnings(document, warning, count);
    brake_part_notes(document, report->written != NULL ? &report->written->aside : &none);
    brake_part_known(document, report->sheet);
}

void brake_answer_history(struct brake_document *document, const struct brake_duty_report *report)
{
    static const struct brake_column column[] = {
        {"time", "time", BRAKE_COLUMN},
        {"distance", "distance", BRAKE_COLUMN},
        {"speed", "speed", BRAKE_COLUMN},
        {"deceleration", "deceleration", BRAKE_COLUMN},
        {"pedal force", "pedal force", BRAKE_COLUMN},
        {"pressure", "pressure", BRAKE_COLUMN},
        {"front brake pressure", "front brake pressure", BRAKE_COLUMN},
        {"front torque", "front torque", BRAKE_COLUMN},
        {"front force", "front force", BRAKE_COLUMN},
        {"front face", "front face", BRAKE_COLUMN},
        {"front mean", "front mean", BRAKE_COLUMN},
        {"front pad", "front pad", BRAKE_COLUMN},
        {"front fluid", "front fluid", BRAKE_COLUMN},
        {"front work", "front work", BRAKE_COLUMN},
        {"rear brake pressure", "rear brake pressure", BRAKE_COLUMN},
        {"rear torque", "rear torque", BRAKE_COLUMN},
        {"rear force", "rear force", BRAKE_COLUMN},
        {"rear face", "rear face", BRAKE_COLUMN},
        {"rear mean", "rear mean", BRAKE_COLUMN},
        {"rear pad", "rear pad", BRAKE_COLUMN},
        {"rear fluid", "rear fluid", BRAKE_COLUMN},
        {"rear work", "rear work", BRAKE_COLUMN},
    };
    const struct brake_unit *degrees = brake_unit_of("degC", BRAKE_TEMPERATURE);
    const struct brake_unit *work = brake_unit_find("kJ");
    enum { COLUMNS = sizeof column / sizeof column[0], OF_DRIVE = 6 };
    brake_document_head(document, "Heat of the brakes over time", brake_part_name(report->sheet));
    brake_document_table(
        document, &(struct brake_table){.key = "history", .column = column, .columns = COLUMNS});
    for (long i = 0; i < report->rows; i++) {
        const struct brake_duty_row *row = &report->row[i];
        struct brake_cell cells[COLUMNS] = {
            brake_cell_number(row->time, brake_unit_si(BRAKE_TIME)),
            brake_cell_number(row->distance, brake_unit_si(BRAKE_LENGTH)),
            brake_cell_number(row->speed, brake_unit_find("km/h")),
            brake_cell_number(row->deceleration, brake_unit_si(BRAKE_ACCELERATION)),
            brake_cell_number(row->pedal_force, brake_unit_si(BRAKE_FORCE)),
            brake_cell_number(row->pressure, brake_unit_find("bar"))};
        for (int axle = 0, at = OF_DRIVE; axle < BRAKE_AXLES; axle++) {
            cells[at++] = brake_cell_number(row->brake_pressure[axle], brake_unit_find("bar"));
            cells[at++] = brake_cell_number(row->torque[axle], brake_unit_si(BRAKE_TORQUE));
            cells[at++] = brake_cell_number(row->force[axle], brake_unit_si(BRAKE_FORCE));
            cells[at++] = brake_cell_number(row->face[axle], degrees);
            cells[at++] = brake_cell_number(row->mean[axle], degrees);
            cells[at++] = brake_cell_number(row->pad[axle], degrees);
            cells[at++] = brake_cell_number(row->fluid[axle], degrees);
            cells[at++] = brake_cell_number(row->work[axle], work);
        }
        brake_document_row(document, cells);
    }
}
