/* The answer of `check`: is it adequate, by how much, what limits, what to measure better. */
#include <math.h>

#include "brake/file.h"
#include "brake/warnings.h"
#include "parts.h"

/* ---- verdict -------------------------------------------------------------------------------- */

static const char *verdict_of(struct brake_document *d, const struct brake_assessment *a)
{
    const int judged = a->meets + a->falls_short;
    const char *open =
        a->cannot_say == 0
            ? ""
            : brake_document_words(d, "; %d more could not be judged: an input is missing",
                                   a->cannot_say);
    if (a->falls_short > 0)
        return brake_document_words(d,
                                    "FALLS SHORT of %d of %d requirements that could be judged%s",
                                    a->falls_short, judged, open);
    if (judged > 0)
        return brake_document_words(d, "meets the %d requirements that could be judged%s", judged,
                                    open);
    return brake_document_words(d, "nothing could be judged%s", open);
}

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

static struct brake_cell margin_of(double margin)
{
    struct brake_cell cell = brake_cell_form(margin, brake_unit_find("%"), BRAKE_SIGNED_WHOLE);
    cell.text = isinf(margin) ? "without limit" : NULL;
    return cell;
}

static const char *range_of(struct brake_document *d, double low, double high)
{
    return isfinite(low) && isfinite(high)
               ? brake_document_words(d, "%+.0f to %+.0f %%", 100.0 * low, 100.0 * high)
               : NULL;
}

static const char *limiting_of(struct brake_document *d, const struct brake_assessment *a)
{
    const int criterion = a->limiting;
    const struct brake_criterion *c = brake_criterion_at(criterion);
    const double half = BRAKE_P95 * a->sureness[criterion].sigma;
    const double margin = a->judgement[criterion].margin;
    const char *range = range_of(d, margin - half, margin + half);
    return brake_document_words(
        d, "%s, %s: %s against %s; margin %s%s%s. [%s, %s; check against the current text]",
        c->title, state_of(d, &a->judgement[criterion]),
        brake_document_amount(d, value_of(a, criterion)),
        brake_document_amount(d, limit_of(a, criterion)),
        brake_document_amount(d, margin_of(margin)), range != NULL ? ", 90 of 100 within " : "",
        range != NULL ? range : "", c->id, c->clause);
}

static const char *next_of(struct brake_document *d, const struct brake_sheet *sheet,
                           const struct brake_assessment *a, int criterion, int line)
{
    const struct brake_cell value = brake_part_value(d, &sheet->vehicle, line);
    return brake_document_words(
        d, "%s (now %s, %s): it carries %.0f %% of the uncertainty of %s%s. How: %s",
        brake_part_path(d, &sheet->vehicle, line), brake_document_amount(d, value),
        brake_from_word(sheet->record[line].from), 100.0 * a->sureness[criterion].share,
        criterion == a->limiting ? "that margin" : "the margin of ",
        criterion == a->limiting ? "" : brake_criterion_at(criterion)->id,
        brake_quantity_at(line)->measure);
}

void brake_part_verdict(struct brake_document *d, const struct brake_sheet *sheet,
                        const struct brake_assessment *a)
{
    const int doubted = brake_assessment_doubted(a);
    const int line = doubted >= 0 ? a->sureness[doubted].leading : -1;
    brake_document_section(d, "summary", NULL);
    brake_document_say(d, "verdict", "Verdict", verdict_of(d, a));
    brake_document_fact(d, "meets", NULL, brake_cell_count(a->meets));
    brake_document_fact(d, "falls_short", NULL, brake_cell_count(a->falls_short));
    brake_document_fact(d, "cannot_say", NULL, brake_cell_count(a->cannot_say));
    brake_document_fact(
        d, "limiting", NULL,
        brake_cell_text(a->limiting >= 0 ? brake_criterion_at(a->limiting)->id : NULL));
    if (a->limiting >= 0)
        brake_document_say(d, NULL, "Limiting", limiting_of(d, a));
    brake_document_fact(
        d, "measure_next", NULL,
        brake_cell_text(line >= 0 ? brake_part_path(d, &sheet->vehicle, line) : NULL));
    if (line >= 0)
        brake_document_say(d, NULL, "Measure", next_of(d, sheet, a, doubted, line));
    brake_document_end(d);
}

/* ---- requirements --------------------------------------------------------------------------- */

/* Falls short before meets before cannot say; the smaller margin first; then in their order. */
static bool before(const void *assessment, int x, int y)
{
    static const int rank[] = {[BRAKE_FALLS_SHORT] = 0, [BRAKE_MEETS] = 1, [BRAKE_CANNOT_SAY] = 2};
    const struct brake_assessment *a = assessment;
    const struct brake_judgement *jx = &a->judgement[x];
    const struct brake_judgement *jy = &a->judgement[y];
    if (jx->applies != jy->applies)
        return jx->applies;
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
        if (brake_assessed(a, i))
            count = brake_part_insert(order, count, i, before, a);
    }
    return count;
}

static void criterion_row(struct brake_document *d, const struct brake_assessment *a, int criterion)
{
    const struct brake_criterion *c = brake_criterion_at(criterion);
    const struct brake_judgement *j = &a->judgement[criterion];
    const bool said = j->reason == NULL;
    const bool known = !isnan(j->margin);
    const double half = BRAKE_P95 * a->sureness[criterion].sigma;
    const struct brake_cell nothing = brake_cell_nothing();
    struct brake_cell id = brake_cell_text(c->id);
    id.quiet = !j->applies;
    brake_document_row(
        d, (const struct brake_cell[]){
               id,
               brake_cell_text(c->clause),
               brake_cell_text(c->title),
               brake_cell_truth(j->applies),
               brake_cell_text(brake_verdict_words(j->verdict)),
               brake_cell_text(said ? brake_document_words(d, "%s, %s", c->title, state_of(d, j))
                                    : c->title),
               brake_cell_text(j->reason),
               brake_cell_text(brake_document_words(d, "%s, %s", c->id, c->clause)),
               value_of(a, criterion),
               limit_of(a, criterion),
               said ? value_of(a, criterion) : nothing,
               said ? limit_of(a, criterion) : nothing,
               brake_cell_text(limit_word(c->measure)),
               brake_part_si(brake_measure_dimension(c->measure)),
               brake_cell_number(j->margin, NULL),
               said ? margin_of(j->margin) : nothing,
               brake_cell_number(j->margin - half, NULL),
               brake_cell_number(j->margin + half, NULL),
               brake_cell_text(said ? range_of(d, j->margin - half, j->margin + half) : NULL),
               brake_cell_text(known ? brake_load_word(j->load) : NULL),
               brake_cell_text(known ? brake_failure_words(j->failure) : NULL),
               brake_cell_text(c->text),
               brake_cell_text("check against the current text")});
}

void brake_part_criteria(struct brake_document *d, const struct brake_assessment *a)
{
    static const struct brake_column column[] = {{"id", NULL, BRAKE_COLUMN},
                                                 {"clause", NULL, BRAKE_COLUMN},
                                                 {"title", NULL, BRAKE_COLUMN},
                                                 {"applies", NULL, BRAKE_COLUMN},
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
                                                 {"load", NULL, BRAKE_COLUMN},
                                                 {"state", NULL, BRAKE_COLUMN},
                                                 {"read_in", NULL, BRAKE_COLUMN},
                                                 {"mark", NULL, BRAKE_COLUMN}};
    enum { REQUIREMENT = 5 };
    int order[BRAKE_CRITERIA];
    const int count = brake_part_order(a, order);
    const bool any = count > 0 && a->judgement[order[0]].applies;
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
    if (!any)
        brake_document_say(d, NULL, NULL, "None of the chosen rules applies to this vehicle.");
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
    brake_document_section(d, NULL, "Results (stopmargin explain NAME)");
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
    brake_part_verdict(document, sheet, assessment);
    brake_part_criteria(document, assessment);
    brake_part_warnings(document, assessment->warning, assessment->warnings);
    brake_part_results(document, &assessment->results);
    brake_part_lines(document, sheet, false);
    brake_part_inspector(document);
}
