/* SPDX-License-Identifier: MIT */
/* Judging by the criteria, and what their measures are; private to the library. */
#ifndef BRAKE_CRITERIA_JUDGE_H
#define BRAKE_CRITERIA_JUDGE_H

#include "brake/criteria.h"

/** What the model may be off by in a measure.
 * @param measure  of a criterion
 * @return         kind of error
 */
enum brake_model_error brake_measure_error(enum brake_measure measure);

/** Name of an error of the model.
 * @param error  above BRAKE_MODEL_EXACT
 * @return       such as "model.stop"
 */
const char *brake_model_error_word(enum brake_model_error error);

/** Size of an error of the model: 95 of 100 values are within it of the true one. Common practice,
 * no source: no measured vehicle with all of its data was found to hold the model against.
 * @param error  kind
 * @return       [-] of the value
 */
double brake_model_error_size(enum brake_model_error error);

/** Margin when the model is off.
 * @param measure  of the criterion
 * @param margin   [-] as worked out
 * @param factor   [-] true over worked-out value, to the good side
 * @return         [-]
 */
double brake_measure_margin_off(enum brake_measure measure, double margin, double factor);

/** Speed that a clause tests from, of a vehicle that may not get there: then the multiple of 5 km/h
 * that is 4 to 8 km/h under its top speed.
 * @param speed      [m/s] of the clause
 * @param top_speed  [m/s]; NaN: not known
 * @return           [m/s]
 * @source           49 CFR 571.135, S6.5.2; other texts taken alike
 */
double brake_test_speed(double speed, double top_speed);

/** Force that a criterion allows a parking pedal.
 * @param criterion  of a parking brake, with a force by hand
 * @return           [N]
 */
double brake_criterion_foot(const struct brake_criterion *criterion);

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

/** Judge a vehicle by a criterion that is asked for by name.
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

/** Whether a measure turns on front against rear, so that it is worst where their friction parts.
 * @param measure  of a criterion
 * @return         true for those of lock order
 */
bool brake_measure_opposed(enum brake_measure measure);

/** Judge a vehicle by a criterion of hot performance, at its full load.
 * @param criterion  the requirement, of a hot measure
 * @param vehicle    complete
 * @param figures    of the criterion's procedure
 * @param judgement  filled
 */
void brake_judge_hot(const struct brake_criterion *criterion, const struct brake_vehicle *vehicle,
                     const struct brake_hot_figures *figures, struct brake_judgement *judgement);

/** Judge a vehicle by some criteria that are asked for by name; what they have in common is worked
 * out once.
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
 * @param judgement  room for brake_criterion_count(), filled; of another family: outside
 */
void brake_judge_all(unsigned rules, const struct brake_vehicle *vehicle,
                     struct brake_judgement *judgement);

/** What a calculation cannot judge and an inspector must.
 * @param index  0 and up
 * @return       one line, NULL past the last
 */
const char *brake_inspector_item(int index);

#endif
