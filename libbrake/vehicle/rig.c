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
    if (error->field[0] == '\0')
        brake_text_format(error->field, sizeof error->field, "%s.%s",
                          brake_axle_word((enum brake_axle)axle), line);
}

static void need(struct brake_error *error, int axle, const char *line, double value)
{
    const size_t used = strlen(error->text);
    if (!isnan(value))
        return;
    error->status = BRAKE_E_MISSING;
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
};

/* Face and pad have one temperature where they rub: all heat goes to the face, which gives the pad
 * its part through half the pad. Released, air is in between. */
static void lay_pads(const struct chain *chain, struct brake_thermal_spec *spec)
{
    const struct brake_solid pad =
        brake_material_at(&brake_substance_find("organic pad")->material, 293.15);
    const struct brake_solid steel =
        brake_material_at(&brake_substance_find("carbon steel")->material, 293.15);
    const double half = pad.conductivity * chain->area / (chain->thickness / 2.0);
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

/* A steel cup 4 mm thick, 30 mm long, 50 mm wide conducts as much along its wall; a shoe touches a
 * wheel cylinder with the tip of its web only. */
static const double CUP = 500.0; /* [W/(m2*K)] */
static const double WEB = 150.0; /* [W/(m2*K)] */

/* Per area of the pistons: a caliper or wheel cylinder of 1250 kg/m2 with 16 times as much surface;
 * as much as along the cup goes from it into the fluid, of which 20 mm stand behind it (1050 kg/m3,
 * 2300 J/(kg*K)). */
static void lay_pistons(const struct chain *chain, struct brake_thermal_spec *spec)
{
    const struct brake_cooling outside = {.law = BRAKE_COOLING_CYLINDER,
                                          .area = 16.0 * chain->piston,
                                          .emissivity = 0.5,
                                          .still = STILL,
                                          .factor = 0.5,
                                          .diameter = 0.1};
    spec->part[BRAKE_PART_PISTON].capacity = 1250.0 * chain->piston * 480.0;
    spec->part[BRAKE_PART_PISTON].link = chain->touch * chain->piston;
    spec->part[BRAKE_PART_PISTON].cooling = outside;
    spec->part[BRAKE_PART_FLUID].capacity = 1050.0 * 2300.0 * 0.020 * chain->piston;
    spec->part[BRAKE_PART_FLUID].link = CUP * chain->piston;
}

static struct brake_thermal_spec begin_spec(const struct brake_substance *iron)
{
    struct brake_thermal_spec spec = {.material = iron->material,
                                      .cells = 24,
                                      .front = {.law = BRAKE_COOLING_FIXED},
                                      .back = {.law = BRAKE_COOLING_FIXED},
                                      .pressure = BRAKE_ATMOSPHERE,
                                      .tolerance = 0.1};
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++)
        spec.part[i].cooling.law = BRAKE_COOLING_FIXED;
    return spec;
}

/* ---- discs ---------------------------------------------------------------------------------- */

struct band {
    double inner; /* [m] */
    double outer; /* [m] */
    double area;  /* [m2] of one face */
};

/* From the edge of the rotor to the inner edge of the pad; when that is not told, the effective
 * radius lies half way. */
static struct band rubbing_band(const struct brake_axle_of_vehicle *at)
{
    const struct brake_pads_lines *pads = &at->pads;
    struct band band = {.outer = at->disc.rotor_diameter / 2.0};
    band.inner =
        pads->shape == BRAKE_RECTANGLE ? pads->outer_radius - pads->height : pads->inner_radius;
    if (isnan(band.inner))
        band.inner = 2.0 * at->disc.effective_radius - band.outer;
    band.area = BRAKE_PI * (band.outer * band.outer - band.inner * band.inner);
    return band;
}

/* 36 vanes of 9 mm that take 35 % of the inner circle. */
static struct brake_cooling between_cheeks(const struct band *band, double radius, double factor)
{
    const double count = 36.0;
    const double height = 0.009;
    const double vane = 0.35 * 2.0 * BRAKE_PI * band->inner / count;
    const double inlet = 2.0 * BRAKE_PI * band->inner / count - vane;
    const double outlet = 2.0 * BRAKE_PI * band->outer / count - vane;
    const double width = 0.5 * (inlet + outlet);
    const struct brake_cooling cooling = {
        .law = BRAKE_COOLING_VANES,
        .area = 2.0 * band->area + 2.0 * count * height * (band->outer - band->inner),
        .still = STILL,
        .factor = factor,
        .rolling_radius = radius,
        .vanes = {band->inner, band->outer, count * height * inlet, count * height * outlet,
                  2.0 * width * height / (width + height)}};
    return cooling;
}

/* A hat of 7 mm, its neck 30 mm long, at 0.8 of the band's inner radius. */
static void lay_hat(const struct band *band, double mass, double factor,
                    struct brake_thermal_spec *spec)
{
    const double radius = 0.8 * band->inner;
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

static enum brake_status lay_disc(const struct brake_vehicle *vehicle, int axle,
                                  struct brake_thermal_spec *spec, struct brake_rig *rig,
                                  struct brake_error *error)
{
    const struct brake_axle_of_vehicle *at = &vehicle->axle[axle];
    const struct band band = rubbing_band(at);
    const double factor = vehicle->heat.cooling;
    if (!(band.inner > 0.0 && band.inner < band.outer))
        return refuse(error, axle, "disc.rotor_diameter",
                      "leaves no ring outside the pad's inner "
                      "edge; measure both");
    const bool rectangle = at->pads.shape == BRAKE_RECTANGLE && !isnan(at->pads.width);
    const double pad =
        fmin(0.5 * band.area, rectangle ? at->pads.width * at->pads.height
                                        : band.area * at->pads.arc / (2.0 * BRAKE_PI));
    const double sides = at->disc.mounting == BRAKE_FIXED ? 2.0 : 1.0;
    const double pistons = brake_vehicle_piston_area(&at->disc.pistons);
    const struct chain chain = {2.0 * pad, at->pads.thickness, at->pads.gap,
                                0.005,     sides * pistons,    CUP};
    rig->lining[axle] = at->disc.efficiency * pistons / pad;
    spec->area = 2.0 * band.area;
    spec->thickness = at->disc.rotor_mass / spec->material.density / spec->area;
    spec->front = (struct brake_cooling){.law = BRAKE_COOLING_FACE,
                                         .area = 2.0 * (band.area - pad),
                                         .emissivity = RUBBED,
                                         .still = STILL,
                                         .factor = factor,
                                         .diameter = 2.0 * band.outer};
    if (at->disc.rotor == BRAKE_VENTED)
        spec->back = between_cheeks(&band, at->tyre.rolling_radius, factor);
    if (at->disc.hat_mass > 0.0)
        lay_hat(&band, at->disc.hat_mass, factor, spec);
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
    const double arc = isnan(told) ? BRAKE_PI * 110.0 / 180.0 : told;
    const double piston = brake_piston_area(1.0, drum->cylinder_diameter);
    const double shoe = arc * drum->diameter / 2.0 * 0.95 * drum->width;
    const struct chain chain = {2.0 * shoe, lining->thickness, 0.0004, 0.004, 2.0 * piston, WEB};
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
static struct brake_gain_law gain_law(const struct brake_axle_of_vehicle *at)
{
    const struct brake_lining_lines *lining = &at->lining;
    struct brake_gain_law law = {.mu = at->pads.mu, .power = 1.0};
    if (at->axle.brake == BRAKE_DISC)
        return law;
    law.mu = lining->mu;
    law.shoes = (enum brake_shoes)at->drum.shoes;
    law.power = brake_vehicle_factor_power((enum brake_shoes)at->drum.shoes);
    law.shaped = isnan(at->drum.brake_factor);
    law.shoe = (struct brake_shoe){at->drum.diameter / 2.0, lining->pivot_radius, lining->force_arm,
                                   lining->heel, lining->toe};
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
                              .adhesion = system.adhesion,
                              .antilock = system.antilock,
                              .air_drag = 0.5 * BRAKE_ATMOSPHERE / (GAS_OF_AIR * air) *
                                          vehicle->heat.drag_area,
                              .dead_time = delay.dead_time,
                              .rise_time = delay.build_up,
                              .air = air,
                              .step = 0.5,
                              .tolerance = 1e-4};
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_axle_of_vehicle *at = &vehicle->axle[i];
        const double radius =
            at->axle.brake == BRAKE_DISC ? at->disc.effective_radius : at->drum.diameter / 2.0;
        rig->law[i] = gain_law(at);
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
    hot->boiling = brake_fluid_boiling((enum brake_fluid_kind)vehicle->heat.fluid, 1);
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
