#include <math.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "brake/criteria.h"
#include "brake/report.h"
#include "brake/version.h"
#include "json.h"
#include "paragraph.h"
#include "text.h"
#include "words.h"
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

static int describe_stops(const struct brake_duty *duty, char *text, size_t size)
{
    const struct brake_stops *stops = &duty->stops;
    const char *word = stops->to > 0.0 ? "snub" : "stop";
    char held[80];
    if (stops->manner == BRAKE_HOLDS_DECELERATION)
        brake_text_format(held, sizeof held, "at %.3g m/s2", stops->deceleration);
    else if (stops->manner == BRAKE_HOLDS_FORCE)
        brake_text_format(held, sizeof held, "at %.0f N on the pedal", duty->force);
    else
        brake_text_format(held, sizeof held, "as hard as tyres and %.0f N on the pedal allow",
                          duty->force);
    if (stops->count == 1)
        return brake_text_format(text, size, "one %s from %.4g km/h to %.4g km/h, %s", word,
                                 kmh(stops->from), kmh(stops->to), held);
    return brake_text_format(text, size, "%d %ss from %.4g km/h to %.4g km/h %s, one every %.4g s",
                             stops->count, word, kmh(stops->from), kmh(stops->to), held,
                             stops->interval);
}

void brake_words_duty(const struct brake_duty_report *report, char *text, size_t size)
{
    const struct brake_duty *duty = report->duty;
    const struct brake_descent *descent = &duty->descent;
    int used;
    if (duty->kind == BRAKE_DUTY_STOPS)
        used = describe_stops(duty, text, size);
    else if (duty->kind == BRAKE_DUTY_DESCENT)
        used = brake_text_format(
            text, size, "down %.4g %% for %.4g km at %.4g km/h, %.3g %% of it held by the engine",
            100.0 * descent->grade, descent->length / 1e3, kmh(descent->speed),
            100.0 * descent->engine);
    else if (duty->kind == BRAKE_DUTY_REST)
        used = brake_text_format(text, size, "brakes off");
    else
        used = brake_text_format(text, size, "a drive of %d rows, %.4g s", duty->cycle.count,
                                 report->result->duration);
    brake_text_format(text + used, size - (size_t)used, "; load %s, %.0f kg; air %.0f degC",
                      brake_load_word(report->load), report->hot->rig.balance.body.mass,
                      celsius(report->hot->rig.air));
    used = (int)strlen(text);
    if (duty->kind == BRAKE_DUTY_STOPS && duty->stops.sequence != NULL)
        brake_text_format(text + used, size - (size_t)used,
                          ", brakes %.0f degC at first; as heated in %s (%s)",
                          celsius(duty->stops.sequence->start), duty->stops.sequence->clause,
                          duty->stops.sequence->text);
    used = (int)strlen(text);
    if (duty->rest > 0.0)
        brake_text_format(text + used, size - (size_t)used, "; then %.4g min at %.4g km/h",
                          duty->rest / 60.0, kmh(duty->rest_speed));
}

static void verdict(const struct brake_duty_report *report, FILE *stream)
{
    const struct brake_duty_result *result = report->result;
    char text[240];
    brake_text_format(
        text, sizeof text, "%s%s; the fluid %s %.0f K %s its wet boiling point (%.0f degC)",
        brake_duty_stood(result) ? "" : "FALLS SHORT: ",
        result->held ? "the driver holds what is asked for"
                     : "the driver does not hold what is asked for",
        result->fluid_margin < 0.0 ? "gets" : "stays", fabs(result->fluid_margin),
        result->fluid_margin < 0.0 ? "above" : "below", celsius(report->hot->boiling));
    brake_paragraph(stream, "Verdict   ", text);
}

/* ---- numbers -------------------------------------------------------------------------------- */

#define OF_AXLE(member) offsetof(struct brake_duty_heat, member)

static const struct {
    const char *name;
    size_t offset;
    enum brake_dimension dimension;
    const char *unit;
    const char *words;
} of_axle[] = {
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

#define OF_ALL(member) offsetof(struct brake_duty_result, member)

static const struct {
    const char *name;
    size_t offset;
    enum brake_dimension dimension;
} of_all[] = {
    {"energy_residual", OF_ALL(residual), BRAKE_RATIO},
    {"fluid_margin", OF_ALL(fluid_margin), BRAKE_RISE},
    {"stress_share", OF_ALL(stress_share), BRAKE_RATIO},
    {"pedal_force_first", OF_ALL(force_first), BRAKE_FORCE},
    {"pedal_force_last", OF_ALL(force_last), BRAKE_FORCE},
    {"pedal_force_most", OF_ALL(force_most), BRAKE_FORCE},
    {"distance", OF_ALL(distance), BRAKE_LENGTH},
    {"developed_deceleration", OF_ALL(developed), BRAKE_ACCELERATION},
    {"shortfall", OF_ALL(shortfall), BRAKE_ACCELERATION},
    {"duration", OF_ALL(duration), BRAKE_TIME},
};

enum { ROWS_OF_ALL = sizeof of_all / sizeof of_all[0] };

static double number_at(const void *from, size_t offset)
{
    double value;
    memcpy(&value, (const char *)from + offset, sizeof value);
    return value;
}

/* Below a thousandth of its unit a number is rounding. */
static double shown(double value)
{
    return fabs(value) < 1e-3 ? 0.0 : value;
}

/* Front and rear in the unit of the trade, then in the US one. */
static void line_of_axle(const struct brake_duty_result *result, int row, FILE *stream)
{
    const struct brake_unit *unit = brake_unit_of(of_axle[row].unit, of_axle[row].dimension);
    const struct brake_unit *both[] = {unit, brake_unit_us(unit->dimension)};
    brake_text_print(stream, "  %-26s", of_axle[row].words);
    for (int u = 0; u < 2; u++) {
        for (int axle = 0; axle < BRAKE_AXLES; axle++) {
            const double value = number_at(&result->axle[axle], of_axle[row].offset);
            const double number = shown(brake_unit_from_si(both[u], value));
            brake_text_print(stream, fabs(number) < 1e3 ? " %8.4g" : " %8.0f", number);
        }
        brake_text_print(stream, u == 0 ? " %-5s" : " %s", both[u]->name);
    }
    fputc('\n', stream);
}

static void numbers(const struct brake_duty_report *report, FILE *stream)
{
    const struct brake_duty_result *result = report->result;
    brake_text_print(stream, "\nOne brake of each axle\n%28s %8s %8s %5s %8s %8s\n", "", "front",
                     "rear", "", "front", "rear");
    for (int i = 0; i < ROWS_OF_AXLE; i++)
        line_of_axle(result, i, stream);
    const double front = result->axle[BRAKE_FRONT].mean_most - report->hot->rig.air;
    const double rear = result->axle[BRAKE_REAR].mean_most - report->hot->rig.air;
    const struct brake_unit *us = brake_unit_us(BRAKE_RISE);
    brake_text_print(stream, "  %-26s %8.4g %8.4g %-5s %8.4g %8.4g %s\n", "rise of rotor or drum",
                     shown(front), shown(rear), brake_unit_si(BRAKE_RISE)->name,
                     shown(front) / us->factor, shown(rear) / us->factor, us->name);
}

static void driver(const struct brake_duty_report *report, FILE *stream)
{
    const struct brake_duty_result *result = report->result;
    const double pound = brake_unit_us(BRAKE_FORCE)->factor;
    const double foot = brake_unit_find("ft")->factor;
    brake_text_print(
        stream,
        "\nDriver\n  pedal force: first %.0f N (%.0f lbf), last %.0f N (%.0f lbf), largest %.0f N "
        "(%.0f lbf)\n",
        result->force_first, result->force_first / pound, result->force_last,
        result->force_last / pound, result->force_most, result->force_most / pound);
    if (report->duty->kind == BRAKE_DUTY_STOPS)
        brake_text_print(stream, "  distance of the last one: %.1f m (%.0f ft)\n", result->distance,
                         result->distance / foot);
    if (!isnan(result->developed))
        brake_text_print(stream, "  mean fully developed deceleration: %.2f m/s2 (%.1f ft/s2)\n",
                         result->developed, result->developed / foot);
    if (result->locked)
        fputs("  an axle met the limit of adhesion\n", stream);
    brake_text_print(stream, "  energy that is not accounted for: %.1g of what was put in\n",
                     result->residual);
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
        const double place = report->row[i].time / total * CHART_COLUMNS;
        const int at = place < CHART_COLUMNS - 1 ? (int)place : CHART_COLUMNS - 1;
        column[at] = fmax(column[at], report->row[i].face[axle]);
    }
    for (int i = 1; i < CHART_COLUMNS; i++)
        column[i] = column[i] > 0.0 ? column[i] : column[i - 1];
}

static void chart(const struct brake_duty_report *report, FILE *stream)
{
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
    for (int line = CHART_LINES; line > 0; line--) {
        const double step = top / CHART_LINES;
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
    char end[32];
    brake_text_format(end, sizeof end, "%.4g s", total);
    brake_text_print(stream, "%12s0 s%*s\n", "", CHART_COLUMNS - 3, end);
}

/* ---- whole reports -------------------------------------------------------------------------- */

static void warnings(const struct brake_duty_report *report, FILE *stream)
{
    struct brake_warning warning[BRAKE_DUTY_WARNINGS];
    const int count = brake_duty_warnings(report->hot, report->duty, report->result, warning);
    fputs(count > 0 ? "\nWarnings\n" : "\nNo warnings\n", stream);
    for (int i = 0; i < count; i++)
        brake_paragraph(stream, "  ! ", warning[i].text);
}

void brake_text_duty_head(const struct brake_duty_report *report, FILE *stream)
{
    char text[400];
    brake_words_duty(report, text, sizeof text);
    verdict(report, stream);
    brake_paragraph(stream, "Duty      ", text);
}

void brake_text_duty_body(const struct brake_duty_report *report, FILE *stream)
{
    numbers(report, stream);
    driver(report, stream);
    chart(report, stream);
    warnings(report, stream);
}

void brake_report_duty_text(const struct brake_duty_report *report, FILE *stream)
{
    brake_text_print(stream, "%s\n", brake_words_name(report->sheet));
    brake_text_duty_head(report, stream);
    brake_paragraph(stream, "Caution   ", BRAKE_CAUTION);
    brake_text_duty_body(report, stream);
    brake_text_end(stream);
}

void brake_report_duty_csv(const struct brake_duty_report *report, FILE *stream)
{
    fputs("time [s],speed [km/h],deceleration [m/s2],pedal force [N],pressure [bar]", stream);
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        const char *word = brake_axle_word((enum brake_axle)axle);
        brake_text_print(
            stream, ",%s face [degC],%s mean [degC],%s pad [degC],%s fluid [degC],%s work [kJ]",
            word, word, word, word, word);
    }
    fputc('\n', stream);
    for (long i = 0; i < report->rows; i++) {
        const struct brake_duty_row *row = &report->row[i];
        brake_text_print(stream, "%.2f,%.3f,%.4f,%.2f,%.3f", row->time, kmh(row->speed),
                         row->deceleration, row->pedal_force, row->pressure / 1e5);
        for (int axle = 0; axle < BRAKE_AXLES; axle++)
            brake_text_print(stream, ",%.3f,%.3f,%.3f,%.3f,%.3f", celsius(row->face[axle]),
                             celsius(row->mean[axle]), celsius(row->pad[axle]),
                             celsius(row->fluid[axle]), row->work[axle] / 1e3);
        fputc('\n', stream);
    }
}

static void add_result(cJSON *all, const char *path, double value, enum brake_dimension dimension)
{
    cJSON *one = cJSON_CreateObject();
    brake_json_number(one, "value", value);
    brake_json_text(one, "unit", brake_unit_si(dimension)->name);
    cJSON_AddItemToObject(all, path, one);
}

static cJSON *results_object(const struct brake_duty_report *report)
{
    cJSON *all = cJSON_CreateObject();
    char path[64];
    for (int i = 0; i < ROWS_OF_ALL; i++) {
        brake_text_format(path, sizeof path, "heat.%s", of_all[i].name);
        add_result(all, path, number_at(report->result, of_all[i].offset), of_all[i].dimension);
    }
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        for (int i = 0; i < ROWS_OF_AXLE; i++) {
            brake_text_format(path, sizeof path, "heat.%s.%s",
                              brake_axle_word((enum brake_axle)axle), of_axle[i].name);
            add_result(all, path, number_at(&report->result->axle[axle], of_axle[i].offset),
                       of_axle[i].dimension);
        }
    }
    add_result(all, "heat.fluid_boiling", report->hot->boiling, BRAKE_TEMPERATURE);
    return all;
}

static cJSON *summary_object(const struct brake_duty_report *report)
{
    cJSON *one = cJSON_CreateObject();
    char text[400];
    brake_words_duty(report, text, sizeof text);
    brake_json_text(one, "duty", text);
    brake_json_text(one, "load", brake_load_word(report->load));
    cJSON_AddBoolToObject(one, "held", report->result->held);
    cJSON_AddBoolToObject(one, "stood", brake_duty_stood(report->result));
    cJSON_AddBoolToObject(one, "limit_of_adhesion", report->result->locked);
    return one;
}

char *brake_report_duty_json(const struct brake_duty_report *report)
{
    struct brake_warning warning[BRAKE_DUTY_WARNINGS];
    const int count = brake_duty_warnings(report->hot, report->duty, report->result, warning);
    cJSON *all = cJSON_CreateObject();
    brake_json_text(all, "libbrake", BRAKE_VERSION);
    brake_json_text(all, "caution", BRAKE_CAUTION);
    cJSON_AddItemToObject(all, "summary", summary_object(report));
    cJSON_AddItemToObject(all, "vehicle", brake_json_vehicle(report->sheet));
    cJSON_AddItemToObject(all, "results", results_object(report));
    cJSON_AddItemToObject(all, "warnings", brake_json_warnings(warning, count));
    char *text = cJSON_Print(all);
    cJSON_Delete(all);
    return text;
}
