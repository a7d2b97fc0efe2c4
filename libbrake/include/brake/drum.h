/* SPDX-License-Identifier: MIT */
/** @file drum.h
 * Drum brakes.
 *
 * Shoe factor S = drag at the drum radius over the force that applies the shoe; brake factor
 * C* = drag of both shoes over the force of one wheel-cylinder piston; torque T = C* F r.
 * Long shoe (pressure grows with the sine of the angle from the pivot):
 *
 *   A = r (cos t1 - cos t2) - (a/2)(sin^2 t2 - sin^2 t1)
 *   B = a [(t2 - t1)/2 - (sin 2 t2 - sin 2 t1)/4]
 *   S = mu c (cos t1 - cos t2) / (B -+ mu A)      minus: leading, plus: trailing
 *
 * A leading shoe with B <= mu A locks by itself: refused.
 *
 * Sources: Budynas and Nisbett, Shigley's Mechanical Engineering Design, sec. 16-3; Norton, Machine
 * Design, ch. on brakes (short shoe).
 */
#ifndef BRAKE_DRUM_H
#define BRAKE_DRUM_H

#include "brake/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/** How the shoes of a drum are arranged. */
enum brake_shoes { BRAKE_LEADING_TRAILING, BRAKE_TWO_LEADING, BRAKE_DUO_SERVO };

/** Which way the drum turns under a shoe. */
enum brake_lead { BRAKE_LEADING, BRAKE_TRAILING };

/** A pivoted shoe; angles are measured at the drum's axis from the line to the pivot. */
struct brake_shoe {
    double drum_radius;  /**< [m] r */
    double pivot_radius; /**< [m] a, distance of the pivot from the drum's axis */
    double force_arm;    /**< [m] c, distance of the wheel-cylinder line from the pivot */
    double heel;         /**< [rad] t1, where the lining begins */
    double toe;          /**< [rad] t2, where it ends; above t1 and up to pi */
};

/** Shoe factor of a short shoe, its contact force in one point.
 *
 *   S = mu arm_force / (arm_normal -+ mu arm_friction)
 * @param mu            [-] lining friction
 * @param arm_force     [m] distance of the applying force from the pivot
 * @param arm_normal    [m] distance of the contact force from the pivot
 * @param arm_friction  [m] distance of the friction force from the pivot
 * @param lead          leading or trailing
 * @return              [-]; NaN when a leading shoe locks by itself
 * @source              Norton, Machine Design, double short-shoe brake
 */
double brake_shoe_factor_short(double mu, double arm_force, double arm_normal, double arm_friction,
                               enum brake_lead lead);

/** Moments about the pivot per unit of largest lining pressure and lining width.
 * @param shoe      geometry [m, rad]
 * @param normal    [m2] filled: moment of the contact forces, r B / sin(t_a)
 * @param friction  [m2] filled: moment of the friction forces at mu = 1, r A / sin(t_a)
 * @source          Shigley, eq. 16-2 and 16-3; t_a is 90 deg or t2 when that is less
 */
void brake_shoe_moments(const struct brake_shoe *shoe, double *normal, double *friction);

/** Shoe factor of a long shoe.
 * @param shoe    geometry [m, rad]
 * @param mu      [-] lining friction, above 0
 * @param lead    leading or trailing
 * @param factor  [-] filled; NaN when refused
 * @return        OK, E_RANGE or E_SELF_LOCK
 * @source        Shigley, sec. 16-3, eq. 16-2 to 16-6
 */
enum brake_status brake_shoe_factor(const struct brake_shoe *shoe, double mu, enum brake_lead lead,
                                    double *factor);

/** Largest lining pressure of a long shoe.
 * @param shoe   geometry [m, rad]
 * @param mu     [-] lining friction
 * @param lead   leading or trailing
 * @param force  [N] that applies the shoe
 * @param width  [m] of the lining
 * @return       [Pa]; NaN or negative when the shoe locks by itself
 * @source       Shigley, eq. 16-4 and 16-7
 */
double brake_shoe_pressure(const struct brake_shoe *shoe, double mu, enum brake_lead lead,
                           double force, double width);

/** Brake factor of a drum from its shoe factors.
 *
 *   leading-trailing C* = S_l + S_t;  two-leading C* = 2 S_l;
 *   duo-servo C* = S_l (1 + F_x/F), link force F_x/F = (h_a + S_l r) / h_l, both shoes alike
 * @param shoes     arrangement
 * @param leading   [-] factor of a leading shoe
 * @param trailing  [-] factor of a trailing shoe
 * @param link      [-] F_x/F, used by duo-servo only
 * @return          [-] C*
 * @source          moment balance of the floating primary shoe; ranges in Breuer and Bill, Brake
 *                  Technology Handbook
 */
double brake_drum_factor(enum brake_shoes shoes, double leading, double trailing, double link);

/** Force that the floating primary shoe of a duo-servo drum hands on, over its own applying force.
 * @param leading      [-] factor of the primary shoe
 * @param drum_radius  [m] r
 * @param arm_force    [m] h_a, distance of the wheel-cylinder line from the drum's axis
 * @param arm_link     [m] h_l, distance of the link from the drum's axis
 * @return             [-]
 * @source             moment balance about the drum's axis
 */
double brake_drum_link(double leading, double drum_radius, double arm_force, double arm_link);

/** Brake factor of a drum from the geometry of its shoes (both shoes alike).
 * @param shoe    geometry [m, rad]
 * @param shoes   arrangement
 * @param mu      [-] lining friction
 * @param factor  [-] filled: C*; NaN when refused
 * @return        OK, E_RANGE or E_SELF_LOCK
 * @source        brake_shoe_factor and brake_drum_factor; the duo-servo link is taken at the pivot
 *                radius, the wheel cylinder at force_arm - pivot_radius
 */
enum brake_status brake_drum_factor_shape(const struct brake_shoe *shoe, enum brake_shoes shoes,
                                          double mu, double *factor);

/** Brake factor of a duo-servo drum from the geometry of its two shoes. The wheel cylinder works
 * the primary shoe, whose pivot is the link; the link works the secondary one, whose pivot is the
 * anchor.
 *
 *   C* = S_1 + S_2 F_x/F
 * @param primary       geometry [m, rad], angles from the link
 * @param mu            [-] its lining friction
 * @param secondary     geometry [m, rad], angles from the anchor; same drum
 * @param mu_secondary  [-] its lining friction
 * @param factor        [-] filled: C*; NaN when refused
 * @return              OK, E_RANGE or E_SELF_LOCK
 * @source              brake_shoe_factor and brake_drum_link; the link is taken at the pivot
 *                      radius, the wheel cylinder at force_arm - pivot_radius of the primary
 */
enum brake_status brake_drum_factor_servo(const struct brake_shoe *primary, double mu,
                                          const struct brake_shoe *secondary, double mu_secondary,
                                          double *factor);

/** One drum brake. */
struct brake_drum {
    double area;       /**< [m2] of one wheel-cylinder piston */
    double radius;     /**< [m] of the drum */
    double factor;     /**< [-] C* */
    double efficiency; /**< [-] 0 to 1 */
    double threshold;  /**< [Pa] pressure that only stretches the return springs */
};

/** Torque of one drum brake.
 * @param drum      the brake
 * @param pressure  [Pa] at the wheel cylinder
 * @return          [N*m]; 0 below the threshold
 * @source          Limpert, Brake Design and Safety, ch. 2
 */
double brake_drum_torque(const struct brake_drum *drum, double pressure);

#ifdef __cplusplus
}
#endif

#endif
