/* SPDX-License-Identifier: MIT */
/* Of `make prove`: friction that follows temperature, what cools, and heat in closed form. */
#include "any.h"

#include "brake/convection.h"
#include "brake/friction.h"
#include "brake/heat.h"

static void curves(void)
{
    double x[BRAKE_CURVE_POINTS], y[BRAKE_CURVE_POINTS];
    struct brake_friction friction;
    struct brake_curve curve;
    struct brake_band band;
    for (int i = 0; i < BRAKE_CURVE_POINTS; i++) {
        x[i] = any();
        y[i] = any();
    }
    if (brake_curve_build(x, y, whole(-1, BRAKE_CURVE_POINTS + 1), &curve) == BRAKE_OK) {
        friction.temperature = friction.speed = friction.pressure = curve;
        brake_curve_at(&curve, any());
        brake_friction_at(&friction, any(), any(), any());
    }
    brake_friction_usual(any(), any(), &friction);
    brake_edge_band((char)whole(-128, 127), &band);
    brake_friction_edge((char)whole(-128, 127), (char)whole(-128, 127),
                        (enum brake_band_end)whole(0, 1), &friction);
}

static void cooling(void)
{
    const struct brake_air air = {any(), any()};
    const struct brake_vanes vanes = {any(), any(), any(), any(), any()};
    struct brake_cooling surface;
    Frama_C_make_unknown((char *)&surface, sizeof surface);
    surface.law = (enum brake_cooling_law)whole(-1, BRAKE_COOLING_LAWS);
    if (brake_cooling_usable(&surface))
        brake_cooling_coefficient(&surface, any(), any(), any());
    brake_air_at(any(), any());
    brake_convection_face(air, any(), any());
    brake_convection_disc(air, any(), any());
    brake_convection_vanes(air, any(), &vanes);
    brake_convection_drum(air, any(), any());
    brake_convection_cylinder(air, any(), any());
    brake_convection_mixed(any(), any());
}

static void walls(void)
{
    const struct brake_solid rotor = {any(), any(), any()}, pad = {any(), any(), any()};
    const struct brake_slab slab = {rotor, any()};
    brake_effusivity(rotor);
    brake_diffusivity(rotor);
    brake_heat_share(rotor, pad, any());
    brake_half_space_rise(rotor, any(), any(), any());
    brake_falling_flux_rise(rotor, any(), any(), any());
    brake_slab_rise(&slab, any(), any(), any());
    brake_slab_falling_rise(&slab, any(), any(), any());
    brake_repeated_rise(any(), any(), any(), any());
    brake_lump_rise(any(), any(), any(), any());
    brake_cooling_time(any(), any(), any());
    brake_cooling_exponent(any(), any(), any(), any());
    brake_thermal_stress(any(), any(), any(), any());
}

int main(void)
{
    curves();
    cooling();
    walls();
    return 0;
}
