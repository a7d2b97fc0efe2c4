/* SPDX-License-Identifier: MIT */
/* Arrays that grow by one; private to the library. */
#ifndef BRAKE_ROOM_H
#define BRAKE_ROOM_H

#include <stddef.h>

/* Room for one more in an array that holds so many of a size, NULL at first: it doubles at powers
 * of two. Returns the array, which may have moved; NULL: memory is short, and it is where it
 * was. */
void *brake_room_for_one(void *array, size_t held, size_t size);

#endif
