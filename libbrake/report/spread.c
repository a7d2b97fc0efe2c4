/* A spread in words: what is least sure first, then every requirement, what decides it, the results. */
#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "brake/file.h"
#include "brake/report.h"
#include "brake/version.h"
#include "paragraph.h"
#include "words.h"
#include "vehicle/text.h"

enum { LEADING = 3 /* how many that decide are named */ };

static double percent(double share)
{
    return 100.0 * share;
}

static bool judged(const struct brake_spread *spread, int criterion)
{
    return spread->output[criterion].judged > 0.0;
}

/* It applies, but lacks an input. */
static bool unsaid(const struct brake_spread *spread, int criterion)
{
    return brake_spread_draws(spread, criterion) && spread->judgement[criterion].applies &&
           !judged(spread, criterion);
}

__attribute__((format(printf, 3, 4))) static void add(char *text, size_t size, const char *format,
                                                      ...)
{
    va_list list;
    const size_t used = strlen(text);
    va_start(list, format);
    brake_text_format_list(text + used, size - used, format, list);
    va_end(list);
}

/* ---- what comes first ------------------------------------------------------------------------ */

static void verdict(const struct brake_spread *spread, FILE *stream)
{
    int all = 0;
    int rarely = 0;
    int lacking = 0;
    char text[400];
    for (int i = 0; i < spread->criteria; i++) {
        all += judged(spread, i);
        rarely += spread->output[i].met < 0.95;
        lacking += unsaid(spread, i);
    }
    if (all == 0)
        brake_text_format(text, sizeof text, "nothing could be judged");
    else if (rarely > 0)
        brake_text_format(
            text, sizeof text,
            "FALLS SHORT: %d of the %d requirements that could be judged %s met in fewer than "
            "95 of 100 samples",
            rarely, all, rarely == 1 ? "is" : "are");
    else
        brake_text_format(
            text, sizeof text,
            "meets each of the %d requirements that could be judged in 95 of 100 samples or "
            "more",
            all);
    if (all > 0)
        add(text, sizeof text, "; %.2f %% (+- %.2f) of the samples meet them all together",
            percent(spread->all_met), percent(spread->all_met_error));
    if (lacking > 0)
        add(text, sizeof text, "; of %d more it cannot say, an input is missing", lacking);
    brake_paragraph(stream, "Verdict   ", text);
}

static void limiting(const struct brake_spread *spread, int criterion, FILE *stream)
{
    const struct brake_criterion *c = brake_criterion_at(criterion);
    const struct brake_spread_output *output = &spread->output[criterion];
    char text[600];
    brake_text_format(
        text, sizeof text,
        "%s: met in %.2f %% of the samples (+- %.2f); margin %+.0f %%, 90 of 100 within %+.0f "
        "to %+.0f %%. [%s, %s; check against the current text]",
        c->title, percent(output->met), percent(output->met_error), percent(output->percentile[2]),
        percent(output->percentile[0]), percent(output->percentile[4]), c->id, c->clause);
    brake_paragraph(stream, "Limiting  ", text);
}

/* What a number is now, and how to measure it; what is shared, for a cause. */
static void describe(const struct brake_spread *spread, int number, char *text, size_t size)
{
    const struct brake_inputs *inputs = &spread->inputs;
    char value[2048];
    if (number >= inputs->count) {
        const struct brake_cause *cause = brake_cause_at(inputs->cause[number - inputs->count]);
        brake_text_format(text, size, "It stands for %s.", cause->words);
        return;
    }
    const int index = inputs->input[number].index;
    brake_value_write(&inputs->sheet->vehicle, index, value, sizeof value);
    brake_text_format(text, size, "It is now %.60s, %s. How: %s", value,
                      brake_from_word(inputs->sheet->record[index].from),
                      brake_quantity_at(index)->measure);
}

static void next_measurement(const struct brake_spread *spread, int criterion, FILE *stream)
{
    int number;
    char name[160];
    char how[600];
    char text[1000];
    if (brake_spread_leading(spread, criterion, &number, 1) == 0)
        return;
    const struct brake_index index = brake_spread_index(spread, criterion, number);
    brake_inputs_name(&spread->inputs, number, name, sizeof name);
    describe(spread, number, how, sizeof how);
    brake_text_format(text, sizeof text,
                      "%s better: it decides %.0f %% (+- %.0f) of the doubt in that "
                      "margin. %s",
                      name, percent(index.total), percent(index.total_error), how);
    brake_paragraph(stream, "Measure   ", text);
}

static void drawn(const struct brake_spread *spread, FILE *stream)
{
    char text[300];
    brake_text_format(
        text, sizeof text,
        "%d toleranced numbers and %d causes that some of them share, %ld times; for what "
        "decides, %ld times each. Seed %llu.",
        spread->inputs.count, spread->inputs.causes, spread->samples, spread->base,
        (unsigned long long)spread->seed);
    brake_paragraph(stream, "Drawn     ", text);
}

/* ---- requirements ---------------------------------------------------------------------------- */

static bool before(const struct brake_spread *spread, int x, int y)
{
    const struct brake_spread_output *a = &spread->output[x];
    const struct brake_spread_output *b = &spread->output[y];
    if (a->met < b->met || a->met > b->met)
        return a->met < b->met;
    return a->percentile[2] < b->percentile[2];
}

/* Those that could be judged, the least often met first. */
static int sorted(const struct brake_spread *spread, int order[BRAKE_CRITERIA])
{
    int count = 0;
    for (int i = 0; i < spread->criteria; i++) {
        if (!judged(spread, i))
            continue;
        int at = count++;
        for (; at > 0 && before(spread, i, order[at - 1]); at--)
            order[at] = order[at - 1];
        order[at] = i;
    }
    return count;
}

static void requirement(const struct brake_spread *spread, int criterion, FILE *stream)
{
    const struct brake_spread_output *output = &spread->output[criterion];
    brake_text_print(stream, "  %-27s %6.2f %5.2f", brake_criterion_at(criterion)->id,
                     percent(output->met), percent(output->met_error));
    for (int i = 0; i < BRAKE_PERCENTILES; i++) {
        if (isfinite(output->percentile[i]))
            brake_text_print(stream, " %+6.1f", percent(output->percentile[i]));
        else
            brake_text_print(stream, " %6s", "no end");
    }
    fputc('\n', stream);
    if (output->judged < 1.0)
        brake_text_print(stream, "    judged in %.2f %% of the samples\n", percent(output->judged));
}

static void not_judged(const struct brake_spread *spread, FILE *stream)
{
    for (int i = 0; i < spread->criteria; i++) {
        const struct brake_judgement *j = &spread->judgement[i];
        char text[300];
        if (!unsaid(spread, i))
            continue;
        brake_text_format(text, sizeof text, "%s: %s", brake_criterion_at(i)->id,
                          j->reason != NULL ? j->reason : "no sample gives a figure");
        brake_paragraph(stream, "  cannot say  ", text);
    }
}

static void requirements(const struct brake_spread *spread, const int *order, int count,
                         FILE *stream)
{
    fputs("\nREQUIREMENTS (check each against the current text of its clause), in percent\n"
          "                                 met    +-   margin of 5, 25, 50, 75, 95 of 100\n",
          stream);
    for (int i = 0; i < count; i++)
        requirement(spread, order[i], stream);
    not_judged(spread, stream);
    if (!spread->faded)
        fputs("  Hot performance is not drawn; --fade draws it, stopmargin check says it.\n",
              stream);
}

/* ---- what decides ---------------------------------------------------------------------------- */

static void decides(const struct brake_spread *spread, int criterion, FILE *stream)
{
    int number[LEADING];
    const int count = brake_spread_leading(spread, criterion, number, LEADING);
    char head[40];
    char text[700] = "";
    brake_text_format(head, sizeof head, "  %-27s ", brake_criterion_at(criterion)->id);
    for (int i = 0; i < count; i++) {
        const struct brake_index index = brake_spread_index(spread, criterion, number[i]);
        char name[160];
        brake_inputs_name(&spread->inputs, number[i], name, sizeof name);
        add(text, sizeof text, "%s%s %.0f (alone %.0f)", i > 0 ? ", " : "", name,
            percent(index.total), percent(index.first));
    }
    const struct brake_output output = {.criterion = true, .index = criterion};
    const char *none = brake_output_faded(output) ? "not worked out for hot performance"
                                                  : "nothing that can be told";
    brake_paragraph(stream, head, count > 0 ? text : none);
}

static void all_that_decides(const struct brake_spread *spread, const int *order, int count,
                             FILE *stream)
{
    fputs("\nWHAT DECIDES: percent of the doubt that stays while this alone is not known\n"
          "(alone: that goes once this alone is known)\n",
          stream);
    for (int i = 0; i < count; i++)
        decides(spread, order[i], stream);
}

static void causes(const struct brake_spread *spread, FILE *stream)
{
    for (int i = 0; i < spread->inputs.causes; i++) {
        const struct brake_cause *cause = brake_cause_at(spread->inputs.cause[i]);
        char text[300];
        brake_text_format(text, sizeof text, "%s: %s; correlation %.1f, %s", cause->id,
                          cause->words, cause->correlation, cause->source);
        brake_paragraph(stream, "  - ", text);
    }
}

/* ---- results --------------------------------------------------------------------------------- */

static void result(const struct brake_spread *spread, int number, FILE *stream)
{
    const int index = spread->result[number];
    const struct brake_result *row = brake_result_at(index);
    const struct brake_unit *unit = brake_unit_of(row->unit, row->dimension);
    const struct brake_unit *both[] = {unit, brake_unit_beside(unit)};
    const struct brake_spread_output *output = &spread->output[spread->criteria + number];
    char path[80];
    if (!(output->judged > 0.0))
        return;
    brake_result_path(index, path, sizeof path);
    for (int u = 0; u < (both[1] != both[0] ? 2 : 1); u++) {
        brake_text_print(stream, "  %-32s", u == 0 ? path : "");
        for (int i = 0; i < BRAKE_PERCENTILES; i++) {
            if (isfinite(output->percentile[i]))
                brake_text_print(stream, " %7.4g",
                                 brake_unit_from_si(both[u], output->percentile[i]));
            else
                brake_text_print(stream, " %7s", "no end");
        }
        brake_text_print(stream, "%s%s\n", both[u]->name[0] ? " " : "", both[u]->name);
    }
    if (output->judged < 1.0)
        brake_text_print(stream, "    given in %.2f %% of the samples\n", percent(output->judged));
}

static void results(const struct brake_spread *spread, FILE *stream)
{
    fputs("\nNUMBERS that 5, 25, 50, 75 and 95 of 100 samples stay below\n", stream);
    for (int i = 0; i < spread->results; i++)
        result(spread, i, stream);
}

void brake_report_spread_text(const struct brake_spread *spread, FILE *stream)
{
    const char *name = spread->inputs.sheet->vehicle.general.name;
    const int least = brake_spread_limiting(spread);
    int order[BRAKE_CRITERIA];
    const int count = sorted(spread, order);
    brake_text_print(stream, "%s\n", name[0] != '\0' ? name : "Vehicle without a name");
    verdict(spread, stream);
    if (least >= 0) {
        limiting(spread, least, stream);
        next_measurement(spread, least, stream);
    }
    brake_paragraph(stream, "Caution   ", BRAKE_CAUTION);
    drawn(spread, stream);
    requirements(spread, order, count, stream);
    all_that_decides(spread, order, count, stream);
    causes(spread, stream);
    results(spread, stream);
    fputc('\n', stream);
    brake_paragraph(stream, "Caution   ", BRAKE_CAUTION);
    brake_text_print(stream, "libbrake %s\n", BRAKE_VERSION);
}
