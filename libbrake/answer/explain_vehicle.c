/* SPDX-License-Identifier: MIT */
/* What `explain` says of one vehicle: a value, and the lines that it depends on. */
#include "explain_vehicle.h"

#include <math.h>
#include <string.h>

#include "brake/file.h"
#include "brake/warnings.h"
#include "parts.h"
#include "study/dependence.h"

/* ---- what is asked of a vehicle ------------------------------------------------------------- */

static double value_of_line(const void *index, const struct brake_vehicle *vehicle)
{
    return brake_quantity_value(vehicle, *(const int *)index);
}

static double value_of_output(const void *output, const struct brake_vehicle *vehicle)
{
    double value = BRAKE_NAN;
    brake_outputs(vehicle, output, 1, &value);
    return value;
}

/* ---- the lines that it depends on ----------------------------------------------------------- */

static void line_row(struct brake_document *d, const struct brake_sheet *sheet,
                     const struct brake_dependence *one, const struct brake_unit *unit)
{
    brake_document_row(d, (const struct brake_cell[]){
                              brake_cell_text(brake_part_path(d, &sheet->vehicle, one->index)),
                              brake_cell_text(brake_from_word(sheet->record[one->index].from)),
                              brake_part_value(d, &sheet->vehicle, one->index),
                              brake_cell_difference(one->change, unit)});
}

/* Those that move it next to nothing are only named. */
static void little(struct brake_document *d, const struct brake_sheet *sheet,
                   const struct brake_dependence *list, int count)
{
    const char *all = NULL;
    for (int i = 0; i < count; i++)
        all = brake_document_join(d, all, ", ", brake_part_path(d, &sheet->vehicle, list[i].index));
    if (all != NULL)
        brake_document_say_in(d, NULL, NULL, "A thousandth of the first or less: %s.", all);
}

static void depends(struct brake_document *d, const struct brake_sheet *sheet, brake_asked *ask,
                    const void *context, const struct brake_unit *unit)
{
    static const struct brake_column column[] = {{NULL, "line", BRAKE_COLUMN},
                                                 {NULL, "from", BRAKE_COLUMN},
                                                 {NULL, "value", BRAKE_COLUMN},
                                                 {NULL, "changes it by", BRAKE_COLUMN}};
    struct brake_dependence list[BRAKE_ROWS];
    const int count = brake_depends(sheet, ask, context, list);
    int shown = 0;
    brake_document_table(
        d, &(struct brake_table){.caption = brake_document_told(
                                     d, "Lines that it depends on here, each raised alone by 1 %; "
                                        "a temperature by 1 K, 0 by 1 % of its range. A "
                                        "line that is not named does not move it."),
                                 .none = "None with a number.",
                                 .column = column,
                                 .columns = 4});
    while (shown < count && !(fabs(list[shown].change) < 1e-3 * fabs(list[0].change)))
        line_row(d, sheet, &list[shown++], unit);
    little(d, sheet, list + shown, count - shown);
}

/* ---- lines ---------------------------------------------------------------------------------- */

/* What is assumed of the pressure under a pad, and how the radius follows; none of other lines. */
static const char *assumed(const struct brake_vehicle *vehicle, int index)
{
    static const char *const law[] = {
        [BRAKE_UNIFORM_PRESSURE] = "even pressure (a new pad): integral over its shape",
        [BRAKE_UNIFORM_WEAR] = "even wear (a bedded pad): integral over its shape"};
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        const struct brake_axle_of_vehicle *at = &vehicle->axle[axle];
        const char *path =
            axle == BRAKE_FRONT ? "front.disc.effective_radius" : "rear.disc.effective_radius";
        if (index != brake_catalogue_find(vehicle, path))
            continue;
        if (at->pads.shape == BRAKE_CIRCLE && at->pads.contact == BRAKE_UNIFORM_WEAR)
            return "even wear (a bedded pad): the handbooks' table of circular pads, which lies "
                   "up to 3.3 % below the integral";
        return law[at->pads.contact];
    }
    return NULL;
}

static void of_line(struct brake_document *d, const struct brake_sheet *sheet, int index)
{
    const struct brake_record *record = &sheet->record[index];
    if (record->from == BRAKE_ABSENT) {
        brake_document_say(d, NULL, NULL, "The file leaves it out, and nothing else gives it.");
        return;
    }
    brake_document_fact(d, NULL, "value", brake_part_value(d, &sheet->vehicle, index));
    brake_document_fact(
        d, NULL, "from",
        brake_cell_text(record->worked ? "worked out" : brake_from_word(record->from)));
    if (record->line > 0)
        brake_document_fact(d, NULL, "line of the file", brake_cell_count(record->line));
    const char *assumption = record->worked ? assumed(&sheet->vehicle, index) : NULL;
    if (assumption != NULL)
        brake_document_fact(d, NULL, "assumes", brake_cell_text(assumption));
    if (record->worked && brake_quantity_at(index)->kind == BRAKE_REAL)
        depends(d, sheet, value_of_line, &index, brake_part_line_unit(index));
}

/* ---- results -------------------------------------------------------------------------------- */

static void of_result(struct brake_document *d, const struct brake_explained_of *of, int index)
{
    const struct brake_output output = {false, index};
    if (index >= brake_result_count()) {
        brake_document_say(d, NULL, NULL,
                           "It takes a duty, a drive or a second vehicle; the file alone does not "
                           "give it.");
        return;
    }
    struct brake_cell value = brake_part_result(&of->assessment->results, index);
    value.text = "cannot be given";
    brake_document_fact(d, NULL, "value", value);
    depends(d, of->sheet, value_of_output, &output, brake_part_result_unit(index));
}

/* ---- requirements --------------------------------------------------------------------------- */

static void of_criterion(struct brake_document *d, const struct brake_explained_of *of, int index)
{
    const struct brake_output output = {true, index};
    const struct brake_judgement *j = &of->assessment->judgement[index];
    const struct brake_unit *unit = brake_part_unit(brake_criterion_at(index)->measure);
    brake_document_fact(d, NULL, "verdict", brake_cell_text(brake_verdict_words(j->verdict)));
    brake_document_fact(d, NULL, "because", brake_cell_text(j->reason));
    if (j->reason != NULL)
        return;
    brake_document_fact(d, NULL, "value", brake_cell_number(j->value, unit));
    brake_document_fact(d, NULL, "limit", brake_cell_number(j->limit, unit));
    brake_document_fact(d, NULL, "margin",
                        brake_cell_form(j->margin, brake_unit_find("%"), BRAKE_SIGNED));
    brake_document_fact(d, NULL, "worst when", brake_cell_text(brake_load_word(j->load)));
    if (j->failure != BRAKE_INTACT)
        brake_document_fact(d, NULL, "and with", brake_cell_text(brake_failure_words(j->failure)));
    depends(d, of->sheet, value_of_output, &output, brake_unit_find("%"));
}

/* ---- warnings ------------------------------------------------------------------------------- */

static void of_warning(struct brake_document *d, const struct brake_assessment *a, int kind)
{
    int given = 0;
    for (int i = 0; i < a->warnings; i++) {
        if (strcmp(a->warning[i].id, brake_warning_id((enum brake_warned)kind)) == 0) {
            brake_document_say(d, NULL, NULL, a->warning[i].text);
            given++;
        }
    }
    if (given == 0)
        brake_document_say(d, NULL, NULL, "It is not given.");
}

void brake_part_explained(struct brake_document *d, const struct brake_named *named,
                          const struct brake_explained_of *of)
{
    brake_document_section(d, NULL, brake_part_name(of->sheet));
    switch (named->kind) {
    case BRAKE_NAMED_LINE:
        of_line(d, of->sheet, named->index);
        break;
    case BRAKE_NAMED_RESULT:
        of_result(d, of, named->index);
        break;
    case BRAKE_NAMED_CRITERION:
        of_criterion(d, of, named->index);
        break;
    case BRAKE_NAMED_WARNING:
        of_warning(d, of->assessment, named->index);
        break;
    default: /* words that are the same of every vehicle */
        break;
    }
    brake_document_end(d);
}
