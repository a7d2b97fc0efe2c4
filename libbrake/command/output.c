#define _POSIX_C_SOURCE 200809L /* NOLINT: stat */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "command.h"
#include "vehicle/text.h"

int command_short_of_memory(void)
{
    fputs("stopmargin: memory is short\n", stderr);
    return EXIT_REFUSED;
}

int command_print_json(char *text)
{
    if (text == NULL)
        return command_short_of_memory();
    puts(text);
    free(text);
    return 0;
}

static bool to_stdout(const char *path)
{
    return path == NULL || strcmp(path, "-") == 0;
}

static bool same_file(const char *one, const char *other)
{
    struct stat a;
    struct stat b;
    return stat(one, &a) == 0 && stat(other, &b) == 0 && a.st_dev == b.st_dev &&
           a.st_ino == b.st_ino;
}

static int cannot_be_written(const char *path)
{
    command_tell("%s: cannot be written: %s\n", path, strerror(errno));
    return EXIT_REFUSED;
}

FILE *command_open_output(const char *path, char *const *inputs)
{
    if (to_stdout(path))
        return stdout;
    for (; *inputs != NULL; inputs++) {
        if (same_file(path, *inputs)) {
            command_tell("%s: is read here and is not written over\n", path);
            return NULL;
        }
    }
    FILE *stream = fopen(path, "wb");
    if (stream == NULL)
        cannot_be_written(path);
    return stream;
}

int command_close_output(const char *path, FILE *stream)
{
    if (to_stdout(path))
        return 0; /* main looks whether it could be written */
    const bool flushed = fflush(stream) == 0 && ferror(stream) == 0;
    const int reason = errno;
    const bool closed = fclose(stream) == 0;
    errno = flushed ? errno : reason;
    return flushed && closed ? 0 : cannot_be_written(path);
}
