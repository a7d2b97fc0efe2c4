/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stddef.h>

#include "parts.h"
#include "picture.h"
#include "svg.h"
#include "cell.h"
#include "vehicle/text.h"
#include "study/sequences.h"

enum { PANEL = 150, STEP = PANEL + 46 };

/* Names of the two pictures and of the plots in them. */
static const struct {
    const char *id;
    const char *plot[BRAKE_AXLES];
    const char *title;
} names[BRAKE_PAPER_DUTIES] = {
    [BRAKE_PAPER_FADE] = {"fade", {"fade-a", "fade-b"}, "Fade sequence: temperatures over time"},
    [BRAKE_PAPER_DESCENT] = {"descent",
                             {"descent-a", "descent-b"},
                             "Descent: temperatures over time"},
};

static const struct {
    size_t offset; /* in a row of the history, of the front axle */
    enum brake_dash dash;
    const char *words;
} parts[] = {
    {offsetof(struct brake_duty_row, face), BRAKE_SOLID_LINE, "rubbed face"},
    {offsetof(struct brake_duty_row, pad), BRAKE_DASHED, "pad or lining"},
    {offsetof(struct brake_duty_row, fluid), BRAKE_DASH_DOT, "fluid"},
};

static void draw_part(struct brake_plot *plot, const struct brake_duty_report *duty, int axle,
                      int part)
{
    const struct brake_series series = {duty->row, sizeof *duty->row, (int)duty->rows,
                                        offsetof(struct brake_duty_row, time),
                                        parts[part].offset + (size_t)axle * sizeof(double)};
    brake_plot_series(plot, &series, parts[part].dash, parts[part].words);
}

static void draw_limit(struct brake_plot *plot, double last, double limit, enum brake_dash dash,
                       const char *words)
{
    const struct brake_point ends[] = {{0.0, limit}, {last, limit}};
    brake_plot_line(plot, ends, 2, dash, words);
}

static double hottest(const struct brake_duty_report *duty)
{
    double most = duty->hot->boiling;
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        most = fmax(most, duty->result->axle[axle].face_most);
        most = fmax(most, duty->hot->friction_until[axle]);
    }
    return most;
}

static void draw_axle(const struct brake_duty_report *duty, enum brake_paper_duty kind, int axle,
                      enum brake_systems systems, FILE *stream)
{
    static const char *const words[] = {"Front brake", "Rear brake"};
    const double last = duty->row[duty->rows - 1].time;
    struct brake_plot plot = {.stream = stream,
                              .id = names[kind].plot[axle],
                              .top = BRAKE_SVG_HEAD + STEP * axle,
                              .height = PANEL,
                              .bare = axle + 1 < BRAKE_AXLES,
                              .x = brake_scale_of(0.0, last, brake_unit_find("s"), systems, "time"),
                              .y = brake_scale_of(273.15, hottest(duty) + 20.0,
                                                  brake_unit_find("degC"), systems, words[axle])};
    brake_plot_open(&plot);
    draw_limit(&plot, last, duty->hot->boiling, BRAKE_THIN, "fluid boils, wet");
    draw_limit(&plot, last, duty->hot->friction_until[axle], BRAKE_DOTTED, "end of pad curve");
    for (size_t part = 0; part < sizeof parts / sizeof parts[0]; part++)
        draw_part(&plot, duty, axle, (int)part);
    brake_plot_end(&plot);
}

static void describe(const struct brake_duty_report *duty, enum brake_systems systems,
                     struct brake_figure *figure)
{
    const bool known = isfinite(duty->hot->friction_until[BRAKE_FRONT]) &&
                       isfinite(duty->hot->friction_until[BRAKE_REAR]);
    char what[BRAKE_DUTY_WORDS];
    char boiling[60];
    char margin[60];
    brake_amount_words(duty->hot->boiling, brake_unit_find("degC"), systems, boiling,
                       sizeof boiling);
    brake_amount_words(duty->result->fluid_margin, brake_unit_si(BRAKE_RISE), systems, margin,
                       sizeof margin);
    brake_part_duty(duty, systems, what);
    brake_text_format(
        figure->words, sizeof figure->words,
        "Shown: %s. Wet, the fluid boils at %s; that less its hottest is %s.%s", what, boiling,
        margin,
        known ? ""
              : " The range of a pad or lining cannot be drawn where its friction curve "
                "is not given (pads.friction, lining.friction).");
    figure->warnings = brake_duty_warnings(duty->hot, duty->duty, duty->result, figure->warning);
}

void brake_picture_heat(const struct brake_paper *paper, enum brake_paper_duty kind,
                        enum brake_systems systems, FILE *stream)
{
    const struct brake_duty_report *duty = paper->duty[kind];
    struct brake_figure figure = {
        .id = names[kind].id, .title = names[kind].title, .systems = systems};
    if (duty == NULL || duty->rows < 2) {
        brake_figure_missing(stream, figure.title, paper->lacking[kind]);
        return;
    }
    describe(duty, systems, &figure);
    brake_figure_open(stream, &figure, BRAKE_SVG_HEAD + STEP + PANEL + 36);
    for (int axle = 0; axle < BRAKE_AXLES; axle++)
        draw_axle(duty, kind, axle, systems, stream);
    brake_figure_end(stream, &figure);
}
