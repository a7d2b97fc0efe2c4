/* SPDX-License-Identifier: MIT */
#include "inputs.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "brake/tolerance.h"
#include "vehicle/sections.h"
#include "vehicle/text.h"
#include "vehicle/recalculation.h"
#include "criteria/judge.h"
#include "distribution.h"
#include "known.h"

/* Errors of the model that are drawn: all but that of what is exact. */
enum { ERRORS = BRAKE_MODEL_ERRORS - 1 };
_Static_assert((int)BRAKE_ROWS + ERRORS + 16 <= (int)BRAKE_INPUTS, "room for every uncertainty");

static void add_input(struct brake_inputs *inputs, int index, enum brake_shape shape)
{
    const struct brake_quantity *q = brake_quantity_at(index);
    struct brake_input *input = &inputs->input[inputs->count++];
    *input = (struct brake_input){.index = index, .cause = -1};
    input->rear = strncmp(brake_quantity_section(index)->path, "rear.", 5) == 0;
    input->distribution = brake_distribution_of(
        shape, brake_quantity_value(&inputs->sheet->vehicle, index),
        inputs->sheet->record[index].tolerance, inputs->sheet->record[index].lean, q->low, q->high);
}

static bool is_open_choice(const struct brake_sheet *sheet, int index)
{
    return brake_quantity_at(index)->odds > 0.0 && sheet->record[index].from == BRAKE_DEFAULT;
}

static void add_choice(struct brake_inputs *inputs, int index)
{
    inputs->input[inputs->count++] =
        (struct brake_input){.index = index, .choice = true, .cause = -1};
}

/* Number among the inputs of a path; -1: it is not uncertain. */
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

void brake_inputs_list(const struct brake_sheet *sheet, const enum brake_shape *shape,
                       struct brake_inputs *inputs)
{
    const int causes = causes_in_all();
    inputs->sheet = sheet;
    brake_places_fill(&inputs->places);
    inputs->count = 0;
    inputs->causes = 0;
    for (int i = 0; i < brake_catalogue_count(); i++) {
        if (is_open_choice(sheet, i))
            add_choice(inputs, i);
        const struct brake_quantity *q = brake_quantity_at(i);
        if (q->kind == BRAKE_REAL && q->role != BRAKE_OF_DAY &&
            brake_record_moves(&sheet->record[i]))
            add_input(inputs, i, shape != NULL ? shape[i] : BRAKE_NORMAL);
    }
    for (int i = 0; i < causes; i++)
        add_cause(inputs, i);
    known_list(inputs);
}

int brake_inputs_count(const struct brake_inputs *inputs)
{
    return inputs->count + inputs->causes + ERRORS;
}

void brake_inputs_name(const struct brake_inputs *inputs, int number, char *name, size_t size)
{
    const int after = number - inputs->count;
    if (after < 0)
        brake_catalogue_path(&inputs->sheet->vehicle, inputs->input[number].index, name, size);
    else if (after < inputs->causes)
        brake_text_format(name, size, "%s", brake_cause_at(inputs->cause[after])->id);
    else
        brake_text_format(
            name, size, "%s",
            brake_model_error_word((enum brake_model_error)(after - inputs->causes + 1)));
}

enum brake_from brake_inputs_from(const struct brake_inputs *inputs, int number)
{
    const int cause = number - inputs->count;
    enum brake_from weakest = BRAKE_MEASURED;
    if (cause < 0)
        return inputs->sheet->record[inputs->input[number].index].from;
    if (cause >= inputs->causes)
        return BRAKE_ESTIMATED;
    for (int i = 0; i < inputs->count; i++) {
        const enum brake_from from = inputs->sheet->record[inputs->input[i].index].from;
        if (inputs->input[i].cause == cause && from < weakest)
            weakest = from;
    }
    return weakest;
}

static double with_cause(double own, double shared, double correlation)
{
    return brake_normal_share(sqrt(1.0 - correlation) * brake_normal_value(own) +
                              sqrt(correlation) * brake_normal_value(shared));
}

static double chosen(const struct brake_quantity *q, double share)
{
    return share < q->odds ? q->other : q->fallback;
}

/* The other side of what is known of a shared cause. */
static double mirrored(const struct brake_inputs *inputs, int cause, double shared)
{
    const double middle = known_shift(&inputs->learned, inputs->count + cause);
    return middle == 0.0 ? 1.0 - shared
                         : brake_normal_share(2.0 * middle - brake_normal_value(shared));
}

static void fill_values(const struct brake_inputs *inputs, const double *drawn, bool parted,
                        double *value)
{
    double told[BRAKE_INPUTS];
    const double *share = known_shares(inputs, drawn, told);
    for (int i = 0; i < inputs->count; i++) {
        const struct brake_input *input = &inputs->input[i];
        double one = share[i];
        if (input->cause >= 0) {
            const struct brake_cause *cause = brake_cause_at(inputs->cause[input->cause]);
            const double shared = share[inputs->count + input->cause];
            const bool other_way = parted && cause->parts && input->rear;
            one = with_cause(one, other_way ? mirrored(inputs, input->cause, shared) : shared,
                             cause->correlation);
        }
        value[i] = input->choice ? chosen(brake_quantity_at(input->index), one)
                                 : brake_distribution_value(&input->distribution, one);
    }
}

void brake_inputs_values(const struct brake_inputs *inputs, const double *share, double *value)
{
    fill_values(inputs, share, false, value);
}

void brake_inputs_model(const struct brake_inputs *inputs, const double *share,
                        double factor[BRAKE_MODEL_ERRORS])
{
    double told[BRAKE_INPUTS];
    const double *own = known_shares(inputs, share, told) + inputs->count + inputs->causes;
    factor[BRAKE_MODEL_EXACT] = 1.0;
    for (int i = 0; i < ERRORS; i++)
        factor[i + 1] = 1.0 + brake_model_error_size((enum brake_model_error)(i + 1)) / 1.96 *
                                  brake_normal_value(own[i]);
}

void brake_inputs_set(const struct brake_inputs *inputs, const double *value,
                      struct brake_vehicle *vehicle)
{
    int index[BRAKE_INPUTS];
    for (int i = 0; i < inputs->count; i++)
        index[i] = inputs->input[i].index;
    brake_sheet_vary_many(inputs->sheet, &inputs->places, index, value, inputs->count, vehicle);
}

static void fill_vehicle(const struct brake_inputs *inputs, const double *share, bool parted,
                         struct brake_vehicle *vehicle)
{
    double value[BRAKE_INPUTS];
    fill_values(inputs, share, parted, value);
    brake_inputs_set(inputs, value, vehicle);
}

void brake_inputs_parted(const struct brake_inputs *inputs, const double *share,
                         struct brake_vehicle *vehicle)
{
    fill_vehicle(inputs, share, true, vehicle);
}

void brake_inputs_vehicle(const struct brake_inputs *inputs, const double *share,
                          struct brake_vehicle *vehicle)
{
    fill_vehicle(inputs, share, false, vehicle);
}
