/* The words behind a verb: options with what takes the value of each, and files. */
#ifndef BRAKE_COMMAND_WORDS_H
#define BRAKE_COMMAND_WORDS_H

#include "command.h"

/* Takes the value of an option, or a file, into what the caller named. Returns 0 or EXIT_REFUSED. */
typedef int words_taker(void *into, char *value);

struct words_option {
    const char *name;  /* "--json"; NULL in the last row, which takes files */
    words_taker *take; /* NULL: a flag, which raises the bool that `into` is */
    void *into;
};

/* Takes all words up to NULL, the verb left out. */
int words_take(char **words, const struct words_option *options);

words_taker words_keep;       /* one more word of a struct command_list */
words_taker words_take_text;  /* a char *; the last one counts */
words_taker words_take_file;  /* a char *; one only */
words_taker words_take_rules; /* unsigned: families of rules */
words_taker words_take_load;  /* enum brake_load */

#endif
