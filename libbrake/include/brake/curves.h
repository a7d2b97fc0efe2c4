/* SPDX-License-Identifier: MIT */
/** @file curves.h
 * What the brakes of a vehicle do along pedal force or along deceleration: pressures, torques,
 * forces, loads, and the adhesion that each axle uses.
 *
 * Along pedal force driver or anti-lock keep the wheels from locking, as for the results of
 * deceleration. Along deceleration nothing does, whatever the tyres can hold: the adhesion used is
 * that of the curves of UN R13-H, Annex 5.
 */
#ifndef BRAKE_CURVES_H
#define BRAKE_CURVES_H

#include "brake/system.h"
#include "brake/vehicle.h"

#ifdef __cplusplus
extern "C" {
#endif

/** One point of the curves; NaN throughout where nothing gives it. */
struct brake_curve_point {
    double pedal_force;                 /**< [N] */
    double pressure;                    /**< [Pa] at the master cylinder */
    double deceleration;                /**< [m/s2] */
    double brake_pressure[BRAKE_AXLES]; /**< [Pa] at the brakes: behind valve, distribution and
                                             anti-lock; 0 where no circuit works */
    double torque[BRAKE_AXLES];         /**< [N*m] of both brakes, and of an engine in gear */
    double force[BRAKE_AXLES];          /**< [N] at the tyres, without rolling */
    double load[BRAKE_AXLES];           /**< [N] on the axle */
    double adhesion[BRAKE_AXLES];       /**< [-] that the axle uses */
};

/** Points along pedal force.
 * @param vehicle  complete
 * @param load     one of four
 * @param failure  what has failed
 * @param force    [N] of each point
 * @param count    of points
 * @param point    room for them, filled
 */
void brake_curves_at_force(const struct brake_vehicle *vehicle, enum brake_load load,
                           enum brake_failure failure, const double *force, int count,
                           struct brake_curve_point *point);

/** Points along deceleration.
 * @param vehicle       complete
 * @param load          one of four
 * @param failure       what has failed
 * @param deceleration  [m/s2] of each point
 * @param count         of points
 * @param point         room for them, filled; NaN where no pressure gives it
 */
void brake_curves_at_deceleration(const struct brake_vehicle *vehicle, enum brake_load load,
                                  enum brake_failure failure, const double *deceleration, int count,
                                  struct brake_curve_point *point);

#ifdef __cplusplus
}
#endif

#endif
