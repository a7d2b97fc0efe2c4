#include "answers.h"

struct planned {
    const struct brake_sheet *sheet;
    struct brake_shakedown plan;
};

static void print_text(const void *answer, FILE *stream)
{
    const struct planned *planned = answer;
    brake_report_shakedown_text(planned->sheet, &planned->plan, stream);
}

static void print_html(const void *answer, FILE *stream)
{
    const struct planned *planned = answer;
    brake_report_shakedown_html(planned->sheet, &planned->plan, stream);
}

char *shakedown_run(const struct brake_sheet *sheet, bool full, char **report, char **html)
{
    struct planned planned = {.sheet = sheet};
    brake_shakedown_plan(sheet, full ? BRAKE_FULL : BRAKE_EMPTY, &planned.plan);
    *report = answer_text(print_text, &planned);
    *html = answer_text(print_html, &planned);
    return brake_report_shakedown_json(sheet, &planned.plan);
}
