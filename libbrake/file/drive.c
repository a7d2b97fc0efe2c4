/* SPDX-License-Identifier: MIT */
/* The stops of a log, or in words why there is nothing to measure. */
#include <math.h>

#include "brake/log.h"
#include "value.h"
#include "study/stops.h"

/* The log's rows are too far apart, or too noisy, for any of its stops. */
static enum brake_status refuse_coarse(const struct brake_log *log, const struct brake_drive *drive,
                                       struct brake_error *error)
{
    int most = 0;
    double noise = 0.0;
    for (int i = 0; i < drive->stops; i++) {
        most = drive->stop[i].points > most ? drive->stop[i].points : most;
        noise = fmax(noise, drive->stop[i].noise);
    }
    const int line = log->row[drive->stop[0].first].line;
    if (most < BRAKE_STOP_POINTS)
        return brake_value_refuse(
            error, BRAKE_E_FIT, line, "",
            "too coarse: one row every %.3g s leaves %d between 0.8 and 0.1 of the initial speed; "
            "%d are needed, so log %.1f times as often or more",
            drive->interval, most, BRAKE_STOP_POINTS,
            (double)BRAKE_STOP_POINTS / (most > 0 ? most : 1));
    return brake_value_refuse(error, BRAKE_E_FIT, line, "",
                              "too coarse: with one row every %.3g s and a noise of %.2g km/h the "
                              "deceleration is not known within 20 %%",
                              drive->interval, 3.6 * noise);
}

static bool all_coarse(const struct brake_drive *drive)
{
    for (int i = 0; i < drive->stops; i++) {
        if (!(drive->stop[i].flags & BRAKE_STOP_COARSE))
            return false;
    }
    return true;
}

enum brake_status brake_log_measure(const struct brake_log *log,
                                    const struct brake_nominal *nominal,
                                    const struct brake_drive_day *day, struct brake_drive *drive,
                                    struct brake_error *error)
{
    if (brake_drive_measure(log->row, log->rows, nominal, day, drive) != BRAKE_OK)
        return brake_value_refuse(
            error, BRAKE_E_SIZE, 0, "",
            "more than %d stops, or from more than %d nominal speeds; cut the log",
            BRAKE_DRIVE_STOPS, BRAKE_DRIVE_SPEEDS);
    if (drive->stops == 0)
        return brake_value_refuse(
            error, BRAKE_E_MISSING, 0, "",
            "no stop: the speed never falls from 18 km/h or more to rest at 1 m/s2 or more");
    return all_coarse(drive) ? refuse_coarse(log, drive, error) : BRAKE_OK;
}
