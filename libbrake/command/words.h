/* SPDX-License-Identifier: MIT */
/* The words behind a verb, and what is told of them: one list a verb for reading, help, manual and
 * completion. */
#ifndef BRAKE_COMMAND_WORDS_H
#define BRAKE_COMMAND_WORDS_H

#include <stddef.h>

#include "command.h"
#include "vehicle/sections.h"

struct words_option;

/* Takes the value of an option, or a file, into what the row names. Returns 0 or EXIT_MISUSED. */
typedef int words_taker(void *into, const struct words_option *option, char *value);

/* A row of the list. Rows are written without the names of their members: a compiler does not pass
 * one that stops short of its help. */
struct words_option {
    const char *name;  /* "--json"; NULL in the last row, which takes what is no option */
    const char *value; /* what stands for it in the help: "PATH=VALUE", "empty|full"; "": a flag */
    words_taker *take; /* NULL: a flag, which raises a bool */
    size_t into;       /* where in the verb's struct of options */
    const char *help;
};

struct words_verb {
    const char *name;
    const char *needed; /* options that must be there, as they are shown */
    const char *brief;  /* what it gives, for a list of the verbs */
    const char *about;  /* the same in sentences, for those who asked about this verb */
    const char *status; /* what its exit status says */
    const struct words_option *options;
    int (*run)(char **words); /* its own name first; returns the exit status */
};

/* The row that takes what is no option. */
const struct words_option *words_operand(const struct words_option *option);

/* Takes all words up to NULL, the verb left out, into a struct of options; behind -- nothing is an
 * option. */
int words_take(char **words, const struct words_option *options, void *into);

words_taker words_keep;       /* one more word of a struct command_list */
words_taker words_take_text;  /* a char *; the last one counts */
words_taker words_take_file;  /* a char *; one only */
words_taker words_take_rules; /* unsigned: families of rules */
words_taker words_take_units; /* enum brake_systems */
words_taker words_take_load;  /* enum brake_load */

/* Number of a word among the choices of an option, which "|" divides. Returns 0 or EXIT_MISUSED. */
int words_choose(const struct words_option *option, const char *word, int *choice);

/* Words that were accepted where another came: the list of them, and the nearest. */
struct words_known {
    struct brake_nearest nearest;
    char near[32];
    char list[400];
};

struct words_known words_known_to(const char *word);
void words_known_add(struct words_known *known, const char *accepted);

/* Complains of `what` 'word'; returns EXIT_MISUSED. */
int words_unknown(const char *what, const char *word, const struct words_known *known);

/* Complains of a path that the catalogue does not know; returns EXIT_MISUSED. */
int words_unknown_path(const char *option, const struct brake_vehicle *vehicle, const char *path);

/* Complains of a name that is neither a result nor a criterion; returns EXIT_MISUSED. */
int words_unknown_output(const char *option, const char *name);

/* Value of --rules: the choices of brake_rules_at, in their order. */
#define WORDS_FAMILY(name, word, bit) "|" #word
#define WORDS_RULES "own" BRAKE_FAMILIES(WORDS_FAMILY) "|all"

/* What is told of options that several verbs have. */
extern const char words_help_file[];
extern const char words_help_set[];
extern const char words_help_rules[];
extern const char words_help_units[];
extern const char words_help_before[];
extern const char words_help_parts[];
extern const char words_help_json[];

#endif
