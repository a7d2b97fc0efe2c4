/* Equations and sources: brake/parking.h. */
#include "brake/parking.h"

#include <math.h>

#include "brake/constants.h"

double brake_parking_torque(double force, double ratio, double efficiency, double factor,
                            double radius, double gear)
{
    return force * ratio * efficiency * factor * radius * gear;
}

double brake_parking_needed(double mass, double grade, double radius)
{
    return mass * BRAKE_GRAVITY * grade / hypot(1.0, grade) * radius;
}

double brake_parking_grade(double mass, double torque, double radius)
{
    const double sine = torque / (mass * BRAKE_GRAVITY * radius);
    return sine >= 1.0 ? BRAKE_INFINITY : sine / sqrt(1.0 - sine * sine);
}

double brake_parking_adhesion(struct brake_body body, double wheelbase, enum brake_parking_on on,
                              double adhesion, double uphill)
{
    const double shift = uphill * adhesion * body.height;
    switch (on) {
    case BRAKE_PARKING_FRONT:
        return adhesion * (wheelbase - body.behind) / (wheelbase + shift);
    case BRAKE_PARKING_REAR:
        return adhesion * body.behind / (wheelbase - shift);
    case BRAKE_PARKING_ALL:
        break;
    }
    return adhesion;
}

double brake_band_ratio(double mu, double wrap)
{
    return exp(mu * wrap);
}
