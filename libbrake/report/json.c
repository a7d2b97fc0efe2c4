#include <cjson/cJSON.h>
#include <math.h>
#include <string.h>

#include "brake/file.h"
#include "brake/report.h"
#include "brake/version.h"
#include "json.h"

void brake_json_number(cJSON *object, const char *name, double value)
{
    if (isfinite(value))
        cJSON_AddNumberToObject(object, name, value);
    else
        cJSON_AddNullToObject(object, name);
}

void brake_json_text(cJSON *object, const char *name, const char *text)
{
    if (text != NULL)
        cJSON_AddStringToObject(object, name, text);
    else
        cJSON_AddNullToObject(object, name);
}

void brake_json_measured(cJSON *object, const char *name, const struct brake_measured *m,
                         const char *unit)
{
    cJSON *one = cJSON_CreateObject();
    brake_json_number(one, "value", m->value);
    brake_json_text(one, "unit", unit);
    brake_json_number(one, "p05", m->value - m->half);
    brake_json_number(one, "p95", m->value + m->half);
    cJSON_AddItemToObject(object, name, one);
}

static cJSON *pair(double first, double second)
{
    const double both[] = {first, second};
    return cJSON_CreateDoubleArray(both, 2);
}

static cJSON *pistons_list(const struct brake_pistons *pistons)
{
    cJSON *list = cJSON_CreateArray();
    for (int i = 0; i < BRAKE_GROUPS && pistons->count[i] > 0.0; i++)
        cJSON_AddItemToArray(list, pair(pistons->count[i], pistons->diameter[i]));
    return list;
}

static cJSON *curve_list(const struct brake_points *points)
{
    cJSON *list = cJSON_CreateArray();
    for (int i = 0; i < points->count; i++)
        cJSON_AddItemToArray(list, pair(points->at[i].x, points->at[i].y));
    return list;
}

void brake_json_value(cJSON *object, const char *name, struct brake_vehicle *vehicle, int index)
{
    const struct brake_quantity *q = brake_quantity_at(index);
    const void *at = brake_quantity_in(vehicle, index);
    switch (q->kind) {
    case BRAKE_REAL:
        brake_json_number(object, name, *(const double *)at);
        break;
    case BRAKE_CHOICE:
        brake_json_text(object, name, q->choices[*(const int *)at]);
        break;
    case BRAKE_TEXT:
        brake_json_text(object, name, at);
        break;
    case BRAKE_PISTONS:
        cJSON_AddItemToObject(object, name, pistons_list(at));
        break;
    case BRAKE_CURVE:
        cJSON_AddItemToObject(object, name, curve_list(at));
        break;
    }
}

cJSON *brake_json_vehicle(const struct brake_sheet *sheet)
{
    cJSON *all = cJSON_CreateObject();
    struct brake_vehicle vehicle = sheet->vehicle;
    for (int i = 0; i < brake_catalogue_count(); i++) {
        const struct brake_record *record = &sheet->record[i];
        const struct brake_quantity *q = brake_quantity_at(i);
        char path[160];
        if (record->from == BRAKE_ABSENT)
            continue;
        cJSON *one = cJSON_CreateObject();
        brake_json_value(one, "value", &vehicle, i);
        brake_json_text(one, "unit", brake_unit_si(q->dimension)->name);
        if (q->kind == BRAKE_CURVE)
            brake_json_text(one, "second_unit", brake_unit_si(q->second)->name);
        brake_json_number(one, "tolerance", record->tolerance);
        brake_json_text(one, "from", brake_from_word(record->from));
        if (record->worked)
            cJSON_AddTrueToObject(one, "worked_out");
        if (record->typical)
            cJSON_AddTrueToObject(one, "usual_tolerance");
        brake_catalogue_path(&vehicle, i, path, sizeof path);
        cJSON_AddItemToObject(all, path, one);
    }
    return all;
}

static cJSON *results_object(const struct brake_results *results)
{
    cJSON *all = cJSON_CreateObject();
    for (int i = 0; i < brake_result_count(); i++) {
        char path[80];
        cJSON *one = cJSON_CreateObject();
        brake_json_number(one, "value", brake_result_value(results, i));
        brake_json_text(one, "unit", brake_unit_si(brake_result_at(i)->dimension)->name);
        brake_result_path(i, path, sizeof path);
        cJSON_AddItemToObject(all, path, one);
    }
    return all;
}

static cJSON *criterion_object(const struct brake_assessment *a, int index)
{
    const struct brake_criterion *c = brake_criterion_at(index);
    const struct brake_judgement *j = &a->judgement[index];
    const double half = BRAKE_P95 * a->sureness[index].sigma;
    cJSON *one = cJSON_CreateObject();
    brake_json_text(one, "id", c->id);
    brake_json_text(one, "clause", c->clause);
    brake_json_text(one, "title", c->title);
    cJSON_AddBoolToObject(one, "applies", j->applies);
    brake_json_text(one, "verdict", brake_verdict_words(j->verdict));
    brake_json_number(one, "value", j->value);
    brake_json_number(one, "limit", j->limit);
    brake_json_text(one, "limit_is", brake_measure_at_most(c->measure) ? "at most" : "at least");
    brake_json_text(one, "unit", brake_unit_si(brake_measure_dimension(c->measure))->name);
    brake_json_number(one, "margin", j->margin);
    brake_json_number(one, "margin_p05", j->margin - half);
    brake_json_number(one, "margin_p95", j->margin + half);
    brake_json_text(one, "load", isnan(j->margin) ? NULL : brake_load_word(j->load));
    brake_json_text(one, "state", isnan(j->margin) ? NULL : brake_failure_words(j->failure));
    brake_json_text(one, "reason", j->reason);
    brake_json_text(one, "read_in", c->text);
    brake_json_text(one, "mark", "check against the current text");
    return one;
}

static cJSON *criteria_array(const struct brake_assessment *a)
{
    cJSON *all = cJSON_CreateArray();
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (brake_assessed(a, i))
            cJSON_AddItemToArray(all, criterion_object(a, i));
    }
    return all;
}

cJSON *brake_json_warnings(const struct brake_warning *warning, int count)
{
    cJSON *all = cJSON_CreateArray();
    for (int i = 0; i < count; i++) {
        cJSON *one = cJSON_CreateObject();
        brake_json_text(one, "id", warning[i].id);
        brake_json_text(one, "text", warning[i].text);
        cJSON_AddItemToArray(all, one);
    }
    return all;
}

static cJSON *inspector_array(void)
{
    cJSON *all = cJSON_CreateArray();
    for (int i = 0; brake_inspector_item(i) != NULL; i++)
        cJSON_AddItemToArray(all, cJSON_CreateString(brake_inspector_item(i)));
    return all;
}

static cJSON *summary_object(const struct brake_sheet *sheet, const struct brake_assessment *a)
{
    cJSON *one = cJSON_CreateObject();
    char path[160];
    const int doubted = brake_assessment_doubted(a);
    const int leading = doubted >= 0 ? a->sureness[doubted].leading : -1;
    cJSON_AddNumberToObject(one, "meets", a->meets);
    cJSON_AddNumberToObject(one, "falls_short", a->falls_short);
    cJSON_AddNumberToObject(one, "cannot_say", a->cannot_say);
    brake_json_text(one, "limiting", a->limiting >= 0 ? brake_criterion_at(a->limiting)->id : NULL);
    if (leading >= 0)
        brake_catalogue_path(&sheet->vehicle, leading, path, sizeof path);
    brake_json_text(one, "measure_next", leading >= 0 ? path : NULL);
    return one;
}

char *brake_report_json(const struct brake_sheet *sheet, const struct brake_assessment *assessment,
                        bool compact)
{
    cJSON *all = cJSON_CreateObject();
    brake_json_text(all, "libbrake", BRAKE_VERSION);
    brake_json_text(all, "caution", BRAKE_CAUTION);
    cJSON_AddItemToObject(all, "summary", summary_object(sheet, assessment));
    cJSON_AddItemToObject(all, "vehicle", brake_json_vehicle(sheet));
    cJSON_AddItemToObject(all, "results", results_object(&assessment->results));
    cJSON_AddItemToObject(all, "criteria", criteria_array(assessment));
    cJSON_AddItemToObject(all, "warnings",
                          brake_json_warnings(assessment->warning, assessment->warnings));
    cJSON_AddItemToObject(all, "inspector", inspector_array());
    char *text = compact ? cJSON_PrintUnformatted(all) : cJSON_Print(all);
    cJSON_Delete(all);
    return text;
}
