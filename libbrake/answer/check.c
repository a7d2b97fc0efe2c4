/* SPDX-License-Identifier: MIT */
/* The answer of `check`: is it adequate, by how much, what limits. */
#include <math.h>

#include "brake/file.h"
#include "brake/warnings.h"
#include "parts.h"
#include "criteria/judge.h"
#include "criteria/meanings.h"
#include "criteria/scope.h"
#include "study/conformance.h"

static const char YARDSTICK[] = "Yardstick";

/* ---- verdict -------------------------------------------------------------------------------- */

static const char *state_of(struct brake_document *d, const struct brake_judgement *j)
{
    return brake_document_words(d, "%s%s%s", brake_load_word(j->load),
                                j->failure == BRAKE_INTACT ? "" : ", ",
                                brake_failure_words(j->failure));
}

static struct brake_cell value_of(const struct brake_assessment *a, int criterion)
{
    const enum brake_measure measure = brake_criterion_at(criterion)->measure;
    struct brake_cell cell =
        brake_cell_number(a->judgement[criterion].value, brake_part_unit(measure));
    cell.text = brake_measure_dimension(measure) == BRAKE_LENGTH ? "never" : "without limit";
    return cell;
}

static const char *limit_word(enum brake_measure measure)
{
    return brake_measure_at_most(measure) ? "at most" : "at least";
}

static struct brake_cell limit_of(const struct brake_assessment *a, int criterion)
{
    const enum brake_measure measure = brake_criterion_at(criterion)->measure;
    struct brake_cell cell =
        brake_cell_number(a->judgement[criterion].limit, brake_part_unit(measure));
    cell.before = limit_word(measure);
    return cell;
}

struct brake_cell brake_part_margin(double margin)
{
    struct brake_cell cell = brake_cell_form(margin, brake_unit_find("%"), BRAKE_SIGNED_WHOLE);
    cell.text = isinf(margin) ? "without limit" : NULL;
    return cell;
}

static const char *range_of(struct brake_document *d, const struct brake_conformance *conformance)
{
    const double low = conformance->margin[0];
    const double high = conformance->margin[BRAKE_MARGIN_STEPS - 1];
    return isfinite(low) && isfinite(high)
               ? brake_document_words(d, "%+.0f to %+.0f %%", 100.0 * low, 100.0 * high)
               : NULL;
}

const char *brake_part_share(struct brake_document *d, double met)
{
    const double hundredths = 100.0 * met;
    if (hundredths > 99.0 && hundredths < 100.0)
        return "over 99 of 100";
    if (hundredths > 0.0 && hundredths < 1.0)
        return "under 1 of 100";
    return brake_document_words(d, "%.0f of 100", hundredths);
}

/* The word rests on the lower end of what the samples tell: both are told where the share by itself
 * would have another. */
static const char *share_told(struct brake_document *d, const struct brake_conformance *c)
{
    if (brake_conformance_word(c->met) == brake_conformance_word(c->met_low))
        return brake_part_share(d, c->met);
    return brake_document_words(d, "%.0f to %.0f of 100", floor(100.0 * c->met_low),
                                floor(100.0 * c->met_high));
}

const char *brake_part_met(struct brake_document *d, const struct brake_conformance *conformance)
{
    const char *share = share_told(d, conformance);
    if (conformance->samples == 0)
        return NULL;
    if (conformance->failed == 0)
        return share;
    return brake_document_words(d, "%s; %ld of %ld not: %s", share, conformance->failed,
                                conformance->samples, conformance->failing);
}

/* What the words would turn on that was left out: the lines, the most frequent first. */
static void say_defaults(struct brake_document *d, const struct brake_sheet *sheet,
                         const struct brake_assessment *a)
{
    const char *lines = NULL;
    int resting = 0;
    bool named[BRAKE_ROWS] = {false};
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_conformance *conformance = &a->conformance.of[i];
        if (!conformance->rests_on_defaults)
            continue;
        resting++;
        if (conformance->leading < 0 || named[conformance->leading] ||
            sheet->record[conformance->leading].from != BRAKE_DEFAULT)
            continue;
        named[conformance->leading] = true;
        lines = brake_document_join(d, lines, ", ",
                                    brake_part_path(d, &sheet->vehicle, conformance->leading));
    }
    brake_document_fact(d, "rest_on_defaults", NULL, brake_cell_count(resting));
    if (resting > 0)
        brake_document_say(
            d, NULL, "Left out",
            brake_document_words(d,
                                 "%d of these could turn with usual values of lines that were "
                                 "left out%s%s.",
                                 resting, lines != NULL ? ", first of them " : "",
                                 lines != NULL ? lines : ""));
}

/* Of the whole answer, with the clause. */
static const char *limiting_of(struct brake_document *d, const struct brake_assessment *a)
{
    const char *loss = brake_part_loss(d, a);
    const int criterion = a->limiting;
    if (loss != NULL || criterion < 0)
        return loss;
    const struct brake_criterion *c = brake_criterion_at(criterion);
    const struct brake_conformance *conformance = &a->conformance.of[criterion];
    const double margin = a->judgement[criterion].margin;
    const char *range = range_of(d, conformance);
    const char *met = brake_part_met(d, conformance);
    return brake_document_words(
        d, "%s, %s: %s against %s; margin %s%s%s%s%s. [%s, %s; check against the current text]",
        c->title, state_of(d, &a->judgement[criterion]),
        brake_document_amount(d, value_of(a, criterion)),
        brake_document_amount(d, limit_of(a, criterion)),
        brake_document_amount(d, brake_part_margin(margin)),
        range != NULL ? ", 90 of 100 within " : "", range != NULL ? range : "",
        met != NULL ? ", met by " : "", met != NULL ? met : "", c->id, c->clause);
}

const char *brake_part_limits(struct brake_document *d, const struct brake_assessment *a)
{
    const char *loss = brake_part_loss(d, a);
    if (loss != NULL || a->limiting < 0)
        return loss;
    const struct brake_criterion *c = brake_criterion_at(a->limiting);
    const char *met = brake_part_met(d, &a->conformance.of[a->limiting]);
    return brake_document_words(d, "%s: %s against %s%s%s. [%s]", c->title,
                                brake_document_amount(d, value_of(a, a->limiting)),
                                brake_document_amount(d, limit_of(a, a->limiting)),
                                met != NULL ? ", met by " : "", met != NULL ? met : "", c->id);
}

/* It is drawn by itself, so that no share of all at once holds it. */
static const char *but_the_loss(const struct brake_assessment *a)
{
    return a->before != NULL && a->before->verdict != BRAKE_MEETS ? " but the loss" : "";
}

const char *brake_part_stands(struct brake_document *d, const struct brake_vehicle *vehicle,
                              const struct brake_assessment *a)
{
    return brake_document_words(d, "%s. All%s at once: %.0f of 100.",
                                brake_part_ruling(d, vehicle, &a->ruling), but_the_loss(a),
                                100.0 * a->conformance.all_met);
}

/* For programs: how many rows there are of each verdict. */
static void tallied(struct brake_document *d, const char *before, const struct brake_tally *t)
{
    const struct {
        const char *key;
        int count;
    } of[] = {{"meets", t->meets},
              {"falls_short", t->falls_short},
              {"cannot_say", t->cannot_say},
              {"lacking", t->lacking}};
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++)
        brake_document_fact(d, brake_document_words(d, "%s%s", before, of[i].key), NULL,
                            brake_cell_count(of[i].count));
}

void brake_part_verdict(struct brake_document *d, const struct brake_sheet *sheet,
                        const struct brake_assessment *a)
{
    brake_document_section(d, "summary", NULL);
    brake_document_say(d, "verdict", "Verdict", brake_part_ruling(d, &sheet->vehicle, &a->ruling));
    tallied(d, "", &a->ruling.counted);
    brake_document_fact(d, "unread", NULL, brake_cell_count(a->ruling.unread));
    brake_document_fact(d, "unstated", NULL, brake_cell_text(a->ruling.unstated));
    if (brake_part_yardsticks(d, &a->ruling) != NULL)
        brake_document_say(d, NULL, YARDSTICK, brake_part_yardsticks(d, &a->ruling));
    tallied(d, "yardstick_", &a->ruling.of[BRAKE_YARDSTICK]);
    brake_document_fact(
        d, "limiting", NULL,
        brake_cell_text(a->limiting >= 0 ? brake_criterion_at(a->limiting)->id : NULL));
    const char *limiting = limiting_of(d, a);
    if (limiting != NULL)
        brake_document_say(d, NULL, "Limiting", limiting);
    brake_document_fact(d, "p_all", NULL, brake_cell_number(a->conformance.all_met, NULL));
    brake_document_say(d, NULL, "Together",
                       brake_document_words(d,
                                            "all that counts and could be judged%s is met at once "
                                            "by %.0f of 100",
                                            but_the_loss(a), 100.0 * a->conformance.all_met));
    say_defaults(d, sheet, a);
    brake_document_say(d, "do", "Do", brake_part_do(d, a));
    brake_document_fact(
        d, "measure_next", NULL,
        brake_cell_text(a->conformance.settle.lines > 0
                            ? brake_part_path(d, &sheet->vehicle, a->conformance.settle.line[0])
                            : NULL));
    brake_document_say(d, "measure", "Measure", brake_part_measure(d, sheet, a));
    brake_document_end(d);
}

/* ---- requirements --------------------------------------------------------------------------- */

/* By scope; falls short before meets before cannot say; the smaller margin first; then in their
 * order. */
static bool before(const void *assessment, int x, int y)
{
    static const int rank[] = {[BRAKE_FALLS_SHORT] = 0, [BRAKE_MEETS] = 1, [BRAKE_CANNOT_SAY] = 2};
    static const int scope[] = {[BRAKE_HAZARD] = 0,
                                [BRAKE_BINDS] = 1,
                                [BRAKE_YARDSTICK] = 2,
                                [BRAKE_SCREEN] = 3,
                                [BRAKE_OUTSIDE] = 4};
    const struct brake_assessment *a = assessment;
    const struct brake_judgement *jx = &a->judgement[x];
    const struct brake_judgement *jy = &a->judgement[y];
    if (jx->scope != jy->scope)
        return scope[jx->scope] < scope[jy->scope];
    if (jx->verdict != jy->verdict)
        return rank[jx->verdict] < rank[jy->verdict];
    if (jx->margin < jy->margin || jx->margin > jy->margin)
        return jx->margin < jy->margin;
    return x < y;
}

int brake_part_order(const struct brake_assessment *a, int order[BRAKE_CRITERIA])
{
    int count = 0;
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (a->judgement[i].scope != BRAKE_OUTSIDE)
            count = brake_part_insert(order, count, i, before, a);
    }
    return count;
}

/* What a row is called, where it stands, and what it is worth. */
static const char *mark_of(struct brake_document *d, const struct brake_criterion *c,
                           const struct brake_judgement *j)
{
    const char *severity = brake_severity_word(c, j);
    if (j->scope == BRAKE_HAZARD)
        return brake_document_words(d, "%s, %s", c->id, c->clause);
    return brake_document_words(d, "%s, %s; %s; read: %s%s%s", c->id, c->clause,
                                brake_scope_word(j->scope), brake_read_word(c->read),
                                severity != NULL ? "; the text calls it " : "",
                                severity != NULL ? severity : "");
}

static void criterion_row(struct brake_document *d, const struct brake_assessment *a, int criterion)
{
    const struct brake_criterion *c = brake_criterion_at(criterion);
    const struct brake_judgement *j = &a->judgement[criterion];
    const bool said = j->reason == NULL;
    const bool known = !isnan(j->margin);
    const struct brake_conformance *conformance = &a->conformance.of[criterion];
    const struct brake_cell nothing = brake_cell_nothing();
    brake_document_row(
        d, (const struct brake_cell[]){
               brake_cell_text(c->id),
               brake_cell_text(c->clause),
               brake_cell_text(c->title),
               brake_cell_text(brake_scope_word(j->scope)),
               brake_cell_text(brake_verdict_words(j->verdict)),
               brake_cell_text(said ? brake_document_words(d, "%s, %s", c->title, state_of(d, j))
                                    : c->title),
               brake_cell_text(j->reason),
               brake_cell_text(mark_of(d, c, j)),
               value_of(a, criterion),
               limit_of(a, criterion),
               said ? value_of(a, criterion) : nothing,
               said ? limit_of(a, criterion) : nothing,
               brake_cell_text(limit_word(c->measure)),
               brake_part_si(brake_measure_dimension(c->measure)),
               brake_cell_number(j->margin, NULL),
               said ? brake_part_margin(j->margin) : nothing,
               brake_cell_number(conformance->margin[0], NULL),
               brake_cell_number(conformance->margin[BRAKE_MARGIN_STEPS - 1], NULL),
               brake_cell_text(said ? range_of(d, conformance) : NULL),
               brake_cell_number(conformance->met, NULL),
               brake_cell_number(conformance->met_low, NULL),
               brake_cell_number(conformance->met_high, NULL),
               brake_cell_text(brake_part_met(d, conformance)),
               brake_cell_count((int)conformance->samples),
               brake_cell_count((int)conformance->failed),
               brake_cell_text(conformance->failing),
               brake_cell_truth(conformance->rests_on_defaults),
               brake_cell_text(known ? brake_load_word(j->load) : NULL),
               brake_cell_text(known ? brake_failure_words(j->failure) : NULL),
               brake_cell_text(brake_read_word(c->read)),
               brake_cell_text(c->text),
               brake_cell_text(brake_severity_word(c, j)),
               brake_cell_text("check against the current text")});
}

void brake_part_criteria(struct brake_document *d, const struct brake_assessment *a)
{
    static const struct brake_column column[] = {{"id", NULL, BRAKE_COLUMN},
                                                 {"clause", NULL, BRAKE_COLUMN},
                                                 {"title", NULL, BRAKE_COLUMN},
                                                 {"scope", NULL, BRAKE_COLUMN},
                                                 {"verdict", "verdict", BRAKE_COLUMN},
                                                 {NULL, "requirement", BRAKE_COLUMN},
                                                 {"reason", "", BRAKE_NOTE},
                                                 {NULL, "", BRAKE_DETAIL},
                                                 {"value", NULL, BRAKE_COLUMN},
                                                 {"limit", NULL, BRAKE_COLUMN},
                                                 {NULL, "value", BRAKE_COLUMN},
                                                 {NULL, "limit", BRAKE_COLUMN},
                                                 {"limit_is", NULL, BRAKE_COLUMN},
                                                 {"unit", NULL, BRAKE_COLUMN},
                                                 {"margin", NULL, BRAKE_COLUMN},
                                                 {NULL, "margin", BRAKE_COLUMN},
                                                 {"margin_p05", NULL, BRAKE_COLUMN},
                                                 {"margin_p95", NULL, BRAKE_COLUMN},
                                                 {NULL, "90 of 100 within", BRAKE_COLUMN},
                                                 {"p_meets", NULL, BRAKE_COLUMN},
                                                 {"p_low", NULL, BRAKE_COLUMN},
                                                 {"p_high", NULL, BRAKE_COLUMN},
                                                 {NULL, "met by", BRAKE_COLUMN},
                                                 {"samples", NULL, BRAKE_COLUMN},
                                                 {"not_worked_out", NULL, BRAKE_COLUMN},
                                                 {"not_worked_out_why", NULL, BRAKE_COLUMN},
                                                 {"rests_on_defaults", NULL, BRAKE_COLUMN},
                                                 {"load", NULL, BRAKE_COLUMN},
                                                 {"state", NULL, BRAKE_COLUMN},
                                                 {"read", NULL, BRAKE_COLUMN},
                                                 {"read_in", NULL, BRAKE_COLUMN},
                                                 {"severity", NULL, BRAKE_COLUMN},
                                                 {"mark", NULL, BRAKE_COLUMN}};
    enum { REQUIREMENT = 5 };
    int order[BRAKE_CRITERIA];
    const int count = brake_part_order(a, order);
    brake_document_section(d, NULL, "Requirements");
    brake_document_table(
        d, &(struct brake_table){.key = "criteria",
                                 .lead = REQUIREMENT,
                                 .caption =
                                     "Restated; check each against the current text of its clause.",
                                 .column = column,
                                 .columns = sizeof column / sizeof column[0]});
    for (int i = 0; i < count; i++)
        criterion_row(d, a, order[i]);
    brake_document_end(d);
}

/* ---- results -------------------------------------------------------------------------------- */

/* For programs: every one by its path. */
static void results_by_path(struct brake_document *d, const struct brake_results *results)
{
    brake_part_numbers(d);
    for (int i = 0; i < brake_result_count(); i++) {
        char path[80];
        brake_result_path(i, path, sizeof path);
        brake_part_number(d, path, brake_part_result(results, i));
    }
}

/* Those of no load case have one value: full is -1. What is not known of this vehicle is left
 * out. */
static void result_row(struct brake_document *d, const struct brake_results *results, int empty,
                       int full)
{
    const struct brake_result *row = brake_result_at(empty);
    const bool known = isfinite(brake_result_value(results, empty)) ||
                       (full >= 0 && isfinite(brake_result_value(results, full)));
    if (known)
        brake_document_row(
            d, (const struct brake_cell[]){
                   brake_cell_text(row->name), brake_cell_text(row->meaning),
                   brake_part_result(results, empty),
                   full >= 0 ? brake_part_result(results, full) : brake_cell_nothing()});
}

void brake_part_results(struct brake_document *d, const struct brake_results *results)
{
    static const struct brake_column column[] = {{NULL, "result", BRAKE_COLUMN},
                                                 {NULL, "", BRAKE_DETAIL},
                                                 {NULL, "empty", BRAKE_COLUMN},
                                                 {NULL, "full", BRAKE_COLUMN}};
    static const struct brake_column common[] = {
        {NULL, "result", BRAKE_COLUMN}, {NULL, "", BRAKE_DETAIL}, {NULL, "value", BRAKE_COLUMN}};
    const int first = brake_result_find("empty.mass.total");
    const int per_case = (brake_result_count() - first) / 2;
    results_by_path(d, results);
    brake_document_section(d, NULL, "Results");
    brake_document_table(
        d, &(struct brake_table){.caption = "By load case:", .column = column, .columns = 4});
    for (int i = 0; i < per_case; i++)
        result_row(d, results, first + i, first + per_case + i);
    brake_document_table(d, &(struct brake_table){
                                .caption = "In either load case:", .column = common, .columns = 3});
    for (int i = 0; i < first; i++)
        result_row(d, results, i, -1);
    brake_document_end(d);
}

/* ---- the whole ------------------------------------------------------------------------------ */

void brake_part_inspector(struct brake_document *d)
{
    static const struct brake_column column[] = {{"item", "To be looked at", BRAKE_COLUMN}};
    brake_document_section(d, NULL, "Not judged here, for the inspector");
    brake_document_table(
        d, &(struct brake_table){
               .key = "inspector", .rows = BRAKE_ROWS_TICKED, .column = column, .columns = 1});
    for (int i = 0; brake_inspector_item(i) != NULL; i++)
        brake_document_row(d,
                           (const struct brake_cell[]){brake_cell_text(brake_inspector_item(i))});
    brake_document_end(d);
}

void brake_answer_check(struct brake_document *document, const struct brake_sheet *sheet,
                        const struct brake_assessment *assessment)
{
    brake_document_head(document, "Brakes of a road vehicle", brake_part_name(sheet));
    if (assessment->before != NULL)
        brake_part_before(document, assessment->before);
    brake_part_told(document, sheet);
    brake_part_verdict(document, sheet, assessment);
    brake_part_advice(document, sheet, assessment);
    brake_part_criteria(document, assessment);
    brake_part_warnings(document, assessment->warning, assessment->warnings);
    brake_part_results(document, &assessment->results);
    brake_part_lines(document, sheet, false);
    brake_part_inspector(document);
}
