/* SPDX-License-Identifier: MIT */
/* What to do, and what to measure: in a sentence each, and in tables. */
#include <math.h>
#include <string.h>

#include "brake/catalogue.h"
#include "brake/file.h"
#include "brake/repair.h"
#include "criteria/judge.h"
#include "criteria/scope.h"
#include "parts.h"
#include "study/procedure.h"
#include "vehicle/sections.h"

/* ---- what to do ----------------------------------------------------------------------------- */

/* "15.9 mm rear wheel cylinders and a 25.4 mm master cylinder". */
static const char *parts_of(struct brake_document *d, const struct brake_repair *r)
{
    const char *all = NULL;
    for (int i = 0; i < r->changes; i++)
        all = brake_document_join(d, all, i + 1 < r->changes ? ", " : " and ",
                                  brake_document_told(d, r->change[i].words));
    return all;
}

static const char *regained_of(struct brake_document *d, const struct brake_repair *r)
{
    if (isnan(r->regained))
        return "";
    return brake_document_words(d, "; brake torque per need %.0f %% of what it was before",
                                100.0 * r->regained);
}

/* What would mend it; "" when nothing is to be mended. */
static const char *mending(struct brake_document *d, const struct brake_assessment *a)
{
    const struct brake_repair *r = a->repair;
    const int open = r == NULL ? 0 : r->counted.cannot_say - r->counted.lacking;
    if (r == NULL || !r->wanted)
        return "";
    if (r->reach == BRAKE_REPAIR_ALL && r->counted.falls_short > 0)
        return brake_document_words(d, " All else is mended, by calculation, with %s%s.",
                                    parts_of(d, r), regained_of(d, r));
    if (r->reach == BRAKE_REPAIR_ALL)
        return brake_document_words(d,
                                    " By calculation mended with %s: then met at once by %.0f "
                                    "of 100%s.",
                                    parts_of(d, r), 100.0 * r->all_met, regained_of(d, r));
    if (r->reach == BRAKE_REPAIR_SHORT)
        return brake_document_words(d,
                                    " By calculation nothing falls short any more with %s; %d "
                                    "may still be either way%s.",
                                    parts_of(d, r), open, regained_of(d, r));
    if (a->ruling.counted.falls_short == 0)
        return " No customary parts settle that.";
    return brake_document_words(d, " No three customary parts of the brakes mend it%s%s.",
                                r->stays >= 0 ? ": nearest, what is missing most is " : "",
                                r->stays >= 0 ? brake_criterion_at(r->stays)->id : "");
}

/* What no brake mends. */
static const char *unloading(struct brake_document *d, const struct brake_assessment *a)
{
    static const struct {
        enum brake_measure measure;
        const char *words;
    } of[] = {{BRAKE_TYRE_LOAD, " Fit tyres that carry more, or carry less."},
              {BRAKE_AXLE_LOAD, " Carry less on the overloaded axle."},
              {BRAKE_MASS_LOAD, " Carry less: it is over its rated mass."}};
    const char *all = "";
    for (int i = 0; i < brake_criterion_count(); i++) {
        for (size_t k = 0; k < sizeof of / sizeof of[0]; k++) {
            if (brake_scope_counts(a->judgement[i].scope) &&
                a->judgement[i].verdict == BRAKE_FALLS_SHORT &&
                brake_criterion_at(i)->measure == of[k].measure)
                all = brake_document_words(d, "%s%s", all, of[k].words);
        }
    }
    return all;
}

const char *brake_part_do(struct brake_document *d, const struct brake_assessment *a)
{
    const struct brake_ruling *r = &a->ruling;
    if (r->counted.falls_short > 0)
        return brake_document_words(d, "Do not drive it on the road as it is.%s%s", unloading(d, a),
                                    mending(d, a));
    if (r->counted.cannot_say > r->counted.lacking)
        return brake_document_words(d, "Do not rely on it yet: it may be short.%s", mending(d, a));
    if (r->counted.cannot_say > 0)
        return "Do not rely on it yet: an input is missing.";
    if (r->unstated != NULL)
        return "Give vehicle.country, vehicle.use and vehicle.first_registered: they decide what "
               "binds it.";
    if (r->of[BRAKE_YARDSTICK].falls_short > 0)
        return "Show the inspector where it falls short of what such vehicles are built to.";
    return "Have an inspector look at the brakes before the vehicle is driven on the road.";
}

static const char *const reaches[] = {[BRAKE_REPAIR_NONE] = "none",
                                      [BRAKE_REPAIR_SHORT] = "nothing_falls_short",
                                      [BRAKE_REPAIR_ALL] = "all_met"};

static void repairs(struct brake_document *d, const struct brake_sheet *sheet,
                    const struct brake_repair *r)
{
    static const struct brake_column column[] = {
        {"part", "part", BRAKE_COLUMN}, {"line", "line", BRAKE_COLUMN},
        {NULL, "now", BRAKE_COLUMN},    {"value", NULL, BRAKE_COLUMN},
        {"unit", NULL, BRAKE_COLUMN},   {NULL, "then", BRAKE_COLUMN}};
    brake_document_section(d, "repair", r->changes > 0 ? "Repair, by calculation" : NULL);
    brake_document_fact(d, "reach", NULL, brake_cell_text(reaches[r->reach]));
    brake_document_fact(d, "p_all", NULL, brake_cell_number(r->all_met, NULL));
    brake_document_fact(d, "torque_per_need_over_before", NULL,
                        brake_cell_number(r->regained, NULL));
    brake_document_table(d, &(struct brake_table){.key = "lines", .column = column, .columns = 6});
    for (int i = 0; i < r->changes; i++) {
        const struct brake_repair_change *change = &r->change[i];
        for (int k = 0; k < change->settings; k++) {
            const struct brake_quantity *q = brake_quantity_at(change->line[k]);
            const bool choice = q->kind == BRAKE_CHOICE;
            const struct brake_cell then =
                choice ? brake_cell_text(q->choices[(int)change->value[k]])
                       : brake_cell_number(change->value[k], brake_part_line_unit(change->line[k]));
            brake_document_row(
                d, (const struct brake_cell[]){
                       brake_cell_text(brake_document_told(d, change->words)),
                       brake_cell_text(brake_part_path(d, &sheet->vehicle, change->line[k])),
                       brake_part_value(d, &sheet->vehicle, change->line[k]), then,
                       choice ? brake_cell_nothing() : brake_part_si(q->dimension), then});
        }
    }
    brake_document_end(d);
}

/* ---- what to measure ------------------------------------------------------------------------ */

enum {
    SHOWN = 4, /* lines in a sentence */
    FIRST = 2  /* of what is missing there */
};

static bool lacks(const struct brake_assessment *a, int criterion)
{
    const struct brake_judgement *j = &a->judgement[criterion];
    return brake_scope_counts(j->scope) && a->conformance.of[criterion].samples == 0 &&
           j->reason != NULL;
}

/* The lines that hot performance lacks stand in a warning. */
static const char *reason_of(struct brake_document *d, const struct brake_assessment *a,
                             int criterion)
{
    const bool hot = brake_measure_hot(brake_criterion_at(criterion)->measure);
    for (int i = 0; hot && i < a->warnings; i++) {
        if (a->warning[i].id == brake_warning_id(BRAKE_WARNS_HEAT_MISSING))
            return brake_document_told(d, a->warning[i].text + strlen(BRAKE_FADE_NONE));
    }
    return a->judgement[criterion].reason;
}

/* Whether an earlier requirement lacks the same. */
static bool told(const struct brake_assessment *a, int criterion)
{
    for (int i = 0; i < criterion; i++) {
        if (lacks(a, i) && a->judgement[i].reason == a->judgement[criterion].reason)
            return true;
    }
    return false;
}

/* What requirements that count cannot be judged without, each once; NULL: they lack nothing. */
static const char *lacking(struct brake_document *d, const struct brake_assessment *a)
{
    const char *all = NULL;
    int count = 0;
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (lacks(a, i) && !told(a, i) && count++ < FIRST)
            all = brake_document_join(d, all, "; ", reason_of(d, a, i));
    }
    return count > FIRST ? brake_document_words(d, "%s; and %d more", all, count - FIRST) : all;
}

static const char *lines_of(struct brake_document *d, const struct brake_sheet *sheet,
                            const struct brake_measuring *m)
{
    const char *all = NULL;
    for (int i = 0; i < m->lines && i < SHOWN; i++)
        all = brake_document_join(
            d, all, ", ",
            brake_document_words(d, "%s (%s)", brake_part_path(d, &sheet->vehicle, m->line[i]),
                                 brake_means_word(brake_quantity_at(m->line[i])->means)));
    return all;
}

/* What the lines that are told come to. */
static const char *worth_of(struct brake_document *d, const struct brake_measuring *m)
{
    const double sum = m->sum[(m->lines < SHOWN ? m->lines : SHOWN) - 1];
    int rows = 0;
    for (int i = 0; i < BRAKE_CRITERIA; i++)
        rows += isnan(m->probability[i]) ? 0 : 1;
    return brake_document_words(d, "expect %.1f of %d %s to be settled", sum, rows,
                                rows == 1 ? "row" : "rows");
}

/* Open requirements that measuring settles in less than half of what may come out. */
static const char *too_thin(struct brake_document *d, const struct brake_assessment *a)
{
    const struct brake_measuring *m = &a->conformance.settle;
    const char *all = NULL;
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (a->judgement[i].verdict == BRAKE_CANNOT_SAY && m->whatever[i] < 0.5)
            all = brake_document_join(d, all, ", ", brake_criterion_at(i)->id);
    }
    return all;
}

const char *brake_part_measure(struct brake_document *d, const struct brake_sheet *sheet,
                               const struct brake_assessment *a)
{
    const struct brake_measuring *m = &a->conformance.settle;
    const char *all = lacking(d, a);
    const char *lines = lines_of(d, sheet, m);
    const char *thin = too_thin(d, a);
    if (lines != NULL && m->sum[m->lines - 1] >= 0.1)
        all = brake_document_join(d, all, ". ",
                                  brake_document_words(d, "%s: %s", lines, worth_of(d, m)));
    if (thin != NULL)
        all = brake_document_join(
            d, all, ". ", brake_document_words(d, "Too thin to be settled, so mend it: %s", thin));
    return all != NULL ? brake_document_words(d, "%s.", all) : NULL;
}

/* "hazard.circuit 45 of 100, eu.45.parking 30 of 100". */
static const char *probabilities_of(struct brake_document *d, const struct brake_measuring *m)
{
    const char *all = NULL;
    for (int i = 0; i < BRAKE_CRITERIA; i++) {
        if (m->probability[i] >= 0.005)
            all = brake_document_join(d, all, ", ",
                                      brake_document_words(d, "%s %.0f of 100",
                                                           brake_criterion_at(i)->id,
                                                           100.0 * m->probability[i]));
    }
    return all;
}

static void measurings(struct brake_document *d, const struct brake_sheet *sheet, const char *key,
                       const char *heading, const struct brake_measuring *m)
{
    static const struct brake_column column[] = {{"line", "line", BRAKE_COLUMN},
                                                 {"means", "by", BRAKE_COLUMN},
                                                 {NULL, "now", BRAKE_COLUMN},
                                                 {"words_changed", "words changed", BRAKE_COLUMN},
                                                 {"how", "", BRAKE_NOTE}};
    brake_document_section(d, key, m->lines > 0 ? heading : NULL);
    brake_document_table(d, &(struct brake_table){.key = "lines", .column = column, .columns = 5});
    for (int i = 0; i < m->lines; i++) {
        const struct brake_quantity *q = brake_quantity_at(m->line[i]);
        const struct brake_cell now = brake_part_value(d, &sheet->vehicle, m->line[i]);
        brake_document_row(d, (const struct brake_cell[]){
                                  brake_cell_text(brake_part_path(d, &sheet->vehicle, m->line[i])),
                                  brake_cell_text(brake_means_word(q->means)),
                                  brake_cell_text(brake_document_words(
                                      d, "%s, %s", brake_document_amount(d, now),
                                      brake_from_word(sheet->record[m->line[i]].from))),
                                  brake_cell_form(m->sum[i], NULL, BRAKE_TWO_DIGITS),
                                  brake_cell_text(brake_part_as_given(d, q->measure))});
    }
    brake_document_say(d, "probabilities", m->lines > 0 ? "Probable" : NULL,
                       probabilities_of(d, m));
    brake_document_end(d);
}

void brake_part_advice(struct brake_document *d, const struct brake_sheet *sheet,
                       const struct brake_assessment *a)
{
    if (a->repair != NULL)
        repairs(d, sheet, a->repair);
    measurings(d, sheet, "measure",
               "Measuring, the cheapest first: what could change a word that is short or open",
               &a->conformance.settle);
    measurings(d, sheet, "overturn",
               "Also to measure: what could take a `meets` that rests on lines left out",
               &a->conformance.overturn);
}
