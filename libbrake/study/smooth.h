/* SPDX-License-Identifier: MIT */
/* A polynomial through noisy rows, and what may be asked of it; private to this folder. */
#ifndef BRAKE_SMOOTH_H
#define BRAKE_SMOOTH_H

#include "brake/drivelog.h"

enum { BRAKE_SMOOTH_TERMS = 4 };

/* y = sum of c_k x^k with x = (t - middle) / reach, -1 to 1 over the rows. */
struct brake_smooth {
    int terms;
    double middle, reach;
    double c[BRAKE_SMOOTH_TERMS];
    double inverse[BRAKE_SMOOTH_TERMS][BRAKE_SMOOTH_TERMS]; /* of the normal equations */
    const struct brake_log_row *row;                        /* that it was drawn through ... */
    long first, last;                                       /* ... these of them */
};

/* Least squares through the speeds of rows first to last. False when there are too few rows. */
bool brake_smooth_fit(const struct brake_log_row *row, long first, long last, int terms,
                      struct brake_smooth *curve);

double brake_smooth_at(const struct brake_smooth *curve, double time);
double brake_smooth_slope(const struct brake_smooth *curve, double time);

/* How a value, and an integral from time 0 on, moves with each c. */
void brake_smooth_terms(const struct brake_smooth *curve, double time, double *value,
                        double *integral);

/* How a figure that moves with the c by `gradient` moves with the speed of a row of the curve. */
double brake_smooth_weight(const struct brake_smooth *curve, long row, const double *gradient);

#endif
