/* SPDX-License-Identifier: MIT */
/** @file log.h
 * Tables that loggers, telephones and spreadsheets write: the log of a drive, and a drive in time.
 *
 *     # comments begin with this sign
 *     time [s],speed [km/h],pedal_force [N]
 *     0.00,81.2,0
 *
 * Columns of a log: time and speed must be there; pedal_force, pressure, deceleration,
 * front_temperature, rear_temperature, grade (positive uphill) and heading may be. Columns of a
 * drive in time: time, speed; grade may be. They stand in any order. Heads are written as `speed
 * [km/h]`, `Speed (mph)` or `Speed_kmh`, in either case, a blank counting as an underscore; or
 * units are given apart. Between cells stand commas, semicolons or tabs; decimals take a point or a
 * comma, the same in all the file. Cells may stand in quotes, a quote within being two. Lines end
 * with LF, CR LF or CR; UTF-8 with or without its mark.
 *
 * A comment `# front.tyre.marking = LT285/75R16` says which line of the vehicle was another when it
 * was driven; so do those of [drive], `# drive.load = full`.
 *
 * Nothing is guessed: what can be read in two ways is refused. Other columns are left aside and
 * told. An empty cell is a reading that is missing: nothing takes its place; a row without its
 * time, speed or grade is left out and told, as one that repeats the row before it. The same time
 * with other numbers, or a time that goes back, is refused.
 */
#ifndef BRAKE_LOG_H
#define BRAKE_LOG_H

#include <stdio.h>

#include "brake/drivelog.h"
#include "brake/duty.h"

#ifdef __cplusplus
extern "C" {
#endif

enum { BRAKE_NOTES = 12, BRAKE_NOTE_BYTES = 120 /**< notes, and bytes of each */ };

/** What was left aside of a file, each with its line. */
struct brake_notes {
    char note[BRAKE_NOTES][BRAKE_NOTE_BYTES];
    int count;
    long more; /**< left aside beyond those */
};

enum { BRAKE_SAID = 32, BRAKE_SAID_BYTES = 160 /**< lines of a vehicle, and bytes of each */ };

/** What the comments of a log say of the vehicle as it was driven. */
struct brake_said {
    int count;
    int line[BRAKE_SAID];                    /**< of the file */
    char text[BRAKE_SAID][BRAKE_SAID_BYTES]; /**< "path = value" */
};

/** A log in memory. */
struct brake_log {
    struct brake_log_row *row; /**< in order of time; belongs to the log */
    long rows;
    bool has[BRAKE_LOG_COLUMNS];
    struct brake_notes aside;
    struct brake_said said;
};

/** Read a log.
 * @param stream  open for reading, read to its end, not closed
 * @param units   "time=s,speed=mph" for columns without a unit in the header; NULL: none
 * @param log     filled; to be freed by brake_log_free when OK
 * @param error   filled on refusal: line, column, what came and what is accepted
 * @return        OK, or the status of the error
 */
enum brake_status brake_log_read(FILE *stream, const char *units, struct brake_log *log,
                                 struct brake_error *error);

/** Find and measure the stops of a log, or refuse in words one that tells nothing.
 * @param log      read
 * @param nominal  speeds that stops are brought to
 * @param day      what the measuring may be off by, such as brake_drive_usual_day
 * @param drive    filled, the comparison aside
 * @param error    filled on refusal: line, what came and what is needed
 * @return         OK; E_MISSING when there is no stop; E_FIT when the rows are too far apart or too
 *                 noisy for every one; E_SIZE for too many stops or speeds
 */
enum brake_status brake_log_measure(const struct brake_log *log,
                                    const struct brake_nominal *nominal,
                                    const struct brake_drive_day *day, struct brake_drive *drive,
                                    struct brake_error *error);

/** The vehicle as it was driven: with the lines that the log's comments say. Of a tyre with another
 * marking nothing is left that was measured on the one of now.
 * @param log     read
 * @param now     the vehicle, complete
 * @param driven  filled, complete
 * @param error   filled on refusal: line of the log, what came and what is accepted
 * @return        OK, or the status of the error
 */
enum brake_status brake_log_driven(const struct brake_log *log, const struct brake_sheet *now,
                                   struct brake_sheet *driven, struct brake_error *error);

/** Learn of a vehicle what a log tells, as its own lines and those of the log say that it was
 * driven; of parts that are others since it tells nothing.
 * @param log    read
 * @param sheet  complete; its knowledge is filled, from nothing
 * @param error  filled on refusal: line of the log, what came and what is needed
 * @return       OK, or the status of the error
 */
enum brake_status brake_log_learn(const struct brake_log *log, struct brake_sheet *sheet,
                                  struct brake_error *error);

/** Learn of a vehicle what several logs tell together, each driven on a day, and loaded, as its own
 * comments or the lines of [drive] say.
 * @param log    read
 * @param logs   1 and up; BRAKE_DRIVE_STOPS stops in all
 * @param sheet  complete; its knowledge is filled, from nothing
 * @param wrong  filled on refusal: number of the log
 * @param error  filled on refusal: line of that log, what came and what is needed
 * @return       OK, or the status of the error; E_CONFLICT for a log that says that another line
 *               than one of [drive] was another
 */
enum brake_status brake_logs_learn(const struct brake_log *log, int logs, struct brake_sheet *sheet,
                                   int *wrong, struct brake_error *error);

/** Free a log.
 * @param log  read
 */
void brake_log_free(struct brake_log *log);

/** A drive in time, as brake_duty_run takes it. */
struct brake_written_drive {
    struct brake_cycle_point *point; /**< belongs to the drive */
    int points;
    bool level; /**< it has no grade: the road is taken as level */
    struct brake_notes aside;
};

/** Read a drive in time.
 * @param stream  open for reading, read to its end, not closed
 * @param units   for columns without a unit in the head, as of a log; NULL: none
 * @param drive   filled; to be freed by brake_written_drive_free when OK
 * @param error   filled on refusal: line, column, what came and what is accepted
 * @return        OK, or the status of the error
 */
enum brake_status brake_written_drive_read(FILE *stream, const char *units,
                                           struct brake_written_drive *drive,
                                           struct brake_error *error);

/** Free a drive in time.
 * @param drive  read
 */
void brake_written_drive_free(struct brake_written_drive *drive);

#ifdef __cplusplus
}
#endif

#endif
