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
    double covariance[BRAKE_SMOOTH_TERMS][BRAKE_SMOOTH_TERMS]; /* of the c, for noise of 1 */
    double noise;                                              /* standard deviation of a row */
    int freedom;                                               /* rows less terms */
};

/* Least squares through the speeds of rows first to last. False when there are too few rows. */
bool brake_smooth_fit(const struct brake_log_row *row, long first, long last, int terms,
                      struct brake_smooth *curve);

double brake_smooth_at(const struct brake_smooth *curve, double time);
double brake_smooth_slope(const struct brake_smooth *curve, double time);

/* How a value, and an integral from time 0 on, moves with each c. */
void brake_smooth_terms(const struct brake_smooth *curve, double time, double *value,
                        double *integral);

/* Standard deviation of a figure that moves with the c by `gradient`. */
double brake_smooth_sigma(const struct brake_smooth *curve, const double *gradient);

#endif
