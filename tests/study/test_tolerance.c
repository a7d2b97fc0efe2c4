/* How sure a margin is. Expected: first-order propagation, JCGM 100 (GUM), sec. 5.1.2, with
 * derivatives taken by hand; a tolerance is two standard deviations. Vehicle: ../vehicle/sheet.h.
 *
 * Deceleration at 500 N, full: (3600/0.4 + 900/0.4)/2750 = 36/11 + 9/11 m/s2, each part linear in
 * its friction, pad radius, efficiency and piston area. */
#include "../vehicle/sheet.h"

#include "brake/tolerance.h"

static const double front_part = 36.0 / 11.0;
static const double rear_part = 9.0 / 11.0;

static int number_of(const char *id)
{
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (strcmp(brake_criterion_at(i)->id, id) == 0)
            return i;
    }
    fail();
    return -1;
}

static struct brake_sureness sureness_of(const struct brake_sheet *sheet, const char *id)
{
    struct brake_sureness sureness[BRAKE_CRITERIA];
    brake_sureness(sheet, BRAKE_RULES_ALL, sureness);
    return sureness[number_of(id)];
}

static void read_exact(struct brake_sheet *sheet, const char *text)
{
    read_sheet(sheet, text);
    make_exact(sheet);
}

static void without_tolerances_a_margin_is_certain(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_exact(&sheet, plain);
    const struct brake_sureness s = sureness_of(&sheet, "un.13h.type0");
    assert_equal(s.sigma, 0.0);
    assert_int_equal(s.leading, -1);
    assert_equal(s.share, 0.0);
}

/* margin = a/6.43 - 1: sigma = (36/11) (0.04/0.4)/6.43/2. */
static void one_input_moves_the_margin_by_its_derivative(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_exact(&sheet, plain);
    state_tolerance(&sheet, "front.disc.pads.mu", 0.04, BRAKE_ESTIMATED);
    const struct brake_sureness s = sureness_of(&sheet, "un.13h.type0");
    assert_near(s.sigma, 0.1 * front_part / 6.43 / 2.0, 1e-10);
    assert_int_equal(s.leading, index_at(&sheet.vehicle, "front.disc.pads.mu"));
    assert_near(s.share, 1.0, ROUNDING);
}

/* margin = 70/s - 1, s = 0.36 v + v^2/2a, ds/da = -v^2/2a^2; a step of 1e-6 of mu stands for the
 * derivative. */
static void a_distance_moves_by_its_own_derivative(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    const double v = 100.0 / 3.6;
    const double a = front_part + rear_part;
    const double s = 0.36 * v + v * v / 2.0 / a;
    const double slope = v * v / 2.0 / a / a;
    read_exact(&sheet, plain);
    state_tolerance(&sheet, "front.disc.pads.mu", 0.4e-6, BRAKE_ESTIMATED);
    assert_near(sureness_of(&sheet, "us.135.cold").sigma,
                70.0 / s / s * slope * front_part * 1e-6 / 2.0, 1e-5);
}

/* Squares of 0.1 x 36/11 and 0.2 x 9/11 add up. */
static void several_inputs_add_up_in_squares(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_exact(&sheet, plain);
    state_tolerance(&sheet, "front.disc.pads.mu", 0.04, BRAKE_ESTIMATED);
    state_tolerance(&sheet, "rear.disc.pads.mu", 0.08, BRAKE_ESTIMATED);
    const double front = 0.1 * front_part;
    const double rear = 0.2 * rear_part;
    const struct brake_sureness s = sureness_of(&sheet, "un.13h.type0");
    assert_near(s.sigma, sqrt(front * front + rear * rear) / 6.43 / 2.0, 1e-10);
    assert_int_equal(s.leading, index_at(&sheet.vehicle, "front.disc.pads.mu"));
    assert_near(s.share, front * front / (front * front + rear * rear), 1e-9);
}

/* What is measured already needs no better measurement, though it moves more. */
static void the_largest_of_those_not_measured_leads(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_exact(&sheet, plain);
    state_tolerance(&sheet, "front.disc.pads.mu", 0.04, BRAKE_MEASURED);
    state_tolerance(&sheet, "rear.disc.pads.mu", 0.08, BRAKE_CATALOGUE);
    state_tolerance(&sheet, "rear.disc.effective_radius", 0.0125, BRAKE_ESTIMATED);
    const double front = 0.1 * front_part;
    const double rear = 0.2 * rear_part;
    const double radius = 0.1 * rear_part;
    const struct brake_sureness s = sureness_of(&sheet, "un.13h.type0");
    assert_int_equal(s.leading, index_at(&sheet.vehicle, "rear.disc.pads.mu"));
    assert_near(s.share, rear * rear / (front * front + rear * rear + radius * radius), 1e-9);
}

static void the_largest_measured_one_leads_when_all_are(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_exact(&sheet, plain);
    state_tolerance(&sheet, "front.disc.pads.mu", 0.04, BRAKE_MEASURED);
    state_tolerance(&sheet, "rear.disc.pads.mu", 0.08, BRAKE_MEASURED);
    const struct brake_sureness s = sureness_of(&sheet, "un.13h.type0");
    assert_int_equal(s.leading, index_at(&sheet.vehicle, "front.disc.pads.mu"));
}

static void an_input_that_moves_nothing_does_not_lead(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_exact(&sheet, plain);
    state_tolerance(&sheet, "front.disc.pads.mu", 0.04, BRAKE_MEASURED);
    state_tolerance(&sheet, "stop.reaction_time", 1.0, BRAKE_ESTIMATED);
    const struct brake_sureness s = sureness_of(&sheet, "un.13h.type0");
    assert_int_equal(s.leading, index_at(&sheet.vehicle, "front.disc.pads.mu"));
}

/* A reading moves everything that comes from it: a goes with 1/r of both axles, where
 * a = 4500/r/(2500 + 40/r^2), d ln a/d ln r = -1 + 80/r^2/(2500 + 40/r^2) = -1 + 500/2750. */
static void a_reading_moves_all_that_comes_from_it(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    char line[80];
    snprintf(line, sizeof line, "rollout = %.15f m\n", 0.8 * BRAKE_PI);
    read_exact(&sheet, swapped(plain, "rolling_radius = 400 mm\n", line));
    state_tolerance(&sheet, "front.tyre.rollout", 0.8 * BRAKE_PI * 1e-6, BRAKE_ESTIMATED);
    const struct brake_sureness s = sureness_of(&sheet, "un.13h.type0");
    assert_near(s.sigma, 1e-6 * (1.0 - 500.0 / 2750.0) * (front_part + rear_part) / 6.43 / 2.0,
                1e-5);
    assert_int_equal(s.leading, index_at(&sheet.vehicle, "front.tyre.rollout"));
}

/* A worked value with the doubt of its readings does not move a second time. */
static void a_worked_value_does_not_count_twice(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_exact(&sheet, plus(swapped(plain, "effective_radius = 125 mm\n", ""),
                            "[front.disc.pads]\ninner_radius = 100 mm +- 0 mm\n"
                            "outer_radius = 150 mm +- 0 mm\n"));
    state_tolerance(&sheet, "front.disc.pads.outer_radius", 0.005, BRAKE_ESTIMATED);
    state_tolerance(&sheet, "front.disc.effective_radius", 0.0025, BRAKE_ESTIMATED);
    sheet.record[index_at(&sheet.vehicle, "front.disc.effective_radius")].typical = false;
    /* 2.5 of 125 mm. */
    assert_near(sureness_of(&sheet, "un.13h.type0").sigma, 0.02 * front_part / 6.43 / 2.0, 1e-9);
}

/* With the usual uncertainty of its own, because no reading has any, it moves by itself. */
static void a_worked_value_with_the_usual_doubt_moves_by_itself(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, swapped(plain, "rolling_radius = 400 mm\noverall_diameter = 800 mm\n",
                               "marking = 265/70R17\n"));
    for (int i = 0; i < brake_catalogue_count(); i++) {
        if (i != index_at(&sheet.vehicle, "front.tyre.rolling_radius"))
            sheet.record[i].tolerance = 0.0;
    }
    const struct brake_sureness s = sureness_of(&sheet, "un.13h.type0");
    assert_true(s.sigma > 0.0);
    assert_int_equal(s.leading, index_at(&sheet.vehicle, "front.tyre.rolling_radius"));
    assert_near(s.share, 1.0, ROUNDING);
}

static void what_cannot_be_judged_has_no_sureness(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plain);
    /* Lacks an input; does not apply. */
    static const char *const ids[] = {"us.135.parking", "us.135.assist_failed"};
    for (int i = 0; i < 2; i++) {
        const struct brake_sureness s = sureness_of(&sheet, ids[i]);
        assert_nan(s.sigma);
        assert_int_equal(s.leading, -1);
        assert_equal(s.share, 0.0);
    }
}

static void families_that_are_not_wanted_are_left_out(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    struct brake_sureness sureness[BRAKE_CRITERIA];
    read_sheet(&sheet, plain);
    brake_sureness(&sheet, BRAKE_RULES_UN, sureness);
    assert_true(sureness[number_of("un.13h.type0")].sigma > 0.0);
    assert_nan(sureness[number_of("us.135.cold")].sigma);
    assert_nan(sureness[number_of("eu.45.service_m1")].sigma);
    brake_sureness(&sheet, BRAKE_RULES_US | BRAKE_RULES_EU, sureness);
    assert_nan(sureness[number_of("un.13h.type0")].sigma);
    assert_true(sureness[number_of("us.135.cold")].sigma > 0.0);
    assert_true(sureness[number_of("eu.45.service_m1")].sigma > 0.0);
}

/* A margin without an end, and nothing that moves it. */
static void an_endless_margin_has_nothing_that_leads(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(plain, "[driveline]\ncentre = locked\n"));
    const struct brake_sureness s = sureness_of(&sheet, "us.135.lock_order");
    assert_int_equal(s.leading, -1);
    assert_equal(s.share, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(without_tolerances_a_margin_is_certain),
        cmocka_unit_test(one_input_moves_the_margin_by_its_derivative),
        cmocka_unit_test(a_distance_moves_by_its_own_derivative),
        cmocka_unit_test(several_inputs_add_up_in_squares),
        cmocka_unit_test(the_largest_of_those_not_measured_leads),
        cmocka_unit_test(the_largest_measured_one_leads_when_all_are),
        cmocka_unit_test(an_input_that_moves_nothing_does_not_lead),
        cmocka_unit_test(a_reading_moves_all_that_comes_from_it),
        cmocka_unit_test(a_worked_value_does_not_count_twice),
        cmocka_unit_test(a_worked_value_with_the_usual_doubt_moves_by_itself),
        cmocka_unit_test(what_cannot_be_judged_has_no_sureness),
        cmocka_unit_test(families_that_are_not_wanted_are_left_out),
        cmocka_unit_test(an_endless_margin_has_nothing_that_leads),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
