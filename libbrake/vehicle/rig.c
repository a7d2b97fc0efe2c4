/* SPDX-License-Identifier: MIT */
/* The numbers of parts that no line asks for are common practice, no source, where nothing else is
 * said; each leans to a hot fluid or a hot rotor. */
#include "brake/rig.h"

#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "brake/system.h"
#include "text.h"
#include "materials.h"
#include "system.h"

static const double GAS_OF_AIR = 287.05; /* [J/(kg*K)] ISO 2533 */
static const double STILL = 3.0;         /* [W/(m2*K)] materials.json: the least measured */
static const double RUBBED = 0.3;        /* [-] emissivity, materials.json */
static const double RUSTED = 0.8;        /* [-] the same */
static const double AIR_IN_GAP = 0.04;   /* [W/(m*K)] air near 500 K, materials.json */

/* ---- what is missing ------------------------------------------------------------------------ */

static void name_field(struct brake_error *error, int axle, const char *line)
{
    brake_text_format(error->field, sizeof error->field, "%s.%s",
                      brake_axle_word((enum brake_axle)axle), line);
}

static void need(struct brake_error *error, int axle, const char *line, double value)
{
    const size_t used = strlen(error->text);
    if (!isnan(value))
        return;
    error->status = BRAKE_E_MISSING;
    if (used == 0)
        name_field(error, axle, line);
    brake_text_format(error->text + used, sizeof error->text - used, "%s%s.%s",
                      used == 0 ? "heat cannot be said without " : ", ",
                      brake_axle_word((enum brake_axle)axle), line);
}

static enum brake_status refuse(struct brake_error *error, int axle, const char *line,
                                const char *text)
{
    error->status = BRAKE_E_RANGE;
    name_field(error, axle, line);
    brake_text_format(error->text, sizeof error->text, "%s", text);
    return error->status;
}

static bool all_there(const struct brake_vehicle *vehicle, struct brake_error *error)
{
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_axle_of_vehicle *at = &vehicle->axle[i];
        if (at->axle.brake == BRAKE_DISC) {
            need(error, i, "disc.rotor_mass", at->disc.rotor_mass);
            need(error, i, "disc.rotor_diameter", at->disc.rotor_diameter);
        } else {
            need(error, i, "drum.drum_mass", at->drum.drum_mass);
            need(error, i, "drum.width", at->drum.width);
        }
    }
    return error->status == BRAKE_OK;
}

/* ---- pads, plates, pistons, fluid ----------------------------------------------------------- */

/* What lies between the rubbed face and the fluid of one brake. */
struct chain {
    double area;      /* [m2] of all pads or linings */
    double thickness; /* [m] of friction material */
    double gap;       /* [m] that it stands off when released */
    double plate;     /* [m] thickness of plates or shoes */
    double piston;    /* [m2] of all pistons */
    double touch;     /* [W/(m2*K)] from the plates to them */
    const struct brake_heat_lines *heat;
};

/* Face and pad have one temperature where they rub: all heat goes to the face, which gives the pad
 * its part through half the pad. Released, air is in between. */
static void lay_pads(const struct chain *chain, struct brake_thermal_spec *spec)
{
    const struct brake_solid pad =
        brake_material_at(&brake_substance_find("organic pad")->material, 293.15);
    const struct brake_solid steel =
        brake_material_at(&brake_substance_find("carbon steel")->material, 293.15);
    const double half =
        chain->heat->pad_conduction * pad.conductivity * chain->area / (chain->thickness / 2.0);
    const double gap = AIR_IN_GAP * chain->area / fmax(chain->gap, 1e-5);
    const double released = half * gap / (half + gap);
    spec->share = 1.0;
    spec->contact = half - released;
    spec->part[BRAKE_PART_PAD].capacity =
        pad.density * pad.heat_capacity * chain->area * chain->thickness;
    spec->part[BRAKE_PART_PAD].link = released;
    spec->part[BRAKE_PART_PLATE].capacity =
        steel.density * steel.heat_capacity * chain->area * chain->plate;
    spec->part[BRAKE_PART_PLATE].link = half;
}

/* [W/(m2*K)] per area of the pistons. A steel cup 4 mm thick, 30 mm long, 50 mm wide conducts 500
 * along its wall, and its edge on the plate 590, by 2000 of bare steel on steel (from memory); a
 * shoe touches a wheel cylinder with the tip of its web only. */
static const double CUP = 270.0;
static const double WEB = 150.0;

/* [W/(m2*K)] the same: from piston to bore by 0.1 mm of fluid (0.15 W/(m*K)) over the 8 mm up to
 * the seal, 1100 in all. Fluid boils first against the piston: it stands three quarters of the
 * way. */
static const double TO_FLUID = 4400.0;
static const double TO_BODY = 1500.0;

/* Per area of the pistons: cups of 92 kg/m2, as above; 20 mm of fluid behind them (1050 kg/m3, 2300
 * J/(kg*K)); last the body of the caliper or wheel cylinder, 1160 kg/m2 with 16 times as much
 * surface. */
static void lay_pistons(const struct chain *chain, struct brake_thermal_spec *spec)
{
    const double area = chain->piston;
    const double linked = chain->heat->piston_conduction * area;
    spec->part[BRAKE_PART_PISTON].capacity = 92.0 * area * 480.0;
    spec->part[BRAKE_PART_PISTON].link = chain->touch * linked;
    spec->part[BRAKE_PART_FLUID].capacity = 1050.0 * 2300.0 * 0.020 * area;
    spec->part[BRAKE_PART_FLUID].link = TO_FLUID * linked;
    spec->part[BRAKE_PART_BODY].capacity = 1160.0 * area * 480.0;
    spec->part[BRAKE_PART_BODY].link = TO_BODY * linked;
    spec->part[BRAKE_PART_BODY].cooling = (struct brake_cooling){.law = BRAKE_COOLING_CYLINDER,
                                                                 .area = 16.0 * area,
                                                                 .emissivity = 0.5,
                                                                 .still = STILL,
                                                                 .factor = 0.5,
                                                                 .diameter = 0.1};
}

/* Of no surface and no part yet: all 0, they take and give no heat. */
static struct brake_thermal_spec begin_spec(const struct brake_substance *iron)
{
    const struct brake_thermal_spec spec = {
        .material = iron->material, .cells = 24, .pressure = BRAKE_ATMOSPHERE, .tolerance = 0.05};
    return spec;
}

/* ---- discs ---------------------------------------------------------------------------------- */

struct band {
    double inner; /* [m] */
    double outer; /* [m] */
};

/* A rotor's friction plate, without its hat. */
struct rotor {
    struct band plate;
    struct band pad;  /* where the pads rub */
    struct band ring; /* the wall of the model */
};

static double area_of(const struct band *band)
{
    return BRAKE_PI * (band->outer * band->outer - band->inner * band->inner);
}

static double width_of(const struct band *band)
{
    return band->outer - band->inner;
}

/* [m] that plates reach within their pads */
static const double WITHIN = 0.004;

/* [m] 2/3 sqrt(a t / pi): what heat that comes in evenly for 2 s has filled beside its edge, a =
 * 14 mm2/s */
static const double SIDEWAYS = 0.002;

/* The corners of a rectangle lie farther out than its middle line, w^2/24r in the mean. */
static struct band rectangle_band(const struct brake_pads_lines *pads)
{
    const double middle = pads->outer_radius - 0.5 * pads->height;
    const double farther = pads->width * pads->width / (24.0 * middle);
    return (struct band){pads->outer_radius - pads->height + farther, pads->outer_radius + farther};
}

/* An even ring whose points scatter about their mean as those of the circle do: R^2/8r farther out
 * than its centre, 0.75^(1/2) R to either side. */
static struct band circle_band(const struct brake_pads_lines *pads)
{
    const double pad = pads->diameter / 2.0;
    const double middle = pads->centre_radius + pad * pad / (8.0 * pads->centre_radius);
    return (struct band){middle - sqrt(0.75) * pad, middle + sqrt(0.75) * pad};
}

static struct band outline_band(const struct brake_points *outline)
{
    struct band band = {BRAKE_INFINITY, 0.0};
    for (int i = 0; i < outline->count; i++) {
        const double radius = hypot(outline->at[i].x, outline->at[i].y);
        band.inner = fmin(band.inner, radius);
        band.outer = fmax(band.outer, radius);
    }
    return band;
}

/* When the pad's edges are not told, it reaches to the rim, and the effective radius lies half
 * way. */
static struct band pad_band(const struct brake_axle_of_vehicle *at)
{
    const struct brake_pads_lines *pads = &at->pads;
    const double rim = at->disc.rotor_diameter / 2.0;
    struct band band = {pads->inner_radius, pads->outer_radius};
    if (pads->shape == BRAKE_RECTANGLE)
        band = rectangle_band(pads);
    else if (pads->shape == BRAKE_CIRCLE)
        band = circle_band(pads);
    else if (pads->shape == BRAKE_OUTLINE && pads->outline.count > 0)
        band = outline_band(&pads->outline);
    if (isnan(band.inner + band.outer))
        band = (struct band){2.0 * at->disc.effective_radius - rim, rim};
    band.outer = fmin(band.outer, rim);
    return band;
}

static struct rotor rotor_of(const struct brake_axle_of_vehicle *at)
{
    struct rotor rotor = {.pad = pad_band(at)};
    const struct band *pad = &rotor.pad;
    struct band *plate = &rotor.plate;
    *plate = (struct band){fmax(0.0, pad->inner - WITHIN), at->disc.rotor_diameter / 2.0};
    rotor.ring.inner = fmax(pad->inner - SIDEWAYS, 0.5 * (plate->inner + pad->inner));
    rotor.ring.outer = fmin(pad->outer + SIDEWAYS, 0.5 * (plate->outer + pad->outer));
    return rotor;
}

/* [-] of an edge: its radius over the way of the heat, which comes evenly from all of the ring and
 * goes to all that lies beyond: a third of both widths. */
static double edge_factor(double radius, double ring, double beyond)
{
    return beyond > 0.0 ? 3.0 * radius / (ring + beyond) : 0.0;
}

/* What no pad rubs, inside and outside of the ring. */
static void lay_rim(const struct rotor *rotor, double factor, struct brake_thermal_spec *spec)
{
    const struct brake_solid iron = brake_material_at(&spec->material, 473.15);
    const struct band *plate = &rotor->plate;
    const struct band *ring = &rotor->ring;
    const double area = 2.0 * (area_of(plate) - area_of(ring));
    const double width = width_of(ring);
    struct brake_lump *rim = &spec->part[BRAKE_PART_RIM];
    rim->capacity = iron.density * iron.heat_capacity * area * spec->thickness;
    rim->link = 2.0 * BRAKE_PI * iron.conductivity * 2.0 * spec->thickness *
                (edge_factor(ring->inner, width, ring->inner - plate->inner) +
                 edge_factor(ring->outer, width, plate->outer - ring->outer));
    rim->cooling = (struct brake_cooling){.law = BRAKE_COOLING_FACE,
                                          .area = area,
                                          .emissivity = RUSTED,
                                          .still = STILL,
                                          .factor = factor,
                                          .diameter = 2.0 * plate->outer};
}

/* 36 vanes of 9 mm that take 35 % of the inner circle. */
static struct brake_cooling between_cheeks(const struct band *plate, double radius, double factor)
{
    const double count = 36.0;
    const double height = 0.009;
    const double vane = 0.35 * 2.0 * BRAKE_PI * plate->inner / count;
    const double inlet = 2.0 * BRAKE_PI * plate->inner / count - vane;
    const double outlet = 2.0 * BRAKE_PI * plate->outer / count - vane;
    const double width = 0.5 * (inlet + outlet);
    const struct brake_cooling cooling = {
        .law = BRAKE_COOLING_VANES,
        .area = 2.0 * area_of(plate) + 2.0 * count * height * (plate->outer - plate->inner),
        .still = STILL,
        .factor = factor,
        .rolling_radius = radius,
        .vanes = {plate->inner, plate->outer, count * height * inlet, count * height * outlet,
                  2.0 * width * height / (width + height)}};
    return cooling;
}

/* A hat of 7 mm, its neck 30 mm long, at 0.8 of the pad's inner radius. */
static void lay_hat(const struct band *pad, double mass, double factor,
                    struct brake_thermal_spec *spec)
{
    const double radius = 0.8 * pad->inner;
    const double thickness = 0.007;
    struct brake_lump *hat = &spec->part[BRAKE_PART_HAT];
    hat->capacity = mass * 460.0;
    hat->link = 46.0 * 2.0 * BRAKE_PI * radius * thickness / 0.030;
    hat->cooling = (struct brake_cooling){.law = BRAKE_COOLING_CYLINDER,
                                          .area = mass / (7200.0 * thickness),
                                          .emissivity = RUSTED,
                                          .still = STILL,
                                          .factor = factor,
                                          .diameter = 2.0 * radius};
}

static double pad_area(const struct brake_pads_lines *pads, const struct band *band)
{
    double area = area_of(band) * pads->arc / (2.0 * BRAKE_PI);
    if (pads->shape == BRAKE_RECTANGLE && !isnan(pads->width))
        area = pads->width * pads->height;
    if (pads->shape == BRAKE_CIRCLE && !isnan(pads->diameter))
        area = 0.25 * BRAKE_PI * pads->diameter * pads->diameter;
    return area;
}

static void lay_rotor(const struct brake_axle_of_vehicle *at, const struct rotor *rotor,
                      double factor, struct brake_thermal_spec *spec)
{
    const double iron = at->disc.rotor_mass / spec->material.density;
    spec->area = 2.0 * area_of(&rotor->ring);
    spec->thickness = iron / (2.0 * area_of(&rotor->plate));
    spec->front =
        (struct brake_cooling){.law = BRAKE_COOLING_FACE,
                               .area = spec->area - 2.0 * pad_area(&at->pads, &rotor->pad),
                               .emissivity = RUBBED,
                               .still = STILL,
                               .factor = factor,
                               .diameter = 2.0 * rotor->plate.outer};
    if (at->disc.rotor == BRAKE_VENTED)
        spec->back = between_cheeks(&rotor->plate, at->tyre.rolling_radius, factor);
    lay_rim(rotor, factor, spec);
    if (at->disc.hat_mass > 0.0)
        lay_hat(&rotor->pad, at->disc.hat_mass, factor, spec);
}

static enum brake_status lay_disc(const struct brake_vehicle *vehicle, int axle,
                                  struct brake_thermal_spec *spec, struct brake_rig *rig,
                                  struct brake_error *error)
{
    const struct brake_axle_of_vehicle *at = &vehicle->axle[axle];
    const struct rotor rotor = rotor_of(at);
    if (!(rotor.pad.inner > 0.0 && rotor.pad.inner < rotor.pad.outer))
        return refuse(error, axle, "disc.rotor_diameter",
                      "leaves no ring outside the pad's inner "
                      "edge; measure both");
    const double pad = pad_area(&at->pads, &rotor.pad);
    const double sides = at->disc.mounting == BRAKE_FIXED ? 2.0 : 1.0;
    const double pistons = brake_vehicle_piston_area(&at->disc.pistons);
    const struct chain chain = {.area = 2.0 * pad,
                                .thickness = at->pads.thickness,
                                .gap = at->pads.gap,
                                .plate = 0.005,
                                .piston = sides * pistons,
                                .touch = CUP,
                                .heat = &vehicle->heat};
    rig->lining[axle] = at->disc.efficiency * pistons / pad;
    lay_rotor(at, &rotor, vehicle->heat.cooling, spec);
    lay_pads(&chain, spec);
    lay_pistons(&chain, spec);
    return BRAKE_OK;
}

/* ---- drums ---------------------------------------------------------------------------------- */

/* Two linings over 110 degrees where their ends are not told, 95 % of the drum's width; shoes of
 * 4 mm that stand off 0.4 mm; both pistons of the wheel cylinder. */
static void lay_drum(const struct brake_vehicle *vehicle, int axle, struct brake_thermal_spec *spec,
                     struct brake_rig *rig)
{
    const struct brake_drum_lines *drum = &vehicle->axle[axle].drum;
    const struct brake_lining_lines *lining = &vehicle->axle[axle].lining;
    const double told = lining->toe - lining->heel;
    const double secondary = lining->secondary_toe - lining->secondary_heel;
    const double mean = isnan(secondary) ? told : (told + secondary) / 2.0;
    const double arc = isnan(told) ? BRAKE_PI * 110.0 / 180.0 : mean;
    const double piston = brake_piston_area(1.0, drum->cylinder_diameter);
    const double shoe = arc * drum->diameter / 2.0 * 0.95 * drum->width;
    const struct chain chain = {.area = 2.0 * shoe,
                                .thickness = lining->thickness,
                                .gap = 0.0004,
                                .plate = 0.004,
                                .piston = 2.0 * piston,
                                .touch = WEB,
                                .heat = &vehicle->heat};
    rig->lining[axle] = drum->efficiency * piston / shoe;
    spec->area = BRAKE_PI * drum->diameter * drum->width;
    spec->thickness = drum->drum_mass / spec->material.density / spec->area;
    const double outside = drum->diameter + 2.0 * spec->thickness;
    spec->back = (struct brake_cooling){.law = BRAKE_COOLING_DRUM,
                                        .area = BRAKE_PI * outside * drum->width,
                                        .emissivity = RUSTED,
                                        .still = STILL,
                                        .factor = vehicle->heat.cooling,
                                        .diameter = outside};
    lay_pads(&chain, spec);
    lay_pistons(&chain, spec);
}

static enum brake_status build_brake(const struct brake_vehicle *vehicle, int axle,
                                     struct brake_hot_rig *hot, struct brake_error *error)
{
    const bool disc = vehicle->axle[axle].axle.brake == BRAKE_DISC;
    struct brake_thermal_spec spec = begin_spec(hot->iron);
    enum brake_status status = BRAKE_OK;
    if (disc)
        status = lay_disc(vehicle, axle, &spec, &hot->rig, error);
    else
        lay_drum(vehicle, axle, &spec, &hot->rig);
    if (status != BRAKE_OK)
        return status;
    spec.first_cell = fmin(1e-4, spec.thickness / spec.cells);
    status = spec.thickness >= 0.001 && spec.thickness <= 0.06
                 ? brake_thermal_build(&spec, &hot->thermal[axle])
                 : BRAKE_E_RANGE;
    if (status == BRAKE_OK)
        return status;
    return refuse(error, axle, disc ? "disc.rotor_mass" : "drum.drum_mass",
                  "does not go with the size of the ring: the iron comes out thinner than 1 mm a "
                  "face or thicker than 60 mm");
}

/* ---- friction and the rig ------------------------------------------------------------------- */

/* Torque goes with friction to a power where only the brake factor of a drum is known. */
static struct brake_gain_law gain_law(const struct brake_vehicle *vehicle, enum brake_axle axle)
{
    const struct brake_axle_of_vehicle *at = &vehicle->axle[axle];
    const struct brake_lining_lines *lining = &at->lining;
    struct brake_gain_law law = {.mu = at->pads.mu, .power = 1.0};
    if (at->axle.brake == BRAKE_DISC)
        return law;
    law.mu = lining->mu;
    law.shoes = (enum brake_shoes)at->drum.shoes;
    law.power = brake_vehicle_factor_power((enum brake_shoes)at->drum.shoes);
    law.shaped = isnan(at->drum.brake_factor);
    law.shoe = brake_vehicle_shoe(vehicle, axle);
    law.secondary = brake_vehicle_secondary_shoe(vehicle, axle);
    law.secondary_friction = lining->secondary_mu / lining->mu;
    return law;
}

static enum brake_status given_friction(const struct brake_points *given,
                                        struct brake_friction *friction)
{
    double x[BRAKE_POINTS];
    double y[BRAKE_POINTS];
    for (int i = 0; i < BRAKE_POINTS; i++) {
        x[i] = given->at[i].x;
        y[i] = given->at[i].y;
    }
    *friction = (struct brake_friction){0};
    return brake_curve_build(x, y, given->count, &friction->temperature);
}

static enum brake_status build_friction(const struct brake_axle_of_vehicle *at, int axle,
                                        struct brake_hot_rig *hot, struct brake_error *error)
{
    const bool disc = at->axle.brake == BRAKE_DISC;
    const struct brake_points *given = disc ? &at->pads.friction : &at->lining.friction;
    const int last = given->count - 1;
    hot->friction_until[axle] = last >= 0 ? given->at[last].x : BRAKE_NAN;
    const enum brake_status status =
        last >= 0
            ? given_friction(given, &hot->friction[axle])
            : brake_friction_usual(hot->rig.law[axle].mu, disc ? at->pads.fade : at->lining.fade,
                                   &hot->friction[axle]);
    if (status >= BRAKE_OK)
        return BRAKE_OK;
    return refuse(error, axle, disc ? "disc.pads.friction" : "drum.lining.friction",
                  "is no curve: temperatures must rise, and 16 pairs are the most");
}

static void build_rig(const struct brake_vehicle *vehicle, enum brake_load load,
                      struct brake_rig *rig)
{
    const double air = vehicle->heat.ambient;
    const struct brake_delay delay = brake_vehicle_delay(vehicle);
    struct brake_system system;
    brake_system_build(vehicle, load, BRAKE_INTACT, &system);
    *rig = (struct brake_rig){.balance = system.balance,
                              .pedal = system.pedal,
                              .pressure_most = system.pressure_most,
                              .adhesion = brake_system_grip(&system),
                              .antilock = system.antilock,
                              .air_drag = 0.5 * BRAKE_ATMOSPHERE / (GAS_OF_AIR * air) *
                                          vehicle->heat.drag_area,
                              .dead_time = delay.dead_time,
                              .rise_time = delay.build_up,
                              .air = air,
                              .step = 0.5,
                              .tolerance = 5e-4};
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_axle_of_vehicle *at = &vehicle->axle[i];
        const double radius =
            at->axle.brake == BRAKE_DISC ? at->disc.effective_radius : at->drum.diameter / 2.0;
        rig->law[i] = gain_law(vehicle, (enum brake_axle)i);
        rig->rubbing[i] = radius / at->tyre.rolling_radius;
    }
}

enum brake_status brake_hot_rig_build(const struct brake_vehicle *vehicle, enum brake_load load,
                                      struct brake_hot_rig *hot, struct brake_error *error)
{
    static const char *const irons[] = {"grey iron 150", "grey iron 200", "grey iron 250"};
    *error = (struct brake_error){.status = BRAKE_OK};
    if (!all_there(vehicle, error))
        return error->status;
    hot->iron = brake_substance_find(irons[vehicle->heat.iron]);
    hot->boiling = brake_fluid_boiling((enum brake_fluid_kind)vehicle->heat.fluid, true);
    build_rig(vehicle, load, &hot->rig);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        enum brake_status status = build_brake(vehicle, i, hot, error);
        if (status == BRAKE_OK)
            status = build_friction(&vehicle->axle[i], i, hot, error);
        if (status != BRAKE_OK)
            return status;
        hot->rig.thermal[i] = &hot->thermal[i];
        hot->rig.friction[i] = &hot->friction[i];
    }
    return BRAKE_OK;
}
