/* SPDX-License-Identifier: MIT */
#include "brake/curves.h"

#include <math.h>

#include "model/braked_axles.h"
#include "system.h"

static struct brake_curve_point point_of(const struct brake_system *system,
                                         const struct brake_balance_state *at, double force,
                                         double pressure)
{
    struct brake_braked_axle axle[BRAKE_AXLES];
    struct brake_curve_point point = {
        .pedal_force = force, .pressure = pressure, .deceleration = at->deceleration};
    brake_axles_braked(&system->balance, at, pressure, axle);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        point.brake_pressure[i] = axle[i].pressure;
        point.torque[i] = axle[i].torque;
        point.force[i] = axle[i].force;
        point.load[i] = at->load[i];
        point.adhesion[i] = at->used[i];
    }
    return point;
}

static struct brake_curve_point nowhere(void)
{
    return (struct brake_curve_point){BRAKE_NAN,
                                      BRAKE_NAN,
                                      BRAKE_NAN,
                                      {BRAKE_NAN, BRAKE_NAN},
                                      {BRAKE_NAN, BRAKE_NAN},
                                      {BRAKE_NAN, BRAKE_NAN},
                                      {BRAKE_NAN, BRAKE_NAN},
                                      {BRAKE_NAN, BRAKE_NAN}};
}

void brake_curves_at_force(const struct brake_vehicle *vehicle, enum brake_load load,
                           enum brake_failure failure, const double *force, int count,
                           struct brake_curve_point *point)
{
    struct brake_system system;
    brake_system_build(vehicle, load, failure, &system);
    for (int i = 0; i < count; i++) {
        point[i] = nowhere();
        if (!(force[i] >= 0.0 && isfinite(force[i])))
            continue;
        const double pressure = brake_system_pressure(&system, force[i]);
        const struct brake_balance_state at = brake_balance_kept(
            &system.balance, pressure, brake_system_grip(&system), system.antilock);
        point[i] = point_of(&system, &at, force[i], pressure);
    }
}

void brake_curves_at_deceleration(const struct brake_vehicle *vehicle, enum brake_load load,
                                  enum brake_failure failure, const double *deceleration, int count,
                                  struct brake_curve_point *point)
{
    struct brake_system system;
    brake_system_build(vehicle, load, failure, &system);
    for (int i = 0; i < count; i++) {
        point[i] = nowhere();
        const double pressure = brake_balance_pressure(&system.balance, deceleration[i]);
        if (!isfinite(pressure))
            continue;
        const struct brake_balance_state at = brake_balance_at(&system.balance, pressure);
        point[i] = point_of(&system, &at, brake_pedal_force(&system.pedal, pressure), pressure);
    }
}
