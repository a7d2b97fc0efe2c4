/* SPDX-License-Identifier: MIT */
#include "verbs.h"
#include "answer/explain.h"
#include "study/assess.h"
#include "study/procedure.h"

struct options {
    enum brake_systems units;
    char *name;
    char *file;
    struct command_list set;
};

static int take_word(void *into, const struct words_option *option, char *word)
{
    struct options *o = into;
    if (o->name != NULL)
        return words_take_file(&o->file, option, word);
    o->name = word;
    return 0;
}

static const struct words_option options[] = {
    {"--set", "PATH=VALUE", words_keep, offsetof(struct options, set), words_help_set},
    {"--units", "us|si|both", words_take_units, offsetof(struct options, units), words_help_units},
    {NULL, "[NAME [FILE]]", take_word, 0,
     "a line, section, result, requirement, warning or verdict; left out: all of them, listed. "
     "With a vehicle file: its value there, and the lines that it depends on"}};

static int unknown(const struct brake_vehicle *vehicle, const char *name)
{
    char near[80];
    if (brake_catalogue_nearest(name) < 0 && brake_named_nearest(name, near, sizeof near))
        return command_misused("unknown name '%s'; did you mean %s?", name, near);
    return words_unknown_path("", vehicle, name);
}

static int explain(const struct options *o, const struct brake_explained_of *of)
{
    const struct brake_vehicle *vehicle = of != NULL ? &of->sheet->vehicle : NULL;
    const struct brake_named named = brake_named_find(vehicle, o->name);
    if (named.kind == BRAKE_NAMED_NOTHING || (named.index < 0 && vehicle != NULL))
        return unknown(vehicle, o->name);
    struct brake_document *d = command_document(o->units, BRAKE_AS_TEXT);
    if (d != NULL)
        brake_answer_explained(d, &named, of);
    return command_print(d, BRAKE_AS_TEXT, stdout);
}

/* Only a verdict is drawn; a line, a result and a warning are told as the file has them. A
 * requirement that is asked for by name is judged, whether it binds or not. */
static int assess(const char *name, const struct brake_sheet *sheet, struct brake_assessment *found)
{
    const struct brake_named named = brake_named_find(NULL, name);
    if (named.kind == BRAKE_NAMED_CRITERION)
        return command_assess(sheet, brake_book_of(brake_criterion_at(named.index))->rules, found);
    brake_assess(sheet, BRAKE_RULES_OWN, found);
    brake_assess_fade(sheet, NULL, found);
    return 0;
}

static int explain_in_file(struct options *o)
{
    struct brake_sheet sheet;
    struct brake_assessment assessment;
    int status = command_read(o->file, &o->set, &o->units, &sheet);
    if (status == 0)
        status = assess(o->name, &sheet, &assessment);
    if (status != 0)
        return status;
    return explain(o, &(struct brake_explained_of){&sheet, &assessment});
}

static int list_names(const struct options *o)
{
    struct brake_document *d = command_document(o->units, BRAKE_AS_TEXT);
    if (d != NULL)
        brake_answer_names(d);
    return command_print(d, BRAKE_AS_TEXT, stdout);
}

static int run_explain(char **words)
{
    struct options o = {.set = {.most = COMMAND_SETTINGS}};
    const int status = words_take(words, options, &o);
    if (status != 0)
        return status;
    if (o.name == NULL)
        return list_names(&o);
    return o.file != NULL ? explain_in_file(&o) : explain(&o, NULL);
}

const struct words_verb verb_explain = {
    "explain",
    "",
    "what a line, a result, a requirement or a word of an answer means",
    "Says what a line of the vehicle file means, its unit, range and default, how to measure it, "
    "and which error is the dangerous one; what a result or a warning means; what a requirement "
    "asks for, by which clause, and where its figure was read. With a vehicle file it tells the "
    "value there and the lines that it depends on, each with what a small step of it changes.",
    "0 it was explained.",
    options,
    run_explain};
