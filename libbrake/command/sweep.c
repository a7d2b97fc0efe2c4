/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L /* NOLINT: ftruncate, fseeko */
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "machine.h"
#include "output.h"
#include "progress.h"
#include "verbs.h"
#include "vehicle/text.h"

enum { AXES = BRAKE_AXES_OF_SWEEP, WORD = 200 };

struct options {
    char *file;
    struct command_list set;
    struct command_list axis;
    struct brake_output output[BRAKE_OUTPUTS];
    int outputs;
    int threads;
    char *into;
    bool resume;
    bool bare;
};

/* What is swept, and the room it needs. */
struct job {
    struct brake_sheet sheet;
    struct brake_axis axis[AXES];
    double *list[AXES]; /* values of the listed axes */
    struct brake_sweep sweep;
    struct brake_sweeper *sweeper;
};

/* ---- axes ----------------------------------------------------------------------------------- */

/* A number in the unit of the axis; the first one read sets it. A difference leaves out where the
 * scale of a temperature begins. */
static int take_number(const char *path, const char *text, bool difference, struct brake_axis *axis,
                       double *number)
{
    const enum brake_dimension dimension = brake_quantity_at(axis->index)->dimension;
    const struct brake_unit *unit;
    struct brake_error error;
    if (brake_number_read(path, text, dimension, number, &unit, &error) != BRAKE_OK)
        return command_refuse_value("--axis", &error);
    if (axis->unit == NULL)
        axis->unit = unit;
    if (unit != axis->unit && difference)
        *number *= unit->factor / axis->unit->factor;
    else if (unit != axis->unit)
        *number = brake_unit_from_si(axis->unit, brake_unit_to_si(unit, *number));
    return 0;
}

/* Cuts the text at a mark; returns what stands behind it, NULL when there is no mark. */
static char *cut(char *text, char mark)
{
    char *at = strchr(text, mark);
    if (at == NULL)
        return NULL;
    *at = '\0';
    return at + 1;
}

static int take_ratios(const char *path, double low, double high, const char *count,
                       struct brake_axis *axis)
{
    char *end;
    const long long values = strtoll(count, &end, 10);
    if (end == count || *end != '\0' || brake_axis_ratios(low, high, values, axis) != BRAKE_OK)
        return command_misused("--axis %s: LOW:HIGH:N@log wants 0 < LOW <= HIGH and a whole number "
                               "N of values from 2; got N '%s'",
                               path, count);
    return 0;
}

/* LOW:HIGH:STEP or LOW:HIGH:N@log. */
static int take_range(const char *path, char *low_text, struct brake_axis *axis)
{
    double low = BRAKE_NAN;
    double high = BRAKE_NAN;
    double step = BRAKE_NAN;
    char *high_text = cut(low_text, ':');
    char *step_text = cut(high_text, ':');
    if (step_text == NULL || strchr(step_text, ':') != NULL)
        return command_misused("--axis %s: accepts LOW:HIGH:STEP, V,V,V or LOW:HIGH:N@log", path);
    const char *at = cut(step_text, '@');
    int status = take_number(path, low_text, false, axis, &low);
    if (status == 0)
        status = take_number(path, high_text, false, axis, &high);
    if (status == 0 && at != NULL)
        return strcmp(at, "log") == 0
                   ? take_ratios(path, low, high, step_text, axis)
                   : command_misused("--axis %s: got '@%s'; accepts @log", path, at);
    if (status == 0)
        status = take_number(path, step_text, true, axis, &step);
    if (status == 0 && brake_axis_steps(low, high, step, axis) != BRAKE_OK)
        return command_misused("--axis %s: LOW:HIGH:STEP wants a STEP above 0, HIGH not below LOW, "
                               "and no more than 1e15 steps; got %.10g:%.10g:%.10g %s",
                               path, low, high, step, axis->unit->name);
    return status;
}

static int take_list(const char *path, char *text, struct brake_axis *axis, double **list)
{
    size_t count = 1;
    int status = 0;
    for (const char *at = text; *at != '\0'; at++)
        count += *at == ',';
    *list = calloc(count, sizeof **list);
    if (*list == NULL)
        return command_short_of_memory();
    axis->spacing = BRAKE_LISTED;
    axis->number = *list;
    for (axis->count = 0; text != NULL && status == 0; axis->count++) {
        char *next = cut(text, ',');
        status = take_number(path, text, false, axis, &(*list)[axis->count]);
        text = next;
    }
    return status;
}

static int take_axis(char *word, struct job *job)
{
    struct brake_axis *axis = &job->axis[job->sweep.axes];
    char *values = cut(word, '=');
    if (values == NULL || *word == '\0')
        return command_misused("--axis: got '%s'; accepts PATH=LOW:HIGH:STEP, PATH=V,V,V or "
                               "PATH=LOW:HIGH:N@log",
                               word);
    axis->index = brake_catalogue_find(&job->sheet.vehicle, word);
    if (axis->index < 0)
        return words_unknown_path("--axis: ", &job->sheet.vehicle, word);
    if (brake_quantity_at(axis->index)->kind != BRAKE_REAL)
        return command_misused("--axis: %s is no number; an axis is a line of one number", word);
    const int status = strchr(values, ':') != NULL
                           ? take_range(word, values, axis)
                           : take_list(word, values, axis, &job->list[job->sweep.axes]);
    job->sweep.axes++;
    return status;
}

static int prepare(const struct options *o, struct job *job)
{
    struct brake_error error;
    int status = command_read(o->file, &o->set, NULL, &job->sheet);
    job->sweep = (struct brake_sweep){
        .sheet = &job->sheet, .axis = job->axis, .output = o->output, .outputs = o->outputs};
    for (int i = 0; i < o->axis.count && status == 0; i++)
        status = take_axis(o->axis.word[i], job);
    if (status != 0)
        return status;
    job->sweeper = brake_sweeper_new(&job->sweep, &error);
    if (job->sweeper != NULL)
        return 0;
    return error.status == BRAKE_E_MEMORY ? command_short_of_memory()
                                          : command_refuse_value("--axis", &error);
}

/* ---- words of the command line -------------------------------------------------------------- */

static int take_outputs(void *into, const struct words_option *option, char *names)
{
    (void)option;
    struct options *o = into;
    while (names != NULL) {
        char *next = cut(names, ',');
        if (o->outputs == BRAKE_OUTPUTS)
            return command_misused("--out accepts up to %d names", BRAKE_OUTPUTS);
        if (brake_output_find(names, &o->output[o->outputs++]) != BRAKE_OK)
            return words_unknown_output("--out: ", names);
        names = next;
    }
    return 0;
}

static int take_threads(void *into, const struct words_option *option, char *text)
{
    (void)option;
    int *threads = into;
    char *end;
    const long count = strtol(text, &end, 10);
    if (end == text || *end != '\0' || count < 1 || count > 1024)
        return command_misused("--threads '%s'; accepts 1 to 1024", text);
    *threads = (int)count;
    return 0;
}

static const struct words_option options[] = {
    {"--axis", "PATH=VALUES", words_keep, offsetof(struct options, axis),
     "a line of the file and its values: LOW:HIGH:STEP, such as 2.2m:2.9m:0.01m; V,V,V, such as "
     "1800kg,4200lb; or LOW:HIGH:N@log, N values in equal ratios. May be repeated; the last axis "
     "runs fastest"},
    {"--out", "NAME,...", take_outputs, 0,
     "results, or criteria: their margin (deceleration and stopping distance when full)"},
    {"--into", "FILE", words_take_text, offsetof(struct options, into), "a new file"},
    {"--resume", "", NULL, offsetof(struct options, resume), "go on with a file that was stopped"},
    {"--bare", "", NULL, offsetof(struct options, bare),
     "without the first line, which begins with #"},
    {"--threads", "N", take_threads, offsetof(struct options, threads),
     "how many at work (all processors); the rows are the same"},
    {"--set", "PATH=VALUE", words_keep, offsetof(struct options, set), words_help_set},
    {NULL, "FILE", words_take_file, offsetof(struct options, file), words_help_file}};

static int take_words(char **words, struct options *o)
{
    static char usual[] = "full.deceleration.at_pedal_force,full.deceleration.most,"
                          "full.balance.lock_deceleration,full.stop.distance";
    char outputs[sizeof usual];
    const int status = words_take(words, options, o);
    if (status != 0)
        return status;
    if (o->file == NULL)
        return command_misused("sweep wants a vehicle file");
    if (o->axis.count == 0)
        return command_misused("sweep wants --axis PATH=LOW:HIGH:STEP");
    if (o->resume && o->into == NULL)
        return command_misused("--resume wants --into FILE, the file to go on with");
    if (o->resume && o->bare)
        return command_misused("--resume looks at the first line, which --bare leaves out");
    memcpy(outputs, usual, sizeof usual);
    return o->outputs > 0 ? 0 : take_outputs(o, NULL, outputs);
}

/* ---- a file that was begun before ----------------------------------------------------------- */

/* How the head of a file compares with the one that this sweep writes. */
enum head { WHOLE_HEAD, CUT_HEAD, OTHER_HEAD };

/* What stands at the beginning of a file; a whole head leaves it right behind that. */
static enum head look_at_head(FILE *stream, const char *head)
{
    for (; *head != '\0'; head++) {
        const int byte = fgetc(stream);
        if (byte == EOF)
            return CUT_HEAD;
        if (byte != (unsigned char)*head)
            return OTHER_HEAD;
    }
    return WHOLE_HEAD;
}

static bool stands_here(FILE *stream, const char *line)
{
    return look_at_head(stream, line) == WHOLE_HEAD;
}

/* Counts whole lines from here on, and finds where the last of them begins and ends. */
static long long count_lines(FILE *stream, off_t *last, off_t *end)
{
    char block[65536];
    long long lines = 0;
    off_t at = ftello(stream);
    size_t got;
    *last = *end = at;
    while ((got = fread(block, 1, sizeof block, stream)) > 0) {
        for (size_t i = 0; i < got; i++) {
            if (block[i] != '\n')
                continue;
            lines++;
            *last = *end;
            *end = at + (off_t)i + 1;
        }
        at += (off_t)got;
    }
    return lines;
}

static int refuse_resume(const char *file, const char *why)
{
    command_tell("%s: cannot be resumed: %s; give the words it was begun with, or another file\n",
                 file, why);
    return EXIT_REFUSED;
}

static int cut_file(const char *file, FILE *stream, off_t end)
{
    if (ftruncate(fileno(stream), end) != 0 || fseeko(stream, end, SEEK_SET) != 0)
        return command_cannot(file, "written");
    return 0;
}

/* Finds the first case that is missing, and leaves the file right before its row. */
static int find_end(const struct options *o, struct job *job, FILE *stream, long long *first)
{
    off_t last;
    off_t end;
    *first = count_lines(stream, &last, &end);
    if (ferror(stream))
        return command_cannot(o->into, "read");
    if (*first > brake_sweep_count(&job->sweep))
        return refuse_resume(o->into, "it has more rows than this sweep");
    char *row = *first > 0 ? brake_report_sweep_row(job->sweeper, *first - 1) : NULL;
    if (*first > 0 && row == NULL)
        return command_short_of_memory();
    const bool same =
        *first == 0 || (fseeko(stream, last, SEEK_SET) == 0 && stands_here(stream, row));
    free(row);
    return same ? cut_file(o->into, stream, end)
                : refuse_resume(o->into, "its last row is another");
}

/* ---- the run -------------------------------------------------------------------------------- */

static int tell(const struct options *o, const struct brake_sweep_tally *tally, long long first,
                long long total)
{
    const long long done = first + tally->rows;
    if (tally->short_of_memory)
        return command_short_of_memory();
    if (tally->refused > 0)
        command_tell("stopmargin: the vehicle refused %lld of %lld cases; column note says why\n",
                     tally->refused, tally->rows);
    if (o->bare)
        command_tell("CAUTION: %s\n", BRAKE_CAUTION);
    if (progress_stopped() != 0 && done < total) {
        command_tell("stopmargin: stopped after %lld of %lld cases%s\n", done, total,
                     o->into != NULL && !o->bare ? "; --resume goes on" : "");
        return progress_stopped();
    }
    return tally->rows > 0 && tally->refused == tally->rows ? 3 : 0;
}

static int write_rows(const struct options *o, const struct job *job, long long first, FILE *stream)
{
    const long long total = brake_sweep_count(&job->sweep);
    struct progress progress;
    const struct brake_watch watch = progress_begin_study(&progress, "cases", (double)first);
    const struct brake_sweep_tally tally =
        brake_report_sweep_rows(job->sweeper, first, o->threads, &watch, stream);
    progress_end(&progress);
    const bool written = command_written(stream);
    if (!written && stream != stdout)
        return command_cannot(o->into, "written");
    return written ? tell(o, &tally, first, total) : EXIT_FAILED; /* main tells of stdout */
}

/* The line that marks the file, unless it is to be bare, and the header; NULL: memory is short. */
static char *head_of(const struct options *o, const struct job *job)
{
    char *mark = o->bare ? NULL : brake_report_sweep_mark(&job->sweep);
    char *names = brake_report_sweep_head(&job->sweep);
    const size_t size = names != NULL ? strlen(names) + (mark != NULL ? strlen(mark) : 0) + 1 : 0;
    char *head = names != NULL && (o->bare || mark != NULL) ? malloc(size) : NULL;
    if (head != NULL)
        brake_text_format(head, size, "%s%s", mark != NULL ? mark : "", names);
    free(mark);
    free(names);
    return head;
}

/* Goes on behind the rows that are there; a file that was cut within its head is begun again. */
static int go_on(const struct options *o, struct job *job, const char *head, FILE *stream)
{
    long long first = 0;
    int status = 0;
    switch (look_at_head(stream, head)) {
    case OTHER_HEAD:
        return refuse_resume(o->into, "it is of another vehicle, other axes or results, or another "
                                      "version");
    case CUT_HEAD:
        status = ferror(stream) ? command_cannot(o->into, "read") : cut_file(o->into, stream, 0);
        if (status == 0)
            fputs(head, stream);
        break;
    case WHOLE_HEAD:
        status = find_end(o, job, stream, &first);
        break;
    }
    return status == 0 ? write_rows(o, job, first, stream) : status;
}

/* Two that write one file would mix their rows. */
static int hold_alone(const char *file, FILE *stream)
{
    struct flock all = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    if (fcntl(fileno(stream), F_SETLK, &all) == 0 || (errno != EACCES && errno != EAGAIN))
        return 0; /* some file systems know no locks */
    command_tell("%s: another run is writing it\n", file);
    return EXIT_REFUSED;
}

static int run_into_file(const struct options *o, struct job *job, const char *head)
{
    FILE *stream = o->resume ? fopen(o->into, "r+b") : NULL;
    const bool going_on = stream != NULL;
    if (stream == NULL && (!o->resume || errno == ENOENT))
        stream = fopen(o->into, "wbx");
    if (stream == NULL && errno == EEXIST) {
        command_tell("%s: is there already; --resume goes on with it\n", o->into);
        return EXIT_REFUSED;
    }
    if (stream == NULL)
        return command_cannot(o->into, "opened");
    int status = hold_alone(o->into, stream);
    if (status == 0 && going_on) {
        status = go_on(o, job, head, stream);
    } else if (status == 0) {
        fputs(head, stream);
        status = write_rows(o, job, 0, stream);
    }
    const bool written = status != 0 || (command_written(stream) && fsync(fileno(stream)) == 0);
    const bool closed = fclose(stream) == 0;
    return written && closed ? status : command_cannot(o->into, "written");
}

static int run(const struct options *o, struct job *job)
{
    char *head = head_of(o, job);
    int status = 0;
    if (head == NULL) {
        status = command_short_of_memory();
    } else if (o->into != NULL) {
        status = run_into_file(o, job, head);
    } else {
        fputs(head, stdout);
        status = write_rows(o, job, 0, stdout);
    }
    free(head);
    return status;
}

static int run_sweep(char **words)
{
    static struct options o = {.set = {.most = COMMAND_SETTINGS}, .axis = {.most = AXES}};
    static struct job job; /* they are large */
    const long processors = sysconf(_SC_NPROCESSORS_ONLN);
    o.threads = processors > 0 ? (int)processors : 1;
    int status = take_words(words, &o);
    if (status == 0) {
        o.threads = machine_threads(o.threads);
        status = prepare(&o, &job);
    }
    if (status == 0)
        status = run(&o, &job);
    for (int i = 0; i < AXES; i++)
        free(job.list[i]);
    brake_sweeper_free(job.sweeper);
    return status;
}

const struct words_verb verb_sweep = {
    "sweep",
    "--axis PATH=VALUES",
    "results over ranges of lines, as CSV with units",
    "Works out every combination of the values along its axes, any lines of the file that are "
    "numbers, and writes a row a case as CSV. Axis columns are in the unit that was given, outputs "
    "in SI. What cannot be said is an empty cell; the column note says why a case was refused.",
    "0 a case was worked out; 3 the vehicle refused all of them; 130 or 143 it was interrupted.",
    options,
    run_sweep};
