/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/braking.h. */
#include "gain.h"

#include <math.h>

static enum brake_status factor_at(const struct gain *gain, double mu, double *factor)
{
    return brake_drum_shape_factor(&gain->drum, mu, gain->law->secondary_friction * mu, factor);
}

enum brake_status brake_gain_prepare(const struct brake_gain_law *law, struct gain *gain)
{
    gain->law = law;
    gain->then = BRAKE_NAN;
    if (!law->shaped)
        return BRAKE_OK;
    gain->drum = brake_drum_shape(law->shoes, &law->shoe,
                                  law->shoes == BRAKE_DUO_SERVO ? &law->secondary : &law->shoe);
    return law->mu > 0.0 ? factor_at(gain, law->mu, &gain->then) : BRAKE_E_RANGE;
}

enum brake_status brake_gain_find(const struct gain *gain, double mu, double *ratio)
{
    const struct brake_gain_law *law = gain->law;
    double now;
    *ratio = BRAKE_NAN;
    if (!(mu > 0.0))
        return BRAKE_E_RANGE;
    if (!law->shaped) {
        const double more = mu / law->mu;
        const double power = law->power == 1.0 ? more : pow(more, law->power);
        *ratio = isfinite(power) ? power : BRAKE_NAN;
        return isfinite(power) ? BRAKE_OK : BRAKE_E_RANGE;
    }
    const enum brake_status status = factor_at(gain, mu, &now);
    if (status == BRAKE_OK)
        *ratio = now / gain->then;
    return status;
}

double brake_gain_ratio(const struct brake_gain_law *law, double mu)
{
    struct gain gain;
    double ratio;
    return brake_gain_prepare(law, &gain) == BRAKE_OK &&
                   brake_gain_find(&gain, mu, &ratio) == BRAKE_OK
               ? ratio
               : BRAKE_NAN;
}
