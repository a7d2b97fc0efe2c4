#include "drive.h"

#include <stdlib.h>

int drive_read(const char *path, const char *columns, struct brake_log *log)
{
    struct brake_error error;
    FILE *stream;
    const int opened = command_open(path, &stream);
    if (opened != 0)
        return opened;
    const enum brake_status status = brake_log_read(stream, columns, log, &error);
    command_close(stream);
    return status == BRAKE_OK ? 0 : command_refuse(command_name(path), &error);
}

int drive_take(const struct drive_options *o, const struct brake_sheet *sheet,
               struct brake_log *log, struct brake_drive *drive)
{
    struct brake_error error;
    int status = drive_read(o->log, o->columns, log);
    if (status != 0)
        return status;
    const enum brake_status measured = brake_log_measure(log, &o->nominal, &o->day, drive, &error);
    if (measured == BRAKE_OK) {
        brake_drive_compare(sheet, o->load, drive);
        return 0;
    }
    brake_log_free(log);
    (void)command_refuse(command_name(o->log), &error);
    return measured == BRAKE_E_MISSING ? 3 : EXIT_REFUSED;
}

static int learn_from(const char *path, struct brake_sheet *sheet)
{
    const struct brake_nominal round_speeds = {.count = 0};
    static struct brake_drive drive; /* it is large */
    struct brake_error error;
    struct brake_log log;
    int status = drive_read(path, NULL, &log);
    if (status != 0)
        return status;
    if (brake_log_measure(&log, &round_speeds, &brake_drive_usual_day, &drive, &error) != BRAKE_OK)
        status = command_refuse(path, &error);
    else if (brake_drive_learn(sheet, (enum brake_load)sheet->vehicle.drive.load, &drive) !=
             BRAKE_OK)
        status = command_short_of_memory();
    brake_log_free(&log);
    return status;
}

int drive_learn(const char *file, struct brake_sheet *sheet)
{
    char *path;
    if (sheet->vehicle.drive.log[0] == '\0')
        return 0;
    int status = command_beside(file, sheet->vehicle.drive.log, &path);
    if (status == 0)
        status = learn_from(path, sheet);
    free(path);
    return status;
}
