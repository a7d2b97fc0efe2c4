/* SPDX-License-Identifier: MIT */
/* Laws of cooling of brakes side by side; the public functions of brake/convection.h, where
 * equations and sources stand, are these. */
#ifndef BRAKE_MODEL_COOLING_H
#define BRAKE_MODEL_COOLING_H

#include "brake/convection.h"
#include "power.h"

/* Specific gas constant of dry air [J/(kg K)]; its Prandtl number is 0.71 at 250 K, 0.69
 * at 800 K. */
#define GAS 287.05
#define PRANDTL 0.70
#define PRANDTL_ROOT 0.88790400174260069 /* PRANDTL^(1/3) */

struct airs {
    pack conductivity;
    pack per_viscosity; /* 1 / nu */
};

/* Surfaces of brakes side by side. */
struct surface {
    unsigned laws; /* a bit for each that any of them follows */
    bool cools;    /* any of them has an area */
    pack law;
    pack area;
    pack emissivity;
    pack still;
    pack factor;
    pack exponent;
    pack diameter;
    pack per_diameter;
    pack rolling_radius;
    pack per_rolling_radius;
    pack slender;  /* [-] hydraulic diameter over length, of VANES as the next two */
    pack pumped;   /* [m] mean speed of the air over spin */
    pack stirring; /* [-] Stanton number of passages so long */
};

/* With w = (T/273)^1.5: k = 0.0241 w (273 + 194)/(T + 194), mu = 1.716e-5 w (273 + 111)/(T + 111),
 * nu = mu GAS T/p, over one quotient. */
TARGET static inline struct airs airs_at(pack temperature, pack pressure)
{
    const pack part = temperature * (1.0 / 273.0);
    const pack warmth = part * root(part);
    const pack heavy = warmth * temperature;
    const pack per = 1.0 / (heavy * (temperature + 194.0));
    const pack none = all(BRAKE_NAN);
    const mask usable = (temperature > 0.0) & (pressure > 0.0);
    return (struct airs){either(usable, 0.0241 * (273.0 + 194.0) * warmth * heavy * per, none),
                         either(usable,
                                pressure * (1.0 / (1.716e-5 * (273.0 + 111.0) * GAS)) *
                                    (temperature + 111.0) * (temperature + 194.0) * per,
                                none)};
}

TARGET static inline pack face_cooling(struct airs air, pack speed, pack diameter,
                                       pack per_diameter)
{
    const double laminar_to = 2.4e5;
    const double turbulent_from = 3.0e5;
    const pack reynolds = speed * diameter * air.per_viscosity;
    const struct logarithm log = logarithm_of(reynolds);
    const mask turbulent = reynolds >= turbulent_from;
    pack number = all(0.0);
    if (any(other_than(turbulent)))
        number = 0.70 * power_of(&log, all(0.55));
    if (any(reynolds > laminar_to)) {
        const pack fast = 0.04 * power_of(&log, all(0.8));
        const pack part = (reynolds - laminar_to) * (1.0 / (turbulent_from - laminar_to));
        number = either(reynolds > laminar_to, number + part * (fast - number), number);
        number = either(turbulent, fast, number);
    }
    return air.conductivity * per_diameter * number;
}

/* Mean over the face of local coefficients: laminar h = 0.36 k sqrt(w / nu) is the same at every
 * radius; turbulent h = 0.0195 k r^0.6 (w / nu)^0.8 averages to 0.015 (2 / 2.6 of 0.0195). */
TARGET static inline pack disc_cooling(struct airs air, pack spin, pack radius, pack per_radius)
{
    const double transition = 2.5e5;
    const pack reynolds = spin * radius * radius * air.per_viscosity;
    const pack laminar = 0.36 * root(reynolds);
    const pack area = transition / reynolds; /* (r_t / R)^2 */
    const pack turbulent = 0.015 * power(reynolds, all(0.8)) * (1.0 - power(area, all(1.3)));
    return air.conductivity * per_radius *
           either(reynolds <= transition, laminar, laminar * area + turbulent);
}

TARGET static inline pack drum_cooling(struct airs air, pack speed, pack diameter,
                                       pack per_diameter)
{
    const pack reynolds = speed * diameter * air.per_viscosity;
    return 0.1 * air.conductivity * per_diameter * power(reynolds, all(2.0 / 3.0));
}

TARGET static inline pack cylinder_cooling(struct airs air, pack speed, pack diameter,
                                           pack per_diameter)
{
    /* 0.62 Pr^(1/3) / (1 + (0.4 / Pr)^(2/3))^(1/4) at PRANDTL */
    const double front = 0.62 * PRANDTL_ROOT / 1.1399412586756799;
    const double root_of_282000 = 531.03672189407015;
    const pack reynolds = speed * diameter * air.per_viscosity;
    const pack half = root(reynolds * (1.0 / 282000.0));
    const pack rough = power(1.0 + half * root(root(half)), all(0.8)); /* share^(5/8) */
    return air.conductivity * per_diameter * (0.3 + front * root_of_282000 * half * rough);
}

static inline double slenderness(const struct brake_vanes *vanes)
{
    return vanes->hydraulic_diameter / (vanes->outer_radius - vanes->inner_radius);
}

static inline double pumped_by(const struct brake_vanes *vanes)
{
    const double entering =
        sqrt(vanes->outer_radius * vanes->outer_radius - vanes->inner_radius * vanes->inner_radius);
    return 0.5 * entering * (1.0 + vanes->inlet_area / vanes->outlet_area);
}

TARGET static inline pack stirring_of(pack slender)
{
    return 0.00485 * (1.0 + power(slender, all(0.67)));
}

TARGET static inline pack vanes_cooling(struct airs air, pack speed, pack stirring)
{
    const pack stored = PRANDTL * air.conductivity * air.per_viscosity; /* rho c_p */
    return stirring * stored * speed;
}

TARGET static inline pack mixed_cooling(pack forced, pack still)
{
    const pack sum = forced * forced * forced * forced + still * still * still * still;
    return either(still == 0.0, forced, root(root(sum)));
}

TARGET static inline pack forced_cooling(const struct surface *s, pack speed, struct airs air)
{
    pack forced = all(0.0);
    if (s->laws >> BRAKE_COOLING_FACE & 1)
        forced = either(s->law == BRAKE_COOLING_FACE,
                        face_cooling(air, speed, s->diameter, s->per_diameter), forced);
    if (s->laws >> BRAKE_COOLING_DISC & 1)
        forced = either(s->law == BRAKE_COOLING_DISC,
                        disc_cooling(air, speed * s->per_rolling_radius, 0.5 * s->diameter,
                                     2.0 * s->per_diameter),
                        forced);
    if (s->laws >> BRAKE_COOLING_VANES & 1)
        forced = either(s->law == BRAKE_COOLING_VANES,
                        vanes_cooling(air, speed * s->per_rolling_radius * s->pumped, s->stirring),
                        forced);
    if (s->laws >> BRAKE_COOLING_DRUM & 1)
        forced = either(s->law == BRAKE_COOLING_DRUM,
                        drum_cooling(air, speed, s->diameter, s->per_diameter), forced);
    if (s->laws >> BRAKE_COOLING_CYLINDER & 1)
        forced = either(s->law == BRAKE_COOLING_CYLINDER,
                        cylinder_cooling(air, speed, s->diameter, s->per_diameter), forced);
    if (s->laws >> BRAKE_COOLING_POWER & 1)
        forced = either(s->law == BRAKE_COOLING_POWER, power(speed, s->exponent), forced);
    return s->factor * forced;
}

TARGET static inline pack cooling_of(const struct surface *s, pack speed, pack film, pack pressure)
{
    const pack forward = either(speed > 0.0, speed, speed * 0.0); /* a NaN stays */
    if (s->laws == 1U << BRAKE_COOLING_FIXED)
        return s->factor;
    const pack forced = forced_cooling(s, forward, airs_at(film, pressure));
    return either(s->law == BRAKE_COOLING_FIXED, s->factor, mixed_cooling(forced, s->still));
}

TARGET static inline void clear_surface(struct surface *s)
{
    s->laws = 0;
    s->cools = false;
    s->slender = s->pumped = s->stirring = all(0.0);
}

/* Puts a surface into its lane. */
TARGET static inline void put_surface(const struct brake_cooling *from, int i, struct surface *to)
{
    to->laws |= 1U << from->law;
    to->cools = to->cools || from->area > 0.0;
    set_lane(&to->law, i, from->law);
    set_lane(&to->area, i, from->area);
    set_lane(&to->emissivity, i, from->emissivity);
    set_lane(&to->still, i, from->still);
    set_lane(&to->factor, i, from->factor);
    set_lane(&to->exponent, i, from->exponent);
    set_lane(&to->diameter, i, from->diameter);
    set_lane(&to->rolling_radius, i, from->rolling_radius);
    if (from->law != BRAKE_COOLING_VANES)
        return;
    set_lane(&to->slender, i, slenderness(&from->vanes));
    set_lane(&to->pumped, i, pumped_by(&from->vanes));
}

/* Once all lanes are filled. */
TARGET static inline void complete_surface(struct surface *s)
{
    s->per_diameter = 1.0 / s->diameter;
    s->per_rolling_radius = 1.0 / s->rolling_radius;
    if (s->laws >> BRAKE_COOLING_VANES & 1)
        s->stirring = stirring_of(s->slender);
}

#endif
