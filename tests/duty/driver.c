/* SPDX-License-Identifier: MIT */
/* Runs vehicles through duties and prints their rigs and what came of it, for another program to be
 * held against. Standard input: vehicle files, each behind a line of numbers
 *   === load cells step tolerance kind ... force rest rest_speed
 * with cells of the walls, step of the rig, tolerance of the heat, 0: as they are, and for the dots
 *   count from to interval manner deceleration   of stops (kind 0)
 *   grade length speed engine                    of a descent (1)
 *   points, time speed grade of each             of a drive (2).
 * Standard output, two lines a case. The rig: numbers in the order in which ../braking/driver.c
 * reads them up to step, then of front and rear the law, rubbing, lining, points of friction, and
 * the brake as ../thermal/driver.c reads it up to tolerance. Then the result: status, held,
 * residual, distance, duration, mean fully developed deceleration, applications, and of front and
 * rear face, mean, pad, fluid at most and last, energy. A vehicle that is refused gets its error
 * twice. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "brake/brake.h"

enum { TEXT_BYTES = 65536, LINE_BYTES = 4096, POINTS = 32 };

/* ---- in ------------------------------------------------------------------------------------- */

struct order {
    enum brake_load load;
    int cells;
    double step;
    double tolerance;
    struct brake_duty duty;
    struct brake_cycle_point point[POINTS];
};

static double number(char **at)
{
    char *end;
    const double value = strtod(*at, &end);
    if (end == *at)
        exit(EXIT_FAILURE);
    *at = end;
    return value;
}

static void read_stops(char **at, struct brake_stops *stops)
{
    stops->count = (int)number(at);
    stops->from = number(at);
    stops->to = number(at);
    stops->interval = number(at);
    stops->manner = (enum brake_manner)(int)number(at);
    stops->deceleration = number(at);
}

static void read_descent(char **at, struct brake_descent *descent)
{
    descent->fall = number(at);
    descent->length = number(at);
    descent->speed = number(at);
    descent->engine = number(at);
}

static void read_cycle(char **at, struct order *order)
{
    const int count = (int)number(at);
    order->duty.cycle = (struct brake_cycle){order->point, count};
    for (int i = 0; i < count && i < POINTS; i++) {
        order->point[i].time = number(at);
        order->point[i].speed = number(at);
        order->point[i].grade = number(at);
    }
}

static void read_order(char *at, struct order *order)
{
    memset(order, 0, sizeof *order);
    order->load = (enum brake_load)(int)number(&at);
    order->cells = (int)number(&at);
    order->step = number(&at);
    order->tolerance = number(&at);
    order->duty.kind = (enum brake_duty_kind)(int)number(&at);
    if (order->duty.kind == BRAKE_DUTY_STOPS)
        read_stops(&at, &order->duty.stops);
    else if (order->duty.kind == BRAKE_DUTY_DESCENT)
        read_descent(&at, &order->duty.descent);
    else
        read_cycle(&at, order);
    order->duty.force = number(&at);
    order->duty.rest = number(&at);
    order->duty.rest_speed = number(&at);
}

/* ---- out ------------------------------------------------------------------------------------ */

static void print(const double *value, int count)
{
    for (int i = 0; i < count; i++)
        printf("%.17g ", value[i]);
}

static void print_rig(const struct brake_rig *rig)
{
    const struct brake_balance *b = &rig->balance;
    const struct brake_pedal *p = &rig->pedal;
    print((double[]){b->body.mass, b->body.behind, b->body.height, b->wheelbase, b->rolling,
                     b->grade, b->locked},
          7);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_axle_brakes *axle = &b->axle[i];
        print((double[]){axle->gain, axle->threshold, axle->radius, axle->inertia, axle->wheels,
                         axle->held, axle->held_wheels},
              7);
    }
    print((double[]){b->valve.knee, b->valve.slope, b->hold.from, b->hold.to, p->ratio,
                     p->efficiency, p->gain, p->assist, p->master_area, p->master_efficiency},
          10);
    print((double[]){rig->pressure_most, rig->adhesion, rig->antilock, rig->air_drag,
                     rig->dead_time, rig->rise_time, rig->booster_lag, rig->air, rig->step},
          9);
}

static void print_friction(const struct brake_rig *rig, int axle)
{
    const struct brake_gain_law *law = &rig->law[axle];
    const struct brake_shoe *shoe = &law->shoe;
    const struct brake_curve *curve = &rig->friction[axle]->temperature;
    print((double[]){law->mu, law->power, law->shaped, law->shoes, shoe->drum_radius,
                     shoe->pivot_radius, shoe->force_arm, shoe->heel, shoe->toe,
                     law->secondary.heel, law->secondary.toe, law->secondary_friction,
                     rig->rubbing[axle], rig->lining[axle], curve->points},
          15);
    for (int i = 0; i < curve->points; i++)
        print((double[]){curve->x[i], curve->y[i]}, 2);
}

static void print_cooling(const struct brake_cooling *c)
{
    print((double[]){c->law, c->area, c->emissivity, c->still, c->factor, c->exponent, c->diameter,
                     c->rolling_radius, c->vanes.inner_radius, c->vanes.outer_radius,
                     c->vanes.inlet_area, c->vanes.outlet_area, c->vanes.hydraulic_diameter},
          13);
}

static void print_brake(const struct brake_thermal_spec *spec)
{
    const struct brake_material *m = &spec->material;
    print((double[]){m->points, m->density}, 2);
    for (int i = 0; i < m->points; i++)
        print((double[]){m->temperature[i], m->conductivity[i], m->heat_capacity[i]}, 3);
    print((double[]){spec->area, spec->thickness, spec->cells, spec->first_cell, spec->ratio,
                     spec->back_share, spec->share, spec->contact},
          8);
    print_cooling(&spec->front);
    print_cooling(&spec->back);
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++) {
        print((double[]){spec->part[i].capacity, spec->part[i].link}, 2);
        print_cooling(&spec->part[i].cooling);
    }
    print((double[]){spec->pressure, spec->tolerance}, 2);
}

static void print_result(enum brake_status status, const struct brake_duty_result *r)
{
    print((double[]){status, r->held, r->residual, r->distance, r->duration, r->developed,
                     r->applications},
          7);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_duty_heat *h = &r->axle[i];
        print((double[]){h->face_most, h->mean_most, h->pad_most, h->fluid_most, h->face_last,
                         h->mean_last, h->pad_last, h->fluid_last, h->energy},
              9);
    }
    putchar('\n');
}

/* ---- between -------------------------------------------------------------------------------- */

/* Cells alike in place of those that are thin at the face. */
static void change(const struct order *order, struct brake_hot_rig *hot)
{
    for (int i = 0; i < BRAKE_AXLES; i++) {
        struct brake_thermal_spec spec = hot->thermal[i].spec;
        if (order->cells > 0) {
            spec.cells = order->cells;
            spec.first_cell = 0.0;
            spec.ratio = 1.0;
        }
        if (order->tolerance > 0.0)
            spec.tolerance = order->tolerance;
        if (brake_thermal_build(&spec, &hot->thermal[i]) != BRAKE_OK)
            exit(EXIT_FAILURE);
    }
    if (order->step > 0.0)
        hot->rig.step = order->step;
}

static void answer(const struct order *order, const char *text)
{
    static struct brake_hot_rig hot;
    struct brake_sheet sheet;
    struct brake_error error;
    struct brake_duty_result result;
    if (brake_file_read_text(text, &sheet, &error) != BRAKE_OK ||
        brake_sheet_complete(&sheet, &error) != BRAKE_OK ||
        brake_hot_rig_build(&sheet.vehicle, order->load, &hot, &error) != BRAKE_OK) {
        printf("! %s: %s\n! %s: %s\n", error.field, error.text, error.field, error.text);
        return;
    }
    change(order, &hot);
    print_rig(&hot.rig);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        print_friction(&hot.rig, i);
        print_brake(&hot.thermal[i].spec);
    }
    putchar('\n');
    const enum brake_status status = brake_duty_run(&hot, &order->duty, NULL, &result);
    print_result(status, &result);
}

int main(void)
{
    static char text[TEXT_BYTES];
    static char line[LINE_BYTES];
    static struct order order;
    size_t used = 0;
    bool any = false;
    while (fgets(line, sizeof line, stdin) != NULL) {
        if (strncmp(line, "=== ", 4) != 0) {
            used += (size_t)snprintf(text + used, sizeof text - used, "%s", line);
            if (used >= sizeof text)
                return EXIT_FAILURE;
            continue;
        }
        if (any)
            answer(&order, text);
        any = true;
        read_order(line + 4, &order);
        used = 0;
        text[0] = '\0';
    }
    if (any)
        answer(&order, text);
    return EXIT_SUCCESS;
}
