/* SPDX-License-Identifier: MIT */
/** @file duty.h
 * What a vehicle's brakes go through: stops and snubs, a descent, a drive written down as a table,
 * and how hot all of it makes them.
 *
 * All parts begin at the temperature of the air, or of a published sequence, or as another duty
 * left them. Between two applications speed is regained in a straight line, and the brakes cool. On
 * a descent and in a table the driver holds the speed asked for as far as his foot can; where the
 * vehicle slows by itself the brakes stay off. After the duty the vehicle may stand: heat goes on
 * into the fluid.
 *
 * Time goes on in slices of 0.5 s while a stop, a snub or a braked segment of a drive lasts; on a
 * descent and while the brakes are off, of half the time that this has lasted, 1 to 30 s. Largest
 * values of wall, pads and fluid are those at the ends of slices. Who watches is shown a row every
 * 0.1 s while the brakes are on, but for a descent, else every second: from a copy, so that nothing
 * depends on the watching. No duty may last longer than 1e6 s.
 */
#ifndef BRAKE_DUTY_H
#define BRAKE_DUTY_H

#include <signal.h>
#include <stdbool.h>

#include "brake/rig.h"
#include "brake/warnings.h"

#ifdef __cplusplus
extern "C" {
#endif

struct brake_fade_sequence;

/** Stops, or snubs: equal applications, one every interval. */
struct brake_stops {
    int count;                /**< 1 to 100,000 */
    double from;              /**< [m/s] speed at the start of each */
    double to;                /**< [m/s] speed at the end, 0 for a stop */
    double interval;          /**< [s] from start to start; 0 when there is one only */
    enum brake_manner manner; /**< what the driver holds */
    double deceleration;      /**< [m/s2] when it is that */
    const struct brake_fade_sequence *sequence; /**< that they are of; NULL: none */
};

/** A descent at constant speed: the only road that is told by its fall. Every grade of the library
 * is positive uphill. */
struct brake_descent {
    double fall;   /**< [-] over distance along the level, 0 to 0.5, positive downhill */
    double length; /**< [m] of the road */
    double speed;  /**< [m/s] */
    double engine; /**< [-] share of the retardation that the engine takes, 0 to 1 */
};

/** A row of a drive. */
struct brake_cycle_point {
    double time;  /**< [s] rising */
    double speed; /**< [m/s] straight lines between the rows */
    double grade; /**< [-] of the road from this row on, positive uphill, -0.5 to 0.5 */
};

/** A drive, as its caller has it. */
struct brake_cycle {
    const struct brake_cycle_point *point;
    int count; /**< 2 and up */
};

enum brake_duty_kind {
    BRAKE_DUTY_STOPS,
    BRAKE_DUTY_DESCENT,
    BRAKE_DUTY_CYCLE,
    BRAKE_DUTY_REST /**< brakes off: nothing but the rest */
};

/** What the brakes go through. */
struct brake_duty {
    enum brake_duty_kind kind; /**< which of the next three counts */
    struct brake_stops stops;
    struct brake_descent descent;
    struct brake_cycle cycle;
    const struct brake_thermal_state *heat; /**< of one brake of each axle at the start, as a duty
                                                 before left it; NULL: all at the air's temperature,
                                                 or at that of the sequence that the stops are of */
    double force;      /**< [N] pedal force: the most that the driver gives, or the one he holds */
    double rest;       /**< [s] to cool down afterwards */
    double rest_speed; /**< [m/s] while it does: 0 standing */
};

/** [s] at a standstill after a duty, where nothing else is asked for: by then the fluid of the
 * brakes of a light vehicle is past its hottest, or a warning says that it is not. Common practice,
 * no source. */
#define BRAKE_PARKED 1800.0

/** One instant of the history. */
struct brake_duty_row {
    double time;                        /**< [s] */
    double distance;                    /**< [m] */
    double speed;                       /**< [m/s] */
    double deceleration;                /**< [m/s2] */
    double pedal_force;                 /**< [N] */
    double pressure;                    /**< [Pa] at the master cylinder */
    double brake_pressure[BRAKE_AXLES]; /**< [Pa] at the brakes: behind valve, distribution and
                                             anti-lock */
    double torque[BRAKE_AXLES];         /**< [N*m] of both brakes */
    double force[BRAKE_AXLES]; /**< [N] at the tyres, without rolling; 0 while the brakes are off */
    double face[BRAKE_AXLES];  /**< [K] rubbed face of rotor or drum */
    double mean[BRAKE_AXLES];  /**< [K] rotor or drum */
    double pad[BRAKE_AXLES];   /**< [K] pads or linings */
    double fluid[BRAKE_AXLES]; /**< [K] */
    double work[BRAKE_AXLES];  /**< [J] into both brakes since the start */
};

/** Who is shown the rows; row may be NULL. */
struct brake_duty_watch {
    void (*row)(void *context, const struct brake_duty_row *row);
    void *context; /**< handed back to it */
    bool coarse;   /**< true: only the ends of slices are shown, which costs nothing */
    const volatile sig_atomic_t
        *stop;          /**< once this is no longer 0 the duty ends with the slice, and
                                            its result says nothing; NULL: never */
    const double *time; /**< [s] rising: within slices rows are shown at these times instead; NULL:
                             as often as the file head says */
    long times;
};

/** How hot one brake of an axle got: at its hottest, rest included, and when the duty ended. */
struct brake_duty_heat {
    double face_most;   /**< [K] */
    double face_last;   /**< [K] */
    double mean_most;   /**< [K] */
    double mean_last;   /**< [K] */
    double pad_most;    /**< [K] */
    double pad_last;    /**< [K] */
    double fluid_most;  /**< [K] */
    double fluid_last;  /**< [K] */
    double stress_most; /**< [Pa] compression of the face by being hotter than the rest */
    double energy;      /**< [J] into both brakes of the axle */
};

/** What came of a duty. */
struct brake_duty_result {
    struct brake_duty_heat axle[BRAKE_AXLES];
    double fluid_margin; /**< [K] wet boiling point less the hottest fluid */
    double stress_share; /**< [-] largest stress over tensile strength of the iron */
    double force_first; /**< [N] pedal force: largest of the first application, or at its begin on a
                               descent */
    double force_last;  /**< [N] the same of the last, or at the end of a descent */
    double force_most;  /**< [N] largest of all */
    double force_mean;  /**< [N] over the time of the last application */
    double distance;    /**< [m] while the last application lasted */
    double developed;   /**< [m/s2] mean fully developed deceleration of the last stop; NaN else */
    double duration;    /**< [s] of the duty, rest aside */
    double shortfall;   /**< [m/s2] most that was missing from what the driver wanted to
                               hold; 0 below 0.001 */
    double residual;    /**< [-] |work - stored - given off| of all brakes over their work since
                               they were as at first, over 100 J when that is more */
    struct brake_thermal_state
        braked[BRAKE_AXLES];                      /**< of one brake of each axle before the rest */
    struct brake_thermal_state heat[BRAKE_AXLES]; /**< and after it */
    int applications; /**< stops or snubs that were carried through, or segments braked */
    bool held;        /**< every speed and deceleration was held; false ends stops early */
    bool locked;      /**< an axle met the limit of adhesion */
};

/** What is wrong with a duty.
 * @param duty  to run
 * @return      in words; NULL when nothing is
 */
const char *brake_duty_wrong(const struct brake_duty *duty);

/** Time that a duty lasts when all goes as wanted, rest included.
 * @param duty  nothing is wrong with it
 * @return      [s] of the last row, but for a single stop, of which only the rest is known
 */
double brake_duty_planned(const struct brake_duty *duty);

/** Run a duty.
 * @param hot     vehicle and brakes
 * @param duty    what they go through
 * @param watch   shown a row at the start and after every slice; NULL: nobody
 * @param result  filled
 * @return        OK; E_RANGE for a duty that brake_duty_wrong complains of, or when no step keeps
 *                the numbers finite; E_SELF_LOCK when a shoe grabs
 */
enum brake_status brake_duty_run(const struct brake_hot_rig *hot, const struct brake_duty *duty,
                                 const struct brake_duty_watch *watch,
                                 struct brake_duty_result *result);

/** Whether the brakes stand a duty: what the driver asks for is held, the fluid does not boil.
 * @param result  of the duty
 * @return        true when both
 */
bool brake_duty_stood(const struct brake_duty_result *result);

enum { BRAKE_DUTY_WARNINGS = 14 /**< room for every warning of a duty */ };

/** A published fade sequence, for the heating only. */
struct brake_fade_sequence {
    const char *id;
    const char *clause;
    const char *text;    /**< how the text was read */
    double from;         /**< [m/s] most */
    double top_share;    /**< [-] of the top speed, when that is less */
    double end_share;    /**< [-] of the first speed, at the end of a snub */
    double start;        /**< [K] of the brakes before the first */
    double interval;     /**< [s] */
    double deceleration; /**< [m/s2] */
    int count;
    bool same_force; /**< true: the pedal force of the first is held in all others, and not the
                          deceleration */
};

/** A published fade sequence by its id.
 * @param id  such as us.135.fade
 * @return    the sequence; NULL when there is none of that id
 */
const struct brake_fade_sequence *brake_fade_sequence_find(const char *id);

/** The snubs of a sequence for a vehicle.
 * @param sequence   published
 * @param top_speed  [m/s] of the vehicle; NaN: not known, taken as high
 * @return           the snubs
 */
struct brake_stops brake_fade_stops(const struct brake_fade_sequence *sequence, double top_speed);

#ifdef __cplusplus
}
#endif

#endif
