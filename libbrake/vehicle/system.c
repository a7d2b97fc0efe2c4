/* SPDX-License-Identifier: MIT */
#include "brake/system.h"

#include <math.h>
#include <stddef.h>

#include "brake/tyre.h"
#include "model/force_lines.h"
#include "system.h"

/* Volumes that give way are entered at this pressure. */
#define AT_100_BAR 1e7

const char *brake_load_word(enum brake_load load)
{
    static const char *const words[BRAKE_TEST_LOADS] = {"empty", "full", "light", "rated"};
    return words[load];
}

const char *brake_axle_word(enum brake_axle axle)
{
    static const char *const words[BRAKE_AXLES] = {"front", "rear"};
    return words[axle];
}

struct brake_body brake_vehicle_bare(const struct brake_vehicle *vehicle)
{
    const struct brake_general_lines *g = &vehicle->general;
    const double rise = brake_cg_rise(g->mass, g->unsprung_mass, vehicle->lift.suspension,
                                      vehicle->lift.wheel_rise);
    struct brake_body body = {g->mass, (1.0 - g->front_share) * g->wheelbase, g->cg_height + rise};
    for (int i = 0; i < vehicle->parts; i++) {
        const struct brake_part_lines *part = &vehicle->part[i];
        const struct brake_body added = {part->mass, part->behind_front_axle, part->height};
        body = brake_body_sum(body, added);
    }
    return body;
}

static struct brake_body driven_body(const struct brake_vehicle *vehicle, enum brake_load load)
{
    const struct brake_load_lines *lines = &vehicle->load[load];
    const struct brake_body bare = brake_vehicle_bare(vehicle);
    const struct brake_body added = {lines->mass, lines->behind_front_axle, lines->height};
    return lines->mass > 0.0 ? brake_body_sum(bare, added) : bare;
}

/* 180 kg with the driver, beside him (49 CFR 571.135, S4 and S6.3.1.2); he is aboard when empty, as
 * 75 kg: mass in running order, from memory. Half of the wheelbase: common practice, no source. */
static struct brake_body light_body(const struct brake_vehicle *vehicle)
{
    const struct brake_body added = {180.0 - 75.0, 0.5 * vehicle->general.wheelbase,
                                     vehicle->load[BRAKE_EMPTY].height};
    return brake_body_sum(driven_body(vehicle, BRAKE_EMPTY), added);
}

/* Rear axle mass at the rated mass: by the ratings, unless an axle has more than its share already
 * when lightly laden (49 CFR 571.135, S6.3.1.1). */
static double rated_rear(const struct brake_vehicle *vehicle, double mass)
{
    const struct brake_body light = light_body(vehicle);
    const double front = vehicle->axle[BRAKE_FRONT].axle.rated_mass;
    const double rear = vehicle->axle[BRAKE_REAR].axle.rated_mass;
    const double least = light.mass * light.behind / vehicle->general.wheelbase;
    const double share = mass * rear / (front + rear);
    return fmax(least, fmin(share, mass - (light.mass - least)));
}

static struct brake_body rated_body(const struct brake_vehicle *vehicle)
{
    const struct brake_axle_of_vehicle *axle = vehicle->axle;
    const struct brake_body bare = brake_vehicle_bare(vehicle);
    const double mass = vehicle->general.rated_mass;
    struct brake_body added = {mass - bare.mass, vehicle->load[BRAKE_FULL].behind_front_axle,
                               vehicle->load[BRAKE_FULL].height};
    if (mass <= bare.mass)
        return bare;
    if (!isnan(axle[BRAKE_FRONT].axle.rated_mass) && !isnan(axle[BRAKE_REAR].axle.rated_mass))
        added.behind =
            (rated_rear(vehicle, mass) * vehicle->general.wheelbase - bare.mass * bare.behind) /
            added.mass;
    return brake_body_sum(bare, added);
}

struct brake_body brake_vehicle_body(const struct brake_vehicle *vehicle, enum brake_load load)
{
    if (load == BRAKE_LIGHT)
        return light_body(vehicle);
    if (load == BRAKE_RATED)
        return rated_body(vehicle);
    return driven_body(vehicle, load);
}

/* Wheels of an axle, each with a tyre. */
static double wheels_of(const struct brake_axle_of_vehicle *axle)
{
    return axle->axle.wheels == BRAKE_WHEELS_DUAL ? 4.0 : 2.0;
}

double brake_vehicle_tyre_capacity(const struct brake_axle_of_vehicle *axle)
{
    return wheels_of(axle) * axle->tyre.load_capacity;
}

double brake_vehicle_iron(const struct brake_axle_of_vehicle *axle)
{
    const bool disc = axle->axle.brake == BRAKE_DISC;
    return 2.0 * (disc ? axle->disc.rotor_mass : axle->drum.drum_mass);
}

static struct brake_valve valve_of(const struct brake_vehicle *vehicle, struct brake_body body)
{
    const struct brake_valve_lines *lines = &vehicle->valve;
    struct brake_valve valve = {lines->knee, lines->slope};
    if (lines->kind == BRAKE_VALVE_NONE || lines->kind == BRAKE_VALVE_EBD) {
        valve.knee = BRAKE_INFINITY;
        valve.slope = 1.0;
    } else if (lines->kind != BRAKE_VALVE_FIXED) {
        const double rear = body.mass * body.behind / vehicle->general.wheelbase;
        const bool height = lines->kind == BRAKE_VALVE_HEIGHT;
        valve.knee = brake_valve_knee_sensed(lines->knee, lines->knee_rate, rear - lines->set_mass,
                                             height ? lines->uncorrected_lift : 0.0,
                                             height ? lines->stiffness : 0.0);
    }
    return valve;
}

struct brake_valve brake_vehicle_valve(const struct brake_vehicle *vehicle, enum brake_load load)
{
    return valve_of(vehicle, brake_vehicle_body(vehicle, load));
}

struct brake_shoe brake_vehicle_shoe(const struct brake_vehicle *vehicle, enum brake_axle axle)
{
    const struct brake_lining_lines *lining = &vehicle->axle[axle].lining;
    return (struct brake_shoe){vehicle->axle[axle].drum.diameter / 2.0, lining->pivot_radius,
                               lining->force_arm, lining->heel, lining->toe};
}

struct brake_shoe brake_vehicle_secondary_shoe(const struct brake_vehicle *vehicle,
                                               enum brake_axle axle)
{
    struct brake_shoe shoe = brake_vehicle_shoe(vehicle, axle);
    shoe.heel = vehicle->axle[axle].lining.secondary_heel;
    shoe.toe = vehicle->axle[axle].lining.secondary_toe;
    return shoe;
}

enum brake_status brake_vehicle_drum_factor(const struct brake_vehicle *vehicle,
                                            enum brake_axle axle, double *factor)
{
    const struct brake_drum_lines *drum = &vehicle->axle[axle].drum;
    const struct brake_lining_lines *lining = &vehicle->axle[axle].lining;
    const struct brake_shoe shoe = brake_vehicle_shoe(vehicle, axle);
    const struct brake_shoe secondary = brake_vehicle_secondary_shoe(vehicle, axle);
    if (!isnan(drum->brake_factor)) {
        *factor = drum->brake_factor;
        return BRAKE_OK;
    }
    if (drum->shoes == BRAKE_DUO_SERVO)
        return brake_drum_factor_servo(&shoe, lining->mu, &secondary, lining->secondary_mu, factor);
    return brake_drum_factor_shape(&shoe, (enum brake_shoes)drum->shoes, lining->mu, factor);
}

bool brake_vehicle_shoe_shaped(const struct brake_vehicle *vehicle, enum brake_axle axle)
{
    const struct brake_axle_of_vehicle *at = &vehicle->axle[axle];
    return at->axle.brake == BRAKE_DRUM && isnan(at->drum.brake_factor);
}

/* Friction from which on a leading shoe locks itself, over what it has. */
static double room_to_lock(const struct brake_shoe *shoe, double mu)
{
    double normal;
    double friction;
    brake_shoe_moments(shoe, &normal, &friction);
    return friction > 0.0 ? normal / friction / mu : BRAKE_INFINITY;
}

double brake_vehicle_room_to_lock(const struct brake_vehicle *vehicle, enum brake_axle axle)
{
    const struct brake_axle_of_vehicle *at = &vehicle->axle[axle];
    const struct brake_shoe shoe = brake_vehicle_shoe(vehicle, axle);
    const struct brake_shoe secondary = brake_vehicle_secondary_shoe(vehicle, axle);
    if (!brake_vehicle_shoe_shaped(vehicle, axle))
        return BRAKE_INFINITY;
    const double first = room_to_lock(&shoe, at->lining.mu);
    if (at->drum.shoes != BRAKE_DUO_SERVO)
        return first;
    return fmin(first, room_to_lock(&secondary, at->lining.secondary_mu));
}

double brake_vehicle_factor_power(enum brake_shoes shoes)
{
    static const double power[] = {
        [BRAKE_LEADING_TRAILING] = 1.2, [BRAKE_TWO_LEADING] = 1.6, [BRAKE_DUO_SERVO] = 2.3};
    return power[shoes];
}

double brake_vehicle_piston_area(const struct brake_pistons *pistons)
{
    double area = 0.0;
    for (int i = 0; i < BRAKE_GROUPS && pistons->count[i] > 0.0; i++)
        area += brake_piston_area(pistons->count[i], pistons->diameter[i]);
    return area;
}

/* Torque is linear in pressure above the threshold, so one pascal above it gives the gain. */
double brake_vehicle_torque_gain(const struct brake_vehicle *vehicle, enum brake_axle axle,
                                 double *threshold)
{
    const struct brake_axle_of_vehicle *at = &vehicle->axle[axle];
    if (at->axle.brake == BRAKE_DISC) {
        const struct brake_disc disc = {brake_vehicle_piston_area(&at->disc.pistons),
                                        at->disc.effective_radius, at->pads.mu, at->disc.efficiency,
                                        0.0};
        *threshold = at->disc.threshold;
        return 2.0 * brake_disc_torque(&disc, 1.0);
    }
    struct brake_drum drum = {brake_piston_area(1.0, at->drum.cylinder_diameter),
                              at->drum.diameter / 2.0, 0.0, at->drum.efficiency, 0.0};
    (void)brake_vehicle_drum_factor(vehicle, axle, &drum.factor);
    *threshold = at->drum.threshold;
    return 2.0 * brake_drum_torque(&drum, 1.0);
}

/* Fluid of both brakes of an axle, without hoses and air. */
static struct brake_fluid axle_fluid(const struct brake_axle_of_vehicle *at)
{
    struct brake_fluid fluid = {.gaps = 0.0};
    if (at->axle.brake == BRAKE_DISC) {
        fluid = brake_fluid_calipers(at->disc.compliance);
        fluid.gaps = brake_fluid_gaps(brake_vehicle_piston_area(&at->disc.pistons), at->pads.gap);
    } else {
        fluid.shoes = brake_fluid_shoes(brake_piston_area(1.0, at->drum.cylinder_diameter),
                                        at->drum.piston_travel);
        fluid.compliance = 2.0 * at->drum.compliance / AT_100_BAR;
    }
    return fluid;
}

/* What calipers take early, a 100 bar, where a pump test is read: from 20 to 100 bar. */
static double seated_rise(const struct brake_fluid *fluid)
{
    return (brake_fluid_seated(fluid, AT_100_BAR) - brake_fluid_seated(fluid, 0.2 * AT_100_BAR)) /
           0.8;
}

/* A measured total rules over the sum of the parts, which keeps only their shares. What calipers
 * take early is no more than the pump test leaves room for before its line, beside gaps, shoes and
 * air; what is cut of it they take late, so that their share stays. */
static void scale_to_measured(struct brake_fluid fluid[BRAKE_AXLES],
                              const struct brake_circuits_lines *lines)
{
    const struct brake_fluid all = brake_fluid_sum(fluid[BRAKE_FRONT], fluid[BRAKE_REAR]);
    const double room = lines->closing_volume - all.gaps - all.shoes - all.air;
    const double sum = (all.compliance + all.hoses) * AT_100_BAR + seated_rise(&all);
    const double scale = lines->elastic_volume / sum;
    const bool cut = all.seating > 0.0 && scale * all.seating > room;
    const double early = cut ? fmax(0.0, room) / all.seating : scale;
    if (isnan(lines->elastic_volume) || !(sum > 0.0))
        return;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        fluid[i].compliance =
            scale * fluid[i].compliance + (scale - early) * seated_rise(&fluid[i]) / AT_100_BAR;
        fluid[i].seating *= early;
        fluid[i].hoses *= scale;
    }
}

/* Hoses and air are shared evenly by the axles. */
static void build_circuits(const struct brake_vehicle *vehicle, struct brake_system *system)
{
    const struct brake_circuits_lines *lines = &vehicle->circuits;
    const enum brake_split split = (enum brake_split)lines->split;
    const int circuits = split == BRAKE_SPLIT_ONE ? 1 : 2;
    struct brake_fluid axle[BRAKE_AXLES];
    for (int i = 0; i < BRAKE_AXLES; i++) {
        axle[i] = axle_fluid(&vehicle->axle[i]);
        axle[i].hoses = lines->hose_volume / 2.0 / AT_100_BAR;
        axle[i].air = lines->air_volume / 2.0;
    }
    scale_to_measured(axle, lines);
    for (int c = 0; c < 2; c++) {
        struct brake_fluid sum = {.gaps = 0.0};
        for (int i = 0; i < BRAKE_AXLES; i++) {
            const struct brake_share share = brake_split_share(split, c, (enum brake_axle)i);
            sum = brake_fluid_sum(sum, brake_fluid_share(axle[i], share.torque));
        }
        sum.take_up = c < circuits ? vehicle->master.take_up * system->pedal.master_area : 0.0;
        system->circuit[c] = sum;
    }
    system->stroke[0] = vehicle->master.primary_stroke;
    system->stroke[1] = circuits == 2 ? vehicle->master.secondary_stroke : BRAKE_NAN;
}

struct brake_delay brake_vehicle_delay(const struct brake_vehicle *vehicle)
{
    return (struct brake_delay){vehicle->stop.dead_time, vehicle->stop.build_up};
}

static void build_axles(const struct brake_vehicle *vehicle, struct brake_balance *balance)
{
    for (int i = 0; i < BRAKE_AXLES; i++) {
        struct brake_axle_brakes *axle = &balance->axle[i];
        axle->gain = brake_vehicle_torque_gain(vehicle, (enum brake_axle)i, &axle->threshold);
        axle->radius = vehicle->axle[i].tyre.rolling_radius;
        axle->inertia = wheels_of(&vehicle->axle[i]) * vehicle->axle[i].tyre.wheel_inertia;
        axle->wheels = 1.0;
        axle->geared = 0.0;
        axle->drag = 0.0;
    }
}

static void build_pedal(const struct brake_vehicle *vehicle, struct brake_pedal *pedal)
{
    const bool boosted = vehicle->booster.booster != BRAKE_BOOSTER_NONE;
    pedal->ratio = vehicle->pedal.ratio;
    pedal->efficiency = vehicle->pedal.efficiency;
    pedal->gain = boosted ? vehicle->booster.gain : 1.0;
    pedal->assist = boosted ? vehicle->booster.assist : 0.0;
    pedal->master_area = brake_piston_area(1.0, vehicle->master.bore);
    pedal->master_efficiency = vehicle->master.efficiency;
}

/* Part of the assist when little is left, or when the engine has just stopped. An electric pump
 * runs on, and the shell of a vacuum booster holds a stop. */
static double assist_left(const struct brake_booster_lines *booster, bool engine_off)
{
    const bool oil = booster->booster == BRAKE_BOOSTER_HYDRAULIC;
    const bool fed = !oil || booster->pump == BRAKE_PUMP_ELECTRIC;
    if (engine_off && fed)
        return 1.0;
    return oil ? booster->pressure_low / booster->pressure : booster->vacuum_low / booster->vacuum;
}

static void fail_circuit(const struct brake_vehicle *vehicle, struct brake_system *system,
                         int circuit)
{
    const enum brake_split split = (enum brake_split)vehicle->circuits.split;
    system->failed[circuit] = true;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_share left = brake_split_share(split, 1 - circuit, (enum brake_axle)i);
        system->balance.axle[i].gain *= left.torque;
        system->balance.axle[i].wheels = left.wheels;
    }
    if (vehicle->valve.bypass == BRAKE_FITTED && !(system->balance.axle[BRAKE_FRONT].gain > 0.0))
        system->balance.valve.knee = BRAKE_INFINITY;
}

/* Pressure at which a chamber is at the end of its stroke; infinite where that is not known, or
 * where it holds none. */
static double chamber_end(const struct brake_system *system, int c)
{
    if (system->failed[c] || isnan(system->stroke[c]))
        return BRAKE_INFINITY;
    return brake_fluid_pressure(&system->circuit[c], system->stroke[c] * system->pedal.master_area);
}

/* Pressure at which the pedal is at the floor: with all circuits filled alike, or later, with the
 * `first` chamber at its end and the other one taking the rest. fmax passes over a stroke that is
 * not known. */
static double pedal_end(const struct brake_system *system, bool pair, int first)
{
    const double area = system->pedal.master_area;
    const double *stroke = system->stroke;
    double rod = (system->travel - system->free_play) / system->pedal.ratio;
    struct brake_fluid all = {.gaps = 0.0};
    for (int c = 0; c < 2; c++) {
        if (!system->failed[c])
            all = brake_fluid_sum(all, system->circuit[c]);
        else if (!isnan(stroke[c]))
            rod -= stroke[c];
    }
    if (isnan(rod))
        return BRAKE_INFINITY;
    const double both = brake_fluid_pressure(&all, rod * area);
    if (!pair)
        return both;
    return fmax(both,
                brake_fluid_pressure(&system->circuit[1 - first], (rod - stroke[first]) * area));
}

static void release_circuits(struct brake_system *system)
{
    system->balance.hold = (struct brake_hold){0.0, 0.0};
    for (int i = 0; i < BRAKE_AXLES; i++) {
        system->balance.axle[i].held = 0.0;
        system->balance.axle[i].held_wheels = 0.0;
    }
}

static void hold_circuit(struct brake_system *system, enum brake_split split, double from)
{
    system->balance.hold = (struct brake_hold){from, system->pressure_most};
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_share share = brake_split_share(split, system->held, (enum brake_axle)i);
        system->balance.axle[i].held = share.torque;
        system->balance.axle[i].held_wheels = share.wheels;
    }
}

/* The pistons of a tandem master carry the rod's force through one another: at the end of its
 * stroke a chamber hands it on whole, to the other chamber by the floating piston or to the end of
 * the bore. So the other circuit has the pressure of the force, and this one keeps what it has. */
static void set_ends(const struct brake_vehicle *vehicle, struct brake_system *system)
{
    const enum brake_split split = (enum brake_split)vehicle->circuits.split;
    const bool pair = split != BRAKE_SPLIT_ONE && !system->failed[0] && !system->failed[1];
    const double end[2] = {chamber_end(system, 0), chamber_end(system, 1)};
    const int first = end[1] < end[0] ? 1 : 0;
    system->pressure_most = fmin(end[pair ? 1 - first : first], pedal_end(system, pair, first));
    system->held = pair && end[first] < system->pressure_most ? first : -1;
    if (system->held >= 0)
        hold_circuit(system, split, end[first]);
    else
        release_circuits(system);
}

/* One that is stuck, or without a knee, does not move with the body. */
struct valve_pitch brake_system_pitch(const struct brake_vehicle *vehicle,
                                      enum brake_failure failure, const struct brake_system *system,
                                      struct brake_valve *still)
{
    const struct brake_valve_lines *lines = &vehicle->valve;
    *still = system->balance.valve;
    if (lines->kind != BRAKE_VALVE_HEIGHT || failure == BRAKE_VALVE_OPEN ||
        failure == BRAKE_VALVE_SHUT || !isfinite(still->knee))
        return (struct valve_pitch){.rate = 0.0};
    *still = valve_of(vehicle, system->balance.body);
    return (struct valve_pitch){lines->knee_rate, 1.0 - lines->anti_lift,
                                vehicle->general.unsprung_mass};
}

static void pitch_valve(const struct brake_vehicle *vehicle, enum brake_failure failure,
                        struct brake_system *system)
{
    struct brake_balance *b = &system->balance;
    const struct valve_pitch pitch = brake_system_pitch(vehicle, failure, system, &b->valve);
    if (pitch.rate == 0.0)
        return;
    const struct force_lines lines = force_lines_of(b);
    b->valve = pitched_valve(b, &lines, pitch);
}

/* One unit works anti-lock and electronic distribution. */
static void fail_unit(struct brake_system *system)
{
    if (system->balance.regulated)
        system->antilock = 0.0;
    system->balance.regulated = false;
}

void brake_system_release(struct brake_system *system)
{
    system->stroke[0] = system->stroke[1] = BRAKE_NAN;
    system->pressure_most = BRAKE_INFINITY;
    system->held = -1;
    release_circuits(system);
}

/* With the drive to both axles each has a half of the engine: its differential shares the torque,
 * and the engine turns with the mean of both. */
static void put_in_gear(const struct brake_driveline_lines *drive, struct brake_balance *balance)
{
    static const double share[][BRAKE_AXLES] = {[BRAKE_DRIVEN_FRONT] = {1.0, 0.0},
                                                [BRAKE_DRIVEN_REAR] = {0.0, 1.0},
                                                [BRAKE_DRIVEN_ALL] = {0.5, 0.5}};
    const double ratio = drive->overall_ratio;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        balance->axle[i].geared = share[drive->driven][i] * drive->engine_inertia * ratio * ratio;
        balance->axle[i].drag = share[drive->driven][i] * drive->engine_drag * ratio;
    }
}

bool brake_vehicle_can_fail(const struct brake_vehicle *vehicle, enum brake_failure failure)
{
    const bool boosted = vehicle->booster.booster != BRAKE_BOOSTER_NONE;
    const bool sensing = vehicle->valve.kind > BRAKE_VALVE_FIXED;
    switch (failure) {
    case BRAKE_SECOND_CIRCUIT:
        return vehicle->circuits.split != BRAKE_SPLIT_ONE;
    case BRAKE_NO_ASSIST:
    case BRAKE_LOW_VACUUM:
        return boosted;
    case BRAKE_VALVE_OPEN:
        return sensing;
    case BRAKE_VALVE_SHUT:
        return sensing && vehicle->valve.kind != BRAKE_VALVE_EBD;
    case BRAKE_NO_ANTILOCK:
        return vehicle->general.antilock == BRAKE_FITTED;
    default:
        return true;
    }
}

void brake_system_fail(const struct brake_vehicle *vehicle, enum brake_failure failure,
                       struct brake_system *system)
{
    switch (failure) {
    case BRAKE_FIRST_CIRCUIT:
    case BRAKE_SECOND_CIRCUIT:
        fail_circuit(vehicle, system, failure == BRAKE_SECOND_CIRCUIT);
        break;
    case BRAKE_NO_ASSIST:
        system->pedal.gain = 1.0;
        system->pedal.assist = 0.0;
        break;
    case BRAKE_LOW_VACUUM:
        system->pedal.assist *= assist_left(&vehicle->booster, false);
        break;
    case BRAKE_ENGINE_OFF:
        system->pedal.assist *= assist_left(&vehicle->booster, true);
        break;
    case BRAKE_VALVE_OPEN:
        system->balance.valve.knee = BRAKE_INFINITY;
        fail_unit(system);
        break;
    case BRAKE_VALVE_SHUT:
        system->balance.valve = valve_of(vehicle, system->balance.body);
        system->balance.valve.knee = 0.0;
        fail_unit(system);
        break;
    case BRAKE_NO_ANTILOCK:
        system->antilock = 0.0;
        fail_unit(system);
        break;
    case BRAKE_IN_GEAR:
        put_in_gear(&vehicle->driveline, &system->balance);
        break;
    case BRAKE_INTACT:
    case BRAKE_FAILURES:
        break;
    }
    pitch_valve(vehicle, failure, system);
    set_ends(vehicle, system);
}

void brake_system_build(const struct brake_vehicle *vehicle, enum brake_load load,
                        enum brake_failure failure, struct brake_system *system)
{
    system->balance.body = brake_vehicle_body(vehicle, load);
    system->balance.wheelbase = vehicle->general.wheelbase;
    system->balance.rolling = vehicle->general.rolling_resistance;
    system->balance.grade = 0.0;
    system->balance.drag = 0.0;
    system->balance.valve = valve_of(vehicle, system->balance.body);
    system->balance.locked = vehicle->driveline.centre == BRAKE_CENTRE_LOCKED;
    system->balance.regulated = vehicle->valve.kind == BRAKE_VALVE_EBD;
    build_axles(vehicle, &system->balance);
    build_pedal(vehicle, &system->pedal);
    build_circuits(vehicle, system);
    system->failed[0] = false;
    system->failed[1] = false;
    system->free_play = vehicle->pedal.free_play;
    system->travel = vehicle->pedal.travel;
    system->adhesion = vehicle->road.adhesion * vehicle->general.tyre_grip;
    system->modulation = vehicle->driver.modulation;
    /* A driver who can do better is not kept from it. */
    system->antilock = vehicle->general.antilock == BRAKE_FITTED
                           ? fmax(vehicle->general.antilock_efficiency, system->modulation)
                           : 0.0;
    brake_system_fail(vehicle, failure, system);
}

double brake_system_pressure(const struct brake_system *system, double force)
{
    return fmin(brake_pedal_pressure(&system->pedal, force), system->pressure_most);
}

double brake_system_travel(const struct brake_system *system, double pressure)
{
    double rod = 0.0;
    for (int c = 0; c < 2; c++) {
        const double filled =
            brake_fluid_volume(&system->circuit[c], pressure) / system->pedal.master_area;
        rod += system->failed[c] ? system->stroke[c] : fmin(filled, system->stroke[c]);
    }
    return system->free_play + system->pedal.ratio * rod;
}

double brake_system_grip(const struct brake_system *system)
{
    return system->antilock > 0.0 ? system->adhesion : system->modulation * system->adhesion;
}

double brake_system_deceleration(const struct brake_system *system, double force)
{
    return brake_balance_deceleration(&system->balance, brake_system_pressure(system, force),
                                      brake_system_grip(system), system->antilock);
}
