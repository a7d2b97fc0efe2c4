/* SPDX-License-Identifier: MIT */
#include "brake/before.h"
#include "brake/compare.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "asked.h"
#include "mixing.h"
#include "watching.h"
#include "vehicle/groups.h"
#include "change.h"
#include "shapley.h"
#include "comparing.h"
#include "procedure.h"
#include "criteria/judge.h"
#include "criteria/scope.h"
#include "conformance.h"

/* Results held side by side beside those that are margins; in both load cases. */
static const char *const headlines[] = {
    "deceleration.most",    "deceleration.at_pedal_force", "pedal.force_for_target",
    "pedal.travel_used",    "balance.lock_deceleration",   "stop.distance",
    "parking.effort_grade", "parking.deceleration",
};

static const char unsaid_before[] = "cannot be said of the vehicle before";
static const char unsaid_after[] = "cannot be said of the vehicle after";
static const char unsaid_between[] =
    "cannot be said, or has no limit, with only some of the changes made";
static const char unlimited_before[] = "without limit before";
static const char unlimited_after[] = "without limit after";
static const char not_worked_out[] = "the shares were not worked out";

/* ---- what is held side by side --------------------------------------------------------------- */

static bool is_headline(int result)
{
    static const char margin[] = "margin";
    const char *name = brake_result_at(result)->name;
    const size_t length = strlen(name);
    bool is = length > strlen(margin) && strcmp(name + length - strlen(margin), margin) == 0;
    for (size_t i = 0; i < sizeof headlines / sizeof headlines[0]; i++)
        is = is || strcmp(name, headlines[i]) == 0;
    return is;
}

static bool is_judged(const struct brake_comparison *c, int criterion)
{
    const struct brake_criterion *row = brake_criterion_at(criterion);
    return (c->faded || !brake_measure_hot(row->measure)) &&
           (c->judgement[0][criterion].scope != BRAKE_OUTSIDE ||
            c->judgement[1][criterion].scope != BRAKE_OUTSIDE);
}

/* Neither vehicle has it: nothing to hold side by side. */
static bool is_absent(const struct brake_compared *one)
{
    return isnan(one->before) && isnan(one->after);
}

static struct brake_compared compared(double before, double after)
{
    struct brake_compared one = {.before = before, .after = after, .reason = not_worked_out};
    for (int i = 0; i < BRAKE_CHANGES; i++)
        one.share[i] = BRAKE_NAN;
    if (isnan(before))
        one.reason = unsaid_before;
    else if (isnan(after))
        one.reason = unsaid_after;
    else if (isinf(before))
        one.reason = unlimited_before;
    else if (isinf(after))
        one.reason = unlimited_after;
    return one;
}

static void add_margin(struct brake_comparison *c, struct brake_output output, double before,
                       double after)
{
    c->output[c->margins] = output;
    c->margin[c->margins] = compared(before, after);
    c->margins += is_absent(&c->margin[c->margins]) && !output.criterion ? 0 : 1;
}

static void take_margins(struct brake_comparison *c)
{
    c->margins = 0;
    for (int i = 0; i < brake_output_count(); i++) {
        const struct brake_output output = brake_output_at(i);
        const int at = output.index;
        if (output.criterion && is_judged(c, at))
            add_margin(c, output, c->judgement[0][at].margin, c->judgement[1][at].margin);
        else if (!output.criterion && is_headline(at))
            add_margin(c, output, brake_result_value(&c->results[0], at),
                       brake_result_value(&c->results[1], at));
    }
}

/* ---- like for like --------------------------------------------------------------------------- */

/* An axle that is to bear nothing needs no torque. */
static double over_need(double available, double needed)
{
    return needed > 0.0 ? available / needed : BRAKE_NAN;
}

void brake_torque_over_need(const struct brake_results *results,
                            double like[BRAKE_LOADS][BRAKE_AXLES + 1])
{
    for (int load = 0; load < BRAKE_LOADS; load++) {
        const struct brake_case_results *r = &results->load[load];
        like[load][BRAKE_FRONT] = over_need(r->torque.front_available, r->torque.front_needed);
        like[load][BRAKE_REAR] = over_need(r->torque.rear_available, r->torque.rear_needed);
        like[load][BRAKE_BOTH_AXLES] =
            over_need(r->torque.front_available + r->torque.rear_available,
                      r->torque.front_needed + r->torque.rear_needed);
    }
}

static void take_like(struct brake_comparison *c)
{
    double like[2][BRAKE_LOADS][BRAKE_AXLES + 1];
    for (int i = 0; i < 2; i++)
        brake_torque_over_need(&c->results[i], like[i]);
    for (int load = 0; load < BRAKE_LOADS; load++) {
        for (int axle = 0; axle <= BRAKE_BOTH_AXLES; axle++)
            c->like[load][axle] = compared(like[0][load][axle], like[1][load][axle]);
    }
}

double brake_like_missing(const struct brake_compared *like)
{
    const double missing = 1.0 - like->after / like->before;
    if (!isfinite(like->before) || !isfinite(like->after))
        return BRAKE_NAN;
    return like->before > 0.0 && missing > 1e-9 ? missing : 0.0; /* less is rounding */
}

/* What is rounding makes no load case the worse one. */
enum brake_load brake_compare_worst(const struct brake_comparison *c)
{
    const struct brake_compared *empty = &c->like[BRAKE_EMPTY][BRAKE_BOTH_AXLES];
    const struct brake_compared *full = &c->like[BRAKE_FULL][BRAKE_BOTH_AXLES];
    const double less = full->after / full->before - empty->after / empty->before;
    return less > 1e-9 ? BRAKE_EMPTY : BRAKE_FULL;
}

/* ---- both vehicles --------------------------------------------------------------------------- */

void brake_compare(const struct brake_sheet *before, const struct brake_sheet *after,
                   unsigned rules, struct brake_comparison *comparison)
{
    const struct brake_vehicle *vehicle[2] = {&before->vehicle, &after->vehicle};
    struct brake_comparison *c = comparison;
    c->before = before;
    c->after = after;
    c->rules = rules;
    c->faded = false;
    for (int i = 0; i < 2; i++) {
        brake_evaluate(vehicle[i], &c->results[i]);
        brake_judge_all(rules, vehicle[i], c->judgement[i]);
    }
    c->changes = brake_changes(vehicle[0], vehicle[1], c->change);
    take_margins(c);
    take_like(c);
}

bool brake_compare_fade(struct brake_comparison *comparison, const struct brake_watch *watch)
{
    struct brake_comparison *c = comparison;
    const struct brake_sheet *const sheet[] = {c->before, c->after};
    for (int i = 0; i < 2; i++) {
        if (watch_stops(watch))
            return false;
        brake_fade_judge(sheet[i], c->rules, c->judgement[i], &c->results[i]);
        watch_tell(watch, i + 1.0, 2.0);
    }
    c->faded = true;
    take_margins(c);
    return true;
}

bool brake_compare_conformance(struct brake_comparison *comparison, const struct brake_watch *watch,
                               struct brake_conformance_room *room)
{
    struct brake_comparison *c = comparison;
    const struct brake_sheet *const sheet[] = {c->before, c->after};
    const struct brake_conformance_options options = {c->rules, c->faded, watch};
    for (int i = 0; i < 2; i++) {
        if (!brake_conformance_draw(sheet[i], &options, room, c->judgement[i], &c->conformance[i]))
            return false;
    }
    return true;
}

void brake_compare_ruling(const struct brake_comparison *c, int side, struct brake_ruling *ruling)
{
    const struct brake_sheet *sheet = side == 0 ? c->before : c->after;
    brake_ruling_make(c->judgement[side], &sheet->vehicle, c->rules, c->faded, ruling);
}

bool brake_compare_lost(const struct brake_comparison *c, int criterion)
{
    return c->judgement[0][criterion].verdict == BRAKE_MEETS &&
           c->judgement[1][criterion].verdict == BRAKE_FALLS_SHORT;
}

/* A requirement that the vehicle after is held to, and of which it is not known whether it is
 * lost. */
static bool is_unsaid(const struct brake_comparison *c, int criterion)
{
    const struct brake_judgement *before = &c->judgement[0][criterion];
    const struct brake_judgement *after = &c->judgement[1][criterion];
    return is_judged(c, criterion) && brake_scope_counts(after->scope) &&
           (after->verdict == BRAKE_CANNOT_SAY ||
            (after->verdict == BRAKE_FALLS_SHORT && before->verdict == BRAKE_CANNOT_SAY));
}

int brake_compare_exit(const struct brake_comparison *comparison, const struct brake_before *before)
{
    const struct brake_comparison *c = comparison;
    bool lost = before->verdict == BRAKE_FALLS_SHORT;
    bool unsaid = before->verdict == BRAKE_CANNOT_SAY;
    for (int i = 0; i < brake_criterion_count(); i++) {
        lost = lost || brake_compare_lost(c, i);
        unsaid = unsaid || is_unsaid(c, i);
    }
    return lost ? 1 : unsaid ? 3 : 0;
}

/* ---- shares ---------------------------------------------------------------------------------- */

/* Vehicles that a thread answers in a run, so that threads seldom write side by side; one where
 * each runs fade procedures. Runs at a time, so that it may be watched. */
enum { RUN = 16, RUNS = 16 };
enum { LIKES = BRAKE_LOADS * (BRAKE_AXLES + 1) };

static size_t columns(const struct brake_comparison *c)
{
    return (size_t)c->margins + LIKES;
}

size_t brake_compare_room(const struct brake_comparison *c)
{
    return columns(c) << c->changes;
}

/* What all coalitions have in common. */
struct sharing {
    const struct brake_comparison *c;
    struct brake_mixing mixing;
    unsigned long long torques; /* groups of the results that are held like for like */
};

unsigned long long brake_torque_groups(void)
{
    unsigned long long groups = 0;
    for (int i = 0; i < brake_result_count(); i++)
        groups |= strcmp(brake_result_at(i)->name, "torque.front_needed") == 0
                      ? brake_result_group(i)
                      : 0;
    return groups;
}

/* Every number that is held side by side, of some vehicles. */
static void answer(const struct sharing *s, const struct brake_vehicle *const *vehicle, int count,
                   double *value)
{
    const struct brake_comparison *c = s->c;
    brake_outputs_all(vehicle, count, c->output, c->margins, columns(c), value);
    for (int i = 0; i < count; i++) {
        struct brake_results results;
        double like[BRAKE_LOADS][BRAKE_AXLES + 1];
        brake_evaluate_groups(vehicle[i], s->torques, &results);
        brake_torque_over_need(&results, like);
        memcpy(value + (size_t)i * columns(c) + c->margins, like, sizeof like);
    }
}

static unsigned groups_of(const struct brake_comparison *c, unsigned coalition)
{
    unsigned groups = 0;
    for (int i = 0; i < c->changes; i++)
        groups |= (coalition >> i & 1U) << c->change[i];
    return groups;
}

/* The two ends are the vehicles themselves, so that shares add up to their difference. */
static const struct brake_vehicle *coalition_of(const struct sharing *s, unsigned coalition,
                                                struct brake_vehicle *mixed)
{
    const struct brake_comparison *c = s->c;
    if (coalition == 0)
        return &c->before->vehicle;
    if (coalition == (1U << c->changes) - 1U)
        return &c->after->vehicle;
    brake_mixing_make(&s->mixing, groups_of(c, coalition), mixed);
    return mixed;
}

/* Up to `most` of them side by side, as many as there is room for in `mixed`. */
static void answer_by(const struct sharing *s, unsigned from, unsigned to, unsigned most,
                      struct brake_vehicle *mixed, double *room)
{
    for (unsigned first = from; first < to; first += most) {
        const unsigned count = to - first < most ? to - first : most;
        const struct brake_vehicle *vehicle[BRAKE_TOGETHER];
        for (unsigned i = 0; i < count; i++)
            vehicle[i] = coalition_of(s, first + i, &mixed[i]);
        answer(s, vehicle, (int)count, room + first * columns(s->c));
    }
}

/* Without memory: the same one by one. */
__attribute__((noinline)) static void answer_one_by_one(const struct sharing *s, unsigned from,
                                                        unsigned to, double *room)
{
    struct brake_vehicle mixed;
    answer_by(s, from, to, 1, &mixed, room);
}

static void answer_run(const struct sharing *s, unsigned from, unsigned to, double *room)
{
    struct brake_vehicle *mixed = calloc(BRAKE_TOGETHER, sizeof *mixed);
    if (mixed != NULL)
        answer_by(s, from, to, BRAKE_TOGETHER, mixed, room);
    else
        answer_one_by_one(s, from, to, room);
    free(mixed);
}

static void share_out(const struct brake_comparison *c, const double *value,
                      struct brake_compared *one)
{
    double share[BRAKE_CHANGES];
    if (one->reason != not_worked_out)
        return;
    if (!brake_shapley(c->changes, value, columns(c), share)) {
        one->reason = unsaid_between;
        return;
    }
    one->reason = NULL;
    for (int i = 0; i < BRAKE_CHANGES; i++)
        one->share[i] = 0.0;
    for (int i = 0; i < c->changes; i++)
        one->share[c->change[i]] = share[i];
}

bool brake_compare_share(struct brake_comparison *comparison, const struct brake_watch *watch,
                         double *room)
{
    struct brake_comparison *c = comparison;
    const unsigned coalitions = 1U << c->changes;
    const unsigned run = c->faded ? BRAKE_TOGETHER : RUN;
    const unsigned block = RUNS * run;
    struct sharing sharing = {.c = c, .torques = brake_torque_groups()};
    brake_mixing_begin(&c->before->vehicle, &c->after->vehicle, &sharing.mixing);
    for (unsigned first = 0; first < coalitions; first += block) {
        const unsigned end = first + block < coalitions ? first + block : coalitions;
        if (watch_stops(watch))
            return false;
#pragma omp parallel for schedule(dynamic)
        for (unsigned from = first; from < end; from += run)
            answer_run(&sharing, from, from + run < end ? from + run : end, room);
        watch_tell(watch, end, coalitions);
    }
    for (int i = 0; i < c->margins; i++)
        share_out(c, room + i, &c->margin[i]);
    for (int i = 0; i < LIKES; i++)
        share_out(c, room + c->margins + i, &c->like[i / (BRAKE_AXLES + 1)][i % (BRAKE_AXLES + 1)]);
    return true;
}
