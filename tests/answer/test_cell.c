/* A value in words: the digits people read, no exponent where they can stand, no sign that is lost. */
#include "../model/near.h"

#include "answer/cell.h"

static void assert_words(struct brake_cell cell, const char *expected)
{
    char text[BRAKE_CELL_WORDS];
    brake_cell_words(&cell, BRAKE_SI_FIRST, text, sizeof text);
    assert_string_equal(text, expected);
}

/* Given a gain and a loss, when the other trade's number is large, then both have their sign there too.
 * 1 J = 0.737562 ft*lbf, source: NIST SP 811, appendix B.8. */
static void a_large_difference_keeps_its_sign(void **state)
{
    (void)state;
    const struct brake_unit *kilojoule = brake_unit_find("kJ");
    assert_words(brake_cell_difference(102.2e3, kilojoule), "+102 kJ (+75379 ft*lbf)");
    assert_words(brake_cell_difference(-102.2e3, kilojoule), "-102 kJ (-75379 ft*lbf)");
    assert_words(brake_cell_form(12345.0, NULL, BRAKE_SIGNED_WHOLE), "+12345");
    assert_words(brake_cell_form(-12345.0, NULL, BRAKE_SIGNED_WHOLE), "-12345");
}

/* Given more digits before the point than are told, when it is written, then they stand, whole. */
static void no_exponent_where_digits_can_stand(void **state)
{
    (void)state;
    assert_words(brake_cell_number(9999.4, NULL), "9999");
    assert_words(brake_cell_number(9999.6, NULL), "10000");
    assert_words(brake_cell_form(999.7, NULL, BRAKE_THREE_DIGITS), "1000");
    assert_words(brake_cell_form(1293.0, NULL, BRAKE_SIGNED), "+1293");
    assert_words(brake_cell_form(-1293.0, NULL, BRAKE_SIGNED), "-1293");
    assert_words(brake_cell_form(12340.2, NULL, BRAKE_UPWARDS), "12350");
    assert_words(brake_cell_form(12349.8, NULL, BRAKE_DOWNWARDS), "12340");
}

/* Given a half width of three digits, when it is written with two, then it is no power of ten.
 * 1 kg = 2.204623 lb, source: NIST SP 811, appendix B.8. */
static void a_wide_range_is_read_at_once(void **state)
{
    (void)state;
    const struct brake_unit *kilogram = brake_unit_find("kg");
    assert_words(brake_cell_within(1945.0, 150.0, kilogram), "1945 +-150 kg (4288 +-331 lb)");
    assert_words(brake_cell_within(1945.0, 99.6, kilogram), "1945 +-100 kg (4288 +-220 lb)");
    assert_words(brake_cell_within(1945.0, 15.4, kilogram), "1945 +-15 kg (4288 +-34 lb)");
    assert_words(brake_cell_between(2.0, 1.0, 6.0, NULL), "2, 1 to 6");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_large_difference_keeps_its_sign),
        cmocka_unit_test(no_exponent_where_digits_can_stand),
        cmocka_unit_test(a_wide_range_is_read_at_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
