/* SPDX-License-Identifier: MIT */
#include "thermal_lanes.h"

#include "advance_at.h"
#include "chain.h"

static bool usable(const struct brake_thermal_drive *drive, double duration)
{
    const double hottest = 5000.0;
    return drive->power_begin >= 0.0 && drive->power_begin <= 1e12 && drive->power_end >= 0.0 &&
           drive->power_end <= 1e12 && drive->speed_begin >= 0.0 && drive->speed_begin <= 1e3 &&
           drive->speed_end >= 0.0 && drive->speed_end <= 1e3 && drive->air >= 1.0 &&
           drive->air <= hottest && duration >= 0.0 && duration <= 1e9;
}

enum { MOST = 8 /* side by side */ };

static int widest(void)
{
#ifdef __x86_64__
    if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq"))
        return 8;
    if (__builtin_cpu_supports("avx2"))
        return 4;
#endif
    return 2;
}

static void work_out(struct brake_thermal_task *const *task, int count)
{
    if (count == 1)
        brake_advance_alone(task, count);
    else if (count == 2)
        brake_advance_pair(task, count);
#ifdef __x86_64__
    else if (count > 4)
        brake_advance_avx512(task, count);
    else if (count > 2)
        brake_advance_avx2(task, count);
#endif
}

/* Whether there is anything to work out. */
static bool is_due(struct brake_thermal_task *task)
{
    const bool in_range = is_ready(task->brake) && usable(&task->drive, task->duration);
    task->status = in_range ? BRAKE_OK : BRAKE_E_RANGE;
    return in_range && task->duration > 0.0;
}

void brake_thermal_advance_all(struct brake_thermal_task *task, int count)
{
    struct brake_thermal_task *group[MOST];
    const int most = widest();
    int grouped = 0;
    for (int i = 0; i < count; i++) {
        if (!is_due(&task[i]))
            continue;
        if (grouped == most || (grouped > 0 && group[0]->brake->nodes != task[i].brake->nodes)) {
            work_out(group, grouped);
            grouped = 0;
        }
        group[grouped++] = &task[i];
    }
    work_out(group, grouped);
}

enum brake_status brake_thermal_advance(const struct brake_thermal *brake,
                                        const struct brake_thermal_drive *drive, double duration,
                                        struct brake_thermal_state *state)
{
    struct brake_thermal_task task = {brake, *drive, duration, state, BRAKE_OK};
    brake_thermal_advance_all(&task, 1);
    return task.status;
}
