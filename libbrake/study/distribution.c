/* SPDX-License-Identifier: MIT */
#include "brake/distribution.h"

#include <math.h>

#include "brake/constants.h"
#include "distribution.h"
#include "tolerance.h"

const char *brake_shape_word(enum brake_shape shape)
{
    static const char *const words[BRAKE_SHAPES] = {"normal", "uniform", "triangular"};
    return words[shape];
}

double brake_normal_share(double value)
{
    return 0.5 * erfc(-value / sqrt(2.0));
}

/* ---- AS 241: a ratio of polynomials in each of three regions -------------------------------- */

struct ratio {
    double over[8], under[8];
};

static const struct ratio centre = {
    {3.3871328727963666080e0, 1.3314166789178437745e+2, 1.9715909503065514427e+3,
     1.3731693765509461125e+4, 4.5921953931549871457e+4, 6.7265770927008700853e+4,
     3.3430575583588128105e+4, 2.5090809287301226727e+3},
    {1.0, 4.2313330701600911252e+1, 6.8718700749205790830e+2, 5.3941960214247511077e+3,
     2.1213794301586595867e+4, 3.9307895800092710610e+4, 2.8729085735721942674e+4,
     5.2264952788528545610e+3}};
static const struct ratio flank = {
    {1.42343711074968357734e0, 4.63033784615654529590e0, 5.76949722146069140550e0,
     3.64784832476320460504e0, 1.27045825245236838258e0, 2.41780725177450611770e-1,
     2.27238449892691845833e-2, 7.74545014278341407640e-4},
    {1.0, 2.05319162663775882187e0, 1.67638483018380384940e0, 6.89767334985100004550e-1,
     1.48103976427480074590e-1, 1.51986665636164571966e-2, 5.47593808499534494600e-4,
     1.05075007164441684324e-9}};
static const struct ratio tail = {
    {6.65790464350110377720e0, 5.46378491116411436990e0, 1.78482653991729133580e0,
     2.96560571828504891230e-1, 2.65321895265761230930e-2, 1.24266094738807843860e-3,
     2.71155556874348757815e-5, 2.01033439929228813265e-7},
    {1.0, 5.99832206555887937690e-1, 1.36929880922735805310e-1, 1.48753612908506148525e-2,
     7.86869131145613259100e-4, 1.84631831751005468180e-5, 1.42151175831644588870e-7,
     2.04426310338993978564e-15}};

static double of_ratio(const struct ratio *ratio, double x)
{
    double over = 0.0;
    double under = 0.0;
    for (int i = 7; i >= 0; i--) {
        over = over * x + ratio->over[i];
        under = under * x + ratio->under[i];
    }
    return over / under;
}

double brake_normal_value(double share)
{
    const double q = share - 0.5;
    if (fabs(q) <= 0.425)
        return q * of_ratio(&centre, 0.180625 - q * q);
    const double nearer = q < 0.0 ? share : 1.0 - share;
    if (nearer == 0.0)
        return copysign(BRAKE_INFINITY, q);
    const double r = sqrt(-log(nearer)); /* NaN outside 0 to 1 */
    return copysign(r <= 5.0 ? of_ratio(&flank, r - 1.6) : of_ratio(&tail, r - 5.0), q);
}

/* ---- shapes of middle 0 and width 1 --------------------------------------------------------- */

static double share_below(enum brake_shape shape, double x)
{
    if (shape == BRAKE_NORMAL)
        return brake_normal_share(x);
    x = fmin(fmax(x, -1.0), 1.0);
    if (shape == BRAKE_UNIFORM)
        return 0.5 * (1.0 + x);
    return x < 0.0 ? 0.5 * (1.0 + x) * (1.0 + x) : 1.0 - 0.5 * (1.0 - x) * (1.0 - x);
}

static double value_at(enum brake_shape shape, double share)
{
    if (shape == BRAKE_NORMAL)
        return brake_normal_value(share);
    if (shape == BRAKE_UNIFORM)
        return 2.0 * share - 1.0;
    return share < 0.5 ? sqrt(2.0 * share) - 1.0 : 1.0 - sqrt(2.0 * (1.0 - share));
}

/* Share of the whole below a value: each half of the shape has a width of its own. */
static double share_under(const struct brake_distribution *distribution, double value)
{
    const double off = value - distribution->middle;
    return share_below(distribution->shape,
                       off / (off < 0.0 ? distribution->below : distribution->above));
}

struct brake_distribution brake_distribution_of(enum brake_shape shape, double middle,
                                                double tolerance, double lean, double low,
                                                double high)
{
    /* Where each shape of width 1 has 95 of 100 within. */
    const double holds[BRAKE_SHAPES] = {1.9599639845400545, 0.95, 1.0 - sqrt(0.05)};
    const double width = tolerance / holds[shape];
    struct brake_distribution distribution = {
        shape, middle, width * (1.0 - lean), width * (1.0 + lean), 0.0, 0.0};
    distribution.from = share_under(&distribution, fmin(low, middle));
    distribution.to = share_under(&distribution, fmax(high, middle));
    return distribution;
}

double brake_distribution_value(const struct brake_distribution *distribution, double share)
{
    const double of_all = distribution->from + share * (distribution->to - distribution->from);
    const double off = value_at(distribution->shape, of_all);
    return distribution->middle + (off < 0.0 ? distribution->below : distribution->above) * off;
}
