/* SPDX-License-Identifier: MIT */
/* Mixtures of two vehicles, many of the same two; private to this folder. */
#ifndef BRAKE_STUDY_MIXING_H
#define BRAKE_STUDY_MIXING_H

#include "brake/compare.h"

/* Both with lift, parts and loads as mass and centre of gravity, and where they differ. */
struct brake_mixing {
    struct brake_vehicle before, after;
    int moved;
    struct {
        enum brake_change change;
        size_t offset, size;
    } move[BRAKE_ROWS];
};

void brake_mixing_begin(const struct brake_vehicle *before, const struct brake_vehicle *after,
                        struct brake_mixing *mixing);

/* changed: as in brake_vehicle_mix. */
void brake_mixing_make(const struct brake_mixing *mixing, unsigned changed,
                       struct brake_vehicle *vehicle);

#endif
