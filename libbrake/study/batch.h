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

/* Member of the answers of lanes that an output is; -1: none. Each is a column. */
int brake_batch_answer(struct brake_output output);

/* What outputs that are all among them ask of lanes: bits of BRAKE_LANES_... */
unsigned brake_batch_asked(const struct brake_sweep *sweep);

/* Load cases that the outputs ask for. */
bool brake_batch_asks(const struct brake_sweep *sweep, enum brake_load load);

/* Cases side by side, from the tables; up to BRAKE_LANES of them. An output of a case that has to
 * be asked by itself is any number, and `alone` of it above 0. */
struct brake_batch {
    struct brake_lane_numbers numbers[BRAKE_LOADS];
    struct brake_lane_answers answers[BRAKE_LOADS];
    brake_column alone;
};

/* batch: zeros; takes the numbers that every case has. */
void brake_batch_begin(const struct brake_lookup *lookup, struct brake_batch *batch);
void brake_batch_answers(const struct brake_sweeper *sweeper, long long first, int count,
                         struct brake_batch *batch, double *value);

#endif
