/* Equations and sources: brake/convection.h. */
#include "brake/convection.h"

#include <math.h>

/* Specific gas constant of dry air [J/(kg K)]; its Prandtl number is 0.71 at 250 K, 0.69
 * at 800 K. */
static const double GAS = 287.05;
#define PRANDTL 0.70
#define PRANDTL_ROOT 0.88790400174260069 /* PRANDTL^(1/3) */

struct brake_air brake_air_at(double temperature, double pressure)
{
    struct brake_air air = {BRAKE_NAN, BRAKE_NAN};
    if (!(temperature > 0.0 && pressure > 0.0))
        return air;
    const double warmth = temperature / 273.0 * sqrt(temperature / 273.0);
    const double viscosity = 1.716e-5 * warmth * (273.0 + 111.0) / (temperature + 111.0);
    air.conductivity = 0.0241 * warmth * (273.0 + 194.0) / (temperature + 194.0);
    air.viscosity = viscosity * GAS * temperature / pressure;
    return air;
}

double brake_convection_face(struct brake_air air, double speed, double diameter)
{
    const double laminar_to = 2.4e5;
    const double turbulent_from = 3.0e5;
    const double reynolds = speed * diameter / air.viscosity;
    if (reynolds <= laminar_to)
        return 0.70 * air.conductivity / diameter * pow(reynolds, 0.55);
    const double turbulent = 0.04 * pow(reynolds, 0.8);
    const double part = (reynolds - laminar_to) / (turbulent_from - laminar_to);
    if (part >= 1.0)
        return air.conductivity / diameter * turbulent;
    const double laminar = 0.70 * pow(reynolds, 0.55);
    return air.conductivity / diameter * (laminar + part * (turbulent - laminar));
}

/* Mean over the face of local coefficients: laminar h = 0.36 k sqrt(w / nu) is the same at every
 * radius; turbulent h = 0.0195 k r^0.6 (w / nu)^0.8 averages to 0.015 (2 / 2.6 of 0.0195). */
double brake_convection_disc(struct brake_air air, double spin, double radius)
{
    const double transition = 2.5e5;
    const double reynolds = spin * radius * radius / air.viscosity;
    const double laminar = 0.36 * sqrt(reynolds);
    if (reynolds <= transition)
        return air.conductivity / radius * laminar;
    const double area = transition / reynolds; /* (r_t / R)^2 */
    const double turbulent = 0.015 * pow(reynolds, 0.8) * (1.0 - pow(area, 1.3));
    return air.conductivity / radius * (laminar * area + turbulent);
}

double brake_convection_vanes(struct brake_air air, double spin, const struct brake_vanes *vanes)
{
    const double stanton = 0.00485;
    const double length = vanes->outer_radius - vanes->inner_radius;
    const double slender = vanes->hydraulic_diameter / length;
    const double entering = spin * sqrt(vanes->outer_radius * vanes->outer_radius -
                                        vanes->inner_radius * vanes->inner_radius);
    const double mean = 0.5 * entering * (1.0 + vanes->inlet_area / vanes->outlet_area);
    const double stored = PRANDTL * air.conductivity / air.viscosity; /* rho c_p */
    return stanton * (1.0 + pow(slender, 0.67)) * stored * mean;
}

double brake_convection_drum(struct brake_air air, double speed, double diameter)
{
    const double reynolds = speed * diameter / air.viscosity;
    return 0.1 * air.conductivity / diameter * pow(reynolds, 2.0 / 3.0);
}

double brake_convection_cylinder(struct brake_air air, double speed, double diameter)
{
    /* 0.62 Pr^(1/3) / (1 + (0.4 / Pr)^(2/3))^(1/4) at PRANDTL */
    const double front = 0.62 * PRANDTL_ROOT / 1.1399412586756799;
    const double reynolds = speed * diameter / air.viscosity;
    const double share = reynolds / 282000.0;
    const double root = sqrt(share);
    const double rough = pow(1.0 + root * sqrt(sqrt(root)), 0.8); /* root^(5/4) = share^(5/8) */
    return air.conductivity / diameter * (0.3 + front * sqrt(reynolds) * rough);
}

double brake_convection_mixed(double forced, double still)
{
    if (still == 0.0)
        return forced;
    const double sum = forced * forced * forced * forced + still * still * still * still;
    return sqrt(sqrt(sum));
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

static double forced(const struct brake_cooling *cooling, double speed, struct brake_air air)
{
    switch (cooling->law) {
    case BRAKE_COOLING_FACE:
        return brake_convection_face(air, speed, cooling->diameter);
    case BRAKE_COOLING_DISC:
        return brake_convection_disc(air, speed / cooling->rolling_radius, cooling->diameter / 2.0);
    case BRAKE_COOLING_VANES:
        return brake_convection_vanes(air, speed / cooling->rolling_radius, &cooling->vanes);
    case BRAKE_COOLING_DRUM:
        return brake_convection_drum(air, speed, cooling->diameter);
    default:
        return brake_convection_cylinder(air, speed, cooling->diameter);
    }
}

double brake_cooling_coefficient(const struct brake_cooling *cooling, double speed, double film,
                                 double pressure)
{
    const double forward = speed > 0.0 ? speed : speed * 0.0; /* a NaN stays */
    if (cooling->law == BRAKE_COOLING_FIXED)
        return cooling->factor;
    if (cooling->law == BRAKE_COOLING_POWER)
        return brake_convection_mixed(cooling->factor * pow(forward, cooling->exponent),
                                      cooling->still);
    const struct brake_air air = brake_air_at(film, pressure);
    return brake_convection_mixed(cooling->factor * forced(cooling, forward, air), cooling->still);
}
