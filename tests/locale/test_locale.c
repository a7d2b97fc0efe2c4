/* SPDX-License-Identifier: MIT */
/* A program that uses the library may have set any locale: every word of every answer stays the
 * same. */
#define _XOPEN_SOURCE 700 /* NOLINT: mkdtemp, setenv, open_memstream */
#include "../model/near.h"

#include "brake/brake.h"
#include "brake/log.h"
#include "other.h"
#include "file/number.h"

static FILE *example(const char *name)
{
    char path[400];
    snprintf(path, sizeof path, "%s/examples/%s", SOURCE_ROOT, name);
    FILE *stream = fopen(path, "rb");
    assert_non_null(stream);
    return stream;
}

static void read_vehicle(struct brake_sheet *sheet)
{
    struct brake_error error;
    FILE *file = example("heron.ini");
    assert_int_equal(brake_file_read(file, sheet, &error), BRAKE_OK);
    fclose(file);
    assert_int_equal(brake_file_set(sheet, "front.tyre.rollout=2.70 m +- 0.5 %", &error), BRAKE_OK);
    assert_int_equal(brake_file_set(sheet, "vehicle.mass=1985,5 kg", &error), BRAKE_E_SYNTAX);
    assert_int_equal(brake_sheet_complete(sheet, &error), BRAKE_OK);
}

static void print_numbers(FILE *stream)
{
    static const double numbers[] = {0.1, -2.5e-7, 1.0 / 3.0, 1e300, 999999.5};
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        char text[BRAKE_NUMBER_SIZE];
        brake_number_write(numbers[i], text);
        fprintf(stream, "%s\n", text);
    }
}

/* In every format; frees it. */
static void print_all(struct brake_document *document, FILE *stream)
{
    static const enum brake_format formats[] = {BRAKE_AS_TEXT, BRAKE_AS_JSON, BRAKE_AS_HTML,
                                                BRAKE_AS_CSV};
    for (size_t i = 0; i < sizeof formats / sizeof formats[0]; i++)
        assert_int_equal(brake_document_print(document, formats[i], stream), BRAKE_OK);
    brake_document_free(document);
}

static void print_drive(const struct brake_sheet *sheet, FILE *stream)
{
    static const struct brake_nominal nominal = {0};
    static struct brake_drive drive; /* it is large */
    struct brake_log log;
    struct brake_error error;
    FILE *file = example("heron-drive.csv");
    assert_int_equal(brake_log_read(file, NULL, &log, &error), BRAKE_OK);
    fclose(file);
    assert_int_equal(brake_log_measure(&log, &nominal, &brake_drive_usual_day, &drive, &error),
                     BRAKE_OK);
    brake_drive_compare(sheet, BRAKE_EMPTY, &drive);
    const struct brake_drive_report report = {sheet, BRAKE_EMPTY, &log, &drive, NULL};
    struct brake_document *document = brake_document_new(BRAKE_SI_FIRST);
    brake_answer_drive(document, &report);
    print_all(document, stream);
    brake_log_free(&log);
}

static void print_report(const struct brake_sheet *sheet, FILE *stream)
{
    static struct brake_paper_room room; /* it is large */
    struct brake_paper paper = {.sheet = sheet, .date = "2026-01-01"};
    assert_int_equal(brake_paper_fill(&paper, BRAKE_RULES_ALL, BRAKE_FULL, &room), BRAKE_OK);
    struct brake_document *document = brake_document_new(BRAKE_US_FIRST);
    brake_answer_report(document, &paper);
    print_all(document, stream);
    brake_paper_free(&room);
}

static char *all_answers(void)
{
    char *text = NULL;
    size_t size = 0;
    struct brake_sheet sheet;
    FILE *stream = open_memstream(&text, &size);
    assert_non_null(stream);
    read_vehicle(&sheet);
    brake_file_write(&sheet, stream);
    print_numbers(stream);
    print_drive(&sheet, stream);
    print_report(&sheet, stream);
    assert_int_equal(fclose(stream), 0);
    return text;
}

static void assert_same_in(const char *locale, const char *point)
{
    setlocale(LC_ALL, "C");
    char *expected = all_answers();
    enter_locale(locale, point);
    char *found = all_answers();
    setlocale(LC_ALL, "C");
    assert_true(strlen(expected) > 100000);
    size_t same = 0;
    while (expected[same] != '\0' && expected[same] == found[same])
        same++;
    if (strcmp(expected, found) != 0)
        print_error("%.60s\nbecame\n%.60s\n", expected + same, found + same);
    assert_string_equal(expected + same, found + same);
    free(expected);
    free(found);
}

static void answers_are_the_same_under_a_decimal_comma(void **state)
{
    (void)state;
    assert_same_in("comma", ",");
}

static void answers_are_the_same_under_a_point_of_two_bytes(void **state)
{
    (void)state;
    assert_same_in("arabic", "\xd9\xab");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(answers_are_the_same_under_a_decimal_comma),
        cmocka_unit_test(answers_are_the_same_under_a_point_of_two_bytes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
