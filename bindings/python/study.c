/* Studies over arrays. */
#include "study.h"

#include <math.h>
#include <string.h>

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

const char *output_unit(int number)
{
    const bool known = number >= 0 && number < brake_output_count();
    return known ? brake_unit_si(brake_output_dimension(brake_output_at(number)))->name : "";
}

/* The numbers fit the arrays: as many axes as lines, room for every output of every case. */
static bool is_fit(struct numbers lines, const struct columns *values, struct numbers outputs,
                   const struct columns *out)
{
    double room = (double)outputs.count;
    for (int i = 0; i < values->count; i++)
        room *= (double)values->column[i].count;
    return values->count == lines.count && outputs.count > 0 && outputs.count <= BRAKE_OUTPUTS &&
           out->count == 1 && (double)out->column[0].count == room;
}

/* Sets the lines of a case; the last axis runs fastest. */
static enum brake_status set_case(struct brake_sheet *sheet, struct numbers lines,
                                  const struct columns *values, long number)
{
    for (int axis = values->count - 1; axis >= 0; axis--) {
        const struct column column = values->column[axis];
        const enum brake_status status =
            brake_sheet_set(sheet, (int)lines.at[axis], column.at[number % column.count]);
        if (status != BRAKE_OK)
            return status;
        number /= column.count;
    }
    return BRAKE_OK;
}

static void work_out(const struct brake_sheet *sheet, const struct brake_output *output, int count,
                     bool accepted, double *value)
{
    if (accepted)
        brake_outputs(&sheet->vehicle, output, count, value);
    for (int i = 0; !accepted && i < count; i++)
        value[i] = BRAKE_NAN;
}

/* Axes whose values the vehicle would never take are refused before anything is worked out. */
static enum brake_status check_axes(const struct brake_sheet *sheet, struct numbers lines,
                                    const struct columns *values, struct brake_error *error)
{
    struct brake_sheet trial = *sheet;
    for (int axis = 0; axis < values->count; axis++) {
        for (long i = 0; i < values->column[axis].count; i++) {
            const double value = values->column[axis].at[i];
            const int index = (int)lines.at[axis];
            error->status = brake_sheet_set(&trial, index, value);
            if (error->status == BRAKE_OK)
                continue;
            brake_catalogue_path(&sheet->vehicle, index, error->field, sizeof error->field);
            snprintf(error->text, sizeof error->text, "got %g %s; accepts %g to %g", value,
                     brake_unit_si(brake_quantity_at(index)->dimension)->name,
                     brake_quantity_at(index)->low, brake_quantity_at(index)->high);
            return error->status;
        }
    }
    return BRAKE_OK;
}

enum brake_status sweep_run(const struct brake_sheet *sheet, struct numbers lines,
                            const struct columns *values, struct numbers outputs,
                            const struct columns *out, struct brake_error *error)
{
    struct brake_output output[BRAKE_OUTPUTS];
    struct brake_error refusal;
    const int count = (int)outputs.count;
    double *value;
    if (!is_fit(lines, values, outputs, out))
        return error->status = BRAKE_E_SIZE;
    value = columns_writable(out, 0);
    if (check_axes(sheet, lines, values, error) != BRAKE_OK)
        return error->status;
    for (int i = 0; i < count; i++)
        output[i] = brake_output_at((int)outputs.at[i]);
    for (long number = 0; number < out->column[0].count / count; number++) {
        struct brake_sheet one = *sheet;
        const bool accepted = set_case(&one, lines, values, number) == BRAKE_OK &&
                              brake_sheet_complete(&one, &refusal) == BRAKE_OK;
        work_out(&one, output, count, accepted, value + number * count);
    }
    return BRAKE_OK;
}
