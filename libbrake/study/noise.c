/* SPDX-License-Identifier: MIT */
/* Restricted likelihood of white noise and noise that dies away by e in a time, added up over a
 * grid of their ratio and that time. Equations: reference/method.md, section 11. */
#include "noise.h"

#include <math.h>
#include <string.h>

static const double times[BRAKE_NOISE_TIMES] = {0.1, 0.3, 1.0, 3.0}; /* [s] */

/* Variance carried over white variance; the first stands for white noise alone. */
static const double ratios[] = {0.0, 0.03, 0.3, 3.0, 30.0, 300.0, 3e4};

enum { RATIOS = sizeof ratios / sizeof ratios[0], COLUMNS = BRAKE_SMOOTH_TERMS + 1 };

/* Noise of a shape, its white part 1, tried on the stops. */
struct trial {
    double ratio, time;
    double logs;    /* of all determinants, for the likelihood */
    double squares; /* left over */
    int freedom;
};

/* Rows of a stop made independent one after the other (a Kalman filter of one state), into the sums
 * of products of their columns: the terms of the curve, then the speed. */
static void add_products(const struct brake_smooth *curve, struct trial *trial,
                         double sum[COLUMNS][COLUMNS])
{
    double expected[COLUMNS] = {0.0};
    double column[COLUMNS] = {0.0};
    double unused[BRAKE_SMOOTH_TERMS];
    double before = curve->row[curve->first].value[BRAKE_LOG_TIME];
    double known = trial->ratio; /* variance of the carried part before a row is read */
    for (long i = curve->first; i <= curve->last; i++) {
        const double time = curve->row[i].value[BRAKE_LOG_TIME];
        const double stays = exp(-(time - before) / trial->time);
        known = stays * stays * known + trial->ratio * (1.0 - stays * stays);
        const double total = known + 1.0;
        brake_smooth_terms(curve, time, column, unused);
        column[curve->terms] = curve->row[i].value[BRAKE_LOG_SPEED] - brake_smooth_at(curve, time);
        for (int k = 0; k <= curve->terms; k++) {
            expected[k] *= stays;
            column[k] -= expected[k];
            expected[k] += known / total * column[k];
        }
        for (int a = 0; a <= curve->terms; a++)
            for (int b = 0; b <= curve->terms; b++)
                sum[a][b] += column[a] * column[b] / total;
        trial->logs += log(total);
        known /= total;
        before = time;
    }
}

/* Elimination leaves the squares that the curve cannot take up in the last pivot. */
static void add_stop(const struct brake_smooth *curve, struct trial *trial)
{
    double sum[COLUMNS][COLUMNS] = {{0.0}};
    add_products(curve, trial, sum);
    for (int p = 0; p < curve->terms; p++) {
        trial->logs += log(sum[p][p]);
        for (int i = p + 1; i <= curve->terms; i++) {
            const double factor = sum[i][p] / sum[p][p];
            for (int k = p; k <= curve->terms; k++)
                sum[i][k] -= factor * sum[p][k];
        }
    }
    trial->squares += fmax(sum[curve->terms][curve->terms], 0.0);
    trial->freedom += (int)(curve->last - curve->first) + 1 - curve->terms;
}

/* Of a trial in the grid of ratios by times. White noise alone is the first, of whichever time. */
static int place_of(int trial)
{
    return BRAKE_NOISE_TIMES - 1 + trial;
}

void brake_noise_find(const struct brake_smooth *curve, int count, struct brake_noise *noise)
{
    struct trial trial[1 + (RATIOS - 1) * BRAKE_NOISE_TIMES];
    double likelihood[sizeof trial / sizeof trial[0]];
    double best = -BRAKE_INFINITY;
    double all = 0.0;
    const int trials = sizeof trial / sizeof trial[0];
    memset(noise, 0, sizeof *noise);
    for (int t = 0; t < trials; t++) {
        const int at = place_of(t);
        trial[t] = (struct trial){.ratio = ratios[at / BRAKE_NOISE_TIMES],
                                  .time = times[at % BRAKE_NOISE_TIMES]};
        for (int i = 0; i < count; i++) {
            if (curve[i].terms > 0)
                add_stop(&curve[i], &trial[t]);
        }
        if (trial[t].freedom < 3 || !(trial[t].squares > 0.0))
            return;
        likelihood[t] = -0.5 * (trial[t].logs + trial[t].freedom * log(trial[t].squares)) +
                        log(t > 0 ? 0.5 / (trials - 1) : 0.5);
        best = fmax(best, likelihood[t]);
    }
    for (int t = 0; t < trials; t++)
        all += exp(likelihood[t] - best);
    for (int t = 0; t < trials; t++) {
        const double share = exp(likelihood[t] - best) / all;
        const double white = share * trial[t].squares / (trial[t].freedom - 2);
        noise->white += white;
        noise->carried[place_of(t) % BRAKE_NOISE_TIMES] += white * trial[t].ratio;
    }
}

double brake_noise_of_row(const struct brake_noise *noise)
{
    double sum = noise->white;
    for (int k = 0; k < BRAKE_NOISE_TIMES; k++)
        sum += noise->carried[k];
    return sqrt(sum);
}

void brake_noise_add(const struct brake_noise *noise, double time, double weight,
                     struct brake_noise_sum *sum)
{
    sum->variance += noise->white * weight * weight;
    for (int k = 0; k < BRAKE_NOISE_TIMES; k++) {
        const double stays = exp(-(time - sum->time) / times[k]) * sum->before[k];
        sum->variance += noise->carried[k] * weight * (weight + 2.0 * stays);
        sum->before[k] = stays + weight;
    }
    sum->time = time;
}

double brake_noise_of_curve(const struct brake_noise *noise, const struct brake_smooth *curve,
                            const double *gradient)
{
    struct brake_noise_sum sum = {.variance = 0.0};
    for (long i = curve->first; i <= curve->last; i++)
        brake_noise_add(noise, curve->row[i].value[BRAKE_LOG_TIME],
                        brake_smooth_weight(curve, i, gradient), &sum);
    return sqrt(sum.variance);
}
