/* SPDX-License-Identifier: MIT */
/* Tyre markings, radii, wheel inertia, speedometer. */
#include <stdio.h>
#include <string.h>

#include "near.h"

#include "brake/tyre.h"

/* What a marking must be read as; widths and diameters in millimetres, speed in km/h. */
struct reading {
    const char *text;
    enum brake_status status;
    double width;
    double aspect;
    double rim;
    double diameter;
    double load;
    double speed;
    bool radial;
};

static void hold_reading(const struct reading *expected)
{
    struct brake_marking m;
    print_message("  %s\n", expected->text);
    assert_int_equal(brake_marking_read(expected->text, &m), expected->status);
    assert_near(m.section_width, expected->width / 1000.0, ROUNDING);
    assert_near(m.aspect, expected->aspect, ROUNDING);
    assert_near(m.rim_diameter, expected->rim / 1000.0, ROUNDING);
    assert_near(m.overall_diameter, expected->diameter / 1000.0, ROUNDING);
    assert_near(m.load_capacity, expected->load, ROUNDING);
    assert_near(m.speed_limit, expected->speed / 3.6, ROUNDING);
    assert_int_equal(m.radial, expected->radial);
}

/* Diameter = rim + 2 x width x aspect, rim in whole millimetres (UN R30 and R54, par. 6.1.2); load
 * index and speed symbol of UN R30, Annex 4 and par. 2. */
static void a_metric_marking_gives_size_load_and_speed(void **state)
{
    (void)state;
    static const struct reading metric[] = {
        {"265/70R17", BRAKE_OK, 265, 0.70, 432, 803.0, 0, 0, true},
        {"265/70R17 115T", BRAKE_OK, 265, 0.70, 432, 803.0, 1215, 190, true},
        {"265/70R17 115", BRAKE_OK, 265, 0.70, 432, 803.0, 1215, 0, true},
        {"P265/70R17 113S", BRAKE_OK, 265, 0.70, 432, 803.0, 1150, 180, true},
        {"LT305/70R17 121/118Q", BRAKE_OK, 305, 0.70, 432, 859.0, 1450, 160, true},
        {"195/75R16C", BRAKE_OK, 195, 0.75, 406, 698.5, 0, 0, true},
        {"195/75R16C 107/105R", BRAKE_OK, 195, 0.75, 406, 698.5, 975, 170, true},
        {"245/75R16LT", BRAKE_OK, 245, 0.75, 406, 773.5, 0, 0, true},
        {"275/40ZR20 106Y", BRAKE_OK, 275, 0.40, 508, 728.0, 950, 300, true},
        {"155/80D13", BRAKE_OK, 155, 0.80, 330, 578.0, 0, 0, false},
        {"205/75-15", BRAKE_OK, 205, 0.75, 381, 688.5, 0, 0, false},
        {"225/60B16", BRAKE_OK, 225, 0.60, 406, 676.0, 0, 0, false},
        {"315/75R16.5", BRAKE_OK, 315, 0.75, 419, 891.5, 0, 0, true},
        /* no aspect ratio: 82 % (DVSA inspection manual, section 5) */
        {"185R14", BRAKE_W_ASSUMED, 185, 0.82, 356, 659.4, 0, 0, true},
        {"185R14C 102/100Q", BRAKE_W_ASSUMED, 185, 0.82, 356, 659.4, 850, 160, true},
    };
    for (size_t i = 0; i < sizeof metric / sizeof metric[0]; i++)
        hold_reading(&metric[i]);
}

/* The marked diameter is kept as the nominal one; aspect = (diameter - rim) / (2 x width) follows
 * from the definition. */
static void a_flotation_marking_is_nominal(void **state)
{
    (void)state;
    static const struct reading flotation[] = {
        {"35x12.50R17LT", BRAKE_W_NOMINAL, 317.5, 457.0 / 635.0, 432, 889.0, 0, 0, true},
        {"35X12.50R17LT 121Q", BRAKE_W_NOMINAL, 317.5, 457.0 / 635.0, 432, 889.0, 1450, 160, true},
        {"31x10.50-15", BRAKE_W_NOMINAL, 266.7, 406.4 / 533.4, 381, 787.4, 0, 0, false},
        {"37x12.50R17", BRAKE_W_NOMINAL, 317.5, 507.8 / 635.0, 432, 939.8, 0, 0, true},
        {"37x12.50R17LT 124Q E", BRAKE_W_NOMINAL, 317.5, 507.8 / 635.0, 432, 939.8, 1600, 160,
         true},
        {"37x12.50R17LT E", BRAKE_W_NOMINAL, 317.5, 507.8 / 635.0, 432, 939.8, 0, 0, true},
        {"37x12.50R17LT E 124Q", BRAKE_W_NOMINAL, 317.5, 507.8 / 635.0, 432, 939.8, 1600, 160,
         true},
    };
    for (size_t i = 0; i < sizeof flotation / sizeof flotation[0]; i++)
        hold_reading(&flotation[i]);
}

/* Inch sizes have no aspect ratio: 1.04 (fitted to UN R54 Annex 5, from memory). */
static void a_numeric_marking_assumes_the_section_height(void **state)
{
    (void)state;
    static const struct reading numeric[] = {
        {"7.50R16", BRAKE_W_ASSUMED, 190.5, 1.04, 406, 802.24, 0, 0, true},
        {"7.50R16C 112/110N", BRAKE_W_ASSUMED, 190.5, 1.04, 406, 802.24, 1120, 140, true},
        {"6.00-16LT", BRAKE_W_ASSUMED, 152.4, 1.04, 406, 722.992, 0, 0, false},
        {"9R22.5", BRAKE_W_ASSUMED, 228.6, 1.04, 572, 1047.488, 0, 0, true},
    };
    for (size_t i = 0; i < sizeof numeric / sizeof numeric[0]; i++)
        hold_reading(&numeric[i]);
}

static void spaces_between_the_parts_change_nothing(void **state)
{
    (void)state;
    static const char *const same[][2] = {
        {"265/70R17 115T", "  265 / 70  R 17   115 T "},
        {"LT305/70R17 121/118Q", "LT 305/70 R17 121 / 118 Q"},
        {"P265/70R17", "P 265/70 R 17"},
        {"195/75R16C 107/105R", "195/75 R16 C 107/105R"},
        {"35x12.50R17LT", "35 x 12.50 R 17 LT"},
        {"7.50R16 112N", " 7.50 R 16 112N"},
        {"7.50-16", "7.50 - 16"},
    };
    for (size_t i = 0; i < sizeof same / sizeof same[0]; i++) {
        struct brake_marking plain;
        struct brake_marking spaced;
        const enum brake_status status = brake_marking_read(same[i][0], &plain);
        assert_true(status >= 0);
        assert_int_equal(brake_marking_read(same[i][1], &spaced), status);
        assert_equal(spaced.overall_diameter, plain.overall_diameter);
        assert_equal(spaced.section_width, plain.section_width);
        assert_equal(spaced.load_capacity, plain.load_capacity);
        assert_equal(spaced.speed_limit, plain.speed_limit);
    }
}

static void a_text_that_is_no_marking_is_refused_and_gives_nothing(void **state)
{
    (void)state;
    static const char *const malformed[] = {
        "",
        "   ",
        "R17",
        "LT",
        "P",
        "tyre",
        "265",
        "265/70",
        "265/70R",
        "265/70 17",
        "37x12.50R17LT EX",
        "60x23.65R17", /* 600.7 mm wide */
        "265/R17",
        "265/70Q17",
        "265/70r17",
        "-265/70R17",
        "26512/70R17",
        "265/70R17115T",
        "99/70R17",         /* a section of 99 in */
        "510/70R17",        /* wider than any */
        "265/15R17",        /* lower than any */
        "265/115R17",       /* higher than any */
        "265/70R7",         /* rim too small */
        "265/70R31",        /* rim too large */
        "265/70R17 59T",    /* below the load index table */
        "265/70R17 131T",   /* above it */
        "265/70R17 115.5T", /* half a load index */
        "265/70R17 115I",   /* no such speed symbol */
        "265/70R17 115TT",  /* two of them */
        "265/70R17 T",      /* without a load index */
        "265/70R17 115/T",  /* twin index left out */
        "265/70R17 115/140T",
        "265/70R17X",
        "x12.50R17",
        "19x12.50R17", /* diameter too small */
        "61x12.50R17", /* too large */
        "35xR17",      /* no width */
        "35x3R17",     /* too narrow */
        "35x24R17",    /* too wide */
        "35x12.50R7",  /* rim too small */
        "35x12.50R35", /* as large as the tyre */
        "35x12.50 17", /* no construction letter */
        "35x12.50R17LT 500Q",
        "3.90R16", /* too narrow */
        "15.5R16", /* too wide */
        "7.50 16", /* no construction letter */
        "7.50R7",  /* rim too small */
        "7.50R31", /* too large */
        "7..50R16",
        "7.R16",
        "0R16",
    };
    for (size_t i = 0; i < sizeof malformed / sizeof malformed[0]; i++) {
        static const struct brake_marking none;
        struct brake_marking m;
        memset(&m, 0x55, sizeof m);
        if (brake_marking_read(malformed[i], &m) != BRAKE_E_MARKING)
            fail_msg("'%s' was taken for a tyre marking", malformed[i]);
        assert_equal(m.section_width, none.section_width);
        assert_equal(m.aspect, none.aspect);
        assert_equal(m.rim_diameter, none.rim_diameter);
        assert_equal(m.overall_diameter, none.overall_diameter);
        assert_equal(m.load_capacity, none.load_capacity);
        assert_equal(m.speed_limit, none.speed_limit);
        assert_false(m.radial);
    }
}

/* The bounds of what is taken for a tyre belong to it; one step outside is refused above. */
static void the_smallest_and_the_largest_sizes_are_read(void **state)
{
    (void)state;
    static const char *const extreme[] = {
        "100/80R10", "500/70R17",   "265/20R17",  "265/110R17",  "265/70R8", "265/70R30",
        "20x7.00R8", "60x12.50R17", "35x12.50R8", "35x12.50R34", "4.00R8",   "15.00R30",
    };
    for (size_t i = 0; i < sizeof extreme / sizeof extreme[0]; i++) {
        struct brake_marking m;
        print_message("  %s\n", extreme[i]);
        assert_true(brake_marking_read(extreme[i], &m) >= 0);
        assert_true(m.overall_diameter > m.rim_diameter);
    }
}

/* Every size that can be written reads back as itself. */
static void any_metric_size_reads_back(void **state)
{
    (void)state;
    struct cases cases = {1};
    for (int i = 0; i < 2000; i++) {
        const int width = 5 * (int)any_between(&cases, 21.0, 100.0);
        const int aspect = 5 * (int)any_between(&cases, 4.0, 22.0);
        const int rim = (int)any_between(&cases, 8.0, 31.0);
        char text[32];
        struct brake_marking m;
        snprintf(text, sizeof text, "%d/%dR%d", width, aspect, rim);
        assert_int_equal(brake_marking_read(text, &m), BRAKE_OK);
        assert_near(m.section_width, width / 1000.0, ROUNDING);
        assert_near(m.overall_diameter, m.rim_diameter + 2.0 * width * aspect / 1e5, ROUNDING);
    }
}

/* Rim table of UN R30, definitions (from memory): whole millimetres, so half of them off. */
static void a_rim_code_is_in_whole_millimetres(void **state)
{
    (void)state;
    assert_near(brake_rim_diameter(10.0), 0.254, ROUNDING);
    assert_near(brake_rim_diameter(12.0), 0.305, ROUNDING);
    assert_near(brake_rim_diameter(16.0), 0.406, ROUNDING);
    assert_near(brake_rim_diameter(17.0), 0.432, ROUNDING);
    assert_near(brake_rim_diameter(17.5), 0.445, ROUNDING); /* 444.5 goes up */
    assert_near(brake_rim_diameter(22.5), 0.572, ROUNDING); /* 571.5 goes up */
    assert_nan(brake_rim_diameter(BRAKE_NAN));
}

/* ETRTO Standards Manual (from memory): 3.05 D radial; bias 2.99 D. */
static void a_bias_tyre_rolls_less_far_in_a_turn(void **state)
{
    (void)state;
    assert_near(brake_tyre_circumference(0.800, true), 2.440, ROUNDING);
    assert_near(brake_tyre_circumference(0.800, false), 2.392, ROUNDING);
    assert_nan(brake_tyre_circumference(BRAKE_NAN, true));
}

/* Follows from the definition: a wheel that does not flatten rolls on half its diameter. */
static void the_rolling_radius_of_a_rigid_wheel_is_its_radius(void **state)
{
    (void)state;
    assert_near(brake_rolling_radius(BRAKE_PI * 0.8), 0.4, ROUNDING);
    assert_equal(brake_rolling_radius(0.0), 0.0);
    assert_nan(brake_rolling_radius(BRAKE_NAN));
}

/* UN R30, Annex 4. */
static void the_load_index_table_has_its_ends_and_rises(void **state)
{
    (void)state;
    assert_equal(brake_load_index_mass(60), 250.0);
    assert_equal(brake_load_index_mass(71), 345.0);
    assert_equal(brake_load_index_mass(91), 615.0);
    assert_equal(brake_load_index_mass(100), 800.0);
    assert_equal(brake_load_index_mass(110), 1060.0);
    assert_equal(brake_load_index_mass(121), 1450.0);
    assert_equal(brake_load_index_mass(130), 1900.0);
    assert_nan(brake_load_index_mass(59));
    assert_nan(brake_load_index_mass(131));
    /* Steps are near 10^(1/80), 2.9 %, rounded to what scales show (common practice, no source). */
    for (int index = 61; index <= 130; index++)
        assert_between(brake_load_index_mass(index) / brake_load_index_mass(index - 1), 1.018,
                       1.041);
    /* whole 5 kg from 500 kg on, 10 kg from 1,000 to 1,180, 50 kg from 1,400 */
    for (int index = 84; index <= 130; index++) {
        const double mass = brake_load_index_mass(index);
        const double step = mass >= 1400.0 ? 50.0 : mass >= 1000.0 && mass < 1200.0 ? 10.0 : 5.0;
        assert_equal(fmod(mass, step), 0.0);
    }
    /* ten times as much 80 steps on, as far as the table goes: 45 to 46.2 kg of 0 and 1 */
    for (int index = 60; index <= 130; index++)
        assert_near(brake_load_index_mass(index), 45.0 * pow(10.0, index / 80.0), 0.022);
}

/* UN R30, par. 2; H stands out of the alphabet's order. */
static void speed_symbols_are_those_of_the_table(void **state)
{
    (void)state;
    static const char letters[] = "FGJKLMNPQRSTUHVWY";
    static const double kmh[] = {80,  90,  100, 110, 120, 130, 140, 150, 160,
                                 170, 180, 190, 200, 210, 240, 270, 300};
    for (size_t i = 0; letters[i] != '\0'; i++)
        assert_near(brake_speed_symbol(letters[i]), kmh[i] / 3.6, ROUNDING);
    static const char others[] = "AEIOXZt1 ";
    for (size_t i = 0; i < sizeof others; i++) /* with its final zero */
        assert_nan(brake_speed_symbol(others[i]));
}

/* A thin hoop on cords fixed at its own radius swings as a simple pendulum of their length: then
 * I = m R^2 (closed form, Timoshenko, Vibration Problems in Engineering, from memory). */
static void a_swinging_hoop_shows_the_inertia_of_a_hoop(void **state)
{
    (void)state;
    const double mass = 30.0;
    const double radius = 0.25;
    const double length = 2.0;
    const double period = 2.0 * BRAKE_PI * sqrt(length / BRAKE_GRAVITY);
    const double inertia = brake_wheel_inertia_swing(mass, radius, length, period);
    assert_near(inertia, mass * radius * radius, ROUNDING);
    /* A longer period is more inertia, by its square. */
    assert_near(brake_wheel_inertia_swing(mass, radius, length, 2.0 * period), 4.0 * inertia,
                ROUNDING);
    assert_nan(brake_wheel_inertia_swing(mass, BRAKE_NAN, length, period));
}

/* Follows from the definition: a hoop has k = 1, a disc k = 1/2. */
static void the_estimate_of_inertia_spans_disc_and_hoop(void **state)
{
    (void)state;
    assert_near(brake_wheel_inertia_estimate(40.0, 0.4, 1.0), 6.4, ROUNDING);
    assert_near(brake_wheel_inertia_estimate(40.0, 0.4, 0.5), 3.2, ROUNDING);
    assert_nan(brake_wheel_inertia_estimate(BRAKE_NAN, 0.4, 0.5));
}

/* Kinematics. */
static void the_speedometer_reads_low_on_a_bigger_tyre_until_the_gears_follow(void **state)
{
    (void)state;
    assert_near(brake_speed_true_over_shown(2.64, 2.40, 3.73, 3.73), 1.1, ROUNDING);
    /* Shorter gears by the same factor bring it back. */
    assert_near(brake_speed_true_over_shown(2.64, 2.40, 4.103, 3.73), 1.0, ROUNDING);
    assert_nan(brake_speed_true_over_shown(BRAKE_NAN, 2.4, 3.7, 3.7));
}

static void a_measure_that_is_missing_gives_no_diameter(void **state)
{
    (void)state;
    assert_nan(brake_tyre_diameter(BRAKE_NAN, 0.265, 0.7));
    assert_nan(brake_tyre_diameter(0.432, BRAKE_NAN, 0.7));
    assert_nan(brake_tyre_diameter(0.432, 0.265, BRAKE_NAN));
    assert_equal(brake_tyre_diameter(0.432, 0.0, 0.7), 0.432);
}

/* UN R30, Annex 4, and ETRTO Standards Manual, load indices 60 to 130 (from memory), ten to a
 * row. */
static void every_load_index_has_its_mass(void **state)
{
    (void)state;
    static const double mass[] = {
        250,  257,  265,  272,  280,  290,  300,  307,  315,  325,  /* 60 */
        335,  345,  355,  365,  375,  387,  400,  412,  425,  437,  /* 70 */
        450,  462,  475,  487,  500,  515,  530,  545,  560,  580,  /* 80 */
        600,  615,  630,  650,  670,  690,  710,  730,  750,  775,  /* 90 */
        800,  825,  850,  875,  900,  925,  950,  975,  1000, 1030, /* 100 */
        1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320, 1360, /* 110 */
        1400, 1450, 1500, 1550, 1600, 1650, 1700, 1750, 1800, 1850, /* 120 */
        1900};
    for (int i = 0; i < (int)(sizeof mass / sizeof mass[0]); i++)
        assert_equal(brake_load_index_mass(60 + i), mass[i]);
}

static bool is_read(const char *text)
{
    struct brake_marking m;
    return brake_marking_read(text, &m) >= 0;
}

/* Half a step outside of the_smallest_and_the_largest_sizes_are_read. */
static void sizes_end_where_they_are_said_to(void **state)
{
    (void)state;
    static const char *const inside[] = {"20x3.95R8", "60x23.62R17", "500/110R30", "15R30"};
    static const char *const outside[] = {
        "60.2x12.50R17", "19.9x12.50R17", "35x3.93R17",    "501/70R17", "265/19.9R17",
        "265/110.5R17",  "265/70R7.95",   "265/70R30.2",   "3.98R16",   "15.1R16",
        "7.50R30.2",     "7.50R7.95",     "35x12.50R7.95", "99.9/70R17"};
    for (size_t i = 0; i < sizeof inside / sizeof inside[0]; i++)
        assert_true(is_read(inside[i]));
    for (size_t i = 0; i < sizeof outside / sizeof outside[0]; i++)
        assert_false(is_read(outside[i]));
}

/* B to N, by itself; before the load index or behind it. */
static void load_ranges_go_from_b_to_n(void **state)
{
    (void)state;
    for (char letter = 'A'; letter <= 'Z'; letter++) {
        char text[2][40];
        snprintf(text[0], sizeof text[0], "37x12.50R17LT %c", letter);
        snprintf(text[1], sizeof text[1], "37x12.50R17LT 124Q %c", letter);
        assert_int_equal(is_read(text[0]), letter >= 'B' && letter <= 'N');
        assert_int_equal(is_read(text[1]), letter >= 'B' && letter <= 'N');
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_metric_marking_gives_size_load_and_speed),
        cmocka_unit_test(a_flotation_marking_is_nominal),
        cmocka_unit_test(a_numeric_marking_assumes_the_section_height),
        cmocka_unit_test(spaces_between_the_parts_change_nothing),
        cmocka_unit_test(a_text_that_is_no_marking_is_refused_and_gives_nothing),
        cmocka_unit_test(the_smallest_and_the_largest_sizes_are_read),
        cmocka_unit_test(any_metric_size_reads_back),
        cmocka_unit_test(a_rim_code_is_in_whole_millimetres),
        cmocka_unit_test(a_bias_tyre_rolls_less_far_in_a_turn),
        cmocka_unit_test(the_rolling_radius_of_a_rigid_wheel_is_its_radius),
        cmocka_unit_test(the_load_index_table_has_its_ends_and_rises),
        cmocka_unit_test(speed_symbols_are_those_of_the_table),
        cmocka_unit_test(a_swinging_hoop_shows_the_inertia_of_a_hoop),
        cmocka_unit_test(the_estimate_of_inertia_spans_disc_and_hoop),
        cmocka_unit_test(the_speedometer_reads_low_on_a_bigger_tyre_until_the_gears_follow),
        cmocka_unit_test(a_measure_that_is_missing_gives_no_diameter),
        cmocka_unit_test(every_load_index_has_its_mass),
        cmocka_unit_test(sizes_end_where_they_are_said_to),
        cmocka_unit_test(load_ranges_go_from_b_to_n),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
