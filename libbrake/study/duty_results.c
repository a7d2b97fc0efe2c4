/* SPDX-License-Identifier: MIT */
#include "duty_results.h"

/* Of one brake of each axle. */
static void take_axles(const struct brake_hot_rig *hot, const struct brake_duty_result *result,
                       struct brake_study_results *results)
{
    const struct brake_duty_heat *front = &result->axle[BRAKE_FRONT];
    const struct brake_duty_heat *rear = &result->axle[BRAKE_REAR];
    const double air = hot->rig.air;
    results->heat.front_face = front->face_most;
    results->heat.front_face_last = front->face_last;
    results->heat.front_rotor = front->mean_most;
    results->heat.front_rotor_last = front->mean_last;
    results->heat.front_rotor_rise = front->mean_most - air;
    results->heat.front_pad = front->pad_most;
    results->heat.front_pad_last = front->pad_last;
    results->heat.front_fluid = front->fluid_most;
    results->heat.front_fluid_last = front->fluid_last;
    results->heat.front_stress = front->stress_most;
    results->heat.front_energy = front->energy;
    results->heat.rear_face = rear->face_most;
    results->heat.rear_face_last = rear->face_last;
    results->heat.rear_rotor = rear->mean_most;
    results->heat.rear_rotor_last = rear->mean_last;
    results->heat.rear_rotor_rise = rear->mean_most - air;
    results->heat.rear_pad = rear->pad_most;
    results->heat.rear_pad_last = rear->pad_last;
    results->heat.rear_fluid = rear->fluid_most;
    results->heat.rear_fluid_last = rear->fluid_last;
    results->heat.rear_stress = rear->stress_most;
    results->heat.rear_energy = rear->energy;
}

void brake_duty_results(const struct brake_hot_rig *hot, const struct brake_duty_result *result,
                        struct brake_study_results *results)
{
    results->heat.pedal_force_first = result->force_first;
    results->heat.pedal_force_last = result->force_last;
    results->heat.pedal_force_most = result->force_most;
    results->heat.distance = result->distance;
    results->heat.developed_deceleration = result->developed;
    results->heat.shortfall = result->shortfall;
    results->heat.fluid_margin = result->fluid_margin;
    results->heat.stress_share = result->stress_share;
    results->heat.energy_residual = result->residual;
    results->heat.duration = result->duration;
    results->heat.fluid_boiling = hot->boiling;
    take_axles(hot, result, results);
}
