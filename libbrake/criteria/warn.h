/* Finding what a vehicle is to be warned of; private to the library. */
#ifndef BRAKE_CRITERIA_WARN_H
#define BRAKE_CRITERIA_WARN_H

#include "brake/warnings.h"

/** Warnings of a vehicle.
 * @param vehicle   complete
 * @param results   of that vehicle
 * @param warnings  room for BRAKE_WARNINGS, filled from the start
 * @return          number of warnings
 */
int brake_warnings(const struct brake_vehicle *vehicle, const struct brake_results *results,
                   struct brake_warning *warnings);

#endif
