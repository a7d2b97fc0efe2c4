/* SPDX-License-Identifier: MIT */
#include <float.h>
#include <math.h>
#include <string.h>

#include "brake/catalogue.h"
#include "sections.h"
#include "text.h"

/* Bytes that may be anything are read as bytes and copied out: a bool that is neither 0 nor 1, or
 * an enumeration that is none of its names, must not be looked at as what it claims to be. */

static bool is_bool(const bool *at)
{
    unsigned char byte;
    memcpy(&byte, at, sizeof byte);
    return byte <= 1;
}

static int number_at(const void *at)
{
    int number;
    memcpy(&number, at, sizeof number);
    return number;
}

/* What is in range for a file may be off by its rounding. */
static bool is_within(double value, double low, double high)
{
    const double rounding = 1e-12 * fmax(fabs(low), fabs(high));
    return value >= low - rounding && value <= high + rounding;
}

/* A number that nobody gave was worked out from others, and needs only be one. */
static bool is_real(const struct brake_quantity *row, const struct brake_record *record,
                    double value)
{
    if (isnan(value) || row->role == BRAKE_PART_OF) /* its whole is judged by itself */
        return true;
    return record->worked ? isfinite(value) : is_within(value, row->low, row->high);
}

static bool is_choice(const struct brake_quantity *row, int choice)
{
    int count = 0;
    while (row->choices[count] != NULL)
        count++;
    return choice >= 0 && choice < count;
}

/* Groups that are left out are not known. */
static bool are_pistons(const struct brake_pistons *pistons)
{
    bool good = true;
    for (int i = 0; i < BRAKE_GROUPS; i++) {
        const double count = pistons->count[i];
        const double diameter = pistons->diameter[i];
        good = good && (isnan(count) || (is_within(count, 0.0, 8.0) && count == floor(count))) &&
               (isnan(diameter) || is_within(diameter, 0.0, 1.0));
    }
    return good;
}

static bool are_points(const struct brake_quantity *row, const struct brake_points *points)
{
    bool good = points->count >= 0 && points->count <= BRAKE_POINTS;
    for (int i = 0; good && i < points->count; i++) {
        good = is_within(points->at[i].x, row->low, row->high) &&
               is_within(points->at[i].y, row->second_low, row->second_high);
    }
    return good;
}

static bool is_value(const struct brake_quantity *row, const struct brake_record *record,
                     const void *at)
{
    switch (row->kind) {
    case BRAKE_REAL:
        return is_real(row, record, *(const double *)at);
    case BRAKE_CHOICE:
        return is_choice(row, number_at(at));
    case BRAKE_TEXT:
        return memchr(at, '\0', BRAKE_TEXT_SIZE) != NULL;
    case BRAKE_PISTONS:
        return are_pistons(at);
    case BRAKE_CURVE:
        return are_points(row, at);
    }
    return false;
}

/* Only a number can be off by something: what is varied by its tolerance is written as one. */
static bool is_record(const struct brake_quantity *row, const struct brake_record *record)
{
    const int from = number_at(&record->from);
    const double most = row->kind == BRAKE_REAL ? DBL_MAX : 0.0;
    return from >= BRAKE_ABSENT && from <= BRAKE_MEASURED && record->tolerance >= 0.0 &&
           record->tolerance <= most && fabs(record->lean) < 1.0 && is_bool(&record->typical) &&
           is_bool(&record->worked) && is_bool(&record->set) && is_bool(&record->us) &&
           is_bool(&record->same) && record->line >= 0;
}

static enum brake_status refuse(struct brake_error *error, const char *section, const char *name)
{
    *error = (struct brake_error){.status = BRAKE_E_RANGE};
    brake_text_format(error->field, sizeof error->field, "%.31s.%.31s", section, name);
    brake_text_format(error->text, sizeof error->text,
                      "the bytes hold no value that this line can have: the vehicle is damaged");
    return error->status;
}

static bool is_known(const struct brake_known *known)
{
    bool good = known->of >= BRAKE_KNOWN_LINE && known->of <= BRAKE_KNOWN_MODEL &&
                known->number >= 0 && known->number < brake_catalogue_count() &&
                isfinite(known->value + known->tolerance + known->lean + known->shift);
    for (int i = 0; i < BRAKE_KNOWN_DIRECTIONS; i++)
        good = good && fabs(known->along[i]) <= 1.0;
    return good;
}

static bool is_knowledge(const struct brake_knowledge *known)
{
    bool good = known->count >= 0 && known->count <= BRAKE_KNOWN && known->stops >= 0 &&
                known->forces >= 0 && known->bounds >= 0 && known->left_out >= 0 &&
                is_bool(&known->another) && known->word >= BRAKE_DRIVE_NONE &&
                known->word <= BRAKE_DRIVE_MORE;
    for (int i = 0; good && i < known->count; i++)
        good = is_known(&known->of[i]);
    for (int i = 0; i < BRAKE_DRIVE_LINES; i++)
        good = good && known->line[i] >= -1 && known->line[i] < brake_catalogue_count();
    return good;
}

static bool is_own(const struct brake_own_sizes *own)
{
    bool good = own->count >= 0 && own->count <= BRAKE_OWN_SIZES;
    for (int i = 0; good && i < own->count; i++)
        good =
            own->line[i] >= 0 && own->line[i] < brake_catalogue_count() && isfinite(own->value[i]);
    return good;
}

enum brake_status brake_sheet_valid(const struct brake_sheet *sheet, struct brake_error *error)
{
    const struct brake_vehicle *vehicle = &sheet->vehicle;
    *error = (struct brake_error){.status = BRAKE_OK};
    if (vehicle->parts < 0 || vehicle->parts > BRAKE_PARTS)
        return refuse(error, "part", "name");
    for (int i = 0; i < brake_catalogue_count(); i++) {
        const struct brake_quantity *row = brake_quantity_at(i);
        const struct brake_record *record = &sheet->record[i];
        if (!is_record(row, record) || !is_value(row, record, brake_quantity_seen(vehicle, i)))
            return refuse(error, brake_quantity_section(i)->path, row->name);
    }
    if (!is_knowledge(&sheet->known))
        return refuse(error, "drive", "log");
    if (!is_own(&sheet->own))
        return refuse(error, "vehicle", "parts");
    return BRAKE_OK;
}
