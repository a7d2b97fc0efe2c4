/* SPDX-License-Identifier: MIT */
/* Methods and their sources: brake/roots.h. */
#include "brake/roots.h"

#include <float.h>
#include <math.h>
#include <stddef.h>

#include "brake/constants.h"
#include "scan.h"

static const double STEEP = 1e-6;   /* of the bracket's first difference: more is a jump */
static const double TOUCHES = 1e-9; /* of the span of the values */
static const double NOISE = 1e-12;  /* of that span: less is no turn */

enum { NARROWINGS = 200, GOLDEN_STEPS = 60 };

struct point {
    double x, f;
};

static struct point asked(const struct brake_scan *scan, double x)
{
    return (struct point){x, scan->value(scan->context, x)};
}

double brake_scan_at(const struct brake_scan *scan, int i)
{
    const double part = (double)i / (scan->points - 1);
    if (i == 0)
        return scan->low;
    if (i == scan->points - 1)
        return scan->high;
    return scan->logarithmic ? scan->low * pow(scan->high / scan->low, part)
                             : scan->low + (scan->high - scan->low) * part;
}

/* Up to zero at one point and down again is a touch from below. Of no root yet nothing rises. */
static void keep(struct brake_roots *roots, struct brake_root root)
{
    struct brake_root *last = &roots->root[roots->count - (roots->count > 0 ? 1 : 0)];
    if (last->x == root.x && last->rises && !root.rises) {
        last->kind = BRAKE_TOUCH;
        last->rises = false;
        return;
    }
    roots->more = roots->more || roots->count == BRAKE_ROOTS;
    if (roots->count < BRAKE_ROOTS)
        roots->root[roots->count++] = root;
}

static void compare(struct brake_roots *roots, struct point p)
{
    if (isnan(p.f))
        return;
    if (isnan(roots->nearest) || fabs(p.f) < fabs(roots->shortest)) {
        roots->nearest = p.x;
        roots->shortest = p.f;
    }
}

/* ---- crossings ------------------------------------------------------------------------------ */

/* Where to ask next, as a share of the way from one end of the bracket to the other: by inverse
 * quadratic interpolation where that is known to be safe, else in the middle. */
static double next_share(struct point new, struct point opposite, struct point old)
{
    const double xi = (new.x - opposite.x) / (old.x - opposite.x);
    const double phi = (new.f - opposite.f) / (old.f - opposite.f);
    if (!(1.0 - sqrt(1.0 - xi) < phi && phi < sqrt(xi)))
        return 0.5; /* also where anything is not finite */
    const double alpha = (old.x - new.x) / (opposite.x - new.x);
    return new.f / (new.f - opposite.f) * old.f / (old.f - opposite.f) -
           alpha *new.f / (old.f - new.f) * opposite.f / (opposite.f - old.f);
}

/* Narrows a bracket, whose ends stand on different sides of zero, as far as numbers allow. Returns
 * false where a value is missing inside. */
static bool narrow(const struct brake_scan *scan, struct point *new, struct point *opposite)
{
    double share = 0.5;
    for (int i = 0; i < NARROWINGS; i++) {
        const double width = fabs(opposite->x - new->x);
        const double least =
            2.0 * DBL_EPSILON * fabs(new->x) + 0.5 * DBL_EPSILON * (scan->high - scan->low);
        if (width <= 2.0 * least)
            break;
        const double edge = least / width;
        share = fmin(fmax(share, edge), 1.0 - edge);
        const struct point p = asked(scan, new->x + share *(opposite->x - new->x));
        if (isnan(p.f))
            return false;
        const bool same = (p.f >= 0.0) == (new->f >= 0.0);
        const struct point old = same ? *new : *opposite;
        if (!same)
            *opposite = *new;
        *new = p;
        share = next_share(*new, *opposite, old);
    }
    return true;
}

static void cross(const struct brake_scan *scan, struct point a, struct point b,
                  struct brake_roots *roots)
{
    const double begun = fmin(fabs(a.f - b.f), roots->most - roots->least);
    const bool rises = b.f >= 0.0;
    if (isnan(a.f) || isnan(b.f) || (a.f >= 0.0) == (b.f >= 0.0) || !narrow(scan, &a, &b))
        return;
    const struct point above = a.f >= 0.0 ? a : b;
    const double smooth = fmax(STEEP * begun, scan->noise * (roots->most - roots->least));
    const bool leaps = !(fabs(a.f - b.f) <= smooth) || isinf(begun);
    compare(roots, a);
    compare(roots, b);
    keep(roots, (struct brake_root){above.x, leaps ? BRAKE_JUMP : BRAKE_CROSSING, rises});
}

/* ---- touches -------------------------------------------------------------------------------- */

/* The point of the stretch nearest to zero on its side, or one on the other side. */
static struct point turn(const struct brake_scan *scan, double low, double high, double side)
{
    const double part = (sqrt(5.0) - 1.0) / 2.0;
    struct point left = asked(scan, high - part * (high - low));
    struct point right = asked(scan, low + part * (high - low));
    for (int i = 0; i < GOLDEN_STEPS && left.x < right.x; i++) {
        const bool go_left = side * left.f <= side * right.f;
        const struct point best = go_left ? left : right;
        if (!(side * best.f > 0.0)) /* it is there, beyond, or not known */
            return best;
        if (go_left) {
            high = right.x;
            right = left;
            left = asked(scan, high - part * (high - low));
        } else {
            low = left.x;
            left = right;
            right = asked(scan, low + part * (high - low));
        }
    }
    return side * left.f <= side * right.f ? left : right;
}

/* Three neighbours on one side of zero, of which the middle one is nearest to it. What lies beyond
 * the middle one, seen from zero, is on its side. */
static void touch(const struct brake_scan *scan, const struct point p[3], struct brake_roots *roots)
{
    const double span = roots->most - roots->least;
    const double side = p[1].f >= 0.0 ? 1.0 : -1.0;
    if (!(side * (p[0].f - p[1].f) > NOISE * span) || !(side * (p[2].f - p[1].f) >= 0.0))
        return;
    struct point best = turn(scan, p[0].x, p[2].x, side);
    if (side * p[1].f <= side * best.f)
        best = p[1];
    compare(roots, best);
    if (fabs(best.f) <= TOUCHES * span) {
        keep(roots, (struct brake_root){best.x, BRAKE_TOUCH, side > 0.0});
    } else { /* twice, where the best is on the other side */
        cross(scan, p[0], best, roots);
        cross(scan, best, p[2], roots);
    }
}

/* ---- the scan ------------------------------------------------------------------------------- */

/* Of more than there is room for, the last one goes to the end. */
static void note_stretch(struct brake_roots *roots, double x, bool begins)
{
    if (begins && roots->stretches < BRAKE_STRETCHES)
        roots->stretch[roots->stretches++].low = x;
    roots->stretch[roots->stretches - 1].high = x;
}

static void note_value(struct brake_roots *roots, double f)
{
    if (!isfinite(f))
        return;
    roots->finite++;
    roots->least = fmin(roots->least, f);
    roots->most = fmax(roots->most, f);
}

enum { AT_ONCE = 64 /* points of the grid, where that is quicker */ };

/* Asks at some points of the grid. */
static void ask_points(const struct brake_scan *scan, int first, int count, struct point *p)
{
    double x[AT_ONCE];
    double value[AT_ONCE];
    for (int i = 0; i < count; i++)
        x[i] = brake_scan_at(scan, first + i);
    if (scan->values != NULL)
        scan->values(scan->context, x, count, value);
    for (int i = 0; i < count; i++)
        p[i] = scan->values != NULL ? (struct point){x[i], value[i]} : asked(scan, x[i]);
}

static void note_point(const struct point *p, bool first, struct brake_roots *roots)
{
    compare(roots, *p);
    if (isnan(p->f)) {
        note_stretch(roots, p->x, first || !isnan(p[-1].f));
        return;
    }
    roots->known++;
    note_value(roots, p->f);
}

/* Asks at every point of the grid. */
static void lay_out(const struct brake_scan *scan, const struct brake_watch *watch,
                    struct point p[BRAKE_SCAN_POINTS], struct brake_roots *roots)
{
    const int most = scan->values != NULL ? AT_ONCE : 1;
    for (int first = 0, count; first < scan->points && !roots->stopped; first += count) {
        count = scan->points - first < most ? scan->points - first : most;
        ask_points(scan, first, count, &p[first]);
        for (int i = first; i < first + count; i++)
            note_point(&p[i], i == 0, roots);
        if (watch != NULL && watch->progress != NULL)
            watch->progress(watch->context, first + count, scan->points);
        roots->stopped = watch != NULL && watch->stop != NULL && *watch->stop != 0;
    }
}

void brake_roots_find(const struct brake_scan *scan, const struct brake_watch *watch,
                      struct brake_roots *roots)
{
    static const struct brake_roots none = {
        .least = BRAKE_NAN, .most = BRAKE_NAN, .nearest = BRAKE_NAN, .shortest = BRAKE_NAN};
    struct point p[BRAKE_SCAN_POINTS] = {{0.0, 0.0}};
    *roots = none;
    lay_out(scan, watch, p, roots);
    for (int i = 0; i + 1 < scan->points && !roots->stopped; i++) {
        if (i > 0)
            touch(scan, &p[i - 1], roots);
        cross(scan, p[i], p[i + 1], roots);
    }
}
