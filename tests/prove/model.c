/* SPDX-License-Identifier: MIT */
/* Entry point of the first part of `make prove`: abstract interpretation of the physics, called
 * with any numbers at all, infinities and NaN included. No alarm means that no run reads or writes
 * outside an object, reads what was not set, overflows or shifts an integer out of range, or
 * divides one by zero.
 *
 * Left out: brake_marking_read, which walks a text by strncmp, of which the analysis knows only
 * the prototype. The sanitizers watch it instead.
 */
#include "any.h"

#include "brake/disc.h"
#include "brake/drum.h"
#include "brake/fit.h"
#include "brake/load.h"
#include "brake/pedal.h"
#include "brake/status.h"
#include "brake/tyre.h"

enum { POINTS = 6 };

static void tables(void)
{
    //@ loop unroll 300;
    for (int i = 0; i < 256; i++)
        brake_speed_symbol((char)(i - 128));
    brake_load_index_mass(whole(-2147483647, 2147483647));
    brake_status_message((enum brake_status)whole(-100, 100));
}

static void tyres_and_load(void)
{
    const struct brake_body a = {any(), any(), any()};
    const struct brake_body b = {any(), any(), any()};
    brake_rim_diameter(any());
    brake_rolling_radius(any());
    brake_speed_true_over_shown(any(), any(), any(), any());
    brake_wheel_inertia_estimate(any(), any(), any());
    brake_cg_behind_front(any(), any(), any());
    brake_tyre_circumference(brake_tyre_diameter(any(), any(), any()), whole(0, 1));
    brake_wheel_inertia_swing(any(), any(), any(), any());
    brake_front_load(brake_body_sum(a, b), any(), any(), any());
    brake_cg_height_tilt(any(), any(), any(), any(), any());
    brake_cg_rise(any(), any(), any(), any());
}

static void hydraulics(void)
{
    const struct brake_pedal pedal = {any(), any(), any(), any(), any()};
    const struct brake_valve valve = {any(), any()};
    const struct brake_fluid fluid = {any(), any(), any(), any(), any(), any()};
    brake_piston_area(any(), any());
    brake_booster_assist(any(), any(), any());
    brake_accumulator_pressure(any(), any(), any(), any());
    brake_booster_input(any(), any(), brake_booster_output(any(), any(), any()));
    brake_booster_knee(any(), any());
    brake_valve_knee_sensed(any(), any(), any(), any(), any());
    brake_fluid_sum(brake_fluid_calipers(brake_fluid_gaps(any(), any())),
                    brake_fluid_share(fluid, brake_fluid_shoes(any(), any())));
    brake_pedal_force(&pedal, brake_pedal_pressure(&pedal, any()));
    brake_valve_pressure(valve, any());
    brake_fluid_pressure(&fluid, brake_fluid_volume(&fluid, any()));
    brake_fluid_seated(&fluid, any());
    brake_split_share((enum brake_split)whole(0, 5), whole(0, 1), (enum brake_axle)whole(0, 1));
}

static void brakes(void)
{
    const struct brake_shoe shoe = {any(), any(), any(), any(), any()};
    const struct brake_shoe other = {any(), any(), any(), any(), any()};
    const struct brake_drum drum = {any(), any(), any(), any(), any()};
    const struct brake_disc disc = {any(), any(), any(), any(), any()};
    const enum brake_contact contact = (enum brake_contact)whole(0, 1);
    struct brake_point corner[POINTS];
    double result;
    for (int i = 0; i < POINTS; i++)
        corner[i] = (struct brake_point){any(), any()};
    brake_radius_polygon(corner, whole(-1, POINTS), contact, &result);
    brake_radius_rectangle(any(), any(), any(), contact, &result);
    brake_radius_sector(any(), any(), contact);
    brake_radius_circle(any(), any(), contact);
    brake_circle_pressure(any(), any(), any(), contact);
    brake_sector_force_radius(any(), any(), any(), contact);
    brake_sector_pressure(any(), any(), any(), any(), contact);
    brake_disc_torque(&disc, any());
    brake_shoe_factor(&shoe, any(), (enum brake_lead)whole(0, 1), &result);
    brake_shoe_factor_short(any(), any(), any(), any(), (enum brake_lead)whole(0, 1));
    brake_drum_factor_servo(&shoe, any(), &other, any(), &result);
    brake_drum_torque(&drum, any());
    brake_drum_factor_shape(&shoe, (enum brake_shoes)whole(0, 2), any(), &result);
    brake_shoe_pressure(&shoe, any(), (enum brake_lead)whole(0, 1), any(), any());
}

static void fits(void)
{
    struct brake_point point[POINTS];
    struct brake_valve valve;
    struct brake_pedal pedal = {any(), any(), any(), any(), any()};
    for (int i = 0; i < POINTS; i++)
        point[i] = (struct brake_point){any(), any()};
    brake_fit_valve(point, whole(-1, POINTS), &valve);
    brake_fit_booster(point, whole(-1, POINTS), &pedal);
}

int main(void)
{
    tables();
    tyres_and_load();
    hydraulics();
    brakes();
    fits();
    return 0;
}
