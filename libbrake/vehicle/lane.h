/* SPDX-License-Identifier: MIT */
/* A vehicle as a lane of model/lanes.h; private to the library. */
#ifndef BRAKE_VEHICLE_LANE_H
#define BRAKE_VEHICLE_LANE_H

#include <stdbool.h>

#include "brake/system.h"
#include "model/lanes.h"

enum { BRAKE_LANE_NUMBERS = sizeof(struct brake_lane_numbers) / sizeof(brake_column) };

/* Whether it has brakes that lanes know: no anti-lock, the centre drive free. */
bool brake_lane_known(const struct brake_vehicle *vehicle);

/* Fills a lane with a load case. */
void brake_lane_fill(const struct brake_vehicle *vehicle, enum brake_load load, int lane,
                     struct brake_lane_numbers *numbers);

/* Columns that are built from the same sections of the vehicle file: from the first to the last, in
 * the order of the struct. */
struct brake_lane_part {
    int first, last;
    unsigned long long sections; /* as bits */
    unsigned asked;              /* BRAKE_LANES_..., by what alone they are needed; 0: by all */
};

enum { BRAKE_LANE_PARTS = 17 };

/* number: 0 to BRAKE_LANE_PARTS - 1 */
struct brake_lane_part brake_lane_part(int number);

#endif
