/* SPDX-License-Identifier: MIT */
/* Formulas that a loop over vehicles takes in whole; the public functions of brake/balance.h,
 * brake/pedal.h, brake/stop.h and their like, where equations and sources stand, are these. */
#ifndef BRAKE_MODEL_FORMULAS_H
#define BRAKE_MODEL_FORMULAS_H

#include <math.h>
#include <stdbool.h>

#include "brake/constants.h"
#include "brake/parking.h"
#include "brake/pedal.h"
#include "extremes.h"

static inline double booster_output(double gain, double assist, double input)
{
    return least_of(gain * input, input + assist);
}

static inline double booster_input(double gain, double assist, double output)
{
    return most_of(output / gain, output - assist);
}

static inline double booster_knee(double gain, double assist)
{
    return gain <= 1.0 ? BRAKE_INFINITY : assist / (gain - 1.0);
}

static inline double pedal_force(const struct brake_pedal *pedal, double pressure)
{
    const double output = pressure * pedal->master_area / pedal->master_efficiency;
    return booster_input(pedal->gain, pedal->assist, output) / (pedal->ratio * pedal->efficiency);
}

static inline double pedal_pressure(const struct brake_pedal *pedal, double force)
{
    const double rod = force * pedal->ratio * pedal->efficiency;
    return booster_output(pedal->gain, pedal->assist, rod) *
           (pedal->master_efficiency / pedal->master_area);
}

/* At which half of what calipers take early is taken [Pa]. */
#define SEATING_PRESSURE 1e6

static inline struct brake_fluid fluid_sum(struct brake_fluid a, struct brake_fluid b)
{
    return (struct brake_fluid){
        .gaps = a.gaps + b.gaps,
        .shoes = a.shoes + b.shoes,
        .take_up = a.take_up + b.take_up,
        .compliance = a.compliance + b.compliance,
        .seating = a.seating + b.seating,
        .hoses = a.hoses + b.hoses,
        .air = a.air + b.air,
    };
}

static inline double fluid_seated(const struct brake_fluid *fluid, double pressure)
{
    return fluid->seating * pressure / (pressure + SEATING_PRESSURE);
}

static inline double fluid_closing(const struct brake_fluid *fluid)
{
    return fluid->gaps + fluid->shoes + fluid->take_up;
}

/* What grows with pressure. */
static inline double fluid_elastic(const struct brake_fluid *fluid, double pressure)
{
    return (fluid->compliance + fluid->hoses) * pressure + fluid_seated(fluid, pressure) +
           fluid->air * pressure / (pressure + BRAKE_ATMOSPHERE);
}

static inline double fluid_volume(const struct brake_fluid *fluid, double pressure)
{
    return fluid_closing(fluid) + fluid_elastic(fluid, pressure);
}

static inline double tow_deceleration(double mass, double deceleration, double trailer_mass,
                                      double trailer_ratio, double working)
{
    const double trailer = working * trailer_ratio * trailer_mass * BRAKE_GRAVITY;
    return (mass * deceleration + trailer) / (mass + trailer_mass);
}

static inline double valve_pressure(struct brake_valve valve, double pressure)
{
    const double passed = valve.knee + valve.slope * (pressure - valve.knee);
    return pressure <= valve.knee ? pressure : passed;
}

/* Of an axle, at the pressure that reaches its brakes. */
static inline double brake_torque(double gain, double threshold, double pressure)
{
    return gain * most_of(0.0, pressure - threshold);
}

static inline double ideal_share(double behind, double height, double wheelbase, double ratio)
{
    return (wheelbase - behind + ratio * height) / wheelbase;
}

static inline double stop_distance(double speed, double deceleration, double dead_time,
                                   double build_up)
{
    return speed * (dead_time + build_up / 2.0) + speed / deceleration * speed / 2.0 -
           (1.0 / 24.0) * deceleration * build_up * build_up;
}

static inline double stop_time(double speed, double deceleration, double dead_time, double build_up)
{
    return dead_time + build_up / 2.0 + speed / deceleration;
}

static inline double energy_of(double mass, double speed)
{
    return mass * speed * speed / 2.0;
}

static inline double parking_grade(double mass, double torque, double radius)
{
    const double sine = torque / (mass * BRAKE_GRAVITY * radius);
    const double grade = sine / sqrt(1.0 - sine * sine);
    return sine >= 1.0 ? BRAKE_INFINITY : grade;
}

static inline double parking_adhesion(struct brake_body body, double wheelbase, bool on_front,
                                      bool on_all, double adhesion, double uphill)
{
    const double shift = uphill * adhesion * body.height;
    const double front = adhesion * (wheelbase - body.behind) / (wheelbase + shift);
    const double rear = adhesion * body.behind / (wheelbase - shift);
    const double either = on_front ? front : rear;
    return on_all ? adhesion : either;
}

#endif
