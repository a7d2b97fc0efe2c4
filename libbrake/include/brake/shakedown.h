/* SPDX-License-Identifier: MIT */
/** @file shakedown.h
 * The first drive after a change of the brakes, planned: what to expect at each stage, light to
 * hard and slow to fast, and where to break off.
 */
#ifndef BRAKE_SHAKEDOWN_H
#define BRAKE_SHAKEDOWN_H

#include "brake/assessment.h"
#include "brake/catalogue.h"
#include "brake/drivelog.h"
#include "brake/system.h"

#ifdef __cplusplus
extern "C" {
#endif

enum { BRAKE_STAGES = 8 /**< most stages of a plan */ };

/** A stage: some stops from one speed with one pedal force. */
struct brake_stage {
    double speed;                       /**< [m/s] */
    double pedal_force;                 /**< [N] */
    struct brake_measured deceleration; /**< [m/s2] to expect */
    struct brake_measured distance;     /**< [m] to expect, from the foot's coming on */
    struct brake_measured travel;       /**< [m] of the pedal, to expect */
    double least;                       /**< [m/s2] break off below this deceleration ... */
    double cone;        /**< [m] that is past this distance from the foot's coming on */
    double most_travel; /**< [m] break off above this travel; NaN: not known */
};

/** What keeps a vehicle from being driven, unless a person says that it shall be; as bits. */
enum brake_obstacle {
    BRAKE_NO_RESERVE = 1,       /**< the pedal comes to the floor, or nearly */
    BRAKE_REAR_LOCKS_FIRST = 2, /**< the rear wheels lock first */
    BRAKE_ONE_CIRCUIT = 4,      /**< nothing is left when a line bursts */
    BRAKE_OBSTACLES = 7         /**< all of them */
};

/** Equal stops that bed pads and linings in, as many and as slow as the brakes stand. */
struct brake_bedding {
    int stops;           /**< 0: none by this plan */
    double speed;        /**< [m/s] at the start of each */
    double deceleration; /**< [m/s2] */
    double pedal_force;  /**< [N] for it */
    double interval;     /**< [s] from start to start */
    double hottest;      /**< [K] rotor or drum, by calculation */
    double fluid;        /**< [K] the same, parked afterwards */
    const char *none;    /**< why there are no stops; NULL when there are */
};

/** A plan. */
struct brake_shakedown {
    enum brake_load load;
    unsigned obstacles; /**< bits of enum brake_obstacle that the vehicle has */
    bool narrow;        /**< the range is too wide for more than measuring stops at 30 km/h */
    struct brake_measured four; /**< [N] pedal force for 4 m/s2; NaN: not reached */
    struct brake_stage stage[BRAKE_STAGES];
    int stages;
    struct brake_bedding bedding;
    double lock;                /**< [m/s2] at which the first axle locks on road.adhesion */
    struct brake_measured firm; /**< [m] pedal travel at firm_force, standing */
    double firm_force;          /**< [N] that the pedal is held with, standing */
    double firm_pressure;       /**< [Pa] in the lines at that force */
    double to_floor;            /**< [m] travel of the pedal to the floor; NaN: not known */
    double grade;               /**< [-] that the parking brake holds both ways; NaN: not known */
    double parking_pull;        /**< [N] with which it is tried on the level: what it holds on half
                                     of that grade; NaN: not known */
};

/** Plan the drive of a vehicle.
 * @param sheet       complete
 * @param load        as it will be driven
 * @param assessment  of the vehicle
 * @param plan        filled; no stage when the brakes give no deceleration
 */
void brake_shakedown_plan(const struct brake_sheet *sheet, enum brake_load load,
                          const struct brake_assessment *assessment, struct brake_shakedown *plan);

/** An obstacle of a plan.
 * @param number  0 and up
 * @param bit     filled: one of enum brake_obstacle
 * @param words   filled: what it is and what to do
 * @return        the word that a person says to drive in spite of it, "no-reserve"; NULL past the
 *                last
 */
const char *brake_obstacle_at(int number, unsigned *bit, const char **words);

#ifdef __cplusplus
}
#endif

#endif
