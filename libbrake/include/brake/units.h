/* SPDX-License-Identifier: MIT */
/** @file units.h
 * Units of the trade and what they measure.
 */
#ifndef BRAKE_UNITS_H
#define BRAKE_UNITS_H

#include <stdbool.h>

#ifdef __cplusplus
extern "C" {
#endif

/** What a number measures. */
enum brake_dimension {
    BRAKE_RATIO, /**< no unit, or % */
    BRAKE_LENGTH,
    BRAKE_AREA,
    BRAKE_VOLUME,
    BRAKE_ANGLE,
    BRAKE_TIME,
    BRAKE_SPEED,
    BRAKE_ACCELERATION,
    BRAKE_MASS,
    BRAKE_FORCE,
    BRAKE_PRESSURE,
    BRAKE_TORQUE,
    BRAKE_ENERGY,
    BRAKE_POWER,
    BRAKE_INERTIA,
    BRAKE_STIFFNESS,
    BRAKE_PRESSURE_PER_MASS,
    BRAKE_TORQUE_PER_PRESSURE,
    BRAKE_TEMPERATURE,
    BRAKE_RISE, /**< difference of temperature */
    BRAKE_HEAT_CAPACITY,
    BRAKE_DIMENSIONS /**< how many there are */
};

/** A unit: value in SI = factor x number + offset. */
struct brake_unit {
    const char *name;
    enum brake_dimension dimension;
    double factor; /**< [SI/unit] SI units in one of this */
    double offset; /**< [SI] value of its zero */
};

/** Whether a unit belongs to the US trade alone.
 * @param unit  any
 * @return      true for inch and pound, false for metre and kilogram, and for what both trades use
 */
bool brake_unit_of_us_trade(const struct brake_unit *unit);

/** Units known, in the order of the dimensions, the SI unit of each first.
 * @param index  0 and up
 * @return       the unit, NULL past the last
 */
const struct brake_unit *brake_unit_at(int index);

/** Unit of a name, whatever it measures: the first, as K is a temperature and a difference.
 * @param name  as written in a vehicle file, e.g. "mm", "lbf", "degF"
 * @return      the unit, NULL when there is none of that name
 */
const struct brake_unit *brake_unit_find(const char *name);

/** Unit of a name that measures this: of a line, a result.
 * @param name       as above
 * @param dimension  what is measured
 * @return           the unit, NULL when there is none of that name and dimension
 */
const struct brake_unit *brake_unit_of(const char *name, enum brake_dimension dimension);

/** SI unit of a dimension.
 * @param dimension  what is measured
 * @return           its SI unit; that of a ratio has an empty name
 */
const struct brake_unit *brake_unit_si(enum brake_dimension dimension);

/** Unit of the US trade for a dimension.
 * @param dimension  what is measured
 * @return           the unit; the SI unit where both trades use the same
 */
const struct brake_unit *brake_unit_us(enum brake_dimension dimension);

/** SI value of a number in a unit.
 * @param unit    its unit
 * @param number  [unit] the number as written
 * @return        [SI] value in the SI unit of the dimension
 */
double brake_unit_to_si(const struct brake_unit *unit, double number);

/** Number in a unit of an SI value.
 * @param unit   the unit wanted
 * @param value  [SI] in the SI unit of the dimension
 * @return       [unit] number to write
 */
double brake_unit_from_si(const struct brake_unit *unit, double value);

/** Names of the units of a dimension in one text, for messages.
 * @param dimension  what is measured
 * @param text       filled, cut to size
 * @param size       of text in bytes
 */
void brake_unit_names(enum brake_dimension dimension, char *text, unsigned size);

#ifdef __cplusplus
}
#endif

#endif
