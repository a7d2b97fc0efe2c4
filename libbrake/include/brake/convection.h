/* SPDX-License-Identifier: MIT */
/** @file convection.h
 * How strongly moving air cools a brake.
 *
 *   air           mu and k by Sutherland's law, density of an ideal gas, nu = mu/rho
 *   rotor face    h = 0.70 (k/D) Re^0.55,  from Re = 2.4e5 on 0.04 (k/D) Re^0.8,  Re = v D / nu
 *   spinning disc h = (k/R) (0.36 Re_t^0.5 (r_t/R) + 0.015 (Re^0.8 - Re_t^0.8 r_t/R)),
 *                 Re = w R^2 / nu; turbulent outside r_t, where Re is Re_t = 2.5e5
 *   vanes         h = 0.00485 (1 + (d/l)^0.67) rho c_p u, u mean speed of the air, which enters at
 *                 w sqrt(ro^2 - ri^2)
 *   drum          h = 0.1 (k/D) Re^(2/3)
 *   cross flow    Churchill and Bernstein
 *   with still air  h^4 = h_forced^4 + h_still^4
 *
 * Air properties are taken at the film temperature, half way between surface and air.
 *
 * Sources: Limpert, Brake Design and Safety, ch. 3 (face, vanes, drum), from memory; Shevchuk,
 * Convective Heat and Mass Transfer in Rotating Disk Systems, and Ozisik, Heat Transfer (spinning
 * disc), from memory; McPhee and Johnson, Int. J. Thermal Sciences 47 (2008) 458, abstract read
 * (growth with speed of the vanes' coefficient, and its size); White, Viscous Fluid Flow, ch. 1
 * (Sutherland's law), coefficients read; Churchill and Bernstein, J. Heat Transfer 99 (1977) 300,
 * equation read; Incropera and DeWitt, sec. 9.9 (mixed convection), from memory. Correlations of
 * this kind hold within some 25 %.
 */
#ifndef BRAKE_CONVECTION_H
#define BRAKE_CONVECTION_H

#include "brake/constants.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Dry air; its Prandtl number is taken as 0.70 throughout. */
struct brake_air {
    double conductivity; /**< [W/(m*K)] k */
    double viscosity;    /**< [m2/s] kinematic, nu */
};

/** Properties of dry air.
 * @param temperature  [K] above 0
 * @param pressure     [Pa] above 0
 * @return             the properties; within 3.5 % of tables from 250 to 800 K; NaN out of range
 * @source             White, Viscous Fluid Flow, table 1-2 (mu_0 = 1.716e-5 Pa s at 273 K, S = 111
 *                     K; k_0 = 0.0241 W/(m K), S = 194 K)
 */
struct brake_air brake_air_at(double temperature, double pressure);

/** Face of a solid rotor in the stream of the driven vehicle.
 * @param air       at the film temperature
 * @param speed     [m/s] of the vehicle, 0 and up
 * @param diameter  [m] of the rotor
 * @return          [W/(m2*K)]; between Re = 2.4e5 and 3e5 the two laws are joined so that the
 *                  coefficient does not jump
 * @source          Limpert, ch. 3
 */
double brake_convection_face(struct brake_air air, double speed, double diameter);

/** Face of a disc that spins in air otherwise at rest (a rotor behind a closed wheel, a test rig).
 * @param air     at the film temperature
 * @param spin    [rad/s] 0 and up
 * @param radius  [m] of the disc
 * @return        [W/(m2*K)] mean over the face: local laws Nu = 0.36 Re^0.5 and 0.0195 Re^0.8
 *                averaged over the area
 * @source        Shevchuk, ch. 2; Ozisik, Heat Transfer (transition at Re = 2.5e5)
 */
double brake_convection_disc(struct brake_air air, double spin, double radius);

/** Passages between the cheeks of a vented rotor. */
struct brake_vanes {
    double inner_radius;       /**< [m] where the air enters */
    double outer_radius;       /**< [m] where it leaves */
    double inlet_area;         /**< [m2] open, all passages together */
    double outlet_area;        /**< [m2] open, all passages together */
    double hydraulic_diameter; /**< [m] of one passage, 4 area / wetted edge */
};

/** Inside of a vented rotor.
 * @param air    at the film temperature
 * @param spin   [rad/s] 0 and up
 * @param vanes  the passages
 * @return       [W/(m2*K)] on the walls of the passages
 * @source       McPhee and Johnson, Int. J. Thermal Sciences 47 (2008) 458: 27.0, 52.7, 78.3 at
 *               342, 684, 1025 rev/min, in a straight line, as separated flow at the entrance stirs
 *               short passages; the factor is that of these three in passages of ordinary size, as
 *               their abstract does not give it. Limpert, ch. 3 (pumped flow, effect of the length)
 */
double brake_convection_vanes(struct brake_air air, double spin, const struct brake_vanes *vanes);

/** Outside of a drum in the stream.
 * @param air       at the film temperature
 * @param speed     [m/s] of the vehicle, 0 and up
 * @param diameter  [m] of the drum
 * @return          [W/(m2*K)]
 * @source          Limpert, ch. 3
 */
double brake_convection_drum(struct brake_air air, double speed, double diameter);

/** A body in cross flow taken as a cylinder: hat, hub, caliper.
 * @param air       at the film temperature
 * @param speed     [m/s] of the air past it, 0 and up
 * @param diameter  [m]
 * @return          [W/(m2*K)]
 * @source          Churchill and Bernstein 1977
 */
double brake_convection_cylinder(struct brake_air air, double speed, double diameter);

/** Forced and natural convection together.
 * @param forced  [W/(m2*K)]
 * @param still   [W/(m2*K)] with the vehicle at rest; 3 to 5 measured on brake discs: Topouris et
 *                al., Strojniski vestnik 66 (2020) 15
 * @return        [W/(m2*K)] (forced^n + still^n)^(1/n); of n = 3 to 4 the safe end
 * @source        Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, sec. 9.9
 */
double brake_convection_mixed(double forced, double still);

/** By which law a surface is cooled. */
enum brake_cooling_law {
    BRAKE_COOLING_FIXED,    /**< factor, in W/(m2*K), at every speed; still is left out */
    BRAKE_COOLING_POWER,    /**< factor times (speed in m/s)^exponent, as measured */
    BRAKE_COOLING_FACE,     /**< brake_convection_face */
    BRAKE_COOLING_DISC,     /**< brake_convection_disc */
    BRAKE_COOLING_VANES,    /**< brake_convection_vanes */
    BRAKE_COOLING_DRUM,     /**< brake_convection_drum */
    BRAKE_COOLING_CYLINDER, /**< brake_convection_cylinder */
    BRAKE_COOLING_LAWS
};

/** How a surface gives heat to the air and to what it sees. All 0: not at all. */
struct brake_cooling {
    enum brake_cooling_law law; /**< of forced convection */
    double area;                /**< [m2] 0 for an insulated surface */
    double emissivity;          /**< [-] 0 to 1 */
    double still;               /**< [W/(m2*K)] with the vehicle at rest */
    double factor;              /**< [-] on the law: 1 in the open, less behind a shield or a wheel;
                                   W/(m2*K) for FIXED and POWER */
    double exponent;            /**< [-] of the speed, for POWER; see brake_cooling_exponent */
    double diameter;            /**< [m] of rotor, drum or cylinder */
    double rolling_radius;      /**< [m] of the wheel, for DISC and VANES */
    struct brake_vanes vanes;   /**< for VANES */
};

/** Whether a law of cooling can be evaluated.
 * @param cooling  the surface
 * @return         1 when all that its law needs is in range, else 0
 * @source         ranges far beyond any road brake
 */
int brake_cooling_usable(const struct brake_cooling *cooling);

/** Coefficient of convection of a surface.
 * @param cooling   the surface
 * @param speed     [m/s] of the vehicle; below 0 counts as 0
 * @param film      [K] half way between surface and air
 * @param pressure  [Pa] of the air
 * @return          [W/(m2*K)] natural and forced
 * @source          the law's own; brake_convection_mixed
 */
double brake_cooling_coefficient(const struct brake_cooling *cooling, double speed, double film,
                                 double pressure);

#ifdef __cplusplus
}
#endif

#endif
