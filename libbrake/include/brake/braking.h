/* SPDX-License-Identifier: MIT */
/** @file braking.h
 * A braking in time: from the foot to standstill, with friction that follows heat.
 *
 *   pedal     nothing for dead_time, then its force rises straight over rise_time to the one that
 *             the driver holds, or that gives what he holds
 *   booster   output follows its law with a lag: dF/dt = (F_law - F) / lag, F = 0 at the start; a
 *             driver who finds the force for what he holds makes up for the lag: it counts for a
 *             held force only
 *   vehicle   dv/dt = -a, ds/dt = v; a from the balance at the line pressure, on the slope, with
 *             the drag of the air c v^2, wheels kept from locking by driver or anti-lock
 *   friction  torque of an axle times C(mu)/C(mu_0); mu at the temperature of the rubbed face, from
 *             thermal.h, at the rubbing speed and the pressure on the lining
 *   heat      a brake gets the work of its torque: power T v / r
 *
 * In time: classical Runge-Kutta of order 4 for the vehicle over short steps, the lag of the
 * booster in closed form. A step ends where a smooth piece ends: where the pedal's rise begins and
 * ends, where the booster runs out, where the pressure passes a threshold, the knee of the valve or
 * what the fluid allows, where the pedal force meets its limit, where an axle meets that of
 * adhesion, and where a speed of interest is passed; the time is found to 1e-13 s. A step that is
 * beyond such a point half way and not at its end is tried again half as long. While the pedal
 * rises a step is an eighth of that time at most, a quarter where friction follows heat and sets
 * the length, half of that with electronic distribution; while the booster lags at first an eighth
 * of the lag. Heat and friction are coupled by a predictor and one corrector: torque per pressure
 * is a parabola through its last two values and that at the end of the step, and heat is power
 * along a straight line that brings the work done. Where the pedal has no rise the power jumps, and
 * the face with it: friction, power and face are first made to agree. Second order in the step, by
 * the straight line of the power; without heat, fourth. Energy is kept within 1e-9 at steps of 0.02
 * s.
 *
 * Length of a step: its miss is |torque per pressure found by the predictor over that
 * expected - 1|. It goes with the cube of the step, and the corrector leaves a ninth of its error.
 * Miss times length is held near the tolerance of the rig:
 *
 *   next length = length * 0.9 (tolerance / (miss * length))^(1/4)
 *
 * a fifth to twice the length, a fortieth of the longest at least. A step that misses far is tried
 * again once, shorter; one that misses by less than a tenth of the tolerance needs no corrector.
 *
 * Accuracy: over 50 random vehicles whose friction drops by up to 40 % within 60 K, at steps up to
 * 0.5 s and tolerance 1e-4 s, stops from 100 km/h came out within 1e-4 m/s2 and 6 mm, faces within
 * 0.05 K of steps of 0.005 s. The hottest face between the ends of steps is the top of a parabola:
 * in 314 stops with discs of any size it came out 0.05 K low to 0.08 K high of that through the
 * faces at each 0.1 s. None is sought across an instant where the power bends.
 *
 * Sources: Mitschke, Dynamik der Kraftfahrzeuge (stop in time); UN R13-H, Annex 3, 1.1.2 (mean
 * fully developed deceleration); Hairer, Norsett and Wanner, Solving Ordinary Differential
 * Equations I, ch. II.1, II.4, II.6 and III.5 (Runge-Kutta, length of a step, events, predictor and
 * corrector of unequal steps); Anderson and Bjorck, BIT 13 (1973) 253 (by whose
 * rule events are found).
 */
#ifndef BRAKE_BRAKING_H
#define BRAKE_BRAKING_H

#include <stdbool.h>

#include "brake/balance.h"
#include "brake/drum.h"
#include "brake/friction.h"
#include "brake/pedal.h"
#include "brake/status.h"
#include "brake/thermal.h"

#ifdef __cplusplus
extern "C" {
#endif

/** How the torque of a brake follows its friction. */
struct brake_gain_law {
    double mu;                   /**< [-] friction at which the balance's gain holds */
    double power;                /**< [-] torque goes with mu to this power: 1 for a disc */
    bool shaped;                 /**< true: a drum whose shoes are known, power is not used */
    enum brake_shoes shoes;      /**< of that drum */
    struct brake_shoe shoe;      /**< of that drum; the primary one of a duo-servo */
    struct brake_shoe secondary; /**< of a duo-servo */
    double secondary_friction;   /**< [-] over that of the primary */
};

/** Torque at a friction over torque at the friction of the law.
 * @param law  of the brake
 * @param mu   [-] friction, above 0
 * @return     [-]; NaN when a shoe locks by itself at this friction
 * @source     brake_disc_torque; brake_drum_factor_shape; brake_drum_factor_servo
 */
double brake_gain_ratio(const struct brake_gain_law *law, double mu);

/** What the driver does. */
enum brake_manner {
    BRAKE_HOLDS_FORCE,        /**< holds a pedal force */
    BRAKE_HOLDS_DECELERATION, /**< finds the pedal force for a deceleration, up to a limit */
    BRAKE_AT_INCIPIENT_LOCK   /**< brakes at incipient lock, or where the anti-lock works, up to a
                                   limit of pedal force */
};

/** One application of the brakes. */
struct brake_application {
    enum brake_manner manner;
    double force;        /**< [N] pedal force held, or its limit */
    double deceleration; /**< [m/s2] held */
    double from;         /**< [m/s] speed at the start */
    double to;           /**< [m/s] speed at the end, 0 for a stop */
};

/** Vehicle, brakes, heat: what a braking needs to know. */
struct brake_rig {
    struct brake_balance balance; /**< gains at the friction of the laws; drag is not used */
    struct brake_pedal pedal;
    double pressure_most; /**< [Pa] that the fluid allows; infinite: no limit */
    double adhesion;      /**< [-] of tyres and road */
    double antilock;      /**< [-] part of it that the anti-lock keeps; 0: none */
    double air_drag;      /**< [N*s2/m2] c: drag over speed squared */
    double dead_time;     /**< [s] of the pedal */
    double rise_time;     /**< [s] of the pedal */
    double booster_lag;   /**< [s] 0: none */
    double air;           /**< [K] temperature of the air */
    double step;          /**< [s] longest step, 1e-4 to 60 */
    double tolerance;     /**< [s] of a step where friction follows heat: part of the torque that it
                               may miss, times its length, 0 to 1; 0: all steps are the longest */
    struct brake_gain_law law[BRAKE_AXLES];
    const struct brake_friction *friction[BRAKE_AXLES]; /**< NULL: does not follow heat */
    const struct brake_thermal *thermal[BRAKE_AXLES];   /**< one brake of the axle; NULL: no heat,
                                                             friction that of the law */
    double rubbing[BRAKE_AXLES]; /**< [-] rubbing speed over speed: effective over rolling radius */
    double lining[BRAKE_AXLES];  /**< [-] pressure on the lining over that at the axle's brakes */
};

/** Where a braking stands. Plain numbers: copy it to save it. */
struct brake_braking {
    double time;                                  /**< [s] since the pedal was touched */
    double distance;                              /**< [m] */
    double speed;                                 /**< [m/s] */
    double output;                                /**< [N] of the booster */
    double resisted;                              /**< [J] into slope, air and rolling */
    double effort;                                /**< [N*s] pedal force over time */
    double work[BRAKE_AXLES];                     /**< [J] into both brakes of each axle */
    double pedal_force;                           /**< [N] */
    double pressure;                              /**< [Pa] at the master cylinder */
    double deceleration;                          /**< [m/s2] */
    double friction[BRAKE_AXLES];                 /**< [-] mu */
    double fading[BRAKE_AXLES];                   /**< [1/s] of C(mu)/C(mu_0) over a last step */
    double bending[BRAKE_AXLES];                  /**< [1/s2] half its second derivative there */
    double span;                                  /**< [s] length of that step; 0: none yet */
    double step;                                  /**< [s] to try next; 0 at the start */
    struct brake_thermal_state heat[BRAKE_AXLES]; /**< of one brake of each axle */
};

/** What came of it, besides where the braking stands. */
struct brake_outcome {
    double developed;  /**< [m/s2] mean fully developed deceleration; NaN unless a stop */
    double passed_80;  /**< [m] where a stop passed 0.8 of its first speed; NaN: not yet */
    double passed_10;  /**< [m] where it passed 0.1 of it; NaN: not yet */
    double ended;      /**< [s] when the end speed was reached; NaN: not yet */
    double force_most; /**< [N] largest pedal force */
    double face_most[BRAKE_AXLES];   /**< [K] hottest face; NaN without heat */
    double pad_most[BRAKE_AXLES];    /**< [K] hottest pads or linings, at the ends of steps; NaN
                                          without heat */
    double stress_rise[BRAKE_AXLES]; /**< [K] largest face less mean; NaN without heat */
    double warming[BRAKE_AXLES];   /**< [K/s] of the face over the last step that was not short; 0:
                                        not smooth since */
    double straining[BRAKE_AXLES]; /**< [K/s] of the face less mean over it */
    double amid;                   /**< [s] half way through that step */
    double lock_time; /**< [s] when an axle first reached the limit of adhesion; NaN: never */
    double knee_time; /**< [s] when the booster ran out; NaN: never */
    double residual;  /**< [-] energy of motion lost less all work done, over that at the start, or
                           over the work of the brakes when that is more */
    long steps;       /**< taken */
};

/** Begin a braking; heat goes on from what is in the state.
 * @param rig          the vehicle
 * @param application  what the driver does
 * @param braking      its heat as brake_thermal_start or an earlier braking left it; the rest
 *                     filled
 * @param outcome      filled
 * @source             file head
 */
void brake_braking_begin(const struct brake_rig *rig, const struct brake_application *application,
                         struct brake_braking *braking, struct brake_outcome *outcome);

/** Go on to a time, or to the end speed if that comes first. Where a longer time is cut into
 * several calls matters only as the length of a step does.
 * @param rig          the vehicle
 * @param application  what the driver does
 * @param until        [s] since the start
 * @param braking      moved on; as it was when refused
 * @param outcome      kept up to date; as it was when refused
 * @return             OK; E_RANGE when a number is out of range; E_SELF_LOCK when a shoe grabs
 * @source             file head
 */
enum brake_status brake_braking_advance(const struct brake_rig *rig,
                                        const struct brake_application *application, double until,
                                        struct brake_braking *braking,
                                        struct brake_outcome *outcome);

#ifdef __cplusplus
}
#endif

#endif
