/* SPDX-License-Identifier: MIT */
/* Numbers to and from text: the C library's own conversions, in the locale C, say what is
 * expected. */
#define _XOPEN_SOURCE 700 /* NOLINT: mkdtemp, setenv */
#include "../model/near.h"

#include <float.h>
#include <limits.h>
#include <stdint.h>

#include "../locale/other.h"
#include "vehicle/text.h"

/* An argument of a format is checked by the compiler only when the format is a literal. */
#define AS_IN_C(...)                                                                               \
    do {                                                                                           \
        char ours[1000];                                                                           \
        char theirs[1000];                                                                         \
        assert_int_equal(brake_text_format(ours, sizeof ours, __VA_ARGS__),                        \
                         snprintf(theirs, sizeof theirs, __VA_ARGS__));                            \
        assert_string_equal(ours, theirs);                                                         \
    } while (0)

/* clang-format off */
static const double values[] = {
    0.0, -0.0, 1.0, -1.5, 2.0 / 3.0, 1e-5, 123456.0, 1234567, 9.9995e3, 0.5, 2.5, 1e22, -1e100, 5e-324,
    DBL_MAX, DBL_MIN, -DBL_MAX, BRAKE_INFINITY, -BRAKE_INFINITY, BRAKE_NAN};
/* clang-format on */

static void reals_are_written_as_in_c(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        const double v = values[i];
        AS_IN_C("%g", v);
        AS_IN_C("%f", v);
        AS_IN_C("%e", v);
        AS_IN_C("%.0f|%#.0f", v, v);
        AS_IN_C("%9.4g|%-9.4g|%+9.3g|% .3g", v, v, v, v);
        AS_IN_C("%012.3f|%-12.3f|%+.2e", v, v, v);
        AS_IN_C("%*.*f|%-*.*g", 12, 3, v, 14, 6, v);
        AS_IN_C("%.17g|%.15g|%.10f", v, v, v);
        AS_IN_C("%#g|%.0e|%#.0e", v, v, v);
    }
}

static void whole_numbers_are_written_as_in_c(void **state)
{
    (void)state;
    static const long long whole[] = {0, 1, -1, 42, -12345, INT_MAX, INT_MIN, LLONG_MAX, LLONG_MIN};
    for (size_t i = 0; i < sizeof whole / sizeof whole[0]; i++) {
        const int d = (int)whole[i];
        AS_IN_C("%d|%5d|%-5d|%05d|%+d|%.3d|%i", d, d, d, d, d, d, d);
        AS_IN_C("%u|%x|%#x|%08x", (unsigned)d, (unsigned)d, (unsigned)d, (unsigned)d);
        AS_IN_C("%ld|%lu|%lld|%llu", (long)whole[i], (unsigned long)whole[i], whole[i],
                (unsigned long long)whole[i]);
        AS_IN_C("%zu|%6zu", (size_t)whole[i], (size_t)whole[i]);
        AS_IN_C("%zd|%6zd", (ptrdiff_t)whole[i], (ptrdiff_t)whole[i]);
    }
}

static void text_is_written_as_in_c(void **state)
{
    (void)state;
    static const char *const texts[] = {"", "a", "seven.7", "\xc3\xa4", "a longer text, 12.5"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        AS_IN_C("%s|%8s|%-8s|%.3s|%8.2s", texts[i], texts[i], texts[i], texts[i], texts[i]);
        AS_IN_C("%*s|%-*s|%.*s", 9, texts[i], 9, texts[i], 4, texts[i]);
    }
    AS_IN_C("%.0s|%.1s|%3.0s|%.*s|%.*s", "abc", "abc", "abc", 0, "abc", -1, "abc");
    AS_IN_C("%.0d|%.0d|%.0u|%.0x", 0, 7, 0u, 0u); /* of no digits a 0 has none */
    AS_IN_C("100 %% of %c%3c", 'a', 'b');
    AS_IN_C("%*d|%-*d", -6, 7, 6, 7);
}

/* Five flags there are; one that stands twice says no more than once. */
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat"
static void all_flags_count_each_once(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        const double v = values[i];
        AS_IN_C("%0 #+-14.3g|%-+ #014.3g|%+ #-014.3g|% #0-+14.3g", v, v, v, v);
        AS_IN_C("%#+014.3g|%+0#14.3g|%#0 14.3g|%0# 14.3g", v, v, v, v);
    }
    AS_IN_C("%++++++5d|%------5d|%+++++++5d|", 7, 7, 7);
    /* A width below 0 says the same as the flag -, and leaves the others. */
    AS_IN_C("%+*d|%0*d|% *d|%#*x|%+0*d|%*.*f", -6, 7, -6, 7, -6, 7, -6, 7u, -6, 7, -9, -2, 1.5);
}
#pragma GCC diagnostic pop

/* What goes to a stream is what goes to a room, as long as it says. */
static void a_stream_gets_the_same_text(void **state)
{
    (void)state;
    char expected[200];
    char text[200] = "";
    FILE *stream = tmpfile();
    assert_non_null(stream);
    const int length = brake_text_format(expected, sizeof expected, "%s|%8.3f|%-6d|%c|%zu %%\n",
                                         "word", 1.0 / 3.0, -12, 'x', sizeof expected);
    assert_int_equal(brake_text_print(stream, "%s|%8.3f|%-6d|%c|%zu %%\n", "word", 1.0 / 3.0, -12,
                                      'x', sizeof expected),
                     length);
    rewind(stream);
    assert_int_equal(fread(text, 1, sizeof text - 1, stream), length);
    assert_string_equal(text, expected);
    fclose(stream);
}

static void a_text_is_cut_to_its_room_and_ends(void **state)
{
    (void)state;
    for (size_t size = 0; size < 12; size++) {
        char ours[16] = "***************";
        char theirs[16] = "***************";
        assert_int_equal(brake_text_format(ours, size, "%.2f mm", 12.345),
                         snprintf(theirs, size, "%.2f mm", 12.345));
        assert_memory_equal(ours, theirs, sizeof ours);
    }
}

static uint64_t next(uint64_t *seed)
{
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return *seed;
}

static void assert_reads(const char *text)
{
    double ours = -1.0;
    const double theirs = strtod(text, NULL);
    assert_int_equal(brake_text_number_length(text), strlen(text));
    assert_true(brake_text_number(text, strlen(text), &ours));
    if (memcmp(&ours, &theirs, sizeof ours) != 0)
        print_error("%s was read as %.17g\n", text, ours);
    assert_memory_equal(&ours, &theirs, sizeof ours);
}

/* Every bit of 100,000 numbers, in the forms that a person or a program writes. */
static void random_numbers_are_read_as_in_c(void **state)
{
    (void)state;
    static const char *const forms[] = {"%.17g", "%.3f", "%+.9e", "%.1f", "%.25f", "%E"};
    uint64_t draw = 20;
    for (int i = 0; i < 100000; i++) {
        char text[400];
        const uint64_t bits = next(&draw);
        double number;
        memcpy(&number, &bits, sizeof number);
        if (i % 2 == 0) /* of the sizes that occur */
            number = ((double)(bits >> 11) * 0x1p-53 - 0.5) * 1e5;
        if (!isfinite(number))
            continue;
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
        snprintf(text, sizeof text, forms[(bits >> 20) % 6], number);
#pragma GCC diagnostic pop
        if (strlen(text) <= 300)
            assert_reads(text);
    }
}

static void the_limits_of_reading(void **state)
{
    (void)state;
    char digits[302];
    double number;
    memset(digits, '7', sizeof digits);
    digits[300] = '\0';
    assert_reads(digits);
    digits[300] = '7';
    digits[301] = '\0';
    assert_false(brake_text_number(digits, 301, &number));
    static const char *const right[] = {"1e1000000000",
                                        "-1e1000000000",
                                        "1e-1000000000",
                                        "0e1000000000",
                                        "1e99999999999999999999",
                                        "5.",
                                        ".5",
                                        "-.5e1",
                                        "+1",
                                        "00012.50",
                                        "1E5",
                                        "4.9e-324",
                                        "2e-324"};
    for (size_t i = 0; i < sizeof right / sizeof right[0]; i++)
        assert_reads(right[i]);
    static const char *const none[] = {"",  ".", "..",  "e5",  "+-1", "-",
                                       "+", "x", "inf", "nan", " 1"};
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++) {
        assert_int_equal(brake_text_number_length(none[i]), 0);
        assert_false(brake_text_number(none[i], strlen(none[i]), &number));
    }
    assert_int_equal(brake_text_number_length("1.2.3"), 5);
    assert_false(brake_text_number("1.2.3", 5, &number));
    assert_int_equal(brake_text_number_length("1e"), 1);
    assert_int_equal(brake_text_number_length("1e+ 5"), 1);
    assert_int_equal(brake_text_number_length("1,5"), 1);
    assert_int_equal(brake_text_number_length("0x10"), 1);
}

/* What C wrote before the locale was entered. */
static void another_point_changes_nothing(const char *locale, const char *decimal)
{
    enum { COUNT = sizeof values / sizeof values[0] };
    static char expected[COUNT][1000];
    char text[1000];
    static const char form[] = "%g|%.3f|%e|%#.0f|%-12.2f|%012.3f";
    setlocale(LC_ALL, "C");
    for (size_t i = 0; i < COUNT; i++) {
        const double v = values[i];
        snprintf(expected[i], sizeof expected[i], form, v, v, v, v, v, v);
    }
    enter_locale(locale, decimal);
    for (size_t i = 0; i < COUNT; i++) {
        const double v = values[i];
        double number;
        brake_text_format(text, sizeof text, form, v, v, v, v, v, v);
        assert_string_equal(text, expected[i]);
        if (isfinite(v)) {
            brake_text_format(text, sizeof text, "%.17g", v);
            assert_true(brake_text_number(text, strlen(text), &number));
            assert_memory_equal(&number, &v, sizeof v);
        }
    }
    setlocale(LC_ALL, "C");
}

static void a_decimal_comma_changes_nothing(void **state)
{
    (void)state;
    another_point_changes_nothing("comma", ",");
}

static void a_point_of_two_bytes_changes_nothing(void **state)
{
    (void)state;
    another_point_changes_nothing("arabic", "\xd9\xab");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reals_are_written_as_in_c),
        cmocka_unit_test(whole_numbers_are_written_as_in_c),
        cmocka_unit_test(text_is_written_as_in_c),
        cmocka_unit_test(all_flags_count_each_once),
        cmocka_unit_test(a_stream_gets_the_same_text),
        cmocka_unit_test(a_text_is_cut_to_its_room_and_ends),
        cmocka_unit_test(random_numbers_are_read_as_in_c),
        cmocka_unit_test(the_limits_of_reading),
        cmocka_unit_test(a_decimal_comma_changes_nothing),
        cmocka_unit_test(a_point_of_two_bytes_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
