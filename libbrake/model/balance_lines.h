/* SPDX-License-Identifier: MIT */
/* What a balance answers, asked of its lines: for one that is asked many times. Each is what its
 * namesake of brake/balance.h gives. */
#ifndef BRAKE_MODEL_BALANCE_LINES_H
#define BRAKE_MODEL_BALANCE_LINES_H

#include "force_lines.h"

double brake_lines_pressure(const struct force_lines *lines, double deceleration);
struct brake_lock brake_lines_lock(const struct force_lines *lines, double adhesion);
struct brake_balance_state brake_lines_kept(const struct force_lines *lines, double pressure,
                                            double adhesion, double antilock);

#endif
