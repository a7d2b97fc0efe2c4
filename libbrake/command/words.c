/* SPDX-License-Identifier: MIT */
#include "words.h"

#include <stdio.h>
#include <string.h>
#include "vehicle/text.h"

const char words_help_file[] = "the vehicle file; - is standard input";
const char words_help_set[] = "change a line for this run; may be repeated";
const char words_help_rules[] =
    "requirements to judge by: those of the vehicle, or families by name (own)";
const char words_help_units[] =
    "units of what people read: one trade, or both, that of the file first (both)";
const char words_help_before[] = "the vehicle before it was changed (vehicle.before)";
const char words_help_parts[] =
    "sizes in which you can have parts (vehicle.parts): CSV, 'part,size', 'master.bore,7/8 in'";
const char words_help_json[] = "one JSON object in SI units";

const struct words_option *words_operand(const struct words_option *option)
{
    while (option->name != NULL)
        option++;
    return option;
}

/* ---- what was not meant --------------------------------------------------------------------- */

struct words_known words_known_to(const char *word)
{
    return (struct words_known){.nearest = brake_nearest_to(word + strspn(word, "-"))};
}

void words_known_add(struct words_known *known, const char *accepted)
{
    const size_t used = strlen(known->list);
    if (brake_nearest_is(&known->nearest, accepted + strspn(accepted, "-")))
        brake_text_format(known->near, sizeof known->near, "%s", accepted);
    brake_text_format(known->list + used, sizeof known->list - used, "%s%s", used > 0 ? ", " : "",
                      accepted);
}

int words_unknown(const char *what, const char *word, const struct words_known *known)
{
    const bool near = known->near[0] != '\0';
    return command_misused("%s '%s'; %s%s%s %s", what, word, near ? "did you mean " : "",
                           known->near, near ? "? It accepts" : "accepts", known->list);
}

int words_unknown_path(const char *option, const struct brake_vehicle *vehicle, const char *path)
{
    char hint[BRAKE_HINT_BYTES];
    brake_catalogue_hint(vehicle, path, hint, sizeof hint);
    return command_misused("%sunknown path '%s'%s", option, path,
                           hint[0] != '\0' ? hint : "; `stopmargin explain` lists all");
}

int words_unknown_output(const char *option, const char *name)
{
    struct brake_output near;
    char known[80];
    if (brake_output_nearest(name, &near) != BRAKE_OK)
        return command_misused("%sunknown result or criterion '%s'; `stopmargin explain` lists all",
                               option, name);
    brake_output_name(near, known, sizeof known);
    return command_misused("%sunknown result or criterion '%s'; did you mean %s?", option, name,
                           known);
}

/* ---- values --------------------------------------------------------------------------------- */

int words_keep(void *into, const struct words_option *option, char *value)
{
    struct command_list *list = into;
    if (list->count == list->most)
        return command_misused("accepts up to %d times %s", list->most, option->name);
    list->word[list->count++] = value;
    return 0;
}

int words_take_text(void *into, const struct words_option *option, char *value)
{
    (void)option;
    *(char **)into = value;
    return 0;
}

int words_take_file(void *into, const struct words_option *option, char *value)
{
    char **file = into;
    (void)option;
    if (*file != NULL)
        return command_misused("one file at a time; got '%s' and '%s'", *file, value);
    *file = value;
    return 0;
}

int words_choose(const struct words_option *option, const char *word, int *choice)
{
    struct words_known known = words_known_to(word);
    const char *at = option->value;
    for (*choice = 0; *at != '\0'; ++*choice) {
        const size_t length = strcspn(at, "|");
        char one[32];
        brake_text_format(one, sizeof one, "%.*s", (int)length, at);
        if (strcmp(word, one) == 0)
            return 0;
        words_known_add(&known, one);
        at += length + (at[length] == '|');
    }
    return words_unknown(option->name, word, &known);
}

int words_take_rules(void *into, const struct words_option *option, char *value)
{
    int choice;
    const int status = words_choose(option, value, &choice);
    if (status == 0)
        (void)brake_rules_at(choice, into);
    return status;
}

int words_take_units(void *into, const struct words_option *option, char *value)
{
    static const enum brake_systems systems[] = {BRAKE_US_ONLY, BRAKE_SI_ONLY, BRAKE_SI_FIRST};
    int choice;
    const int status = words_choose(option, value, &choice);
    if (status == 0)
        *(enum brake_systems *)into = systems[choice];
    return status;
}

int words_take_load(void *into, const struct words_option *option, char *value)
{
    int choice;
    const int status = words_choose(option, value, &choice);
    if (status == 0)
        *(enum brake_load *)into = (enum brake_load)choice;
    return status;
}

/* ---- words ---------------------------------------------------------------------------------- */

static int refuse_option(const char *word, const struct words_option *option)
{
    struct words_known known = words_known_to(word);
    for (; option->name != NULL; option++)
        words_known_add(&known, option->name);
    words_known_add(&known, "--help");
    return words_unknown("unknown option", word, &known);
}

/* The value of an option: behind its equals sign, or the next word, which is then used up; empty
 * where it has none. NULL: the word is not this option. */
static char *value_of(const struct words_option *option, char *word, char *next, int *at)
{
    const size_t length = strlen(option->name);
    const bool flag = option->take == NULL;
    if (strncmp(word, option->name, length) != 0)
        return NULL;
    if (word[length] == '=' && !flag)
        return word + length + 1;
    if (word[length] != '\0')
        return NULL;
    if (flag || next == NULL)
        return word + length;
    ++*at;
    return next;
}

static int take_word(char **words, int *at, const struct words_option *option, char *into)
{
    char *word = words[*at];
    const struct words_option *first = option;
    for (; option->name != NULL; option++) {
        char *value = value_of(option, word, words[*at + 1], at);
        if (value != NULL && option->take != NULL)
            return option->take(into + option->into, option, value);
        if (value != NULL) {
            *(bool *)(into + option->into) = true;
            return 0;
        }
    }
    if (word[0] == '-' && word[1] != '\0')
        return refuse_option(word, first);
    return option->take(into + option->into, option, word);
}

int words_take(char **words, const struct words_option *options, void *into)
{
    const struct words_option *operand = words_operand(options);
    int status = 0;
    bool ended = false;
    for (int i = 1; words[i] != NULL && status == 0; i++) {
        if (!ended && strcmp(words[i], "--") == 0)
            ended = true;
        else
            status = ended ? operand->take((char *)into + operand->into, operand, words[i])
                           : take_word(words, &i, options, into);
    }
    return status;
}
