#include <stdlib.h>

#include "progress.h"
#include "words.h"

struct options {
    char *file[2]; /* before, after */
    int files;
    unsigned rules;
    bool fade;
    bool json;
};

static int take_file(void *into, char *word)
{
    struct options *o = into;
    if (o->files == 2)
        return command_misused("compare takes two files; got '%s' as a third", word);
    o->file[o->files++] = word;
    return 0;
}

static int take_words(char **words, struct options *o)
{
    const struct words_option options[] = {{"--rules", words_take_rules, &o->rules},
                                           {"--fade", NULL, &o->fade},
                                           {"--json", NULL, &o->json},
                                           {NULL, take_file, o}};
    const int status = words_take(words, options);
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

static int print(const struct options *o, const struct brake_comparison *comparison)
{
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    if (d != NULL)
        brake_answer_comparison(d, comparison);
    return command_print(d, o->json ? BRAKE_AS_JSON : BRAKE_AS_TEXT, stdout);
}

int command_compare(int count, char **words)
{
    (void)count;
    struct options o = {.rules = BRAKE_RULES_ALL};
    struct brake_sheet sheet[2];
    struct brake_comparison comparison;
    int status = take_words(words, &o);
    for (int i = 0; i < 2 && status == 0; i++)
        status = command_read(o.file[i], NULL, &sheet[i]);
    if (status != 0)
        return status;
    brake_compare(&sheet[0], &sheet[1], o.rules, &comparison);
    if (o.fade)
        status = take_fade(&comparison);
    if (status == 0)
        status = share(&comparison);
    if (status == 0)
        status = print(&o, &comparison);
    return status != 0 ? status : brake_compare_exit(&comparison);
}
