#include "answers.h"

char *shakedown_run(const struct brake_sheet *sheet, bool full, char **report, char **html)
{
    struct brake_shakedown plan;
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    brake_shakedown_plan(sheet, full ? BRAKE_FULL : BRAKE_EMPTY, &plan);
    if (d != NULL)
        brake_answer_shakedown(d, sheet, &plan);
    *html = brake_document_text(d, BRAKE_AS_HTML);
    return answer_give(d, report);
}
