/* SPDX-License-Identifier: MIT */
/** @file system.h
 * The brakes of one vehicle in one load case and one state of failure, ready to be asked.
 */
#ifndef BRAKE_SYSTEM_H
#define BRAKE_SYSTEM_H

#include <stdbool.h>

#include "brake/balance.h"
#include "brake/pedal.h"
#include "brake/vehicle.h"

#ifdef __cplusplus
extern "C" {
#endif

/** What has failed. */
enum brake_failure {
    BRAKE_INTACT,
    BRAKE_FIRST_CIRCUIT,  /**< circuit on the primary chamber */
    BRAKE_SECOND_CIRCUIT, /**< circuit on the secondary chamber */
    BRAKE_NO_ASSIST,      /**< booster without any vacuum or oil */
    BRAKE_LOW_VACUUM,     /**< booster at booster.vacuum_low or pressure_low */
    BRAKE_ENGINE_OFF,     /**< engine just stopped, reservoirs full */
    BRAKE_VALVE_OPEN,     /**< sensing valve stuck open */
    BRAKE_VALVE_SHUT,     /**< sensing valve stuck at its lowest knee */
    BRAKE_NO_ANTILOCK,
    BRAKE_IN_GEAR, /**< nothing: the engine stays connected */
    BRAKE_FAILURES
};

/** Word of a load case.
 * @param load  one of four
 * @return      "empty", "full", "light" or "rated"
 */
const char *brake_load_word(enum brake_load load);

/** Word of an axle.
 * @param axle  one of two
 * @return      "front" or "rear"
 */
const char *brake_axle_word(enum brake_axle axle);

#ifdef __cplusplus
}
#endif

#endif
