/* Bytes that come from elsewhere: what is no sheet is refused, and what passes can be asked. */
#include <math.h>

#include "sheet.h"

#include "brake/output.h"

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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sheet_that_was_read_or_changed_is_valid),
        cmocka_unit_test(counts_past_their_tables_are_refused),
        cmocka_unit_test(words_numbers_and_records_that_cannot_be_are_refused),
        cmocka_unit_test(bytes_changed_at_random_are_refused_or_can_be_asked),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
