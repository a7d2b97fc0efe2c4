/* SPDX-License-Identifier: MIT */
/* What the brakes of each axle do at the instant where a braking stands; private to the library. */
#ifndef BRAKE_MODEL_BRAKED_AXLES_H
#define BRAKE_MODEL_BRAKED_AXLES_H

#include "brake/braking.h"

/** The brakes of one axle at an instant. */
struct brake_braked_axle {
    double pressure; /**< [Pa] that they get: behind the valve, and no more than their torque takes
                          where distribution or anti-lock lets go; the mean of two circuits */
    double torque;   /**< [N*m] of both brakes */
    double force;    /**< [N] at the tyres: F_i of balance.h; 0 while the brakes are off */
};

/** The brakes of both axles in a state of the balance.
 * @param balance   the vehicle
 * @param at        its state
 * @param pressure  [Pa] at the master cylinder
 * @param axle      filled; 0 pressure where no circuit works an axle
 * @source          balance.h
 */
void brake_axles_braked(const struct brake_balance *balance, const struct brake_balance_state *at,
                        double pressure, struct brake_braked_axle axle[BRAKE_AXLES]);

/** The brakes of both axles at an instant.
 * @param rig      the vehicle
 * @param braking  where it stands; brakes are off where its pressure is 0
 * @param axle     filled
 * @source         balance.h; a braking has the friction, braking.h the torque per friction
 */
void brake_braked_axles(const struct brake_rig *rig, const struct brake_braking *braking,
                        struct brake_braked_axle axle[BRAKE_AXLES]);

#endif
