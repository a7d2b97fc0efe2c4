/* SPDX-License-Identifier: MIT */
/* What the comments of a log say of the vehicle as it was driven. */
#include <string.h>

#include "cells.h"
#include "value.h"
#include "vehicle/text.h"

/* A path and what stands behind it: at least one dot, then an equals sign. */
static bool is_setting(const char *text, size_t length)
{
    static const char letters[] = "abcdefghijklmnopqrstuvwxyz0123456789_.";
    size_t path = 0;
    bool dotted = false;
    for (; path < length && strchr(letters, text[path]) != NULL; path++)
        dotted = dotted || (text[path] == '.' && path > 0);
    while (path < length && text[path] == ' ')
        path++;
    return dotted && path < length && text[path] == '=';
}

enum brake_status brake_said_take(struct brake_cells *c)
{
    struct brake_said *said = c->said;
    const char *text = c->row;
    size_t length = c->length;
    for (; length > 0 && strchr("# \t", *text) != NULL; text++)
        length--;
    while (length > 0 && strchr(",; \t", text[length - 1]) != NULL)
        length--; /* a spreadsheet fills rows with separators */
    if (!is_setting(text, length))
        return BRAKE_OK;
    if (said->count == BRAKE_SAID)
        return brake_value_refuse(c->error, BRAKE_E_SIZE, c->line, "",
                                  "more than %d comments that are lines of the vehicle",
                                  BRAKE_SAID);
    if (length >= BRAKE_SAID_BYTES)
        return brake_value_refuse(c->error, BRAKE_E_SIZE, c->line, "",
                                  "a line of the vehicle in a comment has up to %d bytes",
                                  BRAKE_SAID_BYTES - 1);
    said->line[said->count] = c->line;
    brake_text_format(said->text[said->count++], BRAKE_SAID_BYTES, "%.*s", (int)length, text);
    return BRAKE_OK;
}
