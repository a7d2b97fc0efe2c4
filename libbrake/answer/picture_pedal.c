/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "picture.h"
#include "svg.h"
#include "cell.h"
#include "vehicle/text.h"
#include "vehicle/system.h"

enum { POINTS = 120 };

static const char TITLE[] = "Deceleration against pedal force";

static double most_of(const struct brake_assessment *a)
{
    double most = 0.0;
    for (int load = 0; load < BRAKE_LOADS; load++)
        most = fmax(most, a->results.load[load].deceleration.most);
    return most;
}

static void draw(struct brake_plot *plot, const struct brake_system *system, double most,
                 enum brake_dash dash, const char *label)
{
    struct brake_point points[POINTS + 1];
    for (int i = 0; i <= POINTS; i++) {
        const double force = most * i / (double)POINTS;
        points[i] = (struct brake_point){force, brake_system_deceleration(system, force)};
    }
    brake_plot_line(plot, points, POINTS + 1, dash, label);
}

static void draw_case(struct brake_plot *plot, const struct brake_paper *paper,
                      enum brake_load load)
{
    const struct brake_vehicle *vehicle = &paper->sheet->vehicle;
    const double knee = paper->assessment->results.load[load].pedal.knee_force;
    const double most = vehicle->driver.pedal_force_most;
    struct brake_system system;
    brake_system_build(vehicle, load, BRAKE_INTACT, &system);
    draw(plot, &system, most, load == BRAKE_FULL ? BRAKE_SOLID_LINE : BRAKE_DASHED,
         brake_load_word(load));
    if (load == BRAKE_FULL && isfinite(knee))
        brake_plot_mark(plot, (struct brake_point){knee, brake_system_deceleration(&system, knee)},
                        "booster runs out");
}

static void draw_without_assist(struct brake_plot *plot, const struct brake_vehicle *vehicle)
{
    struct brake_system system;
    if (vehicle->booster.booster == BRAKE_BOOSTER_NONE)
        return;
    brake_system_build(vehicle, BRAKE_FULL, BRAKE_NO_ASSIST, &system);
    draw(plot, &system, vehicle->driver.pedal_force_most, BRAKE_DOTTED, "full, no assist");
}

static void describe(const struct brake_paper *paper, enum brake_systems systems,
                     struct brake_figure *figure)
{
    const struct brake_case_results *r = &paper->assessment->results.load[BRAKE_FULL];
    const struct brake_unit *newton = brake_unit_find("N");
    char knee[60];
    char target[60];
    char needed[60];
    brake_amount_words(r->pedal.knee_force, newton, systems, knee, sizeof knee);
    brake_amount_words(r->pedal.force_for_target, newton, systems, needed, sizeof needed);
    brake_amount_words(paper->sheet->vehicle.driver.target, brake_unit_find("m/s2"), systems,
                       target, sizeof target);
    brake_text_format(
        figure->words, sizeof figure->words,
        "Wheels kept from locking. Full, the target of %s takes %s as far as the brakes go; "
        "a level stretch is the limit of the road or of the fluid. ",
        target, needed);
    const size_t used = strlen(figure->words);
    if (isfinite(r->pedal.knee_force))
        brake_text_format(figure->words + used, sizeof figure->words - used,
                          "Beyond the knee at %s the booster adds no more.", knee);
    else
        brake_text_format(figure->words + used, sizeof figure->words - used,
                          "No booster, no knee.");
}

void brake_picture_pedal(const struct brake_paper *paper, enum brake_systems systems, FILE *stream)
{
    const struct brake_driver_lines *driver = &paper->sheet->vehicle.driver;
    const double top = fmax(1.1 * most_of(paper->assessment), 1.1 * driver->target);
    const struct brake_point target[] = {{0.0, driver->target},
                                         {driver->pedal_force_most, driver->target}};
    struct brake_figure figure = {.id = "pedal", .title = TITLE};
    struct brake_plot plot = {
        .stream = stream,
        .id = "pedal",
        .top = BRAKE_SVG_HEAD,
        .height = BRAKE_SVG_PLOT,
        .x = brake_scale_of(0.0, driver->pedal_force_most, brake_unit_find("N"), systems,
                            "pedal force"),
        .y = brake_scale_of(0.0, top, brake_unit_find("m/s2"), systems, "Deceleration")};
    describe(paper, systems, &figure);
    brake_figure_open(stream, &figure, BRAKE_SVG_HEAD + BRAKE_SVG_PLOT + BRAKE_SVG_AXIS);
    brake_plot_open(&plot);
    brake_plot_line(&plot, target, 2, BRAKE_THIN, "target");
    draw_without_assist(&plot, &paper->sheet->vehicle);
    for (int load = 0; load < BRAKE_LOADS; load++)
        draw_case(&plot, paper, (enum brake_load)load);
    brake_plot_end(&plot);
    brake_figure_end(stream, &figure);
}
