/* SPDX-License-Identifier: MIT */
/** @file load.h
 * Mass, centre of gravity and axle loads.
 *
 *   x   distance of the centre of gravity behind the front axle
 *   h   its height above the road
 *   L   wheelbase
 *   front load while slowing by a on a slope of angle t (positive uphill):
 *       N1 = m (g cos t (L - x) - g sin t h + a h) / L,   N2 = m g cos t - N1
 *
 * Sources: Gillespie, Fundamentals of Vehicle Dynamics, ch. 1; ISO 10392 (tilt test).
 */
#ifndef BRAKE_LOAD_H
#define BRAKE_LOAD_H

#ifdef __cplusplus
extern "C" {
#endif

/** A mass and where its centre is. */
struct brake_body {
    double mass;   /**< [kg] */
    double behind; /**< [m] distance behind the front axle; negative when ahead of it */
    double height; /**< [m] above the road */
};

/** Two bodies as one; a removed part has a negative mass.
 * @param a  first body
 * @param b  second body
 * @return   mass [kg] and centre [m] of both; NaN position when the masses cancel
 * @source   definition of the centre of mass
 */
struct brake_body brake_body_sum(struct brake_body a, struct brake_body b);

/** Distance of the centre of gravity behind the front axle, from the axle loads.
 * @param front      [kg] on the front axle
 * @param rear       [kg] on the rear axle
 * @param wheelbase  [m]
 * @return           [m]
 * @source           Gillespie, ch. 1, static axle loads
 */
double brake_cg_behind_front(double front, double rear, double wheelbase);

/** Height of the centre of gravity from the tilted-axle test: one axle raised, the other weighed.
 *
 *   h = dm L / (m tan t) + hub height at the centre of gravity,   sin t = lift / L
 * @param gain           [kg] gain in load of the axle that stays on the ground
 * @param mass           [kg] whole vehicle
 * @param wheelbase      [m]
 * @param lift           [m] rise of the raised hubs, above 0 and below the wheelbase
 * @param hub_height     [m] height of the hub line at the centre of gravity, vehicle level
 * @return               [m] height above the road; NaN for a lift out of range
 * @source               ISO 10392, axle-lift method (from memory); moment balance
 */
double brake_cg_height_tilt(double gain, double mass, double wheelbase, double lift,
                            double hub_height);

/** Rise of the centre of gravity by bigger tyres and a suspension lift; the axles rise with the
 * tyres only.
 *
 *   dh = wheel rise + lift (m - m_u) / m
 * @param mass        [kg] whole vehicle
 * @param unsprung    [kg] axles, wheels and what is fixed to them
 * @param lift        [m] rise of the body over the axles
 * @param wheel_rise  [m] rise of the hubs
 * @return            [m]
 * @source            centre of mass of two bodies
 */
double brake_cg_rise(double mass, double unsprung, double lift, double wheel_rise);

/** Load on the front axle of a body on its wheels.
 * @param body          mass [kg] and centre [m]
 * @param wheelbase     [m]
 * @param deceleration  [m/s2] along the road, positive when slowing forward travel
 * @param slope         [rad] of the road, positive when the nose points uphill
 * @return              [N] on both front wheels; the rear carries m g cos(slope) minus this
 * @source              Gillespie, ch. 1; Jazar, Vehicle Dynamics, ch. 2
 */
double brake_front_load(struct brake_body body, double wheelbase, double deceleration,
                        double slope);

#ifdef __cplusplus
}
#endif

#endif
