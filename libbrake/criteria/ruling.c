/* SPDX-License-Identifier: MIT */
/* What the verdicts of all rows come to: the worst of those that count. */
#include <math.h>
#include <stddef.h>

#include "judge.h"
#include "scope.h"

static void add_word(struct brake_tally *tally, enum brake_verdict verdict)
{
    tally->meets += verdict == BRAKE_MEETS;
    tally->falls_short += verdict == BRAKE_FALLS_SHORT;
    tally->cannot_say += verdict == BRAKE_CANNOT_SAY;
}

static void add(struct brake_tally *tally, const struct brake_judgement *j)
{
    add_word(tally, j->verdict);
    tally->lacking += j->verdict == BRAKE_CANNOT_SAY && isnan(j->margin);
}

/* Family of a row that binds the vehicle and was not asked for; 0: it was, or does not bind. */
static unsigned left_out(const struct brake_criterion *criterion,
                         const struct brake_vehicle *vehicle, unsigned rules)
{
    const char *why;
    if (brake_criterion_in(criterion, rules) ||
        brake_criterion_scope(criterion, vehicle, BRAKE_RULES_OWN, &why) != BRAKE_BINDS)
        return 0;
    return brake_book_of(criterion)->rules;
}

/* Once no row that counts says anything else, all that bind meet: of them one must have been
 * read. */
static enum brake_verdict worst(const struct brake_ruling *r)
{
    if (r->counted.falls_short > 0)
        return BRAKE_FALLS_SHORT;
    if (r->counted.cannot_say > 0 || r->unstated != NULL || r->of[BRAKE_BINDS].meets == r->unread)
        return BRAKE_CANNOT_SAY;
    return BRAKE_MEETS;
}

void brake_ruling_make(const struct brake_judgement *judgement, const struct brake_vehicle *vehicle,
                       unsigned rules, bool hot, struct brake_ruling *ruling)
{
    *ruling = (struct brake_ruling){.unstated = brake_scope_unstated(vehicle)};
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_criterion *criterion = brake_criterion_at(i);
        const enum brake_scope scope = judgement[i].scope;
        if (!hot && brake_measure_hot(criterion->measure))
            continue;
        ruling->left_out |= left_out(criterion, vehicle, rules);
        add(&ruling->of[scope], &judgement[i]);
        if (brake_scope_counts(scope))
            add(&ruling->counted, &judgement[i]);
        ruling->unread += scope == BRAKE_BINDS && criterion->read == BRAKE_READ_MEMORY;
    }
    ruling->verdict = worst(ruling);
}

void brake_ruling_add(struct brake_ruling *ruling, enum brake_verdict verdict)
{
    add_word(&ruling->of[BRAKE_HAZARD], verdict);
    add_word(&ruling->counted, verdict);
    ruling->verdict = worst(ruling);
}

int brake_verdict_exit(enum brake_verdict verdict)
{
    static const int exits[] = {[BRAKE_MEETS] = 0, [BRAKE_FALLS_SHORT] = 1, [BRAKE_CANNOT_SAY] = 3};
    return exits[verdict];
}
