/* SPDX-License-Identifier: MIT */
/* Sweeps a vehicle over five axes of some values each into memory and prints the seconds it took
 * at the least; the outputs go to a file as doubles. Usage: FILE VALUES THREADS OUT OUTPUT... */
#define _POSIX_C_SOURCE 200809L
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "brake/brake.h"
#include "study/cases.h"

enum { AXES = 5, OUTPUTS = 16, WORDS = 5, RUNS = 3 };

static const struct {
    const char *path;
    const char *unit;
    double low, high;
} axes[AXES] = {{"front.tyre.rollout", "m", 2.2, 2.9},
                {"vehicle.mass", "kg", 1500.0, 2300.0},
                {"front.disc.pads.mu", "", 0.30, 0.45},
                {"booster.gain", "", 3.0, 6.0},
                {"rear.drum.lining.mu", "", 0.30, 0.42}};

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

static int fail(const char *what)
{
    fprintf(stderr, "sweep_helper: %s\n", what);
    return 2;
}

int main(int count, char **words)
{
    static struct brake_sheet sheet;
    static struct brake_sweeper sweeper;
    struct brake_axis axis[AXES];
    struct brake_output output[OUTPUTS];
    const int outputs = count - WORDS;
    struct brake_error error;
    FILE *file = outputs > 0 && outputs <= OUTPUTS ? fopen(words[1], "rb") : NULL;
    if (file == NULL || brake_file_read(file, &sheet, &error) != BRAKE_OK ||
        brake_sheet_complete(&sheet, &error) != BRAKE_OK)
        return fail("FILE VALUES THREADS OUT OUTPUT...");
    for (int i = 0; i < AXES; i++) {
        const double step = (axes[i].high - axes[i].low) / (atof(words[2]) - 1.0);
        (void)brake_axis_steps(axes[i].low, axes[i].high, step, &axis[i]);
        axis[i].index = brake_catalogue_find(&sheet.vehicle, axes[i].path);
        axis[i].unit = brake_unit_find(axes[i].unit);
    }
    for (int i = 0; i < outputs; i++) {
        if (brake_output_find(words[WORDS + i], &output[i]) != BRAKE_OK)
            return fail(words[WORDS + i]);
    }
    const struct brake_sweep sweep = {&sheet, axis, AXES, output, outputs, false};
    if (brake_sweep_begin(&sweep, &sweeper, &error) != BRAKE_OK)
        return fail(error.text);
    const size_t room = brake_sweep_room(&sweeper);
    double *shared = room > 0 ? malloc(room * sizeof *shared) : NULL;
    const size_t cases = (size_t)brake_sweep_count(&sweep);
    const size_t values = cases * (size_t)outputs;
    double *value = calloc(values, sizeof *value);
    double least = BRAKE_INFINITY;
    for (int i = 0; i < RUNS; i++) {
        const double start = now();
        if (shared != NULL)
            brake_sweep_share(&sweeper, shared);
        (void)brake_sweep_values(&sweeper, atoi(words[3]), NULL, value);
        least = fmin(least, now() - start);
    }
    printf("%.6f %zu\n", least, cases);
    FILE *out = fopen(words[4], "wb");
    if (out == NULL || fwrite(value, sizeof *value, values, out) != values)
        return fail("the outputs cannot be written");
    fclose(out);
    free(value);
    free(shared);
    return 0;
}
