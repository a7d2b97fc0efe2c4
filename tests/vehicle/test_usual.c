/* SPDX-License-Identifier: MIT */
/* Usual values that are worked out by a rule from other lines: the numbers that the reason of each
 * line tells (`stopmargin explain LINE`, reference/lines.md), by hand. */
#include "sheet.h"

static const struct {
    const char *old, *lines; /* of the plain vehicle, and what comes instead */
    const char *path;
    double value;
} discs[] = {
    {"tyre_grip = 1\n", "[vehicle]\ntyres = road\n", "vehicle.tyre_grip", 1.0},
    {"tyre_grip = 1\n", "[vehicle]\ntyres = all_terrain\n", "vehicle.tyre_grip", 0.95},
    {"tyre_grip = 1\n", "[vehicle]\ntyres = mud\n", "vehicle.tyre_grip", 0.88},
    /* 0.40 and 0.30 mm over the area of one side's pistons */
    {"compliance = 0 cm3\n", "", "front.disc.compliance", 0.40e-3 * BRAKE_PI / 4.0 * 0.0036},
    {"compliance = 0 mm3\n", "", "rear.disc.compliance", 0.30e-3 * BRAKE_PI / 4.0 * 0.0009},
    {"gap = 0.25 mm\n", "", "front.disc.pads.gap", 0.09e-3},
    {"gap = 0.00025 m\n", "", "rear.disc.pads.gap", 0.15e-3},
    {"", "[front.disc]\nrotor_mass = 8 kg\n", "front.disc.hat_mass", 0.37 * 8.0},
    {"", "[parking]\ncontrol = foot\n", "parking.force", 500.0},
    {"", "[parking]\ncontrol = hand\n", "parking.force", 400.0},
    {"",
     "[valve]\nkind = height\nknee = 20 bar\nslope = 0.4\nknee_rate = 0.05 bar/kg\nset_mass = 1000 "
     "kg\n"
     "stiffness = 60 N/mm\n",
     "valve.anti_lift", 0.5},
    {"", "[driveline]\naxle_ratio = 4\n", "driveline.overall_ratio", 0.85 * 4.0},
    {"", "[driveline]\ngear_ratio = 2\n", "driveline.overall_ratio", 2.0 * 4.1},
};

static void what_stands_in_for_a_line_left_out(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof discs / sizeof discs[0]; i++) {
        struct brake_sheet sheet;
        const char *text = discs[i].old[0] != '\0' ? swapped(plain, discs[i].old, "") : plain;
        read_sheet(&sheet, plus(text, discs[i].lines));
        assert_near(value_at(&sheet, discs[i].path), discs[i].value, 1e-12);
        assert_int_equal(record_at(&sheet, discs[i].path)->from, BRAKE_DEFAULT);
    }
}

static const char *boosted(const char *lines)
{
    return plus(swapped(plain, "[booster]\nbooster = none\n", "[booster]\n"), lines);
}

/* A second chamber stands behind three quarters of the first's area. */
static void a_booster_of_which_little_is_told(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, boosted("[booster]\nbooster = fitted\ndiaphragm_diameter = 200 mm\n"
                               "efficiency = 1\n"));
    assert_near(value_at(&sheet, "booster.gain"), 4.5, ROUNDING);
    assert_near(value_at(&sheet, "booster.vacuum"), 63e3, 1e-12);
    assert_near(value_at(&sheet, "booster.vacuum_low"), 0.70 * 63e3, 1e-12);
    assert_near(value_at(&sheet, "booster.assist"), 63e3 * BRAKE_PI * 0.01, 1e-12);
    change(&sheet, "booster.diaphragms=2");
    assert_near(value_at(&sheet, "booster.assist"), 1.75 * 63e3 * BRAKE_PI * 0.01, 1e-12);
}

/* Half the pressure before it, two stops in all: nitrogen that expands quickly, p V^1.4 = const
 * with absolute pressures, half way from the volume it is charged to to that of its precharge. */
static void an_accumulator_of_which_little_is_told(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, boosted("[booster]\nbooster = hydraulic\npiston_diameter = 40 mm\n"
                               "efficiency = 1\n"));
    assert_near(value_at(&sheet, "booster.gain"), 7.0, ROUNDING);
    assert_near(value_at(&sheet, "booster.pressure"), 95e5, 1e-12);
    assert_near(value_at(&sheet, "booster.reserve"), 2.0, ROUNDING);
    assert_near(value_at(&sheet, "booster.precharge"), 47.5e5, 1e-12);
    assert_near(value_at(&sheet, "booster.assist"), 95e5 * BRAKE_PI * 0.0004, 1e-12);
    const double charged = pow(95e5 + 101325.0, -1.0 / 1.4);
    const double empty = pow(47.5e5 + 101325.0, -1.0 / 1.4);
    assert_near(value_at(&sheet, "booster.pressure_low"),
                pow(0.5 * (charged + empty), -1.4) - 101325.0, 1e-9);
    /* Three stops: the first draws a third. */
    change(&sheet, "booster.reserve=3");
    assert_near(value_at(&sheet, "booster.pressure_low"),
                pow((2.0 * charged + empty) / 3.0, -1.4) - 101325.0, 1e-9);
}

/* reference/method.md: factor 2.2, 3.1, 4.4 at friction 0.37, with it to the power 1.2, 1.6, 2.3;
 * linings and cylinders 1.2 mm over both pistons' area. Common practice, no source. */
static void a_drum_of_which_little_is_told(void **state)
{
    (void)state;
    static const struct {
        const char *shoes;
        double factor, power;
    } cases[] = {
        {"leading_trailing", 2.2, 1.2}, {"two_leading", 3.1, 1.6}, {"duo_servo", 4.4, 2.3}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct brake_sheet sheet;
        const char *text = swapped(drum_text(), "brake_factor = 2\n", "");
        text = swapped(text, "compliance = 0 mm3\npiston", "piston");
        text = swapped(text, "shoes = leading_trailing\n", "");
        char line[120];
        snprintf(line, sizeof line, "[rear.drum]\nshoes = %s\n[rear.drum.lining]\nmu = 0.40\n",
                 cases[i].shoes);
        read_sheet(&sheet, plus(text, line));
        assert_near(value_at(&sheet, "rear.drum.brake_factor"),
                    cases[i].factor * pow(0.40 / 0.37, cases[i].power), 1e-12);
        assert_near(value_at(&sheet, "rear.drum.compliance"),
                    1.2e-3 * 2.0 * BRAKE_PI / 4.0 * 0.0004, 1e-12);
    }
}

/* Between which multiples of what a rule gives 95 of 100 vehicles lie. Common practice, no source:
 * they make the uncertainty of what nobody measured, so that none changes by accident. */
static void how_far_a_vehicle_may_be_from_its_rule(void **state)
{
    (void)state;
    static const struct {
        const char *path;
        double least, most;
    } cases[] = {
        {"vehicle.cg_height", 0.935, 1.065},
        {"vehicle.unsprung_mass", 0.7, 1.35},
        {"vehicle.tyre_grip", 0.88, 1.13},
        {"front.disc.compliance", 0.5, 2},
        {"front.disc.hat_mass", 0.6, 1.5},
        {"front.disc.pads.gap", 0.33, 2.5},
        {"front.drum.brake_factor", 0.75, 1.35},
        {"front.drum.compliance", 0.5, 2},
        {"front.drum.lining.secondary_heel", 0.7, 1.2},
        {"front.drum.lining.secondary_toe", 0.95, 1.1},
        {"front.drum.lining.secondary_mu", 0.9, 1.1},
        {"valve.anti_lift", 0.2, 1.8},
        {"booster.gain", 0.67, 1.56},
        {"booster.vacuum", 0.8, 1.15},
        {"booster.vacuum_low", 0.65, 1.2},
        {"booster.pressure", 0.79, 1.16},
        {"booster.pressure_low", 0.85, 1.15},
        {"booster.reserve", 0.5, 1.5},
        {"booster.precharge", 0.6, 1.6},
        {"parking.factor", 0.65, 1.4},
        {"driveline.overall_ratio", 0.75, 1.3},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const struct brake_quantity *q =
            brake_quantity_at(brake_catalogue_find(NULL, cases[i].path));
        assert_near(q->least, cases[i].least, ROUNDING);
        assert_near(q->most, cases[i].most, ROUNDING);
    }
}

/* The plain vehicle without its load: 500 kg are left to 2500 kg, over 2500 (5 s - 2) mm, by which
 * the rear carries its share s of both ratings; between 0.3 and 1.1 of the wheelbase, else 0.75. */
static void a_load_that_is_not_placed_fills_both_axles_alike(void **state)
{
    (void)state;
    static const struct {
        const char *front, *rear;
        double share; /* of the wheelbase */
    } cases[] = {{"1000 kg", "1500 kg", 1.0},
                 {"1349 kg", "1151 kg", 5.0 * 1151.0 / 2500.0 - 2.0},
                 {"1351 kg", "1149 kg", 0.75},
                 {"951 kg", "1549 kg", 5.0 * 1549.0 / 2500.0 - 2.0},
                 {"949 kg", "1551 kg", 0.75},
                 /* 5 x 0.46 - 2 and 5 x 0.62 - 2, to the bit */
                 {"1350 kg", "1150 kg", 0.3},
                 {"950 kg", "1550 kg", 1.1}};
    const char *bare = swapped(plain,
                               "[load.full]\nmass = 500 kg\nbehind_front_axle = 2000 mm\n"
                               "height = 1000 mm\n",
                               "");
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct brake_sheet sheet;
        char lines[120];
        snprintf(lines, sizeof lines,
                 "[front.axle]\nrated_mass = %s\n[rear.axle]\nrated_mass = %s\n", cases[i].front,
                 cases[i].rear);
        read_sheet(&sheet, plus(bare, lines));
        assert_near(value_at(&sheet, "load.full.behind_front_axle"), 2.5 * cases[i].share,
                    ROUNDING);
        assert_near(value_at(&sheet, "load.full.mass"), 500.0, ROUNDING);
    }
}

/* The second shoe of a duo-servo repeats its first; other drums have none of their own, nor has a
 * servo whose factor is told. */
static void a_second_shoe_is_that_of_a_servo(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, shoe_text());
    assert_nan(value_at(&sheet, "rear.drum.lining.secondary_heel"));
    assert_nan(value_at(&sheet, "rear.drum.lining.secondary_mu"));
    read_sheet(&sheet, swapped(swapped(shoe_text(), "leading_trailing", "duo_servo"), "mu = 0.35",
                               "mu = 0.25"));
    assert_equal(value_at(&sheet, "rear.drum.lining.secondary_heel"),
                 value_at(&sheet, "rear.drum.lining.heel"));
    assert_equal(value_at(&sheet, "rear.drum.lining.secondary_toe"),
                 value_at(&sheet, "rear.drum.lining.toe"));
    assert_near(value_at(&sheet, "rear.drum.lining.secondary_mu"), 0.25, ROUNDING);
    read_sheet(&sheet, swapped(drum_text(), "leading_trailing", "duo_servo"));
    assert_nan(value_at(&sheet, "rear.drum.lining.secondary_mu"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_stands_in_for_a_line_left_out),
        cmocka_unit_test(a_booster_of_which_little_is_told),
        cmocka_unit_test(an_accumulator_of_which_little_is_told),
        cmocka_unit_test(how_far_a_vehicle_may_be_from_its_rule),
        cmocka_unit_test(a_drum_of_which_little_is_told),
        cmocka_unit_test(a_load_that_is_not_placed_fills_both_axles_alike),
        cmocka_unit_test(a_second_shoe_is_that_of_a_servo),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
