/* SPDX-License-Identifier: MIT */
/* The brakes of one vehicle in one load case and one state of failure;
 * private to the library. */
#ifndef BRAKE_VEHICLE_SYSTEM_H
#define BRAKE_VEHICLE_SYSTEM_H

#include "brake/balance.h"
#include "brake/pedal.h"
#include "brake/system.h"

/** [-] grade of the parking test of a vehicle alone (UN R13-H, Annex 3, 2.3) */
#define BRAKE_PARKING_TEST 0.20

/** [J/(kg*K)] grey iron at room temperature, at the low end: the higher rise. ASTM A48 grade 20
 * property page (reference/check-values.json, CV-30). */
#define BRAKE_IRON_HEAT_CAPACITY 450.0

/** Brakes ready to be asked. */
struct brake_system {
    struct brake_balance balance;
    struct brake_pedal pedal;
    struct brake_fluid circuit[2]; /**< what each chamber must fill [m3, m3/Pa] */
    bool failed[2];                /**< a failed circuit fills nothing and holds no pressure */
    double stroke[2];              /**< [m] of each chamber; NaN: not known */
    int held;                      /**< circuit whose chamber ends before the other; -1: none */
    double pressure_most; /**< [Pa] at which both chambers or the pedal are at their ends; infinite:
                               never */
    double free_play;     /**< [m] of the pad */
    double travel;        /**< [m] of the pad to the floor; NaN: not known */
    double adhesion;      /**< [-] of the road */
    double modulation;    /**< [-] part of it that the driver keeps without locking a wheel */
    double antilock;      /**< [-] part of it that the anti-lock keeps; 0: none */
};

/** Vehicle with its parts, before the load of a load case, lift and tyre growth included.
 * @param vehicle  complete
 * @return         mass [kg] and centre [m]
 * @source         brake_body_sum, brake_cg_rise
 */
struct brake_body brake_vehicle_bare(const struct brake_vehicle *vehicle);

/** Vehicle in a load case.
 * @param vehicle  complete
 * @param load     as driven, or of a clause
 * @return         mass [kg] and centre [m]; NaN at a rated mass that is not known
 * @source         brake_body_sum
 */
struct brake_body brake_vehicle_body(const struct brake_vehicle *vehicle, enum brake_load load);

/** What all tyres of an axle may carry.
 * @param axle  of a vehicle
 * @return      [kg]; NaN where the capacity of one is not known
 */
double brake_vehicle_tyre_capacity(const struct brake_axle_of_vehicle *axle);

/** Mass that takes up the heat of an axle: both rotors or both drums.
 * @param axle  of a vehicle
 * @return      [kg]; NaN where it is not known
 */
double brake_vehicle_iron(const struct brake_axle_of_vehicle *axle);

/** Rear valve as it stands in a load case.
 * @param vehicle  complete
 * @param load     empty or full
 * @return         knee [Pa], infinite without a valve, and slope [-]
 * @source         brake_valve_knee_sensed
 */
struct brake_valve brake_vehicle_valve(const struct brake_vehicle *vehicle, enum brake_load load);

struct valve_pitch; /* of model/force_lines.h */

/** Brake factor of the drums of an axle.
 * @param vehicle  complete
 * @param axle     front or rear
 * @param factor   [-] filled: drum.brake_factor, or from the lining; NaN when refused
 * @return         OK, E_RANGE or E_SELF_LOCK
 * @source         brake_drum_factor_shape, brake_drum_factor_servo
 */
enum brake_status brake_vehicle_drum_factor(const struct brake_vehicle *vehicle,
                                            enum brake_axle axle, double *factor);

/** Shoe of a drum; the primary one of a duo-servo.
 * @param vehicle  complete
 * @param axle     front or rear
 * @return         geometry [m, rad]
 */
struct brake_shoe brake_vehicle_shoe(const struct brake_vehicle *vehicle, enum brake_axle axle);

/** Secondary shoe of a duo-servo drum.
 * @param vehicle  complete
 * @param axle     front or rear
 * @return         geometry [m, rad]
 */
struct brake_shoe brake_vehicle_secondary_shoe(const struct brake_vehicle *vehicle,
                                               enum brake_axle axle);

/** Whether the shoes of an axle are known by their geometry: only then can it be told when one
 * locks itself.
 * @param vehicle  complete
 * @param axle     of it
 * @return         false for a disc, or a drum of which only the brake factor is known
 */
bool brake_vehicle_shoe_shaped(const struct brake_vehicle *vehicle, enum brake_axle axle);

/** Friction from which on a leading shoe of an axle locks itself, over the friction that it has.
 * @param vehicle  complete
 * @param axle     of it
 * @return         [-]; infinite where the geometry of the shoes is not known, or none can lock
 * @source         Shigley, eq. 16-2 to 16-4: the moment of the friction is that of the pressure
 */
double brake_vehicle_room_to_lock(const struct brake_vehicle *vehicle, enum brake_axle axle);

/** How a brake factor follows friction where the geometry of the shoes is not known: as a power of
 * it.
 * @param shoes  arrangement
 * @return       [-] exponent, at usual friction
 * @source       common practice, no source
 */
double brake_vehicle_factor_power(enum brake_shoes shoes);

/** Piston area on one side of the rotor, all groups.
 * @param pistons  groups of equal pistons
 * @return         [m2]
 * @source         brake_piston_area
 */
double brake_vehicle_piston_area(const struct brake_pistons *pistons);

/** Torque of both brakes of an axle per pressure above the threshold.
 * @param vehicle    complete
 * @param axle       front or rear
 * @param threshold  [Pa] filled
 * @return           [N*m/Pa]; NaN for a drum that locks by itself
 * @source           brake_disc_torque, brake_drum_torque
 */
double brake_vehicle_torque_gain(const struct brake_vehicle *vehicle, enum brake_axle axle,
                                 double *threshold);

/** Delay of the brakes from the first movement of the pedal: dead time and build-up. */
struct brake_delay {
    double dead_time; /**< [s] */
    double build_up;  /**< [s] */
};

/** Delay of a vehicle.
 * @param vehicle  complete
 * @return         the delay
 */
struct brake_delay brake_vehicle_delay(const struct brake_vehicle *vehicle);

/** Build the brakes of a load case and a failure.
 * @param vehicle  complete
 * @param load     empty or full
 * @param failure  what has failed
 * @param system   filled
 */
void brake_system_build(const struct brake_vehicle *vehicle, enum brake_load load,
                        enum brake_failure failure, struct brake_system *system);

struct valve_pitch; /* of model/force_lines.h */

/** How the valve of brakes moves with the body.
 * @param vehicle  complete
 * @param failure  what the system was built with
 * @param system   built of that vehicle
 * @param still    filled: the valve, the vehicle at rest
 * @return         rate 0: it does not
 */
struct valve_pitch brake_system_pitch(const struct brake_vehicle *vehicle,
                                      enum brake_failure failure, const struct brake_system *system,
                                      struct brake_valve *still);

/** Whether a vehicle has what may fail.
 * @param vehicle  complete
 * @param failure  what would fail; one circuit at least is always there
 * @return         false: no second circuit, booster, sensing valve, anti-lock
 */
bool brake_vehicle_can_fail(const struct brake_vehicle *vehicle, enum brake_failure failure);

/** Let something fail.
 * @param vehicle  complete
 * @param failure  what fails
 * @param system   of that vehicle, built intact; as brake_system_build with that failure after
 */
void brake_system_fail(const struct brake_vehicle *vehicle, enum brake_failure failure,
                       struct brake_system *system);

/** Take the ends of strokes and pedal away: what it would take to go on, not what is reached.
 * @param system  built; its strokes are not known after
 */
void brake_system_release(struct brake_system *system);

/** Line pressure at a pedal force, no more than the fluid allows before both chambers or the pedal
 * are at their ends. A chamber that ends first keeps its circuit at the hold of the balance.
 * @param system  built
 * @param force   [N] on the pedal
 * @return        [Pa]
 */
double brake_system_pressure(const struct brake_system *system, double force);

/** Travel of the pedal pad at a pressure; a failed circuit lets its chamber run to the end, and
 * none runs farther.
 * @param system    built
 * @param pressure  [Pa]
 * @return          [m]; NaN when a failed chamber's stroke is not known
 */
double brake_system_travel(const struct brake_system *system, double pressure);

/** Adhesion up to which the balance goes without anti-lock; with it, what the anti-lock has to keep
 * its part of.
 * @param system  built
 * @return        [-]
 */
double brake_system_grip(const struct brake_system *system);

/** Deceleration at a pedal force, wheels kept from locking by driver or anti-lock.
 * @param system  built
 * @param force   [N] on the pedal
 * @return        [m/s2]
 */
double brake_system_deceleration(const struct brake_system *system, double force);

#endif
