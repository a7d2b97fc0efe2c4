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

/** Families of rules, as bits. Hazards are judged whichever are asked for. */
enum brake_rules {
    BRAKE_RULES_US = 1,
    BRAKE_RULES_UN = 2,
    BRAKE_RULES_EU = 4,
    BRAKE_RULES_ALL = 7,
    BRAKE_RULES_HAZARD = 8
};

/** [-] Peak friction of the surface that brakes are tested on, with the reference tyre: 49 CFR
 * 571.135, S6.2.1; the UN tests want a surface of good adhesion and give no figure, taken alike. */
#define BRAKE_TEST_ADHESION 0.9

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
    BRAKE_STROKE_USED,          /**< [-] of travel or stroke, at the deceleration of the limit's
                                     clause */
    BRAKE_SHOE_LOCK,            /**< [-] friction at which a shoe locks itself over its own, at
                                     least */
    BRAKE_TYRE_LOAD,            /**< [-] axle load over what its tyres may carry, at most */
    BRAKE_AXLE_LOAD,            /**< [-] axle load over the axle's rating, at most */
    BRAKE_MASS_LOAD,            /**< [-] mass over the rated mass, at most */
    BRAKE_HOT_DISTANCE,         /**< [m] better of two hot stops, at most lag v + coefficient v^2 */
    BRAKE_HOT_LENGTHENING,      /**< [m] first hot stop, at most lag v + (cold - lag v) / limit */
    BRAKE_HOT_DECELERATION,     /**< [m/s2] fully developed, better of two hot stops, at least */
    BRAKE_HOT_KEPT,             /**< [-] first hot stop over cold, fully developed, at least */
    BRAKE_RECOVERY_LEAST,       /**< [-] stop after cooling over cold, at least */
    BRAKE_RECOVERY_MOST,        /**< [-] the same, at most */
    BRAKE_FLUID_ROOM,           /**< [-] rise to boiling over rise of the fluid on a descent, at
                                     least */
    BRAKE_MEASURES
};

/** What the model itself may be off by, apart from its inputs: rows of one kind share it. */
enum brake_model_error {
    BRAKE_MODEL_EXACT, /**< measured, or arithmetic on what was measured */
    BRAKE_MODEL_STOP,
    BRAKE_MODEL_BALANCE,
    BRAKE_MODEL_PARKING,
    BRAKE_MODEL_STROKE,
    BRAKE_MODEL_HEAT,
    BRAKE_MODEL_ERRORS
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
    BRAKE_TO_FAST = 8192,        /**< top speed above 125 km/h */
    BRAKE_TO_SHOE_SHAPE = 16384, /**< a drum whose shoes are known by their geometry */
    BRAKE_TO_COMMERCIAL = 32768, /**< used commercially */
    BRAKE_TO_SECONDARY = 65536   /**< with a secondary brake of its own */
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
    const char *missing;        /**< path of the one line that it lacks, when there is one; else
                                     NULL */
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
    double fluid_room;              /**< [-] room to boiling over the rise of the fluid on a
                                       descent; NaN when that cannot be said */
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

#ifdef __cplusplus
}
#endif

#endif
