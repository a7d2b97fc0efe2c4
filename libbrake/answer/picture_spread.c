/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "picture.h"
#include "svg.h"
#include "cell.h"
#include "vehicle/text.h"
#include "study/conformance.h"

static const char TITLE[] = "How sure the limiting margin is";

static void draw(struct brake_plot *plot, const struct brake_conformance *conformance)
{
    const struct brake_point limit[] = {{0.0, 0.0}, {0.0, 1.0}};
    struct brake_point points[BRAKE_MARGIN_STEPS];
    for (int i = 0; i < BRAKE_MARGIN_STEPS; i++)
        points[i] = (struct brake_point){conformance->margin[i], brake_conformance_step(i)};
    brake_plot_line(plot, limit, 2, BRAKE_DASHED, "the limit");
    brake_plot_line(plot, points, BRAKE_MARGIN_STEPS, BRAKE_SOLID_LINE, NULL);
    brake_plot_mark(plot, points[0], "5 of 100 below");
    brake_plot_mark(plot, points[BRAKE_MARGIN_STEPS / 2], "half of them below");
    brake_plot_mark(plot, points[BRAKE_MARGIN_STEPS - 1], "95 of 100 below");
}

/* Why there is nothing to draw; NULL when there is. */
static const char *missing(const struct brake_assessment *a)
{
    if (a->limiting < 0)
        return "nothing could be judged";
    const double *margin = a->conformance.of[a->limiting].margin;
    const double high = margin[BRAKE_MARGIN_STEPS - 1];
    if (!isfinite(margin[0]) || !isfinite(high))
        return "the margin is without limit in some of the samples";
    return high > margin[0] ? NULL : "nothing that it depends on is uncertain";
}

void brake_picture_spread(const struct brake_paper *paper, enum brake_systems systems, FILE *stream)
{
    const struct brake_assessment *a = paper->assessment;
    const int criterion = a->limiting;
    const char *lacking = missing(a);
    if (lacking != NULL) {
        brake_figure_missing(stream, TITLE, lacking);
        return;
    }
    const struct brake_conformance *conformance = &a->conformance.of[criterion];
    const double low = conformance->margin[0];
    const double high = conformance->margin[BRAKE_MARGIN_STEPS - 1];
    const double beside = 0.2 * (high - low);
    const struct brake_unit *percent = brake_unit_find("%");
    struct brake_figure figure = {.id = "spread", .title = TITLE};
    struct brake_plot plot = {
        .stream = stream,
        .id = "spread",
        .top = BRAKE_SVG_HEAD,
        .height = BRAKE_SVG_PLOT,
        .x = brake_scale_of(fmin(0.0, low - beside), fmax(0.0, high + beside), percent, systems,
                            "margin"),
        .y = brake_scale_of(0.0, 1.0, percent, systems, "Share that is below")};
    brake_text_format(
        figure.words, sizeof figure.words,
        "%s (%s). The margin is %+.0f %% with the numbers as they stand; of all that may be behind "
        "them 90 of 100 lie within %+.0f to %+.0f %%, and %.0f of 100 meet.",
        brake_criterion_at(criterion)->title, brake_criterion_at(criterion)->id,
        100.0 * a->judgement[criterion].margin, 100.0 * low, 100.0 * high,
        100.0 * conformance->met);
    brake_figure_open(stream, &figure, BRAKE_SVG_HEAD + BRAKE_SVG_PLOT + 36);
    brake_plot_open(&plot);
    draw(&plot, conformance);
    brake_plot_end(&plot);
    brake_figure_end(stream, &figure);
}
