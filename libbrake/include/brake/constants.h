/* SPDX-License-Identifier: MIT */
/** @file constants.h
 * Constants that more than one subject uses.
 */
#ifndef BRAKE_CONSTANTS_H
#define BRAKE_CONSTANTS_H

#include <math.h>

/* The library computes in double; these macros of math.h are float. */
#define BRAKE_NAN ((double)NAN)
#define BRAKE_INFINITY ((double)INFINITY)

#define BRAKE_PI 3.14159265358979323846
/** [m/s2] standard gravity; source: BIPM, The International System of Units (CGPM 1901) */
#define BRAKE_GRAVITY 9.80665
/** [Pa] standard atmosphere; source: CGPM 1954 */
#define BRAKE_ATMOSPHERE 101325.0

/** The two axles, front first; used as an index. */
enum brake_axle { BRAKE_FRONT, BRAKE_REAR, BRAKE_AXLES };

#endif
