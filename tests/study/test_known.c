/* SPDX-License-Identifier: MIT */
/* What a drive has told, in samples: study/known.h and reference/method.md, section 11. The plain
 * vehicle of ../vehicle/sheet.h. */
#include "../vehicle/sheet.h"

#include "study/known.h"

enum { TOLD = 5 };

static struct brake_sheet sheet;
static struct brake_inputs inputs;

static int share_of(const char *path)
{
    for (int i = 0; i < inputs.count; i++) {
        if (inputs.input[i].index == index_at(&sheet.vehicle, path))
            return i;
    }
    fail_msg("%s is not uncertain", path);
    return -1;
}

/* What was told of some line, some cause and some error of the model, and of two lines more. */
static void tell(void)
{
    memset(&sheet.known, 0, sizeof sheet.known);
    read_sheet(&sheet, plain);
    brake_inputs_list(&sheet, NULL, &inputs);
    const int of[TOLD] = {share_of("front.disc.pads.mu"), inputs.count + 1,
                          inputs.count + inputs.causes + 2, share_of("rear.disc.pads.mu"),
                          share_of("front.tyre.rolling_radius")};
    sheet.known.count = TOLD;
    for (int i = 0; i < TOLD; i++) {
        sheet.known.of[i] = known_of(&inputs, of[i]);
        sheet.known.of[i].shift = 0.1 * (i + 1);
        for (int a = 0; a < KNOWN_SIZE; a++)
            sheet.known.of[i].along[a] = 0.3 * sin(1.0 + 2.0 * i + 3.0 * a);
    }
    brake_inputs_list(&sheet, NULL, &inputs);
    assert_int_equal(inputs.learned.count, TOLD);
    for (int i = 0; i < TOLD; i++) {
        assert_int_equal(inputs.learned.share[i], of[i]);
        assert_near(known_shift(&inputs.learned, of[i]), 0.1 * (i + 1), ROUNDING);
    }
    assert_near(known_shift(&inputs.learned, share_of("pedal.ratio")), 0.0, 0.0);
}

/* Scores of what was told, when one that is drawn stands at 1 and the others in the middle; -1:
 * none. */
static void scores_with(int one, double score[TOLD])
{
    double drawn[BRAKE_INPUTS];
    double told[BRAKE_INPUTS];
    for (int k = 0; k < BRAKE_INPUTS; k++)
        drawn[k] = 0.5;
    if (one >= 0)
        drawn[inputs.learned.share[one]] = brake_normal_share(1.0);
    const double *share = known_shares(&inputs, drawn, told);
    for (int i = 0; i < TOLD; i++)
        score[i] = brake_normal_value(share[inputs.learned.share[i]]);
    assert_near(share[share_of("pedal.ratio")], 0.5, 0.0);
}

/* The scores are moved by their shift, and turned by a matrix whose square is I - W W': so that is
 * their covariance. */
static void scores_have_the_covariance_that_was_told(void **state)
{
    (void)state;
    double middle[TOLD];
    double matrix[TOLD][TOLD];
    tell();
    scores_with(-1, middle);
    for (int i = 0; i < TOLD; i++) {
        assert_within(middle[i], 0.1 * (i + 1), 1e-9);
        scores_with(i, matrix[i]);
        for (int k = 0; k < TOLD; k++)
            matrix[i][k] -= middle[k];
    }
    for (int i = 0; i < TOLD; i++) {
        for (int k = 0; k < TOLD; k++) {
            double squared = 0.0;
            double expected = i == k ? 1.0 : 0.0;
            for (int j = 0; j < TOLD; j++)
                squared += matrix[i][j] * matrix[j][k];
            for (int a = 0; a < KNOWN_SIZE; a++)
                expected -= sheet.known.of[i].along[a] * sheet.known.of[k].along[a];
            assert_within(squared, expected, 1e-8);
        }
    }
}

/* Of one that nothing was told of before, what was drawn is what comes back. */
static void where_nothing_is_told_shares_are_those_drawn(void **state)
{
    (void)state;
    double drawn[BRAKE_INPUTS] = {0.25};
    double told[BRAKE_INPUTS];
    read_sheet(&sheet, plain);
    brake_inputs_list(&sheet, NULL, &inputs);
    assert_ptr_equal(known_shares(&inputs, drawn, told), drawn);
}

/* Line, tolerance or leaning changed since, or another line of the same part: it is forgotten,
 * unless the file says that it is the same part. */
static void what_is_another_one_since_is_forgotten(void **state)
{
    (void)state;
    tell();
    const int line = index_at(&sheet.vehicle, "front.disc.pads.mu");
    struct brake_record *record = &sheet.record[line];
    record->tolerance *= 1.01;
    known_list(&inputs);
    assert_int_equal(inputs.learned.count, TOLD - 1);
    assert_int_equal(inputs.learned.share[0], inputs.count + 1);
    assert_near(inputs.learned.shift[0], 0.2, ROUNDING);
    tell();
    record->lean += 0.01;
    known_list(&inputs);
    assert_int_equal(inputs.learned.count, TOLD - 1);
    tell();
    sheet.vehicle.axle[BRAKE_FRONT].pads.mu = 0.41;
    known_list(&inputs);
    assert_int_equal(inputs.learned.count, TOLD - 1);
    tell();
    sheet.vehicle.axle[BRAKE_FRONT].disc.effective_radius = 0.13;
    known_list(&inputs);
    assert_int_equal(inputs.learned.count, TOLD - 1);
    record->same = true;
    known_list(&inputs);
    assert_int_equal(inputs.learned.count, TOLD);
}

/* Numbers first, then causes, then the errors of the model, each by its own number. */
static void what_has_a_score_is_a_line_a_cause_or_an_error_of_the_model(void **state)
{
    (void)state;
    read_sheet(&sheet, plain);
    brake_inputs_list(&sheet, NULL, &inputs);
    assert_true(inputs.causes > 1);
    for (int i = 0; i < brake_inputs_count(&inputs); i++) {
        const struct brake_known known = known_of(&inputs, i);
        const int after = i - inputs.count;
        if (after < 0) {
            const int index = inputs.input[i].index;
            assert_int_equal(known.of, BRAKE_KNOWN_LINE);
            assert_int_equal(known.number, index);
            assert_true(known.part == known_mark(&sheet, index));
            assert_true(known.tolerance == sheet.record[index].tolerance);
            assert_true(known.lean == sheet.record[index].lean);
        } else if (after < inputs.causes) {
            assert_int_equal(known.of, BRAKE_KNOWN_CAUSE);
            assert_int_equal(known.number, inputs.cause[after]);
        } else {
            assert_int_equal(known.of, BRAKE_KNOWN_MODEL);
            assert_int_equal(known.number, after - inputs.causes);
        }
        assert_true(known.shift == 0.0 && known.along[0] == 0.0);
    }
}

/* The last error of the model is known, one that there is not is not; nor a cause that nothing has
 * in common any more, nor a line that is worked out since, the last of all. */
static void what_is_no_more_is_forgotten(void **state)
{
    (void)state;
    read_sheet(&sheet, plain);
    brake_inputs_list(&sheet, NULL, &inputs);
    const int last = inputs.count - 1;
    const int causes = inputs.causes;
    memset(&sheet.known, 0, sizeof sheet.known);
    sheet.known.count = 2;
    sheet.known.of[0] = known_of(&inputs, brake_inputs_count(&inputs) - 1);
    sheet.known.of[1] = sheet.known.of[0];
    sheet.known.of[1].number++;
    known_list(&inputs);
    assert_int_equal(inputs.learned.count, 1);
    assert_int_equal(inputs.learned.share[0], brake_inputs_count(&inputs) - 1);
    sheet.known.of[0] = known_of(&inputs, last);
    sheet.known.of[1] = known_of(&inputs, last + causes);
    known_list(&inputs);
    assert_int_equal(inputs.learned.count, 2);
    sheet.record[inputs.input[last].index].worked = true;
    inputs.count--; /* as a new list would have it */
    inputs.causes--;
    known_list(&inputs);
    assert_int_equal(inputs.learned.count, 0);
}

/* Of the last one told, once its line is another: it has no shift, its share is the one drawn, and
 * the others are what they would be had nothing been told of it. */
static void of_what_is_forgotten_nothing_stays(void **state)
{
    (void)state;
    double drawn[BRAKE_INPUTS];
    double with[BRAKE_INPUTS];
    double without[BRAKE_INPUTS];
    tell();
    const int last = inputs.learned.share[TOLD - 1];
    for (int k = 0; k < BRAKE_INPUTS; k++)
        drawn[k] = 0.25;
    sheet.record[sheet.known.of[TOLD - 1].number].tolerance *= 1.01;
    known_list(&inputs);
    assert_int_equal(inputs.learned.count, TOLD - 1);
    assert_equal(known_shift(&inputs.learned, last), 0.0);
    const double *share = known_shares(&inputs, drawn, with);
    assert_ptr_equal(share, with);
    assert_equal(with[last], 0.25);
    sheet.known.count = TOLD - 1; /* what stands behind them is not looked at */
    sheet.known.of[TOLD - 1] = sheet.known.of[0];
    memset(&inputs.learned, 0x40, sizeof inputs.learned);
    known_list(&inputs);
    (void)known_shares(&inputs, drawn, without);
    assert_memory_equal(with, without, (size_t)brake_inputs_count(&inputs) * sizeof with[0]);
}

/* However far a drive moves it, a share has a value: inverse and logarithm stay finite. */
static void a_share_stays_off_the_ends(void **state)
{
    (void)state;
    double drawn[BRAKE_INPUTS];
    double told[BRAKE_INPUTS];
    for (int k = 0; k < BRAKE_INPUTS; k++)
        drawn[k] = 0.5;
    tell();
    inputs.learned.shift[0] = 100.0;
    inputs.learned.shift[1] = -100.0;
    (void)known_shares(&inputs, drawn, told);
    assert_equal(told[inputs.learned.share[0]], 1.0 - 0x1p-50);
    assert_equal(told[inputs.learned.share[1]], 0x1p-60);
}

/* One mark for a part as it is, wherever its lines are asked of; another once a line is. */
static void a_mark_is_of_the_lines_of_a_part(void **state)
{
    (void)state;
    read_sheet(&sheet, plain);
    const int mu = index_at(&sheet.vehicle, "front.disc.pads.mu");
    const int radius = index_at(&sheet.vehicle, "front.disc.effective_radius");
    const uint64_t mark = known_mark(&sheet, mu);
    assert_true(mark != 0 && known_mark(&sheet, radius) == mark);
    assert_true(known_mark(&sheet, index_at(&sheet.vehicle, "rear.disc.pads.mu")) != mark);
    assert_int_equal(known_mark(&sheet, index_at(&sheet.vehicle, "vehicle.mass")), 0);
    sheet.vehicle.axle[BRAKE_REAR].disc.effective_radius = 0.13;
    assert_true(known_mark(&sheet, mu) == mark);
    sheet.vehicle.axle[BRAKE_FRONT].disc.effective_radius = 0.13;
    assert_true(known_mark(&sheet, mu) != mark);
}

static void few_samples_are_thin(void **state)
{
    (void)state;
    struct brake_knowledge known = {.stops = 1, .effective = BRAKE_KNOWN_EFFECTIVE};
    assert_false(known_thin(&known));
    known.effective = 0.999 * BRAKE_KNOWN_EFFECTIVE;
    assert_true(known_thin(&known));
    known.stops = 0;
    assert_false(known_thin(&known));
    known.forces = 1;
    assert_true(known_thin(&known));
}

static void the_word_of_a_drive_is_a_verdict(void **state)
{
    (void)state;
    static const struct {
        int word;
        enum brake_verdict verdict;
    } row[] = {{BRAKE_DRIVE_LESS, BRAKE_FALLS_SHORT},
               {BRAKE_DRIVE_AGREES, BRAKE_MEETS},
               {BRAKE_DRIVE_MORE, BRAKE_CANNOT_SAY}};
    for (int i = 0; i < 3; i++) {
        struct brake_knowledge known = {.stops = 1};
        known.word = row[i].word;
        assert_int_equal(known_verdict(&known), row[i].verdict);
    }
}

/* What was told of a share of a vehicle is told of the same share of the same vehicle: of its first
 * line as of its last, of each cause, of each error of the model but the last, that of no stop. */
static void each_share_is_found_again(void **state)
{
    (void)state;
    static struct brake_sheet all;
    static struct brake_inputs listed;
    read_sheet(&all, full_text());
    brake_inputs_list(&all, NULL, &listed);
    const int shares = listed.count + listed.causes + BRAKE_MODEL_ERRORS - 1;
    assert_true(listed.count > 1 && listed.causes > 0);
    for (int k = 0; k < shares; k++) {
        all.known.count = 1;
        all.known.of[0] = known_of(&listed, k);
        known_list(&listed);
        assert_int_equal(listed.learned.count, 1);
        assert_int_equal(listed.learned.share[0], k);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_share_is_found_again),
        cmocka_unit_test(scores_have_the_covariance_that_was_told),
        cmocka_unit_test(where_nothing_is_told_shares_are_those_drawn),
        cmocka_unit_test(what_is_another_one_since_is_forgotten),
        cmocka_unit_test(what_has_a_score_is_a_line_a_cause_or_an_error_of_the_model),
        cmocka_unit_test(what_is_no_more_is_forgotten),
        cmocka_unit_test(of_what_is_forgotten_nothing_stays),
        cmocka_unit_test(a_share_stays_off_the_ends),
        cmocka_unit_test(a_mark_is_of_the_lines_of_a_part),
        cmocka_unit_test(few_samples_are_thin),
        cmocka_unit_test(the_word_of_a_drive_is_a_verdict),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
