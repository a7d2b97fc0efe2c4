/* SPDX-License-Identifier: MIT */
#include "dependence.h"

#include <math.h>
#include <stdlib.h>

#include "vehicle/recalculation.h"
#include "vehicle/sections.h"

static const double part = 0.01;     /* [-] of a value that it is moved by */
static const double rounding = 1e-9; /* [-] of a number: less is no change */

/* A number of the file as it stands: not worked out from others, and no repetition of another
 * section. */
static bool is_moved(const struct brake_sheet *sheet, int index)
{
    const struct brake_record *record = &sheet->record[index];
    const bool repeats =
        record->from == BRAKE_DEFAULT && brake_quantity_section(index)->same_as != NULL;
    return brake_quantity_at(index)->kind == BRAKE_REAL && record->from != BRAKE_ABSENT &&
           !record->worked && !repeats;
}

/* A value of nothing has no hundredth part. */
static double step_of(const struct brake_quantity *q, double value)
{
    double step = part * fabs(value);
    if (q->dimension == BRAKE_TEMPERATURE)
        step = 1.0;
    else if (!(step > 0.0))
        step = part * q->high;
    return step;
}

static bool differs(double before, double after)
{
    if (isnan(before) || isnan(after))
        return isnan(before) != isnan(after);
    return fabs(after - before) > rounding * fmax(fabs(before), fabs(after));
}

static double size_of(const struct brake_dependence *d)
{
    return isfinite(d->change) ? fabs(d->change) : -1.0;
}

/* Largest first; what has no figure last; else in the order of the file. */
static int compare(const void *one, const void *other)
{
    const struct brake_dependence *a = one;
    const struct brake_dependence *b = other;
    const double further = size_of(b) - size_of(a);
    if (further > 0.0)
        return 1;
    if (further < 0.0)
        return -1;
    return a->index - b->index;
}

int brake_depends(const struct brake_sheet *sheet, brake_asked *ask, const void *context,
                  struct brake_dependence list[BRAKE_ROWS])
{
    const double now = ask(context, &sheet->vehicle);
    struct brake_places places;
    int count = 0;
    brake_places_fill(&places);
#pragma omp parallel for schedule(dynamic)
    for (int i = 0; i < brake_catalogue_count(); i++) {
        struct brake_vehicle moved;
        if (!is_moved(sheet, i))
            continue;
        const double value = brake_quantity_value(&sheet->vehicle, i);
        const double step = step_of(brake_quantity_at(i), value);
        const double way = value + step <= brake_quantity_at(i)->high ? 1.0 : -1.0;
        brake_sheet_vary(sheet, &places, i, value + way * step, &moved);
        const double then = ask(context, &moved);
        if (!differs(now, then))
            continue;
#pragma omp critical
        list[count++] = (struct brake_dependence){i, way * (then - now)};
    }
    qsort(list, (size_t)count, sizeof *list, compare);
    return count;
}
