#define _POSIX_C_SOURCE 200809L /* fmemopen */
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

static void print_drive(const void *answer, FILE *stream)
{
    brake_report_drive_text(answer, stream);
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

char *drive_run(const struct brake_sheet *sheet, const struct driven *driven,
                struct numbers nominal, char **report, struct brake_error *error)
{
    const struct brake_nominal speeds = take_nominal(nominal);
    struct brake_drive *drive = answer_memory(sizeof *drive, error);
    struct brake_drive_report said = {sheet, driven->full ? BRAKE_FULL : BRAKE_EMPTY, NULL, drive};
    struct brake_log log = {.row = NULL};
    char *text = NULL;
    if (drive != NULL && read_log(driven, &log, error) == BRAKE_OK &&
        brake_log_measure(&log, &speeds, drive, error) == BRAKE_OK) {
        brake_drive_compare(sheet, said.load, drive);
        said.log = &log;
        *report = answer_text(print_drive, &said);
        text = brake_report_drive_json(&said);
    }
    brake_log_free(&log);
    free(drive);
    return text;
}
