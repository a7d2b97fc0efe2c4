/* SPDX-License-Identifier: MIT */
/* Brakes vehicles to their end speed and prints what came of it, for another program to be held
 * against. Standard input, numbers between white space, a case after the other:
 *   mass behind height wheelbase rolling grade locked,
 *   gain threshold radius inertia wheels held held_wheels of front and rear, knee and slope of the
 *   valve, from and to of the hold,
 *   ratio efficiency gain assist master_area master_efficiency of the pedal,
 *   pressure_most adhesion antilock air_drag dead_time rise_time booster_lag air step,
 *   manner force deceleration from to,
 *   hot; when it is 1, of front and rear:
 *     mu power shaped shoes drum_radius pivot_radius force_arm heel toe, rubbing lining,
 *     points of friction, temperature and value of each, speed and pressure factor at two each,
 *     cells area thickness density conductivity heat_capacity, area and factor of a FIXED cooling.
 * Standard output, a line a case: status, distance, time, mean fully developed deceleration,
 * residual, pedal force at most, work of front and rear, and when hot face of front and rear. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "brake/braking.h"

static double number(void)
{
    double value;
    if (scanf("%lf", &value) != 1)
        exit(EXIT_FAILURE);
    return value;
}

static void numbers(double *const *into, int count)
{
    for (int i = 0; i < count; i++)
        *into[i] = number();
}

static void read_balance(struct brake_balance *b)
{
    numbers((double *const[]){&b->body.mass, &b->body.behind, &b->body.height, &b->wheelbase,
                              &b->rolling, &b->grade},
            6);
    b->locked = number() > 0.0;
    for (int i = 0; i < BRAKE_AXLES; i++) {
        struct brake_axle_brakes *axle = &b->axle[i];
        numbers((double *const[]){&axle->gain, &axle->threshold, &axle->radius, &axle->inertia,
                                  &axle->wheels, &axle->held, &axle->held_wheels},
                7);
    }
    numbers((double *const[]){&b->valve.knee, &b->valve.slope, &b->hold.from, &b->hold.to}, 4);
}

static void read_rig(struct brake_rig *rig)
{
    struct brake_pedal *pedal = &rig->pedal;
    read_balance(&rig->balance);
    numbers((double *const[]){&pedal->ratio, &pedal->efficiency, &pedal->gain, &pedal->assist,
                              &pedal->master_area, &pedal->master_efficiency},
            6);
    numbers((double *const[]){&rig->pressure_most, &rig->adhesion, &rig->antilock, &rig->air_drag,
                              &rig->dead_time, &rig->rise_time, &rig->booster_lag, &rig->air,
                              &rig->step},
            9);
    for (int i = 0; i < BRAKE_AXLES; i++)
        rig->law[i] = (struct brake_gain_law){.mu = 0.4, .power = 1.0};
}

static void read_application(struct brake_application *a)
{
    a->manner = (enum brake_manner)(int)number();
    numbers((double *const[]){&a->force, &a->deceleration, &a->from, &a->to}, 4);
}

static void read_law(struct brake_gain_law *law)
{
    struct brake_shoe *shoe = &law->shoe;
    numbers((double *const[]){&law->mu, &law->power}, 2);
    law->shaped = number() > 0.0;
    law->shoes = (enum brake_shoes)(int)number();
    numbers((double *const[]){&shoe->drum_radius, &shoe->pivot_radius, &shoe->force_arm,
                              &shoe->heel, &shoe->toe},
            5);
    law->secondary = *shoe;
    numbers((double *const[]){&law->secondary.heel, &law->secondary.toe, &law->secondary_friction},
            3);
}

static void read_curve(int points, struct brake_curve *curve)
{
    double x[BRAKE_CURVE_POINTS];
    double y[BRAKE_CURVE_POINTS];
    for (int i = 0; i < points && i < BRAKE_CURVE_POINTS; i++) {
        x[i] = number();
        y[i] = number();
    }
    if (brake_curve_build(x, y, points, curve) != BRAKE_OK)
        exit(EXIT_FAILURE);
}

static void read_thermal(struct brake_thermal *thermal)
{
    struct brake_thermal_spec spec;
    memset(&spec, 0, sizeof spec);
    spec.cells = (int)number();
    spec.material.points = 1;
    spec.material.temperature[0] = 300.0;
    numbers((double *const[]){&spec.area, &spec.thickness, &spec.material.density,
                              &spec.material.conductivity[0], &spec.material.heat_capacity[0],
                              &spec.front.area, &spec.front.factor},
            7);
    spec.front.law = BRAKE_COOLING_FIXED;
    spec.ratio = 1.0;
    spec.share = 1.0;
    spec.pressure = BRAKE_ATMOSPHERE;
    spec.tolerance = 1e-4;
    if (brake_thermal_build(&spec, thermal) != BRAKE_OK)
        exit(EXIT_FAILURE);
}

static void answer(void)
{
    static struct brake_thermal thermal[BRAKE_AXLES];
    static struct brake_friction friction[BRAKE_AXLES];
    struct brake_rig rig;
    struct brake_application application;
    struct brake_braking at;
    struct brake_outcome out;
    memset(&rig, 0, sizeof rig);
    memset(&at, 0, sizeof at);
    read_rig(&rig);
    read_application(&application);
    const bool hot = number() > 0.0;
    for (int i = 0; i < BRAKE_AXLES && hot; i++) {
        read_law(&rig.law[i]);
        rig.rubbing[i] = number();
        rig.lining[i] = number();
        read_curve((int)number(), &friction[i].temperature);
        read_curve(2, &friction[i].speed);
        read_curve(2, &friction[i].pressure);
        read_thermal(&thermal[i]);
        rig.friction[i] = &friction[i];
        rig.thermal[i] = &thermal[i];
        brake_thermal_start(&thermal[i], rig.air, &at.heat[i]);
    }
    brake_braking_begin(&rig, &application, &at, &out);
    const enum brake_status status = brake_braking_advance(&rig, &application, 1e3, &at, &out);
    printf("%d %.17g %.17g %.17g %.17g %.17g %.17g %.17g", status, at.distance, out.ended,
           out.developed, out.residual, out.force_most, at.work[BRAKE_FRONT], at.work[BRAKE_REAR]);
    for (int i = 0; i < BRAKE_AXLES && hot; i++)
        printf(" %.17g", at.heat[i].face);
    putchar('\n');
}

int main(void)
{
    int next;
    while ((next = getchar()) != EOF) {
        if (next == '=')
            answer();
    }
    return EXIT_SUCCESS;
}
