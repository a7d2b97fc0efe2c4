/* SPDX-License-Identifier: MIT */
/* Other tyres on a vehicle; private to the library. */
#ifndef BRAKE_STUDY_TYRES_H
#define BRAKE_STUDY_TYRES_H

#include "brake/catalogue.h"

/** Give an axle tyres of another marking; what was measured on the old ones is left out.
 * @param sheet    afterwards still to be completed
 * @param axle     front or rear
 * @param marking  of the tyres
 */
void brake_tyre_fit(struct brake_sheet *sheet, int axle, const char *marking);

#endif
