/* SPDX-License-Identifier: MIT */
/* The table of results. */
#include <stdio.h>
#include <string.h>

#include "brake/results.h"
#include "text.h"
#include "groups.h"

#define ROW(where, path, group_, symbol_, dimension_, unit_, section_, meaning_)                   \
    {.name = #path,                                                                                \
     .symbol = (symbol_),                                                                          \
     .dimension = BRAKE_##dimension_,                                                              \
     .unit = (unit_),                                                                              \
     .meaning = (meaning_),                                                                        \
     .section = (section_),                                                                        \
     .group = BRAKE_OF_##group_,                                                                   \
     .offset = offsetof(struct where, path)},
#define COMMON(group, part, name, ...) ROW(brake_common_results, part.name, group, __VA_ARGS__)
#define STUDY(group, part, name, ...) ROW(brake_study_results, part.name, group, __VA_ARGS__)
#define CASE(group, part, name, ...) ROW(brake_case_results, part.name, group, __VA_ARGS__)

/* clang-format off */
static const struct brake_result common_rows[] = {
    BRAKE_SPEEDOMETER_RESULTS(COMMON)
    BRAKE_BRAKES_RESULTS(COMMON)
    BRAKE_FADE_RESULTS(COMMON)
};

static const struct brake_result case_rows[] = {
    BRAKE_MASS_RESULTS(CASE)
    BRAKE_CG_RESULTS(CASE)
    BRAKE_DECELERATION_RESULTS(CASE)
    BRAKE_PEDAL_RESULTS(CASE)
    BRAKE_FLUID_RESULTS(CASE)
    BRAKE_TORQUE_RESULTS(CASE)
    BRAKE_BALANCE_RESULTS(CASE)
    BRAKE_FAILED_RESULTS(CASE)
    BRAKE_STOP_RESULTS(CASE)
    BRAKE_PARKING_RESULTS(CASE)
    BRAKE_STEERING_RESULTS(CASE)
    BRAKE_TOW_RESULTS(CASE)
};

static const struct brake_result study_rows[] = {
    BRAKE_HEAT_RESULTS(STUDY)
    BRAKE_DRIVE_RESULTS(STUDY)
    BRAKE_COMPARE_RESULTS(STUDY)
};
/* clang-format on */

enum {
    COMMON_ROWS = sizeof common_rows / sizeof common_rows[0],
    CASE_ROWS = sizeof case_rows / sizeof case_rows[0],
    STUDY_ROWS = sizeof study_rows / sizeof study_rows[0],
    EVALUATED = COMMON_ROWS + BRAKE_LOADS * CASE_ROWS
};

static const char *const load_names[BRAKE_LOADS] = {"empty", "full"};

int brake_result_count(void)
{
    return EVALUATED;
}

int brake_result_all(void)
{
    return EVALUATED + STUDY_ROWS;
}

int brake_result_load(int index)
{
    return index < COMMON_ROWS || index >= EVALUATED ? -1 : (index - COMMON_ROWS) / CASE_ROWS;
}

const struct brake_result *brake_result_at(int index)
{
    if (index >= EVALUATED)
        return &study_rows[index - EVALUATED];
    return index < COMMON_ROWS ? &common_rows[index]
                               : &case_rows[(index - COMMON_ROWS) % CASE_ROWS];
}

void brake_result_path(int index, char *path, size_t size)
{
    const int load = brake_result_load(index);
    brake_text_format(path, size, "%s%s%s", load < 0 ? "" : load_names[load], load < 0 ? "" : ".",
                      brake_result_at(index)->name);
}

int brake_result_find(const char *path)
{
    for (int i = 0; i < brake_result_all(); i++) {
        char known[80];
        brake_result_path(i, known, sizeof known);
        if (strcmp(known, path) == 0)
            return i;
    }
    return -1;
}

bool brake_result_faded(int index)
{
    return brake_result_at(index)->group == BRAKE_OF_FADE;
}

static double value_in(const void *results, int index)
{
    double value;
    memcpy(&value, (const char *)results + brake_result_at(index)->offset, sizeof value);
    return value;
}

double brake_result_value(const struct brake_results *results, int index)
{
    const int load = brake_result_load(index);
    return load < 0 ? value_in(&results->common, index) : value_in(&results->load[load], index);
}

double brake_study_value(const struct brake_study_results *results, int index)
{
    return value_in(results, index);
}
