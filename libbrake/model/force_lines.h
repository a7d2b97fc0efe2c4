/* SPDX-License-Identifier: MIT */
/* A balance made ready to be asked many times: its quotients taken once, and what it answers as
 * straight lines in pressure. Functions are inline and free of branches where they can be, so that
 * a loop over vehicles takes them in whole and works several vehicles side by side. Equations and
 * sources: brake/balance.h. */
#ifndef BRAKE_MODEL_FORCE_LINES_H
#define BRAKE_MODEL_FORCE_LINES_H

#include <math.h>

#include "brake/balance.h"
#include "formulas.h"

struct force_lines {
    struct brake_valve valve;
    struct brake_hold hold;
    struct {
        double gain, threshold, inertia, wheels, held;
        double drive;      /* [N*m] of the engine, less than 0 where it drags */
        double strong;     /* [-] part of the held torque that the wheel asked most lacks */
        double per_radius; /* [1/m] */
    } axle[BRAKE_AXLES];
    bool locked;
    bool regulated;       /* the rear is kept to the adhesion that the front uses */
    double mass;          /* [kg] */
    double weight;        /* [N] square to the road */
    double longitudinal;  /* [N] weight along the road and air: they act where the inertia does */
    double rolling;       /* [-] of the adhesion, that rolling takes */
    double resistance;    /* [N] that slows the vehicle without brakes */
    double front;         /* [N] front load at no deceleration */
    double on_front;      /* [N*m] of the weight about the rear axle */
    double height;        /* [m] of the centre of gravity */
    double per_wheelbase; /* [1/m] */
    double shift;         /* [kg] load that goes forward per deceleration */
    double equivalent;    /* [kg] mass and what turns with it */
    double per_mass;      /* [1/kg] of that */
};

/* ---- making ready --------------------------------------------------------------------------- */

/* The level needs no root. */
static inline double square_weight(const struct brake_balance *balance)
{
    if (balance->grade == 0.0)
        return balance->body.mass * BRAKE_GRAVITY;
    return balance->body.mass * BRAKE_GRAVITY / sqrt(1.0 + balance->grade * balance->grade);
}

/* Air drags as much; all else stays. */
static inline void put_drag(double grade, double drag, struct force_lines *lines)
{
    lines->longitudinal = lines->weight * grade + drag;
    lines->resistance = lines->rolling * lines->weight + lines->longitudinal;
    lines->front = (lines->on_front - lines->longitudinal * lines->height) * lines->per_wheelbase;
}

static inline struct force_lines force_lines_of(const struct brake_balance *balance)
{
    const struct brake_body body = balance->body;
    struct force_lines lines = {.valve = balance->valve,
                                .hold = balance->hold,
                                .locked = balance->locked,
                                .mass = body.mass,
                                .rolling = balance->rolling,
                                .height = body.height,
                                .per_wheelbase = 1.0 / balance->wheelbase};
    lines.regulated =
        balance->regulated && !balance->locked && balance->axle[BRAKE_FRONT].gain > 0.0;
    lines.weight = square_weight(balance);
    lines.on_front = lines.weight * (balance->wheelbase - body.behind);
    put_drag(balance->grade, balance->drag, &lines);
    lines.shift = body.mass * body.height;
    lines.equivalent = body.mass;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_axle_brakes *axle = &balance->axle[i];
        lines.axle[i].gain = axle->gain;
        lines.axle[i].threshold = axle->threshold;
        lines.axle[i].inertia = axle->inertia + axle->geared;
        lines.axle[i].drive = 0.0 - axle->drag; /* 0 when that is 0: compilers leave it out */
        lines.axle[i].wheels = axle->wheels;
        lines.axle[i].held = axle->held;
        lines.axle[i].strong = axle->held_wheels < axle->wheels ? 0.0 : axle->held;
        lines.axle[i].per_radius = 1.0 / axle->radius;
        lines.shift += axle->inertia * lines.axle[i].per_radius;
        lines.equivalent +=
            lines.axle[i].inertia * lines.axle[i].per_radius * lines.axle[i].per_radius;
    }
    lines.shift *= lines.per_wheelbase;
    lines.per_mass = 1.0 / lines.equivalent;
    return lines;
}

/* How a valve that senses height moves with the body. */
struct valve_pitch {
    double rate;     /* [Pa/kg] of the knee; 0: it does not */
    double left;     /* [-] what anti-lift leaves of the load that comes off the springs */
    double unsprung; /* [kg] */
};

/* The valve of a balance, whose lines these are, while its body rises at the rear: per deceleration
 * its knee goes down by the load that leaves the springs. That is straight in pressure, so that it
 * is a valve again. */
static inline struct brake_valve pitched_valve(const struct brake_balance *balance,
                                               const struct force_lines *lines,
                                               struct valve_pitch pitch)
{
    const struct brake_valve still = lines->valve;
    const struct brake_axle_brakes *axle = balance->axle;
    const double hubs = (axle[BRAKE_FRONT].radius + axle[BRAKE_REAR].radius) / 2.0;
    const double moment = lines->mass * lines->height - pitch.unsprung * hubs;
    const double falls =
        pitch.rate * moment * pitch.left * lines->per_wheelbase * (1.0 / BRAKE_GRAVITY);
    const double rest = 1.0 - still.slope;
    double rise[BRAKE_AXLES];
    double none = lines->rolling * lines->mass * BRAKE_GRAVITY * lines->per_mass;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const double per_torque = lines->axle[i].per_radius * lines->per_mass;
        rise[i] = axle[i].gain * per_torque;
        none += axle[i].drag * per_torque - rise[i] * axle[i].threshold;
    }
    const double knee =
        (still.knee - falls * none) / (1.0 + falls * (rise[BRAKE_FRONT] + rise[BRAKE_REAR]));
    const double slope =
        (still.slope - rest * falls * rise[BRAKE_FRONT]) / (1.0 + rest * falls * rise[BRAKE_REAR]);
    return (struct brake_valve){most_of(0.0, knee), most_of(0.0, slope)};
}

/* ---- at a pressure -------------------------------------------------------------------------- */

/* With every circuit at the pressure. */
static inline double even_torque(const struct force_lines *lines, int axle, double pressure)
{
    const double at = axle == BRAKE_REAR ? valve_pressure(lines->valve, pressure) : pressure;
    return brake_torque(lines->axle[axle].gain, lines->axle[axle].threshold, at);
}

/* What the held circuit would give more, of an axle that it works alone. */
static inline double torque_lost(const struct force_lines *lines, int axle, double pressure)
{
    const double held = brought_within(pressure, lines->hold.from, lines->hold.to);
    return even_torque(lines, axle, held) - even_torque(lines, axle, lines->hold.from);
}

/* Of the brakes of an axle that nothing regulates. */
static inline double brakes_torque(const struct force_lines *lines, int axle, double pressure)
{
    return even_torque(lines, axle, pressure) -
           lines->axle[axle].held * torque_lost(lines, axle, pressure);
}

/* With what an engine drives it by. */
static inline double open_torque(const struct force_lines *lines, int axle, double pressure)
{
    return brakes_torque(lines, axle, pressure) - lines->axle[axle].drive;
}

static inline double front_load(const struct force_lines *lines, double deceleration)
{
    return lines->front + lines->shift * deceleration;
}

/* Whether the wheels of an axle hang on different circuits, of which one is held. */
static inline bool wheels_differ(const struct force_lines *lines, int axle)
{
    return lines->axle[axle].strong < lines->axle[axle].held;
}

/* Deceleration with this part of the rear's braked wheels, the stronger ones first, kept to the
 * adhesion that the front uses: with P what slows the vehicle by itself, t what the front asks for,
 * w_i J_i the turning of braked wheels, q = w_2/w_1 of that part,
 *
 *   (M - w_2 J_2) a - P = q N_2(a)/N_1(a) (t - w_1 J_1 a) */
static inline double kept_to_front(const struct force_lines *lines, double pressure, double part)
{
    const double front = open_torque(lines, BRAKE_FRONT, pressure);
    const double rear = open_torque(lines, BRAKE_REAR, pressure);
    const double spared = lines->axle[BRAKE_FRONT].held - lines->axle[BRAKE_FRONT].strong;
    const double weak =
        2.0 * rear - (even_torque(lines, BRAKE_REAR, pressure) - lines->axle[BRAKE_REAR].drive);
    double turning[BRAKE_AXLES];
    for (int i = 0; i < BRAKE_AXLES; i++)
        turning[i] = lines->axle[i].wheels * lines->axle[i].inertia * lines->axle[i].per_radius *
                     lines->axle[i].per_radius;
    const double asked = (front + spared * torque_lost(lines, BRAKE_FRONT, pressure)) *
                         lines->axle[BRAKE_FRONT].per_radius;
    const double alone = front * lines->axle[BRAKE_FRONT].per_radius + lines->resistance +
                         (1.0 - part) * weak * lines->axle[BRAKE_REAR].per_radius;
    const double mass = lines->equivalent - part * turning[BRAKE_REAR];
    const double ratio = part * lines->axle[BRAKE_REAR].wheels / lines->axle[BRAKE_FRONT].wheels;
    const double behind = lines->weight - lines->front;
    const double square = lines->shift * (mass - ratio * turning[BRAKE_FRONT]);
    const double slope = lines->front * mass - lines->shift * alone +
                         ratio * (lines->shift * asked + behind * turning[BRAKE_FRONT]);
    const double lacks = lines->front * alone + ratio * behind * asked;
    return 2.0 * lacks / (slope + sqrt(slope * slope + 4.0 * square * lacks));
}

static inline double open_deceleration(const struct force_lines *lines, double pressure)
{
    double force = lines->resistance;
    for (int i = 0; i < BRAKE_AXLES; i++)
        force += open_torque(lines, i, pressure) * lines->axle[i].per_radius;
    return force * lines->per_mass;
}

/* The same where nothing is held or drives. */
static inline double even_deceleration(const struct force_lines *lines, double pressure)
{
    double force = lines->resistance;
    for (int i = 0; i < BRAKE_AXLES; i++)
        force += even_torque(lines, i, pressure) * lines->axle[i].per_radius;
    return force * lines->per_mass;
}

/* Deceleration that is let through where no rear wheel is let go. The sum of lesser forces is the
 * least of all their sums, so its root is the least of their roots. */
static inline double let_through(const struct force_lines *lines, double pressure)
{
    const double both = kept_to_front(lines, pressure, 1.0);
    if (!wheels_differ(lines, BRAKE_REAR))
        return both;
    return least_of(both, kept_to_front(lines, pressure, 0.5));
}

/* The rear's brakes can be let go; they do not push, and an engine goes on to drag. */
static inline double let_go_deceleration(const struct force_lines *lines, double pressure)
{
    const double front =
        open_torque(lines, BRAKE_FRONT, pressure) * lines->axle[BRAKE_FRONT].per_radius;
    const double push = lines->axle[BRAKE_REAR].drive * lines->axle[BRAKE_REAR].per_radius;
    return (front + lines->resistance - push) * lines->per_mass;
}

static inline double regulated_deceleration(const struct force_lines *lines, double pressure)
{
    const double least = least_of(open_deceleration(lines, pressure), let_through(lines, pressure));
    return most_of(least, let_go_deceleration(lines, pressure));
}

static inline double regulated_torque(const struct force_lines *lines, double pressure)
{
    const double front =
        open_torque(lines, BRAKE_FRONT, pressure) * lines->axle[BRAKE_FRONT].per_radius;
    const double a = regulated_deceleration(lines, pressure);
    const double force = a * lines->equivalent - lines->resistance - front;
    return a < open_deceleration(lines, pressure)
               ? most_of(0.0 - lines->axle[BRAKE_REAR].drive,
                         force / lines->axle[BRAKE_REAR].per_radius)
               : open_torque(lines, BRAKE_REAR, pressure);
}

static inline double axle_torque(const struct force_lines *lines, int axle, double pressure)
{
    return axle == BRAKE_REAR && lines->regulated ? regulated_torque(lines, pressure)
                                                  : open_torque(lines, axle, pressure);
}

static inline double free_deceleration(const struct force_lines *lines, double pressure)
{
    return lines->regulated ? regulated_deceleration(lines, pressure)
                            : open_deceleration(lines, pressure);
}

static inline double tyre_force(const struct force_lines *lines, int axle, double pressure,
                                double deceleration)
{
    const double per_radius = lines->axle[axle].per_radius;
    return (axle_torque(lines, axle, pressure) -
            lines->axle[axle].inertia * deceleration * per_radius) *
           per_radius;
}

/* What the wheels that are not braked add to the force of their axle: their own turning. None does
 * where all are braked, which compilers leave out. */
static inline double with_free_wheels(const struct force_lines *lines, int axle, double force,
                                      double wheels, double deceleration)
{
    const double per_radius = lines->axle[axle].per_radius;
    if (wheels == 1.0)
        return force;
    return force +
           (1.0 - wheels) * lines->axle[axle].inertia * deceleration * per_radius * per_radius;
}

static inline double open_asked(const struct force_lines *lines, int axle, double pressure,
                                double deceleration)
{
    const double spared = lines->axle[axle].held - lines->axle[axle].strong;
    const double per_radius = lines->axle[axle].per_radius;
    const double turning = lines->axle[axle].inertia * deceleration * per_radius;
    const double asked = (open_torque(lines, axle, pressure) - turning) * per_radius +
                         spared * torque_lost(lines, axle, pressure) * per_radius;
    return with_free_wheels(lines, axle, asked, lines->axle[axle].wheels, deceleration);
}

/* Force that the braked wheels of an axle ask of the road beside rolling; of wheels that differ, as
 * if all were the one that is asked most. */
static inline double force_asked(const struct force_lines *lines, int axle, double pressure,
                                 double deceleration)
{
    const double asked = open_asked(lines, axle, pressure, deceleration);
    if (axle == BRAKE_FRONT || !lines->regulated)
        return asked;
    const double front = front_load(lines, deceleration);
    return least_of(asked, open_asked(lines, BRAKE_FRONT, pressure, deceleration) *
                               lines->axle[BRAKE_REAR].wheels * (lines->weight - front) /
                               (lines->axle[BRAKE_FRONT].wheels * front));
}

static inline double adhesion_used(const struct force_lines *lines, double force, double load)
{
    const double lifted = force > 0.0 ? BRAKE_INFINITY : 0.0;
    return load <= 0.0 ? lifted : force / load + lines->rolling;
}

/* Where an anti-lock lets less through, electronic distribution does nothing beside it. */
static inline struct force_lines let_go(struct force_lines lines, double pressure,
                                        double deceleration)
{
    lines.regulated = lines.regulated && !(deceleration < free_deceleration(&lines, pressure));
    return lines;
}

/* Adhesion that is left to the brakes. */
static inline double adhesion_left(const struct force_lines *lines, double adhesion)
{
    return adhesion - lines->rolling;
}

/* Wheels that a locked drive brakes. An axle with one wheel braked counts half: its open
 * differential lets the other wheel run. One that no circuit brakes is held by the drive whole. */
static inline double driven_wheels(const struct force_lines *lines, int axle)
{
    return lines->axle[axle].wheels > 0.0 ? lines->axle[axle].wheels : 1.0;
}

/* Load on them. */
static inline double braked_load(const struct force_lines *lines, double front)
{
    return driven_wheels(lines, BRAKE_FRONT) * front +
           driven_wheels(lines, BRAKE_REAR) * (lines->weight - front);
}

/* What they ask of the road beside rolling. */
static inline double both_asked(const struct force_lines *lines, double pressure,
                                double deceleration)
{
    double sum = 0.0;
    for (int i = 0; i < BRAKE_AXLES; i++)
        sum += with_free_wheels(lines, i, tyre_force(lines, i, pressure, deceleration),
                                driven_wheels(lines, i), deceleration);
    return sum;
}

/* ---- the straight pieces -------------------------------------------------------------------- */

/* Pressures at which a straight piece of the force lines ends, in rising order: the two thresholds,
 * the knee of the valve and both ends of the hold, then one point beyond on the last, endless
 * piece. */
enum { PIECES = 6 };

static inline double front_pressure_of_rear(const struct force_lines *lines)
{
    const struct brake_valve valve = lines->valve;
    const double threshold = lines->axle[BRAKE_REAR].threshold;
    const double passed = valve.knee + (threshold - valve.knee) / valve.slope;
    const double behind_knee = valve.slope > 0.0 ? passed : BRAKE_INFINITY;
    return threshold <= valve.knee ? threshold : behind_knee;
}

static inline void sort_pair(double *low, double *high)
{
    const double least = *high < *low ? *high : *low;
    *high = *high > *low ? *high : *low;
    *low = least;
}

/* Pressure that is certainly on the last piece. */
static inline double beyond(double pressure)
{
    return 2.0 * pressure + 1e5;
}

static inline void piece_ends(const struct force_lines *lines, double end[PIECES + 1])
{
    end[0] = 0.0;
    end[1] = lines->axle[BRAKE_FRONT].threshold;
    end[2] = front_pressure_of_rear(lines);
    end[3] = lines->valve.knee;
    end[4] = lines->hold.from;
    end[5] = lines->hold.to;
    sort_pair(&end[1], &end[4]);
    sort_pair(&end[2], &end[5]);
    sort_pair(&end[1], &end[3]);
    sort_pair(&end[2], &end[4]);
    sort_pair(&end[1], &end[2]);
    sort_pair(&end[3], &end[5]);
    sort_pair(&end[3], &end[4]);
    sort_pair(&end[2], &end[3]);
    sort_pair(&end[4], &end[5]);
    for (int i = 1; i < PIECES; i++)
        end[i] = end[i] == BRAKE_INFINITY ? end[i - 1] : end[i];
    end[PIECES] = beyond(end[PIECES - 1]);
}

/* The same where nothing is held. */
enum { EVEN_PIECES = 4 };

static inline void even_piece_ends(const struct force_lines *lines, double end[EVEN_PIECES + 1])
{
    end[0] = 0.0;
    end[1] = lines->axle[BRAKE_FRONT].threshold;
    end[2] = front_pressure_of_rear(lines);
    end[3] = lines->valve.knee;
    sort_pair(&end[1], &end[2]);
    sort_pair(&end[2], &end[3]);
    sort_pair(&end[1], &end[2]);
    for (int i = 1; i < EVEN_PIECES; i++)
        end[i] = end[i] == BRAKE_INFINITY ? end[i - 1] : end[i];
    end[EVEN_PIECES] = beyond(end[EVEN_PIECES - 1]);
}

/* Root of a line of pieces, on the first piece that ends above zero, else ahead on the last one;
 * infinite when there is none. Above zero from the start: the start. */
static inline double root_of(int pieces, const double *end, const double *at)
{
    double x0 = end[pieces - 1];
    double x1 = end[pieces];
    double y0 = at[pieces - 1];
    double y1 = at[pieces];
    for (int i = pieces - 2; i >= 0; i--) {
        const bool here = at[i + 1] >= 0.0;
        x0 = here ? end[i] : x0;
        x1 = here ? end[i + 1] : x1;
        y0 = here ? at[i] : y0;
        y1 = here ? at[i + 1] : y1;
    }
    const double root = x0 - y0 * (x1 - x0) / (y1 - y0);
    const double ahead = y1 <= y0 ? BRAKE_INFINITY : root;
    return y0 >= 0.0 ? x0 : ahead;
}

/* ---- lock ----------------------------------------------------------------------------------- */

/* The ends of the straight pieces, and there what each axle asks of the road and what it carries on
 * braked wheels. With the drive locked both axles ask and carry as one. */
struct pieces {
    double end[PIECES + 1];
    double deceleration[PIECES + 1];
    double asked[BRAKE_AXLES][PIECES + 1];
    double grip[BRAKE_AXLES][PIECES + 1];
};

static inline void take_piece(const struct force_lines *lines, struct pieces *pieces, int i)
{
    const double pressure = pieces->end[i];
    const double a = free_deceleration(lines, pressure);
    const double front = front_load(lines, a);
    const double load[BRAKE_AXLES] = {front, lines->weight - front};
    pieces->deceleration[i] = a;
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        pieces->asked[axle][i] = force_asked(lines, axle, pressure, a);
        pieces->grip[axle][i] = lines->axle[axle].wheels * load[axle];
    }
    for (int axle = 0; axle < BRAKE_AXLES && lines->locked; axle++) {
        pieces->asked[axle][i] = both_asked(lines, pressure, a);
        pieces->grip[axle][i] = braked_load(lines, front);
    }
}

/* Side by side only when the loop over the ends is gone, which is longer than compilers unroll. */
static inline void take_pieces(const struct force_lines *lines, struct pieces *pieces)
{
    piece_ends(lines, pieces->end);
#pragma GCC unroll 7
    for (int i = 0; i <= PIECES; i++)
        take_piece(lines, pieces, i);
}

/* What of the pieces no gain moves, of brakes that nothing regulates and a drive that is not
 * locked: their ends, and there the torque of each axle and what a held circuit takes of it, over
 * the gain. */
struct unit_pieces {
    double end[PIECES + 1];
    double torque[BRAKE_AXLES][PIECES + 1];
    double lost[BRAKE_AXLES][PIECES + 1];
};

static inline void unit_pieces_of(const struct force_lines *lines, struct unit_pieces *unit)
{
    struct force_lines one = *lines;
    piece_ends(lines, unit->end);
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        one.axle[axle].gain = 1.0;
        for (int i = 0; i <= PIECES; i++) {
            unit->torque[axle][i] = brakes_torque(&one, axle, unit->end[i]);
            unit->lost[axle][i] = torque_lost(&one, axle, unit->end[i]);
        }
    }
}

static inline double unit_torque(const struct force_lines *lines, const struct unit_pieces *unit,
                                 int axle, int i)
{
    return lines->axle[axle].gain * unit->torque[axle][i] - lines->axle[axle].drive;
}

/* Decelerations at the ends, as open_deceleration gives them. */
static inline void unit_decelerations(const struct force_lines *lines,
                                      const struct unit_pieces *unit, double at[PIECES + 1])
{
    for (int i = 0; i <= PIECES; i++) {
        double force = lines->resistance;
        for (int axle = 0; axle < BRAKE_AXLES; axle++)
            force += unit_torque(lines, unit, axle, i) * lines->axle[axle].per_radius;
        at[i] = force * lines->per_mass;
    }
}

/* All that take_pieces gives. */
static inline void take_unit_pieces(const struct force_lines *lines, const struct unit_pieces *unit,
                                    struct pieces *pieces)
{
    unit_decelerations(lines, unit, pieces->deceleration);
    for (int i = 0; i <= PIECES; i++)
        pieces->end[i] = unit->end[i];
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        const double per_radius = lines->axle[axle].per_radius;
        const double wheels = lines->axle[axle].wheels;
        const double spared =
            (lines->axle[axle].held - lines->axle[axle].strong) * lines->axle[axle].gain;
        for (int i = 0; i <= PIECES; i++) {
            const double a = pieces->deceleration[i];
            const double front = front_load(lines, a);
            const double turning = lines->axle[axle].inertia * a * per_radius;
            pieces->grip[axle][i] = wheels * (axle == BRAKE_FRONT ? front : lines->weight - front);
            pieces->asked[axle][i] =
                with_free_wheels(lines, axle,
                                 (unit_torque(lines, unit, axle, i) - turning) * per_radius +
                                     spared * unit->lost[axle][i] * per_radius,
                                 wheels, a);
        }
    }
}

/* Pressure of a deceleration. */
static inline double pressure_of(const double end[PIECES + 1], const double at[PIECES + 1],
                                 double deceleration)
{
    double short_of[PIECES + 1];
    for (int i = 0; i <= PIECES; i++)
        short_of[i] = at[i] - deceleration;
    return root_of(PIECES, end, short_of);
}

/* Lock of one axle, linear in pressure on each piece. An axle that no circuit brakes cannot
 * lock. */
static inline double axle_lock(const struct force_lines *lines, const struct pieces *pieces,
                               int axle, double adhesion)
{
    double over[PIECES + 1];
    for (int i = 0; i <= PIECES; i++)
        over[i] = pieces->asked[axle][i] - adhesion_left(lines, adhesion) * pieces->grip[axle][i];
    return lines->axle[axle].gain <= 0.0 ? BRAKE_INFINITY : root_of(PIECES, pieces->end, over);
}

/* Deceleration at which the rear axle leaves the road. */
static inline double lift_off(const struct force_lines *lines)
{
    return (lines->weight - lines->front) / lines->shift;
}

/* Pressure of that. */
static inline double lift_pressure(const struct force_lines *lines, const struct pieces *pieces)
{
    return pressure_of(pieces->end, pieces->deceleration, lift_off(lines));
}

/* lift: lift_pressure of them. */
static inline struct brake_lock lock_of(const struct force_lines *lines,
                                        const struct pieces *pieces, double lift, double adhesion)
{
    const double front = axle_lock(lines, pieces, BRAKE_FRONT, adhesion);
    const double rear = least_of(axle_lock(lines, pieces, BRAKE_REAR, adhesion), lift);
    const double pressure = least_of(front, rear);
    const double deceleration = free_deceleration(lines, pressure);
    const struct brake_lock lock = {.pressure = pressure,
                                    .deceleration =
                                        pressure == BRAKE_INFINITY ? BRAKE_INFINITY : deceleration,
                                    .axle = rear < front ? BRAKE_REAR : BRAKE_FRONT};
    return lock;
}

#endif
