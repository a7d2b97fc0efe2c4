/* SPDX-License-Identifier: MIT */
/* What Python's cost is held against: the loop in C, and a call that does next to nothing. */
#define _POSIX_C_SOURCE 200809L
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "brake/brake.h"

enum { COUNT = 1000000, RUNS = 15 };

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

/* Prints nanoseconds an element of each loop, the best of some runs. */
int main(void)
{
    const struct brake_disc disc = {0.0036, 0.126, 0.38, 0.95, 5e4};
    double *in = malloc(COUNT * sizeof *in);
    double *out = malloc(COUNT * sizeof *out);
    double best[2] = {1e9, 1e9};
    if (in == NULL || out == NULL)
        return 1;
    for (int i = 0; i < COUNT; i++)
        in[i] = 10.0 + 40.0 * i / (double)COUNT;
    for (int run = 0; run < RUNS; run++) {
        double begin = seconds();
        for (int i = 0; i < COUNT; i++)
            out[i] = brake_disc_torque(&disc, in[i]);
        best[0] = fmin(best[0], seconds() - begin);
        begin = seconds();
        for (int i = 0; i < COUNT; i++)
            out[i] = brake_stop_distance(in[i], 6.5, 0.1, 0.3);
        best[1] = fmin(best[1], seconds() - begin);
    }
    printf("%.6f %.6f\n", 1e9 * best[0] / (double)COUNT, 1e9 * best[1] / (double)COUNT);
    free(in);
    free(out);
    return 0;
}
