/* SPDX-License-Identifier: MIT */
/* The one way of text into a page: what is markup becomes words, what is no character becomes
 * U+FFFD. Expected values: HTML Living Standard, sec. 13.1.4 (character references) and 3.2.5.3
 * (text); RFC 3629, sec. 3 and 4 (UTF-8). */
#include "../vehicle/sheet.h"

#include <stdio.h>
#include <string.h>

#include "answer/page.h"

#define BROKEN "\xEF\xBF\xBD"

static char written[9000];

static const char *escaped(const char *text)
{
    FILE *file = tmpfile();
    assert_non_null(file);
    brake_page_text(file, text);
    rewind(file);
    written[fread(written, 1, sizeof written - 1, file)] = '\0';
    assert_int_equal(fclose(file), 0);
    return written;
}

static void markup_becomes_words(void **state)
{
    (void)state;
    assert_string_equal(escaped("<b a=\"x\" c='y'>&amp;</b>"),
                        "&lt;b a=&quot;x&quot; c=&#39;y&#39;&gt;&amp;amp;&lt;/b&gt;");
}

static void letters_of_all_scripts_stay(void **state)
{
    static const char *const texts[] = {
        "",      "Heron, after refit", "Überführung",     "山岳救助車",
        "سيارة", "\xF0\x9F\x9A\x99",   "\xF4\x8F\xBF\xBD"};
    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        assert_string_equal(escaped(texts[i]), texts[i]);
}

static void ends_of_lines_become_blanks(void **state)
{
    (void)state;
    assert_string_equal(escaped("(15 bar, 15 bar)\n\t(25 bar)\r"), "(15 bar, 15 bar)  (25 bar) ");
}

static void every_control_is_replaced(void **state)
{
    (void)state;
    for (int letter = 1; letter < 0xA0; letter++) {
        const bool low = letter < 0x20;
        const bool blank = letter == '\n' || letter == '\t' || letter == '\r';
        const char one[] = {(char)letter, '\0'};
        const char two[] = {'\xC2', (char)letter, '\0'};
        if (low && !blank)
            assert_string_equal(escaped(one), BROKEN);
        if (letter >= 0x80)
            assert_string_equal(escaped(two), BROKEN);
    }
    assert_string_equal(escaped("\x7F"), BROKEN);
    assert_string_equal(escaped("\xEF\xBF\xBE\xEF\xBF\xBF"), BROKEN BROKEN);
}

/* Each broken byte alone, so that no letter after it is lost. */
static void broken_utf8_is_replaced(void **state)
{
    static const struct {
        const char *given;
        const char *expected;
    } cases[] = {
        {"\x80<", BROKEN "&lt;"}, /* begins in the middle */
        {"\xC3<", BROKEN "&lt;"}, /* ends in the middle */
        {"\xC3", BROKEN},         /* and the text with it */
        {"\xE5\xB1", BROKEN BROKEN},
        {"\xC0\xAF", BROKEN BROKEN}, /* longer than need be */
        {"\xE0\x80\xAF", BROKEN BROKEN BROKEN},
        {"\xED\xA0\x80", BROKEN BROKEN BROKEN},            /* half a pair of UTF-16 */
        {"\xF4\x90\x80\x80", BROKEN BROKEN BROKEN BROKEN}, /* past the last */
        {"\xFF\xFE", BROKEN BROKEN},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
        assert_string_equal(escaped(cases[i].given), cases[i].expected);
}

static void long_text_is_whole(void **state)
{
    static char given[1500];
    (void)state;
    memset(given, '<', sizeof given - 1);
    assert_int_equal(strlen(escaped(given)), 4 * (sizeof given - 1));
}

static void an_element_closes_by_its_name(void **state)
{
    (void)state;
    FILE *file = tmpfile();
    assert_non_null(file);
    brake_page_element(file, "th scope=\"col\"", "a<b");
    rewind(file);
    written[fread(written, 1, sizeof written - 1, file)] = '\0';
    assert_int_equal(fclose(file), 0);
    assert_string_equal(written, "<th scope=\"col\">a&lt;b</th>\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(markup_becomes_words),
        cmocka_unit_test(letters_of_all_scripts_stay),
        cmocka_unit_test(ends_of_lines_become_blanks),
        cmocka_unit_test(every_control_is_replaced),
        cmocka_unit_test(broken_utf8_is_replaced),
        cmocka_unit_test(long_text_is_whole),
        cmocka_unit_test(an_element_closes_by_its_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
