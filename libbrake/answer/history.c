#include <stdlib.h>

#include "brake/answer.h"

/* Room doubles at powers of two. */
static struct brake_duty_row *room_for_one_more(struct brake_duty_row *row, long rows)
{
    if (rows > 0 && (rows & (rows - 1)) != 0)
        return row;
    struct brake_duty_row *more = realloc(row, (rows > 0 ? 2 * (size_t)rows : 1) * sizeof *row);
    if (more == NULL)
        free(row);
    return more;
}

void brake_history_keep(void *context, const struct brake_duty_row *row)
{
    struct brake_history *history = context;
    if (history->short_of_memory)
        return;
    history->row = room_for_one_more(history->row, history->rows);
    history->short_of_memory = history->row == NULL;
    if (!history->short_of_memory)
        history->row[history->rows++] = *row;
}
