/* SPDX-License-Identifier: MIT */
#include "brake/status.h"

#include <stdbool.h>
#include <stddef.h>

const char *brake_status_message(enum brake_status status)
{
    static const struct {
        int number;
        const char *text;
    } list[] = {
#define BRAKE_STATUS_ROW(name, number, text) {number, text},
        BRAKE_STATUS_LIST(BRAKE_STATUS_ROW)
#undef BRAKE_STATUS_ROW
    };
    const int number = (int)status;
    const bool warning = number > 0;
    for (size_t i = 0; i < sizeof list / sizeof list[0]; i++) {
        /* The bits of a negative number mean nothing. */
        const int bits = warning && list[i].number > 0 ? list[i].number & number : 0;
        if (list[i].number == number || bits != 0)
            return list[i].text;
    }
    return "unknown status";
}
