/* SPDX-License-Identifier: MIT */
/* Prints what the study by samples works with, for NumPy and SciPy to be held against, as raw
 * doubles.
 *
 * usage: driver sobol DIMENSIONS FIRST COUNT [SEED]   points; scrambled when there is a seed
 *        driver quantile                              normal values of the shares on standard input
 *        driver shape SHAPE MIDDLE TOLERANCE LEAN LOW HIGH   the same of an uncertain number
 *        driver values FILE COUNT SEED                one row a sample: the toleranced numbers
 *        driver spread FILE SAMPLES                   one row an output: values, percentiles */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "brake/brake.h"
#include "study/drawn.h"
#include "study/distribution.h"
#include "study/sobol.h"
#include "study/tolerance.h"

static void put(const double *value, size_t count)
{
    if (fwrite(value, sizeof *value, count, stdout) != count)
        exit(EXIT_FAILURE);
}

static void read_sheet(const char *path, struct brake_sheet *sheet)
{
    struct brake_error error;
    FILE *stream = fopen(path, "rb");
    if (stream == NULL || brake_file_read(stream, sheet, &error) != BRAKE_OK ||
        brake_sheet_complete(sheet, &error) != BRAKE_OK)
        exit(EXIT_FAILURE);
    fclose(stream);
}

static void sobol(char **words, int count)
{
    static struct brake_sobol sequence;
    double point[BRAKE_SOBOL_DIMENSIONS];
    const int dimensions = atoi(words[0]);
    const long first = atol(words[1]);
    const long points = atol(words[2]);
    if (count > 3)
        brake_sobol_scrambled(dimensions, strtoull(words[3], NULL, 10), &sequence);
    else
        brake_sobol_plain(dimensions, &sequence);
    for (long i = 0; i < points; i++) {
        brake_sobol_point(&sequence, (uint32_t)(first + i), point);
        put(point, (size_t)dimensions);
    }
}

static void quantile(void)
{
    double share;
    while (fread(&share, sizeof share, 1, stdin) == 1) {
        const double value = brake_normal_value(share);
        put(&value, 1);
    }
}

static void shape(char **words)
{
    const struct brake_distribution distribution =
        brake_distribution_of((enum brake_shape)atoi(words[0]), atof(words[1]), atof(words[2]),
                              atof(words[3]), atof(words[4]), atof(words[5]));
    double share;
    while (fread(&share, sizeof share, 1, stdin) == 1) {
        const double value = brake_distribution_value(&distribution, share);
        put(&value, 1);
    }
}

static void values(char **words)
{
    static struct brake_sheet sheet;
    static struct brake_inputs inputs;
    static struct brake_sobol sequence;
    double share[BRAKE_INPUTS];
    double value[BRAKE_INPUTS];
    const long count = atol(words[1]);
    read_sheet(words[0], &sheet);
    brake_inputs_list(&sheet, NULL, &inputs);
    brake_sobol_scrambled(brake_inputs_count(&inputs), strtoull(words[2], NULL, 10), &sequence);
    for (long i = 0; i < count; i++) {
        brake_sobol_middle(&sequence, (uint32_t)i, share);
        brake_inputs_values(&inputs, share, value);
        put(value, (size_t)inputs.count);
    }
}

static void spread(char **words)
{
    static struct brake_sheet sheet;
    static struct brake_spread result;
    static struct brake_spread_options options = {.rules = BRAKE_RULES_ALL, .seed = 1};
    options.samples = atol(words[1]);
    read_sheet(words[0], &sheet);
    if (brake_spread_prepare(&sheet, &options, &result) != BRAKE_OK)
        exit(EXIT_FAILURE);
    void *room = malloc(brake_spread_room(&result));
    if (room == NULL || !brake_spread_run(&result, room, NULL))
        exit(EXIT_FAILURE);
    for (int i = 0; i < result.criteria + result.results; i++) {
        put(result.value + i * result.samples, (size_t)result.samples);
        put(result.output[i].percentile, BRAKE_PERCENTILES);
    }
    free(room);
}

int main(int count, char **words)
{
    const char *what = count > 1 ? words[1] : "";
    if (strcmp(what, "sobol") == 0 && count >= 5)
        sobol(words + 2, count - 2);
    else if (strcmp(what, "quantile") == 0)
        quantile();
    else if (strcmp(what, "shape") == 0 && count == 8)
        shape(words + 2);
    else if (strcmp(what, "values") == 0 && count == 5)
        values(words + 2);
    else if (strcmp(what, "spread") == 0 && count == 4)
        spread(words + 2);
    else
        return EXIT_FAILURE;
    return 0;
}
