/* SPDX-License-Identifier: MIT */
#include "braked_axles.h"

#include <stddef.h>

#include "extremes.h"

/* The balance with friction as it is now. */
static struct brake_balance balance_now(const struct brake_rig *rig, const struct brake_braking *b)
{
    struct brake_balance balance = rig->balance;
    balance.drag = rig->air_drag * b->speed * b->speed;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        if (rig->friction[i] != NULL && rig->thermal[i] != NULL)
            balance.axle[i].gain *= brake_gain_ratio(&rig->law[i], b->friction[i]);
    }
    return balance;
}

/* Pressure at the brakes of an axle that nothing lets go. */
static double open_pressure(const struct brake_balance *balance, int axle, double pressure)
{
    const struct brake_hold *hold = &balance->hold;
    const double within = least_of(most_of(pressure, hold->from), hold->to);
    double at[] = {pressure, within, hold->from};
    for (int i = 0; i < 3 && axle == BRAKE_REAR; i++)
        at[i] = brake_valve_pressure(balance->valve, at[i]);
    return at[0] - balance->axle[axle].held * (at[1] - at[2]);
}

void brake_axles_braked(const struct brake_balance *balance, const struct brake_balance_state *at,
                        double pressure, struct brake_braked_axle axle[BRAKE_AXLES])
{
    struct brake_balance open = *balance;
    open.regulated = false;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_axle_brakes *brakes = &balance->axle[i];
        const double turning = (brakes->inertia + brakes->geared) / brakes->radius;
        const double most = brake_axle_torque(&open, (enum brake_axle)i, pressure);
        const double torque = at->force[i] * brakes->radius + turning * at->deceleration;
        axle[i].force = at->force[i];
        axle[i].torque = most_of(0.0, least_of(most, torque));
        axle[i].pressure = brakes->gain > 0.0 ? open_pressure(balance, i, pressure) : 0.0;
        if (axle[i].torque < most) /* never without a gain */
            axle[i].pressure =
                least_of(axle[i].pressure, brakes->threshold + axle[i].torque / brakes->gain);
    }
}

void brake_braked_axles(const struct brake_rig *rig, const struct brake_braking *braking,
                        struct brake_braked_axle axle[BRAKE_AXLES])
{
    for (int i = 0; i < BRAKE_AXLES; i++)
        axle[i] = (struct brake_braked_axle){.pressure = 0.0};
    if (braking->pressure == 0.0)
        return;
    const struct brake_balance balance = balance_now(rig, braking);
    const struct brake_balance_state at =
        brake_balance_kept(&balance, braking->pressure, rig->adhesion, rig->antilock);
    brake_axles_braked(&balance, &at, braking->pressure, axle);
}
