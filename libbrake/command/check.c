#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "command.h"

struct options {
    const char *file;
    char *setting[COMMAND_SETTINGS];
    int settings;
    unsigned rules;
    bool json;
};

/* The words end with NULL. */
static int take_words(char **words, struct options *o)
{
    for (int i = 1; words[i] != NULL; i++) {
        char *word = words[i];
        char *next = words[i + 1];
        char *setting = command_value_of("--set", word, next, &i);
        char *rules = command_value_of("--rules", word, next, &i);
        if (setting != NULL) {
            if (o->settings == COMMAND_SETTINGS)
                return command_misused("accepts up to %d times --set", COMMAND_SETTINGS);
            o->setting[o->settings++] = setting;
        } else if (rules != NULL) {
            const int status = command_take_rules(rules, &o->rules);
            if (status != 0)
                return status;
        } else if (strcmp(word, "--json") == 0) {
            o->json = true;
        } else if (word[0] == '-' && word[1] != '\0') {
            return command_misused("unknown option '%s'; accepts --set, --rules, --json", word);
        } else if (o->file != NULL) {
            return command_misused("one file at a time; got '%s' and '%s'", o->file, word);
        } else {
            o->file = word;
        }
    }
    return o->file != NULL ? 0 : command_misused("check wants a vehicle file");
}

static int print_json(const struct brake_sheet *sheet, const struct brake_assessment *assessment)
{
    char *text = brake_report_json(sheet, assessment, false);
    if (text == NULL) {
        fputs("stopmargin: memory is short\n", stderr);
        return EXIT_REFUSED;
    }
    puts(text);
    free(text);
    return 0;
}

int command_check(int count, char **words)
{
    (void)count;
    struct options o = {.rules = BRAKE_RULES_ALL};
    struct brake_sheet sheet;
    struct brake_assessment assessment;
    int status = take_words(words, &o);
    if (status == 0)
        status = command_read(o.file, o.setting, o.settings, &sheet);
    if (status != 0)
        return status;
    brake_assess(&sheet, o.rules, &assessment);
    brake_assess_fade(&sheet, NULL, &assessment);
    if (o.json)
        status = print_json(&sheet, &assessment);
    else
        brake_report_text(&sheet, &assessment, stdout);
    return status != 0 ? status : brake_assessment_exit(&assessment);
}
