/* SPDX-License-Identifier: MIT */
/* What is told of the verbs: all of it comes from their lists of options. */
#ifndef BRAKE_COMMAND_HELP_H
#define BRAKE_COMMAND_HELP_H

#include "words.h"

/* Print the help of one verb, of all of them in short, how each is called. Return 0. */
int help_of_verb(const struct words_verb *verb);
int help_of_all(void);
int help_usage(void);

/* What several places tell. */
extern const char help_title[];
extern const char help_first_hour[];
extern const char help_status[];

#endif
