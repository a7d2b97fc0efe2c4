/* SPDX-License-Identifier: MIT */
/** @file disc.h
 * Disc brakes.
 *
 *   torque            T = 2 mu e (p - p0) A r_e,  A: piston area on ONE side of the rotor
 *   uniform pressure  r_e = integral of r dA / integral of dA
 *   uniform wear      r_e = integral of dA / integral of (1/r) dA
 *   circular pad, x = its radius over that of its centre, e
 *     uniform pressure  r_e = e (1 + x^2/8 + x^4/192 + ...), the first integrals in closed form
 *     uniform wear      r_e = e times the handbooks' table, which lies below the integrals
 *
 * Opposed pistons of a fixed caliper react each other and are not added; a floating caliper's
 * pistons press both pads. So A is one side in both cases and the factor 2 is the two faces.
 *
 * Sources: Budynas and Nisbett, Shigley's Mechanical Engineering Design, sec. 16-6; by way of it
 * Fazekas, On Circular Spot Brakes, J. Eng. Ind. 94 (1972); Limpert, Brake Design and Safety,
 * ch. 2.
 */
#ifndef BRAKE_DISC_H
#define BRAKE_DISC_H

#include "brake/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/** How pressure lies on the pad: new pads nearer to the first, bedded ones to the second. */
enum brake_contact { BRAKE_UNIFORM_PRESSURE, BRAKE_UNIFORM_WEAR };

/** A corner of a pad, axle at the origin. */
struct brake_point {
    double x; /**< [m] for a pad corner: along the radius through the pad's middle */
    double y; /**< [m] for a pad corner: across it */
};

/** Effective radius of an annular sector pad.
 * @param inner    [m] inner radius, 0 and up
 * @param outer    [m] outer radius, above the inner
 * @param contact  uniform pressure: (2/3)(ro^3 - ri^3)/(ro^2 - ri^2); uniform wear: (ro + ri)/2
 * @return         [m]; NaN when the radii are out of range
 * @source         Shigley, sec. 16-6, eq. for re
 */
double brake_radius_sector(double inner, double outer, enum brake_contact contact);

/** Effective radius of a circular pad.
 * @param pad      [m] radius of the pad, at most half of that of its centre, where the table ends
 * @param centre   [m] axle to the pad's centre
 * @param contact  uniform pressure: mean distance from the axle, 2F1(-1/2, -1/2; 2; x^2) of the
 *                 centre's; uniform wear: the handbooks' table, 1.6 % (x = 0.1) to 3.3 % (x = 0.4)
 *                 below the integrals of the file head, the side of too little torque
 * @return         [m]; NaN when the radii are out of range
 * @source         Shigley, sec. 16-6, table of a circular pad's parameters, after Fazekas; linear
 *                 between its points, as in the example there (from memory)
 */
double brake_radius_circle(double pad, double centre, enum brake_contact contact);

/** Effective radius of a pad of any outline, exact for straight edges.
 * @param corner   corners in order round the pad [m], 3 or more; the axle outside the outline
 * @param count    number of corners
 * @param contact  law of contact
 * @param radius   [m] filled; NaN when refused
 * @return         OK or E_SHAPE
 * @source         Green's theorem on the two integrals of the file head: over a straight edge at
 *                 distance d from the axle, r and 1/r integrate in closed form
 */
enum brake_status brake_radius_polygon(const struct brake_point *corner, int count,
                                       enum brake_contact contact, double *radius);

/** Effective radius of a rectangular pad.
 * @param outer    [m] distance from the axle to the middle of the outer edge
 * @param height   [m] along the radius
 * @param width    [m] across it
 * @param contact  law of contact
 * @param radius   [m] filled; NaN when refused
 * @return         OK or E_SHAPE
 * @source         brake_radius_polygon on four corners
 */
enum brake_status brake_radius_rectangle(double outer, double height, double width,
                                         enum brake_contact contact, double *radius);

/** Radius at which the clamp force of a sector pad acts (not the radius of the torque).
 * @param inner    [m] inner radius
 * @param outer    [m] outer radius
 * @param arc      [rad] angle of the sector, 0 to 2 pi
 * @param contact  law of contact
 * @return         [m]
 * @source         Shigley, sec. 16-6, eq. for r bar
 */
double brake_sector_force_radius(double inner, double outer, double arc,
                                 enum brake_contact contact);

/** Largest lining pressure of a sector pad (at the inner edge under uniform wear).
 * @param clamp    [N] force on one pad
 * @param inner    [m] inner radius
 * @param outer    [m] outer radius
 * @param arc      [rad] angle of the sector
 * @param contact  law of contact
 * @return         [Pa]
 * @source         Shigley, sec. 16-6, eq. for F
 */
double brake_sector_pressure(double clamp, double inner, double outer, double arc,
                             enum brake_contact contact);

/** Largest lining pressure of a circular pad (nearest to the axle under uniform wear).
 * @param clamp    [N] force on one pad
 * @param pad      [m] radius of the pad, at most half of that of its centre
 * @param centre   [m] axle to the pad's centre
 * @param contact  law of contact
 * @return         [Pa]; NaN when the radii are out of range
 * @source         Shigley, sec. 16-6, the table of brake_radius_circle (from memory)
 */
double brake_circle_pressure(double clamp, double pad, double centre, enum brake_contact contact);

/** One disc brake. */
struct brake_disc {
    double area;       /**< [m2] pistons on one side of the rotor */
    double radius;     /**< [m] effective radius */
    double mu;         /**< [-] pad friction */
    double efficiency; /**< [-] 0 to 1 */
    double threshold;  /**< [Pa] pressure that moves nothing yet */
};

/** Clamp force on one pad.
 * @param disc      the brake
 * @param pressure  [Pa] at the caliper
 * @return          [N]; 0 below the threshold
 * @source          Limpert, ch. 2
 */
double brake_disc_clamp(const struct brake_disc *disc, double pressure);

/** Torque of one disc brake.
 * @param disc      the brake
 * @param pressure  [Pa] at the caliper
 * @return          [N*m]; 0 below the threshold
 * @source          Limpert, ch. 2; Shigley, sec. 16-6
 */
double brake_disc_torque(const struct brake_disc *disc, double pressure);

#ifdef __cplusplus
}
#endif

#endif
