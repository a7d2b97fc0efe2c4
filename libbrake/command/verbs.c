/* SPDX-License-Identifier: MIT */
#include "verbs.h"

#include <string.h>

const struct words_verb *const verbs[] = {
    &verb_new,  &verb_check,    &verb_compare,   &verb_size,   &verb_spread,  &verb_sweep,
    &verb_heat, &verb_drivelog, &verb_shakedown, &verb_report, &verb_explain, &verb_help,
    NULL};

const struct words_verb *verbs_find(const char *name)
{
    struct words_known known = words_known_to(name);
    for (int i = 0; verbs[i] != NULL; i++) {
        if (strcmp(name, verbs[i]->name) == 0)
            return verbs[i];
        words_known_add(&known, verbs[i]->name);
    }
    (void)words_unknown("unknown verb", name, &known);
    return NULL;
}
