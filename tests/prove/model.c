/* SPDX-License-Identifier: MIT */
/* Entry point of `make prove`: abstract interpretation of the physics, called with any numbers at
 * all, infinities and NaN included. No alarm means that no run reads or writes outside an object,
 * reads what was not set, overflows or shifts an integer out of range, or divides one by zero.
 *
 * Left out: brake_marking_read, which walks a text by strncmp, of which the analysis knows only
 * the prototype. The sanitizers watch it instead.
 */
#include "__fc_builtin.h"

#include "brake/balance.h"
#include "brake/disc.h"
#include "brake/drum.h"
#include "brake/fit.h"
#include "brake/heat.h"
#include "brake/load.h"
#include "brake/parking.h"
#include "brake/pedal.h"
#include "brake/status.h"
#include "brake/stop.h"
#include "brake/tow.h"
#include "brake/tyre.h"

enum { POINTS = 6 };

/* Any number at all, NaN and the infinities too. */
static volatile double unknown;

static double any(void)
{
    return unknown;
}

static int whole(int low, int high)
{
    return Frama_C_interval(low, high);
}

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
    brake_pedal_force(&pedal, brake_pedal_pressure(&pedal, any()));
    brake_valve_pressure(valve, any());
    brake_fluid_pressure(&fluid, brake_fluid_volume(&fluid, any()));
    brake_split_share((enum brake_split)whole(0, 5), whole(0, 1), (enum brake_axle)whole(0, 1));
}

static void brakes(void)
{
    const struct brake_shoe shoe = {any(), any(), any(), any(), any()};
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
    brake_disc_torque(&disc, any());
    brake_shoe_factor(&shoe, any(), (enum brake_lead)whole(0, 1), &result);
    brake_drum_factor_shape(&shoe, (enum brake_shoes)whole(0, 2), any(), &result);
    brake_shoe_pressure(&shoe, any(), (enum brake_lead)whole(0, 1), any(), any());
}

/* Locks are left out: version 25 of the analyser dies on the loop over several roads. */
static void balances(void)
{
    struct brake_balance balance = {.body = {any(), any(), any()},
                                    .wheelbase = any(),
                                    .rolling = any(),
                                    .valve = {any(), any()},
                                    .hold = {any(), any()},
                                    .locked = whole(0, 1)};
    for (int i = 0; i < BRAKE_AXLES; i++)
        balance.axle[i] =
            (struct brake_axle_brakes){any(), any(), any(), any(), any(), any(), any()};
    brake_balance_at(&balance, any());
    brake_balance_pressure(&balance, any());
    brake_balance_rear_first(&balance, any());
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

static void stops_and_heat(void)
{
    const struct brake_slab slab = {{any(), any(), any()}, any()};
    brake_stop_distance(any(), any(), any(), any());
    brake_slow_distance(any(), any(), any(), any(), any(), any());
    brake_slab_rise(&slab, any(), any(), any());
    brake_slab_falling_rise(&slab, any(), any(), any());
    brake_repeated_rise(any(), any(), any(), any());
}

int main(void)
{
    tables();
    tyres_and_load();
    hydraulics();
    brakes();
    balances();
    fits();
    stops_and_heat();
    return 0;
}
