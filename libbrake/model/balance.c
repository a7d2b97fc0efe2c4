/* Equations and sources: brake/balance.h. */
#include "brake/balance.h"

#include <math.h>
#include <stddef.h>

#include "extremes.h"

double brake_effective_mass(const struct brake_balance *balance)
{
    double mass = balance->body.mass;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_axle_brakes *axle = &balance->axle[i];
        mass += axle->inertia / (axle->radius * axle->radius);
    }
    return mass;
}

double brake_axle_torque(const struct brake_balance *balance, enum brake_axle axle, double pressure)
{
    const struct brake_axle_brakes *brakes = &balance->axle[axle];
    if (axle == BRAKE_REAR)
        pressure = brake_valve_pressure(balance->valve, pressure);
    return brakes->gain * most_of(0.0, pressure - brakes->threshold);
}

/* Weight square to the road. The level needs no root: this is asked often. */
static double weight(const struct brake_balance *balance)
{
    if (balance->grade == 0.0)
        return balance->body.mass * BRAKE_GRAVITY;
    return balance->body.mass * BRAKE_GRAVITY / sqrt(1.0 + balance->grade * balance->grade);
}

/* What slows the vehicle without rolling resistance and brakes: its weight along the road, and the
 * air. */
static double aside(const struct brake_balance *balance)
{
    return weight(balance) * balance->grade + balance->drag;
}

/* The inertia that the brakes do not cause moves no load: slope and air act where it does. */
static double front_load(const struct brake_balance *balance, double deceleration)
{
    const struct brake_body *body = &balance->body;
    const double ahead = weight(balance) * (balance->wheelbase - body->behind);
    const double shift = (body->mass * deceleration - aside(balance)) * body->height;
    return (ahead + shift) / balance->wheelbase;
}

/* mass: brake_effective_mass, which no pressure changes. */
static double free_deceleration(const struct brake_balance *balance, double mass, double pressure)
{
    double force = balance->rolling * weight(balance) + aside(balance);
    for (int i = 0; i < BRAKE_AXLES; i++)
        force += brake_axle_torque(balance, (enum brake_axle)i, pressure) / balance->axle[i].radius;
    return force / mass;
}

static double tyre_force(const struct brake_balance *balance, enum brake_axle axle, double pressure,
                         double deceleration)
{
    const double radius = balance->axle[axle].radius;
    return (brake_axle_torque(balance, axle, pressure) -
            balance->axle[axle].inertia * deceleration / radius) /
           radius;
}

static double adhesion_used(double force, double load)
{
    if (load <= 0.0)
        return force > 0.0 ? BRAKE_INFINITY : 0.0;
    return force / load;
}

/* Load on the wheels that a locked drive brakes. An axle with one wheel braked counts half: its open
 * differential lets the other wheel run. One that no circuit brakes is held by the drive whole. */
static double braked_load(const struct brake_balance *balance, double front)
{
    const double load[BRAKE_AXLES] = {front, weight(balance) - front};
    double sum = 0.0;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const double wheels = balance->axle[i].wheels;
        sum += (wheels > 0.0 ? wheels : 1.0) * load[i];
    }
    return sum;
}

/* Loads and adhesion used of a deceleration whose forces are known. */
static void fill_loads(const struct brake_balance *balance, struct brake_point_of_balance *at)
{
    at->load[BRAKE_FRONT] = front_load(balance, at->deceleration);
    at->load[BRAKE_REAR] = weight(balance) - at->load[BRAKE_FRONT];
    for (int i = 0; i < BRAKE_AXLES; i++)
        at->used[i] = adhesion_used(at->force[i], balance->axle[i].wheels * at->load[i]);
    if (balance->locked) {
        const double both = adhesion_used(at->force[BRAKE_FRONT] + at->force[BRAKE_REAR],
                                          braked_load(balance, at->load[BRAKE_FRONT]));
        at->used[BRAKE_FRONT] = both;
        at->used[BRAKE_REAR] = both;
    }
}

struct brake_point_of_balance brake_balance_at(const struct brake_balance *balance, double pressure)
{
    struct brake_point_of_balance at;
    at.deceleration = free_deceleration(balance, brake_effective_mass(balance), pressure);
    for (int i = 0; i < BRAKE_AXLES; i++)
        at.force[i] = tyre_force(balance, (enum brake_axle)i, pressure, at.deceleration);
    fill_loads(balance, &at);
    return at;
}

/* Pressures at which a straight piece of the force lines ends, in rising order: the two thresholds
 * and the knee of the valve, then one point beyond on the last, endless piece. */
enum { PIECES = 4 };

static double front_pressure_of_rear(const struct brake_balance *balance)
{
    const struct brake_valve valve = balance->valve;
    const double threshold = balance->axle[BRAKE_REAR].threshold;
    if (threshold <= valve.knee)
        return threshold;
    return valve.slope > 0.0 ? valve.knee + (threshold - valve.knee) / valve.slope : BRAKE_INFINITY;
}

static void sort_pair(double *low, double *high)
{
    const double least = fmin(*low, *high);
    *high = fmax(*low, *high);
    *low = least;
}

/* Pressure that is certainly on the last piece. */
static double beyond(double pressure)
{
    return 2.0 * pressure + 1e5;
}

static void piece_ends(const struct brake_balance *balance, double end[PIECES + 1])
{
    end[0] = 0.0;
    end[1] = balance->axle[BRAKE_FRONT].threshold;
    end[2] = front_pressure_of_rear(balance);
    end[3] = balance->valve.knee;
    sort_pair(&end[1], &end[2]);
    sort_pair(&end[2], &end[3]);
    sort_pair(&end[1], &end[2]);
    double last = 0.0;
    for (int i = 1; i < PIECES; i++) {
        if (isinf(end[i]))
            end[i] = last;
        last = end[i];
    }
    end[PIECES] = beyond(last);
}

/* Root of the line through (x0, y0) and (x1, y1); infinite when there is none ahead of x0. */
static double line_root(double x0, double y0, double x1, double y1)
{
    const double rise = y1 - y0;
    if (y0 >= 0.0)
        return x0;
    return rise <= 0.0 || isinf(y0) ? BRAKE_INFINITY : x0 - y0 * (x1 - x0) / rise;
}

/* Pressure of a deceleration, from those at the ends of the pieces. */
static double pressure_of(const double end[PIECES + 1], const double at[PIECES + 1],
                          double deceleration)
{
    double root = BRAKE_INFINITY;
    for (int i = 0; i < PIECES; i++) {
        root = line_root(end[i], at[i] - deceleration, end[i + 1], at[i + 1] - deceleration);
        if (root <= end[i + 1])
            break;
    }
    return root;
}

double brake_balance_pressure(const struct brake_balance *balance, double deceleration)
{
    const double mass = brake_effective_mass(balance);
    double end[PIECES + 1];
    double at[PIECES + 1];
    piece_ends(balance, end);
    for (int i = 0; i <= PIECES; i++)
        at[i] = free_deceleration(balance, mass, end[i]);
    return pressure_of(end, at, deceleration);
}

/* The ends of the straight pieces, and there what each axle asks of the road and what it carries on
 * braked wheels. With the drive locked both axles ask and carry as one. */
struct pieces {
    double end[PIECES + 1];
    double deceleration[PIECES + 1];
    double asked[BRAKE_AXLES][PIECES + 1];
    double grip[BRAKE_AXLES][PIECES + 1];
};

static void take_piece(const struct brake_balance *balance, double mass, struct pieces *pieces,
                       int i)
{
    const double pressure = pieces->end[i];
    const double a = free_deceleration(balance, mass, pressure);
    pieces->deceleration[i] = a;
    const double front = front_load(balance, a);
    const double load[BRAKE_AXLES] = {front, weight(balance) - front};
    double both = 0.0;
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        const double force = tyre_force(balance, (enum brake_axle)axle, pressure, a);
        pieces->asked[axle][i] = force;
        pieces->grip[axle][i] = balance->axle[axle].wheels * load[axle];
        both += force;
    }
    for (int axle = 0; axle < BRAKE_AXLES && balance->locked; axle++) {
        pieces->asked[axle][i] = both;
        pieces->grip[axle][i] = braked_load(balance, front);
    }
}

/* Lock of one axle, linear in pressure on each piece. An axle that no circuit brakes cannot lock. */
static double axle_lock(const struct brake_balance *balance, const struct pieces *pieces,
                        enum brake_axle axle, double adhesion)
{
    const double *asked = pieces->asked[axle];
    const double *grip = pieces->grip[axle];
    double root = BRAKE_INFINITY;
    if (balance->axle[axle].gain <= 0.0)
        return BRAKE_INFINITY;
    for (int i = 0; i < PIECES; i++) {
        root = line_root(pieces->end[i], asked[i] - adhesion * grip[i], pieces->end[i + 1],
                         asked[i + 1] - adhesion * grip[i + 1]);
        if (root <= pieces->end[i + 1])
            break;
    }
    return root;
}

/* Deceleration at which the rear axle leaves the road. */
static double lift_off(const struct brake_balance *balance)
{
    const struct brake_body *body = &balance->body;
    return (weight(balance) * body->behind / body->height + aside(balance)) / body->mass;
}

void brake_balance_locks(const struct brake_balance *balance, const double *adhesion, int count,
                         struct brake_lock *lock)
{
    const double mass = brake_effective_mass(balance);
    struct pieces pieces = {0};
    piece_ends(balance, pieces.end);
    for (int i = 0; i <= PIECES; i++)
        take_piece(balance, mass, &pieces, i);
    const double lift = pressure_of(pieces.end, pieces.deceleration, lift_off(balance));
    for (int i = 0; i < count; i++) {
        const double front = axle_lock(balance, &pieces, BRAKE_FRONT, adhesion[i]);
        const double rear = least_of(axle_lock(balance, &pieces, BRAKE_REAR, adhesion[i]), lift);
        const double pressure = least_of(front, rear);
        lock[i].pressure = pressure;
        lock[i].axle = rear < front ? BRAKE_REAR : BRAKE_FRONT;
        lock[i].deceleration =
            isinf(pressure) ? BRAKE_INFINITY : free_deceleration(balance, mass, pressure);
    }
}

struct brake_lock brake_balance_lock(const struct brake_balance *balance, double adhesion)
{
    struct brake_lock lock;
    brake_balance_locks(balance, &adhesion, 1, &lock);
    return lock;
}

/* F_2 w_1 N_1 - F_1 w_2 N_2: above 0 where the rear uses more; quadratic in p on a piece. */
static double rear_lead(const struct brake_balance *balance, double pressure)
{
    const struct brake_point_of_balance at = brake_balance_at(balance, pressure);
    const struct brake_axle_brakes *axle = balance->axle;
    return at.force[BRAKE_REAR] * axle[BRAKE_FRONT].wheels * at.load[BRAKE_FRONT] -
           at.force[BRAKE_FRONT] * axle[BRAKE_REAR].wheels * at.load[BRAKE_REAR];
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
    double end[PIECES + 1];
    double rise = BRAKE_INFINITY;
    const double begin = brake_balance_pressure(balance, from);
    if (balance->locked || balance->axle[BRAKE_REAR].gain <= 0.0 || isinf(begin))
        return BRAKE_INFINITY;
    piece_ends(balance, end);
    for (int i = 0; i < PIECES; i++) {
        const double low = most_of(end[i], begin);
        const double high = i == PIECES - 1 ? beyond(low) : end[i + 1];
        if (high <= low)
            continue;
        const double step = (high - low) / 2.0;
        const double lead[3] = {rear_lead(balance, low), rear_lead(balance, low + step),
                                rear_lead(balance, high)};
        rise = quadratic_rise(low, step, lead);
        if (rise <= high)
            break;
    }
    /* A rear without brake force leads only where it is off the road. */
    if (isinf(rise) || brake_balance_at(balance, rise).load[BRAKE_REAR] <= 0.0)
        return BRAKE_INFINITY;
    return free_deceleration(balance, brake_effective_mass(balance), rise);
}

/* Deceleration with given axles held at their share of adhesion, the others by their torque:
 * sum of F_i + f m g = m a, F_i = T_i/r_i - J_i a or c_i N_i(a), N_i = n_i + d_i a.
 * Infinite where a held axle gains load faster than the deceleration uses it. */
static double saturated(const struct brake_balance *balance, double pressure, double kept,
                        const bool held[BRAKE_AXLES])
{
    const double static_front = front_load(balance, 0.0);
    const double shift = balance->body.mass * balance->body.height / balance->wheelbase;
    const double load[BRAKE_AXLES] = {static_front, weight(balance) - static_front};
    const double transfer[BRAKE_AXLES] = {shift, -shift};
    double force = balance->rolling * weight(balance) + aside(balance);
    double mass = balance->body.mass;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_axle_brakes *axle = &balance->axle[i];
        if (held[i]) {
            force += kept * axle->wheels * load[i];
            mass -= kept * axle->wheels * transfer[i];
        } else {
            force += brake_axle_torque(balance, (enum brake_axle)i, pressure) / axle->radius;
            mass += axle->inertia / (axle->radius * axle->radius);
        }
    }
    return mass <= 0.0 ? BRAKE_INFINITY : force / mass;
}

/* Each axle gives the lesser of what its torque and what its share of adhesion allow. The sum of
 * lesser lines is the least of the four sums, so its root is the least of their roots. */
static double with_antilock(const struct brake_balance *balance, double pressure, double kept)
{
    static const bool held[][BRAKE_AXLES] = {
        {false, false}, {true, false}, {false, true}, {true, true}};
    double least = lift_off(balance);
    for (size_t i = 0; i < sizeof held / sizeof held[0]; i++)
        least = least_of(least, saturated(balance, pressure, kept, held[i]));
    return least;
}

struct brake_point_of_balance brake_balance_kept(const struct brake_balance *balance,
                                                 double pressure, double adhesion, double antilock)
{
    const double kept = antilock <= 0.0 ? adhesion : antilock * adhesion;
    struct brake_point_of_balance at;
    if (antilock <= 0.0 || balance->locked)
        return brake_balance_at(balance,
                                least_of(pressure, brake_balance_lock(balance, kept).pressure));
    at.deceleration = with_antilock(balance, pressure, kept);
    for (int i = 0; i < BRAKE_AXLES; i++)
        at.force[i] = tyre_force(balance, (enum brake_axle)i, pressure, at.deceleration);
    fill_loads(balance, &at);
    for (int i = 0; i < BRAKE_AXLES; i++)
        at.force[i] = least_of(at.force[i], kept * balance->axle[i].wheels * at.load[i]);
    /* The front could give more, but the rear would leave the road. */
    if (at.deceleration >= lift_off(balance))
        at.force[BRAKE_FRONT] = balance->body.mass * at.deceleration - at.force[BRAKE_REAR] -
                                balance->rolling * weight(balance) - aside(balance);
    fill_loads(balance, &at);
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
