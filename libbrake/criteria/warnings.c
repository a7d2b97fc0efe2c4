/* SPDX-License-Identifier: MIT */
#include "brake/warnings.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

#include "brake/tyre.h"
#include "vehicle/text.h"
#include "vehicle/system.h"
#include "warn.h"

/* Limits of the trade; common practice, no source, unless another one is named. */
static const double stroke_limit = 0.80;     /* share of stroke or travel, after 49 CFR 570.5(c) */
static const double lock_order_limit = 0.80; /* g; UN R13-H, Annex 5, 3.1 */
static const double one_side_area_limit[] = {
    [BRAKE_FLOATING] = 60e-4, /* m2; 2 x 60 mm of trucks of 10,000 lb are 57 cm2 */
    [BRAKE_FIXED] = 40e-4     /* m2; 2 x 48 mm of tall 4x4s are 36 cm2 */
};
static const double one_side_count_limit = 3.0; /* six-piston calipers have three a side */

#define ROW(name, id, meaning) {id, meaning},
static const struct {
    const char *id;
    const char *meaning;
} kinds[BRAKE_WARNED] = {BRAKE_WARNING_LIST(ROW)};

const char *brake_warning_id(enum brake_warned of)
{
    return kinds[of].id;
}

const char *brake_warning_meaning(enum brake_warned of)
{
    return kinds[of].meaning;
}

void warn_add(struct warn_list *list, enum brake_warned of, const char *format, ...)
{
    va_list values;
    va_start(values, format);
    if (list->count < BRAKE_WARNINGS) {
        struct brake_warning *warning = &list->warning[list->count++];
        warning->id = brake_warning_id(of);
        brake_text_format_list(warning->text, sizeof warning->text, format, values);
    }
    va_end(values);
}

/* UN R39, 5.3: shown less true speed at most a tenth of it and 4 km/h; the fastest of its speeds
 * (from memory: 40, 80, 120 km/h) allows the least in proportion. */
static const double SPEEDOMETER_TEST = 120.0; /* km/h */

static void about_speedometer(struct warn_list *l)
{
    const double ratio = l->results->common.speedometer.true_over_shown;
    const double speed = fmin(SPEEDOMETER_TEST, 3.6 * l->vehicle->general.top_speed);
    const double most = 1.1 * speed + 4.0;
    if (speed / ratio > most)
        warn_add(l, BRAKE_WARNS_SPEEDOMETER_HIGH,
                 "The speedometer reads high: at %.0f km/h it shows %.0f km/h, where UN R39 allows "
                 "%.0f km/h.",
                 speed, speed / ratio, most);
    if (ratio > 1.005)
        warn_add(
            l, BRAKE_WARNS_SPEEDOMETER_LOW,
            "The speedometer reads low: at 100 km/h shown the vehicle does %.0f km/h, and a stop "
            "from there takes %.0f %% more energy.",
            100.0 * ratio, 100.0 * (ratio * ratio - 1.0));
    if ((l->vehicle->general.antilock == BRAKE_FITTED ||
         l->vehicle->valve.kind == BRAKE_VALVE_EBD) &&
        fabs(ratio - 1.0) > 0.05)
        warn_add(
            l, BRAKE_WARNS_ANTILOCK_TYRES,
            "Tyres roll %+.0f %% against what the speedometer was set for: anti-lock and stability "
            "control on them are not evaluated here.",
            100.0 * (ratio - 1.0));
}

static void about_fluid(struct warn_list *l, int load)
{
    const struct brake_case_results *r = &l->results->load[load];
    const double most = fmax(r->pedal.primary_stroke_used, r->pedal.secondary_stroke_used);
    if (most > stroke_limit)
        warn_add(
            l, BRAKE_WARNS_MASTER_TOO_SMALL,
            "Master cylinder too small for these pistons, %s: %.0f %% of a chamber's stroke used "
            "at the target (%.1f cm3 in all); keep below %.0f %%.",
            brake_load_word((enum brake_load)load), 100.0 * most, r->fluid.total * 1e6,
            100.0 * stroke_limit);
    if (r->pedal.travel_used > stroke_limit)
        warn_add(l, BRAKE_WARNS_PEDAL_LONG,
                 "Long pedal, %s: %.0f mm, %.0f %% of the travel to the floor, at the target; keep "
                 "below %.0f %%.",
                 brake_load_word((enum brake_load)load), 1e3 * r->pedal.travel,
                 100.0 * r->pedal.travel_used, 100.0 * stroke_limit);
}

static void about_end_of_travel(struct warn_list *l)
{
    static const char *const words[] = {"", "with the first circuit failed, ",
                                        "with the second circuit failed, "};
    const double force = l->vehicle->driver.pedal_force_most;
    for (int failure = BRAKE_INTACT; failure <= BRAKE_SECOND_CIRCUIT; failure++) {
        struct brake_system system;
        brake_system_build(l->vehicle, BRAKE_FULL, (enum brake_failure)failure, &system);
        const double can = brake_system_pressure(&system, force);
        const double would = brake_pedal_pressure(&system.pedal, force);
        const double held = system.balance.hold.from;
        if (system.held >= 0 && held < 0.999 * would)
            warn_add(l, BRAKE_WARNS_END_OF_TRAVEL,
                     "One chamber of the master cylinder bottoms out before the other: the "
                     "%s circuit stays at %.0f bar, the other one gets %.0f bar of %.0f bar at "
                     "%.0f N.",
                     system.held == 0 ? "first" : "second", held / 1e5, can / 1e5, would / 1e5,
                     force);
        else if (can < 0.999 * would)
            warn_add(
                l, BRAKE_WARNS_END_OF_TRAVEL,
                "The pedal or a master-cylinder chamber bottoms out: %s%.0f bar; %.0f N would give "
                "%.0f bar.",
                words[failure], can / 1e5, force, would / 1e5);
    }
}

static void about_lock_order(struct warn_list *l, int load)
{
    const struct brake_case_results *r = &l->results->load[load];
    const double ratio = r->balance.rear_first_above / BRAKE_GRAVITY;
    if (l->vehicle->general.antilock == BRAKE_NONE && ratio < lock_order_limit)
        warn_add(
            l, BRAKE_WARNS_REAR_LOCKS_FIRST,
            "The REAR wheels lock first above %.2f g when %s: the vehicle may spin. The standards "
            "want front first up to %.2f g.",
            ratio, brake_load_word((enum brake_load)load), lock_order_limit);
}

static void about_valve(struct warn_list *l)
{
    struct brake_vehicle reset = *l->vehicle;
    const double lift = l->vehicle->valve.uncorrected_lift;
    if (l->vehicle->valve.kind != BRAKE_VALVE_HEIGHT || !(fabs(lift) > 0.001))
        return;
    reset.valve.uncorrected_lift = 0.0;
    for (int load = 0; load < BRAKE_LOADS; load++)
        warn_add(
            l, BRAKE_WARNS_VALVE_UPSET,
            "The rear valve senses height and the body has risen %.0f mm over its linkage: its "
            "knee is at %.0f bar instead of %.0f bar when %s.",
            1e3 * lift, brake_vehicle_valve(l->vehicle, (enum brake_load)load).knee / 1e5,
            brake_vehicle_valve(&reset, (enum brake_load)load).knee / 1e5,
            brake_load_word((enum brake_load)load));
}

static void about_distribution(struct warn_list *l, int load)
{
    struct brake_system failed;
    if (l->vehicle->valve.kind != BRAKE_VALVE_EBD)
        return;
    brake_system_build(l->vehicle, (enum brake_load)load, BRAKE_VALVE_OPEN, &failed);
    const double ratio =
        brake_balance_rear_first(&failed.balance, 0.15 * BRAKE_GRAVITY) / BRAKE_GRAVITY;
    if (ratio < lock_order_limit)
        warn_add(l, BRAKE_WARNS_DISTRIBUTION_FAILED,
                 "Once the electronic brake-force distribution has failed, and its lamp is on, the "
                 "REAR wheels lock first above %.2f g when %s: brake gently, have it mended.",
                 ratio, brake_load_word((enum brake_load)load));
}

static void about_ratings(struct warn_list *l, int load)
{
    const struct brake_case_results *r = &l->results->load[load];
    const double mass[BRAKE_AXLES] = {r->mass.front_axle, r->mass.rear_axle};
    const double axle[BRAKE_AXLES] = {r->mass.front_axle_margin, r->mass.rear_axle_margin};
    const double tyre[BRAKE_AXLES] = {r->mass.front_tyre_margin, r->mass.rear_tyre_margin};
    for (int i = 0; i < BRAKE_AXLES; i++) {
        if (axle[i] < 0.0)
            warn_add(l, BRAKE_WARNS_AXLE_RATING,
                     "The %s axle carries %.0f kg when %s, %.0f %% over its rating.",
                     brake_axle_word((enum brake_axle)i), mass[i],
                     brake_load_word((enum brake_load)load), -100.0 * axle[i] / (1.0 + axle[i]));
        if (tyre[i] < 0.0)
            warn_add(l, BRAKE_WARNS_TYRE_RATING,
                     "The %s tyres carry %.0f kg together when %s, %.0f %% over their load index.",
                     brake_axle_word((enum brake_axle)i), mass[i],
                     brake_load_word((enum brake_load)load), -100.0 * tyre[i] / (1.0 + tyre[i]));
    }
    if (r->mass.rated_margin < -0.0005)
        warn_add(l, BRAKE_WARNS_MASS_RATING,
                 "The vehicle weighs %.0f kg when %s, %.0f kg over its rated mass.", r->mass.total,
                 brake_load_word((enum brake_load)load),
                 r->mass.total - l->vehicle->general.rated_mass);
}

static void about_tyre_speed(struct warn_list *l)
{
    for (int i = 0; i < BRAKE_AXLES; i++) {
        if (l->vehicle->axle[i].tyre.speed_limit < l->vehicle->general.top_speed)
            warn_add(l, BRAKE_WARNS_TYRE_SPEED,
                     "The %s tyres are rated for %.0f km/h, the vehicle does %.0f km/h.",
                     brake_axle_word((enum brake_axle)i),
                     3.6 * l->vehicle->axle[i].tyre.speed_limit,
                     3.6 * l->vehicle->general.top_speed);
    }
}

static void about_pistons(struct warn_list *l)
{
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_disc_lines *disc = &l->vehicle->axle[i].disc;
        double count = 0.0;
        if (l->vehicle->axle[i].axle.brake != BRAKE_DISC)
            continue;
        for (int g = 0; g < BRAKE_GROUPS; g++)
            count += disc->pistons.count[g];
        const double area = brake_vehicle_piston_area(&disc->pistons);
        if (area > one_side_area_limit[disc->mounting] || count > one_side_count_limit)
            warn_add(
                l, BRAKE_WARNS_PISTONS_BOTH_SIDES,
                "%.0f piston%s, %.1f cm2, on ONE side of a %s rotor is more than calipers have: "
                "were both sides counted? Then the torque shown is twice the real one.",
                count, count > 1.0 ? "s" : "", area * 1e4, brake_axle_word((enum brake_axle)i));
    }
}

static void about_booster(struct warn_list *l, int load)
{
    const struct brake_case_results *r = &l->results->load[load];
    if (r->pedal.force_for_target > r->pedal.knee_force)
        warn_add(l, BRAKE_WARNS_BOOSTER_RUNS_OUT,
                 "The booster runs out at %.0f N, %.2f m/s2 when %s; the target of %.2f m/s2 takes "
                 "%.0f N.",
                 r->pedal.knee_force, r->pedal.knee_deceleration,
                 brake_load_word((enum brake_load)load), l->vehicle->driver.target,
                 r->pedal.force_for_target);
}

static void about_parking(struct warn_list *l, int load)
{
    const struct brake_case_results *r = &l->results->load[load];
    const double least = fmin(r->parking.grade_up, r->parking.grade_down);
    if (least < 0.20)
        warn_add(l, BRAKE_WARNS_PARKING_SHORT,
                 "The parking brake holds %.1f %% nose up and %.1f %% nose down when %s; 20 %% is "
                 "wanted (%.0f N*m at the wheels, it has %.0f).",
                 100.0 * r->parking.grade_up, 100.0 * r->parking.grade_down,
                 brake_load_word((enum brake_load)load), r->parking.needed, r->parking.available);
}

static void about_hoses(struct warn_list *l)
{
    if (l->vehicle->lift.suspension > 0.0)
        warn_add(
            l, BRAKE_WARNS_HOSES_AT_DROOP,
            "The body sits %.0f mm higher: check every brake hose at full droop and full lock; a "
            "stretched hose is a lost circuit.",
            1e3 * l->vehicle->lift.suspension);
}

static void about_centre_drive(struct warn_list *l)
{
    const struct brake_case_results *r = &l->results->load[BRAKE_EMPTY];
    if (l->vehicle->driveline.centre == BRAKE_CENTRE_LOCKED)
        warn_add(
            l, BRAKE_WARNS_CENTRE_LOCKED,
            "With the centre drive locked all wheels lock together, at %.2f m/s2; free, the first "
            "axle locks at another point: check both states.",
            r->balance.locked_drive_lock_deceleration);
}

/* Whether a radius is worked out from the size of the tyre: neither measured nor told. */
static bool radius_of_books(const struct brake_tyre_lines *tyre)
{
    struct brake_marking size;
    return isnan(tyre->rollout) && brake_marking_read(tyre->marking, &size) >= BRAKE_OK &&
           tyre->rolling_radius ==
               brake_rolling_radius(brake_tyre_circumference(tyre->overall_diameter, size.radial));
}

static void about_book_radius(struct warn_list *l)
{
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_tyre_lines *tyre = &l->vehicle->axle[i].tyre;
        if (radius_of_books(tyre))
            warn_add(
                l, BRAKE_WARNS_RADIUS_FROM_BOOKS,
                "The %s rolling radius, %.0f mm, is the nominal one of '%s'; real tyres of one "
                "size differ by 3 to 5 %%. Measure the rollout.",
                brake_axle_word((enum brake_axle)i), 1e3 * tyre->rolling_radius, tyre->marking);
    }
}

int brake_warnings(const struct brake_vehicle *vehicle, const struct brake_results *results,
                   struct brake_warning *warnings)
{
    struct warn_list list = {vehicle, results, warnings, 0};
    for (int load = 0; load < BRAKE_LOADS; load++)
        about_lock_order(&list, load);
    about_end_of_travel(&list);
    for (int load = 0; load < BRAKE_LOADS; load++) {
        about_fluid(&list, load);
        about_booster(&list, load);
        about_parking(&list, load);
        about_ratings(&list, load);
    }
    about_valve(&list);
    for (int load = 0; load < BRAKE_LOADS; load++)
        about_distribution(&list, load);
    about_pistons(&list);
    about_speedometer(&list);
    about_tyre_speed(&list);
    about_book_radius(&list);
    about_centre_drive(&list);
    about_hoses(&list);
    warn_of_slips(&list);
    return list.count;
}
