/* SPDX-License-Identifier: MIT */
/* Samples as numbers: those of a spread, with what each line was and what came out. */
#include "../vehicle/sheet.h"

#include <stdlib.h>

#include "brake/samples.h"
#include "study/drawn.h"

enum { SAMPLES = 1024, LINES = 128 };

static struct brake_sheet sheet;
static struct brake_spread spread;
static struct brake_spread_options options;
static double line[SAMPLES * LINES], output[SAMPLES * 2];

static struct brake_output asked[2];

static struct brake_samples *list(const char *first, const char *second)
{
    static struct brake_samples_options drawn;
    enum brake_status status;
    assert_int_equal(brake_output_find(first, &asked[0]), BRAKE_OK);
    assert_int_equal(brake_output_find(second, &asked[1]), BRAKE_OK);
    drawn = (struct brake_samples_options){BRAKE_RULES_ALL, SAMPLES, 1, NULL, asked, 2};
    struct brake_samples *samples = brake_samples_new(&sheet, &drawn, &status);
    assert_int_equal(status, BRAKE_OK);
    assert_true(brake_samples_lines(samples) <= LINES);
    return samples;
}

static int place_of(const struct brake_samples *samples, int index)
{
    int place = 0;
    while (place < brake_samples_lines(samples) && brake_samples_line(samples, place) != index)
        place++;
    assert_true(place < brake_samples_lines(samples));
    return place;
}

/* Given 8 parts of the front and 2 of the rear, each linear in its friction, deceleration at 500 N,
 * empty, is 10 mu_1 + 2.5 mu_2: all else that moves it is exact here. */
static void an_output_follows_from_the_lines_of_its_sample(void **state)
{
    (void)state;
    read_sheet(&sheet, plain);
    make_exact(&sheet);
    const int mu[] = {index_at(&sheet.vehicle, "front.disc.pads.mu"),
                      index_at(&sheet.vehicle, "rear.disc.pads.mu")};
    sheet.record[mu[0]].tolerance = sheet.record[mu[1]].tolerance = 0.02;
    struct brake_samples *samples = list("empty.deceleration.most", "hazard.floor");
    const int lines = brake_samples_lines(samples);
    const int front_at = place_of(samples, mu[0]), rear_at = place_of(samples, mu[1]);
    assert_true(brake_samples_draw(samples, NULL, line, output));
    double squares = 0.0;
    for (int i = 0; i < SAMPLES; i++) {
        const double front = line[i * lines + front_at], rear = line[i * lines + rear_at];
        assert_near(output[2 * i], 10.0 * front + 2.5 * rear, 1e-12);
        squares += (front - 0.4) * (front - 0.4);
    }
    /* a tolerance holds 95 of 100: 1.96 standard deviations */
    assert_near(sqrt(squares / SAMPLES), 0.02 / 1.96, 0.02);
    brake_samples_free(samples);
}

/* A line that is normal shows its share of the samples. Of a replicate's 64 points one lies in each
 * 64th: I. M. Sobol', USSR Computational Mathematics and Mathematical Physics 7 (1967), and A. B.
 * Owen, J. Complexity 14 (1998), that a scramble keeps it; both from memory. */
static void the_samples_of_a_replicate_are_evenly_laid(void **state)
{
    (void)state;
    enum { EACH = SAMPLES / BRAKE_REPLICATES };
    read_sheet(&sheet, plain);
    make_exact(&sheet);
    const int mass = index_at(&sheet.vehicle, "vehicle.mass");
    sheet.record[mass].tolerance = 20.0;
    struct brake_samples *samples = list("empty.deceleration.most", "hazard.floor");
    const int lines = brake_samples_lines(samples);
    assert_true(brake_samples_draw(samples, NULL, line, NULL));
    const int place = place_of(samples, mass);
    int drawn[BRAKE_REPLICATES][EACH] = {{0}};
    for (int i = 0; i < SAMPLES; i++) {
        const double deviations = 1.959964 * (line[i * lines + place] - 2000.0) / 20.0;
        drawn[i / EACH][(int)(0.5 * erfc(-deviations / sqrt(2.0)) * EACH)]++;
    }
    for (int i = 0; i < SAMPLES; i++)
        assert_int_equal(drawn[i / EACH][i % EACH], 1);
    brake_samples_free(samples);
}

static int rising(const void *one, const void *other)
{
    const double a = *(const double *)one, b = *(const double *)other;
    return (a > b) - (a < b);
}

/* What brake_spread_draw sorts into percentiles are these numbers. */
static void they_are_the_samples_of_a_spread(void **state)
{
    (void)state;
    read_sheet(&sheet, full_text());
    struct brake_samples *samples = list("empty.stop.distance", "hazard.floor");
    assert_true(brake_samples_draw(samples, NULL, NULL, output));
    options =
        (struct brake_spread_options){.rules = BRAKE_RULES_ALL, .samples = SAMPLES, .seed = 1};
    assert_int_equal(brake_spread_prepare(&sheet, &options, &spread), BRAKE_OK);
    void *room = malloc(brake_spread_room(&spread));
    assert_true(brake_spread_run(&spread, room, NULL));
    double one[SAMPLES];
    for (int i = 0; i < SAMPLES; i++)
        one[i] = output[2 * i];
    qsort(one, SAMPLES, sizeof one[0], rising);
    const int place = 2; /* among the headline results */
    assert_int_equal(spread.result[place], asked[0].index);
    assert_memory_equal(one, spread.value + (spread.criteria + place) * SAMPLES, sizeof one);
    free(room);
    brake_samples_free(samples);
}

static void read_heron(void)
{
    FILE *stream = fopen(SOURCE_ROOT "/examples/heron.ini", "rb");
    struct brake_error error;
    assert_non_null(stream);
    assert_int_equal(brake_file_read(stream, &sheet, &error), BRAKE_OK);
    fclose(stream);
    complete(&sheet);
}

/* A margin of hot performance is that of a spread with hot performance, and the lines are the same
 * whether or not outputs are asked for. */
static void hot_margins_are_those_of_a_spread(void **state)
{
    (void)state;
    static double alone[SAMPLES * LINES];
    read_heron();
    struct brake_samples *samples = list("hazard.fluid", "hazard.circuit");
    assert_true(brake_samples_draw(samples, NULL, line, output));
    assert_true(brake_samples_draw(samples, NULL, alone, NULL));
    assert_memory_equal(alone, line,
                        (size_t)SAMPLES * (size_t)brake_samples_lines(samples) * sizeof *line);
    int met[2] = {0, 0};
    for (int i = 0; i < 2 * SAMPLES; i++)
        met[i % 2] += output[i] >= 0.0;
    options = (struct brake_spread_options){
        .rules = BRAKE_RULES_ALL, .samples = SAMPLES, .seed = 1, .faded = true};
    assert_int_equal(brake_spread_prepare(&sheet, &options, &spread), BRAKE_OK);
    void *room = malloc(brake_spread_room(&spread));
    assert_true(brake_spread_run(&spread, room, NULL));
    for (int i = 0; i < 2; i++)
        assert_near(spread.output[asked[i].index].met, (double)met[i] / SAMPLES, ROUNDING);
    free(room);
    brake_samples_free(samples);
}

/* A procedure of which two lands judge otherwise: what one of them asks does not reach the
 * other. */
static void a_margin_is_that_of_its_own_procedure(void **state)
{
    (void)state;
    static const unsigned rules[] = {BRAKE_RULES_AU, BRAKE_RULES_ALL};
    static const char *const path[] = {"au.sa.fade", "un.13h.hot"};
    static double margin[2][SAMPLES * 2];
    read_heron();
    for (int i = 0; i < 2; i++) {
        enum brake_status status;
        struct brake_output both[2];
        for (int k = 0; k < 2; k++)
            assert_int_equal(brake_output_find(path[k], &both[k]), BRAKE_OK);
        const struct brake_samples_options drawn = {rules[i], SAMPLES, 1, NULL, both, 2};
        struct brake_samples *samples = brake_samples_new(&sheet, &drawn, &status);
        assert_non_null(samples);
        assert_true(brake_samples_draw(samples, NULL, NULL, margin[i]));
        brake_samples_free(samples);
    }
    for (int i = 0; i < SAMPLES; i++) {
        assert_true(isfinite(margin[0][2 * i]));
        assert_equal(margin[0][2 * i], margin[1][2 * i]);
        assert_true(margin[0][2 * i] != margin[1][2 * i + 1]);
    }
}

static void a_number_that_is_not_drawn_is_refused(void **state)
{
    (void)state;
    enum brake_status status;
    const struct brake_samples_options few = {.rules = BRAKE_RULES_ALL, .samples = 1000, .seed = 1};
    const struct brake_samples_options many = {.samples = SAMPLES, .outputs = BRAKE_OUTPUTS + 1};
    read_sheet(&sheet, plain);
    assert_null(brake_samples_new(&sheet, &few, &status));
    assert_int_equal(status, BRAKE_E_RANGE);
    assert_null(brake_samples_new(&sheet, &many, &status));
    assert_int_equal(status, BRAKE_E_SIZE);
    static struct brake_output all[BRAKE_OUTPUTS];
    const struct brake_samples_options most = {
        .samples = SAMPLES, .output = all, .outputs = BRAKE_OUTPUTS};
    for (int i = 0; i < BRAKE_OUTPUTS; i++)
        assert_int_equal(brake_output_find("full.stop.distance", &all[i]), BRAKE_OK);
    struct brake_samples *samples = brake_samples_new(&sheet, &most, &status);
    assert_non_null(samples);
    assert_int_equal(status, BRAKE_OK);
    brake_samples_free(samples);
}

static volatile sig_atomic_t stop;
static int told;

static void stop_at_two(void *context, double done, double total)
{
    (void)context;
    assert_true(done <= total);
    stop = ++told == 2;
}

static void whoever_watches_can_stop_it(void **state)
{
    (void)state;
    read_sheet(&sheet, plain);
    struct brake_samples *samples = list("empty.stop.distance", "hazard.floor");
    const struct brake_watch watch = {stop_at_two, NULL, &stop};
    assert_false(brake_samples_draw(samples, &watch, NULL, output));
    assert_int_equal(told, 2);
    brake_samples_free(samples);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_output_follows_from_the_lines_of_its_sample),
        cmocka_unit_test(the_samples_of_a_replicate_are_evenly_laid),
        cmocka_unit_test(they_are_the_samples_of_a_spread),
        cmocka_unit_test(hot_margins_are_those_of_a_spread),
        cmocka_unit_test(a_margin_is_that_of_its_own_procedure),
        cmocka_unit_test(a_number_that_is_not_drawn_is_refused),
        cmocka_unit_test(whoever_watches_can_stop_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
