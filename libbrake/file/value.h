/* SPDX-License-Identifier: MIT */
/* One value of a vehicle file; private to this folder. */
#ifndef BRAKE_VALUE_H
#define BRAKE_VALUE_H

#include <stdbool.h>

#include "brake/catalogue.h"

/* Where a value stands. */
struct brake_source {
    int line;
    bool more; /* the line goes on with a curve that was begun above it */
    bool set;  /* by --set */
};

/* Read the text of a quantity into a sheet. */
enum brake_status brake_value_read(struct brake_sheet *sheet, int index, const char *text,
                                   struct brake_source source, struct brake_error *error);

/* Fill an error that concerns a quantity; returns its status. */
__attribute__((format(printf, 5, 6))) enum brake_status
brake_value_refuse(struct brake_error *error, enum brake_status status, int line, const char *field,
                   const char *format, ...);

#endif
