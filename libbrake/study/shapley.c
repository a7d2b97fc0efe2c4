/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "brake/compare.h"
#include "shapley.h"

static int members_of(unsigned coalition)
{
    int count = 0;
    for (; coalition != 0; coalition &= coalition - 1)
        count++;
    return count;
}

/* Share of all orders in which just these players come before a given one: s! (n - s - 1)! / n! */
static double weight(int before, int players)
{
    double orders = players; /* n times the binomial coefficient of s in n - 1 */
    for (int i = 1; i <= before; i++)
        orders *= (double)(players - i) / i;
    return 1.0 / orders;
}

bool brake_shapley(int players, const double *value, size_t stride, double *share)
{
    if (players < 0 || players > BRAKE_PLAYERS)
        return false;
    const unsigned coalitions = 1U << players;
    double part[BRAKE_PLAYERS] = {0.0}; /* of the orders, by how many come before */
    bool finite = true;
    for (int before = 0; before < players; before++)
        part[before] = weight(before, players);
    for (unsigned c = 0; c < coalitions; c++)
        finite = finite && isfinite(value[c * stride]);
    for (int i = 0; i < players; i++)
        share[i] = finite ? 0.0 : BRAKE_NAN;
    /* Nobody is left to join all of them. */
    for (unsigned c = 0; c + 1 < coalitions && finite; c++) {
        const double orders = part[members_of(c)];
        for (int i = 0; i < players; i++) {
            const unsigned own = 1U << i;
            if ((c & own) == 0)
                share[i] += orders * (value[(c | own) * stride] - value[c * stride]);
        }
    }
    return finite;
}
