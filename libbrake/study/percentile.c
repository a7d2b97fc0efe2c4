/* SPDX-License-Identifier: MIT */
#include "percentile.h"

#include <math.h>
#include <stdlib.h>

#include "brake/constants.h"

static int compare(const void *left, const void *right)
{
    const double a = *(const double *)left;
    const double b = *(const double *)right;
    if (isnan(a) || isnan(b))
        return (isnan(a) ? 1 : 0) - (isnan(b) ? 1 : 0);
    return (a > b) - (a < b);
}

long percentile_sort(double *value, long count)
{
    long known = 0;
    qsort(value, (size_t)count, sizeof *value, compare);
    while (known < count && !isnan(value[known]))
        known++;
    return known;
}

double percentile_at(const double *value, long count, double share)
{
    if (count < 1)
        return BRAKE_NAN;
    const double place = (double)(count - 1) * share;
    const long below = (long)place;
    const double part = place - (double)below;
    if (!(part > 0.0) || value[below] == value[below + 1])
        return value[below];
    return value[below] + part * (value[below + 1] - value[below]);
}
