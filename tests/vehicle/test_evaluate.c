/* SPDX-License-Identifier: MIT */
/* One evaluation: every result by hand for the plain vehicle (sheet.h), and the table of results.
 * Formulas: reference/method.md, section 6. */
#include "sheet.h"

#include "brake/evaluate.h"
#include "vehicle/groups.h"

static const double master_area = BRAKE_PI * 1e-4;
static const double speed = 100.0 / 3.6;

/* Results of a text, by path. */
static struct brake_results results;

static void evaluate(const char *text)
{
    struct brake_sheet sheet;
    read_sheet(&sheet, text);
    brake_evaluate(&sheet.vehicle, &results);
}

static double result(const char *path)
{
    const int index = brake_result_find(path);
    if (index < 0)
        print_error("no result %s\n", path);
    assert_true(index >= 0);
    return brake_result_value(&results, index);
}

#define expect(path, value) assert_near(result(path), (value), ROUNDING)

/* ---- the table ------------------------------------------------------------------------------- */

static void every_result_finds_itself_again_by_its_path(void **state)
{
    (void)state;
    for (int i = 0; i < brake_result_all(); i++) {
        char path[80];
        brake_result_path(i, path, sizeof path);
        assert_true(strlen(path) < sizeof path - 1);
        assert_int_equal(brake_result_find(path), i);
    }
    assert_int_equal(brake_result_find("mass.total"), -1);
    assert_int_equal(brake_result_find("full.mass"), -1);
    assert_int_equal(brake_result_find(""), -1);
}

static void every_result_has_a_unit_of_its_dimension_and_a_meaning(void **state)
{
    (void)state;
    for (int i = 0; i < brake_result_all(); i++) {
        const struct brake_result *row = brake_result_at(i);
        assert_non_null(brake_unit_of(row->unit, row->dimension));
        assert_true(strlen(row->meaning) > 0);
    }
}

/* Every member of the structs is named once: as many rows as there are doubles. */
static void the_table_leaves_no_result_out(void **state)
{
    (void)state;
    const size_t common = sizeof(struct brake_common_results) / sizeof(double);
    const size_t of_case = sizeof(struct brake_case_results) / sizeof(double);
    const size_t of_study = sizeof(struct brake_study_results) / sizeof(double);
    assert_int_equal(brake_result_count(), common + BRAKE_LOADS * of_case);
    assert_int_equal(brake_result_all(), common + BRAKE_LOADS * of_case + of_study);
    for (int i = 0; i < brake_result_all(); i++) {
        for (int j = 0; j < i; j++) {
            char a[80];
            char b[80];
            brake_result_path(i, a, sizeof a);
            brake_result_path(j, b, sizeof b);
            assert_string_not_equal(a, b);
        }
    }
}

/* The bits of a number that no evaluation gives: a NaN with letters in it. */
static const unsigned long long poison = 0x7ff8706f69736f6eULL;

static void fill_with_poison(struct brake_results *r)
{
    for (size_t at = 0; at < sizeof *r; at += sizeof poison)
        memcpy((char *)r + at, &poison, sizeof poison);
}

static bool is_poisoned(double value)
{
    unsigned long long bits;
    memcpy(&bits, &value, sizeof bits);
    return bits == poison;
}

/* Given all results poisoned, when one group is worked out alone, then every result of the group is
 * written and no other: a sweep of one result would else print what stood there before. */
static void a_group_worked_out_alone_writes_all_of_its_results_and_no_other(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, full_text());
    for (int one = 0; one < brake_result_count(); one++) {
        const unsigned long long group = brake_result_group(one);
        fill_with_poison(&results);
        brake_evaluate_groups(&sheet.vehicle, group, &results);
        for (int i = 0; i < brake_result_count(); i++) {
            const bool written = !is_poisoned(brake_result_value(&results, i));
            if (written != (brake_result_group(i) == group))
                print_error("%s is in the wrong group\n", brake_result_at(i)->name);
            assert_int_equal(written, brake_result_group(i) == group);
        }
    }
}

/* No two groups, or load cases of one, share a bit; none is without one. */
static void every_group_has_a_bit_of_its_own(void **state)
{
    (void)state;
    for (int i = 0; i < brake_result_count(); i++) {
        const unsigned long long bit = brake_result_group(i);
        assert_true(bit != 0 && (bit & (bit - 1)) == 0);
        for (int j = 0; j < i; j++)
            assert_int_equal(bit == brake_result_group(j),
                             brake_result_load(i) == brake_result_load(j) &&
                                 brake_result_at(i)->group == brake_result_at(j)->group);
    }
}

static void every_result_of_a_full_vehicle_is_a_number(void **state)
{
    (void)state;
    evaluate(full_text());
    for (int i = 0; i < brake_result_count(); i++) {
        char path[80];
        brake_result_path(i, path, sizeof path);
        if (strncmp(path, "fade.", 5) == 0) /* of a study: ../study/test_fade.c */
            continue;
        if (strstr(path, "_one_circuit") != NULL) /* of a diagonal split */
            continue;
        if (!isfinite(brake_result_value(&results, i)))
            print_error("%s = %g\n", path, brake_result_value(&results, i));
        assert_true(isfinite(brake_result_value(&results, i)));
    }
}

static void what_was_left_out_is_not_a_number(void **state)
{
    (void)state;
    static const char *const unknown[] = {"speedometer.true_over_shown",
                                          "full.mass.front_axle_margin",
                                          "full.mass.rear_axle_margin",
                                          "full.mass.front_tyre_margin",
                                          "full.mass.rear_tyre_margin",
                                          "full.pedal.knee_force",
                                          "full.pedal.knee_deceleration",
                                          "full.pedal.travel_used",
                                          "full.pedal.primary_stroke_used",
                                          "full.pedal.secondary_stroke_used",
                                          "full.pedal.travel_first_failed",
                                          "full.pedal.travel_second_failed",
                                          "full.balance.valve_knee",
                                          "full.failed.no_assist",
                                          "full.failed.low_vacuum",
                                          "full.failed.valve_open",
                                          "full.failed.valve_shut",
                                          "full.failed.no_antilock",
                                          "full.stop.front_rise",
                                          "full.stop.rear_rise",
                                          "full.parking.available",
                                          "full.parking.margin",
                                          "full.parking.effort_grade",
                                          "full.parking.grade_up",
                                          "full.parking.grade_down",
                                          "full.parking.deceleration",
                                          "full.parking.trailer_grade",
                                          "full.steering.pull",
                                          "full.steering.pull_one_circuit",
                                          "full.steering.yaw_one_circuit",
                                          "full.tow.without_brakes",
                                          "full.tow.as_stated",
                                          "full.tow.all_brakes"};
    const size_t count = sizeof unknown / sizeof unknown[0];
    evaluate(plain);
    size_t found = 0;
    for (int i = brake_result_find("full.mass.total"); i < brake_result_count(); i++)
        found += isnan(brake_result_value(&results, i)) ? 1 : 0;
    for (size_t i = 0; i < count; i++)
        assert_nan(result(unknown[i]));
    assert_int_equal(found, count - 1);
    /* Not rated: */
    evaluate(swapped(plain, "rated_mass = 2500 kg\n", ""));
    assert_nan(result("empty.mass.rated_margin"));
}

/* ---- by hand --------------------------------------------------------------------------------- */

static const char *aimed(void)
{
    return plus(plain, "[driver]\ntarget = 4 m/s2\n");
}

static void masses_and_centre(void **state)
{
    (void)state;
    evaluate(plain);
    expect("empty.mass.total", 2000.0);
    expect("empty.mass.effective", 2250.0);
    expect("empty.mass.front_axle", 1000.0);
    expect("empty.mass.rear_axle", 1000.0);
    expect("empty.mass.rated_margin", 0.25);
    expect("full.mass.total", 2500.0);
    expect("full.mass.effective", 2750.0);
    expect("full.mass.front_axle", 1100.0);
    expect("full.mass.rear_axle", 1400.0);
    assert_within(result("full.mass.rated_margin"), 0.0, 1e-15);
    expect("full.cg.behind_front_axle", 1.4);
    expect("full.cg.height", 0.84);
}

/* 1300/1100, 1500/1400, 2 x 800/1100, 2 x 800/1400, less 1. */
static void margins_of_axles_and_tyres(void **state)
{
    (void)state;
    evaluate(full_text());
    expect("full.mass.front_axle_margin", 2.0 / 11.0);
    expect("full.mass.rear_axle_margin", 1.0 / 14.0);
    expect("full.mass.front_tyre_margin", 5.0 / 11.0);
    expect("full.mass.rear_tyre_margin", 2.0 / 14.0);
    expect("empty.mass.front_axle_margin", 0.3);
}

/* F/100 empty, F/100 x 2250/2750 full. */
static void decelerations_at_the_pedal(void **state)
{
    (void)state;
    evaluate(plain);
    expect("empty.deceleration.at_pedal_force", 1.5);
    expect("empty.deceleration.most", 5.0);
    expect("empty.deceleration.brakes_alone", 5.0);
    expect("full.deceleration.at_pedal_force", 1.5 * 9.0 / 11.0);
    expect("full.deceleration.most", 5.0 * 9.0 / 11.0);
    /* 900 N: the brakes would give 9 m/s2, the front locks first. */
    evaluate(plus(plain, "[driver]\npedal_force_most = 900 N\n"));
    expect("empty.deceleration.brakes_alone", 9.0);
    expect("empty.deceleration.most", 0.4 * BRAKE_GRAVITY / 0.5655);
}

static void the_pedal_at_the_target(void **state)
{
    (void)state;
    evaluate(aimed());
    expect("empty.pedal.force_for_target", 400.0);
    expect("empty.pedal.pressure_for_target", 1600.0 / master_area);
    expect("full.pedal.force_for_target", 400.0 * 11.0 / 9.0);
    expect("empty.pedal.travel", 0.050);
}

/* Knee: rod 1200/3 = 400 N, pad 100 N, output 1600 N: 4 m/s2. Past it output = rod + 1200 N. */
static void the_booster_runs_out_at_its_knee(void **state)
{
    (void)state;
    evaluate(full_text());
    expect("empty.pedal.knee_force", 100.0);
    expect("full.pedal.knee_force", 100.0);
    evaluate(plus(swapped(aimed(), "booster = none", "booster = fitted"),
                  "[booster]\ngain = 4\nassist = 1200 N\n"));
    expect("empty.pedal.knee_deceleration", 4.0);
    expect("empty.pedal.force_for_target", 100.0);
    expect("full.pedal.knee_deceleration", 4.0 * 9.0 / 11.0);
    /* 1955.6 N of output: (1955.6 - 1200)/4. */
    expect("full.pedal.force_for_target", (1600.0 * 11.0 / 9.0 - 1200.0) / 4.0);
}

static void the_strokes_that_are_used(void **state)
{
    (void)state;
    evaluate(full_text());
    expect("empty.pedal.travel", 0.050);
    expect("empty.pedal.travel_used", 1.0 / 3.0);
    expect("empty.pedal.primary_stroke_used", 0.5);
    expect("empty.pedal.secondary_stroke_used", 2.25 / 12.0);
    expect("empty.pedal.travel_first_failed", 0.005 + 4.0 * 0.02025);
    expect("empty.pedal.travel_second_failed", 0.005 + 4.0 * 0.021);
}

/* Target pressure p = 1600 N / A_m = 50.93 bar; 6 + 4 cm3 of calipers, of which six tenths below
 * 30 bar, and 1 cm3 of hoses at 100 bar, 0.4 cm3 of air. */
static void the_ledger_of_the_fluid(void **state)
{
    (void)state;
    const char *text = swapped(aimed(), "compliance = 0 cm3", "compliance = 3 cm3");
    text = swapped(text, "compliance = 0 mm3", "compliance = 2 cm3");
    text = swapped(text, "hose_volume = 0 cm3\nair_volume = 0 cm3",
                   "hose_volume = 1 cm3\nair_volume = 0.4 cm3");
    text = swapped(text, "take_up = 0 mm", "take_up = 2 mm");
    evaluate(text);
    const double p = 1600.0 / master_area;
    const double calipers = 10e-6 / 7.0 * (3.0 * p / 1e7 + 4.4 * p / (p + 1e6));
    const double air = 0.4e-6 * p / (p + 101325.0);
    expect("empty.fluid.gaps", 11.25e-3 * master_area);
    assert_equal(result("empty.fluid.shoes"), 0.0);
    expect("empty.fluid.take_up", 4e-3 * master_area);
    expect("empty.fluid.compliance", calipers);
    expect("empty.fluid.hoses", 1e-6 * p / 1e7);
    expect("empty.fluid.air", air);
    expect("empty.fluid.total", 15.25e-3 * master_area + calipers + 1e-6 * p / 1e7 + air);
    evaluate(drum_text());
    expect("empty.fluid.shoes", 4e-3 * master_area);
}

/* s = 0.5 + 0.34 a/g; front s m a r + 2 I a / r = s x 3200 + 200 N m; 7.2 F and 1.8 F. */
static void torques_needed_and_available(void **state)
{
    (void)state;
    evaluate(aimed());
    const double share = 0.5 + 0.34 * 4.0 / BRAKE_GRAVITY;
    expect("empty.balance.ideal_front_share", share);
    expect("empty.torque.front_needed", 3200.0 * share + 200.0);
    expect("empty.torque.rear_needed", 3200.0 * (1.0 - share) + 200.0);
    expect("empty.torque.front_available", 3600.0);
    expect("empty.torque.rear_available", 900.0);
    expect("empty.torque.front_margin", 3600.0 / (3200.0 * share + 200.0) - 1.0);
    expect("empty.torque.rear_margin", 900.0 / (3200.0 * (1.0 - share) + 200.0) - 1.0);
    expect("empty.torque.margin", 4500.0 / 3600.0 - 1.0);
}

/* At 4 m/s2: F_1 = 7200 - 125 x 4 = 6700 N, F_2 = 1800 - 500 = 1300 N, N_1 = 9806.65 + 2720 N. */
static void the_balance_at_the_target(void **state)
{
    (void)state;
    evaluate(aimed());
    expect("empty.balance.front_share", 0.8375);
    expect("empty.balance.front_adhesion_used", 6700.0 / 12526.65);
    expect("empty.balance.rear_adhesion_used", 1300.0 / 7086.65);
}

/* k = 0.8: 0.8375 a = 0.8 (g/2 + 0.34 a). The rear uses more where 0.8375 < 0.5 + 0.34 a/g. */
static void where_the_first_axle_locks(void **state)
{
    (void)state;
    evaluate(plain);
    const double lock = 0.4 * BRAKE_GRAVITY / 0.5655;
    expect("empty.balance.lock_deceleration", lock);
    expect("empty.balance.lock_pedal_force", 100.0 * lock);
    assert_equal(result("empty.balance.lock_axle"), 0.0);
    expect("empty.balance.efficiency", 0.5 / 0.5655);
    expect("empty.balance.rear_first_above", 0.3375 / 0.34 * BRAKE_GRAVITY);
    expect("empty.balance.locked_drive_lock_deceleration", 0.8 * BRAKE_GRAVITY);
    /* The larger front piston at the rear turns it round: F_2 = 0.8375 m a,
     * 0.8375 a = 0.8 (g/2 - 0.34 a). */
    evaluate(swapped(swapped(plain, "1 x 60 mm", "1 x 30.0 mm"), "1 x 30 mm", "1 x 60.0 mm"));
    assert_equal(result("empty.balance.lock_axle"), 1.0);
    expect("empty.balance.lock_deceleration", 0.4 * BRAKE_GRAVITY / (0.8375 + 0.272));
    expect("empty.balance.rear_first_above", 0.15 * BRAKE_GRAVITY);
}

/* Nothing but the spin of its wheels works on the rear, F_2 = -125 a. */
static void a_rear_that_never_leads_has_no_number(void **state)
{
    (void)state;
    evaluate(plus(plain, "[valve]\nkind = fixed\nknee = 0 bar\nslope = 0\n"));
    assert_nan(result("empty.balance.rear_first_above"));
    assert_equal(result("empty.balance.valve_knee"), 0.0);
}

static void the_locked_drive_does_not_hide_the_order_of_the_free_one(void **state)
{
    (void)state;
    evaluate(plus(plain, "[driveline]\ncentre = locked\n"));
    expect("empty.balance.rear_first_above", 0.3375 / 0.34 * BRAKE_GRAVITY);
    expect("empty.balance.lock_deceleration", 0.8 * BRAKE_GRAVITY);
}

static void what_is_left_after_a_failure(void **state)
{
    (void)state;
    evaluate(plain);
    expect("empty.failed.first_circuit", 1.0);
    expect("empty.failed.second_circuit", 4.0);
    expect("full.failed.first_circuit", 9.0 / 11.0);
    /* A single circuit has no second one that could fail. */
    evaluate(swapped(plain, "split = II", "split = one"));
    assert_equal(result("empty.failed.first_circuit"), 0.0);
    assert_nan(result("empty.failed.second_circuit"));
    evaluate(plus(swapped(swapped(plain, "booster = none", "booster = fitted"), "adhesion = 0.8",
                          "adhesion = 1.3"),
                  "[booster]\ngain = 4\nassist = 1200 N\nvacuum = 60 kPa\nvacuum_low = 45 kPa\n"));
    expect("empty.failed.no_assist", 5.0);
    expect("empty.failed.low_vacuum", 7.25);
    evaluate(plus(plain, "[valve]\nkind = load\nknee = 20 bar\nslope = 0.5\n"
                         "knee_rate = 0.05 bar/kg\nset_mass = 1000 kg\n"));
    expect("empty.failed.valve_open", 5.0);
    expect("empty.failed.valve_shut", 4.5);
    evaluate(plus(swapped(plain, "modulation = 1", "modulation = 0.5"),
                  "[vehicle]\nantilock = fitted\nantilock_efficiency = 0.75\n"
                  "[driver]\npedal_force_most = 1200 N\n"));
    expect("empty.deceleration.most", 0.6 * BRAKE_GRAVITY);
    expect("empty.failed.no_antilock", 0.2 * BRAKE_GRAVITY / (0.8375 - 0.136));
}

/* v (t_d + t_b/2) + v^2/2a - a t_b^2/24 with 0.16 s and 0.40 s, or 0.08 s and 0.30 s when they are
 * not given; heat as torque over radius. */
static void the_stop_that_is_shown(void **state)
{
    (void)state;
    evaluate(plus(swapped(plain, delay_lines, "dead_time = 0.16 s\nbuild_up = 0.4 s\n"),
                  "[front.disc]\n"
                  "rotor_mass = 8 kg\n[rear.disc]\nrotor_mass = 5 kg\n"));
    const double distance = 0.36 * speed + speed * speed / 10.0 - 5.0 * 0.16 / 24.0;
    const double energy = 1125.0 * speed * speed;
    expect("empty.stop.distance", distance);
    expect("empty.stop.time", 0.36 + speed / 5.0);
    expect("empty.stop.sight_distance", distance + 2.5 * speed);
    expect("empty.stop.energy", energy);
    expect("empty.stop.front_heat_share", 0.8);
    expect("empty.stop.front_rise", 0.8 * energy / (16.0 * 450.0));
    expect("empty.stop.rear_rise", 0.2 * energy / (10.0 * 450.0));
    evaluate(swapped(plain, delay_lines, ""));
    expect("empty.stop.distance", 0.23 * speed + speed * speed / 10.0 - 5.0 * 0.09 / 24.0);
    expect("empty.stop.time", 0.23 + speed / 5.0);
    evaluate(
        swapped(drum_text(), "piston_travel = 1 mm\n", "piston_travel = 1 mm\ndrum_mass = 9 kg\n"));
    assert_true(result("empty.stop.rear_rise") > 0.0);
}

/* sin(atan 0.2) = 0.2/sqrt(1.04). Rear wheels on k = 0.8: up 1.0/(2.5 - 0.64), down 1.0/3.14. */
static void the_parking_brake(void **state)
{
    (void)state;
    evaluate(plus(plain, "[parking]\ntorque = 1600 N*m\n[trailer]\nmass = 500 kg\n"));
    const double sine = 1600.0 / (2000.0 * BRAKE_GRAVITY * 0.4);
    const double with_trailer = 1600.0 / (2500.0 * BRAKE_GRAVITY * 0.4);
    const double needed = 2000.0 * BRAKE_GRAVITY * 0.2 / sqrt(1.04) * 0.4;
    expect("empty.parking.needed", needed);
    expect("empty.parking.available", 1600.0);
    expect("empty.parking.margin", 1600.0 / needed - 1.0);
    expect("empty.parking.effort_grade", tan(asin(sine)));
    expect("empty.parking.grade_up", tan(asin(sine)));
    expect("empty.parking.grade_down", tan(asin(sine)));
    expect("empty.parking.trailer_grade", tan(asin(with_trailer)));
    expect("empty.parking.deceleration", 1600.0 / 0.4 / 2250.0);
    /* With torque to spare the tyres limit. */
    evaluate(plus(plain, "[parking]\ntorque = 20000 N*m\n"));
    expect("empty.parking.grade_up", 1.0 / 1.86);
    expect("empty.parking.grade_down", 1.0 / 3.14);
    expect("empty.parking.deceleration", BRAKE_GRAVITY / 3.14);
    evaluate(plus(plain, "[parking]\non = front\ntorque = 20000 N*m\n"));
    expect("empty.parking.grade_up", 1.0 / 3.14);
    expect("empty.parking.grade_down", 1.0 / 1.86);
    evaluate(plus(plain, "[parking]\non = all\ntorque = 20000 N*m\n"));
    expect("empty.parking.grade_up", 0.8);
}

/* dF = d F/(2 - d) = 0.1 x 6700/1.9, times 20 mm. */
/* 500 N: of 3600 and 900 N m the half under 0.4 m, 4500 N in front and 1125 N across at the rear;
 * a = 2.5 m/s2, far from lock. */
static void a_diagonal_split_turns_the_vehicle_when_a_circuit_fails(void **state)
{
    (void)state;
    const char *lines = "[front.axle]\nscrub_radius = 20 mm\ntrack = 1500 mm\n"
                        "[rear.axle]\ntrack = 1400 mm\n";
    evaluate(plus(swapped(plain, "split = II", "split = X"), lines));
    expect("empty.steering.pull_one_circuit", 4500.0 * 0.02);
    expect("empty.steering.yaw_one_circuit", (4500.0 * 1.5 - 1125.0 * 1.4) / 2.0);
    evaluate(plus(plain, lines));
    assert_nan(result("empty.steering.pull_one_circuit"));
    assert_nan(result("empty.steering.yaw_one_circuit"));
}

/* Pads ask for (9 + 2.25)/2 = 5.625 mm of each chamber: one that ends before it gives no pressure,
 * and the circuit that does is the one whose pull is told, whichever it is. */
static void the_circuit_that_still_brakes_turns_the_vehicle(void **state)
{
    (void)state;
    static const char *const strokes[] = {"primary_stroke = 30 mm\nsecondary_stroke = 5 mm\n",
                                          "primary_stroke = 5 mm\nsecondary_stroke = 30 mm\n"};
    for (int i = 0; i < 2; i++) {
        const char *lines = "[front.axle]\nscrub_radius = 20 mm\ntrack = 1500 mm\n"
                            "[rear.axle]\ntrack = 1400 mm\n[master]\n";
        evaluate(plus(swapped(plain, "split = II", "split = X"), plus(lines, strokes[i])));
        expect("empty.steering.pull_one_circuit", 4500.0 * 0.02);
        expect("empty.steering.yaw_one_circuit", (4500.0 * 1.5 - 1125.0 * 1.4) / 2.0);
    }
}

static void the_pull_at_the_steering(void **state)
{
    (void)state;
    evaluate(plus(aimed(), "[front.axle]\nside_difference = 10 %\nscrub_radius = 20 mm\n"));
    expect("empty.steering.pull", 0.1 * 6700.0 / 1.9 * 0.02);
}

/* (2000 x 5 + s 0.4 x 500 g)/2500. */
static void a_trailer_pushes(void **state)
{
    (void)state;
    evaluate(plus(plain, "[trailer]\nmass = 500 kg\nbraking_ratio = 40 %\nworking = 50 %\n"));
    expect("empty.tow.without_brakes", 4.0);
    expect("empty.tow.as_stated", 4.0 + 0.04 * BRAKE_GRAVITY);
    expect("empty.tow.all_brakes", 4.0 + 0.08 * BRAKE_GRAVITY);
}

static void the_speedometer(void **state)
{
    (void)state;
    const char *wheel = "[speedometer]\nrollout = 2.4 m\n[driveline]\naxle_ratio = 4.88\n";
    evaluate(plus(plain, wheel));
    expect("speedometer.true_over_shown", 0.8 * BRAKE_PI / 2.4);
    evaluate(plus(plain, plus("[speedometer]\nsensor = shaft\naxle_ratio = 4.1\n", wheel)));
    expect("speedometer.true_over_shown", 0.8 * BRAKE_PI / 2.4 * 4.1 / 4.88);
    /* A shaft that turns at an unknown ratio tells nothing. */
    evaluate(plus(plain, "[speedometer]\nsensor = shaft\nrollout = 2.4 m\n"));
    assert_nan(result("speedometer.true_over_shown"));
}

static void the_brakes_themselves(void **state)
{
    (void)state;
    evaluate(plain);
    expect("brakes.front_torque_gain", 1.8 * master_area);
    expect("brakes.rear_torque_gain", 0.45 * master_area);
    expect("brakes.front_piston_area", 9.0 * master_area);
    expect("brakes.front_pad_radius", 0.125);
    evaluate(drum_text());
    expect("brakes.rear_torque_gain", 0.6 * master_area);
    /* Drums in front have neither. */
    const char *text = swapped(plain, "brake = disc\n[front.tyre]", "brake = drum\n[front.tyre]");
    text = swapped(text,
                   "[front.disc]\nmounting = floating\npistons = 1 x 60 mm\n"
                   "effective_radius = 125 mm\nefficiency = 1\nthreshold = 0 bar\n"
                   "compliance = 0 cm3\n[front.disc.pads]\nmu = 0.4\ngap = 0.25 mm\n",
                   "[front.drum]\nshoes = two_leading\ndiameter = 300 mm\n"
                   "cylinder_diameter = 20 mm\nbrake_factor = 3\nefficiency = 1\n");
    evaluate(text);
    expect("brakes.front_torque_gain", 0.9 * master_area);
    assert_nan(result("brakes.front_piston_area"));
    assert_nan(result("brakes.front_pad_radius"));
}

/* A rolling resistance of 0.01 m g helps by 200 kg x 9.80665/2250. */
static void rolling_resistance_helps(void **state)
{
    (void)state;
    evaluate(swapped(plain, "rolling_resistance = 0\n", "rolling_resistance = 0.01\n"));
    expect("empty.deceleration.most", 5.0 + 20.0 * BRAKE_GRAVITY / 2250.0);
}

static void nothing_is_written_behind_the_results(void **state)
{
    (void)state;
    static struct {
        struct brake_results results;
        struct brake_case_results behind;
    } room;
    static struct brake_case_results untouched;
    struct brake_sheet sheet;
    read_sheet(&sheet, full_text());
    memset(&room, 0x55, sizeof room);
    memset(&untouched, 0x55, sizeof untouched);
    brake_evaluate(&sheet.vehicle, &room.results);
    assert_memory_equal(&room.behind, &untouched, sizeof untouched);
}

/* 1 kg behind 2000 kg takes 1/2001 of the deceleration; its brakes give some of it back. */
static void a_trailer_of_a_kilogram_is_towed(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(plain, "[trailer]\nmass = 1 kg\nbraking_ratio = 50 %\n"));
    brake_evaluate(&sheet.vehicle, &results);
    const struct brake_case_results *empty = &results.load[BRAKE_EMPTY];
    assert_near(empty->tow.without_brakes, empty->deceleration.most * 2000.0 / 2001.0, ROUNDING);
    assert_near(empty->tow.all_brakes - empty->tow.without_brakes, 0.5 * BRAKE_GRAVITY / 2001.0,
                1e-9);
    /* Both are held by the parking brake: (m + m_t) g sin a = T / r, in the grade tan a. */
    evaluate(plus(plain, "[parking]\ntorque = 1000 N*m\n[trailer]\nmass = 0.5 kg\n"));
    const double sine = 1000.0 / 0.4 / (2000.5 * BRAKE_GRAVITY);
    expect("empty.parking.trailer_grade", tan(asin(sine)));
}

/* What is of no load case says so. */
static void a_result_of_no_load_has_none(void **state)
{
    (void)state;
    assert_int_equal(brake_result_load(0), -1);
    assert_int_equal(brake_result_load(brake_result_count()), -1);
    assert_int_equal(brake_result_load(brake_result_count() - 1), BRAKE_FULL);
    assert_int_equal(brake_result_load(brake_result_find("empty.deceleration.most")), BRAKE_EMPTY);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_result_finds_itself_again_by_its_path),
        cmocka_unit_test(every_result_has_a_unit_of_its_dimension_and_a_meaning),
        cmocka_unit_test(the_table_leaves_no_result_out),
        cmocka_unit_test(a_group_worked_out_alone_writes_all_of_its_results_and_no_other),
        cmocka_unit_test(every_group_has_a_bit_of_its_own),
        cmocka_unit_test(every_result_of_a_full_vehicle_is_a_number),
        cmocka_unit_test(what_was_left_out_is_not_a_number),
        cmocka_unit_test(masses_and_centre),
        cmocka_unit_test(margins_of_axles_and_tyres),
        cmocka_unit_test(decelerations_at_the_pedal),
        cmocka_unit_test(the_pedal_at_the_target),
        cmocka_unit_test(the_booster_runs_out_at_its_knee),
        cmocka_unit_test(the_strokes_that_are_used),
        cmocka_unit_test(the_ledger_of_the_fluid),
        cmocka_unit_test(torques_needed_and_available),
        cmocka_unit_test(the_balance_at_the_target),
        cmocka_unit_test(where_the_first_axle_locks),
        cmocka_unit_test(a_rear_that_never_leads_has_no_number),
        cmocka_unit_test(the_locked_drive_does_not_hide_the_order_of_the_free_one),
        cmocka_unit_test(what_is_left_after_a_failure),
        cmocka_unit_test(the_stop_that_is_shown),
        cmocka_unit_test(the_parking_brake),
        cmocka_unit_test(the_pull_at_the_steering),
        cmocka_unit_test(a_diagonal_split_turns_the_vehicle_when_a_circuit_fails),
        cmocka_unit_test(the_circuit_that_still_brakes_turns_the_vehicle),
        cmocka_unit_test(a_trailer_pushes),
        cmocka_unit_test(the_speedometer),
        cmocka_unit_test(the_brakes_themselves),
        cmocka_unit_test(rolling_resistance_helps),
        cmocka_unit_test(nothing_is_written_behind_the_results),
        cmocka_unit_test(a_trailer_of_a_kilogram_is_towed),
        cmocka_unit_test(a_result_of_no_load_has_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
