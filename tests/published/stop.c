/* SPDX-License-Identifier: MIT */
/* CV-15 to CV-18: stopping distances. */
#include <math.h>

#include "brake/constants.h"
#include "brake/stop.h"
#include "brake/tyre.h"
#include "published.h"

struct slowing {
    double from;
    double to;
    double mass_factor;
    double adhesion;
    double rolling;
    double slope;
    double gravity; /* the library's over the book's */
};

static double distance_by_efficiency(double efficiency, const void *with)
{
    const struct slowing *s = with;
    return s->gravity * brake_slow_distance(s->from, s->to, s->mass_factor,
                                            efficiency * s->adhesion, s->rolling, s->slope);
}

/* Mannering and Washburn, Example 2.10. */
void cv_15_stop_on_a_grade(void **state)
{
    (void)state;
    const char *const id = "CV-15";
    const double distance = given(id, "distance");
    /* Turns of the wheel without slip; a wheel of rolling radius r goes r / radius(1 m) a turn. */
    const double turns = given(id, "engine_speed") / (2.0 * BRAKE_PI) / given(id, "overall_ratio");
    const double per_turn = given(id, "wheel_radius") / brake_rolling_radius(1.0);
    struct slowing slowing = {
        .from = turns * (1.0 - given(id, "slip")) * per_turn,
        .to = given(id, "speed_end"),
        .mass_factor = given(id, "mass_factor"),
        .adhesion = given(id, "a_mu"),
        .slope = atan(given(id, "grade")),
        .gravity = BRAKE_GRAVITY / given(id, "g"), /* distance goes with 1/g */
    };
    slowing.rolling = brake_rolling_resistance((slowing.from + slowing.to) / 2.0);
    check(id, "V1", slowing.from);
    check(id, "frl", slowing.rolling);
    check(id, "eta", solve(distance_by_efficiency, &slowing, distance, 0.1, 3.0));
    slowing.adhesion = given(id, "b_mu");
    check(id, "eta9", solve(distance_by_efficiency, &slowing, distance, 0.1, 3.0));
    check(id, "S", distance_by_efficiency(answer(id, "eta9"), &slowing));
}

/* AASHTO, A Policy on Geometric Design of Highways and Streets. */
void cv_16_stopping_sight_distance(void **state)
{
    (void)state;
    const char *const id = "CV-16";
    const double mph = 0.44704;
    const double foot = 0.3048;

    const double v60 = given(id, "a_speed");
    const double t60 = given(id, "a_reaction_time");
    const double a60 = given(id, "a_deceleration");
    check(id, "exact60", brake_stop_distance(v60, a60, t60, 0.0));
    /* The policy rounds 22/15 ft/s a mph to 1.47 in the one term and (22/15)^2 / 2 to 1.075 in
     * the other: the speeds that those factors stand for. */
    const double reacting60 = v60 / mph * 1.47 * foot;
    const double braking60 = v60 / mph * sqrt(2.0 * 1.075) * foot;
    const double r60 = brake_stop_distance(reacting60, a60, t60, 0.0) -
                       brake_stop_distance(reacting60, a60, 0.0, 0.0);
    const double b60 = brake_stop_distance(braking60, a60, 0.0, 0.0);
    check(id, "r60", r60);
    check(id, "b60", b60);
    check(id, "s60", r60 + b60);

    /* In SI 1/3.6 is rounded to 0.278 and 1/(2 x 3.6^2) to 0.039. */
    const double kmh100 = given(id, "b_speed") * 3.6;
    const double t100 = given(id, "b_reaction_time");
    const double a100 = given(id, "b_deceleration");
    const double reacting100 = kmh100 * 0.278;
    const double braking100 = kmh100 * sqrt(2.0 * 0.039);
    const double r100 = brake_stop_distance(reacting100, a100, t100, 0.0) -
                        brake_stop_distance(reacting100, a100, 0.0, 0.0);
    const double b100 = brake_stop_distance(braking100, a100, 0.0, 0.0);
    check(id, "r100", r100);
    check(id, "b100", b100);
    check(id, "s100", r100 + b100);
}

/* UN Regulation 13-H, Annex 3. */
void cv_17_mean_fully_developed_deceleration(void **state)
{
    (void)state;
    const char *const id = "CV-17";
    const double v = given(id, "a_speed");
    const double linear = given(id, "a_coef_linear");
    const double begin = given(id, "c_speed_begin");
    const double end = given(id, "c_speed_end");
    const double required = given(id, "a_dm");

    /* The lag whose distance is the regulation's linear term. */
    const double lag = linear * v / brake_stop_allowed(v, 1.0, 0.0);
    check(id, "delay", lag);
    check(id, "S100", brake_stop_allowed(v, lag, given(id, "a_coef_square")));
    /* The coefficient of v^2 is the distance from 1 km/h. */
    const double one = 1.0 / 3.6;
    check(id, "coef", brake_stop_distance(one, required, 0.0, 0.0));
    check(id, "coef2", brake_stop_distance(one, given(id, "b_dm"), 0.0, 0.0));
    check(id, "s8010", brake_slow_distance(begin, end, 1.0, required / BRAKE_GRAVITY, 0.0, 0.0));
    check(id, "dm", brake_mfdd(begin, end, given(id, "c_distance")));
}

/* Mitschke; Bosch Automotive Handbook. */
void cv_18_reaction_and_build_up(void **state)
{
    (void)state;
    const char *const id = "CV-18";
    const double v = given(id, "v0");
    const double a = given(id, "deceleration");
    const double delay = given(id, "delay");
    const double rise = given(id, "rise_time");
    const double time = brake_stop_time(v, a, delay, rise);
    check(id, "S", brake_stop_distance(v, a, delay, rise));
    check(id, "T", time);
    check(id, "S0", brake_stop_distance(v, a, 0.0, 0.0));
    /* What is left after the rise is shed at the full deceleration. */
    check(id, "vramp", a * (time - delay - rise));
}
