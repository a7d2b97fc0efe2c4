/* From what was measured to what the model needs: raw readings are reduced, defaults filled in,
 * needs and contradictions checked, tolerances carried through.
 *
 * A rule offers a value for a quantity. It is taken when the file leaves the quantity out, or when
 * a reading it comes from was set afterwards; when the file gives both they must agree. */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "brake/fit.h"
#include "brake/load.h"
#include "brake/system.h"
#include "brake/tyre.h"
#include "sections.h"

/* Two measurements of one thing may differ by this much, or by their tolerances if larger. */
static const double agreement = 0.02;
/* The books' radius of a marking and a measured one: listed figures for one size spread by 6.5 %
 * (common practice, no source); beyond this one of them belongs to another tyre. */
static const double marking_agreement = 0.10;

struct work {
    struct brake_sheet *sheet;
    struct brake_vehicle *vehicle; /* that of the sheet */
    struct brake_error *error;     /* NULL: do not judge, only work out */
};

#define INDEX(member) brake_catalogue_index(offsetof(struct brake_vehicle, member))

static int axle_index(size_t offset_in_axle, int axle)
{
    return brake_catalogue_index(offsetof(struct brake_vehicle, axle) +
                                 (size_t)axle * sizeof(struct brake_axle_of_vehicle) +
                                 offset_in_axle);
}

#define AXLE_INDEX(member, axle) axle_index(offsetof(struct brake_axle_of_vehicle, member), axle)

static int load_index(size_t offset_in_load, int load)
{
    return brake_catalogue_index(offsetof(struct brake_vehicle, load) +
                                 (size_t)load * sizeof(struct brake_load_lines) + offset_in_load);
}

#define LOAD_INDEX(member, load) load_index(offsetof(struct brake_load_lines, member), load)

/* The first fault found is the one told. */
__attribute__((format(printf, 4, 5))) static void refuse(struct work *w, enum brake_status status,
                                                         int index, const char *format, ...)
{
    va_list list;
    if (w->error == NULL || w->error->status != BRAKE_OK)
        return;
    w->error->status = status;
    w->error->line = w->sheet->record[index].line;
    char path[160];
    brake_catalogue_path(w->vehicle, index, path, sizeof path);
    snprintf(w->error->field, sizeof w->error->field, "%.63s", path);
    va_start(list, format);
    vsnprintf(w->error->text, sizeof w->error->text, format, list);
    va_end(list);
}

static double *real_in(struct work *w, int index)
{
    return brake_quantity_in(w->vehicle, index);
}

static bool given(const struct work *w, int index)
{
    return w->sheet->record[index].from != BRAKE_ABSENT;
}

static bool stated(const struct work *w, int index)
{
    const struct brake_record *record = &w->sheet->record[index];
    return record->from > BRAKE_DEFAULT && !record->worked;
}

/* There by itself, not worked out. */
static bool held(const struct work *w, int index)
{
    return given(w, index) && !w->sheet->record[index].worked;
}

static double shown(int index, double value)
{
    const struct brake_unit *unit = brake_unit_find(brake_quantity_at(index)->unit);
    return brake_unit_from_si(unit, value);
}

static void judge_agreement(struct work *w, int target, double value, int source)
{
    const double have = *real_in(w, target);
    const double tolerance = w->sheet->record[target].tolerance;
    const char *unit = brake_quantity_at(target)->unit;
    const char *blank = unit[0] != '\0' ? " " : "";
    char path[160];
    brake_catalogue_path(w->vehicle, source, path, sizeof path);
    if (fabs(value - have) > fmax(agreement * fabs(have), 2.0 * tolerance))
        refuse(w, BRAKE_E_CONFLICT, target, "got %.5g%s%s, but %s gives %.5g%s%s; leave one out",
               shown(target, have), blank, unit, path, shown(target, value), blank, unit);
}

/* A load found as the difference of two weighings may come out anywhere when it is small; the
 * centre of gravity of the whole is judged later. */
static void judge_range(struct work *w, int target, double value, int source)
{
    const struct brake_quantity *q = brake_quantity_at(target);
    char path[160];
    if ((value >= q->low && value <= q->high) ||
        target == LOAD_INDEX(behind_front_axle, BRAKE_EMPTY) ||
        target == LOAD_INDEX(behind_front_axle, BRAKE_FULL))
        return;
    brake_catalogue_path(w->vehicle, target, path, sizeof path);
    refuse(w, BRAKE_E_RANGE, source, "gives %s %.5g%s%s; accepts %.6g to %.6g%s%s", path,
           shown(target, value), q->unit[0] ? " " : "", q->unit, shown(target, q->low),
           shown(target, q->high), q->unit[0] ? " " : "", q->unit);
}

/* Whether a line is there only because its section, left out, repeats another. */
static bool repeated(const struct work *w, int index)
{
    const struct brake_record *record = &w->sheet->record[index];
    return brake_quantity_section(index)->same_as != NULL && record->from == BRAKE_DEFAULT &&
           !record->worked;
}

/* A value for `target` worked out from `sources`, the first of them the one to name. */
static void offer(struct work *w, int target, double value, const int *sources, int count)
{
    enum brake_from weakest = BRAKE_MEASURED;
    bool set = false;
    bool own = false;
    if (isnan(value))
        return;
    for (int i = 0; i < count; i++) {
        const struct brake_record *source = &w->sheet->record[sources[i]];
        if (source->from < weakest)
            weakest = source->from;
        set = set || source->set;
        own = own || source->from > BRAKE_DEFAULT;
    }
    struct brake_record *record = &w->sheet->record[target];
    if (repeated(w, target) && !own)
        return;
    if (record->set || (stated(w, target) && !set)) {
        if (!record->set)
            judge_agreement(w, target, value, sources[0]);
        return;
    }
    judge_range(w, target, value, sources[0]);
    *real_in(w, target) = value;
    record->from = weakest;
    record->worked = true;
    record->set = false;
}

/* A rule of last resort, where no reading gives the quantity: a default that follows others. */
static void offer_default(struct work *w, int target, double value)
{
    struct brake_record *record = &w->sheet->record[target];
    if (held(w, target) || isnan(value))
        return;
    *real_in(w, target) = value;
    record->from = BRAKE_DEFAULT;
    record->worked = true;
}

/* ---- before the rules --------------------------------------------------------------------- */

/* What an earlier call filled in is forgotten, so that it may follow a change. */
static void forget(struct work *w)
{
    for (int i = 0; i < brake_catalogue_count(); i++) {
        if (w->sheet->record[i].from == BRAKE_DEFAULT || w->sheet->record[i].worked)
            brake_quantity_clear(w->sheet, i);
    }
}

static size_t size_of_kind(enum brake_kind kind)
{
    static const size_t size[] = {[BRAKE_REAL] = sizeof(double),
                                  [BRAKE_CHOICE] = sizeof(int),
                                  [BRAKE_TEXT] = BRAKE_TEXT_SIZE,
                                  [BRAKE_PISTONS] = sizeof(struct brake_pistons),
                                  [BRAKE_CURVE] = sizeof(struct brake_points)};
    return size[kind];
}

/* A section that is left out may repeat another; what was set since stays. */
static void repeat_section(struct work *w, int section)
{
    const char *first = brake_sections[section].same_as;
    const int from = brake_section_first(brake_section_named(first, strlen(first)));
    const int to = brake_section_first(section);
    for (int row = 0; row < brake_sections[section].count; row++) {
        struct brake_record *record = &w->sheet->record[to + row];
        if (record->from > BRAKE_DEFAULT || !held(w, from + row))
            continue;
        memcpy(brake_quantity_in(w->vehicle, to + row),
               brake_quantity_in(w->vehicle, from + row),
               size_of_kind(brake_quantity_at(to + row)->kind));
        *record = w->sheet->record[from + row];
        record->from = BRAKE_DEFAULT;
        record->tolerance = 0.0; /* it moves with the one it repeats */
        record->line = 0;
        record->set = false;
    }
}

static bool from_file(const struct work *w, int section)
{
    const int first = brake_section_first(section);
    for (int row = 0; row < brake_sections[section].count; row++) {
        const struct brake_record *record = &w->sheet->record[first + row];
        if (record->from > BRAKE_DEFAULT && !record->set)
            return true;
    }
    return false;
}

static void repeat_sections(struct work *w)
{
    for (int i = 0; i < brake_sections_count; i++) {
        if (brake_sections[i].same_as != NULL && !from_file(w, i))
            repeat_section(w, i);
    }
}

static bool belongs(const struct brake_vehicle *vehicle, const struct brake_section *section)
{
    static const struct {
        int axle, brake;
    } of[] = {[BRAKE_ALWAYS] = {0, 0},
              [BRAKE_FRONT_DISC] = {BRAKE_FRONT, BRAKE_DISC},
              [BRAKE_FRONT_DRUM] = {BRAKE_FRONT, BRAKE_DRUM},
              [BRAKE_REAR_DISC] = {BRAKE_REAR, BRAKE_DISC},
              [BRAKE_REAR_DRUM] = {BRAKE_REAR, BRAKE_DRUM}};
    return section->belongs == BRAKE_ALWAYS ||
           vehicle->axle[of[section->belongs].axle].axle.brake == of[section->belongs].brake;
}

static void fill_defaults(struct work *w)
{
    const int last = brake_section_first(brake_sections_count - 1);
    for (int i = 0; i < last; i++) {
        const struct brake_quantity *q = brake_quantity_at(i);
        struct brake_record *record = &w->sheet->record[i];
        if (given(w, i) || isnan(q->fallback) || !belongs(w->vehicle, brake_quantity_section(i)))
            continue;
        if (q->kind == BRAKE_CHOICE)
            *(int *)brake_quantity_in(w->vehicle, i) = (int)q->fallback;
        else
            *real_in(w, i) = q->fallback;
        record->from = BRAKE_DEFAULT;
        record->tolerance = fabs(q->fallback) * q->typical;
        record->typical = record->tolerance > 0.0;
    }
}

/* ---- the rules ------------------------------------------------------------------------------ */

static double or_else(double value, double other)
{
    return isnan(value) ? other : value;
}

static void work_mass(struct work *w)
{
    const struct brake_scales_lines *s = &w->vehicle->scales;
    const double front = or_else(s->front_left + s->front_right, s->front_axle);
    const double rear = or_else(s->rear_left + s->rear_right, s->rear_axle);
    const int readings[] = {INDEX(scales.front_left), INDEX(scales.front_right),
                            INDEX(scales.front_axle), INDEX(scales.rear_left),
                            INDEX(scales.rear_right), INDEX(scales.rear_axle)};
    int sources[6];
    int count = 0;
    for (int i = 0; i < 6; i++) {
        if (given(w, readings[i]))
            sources[count++] = readings[i];
    }
    if (fabs(s->front_left + s->front_right - s->front_axle) > agreement * s->front_axle)
        refuse(w, BRAKE_E_CONFLICT, INDEX(scales.front_axle),
               "got %.5g kg, but the corner scales add up to %.5g kg; leave one out",
               s->front_axle, s->front_left + s->front_right);
    if (fabs(s->rear_left + s->rear_right - s->rear_axle) > agreement * s->rear_axle)
        refuse(w, BRAKE_E_CONFLICT, INDEX(scales.rear_axle),
               "got %.5g kg, but the corner scales add up to %.5g kg; leave one out",
               s->rear_axle, s->rear_left + s->rear_right);
    offer(w, INDEX(general.mass), front + rear, sources, count);
    offer(w, INDEX(general.front_share), front / (front + rear), sources, count);
    offer_default(w, INDEX(general.unsprung_mass), 0.17 * w->vehicle->general.mass);
}

static void work_cg_height(struct work *w)
{
    const struct brake_tilt_lines *t = &w->vehicle->tilt;
    const struct brake_general_lines *g = &w->vehicle->general;
    const double height =
        brake_cg_height_tilt(t->ground_axle_tilted - t->ground_axle_level, g->mass, g->wheelbase,
                             t->rise, t->hub_height);
    const int tilt[] = {INDEX(tilt.ground_axle_tilted), INDEX(tilt.ground_axle_level),
                        INDEX(tilt.rise), INDEX(tilt.hub_height)};
    if (!isnan(t->rise) && !isnan(g->wheelbase) && t->rise >= g->wheelbase)
        refuse(w, BRAKE_E_RANGE, INDEX(tilt.rise), "must be less than the wheelbase");
    offer(w, INDEX(general.cg_height), height, tilt, 4);
    if (isnan(height) && !held(w, INDEX(general.cg_height)) && !isnan(g->roof_height)) {
        const int roof[] = {INDEX(general.roof_height)};
        offer(w, INDEX(general.cg_height), 0.40 * g->roof_height, roof, 1);
        w->sheet->record[INDEX(general.cg_height)].from = BRAKE_ESTIMATED;
    }
}

/* Reads a marking; an empty one leaves `size` at zero. Returns false when there is none. */
static bool read_marking(struct work *w, const char *text, int index, struct brake_marking *size)
{
    if (text[0] == '\0')
        return false;
    if (brake_marking_read(text, size) < 0) {
        refuse(w, BRAKE_E_MARKING, index,
               "got '%.40s'; accepts forms such as LT305/70R17 121/118Q, 265/70R17, "
               "35x12.50R17LT, 7.50R16",
               text);
        return false;
    }
    return true;
}

static double known(double value)
{
    return value > 0.0 ? value : BRAKE_NAN;
}

static void judge_rollout(struct work *w, int axle, const struct brake_marking *size)
{
    const struct brake_tyre_lines *tyre = &w->vehicle->axle[axle].tyre;
    const double book = brake_tyre_circumference(size->overall_diameter, size->radial);
    const int rollout = AXLE_INDEX(tyre.rollout, axle);
    if (w->sheet->record[rollout].set || w->sheet->record[rollout].from == BRAKE_DEFAULT)
        return;
    if (fabs(tyre->rollout / book - 1.0) > marking_agreement)
        refuse(w, BRAKE_E_CONFLICT, rollout,
               "got %.4g m, but a tyre marked '%.40s' rolls about %.4g m; one of them belongs to "
               "another tyre",
               tyre->rollout, tyre->marking, book);
}

static void work_tyre(struct work *w, int axle)
{
    struct brake_tyre_lines *tyre = &w->vehicle->axle[axle].tyre;
    struct brake_marking size = {0.0, 0.0, 0.0, 0.0, 0.0, 0.0, true};
    const int marking[] = {AXLE_INDEX(tyre.marking, axle)};
    const int rollout[] = {AXLE_INDEX(tyre.rollout, axle)};
    const int diameter[] = {AXLE_INDEX(tyre.overall_diameter, axle)};
    const int radius = AXLE_INDEX(tyre.rolling_radius, axle);
    const bool marked = read_marking(w, tyre->marking, marking[0], &size);
    if (marked) {
        offer(w, diameter[0], known(size.overall_diameter), marking, 1);
        offer(w, AXLE_INDEX(tyre.load_capacity, axle), known(size.load_capacity), marking, 1);
        offer(w, AXLE_INDEX(tyre.speed_limit, axle), known(size.speed_limit), marking, 1);
        if (!isnan(tyre->rollout))
            judge_rollout(w, axle, &size);
    }
    if (!isnan(tyre->rollout))
        offer(w, radius, brake_rolling_radius(tyre->rollout), rollout, 1);
    else if (!held(w, radius))
        offer(w, radius,
              brake_rolling_radius(brake_tyre_circumference(tyre->overall_diameter, size.radial)),
              diameter, 1);
    if (!marked)
        offer_default(w, diameter[0], 2.0 * BRAKE_PI * tyre->rolling_radius / 3.05);
}

static void work_inertia(struct work *w, int axle)
{
    const struct brake_tyre_lines *tyre = &w->vehicle->axle[axle].tyre;
    const int target = AXLE_INDEX(tyre.wheel_inertia, axle);
    const int swing[] = {AXLE_INDEX(tyre.swing_period, axle), AXLE_INDEX(tyre.swing_radius, axle),
                         AXLE_INDEX(tyre.swing_length, axle), AXLE_INDEX(tyre.wheel_mass, axle)};
    const int estimate[] = {AXLE_INDEX(tyre.wheel_mass, axle)};
    const double swung = brake_wheel_inertia_swing(tyre->wheel_mass, tyre->swing_radius,
                                                   tyre->swing_length, tyre->swing_period);
    offer(w, target, swung, swing, 4);
    if (isnan(swung) && !held(w, target)) {
        offer(w, target,
              brake_wheel_inertia_estimate(tyre->wheel_mass, tyre->overall_diameter / 2.0,
                                           tyre->inertia_fraction),
              estimate, 1);
        if (w->sheet->record[target].from > BRAKE_ESTIMATED)
            w->sheet->record[target].from = BRAKE_ESTIMATED;
    }
}

static void work_pads(struct work *w, int axle)
{
    const struct brake_pads_lines *pads = &w->vehicle->axle[axle].pads;
    const enum brake_contact contact = (enum brake_contact)pads->contact;
    const int outer = AXLE_INDEX(pads.outer_radius, axle);
    const int outline[] = {AXLE_INDEX(pads.outline, axle)};
    const int sector[] = {outer, AXLE_INDEX(pads.inner_radius, axle)};
    const int target = AXLE_INDEX(disc.effective_radius, axle);
    double radius = BRAKE_NAN;
    enum brake_status status = BRAKE_OK;
    if (pads->shape == BRAKE_OUTLINE && pads->outline.count > 0) {
        status = brake_radius_polygon(pads->outline.at, pads->outline.count, contact, &radius);
    } else if (pads->shape == BRAKE_RECTANGLE &&
               !isnan(pads->outer_radius + pads->height + pads->width)) {
        status = brake_radius_rectangle(pads->outer_radius, pads->height, pads->width, contact,
                                        &radius);
    } else if (pads->shape == BRAKE_SECTOR) {
        radius = brake_radius_sector(pads->inner_radius, pads->outer_radius, contact);
        if (isnan(radius) && !isnan(pads->inner_radius) && !isnan(pads->outer_radius))
            status = BRAKE_E_SHAPE;
    }
    if (status != BRAKE_OK && pads->shape == BRAKE_SECTOR)
        refuse(w, status, outer, "got %.5g mm, but inner_radius is %.5g mm; it must be larger",
               1e3 * pads->outer_radius, 1e3 * pads->inner_radius);
    else if (status != BRAKE_OK)
        refuse(w, status, pads->shape == BRAKE_OUTLINE ? outline[0] : outer,
               "no pad has such %s: %s",
               pads->shape == BRAKE_OUTLINE ? "an outline" : "an outer_radius, height and width",
               brake_status_message(status));
    if (pads->shape == BRAKE_OUTLINE)
        offer(w, target, radius, outline, 1);
    else
        offer(w, target, radius, sector, pads->shape == BRAKE_SECTOR ? 2 : 1);
}

static void work_valve(struct work *w)
{
    const struct brake_valve_lines *lines = &w->vehicle->valve;
    struct brake_valve valve = {BRAKE_NAN, BRAKE_NAN};
    const int pairs[] = {INDEX(valve.gauge_pairs)};
    if (lines->kind == BRAKE_VALVE_NONE)
        return;
    if (lines->gauge_pairs.count > 0 &&
        brake_fit_valve(lines->gauge_pairs.at, lines->gauge_pairs.count, &valve) != BRAKE_OK)
        refuse(w, BRAKE_E_FIT, pairs[0],
               "the pairs show no knee: give (front, rear) pressures, at least two of them past "
               "it");
    offer(w, INDEX(valve.knee), valve.knee, pairs, 1);
    offer(w, INDEX(valve.slope), valve.slope, pairs, 1);
    if (lines->kind == BRAKE_VALVE_HEIGHT)
        offer_default(w, INDEX(valve.uncorrected_lift), w->vehicle->lift.suspension);
}

static void work_booster(struct work *w)
{
    const struct brake_booster_lines *b = &w->vehicle->booster;
    const int pairs[] = {INDEX(booster.force_pairs)};
    const int diaphragm[] = {INDEX(booster.diaphragm_diameter), INDEX(booster.vacuum)};
    struct brake_pedal pedal = {w->vehicle->pedal.ratio,      w->vehicle->pedal.efficiency,
                                BRAKE_NAN,                    BRAKE_NAN,
                                brake_piston_area(1.0, w->vehicle->master.bore),
                                w->vehicle->master.efficiency};
    const double area = brake_piston_area(b->diaphragms == 2.0 ? 1.7 : 1.0, b->diaphragm_diameter);
    if (b->booster == BRAKE_NONE)
        return;
    if (b->force_pairs.count > 0 &&
        brake_fit_booster(b->force_pairs.at, b->force_pairs.count, &pedal) != BRAKE_OK)
        refuse(w, BRAKE_E_FIT, pairs[0],
               "the pairs show no booster: give (pedal force, line pressure), in rising order, "
               "below and past its knee");
    offer(w, INDEX(booster.gain), pedal.gain, pairs, 1);
    if (b->force_pairs.count > 0)
        offer(w, INDEX(booster.assist), pedal.assist, pairs, 1);
    else
        offer(w, INDEX(booster.assist), brake_booster_assist(b->vacuum, area, b->efficiency),
              diaphragm, 2);
}

static void work_fluid(struct work *w)
{
    const struct brake_points *pumped = &w->vehicle->circuits.pumped;
    const int pairs[] = {INDEX(circuits.pumped)};
    double slope = BRAKE_NAN;
    double intercept;
    if (pumped->count > 0 &&
        (brake_fit_line(pumped->at, pumped->count, &slope, &intercept) != BRAKE_OK || slope < 0.0))
        refuse(w, BRAKE_E_FIT, pairs[0],
               "the readings give no line: give (pressure, fluid), two pressures or more");
    offer(w, INDEX(circuits.elastic_volume), slope * 1e7, pairs, 1);
}

static void work_parking(struct work *w)
{
    const struct brake_parking_lines *p = &w->vehicle->parking;
    const int axle = p->on == BRAKE_PARKING_FRONT ? BRAKE_FRONT : BRAKE_REAR;
    const int pull[] = {INDEX(parking.pull), AXLE_INDEX(tyre.rolling_radius, axle)};
    const int chain[] = {INDEX(parking.ratio), INDEX(parking.factor), INDEX(parking.radius)};
    const double gear = p->place == BRAKE_AT_SHAFT ? w->vehicle->driveline.axle_ratio : 1.0;
    offer_default(w, INDEX(parking.force), p->control == BRAKE_HAND ? 400.0 : 500.0);
    offer(w, INDEX(parking.torque), p->pull * w->vehicle->axle[axle].tyre.rolling_radius, pull, 2);
    if (isnan(p->pull))
        offer(w, INDEX(parking.torque),
              brake_parking_torque(p->force, p->ratio, p->efficiency, p->factor, p->radius, gear),
              chain, 3);
}

static void work_speedometer(struct work *w)
{
    struct brake_marking size;
    const int marking[] = {INDEX(speedometer.marking)};
    if (read_marking(w, w->vehicle->speedometer.marking, marking[0], &size))
        offer(w, INDEX(speedometer.rollout),
              brake_tyre_circumference(size.overall_diameter, size.radial), marking, 1);
}

static double left_to_rating(const struct brake_vehicle *vehicle, double mass)
{
    const double rated = vehicle->general.rated_mass;
    return isnan(rated) ? BRAKE_NAN : fmax(0.0, rated - mass);
}

static void work_load(struct work *w, int load)
{
    const struct brake_load_lines *lines = &w->vehicle->load[load];
    const struct brake_body bare = brake_vehicle_bare(w->vehicle);
    const double wheelbase = w->vehicle->general.wheelbase;
    const int axles[] = {LOAD_INDEX(front_axle, load), LOAD_INDEX(rear_axle, load)};
    const double added = lines->front_axle + lines->rear_axle - bare.mass;
    const int mass = LOAD_INDEX(mass, load);
    if (added < -agreement * bare.mass)
        refuse(w, BRAKE_E_CONFLICT, axles[0],
               "the axle readings add up to %.5g kg, less than the vehicle before loading, %.5g "
               "kg",
               added + bare.mass, bare.mass);
    offer(w, mass, isnan(added) ? BRAKE_NAN : fmax(0.0, added), axles, 2);
    if (added > 0.0)
        offer(w, LOAD_INDEX(behind_front_axle, load),
              (lines->rear_axle * wheelbase - bare.mass * bare.behind) / added, axles, 2);
    else
        offer_default(w, LOAD_INDEX(behind_front_axle, load), 0.75 * wheelbase);
    if (isnan(added))
        offer_default(w, mass, load == BRAKE_EMPTY ? 0.0 : left_to_rating(w->vehicle, bare.mass));
    offer_default(w, LOAD_INDEX(height, load), 1.0);
}

static void work_out(struct work *w)
{
    repeat_sections(w);
    work_mass(w);
    work_cg_height(w);
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        work_tyre(w, axle);
        work_inertia(w, axle);
        if (w->vehicle->axle[axle].axle.brake == BRAKE_DISC)
            work_pads(w, axle);
    }
    const int ratio[] = {INDEX(pedal.pad_arm), INDEX(pedal.rod_arm)};
    offer(w, INDEX(pedal.ratio), w->vehicle->pedal.pad_arm / w->vehicle->pedal.rod_arm, ratio, 2);
    work_valve(w);
    work_booster(w);
    work_fluid(w);
    work_parking(w);
    work_speedometer(w);
    for (int load = 0; load < BRAKE_LOADS; load++)
        work_load(w, load);
}

/* ---- after the rules ------------------------------------------------------------------------ */

static void need(struct work *w, int index, const char *when)
{
    if (!given(w, index))
        refuse(w, BRAKE_E_MISSING, index, "is missing%s. How to get it: %s", when,
               brake_quantity_at(index)->measure);
}

static void check_sections(struct work *w)
{
    for (int i = 0; i < brake_sections_count; i++) {
        const enum brake_belongs to = brake_sections[i].belongs;
        const int first = brake_section_first(i);
        const int axle = to == BRAKE_REAR_DISC || to == BRAKE_REAR_DRUM;
        if (belongs(w->vehicle, &brake_sections[i]) || !brake_sheet_has(w->sheet, i) ||
            !given(w, AXLE_INDEX(axle.brake, axle)))
            continue;
        for (int row = 0; row < brake_sections[i].count; row++) {
            if (w->sheet->record[first + row].from > BRAKE_DEFAULT)
                refuse(w, BRAKE_E_CONFLICT, first + row,
                       "does not belong: %s.axle.brake says that this axle has a %s",
                       axle == BRAKE_FRONT ? "front" : "rear",
                       to == BRAKE_FRONT_DISC || to == BRAKE_REAR_DISC ? "drum" : "disc");
        }
    }
}

static void check_needs(struct work *w)
{
    const int parts = brake_section_first(brake_sections_count - 1);
    const int per_part = brake_sections[brake_sections_count - 1].count;
    for (int i = 0; i < parts + w->vehicle->parts * per_part; i++) {
        if (brake_quantity_at(i)->need == BRAKE_NEEDED &&
            belongs(w->vehicle, brake_quantity_section(i)))
            need(w, i, "");
    }
    if (w->vehicle->booster.booster == BRAKE_FITTED) {
        need(w, INDEX(booster.gain), ", as a booster is fitted");
        need(w, INDEX(booster.assist), ", as a booster is fitted");
    }
    if (w->vehicle->valve.kind != BRAKE_VALVE_NONE) {
        need(w, INDEX(valve.knee), ", as a valve is fitted");
        need(w, INDEX(valve.slope), ", as a valve is fitted");
    }
    if (w->vehicle->valve.kind > BRAKE_VALVE_FIXED) {
        need(w, INDEX(valve.knee_rate), ", as the valve senses load");
        need(w, INDEX(valve.set_mass), ", as the valve senses load");
    }
    if (w->vehicle->valve.kind == BRAKE_VALVE_HEIGHT)
        need(w, INDEX(valve.stiffness), ", as the valve senses height");
    need(w, LOAD_INDEX(mass, BRAKE_FULL), "; or give vehicle.rated_mass");
}

static void check_drum(struct work *w, int axle)
{
    const struct brake_drum_lines *drum = &w->vehicle->axle[axle].drum;
    double factor;
    if (w->vehicle->axle[axle].axle.brake != BRAKE_DRUM)
        return;
    if (isnan(drum->brake_factor)) {
        const char *when = ", as drum.brake_factor is left out";
        need(w, AXLE_INDEX(lining.pivot_radius, axle), when);
        need(w, AXLE_INDEX(lining.force_arm, axle), when);
        need(w, AXLE_INDEX(lining.heel, axle), when);
        need(w, AXLE_INDEX(lining.toe, axle), when);
    }
    const struct brake_lining_lines *lining = &w->vehicle->axle[axle].lining;
    const struct brake_quantity *q = brake_quantity_at(AXLE_INDEX(drum.brake_factor, axle));
    const enum brake_status status =
        brake_vehicle_drum_factor(w->vehicle, (enum brake_axle)axle, &factor);
    if (lining->toe <= lining->heel)
        refuse(w, BRAKE_E_CONFLICT, AXLE_INDEX(lining.toe, axle),
               "got %.5g deg, but heel is %.5g deg; the toe lies farther from the pivot",
               shown(AXLE_INDEX(lining.toe, axle), lining->toe),
               shown(AXLE_INDEX(lining.heel, axle), lining->heel));
    if (status == BRAKE_OK && !(factor >= q->low && factor <= q->high))
        refuse(w, BRAKE_E_RANGE, AXLE_INDEX(lining.mu, axle),
               "gives these shoes a brake factor of %.4g; accepts %.4g to %.4g", factor, q->low,
               q->high);
    if (status != BRAKE_OK)
        refuse(w, status, AXLE_INDEX(lining.mu, axle), "got %.4g: %s",
               w->vehicle->axle[axle].lining.mu, brake_status_message(status));
}

static void check_order_of_curve(struct work *w, int index)
{
    const struct brake_points *points = brake_quantity_in(w->vehicle, index);
    for (int i = 1; i < points->count; i++) {
        if (points->at[i].x <= points->at[i - 1].x)
            refuse(w, BRAKE_E_FIT, index, "the first numbers of the pairs must rise");
    }
}

static bool inside(const struct work *w, struct brake_body body)
{
    return body.behind > 0.0 && body.behind < w->vehicle->general.wheelbase;
}

/* Place of the part that moves the centre of gravity most, as a quantity. */
static int heaviest_part(const struct work *w)
{
    const int section = brake_sections_count - 1;
    const struct brake_part_lines *part = w->vehicle->part;
    int heaviest = 0;
    for (int i = 1; i < w->vehicle->parts; i++) {
        if (fabs(part[i].mass) > fabs(part[heaviest].mass))
            heaviest = i;
    }
    return brake_section_first(section) + heaviest * brake_sections[section].count + 1;
}

static void check_bodies(struct work *w)
{
    const struct brake_body bare = brake_vehicle_bare(w->vehicle);
    if (!(bare.mass > 0.0))
        refuse(w, BRAKE_E_CONFLICT, INDEX(general.mass),
               "the parts taken off weigh as much as the vehicle");
    if (!(w->vehicle->general.unsprung_mass < w->vehicle->general.mass))
        refuse(w, BRAKE_E_CONFLICT, INDEX(general.unsprung_mass),
               "must be less than the mass of the vehicle");
    if (w->vehicle->parts > 0 && !inside(w, bare))
        refuse(w, BRAKE_E_CONFLICT, heaviest_part(w),
               "with the parts the centre of gravity comes out %.4g m behind the front axle, "
               "outside the wheelbase",
               bare.behind);
    for (int load = 0; load < BRAKE_LOADS; load++) {
        const struct brake_body body = brake_vehicle_body(w->vehicle, (enum brake_load)load);
        if (!inside(w, body))
            refuse(w, BRAKE_E_CONFLICT, LOAD_INDEX(behind_front_axle, load),
                   "the centre of gravity comes out %.4g m behind the front axle, outside the "
                   "wheelbase",
                   body.behind);
        if (!(body.height > 0.0))
            refuse(w, BRAKE_E_CONFLICT, INDEX(general.cg_height),
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
        snprintf(when, sizeof when, ", as %s is given", path);
        for (int j = 0; j < count; j++)
            need(w, index[j], when);
    }
}

static void check_readings(struct work *w)
{
    const struct brake_scales_lines *s = &w->vehicle->scales;
    const int front[] = {INDEX(scales.front_left), INDEX(scales.front_right)};
    const int rear[] = {INDEX(scales.rear_left), INDEX(scales.rear_right)};
    const int tilt[] = {INDEX(tilt.rise), INDEX(tilt.ground_axle_level),
                        INDEX(tilt.ground_axle_tilted), INDEX(tilt.hub_height)};
    const int arms[] = {INDEX(pedal.pad_arm), INDEX(pedal.rod_arm)};
    const bool front_known = !isnan(or_else(s->front_left, s->front_axle));
    const bool rear_known = !isnan(or_else(s->rear_left, s->rear_axle));
    need_all(w, front, 2);
    need_all(w, rear, 2);
    if (front_known && !rear_known)
        need(w, INDEX(scales.rear_axle), ", as the front axle was weighed");
    if (rear_known && !front_known)
        need(w, INDEX(scales.front_axle), ", as the rear axle was weighed");
    need_all(w, tilt, 4);
    need_all(w, arms, 2);
    for (int load = 0; load < BRAKE_LOADS; load++) {
        const int axles[] = {LOAD_INDEX(front_axle, load), LOAD_INDEX(rear_axle, load)};
        need_all(w, axles, 2);
    }
}

static void check_wheel_readings(struct work *w, int axle)
{
    const int swing[] = {AXLE_INDEX(tyre.swing_radius, axle), AXLE_INDEX(tyre.swing_length, axle),
                         AXLE_INDEX(tyre.swing_period, axle), AXLE_INDEX(tyre.wheel_mass, axle)};
    const int pads[][3] = {{AXLE_INDEX(pads.inner_radius, axle),
                            AXLE_INDEX(pads.outer_radius, axle),
                            AXLE_INDEX(pads.inner_radius, axle)},
                           {AXLE_INDEX(pads.outer_radius, axle), AXLE_INDEX(pads.height, axle),
                            AXLE_INDEX(pads.width, axle)}};
    const int shape = w->vehicle->axle[axle].pads.shape;
    for (int i = 0; i < 3; i++) {
        if (stated(w, swing[i]))
            need_all(w, swing, 4);
    }
    if (w->vehicle->axle[axle].axle.brake == BRAKE_DISC && shape != BRAKE_OUTLINE)
        need_all(w, pads[shape], 3);
}

/* Lines of a thing that is not fitted, or not of that kind, would be lost. They may stay when
 * --set takes the thing away. */
static void unused(struct work *w, int index, int choice)
{
    char path[160];
    if (!stated(w, index) || !given(w, choice) || w->sheet->record[choice].set)
        return;
    brake_catalogue_path(w->vehicle, choice, path, sizeof path);
    refuse(w, BRAKE_E_CONFLICT, index, "is of no use, as %s is %s%s; change one of them", path,
           brake_quantity_at(choice)->choices[(int)brake_quantity_value(w->vehicle, choice)],
           stated(w, choice) ? "" : ", by default");
}

static void check_unused(struct work *w)
{
    if (w->vehicle->valve.kind == BRAKE_VALVE_NONE) {
        for (int i = INDEX(valve.knee); i <= INDEX(valve.uncorrected_lift); i++)
            unused(w, i, INDEX(valve.kind));
    }
    if (w->vehicle->booster.booster == BRAKE_NONE) {
        for (int i = INDEX(booster.gain); i <= INDEX(booster.force_pairs); i++)
            unused(w, i, INDEX(booster.booster));
    }
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        const int shape = w->vehicle->axle[axle].pads.shape;
        const int choice = AXLE_INDEX(pads.shape, axle);
        if (shape != BRAKE_OUTLINE)
            unused(w, AXLE_INDEX(pads.outline, axle), choice);
        if (shape != BRAKE_RECTANGLE) {
            unused(w, AXLE_INDEX(pads.height, axle), choice);
            unused(w, AXLE_INDEX(pads.width, axle), choice);
        }
        if (shape != BRAKE_SECTOR)
            unused(w, AXLE_INDEX(pads.inner_radius, axle), choice);
    }
}

/* --set can give the diameter of a group of pistons that is not there. */
static void check_pistons(struct work *w, int axle)
{
    const struct brake_pistons *pistons = &w->vehicle->axle[axle].disc.pistons;
    const int list = AXLE_INDEX(disc.pistons, axle);
    for (int i = 0; i < BRAKE_GROUPS; i++) {
        if (given(w, list + 1 + i) && !(pistons->count[i] > 0.0))
            refuse(w, BRAKE_E_CONFLICT, list + 1 + i, "there is no such group in pistons");
    }
}

static void check(struct work *w)
{
    check_sections(w);
    check_unused(w);
    check_readings(w);
    for (int axle = 0; axle < BRAKE_AXLES; axle++)
        check_wheel_readings(w, axle);
    check_needs(w);
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        check_pistons(w, axle);
        check_drum(w, axle);
    }
    if (w->vehicle->booster.diaphragms > 1.0 && w->vehicle->booster.diaphragms < 2.0)
        refuse(w, BRAKE_E_RANGE, INDEX(booster.diaphragms), "got %.4g; accepts 1 or 2",
               w->vehicle->booster.diaphragms);
    check_order_of_curve(w, INDEX(valve.gauge_pairs));
    check_order_of_curve(w, INDEX(booster.force_pairs));
    check_bodies(w);
}

/* Worked values move with every toleranced number they come from; the moves add up in squares. A
 * worked value that none of them moves keeps the usual uncertainty of its row. */
static void carry_tolerances(struct work *w)
{
    const struct brake_sheet plain = *w->sheet;
    const int count = brake_catalogue_count();
    double squares[BRAKE_ROWS] = {0.0};
    for (int i = 0; i < count; i++) {
        const struct brake_record *record = &plain.record[i];
        if (record->tolerance <= 0.0 || record->worked)
            continue;
        *real_in(w, i) = brake_quantity_value(&plain.vehicle, i) + record->tolerance;
        work_out(w);
        for (int j = 0; j < count; j++) {
            if (!plain.record[j].worked)
                continue;
            const double move = *real_in(w, j) - brake_quantity_value(&plain.vehicle, j);
            squares[j] += move * move;
        }
        *w->sheet = plain;
    }
    for (int j = 0; j < count; j++) {
        struct brake_record *record = &w->sheet->record[j];
        if (!record->worked)
            continue;
        record->typical = !(squares[j] > 0.0);
        record->tolerance = record->typical
                                ? fabs(*real_in(w, j)) * brake_quantity_at(j)->typical
                                : sqrt(squares[j]);
    }
}

enum brake_status brake_sheet_complete(struct brake_sheet *sheet, struct brake_error *error)
{
    static const struct brake_error none = {0};
    struct work w = {sheet, &sheet->vehicle, error};
    *error = none;
    forget(&w);
    repeat_sections(&w);
    fill_defaults(&w);
    work_out(&w);
    check(&w);
    if (error->status != BRAKE_OK)
        return error->status;
    w.error = NULL;
    carry_tolerances(&w);
    return BRAKE_OK;
}

void brake_sheet_vary(const struct brake_sheet *sheet, int index, double value,
                      struct brake_vehicle *vehicle)
{
    if (sheet->record[index].worked) {
        *vehicle = sheet->vehicle;
        *(double *)brake_quantity_in(vehicle, index) = value;
        return;
    }
    struct brake_sheet varied = *sheet;
    struct work w = {&varied, &varied.vehicle, NULL};
    *(double *)brake_quantity_in(&varied.vehicle, index) = value;
    work_out(&w);
    *vehicle = varied.vehicle;
}
