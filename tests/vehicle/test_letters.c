/* SPDX-License-Identifier: MIT */
/* Letters of UTF-8: RFC 3629, section 4; marks of direction: Unicode Standard Annex 9, section
 * 2. */
#include "../model/near.h"

#include <string.h>

#include "vehicle/letters.h"

static void letters_of_each_length_have_their_code(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        int length;
        unsigned code;
    } known[] = {{"A", 1, 0x41},
                 {"\xc2\x80", 2, 0x80},
                 {"\xc3\xa4", 2, 0xe4},
                 {"\xe0\xa0\x80", 3, 0x800},
                 {"\xe2\x82\xac", 3, 0x20ac},
                 {"\xed\x9f\xbf", 3, 0xd7ff},
                 {"\xf0\x90\x80\x80", 4, 0x10000},
                 {"\xf4\x8f\xbf\xbf", 4, 0x10ffff}};
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        unsigned code = 0;
        assert_int_equal(brake_letter(known[i].text, &code), known[i].length);
        assert_int_equal(code, known[i].code);
    }
}

static void what_only_looks_like_a_letter_is_none(void **state)
{
    (void)state;
    static const char *const wrong[] = {"\x80",
                                        "\xbf",
                                        "\xc0\xaf",
                                        "\xc1\xbf",
                                        "\xe0\x80\xaf",
                                        "\xed\xa0\x80",
                                        "\xed\xbf\xbf",
                                        "\xf0\x80\x80\xaf",
                                        "\xf4\x90\x80\x80",
                                        "\xf8\x88\x80\x80\x80",
                                        "\xff",
                                        "\xe2\x82",
                                        "\xe2"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        unsigned code;
        assert_int_equal(brake_letter(wrong[i], &code), 0);
    }
}

/* EF BB BF: Unicode, sec. 23.8, from memory. */
static void the_mark_before_a_text_has_three_bytes(void **state)
{
    (void)state;
    assert_int_equal(brake_text_mark("\xef\xbb\xbf[vehicle]"), 3);
    assert_int_equal(brake_text_mark("\xef\xbb"), 0);
    assert_int_equal(brake_text_mark("[vehicle]"), 0);
}

static void what_steers_a_terminal_is_shown_as_a_question_mark(void **state)
{
    (void)state;
    static const struct {
        const char *text, *shown;
    } texts[] = {{"plain, \xc3\xa4 and \xe2\x82\xac", "plain, \xc3\xa4 and \xe2\x82\xac"},
                 {"\x1b[31mred", "?[31mred"},
                 {"a\tb", "a b"},
                 {"a\nb\r", "a?b?"},
                 {"\x7f\xc2\x9b", "??"},
                 {"\xe2\x80\xae"
                  "exe",
                  "?exe"},
                 {"\xe2\x81\xa6\xe2\x81\xa9", "??"},
                 {"\xe2\x80\x8e\xd8\x9c", "??"},
                 {"cut \xe2\x82", "cut ??"}};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        char text[64];
        strcpy(text, texts[i].text);
        assert_int_equal(brake_text_is_plain(text), strchr(texts[i].shown, '?') == NULL);
        brake_text_make_plain(text);
        assert_string_equal(text, texts[i].shown);
    }
}

/* Controls but the tab (C0, delete, C1), ends of lines and paragraphs, marks of direction: Unicode,
 * chapter 23; Standard Annex 9, section 2. */
static void letters_that_steer_are_these_and_no_other(void **state)
{
    (void)state;
    static const unsigned ranges[][2] = {{0x00, 0x08},    {0x0a, 0x1f},     {0x7f, 0x9f},
                                         {0x61c, 0x61c},  {0x200e, 0x200f}, {0x2028, 0x202e},
                                         {0x2066, 0x2069}};
    for (unsigned code = 0; code < 0x11000; code++) {
        bool steers = false;
        for (size_t i = 0; i < sizeof ranges / sizeof ranges[0]; i++)
            steers = steers || (code >= ranges[i][0] && code <= ranges[i][1]);
        assert_int_equal(brake_letter_steers(code), steers);
    }
}

static void every_capital_has_its_small_letter(void **state)
{
    (void)state;
    static const char capitals[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    static const char small[] = "abcdefghijklmnopqrstuvwxyz";
    for (int i = 0; i < 26; i++) {
        assert_int_equal(brake_letter_small(capitals[i]), small[i]);
        assert_int_equal(brake_letter_small(small[i]), small[i]);
    }
    for (const char *c = "@[`{09._-\xc3"; *c != '\0'; c++)
        assert_int_equal(brake_letter_small(*c), *c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(letters_of_each_length_have_their_code),
        cmocka_unit_test(what_only_looks_like_a_letter_is_none),
        cmocka_unit_test(the_mark_before_a_text_has_three_bytes),
        cmocka_unit_test(what_steers_a_terminal_is_shown_as_a_question_mark),
        cmocka_unit_test(letters_that_steer_are_these_and_no_other),
        cmocka_unit_test(every_capital_has_its_small_letter),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
