/* SPDX-License-Identifier: MIT */
#include "brake/output.h"

#include <stdio.h>
#include <string.h>

#include "vehicle/sections.h"
#include "vehicle/text.h"
#include "vehicle/groups.h"
#include "model/braking_lanes.h"
#include "procedure.h"
#include "asked.h"
#include "criteria/judge.h"

int brake_output_count(void)
{
    return brake_result_count() + brake_criterion_count();
}

struct brake_output brake_output_at(int number)
{
    const int results = brake_result_count();
    const bool criterion = number >= results;
    return (struct brake_output){criterion, criterion ? number - results : number};
}

enum brake_status brake_output_find(const char *name, struct brake_output *output)
{
    const int result = brake_result_find(name);
    *output = (struct brake_output){false, result < brake_result_count() ? result : -1};
    for (int i = 0; i < brake_criterion_count() && output->index < 0; i++) {
        if (strcmp(brake_criterion_at(i)->id, name) == 0)
            *output = (struct brake_output){true, i};
    }
    return output->index >= 0 ? BRAKE_OK : BRAKE_E_UNKNOWN;
}

enum brake_status brake_output_nearest(const char *name, struct brake_output *output)
{
    struct brake_nearest nearest = brake_nearest_to(name);
    *output = (struct brake_output){false, -1};
    for (int i = 0; i < brake_output_count(); i++) {
        char known[80];
        brake_output_name(brake_output_at(i), known, sizeof known);
        if (brake_nearest_is(&nearest, known))
            *output = brake_output_at(i);
    }
    return output->index >= 0 ? BRAKE_OK : BRAKE_E_UNKNOWN;
}

void brake_output_name(struct brake_output output, char *name, size_t size)
{
    if (output.criterion)
        brake_text_format(name, size, "%s", brake_criterion_at(output.index)->id);
    else
        brake_result_path(output.index, name, size);
}

enum brake_dimension brake_output_dimension(struct brake_output output)
{
    return output.criterion ? BRAKE_RATIO : brake_result_at(output.index)->dimension;
}

/* ---- values ---------------------------------------------------------------------------------- */

bool brake_output_faded(struct brake_output output)
{
    return output.criterion ? brake_measure_hot(brake_criterion_at(output.index)->measure)
                            : brake_result_faded(output.index);
}

/* Only what applies is worth a run. */
static bool applies(const struct brake_vehicle *vehicle, struct brake_output output)
{
    struct brake_judgement judgement;
    if (!output.criterion)
        return true;
    brake_judge(brake_criterion_at(output.index), vehicle, &judgement);
    return judgement.scope != BRAKE_OUTSIDE;
}

/* Results, and the margins of the criteria that are asked for. */
static void fill_closed(const struct brake_vehicle *vehicle, const struct brake_results *results,
                        const struct brake_output *output, int count, double *value)
{
    struct brake_judgement judgement[BRAKE_OUTPUTS];
    int criterion[BRAKE_OUTPUTS];
    int criteria = 0;
    for (int i = 0; i < count; i++) {
        if (output[i].criterion)
            criterion[criteria++] = output[i].index;
        else
            value[i] = brake_result_value(results, output[i].index);
    }
    if (criteria > 0)
        brake_judge_some(criterion, criteria, vehicle, judgement);
    criteria = 0;
    for (int i = 0; i < count; i++) {
        if (output[i].criterion)
            value[i] = judgement[criteria++].margin;
    }
}

/* ---- fade procedures, several vehicles side by side ------------------------------------------ */

struct asking {
    const struct brake_output *output;
    int count;
    enum brake_fade_kind kind;                  /* the present one */
    const struct brake_vehicle *const *vehicle; /* all cases */
    struct brake_results *results;              /* of each */
    size_t stride;
    double *value;
    int of[BRAKE_TOGETHER]; /* case of each procedure that is run */
};

static bool is_asked(const struct asking *asking, const struct brake_vehicle *vehicle, int output)
{
    const struct brake_output one = asking->output[output];
    const enum brake_fade_kind kind =
        one.criterion ? brake_criterion_at(one.index)->fade : brake_fade_own(vehicle);
    return brake_output_faded(one) && kind == asking->kind && applies(vehicle, one);
}

/* Parts of the procedure that anything comes of. */
static unsigned parts_asked(const struct asking *asking, const struct brake_vehicle *vehicle)
{
    unsigned parts = 0;
    for (int i = 0; i < asking->count; i++) {
        const struct brake_output one = asking->output[i];
        if (is_asked(asking, vehicle, i))
            parts |= one.criterion ? brake_fade_part_of(brake_criterion_at(one.index))
                                   : BRAKE_FADE_STOPS | BRAKE_FADE_PARKED;
    }
    return parts;
}

static double faded_value(const struct brake_vehicle *vehicle, const struct brake_fade *fade,
                          const struct brake_results *results, struct brake_output output)
{
    struct brake_judgement judgement;
    if (!output.criterion)
        return brake_result_value(results, output.index);
    brake_judge_hot(brake_criterion_at(output.index), vehicle, &fade->figures, &judgement);
    return judgement.margin;
}

static void take_values(void *context, int number, const struct brake_fade *fade)
{
    const struct asking *asking = context;
    const int of = asking->of[number];
    const struct brake_vehicle *vehicle = asking->vehicle[of];
    double *value = asking->value + (size_t)of * asking->stride;
    brake_fade_results(fade, &asking->results[of].common);
    for (int i = 0; i < asking->count; i++) {
        if (is_asked(asking, vehicle, i))
            value[i] = faded_value(vehicle, fade, &asking->results[of], asking->output[i]);
    }
}

/* A procedure is run where anything comes of it. */
static void fill_faded(struct asking *asking, int cases)
{
    const struct brake_vehicle *asked[BRAKE_TOGETHER];
    unsigned parts = 0;
    int number = 0;
    for (int i = 0; i < cases; i++) {
        const unsigned of_it = parts_asked(asking, asking->vehicle[i]);
        if (of_it == 0)
            continue;
        parts |= of_it;
        asking->of[number] = i;
        asked[number++] = asking->vehicle[i];
    }
    const struct brake_fades fades = {asked, number,      asking->kind, parts,
                                      false, take_values, asking};
    if (number > 0)
        brake_fade_run_all(&fades);
}

void brake_outputs_all(const struct brake_vehicle *const *vehicle, int cases,
                       const struct brake_output *output, int count, size_t stride, double *value)
{
    struct brake_results results[BRAKE_TOGETHER];
    struct asking asking = {output, count, BRAKE_FADE_CAR, vehicle, results, stride, value, {0}};
    unsigned long long groups = 0;
    bool faded = false;
    for (int i = 0; i < count; i++) {
        groups |= output[i].criterion ? 0 : brake_result_group(output[i].index);
        faded = faded || brake_output_faded(output[i]);
    }
    for (int i = 0; i < cases; i++) {
        brake_evaluate_groups(vehicle[i], groups, &results[i]);
        fill_closed(vehicle[i], &results[i], output, count, value + (size_t)i * stride);
    }
    for (int kind = 0; kind < BRAKE_FADES && faded; kind++) {
        asking.kind = (enum brake_fade_kind)kind;
        fill_faded(&asking, cases);
    }
}

void brake_outputs(const struct brake_vehicle *vehicle, const struct brake_output *output,
                   int count, double *value)
{
    brake_outputs_all(&vehicle, 1, output, count, (size_t)count, value);
}
