/* SPDX-License-Identifier: MIT */
/* What drives tell of lines: brake/identify.h. The plain vehicle of ../vehicle/sheet.h: a = F / 100
 * empty, the front doing 0.8 of it. */
#include "../vehicle/sheet.h"

#include "brake/identify.h"
#include "study/driven.h"
#include "study/eigen.h"
#include "study/inputs.h"

static struct brake_sheet sheet;

static const char *const frictions[] = {"front.disc.pads.mu", "rear.disc.pads.mu"};

/* One level stop from 20 m/s whose own figure is exact. */
static void learn_a_stop(double force, double deceleration)
{
    static struct brake_drive drive;
    drive = (struct brake_drive){.stops = 1, .counted = 1, .day = {.gauge = {1.0, 0.0}}};
    drive.stop[0] = (struct brake_drive_stop){.pedal_force = force,
                                              .pressure = BRAKE_NAN,
                                              .heading = BRAKE_NAN,
                                              .initial = {20.0, 0.0},
                                              .developed = {deceleration, 0.0}};
    assert_int_equal(brake_drive_learn(&sheet, BRAKE_EMPTY, &drive), BRAKE_OK);
}

static void make(void)
{
    read_sheet(&sheet, plain);
    make_exact(&sheet);
    sheet.vehicle.heat.drag_area = 0.0;
    state_tolerance(&sheet, frictions[0], 0.04, BRAKE_MEASURED);
    state_tolerance(&sheet, frictions[1], 0.04, BRAKE_MEASURED);
}

static enum brake_status ask(const char *const *path, int count, struct brake_identified *found,
                             struct brake_error *error)
{
    int line[BRAKE_IDENTIFY_LINES + 1];
    for (int i = 0; i < count; i++)
        line[i] = brake_catalogue_find(NULL, path[i]);
    return brake_identify(&sheet, line, count, found, error);
}

/* Straight and normal: both mu are 0.4 +- 0.04, sigma 0.05102 of them, correlation 0.5 by their
 * cause. A stop of 4 m/s2 moves by 4 (0.8, 0.2) times what they are off, so the stop tells of w =
 * (1, 0.25) and of nothing else: its variance is 16 x 0.05102^2 x 0.84 = 0.034985, that of the
 * stop by itself and of the model 16 (0.02^2 + 0.015306^2) = 0.010148, share 0.034985 / (0.034985 +
 * 0.010148) = 0.7752. The front has correlation (0.8 + 0.5 x 0.2) / 0.84^(1/2) = 0.98198 with it:
 * 0.96429 x 0.7752 = 0.7475 learnt; the rear (0.5 x 0.8 + 0.2) / 0.84^(1/2) = 0.65465: 0.3322. */
static void one_stop_tells_one_combination(void **state)
{
    (void)state;
    struct brake_identified found;
    struct brake_error error;
    make();
    learn_a_stop(400.0, 3.8);
    assert_int_equal(ask(frictions, 2, &found, &error), BRAKE_OK);
    /* Points that lie evenly: one of the 16384 left out would be 2.4e-5. */
    assert_within(found.before.mean[0], 0.4, 2e-6);
    assert_within(sqrt(found.before.covariance[0][0]), 0.04 / 1.96, 1e-4);
    assert_within(found.before.covariance[0][1] / found.before.covariance[0][0], 0.5, 0.01);
    assert_within(found.share[0], 0.7752, 0.01);
    assert_within(found.share[1], 0.0, 0.01);
    assert_within(found.learnt[0], 0.7475, 0.01);
    assert_within(found.learnt[1], 0.3322, 0.01);
    assert_within(found.combination[0][0], 1.0, 1e-12);
    assert_within(found.combination[0][1], 0.25, 0.02);
    assert_true(isinf(found.condition));
}

/* Of one line alone what is told is what it is told itself. */
static void one_line_is_its_own_combination(void **state)
{
    (void)state;
    struct brake_identified found;
    struct brake_error error;
    make();
    learn_a_stop(400.0, 3.8);
    assert_int_equal(ask(frictions, 1, &found, &error), BRAKE_OK);
    assert_int_equal(found.count, 1);
    assert_within(found.learnt[0], 0.7475, 0.01);
    assert_within(found.share[0], found.learnt[0], 1e-12);
    assert_near(found.combination[0][0], 1.0, 1e-12);
    assert_near(found.condition, 1.0, 1e-12);
}

/* Both axles on a tester, as in test_identify.c: with front and rear f and r off, prior P (1, 0.5;
 * 0.5, 1), P = 0.05102^2, readings R = 0.0004 I + 0.0025, their difference is told by 2 x 0.5 P
 * against 0.0008, a share of 0.7649; half their sum by 0.75 P against 0.0027, 0.4196. How much
 * better the one is told than the other is the root of the ratio of what each has over what is left
 * of it. */
static void a_tester_tells_two_combinations(void **state)
{
    (void)state;
    struct brake_identified found;
    struct brake_error error;
    read_sheet(&sheet, plus(plain, "[tester]\nfront_left = 3600 N\nfront_right = 3600 N\n"
                                   "rear_left = 900 N\nrear_right = 900 N\npedal_force = 400 N\n"));
    make_exact(&sheet);
    state_tolerance(&sheet, frictions[0], 0.04, BRAKE_MEASURED);
    state_tolerance(&sheet, frictions[1], 0.04, BRAKE_MEASURED);
    assert_int_equal(brake_drive_learn(&sheet, BRAKE_EMPTY, NULL), BRAKE_OK);
    assert_int_equal(ask(frictions, 2, &found, &error), BRAKE_OK);
    assert_within(found.share[0], 0.7649, 0.01);
    assert_within(found.share[1], 0.4196, 0.01);
    assert_within(found.combination[0][0] / found.combination[0][1], -1.0, 0.03);
    assert_within(found.combination[1][0] / found.combination[1][1], 1.0, 0.03);
    for (int at = 0; at < 2; at++)
        assert_within(fmax(fabs(found.combination[at][0]), fabs(found.combination[at][1])), 1.0,
                      1e-12);
    assert_near(
        found.condition,
        sqrt(found.share[0] / (1.0 - found.share[0]) / found.share[1] * (1.0 - found.share[1])),
        1e-12);
    assert_within(found.condition, 2.1214, 0.06);
}

/* What is left of a combination is its variance after over that before, and no two of them go
 * together: w' C' w = (1 - share) w' C w and v' C w = v' C' w = 0, over the deviations before. */
static void assert_combinations_tell(const struct brake_identified *id)
{
    for (int a = 0; a < id->count; a++) {
        for (int b = 0; b < id->count; b++) {
            double before = 0.0;
            double after = 0.0;
            for (int i = 0; i < id->count; i++) {
                for (int k = 0; k < id->count; k++) {
                    const double deviations =
                        sqrt(id->before.covariance[i][i] * id->before.covariance[k][k]);
                    const double weights = id->combination[a][i] * id->combination[b][k];
                    before += weights * id->before.covariance[i][k] / deviations;
                    after += weights * id->after.covariance[i][k] / deviations;
                }
            }
            if (a == b)
                assert_within(id->share[a], fmax(0.0, 1.0 - after / before), 1e-9);
            else
                assert_within(fabs(before) + fabs(after), 0.0, 1e-9);
        }
    }
}

/* Three corners on one scale go together, and the stop tells of the mass that they make. */
static void three_of_one_cause_are_told_apart(void **state)
{
    (void)state;
    const char *const lines[] = {"scales.front_left", "scales.front_right", "scales.rear_left",
                                 frictions[0]};
    struct brake_identified found;
    struct brake_error error;
    read_sheet(&sheet, plus(swapped(plain, "mass = 2000 kg\nfront_share = 50 %\n", ""),
                            "[scales]\nfront_left = 500 kg\nfront_right = 500 kg\n"
                            "rear_left = 500 kg\nrear_right = 500 kg\n"));
    make_exact(&sheet);
    for (int i = 0; i < 3; i++)
        state_tolerance(&sheet, lines[i], 40.0, BRAKE_MEASURED);
    state_tolerance(&sheet, frictions[0], 0.04, BRAKE_MEASURED);
    learn_a_stop(400.0, 3.8);
    assert_int_equal(ask(lines, 4, &found, &error), BRAKE_OK);
    assert_true(found.share[0] > 0.5);
    for (int i = 1; i < found.count; i++)
        assert_true(found.share[i] <= found.share[i - 1]);
    assert_combinations_tell(&found);
}

static void lines_alone_are_as_they_were(void **state)
{
    (void)state;
    struct brake_identified found;
    struct brake_error error;
    make();
    assert_int_equal(ask(frictions, 2, &found, &error), BRAKE_OK);
    assert_true(found.before.mean[0] == found.after.mean[0]);
    assert_within(found.learnt[0], 0.0, 1e-12);
    assert_within(found.share[0], 0.0, 1e-9);
}

static void what_is_exact_or_asked_twice_is_refused(void **state)
{
    (void)state;
    struct brake_identified found;
    struct brake_error error;
    const char *const exact[] = {frictions[0], "booster.gain"};
    const char *const twice[] = {frictions[0], frictions[0]};
    make();
    assert_int_equal(ask(exact, 2, &found, &error), BRAKE_E_MISSING);
    assert_string_equal(error.field, "booster.gain");
    assert_int_equal(ask(twice, 2, &found, &error), BRAKE_E_FIT);
    assert_int_equal(ask(frictions, 0, &found, &error), BRAKE_E_SIZE);
    assert_int_equal(brake_identify(&sheet, NULL, BRAKE_IDENTIFY_LINES + 1, &found, &error),
                     BRAKE_E_SIZE);
}

/* Whatever they are, as long as they are drawn and no two are the same. */
static void a_dozen_lines_are_told_of_together(void **state)
{
    (void)state;
    static struct brake_inputs inputs;
    struct brake_identified found;
    struct brake_error error;
    int line[BRAKE_IDENTIFY_LINES];
    int count = 0;
    read_sheet(&sheet, full_text());
    brake_inputs_list(&sheet, NULL, &inputs);
    for (int i = 0; i < inputs.count && count < BRAKE_IDENTIFY_LINES; i++) {
        if (!inputs.input[i].choice)
            line[count++] = inputs.input[i].index;
    }
    assert_int_equal(brake_identify(&sheet, line, count, &found, &error), BRAKE_OK);
    assert_int_equal(found.count, 12);
}

/* Eigenvalues 1, 1 and 4 of 1 + ones, (1, 1, 1) over 3^(1/2) that of 4: by hand. */
static void eigenvalues_of_a_matrix_of_ones(void **state)
{
    (void)state;
    double matrix[9] = {2.0, 1.0, 1.0, 1.0, 2.0, 1.0, 1.0, 1.0, 2.0};
    double value[3];
    double vector[9];
    int most = 0;
    eigen_symmetric(3, matrix, value, vector);
    for (int i = 1; i < 3; i++)
        most = value[i] > value[most] ? i : most;
    assert_within(value[most], 4.0, 1e-14);
    assert_within(value[0] + value[1] + value[2], 6.0, 1e-14);
    for (int i = 0; i < 3; i++)
        assert_within(fabs(vector[3 * i + most]), 1.0 / sqrt(3.0), 1e-14);
}

/* A v = g v for each, and every two of them at a right angle. */
static void eigenvectors_are_turned_by_nothing(void **state)
{
    (void)state;
    enum { N = 4 };
    static const double a[N][N] = {
        {4.0, 1.0, -2.0, 0.5}, {1.0, 3.0, 0.0, 1.5}, {-2.0, 0.0, -1.0, 2.0}, {0.5, 1.5, 2.0, 0.0}};
    double matrix[N][N];
    double value[N];
    double vector[N][N];
    memcpy(matrix, a, sizeof matrix);
    eigen_symmetric(N, matrix[0], value, vector[0]);
    for (int e = 0; e < N; e++) {
        for (int i = 0; i < N; i++) {
            double turned = 0.0;
            double product = 0.0;
            for (int k = 0; k < N; k++) {
                turned += a[i][k] * vector[k][e];
                product += vector[k][i] * vector[k][e];
            }
            assert_within(turned, value[e] * vector[i][e], 1e-13);
            assert_within(product, i == e ? 1.0 : 0.0, 1e-13);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_stop_tells_one_combination),
        cmocka_unit_test(one_line_is_its_own_combination),
        cmocka_unit_test(a_tester_tells_two_combinations),
        cmocka_unit_test(three_of_one_cause_are_told_apart),
        cmocka_unit_test(lines_alone_are_as_they_were),
        cmocka_unit_test(what_is_exact_or_asked_twice_is_refused),
        cmocka_unit_test(a_dozen_lines_are_told_of_together),
        cmocka_unit_test(eigenvalues_of_a_matrix_of_ones),
        cmocka_unit_test(eigenvectors_are_turned_by_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
