#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "words.h"

struct options {
    char *file;
    char *log;
    struct command_list set;
    enum brake_load load;
    char *columns;
    struct brake_nominal nominal;
    bool json;
};

/* ---- words of the command line -------------------------------------------------------------- */

/* "80km/h,50km/h" */
static int take_nominal(void *into, char *text)
{
    struct brake_nominal *nominal = into;
    for (bool more = true; more;) {
        const size_t length = strcspn(text, ",");
        struct brake_error error;
        char one[64];
        if (nominal->count == BRAKE_DRIVE_SPEEDS)
            return command_misused("--nominal has more than %d speeds", BRAKE_DRIVE_SPEEDS);
        snprintf(one, sizeof one, "%.*s", (int)(length < 63 ? length : 63), text);
        double *speed = &nominal->speed[nominal->count++];
        if (brake_amount_read("speed", one, BRAKE_SPEED, speed, &error) != BRAKE_OK)
            return command_misused("--nominal: %s", error.text);
        if (!(*speed > 1.0 && *speed < 100.0))
            return command_misused("--nominal %s; accepts 3.6 to 360 km/h", one);
        more = text[length] == ',';
        text += length + (more ? 1 : 0);
    }
    return 0;
}

static int take_file(void *into, char *word)
{
    struct options *o = into;
    if (o->log != NULL)
        return command_misused("drivelog wants one vehicle file and one log; got '%s' too", word);
    *(o->file == NULL ? &o->file : &o->log) = word;
    return 0;
}

static int take_words(char **words, struct options *o)
{
    const struct words_option options[] = {{"--columns", words_take_text, &o->columns},
                                           {"--nominal", take_nominal, &o->nominal},
                                           {"--load", words_take_load, &o->load},
                                           {"--set", words_keep, &o->set},
                                           {"--json", NULL, &o->json},
                                           {NULL, take_file, o}};
    const int status = words_take(words, options);
    if (status != 0)
        return status;
    return o->log != NULL ? 0 : command_misused("drivelog wants a vehicle file and a log");
}

/* ---- the log -------------------------------------------------------------------------------- */

static int read_log(const struct options *o, struct brake_log *log)
{
    struct brake_error error;
    FILE *stream = fopen(o->log, "rb");
    if (stream == NULL) {
        fprintf(stderr, "%s: cannot be opened: %s\n", o->log, strerror(errno));
        return EXIT_REFUSED;
    }
    const enum brake_status status = brake_log_read(stream, o->columns, log, &error);
    fclose(stream);
    return status == BRAKE_OK ? 0 : command_refuse(o->log, &error);
}

/* The log's rows are too far apart, or too noisy, for any of its stops. */
static int refuse_coarse(const struct options *o, const struct brake_log *log,
                         const struct brake_drive *drive)
{
    int most = 0;
    double noise = 0.0;
    for (int i = 0; i < drive->stops; i++) {
        most = drive->stop[i].points > most ? drive->stop[i].points : most;
        noise = fmax(noise, drive->stop[i].noise);
    }
    const int line = log->row[drive->stop[0].first].line;
    if (most < BRAKE_STOP_POINTS)
        fprintf(stderr,
                "%s:%d: too coarse: one row every %.3g s leaves %d between 0.8 and 0.1 of the "
                "initial speed; %d are needed, so log %.1f times as often or more\n",
                o->log, line, drive->interval, most, BRAKE_STOP_POINTS,
                (double)BRAKE_STOP_POINTS / (most > 0 ? most : 1));
    else
        fprintf(stderr,
                "%s:%d: too coarse: with one row every %.3g s and a noise of %.2g km/h the "
                "deceleration is not known within 20 %%\n",
                o->log, line, drive->interval, 3.6 * noise);
    return EXIT_REFUSED;
}

static bool all_coarse(const struct brake_drive *drive)
{
    for (int i = 0; i < drive->stops; i++) {
        if (!(drive->stop[i].flags & BRAKE_STOP_COARSE))
            return false;
    }
    return drive->stops > 0;
}

static int measure(const struct options *o, const struct brake_log *log, struct brake_drive *drive)
{
    if (brake_drive_measure(log->row, log->rows, &o->nominal, drive) != BRAKE_OK) {
        fprintf(stderr,
                "%s: more than %d stops, or from more than %d nominal speeds; cut the log\n",
                o->log, BRAKE_DRIVE_STOPS, BRAKE_DRIVE_SPEEDS);
        return EXIT_REFUSED;
    }
    if (all_coarse(drive))
        return refuse_coarse(o, log, drive);
    if (drive->stops > 0)
        return 0;
    fprintf(stderr,
            "%s: no stop: the speed never falls from 18 km/h or more to rest at 1 m/s2 or more\n",
            o->log);
    return 3;
}

static int exit_of(enum brake_agreement agreement)
{
    switch (agreement) {
    case BRAKE_AGREES:
        return 0;
    case BRAKE_BELOW:
        return 1;
    case BRAKE_ABOVE:
    case BRAKE_NOT_SAID:
        break;
    }
    return 3;
}

static int print(const struct options *o, const struct brake_drive_report *report)
{
    int status = 0;
    if (o->json)
        status = command_print_json(brake_report_drive_json(report));
    else
        brake_report_drive_text(report, stdout);
    return status != 0 ? status : exit_of(report->drive->agreement);
}

int command_drivelog(int count, char **words)
{
    (void)count;
    struct options o = {.load = BRAKE_EMPTY, .set = {.option = "--set", .most = COMMAND_SETTINGS}};
    struct brake_sheet sheet;
    struct brake_log log;
    static struct brake_drive drive; /* it is large */
    int status = take_words(words, &o);
    if (status == 0)
        status = command_read(o.file, &o.set, &sheet);
    if (status == 0)
        status = read_log(&o, &log);
    if (status != 0)
        return status;
    status = measure(&o, &log, &drive);
    if (status == 0) {
        brake_drive_compare(&sheet, o.load, &drive);
        status = print(&o, &(struct brake_drive_report){&sheet, o.load, &log, &drive});
    }
    brake_log_free(&log);
    return status;
}
