#include <math.h>

#include "brake/assessment.h"
#include "criteria/warn.h"

bool brake_assessed(const struct brake_assessment *assessment, int criterion)
{
    return ((unsigned)brake_criterion_at(criterion)->rules & assessment->rules) != 0;
}

static void count(struct brake_assessment *a, int criterion)
{
    const struct brake_judgement *j = &a->judgement[criterion];
    if (!j->applies)
        return;
    a->meets += j->verdict == BRAKE_MEETS;
    a->falls_short += j->verdict == BRAKE_FALLS_SHORT;
    a->cannot_say += j->verdict == BRAKE_CANNOT_SAY;
    if (!isnan(j->margin) && (a->limiting < 0 || j->margin < a->judgement[a->limiting].margin))
        a->limiting = criterion;
}

void brake_assessment_count(struct brake_assessment *assessment)
{
    struct brake_assessment *a = assessment;
    a->meets = 0;
    a->falls_short = 0;
    a->cannot_say = 0;
    a->limiting = -1;
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (brake_assessed(a, i))
            count(a, i);
    }
}

void brake_assess(const struct brake_sheet *sheet, unsigned rules,
                  struct brake_assessment *assessment)
{
    struct brake_assessment *a = assessment;
    a->rules = rules;
    brake_evaluate(&sheet->vehicle, &a->results);
    brake_judge_all(rules, &sheet->vehicle, a->judgement);
    brake_assessment_count(a);
    brake_sureness(sheet, rules, a->sureness);
    a->warnings = brake_warnings(&sheet->vehicle, &a->results, a->warning);
}

int brake_assessment_doubted(const struct brake_assessment *assessment)
{
    const struct brake_assessment *a = assessment;
    int least = -1;
    for (int i = 0; i < brake_criterion_count(); i++) {
        const bool counts = brake_assessed(a, i) && a->judgement[i].applies &&
                            a->sureness[i].leading >= 0 && !isnan(a->judgement[i].margin);
        if (counts && (least < 0 || a->judgement[i].margin < a->judgement[least].margin))
            least = i;
    }
    return least;
}

int brake_assessment_exit(const struct brake_assessment *assessment)
{
    if (assessment->falls_short > 0)
        return 1;
    return assessment->cannot_say > 0 ? 3 : 0;
}
