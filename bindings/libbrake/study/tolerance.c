#include "brake/tolerance.h"

#include <math.h>

/* Sum of squares of one criterion, and its largest terms: of what is not measured, of all. */
struct sum {
    double margin;
    double squares;
    double most[2];
    int leading[2];
};

/* A worked value whose tolerance comes from raw readings moves with those, not by itself. */
static bool moves(const struct brake_record *record)
{
    return record->tolerance > 0.0 && (!record->worked || record->typical);
}

static void add_move(struct sum *sum, double margin, int index, bool measured)
{
    const double square = (margin - sum->margin) * (margin - sum->margin) / 4.0;
    if (!(square > 0.0))
        return;
    sum->squares += square;
    for (int all = measured; all < 2; all++) {
        if (square > sum->most[all]) {
            sum->most[all] = square;
            sum->leading[all] = index;
        }
    }
}

void brake_sureness(const struct brake_sheet *sheet, unsigned rules,
                    struct brake_sureness *sureness)
{
    struct sum sum[BRAKE_CRITERIA];
    struct brake_judgement judgement[BRAKE_CRITERIA];
    const int criteria = brake_criterion_count();
    const int quantities = brake_catalogue_count();
    brake_judge_all(rules, &sheet->vehicle, judgement);
    for (int c = 0; c < criteria; c++) {
        const struct sum start = {judgement[c].margin, 0.0, {0.0, 0.0}, {-1, -1}};
        sum[c] = start;
    }
    for (int i = 0; i < quantities; i++) {
        const struct brake_record *record = &sheet->record[i];
        struct brake_vehicle moved;
        if (!moves(record))
            continue;
        brake_sheet_vary(sheet, i,
                         brake_quantity_value(&sheet->vehicle, i) + record->tolerance, &moved);
        brake_judge_all(rules, &moved, judgement);
        for (int c = 0; c < criteria; c++)
            add_move(&sum[c], judgement[c].margin, i, record->from == BRAKE_MEASURED);
    }
    for (int c = 0; c < criteria; c++) {
        const int all = sum[c].leading[0] < 0;
        sureness[c].sigma = isnan(sum[c].margin) ? BRAKE_NAN : sqrt(sum[c].squares);
        sureness[c].leading = sum[c].leading[all];
        sureness[c].share = sum[c].squares > 0.0 && isfinite(sum[c].squares)
                                ? sum[c].most[all] / sum[c].squares
                                : 0.0;
    }
}
