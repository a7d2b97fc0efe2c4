/* SPDX-License-Identifier: MIT */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "drive.h"
#include "output.h"
#include "file/carried.h"
#include "verbs.h"
#include "vehicle/text.h"

struct options {
    enum brake_systems units;
    char *file;
    char *before;
    char *out;
    struct command_list set;
    unsigned rules;
    enum brake_load load;
    struct drive_options drive;
    bool text;
};

/* ---- words of the command line -------------------------------------------------------------- */

static const struct words_option options[] = {
    {"-o", "OUT.html", words_take_text, offsetof(struct options, out),
     "where to; - is standard output"},
    {"--before", "FILE", words_take_text, offsetof(struct options, before), words_help_before},
    {"--drivelog", "LOG.csv", words_take_text, offsetof(struct options, drive.log),
     "a measured drive beside the prediction"},
    {"--columns", "NAME=UNIT,...", words_take_text, offsetof(struct options, drive.columns),
     "of the log: units that its header does not give, time=s,speed=mph"},
    {"--driven", "empty|full", words_take_load, offsetof(struct options, drive.load),
     "of the log: as it was driven (drive.load)"},
    {"--text", "", NULL, offsetof(struct options, text),
     "the same without pictures; without -o it goes to standard output"},
    {"--load", "empty|full", words_take_load, offsetof(struct options, load),
     "load case of stop, fade and descent (full)"},
    {"--set", "PATH=VALUE", words_keep, offsetof(struct options, set), words_help_set},
    {"--rules", WORDS_RULES, words_take_rules, offsetof(struct options, rules), words_help_rules},
    {"--units", "us|si|both", words_take_units, offsetof(struct options, units), words_help_units},
    {NULL, "FILE", words_take_file, offsetof(struct options, file), words_help_file}};

static int take_words(char **words, struct options *o)
{
    const int status = words_take(words, options, o);
    if (status != 0)
        return status;
    if (o->file == NULL)
        return command_misused("report wants a vehicle file");
    if (o->out == NULL && !o->text)
        return command_misused("report wants -o OUT.html; -o - is standard output");
    if (o->out != NULL && o->out[0] == '\0')
        return command_misused("-o wants a file; - is standard output");
    if (o->drive.columns != NULL && o->drive.log == NULL)
        return command_misused("--columns is for --drivelog CSV, which is not there");
    return 0;
}

/* ---- the date ------------------------------------------------------------------------------- */

/* Today, or the day of SOURCE_DATE_EPOCH, so that the same input gives the same report. */
static int take_date(char date[40])
{
    const char *given = getenv("SOURCE_DATE_EPOCH");
    time_t now = time(NULL);
    if (given != NULL) {
        char *end;
        errno = 0;
        const long long seconds = strtoll(given, &end, 10);
        if (end == given || *end != '\0' || errno != 0 || seconds < 0 || seconds > 253402300799LL) {
            command_tell("stopmargin: SOURCE_DATE_EPOCH: got '%s'; accepts seconds since 1970\n",
                         given);
            return EXIT_REFUSED;
        }
        now = (time_t)seconds;
    }
    const struct tm *day = given != NULL ? gmtime(&now) : localtime(&now);
    if (day == NULL || strftime(date, 40, "%Y-%m-%d", day) == 0)
        brake_text_format(date, 40, "not known");
    return 0;
}

/* ---- writing -------------------------------------------------------------------------------- */

static int write_paper(const struct options *o, const struct brake_paper *paper)
{
    char *const inputs[] = {o->file, o->before != NULL ? o->before : o->drive.log, o->drive.log,
                            NULL};
    const enum brake_format format = o->text ? BRAKE_AS_TEXT : BRAKE_AS_HTML;
    struct brake_document *d = command_document(o->units, format);
    if (d != NULL)
        brake_answer_report(d, paper);
    return command_write(d, format, o->out, inputs);
}

static int report(const struct options *o, struct brake_paper *paper)
{
    static struct brake_paper_room room; /* it is large */
    const enum brake_status filled = brake_paper_fill(paper, o->rules, o->load, &room);
    int status = filled == BRAKE_OK ? write_paper(o, paper) : command_no_draw(filled);
    if (status == 0)
        status = brake_assessment_exit(paper->assessment);
    brake_paper_free(&room);
    return status;
}

/* The log of a drive, when there is one, then the report. */
static int with_drive(const struct options *o, const struct brake_paper *given)
{
    static struct drive_taken taken; /* it is large */
    struct brake_paper paper = *given;
    if (o->drive.log == NULL)
        return report(o, &paper);
    int status = drive_take(&o->drive, given->sheet, &taken);
    if (status != 0)
        return status;
    paper.drive = &taken.report;
    paper.drive_file = command_name(o->drive.log);
    status = report(o, &paper);
    brake_log_free(&taken.log);
    return status;
}

/* The report, with the logs that both vehicles name. */
static int with_logs(const struct options *o, struct brake_paper *paper)
{
    struct brake_log log = {.row = NULL};
    struct brake_log before = {.row = NULL};
    bool there;
    int status = drive_named(o->file, BRAKE_CARRIED_DRIVE, paper->sheet, &log, &there);
    if (status == 0 && paper->before != NULL)
        status = command_before_log(o->before, o->file, paper->sheet, paper->before, &before);
    paper->log = log.row != NULL ? &log : NULL;
    paper->before_log = before.row != NULL ? &before : NULL;
    if (status == 0)
        status = with_drive(o, paper);
    paper->log = paper->before_log = NULL;
    brake_log_free(&log);
    brake_log_free(&before);
    return status;
}

static int run_report(char **words)
{
    struct options o = {.rules = BRAKE_RULES_OWN,
                        .load = BRAKE_FULL,
                        .drive = {.load = BRAKE_LOADS, .day = DRIVE_DAY_UNSAID},
                        .set = {.most = COMMAND_SETTINGS}};
    struct brake_sheet sheet;
    struct brake_sheet before;
    char date[40];
    bool told;
    int status = take_words(words, &o);
    if (status == 0)
        status = take_date(date);
    if (status == 0)
        status = command_read(o.file, &o.set, &o.units, &sheet);
    if (status == 0)
        status = command_before(o.before, o.file, &sheet, &before, &told);
    if (status != 0)
        return status;
    struct brake_paper paper = {.sheet = &sheet,
                                .before = told ? &before : NULL,
                                .file = command_name(o.file),
                                .before_file = command_name(o.before),
                                .date = date};
    return with_logs(&o, &paper);
}

const struct words_verb verb_report = {
    "report",
    "-o OUT.html",
    "the report for inspection, on paper",
    "Writes the paper for the inspector, one file that needs no network, for phone, screen, A4 and "
    "Letter: verdict, requirements, what the changes gave or took, what a drive measured, "
    "pictures, every line with where it came from, and what must be checked by hand with blanks to "
    "fill in.",
    "0, 1 and 3 as of check.",
    options,
    run_report};
