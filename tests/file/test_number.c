/* SPDX-License-Identifier: MIT */
/* Numbers in words: the C library's own conversions say what is expected. */
#include "../model/near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "brake/file.h"
#include "file/number.h"

static void assert_words(double number, const char *expected)
{
    char text[BRAKE_NUMBER_SIZE];
    const int length = brake_number_write(number, text);
    assert_string_equal(text, expected);
    assert_int_equal(length, strlen(expected));
}

static void plain_numbers_are_written_plainly(void **state)
{
    (void)state;
    assert_words(0.0, "0");
    assert_words(1.0, "1");
    assert_words(-1.5, "-1.5");
    assert_words(2.3, "2.3");
    assert_words(0.1, "0.1");
    assert_words(0.001, "0.001");
    assert_words(1500.0, "1500");
    assert_words(1e14, "100000000000000");
    assert_words(999999.5, "999999.5");
    assert_words(0.1 + 0.2, "0.30000000000000004");
}

static void very_large_and_very_small_numbers_have_an_exponent(void **state)
{
    (void)state;
    assert_words(1e300, "1e+300");
    assert_words(-2.5e-7, "-2.5e-07");
    assert_words(5e-324, "4.94065645841247e-324");
}

/* Fewest of 15, 16 or 17 digits that the C library reads back as the same number. */
static size_t fewest_digits(double number)
{
    char text[64];
    int digits = 15;
    for (; digits < 17; digits++) {
        snprintf(text, sizeof text, "%.*g", digits, number);
        if (strtod(text, NULL) == number)
            break;
    }
    snprintf(text, sizeof text, "%.*g", digits, number);
    return strlen(text);
}

static void assert_reads_back(double number)
{
    char text[BRAKE_NUMBER_SIZE];
    brake_number_write(number, text);
    if (strtod(text, NULL) != number)
        print_error("%.17g is written %s\n", number, text);
    assert_true(strtod(text, NULL) == number);
    assert_true(strlen(text) <= fewest_digits(number));
}

static void every_number_reads_back_as_itself_in_as_few_digits(void **state)
{
    (void)state;
    struct cases cases = {42};
    for (int i = 0; i < 200000; i++) {
        const double size = pow(10.0, any_between(&cases, -6.0, 17.0));
        assert_reads_back(any_between(&cases, -1.0, 1.0) * size);
    }
}

/* Where powers of two and of ten begin, digits and distances to the next number change. */
static void numbers_beside_powers_read_back_as_themselves(void **state)
{
    (void)state;
    for (int i = -16; i <= 50; i++) {
        const double power = pow(2.0, i);
        assert_reads_back(power);
        assert_reads_back(nextafter(power, 0.0));
        assert_reads_back(nextafter(power, BRAKE_INFINITY));
    }
    for (int i = -5; i <= 17; i++) {
        const double power = pow(10.0, i);
        assert_reads_back(power);
        assert_reads_back(nextafter(power, 0.0));
        assert_reads_back(nextafter(power, BRAKE_INFINITY));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plain_numbers_are_written_plainly),
        cmocka_unit_test(very_large_and_very_small_numbers_have_an_exponent),
        cmocka_unit_test(every_number_reads_back_as_itself_in_as_few_digits),
        cmocka_unit_test(numbers_beside_powers_read_back_as_themselves),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
