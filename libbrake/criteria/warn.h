/* SPDX-License-Identifier: MIT */
/* Finding what a vehicle is to be warned of; private to the library. */
#ifndef BRAKE_CRITERIA_WARN_H
#define BRAKE_CRITERIA_WARN_H

#include "brake/warnings.h"

/** Warnings as they are found. */
struct warn_list {
    const struct brake_vehicle *vehicle;
    const struct brake_results *results;
    struct brake_warning *warning;
    int count;
};

/** Add one; nothing happens when there is no more room.
 * @param list    what was found so far
 * @param of      what is warned of
 * @param format  as of printf
 */
__attribute__((format(printf, 3, 4))) void warn_add(struct warn_list *list, enum brake_warned of,
                                                    const char *format, ...);

/** Numbers that are possible each, and not together: slips of who typed them.
 * @param list  filled up
 */
void warn_of_slips(struct warn_list *list);

/** Warnings of a vehicle.
 * @param vehicle   complete
 * @param results   of that vehicle
 * @param warnings  room for BRAKE_WARNINGS, filled from the start
 * @return          number of warnings
 */
int brake_warnings(const struct brake_vehicle *vehicle, const struct brake_results *results,
                   struct brake_warning *warnings);

#endif
