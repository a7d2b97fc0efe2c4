/* SPDX-License-Identifier: MIT */
/* Outputs: one list of every result and every criterion's margin. */
#include "../vehicle/sheet.h"

#include "brake/assessment.h"
#include "brake/output.h"
#include "criteria/judge.h"
#include "study/asked.h"
#include "study/procedure.h"

static struct brake_sheet sheet;

static void every_output_is_found_by_its_name(void **state)
{
    (void)state;
    assert_true(brake_output_count() <= BRAKE_OUTPUTS);
    for (int i = 0; i < brake_output_count(); i++) {
        const struct brake_output output = brake_output_at(i);
        struct brake_output found;
        char name[80];
        brake_output_name(output, name, sizeof name);
        assert_int_equal(brake_output_find(name, &found), BRAKE_OK);
        assert_int_equal(found.criterion, output.criterion);
        assert_int_equal(found.index, output.index);
    }
}

static void an_unknown_name_is_refused(void **state)
{
    (void)state;
    struct brake_output output;
    assert_true(brake_result_all() > brake_result_count());
    for (int i = brake_result_count(); i < brake_result_all(); i++) {
        char name[80];
        brake_result_path(i, name, sizeof name); /* a result, but not one of every vehicle */
        assert_int_equal(brake_output_find(name, &output), BRAKE_E_UNKNOWN);
    }
    assert_int_equal(brake_output_find("full.stop", &output), BRAKE_E_UNKNOWN);
    assert_int_equal(brake_output_find("", &output), BRAKE_E_UNKNOWN);
}

static void a_slip_of_the_pen_has_a_nearest_name(void **state)
{
    (void)state;
    struct brake_output output;
    char name[80];
    assert_int_equal(brake_output_nearest("full.stop.distanse", &output), BRAKE_OK);
    brake_output_name(output, name, sizeof name);
    assert_string_equal(name, "full.stop.distance");
    assert_int_equal(brake_output_nearest("us.135.colt", &output), BRAKE_OK);
    brake_output_name(output, name, sizeof name);
    assert_string_equal(name, "us.135.cold");
    assert_int_equal(brake_output_nearest("nothing of the kind", &output), BRAKE_E_UNKNOWN);
    assert_int_equal(brake_output_nearest("", &output), BRAKE_E_UNKNOWN);
}

static bool same(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

static void values_are_those_of_evaluation_and_judgement(void **state)
{
    (void)state;
    static struct brake_output output[BRAKE_OUTPUTS];
    static double value[BRAKE_OUTPUTS];
    struct brake_results results;
    struct brake_judgement judgement[BRAKE_CRITERIA];
    const int count = brake_output_count();
    read_sheet(&sheet, full_text());
    brake_evaluate(&sheet.vehicle, &results);
    brake_judge_all(BRAKE_RULES_ALL, &sheet.vehicle, judgement);
    for (int i = 0; i < count; i++)
        output[i] = brake_output_at(i);
    brake_outputs(&sheet.vehicle, output, count, value);
    for (int i = 0; i < count; i++) {
        const double expected = output[i].criterion ? judgement[output[i].index].margin
                                                    : brake_result_value(&results, output[i].index);
        assert_true(same(value[i], expected));
    }
}

/* ---- several vehicles side by side ----------------------------------------------------------- */

enum { VEHICLES = 3, BEHIND = 2 };

/* A car and a goods vehicle with rotors, and a car of which nothing is known of its rotors. */
static const char rotors[] =
    "[front.disc]\nrotor_mass = 32 kg\nrotor_diameter = 300 mm\nhat_mass = 2 kg\nrotor = vented\n"
    "[rear.disc]\nrotor_mass = 9 kg\nrotor_diameter = 300 mm\n"
    "[heat]\niron = grey_250\nambient = 20 degC\nfluid = DOT5.1\n";

static struct brake_sheet cases[VEHICLES];
static double expected[VEHICLES][BRAKE_OUTPUTS];

/* What each output is by itself: evaluated, judged, and where it is hot after its own procedure,
 * run whole and alone. */
static void fill_expected(int of)
{
    static struct brake_fade fade[BRAKE_FADES];
    const struct brake_vehicle *vehicle = &cases[of].vehicle;
    struct brake_results cold;
    struct brake_results hot;
    for (int kind = 0; kind < BRAKE_FADES; kind++)
        brake_fade_run(vehicle, (enum brake_fade_kind)kind, BRAKE_FADE_WHOLE, NULL, NULL,
                       &fade[kind]);
    brake_evaluate(vehicle, &cold);
    hot = cold;
    brake_fade_results(&fade[brake_fade_own(vehicle)], &hot.common);
    for (int i = 0; i < brake_output_count(); i++) {
        const struct brake_output output = brake_output_at(i);
        struct brake_judgement judgement;
        if (!output.criterion) {
            const bool faded = brake_output_faded(output);
            expected[of][i] = brake_result_value(faded ? &hot : &cold, output.index);
            continue;
        }
        const struct brake_criterion *criterion = brake_criterion_at(output.index);
        brake_judge(criterion, vehicle, &judgement);
        if (brake_output_faded(output) && judgement.scope != BRAKE_OUTSIDE)
            brake_judge_hot(criterion, vehicle, &fade[criterion->fade].figures, &judgement);
        expected[of][i] = judgement.margin;
    }
}

static void read_cases(void)
{
    read_sheet(&cases[0], plus(plain, plus("[vehicle]\ntop_speed = 160 km/h\n", rotors)));
    read_sheet(&cases[1], plain);
    read_sheet(&cases[2],
               plus(plain, plus("[vehicle]\ntop_speed = 130 km/h\ncategory = N1\n", rotors)));
    for (int i = 0; i < VEHICLES; i++)
        fill_expected(i);
}

/* Asks for outputs by number; behind those that are asked for nothing is looked at or filled. */
static void hold_outputs(const int *number, int count)
{
    static double value[VEHICLES][BRAKE_OUTPUTS + BEHIND];
    static struct brake_output output[BRAKE_OUTPUTS + BEHIND];
    const struct brake_vehicle *vehicle[VEHICLES];
    const size_t stride = (size_t)count + BEHIND;
    double *at = value[0];
    for (int i = 0; i < count; i++)
        output[i] = brake_output_at(number[i]);
    for (int i = 0; i < VEHICLES; i++)
        vehicle[i] = &cases[i].vehicle;
    for (int asked = 1; asked <= VEHICLES; asked++) {
        for (size_t i = 0; i < VEHICLES * stride; i++)
            at[i] = -77.0;
        assert_int_equal(
            brake_output_find(asked == 1 ? "full.stop.distance" : "us.135.hot", &output[count]),
            BRAKE_OK);
        brake_outputs_all(vehicle, asked, output, count, stride, at);
        for (int of = 0; of < VEHICLES; of++) {
            for (int i = 0; i < count + BEHIND; i++) {
                const bool told = of < asked && i < count;
                assert_true(same(at[(size_t)of * stride + (size_t)i],
                                 told ? expected[of][number[i]] : -77.0));
            }
        }
    }
}

static void side_by_side_each_has_what_it_has_alone(void **state)
{
    (void)state;
    int forward[BRAKE_OUTPUTS];
    int backward[BRAKE_OUTPUTS];
    const int count = brake_output_count();
    int hot = 0;
    read_cases();
    for (int i = 0; i < count; i++) {
        forward[i] = i;
        backward[i] = count - 1 - i;
        if (brake_output_faded(brake_output_at(i)))
            hot += isfinite(expected[0][i]) && isfinite(expected[2][i]) &&
                   expected[0][i] != expected[2][i];
    }
    assert_true(hot > 5); /* two procedures that differ */
    hold_outputs(forward, count);
    hold_outputs(backward, count);
}

static void one_output_alone_is_what_it_is_among_all(void **state)
{
    (void)state;
    read_cases();
    for (int i = 0; i < brake_output_count(); i++) {
        if (brake_output_faded(brake_output_at(i)) || i % 29 == 0)
            hold_outputs(&i, 1);
    }
}

/* ---- names ----------------------------------------------------------------------------------- */

/* The first criterion, and the first result, are found and told as the nearest like any other. */
static void the_first_of_each_kind_is_found(void **state)
{
    (void)state;
    const int first[] = {0, brake_result_count()};
    for (int i = 0; i < 2; i++) {
        struct brake_output output;
        char name[80];
        brake_output_name(brake_output_at(first[i]), name, sizeof name);
        assert_int_equal(brake_output_find(name, &output), BRAKE_OK);
        assert_true(output.criterion == (i == 1) && output.index == 0);
        assert_int_equal(brake_output_nearest(name, &output), BRAKE_OK);
        assert_true(output.criterion == (i == 1) && output.index == 0);
    }
}

static void a_margin_is_a_ratio_and_a_result_has_its_own_dimension(void **state)
{
    (void)state;
    struct brake_output output;
    assert_int_equal(brake_output_find("full.stop.distance", &output), BRAKE_OK);
    assert_int_equal(brake_output_dimension(output), BRAKE_LENGTH);
    assert_int_equal(brake_output_find("us.135.cold", &output), BRAKE_OK);
    assert_int_equal(brake_output_dimension(output), BRAKE_RATIO);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_output_is_found_by_its_name),
        cmocka_unit_test(an_unknown_name_is_refused),
        cmocka_unit_test(a_slip_of_the_pen_has_a_nearest_name),
        cmocka_unit_test(values_are_those_of_evaluation_and_judgement),
        cmocka_unit_test(side_by_side_each_has_what_it_has_alone),
        cmocka_unit_test(one_output_alone_is_what_it_is_among_all),
        cmocka_unit_test(the_first_of_each_kind_is_found),
        cmocka_unit_test(a_margin_is_a_ratio_and_a_result_has_its_own_dimension),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
