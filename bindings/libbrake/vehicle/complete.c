/* From what was measured to what the model needs: raw readings are reduced, defaults filled in,
 * needs and contradictions checked, tolerances carried through. */
#include <math.h>
#include <string.h>

#include "work.h"

/* What an earlier call filled in is forgotten, so that it may follow a change. */
static void forget(struct work *w)
{
    for (int i = 0; i < brake_catalogue_count(); i++) {
        if (w->sheet->record[i].from == BRAKE_DEFAULT || w->sheet->record[i].worked)
            brake_quantity_clear(w->sheet, i);
    }
}

static size_t size_of_kind(enum brake_kind kind)
{
    static const size_t size[] = {[BRAKE_REAL] = sizeof(double),
                                  [BRAKE_CHOICE] = sizeof(int),
                                  [BRAKE_TEXT] = BRAKE_TEXT_SIZE,
                                  [BRAKE_PISTONS] = sizeof(struct brake_pistons),
                                  [BRAKE_CURVE] = sizeof(struct brake_points)};
    return size[kind];
}

/* A section that is left out may repeat another; what was set since stays. */
static void repeat_section(struct work *w, int section)
{
    const char *first = brake_sections[section].same_as;
    const int from = brake_section_first(brake_section_named(first, strlen(first)));
    const int to = brake_section_first(section);
    for (int row = 0; row < brake_sections[section].count; row++) {
        struct brake_record *record = &w->sheet->record[to + row];
        if (record->from > BRAKE_DEFAULT || !work_held(w, from + row))
            continue;
        memcpy(brake_quantity_in(w->vehicle, to + row), brake_quantity_in(w->vehicle, from + row),
               size_of_kind(brake_quantity_at(to + row)->kind));
        *record = w->sheet->record[from + row];
        record->from = BRAKE_DEFAULT;
        record->tolerance = 0.0; /* it moves with the one it repeats */
        record->line = 0;
        record->set = false;
    }
}

static bool from_file(const struct work *w, int section)
{
    const int first = brake_section_first(section);
    for (int row = 0; row < brake_sections[section].count; row++) {
        const struct brake_record *record = &w->sheet->record[first + row];
        if (record->from > BRAKE_DEFAULT && !record->set)
            return true;
    }
    return false;
}

static void repeat_sections(struct work *w)
{
    for (int i = 0; i < brake_sections_count; i++) {
        if (brake_sections[i].same_as != NULL && !from_file(w, i))
            repeat_section(w, i);
    }
}

static void fill_defaults(struct work *w)
{
    const int last = brake_section_first(brake_sections_count - 1);
    for (int i = 0; i < last; i++) {
        const struct brake_quantity *q = brake_quantity_at(i);
        struct brake_record *record = &w->sheet->record[i];
        if (work_given(w, i) || isnan(q->fallback) ||
            !work_belongs(w->vehicle, brake_quantity_section(i)))
            continue;
        if (q->kind == BRAKE_CHOICE)
            *(int *)brake_quantity_in(w->vehicle, i) = (int)q->fallback;
        else
            *work_real(w, i) = q->fallback;
        record->from = BRAKE_DEFAULT;
        record->tolerance = fabs(q->fallback) * q->typical;
        record->typical = record->tolerance > 0.0;
    }
}

static void work_out(struct work *w)
{
    repeat_sections(w);
    work_reduce(w);
}

/* Worked values move with every toleranced number they come from; the moves add up in squares. A
 * worked value that none of them moves keeps the usual uncertainty of its row. */
static void carry_tolerances(struct work *w)
{
    const struct brake_sheet plain = *w->sheet;
    const int count = brake_catalogue_count();
    double squares[BRAKE_ROWS] = {0.0};
    for (int i = 0; i < count; i++) {
        const struct brake_record *record = &plain.record[i];
        if (record->tolerance <= 0.0 || record->worked)
            continue;
        *work_real(w, i) = brake_quantity_value(&plain.vehicle, i) + record->tolerance;
        work_out(w);
        for (int j = 0; j < count; j++) {
            if (!plain.record[j].worked)
                continue;
            const double move = *work_real(w, j) - brake_quantity_value(&plain.vehicle, j);
            squares[j] += move * move;
        }
        *w->sheet = plain;
    }
    for (int j = 0; j < count; j++) {
        struct brake_record *record = &w->sheet->record[j];
        if (!record->worked)
            continue;
        record->typical = !(squares[j] > 0.0);
        record->tolerance = record->typical ? fabs(*work_real(w, j)) * brake_quantity_at(j)->typical
                                            : sqrt(squares[j]);
    }
}

enum brake_status brake_sheet_complete(struct brake_sheet *sheet, struct brake_error *error)
{
    static const struct brake_error none = {0};
    struct work w = {sheet, &sheet->vehicle, error};
    *error = none;
    forget(&w);
    repeat_sections(&w);
    fill_defaults(&w);
    work_out(&w);
    work_verify(&w);
    if (error->status != BRAKE_OK)
        return error->status;
    w.error = NULL;
    carry_tolerances(&w);
    return BRAKE_OK;
}

void brake_sheet_vary(const struct brake_sheet *sheet, int index, double value,
                      struct brake_vehicle *vehicle)
{
    if (sheet->record[index].worked) {
        *vehicle = sheet->vehicle;
        *(double *)brake_quantity_in(vehicle, index) = value;
        return;
    }
    struct brake_sheet varied = *sheet;
    struct work w = {&varied, &varied.vehicle, NULL};
    *(double *)brake_quantity_in(&varied.vehicle, index) = value;
    work_out(&w);
    *vehicle = varied.vehicle;
}
