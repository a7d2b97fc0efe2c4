/* SPDX-License-Identifier: MIT */
/* What many vehicles do in closed form, side by side: the hardest stop, the brakes at a
 * deceleration that is held, the parking brake. Without anti-lock and with the centre drive free,
 * on the level; all is intact but where that is said. A number is a column of
 * lanes, a lane a vehicle. What comes out is to the bit what brake_balance_at, brake_balance_lock
 * and the formulas of pedal, stop and parking give one by one. */
#ifndef BRAKE_MODEL_LANES_H
#define BRAKE_MODEL_LANES_H

#include <stddef.h>

enum { BRAKE_LANES = 64 };

typedef double brake_column[BRAKE_LANES];

/* What a stop is worked out from, in SI; none may be NaN but where that is said. Columns only. */
struct brake_lane_numbers {
    brake_column mass, behind, height;
    brake_column wheelbase, rolling;
    brake_column knee, slope;                    /* of the valve, the vehicle at rest */
    brake_column knee_rate, lift_left, unsprung; /* of struct valve_pitch */
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
    brake_column force, force_most, target;
    brake_column adhesion, modulation;
    brake_column speed, dead_time, build_up;
    brake_column boosted;   /* above 0: there is a booster */
    brake_column braked[2]; /* [-] part of the wheels of an axle, where something failed */
    brake_column there;     /* above 0: what failed is there */
    /* asked by one question alone; NaN: not known */
    brake_column rated_axle[2], tyres[2], rated; /* [kg] that axles, tyres, vehicle may carry */
    struct {
        brake_column gaps, shoes, take_up;
        brake_column compliance, seating, hoses, air;
    } circuit[2];                                    /* of struct brake_fluid */
    brake_column stroke[2], free_play, pedal_travel; /* [m] */
    brake_column reaction_time;                      /* [s] */
    brake_column heat_capacity[2];                   /* [J/K] of rotors or drums of an axle */
    brake_column trailer_mass, trailer_ratio, trailer_working;
    brake_column test_grade;     /* [-] sine of the parking test's slope */
    brake_column parking_torque; /* [N*m] */
    brake_column parking_on;     /* enum brake_parking_on */
};

struct brake_lane_answers {
    brake_column at_force, at_most; /* [m/s2] */
    brake_column lock, lock_force;  /* [m/s2], [N] */
    brake_column no_assist;         /* [m/s2] at the most force; NaN: no booster */
    brake_column distance, time;    /* [m], [s] at the most force */
    /* at the target */
    brake_column front_share, front_used, rear_used;    /* [-] */
    brake_column pressure_for_target, force_for_target; /* [Pa], [N] with endless strokes */
    /* of the vehicle and its brakes by themselves */
    brake_column total, effective, axle[2];     /* [kg] */
    brake_column behind, height;                /* [m] of the centre of gravity */
    brake_column lock_axle, efficiency;         /* [-]; axle NaN: none locks */
    brake_column ideal_share;                   /* [-] at the target */
    brake_column knee_force, knee_deceleration; /* [N], [m/s2]; NaN: the booster has no knee */
    brake_column needed[2], available[2];       /* [N*m] at the target; at the most force */
    brake_column brakes_alone;                  /* [m/s2] at that, if the tyres hold */
    brake_column margin[2], margin_of_both;     /* [-] */
    brake_column valve_knee;                    /* [Pa]; NaN: none */
    brake_column locked_drive; /* [m/s2] all wheels lock, the centre drive locked */
    brake_column energy;       /* [J] of the stop */
    brake_column failed;       /* [m/s2] at the most force; NaN: what failed is not there */
    /* parked */
    brake_column effort_grade, grade_up, grade_down; /* [-] */
    brake_column parking;                            /* [m/s2] */
    brake_column parking_needed, parking_margin;     /* [N*m], [-] of the parking test */
    brake_column trailer_grade; /* [-]; NaN: no trailer; with BRAKE_LANES_AFTER */
    /* over what axles, tyres and vehicle may carry [-] */
    brake_column axle_margin[2], tyre_margin[2], rated_margin;
    /* with endless strokes at the target */
    brake_column travel, travel_used, stroke_used[2]; /* [m], [-] */
    brake_column gaps, shoes, take_up;                /* [m3] */
    brake_column compliance, hoses, air, fluid;       /* [m3] */
    /* of the hardest stop */
    brake_column sight, heat_share, rise[2];       /* [m], [-], [K] */
    brake_column tow_without, tow_stated, tow_all; /* [m/s2] */
};

/* Which of them are asked for, as bits. */
enum {
    BRAKE_LANES_STOP = 1,                        /* at_force to time */
    BRAKE_LANES_TARGET = 2,                      /* front_share to force_for_target */
    BRAKE_LANES_PARKING = 4,                     /* effort_grade to parking */
    BRAKE_LANES_ITSELF = 8,                      /* total to energy */
    BRAKE_LANES_RATED = 16,                      /* axle_margin to rated_margin */
    BRAKE_LANES_FLUID = 32 | BRAKE_LANES_TARGET, /* travel to fluid too */
    BRAKE_LANES_AFTER = 64 | BRAKE_LANES_STOP,   /* sight to tow_all too */
    BRAKE_LANES_INTACT = 127,
    BRAKE_LANES_FAILED = 128 /* failed, of brakes of which all wheels or some are braked */
};

/* A column by its place in the struct. */
static inline double *brake_lane_column(struct brake_lane_numbers *numbers, int number)
{
    return (double *)(void *)((char *)numbers + (size_t)number * sizeof(brake_column));
}

/* Works out every lane in the registers that every processor has. */
void brake_lanes_answer_narrow(unsigned asked, const struct brake_lane_numbers *restrict numbers,
                               struct brake_lane_answers *restrict answers);

/* The same in the widest that this one has. */
void brake_lanes_answer(unsigned asked, const struct brake_lane_numbers *restrict numbers,
                        struct brake_lane_answers *restrict answers);

#endif
