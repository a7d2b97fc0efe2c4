/* SPDX-License-Identifier: MIT */
/* The person's own list of parts, which the vehicle file names, or an option. */
#include <stdlib.h>

#include "command.h"
#include "file/carried.h"

int command_parts(const char *path, struct brake_sheet *sheet)
{
    struct brake_error error;
    FILE *stream;
    const int opened = command_open(path, &stream);
    if (opened != 0)
        return opened;
    const enum brake_status status = brake_own_sizes_read(stream, &sheet->own, &error);
    command_close(stream);
    return status == BRAKE_OK ? 0 : command_refuse(command_name(path), &error);
}

static enum brake_status take(FILE *table, void *into, struct brake_error *error)
{
    return brake_own_sizes_read(table, into, error);
}

int command_parts_named(const char *file, struct brake_sheet *sheet)
{
    char *path;
    bool there;
    if (sheet->vehicle.general.parts[0] == '\0')
        return 0;
    int status = command_table(file, BRAKE_CARRIED_PARTS, take, &sheet->own, &there);
    if (status != 0 || there)
        return status;
    status = command_beside(file, sheet->vehicle.general.parts, &path);
    if (status == 0)
        status = command_parts(path, sheet);
    free(path);
    return status;
}
