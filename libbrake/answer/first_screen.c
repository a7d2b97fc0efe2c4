/* SPDX-License-Identifier: MIT */
/* The first screen of `check`: 24 lines. */
#include <math.h>

#include "brake/file.h"
#include "criteria/judge.h"
#include "criteria/scope.h"
#include "paragraph.h"
#include "parts.h"

enum {
    SCREEN = 24, /* lines of the screen */
    AROUND = 6,  /* of them: name, caution, what there is more of */
    FEWEST = 2   /* requirements that are listed in any case */
};

/* ---- requirements that are not met ----------------------------------------------------------- */

/* What counts before a yardstick, what falls short before what cannot be said, a hazard before a
 * clause, then the less often met. */
static bool more_pressing(const void *assessment, int x, int y)
{
    const struct brake_assessment *a = assessment;
    const bool short_x = a->judgement[x].verdict == BRAKE_FALLS_SHORT;
    const bool short_y = a->judgement[y].verdict == BRAKE_FALLS_SHORT;
    const enum brake_scope scope_x = a->judgement[x].scope;
    const enum brake_scope scope_y = a->judgement[y].scope;
    if (scope_x != scope_y && (scope_x == BRAKE_YARDSTICK || scope_y == BRAKE_YARDSTICK))
        return scope_y == BRAKE_YARDSTICK;
    if (short_x != short_y)
        return short_x;
    if (scope_x != scope_y)
        return scope_x == BRAKE_HAZARD;
    return a->conformance.of[x].met < a->conformance.of[y].met;
}

/* The same figure of the same test against the same limit, in another text. */
static bool is_twin(const struct brake_assessment *a, int one, int other)
{
    const struct brake_judgement *x = &a->judgement[one];
    const struct brake_judgement *y = &a->judgement[other];
    return brake_criterion_at(one)->measure == brake_criterion_at(other)->measure &&
           x->value == y->value && x->limit == y->limit && x->verdict == y->verdict;
}

static bool told_before(const struct brake_assessment *a, const int *order, int at)
{
    for (int i = 0; i < at; i++) {
        if (is_twin(a, order[i], order[at]))
            return true;
    }
    return false;
}

/* One row for what several texts ask alike: the first of them that is listed names the others. */
static const char *open_row(struct brake_document *d, const struct brake_assessment *a,
                            const int *order, int count)
{
    const int criterion = order[0];
    const struct brake_judgement *j = &a->judgement[criterion];
    const struct brake_conformance *conformance = &a->conformance.of[criterion];
    const char *names = brake_criterion_at(criterion)->id;
    for (int i = 1; i < count; i++) {
        if (is_twin(a, criterion, order[i]))
            names = brake_document_join(d, names, ", ", brake_criterion_at(order[i])->id);
    }
    const char *yardstick = j->scope == BRAKE_YARDSTICK ? "yardstick " : "";
    const char *word = brake_verdict_words(j->verdict);
    if (conformance->samples == 0)
        return brake_document_words(d, "%s %s%s: %s", word, yardstick, names, j->reason);
    return brake_document_words(
        d, "%s %s%s: %s%smet by %s", word, yardstick, names,
        isfinite(j->margin) ? brake_document_amount(d, brake_part_margin(j->margin)) : "",
        isfinite(j->margin) ? ", " : "", brake_part_met(d, conformance));
}

static int in_order(const struct brake_assessment *a, int order[BRAKE_CRITERIA])
{
    int count = 0;
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_judgement *j = &a->judgement[i];
        if (j->scope != BRAKE_OUTSIDE && j->scope != BRAKE_SCREEN && j->verdict != BRAKE_MEETS)
            count = brake_part_insert(order, count, i, more_pressing, a);
    }
    return count;
}

/* That less is left than before is a hazard without a clause. Returns its lines. */
static int tell_loss(struct brake_document *d, const struct brake_assessment *a)
{
    if (a->before == NULL || a->before->verdict == BRAKE_MEETS)
        return 0;
    const char *row =
        brake_document_words(d, "%s %s: met by %s", brake_verdict_words(a->before->verdict),
                             brake_part_loss_name, brake_part_share(d, 1.0 - a->before->less));
    brake_document_say(d, NULL, "", row);
    return brake_paragraph_lines("  ", row);
}

/* As many as there are lines left, and no fewer than are asked; returns how many rows were not
 * told. */
static int list_open(struct brake_document *d, const struct brake_assessment *a, int lines,
                     int fewest)
{
    int order[BRAKE_CRITERIA];
    const int count = in_order(a, order);
    const int loss = tell_loss(d, a);
    int listed = loss > 0 ? 1 : 0;
    int left_out = 0;
    lines -= loss;
    for (int i = 0; i < count; i++) {
        if (told_before(a, order, i))
            continue;
        const char *row = open_row(d, a, order + i, count - i);
        lines -= brake_paragraph_lines("  ", row);
        if (lines >= 0 || listed < fewest) {
            brake_document_say(d, NULL, "", row);
            listed++;
        } else {
            lines = 0;
            left_out++;
        }
    }
    return left_out;
}

/* ---- the screen ----------------------------------------------------------------------------- */

/* Says what there is to say, and counts its lines. */
static void say(struct brake_document *d, const char *label, const char *text, int *lines)
{
    if (text == NULL)
        return;
    brake_document_say(d, NULL, label, text);
    *lines += brake_paragraph_lines("          ", text);
}

/* What the changes did. Where it is not known what binds, nothing else tells a changed vehicle from
 * one as it was built. */
static const char *changes_of(struct brake_document *d, const struct brake_assessment *a)
{
    if (a->before != NULL)
        return brake_part_changes(d, a->before);
    return a->ruling.unstated == NULL
               ? NULL
               : "not known: name the vehicle as it was, [vehicle] before = FILE.";
}

void brake_answer_first_screen(struct brake_document *document, const struct brake_sheet *sheet,
                               const struct brake_assessment *assessment)
{
    const struct brake_assessment *a = assessment;
    struct brake_document *d = document;
    int lines = AROUND;
    brake_document_head(d, "Brakes of a road vehicle", brake_part_name(sheet));
    brake_document_brief(d);
    const char *changes = changes_of(d, a);
    say(d, "Changes", changes, &lines);
    say(d, "Drive", brake_part_driven(d, sheet), &lines);
    say(d, "Verdict", brake_part_stands(d, &sheet->vehicle, a), &lines);
    say(d, "Yardstick", brake_part_yardsticks(d, &a->ruling), &lines);
    say(d, "Limits", brake_part_limits(d, a), &lines);
    say(d, "Do", brake_part_do(d, a), &lines);
    say(d, "Measure", brake_part_measure(d, sheet, a), &lines);
    const int left_out = list_open(d, a, SCREEN - lines, changes != NULL ? FEWEST - 1 : FEWEST);
    brake_document_say(
        d, NULL, "More",
        brake_document_words(d, "%d row%s, %d warning%s: --full. How: explain LINE%s", left_out,
                             left_out == 1 ? "" : "s", a->warnings, a->warnings == 1 ? "" : "s",
                             changes == NULL ? ". Changes: --before FILE" : ""));
}
