/* SPDX-License-Identifier: MIT */
/* Lines of a vehicle file that a number depends on, found by moving each a little; private to the
 * library. */
#ifndef BRAKE_DEPENDENCE_H
#define BRAKE_DEPENDENCE_H

#include "brake/catalogue.h"

struct brake_dependence {
    int index;     /* of the line */
    double change; /* [SI] of the number; NaN: from a value to none, or back */
};

/* A number of a vehicle, [SI]; NaN when it cannot be given. Asked on several threads. */
typedef double brake_asked(const void *context, const struct brake_vehicle *vehicle);

/* Fills the lines that change a number when they alone are raised by 1 %, a temperature by 1 K, 0
 * by 1 % of its range; those that change it most come first. Returns how many. A line that is
 * worked out is none of them: those that it comes from are. */
int brake_depends(const struct brake_sheet *sheet, brake_asked *ask, const void *context,
                  struct brake_dependence list[BRAKE_ROWS]);

#endif
