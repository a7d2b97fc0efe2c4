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

/* Rear brakes that take 7 bar to come on, of which a foot of 50 N brings 6.4: nothing is left of
 * that axle, which is a number. What was nothing before has no part of it. */
static void an_axle_may_lose_all_and_nothing_is_no_yardstick(void **state)
{
    (void)state;
    const char *light =
        swapped(plain, "modulation = 1\n", "modulation = 1\npedal_force_most = 50 N\n");
    const char *off = swapped(light, "threshold = 0 kPa\n", "threshold = 7 bar\n");
    read_both(light, off);
    assert_true(draw() != NULL);
    assert_equal(loss.of[BRAKE_REAR].ratio, 0.0);
    assert_equal(loss.of[BRAKE_REAR].low, 0.0);
    assert_near(loss.of[BRAKE_FRONT].low, 1.0, 1e-12);
    read_both(off, light);
    assert_true(draw() != NULL);
    assert_nan(loss.of[BRAKE_REAR].ratio);
    assert_nan(loss.of[BRAKE_REAR].low);
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

/* The front has 0.8 of the torque: pads of 0.3851 in place of 0.4 leave 0.9702 of all, less than
 * 3 % are lost; of 0.3849, 0.9698. */
static void a_loss_of_three_in_a_hundred_is_as_before(void **state)
{
    (void)state;
    read_both(plain, swapped(plain, "mu = 0.4\n", "mu = 0.3851\n"));
    assert_near(draw()->ratio, 0.9702, 1e-9);
    assert_equal(loss.less, 0.0);
    assert_int_equal(loss.verdict, BRAKE_MEETS);
    read_both(plain, swapped(plain, "mu = 0.4\n", "mu = 0.3849\n"));
    assert_near(draw()->ratio, 0.9698, 1e-9);
    assert_equal(loss.less, 1.0);
    assert_int_equal(loss.verdict, BRAKE_FALLS_SHORT);
}

/* As much of a gain: pads of 0.4149 give 1.0298 of all, of 0.4151 1.0302. */
static void a_gain_of_three_in_a_hundred_is_as_before(void **state)
{
    (void)state;
    read_both(plain, swapped(plain, "mu = 0.4\n", "mu = 0.4149\n"));
    (void)draw();
    assert_equal(loss.more, 0.0);
    read_both(plain, swapped(plain, "mu = 0.4\n", "mu = 0.4151\n"));
    (void)draw();
    assert_equal(loss.more, 1.0);
    assert_equal(loss.less, 0.0);
}

/* 95 of 100 samples that lose are a loss, 5 of 100 are none; between it cannot be said. Front
 * pistons of other sizes, so other pads, of a friction that is not sure. */
static void a_word_takes_95_of_100(void **state)
{
    (void)state;
    int seen[5] = {0};
    for (int tenth = 540; tenth < 640; tenth++) {
        static const double edge[] = {0.0, 0.05, 0.06, 0.94, 0.95, 0.96};
        char pistons[40];
        snprintf(pistons, sizeof pistons, "pistons = 1 x %.1f mm", tenth / 10.0);
        read_both(plain, swapped(plain, "pistons = 1 x 60 mm", pistons));
        uncertainty("front.disc.pads.mu", 0.03);
        (void)draw();
        assert_int_equal(loss.verdict, loss.less >= 0.95   ? BRAKE_FALLS_SHORT
                                       : loss.less <= 0.05 ? BRAKE_MEETS
                                                           : BRAKE_CANNOT_SAY);
        for (int i = 0; i < 5; i++)
            seen[i] += loss.less > edge[i] && loss.less < edge[i + 1];
    }
    for (int i = 0; i < 5; i++)
        assert_true(seen[i] > 0);
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

/* However many lines are uncertain of one of them alone, what both have is drawn once. */
static void what_one_of_them_alone_is_not_sure_of_parts_nothing(void **state)
{
    (void)state;
    static const char *const alone[] = {"driver.pedal_force_most", "stop.reaction_time"};
    for (int which = 0; which < 2; which++) {
        read_both(plain, larger_tyres());
        for (int i = 0; i < 2; i++)
            state_tolerance(which == 0 ? &before : &after, alone[i], 1e-9, BRAKE_ESTIMATED);
        uncertainty("front.disc.pads.mu", 0.08);
        uncertainty("rear.disc.pads.mu", 0.08);
        const struct brake_regained *both = draw();
        assert_near(both->low, both->ratio, 1e-7);
        assert_near(both->high, both->ratio, 1e-7);
    }
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
    /* Fieller: (1 - r)^2 = (1.645 x 0.05)^2 (1 + r^2) at both ends */
    const double k = 1.0 - 1.645 * 1.645 * 0.05 * 0.05;
    assert_within(front->low / front->ratio, (1.0 - sqrt(1.0 - k * k)) / k, 0.002);
    assert_within(front->high / front->ratio, (1.0 + sqrt(1.0 - k * k)) / k, 0.002);
    assert_within(loss.of[BRAKE_REAR].high, 1.0, 1e-9);
}

/* The first lines with a number, of the vehicle. */
static void state_first_lines(struct brake_sheet *sheet, int lines)
{
    for (int i = 0; lines > 0; i++) {
        if (brake_quantity_at(i)->kind != BRAKE_REAL ||
            isnan(brake_quantity_value(&sheet->vehicle, i)))
            continue;
        sheet->record[i].tolerance = 1e-9;
        lines--;
    }
}

/* However many lines the vehicle before is not sure of as well. */
static void twice_means_by_numbers_of_its_own(void **state)
{
    (void)state;
    for (int lines = 1; lines <= 10; lines++) {
        read_both(plain, swapped(plain, "pistons = 1 x 60 mm", "pistons = 1 x 69.282 mm"));
        uncertainty("front.disc.pads.mu", 0.4 * 0.05 * 1.96);
        state_first_lines(&before, lines);
        (void)draw();
        const struct brake_regained *front = &loss.of[BRAKE_FRONT];
        assert_within((front->high - front->low) / 2.0 / front->ratio, 1.645 * sqrt(2.0) * 0.05,
                      0.005);
    }
}

/* A friction of before or of now is all that is not known: 0.4 with a standard deviation of 10 %,
 * of which an uncertainty holds 1.96. Each of 1024 samples lies in a stretch of its own, of as many
 * equal ones: the 5th percentile, at place 1023 x 0.05 from 0 on (percentile.h), within one. */
static void the_ends_are_those_of_90_of_100_samples(void **state)
{
    (void)state;
    const double sigma = 0.1;
    const double place = 1023.0 * 0.05;
    for (int i = 0; i < 4; i++) {
        const char *path = i < 2 ? "front.disc.pads.mu" : "rear.disc.pads.mu";
        read_both(plain, plain);
        state_tolerance(i % 2 == 0 ? &before : &after, path, 1.9599639845400545 * sigma * 0.4,
                        BRAKE_ESTIMATED);
        (void)draw();
        const struct brake_regained *axle = &loss.of[i < 2 ? BRAKE_FRONT : BRAKE_REAR];
        const double low = i % 2 == 0 ? 1.0 - 1.0 / axle->low : axle->low - 1.0;
        const double high = i % 2 == 0 ? 1.0 - 1.0 / axle->high : axle->high - 1.0;
        const double below = 0.5 * erfc(-low / sigma / sqrt(2.0));
        const double above = 0.5 * erfc(high / sigma / sqrt(2.0));
        assert_between(1024.0 * below, place, place + 1.0);
        assert_between(1024.0 * above, place, place + 1.0);
    }
}

/* A rack that one of both has: it is no part of the brakes of either. */
static void a_part_that_one_of_them_has_is_none_of_the_brakes(void **state)
{
    (void)state;
    static const char rack[] = "[part.rack]\nmass = 100 kg\nbehind_front_axle = 1 m\n"
                               "height = 1 m\n";
    for (int has = 0; has < 2; has++) {
        read_both(has == 0 ? plus(plain, rack) : plain, has == 0 ? plain : plus(plain, rack));
        uncertainty("front.disc.pads.mu", 0.08);
        uncertainty("rear.disc.pads.mu", 0.08);
        const struct brake_regained *both = draw();
        assert_near(both->low, both->ratio, 1e-9);
        assert_near(both->high, both->ratio, 1e-9);
    }
}

/* A radius of 160 mm for 125 alone makes the front brake another, unless the file says that its
 * pads are the same. */
static void one_line_changed_is_a_part_changed(void **state)
{
    (void)state;
    for (int same = 0; same < 2; same++) {
        read_both(plain, plain);
        change(&after, "front.disc.effective_radius=160 mm");
        make_exact(&after);
        uncertainty("front.disc.pads.mu", 0.04);
        after.record[index_at(&after.vehicle, "front.disc.pads.mu")].same = same == 1;
        (void)draw();
        const struct brake_regained *front = &loss.of[BRAKE_FRONT];
        assert_int_equal(front->high - front->low > 0.1, same == 0);
        assert_int_equal(fabs(front->high - front->low) < 1e-9, same == 1);
    }
}

/* A heavier vehicle has the same driver, however strong. */
static void what_is_of_no_part_is_changed_alone(void **state)
{
    (void)state;
    read_both(plain, swapped(plain, "mass = 2000 kg\n", "mass = 2100 kg\n"));
    uncertainty("driver.pedal_force_most", 50.0);
    const struct brake_regained *both = draw();
    assert_near(both->low, both->ratio, 1e-9);
    assert_near(both->high, both->ratio, 1e-9);
}

/* Two ways to know a number are two numbers. */
static void the_same_number_less_sure_is_another(void **state)
{
    (void)state;
    read_both(plain, plain);
    state_tolerance(&before, "front.disc.pads.mu", 0.02, BRAKE_ESTIMATED);
    state_tolerance(&after, "front.disc.pads.mu", 0.04, BRAKE_ESTIMATED);
    const struct brake_regained *both = draw();
    assert_true(both->high - both->low > 0.1);
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

/* A parking brake on the front wheels is pulled by their tyres, not by the rear ones. */
static void a_pull_goes_by_the_tyres_that_are_braked(void **state)
{
    (void)state;
    static const char pull[] = "[parking]\npull = 2000 N\non = front\n";
    static const char rear[] = "[rear.tyre]\nrolling_radius = 400 mm\noverall_diameter = 800 mm\n"
                               "wheel_inertia = 10 kg*m2\n";
    read_sheet(&before, plus(plain, pull));
    read_sheet(&after, plus(plus(larger_tyres(), rear), pull));
    assert_true(brake_before_carry(&before, &after));
    assert_near(before.vehicle.parking.pull, 2200.0, 1e-9);
    /* and only where both have one */
    read_sheet(&before, plain);
    assert_false(brake_before_carry(&before, &after));
    read_sheet(&before, plus(plain, pull));
    read_sheet(&after, larger_tyres());
    assert_false(brake_before_carry(&before, &after));
}

/* Larger tyres lift a vehicle by what their radius grew, on the mean of both axles: 30 mm (common
 * practice, no source) that neither a rise of the wheels nor another height tells of. */
static void a_rise_that_nothing_tells_of_is_told(void **state)
{
    (void)state;
    static const struct {
        const char *front, *rear;
        double rise;
    } of[] = {{"429.9 mm", "429.9 mm", 0.0},
              {"430.1 mm", "430.1 mm", 0.0301},
              {"500 mm", "400 mm", 0.05},
              {"400 mm", "470 mm", 0.035},
              {"300 mm", "300 mm", 0.0}};
    read_sheet(&before, plain);
    for (int i = 0; i < 5; i++) {
        char front[60];
        char rear[160];
        snprintf(front, sizeof front, "rolling_radius = %s\n", of[i].front);
        snprintf(rear, sizeof rear,
                 "[rear.tyre]\nrolling_radius = %s\noverall_diameter = 900 mm\n"
                 "wheel_inertia = 10 kg*m2\n",
                 of[i].rear);
        const char *text = plus(swapped(plain, "rolling_radius = 400 mm\n", front), rear);
        read_sheet(&after, text);
        assert_within(brake_before_untold_rise(&before, &after), of[i].rise, 1e-9);
        read_sheet(&after, plus(text, "[lift]\nwheel_rise = 1 mm\n"));
        assert_equal(brake_before_untold_rise(&before, &after), 0.0);
        read_sheet(&after, swapped(text, "cg_height = 800 mm\n", "cg_height = 801 mm\n"));
        assert_equal(brake_before_untold_rise(&before, &after), 0.0);
    }
}

/* Value, tolerance and leaning have to be those of before, and stand in its file. */
static void what_is_the_same_as_before_must_be_that(void **state)
{
    (void)state;
    struct brake_error error;
    for (int other = 0; other < 5; other++) {
        read_sheet(&before, plain);
        read_sheet(&after, plain);
        const int mu = index_at(&after.vehicle, "front.disc.pads.mu");
        struct brake_record *record = &after.record[mu];
        record->same = true;
        if (other == 1)
            after.vehicle.axle[BRAKE_FRONT].pads.mu = 0.41;
        record->tolerance += other == 2 ? 0.01 : 0.0;
        record->lean += other == 3 ? 0.1 : 0.0;
        if (other == 4)
            before.record[mu].from = BRAKE_DEFAULT;
        const enum brake_status status = brake_before_fits(&before, &after, &error);
        assert_int_equal(status, other == 0 ? BRAKE_OK : BRAKE_E_CONFLICT);
        if (other == 0)
            continue;
        assert_string_equal(error.field, "front.disc.pads.mu");
        assert_int_equal(error.line, before.record[mu].line);
        assert_int_equal(strncmp(error.text, "is not given here", 17) == 0, other == 4);
    }
}

/* A part is known by its name, wherever it stands. */
static void a_part_that_is_the_same_as_before_is_the_one_of_its_name(void **state)
{
    (void)state;
    struct brake_error error;
    static const char *const rack =
        "[part.rack]\nmass = 40 kg\nbehind_front_axle = 1 m\nheight = 1.8 m\n";
    static const char *const winch =
        "[part.winch]\nmass = 40 kg\nbehind_front_axle = 1 m\nheight = 1.8 m\n";
    for (int other = 0; other < 4; other++) {
        const char *then = other == 0   ? plus(plain, rack)
                           : other == 1 ? plus(plus(plain, winch), rack)
                           : other == 2 ? plus(plain, winch)
                                        : plain;
        read_sheet(&before, then);
        read_sheet(&after, plus(plain, rack));
        after.record[index_at(&after.vehicle, "part.rack.mass")].same = true;
        const enum brake_status status = brake_before_fits(&before, &after, &error);
        assert_int_equal(status, other < 2 ? BRAKE_OK : BRAKE_E_CONFLICT);
        if (other < 2)
            continue;
        assert_string_equal(error.field, "part.rack.mass");
        assert_int_equal(error.line, 0); /* it has none */
        assert_int_equal(strncmp(error.text, "is not given here", 17), 0);
    }
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
    expect_refused(plus(plain, "[vehicle]\nbefore = x\n"), plain, "vehicle.before");
    const char *const low = swapped(plain, "cg_height = 800 mm\n", "roof_height = 1800 mm\n");
    const char *const high = swapped(plain, "cg_height = 800 mm\n", "roof_height = 1890 mm\n");
    static const char lift[] = "[lift]\nsuspension = 50 mm\n";
    expect_refused(low, plus(high, lift), "vehicle.roof_height");
    expect_refused(low, plus(high, "[lift]\nwheel_rise = 50 mm\n"), "vehicle.roof_height");
    read_sheet(&after, plus(low, lift));
    assert_int_equal(brake_before_fits(&before, &after, &error), BRAKE_OK);
    read_sheet(&after, high);
    assert_int_equal(brake_before_fits(&before, &after, &error), BRAKE_OK);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_same_vehicle_is_as_before_however_doubtful_it_is),
        cmocka_unit_test(an_axle_may_lose_all_and_nothing_is_no_yardstick),
        cmocka_unit_test(larger_tyres_take_what_they_take_by_hand),
        cmocka_unit_test(a_loss_of_three_in_a_hundred_is_as_before),
        cmocka_unit_test(a_gain_of_three_in_a_hundred_is_as_before),
        cmocka_unit_test(a_word_takes_95_of_100),
        cmocka_unit_test(a_line_that_follows_a_changed_one_has_two_values),
        cmocka_unit_test(the_friction_of_unchanged_brakes_does_not_count),
        cmocka_unit_test(what_one_of_them_alone_is_not_sure_of_parts_nothing),
        cmocka_unit_test(the_friction_of_a_changed_brake_is_drawn_twice),
        cmocka_unit_test(twice_means_by_numbers_of_its_own),
        cmocka_unit_test(the_ends_are_those_of_90_of_100_samples),
        cmocka_unit_test(a_part_that_one_of_them_has_is_none_of_the_brakes),
        cmocka_unit_test(one_line_changed_is_a_part_changed),
        cmocka_unit_test(what_is_of_no_part_is_changed_alone),
        cmocka_unit_test(the_same_number_less_sure_is_another),
        cmocka_unit_test(a_loss_that_may_be_none_cannot_be_said),
        cmocka_unit_test(what_the_pedal_cannot_deliver_is_told_apart),
        cmocka_unit_test(less_than_before_is_a_hazard_of_the_verdict),
        cmocka_unit_test(a_pull_that_stands_in_both_is_carried_as_torque),
        cmocka_unit_test(a_pull_goes_by_the_tyres_that_are_braked),
        cmocka_unit_test(a_rise_that_nothing_tells_of_is_told),
        cmocka_unit_test(what_is_the_same_as_before_must_be_that),
        cmocka_unit_test(a_part_that_is_the_same_as_before_is_the_one_of_its_name),
        cmocka_unit_test(what_would_be_mixed_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
