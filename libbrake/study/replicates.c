/* SPDX-License-Identifier: MIT */
#include "replicates.h"

#include <math.h>

void replicates_scramble(int dimensions, uint64_t seed, struct brake_sobol sobol[BRAKE_REPLICATES])
{
    for (int r = 0; r < BRAKE_REPLICATES; r++)
        brake_sobol_scrambled(dimensions, seed + (uint64_t)r, &sobol[r]);
}

void replicates_shares(const struct brake_sobol sobol[BRAKE_REPLICATES], long each, long sample,
                       double *share)
{
    brake_sobol_middle(&sobol[sample / each], (uint32_t)(sample % each), share);
}

double replicates_error(const double estimate[BRAKE_REPLICATES])
{
    /* Student's t of 15 degrees of freedom, 97.5 of 100; Abramowitz and Stegun, table 26.10. */
    const double t = 2.131;
    const double count = BRAKE_REPLICATES;
    double mean = 0.0;
    double squares = 0.0;
    for (int r = 0; r < BRAKE_REPLICATES; r++)
        mean += estimate[r] / count;
    for (int r = 0; r < BRAKE_REPLICATES; r++)
        squares += (estimate[r] - mean) * (estimate[r] - mean);
    return t * sqrt(squares / (count - 1.0) / count);
}
