#include <math.h>
#include <stddef.h>

#include "brake/criteria.h"
#include "brake/parking.h"
#include "brake/stop.h"
#include "brake/tow.h"
#include "vehicle/system.h"

enum brake_dimension brake_measure_dimension(enum brake_measure measure)
{
    switch (measure) {
    case BRAKE_STOP_DISTANCE:
    case BRAKE_HOT_DISTANCE:
    case BRAKE_HOT_LENGTHENING:
        return BRAKE_LENGTH;
    case BRAKE_STOP_DECELERATION:
    case BRAKE_TOW_DECELERATION:
    case BRAKE_PARKING_DECELERATION:
    case BRAKE_HOT_DECELERATION:
        return BRAKE_ACCELERATION;
    default:
        return BRAKE_RATIO;
    }
}

bool brake_measure_at_most(enum brake_measure measure)
{
    return brake_measure_dimension(measure) == BRAKE_LENGTH || measure == BRAKE_REAR_CURVE ||
           measure == BRAKE_SIDE_DIFFERENCE || measure == BRAKE_PEDAL_TRAVEL ||
           measure == BRAKE_RECOVERY_MOST;
}

bool brake_measure_hot(enum brake_measure measure)
{
    return measure >= BRAKE_HOT_DISTANCE;
}

const char *brake_verdict_words(enum brake_verdict verdict)
{
    static const char *const words[] = {"meets", "falls short", "cannot say"};
    return words[verdict];
}

const char *brake_failure_words(enum brake_failure failure)
{
    static const char *const words[BRAKE_FAILURES] = {
        "",           "first circuit failed", "second circuit failed", "no assist", "least vacuum",
        "valve open", "valve shut",           "anti-lock failed"};
    return words[failure];
}

enum { KEPT = 4 /* answers to the last questions about one state: criteria share their forces */ };

/* Brakes of one vehicle in a load case and a state of failure, built when first asked for: many
 * criteria ask for the same. */
struct state {
    bool built;
    struct brake_system system;
    double force[KEPT];        /* NaN: not asked yet */
    double deceleration[KEPT]; /* at it */
    int oldest;
};

struct states {
    const struct brake_vehicle *vehicle;
    struct state of[BRAKE_LOADS][BRAKE_FAILURES];
};

static void start(struct states *s, const struct brake_vehicle *vehicle)
{
    s->vehicle = vehicle;
    for (int load = 0; load < BRAKE_LOADS; load++) {
        for (int failure = 0; failure < BRAKE_FAILURES; failure++) {
            struct state *state = &s->of[load][failure];
            state->built = false;
            state->oldest = 0;
            for (int i = 0; i < KEPT; i++)
                state->force[i] = BRAKE_NAN;
        }
    }
}

static const struct brake_system *system_of(struct states *s, enum brake_load load,
                                            enum brake_failure failure)
{
    struct state *intact = &s->of[load][BRAKE_INTACT];
    struct state *state = &s->of[load][failure];
    if (!intact->built)
        brake_system_build(s->vehicle, load, BRAKE_INTACT, &intact->system);
    intact->built = true;
    if (!state->built) {
        state->system = intact->system;
        brake_system_fail(s->vehicle, failure, &state->system);
    }
    state->built = true;
    return &state->system;
}

static double deceleration_of(struct states *s, enum brake_load load, enum brake_failure failure,
                              double force)
{
    struct state *state = &s->of[load][failure];
    for (int i = 0; i < KEPT; i++) {
        if (state->force[i] == force)
            return state->deceleration[i];
    }
    const int at = state->oldest;
    state->oldest = (at + 1) % KEPT;
    state->force[at] = force;
    state->deceleration[at] = brake_system_deceleration(system_of(s, load, failure), force);
    return state->deceleration[at];
}

/* ---- whether it applies --------------------------------------------------------------------- */

/* NULL when it applies; otherwise why not. */
static const char *not_for(const struct brake_vehicle *v, unsigned applies)
{
    const struct brake_general_lines *g = &v->general;
    const struct {
        unsigned bit;
        bool fits;
        const char *otherwise;
    } rules[] = {
        {BRAKE_TO_M1, g->category == BRAKE_M1, "for M1 vehicles"},
        {BRAKE_TO_N1, g->category == BRAKE_N1, "for N1 vehicles"},
        {BRAKE_TO_LIGHT, !(g->rated_mass > 3500.0), "for a rated mass up to 3,500 kg"},
        {BRAKE_TO_10000_LB, !(g->rated_mass > 4535.9237), "for a rated mass up to 10,000 lb"},
        {BRAKE_TO_CAR_FRAME, g->frame == BRAKE_CAR, "for the chassis of a car"},
        {BRAKE_TO_TRUCK_FRAME, g->frame == BRAKE_TRUCK, "for the chassis of a truck"},
        {BRAKE_TO_NEW, g->first_registered >= 2012.0, "for vehicles from 2012"},
        {BRAKE_TO_OLD, g->first_registered < 2012.0, "for vehicles before 2012"},
        {BRAKE_TO_ANTILOCK, g->antilock == BRAKE_FITTED, "for vehicles with anti-lock"},
        {BRAKE_TO_NO_ANTILOCK, g->antilock == BRAKE_NONE, "for vehicles without anti-lock"},
        {BRAKE_TO_BOOSTED, v->booster.booster == BRAKE_FITTED, "for vehicles with a booster"},
        {BRAKE_TO_SENSING_VALVE, v->valve.kind > BRAKE_VALVE_FIXED, "for a sensing valve"},
        {BRAKE_TO_TRAILER, v->trailer.mass > 0.0, "for vehicles with a trailer"},
        {BRAKE_TO_FAST, !(g->top_speed <= 125.0 / 3.6), "for a top speed above 125 km/h"},
    };
    for (size_t i = 0; i < sizeof rules / sizeof rules[0]; i++) {
        if ((applies & rules[i].bit) != 0 && !rules[i].fits)
            return rules[i].otherwise;
    }
    return NULL;
}

/* NULL when everything is there that the measure needs. */
static const char *lacks(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    const unsigned by_mass = BRAKE_TO_LIGHT | BRAKE_TO_10000_LB;
    if ((c->applies & by_mass) != 0 && isnan(v->general.rated_mass))
        return "vehicle.rated_mass is not given";
    if (c->speed_cap > 0.0 && isnan(v->general.top_speed))
        return "vehicle.top_speed is not given";
    if (c->failure[0] == BRAKE_LOW_VACUUM && isnan(v->booster.vacuum_low))
        return "booster.vacuum_low is not given";
    if (c->failure[0] == BRAKE_LOW_VACUUM && isnan(v->booster.vacuum))
        return "booster.vacuum is not given";
    if (c->measure == BRAKE_STOP_DISTANCE && !(c->lag > 0.0) &&
        (isnan(v->stop.dead_time) || isnan(v->stop.build_up)))
        return "stop.dead_time and stop.build_up are not given, and the clause allows no delay";
    if (c->measure >= BRAKE_PARKING_GRADE && c->measure <= BRAKE_PARKING_TOW_RATIO &&
        isnan(v->parking.torque))
        return "parking.torque, or what it is worked out from, is not given";
    if (c->measure == BRAKE_SIDE_DIFFERENCE && (isnan(v->axle[BRAKE_FRONT].axle.side_difference) ||
                                                isnan(v->axle[BRAKE_REAR].axle.side_difference)))
        return "axle.side_difference must be measured, front and rear";
    if (c->measure == BRAKE_PEDAL_TRAVEL && isnan(v->pedal.travel))
        return "pedal.travel is not given";
    if (brake_measure_hot(c->measure))
        return "the fade procedure was not run";
    return NULL;
}

/* ---- the measures --------------------------------------------------------------------------- */

static double test_speed(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    return c->speed_cap > 0.0 ? fmin(0.8 * v->general.top_speed, c->speed_cap) : c->speed;
}

static double limit_of(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    if (c->measure == BRAKE_STOP_DISTANCE && c->coefficient > 0.0)
        return brake_stop_allowed(test_speed(c, v), c->lag, c->coefficient);
    return c->limit;
}

static double pedal_force(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    return c->force > 0.0 ? c->force : v->driver.pedal_force_most;
}

static double stop_distance(const struct brake_criterion *c, const struct brake_vehicle *v,
                            double deceleration)
{
    const struct brake_delay delay = brake_vehicle_delay(v, c->lag);
    if (!(deceleration > 0.0))
        return BRAKE_INFINITY;
    return brake_stop_distance(test_speed(c, v), deceleration, delay.dead_time, delay.build_up);
}

/* Torque at the force that the test allows; the control is taken as linear. */
static double parking_torque(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    const double most = c->force + (v->parking.control == BRAKE_FOOT ? 100.0 : 0.0);
    const double share = c->force > 0.0 ? fmin(1.0, most / v->parking.force) : 1.0;
    return v->parking.torque * share;
}

/* Mass whose weight a ratio is taken of. */
static double reference_mass(const struct brake_criterion *c, const struct brake_vehicle *v,
                             const struct brake_balance *balance)
{
    const bool known = c->rated && !isnan(v->general.rated_mass);
    return known ? v->general.rated_mass : balance->body.mass;
}

static double parking_value(const struct brake_criterion *c, const struct brake_vehicle *v,
                            const struct brake_system *system)
{
    const struct brake_balance *b = &system->balance;
    const enum brake_parking_on on = (enum brake_parking_on)v->parking.on;
    const double radius = b->axle[on == BRAKE_PARKING_FRONT ? BRAKE_FRONT : BRAKE_REAR].radius;
    const double torque = parking_torque(c, v);
    const double tyres =
        fmin(brake_parking_adhesion(b->body, b->wheelbase, on, system->adhesion, 1.0),
             brake_parking_adhesion(b->body, b->wheelbase, on, system->adhesion, -1.0));
    switch (c->measure) {
    case BRAKE_PARKING_GRADE:
        return fmin(brake_parking_grade(b->body.mass, torque, radius), tyres);
    case BRAKE_PARKING_TOW_GRADE:
        return brake_parking_grade(b->body.mass + v->trailer.mass, torque, radius);
    case BRAKE_PARKING_DECELERATION:
        return fmin(torque / radius / brake_effective_mass(b), tyres * BRAKE_GRAVITY);
    case BRAKE_PARKING_TOW_RATIO:
        return torque / radius / ((reference_mass(c, v, b) + v->trailer.mass) * BRAKE_GRAVITY);
    default:
        return torque / radius / (reference_mass(c, v, b) * BRAKE_GRAVITY);
    }
}

/* Largest rear adhesion over its bound z = 0.9 k, at z = 0.15, 0.20 ... 0.80. */
static double rear_curve(const struct brake_balance *balance)
{
    enum { RATIOS = 14 };
    struct brake_point_of_balance at[RATIOS];
    double deceleration[RATIOS];
    double most = 0.0;
    for (int i = 0; i < RATIOS; i++)
        deceleration[i] = 0.05 * (3 + i) * BRAKE_GRAVITY;
    if (!brake_balance_points(balance, deceleration, RATIOS, at))
        return BRAKE_INFINITY;
    /* Not by fmax: gcc 12 for arm64 dies of its own fault at -O3 over this loop. */
    for (int i = 0; i < RATIOS; i++) {
        const double share = at[i].used[BRAKE_REAR] * 0.9 / (0.05 * (3 + i));
        if (share > most)
            most = share;
    }
    return most;
}

/* Least ratio at first lock over 0.1 + slope (k - 0.2), at k = 0.20, 0.25 ... 0.80. */
static double adhesion_curve(const struct brake_balance *balance, double slope)
{
    enum { ROADS = 13 };
    struct brake_lock lock[ROADS];
    double adhesion[ROADS];
    double least = BRAKE_INFINITY;
    for (int i = 0; i < ROADS; i++)
        adhesion[i] = 0.05 * (4 + i);
    brake_balance_locks(balance, adhesion, ROADS, lock);
    for (int i = 0; i < ROADS; i++)
        least =
            fmin(least, lock[i].deceleration / BRAKE_GRAVITY / (0.1 + slope * (adhesion[i] - 0.2)));
    return least;
}

static double value_of(const struct brake_criterion *c, struct states *s, enum brake_load load,
                       enum brake_failure failure)
{
    const struct brake_vehicle *v = s->vehicle;
    const struct brake_system *system = system_of(s, load, failure);
    const double force = pedal_force(c, v);
    switch (c->measure) {
    case BRAKE_STOP_DISTANCE:
        return stop_distance(c, v, deceleration_of(s, load, failure, force));
    case BRAKE_STOP_DECELERATION:
        return deceleration_of(s, load, failure, force);
    case BRAKE_STOP_RATIO:
        return deceleration_of(s, load, failure, force) / BRAKE_GRAVITY *
               system->balance.body.mass / reference_mass(c, v, &system->balance);
    case BRAKE_TOW_DECELERATION:
        return brake_tow_deceleration(system->balance.body.mass,
                                      deceleration_of(s, load, failure, force), v->trailer.mass,
                                      0.0, 0.0);
    case BRAKE_REAR_FIRST:
        return brake_balance_rear_first(&system->balance, 0.15 * BRAKE_GRAVITY) / BRAKE_GRAVITY;
    case BRAKE_REAR_CURVE:
        return rear_curve(&system->balance);
    case BRAKE_ADHESION_CURVE:
        return adhesion_curve(&system->balance, c->coefficient);
    case BRAKE_SIDE_DIFFERENCE:
        return fmax(v->axle[BRAKE_FRONT].axle.side_difference,
                    v->axle[BRAKE_REAR].axle.side_difference);
    case BRAKE_PEDAL_TRAVEL:
        return brake_system_travel(system, brake_system_pressure(system, force)) / v->pedal.travel;
    default:
        return parking_value(c, v, system);
    }
}

/* Have over need, less 1; a share that must stay low is measured against its limit. */
static double margin_of(enum brake_measure measure, double value, double limit)
{
    if (measure == BRAKE_SIDE_DIFFERENCE || measure == BRAKE_PEDAL_TRAVEL ||
        measure == BRAKE_RECOVERY_MOST)
        return 1.0 - value / limit;
    return brake_measure_at_most(measure) ? limit / value - 1.0 : value / limit - 1.0;
}

static void judge_state(const struct brake_criterion *c, struct states *s, enum brake_load load,
                        enum brake_failure failure, struct brake_judgement *worst)
{
    const double value = value_of(c, s, load, failure);
    const double margin = margin_of(c->measure, value, worst->limit);
    if (isnan(worst->margin) || margin < worst->margin) {
        worst->value = value;
        worst->margin = margin;
        worst->load = load;
        worst->failure = failure;
    }
}

static const struct brake_judgement unknown = {
    .verdict = BRAKE_CANNOT_SAY, .value = BRAKE_NAN, .limit = BRAKE_NAN, .margin = BRAKE_NAN};

static struct brake_judgement judge(const struct brake_criterion *criterion, struct states *s)
{
    const struct brake_vehicle *vehicle = s->vehicle;
    struct brake_judgement j = unknown;
    j.reason = not_for(vehicle, criterion->applies);
    j.applies = j.reason == NULL;
    if (j.applies)
        j.reason = lacks(criterion, vehicle);
    if (j.reason == NULL) {
        const bool empty = criterion->load != BRAKE_AT_FULL;
        const bool full = criterion->load != BRAKE_AT_EMPTY;
        const bool single = vehicle->circuits.split == BRAKE_SPLIT_ONE &&
                            criterion->failure[1] == BRAKE_SECOND_CIRCUIT;
        const int states = criterion->failure[1] != criterion->failure[0] && !single ? 2 : 1;
        j.limit = limit_of(criterion, vehicle);
        for (int i = 0; i < states; i++) {
            if (empty)
                judge_state(criterion, s, BRAKE_EMPTY, criterion->failure[i], &j);
            if (full)
                judge_state(criterion, s, BRAKE_FULL, criterion->failure[i], &j);
        }
        j.verdict = j.margin >= 0.0 ? BRAKE_MEETS : BRAKE_FALLS_SHORT;
        if (criterion->measure == BRAKE_REAR_FIRST && isinf(j.value))
            j.reason = "the rear never takes the lead";
    }
    return j;
}

void brake_judge(const struct brake_criterion *criterion, const struct brake_vehicle *vehicle,
                 struct brake_judgement *judgement)
{
    struct states s;
    start(&s, vehicle);
    *judgement = judge(criterion, &s);
}

void brake_judge_some(const int *criterion, int count, const struct brake_vehicle *vehicle,
                      struct brake_judgement *judgement)
{
    struct states s;
    start(&s, vehicle);
    for (int i = 0; i < count; i++)
        judgement[i] = judge(brake_criterion_at(criterion[i]), &s);
}

/* ---- hot performance ------------------------------------------------------------------------ */

static double hot_value(const struct brake_criterion *c, const struct brake_hot_figures *f)
{
    switch (c->measure) {
    case BRAKE_HOT_DISTANCE:
        return fmin(f->hot[0].distance, f->hot[1].distance);
    case BRAKE_HOT_LENGTHENING:
        return f->hot[0].distance;
    case BRAKE_HOT_DECELERATION:
        return fmax(f->hot[0].developed, f->hot[1].developed);
    case BRAKE_HOT_KEPT:
        return f->hot[0].developed / f->cold.developed;
    default:
        return f->recovery.developed / f->cold.developed;
    }
}

static double hot_limit(const struct brake_criterion *c, const struct brake_hot_figures *f)
{
    const double allowed = c->lag * c->speed;
    if (c->measure == BRAKE_HOT_DISTANCE)
        return brake_stop_allowed(c->speed, c->lag, c->coefficient);
    if (c->measure == BRAKE_HOT_LENGTHENING)
        return allowed + (f->cold.distance - allowed) / c->limit;
    return c->limit;
}

void brake_judge_hot(const struct brake_criterion *criterion, const struct brake_vehicle *vehicle,
                     const struct brake_hot_figures *figures, struct brake_judgement *judgement)
{
    struct brake_judgement *j = judgement;
    *j = unknown;
    j->load = BRAKE_FULL;
    j->reason = not_for(vehicle, criterion->applies);
    j->applies = j->reason == NULL;
    if (j->applies && (criterion->applies & BRAKE_TO_LIGHT) != 0 &&
        isnan(vehicle->general.rated_mass))
        j->reason = "vehicle.rated_mass is not given";
    if (j->reason == NULL)
        j->reason = figures->lacks;
    if (j->reason == NULL && criterion->measure == BRAKE_RECOVERY_MOST &&
        !(figures->recovery.developed > 0.0))
        j->reason = "there was no stop after cooling"; /* no brake at all is not too little */
    if (j->reason != NULL)
        return;
    j->value = hot_value(criterion, figures);
    j->limit = hot_limit(criterion, figures);
    j->margin = margin_of(criterion->measure, j->value, j->limit);
    j->verdict = j->margin >= 0.0 ? BRAKE_MEETS : BRAKE_FALLS_SHORT;
}

void brake_judge_all(unsigned rules, const struct brake_vehicle *vehicle,
                     struct brake_judgement *judgement)
{
    struct states s;
    start(&s, vehicle);
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_criterion *criterion = brake_criterion_at(i);
        judgement[i] = ((unsigned)criterion->rules & rules) != 0 ? judge(criterion, &s) : unknown;
    }
}
