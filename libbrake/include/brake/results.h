/* SPDX-License-Identifier: MIT */
/** @file results.h
 * The catalogue of results: what every study gives of a vehicle. One list, from which the structs
 * that hold the results, the table that names them and the groups in which they are worked out are
 * made.
 *
 * A result that cannot be given, because a line it needs was left out, is NaN.
 */
#ifndef BRAKE_RESULTS_H
#define BRAKE_RESULTS_H

#include <stdbool.h>
#include <stddef.h>

#include "brake/system.h"
#include "brake/units.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Groups: the results of one are worked out together, by one function. */
enum brake_result_group {
    BRAKE_OF_VEHICLE,    /**< in either load case */
    BRAKE_OF_FADE,       /**< by the fade procedure, which brake_evaluate does not run */
    BRAKE_OF_HEAT,       /**< of a duty, by brake_duty_run */
    BRAKE_OF_DRIVE,      /**< of a measured drive, by brake_drive_compare */
    BRAKE_OF_COMPARISON, /**< of two vehicles, by brake_compare */
    BRAKE_OF_MASS,       /**< from here on of a load case */
    BRAKE_OF_CG,
    BRAKE_OF_DECELERATION,
    BRAKE_OF_PEDAL,
    BRAKE_OF_FLUID,
    BRAKE_OF_TORQUE,
    BRAKE_OF_BALANCE,
    BRAKE_OF_LOCK,
    BRAKE_OF_CENTRE_DRIVE,
    BRAKE_OF_FAILED,
    BRAKE_OF_STOP,
    BRAKE_OF_STOP_HEAT,
    BRAKE_OF_PARKING,
    BRAKE_OF_STEERING,
    BRAKE_OF_TOW,
    BRAKE_RESULT_GROUPS /**< how many there are */
};

/* The list. R(group, part, name, symbol, dimension, unit, section, meaning): the name of a result
 * is part.name, that of a load case has empty. or full. before it; its symbol, and the section that
 * says how it is worked out, are those of reference/method.md; its unit is that of the trade that
 * it is shown in; its meaning stands by itself. */
/* clang-format off */
#define BRAKE_SPEEDOMETER_RESULTS(R) \
    R(VEHICLE, speedometer, true_over_shown, "", RATIO, "", 6, \
      "True speed over shown speed; above 1 the speedometer reads low.")

#define BRAKE_BRAKES_RESULTS(R) \
    R(VEHICLE, brakes, front_torque_gain, "T / (p - p_0)", TORQUE_PER_PRESSURE, "N*m/bar", 3, \
      "Front brake torque per pressure above the threshold, both wheels.") \
    R(VEHICLE, brakes, rear_torque_gain, "T / (p - p_0)", TORQUE_PER_PRESSURE, "N*m/bar", 3, \
      "Rear brake torque per pressure above the threshold, both wheels.") \
    R(VEHICLE, brakes, front_piston_area, "A", AREA, "cm2", 3, \
      "Area of the front pistons on one side of one rotor.") \
    R(VEHICLE, brakes, front_pad_radius, "r_e", LENGTH, "mm", 3, \
      "Effective radius of the front pads.")

#define BRAKE_FADE_RESULTS(R) \
    R(FADE, fade, cold_deceleration, "", ACCELERATION, "m/s2", 8, \
      "Mean fully developed deceleration of the cold stop before the fade procedure, full load.") \
    R(FADE, fade, cold_force, "", FORCE, "N", 8, \
      "Mean pedal force of the cold stop before the fade procedure.") \
    R(FADE, fade, last_snub_force, "", FORCE, "N", 8, \
      "Pedal force of the last heating snub of the fade procedure.") \
    R(FADE, fade, hot_deceleration, "", ACCELERATION, "m/s2", 8, \
      "Mean fully developed deceleration of the first hot stop, at the cold stop's pedal force.") \
    R(FADE, fade, hot_share, "", RATIO, "%", 8, \
      "Mean fully developed deceleration of the first hot stop over that of the cold stop.") \
    R(FADE, fade, recovery_deceleration, "", ACCELERATION, "m/s2", 8, \
      "Mean fully developed deceleration after cooling, at the cold stop's pedal force.") \
    R(FADE, fade, front_face, "T_face", TEMPERATURE, "degC", 8, \
      "Front rubbed face at its hottest in the heating snubs of the fade procedure.") \
    R(FADE, fade, rear_face, "T_face", TEMPERATURE, "degC", 8, \
      "Rear rubbed face at its hottest in the heating snubs of the fade procedure.") \
    R(FADE, fade, front_pad, "", TEMPERATURE, "degC", 8, \
      "Front pads or linings at their hottest: fade procedure, snubs and half an hour parked.") \
    R(FADE, fade, rear_pad, "", TEMPERATURE, "degC", 8, \
      "Rear pads or linings at their hottest: fade procedure, snubs and half an hour parked.") \
    R(FADE, fade, front_fluid, "", TEMPERATURE, "degC", 8, \
      "Front fluid at its hottest: fade procedure, snubs and half an hour parked.") \
    R(FADE, fade, rear_fluid, "", TEMPERATURE, "degC", 8, \
      "Rear fluid at its hottest: fade procedure, snubs and half an hour parked.") \
    R(FADE, fade, fluid_margin, "", RISE, "K", 8, \
      "Wet boiling point less the hottest fluid of the fade procedure.") \
    R(FADE, fade, stress_share, "", RATIO, "%", 8, \
      "Largest thermal stress in the fade procedure over the tensile strength of the iron.") \
    R(FADE, fade, energy_residual, "", RATIO, "", 8, \
      "Energy of the fade procedure that went astray in the calculation, over that put in.")

#define BRAKE_MASS_RESULTS(R) \
    R(MASS, mass, total, "m", MASS, "kg", 2, "Mass of the vehicle.") \
    R(MASS, mass, effective, "m + J_1 + J_2", MASS, "kg", 6, \
      "Mass that the brakes must slow, wheels' spin included.") \
    R(MASS, mass, front_axle, "m (L - x) / L", MASS, "kg", 2, \
      "Mass on the front axle, standing level.") \
    R(MASS, mass, rear_axle, "m x / L", MASS, "kg", 2, "Mass on the rear axle, standing level.") \
    R(MASS, mass, front_axle_margin, "", RATIO, "%", 6, \
      "Rating of the front axle over the mass on it, less 1.") \
    R(MASS, mass, rear_axle_margin, "", RATIO, "%", 6, \
      "Rating of the rear axle over the mass on it, less 1.") \
    R(MASS, mass, front_tyre_margin, "", RATIO, "%", 6, \
      "Load capacity of both front tyres over the mass on them, less 1.") \
    R(MASS, mass, rear_tyre_margin, "", RATIO, "%", 6, \
      "Load capacity of both rear tyres over the mass on them, less 1.") \
    R(MASS, mass, rated_margin, "", RATIO, "%", 6, \
      "Rated mass of the vehicle over its mass, less 1.")

#define BRAKE_CG_RESULTS(R) \
    R(CG, cg, behind_front_axle, "x", LENGTH, "mm", 2, \
      "Distance of the centre of gravity behind the front axle.") \
    R(CG, cg, height, "h", LENGTH, "mm", 2, "Height of the centre of gravity above the road.")

#define BRAKE_DECELERATION_RESULTS(R) \
    R(DECELERATION, deceleration, at_pedal_force, "a", ACCELERATION, "m/s2", 6, \
      "Deceleration at driver.pedal_force.") \
    R(DECELERATION, deceleration, most, "a", ACCELERATION, "m/s2", 6, \
      "Deceleration at driver.pedal_force_most, wheels kept from locking.") \
    R(DECELERATION, deceleration, brakes_alone, "a(p_m)", ACCELERATION, "m/s2", 6, \
      "Deceleration that the brakes would give at driver.pedal_force_most if the tyres held.")

#define BRAKE_PEDAL_RESULTS(R) \
    R(PEDAL, pedal, force_for_target, "F", FORCE, "N", 6, "Pedal force for driver.target.") \
    R(PEDAL, pedal, pressure_for_target, "p_t", PRESSURE, "bar", 6, \
      "Line pressure for driver.target.") \
    R(PEDAL, pedal, knee_force, "A / (i - 1) / (R e_p)", FORCE, "N", 6, \
      "Pedal force at which the booster runs out.") \
    R(PEDAL, pedal, knee_deceleration, "a", ACCELERATION, "m/s2", 6, \
      "Deceleration at which the booster runs out, if the tyres hold.") \
    R(PEDAL, pedal, travel, "", LENGTH, "mm", 4, "Travel of the pedal pad at driver.target.") \
    R(PEDAL, pedal, travel_used, "", RATIO, "%", 6, \
      "Travel of the pedal pad at driver.target over the travel to the floor.") \
    R(PEDAL, pedal, primary_stroke_used, "", RATIO, "%", 6, \
      "Stroke of the master cylinder's primary chamber used at driver.target, over all of it.") \
    R(PEDAL, pedal, secondary_stroke_used, "", RATIO, "%", 6, \
      "Stroke of the master cylinder's secondary chamber used at driver.target, over all of it.") \
    R(PEDAL, pedal, travel_first_failed, "", LENGTH, "mm", 6, \
      "Travel of the pedal pad at driver.pedal_force_most, first circuit failed.") \
    R(PEDAL, pedal, travel_second_failed, "", LENGTH, "mm", 6, \
      "Travel of the pedal pad at driver.pedal_force_most, second circuit failed.")

#define BRAKE_FLUID_RESULTS(R) \
    R(FLUID, fluid, gaps, "", VOLUME, "cm3", 4, "Fluid to close the pad clearances.") \
    R(FLUID, fluid, shoes, "", VOLUME, "cm3", 4, "Fluid to bring the shoes to the drums.") \
    R(FLUID, fluid, take_up, "", VOLUME, "cm3", 4, \
      "Fluid to shut the ports of the master cylinder.") \
    R(FLUID, fluid, compliance, "", VOLUME, "cm3", 4, \
      "Fluid for calipers and drums that give way at driver.target.") \
    R(FLUID, fluid, hoses, "", VOLUME, "cm3", 4, \
      "Fluid for hoses and lines that give way at driver.target.") \
    R(FLUID, fluid, air, "", VOLUME, "cm3", 4, \
      "Fluid for air in it that is squeezed at driver.target.") \
    R(FLUID, fluid, total, "V(p_t)", VOLUME, "cm3", 4, "Fluid in all at driver.target.")

#define BRAKE_TORQUE_RESULTS(R) \
    R(TORQUE, torque, front_needed, "", TORQUE, "N*m", 6, \
      "Front torque for driver.target at equal adhesion of both axles.") \
    R(TORQUE, torque, rear_needed, "", TORQUE, "N*m", 6, \
      "Rear torque for driver.target at equal adhesion of both axles.") \
    R(TORQUE, torque, front_available, "T_1", TORQUE, "N*m", 6, \
      "Front torque at driver.pedal_force_most.") \
    R(TORQUE, torque, rear_available, "T_2", TORQUE, "N*m", 6, \
      "Rear torque at driver.pedal_force_most.") \
    R(TORQUE, torque, front_margin, "", RATIO, "%", 6, \
      "Front torque available over torque needed, less 1.") \
    R(TORQUE, torque, rear_margin, "", RATIO, "%", 6, \
      "Rear torque available over torque needed, less 1.") \
    R(TORQUE, torque, margin, "", RATIO, "%", 6, \
      "Torque of both axles available over torque needed, less 1.")

#define BRAKE_BALANCE_RESULTS(R) \
    R(BALANCE, balance, front_share, "F_1 / (F_1 + F_2)", RATIO, "%", 6, \
      "Front share of brake force at driver.target.") \
    R(BALANCE, balance, ideal_front_share, "s", RATIO, "%", 6, \
      "Front share of brake force at which both axles would use the same adhesion.") \
    R(LOCK, balance, lock_deceleration, "a", ACCELERATION, "m/s2", 5, \
      "Deceleration at which the first axle locks on road.adhesion.") \
    R(LOCK, balance, lock_pedal_force, "F", FORCE, "N", 6, \
      "Pedal force at which the first axle locks on road.adhesion.") \
    R(LOCK, balance, lock_axle, "", RATIO, "", 6, "Axle that locks first: 0 front, 1 rear.") \
    R(LOCK, balance, efficiency, "", RATIO, "%", 6, \
      "Deceleration at which the first axle locks, over road.adhesion times g.") \
    R(CENTRE_DRIVE, balance, rear_first_above, "a", ACCELERATION, "m/s2", 5, \
      "Deceleration above which the rear axle locks first, centre drive free.") \
    R(BALANCE, balance, front_adhesion_used, "k_1", RATIO, "", 5, \
      "Adhesion used in front at driver.target.") \
    R(BALANCE, balance, rear_adhesion_used, "k_2", RATIO, "", 5, \
      "Adhesion used at the rear at driver.target.") \
    R(CENTRE_DRIVE, balance, locked_drive_lock_deceleration, "a", ACCELERATION, "m/s2", 5, \
      "Deceleration at which all wheels lock together, centre drive locked.") \
    R(BALANCE, balance, valve_knee, "k", PRESSURE, "bar", 3, "Knee of the rear valve; of one that senses height with the body pitched.")

#define BRAKE_FAILED_RESULTS(R) \
    R(FAILED, failed, first_circuit, "a", ACCELERATION, "m/s2", 6, \
      "Deceleration at driver.pedal_force_most, first circuit failed.") \
    R(FAILED, failed, second_circuit, "a", ACCELERATION, "m/s2", 6, \
      "Deceleration at driver.pedal_force_most, second circuit failed.") \
    R(FAILED, failed, no_assist, "a", ACCELERATION, "m/s2", 6, \
      "Deceleration at driver.pedal_force_most without assist.") \
    R(FAILED, failed, low_vacuum, "a", ACCELERATION, "m/s2", 6, \
      "Deceleration at driver.pedal_force_most at booster.vacuum_low or pressure_low.") \
    R(FAILED, failed, valve_open, "a", ACCELERATION, "m/s2", 6, \
      "Deceleration at driver.pedal_force_most, rear valve stuck open.") \
    R(FAILED, failed, valve_shut, "a", ACCELERATION, "m/s2", 6, \
      "Deceleration at driver.pedal_force_most, rear valve stuck shut.") \
    R(FAILED, failed, no_antilock, "a", ACCELERATION, "m/s2", 6, \
      "Deceleration at driver.pedal_force_most, anti-lock failed.") \
    R(FAILED, failed, wheels_locked, "a", ACCELERATION, "m/s2", 6, \
      "Deceleration at driver.pedal_force_most when nothing keeps wheels from locking: those past " \
      "the peak of friction slide.")

#define BRAKE_STOP_RESULTS(R) \
    R(STOP, stop, distance, "", LENGTH, "m", 6, \
      "Stopping distance from stop.speed, from first movement of the pedal.") \
    R(STOP, stop, time, "", TIME, "s", 6, \
      "Time to stop from stop.speed, from first movement of the pedal.") \
    R(STOP, stop, sight_distance, "", LENGTH, "m", 6, \
      "Stopping distance from stop.speed with stop.reaction_time before the pedal moves.") \
    R(STOP_HEAT, stop, energy, "(m + J_1 + J_2) v^2 / 2", ENERGY, "kJ", 6, \
      "Energy of motion at stop.speed.") \
    R(STOP_HEAT, stop, front_heat_share, "", RATIO, "%", 6, \
      "Share of the energy of motion at stop.speed that goes into the front brakes.") \
    R(STOP_HEAT, stop, front_rise, "", RISE, "K", 6, \
      "Rise of the front rotors or drums in a stop from stop.speed, nothing lost.") \
    R(STOP_HEAT, stop, rear_rise, "", RISE, "K", 6, \
      "Rise of the rear rotors or drums in a stop from stop.speed, nothing lost.")

#define BRAKE_PARKING_RESULTS(R) \
    R(PARKING, parking, needed, "m g sin(atan 0.20) r", TORQUE, "N*m", 6, \
      "Torque at the wheels to hold on 20 %.") \
    R(PARKING, parking, available, "T", TORQUE, "N*m", 6, \
      "Torque of the parking brake at the wheels.") \
    R(PARKING, parking, margin, "", RATIO, "%", 6, \
      "Torque of the parking brake over that needed on the grade of the test, less 1.") \
    R(PARKING, parking, effort_grade, "tan(asin(T / (m g r)))", RATIO, "%", 6, \
      "Grade that the torque of the parking brake holds, tyres aside.") \
    R(PARKING, parking, grade_up, "", RATIO, "%", 6, \
      "Grade that the parking brake holds nose uphill, tyres included.") \
    R(PARKING, parking, grade_down, "", RATIO, "%", 6, \
      "Grade that the parking brake holds nose downhill, tyres included.") \
    R(PARKING, parking, deceleration, "", ACCELERATION, "m/s2", 6, \
      "Deceleration by the parking brake alone.") \
    R(PARKING, parking, trailer_grade, "", RATIO, "%", 6, \
      "Grade that the torque of the parking brake holds with the trailer, tyres aside.")

#define BRAKE_STEERING_RESULTS(R) \
    R(STEERING, steering, pull, "d F_1 / (2 - d)", TORQUE, "N*m", 6, \
      "Torque at the steering from the left-right difference, at driver.target.") \
    R(STEERING, steering, pull_one_circuit, "s P_1", TORQUE, "N*m", 6, \
      "Torque at the steering with one circuit of a diagonal split failed, at " \
      "driver.pedal_force_most.") \
    R(STEERING, steering, yaw_one_circuit, "(t_1 P_1 - t_2 P_2) / 2", TORQUE, "N*m", 6, \
      "Moment that turns the vehicle towards the braked front wheel with one circuit of a " \
      "diagonal split failed, at driver.pedal_force_most.")

#define BRAKE_TOW_RESULTS(R) \
    R(TOW, tow, without_brakes, "", ACCELERATION, "m/s2", 6, \
      "Deceleration with the trailer, none of its brakes working.") \
    R(TOW, tow, as_stated, "", ACCELERATION, "m/s2", 6, \
      "Deceleration with the trailer, trailer.working of its brakes working.") \
    R(TOW, tow, all_brakes, "", ACCELERATION, "m/s2", 6, \
      "Deceleration with the trailer, all its brakes working.")

#define BRAKE_HEAT_RESULTS(R) \
    R(HEAT, heat, pedal_force_first, "F", FORCE, "N", 8, \
      "Largest pedal force of the first application of a duty; of a descent, that at its begin.") \
    R(HEAT, heat, pedal_force_last, "F", FORCE, "N", 8, \
      "Largest pedal force of the last application of a duty; of a descent, that at its end.") \
    R(HEAT, heat, pedal_force_most, "F", FORCE, "N", 8, "Largest pedal force of a duty.") \
    R(HEAT, heat, distance, "", LENGTH, "m", 8, "Distance while the last stop of a duty lasts.") \
    R(HEAT, heat, developed_deceleration, "", ACCELERATION, "m/s2", 8, \
      "Mean fully developed deceleration of the last stop of a duty.") \
    R(HEAT, heat, shortfall, "", ACCELERATION, "m/s2", 8, \
      "Largest deceleration that the driver wanted in a duty and did not get.") \
    R(HEAT, heat, fluid_margin, "", RISE, "K", 8, \
      "Wet boiling point less the hottest fluid of a duty.") \
    R(HEAT, heat, stress_share, "", RATIO, "%", 8, \
      "Largest thermal stress in a duty over the tensile strength of the iron.") \
    R(HEAT, heat, energy_residual, "", RATIO, "", 8, \
      "Energy of a duty that went astray in the calculation, over that put in.") \
    R(HEAT, heat, duration, "", TIME, "s", 8, "Time that a duty takes, rest aside.") \
    R(HEAT, heat, front_face, "T_face", TEMPERATURE, "degC", 8, \
      "Front rubbed face at its hottest in a duty.") \
    R(HEAT, heat, front_face_last, "T_face", TEMPERATURE, "degC", 8, \
      "Front rubbed face at the end of a duty.") \
    R(HEAT, heat, front_rotor, "T_mean", TEMPERATURE, "degC", 8, \
      "Front rotor or drum at its hottest in a duty, mean over its wall.") \
    R(HEAT, heat, front_rotor_last, "T_mean", TEMPERATURE, "degC", 8, \
      "Front rotor or drum at the end of a duty, mean over its wall.") \
    R(HEAT, heat, front_rotor_rise, "", RISE, "K", 8, \
      "Rise of the front rotor or drum over the air, at its hottest in a duty.") \
    R(HEAT, heat, front_pad, "", TEMPERATURE, "degC", 8, \
      "Front pads or linings at their hottest in a duty and the rest after it.") \
    R(HEAT, heat, front_pad_last, "", TEMPERATURE, "degC", 8, \
      "Front pads or linings at the end of a duty.") \
    R(HEAT, heat, front_fluid, "", TEMPERATURE, "degC", 8, \
      "Front fluid at its hottest in a duty and the rest after it.") \
    R(HEAT, heat, front_fluid_last, "", TEMPERATURE, "degC", 8, \
      "Front fluid at the end of a duty.") \
    R(HEAT, heat, front_stress, "", PRESSURE, "MPa", 8, \
      "Largest thermal stress of the front rubbed face in a duty.") \
    R(HEAT, heat, front_energy, "", ENERGY, "MJ", 8, "Heat into both front brakes in a duty.") \
    R(HEAT, heat, rear_face, "T_face", TEMPERATURE, "degC", 8, \
      "Rear rubbed face at its hottest in a duty.") \
    R(HEAT, heat, rear_face_last, "T_face", TEMPERATURE, "degC", 8, \
      "Rear rubbed face at the end of a duty.") \
    R(HEAT, heat, rear_rotor, "T_mean", TEMPERATURE, "degC", 8, \
      "Rear rotor or drum at its hottest in a duty, mean over its wall.") \
    R(HEAT, heat, rear_rotor_last, "T_mean", TEMPERATURE, "degC", 8, \
      "Rear rotor or drum at the end of a duty, mean over its wall.") \
    R(HEAT, heat, rear_rotor_rise, "", RISE, "K", 8, \
      "Rise of the rear rotor or drum over the air, at its hottest in a duty.") \
    R(HEAT, heat, rear_pad, "", TEMPERATURE, "degC", 8, \
      "Rear pads or linings at their hottest in a duty and the rest after it.") \
    R(HEAT, heat, rear_pad_last, "", TEMPERATURE, "degC", 8, \
      "Rear pads or linings at the end of a duty.") \
    R(HEAT, heat, rear_fluid, "", TEMPERATURE, "degC", 8, \
      "Rear fluid at its hottest in a duty and the rest after it.") \
    R(HEAT, heat, rear_fluid_last, "", TEMPERATURE, "degC", 8, \
      "Rear fluid at the end of a duty.") \
    R(HEAT, heat, rear_stress, "", PRESSURE, "MPa", 8, \
      "Largest thermal stress of the rear rubbed face in a duty.") \
    R(HEAT, heat, rear_energy, "", ENERGY, "MJ", 8, "Heat into both rear brakes in a duty.") \
    R(HEAT, heat, fluid_boiling, "", TEMPERATURE, "degC", 8, \
      "Wet boiling point of the brake fluid.")

#define BRAKE_DRIVE_RESULTS(R) \
    R(DRIVE, drive, measured_deceleration, "d_m", ACCELERATION, "m/s2", 11, \
      "Mean fully developed deceleration measured, mean of the stops that are compared.") \
    R(DRIVE, drive, predicted_deceleration, "", ACCELERATION, "m/s2", 11, \
      "Deceleration predicted for the same pedal force or pressure, mean of the same stops.") \
    R(DRIVE, drive, friction_factor, "", RATIO, "", 11, \
      "Factor on the friction of both axles that would explain what was measured.") \
    R(DRIVE, drive, fade, "", RATIO, "%", 11, \
      "Change of measured over predicted deceleration from first to last stop of a drive.") \
    R(DRIVE, drive, scatter, "", RATIO, "%", 11, \
      "Standard deviation of measured over predicted deceleration over the stops of a drive.")

#define BRAKE_COMPARE_RESULTS(R) \
    R(COMPARISON, compare, missing, "", RATIO, "%", 12, \
      "Part of brake torque over torque needed, both axles, that a change took; worse load case.")
/* clang-format on */

/* A part of the list as the members of a struct. */
#define BRAKE_RESULT_MEMBER(group, part, name, symbol, dimension, unit, section, meaning)          \
    double name;

/** Results that do not depend on load. */
struct brake_common_results {
    struct {
        BRAKE_SPEEDOMETER_RESULTS(BRAKE_RESULT_MEMBER)
    } speedometer;
    struct {
        BRAKE_BRAKES_RESULTS(BRAKE_RESULT_MEMBER)
    } brakes;
    struct {
        BRAKE_FADE_RESULTS(BRAKE_RESULT_MEMBER)
    } fade; /* NaN until the procedure has been run */
};

/** Results of one load case. */
struct brake_case_results {
    struct {
        BRAKE_MASS_RESULTS(BRAKE_RESULT_MEMBER)
    } mass;
    struct {
        BRAKE_CG_RESULTS(BRAKE_RESULT_MEMBER)
    } cg;
    struct {
        BRAKE_DECELERATION_RESULTS(BRAKE_RESULT_MEMBER)
    } deceleration;
    struct {
        BRAKE_PEDAL_RESULTS(BRAKE_RESULT_MEMBER)
    } pedal;
    struct {
        BRAKE_FLUID_RESULTS(BRAKE_RESULT_MEMBER)
    } fluid;
    struct {
        BRAKE_TORQUE_RESULTS(BRAKE_RESULT_MEMBER)
    } torque;
    struct {
        BRAKE_BALANCE_RESULTS(BRAKE_RESULT_MEMBER)
    } balance;
    struct {
        BRAKE_FAILED_RESULTS(BRAKE_RESULT_MEMBER)
    } failed;
    struct {
        BRAKE_STOP_RESULTS(BRAKE_RESULT_MEMBER)
    } stop;
    struct {
        BRAKE_PARKING_RESULTS(BRAKE_RESULT_MEMBER)
    } parking;
    struct {
        BRAKE_STEERING_RESULTS(BRAKE_RESULT_MEMBER)
    } steering;
    struct {
        BRAKE_TOW_RESULTS(BRAKE_RESULT_MEMBER)
    } tow;
};

/** Results of a duty, of a drive, of a comparison. */
struct brake_study_results {
    struct {
        BRAKE_HEAT_RESULTS(BRAKE_RESULT_MEMBER)
    } heat;
    struct {
        BRAKE_DRIVE_RESULTS(BRAKE_RESULT_MEMBER)
    } drive;
    struct {
        BRAKE_COMPARE_RESULTS(BRAKE_RESULT_MEMBER)
    } compare;
};

#undef BRAKE_RESULT_MEMBER

/** All results of an evaluation. */
struct brake_results {
    struct brake_common_results common;
    struct brake_case_results load[BRAKE_LOADS];
};

/** Row of the catalogue of results. */
struct brake_result {
    const char *name;   /**< without the load case */
    const char *symbol; /**< as in reference/method.md; empty when it has none */
    enum brake_dimension dimension;
    const char *unit;    /**< unit of the trade it is shown in */
    const char *meaning; /**< one line, which stands by itself */
    int section;         /**< of reference/method.md, which says how it is worked out */
    enum brake_result_group group;
    size_t offset; /**< in its struct */
};

/** Number of results of an evaluation, both load cases counted; they come first.
 * @return  count
 */
int brake_result_count(void);

/** Number of all results: those of a duty, a drive and a comparison come last.
 * @return  count
 */
int brake_result_all(void);

/** Row of a result.
 * @param index  0 to brake_result_all() - 1
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

/** Value of a result of an evaluation.
 * @param results  evaluated
 * @param index    of the result
 * @return         [SI] value; NaN when it cannot be given
 */
double brake_result_value(const struct brake_results *results, int index);

#ifdef __cplusplus
}
#endif

#endif
