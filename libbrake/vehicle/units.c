/* SPDX-License-Identifier: MIT */
/* Factors: NIST Special Publication 811, Appendix B (exact definitions of inch, pound, standard
 * gravity, standard atmosphere); inHg at 0 degC. */
#include "brake/units.h"

#include "trade.h"

#include <stdio.h>
#include <string.h>

#include "brake/constants.h"
#include "text.h"

#define INCH 0.0254
#define FOOT 0.3048
#define POUND 0.45359237
#define POUND_FORCE (POUND * BRAKE_GRAVITY)
#define PSI (POUND_FORCE / (INCH * INCH))

static const struct brake_unit units[] = {
    {"", BRAKE_RATIO, 1.0, 0.0},
    {"%", BRAKE_RATIO, 0.01, 0.0},
    {"m", BRAKE_LENGTH, 1.0, 0.0},
    {"mm", BRAKE_LENGTH, 0.001, 0.0},
    {"cm", BRAKE_LENGTH, 0.01, 0.0},
    {"km", BRAKE_LENGTH, 1000.0, 0.0},
    {"in", BRAKE_LENGTH, INCH, 0.0},
    {"ft", BRAKE_LENGTH, FOOT, 0.0},
    {"mi", BRAKE_LENGTH, 5280.0 * FOOT, 0.0},
    {"m2", BRAKE_AREA, 1.0, 0.0},
    {"cm2", BRAKE_AREA, 1e-4, 0.0},
    {"mm2", BRAKE_AREA, 1e-6, 0.0},
    {"in2", BRAKE_AREA, INCH *INCH, 0.0},
    {"ft2", BRAKE_AREA, FOOT *FOOT, 0.0},
    {"m3", BRAKE_VOLUME, 1.0, 0.0},
    {"cm3", BRAKE_VOLUME, 1e-6, 0.0},
    {"mm3", BRAKE_VOLUME, 1e-9, 0.0},
    {"mL", BRAKE_VOLUME, 1e-6, 0.0},
    {"L", BRAKE_VOLUME, 1e-3, 0.0},
    {"in3", BRAKE_VOLUME, INCH *INCH *INCH, 0.0},
    {"rad", BRAKE_ANGLE, 1.0, 0.0},
    {"deg", BRAKE_ANGLE, BRAKE_PI / 180.0, 0.0},
    {"s", BRAKE_TIME, 1.0, 0.0},
    {"ms", BRAKE_TIME, 0.001, 0.0},
    {"min", BRAKE_TIME, 60.0, 0.0},
    {"h", BRAKE_TIME, 3600.0, 0.0},
    {"m/s", BRAKE_SPEED, 1.0, 0.0},
    {"km/h", BRAKE_SPEED, 1.0 / 3.6, 0.0},
    {"mph", BRAKE_SPEED, 5280.0 * FOOT / 3600.0, 0.0},
    {"ft/s", BRAKE_SPEED, FOOT, 0.0},
    {"m/s2", BRAKE_ACCELERATION, 1.0, 0.0},
    {"g0", BRAKE_ACCELERATION, BRAKE_GRAVITY, 0.0},
    {"ft/s2", BRAKE_ACCELERATION, FOOT, 0.0},
    {"kg", BRAKE_MASS, 1.0, 0.0},
    {"g", BRAKE_MASS, 0.001, 0.0},
    {"t", BRAKE_MASS, 1000.0, 0.0},
    {"lb", BRAKE_MASS, POUND, 0.0},
    {"N", BRAKE_FORCE, 1.0, 0.0},
    {"kN", BRAKE_FORCE, 1000.0, 0.0},
    {"kgf", BRAKE_FORCE, BRAKE_GRAVITY, 0.0},
    {"lbf", BRAKE_FORCE, POUND_FORCE, 0.0},
    {"Pa", BRAKE_PRESSURE, 1.0, 0.0},
    {"kPa", BRAKE_PRESSURE, 1e3, 0.0},
    {"MPa", BRAKE_PRESSURE, 1e6, 0.0},
    {"bar", BRAKE_PRESSURE, 1e5, 0.0},
    {"mbar", BRAKE_PRESSURE, 100.0, 0.0},
    {"psi", BRAKE_PRESSURE, PSI, 0.0},
    {"ksi", BRAKE_PRESSURE, 1000.0 * PSI, 0.0},
    {"inHg", BRAKE_PRESSURE, 3386.389, 0.0},
    {"N*m", BRAKE_TORQUE, 1.0, 0.0},
    {"N*mm", BRAKE_TORQUE, 0.001, 0.0},
    {"lbf*ft", BRAKE_TORQUE, POUND_FORCE *FOOT, 0.0},
    {"lbf*in", BRAKE_TORQUE, POUND_FORCE *INCH, 0.0},
    {"J", BRAKE_ENERGY, 1.0, 0.0},
    {"kJ", BRAKE_ENERGY, 1e3, 0.0},
    {"MJ", BRAKE_ENERGY, 1e6, 0.0},
    {"ft*lbf", BRAKE_ENERGY, FOOT *POUND_FORCE, 0.0},
    {"W", BRAKE_POWER, 1.0, 0.0},
    {"kW", BRAKE_POWER, 1e3, 0.0},
    {"hp", BRAKE_POWER, 550.0 * FOOT *POUND_FORCE, 0.0},
    {"kg*m2", BRAKE_INERTIA, 1.0, 0.0},
    {"lb*ft2", BRAKE_INERTIA, POUND *FOOT *FOOT, 0.0},
    {"N/m", BRAKE_STIFFNESS, 1.0, 0.0},
    {"N/mm", BRAKE_STIFFNESS, 1000.0, 0.0},
    {"lbf/in", BRAKE_STIFFNESS, POUND_FORCE / INCH, 0.0},
    {"Pa/kg", BRAKE_PRESSURE_PER_MASS, 1.0, 0.0},
    {"bar/kg", BRAKE_PRESSURE_PER_MASS, 1e5, 0.0},
    {"psi/lb", BRAKE_PRESSURE_PER_MASS, PSI / POUND, 0.0},
    {"N*m/Pa", BRAKE_TORQUE_PER_PRESSURE, 1.0, 0.0},
    {"N*m/bar", BRAKE_TORQUE_PER_PRESSURE, 1e-5, 0.0},
    {"lbf*ft/psi", BRAKE_TORQUE_PER_PRESSURE, POUND_FORCE *FOOT / PSI, 0.0},
    {"K", BRAKE_TEMPERATURE, 1.0, 0.0},
    {"degC", BRAKE_TEMPERATURE, 1.0, 273.15},
    {"degF", BRAKE_TEMPERATURE, 5.0 / 9.0, 459.67 * 5.0 / 9.0},
    {"K", BRAKE_RISE, 1.0, 0.0},
    {"degF rise", BRAKE_RISE, 5.0 / 9.0, 0.0},
    {"J/(kg*K)", BRAKE_HEAT_CAPACITY, 1.0, 0.0},
    {"Btu/(lb*degF)", BRAKE_HEAT_CAPACITY, 4186.8, 0.0},
};

static const char *const us_names[BRAKE_DIMENSIONS] = {
    [BRAKE_RATIO] = "",
    [BRAKE_LENGTH] = "in",
    [BRAKE_AREA] = "in2",
    [BRAKE_VOLUME] = "in3",
    [BRAKE_ANGLE] = "deg",
    [BRAKE_TIME] = "s",
    [BRAKE_SPEED] = "mph",
    [BRAKE_ACCELERATION] = "ft/s2",
    [BRAKE_MASS] = "lb",
    [BRAKE_FORCE] = "lbf",
    [BRAKE_PRESSURE] = "psi",
    [BRAKE_TORQUE] = "lbf*ft",
    [BRAKE_ENERGY] = "ft*lbf",
    [BRAKE_POWER] = "hp",
    [BRAKE_INERTIA] = "lb*ft2",
    [BRAKE_STIFFNESS] = "lbf/in",
    [BRAKE_PRESSURE_PER_MASS] = "psi/lb",
    [BRAKE_TORQUE_PER_PRESSURE] = "lbf*ft/psi",
    [BRAKE_TEMPERATURE] = "degF",
    [BRAKE_RISE] = "degF rise",
    [BRAKE_HEAT_CAPACITY] = "Btu/(lb*degF)",
};

enum { UNITS = sizeof units / sizeof units[0] };

bool brake_unit_of_us_trade(const struct brake_unit *unit)
{
    static const char *const names[] = {
        "in",     "ft",        "mi",         "in2",          "ft2",    "in3",    "mph",
        "ft/s",   "ft/s2",     "lb",         "lbf",          "psi",    "ksi",    "inHg",
        "lbf*ft", "lbf*in",    "ft*lbf",     "hp",           "lb*ft2", "lbf/in", "psi/lb",
        "degF",   "degF rise", "lbf*ft/psi", "Btu/(lb*degF)"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (strcmp(unit->name, names[i]) == 0)
            return true;
    }
    return false;
}

const struct brake_unit *brake_unit_at(int index)
{
    return index >= 0 && index < UNITS ? &units[index] : NULL;
}

const struct brake_unit *brake_unit_find(const char *name)
{
    for (int i = 0; i < UNITS; i++) {
        if (strcmp(units[i].name, name) == 0)
            return &units[i];
    }
    return NULL;
}

const struct brake_unit *brake_unit_of(const char *name, enum brake_dimension dimension)
{
    for (int i = 0; i < UNITS; i++) {
        if (units[i].dimension == dimension && strcmp(units[i].name, name) == 0)
            return &units[i];
    }
    return NULL;
}

const struct brake_unit *brake_unit_si(enum brake_dimension dimension)
{
    const struct brake_unit *unit = units;
    while (unit->dimension != dimension)
        unit++;
    return unit;
}

const struct brake_unit *brake_unit_us(enum brake_dimension dimension)
{
    return brake_unit_of(us_names[dimension], dimension);
}

double brake_unit_to_si(const struct brake_unit *unit, double number)
{
    return number * unit->factor + unit->offset;
}

double brake_unit_from_si(const struct brake_unit *unit, double value)
{
    return (value - unit->offset) / unit->factor;
}

void brake_unit_names(enum brake_dimension dimension, char *text, unsigned size)
{
    unsigned used = 0;
    text[0] = '\0';
    for (int i = 0; i < UNITS && used < size; i++) {
        if (units[i].dimension == dimension && units[i].name[0] != '\0')
            used += (unsigned)brake_text_format(text + used, size - used, used ? ", %s" : "%s",
                                                units[i].name);
    }
}

const struct brake_unit *brake_unit_beside(const struct brake_unit *unit)
{
    static const char *const beside[][2] = {
        {"m", "ft"}, {"km", "mi"}, {"m2", "ft2"}, {"kPa", "inHg"}}; /* of a vacuum */
    for (size_t i = 0; i < sizeof beside / sizeof beside[0]; i++) {
        if (strcmp(unit->name, beside[i][0]) == 0)
            return brake_unit_find(beside[i][1]);
    }
    if (unit->dimension == BRAKE_RATIO || unit->dimension == BRAKE_TIME)
        return unit;
    return brake_unit_us(unit->dimension);
}
