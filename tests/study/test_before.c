/* SPDX-License-Identifier: MIT */
/* The vehicle before as the yardstick: torque per need, now over before. */
#include <math.h>

#include "../vehicle/sheet.h"

#include "brake/assessment.h"
#include "brake/before.h"

static struct brake_sheet before;
static struct brake_sheet after;
static struct brake_before loss;

/* Exact but for what a test makes uncertain, the same in both. */
static void read_both(const char *one, const char *other)
{
    read_sheet(&before, one);
    read_sheet(&after, other);
    make_exact(&before);
    make_exact(&after);
}

static void uncertainty(const char *path, double tolerance)
{
    state_tolerance(&before, path, tolerance, BRAKE_ESTIMATED);
    state_tolerance(&after, path, tolerance, BRAKE_ESTIMATED);
}

static const struct brake_regained *draw(void)
{
    assert_int_equal(brake_before_draw(&before, &after, &loss), BRAKE_OK);
    return &loss.of[BRAKE_BOTH_AXLES];
}

/* Tyres of 440 for 400 mm, of the same inertia, all round. */
static const char *larger_tyres(void)
{
    return swapped(plain, "rolling_radius = 400 mm\noverall_diameter = 800 mm\n",
                   "rolling_radius = 440 mm\noverall_diameter = 880 mm\n");
}

static void the_same_vehicle_is_as_before_however_doubtful_it_is(void **state)
{
    (void)state;
    read_both(plain, plain);
    uncertainty("front.disc.pads.mu", 0.08);
    uncertainty("vehicle.mass", 100.0);
    const struct brake_regained *both = draw();
    assert_near(both->ratio, 1.0, 1e-12);
    assert_near(both->low, 1.0, 1e-12);
    assert_near(both->high, 1.0, 1e-12);
    assert_int_equal(loss.verdict, BRAKE_MEETS);
}

/* By hand: torque needed is m a r + 4 J a / r: full, (2500 x 0.4 + 40/0.4) a = 1100 a before and
 * (2500 x 0.44 + 40/0.44) a = 1190.9 a now; what is available stays. */
static void larger_tyres_take_what_they_take_by_hand(void **state)
{
    (void)state;
    read_both(plain, larger_tyres());
    const struct brake_regained *both = draw();
    assert_int_equal(loss.load, BRAKE_FULL);
    assert_near(both->ratio, 1100.0 / (1100.0 + 40.0 / 0.44), 1e-9);
    assert_near(both->share[BRAKE_CHANGE_TYRE], both->ratio - 1.0, 1e-9);
    assert_near(both->low, both->ratio, 1e-9);
    assert_equal(loss.less, 1.0);
    assert_equal(loss.more, 0.0);
    assert_int_equal(loss.verdict, BRAKE_FALLS_SHORT);
    read_both(larger_tyres(), plain);
    /* empty gains less: 2000 kg take 900 a, on the larger tyres (880 + 40/0.44) a */
    assert_near(draw()->ratio, (880.0 + 40.0 / 0.44) / 900.0, 1e-9);
    assert_equal(loss.less, 0.0);
    assert_equal(loss.more, 1.0);
    assert_int_equal(loss.verdict, BRAKE_MEETS);
}

/* The front has 0.8 of the torque: pads of 0.388 in place of 0.4 leave 0.976 of all, less than 3 %
 * are lost; of 0.384, 0.968. */
static void a_loss_of_three_in_a_hundred_is_as_before(void **state)
{
    (void)state;
    read_both(plain, swapped(plain, "mu = 0.4\n", "mu = 0.388\n"));
    assert_near(draw()->ratio, 0.976, 1e-9);
    assert_equal(loss.less, 0.0);
    assert_int_equal(loss.verdict, BRAKE_MEETS);
    read_both(plain, swapped(plain, "mu = 0.4\n", "mu = 0.384\n"));
    assert_near(draw()->ratio, 0.968, 1e-9);
    assert_equal(loss.less, 1.0);
    assert_int_equal(loss.verdict, BRAKE_FALLS_SHORT);
}

/* The rear tyre is not in the file, and repeats a front tyre that was changed. */
static void a_line_that_follows_a_changed_one_has_two_values(void **state)
{
    (void)state;
    read_both(plain, larger_tyres());
    uncertainty("rear.tyre.rolling_radius", 1e-6);
    (void)draw();
    assert_within(loss.of[BRAKE_REAR].low, loss.of[BRAKE_REAR].ratio, 1e-4);
}

/* What is not known of an unchanged part is the same before and now. */
static void the_friction_of_unchanged_brakes_does_not_count(void **state)
{
    (void)state;
    read_both(plain, larger_tyres());
    uncertainty("front.disc.pads.mu", 0.08);
    uncertainty("rear.disc.pads.mu", 0.08);
    const struct brake_regained *both = draw();
    assert_near(both->low, both->high, 1e-9);
}

/* Larger front pistons, so other pads: their friction is drawn apart from that of before. Front
 * torque over need is 4/3.. of before; the ratio of two frictions, each 5 % standard deviation,
 * scatters by sqrt(2) 5 % = 7.07 %, so 90 of 100 lie within 1.645 of that: 11.6 % of the ratio, in
 * a ratio of two normal values somewhat more. */
static void the_friction_of_a_changed_brake_is_drawn_twice(void **state)
{
    (void)state;
    read_both(plain, swapped(plain, "pistons = 1 x 60 mm", "pistons = 1 x 69.282 mm"));
    uncertainty("front.disc.pads.mu", 0.4 * 0.05 * 1.96);
    (void)draw();
    const struct brake_regained *front = &loss.of[BRAKE_FRONT];
    assert_within(front->ratio, 4.0 / 3.0, 1e-4);
    const double width = (front->high - front->low) / 2.0 / front->ratio;
    assert_within(width, 1.645 * sqrt(2.0) * 0.05, 0.005);
    assert_within(loss.of[BRAKE_REAR].high, 1.0, 1e-9);
}

static void a_loss_that_may_be_none_cannot_be_said(void **state)
{
    (void)state;
    read_both(plain, swapped(plain, "pistons = 1 x 60 mm", "pistons = 1 x 59 mm"));
    uncertainty("front.disc.pads.mu", 0.08);
    (void)draw();
    assert_true(loss.less > 0.05 && loss.less < 0.95);
    assert_int_equal(loss.verdict, BRAKE_CANNOT_SAY);
}

/* Pistons that want more fluid than the pedal gives: the brakes could do more than before. */
static void what_the_pedal_cannot_deliver_is_told_apart(void **state)
{
    (void)state;
    const char *const one =
        swapped(plain, "free_play = 5 mm\n", "free_play = 5 mm\ntravel = 55 mm\n");
    const char *const stiff = swapped(one, "compliance = 0 cm3\n", "compliance = 1 cm3\n");
    read_both(stiff, swapped(stiff, "pistons = 1 x 60 mm", "pistons = 1 x 75 mm"));
    const struct brake_regained *both = draw();
    assert_true(both->ratio < 1.0);
    assert_true(both->unlimited > 1.3);
}

static void less_than_before_is_a_hazard_of_the_verdict(void **state)
{
    (void)state;
    static struct brake_assessment assessment;
    read_both(plain, larger_tyres());
    (void)draw();
    assert_true(brake_assess_whole(&after, 0, NULL, &assessment));
    const int hazards = assessment.ruling.of[BRAKE_HAZARD].falls_short;
    assert_null(assessment.before);
    brake_assess_before(&assessment, &loss);
    assert_int_equal(assessment.ruling.of[BRAKE_HAZARD].falls_short, hazards + 1);
    assert_ptr_equal(assessment.before, &loss);
    assert_int_equal(brake_assessment_verdict(&assessment), BRAKE_FALLS_SHORT);
}

/* ---- what belongs to one of them ------------------------------------------------------------- */

/* 2000 N on tyres of 440 mm are 880 N*m; on those of 400 mm the same torque pulls 2200 N. */
static void a_pull_that_stands_in_both_is_carried_as_torque(void **state)
{
    (void)state;
    static const char pull[] = "[parking]\npull = 2000 N +- 50 N\n";
    read_sheet(&before, plus(plain, pull));
    read_sheet(&after, plus(larger_tyres(), pull));
    assert_true(brake_before_carry(&before, &after));
    assert_near(before.vehicle.parking.pull, 2200.0, 1e-9);
    assert_near(before.vehicle.parking.torque, 880.0, 1e-9);
    assert_near(before.record[index_at(&before.vehicle, "parking.pull")].tolerance, 55.0, 1e-9);
    assert_near(after.vehicle.parking.torque, 880.0, 1e-9);
    /* One that was pulled again stays. */
    read_sheet(&before, plus(plain, "[parking]\npull = 2100 N\n"));
    assert_false(brake_before_carry(&before, &after));
    read_sheet(&before, plus(larger_tyres(), pull));
    assert_false(brake_before_carry(&before, &after));
}

static void expect_refused(const char *one, const char *other, const char *field)
{
    struct brake_error error;
    read_sheet(&before, one);
    read_sheet(&after, other);
    assert_int_equal(brake_before_fits(&before, &after, &error), BRAKE_E_CONFLICT);
    assert_string_equal(error.field, field);
    assert_true(error.line > 0);
}

static void what_would_be_mixed_is_refused(void **state)
{
    (void)state;
    struct brake_error error;
    expect_refused(plus(plain, "[vehicle]\nbefore = older.ini\n"), plain, "vehicle.before");
    const char *const low = swapped(plain, "cg_height = 800 mm\n", "roof_height = 1800 mm\n");
    const char *const high = swapped(plain, "cg_height = 800 mm\n", "roof_height = 1890 mm\n");
    static const char lift[] = "[lift]\nsuspension = 50 mm\n";
    expect_refused(low, plus(high, lift), "vehicle.roof_height");
    read_sheet(&after, plus(low, lift));
    assert_int_equal(brake_before_fits(&before, &after, &error), BRAKE_OK);
    read_sheet(&after, high);
    assert_int_equal(brake_before_fits(&before, &after, &error), BRAKE_OK);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_same_vehicle_is_as_before_however_doubtful_it_is),
        cmocka_unit_test(larger_tyres_take_what_they_take_by_hand),
        cmocka_unit_test(a_loss_of_three_in_a_hundred_is_as_before),
        cmocka_unit_test(a_line_that_follows_a_changed_one_has_two_values),
        cmocka_unit_test(the_friction_of_unchanged_brakes_does_not_count),
        cmocka_unit_test(the_friction_of_a_changed_brake_is_drawn_twice),
        cmocka_unit_test(a_loss_that_may_be_none_cannot_be_said),
        cmocka_unit_test(what_the_pedal_cannot_deliver_is_told_apart),
        cmocka_unit_test(less_than_before_is_a_hazard_of_the_verdict),
        cmocka_unit_test(a_pull_that_stands_in_both_is_carried_as_torque),
        cmocka_unit_test(what_would_be_mixed_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
