/* SPDX-License-Identifier: MIT */
#include "svg.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "brake/file.h"
#include "page.h"
#include "cell.h"
#include "vehicle/text.h"
#include "file/number.h"

/* Edges of the plot, and of the numbers beside it. */
static const double LEFT = 74.0;
static const double RIGHT = 300.0;
static const double FIRST_END = 68.0;
static const double OTHER_END = 33.0;

static const double LINE = 14.0;  /* from one label to the next */
static const double CLOSE = 0.35; /* points nearer than this add nothing to a line */

/* ---- the picture ---------------------------------------------------------------------------- */

void brake_svg_open(FILE *stream, const char *id, double height, const char *title,
                    const char *description)
{
    brake_text_print(
        stream,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %d %.0f\" role=\"img\" "
        "aria-labelledby=\"%s-title %s-desc\" font-size=\"12\" fill=\"none\" stroke=\"#000\" "
        "stroke-width=\"1\">\n<title id=\"%s-title\">",
        BRAKE_SVG_WIDTH, height, id, id, id);
    brake_page_text(stream, title);
    brake_text_print(stream, "</title>\n<desc id=\"%s-desc\">", id);
    brake_page_text(stream, description);
    fputs("</desc>\n", stream);
}

void brake_svg_end(FILE *stream)
{
    fputs("</svg>\n", stream);
}

static void write_text(FILE *stream, double x, double y, const char *anchor, const char *text)
{
    if (text[0] == '\0')
        return; /* a ratio has no unit */
    brake_text_print(
        stream, "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\" fill=\"#000\" stroke=\"none\">", x,
        y, anchor);
    brake_page_text(stream, text);
    fputs("</text>\n", stream);
}

/* A number of a path, to a tenth, and the letter that leads up to it. */
static void write_place(FILE *stream, char before, double place)
{
    char text[1 + BRAKE_NUMBER_SIZE];
    text[0] = before;
    brake_number_write(round(10.0 * place) / 10.0, text + 1);
    fputs(text, stream);
}

static void write_point(FILE *stream, char command, double x, double y)
{
    write_place(stream, command, x);
    write_place(stream, ' ', y);
}

static void write_line(FILE *stream, double x1, double y1, double x2, double y2)
{
    fputs("<path d=\"", stream);
    write_point(stream, 'M', x1, y1);
    write_point(stream, 'L', x2, y2);
    fputs("\"/>\n", stream);
}

/* ---- axes ----------------------------------------------------------------------------------- */

/* 1, 2 or 5 times a power of ten, so that no more than five steps make up the span. */
static double nice_step(double span)
{
    const double rough = span / 5.0 * (1.0 - 1e-9);
    const double power = pow(10.0, floor(log10(rough)));
    const double part = rough / power;
    return power * (part < 1.0 ? 1.0 : part < 2.0 ? 2.0 : part < 5.0 ? 5.0 : 10.0);
}

struct brake_scale brake_scale_of(double low, double high, const struct brake_unit *unit,
                                  enum brake_systems systems, const char *words)
{
    const struct brake_cell cell = brake_cell_number(low, unit);
    const struct brake_unit *shown[2];
    const int units = brake_cell_units(&cell, systems, shown);
    const double first = brake_unit_from_si(shown[0], low);
    const double last = brake_unit_from_si(shown[0], high);
    const double step = nice_step(last > first ? last - first : 1.0);
    const struct brake_scale scale = {shown[0],
                                      units > 1 ? shown[1] : NULL,
                                      step * floor(first / step + 1e-9),
                                      step * ceil(last / step - 1e-9),
                                      step,
                                      words};
    return scale;
}

static double share(const struct brake_scale *scale, double number)
{
    return (number - scale->low) / (scale->high - scale->low);
}

double brake_plot_x(const struct brake_plot *plot, double value)
{
    return LEFT + (RIGHT - LEFT) * share(&plot->x, brake_unit_from_si(plot->x.unit, value));
}

double brake_plot_y(const struct brake_plot *plot, double value)
{
    return plot->top +
           plot->height * (1.0 - share(&plot->y, brake_unit_from_si(plot->y.unit, value)));
}

static int ticks(const struct brake_scale *scale)
{
    return (int)((scale->high - scale->low) / scale->step + 0.5);
}

/* The number of a tick in a unit; a zero has no sign. */
static void tick_words(const struct brake_scale *scale, int tick, const struct brake_unit *unit,
                       char text[24])
{
    const double number = scale->low + scale->step * tick;
    const double si = brake_unit_to_si(scale->unit, number);
    const double shown = unit == scale->unit ? number : brake_unit_from_si(unit, si);
    brake_text_format(text, 24, fabs(shown) < 1e3 ? "%.3g" : "%.0f",
                      fabs(shown) < 1e-6 * scale->step ? 0.0 : shown);
}

static void axis_of_y(const struct brake_plot *plot)
{
    const struct brake_scale *scale = &plot->y;
    char text[24];
    write_text(plot->stream, 0.0, plot->top - 24.0, "start", scale->words);
    write_text(plot->stream, FIRST_END, plot->top - 9.0, "end", scale->unit->name);
    if (scale->other != NULL)
        write_text(plot->stream, OTHER_END, plot->top - 9.0, "end", scale->other->name);
    for (int i = 0; i <= ticks(scale); i++) {
        const double y = plot->top + plot->height * (1.0 - (double)i / ticks(scale));
        write_line(plot->stream, LEFT - 3.0, y, LEFT, y);
        tick_words(scale, i, scale->unit, text);
        write_text(plot->stream, FIRST_END, y + 4.0, "end", text);
        if (scale->other == NULL)
            continue;
        tick_words(scale, i, scale->other, text);
        write_text(plot->stream, OTHER_END, y + 4.0, "end", text);
    }
}

static void axis_of_x(const struct brake_plot *plot)
{
    const struct brake_scale *scale = &plot->x;
    const double bottom = plot->top + plot->height;
    const bool both = scale->other != NULL;
    char text[24];
    for (int i = 0; i <= ticks(scale); i++) {
        const double x = LEFT + (RIGHT - LEFT) * i / ticks(scale);
        write_line(plot->stream, x, bottom, x, bottom + 3.0);
        if (plot->bare)
            continue;
        tick_words(scale, i, scale->unit, text);
        write_text(plot->stream, x, bottom + 16.0, "middle", text);
        if (!both)
            continue;
        tick_words(scale, i, scale->other, text);
        write_text(plot->stream, x, bottom + 30.0, "middle", text);
    }
    if (plot->bare)
        return;
    write_text(plot->stream, RIGHT + 22.0, bottom + 16.0, "start", scale->unit->name);
    if (both)
        write_text(plot->stream, RIGHT + 22.0, bottom + 30.0, "start", scale->other->name);
    write_text(plot->stream, (LEFT + RIGHT) / 2.0, bottom + (both ? 46.0 : 32.0), "middle",
               scale->words);
}

void brake_plot_open(const struct brake_plot *plot)
{
    brake_text_print(
        plot->stream,
        "<clipPath id=\"%s-clip\"><rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\"/>"
        "</clipPath>\n<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" "
        "stroke-width=\"0.7\"/>\n",
        plot->id, LEFT, plot->top, RIGHT - LEFT, plot->height, LEFT, plot->top, RIGHT - LEFT,
        plot->height);
    axis_of_y(plot);
    axis_of_x(plot);
}

/* ---- lines ---------------------------------------------------------------------------------- */

static bool inside(const struct brake_plot *plot, double x, double y)
{
    return x >= LEFT - 0.01 && x <= RIGHT + 0.01 && y >= plot->top - 0.01 &&
           y <= plot->top + plot->height + 0.01;
}

static void add_label(struct brake_plot *plot, double x, double y, const char *text, bool dot)
{
    struct brake_label *label = &plot->label[plot->labels];
    if (text == NULL || plot->labels == BRAKE_SVG_LABELS)
        return;
    label->x = x;
    label->y = y;
    label->dot = dot;
    brake_text_format(label->text, sizeof label->text, "%s", text);
    plot->labels++;
}

/* Where a line leaves the plot between a point inside and one outside: halved until it is there. */
static struct brake_point leaving(const struct brake_plot *plot, struct brake_point in,
                                  struct brake_point out)
{
    for (int i = 0; i < 12; i++) {
        const struct brake_point middle = {0.5 * (in.x + out.x), 0.5 * (in.y + out.y)};
        if (inside(plot, middle.x, middle.y))
            in = middle;
        else
            out = middle;
    }
    return in;
}

/* Far outside lines are cut off by the picture; a number that is too long is not written. */
static double near_by(double place)
{
    return fmax(-1e4, fmin(1e4, place));
}

static struct brake_point point_at(const struct brake_series *series, int i)
{
    const char *row = (const char *)series->row + (size_t)i * series->step;
    struct brake_point point;
    memcpy(&point.x, row + series->x, sizeof point.x);
    memcpy(&point.y, row + series->y, sizeof point.y);
    return point;
}

/* Writes the points; gives the last place at which the line is seen. */
static struct brake_point trace(const struct brake_plot *plot, const struct brake_series *series)
{
    struct brake_point last = {BRAKE_NAN, BRAKE_NAN};
    struct brake_point before = {BRAKE_NAN, BRAKE_NAN};
    struct brake_point seen = {BRAKE_NAN, BRAKE_NAN};
    for (int i = 0; i < series->count; i++) {
        const struct brake_point point = point_at(series, i);
        const struct brake_point at = {near_by(brake_plot_x(plot, point.x)),
                                       near_by(brake_plot_y(plot, point.y))};
        const bool gap = isnan(point.x) || isnan(point.y);
        if (!gap && inside(plot, at.x, at.y))
            seen = at;
        else if (!gap && inside(plot, before.x, before.y))
            seen = leaving(plot, before, at);
        if (!gap && (isnan(last.x) || i + 1 == series->count || fabs(at.x - last.x) > CLOSE ||
                     fabs(at.y - last.y) > CLOSE)) {
            write_point(plot->stream, isnan(last.x) ? 'M' : 'L', at.x, at.y);
            last = at;
        }
        before = at;
        if (gap)
            last.x = BRAKE_NAN;
    }
    return seen;
}

void brake_plot_series(struct brake_plot *plot, const struct brake_series *series,
                       enum brake_dash dash, const char *label)
{
    static const char *const looks[] = {
        [BRAKE_SOLID_LINE] = "stroke-width=\"1.8\"",
        [BRAKE_DASHED] = "stroke-width=\"1.6\" stroke-dasharray=\"7 3\"",
        [BRAKE_DOTTED] = "stroke-width=\"1.8\" stroke-dasharray=\"1.5 3\"",
        [BRAKE_DASH_DOT] = "stroke-width=\"1.6\" stroke-dasharray=\"8 3 1.5 3\"",
        [BRAKE_LONG_DASH] = "stroke-width=\"1.4\" stroke-dasharray=\"14 4\"",
        [BRAKE_THIN] = "stroke-width=\"0.8\"",
        [BRAKE_GRID] = "stroke-width=\"0.5\" stroke=\"#888\""};
    brake_text_print(plot->stream, "<path clip-path=\"url(#%s-clip)\" %s d=\"", plot->id,
                     looks[dash]);
    const struct brake_point seen = trace(plot, series);
    fputs("\"/>\n", plot->stream);
    if (!isnan(seen.x))
        add_label(plot, seen.x, seen.y, label, seen.x < RIGHT - 4.0);
}

void brake_plot_line(struct brake_plot *plot, const struct brake_point *points, int count,
                     enum brake_dash dash, const char *label)
{
    const struct brake_series series = {points, sizeof *points, count,
                                        offsetof(struct brake_point, x),
                                        offsetof(struct brake_point, y)};
    brake_plot_series(plot, &series, dash, label);
}

void brake_plot_mark(struct brake_plot *plot, struct brake_point at, const char *label)
{
    const double x = brake_plot_x(plot, at.x);
    const double y = brake_plot_y(plot, at.y);
    if (!inside(plot, x, y))
        return;
    brake_text_print(plot->stream, "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"3.2\" fill=\"#fff\"/>\n", x,
                     y);
    add_label(plot, x, y, label, false);
}

void brake_plot_name(struct brake_plot *plot, struct brake_point at, const char *label)
{
    const double x = brake_plot_x(plot, at.x);
    const double y = brake_plot_y(plot, at.y);
    if (inside(plot, x, y))
        add_label(plot, x, y, label, true);
}

/* ---- labels --------------------------------------------------------------------------------- */

static void sort_by_height(struct brake_plot *plot)
{
    for (int i = 1; i < plot->labels; i++) {
        const struct brake_label label = plot->label[i];
        int at = i;
        for (; at > 0 && plot->label[at - 1].y > label.y; at--)
            plot->label[at] = plot->label[at - 1];
        plot->label[at] = label;
    }
}

/* Each at least a line below the one before; then those that hang out are pushed up again. */
static void spread(const struct brake_plot *plot, double place[BRAKE_SVG_LABELS])
{
    double most = plot->top + plot->height;
    for (int i = 0; i < plot->labels; i++) {
        place[i] = fmax(plot->label[i].y, plot->top + 2.0);
        if (i > 0)
            place[i] = fmax(place[i], place[i - 1] + LINE);
    }
    for (int i = plot->labels - 1; i >= 0; i--) {
        place[i] = fmin(place[i], most);
        most = place[i] - LINE;
    }
}

void brake_plot_end(struct brake_plot *plot)
{
    double place[BRAKE_SVG_LABELS];
    sort_by_height(plot);
    spread(plot, place);
    for (int i = 0; i < plot->labels; i++) {
        const struct brake_label *label = &plot->label[i];
        if (label->dot)
            brake_text_print(plot->stream,
                             "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"1.5\" fill=\"#000\"/>\n",
                             label->x, label->y);
        fputs("<path stroke-width=\"0.4\" stroke=\"#444\" d=\"", plot->stream);
        write_point(plot->stream, 'M', label->x + 2.0, label->y);
        write_point(plot->stream, 'L', RIGHT + 2.0, label->x < RIGHT - 4.0 ? place[i] : label->y);
        write_point(plot->stream, 'L', RIGHT + 9.0, place[i]);
        fputs("\"/>\n", plot->stream);
        write_text(plot->stream, RIGHT + 11.0, place[i] + 4.0, "start", label->text);
    }
}
