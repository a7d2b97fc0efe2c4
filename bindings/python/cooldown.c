/* SPDX-License-Identifier: MIT */
#include "answers.h"

static char *fit(const struct brake_sheet *sheet, const struct brake_log *log, char **report,
                 struct brake_error *error)
{
    struct brake_cooldown cooldown;
    if (brake_cooldown_fit(sheet, log->row, log->rows, &cooldown, error) != BRAKE_OK)
        return NULL;
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    if (d != NULL)
        brake_answer_cooldown(d, &(struct brake_cooldown_report){sheet, log, &cooldown});
    return answer_give(d, report);
}

char *cooldown_run(const struct brake_sheet *sheet, const char *bytes, size_t size,
                   const char *units, char **report, struct brake_error *error)
{
    const struct driven driven = {.bytes = bytes, .size = (Py_ssize_t)size, .columns = units};
    struct brake_log log = {.row = NULL};
    char *text = NULL;
    if (drive_read(&driven, &log, error) == BRAKE_OK)
        text = fit(sheet, &log, report, error);
    brake_log_free(&log);
    return text;
}
