#include <math.h>

#include "brake/compare.h"

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
    const unsigned coalitions = 1U << players;
    bool finite = true;
    for (unsigned c = 0; c < coalitions; c++)
        finite = finite && isfinite(value[c * stride]);
    for (int i = 0; i < players; i++) {
        const unsigned own = 1U << i;
        double sum = 0.0;
        for (unsigned c = 0; c < coalitions; c++) {
            if ((c & own) == 0)
                sum += weight(members_of(c), players) *
                       (value[(c | own) * stride] - value[c * stride]);
        }
        share[i] = finite ? sum : BRAKE_NAN;
    }
    return finite;
}
