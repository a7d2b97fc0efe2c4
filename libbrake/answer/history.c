/* SPDX-License-Identifier: MIT */
#include "brake/answer.h"

#include "vehicle/room.h"

void brake_history_keep(void *context, const struct brake_duty_row *row)
{
    struct brake_history *history = context;
    if (history->short_of_memory)
        return;
    struct brake_duty_row *more =
        brake_room_for_one(history->row, (size_t)history->rows, sizeof *more);
    history->short_of_memory = more == NULL;
    if (more == NULL)
        return;
    history->row = more;
    history->row[history->rows++] = *row;
}
