/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/disc.h. */
#include "brake/disc.h"

#include <math.h>
#include <stdbool.h>

#include "brake/constants.h"
#include "extremes.h"

double brake_radius_sector(double inner, double outer, enum brake_contact contact)
{
    if (!(inner >= 0.0 && outer > inner))
        return BRAKE_NAN;
    if (contact == BRAKE_UNIFORM_WEAR)
        return (outer + inner) / 2.0;
    return 2.0 / 3.0 * (outer * outer + outer * inner + inner * inner) / (outer + inner);
}

/* ---- circular pads --------------------------------------------------------------------------- */

enum { TENTHS = 5 };

/* Shigley, sec. 16-6, after Fazekas: effective radius over that of the centre, and largest over
 * mean pressure, at a pad's radius of 0, 0.1 ... 0.5 of that of its centre; from memory. */
static const double nearer[TENTHS + 1] = {1.000, 0.983, 0.969, 0.957, 0.947, 0.938};
static const double uneven[TENTHS + 1] = {1.000, 1.093, 1.212, 1.367, 1.578, 1.875};

static double between_tenths(const double table[TENTHS + 1], double ratio)
{
    const double tenths = 10.0 * ratio;
    int below = 0;
    while (below < TENTHS - 1 && tenths >= below + 1)
        below++;
    return table[below] + (tenths - below) * (table[below + 1] - table[below]);
}

static bool in_table(double pad, double centre)
{
    return pad > 0.0 && centre > 0.0 && pad <= 0.5 * centre;
}

enum { TERMS = 20 };

/* 2F1(-1/2, -1/2; 2; x^2), the mean distance of a circle's points from a point outside; at x = 0.5
 * the last term is below 1e-17. */
static double mean_distance(double ratio)
{
    double sum = 1.0;
    double term = 1.0;
    for (int n = 0; n < TERMS; n++) {
        term *= (n - 0.5) * (n - 0.5) / ((n + 1.0) * (n + 2.0)) * ratio * ratio;
        sum += term;
    }
    return sum;
}

double brake_radius_circle(double pad, double centre, enum brake_contact contact)
{
    if (!in_table(pad, centre))
        return BRAKE_NAN;
    const double ratio = pad / centre;
    return centre *
           (contact == BRAKE_UNIFORM_WEAR ? between_tenths(nearer, ratio) : mean_distance(ratio));
}

double brake_circle_pressure(double clamp, double pad, double centre, enum brake_contact contact)
{
    if (!in_table(pad, centre))
        return BRAKE_NAN;
    const double mean = clamp / (BRAKE_PI * pad * pad);
    return contact == BRAKE_UNIFORM_WEAR ? mean * between_tenths(uneven, pad / centre) : mean;
}

/* ---- outlines -------------------------------------------------------------------------------- */

/* Integrals over one straight edge seen from the axle at distance d: along it runs s from s1 to s2,
 * r^2 = d^2 + s^2. Signed by the sense of travel, so they add up round the outline. */
struct edge_sums {
    double area;    /* integral of dA */
    double moment;  /* integral of r dA */
    double inverse; /* integral of dA / r */
};

static struct edge_sums edge_integrals(struct brake_point p, struct brake_point q)
{
    struct edge_sums sums = {0.0, 0.0, 0.0};
    const double dx = q.x - p.x;
    const double dy = q.y - p.y;
    const double length = hypot(dx, dy);
    const double distance = length == 0.0 ? 0.0 : (p.x * dy - p.y * dx) / length;
    if (distance == 0.0)
        return sums;
    const double s1 = (p.x * dx + p.y * dy) / length;
    const double s2 = s1 + length;
    const double log_part = asinh(s2 / fabs(distance)) - asinh(s1 / fabs(distance));
    const double r1 = hypot(distance, s1);
    const double r2 = hypot(distance, s2);
    sums.area = distance * length / 2.0;
    sums.moment = distance / 6.0 * (s2 * r2 - s1 * r1 + distance * distance * log_part);
    sums.inverse = distance * log_part;
    return sums;
}

/* Angle at the axle swept by an edge; over an outline it adds up to 0 when the axle is outside. */
static double edge_angle(struct brake_point p, struct brake_point q)
{
    return atan2(p.x * q.y - p.y * q.x, p.x * q.x + p.y * q.y);
}

enum brake_status brake_radius_polygon(const struct brake_point *corner, int count,
                                       enum brake_contact contact, double *radius)
{
    struct edge_sums total = {0.0, 0.0, 0.0};
    double turn = 0.0;
    double extent = 0.0;
    *radius = BRAKE_NAN;
    for (int i = 0; i < count; i++) {
        const struct brake_point p = corner[i];
        const struct brake_point q = corner[(i + 1) % count];
        const struct edge_sums edge = edge_integrals(p, q);
        total.area += edge.area;
        total.moment += edge.moment;
        total.inverse += edge.inverse;
        turn += edge_angle(p, q);
        extent = fmax(extent, p.x * p.x + p.y * p.y);
    }
    if (count < 3 || !(fabs(total.area) > 1e-9 * extent) || fabs(turn) > 1.0)
        return BRAKE_E_SHAPE;
    *radius =
        contact == BRAKE_UNIFORM_WEAR ? total.area / total.inverse : total.moment / total.area;
    return BRAKE_OK;
}

enum brake_status brake_radius_rectangle(double outer, double height, double width,
                                         enum brake_contact contact, double *radius)
{
    const struct brake_point corner[] = {{outer - height, -width / 2.0},
                                         {outer, -width / 2.0},
                                         {outer, width / 2.0},
                                         {outer - height, width / 2.0}};
    *radius = BRAKE_NAN;
    if (!(height > 0.0 && width > 0.0 && outer >= height))
        return BRAKE_E_SHAPE;
    return brake_radius_polygon(corner, 4, contact, radius);
}

double brake_sector_force_radius(double inner, double outer, double arc, enum brake_contact contact)
{
    return brake_radius_sector(inner, outer, contact) * 2.0 * sin(arc / 2.0) / arc;
}

double brake_sector_pressure(double clamp, double inner, double outer, double arc,
                             enum brake_contact contact)
{
    const double width = outer - inner;
    const double radius = contact == BRAKE_UNIFORM_WEAR ? inner : (outer + inner) / 2.0;
    return clamp / (arc * radius * width);
}

double brake_disc_clamp(const struct brake_disc *disc, double pressure)
{
    return most_of(0.0, pressure - disc->threshold) * disc->efficiency * disc->area;
}

double brake_disc_torque(const struct brake_disc *disc, double pressure)
{
    return 2.0 * disc->mu * brake_disc_clamp(disc, pressure) * disc->radius;
}
