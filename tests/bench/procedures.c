/* SPDX-License-Identifier: MIT */
/* Fade procedures of the Heron with its tolerances drawn, as behind a hot row and in spread --fade:
 * one at a time, and eight side by side, in the time of one processor. The margins must be the
 * same. Before heat went side by side there were 68 a second on the machine of the goals, one at a
 * time; the goals are 2.5 times that for one alone, and side by side 10 times, 12 with AVX2, 20
 * with AVX-512. What bounds it: six tenths of the time is the arithmetic of heat, which fills the
 * widest registers, a quarter the vehicle's own motion, one vehicle after the other: 4,200 looks at
 * its forces a procedure, each of which waits for the one before it. Were they free, it would be 12
 * times. Reached there: 9.0 with AVX-512, 7.2 with AVX2, 4.4 with registers of two doubles.
 *
 * usage: procedures FILE */
#define _GNU_SOURCE
#include <omp.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "brake/brake.h"
#include "study/sample.h"
#include "study/sobol.h"

enum { SAMPLES = 64, RUNS = 3 };

static const double OLD = 1.0 / 68.0; /* [s] a procedure */

static struct brake_sheet sheet;
static struct brake_inputs inputs;
static double share[SAMPLES][BRAKE_INPUTS];

static void stop(const char *what)
{
    fprintf(stderr, "bench procedures: %s\n", what);
    exit(EXIT_FAILURE);
}

static void draw(const char *path)
{
    static struct brake_sobol sobol;
    struct brake_error error;
    FILE *stream = fopen(path, "rb");
    if (stream == NULL || brake_file_read(stream, &sheet, &error) != BRAKE_OK ||
        brake_sheet_complete(&sheet, &error) != BRAKE_OK)
        stop("the vehicle file was refused");
    fclose(stream);
    brake_inputs_list(&sheet, NULL, &inputs);
    brake_sobol_scrambled(brake_inputs_count(&inputs), 0, &sobol);
    for (int i = 0; i < SAMPLES; i++)
        brake_sobol_middle(&sobol, (uint32_t)i, share[i]);
}

static double now(clockid_t clock)
{
    struct timespec time;
    clock_gettime(clock, &time);
    return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

static void judge(int together, double margin[SAMPLES][BRAKE_CRITERIA])
{
#pragma omp parallel for schedule(dynamic, 1)
    for (int first = 0; first < SAMPLES; first += together) {
        struct sample_hot sample[BRAKE_TOGETHER];
        for (int i = 0; i < together; i++)
            sample[i] = (struct sample_hot){share[first + i], margin[first + i]};
        sample_hot_margins(&inputs, BRAKE_RULES_US, sample, together);
    }
}

/* The least time of a sample of several runs. */
static double seconds(int together, clockid_t clock, double margin[SAMPLES][BRAKE_CRITERIA])
{
    double least = 1e9;
    for (int i = 0; i < RUNS; i++) {
        const double begin = now(clock);
        judge(together, margin);
        const double taken = now(clock) - begin;
        least = taken < least ? taken : least;
    }
    return least / SAMPLES;
}

int main(int count, char **words)
{
    static double alone[SAMPLES][BRAKE_CRITERIA];
    static double beside[SAMPLES][BRAKE_CRITERIA];
    draw(count > 1 ? words[1] : "examples/heron.ini");
    omp_set_num_threads(1);
    const double one = seconds(1, CLOCK_PROCESS_CPUTIME_ID, alone);
    const double eight = seconds(BRAKE_TOGETHER, CLOCK_PROCESS_CPUTIME_ID, beside);
    const double by_the_wall = seconds(BRAKE_TOGETHER, CLOCK_MONOTONIC, beside);
    omp_set_num_threads(2);
    const double two = seconds(BRAKE_TOGETHER, CLOCK_MONOTONIC, beside);
    if (memcmp(alone, beside, sizeof alone) != 0)
        stop("margins side by side are not those one at a time");
    printf("one at a time                    %6.0f procedures a second\n", 1.0 / one);
    printf("eight side by side               %6.0f procedures a second\n", 1.0 / eight);
    printf("bench procedures: alone %.1f x those of old (goal 2.5), side by side %.1f x (goal 10 "
           "to 20)"
           " and %.2f x alone, two threads %.2f x one\n",
           OLD / one, OLD / eight, one / eight, by_the_wall / two);
    return EXIT_SUCCESS;
}
