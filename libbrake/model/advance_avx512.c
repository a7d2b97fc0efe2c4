/* SPDX-License-Identifier: MIT */
#include "advance_at.h"

#ifdef __x86_64__
#define WIDTH 8
#define TARGET __attribute__((target("avx512f,avx512dq")))
#include "advance.h"

TARGET void brake_advance_avx512(struct brake_thermal_task *const *task, int count)
{
    advance(task, count);
}
#endif
