/* The verbs of the command, one file each. A verb gets its arguments from its own name on and
 * returns the exit status. */
#ifndef BRAKE_COMMAND_H
#define BRAKE_COMMAND_H

#include "brake/brake.h"

enum { EXIT_REFUSED = 2, COMMAND_SETTINGS = 64 /* most times --set */ };

int command_new(int count, char **words);
int command_check(int count, char **words);
int command_compare(int count, char **words);
int command_size(int count, char **words);
int command_spread(int count, char **words);
int command_sweep(int count, char **words);
int command_heat(int count, char **words);
int command_drivelog(int count, char **words);
int command_shakedown(int count, char **words);
int command_report(int count, char **words);
int command_explain(int count, char **words);

/* Complains about the words of the command line; returns EXIT_REFUSED. */
__attribute__((format(printf, 1, 2))) int command_misused(const char *format, ...);

/* The value of an option: behind its equals sign, or the next word, which is then used up. NULL: the
 * word is not this option. */
char *command_value_of(const char *option, char *word, char *next, int *at);

/* Reads a vehicle file, applies settings in their order and completes it; prints what is wrong.
 * Returns 0 or EXIT_REFUSED. */
int command_read(const char *path, char *const *settings, int count, struct brake_sheet *sheet);

/* Value of --rules, of --load. Return 0 or EXIT_REFUSED. */
int command_take_rules(const char *word, unsigned *rules);
int command_take_load(const char *word, enum brake_load *load);

/* Room for one row more; NULL when memory is short, and the old rows are gone. */
void *command_room(void *rows, long count, size_t size);

/* The history of a duty; command_keep_row is for struct brake_duty_watch. */
struct command_history {
    struct brake_duty_row *row; /* NULL after memory was short */
    long rows;
    bool short_of_memory;
};
void command_keep_row(void *context, const struct brake_duty_row *row);

#endif
