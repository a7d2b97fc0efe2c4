/* The hardest stop in closed form of many vehicles side by side: intact brakes without anti-lock
 * and with the centre drive free, on the level. A number is a column of lanes, a lane a vehicle.
 * What comes out is to the bit what brake_balance_at, brake_balance_lock and the formulas of pedal
 * and stop give one by one. */
#ifndef BRAKE_MODEL_LANES_H
#define BRAKE_MODEL_LANES_H

#include <stddef.h>

enum { BRAKE_LANES = 64 };

typedef double brake_column[BRAKE_LANES];

/* What a stop is worked out from, in SI; none may be NaN. Columns only. */
struct brake_lane_numbers {
    brake_column mass, behind, height;
    brake_column wheelbase, rolling;
    brake_column knee, slope;
    struct {
        brake_column gain, threshold;
    } brakes[2];
    struct {
        brake_column radius, inertia;
    } wheels[2];
    brake_column ratio, efficiency;
    brake_column booster_gain, assist;
    brake_column master_area, master_efficiency;
    struct {
        brake_column torque, wheels;
    } held[2];
    brake_column hold_from, hold_to, pressure_most;
    brake_column force, force_most;
    brake_column adhesion, modulation;
    brake_column speed, dead_time, build_up;
};

struct brake_lane_answers {
    brake_column at_force, at_most, brakes_alone; /* [m/s2] */
    brake_column lock;                            /* [m/s2] */
    brake_column distance, time;                  /* [m], [s] at the most force */
};

/* A column by its place in the struct. */
static inline double *brake_lane_column(struct brake_lane_numbers *numbers, int number)
{
    return (double *)(void *)((char *)numbers + (size_t)number * sizeof(brake_column));
}

/* Works out every lane in the registers that every processor has. */
void brake_lanes_answer_narrow(const struct brake_lane_numbers *restrict numbers,
                               struct brake_lane_answers *restrict answers);

/* The same in the widest that this one has. */
void brake_lanes_answer(const struct brake_lane_numbers *restrict numbers,
                        struct brake_lane_answers *restrict answers);

#endif
