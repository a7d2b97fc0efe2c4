/* Equations and sources: brake/drum.h. */
#include "brake/drum.h"

#include <math.h>

#include "brake/constants.h"
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

/* What the angles of a shoe make of it, which costs most of its factor and does not follow
 * friction: A and B of the file head, and cos(heel) - cos(toe). */
struct lengths {
    double normal;
    double friction;
    double reach;
};

static struct lengths lengths_of(const struct brake_shoe *s)
{
    const double sine[] = {sin(s->heel), sin(s->toe)};
    const double cosine[] = {cos(s->heel), cos(s->toe)};
    const double reach = cosine[0] - cosine[1];
    const double squares = sine[1] * sine[1] - sine[0] * sine[0];
    const double twice = sine[1] * cosine[1] - sine[0] * cosine[0]; /* half of that of 2 angle */
    return (struct lengths){.normal = s->pivot_radius * (s->toe - s->heel - twice) / 2.0,
                            .friction = s->drum_radius * reach - s->pivot_radius / 2.0 * squares,
                            .reach = reach};
}

/* Sine of the angle of largest pressure: 90 degrees, or the toe of a shorter shoe. */
static double peak_sine(const struct brake_shoe *s)
{
    return sin(fmin(s->toe, BRAKE_PI / 2.0));
}

void brake_shoe_moments(const struct brake_shoe *shoe, double *normal, double *friction)
{
    const struct lengths length = lengths_of(shoe);
    *normal = shoe->drum_radius * length.normal / peak_sine(shoe);
    *friction = shoe->drum_radius * length.friction / peak_sine(shoe);
}

static int shoe_in_range(const struct brake_shoe *s, double mu)
{
    return s->drum_radius > 0.0 && s->pivot_radius > 0.0 && s->force_arm > 0.0 && s->heel >= 0.0 &&
           s->toe > s->heel && s->toe <= BRAKE_PI && mu > 0.0;
}

static enum brake_status factor_of(const struct brake_shoe *shoe, struct lengths length, double mu,
                                   enum brake_lead lead, double *factor)
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
    const struct lengths length = lengths_of(shoe);
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

enum brake_status brake_drum_factor_shape(const struct brake_shoe *shoe, enum brake_shoes shoes,
                                          double mu, double *factor)
{
    double leading;
    double trailing;
    *factor = BRAKE_NAN;
    if (shoes == BRAKE_DUO_SERVO)
        return brake_drum_factor_servo(shoe, mu, shoe, mu, factor);
    if (!shoe_in_range(shoe, mu))
        return BRAKE_E_RANGE;
    const struct lengths length = lengths_of(shoe);
    enum brake_status status = factor_of(shoe, length, mu, BRAKE_LEADING, &leading);
    if (status != BRAKE_OK)
        return status;
    status = factor_of(shoe, length, mu, BRAKE_TRAILING, &trailing);
    if (status != BRAKE_OK)
        return status;
    *factor = brake_drum_factor(shoes, leading, trailing, BRAKE_NAN);
    return BRAKE_OK;
}

enum brake_status brake_drum_factor_servo(const struct brake_shoe *primary, double mu,
                                          const struct brake_shoe *secondary, double mu_secondary,
                                          double *factor)
{
    double first;
    double second;
    *factor = BRAKE_NAN;
    enum brake_status status = brake_shoe_factor(primary, mu, BRAKE_LEADING, &first);
    if (status == BRAKE_OK)
        status = brake_shoe_factor(secondary, mu_secondary, BRAKE_LEADING, &second);
    if (status != BRAKE_OK)
        return status;
    *factor = first + second * brake_drum_link(first, primary->drum_radius,
                                               primary->force_arm - primary->pivot_radius,
                                               primary->pivot_radius);
    return BRAKE_OK;
}

double brake_drum_torque(const struct brake_drum *drum, double pressure)
{
    return drum->factor * drum->efficiency * most_of(0.0, pressure - drum->threshold) * drum->area *
           drum->radius;
}
