/* SPDX-License-Identifier: MIT */
/* Heads of columns, as loggers, spreadsheets and telephones write them: `speed [km/h]`, `Speed
 * (mph)`, `Speed_kmh`; private to this folder. Letters count in either case, a blank as an
 * underscore. */
#ifndef BRAKE_HEADS_H
#define BRAKE_HEADS_H

#include <stddef.h>

#include "brake/units.h"
#include "table.h"

enum { BRAKE_HEAD_UNIT = 24 /* bytes of a unit, with its end */ };

/* Which column of a kind a name is; -1: none. */
int brake_head_column(const struct brake_table_kind *kind, const char *name, size_t length);

/* Which column of a kind a head is, -1: none; and its unit as written, empty: it has none. */
int brake_head_read(const struct brake_table_kind *kind, const char *head,
                    char unit[BRAKE_HEAD_UNIT]);

/* A unit as people write it; NULL: none of that dimension. */
const struct brake_unit *brake_head_unit(const char *name, enum brake_dimension dimension);

#endif
