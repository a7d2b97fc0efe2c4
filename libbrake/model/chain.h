/* SPDX-License-Identifier: MIT */
/* The chain of brake/thermal.h: which node is what. */
#ifndef BRAKE_MODEL_CHAIN_H
#define BRAKE_MODEL_CHAIN_H

#include <stdbool.h>

#include "brake/thermal.h"

/* Index of the rubbed cell in the chain; the parts before it are those up to the pad. */
enum { FIRST_CELL = BRAKE_PART_PAD + 1, NODES = BRAKE_THERMAL_NODES };

/* Whether the counts of a brake fit its tables: somebody may have filled it by hand. */
static inline bool is_ready(const struct brake_thermal *brake)
{
    const int cells = brake->spec.cells;
    const int points = brake->spec.material.points;
    return cells >= 1 && cells <= BRAKE_WALL_CELLS && brake->nodes == cells + BRAKE_THERMAL_PARTS &&
           points >= 1 && points <= BRAKE_WALL_POINTS;
}

/* Node of the chain that a part is. */
static inline int node_of(int cells, enum brake_part part)
{
    return part <= BRAKE_PART_PAD ? (int)part : (int)part + cells;
}

#endif
