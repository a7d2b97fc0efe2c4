/* SPDX-License-Identifier: MIT */
/* CV-05 to CV-09: drum and band brakes. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "brake/constants.h"
#include "brake/disc.h"
#include "brake/drum.h"
#include "brake/parking.h"
#include "published.h"

struct short_shoe {
    double mu;
    double arm_force;
    double arm_normal;
    double arm_friction;
};

/* 1 for a leading shoe that lets go, -1 for one that locks by itself. */
static double freedom(const struct short_shoe *shoe)
{
    const double factor = brake_shoe_factor_short(shoe->mu, shoe->arm_force, shoe->arm_normal,
                                                  shoe->arm_friction, BRAKE_LEADING);
    return isnan(factor) ? -1.0 : 1.0;
}

static double freedom_by_friction_arm(double arm, const void *with)
{
    struct short_shoe shoe = *(const struct short_shoe *)with;
    shoe.arm_friction = arm;
    return freedom(&shoe);
}

static double freedom_by_mu(double mu, const void *with)
{
    struct short_shoe shoe = *(const struct short_shoe *)with;
    shoe.mu = mu;
    return freedom(&shoe);
}

static double short_factor(const struct short_shoe *shoe, enum brake_lead lead)
{
    return brake_shoe_factor_short(shoe->mu, shoe->arm_force, shoe->arm_normal, shoe->arm_friction,
                                   lead);
}

/* The book's self-energizing ratio, normal force over what applies the shoe. */
static double ratio_by_friction_arm(double arm, const void *with)
{
    struct short_shoe shoe = *(const struct short_shoe *)with;
    shoe.arm_friction = arm;
    return short_factor(&shoe, BRAKE_LEADING) / shoe.mu;
}

/* Norton, Example 17-2. */
void cv_05_short_shoes(void **state)
{
    (void)state;
    const char *const id = "CV-05";
    const double radius = given(id, "r");
    const struct short_shoe shoe = {given(id, "mu"), given(id, "a"), given(id, "b"), 0.0};
    const double arm = solve(ratio_by_friction_arm, &shoe, given(id, "ratio"), 0.0, 3.0 * radius);
    const double lock = solve(freedom_by_friction_arm, &shoe, 0.0, 0.0, 10.0 * radius);
    check(id, "c", arm);
    check(id, "c_over_r", arm / radius);
    check(id, "c_lock", lock);
    check(id, "c_lock_over_r", lock / radius);
}

static double factor_of(const struct brake_shoe *shoe, double mu, enum brake_lead lead)
{
    double factor;
    return brake_shoe_factor(shoe, mu, lead, &factor) == BRAKE_OK ? factor : BRAKE_NAN;
}

/* Shigley, Example 16-2. */
void cv_06_long_shoes(void **state)
{
    (void)state;
    const char *const id = "CV-06";
    const double mu = given(id, "f");
    const double width = given(id, "face_width");
    const double peak = given(id, "p_a");
    struct brake_shoe shoe = {
        .drum_radius = given(id, "drum_diameter") / 2.0,
        .pivot_radius = hypot(given(id, "pivot_offset_1"), given(id, "pivot_offset_2")),
        .force_arm = given(id, "c"),
        .heel = given(id, "theta1"),
        .toe = given(id, "theta2"),
    };
    double normal;
    double friction;
    brake_shoe_moments(&shoe, &normal, &friction);
    check(id, "MN", normal * peak * width);
    check(id, "Mf", mu * friction * peak * width);
    const double force = peak / brake_shoe_pressure(&shoe, mu, BRAKE_LEADING, 1.0, width);
    check(id, "F", force);
    check(id, "p_trail", brake_shoe_pressure(&shoe, mu, BRAKE_TRAILING, force, width));

    struct brake_drum drum = {.area = 1.0, .radius = shoe.drum_radius, .efficiency = 1.0};
    drum.factor = factor_of(&shoe, mu, BRAKE_LEADING);
    check(id, "T_lead", brake_drum_torque(&drum, force));
    drum.factor = factor_of(&shoe, mu, BRAKE_TRAILING);
    check(id, "T_trail", brake_drum_torque(&drum, force));
    assert_int_equal(brake_drum_factor_shape(&shoe, BRAKE_LEADING_TRAILING, mu, &drum.factor),
                     BRAKE_OK);
    check(id, "T", brake_drum_torque(&drum, force));

    /* The pivot distance restates the givens; the published normal moment, which is proportional
     * to it, must lead back to it. */
    shoe.pivot_radius = 1.0;
    brake_shoe_moments(&shoe, &normal, &friction);
    check(id, "a", answer(id, "MN") / (normal * peak * width));
}

/* Bhandari, Example 12.9. */
void cv_07_four_shoes(void **state)
{
    (void)state;
    const char *const id = "CV-07";
    const double mu = given(id, "mu");
    const double width = given(id, "w");
    const double peak = given(id, "p_max");
    const struct brake_shoe shoe = {
        .drum_radius = given(id, "r"),
        .pivot_radius = given(id, "pivot_distance"),
        .force_arm = given(id, "force_arm"),
        .heel = given(id, "theta1"),
        .toe = given(id, "theta2"),
    };
    double normal;
    double friction;
    brake_shoe_moments(&shoe, &normal, &friction);
    check(id, "MN", normal * peak * width);
    check(id, "Mf", mu * friction * peak * width);
    const double force = peak / brake_shoe_pressure(&shoe, mu, BRAKE_LEADING, 1.0, width);
    check(id, "P", force);
    check(id, "p_trail", brake_shoe_pressure(&shoe, mu, BRAKE_TRAILING, force, width) / peak);

    struct brake_drum drum = {.area = 1.0, .radius = shoe.drum_radius, .efficiency = 1.0};
    drum.factor = factor_of(&shoe, mu, BRAKE_LEADING);
    check(id, "T_lead", brake_drum_torque(&drum, force));
    drum.factor = factor_of(&shoe, mu, BRAKE_TRAILING);
    check(id, "T_trail", brake_drum_torque(&drum, force));
    assert_int_equal(brake_drum_factor_shape(&shoe, BRAKE_LEADING_TRAILING, mu, &drum.factor),
                     BRAKE_OK);
    check(id, "T4", given(id, "n_shoe_pairs") * brake_drum_torque(&drum, force));
}

/* Rigid shoes; ranges in Breuer and Bill, Brake Technology Handbook. */
void cv_08_brake_factors(void **state)
{
    (void)state;
    const char *const id = "CV-08";
    const double height = given(id, "h");
    const double radius = given(id, "r");
    struct short_shoe shoe = {given(id, "a_mu"), 2.0 * height, height, given(id, "friction_arm")};
    double leading = short_factor(&shoe, BRAKE_LEADING);
    double trailing = short_factor(&shoe, BRAKE_TRAILING);
    double link = brake_drum_link(leading, radius, height, height);
    check(id, "S_lead", leading);
    check(id, "S_trail", trailing);
    check(id, "Fx_ratio", link);
    check(id, "C_LT", brake_drum_factor(BRAKE_LEADING_TRAILING, leading, trailing, link));
    check(id, "C_2L", brake_drum_factor(BRAKE_TWO_LEADING, leading, trailing, link));
    check(id, "C_duo", brake_drum_factor(BRAKE_DUO_SERVO, leading, trailing, link));
    check(id, "mu_lock", solve(freedom_by_mu, &shoe, 0.0, 0.0, 2.0));

    /* C* of a disc: torque over piston force and radius. */
    const struct brake_disc disc = {.area = 1.0, .radius = 1.0, .mu = shoe.mu, .efficiency = 1.0};
    check(id, "C_disc", brake_disc_torque(&disc, 1.0));

    shoe.mu = given(id, "b_mu");
    leading = short_factor(&shoe, BRAKE_LEADING);
    trailing = short_factor(&shoe, BRAKE_TRAILING);
    link = brake_drum_link(leading, radius, height, height);
    check(id, "C_LT35", brake_drum_factor(BRAKE_LEADING_TRAILING, leading, trailing, link));
    check(id, "C_duo35", brake_drum_factor(BRAKE_DUO_SERVO, leading, trailing, link));
}

/* Bhandari, Example 12.10. */
void cv_09_band_brake(void **state)
{
    (void)state;
    const char *const id = "CV-09";
    const double ratio = brake_band_ratio(given(id, "mu"), given(id, "wrap_angle"));
    const double tight =
        given(id, "band_stress") * given(id, "band_width") * given(id, "band_thickness");
    const double slack = tight / ratio;
    check(id, "P2", slack);
    /* The tight side restates the givens; the published slack side must lead back to it. */
    check(id, "P1", answer(id, "P2") * ratio);
    check(id, "T", (tight - slack) * given(id, "r"));
    check(id, "P",
          (slack * given(id, "slack_arm") - tight * given(id, "tight_arm")) /
              given(id, "lever_arm"));
}
