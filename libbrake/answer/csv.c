/* SPDX-License-Identifier: MIT */
#include "csv.h"

#include <stdbool.h>
#include <string.h>

void brake_csv_cell(const char *words, char *cell, size_t size)
{
    const bool formula = words[0] != '\0' && strchr("=+-@\t\r", words[0]) != NULL;
    const bool quoted = strpbrk(words, ",\"\r\n") != NULL;
    size_t used = 0;
    if (quoted)
        cell[used++] = '"';
    if (formula)
        cell[used++] = '\'';
    for (; *words != '\0' && used + 3 < size; words++) {
        if (*words == '"')
            cell[used++] = '"';
        cell[used++] = *words;
    }
    if (quoted)
        cell[used++] = '"';
    cell[used] = '\0';
}
