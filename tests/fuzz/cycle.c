/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L /* NOLINT: fmemopen */
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
    char *units = text_of(data, size);
    char *table = cut_line(units);
    const size_t length = size - (size_t)(table - units);
    FILE *stream = length > 0 ? fmemopen(table, length, "rb") : NULL;
    if (stream != NULL) {
        if (accepted(
                brake_written_drive_read(stream, units[0] != '\0' ? units : NULL, &drive, &error),
                &error)) {
            look(&drive);
            brake_written_drive_free(&drive);
        }
        fclose(stream);
    }
    free(units);
    return 0;
}
