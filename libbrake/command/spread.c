/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "progress.h"
#include "verbs.h"
#include "vehicle/text.h"

struct options {
    enum brake_systems units;
    char *file;
    struct command_list set;
    struct command_list shape;
    enum brake_shape shapes[COMMAND_SETTINGS]; /* that they name */
    unsigned rules;
    long samples;
    bool fade;
    bool json;
};

/* ---- words of the command line -------------------------------------------------------------- */

static int take_samples(void *into, const struct words_option *option, char *word)
{
    (void)option;
    long *samples = into;
    char *end;
    *samples = strtol(word, &end, 10); /* what overflows is out of range */
    if (end == word || *end != '\0' || brake_spread_wrong(*samples) != NULL)
        return command_misused("--samples '%s'; %s", word, brake_spread_wrong(0));
    return 0;
}

static int take_shape(void *into, const struct words_option *option, char *text)
{
    struct options *o = into;
    const char *equals = strchr(text, '=');
    int shape;
    int status = words_keep(&o->shape, option, text);
    if (status == 0)
        status = words_choose(option, equals != NULL ? equals + 1 : text, &shape);
    if (status == 0)
        o->shapes[o->shape.count - 1] = (enum brake_shape)shape;
    return status;
}

static const struct words_option options[] = {
    {"--samples", "N", take_samples, offsetof(struct options, samples),
     "1024 to 262144, a power of two (16384)"},
    {"--shape", "normal|uniform|triangular", take_shape, 0,
     "of every tolerance (normal), or PATH=SHAPE of one; 95 of 100 lie within the tolerance in "
     "each; may be repeated"},
    {"--fade", "", NULL, offsetof(struct options, fade), "hot performance too; takes a minute"},
    {"--set", "PATH=VALUE", words_keep, offsetof(struct options, set), words_help_set},
    {"--rules", WORDS_RULES, words_take_rules, offsetof(struct options, rules), words_help_rules},
    {"--units", "us|si|both", words_take_units, offsetof(struct options, units), words_help_units},
    {"--json", "", NULL, offsetof(struct options, json), words_help_json},
    {NULL, "FILE", words_take_file, offsetof(struct options, file), words_help_file}};

static int take_words(char **words, struct options *o)
{
    const int status = words_take(words, options, o);
    if (status != 0)
        return status;
    return o->file != NULL ? 0 : command_misused("spread wants a vehicle file");
}

/* ---- shapes ---------------------------------------------------------------------------------- */

/* `uniform` or `front.disc.pads.mu=uniform`. */
static int set_shape(const struct brake_sheet *sheet, const char *text, enum brake_shape shape,
                     enum brake_shape *shapes)
{
    const char *equals = strchr(text, '=');
    char path[160];
    if (equals == NULL) {
        for (int i = 0; i < BRAKE_ROWS; i++)
            shapes[i] = shape;
        return 0;
    }
    brake_text_format(path, sizeof path, "%.*s", (int)(equals - text), text);
    const int index = brake_catalogue_find(&sheet->vehicle, path);
    if (index < 0)
        return words_unknown_path("--shape: ", &sheet->vehicle, path);
    if (!brake_record_moves(&sheet->record[index]))
        return command_misused("--shape: %s has no tolerance of its own", path);
    shapes[index] = shape;
    return 0;
}

/* ---- the run --------------------------------------------------------------------------------- */

static int print(const struct options *o, const struct brake_spread *spread)
{
    const enum brake_format format = o->json ? BRAKE_AS_JSON : BRAKE_AS_TEXT;
    struct brake_document *d = command_document(o->units, format);
    if (d != NULL)
        brake_answer_spread(d, spread);
    const int status = command_print(d, format, stdout);
    return status != 0 ? status : brake_spread_exit(spread);
}

static int run(const struct options *o, const struct brake_sheet *sheet,
               const struct brake_spread_options *asked)
{
    enum brake_status status;
    struct brake_spread *spread = brake_spread_new(sheet, asked, &status);
    if (status == BRAKE_E_MEMORY) {
        fputs("stopmargin: memory is short; fewer --samples take less\n", stderr);
        return EXIT_FAILED;
    }
    if (spread == NULL) {
        command_tell("%s: %s\n", command_name(o->file), brake_status_message(status));
        return EXIT_REFUSED;
    }
    struct progress progress;
    const struct brake_watch watch = progress_begin_study(&progress, "samples", 0.0);
    const bool all = brake_spread_draw(spread, &watch);
    progress_end(&progress);
    const int exit = all ? print(o, spread) : progress_stopped();
    brake_spread_free(spread);
    return exit;
}

static int run_spread(char **words)
{
    struct options o = {.rules = BRAKE_RULES_OWN,
                        .samples = 16384,
                        .set = {.most = COMMAND_SETTINGS},
                        .shape = {.most = COMMAND_SETTINGS}};
    static struct brake_spread_options asked;
    struct brake_sheet sheet;
    int status = take_words(words, &o);
    if (status == 0)
        status = command_read(o.file, &o.set, &o.units, &sheet);
    asked.rules = o.rules;
    asked.samples = o.samples;
    asked.seed = 1;
    asked.faded = o.fade;
    for (int i = 0; i < o.shape.count && status == 0; i++)
        status = set_shape(&sheet, o.shape.word[i], o.shapes[i], asked.shape);
    return status != 0 ? status : run(&o, &sheet, &asked);
}

const struct words_verb verb_spread = {
    "spread",
    "",
    "how sure the verdict is, and what decides it",
    "Draws all tolerances at once, many times over, and says how often each requirement is met, "
    "the percentiles of each margin, and where its uncertainty comes from. The same bytes each "
    "time.",
    "0, 1 and 3 as of check; a requirement falls short when fewer than 95 of 100 samples meet it.",
    options,
    run_spread};
