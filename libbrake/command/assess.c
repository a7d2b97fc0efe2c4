/* SPDX-License-Identifier: MIT */
#include "command.h"
#include "progress.h"

int command_assess(const struct brake_sheet *sheet, unsigned rules,
                   struct brake_assessment *assessment)
{
    struct progress progress;
    const struct brake_watch watch = progress_begin_study(&progress, "samples", 0.0);
    const bool all = brake_assess_whole(sheet, rules, &watch, assessment);
    progress_end(&progress);
    if (all)
        return 0;
    const int stopped = progress_stopped();
    return stopped != 0 ? stopped : command_short_of_memory();
}
