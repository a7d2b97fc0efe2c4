/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "page.h"
#include "picture.h"
#include "svg.h"
#include "cell.h"
#include "vehicle/text.h"
#include "vehicle/system.h"

enum { POINTS = 60 };

/* One load case: brakes, weight [N], friction of the road [-]. */
struct scene {
    struct brake_system system;
    const struct brake_balance *balance;
    double weight;
    double pressure_most;
};

static void set_scene(const struct brake_vehicle *vehicle, enum brake_load load, struct scene *s)
{
    brake_system_build(vehicle, load, BRAKE_INTACT, &s->system);
    s->balance = &s->system.balance;
    s->weight = s->balance->body.mass * BRAKE_GRAVITY;
    s->pressure_most = brake_system_pressure(&s->system, vehicle->driver.pedal_force_most);
}

/* Forces at the tyres at a pressure, over the weight. */
static struct brake_point forces(const struct scene *s, double pressure)
{
    const struct brake_balance_state at = brake_balance_at(s->balance, pressure);
    const struct brake_point point = {at.force[BRAKE_FRONT] / s->weight,
                                      at.force[BRAKE_REAR] / s->weight};
    return point;
}

static void draw_actual(struct brake_plot *plot, const struct scene *s)
{
    struct brake_point points[POINTS + 1];
    for (int i = 0; i <= POINTS; i++)
        points[i] = forces(s, s->pressure_most * i / (double)POINTS);
    brake_plot_line(plot, points, POINTS + 1, BRAKE_SOLID_LINE, "brakes as they are");
}

static void draw_ideal(struct brake_plot *plot, const struct scene *s)
{
    struct brake_point points[POINTS + 1];
    const struct brake_body body = brake_turning_body(s->balance);
    for (int i = 0; i <= POINTS; i++) {
        const double ratio = 1.2 * i / (double)POINTS;
        const double share = brake_ideal_share(body, s->balance->wheelbase, ratio);
        points[i] = (struct brake_point){share * ratio, (1.0 - share) * ratio};
    }
    brake_plot_line(plot, points, POINTS + 1, BRAKE_DASHED, "ideal");
}

/* Where an axle uses all the adhesion of the road: its force follows its load, which follows the
 * sum of both. */
static void draw_lock(struct brake_plot *plot, const struct scene *s, enum brake_axle axle)
{
    struct brake_point points[POINTS + 1];
    const struct brake_body body = brake_turning_body(s->balance);
    const double left = s->system.adhesion - s->balance->rolling;
    for (int i = 0; i <= POINTS; i++) {
        const double sum = 1.2 * i / (double)POINTS;
        const double slowing = (sum + s->balance->rolling) * BRAKE_GRAVITY;
        const double front =
            brake_front_load(body, s->balance->wheelbase, slowing, 0.0) / s->weight;
        const double held = left * (axle == BRAKE_FRONT ? front : 1.0 - front);
        points[i] = axle == BRAKE_FRONT ? (struct brake_point){held, sum - held}
                                        : (struct brake_point){sum - held, held};
    }
    brake_plot_line(plot, points, POINTS + 1, axle == BRAKE_FRONT ? BRAKE_DASH_DOT : BRAKE_DOTTED,
                    axle == BRAKE_FRONT ? "front locks" : "rear locks");
}

/* Equal deceleration: 0.1 g, 0.2 g and so on. */
static void draw_net(struct brake_plot *plot)
{
    for (int tenth = 1; tenth <= 12; tenth++) {
        const struct brake_point ends[] = {{0.1 * tenth, 0.0}, {0.0, 0.1 * tenth}};
        brake_plot_line(plot, ends, 2, BRAKE_GRID, NULL);
    }
}

static void describe(const struct brake_paper *paper, enum brake_load load, const struct scene *s,
                     enum brake_systems systems, struct brake_figure *figure)
{
    const struct brake_case_results *r = &paper->assessment->results.load[load];
    char slowing[60];
    char force[60];
    brake_amount_words(r->balance.lock_deceleration, brake_unit_find("m/s2"), systems, slowing,
                       sizeof slowing);
    brake_amount_words(paper->sheet->vehicle.driver.pedal_force_most, brake_unit_find("N"), systems,
                       force, sizeof force);
    brake_text_format(
        figure->words, sizeof figure->words,
        "Brake force of each axle over the weight of the vehicle, %s, on a road of friction "
        "%.2f, up to %s on the pedal. At the target deceleration the front has %.4g %% of "
        "the force; %.4g %% would be ideal. Each thin slanted line is one more tenth of g.",
        brake_load_word(load), s->system.adhesion, force, 100.0 * r->balance.front_share,
        100.0 * r->balance.ideal_front_share);
    if (isfinite(r->balance.lock_deceleration))
        brake_text_format(figure->words + strlen(figure->words),
                          sizeof figure->words - strlen(figure->words),
                          " The %s axle locks first, at %s.",
                          brake_axle_word((enum brake_axle)(int)r->balance.lock_axle), slowing);
}

void brake_picture_balance(const struct brake_paper *paper, enum brake_load load,
                           enum brake_systems systems, FILE *stream)
{
    static const char *const titles[] = {"Brake force, front against rear, empty",
                                         "Brake force, front against rear, full"};
    static const char *const ids[] = {"balance-empty", "balance-full"};
    const struct brake_unit *percent = brake_unit_find("%");
    struct scene s;
    set_scene(&paper->sheet->vehicle, load, &s);
    const double most = fmin(1.2, fmax(1.15 * forces(&s, s.pressure_most).x, s.system.adhesion));
    struct brake_figure figure = {.id = ids[load], .title = titles[load]};
    struct brake_plot plot = {
        .stream = stream,
        .id = ids[load],
        .top = BRAKE_SVG_HEAD,
        .height = BRAKE_SVG_PLOT,
        .x = brake_scale_of(0.0, most, percent, systems, "front, share of weight"),
        .y = brake_scale_of(0.0, 0.4, percent, systems, "Rear, share of weight")};
    describe(paper, load, &s, systems, &figure);
    brake_figure_open(stream, &figure, BRAKE_SVG_HEAD + BRAKE_SVG_PLOT + BRAKE_SVG_AXIS);
    brake_plot_open(&plot);
    draw_net(&plot);
    draw_ideal(&plot, &s);
    draw_lock(&plot, &s, BRAKE_FRONT);
    draw_lock(&plot, &s, BRAKE_REAR);
    draw_actual(&plot, &s);
    const struct brake_lock lock = brake_balance_lock(s.balance, s.system.adhesion);
    if (isfinite(lock.pressure))
        brake_plot_mark(&plot, forces(&s, lock.pressure),
                        lock.axle == BRAKE_FRONT ? "front locks first" : "rear locks first");
    brake_plot_end(&plot);
    brake_figure_end(stream, &figure);
}
