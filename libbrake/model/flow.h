/* SPDX-License-Identifier: MIT */
/* Heat flows along the chains of brakes side by side, as in brake/thermal.h, at one instant, and
 * how they change with their temperatures. */
#ifndef BRAKE_MODEL_FLOW_H
#define BRAKE_MODEL_FLOW_H

#include "chain.h"
#include "cooling.h"

/* [W/(m2 K4)] Stefan-Boltzmann; source: CODATA 2018 */
#define SIGMA 5.670374419e-8

/* [K] step of the derivatives by difference: their error is near 1e-9 of themselves. */
#define NUDGE 1e-3
#define PER_NUDGE 1e3

/* ---- brakes side by side -------------------------------------------------------------------- */

/* A point of the material's table and the piece above it. With s = T - T_j along it h = h_j + c_j s
 * + (dc/dT) s^2 / 2, so that c^2 = c_j^2 + 2 (dc/dT) (h - h_j). */
struct point {
    pack start; /* [J/kg] h_j */
    pack temperature;
    pack capacity;
    pack incline; /* of the capacity */
    pack conductivity;
    pack bend; /* of the conductivity */
    pack potential;
};

/* Brakes whose walls have the same number of cells. */
struct brakes {
    int cells;
    int nodes;
    int points; /* most of any; above its own last one a lane has them at infinite enthalpy */
    struct point point[BRAKE_WALL_POINTS];
    pack per_mass[BRAKE_WALL_CELLS];
    pack mass[BRAKE_WALL_CELLS];
    pack inner[BRAKE_WALL_CELLS];
    pack first_reach; /* [m] area over half the width of the cell at the rubbed face */
    pack last_reach;  /* the same at the back */
    pack capacity[BRAKE_THERMAL_PARTS];
    pack per_capacity[BRAKE_THERMAL_PARTS];
    pack link[BRAKE_THERMAL_PARTS];
    pack contact;
    pack share;
    pack back_share;
    pack pressure;
    pack tolerance;
    struct surface front;
    struct surface back;
    struct surface part[BRAKE_THERMAL_PARTS];
};

TARGET static inline void put_material(const struct brake_thermal *from, int i, struct brakes *to)
{
    const struct brake_material *material = &from->spec.material;
    for (int j = 0; j < to->points; j++) {
        const int at = j < material->points ? j : material->points - 1;
        struct point *point = &to->point[j];
        set_lane(&point->start, i, j < material->points ? from->start[j] : BRAKE_INFINITY);
        set_lane(&point->temperature, i, material->temperature[at]);
        set_lane(&point->capacity, i, material->heat_capacity[at]);
        set_lane(&point->incline, i, from->incline[at]);
        set_lane(&point->conductivity, i, material->conductivity[at]);
        set_lane(&point->bend, i, from->bend[at]);
        set_lane(&point->potential, i, from->potential[at]);
    }
}

TARGET static inline void put_brake(const struct brake_thermal *from, int i, struct brakes *to)
{
    const struct brake_thermal_spec *spec = &from->spec;
    const int last = to->cells - 1;
    put_material(from, i, to);
    for (int j = 0; j < to->cells; j++) {
        set_lane(&to->mass[j], i, from->mass[j]);
        set_lane(&to->inner[j], i, from->inner[j]);
    }
    set_lane(&to->first_reach, i, 2.0 * spec->area / from->width[0]);
    set_lane(&to->last_reach, i, 2.0 * spec->area / from->width[last]);
    set_lane(&to->contact, i, spec->contact);
    set_lane(&to->share, i, spec->share);
    set_lane(&to->back_share, i, spec->back_share);
    set_lane(&to->pressure, i, spec->pressure);
    set_lane(&to->tolerance, i, spec->tolerance);
    put_surface(&spec->front, i, &to->front);
    put_surface(&spec->back, i, &to->back);
    for (int part = 0; part < BRAKE_THERMAL_PARTS; part++) {
        set_lane(&to->capacity[part], i, from->capacity[part]);
        set_lane(&to->link[part], i, from->link[part]);
        put_surface(&spec->part[part].cooling, i, &to->part[part]);
    }
}

TARGET static inline void put_brakes(const struct brake_thermal *const from[WIDTH],
                                     struct brakes *to)
{
    to->cells = from[0]->spec.cells;
    to->nodes = from[0]->nodes;
    to->points = 0;
    clear_surface(&to->front);
    clear_surface(&to->back);
    for (int part = 0; part < BRAKE_THERMAL_PARTS; part++)
        clear_surface(&to->part[part]);
    for (int i = 0; i < WIDTH; i++)
        to->points =
            from[i]->spec.material.points > to->points ? from[i]->spec.material.points : to->points;
    for (int i = 0; i < WIDTH; i++)
        put_brake(from[i], i, to);
    for (int i = 0; i < to->cells; i++)
        to->per_mass[i] = 1.0 / to->mass[i];
    complete_surface(&to->front);
    complete_surface(&to->back);
    for (int part = 0; part < BRAKE_THERMAL_PARTS; part++) {
        to->per_capacity[part] = 1.0 / to->capacity[part];
        complete_surface(&to->part[part]);
    }
}

/* ---- what follows from the enthalpies alone -------------------------------------------------- */

struct field {
    pack temperature[NODES];
    pack capacity[NODES];     /* dH/dT [J/K] */
    pack conductivity[NODES]; /* of the cells */
    pack potential[NODES];    /* of the cells */
};

/* The piece of the table in which a specific enthalpy lies: `from` to `to`. Below the first point
 * and above the last both slopes are 0. */
struct piece {
    pack from;
    pack to;
    struct point point;
};

TARGET static inline struct piece piece_of(const struct brakes *brakes, pack specific)
{
    const struct point *point = brakes->point;
    const mask below = specific < point->start;
    struct piece piece = {either(below, all(-BRAKE_INFINITY), point->start), all(BRAKE_INFINITY),
                          *point};
    piece.point.incline = either(below, all(0.0), point->incline);
    piece.point.bend = either(below, all(0.0), point->bend);
    piece.to = either(below, point->start, piece.to);
    for (int j = 1; j < brakes->points; j++) {
        const struct point *next = &point[j];
        const mask past = specific >= next->start;
        piece.to = either((piece.to == BRAKE_INFINITY) & other_than(past), next->start, piece.to);
        if (!any(past))
            break;
        piece.from = either(past, next->start, piece.from);
        piece.point.start = either(past, next->start, piece.point.start);
        piece.point.temperature = either(past, next->temperature, piece.point.temperature);
        piece.point.capacity = either(past, next->capacity, piece.point.capacity);
        piece.point.incline = either(past, next->incline, piece.point.incline);
        piece.point.conductivity = either(past, next->conductivity, piece.point.conductivity);
        piece.point.bend = either(past, next->bend, piece.point.bend);
        piece.point.potential = either(past, next->potential, piece.point.potential);
    }
    return piece;
}

TARGET static inline pack specific_of(const struct brakes *brakes, int cell, const pack *enthalpy)
{
    return enthalpy[FIRST_CELL + cell] * brakes->per_mass[cell];
}

/* Kept from cell to cell while it holds them all: neighbours are near in temperature. */
TARGET static inline void keep_piece(const struct brakes *brakes, pack specific,
                                     struct piece *piece)
{
    if (any((specific < piece->from) | (specific >= piece->to)))
        *piece = piece_of(brakes, specific);
}

TARGET static inline void find_cell(const struct brakes *brakes, int cell, const struct point *p,
                                    pack specific, struct field *field)
{
    const int node = FIRST_CELL + cell;
    const pack excess = specific - p->start;
    const pack capacity = root(p->capacity * p->capacity + 2.0 * p->incline * excess);
    const pack above = 2.0 * excess / (p->capacity + capacity);
    field->temperature[node] = p->temperature + above;
    field->capacity[node] = capacity * brakes->mass[cell];
    field->conductivity[node] = p->conductivity + p->bend * above;
    field->potential[node] = p->potential + (p->conductivity + 0.5 * p->bend * above) * above;
}

TARGET static inline void find_parts(const struct brakes *brakes, const pack *restrict enthalpy,
                                     struct field *restrict field)
{
    const pack base = brakes->point[0].temperature;
    for (int part = 0; part < BRAKE_THERMAL_PARTS; part++) {
        const int node = node_of(brakes->cells, (enum brake_part)part);
        field->capacity[node] = brakes->capacity[part];
        field->temperature[node] = base + enthalpy[node] * brakes->per_capacity[part];
    }
}

TARGET static inline void find_field(const struct brakes *brakes, const pack *restrict enthalpy,
                                     struct field *restrict field)
{
    struct piece piece = piece_of(brakes, specific_of(brakes, 0, enthalpy));
    for (int i = 0; i < brakes->cells; i++) {
        const pack specific = specific_of(brakes, i, enthalpy);
        keep_piece(brakes, specific, &piece);
        find_cell(brakes, i, &piece.point, specific, field);
    }
    find_parts(brakes, enthalpy, field);
}

/* What flows depend on: of cells between the ends of the wall their potential alone. */
TARGET static inline void find_potentials(const struct brakes *brakes,
                                          const pack *restrict enthalpy,
                                          struct field *restrict field)
{
    const int last = brakes->cells - 1;
    pack specific = specific_of(brakes, 0, enthalpy);
    struct piece piece = piece_of(brakes, specific);
    find_cell(brakes, 0, &piece.point, specific, field);
    for (int i = 1; i < last; i++) {
        const struct point *p = &piece.point;
        specific = specific_of(brakes, i, enthalpy);
        keep_piece(brakes, specific, &piece);
        const pack excess = specific - p->start;
        const pack capacity = root(p->capacity * p->capacity + 2.0 * p->incline * excess);
        const pack above = 2.0 * excess / (p->capacity + capacity);
        field->potential[FIRST_CELL + i] =
            p->potential + (p->conductivity + 0.5 * p->bend * above) * above;
    }
    specific = specific_of(brakes, last, enthalpy);
    keep_piece(brakes, specific, &piece);
    find_cell(brakes, last, &piece.point, specific, field);
    find_parts(brakes, enthalpy, field);
}

/* ---- surfaces ------------------------------------------------------------------------------- */

/* What acts on the brakes now. */
struct instant {
    pack power;
    pack speed;
    pack air;
    pack contact; /* [W/K] between face and pad */
};

/* [W] of a surface to the air. */
struct loss {
    pack convected;
    pack radiated;
};

/* Outer half of the cell at a face of the wall, and what meets it there. */
struct half {
    pack temperature; /* of the cell */
    pack conductance; /* [W/K] from its middle to the face */
    pack power;       /* [W] friction heat that enters the wall here */
    pack link;        /* [W/K] to the pad */
    pack pad;         /* its temperature */
    pack convection;  /* [W/K] to the air */
};

/* [W] */
struct face {
    struct loss loss;
    pack into_pad;
    pack into_wall;
};

/* What leaves the chain at its surfaces, and what is rubbed into it. */
struct exchange {
    struct half inner; /* at the rubbed face */
    struct half outer; /* at the back of the wall */
    struct face front;
    struct face back;
    struct loss part[BRAKE_THERMAL_PARTS];
};

/* Heat into each node, and out of the brake [W]. */
struct flow {
    pack rate[NODES];
    pack convected;
    pack radiated;
};

/* Derivatives of the flows by temperature [W/K]: of rate[i] by that of the node before and of the
 * next; of the losses by each. What a warmer node gives its neighbours and the air it loses itself,
 * so that this is its own derivative but for the sign. */
struct slopes {
    pack before[NODES];
    pack next[NODES];
    pack convected[NODES];
    pack radiated[NODES];
};

TARGET static inline pack fourth(pack value)
{
    return value * value * value * value;
}

/* [W/K] of a surface to the air. */
TARGET static inline pack convection(const struct brakes *brakes, const struct instant *now,
                                     const struct surface *surface, pack temperature)
{
    if (!surface->cools)
        return all(0.0);
    return cooling_of(surface, now->speed, 0.5 * (temperature + now->air), brakes->pressure) *
           surface->area;
}

TARGET static inline struct loss part_loss(const struct brakes *brakes, const struct instant *now,
                                           const struct surface *surface, pack temperature)
{
    const pack radiation = surface->emissivity * SIGMA * surface->area;
    return (struct loss){convection(brakes, now, surface, temperature) * (temperature - now->air),
                         radiation * (fourth(temperature) - fourth(now->air))};
}

/* The face has no heat capacity: conduction, friction, contact, convection and radiation, the last
 * two linearised about the cell, give its temperature; its losses then follow their own laws. */
TARGET static inline struct face balance_face(const struct surface *surface, pack air,
                                              const struct half *half)
{
    const pack cell = half->temperature;
    const pack radiation = surface->emissivity * SIGMA * surface->area;
    const pack out = half->convection + radiation * (cell * cell + air * air) * (cell + air);
    const pack temperature =
        (half->conductance * cell + half->power + half->link * half->pad + out * air) /
        (half->conductance + half->link + out);
    struct face face;
    face.loss.convected = half->convection * (temperature - air);
    face.loss.radiated = radiation * (fourth(temperature) - fourth(air));
    face.into_pad = half->link * (temperature - half->pad);
    face.into_wall = half->power - face.into_pad - face.loss.convected - face.loss.radiated;
    return face;
}

TARGET static inline struct half front_half(const struct brakes *brakes, const struct instant *now,
                                            const struct field *field)
{
    const pack temperature = field->temperature[FIRST_CELL];
    return (struct half){
        .temperature = temperature,
        .conductance = field->conductivity[FIRST_CELL] * brakes->first_reach,
        .power = now->power * brakes->share * (1.0 - brakes->back_share),
        .link = brakes->link[BRAKE_PART_PAD] + now->contact,
        .pad = field->temperature[BRAKE_PART_PAD],
        .convection = convection(brakes, now, &brakes->front, temperature),
    };
}

TARGET static inline struct half back_half(const struct brakes *brakes, const struct instant *now,
                                           const struct field *field)
{
    const int last = FIRST_CELL + brakes->cells - 1;
    const pack temperature = field->temperature[last];
    return (struct half){
        .temperature = temperature,
        .conductance = field->conductivity[last] * brakes->last_reach,
        .power = now->power * brakes->share * brakes->back_share,
        .link = all(0.0),
        .pad = all(0.0),
        .convection = convection(brakes, now, &brakes->back, temperature),
    };
}

/* The node of the chain to which the link of a part leads. */
static inline int towards_wall(int cells, enum brake_part part)
{
    const int node = node_of(cells, part);
    return part <= BRAKE_PART_PAD ? node + 1 : node - 1;
}

TARGET static inline void find_exchange(const struct brakes *brakes, const struct instant *now,
                                        const struct field *field, struct exchange *exchange)
{
    exchange->inner = front_half(brakes, now, field);
    exchange->outer = back_half(brakes, now, field);
    exchange->front = balance_face(&brakes->front, now->air, &exchange->inner);
    exchange->back = balance_face(&brakes->back, now->air, &exchange->outer);
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++) {
        const int node = node_of(brakes->cells, (enum brake_part)i);
        const struct surface *surface = &brakes->part[i];
        exchange->part[i] = (struct loss){all(0.0), all(0.0)};
        if (surface->cools)
            exchange->part[i] = part_loss(brakes, now, surface, field->temperature[node]);
    }
}

/* ---- flows ---------------------------------------------------------------------------------- */

/* Outer nodes: all but the cells between the ends of the wall. `i` goes from 0 up. */
static inline int outer_count(int cells)
{
    return BRAKE_THERMAL_PARTS + (cells > 1 ? 2 : 1);
}

static inline int outer_node(int cells, int i)
{
    return i <= FIRST_CELL ? i : i + (cells > 1 ? cells - 2 : 0);
}

/* Everything but conduction between cells, into the outer nodes. */
TARGET static inline void gather(const struct brakes *brakes, const struct instant *now,
                                 const struct field *field, const struct exchange *exchange,
                                 struct flow *flow)
{
    const struct face *front = &exchange->front;
    const struct face *back = &exchange->back;
    for (int i = 0; i < outer_count(brakes->cells); i++)
        flow->rate[outer_node(brakes->cells, i)] = all(0.0);
    flow->rate[FIRST_CELL] += front->into_wall;
    flow->rate[FIRST_CELL + brakes->cells - 1] += back->into_wall;
    flow->rate[BRAKE_PART_PAD] += front->into_pad + now->power * (1.0 - brakes->share);
    flow->convected = front->loss.convected + back->loss.convected;
    flow->radiated = front->loss.radiated + back->loss.radiated;
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++) {
        const enum brake_part part = (enum brake_part)i;
        const int node = node_of(brakes->cells, part);
        const int other = towards_wall(brakes->cells, part);
        const struct loss *loss = &exchange->part[i];
        if (part != BRAKE_PART_PAD) { /* the pad's link is part of the face */
            const pack heat =
                brakes->link[part] * (field->temperature[other] - field->temperature[node]);
            flow->rate[node] += heat;
            flow->rate[other] -= heat;
        }
        if (!brakes->part[i].cools)
            continue;
        flow->rate[node] -= loss->convected + loss->radiated;
        flow->convected += loss->convected;
        flow->radiated += loss->radiated;
    }
}

/* Conduction between cells: sets those between the ends, adds to the ends. */
TARGET static inline void conduct(const struct brakes *brakes, const struct field *field,
                                  struct flow *flow)
{
    const pack *potential = field->potential + FIRST_CELL;
    pack *rate = flow->rate + FIRST_CELL;
    const int last = brakes->cells - 1;
    if (last == 0)
        return;
    pack heat = brakes->inner[0] * (potential[0] - potential[1]);
    rate[0] -= heat;
    for (int i = 1; i < last; i++) {
        const pack onward = brakes->inner[i] * (potential[i] - potential[i + 1]);
        rate[i] = heat - onward;
        heat = onward;
    }
    rate[last] += heat;
}

/* ---- their derivatives ---------------------------------------------------------------------- */

/* Those of a face by the temperature of its cell. */
TARGET static inline struct face warmer_cell(const struct brakes *brakes, const struct instant *now,
                                             const struct surface *surface, const struct half *half)
{
    struct half warmer = *half;
    warmer.temperature += NUDGE;
    warmer.convection = convection(brakes, now, surface, warmer.temperature);
    return balance_face(surface, now->air, &warmer);
}

TARGET static inline struct face warmer_pad(const struct surface *surface,
                                            const struct instant *now, const struct half *half)
{
    struct half warmer = *half;
    warmer.pad += NUDGE;
    return balance_face(surface, now->air, &warmer);
}

/* Adds what a node being warmer by NUDGE makes of a face's losses. */
TARGET static inline void add_losses(int node, const struct face *after, const struct face *face,
                                     struct slopes *slopes)
{
    slopes->convected[node] += (after->loss.convected - face->loss.convected) * PER_NUDGE;
    slopes->radiated[node] += (after->loss.radiated - face->loss.radiated) * PER_NUDGE;
}

TARGET static inline void face_slopes(const struct brakes *brakes, const struct instant *now,
                                      const struct exchange *exchange, struct slopes *slopes)
{
    const int last = FIRST_CELL + brakes->cells - 1;
    const struct face *front = &exchange->front;
    const struct face *back = &exchange->back;
    const struct face cell = warmer_cell(brakes, now, &brakes->front, &exchange->inner);
    const struct face pad = warmer_pad(&brakes->front, now, &exchange->inner);
    slopes->next[BRAKE_PART_PAD] += (cell.into_pad - front->into_pad) * PER_NUDGE;
    slopes->before[FIRST_CELL] += (pad.into_wall - front->into_wall) * PER_NUDGE;
    add_losses(FIRST_CELL, &cell, front, slopes);
    add_losses(BRAKE_PART_PAD, &pad, front, slopes);
    if (!brakes->back.cools)
        return;
    const struct face behind = warmer_cell(brakes, now, &brakes->back, &exchange->outer);
    add_losses(last, &behind, back, slopes);
}

TARGET static inline void part_slopes(const struct brakes *brakes, const struct instant *now,
                                      const struct field *field,
                                      const struct loss loss[BRAKE_THERMAL_PARTS],
                                      struct slopes *slopes)
{
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++) {
        const enum brake_part part = (enum brake_part)i;
        const struct surface *surface = &brakes->part[i];
        const int node = node_of(brakes->cells, part);
        const int other = towards_wall(brakes->cells, part);
        const pack link = brakes->link[i];
        if (surface->cools) {
            const struct loss after =
                part_loss(brakes, now, surface, field->temperature[node] + NUDGE);
            const pack convected = (after.convected - loss[i].convected) * PER_NUDGE;
            const pack radiated = (after.radiated - loss[i].radiated) * PER_NUDGE;
            slopes->convected[node] += convected;
            slopes->radiated[node] += radiated;
        }
        if (part == BRAKE_PART_PAD)
            continue;
        if (other > node) {
            slopes->next[node] += link;
            slopes->before[other] += link;
        } else {
            slopes->before[node] += link;
            slopes->next[other] += link;
        }
    }
}

TARGET static inline void find_slopes(const struct brakes *brakes, const struct instant *now,
                                      const struct field *field, const struct exchange *exchange,
                                      struct slopes *slopes)
{
    for (int i = 0; i <= FIRST_CELL || i < brakes->nodes; i++) /* there is a cell at least */
        slopes->before[i] = slopes->next[i] = slopes->convected[i] = slopes->radiated[i] = all(0.0);
    for (int i = 0; i + 1 < brakes->cells; i++) {
        const int node = FIRST_CELL + i;
        const pack leaving = brakes->inner[i] * field->conductivity[node];
        const pack coming = brakes->inner[i] * field->conductivity[node + 1];
        slopes->next[node] += coming;
        slopes->before[node + 1] += leaving;
    }
    face_slopes(brakes, now, exchange, slopes);
    part_slopes(brakes, now, field, exchange->part, slopes);
}

#endif
