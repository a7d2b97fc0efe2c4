#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "drive.h"
#include "words.h"

struct options {
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

static int take_words(char **words, struct options *o)
{
    const struct words_option options[] = {{"-o", words_take_text, &o->out},
                                           {"--before", words_take_text, &o->before},
                                           {"--drivelog", words_take_text, &o->drive.log},
                                           {"--columns", words_take_text, &o->drive.columns},
                                           {"--driven", words_take_load, &o->drive.load},
                                           {"--text", NULL, &o->text},
                                           {"--load", words_take_load, &o->load},
                                           {"--set", words_keep, &o->set},
                                           {"--rules", words_take_rules, &o->rules},
                                           {NULL, words_take_file, &o->file}};
    const int status = words_take(words, options);
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
            fprintf(stderr, "stopmargin: SOURCE_DATE_EPOCH: got '%s'; accepts seconds since 1970\n",
                    given);
            return EXIT_REFUSED;
        }
        now = (time_t)seconds;
    }
    const struct tm *day = given != NULL ? gmtime(&now) : localtime(&now);
    if (day == NULL || strftime(date, 40, "%Y-%m-%d", day) == 0)
        snprintf(date, 40, "not known");
    return 0;
}

/* ---- the duties ----------------------------------------------------------------------------- */

/* One duty and its history. */
struct run {
    struct brake_duty duty;
    struct brake_duty_result result;
    enum brake_status status;
    struct command_history history;
    struct brake_duty_report report;
};

/* Of the rules asked for and the vehicle's category. */
static const struct brake_fade_sequence *fade_sequence(unsigned rules,
                                                       const struct brake_vehicle *vehicle)
{
    const char *id = vehicle->general.category == BRAKE_N1     ? "un.13.fade"
                     : (rules & (unsigned)BRAKE_RULES_US) != 0 ? "us.135.fade"
                                                               : "un.13h.fade";
    return brake_fade_sequence_find(id);
}

static void choose(const struct options *o, const struct brake_vehicle *vehicle,
                   struct run run[BRAKE_PAPER_DUTIES])
{
    for (int i = 0; i < BRAKE_PAPER_DUTIES; i++)
        run[i].duty = (struct brake_duty){.kind = BRAKE_DUTY_STOPS,
                                          .force = vehicle->driver.pedal_force_most,
                                          .rest = i == BRAKE_PAPER_STOP ? 0.0 : 600.0};
    run[BRAKE_PAPER_STOP].duty.stops =
        (struct brake_stops){.count = 1, .from = vehicle->stop.speed, .manner = BRAKE_AT_THE_VERGE};
    run[BRAKE_PAPER_FADE].duty.stops =
        brake_fade_stops(fade_sequence(o->rules, vehicle), vehicle->general.top_speed);
    /* a mountain road; common practice, no source */
    run[BRAKE_PAPER_DESCENT].duty.kind = BRAKE_DUTY_DESCENT;
    run[BRAKE_PAPER_DESCENT].duty.descent =
        (struct brake_descent){.grade = 0.08, .length = 6000.0, .speed = 50.0 / 3.6};
}

/* What could not be run is NULL in the paper, with a word on why. */
static void run_all(const struct options *o, struct brake_paper *paper,
                    struct run run[BRAKE_PAPER_DUTIES], char lacking[600])
{
    static struct brake_hot_rig hot; /* it is large */
    struct brake_error error;
    paper->lacking = lacking;
    choose(o, &paper->sheet->vehicle, run);
    if (brake_hot_rig_build(&paper->sheet->vehicle, o->load, &hot, &error) != BRAKE_OK) {
        snprintf(lacking, 600, "%s: %s", error.field, error.text);
        return;
    }
#pragma omp parallel for schedule(dynamic)
    for (int i = 0; i < BRAKE_PAPER_DUTIES; i++) {
        /* Of a quarter of an hour no picture shows more. */
        const struct brake_duty_watch watch = {command_keep_row, &run[i].history,
                                               i != BRAKE_PAPER_STOP};
        run[i].status = brake_duty_run(&hot, &run[i].duty, &watch, &run[i].result);
    }
    for (int i = 0; i < BRAKE_PAPER_DUTIES; i++) {
        const enum brake_status status = run[i].status;
        if (status != BRAKE_OK || run[i].history.short_of_memory) {
            snprintf(lacking, 600, "%s",
                     status != BRAKE_OK ? brake_status_message(status) : "memory is short");
            continue;
        }
        run[i].report = (struct brake_duty_report){
            paper->sheet,       o->load, &hot, &run[i].duty, &run[i].result, run[i].history.row,
            run[i].history.rows};
        paper->duty[i] = &run[i].report;
    }
}

/* ---- writing -------------------------------------------------------------------------------- */

static int write_paper(const struct options *o, const struct brake_paper *paper)
{
    char *const inputs[] = {o->file, o->before != NULL ? o->before : o->drive.log, o->drive.log,
                            NULL};
    FILE *stream = command_open_output(o->out, inputs);
    if (stream == NULL)
        return EXIT_REFUSED;
    if (o->text)
        brake_report_plain(paper, stream);
    else
        brake_report_html(paper, stream);
    return command_close_output(o->out, stream);
}

/* The paper is the report's own: it points to what is only here. */
static int report(const struct options *o, const struct brake_paper *given)
{
    struct run run[BRAKE_PAPER_DUTIES] = {0};
    char lacking[600] = "";
    struct brake_paper own = *given;
    const struct brake_paper *paper = &own;
    run_all(o, &own, run, lacking);
    const int status = write_paper(o, paper);
    for (int i = 0; i < BRAKE_PAPER_DUTIES; i++)
        free(run[i].history.row);
    return status != 0 ? status : brake_assessment_exit(paper->assessment);
}

/* The log of a drive, when there is one, then the report. */
static int with_drive(const struct options *o, const struct brake_paper *given)
{
    struct brake_log log;
    static struct brake_drive drive; /* it is large */
    if (o->drive.log == NULL)
        return report(o, given);
    int status = drive_take(&o->drive, given->sheet, &log, &drive);
    if (status != 0)
        return status;
    const struct brake_drive_report driven = {given->sheet, o->drive.load, &log, &drive};
    struct brake_paper paper = *given;
    paper.drive = &driven;
    paper.drive_file = o->drive.log;
    status = report(o, &paper);
    brake_log_free(&log);
    return status;
}

/* What the changes gave and took, when the vehicle before is known; then the rest. */
static int with_shares(const struct options *o, const struct brake_paper *given)
{
    static struct brake_comparison comparison; /* it is large */
    struct brake_paper paper = *given;
    if (given->before == NULL)
        return with_drive(o, given);
    brake_compare(given->before, given->sheet, o->rules, &comparison);
    double *room = malloc(brake_compare_room(&comparison) * sizeof *room);
    if (room == NULL)
        return command_short_of_memory();
    (void)brake_compare_share(&comparison, NULL, room);
    free(room);
    paper.comparison = &comparison;
    return with_drive(o, &paper);
}

int command_report(int count, char **words)
{
    (void)count;
    struct options o = {.rules = BRAKE_RULES_ALL,
                        .load = BRAKE_FULL,
                        .drive.load = BRAKE_EMPTY,
                        .set = {.option = "--set", .most = COMMAND_SETTINGS}};
    struct brake_sheet sheet;
    struct brake_sheet before;
    struct brake_assessment assessment;
    struct brake_assessment before_assessment;
    char date[40];
    struct brake_paper paper = {.sheet = &sheet, .assessment = &assessment, .date = date};
    int status = take_words(words, &o);
    if (status == 0)
        status = take_date(date);
    if (status == 0)
        status = command_read(o.file, &o.set, &sheet);
    if (status == 0 && o.before != NULL)
        status = command_read(o.before, NULL, &before);
    if (status != 0)
        return status;
    paper.file = o.file;
    brake_assess(&sheet, o.rules, &assessment);
    brake_assess_fade(&sheet, NULL, &assessment);
    if (o.before != NULL) {
        brake_assess(&before, o.rules, &before_assessment);
        brake_assess_fade(&before, NULL, &before_assessment);
        paper.before = &before;
        paper.before_assessment = &before_assessment;
        paper.before_file = o.before;
    }
    return with_shares(&o, &paper);
}
