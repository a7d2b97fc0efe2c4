/* SPDX-License-Identifier: MIT */
/* A drive in time, as `heat --cycle` takes it, the units of `--columns` on the line before it. */
#include "fuzz.h"

#include "brake/log.h"

static void look(const struct brake_written_drive *drive)
{
    const struct brake_duty duty = {.kind = BRAKE_DUTY_CYCLE,
                                    .cycle = {drive->point, drive->points}};
    const char *wrong = brake_duty_wrong(&duty);
    MUST(wrong == NULL || wrong[0] != '\0');
    for (int i = 0; i < drive->points; i++) {
        const struct brake_cycle_point *point = &drive->point[i];
        MUST(isfinite(point->time) && isfinite(point->speed) && isfinite(point->grade));
        MUST(i == 0 || point->time > point[-1].time);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct brake_written_drive drive;
    struct brake_error error;
    const struct table table = table_open(data, size);
    if (table.stream != NULL &&
        accepted(brake_written_drive_read(table.stream, table.units, &drive, &error), &error)) {
        look(&drive);
        brake_written_drive_free(&drive);
    }
    table_close(&table);
    return 0;
}
