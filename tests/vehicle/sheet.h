/* SPDX-License-Identifier: MIT */
/* Vehicles of round numbers, and sheets made of their text. */
#ifndef TESTS_VEHICLE_SHEET_H
#define TESTS_VEHICLE_SHEET_H

#include <stdio.h>
#include <string.h>

#include "../model/near.h"

#include "brake/catalogue.h"
#include "brake/criteria.h"
#include "brake/file.h"
#include "vehicle/system.h"

/* Two disc axles, no booster, no valve, rigid circuits. The bores are chosen so that pi cancels:
 * front pistons (60/20)^2 = 9 master cylinders, rear ones (30/20)^2 = 2.25. With a pedal ratio of 4
 *
 *   T_1 = 4 mu r_e 9 x 4 F    = 0.2 x 36 F = 7.2 F      T_2 = 0.2 x 9 F = 1.8 F
 *   J   = 2 x 10 / 0.4^2 each = 125 kg;  m + J_1 + J_2 = 2250 kg empty, 2750 kg full
 *   a   = 9 F / 0.4 / 2250    = F / 100 empty
 *
 * empty: m = 2000 kg, x = 1.25 m, h = 0.8 m; full: m = 2500 kg, x = 1.4 m, h = 0.84 m.
 * Gaps: 4 x 9 x 0.25 mm = 9 mm of master stroke in front, 2.25 mm at the rear. */
static const char plain[] = "[vehicle]\n"
                            "name = Plain\n"
                            "mass = 2000 kg\n"
                            "front_share = 50 %\n"
                            "cg_height = 800 mm\n"
                            "wheelbase = 2500 mm\n"
                            "unsprung_mass = 400 kg\n"
                            "rated_mass = 2500 kg\n"
                            "use = commercial\n"
                            "secondary = separate\n"
                            "rolling_resistance = 0\n"
                            "tyre_grip = 1\n"
                            "[front.axle]\n"
                            "brake = disc\n"
                            "[front.tyre]\n"
                            "rolling_radius = 400 mm\n"
                            "overall_diameter = 800 mm\n"
                            "wheel_inertia = 10 kg*m2\n"
                            "[front.disc]\n"
                            "mounting = floating\n"
                            "pistons = 1 x 60 mm\n"
                            "effective_radius = 125 mm\n"
                            "efficiency = 1\n"
                            "threshold = 0 bar\n"
                            "compliance = 0 cm3\n"
                            "[front.disc.pads]\n"
                            "mu = 0.4\n"
                            "gap = 0.25 mm\n"
                            "[rear.axle]\n"
                            "brake = disc\n"
                            "[rear.disc]\n"
                            "mounting = fixed\n"
                            "pistons = 1 x 30 mm\n"
                            "effective_radius = 0.125 m\n"
                            "efficiency = 1.0\n"
                            "threshold = 0 kPa\n"
                            "compliance = 0 mm3\n"
                            "hat_mass = 0 kg\n"
                            "[rear.disc.pads]\n"
                            "mu = 40 %\n"
                            "gap = 0.00025 m\n"
                            "[pedal]\n"
                            "ratio = 4\n"
                            "efficiency = 1\n"
                            "free_play = 5 mm\n"
                            "[booster]\n"
                            "booster = none\n"
                            "[master]\n"
                            "bore = 20 mm\n"
                            "efficiency = 1\n"
                            "take_up = 0 mm\n"
                            "[circuits]\n"
                            "split = II\n"
                            "hose_volume = 0 cm3\n"
                            "air_volume = 0 cm3\n"
                            "[road]\n"
                            "adhesion = 0.8\n"
                            "[driver]\n"
                            "modulation = 1\n"
                            "[stop]\n"
                            "dead_time = 0.36 s\n"
                            "build_up = 0 s\n"
                            "[load.full]\n"
                            "mass = 500 kg\n"
                            "behind_front_axle = 2000 mm\n"
                            "height = 1000 mm\n";

/* The delay of that vehicle: what most clauses allow. */
static const char delay_lines[] = "dead_time = 0.36 s\nbuild_up = 0 s\n";

/* What makes every line of the results speak: booster, sensing valve, anti-lock, strokes, ratings,
 * parking brake, trailer, speedometer. */
static const char everything[] = "[vehicle]\n"
                                 "top_speed = 160 km/h\n"
                                 "antilock = fitted\n"
                                 "[front.axle]\n"
                                 "rated_mass = 1300 kg\n"
                                 "side_difference = 10 %\n"
                                 "scrub_radius = 20 mm\n"
                                 "[front.tyre]\n"
                                 "load_capacity = 800 kg\n"
                                 "speed_limit = 170 km/h\n"
                                 "[front.disc]\n"
                                 "rotor_mass = 8 kg\n"
                                 "[rear.axle]\n"
                                 "rated_mass = 1500 kg\n"
                                 "side_difference = 15 %\n"
                                 "[rear.disc]\n"
                                 "rotor_mass = 6 kg\n"
                                 "[valve]\n"
                                 "kind = height\n"
                                 "knee = 30 bar\n"
                                 "slope = 0.5\n"
                                 "knee_rate = 0.05 bar/kg\n"
                                 "set_mass = 1000 kg\n"
                                 "stiffness = 49.03325 N/mm\n"
                                 "uncorrected_lift = 0 mm\n"
                                 "[pedal]\n"
                                 "travel = 150 mm\n"
                                 "[booster]\n"
                                 "gain = 4\n"
                                 "assist = 1200 N\n"
                                 "vacuum = 60 kPa\n"
                                 "vacuum_low = 45 kPa\n"
                                 "[master]\n"
                                 "primary_stroke = 18 mm\n"
                                 "secondary_stroke = 12 mm\n"
                                 "[parking]\n"
                                 "torque = 2500 N*m\n"
                                 "[speedometer]\n"
                                 "rollout = 2.4 m\n"
                                 "[trailer]\n"
                                 "mass = 500 kg\n"
                                 "braking_ratio = 40 %\n";

enum { TEXT_SIZE = 6000, TEXTS = 64 };

/* Keeps a copy; the oldest is given up for a new one. */
static inline const char *kept(const char *made)
{
    static char text[TEXTS][TEXT_SIZE];
    static int next;
    char *place = text[next++ % TEXTS];
    memcpy(place, made, strlen(made) + 1);
    return place;
}

/* A text and more lines. */
static inline const char *plus(const char *text, const char *more)
{
    char made[TEXT_SIZE];
    assert_true(strlen(text) + strlen(more) < TEXT_SIZE);
    snprintf(made, sizeof made, "%s%s", text, more);
    return kept(made);
}

/* A text with its only `old` replaced. */
static inline const char *swapped(const char *text, const char *old, const char *new)
{
    char made[TEXT_SIZE];
    const char *at = strstr(text, old);
    if (at == NULL || strstr(at + 1, old) != NULL)
        print_error("'%s' does not stand once in the text\n", old);
    assert_true(at != NULL && strstr(at + 1, old) == NULL);
    assert_true(strlen(text) + strlen(new) < TEXT_SIZE);
    snprintf(made, sizeof made, "%.*s%s%s", (int)(at - text), text, new, at + strlen(old));
    return kept(made);
}

/* The plain one with larger pistons, circuits that each brake all wheels, and grip to spare. */
static inline const char *strong_text(void)
{
    const char *text = swapped(plain, "tyre_grip = 1\n", "tyre_grip = 1.4\n");
    text = swapped(text, "split = II", "split = HH");
    text = swapped(text, "pistons = 1 x 60 mm", "pistons = 1 x 80 mm");
    return swapped(text, "pistons = 1 x 30 mm", "pistons = 1 x 50 mm");
}

/* The plain vehicle with everything. */
static inline const char *full_text(void)
{
    return swapped(plus(plain, everything), "booster = none", "booster = fitted");
}

/* The plain vehicle with drums at the rear: brake factor 2, cylinder 20 mm, diameter 300 mm,
 * T_2 = 2 x 2 A_c r p = 2 x 2 x 0.15 F_rod = 0.6 F_rod as A_c = A_m. */
static inline const char *drum_text(void)
{
    const char *text = swapped(plain, "brake = disc\n[rear.disc]", "brake = drum\n[rear.drum]");
    text = swapped(text,
                   "mounting = fixed\npistons = 1 x 30 mm\neffective_radius = 0.125 m\n"
                   "efficiency = 1.0\nthreshold = 0 kPa\ncompliance = 0 mm3\n"
                   "hat_mass = 0 kg\n",
                   "shoes = leading_trailing\ndiameter = 300 mm\ncylinder_diameter = 20 mm\n"
                   "brake_factor = 2\nefficiency = 1.0\nthreshold = 0 kPa\ncompliance = 0 mm3\n"
                   "piston_travel = 1 mm\n");
    return swapped(text, "[rear.disc.pads]\nmu = 40 %\ngap = 0.00025 m\n", "");
}

/* Those drums, their factor left to the shape of their shoes. */
static inline const char *shoe_text(void)
{
    return plus(swapped(drum_text(), "brake_factor = 2\n", ""),
                "[rear.drum.lining]\nmu = 0.35\npivot_radius = 110 mm\nforce_arm = 200 mm\n"
                "heel = 20 deg\ntoe = 130 deg\n");
}

static inline void read_only(struct brake_sheet *sheet, const char *text)
{
    struct brake_error error;
    if (brake_file_read_text(text, sheet, &error) == BRAKE_OK)
        return;
    print_error("line %d, %s: %s\n", error.line, error.field, error.text);
    fail();
}

static inline void complete(struct brake_sheet *sheet)
{
    struct brake_error error;
    if (brake_sheet_complete(sheet, &error) == BRAKE_OK)
        return;
    print_error("line %d, %s: %s\n", error.line, error.field, error.text);
    fail();
}

static inline void read_sheet(struct brake_sheet *sheet, const char *text)
{
    read_only(sheet, text);
    complete(sheet);
}

/* As --set does, without completing. */
static inline void set(struct brake_sheet *sheet, const char *setting)
{
    struct brake_error error;
    if (brake_file_set(sheet, setting, &error) == BRAKE_OK)
        return;
    print_error("%s: %s %s\n", setting, error.field, error.text);
    fail();
}

static inline void change(struct brake_sheet *sheet, const char *setting)
{
    set(sheet, setting);
    complete(sheet);
}

static inline int index_at(const struct brake_vehicle *vehicle, const char *path)
{
    const int index = brake_catalogue_find(vehicle, path);
    if (index < 0)
        print_error("no path %s\n", path);
    assert_true(index >= 0);
    return index;
}

static inline double value_at(const struct brake_sheet *sheet, const char *path)
{
    return brake_quantity_value(&sheet->vehicle, index_at(&sheet->vehicle, path));
}

static inline const struct brake_record *record_at(const struct brake_sheet *sheet,
                                                   const char *path)
{
    return &sheet->record[index_at(&sheet->vehicle, path)];
}

/* Forgets every tolerance, so that a test can state its own. */
static inline int criterion_number(const char *id)
{
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (strcmp(brake_criterion_at(i)->id, id) == 0)
            return i;
    }
    print_error("no criterion %s\n", id);
    fail();
    return -1;
}

static inline void make_exact(struct brake_sheet *sheet)
{
    for (int i = 0; i < brake_catalogue_count(); i++)
        sheet->record[i].tolerance = 0.0;
}

static inline void state_tolerance(struct brake_sheet *sheet, const char *path, double tolerance,
                                   enum brake_from from)
{
    struct brake_record *record = &sheet->record[index_at(&sheet->vehicle, path)];
    record->tolerance = tolerance;
    record->from = from;
}

/* Friction at which the shoes of the rear lock themselves, known by their shape; to 1e-4 above. */
static inline double locking_friction(const struct brake_sheet *sheet)
{
    struct brake_vehicle vehicle = sheet->vehicle;
    double factor;
    double mu = 0.3;
    do
        vehicle.axle[BRAKE_REAR].lining.mu = mu += 1e-4;
    while (mu < 0.9 && brake_vehicle_drum_factor(&vehicle, BRAKE_REAR, &factor) == BRAKE_OK);
    assert_int_equal(brake_vehicle_drum_factor(&vehicle, BRAKE_REAR, &factor), BRAKE_E_SELF_LOCK);
    return mu;
}

#endif
