/* SPDX-License-Identifier: MIT */
/* What a completed vehicle must hold, and what would contradict itself or be lost. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "brake/friction.h"
#include "brake/system.h"
#include "work.h"
#include "text.h"
#include "system.h"

/* All that is missing is told at once, as far as there is room. */
static void add_missing(struct brake_error *error, const char *path)
{
    static const char head[] = " Also missing: ";
    const size_t used = strlen(error->text);
    const char *joint = strstr(error->text, head) != NULL ? ", " : head;
    if (strcmp(error->field, path) == 0 || strstr(error->text, path) != NULL)
        return;
    if (used + strlen(joint) + strlen(path) + 1 <= sizeof error->text)
        brake_text_format(error->text + used, sizeof error->text - used, "%s%s", joint, path);
}

/* The first that is missing is told with the easiest lines to write. */
static void refuse_missing(struct work *w, int index, const int *easiest, int count,
                           const char *when)
{
    const char *measure = work_row(w, index)->measure;
    char path[BRAKE_EASIEST][160];
    if (easiest[0] == index) {
        work_refuse(w, BRAKE_E_MISSING, index, "is missing%s. How to get it: %s", when, measure);
        return;
    }
    for (int i = 0; i < count; i++)
        brake_catalogue_path(w->vehicle, easiest[i], path[i], sizeof path[i]);
    work_refuse(w, BRAKE_E_MISSING, index, "is missing%s. Write %s%s%s: %s Or: %s", when, path[0],
                count > 1 ? " and " : "", count > 1 ? path[1] : "",
                work_row(w, easiest[0])->measure, measure);
}

static void need(struct work *w, int index, const char *when)
{
    int easiest[BRAKE_EASIEST];
    if (work_given(w, index))
        return;
    if (w->missing != NULL) {
        w->missing[index] = true;
        return;
    }
    const int count = brake_catalogue_easiest(index, easiest);
    if (w->error->status != BRAKE_E_MISSING) {
        refuse_missing(w, index, easiest, count, when);
        return;
    }
    for (int i = 0; i < count; i++) {
        char path[160];
        brake_catalogue_path(w->vehicle, easiest[i], path, sizeof path);
        add_missing(w->error, path);
    }
}

/* brake_sheet_has, looked up quickly. */
static bool has_lines(const struct work *w, int section)
{
    const struct brake_record *record = &w->sheet->record[w->places->first[section]];
    for (int row = 0; row < brake_sections[section].count; row++) {
        if (record[row].from > BRAKE_DEFAULT)
            return true;
    }
    return false;
}

static void check_sections(struct work *w)
{
    for (int i = 0; i < BRAKE_SECTION_COUNT; i++) {
        const enum brake_belongs to = brake_sections[i].belongs;
        const int first = w->places->first[i];
        const int axle = to == BRAKE_REAR_DISC || to == BRAKE_REAR_DRUM;
        if (brake_section_belongs(w->vehicle, &brake_sections[i]) || !has_lines(w, i) ||
            !work_given(w, AXLE_INDEX(axle.brake, axle)))
            continue;
        for (int row = 0; row < brake_sections[i].count; row++) {
            if (w->sheet->record[first + row].from > BRAKE_DEFAULT)
                work_refuse(w, BRAKE_E_CONFLICT, first + row,
                            "does not belong: %s.axle.brake says that this axle has a %s",
                            axle == BRAKE_FRONT ? "front" : "rear",
                            to == BRAKE_FRONT_DISC || to == BRAKE_REAR_DISC ? "drum" : "disc");
        }
    }
}

/* A section that is left out and repeats another has no needs of its own, nor has one of a brake
 * that is not told. */
static bool has_needs(const struct work *w, int section)
{
    const enum brake_belongs to = brake_sections[section].belongs;
    const int axle = to == BRAKE_REAR_DISC || to == BRAKE_REAR_DRUM;
    if (to != BRAKE_ALWAYS && !work_given(w, AXLE_INDEX(axle.brake, axle)))
        return false;
    return brake_section_belongs(w->vehicle, &brake_sections[section]) &&
           (brake_sections[section].same_as == NULL || has_lines(w, section));
}

static void check_needed_rows(struct work *w, int section, int times)
{
    const int count = brake_sections[section].count;
    for (int i = 0; i < count * times; i++) {
        if (brake_sections[section].rows[i % count].need == BRAKE_NEEDED)
            need(w, w->places->first[section] + i, "");
    }
}

void work_verify_needs(struct work *w)
{
    const int parts = BRAKE_SECTION_OF_PARTS;
    for (int i = 0; i < parts; i++)
        check_needed_rows(w, i, has_needs(w, i) ? 1 : 0);
    check_needed_rows(w, parts, w->vehicle->parts);
    if (w->vehicle->booster.booster != BRAKE_BOOSTER_NONE)
        need(w, INDEX(booster.gain), ", as a booster is fitted");
    if (w->vehicle->booster.booster == BRAKE_BOOSTER_VACUUM)
        need(w, INDEX(booster.assist), ", as a booster is fitted");
    if (w->vehicle->booster.booster == BRAKE_BOOSTER_HYDRAULIC &&
        !work_given(w, INDEX(booster.assist)))
        need(w, INDEX(booster.piston_diameter),
             ", as the booster is hydraulic; or force_pairs, or assist");
    const int kind = w->vehicle->valve.kind;
    if (kind != BRAKE_VALVE_NONE && kind != BRAKE_VALVE_EBD) {
        const char *when = ", as a valve is fitted; or write valve.kind = none, as if it were not "
                           "there: the rear locks sooner";
        need(w, INDEX(valve.knee), when);
        need(w, INDEX(valve.slope), when);
    }
    if (kind == BRAKE_VALVE_LOAD || kind == BRAKE_VALVE_HEIGHT) {
        need(w, INDEX(valve.knee_rate), ", as the valve senses load");
        need(w, INDEX(valve.set_mass), ", as the valve senses load");
    }
    if (kind == BRAKE_VALVE_HEIGHT)
        need(w, INDEX(valve.stiffness), ", as the valve senses height");
    need(w, LOAD_INDEX(mass, BRAKE_FULL), "");
}

static void check_ends(struct work *w, int heel, int toe)
{
    const double begins = *work_real(w, heel);
    const double ends = *work_real(w, toe);
    if (ends <= begins)
        work_refuse(w, BRAKE_E_CONFLICT, toe,
                    "got %s, but %s is %s; the toe lies farther from the pivot",
                    work_words(w, toe, ends).text, work_row(w, heel)->name,
                    work_words(w, heel, begins).text);
}

static void check_drum(struct work *w, int axle)
{
    const struct brake_drum_lines *drum = &w->vehicle->axle[axle].drum;
    double factor;
    if (w->vehicle->axle[axle].axle.brake != BRAKE_DRUM)
        return;
    if (isnan(drum->brake_factor)) {
        const char *when = ", as others of the lining are given; or give none of them and "
                           "drum.brake_factor: leading-trailing 1.8 to 2.8, two-leading 2.5 to 4, "
                           "duo-servo 3.5 to 6";
        need(w, AXLE_INDEX(lining.pivot_radius, axle), when);
        need(w, AXLE_INDEX(lining.force_arm, axle), when);
        need(w, AXLE_INDEX(lining.heel, axle), when);
        need(w, AXLE_INDEX(lining.toe, axle), when);
    }
    const struct brake_quantity *q = work_row(w, AXLE_INDEX(drum.brake_factor, axle));
    const enum brake_status status =
        brake_vehicle_drum_factor(w->vehicle, (enum brake_axle)axle, &factor);
    check_ends(w, AXLE_INDEX(lining.heel, axle), AXLE_INDEX(lining.toe, axle));
    check_ends(w, AXLE_INDEX(lining.secondary_heel, axle), AXLE_INDEX(lining.secondary_toe, axle));
    if (status == BRAKE_OK && !(factor >= q->low && factor <= q->high))
        work_refuse(w, BRAKE_E_RANGE, AXLE_INDEX(lining.mu, axle),
                    "gives these shoes a brake factor of %.4g; accepts %.4g to %.4g%s", factor,
                    q->low, q->high,
                    factor > q->high ? ": they are about to grab, do not drive it" : "");
    if (status != BRAKE_OK)
        work_refuse(w, status, AXLE_INDEX(lining.mu, axle), "got %.4g: %s%s",
                    w->vehicle->axle[axle].lining.mu, brake_status_message(status),
                    status == BRAKE_E_SELF_LOCK ? ": do not drive it" : "");
}

static void check_order_of_curve(struct work *w, int index)
{
    const struct brake_points *points = work_in(w, index);
    for (int i = 1; i < points->count; i++) {
        if (points->at[i].x <= points->at[i - 1].x)
            work_refuse(w, BRAKE_E_FIT, index, "the first numbers of the pairs must rise");
    }
}

static void check_friction_curve(struct work *w, int index)
{
    const struct brake_points *points = work_in(w, index);
    check_order_of_curve(w, index);
    if (points->count > BRAKE_CURVE_POINTS)
        work_refuse(w, BRAKE_E_SIZE, index, "has %d pairs; accepts up to %d", points->count,
                    BRAKE_CURVE_POINTS);
}

static bool inside(const struct work *w, struct brake_body body)
{
    return body.behind > 0.0 && body.behind < w->vehicle->general.wheelbase;
}

/* Place of the part that moves the centre of gravity most, as a quantity. */
static int heaviest_part(const struct work *w)
{
    const int section = BRAKE_SECTION_OF_PARTS;
    const struct brake_part_lines *part = w->vehicle->part;
    int heaviest = 0;
    for (int i = 1; i < w->vehicle->parts; i++) {
        if (fabs(part[i].mass) > fabs(part[heaviest].mass))
            heaviest = i;
    }
    return w->places->first[section] + heaviest * brake_sections[section].count + 1;
}

static void check_bodies(struct work *w, int number)
{
    (void)number;
    const struct brake_body bare = brake_vehicle_bare(w->vehicle);
    if (!(bare.mass > 0.0))
        work_refuse(w, BRAKE_E_CONFLICT, INDEX(general.mass),
                    "the parts taken off weigh as much as the vehicle");
    if (!(w->vehicle->general.unsprung_mass < w->vehicle->general.mass))
        work_refuse(w, BRAKE_E_CONFLICT, INDEX(general.unsprung_mass),
                    "must be less than the mass of the vehicle");
    if (w->vehicle->parts > 0 && !inside(w, bare))
        work_refuse(w, BRAKE_E_CONFLICT, heaviest_part(w),
                    "with the parts the centre of gravity comes out %.4g m behind the front axle, "
                    "outside the wheelbase",
                    bare.behind);
    for (int load = 0; load < BRAKE_LOADS; load++) {
        const struct brake_body body = brake_vehicle_body(w->vehicle, (enum brake_load)load);
        if (!inside(w, body))
            work_refuse(w, BRAKE_E_CONFLICT, LOAD_INDEX(behind_front_axle, load),
                        "the centre of gravity comes out %.4g m behind the front axle, outside the "
                        "wheelbase",
                        body.behind);
        if (!(body.height > 0.0))
            work_refuse(w, BRAKE_E_CONFLICT, INDEX(general.cg_height),
                        "the centre of gravity comes out below the road");
    }
}

/* Readings that only together give something: one alone would be lost. */
static void need_all(struct work *w, const int *index, int count)
{
    char when[180];
    char path[160];
    for (int i = 0; i < count; i++) {
        if (w->sheet->record[index[i]].from <= BRAKE_DEFAULT)
            continue;
        brake_catalogue_path(w->vehicle, index[i], path, sizeof path);
        brake_text_format(when, sizeof when, ", as %s is given", path);
        for (int j = 0; j < count; j++)
            need(w, index[j], when);
    }
}

#define NEED_ALL(index) need_all(w, index, COUNT_OF(index))

static void check_readings(struct work *w)
{
    const struct brake_scales_lines *s = &w->vehicle->scales;
    const int front[] = {INDEX(scales.front_left), INDEX(scales.front_right)};
    const int rear[] = {INDEX(scales.rear_left), INDEX(scales.rear_right)};
    const int tilt[] = {INDEX(tilt.rise), INDEX(tilt.ground_axle_level),
                        INDEX(tilt.ground_axle_tilted), INDEX(tilt.hub_height)};
    const int arms[] = {INDEX(pedal.pad_arm), INDEX(pedal.rod_arm)};
    const bool front_known = !isnan(work_or_else(s->front_left, s->front_axle));
    const bool rear_known = !isnan(work_or_else(s->rear_left, s->rear_axle));
    const int tested[3][2] = {{INDEX(tester.front_left), INDEX(tester.front_right)},
                              {INDEX(tester.rear_left), INDEX(tester.rear_right)},
                              {INDEX(tester.parking_left), INDEX(tester.parking_right)}};
    for (int i = 0; i < 3; i++)
        NEED_ALL(tested[i]);
    NEED_ALL(front);
    NEED_ALL(rear);
    if (front_known && !rear_known)
        need(w, INDEX(scales.rear_axle), ", as the front axle was weighed");
    if (rear_known && !front_known)
        need(w, INDEX(scales.front_axle), ", as the rear axle was weighed");
    NEED_ALL(tilt);
    NEED_ALL(arms);
    for (int laden = 0; laden < BRAKE_LOADS; laden++) {
        const int axles[] = {LOAD_INDEX(front_axle, laden), LOAD_INDEX(rear_axle, laden)};
        NEED_ALL(axles);
    }
}

static void check_wheel_readings(struct work *w, int axle)
{
    const int swing[] = {AXLE_INDEX(tyre.swing_radius, axle), AXLE_INDEX(tyre.swing_length, axle),
                         AXLE_INDEX(tyre.swing_period, axle), AXLE_INDEX(tyre.wheel_mass, axle)};
    const int pads[][3] = {
        [BRAKE_SECTOR] = {AXLE_INDEX(pads.inner_radius, axle), AXLE_INDEX(pads.outer_radius, axle),
                          AXLE_INDEX(pads.inner_radius, axle)},
        [BRAKE_RECTANGLE] = {AXLE_INDEX(pads.outer_radius, axle), AXLE_INDEX(pads.height, axle),
                             AXLE_INDEX(pads.width, axle)},
        [BRAKE_CIRCLE] = {AXLE_INDEX(pads.centre_radius, axle), AXLE_INDEX(pads.diameter, axle),
                          AXLE_INDEX(pads.centre_radius, axle)}};
    const int shape = w->vehicle->axle[axle].pads.shape;
    for (int i = 0; i < 3; i++) {
        if (work_stated(w, swing[i]))
            NEED_ALL(swing);
    }
    if (w->vehicle->axle[axle].axle.brake == BRAKE_DISC && shape != BRAKE_OUTLINE)
        NEED_ALL(pads[shape]);
}

/* In the file: an axis of a sweep goes through other values too. */
static bool says_the_default(const struct work *w, int index)
{
    return w->sheet->record[index].line > 0 &&
           brake_quantity_value(w->vehicle, index) == work_row(w, index)->fallback;
}

/* Lines of a thing that is not fitted, or not of that kind, would be lost. They may stay when
 * --set takes the thing away, and where they state the default: nothing is lost then. */
static void unused(struct work *w, int index, int choice)
{
    char path[160];
    if (!work_stated(w, index) || !work_given(w, choice) || w->sheet->record[choice].set ||
        says_the_default(w, index))
        return;
    brake_catalogue_path(w->vehicle, choice, path, sizeof path);
    work_refuse(w, BRAKE_E_CONFLICT, index, "is not used, because %s is %s%s; change one of them",
                path, work_row(w, choice)->choices[(int)brake_quantity_value(w->vehicle, choice)],
                work_stated(w, choice) ? "" : ", by default");
}

static void unused_from_to(struct work *w, int first, int last, int choice)
{
    for (int i = first; i <= last; i++)
        unused(w, i, choice);
}

static void check_unused_of_valve(struct work *w)
{
    static const size_t first[] = {
        [BRAKE_VALVE_NONE] = offsetof(struct brake_vehicle, valve.knee),
        [BRAKE_VALVE_FIXED] = offsetof(struct brake_vehicle, valve.knee_rate),
        [BRAKE_VALVE_LOAD] = offsetof(struct brake_vehicle, valve.stiffness),
        [BRAKE_VALVE_EBD] = offsetof(struct brake_vehicle, valve.knee)};
    if (w->vehicle->valve.kind != BRAKE_VALVE_HEIGHT)
        unused_from_to(w, work_index(w, first[w->vehicle->valve.kind]),
                       INDEX(valve.uncorrected_lift), INDEX(valve.kind));
}

static void check_unused_of_booster(struct work *w)
{
    const int kind = INDEX(booster.booster);
    if (w->vehicle->booster.booster == BRAKE_BOOSTER_NONE)
        unused_from_to(w, INDEX(booster.gain), INDEX(booster.force_pairs), kind);
    else if (w->vehicle->booster.booster == BRAKE_BOOSTER_VACUUM)
        unused_from_to(w, INDEX(booster.pressure), INDEX(booster.precharge), kind);
    else
        unused_from_to(w, INDEX(booster.vacuum), INDEX(booster.diaphragms), kind);
}

static void check_unused(struct work *w)
{
    check_unused_of_valve(w);
    check_unused_of_booster(w);
    if (w->vehicle->speedometer.sensor == BRAKE_SENSOR_WHEEL)
        unused(w, INDEX(speedometer.axle_ratio), INDEX(speedometer.sensor));
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        const int shape = w->vehicle->axle[axle].pads.shape;
        const int choice = AXLE_INDEX(pads.shape, axle);
        if (w->vehicle->axle[axle].drum.shoes != BRAKE_DUO_SERVO)
            unused_from_to(w, AXLE_INDEX(lining.secondary_heel, axle),
                           AXLE_INDEX(lining.secondary_mu, axle), AXLE_INDEX(drum.shoes, axle));
        if (shape != BRAKE_OUTLINE)
            unused(w, AXLE_INDEX(pads.outline, axle), choice);
        if (shape != BRAKE_RECTANGLE) {
            unused(w, AXLE_INDEX(pads.height, axle), choice);
            unused(w, AXLE_INDEX(pads.width, axle), choice);
        }
        if (shape != BRAKE_SECTOR)
            unused(w, AXLE_INDEX(pads.inner_radius, axle), choice);
        if (shape != BRAKE_CIRCLE) {
            unused(w, AXLE_INDEX(pads.centre_radius, axle), choice);
            unused(w, AXLE_INDEX(pads.diameter, axle), choice);
        } else {
            unused(w, AXLE_INDEX(pads.outer_radius, axle), choice);
        }
    }
}

/* --set can give the diameter of a group of pistons that is not there. */
static void check_pistons(struct work *w, int axle)
{
    const struct brake_pistons *pistons = &w->vehicle->axle[axle].disc.pistons;
    const int list = AXLE_INDEX(disc.pistons, axle);
    for (int i = 0; i < BRAKE_GROUPS; i++) {
        if (work_given(w, list + 1 + i) && !(pistons->count[i] > 0.0))
            work_refuse(w, BRAKE_E_CONFLICT, list + 1 + i, "there is no such group in pistons");
    }
}

static void check_at_most_pressure(struct work *w, int index, double value)
{
    const double most = w->vehicle->booster.pressure;
    if (value > most)
        work_refuse(w, BRAKE_E_CONFLICT, index, "got %s, more than the %s of booster.pressure",
                    work_words(w, index, value).text, work_words(w, index, most).text);
}

static void check_booster(struct work *w, int number)
{
    (void)number;
    const struct brake_booster_lines *b = &w->vehicle->booster;
    const int low = INDEX(booster.vacuum_low);
    if (b->diaphragms > 1.0 && b->diaphragms < 2.0)
        work_refuse(w, BRAKE_E_RANGE, INDEX(booster.diaphragms), "got %.4g; accepts 1 or 2",
                    b->diaphragms);
    if (b->vacuum_low > b->vacuum)
        work_refuse(w, BRAKE_E_CONFLICT, low,
                    "got %s, more than the %s of vacuum; it is the least of it",
                    work_words(w, low, b->vacuum_low).text, work_words(w, low, b->vacuum).text);
    check_at_most_pressure(w, INDEX(booster.precharge), b->precharge);
    check_at_most_pressure(w, INDEX(booster.pressure_low), b->pressure_low);
}

void work_verify_lines(struct work *w)
{
    check_sections(w);
    check_unused(w);
    check_readings(w);
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        check_wheel_readings(w, axle);
        check_pistons(w, axle);
        check_friction_curve(w, AXLE_INDEX(pads.friction, axle));
        check_friction_curve(w, AXLE_INDEX(lining.friction, axle));
    }
    check_order_of_curve(w, INDEX(valve.gauge_pairs));
    check_order_of_curve(w, INDEX(booster.force_pairs));
}

/* Which numbers contradict each other, and the sections that they stand in; behind the last one
 * there is none, which looks at nothing. */
enum { LOOKED_AT = 4 };

static const struct {
    void (*verify)(struct work *w, int number);
    int number;
    struct work_stretch at[LOOKED_AT];
} verifications[BRAKE_WORK_VERIFICATIONS] = {
    {check_drum, 0, {WORK_OF(axle[0].axle), WORK_OF(axle[0].drum), WORK_OF(axle[0].lining)}},
    {check_drum, 1, {WORK_OF(axle[1].axle), WORK_OF(axle[1].drum), WORK_OF(axle[1].lining)}},
    {check_booster, 0, {WORK_OF(booster)}},
    {check_bodies, 0, {WORK_OF(general), WORK_OF(lift), WORK_OF(load), WORK_OF(part)}},
};

void work_fill_verifications(struct brake_places *places)
{
    for (int i = 0; i < BRAKE_WORK_VERIFICATIONS; i++)
        places->verified[i] = work_sections(verifications[i].at, LOOKED_AT);
}

void work_verify_values(struct work *w, unsigned long long changed)
{
    for (int i = 0; i < BRAKE_WORK_VERIFICATIONS; i++) {
        if ((w->places->verified[i] & changed) != 0)
            verifications[i].verify(w, verifications[i].number);
    }
}
