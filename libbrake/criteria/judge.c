/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stddef.h>

#include "brake/stop.h"
#include "measures.h"
#include "scope.h"
#include "judge.h"

const char *brake_verdict_words(enum brake_verdict verdict)
{
    static const char *const words[] = {"meets", "falls short", "cannot say"};
    return words[verdict];
}

const char *brake_failure_words(enum brake_failure failure)
{
    static const char *const words[BRAKE_FAILURES] = {
        "",           "first circuit failed", "second circuit failed",
        "no assist",  "low vacuum",           "engine off",
        "valve open", "valve shut",           "anti-lock failed",
        "in gear"};
    return words[failure];
}

/* ---- what is missing ------------------------------------------------------------------------ */

/* Whether the rated mass decides if it applies, or is what the vehicle is loaded to. */
static bool by_rated_mass(const struct brake_criterion *c)
{
    return (c->applies & (BRAKE_TO_LIGHT | BRAKE_TO_10000_LB | BRAKE_TO_4500_KG)) != 0 ||
           (c->load & BRAKE_AT_RATED) != 0;
}

/* What is missing: no words when everything is there. */
static struct lack lacks(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    const struct measure *measure = &measures[c->measure];
    if (by_rated_mass(c) && isnan(v->general.rated_mass))
        return (struct lack){"vehicle.rated_mass is not given", "vehicle.rated_mass"};
    if (measure->hot != NULL)
        return (struct lack){"the fade procedure was not run", NULL};
    return measure->lacks != NULL ? measure->lacks(c, v) : (struct lack){NULL, NULL};
}

/* ---- how bad it is -------------------------------------------------------------------------- */

double brake_criterion_foot(const struct brake_criterion *criterion)
{
    return criterion->foot > 0.0 ? criterion->foot : criterion->force + 100.0;
}

/* Of a graded text: under half of what it asks for; of side differences, half of the other wheel
 * where wheels steer. 2014/45/EU, Annex I, 1.2.1 to 1.4.2; DVSA MOT manual, the same numbers. */
static bool dangerous(const struct brake_criterion *c, const struct brake_vehicle *v,
                      const struct brake_judgement *j)
{
    if (c->measure == BRAKE_SIDE_DIFFERENCE)
        return c->graded && measure_sides(c, v, BRAKE_FRONT) > 0.5;
    return c->graded && j->value < 0.5 * j->limit;
}

/* ---- judging -------------------------------------------------------------------------------- */

/* What cannot be worked out is not met, and says so. */
static void put_verdict(struct brake_judgement *j)
{
    j->verdict = j->margin >= 0.0 ? BRAKE_MEETS : BRAKE_FALLS_SHORT;
    if (isnan(j->margin))
        j->reason = "it cannot be worked out: there is no solution";
}

/* A state that cannot be worked out is the worst: no number of another may stand in for it. */
static bool is_worse(const struct brake_judgement *one, const struct brake_judgement *than)
{
    return !isnan(than->margin) && !(one->margin >= than->margin);
}

static void judge_state(const struct brake_criterion *c, struct states *s, enum brake_load load,
                        enum brake_failure failure, struct brake_judgement *worst)
{
    struct brake_judgement j = *worst;
    const bool first = j.verdict == BRAKE_CANNOT_SAY;
    j.value = measures[c->measure].value(c, s, load, failure);
    j.margin = measure_margin(c->measure, j.value, j.limit);
    j.load = load;
    j.failure = failure;
    put_verdict(&j);
    if (first || is_worse(&j, worst))
        *worst = j;
}

static const struct brake_judgement unknown = {
    .verdict = BRAKE_CANNOT_SAY, .value = BRAKE_NAN, .limit = BRAKE_NAN, .margin = BRAKE_NAN};

static struct brake_judgement judge(const struct brake_criterion *criterion, unsigned rules,
                                    struct states *s)
{
    const struct brake_vehicle *vehicle = s->vehicle;
    struct brake_judgement j = unknown;
    j.scope = brake_criterion_scope(criterion, vehicle, rules, &j.reason);
    if (j.scope != BRAKE_OUTSIDE) {
        const struct lack lack = lacks(criterion, vehicle);
        j.reason = lack.why;
        j.missing = lack.line;
    }
    if (j.scope != BRAKE_OUTSIDE && j.reason == NULL) {
        const bool single = vehicle->circuits.split == BRAKE_SPLIT_ONE &&
                            criterion->failure[1] == BRAKE_SECOND_CIRCUIT;
        const int states = criterion->failure[1] != criterion->failure[0] && !single ? 2 : 1;
        j.limit = measure_limit(criterion, vehicle);
        for (int i = 0; i < states; i++) {
            for (int load = 0; load < BRAKE_TEST_LOADS; load++) {
                if ((criterion->load >> load & 1) != 0)
                    judge_state(criterion, s, (enum brake_load)load, criterion->failure[i], &j);
            }
        }
        j.dangerous = dangerous(criterion, vehicle, &j);
        if (criterion->measure == BRAKE_REAR_FIRST && isinf(j.value))
            j.reason = "the rear never takes the lead";
    }
    return j;
}

void brake_judge(const struct brake_criterion *criterion, const struct brake_vehicle *vehicle,
                 struct brake_judgement *judgement)
{
    struct states s;
    states_start(&s, vehicle);
    *judgement = judge(criterion, brake_book_of(criterion)->rules, &s);
}

void brake_judge_some(const int *criterion, int count, const struct brake_vehicle *vehicle,
                      struct brake_judgement *judgement)
{
    struct states s;
    states_start(&s, vehicle);
    for (int i = 0; i < count; i++) {
        const struct brake_criterion *one = brake_criterion_at(criterion[i]);
        judgement[i] = judge(one, brake_book_of(one)->rules, &s);
    }
}

/* ---- hot performance ------------------------------------------------------------------------ */

static double hot_limit(const struct brake_criterion *c, const struct brake_vehicle *v,
                        const struct brake_hot_figures *f)
{
    const double speed = brake_test_speed(c->speed, v->general.top_speed);
    const double allowed = c->lag * speed;
    if (c->measure == BRAKE_HOT_DISTANCE)
        return brake_stop_allowed(speed, c->lag, c->coefficient);
    if (c->measure == BRAKE_HOT_LENGTHENING)
        return allowed + (f->cold.distance - allowed) / c->limit;
    return c->limit;
}

void brake_judge_hot(const struct brake_criterion *criterion, const struct brake_vehicle *vehicle,
                     const struct brake_hot_figures *figures, struct brake_judgement *judgement)
{
    struct brake_judgement *j = judgement;
    *j = unknown;
    j->load = (criterion->load & BRAKE_AT_RATED) != 0   ? BRAKE_RATED
              : (criterion->load & BRAKE_AT_LIGHT) != 0 ? BRAKE_LIGHT
                                                        : BRAKE_FULL;
    j->scope =
        brake_criterion_scope(criterion, vehicle, brake_book_of(criterion)->rules, &j->reason);
    if (j->reason == NULL && by_rated_mass(criterion) && isnan(vehicle->general.rated_mass))
        j->reason = "vehicle.rated_mass is not given";
    if (j->reason == NULL && criterion->measure != BRAKE_FLUID_ROOM)
        j->reason = figures->lacks;
    if (j->reason == NULL && criterion->measure == BRAKE_FLUID_ROOM && isnan(figures->fluid_room))
        j->reason = figures->lacks != NULL ? figures->lacks : "the descent cannot be driven";
    if (j->reason == NULL && criterion->measure == BRAKE_RECOVERY_MOST &&
        !(figures->recovery.developed > 0.0))
        j->reason = "there was no stop after cooling"; /* no brake at all is not too little */
    if (j->reason != NULL)
        return;
    j->value = measures[criterion->measure].hot(criterion, figures);
    j->limit = hot_limit(criterion, vehicle, figures);
    j->margin = measure_margin(criterion->measure, j->value, j->limit);
    put_verdict(j);
}

void brake_judge_all(unsigned rules, const struct brake_vehicle *vehicle,
                     struct brake_judgement *judgement)
{
    struct states s;
    states_start(&s, vehicle);
    for (int i = 0; i < brake_criterion_count(); i++)
        judgement[i] = judge(brake_criterion_at(i), rules, &s);
}
