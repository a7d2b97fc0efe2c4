/* SPDX-License-Identifier: MIT */
/* The tables of the library as lines of fields with tabs between: units, catalogue, results. */
#include <stdio.h>

#include "brake/catalogue.h"
#include "brake/evaluate.h"
#include "brake/file.h"

static const char *text_or_none(const char *text)
{
    return text != NULL ? text : "";
}

static void print_units(void)
{
    const struct brake_unit *unit;
    for (int i = 0; (unit = brake_unit_at(i)) != NULL; i++)
        printf("unit\t%s\t%d\t%.17g\t%.17g\n", unit->name, unit->dimension, unit->factor,
               unit->offset);
    for (int d = 0; d < BRAKE_DIMENSIONS; d++)
        printf("dimension\t%d\t%s\t%s\n", d, brake_unit_si((enum brake_dimension)d)->name,
               brake_unit_us((enum brake_dimension)d)->name);
}

/* One row of each quantity: those of the parts stand once, under `part.NAME`. */
static void print_quantity(int section, int row)
{
    const struct brake_section *s = brake_section_at(section);
    const struct brake_quantity *q = &s->rows[row];
    const char *name = section == brake_section_count() - 1 ? ".NAME" : "";
    printf("quantity\t%s%s.%s\t%d\t%d\t%d\t%d\t%d\t%s\t%s\t%.17g\t%.17g\t%.17g\t%.17g\t%s\t%s\t%s",
           s->path, name, q->name, q->kind, q->role, q->need, q->dimension, q->second,
           text_or_none(q->unit), text_or_none(q->second_unit), q->low, q->high, q->fallback,
           q->typical, text_or_none(q->meaning), text_or_none(q->measure), text_or_none(q->why));
    for (int i = 0; q->choices != NULL && q->choices[i] != NULL; i++)
        printf("%c%s", i > 0 ? ' ' : '\t', q->choices[i]);
    putchar('\n');
}

static void print_catalogue(void)
{
    for (int section = 0; section < brake_section_count(); section++) {
        for (int row = 0; row < brake_section_at(section)->count; row++)
            print_quantity(section, row);
    }
}

static void print_results(void)
{
    for (int i = 0; i < brake_result_all(); i++) {
        const struct brake_result *r = brake_result_at(i);
        char path[80];
        brake_result_path(i, path, sizeof path);
        printf("result\t%s\t%d\t%s\t%s\n", path, r->dimension, r->unit, r->meaning);
    }
}

int main(void)
{
    print_units();
    print_catalogue();
    print_results();
    return 0;
}
