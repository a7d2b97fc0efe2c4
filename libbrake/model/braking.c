/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/braking.h. */
#include "brake/braking.h"

#include <math.h>
#include <stddef.h>

#include "brake/stop.h"
#include "braking_lanes.h"
#include "extremes.h"
#include "passage.h"
#include "thermal_lanes.h"

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
        const enum brake_status status = brake_gain_find(&c->law[i], p->friction[i], &gain);
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
        const enum brake_status status = brake_gain_find(&c->law[i], friction[i], &c->gain[i]);
        if (status != BRAKE_OK)
            return status;
    }
    brake_course_look(c, &from, WHOLE, begin);
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

/* Largest value from amid an earlier step to the end of this one: the top of the parabola that has
 * the slopes of both amid each, where it lies there. `apart` is the time between. */
static double crest(double begin, double before, double slope, double apart, double time)
{
    const double bend = 0.5 * (slope - before) / apart;
    const double first = slope - bend * time;
    if (!(before > 0.0 && slope + bend * time < 0.0))
        return begin;
    return begin - 0.25 * first * first / bend;
}

/* Whether the power jumped at the begin of a step or bends at its end. At a speed of interest it
 * does not. */
static bool is_rough(const struct course *c, const struct passage *p, double begun, double end)
{
    const struct brake_rig *rig = c->rig;
    for (int i = 0; i < CORNERS; i++) {
        if (!is_speed((enum corner)i) && passes(p, (enum corner)i))
            return true;
    }
    return jumps(c, begun) || (came_to_end(p, end - begun) &&
                               (end == rig->dead_time || end == rig->dead_time + rig->rise_time));
}

static void forget_slopes(struct brake_outcome *o)
{
    for (int i = 0; i < BRAKE_AXLES; i++)
        o->warming[i] = o->straining[i] = 0.0;
}

/* The larger of what was and a quantity's crest, whose slope is that of this step then. */
static double largest(const double value[2], double time, double apart, double *slope, double most)
{
    const double before = *slope;
    *slope = (value[1] - value[0]) / time;
    return most_of(most, crest(value[0], before, *slope, apart, time));
}

static double strain_of(const struct brake_thermal *thermal,
                        const struct brake_thermal_state *state)
{
    return state->face - brake_thermal_mean(thermal, state);
}

/* The hottest face, and the largest strain, between the ends of steps. Short steps between two
 * others are passed over, unless they are many. */
static void note_crests(const struct course *c, const struct passage *p,
                        const struct brake_braking *before, struct brake_outcome *o)
{
    const double time = p->to.time;
    const double amid = before->time + 0.5 * time;
    const double apart = amid - o->amid;
    if (apart > 1.5 * c->rig->step)
        forget_slopes(o);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_thermal *thermal = c->rig->thermal[i];
        if (thermal == NULL)
            continue;
        const double face[] = {before->heat[i].face, p->heat[i].face};
        const double strain[] = {strain_of(thermal, &before->heat[i]),
                                 strain_of(thermal, &p->heat[i])};
        o->face_most[i] = largest(face, time, apart, &o->warming[i], o->face_most[i]);
        o->stress_rise[i] = largest(strain, time, apart, &o->straining[i], o->stress_rise[i]);
    }
    o->amid = amid;
}

/* What they are at the end of a step. */
static void note_heat(const struct course *c, const struct brake_thermal_state heat[BRAKE_AXLES],
                      struct brake_outcome *o)
{
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_thermal *thermal = c->rig->thermal[i];
        if (thermal == NULL)
            continue;
        o->pad_most[i] =
            most_of(o->pad_most[i], brake_thermal_part(thermal, &heat[i], BRAKE_PART_PAD));
        o->face_most[i] = most_of(o->face_most[i], heat[i].face);
        o->stress_rise[i] = most_of(o->stress_rise[i], strain_of(thermal, &heat[i]));
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
    const double mass = c->still.equivalent;
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
        brake_passage_run(&lane->course, lane->length, &lane->passage);
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
    note_heat(c, p->heat, o);
    if (is_telling(c, p, lane->begun)) {
        note_crests(c, p, b, o);
        keep_lines(c, p, b);
    }
    if (is_rough(c, p, lane->begun, lane->end))
        forget_slopes(o);
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
    lane->course.still = lane->course.lines = force_lines_of(&rig->balance);
    unit_pieces_of(&lane->course.still, &lane->course.pieces);
    task->status = BRAKE_OK;
    if (!(rig_in_range(rig) && task_in_range(task->application, task->until) &&
          state_in_range(&lane->braking)))
        task->status = BRAKE_E_RANGE;
    for (int i = 0; i < BRAKE_AXLES && task->status == BRAKE_OK; i++) {
        task->status = brake_gain_prepare(&rig->law[i], &lane->course.law[i]);
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
