/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/friction.h. */
#include "brake/friction.h"

#include <math.h>

#include "brake/constants.h"

static const double ICE = 273.15; /* [K] at 0 degC */

/* Slope at a point between two secants, of widths h. */
static double inner_slope(double h1, double h2, double d1, double d2)
{
    if (!(d1 * d2 > 0.0))
        return 0.0;
    const double w1 = 2.0 * h2 + h1;
    const double w2 = h2 + 2.0 * h1;
    return (w1 + w2) / (w1 / d1 + w2 / d2);
}

/* Slope at an end from the parabola through three points, held so that the piece keeps its sense:
 * first the secant next to it, then that beyond. */
static double end_slope(double h1, double h2, double d1, double d2)
{
    const double slope = ((2.0 * h1 + h2) * d1 - h1 * d2) / (h1 + h2);
    if (!(slope * d1 > 0.0))
        return 0.0;
    if (d1 * d2 <= 0.0 && fabs(slope) > 3.0 * fabs(d1))
        return 3.0 * d1;
    return slope;
}

static void fill_slopes(struct brake_curve *curve)
{
    const int last = curve->points - 1;
    double h[BRAKE_CURVE_POINTS] = {0.0};
    double d[BRAKE_CURVE_POINTS] = {0.0};
    for (int i = 0; i < last; i++) {
        h[i] = curve->x[i + 1] - curve->x[i];
        d[i] = (curve->y[i + 1] - curve->y[i]) / h[i];
    }
    if (last < 2) { /* a point or a straight line */
        curve->slope[0] = d[0];
        curve->slope[last] = d[0];
        return;
    }
    curve->slope[0] = end_slope(h[0], h[1], d[0], d[1]);
    curve->slope[last] = end_slope(h[last - 1], h[last - 2], d[last - 1], d[last - 2]);
    for (int i = 1; i < last; i++)
        curve->slope[i] = inner_slope(h[i - 1], h[i], d[i - 1], d[i]);
}

enum brake_status brake_curve_build(const double *x, const double *y, int count,
                                    struct brake_curve *curve)
{
    *curve = (struct brake_curve){.points = 0};
    if (count < 1 || count > BRAKE_CURVE_POINTS)
        return BRAKE_E_SIZE;
    for (int i = 0; i < count; i++) {
        if (!(fabs(x[i]) < 1e150 && fabs(y[i]) < 1e150) || (i > 0 && !(x[i] > x[i - 1])))
            return BRAKE_E_RANGE;
    }
    for (int i = 0; i < count; i++) {
        curve->x[i] = x[i];
        curve->y[i] = y[i];
    }
    curve->points = count;
    fill_slopes(curve);
    return BRAKE_OK;
}

double brake_curve_at(const struct brake_curve *curve, double x)
{
    const int last = curve->points - 1;
    if (last < 0 || last >= BRAKE_CURVE_POINTS || isnan(x))
        return BRAKE_NAN;
    if (x <= curve->x[0])
        return curve->y[0];
    if (x >= curve->x[last])
        return curve->y[last];
    int i = 0;
    while (i + 1 < last && x >= curve->x[i + 1])
        i++;
    const double h = curve->x[i + 1] - curve->x[i];
    const double t = (x - curve->x[i]) / h;
    const double rise = curve->y[i + 1] - curve->y[i];
    const double bow = h * curve->slope[i] - rise;
    const double dip = rise - h * curve->slope[i + 1];
    return curve->y[i] + t * (rise + (1.0 - t) * (bow * (1.0 - t) + dip * t));
}

static double factor(const struct brake_curve *curve, double x)
{
    return curve->points == 0 ? 1.0 : brake_curve_at(curve, x);
}

double brake_friction_at(const struct brake_friction *friction, double temperature, double speed,
                         double pressure)
{
    return brake_curve_at(&friction->temperature, temperature) * factor(&friction->speed, speed) *
           factor(&friction->pressure, pressure);
}

/* Curve over temperature alone, points in degC. */
static void over_temperature(const double *celsius, const double *mu, int count,
                             struct brake_friction *friction)
{
    double kelvin[BRAKE_CURVE_POINTS];
    for (int i = 0; i < count; i++)
        kelvin[i] = celsius[i] + ICE;
    brake_curve_build(kelvin, mu, count, &friction->temperature);
}

enum brake_status brake_friction_usual(double mu, double fade, struct brake_friction *friction)
{
    enum { POINTS = 7 };
    static const double celsius[POINTS] = {20.0, 100.0, 200.0, 300.0, 400.0, 500.0, 600.0};
    static const double shape[POINTS] = {0.92, 1.00, 1.03, 0.97, 0.86, 0.72, 0.62};
    double values[POINTS];
    *friction = (struct brake_friction){.speed = {.points = 0}};
    if (!(mu >= 0.05 && mu <= 0.9 && fade >= 0.0 && fade <= 4.0))
        return BRAKE_E_RANGE;
    for (int i = 0; i < POINTS; i++)
        values[i] = mu * (celsius[i] < 300.0 ? shape[i] : pow(shape[i], fade));
    over_temperature(celsius, values, POINTS, friction);
    return BRAKE_W_NOMINAL;
}

enum brake_status brake_edge_band(char letter, struct brake_band *band)
{
    static const double limit[] = {0.0, 0.15, 0.25, 0.35, 0.45, 0.55, BRAKE_INFINITY};
    band->low = BRAKE_NAN;
    band->high = BRAKE_NAN;
    if (letter < 'C' || letter > 'H')
        return BRAKE_E_UNKNOWN;
    band->low = limit[letter - 'C'];
    band->high = limit[letter - 'C' + 1];
    return BRAKE_OK;
}

enum brake_status brake_friction_edge(char normal, char hot, enum brake_band_end end,
                                      struct brake_friction *friction)
{
    static const double celsius[] = {204.0, 343.0};
    struct brake_band bands[2];
    double mu[2];
    *friction = (struct brake_friction){.speed = {.points = 0}};
    if (brake_edge_band(normal, &bands[0]) != BRAKE_OK ||
        brake_edge_band(hot, &bands[1]) != BRAKE_OK)
        return BRAKE_E_UNKNOWN;
    for (int i = 0; i < 2; i++) {
        mu[i] = end == BRAKE_BAND_LOW ? bands[i].low : bands[i].high;
        if (isinf(mu[i]))
            return BRAKE_E_UNKNOWN;
    }
    over_temperature(celsius, mu, 2, friction);
    return BRAKE_W_NOMINAL;
}
