/** @file log.h
 * A drive log: comma-separated values with a header, as loggers write them.
 *
 *     # comments begin with this sign
 *     time [s],speed [km/h],pedal_force [N]
 *     0.00,81.2,0
 *
 * Columns: time and speed must be there; pedal_force, pressure, deceleration, front_temperature and
 * rear_temperature may be. Any order; a blank counts as an underscore. Other columns are left aside
 * and told. Units stand in the header, or are given apart. Decimals take a point; a file with
 * semicolons is refused. An empty cell is a reading that is missing: nothing takes its place. A row
 * that repeats the one before it is left out and told; the same time with other numbers, or a time
 * that goes back, is refused. UTF-8 with or without its mark; lines end with LF or CR LF.
 */
#ifndef BRAKE_LOG_H
#define BRAKE_LOG_H

#include <stdio.h>

#include "brake/drivelog.h"

#ifdef __cplusplus
extern "C" {
#endif

enum { BRAKE_LOG_NOTES = 12, BRAKE_LOG_NOTE = 120 /**< notes, and bytes of each */ };

/** A log in memory. */
struct brake_log {
    struct brake_log_row *row; /**< in order of time; belongs to the log */
    long rows;
    bool has[BRAKE_LOG_COLUMNS];
    char note[BRAKE_LOG_NOTES][BRAKE_LOG_NOTE]; /**< what was left aside, with its line */
    int notes;
    long more; /**< left aside beyond those */
};

/** Name of a column, as the header has it.
 * @param column  of a log
 * @return        e.g. "pedal_force"
 */
const char *brake_log_column_name(enum brake_log_column column);

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
 * @param drive    filled, the comparison aside
 * @param error    filled on refusal: line, what came and what is needed
 * @return         OK; E_MISSING when there is no stop; E_FIT when the rows are too far apart or too
 *                 noisy for every one; E_SIZE for too many stops or speeds
 */
enum brake_status brake_log_measure(const struct brake_log *log,
                                    const struct brake_nominal *nominal, struct brake_drive *drive,
                                    struct brake_error *error);

/** Free a log.
 * @param log  read
 */
void brake_log_free(struct brake_log *log);

#ifdef __cplusplus
}
#endif

#endif
