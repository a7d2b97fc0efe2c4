#include "command.h"
#include "progress.h"

int command_assess(const struct brake_sheet *sheet, unsigned rules,
                   struct brake_assessment *assessment)
{
    struct progress progress;
    struct brake_sure_room *room = brake_sure_room_new();
    if (room == NULL)
        return command_short_of_memory();
    brake_assess(sheet, rules, assessment);
    brake_assess_fade(sheet, NULL, assessment);
    const struct brake_watch watch = progress_begin_study(&progress, "samples", 0.0);
    const bool all = brake_assess_sure(sheet, true, &watch, room, assessment);
    progress_end(&progress);
    brake_sure_room_free(room);
    return all ? 0 : progress_stopped();
}
