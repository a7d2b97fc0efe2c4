#include "sample.h"

#include "brake/constants.h"
#include "procedure.h"
#include "criteria/judge.h"

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

/* Lock order turns on front against rear, so it is judged where their friction parts. */
static void judge_parted(const struct brake_inputs *inputs, unsigned rules, const double *share,
                         double margin[BRAKE_CRITERIA])
{
    struct brake_vehicle vehicle;
    struct brake_judgement judgement[BRAKE_CRITERIA];
    int criterion[BRAKE_CRITERIA];
    int count = 0;
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_criterion *c = brake_criterion_at(i);
        if (brake_criterion_in(c, rules) && brake_measure_opposed(c->measure))
            criterion[count++] = i;
    }
    brake_inputs_parted(inputs, share, &vehicle);
    brake_judge_some(criterion, count, &vehicle, judgement);
    for (int i = 0; i < count; i++) {
        if (judgement[i].applies)
            margin[criterion[i]] = judgement[i].margin;
    }
}

void sample_margins(const struct brake_inputs *inputs, unsigned rules, const double *share,
                    double margin[BRAKE_CRITERIA])
{
    struct brake_vehicle vehicle;
    struct brake_judgement judgement[BRAKE_CRITERIA];
    brake_inputs_vehicle(inputs, share, &vehicle);
    brake_judge_all(rules, &vehicle, judgement);
    for (int i = 0; i < brake_criterion_count(); i++)
        margin[i] = judgement[i].applies || !brake_criterion_in(brake_criterion_at(i), rules)
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
        if (!brake_criterion_in(c, rules) || !brake_measure_hot(c->measure) || c->fade != kind)
            continue;
        brake_judge(c, vehicle, &judgement);
        if (judgement.applies && !run) {
            brake_fade_figures(vehicle, kind, &figures);
            run = true;
        }
        margin[i] = BRAKE_INFINITY;
        if (judgement.applies) {
            brake_judge_hot(c, vehicle, &figures, &judgement);
            margin[i] = judgement.margin;
        }
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
