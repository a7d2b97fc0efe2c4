/* SPDX-License-Identifier: MIT */
/* What to measure, against the probability that follows from each thing that may be measured. */
#include "../vehicle/sheet.h"

#include <string.h>

#include "study/distribution.h"
#include "study/measuring.h"

static struct brake_sheet sheet;
static struct brake_inputs inputs;
static double part[BRAKE_INPUTS];
static struct brake_measuring measuring;

enum { CIRCUIT = 3 /* any criterion */ };

static int input_of(const char *path)
{
    for (int i = 0; i < inputs.count; i++) {
        if (inputs.input[i].index == index_at(&sheet.vehicle, path))
            return i;
    }
    fail_msg("%s is not uncertain", path);
    return -1;
}

static void given(const char *path, double correlation)
{
    read_sheet(&sheet, plain);
    const int index = index_at(&sheet.vehicle, path);
    sheet.record[index].from = BRAKE_ESTIMATED;
    sheet.record[index].tolerance = 0.2 * brake_quantity_value(&sheet.vehicle, index);
    brake_inputs_list(&sheet, NULL, &inputs);
    memset(part, 0, sizeof part);
    part[input_of(path)] = correlation;
}

static void find(double threshold, enum brake_verdict word)
{
    const struct brake_measuring_row row = {CIRCUIT, threshold, part, word};
    brake_measuring_find(&inputs, &row, 1, &measuring);
}

/* Each reading by itself: what P is after it, and whether that gives another word. */
static double probability_by_readings(double correlation, double threshold, enum brake_verdict word)
{
    enum { READINGS = 20000 };
    int changed = 0;
    for (int i = 0; i < READINGS; i++) {
        const double reading = brake_normal_value((i + 0.5) / READINGS);
        const double p = brake_normal_share((correlation * reading - threshold) /
                                            sqrt(1.0 - correlation * correlation));
        const enum brake_verdict then = p >= 0.95  ? BRAKE_MEETS
                                        : p < 0.50 ? BRAKE_FALLS_SHORT
                                                   : BRAKE_CANNOT_SAY;
        changed += then != word && (word != BRAKE_FALLS_SHORT || p >= 0.50) ? 1 : 0;
    }
    return (double)changed / READINGS;
}

/* A wheelbase by tape is known to 0.2 %: of a scatter of 20 % nothing is left. */
static void the_probability_is_that_of_all_readings(void **state)
{
    (void)state;
    static const struct {
        double correlation, met;
        enum brake_verdict word;
    } row[] = {{0.9, 0.70, BRAKE_CANNOT_SAY},
               {0.6, 0.90, BRAKE_CANNOT_SAY},
               {0.8, 0.97, BRAKE_MEETS},
               {-0.8, 0.30, BRAKE_FALLS_SHORT}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const double threshold = -brake_normal_value(row[i].met);
        given("vehicle.wheelbase", row[i].correlation);
        find(threshold, row[i].word);
        assert_int_equal(measuring.lines, 1);
        assert_int_equal(measuring.line[0], index_at(&sheet.vehicle, "vehicle.wheelbase"));
        assert_near(measuring.probability[CIRCUIT],
                    probability_by_readings(row[i].correlation, threshold, row[i].word), 2e-3);
        assert_near(measuring.sum[0], measuring.probability[CIRCUIT], 1e-12);
        assert_near(measuring.whatever[CIRCUIT], measuring.probability[CIRCUIT], 1e-12);
    }
}

static void what_was_measured_is_not_asked_for_again(void **state)
{
    (void)state;
    given("vehicle.wheelbase", 0.9);
    sheet.record[index_at(&sheet.vehicle, "vehicle.wheelbase")].from = BRAKE_MEASURED;
    find(-0.5, BRAKE_CANNOT_SAY);
    assert_int_equal(measuring.lines, 0);
    assert_near(measuring.probability[CIRCUIT], 0.0, 0.0);
    assert_true(isnan(measuring.probability[CIRCUIT + 1]));
}

static void what_moves_nothing_is_not_asked_for(void **state)
{
    (void)state;
    given("vehicle.wheelbase", 0.0);
    find(-0.5, BRAKE_CANNOT_SAY);
    assert_int_equal(measuring.lines, 0);
}

/* Of two lines that tell as much, a tape is at hand and a gauge is not. */
static void of_two_that_tell_as_much_the_cheaper_comes_first(void **state)
{
    (void)state;
    given("vehicle.wheelbase", 0.6);
    const int gain = index_at(&sheet.vehicle, "front.disc.pads.mu");
    sheet.record[gain].from = BRAKE_ESTIMATED;
    sheet.record[gain].tolerance = 10.0;
    brake_inputs_list(&sheet, NULL, &inputs);
    memset(part, 0, sizeof part);
    part[input_of("vehicle.wheelbase")] = 0.6;
    part[input_of("front.disc.pads.mu")] = 0.6;
    find(-0.5, BRAKE_CANNOT_SAY);
    assert_int_equal(measuring.lines, 2);
    assert_int_equal(measuring.line[0], index_at(&sheet.vehicle, "vehicle.wheelbase"));
    assert_true(measuring.sum[1] > measuring.sum[0]);
}

/* Three lines that share half of what moves each: they correlate by 1/2 (study/inputs.h). Of a
 * score whose correlations with them are c, all three explain c' C^-1 c (multiple correlation): for
 * C = (I + J) / 2 that is 2 (sum of c^2 - (sum of c)^2 / 4); once the cause is told apart as well,
 * the sum of squares of the parts. Tolerances are wide: of them nothing is left. */
static void lines_that_share_a_cause_tell_of_each_other(void **state)
{
    (void)state;
    static const char *const path[3] = {"front.tyre.rolling_radius", "rear.tyre.rolling_radius",
                                        "front.tyre.overall_diameter"};
    static const double own[3] = {0.6, -0.6, 0.4};
    const double shared = 0.2;
    double squares = 0.0;
    double sum = 0.0;
    read_sheet(&sheet, plain);
    make_exact(&sheet);
    for (int i = 0; i < 3; i++) {
        sheet.record[index_at(&sheet.vehicle, path[i])].from = BRAKE_ESTIMATED;
        sheet.record[index_at(&sheet.vehicle, path[i])].tolerance = 1e6;
        squares += (own[i] + shared) * (own[i] + shared) / 2.0;
        sum += (own[i] + shared) / sqrt(2.0);
    }
    brake_inputs_list(&sheet, NULL, &inputs);
    memset(part, 0, sizeof part);
    for (int i = 0; i < 3; i++)
        part[input_of(path[i])] = own[i];
    part[inputs.count + inputs.input[input_of(path[0])].cause] = shared;
    find(-0.5, BRAKE_CANNOT_SAY);
    assert_int_equal(measuring.lines, 3);
    assert_near(
        measuring.probability[CIRCUIT],
        probability_by_readings(sqrt(2.0 * (squares - sum * sum / 4.0)), -0.5, BRAKE_CANNOT_SAY),
        2e-3);
    assert_near(measuring.whatever[CIRCUIT],
                probability_by_readings(sqrt(0.88 + 0.04), -0.5, BRAKE_CANNOT_SAY), 2e-3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_probability_is_that_of_all_readings),
        cmocka_unit_test(what_was_measured_is_not_asked_for_again),
        cmocka_unit_test(what_moves_nothing_is_not_asked_for),
        cmocka_unit_test(of_two_that_tell_as_much_the_cheaper_comes_first),
        cmocka_unit_test(lines_that_share_a_cause_tell_of_each_other),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
