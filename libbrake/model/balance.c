/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/balance.h. */
#include "brake/balance.h"

#include <math.h>
#include <stddef.h>

#include "balance_lines.h"

double brake_effective_mass(const struct brake_balance *balance)
{
    return force_lines_of(balance).equivalent;
}

struct brake_body brake_turning_body(const struct brake_balance *balance)
{
    struct brake_body body = balance->body;
    for (int i = 0; i < BRAKE_AXLES; i++)
        body.height += balance->axle[i].inertia / (balance->axle[i].radius * body.mass);
    return body;
}

double brake_axle_torque(const struct brake_balance *balance, enum brake_axle axle, double pressure)
{
    const struct brake_axle_brakes *brakes = &balance->axle[axle];
    if (balance->regulated) {
        const struct force_lines whole = force_lines_of(balance);
        return axle_torque(&whole, (int)axle, pressure);
    }
    struct force_lines lines = {.valve = balance->valve, .hold = balance->hold};
    lines.axle[axle].gain = brakes->gain;
    lines.axle[axle].threshold = brakes->threshold;
    lines.axle[axle].held = brakes->held;
    return brakes_torque(&lines, (int)axle, pressure);
}

static void fill_loads(const struct force_lines *lines, struct brake_balance_state *at)
{
    at->load[BRAKE_FRONT] = front_load(lines, at->deceleration);
    at->load[BRAKE_REAR] = lines->weight - at->load[BRAKE_FRONT];
}

/* Adhesion used where the axles ask this much of the road and their loads are known. */
static void fill_used(const struct force_lines *lines, const double asked[BRAKE_AXLES],
                      struct brake_balance_state *at)
{
    for (int i = 0; i < BRAKE_AXLES; i++)
        at->used[i] = adhesion_used(lines, asked[i], lines->axle[i].wheels * at->load[i]);
}

static struct brake_balance_state point_at(const struct force_lines *lines, double pressure)
{
    struct brake_balance_state at;
    double asked[BRAKE_AXLES];
    at.deceleration = free_deceleration(lines, pressure);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        at.force[i] = tyre_force(lines, i, pressure, at.deceleration);
        asked[i] = force_asked(lines, i, pressure, at.deceleration);
    }
    fill_loads(lines, &at);
    fill_used(lines, asked, &at);
    if (lines->locked)
        at.used[BRAKE_FRONT] = at.used[BRAKE_REAR] =
            adhesion_used(lines, both_asked(lines, pressure, at.deceleration),
                          braked_load(lines, at.load[BRAKE_FRONT]));
    return at;
}

struct brake_balance_state brake_balance_at(const struct brake_balance *balance, double pressure)
{
    const struct force_lines lines = force_lines_of(balance);
    return point_at(&lines, pressure);
}

/* Ends of the pieces, and the deceleration at each. */
static void fill_ends(const struct force_lines *lines, double end[PIECES + 1],
                      double at[PIECES + 1])
{
    piece_ends(lines, end);
    for (int i = 0; i <= PIECES; i++)
        at[i] = free_deceleration(lines, end[i]);
}

static const double NEVER = 1e12; /* [Pa] */

/* What is above 0 from a pressure on. */
typedef double past_what(const struct force_lines *lines, double pressure, double what);

/* Where it turns from below 0: by the straight line between both ends of what is left, one end's
 * value halved when the other moves twice (the Illinois method), until that moves no more. */
static double turn_between(const struct force_lines *lines, past_what *past, double what,
                           const double between[2])
{
    double at[2] = {between[0], between[1]};
    double value[2] = {past(lines, at[0], what), past(lines, at[1], what)};
    double last = at[1];
    int side = -1;
    for (int i = 0; i < 200; i++) {
        const double next = at[0] - value[0] * (at[1] - at[0]) / (value[1] - value[0]);
        if (!(fabs(next - last) > 1e-15 * at[1]))
            return next;
        const double there = past(lines, next, what);
        const int end = there < 0.0 ? 0 : 1;
        value[1 - end] *= side == end ? 0.5 : 1.0;
        at[end] = last = next;
        value[end] = there;
        side = end;
    }
    return last;
}

/* On the first piece that ends above 0, else beyond the last; infinite when there is none. */
static double pressure_where(const struct force_lines *lines, past_what *past, double what)
{
    double end[PIECES + 1];
    double low = 0.0;
    piece_ends(lines, end);
    if (isnan(past(lines, end[PIECES], what)))
        return BRAKE_NAN;
    if (past(lines, low, what) >= 0.0)
        return low;
    for (int i = 1; i <= PIECES; i++) {
        if (end[i] > low && past(lines, end[i], what) >= 0.0)
            return turn_between(lines, past, what, (const double[]){low, end[i]});
        low = end[i];
    }
    while (past(lines, 2.0 * low, what) < 0.0) {
        low *= 2.0;
        if (low > NEVER)
            return BRAKE_INFINITY;
    }
    return turn_between(lines, past, what, (const double[]){low, 2.0 * low});
}

static double past_deceleration(const struct force_lines *lines, double pressure, double what)
{
    return free_deceleration(lines, pressure) - what;
}

/* The front's, as the rear uses no more. */
static double past_lock(const struct force_lines *lines, double pressure, double adhesion)
{
    const double a = free_deceleration(lines, pressure);
    return force_asked(lines, BRAKE_FRONT, pressure, a) -
           adhesion_left(lines, adhesion) * lines->axle[BRAKE_FRONT].wheels * front_load(lines, a);
}

static struct brake_lock regulated_lock(const struct force_lines *lines, double adhesion)
{
    struct brake_lock lock = {.pressure = pressure_where(lines, past_lock, adhesion),
                              .deceleration = BRAKE_INFINITY,
                              .axle = BRAKE_FRONT};
    const bool locks = lock.pressure < BRAKE_INFINITY;
    if (!locks || free_deceleration(lines, lock.pressure) > lift_off(lines)) {
        const double lift = pressure_where(lines, past_deceleration, lift_off(lines));
        lock.axle = lift < lock.pressure ? BRAKE_REAR : BRAKE_FRONT;
        lock.pressure = least_of(lock.pressure, lift);
    }
    if (lock.pressure != BRAKE_INFINITY)
        lock.deceleration = free_deceleration(lines, lock.pressure);
    return lock;
}

double brake_lines_pressure(const struct force_lines *lines, double deceleration)
{
    double end[PIECES + 1];
    double at[PIECES + 1];
    if (lines->regulated)
        return pressure_where(lines, past_deceleration, deceleration);
    fill_ends(lines, end, at);
    return pressure_of(end, at, deceleration);
}

double brake_balance_pressure(const struct brake_balance *balance, double deceleration)
{
    const struct force_lines lines = force_lines_of(balance);
    return brake_lines_pressure(&lines, deceleration);
}

bool brake_balance_points(const struct brake_balance *balance, const double *deceleration,
                          int count, struct brake_balance_state *at)
{
    const struct force_lines lines = force_lines_of(balance);
    double end[PIECES + 1];
    double given[PIECES + 1];
    fill_ends(&lines, end, given);
    for (int i = 0; i < count; i++) {
        const double pressure = lines.regulated ? brake_lines_pressure(&lines, deceleration[i])
                                                : pressure_of(end, given, deceleration[i]);
        if (isinf(pressure))
            return false;
        at[i] = point_at(&lines, pressure);
    }
    return true;
}

static void find_locks(const struct force_lines *lines, const double *adhesion, int count,
                       struct brake_lock *lock)
{
    struct pieces pieces;
    for (int i = 0; i < count && lines->regulated; i++)
        lock[i] = regulated_lock(lines, adhesion[i]);
    if (lines->regulated)
        return;
    take_pieces(lines, &pieces);
    const double lift = lift_pressure(lines, &pieces);
    for (int i = 0; i < count; i++)
        lock[i] = lock_of(lines, &pieces, lift, adhesion[i]);
}

void brake_balance_locks(const struct brake_balance *balance, const double *adhesion, int count,
                         struct brake_lock *lock)
{
    const struct force_lines lines = force_lines_of(balance);
    find_locks(&lines, adhesion, count, lock);
}

struct brake_lock brake_lines_lock(const struct force_lines *lines, double adhesion)
{
    struct brake_lock lock;
    find_locks(lines, &adhesion, 1, &lock);
    return lock;
}

struct brake_lock brake_balance_lock(const struct brake_balance *balance, double adhesion)
{
    const struct force_lines lines = force_lines_of(balance);
    return brake_lines_lock(&lines, adhesion);
}

/* F_2 w_1 N_1 - F_1 w_2 N_2: above 0 where the rear uses more; quadratic in p on a piece. */
static double rear_lead(const struct force_lines *lines, double pressure)
{
    const double a = free_deceleration(lines, pressure);
    const double front = front_load(lines, a);
    return force_asked(lines, BRAKE_REAR, pressure, a) * lines->axle[BRAKE_FRONT].wheels * front -
           force_asked(lines, BRAKE_FRONT, pressure, a) * lines->axle[BRAKE_REAR].wheels *
               (lines->weight - front);
}

/* Where a quadratic given at three points of equal spacing rises above 0, from x0 on; infinite when
 * it does not. Of its roots only that of rising slope counts: at p = 0 both forces are 0 and so is
 * the quadratic, whichever axle leads after that. */
static double quadratic_rise(double x0, double step, const double y[3])
{
    const double a = (y[2] - 2.0 * y[1] + y[0]) / 2.0;
    const double b = (4.0 * y[1] - 3.0 * y[0] - y[2]) / 2.0;
    if (y[0] > 0.0)
        return x0;
    if (b <= 0.0 && a <= 0.0)
        return BRAKE_INFINITY;
    const double root = sqrt(b * b - 4.0 * a * y[0]);
    return x0 + step * (b > 0.0 ? -2.0 * y[0] / (b + root) : (root - b) / (2.0 * a));
}

double brake_balance_rear_first(const struct brake_balance *balance, double from)
{
    const struct force_lines lines = force_lines_of(balance);
    double end[PIECES + 1];
    double rise = BRAKE_INFINITY;
    const double begin = brake_lines_pressure(&lines, from);
    if (lines.locked || lines.regulated || lines.axle[BRAKE_REAR].gain <= 0.0 || isinf(begin))
        return BRAKE_INFINITY;
    piece_ends(&lines, end);
    for (int i = 0; i < PIECES; i++) {
        const double low = most_of(end[i], begin);
        const double high = i == PIECES - 1 ? beyond(low) : end[i + 1];
        if (high <= low)
            continue;
        const double step = (high - low) / 2.0;
        const double lead[3] = {rear_lead(&lines, low), rear_lead(&lines, low + step),
                                rear_lead(&lines, high)};
        rise = quadratic_rise(low, step, lead);
        if (rise <= high)
            break;
    }
    /* A rear without brake force leads only where it is off the road; where torque hardly rises any
     * more, at a pressure that there is not. */
    if (rise > NEVER || point_at(&lines, rise).load[BRAKE_REAR] <= 0.0)
        return BRAKE_INFINITY;
    return free_deceleration(&lines, rise);
}

/* How much of an axle the anti-lock keeps at the tyres' share of adhesion: nothing, the wheel whose
 * circuit goes on, or all that is braked. */
enum kept { NOTHING_KEPT, STRONG_KEPT, ALL_KEPT, KINDS_OF_KEPT };

/* The axle's part of the force that slows the vehicle but for its inertia, with the strong wheel
 * kept: the other one, of half the axle, by its torque. */
static double weak_torque(const struct force_lines *lines, int axle, double pressure)
{
    return open_torque(lines, axle, pressure) -
           0.5 * (even_torque(lines, axle, pressure) - lines->axle[axle].drive);
}

/* Deceleration with some wheels kept at their share of adhesion, the others by their torque:
 * sum of F_i + f m g = m a, F_i = T_i/r_i - J_i a or c_i N_i(a) less the turning of the wheels that
 * are not braked, c_i = (k - f) w_i, N_i = n_i + d_i a. Electronic distribution would keep the rear
 * to what is kept in front, which is done anyway.
 * Infinite where a kept axle gains load faster than the deceleration uses it. */
static double saturated(const struct force_lines *lines, double pressure, double adhesion,
                        const enum kept kept[BRAKE_AXLES])
{
    static const double part[KINDS_OF_KEPT] = {0.0, 0.5, 1.0};
    const double load[BRAKE_AXLES] = {lines->front, lines->weight - lines->front};
    const double transfer[BRAKE_AXLES] = {lines->shift, -lines->shift};
    double force = lines->resistance;
    double mass = lines->equivalent;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const double per_radius = lines->axle[i].per_radius;
        const double wheels = lines->axle[i].wheels * part[kept[i]];
        force += adhesion_left(lines, adhesion) * wheels * load[i];
        mass -= adhesion_left(lines, adhesion) * wheels * transfer[i];
        mass -= wheels * lines->axle[i].inertia * per_radius * per_radius;
        if (kept[i] == NOTHING_KEPT)
            force += open_torque(lines, i, pressure) * per_radius;
        else if (kept[i] == STRONG_KEPT)
            force += weak_torque(lines, i, pressure) * per_radius;
    }
    return mass <= 0.0 ? BRAKE_INFINITY : force / mass;
}

/* Each wheel gives the lesser of what its torque and what its share of adhesion allow. The sum of
 * lesser lines is the least of all their sums, so its root is the least of their roots. */
static double with_antilock(const struct force_lines *lines, double pressure, double adhesion)
{
    double least = least_of(lift_off(lines), free_deceleration(lines, pressure));
    for (int i = 1; i < KINDS_OF_KEPT * KINDS_OF_KEPT; i++) {
        const enum kept kept[BRAKE_AXLES] = {(enum kept)(i % KINDS_OF_KEPT),
                                             (enum kept)(i / KINDS_OF_KEPT)};
        bool sensible = true;
        for (int j = 0; j < BRAKE_AXLES; j++)
            sensible = sensible && (kept[j] != STRONG_KEPT || wheels_differ(lines, j));
        if (sensible)
            least = least_of(least, saturated(lines, pressure, adhesion, kept));
    }
    return least;
}

/* Force of an axle that the anti-lock watches, and what its strong wheel asks, as if both did. */
static double kept_force(const struct force_lines *lines, int axle, double pressure,
                         double deceleration, double grip, double *asked)
{
    const double force = tyre_force(lines, axle, pressure, deceleration);
    const double strong = force_asked(lines, axle, pressure, deceleration);
    const double turning =
        with_free_wheels(lines, axle, 0.0, lines->axle[axle].wheels, deceleration);
    *asked = least_of(strong, grip);
    return wheels_differ(lines, axle)
               ? 0.5 * (least_of(strong, grip) + least_of(2.0 * force - strong, grip))
               : least_of(strong, grip) - turning;
}

struct brake_balance_state brake_lines_kept(const struct force_lines *lines, double pressure,
                                            double adhesion, double antilock)
{
    struct force_lines eased = *lines;
    const double kept = antilock <= 0.0 ? adhesion : antilock * adhesion;
    struct brake_balance_state at;
    double asked[BRAKE_AXLES];
    if (antilock <= 0.0 || eased.locked)
        return point_at(&eased, least_of(pressure, brake_lines_lock(&eased, kept).pressure));
    at.deceleration = with_antilock(&eased, pressure, kept);
    eased = let_go(eased, pressure, at.deceleration);
    fill_loads(&eased, &at);
    for (int i = 0; i < BRAKE_AXLES; i++)
        at.force[i] =
            kept_force(&eased, i, pressure, at.deceleration,
                       adhesion_left(&eased, kept) * eased.axle[i].wheels * at.load[i], &asked[i]);
    /* The front could give more, but the rear would leave the road. */
    if (at.deceleration >= lift_off(&eased)) {
        at.force[BRAKE_FRONT] =
            eased.mass * at.deceleration - at.force[BRAKE_REAR] - eased.resistance;
        asked[BRAKE_FRONT] = at.force[BRAKE_FRONT];
    }
    fill_used(&eased, asked, &at);
    return at;
}

struct brake_balance_state brake_balance_kept(const struct brake_balance *balance, double pressure,
                                              double adhesion, double antilock)
{
    const struct force_lines lines = force_lines_of(balance);
    return brake_lines_kept(&lines, pressure, adhesion, antilock);
}

double brake_balance_deceleration(const struct brake_balance *balance, double pressure,
                                  double adhesion, double antilock)
{
    return brake_balance_kept(balance, pressure, adhesion, antilock).deceleration;
}

double brake_balance_sliding(const struct brake_balance *balance, double pressure, double adhesion,
                             double sliding)
{
    struct force_lines lines = force_lines_of(balance);
    const struct brake_lock lock = brake_balance_lock(balance, adhesion);
    const int other = lock.axle == BRAKE_FRONT ? BRAKE_REAR : BRAKE_FRONT;
    enum kept locked[BRAKE_AXLES] = {ALL_KEPT, ALL_KEPT};
    if (!(pressure > lock.pressure))
        return free_deceleration(&lines, pressure);
    lines.regulated = false; /* a front that slides is behind by more than any rear */
    locked[other] = lines.locked ? ALL_KEPT : NOTHING_KEPT;
    double deceleration = saturated(&lines, pressure, sliding * adhesion, locked);
    const double front = front_load(&lines, deceleration);
    const double load = other == BRAKE_FRONT ? front : lines.weight - front;
    if (!lines.locked && force_asked(&lines, other, pressure, deceleration) >
                             adhesion_left(&lines, adhesion) * lines.axle[other].wheels * load) {
        locked[other] = ALL_KEPT;
        deceleration = saturated(&lines, pressure, sliding * adhesion, locked);
    }
    return least_of(deceleration, lift_off(&lines));
}

double brake_ideal_share(struct brake_body body, double wheelbase, double ratio)
{
    return ideal_share(body.behind, body.height, wheelbase, ratio);
}

double brake_lock_ratio(struct brake_body body, double wheelbase, double share, double rolling,
                        double adhesion, enum brake_axle axle)
{
    const double shift = adhesion * body.height / wheelbase;
    if (axle == BRAKE_FRONT && share <= shift)
        return BRAKE_INFINITY;
    if (axle == BRAKE_FRONT)
        return (adhesion * (wheelbase - body.behind) / wheelbase + share * rolling) /
               (share - shift);
    const double rear = 1.0 - share;
    return (adhesion * body.behind / wheelbase + rear * rolling) / (rear + shift);
}

double brake_steering_pull(double force, double difference, double scrub)
{
    return difference * force / (2.0 - difference) * scrub;
}
