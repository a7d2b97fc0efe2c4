#include "drive.h"

static int read_log(const char *path, const char *columns, struct brake_log *log)
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
    int status = read_log(o->log, o->columns, log);
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
