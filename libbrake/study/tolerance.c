#include "brake/tolerance.h"

#include <math.h>

/* Sum of squares of one criterion, and its largest terms: of what is not measured, of all. */
struct sum {
    double margin;
    double squares;
    double most[2];
    int leading[2];
};

bool brake_record_moves(const struct brake_record *record)
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
        if (!brake_record_moves(record))
            continue;
        brake_sheet_vary(sheet, i, brake_quantity_value(&sheet->vehicle, i) + record->tolerance,
                         &moved);
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

static void add_doubt(const struct brake_sheet *sheet, const struct brake_question *question,
                      int index, double *squares)
{
    const double middle = brake_quantity_value(&sheet->vehicle, index);
    const double sigma = 0.5 * sheet->record[index].tolerance;
    struct brake_vehicle moved;
    double more[BRAKE_ANSWERS] = {0.0};
    double less[BRAKE_ANSWERS] = {0.0};
    brake_sheet_vary(sheet, index, middle + sigma, &moved);
    question->ask(question->context, &moved, more);
    brake_sheet_vary(sheet, index, middle - sigma, &moved);
    question->ask(question->context, &moved, less);
    for (int i = 0; i < question->count; i++)
        squares[i] += 0.25 * (more[i] - less[i]) * (more[i] - less[i]);
}

void brake_doubt(const struct brake_sheet *sheet, const struct brake_question *question,
                 double *sigma)
{
    for (int i = 0; i < question->count; i++)
        sigma[i] = 0.0;
    for (int i = 0; i < brake_catalogue_count(); i++) {
        const bool out = question->leave_out != NULL && question->leave_out(i);
        if (brake_record_moves(&sheet->record[i]) && !out)
            add_doubt(sheet, question, i, sigma);
    }
    for (int i = 0; i < question->count; i++)
        sigma[i] = sqrt(sigma[i]);
}
