/* SPDX-License-Identifier: MIT */
/* Outputs: one list of every result and every criterion's margin. */
#include "../vehicle/sheet.h"

#include "brake/assessment.h"
#include "brake/output.h"
#include "criteria/judge.h"

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
        cmocka_unit_test(a_margin_is_a_ratio_and_a_result_has_its_own_dimension),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
