#include "brake/tolerance.h"
#include "vehicle/rework.h"

#include <math.h>

/* Sum of squares of one criterion, and its largest terms: of what is not measured, of all. */
struct sum {
    double squares;
    double most[2];
    int leading[2];
};

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

void brake_doubt(const struct brake_sheet *sheet, const struct brake_question *question,
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

/* ---- margins -------------------------------------------------------------------------------- */

static void ask_margins(const void *context, const struct brake_vehicle *vehicle, double *margin)
{
    const unsigned *rules = context;
    struct brake_judgement judgement[BRAKE_CRITERIA];
    brake_judge_all(*rules, vehicle, judgement);
    for (int c = 0; c < brake_criterion_count(); c++)
        margin[c] = judgement[c].margin;
}

static void add_move(struct sum *sum, double move, int index, bool measured)
{
    const double square = move * move;
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

static struct brake_sureness sure_of(const struct sum *sum, double margin)
{
    const int all = sum->leading[0] < 0;
    return (struct brake_sureness){.sigma = isnan(margin) ? BRAKE_NAN : sqrt(sum->squares),
                                   .leading = sum->leading[all],
                                   .share = sum->squares > 0.0 && isfinite(sum->squares)
                                                ? sum->most[all] / sum->squares
                                                : 0.0};
}

void brake_sureness(const struct brake_sheet *sheet, unsigned rules,
                    struct brake_sureness *sureness)
{
    const struct brake_question question = {
        .ask = ask_margins, .context = &rules, .count = brake_criterion_count()};
    struct sum sum[BRAKE_CRITERIA];
    double margin[BRAKE_CRITERIA] = {0.0};
    double move[BRAKE_ANSWERS] = {0.0};
    struct brake_places places;
    brake_places_fill(&places);
    ask_margins(&rules, &sheet->vehicle, margin);
    for (int c = 0; c < question.count; c++)
        sum[c] = (struct sum){.leading = {-1, -1}};
    for (int index = 0; index < brake_catalogue_count(); index++) {
        const struct brake_record *record = &sheet->record[index];
        if (!brake_record_moves(record))
            continue;
        find_moves(sheet, &places, &question, index, move);
        for (int c = 0; c < question.count; c++)
            add_move(&sum[c], move[c], index, record->from == BRAKE_MEASURED);
    }
    for (int c = 0; c < question.count; c++)
        sureness[c] = sure_of(&sum[c], margin[c]);
}
