/* SPDX-License-Identifier: MIT */
/* The answer of `compare`: what each change between two vehicles took or gave. */
#include <math.h>
#include <string.h>

#include "parts.h"
#include "vehicle/text.h"
#include "study/change.h"
#include "study/comparing.h"

enum { GROUP_COLUMNS = 12, COLUMNS = GROUP_COLUMNS + BRAKE_CHANGES };

static const char *axle_words(int axle)
{
    return axle == BRAKE_BOTH_AXLES ? "both" : brake_axle_word((enum brake_axle)axle);
}

/* ---- shares --------------------------------------------------------------------------------- */

/* Less is rounding. */
static double least_of(const struct brake_compared *one)
{
    return 1e-9 * fmax(fabs(one->before), fabs(one->after));
}

bool brake_part_moves(const struct brake_compared *one, int change)
{
    return fabs(one->share[change]) > least_of(one);
}

static bool more(const void *share, int x, int y)
{
    const double *of = share;
    return fabs(of[x]) > fabs(of[y]);
}

int brake_part_largest(const double share[BRAKE_CHANGES], double least, int order[BRAKE_CHANGES])
{
    int count = 0;
    for (int i = 0; i < BRAKE_CHANGES; i++) {
        if (fabs(share[i]) > least)
            count = brake_part_insert(order, count, i, more, share);
    }
    return count;
}

const char *brake_part_shares(struct brake_document *d, const struct brake_compared *one,
                              const struct brake_unit *unit)
{
    const char *all = NULL;
    int order[BRAKE_CHANGES];
    if (one->reason != NULL)
        return brake_document_words(d, "no shares: %s", one->reason);
    const int count = brake_part_largest(one->share, least_of(one), order);
    for (int i = 0; i < count; i++) {
        const char *share =
            brake_document_amount(d, brake_cell_difference(one->share[order[i]], unit));
        const char *word = brake_change_name((enum brake_change)order[i]);
        all = brake_document_join(d, all, "; ", brake_document_words(d, "%s %s", word, share));
    }
    return all;
}

/* A column a group of changes, for programs. Returns the number of columns. */
static int add_groups(struct brake_document *d, const struct brake_comparison *c, int columns,
                      struct brake_column column[COLUMNS])
{
    for (int i = 0; i < c->changes; i++)
        column[columns++] = (struct brake_column){
            brake_document_words(d, "shares.%s", brake_change_word(c->change[i])), NULL,
            BRAKE_COLUMN};
    return columns;
}

static void add_shares(const struct brake_comparison *c, const struct brake_compared *one,
                       int columns, struct brake_cell cell[COLUMNS])
{
    for (int i = 0; i < c->changes; i++)
        cell[columns++] = one->reason == NULL ? brake_cell_number(one->share[c->change[i]], NULL)
                                              : brake_cell_nothing();
}

/* ---- verdict -------------------------------------------------------------------------------- */

static const char *axles_of(struct brake_document *d, const struct brake_comparison *c)
{
    const char *all = "";
    for (int load = 0; load < BRAKE_LOADS; load++)
        for (int axle = 0; axle < BRAKE_AXLES; axle++) {
            const double lacks = brake_like_missing(&c->like[load][axle]);
            if (lacks > BRAKE_AS_BEFORE)
                all =
                    brake_document_words(d, "%s; %s axle, %s: %.3g %% less", all, axle_words(axle),
                                         brake_load_word((enum brake_load)load), 100.0 * lacks);
        }
    return all;
}

static const char *regained(struct brake_document *d, const struct brake_comparison *c,
                            const struct brake_before *before)
{
    static const char *const words[] = {[BRAKE_MEETS] = "regained",
                                        [BRAKE_FALLS_SHORT] = "NOT REGAINED",
                                        [BRAKE_CANNOT_SAY] = "cannot say whether it is regained"};
    const char *axles = axles_of(d, c);
    if (isnan(before->of[BRAKE_BOTH_AXLES].ratio))
        return brake_document_words(d, "%s: the torque per need is not known%s",
                                    words[BRAKE_CANNOT_SAY], axles);
    return brake_document_words(
        d, "%s: more than %.0f %% of the brake torque per need is missing in %.0f of 100%s",
        words[before->verdict], 100.0 * BRAKE_AS_BEFORE, 100.0 * before->less, axles);
}

static const char *lost(struct brake_document *d, const struct brake_comparison *c)
{
    const char *all = NULL;
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (brake_compare_lost(c, i))
            all = brake_document_join(d, all, ", ", brake_criterion_at(i)->id);
    }
    return all != NULL ? brake_document_words(d, "met before, FALLS SHORT now: %s", all)
                       : "nothing that was met before falls short now";
}

static const char *as_it_is(struct brake_document *d, const struct brake_comparison *c)
{
    struct brake_ruling ruling;
    brake_compare_ruling(c, 1, &ruling);
    return brake_part_now(d, &c->after->vehicle, &ruling, c->faded);
}

/* The group that took most, or gave most; -1: none did. */
static int extreme(const struct brake_compared *one, double sign)
{
    int most = -1;
    for (int i = 0; i < BRAKE_CHANGES && one->reason == NULL; i++) {
        if (brake_part_moves(one, i) && sign * one->share[i] > 0.0 &&
            (most < 0 || sign * one->share[i] > sign * one->share[most]))
            most = i;
    }
    return most;
}

static void lost_list(struct brake_document *d, const struct brake_comparison *c)
{
    static const struct brake_column column[] = {{"id", NULL, BRAKE_COLUMN}};
    brake_document_table(d, &(struct brake_table){.key = "lost", .column = column, .columns = 1});
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (brake_compare_lost(c, i))
            brake_document_row(
                d, (const struct brake_cell[]){brake_cell_text(brake_criterion_at(i)->id)});
    }
}

static struct brake_cell truth_of(enum brake_verdict verdict)
{
    return verdict == BRAKE_CANNOT_SAY ? brake_cell_nothing()
                                       : brake_cell_truth(verdict == BRAKE_MEETS);
}

static void verdict(struct brake_document *d, const struct brake_comparison *c,
                    const struct brake_before *before)
{
    const enum brake_load load = brake_compare_worst(c);
    const struct brake_compared *both = &c->like[load][BRAKE_BOTH_AXLES];
    const double missing = brake_like_missing(both);
    const struct brake_study_results given = {.compare.missing = missing};
    const int took = extreme(both, -1.0);
    const int gave = extreme(both, 1.0);
    brake_document_section(d, "verdict", NULL);
    brake_document_fact(d, "regained", NULL, truth_of(before->verdict));
    brake_document_say(d, NULL, "Verdict", regained(d, c, before));
    brake_document_say(d, NULL, "Now", as_it_is(d, c));
    brake_document_fact(d, "missing", NULL,
                        brake_part_study(&given, brake_result_find("compare.missing")));
    brake_document_fact(d, "load", NULL, brake_cell_text(brake_load_word(load)));
    brake_document_fact(
        d, "took_most", NULL,
        brake_cell_text(took >= 0 ? brake_change_word((enum brake_change)took) : NULL));
    brake_document_fact(
        d, "gave_most", NULL,
        brake_cell_text(gave >= 0 ? brake_change_word((enum brake_change)gave) : NULL));
    brake_document_say(d, NULL, "Lost", lost(d, c));
    lost_list(d, c);
    brake_document_end(d);
}

static void side(struct brake_document *d, const struct brake_comparison *c, int which)
{
    const struct brake_sheet *sheet = which == 0 ? c->before : c->after;
    struct brake_ruling ruling;
    brake_compare_ruling(c, which, &ruling);
    brake_document_section(d, which == 0 ? "before" : "after", NULL);
    brake_document_fact(d, "name", NULL, brake_cell_text(sheet->vehicle.general.name));
    brake_document_fact(d, "meets", NULL, brake_cell_count(ruling.counted.meets));
    brake_document_fact(d, "falls_short", NULL, brake_cell_count(ruling.counted.falls_short));
    brake_document_fact(d, "cannot_say", NULL, brake_cell_count(ruling.counted.cannot_say));
    brake_document_end(d);
}

static void groups(struct brake_document *d, const struct brake_comparison *c)
{
    static const struct brake_column column[] = {{"id", NULL, BRAKE_COLUMN},
                                                 {"meaning", NULL, BRAKE_COLUMN}};
    brake_document_table(d, &(struct brake_table){.key = "groups", .column = column, .columns = 2});
    for (int i = 0; i < c->changes; i++)
        brake_document_row(
            d, (const struct brake_cell[]){brake_cell_text(brake_change_word(c->change[i])),
                                           brake_cell_text(brake_change_meaning(c->change[i]))});
}

/* ---- like for like -------------------------------------------------------------------------- */

static void like_row(struct brake_document *d, const struct brake_comparison *c, int load, int axle)
{
    const struct brake_compared *one = &c->like[load][axle];
    const double missing = brake_like_missing(one);
    struct brake_cell cell[COLUMNS] = {
        brake_cell_text(axle_words(axle)),
        brake_cell_number(one->before, NULL),
        brake_cell_number(one->after, NULL),
        brake_cell_number(one->after - one->before, NULL),
        brake_cell_form(missing, brake_unit_find("%"), BRAKE_THREE_DIGITS),
        brake_cell_text(one->reason),
        brake_cell_text(brake_part_shares(d, one, brake_unit_si(BRAKE_RATIO)))};
    add_shares(c, one, 7, cell);
    brake_document_row(d, cell);
}

static void like_for_like(struct brake_document *d, const struct brake_comparison *c)
{
    struct brake_column column[COLUMNS] = {{"axle", "axle", BRAKE_COLUMN},
                                           {"before", "before", BRAKE_COLUMN},
                                           {"after", "now", BRAKE_COLUMN},
                                           {"difference", NULL, BRAKE_COLUMN},
                                           {"missing", "less by", BRAKE_COLUMN},
                                           {"reason", NULL, BRAKE_COLUMN},
                                           {NULL, "", BRAKE_NOTE}};
    const int columns = add_groups(d, c, 7, column);
    brake_document_section(d, "like_for_like", "Like for like");
    for (int load = 0; load < BRAKE_LOADS; load++) {
        const char *word = brake_load_word((enum brake_load)load);
        brake_document_table(
            d, &(struct brake_table){.key = word,
                                     .caption = brake_document_words(
                                         d,
                                         "Torque available over torque needed for driver.target, "
                                         "load %s; below each what every group of changes did",
                                         word),
                                     .keyed = true,
                                     .column = column,
                                     .columns = columns});
        for (int axle = 0; axle <= BRAKE_BOTH_AXLES; axle++)
            like_row(d, c, load, axle);
    }
    brake_document_end(d);
}

/* ---- margins -------------------------------------------------------------------------------- */

static const char *verdict_of(const struct brake_comparison *c, int margin, int which)
{
    const struct brake_output output = c->output[margin];
    return output.criterion ? brake_verdict_words(c->judgement[which][output.index].verdict) : NULL;
}

static const char *reason_of(const struct brake_comparison *c, int margin, int which)
{
    const struct brake_output output = c->output[margin];
    return output.criterion ? c->judgement[which][output.index].reason : NULL;
}

static struct brake_cell side_of(const struct brake_comparison *c, int margin, double value)
{
    const struct brake_output output = c->output[margin];
    struct brake_cell cell = brake_cell_form(value, brake_part_output_unit(output),
                                             output.criterion ? BRAKE_SIGNED : BRAKE_FOUR_DIGITS);
    cell.text = isinf(value) ? "without limit" : NULL;
    return cell;
}

/* What is not said, or what the groups did. */
static const char *note_of(struct brake_document *d, const struct brake_comparison *c, int margin)
{
    const struct brake_compared *one = &c->margin[margin];
    const char *shares = brake_part_shares(d, one, brake_part_output_unit(c->output[margin]));
    const char *why = isfinite(one->before) && isfinite(one->after)
                          ? NULL
                          : reason_of(c, margin, isnan(one->before) ? 0 : 1);
    if (why == NULL)
        return shares;
    return shares != NULL ? brake_document_words(d, "%s; %s", why, shares) : why;
}

static void margin_row(struct brake_document *d, const struct brake_comparison *c, int margin)
{
    const struct brake_compared *one = &c->margin[margin];
    const struct brake_output output = c->output[margin];
    char name[80];
    brake_output_name(output, name, sizeof name);
    struct brake_cell cell[COLUMNS] = {
        brake_cell_text(name),
        brake_part_si(brake_output_dimension(output)),
        side_of(c, margin, one->before),
        brake_cell_text(verdict_of(c, margin, 0)),
        side_of(c, margin, one->after),
        brake_cell_text(verdict_of(c, margin, 1)),
        brake_cell_difference(one->after - one->before, brake_part_output_unit(output)),
        brake_cell_text(one->reason),
        brake_cell_text(reason_of(c, margin, 0)),
        brake_cell_text(reason_of(c, margin, 1)),
        brake_cell_text(note_of(d, c, margin))};
    add_shares(c, one, 11, cell);
    brake_document_row(d, cell);
}

/* One table of requirements, one of results; people see no verdict of a result. */
static void margins_of(struct brake_document *d, const struct brake_comparison *c, bool criteria)
{
    struct brake_column column[COLUMNS] = {
        {criteria ? "id" : "path", criteria ? "margin of" : "result", BRAKE_COLUMN},
        {"unit", NULL, BRAKE_COLUMN},
        {"before", "before", BRAKE_COLUMN},
        {criteria ? "verdict_before" : NULL, criteria ? "" : NULL, BRAKE_COLUMN},
        {"after", "now", BRAKE_COLUMN},
        {criteria ? "verdict_after" : NULL, criteria ? "" : NULL, BRAKE_COLUMN},
        {"difference", "change", BRAKE_COLUMN},
        {"reason", NULL, BRAKE_COLUMN},
        {criteria ? "reason_before" : NULL, NULL, BRAKE_COLUMN},
        {criteria ? "reason_after" : NULL, NULL, BRAKE_COLUMN},
        {NULL, "", BRAKE_NOTE}};
    const int columns = add_groups(d, c, 11, column);
    const char *hot = c->faded ? "" : " Hot performance: with --fade.";
    brake_document_table(
        d, &(struct brake_table){
               .key = criteria ? "margins" : "shared_results",
               .caption = criteria ? brake_document_words(
                                         d,
                                         "Requirements, restated; check each against the current "
                                         "text.%s",
                                         hot)
                                   : "Results",
               .column = column,
               .columns = columns});
    for (int i = 0; i < c->margins; i++) {
        if (c->output[i].criterion == criteria)
            margin_row(d, c, i);
    }
}

/* ---- results and lines that differ ---------------------------------------------------------- */

static bool differs(double before, double after)
{
    return isnan(before) != isnan(after) || before < after || before > after;
}

static void result_row(struct brake_document *d, const struct brake_comparison *c, int result,
                       const char *name)
{
    const struct brake_result *row = brake_result_at(result);
    const double before = brake_result_value(&c->results[0], result);
    const double after = brake_result_value(&c->results[1], result);
    if (differs(before, after))
        brake_document_row(
            d, (const struct brake_cell[]){
                   brake_cell_text(name), brake_part_si(row->dimension),
                   brake_part_result(&c->results[0], result),
                   brake_part_result(&c->results[1], result),
                   brake_cell_difference(after - before, brake_part_result_unit(result))});
}

/* For programs all of them by their paths; for people a table a load case, whose names are
 * shorter. */
static void results(struct brake_document *d, const struct brake_comparison *c)
{
    static const struct brake_column all[] = {{"path", NULL, BRAKE_COLUMN},
                                              {"unit", NULL, BRAKE_COLUMN},
                                              {"before", NULL, BRAKE_COLUMN},
                                              {"after", NULL, BRAKE_COLUMN},
                                              {"difference", NULL, BRAKE_COLUMN}};
    static const struct brake_column part[] = {{NULL, "result", BRAKE_COLUMN},
                                               {NULL, NULL, BRAKE_COLUMN},
                                               {NULL, "before", BRAKE_COLUMN},
                                               {NULL, "now", BRAKE_COLUMN},
                                               {NULL, "change", BRAKE_COLUMN}};
    static const char *const heads[] = {"In either load case:", "Empty:", "Full:"};
    const int from[] = {0, brake_result_find("empty.mass.total"),
                        brake_result_find("full.mass.total"), brake_result_count()};
    brake_document_table(d, &(struct brake_table){.key = "results", .column = all, .columns = 5});
    for (int i = 0; i < brake_result_count(); i++) {
        char path[80];
        brake_result_path(i, path, sizeof path);
        result_row(d, c, i, path);
    }
    brake_document_section(d, NULL, "Results that differ");
    for (int k = 0; k < 3; k++) {
        brake_document_table(
            d, &(struct brake_table){
                   .caption = heads[k], .none = "None.", .column = part, .columns = 5});
        for (int i = from[k]; i < from[k + 1]; i++)
            result_row(d, c, i, brake_result_at(i)->name);
    }
    brake_document_end(d);
}

static void lines(struct brake_document *d, const struct brake_comparison *c)
{
    static const struct brake_column column[] = {{"path", "line", BRAKE_COLUMN},
                                                 {"group", "group", BRAKE_COLUMN},
                                                 {"unit", NULL, BRAKE_COLUMN},
                                                 {"before", "before", BRAKE_COLUMN},
                                                 {"after", "now", BRAKE_COLUMN}};
    struct brake_changed_line line[2 * BRAKE_ROWS];
    const int count = brake_changed_lines(c->before, c->after, line);
    brake_document_section(d, NULL, "Lines that differ");
    brake_document_table(
        d, &(struct brake_table){.key = "lines", .none = "None.", .column = column, .columns = 5});
    for (int i = 0; i < count; i++) {
        const bool old = line[i].before >= 0;
        const int index = old ? line[i].before : line[i].after;
        const struct brake_sheet *sheet = old ? c->before : c->after;
        brake_document_row(d, (const struct brake_cell[]){
                                  brake_cell_text(brake_part_path(d, &sheet->vehicle, index)),
                                  brake_cell_text(brake_change_word(brake_change_of(index))),
                                  brake_part_si(brake_quantity_at(index)->dimension),
                                  brake_part_given(d, c->before, line[i].before),
                                  brake_part_given(d, c->after, line[i].after)});
    }
    brake_document_end(d);
}

void brake_answer_comparison(struct brake_document *document,
                             const struct brake_comparison *comparison,
                             const struct brake_before *before)
{
    brake_document_head(document, "Brakes before and after a change",
                        brake_part_name(comparison->after));
    brake_document_say(document, NULL, "Before", brake_part_name(comparison->before));
    brake_document_say(document, NULL, "After", brake_part_name(comparison->after));
    brake_part_before(document, before);
    brake_part_told(document, comparison->after);
    verdict(document, comparison, before);
    side(document, comparison, 0);
    side(document, comparison, 1);
    groups(document, comparison);
    like_for_like(document, comparison);
    brake_document_section(document, NULL, "Margins, and what each change did to them");
    margins_of(document, comparison, true);
    margins_of(document, comparison, false);
    brake_document_end(document);
    results(document, comparison);
    lines(document, comparison);
}
