/* SPDX-License-Identifier: MIT */
#include <stdlib.h>

#include "brake/sweep.h"
#include "cases.h"
#include "vehicle/text.h"

static struct brake_sweeper *refuse(struct brake_error *error)
{
    *error = (struct brake_error){.status = BRAKE_E_MEMORY};
    brake_text_format(error->text, sizeof error->text, "%s", brake_status_message(BRAKE_E_MEMORY));
    return NULL;
}

/* Short of memory it takes longer. */
static void share(struct brake_sweeper *sweeper)
{
    const size_t room = brake_sweep_room(sweeper);
    sweeper->room = room > 0 ? malloc(room * sizeof *sweeper->room) : NULL;
    if (sweeper->room != NULL)
        brake_sweep_share(sweeper, sweeper->room);
}

struct brake_sweeper *brake_sweeper_new(const struct brake_sweep *sweep, struct brake_error *error)
{
    struct brake_sweeper *sweeper = malloc(sizeof *sweeper);
    if (sweeper == NULL)
        return refuse(error);
    if (brake_sweep_begin(sweep, sweeper, error) != BRAKE_OK) {
        free(sweeper);
        return NULL;
    }
    share(sweeper);
    return sweeper;
}

void brake_sweeper_free(struct brake_sweeper *sweeper)
{
    if (sweeper == NULL)
        return;
    free(sweeper->room);
    free(sweeper);
}
