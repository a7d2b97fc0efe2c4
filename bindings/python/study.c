/* SPDX-License-Identifier: MIT */
/* Studies over arrays. */
#include "study.h"

#include <math.h>
#include <omp.h>
#include <stdio.h>
#include <stdlib.h>

#include "answers.h"

int output_number(const char *name)
{
    struct brake_output output;
    if (brake_output_find(name, &output) != BRAKE_OK)
        return -1;
    return output.index + (output.criterion ? brake_result_count() : 0);
}

void output_name(int number, char *text, size_t size)
{
    if (number >= 0 && number < brake_output_count())
        brake_output_name(brake_output_at(number), text, size);
}

void line_path(const struct brake_sheet *sheet, int index, char *text, size_t size)
{
    if (index >= 0 && index < brake_catalogue_count())
        brake_catalogue_path(&sheet->vehicle, index, text, size);
}

static enum brake_dimension dimension_of(int number)
{
    const bool known = number >= 0 && number < brake_output_count();
    return known ? brake_output_dimension(brake_output_at(number)) : BRAKE_RATIO;
}

const char *output_unit(int number)
{
    return brake_unit_si(dimension_of(number))->name;
}

double output_amount(int number, const char *name, const char *text, struct brake_error *error)
{
    double value = BRAKE_NAN;
    error->status = brake_amount_read(name, text, dimension_of(number), &value, error);
    return value;
}

/* Outputs by their numbers; false when there are more than there can be. */
static bool take_outputs(struct numbers outputs, struct brake_output output[BRAKE_OUTPUTS])
{
    for (int i = 0; i < outputs.count && i < BRAKE_OUTPUTS; i++)
        output[i] = brake_output_at((int)outputs.at[i]);
    return outputs.count <= BRAKE_OUTPUTS;
}

static enum brake_status refuse(struct brake_error *error, enum brake_status status)
{
    return answer_refuse(error, status, brake_status_message(status));
}

enum brake_status outputs_of(const struct brake_sheet *sheet, struct numbers outputs,
                             const struct columns *out, struct brake_error *error)
{
    struct brake_output output[BRAKE_OUTPUTS];
    if (!take_outputs(outputs, output) || out->count != 1 || out->column[0].count != outputs.count)
        return answer_refuse(error, BRAKE_E_SIZE,
                             "more outputs than there are, or no room for them");
    brake_outputs(&sheet->vehicle, output, (int)outputs.count, columns_writable(out, 0));
    return BRAKE_OK;
}

bool quantity_takes(int index, struct numbers values)
{
    const double low = quantity_low(index);
    const double high = quantity_high(index);
    const double rounding = 1e-12 * fmax(fabs(low), fabs(high)); /* as brake_sweep_begin has it */
    bool inside = true;
    for (long i = 0; inside && i < values.count; i++)
        inside = values.at[i] >= low - rounding && values.at[i] <= high + rounding;
    return inside;
}

bool study_axes(struct numbers lines, const struct columns *values, struct brake_axis *axis)
{
    for (int i = 0; i < values->count && i < lines.count; i++) {
        const int index = (int)lines.at[i];
        axis[i] = (struct brake_axis){.index = index,
                                      .unit = brake_unit_si(brake_quantity_at(index)->dimension),
                                      .spacing = BRAKE_LISTED,
                                      .count = values->column[i].count,
                                      .number = values->column[i].at};
    }
    return values->count == lines.count;
}

enum brake_status sweep_run(const struct brake_sheet *sheet, struct numbers lines,
                            const struct columns *values, bool together, struct numbers outputs,
                            int threads, const struct brake_watch *watch, const struct columns *out,
                            struct brake_error *error)
{
    struct brake_axis axis[COLUMNS];
    struct brake_output output[BRAKE_OUTPUTS];
    const struct brake_sweep sweep = {.sheet = sheet,
                                      .axis = axis,
                                      .axes = values->count,
                                      .output = output,
                                      .outputs = (int)outputs.count,
                                      .together = together};
    if (!study_axes(lines, values, axis) || values->count < 1 || !take_outputs(outputs, output) ||
        out->count != 1)
        return refuse(error, BRAKE_E_SIZE);
    struct brake_sweeper *sweeper = brake_sweeper_new(&sweep, error);
    if (sweeper == NULL)
        return error->status;
    if (brake_sweep_count(&sweep) * outputs.count == out->column[0].count)
        brake_sweep_values(sweeper, threads, watch, columns_writable(out, 0));
    else
        refuse(error, BRAKE_E_SIZE);
    brake_sweeper_free(sweeper);
    return error->status;
}

/* ---- why cases are refused ------------------------------------------------------------------ */

/* Words of each case, a line each; NULL when memory is short. */
static char *notes_of(struct brake_sweeper *sweeper, struct numbers cases)
{
    enum { WIDTH = sizeof((struct brake_error *)0)->field + sizeof((struct brake_error *)0)->text };
    char *text = malloc((size_t)cases.count * (WIDTH + 4) + 1);
    size_t used = 0;
    for (long i = 0; text != NULL && i < cases.count; i++) {
        struct brake_error error = {0};
        if (brake_sweep_refusal(sweeper, (long long)cases.at[i], &error) != BRAKE_OK)
            used += (size_t)sprintf(text + used, "%s: %s", error.field, error.text);
        text[used++] = '\n';
    }
    if (text != NULL)
        text[used] = '\0';
    return text;
}

char *sweep_notes(const struct brake_sheet *sheet, struct numbers lines,
                  const struct columns *values, bool together, struct numbers cases,
                  struct brake_error *error)
{
    struct brake_axis axis[COLUMNS];
    const struct brake_output output = brake_output_at(0);
    const struct brake_sweep sweep = {.sheet = sheet,
                                      .axis = axis,
                                      .axes = values->count,
                                      .output = &output,
                                      .outputs = 1,
                                      .together = together};
    if (!study_axes(lines, values, axis)) {
        refuse(error, BRAKE_E_SIZE);
        return NULL;
    }
    struct brake_sweeper *sweeper = brake_sweeper_new(&sweep, error);
    char *text = sweeper != NULL ? notes_of(sweeper, cases) : NULL;
    if (sweeper != NULL && text == NULL)
        refuse(error, BRAKE_E_MEMORY);
    brake_sweeper_free(sweeper);
    return text;
}

/* ---- curves --------------------------------------------------------------------------------- */

enum brake_status curves_of(const struct brake_sheet *sheet, int load, int failure, bool by_force,
                            struct numbers along, const struct columns *out,
                            struct brake_error *error)
{
    const long numbers = sizeof(struct brake_curve_point) / sizeof(double);
    if (load < 0 || load >= BRAKE_LOADS || failure < 0 || failure >= BRAKE_FAILURES ||
        out->count != 1 || out->column[0].count != along.count * numbers)
        return refuse(error, BRAKE_E_SIZE);
    struct brake_curve_point *point = (struct brake_curve_point *)columns_writable(out, 0);
    if (by_force)
        brake_curves_at_force(&sheet->vehicle, (enum brake_load)load, (enum brake_failure)failure,
                              along.at, (int)along.count, point);
    else
        brake_curves_at_deceleration(&sheet->vehicle, (enum brake_load)load,
                                     (enum brake_failure)failure, along.at, (int)along.count,
                                     point);
    return BRAKE_OK;
}

/* ---- derivatives ---------------------------------------------------------------------------- */

static void put_derivatives(const struct brake_derivative *found, long count,
                            const struct columns *out)
{
    for (long i = 0; i < count; i++) {
        columns_writable(out, 0)[i] = found[i].value;
        columns_writable(out, 1)[i] = found[i].error;
        columns_writable(out, 2)[i] = found[i].kink ? 1.0 : 0.0;
    }
}

enum brake_status gradient_run(const struct brake_sheet *sheet, struct numbers outputs,
                               struct numbers lines, const struct columns *out,
                               struct brake_error *error)
{
    struct brake_output output[BRAKE_OUTPUTS];
    int line[BRAKE_ROWS];
    const long count = outputs.count * lines.count;
    if (!take_outputs(outputs, output) || lines.count > BRAKE_ROWS || out->count != 3 ||
        out->column[0].count != count || out->column[1].count != count ||
        out->column[2].count != count)
        return refuse(error, BRAKE_E_SIZE);
    for (int i = 0; i < lines.count; i++)
        line[i] = (int)lines.at[i];
    struct brake_derivative *found = answer_memory((size_t)count * sizeof *found, error);
    if (found == NULL)
        return error->status;
    const enum brake_status status =
        brake_gradient(sheet, output, (int)outputs.count, line, (int)lines.count, found);
    if (status == BRAKE_OK)
        put_derivatives(found, count, out);
    else
        refuse(error, status);
    free(found);
    return status;
}

/* ---- samples -------------------------------------------------------------------------------- */

enum brake_status samples_lines(const struct brake_sheet *sheet, const struct columns *out,
                                struct brake_error *error)
{
    const struct brake_samples_options options = {.samples = BRAKE_SPREAD_LEAST};
    enum brake_status status;
    struct brake_samples *samples = brake_samples_new(sheet, &options, &status);
    if (samples == NULL)
        return refuse(error, status);
    for (int i = 0; i < out->column[0].count; i++)
        columns_writable(out, 0)[i] =
            i < brake_samples_lines(samples) ? brake_samples_line(samples, i) : -1;
    brake_samples_free(samples);
    return BRAKE_OK;
}

enum brake_status samples_run(const struct brake_sheet *sheet, unsigned rules,
                              unsigned long long seed, struct numbers shapes,
                              struct numbers outputs, const struct brake_watch *watch,
                              const struct columns *out, struct brake_error *error)
{
    struct brake_output output[BRAKE_OUTPUTS];
    enum brake_shape shape[BRAKE_ROWS] = {0};
    enum brake_status status = BRAKE_E_SIZE;
    if (!take_outputs(outputs, output) || outputs.count < 1 || out->count != 2)
        return refuse(error, status);
    for (int i = 0; i < shapes.count && i < BRAKE_ROWS; i++)
        shape[i] = (enum brake_shape)shapes.at[i];
    const struct brake_samples_options options = {
        rules, out->column[1].count / outputs.count, seed, shape, output, (int)outputs.count};
    struct brake_samples *samples = brake_samples_new(sheet, &options, &status);
    if (samples == NULL && status == BRAKE_E_RANGE)
        return answer_refuse_samples(error, options.samples);
    if (samples == NULL)
        return refuse(error, status);
    if (out->column[0].count == options.samples * brake_samples_lines(samples))
        brake_samples_draw(samples, watch, columns_writable(out, 0), columns_writable(out, 1));
    else
        refuse(error, BRAKE_E_SIZE);
    brake_samples_free(samples);
    return error->status;
}

void threads_alone(void)
{
    omp_set_num_threads(1);
}
