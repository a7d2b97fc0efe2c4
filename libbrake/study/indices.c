/* SPDX-License-Identifier: MIT */
/* Sobol indices. Base samples are evaluated a block at a time, each into its own place, by any
 * number of threads; sums are then taken in the order of the samples, so that the threads leave no
 * trace. */
#include "indices.h"

#include <math.h>
#include <string.h>

#include "brake/constants.h"
#include "replicates.h"
#include "watching.h"

enum { BLOCK = 64 /* base samples at a time */ };

/* Sums of one output in one replicate, both samples; outputs less their value in the middle. */
struct moments {
    double count, sum, squares;
};

/* Sums of one input and one output in one replicate. */
struct effects {
    double count;
    double cross;   /* f(B) (f(A_B) - f(A)) */
    double change;  /* f(A_B) - f(A) */
    double squares; /* of the change */
};

/* The room, laid out. */
struct work {
    const struct brake_model *model;
    struct brake_sobol *sobol; /* by replicate; draw() of spread.c has the same room */
    double *middle;            /* by output */
    double *value;           /* by base sample of the block, then A, B, A_B by input, then output */
    struct moments *moments; /* by replicate, output */
    struct effects *effects; /* by replicate, output, input */
};

static size_t rows_of(const struct brake_model *model)
{
    return (size_t)model->inputs + 2;
}

size_t brake_indices_room(const struct brake_model *model)
{
    const size_t outputs = (size_t)model->outputs;
    const size_t sums = BRAKE_REPLICATES * outputs;
    return BRAKE_REPLICATES * sizeof(struct brake_sobol) + outputs * sizeof(double) +
           BLOCK * rows_of(model) * outputs * sizeof(double) + sums * sizeof(struct moments) +
           sums * (size_t)model->inputs * sizeof(struct effects);
}

long brake_indices_cost(const struct brake_model *model, long base)
{
    return base * (model->inputs + 2) + 1;
}

static struct work lay_out(const struct brake_model *model, void *room)
{
    const size_t outputs = (size_t)model->outputs;
    struct work w = {.model = model, .sobol = room};
    w.middle = (double *)(w.sobol + BRAKE_REPLICATES);
    w.value = w.middle + outputs;
    w.moments = (struct moments *)(w.value + BLOCK * rows_of(model) * outputs);
    w.effects = (struct effects *)(w.moments + BRAKE_REPLICATES * outputs);
    memset(room, 0, brake_indices_room(model));
    return w;
}

static void find_middle(const struct work *w)
{
    double share[BRAKE_MODEL_INPUTS];
    for (int i = 0; i < w->model->inputs; i++)
        share[i] = 0.5;
    w->model->run(w->model->context, share, w->middle);
    for (int o = 0; o < w->model->outputs; o++)
        w->middle[o] = isfinite(w->middle[o]) ? w->middle[o] : 0.0;
}

static void exchange(double *one, double *other)
{
    const double kept = *one;
    *one = *other;
    *other = kept;
}

/* All evaluations of one base sample. A and B of an input are neighbouring coordinates: the table
 * of direction numbers is made for good pairs of near ones. */
static void evaluate(const struct work *w, long each, long sample, double *value)
{
    const struct brake_model *model = w->model;
    double pair[2 * BRAKE_MODEL_INPUTS];
    double a[BRAKE_MODEL_INPUTS];
    double b[BRAKE_MODEL_INPUTS];
    const double *at = pair;
    replicates_shares(w->sobol, each, sample, pair);
    for (int i = 0; i < model->inputs; i++) {
        a[i] = *at++;
        b[i] = *at++;
    }
    model->run(model->context, a, value);
    model->run(model->context, b, value + model->outputs);
    for (int i = 0; i < model->inputs; i++) {
        exchange(&a[i], &b[i]);
        model->run(model->context, a, value + (size_t)(2 + i) * (size_t)model->outputs);
        exchange(&a[i], &b[i]);
    }
}

/* Adds one base sample to the sums of a replicate. */
static void add_sample(const struct work *w, int replicate, const double *value)
{
    const int outputs = w->model->outputs;
    for (int o = 0; o < outputs; o++) {
        struct moments *m = &w->moments[replicate * outputs + o];
        struct effects *e = w->effects + (replicate * outputs + o) * (long)w->model->inputs;
        const double a = value[o] - w->middle[o];
        const double b = value[outputs + o] - w->middle[o];
        if (!isfinite(a) || !isfinite(b))
            continue;
        m->count += 2.0;
        m->sum += a + b;
        m->squares += a * a + b * b;
        for (int i = 0; i < w->model->inputs; i++) {
            const double change = value[(2 + i) * outputs + o] - w->middle[o] - a;
            if (!isfinite(change))
                continue;
            e[i].count += 1.0;
            e[i].cross += b * change;
            e[i].change += change;
            e[i].squares += change * change;
        }
    }
}

static void run_block(const struct work *w, long each, long first, int count)
{
    const size_t size = rows_of(w->model) * (size_t)w->model->outputs;
#pragma omp parallel for schedule(dynamic)
    for (int i = 0; i < count; i++)
        evaluate(w, each, first + i, w->value + (size_t)i * size);
    for (int i = 0; i < count; i++)
        add_sample(w, (int)((first + i) / each), w->value + (size_t)i * size);
}

/* Returns false when told to stop. */
static bool run_all(const struct work *w, const struct brake_indices_plan *plan)
{
    const double rows = (double)rows_of(w->model);
    replicates_scramble(2 * w->model->inputs, plan->seed, w->sobol);
    for (long first = 0; first < plan->base; first += BLOCK) {
        const long left = plan->base - first;
        const long count = left < BLOCK ? left : BLOCK;
        if (watch_stops(plan->watch))
            return false;
        run_block(w, plan->base / BRAKE_REPLICATES, first, (int)count);
        watch_tell(plan->watch, (double)(first + count) * rows, (double)plan->base * rows);
    }
    return true;
}

/* ---- from the sums to the indices ------------------------------------------------------------ */

/* Mean and variance of an output; the variance is NaN when too few samples are finite. */
static struct moments mean_and_variance(const struct work *w, int output, long base)
{
    struct moments all = {0.0, 0.0, 0.0};
    for (int r = 0; r < BRAKE_REPLICATES; r++) {
        const struct moments *m = &w->moments[r * w->model->outputs + output];
        all.count += m->count;
        all.sum += m->sum;
        all.squares += m->squares;
    }
    all.sum /= all.count;
    all.squares = all.squares / all.count - all.sum * all.sum;
    if (all.count < 0.9 * 2.0 * (double)base || !(all.squares > 0.0))
        all.squares = BRAKE_NAN;
    return all;
}

/* Variance of an output in one replicate, about the mean of all. */
static double variance_in(const struct moments *m, double mean)
{
    return m->squares / m->count - 2.0 * mean * m->sum / m->count + mean * mean;
}

/* An index is a ratio, and its error that of one: a replicate in which the variance itself comes
 * out larger has larger effects too. `part`: its effects in each replicate over the variance of
 * all. */
static double error_of(const struct work *w, int output, const struct moments *of, double index,
                       const double part[BRAKE_REPLICATES])
{
    double apart[BRAKE_REPLICATES];
    for (int r = 0; r < BRAKE_REPLICATES; r++) {
        const struct moments *m = &w->moments[r * w->model->outputs + output];
        apart[r] = part[r] - index * variance_in(m, of->sum) / of->squares;
    }
    return replicates_error(apart);
}

static struct brake_index index_of(const struct work *w, int output, int input,
                                   const struct moments *of)
{
    const long outputs = w->model->outputs;
    double first[BRAKE_REPLICATES];
    double total[BRAKE_REPLICATES];
    struct brake_index index = {.first = 0.0, .total = 0.0};
    double count = 0.0;
    for (int r = 0; r < BRAKE_REPLICATES; r++) {
        const struct effects *e = &w->effects[(r * outputs + output) * w->model->inputs + input];
        const double known = (e->cross - of->sum * e->change) / of->squares;
        const double unknown = e->squares / 2.0 / of->squares;
        first[r] = known / e->count;
        total[r] = unknown / e->count;
        index.first += known;
        index.total += unknown;
        count += e->count;
    }
    index.first /= count;
    index.total /= count;
    index.first_error = error_of(w, output, of, index.first, first);
    index.total_error = error_of(w, output, of, index.total, total);
    return index;
}

bool brake_indices(const struct brake_model *model, const struct brake_indices_plan *plan,
                   struct brake_index *index)
{
    const struct work w = lay_out(model, plan->room);
    find_middle(&w);
    if (!run_all(&w, plan))
        return false;
    for (int o = 0; o < model->outputs; o++) {
        const struct moments of = mean_and_variance(&w, o, plan->base);
        for (int i = 0; i < model->inputs; i++)
            index[o * model->inputs + i] = index_of(&w, o, i, &of);
    }
    return true;
}
