#include "words.h"

struct options {
    char *file;
    struct command_list set;
    unsigned rules;
    bool json;
};

static int take_words(char **words, struct options *o)
{
    const struct words_option options[] = {{"--set", words_keep, &o->set},
                                           {"--rules", words_take_rules, &o->rules},
                                           {"--json", NULL, &o->json},
                                           {NULL, words_take_file, &o->file}};
    const int status = words_take(words, options);
    if (status != 0)
        return status;
    return o->file != NULL ? 0 : command_misused("check wants a vehicle file");
}

int command_check(int count, char **words)
{
    (void)count;
    struct options o = {.rules = BRAKE_RULES_ALL,
                        .set = {.option = "--set", .most = COMMAND_SETTINGS}};
    struct brake_sheet sheet;
    struct brake_assessment assessment;
    int status = take_words(words, &o);
    if (status == 0)
        status = command_read(o.file, &o.set, &sheet);
    if (status != 0)
        return status;
    brake_assess(&sheet, o.rules, &assessment);
    brake_assess_fade(&sheet, NULL, &assessment);
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    if (d != NULL)
        brake_answer_check(d, &sheet, &assessment);
    status = command_print(d, o.json ? BRAKE_AS_JSON : BRAKE_AS_TEXT, stdout);
    return status != 0 ? status : brake_assessment_exit(&assessment);
}
