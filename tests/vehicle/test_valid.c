/* SPDX-License-Identifier: MIT */
/* Bytes that come from elsewhere: what is no sheet is refused, and what passes can be asked. */
#include <limits.h>
#include <math.h>

#include "sheet.h"

#include "brake/output.h"
#include "vehicle/sections.h"

static void refused(const struct brake_sheet *sheet, const char *field)
{
    struct brake_error error;
    assert_int_equal(brake_sheet_valid(sheet, &error), BRAKE_E_RANGE);
    assert_string_equal(error.field, field);
    assert_true(strlen(error.text) > 0);
}

static void a_sheet_that_was_read_or_changed_is_valid(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    struct brake_error error;
    const char *const texts[] = {plain, full_text(), drum_text()};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        read_sheet(&sheet, texts[i]);
        assert_int_equal(brake_sheet_valid(&sheet, &error), BRAKE_OK);
        change(&sheet, "vehicle.mass=2100 kg");
        assert_int_equal(brake_sheet_valid(&sheet, &error), BRAKE_OK);
    }
}

static void counts_past_their_tables_are_refused(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, full_text());
    sheet.vehicle.parts = BRAKE_PARTS + 1;
    refused(&sheet, "part.name");
    sheet.vehicle.parts = -1;
    refused(&sheet, "part.name");
    read_sheet(&sheet, full_text());
    sheet.vehicle.booster.force_pairs.count = BRAKE_POINTS + 1;
    refused(&sheet, "booster.force_pairs");
    sheet.vehicle.booster.force_pairs.count = -1;
    refused(&sheet, "booster.force_pairs");
    read_sheet(&sheet, full_text());
    sheet.vehicle.axle[BRAKE_FRONT].disc.pistons.count[0] = 1e9;
    refused(&sheet, "front.disc.pistons");
}

static void words_numbers_and_records_that_cannot_be_are_refused(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, full_text());
    sheet.vehicle.valve.kind = 99;
    refused(&sheet, "valve.kind");
    sheet.vehicle.valve.kind = -1;
    refused(&sheet, "valve.kind");
    read_sheet(&sheet, full_text());
    memset(sheet.vehicle.general.name, 'x', sizeof sheet.vehicle.general.name);
    refused(&sheet, "vehicle.name");
    read_sheet(&sheet, full_text());
    sheet.vehicle.general.wheelbase = BRAKE_INFINITY;
    refused(&sheet, "vehicle.wheelbase");
    sheet.vehicle.general.wheelbase = 1e300;
    refused(&sheet, "vehicle.wheelbase");
    read_sheet(&sheet, full_text());
    memset(&sheet.record[index_at(&sheet.vehicle, "master.bore")].worked, 7, sizeof(bool));
    refused(&sheet, "master.bore");
    read_sheet(&sheet, full_text());
    memset(&sheet.record[index_at(&sheet.vehicle, "pedal.ratio")].from, 7, sizeof(enum brake_from));
    refused(&sheet, "pedal.ratio");
    read_sheet(&sheet, full_text());
    sheet.record[index_at(&sheet.vehicle, "pedal.ratio")].tolerance = -1.0;
    refused(&sheet, "pedal.ratio");
    read_sheet(&sheet, full_text());
    /* As a number it would be written over what stands behind the word. */
    sheet.record[index_at(&sheet.vehicle, "valve.kind")].tolerance = 0.1;
    refused(&sheet, "valve.kind");
}

static void expect_good(const struct brake_sheet *sheet)
{
    struct brake_error error;
    assert_int_equal(brake_sheet_valid(sheet, &error), BRAKE_OK);
}

/* From the least to the most that its header says, and not one beyond. */
static void expect_whole(struct brake_sheet *sheet, int *at, int least, int most, const char *field)
{
    const int was = *at;
    *at = least;
    expect_good(sheet);
    *at = most;
    expect_good(sheet);
    *at = least - 1;
    refused(sheet, field);
    if (most < INT_MAX) {
        *at = most + 1;
        refused(sheet, field);
    }
    *at = was;
}

static void expect_real(struct brake_sheet *sheet, double *at, double most, double beyond,
                        const char *field)
{
    const double was = *at;
    *at = most;
    expect_good(sheet);
    *at = beyond;
    refused(sheet, field);
    *at = was;
}

/* brake/knowledge.h says what each may be. */
static void what_a_drive_cannot_have_told_is_refused(void **state)
{
    (void)state;
    static struct brake_sheet sheet;
    struct brake_knowledge *known = &sheet.known;
    const int lines = brake_catalogue_count();
    read_sheet(&sheet, full_text());
    known->count = 2;
    int *const tallies[] = {&known->stops, &known->forces, &known->bounds, &known->left_out};
    for (int i = 0; i < 4; i++)
        expect_whole(&sheet, tallies[i], 0, INT_MAX, "drive.log");
    expect_whole(&sheet, &known->count, 0, BRAKE_KNOWN, "drive.log");
    expect_whole(&sheet, &known->word, BRAKE_DRIVE_NONE, BRAKE_DRIVE_MORE, "drive.log");
    for (int i = 0; i < BRAKE_DRIVE_LINES; i++)
        expect_whole(&sheet, &known->line[i], -1, lines - 1, "drive.log");
    for (int i = 0; i < known->count; i++) {
        struct brake_known *one = &known->of[i];
        double *const numbers[] = {&one->value, &one->tolerance, &one->lean, &one->shift};
        expect_whole(&sheet, &one->of, BRAKE_KNOWN_LINE, BRAKE_KNOWN_MODEL, "drive.log");
        expect_whole(&sheet, &one->number, 0, lines - 1, "drive.log");
        for (int j = 0; j < 4; j++)
            expect_real(&sheet, numbers[j], -1e9, BRAKE_INFINITY, "drive.log");
        for (int j = 0; j < BRAKE_KNOWN_DIRECTIONS; j++)
            expect_real(&sheet, &one->along[j], -1.0, 1.0 + 1e-9, "drive.log");
    }
    memset(&known->another, 7, sizeof(bool));
    refused(&sheet, "drive.log");
}

/* Bytes between two members may be anything. */
static void what_stands_behind_the_lines_of_a_drive_is_not_looked_at(void **state)
{
    (void)state;
    static struct brake_sheet sheet;
    const size_t behind = offsetof(struct brake_knowledge, line) + BRAKE_DRIVE_LINES * sizeof(int);
    read_sheet(&sheet, full_text());
    memset((char *)&sheet.known + behind, 0x99, sizeof sheet.known - behind);
    expect_good(&sheet);
}

static void sizes_of_parts_that_cannot_be_are_refused(void **state)
{
    (void)state;
    static struct brake_sheet sheet;
    struct brake_own_sizes *own = &sheet.own;
    read_sheet(&sheet, full_text());
    expect_whole(&sheet, &own->count, 0, BRAKE_OWN_SIZES, "vehicle.parts");
    own->count = -7;
    refused(&sheet, "vehicle.parts");
    own->count = 2;
    for (int i = 0; i < own->count; i++) {
        expect_whole(&sheet, &own->line[i], 0, brake_catalogue_count() - 1, "vehicle.parts");
        expect_real(&sheet, &own->value[i], 1e9, BRAKE_NAN, "vehicle.parts");
    }
}

/* Limits of the catalogue hold but for rounding; of pistons 8 alike, of 1 m at most. */
static void values_just_past_their_limits_are_refused(void **state)
{
    (void)state;
    static struct brake_sheet sheet;
    read_sheet(&sheet, full_text());
    struct brake_vehicle *vehicle = &sheet.vehicle;
    const int bore = index_at(vehicle, "master.bore");
    const int ratio = index_at(vehicle, "pedal.ratio");
    const struct brake_quantity *row = brake_quantity_at(bore);
    struct brake_pistons *pistons = &vehicle->axle[BRAKE_FRONT].disc.pistons;
    expect_real(&sheet, &vehicle->master.bore, row->high, row->high * (1.0 + 1e-9), "master.bore");
    expect_real(&sheet, &vehicle->master.bore, row->low, row->low * (1.0 - 1e-9), "master.bore");
    expect_real(&sheet, &vehicle->master.bore, row->high * (1.0 + 1e-14), -row->low, "master.bore");
    expect_real(&sheet, &sheet.record[ratio].lean, 0.999, 1.0, "pedal.ratio");
    expect_real(&sheet, &sheet.record[ratio].lean, -0.999, -1.0, "pedal.ratio");
    expect_real(&sheet, &sheet.record[ratio].tolerance, 1e300, BRAKE_INFINITY, "pedal.ratio");
    expect_whole(&sheet, &sheet.record[ratio].line, 0, INT_MAX, "pedal.ratio");
    for (int i = 0; i < BRAKE_GROUPS; i++) {
        expect_real(&sheet, &pistons->count[i], 8.0, 9.0, "front.disc.pistons");
        expect_real(&sheet, &pistons->count[i], 0.0, 1.5, "front.disc.pistons");
        expect_real(&sheet, &pistons->diameter[i], 1.0, 1.01, "front.disc.pistons");
        expect_real(&sheet, &pistons->diameter[i], 0.0, -1e-9, "front.disc.pistons");
    }
    sheet.record[bore].worked = true; /* then it needs only be a number */
    expect_real(&sheet, &vehicle->master.bore, 2.0 * row->high, BRAKE_INFINITY, "master.bore");
}

static void every_word_of_a_choice_is_valid_and_no_other(void **state)
{
    (void)state;
    static struct brake_sheet sheet;
    read_sheet(&sheet, full_text());
    for (int i = 0; i < index_at(&sheet.vehicle, "load.full.mass"); i++) {
        const struct brake_quantity *row = brake_quantity_at(i);
        char path[160];
        int words = 0;
        if (row->kind != BRAKE_CHOICE)
            continue;
        while (row->choices[words] != NULL)
            words++;
        brake_catalogue_path(&sheet.vehicle, i, path, sizeof path);
        expect_whole(&sheet, brake_quantity_in(&sheet.vehicle, i), 0, words - 1, path);
    }
}

static void points_past_their_limits_are_refused(void **state)
{
    (void)state;
    static struct brake_sheet sheet;
    read_sheet(&sheet, plus(full_text(), "[front.disc.pads]\nfriction = (100 degC, 0.4) "
                                         "(500 degC, 0.2)\n"));
    struct brake_points *points = &sheet.vehicle.axle[BRAKE_FRONT].pads.friction;
    const struct brake_quantity *row =
        brake_quantity_at(index_at(&sheet.vehicle, "front.disc.pads.friction"));
    const char *field = "front.disc.pads.friction";
    assert_int_equal(points->count, 2);
    for (int i = 2; i < BRAKE_POINTS; i++)
        points->at[i] = points->at[1];
    expect_whole(&sheet, &points->count, 0, BRAKE_POINTS, field);
    for (int i = 0; i < points->count; i++) {
        expect_real(&sheet, &points->at[i].x, row->low, row->low - 1.0, field);
        expect_real(&sheet, &points->at[i].x, row->high, row->high + 1.0, field);
        expect_real(&sheet, &points->at[i].y, row->second_low, row->second_low - 0.01, field);
        expect_real(&sheet, &points->at[i].y, row->second_high, row->second_high + 0.01, field);
    }
}

/* Numbers as in Marsaglia, Xorshift RNGs, Journal of Statistical Software 8 (2003): any would
 * do. */
static unsigned draw(void)
{
    static unsigned number = 2463534242u;
    number ^= number << 13;
    number ^= number >> 17;
    number ^= number << 5;
    return number;
}

static void ask_everything(const struct brake_sheet *sheet)
{
    static struct brake_output output[BRAKE_OUTPUTS];
    static double value[BRAKE_OUTPUTS];
    for (int i = 0; i < brake_output_count(); i++)
        output[i] = brake_output_at(i);
    brake_outputs(&sheet->vehicle, output, brake_output_count() / 8, value);
    struct brake_sheet again = *sheet;
    struct brake_error error = {.status = BRAKE_OK};
    (void)brake_sheet_complete(&again, &error);
}

/* The sanitizers say whether what passes can be asked. */
static void bytes_changed_at_random_are_refused_or_can_be_asked(void **state)
{
    (void)state;
    static struct brake_sheet whole;
    static struct brake_sheet damaged;
    struct brake_error error;
    int passed = 0;
    read_sheet(&whole, full_text());
    for (int i = 0; i < 2000; i++) {
        memcpy(&damaged, &whole, sizeof damaged);
        const int flips = 1 + (int)(draw() % 20);
        for (int flip = 0; flip < flips; flip++)
            ((unsigned char *)&damaged)[draw() % sizeof damaged] ^=
                (unsigned char)(1 + draw() % 255);
        if (brake_sheet_valid(&damaged, &error) != BRAKE_OK)
            continue;
        passed++;
        ask_everything(&damaged);
    }
    assert_in_range(passed, 1, 1999);
}

/* A truth is 0 or 1; what stands behind the last thing that a drive told was not told. */
static void bytes_are_held_to_what_they_may_be(void **state)
{
    (void)state;
    static struct brake_sheet sheet;
    struct brake_error error;
    read_sheet(&sheet, plain);
    sheet.known.of[0].number = -5;
    assert_int_equal(brake_sheet_valid(&sheet, &error), BRAKE_OK);
    sheet.known.count = 1;
    assert_int_equal(brake_sheet_valid(&sheet, &error), BRAKE_E_RANGE);
    sheet.known.of[0].number = 0;
    memset(&sheet.known.of[1], 0x7f, sizeof sheet.known.of[1]);
    assert_int_equal(brake_sheet_valid(&sheet, &error), BRAKE_OK);
    sheet.known.count = 0;
    memset(&sheet.known.another, 1, sizeof(bool));
    assert_int_equal(brake_sheet_valid(&sheet, &error), BRAKE_OK);
    memset(&sheet.known.another, 2, sizeof(bool));
    assert_int_equal(brake_sheet_valid(&sheet, &error), BRAKE_E_RANGE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sheet_that_was_read_or_changed_is_valid),
        cmocka_unit_test(counts_past_their_tables_are_refused),
        cmocka_unit_test(words_numbers_and_records_that_cannot_be_are_refused),
        cmocka_unit_test(what_a_drive_cannot_have_told_is_refused),
        cmocka_unit_test(what_stands_behind_the_lines_of_a_drive_is_not_looked_at),
        cmocka_unit_test(sizes_of_parts_that_cannot_be_are_refused),
        cmocka_unit_test(values_just_past_their_limits_are_refused),
        cmocka_unit_test(every_word_of_a_choice_is_valid_and_no_other),
        cmocka_unit_test(points_past_their_limits_are_refused),
        cmocka_unit_test(bytes_changed_at_random_are_refused_or_can_be_asked),
        cmocka_unit_test(bytes_are_held_to_what_they_may_be),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
