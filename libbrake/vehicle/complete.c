/* SPDX-License-Identifier: MIT */
/* From what was measured to what the model needs: raw readings are reduced, defaults filled in,
 * needs and contradictions checked, tolerances carried through. */
#include <math.h>
#include <string.h>

#include "work.h"
#include "sections.h"
#include "recalculation.h"

void brake_places_fill(struct brake_places *places)
{
    places->count = 0;
    for (int i = 0; i < BRAKE_SECTION_COUNT; i++) {
        const struct brake_section *section = &brake_sections[i];
        const int slots = i == BRAKE_SECTION_OF_PARTS ? BRAKE_PARTS : 1;
        places->first[i] = places->count;
        for (int row = 0; row < slots * section->count; row++) {
            const struct brake_quantity *quantity = &section->rows[row % section->count];
            const size_t slot = (size_t)(row / section->count) * sizeof(struct brake_part_lines);
            const size_t offset = section->offset + slot + quantity->offset;
            places->of[places->count].section = section;
            places->of[places->count].row = quantity;
            places->of[places->count].offset = offset;
            places->index[offset / sizeof(int)] = (short)places->count;
            places->count++;
        }
    }
    work_fill_rules(places);
    work_fill_verifications(places);
}

static void forget(struct work *w, int index)
{
    static const struct brake_record absent = {0};
    brake_row_clear(work_row(w, index), work_in(w, index));
    w->sheet->record[index] = absent;
}

/* What an earlier call filled in is forgotten, so that it may follow a change. */
static void forget_all(struct work *w)
{
    for (int i = 0; i < w->places->count; i++) {
        if (w->sheet->record[i].from == BRAKE_DEFAULT || w->sheet->record[i].worked)
            forget(w, i);
    }
}

/* A section that is left out may repeat another; what was set since stays. */
static void repeat_section(struct work *w, int section)
{
    const char *first = brake_sections[section].same_as;
    const int from = w->places->first[brake_section_named(first, strlen(first))];
    const int to = w->places->first[section];
    for (int row = 0; row < brake_sections[section].count; row++) {
        struct brake_record *record = &w->sheet->record[to + row];
        if (record->from > BRAKE_DEFAULT || !work_held(w, from + row))
            continue;
        memcpy(work_in(w, to + row), work_in(w, from + row), brake_quantity_size(to + row));
        *record = w->sheet->record[from + row];
        record->from = BRAKE_DEFAULT;
        record->tolerance = 0.0; /* it moves with the one it repeats */
        record->lean = 0.0;
        record->line = 0;
        record->set = false;
    }
}

static bool from_file(const struct work *w, int section)
{
    const int first = w->places->first[section];
    for (int row = 0; row < brake_sections[section].count; row++) {
        const struct brake_record *record = &w->sheet->record[first + row];
        if (record->from > BRAKE_DEFAULT && !record->set)
            return true;
    }
    return false;
}

void work_repeat(struct work *w, int unused)
{
    (void)unused;
    for (int i = 0; i < BRAKE_SECTION_COUNT; i++) {
        if (brake_sections[i].same_as != NULL && !from_file(w, i))
            repeat_section(w, i);
    }
}

static void fill_default(struct work *w, int index)
{
    const struct brake_quantity *q = work_row(w, index);
    struct brake_record *record = &w->sheet->record[index];
    if (work_given(w, index) || isnan(q->fallback) ||
        !brake_section_belongs(w->vehicle, w->places->of[index].section))
        return;
    if (q->kind == BRAKE_CHOICE)
        *(int *)work_in(w, index) = (int)q->fallback;
    else
        *work_real(w, index) = q->fallback;
    record->from = BRAKE_DEFAULT;
    if (q->kind == BRAKE_REAL)
        work_tolerance_usual(q, q->fallback, record);
}

static void fill_defaults(struct work *w)
{
    const int last = w->places->first[BRAKE_SECTION_OF_PARTS];
    for (int i = 0; i < last; i++)
        fill_default(w, i);
}

/* What a worked value may be off by: what its sources move it by, and, where a rule gave it that
 * holds only about so, the uncertainty of the rule; in squares. One that nothing moves keeps the
 * usual uncertainty of its row. */
static void tolerance_worked(struct brake_record *record, const struct brake_quantity *row,
                             double value, double squares)
{
    if (!record->typical && !(squares > 0.0)) {
        record->tolerance = fabs(value) * row->typical;
        record->typical = true;
        return;
    }
    record->tolerance =
        record->typical ? sqrt(record->tolerance * record->tolerance + squares) : sqrt(squares);
}

/* Worked values move with every toleranced number they come from; the moves add up in squares. */
static void carry_tolerances(struct work *w)
{
    const struct brake_sheet plain = *w->sheet;
    const int rows = w->places->count;
    double squares[BRAKE_ROWS] = {0.0};
    for (int i = 0; i < rows; i++) {
        const struct brake_record *record = &plain.record[i];
        if (record->tolerance <= 0.0 || record->worked)
            continue;
        *work_real(w, i) = brake_quantity_value(&plain.vehicle, i) + record->tolerance;
        work_out(w, WORK_ALL);
        for (int j = 0; j < rows; j++) {
            if (!plain.record[j].worked)
                continue;
            const double move = *work_real(w, j) - brake_quantity_value(&plain.vehicle, j);
            squares[j] += move * move;
        }
        *w->sheet = plain;
    }
    for (int row = 0; row < rows; row++) {
        struct brake_record *record = &w->sheet->record[row];
        if (record->worked)
            tolerance_worked(record, work_row(w, row), *work_real(w, row), squares[row]);
    }
}

/* All that follows from what is given. */
static void fill_in(struct work *w)
{
    forget_all(w);
    work_repeat(w, 0);
    fill_defaults(w);
    work_out(w, WORK_ALL);
}

enum brake_status brake_sheet_complete(struct brake_sheet *sheet, struct brake_error *error)
{
    static const struct brake_error none = {0};
    struct brake_places places;
    struct work w = {sheet, &sheet->vehicle, error, &places, NULL};
    *error = none;
    brake_places_fill(&places);
    fill_in(&w);
    work_verify_lines(&w);
    work_verify_needs(&w);
    work_verify_values(&w, WORK_ALL);
    if (error->status != BRAKE_OK)
        return error->status;
    w.error = NULL;
    carry_tolerances(&w);
    return BRAKE_OK;
}

void brake_sheet_missing(const struct brake_sheet *sheet, bool missing[BRAKE_ROWS])
{
    struct brake_sheet copy = *sheet;
    struct brake_places places;
    struct work w = {&copy, &copy.vehicle, NULL, &places, missing};
    memset(missing, 0, sizeof(bool[BRAKE_ROWS]));
    brake_places_fill(&places);
    fill_in(&w);
    work_verify_needs(&w);
}

/* The first case may be refused, but not the lines, which are those of all cases. */
enum brake_status brake_recalculation_begin(const struct brake_sheet *sheet, const int *index,
                                            const double *value, int count,
                                            struct brake_recalculation *recalculation,
                                            struct brake_error *error)
{
    static const struct brake_error none = {0};
    struct work w = {&recalculation->sheet, &recalculation->sheet.vehicle, error,
                     &recalculation->places, NULL};
    recalculation->sheet = *sheet;
    recalculation->anew = true;
    brake_places_fill(&recalculation->places);
    for (int i = 0; i < count; i++)
        (void)brake_sheet_set(&recalculation->sheet, index[i], value[i]);
    (void)brake_sheet_complete(&recalculation->sheet, error);
    *error = none;
    work_verify_lines(&w);
    return error->status;
}

/* Puts the numbers in; returns the sections, as bits, that may change with them. */
static unsigned long long put(struct work *w, const int *index, const double *value, int count)
{
    unsigned long long changed = 0;
    for (int i = 0; i < count; i++) {
        double *at = work_real(w, index[i]);
        if (*at != value[i])
            changed |= 1ULL << (w->places->of[index[i]].section - brake_sections);
        *at = value[i];
    }
    return work_following(w, changed);
}

unsigned long long work_reached(const struct brake_recalculation *recalculation, int index)
{
    const struct work w = {.places = &recalculation->places};
    return work_following(&w, 1ULL << (recalculation->places.of[index].section - brake_sections));
}

/* What was worked out in sections is forgotten as if the sheet were completed anew; returns how
 * much it was. */
static int forget_worked(struct work *w, unsigned long long changed, short worked[BRAKE_ROWS])
{
    int count = 0;
    for (int section = 0; section < BRAKE_SECTION_OF_PARTS; section++) {
        const int first = w->places->first[section];
        const int last = first + brake_sections[section].count;
        for (int i = first; i < last && (changed >> section & 1) != 0; i++) {
            if (!w->sheet->record[i].worked)
                continue;
            forget(w, i);
            fill_default(w, i);
            worked[count++] = (short)i;
        }
    }
    return count;
}

/* A number never changes which lines are given, but for those that are worked out. A rule that
 * refuses is asked again, as long as what it refuses may be there. */
enum brake_status brake_recalculation_case(struct brake_recalculation *recalculation,
                                           const int *index, const double *value, int count,
                                           struct brake_error *error)
{
    struct work w = {&recalculation->sheet, &recalculation->sheet.vehicle, error,
                     &recalculation->places, NULL};
    short worked[BRAKE_ROWS];
    error->status = BRAKE_OK;
    unsigned long long changed = put(&w, index, value, count);
    if (recalculation->anew)
        changed = WORK_ALL;
    const int forgotten = forget_worked(&w, changed, worked);
    work_out(&w, changed);
    for (int i = 0; i < forgotten; i++) {
        if (!work_given(&w, worked[i]) && error->status == BRAKE_OK)
            work_verify_needs(&w);
    }
    work_verify_values(&w, changed);
    recalculation->anew = error->status != BRAKE_OK;
    return error->status;
}

void brake_sheet_vary_many(const struct brake_sheet *sheet, const struct brake_places *places,
                           const int *index, const double *value, int count,
                           struct brake_vehicle *vehicle)
{
    struct brake_sheet varied = *sheet;
    struct work w = {&varied, &varied.vehicle, NULL, places, NULL};
    for (int i = 0; i < count; i++) {
        if (work_row(&w, index[i])->kind == BRAKE_CHOICE)
            *(int *)work_in(&w, index[i]) = (int)value[i];
        else
            *work_real(&w, index[i]) = value[i];
    }
    work_out(&w, WORK_ALL);
    /* Working out has put its own numbers over those. */
    for (int i = 0; i < count; i++) {
        if (sheet->record[index[i]].worked)
            *work_real(&w, index[i]) = value[i];
    }
    *vehicle = varied.vehicle;
}

void brake_sheet_vary(const struct brake_sheet *sheet, const struct brake_places *places, int index,
                      double value, struct brake_vehicle *vehicle)
{
    brake_sheet_vary_many(sheet, places, &index, &value, 1, vehicle);
}
