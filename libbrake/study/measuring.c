/* SPDX-License-Identifier: MIT */
#include "measuring.h"

#include <math.h>

#include "distribution.h"

static const double SURE = 1.6448536269514722; /* normal score of 95 of 100 */
static const double LEAST = 0.04; /* [-] of a requirement: what is gained by less is not worth it */
static const double NEARER = 0.05; /* [-] worth of explained scatter that changes no word yet */
static const double HELPS = 0.2;   /* [-] of the scatter of a line: less is no better knowledge */

/* What is known once the lines so far are. */
struct known {
    const struct brake_inputs *inputs;
    const struct brake_measuring_row *row;
    int rows;
    int shares;
    int lines;
    int input[BRAKE_MEASURINGS];                    /* numbers of the lines among the inputs */
    double basis[BRAKE_MEASURINGS][BRAKE_INPUTS];   /* what is known of the shares, orthonormal */
    double along[BRAKE_MEASURINGS][BRAKE_CRITERIA]; /* of each row's parts along it */
    double explained[BRAKE_CRITERIA];               /* [-] of the scatter of each row's score */
};

/* ---- words that change ---------------------------------------------------------------------- */

/* That the word of a row changes when so much of the scatter of its score is known: P is at least
 * 95 of 100 where the known part of the score is so far above the threshold as what is left of it
 * reaches, and 50 of 100 where it is above. A word that too few samples gave is taken as the
 * nearest to it that more would give. */
static double probability_of(const struct brake_measuring_row *row, double explained)
{
    const double spread = sqrt(fmin(explained, 1.0));
    const double left = sqrt(fmax(0.0, 1.0 - explained));
    if (!(spread > 0.0))
        return 0.0;
    if (row->word == BRAKE_FALLS_SHORT)
        return 1.0 - brake_normal_share(fmax(row->threshold, 0.0) / spread);
    if (row->word == BRAKE_MEETS)
        return brake_normal_share((fmin(row->threshold, -SURE) + SURE * left) / spread);
    const double threshold = fmax(-SURE, fmin(row->threshold, 0.0));
    return 1.0 - brake_normal_share((threshold + SURE * left) / spread) +
           brake_normal_share(threshold / spread);
}

/* ---- lines ---------------------------------------------------------------------------------- */

/* What it takes to get a line, against a reading by tape; common practice, no source. */
static double cost_of(const struct brake_inputs *inputs, int input)
{
    static const double cost[] = {
        [BRAKE_BY_LOOK] = 1.0,  [BRAKE_BY_PAPERS] = 1.0, [BRAKE_BY_TAPE] = 1.0,
        [BRAKE_BY_SCALE] = 1.5, [BRAKE_BY_GAUGE] = 3.0,  [BRAKE_BY_WORKSHOP] = 5.0,
        [BRAKE_BY_MAKER] = 12.0};
    return cost[brake_quantity_at(inputs->input[input].index)->means];
}

/* Part of the scatter of a line that a measurement with the usual care takes away. */
static double better_by(const struct brake_inputs *inputs, int input)
{
    const int index = inputs->input[input].index;
    const struct brake_record *record = &inputs->sheet->record[index];
    if (inputs->input[input].choice)
        return 1.0;
    const double value = fabs(brake_quantity_value(&inputs->sheet->vehicle, index));
    const double then = brake_quantity_at(index)->typical * value / record->tolerance;
    return fmax(0.0, 1.0 - then * then);
}

static bool can_be_measured(const struct brake_inputs *inputs, int input)
{
    const int index = inputs->input[input].index;
    return inputs->sheet->record[index].from != BRAKE_MEASURED && better_by(inputs, input) >= HELPS;
}

/* A line as a direction among the shares: its own, and that of its cause. */
static double own_part(const struct brake_inputs *inputs, int input)
{
    const int cause = inputs->input[input].cause;
    return cause < 0 ? 1.0 : sqrt(1.0 - brake_cause_at(inputs->cause[cause])->correlation);
}

/* Of a list by share, along that direction. */
static double along_line(const struct brake_inputs *inputs, int input, const double *list)
{
    const int cause = inputs->input[input].cause;
    const double own = own_part(inputs, input);
    const double shared = cause < 0 ? 0.0 : sqrt(1.0 - own * own) * list[inputs->count + cause];
    return own * list[input] + shared;
}

/* ---- knowledge ------------------------------------------------------------------------------ */

static void begin(struct known *k)
{
    k->lines = 0;
    for (int i = 0; i < k->rows; i++)
        k->explained[i] = 0.0;
}

/* What a line is beyond those that are known: its length there. No cause ties lines so closely that
 * this is nothing. */
static double beyond(const struct known *k, int input, double overlap[BRAKE_MEASURINGS])
{
    double left = 1.0;
    for (int i = 0; i < k->lines; i++) {
        overlap[i] = along_line(k->inputs, input, k->basis[i]);
        left -= overlap[i] * overlap[i];
    }
    return sqrt(left);
}

static double part_along(const struct known *k, int row, int input,
                         const double overlap[BRAKE_MEASURINGS], double length)
{
    double part = along_line(k->inputs, input, k->row[row].part);
    for (int i = 0; i < k->lines; i++)
        part -= overlap[i] * k->along[i][row];
    return part / length;
}

static double gain_of(const struct known *k, int input)
{
    double overlap[BRAKE_MEASURINGS];
    const double length = beyond(k, input, overlap);
    double gain = 0.0;
    for (int i = 0; i < k->rows; i++) {
        const double part = part_along(k, i, input, overlap, length);
        const double more = better_by(k->inputs, input) * part * part;
        gain += probability_of(&k->row[i], k->explained[i] + more) -
                probability_of(&k->row[i], k->explained[i]) + NEARER * more;
    }
    return gain;
}

static void learn(struct known *k, int input)
{
    double overlap[BRAKE_MEASURINGS];
    const double length = beyond(k, input, overlap);
    double *basis = k->basis[k->lines];
    const int cause = k->inputs->input[input].cause;
    const double own = own_part(k->inputs, input);
    for (int s = 0; s < k->shares; s++) {
        basis[s] = s == input ? own : 0.0;
        if (cause >= 0 && s == k->inputs->count + cause)
            basis[s] = sqrt(1.0 - own * own);
        for (int i = 0; i < k->lines; i++)
            basis[s] -= overlap[i] * k->basis[i][s];
        basis[s] /= length;
    }
    for (int i = 0; i < k->rows; i++) {
        const double part = part_along(k, i, input, overlap, length);
        k->along[k->lines][i] = part;
        k->explained[i] += better_by(k->inputs, input) * part * part;
    }
    k->input[k->lines++] = input;
}

static bool is_known(const struct known *k, int input)
{
    for (int i = 0; i < k->lines; i++) {
        if (k->input[i] == input)
            return true;
    }
    return false;
}

/* The line with the largest gain for what it costs; -1: none is worth it. */
static int next_line(const struct known *k)
{
    int best = -1;
    double most = 0.0;
    for (int i = 0; i < k->inputs->count; i++) {
        if (is_known(k, i) || !can_be_measured(k->inputs, i))
            continue;
        const double gain = gain_of(k, i);
        const double worth = gain / cost_of(k->inputs, i);
        if (gain >= LEAST && worth > most) {
            most = worth;
            best = i;
        }
    }
    return best;
}

/* ---- the list ------------------------------------------------------------------------------- */

static double sum_of(const struct known *k)
{
    double sum = 0.0;
    for (int i = 0; i < k->rows; i++)
        sum += probability_of(&k->row[i], k->explained[i]);
    return sum;
}

/* The cheaper first; of equals the one that was chosen first. */
static int cheap_first(const struct known *k, int order[BRAKE_MEASURINGS])
{
    for (int i = 0; i < k->lines; i++) {
        int at = i;
        for (; at > 0 && cost_of(k->inputs, order[at - 1]) > cost_of(k->inputs, k->input[i]); at--)
            order[at] = order[at - 1];
        order[at] = k->input[i];
    }
    return k->lines;
}

/* Once every line that can be measured is known: their shares are independent but for causes, which
 * are known with the lines that share them. */
static double whatever(const struct known *k, int row)
{
    const struct brake_inputs *inputs = k->inputs;
    bool cause_known[BRAKE_INPUTS] = {false};
    double explained = 0.0;
    for (int i = 0; i < inputs->count; i++) {
        const double part = k->row[row].part[i];
        if (!can_be_measured(inputs, i))
            continue;
        explained += better_by(inputs, i) * part * part;
        if (inputs->input[i].cause >= 0)
            cause_known[inputs->input[i].cause] = true;
    }
    for (int i = 0; i < inputs->causes; i++) {
        const double part = k->row[row].part[inputs->count + i];
        explained += cause_known[i] ? part * part : 0.0;
    }
    return probability_of(&k->row[row], explained);
}

void brake_measuring_find(const struct brake_inputs *inputs, const struct brake_measuring_row *row,
                          int rows, struct brake_measuring *measuring)
{
    struct known k = {
        .inputs = inputs, .row = row, .rows = rows, .shares = brake_inputs_count(inputs)};
    int order[BRAKE_MEASURINGS];
    int next;
    begin(&k);
    while (k.lines < BRAKE_MEASURINGS && (next = next_line(&k)) >= 0)
        learn(&k, next);
    measuring->lines = cheap_first(&k, order);
    begin(&k);
    for (int i = 0; i < measuring->lines; i++) {
        learn(&k, order[i]);
        measuring->line[i] = inputs->input[order[i]].index;
        measuring->sum[i] = sum_of(&k);
    }
    for (int i = 0; i < BRAKE_CRITERIA; i++)
        measuring->probability[i] = measuring->whatever[i] = BRAKE_NAN;
    for (int i = 0; i < rows; i++) {
        measuring->probability[row[i].criterion] = probability_of(&row[i], k.explained[i]);
        measuring->whatever[row[i].criterion] = whatever(&k, i);
    }
}
