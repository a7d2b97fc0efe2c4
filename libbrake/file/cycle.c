/* SPDX-License-Identifier: MIT */
/* A drive written down for `heat`. */
#include <stdlib.h>
#include <string.h>

#include "brake/log.h"
#include "table.h"
#include "value.h"
#include "vehicle/room.h"

enum { TIME, SPEED, GRADE, COLUMNS };

static const struct brake_table_column column[COLUMNS] = {
    [TIME] = {"time", BRAKE_TIME, "s", -1e9, 1e9, true, true},
    [SPEED] = {"speed", BRAKE_SPEED, "m/s", 0.0, 100.0, true, true},
    [GRADE] = {"grade", BRAKE_RATIO, "%", -0.5, 0.5, false, true},
};

static const struct brake_table_kind kind = {"a drive", "time [s],speed [km/h],grade [%]", column,
                                             COLUMNS};

static enum brake_status take_points(struct brake_read_table *table,
                                     struct brake_written_drive *drive, struct brake_error *error)
{
    for (;;) {
        double value[COLUMNS];
        int line;
        const enum brake_status status = brake_table_next(table, value, &line);
        if (status != BRAKE_OK || line == 0)
            return status;
        struct brake_cycle_point *more =
            brake_room_for_one(drive->point, (size_t)drive->points, sizeof *drive->point);
        if (more == NULL)
            return brake_value_refuse(error, BRAKE_E_MEMORY, 0, "", "memory is short");
        drive->point = more;
        drive->point[drive->points++] = (struct brake_cycle_point){
            value[TIME], value[SPEED], drive->level ? 0.0 : value[GRADE]};
    }
}

enum brake_status brake_written_drive_read(FILE *stream, const char *units,
                                           struct brake_written_drive *drive,
                                           struct brake_error *error)
{
    memset(drive, 0, sizeof *drive);
    struct brake_read_table *table =
        brake_table_open(stream, &kind, units, &drive->aside, NULL, error);
    if (table == NULL)
        return error->status;
    drive->level = !brake_table_has(table, GRADE);
    const enum brake_status status = take_points(table, drive, error);
    brake_table_close(table);
    if (status != BRAKE_OK)
        brake_written_drive_free(drive);
    return status;
}

void brake_written_drive_free(struct brake_written_drive *drive)
{
    free(drive->point);
    drive->point = NULL;
    drive->points = 0;
}
