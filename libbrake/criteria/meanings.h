/* SPDX-License-Identifier: MIT */
/* What the words of a requirement mean; private to the library. */
#ifndef BRAKE_CRITERIA_MEANINGS_H
#define BRAKE_CRITERIA_MEANINGS_H

#include "brake/criteria.h"

/* What a measure measures: one line. */
const char *brake_measure_meaning(enum brake_measure measure);

/* What a verdict says: one line. */
const char *brake_verdict_meaning(enum brake_verdict verdict);

/* To which vehicles a bit of enum brake_applies confines a criterion, such as "M1 vehicles"; bits
 * by their number, NULL past the last. */
const char *brake_applies_words(int bit);

/** What a graded text calls a vehicle that falls short of it.
 * @param criterion  the requirement
 * @param judgement  by it
 * @return           "major" or "dangerous"; NULL: it does not fall short, or the text has no words
 */
const char *brake_severity_word(const struct brake_criterion *criterion,
                                const struct brake_judgement *judgement);

#endif
