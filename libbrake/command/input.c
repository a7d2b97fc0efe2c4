/* SPDX-License-Identifier: MIT */
/* Files that are read. */
#include <stdio.h>
#include <string.h>

#include "command.h"

bool command_is_stdin(const char *path)
{
    return strcmp(path, "-") == 0;
}

const char *command_name(const char *path)
{
    return path != NULL && command_is_stdin(path) ? "standard input" : path;
}

int command_open(const char *path, FILE **stream)
{
    *stream = command_is_stdin(path) ? stdin : fopen(path, "rb");
    if (*stream == NULL)
        return command_cannot(path, "opened");
    if (!feof(*stream))
        return 0;
    command_tell("%s: was read to its end already; - stands for one file\n", command_name(path));
    return EXIT_REFUSED;
}

void command_close(FILE *stream)
{
    if (stream != stdin)
        fclose(stream);
}
