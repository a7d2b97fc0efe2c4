/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/stop.h. */
#include "brake/stop.h"

#include <math.h>

#include "brake/constants.h"
#include "formulas.h"

double brake_stop_distance(double speed, double deceleration, double dead_time, double build_up)
{
    return stop_distance(speed, deceleration, dead_time, build_up);
}

double brake_stop_time(double speed, double deceleration, double dead_time, double build_up)
{
    return stop_time(speed, deceleration, dead_time, build_up);
}

double brake_stop_allowed(double speed, double lag, double coefficient)
{
    const double kmh = speed * 3.6;
    return lag * speed + coefficient * kmh * kmh;
}

double brake_mfdd(double begin, double end, double distance)
{
    return (begin * begin - end * end) / (2.0 * distance);
}

double brake_slow_distance(double from, double to, double mass_factor, double adhesion,
                           double rolling, double slope)
{
    return mass_factor * (from * from - to * to) /
           (2.0 * BRAKE_GRAVITY * (adhesion + rolling + sin(slope)));
}

double brake_mass_factor(double ratio)
{
    return 1.04 + 0.0025 * ratio * ratio;
}

double brake_rolling_resistance(double speed)
{
    return 0.01 * (1.0 + speed / (147.0 * 0.3048));
}

double brake_energy(double mass, double speed)
{
    return energy_of(mass, speed);
}

double brake_bulk_rise(double energy, double mass, double heat_capacity)
{
    return energy / (mass * heat_capacity);
}

double brake_distance_corrected(double distance, double speed, double nominal)
{
    const double ratio = nominal / speed;
    return distance * ratio * ratio;
}
