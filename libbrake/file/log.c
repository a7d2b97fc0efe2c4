/* SPDX-License-Identifier: MIT */
#include "brake/log.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "number.h"
#include "table.h"
#include "value.h"
#include "writer.h"
#include "vehicle/text.h"
#include "vehicle/room.h"

static const struct brake_table_column column[BRAKE_LOG_COLUMNS] = {
    [BRAKE_LOG_TIME] = {"time", BRAKE_TIME, "s", -1e11, 1e11, true, true},
    [BRAKE_LOG_SPEED] = {"speed", BRAKE_SPEED, "m/s", -2.0, 150.0, true, true},
    [BRAKE_LOG_PEDAL_FORCE] = {"pedal_force", BRAKE_FORCE, "N", -100.0, 5000.0, false, false},
    [BRAKE_LOG_PRESSURE] = {"pressure", BRAKE_PRESSURE, "bar", -5e5, 5e7, false, false},
    [BRAKE_LOG_DECELERATION] = {"deceleration", BRAKE_ACCELERATION, "m/s2", -50.0, 50.0, false,
                                false},
    [BRAKE_LOG_FRONT_TEMPERATURE] = {"front_temperature", BRAKE_TEMPERATURE, "degC", 200.0, 1800.0,
                                     false, false},
    [BRAKE_LOG_REAR_TEMPERATURE] = {"rear_temperature", BRAKE_TEMPERATURE, "degC", 200.0, 1800.0,
                                    false, false},
    [BRAKE_LOG_GRADE] = {"grade", BRAKE_RATIO, "%", -0.5, 0.5, false, false},
    [BRAKE_LOG_HEADING] = {"heading", BRAKE_ANGLE, "deg", -2.0 * BRAKE_PI, 2.0 * BRAKE_PI, false,
                           false},
};

_Static_assert((int)BRAKE_LOG_COLUMNS <= (int)BRAKE_TABLE_COLUMNS, "a table holds a log");

static const struct brake_table_kind kind = {"a log", "time [s],speed [km/h],pedal_force [N]",
                                             column, BRAKE_LOG_COLUMNS};

static enum brake_status take_rows(struct brake_read_table *table, struct brake_log *log,
                                   struct brake_error *error)
{
    for (;;) {
        struct brake_log_row *more =
            brake_room_for_one(log->row, (size_t)log->rows, sizeof *log->row);
        if (more == NULL)
            return brake_value_refuse(error, BRAKE_E_MEMORY, 0, "", "memory is short");
        log->row = more;
        struct brake_log_row *row = &log->row[log->rows];
        const enum brake_status status = brake_table_next(table, row->value, &row->line);
        if (status != BRAKE_OK || row->line == 0)
            return status;
        log->rows++;
    }
}

enum brake_status brake_log_read(FILE *stream, const char *units, struct brake_log *log,
                                 struct brake_error *error)
{
    memset(log, 0, sizeof *log);
    struct brake_read_table *table =
        brake_table_open(stream, &kind, units, &log->aside, &log->said, error);
    if (table == NULL)
        return error->status;
    for (int i = 0; i < BRAKE_LOG_COLUMNS; i++)
        log->has[i] = brake_table_has(table, i);
    const enum brake_status status = take_rows(table, log, error);
    brake_table_close(table);
    if (status != BRAKE_OK)
        brake_log_free(log);
    return status;
}

static void write_head(FILE *stream, const struct brake_table_column *of)
{
    const char *unit = brake_unit_si(of->dimension)->name;
    brake_text_print(stream, unit[0] != '\0' ? "%s [%s]" : "%s", of->name, unit);
}

static void write_cell(FILE *stream, double value)
{
    char number[BRAKE_NUMBER_SIZE] = "";
    if (!isnan(value))
        brake_number_write(value, number);
    brake_text_print(stream, "%s", number);
}

void brake_log_write(const struct brake_log *log, FILE *stream)
{
    for (int i = 0; i < log->said.count; i++)
        brake_text_print(stream, "# %s\n", log->said.text[i]);
    for (long r = -1; r < log->rows; r++) {
        const char *comma = "";
        for (int c = 0; c < BRAKE_LOG_COLUMNS; c++) {
            if (!log->has[c])
                continue;
            brake_text_print(stream, "%s", comma);
            comma = ",";
            if (r < 0)
                write_head(stream, &column[c]);
            else
                write_cell(stream, log->row[r].value[c]);
        }
        brake_text_print(stream, "\n");
    }
}

void brake_log_free(struct brake_log *log)
{
    free(log->row);
    log->row = NULL;
    log->rows = 0;
}
