/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/convection.h. */
#include "brake/convection.h"

#define WIDTH 1
#include "cooling.h"

struct brake_air brake_air_at(double temperature, double pressure)
{
    const struct airs air = airs_at(temperature, pressure);
    return (struct brake_air){air.conductivity, 1.0 / air.per_viscosity};
}

static struct airs as_airs(struct brake_air air)
{
    return (struct airs){air.conductivity, 1.0 / air.viscosity};
}

double brake_convection_face(struct brake_air air, double speed, double diameter)
{
    return face_cooling(as_airs(air), speed, diameter, 1.0 / diameter);
}

double brake_convection_disc(struct brake_air air, double spin, double radius)
{
    return disc_cooling(as_airs(air), spin, radius, 1.0 / radius);
}

double brake_convection_vanes(struct brake_air air, double spin, const struct brake_vanes *vanes)
{
    return vanes_cooling(as_airs(air), spin * pumped_by(vanes), stirring_of(slenderness(vanes)));
}

double brake_convection_drum(struct brake_air air, double speed, double diameter)
{
    return drum_cooling(as_airs(air), speed, diameter, 1.0 / diameter);
}

double brake_convection_cylinder(struct brake_air air, double speed, double diameter)
{
    return cylinder_cooling(as_airs(air), speed, diameter, 1.0 / diameter);
}

double brake_convection_mixed(double forced, double still)
{
    return mixed_cooling(forced, still);
}

static int within(double value, double low, double high)
{
    return value >= low && value <= high;
}

static int vanes_usable(const struct brake_cooling *cooling)
{
    const struct brake_vanes *vanes = &cooling->vanes;
    return within(vanes->inner_radius, 0.0, 10.0) &&
           within(vanes->outer_radius, vanes->inner_radius, 10.0) &&
           vanes->outer_radius > vanes->inner_radius && within(vanes->inlet_area, 1e-12, 1e3) &&
           within(vanes->outlet_area, 1e-12, 1e3) && within(vanes->hydraulic_diameter, 1e-6, 10.0);
}

int brake_cooling_usable(const struct brake_cooling *cooling)
{
    const enum brake_cooling_law law = cooling->law;
    if (!(within(cooling->area, 0.0, 1e4) && within(cooling->emissivity, 0.0, 1.0) &&
          within(cooling->still, 0.0, 1e6) && within(cooling->factor, 0.0, 1e6)))
        return 0;
    switch (law) {
    case BRAKE_COOLING_FIXED:
        return 1;
    case BRAKE_COOLING_POWER:
        return within(cooling->exponent, 0.0, 3.0);
    case BRAKE_COOLING_VANES:
        return within(cooling->rolling_radius, 1e-3, 1e3) && vanes_usable(cooling);
    case BRAKE_COOLING_DISC:
        return within(cooling->rolling_radius, 1e-3, 1e3) && within(cooling->diameter, 1e-3, 1e3);
    case BRAKE_COOLING_FACE:
    case BRAKE_COOLING_DRUM:
    case BRAKE_COOLING_CYLINDER:
        return within(cooling->diameter, 1e-3, 1e3);
    default:
        return 0;
    }
}

double brake_cooling_coefficient(const struct brake_cooling *cooling, double speed, double film,
                                 double pressure)
{
    struct surface surface;
    clear_surface(&surface);
    put_surface(cooling, 0, &surface);
    complete_surface(&surface);
    return cooling_of(&surface, speed, film, pressure);
}
