/* SPDX-License-Identifier: MIT */
/* Samples of a vehicle. Each is evaluated into its own place by any number of threads; everything
 * else is done in the order of the samples, so that the threads leave no trace. */
#include "brake/spread.h"

#include <math.h>

#include "asked.h"
#include "brake/evaluate.h"
#include "criteria/judge.h"
#include "criteria/scope.h"
#include "drawn.h"
#include "indices.h"
#include "known.h"
#include "percentile.h"
#include "procedure.h"
#include "replicates.h"
#include "sample.h"
#include "conformance.h"
#include "watching.h"

enum {
    BLOCK = 512,
    FADED_BLOCK = 4 * BRAKE_TOGETHER /* samples at a time; they divide their number */
};

/* The results that a builder asks for first. */
static const char *const headlines[] = {
    "empty.deceleration.most",
    "full.deceleration.most",
    "empty.stop.distance",
    "full.stop.distance",
    "full.pedal.force_for_target",
    "full.pedal.travel_used",
    "empty.balance.rear_first_above",
    "full.balance.efficiency",
    "full.failed.first_circuit",
    "full.failed.second_circuit",
    "full.failed.no_assist",
    "full.parking.grade_up",
};

static const double percents[BRAKE_PERCENTILES] = {0.05, 0.25, 0.50, 0.75, 0.95};

const char *brake_spread_wrong(long samples)
{
    if (samples < BRAKE_SPREAD_LEAST || samples > BRAKE_SPREAD_MOST ||
        (samples & (samples - 1)) != 0)
        return "accepts 1024, 2048, 4096 and so on by doubling, up to 262144";
    return NULL;
}

double brake_spread_percent(int number)
{
    return percents[number];
}

enum brake_status brake_spread_prepare(const struct brake_sheet *sheet,
                                       const struct brake_spread_options *options,
                                       struct brake_spread *spread)
{
    struct brake_results results;
    if (brake_spread_wrong(options->samples) != NULL)
        return BRAKE_E_RANGE;
    spread->rules = options->rules;
    spread->faded = options->faded;
    spread->samples = options->samples;
    spread->base = options->samples / BRAKE_SPREAD_BASE_SHARE;
    spread->seed = options->seed;
    spread->criteria = brake_criterion_count();
    spread->results = 0;
    for (size_t i = 0; i < sizeof headlines / sizeof headlines[0]; i++)
        spread->result[spread->results++] = brake_result_find(headlines[i]);
    brake_judge_all(options->rules, &sheet->vehicle, spread->judgement);
    if (options->faded)
        brake_fade_judge(sheet, options->rules, spread->judgement, &results);
    brake_inputs_list(sheet, options->shape, &spread->inputs);
    return brake_inputs_count(&spread->inputs) <= BRAKE_MODEL_INPUTS ? BRAKE_OK : BRAKE_E_SIZE;
}

static int outputs_of(const struct brake_spread *spread)
{
    return spread->criteria + spread->results;
}

/* ---- one sample ----------------------------------------------------------------------------- */

static void judge_sample(const void *context, const double *share, double *output)
{
    const struct brake_spread *spread = context;
    sample_margins(&spread->inputs, spread->rules, share, output);
}

static struct brake_model margins_of(const struct brake_spread *spread)
{
    return (struct brake_model){brake_inputs_count(&spread->inputs), spread->criteria, judge_sample,
                                spread};
}

static void keep_sample(const struct brake_spread *spread, const double *share,
                        const double *margin, long sample)
{
    struct brake_vehicle vehicle;
    struct brake_results results;
    brake_inputs_vehicle(&spread->inputs, share, &vehicle);
    brake_evaluate(&vehicle, &results);
    for (int c = 0; c < spread->criteria; c++)
        spread->value[c * spread->samples + sample] = margin[c];
    for (int r = 0; r < spread->results; r++)
        spread->value[(spread->criteria + r) * spread->samples + sample] =
            brake_result_value(&results, spread->result[r]);
}

static void keep_samples(const struct brake_spread *spread, const struct brake_sobol *sobol,
                         long first)
{
    const struct sample_draw asked = {&spread->inputs, sobol, spread->samples / BRAKE_REPLICATES,
                                      spread->rules,   true,  spread->faded};
    struct sample_few few;
    sample_draw_few(&asked, first, &few);
    for (int i = 0; i < BRAKE_TOGETHER; i++)
        keep_sample(spread, few.share[i], few.margin[i], first + i);
}

/* ---- all samples ---------------------------------------------------------------------------- */

/* Returns false when told to stop. */
static bool draw(const struct brake_spread *spread, struct brake_sobol *sobol,
                 const struct brake_watch *watch, double total)
{
    const long block = spread->faded ? FADED_BLOCK : BLOCK;
    replicates_scramble(brake_inputs_count(&spread->inputs),
                        UINT64_C(2) * BRAKE_REPLICATES * spread->seed, sobol);
    for (long first = 0; first < spread->samples; first += block) {
        if (watch_stops(watch))
            return false;
#pragma omp parallel for schedule(dynamic, 1)
        for (long sample = first; sample < first + block; sample += BRAKE_TOGETHER)
            keep_samples(spread, sobol, sample);
        watch_tell(watch, (double)(first + block), total);
    }
    return true;
}

/* ---- from the samples to the figures --------------------------------------------------------- */

/* Probability to meet, from how many of the samples of each replicate do. */
static void set_probability(const double meeting[BRAKE_REPLICATES], long each, double *met,
                            double *error)
{
    const double samples = (double)(each * BRAKE_REPLICATES);
    double all = 0.0;
    double share[BRAKE_REPLICATES];
    for (int r = 0; r < BRAKE_REPLICATES; r++) {
        all += meeting[r];
        share[r] = meeting[r] / (double)each;
    }
    *met = all / samples;
    *error = fmax(replicates_error(share), 3.0 / samples);
}

/* A sample that cannot be worked out does not meet what the vehicle as stated is judged by. */
static void count_criterion(struct brake_spread *spread, int criterion)
{
    const long each = spread->samples / BRAKE_REPLICATES;
    const double *margin = spread->value + criterion * spread->samples;
    struct brake_spread_output *output = &spread->output[criterion];
    double meeting[BRAKE_REPLICATES] = {0.0};
    for (long i = 0; i < spread->samples; i++)
        meeting[i / each] += margin[i] >= 0.0 ? 1.0 : 0.0;
    set_probability(meeting, each, &output->met, &output->met_error);
}

static void count_all(struct brake_spread *spread)
{
    const long each = spread->samples / BRAKE_REPLICATES;
    double meeting[BRAKE_REPLICATES] = {0.0};
    int judged[BRAKE_CRITERIA];
    int count = 0;
    spread->all_met = BRAKE_NAN;
    spread->all_met_error = BRAKE_NAN;
    for (int c = 0; c < spread->criteria; c++) {
        if (brake_spread_draws(spread, c) && brake_scope_counts(spread->judgement[c].scope) &&
            !isnan(spread->judgement[c].margin))
            judged[count++] = c;
    }
    if (count == 0)
        return;
    for (long i = 0; i < spread->samples; i++) {
        bool all = true;
        for (int k = 0; k < count; k++)
            all = all && spread->value[judged[k] * spread->samples + i] >= 0.0;
        meeting[i / each] += all ? 1.0 : 0.0;
    }
    set_probability(meeting, each, &spread->all_met, &spread->all_met_error);
}

static void set_percentiles(struct brake_spread *spread, int number)
{
    double *value = spread->value + number * spread->samples;
    struct brake_spread_output *output = &spread->output[number];
    const long count = percentile_sort(value, spread->samples);
    output->judged = (double)count / (double)spread->samples;
    for (int i = 0; i < BRAKE_PERCENTILES; i++)
        output->percentile[i] = percentile_at(value, count, percents[i]);
}

static void sum_up(struct brake_spread *spread)
{
    count_all(spread);
#pragma omp parallel for schedule(dynamic)
    for (int i = 0; i < outputs_of(spread); i++) {
        spread->output[i].met = BRAKE_NAN;
        spread->output[i].met_error = BRAKE_NAN;
        if (i < spread->criteria && !isnan(spread->judgement[i].margin))
            count_criterion(spread, i);
        set_percentiles(spread, i);
    }
}

/* ---- the study ------------------------------------------------------------------------------- */

static size_t values_size(const struct brake_spread *spread)
{
    return (size_t)outputs_of(spread) * (size_t)spread->samples * sizeof(double);
}

static size_t index_size(const struct brake_spread *spread)
{
    return (size_t)spread->criteria * (size_t)brake_inputs_count(&spread->inputs) *
           sizeof(struct brake_index);
}

size_t brake_spread_room(const struct brake_spread *spread)
{
    const struct brake_model model = margins_of(spread);
    const size_t room = values_size(spread) + index_size(spread) + brake_indices_room(&model);
    return room > sizeof(struct brake_conformance_room) ? room
                                                        : sizeof(struct brake_conformance_room);
}

/* The second part of a study's progress. */
struct later {
    const struct brake_watch *watch;
    double before, total;
};

static void tell_later(void *context, double done, double total)
{
    const struct later *later = context;
    (void)total;
    watch_tell(later->watch, later->before + done, later->total);
}

/* The errors of the model are uncertain of any vehicle: there is always something to find. */
static bool find_indices(struct brake_spread *spread, void *room, const struct later *later)
{
    const struct brake_model model = margins_of(spread);
    const struct brake_watch watch = {tell_later, (void *)later,
                                      later->watch != NULL ? later->watch->stop : NULL};
    const struct brake_indices_plan plan = {
        spread->base, UINT64_C(2) * BRAKE_REPLICATES * spread->seed + BRAKE_REPLICATES, room,
        &watch};
    return brake_indices(&model, &plan, spread->index);
}

bool brake_spread_run(struct brake_spread *spread, void *room, const struct brake_watch *watch)
{
    const struct brake_model model = margins_of(spread);
    const struct brake_conformance_options words = {spread->rules, spread->faded, NULL};
    const struct later later = {
        watch, (double)spread->samples,
        (double)(spread->samples + brake_indices_cost(&model, spread->base))};
    /* The words are those of every other study: their samples come first, and go. */
    if (watch_stops(watch) || !brake_conformance_draw(spread->inputs.sheet, &words, room,
                                                      spread->judgement, &spread->conformance))
        return false;
    spread->value = room;
    spread->index = (struct brake_index *)((char *)room + values_size(spread));
    void *rest = (char *)spread->index + index_size(spread);
    if (!draw(spread, rest, watch, later.total) || !find_indices(spread, rest, &later))
        return false;
    sum_up(spread);
    watch_tell(watch, later.total, later.total);
    return true;
}

/* ---- what it says ---------------------------------------------------------------------------- */

bool brake_spread_draws(const struct brake_spread *spread, int criterion)
{
    const struct brake_criterion *c = brake_criterion_at(criterion);
    return spread->judgement[criterion].scope != BRAKE_OUTSIDE &&
           (spread->faded || !brake_measure_hot(c->measure));
}

int brake_spread_limiting(const struct brake_spread *spread)
{
    int least = -1;
    for (int i = 0; i < spread->criteria; i++) {
        const struct brake_spread_output *one = &spread->output[i];
        const struct brake_spread_output *best = &spread->output[least < 0 ? i : least];
        if (isnan(one->met) || !brake_scope_counts(spread->judgement[i].scope))
            continue;
        if (least < 0 || one->met < best->met ||
            (one->met <= best->met && one->percentile[2] < best->percentile[2]))
            least = i;
    }
    return least;
}

struct brake_index brake_spread_index(const struct brake_spread *spread, int criterion, int number)
{
    return spread->index[criterion * brake_inputs_count(&spread->inputs) + number];
}

int brake_spread_leading(const struct brake_spread *spread, int criterion, int *number, int most)
{
    int count = 0;
    for (int i = 0; i < brake_inputs_count(&spread->inputs); i++) {
        const double total = brake_spread_index(spread, criterion, i).total;
        int at = count;
        if (!(total > 0.0))
            continue;
        while (at > 0 && total > brake_spread_index(spread, criterion, number[at - 1]).total)
            at--;
        for (int j = count < most ? count++ : most - 1; j > at; j--)
            number[j] = number[j - 1];
        if (at < most)
            number[at] = i;
    }
    return count;
}

void brake_spread_ruling(const struct brake_spread *spread, struct brake_ruling *ruling)
{
    brake_ruling_make(spread->judgement, &spread->inputs.sheet->vehicle, spread->rules,
                      spread->faded, ruling);
    if (spread->inputs.sheet->known.word != BRAKE_DRIVE_NONE)
        brake_ruling_add(ruling, known_verdict(&spread->inputs.sheet->known));
}

int brake_spread_exit(const struct brake_spread *spread)
{
    struct brake_ruling ruling;
    brake_spread_ruling(spread, &ruling);
    return brake_verdict_exit(ruling.verdict);
}
