/* SPDX-License-Identifier: MIT */
/** @file heat.h
 * Closed-form heat: exact solutions of simple cases, for estimates and to hold a numerical model
 * against.
 *
 *   effusivity      e = sqrt(k rho c)
 *   half-space      constant flux q: dT = (2 q sqrt(al t / pi) exp(-x^2/(4 al t))
 *                   - q x erfc(x/(2 sqrt(al t)))) / k
 *   falling flux    q0 (1 - t/t_s): dT = (2 q0/e) sqrt(t/pi) (1 - 2t/(3 t_s)) at the surface
 *   slab            heated on one face, insulated on the other: the series of Carslaw and Jaeger
 *
 * Sources: Carslaw and Jaeger, Conduction of Heat in Solids; Newcomb, J. Mech. Eng. Sci. 2 (1960);
 * Limpert, Brake Design and Safety, ch. 3.
 */
#ifndef BRAKE_HEAT_H
#define BRAKE_HEAT_H

#ifdef __cplusplus
extern "C" {
#endif

/** A solid. */
struct brake_solid {
    double conductivity;  /**< [W/(m*K)] k */
    double density;       /**< [kg/m3] rho */
    double heat_capacity; /**< [J/(kg*K)] c */
};

/** Effusivity: how strongly a surface draws heat.
 * @param solid  the material
 * @return       [W*s^0.5/(m2*K)]
 * @source       Carslaw and Jaeger, sec. 2.9
 */
double brake_effusivity(struct brake_solid solid);

/** Diffusivity: how fast temperature spreads.
 * @param solid  the material
 * @return       [m2/s]
 * @source       Carslaw and Jaeger, sec. 1.6
 */
double brake_diffusivity(struct brake_solid solid);

/** Share of friction heat that goes into the rotor.
 * @param rotor  rotor material
 * @param pad    pad material
 * @param cover  [-] share of the rubbing band that the pads cover, 1 to leave it out
 * @return       [-] e_d / (e_d + e_p cover)
 * @source       Limpert, ch. 3; Talati and Jalalifar, Heat Mass Transfer 45 (2009) 1047
 */
double brake_heat_share(struct brake_solid rotor, struct brake_solid pad, double cover);

/** Rise in a half-space under constant flux.
 * @param solid  the material
 * @param flux   [W/m2]
 * @param time   [s] above 0
 * @param depth  [m] 0 at the surface
 * @return       [K]
 * @source       Carslaw and Jaeger, sec. 2.9; Holman, Heat Transfer, eq. 4-13
 */
double brake_half_space_rise(struct brake_solid solid, double flux, double time, double depth);

/** Surface rise of a half-space under a flux that falls in a straight line to 0.
 * @param solid     the material
 * @param flux      [W/m2] at the start
 * @param time      [s] 0 to duration
 * @param duration  [s] of the stop
 * @return          [K]; largest at half the duration
 * @source          Newcomb 1960; Limpert, ch. 3 (exact coefficient)
 */
double brake_falling_flux_rise(struct brake_solid solid, double flux, double time, double duration);

/** A slab heated on one face, insulated on the other (half a rotor heated on both faces). */
struct brake_slab {
    struct brake_solid solid; /**< the material */
    double thickness;         /**< [m] */
};

/** Rise in a slab under constant flux.
 * @param slab   material and thickness
 * @param flux   [W/m2]
 * @param time   [s] 0 and up
 * @param depth  [m] 0 at the heated face, thickness at the insulated one
 * @return       [K]; series cut at 1e-16; NaN before time 0
 * @source       Carslaw and Jaeger, sec. 3.8
 */
double brake_slab_rise(const struct brake_slab *slab, double flux, double time, double depth);

/** Rise of the heated face of a slab under a flux that falls in a straight line to 0.
 * @param slab      material and thickness
 * @param flux      [W/m2] at the start
 * @param time      [s] 0 to duration
 * @param duration  [s] of the stop
 * @return          [K]; NaN before time 0
 * @source          Duhamel superposition on brake_slab_rise
 */
double brake_slab_falling_rise(const struct brake_slab *slab, double flux, double time,
                               double duration);

/** Rise right after the last of a number of equal stops of a lump that cools between them.
 * @param rise      [K] of one stop
 * @param stops     [-] number of stops
 * @param interval  [s] between stops
 * @param rate      [1/s] cooling rate, h A / (m c), 0 when nothing is lost
 * @return          [K]
 * @source          Limpert, ch. 3; Newcomb 1960 (geometric series)
 */
double brake_repeated_rise(double rise, double stops, double interval, double rate);

/** Rise of a lump heated at constant power and cooled by convection.
 * @param power        [W]
 * @param conductance  [W/K] h A, 0 when nothing is lost
 * @param capacity     [J/K] m c
 * @param time         [s]
 * @return             [K]
 * @source             Limpert, ch. 3 (continued braking)
 */
double brake_lump_rise(double power, double conductance, double capacity, double time);

/** Time for a lump to cool from one temperature to another.
 * @param from     [K] above the surroundings
 * @param to       [K] above the surroundings, below `from`
 * @param rate     [1/s] h A / (m c)
 * @return         [s]
 * @source         Holman, Heat Transfer, sec. 4-2
 */
double brake_cooling_time(double from, double to, double rate);

/** Power of the speed by which cooling grows, from two measured points: h = h_1 (v / v_1)^n.
 * @param slow          [m/s] speed of the first point; any unit, the same for both
 * @param fast          [m/s] speed of the second point, not that of the first
 * @param cooling_slow  [W/(m2*K)] at the first
 * @param cooling_fast  [W/(m2*K)] at the second
 * @return              [-] n, near 0.8 for turbulent flow over a plate
 * @source              definition of a power law; measured for vented rotors by McPhee and Johnson,
 *                      Int. J. Thermal Sciences 47 (2008) 458
 */
double brake_cooling_exponent(double slow, double fast, double cooling_slow, double cooling_fast);

/** Stress in a surface layer suddenly hotter than the core: E alpha dT / (1 - nu).
 * @param modulus    [Pa] E
 * @param expansion  [1/K] alpha
 * @param poisson    [-] nu; 0 for a bar held along one axis
 * @param rise       [K] surface above core
 * @return           [Pa] compression
 * @source           Timoshenko and Goodier, Theory of Elasticity, ch. 13
 */
double brake_thermal_stress(double modulus, double expansion, double poisson, double rise);

#ifdef __cplusplus
}
#endif

#endif
