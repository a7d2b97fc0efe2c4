/* SPDX-License-Identifier: MIT */
/** @file friction.h
 * Friction of pads and linings as it follows temperature, speed and pressure.
 *
 *   mu(T, v, p) = mu(T) f(v) g(p), each a curve through points: cubic pieces that keep rise and
 *   fall of the points, constant beyond the ends
 *   slope at a point: 0 at a turn, else the weighted harmonic mean of the two secants
 *                     (w1 + w2) / (w1/d1 + w2/d2), w1 = 2 h2 + h1, w2 = h2 + 2 h1
 *
 * Sources: Fritsch and Carlson, Monotone piecewise cubic interpolation, SIAM J. Numer. Anal. 17
 * (1980) 238; Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300 (the slopes); Rhee, SAE
 * 740415 (friction is a power of speed, exponent -0.25 to 0.25, and of pressure, -0.20 to 0.25, at
 * one temperature: abstract read); SAE J866 (edge codes).
 */
#ifndef BRAKE_FRICTION_H
#define BRAKE_FRICTION_H

#include "brake/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Most points of a curve. */
enum { BRAKE_CURVE_POINTS = 16 };

/** A curve through points without overshoot. Filled by brake_curve_build; all 0 is no curve. */
struct brake_curve {
    int points;                       /**< 0: no curve */
    double x[BRAKE_CURVE_POINTS];     /**< [-] rising, in the unit of its quantity */
    double y[BRAKE_CURVE_POINTS];     /**< [-] in the unit of its quantity */
    double slope[BRAKE_CURVE_POINTS]; /**< [-] dy/dx at the points */
};

/** Lay a curve through points.
 * @param x      [-] in any unit, rising
 * @param y      [-] in any unit
 * @param count  number of points, 1 to BRAKE_CURVE_POINTS
 * @param curve  filled; no curve when refused
 * @return       OK; E_SIZE for too few or too many points; E_RANGE when one is not finite or x does
 *               not rise
 * @source       Fritsch and Butland 1984
 */
enum brake_status brake_curve_build(const double *x, const double *y, int count,
                                    struct brake_curve *curve);

/** Value of a curve.
 * @param curve  built
 * @param x      [-] in its unit; beyond the ends the value of the end
 * @return       [-] in its unit; NaN for no curve or a NaN
 * @source       Fritsch and Carlson 1980 (cubic Hermite pieces)
 */
double brake_curve_at(const struct brake_curve *curve, double x);

/** Friction of one pairing of pad and rotor. */
struct brake_friction {
    struct brake_curve temperature; /**< friction over temperature [K] */
    struct brake_curve speed;       /**< factor over rubbing speed [m/s]; no curve: 1 */
    struct brake_curve pressure;    /**< factor over pressure on the lining [Pa]; no curve: 1 */
};

/** Friction at a state of the brake.
 * @param friction     the pairing
 * @param temperature  [K] of the rubbed face
 * @param speed        [m/s] at the effective radius
 * @param pressure     [Pa] on the lining
 * @return             [-]; NaN without a curve over temperature
 * @source             file head
 */
double brake_friction_at(const struct brake_friction *friction, double temperature, double speed,
                         double pressure);

/** A usual shape for a road pad whose working friction is known: some less when cold, a little more
 * near 200 degC, fading above 300. An assumption: pads differ, measure or ask the maker.
 * @param mu        [-] working friction near 100 degC, 0.05 to 0.9
 * @param fade      [-] how strongly it falls, 0 to 4: power of what is left from 300 degC up; 1:
 *                  usual
 * @param friction  filled; no curves when refused
 * @return          W_NOMINAL (always, when usable) or E_RANGE
 * @source          assumed; road pads hold from 50 to 300 degC and fade above 350 to 450 (trade),
 *                  0.38 falls to 0.28
 */
enum brake_status brake_friction_usual(double mu, double fade, struct brake_friction *friction);

/** Between which values a friction lies. */
struct brake_band {
    double low;  /**< [-] */
    double high; /**< [-] infinite for the open band H */
};

/** Band of an edge-code letter. The code sets no requirement and does not predict a vehicle.
 * @param letter  C to H; Z is unclassified
 * @param band    filled; NaN when refused
 * @return        OK, or E_UNKNOWN for Z and everything else
 * @source        SAE J866, table 1, summary read: C to 0.15, D 0.25, E 0.35, F 0.45, G 0.55, H
 *                above
 */
enum brake_status brake_edge_band(char letter, struct brake_band *band);

/** Which end of a band to take: the low one for distance, the high one for what locks first. */
enum brake_band_end { BRAKE_BAND_LOW, BRAKE_BAND_HIGH };

/** Friction of a pad of which only the edge code is known.
 * @param normal    first letter: mean at 93, 121, 149 and 204 degC
 * @param hot       second letter: mean of ten points from 149 to 343 degC while fading and
 *                  recovering
 * @param end       which end of both bands
 * @param friction  filled: the first value up to 204 degC, the second from 343 degC on; no curves
 *                  when refused
 * @return          W_NOMINAL (always, when usable); E_UNKNOWN for an unknown letter or the open end
 *                  of H
 * @source          SAE J866 and J661, points of the first letter read, of the second from memory
 */
enum brake_status brake_friction_edge(char normal, char hot, enum brake_band_end end,
                                      struct brake_friction *friction);

#ifdef __cplusplus
}
#endif

#endif
