/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stddef.h>

#include "page.h"
#include "picture.h"
#include "svg.h"
#include "vehicle/text.h"
#include "vehicle/system.h"

enum { POINTS = 100 };

/* Steepness of the published bound that holds for the vehicle: z >= 0.1 + slope (k - 0.2). */
static const struct brake_criterion *bound_for(const struct brake_vehicle *vehicle)
{
    const unsigned category = vehicle->general.category == BRAKE_M1 ? BRAKE_TO_M1 : BRAKE_TO_N1;
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_criterion *c = brake_criterion_at(i);
        if (c->measure == BRAKE_ADHESION_CURVE && (c->applies & category) != 0)
            return c;
    }
    return NULL;
}

/* Named where the lines are still apart. */
static void draw_used(struct brake_plot *plot, const struct brake_balance *balance,
                      enum brake_axle axle)
{
    const bool front = axle == BRAKE_FRONT;
    const int named = front ? POINTS * 2 / 3 : POINTS / 2;
    struct brake_point points[POINTS];
    for (int i = 0; i < POINTS; i++) {
        const double ratio = (i + 1.0) / (double)POINTS;
        const double pressure = brake_balance_pressure(balance, ratio * BRAKE_GRAVITY);
        points[i] = (struct brake_point){ratio, BRAKE_NAN};
        if (isfinite(pressure))
            points[i].y = brake_balance_at(balance, pressure).used[axle];
    }
    brake_plot_line(plot, points, POINTS, front ? BRAKE_SOLID_LINE : BRAKE_DASHED, NULL);
    brake_plot_name(plot, points[named], front ? "front axle" : "rear axle");
}

static void draw_bounds(struct brake_plot *plot, const struct brake_criterion *bound)
{
    const struct brake_point even[] = {{0.0, 0.0}, {1.0, 1.0}};
    const struct brake_point rear[] = {{0.15, 0.15 / 0.9}, {0.80, 0.80 / 0.9}};
    brake_plot_line(plot, even, 2, BRAKE_THIN, NULL);
    brake_plot_name(plot, (struct brake_point){0.9, 0.9}, "both alike");
    brake_plot_line(plot, rear, 2, BRAKE_DOTTED, "FMVSS 135, rear");
    if (bound == NULL)
        return;
    const struct brake_point un[] = {{0.1, 0.2}, {0.1 + 0.6 * bound->coefficient, 0.8}};
    brake_plot_line(plot, un, 2, BRAKE_DASH_DOT, "UN, both axles");
}

void brake_picture_adhesion(const struct brake_paper *paper, enum brake_load load,
                            enum brake_systems systems, FILE *stream)
{
    static const char *const titles[] = {"Use of adhesion, empty", "Use of adhesion, full"};
    static const char *const ids[] = {"adhesion-empty", "adhesion-full"};
    const struct brake_vehicle *vehicle = &paper->sheet->vehicle;
    const struct brake_case_results *r = &paper->assessment->results.load[load];
    const struct brake_criterion *bound = bound_for(vehicle);
    const struct brake_unit *none = brake_unit_si(BRAKE_RATIO);
    struct brake_figure figure = {.id = ids[load], .title = titles[load]};
    struct brake_system system;
    struct brake_plot plot = {
        .stream = stream,
        .id = ids[load],
        .top = BRAKE_SVG_HEAD,
        .height = BRAKE_SVG_PLOT,
        .x = brake_scale_of(0.0, 1.0, none, systems, "deceleration over g"),
        .y = brake_scale_of(0.0, 1.0, none, systems, "Friction that the axle needs")};
    brake_system_build(vehicle, load, BRAKE_INTACT, &system);
    brake_text_format(
        figure.words, sizeof figure.words,
        "The friction k that each axle needs so as not to lock, at each deceleration z in g, %s. "
        "At the target the front needs %.4g, the rear %.4g. Bounds, which the lines must stay "
        "below: z = 0.1 + %.2f (k - 0.2) for both axles (%s); z = 0.9 k for the rear "
        "(49 CFR 571.135 S7.4). Check both against the current text.",
        brake_load_word(load), r->balance.front_adhesion_used, r->balance.rear_adhesion_used,
        bound != NULL ? bound->coefficient : BRAKE_NAN, bound != NULL ? bound->clause : "none");
    brake_figure_open(stream, &figure, BRAKE_SVG_HEAD + BRAKE_SVG_PLOT + 36);
    brake_plot_open(&plot);
    draw_bounds(&plot, bound);
    draw_used(&plot, &system.balance, BRAKE_FRONT);
    draw_used(&plot, &system.balance, BRAKE_REAR);
    brake_plot_end(&plot);
    brake_figure_end(stream, &figure);
}
