/* SPDX-License-Identifier: MIT */
/** @file stop.h
 * Stopping distance, regulated figures, energy.
 *
 *   distance   s = v (t_d + t_b/2) + v^2/(2 a) - a t_b^2/24   dead time t_d, linear build-up t_b
 *   mean fully developed deceleration  d_m = (v_b^2 - v_e^2) / (2 s_be), v_b = 0.8 v, v_e = 0.1 v
 *
 * Sources: Bosch Automotive Handbook (braking distance); UN Regulation 13-H, Annex 3.
 */
#ifndef BRAKE_STOP_H
#define BRAKE_STOP_H

#ifdef __cplusplus
extern "C" {
#endif

/** Distance from the first movement of the control to standstill.
 * @param speed         [m/s] at the start
 * @param deceleration  [m/s2] fully developed
 * @param dead_time     [s] before anything happens
 * @param build_up      [s] of linear rise to the full deceleration; the stop must outlast it
 * @return              [m]; infinite for a deceleration of 0
 * @source              Bosch Automotive Handbook; Mitschke, Dynamik der Kraftfahrzeuge
 */
double brake_stop_distance(double speed, double deceleration, double dead_time, double build_up);

/** Time from the first movement of the control to standstill.
 * @param speed         [m/s] at the start
 * @param deceleration  [m/s2] fully developed
 * @param dead_time     [s] before anything happens
 * @param build_up      [s] of linear rise to the full deceleration
 * @return              [s]
 * @source              as brake_stop_distance
 */
double brake_stop_time(double speed, double deceleration, double dead_time, double build_up);

/** Distance that a regulation allows: lag v + v^2 / (2 d).
 * @param speed         [m/s]
 * @param lag           [s] 0.36 for "0.1 v" with v in km/h, 0.54 for "0.15 v"
 * @param coefficient   [m/(km/h)2] of the square of the speed, e.g. 0.0060
 * @return              [m]
 * @source              UN R13-H, Annex 3, 2.1.1; 49 CFR 571.135
 */
double brake_stop_allowed(double speed, double lag, double coefficient);

/** Mean fully developed deceleration.
 * @param begin     [m/s] v_b, 0.8 of the initial speed
 * @param end       [m/s] v_e, 0.1 of the initial speed
 * @param distance  [m] travelled between the two
 * @return          [m/s2]
 * @source          UN R13-H, Annex 3, 1.1.2 (25.92 = 2 x 3.6^2 in km/h)
 */
double brake_mfdd(double begin, double end, double distance);

/** Distance to slow from one speed to another on a grade, by adhesion.
 *
 *   s = k_m (v1^2 - v2^2) / (2 g (e k + f + sin t))
 * @param from         [m/s]
 * @param to           [m/s]
 * @param mass_factor  [-] k_m, effective over actual mass
 * @param adhesion     [-] e k, used adhesion
 * @param rolling      [-] f, rolling resistance
 * @param slope        [rad] positive uphill
 * @return             [m]
 * @source             Mannering and Washburn, ch. 2, eq. 2.43
 */
double brake_slow_distance(double from, double to, double mass_factor, double adhesion,
                           double rolling, double slope);

/** Mass factor of a car by overall gear ratio: 1.04 + 0.0025 i^2.
 * @param ratio  [-] overall gear ratio, 0 with the engine disconnected
 * @return       [-]
 * @source       Wong, Theory of Ground Vehicles, ch. 3
 */
double brake_mass_factor(double ratio);

/** Rolling resistance of a road vehicle on pavement: 0.01 (1 + v / 147 ft/s).
 * @param speed  [m/s] mean over the stop
 * @return       [-] force over weight
 * @source       Mannering and Washburn, ch. 2, eq. 2.6 (equation read, its number from memory)
 */
double brake_rolling_resistance(double speed);

/** Energy of motion.
 * @param mass   [kg] effective mass
 * @param speed  [m/s]
 * @return       [J]
 * @source       mechanics
 */
double brake_energy(double mass, double speed);

/** Temperature rise of a mass that takes up an energy at once, nothing lost.
 * @param energy         [J]
 * @param mass           [kg]
 * @param heat_capacity  [J/(kg*K)]
 * @return               [K]
 * @source               Wentzell, Machine Design, ch. 16; Limpert, ch. 3
 */
double brake_bulk_rise(double energy, double mass, double heat_capacity);

/** Measured stopping distance brought to the nominal speed: s (v_n / v)^2.
 * @param distance  [m] measured
 * @param speed     [m/s] measured
 * @param nominal   [m/s]
 * @return          [m]
 * @source          SAE J299, from memory
 */
double brake_distance_corrected(double distance, double speed, double nominal);

#ifdef __cplusplus
}
#endif

#endif
