/* SPDX-License-Identifier: MIT */
#include "sample.h"

#include <stdlib.h>

#include "brake/constants.h"
#include "procedure.h"
#include "replicates.h"
#include "criteria/judge.h"
#include "criteria/scope.h"

static void put_model_errors(const struct brake_inputs *inputs, const double *share, bool hot,
                             double margin[BRAKE_CRITERIA])
{
    double factor[BRAKE_MODEL_ERRORS];
    brake_inputs_model(inputs, share, factor);
    for (int i = 0; i < brake_criterion_count(); i++) {
        const enum brake_measure measure = brake_criterion_at(i)->measure;
        if (brake_measure_hot(measure) == hot)
            margin[i] =
                brake_measure_margin_off(measure, margin[i], factor[brake_measure_error(measure)]);
    }
}

static bool applies(int criterion, const struct brake_vehicle *vehicle, unsigned rules)
{
    const char *why;
    return brake_criterion_scope(brake_criterion_at(criterion), vehicle, rules, &why) !=
           BRAKE_OUTSIDE;
}

/* Lock order turns on front against rear, so it is judged where their friction parts. */
static void judge_parted(const struct brake_inputs *inputs, unsigned rules, const double *share,
                         double margin[BRAKE_CRITERIA])
{
    struct brake_vehicle vehicle;
    struct brake_judgement judgement[BRAKE_CRITERIA];
    int criterion[BRAKE_CRITERIA];
    int count = 0;
    brake_inputs_parted(inputs, share, &vehicle);
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (brake_measure_opposed(brake_criterion_at(i)->measure) && applies(i, &vehicle, rules))
            criterion[count++] = i;
    }
    brake_judge_some(criterion, count, &vehicle, judgement);
    for (int i = 0; i < count; i++)
        margin[criterion[i]] = judgement[i].margin;
}

void sample_margins(const struct brake_inputs *inputs, unsigned rules, const double *share,
                    double margin[BRAKE_CRITERIA])
{
    struct brake_vehicle vehicle;
    struct brake_judgement judgement[BRAKE_CRITERIA];
    brake_inputs_vehicle(inputs, share, &vehicle);
    brake_judge_all(rules, &vehicle, judgement);
    for (int i = 0; i < brake_criterion_count(); i++)
        margin[i] =
            judgement[i].scope != BRAKE_OUTSIDE || !brake_criterion_in(brake_criterion_at(i), rules)
                ? judgement[i].margin
                : BRAKE_INFINITY;
    judge_parted(inputs, rules, share, margin);
    put_model_errors(inputs, share, false, margin);
}

/* ---- hot performance ------------------------------------------------------------------------- */

/* Parts of a procedure that the vehicle is judged by. */
static unsigned parts_asked(const struct brake_vehicle *vehicle, enum brake_fade_kind kind,
                            unsigned rules)
{
    unsigned parts = 0;
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_criterion *c = brake_criterion_at(i);
        if (brake_measure_hot(c->measure) && c->fade == kind && applies(i, vehicle, rules))
            parts |= brake_fade_part_of(c);
    }
    return parts;
}

/* Margins of the criteria of a procedure; where none applies there are no figures. */
static void judge_hot(const struct brake_vehicle *vehicle, enum brake_fade_kind kind,
                      unsigned rules, const struct brake_hot_figures *figures,
                      double margin[BRAKE_CRITERIA])
{
    struct brake_judgement judgement;
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_criterion *c = brake_criterion_at(i);
        if (!brake_measure_hot(c->measure) || c->fade != kind)
            continue;
        margin[i] = BRAKE_INFINITY;
        if (!applies(i, vehicle, rules))
            continue;
        brake_judge_hot(c, vehicle, figures, &judgement);
        margin[i] = judgement.margin;
    }
}

static void take_figures(void *context, int number, const struct brake_fade *fade)
{
    struct brake_hot_figures *figures = context;
    figures[number] = fade->figures;
}

/* The procedure is run, side by side, on those vehicles that are judged by it. */
static void judge_by(enum brake_fade_kind kind, unsigned rules, const struct brake_vehicle *vehicle,
                     int count, struct sample_hot *sample)
{
    const struct brake_vehicle *asked[BRAKE_TOGETHER];
    struct brake_hot_figures figures[BRAKE_TOGETHER];
    unsigned parts_of[BRAKE_TOGETHER];
    unsigned parts = 0;
    int number = 0;
    for (int i = 0; i < count; i++) {
        parts_of[i] = parts_asked(&vehicle[i], kind, rules);
        parts |= parts_of[i];
        if (parts_of[i] != 0)
            asked[number++] = &vehicle[i];
    }
    const struct brake_fades fades = {asked, number, kind, parts, true, take_figures, figures};
    if (number > 0)
        brake_fade_run_all(&fades);
    number = 0;
    for (int i = 0; i < count; i++) {
        judge_hot(&vehicle[i], kind, rules, &figures[number], sample[i].margin);
        if (parts_of[i] != 0)
            number++;
    }
}

static void judge_drawn(const struct brake_inputs *inputs, unsigned rules,
                        struct brake_vehicle *vehicle, int count, struct sample_hot *sample)
{
    for (int i = 0; i < count; i++)
        brake_inputs_vehicle(inputs, sample[i].share, &vehicle[i]);
    for (int kind = 0; kind < BRAKE_FADES; kind++)
        judge_by((enum brake_fade_kind)kind, rules, vehicle, count, sample);
    for (int i = 0; i < count; i++)
        put_model_errors(inputs, sample[i].share, true, sample[i].margin);
}

/* Without memory: the same one by one. */
__attribute__((noinline)) static void judge_one_by_one(const struct brake_inputs *inputs,
                                                       unsigned rules, struct sample_hot *sample,
                                                       int count)
{
    struct brake_vehicle vehicle;
    for (int i = 0; i < count; i++)
        judge_drawn(inputs, rules, &vehicle, 1, &sample[i]);
}

void sample_hot_margins(const struct brake_inputs *inputs, unsigned rules,
                        struct sample_hot *sample, int count)
{
    struct brake_vehicle *vehicle = calloc((size_t)count, sizeof *vehicle);
    if (vehicle != NULL)
        judge_drawn(inputs, rules, vehicle, count, sample);
    else
        judge_one_by_one(inputs, rules, sample, count);
    free(vehicle);
}

/* ---- a few samples --------------------------------------------------------------------------- */

void sample_draw_few(const struct sample_draw *draw, long first, struct sample_few *few)
{
    struct sample_hot sample[BRAKE_TOGETHER];
    for (int i = 0; i < BRAKE_TOGETHER; i++) {
        replicates_shares(draw->sobol, draw->each, first + i, few->share[i]);
        if (draw->margins)
            sample_margins(draw->inputs, draw->rules, few->share[i], few->margin[i]);
        sample[i] = (struct sample_hot){few->share[i], few->margin[i]};
    }
    if (draw->hot)
        sample_hot_margins(draw->inputs, draw->rules, sample, BRAKE_TOGETHER);
}
