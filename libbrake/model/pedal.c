/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/pedal.h. */
#include "brake/pedal.h"

#include <math.h>

#include "formulas.h"

double brake_piston_area(double count, double diameter)
{
    return count * BRAKE_PI / 4.0 * diameter * diameter;
}

double brake_booster_assist(double pressure, double area, double efficiency)
{
    return efficiency * pressure * area;
}

double brake_accumulator_pressure(double charged, double precharge, double exponent, double drawn)
{
    const double full = charged + BRAKE_ATMOSPHERE;
    const double least = pow((precharge + BRAKE_ATMOSPHERE) / full, 1.0 / exponent);
    const double gas = least + drawn * (1.0 - least);
    return drawn > 1.0 ? 0.0 : full * pow(least / gas, exponent) - BRAKE_ATMOSPHERE;
}

double brake_booster_output(double gain, double assist, double input)
{
    return booster_output(gain, assist, input);
}

double brake_booster_input(double gain, double assist, double output)
{
    return booster_input(gain, assist, output);
}

double brake_booster_knee(double gain, double assist)
{
    return booster_knee(gain, assist);
}

double brake_pedal_pressure(const struct brake_pedal *pedal, double force)
{
    return pedal_pressure(pedal, force);
}

double brake_pedal_force(const struct brake_pedal *pedal, double pressure)
{
    return pedal_force(pedal, pressure);
}

double brake_valve_pressure(struct brake_valve valve, double pressure)
{
    return valve_pressure(valve, pressure);
}

double brake_valve_knee_sensed(double knee, double rate, double load, double lift, double stiffness)
{
    return most_of(0.0, knee + rate * (load - lift * stiffness / BRAKE_GRAVITY));
}

double brake_fluid_gaps(double area, double gap)
{
    return 4.0 * area * gap;
}

double brake_fluid_shoes(double area, double travel)
{
    return 4.0 * area * travel;
}

/* At 30 bar 3/7 x 0.3 + 4/7 x 1.1 x 30/40 = 0.6 of what 100 bar takes. */
struct brake_fluid brake_fluid_calipers(double volume)
{
    const struct brake_fluid pair = {
        .compliance = 2.0 * volume * 3.0 / 7.0 / 1e7,
        .seating = 2.0 * volume * 4.0 / 7.0 * (1e7 + SEATING_PRESSURE) / 1e7,
    };
    return pair;
}

double brake_fluid_seated(const struct brake_fluid *fluid, double pressure)
{
    return fluid_seated(fluid, pressure);
}

struct brake_fluid brake_fluid_sum(struct brake_fluid a, struct brake_fluid b)
{
    return fluid_sum(a, b);
}

struct brake_fluid brake_fluid_share(struct brake_fluid fluid, double share)
{
    const struct brake_fluid part = {
        .gaps = fluid.gaps * share,
        .shoes = fluid.shoes * share,
        .take_up = fluid.take_up * share,
        .compliance = fluid.compliance * share,
        .seating = fluid.seating * share,
        .hoses = fluid.hoses * share,
        .air = fluid.air * share,
    };
    return part;
}

/* Its slope [m3/Pa]. */
static double elastic_rise(const struct brake_fluid *fluid, double pressure)
{
    const double seat = pressure + SEATING_PRESSURE;
    const double air = pressure + BRAKE_ATMOSPHERE;
    return fluid->compliance + fluid->hoses + fluid->seating * SEATING_PRESSURE / (seat * seat) +
           fluid->air * BRAKE_ATMOSPHERE / (air * air);
}

double brake_fluid_volume(const struct brake_fluid *fluid, double pressure)
{
    return fluid_volume(fluid, pressure);
}

/* It begins where the volume would be left with all of seating and air already taken, which is
 * below the root, and ends where rounding stops the rise. */
double brake_fluid_pressure(const struct brake_fluid *fluid, double volume)
{
    const double left = volume - fluid_closing(fluid);
    const double stiff = fluid->compliance + fluid->hoses;
    const double beyond = left - fluid->seating - fluid->air;
    if (left <= 0.0)
        return 0.0;
    if (stiff == 0.0 && beyond >= 0.0)
        return BRAKE_INFINITY;
    double pressure = beyond > 0.0 ? beyond / stiff : 0.0;
    for (;;) {
        const double next =
            pressure + (left - fluid_elastic(fluid, pressure)) / elastic_rise(fluid, pressure);
        if (!(next > pressure))
            return next;
        pressure = next;
    }
}

struct brake_share brake_split_share(enum brake_split split, int circuit, enum brake_axle axle)
{
    static const struct brake_share share[][2][BRAKE_AXLES] = {
        [BRAKE_SPLIT_II] = {{{1.0, 1.0}, {0.0, 0.0}}, {{0.0, 0.0}, {1.0, 1.0}}},
        [BRAKE_SPLIT_X] = {{{0.5, 0.5}, {0.5, 0.5}}, {{0.5, 0.5}, {0.5, 0.5}}},
        [BRAKE_SPLIT_HI] = {{{0.5, 1.0}, {1.0, 1.0}}, {{0.5, 1.0}, {0.0, 0.0}}},
        [BRAKE_SPLIT_LL] = {{{0.5, 1.0}, {0.5, 0.5}}, {{0.5, 1.0}, {0.5, 0.5}}},
        [BRAKE_SPLIT_HH] = {{{0.5, 1.0}, {0.5, 1.0}}, {{0.5, 1.0}, {0.5, 1.0}}},
        [BRAKE_SPLIT_ONE] = {{{1.0, 1.0}, {1.0, 1.0}}, {{0.0, 0.0}, {0.0, 0.0}}},
    };
    static const struct brake_share none = {BRAKE_NAN, BRAKE_NAN};
    if ((unsigned)split > BRAKE_SPLIT_ONE || (unsigned)circuit > 1 || (unsigned)axle >= BRAKE_AXLES)
        return none;
    return share[split][circuit][axle];
}
