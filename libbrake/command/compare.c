#include <stdlib.h>

#include "progress.h"
#include "verbs.h"

struct options {
    enum brake_systems units;
    char *file[2]; /* before, after */
    int files;
    unsigned rules;
    bool fade;
    bool json;
};

static int take_file(void *into, const struct words_option *option, char *word)
{
    struct options *o = into;
    (void)option;
    if (o->files == 2)
        return command_misused("compare takes two files; got '%s' as a third", word);
    o->file[o->files++] = word;
    return 0;
}

static const struct words_option options[] = {
    {"--rules", WORDS_RULES, words_take_rules, offsetof(struct options, rules), words_help_rules},
    {"--fade", "", NULL, offsetof(struct options, fade),
     "hot performance too; takes a minute or so"},
    {"--units", "us|si|both", words_take_units, offsetof(struct options, units), words_help_units},
    {"--json", "", NULL, offsetof(struct options, json), words_help_json},
    {NULL, "BEFORE AFTER", take_file, 0,
     "the vehicle file before the change and the one after; one of them may be -, standard input"}};

static int take_words(char **words, struct options *o)
{
    const int status = words_take(words, options, o);
    if (status != 0)
        return status;
    return o->files == 2 ? 0
                         : command_misused(
                               "compare wants two vehicle files, the one before and the one after");
}

static int take_fade(struct brake_comparison *comparison)
{
    struct progress progress;
    const struct brake_watch watch = progress_begin_study(&progress, "vehicles", 0.0);
    const bool all = brake_compare_fade(comparison, &watch);
    progress_end(&progress);
    return all ? 0 : progress_stopped();
}

static int share(struct brake_comparison *comparison)
{
    struct progress progress;
    const struct brake_watch watch = progress_begin_study(&progress, "mixtures", 0.0);
    double *room = malloc(brake_compare_room(comparison) * sizeof *room);
    if (room == NULL)
        return command_short_of_memory();
    const bool all = brake_compare_share(comparison, &watch, room);
    progress_end(&progress);
    free(room);
    return all ? 0 : progress_stopped();
}

static int put_words(struct brake_comparison *comparison)
{
    struct progress progress;
    const struct brake_watch watch = progress_begin_study(&progress, "samples", 0.0);
    struct brake_conformance_room *room = brake_conformance_room_new();
    if (room == NULL)
        return command_short_of_memory();
    const bool all = brake_compare_conformance(comparison, &watch, room);
    progress_end(&progress);
    brake_conformance_room_free(room);
    return all ? 0 : progress_stopped();
}

static int print(const struct options *o, const struct brake_comparison *comparison)
{
    const enum brake_format format = o->json ? BRAKE_AS_JSON : BRAKE_AS_TEXT;
    struct brake_document *d = command_document(o->units, format);
    if (d != NULL)
        brake_answer_comparison(d, comparison);
    return command_print(d, format, stdout);
}

static int run_compare(char **words)
{
    struct options o = {.rules = BRAKE_RULES_OWN};
    struct brake_sheet sheet[2];
    struct brake_comparison comparison;
    int status = take_words(words, &o);
    for (int i = 0; i < 2 && status == 0; i++)
        status = command_read(o.file[i], NULL, i == 1 ? &o.units : NULL, &sheet[i]);
    if (status == 0)
        status = command_fit(command_name(o.file[0]), &sheet[1], &sheet[0]);
    if (status != 0)
        return status;
    brake_compare(&sheet[0], &sheet[1], o.rules, &comparison);
    if (o.fade)
        status = take_fade(&comparison);
    if (status == 0)
        status = put_words(&comparison);
    if (status == 0)
        status = share(&comparison);
    if (status == 0)
        status = print(&o, &comparison);
    return status != 0 ? status : brake_compare_exit(&comparison);
}

const struct words_verb verb_compare = {
    "compare",
    "",
    "what each change took or gave",
    "Holds the vehicle before and after side by side: whether the stopping torque per unit of need "
    "is regained, which change took most and which gave most, what was met before and falls short "
    "now, and of every margin the share of each group of changes.",
    "0 the torque per need is regained by both axles together, and nothing that was met before "
    "falls short; 1 not so; 3 it could not be said.",
    options,
    run_compare};
