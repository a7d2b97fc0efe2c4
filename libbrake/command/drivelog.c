#include <stdio.h>
#include <string.h>

#include "drive.h"
#include "verbs.h"
#include "vehicle/text.h"

struct options {
    enum brake_systems units;
    char *file;
    struct drive_options drive;
    struct command_list set;
    bool json;
};

/* ---- words of the command line -------------------------------------------------------------- */

/* "80km/h,50km/h" */
static int take_nominal(void *into, const struct words_option *option, char *text)
{
    (void)option;
    struct brake_nominal *nominal = into;
    for (bool more = true; more;) {
        const size_t length = strcspn(text, ",");
        struct brake_error error;
        char one[64];
        if (nominal->count == BRAKE_DRIVE_SPEEDS)
            return command_misused("--nominal has more than %d speeds", BRAKE_DRIVE_SPEEDS);
        brake_text_format(one, sizeof one, "%.*s", (int)(length < 63 ? length : 63), text);
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

static int take_file(void *into, const struct words_option *option, char *word)
{
    struct options *o = into;
    (void)option;
    if (o->drive.log != NULL)
        return command_misused("drivelog wants one vehicle file and one log; got '%s' too", word);
    *(o->file == NULL ? &o->file : &o->drive.log) = word;
    return 0;
}

static const struct words_option options[] = {
    {"--columns", "NAME=UNIT,...", words_take_text, offsetof(struct options, drive.columns),
     "units that its header does not give, time=s,speed=mph"},
    {"--nominal", "SPEED,...", take_nominal, offsetof(struct options, drive.nominal),
     "speeds that distances are brought to, 80km/h,50km/h"},
    {"--load", "empty|full", words_take_load, offsetof(struct options, drive.load),
     "as it was driven (empty)"},
    {"--set", "PATH=VALUE", words_keep, offsetof(struct options, set), words_help_set},
    {"--units", "us|si|both", words_take_units, offsetof(struct options, units), words_help_units},
    {"--json", "", NULL, offsetof(struct options, json), words_help_json},
    {NULL, "FILE LOG.csv", take_file, 0,
     "the vehicle file, - is standard input; and the log: time [s],speed [km/h] and, best, "
     "pedal_force [N]"}};

static int take_words(char **words, struct options *o)
{
    const int status = words_take(words, options, o);
    if (status != 0)
        return status;
    return o->drive.log != NULL ? 0 : command_misused("drivelog wants a vehicle file and a log");
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
    const enum brake_format format = o->json ? BRAKE_AS_JSON : BRAKE_AS_TEXT;
    struct brake_document *d = command_document(o->units, format);
    if (d != NULL)
        brake_answer_drive(d, report);
    const int status = command_print(d, format, stdout);
    return status != 0 ? status : exit_of(report->drive->agreement);
}

static int run_drivelog(char **words)
{
    struct options o = {.drive.load = BRAKE_EMPTY, .set = {.most = COMMAND_SETTINGS}};
    struct brake_sheet sheet;
    struct brake_log log;
    static struct brake_drive drive; /* it is large */
    int status = take_words(words, &o);
    if (status == 0)
        status = command_read(o.file, &o.set, &o.units, &sheet);
    if (status == 0)
        status = drive_take(&o.drive, &sheet, &log, &drive);
    if (status != 0)
        return status;
    status = print(&o, &(struct brake_drive_report){&sheet, o.drive.load, &log, &drive});
    brake_log_free(&log);
    return status;
}

const struct words_verb verb_drivelog = {
    "drivelog",
    "",
    "measured stops against the prediction",
    "Reads the log of a drive, measures its stops by the published definitions, each figure with "
    "its interval, and holds them against the prediction.",
    "0 they agree; 1 less was measured; 3 more was, or it could not be said.",
    options,
    run_drivelog};
