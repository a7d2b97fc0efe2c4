/* Studies over arrays. */
#include "study.h"

#include <math.h>
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

enum brake_status outputs_of(const struct brake_sheet *sheet, struct numbers outputs,
                             const struct columns *out, struct brake_error *error)
{
    struct brake_output output[BRAKE_OUTPUTS];
    if (outputs.count > BRAKE_OUTPUTS || out->count != 1 || out->column[0].count != outputs.count)
        return answer_refuse(error, BRAKE_E_SIZE,
                             "more outputs than there are, or no room for them");
    for (int i = 0; i < outputs.count; i++)
        output[i] = brake_output_at((int)outputs.at[i]);
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

/* The axes of a sweep; false when there are not as many as lines. */
static bool take_axes(struct numbers lines, const struct columns *values, struct brake_axis *axis)
{
    for (int i = 0; i < values->count && i < lines.count; i++) {
        const int index = (int)lines.at[i];
        axis[i] = (struct brake_axis){.index = index,
                                      .unit = brake_unit_si(brake_quantity_at(index)->dimension),
                                      .spacing = BRAKE_LISTED,
                                      .count = values->column[i].count,
                                      .number = values->column[i].at};
    }
    return values->count == lines.count && values->count > 0;
}

enum brake_status sweep_run(const struct brake_sheet *sheet, struct numbers lines,
                            const struct columns *values, struct numbers outputs, int threads,
                            const struct brake_watch *watch, const struct columns *out,
                            struct brake_error *error)
{
    struct brake_axis axis[COLUMNS];
    struct brake_output output[BRAKE_OUTPUTS];
    const struct brake_sweep sweep = {.sheet = sheet,
                                      .axis = axis,
                                      .axes = values->count,
                                      .output = output,
                                      .outputs = (int)outputs.count};
    if (!take_axes(lines, values, axis) || outputs.count > BRAKE_OUTPUTS || out->count != 1)
        return answer_refuse(error, BRAKE_E_SIZE, brake_status_message(BRAKE_E_SIZE));
    for (int i = 0; i < outputs.count; i++)
        output[i] = brake_output_at((int)outputs.at[i]);
    struct brake_sweeper *sweeper = brake_sweeper_new(&sweep, error);
    if (sweeper == NULL)
        return error->status;
    if (brake_sweep_count(&sweep) * outputs.count == out->column[0].count)
        brake_sweep_values(sweeper, threads, watch, columns_writable(out, 0));
    else
        answer_refuse(error, BRAKE_E_SIZE, brake_status_message(BRAKE_E_SIZE));
    brake_sweeper_free(sweeper);
    return error->status;
}
