#include <stdlib.h>

#include "command.h"

void *command_room(void *rows, long count, size_t size)
{
    if (count > 0 && (count & (count - 1)) != 0)
        return rows; /* room doubles at powers of two */
    void *more = realloc(rows, (count > 0 ? 2 * (size_t)count : 1) * size);
    if (more == NULL)
        free(rows);
    return more;
}

void command_keep_row(void *context, const struct brake_duty_row *row)
{
    struct command_history *history = context;
    if (history->short_of_memory)
        return;
    history->row = command_room(history->row, history->rows, sizeof *history->row);
    history->short_of_memory = history->row == NULL;
    if (!history->short_of_memory)
        history->row[history->rows++] = *row;
}
