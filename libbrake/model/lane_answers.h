/* SPDX-License-Identifier: MIT */
/* What a lane answers, each question an inline function that a loop over lanes takes in whole. */
#ifndef BRAKE_MODEL_LANE_ANSWERS_H
#define BRAKE_MODEL_LANE_ANSWERS_H

#include "force_lines.h"
#include "lanes.h"

/* What a vehicle's brakes do at the ends of their straight pieces. */
struct lane_pieces {
    brake_column knee, slope; /* of the valve while the body pitches */
    brake_column end[PIECES + 1];
    brake_column deceleration[PIECES + 1];
    brake_column asked[BRAKE_AXLES][PIECES + 1];
    brake_column grip[BRAKE_AXLES][PIECES + 1];
};

/* whole: all wheels are braked, which saves work. */
static inline struct brake_balance balance_of(const struct brake_lane_numbers *n, bool whole, int i)
{
    const double front = whole ? 1.0 : n->braked[BRAKE_FRONT][i];
    const double rear = whole ? 1.0 : n->braked[BRAKE_REAR][i];
    return (struct brake_balance){
        .body = {n->mass[i], n->behind[i], n->height[i]},
        .wheelbase = n->wheelbase[i],
        .rolling = n->rolling[i],
        .valve = {n->knee[i], n->slope[i]},
        .hold = {n->hold_from[i], n->hold_to[i]},
        .axle = {{n->brakes[0].gain[i], n->brakes[0].threshold[i], n->wheels[0].radius[i],
                  n->wheels[0].inertia[i], front, n->held[0].torque[i], n->held[0].wheels[i], 0.0,
                  0.0},
                 {n->brakes[1].gain[i], n->brakes[1].threshold[i], n->wheels[1].radius[i],
                  n->wheels[1].inertia[i], rear, n->held[1].torque[i], n->held[1].wheels[i], 0.0,
                  0.0}},
    };
}

/* ---- pieces --------------------------------------------------------------------------------- */

static inline void keep_pieces(const struct brake_lane_numbers *restrict n, bool whole, int i,
                               struct lane_pieces *restrict to)
{
    const struct valve_pitch pitch = {n->knee_rate[i], n->lift_left[i], n->unsprung[i]};
    const struct brake_balance balance = balance_of(n, whole, i);
    struct force_lines lines = force_lines_of(&balance);
    struct pieces pieces;
    lines.valve = pitched_valve(&balance, &lines, pitch);
    to->knee[i] = lines.valve.knee;
    to->slope[i] = lines.valve.slope;
    take_pieces(&lines, &pieces);
#pragma GCC unroll 7
    for (int j = 0; j <= PIECES; j++) {
        to->end[j][i] = pieces.end[j];
        to->deceleration[j][i] = pieces.deceleration[j];
        for (int axle = 0; axle < BRAKE_AXLES; axle++) {
            to->asked[axle][j][i] = pieces.asked[axle][j];
            to->grip[axle][j][i] = pieces.grip[axle][j];
        }
    }
}

static inline struct pieces kept_pieces(const struct lane_pieces *from, int i)
{
    struct pieces pieces;
#pragma GCC unroll 7
    for (int j = 0; j <= PIECES; j++) {
        pieces.end[j] = from->end[j][i];
        pieces.deceleration[j] = from->deceleration[j][i];
        for (int axle = 0; axle < BRAKE_AXLES; axle++) {
            pieces.asked[axle][j] = from->asked[axle][j][i];
            pieces.grip[axle][j] = from->grip[axle][j][i];
        }
    }
    return pieces;
}

/* Lines of a lane whose pieces are kept. */
static inline struct force_lines lines_of(const struct brake_lane_numbers *n, bool whole,
                                          const struct lane_pieces *from, int i)
{
    const struct brake_balance balance = balance_of(n, whole, i);
    struct force_lines lines = force_lines_of(&balance);
    lines.valve = (struct brake_valve){from->knee[i], from->slope[i]};
    return lines;
}

/* ---- answers -------------------------------------------------------------------------------- */

static inline struct brake_pedal pedal_of(const struct brake_lane_numbers *n, int i)
{
    const struct brake_pedal pedal = {n->ratio[i],  n->efficiency[i],  n->booster_gain[i],
                                      n->assist[i], n->master_area[i], n->master_efficiency[i]};
    return pedal;
}

/* No more than the fluid gives. */
static inline double pressure_at(const struct brake_lane_numbers *n,
                                 const struct brake_pedal *pedal, double force, int i)
{
    return least_of(pedal_pressure(pedal, force), n->pressure_most[i]);
}

static inline double margin_of(double have, double need)
{
    return have / need - 1.0;
}

/* [kg] on the rear axle of a vehicle that stands. */
static inline double rear_mass(const struct brake_lane_numbers *n, int i)
{
    return n->mass[i] * n->behind[i] / n->wheelbase[i];
}

static inline void answer_stop(const struct brake_lane_numbers *restrict n,
                               const struct lane_pieces *restrict kept, int i,
                               struct brake_lane_answers *restrict to)
{
    const struct force_lines lines = lines_of(n, true, kept, i);
    const struct pieces pieces = kept_pieces(kept, i);
    const struct brake_pedal pedal = pedal_of(n, i);
    struct brake_pedal bare = pedal;
    bare.gain = 1.0;
    bare.assist = 0.0;
    const double pressure = pressure_at(n, &pedal, n->force[i], i);
    const double most = pressure_at(n, &pedal, n->force_most[i], i);
    const double least = pressure_at(n, &bare, n->force_most[i], i);
    const double lift = lift_pressure(&lines, &pieces);
    const struct brake_lock lock = lock_of(&lines, &pieces, lift, n->adhesion[i]);
    const double eased = lock_of(&lines, &pieces, lift, n->modulation[i] * n->adhesion[i]).pressure;
    const double hardest = free_deceleration(&lines, least_of(most, eased));
    const double alone = free_deceleration(&lines, least_of(least, eased));
    to->at_force[i] = free_deceleration(&lines, least_of(pressure, eased));
    to->at_most[i] = hardest;
    to->lock[i] = lock.deceleration;
    to->lock_force[i] = pedal_force(&pedal, lock.pressure);
    to->no_assist[i] = n->boosted[i] > 0.0 ? alone : BRAKE_NAN;
    to->distance[i] = stop_distance(n->speed[i], hardest, n->dead_time[i], n->build_up[i]);
    to->time[i] = stop_time(n->speed[i], hardest, n->dead_time[i], n->build_up[i]);
}

/* Pressure of a deceleration where no stroke ends. */
static inline double endless_pressure(const struct force_lines *lines, double deceleration)
{
    double end[EVEN_PIECES + 1];
    double short_of[EVEN_PIECES + 1];
    even_piece_ends(lines, end);
#pragma GCC unroll 5
    for (int j = 0; j <= EVEN_PIECES; j++)
        short_of[j] = even_deceleration(lines, end[j]) - deceleration;
    return root_of(EVEN_PIECES, end, short_of);
}

static inline double used_by(const struct force_lines *lines, int axle, double pressure, double a)
{
    const double front = front_load(lines, a);
    const double load = axle == BRAKE_FRONT ? front : lines->weight - front;
    return adhesion_used(lines, force_asked(lines, axle, pressure, a),
                         lines->axle[axle].wheels * load);
}

static inline void answer_target(const struct brake_lane_numbers *restrict n,
                                 const struct lane_pieces *restrict kept, int i,
                                 struct brake_lane_answers *restrict to)
{
    const struct force_lines lines = lines_of(n, true, kept, i);
    const struct pieces pieces = kept_pieces(kept, i);
    const struct brake_pedal pedal = pedal_of(n, i);
    const double pressure = pressure_of(pieces.end, pieces.deceleration, n->target[i]);
    const double a = free_deceleration(&lines, pressure);
    const double front = tyre_force(&lines, BRAKE_FRONT, pressure, a);
    const double rear = tyre_force(&lines, BRAKE_REAR, pressure, a);
    to->front_share[i] = front / (front + rear);
    to->front_used[i] = used_by(&lines, BRAKE_FRONT, pressure, a);
    to->rear_used[i] = used_by(&lines, BRAKE_REAR, pressure, a);
    to->pressure_for_target[i] = endless_pressure(&lines, n->target[i]);
    to->force_for_target[i] = pedal_force(&pedal, to->pressure_for_target[i]);
}

static inline void answer_failed(const struct brake_lane_numbers *restrict n,
                                 const struct lane_pieces *restrict kept, int i,
                                 struct brake_lane_answers *restrict to)
{
    const struct force_lines lines = lines_of(n, false, kept, i);
    const struct pieces pieces = kept_pieces(kept, i);
    const struct brake_pedal pedal = pedal_of(n, i);
    const double most = pressure_at(n, &pedal, n->force_most[i], i);
    const double lift = lift_pressure(&lines, &pieces);
    const double eased = lock_of(&lines, &pieces, lift, n->modulation[i] * n->adhesion[i]).pressure;
    const double hardest = free_deceleration(&lines, least_of(most, eased));
    to->failed[i] = n->there[i] > 0.0 ? hardest : BRAKE_NAN;
}

static inline void answer_body(const struct brake_lane_numbers *restrict n,
                               const struct force_lines *lines, int i,
                               struct brake_lane_answers *restrict to)
{
    const double rear = rear_mass(n, i);
    to->total[i] = n->mass[i];
    to->effective[i] = lines->equivalent;
    to->axle[BRAKE_FRONT][i] = n->mass[i] - rear;
    to->axle[BRAKE_REAR][i] = rear;
    to->behind[i] = n->behind[i];
    to->height[i] = n->height[i];
    to->energy[i] = energy_of(lines->equivalent, n->speed[i]);
    to->valve_knee[i] = lines->valve.knee == BRAKE_INFINITY ? BRAKE_NAN : lines->valve.knee;
}

/* share: of the front, at which both axles use the same adhesion. */
static inline void answer_torque(const struct brake_lane_numbers *restrict n,
                                 const struct force_lines *lines, double share, int i,
                                 struct brake_lane_answers *restrict to)
{
    const struct brake_pedal pedal = pedal_of(n, i);
    const double most = pressure_at(n, &pedal, n->force_most[i], i);
    to->brakes_alone[i] = free_deceleration(lines, most);
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        const double force =
            (axle == BRAKE_FRONT ? share : 1.0 - share) * n->mass[i] * n->target[i];
        to->needed[axle][i] = force * n->wheels[axle].radius[i] +
                              n->wheels[axle].inertia[i] * n->target[i] / n->wheels[axle].radius[i];
        to->available[axle][i] = brakes_torque(lines, axle, most);
        to->margin[axle][i] = margin_of(to->available[axle][i], to->needed[axle][i]);
    }
    to->margin_of_both[i] = margin_of(to->available[BRAKE_FRONT][i] + to->available[BRAKE_REAR][i],
                                      to->needed[BRAKE_FRONT][i] + to->needed[BRAKE_REAR][i]);
}

static inline void answer_itself(const struct brake_lane_numbers *restrict n,
                                 const struct lane_pieces *restrict kept, int i,
                                 struct brake_lane_answers *restrict to)
{
    const struct force_lines lines = lines_of(n, true, kept, i);
    const struct pieces pieces = kept_pieces(kept, i);
    const struct brake_pedal pedal = pedal_of(n, i);
    const double lift = lift_pressure(&lines, &pieces);
    const struct brake_lock lock = lock_of(&lines, &pieces, lift, n->adhesion[i]);
    const double rear_first = lock.axle == BRAKE_REAR ? 1.0 : 0.0;
    const double knee = booster_knee(pedal.gain, pedal.assist) / (pedal.ratio * pedal.efficiency);
    const double at_knee = free_deceleration(&lines, pedal_pressure(&pedal, knee));
    double height = n->height[i];
    for (int axle = 0; axle < BRAKE_AXLES; axle++)
        height += n->wheels[axle].inertia[i] / (n->wheels[axle].radius[i] * n->mass[i]);
    const double share =
        ideal_share(n->behind[i], height, n->wheelbase[i], n->target[i] / BRAKE_GRAVITY);
    answer_body(n, &lines, i, to);
    answer_torque(n, &lines, share, i, to);
    to->ideal_share[i] = share;
    to->lock_axle[i] = lock.deceleration == BRAKE_INFINITY ? BRAKE_NAN : rear_first;
    to->efficiency[i] = lock.deceleration / (n->adhesion[i] * BRAKE_GRAVITY);
    to->knee_force[i] = knee == BRAKE_INFINITY ? BRAKE_NAN : knee;
    to->knee_deceleration[i] = knee == BRAKE_INFINITY ? BRAKE_NAN : at_knee;
}

static inline void answer_parking(const struct brake_lane_numbers *restrict n, int i,
                                  struct brake_lane_answers *restrict to)
{
    const struct brake_balance balance = balance_of(n, true, i);
    const struct force_lines lines = force_lines_of(&balance);
    const bool front = n->parking_on[i] == BRAKE_PARKING_FRONT;
    const bool all = n->parking_on[i] == BRAKE_PARKING_ALL;
    const double radius =
        front ? n->wheels[BRAKE_FRONT].radius[i] : n->wheels[BRAKE_REAR].radius[i];
    const double torque = n->parking_torque[i];
    const double effort = parking_grade(n->mass[i], torque, radius);
    const double up =
        parking_adhesion(balance.body, n->wheelbase[i], front, all, n->adhesion[i], 1.0);
    const double down =
        parking_adhesion(balance.body, n->wheelbase[i], front, all, n->adhesion[i], -1.0);
    to->effort_grade[i] = effort;
    to->grade_up[i] = least_of(effort, up);
    to->grade_down[i] = least_of(effort, down);
    to->parking_needed[i] = n->mass[i] * BRAKE_GRAVITY * n->test_grade[i] * radius;
    to->parking_margin[i] = margin_of(torque, to->parking_needed[i]);
    to->trailer_grade[i] = n->trailer_mass[i] > 0.0
                               ? parking_grade(n->mass[i] + n->trailer_mass[i], torque, radius)
                               : BRAKE_NAN;
    to->parking[i] =
        least_of(torque / radius / lines.equivalent, least_of(up, down) * BRAKE_GRAVITY);
}

/* With the centre drive locked both axles ask and carry as one. */
static inline void answer_locked(const struct brake_lane_numbers *restrict n,
                                 const struct lane_pieces *restrict kept, int i,
                                 struct brake_lane_answers *restrict to)
{
    struct force_lines lines = lines_of(n, true, kept, i);
    struct pieces pieces;
    lines.locked = true;
    take_pieces(&lines, &pieces);
    const double lift = lift_pressure(&lines, &pieces);
    to->locked_drive[i] = lock_of(&lines, &pieces, lift, n->adhesion[i]).deceleration;
}

/* ---- answers that follow from others -------------------------------------------------------- */

static inline void answer_rated(const struct brake_lane_numbers *restrict n, int i,
                                struct brake_lane_answers *restrict to)
{
    const double rear = rear_mass(n, i);
    const double load[BRAKE_AXLES] = {n->mass[i] - rear, rear};
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        to->axle_margin[axle][i] = margin_of(n->rated_axle[axle][i], load[axle]);
        to->tyre_margin[axle][i] = margin_of(n->tyres[axle][i], load[axle]);
    }
    to->rated_margin[i] = margin_of(n->rated[i], n->mass[i]);
}

static inline struct brake_fluid fluid_of(const struct brake_lane_numbers *n, int circuit, int i)
{
    return (struct brake_fluid){
        .gaps = n->circuit[circuit].gaps[i],
        .shoes = n->circuit[circuit].shoes[i],
        .take_up = n->circuit[circuit].take_up[i],
        .compliance = n->circuit[circuit].compliance[i],
        .seating = n->circuit[circuit].seating[i],
        .hoses = n->circuit[circuit].hoses[i],
        .air = n->circuit[circuit].air[i],
    };
}

/* At the pressure for the target. */
static inline void answer_fluid(const struct brake_lane_numbers *restrict n, int i,
                                struct brake_lane_answers *restrict to)
{
    const struct brake_fluid first = fluid_of(n, 0, i);
    const struct brake_fluid second = fluid_of(n, 1, i);
    const struct brake_fluid all = fluid_sum(first, second);
    const double p = to->pressure_for_target[i];
    const double rod[2] = {fluid_volume(&first, p) / n->master_area[i],
                           fluid_volume(&second, p) / n->master_area[i]};
    to->travel[i] = n->free_play[i] + n->ratio[i] * (rod[0] + rod[1]);
    to->travel_used[i] = to->travel[i] / n->pedal_travel[i];
    to->stroke_used[0][i] = rod[0] / n->stroke[0][i];
    to->stroke_used[1][i] = rod[1] / n->stroke[1][i];
    to->gaps[i] = all.gaps;
    to->shoes[i] = all.shoes;
    to->take_up[i] = all.take_up;
    to->compliance[i] = all.compliance * p + fluid_seated(&all, p);
    to->hoses[i] = all.hoses * p;
    to->air[i] = all.air * p / (p + BRAKE_ATMOSPHERE);
    to->fluid[i] = fluid_volume(&all, p);
}

/* Of the hardest stop. */
static inline void answer_after(const struct brake_lane_numbers *restrict n,
                                const struct lane_pieces *restrict kept, int i,
                                struct brake_lane_answers *restrict to)
{
    const struct force_lines lines = lines_of(n, true, kept, i);
    const struct pieces pieces = kept_pieces(kept, i);
    const double a = to->at_most[i];
    const double pressure = pressure_of(pieces.end, pieces.deceleration, a);
    const double front = brakes_torque(&lines, BRAKE_FRONT, pressure) / n->wheels[0].radius[i];
    const double rear = brakes_torque(&lines, BRAKE_REAR, pressure) / n->wheels[1].radius[i];
    const double share = front / (front + rear);
    const double energy = energy_of(lines.equivalent, n->speed[i]);
    const double ratio = n->trailer_ratio[i];
    const double trailer = n->trailer_mass[i];
    to->sight[i] = to->distance[i] + n->speed[i] * n->reaction_time[i];
    to->heat_share[i] = share;
    to->rise[BRAKE_FRONT][i] = energy * share / n->heat_capacity[BRAKE_FRONT][i];
    to->rise[BRAKE_REAR][i] = energy * (1.0 - share) / n->heat_capacity[BRAKE_REAR][i];
    to->tow_without[i] = tow_deceleration(n->mass[i], a, trailer, ratio, 0.0);
    to->tow_stated[i] = tow_deceleration(n->mass[i], a, trailer, ratio, n->trailer_working[i]);
    to->tow_all[i] = tow_deceleration(n->mass[i], a, trailer, ratio, 1.0);
}

#endif
