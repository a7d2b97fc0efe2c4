#include <stdio.h>
#include <string.h>

#include "drive.h"
#include "words.h"
#include "vehicle/text.h"

struct options {
    char *file;
    struct drive_options drive;
    struct command_list set;
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

static int take_file(void *into, char *word)
{
    struct options *o = into;
    if (o->drive.log != NULL)
        return command_misused("drivelog wants one vehicle file and one log; got '%s' too", word);
    *(o->file == NULL ? &o->file : &o->drive.log) = word;
    return 0;
}

static int take_words(char **words, struct options *o)
{
    const struct words_option options[] = {{"--columns", words_take_text, &o->drive.columns},
                                           {"--nominal", take_nominal, &o->drive.nominal},
                                           {"--load", words_take_load, &o->drive.load},
                                           {"--set", words_keep, &o->set},
                                           {"--json", NULL, &o->json},
                                           {NULL, take_file, o}};
    const int status = words_take(words, options);
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
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    if (d != NULL)
        brake_answer_drive(d, report);
    const int status = command_print(d, o->json ? BRAKE_AS_JSON : BRAKE_AS_TEXT, stdout);
    return status != 0 ? status : exit_of(report->drive->agreement);
}

int command_drivelog(int count, char **words)
{
    (void)count;
    struct options o = {.drive.load = BRAKE_EMPTY,
                        .set = {.option = "--set", .most = COMMAND_SETTINGS}};
    struct brake_sheet sheet;
    struct brake_log log;
    static struct brake_drive drive; /* it is large */
    int status = take_words(words, &o);
    if (status == 0)
        status = command_read(o.file, &o.set, &sheet);
    if (status == 0)
        status = drive_take(&o.drive, &sheet, &log, &drive);
    if (status != 0)
        return status;
    status = print(&o, &(struct brake_drive_report){&sheet, o.drive.load, &log, &drive});
    brake_log_free(&log);
    return status;
}
