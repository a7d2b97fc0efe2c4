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

/* The same in closed form: the known part of the score has a spread of the correlation r, and P is
 * what is left of it above the threshold. */
static double probability_of(double r, double threshold, enum brake_verdict word)
{
    const double sure = brake_normal_value(0.95) * sqrt(1.0 - r * r);
    if (word == BRAKE_MEETS)
        return brake_normal_share((threshold + sure) / r);
    if (word == BRAKE_FALLS_SHORT)
        return 1.0 - brake_normal_share(threshold / r);
    return 1.0 - brake_normal_share((threshold + sure) / r) + brake_normal_share(threshold / r);
}

/* The line of a sheet that is not sure at all: a measurement leaves nothing of its scatter. */
static void make_open(const char *path)
{
    struct brake_record *record = &sheet.record[index_at(&sheet.vehicle, path)];
    record->from = BRAKE_ESTIMATED;
    record->tolerance = 1e9;
}

/* A word that too few samples gave is the nearest to it that more would give: met by 95 of 100 and
 * more, short of it by 50 and fewer, not said between. */
static void a_word_that_few_samples_gave_is_taken_as_the_nearest(void **state)
{
    (void)state;
    static const struct {
        double threshold, taken;
        enum brake_verdict word;
    } row[] = {{-1.0, -1.6448536269514722, BRAKE_MEETS},
               {-2.0, -2.0, BRAKE_MEETS},
               {-3.0, -1.6448536269514722, BRAKE_CANNOT_SAY},
               {-0.3, -0.3, BRAKE_CANNOT_SAY},
               {0.5, 0.0, BRAKE_CANNOT_SAY},
               {-1.0, 0.0, BRAKE_FALLS_SHORT},
               {0.4, 0.4, BRAKE_FALLS_SHORT}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        given("vehicle.wheelbase", 0.9);
        make_open("vehicle.wheelbase");
        find(row[i].threshold, row[i].word);
        assert_int_equal(measuring.lines, 1);
        assert_near(measuring.probability[CIRCUIT], probability_of(0.9, row[i].taken, row[i].word),
                    1e-9);
    }
}

/* All of the scatter is the most that can be known, even where samples tell of more. */
static void no_more_than_all_is_known(void **state)
{
    (void)state;
    given("vehicle.wheelbase", 1.1);
    make_open("vehicle.wheelbase");
    find(-1.9, BRAKE_MEETS);
    assert_near(measuring.probability[CIRCUIT], brake_normal_share(-1.9), 1e-9);
    assert_true(isnan(measuring.probability[0]) && isnan(measuring.whatever[0]));
}

/* Where no word can change, what brings it nearer is worth 0.05 of the scatter that it explains,
 * and a line has to be worth 0.04: it explains 0.8 of it. */
static void a_line_has_to_be_worth_it(void **state)
{
    (void)state;
    static const double explained[] = {0.797, 0.803};
    for (int i = 0; i < 2; i++) {
        given("vehicle.wheelbase", sqrt(explained[i]));
        make_open("vehicle.wheelbase");
        find(-20.0, BRAKE_MEETS);
        assert_int_equal(measuring.lines, i);
    }
}

/* Knowledge is better by a fifth of the scatter, or is none. Of a value v known within d a reading
 * with the usual care, typical u, takes 1 - (u v/d)^2. */
static void a_measurement_has_to_be_better_by_a_fifth(void **state)
{
    (void)state;
    static const double better[] = {0.199, 0.201};
    for (int i = 0; i < 2; i++) {
        given("vehicle.wheelbase", 1.0);
        const int index = index_at(&sheet.vehicle, "vehicle.wheelbase");
        sheet.record[index].tolerance = brake_quantity_at(index)->typical *
                                        brake_quantity_value(&sheet.vehicle, index) /
                                        sqrt(1.0 - better[i]);
        find(-0.5, BRAKE_CANNOT_SAY);
        assert_int_equal(measuring.lines, i);
    }
    assert_near(measuring.probability[CIRCUIT], probability_of(sqrt(0.201), -0.5, BRAKE_CANNOT_SAY),
                1e-9);
}

/* A look tells a choice for good. */
static void a_look_tells_a_choice(void **state)
{
    (void)state;
    read_sheet(&sheet, plain);
    brake_inputs_list(&sheet, NULL, &inputs);
    memset(part, 0, sizeof part);
    int choice = 0;
    while (!inputs.input[choice].choice)
        choice++;
    part[choice] = 0.7;
    find(-0.4, BRAKE_CANNOT_SAY);
    assert_int_equal(measuring.lines, 1);
    assert_int_equal(measuring.line[0], inputs.input[choice].index);
    assert_near(measuring.probability[CIRCUIT], probability_of(0.7, -0.4, BRAKE_CANNOT_SAY), 1e-9);
}

/* Both of two lines that share a cause, of parts a, b and c, are known: 4/3 (r^2 + s^2 - r s). */
static void assert_told_by_both(double a, double b, double c)
{
    const double r = (a + c) / sqrt(2.0);
    const double s = (b + c) / sqrt(2.0);
    assert_near(measuring.probability[CIRCUIT],
                probability_of(sqrt(4.0 / 3.0 * (r * r + s * s - r * s)), -0.5, BRAKE_CANNOT_SAY),
                1e-9);
}

/* Of two causes the second: a pair of lines that share half of what moves each, of parts a and b
 * and of c that they share. With C = (1, 1/2; 1/2, 1) and correlations (a + c)/2^1/2 and (b +
 * c)/2^1/2 both explain 4/3 (r^2 + s^2 - r s). */
static void each_cause_is_that_of_its_lines(void **state)
{
    (void)state;
    static const double a = 0.5;
    static const double b = -0.7;
    static const double c = 0.3;
    read_sheet(&sheet, plain);
    make_exact(&sheet);
    make_open("front.disc.pads.mu");
    make_open("rear.disc.pads.mu");
    make_open("front.tyre.rolling_radius");
    make_open("rear.tyre.rolling_radius");
    brake_inputs_list(&sheet, NULL, &inputs);
    const int front = input_of("front.tyre.rolling_radius");
    const int rear = input_of("rear.tyre.rolling_radius");
    const int cause = inputs.input[front].cause;
    assert_int_equal(inputs.causes, 2);
    assert_int_equal(cause, 1);
    memset(part, 0, sizeof part);
    part[front] = a;
    part[rear] = b;
    part[inputs.count + cause] = c;
    find(-0.5, BRAKE_CANNOT_SAY);
    assert_int_equal(measuring.lines, 2);
    assert_told_by_both(a, b, c);
    assert_near(measuring.whatever[CIRCUIT],
                probability_of(sqrt(a * a + b * b + c * c), -0.5, BRAKE_CANNOT_SAY), 1e-9);
}

/* The first line of a file is known like any other: of two that share a cause, parts a, b and c,
 * both explain 4/3 (r^2 + s^2 - r s), as above. */
static void the_first_line_of_a_file_tells_of_its_cause(void **state)
{
    (void)state;
    static const double a = 0.6;
    static const double b = 0.5;
    static const double c = 0.4;
    read_sheet(&sheet, plain);
    make_exact(&sheet);
    sheet.record[index_at(&sheet.vehicle, "front.disc.rotor")].from = BRAKE_MEASURED;
    make_open("front.disc.pads.mu");
    make_open("rear.disc.pads.mu");
    brake_inputs_list(&sheet, NULL, &inputs);
    assert_int_equal(input_of("front.disc.pads.mu"), 0);
    memset(part, 0, sizeof part);
    part[0] = a;
    part[input_of("rear.disc.pads.mu")] = b;
    part[inputs.count + inputs.input[0].cause] = c;
    find(-0.5, BRAKE_CANNOT_SAY);
    assert_int_equal(measuring.lines, 2);
    assert_told_by_both(a, b, c);
}

/* What the model is off by no measurement tells, whatever stood in the list before. */
static void an_error_of_the_model_is_not_asked_for(void **state)
{
    (void)state;
    read_sheet(&sheet, plain);
    make_exact(&sheet);
    make_open("vehicle.wheelbase");
    brake_inputs_list(&sheet, NULL, &inputs);
    assert_int_equal(inputs.causes, 0);
    memset(part, 0, sizeof part);
    inputs.input[inputs.count] = inputs.input[input_of("vehicle.wheelbase")];
    part[inputs.count] = 0.9;
    find(-0.5, BRAKE_CANNOT_SAY);
    assert_int_equal(measuring.lines, 0);
}

/* A row behind those that are told of is none. */
static void rows_are_as_many_as_are_told(void **state)
{
    (void)state;
    given("vehicle.wheelbase", 0.9);
    make_open("vehicle.wheelbase");
    const struct brake_measuring_row two[] = {{CIRCUIT, -0.5, part, BRAKE_CANNOT_SAY},
                                              {CIRCUIT + 1, -1.8, part, BRAKE_MEETS}};
    for (int told = 1; told <= 2; told++) {
        double sum = 0.0;
        brake_measuring_find(&inputs, two, told, &measuring);
        for (int i = 0; i < told; i++)
            sum += probability_of(0.9, two[i].threshold, two[i].word);
        assert_int_equal(measuring.lines, 1);
        assert_near(measuring.sum[0], sum, 1e-9);
        assert_int_equal(isnan(measuring.probability[CIRCUIT + 1]), told == 1);
    }
}

/* ---- what a line costs ----------------------------------------------------------------------- */

enum { ROWS = 40 };

static double parts_of[ROWS][BRAKE_INPUTS];
static struct brake_measuring_row rows[ROWS];
static int row_count;

/* A line is worth 0.05 of each row that hangs on it alone, where no word can change. */
static void hang(int input, double worth)
{
    const double each = 0.05 * 0.95;
    for (; worth > 1e-9; worth -= each) {
        assert_in_range(row_count, 0, ROWS - 1);
        memset(parts_of[row_count], 0, sizeof parts_of[0]);
        parts_of[row_count][input] = sqrt(fmin(worth, each) / 0.05);
        rows[row_count] =
            (struct brake_measuring_row){row_count, -20.0, parts_of[row_count], BRAKE_MEETS};
        row_count++;
    }
}

/* Lines by what they are measured with, none of a common cause, all open. */
static int list_by(enum brake_means means, int *input, int most)
{
    int count = 0;
    for (int i = 0; i < inputs.count && count < most; i++) {
        if (brake_quantity_at(inputs.input[i].index)->means == means && inputs.input[i].cause < 0)
            input[count++] = i;
    }
    return count;
}

static void open_all(void)
{
    read_sheet(&sheet, full_text());
    for (int i = 0; i < brake_catalogue_count(); i++) {
        if (sheet.record[i].tolerance > 0.0)
            sheet.record[i].tolerance = 1e9;
        if (sheet.record[i].from == BRAKE_MEASURED)
            sheet.record[i].from = BRAKE_ESTIMATED;
    }
    brake_inputs_list(&sheet, NULL, &inputs);
    row_count = 0;
}

/* Five lines by tape leave one place on the list. It goes to the sixth by tape as long as another
 * is not worth as many times as much as it costs (common practice, no source). */
static void the_last_place_goes_to_what_is_worth_its_cost(void **state)
{
    (void)state;
    static const struct {
        enum brake_means means;
        double cost;
    } of[] = {{BRAKE_BY_LOOK, 1.0},  {BRAKE_BY_PAPERS, 1.0},   {BRAKE_BY_SCALE, 1.5},
              {BRAKE_BY_GAUGE, 3.0}, {BRAKE_BY_WORKSHOP, 5.0}, {BRAKE_BY_MAKER, 12.0}};
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
        for (int more = 0; more < 2; more++) {
            int tape[BRAKE_MEASURINGS];
            int other = -1;
            bool listed = false;
            open_all();
            assert_int_equal(list_by(BRAKE_BY_TAPE, tape, BRAKE_MEASURINGS), BRAKE_MEASURINGS);
            assert_int_equal(list_by(of[i].means, &other, 1), 1);
            for (int k = 0; k < BRAKE_MEASURINGS - 1; k++)
                hang(tape[k], 0.1);
            hang(tape[BRAKE_MEASURINGS - 1], 0.045);
            hang(other, 0.045 * of[i].cost * (more ? 1.004 : 0.996));
            brake_measuring_find(&inputs, rows, row_count, &measuring);
            assert_int_equal(measuring.lines, BRAKE_MEASURINGS);
            for (int k = 0; k < measuring.lines; k++)
                listed = listed || measuring.line[k] == inputs.input[other].index;
            assert_int_equal(listed, more);
        }
    }
}

/* Chosen the dearer first, the list has the cheaper first; of those that cost as much the one that
 * is worth more, of equals the one that comes first in a file. */
static void the_list_is_by_cost_then_by_worth(void **state)
{
    (void)state;
    int tape[3];
    int scale = -1;
    int gauge = -1;
    int workshop = -1;
    open_all();
    assert_int_equal(list_by(BRAKE_BY_TAPE, tape, 3), 3);
    assert_int_equal(list_by(BRAKE_BY_SCALE, &scale, 1), 1);
    assert_int_equal(list_by(BRAKE_BY_GAUGE, &gauge, 1), 1);
    assert_int_equal(list_by(BRAKE_BY_WORKSHOP, &workshop, 1), 1);
    hang(workshop, 0.55);
    hang(gauge, 0.3);
    hang(scale, 0.12);
    hang(tape[0], 0.042);
    hang(tape[1], 0.042);
    hang(tape[2], 0.044);
    brake_measuring_find(&inputs, rows, row_count, &measuring);
    const int expected[] = {tape[2], tape[0], tape[1], scale, gauge, workshop};
    assert_int_equal(measuring.lines, 6);
    for (int i = 0; i < 6; i++)
        assert_int_equal(measuring.line[i], inputs.input[expected[i]].index);
}

/* What a look or the papers tell costs as much as a tape. */
static void look_papers_and_tape_cost_the_same(void **state)
{
    (void)state;
    static const enum brake_means means[] = {BRAKE_BY_LOOK, BRAKE_BY_PAPERS, BRAKE_BY_TAPE};
    for (int first = 0; first < 3; first++) {
        int input[3];
        open_all();
        for (int i = 0; i < 3; i++) {
            assert_int_equal(list_by(means[i], &input[i], 1), 1);
            hang(input[i], i == first ? 0.0405 : 0.0403);
        }
        brake_measuring_find(&inputs, rows, row_count, &measuring);
        assert_int_equal(measuring.lines, 3);
        assert_int_equal(measuring.line[0], inputs.input[input[first]].index);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_probability_is_that_of_all_readings),
        cmocka_unit_test(what_was_measured_is_not_asked_for_again),
        cmocka_unit_test(what_moves_nothing_is_not_asked_for),
        cmocka_unit_test(of_two_that_tell_as_much_the_cheaper_comes_first),
        cmocka_unit_test(lines_that_share_a_cause_tell_of_each_other),
        cmocka_unit_test(a_word_that_few_samples_gave_is_taken_as_the_nearest),
        cmocka_unit_test(no_more_than_all_is_known),
        cmocka_unit_test(a_line_has_to_be_worth_it),
        cmocka_unit_test(a_measurement_has_to_be_better_by_a_fifth),
        cmocka_unit_test(a_look_tells_a_choice),
        cmocka_unit_test(each_cause_is_that_of_its_lines),
        cmocka_unit_test(the_first_line_of_a_file_tells_of_its_cause),
        cmocka_unit_test(an_error_of_the_model_is_not_asked_for),
        cmocka_unit_test(rows_are_as_many_as_are_told),
        cmocka_unit_test(the_last_place_goes_to_what_is_worth_its_cost),
        cmocka_unit_test(the_list_is_by_cost_then_by_worth),
        cmocka_unit_test(look_papers_and_tape_cost_the_same),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
