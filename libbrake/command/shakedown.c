/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "output.h"
#include "verbs.h"
#include "vehicle/text.h"

struct options {
    enum brake_systems units;
    char *file;
    char *output;
    struct command_list set;
    enum brake_load load;
    unsigned despite; /* bits of enum brake_obstacle */
    bool text;
    bool json;
};

/* "no-reserve,rear-first" */
static int take_despite(void *into, const struct words_option *option, char *text)
{
    unsigned *despite = into;
    for (bool more = true; more;) {
        const size_t length = strcspn(text, ",");
        const char *words;
        const char *word;
        unsigned bit;
        int i = 0;
        while ((word = brake_obstacle_at(i, &bit, &words)) != NULL &&
               !(strlen(word) == length && strncmp(word, text, length) == 0))
            i++;
        if (word == NULL)
            return command_misused("%s: got '%.*s'; accepts %s", option->name,
                                   (int)(length < 40 ? length : 40), text, option->value);
        *despite |= bit;
        more = text[length] == ',';
        text += length + (more ? 1 : 0);
    }
    return 0;
}

static const struct words_option options[] = {
    {"-o", "PLAN.html", words_take_text, offsetof(struct options, output),
     "where to (standard output)"},
    {"--load", "empty|full", words_take_load, offsetof(struct options, load),
     "as it will be driven (empty)"},
    {"--despite", "no-reserve,rear-first,one-circuit", take_despite,
     offsetof(struct options, despite),
     "plan it though the pedal has no reserve, the rear wheels lock first, or there is one "
     "circuit: "
     "each that is so must be said"},
    {"--set", "PATH=VALUE", words_keep, offsetof(struct options, set), words_help_set},
    {"--text", "", NULL, offsetof(struct options, text), "text instead of a page"},
    {"--units", "us|si|both", words_take_units, offsetof(struct options, units), words_help_units},
    {"--json", "", NULL, offsetof(struct options, json), words_help_json},
    {NULL, "FILE", words_take_file, offsetof(struct options, file), words_help_file}};

static int take_words(char **words, struct options *o)
{
    const int status = words_take(words, options, o);
    if (status != 0)
        return status;
    if (o->output != NULL && o->output[0] == '\0')
        return command_misused("-o wants a file; - is standard output");
    if (o->json && (o->text || o->output != NULL))
        return command_misused("--json goes to standard output, without -o and --text");
    return o->file != NULL ? 0 : command_misused("shakedown wants a vehicle file");
}

static int write_plan(const struct options *o, const struct brake_sheet *sheet,
                      const struct brake_assessment *assessment, const struct brake_shakedown *plan)
{
    const enum brake_format format = o->json   ? BRAKE_AS_JSON
                                     : o->text ? BRAKE_AS_TEXT
                                               : BRAKE_AS_HTML;
    char *const inputs[] = {o->file, NULL};
    struct brake_document *d = command_document(o->units, format);
    if (d != NULL)
        brake_answer_shakedown(d, sheet, assessment, plan);
    return command_write(d, format, o->output, inputs);
}

/* Tells what keeps the vehicle from being driven and was not said. Returns 0 or 1. */
static int refuse(const struct options *o, const struct brake_shakedown *plan)
{
    const char *words;
    const char *word;
    unsigned bit;
    int status = 0;
    for (int i = 0; (word = brake_obstacle_at(i, &bit, &words)) != NULL; i++) {
        if ((plan->obstacles & ~o->despite & bit) == 0)
            continue;
        command_tell("%s: do not drive it: %s. Whoever knows better says --despite %s\n",
                     command_name(o->file), words, word);
        status = 1;
    }
    return status;
}

static int run_shakedown(char **words)
{
    struct options o = {.load = BRAKE_EMPTY, .set = {.most = COMMAND_SETTINGS}};
    struct brake_sheet sheet;
    struct brake_assessment assessment = {.before = NULL};
    struct brake_shakedown plan;
    int status = take_words(words, &o);
    if (status == 0)
        status = command_read(o.file, &o.set, &o.units, &sheet);
    if (status == 0)
        status = command_assess(&sheet, BRAKE_RULES_OWN, &assessment);
    if (status != 0)
        return status;
    brake_shakedown_plan(&sheet, o.load, &assessment, &plan);
    status = refuse(&o, &plan);
    if (status == 0)
        status = write_plan(&o, &sheet, &assessment, &plan);
    if (status == 0 && plan.stages == 0) {
        command_tell("%s: the brakes of this file give no deceleration\n", command_name(o.file));
        status = 3;
    }
    return status;
}

const struct words_verb verb_shakedown = {
    "shakedown",
    "",
    "plan of the first drive, for print",
    "Plans the first drive: what falls short, checks at standstill and at walking pace, stages "
    "from "
    "slow and light to fast and hard with the pedal force, deceleration and distance to expect, "
    "where to break off and what then, bedding in as the brakes stand it, a log sheet. Where the "
    "pedal force is not known well enough it plans three measuring stops instead.",
    "0 there is a plan; 1 it must not be driven, in words; 3 the brakes give no deceleration.",
    options,
    run_shakedown};
