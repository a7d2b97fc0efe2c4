/* SPDX-License-Identifier: MIT */
/* Brake torque per need, now over before: both vehicles drawn at once, unchanged parts alike. */
#include "brake/before.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "change.h"
#include "comparing.h"
#include "inputs.h"
#include "percentile.h"
#include "sobol.h"
#include "vehicle/groups.h"
#include "vehicle/recalculation.h"
#include "vehicle/sections.h"
#include "vehicle/text.h"

enum { SIDES = BRAKE_AXLES + 1 };

/* ---- what must not stand in both ------------------------------------------------------------- */

static bool given(const struct brake_sheet *sheet, int index)
{
    return sheet->record[index].from > BRAKE_DEFAULT && !sheet->record[index].worked;
}

static enum brake_status refuse(const struct brake_sheet *before, const char *path,
                                const char *text, struct brake_error *error)
{
    const int index = brake_catalogue_find(&before->vehicle, path);
    *error = (struct brake_error){.status = BRAKE_E_CONFLICT,
                                  .line = index >= 0 ? before->record[index].line : 0};
    brake_text_format(error->field, sizeof error->field, "%s", path);
    brake_text_format(error->text, sizeof error->text, "%s", text);
    return error->status;
}

/* A value that a rule works out from a changed line is another one too. */
static bool same_interval(const struct brake_sheet *before, int then,
                          const struct brake_sheet *after, int now)
{
    const struct brake_record *one = &before->record[then];
    const struct brake_record *other = &after->record[now];
    return brake_same_number(brake_quantity_value(&before->vehicle, then),
                             brake_quantity_value(&after->vehicle, now)) &&
           brake_same_number(one->tolerance, other->tolerance) &&
           brake_same_number(one->lean, other->lean);
}

/* What is said to be the same as before must be that. A part is known by its name. */
static enum brake_status fit_same(const struct brake_sheet *before, const struct brake_sheet *after,
                                  struct brake_error *error)
{
    for (int now = 0; now < brake_catalogue_count(); now++) {
        char path[160];
        if (!after->record[now].same)
            continue;
        brake_catalogue_path(&after->vehicle, now, path, sizeof path);
        const int then = brake_catalogue_find(&before->vehicle, path);
        const bool told = then >= 0 && given(before, then);
        if (told && same_interval(before, then, after, now))
            continue;
        return refuse(before, path,
                      told ? "is another here, with its tolerance, though the changed vehicle has "
                             "it as same as before"
                           : "is not given here, though the changed vehicle has it as same as "
                             "before",
                      error);
    }
    return BRAKE_OK;
}

enum brake_status brake_before_fits(const struct brake_sheet *before,
                                    const struct brake_sheet *after, struct brake_error *error)
{
    const struct brake_vehicle *one = &before->vehicle;
    const struct brake_vehicle *other = &after->vehicle;
    const int roof = brake_catalogue_find(NULL, "vehicle.roof_height");
    const bool lifted = other->lift.suspension > 0.0 || other->lift.wheel_rise > 0.0;
    if (one->general.before[0] != '\0')
        return refuse(before, "vehicle.before",
                      "the vehicle before names another before it; leave that line out", error);
    if (lifted && given(before, roof) && given(after, roof) &&
        !brake_same_number(one->general.roof_height, other->general.roof_height))
        return refuse(
            before, "vehicle.roof_height",
            "is not that of the changed vehicle, whose [lift] would count twice; there give "
            "the height before the lift, or no [lift]",
            error);
    return fit_same(before, after, error);
}

static double mean_radius(const struct brake_vehicle *vehicle)
{
    return 0.5 * (vehicle->axle[BRAKE_FRONT].tyre.rolling_radius +
                  vehicle->axle[BRAKE_REAR].tyre.rolling_radius);
}

double brake_before_untold_rise(const struct brake_sheet *before, const struct brake_sheet *after)
{
    const double least = 0.030; /* m; common practice, no source */
    const double rise = mean_radius(&after->vehicle) - mean_radius(&before->vehicle);
    const bool told =
        after->vehicle.lift.wheel_rise > 0.0 ||
        !brake_same_number(before->vehicle.general.cg_height, after->vehicle.general.cg_height);
    return !told && rise > least ? rise : 0.0;
}

/* The axle whose tyre a pull on the parked vehicle goes by. */
static double pulled_radius(const struct brake_vehicle *vehicle)
{
    const int axle = vehicle->parking.on == BRAKE_PARKING_FRONT ? BRAKE_FRONT : BRAKE_REAR;
    return vehicle->axle[axle].tyre.rolling_radius;
}

bool brake_before_carry(struct brake_sheet *before, const struct brake_sheet *after)
{
    const int pull = brake_catalogue_find(NULL, "parking.pull");
    struct brake_parking_lines *then = &before->vehicle.parking;
    const double ratio = pulled_radius(&after->vehicle) / pulled_radius(&before->vehicle);
    if (!given(before, pull) || !given(after, pull) || brake_same_number(ratio, 1.0) ||
        !brake_same_number(then->pull, after->vehicle.parking.pull))
        return false;
    then->pull *= ratio;
    before->record[pull].tolerance *= ratio;
    if (before->record[brake_catalogue_find(NULL, "parking.torque")].worked)
        then->torque *= ratio;
    return true;
}

/* ---- which lines have one value -------------------------------------------------------------- */

/* Whether each line stands for an unchanged part. */
static void find_kept(const struct brake_sheet *before, const struct brake_sheet *after,
                      bool kept[BRAKE_ROWS])
{
    struct brake_changed_line line[2 * BRAKE_ROWS];
    const int lines = brake_changed_lines(before, after, line);
    for (int i = 0; i < brake_catalogue_count(); i++) {
        const char *part = brake_part_of(i);
        kept[i] = brake_quantity_at(i)->kind != BRAKE_REAL || same_interval(before, i, after, i);
        for (int k = 0; k < lines && kept[i]; k++) {
            const int changed = line[k].before >= 0 ? line[k].before : line[k].after;
            kept[i] = changed != i &&
                      (part == NULL || after->record[i].same || brake_part_of(changed) != part);
        }
    }
}

/* ---- samples --------------------------------------------------------------------------------- */

struct pair {
    struct brake_inputs of[2]; /* before, after */
    struct brake_sobol sobol;  /* shares of before, then those of after */
    int twin[BRAKE_INPUTS];    /* of the inputs before: the one after that has the same value; -1 */
};

static void find_twins(struct pair *pair, const bool kept[BRAKE_ROWS])
{
    const struct brake_inputs *before = &pair->of[0];
    const struct brake_inputs *after = &pair->of[1];
    for (int i = 0; i < before->count; i++) {
        pair->twin[i] = -1;
        for (int k = 0; k < after->count && kept[before->input[i].index]; k++) {
            if (after->input[k].index == before->input[i].index)
                pair->twin[i] = k;
        }
    }
}

static void draw_pair(const struct pair *pair, uint32_t sample, struct brake_vehicle vehicle[2])
{
    double share[BRAKE_SOBOL_DIMENSIONS];
    double value[2][BRAKE_INPUTS];
    brake_sobol_middle(&pair->sobol, sample, share);
    brake_inputs_values(&pair->of[0], share, value[0]);
    brake_inputs_values(&pair->of[1], share + brake_inputs_count(&pair->of[0]), value[1]);
    for (int i = 0; i < pair->of[0].count; i++) {
        if (pair->twin[i] >= 0)
            value[0][i] = value[1][pair->twin[i]];
    }
    for (int i = 0; i < 2; i++)
        brake_inputs_set(&pair->of[i], value[i], &vehicle[i]);
}

/* Now over before, of each axle and of both. */
static void ratios(const struct brake_vehicle *before, const struct brake_vehicle *after,
                   enum brake_load load, double ratio[SIDES])
{
    const unsigned long long groups = brake_torque_groups();
    double like[2][BRAKE_LOADS][SIDES];
    struct brake_results results;
    brake_evaluate_groups(before, groups, &results);
    brake_torque_over_need(&results, like[0]);
    brake_evaluate_groups(after, groups, &results);
    brake_torque_over_need(&results, like[1]);
    for (int i = 0; i < SIDES; i++)
        ratio[i] = like[0][load][i] > 0.0 ? like[1][load][i] / like[0][load][i] : BRAKE_NAN;
}

double brake_before_regained(const struct brake_vehicle *before, const struct brake_vehicle *after)
{
    double empty[SIDES];
    double full[SIDES];
    ratios(before, after, BRAKE_EMPTY, empty);
    ratios(before, after, BRAKE_FULL, full);
    return fmin(empty[BRAKE_BOTH_AXLES], full[BRAKE_BOTH_AXLES]); /* fmin passes over NaN */
}

struct samples {
    double ratio[SIDES][BRAKE_BEFORE_SAMPLES];
};

static void draw_all(const struct pair *pair, enum brake_load load, struct samples *samples)
{
#pragma omp parallel for schedule(dynamic, 16)
    for (int s = 0; s < BRAKE_BEFORE_SAMPLES; s++) {
        struct brake_vehicle vehicle[2];
        double ratio[SIDES];
        draw_pair(pair, (uint32_t)s, vehicle);
        ratios(&vehicle[0], &vehicle[1], load, ratio);
        for (int i = 0; i < SIDES; i++)
            samples->ratio[i][s] = ratio[i];
    }
}

/* A sample that cannot be worked out loses. */
static void sum_up(struct samples *samples, struct brake_before *b)
{
    const double *both = samples->ratio[BRAKE_BOTH_AXLES];
    int less = 0;
    int more = 0;
    for (int s = 0; s < BRAKE_BEFORE_SAMPLES; s++) {
        less += both[s] >= 1.0 - BRAKE_AS_BEFORE ? 0 : 1;
        more += both[s] > 1.0 + BRAKE_AS_BEFORE ? 1 : 0;
    }
    b->less = (double)less / BRAKE_BEFORE_SAMPLES;
    b->more = (double)more / BRAKE_BEFORE_SAMPLES;
    b->verdict = b->less >= 0.95   ? BRAKE_FALLS_SHORT
                 : b->less <= 0.05 ? BRAKE_MEETS
                                   : BRAKE_CANNOT_SAY;
    for (int i = 0; i < SIDES; i++) {
        const long count = percentile_sort(samples->ratio[i], BRAKE_BEFORE_SAMPLES);
        b->of[i].low = percentile_at(samples->ratio[i], count, 0.05);
        b->of[i].high = percentile_at(samples->ratio[i], count, 0.95);
    }
}

/* ---- as the lines stand ---------------------------------------------------------------------- */

static struct brake_vehicle without_ends(const struct brake_vehicle *vehicle)
{
    struct brake_vehicle endless = *vehicle;
    endless.pedal.travel = BRAKE_NAN;
    endless.master.primary_stroke = BRAKE_NAN;
    endless.master.secondary_stroke = BRAKE_NAN;
    return endless;
}

static void take(const struct brake_compared *like, double unlimited, struct brake_regained *r)
{
    r->ratio = like->before > 0.0 ? like->after / like->before : BRAKE_NAN;
    r->unlimited = unlimited;
    for (int i = 0; i < BRAKE_CHANGES; i++)
        r->share[i] = like->share[i] / like->before;
}

static void as_they_stand(const struct brake_comparison *c, struct brake_before *b)
{
    const struct brake_vehicle before = without_ends(&c->before->vehicle);
    const struct brake_vehicle after = without_ends(&c->after->vehicle);
    double unlimited[SIDES];
    b->sheet = c->before;
    b->load = brake_compare_worst(c);
    ratios(&before, &after, b->load, unlimited);
    for (int i = 0; i < SIDES; i++)
        take(&c->like[b->load][i], unlimited[i], &b->of[i]);
}

/* ---- all ------------------------------------------------------------------------------------- */

struct room {
    struct pair pair;
    struct samples samples;
};

static enum brake_status draw(const struct brake_comparison *c, struct room *room,
                              struct brake_before *before)
{
    struct pair *pair = &room->pair;
    bool kept[BRAKE_ROWS];
    brake_inputs_list(c->before, NULL, &pair->of[0]);
    brake_inputs_list(c->after, NULL, &pair->of[1]);
    const int shares = brake_inputs_count(&pair->of[0]) + brake_inputs_count(&pair->of[1]);
    if (brake_sobol_scrambled(shares, 0, &pair->sobol) != BRAKE_OK)
        return BRAKE_E_SIZE;
    find_kept(c->before, c->after, kept);
    find_twins(pair, kept);
    draw_all(pair, before->load, &room->samples);
    sum_up(&room->samples, before);
    return BRAKE_OK;
}

enum brake_status brake_before_of(const struct brake_comparison *comparison,
                                  struct brake_before *before)
{
    struct room *room = malloc(sizeof *room);
    if (room == NULL)
        return BRAKE_E_MEMORY;
    as_they_stand(comparison, before);
    const enum brake_status status = draw(comparison, room, before);
    free(room);
    return status;
}

/* Like for like, and no margin asked. */
static enum brake_status share_likes(const struct brake_sheet *before,
                                     const struct brake_sheet *after, struct brake_comparison *c)
{
    brake_compare(before, after, 0, c);
    c->margins = 0;
    double *room = malloc(brake_compare_room(c) * sizeof *room);
    if (room == NULL)
        return BRAKE_E_MEMORY;
    (void)brake_compare_share(c, NULL, room);
    free(room);
    return BRAKE_OK;
}

enum brake_status brake_before_draw(const struct brake_sheet *before,
                                    const struct brake_sheet *after, struct brake_before *loss)
{
    struct brake_comparison *comparison = malloc(sizeof *comparison);
    enum brake_status status = BRAKE_E_MEMORY;
    if (comparison != NULL)
        status = share_likes(before, after, comparison);
    if (status == BRAKE_OK)
        status = brake_before_of(comparison, loss);
    free(comparison);
    return status;
}
