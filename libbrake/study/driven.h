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
