/* SPDX-License-Identifier: MIT */
/* Comparison: shares of a difference, groups of changes, mixed vehicles, like for like. */
#include <stdlib.h>

#include "../vehicle/sheet.h"

#include "brake/compare.h"
#include "vehicle/sections.h"
#include "study/change.h"
#include "study/shapley.h"
#include "study/comparing.h"
#include "study/mixing.h"
#include "vehicle/system.h"

static struct brake_sheet before;
static struct brake_sheet after;
static struct brake_comparison c;
static struct brake_before loss;

static void compare_sheets(void)
{
    brake_compare(&before, &after, BRAKE_RULES_ALL, &c);
    double *room = malloc(brake_compare_room(&c) * sizeof *room);
    assert_non_null(room);
    assert_true(brake_compare_share(&c, NULL, room));
    free(room);
}

static void compare_texts(const char *one, const char *other)
{
    read_sheet(&before, one);
    read_sheet(&after, other);
    compare_sheets();
}

static void read_example(struct brake_sheet *sheet, const char *name)
{
    char path[400];
    struct brake_error error;
    snprintf(path, sizeof path, "%s/examples/%s", SOURCE_ROOT, name);
    FILE *stream = fopen(path, "rb");
    assert_non_null(stream);
    assert_int_equal(brake_file_read(stream, sheet, &error), BRAKE_OK);
    fclose(stream);
    complete(sheet);
}

static const struct brake_compared *margin_of(const char *name)
{
    for (int i = 0; i < c.margins; i++) {
        char found[80];
        brake_output_name(c.output[i], found, sizeof found);
        if (strcmp(found, name) == 0)
            return &c.margin[i];
    }
    print_error("no margin %s\n", name);
    fail();
    return NULL;
}

/* ---- the Shapley value ----------------------------------------------------------------------- */

enum { PLAYERS = 5, COALITIONS = 1 << PLAYERS };

/* No two coalitions alike; player 3 adds nothing, players 0 and 1 are worth the same. */
static double worth(unsigned coalition)
{
    const double twins = (coalition & 1U ? 1.0 : 0.0) + (coalition & 2u ? 1.0 : 0.0);
    const double third = coalition & 4u ? 3.0 : 0.0;
    const double fifth = coalition & 16u ? 0.7 : 0.0;
    return 2.0 + twins * twins * (1.0 + third) - fifth * third + 5.0 * fifth * twins;
}

static void fill_game(double value[COALITIONS])
{
    for (unsigned i = 0; i < COALITIONS; i++)
        value[i] = worth(i);
}

/* Mean over every order of what a player adds: the definition itself (Shapley 1953, from
 * memory). */
static void add_orders(const double *value, int players, unsigned in, double *sum, double *orders)
{
    /* orders that go on from here: (n - s)!, of those after a player is added (n - s - 1)! */
    if (in == (1U << players) - 1U) {
        *orders += 1.0;
        return;
    }
    for (int i = 0; i < players; i++) {
        if ((in >> i & 1U) != 0)
            continue;
        const double had = *orders;
        add_orders(value, players, in | 1U << i, sum, orders);
        sum[i] += (*orders - had) * (value[in | 1U << i] - value[in]);
    }
}

static void shares_are_the_mean_over_every_order(void **state)
{
    (void)state;
    double value[COALITIONS];
    double share[PLAYERS];
    double sum[PLAYERS] = {0.0};
    double orders = 0.0;
    fill_game(value);
    assert_true(brake_shapley(PLAYERS, value, 1, share));
    add_orders(value, PLAYERS, 0, sum, &orders);
    assert_true(orders == 120.0);
    for (int i = 0; i < PLAYERS; i++)
        assert_near(share[i], sum[i] / orders, 1e-12);
}

static void shares_are_efficient_symmetric_and_none_for_a_null_player(void **state)
{
    (void)state;
    double value[COALITIONS];
    double share[PLAYERS];
    double sum = 0.0;
    fill_game(value);
    assert_true(brake_shapley(PLAYERS, value, 1, share));
    for (int i = 0; i < PLAYERS; i++)
        sum += share[i];
    assert_near(sum, value[COALITIONS - 1] - value[0], 1e-12);
    assert_near(share[0], share[1], 1e-12);
    assert_true(share[3] == 0.0);
}

static void a_game_without_a_finite_value_has_no_shares(void **state)
{
    (void)state;
    const double value[] = {1.0, 2.0, BRAKE_INFINITY, 3.0};
    double share[2];
    assert_false(brake_shapley(2, value, 1, share));
    assert_true(isnan(share[0]) && isnan(share[1]));
    assert_true(brake_shapley(0, value, 1, share));
    assert_false(brake_shapley(BRAKE_PLAYERS + 1, value, 1, share));
    assert_false(brake_shapley(-1, value, 1, share));
}

/* ---- groups ---------------------------------------------------------------------------------- */

static void every_quantity_belongs_to_a_group(void **state)
{
    (void)state;
    int members[BRAKE_CHANGES] = {0};
    for (int i = 0; i < brake_catalogue_count(); i++) {
        const enum brake_change change = brake_change_of(i);
        if (change >= BRAKE_CHANGES)
            print_error("%s has no group\n", brake_quantity_section(i)->path);
        assert_true(change < BRAKE_CHANGES);
        members[change]++;
    }
    for (int i = 0; i < BRAKE_CHANGES; i++) {
        assert_true(members[i] > 0);
        assert_non_null(brake_change_word((enum brake_change)i));
        assert_non_null(brake_change_meaning((enum brake_change)i));
    }
}

static void quantities_stand_in_the_group_of_what_is_changed(void **state)
{
    (void)state;
    static const struct {
        const char *path;
        enum brake_change change;
    } expected[] = {
        {"rear.tyre.rolling_radius", BRAKE_CHANGE_TYRE},
        {"vehicle.mass", BRAKE_CHANGE_MASS},
        {"load.full.mass", BRAKE_CHANGE_MASS},
        {"load.full.height", BRAKE_CHANGE_CG},
        {"lift.suspension", BRAKE_CHANGE_CG},
        {"vehicle.wheelbase", BRAKE_CHANGE_GEOMETRY},
        {"front.disc.pistons", BRAKE_CHANGE_CALIPER},
        {"front.disc.piston_diameter", BRAKE_CHANGE_CALIPER},
        {"front.disc.effective_radius", BRAKE_CHANGE_ROTOR},
        {"front.disc.pads.outer_radius", BRAKE_CHANGE_ROTOR},
        {"front.disc.pads.mu", BRAKE_CHANGE_PAD},
        {"rear.drum.lining.mu", BRAKE_CHANGE_DRUM},
        {"master.bore", BRAKE_CHANGE_HYDRAULICS},
        {"parking.torque", BRAKE_CHANGE_PARKING},
        {"driveline.axle_ratio", BRAKE_CHANGE_DRIVELINE},
        {"road.adhesion", BRAKE_CHANGE_CONDITIONS},
    };
    read_sheet(&before, plain);
    for (size_t i = 0; i < sizeof expected / sizeof expected[0]; i++)
        assert_int_equal(brake_change_of(index_at(&before.vehicle, expected[i].path)),
                         expected[i].change);
}

static void one_line_changed_is_one_group(void **state)
{
    (void)state;
    static const struct {
        const char *old, *new;
        enum brake_change change;
    } cases[] = {
        {"bore = 20 mm", "bore = 25 mm", BRAKE_CHANGE_HYDRAULICS},
        {"mu = 0.4\n", "mu = 0.3\n", BRAKE_CHANGE_PAD},
        {"pistons = 1 x 60 mm", "pistons = 2 x 40 mm", BRAKE_CHANGE_CALIPER},
        {"effective_radius = 125 mm", "effective_radius = 135 mm", BRAKE_CHANGE_ROTOR},
        {"rolling_radius = 400 mm", "rolling_radius = 440 mm", BRAKE_CHANGE_TYRE},
        {"adhesion = 0.8", "adhesion = 0.7", BRAKE_CHANGE_CONDITIONS},
        {"name = Plain", "name = Other", BRAKE_CHANGES},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        compare_texts(plain, swapped(plain, cases[i].old, cases[i].new));
        assert_int_equal(c.changes, cases[i].change < BRAKE_CHANGES ? 1 : 0);
        if (c.changes == 1)
            assert_int_equal(c.change[0], cases[i].change);
    }
}

/* ---- mixed vehicles -------------------------------------------------------------------------- */

static void a_mixture_of_all_or_of_none_is_one_of_the_two_vehicles(void **state)
{
    (void)state;
    struct brake_vehicle mixed;
    struct brake_results one;
    struct brake_results other;
    read_example(&before, "heron-before.ini");
    read_example(&after, "heron.ini");
    for (int all = 0; all < 2; all++) {
        brake_vehicle_mix(&before.vehicle, &after.vehicle, all ? ~0U : 0U, &mixed);
        brake_evaluate(&mixed, &one);
        brake_evaluate(all ? &after.vehicle : &before.vehicle, &other);
        for (int i = 0; i < brake_result_count(); i++) {
            const double expected = brake_result_value(&other, i);
            if (isnan(expected))
                assert_true(isnan(brake_result_value(&one, i)));
            else
                assert_true(fabs(brake_result_value(&one, i) - expected) <=
                            1e-9 * fabs(expected) + 1e-12);
        }
    }
}

/* Whatever stood where it is kept: only lines that differ are moved. */
static void a_mixture_is_of_the_lines_that_differ_alone(void **state)
{
    (void)state;
    static struct brake_mixing mixing;
    struct brake_vehicle mixed;
    read_sheet(&before, plain);
    read_sheet(&after, swapped(plain, "mu = 0.4\n", "mu = 0.5\n"));
    memset(&mixing, 0x7f, sizeof mixing);
    brake_mixing_begin(&before.vehicle, &after.vehicle, &mixing);
    brake_mixing_make(&mixing, ~0U, &mixed);
    assert_near(mixed.axle[BRAKE_FRONT].pads.mu, 0.5, ROUNDING);
    assert_near(mixed.axle[BRAKE_REAR].pads.mu, 0.4, ROUNDING);
    assert_int_equal(mixing.moved, 1);
}

/* The first line of all, the name, is one of them. */
static void a_mixture_of_all_has_its_name(void **state)
{
    (void)state;
    struct brake_vehicle mixed;
    read_sheet(&before, plain);
    read_sheet(&after, swapped(plain, "name = Plain", "name = Other"));
    brake_vehicle_mix(&before.vehicle, &after.vehicle, ~0U, &mixed);
    assert_string_equal(mixed.general.name, "Other");
}

/* Empty 2000 kg and full 2500 kg, both of them 200 kg heavier by a part: the mixture has its mass
 * and sits where the vehicle before does. */
static void a_part_counts_as_mass_and_as_where_it_sits(void **state)
{
    (void)state;
    struct brake_vehicle mixed;
    read_sheet(&before, plain);
    read_sheet(&after, plus(plain, "[part.rack]\nmass = 200 kg\nbehind_front_axle = 2000 mm\n"
                                   "height = 1800 mm\n"));
    brake_vehicle_mix(&before.vehicle, &after.vehicle, 1U << BRAKE_CHANGE_MASS, &mixed);
    for (int load = 0; load < BRAKE_LOADS; load++) {
        const struct brake_body body = brake_vehicle_body(&mixed, (enum brake_load)load);
        const struct brake_body old = brake_vehicle_body(&before.vehicle, (enum brake_load)load);
        assert_near(body.mass, load == BRAKE_EMPTY ? 2200.0 : 2700.0, 1e-9);
        assert_near(body.behind, old.behind, 1e-9);
        assert_near(body.height, old.height, 1e-9);
    }
}

static void a_disc_in_place_of_a_drum_moves_as_one(void **state)
{
    (void)state;
    compare_texts(drum_text(), plain);
    assert_int_equal(c.changes, 1);
    assert_int_equal(c.change[0], BRAKE_CHANGE_DRUM);
    const struct brake_compared *most = margin_of("full.torque.rear_margin");
    assert_null(most->reason);
    assert_near(most->share[BRAKE_CHANGE_DRUM], most->after - most->before, 1e-12);
}

/* ---- shares of margins ----------------------------------------------------------------------- */

static void assert_adds_up(const struct brake_compared *one)
{
    double sum = 0.0;
    if (one->reason != NULL)
        return;
    for (int i = 0; i < BRAKE_CHANGES; i++)
        sum += one->share[i];
    assert_true(fabs(sum - (one->after - one->before)) <=
                1e-12 * (1.0 + fabs(one->before) + fabs(one->after)));
}

static void shares_add_up_to_the_difference(void **state)
{
    (void)state;
    int shared = 0;
    read_example(&before, "heron-before.ini");
    read_example(&after, "heron.ini");
    compare_sheets();
    for (int i = 0; i < c.margins; i++) {
        assert_adds_up(&c.margin[i]);
        if (isfinite(c.margin[i].before) && isfinite(c.margin[i].after))
            assert_null(c.margin[i].reason);
        shared += c.margin[i].reason == NULL ? 1 : 0;
    }
    for (int i = 0; i < BRAKE_LOADS * (BRAKE_AXLES + 1); i++)
        assert_adds_up(&c.like[i / (BRAKE_AXLES + 1)][i % (BRAKE_AXLES + 1)]);
    assert_true(shared > 20);
}

/* Pads alone are others: all of the difference is theirs. */
static void what_did_not_change_has_no_share(void **state)
{
    (void)state;
    int shared = 0;
    compare_texts(plain, swapped(plain, "mu = 0.4", "mu = 0.44"));
    assert_int_equal(c.changes, 1);
    for (int i = 0; i < c.margins; i++) {
        if (c.margin[i].reason != NULL)
            continue;
        for (int group = 0; group < BRAKE_CHANGES; group++) {
            const double whole = c.margin[i].after - c.margin[i].before;
            assert_near(c.margin[i].share[group], group == BRAKE_CHANGE_PAD ? whole : 0.0, 1e-12);
        }
        shared++;
    }
    assert_true(shared > 5);
}

/* Points of one curve: a temperature that is another, then a friction. */
static void curves_differ_by_any_point(void **state)
{
    (void)state;
    static const char curve[] = "[front.disc.pads]\nfriction = (0 degC, 0.4) (200 degC, 0.4) "
                                "(500 degC, 0.15), measured\n";
    static const char *const other[] = {"(250 degC, 0.4)", "(200 degC, 0.39)"};
    const char *one = plus(plain, curve);
    compare_texts(one, one);
    assert_int_equal(c.changes, 0);
    for (int i = 0; i < 2; i++) {
        compare_texts(one, swapped(one, "(200 degC, 0.4)", other[i]));
        assert_int_equal(c.changes, 1);
        assert_int_equal(c.change[0], BRAKE_CHANGE_PAD);
    }
}

/* A curve ends with its last point: what stands behind it counts for nothing. The first counts as
 * any other. */
static void curves_are_as_long_as_they_are(void **state)
{
    (void)state;
    enum brake_change change[BRAKE_CHANGES];
    const char *one = plus(plain, "[front.disc.pads]\nfriction = (0 degC, 0.4) (200 degC, 0.4) "
                                  "(500 degC, 0.15), measured\n");
    struct brake_points *curve = &after.vehicle.axle[BRAKE_FRONT].pads.friction;
    read_sheet(&before, one);
    read_sheet(&after, one);
    curve->at[curve->count] = (struct brake_point){900.0, 0.1};
    assert_int_equal(brake_changes(&before.vehicle, &after.vehicle, change), 0);
    curve->at[0].x -= 10.0;
    assert_int_equal(brake_changes(&before.vehicle, &after.vehicle, change), 1);
}

/* A booster that one of both has brings the clause for its failure, whichever it is. */
static void what_one_of_both_is_judged_by_is_held_side_by_side(void **state)
{
    (void)state;
    compare_texts(plain, full_text());
    assert_true(isnan(margin_of("us.135.assist_failed")->before));
    assert_true(!isnan(margin_of("us.135.assist_failed")->after));
    compare_texts(full_text(), plain);
    assert_true(!isnan(margin_of("us.135.assist_failed")->before));
    assert_true(isnan(margin_of("us.135.assist_failed")->after));
}

/* Three groups of Heron's changes only, so that every order can be gone through. */
static void shares_of_a_vehicle_are_the_mean_over_every_order(void **state)
{
    (void)state;
    double value[8];
    double sum[3] = {0.0};
    double orders = 0.0;
    read_example(&before, "heron.ini");
    read_example(&after, "heron.ini");
    change(&after, "front.tyre.rollout=2.75 m");
    change(&after, "front.disc.pads.mu=0.31");
    change(&after, "master.bore=25.4 mm");
    compare_sheets();
    assert_int_equal(c.changes, 3);
    for (unsigned i = 0; i < 8; i++) {
        struct brake_vehicle mixed;
        struct brake_results results;
        unsigned groups = 0;
        for (int k = 0; k < 3; k++)
            groups |= (i >> k & 1U) << c.change[k];
        brake_vehicle_mix(&before.vehicle, &after.vehicle, groups, &mixed);
        brake_evaluate(&mixed, &results);
        value[i] = results.load[BRAKE_FULL].pedal.force_for_target;
    }
    add_orders(value, 3, 0, sum, &orders);
    const struct brake_compared *force = margin_of("full.pedal.force_for_target");
    for (int k = 0; k < 3; k++)
        assert_true(fabs(force->share[c.change[k]] - sum[k] / orders) <= 1e-9 * fabs(force->after));
}

static void a_group_that_a_margin_does_not_see_has_no_share(void **state)
{
    (void)state;
    read_example(&before, "heron-before.ini");
    read_example(&after, "heron.ini");
    compare_sheets();
    assert_true(margin_of("full.parking.margin")->share[BRAKE_CHANGE_CALIPER] == 0.0);
    assert_true(margin_of("full.parking.margin")->share[BRAKE_CHANGE_TYRE] < -0.05);
}

static void a_vehicle_against_itself_has_nothing_to_share(void **state)
{
    (void)state;
    struct brake_changed_line line[2 * BRAKE_ROWS];
    read_example(&before, "heron.ini");
    read_example(&after, "heron.ini");
    compare_sheets();
    assert_int_equal(c.changes, 0);
    assert_int_equal(brake_changed_lines(&before, &after, line), 0);
    for (int i = 0; i < c.margins; i++)
        assert_true(c.margin[i].reason != NULL || c.margin[i].before == c.margin[i].after);
    for (int load = 0; load < BRAKE_LOADS; load++)
        assert_true(brake_like_missing(&c.like[load][BRAKE_BOTH_AXLES]) == 0.0);
}

static void what_is_known_of_one_vehicle_only_has_a_reason_and_no_shares(void **state)
{
    (void)state;
    compare_texts(plain, plus(plain, "[parking]\ntorque = 2500 N*m\n"));
    const struct brake_compared *parking = margin_of("full.parking.margin");
    assert_true(isnan(parking->before) && isfinite(parking->after));
    assert_string_equal(parking->reason, "cannot be said of the vehicle before");
    assert_true(isnan(parking->share[BRAKE_CHANGE_PARKING]));
}

static void a_study_that_is_stopped_has_no_shares(void **state)
{
    (void)state;
    const volatile sig_atomic_t stop = 1;
    const struct brake_watch watch = {.stop = &stop};
    double room[1];
    read_sheet(&before, plain);
    read_sheet(&after, full_text());
    brake_compare(&before, &after, BRAKE_RULES_ALL, &c);
    assert_false(brake_compare_share(&c, &watch, room));
    assert_true(isnan(margin_of("full.stop.distance")->share[BRAKE_CHANGE_TYRE]));
}

/* ---- like for like --------------------------------------------------------------------------- */

/* Friction of all pads from 0.4 to 0.3: a quarter of the torque is missing, the need is the
 * same. */
static void missing_torque_is_told_over_what_was(void **state)
{
    (void)state;
    const char *weaker =
        swapped(swapped(plain, "mu = 0.4\n", "mu = 0.3\n"), "mu = 40 %", "mu = 30 %");
    compare_texts(plain, weaker);
    for (int load = 0; load < BRAKE_LOADS; load++) {
        for (int axle = 0; axle <= BRAKE_BOTH_AXLES; axle++)
            assert_near(brake_like_missing(&c.like[load][axle]), 0.25, 1e-12);
    }
    assert_int_equal(brake_before_of(&c, &loss), BRAKE_OK);
    assert_int_equal(loss.verdict, BRAKE_FALLS_SHORT);
    assert_int_equal(brake_compare_exit(&c, &loss), 1);
    compare_texts(weaker, plain);
    assert_true(brake_like_missing(&c.like[BRAKE_FULL][BRAKE_BOTH_AXLES]) == 0.0);
    assert_int_equal(brake_before_of(&c, &loss), BRAKE_OK);
    assert_int_equal(brake_compare_exit(&c, &loss), 3); /* the parking brake cannot be said */
}

/* The parking brake cannot be said, so nothing here is 0. */
static void the_word_of_a_loss_decides_the_status(void **state)
{
    (void)state;
    compare_texts(plain, plain);
    loss.verdict = BRAKE_MEETS;
    assert_int_equal(brake_compare_exit(&c, &loss), 3);
    loss.verdict = BRAKE_CANNOT_SAY;
    assert_int_equal(brake_compare_exit(&c, &loss), 3);
    loss.verdict = BRAKE_FALLS_SHORT;
    assert_int_equal(brake_compare_exit(&c, &loss), 1);
}

/* ---- lines ----------------------------------------------------------------------------------- */

static void lines_that_differ_are_those_of_the_files(void **state)
{
    (void)state;
    struct brake_changed_line line[2 * BRAKE_ROWS];
    const char *rack = "[part.rack]\nmass = 20 kg\nbehind_front_axle = 1 m\nheight = 1 m\n";
    read_sheet(&before, plain);
    read_sheet(&after, plus(swapped(plain, "bore = 20 mm", "bore = 25 mm"), rack));
    int count = brake_changed_lines(&before, &after, line);
    assert_int_equal(count, 4);
    assert_int_equal(line[0].before, index_at(&before.vehicle, "master.bore"));
    for (int i = 1; i < count; i++)
        assert_true(line[i].before == -1 && line[i].after >= 0);
    count = brake_changed_lines(&after, &before, line);
    assert_int_equal(count, 4);
    assert_int_equal(line[3].after, -1);
}

/* A line counts that a file gives, of which another is worked out all the same: the ratio of the
 * gearbox, not that of all gears with the usual axle. */
static void lines_that_no_file_gives_do_not_differ(void **state)
{
    (void)state;
    struct brake_changed_line line[2 * BRAKE_ROWS];
    read_sheet(&before, plus(plain, "[driveline]\ngear_ratio = 0.8\n"));
    read_sheet(&after, plus(plain, "[driveline]\ngear_ratio = 0.9\n"));
    assert_true(value_at(&before, "driveline.overall_ratio") <
                value_at(&after, "driveline.overall_ratio"));
    assert_int_equal(brake_changed_lines(&before, &after, line), 1);
    assert_int_equal(line[0].before, index_at(&before.vehicle, "driveline.gear_ratio"));
}

/* Whatever the first lines say: a part that neither has is no line of them. */
static void a_part_that_neither_has_is_no_line(void **state)
{
    (void)state;
    struct brake_changed_line line[2 * BRAKE_ROWS];
    read_sheet(&before, plain);
    for (int i = 0; i < 6; i++) {
        before.record[i].from = BRAKE_MEASURED;
        assert_int_equal(brake_changed_lines(&before, &before, line), 0);
    }
}

static void hot_performance_that_is_stopped_is_left_out(void **state)
{
    (void)state;
    const volatile sig_atomic_t stop = 1;
    const struct brake_watch watch = {.stop = &stop};
    read_example(&before, "heron-before.ini");
    read_example(&after, "heron.ini");
    brake_compare(&before, &after, BRAKE_RULES_ALL, &c);
    const int cold = c.margins;
    assert_false(brake_compare_fade(&c, &watch));
    assert_true(!c.faded && c.margins == cold);
    assert_true(brake_compare_fade(&c, NULL));
    assert_true(c.faded && c.margins > cold);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shares_are_the_mean_over_every_order),
        cmocka_unit_test(shares_are_efficient_symmetric_and_none_for_a_null_player),
        cmocka_unit_test(a_game_without_a_finite_value_has_no_shares),
        cmocka_unit_test(every_quantity_belongs_to_a_group),
        cmocka_unit_test(quantities_stand_in_the_group_of_what_is_changed),
        cmocka_unit_test(one_line_changed_is_one_group),
        cmocka_unit_test(a_mixture_of_all_or_of_none_is_one_of_the_two_vehicles),
        cmocka_unit_test(a_mixture_is_of_the_lines_that_differ_alone),
        cmocka_unit_test(a_mixture_of_all_has_its_name),
        cmocka_unit_test(a_part_counts_as_mass_and_as_where_it_sits),
        cmocka_unit_test(a_disc_in_place_of_a_drum_moves_as_one),
        cmocka_unit_test(shares_add_up_to_the_difference),
        cmocka_unit_test(what_did_not_change_has_no_share),
        cmocka_unit_test(curves_are_as_long_as_they_are),
        cmocka_unit_test(curves_differ_by_any_point),
        cmocka_unit_test(what_one_of_both_is_judged_by_is_held_side_by_side),
        cmocka_unit_test(shares_of_a_vehicle_are_the_mean_over_every_order),
        cmocka_unit_test(a_group_that_a_margin_does_not_see_has_no_share),
        cmocka_unit_test(a_vehicle_against_itself_has_nothing_to_share),
        cmocka_unit_test(what_is_known_of_one_vehicle_only_has_a_reason_and_no_shares),
        cmocka_unit_test(a_study_that_is_stopped_has_no_shares),
        cmocka_unit_test(lines_that_no_file_gives_do_not_differ),
        cmocka_unit_test(a_part_that_neither_has_is_no_line),
        cmocka_unit_test(hot_performance_that_is_stopped_is_left_out),
        cmocka_unit_test(missing_torque_is_told_over_what_was),
        cmocka_unit_test(the_word_of_a_loss_decides_the_status),
        cmocka_unit_test(lines_that_differ_are_those_of_the_files),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
