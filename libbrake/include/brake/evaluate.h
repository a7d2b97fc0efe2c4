/** @file evaluate.h
 * One evaluation of a vehicle: every result, for both load cases, and the table that names them.
 *
 * A result that cannot be given, because a line it needs was left out, is NaN.
 */
#ifndef BRAKE_EVALUATE_H
#define BRAKE_EVALUATE_H

#include <stdbool.h>
#include <stddef.h>

#include "brake/system.h"
#include "brake/units.h"
#include "brake/vehicle.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Results of one load case; meaning, unit and path of each stand in the result table. */
struct brake_case_results {
    struct {
        double total, effective, front_axle, rear_axle, front_axle_margin, rear_axle_margin;
        double front_tyre_margin, rear_tyre_margin, rated_margin;
    } mass;
    struct {
        double behind_front_axle, height;
    } cg;
    struct {
        double at_pedal_force, most, brakes_alone;
    } deceleration;
    struct {
        double force_for_target, pressure_for_target, knee_force, knee_deceleration;
        double travel, travel_used, primary_stroke_used, secondary_stroke_used;
        double travel_first_failed, travel_second_failed;
    } pedal;
    struct {
        double gaps, shoes, take_up, compliance, hoses, air, total;
    } fluid;
    struct {
        double front_needed, rear_needed, front_available, rear_available;
        double front_margin, rear_margin;
    } torque;
    struct {
        double front_share, ideal_front_share, front_adhesion_used, rear_adhesion_used, valve_knee;
        double lock_deceleration, lock_pedal_force, lock_axle, efficiency;
        double rear_first_above, locked_drive_lock_deceleration;
    } balance;
    struct {
        double first_circuit, second_circuit, no_assist, low_vacuum, valve_open, valve_shut;
        double no_antilock;
    } failed;
    struct {
        double distance, time, sight_distance, energy, front_heat_share, front_rise, rear_rise;
    } stop;
    struct {
        double needed, available, margin, effort_grade, grade_up, grade_down, deceleration;
        double trailer_grade;
    } parking;
    struct {
        double pull;
    } steering;
    struct {
        double without_brakes, as_stated, all_brakes;
    } tow;
};

/** Results that do not depend on load. */
struct brake_common_results {
    struct {
        double true_over_shown;
    } speedometer;
    struct {
        double front_torque_gain, rear_torque_gain, front_piston_area, front_pad_radius;
    } brakes;
    struct {
        double cold_deceleration, cold_force, last_snub_force, hot_deceleration, hot_share;
        double recovery_deceleration, front_face, rear_face, front_pad, rear_pad, front_fluid;
        double rear_fluid, fluid_margin, stress_share, energy_residual;
    } fade; /* NaN until brake_assess_fade fills it in */
};

/** All results. */
struct brake_results {
    struct brake_common_results common;
    struct brake_case_results load[BRAKE_LOADS];
};

/** Row of the result table. */
struct brake_result {
    const char *name;               /**< path without the load case */
    size_t offset;                  /**< in its struct */
    enum brake_dimension dimension;
    const char *unit;               /**< unit of the trade it is shown in */
    const char *meaning;            /**< one line */
};

/** Number of results, both load cases counted.
 * @return  count
 */
int brake_result_count(void);

/** Row of a result.
 * @param index  0 to brake_result_count() - 1
 * @return       its row
 */
const struct brake_result *brake_result_at(int index);

/** Path of a result: `speedometer.true_over_shown`, `empty.stop.distance`.
 * @param index  of the result
 * @param path   filled
 * @param size   of path in bytes, 80 is enough
 */
void brake_result_path(int index, char *path, size_t size);

/** Index of a result.
 * @param path  as brake_result_path gives it
 * @return      index, or -1 when there is no such result
 */
int brake_result_find(const char *path);

/** Value of a result.
 * @param results  evaluated
 * @param index    of the result
 * @return         [SI] value; NaN when it cannot be given
 */
double brake_result_value(const struct brake_results *results, int index);

/** Load case of a result.
 * @param index  of the result
 * @return       empty or full; -1 for a result that does not depend on load
 */
int brake_result_load(int index);

/** Whether a result is of the fade procedure, which brake_evaluate does not run.
 * @param index  of the result
 * @return       true when it is
 */
bool brake_result_faded(int index);

/** Group of a result: results of one group and one load case are worked out together.
 * @param index  of the result
 * @return       one bit
 */
unsigned long long brake_result_group(int index);

/** Evaluate some groups of results.
 * @param vehicle  complete
 * @param groups   bits of brake_result_group
 * @param results  results of these groups are filled, others left as they are
 */
void brake_evaluate_groups(const struct brake_vehicle *vehicle, unsigned long long groups,
                           struct brake_results *results);

/** Evaluate a vehicle.
 * @param vehicle  complete: brake_sheet_complete accepted it
 * @param results  filled
 */
void brake_evaluate(const struct brake_vehicle *vehicle, struct brake_results *results);

#ifdef __cplusplus
}
#endif

#endif
