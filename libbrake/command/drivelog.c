/* SPDX-License-Identifier: MIT */
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

/* What an option of the day measures, and what it accepts. */
struct of_day {
    enum brake_dimension dimension;
    double low, high;
    const char *accepts;
};

/* "0.2 s +- 0.05 s"; without a half the number is exact. */
static int take_measured(struct brake_measured *into, const char *option, const char *text,
                         const struct of_day *of)
{
    const char *half = strstr(text, "+-");
    const size_t length = half != NULL ? (size_t)(half - text) : strlen(text);
    struct brake_error error;
    char value[64];
    brake_text_format(value, sizeof value, "%.*s", (int)(length < 63 ? length : 63), text);
    into->half = 0.0;
    if (brake_amount_read(option + 2, value, of->dimension, &into->value, &error) != BRAKE_OK ||
        (half != NULL &&
         brake_amount_read(option + 2, half + 2, of->dimension, &into->half, &error) != BRAKE_OK))
        return command_misused("%s: %s", option, error.text);
    if (!(into->value - into->half >= of->low && into->value + into->half <= of->high &&
          into->half >= 0.0))
        return command_misused("%s %s; accepts %s", option, text, of->accepts);
    return 0;
}

static int take_grade(void *into, const struct words_option *option, char *text)
{
    return take_measured(into, option->name, text,
                         &(struct of_day){BRAKE_RATIO, -0.3, 0.3, "-30 to 30 %"});
}

static int take_lag(void *into, const struct words_option *option, char *text)
{
    return take_measured(into, option->name, text,
                         &(struct of_day){BRAKE_TIME, 0.0, 1.0, "0 to 1 s"});
}

static int take_gauge(void *into, const struct words_option *option, char *text)
{
    return take_measured(into, option->name, text,
                         &(struct of_day){BRAKE_RATIO, 0.5, 2.0, "0.5 to 2"});
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
     "as it was driven (drive.load)"},
    {"--grade", "GRADE[+-HALF]", take_grade, offsetof(struct options, drive.day.grade),
     "of a road that the log gives no grade for, the way of the first stop, uphill positive "
     "(0 % +- 1 %)"},
    {"--lag", "TIME[+-HALF]", take_lag, offsetof(struct options, drive.day.lag),
     "of the speed behind the pedal (0.1 s +- 0.1 s)"},
    {"--gauge", "RATIO[+-HALF]", take_gauge, offsetof(struct options, drive.day.gauge),
     "true pedal force over what the log says (1 +- 0.02)"},
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

/* Agreement with the file is not enough: what the vehicle comes to is told too. */
static int judge(const struct options *o, const struct brake_sheet *sheet,
                 struct brake_drive_report *report)
{
    struct brake_assessment *assessment = brake_assessment_new();
    int status = 0;
    if (assessment == NULL || !brake_assess_cold(sheet, BRAKE_RULES_OWN, assessment)) {
        status = command_short_of_memory();
    } else {
        report->now = &assessment->ruling;
        status = print(o, report);
    }
    brake_assessment_free(assessment);
    return status;
}

static int run_drivelog(char **words)
{
    struct options o = {.drive = {.load = BRAKE_LOADS, .day = DRIVE_DAY_UNSAID},
                        .set = {.most = COMMAND_SETTINGS}};
    struct brake_sheet sheet;
    static struct drive_taken taken; /* it is large */
    int status = take_words(words, &o);
    if (status == 0)
        status = command_read(o.file, &o.set, &o.units, &sheet);
    if (status == 0)
        status = drive_take(&o.drive, &sheet, &taken);
    if (status != 0)
        return status;
    status = judge(&o, &sheet, &taken.report);
    brake_log_free(&taken.log);
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
