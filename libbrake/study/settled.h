/* SPDX-License-Identifier: MIT */
/* A vehicle at the middle of what its drive makes likely; private to the library. */
#ifndef BRAKE_STUDY_SETTLED_H
#define BRAKE_STUDY_SETTLED_H

#include "brake/catalogue.h"

/** Put every line that a drive told of where that drive has its middle.
 * @param sheet    complete
 * @param settled  filled, complete; as it is where no drive told of it
 */
void brake_settle(const struct brake_sheet *sheet, struct brake_sheet *settled);

#endif
