/* SPDX-License-Identifier: MIT */
/* CV-20 to CV-23: tyre, truck, grade, energy. */
#include <math.h>

#include "brake/balance.h"
#include "brake/constants.h"
#include "brake/disc.h"
#include "brake/load.h"
#include "brake/parking.h"
#include "brake/stop.h"
#include "brake/tyre.h"
#include "published.h"

/* ETRTO Standards Manual. */
void cv_20_tyre_diameter(void **state)
{
    (void)state;
    const char *const id = "CV-20";
    /* Rims in plain inches as in the case; a marking gives the rounded figure of UN R30. */
    const double d205 =
        brake_tyre_diameter(given(id, "a_rim"), given(id, "a_width"), given(id, "a_aspect"));
    check(id, "D205", d205);
    check(id, "D195",
          brake_tyre_diameter(given(id, "b_rim"), given(id, "b_width"), given(id, "b_aspect")));
    check(id, "D225",
          brake_tyre_diameter(given(id, "c_rim"), given(id, "c_width"), given(id, "c_aspect")));
    check(id, "D175",
          brake_tyre_diameter(given(id, "d_rim"), given(id, "d_width"), given(id, "d_aspect")));
    /* The circumference belongs to the listed diameter, which is in whole millimetres. */
    const double circumference = brake_tyre_circumference(round(d205 * 1000.0) / 1000.0, true);
    check(id, "U205", circumference);
    check(id, "r205", brake_rolling_radius(circumference));
}

/* Wentzell, Example 16.4. */
void cv_21_truck_brake_torque(void **state)
{
    (void)state;
    const char *const id = "CV-21";
    const double distance = given(id, "distance");
    const double mass = given(id, "weight") / given(id, "g"); /* the book's 32.2 ft/s2 */
    const double speed = given(id, "speed_used");
    const double deceleration = brake_mfdd(speed, 0.0, distance);
    check(id, "a", deceleration);
    check(id, "F", brake_energy(mass, speed) / distance);

    const double radius = given(id, "tyre_diameter") / 2.0;
    const struct brake_balance truck = {
        .body = {.mass = mass},
        .wheelbase = 1.0,
        .axle = {{.gain = 0.4, .radius = radius, .wheels = 1.0},
                 {.gain = 0.6, .radius = radius, .wheels = 1.0}},
        .valve = {.knee = BRAKE_INFINITY},
    };
    const double pressure = brake_balance_pressure(&truck, deceleration);
    const double torque = brake_axle_torque(&truck, BRAKE_FRONT, pressure) +
                          brake_axle_torque(&truck, BRAKE_REAR, pressure);
    const double each = torque / given(id, "n_brakes");
    check(id, "T", torque);
    check(id, "Tw", each);
    /* The normal force that the book asks for is that of both faces together. */
    const struct brake_disc disc = {.area = 1.0,
                                    .radius = given(id, "brake_mean_radius"),
                                    .mu = given(id, "f"),
                                    .efficiency = 1.0};
    check(id, "N", 2.0 * brake_disc_clamp(&disc, each / brake_disc_torque(&disc, 1.0)));
}

/* Jazar, Vehicle Dynamics, ch. 2. */
void cv_22_holding_on_a_grade(void **state)
{
    (void)state;
    const char *const id = "CV-22";
    const double wheelbase = given(id, "a_wheelbase");
    const double mu = given(id, "a_mu");
    const struct brake_body car = {
        .mass = 1.0, .behind = given(id, "a_cg_behind_front"), .height = given(id, "a_cg_height")};
    check(id, "front_up",
          atan(brake_parking_adhesion(car, wheelbase, BRAKE_PARKING_FRONT, mu, 1.0)));
    check(id, "rear_up", atan(brake_parking_adhesion(car, wheelbase, BRAKE_PARKING_REAR, mu, 1.0)));
    check(id, "all", atan(brake_parking_adhesion(car, wheelbase, BRAKE_PARKING_ALL, mu, 1.0)));
    check(id, "front_dn",
          atan(brake_parking_adhesion(car, wheelbase, BRAKE_PARKING_FRONT, mu, -1.0)));
    check(id, "rear_dn",
          atan(brake_parking_adhesion(car, wheelbase, BRAKE_PARKING_REAR, mu, -1.0)));

    /* Force goes with m g: the mass makes up for the case's 9.81 m/s2. */
    const double mass = given(id, "b_mass") * given(id, "b_g") / BRAKE_GRAVITY;
    const double grade = given(id, "b_grade");
    check(id, "F20", brake_parking_needed(mass, grade, 1.0));
    check(id, "T20",
          brake_parking_needed(mass, grade, given(id, "b_wheel_radius")) /
              given(id, "b_n_braked_wheels"));
}

/* Wentzell, Example 16.5; Jindal, Example 23-5. */
void cv_23_energy_to_heat(void **state)
{
    (void)state;
    const char *const id = "CV-23";
    const double speed = given(id, "a_speed_used");
    const double mass = given(id, "a_weight") / given(id, "a_g"); /* the book's 32.2 ft/s2 */
    const double energy = brake_energy(mass, speed);
    const double time = brake_stop_time(speed, given(id, "a_deceleration"), 0.0, 0.0);
    check(id, "KE", energy);
    check(id, "dT",
          brake_bulk_rise(energy, given(id, "a_brake_mass"), given(id, "a_specific_heat")));
    check(id, "t", time);
    check(id, "hp", energy / time);

    const double v = given(id, "b_speed");
    const double deceleration = (v - given(id, "b_speed_end")) / given(id, "b_time");
    const double distance = brake_stop_distance(v, deceleration, 0.0, 0.0);
    const double effective = given(id, "b_mass") * (1.0 + given(id, "b_rotating_share"));
    const double each = brake_energy(effective, v) / given(id, "b_n_brakes");
    check(id, "S", distance);
    check(id, "E", each);
    check(id, "Tq", each / distance * given(id, "b_wheel_radius"));
    check(id, "dTc",
          brake_bulk_rise(each, given(id, "b_brake_mass"), given(id, "b_specific_heat")));
}
