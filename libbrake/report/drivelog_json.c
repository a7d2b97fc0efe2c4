#include <math.h>

#include "brake/report.h"
#include "brake/version.h"
#include "json.h"
#include "words_drive.h"

static cJSON *stop_object(const struct brake_drive_report *report,
                          const struct brake_drive_stop *stop)
{
    const struct brake_log_row *row = report->log->row;
    cJSON *one = cJSON_CreateObject();
    cJSON *why = cJSON_CreateArray();
    for (int i = 0; brake_stop_mark_at(i) != NULL; i++) {
        if (stop->flags & brake_stop_mark_at(i)->flag)
            cJSON_AddItemToArray(why, cJSON_CreateString(brake_stop_mark_at(i)->id));
    }
    cJSON_AddBoolToObject(one, "counts", brake_drive_counts(stop));
    cJSON_AddItemToObject(one, "flags", why);
    cJSON_AddNumberToObject(one, "line", row[stop->first].line);
    cJSON_AddNumberToObject(one, "last_line", row[stop->last].line);
    if (stop->flags != 0)
        cJSON_AddNumberToObject(one, "flagged_line", row[stop->flagged].line);
    cJSON_AddNumberToObject(one, "points", stop->points);
    brake_json_number(one, "noise", stop->noise);
    brake_json_measured(one, "initial_speed", &stop->initial, "m/s");
    brake_json_number(one, "nominal_speed", stop->nominal);
    brake_json_measured(one, "distance", &stop->distance, "m");
    brake_json_measured(one, "corrected_distance", &stop->corrected, "m");
    brake_json_measured(one, "developed_deceleration", &stop->developed, "m/s2");
    brake_json_number(one, "indicated_deceleration", stop->indicated);
    brake_json_number(one, "pedal_force", stop->pedal_force);
    brake_json_number(one, "pressure", stop->pressure);
    brake_json_number(one, "front_temperature", stop->temperature[BRAKE_FRONT]);
    brake_json_number(one, "rear_temperature", stop->temperature[BRAKE_REAR]);
    brake_json_measured(one, "predicted_deceleration", &stop->predicted, "m/s2");
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
    brake_words_drive_verdict(report, text, sizeof text);
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
    cJSON *scatter = cJSON_CreateObject();
    brake_json_number(scatter, "value", drive->scatter);
    brake_json_text(scatter, "unit", "");
    brake_json_measured(all, "drive.measured_deceleration", &drive->measured, "m/s2");
    brake_json_measured(all, "drive.predicted_deceleration", &drive->predicted, "m/s2");
    brake_json_measured(all, "drive.friction_factor", &drive->friction, "");
    brake_json_measured(all, "drive.fade", &drive->fade, "");
    cJSON_AddItemToObject(all, "drive.scatter", scatter);
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
