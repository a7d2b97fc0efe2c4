/* SPDX-License-Identifier: MIT */
/** @file repair.h
 * What would mend a vehicle whose brakes fall short, or may: the cheapest kind of part first, then
 * the fewest parts, from sizes that are customary.
 */
#ifndef BRAKE_REPAIR_H
#define BRAKE_REPAIR_H

#include "brake/assessment.h"

#ifdef __cplusplus
extern "C" {
#endif

/** What a repair takes; the cheaper first. */
enum brake_repair_class {
    BRAKE_REPAIR_ADJUST,  /**< something is set anew */
    BRAKE_REPAIR_WEARING, /**< fluid, pads, linings */
    BRAKE_REPAIR_BORE,    /**< wheel cylinders, master cylinder, booster, valve */
    BRAKE_REPAIR_BRAKE    /**< calipers, rotors */
};

enum {
    BRAKE_REPAIR_CHANGES = 3,  /**< parts that are changed at once */
    BRAKE_REPAIR_SETTINGS = 3, /**< lines that one of them sets */
    BRAKE_REPAIR_WORDS = 80    /**< bytes for what it is called */
};

/** One part that is changed. */
struct brake_repair_change {
    enum brake_repair_class takes;
    char words[BRAKE_REPAIR_WORDS]; /**< e.g. "15/16 in rear wheel cylinders" */
    int settings;
    int line[BRAKE_REPAIR_SETTINGS];     /**< of the catalogue */
    double value[BRAKE_REPAIR_SETTINGS]; /**< [SI] or number of the choice */
};

/** How far a repair goes. */
enum brake_repair_reach {
    BRAKE_REPAIR_NONE,  /**< no customary parts were found that do, or nothing need be mended */
    BRAKE_REPAIR_SHORT, /**< nothing that counts falls short any more */
    BRAKE_REPAIR_ALL    /**< all that counts, and is not without an input, is met */
};

/** What would mend a vehicle. */
struct brake_repair {
    bool wanted; /**< whether something that counts is not met, inputs aside */
    enum brake_repair_reach reach;
    int changes;
    struct brake_repair_change change[BRAKE_REPAIR_CHANGES];
    int stays; /**< without a repair: criterion that the nearest parts still miss by most; -1:
                    none is known */
    struct brake_tally counted; /**< verdicts afterwards */
    double all_met;  /**< [-] share of samples in which all that counts is met at once afterwards */
    double regained; /**< [-] torque per need afterwards, over that of the vehicle before; NaN: no
                          vehicle before is told */
};

/** Find what mends a vehicle: every combination of up to three customary parts is judged as it
 * stands against the margin that its certainty takes, those that do are drawn anew in full, hot
 * performance too, and the first that does is the answer. It makes nothing fall short, or open,
 * that was met.
 * @param sheet       complete
 * @param assessment  of it, with the vehicle before when there is one
 * @param repair      filled
 * @return            true; false when memory is short
 */
bool brake_repair_find(const struct brake_sheet *sheet, const struct brake_assessment *assessment,
                       struct brake_repair *repair);

#ifdef __cplusplus
}
#endif

#endif
