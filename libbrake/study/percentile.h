/* SPDX-License-Identifier: MIT */
/* Percentiles of samples; private to this folder. */
#ifndef BRAKE_STUDY_PERCENTILE_H
#define BRAKE_STUDY_PERCENTILE_H

/* Put values in rising order; NaN comes last.
 * Returns how many are not NaN. */
long percentile_sort(double *value, long count);

/* Percentile of sorted values, `count` of them, none NaN; share 0 to 1. A straight line between the
 * two nearest (R. J. Hyndman and Y. Fan, Am. Stat. 50, 361-365 (1996), type 7). NaN of none. */
double percentile_at(const double *value, long count, double share);

#endif
