/* SPDX-License-Identifier: MIT */
/* Equations and sources: brake/tyre.h. */
#include "brake/tyre.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "brake/constants.h"

#define INCH 0.0254

/* Section height over width where a marking has none: metric, then inch. */
static const double assumed_aspect_metric = 0.82;
static const double assumed_aspect_inch = 1.04;

double brake_rim_diameter(double code)
{
    return round(code * 25.4) / 1000.0;
}

double brake_tyre_diameter(double rim_diameter, double section_width, double aspect)
{
    return rim_diameter + 2.0 * section_width * aspect;
}

double brake_tyre_circumference(double diameter, bool radial)
{
    return (radial ? 3.05 : 2.99) * diameter;
}

double brake_rolling_radius(double circumference)
{
    return circumference / (2.0 * BRAKE_PI);
}

double brake_load_index_mass(int index)
{
    static const short mass[] = {
        250,  257,  265,  272,  280,  290,  300,  307,  315,  325,  335,  345,  355,  365,  375,
        387,  400,  412,  425,  437,  450,  462,  475,  487,  500,  515,  530,  545,  560,  580,
        600,  615,  630,  650,  670,  690,  710,  730,  750,  775,  800,  825,  850,  875,  900,
        925,  950,  975,  1000, 1030, 1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320, 1360,
        1400, 1450, 1500, 1550, 1600, 1650, 1700, 1750, 1800, 1850, 1900};
    const int first = 60;
    const int count = (int)(sizeof mass / sizeof mass[0]);
    if (index < first || index >= first + count)
        return BRAKE_NAN;
    return mass[index - first];
}

double brake_speed_symbol(char symbol)
{
    static const char letters[] = "FGJKLMNPQRSTUHVWY";
    static const short speed[] = {80,  90,  100, 110, 120, 130, 140, 150, 160,
                                  170, 180, 190, 200, 210, 240, 270, 300};
    const char *found = symbol != '\0' ? strchr(letters, symbol) : NULL;
    return found != NULL ? speed[found - letters] / 3.6 : BRAKE_NAN;
}

double brake_wheel_inertia_swing(double mass, double radius, double length, double period)
{
    const double swing = radius * period / (2.0 * BRAKE_PI);
    return mass * BRAKE_GRAVITY * swing * swing / length;
}

double brake_wheel_inertia_estimate(double mass, double radius, double fraction)
{
    return fraction * mass * radius * radius;
}

double brake_speed_true_over_shown(double rollout, double rollout_before, double ratio,
                                   double ratio_before)
{
    return rollout / rollout_before * ratio_before / ratio;
}

/* A place in the marking's text; every reader moves it on past what it took. */
struct cursor {
    const char *at;
};

static void skip_spaces(struct cursor *c)
{
    while (*c->at == ' ')
        c->at++;
}

/* Spaces may stand before any part of a marking. */
static bool take(struct cursor *c, const char *word)
{
    const size_t length = strlen(word);
    skip_spaces(c);
    if (strncmp(c->at, word, length) != 0)
        return false;
    c->at += length;
    return true;
}

static bool is_digit(char letter)
{
    return letter >= '0' && letter <= '9';
}

/* A whole number of at most four digits; 0 when there is none. */
static int take_whole(struct cursor *c)
{
    int value = 0;
    skip_spaces(c);
    for (int digits = 0; is_digit(*c->at) && digits < 4; digits++)
        value = value * 10 + (*c->at++ - '0');
    return value;
}

/* The same with decimals. */
static double take_number(struct cursor *c)
{
    double value = take_whole(c);
    if (*c->at == '.' && is_digit(c->at[1])) {
        double unit = 1.0;
        c->at++;
        while (is_digit(*c->at))
            value += (unit /= 10.0) * (*c->at++ - '0');
    }
    return value;
}

/* R or ZR radial, B or D or - bias; *known tells whether one of them stood there. */
static bool take_construction(struct cursor *c, bool *known)
{
    const bool radial = take(c, "ZR") || take(c, "R");
    *known = radial || take(c, "B") || take(c, "D") || take(c, "-");
    return radial;
}

/* Load range, a letter by itself: B to N, of US light-truck tyres (not used). */
static void take_load_range(struct cursor *c)
{
    skip_spaces(c);
    if (*c->at >= 'B' && *c->at <= 'N' && (c->at[1] == ' ' || c->at[1] == '\0'))
        c->at++;
}

/* Load index, after a slash that for dual mounting, speed symbol; all optional. */
static bool take_service(struct cursor *c, struct brake_marking *m)
{
    take_load_range(c);
    skip_spaces(c);
    if (is_digit(*c->at)) {
        m->load_capacity = brake_load_index_mass(take_whole(c));
        if (take(c, "/"))
            m->dual_capacity = brake_load_index_mass(take_whole(c));
        skip_spaces(c);
        if (*c->at != '\0')
            m->speed_limit = brake_speed_symbol(*c->at++);
    }
    take_load_range(c);
    skip_spaces(c);
    return *c->at == '\0' && !isnan(m->load_capacity + m->dual_capacity + m->speed_limit);
}

/* 265/70R17, 185R14, with P or LT ahead or C or LT behind. */
static enum brake_status read_metric(struct cursor *c, double width, struct brake_marking *m)
{
    enum brake_status status = BRAKE_OK;
    bool known = false;
    m->section_width = width;
    m->aspect = assumed_aspect_metric;
    if (take(c, "/"))
        m->aspect = take_number(c) / 100.0;
    else
        status = BRAKE_W_ASSUMED;
    m->radial = take_construction(c, &known);
    const double code = take_number(c);
    m->rim_diameter = brake_rim_diameter(code);
    m->overall_diameter = brake_tyre_diameter(m->rim_diameter, m->section_width, m->aspect);
    (void)(take(c, "LT") || take(c, "C"));
    const bool plausible =
        width <= 0.5 && m->aspect >= 0.2 && m->aspect <= 1.1 && code >= 8.0 && code <= 30.0;
    return known && plausible ? status : BRAKE_E_MARKING;
}

/* 35x12.50R17LT: nominal diameter and width in inches. */
static enum brake_status read_flotation(struct cursor *c, double diameter, struct brake_marking *m)
{
    bool known = false;
    m->overall_diameter = diameter * INCH;
    m->section_width = take_number(c) * INCH;
    m->radial = take_construction(c, &known);
    const double code = take_number(c);
    m->rim_diameter = brake_rim_diameter(code);
    m->aspect = (m->overall_diameter - m->rim_diameter) / (2.0 * m->section_width);
    (void)take(c, "LT");
    const bool plausible = diameter >= 20.0 && diameter <= 60.0 && m->section_width >= 0.1 &&
                           m->section_width <= 0.6 && code >= 8.0 && code < diameter;
    return known && plausible ? BRAKE_W_NOMINAL : BRAKE_E_MARKING;
}

/* 7.50R16: section width and rim in inches. */
static enum brake_status read_numeric(struct cursor *c, double width, struct brake_marking *m)
{
    bool known = false;
    m->section_width = width * INCH;
    m->aspect = assumed_aspect_inch;
    m->radial = take_construction(c, &known);
    const double code = take_number(c);
    m->rim_diameter = brake_rim_diameter(code);
    m->overall_diameter = brake_tyre_diameter(m->rim_diameter, m->section_width, m->aspect);
    (void)(take(c, "LT") || take(c, "C"));
    const bool plausible = width >= 4.0 && width <= 15.0 && code >= 8.0 && code <= 30.0;
    return known && plausible ? BRAKE_W_ASSUMED : BRAKE_E_MARKING;
}

enum brake_status brake_marking_read(const char *text, struct brake_marking *marking)
{
    static const struct brake_marking none;
    struct brake_marking m = none;
    struct cursor c = {text};
    enum brake_status status = BRAKE_E_MARKING;
    (void)(take(&c, "LT") || take(&c, "P"));
    struct cursor ahead = c;
    const double first = take_number(&ahead);
    if (take(&ahead, "x") || take(&ahead, "X"))
        status = read_flotation(&ahead, first, &m);
    else if (first >= 100.0)
        status = read_metric(&ahead, first / 1000.0, &m);
    else if (first > 0.0)
        status = read_numeric(&ahead, first, &m);
    if (status < 0 || !take_service(&ahead, &m)) {
        *marking = none;
        return BRAKE_E_MARKING;
    }
    *marking = m;
    return status;
}
