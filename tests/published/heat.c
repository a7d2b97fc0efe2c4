/* SPDX-License-Identifier: MIT */
/* CV-24 to CV-30: heat. */
#include <math.h>

#include "brake/constants.h"
#include "brake/heat.h"
#include "brake/load.h"
#include "brake/parking.h"
#include "brake/stop.h"
#include "published.h"

/* Holman, Example 4-2. */
void cv_24_half_space_constant_flux(void **state)
{
    (void)state;
    const char *const id = "CV-24";
    const double k = given(id, "k");
    /* The case gives the diffusivity only; any split of rho c will do. */
    const struct brake_solid steel = {
        .conductivity = k, .density = k / given(id, "alpha"), .heat_capacity = 1.0};
    const double start = given(id, "t_initial");
    const double flux = given(id, "q");
    const double time = given(id, "time");
    check(id, "T0", start + brake_half_space_rise(steel, flux, time, given(id, "a_depth")));
    check(id, "T25", start + brake_half_space_rise(steel, flux, time, given(id, "b_depth")));
}

static struct brake_solid solid_of(const char *id)
{
    const struct brake_solid solid = {given(id, "k"), given(id, "rho"), given(id, "c")};
    return solid;
}

/* Newcomb 1960; Limpert, ch. 3. */
void cv_25_half_space_falling_flux(void **state)
{
    (void)state;
    const char *const id = "CV-25";
    const struct brake_solid iron = solid_of(id);
    const double flux = given(id, "q0");
    const double stop = given(id, "stop_time");
    const double most = brake_falling_flux_rise(iron, flux, stop / 2.0, stop);
    check(id, "e", brake_effusivity(iron));
    check(id, "T1", brake_falling_flux_rise(iron, flux, 1.0, stop));
    check(id, "Tmax", most);
    check(id, "Tend", brake_falling_flux_rise(iron, flux, stop, stop));
    const double coefficient = most * brake_effusivity(iron) / (flux * sqrt(stop));
    check(id, "coef", coefficient);
    /* Limpert's rounded coefficient in place of the exact one. */
    check(id, "T_lim", most * 0.527 / coefficient);
}

static double face(const struct brake_slab *slab, double time)
{
    const double stop = given("CV-26", "b_stop_time");
    return brake_slab_falling_rise(slab, given("CV-26", "b_q0"), time, stop);
}

/* Time of the largest rise, by golden section. */
static double time_of_most(const struct brake_slab *slab, double low, double high)
{
    const double golden = (sqrt(5.0) - 1.0) / 2.0;
    for (int cut = 0; cut < 40; cut++) {
        const double left = high - golden * (high - low);
        const double right = low + golden * (high - low);
        if (face(slab, left) < face(slab, right))
            low = left;
        else
            high = right;
    }
    return (low + high) / 2.0;
}

/* Carslaw and Jaeger, sec. 3.8. */
void cv_26_slab(void **state)
{
    (void)state;
    const char *const id = "CV-26";
    const struct brake_slab slab = {.solid = solid_of(id),
                                    .thickness = given(id, "half_thickness")};
    const double steady = given(id, "a_q");
    const double time = given(id, "a_time");
    const double stop = given(id, "b_stop_time");
    check(id, "al", brake_diffusivity(slab.solid));
    check(id, "Tc_surf", brake_slab_rise(&slab, steady, time, 0.0));
    check(id, "Tc_back", brake_slab_rise(&slab, steady, time, slab.thickness));
    check(id, "T1", face(&slab, 1.0));
    const double hottest = time_of_most(&slab, 0.0, stop);
    check(id, "tmax", hottest);
    check(id, "Tmax", face(&slab, hottest));
    check(id, "Tend", face(&slab, stop));
    check(id, "Tbulk",
          brake_bulk_rise(given(id, "b_q0") * stop / 2.0, slab.solid.density * slab.thickness,
                          slab.solid.heat_capacity));
}

/* Limpert, ch. 3; Newcomb 1960. */
void cv_27_repeated_and_downhill_braking(void **state)
{
    (void)state;
    const char *const id = "CV-27";
    const double rise = given(id, "a_rise_per_stop");
    const double interval = given(id, "a_interval");
    const double rate = given(id, "a_cooling_rate");
    const double tenth = brake_repeated_rise(rise, 10.0, interval, rate);
    check(id, "r1", brake_repeated_rise(rise, 1.0, interval, rate));
    check(id, "r10", tenth);
    check(id, "b10", tenth - rise);
    check(id, "rinf", brake_repeated_rise(rise, BRAKE_INFINITY, interval, rate));

    /* Forces go with m g: the mass makes up for the case's 9.81 m/s2. */
    const double mass = given(id, "b_mass") * given(id, "b_g") / BRAKE_GRAVITY;
    const double grade = given(id, "b_grade");
    /* A body right over the front axle puts its whole weight across the slope on it. */
    const struct brake_body on_front = {.mass = mass};
    const double across = brake_front_load(on_front, 1.0, 0.0, -atan(grade));
    const double force =
        brake_parking_needed(mass, grade, 1.0) - given(id, "b_rolling_resistance") * across;
    const double power = force * given(id, "b_speed");
    const double into_rotor = power * given(id, "b_front_share") / given(id, "b_n_front_rotors") *
                              given(id, "b_rotor_heat_share");
    check(id, "Fb", force);
    check(id, "P", power);
    check(id, "Pr", into_rotor);

    const double conductance = given(id, "b_h") * given(id, "b_area");
    const double capacity = given(id, "b_rotor_mass") * given(id, "b_specific_heat");
    const double ambient = given(id, "b_t_ambient");
    check(id, "Tinf", ambient + brake_lump_rise(into_rotor, conductance, capacity, BRAKE_INFINITY));
    check(id, "T300", ambient + brake_lump_rise(into_rotor, conductance, capacity, 300.0));
    /* The time constant is the time to cool to one e-th. */
    check(id, "tau", brake_cooling_time(exp(1.0), 1.0, conductance / capacity));
}

/* Holman, Example 4-1; McPhee and Johnson 2008. */
void cv_28_cooling(void **state)
{
    (void)state;
    const char *const id = "CV-28";
    const struct brake_solid steel = {given(id, "a_k"), given(id, "a_rho"), given(id, "a_c")};
    const double radius = given(id, "a_diameter") / 2.0;
    const double depth = radius / 3.0; /* volume of a ball over its surface */
    /* The rate is what 1 s of cooling at 1 K above the surroundings takes off, per area. */
    const double rate =
        brake_bulk_rise(given(id, "a_h"), steel.density * depth, steel.heat_capacity);
    const double ambient = given(id, "a_t_ambient");
    check(id, "lam", rate);
    check(id, "tau", brake_cooling_time(exp(1.0), 1.0, rate));
    check(id, "t",
          brake_cooling_time(given(id, "a_t_initial") - ambient, given(id, "a_t_final") - ambient,
                             rate));
    /* h V / (k A) = rate (V/A)^2 / diffusivity. */
    check(id, "Bi", rate * depth * depth / brake_diffusivity(steel));
    check(id, "expo",
          brake_cooling_exponent(given(id, "b_speed_1"), given(id, "b_speed_3"), given(id, "b_h_1"),
                                 given(id, "b_h_3")));
}

/* Limpert, ch. 3; Talati and Jalalifar 2009. */
void cv_29_heat_partition(void **state)
{
    (void)state;
    const char *const id = "CV-29";
    const double turn = 2.0 * BRAKE_PI;
    const struct brake_solid disc_a = {given(id, "a_k_disc"), given(id, "a_rho_disc"),
                                       given(id, "a_c_disc")};
    const struct brake_solid pad_a = {given(id, "a_k_pad"), given(id, "a_rho_pad"),
                                      given(id, "a_c_pad")};
    check(id, "e_d", brake_effusivity(disc_a));
    check(id, "e_p", brake_effusivity(pad_a));
    check(id, "gam", brake_heat_share(disc_a, pad_a, 1.0));
    check(id, "gam_area", brake_heat_share(disc_a, pad_a, given(id, "a_pad_arc") / turn));

    const struct brake_solid disc_b = {given(id, "b_k_disc"), given(id, "b_rho_disc"),
                                       given(id, "b_c_disc")};
    const struct brake_solid pad_b = {given(id, "b_k_pad"), given(id, "b_rho_pad"),
                                      given(id, "b_c_pad")};
    check(id, "e_dT", brake_effusivity(disc_b));
    check(id, "e_pT", brake_effusivity(pad_b));
    check(id, "gT", brake_heat_share(disc_b, pad_b, 1.0));
    check(id, "gTarea", brake_heat_share(disc_b, pad_b, given(id, "b_pad_arc") / turn));
}

/* Timoshenko and Goodier; properties of grade 20 iron. */
void cv_30_thermal_stress(void **state)
{
    (void)state;
    const char *const id = "CV-30";
    check(id, "s_bar",
          brake_thermal_stress(given(id, "c_e"), given(id, "c_alpha"), 0.0,
                               given(id, "c_t2") - given(id, "c_t1")));
    check(id, "s",
          brake_thermal_stress(given(id, "a_e"), given(id, "a_alpha"), given(id, "a_nu"),
                               given(id, "a_dt")));
    check(id, "s1",
          brake_thermal_stress(given(id, "b_e"), given(id, "b_alpha"), given(id, "b_nu"),
                               given(id, "b_dt")));
    const struct brake_solid iron = {given(id, "d_k"), given(id, "d_rho"), given(id, "d_c")};
    check(id, "al20", brake_diffusivity(iron));
}
