/* SPDX-License-Identifier: MIT */
/** @file tyre.h
 * Tyre markings, radii, wheel inertia and what a new rolling radius does to the speedometer.
 *
 *   outer diameter        D = d + 2 (S/100) A        d rim, S section width, A aspect ratio [%]
 *   rolling circumference C = 3.05 D (radial), 2.99 D (bias)
 *   rolling radius        r = C / (2 pi)
 *
 * Sources: UN Regulations 30 and 54, par. 6.1.2; ISO 4000-1; ETRTO Standards Manual.
 */
#ifndef BRAKE_TYRE_H
#define BRAKE_TYRE_H

#include <stdbool.h>

#include "brake/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/** What a tyre marking says. Figures that the marking leaves out are 0. */
struct brake_marking {
    double section_width;    /**< [m] nominal section width */
    double aspect;           /**< [-] section height over section width */
    double rim_diameter;     /**< [m] nominal rim diameter */
    double overall_diameter; /**< [m] outer diameter, inflated, new */
    double load_capacity;    /**< [kg] one tyre, single mounting; 0 when no load index is given */
    double dual_capacity;    /**< [kg] one of two side by side; 0 when no second index is given */
    double speed_limit;      /**< [m/s] speed of the speed symbol; 0 when none is given */
    bool radial;             /**< false for a bias-ply tyre */
};

/** Read a tyre marking: metric `265/70R17 115T`, `P265/70R17`, `LT305/70R17 121/118Q`,
 * `195/75R16C`, flotation `35x12.50R17LT`, numeric `7.50R16`, with or without spaces.
 *
 * A flotation mark is a nominal diameter (design size about 12 mm less, UN R54 Annex 5, from
 * memory): it is kept, as the larger radius is the safe side, and W_NOMINAL is set. A marking with
 * no aspect ratio takes 0.82 (metric; DVSA inspection manual, section 5) or 1.04 (inch; fitted to
 * 7.50R16 = 802 mm of UN R54 Annex 5, from memory) and W_ASSUMED is set.
 * @param text     the marking
 * @param marking  filled; all zero when refused
 * @return         OK, W_NOMINAL, W_ASSUMED or E_MARKING
 * @source         UN R30 and R54, par. 2 and 6.1.2 and Annex 4 (load index, speed symbol)
 */
enum brake_status brake_marking_read(const char *text, struct brake_marking *marking);

/** Nominal rim diameter of a rim code: 25.4 mm times the code, rounded to 1 mm.
 * @param code  [in] rim diameter code, e.g. 17
 * @return      [m] diameter
 * @source      UN R30, definitions (rim diameter table), from memory
 */
double brake_rim_diameter(double code);

/** Outer diameter of a new tyre from its size.
 * @param rim_diameter   [m] nominal rim diameter
 * @param section_width  [m] nominal section width
 * @param aspect         [-] section height over section width, e.g. 0.70
 * @return               [m] outer diameter
 * @source               UN R30 and R54, par. 6.1.2; ISO 4000-1
 */
double brake_tyre_diameter(double rim_diameter, double section_width, double aspect);

/** Distance rolled in one turn, from the outer diameter.
 * @param diameter  [m] outer diameter
 * @param radial    true: 3.05 D, false (bias ply): 2.99 D
 * @return          [m] rolling circumference
 * @source          ETRTO Standards Manual (rolling circumference at 60 km/h), from memory
 */
double brake_tyre_circumference(double diameter, bool radial);

/** Rolling radius from the distance rolled in one turn.
 * @param circumference  [m] distance of one turn, loaded
 * @return               [m] rolling radius
 * @source               definition: effective rolling radius, SAE J670
 */
double brake_rolling_radius(double circumference);

/** Load that a load index stands for.
 * @param index  load index, 60 to 130
 * @return       [kg] load of one tyre; NaN outside the table
 * @source       UN R30, Annex 4; ISO 4000-1 (table in reference/sources.md, LI 71 to 110 read)
 */
double brake_load_index_mass(int index);

/** Speed that a speed symbol stands for.
 * @param symbol  letter F to Y
 * @return        [m/s] speed; NaN for a letter not in the table
 * @source        UN R30, par. 2 (speed symbol table)
 */
double brake_speed_symbol(char symbol);

/** Moment of inertia of a wheel assembly hung by three equal cords and swung about its axis.
 *
 *   I = m g R^2 T^2 / (4 pi^2 L)
 * @param mass    [kg] assembly
 * @param radius  [m] of the circle on which the cords are fixed
 * @param length  [m] of the cords
 * @param period  [s] of one full swing, small angle
 * @return        [kg*m2] inertia about the wheel axis
 * @source        closed form of the trifilar pendulum, small swings (Timoshenko, Vibration
 *                Problems in Engineering, from memory)
 */
double brake_wheel_inertia_swing(double mass, double radius, double length, double period);

/** Estimate of the inertia of a wheel assembly: I = k m r^2.
 * @param mass      [kg] assembly
 * @param radius    [m] free radius, half the outer diameter
 * @param fraction  [-] k, 0.55 to 0.65 (common practice, no source)
 * @return          [kg*m2] inertia about the wheel axis
 * @source          definition of the radius of gyration; k is common practice, no source
 */
double brake_wheel_inertia_estimate(double mass, double radius, double fraction);

/** True speed over shown speed after a change of tyre and of axle gears.
 * @param rollout         [m] rolling circumference now
 * @param rollout_before  [m] rolling circumference that the speedometer was set for
 * @param ratio           [-] axle ratio now
 * @param ratio_before    [-] axle ratio that the speedometer was set for; pass the same figure as
 *                        `ratio` when the sensor is at the wheel
 * @return                [-] above 1 the speedometer reads low
 * @source                kinematics: wheel turns and gear ratio
 */
double brake_speed_true_over_shown(double rollout, double rollout_before, double ratio,
                                   double ratio_before);

#ifdef __cplusplus
}
#endif

#endif
