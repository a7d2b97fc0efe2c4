#include "drive.h"

#include <errno.h>
#include <math.h>
#include <string.h>

static int read_log(const char *path, const char *columns, struct brake_log *log)
{
    struct brake_error error;
    FILE *stream = fopen(path, "rb");
    if (stream == NULL) {
        fprintf(stderr, "%s: cannot be opened: %s\n", path, strerror(errno));
        return EXIT_REFUSED;
    }
    const enum brake_status status = brake_log_read(stream, columns, log, &error);
    fclose(stream);
    return status == BRAKE_OK ? 0 : command_refuse(path, &error);
}

/* The log's rows are too far apart, or too noisy, for any of its stops. */
static int refuse_coarse(const char *path, const struct brake_log *log,
                         const struct brake_drive *drive)
{
    int most = 0;
    double noise = 0.0;
    for (int i = 0; i < drive->stops; i++) {
        most = drive->stop[i].points > most ? drive->stop[i].points : most;
        noise = fmax(noise, drive->stop[i].noise);
    }
    const int line = log->row[drive->stop[0].first].line;
    if (most < BRAKE_STOP_POINTS)
        fprintf(stderr,
                "%s:%d: too coarse: one row every %.3g s leaves %d between 0.8 and 0.1 of the "
                "initial speed; %d are needed, so log %.1f times as often or more\n",
                path, line, drive->interval, most, BRAKE_STOP_POINTS,
                (double)BRAKE_STOP_POINTS / (most > 0 ? most : 1));
    else
        fprintf(stderr,
                "%s:%d: too coarse: with one row every %.3g s and a noise of %.2g km/h the "
                "deceleration is not known within 20 %%\n",
                path, line, drive->interval, 3.6 * noise);
    return EXIT_REFUSED;
}

static bool all_coarse(const struct brake_drive *drive)
{
    for (int i = 0; i < drive->stops; i++) {
        if (!(drive->stop[i].flags & BRAKE_STOP_COARSE))
            return false;
    }
    return drive->stops > 0;
}

static int measure(const char *path, const struct brake_log *log,
                   const struct brake_nominal *nominal, struct brake_drive *drive)
{
    if (brake_drive_measure(log->row, log->rows, nominal, drive) != BRAKE_OK) {
        fprintf(stderr,
                "%s: more than %d stops, or from more than %d nominal speeds; cut the log\n", path,
                BRAKE_DRIVE_STOPS, BRAKE_DRIVE_SPEEDS);
        return EXIT_REFUSED;
    }
    if (all_coarse(drive))
        return refuse_coarse(path, log, drive);
    if (drive->stops > 0)
        return 0;
    fprintf(stderr,
            "%s: no stop: the speed never falls from 18 km/h or more to rest at 1 m/s2 or more\n",
            path);
    return 3;
}

int drive_take(const struct drive_options *o, const struct brake_sheet *sheet,
               struct brake_log *log, struct brake_drive *drive)
{
    int status = read_log(o->log, o->columns, log);
    if (status != 0)
        return status;
    status = measure(o->log, log, &o->nominal, drive);
    if (status == 0)
        brake_drive_compare(sheet, o->load, drive);
    else
        brake_log_free(log);
    return status;
}
