#include "words.h"

#include <stdio.h>
#include <string.h>
#include "vehicle/text.h"

int words_keep(void *into, char *value)
{
    struct command_list *list = into;
    if (list->count == list->most)
        return command_misused("accepts up to %d times %s", list->most, list->option);
    list->word[list->count++] = value;
    return 0;
}

int words_take_text(void *into, char *value)
{
    *(char **)into = value;
    return 0;
}

int words_take_file(void *into, char *value)
{
    char **file = into;
    if (*file != NULL)
        return command_misused("one file at a time; got '%s' and '%s'", *file, value);
    *file = value;
    return 0;
}

int words_take_rules(void *into, char *value)
{
    static const struct {
        const char *word;
        unsigned rules;
    } known[] = {{"us", BRAKE_RULES_US},
                 {"un", BRAKE_RULES_UN},
                 {"eu", BRAKE_RULES_EU},
                 {"all", BRAKE_RULES_ALL}};
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        if (strcmp(value, known[i].word) == 0) {
            *(unsigned *)into = known[i].rules;
            return 0;
        }
    }
    return command_misused("--rules '%s'; accepts us, un, eu, all", value);
}

int words_take_load(void *into, char *value)
{
    for (int i = 0; i < BRAKE_LOADS; i++) {
        if (strcmp(value, brake_load_word((enum brake_load)i)) == 0) {
            *(enum brake_load *)into = (enum brake_load)i;
            return 0;
        }
    }
    return command_misused("--load '%s'; accepts empty, full", value);
}

static int refuse_option(const char *word, const struct words_option *option)
{
    char names[200] = "";
    size_t used = 0;
    for (; option->name != NULL && used < sizeof names; option++)
        used += (size_t)brake_text_format(names + used, sizeof names - used, "%s%s",
                                          used > 0 ? ", " : "", option->name);
    return command_misused("unknown option '%s'; accepts %s", word, names);
}

/* The value of an option: behind its equals sign, or the next word, which is then used up. NULL: the
 * word is not this option. */
static char *value_of(const char *option, char *word, char *next, int *at)
{
    const size_t length = strlen(option);
    if (strncmp(word, option, length) != 0)
        return NULL;
    if (word[length] == '=')
        return word + length + 1;
    if (word[length] != '\0')
        return NULL;
    *at += next != NULL;
    return next != NULL ? next : word + length;
}

static int take_word(char **words, int *at, const struct words_option *options)
{
    char *word = words[*at];
    const struct words_option *option = options;
    for (; option->name != NULL; option++) {
        char *value =
            option->take != NULL ? value_of(option->name, word, words[*at + 1], at) : NULL;
        if (value != NULL)
            return option->take(option->into, value);
        if (option->take == NULL && strcmp(word, option->name) == 0) {
            *(bool *)option->into = true;
            return 0;
        }
    }
    if (word[0] == '-' && word[1] != '\0')
        return refuse_option(word, options);
    return option->take(option->into, word);
}

int words_take(char **words, const struct words_option *options)
{
    int status = 0;
    for (int i = 1; words[i] != NULL && status == 0; i++)
        status = take_word(words, &i, options);
    return status;
}
