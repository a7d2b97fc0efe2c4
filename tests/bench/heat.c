/* SPDX-License-Identifier: MIT */
/* A fade sequence: 15 snubs from 120 to 60 km/h at 3 m/s2, one every 45 s, in four brakes of 24
 * cells. The library beside CVODE (SUNDIALS) on the same equations, each at the loosest tolerance
 * at which every temperature at the end of every snub and pause is within 0.1 K of a converged run.
 *
 * usage: heat           the comparison
 *        heat --python  one front brake, its converged run and the time it took, for heat.py
 */
#define _GNU_SOURCE
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define WIDTH 1
#include "model/flow.h"

#if defined(__has_include)
#if __has_include(<cvode/cvode.h>)
#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_band.h>
#include <sunmatrix/sunmatrix_band.h>
#define HAVE_CVODE
#endif
#endif

enum { SNUBS = 15, LEGS = 2 * SNUBS, BRAKES = 4, CELLS = 24 };

#define NO_VANES                                                                                   \
    {                                                                                              \
        0.0, 0.0, 0.0, 0.0, 0.0                                                                    \
    }

static const double AIR = 293.15;
static const double WITHIN = 0.1; /* [K] */

static const double FAST = 120.0 / 3.6;
static const double SLOW = 60.0 / 3.6;
static const double DECELERATION = 3.0;
static const double CYCLE = 45.0;
static const double MASS = 2300.0;

struct leg {
    struct brake_thermal_drive drive;
    double duration;
};

struct result {
    double temperature[LEGS][NODES];
    double seconds;
    long steps;
};

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

/* Grey iron 250 of reference/materials.json. */
static const struct brake_material iron = {
    .points = 7,
    .density = 7200.0,
    .temperature = {293.15, 373.15, 473.15, 573.15, 673.15, 773.15, 873.15},
    .conductivity = {49.3, 48.5, 47.5, 46.5, 45.0, 44.5, 44.0},
    .heat_capacity = {426.0, 456.0, 494.0, 531.0, 569.0, 606.0, 644.0},
};

static struct brake_thermal_spec front_spec(void)
{
    struct brake_thermal_spec spec = {
        .material = iron,
        .area = 0.092,
        .thickness = 0.010,
        .cells = CELLS,
        .first_cell = 1e-4,
        .share = 0.95,
        .front = {BRAKE_COOLING_FACE, 0.075, 0.3, 4.0, 0.6, 0.0, 0.30, 0.424, NO_VANES},
        .back = {BRAKE_COOLING_VANES,
                 0.16,
                 0.0,
                 4.0,
                 0.8,
                 0.0,
                 0.30,
                 0.424,
                 {0.095, 0.15, 0.006, 0.0095, 0.013}},
        .pressure = BRAKE_ATMOSPHERE,
        .tolerance = 0.1,
    };
    spec.part[BRAKE_PART_PAD].capacity = 450.0;
    spec.part[BRAKE_PART_PAD].link = 0.0;
    spec.part[BRAKE_PART_PLATE] = (struct brake_lump){250.0, 3.0, {.law = BRAKE_COOLING_FIXED}};
    spec.part[BRAKE_PART_PISTON] = (struct brake_lump){170.0, 2.0, {.law = BRAKE_COOLING_FIXED}};
    spec.part[BRAKE_PART_BODY] = (struct brake_lump){
        2500.0, 3.0, {BRAKE_COOLING_CYLINDER, 0.05, 0.5, 4.0, 0.5, 0.0, 0.1, 0.0, NO_VANES}};
    spec.part[BRAKE_PART_FLUID] = (struct brake_lump){80.0, 5.0, {.law = BRAKE_COOLING_FIXED}};
    spec.part[BRAKE_PART_RIM] = (struct brake_lump){
        1100.0, 12.0, {BRAKE_COOLING_CYLINDER, 0.03, 0.5, 4.0, 0.5, 0.0, 0.2, 0.0, NO_VANES}};
    spec.part[BRAKE_PART_HAT] = (struct brake_lump){
        4000.0, 8.0, {BRAKE_COOLING_CYLINDER, 0.08, 0.5, 4.0, 0.5, 0.0, 0.2, 0.0, NO_VANES}};
    return spec;
}

static struct brake_thermal_spec rear_spec(void)
{
    struct brake_thermal_spec spec = front_spec();
    spec.area = 0.047;
    spec.thickness = 0.009;
    spec.front.area = 0.0;
    spec.back =
        (struct brake_cooling){BRAKE_COOLING_DRUM, 0.07, 0.8, 4.0, 0.8, 0.0, 0.31, 0.424, NO_VANES};
    return spec;
}

/* Power of one brake with its share of the vehicle's. */
static void fill_legs(double share, struct leg *legs)
{
    const double braking = (FAST - SLOW) / DECELERATION;
    for (int i = 0; i < SNUBS; i++) {
        legs[2 * i] = (struct leg){{share * MASS * DECELERATION * FAST,
                                    share * MASS * DECELERATION * SLOW, FAST, SLOW, AIR},
                                   braking};
        legs[2 * i + 1] = (struct leg){{0.0, 0.0, SLOW, FAST, AIR}, CYCLE - braking};
    }
}

static double stop(const char *what)
{
    fprintf(stderr, "bench heat: %s\n", what);
    exit(EXIT_FAILURE);
}

static void run_library(struct brake_thermal *brake, const struct leg *legs, double tolerance,
                        struct result *result)
{
    struct brake_thermal_state state;
    brake->spec.tolerance = tolerance;
    const double begin = now();
    brake_thermal_start(brake, AIR, &state);
    for (int i = 0; i < LEGS; i++) {
        if (brake_thermal_advance(brake, &legs[i].drive, legs[i].duration, &state) != BRAKE_OK)
            stop("the library refused a leg");
        memcpy(result->temperature[i], state.temperature, sizeof state.temperature);
    }
    result->seconds = now() - begin;
    result->steps = state.steps + state.rejected;
}

static double difference(const struct brake_thermal *brake, const struct result *a,
                         const struct result *b)
{
    double most = 0.0;
    for (int i = 0; i < LEGS; i++) {
        for (int j = 0; j < brake->nodes; j++)
            most = fmax(most, fabs(a->temperature[i][j] - b->temperature[i][j]));
    }
    return most;
}

#ifdef HAVE_CVODE
struct peer {
    const struct brakes *brakes;
    double contact;
    const struct leg *leg;
};

static struct instant instant_of(const struct peer *peer, double time)
{
    const struct brake_thermal_drive *drive = &peer->leg->drive;
    const double part = time / peer->leg->duration;
    return (struct instant){drive->power_begin + part * (drive->power_end - drive->power_begin),
                            drive->speed_begin + part * (drive->speed_end - drive->speed_begin),
                            drive->air, peer->contact};
}

static int peer_rate(realtype time, N_Vector y, N_Vector rate, void *user)
{
    const struct peer *peer = user;
    const struct instant at = instant_of(peer, time);
    struct field field;
    struct exchange exchange;
    struct flow flow;
    find_field(peer->brakes, N_VGetArrayPointer(y), &field);
    find_exchange(peer->brakes, &at, &field, &exchange);
    gather(peer->brakes, &at, &field, &exchange, &flow);
    conduct(peer->brakes, &field, &flow);
    memcpy(N_VGetArrayPointer(rate), flow.rate, (size_t)peer->brakes->nodes * sizeof(double));
    return 0;
}

static int peer_jacobian(realtype time, N_Vector y, N_Vector rate, SUNMatrix jacobian, void *user,
                         N_Vector tmp1, N_Vector tmp2, N_Vector tmp3)
{
    const struct peer *peer = user;
    const struct instant at = instant_of(peer, time);
    const int nodes = peer->brakes->nodes;
    struct field field;
    struct exchange exchange;
    struct slopes slopes;
    (void)rate, (void)tmp1, (void)tmp2, (void)tmp3;
    find_field(peer->brakes, N_VGetArrayPointer(y), &field);
    find_exchange(peer->brakes, &at, &field, &exchange);
    find_slopes(peer->brakes, &at, &field, &exchange, &slopes);
    for (int i = 0; i < nodes; i++) {
        const double before = i > 0 ? slopes.next[i - 1] : 0.0;
        const double after = i + 1 < nodes ? slopes.before[i + 1] : 0.0;
        SM_ELEMENT_B(jacobian, i, i) =
            -(slopes.convected[i] + slopes.radiated[i] + before + after) / field.capacity[i];
        if (i > 0)
            SM_ELEMENT_B(jacobian, i, i - 1) = slopes.before[i] / field.capacity[i - 1];
        if (i + 1 < nodes)
            SM_ELEMENT_B(jacobian, i, i + 1) = slopes.next[i] / field.capacity[i + 1];
    }
    return 0;
}

static void run_peer(const struct brake_thermal *brake, const struct leg *legs, double tolerance,
                     struct result *result)
{
    SUNContext context;
    struct brake_thermal_state state;
    struct field field;
    struct brakes brakes;
    struct peer peer = {&brakes, brake->spec.contact, legs};
    const sunindextype nodes = brake->nodes;
    SUNContext_Create(NULL, &context);
    brake_thermal_start(brake, AIR, &state);
    put_brakes(&brake, &brakes);
    find_field(&brakes, state.enthalpy, &field);
    N_Vector y = N_VNew_Serial(nodes, context);
    N_Vector absolute = N_VNew_Serial(nodes, context);
    memcpy(N_VGetArrayPointer(y), state.enthalpy, (size_t)nodes * sizeof(double));
    for (int i = 0; i < nodes; i++)
        N_VGetArrayPointer(absolute)[i] = tolerance * field.capacity[i];
    void *cvode = CVodeCreate(CV_BDF, context);
    SUNMatrix matrix = SUNBandMatrix(nodes, 1, 1, context);
    SUNLinearSolver solver = SUNLinSol_Band(y, matrix, context);
    CVodeInit(cvode, peer_rate, 0.0, y);
    CVodeSVtolerances(cvode, 0.0, absolute);
    CVodeSetUserData(cvode, &peer);
    CVodeSetLinearSolver(cvode, solver, matrix);
    CVodeSetJacFn(cvode, peer_jacobian);
    CVodeSetMaxNumSteps(cvode, 1000000);
    result->steps = 0;
    const double begin = now();
    for (int i = 0; i < LEGS; i++) {
        realtype reached;
        long steps = 0;
        peer.leg = &legs[i];
        CVodeReInit(cvode, 0.0, y);
        CVodeSetStopTime(cvode, legs[i].duration);
        if (CVode(cvode, legs[i].duration, y, &reached, CV_NORMAL) < 0)
            stop("CVODE failed");
        CVodeGetNumSteps(cvode, &steps);
        result->steps += steps;
        find_field(&brakes, N_VGetArrayPointer(y), &field);
        memcpy(result->temperature[i], field.temperature, sizeof field.temperature);
    }
    result->seconds = now() - begin;
    CVodeFree(&cvode);
    SUNLinSolFree(solver);
    SUNMatDestroy(matrix);
    N_VDestroy(y);
    N_VDestroy(absolute);
    SUNContext_Free(&context);
}
#endif

/* Sums over the brakes. */
struct total {
    double seconds;
    double error;
    long steps;
};

typedef void solver(struct brake_thermal *brake, const struct leg *legs, double tolerance,
                    struct result *result);

#ifdef HAVE_CVODE
static void peer_solver(struct brake_thermal *brake, const struct leg *legs, double tolerance,
                        struct result *result)
{
    run_peer(brake, legs, tolerance, result);
}
#endif

/* Loosest tolerance that keeps the error, and the least time of several runs with it. */
static struct total measure(solver *solve, struct brake_thermal *brakes, int count,
                            struct leg legs[2][LEGS], const struct result *references)
{
    static struct result result;
    struct total total = {0.0, 0.0, 0};
    for (int i = 0; i < count; i++) {
        const struct leg *leg = legs[i / 2];
        double tolerance = 16.0;
        double error;
        do {
            tolerance /= sqrt(2.0);
            solve(&brakes[i], leg, fmin(tolerance, 10.0), &result);
            error = difference(&brakes[i], &result, &references[i]);
        } while (error > WITHIN);
        double least = 1e9;
        for (int run = 0; run < 50; run++) {
            solve(&brakes[i], leg, fmin(tolerance, 10.0), &result);
            least = fmin(least, result.seconds);
        }
        total.seconds += least;
        total.steps += result.steps;
        total.error = fmax(total.error, error);
    }
    return total;
}

/* Seconds for one double of a = b + s c while everything stays in the nearest cache. */
static double stream(void)
{
    enum { COUNT = 512, ROUNDS = 200000 };
    static double a[COUNT];
    static double b[COUNT];
    static double c[COUNT];
    for (int i = 0; i < COUNT; i++) {
        b[i] = i;
        c[i] = 1.0 / (1 + i);
    }
    const double begin = now();
    for (int round = 0; round < ROUNDS; round++) {
        for (int i = 0; i < COUNT; i++)
            a[i] = b[i] + 0.5 * c[i];
        b[round % COUNT] = a[(round + 1) % COUNT];
    }
    const double seconds = now() - begin;
    return a[3] > 1e300 ? 0.0 : seconds / (3.0 * (double)(COUNT * ROUNDS));
}

/* The front brake as tests/thermal/driver.c reads it, less the legs. */
static void print_cooling(const struct brake_cooling *cooling)
{
    printf("[%d, %.17g, %.17g, %.17g, %.17g, %.17g, %.17g, %.17g, [%.17g, %.17g, %.17g, %.17g, "
           "%.17g]]",
           (int)cooling->law, cooling->area, cooling->emissivity, cooling->still, cooling->factor,
           cooling->exponent, cooling->diameter, cooling->rolling_radius,
           cooling->vanes.inner_radius, cooling->vanes.outer_radius, cooling->vanes.inlet_area,
           cooling->vanes.outlet_area, cooling->vanes.hydraulic_diameter);
}

static void print_list(const char *name, const double *values, int count)
{
    printf("\"%s\": [", name);
    for (int i = 0; i < count; i++)
        printf("%s%.17g", i > 0 ? ", " : "", values[i]);
    printf("], ");
}

static void print_front(const struct brake_thermal *brake, const struct leg *legs,
                        const struct result *reference, const struct total *measured)
{
    const struct brake_thermal_spec *spec = &brake->spec;
    double temperatures[LEGS * NODES];
    printf("{\"density\": %.17g, ", spec->material.density);
    print_list("temperature", spec->material.temperature, spec->material.points);
    print_list("conductivity", spec->material.conductivity, spec->material.points);
    print_list("heat_capacity", spec->material.heat_capacity, spec->material.points);
    printf("\"wall\": [%.17g, %.17g, %d, %.17g, 1.0, %.17g, %.17g, %.17g], ", spec->area,
           spec->thickness, spec->cells, spec->first_cell, spec->back_share, spec->share,
           spec->contact);
    printf("\"cooling\": [");
    print_cooling(&spec->front);
    printf(", ");
    print_cooling(&spec->back);
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++) {
        printf(", ");
        print_cooling(&spec->part[i].cooling);
    }
    printf("], ");
    print_list("capacity", brake->capacity, BRAKE_THERMAL_PARTS);
    print_list("link", brake->link, BRAKE_THERMAL_PARTS);
    printf("\"legs\": [");
    for (int i = 0; i < LEGS; i++) {
        const struct brake_thermal_drive *drive = &legs[i].drive;
        printf("%s[[%.17g, %.17g], [%.17g, %.17g], %.17g, %.17g]", i > 0 ? ", " : "",
               drive->power_begin, drive->power_end, drive->speed_begin, drive->speed_end,
               drive->air, legs[i].duration);
        for (int node = 0; node < brake->nodes; node++)
            temperatures[i * brake->nodes + node] = reference->temperature[i][node];
    }
    printf("], ");
    print_list("reference", temperatures, LEGS * brake->nodes);
    printf("\"seconds\": %.9g, \"error\": %.9g}\n", measured->seconds, measured->error);
}

static void print_total(const char *name, const struct total *total)
{
    printf("%-28s %9.3f ms %7ld steps, error %.3f K\n", name, 1e3 * total->seconds, total->steps,
           total->error);
}

int main(int argc, char **argv)
{
    static struct brake_thermal brakes[BRAKES];
    static struct result references[BRAKES];
    static struct leg legs[2][LEGS];
    fill_legs(0.36, legs[0]);
    fill_legs(0.14, legs[1]);
    for (int i = 0; i < BRAKES; i++) {
        const struct brake_thermal_spec spec = i < 2 ? front_spec() : rear_spec();
        if (brake_thermal_build(&spec, &brakes[i]) != BRAKE_OK)
            stop("a brake was refused");
        run_library(&brakes[i], legs[i / 2], 1e-6, &references[i]);
    }
    if (argc > 1 && strcmp(argv[1], "--python") == 0) {
        const struct total front = measure(run_library, brakes, 1, legs, references);
        print_front(&brakes[0], legs[0], &references[0], &front);
        return EXIT_SUCCESS;
    }
    const struct total own = measure(run_library, brakes, BRAKES, legs, references);
    print_total("libbrake", &own);
#ifdef HAVE_CVODE
    static struct result check;
    run_peer(&brakes[0], legs[0], 1e-6, &check);
    printf("%-28s %9.1e K between both at 1e-6 K\n", "converged runs",
           difference(&brakes[0], &check, &references[0]));
    const struct total cvode = measure(peer_solver, brakes, BRAKES, legs, references);
    print_total("CVODE, banded, own Jacobian", &cvode);
    printf("bench heat: CVODE takes %.1f x the time of libbrake at the same error\n",
           cvode.seconds / own.seconds);
#else
    puts("CVODE                        not measured: libsundials-dev is not installed");
#endif
    /* Each of 6 stages passes over about 40 numbers a cell: table, field, flow, k, elimination. */
    const double cell = own.seconds / (double)own.steps / (double)CELLS;
    printf("bench heat: %.2f ns per cell and step; %.2f ns to stream as many numbers\n", 1e9 * cell,
           1e9 * stream() * 6.0 * 40.0);
    return EXIT_SUCCESS;
}
