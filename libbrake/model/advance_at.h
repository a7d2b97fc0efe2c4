/* SPDX-License-Identifier: MIT */
/* The time stepping of advance.h at its widths; private to thermal_lanes.c, which chooses. Each
 * takes as many tasks as it is wide, or fewer. */
#ifndef BRAKE_MODEL_ADVANCE_AT_H
#define BRAKE_MODEL_ADVANCE_AT_H

#include "thermal_lanes.h"

typedef void brake_advance(struct brake_thermal_task *const *task, int count);

brake_advance brake_advance_alone; /* one */
brake_advance brake_advance_pair;  /* two: registers that every processor has */
#ifdef __x86_64__
brake_advance brake_advance_avx2;   /* four */
brake_advance brake_advance_avx512; /* eight */
#endif

#endif
