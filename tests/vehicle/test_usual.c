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

/* Half the pressure and twice the volume before it; nitrogen that expands by p V^1.4: down to
 * 1/2 of what the accumulator holds. */
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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_stands_in_for_a_line_left_out),
        cmocka_unit_test(a_booster_of_which_little_is_told),
        cmocka_unit_test(an_accumulator_of_which_little_is_told),
        cmocka_unit_test(a_drum_of_which_little_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
