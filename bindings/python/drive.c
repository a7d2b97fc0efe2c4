#define _POSIX_C_SOURCE 200809L /* fmemopen */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "answers.h"

static enum brake_status read_log(const struct driven *driven, struct brake_log *log,
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

static struct brake_drive_day take_day(const struct brake_drive_day *given)
{
    const struct brake_drive_day *usual = &brake_drive_usual_day;
    return (struct brake_drive_day){or_usual(given->grade, usual->grade),
                                    or_usual(given->lag, usual->lag),
                                    or_usual(given->gauge, usual->gauge)};
}

enum brake_status drive_hold(const struct brake_sheet *sheet, const struct driven *driven,
                             const struct brake_nominal *nominal, struct held *held,
                             struct brake_error *error)
{
    const enum brake_load load = driven->full ? BRAKE_FULL : BRAKE_EMPTY;
    const struct brake_drive_day day = take_day(&driven->day);
    if (driven->bytes == NULL)
        return BRAKE_OK;
    if (read_log(driven, &held->log, error) == BRAKE_OK &&
        brake_log_measure(&held->log, nominal, &day, &held->drive, error) == BRAKE_OK) {
        brake_drive_compare(sheet, load, &held->drive);
        held->report = (struct brake_drive_report){sheet, load, &held->log, &held->drive};
    }
    return error->status;
}

void drive_free(struct held *held)
{
    if (held != NULL)
        brake_log_free(&held->log);
    free(held);
}

char *drive_run(const struct brake_sheet *sheet, const struct driven *driven,
                struct numbers nominal, char **report, struct brake_error *error)
{
    const struct brake_nominal speeds = take_nominal(nominal);
    struct held *held = answer_memory(sizeof *held, error);
    char *text = NULL;
    if (held != NULL && drive_hold(sheet, driven, &speeds, held, error) == BRAKE_OK) {
        struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
        if (d != NULL)
            brake_answer_drive(d, &held->report);
        text = answer_give(d, report);
    }
    drive_free(held);
    return text;
}
