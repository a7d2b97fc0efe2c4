/** @file shakedown.h
 * The first drive after a change of the brakes, planned: what to expect at each stage, light to
 * hard and slow to fast, and where to break off.
 */
#ifndef BRAKE_SHAKEDOWN_H
#define BRAKE_SHAKEDOWN_H

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
    struct brake_measured deceleration; /**< [m/s2] to expect; break off below value - half */
    struct brake_measured distance;     /**< [m] to expect, from the foot's coming on */
    struct brake_measured travel;       /**< [m] of the pedal; break off above value + half */
};

/** A published burnish: equal stops that bed pads and linings in. */
struct brake_burnish {
    const char *clause;
    const char *text; /**< how the text was read */
    int stops;
    double speed;        /**< [m/s] at the start of each */
    double deceleration; /**< [m/s2] */
    double temperature;  /**< [K] most at the start of each */
    double distance;     /**< [m] or start the next one after so much road */
};

/** A plan. */
struct brake_shakedown {
    enum brake_load load;
    struct brake_stage stage[BRAKE_STAGES];
    int stages;
    const struct brake_burnish *burnish;
    double burnish_force;       /**< [N] pedal force for its deceleration */
    double lock;                /**< [m/s2] at which the first axle locks on road.adhesion */
    struct brake_measured firm; /**< [m] pedal travel at firm_force, standing */
    double firm_force;          /**< [N] that the pedal is held with, standing */
    double firm_pressure;       /**< [Pa] in the lines at that force */
    double to_floor;            /**< [m] travel of the pedal to the floor; NaN: not known */
    double grade;               /**< [-] that the parking brake holds both ways; NaN: not known */
};

/** Plan the drive of a vehicle.
 * @param sheet  complete
 * @param load   as it will be driven
 * @param plan   filled; no stage when the brakes give no deceleration
 */
void brake_shakedown_plan(const struct brake_sheet *sheet, enum brake_load load,
                          struct brake_shakedown *plan);

#ifdef __cplusplus
}
#endif

#endif
