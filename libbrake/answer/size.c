/* SPDX-License-Identifier: MIT */
/* The answer of `size`: what must be fitted. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "parts.h"
#include "vehicle/text.h"
#include "study/target.h"

enum { SHOWN_CHOICES = 20 };

/* What was done to the vehicle for each tyre. */
static const char TYRES_NOTE[] =
    "Each tyre is that of its marking, not a measured one: what was measured on the old tyre is "
    "left out, both axles change, the hubs rise by half of the difference of diameters, and the "
    "mass of a wheel, and its inertia where it was given, stay those of the old wheel.";

/* ---- amounts -------------------------------------------------------------------------------- */

static const struct brake_unit *target_unit(const struct brake_target *target)
{
    return target->wish == BRAKE_WISH_OUTPUT ? brake_part_output_unit(target->output)
                                             : brake_unit_find("%");
}

static enum brake_dimension target_dimension(const struct brake_target *target)
{
    return target->wish == BRAKE_WISH_OUTPUT ? brake_output_dimension(target->output) : BRAKE_RATIO;
}

static const char *amount(struct brake_document *d, double value, const struct brake_unit *unit)
{
    return brake_document_amount(d, brake_cell_number(value, unit));
}

/* Rounded to the side that is asked for, so that what is read off still does. */
static const char *root_words(struct brake_document *d, const struct brake_root *root,
                              const struct brake_unit *unit)
{
    const enum brake_form form = root->kind == BRAKE_TOUCH ? BRAKE_FOUR_DIGITS
                                 : root->rises             ? BRAKE_UPWARDS
                                                           : BRAKE_DOWNWARDS;
    return brake_document_amount(d, brake_cell_form(root->x, unit, form));
}

/* ---- what was asked ------------------------------------------------------------------------- */

static const char *target_name(struct brake_document *d, const struct brake_target *target)
{
    char name[80];
    if (target->wish != BRAKE_WISH_OUTPUT)
        return target->wish == BRAKE_WISH_ALL ? "all" : "regained";
    brake_output_name(target->output, name, sizeof name);
    return brake_document_words(d, "%s", name);
}

/* A margin of 0 is the limit with the numbers as they stand. It is no word of a verdict: what is
 * known only about so meets it in half of all cases. */
static bool to_meet(const struct brake_target *target)
{
    return brake_target_of_margin(target) && target->value == 0.0 &&
           target->relation == BRAKE_AT_LEAST;
}

static const char *verb(const struct brake_target *target)
{
    return to_meet(target) ? "reaches" : "gives";
}

/* What a verb takes: "the limit of us.135.cold", "us.135.cold a margin of 10 %",
 * "full.stop.distance 60 m (196.9 ft) or less". */
static const char *wanted(struct brake_document *d, const struct brake_target *target)
{
    static const char *const sides[] = {
        [BRAKE_EQUAL] = "", [BRAKE_AT_LEAST] = " or more", [BRAKE_AT_MOST] = " or less"};
    static const char *const wishes[] = {[BRAKE_WISH_ALL] = "every requirement that can be said",
                                         [BRAKE_WISH_REGAINED] =
                                             "the brake torque per need of the vehicle before"};
    const char *shown =
        target->wish == BRAKE_WISH_OUTPUT ? target_name(d, target) : wishes[target->wish];
    if (to_meet(target) && target->wish == BRAKE_WISH_REGAINED)
        return shown;
    if (to_meet(target))
        return brake_document_words(d, "the limit of %s", shown);
    return brake_document_words(
        d, "%s %s%s%s", shown, brake_target_of_margin(target) ? "a margin of " : "",
        amount(d, target->value, target_unit(target)), sides[target->relation]);
}

static void by_row(struct brake_document *d, const struct brake_size_report *r, int line,
                   struct brake_cell sizes)
{
    brake_document_row(d, (const struct brake_cell[]){
                              brake_cell_text(brake_part_path(d, &r->sheet->vehicle, line)),
                              brake_part_si(brake_quantity_at(line)->dimension),
                              brake_cell_number(brake_quantity_value(&r->sheet->vehicle, line),
                                                brake_part_line_unit(line)),
                              sizes, brake_cell_nothing()});
}

static void asked_by(struct brake_document *d, const struct brake_size_report *r)
{
    static const struct brake_column column[] = {{"path", NULL, BRAKE_COLUMN},
                                                 {"unit", NULL, BRAKE_COLUMN},
                                                 {"now", NULL, BRAKE_COLUMN},
                                                 {"sizes", NULL, BRAKE_COLUMN},
                                                 {"note", NULL, BRAKE_COLUMN}};
    const struct brake_cell nothing = brake_cell_nothing();
    brake_document_table(d, &(struct brake_table){.key = "by", .column = column, .columns = 5});
    if (r->size != NULL)
        by_row(d, r, r->question->by, nothing);
    for (int i = 0; r->lists != NULL && i < r->lists->lists; i++) {
        const struct brake_size_list *list = &r->lists->list[i];
        by_row(d, r, list->by,
               brake_cell_list(list->value, list->count, brake_part_line_unit(list->by)));
    }
    if (r->tyre != NULL)
        brake_document_row(d, (const struct brake_cell[]){brake_cell_text("tyre"), nothing, nothing,
                                                          nothing, brake_cell_text(TYRES_NOTE)});
}

static void asked_for(struct brake_document *d, const struct brake_size_report *r)
{
    static const char *const relations[] = {
        [BRAKE_EQUAL] = "=", [BRAKE_AT_LEAST] = ">=", [BRAKE_AT_MOST] = "<="};
    static const struct brake_column column[] = {{"name", NULL, BRAKE_COLUMN},
                                                 {"relation", NULL, BRAKE_COLUMN},
                                                 {"value", NULL, BRAKE_COLUMN},
                                                 {"unit", NULL, BRAKE_COLUMN},
                                                 {"now", NULL, BRAKE_COLUMN}};
    struct brake_sheet settled;
    brake_target_settle(r->sheet, r->target, r->targets, &settled);
    brake_document_table(d, &(struct brake_table){.key = "for", .column = column, .columns = 5});
    for (int i = 0; i < r->targets; i++) {
        const struct brake_target *target = &r->target[i];
        brake_document_row(
            d, (const struct brake_cell[]){
                   brake_cell_text(target_name(d, target)),
                   brake_cell_text(relations[target->relation]),
                   brake_cell_number(target->value, NULL), brake_part_si(target_dimension(target)),
                   brake_cell_number(brake_target_value(target, &settled.vehicle), NULL)});
    }
}

/* ---- one quantity over a range: where it does ------------------------------------------------ */

/* The stretches on which the value is got or passed: "44.1 mm to 51.2 mm, or 60 mm or more". */
static const char *stretches(struct brake_document *d, const struct brake_size_report *r)
{
    const struct brake_roots *roots = &r->size->roots;
    const struct brake_unit *unit = brake_part_line_unit(r->question->by);
    const char *all = NULL;
    const char *begin = NULL;
    for (int i = 0; i < roots->count; i++) {
        const struct brake_root *root = &roots->root[i];
        const char *at = root_words(d, root, unit);
        if (root->kind == BRAKE_TOUCH && !root->rises) {
            all = brake_document_join(d, all, ", or ", brake_document_words(d, "exactly %s", at));
        } else if (root->kind != BRAKE_TOUCH && root->rises) {
            begin = at;
        } else if (root->kind != BRAKE_TOUCH) {
            all =
                brake_document_join(d, all, ", or ",
                                    begin == NULL ? brake_document_words(d, "%s or less", at)
                                                  : brake_document_words(d, "%s to %s", begin, at));
            begin = NULL;
        }
    }
    if (begin != NULL)
        all = brake_document_join(d, all, ", or ", brake_document_words(d, "%s or more", begin));
    return all != NULL || roots->shortest < 0.0 ? all : "any value of the range";
}

static const char *places(struct brake_document *d, const struct brake_size_report *r, bool jumps)
{
    const struct brake_roots *roots = &r->size->roots;
    const char *all = NULL;
    for (int i = 0; i < roots->count; i++) {
        if ((roots->root[i].kind == BRAKE_JUMP) == jumps)
            all = brake_document_join(
                d, all, " and ",
                amount(d, roots->root[i].x, brake_part_line_unit(r->question->by)));
    }
    return all;
}

static const char *answer(struct brake_document *d, const struct brake_size_report *r,
                          const char *path)
{
    const char *does = stretches(d, r);
    const char *at = places(d, r, false);
    if (r->target->relation != BRAKE_EQUAL)
        return brake_document_words(d, "%s of %s %s %s.", path, does != NULL ? does : "",
                                    verb(r->target), wanted(d, r->target));
    return brake_document_words(d, "%s of %s gives %s; %s gives that or more.", path,
                                at != NULL ? at : "", wanted(d, r->target),
                                does != NULL ? does : "no value");
}

/* ---- one quantity over a range: where it does not -------------------------------------------- */

static const char *no_answer(struct brake_document *d, const struct brake_size_report *r,
                             const char *path)
{
    const struct brake_unit *unit = brake_part_line_unit(r->question->by);
    const struct brake_unit *of_target = target_unit(r->target);
    const char *low = amount(d, r->question->low, unit);
    const char *high = amount(d, r->question->high, unit);
    const char *goal = wanted(d, r->target);
    if (r->size->roots.known == 0)
        return brake_document_words(
            d,
            "cannot say whether %s from %s to %s %s %s: there is no value anywhere; a line that it "
            "needs is left out, or it takes a fade procedure, which only check runs.",
            path, low, high, verb(r->target), goal);
    const char *best = brake_document_amount(
        d,
        brake_cell_form(r->size->best, of_target,
                        brake_target_of_margin(r->target) ? BRAKE_TWO_DIGITS : BRAKE_FOUR_DIGITS));
    if (r->size->flat)
        return brake_document_words(
            d, "none: no %s from %s to %s %s %s; it does not move it: %s everywhere.", path, low,
            high, verb(r->target), goal, best);
    return brake_document_words(d, "none: no %s from %s to %s %s %s; the best %s is %s, at %s.",
                                path, low, high, verb(r->target), goal,
                                brake_target_of_margin(r->target) ? "margin" : "value", best,
                                amount(d, r->size->roots.nearest, unit));
}

static void limits_said(struct brake_document *d, const struct brake_size_report *r)
{
    const struct brake_size *size = r->size;
    const struct brake_roots *roots = &size->roots;
    for (int i = 0; i < size->limits; i++)
        brake_document_say_in(
            d, NULL, i == 0 ? "Limits" : " ", "%s: with %s a tenth higher the best would be %s.",
            size->limit[i].words, brake_part_path(d, &r->sheet->vehicle, size->limit[i].quantity),
            amount(d, size->limit[i].value, target_unit(r->target)));
    if (!size->flat && (roots->nearest == r->question->low || roots->nearest == r->question->high))
        brake_document_say(d, NULL, size->limits == 0 ? "Limits" : " ",
                           "the range: the best value stands at its end (--within).");
}

/* ---- one quantity over a range: details ------------------------------------------------------ */

static void now(struct brake_document *d, const struct brake_size_report *r)
{
    const double value = brake_quantity_value(&r->sheet->vehicle, r->question->by);
    const char *own =
        isnan(value) ? "not given" : amount(d, value, brake_part_line_unit(r->question->by));
    const char *gives =
        isnan(r->size->now) ? "no value" : amount(d, r->size->now, target_unit(r->target));
    brake_document_say_in(d, NULL, "Now", "%s: %s %s%s.", own,
                          r->target->wish == BRAKE_WISH_REGAINED ? "torque per need over before,"
                                                                 : target_name(d, r->target),
                          brake_target_of_margin(r->target) ? "margin " : "", gives);
}

static void notes(struct brake_document *d, const struct brake_size_report *r)
{
    const char *leaps = places(d, r, true);
    if (leaps != NULL)
        brake_document_say_in(d, NULL, "Leaps",
                              "it leaps over the wanted value, without taking it, at %s.", leaps);
    if (r->size->refused > 0)
        brake_document_say_in(d, NULL, "Refused",
                              "%d left out, because the vehicle would be refused: %s: %s",
                              r->size->refused, r->size->error.field, r->size->error.text);
    if (r->size->roots.more)
        brake_document_say(d, NULL, "More", "there are more answers than are listed.");
}

static void range(struct brake_document *d, const struct brake_size_report *r)
{
    const struct brake_scan *scan = &r->size->scan;
    const struct brake_unit *unit = brake_part_line_unit(r->question->by);
    brake_document_say_in(d, NULL, "Range",
                          "%s to %s, looked at in %d points evenly spaced%s; solutions narrower "
                          "than a step are missed.",
                          amount(d, scan->low, unit), amount(d, scan->high, unit), scan->points,
                          scan->logarithmic ? " by ratio" : "");
    for (int i = 0; i < r->size->roots.stretches; i++) {
        const struct brake_stretch *stretch = &r->size->roots.stretch[i];
        brake_document_say_in(d, NULL, " ", "cannot say from %s to %s.",
                              amount(d, stretch->low, unit), amount(d, stretch->high, unit));
    }
}

static void within(struct brake_document *d, const struct brake_size_report *r)
{
    static const struct brake_column column[] = {{"from_to", NULL, BRAKE_COLUMN}};
    const struct brake_roots *roots = &r->size->roots;
    brake_document_section(d, "within", NULL);
    brake_document_fact(d, "low", NULL, brake_cell_number(r->question->low, NULL));
    brake_document_fact(d, "high", NULL, brake_cell_number(r->question->high, NULL));
    brake_document_fact(d, "path", NULL,
                        brake_cell_text(brake_part_path(d, &r->sheet->vehicle, r->question->by)));
    brake_document_fact(d, "unit", NULL,
                        brake_part_si(brake_quantity_at(r->question->by)->dimension));
    brake_document_fact(d, "points", NULL, brake_cell_count(r->size->scan.points));
    brake_document_fact(d, "spacing", NULL,
                        brake_cell_text(r->size->scan.logarithmic ? "by ratio" : "even"));
    brake_document_table(
        d, &(struct brake_table){.key = "cannot_say", .column = column, .columns = 1});
    for (int i = 0; i < roots->stretches; i++) {
        const double ends[] = {roots->stretch[i].low, roots->stretch[i].high};
        brake_document_row(d, (const struct brake_cell[]){brake_cell_list(ends, 2, NULL)});
    }
    brake_document_end(d);
}

static void answers(struct brake_document *d, const struct brake_size_report *r)
{
    static const char *const kinds[] = {
        [BRAKE_CROSSING] = "crossing", [BRAKE_TOUCH] = "touch", [BRAKE_JUMP] = "jump"};
    static const struct brake_column column[] = {{"value", NULL, BRAKE_COLUMN},
                                                 {"unit", NULL, BRAKE_COLUMN},
                                                 {"side", NULL, BRAKE_COLUMN},
                                                 {"kind", NULL, BRAKE_COLUMN},
                                                 {"shown", NULL, BRAKE_COLUMN}};
    const struct brake_roots *roots = &r->size->roots;
    brake_document_table(d,
                         &(struct brake_table){.key = "answers", .column = column, .columns = 5});
    for (int i = 0; i < roots->count; i++) {
        const struct brake_root *root = &roots->root[i];
        if (r->target->relation == BRAKE_EQUAL && root->kind == BRAKE_JUMP)
            continue;
        brake_document_row(
            d, (const struct brake_cell[]){
                   brake_cell_number(root->x, NULL),
                   brake_part_si(brake_quantity_at(r->question->by)->dimension),
                   brake_cell_text(root->kind == BRAKE_TOUCH ? "exactly"
                                   : root->rises             ? "or more"
                                                             : "or less"),
                   brake_cell_text(kinds[root->kind]),
                   brake_cell_text(root_words(d, root, brake_part_line_unit(r->question->by)))});
    }
}

static void held_by(struct brake_document *d, const struct brake_size_report *r)
{
    static const struct brake_column column[] = {{"path", NULL, BRAKE_COLUMN},
                                                 {"unit", NULL, BRAKE_COLUMN},
                                                 {"words", NULL, BRAKE_COLUMN},
                                                 {"a_tenth_more_gives", NULL, BRAKE_COLUMN}};
    brake_document_table(d,
                         &(struct brake_table){.key = "held_by", .column = column, .columns = 4});
    for (int i = 0; i < r->size->limits; i++) {
        const struct brake_size_limit *limit = &r->size->limit[i];
        brake_document_row(
            d, (const struct brake_cell[]){
                   brake_cell_text(brake_part_path(d, &r->sheet->vehicle, limit->quantity)),
                   brake_part_si(brake_quantity_at(limit->quantity)->dimension),
                   brake_cell_text(limit->words), brake_cell_number(limit->value, NULL)});
    }
}

static void jumps(struct brake_document *d, const struct brake_size_report *r)
{
    static const struct brake_column column[] = {{"at", NULL, BRAKE_COLUMN}};
    const struct brake_roots *roots = &r->size->roots;
    brake_document_table(d, &(struct brake_table){.key = "jumps", .column = column, .columns = 1});
    for (int i = 0; i < roots->count; i++) {
        if (roots->root[i].kind == BRAKE_JUMP)
            brake_document_row(
                d, (const struct brake_cell[]){brake_cell_number(roots->root[i].x, NULL)});
    }
}

static void limits(struct brake_document *d, const struct brake_size_report *r)
{
    const struct brake_roots *roots = &r->size->roots;
    const bool answered = brake_size_answered(r->question, r->size);
    brake_document_section(d, "limits", NULL);
    brake_document_fact(d, "answered", NULL, brake_cell_truth(answered));
    brake_document_fact(d, "whole_range", NULL, brake_cell_truth(answered && roots->count == 0));
    brake_document_fact(d, "moves", NULL, brake_cell_truth(roots->known > 0 && !r->size->flat));
    brake_document_fact(d, "nearest", NULL, brake_cell_number(r->size->best, NULL));
    brake_document_fact(d, "nearest_at", NULL, brake_cell_number(roots->nearest, NULL));
    held_by(d, r);
    jumps(d, r);
    brake_document_fact(d, "refused", NULL, brake_cell_count(r->size->refused));
    brake_document_fact(d, "refused_for", NULL,
                        brake_cell_text(r->size->refused > 0 ? r->size->error.text : NULL));
    brake_document_end(d);
}

static void changes_at(struct brake_document *d, const struct brake_size_report *r, double value,
                       struct brake_conformance_room *room)
{
    struct brake_size_change change[BRAKE_CRITERIA];
    const int count =
        brake_size_changes(r->sheet, r->question->by, value, r->target->rules, room, change);
    for (int i = 0; i < count; i++) {
        const struct brake_criterion *c = brake_criterion_at(change[i].criterion);
        brake_document_row(
            d,
            (const struct brake_cell[]){
                brake_cell_number(value, brake_part_line_unit(r->question->by)),
                brake_cell_text(c->id),
                brake_cell_text(brake_document_words(d, "%s [%s, %s]", c->title, c->id, c->clause)),
                brake_cell_text(brake_verdict_words(change[i].from)),
                brake_cell_text(brake_verdict_words(change[i].to)),
                brake_cell_form(change[i].margin, brake_unit_find("%"), BRAKE_SIGNED)});
    }
}

static void changes(struct brake_document *d, const struct brake_size_report *r)
{
    static const struct brake_column column[] = {
        {"at", "at", BRAKE_COLUMN},          {"id", NULL, BRAKE_COLUMN},
        {NULL, "requirement", BRAKE_COLUMN}, {"from", "now", BRAKE_COLUMN},
        {"to", "there", BRAKE_COLUMN},       {"margin", "margin", BRAKE_COLUMN}};
    brake_document_section(d, NULL, "Verdicts that change there, hot performance aside");
    brake_document_table(d, &(struct brake_table){
                                .key = "changes", .none = "None.", .column = column, .columns = 6});
    struct brake_conformance_room *room = brake_conformance_room_new();
    for (int i = 0; i < r->size->roots.count && room != NULL; i++)
        changes_at(d, r, r->size->roots.root[i].x, room);
    d->short_of_memory = d->short_of_memory || room == NULL;
    brake_conformance_room_free(room);
    brake_document_end(d);
}

static void over_range(struct brake_document *d, const struct brake_size_report *r)
{
    const char *path = brake_part_path(d, &r->sheet->vehicle, r->question->by);
    const bool answered = brake_size_answered(r->question, r->size);
    brake_document_say(d, NULL, "Answer", answered ? answer(d, r, path) : no_answer(d, r, path));
    if (!answered)
        limits_said(d, r);
    now(d, r);
    notes(d, r);
    range(d, r);
    within(d, r);
    answers(d, r);
    limits(d, r);
    changes(d, r);
}

/* ---- lists ---------------------------------------------------------------------------------- */

static const char *combination(struct brake_document *d, const struct brake_size_report *r,
                               const struct brake_choice *choice)
{
    const char *all = NULL;
    for (int i = 0; i < r->lists->lists; i++) {
        const int by = r->lists->list[i].by;
        all = brake_document_join(
            d, all, ", ",
            brake_document_words(d, "%s %s", brake_part_path(d, &r->sheet->vehicle, by),
                                 amount(d, choice->value[i], brake_part_line_unit(by))));
    }
    return all;
}

static const char *choice_words(struct brake_document *d, const struct brake_size_report *r)
{
    const long cases = r->count->cases;
    const long works = r->count->works;
    if (r->choices == 0)
        return brake_document_words(d, "none of the %ld combinations meets what was asked.", cases);
    return brake_document_words(d, "%ld of %ld combinations %s what was asked; most margin has %s.",
                                works, cases, works == 1 ? "meets" : "meet",
                                combination(d, r, r->choice));
}

/* Margin or value of each target, in their order; nothing where it is not known. */
static struct brake_cell got(struct brake_document *d, const struct brake_size_report *r,
                             const double *value, int least)
{
    return least >= 0
               ? brake_cell_list(brake_document_numbers(d, value, r->targets), r->targets, NULL)
               : brake_cell_list(NULL, 0, NULL);
}

static void combinations(struct brake_document *d, const struct brake_size_report *r)
{
    static const struct brake_column column[] = {{"value", NULL, BRAKE_COLUMN},
                                                 {"got", NULL, BRAKE_COLUMN},
                                                 {"margin", "least margin", BRAKE_COLUMN},
                                                 {"least", "of", BRAKE_COLUMN},
                                                 {NULL, "combination", BRAKE_COLUMN}};
    brake_document_section(d, NULL, "Combinations that meet it, largest least margin first");
    brake_document_table(
        d, &(struct brake_table){
               .key = "combinations", .none = "None.", .column = column, .columns = 5});
    for (int i = 0; i < r->choices; i++) {
        const struct brake_choice *choice = &r->choice[i];
        struct brake_cell value = brake_cell_list(choice->value, r->lists->lists, NULL);
        value.quiet = i >= SHOWN_CHOICES;
        brake_document_row(
            d, (const struct brake_cell[]){
                   value, got(d, r, choice->got, choice->least),
                   brake_cell_form(choice->margin, brake_unit_find("%"), BRAKE_SIGNED),
                   brake_cell_text(choice->least >= 0 ? target_name(d, &r->target[choice->least])
                                                      : NULL),
                   brake_cell_text(combination(d, r, choice))});
    }
    if (r->count->works > SHOWN_CHOICES)
        brake_document_say_in(d, NULL, NULL, "and %ld more", r->count->works - SHOWN_CHOICES);
    brake_document_end(d);
}

static void failures(struct brake_document *d, const struct brake_size_report *r)
{
    static const struct brake_column column[] = {{"count", NULL, BRAKE_COLUMN},
                                                 {NULL, "", BRAKE_COLUMN}};
    brake_document_table(
        d, &(struct brake_table){
               .key = "fall_short_of", .rows = BRAKE_ROWS_LISTED, .column = column, .columns = 2});
    for (int i = 0; i < r->targets; i++)
        brake_document_row(
            d, (const struct brake_cell[]){
                   brake_cell_count(r->count->fails[i]),
                   brake_cell_text(brake_document_words(
                       d, "%ld fall short of %s", r->count->fails[i], wanted(d, &r->target[i])))});
}

static void counts(struct brake_document *d, const struct brake_size_report *r)
{
    const struct brake_choice_count *count = r->count;
    const char *refused = count->refused > 0 ? brake_document_words(d, "%s: %s", count->error.field,
                                                                    count->error.text)
                                             : NULL;
    brake_document_section(d, "count", "How all fared");
    brake_document_fact(d, "cases", "combinations", brake_cell_count(count->cases));
    brake_document_fact(d, "work", "meet it", brake_cell_count(count->works));
    brake_document_fact(d, "cannot_say", "cannot be said", brake_cell_count(count->unknown));
    brake_document_fact(d, "refused", "refused", brake_cell_count(count->refused));
    brake_document_fact(d, "refused_for", "refused because", brake_cell_text(refused));
    failures(d, r);
    brake_document_end(d);
}

/* ---- tyres ---------------------------------------------------------------------------------- */

/* Largest tyre that meets every target; NULL when none does. */
static const struct brake_tyre_choice *largest(const struct brake_size_report *r)
{
    for (int i = r->tyres - 1; i >= 0; i--) {
        if (r->tyre[i].margin >= 0.0)
            return &r->tyre[i];
    }
    return NULL;
}

static const char *tyre_words(struct brake_document *d, const struct brake_size_report *r)
{
    const struct brake_tyre_choice *most = largest(r);
    const char *goal = wanted(d, r->target);
    const char *rest = r->targets > 1 ? " and does what else was asked" : "";
    if (most == NULL)
        return brake_document_words(d, "none of these tyres %s %s%s.", verb(r->target), goal, rest);
    return brake_document_words(
        d,
        "%s is the largest of these tyres that %s %s%s. Other requirements were not looked at: "
        "check the vehicle on it.",
        most->marking, verb(r->target), goal, rest);
}

static void tyre_row(struct brake_document *d, const struct brake_size_report *r,
                     const struct brake_tyre_choice *tyre)
{
    const bool refused = tyre->error.status != BRAKE_OK;
    const char *word = refused               ? "refused"
                       : isnan(tyre->margin) ? "cannot say"
                       : tyre->margin >= 0.0 ? "reaches it"
                                             : "stays below";
    brake_document_row(
        d, (const struct brake_cell[]){
               brake_cell_text(word), brake_cell_text(tyre->marking),
               brake_cell_number(tyre->diameter, brake_unit_find("mm")),
               brake_cell_number(tyre->rollout, brake_unit_si(BRAKE_LENGTH)),
               got(d, r, tyre->got, tyre->least),
               brake_cell_form(tyre->margin, brake_unit_find("%"), BRAKE_SIGNED),
               brake_cell_text(tyre->least >= 0 ? target_name(d, &r->target[tyre->least]) : NULL),
               brake_cell_text(
                   refused ? brake_document_words(d, "%s: %s", tyre->error.field, tyre->error.text)
                           : NULL)});
}

static void tyres(struct brake_document *d, const struct brake_size_report *r)
{
    static const struct brake_column column[] = {{"verdict", "", BRAKE_COLUMN},
                                                 {"marking", "tyre", BRAKE_COLUMN},
                                                 {"diameter", "diameter", BRAKE_COLUMN},
                                                 {"rollout", "rolls", BRAKE_COLUMN},
                                                 {"got", NULL, BRAKE_COLUMN},
                                                 {"margin", "least margin", BRAKE_COLUMN},
                                                 {"least", "of", BRAKE_COLUMN},
                                                 {"refused", "", BRAKE_NOTE}};
    brake_document_section(d, NULL, "Tyres, smallest first");
    brake_document_table(
        d, &(struct brake_table){.key = "tyres", .lead = 1, .column = column, .columns = 8});
    for (int i = 0; i < r->tyres; i++)
        tyre_row(d, r, &r->tyre[i]);
    brake_document_end(d);
}

static void tyre_answer(struct brake_document *d, const struct brake_size_report *r)
{
    static const struct brake_column column[] = {{"value", NULL, BRAKE_COLUMN},
                                                 {"unit", NULL, BRAKE_COLUMN},
                                                 {"side", NULL, BRAKE_COLUMN},
                                                 {"marking", NULL, BRAKE_COLUMN}};
    const struct brake_tyre_choice *most = largest(r);
    brake_document_table(d,
                         &(struct brake_table){.key = "answers", .column = column, .columns = 4});
    if (most != NULL)
        brake_document_row(d, (const struct brake_cell[]){
                                  brake_cell_number(most->diameter, NULL), brake_cell_text("m"),
                                  brake_cell_text("largest"), brake_cell_text(most->marking)});
}

/* ---- the whole ------------------------------------------------------------------------------ */

/* What the other kinds of question have, for programs. */
static void without(struct brake_document *d, const char *const *key)
{
    static const struct brake_column column[] = {{"none", NULL, BRAKE_COLUMN}};
    for (; *key != NULL; key++)
        brake_document_table(d, &(struct brake_table){.key = *key, .column = column, .columns = 1});
}

void brake_answer_size(struct brake_document *document, const struct brake_size_report *report)
{
    brake_document_head(document, "What must be fitted", brake_part_name(report->sheet));
    brake_part_told(document, report->sheet);
    if (report->sheet->known.count > 0)
        brake_document_say(document, NULL, " ",
                           "Sizes are for lines at the middle of what that drive makes likely; for "
                           "what is to be regained, as they stand.");
    if (report->size != NULL) {
        over_range(document, report);
        without(document, (const char *const[]){"combinations", NULL});
    } else if (report->lists != NULL) {
        brake_document_say(document, NULL, "Answer", choice_words(document, report));
        combinations(document, report);
        counts(document, report);
        without(document, (const char *const[]){"answers", "changes", NULL});
    } else {
        brake_document_say(document, NULL, "Answer", tyre_words(document, report));
        brake_document_say(document, NULL, "Note", TYRES_NOTE);
        tyre_answer(document, report);
        tyres(document, report);
        without(document, (const char *const[]){"changes", "combinations", NULL});
    }
    if (report->size == NULL) {
        brake_document_fact(document, "within", NULL, brake_cell_nothing());
        brake_document_fact(document, "limits", NULL, brake_cell_nothing());
    }
    asked_by(document, report);
    asked_for(document, report);
}

int brake_size_report_exit(const struct brake_size_report *report)
{
    bool said = false;
    if (report->size != NULL) {
        said = report->size->roots.known > 0;
        return brake_size_answered(report->question, report->size) ? 0 : said ? 1 : 3;
    }
    if (report->lists != NULL)
        return report->choices > 0 ? 0 : report->count->unknown < report->count->cases ? 1 : 3;
    for (int i = 0; i < report->tyres; i++)
        said = said || !isnan(report->tyre[i].margin);
    return largest(report) != NULL ? 0 : said ? 1 : 3;
}
