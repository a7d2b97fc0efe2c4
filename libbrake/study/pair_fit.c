/* SPDX-License-Identifier: MIT */
#include "pair_fit.h"

#include <math.h>

#include "brake/constants.h"

enum { STEPS = 40, HALVES = 8 };

static const double NUDGE = 0.02;  /* for slopes */
static const double ENOUGH = 1e-6; /* a step that is no more moves nothing */
static const double ALIKE = 0.99;  /* most that neighbours may be */

struct fitting {
    brake_pair_model *model;
    const void *context;
    const double *measured;
    int points;
    double left[BRAKE_PAIR_POINTS];     /* measured less modelled */
    double slope[2][BRAKE_PAIR_POINTS]; /* of the model */
};

static double squares_of(const double *left, int points)
{
    double sum = 0.0;
    for (int i = 0; i < points; i++)
        sum += left[i] * left[i];
    return sum;
}

/* Sum of squares; NaN: the model gives nothing. */
static double leave(const struct fitting *f, const double pair[2], double *left)
{
    if (!f->model(f->context, pair, left))
        return BRAKE_NAN;
    for (int i = 0; i < f->points; i++)
        left[i] = f->measured[i] - left[i];
    return squares_of(left, f->points);
}

static bool find_slopes(struct fitting *f, const double pair[2])
{
    for (int k = 0; k < 2; k++) {
        double raised[2] = {pair[0], pair[1]};
        raised[k] += NUDGE;
        if (isnan(leave(f, raised, f->slope[k])))
            return false;
        for (int i = 0; i < f->points; i++)
            f->slope[k][i] = (f->left[i] - f->slope[k][i]) / NUDGE;
    }
    return true;
}

static double product(const double *a, const double *b, int points)
{
    double sum = 0.0;
    for (int i = 0; i < points; i++)
        sum += a[i] * b[i];
    return sum;
}

/* Normal equations: the step, and the first element of their inverse. */
static double solve(const struct fitting *f, double step[2])
{
    const double a = product(f->slope[0], f->slope[0], f->points);
    const double b = product(f->slope[0], f->slope[1], f->points);
    const double c = product(f->slope[1], f->slope[1], f->points);
    const double p = product(f->slope[0], f->left, f->points);
    const double q = product(f->slope[1], f->left, f->points);
    const double size = a * c - b * b;
    step[0] = (c * p - b * q) / size;
    step[1] = (a * q - b * p) / size;
    return c / size;
}

static double bounded(double value, double least, double most)
{
    return fmin(fmax(value, least), most);
}

/* Moves the pair by a step, or a part of it. False: no part of it lessens the squares. */
static bool move(struct fitting *f, struct brake_pair_fit *fit, const double step[2])
{
    double left[BRAKE_PAIR_POINTS];
    double part = 1.0;
    for (int i = 0; i < HALVES; i++) {
        const double pair[2] = {
            bounded(fit->pair[0] + part * bounded(step[0], -1.0, 1.0), fit->least, fit->most),
            fit->pair[1] + part * bounded(step[1], -1.0, 1.0)};
        const double squares = leave(f, pair, left);
        part *= 0.5;
        if (!(squares < fit->squares))
            continue;
        fit->pair[0] = pair[0];
        fit->pair[1] = pair[1];
        fit->squares = squares;
        for (int k = 0; k < f->points; k++)
            f->left[k] = left[k];
        return true;
    }
    return false;
}

static double likeness_of(const double *left, int points)
{
    double sum = 0.0;
    for (int i = 1; i < points; i++)
        sum += left[i] * left[i - 1];
    return bounded(sum / fmax(squares_of(left, points), 1e-300), 0.0, ALIKE);
}

double brake_pair_counts(const struct brake_pair_fit *fit, int points)
{
    return points * (1.0 - fit->likeness) / (1.0 + fit->likeness);
}

bool brake_pair_fit(brake_pair_model *model, const void *context, const double *measured,
                    int points, struct brake_pair_fit *fit)
{
    struct fitting f = {.model = model, .context = context, .measured = measured, .points = points};
    double step[2] = {1.0, 1.0};
    double inverse = BRAKE_NAN;
    fit->squares = leave(&f, fit->pair, f.left);
    for (int i = 0; i < STEPS; i++) {
        if (isnan(fit->squares) || !find_slopes(&f, fit->pair))
            return false;
        inverse = solve(&f, step);
        if (!(fabs(step[0]) + fabs(step[1]) > ENOUGH) || !move(&f, fit, step))
            break;
    }
    fit->likeness = likeness_of(f.left, points);
    fit->sigma =
        sqrt(fit->squares / (points - 2) * inverse * (1.0 + fit->likeness) / (1.0 - fit->likeness));
    return !isnan(fit->sigma);
}
