#include <math.h>

#include "picture.h"
#include "svg.h"
#include "cell.h"
#include "vehicle/text.h"

enum { POINTS = 80 };

static const char TITLE[] = "How sure the limiting margin is";
static const char OTHER[] = "How sure the least margin is whose doubt is known";

/* The limiting one, or, where its doubt is not known as in hot performance, the least whose is. */
static int shown(const struct brake_assessment *a)
{
    return a->limiting >= 0 && isfinite(a->sureness[a->limiting].sigma)
               ? a->limiting
               : brake_assessment_doubted(a);
}

/* Share of a normal distribution below a point; source: Abramowitz and Stegun, 26.2.29. */
static double below(double value, double mean, double sigma)
{
    return 0.5 * erfc((mean - value) / (sigma * sqrt(2.0)));
}

static void draw(struct brake_plot *plot, double margin, double sigma)
{
    const double half = BRAKE_P95 * sigma;
    const struct brake_point limit[] = {{0.0, 0.0}, {0.0, 1.0}};
    struct brake_point points[POINTS + 1];
    for (int i = 0; i <= POINTS; i++) {
        const double value = margin + sigma * (6.4 * i / (double)POINTS - 3.2);
        points[i] = (struct brake_point){value, below(value, margin, sigma)};
    }
    brake_plot_line(plot, limit, 2, BRAKE_DASHED, "the limit");
    brake_plot_line(plot, points, POINTS + 1, BRAKE_SOLID_LINE, NULL);
    brake_plot_mark(plot, (struct brake_point){margin - half, 0.05}, "5 of 100 below");
    brake_plot_mark(plot, (struct brake_point){margin, 0.5}, "the margin");
    brake_plot_mark(plot, (struct brake_point){margin + half, 0.95}, "95 of 100 below");
}

void brake_picture_spread(const struct brake_paper *paper, enum brake_systems systems, FILE *stream)
{
    const struct brake_assessment *a = paper->assessment;
    const int criterion = shown(a);
    const double margin = criterion >= 0 ? a->judgement[criterion].margin : BRAKE_NAN;
    const double sigma = criterion >= 0 ? a->sureness[criterion].sigma : BRAKE_NAN;
    const struct brake_unit *percent = brake_unit_find("%");
    struct brake_figure figure = {.id = "spread",
                                  .title = criterion == a->limiting ? TITLE : OTHER};
    char range[60];
    if (!isfinite(margin) || !isfinite(sigma) || !(sigma > 0.0)) {
        brake_figure_missing(stream, TITLE,
                             a->limiting < 0 ? "nothing could be judged"
                                             : "no line of the vehicle file has a tolerance");
        return;
    }
    struct brake_plot plot = {
        .stream = stream,
        .id = "spread",
        .top = BRAKE_SVG_HEAD,
        .height = BRAKE_SVG_PLOT,
        .x = brake_scale_of(fmin(0.0, margin - 3.0 * sigma), fmax(0.0, margin + 3.0 * sigma),
                            percent, systems, "margin"),
        .y = brake_scale_of(0.0, 1.0, percent, systems, "Chance that it is below")};
    brake_text_format(range, sizeof range, "%+.0f to %+.0f %%",
                      100.0 * (margin - BRAKE_P95 * sigma), 100.0 * (margin + BRAKE_P95 * sigma));
    brake_text_format(
        figure.words, sizeof figure.words,
        "%s (%s). The margin is %+.0f %%; 90 of 100 such vehicles lie within %s, and %.0f of "
        "100 fall short. To first order: every tolerance moved in turn, the moves added up in "
        "squares and taken as normal.",
        brake_criterion_at(criterion)->title, brake_criterion_at(criterion)->id, 100.0 * margin,
        range, 100.0 * below(0.0, margin, sigma));
    brake_figure_open(stream, &figure, BRAKE_SVG_HEAD + BRAKE_SVG_PLOT + 36);
    brake_plot_open(&plot);
    draw(&plot, margin, sigma);
    brake_plot_end(&plot);
    brake_figure_end(stream, &figure);
}
