/* SPDX-License-Identifier: MIT */
/** @file drivelog.h
 * A recorded drive: its stops, how sure each figure is, and whether they agree with the prediction.
 *
 *   developed   d_m = (v_b^2 - v_e^2) / (2 (s_e - s_b)), v_b = 0.8 v_0, v_e = 0.1 v_0
 *   corrected   s (v_n / v_0)^2 to the nominal speed v_n
 *
 * Between v_b and v_e the speed is a polynomial through the rows (least squares); what is left over
 * is noise, of which a part may stay from row to row, as receivers filter; it is one and the same
 * for all stops of a log. Each figure comes with the half width that holds 90 of 100: noise, and
 * the sampling interval, within which the foot came on somewhere. What a day of measuring is off by
 * in all of its stops alike, grade, lag and the scale of the pedal gauge, is in what is held
 * against the prediction, and in the distances.
 *
 * Sources: d_m UN R13-H, Annex 3, 1.1.2, and UN R13, Annex 4, 1.1.2 (read in GRRF-56-3); correction
 * SAE J299 (scope read, formula from memory); propagation JCGM 100 (GUM), sec. 5.1.2.
 */
#ifndef BRAKE_DRIVELOG_H
#define BRAKE_DRIVELOG_H

#include <stdbool.h>

#include "brake/catalogue.h"
#include "brake/system.h"

#ifdef __cplusplus
extern "C" {
#endif

/** What a column of a log holds. */
enum brake_log_column {
    BRAKE_LOG_TIME,
    BRAKE_LOG_SPEED,
    BRAKE_LOG_PEDAL_FORCE,
    BRAKE_LOG_PRESSURE,
    BRAKE_LOG_DECELERATION,
    BRAKE_LOG_FRONT_TEMPERATURE,
    BRAKE_LOG_REAR_TEMPERATURE,
    BRAKE_LOG_GRADE,   /**< positive uphill */
    BRAKE_LOG_HEADING, /**< of the way that the vehicle goes */
    BRAKE_LOG_COLUMNS
};

/** A row of a log. */
struct brake_log_row {
    double value[BRAKE_LOG_COLUMNS]; /**< [SI] time and speed known, the others NaN when not */
    int line;                        /**< of the file */
};

/** A number and how sure it is. */
struct brake_measured {
    double value; /**< [SI] NaN: not known */
    double half;  /**< [SI] 90 of 100 lie within value -+ half */
};

/** What a day of measuring is off by, in all of its stops alike. */
struct brake_drive_day {
    struct brake_measured grade; /**< [-] of the road the way the first stop went, positive uphill;
                                      where the log has no column of it */
    struct brake_measured lag;   /**< [s] by which the speed comes later than what the foot does */
    struct brake_measured gauge; /**< [-] pedal force, or pressure, over what the log says */
};

/** What is usual, for those who did not measure it: a road that looks level, a satellite receiver,
 * a gauge that was not held against another. Common practice, no source.
 */
extern const struct brake_drive_day brake_drive_usual_day;

/** What the lines of a vehicle's drive say of the day; what they leave out is as usual.
 * @param sheet  complete
 * @return       the day
 */
struct brake_drive_day brake_drive_day_of(const struct brake_sheet *sheet);

/** Why a stop does not count, as bits. */
enum brake_stop_flag {
    BRAKE_STOP_GAP = 1,        /**< rows are missing in it */
    BRAKE_STOP_JUMP = 2,       /**< the speed jumps, a wheel locks until it stands, or no tyre slows
                                    a vehicle as much: the unit is another */
    BRAKE_STOP_WHEEL_LOCK = 4, /**< the wheel drops out of the vehicle's speed and comes back */
    BRAKE_STOP_COARSE = 8,     /**< too few rows, or too much noise */
    BRAKE_STOP_BEGUN = 16      /**< the brakes were on when the log began: no distance */
};

/** A stop. */
struct brake_drive_stop {
    long first;                      /**< row at which the foot comes on */
    long last;                       /**< row at which the vehicle stands */
    unsigned flags;                  /**< bits of enum brake_stop_flag */
    long flagged;                    /**< row of the first gap, jump or lock */
    int points;                      /**< rows between 0.8 and 0.1 of the initial speed */
    double noise;                    /**< [m/s] standard deviation of a reading of the speed, of all
                                          the log */
    struct brake_measured initial;   /**< [m/s] speed when the brakes come on */
    double nominal;                  /**< [m/s] speed that the distance is brought to */
    struct brake_measured distance;  /**< [m] */
    struct brake_measured corrected; /**< [m] to the nominal speed */
    struct brake_measured developed; /**< [m/s2] mean fully developed deceleration */
    double indicated;                /**< [m/s2] the same by the column of the deceleration */
    double pedal_force;              /**< [N] mean over the way between 0.8 and 0.1 of v_0 */
    double pressure;                 /**< [Pa] the same */
    double temperature[BRAKE_AXLES]; /**< [K] when the stop begins */
    double grade;   /**< [-] mean over the same, positive uphill; NaN: not logged */
    double heading; /**< [rad] when the stop begins; NaN: not logged */
    struct brake_measured predicted; /**< [m/s2] for that pedal force or pressure */
    bool capped;                     /**< the tyres, not the brakes, limit the prediction */
};

enum { BRAKE_DRIVE_STOPS = 200 /**< most stops of a log */ };

/** How the stops of a drive are alike. */
struct brake_repeat {
    double nominal;   /**< [m/s] speed that they were made from */
    int stops;        /**< that count */
    double mean[2];   /**< [SI] of the deceleration [m/s2] and the corrected distance [m] */
    double spread[2]; /**< [SI] standard deviation of the same; NaN for one stop */
    double least[2];  /**< [SI] of the same */
    double most[2];   /**< [SI] of the same */
};

enum { BRAKE_DRIVE_SPEEDS = 16 /**< most nominal speeds of a log */ };

/** What the drive says about the prediction. */
enum brake_agreement { BRAKE_AGREES, BRAKE_BELOW, BRAKE_ABOVE, BRAKE_NOT_SAID };

/** What came of a drive. */
struct brake_drive {
    struct brake_drive_stop stop[BRAKE_DRIVE_STOPS];
    struct brake_drive_day day;
    int stops;
    int counted;     /**< stops without a flag but BEGUN */
    int gentle;      /**< slowed to standstill at less than 1 m/s2: no stop */
    double interval; /**< [s] between rows, median */
    bool timed;      /**< distances count from the pedal; else from where deceleration sets in */
    struct brake_repeat repeat[BRAKE_DRIVE_SPEEDS];
    int repeats;
    struct brake_measured fade; /**< [-] change of measured over predicted, or of the deceleration,
                                     first to last */
    enum brake_agreement agreement;
    struct brake_measured measured;  /**< [m/s2] mean of the stops that are compared */
    struct brake_measured predicted; /**< [m/s2] for the same */
    int compared;                    /**< stops that are */
    bool both_ways;                  /**< of a log without grade they went both ways of a road */
    double scatter;                  /**< [-] standard deviation of measured over predicted over
                                          them; NaN for fewer than two */
    struct brake_measured friction;  /**< [-] factor on mu of both axles that explains the
                                          difference */
};

/** Nominal speeds that a stop may be brought to; none: the nearest multiple of 10 km/h. */
struct brake_nominal {
    double speed[BRAKE_DRIVE_SPEEDS]; /**< [m/s] */
    int count;
};

/** Hold the stops against the prediction for a vehicle.
 * @param sheet  complete
 * @param load   as the vehicle was driven
 * @param drive  measured; filled with prediction, fade and agreement
 */
void brake_drive_compare(const struct brake_sheet *sheet, enum brake_load load,
                         struct brake_drive *drive);

/** Learn of a vehicle what the forces of its tester tell: every study of it draws it so from then
 * on. A log that is learned of takes them in too.
 * @param sheet  complete; its knowledge is filled, from nothing; without such forces all stays
 * @return       OK; E_MEMORY
 */
enum brake_status brake_tester_learn(struct brake_sheet *sheet);

/** What a drive told of the vehicle before holds of its unchanged parts still; a drive of the
 * changed vehicle itself goes before it.
 * @param before  complete, learned of or not
 * @param after   complete; its knowledge is filled when it has none
 */
void brake_drive_carry(const struct brake_sheet *before, struct brake_sheet *after);

enum { BRAKE_STOP_POINTS = 5 /**< least rows between 0.8 and 0.1 of the initial speed */ };

#ifdef __cplusplus
}
#endif

#endif
