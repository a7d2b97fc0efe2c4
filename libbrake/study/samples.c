/* SPDX-License-Identifier: MIT */
/* Samples as numbers: each is worked out into its own place, so that threads leave no trace. */
#include "brake/samples.h"

#include <stdlib.h>

#include "asked.h"
#include "brake/spread.h"
#include "criteria/judge.h"
#include "inputs.h"
#include "replicates.h"
#include "sample.h"
#include "watching.h"

enum { BLOCK = 256 /* samples at a time; it divides their number */ };

struct brake_samples {
    const struct brake_samples_options *options;
    struct brake_inputs inputs;
    bool margins, hot; /* asked for */
};

static void list_outputs(struct brake_samples *s)
{
    for (int i = 0; i < s->options->outputs; i++) {
        const struct brake_output output = s->options->output[i];
        s->margins = s->margins || output.criterion;
        s->hot = s->hot || (output.criterion && brake_output_faded(output));
    }
}

struct brake_samples *brake_samples_new(const struct brake_sheet *sheet,
                                        const struct brake_samples_options *options,
                                        enum brake_status *status)
{
    struct brake_samples *s = NULL;
    *status = BRAKE_OK;
    if (brake_spread_wrong(options->samples) != NULL)
        *status = BRAKE_E_RANGE;
    else if (options->outputs < 0 || options->outputs > BRAKE_OUTPUTS)
        *status = BRAKE_E_SIZE;
    else if ((s = calloc(1, sizeof *s)) == NULL)
        *status = BRAKE_E_MEMORY;
    if (*status != BRAKE_OK)
        return NULL;
    s->options = options;
    list_outputs(s);
    brake_inputs_list(sheet, options->shape, &s->inputs);
    if (brake_inputs_count(&s->inputs) <= BRAKE_MODEL_INPUTS)
        return s;
    *status = BRAKE_E_SIZE;
    free(s);
    return NULL;
}

int brake_samples_lines(const struct brake_samples *samples)
{
    return samples->inputs.count;
}

int brake_samples_line(const struct brake_samples *samples, int number)
{
    return samples->inputs.input[number].index;
}

/* ---- one sample ------------------------------------------------------------------------------ */

static void keep_outputs(const struct brake_samples *s, const double *share, const double *margin,
                         double *value)
{
    const struct brake_samples_options *o = s->options;
    struct brake_vehicle vehicle;
    struct brake_output result[BRAKE_OUTPUTS];
    double found[BRAKE_OUTPUTS];
    int results = 0;
    for (int i = 0; i < o->outputs; i++) {
        if (!o->output[i].criterion)
            result[results++] = o->output[i];
    }
    brake_inputs_vehicle(&s->inputs, share, &vehicle);
    brake_outputs(&vehicle, result, results, found);
    results = 0;
    for (int i = 0; i < o->outputs; i++)
        value[i] = o->output[i].criterion ? margin[o->output[i].index] : found[results++];
}

static void keep_samples(const struct brake_samples *s, const struct brake_sobol *sobol, long first,
                         double *line, double *output)
{
    const struct brake_samples_options *o = s->options;
    const struct sample_draw asked = {&s->inputs,
                                      sobol,
                                      o->samples / BRAKE_REPLICATES,
                                      o->rules,
                                      s->margins && output != NULL,
                                      s->hot && output != NULL};
    struct sample_few few;
    sample_draw_few(&asked, first, &few);
    for (int i = 0; i < BRAKE_TOGETHER; i++) {
        if (line != NULL)
            brake_inputs_values(&s->inputs, few.share[i], line + (first + i) * s->inputs.count);
        if (output != NULL)
            keep_outputs(s, few.share[i], few.margin[i], output + (first + i) * o->outputs);
    }
}

/* ---- all samples ----------------------------------------------------------------------------- */

bool brake_samples_draw(const struct brake_samples *samples, const struct brake_watch *watch,
                        double *line, double *output)
{
    const struct brake_samples_options *o = samples->options;
    struct brake_sobol sobol[BRAKE_REPLICATES];
    replicates_scramble(brake_inputs_count(&samples->inputs),
                        UINT64_C(2) * BRAKE_REPLICATES * o->seed, sobol);
    for (long first = 0; first < o->samples; first += BLOCK) {
        if (watch_stops(watch))
            return false;
#pragma omp parallel for schedule(dynamic)
        for (long i = first; i < first + BLOCK; i += BRAKE_TOGETHER)
            keep_samples(samples, sobol, i, line, output);
        watch_tell(watch, (double)(first + BLOCK), (double)o->samples);
    }
    return true;
}

void brake_samples_free(struct brake_samples *samples)
{
    free(samples);
}
