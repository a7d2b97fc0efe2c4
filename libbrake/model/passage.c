/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/braking.h. */
#include "passage.h"

#include <math.h>

#include "extremes.h"

static void move(const struct motion *rate, double time, struct motion *to)
{
    to->time += time;
    to->distance += time * rate->distance;
    to->speed += time * rate->speed;
    to->resisted += time * rate->resisted;
    to->effort += time * rate->effort;
    for (int i = 0; i < BRAKE_AXLES; i++)
        to->work[i] += time * rate->work[i];
}

static struct motion rate_at(struct course *c, const struct motion *m, enum sight sight,
                             struct instant *now)
{
    brake_course_look(c, m, sight, now);
    return now->rate;
}

/* Classical Runge-Kutta of order 4, from an instant that is known; what the last look half way saw
 * is left in `middle`. Work goes through the same stages as the speed: so it agrees with the energy
 * of motion better than a finer sum would. */
static struct motion runge_kutta(struct course *c, const struct instant *begin, double step,
                                 enum sight sight, struct instant *middle)
{
    static const double part[] = {0.5, 0.5, 1.0};
    static const double weight[] = {1.0 / 3.0, 1.0 / 3.0, 1.0 / 6.0};
    struct motion to = {.speed = c->speed};
    struct motion rate = begin->rate;
    struct instant other;
    move(&rate, step / 6.0, &to);
    for (int stage = 0; stage < 3; stage++) {
        struct motion there = {.speed = c->speed};
        move(&rate, part[stage] * step, &there);
        rate = stage == 1 ? rate_at(c, &there, sight, middle) : rate_at(c, &there, RATES, &other);
        move(&rate, weight[stage] * step, &to);
    }
    to.time = step;
    return to;
}

static void try_length(struct course *c, double length, struct passage *p)
{
    p->to = runge_kutta(c, &p->begin, length, SMOOTH, &p->middle);
    brake_course_look(c, &p->to, WHOLE, &p->end);
}

static const double RESOLUTION = 1e-13; /* [s] of the time of a corner */

static bool is_limit(enum corner corner)
{
    return corner >= AT_LIMIT && corner <= AT_REAR_FIRST;
}

/* Whether a corner that is not passed at the end was half way: it is passed twice. */
static bool turns_back(const struct passage *p)
{
    for (int i = 0; i < CORNERS; i++) {
        const enum corner corner = (enum corner)i;
        if (!is_limit(corner) && !passes(p, corner) &&
            (p->begin.past[i] > 0.0) != (p->middle.past[i] > 0.0))
            return true;
    }
    return false;
}

/* How far beyond a corner a step of this length ends. */
static double past_after(struct course *c, const struct passage *p, enum corner corner,
                         double length)
{
    struct instant now;
    struct motion there = {.time = length, .speed = c->speed};
    if (!brake_course_by_time(c, corner))
        there = runge_kutta(c, &p->begin, length, RATES, &now);
    if (is_speed(corner))
        return brake_course_past_speed(c->application, corner, there.speed);
    brake_course_look(c, &there, is_limit(corner) ? WHOLE : SMOOTH, &now);
    return now.past[corner];
}

/* What an end's value is multiplied with when the other end has moved twice. */
static double shrunk(double value, double last)
{
    const double factor = 1.0 - value / last;
    return factor > 0.0 ? factor : 0.5;
}

/* Length of the step after which a corner that is passed within it just has been: by the straight
 * line between both ends of what is left by the rule of Anderson and Bjorck, and half way where a
 * value is infinite. */
static double locate(struct course *c, const struct passage *p, enum corner corner)
{
    double before = 0.0;
    double after = p->to.time;
    double low = p->begin.past[corner];
    double high = p->end.past[corner];
    const bool up = high > 0.0;
    int side = 0;
    for (int i = 0; i < 200 && after - before > RESOLUTION; i++) {
        double middle = before + (after - before) * (low / (low - high));
        if (!isfinite(low) || !isfinite(high))
            middle = 0.5 * (before + after);
        middle = least_of(middle, after - 0.5 * RESOLUTION);
        middle = most_of(middle, before + 0.5 * RESOLUTION);
        const double value = past_after(c, p, corner, middle);
        if ((value > 0.0) == up) {
            low *= side > 0 ? shrunk(value, high) : 1.0;
            after = middle;
            high = value;
            side = 1;
        } else {
            high *= side < 0 ? shrunk(value, low) : 1.0;
            before = middle;
            low = value;
            side = -1;
        }
    }
    return after;
}

/* Whether a corner is still to be written down. The others only end a step. */
static bool is_awaited(const struct brake_outcome *outcome, enum corner corner)
{
    const double mark[CORNERS] = {[AT_LIMIT] = outcome->lock_time,
                                  [AT_KNEE] = outcome->knee_time,
                                  [AT_80] = outcome->passed_80,
                                  [AT_10] = outcome->passed_10,
                                  [AT_END] = outcome->ended};
    return isnan(mark[corner]);
}

void brake_passage_run(struct course *c, double length, struct passage *p)
{
    const double least = 1e-9;
    try_length(c, length, p);
    if (turns_back(p))
        try_length(c, 0.5 * length, p);
    for (int i = 0; i < CORNERS; i++) {
        const enum corner corner = (enum corner)i;
        if (!passes(p, corner))
            continue;
        const double found = locate(c, p, corner);
        if (found > least || is_awaited(c->outcome, corner)) {
            try_length(c, found, p);
        } else if (corner == AT_LIMIT) {
            c->limited = true; /* for all of the step */
            try_length(c, p->to.time, p);
        }
    }
}
