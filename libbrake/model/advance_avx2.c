/* SPDX-License-Identifier: MIT */
#include "advance_at.h"

#ifdef __x86_64__
#define WIDTH 4
#define TARGET __attribute__((target("avx2")))
#include "advance.h"

TARGET void brake_advance_avx2(struct brake_thermal_task *const *task, int count)
{
    advance(task, count);
}
#endif
