/* SPDX-License-Identifier: MIT */
/* Cells of CSV: RFC 4180, section 2; what a spreadsheet takes for a formula: OWASP, "CSV
 * Injection". */
#include "../model/near.h"

#include <string.h>

#include "answer/csv.h"

static void assert_cell(const char *words, const char *expected)
{
    char cell[BRAKE_CELL_SIZE];
    brake_csv_cell(words, cell, sizeof cell);
    assert_string_equal(cell, expected);
}

static void plain_words_stay(void **state)
{
    (void)state;
    assert_cell("", "");
    assert_cell("part.winch.mass: is missing", "part.winch.mass: is missing");
    assert_cell("a = b - c", "a = b - c");
}

static void commas_and_quotes_stand_in_quotes(void **state)
{
    (void)state;
    assert_cell("a, b", "\"a, b\"");
    assert_cell("got \"x\"", "\"got \"\"x\"\"\"");
    assert_cell("two\nlines", "\"two\nlines\"");
}

static void what_a_spreadsheet_would_run_is_words(void **state)
{
    (void)state;
    assert_cell("=1+2", "'=1+2");
    assert_cell("+1", "'+1");
    assert_cell("-part", "'-part");
    assert_cell("@SUM(A1)", "'@SUM(A1)");
    assert_cell("\t=1", "'\t=1");
    assert_cell("=HYPERLINK(\"x\",\"y\")", "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\"");
}

static void long_words_are_cut_and_closed(void **state)
{
    (void)state;
    char cell[12];
    brake_csv_cell("=\"\"\"\"\"\"\"\"\"\"\"\"", cell, sizeof cell);
    assert_true(strlen(cell) < sizeof cell);
    assert_int_equal(cell[0], '"');
    assert_int_equal(cell[strlen(cell) - 1], '"');
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plain_words_stay),
        cmocka_unit_test(commas_and_quotes_stand_in_quotes),
        cmocka_unit_test(what_a_spreadsheet_would_run_is_words),
        cmocka_unit_test(long_words_are_cut_and_closed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
