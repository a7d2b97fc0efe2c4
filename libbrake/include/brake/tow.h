/* SPDX-License-Identifier: MIT */
/** @file tow.h
 * A vehicle and its trailer.
 *
 *   a = (m_v a_v + s z_t m_t g) / (m_v + m_t)
 *
 * a_v solo deceleration, z_t brake force of the trailer over its weight, s share of its brakes that
 * work. Load that the hitch moves between the axles is left out.
 * Source: UN Regulation 13-H, Annex 3, 2.1.2 (for s = 0).
 */
#ifndef BRAKE_TOW_H
#define BRAKE_TOW_H

#ifdef __cplusplus
extern "C" {
#endif

/** Deceleration of vehicle and trailer.
 * @param mass             [kg] of the vehicle
 * @param deceleration     [m/s2] of the vehicle alone at the same pedal force
 * @param trailer_mass     [kg]
 * @param trailer_ratio    [-] brake force of the trailer over its weight, all its brakes working
 * @param working          [-] share of its brakes that work, 0 to 1
 * @return                 [m/s2]
 * @source                 UN R13-H, Annex 3, 2.1.2; momentum
 */
double brake_tow_deceleration(double mass, double deceleration, double trailer_mass,
                              double trailer_ratio, double working);

#ifdef __cplusplus
}
#endif

#endif
