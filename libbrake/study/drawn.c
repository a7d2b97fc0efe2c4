/* SPDX-License-Identifier: MIT */
/* A spread with the memory that it takes, for programs. */
#include "drawn.h"

#include <stdlib.h>

struct brake_spread *brake_spread_new(const struct brake_sheet *sheet,
                                      const struct brake_spread_options *options,
                                      enum brake_status *status)
{
    struct brake_spread *spread = calloc(1, sizeof *spread);
    *status = spread != NULL ? brake_spread_prepare(sheet, options, spread) : BRAKE_E_MEMORY;
    if (*status == BRAKE_OK) {
        spread->room = malloc(brake_spread_room(spread));
        *status = spread->room != NULL ? BRAKE_OK : BRAKE_E_MEMORY;
    }
    if (*status == BRAKE_OK)
        return spread;
    brake_spread_free(spread);
    return NULL;
}

bool brake_spread_draw(struct brake_spread *spread, const struct brake_watch *watch)
{
    return brake_spread_run(spread, spread->room, watch);
}

void brake_spread_free(struct brake_spread *spread)
{
    if (spread == NULL)
        return;
    free(spread->room);
    free(spread);
}
