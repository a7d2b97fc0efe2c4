/* SPDX-License-Identifier: MIT */
/* What criteria measure: a table of measures, each with what it needs and how its value comes;
 * private to this folder. */
#ifndef BRAKE_CRITERIA_MEASURES_H
#define BRAKE_CRITERIA_MEASURES_H

#include "brake/criteria.h"
#include "vehicle/system.h"

enum { KEPT = 4 /* answers to the last questions about one state: criteria share their forces */ };

/* Brakes of one vehicle in a load case and a state of failure, built when first asked for: many
 * criteria ask for the same. */
struct state {
    bool built;
    struct brake_system system;
    double force[KEPT];        /* NaN: not asked yet */
    double deceleration[KEPT]; /* at it */
    int oldest;
};

struct states {
    const struct brake_vehicle *vehicle;
    struct state of[BRAKE_TEST_LOADS][BRAKE_FAILURES];
};

void states_start(struct states *s, const struct brake_vehicle *vehicle);

/* What a vehicle lacks for a measure: why it cannot be said, and the one line that would do, if one
 * would; no words: nothing. */
struct lack {
    const char *why;
    const char *line;
};

struct measure {
    const char *meaning; /* stands by itself */
    enum brake_dimension dimension;
    bool at_most;
    bool share;   /* of its limit, which it must stay below: the margin is what is left of
                           it */
    bool opposed; /* worst where front and rear friction part */
    enum brake_model_error error;
    /* NULL: nothing can be lacking. */
    struct lack (*lacks)(const struct brake_criterion *c, const struct brake_vehicle *v);
    /* In a load case and a state of failure; NULL for a hot measure. */
    double (*value)(const struct brake_criterion *c, struct states *s, enum brake_load load,
                    enum brake_failure failure);
    double (*hot)(const struct brake_criterion *c, const struct brake_hot_figures *f);
};

/* Side difference of an axle; 0 where the clause passes it over. */
double measure_sides(const struct brake_criterion *c, const struct brake_vehicle *v,
                     enum brake_axle axle);

extern const struct measure measures[BRAKE_MEASURES];

/* Limit of a criterion that is not hot, for a vehicle. */
double measure_limit(const struct brake_criterion *c, const struct brake_vehicle *v);

/* Have over need, less 1; a share that must stay low is measured against its limit. */
double measure_margin(enum brake_measure measure, double value, double limit);

#endif
