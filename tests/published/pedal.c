/* SPDX-License-Identifier: MIT */
/* CV-10 and CV-11: hydraulics and booster. */
#include "brake/disc.h"
#include "brake/pedal.h"
#include "published.h"

static double pressure_of(double force, double ratio, double master_area)
{
    const struct brake_pedal plain = {
        .ratio = ratio,
        .efficiency = 1.0,
        .gain = 1.0,
        .assist = 0.0,
        .master_area = master_area,
        .master_efficiency = 1.0,
    };
    return brake_pedal_pressure(&plain, force);
}

static double piston_force(double area, double pressure)
{
    const struct brake_disc disc = {.area = area, .efficiency = 1.0};
    return brake_disc_clamp(&disc, pressure);
}

/* Esposito, Examples 3-5 and 3-13; Limpert, ch. 5. */
void cv_10_hydraulic_chain(void **state)
{
    (void)state;
    const char *const id = "CV-10";
    const double ratio = given(id, "a_lever_long") / given(id, "a_lever_short");
    const double pump = brake_piston_area(1.0, given(id, "a_pump_diameter"));
    const double load = brake_piston_area(1.0, given(id, "a_load_diameter"));
    const double pressure = pressure_of(given(id, "a_hand_force"), ratio, pump);
    check(id, "Frod", piston_force(pump, pressure));
    check(id, "p", pressure);
    check(id, "Fload", piston_force(load, pressure));
    check(id, "cyc", load * given(id, "a_load_stroke") / (pump * given(id, "a_pump_stroke")));

    const double area_in = given(id, "b_area_in");
    const double area_out = given(id, "b_area_out");
    check(id, "F2", piston_force(area_out, pressure_of(given(id, "b_force"), 1.0, area_in)));
    /* What one metre of the output piston takes tells the travel that the fluid gives. */
    check(id, "S2",
          brake_fluid_shoes(area_in, given(id, "b_travel_in")) / brake_fluid_shoes(area_out, 1.0));

    const double pedal_ratio = given(id, "c_pedal_ratio");
    const double master = brake_piston_area(1.0, given(id, "c_master_bore"));
    const double line = pressure_of(given(id, "c_pedal_force"), pedal_ratio, master);
    check(id, "p_mc", line);
    check(id, "F54", piston_force(brake_piston_area(1.0, given(id, "c_piston_diameter")), line));

    /* The piston of a floating caliper moves by the gaps of both pads; two calipers and two wheel
     * cylinders of two pistons are one axle each. */
    const double caliper = brake_piston_area(1.0, given(id, "d_caliper_piston_diameter"));
    const double cylinder = brake_piston_area(1.0, given(id, "d_wheel_cylinder_diameter"));
    const struct brake_fluid fluid = {
        .gaps = brake_fluid_gaps(caliper, given(id, "d_caliper_piston_travel") / 2.0),
        .shoes = brake_fluid_shoes(cylinder, given(id, "d_wheel_cylinder_travel")),
    };
    const double volume = brake_fluid_volume(&fluid, 0.0);
    check(id, "Vol", volume);
    check(id, "stroke", volume / master);
    check(id, "ped", volume / master * pedal_ratio);
}

/* Limpert, ch. 5. */
void cv_11_vacuum_booster(void **state)
{
    (void)state;
    const char *const id = "CV-11";
    const double gain = given(id, "boost_ratio");
    const double assist = brake_booster_assist(
        given(id, "vacuum"), brake_piston_area(1.0, given(id, "diaphragm_diameter")),
        given(id, "efficiency"));
    const double knee = brake_booster_knee(gain, assist);
    check(id, "Fmax", assist);
    check(id, "knee_in", knee);
    check(id, "knee_out", brake_booster_output(gain, assist, knee));
    check(id, "o500", brake_booster_output(gain, assist, given(id, "a_input")));
    check(id, "o1000", brake_booster_output(gain, assist, given(id, "b_input")));
}
