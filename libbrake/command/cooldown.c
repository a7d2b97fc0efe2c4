/* SPDX-License-Identifier: MIT */
#include "cooldown.h"

#include "drive.h"

static int print(const struct cooldown_options *o, const struct brake_cooldown_report *report)
{
    const enum brake_format format = o->json ? BRAKE_AS_JSON : BRAKE_AS_TEXT;
    struct brake_document *d = command_document(o->units, format);
    if (d != NULL)
        brake_answer_cooldown(d, report);
    const int status = command_print(d, format, stdout);
    return status != 0 ? status : report->cooldown->tells ? 0 : 3;
}

/* What is wrong with the log stands in it, what is missing with the vehicle in its file. */
static int refuse(const struct cooldown_options *o, const struct brake_error *error)
{
    if (error->status == BRAKE_E_MEMORY)
        return command_short_of_memory();
    if (error->status != BRAKE_E_MISSING)
        return command_refuse(command_name(o->log), error);
    command_tell("%s: %s: %s\n", command_name(o->file), error->field, error->text);
    return 3;
}

int cooldown_run(const struct cooldown_options *o, const struct brake_sheet *sheet)
{
    struct brake_cooldown cooldown;
    struct brake_error error;
    struct brake_log log;
    int status = drive_read(o->log, o->columns, &log);
    if (status != 0)
        return status;
    if (brake_cooldown_fit(sheet, log.row, log.rows, &cooldown, &error) == BRAKE_OK)
        status = print(o, &(struct brake_cooldown_report){sheet, &log, &cooldown});
    else
        status = refuse(o, &error);
    brake_log_free(&log);
    return status;
}
