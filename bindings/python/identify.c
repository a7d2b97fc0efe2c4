/* SPDX-License-Identifier: MIT */
#include <stdlib.h>
#include <string.h>

#include "answers.h"

bool logs_take(PyObject *tuple, struct logs *logs)
{
    logs->count = PyTuple_Check(tuple) ? (int)PyTuple_Size(tuple) : LOGS + 1;
    if (logs->count > LOGS) {
        PyErr_SetString(PyExc_ValueError, "logs: accepts 1 to 16 logs");
        return false;
    }
    for (int i = 0; i < logs->count; i++) {
        char *bytes;
        struct driven *log = &logs->log[i];
        if (PyBytes_AsStringAndSize(PyTuple_GetItem(tuple, i), &bytes, &log->size) != 0)
            return false;
        log->bytes = bytes;
    }
    return true;
}

/* The logs that were read, to be freed whatever the status. */
static enum brake_status read_all(const struct logs *logs, const char *units, struct brake_log *log,
                                  int *wrong, struct brake_error *error)
{
    for (*wrong = 0; *wrong < logs->count; ++*wrong) {
        struct driven driven = logs->log[*wrong];
        driven.columns = units;
        if (drive_read(&driven, &log[*wrong], error) != BRAKE_OK)
            return error->status;
    }
    return BRAKE_OK;
}

static enum brake_status learn(const struct logs *logs, const char *units,
                               struct brake_sheet *sheet, struct brake_error *error)
{
    struct brake_log log[LOGS] = {{.row = NULL}};
    int wrong = 0;
    if (read_all(logs, units, log, &wrong, error) == BRAKE_OK)
        (void)brake_logs_learn(log, logs->count, sheet, &wrong, error);
    if (error->status != BRAKE_OK) {
        const struct brake_error said = *error;
        snprintf(error->field, sizeof error->field, "logs[%d]%s%.40s", wrong,
                 said.field[0] != '\0' ? ": " : "", said.field);
    }
    for (int i = 0; i < logs->count; i++)
        brake_log_free(&log[i]);
    return error->status;
}

static void give_matrix(const double matrix[][BRAKE_IDENTIFY_LINES], int count, double *out)
{
    for (int i = 0; i < count; i++)
        memcpy(out + i * count, matrix[i], (size_t)count * sizeof *out);
}

static void give(const struct brake_identified *id, const struct brake_knowledge *known,
                 const struct columns *out)
{
    const double *const row[] = {id->before.mean, id->after.mean, id->learnt, id->share};
    const double summary[] = {id->condition,    known->stops, known->forces,
                              known->effective, known->word,  known->likely};
    for (int i = 0; i < 4; i++)
        memcpy(columns_writable(out, i), row[i], (size_t)id->count * sizeof **row);
    give_matrix(id->before.covariance, id->count, columns_writable(out, 4));
    give_matrix(id->after.covariance, id->count, columns_writable(out, 5));
    give_matrix(id->combination, id->count, columns_writable(out, 6));
    memcpy(columns_writable(out, 7), summary, sizeof summary);
}

static bool has_room(const struct columns *out, long count)
{
    const long room[] = {count,         count,         count,         count,
                         count * count, count * count, count * count, 6};
    bool good = out->count == 8;
    for (int i = 0; good && i < 8; i++)
        good = out->column[i].count == room[i];
    return good;
}

enum brake_status identify_run(struct brake_sheet *sheet, const struct logs *logs,
                               const char *units, struct numbers lines, const struct columns *out,
                               struct brake_error *error)
{
    int line[BRAKE_IDENTIFY_LINES];
    struct brake_identified identified;
    if (lines.count > BRAKE_IDENTIFY_LINES || !has_room(out, lines.count))
        return answer_refuse(error, BRAKE_E_SIZE, "lines: accepts 1 to 12");
    for (long i = 0; i < lines.count; i++)
        line[i] = (int)lines.at[i];
    if (learn(logs, units, sheet, error) == BRAKE_OK &&
        brake_identify(sheet, line, (int)lines.count, &identified, error) == BRAKE_OK)
        give(&identified, &sheet->known, out);
    return error->status;
}

void sheet_forget(struct brake_sheet *sheet)
{
    memset(&sheet->known, 0, sizeof sheet->known);
}
