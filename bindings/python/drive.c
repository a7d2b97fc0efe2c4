/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L /* fmemopen */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "answers.h"

enum brake_status drive_read(const struct driven *driven, struct brake_log *log,
                             struct brake_error *error)
{
    FILE *stream = fmemopen((void *)(uintptr_t)driven->bytes, (size_t)driven->size, "rb");
    if (stream == NULL)
        return answer_refuse(error, BRAKE_E_READ, brake_status_message(BRAKE_E_READ));
    const enum brake_status status = brake_log_read(stream, driven->columns, log, error);
    fclose(stream);
    return status;
}

static struct brake_nominal take_nominal(struct numbers speeds)
{
    struct brake_nominal nominal = {.count = 0};
    while (nominal.count < BRAKE_DRIVE_SPEEDS && nominal.count < speeds.count) {
        nominal.speed[nominal.count] = speeds.at[nominal.count];
        nominal.count++;
    }
    return nominal;
}

static struct brake_measured or_usual(struct brake_measured given, struct brake_measured usual)
{
    return isnan(given.value) ? usual : given;
}

static struct brake_drive_day take_day(const struct brake_drive_day *given,
                                       const struct brake_drive_day *usual)
{
    return (struct brake_drive_day){or_usual(given->grade, usual->grade),
                                    or_usual(given->lag, usual->lag),
                                    or_usual(given->gauge, usual->gauge)};
}

/* The vehicle as it was driven, held against its stops. */
static void hold(const struct driven *driven, const struct brake_nominal *nominal,
                 struct held *held, struct brake_error *error)
{
    const struct brake_drive_day said = brake_drive_day_of(&held->driven);
    const struct brake_drive_day day = take_day(&driven->day, &said);
    const enum brake_load load =
        (enum brake_load)(driven->full >= 0 ? driven->full : held->driven.vehicle.drive.load);
    if (brake_log_measure(&held->log, nominal, &day, &held->drive, error) != BRAKE_OK)
        return;
    brake_drive_compare(&held->driven, load, &held->drive);
    held->report = (struct brake_drive_report){&held->driven, load, &held->log, &held->drive, NULL};
}

enum brake_status drive_hold(const struct brake_sheet *sheet, const struct driven *driven,
                             const struct brake_nominal *nominal, struct held *held,
                             struct brake_error *error)
{
    if (driven->bytes == NULL)
        return BRAKE_OK;
    if (drive_read(driven, &held->log, error) == BRAKE_OK &&
        brake_log_driven(&held->log, sheet, &held->driven, error) == BRAKE_OK)
        hold(driven, nominal, held, error);
    return error->status;
}

enum brake_status sheet_learn(const char *bytes, size_t size, const char *columns,
                              struct brake_sheet *sheet, struct brake_error *error)
{
    const struct driven driven = {.bytes = bytes, .size = (Py_ssize_t)size, .columns = columns};
    struct brake_log log = {.row = NULL};
    if (drive_read(&driven, &log, error) == BRAKE_OK)
        (void)brake_log_learn(&log, sheet, error);
    brake_log_free(&log);
    return error->status;
}

void drive_free(struct held *held)
{
    if (held != NULL)
        brake_log_free(&held->log);
    free(held);
}

static char *tell(const struct held *held, char **report)
{
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    if (d != NULL)
        brake_answer_drive(d, &held->report);
    return answer_give(d, report);
}

char *drive_run(const struct brake_sheet *sheet, const struct driven *driven,
                struct numbers nominal, char **report, struct brake_error *error)
{
    const struct brake_nominal speeds = take_nominal(nominal);
    struct held *held = answer_memory(sizeof *held, error);
    char *text = NULL;
    if (held != NULL && drive_hold(sheet, driven, &speeds, held, error) == BRAKE_OK) {
        struct brake_assessment *assessment = brake_assessment_new();
        if (assessment != NULL && brake_assess_cold(sheet, BRAKE_RULES_OWN, assessment)) {
            held->report.now = &assessment->ruling;
            text = tell(held, report);
        } else {
            (void)answer_refuse(error, BRAKE_E_MEMORY, "memory is short");
        }
        brake_assessment_free(assessment);
    }
    drive_free(held);
    return text;
}
