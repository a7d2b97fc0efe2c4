/* SPDX-License-Identifier: MIT */
/* The stops of a drive, before they are held against the prediction; private to the library. */
#ifndef BRAKE_STUDY_STOPS_H
#define BRAKE_STUDY_STOPS_H

#include "brake/drivelog.h"

/** Find and measure the stops of a log.
 * @param row      in order of time
 * @param rows     number of them
 * @param nominal  speeds that stops are brought to
 * @param day      what the measuring may be off by
 * @param drive    filled, the comparison aside
 * @return         OK; E_SIZE for more than BRAKE_DRIVE_STOPS stops or too many speeds
 */
enum brake_status brake_drive_measure(const struct brake_log_row *row, long rows,
                                      const struct brake_nominal *nominal,
                                      const struct brake_drive_day *day, struct brake_drive *drive);

/** Whether a stop counts: no flag but that the brakes were on when the log began.
 * @param stop  measured
 * @return      true when it does
 */
bool brake_drive_counts(const struct brake_drive_stop *stop);

/** Whether the foot is on the brake.
 * @param row  of a log
 * @return     true when its pedal force or pressure says so
 */
bool brake_foot_on(const struct brake_log_row *row);

/** Number that 95 of 100 stay below, of Student's t.
 * @param freedom  degrees of it, 1 and up
 * @return         [-]; NaN below 1
 */
double brake_student_95(int freedom);

#endif
