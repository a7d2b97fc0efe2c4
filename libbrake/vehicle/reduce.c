/* SPDX-License-Identifier: MIT */
/* The rules: from what was measured to what the model needs. */
#include <math.h>

#include "brake/fit.h"
#include "brake/load.h"
#include "brake/system.h"
#include "brake/tyre.h"
#include "work.h"
#include "system.h"

/* The nominal radius of a marking and a measured one: listed figures for one size spread by 6.5 %
 * (common practice, no source); beyond this one of them belongs to another tyre. */
static const double marking_agreement = 0.10;

static void reduce_mass(struct work *w, int unused)
{
    (void)unused;
    const struct brake_scales_lines *s = &w->vehicle->scales;
    const double front = work_or_else(s->front_left + s->front_right, s->front_axle);
    const double rear = work_or_else(s->rear_left + s->rear_right, s->rear_axle);
    const int readings[] = {INDEX(scales.front_left), INDEX(scales.front_right),
                            INDEX(scales.front_axle), INDEX(scales.rear_left),
                            INDEX(scales.rear_right), INDEX(scales.rear_axle)};
    int sources[6];
    int count = 0;
    for (int i = 0; i < 6; i++) {
        if (work_given(w, readings[i]))
            sources[count++] = readings[i];
    }
    if (fabs(s->front_left + s->front_right - s->front_axle) > work_agreement * s->front_axle)
        work_refuse(w, BRAKE_E_CONFLICT, INDEX(scales.front_axle),
                    "got %s, but the corner scales add up to %s; leave one out",
                    work_words(w, INDEX(scales.front_axle), s->front_axle).text,
                    work_words(w, INDEX(scales.front_axle), s->front_left + s->front_right).text);
    if (fabs(s->rear_left + s->rear_right - s->rear_axle) > work_agreement * s->rear_axle)
        work_refuse(w, BRAKE_E_CONFLICT, INDEX(scales.rear_axle),
                    "got %s, but the corner scales add up to %s; leave one out",
                    work_words(w, INDEX(scales.rear_axle), s->rear_axle).text,
                    work_words(w, INDEX(scales.rear_axle), s->rear_left + s->rear_right).text);
    work_offer(w, INDEX(general.mass), front + rear, sources, count);
    work_offer(w, INDEX(general.front_share), front / (front + rear), sources, count);
    work_offer_default(w, INDEX(general.unsprung_mass), 0.17 * w->vehicle->general.mass);
}

static void reduce_cg_height(struct work *w, int unused)
{
    (void)unused;
    const struct brake_tilt_lines *t = &w->vehicle->tilt;
    const struct brake_general_lines *g = &w->vehicle->general;
    const double height = brake_cg_height_tilt(t->ground_axle_tilted - t->ground_axle_level,
                                               g->mass, g->wheelbase, t->rise, t->hub_height);
    const int tilt[] = {INDEX(tilt.ground_axle_tilted), INDEX(tilt.ground_axle_level),
                        INDEX(tilt.rise), INDEX(tilt.hub_height)};
    if (!isnan(t->rise) && !isnan(g->wheelbase) && t->rise >= g->wheelbase)
        work_refuse(w, BRAKE_E_RANGE, INDEX(tilt.rise), "must be less than the wheelbase");
    OFFER(INDEX(general.cg_height), height, tilt);
    if (isnan(height) && !work_held(w, INDEX(general.cg_height)) && !isnan(g->roof_height)) {
        work_offer_default(w, INDEX(general.cg_height), 0.385 * g->roof_height);
        w->sheet->record[INDEX(general.cg_height)].from = BRAKE_ESTIMATED;
    }
}

static void reduce_grip(struct work *w, int unused)
{
    static const double grip[] = {
        [BRAKE_TYRES_ROAD] = 1.00, [BRAKE_TYRES_ALL_TERRAIN] = 0.95, [BRAKE_TYRES_MUD] = 0.88};
    (void)unused;
    work_offer_default(w, INDEX(general.tyre_grip), grip[w->vehicle->general.tyres]);
}

/* Reads a marking; an empty one leaves `size` at zero. Returns false when there is none. */
static bool read_marking(struct work *w, const char *text, int index, struct brake_marking *size)
{
    if (text[0] == '\0')
        return false;
    if (brake_marking_read(text, size) < 0) {
        work_refuse(w, BRAKE_E_MARKING, index,
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
    const double nominal = brake_tyre_circumference(size->overall_diameter, size->radial);
    const int rollout = AXLE_INDEX(tyre.rollout, axle);
    if (w->sheet->record[rollout].set || w->sheet->record[rollout].from == BRAKE_DEFAULT)
        return;
    if (fabs(tyre->rollout / nominal - 1.0) > marking_agreement)
        work_refuse(w, BRAKE_E_CONFLICT, rollout,
                    "got %s, but a tyre marked '%.40s' rolls about %s; one of them belongs to "
                    "another tyre",
                    work_words(w, rollout, tyre->rollout).text, tyre->marking,
                    work_words(w, rollout, nominal).text);
}

static void reduce_tyre(struct work *w, int axle)
{
    struct brake_tyre_lines *tyre = &w->vehicle->axle[axle].tyre;
    struct brake_marking size = {.radial = true};
    const bool dual = w->vehicle->axle[axle].axle.wheels == BRAKE_WHEELS_DUAL;
    const int marking[] = {AXLE_INDEX(tyre.marking, axle)};
    const int rollout[] = {AXLE_INDEX(tyre.rollout, axle)};
    const int diameter[] = {AXLE_INDEX(tyre.overall_diameter, axle)};
    const int radius = AXLE_INDEX(tyre.rolling_radius, axle);
    const bool marked = read_marking(w, tyre->marking, marking[0], &size);
    if (marked) {
        OFFER(diameter[0], known(size.overall_diameter), marking);
        OFFER(AXLE_INDEX(tyre.load_capacity, axle),
              known(dual ? size.dual_capacity : size.load_capacity), marking);
        OFFER(AXLE_INDEX(tyre.speed_limit, axle), known(size.speed_limit), marking);
        if (!isnan(tyre->rollout))
            judge_rollout(w, axle, &size);
    }
    if (!isnan(tyre->rollout))
        OFFER(radius, brake_rolling_radius(tyre->rollout), rollout);
    else if (!work_held(w, radius))
        OFFER(radius,
              brake_rolling_radius(brake_tyre_circumference(tyre->overall_diameter, size.radial)),
              diameter);
    if (!marked)
        work_offer_default(w, diameter[0], 2.0 * BRAKE_PI * tyre->rolling_radius / 3.05);
}

static void reduce_inertia(struct work *w, int axle)
{
    const struct brake_tyre_lines *tyre = &w->vehicle->axle[axle].tyre;
    const int target = AXLE_INDEX(tyre.wheel_inertia, axle);
    const int swing[] = {AXLE_INDEX(tyre.swing_period, axle), AXLE_INDEX(tyre.swing_radius, axle),
                         AXLE_INDEX(tyre.swing_length, axle), AXLE_INDEX(tyre.wheel_mass, axle)};
    const int estimate[] = {AXLE_INDEX(tyre.wheel_mass, axle)};
    const double swung = brake_wheel_inertia_swing(tyre->wheel_mass, tyre->swing_radius,
                                                   tyre->swing_length, tyre->swing_period);
    OFFER(target, swung, swing);
    if (isnan(swung) && !work_held(w, target)) {
        OFFER(target,
              brake_wheel_inertia_estimate(tyre->wheel_mass, tyre->overall_diameter / 2.0,
                                           tyre->inertia_fraction),
              estimate);
        if (w->sheet->record[target].from > BRAKE_ESTIMATED)
            w->sheet->record[target].from = BRAKE_ESTIMATED;
    }
}

/* Sources of these rules: the reasons of their rows in the catalogue. */
static void usual_of_disc(struct work *w, int axle)
{
    const struct brake_disc_lines *disc = &w->vehicle->axle[axle].disc;
    const bool fixed = disc->mounting == BRAKE_FIXED;
    work_offer_default(w, AXLE_INDEX(disc.compliance, axle),
                       (fixed ? 0.30e-3 : 0.40e-3) * brake_vehicle_piston_area(&disc->pistons));
    work_offer_default(w, AXLE_INDEX(pads.gap, axle), fixed ? 0.15e-3 : 0.09e-3);
    work_offer_default(w, AXLE_INDEX(disc.hat_mass, axle), 0.37 * disc->rotor_mass);
}

/* Whether a line that tells the geometry of the shoes is given. */
static bool has_shape(const struct brake_lining_lines *lining)
{
    return !(isnan(lining->pivot_radius) && isnan(lining->force_arm) && isnan(lining->heel) &&
             isnan(lining->toe) && isnan(lining->secondary_heel) && isnan(lining->secondary_toe));
}

static void reduce_secondary(struct work *w, int axle)
{
    const struct brake_axle_of_vehicle *at = &w->vehicle->axle[axle];
    const struct brake_lining_lines *lining = &at->lining;
    if (at->axle.brake != BRAKE_DRUM || at->drum.shoes != BRAKE_DUO_SERVO ||
        !isnan(at->drum.brake_factor))
        return;
    work_offer_default(w, AXLE_INDEX(lining.secondary_heel, axle), lining->heel);
    work_offer_default(w, AXLE_INDEX(lining.secondary_toe, axle), lining->toe);
    work_offer_default(w, AXLE_INDEX(lining.secondary_mu, axle), lining->mu);
}

static void reduce_drum(struct work *w, int axle)
{
    static const double usual[] = {
        [BRAKE_LEADING_TRAILING] = 2.2, [BRAKE_TWO_LEADING] = 3.1, [BRAKE_DUO_SERVO] = 4.4};
    const struct brake_drum_lines *drum = &w->vehicle->axle[axle].drum;
    const struct brake_lining_lines *lining = &w->vehicle->axle[axle].lining;
    if (w->vehicle->axle[axle].axle.brake != BRAKE_DRUM)
        return;
    work_offer_default(w, AXLE_INDEX(drum.compliance, axle),
                       1.2e-3 * brake_piston_area(2.0, drum->cylinder_diameter));
    if (!has_shape(lining))
        work_offer_default(
            w, AXLE_INDEX(drum.brake_factor, axle),
            usual[drum->shoes] *
                pow(lining->mu / 0.37, brake_vehicle_factor_power((enum brake_shoes)drum->shoes)));
}

/* What of a pad says where it rubs, by its shape. */
struct told {
    int line[2];       /* that the radius is said to come from; one alone stands twice */
    const char *words; /* what is wrong when it has no radius */
    bool known;
    double reach; /* [m] axle to its outermost edge */
};

static struct told told_of(struct work *w, int axle)
{
    const struct brake_pads_lines *p = &w->vehicle->axle[axle].pads;
    const int inner = AXLE_INDEX(pads.inner_radius, axle);
    const int outer = AXLE_INDEX(pads.outer_radius, axle);
    const int centre = AXLE_INDEX(pads.centre_radius, axle);
    const int outline = AXLE_INDEX(pads.outline, axle);
    switch ((enum brake_pad_shape)p->shape) {
    case BRAKE_SECTOR:
        return (struct told){
            {outer, inner}, NULL, !isnan(p->inner_radius + p->outer_radius), p->outer_radius};
    case BRAKE_RECTANGLE:
        return (struct told){{outer, outer},
                             "an outer_radius, height and width",
                             !isnan(p->outer_radius + p->height + p->width),
                             p->outer_radius};
    case BRAKE_CIRCLE:
        return (struct told){{centre, centre},
                             NULL,
                             !isnan(p->centre_radius + p->diameter),
                             p->centre_radius + p->diameter / 2.0};
    case BRAKE_OUTLINE:
        break;
    }
    return (struct told){{outline, outline}, "an outline", p->outline.count > 0, BRAKE_NAN};
}

static enum brake_status radius_of_pad(const struct brake_pads_lines *pads, double *radius)
{
    const enum brake_contact contact = (enum brake_contact)pads->contact;
    switch ((enum brake_pad_shape)pads->shape) {
    case BRAKE_RECTANGLE:
        return brake_radius_rectangle(pads->outer_radius, pads->height, pads->width, contact,
                                      radius);
    case BRAKE_OUTLINE:
        return brake_radius_polygon(pads->outline.at, pads->outline.count, contact, radius);
    case BRAKE_CIRCLE:
        *radius = brake_radius_circle(pads->diameter / 2.0, pads->centre_radius, contact);
        break;
    case BRAKE_SECTOR:
        *radius = brake_radius_sector(pads->inner_radius, pads->outer_radius, contact);
    }
    return isnan(*radius) ? BRAKE_E_SHAPE : BRAKE_OK;
}

static void refuse_pad(struct work *w, int axle, const struct told *told)
{
    const struct brake_pads_lines *pads = &w->vehicle->axle[axle].pads;
    const int line = told->line[0];
    const int across = AXLE_INDEX(pads.diameter, axle);
    if (pads->shape == BRAKE_SECTOR)
        work_refuse(w, BRAKE_E_SHAPE, line, "got %s, but inner_radius is %s; it must be larger",
                    work_words(w, line, pads->outer_radius).text,
                    work_words(w, line, pads->inner_radius).text);
    else if (pads->shape == BRAKE_CIRCLE)
        work_refuse(w, BRAKE_E_SHAPE, across,
                    "got %s, but centre_radius is %s; handbooks tabulate circular pads up to where "
                    "the two are equal: give a larger one as an outline",
                    work_words(w, across, pads->diameter).text,
                    work_words(w, line, pads->centre_radius).text);
    else
        work_refuse(w, BRAKE_E_SHAPE, line, "no pad has such %s: %s", told->words,
                    brake_status_message(BRAKE_E_SHAPE));
}

static void reduce_pads(struct work *w, int axle)
{
    if (w->vehicle->axle[axle].axle.brake != BRAKE_DISC)
        return;
    usual_of_disc(w, axle);
    const struct told told = told_of(w, axle);
    double radius = BRAKE_NAN;
    if (told.known && radius_of_pad(&w->vehicle->axle[axle].pads, &radius) != BRAKE_OK)
        refuse_pad(w, axle, &told);
    if (!isnan(told.reach))
        work_offer_default(w, AXLE_INDEX(disc.rotor_diameter, axle), 2.0 * told.reach);
    OFFER(AXLE_INDEX(disc.effective_radius, axle), radius, told.line);
}

static void reduce_valve(struct work *w, int unused)
{
    (void)unused;
    const struct brake_valve_lines *lines = &w->vehicle->valve;
    struct brake_valve valve = {BRAKE_NAN, BRAKE_NAN};
    const int pairs[] = {INDEX(valve.gauge_pairs)};
    if (lines->kind == BRAKE_VALVE_NONE)
        return;
    if (lines->gauge_pairs.count > 0 &&
        brake_fit_valve(lines->gauge_pairs.at, lines->gauge_pairs.count, &valve) != BRAKE_OK)
        work_refuse(
            w, BRAKE_E_FIT, pairs[0],
            "the pairs show no knee: give (front, rear) pressures, at least two of them past "
            "it");
    OFFER(INDEX(valve.knee), valve.knee, pairs);
    OFFER(INDEX(valve.slope), valve.slope, pairs);
    if (lines->kind != BRAKE_VALVE_HEIGHT)
        return;
    work_offer_default(w, INDEX(valve.uncorrected_lift), w->vehicle->lift.suspension);
    work_offer_default(w, INDEX(valve.anti_lift), 0.5);
}

/* Nitrogen that expands as quickly as a pedal goes down. */
static const double adiabatic = 1.4;

/* From the diaphragm, or from piston and accumulator. */
static void reduce_source(struct work *w)
{
    const struct brake_booster_lines *b = &w->vehicle->booster;
    const bool oil = b->booster == BRAKE_BOOSTER_HYDRAULIC;
    const int sources[] = {oil ? INDEX(booster.piston_diameter) : INDEX(booster.diaphragm_diameter),
                           oil ? INDEX(booster.pressure) : INDEX(booster.vacuum)};
    const double shells = b->diaphragms == 2.0 ? 1.75 : 1.0;
    const double area = oil ? brake_piston_area(1.0, b->piston_diameter)
                            : brake_piston_area(shells, b->diaphragm_diameter);
    if (b->force_pairs.count == 0)
        OFFER(INDEX(booster.assist),
              brake_booster_assist(oil ? b->pressure : b->vacuum, area, b->efficiency), sources);
}

static void usual_of_booster(struct work *w)
{
    const struct brake_booster_lines *b = &w->vehicle->booster;
    if (b->booster == BRAKE_BOOSTER_VACUUM) {
        work_offer_default(w, INDEX(booster.vacuum), 63e3);
        work_offer_default(w, INDEX(booster.vacuum_low), 0.70 * b->vacuum);
        return;
    }
    work_offer_default(w, INDEX(booster.pressure), 95e5);
    work_offer_default(w, INDEX(booster.reserve), 2.0);
    work_offer_default(w, INDEX(booster.precharge), 0.5 * b->pressure);
    work_offer_default(
        w, INDEX(booster.pressure_low),
        brake_accumulator_pressure(b->pressure, b->precharge, adiabatic, 1.0 / b->reserve));
}

static void reduce_booster(struct work *w, int unused)
{
    (void)unused;
    const struct brake_booster_lines *b = &w->vehicle->booster;
    const int pairs[] = {INDEX(booster.force_pairs)};
    struct brake_pedal pedal = {w->vehicle->pedal.ratio,
                                w->vehicle->pedal.efficiency,
                                BRAKE_NAN,
                                BRAKE_NAN,
                                brake_piston_area(1.0, w->vehicle->master.bore),
                                w->vehicle->master.efficiency};
    if (b->booster == BRAKE_BOOSTER_NONE)
        return;
    usual_of_booster(w);
    if (b->force_pairs.count > 0 &&
        brake_fit_booster(b->force_pairs.at, b->force_pairs.count, &pedal) != BRAKE_OK)
        work_refuse(
            w, BRAKE_E_FIT, pairs[0],
            "the pairs show no booster: give (pedal force, line pressure), in rising order, "
            "below and past its knee");
    OFFER(INDEX(booster.gain), pedal.gain, pairs);
    OFFER(INDEX(booster.assist), pedal.assist, pairs);
    if (b->force_pairs.count == 0)
        work_offer_default(w, INDEX(booster.gain),
                           b->booster == BRAKE_BOOSTER_HYDRAULIC ? 7.0 : 4.5);
    reduce_source(w);
}

static void reduce_fluid(struct work *w, int unused)
{
    (void)unused;
    const struct brake_points *pumped = &w->vehicle->circuits.pumped;
    const int pairs[] = {INDEX(circuits.pumped)};
    double slope = BRAKE_NAN;
    double intercept = BRAKE_NAN;
    if (pumped->count > 0 &&
        (brake_fit_line(pumped->at, pumped->count, &slope, &intercept) != BRAKE_OK || slope < 0.0))
        work_refuse(w, BRAKE_E_FIT, pairs[0],
                    "the readings give no line: give (pressure, fluid), two pressures or more");
    OFFER(INDEX(circuits.elastic_volume), slope * 1e7, pairs);
    OFFER(INDEX(circuits.closing_volume), intercept, pairs);
}

/* 2014/45/EU, Annex I, 1.2.1: over the larger of the two; of no force at all nothing is said. */
static void reduce_sides(struct work *w, int axle)
{
    const struct brake_tester_lines *t = &w->vehicle->tester;
    const bool front = axle == BRAKE_FRONT;
    const double left = front ? t->front_left : t->rear_left;
    const double right = front ? t->front_right : t->rear_right;
    const int forces[] = {front ? INDEX(tester.front_left) : INDEX(tester.rear_left),
                          front ? INDEX(tester.front_right) : INDEX(tester.rear_right)};
    OFFER(AXLE_INDEX(axle.side_difference, axle), fabs(left - right) / fmax(left, right), forces);
}

/* What the tester read at the wheels, brought to the force that the parking brake is taken to be
 * pulled with. */
static void reduce_parking_tester(struct work *w, int axle)
{
    const struct brake_tester_lines *t = &w->vehicle->tester;
    const struct brake_parking_lines *p = &w->vehicle->parking;
    const int forces[] = {INDEX(tester.parking_left), INDEX(tester.parking_right),
                          AXLE_INDEX(tyre.rolling_radius, axle), INDEX(tester.lever_force)};
    const bool pulled = !isnan(t->lever_force);
    const double share = pulled ? p->force / t->lever_force : 1.0;
    work_offer(w, INDEX(parking.torque),
               share * (t->parking_left + t->parking_right) *
                   w->vehicle->axle[axle].tyre.rolling_radius,
               forces, pulled ? 4 : 3);
}

static void reduce_parking(struct work *w, int unused)
{
    (void)unused;
    const struct brake_parking_lines *p = &w->vehicle->parking;
    const int axle = p->on == BRAKE_PARKING_FRONT ? BRAKE_FRONT : BRAKE_REAR;
    const int pull[] = {INDEX(parking.pull), AXLE_INDEX(tyre.rolling_radius, axle)};
    const int chain[] = {INDEX(parking.ratio), INDEX(parking.factor), INDEX(parking.radius)};
    double factor;
    const double gear = p->place == BRAKE_AT_SHAFT ? w->vehicle->driveline.axle_ratio : 1.0;
    work_offer_default(w, INDEX(parking.force), p->control == BRAKE_HAND ? 400.0 : 500.0);
    OFFER(INDEX(parking.torque), p->pull * w->vehicle->axle[axle].tyre.rolling_radius, pull);
    if (w->vehicle->axle[axle].axle.brake == BRAKE_DRUM && p->place == BRAKE_AT_WHEELS &&
        !isnan(p->ratio) &&
        brake_vehicle_drum_factor(w->vehicle, (enum brake_axle)axle, &factor) == BRAKE_OK)
        work_offer_default(w, INDEX(parking.factor), 0.85 * factor);
    reduce_parking_tester(w, axle);
    if (isnan(work_or_else(p->pull, w->vehicle->tester.parking_left)))
        OFFER(INDEX(parking.torque),
              brake_parking_torque(p->force, p->ratio, p->efficiency, p->factor, p->radius, gear),
              chain);
}

static void reduce_driveline(struct work *w, int unused)
{
    (void)unused;
    const struct brake_driveline_lines *d = &w->vehicle->driveline;
    const int gears[] = {INDEX(driveline.gear_ratio), INDEX(driveline.axle_ratio)};
    OFFER(INDEX(driveline.overall_ratio), d->gear_ratio * d->axle_ratio, gears);
    work_offer_default(w, INDEX(driveline.overall_ratio),
                       work_or_else(d->gear_ratio, 0.85) * work_or_else(d->axle_ratio, 4.1));
}

static void reduce_speedometer(struct work *w, int unused)
{
    (void)unused;
    struct brake_marking size;
    const int marking[] = {INDEX(speedometer.marking)};
    if (read_marking(w, w->vehicle->speedometer.marking, marking[0], &size))
        OFFER(INDEX(speedometer.rollout),
              brake_tyre_circumference(size.overall_diameter, size.radial), marking);
}

static double left_to_rating(const struct brake_vehicle *vehicle, double mass)
{
    const double rated = vehicle->general.rated_mass;
    return isnan(rated) ? BRAKE_NAN : fmax(0.0, rated - mass);
}

/* Where a load fills the vehicle up to its rated mass with both axles used alike of their ratings,
 * as far as goods find room there; else over three quarters of the wheelbase. */
static double usual_place(const struct brake_vehicle *vehicle, const struct brake_body *bare)
{
    const double front = vehicle->axle[BRAKE_FRONT].axle.rated_mass;
    const double rear = vehicle->axle[BRAKE_REAR].axle.rated_mass;
    const double wheelbase = vehicle->general.wheelbase;
    const double rated = vehicle->general.rated_mass;
    const double moment = rated * wheelbase * rear / (front + rear) - bare->mass * bare->behind;
    const double place = moment / (rated - bare->mass) / wheelbase;
    return wheelbase * (place >= 0.3 && place <= 1.1 ? place : 0.75);
}

static void reduce_load(struct work *w, int load)
{
    const struct brake_load_lines *lines = &w->vehicle->load[load];
    const struct brake_body bare = brake_vehicle_bare(w->vehicle);
    const double wheelbase = w->vehicle->general.wheelbase;
    const int axles[] = {LOAD_INDEX(front_axle, load), LOAD_INDEX(rear_axle, load)};
    const double added = lines->front_axle + lines->rear_axle - bare.mass;
    const int mass = LOAD_INDEX(mass, load);
    if (added < -work_agreement * bare.mass)
        work_refuse(w, BRAKE_E_CONFLICT, axles[0],
                    "the axle readings add up to %s, less than the vehicle before loading, %s",
                    work_words(w, axles[0], added + bare.mass).text,
                    work_words(w, axles[0], bare.mass).text);
    OFFER(mass, isnan(added) ? BRAKE_NAN : fmax(0.0, added), axles);
    if (added > 0.0)
        OFFER(LOAD_INDEX(behind_front_axle, load),
              (lines->rear_axle * wheelbase - bare.mass * bare.behind) / added, axles);
    else
        work_offer_default(w, LOAD_INDEX(behind_front_axle, load), usual_place(w->vehicle, &bare));
    if (isnan(added))
        work_offer_default(w, mass,
                           load == BRAKE_EMPTY ? 0.0 : left_to_rating(w->vehicle, bare.mass));
    work_offer_default(w, LOAD_INDEX(height, load), 1.0);
}

static void reduce_pedal(struct work *w, int unused)
{
    (void)unused;
    const int ratio[] = {INDEX(pedal.pad_arm), INDEX(pedal.rod_arm)};
    OFFER(INDEX(pedal.ratio), w->vehicle->pedal.pad_arm / w->vehicle->pedal.rod_arm, ratio);
}

enum { TOUCHES = 11 };

/* The rules in their order, with what each touches: first the section it writes to, which it also
 * reads, then the others that it reads. Behind the last one there is none, which touches
 * nothing. */
static const struct {
    void (*work)(struct work *w, int number);
    int number;
    struct work_stretch touches[TOUCHES];
} rules[BRAKE_WORK_RULES] = {
    {work_repeat, 0, {WORK_OF(axle[1].tyre), WORK_OF(axle[0].tyre)}},
    {reduce_mass, 0, {WORK_OF(general), WORK_OF(scales)}},
    {reduce_cg_height, 0, {WORK_OF(general), WORK_OF(tilt)}},
    {reduce_grip, 0, {WORK_OF(general)}},
    {reduce_tyre, 0, {WORK_OF(axle[0].tyre), WORK_OF(axle[0].axle)}},
    {reduce_inertia, 0, {WORK_OF(axle[0].tyre)}},
    {reduce_pads, 0, {WORK_OF(axle[0].disc), WORK_OF(axle[0].axle), WORK_OF(axle[0].pads)}},
    {reduce_drum, 0, {WORK_OF(axle[0].drum), WORK_OF(axle[0].axle), WORK_OF(axle[0].lining)}},
    {reduce_secondary, 0, {WORK_OF(axle[0].lining), WORK_OF(axle[0].axle), WORK_OF(axle[0].drum)}},
    {reduce_tyre, 1, {WORK_OF(axle[1].tyre), WORK_OF(axle[1].axle)}},
    {reduce_inertia, 1, {WORK_OF(axle[1].tyre)}},
    {reduce_pads, 1, {WORK_OF(axle[1].disc), WORK_OF(axle[1].axle), WORK_OF(axle[1].pads)}},
    {reduce_drum, 1, {WORK_OF(axle[1].drum), WORK_OF(axle[1].axle), WORK_OF(axle[1].lining)}},
    {reduce_secondary, 1, {WORK_OF(axle[1].lining), WORK_OF(axle[1].axle), WORK_OF(axle[1].drum)}},
    {reduce_pedal, 0, {WORK_OF(pedal)}},
    {reduce_valve, 0, {WORK_OF(valve), WORK_OF(lift)}},
    {reduce_booster, 0, {WORK_OF(booster), WORK_OF(pedal), WORK_OF(master)}},
    {reduce_fluid, 0, {WORK_OF(circuits)}},
    {reduce_sides, BRAKE_FRONT, {WORK_OF(axle[0].axle), WORK_OF(tester)}},
    {reduce_sides, BRAKE_REAR, {WORK_OF(axle[1].axle), WORK_OF(tester)}},
    {reduce_parking,
     0,
     {WORK_OF(parking), WORK_OF(tester), WORK_OF(axle[0].tyre), WORK_OF(axle[1].tyre),
      WORK_OF(driveline), WORK_OF(axle[0].axle), WORK_OF(axle[0].drum), WORK_OF(axle[0].lining),
      WORK_OF(axle[1].axle), WORK_OF(axle[1].drum), WORK_OF(axle[1].lining)}},
    {reduce_driveline, 0, {WORK_OF(driveline)}},
    {reduce_speedometer, 0, {WORK_OF(speedometer)}},
    {reduce_load,
     BRAKE_EMPTY,
     {WORK_OF(load[BRAKE_EMPTY]), WORK_OF(general), WORK_OF(lift), WORK_OF(part),
      WORK_OF(axle[0].axle), WORK_OF(axle[1].axle)}},
    {reduce_load,
     BRAKE_FULL,
     {WORK_OF(load[BRAKE_FULL]), WORK_OF(general), WORK_OF(lift), WORK_OF(part),
      WORK_OF(axle[0].axle), WORK_OF(axle[1].axle)}},
};

void work_fill_rules(struct brake_places *places)
{
    for (int rule = 0; rule < BRAKE_WORK_RULES; rule++) {
        places->written[rule] = work_sections(rules[rule].touches, 1);
        places->touched[rule] = work_sections(rules[rule].touches, TOUCHES);
    }
}

static bool touches(const struct work *w, int rule, unsigned long long changed)
{
    return (w->places->touched[rule] & changed) != 0;
}

unsigned long long work_following(const struct work *w, unsigned long long changed)
{
    unsigned long long before = 0;
    while (before != changed) {
        before = changed;
        for (int rule = 0; rule < BRAKE_WORK_RULES; rule++) {
            if (touches(w, rule, changed))
                changed |= w->places->written[rule];
        }
    }
    return changed;
}

void work_out(struct work *w, unsigned long long changed)
{
    for (int rule = 0; rule < BRAKE_WORK_RULES; rule++) {
        if (touches(w, rule, changed))
            rules[rule].work(w, rules[rule].number);
    }
}
