/* SPDX-License-Identifier: MIT */
/* Samples a second of the Heron, all tolerances drawn at once: by the study on one thread and on
 * all, beside the bare work of a sample, vary, judge and evaluate.
 *
 * usage: spread FILE */
#include <omp.h>
#include <stdio.h>
#include <stdlib.h>

#include "brake/brake.h"
#include "vehicle/recalculation.h"
#include "study/drawn.h"
#include "criteria/judge.h"

enum { BARE = 4096 };

static struct brake_sheet sheet;
static struct brake_spread spread;
static struct brake_spread_options options = {.rules = BRAKE_RULES_ALL, .samples = 4096};

static void stop(const char *what)
{
    fprintf(stderr, "bench spread: %s\n", what);
    exit(EXIT_FAILURE);
}

static void read_sheet(const char *path)
{
    struct brake_error error;
    FILE *stream = fopen(path, "rb");
    if (stream == NULL || brake_file_read(stream, &sheet, &error) != BRAKE_OK ||
        brake_sheet_complete(&sheet, &error) != BRAKE_OK)
        stop("the vehicle file was refused");
    fclose(stream);
}

/* Evaluations a second of the whole study. */
static double study(int threads)
{
    if (brake_spread_prepare(&sheet, &options, &spread) != BRAKE_OK)
        stop("the study was refused");
    void *room = malloc(brake_spread_room(&spread));
    if (room == NULL)
        stop("memory is short");
    omp_set_num_threads(threads);
    const double begin = omp_get_wtime();
    brake_spread_run(&spread, room, NULL);
    const double seconds = omp_get_wtime() - begin;
    free(room);
    const double inputs = brake_inputs_count(&spread.inputs);
    return ((double)spread.samples + (double)spread.base * (inputs + 2.0)) / seconds;
}

/* The same without sequence, shapes, keeping and sums. */
static double bare(void)
{
    struct brake_judgement judgement[BRAKE_CRITERIA];
    struct brake_vehicle vehicle;
    struct brake_places places;
    brake_places_fill(&places);
    const int index = spread.inputs.input[0].index;
    const double value = brake_quantity_value(&sheet.vehicle, index);
    const double begin = omp_get_wtime();
    for (int i = 0; i < BARE; i++) {
        brake_sheet_vary(&sheet, &places, index, value * (1.0 + 1e-6 * i), &vehicle);
        brake_judge_all(BRAKE_RULES_ALL, &vehicle, judgement);
    }
    return (double)BARE / (omp_get_wtime() - begin);
}

int main(int count, char **words)
{
    read_sheet(count > 1 ? words[1] : "examples/heron.ini");
    const int threads = omp_get_max_threads();
    const double one = study(1);
    const double all = study(threads);
    const double least = bare();
    printf("vary and judge     %9.0f a second\n", least);
    printf("spread, 1 thread   %9.0f samples a second\n", one);
    printf("spread, %d threads  %9.0f samples a second\n", threads, all);
    printf("bench spread: %.2f x the rate of vary and judge on one thread; %d threads %.2f x one\n",
           one / least, threads, all / one);
    return 0;
}
