/* SPDX-License-Identifier: MIT */
/* What the cases of a sweep share, and cases side by side; private to this folder. */
#ifndef BRAKE_STUDY_BATCH_H
#define BRAKE_STUDY_BATCH_H

#include "brake/sweep.h"
#include "vehicle/lane.h"
#include "cases.h"

/* Works the vehicle of a sweeper out for a position of the grid. */
enum brake_status brake_sweep_take(struct brake_sweeper *sweeper, const long long *at,
                                   struct brake_error *error);

/* Whether an output is among the answers of lanes. */
bool brake_batch_knows(struct brake_output output);

/* Takes the states of the vehicle that outputs ask for which are all among them, and what they ask
 * of lanes in each. */
void brake_batch_states(const struct brake_sweep *sweep, struct brake_lookup *lookup);

/* Cases side by side in one state, from the tables; up to BRAKE_LANES of them. */
struct brake_batch {
    struct brake_lane_numbers numbers;
    struct brake_lane_answers answers;
};

/* Takes the numbers that every case has in the state of this number; the others are 0. */
void brake_batch_begin(const struct brake_lookup *lookup, int state, struct brake_batch *batch);

/* Fills the outputs that ask for that state, of cases from the first on. */
void brake_batch_answers(const struct brake_sweeper *sweeper, int state, long long first, int count,
                         struct brake_batch *batch, double *value);

/* Above 0 for each case that has to be asked by itself: its outputs are any numbers. */
void brake_batch_alone(const struct brake_sweeper *sweeper, long long first, int count,
                       brake_column alone);

#endif
