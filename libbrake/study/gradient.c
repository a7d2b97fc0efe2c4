/* SPDX-License-Identifier: MIT */
/* Derivatives by differences. Every line has a sheet of its own, so that threads leave no trace. */
#include "brake/gradient.h"

#include <math.h>
#include <stdlib.h>

#include "brake/constants.h"
#include "vehicle/recalculation.h"

enum { STEPS = 9 };

static const double widest = 0.0078125; /* [-] of the number: the first step, a power of two */
static const double kinked = 1e-5;      /* [-] of the slopes: less is no kink */
static const double leeway = 10.0;      /* [-] of the errors: less is no kink */

/* What is worked out of one line: outputs at the number itself, and on both sides of it. */
struct stencil {
    struct brake_recalculation recalculation;
    int index;
    double at, step;
    double here[BRAKE_OUTPUTS];
    double side[2][STEPS][BRAKE_OUTPUTS]; /* below, above */
};

static void ask(struct stencil *s, double number, const struct brake_output *output, int outputs,
                double *value)
{
    const struct brake_quantity *q = brake_quantity_at(s->index);
    struct brake_error why = {0};
    const bool inside = number >= q->low && number <= q->high;
    if (inside &&
        brake_recalculation_case(&s->recalculation, &s->index, &number, 1, &why) == BRAKE_OK) {
        brake_outputs(&s->recalculation.sheet.vehicle, output, outputs, value);
        return;
    }
    for (int i = 0; i < outputs; i++)
        value[i] = BRAKE_NAN;
}

/* A number of nothing has no hundredth part. */
static double step_of(const struct brake_quantity *q, double at)
{
    return fabs(at) > 0.0 ? widest * fabs(at) : widest * (q->high - q->low);
}

static void fill(struct stencil *s, const struct brake_output *output, int outputs)
{
    s->step = step_of(brake_quantity_at(s->index), s->at);
    ask(s, s->at, output, outputs, s->here);
    for (int k = 0; k < STEPS; k++) {
        const double step = ldexp(s->step, -k);
        ask(s, s->at - step, output, outputs, s->side[0][k]);
        ask(s, s->at + step, output, outputs, s->side[1][k]);
    }
}

/* ---- from differences to a slope ------------------------------------------------------------- */

struct slope {
    double value, error;
};

/* Neville's scheme over steps that halve; the error of a difference goes with `power` of its step
 * and the multiples of it. Best is where neighbours agree; what is not known is passed over. */
static struct slope extrapolate(const double difference[STEPS], int power)
{
    struct slope best = {BRAKE_NAN, BRAKE_INFINITY};
    double before[STEPS] = {0.0};
    for (int k = 0; k < STEPS; k++) {
        double now[STEPS];
        double factor = 1.0;
        now[0] = difference[k];
        for (int order = 1; order <= k; order++) {
            factor *= ldexp(1.0, power);
            now[order] = now[order - 1] + (now[order - 1] - before[order - 1]) / (factor - 1.0);
            const double apart =
                fmax(fabs(now[order] - now[order - 1]), fabs(now[order] - before[order - 1]));
            if (apart <= best.error)
                best = (struct slope){now[order], apart};
        }
        for (int order = 0; order <= k; order++)
            before[order] = now[order];
    }
    return best;
}

/* What rounding of an output does to its difference at the least step. */
static double rounding(const struct stencil *s, int output)
{
    return 4e-16 * fabs(s->here[output]) / ldexp(s->step, 1 - STEPS);
}

static struct slope slope_to(const struct stencil *s, int side, int output)
{
    double difference[STEPS];
    for (int k = 0; k < STEPS; k++) {
        const double step = ldexp(side == 0 ? -s->step : s->step, -k);
        difference[k] = (s->side[side][k][output] - s->here[output]) / step;
    }
    return extrapolate(difference, 1);
}

static struct slope slope_across(const struct stencil *s, int output)
{
    double difference[STEPS];
    for (int k = 0; k < STEPS; k++)
        difference[k] = (s->side[1][k][output] - s->side[0][k][output]) / ldexp(s->step, 1 - k);
    return extrapolate(difference, 2);
}

static struct brake_derivative one(const struct slope *slope, double off)
{
    return (struct brake_derivative){slope->value,
                                     isnan(slope->value) ? BRAKE_NAN : slope->error + off, false};
}

static struct brake_derivative derivative_of(const struct stencil *s, int output)
{
    const struct slope left = slope_to(s, 0, output);
    const struct slope right = slope_to(s, 1, output);
    const struct slope both = slope_across(s, output);
    const double off = rounding(s, output);
    if (isnan(left.value) || isnan(right.value)) /* at the end of a range */
        return one(isnan(left.value) ? &right : &left, off);
    const double apart = fabs(right.value - left.value);
    const double least = kinked * fmax(fabs(left.value), fabs(right.value)) +
                         leeway * (left.error + right.error + off);
    if (apart > least)
        return (struct brake_derivative){0.5 * (left.value + right.value), 0.5 * apart, true};
    return one(&both, off);
}

/* ---- all lines ------------------------------------------------------------------------------- */

static bool is_number(const struct brake_sheet *sheet, int line)
{
    return line >= 0 && line < brake_catalogue_count() &&
           brake_quantity_at(line)->kind == BRAKE_REAL &&
           isfinite(brake_quantity_value(&sheet->vehicle, line));
}

/* A line that is of no use to this vehicle moves nothing. */
static void derive(const struct brake_sheet *sheet, const struct brake_output *output, int outputs,
                   struct stencil *s, struct brake_derivative *derivative, int lines)
{
    struct brake_error error = {0};
    s->at = brake_quantity_value(&sheet->vehicle, s->index);
    const bool used = brake_recalculation_begin(sheet, &s->index, &s->at, 1, &s->recalculation,
                                                &error) == BRAKE_OK;
    if (used)
        fill(s, output, outputs);
    for (int i = 0; i < outputs; i++)
        derivative[(size_t)i * (size_t)lines] =
            used ? derivative_of(s, i) : (struct brake_derivative){BRAKE_NAN, BRAKE_NAN, false};
}

enum brake_status brake_gradient(const struct brake_sheet *sheet, const struct brake_output *output,
                                 int outputs, const int *line, int lines,
                                 struct brake_derivative *derivative)
{
    bool whole = true;
    if (outputs < 1 || outputs > BRAKE_OUTPUTS || lines < 1)
        return BRAKE_E_SIZE;
    for (int l = 0; l < lines; l++) {
        if (!is_number(sheet, line[l]))
            return BRAKE_E_UNKNOWN;
    }
#pragma omp parallel for schedule(dynamic)
    for (int l = 0; l < lines; l++) {
        struct stencil *s = malloc(sizeof *s);
        if (s != NULL) {
            s->index = line[l];
            derive(sheet, output, outputs, s, &derivative[l], lines);
        } else {
#pragma omp atomic write
            whole = false;
        }
        free(s);
    }
    return whole ? BRAKE_OK : BRAKE_E_MEMORY;
}
