/* SPDX-License-Identifier: MIT */
#include "room.h"

#include <stdlib.h>

void *brake_room_for_one(void *array, size_t held, size_t size)
{
    if ((held & (held - 1)) != 0)
        return array;
    return realloc(array, (held > 0 ? 2 * held : 1) * size);
}
