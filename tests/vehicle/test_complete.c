/* SPDX-License-Identifier: MIT */
/* From raw readings to quantities: reductions, priorities, what repeats and what follows. */
#include "sheet.h"

#include "brake/parking.h"
#include "brake/system.h"
#include "vehicle/system.h"
#include "vehicle/recalculation.h"
#include "vehicle/sections.h"

/* A vehicle whose `old` line gives way to `raw` lines. */
static void read_instead(struct brake_sheet *sheet, const char *old, const char *raw)
{
    read_sheet(sheet, plus(swapped(plain, old, ""), raw));
}

static void expect(const struct brake_sheet *sheet, const char *path, double value)
{
    assert_near(value_at(sheet, path), value, ROUNDING);
    assert_true(record_at(sheet, path)->worked);
}

/* ---- mass and centre of gravity ------------------------------------------------------------- */

static const char mass_lines[] = "mass = 2000 kg\nfront_share = 50 %\n";

/* 300 N of 3000 N; 0.4 m x 3000 N, brought from 300 N at the lever to 400 N of parking.force. */
static void a_tester_gives_sides_and_parking_torque(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(plain, "[tester]\nfront_left = 2700 N\nfront_right = 3000 N\n"
                                   "parking_left = 1600 N\nparking_right = 1400 N\n"));
    assert_near(sheet.vehicle.axle[BRAKE_FRONT].axle.side_difference, 0.1, 1e-12);
    assert_nan(sheet.vehicle.axle[BRAKE_REAR].axle.side_difference);
    assert_near(sheet.vehicle.parking.torque, 1200.0, 1e-12);
    read_sheet(&sheet, plus(plain, "[parking]\nforce = 400 N\n[tester]\nparking_left = 1600 N\n"
                                   "parking_right = 1400 N\nlever_force = 300 N\n"));
    assert_near(sheet.vehicle.parking.torque, 1600.0, 1e-12);
}

/* A torque is as good as the weakest of both forces, the tyre and the lever, where it was read. */
static void a_torque_of_the_tester_is_as_good_as_its_readings(void **state)
{
    (void)state;
    static const char *const cases[][2] = {{"left", "lever_force = 300 N, measured\n"},
                                           {"right", "lever_force = 300 N, measured\n"},
                                           {"none", "lever_force = 300 N, catalogue\n"},
                                           {"left", ""}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct brake_sheet sheet;
        char lines[400];
        snprintf(lines, sizeof lines,
                 "[rear.tyre]\nrolling_radius = 400 mm, measured\nwheel_inertia = 10 kg*m2\n"
                 "[tester]\nparking_left = 1600 N, %s\nparking_right = 1400 N, %s\n%s",
                 cases[i][0][0] == 'l' ? "catalogue" : "measured",
                 cases[i][0][0] == 'r' ? "catalogue" : "measured", cases[i][1]);
        read_sheet(&sheet, plus(plain, lines));
        assert_int_equal(record_at(&sheet, "parking.torque")->from, BRAKE_CATALOGUE);
    }
}

/* Follows from the definition: 500 + 510 + 480 + 510 = 2000; 1010 / 2000. */
static void corner_scales_add_up_to_mass_and_front_share(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_instead(&sheet, mass_lines,
                 "[scales]\nfront_left = 500 kg, measured\nfront_right = 510 kg, measured\n"
                 "rear_left = 480 kg, measured\nrear_right = 510 kg, measured\n");
    expect(&sheet, "vehicle.mass", 2000.0);
    expect(&sheet, "vehicle.front_share", 0.505);
    assert_int_equal(record_at(&sheet, "vehicle.mass")->from, BRAKE_MEASURED);
}

static void a_weighbridge_gives_the_same_and_may_stand_for_one_end(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_instead(&sheet, mass_lines, "[scales]\nfront_axle = 1010 kg\nrear_axle = 990 kg\n");
    expect(&sheet, "vehicle.mass", 2000.0);
    expect(&sheet, "vehicle.front_share", 0.505);
    read_instead(&sheet, mass_lines,
                 "[scales]\nfront_axle = 1010 kg, measured\nrear_left = 480 kg, catalogue\n"
                 "rear_right = 510 kg, measured\n");
    expect(&sheet, "vehicle.mass", 2000.0);
    /* As good as the weakest of its readings. */
    assert_int_equal(record_at(&sheet, "vehicle.mass")->from, BRAKE_CATALOGUE);
}

/* Given six readings of which one is from a catalogue, then mass and share are no better. */
static void a_mass_is_as_good_as_the_weakest_of_its_readings(void **state)
{
    (void)state;
    static const char *const names[] = {"front_left", "front_right", "front_axle",
                                        "rear_left",  "rear_right",  "rear_axle"};
    for (int weakest = 0; weakest < 6; weakest++) {
        struct brake_sheet sheet;
        char lines[400] = "[scales]\n";
        for (int i = 0; i < 6; i++)
            snprintf(lines + strlen(lines), sizeof lines - strlen(lines), "%s = %s, %s\n", names[i],
                     i % 3 == 2 ? "1000 kg" : "500 kg", i == weakest ? "catalogue" : "measured");
        read_instead(&sheet, mass_lines, lines);
        expect(&sheet, "vehicle.mass", 2000.0);
        assert_int_equal(record_at(&sheet, "vehicle.mass")->from, BRAKE_CATALOGUE);
        assert_int_equal(record_at(&sheet, "vehicle.front_share")->from, BRAKE_CATALOGUE);
    }
}

/* 0.17 x 2000 kg: reference/method.md, section 1. */
static void unsprung_mass_left_out_is_a_share_of_the_mass(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, swapped(plain, "unsprung_mass = 400 kg\n", ""));
    expect(&sheet, "vehicle.unsprung_mass", 340.0);
    assert_int_equal(record_at(&sheet, "vehicle.unsprung_mass")->from, BRAKE_DEFAULT);
    change(&sheet, "vehicle.mass=3000 kg");
    expect(&sheet, "vehicle.unsprung_mass", 510.0);
}

/* sin t = 0.7 / 2.5 = 7/25, tan t = 7/24; h = 105 x 2.5 / (2000 x 7/24) + 0.4 = 0.45 + 0.4 m.
 * Axle lift, ISO 10392, from memory. */
static void the_tilted_axle_gives_the_height_of_the_centre(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    const char *tilt = "[tilt]\nrise = 0.7 m, measured\nground_axle_level = 1000 kg, measured\n"
                       "ground_axle_tilted = 1105 kg, measured\nhub_height = 400 mm, measured\n";
    read_instead(&sheet, "cg_height = 800 mm\n", tilt);
    expect(&sheet, "vehicle.cg_height", 0.85);
    assert_int_equal(record_at(&sheet, "vehicle.cg_height")->from, BRAKE_MEASURED);
    /* It rules over the roof. */
    read_instead(&sheet, "cg_height = 800 mm\n",
                 plus(tilt, "[vehicle]\nroof_height = 1800 mm, measured\n"));
    expect(&sheet, "vehicle.cg_height", 0.85);
}

/* 0.40 x 1.9 m, however well the roof was measured: common practice, no source. */
static void the_roof_gives_an_estimate_of_the_height(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_instead(&sheet, "cg_height = 800 mm\n", "[vehicle]\nroof_height = 1900 mm, measured\n");
    expect(&sheet, "vehicle.cg_height", 0.385 * 1.9);
    assert_int_equal(record_at(&sheet, "vehicle.cg_height")->from, BRAKE_ESTIMATED);
    /* A height that is given stands; the roof says nothing then. */
    read_sheet(&sheet, plus(plain, "[vehicle]\nroof_height = 3000 mm\n"));
    assert_near(value_at(&sheet, "vehicle.cg_height"), 0.8, ROUNDING);
}

/* ---- tyres ---------------------------------------------------------------------------------- */

static const char tyre_lines[] = "rolling_radius = 400 mm\noverall_diameter = 800 mm\n"
                                 "wheel_inertia = 10 kg*m2\n";

/* WC-33 of the worked checks: D = 432 + 2 x 185.5 = 803.0 mm, r = 3.05 D / 2 pi = 389.8 mm. Load
 * index 121: 1450 kg; Q: 160 km/h (UN R30, Annex 4 and par. 2). */
static void a_marking_gives_size_load_and_speed(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_instead(&sheet, tyre_lines,
                 "[front.tyre]\nmarking = LT265/70R17 121/118Q\nwheel_inertia = 2 kg*m2\n");
    expect(&sheet, "front.tyre.overall_diameter", 0.803);
    assert_within(value_at(&sheet, "front.tyre.rolling_radius"), 0.3898, 5e-5);
    expect(&sheet, "front.tyre.rolling_radius", 3.05 * 0.803 / (2.0 * BRAKE_PI));
    expect(&sheet, "front.tyre.load_capacity", 1450.0);
    expect(&sheet, "front.tyre.speed_limit", 160.0 / 3.6);
    /* The rear section is left out. */
    expect(&sheet, "rear.tyre.rolling_radius", 3.05 * 0.803 / (2.0 * BRAKE_PI));
    expect(&sheet, "rear.tyre.load_capacity", 1450.0);
}

/* Two side by side carry less each: the second index, 118, is 1320 kg (UN R30, Annex 4). */
static void dual_wheels_carry_by_the_second_index(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_instead(&sheet, tyre_lines,
                 "[rear.axle]\nwheels = dual\n"
                 "[front.tyre]\nmarking = LT265/70R17 121/118Q\nwheel_inertia = 2 kg*m2\n");
    expect(&sheet, "front.tyre.load_capacity", 1450.0);
    expect(&sheet, "rear.tyre.load_capacity", 1320.0);
    /* One index is that of a single tyre: nothing is said of two. */
    read_instead(&sheet, tyre_lines,
                 "[rear.axle]\nwheels = dual\n"
                 "[front.tyre]\nmarking = 265/70R17 115T\nwheel_inertia = 2 kg*m2\n");
    expect(&sheet, "front.tyre.load_capacity", 1215.0);
    assert_nan(value_at(&sheet, "rear.tyre.load_capacity"));
}

static void a_marking_without_load_and_speed_leaves_them_open(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_instead(&sheet, tyre_lines,
                 "[front.tyre]\nmarking = 265/70R17\nwheel_inertia = 2 kg*m2\n");
    assert_nan(value_at(&sheet, "front.tyre.load_capacity"));
    assert_nan(value_at(&sheet, "front.tyre.speed_limit"));
}

/* 2.99 D, ETRTO Standards Manual, from memory; D = 406 + 2 x 1.04 x 7.5 x 25.4 mm. */
static void a_bias_ply_tyre_rolls_shorter(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_instead(&sheet, tyre_lines, "[front.tyre]\nmarking = 7.50-16\nwheel_inertia = 2 kg*m2\n");
    expect(&sheet, "front.tyre.overall_diameter", 0.80224);
    expect(&sheet, "front.tyre.rolling_radius", 2.99 * 0.80224 / (2.0 * BRAKE_PI));
}

/* Radius: definition, SAE J670. Diameter from it: 2 pi r / 3.05 = C / 3.05. */
static void a_rollout_gives_the_radius_and_a_diameter(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_instead(&sheet, tyre_lines,
                 "[front.tyre]\nrollout = 2.44 m, measured\nwheel_inertia = 2 kg*m2\n");
    expect(&sheet, "front.tyre.rolling_radius", 2.44 / (2.0 * BRAKE_PI));
    expect(&sheet, "front.tyre.overall_diameter", 0.8);
    assert_int_equal(record_at(&sheet, "front.tyre.rolling_radius")->from, BRAKE_MEASURED);
    /* With a marking the diameter is the nominal one, the radius that of the road. */
    read_instead(&sheet, tyre_lines,
                 "[front.tyre]\nrollout = 2.44 m\nmarking = 265/70R17\nwheel_inertia = 2 kg*m2\n");
    expect(&sheet, "front.tyre.rolling_radius", 2.44 / (2.0 * BRAKE_PI));
    expect(&sheet, "front.tyre.overall_diameter", 0.803);
}

static void a_diameter_alone_gives_the_nominal_radius(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, swapped(plain, "rolling_radius = 400 mm\n", ""));
    expect(&sheet, "front.tyre.rolling_radius", 3.05 * 0.8 / (2.0 * BRAKE_PI));
}

/* I = m g (R T / 2 pi)^2 / l: 40 x 9.80665 x (0.2 x 2 / 2 pi)^2 / 1 = 1.5898 kg m2 (trifilar
 * pendulum, Timoshenko, from memory). */
static void a_swing_gives_the_inertia_of_a_wheel(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_instead(&sheet, "wheel_inertia = 10 kg*m2\n",
                 "[front.tyre]\nwheel_mass = 40 kg\nswing_radius = 200 mm\nswing_length = 1000 mm\n"
                 "swing_period = 2 s\n");
    assert_within(value_at(&sheet, "front.tyre.wheel_inertia"), 1.5898, 5e-5);
    assert_within(value_at(&sheet, "rear.tyre.wheel_inertia"), 1.5898, 5e-5);
}

/* 0.65 x 20 kg x (0.4 m)^2: reference/method.md, section 1. */
static void a_wheel_mass_gives_an_estimate_of_the_inertia(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_instead(&sheet, "wheel_inertia = 10 kg*m2\n",
                 "[front.tyre]\nwheel_mass = 20 kg, measured\n");
    expect(&sheet, "front.tyre.wheel_inertia", 2.08 * 0.60 / 0.65);
    assert_int_equal(record_at(&sheet, "front.tyre.wheel_inertia")->from, BRAKE_ESTIMATED);
    /* The rear, repeated, is no better known than a default. */
    expect(&sheet, "rear.tyre.wheel_inertia", 2.08 * 0.60 / 0.65);
    assert_int_equal(record_at(&sheet, "rear.tyre.wheel_inertia")->from, BRAKE_DEFAULT);
}

static void a_rear_tyre_left_out_repeats_the_front_one(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    struct brake_vehicle moved;
    struct brake_places places;
    brake_places_fill(&places);
    read_instead(&sheet, "rolling_radius = 400 mm\n",
                 "[front.tyre]\nrollout = 2.44 m +- 0.01 m, measured\n");
    assert_near(value_at(&sheet, "rear.tyre.rollout"), 2.44, ROUNDING);
    assert_int_equal(record_at(&sheet, "rear.tyre.rollout")->from, BRAKE_DEFAULT);
    assert_equal(record_at(&sheet, "rear.tyre.rollout")->tolerance, 0.0);
    /* It moves with the one it repeats. */
    brake_sheet_vary(&sheet, &places, index_at(&sheet.vehicle, "front.tyre.rollout"), 2.5, &moved);
    assert_near(moved.axle[BRAKE_FRONT].tyre.rolling_radius, 2.5 / (2.0 * BRAKE_PI), ROUNDING);
    assert_near(moved.axle[BRAKE_REAR].tyre.rolling_radius, 2.5 / (2.0 * BRAKE_PI), ROUNDING);
    /* The sheet itself has not moved. */
    assert_near(value_at(&sheet, "rear.tyre.rolling_radius"), 2.44 / (2.0 * BRAKE_PI), ROUNDING);
}

/* What is told of the front tyre but its number is told of the repeated one: the trade of its unit,
 * that it is the part there was before. It has no line in the file and no tolerance of its own. */
static void a_repeated_line_is_told_as_the_one_it_repeats(void **state)
{
    (void)state;
    static const char *const names[] = {"rolling_radius", "overall_diameter", "wheel_mass",
                                        "wheel_inertia"};
    struct brake_sheet sheet;
    read_instead(&sheet, tyre_lines,
                 "[front.tyre]\nrolling_radius = 15.75 in\noverall_diameter = 800 mm +- 5 mm\n"
                 "wheel_mass = 44 lb +- 1 lb, same as before\n"
                 "wheel_inertia = 2 kg*m2, same as before\n");
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        char front[80];
        char rear[80];
        snprintf(front, sizeof front, "front.tyre.%s", names[i]);
        snprintf(rear, sizeof rear, "rear.tyre.%s", names[i]);
        const struct brake_record *first = record_at(&sheet, front);
        const struct brake_record *record = record_at(&sheet, rear);
        assert_int_equal(first->us, i % 2 == 0);
        assert_int_equal(first->same, i >= 2);
        assert_int_equal(first->typical, i == 0 || i == 3);
        assert_int_equal(record->us, first->us);
        assert_int_equal(record->same, first->same);
        assert_int_equal(record->typical, first->typical);
        assert_int_equal(record->from, BRAKE_DEFAULT);
        assert_equal(record->tolerance, 0.0);
        assert_equal(record->lean, 0.0);
        assert_int_equal(record->line, 0);
        assert_false(record->set || record->worked);
    }
}

static void a_rear_tyre_of_its_own_stays_when_the_front_one_moves(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    struct brake_vehicle moved;
    struct brake_places places;
    brake_places_fill(&places);
    read_sheet(&sheet,
               plus(plain, "[rear.tyre]\nrolling_radius = 450 mm\nwheel_inertia = 5 kg*m2\n"));
    assert_near(value_at(&sheet, "rear.tyre.rolling_radius"), 0.45, ROUNDING);
    /* Nothing of the front is taken over: the diameter follows the rear radius. */
    expect(&sheet, "rear.tyre.overall_diameter", 2.0 * BRAKE_PI * 0.45 / 3.05);
    brake_sheet_vary(&sheet, &places, index_at(&sheet.vehicle, "front.tyre.rolling_radius"), 0.42,
                     &moved);
    assert_near(moved.axle[BRAKE_REAR].tyre.rolling_radius, 0.45, ROUNDING);
}

static void one_line_of_a_repeated_tyre_may_be_set(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plain);
    change(&sheet, "rear.tyre.rolling_radius=430 mm");
    assert_near(value_at(&sheet, "rear.tyre.rolling_radius"), 0.43, ROUNDING);
    assert_near(value_at(&sheet, "rear.tyre.wheel_inertia"), 10.0, ROUNDING);
    change(&sheet, "front.tyre.wheel_inertia=12 kg*m2");
    assert_near(value_at(&sheet, "rear.tyre.wheel_inertia"), 12.0, ROUNDING);
    assert_near(value_at(&sheet, "rear.tyre.rolling_radius"), 0.43, ROUNDING);
}

/* A reading of the rear's own is taken before what its section repeats. */
static void a_rollout_set_at_a_repeated_rear_tyre_counts(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plain);
    change(&sheet, "rear.tyre.rollout=2.7 m");
    assert_near(value_at(&sheet, "rear.tyre.rolling_radius"), 2.7 / (2.0 * BRAKE_PI), ROUNDING);
    assert_near(value_at(&sheet, "front.tyre.rolling_radius"), 0.4, ROUNDING);
}

/* ---- pads ----------------------------------------------------------------------------------- */

static const char front_radius[] = "effective_radius = 125 mm\nefficiency = 1\n";
static const char kept_lines[] = "[front.disc]\nefficiency = 1\n[front.disc.pads]\n";

static void read_pads(struct brake_sheet *sheet, const char *lines)
{
    read_sheet(sheet, plus(plus(swapped(plain, front_radius, ""), kept_lines), lines));
}

/* Shigley, sec. 16-6: wear (100 + 150)/2; pressure (2/3)(150^3 - 100^3)/(150^2 - 100^2). */
static void a_sector_pad_has_the_radius_of_its_law_of_contact(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_pads(&sheet, "inner_radius = 100 mm\nouter_radius = 150 mm\n");
    expect(&sheet, "front.disc.effective_radius", 0.125);
    read_pads(&sheet, "inner_radius = 100 mm\nouter_radius = 150 mm\ncontact = uniform_pressure\n");
    expect(&sheet, "front.disc.effective_radius", 0.019 / 0.15);
}

/* Mean distance from the axle over a rectangle of 50 mm by 80 mm whose outer edge is 150 mm out,
 * summed over small squares: uniform pressure. */
static double mean_distance(void)
{
    const int cells = 400;
    const double cell = 1.0 / cells;
    double sum = 0.0;
    for (int i = 0; i < cells; i++) {
        for (int j = 0; j < cells; j++)
            sum += hypot(0.100 + 0.050 * (i + 0.5) * cell, 0.080 * ((j + 0.5) * cell - 0.5));
    }
    return sum * cell * cell;
}

static void a_rectangular_pad_has_the_mean_distance_of_its_area(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_pads(&sheet, "shape = rectangle\nouter_radius = 150 mm\nheight = 50 mm\nwidth = 80 mm\n"
                      "contact = uniform_pressure\n");
    assert_near(value_at(&sheet, "front.disc.effective_radius"), mean_distance(), 1e-6);
}

static void an_outline_of_four_corners_is_the_rectangle(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    struct brake_sheet traced;
    read_pads(&sheet, "shape = rectangle\nouter_radius = 150 mm\nheight = 50 mm\nwidth = 80 mm\n");
    read_pads(&traced, "shape = outline\noutline = (100 mm, -40 mm) (150 mm, -40 mm) "
                       "(150 mm, 40 mm) (100 mm, 40 mm), measured\n");
    assert_near(value_at(&traced, "front.disc.effective_radius"),
                value_at(&sheet, "front.disc.effective_radius"), ROUNDING);
    assert_int_equal(record_at(&traced, "front.disc.effective_radius")->from, BRAKE_MEASURED);
}

/* The handbooks' table at R/e 0.25: 0.963 (Shigley, Example 16-4, from memory); even pressure: the
 * mean distance of the circle's points, 1 + x^2/8 + x^4/192 + x^6/1024 of its centre's. */
static void a_circular_pad_follows_the_table_or_the_integral(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_pads(&sheet, "shape = circle\ndiameter = 60 mm\ncentre_radius = 120 mm\n");
    expect(&sheet, "front.disc.effective_radius", 0.963 * 0.120);
    read_pads(&sheet, "shape = circle\ndiameter = 60 mm\ncentre_radius = 120 mm\n"
                      "contact = uniform_pressure\n");
    assert_near(value_at(&sheet, "front.disc.effective_radius"),
                0.120 * (1.0 + 1.0 / 128.0 + 1.0 / 49152.0 + 1.0 / 4194304.0), 1e-8);
}

/* Given no rotor, then it reaches as far as its pad does: reference/lines.md, disc.rotor_diameter.
 * Of an outline, whose corners may be traced anyhow, nothing is said. */
static void a_rotor_left_out_reaches_as_far_as_its_pad(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_pads(&sheet, "inner_radius = 100 mm\nouter_radius = 150 mm\n");
    expect(&sheet, "front.disc.rotor_diameter", 0.300);
    read_pads(&sheet, "shape = rectangle\nouter_radius = 145 mm\nheight = 50 mm\nwidth = 80 mm\n");
    expect(&sheet, "front.disc.rotor_diameter", 0.290);
    read_pads(&sheet, "shape = circle\ndiameter = 60 mm\ncentre_radius = 120 mm\n");
    expect(&sheet, "front.disc.rotor_diameter", 2.0 * (0.120 + 0.030));
    read_pads(&sheet, "shape = outline\noutline = (100 mm, -40 mm) (150 mm, -40 mm) "
                      "(150 mm, 40 mm) (100 mm, 40 mm)\n");
    assert_nan(value_at(&sheet, "front.disc.rotor_diameter"));
}

/* ---- valve, pedal, booster, fluid ------------------------------------------------------------ */

/* Past the knee rear = 22 bar + 0.3 front: knee 22 / 0.7 bar. */
static void gauge_pairs_give_knee_and_slope(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(plain, "[valve]\nkind = fixed\ngauge_pairs = (20 bar, 20 bar) "
                                   "(40 bar, 34 bar) (60 bar, 40 bar) (80 bar, 46 bar)\n"));
    assert_near(value_at(&sheet, "valve.knee"), 22e5 / 0.7, 1e-9);
    assert_near(value_at(&sheet, "valve.slope"), 0.3, 1e-9);
}

static void a_linkage_left_alone_has_the_lift_of_the_suspension(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    const char *valve = "[lift]\nsuspension = 60 mm\n[valve]\nkind = height\nknee = 30 bar\n"
                        "slope = 0.3\nknee_rate = 0.05 bar/kg\nset_mass = 1000 kg\n"
                        "stiffness = 50 N/mm\n";
    read_sheet(&sheet, plus(plain, valve));
    expect(&sheet, "valve.uncorrected_lift", 0.06);
    read_sheet(&sheet, plus(plain, plus(valve, "uncorrected_lift = 10 mm\n")));
    assert_near(value_at(&sheet, "valve.uncorrected_lift"), 0.01, ROUNDING);
}

static void the_arms_of_the_pedal_give_its_ratio(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_instead(&sheet, "ratio = 4\n", "[pedal]\npad_arm = 300 mm\nrod_arm = 60 mm\n");
    expect(&sheet, "pedal.ratio", 5.0);
}

/* R = 4, A_m = pi cm2: 50 N give a rod 200 N and 800 N (gain 4); 150 N give 600 N and 1800 N
 * (assist 1200 N). */
static const char boosted[] = "[booster]\nforce_pairs = (25 N, 12.732395447351628 bar) "
                              "(50 N, 25.464790894703256 bar)\n"
                              " (150 N, 57.29577951308232 bar) (200 N, 63.66197723675814 bar)\n";

static const char *with_booster(const char *lines)
{
    return plus(swapped(plain, "booster = none", "booster = fitted"), lines);
}

static void force_pairs_give_gain_and_assist(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, with_booster(boosted));
    assert_near(value_at(&sheet, "booster.gain"), 4.0, 1e-10);
    assert_near(value_at(&sheet, "booster.assist"), 1200.0, 1e-10);
}

/* 0.9 x 60 kPa x (pi/4) (0.25 m)^2 = 2650.7 N; the second diaphragm counts 0.75 (common practice,
 * no source). */
static void a_diaphragm_and_its_vacuum_give_the_assist(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    const char *lines =
        "[booster]\ngain = 4\nefficiency = 0.9\nvacuum = 60 kPa\ndiaphragm_diameter = 250 mm\n";
    read_sheet(&sheet, with_booster(lines));
    assert_within(value_at(&sheet, "booster.assist"), 2650.7, 0.05);
    read_sheet(&sheet, with_booster(plus(lines, "diaphragms = 2\n")));
    assert_within(value_at(&sheet, "booster.assist"), 1.75 * 2650.7, 0.09);
    /* Readings of force rule over the diaphragm. */
    read_sheet(&sheet, with_booster(plus(boosted, "vacuum = 60 kPa\n"
                                                  "diaphragm_diameter = 250 mm\n")));
    assert_near(value_at(&sheet, "booster.assist"), 1200.0, 1e-10);
}

/* 0.05 cm3/bar x 100 bar. */
static void what_was_pumped_in_gives_the_elastic_volume(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(plain, "[circuits]\npumped = (20 bar, 3 cm3) (60 bar, 5 cm3) "
                                   "(100 bar, 7 cm3)\n"));
    assert_near(value_at(&sheet, "circuits.elastic_volume"), 5e-6, 1e-10);
    assert_near(value_at(&sheet, "circuits.closing_volume"), 2e-6, 1e-10);
}

/* ---- parking, speedometer -------------------------------------------------------------------- */

static void a_pull_gives_the_parking_torque_at_the_braked_axle(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    const char *tyre = "[rear.tyre]\nrolling_radius = 450 mm\nwheel_inertia = 10 kg*m2\n";
    const char *pull = "[parking]\npull = 2000 N\n";
    read_sheet(&sheet, plus(plain, plus(tyre, pull)));
    expect(&sheet, "parking.torque", 900.0);
    read_sheet(&sheet, plus(plain, plus(tyre, plus(pull, "on = front\n"))));
    expect(&sheet, "parking.torque", 800.0);
    read_sheet(&sheet, plus(plain, plus(tyre, plus(pull, "on = all\n"))));
    expect(&sheet, "parking.torque", 900.0);
}

/* force x ratio x efficiency x factor x radius = 400 x 25 x 0.8 x 2 x 0.15 = 2400 N m; by foot
 * 500 N; at the shaft times the axle ratio. */
static void the_chain_of_levers_gives_the_parking_torque(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    const char *chain = "[parking]\nratio = 25\nefficiency = 0.8\nfactor = 2\nradius = 150 mm\n";
    read_sheet(&sheet, plus(plain, chain));
    expect(&sheet, "parking.force", 400.0);
    expect(&sheet, "parking.torque", 2400.0);
    read_sheet(&sheet, plus(plain, plus(chain, "control = foot\n")));
    expect(&sheet, "parking.force", 500.0);
    expect(&sheet, "parking.torque", 3000.0);
    read_sheet(&sheet, plus(plain, plus(chain, "force = 200 N\n")));
    expect(&sheet, "parking.torque", 1200.0);
    read_sheet(&sheet, plus(plain, plus(chain, "place = shaft\n[driveline]\naxle_ratio = 4\n")));
    expect(&sheet, "parking.torque", 9600.0);
    /* At the shaft, with gears that are not known, it cannot be said. */
    read_sheet(&sheet, plus(plain, plus(chain, "place = shaft\n")));
    assert_nan(value_at(&sheet, "parking.torque"));
    /* A pull rules over the chain. */
    read_sheet(&sheet, plus(plain, plus(chain, "pull = 2000 N\n")));
    expect(&sheet, "parking.torque", 800.0);
}

/* reference/method.md, section 1: shoes of a wheel's drum give 85 % of its factor to the cable. A
 * drum at the shaft has shoes of its own, of which those at the wheels say nothing. */
static void drums_at_the_wheels_say_nothing_of_one_at_the_shaft(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    const char *parking = "[parking]\nratio = 25\nefficiency = 0.8\nradius = 150 mm\n";
    read_sheet(&sheet, plus(drum_text(), parking));
    expect(&sheet, "parking.factor", 0.85 * 2.0);
    read_sheet(&sheet, plus(drum_text(), plus(parking, "place = shaft\n")));
    assert_nan(value_at(&sheet, "parking.factor"));
}

/* WC-33: 3.05 x 803 mm = 2449 mm. */
static void the_old_marking_gives_the_rollout_of_the_speedometer(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(plain, "[speedometer]\nmarking = 265/70R17\n"));
    expect(&sheet, "speedometer.rollout", 3.05 * 0.803);
    assert_within(value_at(&sheet, "speedometer.rollout"), 2.449, 5e-4);
}

/* ---- load cases ------------------------------------------------------------------------------ */

static const char full_lines[] = "[load.full]\nmass = 500 kg\nbehind_front_axle = 2000 mm\n"
                                 "height = 1000 mm\n";

/* 1150 + 1350 - 2000 = 500 kg; (1350 x 2.5 - 2000 x 1.25) / 500 = 1.75 m. */
static void axle_readings_give_load_and_place(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_instead(&sheet, full_lines,
                 "[load.full]\nfront_axle = 1150 kg, measured\nrear_axle = 1350 kg, measured\n");
    expect(&sheet, "load.full.mass", 500.0);
    expect(&sheet, "load.full.behind_front_axle", 1.75);
    const struct brake_body body = brake_vehicle_body(&sheet.vehicle, BRAKE_FULL);
    assert_near(body.mass * body.behind / 2.5, 1350.0, ROUNDING);
}

/* Parts count to the vehicle before loading: 20 kg less of load, 2000 x 1.25 + 20 x 3 = 2560. */
static void parts_are_not_counted_as_load(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_instead(&sheet, full_lines,
                 "[load.full]\nfront_axle = 1150 kg\nrear_axle = 1350 kg\n[part.tow_bar]\n"
                 "mass = 20 kg\nbehind_front_axle = 3 m\nheight = 500 mm\n");
    expect(&sheet, "load.full.mass", 480.0);
    expect(&sheet, "load.full.behind_front_axle", (3375.0 - 2560.0) / 480.0);
}

/* reference/method.md, section 1: 0.75 L, 1.0 m, up to the rating. */
static void a_load_left_out_fills_up_to_the_rating(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_instead(&sheet, full_lines, "");
    expect(&sheet, "load.empty.mass", 0.0);
    expect(&sheet, "load.full.mass", 500.0);
    expect(&sheet, "load.full.behind_front_axle", 1.875);
    expect(&sheet, "load.full.height", 1.0);
    /* At or past the rating nothing is left. */
    change(&sheet, "vehicle.rated_mass=1900 kg");
    expect(&sheet, "load.full.mass", 0.0);
}

static void readings_without_a_load_leave_the_vehicle_as_it_is(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(plain, "[load.empty]\nfront_axle = 995 kg\nrear_axle = 995 kg\n"));
    expect(&sheet, "load.empty.mass", 0.0);
    assert_near(brake_vehicle_body(&sheet.vehicle, BRAKE_EMPTY).behind, 1.25, ROUNDING);
    /* Of no load to the bit the place is the usual one, 0.75 of the wheelbase. */
    read_sheet(&sheet, plus(plain, "[load.empty]\nfront_axle = 1000 kg\nrear_axle = 1000 kg\n"));
    expect(&sheet, "load.empty.mass", 0.0);
    expect(&sheet, "load.empty.behind_front_axle", 1.875);
}

/* ---- what wins ------------------------------------------------------------------------------- */

static void a_value_set_wins_over_a_reading(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_instead(&sheet, "rolling_radius = 400 mm\n", "[front.tyre]\nrollout = 2.5 m\n");
    change(&sheet, "front.tyre.rolling_radius=480 mm");
    assert_near(value_at(&sheet, "front.tyre.rolling_radius"), 0.48, ROUNDING);
    assert_false(record_at(&sheet, "front.tyre.rolling_radius")->worked);
}

static void a_reading_set_wins_over_a_value_stated(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plain);
    change(&sheet, "front.tyre.rollout=2.7 m");
    expect(&sheet, "front.tyre.rolling_radius", 2.7 / (2.0 * BRAKE_PI));
    /* Set again, the value wins again. */
    change(&sheet, "front.tyre.rolling_radius=410 mm");
    assert_near(value_at(&sheet, "front.tyre.rolling_radius"), 0.41, ROUNDING);
}

/* 2 % of 400 mm are 8 mm; a rollout of 2 pi x 407.9 mm agrees, one of 2 pi x 408.1 mm does not. */
static void a_value_and_a_reading_must_agree_within_two_percent(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    struct brake_error error;
    read_sheet(&sheet, plus(swapped(plain, "400 mm\n", "400 mm +- 0 mm\n"),
                            "[front.tyre]\nrollout = 2.5629 m\n"));
    assert_near(value_at(&sheet, "front.tyre.rolling_radius"), 0.4, ROUNDING);
    assert_false(record_at(&sheet, "front.tyre.rolling_radius")->worked);
    read_only(&sheet, plus(swapped(plain, "400 mm\n", "400 mm +- 0 mm\n"),
                           "[front.tyre]\nrollout = 2.5642 m\n"));
    assert_int_equal(brake_sheet_complete(&sheet, &error), BRAKE_E_CONFLICT);
    assert_string_equal(error.field, "front.tyre.rolling_radius");
    assert_non_null(strstr(error.text, "front.tyre.rollout gives 408.1"));
    assert_int_equal(error.line, 16);
}

/* Twice a tolerance of 20 mm. */
static void a_value_that_admits_more_uncertainty_may_differ_more(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    struct brake_error error;
    const char *text = swapped(plain, "400 mm\n", "400 mm +- 20 mm\n");
    read_sheet(&sheet, plus(text, "[front.tyre]\nrollout = 2.76 m\n"));
    assert_near(value_at(&sheet, "front.tyre.rolling_radius"), 0.4, ROUNDING);
    read_only(&sheet, plus(text, "[front.tyre]\nrollout = 2.77 m\n"));
    assert_int_equal(brake_sheet_complete(&sheet, &error), BRAKE_E_CONFLICT);
}

static bool same(double a, double b)
{
    return (isnan(a) && isnan(b)) || fabs(a - b) <= 1e-15 * fabs(b);
}

static void completing_twice_changes_nothing(void **state)
{
    (void)state;
    const char *const texts[] = {
        plain, full_text(), drum_text(),
        swapped(plain, tyre_lines, "marking = 265/70R17 115T\nwheel_mass = 30 kg\n")};
    for (size_t t = 0; t < sizeof texts / sizeof texts[0]; t++) {
        struct brake_sheet once;
        struct brake_sheet twice;
        read_sheet(&once, texts[t]);
        twice = once;
        complete(&twice);
        for (int i = 0; i < brake_catalogue_count(); i++) {
            const struct brake_record *a = &once.record[i];
            const struct brake_record *b = &twice.record[i];
            assert_true(same(brake_quantity_value(&twice.vehicle, i),
                             brake_quantity_value(&once.vehicle, i)));
            assert_true(same(b->tolerance, a->tolerance));
            assert_int_equal(b->from, a->from);
            assert_true(b->typical == a->typical && b->worked == a->worked && b->set == a->set);
            assert_int_equal(b->line, a->line);
        }
    }
}

static void defaults_are_filled_in_and_known_as_such(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plain);
    assert_near(value_at(&sheet, "stop.speed"), 100.0 / 3.6, ROUNDING);
    assert_near(value_at(&sheet, "driver.pedal_force_most"), 500.0, ROUNDING);
    assert_equal(value_at(&sheet, "vehicle.category"), BRAKE_M1);
    assert_equal(value_at(&sheet, "parking.on"), BRAKE_PARKING_REAR);
    assert_int_equal(record_at(&sheet, "vehicle.antilock_efficiency")->from, BRAKE_DEFAULT);
    assert_near(record_at(&sheet, "vehicle.antilock_efficiency")->tolerance, 0.08, ROUNDING);
    /* 0.82 to 0.98 about 0.92 */
    assert_near(record_at(&sheet, "vehicle.antilock_efficiency")->lean, -0.25, 1e-12);
    assert_true(record_at(&sheet, "vehicle.antilock_efficiency")->typical);
    assert_false(record_at(&sheet, "stop.speed")->typical);
    /* A brake that is not there has none. */
    assert_int_equal(record_at(&sheet, "rear.drum.efficiency")->from, BRAKE_ABSENT);
    assert_nan(value_at(&sheet, "rear.drum.efficiency"));
}

static void a_default_follows_a_change(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plain);
    change(&sheet, "parking.control=foot");
    expect(&sheet, "parking.force", 500.0);
    change(&sheet, "parking.force=300 N");
    change(&sheet, "parking.control=hand");
    assert_near(value_at(&sheet, "parking.force"), 300.0, ROUNDING);
}

/* Given a rear axle that is made one with drums, then nothing of its discs stays, nor a torque
 * whose gears are not known. */
static void what_was_filled_in_goes_with_its_reason(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    struct brake_error error;
    read_sheet(&sheet, plus(plain, "[parking]\nratio = 25\nefficiency = 0.8\nfactor = 2\n"
                                   "radius = 150 mm\n"));
    assert_near(value_at(&sheet, "rear.disc.pads.fade"), 1.0, ROUNDING);
    expect(&sheet, "parking.torque", 2400.0);
    set(&sheet, "rear.axle.brake=drum");
    set(&sheet, "parking.place=shaft");
    assert_int_not_equal(brake_sheet_complete(&sheet, &error), BRAKE_OK);
    assert_nan(value_at(&sheet, "rear.disc.pads.fade"));
    assert_int_equal(record_at(&sheet, "rear.disc.pads.fade")->from, BRAKE_ABSENT);
    assert_near(value_at(&sheet, "rear.drum.lining.fade"), 1.0, ROUNDING);
    assert_nan(value_at(&sheet, "parking.torque"));
    assert_int_equal(record_at(&sheet, "parking.torque")->from, BRAKE_ABSENT);
}

/* ---- what is missing ------------------------------------------------------------------------- */

static int missing_of(const char *text, int *last)
{
    struct brake_sheet sheet;
    bool missing[BRAKE_ROWS];
    int count = 0;
    memset(missing, 1, sizeof missing);
    read_only(&sheet, text);
    brake_sheet_missing(&sheet, missing);
    for (int i = 0; i < BRAKE_ROWS; i++) {
        count += missing[i];
        *last = missing[i] ? i : *last;
    }
    return count;
}

static void every_line_that_is_missing_is_known(void **state)
{
    (void)state;
    static const char *const cases[][2] = {
        {"mass = 2000 kg\nfront_share", "vehicle.mass"},
        {"wheel_inertia = 10 kg*m2\n", "front.tyre.wheel_inertia"},
        {"effective_radius = 0.125 m\n", "rear.disc.effective_radius"},
        {"bore = 20 mm\n", "master.bore"},
        {"split = II\n", "circuits.split"}};
    int last = -1;
    assert_int_equal(missing_of(plain, &last), 0);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const char *instead = i == 0 ? "front_share" : "";
        assert_int_equal(missing_of(swapped(plain, cases[i][0], instead), &last), 1);
        assert_int_equal(last, brake_catalogue_find(NULL, cases[i][1]));
    }
    assert_int_equal(missing_of(swapped(plain, "booster = none", "booster = fitted"), &last), 1);
    assert_int_equal(last, brake_catalogue_find(NULL, "booster.assist"));
}

/* ---- front and rear -------------------------------------------------------------------------- */

static const char drum_axle[] = "[%s.axle]\nbrake = drum\n[%s.tyre]\nmarking = LT235/85R16\n"
                                "wheel_mass = 25 kg\n[%s.drum]\nshoes = duo_servo\n"
                                "diameter = 280 mm\ncylinder_diameter = 22 mm\n[%s.drum.lining]\n"
                                "pivot_radius = 110 mm\nforce_arm = 200 mm\nheel = 20 deg\n"
                                "toe = 130 deg\n";
static const char disc_axle[] = "[%s.axle]\nbrake = disc\n[%s.tyre]\nmarking = LT235/85R16\n"
                                "wheel_mass = 25 kg\n[%s.disc]\nmounting = fixed\n"
                                "pistons = 1 x 50 mm\n[%s.disc.pads]\nshape = rectangle\n"
                                "outer_radius = 140 mm\nheight = 45 mm\nwidth = 80 mm\n";

static void read_twins(const char *axle, struct brake_sheet *sheet)
{
    char text[4000] = "[vehicle]\nname = Twins\nmass = 1600 kg\nfront_share = 50 %\n"
                      "cg_height = 650 mm\nwheelbase = 2500 mm\nrated_mass = 2500 kg\n"
                      "[master]\nbore = 1 in\n[pedal]\nratio = 4\n[booster]\nbooster = none\n"
                      "[circuits]\nsplit = II\n";
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const char *name = brake_axle_word((enum brake_axle)i);
        const size_t used = strlen(text);
        snprintf(text + used, sizeof text - used, axle, name, name, name, name);
    }
    read_sheet(sheet, text);
}

static void expect_twin(const struct brake_sheet *sheet, int front, int rear)
{
    const double one = *(const double *)brake_quantity_seen(&sheet->vehicle, front);
    const double other = *(const double *)brake_quantity_seen(&sheet->vehicle, rear);
    assert_true(one == other || (isnan(one) && isnan(other)));
    assert_int_equal(sheet->record[front].from, sheet->record[rear].from);
    assert_int_equal(sheet->record[front].worked, sheet->record[rear].worked);
    assert_true(sheet->record[front].tolerance == sheet->record[rear].tolerance);
}

/* Given the same axle twice, what no line says is worked out alike. */
static void the_same_axle_in_front_and_at_the_rear_is_worked_out_alike(void **state)
{
    (void)state;
    const char *const axles[] = {drum_axle, disc_axle};
    for (int i = 0; i < 2; i++) {
        struct brake_sheet sheet;
        int compared = 0;
        read_twins(axles[i], &sheet);
        for (int line = 0; line < brake_catalogue_count(); line++) {
            char path[160];
            char other[160];
            brake_catalogue_path(&sheet.vehicle, line, path, sizeof path);
            if (strncmp(path, "front.", 6) != 0 || brake_quantity_at(line)->kind != BRAKE_REAL)
                continue;
            snprintf(other, sizeof other, "rear.%s", path + 6);
            expect_twin(&sheet, line, index_at(&sheet.vehicle, other));
            compared++;
        }
        assert_in_range(compared, 40, 200);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(corner_scales_add_up_to_mass_and_front_share),
        cmocka_unit_test(a_tester_gives_sides_and_parking_torque),
        cmocka_unit_test(a_torque_of_the_tester_is_as_good_as_its_readings),
        cmocka_unit_test(a_weighbridge_gives_the_same_and_may_stand_for_one_end),
        cmocka_unit_test(a_mass_is_as_good_as_the_weakest_of_its_readings),
        cmocka_unit_test(unsprung_mass_left_out_is_a_share_of_the_mass),
        cmocka_unit_test(the_tilted_axle_gives_the_height_of_the_centre),
        cmocka_unit_test(the_roof_gives_an_estimate_of_the_height),
        cmocka_unit_test(a_marking_gives_size_load_and_speed),
        cmocka_unit_test(dual_wheels_carry_by_the_second_index),
        cmocka_unit_test(a_marking_without_load_and_speed_leaves_them_open),
        cmocka_unit_test(a_bias_ply_tyre_rolls_shorter),
        cmocka_unit_test(a_rollout_gives_the_radius_and_a_diameter),
        cmocka_unit_test(a_diameter_alone_gives_the_nominal_radius),
        cmocka_unit_test(a_swing_gives_the_inertia_of_a_wheel),
        cmocka_unit_test(a_wheel_mass_gives_an_estimate_of_the_inertia),
        cmocka_unit_test(a_rear_tyre_left_out_repeats_the_front_one),
        cmocka_unit_test(a_repeated_line_is_told_as_the_one_it_repeats),
        cmocka_unit_test(a_rear_tyre_of_its_own_stays_when_the_front_one_moves),
        cmocka_unit_test(one_line_of_a_repeated_tyre_may_be_set),
        cmocka_unit_test(a_rollout_set_at_a_repeated_rear_tyre_counts),
        cmocka_unit_test(a_sector_pad_has_the_radius_of_its_law_of_contact),
        cmocka_unit_test(a_rectangular_pad_has_the_mean_distance_of_its_area),
        cmocka_unit_test(an_outline_of_four_corners_is_the_rectangle),
        cmocka_unit_test(a_circular_pad_follows_the_table_or_the_integral),
        cmocka_unit_test(a_rotor_left_out_reaches_as_far_as_its_pad),
        cmocka_unit_test(gauge_pairs_give_knee_and_slope),
        cmocka_unit_test(a_linkage_left_alone_has_the_lift_of_the_suspension),
        cmocka_unit_test(the_arms_of_the_pedal_give_its_ratio),
        cmocka_unit_test(force_pairs_give_gain_and_assist),
        cmocka_unit_test(a_diaphragm_and_its_vacuum_give_the_assist),
        cmocka_unit_test(what_was_pumped_in_gives_the_elastic_volume),
        cmocka_unit_test(a_pull_gives_the_parking_torque_at_the_braked_axle),
        cmocka_unit_test(the_chain_of_levers_gives_the_parking_torque),
        cmocka_unit_test(drums_at_the_wheels_say_nothing_of_one_at_the_shaft),
        cmocka_unit_test(the_old_marking_gives_the_rollout_of_the_speedometer),
        cmocka_unit_test(axle_readings_give_load_and_place),
        cmocka_unit_test(parts_are_not_counted_as_load),
        cmocka_unit_test(a_load_left_out_fills_up_to_the_rating),
        cmocka_unit_test(readings_without_a_load_leave_the_vehicle_as_it_is),
        cmocka_unit_test(a_value_set_wins_over_a_reading),
        cmocka_unit_test(a_reading_set_wins_over_a_value_stated),
        cmocka_unit_test(a_value_and_a_reading_must_agree_within_two_percent),
        cmocka_unit_test(a_value_that_admits_more_uncertainty_may_differ_more),
        cmocka_unit_test(completing_twice_changes_nothing),
        cmocka_unit_test(defaults_are_filled_in_and_known_as_such),
        cmocka_unit_test(a_default_follows_a_change),
        cmocka_unit_test(what_was_filled_in_goes_with_its_reason),
        cmocka_unit_test(every_line_that_is_missing_is_known),
        cmocka_unit_test(the_same_axle_in_front_and_at_the_rear_is_worked_out_alike),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
