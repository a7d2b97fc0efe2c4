/* SPDX-License-Identifier: MIT */
/* The plots: axes that show round numbers, places that follow the scale, labels that never meet. */
#include "../vehicle/sheet.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "answer/svg.h"

static char written[40000];

static void a_scale_holds_its_ends_in_round_steps(void **state)
{
    (void)state;
    for (double span = 1e-6; span < 1e7; span *= 1.7) {
        const struct brake_scale scale =
            brake_scale_of(-0.3 * span, 0.7 * span, brake_unit_find("m"), BRAKE_SI_FIRST, "");
        const double power = pow(10.0, floor(log10(scale.step * (1.0 + 1e-9))));
        const double part = scale.step / power;
        assert_true(scale.low <= -0.3 * span + 1e-9 * span);
        assert_true(scale.high >= 0.7 * span - 1e-9 * span);
        assert_true(fabs(part - 1.0) < 1e-6 || fabs(part - 2.0) < 1e-6 || fabs(part - 5.0) < 1e-6);
        assert_true((scale.high - scale.low) / scale.step < 7.5);
    }
}

static void an_empty_span_still_has_an_axis(void **state)
{
    (void)state;
    const struct brake_scale scale =
        brake_scale_of(0.0, 0.0, brake_unit_find("N"), BRAKE_SI_FIRST, "");
    assert_true(scale.step > 0.0);
}

static struct brake_plot plot_on(FILE *stream)
{
    const struct brake_unit *none = brake_unit_si(BRAKE_RATIO);
    const struct brake_plot plot = {.stream = stream,
                                    .id = "p",
                                    .top = 36.0,
                                    .height = 200.0,
                                    .x = brake_scale_of(0.0, 1.0, none, BRAKE_SI_FIRST, "x"),
                                    .y = brake_scale_of(0.0, 1.0, none, BRAKE_SI_FIRST, "y")};
    return plot;
}

static void places_follow_the_scale(void **state)
{
    (void)state;
    const struct brake_plot plot = plot_on(NULL);
    assert_true(fabs(brake_plot_y(&plot, 0.0) - 236.0) < 1e-9);
    assert_true(fabs(brake_plot_y(&plot, 1.0) - 36.0) < 1e-9);
    assert_true(fabs(brake_plot_y(&plot, 0.25) - 186.0) < 1e-9);
    assert_true(brake_plot_x(&plot, 1.0) > brake_plot_x(&plot, 0.0));
}

/* Heights of the labels as written, in the order of the page. */
static int heights_of_labels(struct brake_plot *plot, double height[BRAKE_SVG_LABELS])
{
    int count = 0;
    brake_plot_end(plot);
    rewind(plot->stream);
    written[fread(written, 1, sizeof written - 1, plot->stream)] = '\0';
    for (const char *at = written; (at = strstr(at, "<text x=\"")) != NULL; at++)
        height[count++] = strtod(strstr(at, " y=\"") + 4, NULL);
    return count;
}

static void labels_never_meet(void **state)
{
    (void)state;
    for (int at = 0; at <= 10; at++) {
        double height[BRAKE_SVG_LABELS];
        FILE *file = tmpfile();
        assert_non_null(file);
        struct brake_plot plot = plot_on(file);
        for (int i = 0; i < BRAKE_SVG_LABELS; i++)
            brake_plot_name(&plot, (struct brake_point){0.5, 0.1 * at}, "line");
        assert_int_equal(heights_of_labels(&plot, height), BRAKE_SVG_LABELS);
        for (int i = 1; i < BRAKE_SVG_LABELS; i++)
            assert_true(height[i] - height[i - 1] >= 13.9);
        assert_true(height[0] >= 36.0 && height[BRAKE_SVG_LABELS - 1] <= 236.0 + 5.0);
        assert_int_equal(fclose(file), 0);
    }
}

static void a_line_outside_the_plot_has_no_label(void **state)
{
    const struct brake_point outside[] = {{2.0, 2.0}, {3.0, 3.0}};
    const struct brake_point unknown[] = {{BRAKE_NAN, 0.5}, {0.5, BRAKE_NAN}};
    (void)state;
    FILE *file = tmpfile();
    assert_non_null(file);
    struct brake_plot plot = plot_on(file);
    brake_plot_line(&plot, outside, 2, BRAKE_THIN, "outside");
    brake_plot_line(&plot, unknown, 2, BRAKE_THIN, "unknown");
    brake_plot_mark(&plot, outside[0], "mark");
    brake_plot_name(&plot, outside[0], "name");
    assert_int_equal(plot.labels, 0);
    assert_int_equal(fclose(file), 0);
}

/* The line leaves through the top at x = 0.5. */
static void a_label_stands_where_its_line_is_last_seen(void **state)
{
    const struct brake_point rising[] = {{0.0, 0.0}, {1.0, 2.0}};
    (void)state;
    FILE *file = tmpfile();
    assert_non_null(file);
    struct brake_plot plot = plot_on(file);
    brake_plot_line(&plot, rising, 2, BRAKE_SOLID_LINE, "rising");
    assert_int_equal(plot.labels, 1);
    assert_true(fabs(plot.label[0].x - brake_plot_x(&plot, 0.5)) < 0.5);
    assert_true(fabs(plot.label[0].y - 36.0) < 0.5);
    assert_int_equal(fclose(file), 0);
}

static void no_number_that_is_none_is_written(void **state)
{
    const struct brake_point points[] = {
        {0.0, 0.0}, {0.2, BRAKE_INFINITY}, {0.4, 0.4}, {BRAKE_NAN, 0.5}, {0.6, -BRAKE_INFINITY}};
    (void)state;
    FILE *file = tmpfile();
    assert_non_null(file);
    struct brake_plot plot = plot_on(file);
    brake_plot_open(&plot);
    brake_plot_line(&plot, points, 5, BRAKE_SOLID_LINE, "odd");
    brake_plot_end(&plot);
    rewind(file);
    written[fread(written, 1, sizeof written - 1, file)] = '\0';
    assert_null(strstr(written, "nan"));
    assert_null(strstr(written, "inf"));
    assert_int_equal(fclose(file), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_scale_holds_its_ends_in_round_steps),
        cmocka_unit_test(an_empty_span_still_has_an_axis),
        cmocka_unit_test(places_follow_the_scale),
        cmocka_unit_test(labels_never_meet),
        cmocka_unit_test(a_line_outside_the_plot_has_no_label),
        cmocka_unit_test(a_label_stands_where_its_line_is_last_seen),
        cmocka_unit_test(no_number_that_is_none_is_written),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
