/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/braking.h. */
#include "brake/braking.h"

#include <math.h>
#include <stddef.h>

#include "brake/stop.h"
#include "braking_lanes.h"
#include "balance_lines.h"
#include "drum_shape.h"
#include "extremes.h"
#include "thermal_lanes.h"

/* ---- friction and torque -------------------------------------------------------------------- */

/* A law made ready to be asked many times. */
struct gain {
    const struct brake_gain_law *law;
    struct drum_shape drum; /* of a drum whose shoes are known */
    double then;            /* its factor at the friction of the law */
};

static enum brake_status factor_at(const struct gain *gain, double mu, double *factor)
{
    return brake_drum_shape_factor(&gain->drum, mu, gain->law->secondary_friction * mu, factor);
}

static enum brake_status prepare_gain(const struct brake_gain_law *law, struct gain *gain)
{
    gain->law = law;
    gain->then = BRAKE_NAN;
    if (!law->shaped)
        return BRAKE_OK;
    gain->drum = brake_drum_shape(law->shoes, &law->shoe,
                                  law->shoes == BRAKE_DUO_SERVO ? &law->secondary : &law->shoe);
    return law->mu > 0.0 ? factor_at(gain, law->mu, &gain->then) : BRAKE_E_RANGE;
}

static enum brake_status find_gain(const struct gain *gain, double mu, double *ratio)
{
    const struct brake_gain_law *law = gain->law;
    double now;
    *ratio = BRAKE_NAN;
    if (!(mu > 0.0))
        return BRAKE_E_RANGE;
    if (!law->shaped) {
        const double more = mu / law->mu;
        const double power = law->power == 1.0 ? more : pow(more, law->power);
        *ratio = isfinite(power) ? power : BRAKE_NAN;
        return isfinite(power) ? BRAKE_OK : BRAKE_E_RANGE;
    }
    const enum brake_status status = factor_at(gain, mu, &now);
    if (status == BRAKE_OK)
        *ratio = now / gain->then;
    return status;
}

double brake_gain_ratio(const struct brake_gain_law *law, double mu)
{
    struct gain gain;
    double ratio;
    return prepare_gain(law, &gain) == BRAKE_OK && find_gain(&gain, mu, &ratio) == BRAKE_OK
               ? ratio
               : BRAKE_NAN;
}

static bool follows_heat(const struct brake_rig *rig, int axle)
{
    return rig->friction[axle] != NULL && rig->thermal[axle] != NULL;
}

static bool is_coupled(const struct brake_rig *rig)
{
    return follows_heat(rig, BRAKE_FRONT) || follows_heat(rig, BRAKE_REAR);
}

/* Friction of an axle at a temperature of its faces, a speed of the vehicle and a pressure at the
 * master cylinder. */
static double friction_of(const struct brake_rig *rig, int axle, double face, double speed,
                          double pressure)
{
    if (!follows_heat(rig, axle))
        return rig->law[axle].mu;
    if (axle == BRAKE_REAR)
        pressure = brake_valve_pressure(rig->balance.valve, pressure);
    return brake_friction_at(rig->friction[axle], face, rig->rubbing[axle] * speed,
                             rig->lining[axle] * pressure);
}

/* ---- one instant ---------------------------------------------------------------------------- */

/* What moves within a step, counted from its begin. */
struct motion {
    double time;
    double distance;
    double speed; /* counted from 0 */
    double work[BRAKE_AXLES];
    double resisted;
    double effort;
};

/* Where a smooth piece ends. The speeds stand last. */
enum corner {
    AT_FORCE,      /* the pedal force meets its limit; before what may be met just then */
    AT_LIMIT,      /* an axle meets the limit of adhesion */
    AT_SECOND,     /* so does the other, by the anti-lock */
    AT_REAR_FIRST, /* the rear axle takes the front's place as the first to lock */
    AT_KNEE,       /* the booster runs out */
    AT_HOLD,       /* a chamber is at its end, the other goes on */
    AT_BOTH,       /* the other is at its end too */
    AT_MOST,       /* the fluid gives no more pressure */
    AT_VALVE,      /* the valve begins to hold rear pressure back */
    AT_REGULATED,  /* so does electronic distribution */
    AT_LET_GO,     /* which has let all of it go */
    AT_FRONT,      /* the front brakes begin to bite */
    AT_REAR,
    AT_80,
    AT_10,
    AT_END,
    CORNERS
};

/* What an instant shows, and how fast what moves does so. */
struct instant {
    struct motion rate;
    double pedal_force;
    double output;
    double pressure;
    double past[CORNERS]; /* above 0 beyond a corner; in the unit of its quantity */
};

/* A corner counts as met this far before it, in the unit of its quantity: far below anything that
 * is felt and far above rounding, so that what stays at a corner does not flicker about it. */
static const double BAND = 1e-6;

/* One step: who brakes what from where, and the lines over the step. */
struct course {
    const struct brake_rig *rig;
    const struct brake_application *application;
    const struct brake_outcome *outcome;
    struct force_lines lines;  /* of the rig's balance */
    struct unit_pieces pieces; /* of those lines */
    struct gain law[BRAKE_AXLES];
    double speed;                /* at the begin, as all without "per second" */
    double share;                /* of the pedal's rise that is done */
    double rising;               /* per second */
    double gain[BRAKE_AXLES];    /* torque per pressure over that of the balance */
    double fading[BRAKE_AXLES];  /* its change per second at the begin */
    double bending[BRAKE_AXLES]; /* half the change of that per second */
    double pace;                 /* length to try */
    double next;                 /* of the step after it */
    bool limited;                /* an axle is at the limit of adhesion */
    bool lags;                   /* booster output is level + climb time + rest exp(-time/lag) */
    double level;
    double climb;
    double rest;
};

/* Torque per pressure over that of the balance, so long after the begin. */
static double gain_after(const struct course *c, int axle, double time)
{
    return c->gain[axle] + (c->fading[axle] + c->bending[axle] * time) * time;
}

/* The lines at an instant: torque per pressure and drag of the air have moved. */
static struct force_lines lines_at(const struct course *c, const struct motion *m)
{
    struct force_lines lines = c->lines;
    for (int i = 0; i < BRAKE_AXLES; i++)
        lines.axle[i].gain *= gain_after(c, i, m->time);
    put_drag(c->rig->balance.grade, c->rig->air_drag * m->speed * m->speed, &lines);
    return lines;
}

static double pressure_for(const struct course *c, const struct force_lines *lines,
                           double deceleration)
{
    double at[PIECES + 1];
    if (lines->regulated)
        return brake_lines_pressure(lines, deceleration);
    unit_decelerations(lines, &c->pieces, at);
    return pressure_of(c->pieces.end, at, deceleration);
}

static struct brake_lock lock_at(const struct course *c, const struct force_lines *lines,
                                 double adhesion)
{
    struct pieces pieces;
    if (lines->regulated || lines->locked)
        return brake_lines_lock(lines, adhesion);
    take_unit_pieces(lines, &c->pieces, &pieces);
    const double lift = pressure_of(pieces.end, pieces.deceleration, lift_off(lines));
    return lock_of(lines, &pieces, lift, adhesion);
}

/* Adhesion that driver or anti-lock keep to. */
static double kept_adhesion(const struct brake_rig *rig)
{
    return rig->antilock > 0.0 ? rig->antilock * rig->adhesion : rig->adhesion;
}

static double rod_force(const struct brake_pedal *pedal, double force)
{
    return force * pedal->ratio * pedal->efficiency;
}

/* The driver's foot: pedal force, and what it gives in output and pressure. */
static void press(const struct course *c, double time, const struct force_lines *lines, double lock,
                  struct instant *now)
{
    const struct brake_pedal *pedal = &c->rig->pedal;
    const struct brake_application *a = c->application;
    double wanted = a->force;
    if (a->manner == BRAKE_HOLDS_DECELERATION)
        wanted = pedal_force(pedal, pressure_for(c, lines, a->deceleration));
    else if (a->manner == BRAKE_AT_INCIPIENT_LOCK)
        wanted = pedal_force(pedal, lock);
    now->pedal_force = least_of(1.0, c->share + c->rising * time) * least_of(wanted, a->force);
    const double rod = rod_force(pedal, now->pedal_force);
    now->output = booster_output(pedal->gain, pedal->assist, rod);
    if (c->lags)
        now->output = c->level + c->climb * time + c->rest * exp(-time / c->rig->booster_lag);
    const double pressure = now->output * pedal->master_efficiency / pedal->master_area;
    now->pressure = least_of(pressure, c->rig->pressure_most);
    now->past[AT_KNEE] = rod - brake_booster_knee(pedal->gain, pedal->assist);
    now->past[AT_FORCE] = wanted - a->force;
    now->past[AT_MOST] = pressure - c->rig->pressure_most;
}

static void fill_pressure_corners(const struct force_lines *lines, struct instant *now)
{
    const double rear = valve_pressure(lines->valve, now->pressure);
    now->past[AT_HOLD] = now->pressure - lines->hold.from;
    now->past[AT_BOTH] = now->pressure - lines->hold.to;
    now->past[AT_VALVE] = now->pressure - lines->valve.knee;
    now->past[AT_REGULATED] = -1.0;
    now->past[AT_LET_GO] = -1.0;
    if (lines->regulated) {
        const double let = let_through(lines, now->pressure);
        now->past[AT_REGULATED] = open_deceleration(lines, now->pressure) - let;
        now->past[AT_LET_GO] = let_go_deceleration(lines, now->pressure) - let;
    }
    now->past[AT_FRONT] = now->pressure - lines->axle[BRAKE_FRONT].threshold;
    now->past[AT_REAR] = rear - lines->axle[BRAKE_REAR].threshold;
}

static bool has_antilock(const struct course *c)
{
    return c->rig->antilock > 0.0 && !c->lines.locked;
}

/* With an anti-lock each axle has a limit of its own, else the first one ends it for both. */
static void fill_limits(const struct course *c, const struct force_lines *lines,
                        const struct brake_balance_state *at, const struct brake_lock *lock,
                        struct instant *now)
{
    double past[BRAKE_AXLES] = {now->pressure - lock->pressure, -BRAKE_INFINITY};
    if (has_antilock(c)) {
        const struct force_lines eased = let_go(*lines, now->pressure, at->deceleration);
        for (int i = 0; i < BRAKE_AXLES; i++)
            past[i] =
                force_asked(&eased, i, now->pressure, at->deceleration) -
                adhesion_left(&eased, kept_adhesion(c->rig)) * eased.axle[i].wheels * at->load[i];
    }
    now->past[AT_LIMIT] = most_of(past[0], past[1]);
    now->past[AT_SECOND] = least_of(past[0], past[1]);
    now->past[AT_REAR_FIRST] = lock->axle == BRAKE_REAR ? 1.0 : -1.0;
}

/* Force and turning of a released brake cancel but for rounding; its torque is 0 to the bit, and
 * pads that touch or do not are another brake to the heat. */
static void fill_rates(const struct course *c, const struct force_lines *lines,
                       const struct brake_balance_state *at, double pressure, struct motion *rate)
{
    const double speed = rate->distance;
    rate->time = 1.0;
    rate->speed = -at->deceleration;
    rate->resisted = lines->resistance * speed;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const double per_radius = lines->axle[i].per_radius;
        const double inertia_torque =
            c->rig->balance.axle[i].inertia * per_radius * per_radius * at->deceleration;
        const double most = brakes_torque(lines, i, pressure) * per_radius;
        rate->work[i] = most_of(0.0, least_of(most, at->force[i] + inertia_torque)) * speed;
    }
}

/* Driver, or nothing, keeps the wheels from locking: what the vehicle does at a pressure. */
static struct brake_balance_state state_at(const struct force_lines *lines, double pressure)
{
    struct brake_balance_state at = {.deceleration = free_deceleration(lines, pressure)};
    for (int i = 0; i < BRAKE_AXLES; i++)
        at.force[i] = tyre_force(lines, i, pressure, at.deceleration);
    return at;
}

/* Of a stop that goes on to rest the mean deceleration is taken between two of its speeds. */
static double past_speed(const struct brake_application *a, enum corner corner, double speed)
{
    const double share = corner == AT_80 ? 0.8 : 0.1;
    if (corner == AT_END)
        return a->to - speed;
    return a->to == 0.0 ? share * a->from - speed : -1.0;
}

/* Where it is not `whole`, a limit that the step began below is not looked for: it is costly to
 * find, and a step ends there. */
static struct instant look(const struct course *c, const struct motion *m, bool whole)
{
    const struct brake_rig *rig = c->rig;
    const struct brake_application *a = c->application;
    const struct force_lines lines = lines_at(c, m);
    struct brake_balance_state at;
    struct instant now;
    struct brake_lock lock = {.pressure = BRAKE_INFINITY, .axle = BRAKE_FRONT};
    const bool antilock = has_antilock(c);
    if ((!antilock && (whole || c->limited)) || a->manner == BRAKE_AT_INCIPIENT_LOCK)
        lock = lock_at(c, &lines, kept_adhesion(rig));
    press(c, m->time, &lines, lock.pressure, &now);
    if (antilock)
        at = brake_lines_kept(&lines, now.pressure, rig->adhesion, rig->antilock);
    else
        at = state_at(&lines, least_of(now.pressure, lock.pressure));
    now.rate.distance = m->speed;
    fill_rates(c, &lines, &at, now.pressure, &now.rate);
    now.rate.effort = now.pedal_force;
    fill_limits(c, &lines, &at, &lock, &now);
    fill_pressure_corners(&lines, &now);
    for (int i = 0; i < AT_80; i++)
        now.past[i] += BAND;
    for (int i = AT_80; i < CORNERS; i++)
        now.past[i] = past_speed(a, (enum corner)i, m->speed);
    return now;
}

/* ---- the vehicle over a step ---------------------------------------------------------------- */

/* A step, tried or taken. */
struct passage {
    struct instant begin;
    struct instant middle; /* of it, but for the limits */
    struct motion to;
    struct instant end;
    struct brake_thermal_state heat[BRAKE_AXLES];
    double friction[BRAKE_AXLES];
    double miss; /* part of the torque by which its end was not as expected */
};

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

/* Classical Runge-Kutta of order 4, from an instant that is known; the last look half way is left
 * in `middle`. Work goes through the same stages as the speed: so it agrees with the energy of
 * motion better than a finer sum would. */
static struct motion runge_kutta(const struct course *c, const struct instant *begin, double step,
                                 struct instant *middle)
{
    static const double part[] = {0.5, 0.5, 1.0};
    static const double weight[] = {1.0 / 3.0, 1.0 / 3.0, 1.0 / 6.0};
    struct motion to = {.speed = c->speed};
    struct motion rate = begin->rate;
    move(&rate, step / 6.0, &to);
    for (int stage = 0; stage < 3; stage++) {
        struct motion there = {.speed = c->speed};
        move(&rate, part[stage] * step, &there);
        const struct instant now = look(c, &there, false);
        rate = now.rate;
        if (stage == 1)
            *middle = now;
        move(&rate, weight[stage] * step, &to);
    }
    to.time = step;
    return to;
}

/* ---- where a step must end ------------------------------------------------------------------ */

static void try_length(const struct course *c, double length, struct passage *p)
{
    p->to = runge_kutta(c, &p->begin, length, &p->middle);
    p->end = look(c, &p->to, true);
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
        const bool begins = p->begin.past[i] > 0.0;
        if (!is_limit((enum corner)i) && begins == (p->end.past[i] > 0.0) &&
            begins != (p->middle.past[i] > 0.0))
            return true;
    }
    return false;
}

static bool is_speed(enum corner corner)
{
    return corner >= AT_80;
}

/* How far beyond a corner a step of this length ends. */
static double past_after(const struct course *c, const struct passage *p, enum corner corner,
                         double length)
{
    struct instant middle;
    const struct motion there = runge_kutta(c, &p->begin, length, &middle);
    return is_speed(corner) ? past_speed(c->application, corner, there.speed)
                            : look(c, &there, is_limit(corner)).past[corner];
}

/* What an end's value is multiplied with when the other end has moved twice. */
static double shrunk(double now, double before)
{
    const double factor = 1.0 - now / before;
    return factor > 0.0 ? factor : 0.5;
}

/* Length of the step after which a corner that is passed within it just has been: by the straight
 * line between both ends of what is left by the rule of Anderson and Bjorck, and half way where a
 * value is infinite. */
static double locate(const struct course *c, const struct passage *p, enum corner corner)
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

/* A step of a length, or to the first corner within it. What is not awaited and comes this near the
 * begin is passed over: friction that settles, or rounding, can carry it back and forth. */
static void run(struct course *c, double length, struct passage *p)
{
    const double least = 1e-9;
    try_length(c, length, p);
    if (turns_back(p))
        try_length(c, 0.5 * length, p);
    for (int i = 0; i < CORNERS; i++) {
        const enum corner corner = (enum corner)i;
        if ((p->begin.past[corner] > 0.0) == (p->end.past[corner] > 0.0))
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

/* ---- heat and friction ---------------------------------------------------------------------- */

/* [W] less is rounding about a threshold: pads that touch by it would be another brake to the
 * heat. */
static const double LEAST_POWER = 1e-6;

/* Each brake of an axle gets half of its work, as power along a straight line of that mean. */
static struct brake_thermal_drive drive_of(const struct course *c, const struct passage *p,
                                           int axle)
{
    const double power = p->to.work[axle] / 2.0 / p->to.time;
    const double mean = power < LEAST_POWER ? 0.0 : power;
    const double slope = (p->end.rate.work[axle] - p->begin.rate.work[axle]) / 4.0;
    const double tilt = most_of(-mean, least_of(mean, slope));
    return (struct brake_thermal_drive){.power_begin = mean - tilt,
                                        .power_end = mean + tilt,
                                        .speed_begin = c->speed,
                                        .speed_end = most_of(0.0, p->to.speed),
                                        .air = c->rig->air};
}

/* Torque per pressure along the parabola through its values at both ends and that before; until
 * there is one before, a straight line. The parabola never leaves that line by more than a quarter
 * of the smaller end, so that the torque keeps its sign whatever came before. */
static void lay_line(const struct brake_braking *braking, int axle, double gain, double time,
                     struct course *c)
{
    const double slope = (gain - c->gain[axle]) / time;
    const double bend = (slope - braking->fading[axle]) / (time + braking->span);
    const double most = braking->span > 0.0 ? least_of(gain, c->gain[axle]) / (time * time) : 0.0;
    c->bending[axle] = most_of(-most, least_of(most, bend));
    c->fading[axle] = slope - c->bending[axle] * time;
}

/* Friction at the end of a step, and the torque's line that leads to it. */
static enum brake_status fade(struct course *c, const struct brake_braking *braking,
                              struct passage *p)
{
    p->miss = 0.0;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        double gain;
        p->friction[i] =
            friction_of(c->rig, i, p->heat[i].face, most_of(0.0, p->to.speed), p->end.pressure);
        if (!follows_heat(c->rig, i))
            continue;
        const enum brake_status status = find_gain(&c->law[i], p->friction[i], &gain);
        if (status != BRAKE_OK)
            return status;
        p->miss = most_of(p->miss, fabs(gain / gain_after(c, i, p->to.time) - 1.0));
        lay_line(braking, i, gain, p->to.time, c);
    }
    return BRAKE_OK;
}

static bool is_finite(const struct passage *p)
{
    const struct motion *to = &p->to;
    return isfinite(to->speed + to->distance + to->resisted + to->work[BRAKE_FRONT] +
                    to->work[BRAKE_REAR] + p->end.rate.speed + p->end.pressure);
}

/* Torque per pressure goes on along the parabola of the step before, but never changes by more than
 * its half. The guess matters: the face follows power without delay, so that one correction would
 * leave some of an error of first order in the step. */
static void guess(const struct brake_braking *braking, double length, struct course *c)
{
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const double most = 0.25 * c->gain[i] / length;
        const double slope = braking->fading[i] + braking->bending[i] * braking->span;
        c->fading[i] = most_of(-most, least_of(most, slope));
        c->bending[i] = most_of(-most / length, least_of(most / length, braking->bending[i]));
    }
}

/* Length at which a step would miss by the tolerance. Never so short that the noise of the heat's
 * own tolerance would be taken for a miss. */
static double fitting(const struct brake_rig *rig, const struct passage *p)
{
    const double length = p->to.time;
    const double missed = p->miss * length;
    const double factor = missed > 0.0 ? 0.9 * sqrt(sqrt(rig->tolerance / missed)) : 2.0;
    const double wanted = length * most_of(0.2, least_of(2.0, factor));
    return most_of(rig->step / 40.0, least_of(rig->step, wanted));
}

/* ---- the begin of a step -------------------------------------------------------------------- */

static void set_rise(const struct brake_rig *rig, double time, struct course *c)
{
    c->share = time < rig->dead_time ? 0.0 : 1.0;
    c->rising = 0.0;
    if (time >= rig->dead_time && time < rig->dead_time + rig->rise_time) {
        c->share = (time - rig->dead_time) / rig->rise_time;
        c->rising = 1.0 / rig->rise_time;
    }
}

/* The output's way over the step: while the law is a straight line, it is one too and a rest that
 * dies out. */
static void set_lag(double output, struct course *c)
{
    const struct brake_pedal *pedal = &c->rig->pedal;
    const double full = rod_force(pedal, c->application->force);
    const double rod = c->share * full;
    const double knee = brake_booster_knee(pedal->gain, pedal->assist);
    c->lags = c->rig->booster_lag > 0.0 && c->application->manner == BRAKE_HOLDS_FORCE;
    if (!c->lags)
        return;
    /* Twice the band: where a step has ended at the knee, the knee is behind. */
    c->climb = (rod - knee + 2.0 * BAND > 0.0 ? 1.0 : pedal->gain) * c->rising * full;
    c->level =
        brake_booster_output(pedal->gain, pedal->assist, rod) - c->climb * c->rig->booster_lag;
    c->rest = output - c->level;
}

/* The instant at which a step begins, with the friction of each axle. */
static enum brake_status begin_with(const double friction[BRAKE_AXLES], struct course *c,
                                    struct instant *begin)
{
    const struct motion from = {.speed = c->speed};
    for (int i = 0; i < BRAKE_AXLES; i++) {
        if (!follows_heat(c->rig, i))
            continue;
        const enum brake_status status = find_gain(&c->law[i], friction[i], &c->gain[i]);
        if (status != BRAKE_OK)
            return status;
    }
    *begin = look(c, &from, true);
    return BRAKE_OK;
}

/* A foot that comes down at once jumps the pressure and the power, and with them the faces. */
static bool jumps(const struct course *c, double time)
{
    return time == c->rig->dead_time && c->rig->rise_time == 0.0 && !c->lags;
}

/* Friction, power and face each follow the others: they are asked in turn until they settle. */
static enum brake_status settle(const struct brake_braking *braking, struct course *c,
                                struct instant *begin)
{
    const struct brake_rig *rig = c->rig;
    const double settled = 1e-13;
    double moved;
    int turns = 50; /* a handful is usual */
    double friction[BRAKE_AXLES] = {braking->friction[BRAKE_FRONT], braking->friction[BRAKE_REAR]};
    do {
        const enum brake_status status = begin_with(friction, c, begin);
        if (status != BRAKE_OK)
            return status;
        moved = 0.0;
        for (int i = 0; i < BRAKE_AXLES; i++) {
            const double before = friction[i];
            if (!follows_heat(rig, i))
                continue;
            const double face = brake_thermal_face_under(
                rig->thermal[i], &braking->heat[i], begin->rate.work[i] / 2.0, c->speed, rig->air);
            friction[i] = friction_of(rig, i, face, c->speed, begin->pressure);
            moved = most_of(moved, fabs(friction[i] - before));
        }
    } while (moved > settled && --turns > 0);
    return BRAKE_OK;
}

static enum brake_status grip(const struct brake_braking *braking, struct course *c,
                              struct instant *begin)
{
    const enum brake_status status = jumps(c, braking->time)
                                         ? settle(braking, c, begin)
                                         : begin_with(braking->friction, c, begin);
    if (status == BRAKE_OK)
        c->limited = begin->past[AT_LIMIT] > 0.0;
    return status;
}

/* Whether the length of steps follows from what they miss. */
static bool is_controlled(const struct brake_rig *rig)
{
    return rig->tolerance > 0.0 && is_coupled(rig);
}

/* Length to try: as the step before found it, at first a quarter of the longest. */
static double pace(const struct brake_rig *rig, const struct brake_braking *braking)
{
    if (!is_controlled(rig))
        return rig->step;
    return braking->step > 0.0 ? least_of(rig->step, braking->step) : rig->step / 4.0;
}

/* Electronic distribution can take hold and let go within a tenth of the rise. */
static double steps_of_rise(const struct brake_rig *rig)
{
    const double least = is_controlled(rig) ? 4.0 : 8.0;
    return rig->balance.regulated ? 2.0 * least : least;
}

/* Shorter than asked while the pedal rises, and while the lag has much left to die out: the rest is
 * e-fold less after each lag, and the error of a step goes with it and with the fifth power of the
 * step over the lag. Never so short that time would stand still. */
static double longest_step(const struct course *c, double time)
{
    const struct brake_rig *rig = c->rig;
    const double full = rod_force(&rig->pedal, c->application->force);
    const double all = brake_booster_output(rig->pedal.gain, rig->pedal.assist, full);
    const double rest = fabs(c->rest);
    double step = c->pace;
    if (c->rising > 0.0)
        step = least_of(step, rig->rise_time / steps_of_rise(rig));
    const double lags = 8.0 * step / rig->booster_lag;
    const double more = most_of(all, rest) / rest;
    if (c->lags && rest > 0.0 && more < lags * lags * lags * lags * lags)
        step = least_of(step, rig->booster_lag / 8.0 * pow(more, 0.2));
    return most_of(step, 1e-9 * (1.0 + time));
}

/* End of a step: after the longest one, or at a corner of the pedal's rise, or at `until`, none of
 * which is missed by a sliver: what is left of less than two steps is cut in halves. */
static double planned_end(const struct course *c, double time, double until)
{
    const struct brake_rig *rig = c->rig;
    const double stops[] = {rig->dead_time, rig->dead_time + rig->rise_time, until};
    const double step = longest_step(c, time);
    double next = BRAKE_INFINITY;
    for (int i = 0; i < 3; i++) {
        if (stops[i] > time)
            next = least_of(next, stops[i]);
    }
    const double left = next - time;
    if (left <= step * (1.0 + 1e-9))
        return next;
    return left < 2.0 * step ? time + 0.5 * left : time + step;
}

/* ---- the whole braking ---------------------------------------------------------------------- */

void brake_braking_begin(const struct brake_rig *rig, const struct brake_application *application,
                         struct brake_braking *braking, struct brake_outcome *outcome)
{
    struct brake_balance balance = rig->balance;
    balance.drag = rig->air_drag * application->from * application->from;
    braking->time = 0.0;
    braking->distance = 0.0;
    braking->speed = application->from;
    braking->output = 0.0;
    braking->resisted = 0.0;
    braking->effort = 0.0;
    braking->pedal_force = 0.0;
    braking->pressure = 0.0;
    braking->deceleration = brake_balance_at(&balance, 0.0).deceleration;
    braking->span = 0.0;
    braking->step = 0.0;
    *outcome = (struct brake_outcome){.developed = BRAKE_NAN,
                                      .passed_80 = BRAKE_NAN,
                                      .passed_10 = BRAKE_NAN,
                                      .ended = BRAKE_NAN,
                                      .lock_time = BRAKE_NAN,
                                      .knee_time = BRAKE_NAN};
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const bool hot = rig->thermal[i] != NULL;
        braking->work[i] = 0.0;
        braking->fading[i] = 0.0;
        braking->bending[i] = 0.0;
        braking->friction[i] = friction_of(rig, i, braking->heat[i].face, application->from, 0.0);
        outcome->face_most[i] = hot ? braking->heat[i].face : BRAKE_NAN;
        outcome->pad_most[i] =
            hot ? brake_thermal_part(rig->thermal[i], &braking->heat[i], BRAKE_PART_PAD)
                : BRAKE_NAN;
        outcome->stress_rise[i] = hot ? 0.0 : BRAKE_NAN;
    }
}

/* The slopes of a short step say little. */
static bool is_telling(const struct course *c, const struct passage *p, double begun)
{
    return p->to.time > 0.1 * longest_step(c, begun);
}

static void keep_lines(const struct course *c, const struct passage *p, struct brake_braking *b)
{
    b->span = p->to.time;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        b->fading[i] = c->fading[i] + c->bending[i] * p->to.time;
        b->bending[i] = c->bending[i];
    }
}

/* Whether a step came to its planned end, or to a corner so little before it that which of the two
 * comes first is rounding. */
static bool came_to_end(const struct passage *p, double planned)
{
    const double sliver = 1e-11; /* [s] */
    return planned - p->to.time < sliver;
}

/* Takes over a step that was planned to end at a time. */
static void keep(const struct course *c, const struct passage *p, double length, double end,
                 struct brake_braking *b)
{
    if (is_telling(c, p, b->time))
        keep_lines(c, p, b);
    b->step = c->next;
    b->time = came_to_end(p, length) ? end : b->time + p->to.time;
    b->distance += p->to.distance;
    b->speed = p->to.speed;
    b->resisted += p->to.resisted;
    b->effort += p->to.effort;
    b->output = p->end.output;
    b->pedal_force = p->end.pedal_force;
    b->pressure = p->end.pressure;
    b->deceleration = -p->end.rate.speed;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        b->work[i] += p->to.work[i];
        b->friction[i] = p->friction[i];
        if (c->rig->thermal[i] != NULL)
            b->heat[i] = p->heat[i];
    }
}

/* Largest value about the begin of a step: where the three values that lie around it have their
 * largest in the middle, the top of their parabola. Slopes are those of the step before and of this
 * one. */
static double crest(double begin, double before, double span, double slope, double time)
{
    if (!(before > 0.0 && slope < 0.0))
        return begin;
    const double middle = (before * time + slope * span) / (time + span);
    const double bend = (slope - before) / (time + span);
    return begin - 0.25 * middle * middle / bend;
}

/* No crest is sought about a jump of the power or where it bends, nor in a step so short that none
 * would stand out: a face that bends by 25 K/s2 does so by a millikelvin. */
static bool is_rough(const struct course *c, const struct passage *p, double begun, double end)
{
    const struct brake_rig *rig = c->rig;
    const double least = 0.02;
    return p->to.time < least || jumps(c, begun) || !came_to_end(p, end - begun) ||
           end == rig->dead_time || end == rig->dead_time + rig->rise_time;
}

/* The larger of what was and a quantity over a step. */
static double largest(const double value[2], double time, double span, double *slope, double most)
{
    const double before = *slope;
    *slope = (value[1] - value[0]) / time;
    return most_of(most, most_of(value[1], crest(value[0], before, span, *slope, time)));
}

/* The hottest face, and the largest strain, between the ends of smooth steps too. */
static void note_heat(const struct course *c, const struct passage *p,
                      const struct brake_braking *before, bool rough, struct brake_outcome *o)
{
    const double time = p->to.time;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_thermal *thermal = c->rig->thermal[i];
        const struct brake_thermal_state *begin = &before->heat[i];
        const struct brake_thermal_state *end = &p->heat[i];
        if (thermal == NULL)
            continue;
        const double face[] = {begin->face, end->face};
        const double strain[] = {begin->face - brake_thermal_mean(thermal, begin),
                                 end->face - brake_thermal_mean(thermal, end)};
        if (rough)
            o->warming[i] = o->straining[i] = 0.0;
        o->pad_most[i] = most_of(o->pad_most[i], brake_thermal_part(thermal, end, BRAKE_PART_PAD));
        o->face_most[i] = largest(face, time, before->span, &o->warming[i], o->face_most[i]);
        o->stress_rise[i] =
            largest(strain, time, before->span, &o->straining[i], o->stress_rise[i]);
        if (rough)
            o->warming[i] = o->straining[i] = 0.0;
    }
}

/* Writes down what was met in a step, the first time: at its end, or at its begin when a jump led
 * there. */
static void note_corners(const struct course *c, const struct passage *p, double begun,
                         struct brake_braking *b, struct brake_outcome *o)
{
    const struct brake_application *a = c->application;
    if (isnan(o->lock_time) && p->end.past[AT_LIMIT] > 0.0)
        o->lock_time = p->begin.past[AT_LIMIT] > 0.0 ? begun : b->time;
    if (isnan(o->knee_time) && p->end.past[AT_KNEE] > 0.0)
        o->knee_time = p->begin.past[AT_KNEE] > 0.0 ? begun : b->time;
    if (isnan(o->passed_80) && p->end.past[AT_80] > 0.0)
        o->passed_80 = b->distance;
    if (isnan(o->passed_10) && p->end.past[AT_10] > 0.0)
        o->passed_10 = b->distance;
    if (!(p->end.past[AT_END] > 0.0))
        return;
    b->speed = a->to;
    o->ended = b->time;
    if (a->to == 0.0)
        o->developed = brake_mfdd(0.8 * a->from, 0.1 * a->from, o->passed_10 - o->passed_80);
}

static void note(const struct course *c, const struct brake_braking *b, struct brake_outcome *o)
{
    const double mass = c->lines.equivalent;
    const double begun = brake_energy(mass, c->application->from);
    const double work = b->work[BRAKE_FRONT] + b->work[BRAKE_REAR];
    const double lost = begun - brake_energy(mass, b->speed);
    o->steps++;
    o->force_most = most_of(o->force_most, b->pedal_force);
    o->residual = fabs(lost - work - b->resisted) / most_of(begun, work);
}

/* Balance, pedal and what is left unasked here show as NaN in the first step. */
static bool rig_in_range(const struct brake_rig *rig)
{
    const struct brake_pedal *pedal = &rig->pedal;
    bool usable = rig->step >= 1e-4 && rig->step <= 60.0 && rig->tolerance >= 0.0 &&
                  rig->tolerance <= 1.0 && rig->dead_time >= 0.0 && rig->rise_time >= 0.0 &&
                  rig->booster_lag >= 0.0 &&
                  isfinite(rig->dead_time + rig->rise_time + rig->booster_lag) &&
                  rig->adhesion > 0.0 && rig->antilock >= 0.0 && rig->antilock <= 1.0 &&
                  rig->air_drag >= 0.0 && rig->pressure_most >= 0.0 && pedal->gain > 0.0 &&
                  pedal->assist >= 0.0 && pedal->master_area > 0.0;
    for (int i = 0; i < BRAKE_AXLES; i++)
        usable = usable && rig->law[i].mu > 0.0;
    return usable;
}

static bool task_in_range(const struct brake_application *a, double until)
{
    return a->from > 0.0 && a->to >= 0.0 && a->to < a->from && a->force >= 0.0 &&
           isfinite(a->from + a->force) && until >= 0.0 && until <= 1e9 &&
           (a->manner == BRAKE_HOLDS_FORCE || a->manner == BRAKE_AT_INCIPIENT_LOCK ||
            (a->manner == BRAKE_HOLDS_DECELERATION && isfinite(a->deceleration)));
}

static bool state_in_range(const struct brake_braking *b)
{
    return b->time >= 0.0 && b->speed >= 0.0 &&
           isfinite(b->time + b->distance + b->speed + b->output + b->resisted + b->effort +
                    b->work[BRAKE_FRONT] + b->work[BRAKE_REAR] + b->fading[BRAKE_FRONT] +
                    b->fading[BRAKE_REAR] + b->bending[BRAKE_FRONT] + b->bending[BRAKE_REAR]) &&
           b->span >= 0.0 && isfinite(b->span) && b->step >= 0.0;
}

/* ---- side by side --------------------------------------------------------------------------- */

/* One of the brakings that go on side by side. */
struct lane {
    struct brake_braking_task *task;
    struct course course;
    struct passage passage;
    struct brake_braking braking;
    struct brake_outcome outcome;
    double begun;  /* of the step */
    double end;    /* planned */
    double length; /* to try */
};

/* Some of them. */
struct lanes {
    struct lane *lane[BRAKE_TOGETHER];
    int count;
};

static bool is_well(const struct lane *lane)
{
    return lane->task->status == BRAKE_OK;
}

/* First all brakes of one axle, then those of the other: alike are side by side. */
static void warm(const struct lanes *lanes)
{
    struct brake_thermal_task task[BRAKE_TOGETHER * BRAKE_AXLES];
    struct lane *of[BRAKE_TOGETHER * BRAKE_AXLES];
    int tasks = 0;
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        for (int i = 0; i < lanes->count; i++) {
            struct lane *lane = lanes->lane[i];
            struct passage *p = &lane->passage;
            const struct brake_thermal *thermal = lane->course.rig->thermal[axle];
            if (thermal == NULL || !is_well(lane))
                continue;
            p->heat[axle] = lane->braking.heat[axle];
            of[tasks] = lane;
            task[tasks++] = (struct brake_thermal_task){thermal, drive_of(&lane->course, p, axle),
                                                        p->to.time, &p->heat[axle], BRAKE_OK};
        }
    }
    brake_thermal_advance_all(task, tasks);
    for (int i = 0; i < tasks; i++) {
        if (is_well(of[i]))
            of[i]->task->status = task[i].status;
    }
}

/* The vehicle over a length, then the heat of it, then the friction at that heat. */
static void pass(const struct lanes *lanes)
{
    for (int i = 0; i < lanes->count; i++) {
        struct lane *lane = lanes->lane[i];
        run(&lane->course, lane->length, &lane->passage);
        if (!is_finite(&lane->passage))
            lane->task->status = BRAKE_E_RANGE;
    }
    warm(lanes);
    for (int i = 0; i < lanes->count; i++) {
        struct lane *lane = lanes->lane[i];
        if (is_well(lane))
            lane->task->status = fade(&lane->course, &lane->braking, &lane->passage);
    }
}

static struct lanes those(const struct lanes *from, bool (*which)(struct lane *lane))
{
    struct lanes to = {.count = 0};
    for (int i = 0; i < from->count; i++) {
        if (is_well(from->lane[i]) && which(from->lane[i]))
            to.lane[to.count++] = from->lane[i];
    }
    return to;
}

static bool misses_far(struct lane *lane)
{
    const struct course *c = &lane->course;
    const double fits = fitting(c->rig, &lane->passage);
    if (!(c->rig->tolerance > 0.0 && fits < 0.6 * lane->passage.to.time))
        return false;
    lane->length = fits;
    guess(&lane->braking, lane->length, &lane->course);
    return true;
}

/* Where the predictor ended early, at a corner, the line is not to be trusted far beyond. */
static bool wants_corrector(struct lane *lane)
{
    struct course *c = &lane->course;
    const struct passage *p = &lane->passage;
    const double wanted = fitting(c->rig, p);
    /* A step that was cut says nothing against a longer one. */
    c->next = wanted < p->to.time ? wanted : most_of(wanted, c->pace);
    if (!is_coupled(c->rig) || p->miss * p->to.time < 0.1 * c->rig->tolerance)
        return false;
    lane->length = least_of(lane->length, 2.0 * p->to.time);
    return true;
}

/* Predictor by that guess, shorter when it misses far; corrector by the line to the predicted
 * end. */
static void couple(const struct lanes *lanes)
{
    for (int i = 0; i < lanes->count; i++)
        guess(&lanes->lane[i]->braking, lanes->lane[i]->length, &lanes->lane[i]->course);
    pass(lanes);
    const struct lanes shorter = those(lanes, misses_far);
    pass(&shorter);
    const struct lanes corrected = those(lanes, wants_corrector);
    pass(&corrected);
}

static bool begins_step(struct lane *lane)
{
    struct course *c = &lane->course;
    struct brake_braking *b = &lane->braking;
    if (!(b->time < lane->task->until && isnan(lane->outcome.ended)))
        return false;
    lane->begun = b->time;
    c->speed = b->speed;
    c->pace = pace(c->rig, b);
    set_rise(c->rig, lane->begun, c);
    set_lag(b->output, c);
    lane->task->status = grip(b, c, &lane->passage.begin);
    lane->end = planned_end(c, lane->begun, lane->task->until);
    lane->length = lane->end - lane->begun;
    return is_well(lane);
}

static void end_step(struct lane *lane)
{
    const struct course *c = &lane->course;
    const struct passage *p = &lane->passage;
    struct brake_braking *b = &lane->braking;
    struct brake_outcome *o = &lane->outcome;
    note_heat(c, p, b, is_rough(c, p, lane->begun, lane->end), o);
    keep(c, p, lane->end - lane->begun, lane->end, b);
    note_corners(c, p, lane->begun, b, o);
    note(c, b, o);
}

static void go_on(const struct lanes *all)
{
    struct lanes lanes = those(all, begins_step);
    while (lanes.count > 0) {
        couple(&lanes);
        for (int i = 0; i < lanes.count; i++) {
            if (is_well(lanes.lane[i]))
                end_step(lanes.lane[i]);
        }
        lanes = those(&lanes, begins_step);
    }
}

static void begin_lane(struct brake_braking_task *task, struct lane *lane)
{
    const struct brake_rig *rig = task->rig;
    lane->task = task;
    lane->braking = *task->braking;
    lane->outcome = *task->outcome;
    lane->course =
        (struct course){.rig = rig, .application = task->application, .outcome = &lane->outcome};
    lane->course.lines = force_lines_of(&rig->balance);
    unit_pieces_of(&lane->course.lines, &lane->course.pieces);
    task->status = BRAKE_OK;
    if (!(rig_in_range(rig) && task_in_range(task->application, task->until) &&
          state_in_range(&lane->braking)))
        task->status = BRAKE_E_RANGE;
    for (int i = 0; i < BRAKE_AXLES && task->status == BRAKE_OK; i++) {
        task->status = prepare_gain(&rig->law[i], &lane->course.law[i]);
        lane->course.gain[i] = 1.0;
    }
}

void brake_braking_advance_all(struct brake_braking_task *task, int count)
{
    struct lane lane[BRAKE_TOGETHER];
    struct lanes lanes = {.count = count};
    for (int i = 0; i < count; i++) {
        begin_lane(&task[i], &lane[i]);
        lanes.lane[i] = &lane[i];
    }
    go_on(&lanes);
    for (int i = 0; i < count; i++) {
        if (!is_well(&lane[i]))
            continue;
        *task[i].braking = lane[i].braking;
        *task[i].outcome = lane[i].outcome;
    }
}

enum brake_status brake_braking_advance(const struct brake_rig *rig,
                                        const struct brake_application *application, double until,
                                        struct brake_braking *braking,
                                        struct brake_outcome *outcome)
{
    struct brake_braking_task task = {rig, application, until, braking, outcome, BRAKE_OK};
    brake_braking_advance_all(&task, 1);
    return task.status;
}
