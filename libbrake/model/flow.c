/* Equations and sources: brake/thermal.h. */
#include "flow.h"

#include <math.h>

/* [W/(m2 K4)] Stefan-Boltzmann; source: CODATA 2018 */
static const double SIGMA = 5.670374419e-8;

/* [K] step of the derivatives by difference: their error is near 1e-9 of themselves. */
static const double NUDGE = 1e-3;

/* A piece of the material's table. With s = T - T_j along it h = h_j + c_j s + (dc/dT) s^2 / 2, so
 * that c^2 = c_j^2 + 2 (dc/dT) (h - h_j). Below the first point and above the last both slopes are
 * 0. */
struct segment {
    double from; /* [J/kg] specific enthalpies that lie in it */
    double to;
    double start; /* h_j */
    double temperature;
    double capacity;
    double incline; /* of the capacity */
    double conductivity;
    double bend; /* of the conductivity */
    double potential;
};

static struct segment segment_of(const struct brake_thermal *brake, double specific)
{
    const struct brake_material *material = &brake->spec.material;
    const int last = material->points - 1;
    int j = last;
    while (j > 0 && specific < brake->start[j])
        j--;
    const bool below = specific < brake->start[j];
    const double end = j < last ? brake->start[j + 1] : BRAKE_INFINITY;
    return (struct segment){
        .from = below ? -BRAKE_INFINITY : brake->start[j],
        .to = below ? brake->start[j] : end,
        .start = brake->start[j],
        .temperature = material->temperature[j],
        .capacity = material->heat_capacity[j],
        .incline = below ? 0.0 : brake->incline[j],
        .conductivity = material->conductivity[j],
        .bend = below ? 0.0 : brake->bend[j],
        .potential = brake->potential[j],
    };
}

/* Cells from one to another, all in a segment: a loop that runs in wide registers. */
static void fill_cells(const struct segment *segment, const double *restrict mass,
                       const double *restrict specific, int from, int to,
                       struct field *restrict field)
{
    const struct segment s = *segment;
    for (int i = from; i < to; i++) {
        const int node = FIRST_CELL + i;
        const double excess = specific[i] - s.start;
        const double capacity = sqrt(s.capacity * s.capacity + 2.0 * s.incline * excess);
        const double above = 2.0 * excess / (s.capacity + capacity);
        field->temperature[node] = s.temperature + above;
        field->capacity[node] = capacity * mass[i];
        field->conductivity[node] = s.conductivity + s.bend * above;
        field->potential[node] = s.potential + (s.conductivity + 0.5 * s.bend * above) * above;
    }
}

void brake_flow_rubbed(const struct brake_thermal *brake, const double *enthalpy,
                       struct field *field)
{
    const double specific = enthalpy[FIRST_CELL] / brake->mass[0];
    const struct segment segment = segment_of(brake, specific);
    fill_cells(&segment, brake->mass, &specific, 0, 1, field);
}

void brake_flow_field(const struct brake_thermal *brake, const double *enthalpy,
                      struct field *field)
{
    const double base = brake->spec.material.temperature[0];
    const int cells = brake->spec.cells;
    double specific[BRAKE_WALL_CELLS];
    for (int i = 0; i < cells; i++)
        specific[i] = enthalpy[FIRST_CELL + i] / brake->mass[i];
    for (int from = 0, to; from < cells; from = to) {
        const struct segment segment = segment_of(brake, specific[from]);
        to = from + 1;
        while (to < cells && specific[to] >= segment.from && specific[to] < segment.to)
            to++;
        fill_cells(&segment, brake->mass, specific, from, to, field);
    }
    for (int part = 0; part < BRAKE_THERMAL_PARTS; part++) {
        const int node = part_node(brake, (enum brake_part)part);
        field->capacity[node] = brake->capacity[part];
        field->temperature[node] = base + enthalpy[node] / brake->capacity[part];
    }
}

static double fourth(double value)
{
    return value * value * value * value;
}

static double coefficient(const struct brake_thermal *brake, const struct instant *now,
                          const struct brake_cooling *cooling, double temperature)
{
    return brake_cooling_coefficient(cooling, now->speed, 0.5 * (temperature + now->air),
                                     brake->spec.pressure);
}

static struct loss part_loss(const struct brake_thermal *brake, const struct instant *now,
                             const struct brake_cooling *cooling, double temperature)
{
    struct loss loss = {0.0, 0.0};
    if (cooling->area > 0.0) {
        loss.convected = coefficient(brake, now, cooling, temperature) * cooling->area *
                         (temperature - now->air);
        loss.radiated =
            cooling->emissivity * SIGMA * cooling->area * (fourth(temperature) - fourth(now->air));
    }
    return loss;
}

/* [W/K] of a face to the air. */
static double convection(const struct brake_thermal *brake, const struct instant *now,
                         const struct brake_cooling *cooling, double temperature)
{
    return cooling->area > 0.0 ? coefficient(brake, now, cooling, temperature) * cooling->area
                               : 0.0;
}

/* The face has no heat capacity: conduction, friction, contact, convection and radiation, the last
 * two linearised about the cell, give its temperature; its losses then follow their own laws. */
static struct face balance(const struct brake_cooling *cooling, double air, const struct half *half)
{
    struct face face = {{0.0, 0.0}, 0.0, half->power};
    if (cooling->area == 0.0 && half->link == 0.0)
        return face;
    const double cell = half->temperature;
    const double radiation = cooling->emissivity * SIGMA * cooling->area;
    const double out = half->convection + radiation * (cell * cell + air * air) * (cell + air);
    const double temperature =
        (half->conductance * cell + half->power + half->link * half->pad + out * air) /
        (half->conductance + half->link + out);
    face.loss.convected = half->convection * (temperature - air);
    face.loss.radiated = radiation * (fourth(temperature) - fourth(air));
    face.into_pad = half->link * (temperature - half->pad);
    face.into_wall = half->power - face.into_pad - face.loss.convected - face.loss.radiated;
    return face;
}

static struct half front_half(const struct brake_thermal *brake, const struct instant *now,
                              const struct field *field)
{
    const struct brake_thermal_spec *spec = &brake->spec;
    const double temperature = field->temperature[FIRST_CELL];
    return (struct half){
        .temperature = temperature,
        .conductance = 2.0 * field->conductivity[FIRST_CELL] * spec->area / brake->width[0],
        .power = now->power * spec->share * (1.0 - spec->back_share),
        .link = brake->link[BRAKE_PART_PAD] + now->contact,
        .pad = field->temperature[BRAKE_PART_PAD],
        .convection = convection(brake, now, &spec->front, temperature),
    };
}

static struct half back_half(const struct brake_thermal *brake, const struct instant *now,
                             const struct field *field)
{
    const struct brake_thermal_spec *spec = &brake->spec;
    const int last = FIRST_CELL + spec->cells - 1;
    const double temperature = field->temperature[last];
    return (struct half){
        .temperature = temperature,
        .conductance = 2.0 * field->conductivity[last] * spec->area / brake->width[spec->cells - 1],
        .power = now->power * spec->share * spec->back_share,
        .link = 0.0,
        .pad = 0.0,
        .convection = convection(brake, now, &spec->back, temperature),
    };
}

double brake_flow_face(const struct brake_thermal *brake, const struct instant *now,
                       const struct field *field)
{
    const struct half half = front_half(brake, now, field);
    return balance(&brake->spec.front, now->air, &half).into_wall;
}

/* The node of the chain to which the link of a part leads. */
static int towards_wall(const struct brake_thermal *brake, enum brake_part part)
{
    const int node = part_node(brake, part);
    return part <= BRAKE_PART_PAD ? node + 1 : node - 1;
}

void brake_flow_exchange(const struct brake_thermal *brake, const struct instant *now,
                         const struct field *field, struct exchange *exchange)
{
    const struct brake_thermal_spec *spec = &brake->spec;
    exchange->inner = front_half(brake, now, field);
    exchange->outer = back_half(brake, now, field);
    exchange->front = balance(&spec->front, now->air, &exchange->inner);
    exchange->back = balance(&spec->back, now->air, &exchange->outer);
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++)
        exchange->part[i] = part_loss(brake, now, &spec->part[i].cooling,
                                      field->temperature[part_node(brake, (enum brake_part)i)]);
}

void brake_flow_gather(const struct brake_thermal *brake, const struct instant *now,
                       const struct field *field, const struct exchange *exchange,
                       struct flow *flow)
{
    const struct face *front = &exchange->front;
    const struct face *back = &exchange->back;
    for (int i = 0; i < brake->nodes; i++)
        flow->rate[i] = 0.0;
    flow->rate[FIRST_CELL] += front->into_wall;
    flow->rate[FIRST_CELL + brake->spec.cells - 1] += back->into_wall;
    flow->rate[BRAKE_PART_PAD] += front->into_pad + now->power * (1.0 - brake->spec.share);
    flow->convected = front->loss.convected + back->loss.convected;
    flow->radiated = front->loss.radiated + back->loss.radiated;
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++) {
        const enum brake_part part = (enum brake_part)i;
        const int node = part_node(brake, part);
        const int other = towards_wall(brake, part);
        const struct loss *loss = &exchange->part[i];
        if (part != BRAKE_PART_PAD) { /* the pad's link is part of the face */
            const double heat =
                brake->link[part] * (field->temperature[other] - field->temperature[node]);
            flow->rate[node] += heat;
            flow->rate[other] -= heat;
        }
        flow->rate[node] -= loss->convected + loss->radiated;
        flow->convected += loss->convected;
        flow->radiated += loss->radiated;
    }
}

void brake_flow_conduct(const struct brake_thermal *brake, const struct field *field,
                        struct flow *flow)
{
    for (int i = 0; i + 1 < brake->spec.cells; i++) {
        const int node = FIRST_CELL + i;
        const double heat = brake->inner[i] * (field->potential[node] - field->potential[node + 1]);
        flow->rate[node] -= heat;
        flow->rate[node + 1] += heat;
    }
}

/* Adds the derivatives of a face by the temperature of its cell, and by that of the pad. */
static void face_slopes(const struct brake_thermal *brake, const struct instant *now,
                        const struct brake_cooling *cooling, const struct half *half,
                        const struct face *face, struct slopes *slopes)
{
    const int front = cooling == &brake->spec.front;
    const int node = front ? FIRST_CELL : FIRST_CELL + brake->spec.cells - 1;
    if (cooling->area == 0.0 && half->link == 0.0)
        return;
    struct half warmer = *half;
    warmer.temperature += NUDGE;
    warmer.convection = convection(brake, now, cooling, warmer.temperature);
    const struct face after = balance(cooling, now->air, &warmer);
    slopes->own[node] += (after.into_wall - face->into_wall) / NUDGE;
    slopes->convected[node] += (after.loss.convected - face->loss.convected) / NUDGE;
    slopes->radiated[node] += (after.loss.radiated - face->loss.radiated) / NUDGE;
    if (half->link == 0.0)
        return;
    struct half pad = *half;
    pad.pad += NUDGE;
    const struct face beside = balance(cooling, now->air, &pad);
    slopes->next[BRAKE_PART_PAD] += (after.into_pad - face->into_pad) / NUDGE;
    slopes->before[FIRST_CELL] += (beside.into_wall - face->into_wall) / NUDGE;
    slopes->own[BRAKE_PART_PAD] += (beside.into_pad - face->into_pad) / NUDGE;
    slopes->convected[BRAKE_PART_PAD] += (beside.loss.convected - face->loss.convected) / NUDGE;
    slopes->radiated[BRAKE_PART_PAD] += (beside.loss.radiated - face->loss.radiated) / NUDGE;
}

static void part_slopes(const struct brake_thermal *brake, const struct instant *now,
                        const struct field *field, const struct loss loss[BRAKE_THERMAL_PARTS],
                        struct slopes *slopes)
{
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++) {
        const enum brake_part part = (enum brake_part)i;
        const struct brake_cooling *cooling = &brake->spec.part[part].cooling;
        const int node = part_node(brake, part);
        const int other = towards_wall(brake, part);
        if (cooling->area > 0.0) {
            const struct loss after =
                part_loss(brake, now, cooling, field->temperature[node] + NUDGE);
            const double convected = (after.convected - loss[part].convected) / NUDGE;
            const double radiated = (after.radiated - loss[part].radiated) / NUDGE;
            slopes->convected[node] += convected;
            slopes->radiated[node] += radiated;
            slopes->own[node] -= convected + radiated;
        }
        if (part == BRAKE_PART_PAD)
            continue;
        slopes->own[node] -= brake->link[part];
        slopes->own[other] -= brake->link[part];
        if (other > node) {
            slopes->next[node] += brake->link[part];
            slopes->before[other] += brake->link[part];
        } else {
            slopes->before[node] += brake->link[part];
            slopes->next[other] += brake->link[part];
        }
    }
}

void brake_flow_slopes(const struct brake_thermal *brake, const struct instant *now,
                       const struct field *field, const struct exchange *exchange,
                       struct slopes *slopes)
{
    for (int i = 0; i < brake->nodes; i++) {
        slopes->before[i] = 0.0;
        slopes->own[i] = 0.0;
        slopes->next[i] = 0.0;
        slopes->convected[i] = 0.0;
        slopes->radiated[i] = 0.0;
    }
    for (int i = 0; i + 1 < brake->spec.cells; i++) {
        const int node = FIRST_CELL + i;
        const double leaving = brake->inner[i] * field->conductivity[node];
        const double coming = brake->inner[i] * field->conductivity[node + 1];
        slopes->own[node] -= leaving;
        slopes->next[node] += coming;
        slopes->before[node + 1] += leaving;
        slopes->own[node + 1] -= coming;
    }
    face_slopes(brake, now, &brake->spec.front, &exchange->inner, &exchange->front, slopes);
    face_slopes(brake, now, &brake->spec.back, &exchange->outer, &exchange->back, slopes);
    part_slopes(brake, now, field, exchange->part, slopes);
}
