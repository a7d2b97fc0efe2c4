/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/braking.h. */
#include "course.h"

#include <math.h>

#include "extremes.h"

/* The lines at an instant: torque per pressure and drag of the air have moved. */
static void move_lines(struct course *c, const struct motion *m)
{
    for (int i = 0; i < BRAKE_AXLES; i++)
        c->lines.axle[i].gain = c->still.axle[i].gain * gain_after(c, i, m->time);
    put_drag(c->rig->balance.grade, c->rig->air_drag * m->speed * m->speed, &c->lines);
}

static double pressure_for(const struct course *c, double deceleration)
{
    const struct force_lines *lines = &c->lines;
    double at[PIECES + 1];
    if (lines->regulated)
        return brake_lines_pressure(lines, deceleration);
    unit_decelerations(lines, &c->pieces, at);
    return pressure_of(c->pieces.end, at, deceleration);
}

static struct brake_lock lock_at(const struct course *c, double adhesion)
{
    const struct force_lines *lines = &c->lines;
    struct pieces pieces;
    if (lines->regulated || lines->locked)
        return brake_lines_lock(lines, adhesion);
    take_unit_pieces(lines, &c->pieces, &pieces);
    return lock_of(lines, &pieces, lift_pressure(lines, &pieces), adhesion);
}

/* Adhesion that driver or anti-lock keep to. */
static double kept_adhesion(const struct brake_rig *rig)
{
    return rig->antilock > 0.0 ? rig->antilock * rig->adhesion : rig->adhesion;
}

/* The driver's foot: pedal force, and what it gives in output and pressure. */
static void press(const struct course *c, double time, double lock, struct instant *now)
{
    const struct brake_pedal *pedal = &c->rig->pedal;
    const struct brake_application *a = c->application;
    double wanted = a->force;
    if (a->manner == BRAKE_HOLDS_DECELERATION)
        wanted = pedal_force(pedal, pressure_for(c, a->deceleration));
    else if (a->manner == BRAKE_AT_INCIPIENT_LOCK)
        wanted = pedal_force(pedal, lock);
    now->pedal_force = least_of(1.0, c->share + c->rising * time) * least_of(wanted, a->force);
    const double rod = rod_force(pedal, now->pedal_force);
    now->output = booster_output(pedal->gain, pedal->assist, rod);
    if (c->lags)
        now->output = c->level + c->climb * time + c->rest * exp(-time / c->rig->booster_lag);
    const double pressure = now->output * pedal->master_efficiency / pedal->master_area;
    now->pressure = least_of(pressure, c->rig->pressure_most);
    now->past[AT_FORCE] = wanted - a->force;
    now->past[AT_MOST] = pressure - c->rig->pressure_most;
}

static void fill_pressure_corners(const struct course *c, struct instant *now)
{
    const struct force_lines *lines = &c->lines;
    const struct brake_pedal *pedal = &c->rig->pedal;
    now->past[AT_KNEE] =
        rod_force(pedal, now->pedal_force) - brake_booster_knee(pedal->gain, pedal->assist);
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
static void fill_limits(const struct course *c, const struct brake_balance_state *at,
                        const struct brake_lock *lock, struct instant *now)
{
    double past[BRAKE_AXLES] = {now->pressure - lock->pressure, -BRAKE_INFINITY};
    if (has_antilock(c)) {
        const struct force_lines eased = let_go(c->lines, now->pressure, at->deceleration);
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
static void fill_rates(const struct course *c, const struct brake_balance_state *at,
                       struct instant *now)
{
    const struct force_lines *lines = &c->lines;
    struct motion *rate = &now->rate;
    const double speed = rate->distance;
    rate->speed = -at->deceleration;
    rate->resisted = lines->resistance * speed;
    rate->effort = now->pedal_force;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const double per_radius = lines->axle[i].per_radius;
        const double inertia_torque =
            c->rig->balance.axle[i].inertia * per_radius * per_radius * at->deceleration;
        const double most = brakes_torque(lines, i, now->pressure) * per_radius;
        rate->work[i] = most_of(0.0, least_of(most, at->force[i] + inertia_torque)) * speed;
    }
}

/* Driver, or nothing, keeps the wheels from locking: what the vehicle does at a pressure. */
static void fill_state(const struct force_lines *lines, double pressure,
                       struct brake_balance_state *at)
{
    at->deceleration = free_deceleration(lines, pressure);
    for (int i = 0; i < BRAKE_AXLES; i++)
        at->force[i] = tyre_force(lines, i, pressure, at->deceleration);
}

/* Of a stop that goes on to rest the mean deceleration is taken between two of its speeds. */
double brake_course_past_speed(const struct brake_application *a, enum corner corner, double speed)
{
    const double share = corner == AT_80 ? 0.8 : 0.1;
    if (corner == AT_END)
        return a->to - speed;
    return a->to == 0.0 ? share * a->from - speed : -1.0;
}

bool brake_course_by_time(const struct course *c, enum corner corner)
{
    static const bool of_pressure[CORNERS] = {
        [AT_KNEE] = true,  [AT_HOLD] = true,  [AT_BOTH] = true, [AT_MOST] = true,
        [AT_VALVE] = true, [AT_FRONT] = true, [AT_REAR] = true};
    return of_pressure[corner] && c->application->manner == BRAKE_HOLDS_FORCE;
}

static void fill_corners(const struct course *c, double speed, struct instant *now)
{
    fill_pressure_corners(c, now);
    for (int i = 0; i < AT_80; i++)
        now->past[i] += BAND;
    for (int i = AT_80; i < CORNERS; i++)
        now->past[i] = brake_course_past_speed(c->application, (enum corner)i, speed);
}

void brake_course_look(struct course *c, const struct motion *m, enum sight sight,
                       struct instant *now)
{
    const struct brake_rig *rig = c->rig;
    const enum brake_manner manner = c->application->manner;
    struct brake_balance_state at = {.deceleration = 0.0};
    struct brake_lock lock = {.pressure = BRAKE_INFINITY, .axle = BRAKE_FRONT};
    const bool antilock = has_antilock(c);
    move_lines(c, m);
    if ((!antilock && (sight == WHOLE || c->limited)) || manner == BRAKE_AT_INCIPIENT_LOCK)
        lock = lock_at(c, kept_adhesion(rig));
    press(c, m->time, lock.pressure, now);
    if (antilock)
        at = brake_lines_kept(&c->lines, now->pressure, rig->adhesion, rig->antilock);
    else
        fill_state(&c->lines, least_of(now->pressure, lock.pressure), &at);
    now->rate.distance = m->speed;
    fill_rates(c, &at, now);
    if (sight == RATES)
        return;
    fill_limits(c, &at, &lock, now);
    fill_corners(c, m->speed, now);
}
