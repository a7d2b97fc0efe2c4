/* SPDX-License-Identifier: MIT */
/** @file balance.h
 * How brake force is shared between the axles, which axle locks first, and what deceleration a line
 * pressure gives.
 *
 *   torque of an axle     T_i = b_i (p_i - p0_i) for p_i > p0_i, p_2 behind the valve
 *   a chamber at its end  T_i less h_i (T_i(q) - T_i(p_from)), q = p kept between p_from and p_to:
 *                         the circuit of the chamber that is out of stroke stays where it is
 *   an engine in gear     T_i more by its drag, J_i by its inertia, both at the wheels
 *   deceleration          a = (T_1/r_1 + T_2/r_2 + f m g cos t + m g sin t + D) / (m + J_1 + J_2),
 *                         J_i = I_i / r_i^2, t slope of the road, D drag of the air
 *   force at the tyres    F_i = T_i/r_i - J_i a
 *   load                  N_1 = (m (g cos t (L - x) + (a - g sin t - D/m) h) + (sum of I_i/r_i) a)
 *                               / L,  N_2 = m g cos t - N_1
 *   adhesion used         k_i = (T_i/r_i - w_i J_i a) / (w_i N_i) + f,  w_i share of the axle's
 *                         wheels that are braked; of an axle whose wheels hang on different
 *                         circuits that of the wheel whose circuit goes on
 *
 * A wheel that is braked slows itself and no other: w_i. What it rolls against acts where it is
 * braked and takes its part of the adhesion: f. As wheels stop turning they throw load forward like
 * the body: sum of I/r, from the moment of momentum about a point of the road. An engine, whose
 * crankshaft lies along the vehicle, throws none; it drags its axle at every pressure.
 *
 * Everything is piecewise linear in p, so locks and targets are found exactly, piece by piece.
 * With the centre drive locked both axles turn together and share force as they share load:
 * k_1 = k_2 = sum of (T_i/r_i - w_i J_i a) / (w_1 N_1 + w_2 N_2) + f, w = 1 for an axle without
 * brakes. No stop goes beyond the a of N_2 = 0, where the rear axle leaves the road.
 *
 * Electronic distribution keeps the rear to k_2 <= k_1. Where it does so, k_1 = k_2 with T_1 known
 * is a quadratic in a, from which T_2 follows; what is then asked of the pressure is no more
 * straight, and is found by halving.
 *
 * Sources: UN Regulation 13-H, Annex 5 (adhesion utilisation); Wong, Theory of Ground Vehicles, ch.
 * 3; Limpert, Brake Design and Safety, ch. 7; mechanics (wheels).
 */
#ifndef BRAKE_BALANCE_H
#define BRAKE_BALANCE_H

#include <stdbool.h>

#include "brake/constants.h"
#include "brake/load.h"
#include "brake/pedal.h"

#ifdef __cplusplus
extern "C" {
#endif

/** The brakes of one axle, both wheels together. */
struct brake_axle_brakes {
    double gain;        /**< [N*m/Pa] b, torque per pressure above the threshold */
    double threshold;   /**< [Pa] p0 */
    double radius;      /**< [m] rolling radius */
    double inertia;     /**< [kg*m2] of both wheels and what turns with them */
    double wheels;      /**< [-] w, 1 unless a circuit has failed */
    double held;        /**< [-] h, part of the torque that the circuit of the hold works */
    double held_wheels; /**< [-] part of the axle's wheels that this circuit works on */
    double geared;      /**< [kg*m2] of the engine as the wheels turn it, 0 out of gear */
    double drag;        /**< [N*m] of the engine at the wheels, 0 out of gear */
};

/** Pressures between which one chamber of the master cylinder is at the end of its stroke and the
 * other goes on. Beyond them nothing is reached: there the torques rise as they would without an
 * end, so that a lock or a target can still be named. */
struct brake_hold {
    double from; /**< [Pa] at which the first chamber is at its end */
    double to;   /**< [Pa] at which the other one or the pedal is too; from: nothing is held */
};

/** A vehicle as the balance sees it. */
struct brake_balance {
    struct brake_body body;                     /**< mass [kg] and centre [m] */
    double wheelbase;                           /**< [m] L */
    double rolling;                             /**< [-] f, rolling resistance, 0 is safe */
    double grade;                               /**< [-] of the road, positive uphill */
    double drag;                                /**< [N] of the air, at the centre of gravity */
    struct brake_axle_brakes axle[BRAKE_AXLES]; /**< front, rear */
    struct brake_valve valve;                   /**< in the rear line */
    struct brake_hold hold;                     /**< 0 and 0: no chamber ends before the other */
    bool locked;                                /**< true: centre drive locked */
    bool regulated;                             /**< true: electronic distribution at work */
};

/** State of the vehicle at one pressure. */
struct brake_balance_state {
    double deceleration;       /**< [m/s2] */
    double force[BRAKE_AXLES]; /**< [N] at the tyres */
    double load[BRAKE_AXLES];  /**< [N] */
    double used[BRAKE_AXLES];  /**< [-] adhesion used, k */
};

/** Mass that the brakes must slow: m + sum of I/r^2.
 * @param balance  the vehicle
 * @return         [kg]
 * @source         Wong, ch. 3 (mass factor by parts)
 */
double brake_effective_mass(const struct brake_balance *balance);

/** Body whose height carries the turning of the wheels too, as load transfer sees it.
 *
 *   h' = h + sum of I/(r m)
 * @param balance  the vehicle
 * @return         mass [kg] and centre [m]
 * @source         moment of momentum about a point of the road
 */
struct brake_body brake_turning_body(const struct brake_balance *balance);

/** Brake torque of an axle at a line pressure.
 * @param balance   the vehicle
 * @param axle      front or rear
 * @param pressure  [Pa] at the master cylinder
 * @return          [N*m] both wheels
 * @source          file head
 */
double brake_axle_torque(const struct brake_balance *balance, enum brake_axle axle,
                         double pressure);

/** State at a line pressure, no wheel locked.
 * @param balance   the vehicle
 * @param pressure  [Pa] at the master cylinder
 * @return          the state; adhesion used is infinite on an axle that carries no load
 * @source          file head
 */
struct brake_balance_state brake_balance_at(const struct brake_balance *balance, double pressure);

/** Line pressure that gives a deceleration, whatever the tyres can hold.
 * @param balance       the vehicle
 * @param deceleration  [m/s2]
 * @return              [Pa]; infinite when no pressure gives it
 * @source              inverse of the deceleration of the file head
 */
double brake_balance_pressure(const struct brake_balance *balance, double deceleration);

/** States at several decelerations at once: what they have in common is worked out once.
 * @param balance       the vehicle
 * @param deceleration  [m/s2] of each
 * @param count         how many
 * @param at            room for count, filled as by brake_balance_at
 * @return              false when no pressure gives one of them: from there on nothing is filled
 * @source              as brake_balance_pressure
 */
bool brake_balance_points(const struct brake_balance *balance, const double *deceleration,
                          int count, struct brake_balance_state *at);

/** Where the first axle locks as pressure rises, or the rear leaves the road. */
struct brake_lock {
    double pressure;      /**< [Pa] infinite when nothing locks */
    double deceleration;  /**< [m/s2] at that pressure */
    enum brake_axle axle; /**< the axle that locks or leaves the road; front when both lock */
};

/** First lock on a road.
 * @param balance   the vehicle
 * @param adhesion  [-] peak friction of tyre and road, above 0
 * @return          pressure, deceleration and axle
 * @source          Wong, ch. 3 (conditions for front and rear lock)
 */
struct brake_lock brake_balance_lock(const struct brake_balance *balance, double adhesion);

/** First locks on many roads at once: what does not depend on the road is worked out once.
 * @param balance   the vehicle
 * @param adhesion  [-] peak friction of tyre and road, above 0, of each road
 * @param count     number of roads
 * @param lock      room for count, filled as by brake_balance_lock
 * @source          Wong, ch. 3
 */
void brake_balance_locks(const struct brake_balance *balance, const double *adhesion, int count,
                         struct brake_lock *lock);

/** Deceleration above which the rear axle locks before the front one: the lowest at or above `from`
 * at which the rear uses more adhesion than the front and still is on the road.
 * @param balance  the vehicle
 * @param from     [m/s2] where to begin
 * @return         [m/s2]; infinite when the rear never uses more (no rear force, locked drive, or
 *                 electronic distribution at work)
 * @source         UN R13-H, Annex 5, 3.1 (B); equality of the two k is a quadratic in p
 */
double brake_balance_rear_first(const struct brake_balance *balance, double from);

/** State at a line pressure when the driver or the anti-lock keeps the wheels turning.
 *
 * Without anti-lock: no more than at the first lock. With it: an axle that would lock keeps the
 * part e k N of its adhesion, the other goes on.
 * @param balance   the vehicle
 * @param pressure  [Pa] at the master cylinder
 * @param adhesion  [-] k, peak friction of tyre and road
 * @param antilock  [-] e, adhesion kept by the anti-lock, 0 for a vehicle without
 * @return          the state
 * @source          UN R13-H, Annexes 5 and 6
 */
struct brake_balance_state brake_balance_kept(const struct brake_balance *balance, double pressure,
                                              double adhesion, double antilock);

/** Deceleration at a line pressure when the driver or the anti-lock keeps the wheels turning.
 * @param balance   the vehicle
 * @param pressure  [Pa] at the master cylinder
 * @param adhesion  [-] k, peak friction of tyre and road
 * @param antilock  [-] e, adhesion kept by the anti-lock, 0 for a vehicle without
 * @return          [m/s2]
 * @source          UN R13-H, Annexes 5 and 6
 */
double brake_balance_deceleration(const struct brake_balance *balance, double pressure,
                                  double adhesion, double antilock);

/** Deceleration at a line pressure when nothing keeps the wheels from locking: an axle past the
 * peak of friction locks and slides, first the one that locks first.
 * @param balance   the vehicle
 * @param pressure  [Pa] at the master cylinder
 * @param adhesion  [-] k, peak friction of tyre and road
 * @param sliding   [-] friction of a locked wheel over the peak
 * @return          [m/s2]
 * @source          Wong, ch. 3; a locked wheel turns no mass and gives sliding k N
 */
double brake_balance_sliding(const struct brake_balance *balance, double pressure, double adhesion,
                             double sliding);

/** Ideal front share of brake force: both axles use the same adhesion.
 * @param body       mass [kg] and centre [m]
 * @param wheelbase  [m]
 * @param ratio      [-] deceleration over g
 * @return           [-] front force over total
 * @source           Limpert, ch. 7; Mannering and Washburn, ch. 2, eq. 2.30
 */
double brake_ideal_share(struct brake_body body, double wheelbase, double ratio);

/** Braking ratio at which an axle locks for a fixed share of brake force.
 * @param body       mass [kg] and centre [m]
 * @param wheelbase  [m]
 * @param share      [-] of brake force on the front axle, 0 to 1
 * @param rolling    [-] rolling resistance
 * @param adhesion   [-] peak friction of tyre and road
 * @param axle       front or rear
 * @return           [-] deceleration over g; infinite for a front axle that gains load faster than
 *                   brake force
 * @source           Wong, ch. 3, from the axle balance
 */
double brake_lock_ratio(struct brake_body body, double wheelbase, double share, double rolling,
                        double adhesion, enum brake_axle axle);

/** Torque at the steering from a left-right difference of front brake force.
 *
 *   dF = d F / (2 - d),  torque = dF s
 * @param force       [N] brake force of the front axle
 * @param difference  [-] d, (larger - smaller) / larger
 * @param scrub       [m] s, scrub radius
 * @return            [N*m] about the steering axes
 * @source            Gillespie, Fundamentals of Vehicle Dynamics, ch. 8 (brake steer)
 */
double brake_steering_pull(double force, double difference, double scrub);

#ifdef __cplusplus
}
#endif

#endif
