/* SPDX-License-Identifier: MIT */
/* Pictures: a plot with axes in one or two units, lines told apart by their dashes, each named at
 * the right edge by a label that a thin leader joins to it. Labels never meet: they are spread when
 * all are known. Private to this folder.
 *
 * Lengths in a picture are in its own units, WIDTH of them across. */
#ifndef BRAKE_SVG_H
#define BRAKE_SVG_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "brake/constants.h"
#include "brake/disc.h"
#include "brake/document.h"
#include "brake/units.h"

enum {
    BRAKE_SVG_WIDTH = 430,
    BRAKE_SVG_PLOT = 200, /* usual height of a plot */
    BRAKE_SVG_AXIS = 52,  /* room that the axis of x wants below a plot */
    BRAKE_SVG_HEAD = 36,  /* room that the axis of y wants above a plot */
    BRAKE_SVG_LABELS = 12 /* lines and marks of one plot */
};

/* How a line is drawn; no two look alike in black and white. */
enum brake_dash {
    BRAKE_SOLID_LINE,
    BRAKE_DASHED,
    BRAKE_DOTTED,
    BRAKE_DASH_DOT,
    BRAKE_LONG_DASH,
    BRAKE_THIN, /* what other lines are held against */
    BRAKE_GRID  /* a net in the back */
};

/* What an axis shows: numbers in its unit between two ends, a tick every step. */
struct brake_scale {
    const struct brake_unit *unit;
    const struct brake_unit *other; /* of its second row of numbers; NULL: it has one */
    double low, high, step;         /* [unit] */
    const char *words;
};

struct brake_label {
    double x, y; /* of what it names */
    bool dot;    /* a dot there, where the line does not run to the edge */
    char text[28];
};

/* A plot. Fill in stream, id, top, height, x and y; then open it. */
struct brake_plot {
    FILE *stream;
    const char *id;     /* of the picture, with a letter for each plot of it */
    double top, height; /* of the area that lines are drawn in */
    struct brake_scale x, y;
    bool bare; /* the axis of x belongs to the plot below */
    struct brake_label label[BRAKE_SVG_LABELS];
    int labels;
};

/* An axis from low to high, both moved out to the next tick; low, high in SI, the unit that of the
 * SI trade. */
struct brake_scale brake_scale_of(double low, double high, const struct brake_unit *unit,
                                  enum brake_systems systems, const char *words);

/* A picture of a height, with what it is called and what it shows in words. */
void brake_svg_open(FILE *stream, const char *id, double height, const char *title,
                    const char *description);
void brake_svg_end(FILE *stream);

/* Axes and frame. */
void brake_plot_open(const struct brake_plot *plot);

/* Two numbers of each of many rows, whatever else the rows hold. */
struct brake_series {
    const void *row;
    size_t step; /* bytes from one row to the next */
    int count;
    size_t x, y; /* bytes from the beginning of a row to its two numbers */
};

/* A line through points in SI; one that is not a number is a gap. Label NULL: not named. */
void brake_plot_series(struct brake_plot *plot, const struct brake_series *series,
                       enum brake_dash dash, const char *label);
void brake_plot_line(struct brake_plot *plot, const struct brake_point *points, int count,
                     enum brake_dash dash, const char *label);

/* A small circle with its label. */
void brake_plot_mark(struct brake_plot *plot, struct brake_point at, const char *label);

/* A label for a line, at one of its points. */
void brake_plot_name(struct brake_plot *plot, struct brake_point at, const char *label);

/* The labels. */
void brake_plot_end(struct brake_plot *plot);

/* Places in the picture. */
double brake_plot_x(const struct brake_plot *plot, double value);
double brake_plot_y(const struct brake_plot *plot, double value);

#endif
