/* SPDX-License-Identifier: MIT */
#define WIDTH 2
#include "advance.h"
#include "advance_at.h"

void brake_advance_pair(struct brake_thermal_task *const *task, int count)
{
    advance(task, count);
}
