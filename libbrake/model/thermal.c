/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/thermal.h. */
#include "brake/thermal.h"

#include <math.h>
#include <stdbool.h>

#include "chain.h"

struct brake_solid brake_material_at(const struct brake_material *material, double temperature)
{
    struct brake_solid solid = {material->conductivity[0], material->density,
                                material->heat_capacity[0]};
    if (material->points < 1 || material->points > BRAKE_WALL_POINTS || isnan(temperature))
        return (struct brake_solid){BRAKE_NAN, BRAKE_NAN, BRAKE_NAN};
    for (int j = 0; j + 1 < material->points && temperature > material->temperature[j]; j++) {
        const double span = material->temperature[j + 1] - material->temperature[j];
        const double part = fmin(1.0, (temperature - material->temperature[j]) / span);
        solid.conductivity = material->conductivity[j] +
                             part * (material->conductivity[j + 1] - material->conductivity[j]);
        solid.heat_capacity = material->heat_capacity[j] +
                              part * (material->heat_capacity[j + 1] - material->heat_capacity[j]);
    }
    return solid;
}

static bool within(double value, double low, double high)
{
    return value >= low && value <= high;
}

static bool material_usable(const struct brake_material *material)
{
    if (material->points < 1 || material->points > BRAKE_WALL_POINTS ||
        !within(material->density, 1.0, 1e5))
        return false;
    for (int j = 0; j < material->points; j++) {
        if (!(within(material->temperature[j], 1.0, 1e4) &&
              within(material->conductivity[j], 1e-3, 1e5) &&
              within(material->heat_capacity[j], 1.0, 1e5)))
            return false;
        if (j > 0 && !(material->temperature[j] > material->temperature[j - 1]))
            return false;
    }
    return true;
}

static bool grid_usable(const struct brake_thermal_spec *spec)
{
    if (!(within(spec->area, 1e-6, 1e3) && within(spec->thickness, 1e-5, 10.0)) ||
        spec->cells < 1 || spec->cells > BRAKE_WALL_CELLS)
        return false;
    if (spec->first_cell == 0.0)
        return within(spec->ratio, 1.0, 10.0);
    return within(spec->first_cell, 1e-7, spec->thickness / spec->cells * (1.0 + 1e-12));
}

static bool heat_usable(const struct brake_thermal_spec *spec)
{
    return within(spec->share, 0.0, 1.0) && within(spec->back_share, 0.0, 1.0) &&
           within(spec->contact, 0.0, 1e9) && within(spec->pressure, 1e2, 1e7) &&
           within(spec->tolerance, 1e-9, 10.0) &&
           (spec->back_share == 0.0 || spec->contact == 0.0) &&
           (spec->part[BRAKE_PART_PAD].capacity > 0.0 ||
            (spec->share == 1.0 && spec->contact == 0.0));
}

static bool parts_usable(const struct brake_thermal_spec *spec)
{
    if (!(brake_cooling_usable(&spec->front) && brake_cooling_usable(&spec->back)))
        return false;
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++) {
        const struct brake_lump *lump = &spec->part[i];
        if (!(lump->capacity == 0.0 || within(lump->capacity, 1e-3, 1e9)) ||
            !within(lump->link, 0.0, 1e9) || !brake_cooling_usable(&lump->cooling))
            return false;
    }
    return true;
}

/* How many cells thinner than this one lie between it and the next rubbed face. */
static int rank(const struct brake_thermal_spec *spec, int cell)
{
    const int back = spec->cells - 1 - cell;
    return spec->back_share > 0.0 && back < cell ? back : cell;
}

/* Thickness of all cells over that of the first. */
static double spread(const struct brake_thermal_spec *spec, double ratio)
{
    double sum = 0.0;
    for (int i = 0; i < spec->cells; i++)
        sum += pow(ratio, rank(spec, i));
    return sum;
}

/* Ratio at which the first cell has its thickness. */
static double solved_ratio(const struct brake_thermal_spec *spec)
{
    const double wanted = spec->thickness / spec->first_cell;
    double low = 1.0;
    double high = 2.0;
    if (spread(spec, low) >= wanted || rank(spec, spec->cells / 2) == 0)
        return low;
    while (spread(spec, high) < wanted)
        high *= 2.0;
    for (int i = 0; i < 60; i++) {
        const double middle = 0.5 * (low + high);
        if (spread(spec, middle) < wanted)
            low = middle;
        else
            high = middle;
    }
    return 0.5 * (low + high);
}

static void lay_grid(struct brake_thermal *brake)
{
    const struct brake_thermal_spec *spec = &brake->spec;
    const double ratio = spec->first_cell > 0.0 ? solved_ratio(spec) : spec->ratio;
    const double first = spec->thickness / spread(spec, ratio);
    for (int i = 0; i < spec->cells; i++) {
        brake->width[i] = first * pow(ratio, rank(spec, i));
        brake->mass[i] = spec->material.density * spec->area * brake->width[i];
    }
    for (int i = 0; i + 1 < spec->cells; i++)
        brake->inner[i] = 2.0 * spec->area / (brake->width[i] + brake->width[i + 1]);
}

static void fill_tables(struct brake_thermal *brake)
{
    const struct brake_material *m = &brake->spec.material;
    const int last = m->points - 1;
    brake->start[0] = 0.0;
    brake->potential[0] = 0.0;
    for (int j = 0; j < last; j++) {
        const double span = m->temperature[j + 1] - m->temperature[j];
        brake->incline[j] = (m->heat_capacity[j + 1] - m->heat_capacity[j]) / span;
        brake->bend[j] = (m->conductivity[j + 1] - m->conductivity[j]) / span;
        brake->start[j + 1] =
            brake->start[j] + 0.5 * (m->heat_capacity[j] + m->heat_capacity[j + 1]) * span;
        brake->potential[j + 1] =
            brake->potential[j] + 0.5 * (m->conductivity[j] + m->conductivity[j + 1]) * span;
    }
    brake->incline[last] = 0.0;
    brake->bend[last] = 0.0;
}

/* A part that is left out keeps its temperature: no link leads to it and nothing cools it. */
static void join_parts(struct brake_thermal *brake)
{
    static const enum brake_part inwards[] = {BRAKE_PART_PAD,   BRAKE_PART_PLATE, BRAKE_PART_PISTON,
                                              BRAKE_PART_FLUID, BRAKE_PART_BODY,  BRAKE_PART_RIM,
                                              BRAKE_PART_HAT};
    bool joined = true;
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++) {
        const enum brake_part part = inwards[i];
        struct brake_lump *lump = &brake->spec.part[part];
        joined = (joined || part == BRAKE_PART_RIM) && lump->capacity > 0.0;
        brake->capacity[part] = joined ? lump->capacity : 1.0;
        brake->link[part] = joined ? lump->link : 0.0;
        if (!joined) {
            lump->capacity = 0.0;
            lump->cooling.area = 0.0;
        }
    }
}

enum brake_status brake_thermal_build(const struct brake_thermal_spec *spec,
                                      struct brake_thermal *brake)
{
    *brake = (struct brake_thermal){.nodes = 0};
    if (!(material_usable(&spec->material) && grid_usable(spec) && heat_usable(spec) &&
          parts_usable(spec)))
        return BRAKE_E_RANGE;
    brake->spec = *spec;
    brake->nodes = spec->cells + BRAKE_THERMAL_PARTS;
    lay_grid(brake);
    fill_tables(brake);
    join_parts(brake);
    return BRAKE_OK;
}

/* Enthalpy per mass above the first point of the table. */
static double specific_enthalpy(const struct brake_thermal *brake, double temperature)
{
    const struct brake_material *material = &brake->spec.material;
    int j = material->points - 1;
    while (j > 0 && temperature < material->temperature[j])
        j--;
    const double above = temperature - material->temperature[j];
    const double incline = above < 0.0 ? 0.0 : brake->incline[j];
    return brake->start[j] + (material->heat_capacity[j] + 0.5 * incline * above) * above;
}

enum brake_status brake_thermal_start(const struct brake_thermal *brake, double temperature,
                                      struct brake_thermal_state *state)
{
    *state = (struct brake_thermal_state){.face = BRAKE_NAN};
    if (!is_ready(brake) || !within(temperature, 1.0, 5000.0))
        return BRAKE_E_RANGE;
    for (int i = 0; i < brake->spec.cells; i++)
        state->enthalpy[FIRST_CELL + i] = brake->mass[i] * specific_enthalpy(brake, temperature);
    for (int part = 0; part < BRAKE_THERMAL_PARTS; part++)
        state->enthalpy[node_of(brake->spec.cells, (enum brake_part)part)] =
            brake->capacity[part] * (temperature - brake->spec.material.temperature[0]);
    for (int i = 0; i < brake->nodes; i++)
        state->temperature[i] = temperature;
    state->face = temperature;
    state->begun = brake_thermal_stored(brake, state);
    return BRAKE_OK;
}

double brake_thermal_stored(const struct brake_thermal *brake,
                            const struct brake_thermal_state *state)
{
    double sum = 0.0;
    if (!is_ready(brake))
        return BRAKE_NAN;
    for (int i = 0; i < brake->nodes; i++)
        sum += state->enthalpy[i];
    return sum - state->begun;
}

double brake_thermal_residual(const struct brake_thermal *brake,
                              const struct brake_thermal_state *state)
{
    const double lost = state->convected + state->radiated;
    const double scale = fmax(state->supplied, fabs(lost));
    const double error = state->supplied - lost - brake_thermal_stored(brake, state);
    return scale > 0.0 ? fabs(error) / scale : fabs(error);
}

double brake_thermal_face(const struct brake_thermal *brake,
                          const struct brake_thermal_state *state)
{
    return is_ready(brake) ? state->face : BRAKE_NAN;
}

double brake_thermal_mean(const struct brake_thermal *brake,
                          const struct brake_thermal_state *state)
{
    double sum = 0.0;
    if (!is_ready(brake))
        return BRAKE_NAN;
    for (int i = 0; i < brake->spec.cells; i++)
        sum += brake->width[i] * state->temperature[FIRST_CELL + i];
    return sum / brake->spec.thickness;
}

double brake_thermal_cell(const struct brake_thermal *brake,
                          const struct brake_thermal_state *state, int cell)
{
    if (!is_ready(brake) || cell < 0 || cell >= brake->spec.cells)
        return BRAKE_NAN;
    return state->temperature[FIRST_CELL + cell];
}

double brake_thermal_part(const struct brake_thermal *brake,
                          const struct brake_thermal_state *state, enum brake_part part)
{
    if (!is_ready(brake) || (int)part < 0 || part >= BRAKE_THERMAL_PARTS ||
        !(brake->spec.part[part].capacity > 0.0))
        return BRAKE_NAN;
    return state->temperature[node_of(brake->spec.cells, part)];
}

double brake_fluid_boiling(enum brake_fluid_kind fluid, int wet)
{
    static const double celsius[BRAKE_FLUID_KINDS][2] = {
        {205.0, 140.0}, {230.0, 155.0}, {260.0, 180.0}, {260.0, 180.0}};
    if ((int)fluid < 0 || fluid >= BRAKE_FLUID_KINDS)
        return BRAKE_NAN;
    return celsius[fluid][wet != 0] + 273.15;
}

double brake_thermal_fluid_margin(const struct brake_thermal *brake,
                                  const struct brake_thermal_state *state, double boiling)
{
    return boiling - brake_thermal_part(brake, state, BRAKE_PART_FLUID);
}
