#include "brake/inputs.h"

#include <math.h>
#include <stdio.h>

#include "brake/tolerance.h"
#include "vehicle/text.h"
#include "vehicle/rework.h"

static void add_input(struct brake_inputs *inputs, int index, enum brake_shape shape)
{
    const struct brake_quantity *q = brake_quantity_at(index);
    struct brake_input *input = &inputs->input[inputs->count++];
    input->index = index;
    input->cause = -1;
    input->doubt = brake_doubt_of(shape, brake_quantity_value(&inputs->sheet->vehicle, index),
                                  inputs->sheet->record[index].tolerance, q->low, q->high);
}

/* Number among the inputs of a path; -1: it is not doubtful. */
static int find(const struct brake_inputs *inputs, const char *path)
{
    const int index = brake_catalogue_find(NULL, path);
    for (int i = 0; i < inputs->count; i++) {
        if (inputs->input[i].index == index)
            return i;
    }
    return -1;
}

/* What only one number has is no common cause. */
static void add_cause(struct brake_inputs *inputs, int number)
{
    const struct brake_cause *cause = brake_cause_at(number);
    int member[BRAKE_CAUSE_PATHS];
    int members = 0;
    for (int i = 0; i < BRAKE_CAUSE_PATHS && cause->path[i] != NULL; i++) {
        const int input = find(inputs, cause->path[i]);
        if (input >= 0)
            member[members++] = input;
    }
    if (members < 2)
        return;
    for (int i = 0; i < members; i++)
        inputs->input[member[i]].cause = inputs->causes;
    inputs->cause[inputs->causes++] = number;
}

static int causes_in_all(void)
{
    int count = 0;
    while (brake_cause_at(count) != NULL)
        count++;
    return count;
}

enum brake_status brake_inputs_list(const struct brake_sheet *sheet, const enum brake_shape *shape,
                                    struct brake_inputs *inputs)
{
    const int causes = causes_in_all();
    inputs->sheet = sheet;
    brake_places_fill(&inputs->places);
    inputs->count = 0;
    inputs->causes = 0;
    for (int i = 0; i < brake_catalogue_count(); i++) {
        if (brake_quantity_at(i)->kind != BRAKE_REAL || !brake_record_moves(&sheet->record[i]))
            continue;
        if (inputs->count + causes == BRAKE_INPUTS)
            return BRAKE_E_SIZE;
        add_input(inputs, i, shape != NULL ? shape[i] : BRAKE_NORMAL);
    }
    for (int i = 0; i < causes; i++)
        add_cause(inputs, i);
    return BRAKE_OK;
}

int brake_inputs_count(const struct brake_inputs *inputs)
{
    return inputs->count + inputs->causes;
}

void brake_inputs_name(const struct brake_inputs *inputs, int number, char *name, size_t size)
{
    if (number < inputs->count)
        brake_catalogue_path(&inputs->sheet->vehicle, inputs->input[number].index, name, size);
    else
        brake_text_format(name, size, "%s",
                          brake_cause_at(inputs->cause[number - inputs->count])->id);
}

static double with_cause(double own, double shared, double correlation)
{
    return brake_normal_share(sqrt(1.0 - correlation) * brake_normal_value(own) +
                              sqrt(correlation) * brake_normal_value(shared));
}

void brake_inputs_values(const struct brake_inputs *inputs, const double *share, double *value)
{
    for (int i = 0; i < inputs->count; i++) {
        const struct brake_input *input = &inputs->input[i];
        double one = share[i];
        if (input->cause >= 0)
            one = with_cause(one, share[inputs->count + input->cause],
                             brake_cause_at(inputs->cause[input->cause])->correlation);
        value[i] = brake_doubt_value(&input->doubt, one);
    }
}

void brake_inputs_vehicle(const struct brake_inputs *inputs, const double *share,
                          struct brake_vehicle *vehicle)
{
    int index[BRAKE_INPUTS];
    double value[BRAKE_INPUTS];
    for (int i = 0; i < inputs->count; i++)
        index[i] = inputs->input[i].index;
    brake_inputs_values(inputs, share, value);
    brake_sheet_vary_many(inputs->sheet, &inputs->places, index, value, inputs->count, vehicle);
}
