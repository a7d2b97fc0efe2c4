/* SPDX-License-Identifier: MIT */
#include "drive.h"

#include <math.h>
#include <stdlib.h>

int drive_read(const char *path, const char *columns, struct brake_log *log)
{
    struct brake_error error;
    FILE *stream;
    const int opened = command_open(path, &stream);
    if (opened != 0)
        return opened;
    const enum brake_status status = brake_log_read(stream, columns, log, &error);
    command_close(stream);
    return status == BRAKE_OK ? 0 : command_refuse(command_name(path), &error);
}

/* The day as the file and the log have it, but for what the options say. */
static struct brake_drive_day day_of(const struct drive_options *o,
                                     const struct brake_sheet *driven)
{
    struct brake_drive_day day = brake_drive_day_of(driven);
    if (!isnan(o->day.grade.value))
        day.grade = o->day.grade;
    if (!isnan(o->day.lag.value))
        day.lag = o->day.lag;
    if (!isnan(o->day.gauge.value))
        day.gauge = o->day.gauge;
    return day;
}

/* Refuses what of a log cannot be measured. */
static int measure(const struct drive_options *o, const struct brake_sheet *sheet,
                   struct drive_taken *taken)
{
    struct brake_error error;
    if (brake_log_driven(&taken->log, sheet, &taken->driven, &error) != BRAKE_OK)
        return command_refuse(command_name(o->log), &error);
    const struct brake_drive_day day = day_of(o, &taken->driven);
    const enum brake_status measured =
        brake_log_measure(&taken->log, &o->nominal, &day, &taken->drive, &error);
    if (measured == BRAKE_OK)
        return 0;
    (void)command_refuse(command_name(o->log), &error);
    return measured == BRAKE_E_MISSING ? 3 : EXIT_REFUSED;
}

int drive_take(const struct drive_options *o, const struct brake_sheet *sheet,
               struct drive_taken *taken)
{
    int status = drive_read(o->log, o->columns, &taken->log);
    if (status != 0)
        return status;
    status = measure(o, sheet, taken);
    if (status != 0) {
        brake_log_free(&taken->log);
        return status;
    }
    const enum brake_load load =
        o->load < BRAKE_LOADS ? o->load : (enum brake_load)taken->driven.vehicle.drive.load;
    brake_drive_compare(&taken->driven, load, &taken->drive);
    taken->report =
        (struct brake_drive_report){&taken->driven, load, &taken->log, &taken->drive, NULL};
    return 0;
}

static enum brake_status take_log(FILE *table, void *into, struct brake_error *error)
{
    return brake_log_read(table, NULL, into, error);
}

int drive_named(const char *file, const char *element, const struct brake_sheet *sheet,
                struct brake_log *log, bool *there)
{
    char *path;
    *there = false;
    if (sheet->vehicle.drive.log[0] == '\0')
        return 0;
    int status = command_table(file, element, take_log, log, there);
    if (status != 0 || *there)
        return status;
    status = command_beside(file, sheet->vehicle.drive.log, &path);
    if (status == 0)
        status = drive_read(path, NULL, log);
    free(path);
    *there = status == 0;
    return status;
}

int drive_learn(const char *file, const char *element, struct brake_sheet *sheet)
{
    struct brake_error error;
    struct brake_log log;
    bool there;
    const int status = drive_named(file, element, sheet, &log, &there);
    if (status != 0)
        return status;
    if (!there)
        return brake_tester_learn(sheet) == BRAKE_OK ? 0 : command_short_of_memory();
    const enum brake_status learned = brake_log_learn(&log, sheet, &error);
    brake_log_free(&log);
    return learned == BRAKE_OK ? 0 : command_refuse(sheet->vehicle.drive.log, &error);
}
