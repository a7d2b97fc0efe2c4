/* SPDX-License-Identifier: MIT */
/* Units: factors, names, ways there and back. Factors: NIST Special Publication 811, Appendix B. */
#include "sheet.h"

#include "brake/units.h"
#include "vehicle/limits.h"
#include "vehicle/trade.h"

static double in_si(double number, const char *name)
{
    const struct brake_unit *unit = brake_unit_find(name);
    assert_non_null(unit);
    return brake_unit_to_si(unit, number);
}

static void units_of_the_us_trade_have_their_exact_factors(void **state)
{
    (void)state;
    assert_near(in_si(1.0, "in"), 0.0254, ROUNDING);
    assert_near(in_si(1.0, "ft"), 0.3048, ROUNDING);
    assert_near(in_si(1.0, "mi"), 1609.344, ROUNDING);
    assert_near(in_si(1.0, "lb"), 0.45359237, ROUNDING);
    assert_near(in_si(1.0, "lbf"), 4.4482216152605, ROUNDING);
    assert_near(in_si(1.0, "mph"), 0.44704, ROUNDING);
    assert_near(in_si(1.0, "in3"), 1.6387064e-5, ROUNDING);
    /* The source gives seven digits of these. */
    assert_near(in_si(1.0, "psi"), 6894.757, 1e-7);
    assert_near(in_si(1.0, "ksi"), 6894757.0, 1e-7);
    assert_near(in_si(1.0, "inHg"), 3386.389, 1e-7);
    assert_near(in_si(1.0, "lbf*ft"), 1.355818, 1e-6);
    assert_near(in_si(1.0, "hp"), 745.6999, 1e-7);
    assert_near(in_si(1.0, "lb*ft2"), 0.04214011, 1e-7);
    assert_near(in_si(1.0, "lbf/in"), 175.1268, 1e-6);
    assert_near(in_si(1.0, "Btu/(lb*degF)"), 4186.8, ROUNDING);
}

/* BIPM, The International System of Units. */
static void units_of_the_metric_trade_have_theirs(void **state)
{
    (void)state;
    assert_near(in_si(36.0, "km/h"), 10.0, ROUNDING);
    assert_near(in_si(1.0, "bar"), 1e5, ROUNDING);
    assert_near(in_si(1.0, "mbar"), 100.0, ROUNDING);
    assert_near(in_si(1.0, "cm3"), 1e-6, ROUNDING);
    assert_near(in_si(1.0, "mL"), 1e-6, ROUNDING);
    assert_near(in_si(1.0, "kgf"), 9.80665, ROUNDING);
    assert_near(in_si(1.0, "g0"), 9.80665, ROUNDING);
    assert_near(in_si(180.0, "deg"), BRAKE_PI, ROUNDING);
    assert_near(in_si(50.0, "%"), 0.5, ROUNDING);
    assert_near(in_si(1.0, "g"), 0.001, ROUNDING);
    assert_near(in_si(1.0, "N/mm"), 1000.0, ROUNDING);
}

static void water_freezes_and_boils_in_every_unit(void **state)
{
    (void)state;
    assert_near(in_si(0.0, "degC"), 273.15, ROUNDING);
    assert_near(in_si(32.0, "degF"), 273.15, ROUNDING);
    assert_near(in_si(212.0, "degF"), 373.15, ROUNDING);
    assert_near(brake_unit_from_si(brake_unit_find("degF"), 373.15), 212.0, ROUNDING);
    /* A rise has no zero to shift. */
    assert_near(in_si(180.0, "degF rise"), 100.0, ROUNDING);
}

static void every_unit_leads_there_and_back(void **state)
{
    (void)state;
    for (int i = 0; brake_unit_at(i) != NULL; i++) {
        const struct brake_unit *unit = brake_unit_at(i);
        assert_true(unit->factor > 0.0);
        assert_near(brake_unit_from_si(unit, brake_unit_to_si(unit, 12.5)), 12.5, 1e-11);
        if (unit->dimension != BRAKE_TEMPERATURE) /* nothing is nothing in every unit */
            assert_equal(brake_unit_to_si(unit, 0.0), 0.0);
    }
    assert_null(brake_unit_at(-1));
    assert_null(brake_unit_at(10000));
}

static void every_dimension_has_an_si_unit_and_one_of_the_us_trade(void **state)
{
    (void)state;
    for (int d = 0; d < BRAKE_DIMENSIONS; d++) {
        const struct brake_unit *si = brake_unit_si((enum brake_dimension)d);
        const struct brake_unit *us = brake_unit_us((enum brake_dimension)d);
        assert_int_equal(si->dimension, d);
        assert_equal(si->factor, 1.0);
        assert_equal(si->offset, 0.0);
        assert_non_null(us);
        assert_int_equal(us->dimension, d);
    }
    assert_string_equal(brake_unit_us(BRAKE_TORQUE)->name, "lbf*ft");
    assert_string_equal(brake_unit_us(BRAKE_TIME)->name, "s");
    assert_string_equal(brake_unit_si(BRAKE_RATIO)->name, "");
}

static void units_stand_in_the_order_of_their_dimensions(void **state)
{
    (void)state;
    for (int i = 1; brake_unit_at(i) != NULL; i++)
        assert_true(brake_unit_at(i)->dimension >= brake_unit_at(i - 1)->dimension);
}

static void a_name_that_is_none_has_no_unit(void **state)
{
    (void)state;
    assert_null(brake_unit_find("furlong"));
    assert_null(brake_unit_find("MM"));
    assert_null(brake_unit_find(" mm"));
    assert_string_equal(brake_unit_find("")->name, "");
}

static void a_kelvin_of_a_difference_is_no_temperature(void **state)
{
    (void)state;
    assert_int_equal(brake_unit_of("K", BRAKE_RISE)->dimension, BRAKE_RISE);
    assert_int_equal(brake_unit_of("K", BRAKE_TEMPERATURE)->dimension, BRAKE_TEMPERATURE);
    assert_null(brake_unit_of("degF", BRAKE_RISE));
    assert_null(brake_unit_of("mm", BRAKE_MASS));
}

static void the_names_of_a_dimension_are_listed(void **state)
{
    (void)state;
    char text[120];
    brake_unit_names(BRAKE_FORCE, text, sizeof text);
    assert_string_equal(text, "N, kN, kgf, lbf");
    brake_unit_names(BRAKE_RATIO, text, sizeof text);
    assert_string_equal(text, "%");
    /* What does not fit is cut, not written past the end. */
    char small[8] = "#######";
    brake_unit_names(BRAKE_FORCE, small, 6);
    assert_string_equal(small, "N, kN");
    assert_int_equal(small[6], '#');
}

/* Given limits in SI, when they are told in a unit of the trade, then in four digits, and none of
 * them is beyond what is accepted: 160 mm are 6.29921 in, 700 mm 27.5591 in. */
static void limits_are_told_in_four_digits_that_are_accepted(void **state)
{
    (void)state;
    const struct brake_unit *inch = brake_unit_find("in");
    assert_string_equal(limits_words(inch, 0.16, 0.7).text, "6.3 to 27.55 in");
    assert_string_equal(limits_words(inch, -0.7, 0.0).text, "-27.55 to 0 in");
    assert_string_equal(limits_words(inch, 0.0254, 0.254).text, "1 to 10 in");
    assert_string_equal(limits_words(brake_unit_find("kg"), 300.0, 12000.0).text,
                        "300 to 12000 kg");
    assert_string_equal(limits_words(brake_unit_find("lb"), 300.0, 12000.0).text,
                        "661.4 to 26450 lb");
    assert_string_equal(limits_words(brake_unit_find(""), 1.5, BRAKE_INFINITY).text, "1.5 to inf");
    /* A ten-millionth beyond four digits is beyond them, the rounding of a double is not. */
    assert_string_equal(limits_words(brake_unit_find(""), 1.0000005, 6.2999995).text,
                        "1.001 to 6.299");
    for (int i = 1; i < 1000; i++) {
        char expected[40];
        snprintf(expected, sizeof expected, "%d to %d mm", i, i + 1);
        assert_string_equal(limits_words(brake_unit_find("mm"), i / 1000.0, (i + 1) / 1000.0).text,
                            expected);
    }
}

/* NIST Special Publication 811, Appendix B: digits as printed there, or exact. */
static const struct {
    const char *name;
    double factor;
    bool us; /* of the US trade */
} every[] = {{"", 1.0, false},
             {"%", 0.01, false},
             {"m", 1.0, false},
             {"mm", 1e-3, false},
             {"cm", 1e-2, false},
             {"km", 1e3, false},
             {"in", 2.54e-2, true},
             {"ft", 0.3048, true},
             {"mi", 1609.344, true},
             {"m2", 1.0, false},
             {"cm2", 1e-4, false},
             {"mm2", 1e-6, false},
             {"in2", 6.4516e-4, true},
             {"ft2", 9.290304e-2, true},
             {"m3", 1.0, false},
             {"cm3", 1e-6, false},
             {"mm3", 1e-9, false},
             {"mL", 1e-6, false},
             {"L", 1e-3, false},
             {"in3", 1.6387064e-5, true},
             {"rad", 1.0, false},
             {"deg", 1.745329e-2, false},
             {"s", 1.0, false},
             {"ms", 1e-3, false},
             {"min", 60.0, false},
             {"h", 3600.0, false},
             {"m/s", 1.0, false},
             {"km/h", 2.777778e-1, false},
             {"mph", 0.44704, true},
             {"ft/s", 0.3048, true},
             {"m/s2", 1.0, false},
             {"g0", 9.80665, false},
             {"ft/s2", 0.3048, true},
             {"kg", 1.0, false},
             {"g", 1e-3, false},
             {"t", 1e3, false},
             {"lb", 0.45359237, true},
             {"N", 1.0, false},
             {"kN", 1e3, false},
             {"kgf", 9.80665, false},
             {"lbf", 4.448222, true},
             {"Pa", 1.0, false},
             {"kPa", 1e3, false},
             {"MPa", 1e6, false},
             {"bar", 1e5, false},
             {"mbar", 1e2, false},
             {"psi", 6.894757e3, true},
             {"ksi", 6.894757e6, true},
             {"inHg", 3.386389e3, true},
             {"N*m", 1.0, false},
             {"N*mm", 1e-3, false},
             {"lbf*ft", 1.355818, true},
             {"lbf*in", 1.129848e-1, true},
             {"J", 1.0, false},
             {"kJ", 1e3, false},
             {"MJ", 1e6, false},
             {"ft*lbf", 1.355818, true},
             {"W", 1.0, false},
             {"kW", 1e3, false},
             {"hp", 7.456999e2, true},
             {"kg*m2", 1.0, false},
             {"lb*ft2", 4.214011e-2, true},
             {"N/m", 1.0, false},
             {"N/mm", 1e3, false},
             {"lbf/in", 1.751268e2, true},
             {"Pa/kg", 1.0, false},
             {"bar/kg", 1e5, false},
             {"psi/lb", 6894.757 / 0.45359237, true},
             {"N*m/Pa", 1.0, false},
             {"N*m/bar", 1e-5, false},
             {"lbf*ft/psi", 1.355818 / 6894.757, true},
             {"K", 1.0, false},
             {"degC", 1.0, false},
             {"degF", 5.0 / 9.0, true},
             {"degF rise", 5.0 / 9.0, true},
             {"J/(kg*K)", 1.0, false},
             {"Btu/(lb*degF)", 4.1868e3, true}};

static void every_unit_has_the_factor_of_its_table(void **state)
{
    (void)state;
    int told = 0;
    for (size_t i = 0; i < sizeof every / sizeof every[0]; i++) {
        const struct brake_unit *unit = brake_unit_find(every[i].name);
        assert_non_null(unit);
        assert_near(unit->factor, every[i].factor, 4e-7);
        assert_int_equal(brake_unit_of_us_trade(unit), every[i].us);
        assert_true(unit->offset == 0.0 || strncmp(unit->name, "deg", 3) == 0);
    }
    while (brake_unit_at(told) != NULL)
        told++;
    /* The kelvin stands twice: of temperatures and of their rise. */
    assert_int_equal(told, sizeof every / sizeof every[0] + 1);
    assert_equal(brake_unit_of("K", BRAKE_RISE)->factor, 1.0);
    assert_equal(brake_unit_of("K", BRAKE_RISE)->offset, 0.0);
    assert_equal(brake_unit_find("degF rise")->offset, 0.0);
}

/* What stands in brackets beside a number: of lengths in metres feet, not inches; of a vacuum
 * inches of mercury; of shares and times themselves. */
static void a_unit_has_one_of_the_us_trade_beside_it(void **state)
{
    (void)state;
    static const char *const pairs[][2] = {
        {"m", "ft"},    {"mm", "in"},    {"cm", "in"},      {"km", "mi"},     {"m2", "ft2"},
        {"cm2", "in2"}, {"kPa", "inHg"}, {"bar", "psi"},    {"MPa", "psi"},   {"N", "lbf"},
        {"kg", "lb"},   {"km/h", "mph"}, {"N*m", "lbf*ft"}, {"degC", "degF"}, {"%", "%"},
        {"s", "s"},     {"min", "min"}};
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++)
        assert_string_equal(brake_unit_beside(brake_unit_find(pairs[i][0]))->name, pairs[i][1]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(units_of_the_us_trade_have_their_exact_factors),
        cmocka_unit_test(units_of_the_metric_trade_have_theirs),
        cmocka_unit_test(water_freezes_and_boils_in_every_unit),
        cmocka_unit_test(every_unit_leads_there_and_back),
        cmocka_unit_test(every_dimension_has_an_si_unit_and_one_of_the_us_trade),
        cmocka_unit_test(units_stand_in_the_order_of_their_dimensions),
        cmocka_unit_test(a_name_that_is_none_has_no_unit),
        cmocka_unit_test(a_kelvin_of_a_difference_is_no_temperature),
        cmocka_unit_test(the_names_of_a_dimension_are_listed),
        cmocka_unit_test(limits_are_told_in_four_digits_that_are_accepted),
        cmocka_unit_test(every_unit_has_the_factor_of_its_table),
        cmocka_unit_test(a_unit_has_one_of_the_us_trade_beside_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
