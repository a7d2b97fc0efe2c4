/* SPDX-License-Identifier: MIT */
/* A vehicle whose lines were changed is written so that it reads back as the same vehicle. */
#define _POSIX_C_SOURCE 200809L /* NOLINT: open_memstream */
#include "../vehicle/sheet.h"

#include <glob.h>
#include <stdlib.h>
#include <string.h>

#include "brake/file.h"
#include "file/writer.h"

static void read_example(const char *name, struct brake_sheet *sheet)
{
    struct brake_error error;
    char path[400];
    snprintf(path, sizeof path, "%s/examples/%s", SOURCE_ROOT, name);
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    assert_int_equal(brake_file_read(file, sheet, &error), BRAKE_OK);
    fclose(file);
    assert_int_equal(brake_sheet_complete(sheet, &error), BRAKE_OK);
}

static char *written(const struct brake_sheet *sheet)
{
    char *text = NULL;
    size_t size = 0;
    FILE *stream = open_memstream(&text, &size);
    assert_non_null(stream);
    brake_file_write(sheet, stream);
    assert_int_equal(fclose(stream), 0);
    return text;
}

/* Every number, word and list of both, but for readings that were overridden: they are comments. */
static void assert_same_vehicle(const struct brake_sheet *one, const struct brake_sheet *other,
                                const char *what)
{
    for (int i = 0; i < brake_catalogue_count(); i++) {
        const bool known = one->record[i].from != BRAKE_ABSENT;
        char path[160];
        char words[2][2048];
        brake_catalogue_path(&one->vehicle, i, path, sizeof path);
        if (brake_quantity_at(i)->role == BRAKE_RAW && other->record[i].from == BRAKE_ABSENT)
            continue;
        if (known != (other->record[i].from != BRAKE_ABSENT))
            print_error("%s: %s is known to one only\n", what, path);
        assert_int_equal(known, other->record[i].from != BRAKE_ABSENT);
        if (!known)
            continue;
        if (brake_quantity_at(i)->kind == BRAKE_REAL) {
            const double a = brake_quantity_value(&one->vehicle, i);
            const double b = brake_quantity_value(&other->vehicle, i);
            if (!(fabs(a - b) <= 1e-9 * fabs(a)))
                print_error("%s: %s was %.17g and reads back as %.17g\n", what, path, a, b);
            assert_true(fabs(a - b) <= 1e-9 * fabs(a));
            continue;
        }
        brake_value_write(&one->vehicle, i, words[0], sizeof words[0]);
        brake_value_write(&other->vehicle, i, words[1], sizeof words[1]);
        assert_string_equal(words[0], words[1]);
    }
}

/* Given a line set by hand, a hundredth away from where it was; false where the vehicle refuses
 * it. */
static bool set_line(struct brake_sheet *sheet, int index, double factor)
{
    struct brake_error error;
    const double value = factor * brake_quantity_value(&sheet->vehicle, index);
    return brake_sheet_set(sheet, index, value) == BRAKE_OK &&
           brake_sheet_complete(sheet, &error) == BRAKE_OK;
}

static int try_every_line(const char *name, double factor)
{
    static struct brake_sheet before; /* they are large */
    static struct brake_sheet changed;
    static struct brake_sheet read;
    int tried = 0;
    read_example(name, &before);
    for (int i = 0; i < brake_catalogue_count(); i++) {
        struct brake_error error;
        char path[160];
        changed = before;
        if (before.record[i].from == BRAKE_ABSENT || brake_quantity_at(i)->kind != BRAKE_REAL ||
            brake_quantity_at(i)->role == BRAKE_PART_OF || !set_line(&changed, i, factor))
            continue;
        brake_catalogue_path(&changed.vehicle, i, path, sizeof path);
        char *text = written(&changed);
        enum brake_status status = brake_file_read_text(text, &read, &error);
        if (status == BRAKE_OK)
            status = brake_sheet_complete(&read, &error);
        if (status != BRAKE_OK)
            print_error("%s set: line %d, %s: %s\n", path, error.line, error.field, error.text);
        assert_int_equal(status, BRAKE_OK);
        assert_same_vehicle(&changed, &read, path);
        free(text);
        tried++;
    }
    return tried;
}

static void a_line_that_was_set_reads_back_with_what_it_overrides(void **state)
{
    (void)state;
    assert_true(try_every_line("heron.ini", 1.01) > 80);
    assert_true(try_every_line("heron-before.ini", 0.98) > 80);
}

static void a_reading_that_a_set_line_overrides_stays_as_a_comment(void **state)
{
    (void)state;
    struct brake_error error;
    struct brake_sheet sheet;
    read_example("heron.ini", &sheet);
    assert_int_equal(brake_file_set(&sheet, "pedal.ratio=5", &error), BRAKE_OK);
    assert_int_equal(brake_sheet_complete(&sheet, &error), BRAKE_OK);
    char *text = written(&sheet);
    assert_non_null(strstr(text, "\nratio = 5"));
    assert_non_null(strstr(text, "\n; overridden: pad_arm = "));
    assert_null(strstr(text, "\npad_arm = "));
    free(text);
}

/* The words are the catalogue's, whatever the case of their letters. */
static void a_word_of_a_choice_is_taken_in_any_case(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(swapped(plain, "mounting = floating", "mounting = Floating"),
                            "[vehicle]\ncountry = nl\ncategory = n1\n"));
    assert_int_equal(sheet.vehicle.axle[BRAKE_FRONT].disc.mounting, BRAKE_FLOATING);
    assert_int_equal(sheet.vehicle.general.country, BRAKE_IN_NL);
    assert_int_equal(sheet.vehicle.general.category, BRAKE_N1);
}

/* Given lines as they are written in a workshop, each comes back from the file that is written with
 * the same number and the same tolerance. */
static void what_was_written_in_a_workshop_comes_back_as_the_same_number(void **state)
{
    (void)state;
    static const char *const lines[] = {
        "master.bore=15/16 in",
        "master.bore=1-1/16\" +- 1/64",
        "vehicle.wheelbase=8 ft 9 3/8 in",
        "vehicle.wheelbase=8' 9.3\" +- 1/4 in",
        "front.tyre.rollout=98.5-99.5 in",
        "front.tyre.rollout=2510 mm +-10, measured",
        "front.disc.pads.mu=0.31-0.43",
        "front.disc.pads.mu=FF, catalogue",
        "heat.ambient=90-100 degF",
        "booster.vacuum=18 in Hg",
    };
    static struct brake_sheet sheet; /* they are large */
    static struct brake_sheet again;
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        struct brake_error error;
        char path[60] = "";
        memcpy(path, lines[i], strcspn(lines[i], "="));
        read_example("heron.ini", &sheet);
        const int index = brake_catalogue_find(&sheet.vehicle, path);
        assert_int_equal(brake_file_set(&sheet, lines[i], &error), BRAKE_OK);
        assert_int_equal(brake_sheet_complete(&sheet, &error), BRAKE_OK);
        char *text = written(&sheet);
        assert_int_equal(brake_file_read_text(text, &again, &error), BRAKE_OK);
        free(text);
        assert_near(brake_quantity_value(&again.vehicle, index),
                    brake_quantity_value(&sheet.vehicle, index), 1e-12);
        assert_near(again.record[index].tolerance, sheet.record[index].tolerance, 1e-12);
        assert_int_equal(again.record[index].from, sheet.record[index].from);
    }
}

/* Every vehicle that is kept, so that what one of them alone has is written too. */
static void lines_alone_read_back_as_the_same_vehicle(void **state)
{
    (void)state;
    static struct brake_sheet one; /* they are large */
    static struct brake_sheet other;
    glob_t found;
    int tried = 0;
    assert_int_equal(glob(SOURCE_ROOT "/tests/vehicles/*.ini", 0, NULL, &found), 0);
    assert_int_equal(glob(SOURCE_ROOT "/examples/*.ini", GLOB_APPEND, NULL, &found), 0);
    for (size_t i = 0; i < found.gl_pathc; i++) {
        struct brake_error error;
        char *text = NULL;
        size_t size = 0;
        FILE *file = fopen(found.gl_pathv[i], "rb");
        assert_non_null(file);
        const enum brake_status status = brake_file_read(file, &one, &error);
        fclose(file);
        if (status != BRAKE_OK || brake_sheet_complete(&one, &error) != BRAKE_OK)
            continue; /* one that is kept to be refused */
        FILE *stream = open_memstream(&text, &size);
        assert_non_null(stream);
        brake_file_write_lines(&one, stream);
        assert_int_equal(fclose(stream), 0);
        assert_int_equal(brake_file_read_text(text, &other, &error), BRAKE_OK);
        assert_int_equal(brake_sheet_complete(&other, &error), BRAKE_OK);
        assert_same_vehicle(&one, &other, found.gl_pathv[i]);
        assert_null(strstr(text, ";"));
        free(text);
        tried++;
    }
    globfree(&found);
    assert_true(tried > 20);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_line_that_was_set_reads_back_with_what_it_overrides),
        cmocka_unit_test(a_reading_that_a_set_line_overrides_stays_as_a_comment),
        cmocka_unit_test(a_word_of_a_choice_is_taken_in_any_case),
        cmocka_unit_test(what_was_written_in_a_workshop_comes_back_as_the_same_number),
        cmocka_unit_test(lines_alone_read_back_as_the_same_vehicle),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
