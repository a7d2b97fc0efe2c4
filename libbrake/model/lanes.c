#include "lanes.h"

#include "force_lines.h"

static inline struct brake_balance balance_of(const struct brake_lane_numbers *n, int i)
{
    const struct brake_balance balance = {
        .body = {n->mass[i], n->behind[i], n->height[i]},
        .wheelbase = n->wheelbase[i],
        .rolling = n->rolling[i],
        .valve = {n->knee[i], n->slope[i]},
        .hold = {n->hold_from[i], n->hold_to[i]},
        .axle = {{n->brakes[0].gain[i], n->brakes[0].threshold[i], n->wheels[0].radius[i],
                  n->wheels[0].inertia[i], 1.0, n->held[0].torque[i], n->held[0].wheels[i], 0.0,
                  0.0},
                 {n->brakes[1].gain[i], n->brakes[1].threshold[i], n->wheels[1].radius[i],
                  n->wheels[1].inertia[i], 1.0, n->held[1].torque[i], n->held[1].wheels[i], 0.0,
                  0.0}},
    };
    return balance;
}

static inline void answer_lane(const struct brake_lane_numbers *restrict n, int i,
                               struct brake_lane_answers *restrict to)
{
    const struct brake_balance balance = balance_of(n, i);
    const struct force_lines lines = force_lines_of(&balance);
    const struct brake_pedal pedal = {n->ratio[i],  n->efficiency[i],  n->booster_gain[i],
                                      n->assist[i], n->master_area[i], n->master_efficiency[i]};
    const double pressure = least_of(pedal_pressure(&pedal, n->force[i]), n->pressure_most[i]);
    const double most = least_of(pedal_pressure(&pedal, n->force_most[i]), n->pressure_most[i]);
    struct pieces pieces;
    take_pieces(&lines, &pieces);
    const double lift = pressure_of(pieces.end, pieces.deceleration, lift_off(&lines));
    const struct brake_lock lock = lock_of(&lines, &pieces, lift, n->adhesion[i]);
    const double eased = lock_of(&lines, &pieces, lift, n->modulation[i] * n->adhesion[i]).pressure;
    const double hardest = free_deceleration(&lines, least_of(most, eased));
    to->at_force[i] = free_deceleration(&lines, least_of(pressure, eased));
    to->at_most[i] = hardest;
    to->brakes_alone[i] = free_deceleration(&lines, most);
    to->lock[i] = lock.deceleration;
    to->distance[i] = stop_distance(n->speed[i], hardest, n->dead_time[i], n->build_up[i]);
    to->time[i] = stop_time(n->speed[i], hardest, n->dead_time[i], n->build_up[i]);
}

/* Loops that take in all they call. */
#define WHOLE __attribute__((flatten))

WHOLE void brake_lanes_answer_narrow(const struct brake_lane_numbers *restrict numbers,
                                     struct brake_lane_answers *restrict answers)
{
    for (int lane = 0; lane < BRAKE_LANES; lane++)
        answer_lane(numbers, lane, answers);
}

#ifdef __x86_64__
/* In registers of four doubles. */
WHOLE __attribute__((target("avx2"))) static void
answer_wide(const struct brake_lane_numbers *restrict numbers,
            struct brake_lane_answers *restrict answers)
{
    for (int lane = 0; lane < BRAKE_LANES; lane++)
        answer_lane(numbers, lane, answers);
}
#endif

void brake_lanes_answer(const struct brake_lane_numbers *restrict numbers,
                        struct brake_lane_answers *restrict answers)
{
    void (*answer)(const struct brake_lane_numbers *restrict, struct brake_lane_answers *restrict) =
        brake_lanes_answer_narrow;
#ifdef __x86_64__
    if (__builtin_cpu_supports("avx2"))
        answer = answer_wide;
#endif
    answer(numbers, answers);
}
