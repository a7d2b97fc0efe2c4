/* SPDX-License-Identifier: MIT */
/* CV-01 to CV-04, CV-31: disc brakes. */
#include "brake/constants.h"
#include "brake/disc.h"
#include "brake/pedal.h"
#include "published.h"

/* Clamp force on one pad at which both faces together give a torque. Clamp and torque are both
 * linear in pressure. */
static double clamp_for(const struct brake_disc *disc, double torque)
{
    return torque / brake_disc_torque(disc, 1.0) * brake_disc_clamp(disc, 1.0);
}

/* Shigley, Example 16-3. */
void cv_01_sector_pad(void **state)
{
    (void)state;
    const char *const id = "CV-01";
    const double inner = given(id, "r_i");
    const double outer = given(id, "r_o");
    const double arc = given(id, "sector_angle");
    const double torque = given(id, "n_pads") * given(id, "torque_per_pad");
    struct brake_disc disc = {
        .area = brake_piston_area(given(id, "cylinders_per_pad"), given(id, "cylinder_bore")),
        .radius = brake_radius_sector(inner, outer, BRAKE_UNIFORM_WEAR),
        .mu = given(id, "f"),
        .efficiency = 1.0,
    };
    check(id, "re_wear", disc.radius);
    const double clamp = clamp_for(&disc, torque);
    check(id, "F", clamp);
    check(id, "p_hyd", clamp / brake_disc_clamp(&disc, 1.0));
    check(id, "pa", brake_sector_pressure(clamp, inner, outer, arc, BRAKE_UNIFORM_WEAR));
    check(id, "rbar", brake_sector_force_radius(inner, outer, arc, BRAKE_UNIFORM_WEAR));

    disc.radius = brake_radius_sector(inner, outer, BRAKE_UNIFORM_PRESSURE);
    check(id, "re_press", disc.radius);
    const double even_clamp = clamp_for(&disc, torque);
    check(id, "F_press", even_clamp);
    check(id, "p_press",
          brake_sector_pressure(even_clamp, inner, outer, arc, BRAKE_UNIFORM_PRESSURE));
}

/* Wentzell, Example 16.1. */
void cv_02_uniform_wear_torque(void **state)
{
    (void)state;
    const char *const id = "CV-02";
    /* A brake of area 1 clamps by the figure of its pressure. */
    struct brake_disc disc = {.area = 1.0, .efficiency = 1.0};
    disc.mu = given(id, "a_f");
    disc.radius = brake_radius_sector(given(id, "a_r_i"), given(id, "a_r_o"), BRAKE_UNIFORM_WEAR);
    /* The library counts both faces of a rotor, the example one. */
    const double one_face = brake_disc_torque(&disc, given(id, "a_force")) / 2.0;
    check(id, "Tc", one_face);
    /* The book divides lbf*in x rev/min by 63 000; exact is 550 x 12 x 60 / (2 pi). */
    const double book_horsepower = 550.0 * 12.0 * 60.0 / (2.0 * BRAKE_PI) / 63000.0;
    check(id, "hpc", one_face * given(id, "a_speed") * book_horsepower);
}

/* Bhandari, Example 12.12. */
void cv_03_pad_angle(void **state)
{
    (void)state;
    const char *const id = "CV-03";
    const double inner = given(id, "r_i");
    const double outer = given(id, "r_o");
    const double pressure = given(id, "p_mean");
    const struct brake_disc disc = {
        .area = 1.0,
        .radius = brake_radius_sector(inner, outer, BRAKE_UNIFORM_PRESSURE),
        .mu = given(id, "mu"),
        .efficiency = 1.0,
    };
    check(id, "Rf", disc.radius);
    const double clamp = clamp_for(&disc, given(id, "torque"));
    check(id, "P", clamp);
    /* Mean pressure falls as the pad widens, so one radian tells the angle. */
    const double arc =
        brake_sector_pressure(clamp, inner, outer, 1.0, BRAKE_UNIFORM_PRESSURE) / pressure;
    check(id, "theta", arc);
    check(id, "A", clamp / brake_sector_pressure(clamp, inner, outer, arc, BRAKE_UNIFORM_PRESSURE));
}

/* Limpert, ch. 2: the pistons of one side count. */
void cv_04_fixed_and_floating_caliper(void **state)
{
    (void)state;
    const char *const id = "CV-04";
    const double pressure = given(id, "p");
    struct brake_disc disc = {
        .area = brake_piston_area(given(id, "a_n_pistons"), given(id, "a_piston_diameter")),
        .radius = given(id, "r_e"),
        .mu = given(id, "mu"),
        .efficiency = 1.0,
    };
    check(id, "A1", disc.area);
    check(id, "clamp_float", brake_disc_clamp(&disc, pressure));
    check(id, "T_float", brake_disc_torque(&disc, pressure));

    struct brake_disc lossy = disc;
    lossy.threshold = given(id, "c_p_pushout");
    lossy.efficiency = given(id, "c_efficiency");
    check(id, "T_loss", brake_disc_torque(&lossy, pressure));

    disc.area =
        brake_piston_area(given(id, "b_n_pistons_per_side"), given(id, "b_piston_diameter"));
    check(id, "clamp_fixed4", brake_disc_clamp(&disc, pressure));
    check(id, "T_fixed4", brake_disc_torque(&disc, pressure));
}

/* Shigley, Example 16-4. */
void cv_31_circular_pad(void **state)
{
    (void)state;
    const char *const id = "CV-31";
    const double pad = given(id, "pad_radius");
    const double centre = given(id, "centre_radius");
    const double clamp =
        given(id, "p_max") / brake_circle_pressure(1.0, pad, centre, BRAKE_UNIFORM_WEAR);
    const struct brake_disc disc = {.area = 1.0,
                                    .radius = brake_radius_circle(pad, centre, BRAKE_UNIFORM_WEAR),
                                    .mu = given(id, "f"),
                                    .efficiency = 1.0};
    check(id, "re", disc.radius);
    check(id, "p_av", brake_circle_pressure(clamp, pad, centre, BRAKE_UNIFORM_PRESSURE));
    check(id, "F", clamp);
    check(id, "T", brake_disc_torque(&disc, clamp) / 2.0); /* both faces are counted */
}
