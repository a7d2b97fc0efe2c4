/* SPDX-License-Identifier: MIT */
/* How tolerances are carried from readings to what is worked out from them. Expected values: first
 * order propagation, JCGM 100 (GUM), sec. 5.1.2, with derivatives taken by hand. */
#include "sheet.h"
#include "vehicle/recalculation.h"

static double tolerance_at(const struct brake_sheet *sheet, const char *path)
{
    return record_at(sheet, path)->tolerance;
}

/* dm = sqrt(sum of squares of the readings): sqrt(4 x 2^2) = 4 kg. */
static void the_mass_is_as_doubtful_as_its_scales_together(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(swapped(plain, "mass = 2000 kg\nfront_share = 50 %\n", ""),
                            "[scales]\nfront_left = 500 kg +- 2 kg\nfront_right = 510 kg +- 2 kg\n"
                            "rear_left = 480 kg +- 2 kg\nrear_right = 510 kg +- 2 kg\n"));
    assert_near(tolerance_at(&sheet, "vehicle.mass"), 4.0, 1e-10);
    assert_false(record_at(&sheet, "vehicle.mass")->typical);
    /* d(f/m)/df = r/m^2, d(f/m)/dr = -f/m^2; f = 1010, r = 990, m = 2000; finite steps of 0.1 % of
     * m leave 0.1 %. */
    const double share = sqrt(2.0 * (990.0 * 990.0 + 1010.0 * 1010.0)) * 2.0 / (2000.0 * 2000.0);
    assert_near(tolerance_at(&sheet, "vehicle.front_share"), share, 2e-3);
}

/* r = C / 2 pi; D = C / 3.05; I = k m (D/2)^2: dI = sqrt((I dm/m)^2 + (2 I dD/D)^2). */
static void a_rollout_moves_radius_diameter_and_inertia(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    const char *lines = "rolling_radius = 400 mm\noverall_diameter = 800 mm\n"
                        "wheel_inertia = 10 kg*m2\n";
    read_sheet(&sheet, swapped(plain, lines,
                               "rollout = 2.44 m +- 2.44 mm, measured\n"
                               "wheel_mass = 20 kg +- 0.02 kg, measured\n"
                               "inertia_fraction = 0.65 +- 0\n"));
    assert_near(tolerance_at(&sheet, "front.tyre.rolling_radius"), 2.44e-3 / (2.0 * BRAKE_PI),
                1e-9);
    assert_near(tolerance_at(&sheet, "front.tyre.overall_diameter"), 0.8e-3, 1e-9);
    assert_near(tolerance_at(&sheet, "front.tyre.wheel_inertia"), 2.08e-3 * sqrt(1.0 + 4.0), 1e-3);
    /* The repeated tyre moves with it. */
    assert_near(tolerance_at(&sheet, "rear.tyre.rolling_radius"), 2.44e-3 / (2.0 * BRAKE_PI), 1e-9);
}

/* h - h_hub = dW L / (m tan t) = 0.45 m: dW and m by 0.1 %; L by 0.1 %, where tan t =
 * l / sqrt(L^2 - l^2) and d ln(L / tan t) / d ln L = 1 + L^2/(L^2 - l^2) = 1 + 625/576. */
static void the_tilt_test_carries_every_reading(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    const char *text = swapped(plain, "cg_height = 800 mm\n", "");
    text = swapped(text, "mass = 2000 kg\n", "mass = 2000 kg +- 2 kg\n");
    text = swapped(text, "wheelbase = 2500 mm\n", "wheelbase = 2500 mm +- 2.5 mm\n");
    read_sheet(&sheet,
               plus(text, "[tilt]\nrise = 0.7 m +- 0 m\nground_axle_level = 1000 kg +- 0 kg\n"
                          "ground_axle_tilted = 1105 kg +- 0.105 kg\n"
                          "hub_height = 400 mm +- 1 mm\n"));
    const double part = 0.45e-3;
    const double by_base = part * (1.0 + 625.0 / 576.0);
    assert_near(tolerance_at(&sheet, "vehicle.cg_height"),
                sqrt(part * part + part * part + by_base * by_base + 1e-3 * 1e-3), 1e-3);
}

/* R = a / b: dR/R = sqrt(0.001^2 + 0.002^2). */
static void the_arms_of_the_pedal_carry_theirs(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, swapped(plain, "ratio = 4\n",
                               "pad_arm = 240 mm +- 0.1 %\nrod_arm = 60 mm +- 0.2 %\n"));
    assert_near(tolerance_at(&sheet, "pedal.ratio"), 4.0 * sqrt(5.0) * 1e-3, 3e-3);
}

/* A number is raised by its tolerance, and what that moves is taken: 240/60 to 240/66. */
static void a_wide_tolerance_is_carried_by_raising_its_number(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, swapped(plain, "ratio = 4\n",
                               "pad_arm = 240 mm +- 0 mm\nrod_arm = 60 mm +- 6 mm\n"));
    assert_near(tolerance_at(&sheet, "pedal.ratio"), 240.0 / 60.0 - 240.0 / 66.0, 1e-12);
}

/* (100 + 150)/2: half of each. */
static void a_pad_carries_both_edges(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(swapped(plain, "effective_radius = 125 mm\n", ""),
                            "[front.disc.pads]\ninner_radius = 100 mm +- 3 mm\n"
                            "outer_radius = 150 mm +- 4 mm\n"));
    assert_near(tolerance_at(&sheet, "front.disc.effective_radius"), 2.5e-3, 1e-9);
}

/* T = F R e C* r: relative moves add up in squares; 0.1 % each of R, C*, r and e. */
static void the_parking_chain_carries_its_links(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(plain, "[parking]\nratio = 25 +- 0.1 %\nefficiency = 0.8 +- 0.0008\n"
                                   "factor = 2 +- 0.1 %\nradius = 150 mm +- 0.1 %\n"));
    assert_near(tolerance_at(&sheet, "parking.torque"), 2.4 * 2.0, 1e-9);
}

/* The usual uncertainty of the row: common practice, no source. */
static void a_value_without_a_tolerance_takes_the_usual_one(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plain);
    assert_near(tolerance_at(&sheet, "vehicle.mass"), 0.02 * 2000.0, ROUNDING);
    assert_true(record_at(&sheet, "vehicle.mass")->typical);
    assert_near(tolerance_at(&sheet, "front.disc.pads.mu"), 0.15 * 0.4, ROUNDING);
    assert_near(tolerance_at(&sheet, "front.disc.piston_diameter"), 0.004 * 0.06, ROUNDING);
    /* What is a rating or a choice has none. */
    assert_equal(tolerance_at(&sheet, "vehicle.rated_mass"), 0.0);
    assert_false(record_at(&sheet, "vehicle.rated_mass")->typical);
}

static void a_value_worked_out_from_exact_words_takes_the_usual_one(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, swapped(plain, "rolling_radius = 400 mm\noverall_diameter = 800 mm\n",
                               "marking = 265/70R17\n"));
    assert_near(tolerance_at(&sheet, "front.tyre.overall_diameter"), 0.015 * 0.803, ROUNDING);
    assert_true(record_at(&sheet, "front.tyre.overall_diameter")->typical);
    assert_near(tolerance_at(&sheet, "front.tyre.rolling_radius"),
                0.02 * 3.05 * 0.803 / (2.0 * BRAKE_PI), ROUNDING);
}

static void a_tolerance_of_nothing_is_kept(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, swapped(plain, "mass = 2000 kg\n", "mass = 2000 kg +- 0 kg\n"));
    assert_equal(tolerance_at(&sheet, "vehicle.mass"), 0.0);
    assert_false(record_at(&sheet, "vehicle.mass")->typical);
}

static void carrying_tolerances_leaves_the_values_alone(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(swapped(plain, "cg_height = 800 mm\n", ""),
                            "[vehicle]\nroof_height = 2000 mm +- 50 mm\n"));
    assert_near(value_at(&sheet, "vehicle.cg_height"), 0.77, ROUNDING);
    /* 0.385 x 50 mm of the reading and 6.5 % of the rule */
    assert_near(tolerance_at(&sheet, "vehicle.cg_height"),
                sqrt(0.01925 * 0.01925 + 0.065 * 0.77 * 0.065 * 0.77), 1e-10);
    assert_near(value_at(&sheet, "vehicle.roof_height"), 2.0, ROUNDING);
}

/* ---- one number varied ----------------------------------------------------------------------- */

static void varying_a_reading_works_everything_out_anew(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    struct brake_vehicle moved;
    struct brake_places places;
    brake_places_fill(&places);
    read_sheet(&sheet, plus(plain, "[parking]\npull = 2000 N\n"));
    brake_sheet_vary(&sheet, &places, index_at(&sheet.vehicle, "parking.pull"), 3000.0, &moved);
    assert_near(moved.parking.torque, 1200.0, ROUNDING);
    assert_near(sheet.vehicle.parking.torque, 800.0, ROUNDING);
    brake_sheet_vary(&sheet, &places, index_at(&sheet.vehicle, "front.tyre.rolling_radius"), 0.5,
                     &moved);
    assert_near(moved.parking.torque, 1000.0, ROUNDING);
}

static void varying_a_worked_value_moves_it_alone(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    struct brake_vehicle moved;
    struct brake_places places;
    brake_places_fill(&places);
    read_sheet(&sheet, plus(plain, "[parking]\npull = 2000 N\n"));
    brake_sheet_vary(&sheet, &places, index_at(&sheet.vehicle, "parking.torque"), 950.0, &moved);
    assert_equal(moved.parking.torque, 950.0);
    assert_near(moved.parking.pull, 2000.0, ROUNDING);
    assert_near(sheet.vehicle.parking.torque, 800.0, ROUNDING);
}

/* What the limits of a check would refuse may be tried; nothing is judged here. */
static void varying_a_value_across_its_partner_is_not_refused(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    struct brake_vehicle moved;
    struct brake_places places;
    brake_places_fill(&places);
    read_sheet(&sheet, plus(plain, "[front.tyre]\nrollout = 2.52 m\n"));
    brake_sheet_vary(&sheet, &places, index_at(&sheet.vehicle, "front.tyre.rollout"), 3.0, &moved);
    assert_near(moved.axle[BRAKE_FRONT].tyre.rollout, 3.0, ROUNDING);
    assert_near(moved.axle[BRAKE_FRONT].tyre.rolling_radius, 0.4, ROUNDING);
}

/* Mass from the scales with both readings moved, front share with them: 1010/2000 to 1030/2010. */
static void several_readings_move_together(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    struct brake_vehicle moved;
    struct brake_places places;
    brake_places_fill(&places);
    read_sheet(&sheet, plus(swapped(plain, "mass = 2000 kg\nfront_share = 50 %\n", ""),
                            "[scales]\nfront_axle = 1010 kg\nrear_axle = 990 kg\n"));
    const int index[] = {index_at(&sheet.vehicle, "scales.front_axle"),
                         index_at(&sheet.vehicle, "scales.rear_axle")};
    const double value[] = {1030.0, 980.0};
    brake_sheet_vary_many(&sheet, &places, index, value, 2, &moved);
    assert_near(moved.general.mass, 2010.0, ROUNDING);
    assert_near(moved.general.front_share, 1030.0 / 2010.0, ROUNDING);
    assert_near(sheet.vehicle.general.mass, 2000.0, ROUNDING);
}

/* A pull of 2000 N at the tyre of 0.4 m alone would give 800 N*m, one of 3000 N 1200 N*m. */
static void a_worked_value_among_several_stays_as_it_was_put(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    struct brake_vehicle moved;
    struct brake_places places;
    brake_places_fill(&places);
    read_sheet(&sheet, plus(plain, "[parking]\npull = 2000 N\n"));
    const int index[] = {index_at(&sheet.vehicle, "parking.torque"),
                         index_at(&sheet.vehicle, "parking.pull"),
                         index_at(&sheet.vehicle, "vehicle.wheelbase")};
    const double value[] = {950.0, 3000.0, 2.6};
    brake_sheet_vary_many(&sheet, &places, index, value, 3, &moved);
    assert_equal(moved.parking.torque, 950.0);
    assert_equal(moved.parking.pull, 3000.0);
    assert_equal(moved.general.wheelbase, 2.6);
}

static void changing_nothing_gives_the_vehicle_of_the_sheet(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    struct brake_vehicle moved;
    struct brake_places places;
    brake_places_fill(&places);
    read_sheet(&sheet, full_text());
    brake_sheet_vary_many(&sheet, &places, NULL, NULL, 0, &moved);
    assert_memory_equal(&moved, &sheet.vehicle, sizeof moved);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_mass_is_as_doubtful_as_its_scales_together),
        cmocka_unit_test(a_rollout_moves_radius_diameter_and_inertia),
        cmocka_unit_test(the_tilt_test_carries_every_reading),
        cmocka_unit_test(the_arms_of_the_pedal_carry_theirs),
        cmocka_unit_test(a_wide_tolerance_is_carried_by_raising_its_number),
        cmocka_unit_test(a_pad_carries_both_edges),
        cmocka_unit_test(the_parking_chain_carries_its_links),
        cmocka_unit_test(a_value_without_a_tolerance_takes_the_usual_one),
        cmocka_unit_test(a_value_worked_out_from_exact_words_takes_the_usual_one),
        cmocka_unit_test(a_tolerance_of_nothing_is_kept),
        cmocka_unit_test(carrying_tolerances_leaves_the_values_alone),
        cmocka_unit_test(varying_a_reading_works_everything_out_anew),
        cmocka_unit_test(varying_a_worked_value_moves_it_alone),
        cmocka_unit_test(varying_a_value_across_its_partner_is_not_refused),
        cmocka_unit_test(several_readings_move_together),
        cmocka_unit_test(a_worked_value_among_several_stays_as_it_was_put),
        cmocka_unit_test(changing_nothing_gives_the_vehicle_of_the_sheet),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
