/* SPDX-License-Identifier: MIT */
#include <stdlib.h>

#include "brake/catalogue.h"

struct brake_sheet *brake_sheet_new(void)
{
    struct brake_sheet *sheet = malloc(sizeof *sheet);
    if (sheet != NULL)
        brake_sheet_clear(sheet);
    return sheet;
}

void brake_sheet_free(struct brake_sheet *sheet)
{
    free(sheet);
}
