/* SPDX-License-Identifier: MIT */
/* The names that an answer may hold, from the tables of the library: a line each, its kind before
 * it. */
#include <stdio.h>

#include "brake/catalogue.h"
#include "brake/criteria.h"
#include "study/inputs.h"
#include "brake/results.h"
#include "brake/warnings.h"
#include "study/change.h"

static void print_units(void)
{
    for (int i = 0; brake_unit_at(i) != NULL; i++)
        printf("unit\t%s\n", brake_unit_at(i)->name);
}

/* Those of the parts stand once, under `part.NAME`. */
static void print_quantities(void)
{
    for (int s = 0; s < brake_section_count(); s++) {
        const struct brake_section *section = brake_section_at(s);
        for (int i = 0; i < section->count; i++)
            printf("quantity\t%s%s.%s\n", section->path,
                   s == brake_section_count() - 1 ? ".NAME" : "", section->rows[i].name);
    }
}

static void print_results(void)
{
    char path[160];
    for (int i = 0; i < brake_result_all(); i++) {
        brake_result_path(i, path, sizeof path);
        printf("result\t%s\n", path);
    }
}

int main(void)
{
    print_units();
    print_quantities();
    print_results();
    for (int i = 0; i < brake_criterion_count(); i++)
        printf("criterion\t%s\n", brake_criterion_at(i)->id);
    for (int i = 0; i < BRAKE_WARNED; i++)
        printf("warning\t%s\n", brake_warning_id((enum brake_warned)i));
    for (int i = 0; brake_cause_at(i) != NULL; i++)
        printf("cause\t%s\n", brake_cause_at(i)->id);
    for (int i = 0; i < BRAKE_CHANGES; i++)
        printf("change\t%s\n", brake_change_word((enum brake_change)i));
    for (int i = BRAKE_MEETS; i <= BRAKE_CANNOT_SAY; i++)
        printf("verdict\t%s\n", brake_verdict_words((enum brake_verdict)i));
    return 0;
}
