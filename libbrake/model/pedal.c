/* Equations and sources: brake/pedal.h. */
#include "brake/pedal.h"

#include <math.h>

#include "formulas.h"

double brake_piston_area(double count, double diameter)
{
    return count * BRAKE_PI / 4.0 * diameter * diameter;
}

double brake_booster_assist(double vacuum, double area, double efficiency)
{
    return efficiency * vacuum * area;
}

double brake_booster_output(double gain, double assist, double input)
{
    return booster_output(gain, assist, input);
}

double brake_booster_input(double gain, double assist, double output)
{
    return most_of(output / gain, output - assist);
}

double brake_booster_knee(double gain, double assist)
{
    return gain <= 1.0 ? BRAKE_INFINITY : assist / (gain - 1.0);
}

double brake_pedal_pressure(const struct brake_pedal *pedal, double force)
{
    return pedal_pressure(pedal, force);
}

double brake_pedal_force(const struct brake_pedal *pedal, double pressure)
{
    const double output = pressure * pedal->master_area / pedal->master_efficiency;
    return brake_booster_input(pedal->gain, pedal->assist, output) /
           (pedal->ratio * pedal->efficiency);
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

struct brake_fluid brake_fluid_sum(struct brake_fluid a, struct brake_fluid b)
{
    const struct brake_fluid sum = {
        .gaps = a.gaps + b.gaps,
        .shoes = a.shoes + b.shoes,
        .take_up = a.take_up + b.take_up,
        .compliance = a.compliance + b.compliance,
        .hoses = a.hoses + b.hoses,
        .air = a.air + b.air,
    };
    return sum;
}

struct brake_fluid brake_fluid_share(struct brake_fluid fluid, double share)
{
    const struct brake_fluid part = {
        .gaps = fluid.gaps * share,
        .shoes = fluid.shoes * share,
        .take_up = fluid.take_up * share,
        .compliance = fluid.compliance * share,
        .hoses = fluid.hoses * share,
        .air = fluid.air * share,
    };
    return part;
}

static double closing_volume(const struct brake_fluid *fluid)
{
    return fluid->gaps + fluid->shoes + fluid->take_up;
}

double brake_fluid_volume(const struct brake_fluid *fluid, double pressure)
{
    return closing_volume(fluid) + (fluid->compliance + fluid->hoses) * pressure +
           fluid->air * pressure / (pressure + BRAKE_ATMOSPHERE);
}

/* c p + V_a p / (p + p_atm) = v, v what is left after closing the gaps:
 * c p^2 + (c p_atm + V_a - v) p - v p_atm = 0, written so that no difference of near equals forms.
 */
double brake_fluid_pressure(const struct brake_fluid *fluid, double volume)
{
    const double left = volume - closing_volume(fluid);
    const double c = fluid->compliance + fluid->hoses;
    if (left <= 0.0)
        return 0.0;
    const double b = c * BRAKE_ATMOSPHERE + fluid->air - left;
    const double root = sqrt(b * b + 4.0 * c * left * BRAKE_ATMOSPHERE);
    if (b > 0.0)
        return 2.0 * left * BRAKE_ATMOSPHERE / (b + root);
    return c > 0.0 || isnan(b) ? (root - b) / (2.0 * c) : BRAKE_INFINITY;
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
