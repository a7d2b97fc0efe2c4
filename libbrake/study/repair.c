/* SPDX-License-Identifier: MIT */
#include "brake/repair.h"

#include <math.h>
#include <stdlib.h>

#include "assess.h"
#include "comparing.h"
#include "conformance.h"
#include "criteria/judge.h"
#include "parts.h"
#include "procedure.h"
#include "vehicle/groups.h"
#include "vehicle/sections.h"

enum {
    ROWS = 64,  /* that count, and one for the torque per need of before */
    BEAM = 12,  /* pairs that a third part is added to */
    TRIALS = 3, /* repairs that are drawn anew for a goal, at most */
    PAIRS = BRAKE_PARTS_OFFERED * BRAKE_PARTS_OFFERED / 2
};

static const double WIDE = 0.25;     /* margin asked where samples cannot be worked out */
static const double MORE = 0.04;     /* margin asked beyond that when a fit failed */
static const double ROUNDING = 1e-9; /* of a margin that is to stay */
static const double HOT_SAME = 0.02; /* of a margin of hot performance: less is no change */

/* Parts that are changed at once. */
struct fit {
    int part[BRAKE_REPAIR_CHANGES]; /* numbers of the offers, rising */
    int count;
    enum brake_repair_class takes;
    double far;
    double margin[ROWS]; /* of what is asked, as the lines stand */
    double lack;         /* sum of what the margins lack; 0: it does */
};

/* How much is asked of a repair. */
enum goal {
    ALL_MET,    /* all that counts is met */
    SHORT_MET,  /* what falls short is met, the rest no worse */
    NONE_SHORT, /* nothing falls short, the rest no worse */
    GOALS
};

struct search {
    const struct brake_sheet *sheet;
    const struct brake_assessment *now;
    struct brake_part_offer offer[BRAKE_PARTS_OFFERED];
    int offers;
    int row[ROWS]; /* requirements that count; -1: the torque per need of before */
    int rows;
    double need[ROWS]; /* margin that each must have; -infinity: any */
    double before;     /* torque over need of the vehicle before; NaN: not told */
    struct fit single[BRAKE_PARTS_OFFERED];
    int singles;
    struct fit pair[PAIRS];
    int pairs;
    struct fit triple[BEAM * BRAKE_PARTS_OFFERED];
    int triples;
};

/* ---- what is asked -------------------------------------------------------------------------- */

/* Margin from which on 95 of 100 meet, when the scatter stays as it is over the value. */
static double sure_margin(double margin, double low)
{
    if (!isfinite(low) || !isfinite(margin) || !(1.0 + low > 0.1))
        return WIDE;
    return fmax(0.0, (1.0 + margin) / (1.0 + low) - 1.0);
}

/* No brake mends what carries too much. */
static bool is_load(int criterion)
{
    const enum brake_measure measure = brake_criterion_at(criterion)->measure;
    return measure == BRAKE_TYRE_LOAD || measure == BRAKE_AXLE_LOAD || measure == BRAKE_MASS_LOAD;
}

static void list_rows(struct search *s)
{
    s->rows = 0;
    for (int i = 0; i < brake_criterion_count() && s->rows < ROWS - 1; i++) {
        if (brake_conformance_counts(&s->now->judgement[i], &s->now->conformance.of[i]) &&
            !is_load(i))
            s->row[s->rows++] = i;
    }
    if (s->now->before != NULL)
        s->row[s->rows++] = -1;
}

static bool is_hot(const struct search *s, int row)
{
    return s->row[row] >= 0 && brake_measure_hot(brake_criterion_at(s->row[row])->measure);
}

static double margin_now(const struct search *s, int row)
{
    return s->row[row] < 0 ? s->now->before->of[BRAKE_BOTH_AXLES].ratio - 1.0
                           : s->now->judgement[s->row[row]].margin;
}

static double sure_now(const struct search *s, int row)
{
    if (s->row[row] >= 0)
        return sure_margin(margin_now(s, row), s->now->conformance.of[s->row[row]].margin[0]);
    return sure_margin(margin_now(s, row), s->now->before->of[BRAKE_BOTH_AXLES].low - 1.0) -
           BRAKE_AS_BEFORE;
}

/* What is met stays met, or no worse; what is not is to be met as the goal says. */
static void ask(struct search *s, enum goal goal)
{
    for (int i = 0; i < s->rows; i++) {
        const enum brake_verdict word =
            s->row[i] < 0 ? s->now->before->verdict : s->now->judgement[s->row[i]].verdict;
        const double now = margin_now(s, i);
        s->need[i] = sure_now(s, i);
        if (word == BRAKE_MEETS || (word == BRAKE_CANNOT_SAY && goal != ALL_MET))
            s->need[i] = fmin(s->need[i], now - fabs(now) * ROUNDING);
        else if (word == BRAKE_FALLS_SHORT && goal == NONE_SHORT)
            s->need[i] = s->row[i] < 0 ? s->need[i] : 0.3 * s->need[i];
    }
}

/* ---- a fit at face value -------------------------------------------------------------------- */

enum brake_status brake_repair_fit(struct brake_sheet *sheet,
                                   const struct brake_repair_change *change, int count)
{
    struct brake_error error = {.status = BRAKE_OK};
    for (int i = 0; i < count; i++) {
        for (int k = 0; k < change[i].settings; k++) {
            const int line = change[i].line[k];
            const double value = change[i].value[k];
            const enum brake_status status = brake_quantity_at(line)->kind == BRAKE_CHOICE
                                                 ? brake_sheet_choose(sheet, line, (int)value)
                                                 : brake_sheet_set(sheet, line, value);
            if (status != BRAKE_OK)
                return status;
        }
    }
    return brake_sheet_complete(sheet, &error);
}

static bool put(const struct search *s, const struct fit *fit, struct brake_sheet *sheet)
{
    struct brake_repair_change change[BRAKE_REPAIR_CHANGES];
    for (int i = 0; i < fit->count; i++)
        change[i] = s->offer[fit->part[i]].change;
    *sheet = *s->sheet;
    return brake_repair_fit(sheet, change, fit->count) >= BRAKE_OK;
}

static double torque_over_need(const struct search *s, const struct brake_vehicle *vehicle)
{
    double like[BRAKE_LOADS][BRAKE_AXLES + 1];
    struct brake_results results;
    brake_evaluate_groups(vehicle, brake_torque_groups(), &results);
    brake_torque_over_need(&results, like);
    return like[s->now->before->load][BRAKE_BOTH_AXLES];
}

/* What hot performance gives is seen when a fit is drawn; NaN: the vehicle would be refused. */
static void put_margins(const struct search *s, struct fit *fit)
{
    struct brake_sheet sheet;
    struct brake_judgement judgement[BRAKE_CRITERIA];
    const bool fits = put(s, fit, &sheet);
    if (fits)
        brake_judge_all(s->now->rules, &sheet.vehicle, judgement);
    for (int i = 0; i < s->rows; i++) {
        fit->margin[i] = BRAKE_NAN;
        if (fits && s->row[i] < 0)
            fit->margin[i] = torque_over_need(s, &sheet.vehicle) / s->before - 1.0;
        else if (fits)
            fit->margin[i] = is_hot(s, i) ? margin_now(s, i) : judgement[s->row[i]].margin;
    }
}

/* Hot performance is not asked here: it depends on what a fit begins with. */
static void put_lack(const struct search *s, struct fit *fit)
{
    fit->lack = 0.0;
    for (int i = 0; i < s->rows; i++) {
        const double missing = s->need[i] - fit->margin[i];
        if (!is_hot(s, i))
            fit->lack += isnan(missing) ? 1.0 : fmin(1.0, fmax(0.0, missing));
    }
}

/* ---- all fits ------------------------------------------------------------------------------- */

/* A fit with one part more; false when the place is taken. */
static bool with(const struct search *s, const struct fit *fit, int part, struct fit *more)
{
    const struct brake_part_offer *offer = &s->offer[part];
    for (int i = 0; i < fit->count; i++) {
        if (s->offer[fit->part[i]].place == offer->place)
            return false;
    }
    *more = *fit;
    more->part[more->count++] = part;
    more->far += offer->far;
    if (offer->change.takes > more->takes)
        more->takes = offer->change.takes;
    return true;
}

static void work_out(const struct search *s, struct fit *fit, int count)
{
#pragma omp parallel for schedule(dynamic, 8)
    for (int i = 0; i < count; i++)
        put_margins(s, &fit[i]);
}

/* Below 0, 0 or above 0 as one number is less than another, the same, or more. */
static int order(double a, double b)
{
    return (a > b) - (a < b);
}

static int by_lack(const void *one, const void *other)
{
    const struct fit *a = one;
    const struct fit *b = other;
    if (order(a->lack, b->lack) != 0)
        return order(a->lack, b->lack);
    if (order(a->far, b->far) != 0)
        return order(a->far, b->far);
    for (int i = 0; i < a->count; i++) {
        if (a->part[i] != b->part[i])
            return a->part[i] - b->part[i];
    }
    return 0;
}

static bool hot_lacks(const struct search *s)
{
    for (int i = 0; i < s->rows; i++) {
        if (is_hot(s, i) && s->now->judgement[s->row[i]].verdict != BRAKE_MEETS)
            return true;
    }
    return false;
}

/* What every fit begins with: the best fluid where hot performance lacks something, which takes too
 * long to be asked of every fit. */
static struct fit first_fit(const struct search *s)
{
    struct fit fit = {.count = 0};
    const int fluid = brake_parts_best_fluid(s->offer, s->offers);
    if (fluid >= 0 && hot_lacks(s))
        (void)with(s, &(struct fit){.count = 0}, fluid, &fit);
    return fit;
}

static void build(struct search *s)
{
    const struct fit first = first_fit(s);
    s->singles = s->pairs = 0;
    if (first.count > 0)
        s->single[s->singles++] = first;
    for (int i = 0; i < s->offers && first.count == 0; i++)
        (void)with(s, &first, i, &s->single[s->singles++]);
    /* What is offered before the best fluid are other fluids, whose place it takes. */
    for (int i = 0; i < s->singles; i++) {
        for (int k = s->single[i].part[0] + 1; k < s->offers; k++)
            s->pairs += with(s, &s->single[i], k, &s->pair[s->pairs]) ? 1 : 0;
    }
    work_out(s, s->single, s->singles);
    work_out(s, s->pair, s->pairs);
}

static void sort(const struct search *s, struct fit *fit, int count)
{
    for (int i = 0; i < count; i++)
        put_lack(s, &fit[i]);
    qsort(fit, (size_t)count, sizeof *fit, by_lack);
}

/* By what the goal lacks; the best pairs are given a third part. */
static void sort_all(struct search *s)
{
    sort(s, s->single, s->singles);
    sort(s, s->pair, s->pairs);
    s->triples = 0;
    for (int i = 0; i < s->pairs && i < BEAM; i++) {
        for (int k = s->pair[i].part[1] + 1; k < s->offers; k++)
            s->triples += with(s, &s->pair[i], k, &s->triple[s->triples]) ? 1 : 0;
    }
    work_out(s, s->triple, s->triples);
    sort(s, s->triple, s->triples);
}

/* ---- the full rule -------------------------------------------------------------------------- */

struct trial {
    struct brake_sheet sheet;
    struct brake_assessment assessment;
    struct brake_before before;
};

struct room {
    struct search search;
    struct trial trial;
};

static bool any_hot(const struct search *s)
{
    bool any = false;
    for (int i = 0; i < s->rows; i++)
        any = any || is_hot(s, i);
    return any;
}

/* Hot performance takes long to be drawn: that is done where it was not met, or gets worse. */
static bool draws_hot(const struct search *s, const struct trial *t)
{
    for (int i = 0; i < s->rows; i++) {
        if (!is_hot(s, i))
            continue;
        const double then = margin_now(s, i);
        const double margin = t->assessment.judgement[s->row[i]].margin;
        if (s->now->judgement[s->row[i]].verdict != BRAKE_MEETS ||
            !(margin >= then - HOT_SAME * fabs(then)))
            return true;
    }
    return false;
}

static bool hot_enough(const struct search *s, const struct trial *t)
{
    for (int i = 0; i < s->rows; i++) {
        if (is_hot(s, i) && !(t->assessment.judgement[s->row[i]].margin >= s->need[i]))
            return false;
    }
    return true;
}

static bool draw(const struct search *s, bool hot, struct trial *t)
{
    struct brake_conformance_room *room = brake_conformance_room_new();
    if (room == NULL)
        return false;
    brake_assess(&t->sheet, s->now->rules, &t->assessment);
    if (any_hot(s))
        brake_assess_fade(&t->sheet, NULL, &t->assessment);
    (void)brake_assess_conformance(&t->sheet, hot, NULL, room, &t->assessment);
    brake_conformance_room_free(room);
    return true;
}

/* How far a drawn trial reaches: nothing that was met may be lost. */
static enum brake_repair_reach reach_of(const struct search *s, bool hot, const struct trial *t)
{
    enum brake_repair_reach reach = BRAKE_REPAIR_ALL;
    for (int i = 0; i < s->rows; i++) {
        if (s->row[i] < 0 || (!hot && is_hot(s, i)))
            continue;
        const enum brake_verdict then = s->now->judgement[s->row[i]].verdict;
        const enum brake_verdict word = t->assessment.judgement[s->row[i]].verdict;
        if (word == BRAKE_FALLS_SHORT || (word != BRAKE_MEETS && then == BRAKE_MEETS))
            return BRAKE_REPAIR_NONE;
        if (word != BRAKE_MEETS)
            reach = BRAKE_REPAIR_SHORT;
    }
    return reach;
}

/* The same of the torque per need of before, which is drawn when all else does. */
static enum brake_repair_reach regained(const struct search *s, struct trial *t,
                                        enum brake_repair_reach reach)
{
    if (s->now->before == NULL || reach == BRAKE_REPAIR_NONE)
        return reach;
    if (brake_before_draw(s->now->before->sheet, &t->sheet, &t->before) != BRAKE_OK ||
        t->before.verdict == BRAKE_FALLS_SHORT)
        return BRAKE_REPAIR_NONE;
    brake_assess_before(&t->assessment, &t->before);
    return t->before.verdict == BRAKE_MEETS ? reach : BRAKE_REPAIR_SHORT;
}

static void take(const struct search *s, const struct fit *fit, const struct trial *t,
                 enum brake_repair_reach reach, struct brake_repair *repair)
{
    repair->reach = reach;
    repair->changes = fit->count;
    for (int i = 0; i < fit->count; i++)
        repair->change[i] = s->offer[fit->part[i]].change;
    repair->counted = t->assessment.ruling.counted;
    repair->all_met = t->assessment.conformance.all_met;
    if (s->now->before != NULL)
        repair->regained = t->before.of[BRAKE_BOTH_AXLES].ratio;
}

/* Draws a fit; true when it does what is asked. */
static bool try_fit(struct search *s, const struct fit *fit, enum goal goal, struct trial *t,
                    struct brake_repair *repair)
{
    const enum brake_repair_reach least = goal == ALL_MET ? BRAKE_REPAIR_ALL : BRAKE_REPAIR_SHORT;
    if (!put(s, fit, &t->sheet) || !draw(s, false, t) || reach_of(s, false, t) < least)
        return false;
    const bool hot = draws_hot(s, t);
    if (hot && (!hot_enough(s, t) || !draw(s, true, t)))
        return false;
    const enum brake_repair_reach reach = regained(s, t, reach_of(s, hot, t));
    if (reach < least)
        return false;
    take(s, fit, t, reach, repair);
    return true;
}

/* Of those that do at face value: the cheapest class, then the fewest parts, then the nearest to
 * what is fitted. NULL: none does. */
static struct fit *pick(struct search *s)
{
    struct fit *list[] = {s->single, s->pair, s->triple};
    const int count[] = {s->singles, s->pairs, s->triples};
    struct fit *best = NULL;
    for (int n = 0; n < BRAKE_REPAIR_CHANGES; n++) {
        for (int i = 0; i < count[n] && list[n][i].lack <= 0.0; i++) {
            if (best == NULL || list[n][i].takes < best->takes)
                best = &list[n][i];
        }
    }
    return best;
}

/* Of a trial that failed: more is asked where it did. */
static void ask_more(struct search *s, const struct trial *t)
{
    for (int i = 0; i < s->rows; i++) {
        if (s->row[i] >= 0 && t->assessment.judgement[s->row[i]].verdict != BRAKE_MEETS)
            s->need[i] += MORE;
    }
}

static bool look(struct search *s, enum goal goal, struct trial *t, struct brake_repair *repair)
{
    ask(s, goal);
    for (int i = 0; i < TRIALS; i++) {
        sort_all(s);
        const struct fit *fit = pick(s);
        if (fit == NULL)
            return false;
        if (try_fit(s, fit, goal, t, repair))
            return true;
        ask_more(s, t);
    }
    return false;
}

/* ---- all ------------------------------------------------------------------------------------ */

/* What the nearest fit of several parts still lacks most of; -1: nothing, or no requirement. */
static int left_over(const struct search *s)
{
    double most = 0.0;
    int stays = -1;
    if (s->pairs == 0)
        return -1;
    const struct fit *nearest = &s->pair[0];
    if (s->triples > 0 && s->triple[0].lack < nearest->lack)
        nearest = &s->triple[0];
    for (int i = 0; i < s->rows; i++) {
        if (!is_hot(s, i) && s->need[i] - nearest->margin[i] > most) {
            most = s->need[i] - nearest->margin[i];
            stays = s->row[i];
        }
    }
    return stays;
}

static bool wanted(const struct search *s)
{
    for (int i = 0; i < s->rows; i++) {
        const enum brake_verdict word =
            s->row[i] < 0 ? s->now->before->verdict : s->now->judgement[s->row[i]].verdict;
        if (word != BRAKE_MEETS)
            return true;
    }
    return false;
}

static void find(struct search *s, struct trial *t, struct brake_repair *repair)
{
    list_rows(s);
    repair->wanted = wanted(s);
    if (!repair->wanted)
        return;
    s->before = BRAKE_NAN;
    if (s->now->before != NULL)
        s->before = torque_over_need(s, &s->now->before->sheet->vehicle);
    s->offers = brake_parts_offered(s->sheet, s->offer);
    build(s);
    for (int goal = 0; goal < GOALS; goal++) {
        if (look(s, (enum goal)goal, t, repair) || s->now->ruling.counted.falls_short == 0)
            return;
    }
    repair->stays = left_over(s);
}

bool brake_repair_find(const struct brake_sheet *sheet, const struct brake_assessment *assessment,
                       struct brake_repair *repair)
{
    *repair = (struct brake_repair){.stays = -1, .all_met = BRAKE_NAN, .regained = BRAKE_NAN};
    struct room *room = malloc(sizeof *room);
    if (room == NULL)
        return false;
    room->search.sheet = sheet;
    room->search.now = assessment;
    find(&room->search, &room->trial, repair);
    free(room);
    return true;
}
