/* SPDX-License-Identifier: MIT */
/* How a requirement stands to a vehicle; private to the library. */
#ifndef BRAKE_CRITERIA_SCOPE_H
#define BRAKE_CRITERIA_SCOPE_H

#include "brake/criteria.h"

/** Whether a criterion belongs to the families asked for.
 * @param criterion  the requirement
 * @param rules      bits of enum brake_rules
 * @return           true when it does, or is a hazard, or the vehicle's own are asked for
 */
bool brake_criterion_in(const struct brake_criterion *criterion, unsigned rules);

/** How a criterion stands to a vehicle. One of a family that is asked for by name is a screen where
 * it has no force; among the vehicle's own it is outside then.
 * @param criterion  the requirement
 * @param vehicle    complete
 * @param rules      families asked for, bits of enum brake_rules
 * @param why        why it is outside; NULL when it is not, or was not asked for
 * @return           scope
 */
enum brake_scope brake_criterion_scope(const struct brake_criterion *criterion,
                                       const struct brake_vehicle *vehicle, unsigned rules,
                                       const char **why);

/** First line that decides what binds and is not stated.
 * @param vehicle  complete
 * @return         its path; NULL: country, use and date are known
 */
const char *brake_scope_unstated(const struct brake_vehicle *vehicle);

/** Count verdicts, and say what they come to.
 * @param judgement  by number of the criterion
 * @param vehicle    complete
 * @param rules      families asked for, bits of enum brake_rules
 * @param hot        whether hot performance was judged; it is passed over otherwise
 * @param ruling     filled
 */
void brake_ruling_make(const struct brake_judgement *judgement, const struct brake_vehicle *vehicle,
                       unsigned rules, bool hot, struct brake_ruling *ruling);

/** Count one more hazard.
 * @param ruling   made
 * @param verdict  of the hazard
 */
void brake_ruling_add(struct brake_ruling *ruling, enum brake_verdict verdict);

/** Exit status of a verdict.
 * @param verdict  one of three
 * @return         0 meets; 1 falls short; 3 cannot say
 */
int brake_verdict_exit(enum brake_verdict verdict);

/** Word of a scope.
 * @param scope  how a requirement stands to a vehicle
 * @return       "outside", "hazard", "binds", "yardstick" or "screen"
 */
const char *brake_scope_word(enum brake_scope scope);

/** Word of how a figure was read.
 * @param read  one of four
 * @return      "memory", "second hand", "sister clause" or "own text"
 */
const char *brake_read_word(enum brake_read read);

/** Whether rows of a scope count for the verdict.
 * @param scope  of a judgement
 * @return       true for hazards and for what binds
 */
bool brake_scope_counts(enum brake_scope scope);

#endif
