/* SPDX-License-Identifier: MIT */
#include "brake/tolerance.h"
#include "vehicle/recalculation.h"
#include "distribution.h"
#include "tolerance.h"

#include <math.h>

bool brake_record_moves(const struct brake_record *record)
{
    return record->tolerance > 0.0 && (!record->worked || record->typical);
}

/* Half of what each answer differs by when one number stands a standard deviation higher and
 * lower. */
static void find_moves(const struct brake_sheet *sheet, const struct brake_places *places,
                       const struct brake_question *question, int index, double move[BRAKE_ANSWERS])
{
    const double middle = brake_quantity_value(&sheet->vehicle, index);
    const double sigma = 0.5 * sheet->record[index].tolerance;
    struct brake_vehicle moved;
    double less[BRAKE_ANSWERS] = {0.0};
    brake_sheet_vary(sheet, places, index, middle + sigma, &moved);
    question->ask(question->context, &moved, move);
    brake_sheet_vary(sheet, places, index, middle - sigma, &moved);
    question->ask(question->context, &moved, less);
    for (int i = 0; i < question->count; i++)
        move[i] = 0.5 * (move[i] - less[i]);
}

void brake_uncertainty(const struct brake_sheet *sheet, const struct brake_question *question,
                       double *sigma)
{
    double move[BRAKE_ANSWERS] = {0.0};
    struct brake_places places;
    brake_places_fill(&places);
    for (int i = 0; i < question->count; i++)
        sigma[i] = 0.0;
    for (int index = 0; index < brake_catalogue_count(); index++) {
        const bool out = question->leave_out != NULL && question->leave_out(index);
        if (out || !brake_record_moves(&sheet->record[index]))
            continue;
        find_moves(sheet, &places, question, index, move);
        for (int i = 0; i < question->count; i++)
            sigma[i] += move[i] * move[i];
    }
    for (int i = 0; i < question->count; i++)
        sigma[i] = sqrt(sigma[i]);
}
