/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include "brake/duty.h"
#include "vehicle/text.h"
#include "sequences.h"

static const double WANTED = 30.0;        /* [K] of fluid margin; common practice, no source */
static const double TRANSFORMS = 1003.15; /* [K] 730 degC: pearlite of grey iron; Fe-C diagram */
static const double FADES = 573.15;       /* [K] where brake_friction_usual begins to fall */
static const double FELT = 1.2;           /* [-] rise of pedal force; common practice, no source */

struct list {
    struct brake_warning *warning;
    int count;
};

__attribute__((format(printf, 3, 4))) static void add(struct list *list, enum brake_warned of,
                                                      const char *format, ...)
{
    struct brake_warning *warning = &list->warning[list->count++];
    va_list values;
    warning->id = brake_warning_id(of);
    va_start(values, format);
    brake_text_format_list(warning->text, sizeof warning->text, format, values);
    va_end(values);
}

static double celsius(double temperature)
{
    return temperature - 273.15;
}

static void warn_of_driver(const struct brake_duty *duty, const struct brake_duty_result *result,
                           struct list *list)
{
    if (!result->held && result->shortfall > 0.0)
        add(list, BRAKE_WARNS_HEAT_NOT_HELD,
            "%.0f N on the pedal do not hold what is asked for: %.2f m/s2 are missing.",
            duty->force, result->shortfall);
    else if (!result->held && duty->stops.count > 1)
        add(list, BRAKE_WARNS_HEAT_NOT_SLOWED,
            "The vehicle is not slowed in time: number %d is not over when the next is due.",
            result->applications);
    else if (!result->held)
        add(list, BRAKE_WARNS_HEAT_NOT_SLOWED, "The vehicle is not slowed to %.0f km/h in %.0f s.",
            3.6 * duty->stops.to, result->duration);
    if (result->force_last > FELT * result->force_first && result->force_first > 0.0)
        add(list, BRAKE_WARNS_HEAT_FADE,
            "Fade takes the pedal force from %.0f N to %.0f N for the same deceleration.",
            result->force_first, result->force_last);
}

static void warn_of_fluid(const struct brake_hot_rig *hot, const struct brake_duty_result *result,
                          struct list *list)
{
    const int axle = result->axle[BRAKE_REAR].fluid_most > result->axle[BRAKE_FRONT].fluid_most;
    const double hottest = celsius(result->axle[axle].fluid_most);
    if (result->fluid_margin < 0.0)
        add(list, BRAKE_WARNS_HEAT_FLUID_BOILS,
            "The %s fluid gets %.0f degC hot, %.0f K above its wet boiling point of %.0f degC: the "
            "pedal can go to the floor. Change the fluid, use a lower gear, stop and let it cool.",
            brake_axle_word((enum brake_axle)axle), hottest, -result->fluid_margin,
            celsius(hot->boiling));
    else if (result->fluid_margin < WANTED)
        add(list, BRAKE_WARNS_HEAT_FLUID_NEAR_BOILING,
            "The %s fluid gets %.0f degC hot, %.0f K below its wet boiling point of %.0f degC; "
            "%.0f K are wanted.",
            brake_axle_word((enum brake_axle)axle), hottest, result->fluid_margin,
            celsius(hot->boiling), WANTED);
}

/* It can get no hotter than the pads are. */
static void warn_of_rest(const struct brake_hot_rig *hot, const struct brake_duty *duty,
                         const struct brake_duty_result *result, int axle, struct list *list)
{
    const struct brake_thermal *brake = &hot->thermal[axle];
    const double fluid = brake_thermal_part(brake, &result->heat[axle], BRAKE_PART_FLUID);
    const double pads = brake_thermal_part(brake, &result->heat[axle], BRAKE_PART_PAD);
    if (duty->rest > 0.0 && fluid >= result->axle[axle].fluid_most && pads > hot->boiling - WANTED)
        add(list, BRAKE_WARNS_HEAT_FLUID_RISING,
            "The %s fluid is at %.0f degC and still getting hotter after %.0f min at rest: hotter "
            "than shown is possible.",
            brake_axle_word((enum brake_axle)axle), celsius(fluid), duty->rest / 60.0);
}

static void warn_of_axle(const struct brake_hot_rig *hot, int axle,
                         const struct brake_duty_heat *heat, struct list *list)
{
    const double until = hot->friction_until[axle];
    if (heat->face_most > until)
        add(list, BRAKE_WARNS_HEAT_PAD_BEYOND_CURVE,
            "The %s face gets %.0f degC hot; its friction curve ends at %.0f degC and is taken as "
            "level beyond.",
            brake_axle_word((enum brake_axle)axle), celsius(heat->face_most), celsius(until));
    if (isnan(until) && heat->face_most > FADES)
        add(list, BRAKE_WARNS_HEAT_FRICTION_ASSUMED,
            "The %s face gets %.0f degC hot; how its friction fades above %.0f degC is assumed, "
            "not "
            "the maker's curve.",
            brake_axle_word((enum brake_axle)axle), celsius(heat->face_most), celsius(FADES));
    if (heat->face_most > TRANSFORMS)
        add(list, BRAKE_WARNS_HEAT_IRON_TRANSFORMS,
            "The %s face gets %.0f degC hot; near %.0f degC grey iron transforms: hard spots, "
            "judder "
            "and cracks.",
            brake_axle_word((enum brake_axle)axle), celsius(heat->face_most), celsius(TRANSFORMS));
    if (heat->stress_most > hot->iron->strength)
        add(list, BRAKE_WARNS_HEAT_STRESS,
            "The %s face is stressed to %.0f MPa by its heat, past the iron's tensile strength of "
            "%.0f MPa: repeated, it cracks.",
            brake_axle_word((enum brake_axle)axle), heat->stress_most / 1e6,
            hot->iron->strength / 1e6);
}

bool brake_duty_stood(const struct brake_duty_result *result)
{
    return result->held && result->fluid_margin >= 0.0;
}

int brake_duty_warnings(const struct brake_hot_rig *hot, const struct brake_duty *duty,
                        const struct brake_duty_result *result, struct brake_warning *warnings)
{
    struct list list = {warnings, 0};
    warn_of_driver(duty, result, &list);
    warn_of_fluid(hot, result, &list);
    for (int i = 0; i < BRAKE_AXLES; i++)
        warn_of_rest(hot, duty, result, i, &list);
    for (int i = 0; i < BRAKE_AXLES; i++)
        warn_of_axle(hot, i, &result->axle[i], &list);
    return list.count;
}
