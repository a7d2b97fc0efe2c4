/* What differs between a vehicle and what it was before; private to this folder. */
#ifndef BRAKE_DIFFERENCES_H
#define BRAKE_DIFFERENCES_H

#include <stddef.h>

#include "brake/paper.h"
#include "words.h"

enum { BRAKE_DIFFERENCE_TEXT = 2048 };

/* One thing that differs. */
struct brake_difference {
    char what[200];
    char before[BRAKE_DIFFERENCE_TEXT];
    char after[BRAKE_DIFFERENCE_TEXT];
    char given[40];                 /* of a margin: points given or taken */
    char shares[BRAKE_SHARES_TEXT]; /* of a margin: by which group of changes; empty: not known */
};

/* Lines of the file that differ, one a call: `at` is 0 at first and kept by the caller. False: no
 * more. */
bool brake_differing_line(const struct brake_paper *paper, int *at,
                          struct brake_difference *change);

/* Margins that differ, in the order of the requirements; as above. */
bool brake_differing_margin(const struct brake_paper *paper, int *at,
                            struct brake_difference *change);

#endif
