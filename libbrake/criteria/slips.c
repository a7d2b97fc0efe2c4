/* SPDX-License-Identifier: MIT */
/* Numbers that are possible each, and not together: slips of who typed them. Limits are common
 * practice, no source, where none is named. */
#include <math.h>

#include "brake/tyre.h"
#include "vehicle/system.h"
#include "warn.h"

static const double room_in_rim = 0.040;       /* m; rim less rotor or drum: caliper and barrel */
static const double edge_of_pad = 0.015;       /* m; half of the lowest pad, beyond its middle */
static const double share_of_tyre = 0.75;      /* of its diameter; the largest rotors have 0.73 */
static const double pad_height_most = 0.075;   /* m; pads are 30 to 70 mm */
static const double rollout_agreement = 0.06;  /* real ones roll up to 5 % less than the nominal */
static const double share_of_wheelbase = 0.45; /* height of the centre; tall vehicles have 0.35 */
static const double rise_told = 0.015;         /* m; by tyres */
static const double share_of_roof = 0.55;      /* of the roof's height; vehicles have some 0.40 */
static const double wheel_mass_most = 65.0;    /* kg, of a tyre of 0.9 m; by the square of it */
static const double wheel_mass_least = 18.0;   /* kg; the same */
static const double friction_most = 0.60;      /* edge code G ends at 0.55: SAE J866, from memory */
static const double unbraked_most = 750.0;     /* kg; category O1 of R.E.3, from memory */

static bool read_marking(const struct brake_tyre_lines *tyre, struct brake_marking *size)
{
    return brake_marking_read(tyre->marking, size) >= BRAKE_OK;
}

/* [m] Where the pads end, as far as their lines tell; no less than least. */
static double reach_of(const struct brake_pads_lines *pads, double least)
{
    return fmax(fmax(pads->outer_radius, pads->centre_radius + pads->diameter / 2.0), least);
}

static void about_pads(struct warn_list *l, const struct brake_axle_of_vehicle *at,
                       enum brake_axle axle)
{
    const double reach = reach_of(&at->pads, at->disc.effective_radius);
    if (reach > at->disc.rotor_diameter / 2.0 + 0.001)
        warn_add(l, BRAKE_WARNS_PADS_BEYOND_ROTOR,
                 "The %s pads reach out to a radius of %.0f mm, the rotor to %.0f mm: was a "
                 "diameter given as a radius? Then the torque shown is twice the real one.",
                 brake_axle_word(axle), 1e3 * reach, 1e3 * at->disc.rotor_diameter / 2.0);
}

/* Sectors alone have both radii; a doubled one of the others is past the wheel. */
static void about_pad_height(struct warn_list *l, const struct brake_axle_of_vehicle *at,
                             enum brake_axle axle)
{
    const double height = at->pads.outer_radius - at->pads.inner_radius;
    if (height > pad_height_most)
        warn_add(
            l, BRAKE_WARNS_PADS_TOO_TALL,
            "The %s pads are %.0f mm tall, from a radius of %.0f mm to %.0f mm; pads are 30 to "
            "70 mm: were diameters given as radii? Then the torque shown is twice the real "
            "one.",
            brake_axle_word(axle), 1e3 * height, 1e3 * at->pads.inner_radius,
            1e3 * at->pads.outer_radius);
}

/* Diameter of what turns inside the wheel. */
static double brake_diameter(const struct brake_axle_of_vehicle *at)
{
    if (at->axle.brake == BRAKE_DRUM)
        return at->drum.diameter;
    const double pads = reach_of(&at->pads, at->disc.effective_radius + edge_of_pad);
    return fmax(at->disc.rotor_diameter, 2.0 * pads);
}

static void about_rim(struct warn_list *l, const struct brake_axle_of_vehicle *at,
                      enum brake_axle axle)
{
    const char *what = at->axle.brake == BRAKE_DISC ? "rotor or pads" : "drum";
    const double brake = brake_diameter(at);
    struct brake_marking size;
    if (!read_marking(&at->tyre, &size)) {
        if (brake > share_of_tyre * at->tyre.overall_diameter)
            warn_add(l, BRAKE_WARNS_BRAKE_BEYOND_RIM,
                     "The %s %s of %.0f mm does not fit into a wheel of %.0f mm, tyre and all: "
                     "was a diameter given as a radius?",
                     brake_axle_word(axle), what, 1e3 * brake, 1e3 * at->tyre.overall_diameter);
    } else if (brake > size.rim_diameter - room_in_rim) {
        warn_add(
            l, BRAKE_WARNS_BRAKE_BEYOND_RIM,
            "The %s %s of %.0f mm does not fit into a rim of %.0f mm: look at the sizes again.",
            brake_axle_word(axle), what, 1e3 * brake, 1e3 * size.rim_diameter);
    }
}

static void about_rollout(struct warn_list *l, const struct brake_axle_of_vehicle *at,
                          enum brake_axle axle)
{
    struct brake_marking size;
    if (!read_marking(&at->tyre, &size))
        return;
    const double nominal = brake_tyre_circumference(size.overall_diameter, size.radial);
    if (fabs(at->tyre.rollout / nominal - 1.0) > rollout_agreement)
        warn_add(
            l, BRAKE_WARNS_ROLLOUT_OF_OTHER_TYRE,
            "The %s rollout of %.3f m is %+.0f %% off the %.3f m of a tyre marked '%.40s': was "
            "it measured on another tyre?",
            brake_axle_word(axle), at->tyre.rollout, 100.0 * (at->tyre.rollout / nominal - 1.0),
            nominal, at->tyre.marking);
}

static void about_wheel(struct warn_list *l, const struct brake_axle_of_vehicle *at,
                        enum brake_axle axle)
{
    const double size = at->tyre.overall_diameter / 0.9;
    const double most = wheel_mass_most * size * size;
    if (at->tyre.wheel_mass > most)
        warn_add(
            l, BRAKE_WARNS_WHEEL_TOO_HEAVY,
            "A %s wheel of %.0f kg is heavier than wheels of %.0f mm are (up to %.0f kg): were "
            "pounds given as kilograms, or both wheels as one?",
            brake_axle_word(axle), at->tyre.wheel_mass, 1e3 * at->tyre.overall_diameter, most);
    const double least = wheel_mass_least * size * size;
    if (at->tyre.wheel_mass < least)
        warn_add(l, BRAKE_WARNS_WHEEL_TOO_LIGHT,
                 "A %s wheel of %.1f kg is lighter than wheels of %.0f mm are (%.0f kg and more): "
                 "were kilograms given as pounds, or the rim alone?",
                 brake_axle_word(axle), at->tyre.wheel_mass, 1e3 * at->tyre.overall_diameter,
                 least);
}

static void about_friction(struct warn_list *l, const struct brake_axle_of_vehicle *at,
                           enum brake_axle axle)
{
    const double mu = at->axle.brake == BRAKE_DISC ? at->pads.mu : at->lining.mu;
    if (mu > friction_most)
        warn_add(l, BRAKE_WARNS_FRICTION_TOO_HIGH,
                 "Friction of %.2f at the %s axle is more than road pads and linings have (0.25 to "
                 "0.55 by their edge code): the brakes are weaker than shown if it is wrong.",
                 mu, brake_axle_word(axle));
}

static void about_centre(struct warn_list *l)
{
    const struct brake_general_lines *g = &l->vehicle->general;
    if (g->cg_height > share_of_roof * g->roof_height)
        warn_add(l, BRAKE_WARNS_CENTRE_TOO_HIGH,
                 "The centre of gravity, at %.0f mm, is at %.0f %% of the roof's height; vehicles "
                 "have it at some 40 %%: was the height of the roof given?",
                 1e3 * g->cg_height, 100.0 * g->cg_height / g->roof_height);
    else if (isnan(g->roof_height) && g->cg_height > share_of_wheelbase * g->wheelbase)
        warn_add(l, BRAKE_WARNS_CENTRE_TOO_HIGH,
                 "The centre of gravity, at %.0f mm, is at %.0f %% of the wheelbase; vehicles have "
                 "it at 20 to 35 %%: was the height of the roof given?",
                 1e3 * g->cg_height, 100.0 * g->cg_height / g->wheelbase);
}

/* What the speedometer was set for tells the tyres of before. */
static void about_rise(struct warn_list *l)
{
    const struct brake_lift_lines *lift = &l->vehicle->lift;
    const double was = brake_rolling_radius(l->vehicle->speedometer.rollout);
    const double now = 0.5 * (l->vehicle->axle[BRAKE_FRONT].tyre.rolling_radius +
                              l->vehicle->axle[BRAKE_REAR].tyre.rolling_radius);
    if (lift->suspension > 0.0 && !(lift->wheel_rise > 0.0) && now - was > rise_told)
        warn_add(l, BRAKE_WARNS_WHEEL_RISE_MISSING,
                 "The tyres raise the vehicle by some %.0f mm over those that the speedometer was "
                 "set for, and lift.wheel_rise is 0: measure floor to hub, before and after.",
                 1e3 * (now - was));
}

static void about_trailer(struct warn_list *l)
{
    const struct brake_trailer_lines *t = &l->vehicle->trailer;
    if (t->mass > unbraked_most && !(t->braking_ratio > 0.0))
        warn_add(
            l, BRAKE_WARNS_TRAILER_UNBRAKED,
            "A trailer of %.0f kg without brakes (trailer.braking_ratio): most laws allow %.0f "
            "kg and less. Do not tow it on the road.",
            t->mass, unbraked_most);
}

void warn_of_slips(struct warn_list *list)
{
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_axle_of_vehicle *at = &list->vehicle->axle[i];
        const enum brake_axle axle = (enum brake_axle)i;
        if (at->axle.brake == BRAKE_DISC) {
            about_pads(list, at, axle);
            about_pad_height(list, at, axle);
        }
        about_rim(list, at, axle);
        about_rollout(list, at, axle);
        about_wheel(list, at, axle);
        about_friction(list, at, axle);
    }
    about_centre(list);
    about_rise(list);
    about_trailer(list);
}
