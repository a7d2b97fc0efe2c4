/* SPDX-License-Identifier: MIT */
/** @file pedal.h
 * From the driver's foot to the pressure at each axle, and the fluid that it takes.
 *
 *   rod force       F_r = F R e                        F pedal force, R ratio, e efficiency
 *   booster         F_o = i F_r up to the knee, then F_r + A;  knee at F_r = A / (i - 1)
 *   accumulator     (p + p_atm) (v/v_0)^n stays, v gas, v_0 where the oil is out
 *   line pressure   p = F_o e_m / a_m
 *   rear valve      p_r = p up to the knee k, then k + s (p - k)
 *   fluid           V(p) = V_0 + c p + V_s p / (p + p_s) + V_a p / (p + p_atm);  p_s = 10 bar
 *
 * Source: Limpert, Brake Design and Safety, ch. 5 and 7 (from memory).
 */
#ifndef BRAKE_PEDAL_H
#define BRAKE_PEDAL_H

#include "brake/constants.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Pedal, booster and master cylinder as one chain of forces. */
struct brake_pedal {
    double ratio;       /**< [-] pad travel over push-rod travel */
    double efficiency;  /**< [-] of the pedal, 0 to 1 */
    double gain;        /**< [-] booster output over input below the knee, 1 without booster */
    double assist;      /**< [N] most that the booster adds, 0 without booster */
    double master_area; /**< [m2] of the master cylinder bore */
    double master_efficiency; /**< [-] 0 to 1 */
};

/** Area of one or more equal round pistons.
 * @param count     [-] number of pistons
 * @param diameter  [m]
 * @return          [m2]
 * @source          geometry
 */
double brake_piston_area(double count, double diameter);

/** Most that a booster can add.
 * @param pressure    [Pa] across its diaphragm or piston: vacuum, or oil
 * @param area        [m2] effective area of that
 * @param efficiency  [-] 0 to 1
 * @return            [N]
 * @source            Limpert, ch. 5
 */
double brake_booster_assist(double pressure, double area, double efficiency);

/** Pressure of an accumulator while nothing feeds it.
 *
 *   p = P (u / (u + s (1 - u)))^n,  u = (P_0/P)^(1/n), pressures absolute
 * @param charged    [Pa] P, above atmosphere
 * @param precharge  [Pa] P_0 of the gas when the oil is out, above atmosphere; up to P
 * @param exponent   [-] n: 1 slowly (isothermal), 1.4 quickly (adiabatic, nitrogen)
 * @param drawn      [-] s, part of the stored oil that is drawn
 * @return           [Pa] above atmosphere; 0 when more is drawn than there is
 * @source           Esposito, Fluid Power with Applications, ch. on accumulators (Boyle's law)
 */
double brake_accumulator_pressure(double charged, double precharge, double exponent, double drawn);

/** Booster output at a rod force.
 * @param gain    [-] output over input below the knee, 1 and up
 * @param assist  [N] most that the booster adds
 * @param input   [N] force of the pedal rod
 * @return        [N] force on the master cylinder
 * @source        Limpert, ch. 5 (slope 1 past run-out)
 */
double brake_booster_output(double gain, double assist, double input);

/** Rod force that gives a booster output.
 * @param gain    [-] output over input below the knee, 1 and up
 * @param assist  [N] most that the booster adds
 * @param output  [N] force on the master cylinder
 * @return        [N] force of the pedal rod
 * @source        inverse of brake_booster_output
 */
double brake_booster_input(double gain, double assist, double output);

/** Rod force at which the booster runs out.
 * @param gain    [-] above 1
 * @param assist  [N] most that the booster adds
 * @return        [N]; infinite for a gain of 1
 * @source        Limpert, ch. 5
 */
double brake_booster_knee(double gain, double assist);

/** Line pressure at a pedal force.
 * @param pedal  the chain of forces
 * @param force  [N] on the pedal pad
 * @return       [Pa]
 * @source       Limpert, ch. 5
 */
double brake_pedal_pressure(const struct brake_pedal *pedal, double force);

/** Pedal force that gives a line pressure.
 * @param pedal     the chain of forces
 * @param pressure  [Pa]
 * @return          [N] on the pedal pad
 * @source          inverse of brake_pedal_pressure
 */
double brake_pedal_force(const struct brake_pedal *pedal, double pressure);

/** Rear-line valve: rear pressure follows the front up to a knee, then at a slope. */
struct brake_valve {
    double knee;  /**< [Pa] infinite when no valve is fitted */
    double slope; /**< [-] 0 to 1 */
};

/** Pressure behind a proportioning valve.
 * @param valve     knee [Pa] and slope [-]
 * @param pressure  [Pa] ahead of it
 * @return          [Pa]
 * @source          Limpert, ch. 7
 */
double brake_valve_pressure(struct brake_valve valve, double pressure);

/** Knee of a valve that senses rear load through the height of the body over the axle. A lift that
 * the linkage was not reset for looks like load taken off: the valve cuts earlier.
 *
 *   knee = k_0 + rate (m - m_0 - lift c / g), not below 0
 * @param knee       [Pa] at the rear-axle mass it was set at
 * @param rate       [Pa/kg] rise of the knee with rear-axle mass
 * @param load       [kg] rear-axle mass now less that at setting
 * @param lift       [m] rise of the body at the rear not taken up at the linkage
 * @param stiffness  [N/m] of the rear suspension, both springs
 * @return           [Pa]
 * @source           spring balance; the linear rate is common practice, no source
 */
double brake_valve_knee_sensed(double knee, double rate, double load, double lift,
                               double stiffness);

/** Fluid that one circuit takes, term by term. The first four are filled at no pressure; the
 * others grow with it. */
struct brake_fluid {
    double gaps;       /**< [m3] running clearance of the pads */
    double shoes;      /**< [m3] travel of the shoes to the drum */
    double take_up;    /**< [m3] closing the ports of the master cylinder */
    double compliance; /**< [m3/Pa] calipers once their pads lie, and wheel cylinders */
    double seating; /**< [m3] calipers before, while pads, plates and seals lay themselves down */
    double hoses;   /**< [m3/Pa] hoses and lines */
    double air;     /**< [m3] free air at atmospheric pressure */
};

/** Fluid that a pair of calipers takes to close the pad clearance, both wheels of an axle. A
 * floating caliper moves its one-side area through both gaps; a fixed one moves both sides through
 * one gap each: the same figure.
 *
 *   V = 2 wheels x 2 gaps x A
 * @param area  [m2] piston area on one side of the rotor
 * @param gap   [m] clearance of one pad
 * @return      [m3]
 * @source      geometry; Limpert, ch. 5
 */
double brake_fluid_gaps(double area, double gap);

/** Fluid that the wheel cylinders of an axle take to bring the shoes to the drum.
 *
 *   V = 2 wheels x 2 shoes x A x travel
 * @param area    [m2] of one wheel-cylinder piston
 * @param travel  [m] of one piston
 * @return        [m3]
 * @source        geometry; Limpert, ch. 5
 */
double brake_fluid_shoes(double area, double travel);

/** Fluid that a pair of calipers takes by giving way, both wheels of an axle. Pads, their plates
 * and seals lay themselves down first, so that much of it goes at low pressure: six tenths of what
 * 100 bar takes below 30 bar.
 *
 *   V(p) = 2 wheels x V_100 (3/7 p / 100 bar + 4/7 x 1.1 p / (p + 10 bar))
 * @param volume  [m3] that one caliper takes at 100 bar
 * @return        a ledger of compliance [m3/Pa] and seating [m3], all else 0
 * @source        six tenths below 30 bar: common practice, no source; the form is ours
 */
struct brake_fluid brake_fluid_calipers(double volume);

/** What calipers have taken early, as their pads lie down.
 * @param fluid     the ledger [m3, m3/Pa]
 * @param pressure  [Pa] above atmosphere
 * @return          [m3]
 * @source          brake_fluid_calipers
 */
double brake_fluid_seated(const struct brake_fluid *fluid, double pressure);

/** Fluid of two ledgers together.
 * @param a  first ledger [m3, m3/Pa]
 * @param b  second ledger [m3, m3/Pa]
 * @return   the sum, term by term
 * @source   conservation of volume
 */
struct brake_fluid brake_fluid_sum(struct brake_fluid a, struct brake_fluid b);

/** Share of a ledger.
 * @param fluid  the ledger [m3, m3/Pa]
 * @param share  [-]
 * @return       every term times the share
 * @source       conservation of volume
 */
struct brake_fluid brake_fluid_share(struct brake_fluid fluid, double share);

/** Fluid that a circuit takes at a pressure.
 * @param fluid     the ledger [m3, m3/Pa]
 * @param pressure  [Pa] above atmosphere
 * @return          [m3]
 * @source          Limpert, ch. 5; Boyle's law for the free air
 */
double brake_fluid_volume(const struct brake_fluid *fluid, double pressure);

/** Highest pressure that a volume of fluid can reach in a circuit.
 * @param fluid   the ledger [m3, m3/Pa]
 * @param volume  [m3] that can be displaced
 * @return        [Pa]; 0 when the volume does not close the gaps, infinite for a rigid circuit
 * @source        inverse of brake_fluid_volume: Newton's method from below on a curve that bends
 *                down, which comes nearer with every step and never passes the root
 */
double brake_fluid_pressure(const struct brake_fluid *fluid, double volume);

/** How a hydraulic system is split in two circuits (letters of DIN 74000, from memory). */
enum brake_split {
    BRAKE_SPLIT_II, /**< front axle | rear axle */
    BRAKE_SPLIT_X,  /**< each circuit one front wheel and the rear wheel across */
    BRAKE_SPLIT_HI, /**< half of both front calipers and the rear axle | the other half */
    BRAKE_SPLIT_LL, /**< each half of both front calipers and one rear wheel */
    BRAKE_SPLIT_HH, /**< each half of every wheel */
    BRAKE_SPLIT_ONE /**< one circuit for all wheels: nothing left when it fails */
};

/** What one circuit works on an axle. */
struct brake_share {
    double torque; /**< [-] of the axle's brake torque and fluid */
    double wheels; /**< [-] of the axle's wheels that are braked: 0, 0.5 or 1 */
};

/** What one of the two circuits works on an axle.
 * @param split    how the system is split
 * @param circuit  0 or 1, in the order of the enumeration's words
 * @param axle     front or rear
 * @return         share of torque and of wheels; 0 and 0 for the missing second circuit of ONE; NaN
 *                 for what is no split, circuit or axle
 * @source         DIN 74000 (letters, from memory)
 */
struct brake_share brake_split_share(enum brake_split split, int circuit, enum brake_axle axle);

#ifdef __cplusplus
}
#endif

#endif
