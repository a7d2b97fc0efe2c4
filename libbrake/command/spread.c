#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "progress.h"
#include "words.h"
#include "vehicle/text.h"

struct options {
    char *file;
    struct command_list set;
    struct command_list shape;
    unsigned rules;
    long samples;
    bool fade;
    bool json;
};

/* ---- words of the command line -------------------------------------------------------------- */

static int take_samples(void *into, char *word)
{
    long *samples = into;
    char *end;
    *samples = strtol(word, &end, 10); /* what overflows is out of range */
    if (end == word || *end != '\0' || brake_spread_wrong(*samples) != NULL)
        return command_misused("--samples '%s'; %s", word, brake_spread_wrong(0));
    return 0;
}

static int take_words(char **words, struct options *o)
{
    const struct words_option options[] = {{"--samples", take_samples, &o->samples},
                                           {"--shape", words_keep, &o->shape},
                                           {"--set", words_keep, &o->set},
                                           {"--rules", words_take_rules, &o->rules},
                                           {"--fade", NULL, &o->fade},
                                           {"--json", NULL, &o->json},
                                           {NULL, words_take_file, &o->file}};
    const int status = words_take(words, options);
    if (status != 0)
        return status;
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
    brake_text_format(path, sizeof path, "%.*s", (int)(equals - text), text);
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
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    if (d != NULL)
        brake_answer_spread(d, spread);
    const int status = command_print(d, o->json ? BRAKE_AS_JSON : BRAKE_AS_TEXT, stdout);
    return status != 0 ? status : brake_spread_exit(spread);
}

static int run(const struct options *o, const struct brake_sheet *sheet,
               const struct brake_spread_options *options)
{
    static struct brake_spread spread; /* it is large */
    const enum brake_status status = brake_spread_prepare(sheet, options, &spread);
    if (status != BRAKE_OK) {
        command_tell("%s: %s\n", o->file, brake_status_message(status));
        return EXIT_REFUSED;
    }
    void *room = malloc(brake_spread_room(&spread));
    if (room == NULL) {
        fputs("stopmargin: memory is short; fewer --samples take less\n", stderr);
        return EXIT_FAILED;
    }
    struct progress progress;
    const struct brake_watch watch = progress_begin_study(&progress, "samples", 0.0);
    const bool all = brake_spread_run(&spread, room, &watch);
    progress_end(&progress);
    const int exit = all ? print(o, &spread) : progress_stopped();
    free(room);
    return exit;
}

int command_spread(int count, char **words)
{
    (void)count;
    struct options o = {.rules = BRAKE_RULES_ALL,
                        .samples = 16384,
                        .set = {.option = "--set", .most = COMMAND_SETTINGS},
                        .shape = {.option = "--shape", .most = COMMAND_SETTINGS}};
    static struct brake_spread_options options;
    struct brake_sheet sheet;
    int status = take_words(words, &o);
    if (status == 0)
        status = command_read(o.file, &o.set, &sheet);
    options.rules = o.rules;
    options.samples = o.samples;
    options.seed = 1;
    options.faded = o.fade;
    for (int i = 0; i < o.shape.count && status == 0; i++)
        status = set_shape(&sheet, o.shape.word[i], options.shape);
    return status != 0 ? status : run(&o, &sheet, &options);
}
