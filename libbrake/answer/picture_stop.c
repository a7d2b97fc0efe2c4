/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "parts.h"
#include "picture.h"
#include "svg.h"
#include "cell.h"
#include "vehicle/text.h"

static const char TITLE[] = "The hardest stop, over time";

enum { PANELS = 3, PANEL = 96, STEP = PANEL + 44 };

static const struct {
    const char *id;
    const char *words;
    const char *unit;
    size_t offset; /* in a row of the history */
} panels[PANELS] = {
    {"stop-a", "Speed", "km/h", offsetof(struct brake_duty_row, speed)},
    {"stop-b", "Deceleration", "m/s2", offsetof(struct brake_duty_row, deceleration)},
    {"stop-c", "Pedal force", "N", offsetof(struct brake_duty_row, pedal_force)},
};

static double value_in(const struct brake_duty_row *row, int panel)
{
    double value;
    memcpy(&value, (const char *)row + panels[panel].offset, sizeof value);
    return value;
}

static void draw_panel(const struct brake_duty_report *stop, int panel, enum brake_systems systems,
                       FILE *stream)
{
    const struct brake_series series = {stop->row, sizeof *stop->row, (int)stop->rows,
                                        offsetof(struct brake_duty_row, time),
                                        panels[panel].offset};
    double most = 0.0;
    for (long i = 0; i < stop->rows; i++)
        most = fmax(most, value_in(&stop->row[i], panel));
    struct brake_plot plot = {.stream = stream,
                              .id = panels[panel].id,
                              .top = BRAKE_SVG_HEAD + STEP * panel,
                              .height = PANEL,
                              .bare = panel + 1 < PANELS,
                              .x = brake_scale_of(0.0, stop->row[stop->rows - 1].time,
                                                  brake_unit_find("s"), systems, "time"),
                              .y = brake_scale_of(0.0, 1.05 * most,
                                                  brake_unit_find(panels[panel].unit), systems,
                                                  panels[panel].words)};
    brake_plot_open(&plot);
    brake_plot_series(&plot, &series, BRAKE_SOLID_LINE, NULL);
    brake_plot_end(&plot);
}

static void describe(const struct brake_duty_report *stop, enum brake_systems systems,
                     struct brake_figure *figure)
{
    char what[BRAKE_DUTY_WORDS];
    char distance[60];
    char developed[60];
    char force[60];
    brake_amount_words(stop->result->distance, brake_unit_find("m"), systems, distance,
                       sizeof distance);
    brake_amount_words(stop->result->developed, brake_unit_find("m/s2"), systems, developed,
                       sizeof developed);
    brake_amount_words(stop->result->force_most, brake_unit_find("N"), systems, force,
                       sizeof force);
    brake_part_duty(stop, systems, what);
    brake_text_format(
        figure->words, sizeof figure->words,
        "Shown: %s. Distance %s, mean fully developed deceleration %s, at most %s on the pedal; "
        "friction follows heat, cold at the start.",
        what, distance, developed, force);
}

void brake_picture_stop(const struct brake_paper *paper, enum brake_systems systems, FILE *stream)
{
    const struct brake_duty_report *stop = paper->duty[BRAKE_PAPER_STOP];
    struct brake_figure figure = {.id = "stop", .title = TITLE};
    if (stop == NULL || stop->rows < 2) {
        brake_figure_missing(stream, TITLE, paper->lacking[BRAKE_PAPER_STOP]);
        return;
    }
    describe(stop, systems, &figure);
    brake_figure_open(stream, &figure, BRAKE_SVG_HEAD + STEP * (PANELS - 1) + PANEL + 36);
    for (int panel = 0; panel < PANELS; panel++)
        draw_panel(stop, panel, systems, stream);
    brake_figure_end(stream, &figure);
}
