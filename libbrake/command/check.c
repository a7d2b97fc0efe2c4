/* SPDX-License-Identifier: MIT */
#include "brake/repair.h"
#include "verbs.h"

struct options {
    enum brake_systems units;
    char *file;
    char *before;
    char *parts;
    struct command_list set;
    unsigned rules;
    bool full;
    bool json;
};

static const struct words_option options[] = {
    {"--before", "FILE", words_take_text, offsetof(struct options, before), words_help_before},
    {"--parts", "LIST.csv", words_take_text, offsetof(struct options, parts), words_help_parts},
    {"--set", "PATH=VALUE", words_keep, offsetof(struct options, set), words_help_set},
    {"--rules", WORDS_RULES, words_take_rules, offsetof(struct options, rules), words_help_rules},
    {"--units", "us|si|both", words_take_units, offsetof(struct options, units), words_help_units},
    {"--full", "", NULL, offsetof(struct options, full),
     "every requirement, warning and number, not the first screen"},
    {"--json", "", NULL, offsetof(struct options, json), words_help_json},
    {NULL, "FILE", words_take_file, offsetof(struct options, file), words_help_file}};

static int take_words(char **words, struct options *o)
{
    const int status = words_take(words, options, o);
    if (status != 0)
        return status;
    return o->file != NULL ? 0 : command_misused("check wants a vehicle file");
}

static int print(const struct options *o, const struct brake_sheet *sheet,
                 const struct brake_assessment *assessment)
{
    const enum brake_format format = o->json ? BRAKE_AS_JSON : BRAKE_AS_TEXT;
    struct brake_document *d = command_document(o->units, format);
    if (d != NULL && (o->full || o->json))
        brake_answer_check(d, sheet, assessment);
    else if (d != NULL)
        brake_answer_first_screen(d, sheet, assessment);
    const int status = command_print(d, format, stdout);
    return status != 0 ? status : brake_assessment_exit(assessment);
}

static int run_check(char **words)
{
    struct options o = {.rules = BRAKE_RULES_OWN, .set = {.most = COMMAND_SETTINGS}};
    struct brake_sheet sheet;
    static struct brake_sheet before; /* it is large */
    struct brake_assessment assessment = {.before = NULL};
    struct brake_before loss;
    struct brake_repair repair;
    bool told = false;
    int status = take_words(words, &o);
    if (status == 0)
        status = command_read(o.file, &o.set, &o.units, &sheet);
    if (status == 0 && o.parts != NULL)
        status = command_parts(o.parts, &sheet);
    if (status == 0 && o.set.count == 0)
        command_tell_page(o.file, &sheet);
    if (status == 0)
        status = command_before(o.before, o.file, &sheet, &before, &told);
    if (status == 0)
        status = command_assess(&sheet, o.rules, &assessment);
    if (status == 0 && told)
        status = command_look_back(&before, &sheet, &loss, &assessment);
    if (status == 0 && !brake_repair_find(&sheet, &assessment, &repair))
        status = command_short_of_memory();
    assessment.repair = &repair;
    return status == 0 ? print(&o, &sheet, &assessment) : status;
}

const struct words_verb verb_check = {
    "check",
    "",
    "verdict, limiting item, next measurement, numbers",
    "Holds the brakes against the published requirements: the verdict, the limiting item, the "
    "measurement that would help most, on one screen; with --full every requirement, the "
    "warnings, the numbers, the inputs left at default, and what only an inspector can judge. "
    "Where the lines for heat are there it runs a published fade procedure too.",
    "0 all hazards and all that binds are met; 1 one falls short; 3 none falls short, but "
    "something could not be said.",
    options,
    run_check};
