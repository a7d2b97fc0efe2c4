/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/heat.h. */
#include "brake/heat.h"

#include <math.h>

#include "brake/constants.h"

double brake_effusivity(struct brake_solid solid)
{
    return sqrt(solid.conductivity * solid.density * solid.heat_capacity);
}

double brake_diffusivity(struct brake_solid solid)
{
    return solid.conductivity / (solid.density * solid.heat_capacity);
}

double brake_heat_share(struct brake_solid rotor, struct brake_solid pad, double cover)
{
    const double rotor_draw = brake_effusivity(rotor);
    return rotor_draw / (rotor_draw + cover * brake_effusivity(pad));
}

double brake_half_space_rise(struct brake_solid solid, double flux, double time, double depth)
{
    const double reach = sqrt(brake_diffusivity(solid) * time);
    const double ratio = depth / (2.0 * reach);
    return flux / solid.conductivity *
           (2.0 * reach / sqrt(BRAKE_PI) * exp(-ratio * ratio) - depth * erfc(ratio));
}

double brake_falling_flux_rise(struct brake_solid solid, double flux, double time, double duration)
{
    return 2.0 * flux / brake_effusivity(solid) * sqrt(time / BRAKE_PI) *
           (1.0 - 2.0 * time / (3.0 * duration));
}

/* Terms fall at least as 1/n^2: after so many of them none is above 1e-16. */
enum { LAST_TERM = 100000000 };

/* Rise when nothing has flowed in yet; the series below would not end for a time below 0. */
static double before(double time)
{
    return time < 0.0 ? BRAKE_NAN : 0.0;
}

double brake_slab_rise(const struct brake_slab *slab, double flux, double time, double depth)
{
    if (time <= 0.0)
        return before(time);
    const double fourier =
        brake_diffusivity(slab->solid) * time / (slab->thickness * slab->thickness);
    const double x = 1.0 - depth / slab->thickness;
    double series = 0.0;
    double decay = 1.0;
    for (int i = 1; decay > 1e-16 && i <= LAST_TERM; i++) {
        const double n = i;
        decay = exp(-n * n * BRAKE_PI * BRAKE_PI * fourier) / (n * n);
        series += (fmod(n, 2.0) > 0.0 ? -1.0 : 1.0) * decay * cos(n * BRAKE_PI * x);
    }
    return flux * slab->thickness / slab->solid.conductivity *
           (fourier + x * x / 2.0 - 1.0 / 6.0 - 2.0 / (BRAKE_PI * BRAKE_PI) * series);
}

/* Integral over time of the unit-flux rise of the heated face: the series of brake_slab_rise
 * integrated term by term, with the sum of 1/n^4 in closed form. */
static double slab_face_integral(const struct brake_slab *slab, double time)
{
    const double rate = brake_diffusivity(slab->solid) / (slab->thickness * slab->thickness);
    const double pi2 = BRAKE_PI * BRAKE_PI;
    double series = pi2 * pi2 / 90.0;
    double decay = 1.0;
    for (int i = 1; decay > 1e-16 && i <= LAST_TERM; i++) {
        const double n = i;
        decay = exp(-n * n * pi2 * rate * time) / (n * n * n * n);
        series -= decay;
    }
    return slab->thickness / slab->solid.conductivity *
           (rate * time * time / 2.0 + time / 3.0 - 2.0 / (pi2 * pi2 * rate) * series);
}

double brake_slab_falling_rise(const struct brake_slab *slab, double flux, double time,
                               double duration)
{
    if (time <= 0.0)
        return before(time);
    return brake_slab_rise(slab, flux, time, 0.0) -
           flux / duration * slab_face_integral(slab, time);
}

double brake_repeated_rise(double rise, double stops, double interval, double rate)
{
    if (interval * rate == 0.0)
        return rise * stops;
    return rise * expm1(-stops * interval * rate) / expm1(-interval * rate);
}

double brake_lump_rise(double power, double conductance, double capacity, double time)
{
    if (conductance == 0.0)
        return power * time / capacity;
    return -power / conductance * expm1(-time * conductance / capacity);
}

double brake_cooling_time(double from, double to, double rate)
{
    return log(from / to) / rate;
}

double brake_cooling_exponent(double slow, double fast, double cooling_slow, double cooling_fast)
{
    return log(cooling_fast / cooling_slow) / log(fast / slow);
}

double brake_thermal_stress(double modulus, double expansion, double poisson, double rise)
{
    return modulus * expansion * rise / (1.0 - poisson);
}
