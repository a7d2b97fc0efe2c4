/* SPDX-License-Identifier: MIT */
/* The Sobol sequence; more of it is held against SciPy in ../spread/test_samples.py. */

#include <string.h>

#include "../model/near.h"

#include "study/sobol.h"

static struct brake_sobol sobol;

/* By hand from the direction numbers 1/2, 1/4, 1/8 and 1/2, 3/4, 5/8 of the first two
 * dimensions. */
static void the_first_points_are_those_of_the_direction_numbers(void **state)
{
    (void)state;
    static const double expected[8][2] = {{0.0, 0.0},     {0.5, 0.5},     {0.75, 0.25},
                                          {0.25, 0.75},   {0.375, 0.375}, {0.875, 0.875},
                                          {0.625, 0.125}, {0.125, 0.625}};
    double point[2];
    memset(&sobol, 0x5a, sizeof sobol); /* whatever stood there */
    assert_int_equal(brake_sobol_plain(2, &sobol), BRAKE_OK);
    for (uint32_t i = 0; i < 8; i++) {
        brake_sobol_point(&sobol, i, point);
        assert_true(point[0] == expected[i][0] && point[1] == expected[i][1]);
    }
    /* The Gray code of 2^31 has ones in its last two places alone: 1/2^31 and 1/2^32. */
    brake_sobol_point(&sobol, UINT32_C(1) << 31, point);
    assert_true(point[0] == 3.0 / 4294967296.0);
}

/* Whole numbers m_k of the paper, each the exclusive or of those before it, times powers of two
 * where the polynomial has a coefficient (I. M. Sobol; S. Joe and F. Y. Kuo 2008, equation 2.2);
 * its first dimensions. */
static void direction_numbers_follow_the_polynomial(void **state)
{
    (void)state;
    static const struct {
        int degree;
        unsigned coefficients; /* between the first and the last */
        uint64_t first[5];
    } rows[] = {
        {1, 0, {1}},          {2, 1, {1, 3}},        {3, 1, {1, 3, 1}},       {3, 2, {1, 1, 1}},
        {4, 1, {1, 1, 3, 3}}, {4, 4, {1, 3, 5, 13}}, {5, 2, {1, 1, 5, 5, 17}}};
    enum { ROWS = sizeof rows / sizeof rows[0] };
    assert_int_equal(brake_sobol_plain(ROWS + 1, &sobol), BRAKE_OK);
    for (int i = 0; i < ROWS; i++) {
        const int s = rows[i].degree;
        uint64_t m[BRAKE_SOBOL_BITS];
        for (int k = 0; k < BRAKE_SOBOL_BITS; k++) {
            m[k] = k < s ? rows[i].first[k] : m[k - s] ^ (m[k - s] << s);
            for (int j = 1; k >= s && j < s; j++)
                m[k] ^= (rows[i].coefficients >> (s - 1 - j) & 1) * (m[k - j] << j);
            assert_int_equal(sobol.direction[i + 1][k], m[k] << (31 - k));
        }
    }
}

/* Half of a cell of 2^-32 on from its corner. */
static void the_middle_is_half_a_cell_from_the_point(void **state)
{
    (void)state;
    double point[3];
    double middle[4] = {0.0, 0.0, 0.0, -1.0};
    assert_int_equal(brake_sobol_plain(3, &sobol), BRAKE_OK);
    for (uint32_t index = 0; index < 3; index++) {
        brake_sobol_point(&sobol, index, point);
        brake_sobol_middle(&sobol, index, middle);
        for (int i = 0; i < 3; i++)
            assert_true(middle[i] == point[i] + 0.5 / 4294967296.0);
        assert_true(middle[3] == -1.0);
    }
}

static void numbers_of_dimensions_past_the_table_are_refused(void **state)
{
    (void)state;
    static const int wrong[] = {-1, BRAKE_SOBOL_DIMENSIONS + 1};
    sobol.dimensions = 7;
    for (int i = 0; i < 2; i++) {
        assert_int_equal(brake_sobol_plain(wrong[i], &sobol), BRAKE_E_RANGE);
        assert_int_equal(brake_sobol_scrambled(wrong[i], 1, &sobol), BRAKE_E_RANGE);
        assert_int_equal(sobol.dimensions, 7);
    }
    assert_int_equal(brake_sobol_scrambled(0, 1, &sobol), BRAKE_OK);
}

/* The upper halves of what SplitMix64 gives from seed 0 (its first outputs are known, from memory)
 * make the matrix of the first dimension, whose own direction numbers are those of the plain
 * digits: a one, and random ones behind it. */
static void a_scramble_is_drawn_by_splitmix(void **state)
{
    (void)state;
    static const uint32_t word[] = {0xe220a839, 0x6e789e6a, 0x06c45d18, 0xf88bb8a8, 0x1b39896a};
    assert_int_equal(brake_sobol_scrambled(1, 0, &sobol), BRAKE_OK);
    for (int k = 0; k < 5; k++) {
        const uint32_t one = UINT32_C(1) << (31 - k);
        assert_int_equal(sobol.direction[0][k], one | (word[k] & (one - 1)));
    }
}

/* What lies behind the dimensions that were asked for is left as it was. */
static void no_more_dimensions_are_made_than_asked_for(void **state)
{
    (void)state;
    static struct brake_sobol filled;
    for (int dimensions = 1; dimensions < 4; dimensions++) {
        memset(&filled, 0x5a, sizeof filled);
        sobol = filled;
        assert_int_equal(brake_sobol_scrambled(dimensions, 1, &sobol), BRAKE_OK);
        assert_memory_equal(sobol.direction[dimensions], filled.direction[dimensions],
                            sizeof filled.direction[0]);
        assert_true(sobol.shift[dimensions] == filled.shift[dimensions]);
    }
}

static void the_last_point_that_can_be_asked_for_is_in_the_cube(void **state)
{
    (void)state;
    double point[BRAKE_SOBOL_DIMENSIONS];
    assert_int_equal(brake_sobol_scrambled(BRAKE_SOBOL_DIMENSIONS, 1, &sobol), BRAKE_OK);
    brake_sobol_point(&sobol, UINT32_MAX, point);
    for (int i = 0; i < BRAKE_SOBOL_DIMENSIONS; i++)
        assert_true(point[i] >= 0.0 && point[i] < 1.0);
}

static void a_scramble_moves_the_first_point_off_the_corner(void **state)
{
    (void)state;
    double point[4];
    assert_int_equal(brake_sobol_scrambled(4, 1, &sobol), BRAKE_OK);
    brake_sobol_point(&sobol, 0, point);
    for (int i = 0; i < 4; i++)
        assert_true(point[i] > 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_first_points_are_those_of_the_direction_numbers),
        cmocka_unit_test(direction_numbers_follow_the_polynomial),
        cmocka_unit_test(the_middle_is_half_a_cell_from_the_point),
        cmocka_unit_test(numbers_of_dimensions_past_the_table_are_refused),
        cmocka_unit_test(a_scramble_is_drawn_by_splitmix),
        cmocka_unit_test(no_more_dimensions_are_made_than_asked_for),
        cmocka_unit_test(the_last_point_that_can_be_asked_for_is_in_the_cube),
        cmocka_unit_test(a_scramble_moves_the_first_point_off_the_corner),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
