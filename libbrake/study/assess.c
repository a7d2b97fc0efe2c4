/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "brake/assessment.h"
#include "criteria/warn.h"
#include "criteria/judge.h"
#include "criteria/scope.h"
#include "assess.h"
#include "conformance.h"
#include "known.h"
#include "vehicle/text.h"

/* The one that is met less often; of equals that of the smaller margin. */
static bool limits_before(const struct brake_assessment *a, int one, int other)
{
    const double met = a->conformance.of[one].met - a->conformance.of[other].met;
    if (met < 0.0 || met > 0.0)
        return met < 0.0;
    return a->judgement[one].margin < a->judgement[other].margin;
}

void brake_assessment_count(const struct brake_vehicle *vehicle,
                            struct brake_assessment *assessment)
{
    struct brake_assessment *a = assessment;
    brake_ruling_make(a->judgement, vehicle, a->rules, true, &a->ruling);
    a->limiting = -1;
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_judgement *j = &a->judgement[i];
        if (brake_scope_counts(j->scope) && !isnan(j->margin) &&
            (a->limiting < 0 || limits_before(a, i, a->limiting)))
            a->limiting = i;
    }
}

void brake_assess(const struct brake_sheet *sheet, unsigned rules,
                  struct brake_assessment *assessment)
{
    struct brake_assessment *a = assessment;
    a->rules = rules;
    a->before = NULL;
    a->repair = NULL;
    brake_conformance_clear(&a->conformance);
    brake_evaluate(&sheet->vehicle, &a->results);
    brake_judge_all(rules, &sheet->vehicle, a->judgement);
    brake_assessment_count(&sheet->vehicle, a);
    a->warnings = brake_warnings(&sheet->vehicle, &a->results, a->warning);
}

/* A tolerance that reaches self-lock, told once with the row that loses most samples to it. */
static void warn_of_shoes(struct brake_assessment *a)
{
    const struct brake_conformance *most = NULL;
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_conformance *s = &a->conformance.of[i];
        if (s->shoe_locks && (most == NULL || s->failed > most->failed))
            most = s;
    }
    if (most == NULL || a->warnings == BRAKE_WARNINGS)
        return;
    struct brake_warning *warning = &a->warning[a->warnings++];
    warning->id = brake_warning_id(BRAKE_WARNS_SHOE_MAY_LOCK);
    brake_text_format(
        warning->text, sizeof warning->text,
        "In %ld of %ld samples of what may be behind the lines a shoe locks itself: do "
        "not drive it before the friction of its lining is known.",
        most->failed, most->samples);
}

static void add_known(const struct brake_sheet *sheet, struct brake_assessment *a)
{
    if (sheet->known.word != BRAKE_DRIVE_NONE)
        brake_ruling_add(&a->ruling, known_verdict(&sheet->known));
}

bool brake_assess_conformance(const struct brake_sheet *sheet, bool faded,
                              const struct brake_watch *watch, struct brake_conformance_room *room,
                              struct brake_assessment *assessment)
{
    struct brake_assessment *a = assessment;
    const struct brake_conformance_options options = {a->rules, faded, watch};
    if (!brake_conformance_draw(sheet, &options, room, a->judgement, &a->conformance))
        return false;
    warn_of_shoes(a);
    brake_assessment_count(&sheet->vehicle, a);
    add_known(sheet, a);
    return true;
}

bool brake_assess_cold(const struct brake_sheet *sheet, unsigned rules,
                       struct brake_assessment *assessment)
{
    struct brake_assessment *a = assessment;
    struct brake_conformance_room *room = brake_conformance_room_new();
    if (room == NULL)
        return false;
    brake_assess(sheet, rules, a);
    const bool drawn = brake_assess_conformance(sheet, false, NULL, room, a);
    brake_conformance_room_free(room);
    brake_ruling_make(a->judgement, &sheet->vehicle, rules, false, &a->ruling);
    add_known(sheet, a);
    return drawn;
}

int brake_assessment_exit(const struct brake_assessment *assessment)
{
    return brake_verdict_exit(assessment->ruling.verdict);
}
