#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "command.h"

struct options {
    const char *file[2]; /* before, after */
    int files;
    unsigned rules;
    bool json;
};

/* The words end with NULL. */
static int take_words(char **words, struct options *o)
{
    for (int i = 1; words[i] != NULL; i++) {
        char *word = words[i];
        char *rules = command_value_of("--rules", word, words[i + 1], &i);
        if (rules != NULL) {
            const int status = command_take_rules(rules, &o->rules);
            if (status != 0)
                return status;
        } else if (strcmp(word, "--json") == 0) {
            o->json = true;
        } else if (word[0] == '-' && word[1] != '\0') {
            return command_misused("unknown option '%s'; accepts --rules, --json", word);
        } else if (o->files == 2) {
            return command_misused("compare takes two files; got '%s' as a third", word);
        } else {
            o->file[o->files++] = word;
        }
    }
    return o->files == 2 ? 0
                         : command_misused(
                               "compare wants two vehicle files, the one before and the one after");
}

static int out_of_memory(void)
{
    fputs("stopmargin: memory is short\n", stderr);
    return EXIT_REFUSED;
}

static int print(const struct options *o, const struct brake_comparison *comparison)
{
    if (!o->json) {
        brake_report_comparison_text(comparison, stdout);
        return 0;
    }
    char *text = brake_report_comparison_json(comparison);
    if (text == NULL)
        return out_of_memory();
    puts(text);
    free(text);
    return 0;
}

int command_compare(int count, char **words)
{
    (void)count;
    struct options o = {.rules = BRAKE_RULES_ALL};
    struct brake_sheet sheet[2];
    struct brake_comparison comparison;
    int status = take_words(words, &o);
    for (int i = 0; i < 2 && status == 0; i++)
        status = command_read(o.file[i], NULL, 0, &sheet[i]);
    if (status != 0)
        return status;
    brake_compare(&sheet[0], &sheet[1], o.rules, &comparison);
    double *room = malloc(brake_compare_room(&comparison) * sizeof *room);
    if (room == NULL)
        return out_of_memory();
    (void)brake_compare_share(&comparison, NULL, room);
    free(room);
    status = print(&o, &comparison);
    return status != 0 ? status : brake_compare_exit(&comparison);
}
