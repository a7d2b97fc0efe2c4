/* SPDX-License-Identifier: MIT */
/* Two vehicles side by side, number by number: what is held, torque over need, which load case is
 * the worse, what was lost, who is told. Vehicles are those of ../vehicle/sheet.h. */
#include <stdlib.h>

#include "../vehicle/sheet.h"

#include "brake/before.h"
#include "brake/compare.h"
#include "brake/evaluate.h"
#include "criteria/judge.h"
#include "criteria/scope.h"
#include "study/change.h"
#include "study/comparing.h"
#include "study/conformance.h"
#include "vehicle/system.h"

static struct brake_sheet before;
static struct brake_sheet after;
static struct brake_comparison c;
static struct brake_before loss;

static void compare_texts(const char *one, const char *other)
{
    read_sheet(&before, one);
    read_sheet(&after, other);
    brake_compare(&before, &after, BRAKE_RULES_ALL, &c);
}

static bool is_held(const char *name)
{
    for (int i = 0; i < c.margins; i++) {
        char found[80];
        brake_output_name(c.output[i], found, sizeof found);
        if (strcmp(found, name) == 0)
            return true;
    }
    return false;
}

/* Requirements, margins and the headlines of compare.c; nothing else, and nothing that neither
 * vehicle has. */
static void margins_and_headlines_are_held_and_nothing_else(void **state)
{
    (void)state;
    static const char *const held[] = {"full.deceleration.most",
                                       "full.deceleration.at_pedal_force",
                                       "empty.stop.distance",
                                       "full.parking.margin",
                                       "empty.balance.lock_deceleration",
                                       "full.parking.effort_grade",
                                       "us.135.cold"};
    static const char *const others[] = {"empty.mass.total", "full.mass.total",
                                         "full.torque.front_needed", "full.cg.height"};
    memset(&c, 1, sizeof c); /* whatever stood there is not in the list any more */
    compare_texts(full_text(), full_text());
    for (size_t i = 0; i < sizeof held / sizeof held[0]; i++) {
        if (!is_held(held[i]))
            print_error("%s\n", held[i]);
        assert_true(is_held(held[i]));
    }
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        assert_false(is_held(others[i]));
    int next = 0; /* each once, in the order of all outputs */
    for (int i = 0; i < c.margins; i++, next++) {
        while (next < brake_output_count() &&
               (brake_output_at(next).criterion != c.output[i].criterion ||
                brake_output_at(next).index != c.output[i].index))
            next++;
        assert_true(next < brake_output_count());
    }
    compare_texts(plain, plain);
    assert_false(is_held("full.parking.margin"));
    for (int i = 0; i < c.margins; i++)
        assert_true(c.output[i].criterion || !isnan(c.margin[i].before));
}

/* ---- like for like --------------------------------------------------------------------------- */

static void torque_is_told_over_what_is_needed(void **state)
{
    (void)state;
    static struct brake_results results;
    double like[BRAKE_LOADS][BRAKE_AXLES + 1];
    struct brake_case_results *empty = &results.load[BRAKE_EMPTY];
    struct brake_case_results *full = &results.load[BRAKE_FULL];
    empty->torque.front_available = 3000.0;
    empty->torque.front_needed = 2000.0;
    empty->torque.rear_available = 500.0;
    empty->torque.rear_needed = 800.0;
    full->torque.front_available = 0.3;
    full->torque.front_needed = 0.4;
    full->torque.rear_available = 700.0;
    full->torque.rear_needed = 0.0; /* it bears nothing */
    brake_torque_over_need(&results, like);
    assert_near(like[BRAKE_EMPTY][BRAKE_FRONT], 1.5, ROUNDING);
    assert_near(like[BRAKE_EMPTY][BRAKE_REAR], 0.625, ROUNDING);
    assert_near(like[BRAKE_EMPTY][BRAKE_BOTH_AXLES], 1.25, ROUNDING);
    assert_near(like[BRAKE_FULL][BRAKE_FRONT], 0.75, ROUNDING);
    assert_nan(like[BRAKE_FULL][BRAKE_REAR]);
}

static double missing(double had, double has)
{
    const struct brake_compared like = {.before = had, .after = has};
    return brake_like_missing(&like);
}

static void what_is_missing_is_over_what_was(void **state)
{
    (void)state;
    assert_near(missing(1.6, 1.2), 0.25, 1e-12);
    assert_true(missing(1.6, 1.7) == 0.0);
    assert_true(missing(1.0, 1.0 - 1e-10) == 0.0); /* rounding */
    assert_within(missing(1.0, 1.0 - 1e-7), 1e-7, 1e-12);
    assert_true(missing(0.0, 1.0) == 0.0);
    assert_nan(missing(BRAKE_NAN, 1.0));
    assert_nan(missing(1.0, BRAKE_NAN));
    assert_nan(missing(BRAKE_INFINITY, 1.0));
}

static enum brake_load worst(double empty, double full)
{
    static struct brake_comparison one;
    one.like[BRAKE_EMPTY][BRAKE_BOTH_AXLES] = (struct brake_compared){.before = 2.0};
    one.like[BRAKE_FULL][BRAKE_BOTH_AXLES] = (struct brake_compared){.before = 0.5};
    one.like[BRAKE_EMPTY][BRAKE_BOTH_AXLES].after = 2.0 * empty;
    one.like[BRAKE_FULL][BRAKE_BOTH_AXLES].after = 0.5 * full;
    return brake_compare_worst(&one);
}

static void the_load_case_that_lost_more_is_the_worse(void **state)
{
    (void)state;
    assert_int_equal(worst(0.7, 0.9), BRAKE_EMPTY);
    assert_int_equal(worst(0.9, 0.7), BRAKE_FULL);
    assert_int_equal(worst(0.9, 0.9), BRAKE_FULL);
    assert_int_equal(worst(0.9 - 1e-10, 0.9), BRAKE_FULL); /* rounding */
    assert_int_equal(worst(0.9 - 1e-7, 0.9), BRAKE_EMPTY);
}

/* ---- what it comes to ------------------------------------------------------------------------ */

/* No requirement is known to apply; then one, with these words on both sides. */
static int status_of(int criterion, enum brake_verdict was, enum brake_verdict is,
                     enum brake_scope scope)
{
    for (int i = 0; i < brake_criterion_count(); i++) {
        for (int side = 0; side < 2; side++) {
            c.judgement[side][i].scope = BRAKE_OUTSIDE;
            c.judgement[side][i].verdict = BRAKE_CANNOT_SAY;
        }
    }
    c.judgement[0][criterion].scope = c.judgement[1][criterion].scope = scope;
    c.judgement[0][criterion].verdict = was;
    c.judgement[1][criterion].verdict = is;
    return brake_compare_exit(&c, &loss);
}

/* 1: lost; 3: it is not known whether it is; 0: neither. */
static void the_status_is_that_of_what_was_lost(void **state)
{
    (void)state;
    static const struct {
        enum brake_verdict was, is;
        int status;
    } cases[] = {
        {BRAKE_MEETS, BRAKE_MEETS, 0},
        {BRAKE_MEETS, BRAKE_FALLS_SHORT, 1},
        {BRAKE_MEETS, BRAKE_CANNOT_SAY, 3},
        {BRAKE_FALLS_SHORT, BRAKE_MEETS, 0},
        {BRAKE_FALLS_SHORT, BRAKE_FALLS_SHORT, 0},
        {BRAKE_FALLS_SHORT, BRAKE_CANNOT_SAY, 3},
        {BRAKE_CANNOT_SAY, BRAKE_MEETS, 0},
        {BRAKE_CANNOT_SAY, BRAKE_FALLS_SHORT, 3},
        {BRAKE_CANNOT_SAY, BRAKE_CANNOT_SAY, 3},
    };
    const int of[] = {criterion_number("us.135.cold"), 0, brake_criterion_count() - 1};
    compare_texts(plain, plain);
    c.faded = true;
    for (int k = 0; k < 3; k++) {
        for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
            loss.verdict = BRAKE_MEETS;
            assert_int_equal(status_of(of[k], cases[i].was, cases[i].is, BRAKE_BINDS),
                             cases[i].status);
            const int lost = cases[i].was == BRAKE_MEETS && cases[i].is == BRAKE_FALLS_SHORT;
            assert_int_equal(brake_compare_lost(&c, of[k]), lost);
            loss.verdict = BRAKE_CANNOT_SAY;
            assert_int_equal(status_of(of[k], cases[i].was, cases[i].is, BRAKE_BINDS),
                             cases[i].status == 1 ? 1 : 3);
        }
    }
    loss.verdict = BRAKE_MEETS;
    assert_int_equal(status_of(of[0], BRAKE_CANNOT_SAY, BRAKE_CANNOT_SAY, BRAKE_YARDSTICK), 0);
    const int hot = criterion_number("us.135.hot");
    assert_int_equal(status_of(hot, BRAKE_CANNOT_SAY, BRAKE_CANNOT_SAY, BRAKE_BINDS), 3);
    c.faded = false; /* nobody asked for it */
    assert_int_equal(status_of(hot, BRAKE_CANNOT_SAY, BRAKE_CANNOT_SAY, BRAKE_BINDS), 0);
}

/* Pads of a quarter of the friction: only the vehicle after falls short of so much. */
static void each_side_has_its_own_words(void **state)
{
    (void)state;
    static struct brake_conformance_room room;
    static struct brake_ruling ruling[2];
    static struct brake_ruling own;
    struct brake_judgement judgement[2][BRAKE_CRITERIA];
    const struct brake_conformance_options options = {BRAKE_RULES_ALL, false, NULL};
    static struct brake_conformances conformance;
    compare_texts(full_text(), plus(swapped(swapped(full_text(), "mu = 0.4\n", "mu = 0.1\n"),
                                            "use = commercial", "use = private"),
                                    "[vehicle]\ncountry = AT\n"));
    assert_true(brake_compare_conformance(&c, NULL, &room));
    const struct brake_sheet *sheet[] = {&before, &after};
    for (int side = 0; side < 2; side++) {
        brake_judge_all(BRAKE_RULES_ALL, &sheet[side]->vehicle, judgement[side]);
        assert_true(
            brake_conformance_draw(sheet[side], &options, &room, judgement[side], &conformance));
        assert_int_equal(c.conformance[side].samples, conformance.samples);
        assert_true(conformance.samples > 0);
        for (int i = 0; i < brake_criterion_count(); i++)
            assert_int_equal(c.judgement[side][i].verdict, judgement[side][i].verdict);
        brake_compare_ruling(&c, side, &ruling[side]);
        brake_ruling_make(judgement[side], &sheet[side]->vehicle, BRAKE_RULES_ALL, false, &own);
        assert_int_equal(ruling[side].counted.falls_short, own.counted.falls_short);
        assert_int_equal(ruling[side].counted.meets, own.counted.meets);
        assert_memory_equal(&ruling[side], &own, sizeof own);
    }
    assert_true(ruling[1].counted.falls_short > ruling[0].counted.falls_short);
}

/* ---- lines and parts ------------------------------------------------------------------------- */

/* Of a brake, its pads, shoes and linings are one part of the vehicle; mass and road are none. */
static void lines_belong_to_parts_of_the_vehicle(void **state)
{
    (void)state;
    static const struct {
        const char *path, *part;
    } lines[] = {
        {"front.disc.piston_diameter", "front brake"},
        {"front.disc.pads.mu", "front brake"},
        {"front.drum.diameter", "front brake"},
        {"rear.disc.pads.mu", "rear brake"},
        {"rear.drum.lining.mu", "rear brake"},
        {"front.tyre.rolling_radius", "front tyre"},
        {"rear.tyre.rolling_radius", "rear tyre"},
        {"booster.gain", "booster"},
        {"master.bore", "master"},
        {"pedal.ratio", "pedal"},
        {"valve.knee", "valve"},
        {"parking.torque", "parking"},
        {"vehicle.mass", NULL},
        {"road.adhesion", NULL},
        {"front.axle.track", NULL},
    };
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        const char *part = brake_part_of(index_at(NULL, lines[i].path));
        if (lines[i].part == NULL)
            assert_null(part);
        else
            assert_string_equal(part, lines[i].part);
    }
}

/* Two parts that stand the other way round are the same ones; of one a line differs; a line that is
 * given in one file only differs too. */
static void lines_are_held_against_their_own(void **state)
{
    (void)state;
    static struct brake_changed_line line[2 * BRAKE_ROWS];
    static const char rack[] = "[part.rack]\nmass = 20 kg\nbehind_front_axle = 1 m\nheight = 1 m\n";
    static const char box[] = "[part.box]\nmass = 30 kg\nbehind_front_axle = 2 m\nheight = 1 m\n";
    read_sheet(&before, plus(plus(plain, rack), box));
    read_sheet(&after, plus(plus(plain, box), rack));
    assert_int_equal(brake_changed_lines(&before, &after, line), 0);
    read_sheet(&after, plus(plus(plain, swapped(box, "30 kg", "35 kg")), rack));
    assert_int_equal(brake_changed_lines(&before, &after, line), 1);
    assert_int_equal(line[0].before, index_at(&before.vehicle, "part.box.mass"));
    assert_int_equal(line[0].after, index_at(&after.vehicle, "part.box.mass"));
    read_sheet(&before, plain);
    read_sheet(&after, plus(plain, "[parking]\ntorque = 2500 N*m\n"));
    const int torque = index_at(NULL, "parking.torque");
    for (int turned = 0; turned < 2; turned++) {
        assert_int_equal(
            brake_changed_lines(turned ? &after : &before, turned ? &before : &after, line), 1);
        assert_true(line[0].before == torque && line[0].after == torque);
    }
}

/* ---- who watches ----------------------------------------------------------------------------- */

enum { CALLS = 8 };

struct told {
    int calls;
    double done[CALLS], total;
};

static void tell(void *context, double done, double total)
{
    struct told *told = context;
    assert_true(told->calls < CALLS);
    told->done[told->calls++] = done;
    told->total = total;
}

/* Nine groups: 512 choices of them, 256 at a time; every share of every number adds up. */
static void choices_of_groups_are_told_as_they_are_worked_out(void **state)
{
    (void)state;
    struct told told = {.calls = 0};
    const struct brake_watch watch = {tell, &told, NULL};
    const char *other = swapped(full_text(), "mass = 2000 kg", "mass = 2100 kg");
    other = swapped(other, "cg_height = 800 mm", "cg_height = 820 mm");
    other = swapped(other, "wheelbase = 2500 mm", "wheelbase = 2550 mm");
    other = swapped(other, "rolling_radius = 400 mm", "rolling_radius = 410 mm");
    other = swapped(other, "pistons = 1 x 60 mm", "pistons = 1 x 62 mm");
    other = swapped(other, "effective_radius = 125 mm", "effective_radius = 130 mm");
    other = swapped(other, "mu = 0.4\n", "mu = 0.38\n");
    other = swapped(other, "bore = 20 mm", "bore = 21 mm");
    other = swapped(other, "torque = 2500 N*m", "torque = 2400 N*m");
    compare_texts(full_text(), other);
    assert_int_equal(c.changes, 9);
    double *room = malloc(brake_compare_room(&c) * sizeof *room);
    assert_non_null(room);
    assert_true(brake_compare_share(&c, &watch, room));
    free(room);
    assert_int_equal(told.calls, 2);
    assert_true(told.done[0] == 256.0 && told.done[1] == 512.0 && told.total == 512.0);
    for (int load = 0; load < BRAKE_LOADS; load++) {
        for (int axle = 0; axle <= BRAKE_BOTH_AXLES; axle++) {
            const struct brake_compared *one = &c.like[load][axle];
            double sum = 0.0;
            assert_null(one->reason);
            for (int i = 0; i < BRAKE_CHANGES; i++)
                sum += one->share[i];
            assert_within(sum, one->after - one->before, 1e-12);
            assert_true(one->share[BRAKE_CHANGE_DRIVELINE] == 0.0);
        }
    }
    assert_true(c.like[BRAKE_FULL][BRAKE_FRONT].share[BRAKE_CHANGE_PAD] < 0.0);
}

static void both_fade_procedures_are_told(void **state)
{
    (void)state;
    struct told told = {.calls = 0};
    const struct brake_watch watch = {tell, &told, NULL};
    compare_texts(plain, plain);
    assert_true(brake_compare_fade(&c, &watch));
    assert_int_equal(told.calls, 2);
    assert_true(told.done[0] == 1.0 && told.done[1] == 2.0 && told.total == 2.0);
}

/* By 1e-12 of the larger, which is what rounding leaves; what is no number is the same as that. */
static void numbers_are_the_same_but_for_rounding(void **state)
{
    (void)state;
    static const double size[] = {1e-6, 1.0, 1e6};
    for (int i = 0; i < 3; i++) {
        assert_true(brake_same_number(size[i], size[i] * (1.0 + 0.5e-12)));
        assert_false(brake_same_number(size[i], size[i] * (1.0 + 2e-12)));
    }
    assert_true(brake_same_number(BRAKE_NAN, BRAKE_NAN));
    assert_false(brake_same_number(BRAKE_NAN, 1.0));
    assert_false(brake_same_number(1.0, BRAKE_NAN));
}

/* The name of the vehicle is a line too; one that is stated as it would be anyway is another than
 * none; of a curve the first point counts as the others do. */
static void lines_of_every_kind_are_held(void **state)
{
    (void)state;
    static struct brake_changed_line line[2 * BRAKE_ROWS];
    char stated[80];
    read_sheet(&before, plain);
    read_sheet(&after, swapped(plain, "name = Plain", "name = Other"));
    assert_int_equal(brake_changed_lines(&before, &after, line), 1);
    assert_true(line[0].before == 0 && line[0].after == 0);
    assert_string_equal(brake_quantity_at(0)->name, "name");
    snprintf(stated, sizeof stated, "[stop]\nreaction_time = %.17g s\n",
             value_at(&before, "stop.reaction_time"));
    read_sheet(&after, plus(plain, stated));
    assert_int_equal(brake_changed_lines(&before, &after, line), 1);
    assert_int_equal(line[0].before, index_at(NULL, "stop.reaction_time"));
}

static void assert_same_bodies(const struct brake_vehicle *a, const struct brake_vehicle *b)
{
    for (int load = 0; load < BRAKE_LOADS; load++) {
        const struct brake_body one = brake_vehicle_body(a, (enum brake_load)load);
        const struct brake_body other = brake_vehicle_body(b, (enum brake_load)load);
        assert_near(one.mass, other.mass, 1e-12);
        assert_near(one.behind, other.behind, 1e-12);
        assert_near(one.height, other.height, 1e-12);
    }
}

/* With no group of changes a mixture is the vehicle before, with all of them that after: masses and
 * centres of every load, however small. */
static void a_mixture_of_all_or_none_is_one_of_the_two(void **state)
{
    (void)state;
    static const char small[] = "[load.empty]\nmass = 0.5 kg\nbehind_front_axle = 1.2 m\n"
                                "height = 0.7 m\n";
    static const char large[] = "[load.empty]\nmass = 80 kg\nbehind_front_axle = 1.1 m\n"
                                "height = 0.9 m\n";
    struct brake_vehicle mixed;
    read_sheet(&before, plus(plain, small));
    read_sheet(&after, plus(swapped(plain, "mass = 2000 kg", "mass = 2100 kg"), large));
    brake_vehicle_mix(&before.vehicle, &after.vehicle, 0, &mixed);
    assert_same_bodies(&mixed, &before.vehicle);
    brake_vehicle_mix(&before.vehicle, &after.vehicle, ~0U, &mixed);
    assert_same_bodies(&mixed, &after.vehicle);
}

/* An axle whose discs become drums changes as one; pads of the other are a change of their own. */
static void another_kind_of_brake_is_one_change(void **state)
{
    (void)state;
    enum brake_change change[BRAKE_CHANGES];
    read_sheet(&before, plain);
    read_sheet(&after, drum_text());
    assert_int_equal(brake_changes(&before.vehicle, &after.vehicle, change), 1);
    assert_int_equal(change[0], BRAKE_CHANGE_DRUM);
    read_sheet(&after, swapped(drum_text(), "mu = 0.4\n", "mu = 0.38\n"));
    assert_int_equal(brake_changes(&before.vehicle, &after.vehicle, change), 2);
    bool pads = false;
    for (int i = 0; i < 2; i++)
        pads = pads || change[i] == BRAKE_CHANGE_PAD;
    assert_true(pads);
}

/* A change is called by its name, or by its word where that is name enough. */
static void every_change_has_a_name(void **state)
{
    (void)state;
    for (int i = 0; i < BRAKE_CHANGES; i++) {
        assert_non_null(brake_change_name((enum brake_change)i));
        assert_true(strlen(brake_change_word((enum brake_change)i)) > 0);
        assert_true(strlen(brake_change_meaning((enum brake_change)i)) > 0);
    }
    assert_string_equal(brake_change_name(BRAKE_CHANGE_PARKING), "parking");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(margins_and_headlines_are_held_and_nothing_else),
        cmocka_unit_test(torque_is_told_over_what_is_needed),
        cmocka_unit_test(what_is_missing_is_over_what_was),
        cmocka_unit_test(the_load_case_that_lost_more_is_the_worse),
        cmocka_unit_test(the_status_is_that_of_what_was_lost),
        cmocka_unit_test(each_side_has_its_own_words),
        cmocka_unit_test(lines_belong_to_parts_of_the_vehicle),
        cmocka_unit_test(lines_are_held_against_their_own),
        cmocka_unit_test(choices_of_groups_are_told_as_they_are_worked_out),
        cmocka_unit_test(both_fade_procedures_are_told),
        cmocka_unit_test(numbers_are_the_same_but_for_rounding),
        cmocka_unit_test(lines_of_every_kind_are_held),
        cmocka_unit_test(a_mixture_of_all_or_none_is_one_of_the_two),
        cmocka_unit_test(another_kind_of_brake_is_one_change),
        cmocka_unit_test(every_change_has_a_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
