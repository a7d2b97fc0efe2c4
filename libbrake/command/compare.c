/* SPDX-License-Identifier: MIT */
#include <stdlib.h>

#include "progress.h"
#include "verbs.h"

enum { FILES = 1 + BRAKE_KITS };

struct options {
    enum brake_systems units;
    char *file[FILES]; /* before, after, and others after */
    int files;
    unsigned rules;
    bool fade;
    bool json;
};

static int take_file(void *into, const struct words_option *option, char *word)
{
    struct options *o = into;
    (void)option;
    if (o->files == FILES)
        return command_misused("compare takes %d changed vehicles; got '%s' as one more",
                               BRAKE_KITS, word);
    o->file[o->files++] = word;
    return 0;
}

static const struct words_option options[] = {
    {"--rules", WORDS_RULES, words_take_rules, offsetof(struct options, rules), words_help_rules},
    {"--fade", "", NULL, offsetof(struct options, fade),
     "hot performance too; takes a minute or so (of several it is always there)"},
    {"--units", "us|si|both", words_take_units, offsetof(struct options, units), words_help_units},
    {"--json", "", NULL, offsetof(struct options, json), words_help_json},
    {NULL, "BEFORE NOW...", take_file, 0,
     "the vehicle file before the change and the one after, or several of those, up to six; one of "
     "them may be -, standard input"}};

static int take_words(char **words, struct options *o)
{
    const int status = words_take(words, options, o);
    if (status != 0)
        return status;
    return o->files >= 2 ? 0
                         : command_misused(
                               "compare wants two vehicle files, the one before and the one after");
}

/* ---- one changed vehicle --------------------------------------------------------------------- */

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
    struct brake_before before;
    const enum brake_status drawn = brake_before_of(comparison, &before);
    if (drawn != BRAKE_OK)
        return command_no_draw(drawn);
    struct brake_document *d = command_document(o->units, format);
    if (d != NULL)
        brake_answer_comparison(d, comparison, &before);
    const int status = command_print(d, format, stdout);
    return status != 0 ? status : brake_compare_exit(comparison, &before);
}

static int compare_one(struct options *o)
{
    struct brake_sheet sheet[2];
    struct brake_comparison comparison;
    int status = 0;
    for (int i = 0; i < 2 && status == 0; i++)
        status = command_read(o->file[i], NULL, i == 1 ? &o->units : NULL, &sheet[i]);
    if (status == 0)
        status = command_fit(command_name(o->file[0]), &sheet[1], &sheet[0]);
    if (status != 0)
        return status;
    brake_drive_carry(&sheet[0], &sheet[1]);
    brake_compare(&sheet[0], &sheet[1], o->rules, &comparison);
    if (o->fade)
        status = take_fade(&comparison);
    if (status == 0)
        status = put_words(&comparison);
    if (status == 0)
        status = share(&comparison);
    return status != 0 ? status : print(o, &comparison);
}

/* ---- several --------------------------------------------------------------------------------- */

/* A changed vehicle, what it was to it (a pull on its own tyres is carried), and what is said. */
struct changed {
    struct brake_sheet sheet;
    struct brake_sheet before;
    struct brake_before loss;
    struct brake_assessment assessment;
};

static int assess(const struct options *o, const char *file, const struct brake_sheet *before,
                  struct changed *c)
{
    c->before = *before;
    int status = command_read(file, NULL, NULL, &c->sheet);
    if (status == 0)
        status = command_fit(command_name(o->file[0]), &c->sheet, &c->before);
    if (status != 0)
        return status;
    brake_drive_carry(&c->before, &c->sheet);
    status = command_assess(&c->sheet, o->rules, &c->assessment);
    if (status == 0)
        status = command_look_back(&c->before, &c->sheet, &c->loss, &c->assessment);
    return status;
}

static int print_kits(const struct options *o, const struct brake_sheet *before,
                      const struct changed *changed, int kits)
{
    const enum brake_format format = o->json ? BRAKE_AS_JSON : BRAKE_AS_TEXT;
    struct brake_kit kit[BRAKE_KITS];
    int worst = 0;
    for (int i = 0; i < kits; i++) {
        const int status = brake_assessment_exit(&changed[i].assessment);
        kit[i] = (struct brake_kit){command_name(o->file[i + 1]), &changed[i].sheet,
                                    &changed[i].assessment};
        worst = worst == 1 || status == 1 ? 1 : worst > status ? worst : status;
    }
    struct brake_document *d = command_document(o->units, format);
    if (d != NULL)
        brake_answer_kits(d, before, kit, kits);
    const int status = command_print(d, format, stdout);
    return status != 0 ? status : worst;
}

static int compare_several(struct options *o)
{
    const int kits = o->files - 1;
    struct brake_sheet before;
    struct changed *changed = calloc((size_t)kits, sizeof *changed);
    if (changed == NULL)
        return command_short_of_memory();
    int status = command_read(o->file[0], NULL, &o->units, &before);
    for (int i = 0; i < kits && status == 0; i++)
        status = assess(o, o->file[i + 1], &before, &changed[i]);
    if (status == 0)
        status = print_kits(o, &before, changed, kits);
    free(changed);
    return status;
}

static int run_compare(char **words)
{
    struct options o = {.rules = BRAKE_RULES_OWN};
    const int status = take_words(words, &o);
    if (status != 0)
        return status;
    return o.files > 2 ? compare_several(&o) : compare_one(&o);
}

const struct words_verb verb_compare = {
    "compare",
    "",
    "what each change took or gave",
    "Holds the vehicle before and after side by side: whether the stopping torque per unit of need "
    "is regained, what each change took or gave of it, what was met before and falls short now, "
    "and of every margin the share of each group of changes. Several changed vehicles, candidate "
    "kits for the same one, are held side by side instead.",
    "0 the torque per need is regained by both axles together, and nothing that was met before "
    "falls short (of several: each of them meets all that counts); 1 not so; 3 it could not be "
    "said.",
    options,
    run_compare};
