/* SPDX-License-Identifier: MIT */
/* Sobol indices of models whose indices are known. */
#include <stdlib.h>
#include <string.h>

#include "../model/near.h"

#include "brake/distribution.h"
#include "study/indices.h"
#include "study/distribution.h"
#include "study/replicates.h"

/* sin x + a sin^2 y + b z^4 sin x over -pi to pi, a = 7, b = 0.1; source: T. Ishigami and T. Homma,
 * ISUMA 1990; variances also in A. Saltelli et al., Global Sensitivity Analysis, The Primer (2008),
 * sec. 4; from memory, derived again by hand:
 * V = a^2/8 + b pi^4/5 + b^2 pi^8/18 + 1/2, V_x = (1 + b pi^4/5)^2/2, V_y = a^2/8, V_z = 0,
 * V_xz = 8 b^2 pi^8/225. */
static void ishigami(const void *context, const double *share, double *output)
{
    (void)context;
    const double x = BRAKE_PI * (2.0 * share[0] - 1.0);
    const double y = BRAKE_PI * (2.0 * share[1] - 1.0);
    const double z = BRAKE_PI * (2.0 * share[2] - 1.0);
    output[0] = sin(x) + 7.0 * sin(y) * sin(y) + 0.1 * z * z * z * z * sin(x);
}

static const struct brake_model ishigami_model = {3, 1, ishigami, NULL};

struct known {
    double first[3], total[3];
};

static struct known known_of_ishigami(void)
{
    const double p4 = BRAKE_PI * BRAKE_PI * BRAKE_PI * BRAKE_PI;
    const double all = 49.0 / 8.0 + 0.1 * p4 / 5.0 + 0.01 * p4 * p4 / 18.0 + 0.5;
    const double x = 0.5 * (1.0 + 0.1 * p4 / 5.0) * (1.0 + 0.1 * p4 / 5.0);
    const double y = 49.0 / 8.0;
    const double xz = 8.0 * 0.01 * p4 * p4 / 225.0;
    return (struct known){{x / all, y / all, 0.0}, {(x + xz) / all, y / all, xz / all}};
}

static bool find(const struct brake_model *model, long base, uint64_t seed,
                 struct brake_index *index)
{
    void *room = malloc(brake_indices_room(model));
    const struct brake_indices_plan plan = {base, seed, room, NULL};
    const bool done = brake_indices(model, &plan, index);
    free(room);
    return done;
}

static void ishigami_has_its_published_indices(void **state)
{
    (void)state;
    struct brake_index index[3];
    const struct known known = known_of_ishigami();
    assert_near(known.first[0], 0.3139, 1e-3);
    assert_near(known.first[1], 0.4424, 1e-3);
    assert_near(known.total[2], 0.2437, 1e-3);
    assert_true(find(&ishigami_model, 65536, 1, index));
    for (int i = 0; i < 3; i++) {
        near_hold(index[i].first, known.first[i], 0.002, "first", __FILE__, __LINE__);
        near_hold(index[i].total, known.total[i], 0.002, "total", __FILE__, __LINE__);
    }
}

/* 95 of 100 of 6 x 200 intervals; those of one seed hang together, so give or take 4. */
static void errors_hold_the_exact_indices_in_about_95_of_100(void **state)
{
    (void)state;
    const struct known known = known_of_ishigami();
    int held = 0;
    for (uint64_t seed = 0; seed < 200; seed++) {
        struct brake_index index[3];
        assert_true(find(&ishigami_model, 512, 100 * seed, index));
        for (int i = 0; i < 3; i++) {
            held += fabs(index[i].first - known.first[i]) <= index[i].first_error;
            held += fabs(index[i].total - known.total[i]) <= index[i].total_error;
        }
    }
    assert_in_range(held, 0.91 * 1200.0, 0.99 * 1200.0);
}

static const double widths[] = {0.05, 0.15, 0.158};

/* Product of 1 + s_i z_i, z normal scores, as torques are products of what they come from. With
 * V = product of (1 + s_i^2) - 1: first s_i^2 / V, total s_i^2 (1 + V) / (1 + s_i^2) / V. */
static void product(const void *context, const double *share, double *output)
{
    (void)context;
    output[0] = 1.0;
    for (int i = 0; i < 3; i++)
        output[0] *= 1.0 + widths[i] * brake_normal_value(share[i]);
}

/* What the variance itself is off by counts too. 95 of 100, give or take 4, of the first and of the
 * total indices. */
static void hold_the_exact_indices(long base)
{
    const struct brake_model model = {3, 1, product, NULL};
    double all = 1.0;
    int held[2] = {0, 0};
    for (int i = 0; i < 3; i++)
        all *= 1.0 + widths[i] * widths[i];
    for (uint64_t seed = 0; seed < 400; seed++) {
        struct brake_index index[3];
        assert_true(find(&model, base, 100 * seed, index));
        for (int i = 0; i < 3; i++) {
            const double square = widths[i] * widths[i];
            const double first = square / (all - 1.0);
            const double total = first * all / (1.0 + square);
            held[0] += fabs(index[i].first - first) <= index[i].first_error;
            held[1] += fabs(index[i].total - total) <= index[i].total_error;
        }
    }
    for (int k = 0; k < 2; k++)
        assert_in_range(held[k], 0.91 * 1200.0, 0.99 * 1200.0);
}

/* `spread` has 64 base samples of 1024, and 1024 of 16384. */
static void errors_hold_the_exact_indices_whatever_the_samples(void **state)
{
    (void)state;
    hold_the_exact_indices(64);
    hold_the_exact_indices(1024);
}

/* Sum of c_i z_i of normal scores z: first and total c_i^2 over the sum of squares. */
static void linear(const void *context, const double *share, double *output)
{
    const double *c = context;
    output[0] = 1e6; /* a large mean takes nothing from small uncertainties */
    output[1] = 5.0;
    for (int i = 0; i < 4; i++)
        output[0] += c[i] * brake_normal_value(share[i]);
}

static void a_linear_model_has_the_squares_of_its_coefficients(void **state)
{
    (void)state;
    const double c[] = {4.0, 2.0, 1.0, 0.0};
    const struct brake_model model = {4, 2, linear, c};
    struct brake_index index[8];
    assert_true(find(&model, 16384, 1, index));
    for (int i = 0; i < 4; i++) {
        near_hold(index[i].first, c[i] * c[i] / 21.0, 0.005, "first", __FILE__, __LINE__);
        near_hold(index[i].total, c[i] * c[i] / 21.0, 0.005, "total", __FILE__, __LINE__);
    }
    /* What moves nothing has none, to the last digit. */
    assert_true(index[3].first == 0.0 && index[3].total == 0.0 && index[3].total_error == 0.0);
}

static void an_output_that_nothing_moves_has_no_indices(void **state)
{
    (void)state;
    const double c[] = {1.0, 1.0, 1.0, 1.0};
    const struct brake_model model = {4, 2, linear, c};
    struct brake_index index[8];
    assert_true(find(&model, 16, 1, index));
    for (int i = 4; i < 8; i++)
        assert_true(isnan(index[i].first) && isnan(index[i].total));
}

/* Linear, but not known where the second share is above the limit. */
static void unknown_above(const void *context, const double *share, double *output)
{
    const double limit = *(const double *)context;
    output[0] = share[1] > limit ? BRAKE_NAN : share[0];
}

static void a_few_unknown_samples_are_left_out(void **state)
{
    (void)state;
    const double limit = 0.96;
    const struct brake_model model = {2, 1, unknown_above, &limit};
    struct brake_index index[2];
    assert_true(find(&model, 16384, 1, index));
    assert_near(index[0].first, 1.0, 0.01);
    assert_near(index[0].total, 1.0, 0.01);
    assert_true(index[1].total == 0.0);
}

static void with_many_unknown_samples_nothing_is_said(void **state)
{
    (void)state;
    const double limit = 0.8;
    const struct brake_model model = {2, 1, unknown_above, &limit};
    struct brake_index index[2];
    assert_true(find(&model, 4096, 1, index));
    assert_true(isnan(index[0].first) && isnan(index[0].total));
}

/* The same in two units, one 1024 of the other: a power of 2 leaves every digit as it is. */
static void two_units(const void *context, const double *share, double *output)
{
    ishigami(context, share, output);
    output[0] += 3.0 * share[0]; /* its mean lies beside its middle */
    output[1] = 1024.0 * output[0];
}

static void units_change_neither_indices_nor_errors(void **state)
{
    (void)state;
    const struct brake_model model = {3, 2, two_units, NULL};
    struct brake_index index[6];
    assert_true(find(&model, 256, 1, index));
    assert_true(index[0].first_error > 0.0);
    assert_memory_equal(&index[0], &index[3], 3 * sizeof index[0]);
}

enum { EACH = 5, BASE = EACH * BRAKE_REPLICATES, INPUTS = 3, ROWS = INPUTS + 2 };

static struct brake_sobol sobol[BRAKE_REPLICATES];

/* A, B, and A with each share of B: the shares of a base sample are those of A and B by turns. */
static void rows_of(long sample, double share[ROWS][INPUTS])
{
    double pair[2 * INPUTS];
    replicates_shares(sobol, EACH, sample, pair);
    for (int row = 0; row < ROWS; row++) {
        for (int i = 0; i < INPUTS; i++)
            share[row][i] = pair[2 * i + (row == 1 || row == 2 + i)];
    }
}

/* What comes of all rows of all base samples, and its mean over A and B. */
static double answers_of_all(double f[BASE][ROWS])
{
    double mean = 0.0;
    for (int k = 0; k < BASE; k++) {
        double share[ROWS][INPUTS];
        double output[2];
        rows_of(k, share);
        for (int row = 0; row < ROWS; row++) {
            two_units(NULL, share[row], output);
            f[k][row] = output[0];
        }
        mean += (f[k][0] + f[k][1]) / (2.0 * BASE);
    }
    return mean;
}

/* By their definitions, with m and V the mean and variance over A and B: first the mean of (f(B)
 * - m) (f(A_B) - f(A)) / V (A. Saltelli et al., Computer Physics Communications 181, 2010, table
 * 2 (b)), total that of (f(A_B) - f(A))^2 / 2V (M. J. W. Jansen, 1999, ibid. (f)), from memory.
 * The error is that of a ratio: the scatter over the replicates of part - index V_r / V. */
static void indices_and_errors_are_those_of_their_definitions(void **state)
{
    (void)state;
    static double f[BASE][ROWS];
    const struct brake_model model = {INPUTS, 2, two_units, NULL};
    struct brake_index index[2 * INPUTS];
    double variance[BRAKE_REPLICATES] = {0.0};
    double all = 0.0;
    replicates_scramble(2 * INPUTS, 1, sobol);
    const double mean = answers_of_all(f);
    for (int k = 0; k < 2 * BASE; k++) {
        const double off = f[k / 2][k % 2] - mean;
        variance[k / 2 / EACH] += off * off / (2.0 * EACH);
        all += off * off / (2.0 * BASE);
    }
    assert_true(find(&model, BASE, 1, index));
    for (int i = 0; i < INPUTS; i++) {
        double first[BRAKE_REPLICATES];
        double total[BRAKE_REPLICATES];
        for (int r = 0; r < BRAKE_REPLICATES; r++) {
            first[r] = -index[i].first * variance[r] / all;
            total[r] = -index[i].total * variance[r] / all;
        }
        double sum[2] = {0.0, 0.0};
        for (int k = 0; k < BASE; k++) {
            const double change = f[k][2 + i] - f[k][0];
            first[k / EACH] += (f[k][1] - mean) * change / all / EACH;
            total[k / EACH] += change * change / 2.0 / all / EACH;
            sum[0] += (f[k][1] - mean) * change / all / BASE;
            sum[1] += change * change / 2.0 / all / BASE;
        }
        assert_near(index[i].first, sum[0], 1e-11);
        assert_near(index[i].total, sum[1], 1e-11);
        assert_near(index[i].first_error, replicates_error(first), 1e-11);
        assert_near(index[i].total_error, replicates_error(total), 1e-11);
    }
}

static int by_size(const void *one, const void *other)
{
    const double a = *(const double *)one;
    const double b = *(const double *)other;
    return (a > b) - (a < b);
}

/* Nine in ten base samples are to be known in both A and B: 72 of 80 are enough, 71 are not. */
static void nine_in_ten_samples_are_to_be_known(void **state)
{
    (void)state;
    double higher[BASE];
    struct brake_index index[INPUTS];
    replicates_scramble(2 * INPUTS, 1, sobol);
    for (int k = 0; k < BASE; k++) {
        double share[ROWS][INPUTS];
        rows_of(k, share);
        higher[k] = fmax(share[0][1], share[1][1]);
    }
    qsort(higher, BASE, sizeof higher[0], by_size);
    for (int known = 71; known <= 72; known++) {
        const double limit = higher[known - 1];
        const struct brake_model model = {INPUTS, 1, unknown_above, &limit};
        assert_true(higher[known - 1] < higher[known]);
        assert_true(find(&model, BASE, 1, index));
        assert_int_equal(isfinite(index[0].first), known == 72);
        assert_int_equal(isfinite(index[0].total), known == 72);
    }
}

static void the_last_moves_it(const void *context, const double *share, double *output)
{
    (void)context;
    output[0] = share[BRAKE_MODEL_INPUTS - 1];
}

/* There is room for as many inputs as the header says; of those that move nothing none has a
 * part. */
static void the_last_of_the_most_inputs_is_told(void **state)
{
    (void)state;
    const struct brake_model model = {BRAKE_MODEL_INPUTS, 1, the_last_moves_it, NULL};
    static struct brake_index index[BRAKE_MODEL_INPUTS];
    assert_true(find(&model, 1024, 1, index));
    for (int i = 0; i < BRAKE_MODEL_INPUTS - 1; i++)
        assert_true(index[i].first == 0.0 && index[i].total == 0.0);
    assert_near(index[BRAKE_MODEL_INPUTS - 1].first, 1.0, 0.05);
    assert_near(index[BRAKE_MODEL_INPUTS - 1].total, 1.0, 0.05);
}

/* Known everywhere but in the middle, which is no sample. */
static void unknown_in_the_middle(const void *context, const double *share, double *output)
{
    (void)context;
    output[0] = share[0] == 0.5 ? BRAKE_NAN : share[0];
    output[1] = share[0] == 0.5 ? BRAKE_NAN : share[1];
}

static void an_unknown_middle_is_no_matter(void **state)
{
    (void)state;
    const struct brake_model model = {2, 2, unknown_in_the_middle, NULL};
    struct brake_index index[4];
    assert_true(find(&model, 4096, 1, index));
    for (int i = 0; i < 4; i++)
        assert_near(index[i].total, i == 0 || i == 3 ? 1.0 : 0.0, 0.01);
}

/* Three outputs and five inputs; what lies about the room that it asks for is left alone. */
static void three_of_five(const void *context, const double *share, double *output)
{
    (void)context;
    for (int i = 0; i < 3; i++)
        output[i] = share[i] + share[i + 1] * share[i + 2];
}

static void nothing_beyond_its_room_is_written(void **state)
{
    (void)state;
    enum { BEFORE = 65536, BEHIND = 65536 };
    const struct brake_model model = {5, 3, three_of_five, NULL};
    const size_t size = brake_indices_room(&model);
    unsigned char *all = malloc(BEFORE + size + BEHIND);
    unsigned char *room = all + BEFORE;
    const struct brake_indices_plan plan = {256, 1, room, NULL};
    struct brake_index index[15];
    memset(all, 0xA5, BEFORE + size + BEHIND);
    assert_true(brake_indices(&model, &plan, index));
    for (size_t i = 0; i < BEHIND; i++)
        assert_int_equal(room[size + i], 0xA5);
    for (size_t i = 0; i < BEFORE; i++)
        assert_int_equal(all[i], 0xA5);
    assert_true(isfinite(index[14].total));
    free(all);
}

static void the_same_seed_gives_the_same_bytes(void **state)
{
    (void)state;
    struct brake_index one[3];
    struct brake_index again[3];
    struct brake_index other[3];
    assert_true(find(&ishigami_model, 256, 1, one));
    assert_true(find(&ishigami_model, 256, 1, again));
    assert_true(find(&ishigami_model, 256, 2, other));
    assert_memory_equal(one, again, sizeof one);
    assert_memory_not_equal(one, other, sizeof one);
}

static void a_study_told_to_stop_stops(void **state)
{
    (void)state;
    const volatile sig_atomic_t stop = 1;
    const struct brake_watch watch = {NULL, NULL, &stop};
    struct brake_index index[3] = {{0.0, 0.0, 0.0, 0.0}};
    void *room = malloc(brake_indices_room(&ishigami_model));
    const struct brake_indices_plan plan = {256, 1, room, &watch};
    assert_false(brake_indices(&ishigami_model, &plan, index));
    assert_true(index[0].first == 0.0);
    free(room);
}

struct told {
    int times;
    double done, total;
};

/* 64 base samples at a time, or what is left; each of as many rows as inputs and two matrices. */
static void hear(void *context, double done, double total)
{
    struct told *told = context;
    assert_true(done == fmin(64.0 * (told->times + 1) * (3.0 + 2.0), total));
    *told = (struct told){told->times + 1, done, total};
}

static void who_watches_is_told_each_block_once_it_is_done(void **state)
{
    (void)state;
    static const long bases[] = {256, 16 * 17};
    struct brake_index index[3];
    void *room = malloc(brake_indices_room(&ishigami_model));
    for (int i = 0; i < 2; i++) {
        struct told told = {0, 0.0, 0.0};
        const struct brake_watch watch = {hear, &told, NULL};
        const struct brake_indices_plan plan = {bases[i], 1, room, &watch};
        assert_true(brake_indices(&ishigami_model, &plan, index));
        assert_int_equal(told.times, 4 + i);
        assert_true(told.total == (double)bases[i] * 5.0 && told.done == told.total);
    }
    free(room);
}

static int calls;

static void count_calls(const void *context, const double *share, double *output)
{
    (void)context;
    if (calls == 0) /* alone, in the middle of everything */
        assert_true(share[0] == 0.5 && share[1] == 0.5);
#pragma omp atomic
    calls++;
    output[0] = share[0];
}

static void the_cost_is_as_said(void **state)
{
    (void)state;
    const struct brake_model model = {2, 1, count_calls, NULL};
    struct brake_index index[2];
    calls = 0;
    assert_true(find(&model, 2048, 1, index));
    assert_int_equal(calls, brake_indices_cost(&model, 2048));
    assert_int_equal(calls, 2048 * 4 + 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ishigami_has_its_published_indices),
        cmocka_unit_test(errors_hold_the_exact_indices_in_about_95_of_100),
        cmocka_unit_test(errors_hold_the_exact_indices_whatever_the_samples),
        cmocka_unit_test(a_linear_model_has_the_squares_of_its_coefficients),
        cmocka_unit_test(an_output_that_nothing_moves_has_no_indices),
        cmocka_unit_test(a_few_unknown_samples_are_left_out),
        cmocka_unit_test(with_many_unknown_samples_nothing_is_said),
        cmocka_unit_test(units_change_neither_indices_nor_errors),
        cmocka_unit_test(indices_and_errors_are_those_of_their_definitions),
        cmocka_unit_test(nine_in_ten_samples_are_to_be_known),
        cmocka_unit_test(the_last_of_the_most_inputs_is_told),
        cmocka_unit_test(an_unknown_middle_is_no_matter),
        cmocka_unit_test(the_same_seed_gives_the_same_bytes),
        cmocka_unit_test(nothing_beyond_its_room_is_written),
        cmocka_unit_test(a_study_told_to_stop_stops),
        cmocka_unit_test(who_watches_is_told_each_block_once_it_is_done),
        cmocka_unit_test(the_cost_is_as_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
