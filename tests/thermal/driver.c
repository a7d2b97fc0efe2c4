/* SPDX-License-Identifier: MIT */
/* Runs brakes through legs and prints where they stand, for another program to be held against.
 * Standard input, numbers between white space, a case after the other:
 *   points density, temperature conductivity heat_capacity of each point,
 *   area thickness cells first_cell ratio back_share share contact, cooling of front and back,
 *   capacity link cooling of each part, pressure tolerance start,
 *   legs, power_begin power_end speed_begin speed_end air duration of each leg
 * where a cooling is law area emissivity still factor exponent diameter rolling_radius
 *   inner_radius outer_radius inlet_area outlet_area hydraulic_diameter.
 * Standard output, a line a leg: status, residual, face, temperatures along the chain.
 * A number as argument: tolerance in place of that of the cases. */
#include <stdio.h>
#include <stdlib.h>

#include "brake/thermal.h"

static double number(void)
{
    double value;
    if (scanf("%lf", &value) != 1)
        exit(EXIT_FAILURE);
    return value;
}

static struct brake_cooling cooling(void)
{
    struct brake_cooling read;
    read.law = (enum brake_cooling_law)(int)number();
    read.area = number();
    read.emissivity = number();
    read.still = number();
    read.factor = number();
    read.exponent = number();
    read.diameter = number();
    read.rolling_radius = number();
    read.vanes.inner_radius = number();
    read.vanes.outer_radius = number();
    read.vanes.inlet_area = number();
    read.vanes.outlet_area = number();
    read.vanes.hydraulic_diameter = number();
    return read;
}

static void material(struct brake_material *read, int points)
{
    *read = (struct brake_material){.points = points, .density = number()};
    for (int i = 0; i < points && i < BRAKE_WALL_POINTS; i++) {
        read->temperature[i] = number();
        read->conductivity[i] = number();
        read->heat_capacity[i] = number();
    }
}

static void rest_of_spec(struct brake_thermal_spec *spec)
{
    spec->area = number();
    spec->thickness = number();
    spec->cells = (int)number();
    spec->first_cell = number();
    spec->ratio = number();
    spec->back_share = number();
    spec->share = number();
    spec->contact = number();
    spec->front = cooling();
    spec->back = cooling();
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++) {
        spec->part[i].capacity = number();
        spec->part[i].link = number();
        spec->part[i].cooling = cooling();
    }
    spec->pressure = number();
    spec->tolerance = number();
}

static void run(const struct brake_thermal *brake, struct brake_thermal_state *state)
{
    const int legs = (int)number();
    for (int i = 0; i < legs; i++) {
        struct brake_thermal_drive drive;
        drive.power_begin = number();
        drive.power_end = number();
        drive.speed_begin = number();
        drive.speed_end = number();
        drive.air = number();
        const double duration = number();
        const enum brake_status status = brake_thermal_advance(brake, &drive, duration, state);
        printf("%d %.3g %.17g", (int)status, brake_thermal_residual(brake, state),
               brake_thermal_face(brake, state));
        for (int node = 0; node < brake->nodes; node++)
            printf(" %.17g", state->temperature[node]);
        putchar('\n');
    }
}

int main(int argc, char **argv)
{
    double first;
    while (scanf("%lf", &first) == 1) {
        struct brake_thermal_spec spec;
        struct brake_thermal brake;
        struct brake_thermal_state state;
        material(&spec.material, (int)first);
        rest_of_spec(&spec);
        if (argc > 1)
            spec.tolerance = strtod(argv[1], NULL);
        if (brake_thermal_build(&spec, &brake) != BRAKE_OK ||
            brake_thermal_start(&brake, number(), &state) != BRAKE_OK)
            return EXIT_FAILURE;
        run(&brake, &state);
    }
    return EXIT_SUCCESS;
}
