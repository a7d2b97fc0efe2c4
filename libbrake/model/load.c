/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/load.h. */
#include "brake/load.h"

#include <math.h>

#include "brake/constants.h"

struct brake_body brake_body_sum(struct brake_body a, struct brake_body b)
{
    struct brake_body sum = {a.mass + b.mass, BRAKE_NAN, BRAKE_NAN};
    if (sum.mass != 0.0) {
        sum.behind = (a.mass * a.behind + b.mass * b.behind) / sum.mass;
        sum.height = (a.mass * a.height + b.mass * b.height) / sum.mass;
    }
    return sum;
}

double brake_cg_behind_front(double front, double rear, double wheelbase)
{
    return rear / (front + rear) * wheelbase;
}

double brake_cg_height_tilt(double gain, double mass, double wheelbase, double lift,
                            double hub_height)
{
    if (!(lift > 0.0 && lift < wheelbase))
        return BRAKE_NAN;
    const double tangent = lift / sqrt(wheelbase * wheelbase - lift * lift);
    return gain * wheelbase / (mass * tangent) + hub_height;
}

double brake_cg_rise(double mass, double unsprung, double lift, double wheel_rise)
{
    return wheel_rise + lift * (mass - unsprung) / mass;
}

double brake_front_load(struct brake_body body, double wheelbase, double deceleration, double slope)
{
    const double level = BRAKE_GRAVITY * cos(slope) * (wheelbase - body.behind);
    const double shift = (deceleration - BRAKE_GRAVITY * sin(slope)) * body.height;
    return body.mass * (level + shift) / wheelbase;
}
