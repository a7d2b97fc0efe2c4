/* Equations and sources: brake/balance.h. */
#include "brake/balance.h"

#include <math.h>
#include <stddef.h>

#include "force_lines.h"

double brake_effective_mass(const struct brake_balance *balance)
{
    return force_lines_of(balance).equivalent;
}

double brake_axle_torque(const struct brake_balance *balance, enum brake_axle axle, double pressure)
{
    const struct brake_axle_brakes *brakes = &balance->axle[axle];
    if (axle == BRAKE_REAR)
        pressure = valve_pressure(balance->valve, pressure);
    return brake_torque(brakes->gain, brakes->threshold, pressure);
}

static double adhesion_used(double force, double load)
{
    if (load <= 0.0)
        return force > 0.0 ? BRAKE_INFINITY : 0.0;
    return force / load;
}

/* Loads and adhesion used of a deceleration whose forces are known. */
static void fill_loads(const struct force_lines *lines, struct brake_balance_state *at)
{
    at->load[BRAKE_FRONT] = front_load(lines, at->deceleration);
    at->load[BRAKE_REAR] = lines->weight - at->load[BRAKE_FRONT];
    for (int i = 0; i < BRAKE_AXLES; i++)
        at->used[i] = adhesion_used(at->force[i], lines->axle[i].wheels * at->load[i]);
    if (lines->locked) {
        const double both = adhesion_used(at->force[BRAKE_FRONT] + at->force[BRAKE_REAR],
                                          braked_load(lines, at->load[BRAKE_FRONT]));
        at->used[BRAKE_FRONT] = both;
        at->used[BRAKE_REAR] = both;
    }
}

static struct brake_balance_state point_at(const struct force_lines *lines, double pressure)
{
    struct brake_balance_state at;
    at.deceleration = free_deceleration(lines, pressure);
    for (int i = 0; i < BRAKE_AXLES; i++)
        at.force[i] = tyre_force(lines, i, pressure, at.deceleration);
    fill_loads(lines, &at);
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

static double pressure_for(const struct force_lines *lines, double deceleration)
{
    double end[PIECES + 1];
    double at[PIECES + 1];
    fill_ends(lines, end, at);
    return pressure_of(end, at, deceleration);
}

double brake_balance_pressure(const struct brake_balance *balance, double deceleration)
{
    const struct force_lines lines = force_lines_of(balance);
    return pressure_for(&lines, deceleration);
}

bool brake_balance_points(const struct brake_balance *balance, const double *deceleration,
                          int count, struct brake_balance_state *at)
{
    const struct force_lines lines = force_lines_of(balance);
    double end[PIECES + 1];
    double given[PIECES + 1];
    fill_ends(&lines, end, given);
    for (int i = 0; i < count; i++) {
        const double pressure = pressure_of(end, given, deceleration[i]);
        if (isinf(pressure))
            return false;
        at[i] = point_at(&lines, pressure);
    }
    return true;
}

void brake_balance_locks(const struct brake_balance *balance, const double *adhesion, int count,
                         struct brake_lock *lock)
{
    const struct force_lines lines = force_lines_of(balance);
    struct pieces pieces;
    take_pieces(&lines, &pieces);
    const double lift = pressure_of(pieces.end, pieces.deceleration, lift_off(&lines));
    for (int i = 0; i < count; i++)
        lock[i] = lock_of(&lines, &pieces, lift, adhesion[i]);
}

struct brake_lock brake_balance_lock(const struct brake_balance *balance, double adhesion)
{
    struct brake_lock lock;
    brake_balance_locks(balance, &adhesion, 1, &lock);
    return lock;
}

/* F_2 w_1 N_1 - F_1 w_2 N_2: above 0 where the rear uses more; quadratic in p on a piece. */
static double rear_lead(const struct force_lines *lines, double pressure)
{
    const struct brake_balance_state at = point_at(lines, pressure);
    return at.force[BRAKE_REAR] * lines->axle[BRAKE_FRONT].wheels * at.load[BRAKE_FRONT] -
           at.force[BRAKE_FRONT] * lines->axle[BRAKE_REAR].wheels * at.load[BRAKE_REAR];
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
    const double begin = pressure_for(&lines, from);
    if (lines.locked || lines.axle[BRAKE_REAR].gain <= 0.0 || isinf(begin))
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
    /* A rear without brake force leads only where it is off the road. */
    if (isinf(rise) || point_at(&lines, rise).load[BRAKE_REAR] <= 0.0)
        return BRAKE_INFINITY;
    return free_deceleration(&lines, rise);
}

/* Deceleration with given axles held at their share of adhesion, the others by their torque:
 * sum of F_i + f m g = m a, F_i = T_i/r_i - J_i a or c_i N_i(a), N_i = n_i + d_i a.
 * Infinite where a held axle gains load faster than the deceleration uses it. */
static double saturated(const struct force_lines *lines, double pressure, double kept,
                        const bool held[BRAKE_AXLES])
{
    const double load[BRAKE_AXLES] = {lines->front, lines->weight - lines->front};
    const double transfer[BRAKE_AXLES] = {lines->shift, -lines->shift};
    double force = lines->resistance;
    double mass = lines->equivalent;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const double per_radius = lines->axle[i].per_radius;
        if (held[i]) {
            force += kept * lines->axle[i].wheels * load[i];
            mass -= kept * lines->axle[i].wheels * transfer[i];
            mass -= lines->axle[i].inertia * per_radius * per_radius;
        } else {
            force += axle_torque(lines, i, pressure) * per_radius;
        }
    }
    return mass <= 0.0 ? BRAKE_INFINITY : force / mass;
}

/* Each axle gives the lesser of what its torque and what its share of adhesion allow. The sum of
 * lesser lines is the least of the four sums, so its root is the least of their roots. */
static double with_antilock(const struct force_lines *lines, double pressure, double kept)
{
    static const bool held[][BRAKE_AXLES] = {{true, false}, {false, true}, {true, true}};
    double least = least_of(lift_off(lines), free_deceleration(lines, pressure));
    for (size_t i = 0; i < sizeof held / sizeof held[0]; i++)
        least = least_of(least, saturated(lines, pressure, kept, held[i]));
    return least;
}

struct brake_balance_state brake_balance_kept(const struct brake_balance *balance, double pressure,
                                              double adhesion, double antilock)
{
    const struct force_lines lines = force_lines_of(balance);
    const double kept = antilock <= 0.0 ? adhesion : antilock * adhesion;
    struct brake_balance_state at;
    if (antilock <= 0.0 || lines.locked)
        return point_at(&lines, least_of(pressure, brake_balance_lock(balance, kept).pressure));
    at.deceleration = with_antilock(&lines, pressure, kept);
    for (int i = 0; i < BRAKE_AXLES; i++)
        at.force[i] = tyre_force(&lines, i, pressure, at.deceleration);
    fill_loads(&lines, &at);
    for (int i = 0; i < BRAKE_AXLES; i++)
        at.force[i] = least_of(at.force[i], kept * lines.axle[i].wheels * at.load[i]);
    /* The front could give more, but the rear would leave the road. */
    if (at.deceleration >= lift_off(&lines))
        at.force[BRAKE_FRONT] =
            balance->body.mass * at.deceleration - at.force[BRAKE_REAR] - lines.resistance;
    fill_loads(&lines, &at);
    return at;
}

double brake_balance_deceleration(const struct brake_balance *balance, double pressure,
                                  double adhesion, double antilock)
{
    return brake_balance_kept(balance, pressure, adhesion, antilock).deceleration;
}

double brake_ideal_share(struct brake_body body, double wheelbase, double ratio)
{
    return (wheelbase - body.behind + ratio * body.height) / wheelbase;
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
