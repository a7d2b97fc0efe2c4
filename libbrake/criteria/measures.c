/* SPDX-License-Identifier: MIT */
#include "meanings.h"
#include "measures.h"

#include <math.h>
#include <stddef.h>

#include "brake/parking.h"
#include "brake/stop.h"
#include "brake/tow.h"
#include "judge.h"

/* [m/s2] full braking, where a criterion asks what it takes of travel and stroke: UN R13-H, Annex
 * 3, 2.1.1 */
static const double FULL_BRAKING = 6.43;

/* ---- states of the vehicle ------------------------------------------------------------------ */

void states_start(struct states *s, const struct brake_vehicle *vehicle)
{
    s->vehicle = vehicle;
    for (int load = 0; load < BRAKE_TEST_LOADS; load++) {
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
    if (!intact->built) {
        brake_system_build(s->vehicle, load, BRAKE_INTACT, &intact->system);
        intact->system.adhesion = BRAKE_TEST_ADHESION * s->vehicle->general.tyre_grip;
    }
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

/* ---- the measures --------------------------------------------------------------------------- */

double brake_test_speed(double speed, double top_speed)
{
    return top_speed < speed ? floor((top_speed * 3.6 - 4.0) / 5.0) * 5.0 / 3.6 : speed;
}

static double test_speed(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    return c->speed_cap > 0.0 ? fmin(0.8 * v->general.top_speed, c->speed_cap)
                              : brake_test_speed(c->speed, v->general.top_speed);
}

double measure_limit(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    if (c->measure == BRAKE_STOP_DISTANCE && c->coefficient > 0.0)
        return brake_stop_allowed(test_speed(c, v), c->lag, c->coefficient);
    return c->limit;
}

static double pedal_force(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    return c->force > 0.0 ? c->force : v->driver.pedal_force_most;
}

/* One that does not slow takes for ever; of one that cannot be worked out nothing is known. */
static double distance_of(const struct brake_criterion *c, const struct brake_vehicle *v,
                          double deceleration)
{
    const struct brake_delay delay = brake_vehicle_delay(v);
    if (isnan(deceleration))
        return BRAKE_NAN;
    if (deceleration <= 0.0)
        return BRAKE_INFINITY;
    return brake_stop_distance(test_speed(c, v), deceleration, delay.dead_time, delay.build_up);
}

/* Torque at the force that the test allows; the control is taken as linear. */
static double parking_torque(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    const double most = v->parking.control == BRAKE_FOOT ? brake_criterion_foot(c) : c->force;
    const double share = c->force > 0.0 ? fmin(1.0, most / v->parking.force) : 1.0;
    return v->parking.torque * share;
}

/* ---- stops ---------------------------------------------------------------------------------- */

static double stop_deceleration(const struct brake_criterion *c, struct states *s,
                                enum brake_load load, enum brake_failure failure)
{
    return deceleration_of(s, load, failure, pedal_force(c, s->vehicle));
}

static double stop_distance(const struct brake_criterion *c, struct states *s, enum brake_load load,
                            enum brake_failure failure)
{
    return distance_of(c, s->vehicle, stop_deceleration(c, s, load, failure));
}

/* NSW Brake assessment manual (2013), p. 15: V0^2 / (2 S), S from the first movement of the
 * pedal. */
static double stop_average(const struct brake_criterion *c, struct states *s, enum brake_load load,
                           enum brake_failure failure)
{
    const double speed = test_speed(c, s->vehicle);
    return speed * speed / (2.0 * stop_distance(c, s, load, failure));
}

static double stop_ratio(const struct brake_criterion *c, struct states *s, enum brake_load load,
                         enum brake_failure failure)
{
    return stop_deceleration(c, s, load, failure) / BRAKE_GRAVITY;
}

/* Forces of the axles standing on the rollers, and the most that the rollers hold: no load moves,
 * no wheel gains speed. */
struct on_rollers {
    double force[BRAKE_AXLES];
    double most[BRAKE_AXLES];
};

static struct on_rollers on_rollers(const struct brake_criterion *c, struct states *s,
                                    enum brake_load load, enum brake_failure failure)
{
    const struct brake_system *system = system_of(s, load, failure);
    const struct brake_balance *b = &system->balance;
    struct brake_balance open = *b; /* electronic distribution sees no vehicle that moves */
    open.regulated = false;
    const double pressure = brake_system_pressure(system, pedal_force(c, s->vehicle));
    const double rear = b->body.mass * b->body.behind / b->wheelbase;
    const double mass[BRAKE_AXLES] = {b->body.mass - rear, rear};
    struct on_rollers r;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        r.force[i] = brake_axle_torque(&open, (enum brake_axle)i, pressure) / b->axle[i].radius;
        r.most[i] = BRAKE_ROLLER_ADHESION * b->axle[i].wheels * mass[i] * BRAKE_GRAVITY;
    }
    return r;
}

/* A vehicle whose centre drive holds both axles cannot be tested there; it is on the road. */
static double roller_ratio(const struct brake_criterion *c, struct states *s, enum brake_load load,
                           enum brake_failure failure)
{
    const struct brake_balance *b = &system_of(s, load, failure)->balance;
    const struct on_rollers r = on_rollers(c, s, load, failure);
    double held = 0.0;
    if (b->locked)
        return stop_ratio(c, s, load, failure);
    for (int i = 0; i < BRAKE_AXLES; i++)
        held += isnan(r.force[i]) ? r.force[i] : fmin(r.force[i], r.most[i]);
    return held / (b->body.mass * BRAKE_GRAVITY);
}

/* DVSA MOT manual 1.2.1: met too if, unladen, the front wheels lock and each rear wheel has 100
 * kgf. */
static double roller_or_lock(const struct brake_criterion *c, struct states *s,
                             enum brake_load load, enum brake_failure failure)
{
    const double ratio = roller_ratio(c, s, load, failure);
    const struct on_rollers unladen = on_rollers(c, s, BRAKE_EMPTY, failure);
    const bool met =
        !system_of(s, load, failure)->balance.locked &&
        unladen.force[BRAKE_FRONT] >= unladen.most[BRAKE_FRONT] &&
        fmin(unladen.force[BRAKE_REAR], unladen.most[BRAKE_REAR]) >= 2.0 * 100.0 * BRAKE_GRAVITY;
    return met && ratio < c->limit ? c->limit : ratio;
}

static double tow_deceleration(const struct brake_criterion *c, struct states *s,
                               enum brake_load load, enum brake_failure failure)
{
    return brake_tow_deceleration(system_of(s, load, failure)->balance.body.mass,
                                  stop_deceleration(c, s, load, failure), s->vehicle->trailer.mass,
                                  0.0, 0.0);
}

static double train_deceleration(const struct brake_criterion *c, struct states *s,
                                 enum brake_load load, enum brake_failure failure)
{
    const struct brake_trailer_lines *trailer = &s->vehicle->trailer;
    return brake_tow_deceleration(system_of(s, load, failure)->balance.body.mass,
                                  stop_deceleration(c, s, load, failure), trailer->mass,
                                  trailer->braking_ratio, trailer->working);
}

/* ---- parking -------------------------------------------------------------------------------- */

/* Retardation that the parked wheels give, [-] of g, tyres aside. */
static double parking_force(const struct brake_criterion *c, struct states *s,
                            const struct brake_balance *b)
{
    const bool front = s->vehicle->parking.on == BRAKE_PARKING_FRONT;
    return parking_torque(c, s->vehicle) / b->axle[front ? BRAKE_FRONT : BRAKE_REAR].radius;
}

static double parking_tyres(struct states *s, const struct brake_system *system)
{
    const struct brake_balance *b = &system->balance;
    const enum brake_parking_on on = (enum brake_parking_on)s->vehicle->parking.on;
    return fmin(brake_parking_adhesion(b->body, b->wheelbase, on, system->adhesion, 1.0),
                brake_parking_adhesion(b->body, b->wheelbase, on, system->adhesion, -1.0));
}

static double parking_grade(const struct brake_criterion *c, struct states *s, enum brake_load load,
                            enum brake_failure failure)
{
    const struct brake_system *system = system_of(s, load, failure);
    const struct brake_balance *b = &system->balance;
    return fmin(brake_parking_grade(b->body.mass, parking_force(c, s, b), 1.0),
                parking_tyres(s, system));
}

static double parking_tow_grade(const struct brake_criterion *c, struct states *s,
                                enum brake_load load, enum brake_failure failure)
{
    const struct brake_balance *b = &system_of(s, load, failure)->balance;
    return brake_parking_grade(b->body.mass + s->vehicle->trailer.mass, parking_force(c, s, b),
                               1.0);
}

static double parking_deceleration(const struct brake_criterion *c, struct states *s,
                                   enum brake_load load, enum brake_failure failure)
{
    const struct brake_system *system = system_of(s, load, failure);
    const struct brake_balance *b = &system->balance;
    return fmin(parking_force(c, s, b) / brake_effective_mass(b),
                parking_tyres(s, system) * BRAKE_GRAVITY);
}

static double parking_ratio(const struct brake_criterion *c, struct states *s, enum brake_load load,
                            enum brake_failure failure)
{
    const struct brake_balance *b = &system_of(s, load, failure)->balance;
    return parking_force(c, s, b) / (b->body.mass * BRAKE_GRAVITY);
}

static double parking_tow_ratio(const struct brake_criterion *c, struct states *s,
                                enum brake_load load, enum brake_failure failure)
{
    const struct brake_balance *b = &system_of(s, load, failure)->balance;
    return parking_force(c, s, b) / ((b->body.mass + s->vehicle->trailer.mass) * BRAKE_GRAVITY);
}

/* ---- balance -------------------------------------------------------------------------------- */

/* Largest rear adhesion over its bound z = 0.9 k, at z = 0.15, 0.20 ... 0.80. NaN is not passed
 * over, here and below: no adhesion used would be the best of all vehicles. */
static double rear_used(const struct brake_balance *balance)
{
    enum { RATIOS = 14 };
    struct brake_balance_state at[RATIOS];
    double deceleration[RATIOS];
    double most = 0.0;
    for (int i = 0; i < RATIOS; i++)
        deceleration[i] = 0.05 * (3 + i) * BRAKE_GRAVITY;
    if (!brake_balance_points(balance, deceleration, RATIOS, at))
        return BRAKE_INFINITY;
    /* Not by fmax: gcc 12 for arm64 dies of its own fault at -O3 over this loop. */
    for (int i = 0; i < RATIOS; i++) {
        const double share = at[i].used[BRAKE_REAR] * 0.9 / (0.05 * (3 + i));
        if (isnan(share))
            return BRAKE_NAN;
        if (share > most)
            most = share;
    }
    return most;
}

/* Least ratio at first lock over 0.1 + slope (k - 0.2), at k = 0.20, 0.25 ... 0.80. */
static double adhesion_used(const struct brake_balance *balance, double slope)
{
    enum { ROADS = 13 };
    struct brake_lock lock[ROADS];
    double adhesion[ROADS];
    double least = BRAKE_INFINITY;
    for (int i = 0; i < ROADS; i++)
        adhesion[i] = 0.05 * (4 + i);
    brake_balance_locks(balance, adhesion, ROADS, lock);
    for (int i = 0; i < ROADS; i++) {
        const double ratio = lock[i].deceleration / BRAKE_GRAVITY;
        if (isnan(ratio))
            return BRAKE_NAN;
        least = fmin(least, ratio / (0.1 + slope * (adhesion[i] - 0.2)));
    }
    return least;
}

static double rear_first(const struct brake_criterion *c, struct states *s, enum brake_load load,
                         enum brake_failure failure)
{
    (void)c;
    return brake_balance_rear_first(&system_of(s, load, failure)->balance, 0.15 * BRAKE_GRAVITY) /
           BRAKE_GRAVITY;
}

static double rear_curve(const struct brake_criterion *c, struct states *s, enum brake_load load,
                         enum brake_failure failure)
{
    (void)c;
    return rear_used(&system_of(s, load, failure)->balance);
}

static double adhesion_curve(const struct brake_criterion *c, struct states *s,
                             enum brake_load load, enum brake_failure failure)
{
    return adhesion_used(&system_of(s, load, failure)->balance, c->coefficient);
}

double measure_sides(const struct brake_criterion *c, const struct brake_vehicle *v,
                     enum brake_axle axle)
{
    const struct brake_tester_lines *t = &v->tester;
    const double larger = axle == BRAKE_FRONT ? fmax(t->front_left, t->front_right)
                                              : fmax(t->rear_left, t->rear_right);
    return larger <= c->force ? 0.0 : v->axle[axle].axle.side_difference;
}

static double side_difference(const struct brake_criterion *c, struct states *s,
                              enum brake_load load, enum brake_failure failure)
{
    (void)load;
    (void)failure;
    return fmax(measure_sides(c, s->vehicle, BRAKE_FRONT),
                measure_sides(c, s->vehicle, BRAKE_REAR));
}

/* ---- pedal, shoes, loads -------------------------------------------------------------------- */

static double pedal_travel(const struct brake_criterion *c, struct states *s, enum brake_load load,
                           enum brake_failure failure)
{
    const struct brake_system *system = system_of(s, load, failure);
    const double pressure = brake_system_pressure(system, pedal_force(c, s->vehicle));
    return brake_system_travel(system, pressure) / s->vehicle->pedal.travel;
}

static double force_for_rate(const struct brake_criterion *c, struct states *s,
                             enum brake_load load, enum brake_failure failure)
{
    const struct brake_system *system = system_of(s, load, failure);
    return brake_pedal_force(&system->pedal, brake_balance_pressure(&system->balance, c->rate));
}

/* Of the pedal's travel or of a chamber's stroke, whichever is the more; strokes that are not known
 * leave the travel. */
static double stroke_used(const struct brake_criterion *c, struct states *s, enum brake_load load,
                          enum brake_failure failure)
{
    const struct brake_system *system = system_of(s, load, failure);
    struct brake_system endless = *system;
    brake_system_release(&endless);
    const double pressure = brake_balance_pressure(&endless.balance, FULL_BRAKING);
    double used = brake_system_travel(&endless, pressure) / system->travel;
    (void)c;
    for (int i = 0; i < 2; i++) {
        const double stroke =
            brake_fluid_volume(&system->circuit[i], pressure) / system->pedal.master_area;
        if (!(used >= stroke / system->stroke[i]) && !isnan(system->stroke[i]))
            used = stroke / system->stroke[i];
    }
    return used;
}

static double axle_mass(struct states *s, enum brake_load load, int axle)
{
    const struct brake_balance *b = &system_of(s, load, BRAKE_INTACT)->balance;
    const double rear = b->body.mass * b->body.behind / b->wheelbase;
    return axle == BRAKE_REAR ? rear : b->body.mass - rear;
}

static double tyre_load(const struct brake_criterion *c, struct states *s, enum brake_load load,
                        enum brake_failure failure)
{
    const struct brake_axle_of_vehicle *at = s->vehicle->axle;
    (void)c;
    (void)failure;
    return fmax(axle_mass(s, load, BRAKE_FRONT) / brake_vehicle_tyre_capacity(&at[BRAKE_FRONT]),
                axle_mass(s, load, BRAKE_REAR) / brake_vehicle_tyre_capacity(&at[BRAKE_REAR]));
}

static double axle_load(const struct brake_criterion *c, struct states *s, enum brake_load load,
                        enum brake_failure failure)
{
    const struct brake_axle_of_vehicle *at = s->vehicle->axle;
    (void)c;
    (void)failure;
    return fmax(axle_mass(s, load, BRAKE_FRONT) / at[BRAKE_FRONT].axle.rated_mass,
                axle_mass(s, load, BRAKE_REAR) / at[BRAKE_REAR].axle.rated_mass);
}

static double mass_load(const struct brake_criterion *c, struct states *s, enum brake_load load,
                        enum brake_failure failure)
{
    (void)c;
    return system_of(s, load, failure)->balance.body.mass / s->vehicle->general.rated_mass;
}

static double shoe_lock(const struct brake_criterion *c, struct states *s, enum brake_load load,
                        enum brake_failure failure)
{
    (void)c;
    (void)load;
    (void)failure;
    return fmin(brake_vehicle_room_to_lock(s->vehicle, BRAKE_FRONT),
                brake_vehicle_room_to_lock(s->vehicle, BRAKE_REAR));
}

/* ---- hot performance ------------------------------------------------------------------------ */

static double hot_distance(const struct brake_criterion *c, const struct brake_hot_figures *f)
{
    (void)c;
    return fmin(f->hot[0].distance, f->hot[1].distance);
}

static double first_hot_distance(const struct brake_criterion *c, const struct brake_hot_figures *f)
{
    (void)c;
    return f->hot[0].distance;
}

static double hot_deceleration(const struct brake_criterion *c, const struct brake_hot_figures *f)
{
    (void)c;
    return fmax(f->hot[0].developed, f->hot[1].developed);
}

static double each_hot(const struct brake_criterion *c, const struct brake_hot_figures *f)
{
    (void)c;
    return fmin(f->hot[0].developed, f->hot[1].developed);
}

static double hot_kept(const struct brake_criterion *c, const struct brake_hot_figures *f)
{
    (void)c;
    return f->hot[0].developed / f->cold.developed;
}

static double recovery(const struct brake_criterion *c, const struct brake_hot_figures *f)
{
    (void)c;
    return f->recovery.developed / f->cold.developed;
}

static double fluid_room(const struct brake_criterion *c, const struct brake_hot_figures *f)
{
    (void)c;
    return f->fluid_room;
}

/* ---- what a measure needs ------------------------------------------------------------------- */

static const struct lack nothing = {NULL, NULL};

static struct lack lacks_of_stop(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    if (c->speed_cap > 0.0 && isnan(v->general.top_speed))
        return (struct lack){"vehicle.top_speed is not given", "vehicle.top_speed"};
    return nothing;
}

static struct lack lacks_of_parking(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    (void)c;
    if (isnan(v->parking.torque))
        return (struct lack){"parking.torque, or what it is worked out from, is not given",
                             "parking.torque"};
    return nothing;
}

static struct lack lacks_of_sides(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    (void)c;
    if (isnan(v->axle[BRAKE_FRONT].axle.side_difference) ||
        isnan(v->axle[BRAKE_REAR].axle.side_difference))
        return (struct lack){"axle.side_difference must be measured, front and rear", NULL};
    return nothing;
}

static struct lack lacks_of_travel(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    (void)c;
    if (isnan(v->pedal.travel))
        return (struct lack){"pedal.travel is not given", "pedal.travel"};
    return nothing;
}

static struct lack lacks_of_stroke(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    (void)c;
    const bool second = v->circuits.split != BRAKE_SPLIT_ONE && !isnan(v->master.secondary_stroke);
    if (isnan(v->pedal.travel) && isnan(v->master.primary_stroke) && !second)
        return (struct lack){"pedal.travel is not given", "pedal.travel"};
    return nothing;
}

static struct lack lacks_of_tyres(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    (void)c;
    if (isnan(v->axle[BRAKE_FRONT].tyre.load_capacity) ||
        isnan(v->axle[BRAKE_REAR].tyre.load_capacity))
        return (struct lack){
            "tyre.load_capacity, or a load index in tyre.marking (dual: both), is not "
            "given",
            NULL};
    return nothing;
}

static struct lack lacks_of_axles(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    (void)c;
    if (isnan(v->axle[BRAKE_FRONT].axle.rated_mass) || isnan(v->axle[BRAKE_REAR].axle.rated_mass))
        return (struct lack){"axle.rated_mass is not given, front or rear", NULL};
    return nothing;
}

static struct lack lacks_of_mass(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    (void)c;
    if (isnan(v->general.rated_mass))
        return (struct lack){"vehicle.rated_mass is not given", "vehicle.rated_mass"};
    return nothing;
}

/* ---- the table ------------------------------------------------------------------------------ */

const struct measure measures[BRAKE_MEASURES] = {
    [BRAKE_STOP_DISTANCE] = {.meaning = "Stopping distance from the speed of the clause.",
                             .dimension = BRAKE_LENGTH,
                             .at_most = true,
                             .error = BRAKE_MODEL_STOP,
                             .lacks = lacks_of_stop,
                             .value = stop_distance},
    [BRAKE_STOP_DECELERATION] = {.meaning = "Mean fully developed deceleration.",
                                 .dimension = BRAKE_ACCELERATION,
                                 .error = BRAKE_MODEL_STOP,
                                 .lacks = lacks_of_stop,
                                 .value = stop_deceleration},
    [BRAKE_STOP_AVERAGE] = {.meaning =
                                "Speed squared over twice the stopping distance, pedal to halt.",
                            .dimension = BRAKE_ACCELERATION,
                            .error = BRAKE_MODEL_STOP,
                            .lacks = lacks_of_stop,
                            .value = stop_average},
    [BRAKE_STOP_RATIO] = {.meaning = "Brake force over the vehicle's weight.",
                          .dimension = BRAKE_RATIO,
                          .error = BRAKE_MODEL_STOP,
                          .lacks = lacks_of_stop,
                          .value = stop_ratio},
    [BRAKE_ROLLER_RATIO] = {.meaning = "Brake force on a roller tester over the vehicle's weight.",
                            .dimension = BRAKE_RATIO,
                            .error = BRAKE_MODEL_STOP,
                            .lacks = lacks_of_stop,
                            .value = roller_ratio},
    [BRAKE_ROLLER_OR_LOCK] =
        {.meaning = "Brake force on a roller tester over the vehicle's weight; met too by front "
                    "wheels that lock there unladen, with 100 kgf at each rear wheel.",
         .dimension = BRAKE_RATIO,
         .error = BRAKE_MODEL_STOP,
         .lacks = lacks_of_stop,
         .value = roller_or_lock},
    [BRAKE_TOW_DECELERATION] = {.meaning = "Deceleration with an unbraked trailer.",
                                .dimension = BRAKE_ACCELERATION,
                                .error = BRAKE_MODEL_STOP,
                                .lacks = lacks_of_stop,
                                .value = tow_deceleration},
    [BRAKE_TRAIN_DECELERATION] = {.meaning = "Deceleration with the trailer, which brakes too.",
                                  .dimension = BRAKE_ACCELERATION,
                                  .error = BRAKE_MODEL_STOP,
                                  .lacks = lacks_of_stop,
                                  .value = train_deceleration},
    [BRAKE_PARKING_GRADE] = {.meaning =
                                 "Grade that the parking brake holds, the lesser of up and down.",
                             .dimension = BRAKE_RATIO,
                             .error = BRAKE_MODEL_PARKING,
                             .lacks = lacks_of_parking,
                             .value = parking_grade},
    [BRAKE_PARKING_TOW_GRADE] = {.meaning =
                                     "Grade that the parking brake holds with an unbraked trailer.",
                                 .dimension = BRAKE_RATIO,
                                 .error = BRAKE_MODEL_PARKING,
                                 .lacks = lacks_of_parking,
                                 .value = parking_tow_grade},
    [BRAKE_PARKING_DECELERATION] = {.meaning = "Deceleration by the parking brake alone.",
                                    .dimension = BRAKE_ACCELERATION,
                                    .error = BRAKE_MODEL_PARKING,
                                    .lacks = lacks_of_parking,
                                    .value = parking_deceleration},
    [BRAKE_PARKING_RATIO] = {.meaning = "Force of the parking brake over the vehicle's weight.",
                             .dimension = BRAKE_RATIO,
                             .error = BRAKE_MODEL_PARKING,
                             .lacks = lacks_of_parking,
                             .value = parking_ratio},
    [BRAKE_PARKING_TOW_RATIO] =
        {.meaning = "Force of the parking brake over the weight of vehicle and trailer.",
         .dimension = BRAKE_RATIO,
         .error = BRAKE_MODEL_PARKING,
         .lacks = lacks_of_parking,
         .value = parking_tow_ratio},
    [BRAKE_REAR_FIRST] = {.meaning = "Deceleration in g above which the rear wheels lock first.",
                          .opposed = true,
                          .error = BRAKE_MODEL_BALANCE,
                          .dimension = BRAKE_RATIO,
                          .value = rear_first},
    [BRAKE_REAR_CURVE] = {.meaning = "Adhesion used at the rear over what the curve allows.",
                          .opposed = true,
                          .at_most = true,
                          .error = BRAKE_MODEL_BALANCE,
                          .dimension = BRAKE_RATIO,
                          .value = rear_curve},
    [BRAKE_ADHESION_CURVE] = {.meaning =
                                  "Deceleration in g at first lock over what the curve asks for.",
                              .opposed = true,
                              .error = BRAKE_MODEL_BALANCE,
                              .dimension = BRAKE_RATIO,
                              .value = adhesion_curve},
    [BRAKE_SIDE_DIFFERENCE] = {.meaning =
                                   "Difference of brake force from left to right on an axle.",
                               .dimension = BRAKE_RATIO,
                               .at_most = true,
                               .share = true,
                               .error = BRAKE_MODEL_EXACT,
                               .lacks = lacks_of_sides,
                               .value = side_difference},
    [BRAKE_PEDAL_TRAVEL] = {.meaning = "Pedal travel over the travel to the floor.",
                            .dimension = BRAKE_RATIO,
                            .at_most = true,
                            .share = true,
                            .error = BRAKE_MODEL_STROKE,
                            .lacks = lacks_of_travel,
                            .value = pedal_travel},
    [BRAKE_PEDAL_FORCE] = {.meaning = "Pedal force for the deceleration of the clause.",
                           .dimension = BRAKE_FORCE,
                           .at_most = true,
                           .error = BRAKE_MODEL_STOP,
                           .value = force_for_rate},
    [BRAKE_STROKE_USED] = {.meaning = "Travel of the pedal, or stroke of a chamber, used in full "
                                      "braking, over what there is.",
                           .dimension = BRAKE_RATIO,
                           .at_most = true,
                           .share = true,
                           .error = BRAKE_MODEL_STROKE,
                           .lacks = lacks_of_stroke,
                           .value = stroke_used},
    [BRAKE_SHOE_LOCK] =
        {.meaning = "Friction from which on a shoe locks itself over the friction that it has.",
         .dimension = BRAKE_RATIO,
         .error = BRAKE_MODEL_EXACT,
         .value = shoe_lock},
    [BRAKE_TYRE_LOAD] = {.meaning = "Load on an axle over what its two tyres may carry.",
                         .dimension = BRAKE_RATIO,
                         .at_most = true,
                         .share = true,
                         .error = BRAKE_MODEL_EXACT,
                         .lacks = lacks_of_tyres,
                         .value = tyre_load},
    [BRAKE_AXLE_LOAD] = {.meaning = "Load on an axle over its rating.",
                         .dimension = BRAKE_RATIO,
                         .at_most = true,
                         .share = true,
                         .error = BRAKE_MODEL_EXACT,
                         .lacks = lacks_of_axles,
                         .value = axle_load},
    [BRAKE_MASS_LOAD] = {.meaning = "Mass of the vehicle over its rated mass.",
                         .dimension = BRAKE_RATIO,
                         .at_most = true,
                         .share = true,
                         .error = BRAKE_MODEL_EXACT,
                         .lacks = lacks_of_mass,
                         .value = mass_load},
    [BRAKE_HOT_DISTANCE] = {.meaning =
                                "Stopping distance after the fade procedure, better of two stops.",
                            .dimension = BRAKE_LENGTH,
                            .at_most = true,
                            .error = BRAKE_MODEL_HEAT,
                            .hot = hot_distance},
    [BRAKE_HOT_LENGTHENING] =
        {.meaning = "Stopping distance of the first hot stop, against that of the cold stop.",
         .dimension = BRAKE_LENGTH,
         .at_most = true,
         .error = BRAKE_MODEL_HEAT,
         .hot = first_hot_distance},
    [BRAKE_HOT_DECELERATION] =
        {.meaning =
             "Mean fully developed deceleration after the fade procedure, better of two stops.",
         .dimension = BRAKE_ACCELERATION,
         .error = BRAKE_MODEL_HEAT,
         .hot = hot_deceleration},
    [BRAKE_HOT_EACH] =
        {.meaning =
             "Mean fully developed deceleration after the fade procedure, worse of two stops.",
         .dimension = BRAKE_ACCELERATION,
         .error = BRAKE_MODEL_HEAT,
         .hot = each_hot},
    [BRAKE_HOT_KEPT] =
        {.meaning =
             "Mean fully developed deceleration of the first hot stop over that of the cold stop.",
         .dimension = BRAKE_RATIO,
         .error = BRAKE_MODEL_HEAT,
         .hot = hot_kept},
    [BRAKE_RECOVERY_LEAST] =
        {.meaning = "Mean fully developed deceleration after cooling over that of the cold stop.",
         .dimension = BRAKE_RATIO,
         .error = BRAKE_MODEL_HEAT,
         .hot = recovery},
    [BRAKE_RECOVERY_MOST] =
        {.meaning = "Mean fully developed deceleration after cooling over that of the cold stop.",
         .dimension = BRAKE_RATIO,
         .at_most = true,
         .share = true,
         .error = BRAKE_MODEL_HEAT,
         .hot = recovery},
    [BRAKE_FLUID_ROOM] =
        {.meaning =
             "Rise to boiling of wet fluid over its rise on a long descent with worn linings.",
         .dimension = BRAKE_RATIO,
         .error = BRAKE_MODEL_HEAT,
         .hot = fluid_room},
};

const char *brake_measure_meaning(enum brake_measure measure)
{
    return measures[measure].meaning;
}

enum brake_dimension brake_measure_dimension(enum brake_measure measure)
{
    return measures[measure].dimension;
}

bool brake_measure_at_most(enum brake_measure measure)
{
    return measures[measure].at_most;
}

bool brake_measure_hot(enum brake_measure measure)
{
    return measures[measure].hot != NULL;
}

bool brake_measure_opposed(enum brake_measure measure)
{
    return measures[measure].opposed;
}

/* ---- margins -------------------------------------------------------------------------------- */

double measure_margin(enum brake_measure measure, double value, double limit)
{
    if (measures[measure].share)
        return 1.0 - value / limit;
    return measures[measure].at_most ? limit / value - 1.0 : value / limit - 1.0;
}

enum brake_model_error brake_measure_error(enum brake_measure measure)
{
    return measures[measure].error;
}

const char *brake_model_error_word(enum brake_model_error error)
{
    static const char *const words[BRAKE_MODEL_ERRORS] = {"model.exact",   "model.stop",
                                                          "model.balance", "model.parking",
                                                          "model.stroke",  "model.heat"};
    return words[error];
}

double brake_model_error_size(enum brake_model_error error)
{
    static const double size[BRAKE_MODEL_ERRORS] = {0.0, 0.03, 0.03, 0.05, 0.10, 0.08};
    return size[error];
}

double brake_measure_margin_off(enum brake_measure measure, double margin, double factor)
{
    if (measures[measure].share)
        return 1.0 - (1.0 - margin) / factor;
    return (1.0 + margin) * factor - 1.0;
}
