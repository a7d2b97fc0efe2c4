/* SPDX-License-Identifier: MIT */
/* A braking at one instant: what the driver's foot, the forces and the limits are, and how fast all
 * that moves does so. */
#ifndef BRAKE_MODEL_COURSE_H
#define BRAKE_MODEL_COURSE_H

#include "balance_lines.h"
#include "gain.h"

/* What moves within a step, counted from its begin. */
struct motion {
    double time;
    double distance;
    double speed; /* counted from 0 */
    double work[BRAKE_AXLES];
    double resisted;
    double effort;
};

/* Where a smooth piece ends. The speeds stand last. */
enum corner {
    AT_FORCE,      /* the pedal force meets its limit; before what may be met just then */
    AT_LIMIT,      /* an axle meets the limit of adhesion */
    AT_SECOND,     /* so does the other, by the anti-lock */
    AT_REAR_FIRST, /* the rear axle takes the front's place as the first to lock */
    AT_KNEE,       /* the booster runs out */
    AT_HOLD,       /* a chamber is at its end, the other goes on */
    AT_BOTH,       /* the other is at its end too */
    AT_MOST,       /* the fluid gives no more pressure */
    AT_VALVE,      /* the valve begins to hold rear pressure back */
    AT_REGULATED,  /* so does electronic distribution */
    AT_LET_GO,     /* which has let all of it go */
    AT_FRONT,      /* the front brakes begin to bite */
    AT_REAR,
    AT_80,
    AT_10,
    AT_END,
    CORNERS
};

static inline bool is_speed(enum corner corner)
{
    return corner >= AT_80;
}

/* What an instant shows, and how fast what moves does so. */
struct instant {
    struct motion rate;
    double pedal_force;
    double output;
    double pressure;
    double past[CORNERS]; /* above 0 beyond a corner; in the unit of its quantity */
};

/* A corner counts as met this far before it, in the unit of its quantity: far below anything that
 * is felt and far above rounding, so that what stays at a corner does not flicker about it. */
static const double BAND = 1e-6;

/* One step: who brakes what from where, and the lines over the step. */
struct course {
    const struct brake_rig *rig;
    const struct brake_application *application;
    const struct brake_outcome *outcome;
    struct force_lines still;  /* of the rig's balance */
    struct force_lines lines;  /* the same at the instant that was looked at last */
    struct unit_pieces pieces; /* of those lines */
    struct gain law[BRAKE_AXLES];
    double speed;                /* at the begin, as all without "per second" */
    double share;                /* of the pedal's rise that is done */
    double rising;               /* per second */
    double gain[BRAKE_AXLES];    /* torque per pressure over that of the balance */
    double fading[BRAKE_AXLES];  /* its change per second at the begin */
    double bending[BRAKE_AXLES]; /* half the change of that per second */
    double pace;                 /* length to try */
    double next;                 /* of the step after it */
    bool limited;                /* an axle is at the limit of adhesion */
    bool lags;                   /* booster output is level + climb time + rest exp(-time/lag) */
    double level;
    double climb;
    double rest;
};

/* Torque per pressure over that of the balance, so long after the begin. */
static inline double gain_after(const struct course *c, int axle, double time)
{
    return c->gain[axle] + (c->fading[axle] + c->bending[axle] * time) * time;
}

static inline double rod_force(const struct brake_pedal *pedal, double force)
{
    return force * pedal->ratio * pedal->efficiency;
}

/* How far a speed is beyond one of interest. */
double brake_course_past_speed(const struct brake_application *a, enum corner corner, double speed);

/* Whether time alone says how far a corner is: the driver holds a force. */
bool brake_course_by_time(const struct course *c, enum corner corner);

/* What of an instant is looked at: each takes longer than the one before. */
enum sight {
    RATES,  /* how fast what moves does so, and what the foot does */
    SMOOTH, /* the corners too, but for a limit that the step began below: a step ends there */
    WHOLE
};

/* What an instant of the step is. */
void brake_course_look(struct course *c, const struct motion *m, enum sight sight,
                       struct instant *now);

#endif
