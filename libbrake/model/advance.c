/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/thermal.h. */
#define WIDTH 1
#include "advance.h"
#include "advance_at.h"

void brake_advance_alone(struct brake_thermal_task *const *task, int count)
{
    advance(task, count);
}

double brake_thermal_face_under(const struct brake_thermal *brake,
                                const struct brake_thermal_state *state, double power, double speed,
                                double air)
{
    const double contact = power > 0.0 ? brake->spec.contact : 0.0;
    const struct instant now = {.power = power, .speed = speed, .air = air, .contact = contact};
    struct brakes brakes;
    struct field field;
    if (!is_ready(brake))
        return BRAKE_NAN;
    put_brakes(&brake, &brakes);
    find_field(&brakes, state->enthalpy, &field);
    return face_temperature(&brakes, &now, &field);
}
