/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/parking.h. */
#include "brake/parking.h"

#include <math.h>

#include "brake/constants.h"
#include "formulas.h"

double brake_parking_torque(double force, double ratio, double efficiency, double factor,
                            double radius, double gear)
{
    return force * ratio * efficiency * factor * radius * gear;
}

double brake_parking_needed(double mass, double grade, double radius)
{
    return mass * BRAKE_GRAVITY * (grade / hypot(1.0, grade)) * radius;
}

double brake_parking_grade(double mass, double torque, double radius)
{
    return parking_grade(mass, torque, radius);
}

double brake_parking_adhesion(struct brake_body body, double wheelbase, enum brake_parking_on on,
                              double adhesion, double uphill)
{
    return parking_adhesion(body, wheelbase, on == BRAKE_PARKING_FRONT, on == BRAKE_PARKING_ALL,
                            adhesion, uphill);
}

double brake_band_ratio(double mu, double wrap)
{
    return exp(mu * wrap);
}
