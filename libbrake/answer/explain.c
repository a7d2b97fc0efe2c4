/* SPDX-License-Identifier: MIT */
/* The answer of `explain`: what a name means. */
#include "explain.h"

#include <math.h>
#include <string.h>

#include "brake/stop.h"
#include "brake/warnings.h"
#include "criteria/meanings.h"
#include "criteria/scope.h"
#include "explain_vehicle.h"
#include "parts.h"
#include "vehicle/sections.h"
#include "vehicle/trade.h"
#include "criteria/judge.h"

static void method(struct brake_document *d, int section)
{
    brake_document_say_in(d, NULL, "Method", "reference/method.md, section %d", section);
}

/* ---- lines ---------------------------------------------------------------------------------- */

static void range(struct brake_document *d, const struct brake_quantity *q)
{
    const struct brake_unit *unit = brake_unit_of(q->unit, q->dimension);
    const struct brake_unit *us = brake_unit_beside(unit);
    brake_document_say_in(d, NULL, "Unit", "%s%s%s%s", q->unit[0] ? q->unit : "none",
                          us != unit ? ", or " : "", us != unit ? us->name : "",
                          us != unit ? " and others of the trade" : "");
    brake_document_say_in(d, NULL, "Range", "%s to %s",
                          brake_document_amount(d, brake_cell_number(q->low, unit)),
                          brake_document_amount(d, brake_cell_number(q->high, unit)));
}

static void fallback(struct brake_document *d, const struct brake_quantity *q)
{
    const char *value = q->why != NULL ? "worked out" : "none";
    if (!isnan(q->fallback))
        value = q->kind == BRAKE_CHOICE
                    ? q->choices[(int)q->fallback]
                    : brake_document_amount(
                          d, brake_cell_number(q->fallback, brake_unit_of(q->unit, q->dimension)));
    brake_document_say_in(d, NULL, "Default", "%s%s%s%s", value, q->why != NULL ? "; " : "",
                          q->why != NULL ? brake_part_as_given(d, q->why) : "",
                          isnan(q->fallback) && q->need == BRAKE_NEEDED
                              ? "; the line, or what gives it, is needed"
                              : "");
}

/* How far vehicles lie from the default: what a line left out is drawn from. */
static void left_out(struct brake_document *d, const struct brake_quantity *q)
{
    if (!(q->most > q->least))
        return;
    const struct brake_unit *unit = brake_unit_of(q->unit, q->dimension);
    if (isnan(q->fallback))
        brake_document_say_in(d, NULL, "Left out",
                              "95 of 100 vehicles lie within %.4g to %.4g times that", q->least,
                              q->most);
    else
        brake_document_say_in(
            d, NULL, "Left out", "95 of 100 vehicles lie within %s to %s",
            brake_document_amount(d, brake_cell_number(q->fallback * q->least, unit)),
            brake_document_amount(d, brake_cell_number(q->fallback * q->most, unit)));
}

static void tolerance(struct brake_document *d, const struct brake_quantity *q)
{
    static const char *const danger[] = {
        "either way, depending on the result looked at",
        "when the entry is too low: the real vehicle is worse than the result",
        "when the entry is too high: the real vehicle is worse than the result"};
    brake_document_say(d, NULL, "Danger", danger[q->danger]);
    brake_document_say_in(d, NULL, "Tolerance", "%.3g %% of the value when the file states none",
                          100.0 * q->typical);
}

static void explain_line(struct brake_document *d, const struct brake_named *named)
{
    const struct brake_quantity *q = named->row;
    brake_document_say(d, NULL, "Meaning", q->meaning);
    brake_document_say(d, NULL, "Symbol", q->symbol);
    if (q->kind == BRAKE_REAL || q->kind == BRAKE_PISTONS || q->kind == BRAKE_CURVE)
        range(d, q);
    if (q->kind == BRAKE_CHOICE)
        brake_document_say(d, NULL, "One of", brake_part_choices(d, q, ", "));
    fallback(d, q);
    left_out(d, q);
    brake_document_say_in(d, NULL, "Measure", "%s (by %s)", brake_part_as_given(d, q->measure),
                          brake_means_word(q->means));
    if (q->kind == BRAKE_REAL || q->kind == BRAKE_PISTONS)
        tolerance(d, q);
    method(d, brake_section_at(named->section)->method);
}

/* ---- results -------------------------------------------------------------------------------- */

static const char *given_by(enum brake_result_group group)
{
    switch (group) {
    case BRAKE_OF_FADE:
        return "stopmargin check, by the fade procedure of the vehicle's category";
    case BRAKE_OF_HEAT:
        return "stopmargin heat";
    case BRAKE_OF_DRIVE:
        return "stopmargin drivelog";
    case BRAKE_OF_COMPARISON:
        return "stopmargin compare";
    default:
        return "stopmargin check";
    }
}

static void explain_result(struct brake_document *d, int index)
{
    const struct brake_result *row = brake_result_at(index);
    const struct brake_unit *unit = brake_part_result_unit(index);
    const struct brake_unit *us = brake_unit_beside(unit);
    brake_document_say(d, NULL, "Meaning", row->meaning);
    brake_document_say(d, NULL, "Symbol", row->symbol);
    brake_document_say_in(d, NULL, "Unit", "%s%s%s", row->unit[0] ? row->unit : "none",
                          us != unit ? ", or " : "", us != unit ? us->name : "");
    brake_document_say(d, NULL, "Given by", given_by(row->group));
    method(d, row->section);
}

/* ---- requirements --------------------------------------------------------------------------- */

static double kmh(double speed)
{
    return 3.6 * speed;
}

static const char *limit_of(struct brake_document *d, const struct brake_criterion *c)
{
    struct brake_cell limit = brake_cell_number(c->limit, brake_part_unit(c->measure));
    limit.before = brake_measure_at_most(c->measure) ? "at most" : "at least";
    if (c->coefficient > 0.0)
        return brake_document_words(
            d, "at most %.4g V + %.4g V^2 m, V the speed in km/h%s", c->lag / 3.6, c->coefficient,
            c->speed > 0.0
                ? brake_document_words(d, ": %.4g m",
                                       brake_stop_allowed(c->speed, c->lag, c->coefficient))
                : "");
    if (c->measure == BRAKE_HOT_LENGTHENING)
        return brake_document_words(
            d, "at most %.4g V + (cold distance - %.4g V) / %.4g, V the speed in km/h",
            c->lag / 3.6, c->lag / 3.6, c->limit);
    return brake_document_amount(d, limit);
}

static const char *speed_of(struct brake_document *d, const struct brake_criterion *c)
{
    if (c->speed_cap > 0.0)
        return brake_document_words(d, "80 %% of the top speed, up to %.4g km/h",
                                    kmh(c->speed_cap));
    return c->speed > 0.0 ? brake_document_words(d, "%.4g km/h", kmh(c->speed)) : NULL;
}

static bool parks(enum brake_measure measure)
{
    return brake_measure_error(measure) == BRAKE_MODEL_PARKING;
}

static const char *force_of(struct brake_document *d, const struct brake_criterion *c)
{
    if (c->measure == BRAKE_SIDE_DIFFERENCE)
        return c->force > 0.0
                   ? brake_document_words(d, "an axle with no wheel above %.0f N is passed over",
                                          c->force)
                   : "that of the reading";
    if (parks(c->measure))
        return c->force > 0.0 ? brake_document_words(d, "%.0f N by hand, %.0f N by foot", c->force,
                                                     brake_criterion_foot(c))
                              : "parking.force";
    return c->force > 0.0 ? brake_document_words(d, "%.0f N on the pedal", c->force)
                          : "driver.pedal_force_most";
}

static const char *state_of(struct brake_document *d, const struct brake_criterion *c)
{
    if (c->failure[0] == c->failure[1])
        return brake_failure_words(c->failure[0]);
    return brake_document_words(d, "%s, or %s; the worse counts",
                                brake_failure_words(c->failure[0]),
                                brake_failure_words(c->failure[1]));
}

static const char *applies_of(struct brake_document *d, const struct brake_criterion *c)
{
    const char *all = NULL;
    for (int bit = 0; brake_applies_words(bit) != NULL; bit++) {
        if ((c->applies >> bit & 1U) != 0)
            all = brake_document_join(d, all, "; ", brake_applies_words(bit));
    }
    if (c->from > 0.0)
        all = brake_document_join(d, all, "; ",
                                  brake_document_words(d, "first registered from %.4g", c->from));
    if (c->until > 0.0)
        all = brake_document_join(
            d, all, "; ", brake_document_words(d, "first registered before %.4g", c->until));
    return all != NULL ? all : "all vehicles";
}

/* What the text is for, and what that makes of the row. */
static const char *binds_whom(const struct brake_criterion *c)
{
    static const char *const roles[] = {
        [BRAKE_ROLE_HAZARD] = "judged on every vehicle, whatever binds it",
        [BRAKE_ROLE_IN_USE] = "binds vehicles in use where it has force",
        [BRAKE_ROLE_BUILT] = "what vehicles are built to: a yardstick, not counted",
        [BRAKE_ROLE_PART] = ("has force in a part of its country, or over a part of its "
                             "vehicles: a yardstick, not counted")};
    return c->screen ? "for comparison: the text lets another test decide"
                     : roles[brake_book_of(c)->role];
}

/* Loads of a criterion, the worse of which counts. */
static const char *loads_of(struct brake_document *d, const struct brake_criterion *c)
{
    static const char *const loads[BRAKE_TEST_LOADS] = {
        "empty, as driven", "full, as driven", "light: 180 kg in front with the driver",
        "rated mass, spread by the ratings of the axles"};
    const char *first = NULL;
    for (int load = 0; load < BRAKE_TEST_LOADS; load++) {
        if ((c->load >> load & 1) == 0)
            continue;
        first = first == NULL
                    ? loads[load]
                    : brake_document_words(d, "%s; and %s; the worse counts", first, loads[load]);
    }
    return first;
}

static void explain_criterion(struct brake_document *d, const struct brake_criterion *c)
{
    brake_document_say(d, NULL, "Title", c->title);
    brake_document_say_in(d, NULL, "Clause", "%s; check against the current text", c->clause);
    brake_document_say(d, NULL, "Measure", brake_measure_meaning(c->measure));
    brake_document_say(d, NULL, "Limit", limit_of(d, c));
    brake_document_say(d, NULL, "Speed", speed_of(d, c));
    brake_document_say(d, NULL, "Force", force_of(d, c));
    brake_document_say(d, NULL, "Load", loads_of(d, c));
    brake_document_say(d, NULL, "State", state_of(d, c));
    brake_document_say(d, NULL, "Applies", brake_document_words(d, "to %s", applies_of(d, c)));
    brake_document_say_in(d, NULL, "Text", "%s: %s", brake_book_of(c)->name, binds_whom(c));
    brake_document_say_in(d, NULL, "Read", "%s%s%s", brake_read_word(c->read),
                          c->text != NULL ? ": " : "", c->text != NULL ? c->text : "");
    method(d, 7);
}

/* ---- sections and lists --------------------------------------------------------------------- */

static void begin_list(struct brake_document *d, const char *head, const char *caption)
{
    const struct brake_column column[] = {{NULL, head, BRAKE_COLUMN},
                                          {NULL, "meaning", BRAKE_COLUMN}};
    brake_document_table(d,
                         &(struct brake_table){.caption = caption, .column = column, .columns = 2});
}

static void list(struct brake_document *d, const char *name, const char *meaning)
{
    brake_document_row(
        d, (const struct brake_cell[]){brake_cell_text(name), brake_cell_text(meaning)});
}

static void explain_section(struct brake_document *d, const struct brake_section *section)
{
    brake_document_say(d, NULL, "Meaning", section->meaning);
    brake_document_section(d, NULL, "Its lines");
    begin_list(d, "line", NULL);
    for (int i = 0; i < section->count; i++)
        list(d, section->rows[i].name, section->rows[i].meaning);
    brake_document_end(d);
}

static void list_lines(struct brake_document *d)
{
    const int parts = brake_section_count() - 1;
    for (int i = 0; i <= parts; i++) {
        const struct brake_section *section = brake_section_at(i);
        brake_document_section(d, NULL,
                               brake_document_words(d, "[%s%s] %s", section->path,
                                                    i == parts ? ".NAME" : "", section->meaning));
        begin_list(d, "line", NULL);
        for (int row = 0; row < section->count; row++)
            list(d, section->rows[row].name, section->rows[row].meaning);
        brake_document_end(d);
    }
}

static void list_results(struct brake_document *d)
{
    const int loaded = brake_result_find("empty.mass.total");
    const int loads = brake_result_find("full.mass.total");
    brake_document_section(d, NULL, "Results");
    begin_list(d, "result", "In either load case:");
    for (int i = 0; i < loaded; i++)
        list(d, brake_result_at(i)->name, brake_result_at(i)->meaning);
    begin_list(d, "result", "Of each load case, empty.NAME and full.NAME:");
    for (int i = loaded; i < loads; i++)
        list(d, brake_result_at(i)->name, brake_result_at(i)->meaning);
    begin_list(d, "result", "Of stopmargin heat, drivelog and compare:");
    for (int i = brake_result_count(); i < brake_result_all(); i++)
        list(d, brake_result_at(i)->name, brake_result_at(i)->meaning);
    brake_document_end(d);
}

static void list_words(struct brake_document *d)
{
    brake_document_section(d, NULL, "Requirements");
    begin_list(d, "requirement", "Restated; check each against the current text of its clause.");
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_criterion *c = brake_criterion_at(i);
        list(d, c->id, brake_document_words(d, "%s. %s", c->title, c->clause));
    }
    brake_document_end(d);
    brake_document_section(d, NULL, "Warnings and verdicts");
    begin_list(d, "word", NULL);
    for (int i = 0; i < BRAKE_WARNED; i++)
        list(d, brake_warning_id((enum brake_warned)i),
             brake_warning_meaning((enum brake_warned)i));
    for (int i = 0; i < brake_verdict_count(); i++)
        list(d, brake_verdict_at(i).word, brake_verdict_at(i).meaning);
    brake_document_end(d);
}

void brake_answer_names(struct brake_document *document)
{
    brake_document_head(document, "Names that can be explained", "stopmargin explain NAME");
    list_lines(document);
    list_results(document);
    list_words(document);
}

/* ---- the whole ------------------------------------------------------------------------------ */

static void explain(struct brake_document *d, const struct brake_named *named)
{
    switch (named->kind) {
    case BRAKE_NAMED_NOTHING:
        break;
    case BRAKE_NAMED_SECTION:
        explain_section(d, brake_section_at(named->index));
        break;
    case BRAKE_NAMED_LINE:
        explain_line(d, named);
        break;
    case BRAKE_NAMED_RESULT:
        explain_result(d, named->index);
        break;
    case BRAKE_NAMED_CRITERION:
        explain_criterion(d, brake_criterion_at(named->index));
        break;
    case BRAKE_NAMED_WARNING:
        brake_document_say(d, NULL, "Meaning",
                           brake_warning_meaning((enum brake_warned)named->index));
        break;
    case BRAKE_NAMED_VERDICT:
        brake_document_say(d, NULL, "Meaning", brake_verdict_at(named->index).meaning);
        break;
    case BRAKE_NAMED_IN_TRADE:
        brake_document_say(d, NULL, "Today", brake_trade_says(named->name));
        break;
    }
}

static const char *name_of(struct brake_document *d, const struct brake_named *named)
{
    static const char *const kinds[] = {[BRAKE_NAMED_NOTHING] = "nothing",
                                        [BRAKE_NAMED_SECTION] = "a section",
                                        [BRAKE_NAMED_LINE] = "a line",
                                        [BRAKE_NAMED_RESULT] = "a result",
                                        [BRAKE_NAMED_CRITERION] = "a requirement",
                                        [BRAKE_NAMED_WARNING] = "a warning",
                                        [BRAKE_NAMED_VERDICT] = "a verdict",
                                        [BRAKE_NAMED_IN_TRADE] = "a word of the trade"};
    char path[80];
    if (named->kind == BRAKE_NAMED_RESULT)
        brake_result_path(named->index, path, sizeof path);
    return brake_document_words(
        d, "%s (%s)", named->kind == BRAKE_NAMED_RESULT ? path : named->name, kinds[named->kind]);
}

void brake_answer_explained(struct brake_document *document, const struct brake_named *named,
                            const struct brake_explained_of *of)
{
    brake_document_head(document, "What a name stands for", name_of(document, named));
    explain(document, named);
    if (of != NULL)
        brake_part_explained(document, named, of);
}
