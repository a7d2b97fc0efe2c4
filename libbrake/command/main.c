/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L /* NOLINT: open, fcntl, SIGXFSZ */
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "drive.h"
#include "help.h"
#include "machine.h"
#include "output.h"
#include "verbs.h"
#include "file/carried.h"
#include "vehicle/letters.h"
#include "vehicle/text.h"

enum { TOLD = 6000 /* bytes of a message: the longest path, and words */ };

int command_misused(const char *format, ...)
{
    char text[TOLD];
    va_list list;
    va_start(list, format);
    brake_text_format_list(text, sizeof text, format, list);
    va_end(list);
    command_tell("stopmargin: %s\n", text);
    return EXIT_MISUSED;
}

void command_tell(const char *format, ...)
{
    char text[TOLD];
    va_list list;
    va_start(list, format);
    brake_text_format_list(text, sizeof text, format, list);
    va_end(list);
    char *end = text + strlen(text);
    const bool line = end > text && end[-1] == '\n';
    if (line)
        end[-1] = '\0';
    brake_text_make_plain(text);
    fputs(text, stderr);
    if (line)
        fputc('\n', stderr);
}

static int refuse(const char *before, const char *where, const struct brake_error *error)
{
    char line[16] = "";
    if (error->line > 0)
        brake_text_format(line, sizeof line, ":%d", error->line);
    command_tell("%s%s%s%s%s: %s\n", before, where, line, error->field[0] != '\0' ? ": " : "",
                 error->field, error->text);
    return EXIT_REFUSED;
}

int command_refuse(const char *file, const struct brake_error *error)
{
    const int status = error->status == BRAKE_E_READ     ? command_failure(errno)
                       : error->status == BRAKE_E_MEMORY ? EXIT_FAILED
                                                         : EXIT_REFUSED;
    refuse("", file, error);
    return status;
}

int command_refuse_value(const char *option, const struct brake_error *error)
{
    return refuse("stopmargin: ", option, error);
}

int command_read(const char *path, const struct command_list *settings, enum brake_systems *units,
                 struct brake_sheet *sheet)
{
    struct brake_error error;
    const char *file = path;
    const int count = settings != NULL ? settings->count : 0;
    FILE *stream;
    const int opened = command_open(path, &stream);
    if (opened != 0)
        return opened;
    enum brake_status status = brake_file_read(stream, sheet, &error);
    command_close(stream);
    path = command_name(path);
    for (int i = 0; i < count && status == BRAKE_OK; i++) {
        status = brake_file_set(sheet, settings->word[i], &error);
        path = status == BRAKE_OK ? path : "--set";
    }
    if (status == BRAKE_OK)
        status = brake_sheet_complete(sheet, &error);
    if (units != NULL && *units == BRAKE_SI_FIRST && status == BRAKE_OK)
        *units = brake_answer_systems(sheet);
    if (status != BRAKE_OK)
        return command_refuse(path, &error);
    const int listed = command_parts_named(file, sheet);
    return listed != 0 ? listed : drive_learn(file, BRAKE_CARRIED_DRIVE, sheet);
}

/* Whether help is asked for before the options end. */
static bool wants_help(char **words)
{
    for (; *words != NULL && strcmp(*words, "--") != 0; words++) {
        if (strcmp(*words, "--help") == 0 || strcmp(*words, "-h") == 0)
            return true;
    }
    return false;
}

static int run_verb(char **words)
{
    const struct words_verb *verb = verbs_find(words[0]);
    if (verb != NULL && wants_help(words + 1))
        return help_of_verb(verb);
    const int status = verb != NULL ? verb->run(words) : EXIT_MISUSED;
    if (status != EXIT_MISUSED)
        return status;
    const bool of_verb = verb != NULL && verb != &verb_help;
    brake_text_print(stderr, "stopmargin: try `stopmargin help%s%s`\n", of_verb ? " " : "",
                     of_verb ? verb->name : "");
    return EXIT_REFUSED;
}

static int run(int count, char **words)
{
    if (count < 2) {
        fputs("stopmargin: a verb is wanted, such as check\nstopmargin: try `stopmargin help`\n",
              stderr);
        return EXIT_REFUSED;
    }
    if (strcmp(words[1], "--version") == 0 || strcmp(words[1], "-V") == 0) {
        brake_text_print(stdout, "stopmargin %s\n", BRAKE_VERSION);
        return 0;
    }
    if (strcmp(words[1], "--help") == 0 || strcmp(words[1], "-h") == 0)
        return help_of_all();
    return run_verb(words + 1);
}

/* A stream that is closed would be taken by the next file that is opened, and words would go into
 * it. Opened the wrong way round it still fails, and is told. */
static void hold_closed_streams(void)
{
    for (int file = 0; file <= 2; file++) {
        if (fcntl(file, F_GETFD) < 0)
            (void)open("/dev/null", file == 0 ? O_WRONLY : O_RDONLY);
    }
}

int main(int count, char **words)
{
    hold_closed_streams();
    signal(SIGXFSZ, SIG_IGN); /* a file past its limit is told, as a full disk is */
    if (machine_begin(words) != 0)
        return EXIT_FAILED;
    const int status = machine_end(run(count, words));
    const bool written = command_written(stdout);
    if (written && fclose(stdout) == 0)
        return status;
    brake_text_print(stderr, "stopmargin: the output could not be written: %s\n", strerror(errno));
    return EXIT_FAILED;
}
