/* SPDX-License-Identifier: MIT */
/* The solids of reference/materials.json; private to the library. */
#ifndef BRAKE_VEHICLE_MATERIALS_H
#define BRAKE_VEHICLE_MATERIALS_H

#include "brake/rig.h"

/** A solid by its number.
 * @param index  0 and up
 * @return       the solid; NULL past the last
 */
const struct brake_substance *brake_substance_at(int index);

/** A solid by its name.
 * @param name  as in reference/materials.json
 * @return      the solid; NULL when there is none
 */
const struct brake_substance *brake_substance_find(const char *name);

#endif
