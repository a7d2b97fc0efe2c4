/* SPDX-License-Identifier: MIT */
/* What a study does about who watches it; private to this folder. */
#ifndef BRAKE_WATCHING_H
#define BRAKE_WATCHING_H

#include <stdbool.h>
#include <stddef.h>

#include "brake/watch.h"

static inline bool watch_stops(const struct brake_watch *watch)
{
    return watch != NULL && watch->stop != NULL && *watch->stop != 0;
}

static inline void watch_tell(const struct brake_watch *watch, double done, double total)
{
    if (watch != NULL && watch->progress != NULL)
        watch->progress(watch->context, done, total);
}

#endif
