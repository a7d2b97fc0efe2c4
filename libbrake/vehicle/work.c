/* SPDX-License-Identifier: MIT */
#include "work.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include "limits.h"
#include "text.h"

/* Two measurements of one thing may differ by this much, or by their tolerances if larger. */
const double work_agreement = 0.02;

/* The first fault found is the one told. */
void work_refuse(struct work *w, enum brake_status status, int index, const char *format, ...)
{
    va_list list;
    if (w->error == NULL || w->error->status != BRAKE_OK)
        return;
    w->error->status = status;
    w->error->line = w->sheet->record[index].line;
    char path[160];
    brake_catalogue_path(w->vehicle, index, path, sizeof path);
    brake_text_format(w->error->field, sizeof w->error->field, "%.63s", path);
    va_start(list, format);
    brake_text_format_list(w->error->text, sizeof w->error->text, format, list);
    va_end(list);
}

bool work_given(const struct work *w, int index)
{
    return w->sheet->record[index].from != BRAKE_ABSENT;
}

bool work_stated(const struct work *w, int index)
{
    const struct brake_record *record = &w->sheet->record[index];
    return record->from > BRAKE_DEFAULT && !record->worked;
}

/* There by itself, not worked out. */
bool work_held(const struct work *w, int index)
{
    return work_given(w, index) && !w->sheet->record[index].worked;
}

double work_or_else(double value, double other)
{
    return isnan(value) ? other : value;
}

struct work_words work_words(const struct work *w, int index, double value)
{
    const struct brake_unit *unit =
        brake_quantity_unit(work_row(w, index), w->sheet->record[index].us);
    struct work_words words = {""};
    brake_text_format(words.text, sizeof words.text, "%.5g%s%s", brake_unit_from_si(unit, value),
                      unit->name[0] != '\0' ? " " : "", unit->name);
    return words;
}

static void judge_agreement(struct work *w, int target, double value, int source)
{
    const double have = *work_real(w, target);
    const double tolerance = w->sheet->record[target].tolerance;
    char path[160];
    if (!(fabs(value - have) > fmax(work_agreement * fabs(have), 2.0 * tolerance)))
        return;
    brake_catalogue_path(w->vehicle, source, path, sizeof path);
    work_refuse(w, BRAKE_E_CONFLICT, target, "got %s, but %s gives %s; leave one out",
                work_words(w, target, have).text, path, work_words(w, target, value).text);
}

/* A load found as the difference of two weighings may come out anywhere when it is small; the
 * centre of gravity of the whole is judged later. */
static void judge_range(struct work *w, int target, double value, int source)
{
    const struct brake_quantity *q = work_row(w, target);
    char path[160];
    if ((value >= q->low && value <= q->high) ||
        target == LOAD_INDEX(behind_front_axle, BRAKE_EMPTY) ||
        target == LOAD_INDEX(behind_front_axle, BRAKE_FULL))
        return;
    const struct brake_unit *unit = brake_quantity_unit(q, w->sheet->record[source].us);
    brake_catalogue_path(w->vehicle, target, path, sizeof path);
    work_refuse(w, BRAKE_E_RANGE, source, "gives %s %.5g%s%s; accepts %s", path,
                brake_unit_from_si(unit, value), unit->name[0] ? " " : "", unit->name,
                limits_words(unit, q->low, q->high).text);
}

/* Whether a line is there only because its section, left out, repeats another. */
static bool repeated(const struct work *w, int index)
{
    const struct brake_record *record = &w->sheet->record[index];
    return w->places->of[index].section->same_as != NULL && record->from == BRAKE_DEFAULT &&
           !record->worked;
}

/* A value for `target` worked out from `sources`, the first of them the one to name. */
void work_offer(struct work *w, int target, double value, const int *sources, int count)
{
    enum brake_from weakest = BRAKE_MEASURED;
    bool set = false;
    bool own = false;
    if (isnan(value))
        return;
    for (int i = 0; i < count; i++) {
        const struct brake_record *source = &w->sheet->record[sources[i]];
        if (source->from < weakest)
            weakest = source->from;
        set = set || source->set;
        own = own || source->from > BRAKE_DEFAULT;
    }
    struct brake_record *record = &w->sheet->record[target];
    if (repeated(w, target) && !own)
        return;
    if (record->set || (work_stated(w, target) && !set)) {
        if (!record->set)
            judge_agreement(w, target, value, sources[0]);
        return;
    }
    judge_range(w, target, value, sources[0]);
    *work_real(w, target) = value;
    record->from = weakest;
    record->worked = true;
    record->set = false;
}

void work_tolerance_usual(const struct brake_quantity *row, double value,
                          struct brake_record *record)
{
    const double wide = row->most - row->least;
    record->tolerance = 0.5 * fabs(value) * wide;
    record->lean = wide > 0.0 ? (row->most + row->least - 2.0) / wide : 0.0;
    record->typical = record->tolerance > 0.0;
}

/* A rule of last resort, where no reading gives the quantity: a default that follows others. */
void work_offer_default(struct work *w, int target, double value)
{
    struct brake_record *record = &w->sheet->record[target];
    if (work_held(w, target) || isnan(value))
        return;
    *work_real(w, target) = value;
    record->from = BRAKE_DEFAULT;
    record->worked = true;
    work_tolerance_usual(work_row(w, target), value, record);
}

unsigned long long work_sections(const struct work_stretch *at, int count)
{
    unsigned long long sections = 0;
    for (int i = 0; i < BRAKE_SECTION_COUNT; i++) {
        const size_t offset = brake_sections[i].offset;
        for (int j = 0; j < count; j++) {
            if (offset >= at[j].from && offset < at[j].from + at[j].size)
                sections |= 1ULL << i;
        }
    }
    return sections;
}
