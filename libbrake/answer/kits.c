/* SPDX-License-Identifier: MIT */
/* The answer of `compare` with more than one vehicle after: several kits beside what it was. */
#include <math.h>

#include "criteria/scope.h"
#include "parts.h"
#include "study/change.h"

enum { LEADING = 2, COLUMNS = LEADING + 3 * BRAKE_KITS };

/* ---- a kit in sentences ---------------------------------------------------------------------- */

static void sentences(struct brake_document *d, const struct brake_kit *kit, int number)
{
    const struct brake_assessment *a = kit->assessment;
    const char *driven = brake_part_driven(d, kit->sheet);
    brake_document_say(d, NULL, brake_document_words(d, "Kit %d", number),
                       brake_document_words(d, "%s: %s", kit->file, brake_part_name(kit->sheet)));
    brake_document_say(d, NULL, "Changes", brake_part_changes(d, a->before));
    if (driven != NULL)
        brake_document_say(d, NULL, "Drive", driven);
    brake_document_say(d, NULL, "Verdict", brake_part_stands(d, &kit->sheet->vehicle, a));
    const char *limits = brake_part_limits(d, a);
    if (limits != NULL)
        brake_document_say(d, NULL, "Limits", limits);
    brake_document_say(d, NULL, "Do", brake_part_do(d, a));
}

/* ---- side by side ---------------------------------------------------------------------------- */

static struct brake_cell change_of(const struct brake_regained *r)
{
    return brake_cell_form(r->ratio - 1.0, brake_unit_find("%"), BRAKE_SIGNED_WHOLE);
}

static void kit_row(struct brake_document *d, const struct brake_kit *kit, int number)
{
    const struct brake_assessment *a = kit->assessment;
    const struct brake_before *b = a->before;
    const struct brake_regained *both = &b->of[BRAKE_BOTH_AXLES];
    const struct brake_tally *t = &a->ruling.counted;
    brake_document_row(
        d, (const struct brake_cell[]){
               brake_cell_count(number), brake_cell_text(kit->file),
               brake_cell_text(brake_part_name(kit->sheet)), change_of(both),
               brake_cell_number(both->ratio, NULL), brake_cell_number(both->low, NULL),
               brake_cell_number(both->high, NULL), change_of(&b->of[BRAKE_FRONT]),
               brake_cell_number(b->of[BRAKE_FRONT].ratio, NULL), change_of(&b->of[BRAKE_REAR]),
               brake_cell_number(b->of[BRAKE_REAR].ratio, NULL),
               brake_cell_text(brake_verdict_words(a->ruling.verdict)),
               brake_cell_count(t->falls_short), brake_cell_count(t->cannot_say),
               brake_cell_form(a->conformance.all_met, brake_unit_find("%"), BRAKE_WHOLE),
               brake_cell_number(a->conformance.all_met, NULL)});
}

static void overview(struct brake_document *d, const struct brake_kit *kit, int kits)
{
    static const struct brake_column column[] = {{NULL, "kit", BRAKE_COLUMN},
                                                 {"file", NULL, BRAKE_COLUMN},
                                                 {"name", NULL, BRAKE_COLUMN},
                                                 {NULL, "both axles", BRAKE_COLUMN},
                                                 {"ratio", NULL, BRAKE_COLUMN},
                                                 {"ratio_p05", NULL, BRAKE_COLUMN},
                                                 {"ratio_p95", NULL, BRAKE_COLUMN},
                                                 {NULL, "front", BRAKE_COLUMN},
                                                 {"ratio_front", NULL, BRAKE_COLUMN},
                                                 {NULL, "rear", BRAKE_COLUMN},
                                                 {"ratio_rear", NULL, BRAKE_COLUMN},
                                                 {"verdict", "verdict", BRAKE_COLUMN},
                                                 {"falls_short", "short", BRAKE_COLUMN},
                                                 {"cannot_say", "cannot say", BRAKE_COLUMN},
                                                 {NULL, "all at once", BRAKE_COLUMN},
                                                 {"p_all", NULL, BRAKE_COLUMN}};
    brake_document_table(
        d, &(struct brake_table){.key = "kits",
                                 .caption = "Brake torque per need over that before, of both axles "
                                            "and of each; requirements that count",
                                 .column = column,
                                 .columns = 16});
    for (int i = 0; i < kits; i++)
        kit_row(d, &kit[i], i + 1);
}

/* ---- requirements ---------------------------------------------------------------------------- */

/* A requirement that counts for a kit, and that it does not meet. */
static bool is_open(const struct brake_kit *kit, int criterion)
{
    const struct brake_judgement *j = &kit->assessment->judgement[criterion];
    return brake_scope_counts(j->scope) && j->verdict != BRAKE_MEETS;
}

static bool any_is_open(const struct brake_kit *kit, int kits, int criterion)
{
    bool any = false;
    for (int i = 0; i < kits; i++)
        any = any || is_open(&kit[i], criterion);
    return any;
}

/* For people a column a kit, for programs the words and the shares of all kits. */
static void stand(struct brake_document *d, struct brake_cell *cell, int kits,
                  enum brake_verdict verdict, double met)
{
    const char *word = brake_verdict_words(verdict);
    cell[0] = brake_cell_text(
        isnan(met) ? word : brake_document_words(d, "%s, %s", word, brake_part_share(d, met)));
    cell[kits] = brake_cell_text(word);
    cell[kits + kits] = brake_cell_number(met, NULL);
}

static void requirement_row(struct brake_document *d, const struct brake_kit *kit, int kits,
                            int criterion)
{
    struct brake_cell cell[COLUMNS] = {brake_cell_text(brake_criterion_at(criterion)->id)};
    for (int i = 0; i < kits; i++) {
        const struct brake_conformance *c = &kit[i].assessment->conformance.of[criterion];
        stand(d, &cell[1 + i], kits, kit[i].assessment->judgement[criterion].verdict,
              c->samples > 0 ? c->met : BRAKE_NAN);
    }
    brake_document_row(d, cell);
}

/* What they lose is a hazard too. */
static void loss_row(struct brake_document *d, const struct brake_kit *kit, int kits)
{
    struct brake_cell cell[COLUMNS] = {brake_cell_text(brake_part_loss_name)};
    bool any = false;
    for (int i = 0; i < kits; i++) {
        const struct brake_before *b = kit[i].assessment->before;
        any = any || b->verdict != BRAKE_MEETS;
        stand(d, &cell[1 + i], kits, b->verdict, 1.0 - b->less);
    }
    if (any)
        brake_document_row(d, cell);
}

static void requirements(struct brake_document *d, const struct brake_kit *kit, int kits)
{
    struct brake_column column[COLUMNS] = {{"id", "requirement", BRAKE_COLUMN}};
    for (int i = 0; i < kits; i++) {
        column[1 + i] =
            (struct brake_column){NULL, brake_document_words(d, "kit %d", i + 1), BRAKE_COLUMN};
        column[1 + kits + i] =
            (struct brake_column){brake_document_words(d, "verdict.%d", i + 1), NULL, BRAKE_COLUMN};
        column[1 + 2 * kits + i] =
            (struct brake_column){brake_document_words(d, "p_meets.%d", i + 1), NULL, BRAKE_COLUMN};
    }
    brake_document_table(
        d, &(struct brake_table){.key = "open",
                                 .caption = "What counts and is not met by each of them; met by so "
                                            "many of 100 samples. Check each against the current "
                                            "text",
                                 .none = "Each of them meets all that counts.",
                                 .column = column,
                                 .columns = 1 + 3 * kits});
    loss_row(d, kit, kits);
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (any_is_open(kit, kits, i))
            requirement_row(d, kit, kits, i);
    }
}

/* ---- lines ----------------------------------------------------------------------------------- */

/* Where the vehicles differ from what they were: lines of each, and lines of before that are gone.
 */
struct differences {
    bool of[BRAKE_KITS][BRAKE_ROWS];
    bool gone[BRAKE_ROWS];
};

static void find_differences(const struct brake_sheet *before, const struct brake_kit *kit,
                             int kits, struct differences *differ)
{
    *differ = (struct differences){.gone = {false}};
    for (int k = 0; k < kits; k++) {
        struct brake_changed_line line[2 * BRAKE_ROWS];
        const int count = brake_changed_lines(before, kit[k].sheet, line);
        for (int i = 0; i < count; i++)
            *(line[i].after >= 0 ? &differ->of[k][line[i].after] : &differ->gone[line[i].before]) =
                true;
    }
}

static struct brake_cell line_of(struct brake_document *d, const struct brake_sheet *sheet,
                                 const char *path)
{
    return brake_part_given(d, sheet, brake_catalogue_find(&sheet->vehicle, path));
}

/* Whether one of the kits before it differs in that line too. */
static bool told(const struct differences *differ, const struct brake_kit *kit, int kits,
                 const char *path)
{
    for (int k = 0; k < kits; k++) {
        const int index = brake_catalogue_find(&kit[k].sheet->vehicle, path);
        if (index >= 0 && differ->of[k][index])
            return true;
    }
    return false;
}

static void line_row(struct brake_document *d, const struct brake_sheet *before,
                     const struct brake_kit *kit, int kits, const char *path)
{
    struct brake_cell cell[COLUMNS] = {brake_cell_text(path), line_of(d, before, path)};
    for (int k = 0; k < kits; k++)
        cell[LEADING + k] = line_of(d, kit[k].sheet, path);
    brake_document_row(d, cell);
}

static void line_rows(struct brake_document *d, const struct brake_sheet *before,
                      const struct brake_kit *kit, int kits)
{
    struct differences differ;
    find_differences(before, kit, kits, &differ);
    for (int k = 0; k < kits; k++) {
        for (int i = 0; i < brake_catalogue_count(); i++) {
            const char *path = differ.of[k][i] ? brake_part_path(d, &kit[k].sheet->vehicle, i) : "";
            if (differ.of[k][i] && !told(&differ, kit, k, path))
                line_row(d, before, kit, kits, path);
        }
    }
    for (int i = 0; i < brake_catalogue_count(); i++) {
        const char *path = differ.gone[i] ? brake_part_path(d, &before->vehicle, i) : "";
        if (differ.gone[i] && !told(&differ, kit, kits, path))
            line_row(d, before, kit, kits, path);
    }
}

static void lines(struct brake_document *d, const struct brake_sheet *before,
                  const struct brake_kit *kit, int kits)
{
    struct brake_column column[COLUMNS] = {{"path", "line", BRAKE_COLUMN},
                                           {"before", "before", BRAKE_COLUMN}};
    for (int i = 0; i < kits; i++)
        column[LEADING + i] =
            (struct brake_column){brake_document_words(d, "kits.%d", i + 1),
                                  brake_document_words(d, "kit %d", i + 1), BRAKE_COLUMN};
    brake_document_table(d, &(struct brake_table){.key = "lines",
                                                  .caption = "Lines that differ",
                                                  .none = "None.",
                                                  .column = column,
                                                  .columns = LEADING + kits});
    line_rows(d, before, kit, kits);
}

void brake_answer_kits(struct brake_document *document, const struct brake_sheet *before,
                       const struct brake_kit *kit, int kits)
{
    struct brake_document *d = document;
    brake_document_head(d, "Brakes of several ways to change a vehicle", brake_part_name(before));
    brake_document_say(d, "before", "Before", brake_part_name(before));
    for (int i = 0; i < kits; i++)
        sentences(d, &kit[i], i + 1);
    brake_document_section(d, NULL, "Side by side");
    overview(d, kit, kits);
    requirements(d, kit, kits);
    lines(d, before, kit, kits);
    brake_document_end(d);
}
