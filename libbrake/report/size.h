/* Words that the text and the JSON of what was sized share; private to this folder. */
#ifndef BRAKE_REPORT_SIZE_H
#define BRAKE_REPORT_SIZE_H

#include <stddef.h>

#include "brake/report.h"

/* What was done to the vehicle for each tyre. */
#define BRAKE_SIZE_TYRES_NOTE                                                                      \
    "Each tyre is that of its marking, not a measured one: what was measured on the old tyre is "  \
    "left out, both axles change, the hubs rise by half of the difference of diameters, and the "  \
    "mass of a wheel, and its inertia where it was given, stay those of the old wheel."

enum brake_towards { BRAKE_NEAREST, BRAKE_UP, BRAKE_DOWN };

/* A number in the unit of the trade and in the US one. */
void brake_size_amount(char *text, size_t size, const struct brake_unit *own, double value,
                       enum brake_towards towards);

/* Units in which a target, a line of the vehicle file, are told. */
const struct brake_unit *brake_size_target_unit(const struct brake_target *target);
const struct brake_unit *brake_size_line_unit(int index);

void brake_size_target_name(const struct brake_target *target, char *text, size_t size);

/* Largest tyre that meets every target; NULL when none does. */
const struct brake_tyre_choice *brake_size_largest(const struct brake_size_report *report);

#endif
