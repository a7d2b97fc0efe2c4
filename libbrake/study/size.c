/* SPDX-License-Identifier: MIT */
#include "brake/size.h"
#include "asked.h"
#include "comparing.h"
#include "scan.h"
#include "settled.h"
#include "target.h"
#include "vehicle/recalculation.h"
#include "criteria/judge.h"
#include "conformance.h"
#include "model/braking_lanes.h"

#include <math.h>
#include <stddef.h>

static const double FLAT = 1e-9;  /* of the value: less is no move */
static const double WIDE = 4.0;   /* high over low: from here on points are spaced by ratio */
static const double HELPS = 1e-3; /* of what is missing: less is no help */

/* When each value takes a fade procedure: points, and its error of 0.1 K in some hundreds. */
enum { SLOW = 65 };
static const double SLOW_NOISE = 1e-4;

/* ---- what is wanted ------------------------------------------------------------------------- */

static double least_margin(const struct brake_vehicle *vehicle, unsigned rules)
{
    struct brake_judgement judgement[BRAKE_CRITERIA];
    double least = BRAKE_NAN;
    brake_judge_all(rules, vehicle, judgement);
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (judgement[i].scope != BRAKE_OUTSIDE && judgement[i].scope != BRAKE_SCREEN)
            least = fmin(least, judgement[i].margin); /* fmin passes over NaN */
    }
    return least;
}

double brake_target_value(const struct brake_target *target, const struct brake_vehicle *vehicle)
{
    double value;
    if (target->wish == BRAKE_WISH_ALL)
        return least_margin(vehicle, target->rules);
    if (target->wish == BRAKE_WISH_REGAINED)
        return brake_before_regained(&target->before->vehicle, vehicle) - 1.0;
    brake_outputs(vehicle, &target->output, 1, &value);
    return value;
}

bool brake_target_of_margin(const struct brake_target *target)
{
    return target->wish != BRAKE_WISH_OUTPUT || target->output.criterion;
}

/* What is to be regained is held against a vehicle that was not driven: as the lines stand. */
void brake_target_settle(const struct brake_sheet *sheet, const struct brake_target *target,
                         int targets, struct brake_sheet *settled)
{
    bool as_lines = false;
    for (int i = 0; i < targets; i++)
        as_lines = as_lines || target[i].wish == BRAKE_WISH_REGAINED;
    if (as_lines)
        *settled = *sheet;
    else
        brake_settle(sheet, settled);
}

/* Above 0 on the wanted side. */
static double excess(const struct brake_target *target, double value)
{
    return target->relation == BRAKE_AT_MOST ? target->value - value : value - target->value;
}

double brake_target_margin(const struct brake_target *target, double value)
{
    const bool plain = brake_target_of_margin(target) || target->value == 0.0;
    const double scale = plain ? 1.0 : fabs(target->value);
    return excess(target, value) / scale;
}

/* ---- one quantity over a range -------------------------------------------------------------- */

struct asking {
    const struct brake_sheet *sheet; /* the quantity is set on it */
    struct brake_places places;
    const struct brake_size_question *question;
};

static double ask(void *context, double x)
{
    const struct asking *asking = context;
    const struct brake_target *target = &asking->question->target;
    struct brake_vehicle vehicle;
    brake_sheet_vary(asking->sheet, &asking->places, asking->question->by, x, &vehicle);
    return excess(target, brake_target_value(target, &vehicle));
}

/* Hot targets at some places of the range, side by side. */
static void ask_together(const struct asking *asking, const double *x, int count, double *value)
{
    const struct brake_target *target = &asking->question->target;
    struct brake_vehicle room[BRAKE_TOGETHER];
    const struct brake_vehicle *vehicle[BRAKE_TOGETHER] = {NULL};
    for (int i = 0; i < count; i++) {
        brake_sheet_vary(asking->sheet, &asking->places, asking->question->by, x[i], &room[i]);
        vehicle[i] = &room[i];
    }
    brake_outputs_all(vehicle, count, &target->output, 1, 1, value);
    for (int i = 0; i < count; i++)
        value[i] = excess(target, value[i]);
}

static void ask_hot(void *context, const double *x, int count, double *value)
{
#pragma omp parallel for schedule(dynamic, 1)
    for (int first = 0; first < count; first += BRAKE_TOGETHER) {
        const int some = count - first < BRAKE_TOGETHER ? count - first : BRAKE_TOGETHER;
        ask_together(context, &x[first], some, &value[first]);
    }
}

static struct brake_scan scan_of(struct asking *asking)
{
    const double low = asking->question->low;
    const double high = asking->question->high;
    const struct brake_target *target = &asking->question->target;
    const bool slow = target->wish == BRAKE_WISH_OUTPUT && brake_output_faded(target->output);
    return (struct brake_scan){.value = ask,
                               .context = asking,
                               .low = low,
                               .high = high,
                               .points = slow ? SLOW : BRAKE_SCAN_POINTS,
                               .logarithmic = low > 0.0 && high / low >= WIDE,
                               .noise = slow ? SLOW_NOISE : 0.0,
                               .values = slow ? ask_hot : NULL};
}

static enum brake_status set_on(const struct brake_sheet *sheet, int by, double value,
                                struct brake_sheet *changed, struct brake_error *error)
{
    *changed = *sheet;
    const enum brake_status status = brake_sheet_set(changed, by, value);
    if (status == BRAKE_OK)
        return brake_sheet_complete(changed, error);
    *error = (struct brake_error){.status = status};
    return status;
}

/* Moved a tenth up one by one, these show what holds a result back. */
static const struct {
    const char *path;
    const char *words;
} holds[] = {
    {"road.adhesion", "the tyres, at the limit of adhesion"},
    {"booster.assist", "the booster, which has run out"},
    {"master.primary_stroke", "the stroke of the primary chamber"},
    {"master.secondary_stroke", "the stroke of the secondary chamber"},
    {"pedal.travel", "the travel of the pedal"},
    {"driver.pedal_force", "the pedal force"},
    {"driver.pedal_force_most", "the most pedal force"},
    {"valve.knee", "the knee of the rear valve"},
    {"parking.torque", "the torque of the parking brake"},
};

/* The most that another quantity still helps, the one that is sought chosen anew. */
static double nearest_with(const struct brake_size_question *question,
                           const struct brake_sheet *set, int quantity)
{
    const double value = brake_quantity_value(&set->vehicle, quantity);
    struct brake_sheet more;
    struct brake_error error = {.status = BRAKE_OK};
    struct asking asking = {.sheet = &more, .question = question};
    brake_places_fill(&asking.places);
    struct brake_scan scan = scan_of(&asking);
    struct brake_roots roots;
    if (isnan(value) || set_on(set, quantity, 1.1 * value, &more, &error) != BRAKE_OK)
        return BRAKE_NAN;
    scan.points = (scan.points + 3) / 4; /* limits are looked for in coarser steps */
    brake_roots_find(&scan, NULL, &roots);
    return roots.count > 0 ? 0.0 : roots.shortest;
}

static double value_of(const struct brake_target *target, double excess)
{
    return target->value + (target->relation == BRAKE_AT_MOST ? -excess : excess);
}

/* What helps most stands first. */
static void keep_limit(struct brake_size *size, struct brake_size_limit limit, double goal)
{
    int at = size->limits++;
    for (; at > 0 && fabs(size->limit[at - 1].value - goal) > fabs(limit.value - goal); at--)
        size->limit[at] = size->limit[at - 1];
    size->limit[at] = limit;
}

static void find_limits(const struct brake_size_question *question, const struct brake_sheet *set,
                        struct brake_size *size)
{
    const struct brake_target *target = &question->target;
    for (size_t i = 0; i < sizeof holds / sizeof holds[0]; i++) {
        const int quantity = brake_catalogue_find(NULL, holds[i].path);
        if (quantity == question->by)
            continue;
        const double left = nearest_with(question, set, quantity);
        if (fabs(left) < (1.0 - HELPS) * fabs(size->roots.shortest))
            keep_limit(size,
                       (struct brake_size_limit){quantity, holds[i].words, value_of(target, left)},
                       target->value);
    }
}

/* An answer at which the whole vehicle is refused is none. */
static void leave_out_refused(const struct brake_size_question *question, struct brake_size *size)
{
    int kept = 0;
    for (int i = 0; i < size->roots.count; i++) {
        struct brake_sheet sheet;
        struct brake_error error = {.status = BRAKE_OK};
        const struct brake_root root = size->roots.root[i];
        if (set_on(question->sheet, question->by, root.x, &sheet, &error) == BRAKE_OK)
            size->roots.root[kept++] = root;
        else if (size->refused++ == 0)
            size->error = error;
    }
    size->roots.count = kept;
}

static bool is_flat(const struct brake_roots *roots, double target)
{
    const double scale = fmax(fabs(target), fmax(fabs(roots->least), fabs(roots->most)));
    return roots->finite == roots->known && roots->most - roots->least <= FLAT * scale;
}

static enum brake_status find(const struct brake_size_question *question,
                              const struct brake_watch *watch, struct brake_size *size,
                              struct brake_error *error)
{
    const double now = brake_quantity_value(&question->sheet->vehicle, question->by);
    const double middle = 0.5 * (question->low + question->high);
    struct brake_sheet set;
    const enum brake_status status =
        set_on(question->sheet, question->by, isnan(now) ? middle : now, &set, error);
    struct asking asking = {.sheet = &set, .question = question};
    brake_places_fill(&asking.places);
    *size = (struct brake_size){.scan = scan_of(&asking)};
    if (status != BRAKE_OK)
        return status;
    brake_roots_find(&size->scan, watch, &size->roots);
    size->scan.value = NULL;
    size->scan.values = NULL;
    size->scan.context = NULL;
    if (size->roots.stopped)
        return BRAKE_OK;
    size->now = brake_target_value(&question->target, &question->sheet->vehicle);
    size->best = value_of(&question->target, size->roots.shortest);
    size->flat = is_flat(&size->roots, question->target.value);
    leave_out_refused(question, size);
    if (size->roots.known > 0 && !brake_size_answered(question, size))
        find_limits(question, &set, size);
    return BRAKE_OK;
}

enum brake_status brake_size_find(const struct brake_size_question *question,
                                  const struct brake_watch *watch, struct brake_size *size,
                                  struct brake_error *error)
{
    struct brake_size_question settled = *question;
    struct brake_sheet sheet;
    brake_target_settle(question->sheet, &question->target, 1, &sheet);
    settled.sheet = &sheet;
    return find(&settled, watch, size, error);
}

bool brake_size_answered(const struct brake_size_question *question, const struct brake_size *size)
{
    bool answered = false;
    for (int i = 0; i < size->roots.count; i++)
        answered = answered || question->target.relation != BRAKE_EQUAL ||
                   size->roots.root[i].kind != BRAKE_JUMP;
    if (size->roots.count == 0 && size->refused == 0 && question->target.relation != BRAKE_EQUAL)
        answered = size->roots.shortest >= 0.0;
    return answered;
}

static bool words_of(const struct brake_sheet *sheet, unsigned rules,
                     struct brake_conformance_room *room, struct brake_judgement *judgement)
{
    const struct brake_conformance_options options = {rules, false, NULL};
    struct brake_conformances conformance = {.samples = 0};
    brake_judge_all(rules, &sheet->vehicle, judgement);
    return brake_conformance_draw(sheet, &options, room, judgement, &conformance);
}

int brake_size_changes(const struct brake_sheet *sheet, int by, double value, unsigned rules,
                       struct brake_conformance_room *room, struct brake_size_change *change)
{
    struct brake_judgement before[BRAKE_CRITERIA];
    struct brake_judgement after[BRAKE_CRITERIA];
    struct brake_sheet changed;
    struct brake_error error = {.status = BRAKE_OK};
    int count = 0;
    if (set_on(sheet, by, value, &changed, &error) != BRAKE_OK ||
        !words_of(sheet, rules, room, before) || !words_of(&changed, rules, room, after))
        return 0;
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (after[i].scope != BRAKE_OUTSIDE && before[i].verdict != after[i].verdict)
            change[count++] =
                (struct brake_size_change){i, before[i].verdict, after[i].verdict, after[i].margin};
    }
    return count;
}
