/* SPDX-License-Identifier: MIT */
/** @file cooldown.h
 * A cool-down, measured: temperature of a rotor or drum over time and speed with the brakes off,
 * and the factor on the cooling by air that it tells.
 *
 * The brake of rig.h cools as the vehicle was driven; the factor, and how much heat was in the
 * brake, are those that leave the least squares over up to 120 means of the log. What was warm
 * beside the rotor when the log begins is not known, so seven histories are tried, and the interval
 * holds what any of them that the log allows gives. Equations: reference/method.md, section 8.
 */
#ifndef BRAKE_COOLDOWN_H
#define BRAKE_COOLDOWN_H

#include "brake/drivelog.h"

#ifdef __cplusplus
extern "C" {
#endif

/** What the log of one axle tells. */
struct brake_cooldown_axle {
    bool logged;
    double cooling;   /**< [-] factor on the cooling by air */
    double low, high; /**< [-] 90 of 100 lie between */
    double from, to;  /**< [K] means of the first and the last span */
    double begin;     /**< [s] of the log, where the brake is hottest */
    double duration;  /**< [s] */
    double speed;     /**< [m/s] mean */
    double scatter;   /**< [K] standard deviation of what the model leaves over */
    double heated;    /**< [s] of even heating before, of the seven the one that fits best */
};

/** What a cool-down tells. */
struct brake_cooldown {
    struct brake_cooldown_axle axle[BRAKE_AXLES];
    double cooling;   /**< [-] of all that is logged */
    double low, high; /**< [-] 90 of 100 lie between */
    double half;      /**< [-] tolerance of the line to write: 95 of 100 */
    bool differ;      /**< the axles' intervals do not meet; the lesser is taken */
    bool tells;       /**< the interval is narrower than that of the usual value */
};

/** Find the factor that a cool-down tells.
 * @param sheet   complete; heat.ambient stated, the air of that day
 * @param row     in order of time
 * @param rows    number of them
 * @param result  filled
 * @param error   filled on refusal: line of the log, what came and what is needed
 * @return        OK; E_MISSING when heat cannot be said, or the air is left out;
 *                E_FIT for a log that is too short, in which the brakes were on, or that no factor
 *                explains; E_MEMORY
 */
enum brake_status brake_cooldown_fit(const struct brake_sheet *sheet,
                                     const struct brake_log_row *row, long rows,
                                     struct brake_cooldown *result, struct brake_error *error);

#ifdef __cplusplus
}
#endif

#endif
