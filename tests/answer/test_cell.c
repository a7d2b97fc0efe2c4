/* SPDX-License-Identifier: MIT */
/* A value in words: the digits people read, no exponent where they can stand, no sign that is
 * lost. */
#include "../model/near.h"

#include "answer/cell.h"

static void assert_words(struct brake_cell cell, const char *expected)
{
    char text[BRAKE_CELL_WORDS];
    brake_cell_words(&cell, BRAKE_SI_FIRST, text, sizeof text);
    assert_string_equal(text, expected);
}

/* Given a gain and a loss, when the other trade's number is large, then both have their sign there
 * too. 1 J = 0.737562 ft*lbf, source: NIST SP 811, appendix B.8. */
static void a_large_difference_keeps_its_sign(void **state)
{
    (void)state;
    const struct brake_unit *kilojoule = brake_unit_find("kJ");
    assert_words(brake_cell_difference(102.2e3, kilojoule), "+102 kJ (+75379 ft*lbf)");
    assert_words(brake_cell_difference(-102.2e3, kilojoule), "-102 kJ (-75379 ft*lbf)");
    assert_words(brake_cell_form(12345.0, NULL, BRAKE_SIGNED_WHOLE), "+12345");
    assert_words(brake_cell_form(-12345.0, NULL, BRAKE_SIGNED_WHOLE), "-12345");
}

/* Given a length in whole millimetres, 66 mm, when it is told in inches, then in tenths: 2.6 in; a
 * limit of 3 in would let 10 mm more pass. */
static void whole_millimetres_are_tenths_of_an_inch(void **state)
{
    (void)state;
    assert_words(brake_cell_form(0.066, brake_unit_find("mm"), BRAKE_WHOLE), "66 mm (2.6 in)");
    assert_words(brake_cell_form(300.0, brake_unit_find("N"), BRAKE_WHOLE), "300 N (67 lbf)");
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

static void assert_told(const char *text, enum brake_systems systems, const char *expected)
{
    char told[BRAKE_TOLD];
    brake_amounts_told(text, systems, told, sizeof told);
    assert_string_equal(told, expected);
}

/* Given a sentence with amounts of the SI trade, when it is told in other units, then each of them
 * is the amount it was; what is no amount stays. 1 bar = 14.50377 psi, 1 lbf = 4.448222 N, 1 degC =
 * 1.8 degF, of temperatures + 32; 1 in3 = 16.38706 cm3; source: NIST SP 811, appendix B.8. */
static void amounts_of_a_sentence_are_told_in_the_readers_units(void **state)
{
    (void)state;
    static const char pressure[] = "there: 81 bar of 97 bar at 500 N.";
    assert_told(pressure, BRAKE_SI_ONLY, pressure);
    assert_told(pressure, BRAKE_US_ONLY, "there: 1175 psi of 1407 psi at 112.4 lbf.");
    assert_told(pressure, BRAKE_SI_FIRST,
                "there: 81 bar (1175 psi) of 97 bar (1407 psi) at 500 N (112.4 lbf).");
    assert_told(pressure, BRAKE_US_FIRST,
                "there: 1175 psi (81 bar) of 1407 psi (97 bar) at 112.4 lbf (500 N).");
    assert_told("12 K above 155 degC", BRAKE_US_ONLY, "21.6 degF rise above 311 degF");
    assert_told("95 % used (12.4 cm3 in all)", BRAKE_US_ONLY, "95 % used (0.7567 in3 in all)");
    assert_told("(100 degC, 0.38)", BRAKE_US_ONLY, "(212 degF, 0.38)");
}

/* Given a range with its unit behind the second number, when it is told in other units, then both
 * ends are the amounts they were. 1 in = 25.4 mm, 1 ft = 0.3048 m; source: NIST SP 811, appendix
 * B.8. */
static void both_ends_of_a_range_are_told_in_the_readers_units(void **state)
{
    (void)state;
    assert_told("ask for 1 to 6 mm and", BRAKE_US_ONLY, "ask for 0.03937 in to 0.2362 in and");
    assert_told("1.0 to 1.7 m2.", BRAKE_US_ONLY, "10.76 ft2 to 18.3 ft2.");
    assert_told("1 to 6 mm", BRAKE_SI_FIRST, "1 mm (0.03937 in) to 6 mm (0.2362 in)");
    assert_told("0.95 to 1.65: 2 mm", BRAKE_US_ONLY, "0.95 to 1.65: 0.07874 in");
    assert_told("1 to 6 %, 2 to x mm", BRAKE_US_ONLY, "1 to 6 %, 2 to x mm");
}

/* Given words that look like amounts, then they stay: g is that of free fall, not the gram. */
static void what_is_no_amount_is_left_alone(void **state)
{
    (void)state;
    static const char *const texts[] = {"above 0.38 g when full",
                                        "FMVSS 135 S7",
                                        "UN R13-H N",
                                        "x16 bar",
                                        "20 barrels",
                                        "5 % of 3",
                                        "2 x 48",
                                        "number 5 mmm",
                                        "after 30 min at rest",
                                        "N",
                                        "10",
                                        ""};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        assert_told(texts[i], BRAKE_US_ONLY, texts[i]);
}

/* Given too little room, when a sentence is told, then it is cut inside it. */
static void a_sentence_is_cut_to_its_room(void **state)
{
    (void)state;
    char told[12];
    brake_amounts_told("97 bar and more", BRAKE_SI_FIRST, told, sizeof told);
    assert_string_equal(told, "97 bar (140");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_large_difference_keeps_its_sign),
        cmocka_unit_test(whole_millimetres_are_tenths_of_an_inch),
        cmocka_unit_test(no_exponent_where_digits_can_stand),
        cmocka_unit_test(a_wide_range_is_read_at_once),
        cmocka_unit_test(amounts_of_a_sentence_are_told_in_the_readers_units),
        cmocka_unit_test(both_ends_of_a_range_are_told_in_the_readers_units),
        cmocka_unit_test(what_is_no_amount_is_left_alone),
        cmocka_unit_test(a_sentence_is_cut_to_its_room),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
