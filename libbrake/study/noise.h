/* SPDX-License-Identifier: MIT */
/* Noise of a measured speed, and what it makes of a sum of rows; private to this folder. */
#ifndef BRAKE_STUDY_NOISE_H
#define BRAKE_STUDY_NOISE_H

#include "smooth.h"

enum { BRAKE_NOISE_TIMES = 4 };

/* A part that no two rows share, and parts that a receiver's filter carries from row to row, each
 * of which dies away with a time of its own. */
struct brake_noise {
    double white;                      /* [m2/s2] variance */
    double carried[BRAKE_NOISE_TIMES]; /* [m2/s2] variances */
};

/* What curves leave over tells the noise of the log that they were drawn through; each curve is one
 * stop of it, or has no terms and counts as none. No noise when the rows are not more than what the
 * curves take up. */
void brake_noise_find(const struct brake_smooth *curve, int count, struct brake_noise *noise);

/* Standard deviation of a row. */
double brake_noise_of_row(const struct brake_noise *noise);

/* A weighted sum of rows on its way, in order of time. */
struct brake_noise_sum {
    double variance;
    double time;                      /* of the last row */
    double before[BRAKE_NOISE_TIMES]; /* weights so far, as far as their noise is still there */
};

/* One more row of a sum that begins as zeroes. */
void brake_noise_add(const struct brake_noise *noise, double time, double weight,
                     struct brake_noise_sum *sum);

/* Standard deviation of a figure that moves with the coefficients of a curve by `gradient`. */
double brake_noise_of_curve(const struct brake_noise *noise, const struct brake_smooth *curve,
                            const double *gradient);

#endif
