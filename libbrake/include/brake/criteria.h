/** @file criteria.h
 * Published requirements as data, and the one function that judges a vehicle by them.
 *
 * A judgement is an estimate against a named clause. It is never an approval.
 */
#ifndef BRAKE_CRITERIA_H
#define BRAKE_CRITERIA_H

#include <stdbool.h>

#include "brake/system.h"
#include "brake/units.h"

#ifdef __cplusplus
extern "C" {
#endif

enum { BRAKE_CRITERIA = 96 /**< room for every criterion */ };

/** Families of rules, as bits. */
enum brake_rules {
    BRAKE_RULES_US = 1,
    BRAKE_RULES_UN = 2,
    BRAKE_RULES_EU = 4,
    BRAKE_RULES_ALL = 7
};

enum brake_verdict { BRAKE_MEETS, BRAKE_FALLS_SHORT, BRAKE_CANNOT_SAY };

/** What a criterion measures. */
enum brake_measure {
    BRAKE_STOP_DISTANCE,        /**< [m] at most lag v + coefficient v^2, or the limit */
    BRAKE_STOP_DECELERATION,    /**< [m/s2] fully developed, at least */
    BRAKE_STOP_RATIO,           /**< [-] brake force over weight, at least */
    BRAKE_TOW_DECELERATION,     /**< [m/s2] with an unbraked trailer, at least */
    BRAKE_PARKING_GRADE,        /**< [-] held up and down, at least */
    BRAKE_PARKING_TOW_GRADE,    /**< [-] held with an unbraked trailer, at least */
    BRAKE_PARKING_DECELERATION, /**< [m/s2] by the parking brake, at least */
    BRAKE_PARKING_RATIO,        /**< [-] parking brake force over weight, at least */
    BRAKE_PARKING_TOW_RATIO,    /**< [-] the same over the weight with the trailer, at least */
    BRAKE_REAR_FIRST,           /**< [-] ratio above which the rear locks first, at least */
    BRAKE_REAR_CURVE,           /**< [-] rear adhesion used over ratio / 0.9, at most 1 */
    BRAKE_ADHESION_CURVE,       /**< [-] ratio at first lock over the published bound, at least 1 */
    BRAKE_SIDE_DIFFERENCE,      /**< [-] left to right on an axle, at most */
    BRAKE_PEDAL_TRAVEL,         /**< [-] of the travel to the floor, at most */
    BRAKE_HOT_DISTANCE,         /**< [m] better of two hot stops, at most lag v + coefficient v^2 */
    BRAKE_HOT_LENGTHENING,      /**< [m] first hot stop, at most lag v + (cold - lag v) / limit */
    BRAKE_HOT_DECELERATION,     /**< [m/s2] fully developed, better of two hot stops, at least */
    BRAKE_HOT_KEPT,             /**< [-] first hot stop over cold, fully developed, at least */
    BRAKE_RECOVERY_LEAST,       /**< [-] stop after cooling over cold, at least */
    BRAKE_RECOVERY_MOST         /**< [-] the same, at most */
};

/** Which load cases a criterion is judged at; the worse counts. */
enum brake_load_of { BRAKE_AT_EMPTY, BRAKE_AT_FULL, BRAKE_AT_BOTH };

/** To which vehicles a criterion applies, as bits; 0: to all. */
enum brake_applies {
    BRAKE_TO_M1 = 1,
    BRAKE_TO_N1 = 2,
    BRAKE_TO_LIGHT = 4,    /**< rated mass up to 3,500 kg */
    BRAKE_TO_10000_LB = 8, /**< rated mass up to 4,536 kg */
    BRAKE_TO_CAR_FRAME = 16,
    BRAKE_TO_TRUCK_FRAME = 32,
    BRAKE_TO_NEW = 64, /**< first registered in 2012 or later */
    BRAKE_TO_OLD = 128,
    BRAKE_TO_ANTILOCK = 256,
    BRAKE_TO_NO_ANTILOCK = 512,
    BRAKE_TO_BOOSTED = 1024,
    BRAKE_TO_SENSING_VALVE = 2048,
    BRAKE_TO_TRAILER = 4096,
    BRAKE_TO_FAST = 8192 /**< top speed above 125 km/h */
};

/** Published fade procedures. */
enum brake_fade_kind {
    BRAKE_FADE_CAR,   /**< stops from 100 km/h, snubs every 45 s: FMVSS 135, UN R13-H */
    BRAKE_FADE_GOODS, /**< stops from 80 km/h, snubs every 55 s: UN R13 for N1 */
    BRAKE_FADES
};

/** A published requirement. */
struct brake_criterion {
    const char *id; /**< ours, e.g. "us.135.cold" */
    enum brake_rules rules;
    const char *clause;
    const char *title;
    enum brake_measure measure;
    enum brake_failure failure[2]; /**< states of failure; the worse counts */
    enum brake_load_of load;
    double force;              /**< [N] pedal, or hand (foot: 100 more); 0: driver's most */
    double speed;              /**< [m/s] 0: a share of top speed, up to speed_cap */
    double speed_cap;          /**< [m/s] for 80 % of top speed */
    double lag;                /**< [s] of the distance formula; 0: the clause allows none */
    double coefficient;        /**< [m/(km/h)2] of the distance formula; 0: limit is the distance */
    double limit;              /**< [SI] of the measure */
    bool rated;                /**< weight is that of the rated mass, when it is known */
    enum brake_fade_kind fade; /**< procedure that a hot measure is taken from */
    unsigned applies;          /**< bits of enum brake_applies */
    const char *text;          /**< where the figure was read; NULL: not read in the current text */
};

/** A vehicle judged by a criterion. */
struct brake_judgement {
    enum brake_verdict verdict;
    bool applies;               /**< false: the verdict is cannot_say and does not count */
    double value;               /**< [SI] of the measure; NaN when it cannot be given */
    double limit;               /**< [SI] of the measure; NaN when it cannot be given */
    double margin;              /**< [-] above 0 meets; have over need, less 1 */
    enum brake_load load;       /**< at which it is worst */
    enum brake_failure failure; /**< at which it is worst */
    const char *reason;         /**< why it cannot be said, or why there is no figure; else NULL */
};

/** A stop of a fade procedure. */
struct brake_hot_stop {
    double distance;  /**< [m] from the first movement of the pedal; infinite: no stop */
    double developed; /**< [m/s2] mean fully developed deceleration; 0: no stop */
};

/** What a fade procedure gave: what the hot measures are taken from. */
struct brake_hot_figures {
    struct brake_hot_stop cold;     /**< before the heating */
    struct brake_hot_stop hot[2];   /**< after it: at the cold stop's pedal force, at the most */
    struct brake_hot_stop recovery; /**< after cooling, at the cold stop's pedal force */
    const char *lacks;              /**< why there are none of these; NULL when there are */
};

/** Number of criteria.
 * @return  count
 */
int brake_criterion_count(void);

/** Criterion of a number.
 * @param index  0 to brake_criterion_count() - 1
 * @return       the criterion
 */
const struct brake_criterion *brake_criterion_at(int index);

/** What a measure is measured in.
 * @param measure  of a criterion
 * @return         its dimension
 */
enum brake_dimension brake_measure_dimension(enum brake_measure measure);

/** Whether a value must stay below the limit.
 * @param measure  of a criterion
 * @return         true: at most; false: at least
 */
bool brake_measure_at_most(enum brake_measure measure);

/** Judge a vehicle by a criterion.
 * @param criterion  the requirement
 * @param vehicle    complete
 * @param judgement  filled
 */
void brake_judge(const struct brake_criterion *criterion, const struct brake_vehicle *vehicle,
                 struct brake_judgement *judgement);

/** Whether a measure is taken from a fade procedure; brake_judge cannot say what it is.
 * @param measure  of a criterion
 * @return         true when brake_judge_hot judges it
 */
bool brake_measure_hot(enum brake_measure measure);

/** Judge a vehicle by a criterion of hot performance, at its full load.
 * @param criterion  the requirement, of a hot measure
 * @param vehicle    complete
 * @param figures    of the criterion's procedure
 * @param judgement  filled
 */
void brake_judge_hot(const struct brake_criterion *criterion, const struct brake_vehicle *vehicle,
                     const struct brake_hot_figures *figures, struct brake_judgement *judgement);

/** Judge a vehicle by some criteria; what they have in common is worked out once.
 * @param criterion  numbers of the requirements
 * @param count      of them
 * @param vehicle    complete
 * @param judgement  room for as many, filled
 */
void brake_judge_some(const int *criterion, int count, const struct brake_vehicle *vehicle,
                      struct brake_judgement *judgement);

/** Judge a vehicle by whole families of rules.
 * @param rules      bits of enum brake_rules
 * @param vehicle    complete
 * @param judgement  room for brake_criterion_count(), filled; of another family: cannot say
 */
void brake_judge_all(unsigned rules, const struct brake_vehicle *vehicle,
                     struct brake_judgement *judgement);

/** Words of a verdict.
 * @param verdict  one of three
 * @return         "meets", "falls short" or "cannot say"
 */
const char *brake_verdict_words(enum brake_verdict verdict);

/** Words of a state of failure.
 * @param failure  one of the states
 * @return         e.g. "first circuit failed"; empty when nothing has failed
 */
const char *brake_failure_words(enum brake_failure failure);

/** What a calculation cannot judge and an inspector must.
 * @param index  0 and up
 * @return       one line, NULL past the last
 */
const char *brake_inspector_item(int index);

#ifdef __cplusplus
}
#endif

#endif
