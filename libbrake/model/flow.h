/* Heat flows along the chain of brake/thermal.h at one instant, and how they change with its
 * temperatures. */
#ifndef BRAKE_MODEL_FLOW_H
#define BRAKE_MODEL_FLOW_H

#include <stdbool.h>

#include "brake/thermal.h"

/* Index of the rubbed cell in the chain; the parts before it are those up to the pad. */
enum { FIRST_CELL = BRAKE_PART_PAD + 1, NODES = BRAKE_THERMAL_NODES };

/* Whether the counts of a brake fit its tables: somebody may have filled it by hand. */
static inline bool is_ready(const struct brake_thermal *brake)
{
    const int cells = brake->spec.cells;
    const int points = brake->spec.material.points;
    return cells >= 1 && cells <= BRAKE_WALL_CELLS && brake->nodes == cells + BRAKE_THERMAL_PARTS &&
           points >= 1 && points <= BRAKE_WALL_POINTS;
}

/* Node of the chain that a part is. */
static inline int part_node(const struct brake_thermal *brake, enum brake_part part)
{
    return part <= BRAKE_PART_PAD ? (int)part : (int)part + brake->spec.cells;
}

/* What acts on the brake now. */
struct instant {
    double power;
    double speed;
    double air;
    double contact; /* [W/K] between face and pad */
};

/* What follows from the enthalpies alone. */
struct field {
    double temperature[NODES];
    double capacity[NODES];     /* dH/dT [J/K] */
    double conductivity[NODES]; /* of the cells */
    double potential[NODES];    /* of the cells */
};

/* [W] of a surface to the air. */
struct loss {
    double convected;
    double radiated;
};

/* Outer half of the cell at a face of the wall, and what meets it there. */
struct half {
    double temperature; /* of the cell */
    double conductance; /* [W/K] from its middle to the face */
    double power;       /* [W] friction heat that enters the wall here */
    double link;        /* [W/K] to the pad */
    double pad;         /* its temperature */
    double convection;  /* [W/K] to the air */
};

/* [W] */
struct face {
    struct loss loss;
    double into_pad;
    double into_wall;
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
    double rate[NODES];
    double convected;
    double radiated;
};

/* Derivatives of the flows by temperature [W/K]: of rate[i] by that of the node before, its own and
 * the next; of the losses by each. */
struct slopes {
    double before[NODES];
    double own[NODES];
    double next[NODES];
    double convected[NODES];
    double radiated[NODES];
};

void brake_flow_field(const struct brake_thermal *brake, const double *enthalpy,
                      struct field *field);

/* That of the rubbed cell alone. */
void brake_flow_rubbed(const struct brake_thermal *brake, const double *enthalpy,
                       struct field *field);

/* Heat [W] into the wall at its rubbed face. */
double brake_flow_face(const struct brake_thermal *brake, const struct instant *now,
                       const struct field *field);

void brake_flow_exchange(const struct brake_thermal *brake, const struct instant *now,
                         const struct field *field, struct exchange *exchange);

/* Everything but conduction between cells; sets all of `flow`. */
void brake_flow_gather(const struct brake_thermal *brake, const struct instant *now,
                       const struct field *field, const struct exchange *exchange,
                       struct flow *flow);

/* Adds conduction between cells. */
void brake_flow_conduct(const struct brake_thermal *brake, const struct field *field,
                        struct flow *flow);

void brake_flow_slopes(const struct brake_thermal *brake, const struct instant *now,
                       const struct field *field, const struct exchange *exchange,
                       struct slopes *slopes);

#endif
