/* Numbers that are possible each, and not together: slips of who typed them. Limits are common
 * practice, no source, where none is named. */
#include <math.h>

#include "brake/tyre.h"
#include "vehicle/system.h"
#include "warn.h"

static const double room_in_rim = 0.040;    /* m; rim less rotor or drum: caliper and barrel */
static const double share_of_roof = 0.55;   /* of the roof's height; vehicles have some 0.40 */
static const double wheel_mass_most = 65.0; /* kg, of a tyre of 0.9 m; by the square of it */
static const double friction_most = 0.60;   /* edge code G ends at 0.55: SAE J866, from memory */
static const double unbraked_most = 750.0;  /* kg; category O1 of R.E.3, from memory */

static double rim_of(const struct brake_tyre_lines *tyre)
{
    struct brake_marking size;
    if (tyre->marking[0] == '\0' || brake_marking_read(tyre->marking, &size) < BRAKE_OK)
        return BRAKE_NAN;
    return size.rim_diameter;
}

static void about_pads(struct warn_list *l, const struct brake_axle_of_vehicle *at,
                       enum brake_axle axle)
{
    const double reach = fmax(at->pads.outer_radius, at->disc.effective_radius);
    if (reach > at->disc.rotor_diameter / 2.0 + 0.001)
        warn_add(l, BRAKE_WARNS_PADS_BEYOND_ROTOR,
                 "The %s pads reach out to a radius of %.0f mm, the rotor to %.0f mm: was a "
                 "diameter given as a radius? Then the torque shown is twice the real one.",
                 brake_axle_word(axle), 1e3 * reach, 1e3 * at->disc.rotor_diameter / 2.0);
}

static void about_rim(struct warn_list *l, const struct brake_axle_of_vehicle *at,
                      enum brake_axle axle)
{
    const bool disc = at->axle.brake == BRAKE_DISC;
    const double brake = disc ? fmax(at->disc.rotor_diameter,
                                     2.0 * fmax(at->pads.outer_radius, at->disc.effective_radius))
                              : at->drum.diameter;
    const double rim = rim_of(&at->tyre);
    if (brake > rim - room_in_rim)
        warn_add(
            l, BRAKE_WARNS_BRAKE_BEYOND_RIM,
            "The %s %s of %.0f mm does not fit into a rim of %.0f mm: look at the sizes again.",
            brake_axle_word(axle), disc ? "rotor or pads" : "drum", 1e3 * brake, 1e3 * rim);
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
        if (at->axle.brake == BRAKE_DISC)
            about_pads(list, at, axle);
        about_rim(list, at, axle);
        about_wheel(list, at, axle);
        about_friction(list, at, axle);
    }
    about_centre(list);
    about_trailer(list);
}
