/* SPDX-License-Identifier: MIT */
#include "published.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cjson/cJSON.h>
#include <cmocka.h>

#include "brake/constants.h"
#include "brake/units.h"

#define VALUES SOURCE_ROOT "/reference/check-values.json"
#define EXACT_TOLERANCE 1e-5

static cJSON *values;

/* Units of the texts that no vehicle file needs. */
static const struct brake_unit text_units[] = {
    {"-", BRAKE_RATIO, 1.0, 0.0},
    {"rev/min", BRAKE_RATIO, 2.0 * BRAKE_PI / 60.0, 0.0}, /* to rad/s */
    {"(ft/s)/mph", BRAKE_RATIO, 3600.0 / 5280.0, 0.0},
    {"m/(km/h)", BRAKE_TIME, 3.6, 0.0},
    /* Kept as printed: brake_stop_allowed takes the coefficient of the regulation's text. */
    {"m/(km/h)2", BRAKE_RATIO, 1.0, 0.0},
    {"GPa", BRAKE_PRESSURE, 1e9, 0.0},
    {"deltadegF", BRAKE_TEMPERATURE, 5.0 / 9.0, 0.0}, /* a difference: no offset */
    {"1/deltadegF", BRAKE_RATIO, 9.0 / 5.0, 0.0},
    {"1/K", BRAKE_RATIO, 1.0, 0.0},
    {"1/s", BRAKE_RATIO, 1.0, 0.0},
    /* 1 ft*lbf/(lb*degF) = 0.3048 m x 9.80665 N/kg x 9/5 per K: the pound cancels. */
    {"ft*lbf/(lb*deltadegF)", BRAKE_HEAT_CAPACITY, 0.3048 * 9.80665 * 9.0 / 5.0, 0.0},
    {"W/(m*K)", BRAKE_RATIO, 1.0, 0.0},
    {"W/(m2*K)", BRAKE_RATIO, 1.0, 0.0},
    {"W/m2", BRAKE_RATIO, 1.0, 0.0},
    {"MW/m2", BRAKE_RATIO, 1e6, 0.0},
    {"kg/m3", BRAKE_RATIO, 1.0, 0.0},
    {"m2/s", BRAKE_RATIO, 1.0, 0.0},
    {"mm2/s", BRAKE_RATIO, 1e-6, 0.0},
    {"W*s^0.5/(m2*K)", BRAKE_RATIO, 1.0, 0.0},
};

static const struct brake_unit *unit_of(const cJSON *item)
{
    const char *name = cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(item, "unit"));
    const struct brake_unit *unit = name != NULL ? brake_unit_find(name) : NULL;
    for (size_t i = 0; unit == NULL && i < sizeof text_units / sizeof text_units[0]; i++) {
        if (name != NULL && strcmp(text_units[i].name, name) == 0)
            unit = &text_units[i];
    }
    if (unit == NULL)
        fail_msg("no factor for the unit '%s'", name != NULL ? name : "(none)");
    return unit;
}

static double number_of(const cJSON *item, const char *name)
{
    const cJSON *number = cJSON_GetObjectItemCaseSensitive(item, name);
    if (!cJSON_IsNumber(number))
        fail_msg("'%s' is not a number", name);
    return number->valuedouble;
}

/* The member of an array whose field `field` reads `text`. */
static cJSON *member(const cJSON *array, const char *field, const char *text)
{
    cJSON *item;
    cJSON_ArrayForEach(item, array)
    {
        const char *found = cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(item, field));
        if (found != NULL && strcmp(found, text) == 0)
            return item;
    }
    fail_msg("%s: there is no %s '%s'", VALUES, field, text);
    return NULL;
}

static cJSON *case_of(const char *case_id)
{
    return member(cJSON_GetObjectItemCaseSensitive(values, "cases"), "id", case_id);
}

static cJSON *row_of(const char *case_id, const char *key)
{
    return member(cJSON_GetObjectItemCaseSensitive(case_of(case_id), "rows"), "key", key);
}

double given(const char *case_id, const char *name)
{
    const cJSON *givens = cJSON_GetObjectItemCaseSensitive(case_of(case_id), "givens");
    const cJSON *item = cJSON_GetObjectItemCaseSensitive(givens, name);
    if (item == NULL)
        fail_msg("%s gives no '%s'", case_id, name);
    return brake_unit_to_si(unit_of(item), number_of(item, "value"));
}

double answer(const char *case_id, const char *key)
{
    const cJSON *row = row_of(case_id, key);
    return brake_unit_to_si(unit_of(row), number_of(row, "full"));
}

static void hold_within(const char *place, double value, double expected, double tolerance)
{
    if (!(fabs(value - expected) <= tolerance * fabs(expected)))
        fail_msg("%s: got %.9g, the source has %.9g, tolerance %g", place, value, expected,
                 tolerance);
}

void check(const char *case_id, const char *key, double value_in_si)
{
    cJSON *row = row_of(case_id, key);
    const char *source =
        cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(case_of(case_id), "source"));
    char place[64];
    if (source == NULL || source[0] == '\0')
        fail_msg("%s names no source", case_id);
    snprintf(place, sizeof place, "%s %s", case_id, key);

    /* In the row's own unit: in kelvin a relative tolerance of degrees Celsius would be loose. */
    const double value = brake_unit_from_si(unit_of(row), value_in_si);
    hold_within(place, value, number_of(row, "full"), EXACT_TOLERANCE);
    if (!cJSON_IsNull(cJSON_GetObjectItemCaseSensitive(row, "printed")))
        hold_within(place, value, number_of(row, "printed"), number_of(row, "tolerance"));

    cJSON *times = cJSON_GetObjectItemCaseSensitive(row, "checked");
    if (times == NULL)
        times = cJSON_AddNumberToObject(row, "checked", 0.0);
    cJSON_SetNumberValue(times, times->valuedouble + 1.0);
}

double solve(double (*function)(double argument, const void *with), const void *with, double value,
             double low, double high)
{
    const double sense = function(high, with) > value ? 1.0 : -1.0;
    for (int halving = 0; halving < 60; halving++) {
        const double middle = (low + high) / 2.0;
        if (sense * (function(middle, with) - value) > 0.0)
            high = middle;
        else
            low = middle;
    }
    return (low + high) / 2.0;
}

int read_check_values(void **state)
{
    (void)state;
    char *text = NULL;
    FILE *file = fopen(VALUES, "rb");
    if (file == NULL)
        return -1;
    if (fseek(file, 0L, SEEK_END) == 0) {
        const long size = ftell(file);
        rewind(file);
        text = size > 0 ? calloc((size_t)size + 1, 1) : NULL;
        if (text != NULL && fread(text, 1, (size_t)size, file) == (size_t)size)
            values = cJSON_Parse(text);
    }
    free(text);
    fclose(file);
    return values != NULL ? 0 : -1;
}

int drop_check_values(void **state)
{
    (void)state;
    cJSON_Delete(values);
    values = NULL;
    return 0;
}

void every_row_is_checked_once(void **state)
{
    (void)state;
    int wrong = 0;
    int rows = 0;
    cJSON *item;
    cJSON *row;
    cJSON_ArrayForEach(item, cJSON_GetObjectItemCaseSensitive(values, "cases"))
    {
        cJSON_ArrayForEach(row, cJSON_GetObjectItemCaseSensitive(item, "rows"))
        {
            const cJSON *times = cJSON_GetObjectItemCaseSensitive(row, "checked");
            const int checked = times != NULL ? (int)times->valuedouble : 0;
            rows++;
            if (checked != 1) {
                wrong++;
                print_error("%s %s: checked %d times\n",
                            cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(item, "id")),
                            cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(row, "key")),
                            checked);
            }
        }
    }
    assert_true(rows > 0);
    assert_int_equal(wrong, 0);
}
