/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/drum.h. */
#include "brake/drum.h"

#include <math.h>

#include "brake/constants.h"
#include "drum_shape.h"
#include "extremes.h"

/* Friction unloads a trailing shoe and loads a leading one. */
static double friction_sign(enum brake_lead lead)
{
    return lead == BRAKE_LEADING ? -1.0 : 1.0;
}

double brake_shoe_factor_short(double mu, double arm_force, double arm_normal, double arm_friction,
                               enum brake_lead lead)
{
    const double arm = arm_normal + friction_sign(lead) * mu * arm_friction;
    return arm > 0.0 ? mu * arm_force / arm : BRAKE_NAN;
}

static struct shoe_lengths lengths_of(const struct brake_shoe *s)
{
    const double sine[] = {sin(s->heel), sin(s->toe)};
    const double cosine[] = {cos(s->heel), cos(s->toe)};
    const double reach = cosine[0] - cosine[1];
    const double squares = sine[1] * sine[1] - sine[0] * sine[0];
    const double twice = sine[1] * cosine[1] - sine[0] * cosine[0]; /* half of that of 2 angle */
    return (struct shoe_lengths){.normal = s->pivot_radius * (s->toe - s->heel - twice) / 2.0,
                                 .friction =
                                     s->drum_radius * reach - s->pivot_radius / 2.0 * squares,
                                 .reach = reach};
}

/* Sine of the angle of largest pressure: 90 degrees, or the toe of a shorter shoe. */
static double peak_sine(const struct brake_shoe *s)
{
    return sin(fmin(s->toe, BRAKE_PI / 2.0));
}

void brake_shoe_moments(const struct brake_shoe *shoe, double *normal, double *friction)
{
    const struct shoe_lengths length = lengths_of(shoe);
    *normal = shoe->drum_radius * length.normal / peak_sine(shoe);
    *friction = shoe->drum_radius * length.friction / peak_sine(shoe);
}

static int shoe_in_range(const struct brake_shoe *s, double mu)
{
    return s->drum_radius > 0.0 && s->pivot_radius > 0.0 && s->force_arm > 0.0 && s->heel >= 0.0 &&
           s->toe > s->heel && s->toe <= BRAKE_PI && mu > 0.0;
}

static enum brake_status factor_of(const struct brake_shoe *shoe, struct shoe_lengths length,
                                   double mu, enum brake_lead lead, double *factor)
{
    const double arm = length.normal + friction_sign(lead) * mu * length.friction;
    *factor = BRAKE_NAN;
    if (!(arm > 0.0))
        return BRAKE_E_SELF_LOCK;
    *factor = mu * shoe->force_arm * length.reach / arm;
    return BRAKE_OK;
}

enum brake_status brake_shoe_factor(const struct brake_shoe *shoe, double mu, enum brake_lead lead,
                                    double *factor)
{
    *factor = BRAKE_NAN;
    if (!shoe_in_range(shoe, mu))
        return BRAKE_E_RANGE;
    const struct shoe_lengths length = lengths_of(shoe);
    return factor_of(shoe, length, mu, lead, factor);
}

double brake_shoe_pressure(const struct brake_shoe *shoe, double mu, enum brake_lead lead,
                           double force, double width)
{
    double normal;
    double friction;
    brake_shoe_moments(shoe, &normal, &friction);
    return force * shoe->force_arm / (width * (normal + friction_sign(lead) * mu * friction));
}

double brake_drum_factor(enum brake_shoes shoes, double leading, double trailing, double link)
{
    switch (shoes) {
    case BRAKE_TWO_LEADING:
        return 2.0 * leading;
    case BRAKE_DUO_SERVO:
        return leading * (1.0 + link);
    case BRAKE_LEADING_TRAILING:
        break;
    }
    return leading + trailing;
}

double brake_drum_link(double leading, double drum_radius, double arm_force, double arm_link)
{
    return (arm_force + leading * drum_radius) / arm_link;
}

static enum brake_status simple_factor(const struct drum_shape *drum, double mu, double *factor)
{
    double leading;
    double trailing;
    if (!shoe_in_range(drum->primary, mu))
        return BRAKE_E_RANGE;
    enum brake_status status =
        factor_of(drum->primary, drum->length[0], mu, BRAKE_LEADING, &leading);
    if (status == BRAKE_OK)
        status = factor_of(drum->primary, drum->length[0], mu, BRAKE_TRAILING, &trailing);
    if (status == BRAKE_OK)
        *factor = brake_drum_factor(drum->shoes, leading, trailing, BRAKE_NAN);
    return status;
}

static enum brake_status servo_factor(const struct drum_shape *drum, double mu, double mu_secondary,
                                      double *factor)
{
    const struct brake_shoe *primary = drum->primary;
    double first;
    double second;
    if (!shoe_in_range(primary, mu) || !shoe_in_range(drum->secondary, mu_secondary))
        return BRAKE_E_RANGE;
    enum brake_status status = factor_of(primary, drum->length[0], mu, BRAKE_LEADING, &first);
    if (status == BRAKE_OK)
        status = factor_of(drum->secondary, drum->length[1], mu_secondary, BRAKE_LEADING, &second);
    if (status == BRAKE_OK)
        *factor = first + second * brake_drum_link(first, primary->drum_radius,
                                                   primary->force_arm - primary->pivot_radius,
                                                   primary->pivot_radius);
    return status;
}

struct drum_shape brake_drum_shape(enum brake_shoes shoes, const struct brake_shoe *primary,
                                   const struct brake_shoe *secondary)
{
    return (struct drum_shape){
        shoes, primary, secondary, {lengths_of(primary), lengths_of(secondary)}};
}

enum brake_status brake_drum_shape_factor(const struct drum_shape *drum, double mu,
                                          double mu_secondary, double *factor)
{
    *factor = BRAKE_NAN;
    if (drum->shoes == BRAKE_DUO_SERVO)
        return servo_factor(drum, mu, mu_secondary, factor);
    return simple_factor(drum, mu, factor);
}

enum brake_status brake_drum_factor_shape(const struct brake_shoe *shoe, enum brake_shoes shoes,
                                          double mu, double *factor)
{
    const struct drum_shape drum = brake_drum_shape(shoes, shoe, shoe);
    return brake_drum_shape_factor(&drum, mu, mu, factor);
}

enum brake_status brake_drum_factor_servo(const struct brake_shoe *primary, double mu,
                                          const struct brake_shoe *secondary, double mu_secondary,
                                          double *factor)
{
    const struct drum_shape drum = brake_drum_shape(BRAKE_DUO_SERVO, primary, secondary);
    return brake_drum_shape_factor(&drum, mu, mu_secondary, factor);
}

double brake_drum_torque(const struct brake_drum *drum, double pressure)
{
    return drum->factor * drum->efficiency * most_of(0.0, pressure - drum->threshold) * drum->area *
           drum->radius;
}
