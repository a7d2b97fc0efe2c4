/* SPDX-License-Identifier: MIT */
/* What `explain` says of one vehicle; private to this folder. */
#ifndef BRAKE_EXPLAIN_VEHICLE_H
#define BRAKE_EXPLAIN_VEHICLE_H

#include "explain.h"

/* The value of what is named, and the lines that it depends on. */
void brake_part_explained(struct brake_document *d, const struct brake_named *named,
                          const struct brake_explained_of *of);

#endif
