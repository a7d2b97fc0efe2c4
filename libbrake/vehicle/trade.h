/* SPDX-License-Identifier: MIT */
/* Words that people use for what the catalogue calls otherwise, or does not know; private to the
 * library. */
#ifndef BRAKE_VEHICLE_TRADE_H
#define BRAKE_VEHICLE_TRADE_H

#include "brake/units.h"

/* What is to be written for a word of the trade, and what cannot be said of it; NULL: it is none.
 * Blanks, dashes and the size of letters do not count. */
const char *brake_trade_says(const char *word);

/* The unit of the US trade beside one of the SI trade; itself where both use the same. */
const struct brake_unit *brake_unit_beside(const struct brake_unit *unit);

#endif
