/* SPDX-License-Identifier: MIT */
/* How a requirement stands to a vehicle: whether it binds it, by country, use, date and class. */
#include "scope.h"

#include <math.h>
#include <stddef.h>

#include "vehicle/system.h"

const char *brake_scope_word(enum brake_scope scope)
{
    static const char *const words[] = {"outside", "hazard", "binds", "yardstick", "screen"};
    return words[scope];
}

const char *brake_rules_at(int number, unsigned *rules)
{
#define CHOICE(name, word, bit) {#word, bit},
    static const struct {
        const char *word;
        unsigned rules;
    } choices[] = {{"own", BRAKE_RULES_OWN}, BRAKE_FAMILIES(CHOICE){"all", BRAKE_RULES_ALL}};
#undef CHOICE
    if (number >= (int)(sizeof choices / sizeof choices[0]))
        return NULL;
    *rules = choices[number].rules;
    return choices[number].word;
}

const char *brake_read_word(enum brake_read read)
{
    static const char *const words[] = {"memory", "second hand", "sister clause", "own text"};
    return words[read];
}

/* ---- the vehicle's kind --------------------------------------------------------------------- */

/* NULL when the kind of vehicle is that of the bits; otherwise which kind they are for. */
static const char *wrong_kind(const struct brake_vehicle *v, unsigned applies)
{
    const struct brake_general_lines *g = &v->general;
    const bool goods = g->category == BRAKE_N1;
    const struct {
        unsigned bit;
        bool fits;
        const char *otherwise;
    } kinds[] = {
        {BRAKE_TO_M1, g->category == BRAKE_M1, "for M1 vehicles"},
        {BRAKE_TO_N1, g->category == BRAKE_N1, "for N1 vehicles"},
        {BRAKE_TO_LIGHT, !(g->rated_mass > 3500.0), "for a rated mass up to 3,500 kg"},
        {BRAKE_TO_10000_LB, !(g->rated_mass > 4535.9237), "for a rated mass up to 10,000 lb"},
        {BRAKE_TO_CAR_FRAME, g->frame == BRAKE_CAR, "for the chassis of a car"},
        {BRAKE_TO_TRUCK_FRAME, g->frame == BRAKE_TRUCK, "for the chassis of a truck"},
        {BRAKE_TO_ANTILOCK, g->antilock == BRAKE_FITTED, "for vehicles with anti-lock"},
        {BRAKE_TO_NO_ANTILOCK, g->antilock == BRAKE_NONE, "for vehicles without anti-lock"},
        {BRAKE_TO_BOOSTED, v->booster.booster != BRAKE_BOOSTER_NONE, "for vehicles with a booster"},
        {BRAKE_TO_SENSING_VALVE, v->valve.kind > BRAKE_VALVE_FIXED, "for a sensing valve"},
        {BRAKE_TO_TRAILER, v->trailer.mass > 0.0, "for vehicles with a trailer"},
        {BRAKE_TO_SHOE_SHAPE,
         brake_vehicle_shoe_shaped(v, BRAKE_FRONT) || brake_vehicle_shoe_shaped(v, BRAKE_REAR),
         "for drums whose shoes are known by their geometry"},
        {BRAKE_TO_COMMERCIAL, g->use != BRAKE_PRIVATE, "for commercial vehicles"},
        {BRAKE_TO_SECONDARY, g->secondary == BRAKE_SEPARATE,
         "for vehicles with a secondary brake of its own"},
        {BRAKE_TO_HEAVIER, g->rated_mass > 3500.0, "for a rated mass above 3,500 kg"},
        {BRAKE_TO_4500_KG, !(g->rated_mass > 4500.0), "for a rated mass up to 4,500 kg"},
        {BRAKE_TO_MOT_4, !(goods && g->rated_mass > 3000.0), "for DVSA classes 3 and 4"},
        {BRAKE_TO_MOT_7, goods && g->rated_mass > 3000.0 && g->rated_mass <= 3500.0,
         "for DVSA class 7"},
        {BRAKE_TO_VALVE, v->valve.kind != BRAKE_VALVE_NONE, "for a valve before the rear brakes"},
        {BRAKE_TO_AXLE_SPLIT, v->circuits.split == BRAKE_SPLIT_II, "for a circuit to each axle"},
        {BRAKE_TO_UNBRAKED_TRAILER, v->trailer.mass > 0.0 && !(v->trailer.braking_ratio > 0.0),
         "for vehicles with a trailer without brakes"},
        {BRAKE_TO_FAST, !(g->top_speed <= 125.0 / 3.6), "for a top speed above 125 km/h"},
    };
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        if ((applies & kinds[i].bit) != 0 && !kinds[i].fits)
            return kinds[i].otherwise;
    }
    return NULL;
}

/* A date that is not known leaves the later rows, which are the stricter ones. */
static const char *wrong_date(const struct brake_criterion *c, double registered)
{
    if (registered < c->from)
        return "for vehicles registered later";
    return c->until > 0.0 && !(registered < c->until) ? "for vehicles registered earlier" : NULL;
}

/* ---- the vehicle's law ---------------------------------------------------------------------- */

static unsigned lands_of(int country)
{
    if (country == BRAKE_COUNTRY_UNSTATED)
        return ~0U;
    if (country == BRAKE_IN_NL)
        return BRAKE_LAND_EEA | BRAKE_LAND_NL;
    if (country == BRAKE_IN_DE)
        return BRAKE_LAND_EEA | BRAKE_LAND_DE;
    if (country == BRAKE_IN_AU)
        return BRAKE_LAND_OTHER | BRAKE_LAND_AU;
    if (country >= BRAKE_IN_AT && country <= BRAKE_IN_NO)
        return BRAKE_LAND_EEA;
    return country == BRAKE_IN_US   ? BRAKE_LAND_US
           : country == BRAKE_IN_CA ? BRAKE_LAND_CA
           : country == BRAKE_IN_GB ? BRAKE_LAND_GB
                                    : BRAKE_LAND_OTHER;
}

const char *brake_scope_unstated(const struct brake_vehicle *vehicle)
{
    const struct brake_general_lines *g = &vehicle->general;
    if (g->country == BRAKE_COUNTRY_UNSTATED)
        return "vehicle.country";
    if (g->use == BRAKE_USE_UNSTATED)
        return "vehicle.use";
    return isnan(g->first_registered) ? "vehicle.first_registered" : NULL;
}

/* NULL when the text has force over the vehicle, or may have; otherwise why not. */
static const char *no_force(const struct brake_book *book, const struct brake_general_lines *g)
{
    if ((book->lands & lands_of(g->country)) == 0)
        return "of no force in its country";
    if (g->modified < book->modified)
        return "for vehicles changed later";
    return book->role == BRAKE_ROLE_BUILT && g->first_registered < book->from[g->frame]
               ? "for vehicles built later"
               : NULL;
}

bool brake_criterion_in(const struct brake_criterion *criterion, unsigned rules)
{
    const unsigned family = brake_book_of(criterion)->rules;
    return (family & (rules | BRAKE_RULES_HAZARD)) != 0 || (rules & BRAKE_RULES_OWN) != 0;
}

enum brake_scope brake_criterion_scope(const struct brake_criterion *criterion,
                                       const struct brake_vehicle *vehicle, unsigned rules,
                                       const char **why)
{
    const struct brake_book *book = brake_book_of(criterion);
    *why = wrong_kind(vehicle, criterion->applies);
    if (*why == NULL)
        *why = wrong_date(criterion, vehicle->general.first_registered);
    if (*why != NULL || !brake_criterion_in(criterion, rules))
        return BRAKE_OUTSIDE;
    if (book->role == BRAKE_ROLE_HAZARD)
        return BRAKE_HAZARD;
    *why = no_force(book, &vehicle->general);
    if (*why != NULL && (book->rules & rules) == 0)
        return BRAKE_OUTSIDE;
    if (*why != NULL || criterion->screen) {
        *why = NULL;
        return BRAKE_SCREEN;
    }
    return book->role == BRAKE_ROLE_IN_USE && brake_scope_unstated(vehicle) == NULL
               ? BRAKE_BINDS
               : BRAKE_YARDSTICK;
}

bool brake_scope_counts(enum brake_scope scope)
{
    return scope == BRAKE_HAZARD || scope == BRAKE_BINDS;
}
