/* SPDX-License-Identifier: MIT */
/* The report for inspection: one vehicle on paper, with pictures, lines, and blanks to fill in. */
#include <math.h>
#include <string.h>

#include "brake/paper.h"
#include "brake/version.h"
#include "criteria/meanings.h"
#include "criteria/scope.h"
#include "file/carried.h"
#include "parts.h"
#include "picture.h"
#include "standing.h"

/* ---- vehicle, date -------------------------------------------------------------------------- */

/* A line of the vehicle file, when it is known. */
static void line_fact(struct brake_document *d, const struct brake_paper *paper, const char *label,
                      const char *path)
{
    const int index = brake_catalogue_find(&paper->sheet->vehicle, path);
    if (paper->sheet->record[index].from != BRAKE_ABSENT)
        brake_document_fact(d, NULL, label, brake_part_value(d, &paper->sheet->vehicle, index));
}

static void result_fact(struct brake_document *d, const struct brake_paper *paper,
                        const char *label, const char *path)
{
    brake_document_fact(d, NULL, label,
                        brake_part_result(&paper->assessment->results, brake_result_find(path)));
}

/* One that the inspector looks for: a blank where it is not known. */
static void identity(struct brake_document *d, const struct brake_paper *paper, const char *label,
                     const char *path)
{
    const int index = brake_catalogue_find(NULL, path);
    const bool known = paper->sheet->record[index].from != BRAKE_ABSENT;
    brake_document_fact(d, NULL, label,
                        known ? brake_part_value(d, &paper->sheet->vehicle, index)
                              : brake_cell_blank());
}

/* No paper tells where its file lay on a disk. */
static const char *file_name(const char *path)
{
    const char *slash = path != NULL ? strrchr(path, '/') : NULL;
    return slash != NULL ? slash + 1 : path;
}

/* What a paper was made of, so that it cannot be laid beside another vehicle's file. */
static void files(struct brake_document *d, const struct brake_paper *paper)
{
    brake_document_fact(d, NULL, "Vehicle file", brake_cell_text(file_name(paper->file)));
    brake_document_fact(d, NULL, "Digest of its values",
                        brake_cell_text(brake_part_digest(d, paper->sheet)));
    brake_document_fact(d, NULL, "Before", brake_cell_text(file_name(paper->before_file)));
    if (paper->before != NULL)
        brake_document_fact(d, NULL, "Digest of before",
                            brake_cell_text(brake_part_digest(d, paper->before)));
    brake_document_fact(d, NULL, "Drive log", brake_cell_text(file_name(paper->drive_file)));
    brake_document_fact(d, NULL, "Worked out by", brake_cell_text("libbrake " BRAKE_VERSION));
}

static void carry(struct brake_document *d, const struct brake_paper *paper)
{
    brake_part_carry(d, BRAKE_CARRIED_VEHICLE, paper->sheet, file_name(paper->file));
    if (paper->before != NULL)
        brake_part_carry(d, BRAKE_CARRIED_BEFORE, paper->before, file_name(paper->before_file));
    brake_part_carry_log(d, BRAKE_CARRIED_DRIVE, paper->log);
    brake_part_carry_log(d, BRAKE_CARRIED_DRIVE_BEFORE, paper->before_log);
    brake_part_carry_parts(d, &paper->sheet->own);
}

static void facts(struct brake_document *d, const struct brake_paper *paper)
{
    brake_document_section(d, NULL, "Vehicle and date");
    brake_document_fact(d, NULL, "Date", brake_cell_text(paper->date));
    files(d, paper);
    line_fact(d, paper, "Category", "vehicle.category");
    line_fact(d, paper, "First registered", "vehicle.first_registered");
    line_fact(d, paper, "Rated mass", "vehicle.rated_mass");
    result_fact(d, paper, "Mass, empty", "empty.mass.total");
    result_fact(d, paper, "Mass, full", "full.mass.total");
    line_fact(d, paper, "Front tyre", "front.tyre.marking");
    line_fact(d, paper, "Rear tyre", "rear.tyre.marking");
    line_fact(d, paper, "Front brake", "front.axle.brake");
    line_fact(d, paper, "Rear brake", "rear.axle.brake");
    identity(d, paper, "Registration mark", "vehicle.registration");
    identity(d, paper, "Identification number", "vehicle.identification_number");
    identity(d, paper, "Odometer", "vehicle.odometer");
    identity(d, paper, "Owner", "vehicle.owner");
    identity(d, paper, "Changed by", "vehicle.builder");
    identity(d, paper, "Year of the change", "vehicle.modified");
    brake_document_end(d);
}

/* ---- requirements in short ------------------------------------------------------------------ */

static void short_row(struct brake_document *d, const struct brake_assessment *a, int criterion)
{
    const struct brake_criterion *c = brake_criterion_at(criterion);
    const struct brake_judgement *j = &a->judgement[criterion];
    const struct brake_conformance *conformance = &a->conformance.of[criterion];
    const char *severity = brake_severity_word(c, j);
    const char *clause = brake_document_words(
        d, "%s; read: %s%s%s", c->clause, brake_read_word(c->read),
        severity != NULL ? "; the text calls it " : "", severity != NULL ? severity : "");
    const char *met = conformance->samples > 0 ? brake_part_met(d, conformance) : j->reason;
    brake_document_row(d,
                       (const struct brake_cell[]){
                           brake_cell_text(c->title), brake_cell_text(clause),
                           brake_cell_text(brake_verdict_words(j->verdict)),
                           j->reason == NULL ? brake_part_margin(j->margin) : brake_cell_nothing(),
                           brake_cell_text(met)});
}

/* All that counts; of yardsticks what is not met. */
static void in_short(struct brake_document *d, const struct brake_assessment *a)
{
    static const struct {
        enum brake_scope scope;
        bool met;
        const char *caption;
    } group[] = {{BRAKE_BINDS, true, "What binds it."},
                 {BRAKE_HAZARD, true, "Hazards, whatever binds it."},
                 {BRAKE_YARDSTICK, false,
                  "What it was built to, or what may bind it, where that is not met for sure."}};
    static const struct brake_column column[] = {{NULL, "requirement in short", BRAKE_COLUMN},
                                                 {NULL, "", BRAKE_DETAIL},
                                                 {NULL, "verdict", BRAKE_COLUMN},
                                                 {NULL, "margin", BRAKE_COLUMN},
                                                 {NULL, "met by", BRAKE_COLUMN}};
    int order[BRAKE_CRITERIA];
    const int count = brake_part_order(a, order);
    brake_document_section(d, NULL, "Held against: requirements in short");
    for (size_t k = 0; k < sizeof group / sizeof group[0]; k++) {
        brake_document_table(
            d, &(struct brake_table){.caption = group[k].caption, .column = column, .columns = 5});
        for (int i = 0; i < count; i++) {
            const struct brake_judgement *j = &a->judgement[order[i]];
            if (j->scope == group[k].scope && (group[k].met || j->verdict != BRAKE_MEETS))
                short_row(d, a, order[i]);
        }
    }
    brake_document_end(d);
}

/* ---- what was changed ----------------------------------------------------------------------- */

/* Index of a line; -1 when it is not there. */
static int find(const struct brake_sheet *sheet, const char *path)
{
    const int index = brake_catalogue_find(&sheet->vehicle, path);
    return index >= 0 && sheet->record[index].from != BRAKE_ABSENT ? index : -1;
}

static const char *value_words(struct brake_document *d, const struct brake_sheet *sheet, int index)
{
    if (index < 0)
        return "not given";
    const struct brake_cell value = brake_part_value(d, &sheet->vehicle, index);
    return brake_document_amount(d, value);
}

/* What is worked out, or repeats another section, follows from other lines. */
static bool follows(const struct brake_sheet *sheet, int index)
{
    return index >= 0 && (sheet->record[index].worked || brake_part_repeats(sheet, index));
}

static void line_row(struct brake_document *d, const struct brake_paper *paper, const char *path)
{
    const int then = find(paper->before, path);
    const int now = find(paper->sheet, path);
    if (follows(paper->before, then) && follows(paper->sheet, now))
        return;
    const char *before = value_words(d, paper->before, then);
    const char *after = value_words(d, paper->sheet, now);
    if (strcmp(before, after) != 0)
        brake_document_row(d, (const struct brake_cell[]){brake_cell_text(path),
                                                          brake_cell_text(before),
                                                          brake_cell_text(after)});
}

/* Lines of now come first, then those of before that are gone. */
static void differing_lines(struct brake_document *d, const struct brake_paper *paper)
{
    static const struct brake_column column[] = {{"path", "line", BRAKE_COLUMN},
                                                 {NULL, "before", BRAKE_COLUMN},
                                                 {NULL, "now", BRAKE_COLUMN}};
    brake_document_table(
        d, &(struct brake_table){.caption = "What was changed: the lines that differ.",
                                 .column = column,
                                 .columns = 3});
    for (int gone = 0; gone < 2; gone++) {
        const struct brake_sheet *sheet = gone ? paper->before : paper->sheet;
        for (int i = 0; i < brake_catalogue_count(); i++) {
            if (sheet->record[i].from == BRAKE_ABSENT)
                continue;
            const char *path = brake_part_path(d, &sheet->vehicle, i);
            if (!gone || find(paper->sheet, path) < 0)
                line_row(d, paper, path);
        }
    }
}

/* Those of hot performance are not among the margins that were compared: NULL. */
static const char *shares_of(struct brake_document *d, const struct brake_comparison *comparison,
                             int criterion)
{
    for (int i = 0; i < comparison->margins; i++) {
        if (comparison->output[i].criterion && comparison->output[i].index == criterion)
            return brake_part_shares(d, &comparison->margin[i], brake_unit_find("%"));
    }
    return NULL;
}

static void margins(struct brake_document *d, const struct brake_paper *paper)
{
    static const struct brake_column column[] = {{NULL, "margin of", BRAKE_COLUMN},
                                                 {NULL, "before", BRAKE_COLUMN},
                                                 {NULL, "now", BRAKE_COLUMN},
                                                 {NULL, "points given or taken", BRAKE_COLUMN},
                                                 {NULL, "", BRAKE_NOTE}};
    int order[BRAKE_CRITERIA];
    const int count = brake_part_order(paper->assessment, order);
    brake_document_table(
        d, &(struct brake_table){
               .caption = "Margins of the requirements, before and now; below each what every "
                          "group of changes gave or took, its Shapley share: they add up. Hot "
                          "performance is not included.",
               .column = column,
               .columns = 5});
    for (int i = 0; i < count; i++) {
        const struct brake_judgement *now = &paper->assessment->judgement[order[i]];
        const struct brake_judgement *then = &paper->before_assessment->judgement[order[i]];
        const double gain = now->margin - then->margin;
        if (!isfinite(gain) || fabs(gain) < 0.0005)
            continue;
        brake_document_row(d, (const struct brake_cell[]){
                                  brake_cell_text(brake_criterion_at(order[i])->id),
                                  brake_part_margin(then->margin), brake_part_margin(now->margin),
                                  brake_cell_text(brake_document_words(d, "%+.1f", 100.0 * gain)),
                                  brake_cell_text(shares_of(d, paper->comparison, order[i]))});
    }
}

static void changes(struct brake_document *d, const struct brake_paper *paper)
{
    if (paper->before == NULL)
        return;
    brake_document_section(d, NULL, "Changes: what they gave or took");
    margins(d, paper);
    differing_lines(d, paper);
    brake_document_end(d);
}

/* ---- drive, pictures, duties ---------------------------------------------------------------- */

static void drive(struct brake_document *d, const struct brake_paper *paper)
{
    if (paper->drive == NULL)
        return;
    brake_document_section(d, NULL, "Drive: what was measured");
    brake_part_drive(d, paper->drive);
    brake_document_end(d);
}

static void balance_empty(const void *paper, enum brake_systems systems, FILE *stream)
{
    brake_picture_balance(paper, BRAKE_EMPTY, systems, stream);
}

static void balance_full(const void *paper, enum brake_systems systems, FILE *stream)
{
    brake_picture_balance(paper, BRAKE_FULL, systems, stream);
}

static void adhesion_empty(const void *paper, enum brake_systems systems, FILE *stream)
{
    brake_picture_adhesion(paper, BRAKE_EMPTY, systems, stream);
}

static void adhesion_full(const void *paper, enum brake_systems systems, FILE *stream)
{
    brake_picture_adhesion(paper, BRAKE_FULL, systems, stream);
}

static void pedal(const void *paper, enum brake_systems systems, FILE *stream)
{
    brake_picture_pedal(paper, systems, stream);
}

static void stop(const void *paper, enum brake_systems systems, FILE *stream)
{
    brake_picture_stop(paper, systems, stream);
}

static void heat_fade(const void *paper, enum brake_systems systems, FILE *stream)
{
    brake_picture_heat(paper, BRAKE_PAPER_FADE, systems, stream);
}

static void heat_descent(const void *paper, enum brake_systems systems, FILE *stream)
{
    brake_picture_heat(paper, BRAKE_PAPER_DESCENT, systems, stream);
}

static void spread(const void *paper, enum brake_systems systems, FILE *stream)
{
    brake_picture_spread(paper, systems, stream);
}

typedef void drawing(const void *paper, enum brake_systems systems, FILE *stream);

static void draw(struct brake_document *d, const struct brake_paper *paper, const char *heading,
                 drawing *const *list, size_t count)
{
    brake_document_section(d, NULL, heading);
    for (size_t i = 0; i < count; i++)
        brake_document_figure(d, (struct brake_figure_of){.draw = list[i], .context = paper});
    brake_document_end(d);
}

/* What an inspector can hold against a tester and a pedal gauge. */
static void main_pictures(struct brake_document *d, const struct brake_paper *paper)
{
    static drawing *const list[] = {adhesion_empty, pedal};
    draw(d, paper, "Which axle locks first, and what the pedal gives", list,
         sizeof list / sizeof list[0]);
}

static void pictures(struct brake_document *d, const struct brake_paper *paper)
{
    static drawing *const list[] = {balance_empty, balance_full, adhesion_full, stop,
                                    heat_fade,     heat_descent, spread};
    draw(d, paper, "Pictures", list, sizeof list / sizeof list[0]);
}

static void duties(struct brake_document *d, const struct brake_paper *paper)
{
    static const char *const heads[BRAKE_PAPER_DUTIES] = {[BRAKE_PAPER_STOP] = "Hardest stop",
                                                          [BRAKE_PAPER_FADE] = "Fade sequence",
                                                          [BRAKE_PAPER_DESCENT] = "Long descent"};
    brake_document_section(d, NULL, "Heat in three duties");
    for (int i = 0; i < BRAKE_PAPER_DUTIES; i++) {
        brake_document_section(d, NULL, heads[i]);
        if (paper->duty[i] != NULL)
            brake_part_duty_of(d, paper->duty[i]);
        else
            brake_document_say_in(d, NULL, NULL, "Cannot be said: %s", paper->lacking[i]);
        brake_document_end(d);
    }
    brake_document_end(d);
}

/* ---- blanks --------------------------------------------------------------------------------- */

/* What it is, and the lines of the file that take it. */
static const char *asked(struct brake_document *d, const struct brake_blank *blank)
{
    return blank->lines != NULL ? brake_document_words(d, "%s [%s]", blank->what, blank->lines)
                                : blank->what;
}

static void measured(struct brake_document *d, const struct brake_paper *paper)
{
    static const struct brake_column column[] = {{NULL, "to be measured", BRAKE_COLUMN},
                                                 {NULL, "calculated", BRAKE_COLUMN},
                                                 {NULL, "measured", BRAKE_COLUMN}};
    brake_document_table(
        d, &(struct brake_table){.caption = "Fill in what the vehicle really does. In brackets the "
                                            "lines of the vehicle file that take it.",
                                 .column = column,
                                 .columns = 3});
    for (int i = 0; brake_blank_at(i) != NULL; i++) {
        const struct brake_blank *blank = brake_blank_at(i);
        brake_document_row(d, (const struct brake_cell[]){
                                  brake_cell_text(asked(d, blank)),
                                  blank->result == NULL
                                      ? brake_cell_text("")
                                      : brake_part_result(&paper->assessment->results,
                                                          brake_result_find(blank->result)),
                                  brake_cell_blank()});
    }
}

static void by_hand(struct brake_document *d, const struct brake_paper *paper)
{
    brake_document_section(d, NULL, "To be measured and signed");
    measured(d, paper);
    for (int i = 0; brake_signature_at(i) != NULL; i++)
        brake_document_fact(d, NULL, brake_signature_at(i), brake_cell_blank());
    brake_document_end(d);
}

static void method(struct brake_document *d)
{
    brake_document_section(d, NULL, "Method and sources");
    for (int i = 0; brake_method_at(i) != NULL; i++)
        brake_document_say(d, NULL, NULL, brake_method_at(i));
    brake_document_say(d, NULL, NULL, "Worked out by stopmargin, libbrake " BRAKE_VERSION ".");
    brake_document_end(d);
}

/* ---- the whole ------------------------------------------------------------------------------ */

void brake_answer_report(struct brake_document *document, const struct brake_paper *paper)
{
    brake_document_head(document, "Brakes of a modified vehicle: report for inspection",
                        brake_part_name(paper->sheet));
    carry(document, paper);
    brake_document_section(document, NULL, "Outcome");
    if (paper->assessment->before != NULL)
        brake_part_before(document, paper->assessment->before);
    if (paper->drive == NULL)
        brake_part_told(document, paper->sheet);
    brake_part_verdict(document, paper->sheet, paper->assessment);
    brake_document_end(document);
    facts(document, paper);
    in_short(document, paper->assessment);
    main_pictures(document, paper);
    brake_part_inspector(document);
    by_hand(document, paper);
    brake_document_annex(document);
    brake_part_warnings(document, paper->assessment->warning, paper->assessment->warnings);
    brake_part_advice(document, paper->sheet, paper->assessment);
    brake_part_criteria(document, paper->assessment);
    changes(document, paper);
    drive(document, paper);
    pictures(document, paper);
    duties(document, paper);
    brake_part_results(document, &paper->assessment->results);
    brake_part_lines(document, paper->sheet, true);
    method(document);
}
