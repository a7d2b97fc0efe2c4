/* SPDX-License-Identifier: MIT */
/* What stands in every report for inspection; private to this folder. */
#ifndef BRAKE_STANDING_H
#define BRAKE_STANDING_H

/* Something to be measured on the vehicle, with a blank beside it. */
struct brake_blank {
    const char *what;
    const char *result; /* path of what was calculated for it; NULL: nothing was */
    const char *lines;  /* of the vehicle file that take it; NULL: none */
};

/* NULL past the last. */
const struct brake_blank *brake_blank_at(int index);

/* Who signs: blanks without a number. NULL past the last. */
const char *brake_signature_at(int index);

/* Paragraphs on method and sources. NULL past the last. */
const char *brake_method_at(int index);

#endif
