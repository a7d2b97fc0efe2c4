#include "sample.h"

#include "brake/constants.h"
#include "procedure.h"
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

/* Margins of the criteria of one procedure; it is run when there are any. */
static void judge_hot(const struct brake_vehicle *vehicle, enum brake_fade_kind kind,
                      unsigned rules, double margin[BRAKE_CRITERIA])
{
    struct brake_hot_figures figures;
    struct brake_judgement judgement;
    bool run = false;
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_criterion *c = brake_criterion_at(i);
        if (!brake_measure_hot(c->measure) || c->fade != kind)
            continue;
        margin[i] = BRAKE_INFINITY;
        if (!applies(i, vehicle, rules))
            continue;
        if (!run)
            brake_fade_figures(vehicle, kind, &figures);
        run = true;
        brake_judge_hot(c, vehicle, &figures, &judgement);
        margin[i] = judgement.margin;
    }
}

void sample_hot_margins(const struct brake_inputs *inputs, unsigned rules, const double *share,
                        double margin[BRAKE_CRITERIA])
{
    struct brake_vehicle vehicle;
    brake_inputs_vehicle(inputs, share, &vehicle);
    for (int kind = 0; kind < BRAKE_FADES; kind++)
        judge_hot(&vehicle, (enum brake_fade_kind)kind, rules, margin);
    put_model_errors(inputs, share, true, margin);
}
