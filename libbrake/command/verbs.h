/* SPDX-License-Identifier: MIT */
/* The verbs of the command, one file each. */
#ifndef BRAKE_COMMAND_VERBS_H
#define BRAKE_COMMAND_VERBS_H

#include "words.h"

extern const struct words_verb verb_new;
extern const struct words_verb verb_check;
extern const struct words_verb verb_compare;
extern const struct words_verb verb_size;
extern const struct words_verb verb_spread;
extern const struct words_verb verb_sweep;
extern const struct words_verb verb_heat;
extern const struct words_verb verb_drivelog;
extern const struct words_verb verb_shakedown;
extern const struct words_verb verb_report;
extern const struct words_verb verb_explain;
extern const struct words_verb verb_help;

/* All of them in the order of the help, NULL at the end. */
extern const struct words_verb *const verbs[];

/* The verb of a name; NULL: there is none, and the complaint was made. */
const struct words_verb *verbs_find(const char *name);

#endif
