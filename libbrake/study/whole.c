/* SPDX-License-Identifier: MIT */
/* An assessment from its begin to its end, for a program that wants no part of it alone. */
#include <stdlib.h>

#include "brake/assessment.h"
#include "assess.h"
#include "brake/conformance.h"
#include "criteria/scope.h"
#include "procedure.h"

struct brake_assessment *brake_assessment_new(void)
{
    return calloc(1, sizeof(struct brake_assessment));
}

void brake_assessment_free(struct brake_assessment *assessment)
{
    free(assessment);
}

bool brake_assess_whole(const struct brake_sheet *sheet, unsigned rules,
                        const struct brake_watch *watch, struct brake_assessment *assessment)
{
    struct brake_conformance_room *room = brake_conformance_room_new();
    if (room == NULL)
        return false;
    brake_assess(sheet, rules, assessment);
    brake_assess_fade(sheet, NULL, assessment);
    const bool all = brake_assess_conformance(sheet, true, watch, room, assessment);
    brake_conformance_room_free(room);
    return all;
}

enum brake_verdict brake_assessment_verdict(const struct brake_assessment *assessment)
{
    return assessment->ruling.verdict;
}

void brake_assess_before(struct brake_assessment *assessment, const struct brake_before *before)
{
    assessment->before = before;
    brake_ruling_add(&assessment->ruling, before->verdict);
}
