/* SPDX-License-Identifier: MIT */
/* Every combination of the values along some axes. */
#include "brake/sweep.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

#include "batch.h"
#include "vehicle/limits.h"
#include "vehicle/text.h"
#include "asked.h"
#include "cases.h"
#include "model/braking_lanes.h"
#include "vehicle/recalculation.h"

static const double MOST = 1e15; /* values or cases: doubles still count them one by one */

/* ---- axes ----------------------------------------------------------------------------------- */

static bool is_whole(double number, double rounding)
{
    return fabs(number - round(number)) <= rounding * fabs(number);
}

/* 2.2 and 0.01 are 220 and 1 hundredths: in whole numbers the tenth step is 2.3, not nearly so. */
static double scale_of(double low, double step)
{
    double scale = 1.0;
    for (int digits = 0; digits < 10; digits++) {
        if (is_whole(low * scale, 1e-14) && is_whole(step * scale, 1e-14))
            return scale;
        scale *= 10.0;
    }
    return 0.0;
}

enum brake_status brake_axis_steps(double low, double high, double step, struct brake_axis *axis)
{
    const double steps = (high - low) / step;
    const double scale = scale_of(low, step);
    if (!(step > 0.0 && high >= low && steps < MOST))
        return BRAKE_E_RANGE;
    axis->spacing = BRAKE_EVEN;
    axis->count = 1 + (long long)(is_whole(steps, 1e-9) ? round(steps) : floor(steps));
    axis->number = NULL;
    axis->scale = scale > 0.0 ? scale : 1.0;
    axis->first = scale > 0.0 ? round(low * scale) : low;
    axis->step = scale > 0.0 ? round(step * scale) : step;
    axis->last = high;
    return BRAKE_OK;
}

enum brake_status brake_axis_ratios(double low, double high, long long count,
                                    struct brake_axis *axis)
{
    if (!(low > 0.0 && high >= low && isfinite(high) && count >= 2 && (double)count <= MOST))
        return BRAKE_E_RANGE;
    axis->spacing = BRAKE_BY_RATIO;
    axis->count = count;
    axis->number = NULL;
    axis->first = low;
    axis->last = high;
    axis->step = 0.0;
    axis->scale = 1.0;
    return BRAKE_OK;
}

double brake_axis_number(const struct brake_axis *axis, long long number)
{
    switch (axis->spacing) {
    case BRAKE_EVEN:
        return (axis->first + (double)number * axis->step) / axis->scale;
    case BRAKE_BY_RATIO:
        if (number == axis->count - 1)
            return axis->last;
        return axis->first *
               pow(axis->last / axis->first, (double)number / (double)(axis->count - 1));
    case BRAKE_LISTED:
        break;
    }
    return axis->number[number];
}

/* ---- the grid ------------------------------------------------------------------------------- */

long long brake_sweep_count(const struct brake_sweep *sweep)
{
    double count = 1.0;
    for (int i = 0; i < (sweep->together ? 1 : sweep->axes); i++)
        count *= (double)sweep->axis[i].count;
    return count <= MOST ? (long long)count : -1;
}

void brake_sweep_position(const struct brake_sweep *sweep, long long number, long long *at)
{
    for (int i = sweep->axes - 1; i >= 0; i--) {
        at[i] = sweep->together ? number : number % sweep->axis[i].count;
        number /= sweep->together ? 1 : sweep->axis[i].count;
    }
}

static double value_at(const struct brake_axis *axis, long long number)
{
    return brake_unit_to_si(axis->unit, brake_axis_number(axis, number));
}

/* ---- making ready --------------------------------------------------------------------------- */

__attribute__((format(printf, 4, 5))) static enum brake_status refuse(struct brake_error *error,
                                                                      enum brake_status status,
                                                                      const char *path,
                                                                      const char *format, ...)
{
    va_list list;
    *error = (struct brake_error){.status = status};
    brake_text_format(error->field, sizeof error->field, "%.63s", path);
    va_start(list, format);
    brake_text_format_list(error->text, sizeof error->text, format, list);
    va_end(list);
    return status;
}

/* Units may round a value that stands on the bound just over it. */
static bool in_range(const struct brake_quantity *q, double value)
{
    const double rounding = 1e-12 * fmax(fabs(q->low), fabs(q->high));
    return value >= q->low - rounding && value <= q->high + rounding;
}

static enum brake_status check_value(const struct brake_axis *axis, long long number,
                                     const char *path, struct brake_error *error)
{
    const struct brake_quantity *q = brake_quantity_at(axis->index);
    const struct brake_unit *unit = axis->unit;
    const char *blank = unit->name[0] != '\0' ? " " : "";
    if (in_range(q, value_at(axis, number)))
        return BRAKE_OK;
    return refuse(error, BRAKE_E_RANGE, path, "got %.10g%s%s; accepts %s",
                  brake_axis_number(axis, number), blank, unit->name,
                  limits_words(unit, q->low, q->high).text);
}

/* Between its ends an axis in steps or ratios stays inside them. */
static enum brake_status check_axis(const struct brake_sweep *sweep, int number,
                                    struct brake_error *error)
{
    const struct brake_axis *axis = &sweep->axis[number];
    const long long step = axis->spacing == BRAKE_LISTED || axis->count == 1 ? 1 : axis->count - 1;
    enum brake_status status = BRAKE_OK;
    char path[160];
    brake_catalogue_path(&sweep->sheet->vehicle, axis->index, path, sizeof path);
    if (brake_quantity_at(axis->index)->kind != BRAKE_REAL)
        return refuse(error, BRAKE_E_UNKNOWN, path,
                      "is no number; an axis is a line of one number");
    for (int i = 0; i < number; i++) {
        if (sweep->axis[i].index == axis->index)
            return refuse(error, BRAKE_E_DUPLICATE, path, "is an axis twice");
    }
    if (sweep->together && axis->count != sweep->axis[0].count)
        return refuse(error, BRAKE_E_SIZE, path, "got %lld values; accepts %lld, as the first axis",
                      axis->count, sweep->axis[0].count);
    for (long long i = 0; i < axis->count && status == BRAKE_OK; i += step)
        status = check_value(axis, i, path, error);
    return status;
}

enum brake_status brake_sweep_begin(const struct brake_sweep *sweep, struct brake_sweeper *sweeper,
                                    struct brake_error *error)
{
    double first[BRAKE_AXES_OF_SWEEP];
    if (sweep->axes < 1 || sweep->axes > BRAKE_AXES_OF_SWEEP)
        return refuse(error, BRAKE_E_SIZE, "", "got %d axes; accepts 1 to %d", sweep->axes,
                      BRAKE_AXES_OF_SWEEP);
    if (brake_sweep_count(sweep) < 0)
        return refuse(error, BRAKE_E_SIZE, "", "the axes have more than %.0e cases", MOST);
    sweeper->sweep = sweep;
    sweeper->lookup.tables = 0;
    for (int i = 0; i < sweep->axes; i++) {
        const struct brake_axis *axis = &sweep->axis[i];
        const struct brake_quantity *q = brake_quantity_at(axis->index);
        const enum brake_status status = check_axis(sweep, i, error);
        if (status != BRAKE_OK)
            return status;
        sweeper->index[i] = axis->index;
        first[i] = fmin(fmax(value_at(axis, 0), q->low), q->high); /* rounding may leave it */
    }
    return brake_recalculation_begin(sweep->sheet, sweeper->index, first, sweep->axes,
                                     &sweeper->recalculation, error);
}

/* ---- the run -------------------------------------------------------------------------------- */

enum brake_status brake_sweep_take(struct brake_sweeper *sweeper, const long long *at,
                                   struct brake_error *error)
{
    const struct brake_sweep *sweep = sweeper->sweep;
    double input[BRAKE_AXES_OF_SWEEP];
    for (int i = 0; i < sweep->axes; i++)
        input[i] = value_at(&sweep->axis[i], at[i]);
    return brake_recalculation_case(&sweeper->recalculation, sweeper->index, input, sweep->axes,
                                    error);
}

enum brake_status brake_sweep_refusal(struct brake_sweeper *sweeper, long long number,
                                      struct brake_error *error)
{
    long long at[BRAKE_AXES_OF_SWEEP];
    brake_sweep_position(sweeper->sweep, number, at);
    return brake_sweep_take(sweeper, at, error);
}

enum brake_status brake_sweep_case(struct brake_sweeper *sweeper, long long number, double *value,
                                   struct brake_error *error)
{
    const struct brake_sweep *sweep = sweeper->sweep;
    const enum brake_status status = brake_sweep_refusal(sweeper, number, error);
    if (status == BRAKE_OK)
        brake_outputs(&sweeper->recalculation.sheet.vehicle, sweep->output, sweep->outputs, value);
    for (int i = 0; i < sweep->outputs && status != BRAKE_OK; i++)
        value[i] = BRAKE_NAN;
    return status;
}

static void ask_alone(struct brake_sweeper *sweeper, long long number, double *value,
                      enum brake_status *status)
{
    struct brake_error error;
    const enum brake_status said = brake_sweep_case(sweeper, number, value, &error);
    if (status != NULL)
        *status = said;
}

/* Of those that are left, how many go side by side. */
static int lanes_of(int left)
{
    return left < BRAKE_LANES ? left : BRAKE_LANES;
}

/* Outputs that ask for a state of the vehicle. */
static void ask_state(const struct brake_sweeper *sweeper, int state, long long first, int count,
                      double *value)
{
    struct brake_batch batch;
    brake_batch_begin(&sweeper->lookup, state, &batch);
    for (int i = 0; i < count; i += BRAKE_LANES)
        brake_batch_answers(sweeper, state, first + i, lanes_of(count - i), &batch,
                            value + (size_t)i * (size_t)sweeper->sweep->outputs);
}

static void ask_batch(struct brake_sweeper *sweeper, long long first, int count, double *value,
                      enum brake_status *status)
{
    const size_t outputs = (size_t)sweeper->sweep->outputs;
    for (int state = 0; state < sweeper->lookup.states; state++)
        ask_state(sweeper, state, first, count, value);
    for (int i = 0; i < count && status != NULL; i++)
        status[i] = BRAKE_OK;
    for (int done = 0; done < count; done += BRAKE_LANES) {
        const int lanes = lanes_of(count - done);
        brake_column alone;
        brake_batch_alone(sweeper, first + done, lanes, alone);
        for (int i = done; i < done + lanes; i++) {
            if (alone[i - done] > 0.0)
                ask_alone(sweeper, first + i, value + (size_t)i * outputs,
                          status != NULL ? &status[i] : NULL);
        }
    }
}

static bool asks_for_heat(const struct brake_sweep *sweep)
{
    for (int i = 0; i < sweep->outputs; i++) {
        if (brake_output_faded(sweep->output[i]))
            return true;
    }
    return false;
}

/* Cases whose heat is worked out side by side; false when one of them cannot be: alone each comes
 * out the same. */
static bool ask_together(struct brake_sweeper *sweeper, long long first, int count, double *value)
{
    const struct brake_sweep *sweep = sweeper->sweep;
    struct brake_vehicle room[BRAKE_TOGETHER];
    const struct brake_vehicle *vehicle[BRAKE_TOGETHER];
    for (int i = 0; i < count; i++) {
        struct brake_error error;
        if (brake_sweep_refusal(sweeper, first + i, &error) != BRAKE_OK)
            return false;
        room[i] = sweeper->recalculation.sheet.vehicle;
        vehicle[i] = &room[i];
    }
    brake_outputs_all(vehicle, count, sweep->output, sweep->outputs, (size_t)sweep->outputs, value);
    return true;
}

static void ask_hot(struct brake_sweeper *sweeper, long long first, int count, double *value,
                    enum brake_status *status)
{
    const size_t outputs = (size_t)sweeper->sweep->outputs;
    for (int done = 0, some; done < count; done += some) {
        double *at = value + (size_t)done * outputs;
        some = count - done < BRAKE_TOGETHER ? count - done : BRAKE_TOGETHER;
        const bool together = ask_together(sweeper, first + done, some, at);
        for (int i = 0; i < some; i++) {
            if (!together)
                ask_alone(sweeper, first + done + i, at + (size_t)i * outputs,
                          status != NULL ? &status[done + i] : NULL);
            else if (status != NULL)
                status[done + i] = BRAKE_OK;
        }
    }
}

void brake_sweep_cases(struct brake_sweeper *sweeper, long long first, int count, double *value,
                       enum brake_status *status)
{
    if (sweeper->lookup.tables > 0) {
        ask_batch(sweeper, first, count, value, status);
        return;
    }
    if (asks_for_heat(sweeper->sweep)) {
        ask_hot(sweeper, first, count, value, status);
        return;
    }
    for (int i = 0; i < count; i++)
        ask_alone(sweeper, first + i, value + (size_t)i * (size_t)sweeper->sweep->outputs,
                  status != NULL ? &status[i] : NULL);
}

/* Blocks from `first` on, as many as there are slots; returns how many cases were taken. */
static long long run_round(const struct brake_sweeper *ready, const struct brake_sweep_run *run,
                           long long first, long long total)
{
    const long long wanted = (total - first + run->block - 1) / run->block;
    const int blocks = wanted < BRAKE_SWEEP_SLOTS ? (int)wanted : BRAKE_SWEEP_SLOTS;
    struct brake_sweeper sweeper = *ready;
    long long taken = 0;
#pragma omp parallel for num_threads(run->threads) schedule(dynamic, 1) firstprivate(sweeper)
    for (int slot = 0; slot < blocks; slot++) {
        const long long from = first + (long long)slot * run->block;
        const long long left = total - from;
        run->work(run->context, slot, &sweeper, from, left < run->block ? (int)left : run->block);
    }
    for (int slot = 0; slot < blocks; slot++) {
        const long long left = total - first - taken;
        if (run->take != NULL && !run->take(run->context, slot))
            break;
        taken += left < run->block ? left : run->block;
    }
    return taken;
}

long long brake_sweep_blocks(const struct brake_sweeper *sweeper, const struct brake_sweep_run *run)
{
    const struct brake_watch *watch = &run->watch;
    const long long total = brake_sweep_count(sweeper->sweep);
    long long done = run->first;
    bool going = true;
    while (done < total && going && (watch->stop == NULL || *watch->stop == 0)) {
        const long long taken = run_round(sweeper, run, done, total);
        done += taken;
        going = taken == (long long)BRAKE_SWEEP_SLOTS * run->block;
        if (watch->progress != NULL)
            watch->progress(watch->context, (double)done, (double)total);
    }
    return done - run->first;
}

int brake_sweep_block(const struct brake_sweeper *sweeper)
{
    const struct brake_sweep *sweep = sweeper->sweep;
    if (sweeper->lookup.tables > 0)
        return 8192;
    return asks_for_heat(sweep) ? BRAKE_TOGETHER : 512;
}

static void work_into_array(void *context, int slot, struct brake_sweeper *sweeper, long long first,
                            int count)
{
    double *value = context;
    (void)slot;
    brake_sweep_cases(sweeper, first, count, value + first * sweeper->sweep->outputs, NULL);
}

long long
brake_sweep_values(const struct brake_sweeper *sweeper, int threads,
                   /* NOLINTNEXTLINE(readability-non-const-parameter): filled by the work */
                   const struct brake_watch *watch, double *value)
{
    const struct brake_watch none = {0};
    const struct brake_sweep_run run = {.block = brake_sweep_block(sweeper),
                                        .threads = threads,
                                        .context = value,
                                        .work = work_into_array,
                                        .watch = watch != NULL ? *watch : none};
    return brake_sweep_blocks(sweeper, &run);
}
