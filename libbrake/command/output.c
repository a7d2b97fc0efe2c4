/* SPDX-License-Identifier: MIT */
/* Files that are written: what was there stays until all of the new one is on the disk. */
#define _POSIX_C_SOURCE 200809L /* NOLINT: stat, fsync, mkstemp */
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "output.h"
#include "signals.h"

int command_short_of_memory(void)
{
    fputs("stopmargin: memory is short\n", stderr);
    return EXIT_FAILED;
}

struct brake_document *command_document(enum brake_systems units, enum brake_format format)
{
    const bool for_people = format == BRAKE_AS_TEXT || format == BRAKE_AS_HTML;
    return brake_document_new(for_people ? units : BRAKE_SI_FIRST);
}

int command_print(struct brake_document *document, enum brake_format format, FILE *stream)
{
    const enum brake_status status = brake_document_print(document, format, stream);
    brake_document_free(document);
    return status == BRAKE_OK ? 0 : command_short_of_memory();
}

int command_failure(int reason)
{
    static const int of_machine[] = {EIO,    ENOSPC, EDQUOT, EFBIG, EMFILE, ENFILE,
                                     ENOMEM, EBADF,  EPIPE,  ENXIO, ENODEV, ESTALE};
    for (size_t i = 0; i < sizeof of_machine / sizeof of_machine[0]; i++) {
        if (reason == of_machine[i])
            return EXIT_FAILED;
    }
    return EXIT_REFUSED;
}

int command_cannot(const char *path, const char *what)
{
    const int reason = errno;
    command_tell("%s: cannot be %s: %s\n", path, what, strerror(reason));
    return command_failure(reason);
}

bool command_written(FILE *stream)
{
    return fflush(stream) == 0 && !ferror(stream);
}

static bool same(const struct stat *a, const struct stat *b)
{
    return a->st_dev == b->st_dev && a->st_ino == b->st_ino;
}

bool command_is_stdout(const char *path)
{
    struct stat file;
    struct stat out;
    return path == NULL || strcmp(path, "-") == 0 ||
           (stat(path, &file) == 0 && fstat(STDOUT_FILENO, &out) == 0 && same(&file, &out));
}

/* Whether an output is what an input is read from. */
static bool same_file(const char *one, const char *other)
{
    struct stat a;
    struct stat b;
    const int found = command_is_stdin(other) ? fstat(STDIN_FILENO, &b) : stat(other, &b);
    return found == 0 && stat(one, &a) == 0 && same(&a, &b);
}

/* ---- aside ---------------------------------------------------------------------------------- */

/* Length of the folder of a path, its slash included; 0: the one we are in. */
static size_t folder_length(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash != NULL ? (size_t)(slash - path) + 1 : 0;
}

/* Follows symbolic links to the file that is written in the end, which need not be there yet. */
static bool follow(char path[OUTPUT_PATH])
{
    enum { LINKS = 40 }; /* as many as the kernel follows */
    for (int i = 0; i < LINKS; i++) {
        char to[OUTPUT_PATH];
        const ssize_t length = readlink(path, to, sizeof to - 1);
        if (length < 0)
            return errno == EINVAL || errno == ENOENT; /* no link; nothing there */
        to[length] = '\0';
        const size_t folder = to[0] == '/' ? 0 : folder_length(path);
        if (folder + (size_t)length >= OUTPUT_PATH) {
            errno = ENAMETOOLONG;
            return false;
        }
        memcpy(path + folder, to, (size_t)length + 1);
    }
    errno = ELOOP;
    return false;
}

/* Owner and permissions of the file that is replaced; those that any new file has when there is
 * none. Who may not give a file away keeps it. */
static bool keep_permissions(int file, const struct stat *old)
{
    const mode_t mask = umask(0);
    umask(mask);
    if (old != NULL && fchown(file, old->st_uid, old->st_gid) != 0 && errno != EPERM)
        return false;
    return fchmod(file, old != NULL ? old->st_mode & 07777 : 0666 & ~mask) == 0;
}

static FILE *open_aside(struct command_output *out, const struct stat *old)
{
    static const char name[] = ".stopmargin-XXXXXX";
    const size_t folder = folder_length(out->target);
    if (folder + sizeof name > sizeof out->aside) {
        errno = ENAMETOOLONG;
        return NULL;
    }
    memcpy(out->aside, out->target, folder);
    memcpy(out->aside + folder, name, sizeof name);
    const int file = mkstemp(out->aside);
    FILE *stream = file >= 0 && keep_permissions(file, old) ? fdopen(file, "wb") : NULL;
    if (stream == NULL && file >= 0) {
        const int reason = errno;
        close(file);
        unlink(out->aside);
        errno = reason;
    }
    return stream;
}

/* A file that is no file on a disk, such as a pipe or a terminal, is written as it is. */
static FILE *open_file(const char *path, struct command_output *out)
{
    struct stat old;
    const bool there = stat(path, &old) == 0;
    if (there && !S_ISREG(old.st_mode))
        return fopen(path, "wb");
    if (there && access(path, W_OK) != 0)
        return NULL;
    if (strlen(path) >= sizeof out->target) {
        errno = ENAMETOOLONG;
        return NULL;
    }
    memcpy(out->target, path, strlen(path) + 1);
    if (!follow(out->target))
        return NULL;
    signals_hold();
    FILE *stream = open_aside(out, there ? &old : NULL);
    if (stream == NULL)
        signals_release();
    out->replaces = stream != NULL;
    return stream;
}

/* The new name is on the disk when its folder is; some file systems cannot be asked for that. */
static bool sync_folder(const char *path)
{
    char folder[OUTPUT_PATH] = ".";
    const size_t length = folder_length(path);
    if (length > 0) {
        memcpy(folder, path, length);
        folder[length] = '\0';
    }
    const int file = open(folder, O_RDONLY | O_DIRECTORY);
    if (file < 0)
        return errno == EACCES; /* it may be written in, not read */
    const bool synced = fsync(file) == 0 || errno == EINVAL;
    close(file);
    return synced;
}

/* ---- what a verb uses ----------------------------------------------------------------------- */

int command_open_output(const char *path, char *const *inputs, struct command_output *out)
{
    *out = (struct command_output){.stream = stdout, .path = path};
    for (; path != NULL && *inputs != NULL; inputs++) {
        if (same_file(path, *inputs)) {
            command_tell("%s: is read here and is not written over\n", path);
            return EXIT_REFUSED;
        }
    }
    if (!command_is_stdout(path))
        out->stream = open_file(path, out);
    return out->stream != NULL ? 0 : command_cannot(path, "written");
}

int command_close_output(struct command_output *out)
{
    if (out->stream == stdout)
        return 0; /* main looks whether it could be written */
    bool good = command_written(out->stream) && (!out->replaces || fsync(fileno(out->stream)) == 0);
    int reason = errno;
    if (fclose(out->stream) != 0 && good) {
        good = false;
        reason = errno;
    }
    if (out->replaces && good) {
        good = rename(out->aside, out->target) == 0 && sync_folder(out->target);
        reason = errno;
    }
    if (out->replaces && !good)
        unlink(out->aside);
    errno = reason;
    if (!good)
        command_cannot(out->path, "written");
    if (out->replaces)
        signals_release();
    return good ? 0 : EXIT_FAILED;
}

int command_write(struct brake_document *document, enum brake_format format, const char *path,
                  char *const *inputs)
{
    struct command_output out;
    int status = brake_document_status(document) == BRAKE_OK
                     ? command_open_output(path, inputs, &out)
                     : command_short_of_memory();
    if (status == 0) {
        (void)brake_document_print(document, format, out.stream);
        status = command_close_output(&out);
    }
    brake_document_free(document);
    return status;
}
