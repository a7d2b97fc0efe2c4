/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L /* NOLINT: fstat, fileno */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "output.h"
#include "vehicle/text.h"
#include "verbs.h"

struct options {
    char *file;
    char *out;
    int front; /* which choice of its option, from 1; 0: not given */
    int rear;
    int assist;
    int use;
    enum brake_systems units;
    char *country;
};

/* Which of the choices, from 1. */
static int take_choice(void *into, const struct words_option *option, char *value)
{
    int *choice = into;
    const int status = words_choose(option, value, choice);
    ++*choice;
    return status;
}

static const struct words_option options[] = {
    {"--front", "disc|drum", take_choice, offsetof(struct options, front),
     "brakes in front: with them a short file, only the lines that such a vehicle needs for a "
     "first "
     "verdict"},
    {"--rear", "disc|drum", take_choice, offsetof(struct options, rear), "brakes at the rear"},
    {"--assist", "none|vacuum|hydraulic", take_choice, offsetof(struct options, assist),
     "what helps the foot (vacuum)"},
    {"--use", "private|commercial", take_choice, offsetof(struct options, use),
     "what the vehicle is used for (private)"},
    {"--country", "XX", words_take_text, offsetof(struct options, country),
     "where it is registered: two letters of ISO 3166-1"},
    {"--units", "us|si", words_take_units, offsetof(struct options, units),
     "of the lines to fill in (si)"},
    {"-o", "OUT", words_take_text, offsetof(struct options, out),
     "where to, which may be FILE itself (standard output)"},
    {NULL, "[FILE]", words_take_file, offsetof(struct options, file),
     "a vehicle file: its lines as they are, the others added as comments that explain them; - is "
     "standard input"}};

static bool is_short(const struct options *o)
{
    return o->front > 0 || o->rear > 0 || o->assist > 0 || o->use > 0 || o->country != NULL ||
           o->units != BRAKE_SI_FIRST;
}

static int take_words(char **words, struct options *o)
{
    const int status = words_take(words, options, o);
    if (status != 0)
        return status;
    if (o->out != NULL && o->out[0] == '\0')
        return command_misused("-o wants a file; - is standard output");
    if (is_short(o) && (o->front == 0 || o->rear == 0))
        return command_misused("a short file wants both: --front disc|drum --rear disc|drum");
    if (is_short(o) && o->file != NULL)
        return command_misused("a short file is a new one: leave out '%s', or the options",
                               o->file);
    return 0;
}

/* ---- the kind of vehicle -------------------------------------------------------------------- */

static bool set(struct brake_sheet *sheet, const char *path, const char *word)
{
    char setting[120];
    struct brake_error error;
    brake_text_format(setting, sizeof setting, "%s=%.60s", path, word);
    if (brake_file_set(sheet, setting, &error) == BRAKE_OK)
        return true;
    command_tell("%s: %s\n", error.field, error.text);
    return false;
}

static int set_kind(const struct options *o, struct brake_sheet *sheet)
{
    static const char *const brakes[] = {"disc", "disc", "drum"};
    static const char *const boosters[] = {"fitted", "none", "fitted", "hydraulic"};
    const bool known = set(sheet, "front.axle.brake", brakes[o->front]) &&
                       set(sheet, "rear.axle.brake", brakes[o->rear]) &&
                       set(sheet, "booster.booster", boosters[o->assist]) &&
                       set(sheet, "vehicle.use", o->use == 2 ? "commercial" : "private") &&
                       (o->country == NULL || set(sheet, "vehicle.country", o->country));
    return known ? 0 : EXIT_REFUSED;
}

/* ---- the file to begin with ----------------------------------------------------------------- */

/* The shell empties what standard output goes to before any program runs. */
static int refuse_emptied(const char *file)
{
    command_tell(
        "%s: is empty: standard output goes to it, and the shell emptied it before stopmargin "
        "could read it; bring it back, then: stopmargin new %s -o %s\n",
        file, file, file);
    return EXIT_REFUSED;
}

/* All of a file, ended by NUL, to be freed whatever the status. */
static int read_all(const char *path, char **text)
{
    const size_t size = BRAKE_FILE_BYTES + 2; /* one more than is accepted, and the end */
    FILE *stream;
    const int opened = command_open(path, &stream);
    if (opened != 0)
        return opened;
    *text = malloc(size);
    const size_t length = *text != NULL ? fread(*text, 1, size - 1, stream) : 0;
    const int reason = errno;
    const bool failed = ferror(stream) != 0;
    command_close(stream);
    errno = reason;
    if (*text == NULL)
        return command_short_of_memory();
    if (failed)
        return command_cannot(command_name(path), "read");
    (*text)[length] = '\0';
    if (strlen(*text) == length)
        return 0;
    command_tell("%s: is not text: it holds a byte of value 0; save the file as UTF-8\n",
                 command_name(path));
    return EXIT_REFUSED;
}

static int read_text(const char *path, const char *text, struct brake_sheet *sheet)
{
    struct brake_error error;
    if (text[0] == '\0' && !command_is_stdin(path) && command_is_stdout(path))
        return refuse_emptied(path);
    enum brake_status status = brake_file_read_text(text, sheet, &error);
    if (status == BRAKE_OK)
        status = brake_sheet_complete(sheet, &error);
    return status == BRAKE_OK ? 0 : command_refuse(command_name(path), &error);
}

/* ---- the run -------------------------------------------------------------------------------- */

/* The file may be written over: nothing of it is lost. */
static int write_file(const struct options *o, const char *text, const struct brake_sheet *sheet)
{
    char *const none[] = {NULL};
    struct command_output out;
    const int status = command_open_output(o->out, none, &out);
    if (status != 0)
        return status;
    if (text != NULL)
        brake_file_extend(text, sheet, out.stream);
    else if (is_short(o))
        brake_file_start(sheet, o->units == BRAKE_US_ONLY, out.stream);
    else
        brake_file_write(sheet, out.stream);
    return command_close_output(&out);
}

static int run_new(char **words)
{
    struct options o = {.units = BRAKE_SI_FIRST};
    struct brake_sheet sheet;
    char *text = NULL;
    int status = take_words(words, &o);
    if (status == 0 && o.file != NULL)
        status = read_all(o.file, &text);
    if (status == 0 && text != NULL)
        status = read_text(o.file, text, &sheet);
    else if (status == 0)
        brake_sheet_clear(&sheet);
    if (status == 0 && is_short(&o))
        status = set_kind(&o, &sheet);
    if (status == 0)
        status = write_file(&o, text, &sheet);
    free(text);
    return status;
}

const struct words_verb verb_new = {
    "new",
    "",
    "write a vehicle file to start from, explained",
    "Writes a vehicle file to start from: with --front and --rear a short one, what such a vehicle "
    "needs for a first verdict; without, every line explained. Of a file that is there it writes "
    "the "
    "same file with what it lacks.",
    "0 it was written.",
    options,
    run_new};
