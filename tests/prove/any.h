/* SPDX-License-Identifier: MIT */
/* Numbers of which nothing is known, for `make prove`; parts of what it calls. */
#ifndef TESTS_PROVE_ANY_H
#define TESTS_PROVE_ANY_H

#include "__fc_builtin.h"

/* Any number at all, NaN and the infinities too. */
static volatile double unknown;

static double any(void)
{
    return unknown;
}

static int whole(int low, int high)
{
    return Frama_C_interval(low, high);
}

#endif
