/* SPDX-License-Identifier: MIT */
#include <stdlib.h>
#include <string.h>

#include "answers.h"

/* Refuses what keeps the vehicle from being driven and was not said. */
static bool may_be_driven(const struct brake_shakedown *plan, const char *despite,
                          struct brake_error *error)
{
    const char *words;
    const char *word;
    unsigned bit;
    for (int i = 0; (word = brake_obstacle_at(i, &bit, &words)) != NULL; i++) {
        if ((plan->obstacles & bit) == 0 || strstr(despite, word) != NULL)
            continue;
        answer_refuse(error, BRAKE_E_RANGE, words);
        return false;
    }
    return true;
}

char *shakedown_run(const struct brake_sheet *sheet, bool full, const char *despite, char **report,
                    char **html, struct brake_error *error)
{
    struct brake_assessment *assessment = answer_memory(sizeof *assessment, error);
    struct brake_shakedown plan;
    char *text = NULL;
    if (assessment == NULL)
        return NULL;
    if (!brake_assess_whole(sheet, BRAKE_RULES_OWN, NULL, assessment)) {
        answer_refuse(error, BRAKE_E_MEMORY, brake_status_message(BRAKE_E_MEMORY));
    } else {
        brake_shakedown_plan(sheet, full ? BRAKE_FULL : BRAKE_EMPTY, assessment, &plan);
        if (may_be_driven(&plan, despite, error)) {
            struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
            if (d != NULL)
                brake_answer_shakedown(d, sheet, assessment, &plan);
            *html = brake_document_text(d, BRAKE_AS_HTML);
            text = answer_give(d, report);
        }
    }
    free(assessment);
    return text;
}
