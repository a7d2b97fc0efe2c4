/* SPDX-License-Identifier: MIT */
/** @file rig.h
 * A vehicle made ready for heat over time: its brakes as thermal.h wants them, its friction, and
 * the rig of braking.h.
 *
 * Heat needs lines that nothing else does. Where one is left out nothing is guessed: heat cannot be
 * said, and what is missing is told.
 */
#ifndef BRAKE_RIG_H
#define BRAKE_RIG_H

#include "brake/braking.h"
#include "brake/vehicle.h"

#ifdef __cplusplus
extern "C" {
#endif

/** A solid of reference/materials.json. */
struct brake_substance {
    const char *name;               /**< as there */
    struct brake_material material; /**< for the heat */
    double modulus;                 /**< [Pa] 0: not told, as the next three */
    double poisson;                 /**< [-] */
    double expansion;               /**< [1/K] */
    double strength;                /**< [Pa] tensile */
};

/** A rig with everything that it points to. It points into itself: build it where it stays. */
struct brake_hot_rig {
    struct brake_rig rig;
    struct brake_friction friction[BRAKE_AXLES];
    struct brake_thermal thermal[BRAKE_AXLES]; /**< one brake of each axle */
    double friction_until[BRAKE_AXLES];        /**< [K] end of a curve that the file gives; NaN: the
                                                    usual shape is assumed */
    const struct brake_substance *iron;        /**< of rotors and drums */
    double boiling;                            /**< [K] wet boiling point of the fluid */
};

/** Build the rig of a load case.
 * @param vehicle  complete
 * @param load     empty or full
 * @param hot      filled
 * @param error    filled when refused: which line is missing, or which makes a brake impossible
 * @return         OK; E_MISSING when heat cannot be said; E_RANGE for a brake that cannot be built
 */
enum brake_status brake_hot_rig_build(const struct brake_vehicle *vehicle, enum brake_load load,
                                      struct brake_hot_rig *hot, struct brake_error *error);

#ifdef __cplusplus
}
#endif

#endif
