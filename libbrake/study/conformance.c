/* SPDX-License-Identifier: MIT */
#include "brake/conformance.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "criteria/judge.h"
#include "criteria/scope.h"
#include "distribution.h"
#include "percentile.h"
#include "sample.h"
#include "conformance.h"
#include "measuring.h"
#include "vehicle/recalculation.h"
#include "vehicle/system.h"
#include "known.h"
#include "watching.h"

static const double MEETS = 0.95;
static const double EVEN = 0.50;
static const double BY_DEFAULTS = 0.25; /* of the scatter: from here on a word rests on them */

enum { HOT_BLOCK = 4 * BRAKE_TOGETHER, PLACES_OF_LINE = 9 };

struct drawing {
    const struct brake_conformance_options *options;
    struct brake_conformance_room *room;
    const struct brake_judgement *judgement;
    struct brake_conformances *conformance;
};

/* ---- words ---------------------------------------------------------------------------------- */

void brake_conformance_interval(long met, long samples, double *low, double *high)
{
    const double z = 2.5758293035489004; /* 99 of 100 of a normal distribution */
    const double n = (double)samples;
    const double share = (double)met / n;
    const double middle = share + z * z / (2.0 * n);
    const double half = z * sqrt(share * (1.0 - share) / n + z * z / (4.0 * n * n));
    /* Of none and of all the share is an end itself, which rounding would pass by. */
    *low = fmax(0.0, fmin(share, (middle - half) / (1.0 + z * z / n)));
    *high = fmin(1.0, fmax(share, (middle + half) / (1.0 + z * z / n)));
}

enum brake_verdict brake_conformance_word(double low)
{
    if (low >= MEETS)
        return BRAKE_MEETS;
    return low >= EVEN ? BRAKE_CANNOT_SAY : BRAKE_FALLS_SHORT;
}

bool brake_conformance_open(double low, double high)
{
    return (low < MEETS && high >= MEETS) || (low < EVEN && high >= EVEN);
}

double brake_conformance_step(int number)
{
    static const double step[BRAKE_MARGIN_STEPS] = {0.05, 0.10, 0.25, 0.50, 0.75, 0.90, 0.95};
    return step[number];
}

/* ---- drawing -------------------------------------------------------------------------------- */

static bool is_hot(int criterion)
{
    return brake_measure_hot(brake_criterion_at(criterion)->measure);
}

static bool is_drawn(const struct drawing *d, int criterion)
{
    return !isnan(d->judgement[criterion].margin);
}

static void count(const struct drawing *d, bool hot, const double margin[BRAKE_CRITERIA],
                  long sample)
{
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (is_hot(i) != hot || !is_drawn(d, i))
            continue;
        d->room->met[i] += margin[i] >= 0.0 ? 1 : 0;
        d->room->failed[i] += isnan(margin[i]) ? 1 : 0;
        d->conformance->of[i].samples = sample + 1;
        if (sample < BRAKE_SAMPLES_KEPT)
            d->room->margin[sample][i] = margin[i];
    }
}

static void draw_cold(const struct drawing *d, long first, long count)
{
    double(*margin)[BRAKE_CRITERIA] = d->room->block;
#pragma omp parallel for schedule(dynamic, 16)
    for (long i = 0; i < count; i++) {
        double share[BRAKE_INPUTS];
        brake_sobol_middle(&d->room->sobol, (uint32_t)(first + i), share);
        sample_margins(&d->room->inputs, d->options->rules, share, margin[i]);
    }
}

/* Those of a group are judged side by side. */
static void draw_hot(const struct drawing *d, long first, long count)
{
    double(*margin)[BRAKE_CRITERIA] = d->room->block;
#pragma omp parallel for schedule(dynamic, 1)
    for (long group = 0; group < count; group += BRAKE_TOGETHER) {
        double share[BRAKE_TOGETHER][BRAKE_INPUTS];
        struct sample_hot sample[BRAKE_TOGETHER];
        for (long i = 0; i < BRAKE_TOGETHER; i++) {
            brake_sobol_middle(&d->room->sobol, (uint32_t)(first + group + i), share[i]);
            sample[i] = (struct sample_hot){share[i], margin[group + i]};
        }
        sample_hot_margins(&d->room->inputs, d->options->rules, sample, BRAKE_TOGETHER);
    }
}

/* Each sample into its own place, counted in their order: the threads leave no trace. */
static bool draw(const struct drawing *d, bool hot, long from, long to)
{
    const long block = hot ? HOT_BLOCK : BRAKE_SAMPLES_LEAST;
    for (long first = from; first < to; first += block) {
        if (watch_stops(d->options->watch))
            return false;
        if (hot)
            draw_hot(d, first, block);
        else
            draw_cold(d, first, block);
        for (long i = 0; i < block; i++)
            count(d, hot, d->room->block[i], first + i);
        if (hot)
            watch_tell(d->options->watch, (double)(first + block), (double)to);
    }
    return true;
}

static bool any_open(const struct drawing *d)
{
    for (int i = 0; i < brake_criterion_count(); i++) {
        const long samples = d->conformance->of[i].samples;
        double low;
        double high;
        if (samples == 0) /* hot ones are drawn later */
            continue;
        brake_conformance_interval(d->room->met[i], samples, &low, &high);
        if (brake_conformance_open(low, high))
            return true;
    }
    return false;
}

static bool draw_all(const struct drawing *d)
{
    bool hot = false;
    const bool driven = d->room->inputs.learned.count > 0;
    long samples = driven ? BRAKE_SAMPLES_KEPT : BRAKE_SAMPLES_LEAST;
    if (!draw(d, false, 0, samples))
        return false;
    while (any_open(d) && samples < BRAKE_SAMPLES_MOST) {
        if (!draw(d, false, samples, 2 * samples))
            return false;
        samples *= 2;
    }
    d->conformance->samples = samples;
    for (int i = 0; i < brake_criterion_count() && d->options->faded; i++)
        hot = hot || (is_hot(i) && is_drawn(d, i));
    return !hot || draw(d, true, 0, BRAKE_SAMPLES_HOT);
}

/* ---- what moves a margin -------------------------------------------------------------------- */

static long kept_of(const struct drawing *d, int criterion)
{
    const long samples = d->conformance->of[criterion].samples;
    return samples < BRAKE_SAMPLES_KEPT ? samples : BRAKE_SAMPLES_KEPT;
}

/* What cannot be worked out counts as the worst. */
static double margin_at(const struct drawing *d, long sample, int criterion)
{
    const double margin = d->room->margin[sample][criterion];
    return isnan(margin) ? -BRAKE_INFINITY : margin;
}

/* The margins kept of a criterion are put in place by their ranks, as normal scores: so one that is
 * without limit, or has no stop, counts too. */
static void put_ranks(const struct drawing *d, int criterion)
{
    const long kept = kept_of(d, criterion);
    struct brake_conformance *s = &d->conformance->of[criterion];
    double *own = d->room->own;
    for (long i = 0; i < kept; i++)
        own[i] = margin_at(d, i, criterion);
    percentile_sort(own, kept);
    for (int i = 0; i < BRAKE_MARGIN_STEPS; i++)
        s->margin[i] = percentile_at(own, kept, brake_conformance_step(i));
    for (long i = 0; i < kept; i++) {
        const double margin = margin_at(d, i, criterion);
        long below = 0;
        long equal = 0;
        for (long step = BRAKE_SAMPLES_KEPT; step > 0; step /= 2) {
            if (below + step <= kept && own[below + step - 1] < margin)
                below += step;
        }
        while (below + equal < kept && own[below + equal] == margin)
            equal++;
        d->room->margin[i][criterion] =
            brake_normal_value(((double)below + 0.5 * (double)equal) / (double)kept);
    }
}

/* Of a number its normal score, of a choice which of its two words it is, in deviations. */
static double score_of(const struct brake_inputs *inputs, int number, double share)
{
    if (number >= inputs->count || !inputs->input[number].choice)
        return brake_normal_value(share);
    const double odds = brake_quantity_at(inputs->input[number].index)->odds;
    return share < odds ? sqrt((1.0 - odds) / odds) : -sqrt(odds / (1.0 - odds));
}

static void add_products(const struct drawing *d)
{
    const int inputs = brake_inputs_count(&d->room->inputs);
    double share[BRAKE_INPUTS];
    double score[BRAKE_INPUTS];
    memset(d->room->product, 0, sizeof d->room->product);
    for (long sample = 0; sample < BRAKE_SAMPLES_KEPT; sample++) {
        brake_sobol_middle(&d->room->sobol, (uint32_t)sample, share);
        for (int k = 0; k < inputs; k++)
            score[k] = score_of(&d->room->inputs, k, share[k]);
        for (int i = 0; i < brake_criterion_count(); i++) {
            for (int k = 0; k < inputs && sample < kept_of(d, i); k++)
                d->room->product[i][k] += d->room->margin[sample][i] * score[k];
        }
    }
}

/* From products to correlations, less what sampling alone would give. */
static void put_correlations(const struct drawing *d)
{
    const int inputs = brake_inputs_count(&d->room->inputs);
    for (int i = 0; i < brake_criterion_count(); i++) {
        const double kept = (double)kept_of(d, i);
        for (int k = 0; k < inputs && kept > 0.0; k++) {
            const double correlation = d->room->product[i][k] / kept;
            const double share = fmax(0.0, correlation * correlation - 4.0 / kept);
            d->room->product[i][k] = copysign(sqrt(share), correlation);
        }
    }
}

/* Share of the scatter of a margin that an input carries. */
static double carried(const struct drawing *d, int criterion, int input)
{
    return d->room->product[criterion][input] * d->room->product[criterion][input];
}

/* Of a number: what it carries by itself and with the others that share its cause. */
static double carried_by(const struct drawing *d, int criterion, int number)
{
    const struct brake_inputs *inputs = &d->room->inputs;
    const int cause = inputs->input[number].cause;
    return carried(d, criterion, number) +
           (cause >= 0 ? carried(d, criterion, inputs->count + cause) : 0.0);
}

static void find_leading(const struct drawing *d, int criterion)
{
    const struct brake_inputs *inputs = &d->room->inputs;
    struct brake_conformance *s = &d->conformance->of[criterion];
    double most[2] = {0.0, 0.0};
    int leading[2] = {-1, -1};
    for (int k = 0; k < inputs->count + inputs->causes; k++) {
        if (brake_inputs_from(inputs, k) == BRAKE_DEFAULT)
            s->by_defaults += carried(d, criterion, k);
    }
    for (int k = 0; k < inputs->count; k++) {
        const int index = inputs->input[k].index;
        const int measured = inputs->sheet->record[index].from == BRAKE_MEASURED;
        const double share = carried_by(d, criterion, k);
        if (share > most[measured]) {
            most[measured] = share;
            leading[measured] = index;
        }
    }
    s->leading = leading[leading[0] < 0];
    s->share = most[leading[0] < 0];
}

/* Whether lines left out decide the word: what they carry of the scatter reaches from the middle of
 * the margin past 0. The middle and the scatter are taken from the interval of the margin. */
static bool rests_on_defaults(const struct brake_conformance *s, double margin)
{
    const double half =
        margin >= 0.0 ? margin - s->margin[0] : s->margin[BRAKE_MARGIN_STEPS - 1] - margin;
    return fabs(margin) < half * sqrt(fmin(1.0, s->by_defaults));
}

/* ---- from the counts to the words ------------------------------------------------------------ */

static bool any_shoe_locks(const struct brake_vehicle *vehicle)
{
    double factor;
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        if (brake_vehicle_shoe_shaped(vehicle, (enum brake_axle)axle) &&
            brake_vehicle_drum_factor(vehicle, (enum brake_axle)axle, &factor) < BRAKE_OK)
            return true;
    }
    return false;
}

/* Whether the first sample that could not be worked out has no solution because of a shoe. */
static bool lost_to_shoe(const struct drawing *d, int criterion)
{
    struct brake_vehicle vehicle;
    double share[BRAKE_INPUTS];
    for (long sample = 0; sample < kept_of(d, criterion); sample++) {
        if (!isnan(d->room->margin[sample][criterion]))
            continue;
        brake_sobol_middle(&d->room->sobol, (uint32_t)sample, share);
        if (brake_measure_opposed(brake_criterion_at(criterion)->measure))
            brake_inputs_parted(&d->room->inputs, share, &vehicle);
        else
            brake_inputs_vehicle(&d->room->inputs, share, &vehicle);
        return any_shoe_locks(&vehicle);
    }
    return false;
}

static void sum_up(const struct drawing *d, int criterion)
{
    struct brake_conformance *s = &d->conformance->of[criterion];
    s->met = (double)d->room->met[criterion] / (double)s->samples;
    s->failed = d->room->failed[criterion];
    if (s->failed > 0) {
        s->shoe_locks = lost_to_shoe(d, criterion);
        s->failing = s->shoe_locks ? "a shoe locks itself" : "there is no solution";
    }
    brake_conformance_interval(d->room->met[criterion], s->samples, &s->met_low, &s->met_high);
    put_ranks(d, criterion);
}

bool brake_conformance_counts(const struct brake_judgement *judgement,
                              const struct brake_conformance *conformance)
{
    return brake_scope_counts(judgement->scope) && conformance->samples > 0;
}

static bool is_counted(const struct drawing *d, int criterion)
{
    return brake_conformance_counts(&d->judgement[criterion], &d->conformance->of[criterion]);
}

static void count_together(const struct drawing *d)
{
    long samples = BRAKE_SAMPLES_KEPT;
    long met = 0;
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (is_counted(d, i) && d->conformance->of[i].samples < samples)
            samples = d->conformance->of[i].samples;
    }
    for (long sample = 0; sample < samples; sample++) {
        bool all = true;
        for (int i = 0; i < brake_criterion_count(); i++)
            all = all && (!is_counted(d, i) || d->room->margin[sample][i] >= 0.0);
        met += all ? 1 : 0;
    }
    d->conformance->all_met = (double)met / (double)samples;
    d->conformance->all_samples = samples;
}

/* Whether a requirement that lacks one line is missed wherever that may stand. */
static bool missed_anyhow(const struct drawing *d, int criterion)
{
    const char *path = d->judgement[criterion].missing;
    const int index = path != NULL ? brake_catalogue_find(NULL, path) : -1;
    bool missed = false;
    if (index < 0)
        return false;
    const struct brake_quantity *q = brake_quantity_at(index);
    for (int i = 0; i < PLACES_OF_LINE; i++) {
        const double value = q->low + (q->high - q->low) * i / (PLACES_OF_LINE - 1);
        struct brake_vehicle vehicle;
        struct brake_judgement judgement;
        brake_sheet_vary(d->room->inputs.sheet, &d->room->inputs.places, index, value, &vehicle);
        brake_judge(brake_criterion_at(criterion), &vehicle, &judgement);
        if (judgement.scope != BRAKE_OUTSIDE && !(judgement.margin < 0.0))
            return false;
        missed = missed || judgement.scope != BRAKE_OUTSIDE;
    }
    return missed;
}

static void put_word(const struct drawing *d, int criterion, struct brake_judgement *judgement)
{
    struct brake_conformance *s = &d->conformance->of[criterion];
    if (s->samples > 0) {
        find_leading(d, criterion);
        s->rests_on_defaults = rests_on_defaults(s, judgement->margin);
        judgement->verdict = brake_conformance_word(s->met_low);
        if (judgement->verdict == BRAKE_MEETS && known_thin(&d->room->inputs.sheet->known))
            judgement->verdict = BRAKE_CANNOT_SAY;
    } else if (judgement->scope != BRAKE_OUTSIDE && missed_anyhow(d, criterion)) {
        judgement->verdict = BRAKE_FALLS_SHORT;
    }
}

/* ---- what to measure ------------------------------------------------------------------------ */

static struct brake_measuring_row row_of(const struct drawing *d, int criterion,
                                         enum brake_verdict word)
{
    const double met = d->conformance->of[criterion].met;
    const double least = 0.5 / (double)d->conformance->of[criterion].samples;
    return (struct brake_measuring_row){
        .criterion = criterion,
        .threshold = -brake_normal_value(fmax(least, fmin(met, 1.0 - least))),
        .part = d->room->product[criterion],
        .word = word};
}

static void find_measurings(const struct drawing *d, const struct brake_judgement *judgement)
{
    struct brake_measuring_row open[BRAKE_CRITERIA];
    struct brake_measuring_row met[BRAKE_CRITERIA];
    int rows[2] = {0, 0};
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (!is_counted(d, i))
            continue;
        if (judgement[i].verdict != BRAKE_MEETS)
            open[rows[0]++] = row_of(d, i, judgement[i].verdict);
        else if (d->conformance->of[i].by_defaults > BY_DEFAULTS)
            met[rows[1]++] = row_of(d, i, BRAKE_MEETS);
    }
    brake_measuring_find(&d->room->inputs, open, rows[0], &d->conformance->settle);
    brake_measuring_find(&d->room->inputs, met, rows[1], &d->conformance->overturn);
}

void brake_conformance_clear(struct brake_conformances *conformance)
{
    *conformance = (struct brake_conformances){.all_met = BRAKE_NAN};
    for (int i = 0; i < BRAKE_CRITERIA; i++) {
        struct brake_conformance *s = &conformance->of[i];
        *s = (struct brake_conformance){
            .met = BRAKE_NAN, .met_low = BRAKE_NAN, .met_high = BRAKE_NAN, .leading = -1};
        for (int k = 0; k < BRAKE_MARGIN_STEPS; k++)
            s->margin[k] = BRAKE_NAN;
    }
}

bool brake_conformance_draw(const struct brake_sheet *sheet,
                            const struct brake_conformance_options *options,
                            struct brake_conformance_room *room, struct brake_judgement *judgement,
                            struct brake_conformances *conformance)
{
    const struct drawing d = {options, room, judgement, conformance};
    brake_inputs_list(sheet, NULL, &room->inputs);
    memset(room->met, 0, sizeof room->met);
    memset(room->failed, 0, sizeof room->failed);
    brake_conformance_clear(conformance);
    brake_sobol_scrambled(brake_inputs_count(&room->inputs), 0, &room->sobol);
    if (!draw_all(&d))
        return false;
    count_together(&d);
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (conformance->of[i].samples > 0)
            sum_up(&d, i);
    }
    add_products(&d);
    put_correlations(&d);
    for (int i = 0; i < brake_criterion_count(); i++)
        put_word(&d, i, &judgement[i]);
    find_measurings(&d, judgement);
    return true;
}

struct brake_conformance_room *brake_conformance_room_new(void)
{
    return malloc(sizeof(struct brake_conformance_room));
}

void brake_conformance_room_free(struct brake_conformance_room *room)
{
    free(room);
}
