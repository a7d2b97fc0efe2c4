/* The table of results. */
#include <stdio.h>
#include <string.h>

#include "brake/evaluate.h"
#include "text.h"

#define COMMON(member) #member, offsetof(struct brake_common_results, member)
#define CASE(member) #member, offsetof(struct brake_case_results, member)

static const struct brake_result common_rows[] = {
    {COMMON(speedometer.true_over_shown), BRAKE_RATIO, "",
     "True speed over shown speed; above 1 the speedometer reads low."},
    {COMMON(brakes.front_torque_gain), BRAKE_TORQUE_PER_PRESSURE, "N*m/bar",
     "Front brake torque per pressure above the threshold, both wheels."},
    {COMMON(brakes.rear_torque_gain), BRAKE_TORQUE_PER_PRESSURE, "N*m/bar",
     "Rear brake torque per pressure above the threshold, both wheels."},
    {COMMON(brakes.front_piston_area), BRAKE_AREA, "cm2", "Front pistons, one side of one rotor."},
    {COMMON(brakes.front_pad_radius), BRAKE_LENGTH, "mm", "Effective radius of the front pads."},
    {COMMON(fade.cold_deceleration), BRAKE_ACCELERATION, "m/s2",
     "Mean fully developed deceleration of the cold stop before the fade procedure, full load."},
    {COMMON(fade.cold_force), BRAKE_FORCE, "N", "Mean pedal force of that stop."},
    {COMMON(fade.last_snub_force), BRAKE_FORCE, "N", "Pedal force of the last heating snub."},
    {COMMON(fade.hot_deceleration), BRAKE_ACCELERATION, "m/s2",
     "Mean fully developed deceleration of the first hot stop, at the cold stop's pedal force."},
    {COMMON(fade.hot_share), BRAKE_RATIO, "%", "That over the cold stop's."},
    {COMMON(fade.recovery_deceleration), BRAKE_ACCELERATION, "m/s2",
     "Mean fully developed deceleration after cooling, at the cold stop's pedal force."},
    {COMMON(fade.front_face), BRAKE_TEMPERATURE, "degC",
     "Front rubbed face at its hottest in the heating snubs."},
    {COMMON(fade.rear_face), BRAKE_TEMPERATURE, "degC",
     "Rear rubbed face at its hottest in the heating snubs."},
    {COMMON(fade.front_pad), BRAKE_TEMPERATURE, "degC",
     "Front pads or linings at their hottest: snubs, then half an hour parked."},
    {COMMON(fade.rear_pad), BRAKE_TEMPERATURE, "degC",
     "Rear pads or linings at their hottest: snubs, then half an hour parked."},
    {COMMON(fade.front_fluid), BRAKE_TEMPERATURE, "degC",
     "Front fluid at its hottest: snubs, then half an hour parked."},
    {COMMON(fade.rear_fluid), BRAKE_TEMPERATURE, "degC",
     "Rear fluid at its hottest: snubs, then half an hour parked."},
    {COMMON(fade.fluid_margin), BRAKE_RISE, "K", "Wet boiling point less the hottest fluid."},
    {COMMON(fade.stress_share), BRAKE_RATIO, "%",
     "Largest thermal stress over the tensile strength of the iron."},
    {COMMON(fade.energy_residual), BRAKE_RATIO, "",
     "Energy of the procedure that went astray in the calculation, over that put in."},
};

static const struct brake_result case_rows[] = {
    {CASE(mass.total), BRAKE_MASS, "kg", "Mass."},
    {CASE(mass.effective), BRAKE_MASS, "kg",
     "Mass that the brakes must slow, wheels' spin included."},
    {CASE(mass.front_axle), BRAKE_MASS, "kg", "On the front axle, level."},
    {CASE(mass.rear_axle), BRAKE_MASS, "kg", "On the rear axle, level."},
    {CASE(mass.front_axle_margin), BRAKE_RATIO, "%", "Front axle rating over load, less 1."},
    {CASE(mass.rear_axle_margin), BRAKE_RATIO, "%", "Rear axle rating over load, less 1."},
    {CASE(mass.front_tyre_margin), BRAKE_RATIO, "%", "Front tyres' capacity over load, less 1."},
    {CASE(mass.rear_tyre_margin), BRAKE_RATIO, "%", "Rear tyres' capacity over load, less 1."},
    {CASE(mass.rated_margin), BRAKE_RATIO, "%", "Rated mass over mass, less 1."},
    {CASE(cg.behind_front_axle), BRAKE_LENGTH, "mm", "Centre of gravity behind the front axle."},
    {CASE(cg.height), BRAKE_LENGTH, "mm", "Height of the centre of gravity."},
    {CASE(deceleration.at_pedal_force), BRAKE_ACCELERATION, "m/s2",
     "Deceleration at driver.pedal_force."},
    {CASE(deceleration.most), BRAKE_ACCELERATION, "m/s2",
     "Deceleration at driver.pedal_force_most, wheels kept from locking."},
    {CASE(deceleration.brakes_alone), BRAKE_ACCELERATION, "m/s2",
     "Deceleration that the brakes would give at driver.pedal_force_most if the tyres held."},
    {CASE(pedal.force_for_target), BRAKE_FORCE, "N", "Pedal force for driver.target."},
    {CASE(pedal.pressure_for_target), BRAKE_PRESSURE, "bar", "Line pressure for driver.target."},
    {CASE(pedal.knee_force), BRAKE_FORCE, "N", "Pedal force at which the booster runs out."},
    {CASE(pedal.knee_deceleration), BRAKE_ACCELERATION, "m/s2",
     "Deceleration at which the booster runs out, if the tyres hold."},
    {CASE(pedal.travel), BRAKE_LENGTH, "mm", "Travel of the pad at driver.target."},
    {CASE(pedal.travel_used), BRAKE_RATIO, "%", "That travel over the travel to the floor."},
    {CASE(pedal.primary_stroke_used), BRAKE_RATIO, "%", "Stroke of the primary chamber used."},
    {CASE(pedal.secondary_stroke_used), BRAKE_RATIO, "%", "Stroke of the secondary chamber used."},
    {CASE(pedal.travel_first_failed), BRAKE_LENGTH, "mm",
     "Travel at driver.pedal_force_most, first circuit failed."},
    {CASE(pedal.travel_second_failed), BRAKE_LENGTH, "mm",
     "Travel at driver.pedal_force_most, second circuit failed."},
    {CASE(fluid.gaps), BRAKE_VOLUME, "cm3", "Fluid to close the pad clearances."},
    {CASE(fluid.shoes), BRAKE_VOLUME, "cm3", "Fluid to bring the shoes to the drums."},
    {CASE(fluid.take_up), BRAKE_VOLUME, "cm3", "Fluid to shut the ports of the master cylinder."},
    {CASE(fluid.compliance), BRAKE_VOLUME, "cm3", "Fluid for calipers and drums that give way."},
    {CASE(fluid.hoses), BRAKE_VOLUME, "cm3", "Fluid for hoses and lines that give way."},
    {CASE(fluid.air), BRAKE_VOLUME, "cm3", "Fluid for air that is squeezed."},
    {CASE(fluid.total), BRAKE_VOLUME, "cm3", "Fluid in all at driver.target."},
    {CASE(torque.front_needed), BRAKE_TORQUE, "N*m",
     "Front torque for driver.target at equal adhesion of both axles."},
    {CASE(torque.rear_needed), BRAKE_TORQUE, "N*m",
     "Rear torque for driver.target at equal adhesion of both axles."},
    {CASE(torque.front_available), BRAKE_TORQUE, "N*m", "Front torque at driver.pedal_force_most."},
    {CASE(torque.rear_available), BRAKE_TORQUE, "N*m", "Rear torque at driver.pedal_force_most."},
    {CASE(torque.front_margin), BRAKE_RATIO, "%", "Front torque available over needed, less 1."},
    {CASE(torque.rear_margin), BRAKE_RATIO, "%", "Rear torque available over needed, less 1."},
    {CASE(balance.front_share), BRAKE_RATIO, "%", "Front share of brake force at driver.target."},
    {CASE(balance.ideal_front_share), BRAKE_RATIO, "%",
     "Front share at which both axles would use the same adhesion."},
    {CASE(balance.lock_deceleration), BRAKE_ACCELERATION, "m/s2",
     "Deceleration at which the first axle locks on road.adhesion."},
    {CASE(balance.lock_pedal_force), BRAKE_FORCE, "N", "Pedal force at which it locks."},
    {CASE(balance.lock_axle), BRAKE_RATIO, "", "Axle that locks first: 0 front, 1 rear."},
    {CASE(balance.efficiency), BRAKE_RATIO, "%", "That deceleration over adhesion times g."},
    {CASE(balance.rear_first_above), BRAKE_ACCELERATION, "m/s2",
     "Deceleration above which the rear axle locks first, centre drive free."},
    {CASE(balance.front_adhesion_used), BRAKE_RATIO, "",
     "Adhesion used in front at driver.target."},
    {CASE(balance.rear_adhesion_used), BRAKE_RATIO, "",
     "Adhesion used at the rear at driver.target."},
    {CASE(balance.locked_drive_lock_deceleration), BRAKE_ACCELERATION, "m/s2",
     "Deceleration at which all wheels lock together, centre drive locked."},
    {CASE(balance.valve_knee), BRAKE_PRESSURE, "bar", "Knee of the rear valve in this load case."},
    {CASE(failed.first_circuit), BRAKE_ACCELERATION, "m/s2",
     "Deceleration at driver.pedal_force_most, first circuit failed."},
    {CASE(failed.second_circuit), BRAKE_ACCELERATION, "m/s2",
     "Deceleration at driver.pedal_force_most, second circuit failed."},
    {CASE(failed.no_assist), BRAKE_ACCELERATION, "m/s2",
     "Deceleration at driver.pedal_force_most without assist."},
    {CASE(failed.low_vacuum), BRAKE_ACCELERATION, "m/s2",
     "Deceleration at driver.pedal_force_most at booster.vacuum_low."},
    {CASE(failed.valve_open), BRAKE_ACCELERATION, "m/s2",
     "Deceleration at driver.pedal_force_most, rear valve stuck open."},
    {CASE(failed.valve_shut), BRAKE_ACCELERATION, "m/s2",
     "Deceleration at driver.pedal_force_most, rear valve stuck shut."},
    {CASE(failed.no_antilock), BRAKE_ACCELERATION, "m/s2",
     "Deceleration at driver.pedal_force_most, anti-lock failed."},
    {CASE(stop.distance), BRAKE_LENGTH, "m",
     "Stopping distance from stop.speed, from first movement of the pedal."},
    {CASE(stop.time), BRAKE_TIME, "s", "Time of that stop."},
    {CASE(stop.sight_distance), BRAKE_LENGTH, "m", "Distance with stop.reaction_time."},
    {CASE(stop.energy), BRAKE_ENERGY, "kJ", "Energy of motion at stop.speed."},
    {CASE(stop.front_heat_share), BRAKE_RATIO, "%", "Share of it into the front brakes."},
    {CASE(stop.front_rise), BRAKE_RISE, "K",
     "Rise of the front rotors or drums in that stop, nothing lost."},
    {CASE(stop.rear_rise), BRAKE_RISE, "K",
     "Rise of the rear rotors or drums in that stop, nothing lost."},
    {CASE(parking.needed), BRAKE_TORQUE, "N*m", "Torque at the wheels to hold on 20 %."},
    {CASE(parking.available), BRAKE_TORQUE, "N*m", "Torque of the parking brake at the wheels."},
    {CASE(parking.margin), BRAKE_RATIO, "%", "Available over needed, less 1."},
    {CASE(parking.effort_grade), BRAKE_RATIO, "%", "Grade that its torque holds."},
    {CASE(parking.grade_up), BRAKE_RATIO, "%", "Grade that it holds nose uphill, tyres included."},
    {CASE(parking.grade_down), BRAKE_RATIO, "%",
     "Grade that it holds nose downhill, tyres included."},
    {CASE(parking.deceleration), BRAKE_ACCELERATION, "m/s2",
     "Deceleration by the parking brake alone."},
    {CASE(parking.trailer_grade), BRAKE_RATIO, "%",
     "Grade that its torque holds with the trailer."},
    {CASE(steering.pull), BRAKE_TORQUE, "N*m",
     "Torque at the steering from the left-right difference, at driver.target."},
    {CASE(tow.without_brakes), BRAKE_ACCELERATION, "m/s2",
     "Deceleration with the trailer, none of its brakes working."},
    {CASE(tow.as_stated), BRAKE_ACCELERATION, "m/s2",
     "Deceleration with the trailer, trailer.working of its brakes working."},
    {CASE(tow.all_brakes), BRAKE_ACCELERATION, "m/s2",
     "Deceleration with the trailer, all its brakes working."},
};

enum {
    COMMON_ROWS = sizeof common_rows / sizeof common_rows[0],
    CASE_ROWS = sizeof case_rows / sizeof case_rows[0]
};

static const char *const load_names[BRAKE_LOADS] = {"empty", "full"};

int brake_result_count(void)
{
    return COMMON_ROWS + BRAKE_LOADS * CASE_ROWS;
}

int brake_result_load(int index)
{
    return index < COMMON_ROWS ? -1 : (index - COMMON_ROWS) / CASE_ROWS;
}

const struct brake_result *brake_result_at(int index)
{
    return index < COMMON_ROWS ? &common_rows[index]
                               : &case_rows[(index - COMMON_ROWS) % CASE_ROWS];
}

void brake_result_path(int index, char *path, size_t size)
{
    if (index < COMMON_ROWS)
        brake_text_format(path, size, "%s", common_rows[index].name);
    else
        brake_text_format(path, size, "%s.%s", load_names[brake_result_load(index)],
                          brake_result_at(index)->name);
}

int brake_result_find(const char *path)
{
    for (int i = 0; i < brake_result_count(); i++) {
        char known[80];
        brake_result_path(i, known, sizeof known);
        if (strcmp(known, path) == 0)
            return i;
    }
    return -1;
}

bool brake_result_faded(int index)
{
    return index < COMMON_ROWS &&
           common_rows[index].offset >= offsetof(struct brake_common_results, fade);
}

double brake_result_value(const struct brake_results *results, int index)
{
    const char *at = (const char *)&results->common;
    double value;
    if (index >= COMMON_ROWS)
        at = (const char *)&results->load[brake_result_load(index)];
    memcpy(&value, at + brake_result_at(index)->offset, sizeof value);
    return value;
}
