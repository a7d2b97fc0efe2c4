/* SPDX-License-Identifier: MIT */
/* CV-12 to CV-14 and CV-19: axle loads, brake-force distribution, effective mass. */
#include "brake/balance.h"
#include "brake/constants.h"
#include "brake/load.h"
#include "brake/stop.h"
#include "published.h"

/* Bevan, ch. 8, Example 6. */
void cv_12_front_rear_or_all_brakes(void **state)
{
    (void)state;
    const char *const id = "CV-12";
    const double wheelbase = given(id, "wheelbase");
    const double speed = given(id, "speed") * given(id, "speed_factor");
    const struct brake_body car = {
        .mass = 1.0,
        .behind = wheelbase - given(id, "cg_ahead_of_rear"),
        .height = given(id, "cg_height"),
    };
    static const char *const stops[][3] = {{"S_rear1", "S_front1", "S_all1"},
                                           {"S_rear6", "S_front6", "S_all6"}};
    static const char *const ratios[] = {"ratio1", "ratio6"};
    static const char *const roads[] = {"a_mu", "b_mu"};
    /* Braking ratios do not depend on g, so the book's 32.2 ft/s2 comes in here only. */
    const double g = given(id, "g");
    for (int i = 0; i < 2; i++) {
        const double mu = given(id, roads[i]);
        const double ideal = brake_ideal_share(car, wheelbase, mu);
        const double rear = brake_lock_ratio(car, wheelbase, 0.0, 0.0, mu, BRAKE_REAR);
        const double front = brake_lock_ratio(car, wheelbase, 1.0, 0.0, mu, BRAKE_FRONT);
        /* At the ideal share both axles reach the limit of the road together. */
        const double all = brake_lock_ratio(car, wheelbase, ideal, 0.0, mu, BRAKE_FRONT);
        check(id, stops[i][0], brake_stop_distance(speed, rear * g, 0.0, 0.0));
        check(id, stops[i][1], brake_stop_distance(speed, front * g, 0.0, 0.0));
        check(id, stops[i][2], brake_stop_distance(speed, all * g, 0.0, 0.0));
        check(id, ratios[i], ideal / (1.0 - ideal));
    }
    const double weight = car.mass * BRAKE_GRAVITY;
    const double load = brake_front_load(car, wheelbase, given(id, "b_mu") * BRAKE_GRAVITY, 0.0);
    check(id, "Wf6", load / weight);
    check(id, "Wr6", 1.0 - load / weight);
}

/* Mannering and Washburn, Example 2.7. */
void cv_13_ideal_proportioning(void **state)
{
    (void)state;
    const char *const id = "CV-13";
    const struct brake_body car = {
        .mass = 1.0, .behind = given(id, "cg_behind_front"), .height = given(id, "cg_height")};
    const double rolling = brake_rolling_resistance(given(id, "speed"));
    check(id, "frl", rolling);
    const double share = brake_ideal_share(car, given(id, "wheelbase"), given(id, "mu") + rolling);
    check(id, "front", share);
    check(id, "rear", 1.0 - share);
    check(id, "BFR", share / (1.0 - share));
}

/* Wong, ch. 3: the car with a fixed ratio of brake forces. */
void cv_14_which_axle_locks_first(void **state)
{
    (void)state;
    const char *const id = "CV-14";
    const double wheelbase = given(id, "wheelbase");
    const double share = given(id, "front_share");
    const double rolling = given(id, "rolling_resistance");
    const double dry = given(id, "a_mu");
    const double wet = given(id, "b_mu");
    const struct brake_body car = {
        .mass = 1.0, .behind = given(id, "cg_behind_front"), .height = given(id, "cg_height")};

    const double front8 = brake_lock_ratio(car, wheelbase, share, rolling, dry, BRAKE_FRONT);
    const double rear8 = brake_lock_ratio(car, wheelbase, share, rolling, dry, BRAKE_REAR);
    check(id, "zf8", front8 * BRAKE_GRAVITY);
    check(id, "zr8", rear8 * BRAKE_GRAVITY);
    check(id, "eta8", rear8 / dry);
    const double front2 = brake_lock_ratio(car, wheelbase, share, rolling, wet, BRAKE_FRONT);
    const double rear2 = brake_lock_ratio(car, wheelbase, share, rolling, wet, BRAKE_REAR);
    check(id, "zf2", front2 * BRAKE_GRAVITY);
    check(id, "zr2", rear2 * BRAKE_GRAVITY);
    check(id, "eta2", front2 / wet);
    check(id, "zf8_0",
          BRAKE_GRAVITY * brake_lock_ratio(car, wheelbase, share, 0.0, dry, BRAKE_FRONT));
    check(id, "zr8_0",
          BRAKE_GRAVITY * brake_lock_ratio(car, wheelbase, share, 0.0, dry, BRAKE_REAR));

    /* The same car by its axles: without inertia and rolling resistance the deceleration at which
     * the rear takes the lead is the friction of the road, in g. */
    const struct brake_balance balance = {
        .body = car,
        .wheelbase = wheelbase,
        .axle = {{.gain = share, .radius = 1.0, .wheels = 1.0},
                 {.gain = 1.0 - share, .radius = 1.0, .wheels = 1.0}},
        .valve = {.knee = BRAKE_INFINITY},
    };
    check(id, "mu_c", brake_balance_rear_first(&balance, 0.0) / BRAKE_GRAVITY);
}

/* Wong, ch. 3: rotating parts. */
void cv_19_rotating_parts(void **state)
{
    (void)state;
    const char *const id = "CV-19";
    check(id, "g41", brake_mass_factor(given(id, "a_ratio")));
    check(id, "g14", brake_mass_factor(given(id, "b_ratio")));

    const double per_axle = given(id, "c_n_wheels") / 2.0 * given(id, "c_wheel_inertia");
    const double radius = given(id, "c_rolling_radius");
    const struct brake_balance balance = {
        .body = {.mass = given(id, "c_mass")},
        .axle = {{.inertia = per_axle, .radius = radius}, {.inertia = per_axle, .radius = radius}},
    };
    const double effective = brake_effective_mass(&balance);
    check(id, "meq", effective);
    check(id, "k", effective / balance.body.mass);
    check(id, "Ekin", brake_energy(effective, given(id, "c_speed")));
}
