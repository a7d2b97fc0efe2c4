/* SPDX-License-Identifier: MIT */
#include "brake/evaluate.h"

#include <math.h>
#include <string.h>

#include "brake/stop.h"
#include "brake/tow.h"
#include "brake/tyre.h"
#include "groups.h"
#include "system.h"

/* What one load case is worked out from. */
struct question {
    const struct brake_vehicle *vehicle;
    struct brake_system system;  /* intact */
    struct brake_system endless; /* the same with no end of stroke or travel */
    double pressure_most;        /* at the most pedal force */
    double target;               /* pressure for the target, endless; NaN: not asked yet */
    double most;                 /* deceleration at that force; NaN: not asked yet */
    struct brake_lock lock;      /* first lock; its pressure NaN: not asked yet */
    double eased;                /* pressure that the driver stays at; NaN: not asked yet */
};

/* Pressure that gives the target, whatever the tyres hold. */
static double pressure_target(struct question *q)
{
    if (isnan(q->target))
        q->target = brake_balance_pressure(&q->endless.balance, q->vehicle->driver.target);
    return q->target;
}

static struct brake_balance_state state_at_target(const struct question *q)
{
    const struct brake_balance *b = &q->system.balance;
    return brake_balance_at(b, brake_balance_pressure(b, q->vehicle->driver.target));
}

static const struct brake_lock *first_lock(struct question *q)
{
    if (isnan(q->lock.pressure))
        q->lock = brake_balance_lock(&q->system.balance, q->system.adhesion);
    return &q->lock;
}

static double eased(struct question *q)
{
    if (isnan(q->eased))
        q->eased = brake_balance_lock(&q->system.balance, brake_system_grip(&q->system)).pressure;
    return q->eased;
}

/* brake_system_deceleration; without anti-lock the driver eases off at the same pressure for every
 * force. */
static double deceleration_at(struct question *q, double force)
{
    if (q->system.antilock > 0.0)
        return brake_system_deceleration(&q->system, force);
    const double pressure = brake_system_pressure(&q->system, force);
    return brake_balance_at(&q->system.balance, fmin(pressure, eased(q))).deceleration;
}

static double deceleration_most(struct question *q)
{
    if (isnan(q->most))
        q->most = deceleration_at(q, q->vehicle->driver.pedal_force_most);
    return q->most;
}

static double margin(double have, double need)
{
    return have / need - 1.0;
}

static void answer_mass(struct question *q, struct brake_case_results *r)
{
    const struct brake_balance *b = &q->system.balance;
    const struct brake_axle_of_vehicle *axle = q->vehicle->axle;
    r->mass.total = b->body.mass;
    r->mass.effective = brake_effective_mass(b);
    r->mass.rear_axle = b->body.mass * b->body.behind / b->wheelbase;
    r->mass.front_axle = b->body.mass - r->mass.rear_axle;
    r->mass.front_axle_margin = margin(axle[BRAKE_FRONT].axle.rated_mass, r->mass.front_axle);
    r->mass.rear_axle_margin = margin(axle[BRAKE_REAR].axle.rated_mass, r->mass.rear_axle);
    r->mass.front_tyre_margin =
        margin(brake_vehicle_tyre_capacity(&axle[BRAKE_FRONT]), r->mass.front_axle);
    r->mass.rear_tyre_margin =
        margin(brake_vehicle_tyre_capacity(&axle[BRAKE_REAR]), r->mass.rear_axle);
    r->mass.rated_margin = margin(q->vehicle->general.rated_mass, b->body.mass);
}

static void answer_cg(struct question *q, struct brake_case_results *r)
{
    r->cg.behind_front_axle = q->system.balance.body.behind;
    r->cg.height = q->system.balance.body.height;
}

static void answer_deceleration(struct question *q, struct brake_case_results *r)
{
    r->deceleration.at_pedal_force = deceleration_at(q, q->vehicle->driver.pedal_force);
    r->deceleration.most = deceleration_most(q);
    r->deceleration.brakes_alone =
        brake_balance_at(&q->system.balance, q->pressure_most).deceleration;
}

static double knee_force(const struct brake_pedal *pedal)
{
    return brake_booster_knee(pedal->gain, pedal->assist) / (pedal->ratio * pedal->efficiency);
}

static double failed_travel(const struct question *q, enum brake_failure failure)
{
    struct brake_system system = q->system;
    brake_system_fail(q->vehicle, failure, &system);
    const double force = q->vehicle->driver.pedal_force_most;
    return brake_system_travel(&system, brake_system_pressure(&system, force));
}

static double stroke_used(struct question *q, int circuit)
{
    return brake_fluid_volume(&q->system.circuit[circuit], pressure_target(q)) /
           q->system.pedal.master_area / q->system.stroke[circuit];
}

static void answer_pedal(struct question *q, struct brake_case_results *r)
{
    const struct brake_pedal *pedal = &q->system.pedal;
    const double knee = knee_force(pedal);
    r->pedal.pressure_for_target = pressure_target(q);
    r->pedal.force_for_target = brake_pedal_force(pedal, pressure_target(q));
    r->pedal.knee_force = isinf(knee) ? BRAKE_NAN : knee;
    r->pedal.knee_deceleration =
        isinf(knee)
            ? BRAKE_NAN
            : brake_balance_at(&q->system.balance, brake_pedal_pressure(pedal, knee)).deceleration;
    r->pedal.travel = brake_system_travel(&q->endless, pressure_target(q));
    r->pedal.travel_used = r->pedal.travel / q->system.travel;
    r->pedal.primary_stroke_used = stroke_used(q, 0);
    r->pedal.secondary_stroke_used = stroke_used(q, 1);
    r->pedal.travel_first_failed = failed_travel(q, BRAKE_FIRST_CIRCUIT);
    r->pedal.travel_second_failed = failed_travel(q, BRAKE_SECOND_CIRCUIT);
}

static void answer_fluid(struct question *q, struct brake_case_results *r)
{
    const struct brake_fluid all = brake_fluid_sum(q->system.circuit[0], q->system.circuit[1]);
    const double p = pressure_target(q);
    r->fluid.gaps = all.gaps;
    r->fluid.shoes = all.shoes;
    r->fluid.take_up = all.take_up;
    r->fluid.compliance = all.compliance * p + brake_fluid_seated(&all, p);
    r->fluid.hoses = all.hoses * p;
    r->fluid.air = all.air * p / (p + BRAKE_ATMOSPHERE);
    r->fluid.total = brake_fluid_volume(&all, p);
}

static double ideal_front_share(const struct question *q)
{
    const struct brake_balance *b = &q->system.balance;
    return brake_ideal_share(brake_turning_body(b), b->wheelbase,
                             q->vehicle->driver.target / BRAKE_GRAVITY);
}

/* Torque that gives an axle its ideal share of the target: tyre force times radius, and what slows
 * the wheels themselves. */
static double torque_needed(const struct question *q, enum brake_axle axle, double share)
{
    const struct brake_balance *b = &q->system.balance;
    const double target = q->vehicle->driver.target;
    const double force = share * b->body.mass * target;
    return force * b->axle[axle].radius + b->axle[axle].inertia * target / b->axle[axle].radius;
}

static void answer_torque(struct question *q, struct brake_case_results *r)
{
    struct brake_balance open = q->system.balance;
    const double front = ideal_front_share(q);
    open.regulated = false;
    r->torque.front_needed = torque_needed(q, BRAKE_FRONT, front);
    r->torque.rear_needed = torque_needed(q, BRAKE_REAR, 1.0 - front);
    r->torque.front_available = brake_axle_torque(&open, BRAKE_FRONT, q->pressure_most);
    r->torque.rear_available = brake_axle_torque(&open, BRAKE_REAR, q->pressure_most);
    r->torque.front_margin = margin(r->torque.front_available, r->torque.front_needed);
    r->torque.rear_margin = margin(r->torque.rear_available, r->torque.rear_needed);
    r->torque.margin = margin(r->torque.front_available + r->torque.rear_available,
                              r->torque.front_needed + r->torque.rear_needed);
}

static void answer_balance(struct question *q, struct brake_case_results *r)
{
    const struct brake_balance *b = &q->system.balance;
    const struct brake_balance_state at = state_at_target(q);
    const double front = at.force[BRAKE_FRONT];
    r->balance.front_share = front / (front + at.force[BRAKE_REAR]);
    r->balance.ideal_front_share = ideal_front_share(q);
    r->balance.front_adhesion_used = at.used[BRAKE_FRONT];
    r->balance.rear_adhesion_used = at.used[BRAKE_REAR];
    r->balance.valve_knee = isinf(b->valve.knee) ? BRAKE_NAN : b->valve.knee;
}

static void answer_lock(struct question *q, struct brake_case_results *r)
{
    const struct brake_lock *lock = first_lock(q);
    r->balance.lock_deceleration = lock->deceleration;
    r->balance.lock_pedal_force = brake_pedal_force(&q->system.pedal, lock->pressure);
    r->balance.lock_axle = isfinite(lock->deceleration) ? (double)lock->axle : BRAKE_NAN;
    r->balance.efficiency = lock->deceleration / (q->system.adhesion * BRAKE_GRAVITY);
}

/* With the centre drive as it may be set, whatever it is. */
static void answer_centre_drive(struct question *q, struct brake_case_results *r)
{
    struct brake_balance b = q->system.balance;
    b.locked = false;
    const double rear_first = brake_balance_rear_first(&b, 0.15 * BRAKE_GRAVITY);
    r->balance.rear_first_above = isinf(rear_first) ? BRAKE_NAN : rear_first;
    b.locked = true;
    r->balance.locked_drive_lock_deceleration =
        brake_balance_lock(&b, q->system.adhesion).deceleration;
}

/* NaN: the vehicle has no such thing. */
static double failed_deceleration(const struct question *q, enum brake_failure failure)
{
    struct brake_system system = q->system;
    if (!brake_vehicle_can_fail(q->vehicle, failure))
        return BRAKE_NAN;
    brake_system_fail(q->vehicle, failure, &system);
    return brake_system_deceleration(&system, q->vehicle->driver.pedal_force_most);
}

static void answer_failed(struct question *q, struct brake_case_results *r)
{
    r->failed.first_circuit = failed_deceleration(q, BRAKE_FIRST_CIRCUIT);
    r->failed.second_circuit = failed_deceleration(q, BRAKE_SECOND_CIRCUIT);
    r->failed.no_assist = failed_deceleration(q, BRAKE_NO_ASSIST);
    r->failed.low_vacuum = failed_deceleration(q, BRAKE_LOW_VACUUM);
    r->failed.valve_open = failed_deceleration(q, BRAKE_VALVE_OPEN);
    r->failed.valve_shut = failed_deceleration(q, BRAKE_VALVE_SHUT);
    r->failed.no_antilock = failed_deceleration(q, BRAKE_NO_ANTILOCK);
    r->failed.wheels_locked = brake_balance_sliding(&q->system.balance, q->pressure_most,
                                                    q->system.adhesion, q->vehicle->road.sliding);
}

static void answer_stop(struct question *q, struct brake_case_results *r)
{
    const struct brake_stop_lines *stop = &q->vehicle->stop;
    const double a = deceleration_most(q);
    const struct brake_delay delay = brake_vehicle_delay(q->vehicle);
    r->stop.distance = brake_stop_distance(stop->speed, a, delay.dead_time, delay.build_up);
    r->stop.time = brake_stop_time(stop->speed, a, delay.dead_time, delay.build_up);
    r->stop.sight_distance = r->stop.distance + stop->speed * stop->reaction_time;
}

static void answer_heat(struct question *q, struct brake_case_results *r)
{
    const struct brake_balance *b = &q->system.balance;
    const double pressure = brake_balance_pressure(b, deceleration_most(q));
    const double front = brake_axle_torque(b, BRAKE_FRONT, pressure) / b->axle[0].radius;
    const double rear = brake_axle_torque(b, BRAKE_REAR, pressure) / b->axle[1].radius;
    r->stop.energy = brake_energy(brake_effective_mass(b), q->vehicle->stop.speed);
    r->stop.front_heat_share = front / (front + rear);
    r->stop.front_rise = brake_bulk_rise(r->stop.energy * r->stop.front_heat_share,
                                         brake_vehicle_iron(&q->vehicle->axle[BRAKE_FRONT]),
                                         BRAKE_IRON_HEAT_CAPACITY);
    r->stop.rear_rise = brake_bulk_rise(r->stop.energy * (1.0 - r->stop.front_heat_share),
                                        brake_vehicle_iron(&q->vehicle->axle[BRAKE_REAR]),
                                        BRAKE_IRON_HEAT_CAPACITY);
}

static void answer_parking(struct question *q, struct brake_case_results *r)
{
    const struct brake_balance *b = &q->system.balance;
    const enum brake_parking_on on = (enum brake_parking_on)q->vehicle->parking.on;
    const double radius = b->axle[on == BRAKE_PARKING_FRONT ? BRAKE_FRONT : BRAKE_REAR].radius;
    const double torque = q->vehicle->parking.torque;
    const double adhesion = q->system.adhesion;
    const double effort = brake_parking_grade(b->body.mass, torque, radius);
    const double up = brake_parking_adhesion(b->body, b->wheelbase, on, adhesion, 1.0);
    const double down = brake_parking_adhesion(b->body, b->wheelbase, on, adhesion, -1.0);
    r->parking.needed = brake_parking_needed(b->body.mass, BRAKE_PARKING_TEST, radius);
    r->parking.available = torque;
    r->parking.margin = margin(torque, r->parking.needed);
    if (isnan(torque)) {
        r->parking.effort_grade = r->parking.grade_up = r->parking.grade_down = BRAKE_NAN;
        r->parking.trailer_grade = r->parking.deceleration = BRAKE_NAN;
        return;
    }
    r->parking.effort_grade = effort;
    r->parking.grade_up = fmin(effort, up);
    r->parking.grade_down = fmin(effort, down);
    r->parking.trailer_grade =
        q->vehicle->trailer.mass > 0.0
            ? brake_parking_grade(b->body.mass + q->vehicle->trailer.mass, torque, radius)
            : BRAKE_NAN;
    r->parking.deceleration =
        fmin(torque / radius / brake_effective_mass(b), fmin(up, down) * BRAKE_GRAVITY);
}

static void answer_tow(struct question *q, struct brake_case_results *r)
{
    const struct brake_trailer_lines *t = &q->vehicle->trailer;
    const double mass = q->system.balance.body.mass;
    const double alone = deceleration_most(q);
    const double ratio = t->mass > 0.0 ? t->braking_ratio : BRAKE_NAN;
    r->tow.without_brakes = brake_tow_deceleration(mass, alone, t->mass, ratio, 0.0);
    r->tow.as_stated = brake_tow_deceleration(mass, alone, t->mass, ratio, t->working);
    r->tow.all_brakes = brake_tow_deceleration(mass, alone, t->mass, ratio, 1.0);
}

/* Of a diagonal split, what the circuit that is left does on one side alone [N]; the wheel across
 * turns free and pulls its own way. */
static void one_sided(const struct question *q, enum brake_failure failure,
                      double force[BRAKE_AXLES])
{
    struct brake_system system = q->system;
    brake_system_fail(q->vehicle, failure, &system);
    const struct brake_balance *b = &system.balance;
    const struct brake_balance_state at =
        brake_balance_kept(b, brake_system_pressure(&system, q->vehicle->driver.pedal_force_most),
                           brake_system_grip(&system), system.antilock);
    for (int i = 0; i < BRAKE_AXLES; i++)
        force[i] = at.force[i] +
                   b->axle[i].inertia * at.deceleration / (b->axle[i].radius * b->axle[i].radius);
}

static double larger(double a, double b)
{
    return fabs(b) > fabs(a) ? b : a;
}

static void answer_one_circuit(const struct question *q, struct brake_case_results *r)
{
    const struct brake_axle_of_vehicle *axle = q->vehicle->axle;
    double pull[2];
    double yaw[2];
    r->steering.pull_one_circuit = r->steering.yaw_one_circuit = BRAKE_NAN;
    if (q->vehicle->circuits.split != BRAKE_SPLIT_X)
        return;
    for (int c = 0; c < 2; c++) {
        double force[BRAKE_AXLES];
        one_sided(q, c == 0 ? BRAKE_FIRST_CIRCUIT : BRAKE_SECOND_CIRCUIT, force);
        pull[c] = force[BRAKE_FRONT] * axle[BRAKE_FRONT].axle.scrub_radius;
        yaw[c] = (force[BRAKE_FRONT] * axle[BRAKE_FRONT].axle.track -
                  force[BRAKE_REAR] * axle[BRAKE_REAR].axle.track) /
                 2.0;
    }
    r->steering.pull_one_circuit = larger(pull[0], pull[1]);
    r->steering.yaw_one_circuit = larger(yaw[0], yaw[1]);
}

static void answer_steering(struct question *q, struct brake_case_results *r)
{
    const struct brake_axle_lines *axle = &q->vehicle->axle[BRAKE_FRONT].axle;
    const double force = state_at_target(q).force[BRAKE_FRONT];
    r->steering.pull = brake_steering_pull(force, axle->side_difference, axle->scrub_radius);
    answer_one_circuit(q, r);
}

/* Who answers which group of a load case. */
static void (*const answers[BRAKE_RESULT_GROUPS])(struct question *q,
                                                  struct brake_case_results *r) = {
    [BRAKE_OF_MASS] = answer_mass,
    [BRAKE_OF_CG] = answer_cg,
    [BRAKE_OF_DECELERATION] = answer_deceleration,
    [BRAKE_OF_PEDAL] = answer_pedal,
    [BRAKE_OF_FLUID] = answer_fluid,
    [BRAKE_OF_TORQUE] = answer_torque,
    [BRAKE_OF_BALANCE] = answer_balance,
    [BRAKE_OF_LOCK] = answer_lock,
    [BRAKE_OF_CENTRE_DRIVE] = answer_centre_drive,
    [BRAKE_OF_FAILED] = answer_failed,
    [BRAKE_OF_STOP] = answer_stop,
    [BRAKE_OF_STOP_HEAT] = answer_heat,
    [BRAKE_OF_PARKING] = answer_parking,
    [BRAKE_OF_STEERING] = answer_steering,
    [BRAKE_OF_TOW] = answer_tow,
};

/* Bits of the groups: those of no load case, then those of each. */
static unsigned long long group_bit(int load, int group)
{
    return 1ULL << (group + (load > 0 ? load * (BRAKE_RESULT_GROUPS - BRAKE_OF_MASS) : 0));
}

unsigned long long brake_result_group(int index)
{
    return group_bit(brake_result_load(index), (int)brake_result_at(index)->group);
}

static void answer_case(const struct brake_vehicle *vehicle, enum brake_load load,
                        unsigned long long groups, struct brake_case_results *r)
{
    struct question q = {.vehicle = vehicle,
                         .most = BRAKE_NAN,
                         .target = BRAKE_NAN,
                         .lock.pressure = BRAKE_NAN,
                         .eased = BRAKE_NAN};
    brake_system_build(vehicle, load, BRAKE_INTACT, &q.system);
    q.endless = q.system;
    brake_system_release(&q.endless);
    q.pressure_most = brake_system_pressure(&q.system, vehicle->driver.pedal_force_most);
    for (int group = BRAKE_OF_MASS; group < BRAKE_RESULT_GROUPS; group++) {
        if ((groups & group_bit((int)load, group)) != 0)
            answers[group](&q, r);
    }
}

static void answer_common(const struct brake_vehicle *vehicle, struct brake_common_results *r)
{
    const struct brake_speedometer_lines *s = &vehicle->speedometer;
    const bool shaft = s->sensor == BRAKE_SENSOR_SHAFT;
    const struct brake_axle_of_vehicle *front = &vehicle->axle[BRAKE_FRONT];
    const bool disc = front->axle.brake == BRAKE_DISC;
    double threshold;
    r->speedometer.true_over_shown = brake_speed_true_over_shown(
        2.0 * BRAKE_PI * vehicle->axle[BRAKE_REAR].tyre.rolling_radius, s->rollout,
        shaft ? vehicle->driveline.axle_ratio : 1.0, shaft ? s->axle_ratio : 1.0);
    r->brakes.front_torque_gain = brake_vehicle_torque_gain(vehicle, BRAKE_FRONT, &threshold);
    r->brakes.rear_torque_gain = brake_vehicle_torque_gain(vehicle, BRAKE_REAR, &threshold);
    r->brakes.front_piston_area =
        disc ? brake_vehicle_piston_area(&front->disc.pistons) : BRAKE_NAN;
    r->brakes.front_pad_radius = disc ? front->disc.effective_radius : BRAKE_NAN;
}

/* The fade procedure is run by the study of that name. */
static void leave_out_fade(struct brake_common_results *r)
{
    static const double unknown = BRAKE_NAN;
    for (size_t at = 0; at < sizeof r->fade; at += sizeof unknown)
        memcpy((char *)&r->fade + at, &unknown, sizeof unknown);
}

void brake_evaluate_groups(const struct brake_vehicle *vehicle, unsigned long long groups,
                           struct brake_results *results)
{
    const unsigned long long all = (1ULL << (BRAKE_RESULT_GROUPS - BRAKE_OF_MASS)) - 1;
    if ((groups & group_bit(-1, BRAKE_OF_VEHICLE)) != 0)
        answer_common(vehicle, &results->common);
    if ((groups & group_bit(-1, BRAKE_OF_FADE)) != 0)
        leave_out_fade(&results->common);
    for (int load = 0; load < BRAKE_LOADS; load++) {
        if ((groups & all * group_bit(load, BRAKE_OF_MASS)) != 0)
            answer_case(vehicle, (enum brake_load)load, groups, &results->load[load]);
    }
}

void brake_evaluate(const struct brake_vehicle *vehicle, struct brake_results *results)
{
    brake_evaluate_groups(vehicle, ~0ULL, results);
}
