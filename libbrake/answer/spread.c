/* SPDX-License-Identifier: MIT */
/* The answer of `spread`: what is least sure first, then every requirement, what decides it, the
 * results. */
#include <math.h>
#include <string.h>

#include "brake/file.h"
#include "parts.h"
#include "vehicle/text.h"
#include "study/asked.h"
#include "study/drawn.h"
#include "criteria/scope.h"

enum { LEADING = 3 /* how many that decide are named */ };

static double percent(double share)
{
    return 100.0 * share;
}

static bool judged(const struct brake_spread *spread, int criterion)
{
    return !isnan(spread->output[criterion].met);
}

/* Path of a number, or id of a cause. */
static const char *name_of(struct brake_document *d, const struct brake_spread *spread, int number)
{
    char name[160];
    brake_inputs_name(&spread->inputs, number, name, sizeof name);
    return brake_document_words(d, "%s", name);
}

/* ---- what comes first ----------------------------------------------------------------------- */

static const char *verdict_of(struct brake_document *d, const struct brake_spread *spread)
{
    struct brake_ruling ruling;
    brake_spread_ruling(spread, &ruling);
    const char *together =
        brake_document_words(d, "; %.2f %% (+- %.2f) of the samples meet all of it together",
                             percent(spread->all_met), percent(spread->all_met_error));
    return brake_document_words(d, "%s%s",
                                brake_part_ruling(d, &spread->inputs.sheet->vehicle, &ruling),
                                isnan(spread->all_met) ? "" : together);
}

static const char *limiting_of(struct brake_document *d, const struct brake_spread *spread,
                               int criterion)
{
    const struct brake_criterion *c = brake_criterion_at(criterion);
    const struct brake_spread_output *output = &spread->output[criterion];
    return brake_document_words(
        d,
        "%s: met in %.2f %% of the samples (+- %.2f); margin %+.0f %%, 90 of 100 within %+.0f to "
        "%+.0f %%. [%s, %s; check against the current text]",
        c->title, percent(output->met), percent(output->met_error), percent(output->percentile[2]),
        percent(output->percentile[0]), percent(output->percentile[4]), c->id, c->clause);
}

/* What a number is now, and how to measure it; what is shared, for a cause. */
static const char *describe(struct brake_document *d, const struct brake_spread *spread, int number)
{
    const struct brake_inputs *listed = &spread->inputs;
    if (number >= listed->count + listed->causes)
        return "It stands for what the model itself may be off by.";
    if (number >= listed->count)
        return brake_document_words(d, "It stands for %s.",
                                    brake_cause_at(listed->cause[number - listed->count])->words);
    const int index = listed->input[number].index;
    const struct brake_cell value = brake_part_value(d, &listed->sheet->vehicle, index);
    return brake_document_words(d, "It is now %s, %s. How: %s", brake_document_amount(d, value),
                                brake_from_word(listed->sheet->record[index].from),
                                brake_quantity_at(index)->measure);
}

static const char *next_of(struct brake_document *d, const struct brake_spread *spread,
                           int criterion, int number)
{
    const struct brake_index index = brake_spread_index(spread, criterion, number);
    return brake_document_words(
        d, "%s better: it decides %.0f %% (+- %.0f) of the uncertainty of that margin. %s",
        name_of(d, spread, number), percent(index.total), percent(index.total_error),
        describe(d, spread, number));
}

static void summary(struct brake_document *d, const struct brake_spread *spread)
{
    const int least = brake_spread_limiting(spread);
    int number = 0;
    const bool known = least >= 0 && brake_spread_leading(spread, least, &number, 1) > 0;
    brake_document_section(d, "summary", NULL);
    brake_document_say(d, "verdict", "Verdict", verdict_of(d, spread));
    brake_document_fact(d, "all_probability", NULL, brake_cell_number(spread->all_met, NULL));
    brake_document_fact(d, "all_probability_error", NULL,
                        brake_cell_number(spread->all_met_error, NULL));
    brake_document_fact(d, "limiting", NULL,
                        brake_cell_text(least >= 0 ? brake_criterion_at(least)->id : NULL));
    if (least >= 0)
        brake_document_say(d, NULL, "Limiting", limiting_of(d, spread, least));
    brake_document_fact(d, "measure_next", NULL,
                        brake_cell_text(known ? name_of(d, spread, number) : NULL));
    brake_document_fact(
        d, "decides", NULL,
        brake_cell_number(known ? brake_spread_index(spread, least, number).total : BRAKE_NAN,
                          NULL));
    if (known)
        brake_document_say(d, NULL, "Measure", next_of(d, spread, least, number));
    brake_document_end(d);
    brake_document_say_in(
        d, NULL, "Samples",
        "%d uncertain numbers and %d shared causes; %ld samples, %ld for each index. Seed %llu.",
        spread->inputs.count, spread->inputs.causes, spread->samples, spread->base,
        (unsigned long long)spread->seed);
    brake_document_fact(d, "samples", NULL, brake_cell_count(spread->samples));
    brake_document_fact(d, "base_samples", NULL, brake_cell_count(spread->base));
    brake_document_fact(d, "replicates", NULL, brake_cell_count(BRAKE_REPLICATES));
    brake_document_fact(d, "seed", NULL, brake_cell_number((double)spread->seed, NULL));
}

/* ---- requirements --------------------------------------------------------------------------- */

/* Those that could be judged first, the least often met before the others. */
static bool before(const void *context, int x, int y)
{
    const struct brake_spread *spread = context;
    const struct brake_spread_output *a = &spread->output[x];
    const struct brake_spread_output *b = &spread->output[y];
    if (judged(spread, x) != judged(spread, y))
        return judged(spread, x);
    if (a->met < b->met || a->met > b->met)
        return a->met < b->met;
    return a->percentile[2] < b->percentile[2];
}

static int order_of(const struct brake_spread *spread, int order[BRAKE_CRITERIA])
{
    int count = 0;
    for (int i = 0; i < spread->criteria; i++) {
        if (brake_spread_draws(spread, i))
            count = brake_part_insert(order, count, i, before, spread);
    }
    return count;
}

static const char *note_of(struct brake_document *d, const struct brake_spread *spread,
                           int criterion)
{
    const struct brake_spread_output *output = &spread->output[criterion];
    const char *reason = spread->judgement[criterion].reason;
    if (!judged(spread, criterion))
        return brake_document_words(d, "cannot say: %s",
                                    reason != NULL ? reason : "no sample gives a figure");
    return output->judged < 1.0
               ? brake_document_words(d, "%.2f %% of the samples cannot be worked out: %s",
                                      percent(1.0 - output->judged),
                                      spread->conformance.of[criterion].failing != NULL
                                          ? spread->conformance.of[criterion].failing
                                          : "no solution")
               : NULL;
}

static struct brake_cell share(double value, enum brake_form form)
{
    struct brake_cell cell = brake_cell_form(value, brake_unit_find("%"), form);
    cell.text = isinf(value) ? "no end" : NULL;
    return cell;
}

static void criterion_row(struct brake_document *d, const struct brake_spread *spread,
                          int criterion)
{
    const struct brake_criterion *c = brake_criterion_at(criterion);
    const struct brake_judgement *j = &spread->judgement[criterion];
    const struct brake_spread_output *output = &spread->output[criterion];
    struct brake_cell cell[17] = {brake_cell_text(c->id),
                                  brake_cell_text(c->clause),
                                  brake_cell_text(c->title),
                                  brake_cell_text(brake_scope_word(j->scope)),
                                  brake_cell_text(brake_verdict_words(j->verdict)),
                                  brake_cell_text(j->reason),
                                  brake_cell_number(j->margin, NULL),
                                  brake_cell_number(output->judged, NULL),
                                  share(output->met, BRAKE_TWO_DECIMALS),
                                  share(output->met_error, BRAKE_TWO_DECIMALS)};
    for (int i = 0; i < BRAKE_PERCENTILES; i++)
        cell[10 + i] = share(output->percentile[i], BRAKE_SIGNED);
    cell[10 + BRAKE_PERCENTILES] = brake_cell_text("check against the current text");
    cell[11 + BRAKE_PERCENTILES] = brake_cell_text(note_of(d, spread, criterion));
    brake_document_row(d, cell);
}

static void requirements(struct brake_document *d, const struct brake_spread *spread,
                         const int *order, int count)
{
    static const struct brake_column column[] = {{"id", "requirement", BRAKE_COLUMN},
                                                 {"clause", NULL, BRAKE_COLUMN},
                                                 {"title", NULL, BRAKE_COLUMN},
                                                 {"scope", NULL, BRAKE_COLUMN},
                                                 {"verdict", NULL, BRAKE_COLUMN},
                                                 {"reason", NULL, BRAKE_COLUMN},
                                                 {"margin", NULL, BRAKE_COLUMN},
                                                 {"judged", NULL, BRAKE_COLUMN},
                                                 {"probability", "met", BRAKE_COLUMN},
                                                 {"probability_error", "+-", BRAKE_COLUMN},
                                                 {"percentiles.p05", "p05", BRAKE_COLUMN},
                                                 {"percentiles.p25", "p25", BRAKE_COLUMN},
                                                 {"percentiles.p50", "p50", BRAKE_COLUMN},
                                                 {"percentiles.p75", "p75", BRAKE_COLUMN},
                                                 {"percentiles.p95", "p95", BRAKE_COLUMN},
                                                 {"mark", NULL, BRAKE_COLUMN},
                                                 {NULL, "", BRAKE_NOTE}};
    brake_document_section(d, NULL, "Requirements");
    brake_document_table(
        d, &(struct brake_table){
               .key = "criteria",
               .caption = "Check each against the current text of its clause. Met: share of the "
                          "samples; p05 to p95: margin that 5 to 95 of 100 samples stay below.",
               .column = column,
               .columns = 17});
    for (int i = 0; i < count; i++)
        criterion_row(d, spread, order[i]);
    if (!spread->faded)
        brake_document_say(d, NULL, NULL,
                           "Hot performance is not drawn; --fade draws it, stopmargin check says "
                           "it.");
    brake_document_end(d);
}

/* ---- what decides --------------------------------------------------------------------------- */

static const char *leading_words(struct brake_document *d, const struct brake_spread *spread,
                                 int criterion)
{
    const struct brake_output output = {.criterion = true, .index = criterion};
    const char *all = NULL;
    int number[LEADING];
    const int count = brake_spread_leading(spread, criterion, number, LEADING);
    for (int i = 0; i < count; i++) {
        const struct brake_index index = brake_spread_index(spread, criterion, number[i]);
        all = brake_document_join(d, all, ", ",
                                  brake_document_words(d, "%s %.0f (alone %.0f)",
                                                       name_of(d, spread, number[i]),
                                                       percent(index.total), percent(index.first)));
    }
    if (all != NULL)
        return all;
    return brake_output_faded(output) ? "not worked out for hot performance"
                                      : "nothing that can be told";
}

static void decides(struct brake_document *d, const struct brake_spread *spread, const int *order,
                    int count)
{
    static const struct brake_column column[] = {{NULL, "requirement", BRAKE_COLUMN},
                                                 {NULL, "decided by", BRAKE_COLUMN}};
    brake_document_section(d, NULL, "What decides");
    brake_document_table(
        d, &(struct brake_table){
               .caption = "Percent of the uncertainty due to a line, with its interactions "
                          "(alone: without).",
               .column = column,
               .columns = 2});
    for (int i = 0; i < count; i++) {
        if (judged(spread, order[i]))
            brake_document_row(d, (const struct brake_cell[]){
                                      brake_cell_text(brake_criterion_at(order[i])->id),
                                      brake_cell_text(leading_words(d, spread, order[i]))});
    }
    brake_document_end(d);
}

static void causes(struct brake_document *d, const struct brake_spread *spread)
{
    static const struct brake_column column[] = {{"id", "cause", BRAKE_COLUMN},
                                                 {"words", "shared by", BRAKE_COLUMN},
                                                 {"correlation", "correlation", BRAKE_COLUMN},
                                                 {"source", "source", BRAKE_COLUMN}};
    brake_document_section(d, NULL, "Shared causes");
    brake_document_table(
        d, &(struct brake_table){.key = "causes", .none = "None.", .column = column, .columns = 4});
    for (int i = 0; i < spread->inputs.causes; i++) {
        const struct brake_cause *cause = brake_cause_at(spread->inputs.cause[i]);
        brake_document_row(d, (const struct brake_cell[]){
                                  brake_cell_text(cause->id), brake_cell_text(cause->words),
                                  brake_cell_form(cause->correlation, NULL, BRAKE_ONE_DECIMAL),
                                  brake_cell_text(cause->source)});
    }
    brake_document_end(d);
}

/* ---- results, inputs, indices --------------------------------------------------------------- */

static void result_row(struct brake_document *d, const struct brake_spread *spread, int number)
{
    const struct brake_result *row = brake_result_at(spread->result[number]);
    const struct brake_unit *unit = brake_part_result_unit(spread->result[number]);
    const struct brake_spread_output *output = &spread->output[spread->criteria + number];
    char path[80];
    brake_result_path(spread->result[number], path, sizeof path);
    struct brake_cell cell[9] = {brake_cell_text(path), brake_part_si(row->dimension),
                                 brake_cell_number(output->judged, NULL)};
    cell[0].quiet = !(output->judged > 0.0);
    for (int i = 0; i < BRAKE_PERCENTILES; i++) {
        cell[3 + i] = brake_cell_number(output->percentile[i], unit);
        cell[3 + i].text = isinf(output->percentile[i]) ? "no end" : NULL;
    }
    if (output->judged < 1.0)
        cell[8] = brake_cell_text(
            brake_document_words(d, "given in %.2f %% of the samples", percent(output->judged)));
    brake_document_row(d, cell);
}

static void results(struct brake_document *d, const struct brake_spread *spread)
{
    static const struct brake_column column[] = {{"path", "result", BRAKE_COLUMN},
                                                 {"unit", NULL, BRAKE_COLUMN},
                                                 {"given", NULL, BRAKE_COLUMN},
                                                 {"percentiles.p05", "p05", BRAKE_COLUMN},
                                                 {"percentiles.p25", "p25", BRAKE_COLUMN},
                                                 {"percentiles.p50", "p50", BRAKE_COLUMN},
                                                 {"percentiles.p75", "p75", BRAKE_COLUMN},
                                                 {"percentiles.p95", "p95", BRAKE_COLUMN},
                                                 {NULL, "", BRAKE_NOTE}};
    brake_document_section(d, NULL, "Results");
    brake_document_table(
        d, &(struct brake_table){.key = "results",
                                 .caption = "What 5, 25, 50, 75 and 95 of 100 samples stay below.",
                                 .column = column,
                                 .columns = 9});
    for (int i = 0; i < spread->results; i++)
        result_row(d, spread, i);
    brake_document_end(d);
}

/* Where 95 of 100 of the values drawn lie; a choice has none. */
static struct brake_cell end_of(const struct brake_input *input, double share)
{
    return input->choice
               ? brake_cell_nothing()
               : brake_cell_number(brake_distribution_value(&input->distribution, share), NULL);
}

static void inputs(struct brake_document *d, const struct brake_spread *spread)
{
    static const struct brake_column column[] = {
        {"path", NULL, BRAKE_COLUMN},      {"value", NULL, BRAKE_COLUMN},
        {"tolerance", NULL, BRAKE_COLUMN}, {"low", NULL, BRAKE_COLUMN},
        {"high", NULL, BRAKE_COLUMN},      {"unit", NULL, BRAKE_COLUMN},
        {"shape", NULL, BRAKE_COLUMN},     {"cause", NULL, BRAKE_COLUMN}};
    const struct brake_inputs *all = &spread->inputs;
    brake_document_table(d, &(struct brake_table){.key = "inputs", .column = column, .columns = 8});
    for (int i = 0; i < all->count; i++) {
        const struct brake_input *input = &all->input[i];
        const int cause = input->cause;
        brake_document_row(
            d, (const struct brake_cell[]){
                   brake_cell_text(name_of(d, spread, i)),
                   brake_cell_number(input->distribution.middle, NULL),
                   brake_cell_number(all->sheet->record[input->index].tolerance, NULL),
                   end_of(input, 0.025), end_of(input, 0.975),
                   brake_part_si(brake_quantity_at(input->index)->dimension),
                   brake_cell_text(brake_shape_word(input->distribution.shape)),
                   brake_cell_text(cause >= 0 ? brake_cause_at(all->cause[cause])->id : NULL)});
    }
}

static void indices(struct brake_document *d, const struct brake_spread *spread, int criterion)
{
    static const struct brake_column column[] = {{"path", NULL, BRAKE_COLUMN},
                                                 {"first", NULL, BRAKE_COLUMN},
                                                 {"first_error", NULL, BRAKE_COLUMN},
                                                 {"total", NULL, BRAKE_COLUMN},
                                                 {"total_error", NULL, BRAKE_COLUMN}};
    brake_document_table(d, &(struct brake_table){.key = brake_criterion_at(criterion)->id,
                                                  .keyed = true,
                                                  .column = column,
                                                  .columns = 5});
    for (int k = 0; k < brake_inputs_count(&spread->inputs); k++) {
        const struct brake_index index = brake_spread_index(spread, criterion, k);
        brake_document_row(
            d, (const struct brake_cell[]){
                   brake_cell_text(name_of(d, spread, k)), brake_cell_number(index.first, NULL),
                   brake_cell_number(index.first_error, NULL), brake_cell_number(index.total, NULL),
                   brake_cell_number(index.total_error, NULL)});
    }
}

static void sensitivity(struct brake_document *d, const struct brake_spread *spread)
{
    brake_document_section(d, "sensitivity", NULL);
    for (int i = 0; i < spread->criteria; i++) {
        const struct brake_output output = {.criterion = true, .index = i};
        if (brake_spread_draws(spread, i) && !brake_output_faded(output) && judged(spread, i))
            indices(d, spread, i);
    }
    brake_document_end(d);
}

void brake_answer_spread(struct brake_document *document, const struct brake_spread *spread)
{
    int order[BRAKE_CRITERIA];
    const int count = order_of(spread, order);
    brake_document_head(document, "How sure the brakes are", brake_part_name(spread->inputs.sheet));
    brake_part_told(document, spread->inputs.sheet);
    summary(document, spread);
    requirements(document, spread, order, count);
    decides(document, spread, order, count);
    causes(document, spread);
    results(document, spread);
    inputs(document, spread);
    sensitivity(document, spread);
}
