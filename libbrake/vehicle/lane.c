/* SPDX-License-Identifier: MIT */
#include "lane.h"

#include <math.h>
#include <stddef.h>

#include "work.h"
#include "model/force_lines.h"
#include "system.h"

bool brake_lane_known(const struct brake_vehicle *vehicle)
{
    return vehicle->general.antilock != BRAKE_FITTED && vehicle->valve.kind != BRAKE_VALVE_EBD &&
           vehicle->driveline.centre != BRAKE_CENTRE_LOCKED;
}

static void fill_brakes(const struct brake_vehicle *vehicle, const struct brake_system *system,
                        int lane, struct brake_lane_numbers *n)
{
    const struct brake_pedal *pedal = &system->pedal;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        n->brakes[i].gain[lane] = system->balance.axle[i].gain;
        n->brakes[i].threshold[lane] = system->balance.axle[i].threshold;
        n->held[i].torque[lane] = system->balance.axle[i].held;
        n->held[i].wheels[lane] = system->balance.axle[i].held_wheels;
        n->wheels[i].radius[lane] = system->balance.axle[i].radius;
        n->wheels[i].inertia[lane] = system->balance.axle[i].inertia;
    }
    n->hold_from[lane] = system->balance.hold.from;
    n->hold_to[lane] = system->balance.hold.to;
    n->ratio[lane] = pedal->ratio;
    n->efficiency[lane] = pedal->efficiency;
    n->booster_gain[lane] = pedal->gain;
    n->assist[lane] = pedal->assist;
    n->master_area[lane] = pedal->master_area;
    n->master_efficiency[lane] = pedal->master_efficiency;
    n->pressure_most[lane] = system->pressure_most;
    n->force[lane] = vehicle->driver.pedal_force;
    n->force_most[lane] = vehicle->driver.pedal_force_most;
    n->target[lane] = vehicle->driver.target;
    n->braked[BRAKE_FRONT][lane] = system->balance.axle[BRAKE_FRONT].wheels;
    n->braked[BRAKE_REAR][lane] = system->balance.axle[BRAKE_REAR].wheels;
    n->boosted[lane] = vehicle->booster.booster != BRAKE_BOOSTER_NONE ? 1.0 : 0.0;
    n->parking_torque[lane] = vehicle->parking.torque;
    n->parking_on[lane] = vehicle->parking.on;
}

/* What one question asks for alone. */
static void fill_others(const struct brake_vehicle *vehicle, const struct brake_system *system,
                        int lane, struct brake_lane_numbers *n)
{
    const struct brake_trailer_lines *trailer = &vehicle->trailer;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_axle_of_vehicle *axle = &vehicle->axle[i];
        n->rated_axle[i][lane] = axle->axle.rated_mass;
        n->tyres[i][lane] = brake_vehicle_tyre_capacity(axle);
        n->heat_capacity[i][lane] = brake_vehicle_iron(axle) * BRAKE_IRON_HEAT_CAPACITY;
    }
    n->rated[lane] = vehicle->general.rated_mass;
    for (int i = 0; i < 2; i++) {
        n->circuit[i].gaps[lane] = system->circuit[i].gaps;
        n->circuit[i].shoes[lane] = system->circuit[i].shoes;
        n->circuit[i].take_up[lane] = system->circuit[i].take_up;
        n->circuit[i].compliance[lane] = system->circuit[i].compliance;
        n->circuit[i].seating[lane] = system->circuit[i].seating;
        n->circuit[i].hoses[lane] = system->circuit[i].hoses;
        n->circuit[i].air[lane] = system->circuit[i].air;
        n->stroke[i][lane] = system->stroke[i];
    }
    n->free_play[lane] = system->free_play;
    n->pedal_travel[lane] = system->travel;
    n->reaction_time[lane] = vehicle->stop.reaction_time;
    n->trailer_mass[lane] = trailer->mass;
    n->trailer_ratio[lane] = trailer->mass > 0.0 ? trailer->braking_ratio : BRAKE_NAN;
    n->trailer_working[lane] = trailer->working;
    n->test_grade[lane] = BRAKE_PARKING_TEST / hypot(1.0, BRAKE_PARKING_TEST);
}

void brake_lane_fill(const struct brake_vehicle *vehicle, struct brake_lane_state state, int lane,
                     struct brake_lane_numbers *numbers)
{
    const struct brake_delay delay = brake_vehicle_delay(vehicle);
    const bool there = brake_vehicle_can_fail(vehicle, state.failure);
    const enum brake_failure failure = there ? state.failure : BRAKE_INTACT;
    struct brake_valve valve;
    struct brake_system system;
    brake_system_build(vehicle, state.load, failure, &system);
    const struct valve_pitch pitch = brake_system_pitch(vehicle, failure, &system, &valve);
    numbers->knee[lane] = valve.knee;
    numbers->slope[lane] = valve.slope;
    numbers->knee_rate[lane] = pitch.rate;
    numbers->lift_left[lane] = pitch.left;
    numbers->unsprung[lane] = pitch.unsprung;
    numbers->there[lane] = there ? 1.0 : 0.0;
    numbers->mass[lane] = system.balance.body.mass;
    numbers->behind[lane] = system.balance.body.behind;
    numbers->height[lane] = system.balance.body.height;
    numbers->wheelbase[lane] = system.balance.wheelbase;
    numbers->rolling[lane] = system.balance.rolling;
    numbers->adhesion[lane] = system.adhesion;
    numbers->modulation[lane] = system.modulation;
    numbers->speed[lane] = vehicle->stop.speed;
    numbers->dead_time[lane] = delay.dead_time;
    numbers->build_up[lane] = delay.build_up;
    fill_brakes(vehicle, &system, lane, numbers);
    fill_others(vehicle, &system, lane, numbers);
}

/* Number of the column of a member. */
#define COLUMN(member) (int)(offsetof(struct brake_lane_numbers, member) / sizeof(brake_column))

bool brake_lane_open(int column)
{
    return column >= COLUMN(rated_axle);
}

#define BODY WORK_OF(general), WORK_OF(lift), WORK_OF(part), WORK_OF(load)
#define BRAKES(of) WORK_OF(axle[of].axle), WORK_OF(axle[of].disc), WORK_OF(axle[of].drum)
#define FRICTION(of) WORK_OF(axle[of].pads), WORK_OF(axle[of].lining)
#define GAPS(of) WORK_OF(axle[of].pads)
#define WHEELS(of) WORK_OF(axle[of].tyre), WORK_OF(axle[of].axle)

#define FLUID                                                                                      \
    WORK_OF(circuits), WORK_OF(master), WORK_OF(pedal), BRAKES(0), GAPS(0), BRAKES(1), GAPS(1)

enum { TOUCHES = 20 };

/* What brake_lane_fill builds from what: from the first column to the last. */
static const struct {
    int first, last;
    struct work_stretch from[TOUCHES];
    unsigned asked; /* by what alone it is needed, as bits; 0: by all */
} parts[BRAKE_LANE_PARTS] = {
    {COLUMN(mass), COLUMN(height), {BODY}, 0},
    {COLUMN(wheelbase), COLUMN(rolling), {WORK_OF(general)}, 0},
    {COLUMN(knee), COLUMN(unsprung), {WORK_OF(valve), BODY}, 0},
    {COLUMN(brakes[0].gain), COLUMN(brakes[0].threshold), {BRAKES(0), FRICTION(0)}, 0},
    {COLUMN(brakes[1].gain), COLUMN(brakes[1].threshold), {BRAKES(1), FRICTION(1)}, 0},
    {COLUMN(wheels[0].radius), COLUMN(wheels[0].inertia), {WHEELS(0)}, 0},
    {COLUMN(wheels[1].radius), COLUMN(wheels[1].inertia), {WHEELS(1)}, 0},
    {COLUMN(ratio), COLUMN(efficiency), {WORK_OF(pedal)}, 0},
    {COLUMN(booster_gain), COLUMN(assist), {WORK_OF(booster)}, 0},
    {COLUMN(master_area), COLUMN(master_efficiency), {WORK_OF(master)}, 0},
    {COLUMN(held[0].torque), COLUMN(pressure_most), {FLUID}, 0},
    {COLUMN(force), COLUMN(target), {WORK_OF(driver)}, 0},
    {COLUMN(adhesion), COLUMN(adhesion), {WORK_OF(road), WORK_OF(general)}, 0},
    {COLUMN(modulation), COLUMN(modulation), {WORK_OF(driver)}, 0},
    {COLUMN(speed), COLUMN(build_up), {WORK_OF(stop)}, 0},
    {COLUMN(boosted), COLUMN(boosted), {WORK_OF(booster)}, BRAKE_LANES_STOP},
    {COLUMN(braked), COLUMN(there), {WORK_OF(booster), WORK_OF(valve)}, BRAKE_LANES_FAILED},
    {COLUMN(parking_torque), COLUMN(parking_on), {WORK_OF(parking)}, BRAKE_LANES_PARKING},
    {COLUMN(rated_axle),
     COLUMN(rated),
     {WORK_OF(general), WHEELS(0), WHEELS(1)},
     BRAKE_LANES_RATED},
    {COLUMN(circuit), COLUMN(pedal_travel), {FLUID}, BRAKE_LANES_FLUID},
    {COLUMN(reaction_time), COLUMN(reaction_time), {WORK_OF(stop)}, BRAKE_LANES_AFTER},
    {COLUMN(heat_capacity), COLUMN(heat_capacity[1]), {BRAKES(0), BRAKES(1)}, BRAKE_LANES_AFTER},
    {COLUMN(trailer_mass), COLUMN(trailer_working), {WORK_OF(trailer)}, BRAKE_LANES_AFTER},
    {COLUMN(test_grade), COLUMN(test_grade), {{0}}, BRAKE_LANES_PARKING},
};

/* What a failure changes follows from the circuits too. */
struct brake_lane_part brake_lane_part(int number, enum brake_failure failure)
{
    static const struct work_stretch circuits[] = {WORK_OF(circuits)};
    const unsigned long long of_failure =
        failure == BRAKE_INTACT ? 0 : work_sections(circuits, COUNT_OF(circuits));
    const struct brake_lane_part part = {parts[number].first, parts[number].last,
                                         work_sections(parts[number].from, TOUCHES) | of_failure,
                                         parts[number].asked};
    return part;
}
