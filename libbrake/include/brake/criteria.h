/* SPDX-License-Identifier: MIT */
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

enum { BRAKE_CRITERIA = 144 /**< room for every criterion */ };

/** Families of rules: the one list of them. F(name, word, bit). */
#define BRAKE_FAMILIES(F)                                                                          \
    F(US, us, 1)                                                                                   \
    F(UN, un, 2) F(EU, eu, 4) F(GB, gb, 8) F(NL, nl, 16) F(DE, de, 32) F(CA, ca, 64) F(AU, au, 128)

/** Families of rules, as bits. Hazards are judged whichever are asked for. */
#define BRAKE_FAMILY_(name, word, bit) BRAKE_RULES_##name = (bit),
#define BRAKE_FAMILY_BIT_(name, word, bit) | (bit)
enum brake_rules {
    BRAKE_RULES_ALL = 0 BRAKE_FAMILIES(BRAKE_FAMILY_BIT_), /**< whatever the vehicle is */
    BRAKE_RULES_HAZARD = 1024,
    BRAKE_RULES_OWN = 2048, /**< those that bind the vehicle, or that it was built to */
    BRAKE_FAMILIES(BRAKE_FAMILY_)
};
#undef BRAKE_FAMILY_
#undef BRAKE_FAMILY_BIT_

/** How a requirement stands to a vehicle. */
enum brake_scope {
    BRAKE_OUTSIDE,   /**< it does not apply: the verdict is cannot_say and does not count */
    BRAKE_HAZARD,    /**< what hurts whatever binds the vehicle; counts */
    BRAKE_BINDS,     /**< binds it in use; counts */
    BRAKE_YARDSTICK, /**< what it was built to, or what may bind it: country, use or date is not
                          known */
    BRAKE_SCREEN,    /**< for comparison only */
    BRAKE_SCOPES
};

/** Lands that a text has force in, as bits. */
enum brake_land {
    BRAKE_LAND_US = 1,
    BRAKE_LAND_CA = 2,
    BRAKE_LAND_EEA = 4,
    BRAKE_LAND_NL = 8,
    BRAKE_LAND_GB = 16,
    BRAKE_LAND_DE = 32,
    BRAKE_LAND_AU = 64,
    BRAKE_LAND_OTHER = 128
};

/** What a text is for. */
enum brake_text_role {
    BRAKE_ROLE_HAZARD,
    BRAKE_ROLE_IN_USE,
    BRAKE_ROLE_BUILT,
    BRAKE_ROLE_PART /**< has force in a part of its country, or over a part of its vehicles, that no
                       line tells */
};

/** The texts that requirements are taken from. */
enum brake_book_id {
    BRAKE_BOOK_HAZARD,
    BRAKE_BOOK_105,
    BRAKE_BOOK_135,
    BRAKE_BOOK_393,
    BRAKE_BOOK_570,
    BRAKE_BOOK_R13H,
    BRAKE_BOOK_R13,
    BRAKE_BOOK_45,
    BRAKE_BOOK_MOT,
    BRAKE_BOOK_NL,
    BRAKE_BOOK_DE,
    BRAKE_BOOK_QUEBEC,
    BRAKE_BOOK_NSW,
    BRAKE_BOOK_SA
};

/** A text that requirements are taken from. */
struct brake_book {
    const char *name;
    enum brake_rules rules;
    enum brake_text_role role;
    unsigned lands;  /**< bits of enum brake_land */
    double from[2];  /**< [year] of manufacture that it began to bind at, by enum brake_frame; 0:
                         always */
    double modified; /**< [year] of the change from which on changed vehicles are held to it; 0:
                          always */
};

/** How the figure of a requirement was read. */
enum brake_read {
    BRAKE_READ_MEMORY,      /**< not read: check it against the text first */
    BRAKE_READ_SECOND_HAND, /**< in somebody's account of the text */
    BRAKE_READ_SISTER,      /**< in another revision, or a clause for other vehicles */
    BRAKE_READ_OWN          /**< in the clause itself, in the version that `text` names */
};

/** [-] Peak friction of the surface that brakes are tested on, with the reference tyre: 49 CFR
 * 571.135, S6.2.1; the UN tests want a surface of good adhesion and give no figure, taken alike. */
#define BRAKE_TEST_ADHESION 0.9

/** [-] Friction of tyre and roller on a roller tester: common practice, no source. The most that is
 * heard of, so that what has no source turns no row against a vehicle: a wheel that locks there has
 * brake enough. */
#define BRAKE_ROLLER_ADHESION 1.0

enum brake_verdict { BRAKE_MEETS, BRAKE_FALLS_SHORT, BRAKE_CANNOT_SAY };

/** What a criterion measures. */
enum brake_measure {
    BRAKE_STOP_DISTANCE,        /**< [m] at most lag v + coefficient v^2, or the limit */
    BRAKE_STOP_DECELERATION,    /**< [m/s2] fully developed, at least */
    BRAKE_STOP_AVERAGE,         /**< [m/s2] speed^2 over twice the stopping distance, at least */
    BRAKE_STOP_RATIO,           /**< [-] brake force over weight, at least */
    BRAKE_ROLLER_RATIO,         /**< [-] brake force on a roller tester over weight, at least */
    BRAKE_ROLLER_OR_LOCK,       /**< [-] the same; met too by front wheels that lock unladen there
                                     with 100 kgf at each rear wheel */
    BRAKE_TOW_DECELERATION,     /**< [m/s2] with an unbraked trailer, at least */
    BRAKE_TRAIN_DECELERATION,   /**< [m/s2] with the trailer and its brakes, at least */
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
    BRAKE_PEDAL_FORCE,          /**< [N] for the deceleration of the clause, at most */
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
    BRAKE_HOT_EACH,             /**< [m/s2] fully developed, worse of two hot stops, at least */
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

/** Which loads a criterion is judged at, as bits of enum brake_load; the worse counts. */
enum brake_load_of {
    BRAKE_AT_EMPTY = 1 << BRAKE_EMPTY,
    BRAKE_AT_FULL = 1 << BRAKE_FULL,
    BRAKE_AT_BOTH = BRAKE_AT_EMPTY | BRAKE_AT_FULL, /**< as driven */
    BRAKE_AT_LIGHT = 1 << BRAKE_LIGHT,
    BRAKE_AT_RATED = 1 << BRAKE_RATED
};

/** To which vehicles a criterion applies, as bits; 0: to all. */
enum brake_applies {
    BRAKE_TO_M1 = 1 << 0,
    BRAKE_TO_N1 = 1 << 1,
    BRAKE_TO_LIGHT = 1 << 2,    /**< rated mass up to 3,500 kg */
    BRAKE_TO_10000_LB = 1 << 3, /**< rated mass up to 4,536 kg */
    BRAKE_TO_CAR_FRAME = 1 << 4,
    BRAKE_TO_TRUCK_FRAME = 1 << 5,
    BRAKE_TO_ANTILOCK = 1 << 6,
    BRAKE_TO_NO_ANTILOCK = 1 << 7,
    BRAKE_TO_BOOSTED = 1 << 8,
    BRAKE_TO_SENSING_VALVE = 1 << 9,
    BRAKE_TO_TRAILER = 1 << 10,
    BRAKE_TO_FAST = 1 << 11,       /**< top speed above 125 km/h */
    BRAKE_TO_SHOE_SHAPE = 1 << 12, /**< a drum whose shoes are known by their geometry */
    BRAKE_TO_COMMERCIAL = 1 << 13, /**< used commercially */
    BRAKE_TO_SECONDARY = 1 << 14,  /**< with a secondary brake of its own */
    BRAKE_TO_HEAVIER = 1 << 15,    /**< rated mass above 3,500 kg */
    BRAKE_TO_4500_KG = 1 << 16,    /**< rated mass up to 4,500 kg */
    BRAKE_TO_MOT_4 = 1 << 17,      /**< classes 3 and 4 of the DVSA: no goods above 3,000 kg */
    BRAKE_TO_MOT_7 = 1 << 18,      /**< class 7 of the DVSA: goods, 3,000 to 3,500 kg */
    BRAKE_TO_VALVE = 1 << 19,      /**< with a valve before the rear brakes */
    BRAKE_TO_AXLE_SPLIT = 1 << 20, /**< with a circuit to each axle */
    BRAKE_TO_UNBRAKED_TRAILER = 1 << 21
};

/** Verdicts of some rows, counted. */
struct brake_tally {
    int meets;
    int falls_short;
    int cannot_say;
    int lacking; /**< of those, the ones that lack an input */
};

/** What all verdicts say together. */
struct brake_ruling {
    enum brake_verdict verdict; /**< the worst of the rows that count; never meets when nothing
                                     binds, when that is not known, or when nothing that binds was
                                     read in a text */
    struct brake_tally of[BRAKE_SCOPES];
    struct brake_tally counted; /**< hazards, and what binds */
    int unread;                 /**< rows that bind whose figures are from memory */
    const char *unstated;       /**< line that decides what binds and is left out; NULL: none */
    unsigned left_out;          /**< families that bind and were not asked for */
};

/** Published fade procedures. */
enum brake_fade_kind {
    BRAKE_FADE_CAR,   /**< stops from 100 km/h, snubs every 45 s: FMVSS 135, UN R13-H */
    BRAKE_FADE_GOODS, /**< stops from 80 km/h, snubs every 55 s: UN R13 for N1 */
    BRAKE_FADE_SA,    /**< stops from 60 km/h every 25 s: South Australia */
    BRAKE_FADES
};

/** A published requirement. */
struct brake_criterion {
    const char *id; /**< ours, e.g. "us.135.cold" */
    enum brake_book_id book;
    bool screen; /**< the text itself says that another test decides */
    const char *clause;
    const char *title;
    enum brake_measure measure;
    enum brake_failure failure[2]; /**< states of failure; the worse counts */
    unsigned load;                 /**< bits of enum brake_load_of */
    double force;                  /**< [N] pedal, or hand; 0: driver's most; of side differences:
                                        axles whose larger one is no more are passed over */
    double foot;                   /**< [N] parking pedal; 0: 100 more than by hand */
    double speed;                  /**< [m/s] 0: a share of top speed, up to speed_cap */
    double speed_cap;              /**< [m/s] for 80 % of top speed */
    double lag;                    /**< [s] of the distance formula; 0: the clause allows none */
    double coefficient; /**< [m/(km/h)2] of the distance formula; 0: limit is the distance */
    double rate;        /**< [m/s2] that a pedal force is asked for */
    double limit;       /**< [SI] of the measure */
    bool graded;        /**< the text calls less than half of it dangerous, and less than half of
                                    the other wheel's force where wheels steer */
    enum brake_fade_kind fade; /**< procedure that a hot measure is taken from */
    unsigned applies;          /**< bits of enum brake_applies */
    double from;               /**< [year] first registered then or later; 0: whenever */
    double until;              /**< [year] first registered before; 0: whenever */
    enum brake_read read;
    const char *text; /**< where the figure was read; NULL: from memory */
};

/** A vehicle judged by a criterion. */
struct brake_judgement {
    enum brake_verdict verdict;
    enum brake_scope scope;
    double value;               /**< [SI] of the measure; NaN when it cannot be given */
    double limit;               /**< [SI] of the measure; NaN when it cannot be given */
    double margin;              /**< [-] above 0 meets; have over need, less 1 */
    enum brake_load load;       /**< at which it is worst */
    enum brake_failure failure; /**< at which it is worst */
    bool dangerous;             /**< below what a graded text calls so, at face value */
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

/** A choice of rules.
 * @param number  0 and up: the vehicle's own, each family, all of them
 * @param rules   filled: bits of enum brake_rules
 * @return        its word, e.g. "us"; NULL past the last, rules as it was
 */
const char *brake_rules_at(int number, unsigned *rules);

/** Text that a criterion is taken from.
 * @param criterion  the requirement
 * @return           its book
 */
const struct brake_book *brake_book_of(const struct brake_criterion *criterion);

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
