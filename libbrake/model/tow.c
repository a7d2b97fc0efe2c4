/* SPDX-License-Identifier: MIT */
/* Equation and source: brake/tow.h. */
#include "brake/tow.h"

#include "formulas.h"

double brake_tow_deceleration(double mass, double deceleration, double trailer_mass,
                              double trailer_ratio, double working)
{
    return tow_deceleration(mass, deceleration, trailer_mass, trailer_ratio, working);
}
