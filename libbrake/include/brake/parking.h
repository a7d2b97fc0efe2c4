/* SPDX-License-Identifier: MIT */
/** @file parking.h
 * Parking brake: the torque it has, and the grade it holds.
 *
 *   torque   T = F R e C* r i           F hand or foot force, R ratio, i gear to the wheels
 *   needed   T = m g sin(t) r
 *   tyres    front braked, nose up:  tan t = k (L - x) / (L + k h)
 *            rear braked,  nose up:  tan t = k x / (L - k h);   nose down: the sign of h turns
 *
 * Source: Jazar, Vehicle Dynamics, ch. 2, from its axle loads (the printed limit angle for the
 * front-braked car contradicts them; the balance is used).
 */
#ifndef BRAKE_PARKING_H
#define BRAKE_PARKING_H

#include "brake/load.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Which wheels the parking brake works on. */
enum brake_parking_on { BRAKE_PARKING_FRONT, BRAKE_PARKING_REAR, BRAKE_PARKING_ALL };

/** Torque of a parking brake at the wheels, all of them together.
 *
 * The force of the control, times ratio and efficiency, is shared by the brakes it works on; so
 * their number does not appear.
 * @param force       [N] at the hand or foot
 * @param ratio       [-] force that applies the shoes or pads over force at the control
 * @param efficiency  [-] of lever and cable, 0 to 1
 * @param factor      [-] brake factor C* (drum), or 2 mu (disc)
 * @param radius      [m] drum radius, or effective radius (disc)
 * @param gear        [-] 1 at the wheels, the axle ratio for a brake on the propeller shaft
 * @return            [N*m]
 * @source            Limpert, Brake Design and Safety, ch. 2
 */
double brake_parking_torque(double force, double ratio, double efficiency, double factor,
                            double radius, double gear);

/** Torque at the wheels that holds a mass on a grade.
 * @param mass    [kg]
 * @param grade   [-] rise over run
 * @param radius  [m] rolling radius of the braked wheels
 * @return        [N*m]
 * @source        statics: m g sin(t) r
 */
double brake_parking_needed(double mass, double grade, double radius);

/** Steepest grade that a torque holds.
 * @param mass    [kg]
 * @param torque  [N*m] at the wheels
 * @param radius  [m] rolling radius of the braked wheels
 * @return        [-] rise over run; infinite when the torque would hold a vertical wall
 * @source        inverse of brake_parking_needed
 */
double brake_parking_grade(double mass, double torque, double radius);

/** Steepest grade on which the tyres of the braked wheels hold.
 * @param body       mass [kg] and centre [m]
 * @param wheelbase  [m]
 * @param on         braked wheels
 * @param adhesion   [-] peak friction of tyre and road
 * @param uphill     [-] +1: nose uphill, -1: nose downhill
 * @return           [-] rise over run
 * @source           Jazar, Vehicle Dynamics, ch. 2 (axle loads of a parked car on an incline)
 */
double brake_parking_adhesion(struct brake_body body, double wheelbase, enum brake_parking_on on,
                              double adhesion, double uphill);

/** Tight-side over slack-side tension of a band wrapped round a drum: exp(mu wrap).
 * @param mu    [-] friction
 * @param wrap  [rad] angle of wrap
 * @return      [-]
 * @source      Bhandari, Design of Machine Elements, ch. 12 (band brakes)
 */
double brake_band_ratio(double mu, double wrap);

#ifdef __cplusplus
}
#endif

#endif
