/* SPDX-License-Identifier: MIT */
/* Least squares by normal equations: with x from -1 to 1 and four terms they lose three digits at
 * most. Source: Press et al., Numerical Recipes, sec. 15.4. */
#include "smooth.h"

#include <math.h>

#include "brake/constants.h"

static double scaled(const struct brake_smooth *curve, double time)
{
    return (time - curve->middle) / curve->reach;
}

void brake_smooth_terms(const struct brake_smooth *curve, double time, double *value,
                        double *integral)
{
    const double x = scaled(curve, time);
    double power = 1.0;
    for (int k = 0; k < curve->terms; k++) {
        value[k] = power;
        power *= x;
        integral[k] = curve->reach * power / (k + 1);
    }
}

double brake_smooth_at(const struct brake_smooth *curve, double time)
{
    const double x = scaled(curve, time);
    double sum = 0.0;
    for (int k = curve->terms - 1; k >= 0; k--)
        sum = sum * x + curve->c[k];
    return sum;
}

double brake_smooth_slope(const struct brake_smooth *curve, double time)
{
    const double x = scaled(curve, time);
    double sum = 0.0;
    for (int k = curve->terms - 1; k > 0; k--)
        sum = sum * x + k * curve->c[k];
    return sum / curve->reach;
}

double brake_smooth_weight(const struct brake_smooth *curve, long row, const double *gradient)
{
    double value[BRAKE_SMOOTH_TERMS] = {0.0};
    double unused[BRAKE_SMOOTH_TERMS];
    double sum = 0.0;
    brake_smooth_terms(curve, curve->row[row].value[BRAKE_LOG_TIME], value, unused);
    for (int i = 0; i < curve->terms; i++)
        for (int k = 0; k < curve->terms; k++)
            sum += gradient[i] * curve->inverse[i][k] * value[k];
    return sum;
}

/* Inverts in place by elimination; the matrix is positive definite, so no row need be swapped. */
static bool invert(int n, double m[BRAKE_SMOOTH_TERMS][BRAKE_SMOOTH_TERMS])
{
    for (int p = 0; p < n; p++) {
        const double pivot = m[p][p];
        if (!(pivot > 1e-12))
            return false;
        m[p][p] = 1.0;
        for (int k = 0; k < n; k++)
            m[p][k] /= pivot;
        for (int i = 0; i < n; i++) {
            const double factor = m[i][p];
            if (i == p)
                continue;
            m[i][p] = 0.0;
            for (int k = 0; k < n; k++)
                m[i][k] -= factor * m[p][k];
        }
    }
    return true;
}

bool brake_smooth_fit(const struct brake_log_row *row, long first, long last, int terms,
                      struct brake_smooth *curve)
{
    const double begin = row[first].value[BRAKE_LOG_TIME];
    const double end = row[last].value[BRAKE_LOG_TIME];
    double right[BRAKE_SMOOTH_TERMS] = {0.0};
    double value[BRAKE_SMOOTH_TERMS] = {0.0};
    double unused[BRAKE_SMOOTH_TERMS];
    *curve = (struct brake_smooth){.terms = terms,
                                   .middle = 0.5 * (begin + end),
                                   .reach = 0.5 * (end - begin),
                                   .row = row,
                                   .first = first,
                                   .last = last};
    if (last - first < terms)
        return false;
    for (long i = first; i <= last; i++) {
        brake_smooth_terms(curve, row[i].value[BRAKE_LOG_TIME], value, unused);
        for (int a = 0; a < terms; a++) {
            right[a] += value[a] * row[i].value[BRAKE_LOG_SPEED];
            for (int b = 0; b < terms; b++)
                curve->inverse[a][b] += value[a] * value[b];
        }
    }
    if (!invert(terms, curve->inverse))
        return false;
    for (int a = 0; a < terms; a++)
        for (int b = 0; b < terms; b++)
            curve->c[a] += curve->inverse[a][b] * right[b];
    return true;
}
