/* SPDX-License-Identifier: MIT */
/* Sizes against closed-form inverses on the plain vehicle of ../vehicle/sheet.h.
 *
 * With front pistons of diameter d, T_1 = 0.8 F (d / 20 mm)^2 and T_2 = 1.8 F; r = 0.4 m; m + J is
 * 2250 kg empty and 2750 kg full, J_i / r^2 = 125 kg at each axle. */
#include "../vehicle/sheet.h"

#include "brake/size.h"
#include "study/target.h"
#include "study/tyres.h"
#include "vehicle/recalculation.h"
#include "criteria/judge.h"
#include "study/conformance.h"
#include "study/inputs.h"
#include "study/known.h"

static struct brake_sheet sheet;
static struct brake_conformance_room room;
static struct brake_size size;

/* Rotors, so that a fade procedure can be run. */
static const char heat[] =
    "[vehicle]\ntop_speed = 160 km/h\n"
    "[front.disc]\nrotor_mass = 32 kg\nrotor_diameter = 300 mm\nhat_mass = 2 kg\nrotor = vented\n"
    "[rear.disc]\nrotor_mass = 9 kg\nrotor_diameter = 300 mm\n"
    "[heat]\niron = grey_250\nambient = 20 degC\nfluid = DOT5.1\n";

static struct brake_target target_of(const char *name, enum brake_relation relation, double value)
{
    struct brake_target target = {.relation = relation, .value = value};
    assert_int_equal(brake_output_find(name, &target.output), BRAKE_OK);
    return target;
}

static struct brake_size_question question_of(const char *by, struct brake_target target)
{
    const int index = index_at(&sheet.vehicle, by);
    const struct brake_quantity *q = brake_quantity_at(index);
    return (struct brake_size_question){&sheet, index, q->low, q->high, target};
}

static bool find(const char *by, struct brake_target target)
{
    struct brake_error error;
    const struct brake_size_question question = question_of(by, target);
    assert_int_equal(brake_size_find(&question, NULL, &size, &error), BRAKE_OK);
    return brake_size_answered(&question, &size);
}

static void assert_answer(int i, double value, bool rises)
{
    assert_true(i < size.roots.count);
    assert_near(size.roots.root[i].x, value, 1e-9);
    assert_int_equal(size.roots.root[i].kind, BRAKE_CROSSING);
    assert_int_equal(size.roots.root[i].rises, rises);
}

static void read_plain(const char *more)
{
    read_sheet(&sheet, plus(plain, more));
}

/* (0.8 (d / 20 mm)^2 + 1.8) F = 2750 kg r a */
static double piston_for(double a, double force)
{
    return 0.020 * sqrt((a * 0.4 * 2750.0 / force - 1.8) / 0.8);
}

static void a_piston_for_a_deceleration_goes_with_the_root(void **state)
{
    (void)state;
    read_plain("[driver]\npedal_force = 300 N\n");
    assert_true(find("front.disc.piston_diameter",
                     target_of("full.deceleration.at_pedal_force", BRAKE_EQUAL, 3.0)));
    assert_int_equal(size.roots.count, 1);
    assert_answer(0, piston_for(3.0, 300.0), true);
    assert_near(size.now, 300.0 * 9.0 / 1100.0, 1e-12);
}

/* Past the diameter at which the front axle locks, more front brake locks it earlier: at its share
 * s of the torque (2750 s - 125) a = 0.8 x 2500 (0.44 g + 0.352 a). */
static void a_piston_too_big_locks_the_front_axle(void **state)
{
    (void)state;
    const double a = 5.10;
    const double share = (2000.0 * (0.44 * BRAKE_GRAVITY / a + 0.352) + 125.0) / 2750.0;
    const double ratio = 1.8 * share / (1.0 - share) / 0.8;
    read_plain("[driver]\npedal_force = 300 N\n");
    assert_true(find("front.disc.piston_diameter",
                     target_of("full.deceleration.at_pedal_force", BRAKE_EQUAL, a)));
    assert_int_equal(size.roots.count, 2);
    assert_answer(0, piston_for(a, 300.0), true);
    assert_answer(1, 0.020 * sqrt(ratio), false);
}

/* With adhesion mu: (2750 x - (125 + 880 mu) (x + 1.8)) F / 1100 = 1100 mu g. */
static double where_both_meet(double adhesion, double force)
{
    const double held = 125.0 + 880.0 * adhesion;
    const double x =
        (1100.0 * adhesion * BRAKE_GRAVITY * 1100.0 / force + held * 1.8) / (2750.0 - held);
    return (x + 1.8) * force / 1100.0;
}

/* Where both meet: x = 0.8 (d / 20 mm)^2, (2750 x - 829 (x + 1.8)) 300 / 1100 = 880 g. */
static void with_no_answer_the_best_value_and_the_tyres_are_told(void **state)
{
    (void)state;
    const double x = (880.0 * BRAKE_GRAVITY * 1100.0 / 330.0 + 829.0 * 1.8) / (2750.0 - 829.0);
    read_plain("[driver]\npedal_force = 330 N\n");
    assert_false(find("front.disc.piston_diameter",
                      target_of("full.deceleration.at_pedal_force", BRAKE_EQUAL, 6.0)));
    assert_int_equal(size.roots.count, 0);
    assert_near(size.best, (x + 1.8) * 330.0 / 1100.0, 1e-8);
    assert_near(size.roots.nearest, 0.020 * sqrt(x / 0.8), 1e-7);
    assert_false(size.flat);
    assert_int_equal(size.limits, 2);
    assert_int_equal(size.limit[0].quantity, index_at(NULL, "road.adhesion"));
    assert_string_equal(size.limit[0].words, "the tyres, at the limit of adhesion");
    assert_near(size.limit[0].value, where_both_meet(0.88, 330.0), 1e-7);
    assert_int_equal(size.limit[1].quantity, index_at(NULL, "driver.pedal_force"));
    assert_near(size.limit[1].value, where_both_meet(0.8, 363.0), 1e-7);
}

/* Either of them, a tenth more, reaches the target itself: as they are listed. */
static void limits_that_help_alike_stand_as_they_are_listed(void **state)
{
    (void)state;
    const double wanted = where_both_meet(0.8, 300.0) + 0.01;
    read_plain("[driver]\npedal_force = 300 N\n");
    assert_false(find("front.disc.piston_diameter",
                      target_of("full.deceleration.at_pedal_force", BRAKE_AT_LEAST, wanted)));
    assert_int_equal(size.limits, 2);
    assert_int_equal(size.limit[0].quantity, index_at(NULL, "road.adhesion"));
    assert_int_equal(size.limit[1].quantity, index_at(NULL, "driver.pedal_force"));
    for (int i = 0; i < 2; i++)
        assert_near(size.limit[i].value, wanted, ROUNDING);
}

/* The rod pushes with 4 x 100 N and 200 N of an assist that has run out; a = 9 / 4 of it / 1100 at
 * the end of the range. A tenth more of the foot, 40 N, helps more than of the assist, 20 N, though
 * the assist is listed before. */
static void what_helps_most_stands_first(void **state)
{
    (void)state;
    static const double wanted[] = {2.0, 1.3};
    struct brake_error error;
    read_sheet(&sheet, plus(swapped(plain, "booster = none", "booster = fitted"),
                            "[booster]\ngain = 4\nassist = 200 N\n"
                            "[driver]\npedal_force = 100 N\n"));
    for (int i = 0; i < 2; i++) {
        struct brake_size_question question =
            question_of("front.disc.piston_diameter",
                        target_of("full.deceleration.at_pedal_force", BRAKE_EQUAL, wanted[i]));
        question.high = 0.060;
        assert_int_equal(brake_size_find(&question, NULL, &size, &error), BRAKE_OK);
        assert_near(size.best, 9.0 / 4.0 * 600.0 / 1100.0, 1e-9);
        assert_int_equal(size.limits, 2);
        assert_int_equal(size.limit[0].quantity, index_at(NULL, "driver.pedal_force"));
        assert_int_equal(size.limit[1].quantity, index_at(NULL, "booster.assist"));
        assert_near(size.limit[0].value, fmin(wanted[i], 9.0 / 4.0 * 640.0 / 1100.0), 1e-12);
        assert_near(size.limit[1].value, 9.0 / 4.0 * 620.0 / 1100.0, 1e-9);
    }
}

/* With the largest piston 9 F / 1100, to which a tenth more force adds a tenth: of what is missing
 * a thousandth, or no help, as much as 99.9 or 100.1 times of it are missing. */
static void what_brings_less_than_a_thousandth_nearer_is_no_help(void **state)
{
    (void)state;
    static const double missing[] = {99.9, 100.1};
    struct brake_error error;
    read_plain("[driver]\npedal_force = 300 N\n");
    for (int i = 0; i < 2; i++) {
        const double best = 300.0 * 9.0 / 1100.0;
        struct brake_size_question question = question_of(
            "front.disc.piston_diameter", target_of("full.deceleration.at_pedal_force",
                                                    BRAKE_AT_LEAST, (1.0 + missing[i]) * best));
        question.high = 0.060;
        assert_int_equal(brake_size_find(&question, NULL, &size, &error), BRAKE_OK);
        assert_near(size.best, best, 1e-9);
        assert_int_equal(size.limits, i == 0);
    }
}

/* No piston at all leaves the rear brakes, 1.8 F: what the smallest one adds, that much more. */
static void at_most_with_no_answer_tells_the_least_there_is(void **state)
{
    (void)state;
    read_plain("[driver]\npedal_force = 300 N\n");
    assert_false(find("front.disc.piston_diameter",
                      target_of("full.deceleration.at_pedal_force", BRAKE_AT_MOST, 0.2)));
    const double ratio = size.scan.low / 0.020;
    assert_near(size.best, (0.8 * ratio * ratio + 1.8) * 300.0 / 1100.0, 1e-9);
    assert_near(size.roots.nearest, size.scan.low, 1e-12);
    assert_int_equal(size.limits, 0);
}

/* a = 9 F / r / (m + 250 kg), 10 N: 0.375 m/s2 takes 350 kg, less than axles and wheels. */
static void an_answer_that_is_no_vehicle_is_left_out(void **state)
{
    (void)state;
    read_plain("[driver]\npedal_force = 10 N\n");
    const enum brake_relation relation[] = {BRAKE_EQUAL, BRAKE_AT_LEAST};
    for (int i = 0; i < 2; i++) {
        assert_false(find("vehicle.mass",
                          target_of("empty.deceleration.at_pedal_force", relation[i], 0.375)));
        assert_int_equal(size.roots.count, 0);
        assert_int_equal(size.refused, 1);
        assert_string_equal(size.error.field, "vehicle.unsprung_mass");
    }
}

/* Points are spaced by ratio from a range of fourfold on; a hot requirement takes fewer. */
static void a_range_is_laid_out_by_how_wide_it_is(void **state)
{
    (void)state;
    struct brake_error error;
    static const struct {
        double low, high;
        bool logarithmic;
    } range[] = {{0.020, 0.080, true}, {0.020, 0.0799, false}, {0.0, 0.080, false}};
    read_plain("");
    struct brake_size_question question = question_of(
        "pedal.free_play", target_of("full.deceleration.at_pedal_force", BRAKE_AT_LEAST, 1.0));
    for (int i = 0; i < 3; i++) {
        question.low = range[i].low;
        question.high = range[i].high;
        assert_int_equal(brake_size_find(&question, NULL, &size, &error), BRAKE_OK);
        assert_int_equal(size.scan.logarithmic, range[i].logarithmic);
        assert_true(size.scan.low == range[i].low && size.scan.high == range[i].high);
        assert_int_equal(size.scan.points, BRAKE_SCAN_POINTS);
        assert_int_equal(size.roots.known, BRAKE_SCAN_POINTS);
        assert_true(size.scan.noise == 0.0);
    }
}

/* 65 points and a noise of 1e-4 of the span (reference/method.md, 10). Free play moves no hot stop:
 * all points have the margin of the vehicle as it is. */
static void a_hot_requirement_is_asked_at_fewer_points(void **state)
{
    (void)state;
    read_sheet(&sheet, plus(plain, heat));
    assert_true(find("pedal.free_play", target_of("us.135.hot", BRAKE_AT_LEAST, -0.9)));
    assert_int_equal(size.scan.points, 65);
    assert_true(size.scan.noise == 1e-4);
    assert_int_equal(size.roots.known, 65);
    assert_true(size.flat && size.roots.least == size.roots.most);
    assert_near(size.roots.least, size.now + 0.9, ROUNDING);
}

static void a_search_over_a_range_can_be_stopped(void **state)
{
    (void)state;
    struct brake_error error;
    const volatile sig_atomic_t stop = 1;
    const struct brake_watch watch = {NULL, NULL, &stop};
    read_plain("");
    const struct brake_size_question question =
        question_of("front.disc.piston_diameter",
                    target_of("full.deceleration.at_pedal_force", BRAKE_EQUAL, 1.0));
    assert_int_equal(brake_size_find(&question, &watch, &size, &error), BRAKE_OK);
    assert_true(size.roots.stopped);
    assert_true(size.scan.value == NULL && size.scan.context == NULL);
    assert_int_equal(size.limits, 0);
}

/* Front first, (1800 - 125) a = 0.8 (1000 g + 800 h a + 40 a); rear first, (450 - 125) a = 0.8
 * (1000 g - 800 h a - 40 a); 40 kg of it the wheels. */
static void a_height_for_a_deceleration_at_lock_is_between_two_axles(void **state)
{
    (void)state;
    const double a = 6.0;
    read_plain("");
    assert_true(
        find("vehicle.cg_height", target_of("empty.balance.lock_deceleration", BRAKE_EQUAL, a)));
    assert_int_equal(size.roots.count, 2);
    assert_answer(0, (1643.0 - 800.0 * BRAKE_GRAVITY / a) / 640.0, true);
    assert_answer(1, (800.0 * BRAKE_GRAVITY / a - 357.0) / 640.0, false);
}

/* T = m g r sin(arctan 0.20) */
static void a_parking_torque_for_a_grade(void **state)
{
    (void)state;
    read_plain("[parking]\ntorque = 1000 N*m\n");
    assert_true(
        find("parking.torque", target_of("empty.parking.effort_grade", BRAKE_AT_LEAST, 0.20)));
    assert_int_equal(size.roots.count, 1);
    assert_answer(0, 2000.0 * BRAKE_GRAVITY * 0.4 * sin(atan(0.20)), true);
}

static void a_line_that_is_not_given_is_found_as_well(void **state)
{
    (void)state;
    read_plain("");
    assert_true(isnan(value_at(&sheet, "parking.torque")));
    assert_true(
        find("parking.torque", target_of("empty.parking.effort_grade", BRAKE_AT_LEAST, 0.20)));
    assert_answer(0, 2000.0 * BRAKE_GRAVITY * 0.4 * sin(atan(0.20)), true);
    assert_true(isnan(size.now));
}

static void at_most_turns_the_side_round(void **state)
{
    (void)state;
    read_plain("[driver]\npedal_force = 300 N\n");
    assert_true(find("front.disc.piston_diameter",
                     target_of("full.deceleration.at_pedal_force", BRAKE_AT_MOST, 3.0)));
    assert_answer(0, piston_for(3.0, 300.0), false);
}

/* A worked value follows what it is worked out from: mass from the scales. */
static void a_value_that_was_worked_out_is_set_as_a_given_one(void **state)
{
    (void)state;
    const char *text = swapped(plain, "mass = 2000 kg\nfront_share = 50 %\n", "");
    read_sheet(&sheet, plus(text, "[scales]\nfront_axle = 1000 kg\nrear_axle = 1000 kg\n"));
    assert_true(
        find("vehicle.mass", target_of("empty.deceleration.at_pedal_force", BRAKE_EQUAL, 1.0)));
    assert_answer(0, 150.0 * 9.0 / 0.4 - 250.0, false);
}

/* With 1000 kg more the torque, 9 F of a 60 mm piston, must grow as m + J, which is most in the
 * empty load case: 0.8 (d / 20 mm)^2 + 1.8 = 9 x 3250 / 2250. */
static void what_was_lost_is_regained_by_the_piston_that_gives_it_back(void **state)
{
    (void)state;
    static struct brake_sheet before;
    const struct brake_target target = {
        .wish = BRAKE_WISH_REGAINED, .before = &before, .relation = BRAKE_AT_LEAST};
    read_sheet(&before, plain);
    read_plain("");
    set(&sheet, "vehicle.mass=3000 kg");
    complete(&sheet);
    assert_true(find("front.disc.piston_diameter", target));
    const double needed = 3250.0 / 2250.0 * 9.0;
    assert_answer(0, 0.020 * sqrt((needed - 1.8) / 0.8), true);
    assert_near(size.now, 2250.0 / 3250.0 - 1.0, 1e-12);
}

static void a_criterion_is_met_at_its_answer(void **state)
{
    (void)state;
    struct brake_vehicle vehicle;
    struct brake_judgement judgement;
    struct brake_places places;
    const double wanted[] = {0.0, 0.02};
    brake_places_fill(&places);
    read_sheet(&sheet, swapped(full_text(), "tyre_grip = 1\n", "tyre_grip = 1.4\n"));
    for (int i = 0; i < 2; i++) {
        const struct brake_target target = target_of("us.135.cold", BRAKE_AT_LEAST, wanted[i]);
        assert_true(find("front.tyre.rolling_radius", target));
        assert_true(size.roots.count > 0);
        brake_sheet_vary(&sheet, &places, index_at(NULL, "front.tyre.rolling_radius"),
                         size.roots.root[size.roots.count - 1].x, &vehicle);
        brake_judge(brake_criterion_at(target.output.index), &vehicle, &judgement);
        assert_true(judgement.margin >= wanted[i] && judgement.margin < wanted[i] + 1e-9);
        assert_false(size.roots.root[size.roots.count - 1].rises);
    }
}

static void a_quantity_that_does_not_matter_is_told(void **state)
{
    (void)state;
    read_plain("");
    assert_false(find("stop.reaction_time",
                      target_of("full.deceleration.at_pedal_force", BRAKE_EQUAL, 3.0)));
    assert_true(size.flat);
    assert_near(size.best, 150.0 * 9.0 / 1100.0, 1e-12);
}

/* A result that moves by a billionth of itself or less stands still: of 9 F / 1100 the front
 * pistons give 7.2, which goes with the square of their diameter. */
static void less_than_a_billionth_is_no_move(void **state)
{
    (void)state;
    struct brake_error error;
    read_plain("[driver]\npedal_force = 300 N\n");
    static const double moves[] = {0.9e-9, 1.1e-9};
    const char *names[] = {"full.deceleration.at_pedal_force", "full.stop.distance"};
    for (int k = 0; k < 2; k++) {
        for (int i = 0; i < 2; i++) {
            struct brake_size_question question =
                question_of("front.disc.piston_diameter", target_of(names[k], BRAKE_AT_LEAST, 0.0));
            question.low = 0.060;
            question.high = 0.060 * (1.0 + moves[i] * 9.0 / 7.2 / 2.0);
            if (k == 1) { /* part of the distance is that of the reaction */
                struct brake_size_question wide = question;
                wide.high = 0.060 * (1.0 + 1e-5);
                assert_int_equal(brake_size_find(&wide, NULL, &size, &error), BRAKE_OK);
                question.high = 0.060 * (1.0 + moves[i] * 1e-5 * size.roots.most /
                                                   (size.roots.most - size.roots.least));
            }
            assert_int_equal(brake_size_find(&question, NULL, &size, &error), BRAKE_OK);
            assert_int_equal(size.flat, i == 0);
        }
    }
}

/* What is nothing everywhere, as the shoes of a vehicle that has discs alone take no fluid. */
static void nothing_is_no_move(void **state)
{
    (void)state;
    read_plain("");
    assert_true(find("pedal.free_play", target_of("full.fluid.shoes", BRAKE_AT_LEAST, 0.0)));
    assert_true(size.flat);
    assert_true(size.roots.least == 0.0 && size.roots.most == 0.0);
}

/* What is answered everywhere is limited by nothing, though more of something would bring it nearer
 * to the target. */
static void an_answer_has_no_limits(void **state)
{
    (void)state;
    read_plain("");
    assert_true(find("stop.reaction_time",
                     target_of("full.deceleration.at_pedal_force", BRAKE_AT_MOST, 20.0)));
    assert_int_equal(size.roots.count, 0);
    assert_int_equal(size.limits, 0);
}

/* With no place where both meet: every one is enough, or none is, or what was found is refused. */
static void without_a_root_all_is_enough_or_nothing(void **state)
{
    (void)state;
    const struct brake_size_question question = {.target = {.relation = BRAKE_AT_LEAST}};
    struct brake_size none = {.roots = {.count = 0, .shortest = 0.5}};
    assert_true(brake_size_answered(&question, &none));
    none.roots.shortest = 0.0;
    assert_true(brake_size_answered(&question, &none));
    none.roots.shortest = -0.5;
    assert_false(brake_size_answered(&question, &none));
    none.roots.shortest = 0.5;
    none.refused = 1;
    assert_false(brake_size_answered(&question, &none));
}

static void any_value_may_do(void **state)
{
    (void)state;
    read_plain("");
    assert_true(find("stop.reaction_time",
                     target_of("full.deceleration.at_pedal_force", BRAKE_AT_LEAST, 1.0)));
    assert_int_equal(size.roots.count, 0);
    assert_int_equal(size.limits, 0);
    const double now = size.now;
    assert_true(find("stop.reaction_time",
                     target_of("full.deceleration.at_pedal_force", BRAKE_AT_LEAST, now)));
    assert_int_equal(size.limits, 0);
}

/* Leapt over is not met, but beyond the leap there is enough (reference/method.md, 10). */
static void a_leap_answers_a_limit_and_no_equality(void **state)
{
    (void)state;
    struct brake_size leap = {.roots = {.count = 1, .shortest = -1.0}};
    struct brake_size_question question = {.by = 0};
    const enum brake_relation relation[] = {BRAKE_EQUAL, BRAKE_AT_LEAST, BRAKE_AT_MOST};
    for (int i = 0; i < 3; i++) {
        question.target.relation = relation[i];
        leap.roots.root[0].kind = BRAKE_JUMP;
        assert_int_equal(brake_size_answered(&question, &leap), relation[i] != BRAKE_EQUAL);
        leap.roots.root[0].kind = BRAKE_TOUCH;
        assert_true(brake_size_answered(&question, &leap));
    }
}

/* A drive told of the pads: what is wanted is held against them, what is to be regained is not. */
static void only_what_is_regained_takes_the_lines_as_they_stand(void **state)
{
    (void)state;
    static struct brake_sheet settled;
    static struct brake_inputs inputs;
    struct brake_target target[2] = {{.wish = BRAKE_WISH_ALL}, {.wish = BRAKE_WISH_REGAINED}};
    const int mu = index_at(NULL, "front.disc.pads.mu");
    int told = 0;
    read_plain("");
    brake_inputs_list(&sheet, NULL, &inputs);
    while (told < inputs.count && inputs.input[told].index != mu)
        told++;
    assert_true(told < inputs.count);
    sheet.known.count = 1;
    sheet.known.of[0] = known_of(&inputs, told);
    sheet.known.of[0].shift = -1.0;
    brake_target_settle(&sheet, target, 1, &settled);
    assert_true(value_at(&settled, "front.disc.pads.mu") < 0.399);
    for (int last = 0; last < 2; last++) {
        brake_target_settle(&sheet, &target[1 - last], 1 + last, &settled);
        assert_true(value_at(&settled, "front.disc.pads.mu") == 0.4);
    }
    target[0].wish = BRAKE_WISH_REGAINED;
    target[1].wish = BRAKE_WISH_ALL;
    brake_target_settle(&sheet, target, 2, &settled);
    assert_true(value_at(&settled, "front.disc.pads.mu") == 0.4);
    memset(&sheet.known, 0, sizeof sheet.known);
}

static void what_needs_a_missing_line_cannot_be_said(void **state)
{
    (void)state;
    read_plain("");
    assert_false(find("road.adhesion", target_of("full.pedal.travel_used", BRAKE_AT_MOST, 0.7)));
    assert_int_equal(size.roots.known, 0);
    assert_true(isnan(size.now));
}

static void a_line_of_another_brake_is_refused(void **state)
{
    (void)state;
    struct brake_error error;
    read_plain("");
    const struct brake_size_question question =
        question_of("front.drum.diameter", target_of("full.stop.distance", BRAKE_AT_MOST, 60.0));
    assert_true(brake_size_find(&question, NULL, &size, &error) != BRAKE_OK);
    assert_string_equal(error.field, "front.drum.diameter");
}

static void changes_are_those_of_judging_again(void **state)
{
    (void)state;
    struct brake_size_change told[BRAKE_CRITERIA];
    struct brake_judgement before[BRAKE_CRITERIA];
    struct brake_judgement after[BRAKE_CRITERIA];
    const int by = index_at(NULL, "front.disc.piston_diameter");
    read_sheet(&sheet, full_text());
    const struct brake_conformance_options options = {BRAKE_RULES_OWN, false, NULL};
    static struct brake_conformances conformance;
    const int count = brake_size_changes(&sheet, by, 0.030, BRAKE_RULES_OWN, &room, told);
    brake_judge_all(BRAKE_RULES_OWN, &sheet.vehicle, before);
    assert_true(brake_conformance_draw(&sheet, &options, &room, before, &conformance));
    change(&sheet, "front.disc.piston_diameter=30 mm");
    brake_judge_all(BRAKE_RULES_OWN, &sheet.vehicle, after);
    assert_true(brake_conformance_draw(&sheet, &options, &room, after, &conformance));
    int next = 0;
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (after[i].scope == BRAKE_OUTSIDE || before[i].verdict == after[i].verdict)
            continue;
        assert_true(next < count);
        assert_int_equal(told[next].criterion, i);
        assert_int_equal(told[next].from, before[i].verdict);
        assert_int_equal(told[next].to, after[i].verdict);
        assert_true(told[next].margin == after[i].margin || isnan(after[i].margin));
        next++;
    }
    assert_int_equal(next, count);
    assert_true(count > 0);
    assert_int_equal(brake_size_changes(&sheet, by, 100.0, BRAKE_RULES_OWN, &room, told), 0);
}

/* A pedal that comes down to the floor: the first of all criteria. */
static void the_first_criterion_changes_too(void **state)
{
    (void)state;
    struct brake_size_change told[BRAKE_CRITERIA];
    read_sheet(&sheet, full_text());
    const int by = index_at(NULL, "pedal.travel");
    const int count = brake_size_changes(&sheet, by, 0.050, BRAKE_RULES_OWN, &room, told);
    assert_true(count > 0);
    assert_int_equal(told[0].criterion, 0);
    assert_int_equal(told[0].criterion, criterion_number("hazard.floor"));
    assert_int_equal(told[0].from, BRAKE_MEETS);
    assert_int_equal(told[0].to, BRAKE_FALLS_SHORT);
}

static void a_margin_is_over_what_is_wanted(void **state)
{
    (void)state;
    struct brake_target target = target_of("full.stop.distance", BRAKE_AT_MOST, 60.0);
    assert_near(brake_target_margin(&target, 45.0), 0.25, ROUNDING);
    target.relation = BRAKE_AT_LEAST;
    assert_near(brake_target_margin(&target, 45.0), -0.25, ROUNDING);
    target = target_of("us.135.cold", BRAKE_AT_LEAST, 0.10);
    assert_near(brake_target_margin(&target, 0.25), 0.15, ROUNDING);
    const enum brake_wish margins[] = {BRAKE_WISH_ALL, BRAKE_WISH_REGAINED};
    for (int i = 0; i < 2; i++) {
        target =
            (struct brake_target){.wish = margins[i], .relation = BRAKE_AT_LEAST, .value = 0.1};
        assert_near(brake_target_margin(&target, 0.25), 0.15, ROUNDING);
    }
    target = target_of("full.stop.distance", BRAKE_AT_LEAST, -0.5);
    assert_near(brake_target_margin(&target, 0.25), 1.5, ROUNDING);
    target.value = 0.0; /* of nothing there is no share */
    assert_near(brake_target_margin(&target, 0.25), 0.25, ROUNDING);
}

static void hold_least_margin(unsigned rules)
{
    struct brake_judgement judgement[BRAKE_CRITERIA];
    const struct brake_target target = {.wish = BRAKE_WISH_ALL, .rules = rules};
    brake_judge_all(rules, &sheet.vehicle, judgement);
    const double least = brake_target_value(&target, &sheet.vehicle);
    bool found = false;
    for (int i = 0; i < brake_criterion_count(); i++) {
        const bool asked =
            judgement[i].scope != BRAKE_OUTSIDE && judgement[i].scope != BRAKE_SCREEN;
        assert_false(asked && judgement[i].margin < least);
        found = found || (asked && judgement[i].margin == least);
    }
    assert_true(found);
}

static void every_requirement_is_the_one_of_least_margin(void **state)
{
    (void)state;
    read_sheet(&sheet, full_text());
    hold_least_margin(BRAKE_RULES_OWN);
    hold_least_margin(BRAKE_RULES_ALL);
}

/* A screen asks for nothing: rear brakes that lock first by far have the least margin of all there,
 * and it is passed over. */
static void a_screen_is_no_requirement(void **state)
{
    (void)state;
    struct brake_judgement judgement[BRAKE_CRITERIA];
    const struct brake_target target = {.wish = BRAKE_WISH_ALL, .rules = BRAKE_RULES_OWN};
    const int screen = criterion_number("us.135.lock_order");
    read_sheet(&sheet, strong_text());
    change(&sheet, "rear.disc.piston_diameter=70 mm");
    brake_judge_all(BRAKE_RULES_OWN, &sheet.vehicle, judgement);
    assert_int_equal(judgement[screen].scope, BRAKE_SCREEN);
    assert_true(judgement[screen].margin < brake_target_value(&target, &sheet.vehicle));
    hold_least_margin(BRAKE_RULES_OWN);
}

/* ---- lists ---------------------------------------------------------------------------------- */

static const double pistons[] = {0.050, 0.060, 0.070};
static const double bores[] = {0.018, 0.020, 0.022};

static double deceleration_with(double piston, double bore)
{
    const double over = 0.020 / bore;
    return 150.0 * (0.8 * piston * piston / 0.0004 + 1.8) * over * over / 1100.0;
}

static void combinations_that_work_are_sorted_and_the_others_counted(void **state)
{
    (void)state;
    struct brake_choice choice[9];
    struct brake_choice_count count;
    read_plain("");
    const struct brake_size_list list[] = {
        {index_at(NULL, "front.disc.piston_diameter"), pistons, 3},
        {index_at(NULL, "master.bore"), bores, 3}};
    const struct brake_target target[] = {
        target_of("full.deceleration.at_pedal_force", BRAKE_AT_LEAST, 1.3)};
    const struct brake_choice_question question = {&sheet, list, 2, target, 1};
    int works = 0;
    for (int i = 0; i < 9; i++)
        works += deceleration_with(pistons[i / 3], bores[i % 3]) >= 1.3;
    const int kept = brake_choose(&question, NULL, choice, 9, &count);
    assert_int_equal(kept, works);
    assert_int_equal(count.cases, 9);
    assert_int_equal(count.works, works);
    assert_int_equal(count.fails[0], 9 - works);
    assert_true(works > 2 && works < 9);
    for (int i = 0; i < kept; i++) {
        const double a = deceleration_with(choice[i].value[0], choice[i].value[1]);
        assert_near(choice[i].got[0], a, 1e-12);
        assert_near(choice[i].margin, a / 1.3 - 1.0, 1e-9);
        assert_true(i == 0 || choice[i].margin <= choice[i - 1].margin);
    }
    assert_near(choice[0].value[0], 0.070, ROUNDING);
    assert_near(choice[0].value[1], 0.018, ROUNDING);
    const double second = choice[1].margin;
    choice[2].margin = -1.0;
    assert_int_equal(brake_choose(&question, NULL, choice, 2, &count), 2);
    assert_near(choice[0].value[1], 0.018, ROUNDING);
    assert_near(choice[1].margin, second, ROUNDING);
    assert_true(choice[2].margin == -1.0); /* there is no room for it */
    assert_int_equal(count.works, works);
}

/* The smaller the bore, the larger the margin: each comes before all that were tried. */
static void the_best_may_come_last(void **state)
{
    (void)state;
    static const double falling[] = {0.022, 0.021, 0.020, 0.018};
    struct brake_choice choice[4];
    struct brake_choice_count count;
    read_plain("");
    const struct brake_size_list list[] = {{index_at(NULL, "master.bore"), falling, 4}};
    const struct brake_target target[] = {
        target_of("full.deceleration.at_pedal_force", BRAKE_AT_LEAST, 1.0)};
    const struct brake_choice_question question = {&sheet, list, 1, target, 1};
    for (int room_for = 1; room_for <= 4; room_for++) {
        assert_int_equal(brake_choose(&question, NULL, choice, room_for, &count), room_for);
        for (int i = 0; i < room_for; i++)
            assert_near(choice[i].value[0], falling[3 - i], ROUNDING);
    }
}

static void targets_that_pull_apart_leave_the_middle(void **state)
{
    (void)state;
    struct brake_choice choice[9];
    struct brake_choice_count count;
    read_plain("");
    const struct brake_size_list list[] = {{index_at(NULL, "master.bore"), bores, 3}};
    const struct brake_target target[] = {
        target_of("full.deceleration.at_pedal_force", BRAKE_AT_LEAST, 1.1),
        target_of("full.deceleration.at_pedal_force", BRAKE_AT_MOST, 1.4)};
    const struct brake_choice_question question = {&sheet, list, 1, target, 2};
    assert_int_equal(brake_choose(&question, NULL, choice, 9, &count), 1);
    assert_near(choice[0].value[0], 0.020, ROUNDING);
    assert_int_equal(count.fails[0], 1);              /* 22 mm: 1.014 m/s2 */
    assert_int_equal(count.fails[1], 1);              /* 18 mm: 1.515 m/s2 */
    const double a = deceleration_with(0.060, 0.020); /* 1.227 */
    assert_near(choice[0].margin, a / 1.1 - 1.0, 1e-9);
    assert_int_equal(choice[0].least, 0);
}

/* A list of targets may be longer than what is asked of it. */
static void only_the_targets_that_are_asked_for_count(void **state)
{
    (void)state;
    struct brake_choice choice[3];
    struct brake_choice_count count;
    read_plain("");
    const struct brake_size_list list[] = {{index_at(NULL, "master.bore"), bores, 3}};
    const struct brake_target target[] = {
        target_of("full.deceleration.at_pedal_force", BRAKE_AT_LEAST, 1.1),
        target_of("full.deceleration.at_pedal_force", BRAKE_AT_LEAST, 100.0)};
    const struct brake_choice_question question = {&sheet, list, 1, target, 1};
    assert_int_equal(brake_choose(&question, NULL, choice, 3, &count), 2);
    assert_int_equal(count.fails[0], 1); /* 22 mm: 1.014 m/s2 */
    assert_int_equal(count.fails[1], 0);
}

/* A line that moves nothing: the first of a list stands first. What is met to the bit is met. */
static void of_equals_the_earlier_stands_first(void **state)
{
    (void)state;
    struct brake_choice choice[3];
    struct brake_choice_count count;
    read_plain("");
    const struct brake_size_list list[] = {{index_at(NULL, "pedal.free_play"), bores, 3}};
    struct brake_target target[] = {
        target_of("full.deceleration.at_pedal_force", BRAKE_AT_LEAST, 0.0),
        target_of("full.deceleration.at_pedal_force", BRAKE_AT_MOST, 0.0)};
    target[0].value = target[1].value = brake_target_value(&target[0], &sheet.vehicle);
    const struct brake_choice_question question = {&sheet, list, 1, target, 2};
    assert_int_equal(brake_choose(&question, NULL, choice, 3, &count), 3);
    for (int i = 0; i < 3; i++) {
        assert_near(choice[i].value[0], bores[i], ROUNDING);
        assert_true(choice[i].margin == 0.0);
        assert_int_equal(choice[i].least, 0);
    }
    assert_int_equal(count.works, 3);
    assert_int_equal(count.fails[0], 0);
}

/* No travel of the pedal is told: how much of it is used cannot be said. */
static void a_target_that_cannot_be_said_is_counted(void **state)
{
    (void)state;
    struct brake_choice choice[3];
    struct brake_choice_count count;
    read_plain("");
    const struct brake_size_list list[] = {{index_at(NULL, "master.bore"), bores, 3}};
    const struct brake_target target[] = {
        target_of("full.deceleration.at_pedal_force", BRAKE_AT_LEAST, 1.1),
        target_of("full.pedal.travel_used", BRAKE_AT_MOST, 0.7)};
    const struct brake_choice_question question = {&sheet, list, 1, target, 2};
    assert_int_equal(brake_choose(&question, NULL, choice, 3, &count), 0);
    assert_int_equal(count.unknown, 3);
    assert_int_equal(count.works, 0);
    assert_int_equal(count.refused, 0);
    assert_int_equal(count.fails[0], 1); /* 22 mm: 1.014 m/s2 */
    assert_int_equal(count.fails[1], 0);
}

static void the_first_refusal_is_told(void **state)
{
    (void)state;
    static const double heights[] = {-1.0, 0.8};
    static const double drums[] = {0.25, 0.28, 0.30};
    struct brake_choice choice[6];
    struct brake_choice_count count;
    read_plain("");
    const struct brake_size_list list[] = {{index_at(NULL, "rear.drum.diameter"), drums, 3},
                                           {index_at(NULL, "vehicle.cg_height"), heights, 2}};
    const struct brake_target target[] = {target_of("full.stop.distance", BRAKE_AT_MOST, 500.0)};
    const struct brake_choice_question question = {&sheet, list, 2, target, 1};
    assert_int_equal(brake_choose(&question, NULL, choice, 6, &count), 0);
    assert_int_equal(count.cases, 6);
    assert_int_equal(count.refused, 6);
    assert_int_equal(count.error.status, BRAKE_E_RANGE);
    assert_string_equal(count.error.field, "");
}

struct told {
    int calls;
    double total;
};

static void tell(void *context, double done, double total)
{
    struct told *told = context;
    told->calls++;
    assert_true(done == (double)told->calls);
    assert_true(total == told->total);
}

static void every_case_and_tyre_is_told(void **state)
{
    (void)state;
    struct brake_choice choice[6];
    struct brake_tyre_choice tyre[2];
    struct brake_choice_count count;
    static const char *const marking[] = {"195/80R15", "LT265/75R16"};
    struct told told = {.total = 6.0};
    const struct brake_watch watch = {tell, &told, NULL};
    read_plain("");
    const struct brake_size_list list[] = {
        {index_at(NULL, "front.disc.piston_diameter"), pistons, 3},
        {index_at(NULL, "master.bore"), bores, 2}};
    const struct brake_target target[] = {target_of("full.stop.distance", BRAKE_AT_MOST, 500.0)};
    const struct brake_choice_question question = {&sheet, list, 2, target, 1};
    (void)brake_choose(&question, &watch, choice, 6, &count);
    assert_int_equal(told.calls, 6);
    told = (struct told){.total = 2.0};
    assert_true(brake_choose_tyres(&question, marking, 2, &watch, tyre));
    assert_int_equal(told.calls, 2);
}

static void combinations_that_are_no_vehicle_are_counted_apart(void **state)
{
    (void)state;
    struct brake_choice choice[3];
    struct brake_choice_count count;
    read_plain("");
    const struct brake_size_list list[] = {{index_at(NULL, "rear.drum.diameter"), bores, 3}};
    const struct brake_target target[] = {target_of("full.stop.distance", BRAKE_AT_MOST, 500.0)};
    const struct brake_choice_question question = {&sheet, list, 1, target, 1};
    assert_int_equal(brake_choose(&question, NULL, choice, 3, &count), 0);
    assert_int_equal(count.refused, 3);
    assert_int_equal(count.works + count.fails[0] + count.unknown, 0);
}

static void a_search_can_be_stopped(void **state)
{
    (void)state;
    struct brake_choice choice[3];
    struct brake_choice_count count;
    volatile sig_atomic_t stop = 1;
    const struct brake_watch watch = {NULL, NULL, &stop};
    read_plain("");
    const struct brake_size_list list[] = {{index_at(NULL, "master.bore"), bores, 3}};
    const struct brake_target target[] = {target_of("full.stop.distance", BRAKE_AT_MOST, 500.0)};
    const struct brake_choice_question question = {&sheet, list, 1, target, 1};
    (void)brake_choose(&question, &watch, choice, 3, &count);
    assert_true(count.stopped);
    assert_int_equal(count.cases, 1);
}

static void a_search_among_tyres_can_be_stopped(void **state)
{
    (void)state;
    struct brake_tyre_choice tyre[1];
    const volatile sig_atomic_t stop = 1;
    const struct brake_watch watch = {NULL, NULL, &stop};
    static const char *const marking[] = {"195/80R15"};
    read_plain("");
    const struct brake_target target[] = {target_of("full.stop.distance", BRAKE_AT_MOST, 500.0)};
    const struct brake_choice_question question = {.sheet = &sheet, .target = target, .targets = 1};
    assert_false(brake_choose_tyres(&question, marking, 1, &watch, tyre));
    assert_true(brake_choose_tyres(&question, marking, 1, NULL, tyre));
}

/* ---- tyres ---------------------------------------------------------------------------------- */

static const char *const markings[] = {"35x12.50R17LT", "no tyre", "LT265/75R16", "195/80R15"};

/* Outer diameter d + 2 S A (UN R54, 6.1.2), 3.05 D for a turn: a = 9 F / r / (2500 + 40 / r^2). */
static void tyres_are_sorted_and_change_both_axles(void **state)
{
    (void)state;
    struct brake_tyre_choice tyre[4];
    const double diameter[] = {0.381 + 2.0 * 0.195 * 0.80, 0.406 + 2.0 * 0.265 * 0.75,
                               35.0 * 0.0254};
    read_plain("[rear.tyre]\nrolling_radius = 400 mm\nwheel_inertia = 10 kg*m2\n");
    const struct brake_target target[] = {
        target_of("full.deceleration.at_pedal_force", BRAKE_AT_LEAST, 1.2),
        target_of("empty.cg.height", BRAKE_AT_MOST, 0.9)};
    const struct brake_choice_question question = {.sheet = &sheet, .target = target, .targets = 2};
    brake_choose_tyres(&question, markings, 4, NULL, tyre);
    for (int i = 0; i < 3; i++) {
        const double r = 3.05 * diameter[i] / (2.0 * BRAKE_PI);
        assert_int_equal(tyre[i].error.status, BRAKE_OK);
        assert_near(tyre[i].diameter, diameter[i], ROUNDING);
        assert_near(tyre[i].rollout, 3.05 * diameter[i], ROUNDING);
        assert_near(tyre[i].got[0], 9.0 * 150.0 / r / (2500.0 + 40.0 / (r * r)), 1e-12);
        assert_near(tyre[i].got[1], 0.8 + (diameter[i] - 0.8) / 2.0, 1e-12);
    }
    assert_string_equal(tyre[3].marking, "no tyre");
    assert_true(tyre[3].error.status == BRAKE_E_MARKING && isnan(tyre[3].margin));
    assert_true(tyre[1].margin >= 0.0 && tyre[2].margin < 0.0);
}

static void what_was_measured_on_the_old_tyre_is_left_out(void **state)
{
    (void)state;
    struct brake_tyre_choice tyre[1];
    const char *text = swapped(plain, "rolling_radius = 400 mm\noverall_diameter = 800 mm\n",
                               "marking = LT265/75R16\nrollout = 2.40 m\n");
    read_sheet(&sheet, text);
    const struct brake_target target[] = {target_of("full.stop.distance", BRAKE_AT_MOST, 500.0)};
    const struct brake_choice_question question = {.sheet = &sheet, .target = target, .targets = 1};
    brake_choose_tyres(&question, markings, 1, NULL, tyre);
    assert_int_equal(tyre[0].error.status, BRAKE_OK);
    assert_near(tyre[0].rollout, 3.05 * 35.0 * 0.0254, ROUNDING);
}

/* Of one diameter, 0.406 m + 2 x 0.265 m x 0.75: as they were given; refused ones last. */
static void tyres_of_one_diameter_stay_as_they_were_given(void **state)
{
    (void)state;
    static const char *const given[] = {"no tyre", "LT265/75R16 112Q", "no wheel",
                                        "LT265/75R16 100Q", "195/80R15"};
    static const int sorted[] = {4, 1, 3, 0, 2};
    struct brake_tyre_choice tyre[5];
    read_plain("");
    const struct brake_target target[] = {target_of("full.stop.distance", BRAKE_AT_MOST, 500.0)};
    const struct brake_choice_question question = {.sheet = &sheet, .target = target, .targets = 1};
    assert_true(brake_choose_tyres(&question, given, 5, NULL, tyre));
    for (int i = 0; i < 5; i++)
        assert_string_equal(tyre[i].marking, given[sorted[i]]);
    assert_int_equal(tyre[0].least, 0);
    assert_int_equal(tyre[4].least, -1);
}

/* Nothing that was told of the old tyres is told of the new ones. */
static void a_tyre_that_is_fitted_takes_its_own_lines(void **state)
{
    (void)state;
    static const char *const old[] = {"front.tyre.rollout", "front.tyre.rolling_radius",
                                      "front.tyre.overall_diameter", "front.tyre.load_capacity",
                                      "front.tyre.speed_limit"};
    read_only(&sheet, plus(plain, "[front.tyre]\nrollout = 2.4 m\nload_capacity = 800 kg\n"
                                  "speed_limit = 170 km/h\n"));
    brake_tyre_fit(&sheet, BRAKE_FRONT, "LT265/75R16");
    for (int i = 0; i < 5; i++) {
        assert_nan(value_at(&sheet, old[i]));
        assert_int_equal(record_at(&sheet, old[i])->from, BRAKE_ABSENT);
    }
    assert_string_equal(sheet.vehicle.axle[BRAKE_FRONT].tyre.marking, "LT265/75R16");
    assert_int_equal(record_at(&sheet, "front.tyre.marking")->from, BRAKE_CATALOGUE);
    assert_true(record_at(&sheet, "front.tyre.marking")->set);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_piston_for_a_deceleration_goes_with_the_root),
        cmocka_unit_test(a_piston_too_big_locks_the_front_axle),
        cmocka_unit_test(with_no_answer_the_best_value_and_the_tyres_are_told),
        cmocka_unit_test(limits_that_help_alike_stand_as_they_are_listed),
        cmocka_unit_test(what_helps_most_stands_first),
        cmocka_unit_test(what_brings_less_than_a_thousandth_nearer_is_no_help),
        cmocka_unit_test(at_most_with_no_answer_tells_the_least_there_is),
        cmocka_unit_test(an_answer_that_is_no_vehicle_is_left_out),
        cmocka_unit_test(a_range_is_laid_out_by_how_wide_it_is),
        cmocka_unit_test(a_hot_requirement_is_asked_at_fewer_points),
        cmocka_unit_test(a_search_over_a_range_can_be_stopped),
        cmocka_unit_test(a_height_for_a_deceleration_at_lock_is_between_two_axles),
        cmocka_unit_test(a_parking_torque_for_a_grade),
        cmocka_unit_test(a_line_that_is_not_given_is_found_as_well),
        cmocka_unit_test(at_most_turns_the_side_round),
        cmocka_unit_test(a_value_that_was_worked_out_is_set_as_a_given_one),
        cmocka_unit_test(what_was_lost_is_regained_by_the_piston_that_gives_it_back),
        cmocka_unit_test(a_criterion_is_met_at_its_answer),
        cmocka_unit_test(a_quantity_that_does_not_matter_is_told),
        cmocka_unit_test(less_than_a_billionth_is_no_move),
        cmocka_unit_test(nothing_is_no_move),
        cmocka_unit_test(an_answer_has_no_limits),
        cmocka_unit_test(without_a_root_all_is_enough_or_nothing),
        cmocka_unit_test(any_value_may_do),
        cmocka_unit_test(a_leap_answers_a_limit_and_no_equality),
        cmocka_unit_test(only_what_is_regained_takes_the_lines_as_they_stand),
        cmocka_unit_test(what_needs_a_missing_line_cannot_be_said),
        cmocka_unit_test(a_line_of_another_brake_is_refused),
        cmocka_unit_test(changes_are_those_of_judging_again),
        cmocka_unit_test(the_first_criterion_changes_too),
        cmocka_unit_test(a_margin_is_over_what_is_wanted),
        cmocka_unit_test(every_requirement_is_the_one_of_least_margin),
        cmocka_unit_test(a_screen_is_no_requirement),
        cmocka_unit_test(combinations_that_work_are_sorted_and_the_others_counted),
        cmocka_unit_test(the_best_may_come_last),
        cmocka_unit_test(targets_that_pull_apart_leave_the_middle),
        cmocka_unit_test(only_the_targets_that_are_asked_for_count),
        cmocka_unit_test(of_equals_the_earlier_stands_first),
        cmocka_unit_test(a_target_that_cannot_be_said_is_counted),
        cmocka_unit_test(the_first_refusal_is_told),
        cmocka_unit_test(every_case_and_tyre_is_told),
        cmocka_unit_test(combinations_that_are_no_vehicle_are_counted_apart),
        cmocka_unit_test(a_search_can_be_stopped),
        cmocka_unit_test(a_search_among_tyres_can_be_stopped),
        cmocka_unit_test(tyres_are_sorted_and_change_both_axles),
        cmocka_unit_test(what_was_measured_on_the_old_tyre_is_left_out),
        cmocka_unit_test(tyres_of_one_diameter_stay_as_they_were_given),
        cmocka_unit_test(a_tyre_that_is_fitted_takes_its_own_lines),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
