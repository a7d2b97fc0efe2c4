/* SPDX-License-Identifier: MIT */
/* A value: as --set takes it, and as an option does, a dimension before it. What is taken stands in
 * its range, but for the rounding of a conversion, and read again as it is written it is the
 * same. */
#include "fuzz.h"

static void set(const char *text)
{
    static struct brake_sheet sheet;
    struct brake_error error;
    char written[BRAKE_LINE_BYTES], again[BRAKE_LINE_BYTES + 200], path[160];
    const char *equals = strchr(text, '=');
    sheet = *heron();
    if (!accepted(brake_file_set(&sheet, text, &error), &error) || equals == NULL)
        return;
    snprintf(path, sizeof path, "%.*s", (int)(equals - text), text);
    const int index = brake_catalogue_find(&sheet.vehicle, path);
    const struct brake_quantity *q = index >= 0 ? brake_quantity_at(index) : NULL;
    if (q == NULL || (q->kind != BRAKE_REAL && q->kind != BRAKE_CHOICE))
        return;
    const double value = brake_quantity_value(&sheet.vehicle, index);
    const double rounding = 1e-12 * fmax(fabs(q->low), fabs(q->high)); /* as file/amount.c */
    MUST(q->kind == BRAKE_CHOICE || isnan(value) ||
         (value >= q->low - rounding && value <= q->high + rounding));
    brake_value_write(&sheet.vehicle, index, written, sizeof written);
    if (written[0] == '\0')
        return;
    snprintf(again, sizeof again, "%s=%s", path, written);
    MUST(accepted(brake_file_set(&sheet, again, &error), &error));
    MUST(fabs(brake_quantity_value(&sheet.vehicle, index) - value) <= 1e-9 * fabs(value));
}

static void read(enum brake_dimension dimension, const char *text)
{
    struct brake_error error;
    const struct brake_unit *unit;
    double value, number;
    const enum brake_status status = brake_amount_read("value", text, dimension, &value, &error);
    if (accepted(status, &error))
        MUST(isfinite(value));
    MUST(brake_number_read("value", text, dimension, &number, &unit, &error) == status);
    if (status == BRAKE_OK)
        MUST(brake_unit_to_si(unit, number) == value);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *text = text_of(data, size);
    set(text);
    if (size > 0)
        read((enum brake_dimension)(data[0] % BRAKE_DIMENSIONS), text + 1);
    free(text);
    return 0;
}
