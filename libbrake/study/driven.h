/* SPDX-License-Identifier: MIT */
/* What a vehicle would have done in a measured stop; private to the library. */
#ifndef BRAKE_STUDY_DRIVEN_H
#define BRAKE_STUDY_DRIVEN_H

#include "brake/drivelog.h"
#include "vehicle/system.h"

/** What of the adhesion is asked for: enough that no wheel locks. */
#define BRAKE_DRIVE_GRIP 100.0

/** Deceleration on the road of a stop, for what the foot did in it.
 * @param drive      that the stop is of
 * @param day        what the measuring is taken to be off by
 * @param drag_area  [m2]
 * @param system     of the vehicle, as it was loaded
 * @param stop       that has pedal force or pressure
 * @param adhesion   [-] that of a road, or BRAKE_DRIVE_GRIP
 * @return           [m/s2]
 */
double brake_drive_predict(const struct brake_drive *drive, const struct brake_drive_day *day,
                           double drag_area, const struct brake_system *system,
                           const struct brake_drive_stop *stop, double adhesion);

/** A drive, and how the vehicle was loaded in it. */
struct brake_loaded_drive {
    enum brake_load load;
    const struct brake_drive *drive;
};

/** Learn of a vehicle what the stops of several drives, and the forces of its tester, tell
 * together. What a day of measuring is off by belongs to one drive.
 * @param sheet   complete; its knowledge is filled, from nothing
 * @param driven  measured
 * @param drives  0 and up
 * @return        OK; E_SIZE for more than BRAKE_DRIVE_STOPS stops in all; E_MEMORY
 */
enum brake_status brake_drives_learn(struct brake_sheet *sheet,
                                     const struct brake_loaded_drive *driven, int drives);

/** Learn of a vehicle what its stops, and the forces of its tester, tell: every study of it draws
 * it so from then on.
 * @param sheet  complete; its knowledge is filled, from nothing
 * @param load   as it was driven
 * @param drive  measured; NULL: none, the tester alone
 * @return       OK; E_MEMORY
 */
enum brake_status brake_drive_learn(struct brake_sheet *sheet, enum brake_load load,
                                    const struct brake_drive *drive);

#endif
