/* SPDX-License-Identifier: MIT */
/* The answer of `explain`: what a name stands for, and where its value comes from; private to the
 * library and its command. */
#ifndef BRAKE_EXPLAIN_H
#define BRAKE_EXPLAIN_H

#include "brake/answer.h"

enum brake_named_kind {
    BRAKE_NAMED_NOTHING,
    BRAKE_NAMED_SECTION,
    BRAKE_NAMED_LINE,
    BRAKE_NAMED_RESULT,
    BRAKE_NAMED_CRITERION,
    BRAKE_NAMED_WARNING,
    BRAKE_NAMED_VERDICT,
    BRAKE_NAMED_IN_TRADE /* a word that people use for what has another name, or none */
};

/* What a name stands for. */
struct brake_named {
    enum brake_named_kind kind;
    const char *name;
    int index; /* among those of its kind; -1: a line of no part in particular */
    const struct brake_quantity *row; /* of a line */
    int section;                      /* of a line, or the section itself */
};

/* A result may be asked for without its load case; a line of a part with any name of a part.
 * vehicle NULL: there is no file. */
struct brake_named brake_named_find(const struct brake_vehicle *vehicle, const char *name);

/* The result, requirement, warning or verdict whose name is nearest to a wrong one, 80 bytes or
 * more for it; false: none is near. */
bool brake_named_nearest(const char *name, char *near, size_t size);

/* A verdict and what it says: of requirements, of a drive, of a comparison. */
struct brake_word {
    const char *word;
    const char *meaning;
};

int brake_verdict_count(void);
struct brake_word brake_verdict_at(int index);

/* A vehicle whose value is told, with the lines that it depends on. */
struct brake_explained_of {
    const struct brake_sheet *sheet;
    const struct brake_assessment *assessment; /* of it, hot performance included */
};

/* of NULL: the words alone. */
void brake_answer_explained(struct brake_document *document, const struct brake_named *named,
                            const struct brake_explained_of *of);

/* Every name, with its meaning. */
void brake_answer_names(struct brake_document *document);

#endif
