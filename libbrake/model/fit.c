/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/fit.h. */
#include "brake/fit.h"

#include <math.h>

enum brake_status brake_fit_line(const struct brake_point *point, int count, double *slope,
                                 double *intercept)
{
    double mean_x = 0.0;
    double mean_y = 0.0;
    double sum_xx = 0.0;
    double sum_xy = 0.0;
    *slope = BRAKE_NAN;
    *intercept = BRAKE_NAN;
    for (int i = 0; i < count; i++) {
        mean_x += point[i].x / count;
        mean_y += point[i].y / count;
    }
    for (int i = 0; i < count; i++) {
        const double dx = point[i].x - mean_x;
        sum_xx += dx * dx;
        sum_xy += dx * (point[i].y - mean_y);
    }
    if (!(sum_xx > 1e-18 * mean_x * mean_x))
        return BRAKE_E_FIT;
    *slope = sum_xy / sum_xx;
    *intercept = mean_y - *slope * mean_x;
    return BRAKE_OK;
}

enum brake_status brake_fit_valve(const struct brake_point *point, int count,
                                  struct brake_valve *valve)
{
    enum { MOST = 64 };
    struct brake_point past[MOST];
    int found = 0;
    double slope;
    double intercept;
    valve->knee = BRAKE_NAN;
    valve->slope = BRAKE_NAN;
    if (count > MOST)
        return BRAKE_E_FIT;
    for (int i = 0; i < count; i++) {
        if (point[i].y < 0.97 * point[i].x)
            past[found++] = point[i];
    }
    const enum brake_status status = brake_fit_line(past, found, &slope, &intercept);
    if (status != BRAKE_OK || !(slope >= 0.0 && slope < 1.0 && intercept >= 0.0))
        return BRAKE_E_FIT;
    valve->slope = slope;
    valve->knee = intercept / (1.0 - slope);
    return BRAKE_OK;
}

/* Two-slope law with the first `below` pairs under the knee; returns its sum of squares. */
static double fit_split(const struct brake_point *force, int count, int below,
                        struct brake_pedal *pedal)
{
    double in_in = 0.0;
    double in_out = 0.0;
    double assist = 0.0;
    double squares = 0.0;
    for (int i = 0; i < below; i++) {
        in_in += force[i].x * force[i].x;
        in_out += force[i].x * force[i].y;
    }
    for (int i = below; i < count; i++)
        assist += (force[i].y - force[i].x) / (count - below);
    pedal->gain = in_out / in_in;
    pedal->assist = assist;
    for (int i = 0; i < count; i++) {
        const double law = i < below ? pedal->gain * force[i].x : force[i].x + assist;
        squares += (force[i].y - law) * (force[i].y - law);
    }
    return squares;
}

enum brake_status brake_fit_booster(const struct brake_point *point, int count,
                                    struct brake_pedal *pedal)
{
    enum { MOST = 64 };
    struct brake_point force[MOST]; /* rod force in, master-cylinder force out */
    double least = BRAKE_INFINITY;
    struct brake_pedal best = *pedal;
    best.gain = BRAKE_NAN;
    best.assist = BRAKE_NAN;
    for (int i = 0; i < count && count <= MOST; i++) {
        force[i].x = point[i].x * pedal->ratio * pedal->efficiency;
        force[i].y = point[i].y * pedal->master_area / pedal->master_efficiency;
    }
    for (int below = 1; below < count && count <= MOST; below++) {
        struct brake_pedal trial = *pedal;
        const double squares = fit_split(force, count, below, &trial);
        if (squares < least && trial.gain > 1.0 && trial.assist > 0.0) {
            least = squares;
            best = trial;
        }
    }
    *pedal = best;
    return isnan(best.gain) ? BRAKE_E_FIT : BRAKE_OK;
}
