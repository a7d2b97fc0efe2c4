/* SPDX-License-Identifier: MIT */
/* The smaller and the larger of two numbers. fmin and fmax of C drop a NaN; here one NaN gives NaN,
 * so that a value that is missing cannot come out as a brake force. */
#ifndef BRAKE_MODEL_EXTREMES_H
#define BRAKE_MODEL_EXTREMES_H

#include <math.h>

static inline double least_of(double a, double b)
{
    const double least = a < b ? a : b;
    return isnan(a) ? a : least;
}

static inline double most_of(double a, double b)
{
    const double most = a > b ? a : b;
    return isnan(a) ? a : most;
}

/* A NaN is within nothing and stays; the ends are numbers. */
static inline double brought_within(double a, double low, double high)
{
    const double raised = low > a ? low : a;
    return high < raised ? high : raised;
}

#endif
