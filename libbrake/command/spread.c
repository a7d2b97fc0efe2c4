#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "command.h"

enum { SHAPES = 64 /* most times --shape */ };

struct options {
    const char *file;
    char *setting[COMMAND_SETTINGS];
    int settings;
    const char *shape[SHAPES];
    int shapes;
    unsigned rules;
    long samples;
    bool json;
};

/* ---- words of the command line -------------------------------------------------------------- */

static int take_samples(const char *word, long *samples)
{
    char *end;
    *samples = strtol(word, &end, 10); /* what overflows is out of range */
    if (end == word || *end != '\0' || brake_spread_wrong(*samples) != NULL)
        return command_misused("--samples '%s'; %s", word, brake_spread_wrong(0));
    return 0;
}

static int take_setting(struct options *o, char *setting)
{
    if (o->settings == COMMAND_SETTINGS)
        return command_misused("accepts up to %d times --set", COMMAND_SETTINGS);
    o->setting[o->settings++] = setting;
    return 0;
}

static int take_shape(struct options *o, const char *shape)
{
    if (o->shapes == SHAPES)
        return command_misused("accepts up to %d times --shape", SHAPES);
    o->shape[o->shapes++] = shape;
    return 0;
}

static int take_other(struct options *o, char *word)
{
    if (strcmp(word, "--json") == 0)
        o->json = true;
    else if (word[0] == '-' && word[1] != '\0')
        return command_misused("unknown option '%s'; accepts --samples, --shape, --set, --rules, "
                               "--json",
                               word);
    else if (o->file != NULL)
        return command_misused("one file at a time; got '%s' and '%s'", o->file, word);
    else
        o->file = word;
    return 0;
}

static int take_word(char **words, int *at, struct options *o)
{
    char *word = words[*at];
    char *next = words[*at + 1];
    char *value = command_value_of("--samples", word, next, at);
    if (value != NULL)
        return take_samples(value, &o->samples);
    value = command_value_of("--shape", word, next, at);
    if (value != NULL)
        return take_shape(o, value);
    value = command_value_of("--set", word, next, at);
    if (value != NULL)
        return take_setting(o, value);
    value = command_value_of("--rules", word, next, at);
    return value != NULL ? command_take_rules(value, &o->rules) : take_other(o, word);
}

/* The words end with NULL. */
static int take_words(char **words, struct options *o)
{
    for (int i = 1; words[i] != NULL; i++) {
        const int status = take_word(words, &i, o);
        if (status != 0)
            return status;
    }
    return o->file != NULL ? 0 : command_misused("spread wants a vehicle file");
}

/* ---- shapes ---------------------------------------------------------------------------------- */

static int read_shape(const char *word, enum brake_shape *shape)
{
    for (int i = 0; i < BRAKE_SHAPES; i++) {
        if (strcmp(word, brake_shape_word((enum brake_shape)i)) == 0) {
            *shape = (enum brake_shape)i;
            return 0;
        }
    }
    return command_misused(
        "--shape '%s'; accepts normal, uniform, triangular, or PATH= one of them", word);
}

/* `uniform` or `front.disc.pads.mu=uniform`. */
static int set_shape(const struct brake_sheet *sheet, const char *text, enum brake_shape *shapes)
{
    const char *equals = strchr(text, '=');
    enum brake_shape shape = BRAKE_NORMAL;
    char path[160];
    if (read_shape(equals != NULL ? equals + 1 : text, &shape) != 0)
        return EXIT_REFUSED;
    if (equals == NULL) {
        for (int i = 0; i < BRAKE_ROWS; i++)
            shapes[i] = shape;
        return 0;
    }
    snprintf(path, sizeof path, "%.*s", (int)(equals - text), text);
    const int index = brake_catalogue_find(&sheet->vehicle, path);
    if (index < 0)
        return command_misused("--shape: unknown path '%s'; `stopmargin explain` lists all", path);
    if (!brake_record_moves(&sheet->record[index]))
        return command_misused("--shape: %s has no tolerance of its own", path);
    shapes[index] = shape;
    return 0;
}

/* ---- the run --------------------------------------------------------------------------------- */

static int print(const struct options *o, const struct brake_spread *spread)
{
    if (o->json) {
        char *text = brake_report_spread_json(spread);
        if (text == NULL) {
            fputs("stopmargin: memory is short\n", stderr);
            return EXIT_REFUSED;
        }
        puts(text);
        free(text);
    } else {
        brake_report_spread_text(spread, stdout);
    }
    return brake_spread_exit(spread);
}

static int run(const struct options *o, const struct brake_sheet *sheet,
               const struct brake_spread_options *options)
{
    static struct brake_spread spread; /* it is large */
    const enum brake_status status = brake_spread_prepare(sheet, options, &spread);
    if (status != BRAKE_OK) {
        fprintf(stderr, "%s: %s\n", o->file, brake_status_message(status));
        return EXIT_REFUSED;
    }
    void *room = malloc(brake_spread_room(&spread));
    if (room == NULL) {
        fputs("stopmargin: memory is short; fewer --samples take less\n", stderr);
        return EXIT_REFUSED;
    }
    brake_spread_run(&spread, room, NULL);
    const int exit = print(o, &spread);
    free(room);
    return exit;
}

int command_spread(int count, char **words)
{
    (void)count;
    static struct options o = {.rules = BRAKE_RULES_ALL, .samples = 16384};
    static struct brake_spread_options options;
    struct brake_sheet sheet;
    int status = take_words(words, &o);
    if (status == 0)
        status = command_read(o.file, o.setting, o.settings, &sheet);
    options.rules = o.rules;
    options.samples = o.samples;
    options.seed = 1;
    for (int i = 0; i < o.shapes && status == 0; i++)
        status = set_shape(&sheet, o.shape[i], options.shape);
    return status != 0 ? status : run(&o, &sheet, &options);
}
