/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cooldown.h"
#include "progress.h"
#include "verbs.h"
#include "vehicle/text.h"

enum { FIELDS = 5 };

struct options {
    enum brake_systems units;
    char *file;
    struct command_list set;
    enum brake_load load;
    const char *kind; /* the option that gave the duty */
    char *duty;       /* its value */
    char *columns;    /* units that the head of a drive does not give; NULL: none */
    char *cool;
    bool json;
    bool csv;
};

/* ---- numbers of an option ------------------------------------------------------------------- */

/* A number of an option: what it is called, what it measures, where it goes. */
struct field {
    const char *name;
    enum brake_dimension dimension;
    double *value;
};

/* Numbers with their units between commas; those past the first `needed` may be left out. */
static int take_fields(const char *option, const char *text, const struct field *field, int needed,
                       int most)
{
    struct brake_error error;
    int count = 0;
    for (bool more = true; more; count++) {
        const size_t length = strcspn(text, ",");
        char one[64];
        if (count == most)
            return command_misused("%s has more than %d values", option, most);
        brake_text_format(one, sizeof one, "%.*s", (int)(length < 63 ? length : 63), text);
        if (brake_amount_read(field[count].name, one, field[count].dimension, field[count].value,
                              &error) != BRAKE_OK)
            return command_refuse_value(option, &error);
        more = text[length] == ',';
        text += length + (more ? 1 : 0);
    }
    if (count < needed)
        return command_misused("%s lacks its %s", option, field[count].name);
    return 0;
}

/* ---- the duties ----------------------------------------------------------------------------- */

static int take_stop(const char *text, struct brake_duty *duty)
{
    double force = BRAKE_NAN;
    const struct field fields[] = {{"speed", BRAKE_SPEED, &duty->stops.from},
                                   {"pedal force", BRAKE_FORCE, &force}};
    const int status = take_fields("--stop", text, fields, 1, 2);
    duty->stops.count = 1;
    duty->stops.manner = isnan(force) ? BRAKE_AT_INCIPIENT_LOCK : BRAKE_HOLDS_FORCE;
    if (!isnan(force))
        duty->force = force;
    return status;
}

static int take_snubs(const char *text, const struct brake_vehicle *vehicle,
                      struct brake_duty *duty)
{
    struct brake_stops *stops = &duty->stops;
    double count = 0.0;
    const struct field fields[] = {{"count", BRAKE_RATIO, &count},
                                   {"first speed", BRAKE_SPEED, &stops->from},
                                   {"second speed", BRAKE_SPEED, &stops->to},
                                   {"interval", BRAKE_TIME, &stops->interval},
                                   {"deceleration", BRAKE_ACCELERATION, &stops->deceleration}};
    const struct brake_fade_sequence *sequence = brake_fade_sequence_find(text);
    if (sequence != NULL) {
        *stops = brake_fade_stops(sequence, vehicle->general.top_speed);
        return 0;
    }
    const int status = take_fields("--snubs", text, fields, FIELDS, FIELDS);
    if (status != 0)
        return status;
    if (!(count >= 1.0 && count <= 1e5) || count != floor(count))
        return command_misused("--snubs: count: got %g; accepts whole numbers from 1 to 100000",
                               count);
    stops->count = (int)count;
    stops->manner = BRAKE_HOLDS_DECELERATION;
    return 0;
}

static int take_descent(const char *text, struct brake_duty *duty)
{
    struct brake_descent *descent = &duty->descent;
    const struct field fields[] = {{"fall", BRAKE_RATIO, &descent->fall},
                                   {"length", BRAKE_LENGTH, &descent->length},
                                   {"speed", BRAKE_SPEED, &descent->speed},
                                   {"share of the engine", BRAKE_RATIO, &descent->engine}};
    duty->kind = BRAKE_DUTY_DESCENT;
    return take_fields("--descent", text, fields, 3, 4);
}

static int take_cycle(const struct options *o, struct brake_duty *duty,
                      struct brake_written_drive *drive)
{
    struct brake_error error;
    FILE *stream;
    const int opened = command_open(o->duty, &stream);
    if (opened != 0)
        return opened;
    const enum brake_status status = brake_written_drive_read(stream, o->columns, drive, &error);
    command_close(stream);
    if (status != BRAKE_OK)
        return command_refuse(command_name(o->duty), &error);
    duty->kind = BRAKE_DUTY_CYCLE;
    duty->cycle = (struct brake_cycle){drive->point, drive->points};
    return 0;
}

static int take_duty(const struct options *o, const struct brake_vehicle *vehicle,
                     struct brake_duty *duty, struct brake_written_drive *drive)
{
    const struct field cool[] = {{"time", BRAKE_TIME, &duty->rest},
                                 {"speed", BRAKE_SPEED, &duty->rest_speed}};
    int status = 0;
    duty->force = vehicle->driver.pedal_force_most;
    duty->rest = strcmp(o->kind, "--stop") == 0 ? 0.0 : BRAKE_PARKED;
    if (strcmp(o->kind, "--stop") == 0)
        status = take_stop(o->duty, duty);
    else if (strcmp(o->kind, "--snubs") == 0)
        status = take_snubs(o->duty, vehicle, duty);
    else if (strcmp(o->kind, "--descent") == 0)
        status = take_descent(o->duty, duty);
    else
        status = take_cycle(o, duty, drive);
    if (status == 0 && o->cool != NULL)
        status = take_fields("--cool", o->cool, cool, 1, 2);
    if (status == 0 && brake_duty_wrong(duty) != NULL)
        status = command_misused("%s %s: %s", o->kind, o->duty, brake_duty_wrong(duty));
    return status;
}

/* ---- words of the command line -------------------------------------------------------------- */

static int take_kind(void *into, const struct words_option *option, char *value)
{
    struct options *o = into;
    if (o->kind != NULL)
        return command_misused("one duty at a time; got %s and %s", o->kind, option->name);
    o->kind = option->name;
    o->duty = value;
    return 0;
}

static const struct words_option options[] = {
    {"--stop", "SPEED[,FORCE]", take_kind, 0,
     "the hardest stop, 100km/h, or one at a pedal force, 100km/h,300N"},
    {"--snubs", "COUNT,FROM,TO,INTERVAL,DECELERATION", take_kind, 0,
     "a string of them, 15,120km/h,60km/h,45s,3m/s2, or a published sequence: us.135.fade, "
     "un.13h.fade, un.13.fade, au.sa.fade"},
    {"--descent", "FALL,LENGTH,SPEED[,ENGINE]", take_kind, 0,
     "8%,6km,50km/h; the share that the engine holds: 30%"},
    {"--cycle", "DRIVE.csv", take_kind, 0, "a drive in time: time [s],speed [km/h],grade [%]"},
    {"--cooldown", "LOG.csv", take_kind, 0,
     "what a log of the brakes as they cool tells of heat.cooling: time [s],speed [km/h],"
     "front_temperature [degC], or rear_temperature, or both; brakes off; heat.ambient the air of "
     "that day"},
    {"--columns", "NAME=UNIT,...", words_take_text, offsetof(struct options, columns),
     "units that the heads of the table do not give: time=s,speed=mph"},
    {"--cool", "TIME[,SPEED]", words_take_text, offsetof(struct options, cool),
     "afterwards (30min standing; nothing after a stop)"},
    {"--load", "empty|full", words_take_load, offsetof(struct options, load), "load case (full)"},
    {"--set", "PATH=VALUE", words_keep, offsetof(struct options, set), words_help_set},
    {"--units", "us|si|both", words_take_units, offsetof(struct options, units), words_help_units},
    {"--json", "", NULL, offsetof(struct options, json), words_help_json},
    {"--csv", "", NULL, offsetof(struct options, csv), "the history, a row a moment"},
    {NULL, "FILE", words_take_file, offsetof(struct options, file), words_help_file}};

static bool measured(const struct options *o)
{
    return strcmp(o->kind, "--cooldown") == 0;
}

static int take_words(char **words, struct options *o)
{
    const int status = words_take(words, options, o);
    if (status != 0)
        return status;
    if (o->file == NULL)
        return command_misused("heat wants a vehicle file");
    if (o->kind == NULL)
        return command_misused("heat wants --stop, --snubs, --descent, --cycle or --cooldown");
    if (o->columns != NULL && strcmp(o->kind, "--cycle") != 0 && !measured(o))
        return command_misused("--columns is for the table of --cycle or --cooldown");
    if (measured(o) && (o->cool != NULL || o->csv))
        return command_misused("--cooldown goes without --cool and --csv");
    if (o->json && o->csv)
        return command_misused("one of --json and --csv");
    return 0;
}

/* ---- the run -------------------------------------------------------------------------------- */

static int print(const struct options *o, const struct brake_duty_report *report)
{
    const enum brake_format format = o->csv    ? BRAKE_AS_CSV
                                     : o->json ? BRAKE_AS_JSON
                                               : BRAKE_AS_TEXT;
    struct brake_document *d = command_document(o->units, format);
    if (d != NULL && o->csv)
        brake_answer_history(d, report);
    else if (d != NULL)
        brake_answer_heat(d, report);
    const int status = command_print(d, format, stdout);
    return status != 0 ? status : brake_duty_stood(report->result) ? 0 : 1;
}

/* The chart of a long duty shows no more than the ends of its slices, of 30 s at most. */
static const double LONG = 600.0; /* [s] */

/* Who keeps the rows also tells how far the duty is. */
struct onlooker {
    struct brake_history history;
    struct brake_watch watch;
    double planned; /* [s] */
};

static void see_row(void *context, const struct brake_duty_row *row)
{
    struct onlooker *onlooker = context;
    brake_history_keep(&onlooker->history, row);
    onlooker->watch.progress(onlooker->watch.context, row->time, onlooker->planned);
}

static int run(const struct options *o, const struct brake_sheet *sheet,
               const struct brake_duty *duty, const struct brake_written_drive *drive)
{
    static struct brake_hot_rig hot; /* it is large */
    struct brake_error error;
    struct brake_duty_result result = {0};
    struct progress progress;
    struct onlooker onlooker = {
        {NULL, 0, false}, progress_begin(&progress, "s", 0.0), brake_duty_planned(duty)};
    const struct brake_history *history = &onlooker.history;
    const struct brake_duty_watch watch = {
        .row = see_row, .context = &onlooker, .coarse = !o->csv && onlooker.planned >= LONG};
    enum brake_status status = brake_hot_rig_build(&sheet->vehicle, o->load, &hot, &error);
    if (status != BRAKE_OK) {
        command_tell("%s: %s: %s\n", command_name(o->file), error.field, error.text);
        return status == BRAKE_E_MISSING ? 3 : EXIT_REFUSED;
    }
    status = brake_duty_run(&hot, duty, &watch, &result);
    progress_end(&progress);
    int exit = EXIT_REFUSED;
    if (status != BRAKE_OK)
        command_tell("%s: heat cannot be said: %s\n", command_name(o->file),
                     brake_status_message(status));
    else if (history->short_of_memory)
        exit = command_short_of_memory();
    else
        exit = print(o, &(struct brake_duty_report){sheet, o->load, &hot, duty, &result,
                                                    history->row, history->rows, drive});
    free(history->row);
    return status != BRAKE_OK ? 3 : exit;
}

static int run_heat(char **words)
{
    struct options o = {.load = BRAKE_FULL, .set = {.most = COMMAND_SETTINGS}};
    struct brake_sheet sheet;
    struct brake_duty duty = {.kind = BRAKE_DUTY_STOPS};
    struct brake_written_drive drive = {.points = 0};
    int status = take_words(words, &o);
    if (status == 0)
        status = command_read(o.file, &o.set, &o.units, &sheet);
    if (status == 0 && measured(&o))
        return cooldown_run(&(struct cooldown_options){o.file, o.duty, o.columns, o.units, o.json},
                            &sheet);
    if (status == 0)
        status = take_duty(&o, &sheet.vehicle, &duty, &drive);
    if (status == 0)
        status = run(&o, &sheet, &duty, &drive);
    brake_written_drive_free(&drive);
    return status;
}

const struct words_verb verb_heat = {
    "heat",
    "--stop|--snubs|--descent|--cycle|--cooldown VALUE",
    "how hot the brakes get: fade, boiling",
    "Runs the brakes through one duty, a stop, a string of snubs, a descent or a drive in time, "
    "friction following temperature: how hot faces, rotors, pads and fluid get, how far the fluid "
    "stays below its wet boiling point, how pedal force rises by fade.",
    "0 what the driver asks for is held and the fluid does not boil, or a log of a cool-down "
    "tells; "
    "1 not so; 3 a line that heat needs is left out, or it could not be said.",
    options,
    run_heat};
