/* SPDX-License-Identifier: MIT */
/* Parts of a list: which combinations, which tyres do. */
#include <math.h>
#include <stdio.h>

#include "brake/size.h"
#include "brake/tyre.h"
#include "vehicle/sections.h"
#include "watching.h"
#include "vehicle/text.h"
#include "target.h"
#include "tyres.h"

/* Fills what each target gets; returns the least margin, NaN when one cannot be said. */
static double get(const struct brake_choice_question *question, const struct brake_vehicle *vehicle,
                  double got[BRAKE_TARGETS], int *least)
{
    double margin = BRAKE_INFINITY;
    bool said = true;
    *least = -1;
    for (int i = 0; i < question->targets; i++) {
        got[i] = brake_target_value(&question->target[i], vehicle);
        const double own = brake_target_margin(&question->target[i], got[i]);
        said = said && !isnan(own);
        if (*least < 0 || own < margin) {
            margin = own;
            *least = i;
        }
    }
    return said ? margin : BRAKE_NAN;
}

static struct brake_choice_question settle(const struct brake_choice_question *asked,
                                           struct brake_sheet *settled)
{
    struct brake_choice_question question = *asked;
    brake_target_settle(asked->sheet, asked->target, asked->targets, settled);
    question.sheet = settled;
    return question;
}

/* ---- combinations --------------------------------------------------------------------------- */

/* The largest margin first; of equals the earlier. */
static int keep(struct brake_choice *choice, int kept, int room, const struct brake_choice *one)
{
    int at = kept;
    while (at > 0 && choice[at - 1].margin < one->margin)
        at--;
    if (at >= room)
        return kept;
    const int count = kept < room ? kept + 1 : room;
    for (int i = count - 1; i > at; i--)
        choice[i] = choice[i - 1];
    choice[at] = *one;
    return count;
}

/* The sizes of a case: the last list changes fastest. Returns false when the vehicle is refused. */
static bool set_case(const struct brake_choice_question *question, long number,
                     struct brake_choice *one, struct brake_sheet *sheet, struct brake_error *error)
{
    *sheet = *question->sheet;
    *error = (struct brake_error){.status = BRAKE_OK};
    for (int i = question->lists - 1; i >= 0; i--) {
        const struct brake_size_list *list = &question->list[i];
        one->value[i] = list->value[number % list->count];
        number /= list->count;
        error->status = brake_sheet_set(sheet, list->by, one->value[i]);
        if (error->status != BRAKE_OK)
            return false;
    }
    return brake_sheet_complete(sheet, error) == BRAKE_OK;
}

static bool try_case(const struct brake_choice_question *question, long number,
                     struct brake_choice *one, struct brake_choice_count *count)
{
    struct brake_sheet sheet;
    struct brake_error error;
    if (!set_case(question, number, one, &sheet, &error)) {
        if (count->refused++ == 0)
            count->error = error;
        return false;
    }
    one->margin = get(question, &sheet.vehicle, one->got, &one->least);
    for (int i = 0; i < question->targets; i++)
        count->fails[i] += brake_target_margin(&question->target[i], one->got[i]) < 0.0;
    count->unknown += isnan(one->margin);
    count->works += one->margin >= 0.0;
    return one->margin >= 0.0;
}

int brake_choose(const struct brake_choice_question *asked, const struct brake_watch *watch,
                 struct brake_choice *choice, int room, struct brake_choice_count *count)
{
    struct brake_sheet settled;
    const struct brake_choice_question at_middle = settle(asked, &settled);
    const struct brake_choice_question *question = &at_middle;
    long cases = 1;
    int kept = 0;
    *count = (struct brake_choice_count){.cases = 0};
    for (int i = 0; i < question->lists; i++)
        cases *= question->list[i].count;
    while (count->cases < cases && !count->stopped) {
        struct brake_choice one = {.margin = BRAKE_NAN};
        if (try_case(question, count->cases++, &one, count))
            kept = keep(choice, kept, room, &one);
        watch_tell(watch, (double)count->cases, (double)cases);
        count->stopped = watch_stops(watch);
    }
    return kept;
}

/* ---- tyres ---------------------------------------------------------------------------------- */

static int line_of(int axle, const char *name)
{
    char path[64];
    brake_text_format(path, sizeof path, "%s.tyre.%s", brake_axle_word((enum brake_axle)axle),
                      name);
    return brake_catalogue_find(NULL, path);
}

void brake_tyre_fit(struct brake_sheet *sheet, int axle, const char *marking)
{
    static const char *const old[] = {"rollout", "rolling_radius", "overall_diameter",
                                      "load_capacity", "speed_limit"};
    const int index = line_of(axle, "marking");
    for (size_t i = 0; i < sizeof old / sizeof old[0]; i++)
        brake_quantity_clear(sheet, line_of(axle, old[i]));
    brake_text_format(brake_quantity_in(&sheet->vehicle, index), BRAKE_TEXT_SIZE, "%s", marking);
    sheet->record[index] = (struct brake_record){.from = BRAKE_CATALOGUE, .set = true};
}

/* Bigger tyres lift the body: what the hubs have risen grows by half of the diameters'
 * difference. */
static enum brake_status change_tyres(const struct brake_sheet *sheet, const char *marking,
                                      struct brake_sheet *changed, struct brake_error *error)
{
    const int rear = brake_section_named("rear.tyre", 9);
    const int rise = brake_catalogue_find(NULL, "lift.wheel_rise");
    const double before = sheet->vehicle.axle[BRAKE_FRONT].tyre.overall_diameter;
    struct brake_marking size;
    *changed = *sheet;
    brake_tyre_fit(changed, BRAKE_FRONT, marking);
    if (brake_sheet_has(sheet, rear))
        brake_tyre_fit(changed, BRAKE_REAR, marking);
    if (brake_marking_read(marking, &size) >= 0 && !isnan(before)) {
        const double risen =
            sheet->vehicle.lift.wheel_rise + 0.5 * (size.overall_diameter - before);
        const enum brake_status status = brake_sheet_set(changed, rise, risen);
        if (status != BRAKE_OK) {
            *error = (struct brake_error){
                .status = status,
                .text = "the hubs would rise by more than lift.wheel_rise accepts"};
            return status;
        }
    }
    return brake_sheet_complete(changed, error);
}

static void try_tyre(const struct brake_choice_question *question, struct brake_tyre_choice *one)
{
    struct brake_sheet changed;
    if (change_tyres(question->sheet, one->marking, &changed, &one->error) != BRAKE_OK)
        return;
    const struct brake_tyre_lines *tyre = &changed.vehicle.axle[BRAKE_FRONT].tyre;
    one->diameter = tyre->overall_diameter;
    one->rollout = 2.0 * BRAKE_PI * tyre->rolling_radius;
    one->margin = get(question, &changed.vehicle, one->got, &one->least);
}

bool brake_choose_tyres(const struct brake_choice_question *asked, const char *const *marking,
                        int count, const struct brake_watch *watch,
                        struct brake_tyre_choice *choice)
{
    struct brake_sheet settled;
    const struct brake_choice_question question = settle(asked, &settled);
    for (int i = 0; i < count; i++) {
        if (watch_stops(watch))
            return false;
        struct brake_tyre_choice one = {.marking = marking[i],
                                        .diameter = BRAKE_NAN,
                                        .rollout = BRAKE_NAN,
                                        .margin = BRAKE_NAN,
                                        .least = -1};
        try_tyre(&question, &one);
        int at = i;
        for (; at > 0 && !(choice[at - 1].diameter <= one.diameter || isnan(one.diameter)); at--)
            choice[at] = choice[at - 1];
        choice[at] = one;
        watch_tell(watch, i + 1.0, count);
    }
    return true;
}
