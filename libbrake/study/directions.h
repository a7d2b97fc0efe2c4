/* SPDX-License-Identifier: MIT */
/* The table of direction numbers; private to this folder. */
#ifndef BRAKE_DIRECTIONS_H
#define BRAKE_DIRECTIONS_H

#include <stdint.h>

#include "sobol.h"

enum { DIRECTION_DEGREE = 13 /* highest in the table */ };

struct direction {
    uint16_t degree;
    uint16_t coefficients; /* inner ones of the polynomial, as bits, the highest power first */
    uint16_t first[DIRECTION_DEGREE];
};

/* That of dimension 2 comes first. */
extern const struct direction brake_directions[BRAKE_SOBOL_DIMENSIONS - 1];

#endif
