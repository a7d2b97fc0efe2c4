/* SPDX-License-Identifier: MIT */
/* Numbers that every study by samples has once for each replicate; private to this folder. */
#ifndef BRAKE_STUDY_REPLICATES_H
#define BRAKE_STUDY_REPLICATES_H

#include "indices.h"
#include "sobol.h"

/* Independent scrambles. */
void replicates_scramble(int dimensions, uint64_t seed, struct brake_sobol sobol[BRAKE_REPLICATES]);

/* Shares of a sample, `each` of them a replicate; none is 0 or 1. */
void replicates_shares(const struct brake_sobol sobol[BRAKE_REPLICATES], long each, long sample,
                       double *share);

/* Half width that holds the mean of all in 95 of 100, from the scatter of the replicates. */
double replicates_error(const double estimate[BRAKE_REPLICATES]);

#endif
