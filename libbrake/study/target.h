/* SPDX-License-Identifier: MIT */
/* Targets, and what an answer to them says; private to the library. */
#ifndef BRAKE_STUDY_TARGET_H
#define BRAKE_STUDY_TARGET_H

#include "brake/size.h"
#include "brake/conformance.h"

/** What a vehicle gives of what is wanted.
 * @param target   what is wanted
 * @param vehicle  complete
 * @return         [SI] value; NaN when it cannot be said
 */
double brake_target_value(const struct brake_target *target, const struct brake_vehicle *vehicle);

/** How far a value is on the wanted side, "equal" taken as "at least".
 * @param target  what is wanted
 * @param value   [SI] what is got
 * @return        [-] of a criterion: its margin less the wanted one; of a result: the difference
 *                over the wanted value, or the difference when that is 0; below 0 it falls short
 */
double brake_target_margin(const struct brake_target *target, double value);

/** The vehicle that sizes are sought on: at the middle of what its drive makes likely, but as its
 * lines stand where torque is to be regained.
 * @param sheet    complete
 * @param target   what is wanted
 * @param targets  of them
 * @param settled  filled, complete
 */
void brake_target_settle(const struct brake_sheet *sheet, const struct brake_target *target,
                         int targets, struct brake_sheet *settled);

/** Whether a margin is wanted, not a value.
 * @param target  what is wanted
 * @return        true of criteria and of what is to be regained
 */
bool brake_target_of_margin(const struct brake_target *target);

/** Whether an answer meets the target over a stretch of the range, or at one place.
 * @param question  what was sought
 * @param size      the answer
 * @return          true when any value of the range does
 */
bool brake_size_answered(const struct brake_size_question *question, const struct brake_size *size);

/** A criterion whose verdict changes. */
struct brake_size_change {
    int criterion;
    enum brake_verdict from, to;
    double margin; /**< [-] after the change; NaN when it cannot be said */
};

/** Criteria whose verdict changes when a quantity is set.
 * @param sheet   complete
 * @param by      the quantity
 * @param value   [SI] its new value
 * @param rules   of which they are, as brake_judge_all takes them
 * @param room    for the drawing of its words
 * @param change  room for BRAKE_CRITERIA, filled from the start
 * @return        number of changes; 0 also where the vehicle would be refused
 */
int brake_size_changes(const struct brake_sheet *sheet, int by, double value, unsigned rules,
                       struct brake_conformance_room *room, struct brake_size_change *change);

#endif
