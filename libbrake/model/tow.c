/* SPDX-License-Identifier: MIT */
/* Equation and source: brake/tow.h. */
#include "brake/tow.h"

#include "brake/constants.h"

double brake_tow_deceleration(double mass, double deceleration, double trailer_mass,
                              double trailer_ratio, double working)
{
    const double trailer = working * trailer_ratio * trailer_mass * BRAKE_GRAVITY;
    return (mass * deceleration + trailer) / (mass + trailer_mass);
}
