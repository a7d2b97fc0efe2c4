/* SPDX-License-Identifier: MIT */
/* A vehicle as a lane of model/lanes.h; private to the library. */
#ifndef BRAKE_VEHICLE_LANE_H
#define BRAKE_VEHICLE_LANE_H

#include <stdbool.h>

#include "brake/system.h"
#include "model/lanes.h"

enum { BRAKE_LANE_NUMBERS = sizeof(struct brake_lane_numbers) / sizeof(brake_column) };

/* Whether a column may be NaN: what it counts for is not known then. */
bool brake_lane_open(int column);

/* Whether it has brakes that lanes know: no anti-lock, the centre drive free. */
bool brake_lane_known(const struct brake_vehicle *vehicle);

/* What a lane shows a vehicle in. */
struct brake_lane_state {
    enum brake_load load;
    enum brake_failure failure;
};

/* Fills a lane. */
void brake_lane_fill(const struct brake_vehicle *vehicle, struct brake_lane_state state, int lane,
                     struct brake_lane_numbers *numbers);

/* Columns that are built from the same sections of the vehicle file: from the first to the last, in
 * the order of the struct. */
struct brake_lane_part {
    int first, last;
    unsigned long long sections; /* as bits */
    unsigned asked;              /* BRAKE_LANES_..., by what alone they are needed; 0: by all */
};

enum { BRAKE_LANE_PARTS = 24 };

/* Of a state; number: 0 to BRAKE_LANE_PARTS - 1. */
struct brake_lane_part brake_lane_part(int number, enum brake_failure failure);

#endif
