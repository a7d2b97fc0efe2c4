/* The answer of `heat`: how hot the brakes get, whether the driver holds what is asked for, whether the
 * fluid boils. */
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "brake/criteria.h"
#include "brake/warnings.h"
#include "parts.h"
#include "vehicle/text.h"

static double celsius(double temperature)
{
    return temperature - 273.15;
}

static double kmh(double speed)
{
    return 3.6 * speed;
}

/* ---- what was done, in words ---------------------------------------------------------------- */

static void held_of(const struct brake_duty *duty, char *text, size_t size)
{
    switch (duty->stops.manner) {
    case BRAKE_HOLDS_DECELERATION:
        brake_text_format(text, size, "at %.3g m/s2", duty->stops.deceleration);
        break;
    case BRAKE_HOLDS_FORCE:
        brake_text_format(text, size, "at %.0f N on the pedal", duty->force);
        break;
    case BRAKE_AT_THE_VERGE:
        brake_text_format(text, size, "as hard as tyres and %.0f N on the pedal allow",
                          duty->force);
        break;
    }
}

static void stops_of(const struct brake_duty *duty, char *text, size_t size)
{
    const struct brake_stops *stops = &duty->stops;
    const char *word = stops->to > 0.0 ? "snub" : "stop";
    char held[80];
    held_of(duty, held, sizeof held);
    if (stops->count == 1)
        brake_text_format(text, size, "one %s from %.4g km/h to %.4g km/h, %s", word,
                          kmh(stops->from), kmh(stops->to), held);
    else
        brake_text_format(text, size, "%d %ss from %.4g km/h to %.4g km/h %s, one every %.4g s",
                          stops->count, word, kmh(stops->from), kmh(stops->to), held,
                          stops->interval);
}

static void braking_of(const struct brake_duty_report *r, char *text, size_t size)
{
    const struct brake_descent *descent = &r->duty->descent;
    switch (r->duty->kind) {
    case BRAKE_DUTY_STOPS:
        stops_of(r->duty, text, size);
        break;
    case BRAKE_DUTY_DESCENT:
        brake_text_format(text, size,
                          "down %.4g %% for %.4g km at %.4g km/h, %.3g %% of it held by the engine",
                          100.0 * descent->grade, descent->length / 1e3, kmh(descent->speed),
                          100.0 * descent->engine);
        break;
    case BRAKE_DUTY_CYCLE:
        brake_text_format(
            text, size, "a drive of %d rows, %.4g s%s", r->duty->cycle.count, r->result->duration,
            r->written != NULL && r->written->level ? ", on a level road: the file has no grade"
                                                    : "");
        break;
    case BRAKE_DUTY_REST:
        brake_text_format(text, size, "brakes off");
        break;
    }
}

static void published_of(const struct brake_duty *duty, char *text, size_t size)
{
    const struct brake_fade_sequence *sequence = duty->stops.sequence;
    text[0] = '\0';
    if (duty->kind == BRAKE_DUTY_STOPS && sequence != NULL)
        brake_text_format(text, size, ", brakes %.0f degC at first; as heated in %s (%s)",
                          celsius(sequence->start), sequence->clause, sequence->text);
}

static void rest_of(const struct brake_duty *duty, char *text, size_t size)
{
    text[0] = '\0';
    if (duty->rest > 0.0)
        brake_text_format(text, size, "; then %.4g min at %.4g km/h", duty->rest / 60.0,
                          kmh(duty->rest_speed));
}

void brake_part_duty(const struct brake_duty_report *r, char text[BRAKE_DUTY_WORDS])
{
    char braking[200];
    char published[200];
    char rest[60];
    braking_of(r, braking, sizeof braking);
    published_of(r->duty, published, sizeof published);
    rest_of(r->duty, rest, sizeof rest);
    brake_text_format(text, BRAKE_DUTY_WORDS, "%s; load %s, %.0f kg; air %.0f degC%s%s", braking,
                      brake_load_word(r->load), r->hot->rig.balance.body.mass,
                      celsius(r->hot->rig.air), published, rest);
}

static const char *verdict_of(struct brake_document *d, const struct brake_duty_report *r)
{
    const struct brake_duty_result *result = r->result;
    const bool boils = result->fluid_margin < 0.0;
    return brake_document_words(d, "%s%s; the fluid %s %.0f K %s its wet boiling point (%.0f degC)",
                                brake_duty_stood(result) ? "" : "FALLS SHORT: ",
                                result->held ? "the driver holds what is asked for"
                                             : "the driver does not hold what is asked for",
                                boils ? "gets" : "stays", fabs(result->fluid_margin),
                                boils ? "above" : "below", celsius(r->hot->boiling));
}

/* ---- numbers -------------------------------------------------------------------------------- */

struct figure {
    const char *name;
    size_t offset;
    enum brake_dimension dimension;
    const char *unit;
    const char *words;
};

#define OF_AXLE(member) offsetof(struct brake_duty_heat, member)
#define OF_ALL(member) offsetof(struct brake_duty_result, member)

static const struct figure of_axle[] = {
    {"rotor_peak", OF_AXLE(face_most), BRAKE_TEMPERATURE, "degC", "rubbed face, hottest"},
    {"rotor_final", OF_AXLE(face_last), BRAKE_TEMPERATURE, "degC", "rubbed face, at the end"},
    {"rotor_mean_peak", OF_AXLE(mean_most), BRAKE_TEMPERATURE, "degC", "rotor or drum, hottest"},
    {"rotor_mean_final", OF_AXLE(mean_last), BRAKE_TEMPERATURE, "degC",
     "rotor or drum, at the end"},
    {"pad_peak", OF_AXLE(pad_most), BRAKE_TEMPERATURE, "degC", "pads or linings, hottest"},
    {"pad_final", OF_AXLE(pad_last), BRAKE_TEMPERATURE, "degC", "pads or linings, at the end"},
    {"fluid_peak", OF_AXLE(fluid_most), BRAKE_TEMPERATURE, "degC", "fluid, hottest"},
    {"fluid_final", OF_AXLE(fluid_last), BRAKE_TEMPERATURE, "degC", "fluid, at the end"},
    {"stress_peak", OF_AXLE(stress_most), BRAKE_PRESSURE, "MPa", "stress of the face"},
    {"energy", OF_AXLE(energy), BRAKE_ENERGY, "MJ", "heat into both brakes"},
};

enum { ROWS_OF_AXLE = sizeof of_axle / sizeof of_axle[0] };

/* Words NULL: for programs. */
static const struct figure of_all[] = {
    {"pedal_force_first", OF_ALL(force_first), BRAKE_FORCE, "N", "pedal force, first"},
    {"pedal_force_last", OF_ALL(force_last), BRAKE_FORCE, "N", "pedal force, last"},
    {"pedal_force_most", OF_ALL(force_most), BRAKE_FORCE, "N", "pedal force, largest"},
    {"distance", OF_ALL(distance), BRAKE_LENGTH, "m", "distance of the last stop"},
    {"developed_deceleration", OF_ALL(developed), BRAKE_ACCELERATION, "m/s2",
     "mean fully developed deceleration"},
    {"shortfall", OF_ALL(shortfall), BRAKE_ACCELERATION, "m/s2", "deceleration that was missing"},
    {"fluid_margin", OF_ALL(fluid_margin), BRAKE_RISE, "K", "fluid below its wet boiling point"},
    {"stress_share", OF_ALL(stress_share), BRAKE_RATIO, "%", "stress over tensile strength"},
    {"energy_residual", OF_ALL(residual), BRAKE_RATIO, "", NULL},
    {"duration", OF_ALL(duration), BRAKE_TIME, "s", "time, rest aside"},
};

enum { ROWS_OF_ALL = sizeof of_all / sizeof of_all[0] };

static struct brake_cell cell_of(const struct figure *figure, const void *from)
{
    double value;
    memcpy(&value, (const char *)from + figure->offset, sizeof value);
    return brake_cell_number(value, brake_unit_of(figure->unit, figure->dimension));
}

/* A rise has no zero of its own. */
static struct brake_cell rise_of(const struct brake_duty_report *r, int axle)
{
    return brake_cell_number(r->result->axle[axle].mean_most - r->hot->rig.air,
                             brake_unit_si(BRAKE_RISE));
}

static void axles(struct brake_document *d, const struct brake_duty_report *r)
{
    static const struct brake_column column[] = {{NULL, "one brake of an axle", BRAKE_COLUMN},
                                                 {NULL, "front", BRAKE_COLUMN},
                                                 {NULL, "rear", BRAKE_COLUMN}};
    brake_document_table(d, &(struct brake_table){.column = column, .columns = 3});
    for (int i = 0; i < ROWS_OF_AXLE; i++)
        brake_document_row(
            d, (const struct brake_cell[]){brake_cell_text(of_axle[i].words),
                                           cell_of(&of_axle[i], &r->result->axle[BRAKE_FRONT]),
                                           cell_of(&of_axle[i], &r->result->axle[BRAKE_REAR])});
    brake_document_row(d, (const struct brake_cell[]){brake_cell_text("rise of rotor or drum"),
                                                      rise_of(r, BRAKE_FRONT),
                                                      rise_of(r, BRAKE_REAR)});
}

static void whole(struct brake_document *d, const struct brake_duty_report *r)
{
    for (int i = 0; i < ROWS_OF_ALL; i++) {
        const struct brake_cell cell = cell_of(&of_all[i], r->result);
        const bool stops = r->duty->kind == BRAKE_DUTY_STOPS || of_all[i].dimension != BRAKE_LENGTH;
        if (isfinite(cell.number) && cell.number != 0.0 && of_all[i].words != NULL && stops)
            brake_document_fact(d, NULL, of_all[i].words, cell);
    }
    if (r->result->locked)
        brake_document_say(d, NULL, NULL, "An axle reached the limit of grip.");
}

/* For programs: every figure under its name. */
static void results(struct brake_document *d, const struct brake_duty_report *r)
{
    char name[64];
    brake_part_numbers(d);
    for (int i = 0; i < ROWS_OF_ALL; i++) {
        brake_text_format(name, sizeof name, "heat.%s", of_all[i].name);
        brake_part_number(d, name, cell_of(&of_all[i], r->result));
    }
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        for (int i = 0; i < ROWS_OF_AXLE; i++) {
            brake_text_format(name, sizeof name, "heat.%s.%s",
                              brake_axle_word((enum brake_axle)axle), of_axle[i].name);
            brake_part_number(d, name, cell_of(&of_axle[i], &r->result->axle[axle]));
        }
    }
    brake_part_number(d, "heat.fluid_boiling",
                      brake_cell_number(r->hot->boiling, brake_unit_of("degC", BRAKE_TEMPERATURE)));
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

static void chart_line(double column[BRAKE_AXLES][CHART_COLUMNS], double step, int line,
                       FILE *stream)
{
    char marks[CHART_COLUMNS + 1] = "";
    int used = 0;
    for (int i = 0; i < CHART_COLUMNS; i++) {
        const bool front = (int)ceil(celsius(column[BRAKE_FRONT][i]) / step) == line;
        const bool rear = (int)ceil(celsius(column[BRAKE_REAR][i]) / step) == line;
        marks[i] = " FR*"[(front ? 1 : 0) + (rear ? 2 : 0)];
        used = marks[i] != ' ' ? i + 1 : used;
    }
    brake_text_print(stream, "  %4.0f degC |%.*s\n", step * line, used, marks);
}

static void chart(const void *context, FILE *stream)
{
    const struct brake_duty_report *report = context;
    const double total = report->rows > 0 ? report->row[report->rows - 1].time : 0.0;
    double column[BRAKE_AXLES][CHART_COLUMNS];
    double top = 0.0;
    if (!(total > 0.0))
        return;
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        fill_columns(report, axle, total, column[axle]);
        top = fmax(top, celsius(report->result->axle[axle].face_most));
    }
    top = 100.0 * ceil(top / 100.0);
    fputs("\nRubbed face over time: F front, R rear, * both\n", stream);
    for (int line = CHART_LINES; line > 0; line--)
        chart_line(column, top / (double)CHART_LINES, line, stream);
    char end[32];
    brake_text_format(end, sizeof end, "%.4g s", total);
    brake_text_print(stream, "%12s0 s%*s\n", "", CHART_COLUMNS - 3, end);
}

/* ---- the whole ------------------------------------------------------------------------------ */

void brake_part_heat(struct brake_document *d, const struct brake_duty_report *r)
{
    axles(d, r);
    whole(d, r);
    brake_document_figure(d, (struct brake_figure_of){.sketch = chart, .context = r});
}

void brake_part_duty_of(struct brake_document *d, const struct brake_duty_report *r)
{
    char duty[BRAKE_DUTY_WORDS];
    brake_part_duty(r, duty);
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
    brake_part_duty(report, duty);
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
    results(document, report);
    brake_part_warnings(document, warning, count);
    brake_part_notes(document, report->written != NULL ? &report->written->aside : &none);
    brake_part_known(document, report->sheet);
}

void brake_answer_history(struct brake_document *document, const struct brake_duty_report *report)
{
    static const struct brake_column column[] = {
        {"time", "time", BRAKE_COLUMN},
        {"speed", "speed", BRAKE_COLUMN},
        {"deceleration", "deceleration", BRAKE_COLUMN},
        {"pedal force", "pedal force", BRAKE_COLUMN},
        {"pressure", "pressure", BRAKE_COLUMN},
        {"front face", "front face", BRAKE_COLUMN},
        {"front mean", "front mean", BRAKE_COLUMN},
        {"front pad", "front pad", BRAKE_COLUMN},
        {"front fluid", "front fluid", BRAKE_COLUMN},
        {"front work", "front work", BRAKE_COLUMN},
        {"rear face", "rear face", BRAKE_COLUMN},
        {"rear mean", "rear mean", BRAKE_COLUMN},
        {"rear pad", "rear pad", BRAKE_COLUMN},
        {"rear fluid", "rear fluid", BRAKE_COLUMN},
        {"rear work", "rear work", BRAKE_COLUMN},
    };
    const struct brake_unit *degrees = brake_unit_of("degC", BRAKE_TEMPERATURE);
    const struct brake_unit *work = brake_unit_find("kJ");
    enum { COLUMNS = sizeof column / sizeof column[0], OF_DRIVE = 5 };
    brake_document_head(document, "Heat of the brakes over time", brake_part_name(report->sheet));
    brake_document_table(
        document, &(struct brake_table){.key = "history", .column = column, .columns = COLUMNS});
    for (long i = 0; i < report->rows; i++) {
        const struct brake_duty_row *row = &report->row[i];
        struct brake_cell cells[COLUMNS] = {
            brake_cell_number(row->time, brake_unit_si(BRAKE_TIME)),
            brake_cell_number(row->speed, brake_unit_find("km/h")),
            brake_cell_number(row->deceleration, brake_unit_si(BRAKE_ACCELERATION)),
            brake_cell_number(row->pedal_force, brake_unit_si(BRAKE_FORCE)),
            brake_cell_number(row->pressure, brake_unit_find("bar"))};
        for (int axle = 0, at = OF_DRIVE; axle < BRAKE_AXLES; axle++) {
            cells[at++] = brake_cell_number(row->face[axle], degrees);
            cells[at++] = brake_cell_number(row->mean[axle], degrees);
            cells[at++] = brake_cell_number(row->pad[axle], degrees);
            cells[at++] = brake_cell_number(row->fluid[axle], degrees);
            cells[at++] = brake_cell_number(row->work[axle], work);
        }
        brake_document_row(document, cells);
    }
}
