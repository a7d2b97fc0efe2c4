/* SPDX-License-Identifier: MIT */
/* Heat in one brake over time, against exact solutions. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cjson/cJSON.h>

#include "brake/thermal.h"

#define NO_VANES                                                                                   \
    {                                                                                              \
        0.0, 0.0, 0.0, 0.0, 0.0                                                                    \
    }

static const double START = 293.15;

/* Grey iron of constant properties (CV-25), one square metre. */
static struct brake_thermal_spec plain_wall(double thickness, int cells)
{
    return (struct brake_thermal_spec){
        .material = {1, 7200.0, {START}, {50.0}, {450.0}},
        .area = 1.0,
        .thickness = thickness,
        .cells = cells,
        .ratio = 1.0,
        .share = 1.0,
        .pressure = BRAKE_ATMOSPHERE,
        .tolerance = 1e-4,
    };
}

static const struct brake_solid iron = {50.0, 7200.0, 450.0};

/* A whole front brake: tables, vanes, all parts. */
static struct brake_thermal_spec whole_brake(void)
{
    struct brake_thermal_spec spec = {
        .material = {4,
                     7200.0,
                     {293.15, 473.15, 673.15, 873.15},
                     {49.0, 47.0, 45.0, 44.0},
                     {430.0, 500.0, 570.0, 640.0}},
        .area = 0.09,
        .thickness = 0.010,
        .cells = 20,
        .first_cell = 1e-4,
        .share = 0.93,
        .front = {BRAKE_COOLING_FACE, 0.07, 0.3, 4.0, 0.6, 0.0, 0.30, 0.4, NO_VANES},
        .back = {BRAKE_COOLING_VANES,
                 0.15,
                 0.1,
                 4.0,
                 0.8,
                 0.0,
                 0.30,
                 0.4,
                 {0.095, 0.15, 0.006, 0.0095, 0.013}},
        .pressure = BRAKE_ATMOSPHERE,
        .tolerance = 1e-3,
    };
    const double capacity[BRAKE_THERMAL_PARTS] = {2500.0, 80.0,   170.0, 250.0,
                                                  450.0,  1100.0, 4000.0};
    const double link[BRAKE_THERMAL_PARTS] = {2.0, 5.0, 2.0, 3.0, 0.2, 12.0, 8.0};
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++) {
        spec.part[i].capacity = capacity[i];
        spec.part[i].link = link[i];
        spec.part[i].cooling = (struct brake_cooling){
            BRAKE_COOLING_CYLINDER, 0.02, 0.4, 4.0, 0.5, 0.0, 0.1, 0.4, NO_VANES};
    }
    return spec;
}

static void begin(const struct brake_thermal_spec *spec, struct brake_thermal *brake,
                  struct brake_thermal_state *state)
{
    assert_int_equal(brake_thermal_build(spec, brake), BRAKE_OK);
    assert_int_equal(brake_thermal_start(brake, START, state), BRAKE_OK);
}

static void go_on(const struct brake_thermal *brake, struct brake_thermal_drive drive,
                  double duration, struct brake_thermal_state *state)
{
    assert_int_equal(brake_thermal_advance(brake, &drive, duration, state), BRAKE_OK);
    assert_true(brake_thermal_residual(brake, state) <= 1e-11);
}

static struct brake_thermal_drive heated(double from, double to)
{
    return (struct brake_thermal_drive){from, to, 0.0, 0.0, START};
}

static struct brake_thermal_drive driven(double power, double speed)
{
    return (struct brake_thermal_drive){power, power, speed, speed, START};
}

/* Carslaw and Jaeger, sec. 2.9; Newcomb 1960. */
static void a_thick_wall_is_a_half_space(void **state)
{
    (void)state;
    struct brake_thermal_spec spec = plain_wall(0.1, 64);
    struct brake_thermal brake;
    struct brake_thermal_state now;
    spec.first_cell = 5e-5;
    begin(&spec, &brake, &now);
    for (int i = 1; i <= 40; i++) {
        go_on(&brake, heated(1e6, 1e6), 0.1, &now);
        assert_near(brake_thermal_face(&brake, &now) - START,
                    brake_half_space_rise(iron, 1e6, 0.1 * i, 0.0), 1e-3);
    }
    begin(&spec, &brake, &now);
    for (int i = 0; i < 40; i++) {
        go_on(&brake, heated(4e6 * (1.0 - i / 40.0), 4e6 * (1.0 - (i + 1) / 40.0)), 0.1, &now);
        assert_near(brake_thermal_face(&brake, &now) - START,
                    brake_falling_flux_rise(iron, 4e6, 0.1 * (i + 1), 4.0), 1e-3);
    }
}

/* Carslaw and Jaeger, sec. 3.8 (CV-26), at the face and within. */
static void a_wall_heated_on_one_face_is_a_slab(void **state)
{
    (void)state;
    const struct brake_slab slab = {iron, 0.0125};
    struct brake_thermal_spec spec = plain_wall(slab.thickness, 40);
    struct brake_thermal brake;
    struct brake_thermal_state now;
    spec.first_cell = 5e-5;
    begin(&spec, &brake, &now);
    for (int i = 1; i <= 16; i++) {
        go_on(&brake, heated(1e6, 1e6), 0.25, &now);
        const double rise = brake_slab_rise(&slab, 1e6, 0.25 * i, 0.0);
        double depth = 0.0;
        assert_near(brake_thermal_face(&brake, &now) - START, rise, 1e-3);
        for (int cell = 0; cell < spec.cells; cell++) {
            depth += 0.5 * brake.width[cell];
            assert_within(brake_thermal_cell(&brake, &now, cell) - START,
                          brake_slab_rise(&slab, 1e6, 0.25 * i, depth), 1e-3 * rise);
            depth += 0.5 * brake.width[cell];
        }
        assert_near(brake_thermal_mean(&brake, &now) - START,
                    1e6 * 0.25 * i / (7200.0 * 450.0 * slab.thickness), 1e-12);
    }
    begin(&spec, &brake, &now);
    go_on(&brake, heated(4e6, 2e6), 2.0, &now);
    assert_near(brake_thermal_face(&brake, &now) - START,
                brake_slab_falling_rise(&slab, 4e6, 2.0, 4.0), 1e-3);
    go_on(&brake, heated(2e6, 0.0), 2.0, &now);
    assert_near(brake_thermal_face(&brake, &now) - START, 248.6224, 1e-3);
    assert_near(brake_thermal_mean(&brake, &now) - START, 197.5309, 1e-6);
}

/* Holman, Heat Transfer, Examples 4-2 and 4-1 (CV-24, CV-28): 199.4 degC at the face of a steel
 * block and 79.3 degC 25 mm below it after 30 s; a ball that is at 150 degC after 5818 s. */
static void worked_examples_come_out(void **state)
{
    (void)state;
    struct brake_thermal_spec spec = plain_wall(0.126, 63);
    struct brake_thermal brake;
    struct brake_thermal_state now;
    spec.material.conductivity[0] = 45.0;
    spec.material.heat_capacity[0] = 45.0 / (1.4e-5 * 7200.0);
    assert_int_equal(brake_thermal_build(&spec, &brake), BRAKE_OK);
    assert_int_equal(brake_thermal_start(&brake, 35.0 + 273.15, &now), BRAKE_OK);
    go_on(&brake, heated(3.2e5, 3.2e5), 30.0, &now);
    assert_near(brake_thermal_face(&brake, &now) - 273.15, 199.4437, 5e-4);
    assert_near(brake_thermal_cell(&brake, &now, 12) - 273.15, 79.31416, 5e-4);

    /* Of a ball of radius r the volume is r/3 times the area. */
    spec = plain_wall(0.025 / 3.0, 1);
    spec.material = (struct brake_material){1, 7800.0, {START}, {1e5}, {460.0}};
    spec.front = (struct brake_cooling){.law = BRAKE_COOLING_FIXED, .area = 1.0, .factor = 10.0};
    assert_int_equal(brake_thermal_build(&spec, &brake), BRAKE_OK);
    assert_int_equal(brake_thermal_start(&brake, 450.0 + 273.15, &now), BRAKE_OK);
    const struct brake_thermal_drive room = {0.0, 0.0, 0.0, 0.0, 100.0 + 273.15};
    go_on(&brake, room, 5818.271, &now);
    assert_near(brake_thermal_mean(&brake, &now) - 273.15, 150.0, 1e-4);
}

/* Even one cell has the face of a slab heated for long: q l / (3 k) above the mean. */
static void one_cell_knows_its_face(void **state)
{
    (void)state;
    const struct brake_thermal_spec spec = plain_wall(0.0125, 1);
    struct brake_thermal brake;
    struct brake_thermal_state now;
    begin(&spec, &brake, &now);
    go_on(&brake, heated(1e6, 1e6), 10.0, &now);
    assert_near(brake_thermal_face(&brake, &now) - brake_thermal_mean(&brake, &now),
                1e6 * 0.0125 / 150.0, ROUNDING);
    assert_nan(brake_thermal_cell(&brake, &now, 1));
    assert_nan(brake_thermal_cell(&brake, &now, -1));
}

/* Roots of z tan z = Bi, one in each half period. */
static double root_of(double biot, int n)
{
    double low = n * BRAKE_PI;
    double high = low + 0.5 * BRAKE_PI;
    for (int i = 0; i < 100; i++) {
        const double middle = 0.5 * (low + high);
        if (middle * tan(middle) < biot)
            low = middle;
        else
            high = middle;
    }
    return low;
}

/* Carslaw and Jaeger, sec. 3.11; Incropera and DeWitt, sec. 5.5: 1 hot, 0 the air. */
static double slab_cooling(double biot, double fourier, double place)
{
    double sum = 0.0;
    for (int n = 0; n < 40; n++) {
        const double z = root_of(biot, n);
        const double weight = 4.0 * sin(z) / (2.0 * z + sin(2.0 * z));
        sum += weight * exp(-z * z * fourier) * cos(z * place);
    }
    return sum;
}

static void a_slab_cools_by_its_biot_number(void **state)
{
    (void)state;
    static const double coefficient[] = {40.0, 400.0, 4000.0, 40000.0};
    for (int i = 0; i < 4; i++) {
        struct brake_thermal_spec spec = plain_wall(0.0125, 40);
        struct brake_thermal brake;
        struct brake_thermal_state now;
        spec.first_cell = 5e-5;
        spec.front = (struct brake_cooling){
            .law = BRAKE_COOLING_FIXED, .area = 1.0, .factor = coefficient[i]};
        const double biot = coefficient[i] * spec.thickness / iron.conductivity;
        assert_int_equal(brake_thermal_build(&spec, &brake), BRAKE_OK);
        assert_int_equal(brake_thermal_start(&brake, START + 400.0, &now), BRAKE_OK);
        for (int k = 1; k <= 10; k++) {
            go_on(&brake, driven(0.0, 0.0), 2.0, &now);
            const double fourier = brake_diffusivity(iron) * 2.0 * k / (0.0125 * 0.0125);
            assert_within((brake_thermal_face(&brake, &now) - START) / 400.0,
                          slab_cooling(biot, fourier, 1.0), 1e-3);
            const double last = 0.5 * brake.width[39] / spec.thickness;
            assert_within((brake_thermal_cell(&brake, &now, 39) - START) / 400.0,
                          slab_cooling(biot, fourier, last), 1e-3);
        }
    }
}

/* A lump: one cell that conducts so well that it has one temperature. */
static struct brake_thermal_spec lump(double conductance)
{
    struct brake_thermal_spec spec = plain_wall(0.01, 1);
    spec.material.conductivity[0] = 1e5;
    spec.front =
        (struct brake_cooling){.law = BRAKE_COOLING_FIXED, .area = 1.0, .factor = conductance};
    spec.tolerance = 1e-6;
    return spec;
}

/* Limpert, ch. 3 (CV-27): repeated stops, each in a millisecond. */
static void repeated_stops_add_up_to_the_series(void **state)
{
    (void)state;
    const double rate = 0.002;
    const double capacity = 7200.0 * 450.0 * 0.01;
    const struct brake_thermal_spec spec = lump(rate * capacity);
    struct brake_thermal brake;
    struct brake_thermal_state now;
    begin(&spec, &brake, &now);
    for (int stop = 1; stop <= 60; stop++) {
        go_on(&brake, driven(30.0 * capacity / 1e-3, 0.0), 1e-3, &now);
        assert_near(brake_thermal_mean(&brake, &now) - START,
                    brake_repeated_rise(30.0, stop, 60.0, rate), 1e-5);
        go_on(&brake, driven(0.0, 0.0), 60.0 - 1e-3, &now);
    }
}

/* Limpert, ch. 3 (CV-27): a descent at constant power. */
static void a_descent_tends_to_where_it_loses_what_it_gains(void **state)
{
    (void)state;
    const double capacity = 7200.0 * 450.0 * 0.01;
    const double conductance = 90.0;
    const struct brake_thermal_spec spec = lump(conductance);
    struct brake_thermal brake;
    struct brake_thermal_state now;
    begin(&spec, &brake, &now);
    for (int i = 1; i <= 20; i++) {
        go_on(&brake, driven(2e4, 20.0), 100.0, &now);
        assert_near(brake_thermal_mean(&brake, &now) - START,
                    brake_lump_rise(2e4, conductance, capacity, 100.0 * i), 1e-5);
    }
    go_on(&brake, driven(2e4, 20.0), 36000.0, &now);
    assert_near(brake_thermal_mean(&brake, &now) - START, 2e4 / conductance, 1e-5);
    assert_near(now.time, 38000.0, ROUNDING);
}

/* C dT/dt = -a T^4 into the cold: T = T0 (1 + 3 a T0^3 t / C)^(-1/3). */
static void a_lump_in_the_cold_radiates_by_the_fourth_power(void **state)
{
    (void)state;
    struct brake_thermal_spec spec = lump(0.0);
    struct brake_thermal brake;
    struct brake_thermal_state now;
    const double capacity = 7200.0 * 450.0 * 0.01;
    const double a = 0.8 * 5.670374419e-8;
    spec.front.emissivity = 0.8;
    assert_int_equal(brake_thermal_build(&spec, &brake), BRAKE_OK);
    assert_int_equal(brake_thermal_start(&brake, 900.0, &now), BRAKE_OK);
    for (int i = 1; i <= 10; i++) {
        const struct brake_thermal_drive drive = {0.0, 0.0, 0.0, 0.0, 1.0};
        go_on(&brake, drive, 300.0, &now);
        assert_near(brake_thermal_mean(&brake, &now),
                    900.0 / cbrt(1.0 + 3.0 * a * pow(900.0, 3.0) * 300.0 * i / capacity), 1e-6);
    }
    assert_equal(now.convected, 0.0);
    assert_near(now.radiated, capacity * (900.0 - brake_thermal_mean(&brake, &now)), 1e-11);
}

/* Heated without loss, the wall holds the integral of c dT. */
static void heat_fills_the_table(void **state)
{
    (void)state;
    struct brake_thermal_spec spec = plain_wall(0.01, 12);
    struct brake_thermal brake;
    struct brake_thermal_state now;
    spec.material = (struct brake_material){
        3, 7200.0, {250.0, 400.0, 900.0}, {60.0, 50.0, 40.0}, {400.0, 500.0, 800.0}};
    const double mass = 7200.0 * 0.01;
    const double at_start = 400.0 + 100.0 / 150.0 * (START - 250.0);
    const double to_400 = 0.5 * (at_start + 500.0) * (400.0 - START);
    const double to_900 = 0.5 * (500.0 + 800.0) * 500.0;
    begin(&spec, &brake, &now);
    const struct {
        double energy;
        double temperature;
    } filled[] = {
        {to_400, 400.0}, {to_400 + to_900, 900.0}, {to_400 + to_900 + 800.0 * 300.0, 1200.0}};
    double before = 0.0;
    for (int i = 0; i < 3; i++) {
        go_on(&brake, driven(mass * (filled[i].energy - before) / 20.0, 0.0), 20.0, &now);
        go_on(&brake, driven(0.0, 0.0), 100.0, &now);
        for (int cell = 0; cell < 12; cell++)
            assert_near(brake_thermal_cell(&brake, &now, cell), filled[i].temperature, 1e-7);
        assert_near(brake_thermal_stored(&brake, &now), mass * filled[i].energy, 1e-12);
        before = filled[i].energy;
    }
    /* Begun at 600 K, where the table gives 620: (620 + 800)/2 300 to 900 K. */
    assert_int_equal(brake_thermal_start(&brake, 600.0, &now), BRAKE_OK);
    go_on(&brake, driven(mass * 213e3 / 20.0, 0.0), 20.0, &now);
    go_on(&brake, driven(0.0, 0.0), 100.0, &now);
    assert_near(brake_thermal_cell(&brake, &now, 5), 900.0, 1e-7);
    /* Below the first point properties stay. */
    assert_int_equal(brake_thermal_start(&brake, 200.0, &now), BRAKE_OK);
    go_on(&brake, driven(mass * 400.0 * 30.0, 0.0), 1.0, &now);
    go_on(&brake, driven(0.0, 0.0), 100.0, &now);
    assert_near(brake_thermal_cell(&brake, &now, 5), 230.0, 1e-9);
}

/* In the steady state a wall of k(T) between flux q and a cold back has the drop of its integral of
 * k dT (Carslaw and Jaeger, sec. 1.6). */
static void conductivity_follows_temperature(void **state)
{
    (void)state;
    struct brake_thermal_spec spec = plain_wall(0.05, 64);
    struct brake_thermal brake;
    struct brake_thermal_state now;
    spec.material =
        (struct brake_material){2, 7200.0, {300.0, 800.0}, {60.0, 30.0}, {450.0, 450.0}};
    spec.back = (struct brake_cooling){.law = BRAKE_COOLING_FIXED, .area = 1.0, .factor = 1e4};
    begin(&spec, &brake, &now);
    go_on(&brake, driven(2e5, 0.0), 5000.0, &now);
    const double back = START + 2e5 / 1e4;
    /* 60 s - 0.03 s^2 = q l above the back, s from 300 K */
    const double depth = back - 300.0;
    const double wanted = 2e5 * 0.05 + 60.0 * depth - 0.03 * depth * depth;
    const double face = 300.0 + (60.0 - sqrt(3600.0 - 0.12 * wanted)) / 0.06;
    assert_near(brake_thermal_face(&brake, &now) - back, face - back, 1e-3);
}

/* Order of the grid: 2 on even and on refined cells. */
static void the_error_falls_with_the_square_of_the_cell(void **state)
{
    (void)state;
    const struct brake_slab slab = {iron, 0.0125};
    for (int refined = 0; refined < 2; refined++) {
        double before = 0.0;
        for (int cells = 8; cells <= 64; cells *= 2) {
            struct brake_thermal_spec spec = plain_wall(slab.thickness, cells);
            struct brake_thermal brake;
            struct brake_thermal_state now;
            spec.tolerance = 1e-6;
            spec.ratio = refined ? pow(8.0, 1.0 / cells) : 1.0;
            begin(&spec, &brake, &now);
            go_on(&brake, heated(4e6, 4e6), 1.0, &now);
            const double error = fabs(brake_thermal_face(&brake, &now) - START -
                                      brake_slab_rise(&slab, 4e6, 1.0, 0.0));
            if (cells > 8)
                assert_between(log2(before / error), 1.9, 2.2);
            before = error;
        }
    }
}

/* A brake without kinks: where a table or the law of a flow bends, a method loses order. */
static struct brake_thermal_spec smooth_brake(int cells)
{
    struct brake_thermal_spec spec = whole_brake();
    spec.cells = cells;
    spec.first_cell = cells > 1 ? 1e-4 : 0.0;
    spec.ratio = 1.0; /* of even cells, where no first one is given */
    spec.material.points = 1;
    spec.front.law = BRAKE_COOLING_POWER;
    spec.front.factor = 5.0;
    spec.front.exponent = 0.8;
    spec.back.law = BRAKE_COOLING_DRUM;
    return spec;
}

/* Steps that a tolerance takes on a smooth course, and the error that it leaves. */
static double error_at(int cells, double tolerance, const struct brake_thermal_state *exact,
                       long *steps)
{
    struct brake_thermal_spec spec = smooth_brake(cells);
    struct brake_thermal brake;
    struct brake_thermal_state now;
    double most = 0.0;
    spec.tolerance = tolerance;
    begin(&spec, &brake, &now);
    const struct brake_thermal_drive ramp = {0.0, 9e4, 40.0, 10.0, START};
    go_on(&brake, ramp, 60.0, &now);
    for (int i = 0; exact != NULL && i < brake.nodes; i++)
        most = fmax(most, fabs(now.temperature[i] - exact->temperature[i]));
    *steps = now.steps;
    return most;
}

/* By how much the error falls with the step. */
static double order_in_time(int cells)
{
    struct brake_thermal_spec spec = smooth_brake(cells);
    struct brake_thermal brake;
    struct brake_thermal_state exact;
    spec.tolerance = 1e-9;
    begin(&spec, &brake, &exact);
    const struct brake_thermal_drive ramp = {0.0, 9e4, 40.0, 10.0, START};
    go_on(&brake, ramp, 60.0, &exact);
    long few;
    long many;
    const double coarse = error_at(cells, 1e-2, &exact, &few);
    const double fine = error_at(cells, 1e-6, &exact, &many);
    assert_true(coarse < 1e-2);
    return log(coarse / fine) / log((double)many / (double)few);
}

/* Order in time: 4; 3 where thin cells follow at once: what Hairer and Wanner II calls reduction of
 * order by stiffness (from memory). */
static void the_error_falls_with_the_fourth_power_of_the_step(void **state)
{
    (void)state;
    assert_between(order_in_time(1), 3.5, 5.5);
    assert_between(order_in_time(20), 2.9, 5.5);
}

/* Steps of an L-stable method are as long as the solution is smooth, if its matrix is that of the
 * flows: a warm brake, all of whose parts lose heat by every way, is as cold as the air after ten
 * years. Some 50 steps tell the way there within 0.1 K; a tenth of that takes less than twice as
 * many, as the error goes with their fourth power (10^(1/4) = 1.8) or little less. */
static void a_way_to_rest_takes_few_steps(void **state)
{
    (void)state;
    for (int speed = 0; speed <= 20; speed += 20) {
        struct brake_thermal_spec spec = whole_brake();
        struct brake_thermal brake;
        struct brake_thermal_state now;
        long before = 25;
        spec.material.points = 1;
        for (spec.tolerance = 0.1; spec.tolerance > 9e-4; spec.tolerance *= 0.1) {
            assert_int_equal(brake_thermal_build(&spec, &brake), BRAKE_OK);
            assert_int_equal(brake_thermal_start(&brake, 900.0, &now), BRAKE_OK);
            go_on(&brake, driven(0.0, speed), 3e8, &now);
            for (int i = 0; i < brake.nodes; i++)
                assert_within(now.temperature[i], START, 1e-3);
            assert_true(now.steps <= 2 * before && now.rejected < 30);
            before = now.steps;
        }
    }
}

/* A fade sequence of 15 snubs by one brake. */
static void snub(const struct brake_thermal *brake, int parts, struct brake_thermal_state *now)
{
    for (int i = 0; i < parts; i++) {
        const double from = (double)i / parts;
        const double to = (double)(i + 1) / parts;
        const struct brake_thermal_drive drive = {8e4 * (1.0 - 0.5 * from), 8e4 * (1.0 - 0.5 * to),
                                                  33.0 * (1.0 - 0.5 * from),
                                                  33.0 * (1.0 - 0.5 * to), START};
        go_on(brake, drive, 5.5 / parts, now);
    }
    for (int i = 0; i < parts; i++) {
        const double from = (double)i / parts;
        const double to = (double)(i + 1) / parts;
        const struct brake_thermal_drive drive = {0.0, 0.0, 16.5 * (1.0 + from), 16.5 * (1.0 + to),
                                                  START};
        go_on(brake, drive, 39.5 / parts, now);
    }
}

static void it_does_not_matter_when_one_looks(void **state)
{
    (void)state;
    const struct brake_thermal_spec spec = whole_brake();
    struct brake_thermal brake;
    struct brake_thermal_state once;
    struct brake_thermal_state often;
    static const int parts[] = {3, 50, 1000};
    begin(&spec, &brake, &once);
    for (int i = 0; i < 5; i++)
        snub(&brake, 1, &once);
    for (int k = 0; k < 3; k++) {
        begin(&spec, &brake, &often);
        for (int i = 0; i < 5; i++)
            snub(&brake, parts[k], &often);
        for (int i = 0; i < brake.nodes; i++)
            assert_within(often.temperature[i], once.temperature[i], 2.0 * spec.tolerance);
        assert_within(often.face, once.face, 2.0 * spec.tolerance);
        assert_near(often.time, once.time, 1e-12);
    }
    assert_between(once.face - START, 100.0, 500.0);
}

static void a_saved_state_goes_on_to_the_bit(void **state)
{
    (void)state;
    const struct brake_thermal_spec spec = whole_brake();
    struct brake_thermal brake;
    struct brake_thermal_state now;
    struct brake_thermal_state saved;
    unsigned char file[sizeof now];
    begin(&spec, &brake, &now);
    snub(&brake, 2, &now);
    memcpy(file, &now, sizeof now);
    snub(&brake, 3, &now);
    struct brake_thermal again;
    assert_int_equal(brake_thermal_build(&spec, &again), BRAKE_OK);
    memcpy(&saved, file, sizeof saved);
    snub(&again, 3, &saved);
    for (int i = 0; i < brake.nodes; i++) {
        assert_equal(saved.temperature[i], now.temperature[i]);
        assert_equal(saved.enthalpy[i], now.enthalpy[i]);
    }
    assert_equal(saved.face, now.face);
    assert_equal(saved.convected, now.convected);
    assert_equal(saved.radiated, now.radiated);
    assert_equal(saved.supplied, now.supplied);
    assert_equal(saved.step, now.step);
    assert_true(saved.steps == now.steps && saved.rejected == now.rejected);
    assert_true(now.rejected > 0 && now.rejected < now.steps); /* where the power jumps */
}

/* First law over a long time: what went in is stored or lost. */
static void energy_is_kept_through_ten_thousand_stops(void **state)
{
    (void)state;
    struct brake_thermal_spec spec = whole_brake();
    struct brake_thermal brake;
    struct brake_thermal_state now;
    spec.cells = 6;
    spec.first_cell = 5e-4;
    spec.tolerance = 0.5;
    begin(&spec, &brake, &now);
    for (int stop = 0; stop < 10000; stop++) {
        const struct brake_thermal_drive braking = {5e4, 0.0, 20.0, 0.0, START};
        const struct brake_thermal_drive driving = {0.0, 0.0, 20.0, 20.0, START};
        assert_int_equal(brake_thermal_advance(&brake, &braking, 5.0, &now), BRAKE_OK);
        assert_int_equal(brake_thermal_advance(&brake, &driving, 60.0, &now), BRAKE_OK);
    }
    assert_near(now.supplied, 10000.0 * 5e4 * 2.5, 1e-11);
    assert_true(brake_thermal_residual(&brake, &now) <= 1e-9);
    assert_true(now.convected > 0.0 && now.radiated > 0.0);
    assert_between(brake_thermal_part(&brake, &now, BRAKE_PART_FLUID), START, 600.0);
    assert_near(now.time, 650000.0, 1e-9);
}

/* Half a rotor with a plane of symmetry is a whole one rubbed on both faces. */
static void half_a_rotor_is_a_whole_one(void **state)
{
    (void)state;
    struct brake_thermal_spec half = plain_wall(0.006, 12);
    struct brake_thermal_spec full = plain_wall(0.012, 24);
    struct brake_thermal brake;
    struct brake_thermal_state one;
    struct brake_thermal_state both;
    const struct brake_cooling face = {
        BRAKE_COOLING_FACE, 0.04, 0.5, 4.0, 1.0, 0.0, 0.3, 0.4, NO_VANES};
    half.area = 0.1;
    half.first_cell = 1e-4;
    half.front = face;
    half.front.area = 0.08;
    full.area = 0.05;
    full.first_cell = 1e-4;
    full.back_share = 0.5;
    full.front = face;
    full.back = face;
    begin(&half, &brake, &one);
    go_on(&brake, driven(5e4, 20.0), 5.0, &one);
    go_on(&brake, driven(0.0, 20.0), 60.0, &one);
    go_on(&brake, driven(5e4, 20.0), 5.0, &one);
    const double wanted = brake_thermal_face(&brake, &one);
    begin(&full, &brake, &both);
    go_on(&brake, driven(5e4, 20.0), 5.0, &both);
    go_on(&brake, driven(0.0, 20.0), 60.0, &both);
    go_on(&brake, driven(5e4, 20.0), 5.0, &both);
    assert_within(brake_thermal_face(&brake, &both), wanted, 1e-3);
    for (int i = 0; i < 12; i++) {
        assert_near(brake.width[i], brake.width[23 - i], ROUNDING);
        assert_near(brake_thermal_cell(&brake, &both, i), brake_thermal_cell(&brake, &both, 23 - i),
                    1e-9);
        assert_within(brake_thermal_cell(&brake, &both, i), one.temperature[BRAKE_PART_PAD + 1 + i],
                      1e-3);
    }
    assert_near(both.convected, one.convected, 1e-5);
}

/* Two lumps with a contact: C1, C2, heat P into the first, G between. The difference tends to
 * P C2 / (G (C1 + C2)) with the rate G (1/C1 + 1/C2). */
static void face_and_pad_share_heat_by_their_contact(void **state)
{
    (void)state;
    struct brake_thermal_spec spec = plain_wall(0.01, 1);
    struct brake_thermal brake;
    struct brake_thermal_state now;
    const double c1 = 7200.0 * 450.0 * 0.01;
    const double c2 = 900.0;
    const double power = 1e5;
    spec.material.conductivity[0] = 1e5;
    spec.contact = 300.0;
    spec.part[BRAKE_PART_PAD].capacity = c2;
    spec.tolerance = 1e-7;
    begin(&spec, &brake, &now);
    const double conductance = 1.0 / (1.0 / 300.0 + 0.005 / 1e5);
    for (int i = 1; i <= 10; i++) {
        go_on(&brake, driven(power, 0.0), 1.0, &now);
        const double rate = conductance * (1.0 / c1 + 1.0 / c2);
        const double apart = power * c2 / (conductance * (c1 + c2)) * -expm1(-rate * i);
        const double pad = brake_thermal_part(&brake, &now, BRAKE_PART_PAD);
        assert_within(brake_thermal_mean(&brake, &now) - pad, apart, 1e-3 * apart);
        assert_near(c1 * (brake_thermal_mean(&brake, &now) - START) + c2 * (pad - START), power * i,
                    1e-10);
    }
    /* Released, they part; the pad keeps what it has. */
    const double pad = brake_thermal_part(&brake, &now, BRAKE_PART_PAD);
    go_on(&brake, driven(0.0, 0.0), 100.0, &now);
    assert_equal(brake_thermal_part(&brake, &now, BRAKE_PART_PAD), pad);
    /* A perfect contact has one temperature at the interface. */
    spec.contact = 1e9;
    begin(&spec, &brake, &now);
    go_on(&brake, driven(power, 0.0), 5.0, &now);
    assert_within(brake_thermal_part(&brake, &now, BRAKE_PART_PAD),
                  brake_thermal_face(&brake, &now), 0.1);
}

/* A face between half a cell, its conductance k A/(L/2), the pad and the air, from thermal.h. */
struct between {
    double conductance, power, link, pad;
    const struct brake_cooling *cooling;
};

static const double CELL = 800.0; /* [K] */
static const double DRAUGHT = 280.0;
static const double FAST = 20.0; /* [m/s] */

static double convects(const struct brake_cooling *cooling)
{
    return cooling->area *
           brake_cooling_coefficient(cooling, FAST, 0.5 * (CELL + DRAUGHT), BRAKE_ATMOSPHERE);
}

/* Of a surface [W]: Stefan and Boltzmann. */
static double radiates(const struct brake_cooling *cooling, double temperature)
{
    return 5.670374419e-8 * cooling->emissivity * cooling->area *
           (pow(temperature, 4.0) - pow(DRAUGHT, 4.0));
}

/* Where flows meet: convection and radiation at the coefficient of the cell. */
static double temperature_between(const struct between *at)
{
    const double out =
        convects(at->cooling) + radiates(at->cooling, CELL) / (CELL - DRAUGHT); /* [W/K] */
    return (at->conductance * CELL + at->power + at->link * at->pad + out * DRAUGHT) /
           (at->conductance + at->link + out);
}

/* Given a wall of one cell at 800 K and a pad of another temperature, in the first instant both
 * faces lose to the air, and one to the pad, what they do at the temperature at which their flows
 * meet. */
static void a_face_has_the_temperature_at_which_its_flows_meet(void **state)
{
    (void)state;
    struct cases cases = {47};
    const double moment = 1e-4; /* [s] the cell does not move by 1e-6 K */
    for (int i = 0; i < 40; i++) {
        struct brake_thermal_spec spec = plain_wall(0.02, 1);
        struct brake_thermal brake;
        struct brake_thermal_state now;
        const double power = i % 3 == 0 ? 0.0 : any_between(&cases, 1e3, 2e4);
        const double pad = any_between(&cases, 300.0, 900.0);
        struct brake_cooling cooling = {BRAKE_COOLING_FACE,
                                        0.7,
                                        any_between(&cases, 0.3, 1.0),
                                        4.0,
                                        0.6,
                                        0.0,
                                        0.30,
                                        0.4,
                                        NO_VANES};
        spec.material.conductivity[0] = any_between(&cases, 1.0, 5.0);
        spec.front = cooling;
        cooling.area = 0.9;
        cooling.emissivity *= 0.7;
        spec.back = cooling;
        spec.contact = i % 2 == 0 ? any_between(&cases, 10.0, 100.0) : 0.0;
        spec.back_share = i % 2 == 0 ? 0.0 : 0.3;
        spec.share = 0.9;
        spec.part[BRAKE_PART_PAD] = (struct brake_lump){.capacity = 1e4, .link = 5.0};
        assert_int_equal(brake_thermal_build(&spec, &brake), BRAKE_OK);
        assert_int_equal(brake_thermal_start(&brake, CELL, &now), BRAKE_OK);
        now.enthalpy[BRAKE_PART_PAD] = 1e4 * (pad - START);
        const double half = spec.material.conductivity[0] / 0.01;
        const double link = 5.0 + (power > 0.0 ? spec.contact : 0.0);
        const double into_back = spec.share * spec.back_share * power;
        const struct between front = {half, spec.share * power - into_back, link, pad, &spec.front};
        const struct between back = {half, into_back, 0.0, 0.0, &spec.back};
        const double face[] = {temperature_between(&front), temperature_between(&back)};
        const struct brake_thermal_drive drive = {power, power, FAST, FAST, DRAUGHT};
        assert_int_equal(brake_thermal_advance(&brake, &drive, moment, &now), BRAKE_OK);
        assert_near(now.convected / moment,
                    convects(&spec.front) * (face[0] - DRAUGHT) +
                        convects(&spec.back) * (face[1] - DRAUGHT),
                    1e-6);
        assert_near(now.radiated / moment,
                    radiates(&spec.front, face[0]) + radiates(&spec.back, face[1]), 1e-6);
        assert_within(brake_thermal_part(&brake, &now, BRAKE_PART_PAD) - pad,
                      moment / 1e4 * (link * (face[0] - pad) + 0.1 * power), 1e-10);
    }
}

/* Given a brake that has idled for long, the step to try when the power jumps is the later of two
 * times, from which errors grow to the tolerance: that at which the face of a half space is ten
 * tolerances up, 2 P sqrt(t/pi)/(e A) with the effusivity e (Carslaw and Jaeger, sec. 2.9), and
 * that of the rubbed cell, in which an error of order 4 in t K/(2 C) of the jump's P/K is a
 * hundred tolerances. A moment of either power does not move it. */
static void after_a_jump_the_first_step_is_the_one_that_fits(void **state)
{
    (void)state;
    const struct brake_thermal_spec spec = plain_wall(0.02, 20);
    const double effusivity = sqrt(50.0 * 7200.0 * 450.0);
    const double cell = 7200.0 * 450.0 * 0.001; /* [J/K] */
    const double half = 50.0 / 0.0005;          /* [W/K] */
    for (double jump = 0.1; jump < 2e6; jump *= 10.0) {
        for (int down = 0; down < 2; down++) {
            struct brake_thermal brake;
            struct brake_thermal_state now;
            begin(&spec, &brake, &now);
            now.power = down * jump;
            const struct brake_thermal_drive before = heated(now.power, now.power);
            const struct brake_thermal_drive after = heated(jump - now.power, jump - now.power);
            now.step = 1e7;
            assert_int_equal(brake_thermal_advance(&brake, &before, 1e-9, &now), BRAKE_OK);
            assert_equal(now.step, 1e7);
            assert_int_equal(brake_thermal_advance(&brake, &after, 1e-9, &now), BRAKE_OK);
            const double face = BRAKE_PI * pow(10.0 * 1e-4 * effusivity / jump / 2.0, 2.0);
            const double rubbed = 2.0 * cell / half * pow(100.0 * 1e-4 * half / jump, 0.25);
            assert_near(now.step, fmax(face, rubbed), 1e-9);
            assert_int_equal(now.steps, 2);
            assert_int_equal(now.rejected, 0);
        }
    }
    /* The step that was kept is not made longer; at the start it is all of the time. */
    struct brake_thermal brake;
    struct brake_thermal_state now;
    begin(&spec, &brake, &now);
    now.step = 1e-6;
    assert_int_equal(brake_thermal_advance(&brake,
                                           &(struct brake_thermal_drive){1.0, 1.0, 0.0, 0.0, START},
                                           1e-9, &now),
                     BRAKE_OK);
    assert_equal(now.step, 1e-6);
    begin(&spec, &brake, &now);
    go_on(&brake, heated(0.0, 0.0), 1e4, &now);
    assert_int_equal(now.steps, 1);
    assert_equal(now.step, 1e5); /* ten times the one that had no error */
}

/* An idle brake has no error, so that each step says that the next may be ten times as long. A
 * step of more than half of what remains is cut to that half, as no sliver shall be left; one of
 * all of it is taken; one that would hardly move the time is refused. 2 ps, tenfold each time,
 * come to 2/9 s in twelve. */
static void the_end_of_a_time_is_met_without_a_sliver(void **state)
{
    (void)state;
    const struct brake_thermal_spec spec = plain_wall(0.02, 20);
    const struct brake_thermal_drive idle = heated(0.0, 0.0);
    static const struct {
        double step;
        long steps;
        double next;
    } of_one_second[] = {{1.0, 1, 10.0},         {0.999, 2, 5.0},  {0.503, 2, 5.0},
                         {0.501, 2, 5.0},        {0.499, 2, 5.01}, {2e-12, 13, 70.0 / 9.0},
                         {2e-13, 14, 70.0 / 9.0}};
    for (size_t i = 0; i < sizeof of_one_second / sizeof of_one_second[0]; i++) {
        struct brake_thermal brake;
        struct brake_thermal_state now;
        begin(&spec, &brake, &now);
        now.step = of_one_second[i].step;
        assert_int_equal(brake_thermal_advance(&brake, &idle, 1.0, &now), BRAKE_OK);
        assert_int_equal(now.steps, of_one_second[i].steps);
        assert_near(now.step, of_one_second[i].next, 1e-9);
    }
    struct brake_thermal brake;
    struct brake_thermal_state now;
    begin(&spec, &brake, &now);
    now.step = 0.99e-13;
    assert_int_equal(brake_thermal_advance(&brake, &idle, 1.0, &now), BRAKE_E_RANGE);
}

/* A power that rises from nothing does not jump: the long step of an idle brake is tried, and
 * refused until one fits. Steps that were taken come up to the time; none more is counted. */
static void a_step_that_is_too_long_is_refused_and_counted(void **state)
{
    (void)state;
    const struct brake_thermal_spec spec = plain_wall(0.02, 20);
    struct brake_thermal brake;
    struct brake_thermal_state now;
    begin(&spec, &brake, &now);
    now.step = 100.0;
    go_on(&brake, heated(0.0, 1e6), 10.0, &now);
    assert_true(now.rejected > 0 && now.rejected < 10);
    assert_true(now.steps > 1);
    const long rejected = now.rejected;
    const long steps = now.steps;
    now.power = 0.0;
    go_on(&brake, heated(0.0, 0.0), 1e-9, &now);
    assert_int_equal(now.rejected, rejected);
    assert_int_equal(now.steps, steps + 1);
}

/* Nothing lost: in the end all parts have the temperature of the sum. */
static void heat_spreads_over_all_parts(void **state)
{
    (void)state;
    struct brake_thermal_spec spec = whole_brake();
    struct brake_thermal brake;
    struct brake_thermal_state now;
    double sum = 0.09 * 0.010 * 7200.0 * 430.0;
    spec.material.points = 1;
    spec.front.area = 0.0;
    spec.back.area = 0.0;
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++) {
        spec.part[i].cooling.area = 0.0;
        sum += spec.part[i].capacity;
    }
    begin(&spec, &brake, &now);
    go_on(&brake, driven(5e4, 0.0), 10.0, &now);
    assert_true(brake_thermal_part(&brake, &now, BRAKE_PART_FLUID) <
                brake_thermal_part(&brake, &now, BRAKE_PART_PAD));
    go_on(&brake, driven(0.0, 0.0), 1e7, &now);
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++)
        assert_near(brake_thermal_part(&brake, &now, (enum brake_part)i), START + 5e5 / sum, 1e-6);
    assert_near(brake_thermal_face(&brake, &now), START + 5e5 / sum, 1e-6);
    assert_equal(now.convected, 0.0);
}

/* What hangs on a part that is left out is left out too. */
static void a_part_that_is_left_out_takes_no_heat(void **state)
{
    (void)state;
    struct brake_thermal_spec spec = whole_brake();
    struct brake_thermal brake;
    struct brake_thermal_state now;
    spec.part[BRAKE_PART_PISTON].capacity = 0.0;
    spec.part[BRAKE_PART_RIM].capacity = 0.0;
    begin(&spec, &brake, &now);
    snub(&brake, 1, &now);
    assert_nan(brake_thermal_part(&brake, &now, BRAKE_PART_PISTON));
    assert_nan(brake_thermal_part(&brake, &now, BRAKE_PART_FLUID));
    assert_nan(brake_thermal_part(&brake, &now, BRAKE_PART_RIM));
    assert_nan(brake_thermal_part(&brake, &now, BRAKE_PART_HAT));
    assert_true(brake_thermal_part(&brake, &now, BRAKE_PART_PLATE) > START);
    assert_nan(brake_thermal_fluid_margin(&brake, &now, 413.15));
    assert_near(now.temperature[BRAKE_PART_FLUID], START, ROUNDING);
    /* A part is one however little it is: half a gram of steel takes what its neighbours have. */
    spec.part[BRAKE_PART_PISTON].capacity = 0.25;
    begin(&spec, &brake, &now);
    snub(&brake, 1, &now);
    assert_true(brake_thermal_part(&brake, &now, BRAKE_PART_PISTON) > START);
    /* Without any parts all heat must go into the wall. */
    memset(spec.part, 0, sizeof spec.part);
    assert_int_equal(brake_thermal_build(&spec, &brake), BRAKE_E_RANGE);
    spec.share = 1.0;
    assert_int_equal(brake_thermal_build(&spec, &brake), BRAKE_OK);
    spec.contact = 10.0;
    assert_int_equal(brake_thermal_build(&spec, &brake), BRAKE_E_RANGE);
}

/* FMVSS 116, S5.1. */
static void fluid_boils_at_the_least_allowed(void **state)
{
    (void)state;
    assert_near(brake_fluid_boiling(BRAKE_DOT_3, 0), 205.0 + 273.15, ROUNDING);
    assert_near(brake_fluid_boiling(BRAKE_DOT_3, 1), 140.0 + 273.15, ROUNDING);
    assert_near(brake_fluid_boiling(BRAKE_DOT_4, 1), 155.0 + 273.15, ROUNDING);
    assert_near(brake_fluid_boiling(BRAKE_DOT_5, 7), 180.0 + 273.15, ROUNDING);
    assert_near(brake_fluid_boiling(BRAKE_DOT_5_1, 0), 260.0 + 273.15, ROUNDING);
    assert_nan(brake_fluid_boiling(BRAKE_FLUID_KINDS, 0));
    assert_nan(brake_fluid_boiling((enum brake_fluid_kind) - 1, 0));
    const struct brake_thermal_spec spec = whole_brake();
    struct brake_thermal brake;
    struct brake_thermal_state now;
    begin(&spec, &brake, &now);
    assert_near(brake_thermal_fluid_margin(&brake, &now, START + 120.0), 120.0, ROUNDING);
}

/* One thick cell that all but does not conduct: its mean is near the start, but 1 kW would bring
 * the face, by flux times thickness over 3 k (a parabola), to millions of kelvin: no solid. */
static void a_face_that_is_no_solid_is_refused(void)
{
    struct brake_thermal brake;
    struct brake_thermal_state now;
    struct brake_thermal_spec spec = whole_brake();
    spec.material.points = 1;
    spec.material.conductivity[0] = 1e-3;
    spec.thickness = 10.0;
    spec.cells = 1;
    spec.first_cell = 0.0;
    spec.ratio = 1.0;
    spec.front.area = 0.0;
    spec.share = 1.0;
    spec.part[BRAKE_PART_PAD].capacity = 0.0;
    begin(&spec, &brake, &now);
    const struct brake_thermal_drive drive = driven(1e3, 0.0);
    assert_int_equal(brake_thermal_advance(&brake, &drive, 1e-3, &now), BRAKE_E_RANGE);
    assert_equal(now.time, 0.0);
    assert_equal(now.face, START);
}

/* Finite, or refused. */
static void extremes_are_finite_or_refused(void **state)
{
    (void)state;
    struct brake_thermal brake;
    struct brake_thermal_state now;
    /* Still air, a millisecond, ten hours, every number of cells. */
    for (int cells = 1; cells <= BRAKE_WALL_CELLS; cells++) {
        struct brake_thermal_spec spec = whole_brake();
        spec.cells = cells;
        spec.first_cell = 1e-4;
        spec.tolerance = 0.1;
        begin(&spec, &brake, &now);
        go_on(&brake, driven(3e4, 0.0), 1e-3, &now);
        go_on(&brake, driven(0.0, 0.0), 36000.0, &now);
        assert_between(brake_thermal_face(&brake, &now), START - 1e-3 * spec.tolerance,
                       START + 1.0);
        assert_between(brake_thermal_mean(&brake, &now), START - 1e-3 * spec.tolerance,
                       START + 1.0);
    }
    /* The corners of what is accepted. */
    for (int i = 0; i < 64; i++) {
        struct brake_thermal_spec spec = whole_brake();
        spec.material.points = 1;
        spec.material.density = i & 1 ? 1.0 : 1e5;
        spec.material.conductivity[0] = i & 2 ? 1e-3 : 1e5;
        spec.material.heat_capacity[0] = i & 4 ? 1.0 : 1e5;
        spec.thickness = i & 8 ? 1e-4 : 10.0;
        spec.first_cell = i & 16 ? 0.0 : 1e-6;
        spec.ratio = 1.3;
        spec.tolerance = 0.1;
        begin(&spec, &brake, &now);
        const struct brake_thermal_drive drive = driven(i & 32 ? 1e3 : 1e7, 1e3);
        const enum brake_status status = brake_thermal_advance(&brake, &drive, 10.0, &now);
        assert_true(status == BRAKE_OK || status == BRAKE_E_RANGE);
        assert_between(brake_thermal_face(&brake, &now), 1.0, 5000.0);
        for (int k = 0; k < brake.nodes; k++)
            assert_between(now.temperature[k], 1.0, 5000.0);
    }
    a_face_that_is_no_solid_is_refused();
    /* A melted wall is refused, and the state stays. */
    const struct brake_thermal_spec spec = whole_brake();
    begin(&spec, &brake, &now);
    const struct brake_thermal_drive furnace = driven(1e9, 10.0);
    assert_int_equal(brake_thermal_advance(&brake, &furnace, 100.0, &now), BRAKE_E_RANGE);
    assert_equal(now.time, 0.0);
    assert_equal(now.face, START);
    /* No time is no change. */
    const struct brake_thermal_drive mild = driven(1e4, 10.0);
    assert_int_equal(brake_thermal_advance(&brake, &mild, 0.0, &now), BRAKE_OK);
    assert_equal(now.time, 0.0);
    assert_equal(brake_thermal_residual(&brake, &now), 0.0);
}

static void a_drive_out_of_range_is_refused(void **state)
{
    (void)state;
    static const double wrong[] = {-1.0, 1e300, (double)NAN, (double)INFINITY};
    const struct brake_thermal_spec spec = whole_brake();
    struct brake_thermal brake;
    struct brake_thermal_state now;
    struct brake_thermal_drive drive;
    double *const fields[] = {&drive.power_begin, &drive.power_end, &drive.speed_begin,
                              &drive.speed_end, &drive.air};
    begin(&spec, &brake, &now);
    for (size_t k = 0; k < sizeof wrong / sizeof *wrong; k++) {
        for (size_t i = 0; i < sizeof fields / sizeof *fields; i++) {
            drive = driven(1e4, 10.0);
            *fields[i] = wrong[k];
            assert_int_equal(brake_thermal_advance(&brake, &drive, 1.0, &now), BRAKE_E_RANGE);
        }
        drive = driven(1e4, 10.0);
        assert_int_equal(brake_thermal_advance(&brake, &drive, wrong[k], &now), BRAKE_E_RANGE);
        assert_int_equal(brake_thermal_start(&brake, wrong[k], &now), BRAKE_E_RANGE);
        assert_nan(brake_thermal_face(&brake, &now));
        begin(&spec, &brake, &now);
    }
    /* A state that holds no numbers does not come through as numbers. */
    now.enthalpy[6] = BRAKE_NAN;
    drive = driven(1e4, 10.0);
    assert_int_equal(brake_thermal_advance(&brake, &drive, 1.0, &now), BRAKE_E_RANGE);
}

static void assert_refused(const struct brake_thermal_spec *spec)
{
    struct brake_thermal brake;
    struct brake_thermal_state now;
    const struct brake_thermal_drive drive = driven(0.0, 0.0);
    assert_int_equal(brake_thermal_build(spec, &brake), BRAKE_E_RANGE);
    assert_int_equal(brake_thermal_start(&brake, START, &now), BRAKE_E_RANGE);
    assert_int_equal(brake_thermal_advance(&brake, &drive, 1.0, &now), BRAKE_E_RANGE);
    assert_nan(brake_thermal_face(&brake, &now));
}

static void a_brake_out_of_range_is_refused(void **state)
{
    (void)state;
    static const double wrong[] = {-1.0, 1e300, (double)NAN, (double)INFINITY};
    struct brake_thermal_spec spec;
    double *const fields[] = {
        &spec.material.density,
        &spec.material.temperature[0],
        &spec.material.conductivity[1],
        &spec.material.heat_capacity[2],
        &spec.area,
        &spec.thickness,
        &spec.first_cell,
        &spec.back_share,
        &spec.share,
        &spec.contact,
        &spec.front.area,
        &spec.back.emissivity,
        &spec.part[0].capacity,
        &spec.part[4].link,
        &spec.part[5].cooling.factor,
        &spec.pressure,
        &spec.tolerance,
    };
    for (size_t k = 0; k < sizeof wrong / sizeof *wrong; k++) {
        for (size_t i = 0; i < sizeof fields / sizeof *fields; i++) {
            spec = whole_brake();
            *fields[i] = wrong[k];
            assert_refused(&spec);
        }
        spec = whole_brake();
        spec.first_cell = 0.0;
        spec.ratio = wrong[k];
        assert_refused(&spec);
    }
    static const int counts[] = {-1, 0, BRAKE_WALL_CELLS + 1};
    for (int i = 0; i < 3; i++) {
        spec = whole_brake();
        spec.cells = counts[i];
        assert_refused(&spec);
        spec = whole_brake();
        spec.material.points = counts[i];
        assert_refused(&spec);
    }
    spec = whole_brake();
    spec.material.temperature[2] = spec.material.temperature[1];
    assert_refused(&spec);
    spec = whole_brake();
    spec.first_cell = 0.001; /* wider than 10 mm / 20 */
    assert_refused(&spec);
    spec = whole_brake();
    spec.contact = 100.0;
    spec.back_share = 0.5;
    assert_refused(&spec);
}

/* The grid: first cell as asked, cells in one ratio, all of the wall. */
static void cells_grow_from_the_rubbed_face(void **state)
{
    (void)state;
    struct cases cases = {5};
    for (int run = 0; run < 300; run++) {
        struct brake_thermal_spec spec =
            plain_wall(any_between(&cases, 0.003, 0.03), 1 + run % BRAKE_WALL_CELLS);
        struct brake_thermal brake;
        double sum = 0.0;
        spec.first_cell = spec.thickness / spec.cells * pow(10.0, any_between(&cases, -2.0, 0.0));
        assert_int_equal(brake_thermal_build(&spec, &brake), BRAKE_OK);
        if (spec.cells > 1)
            assert_near(brake.width[0], spec.first_cell, 1e-12);
        for (int i = 0; i < spec.cells; i++) {
            sum += brake.width[i];
            if (i > 1)
                assert_near(brake.width[i] * brake.width[i - 2],
                            brake.width[i - 1] * brake.width[i - 1], 1e-10);
        }
        assert_near(sum, spec.thickness, 1e-12);
    }
}

/* reference/materials.json: every solid can be built and its table read at its points. */
static cJSON *materials(void)
{
    static char text[65536];
    FILE *file = fopen(SOURCE_ROOT "/reference/materials.json", "r");
    assert_non_null(file);
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    cJSON *json = cJSON_Parse(text);
    assert_non_null(json);
    return json;
}

static double item(const cJSON *object, const char *list, int index)
{
    return cJSON_GetArrayItem(cJSON_GetObjectItem(object, list), index)->valuedouble;
}

static void materials_are_sourced_and_usable(void **state)
{
    (void)state;
    cJSON *json = materials();
    const cJSON *solid;
    cJSON_ArrayForEach(solid, cJSON_GetObjectItem(json, "solids"))
    {
        struct brake_thermal_spec spec = whole_brake();
        struct brake_thermal brake;
        struct brake_material *material = &spec.material;
        assert_true(strlen(cJSON_GetObjectItem(solid, "source")->valuestring) > 0);
        assert_true(strlen(cJSON_GetObjectItem(solid, "read")->valuestring) > 0);
        material->points = cJSON_GetArraySize(cJSON_GetObjectItem(solid, "temperature"));
        material->density = cJSON_GetObjectItem(solid, "density")->valuedouble;
        for (int i = 0; i < material->points; i++) {
            material->temperature[i] = item(solid, "temperature", i) + 273.15;
            material->conductivity[i] = item(solid, "conductivity", i);
            material->heat_capacity[i] = item(solid, "heat_capacity", i);
        }
        assert_int_equal(brake_thermal_build(&spec, &brake), BRAKE_OK);
        for (int i = 0; i < material->points; i++) {
            const struct brake_solid at = brake_material_at(material, material->temperature[i]);
            assert_near(at.conductivity, material->conductivity[i], ROUNDING);
            assert_near(at.heat_capacity, material->heat_capacity[i], ROUNDING);
            assert_equal(at.density, material->density);
        }
        /* CV-30: rotor iron diffuses 13 to 20 mm2/s. */
        if (strncmp(solid->string, "grey iron", 9) == 0)
            assert_between(brake_diffusivity(brake_material_at(material, 293.15)), 13e-6, 20e-6);
    }
    const cJSON *air = cJSON_GetObjectItem(json, "air");
    for (int i = 0; i < cJSON_GetArraySize(cJSON_GetObjectItem(air, "conductivity")); i++) {
        const struct brake_air at =
            brake_air_at(item(air, "temperature_kelvin", i), BRAKE_ATMOSPHERE);
        assert_near(at.conductivity, item(air, "conductivity", i), 0.03);
        assert_near(at.viscosity, item(air, "viscosity", i), 0.035);
    }
    cJSON_Delete(json);
}

static void a_table_is_read_between_its_points(void **state)
{
    (void)state;
    const struct brake_material material = whole_brake().material;
    assert_near(brake_material_at(&material, 383.15).conductivity, 48.0, ROUNDING);
    assert_near(brake_material_at(&material, 383.15).heat_capacity, 465.0, ROUNDING);
    assert_equal(brake_material_at(&material, 10.0).conductivity, 49.0);
    assert_equal(brake_material_at(&material, 2000.0).heat_capacity, 640.0);
}

static void a_brake_whose_counts_do_not_fit_its_tables_says_nothing(void **unused)
{
    (void)unused;
    struct brake_thermal brake = {.nodes = 1000000, .spec = {.cells = 1000000 - 6}};
    struct brake_thermal_state state = {.step = 0.0};
    const struct brake_thermal_drive drive = {.air = 293.15};
    brake.spec.material.points = BRAKE_WALL_POINTS + 1;
    assert_int_equal(brake_thermal_start(&brake, 293.15, &state), BRAKE_E_RANGE);
    assert_int_equal(brake_thermal_advance(&brake, &drive, 1.0, &state), BRAKE_E_RANGE);
    assert_nan(brake_thermal_stored(&brake, &state));
    assert_nan(brake_thermal_mean(&brake, &state));
    assert_nan(brake_thermal_face(&brake, &state));
    assert_nan(brake_thermal_face_under(&brake, &state, 0.0, 0.0, 293.15));
    assert_nan(brake_thermal_cell(&brake, &state, 0));
    assert_nan(brake_thermal_part(&brake, &state, BRAKE_PART_PAD));
    assert_nan(brake_material_at(&brake.spec.material, 293.15).density);
}

/* Each count by itself, all others as they were built. */
static void one_count_that_does_not_fit_is_enough(void **unused)
{
    (void)unused;
    const struct brake_thermal_spec spec = whole_brake();
    struct brake_thermal brake;
    struct brake_thermal_state state;
    static const int points[] = {0, BRAKE_WALL_POINTS + 1};
    begin(&spec, &brake, &state);
    assert_nan(brake_thermal_part(&brake, &state, (enum brake_part) - 1));
    assert_nan(brake_thermal_part(&brake, &state, BRAKE_THERMAL_PARTS));
    for (int i = 0; i < 2; i++) {
        brake.spec.material.points = points[i];
        assert_nan(brake_thermal_stored(&brake, &state));
        assert_nan(brake_material_at(&brake.spec.material, 293.15).density);
    }
    begin(&spec, &brake, &state);
    brake.nodes++;
    assert_nan(brake_thermal_stored(&brake, &state));
}

/* A part that there is not, and a brake that was never built, have no temperature. */
static void what_is_not_there_has_no_temperature(void **state)
{
    (void)state;
    const struct brake_thermal_spec spec = whole_brake();
    struct brake_thermal brake;
    struct brake_thermal unbuilt;
    struct brake_thermal_state now;
    begin(&spec, &brake, &now);
    memset(&unbuilt, 0, sizeof unbuilt);
    assert_nan(brake_thermal_part(&brake, &now, (enum brake_part) - 1));
    assert_nan(brake_thermal_part(&brake, &now, BRAKE_THERMAL_PARTS));
    assert_nan(brake_thermal_cell(&brake, &now, -1));
    assert_nan(brake_thermal_cell(&brake, &now, spec.cells));
    assert_equal(brake_thermal_cell(&brake, &now, 0), START);
    assert_equal(brake_thermal_cell(&brake, &now, spec.cells - 1), START);
    unbuilt.spec = spec;
    assert_nan(brake_thermal_part(&unbuilt, &now, BRAKE_PART_PAD));
    assert_nan(brake_thermal_cell(&unbuilt, &now, 0));
    assert_nan(brake_thermal_mean(&unbuilt, &now));
    assert_nan(brake_thermal_face(&unbuilt, &now));
}

/* FMVSS 116, S5.1.1 and S5.1.2: dry and wet equilibrium reflux boiling points. */
static void every_fluid_has_both_of_its_boiling_points(void **state)
{
    (void)state;
    static const struct {
        enum brake_fluid_kind fluid;
        double dry, wet; /* [degC] */
    } cases[] = {{BRAKE_DOT_3, 205.0, 140.0},
                 {BRAKE_DOT_4, 230.0, 155.0},
                 {BRAKE_DOT_5, 260.0, 180.0},
                 {BRAKE_DOT_5_1, 260.0, 180.0}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        assert_near(brake_fluid_boiling(cases[i].fluid, 0), cases[i].dry + 273.15, ROUNDING);
        assert_near(brake_fluid_boiling(cases[i].fluid, 1), cases[i].wet + 273.15, ROUNDING);
    }
}

/* What is not accounted for is told as a part of what came in, however little that is. */
static void heat_that_is_lost_is_told_as_a_part_of_all(void **state)
{
    (void)state;
    const struct brake_thermal_spec spec = whole_brake();
    struct brake_thermal brake;
    struct brake_thermal_state now;
    begin(&spec, &brake, &now);
    assert_equal(brake_thermal_residual(&brake, &now), 0.0);
    now.supplied = 0.5;
    assert_near(brake_thermal_residual(&brake, &now), 1.0, 1e-6);
    now.convected = 0.2;
    now.radiated = 0.2;
    assert_near(brake_thermal_residual(&brake, &now), 0.2, 1e-6);
    now.supplied = 0.0;
    assert_near(brake_thermal_residual(&brake, &now), 1.0, 1e-6);
}

static void insulate(struct brake_thermal_spec *spec)
{
    spec->front.area = spec->back.area = 0.0;
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++)
        spec->part[i].cooling.area = 0.0;
}

/* A brake that is warm throughout and cannot give heat stays as it is, all its parts: far from the
 * points of its tables and just past them. */
static void a_warm_brake_that_is_insulated_stays_warm(void **state)
{
    (void)state;
    static const double warm[] = {412.0, 293.65, 473.65, 873.65, 950.0};
    struct brake_thermal_spec spec = whole_brake();
    struct brake_thermal brake;
    struct brake_thermal_state now;
    insulate(&spec);
    assert_int_equal(brake_thermal_build(&spec, &brake), BRAKE_OK);
    for (size_t k = 0; k < sizeof warm / sizeof warm[0]; k++) {
        assert_int_equal(brake_thermal_start(&brake, warm[k], &now), BRAKE_OK);
        go_on(&brake, driven(0.0, 20.0), 60.0, &now);
        for (int i = 0; i < BRAKE_THERMAL_PARTS; i++)
            assert_near(brake_thermal_part(&brake, &now, (enum brake_part)i), warm[k], 1e-11);
        assert_near(brake_thermal_face(&brake, &now), warm[k], 1e-11);
        assert_near(brake_thermal_mean(&brake, &now), warm[k], 1e-11);
        assert_within(brake_thermal_stored(&brake, &now), 0.0, 1e-6);
    }
}

/* What hangs on a part that is left out has no surface either: warmer air gives it nothing. */
static void a_part_that_is_left_out_has_no_surface(void **state)
{
    (void)state;
    struct brake_thermal_spec spec = whole_brake();
    struct brake_thermal brake;
    struct brake_thermal_state now;
    insulate(&spec);
    spec.part[BRAKE_PART_PISTON].capacity = 0.0;
    spec.part[BRAKE_PART_BODY].cooling.area = 0.1;
    spec.part[BRAKE_PART_RIM].capacity = 0.0;
    spec.part[BRAKE_PART_HAT].cooling.area = 0.1;
    begin(&spec, &brake, &now);
    const struct brake_thermal_drive drive = {0.0, 0.0, 20.0, 20.0, START + 100.0};
    assert_int_equal(brake_thermal_advance(&brake, &drive, 60.0, &now), BRAKE_OK);
    assert_equal(now.convected, 0.0);
    assert_equal(now.radiated, 0.0);
    assert_near(brake_thermal_face(&brake, &now), START, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_brake_whose_counts_do_not_fit_its_tables_says_nothing),
        cmocka_unit_test(one_count_that_does_not_fit_is_enough),
        cmocka_unit_test(a_thick_wall_is_a_half_space),
        cmocka_unit_test(a_wall_heated_on_one_face_is_a_slab),
        cmocka_unit_test(worked_examples_come_out),
        cmocka_unit_test(one_cell_knows_its_face),
        cmocka_unit_test(a_slab_cools_by_its_biot_number),
        cmocka_unit_test(repeated_stops_add_up_to_the_series),
        cmocka_unit_test(a_descent_tends_to_where_it_loses_what_it_gains),
        cmocka_unit_test(a_lump_in_the_cold_radiates_by_the_fourth_power),
        cmocka_unit_test(heat_fills_the_table),
        cmocka_unit_test(conductivity_follows_temperature),
        cmocka_unit_test(the_error_falls_with_the_square_of_the_cell),
        cmocka_unit_test(the_error_falls_with_the_fourth_power_of_the_step),
        cmocka_unit_test(a_way_to_rest_takes_few_steps),
        cmocka_unit_test(it_does_not_matter_when_one_looks),
        cmocka_unit_test(a_saved_state_goes_on_to_the_bit),
        cmocka_unit_test(energy_is_kept_through_ten_thousand_stops),
        cmocka_unit_test(half_a_rotor_is_a_whole_one),
        cmocka_unit_test(face_and_pad_share_heat_by_their_contact),
        cmocka_unit_test(a_face_has_the_temperature_at_which_its_flows_meet),
        cmocka_unit_test(after_a_jump_the_first_step_is_the_one_that_fits),
        cmocka_unit_test(the_end_of_a_time_is_met_without_a_sliver),
        cmocka_unit_test(a_step_that_is_too_long_is_refused_and_counted),
        cmocka_unit_test(heat_spreads_over_all_parts),
        cmocka_unit_test(a_part_that_is_left_out_takes_no_heat),
        cmocka_unit_test(fluid_boils_at_the_least_allowed),
        cmocka_unit_test(extremes_are_finite_or_refused),
        cmocka_unit_test(a_drive_out_of_range_is_refused),
        cmocka_unit_test(a_brake_out_of_range_is_refused),
        cmocka_unit_test(cells_grow_from_the_rubbed_face),
        cmocka_unit_test(materials_are_sourced_and_usable),
        cmocka_unit_test(a_table_is_read_between_its_points),
        cmocka_unit_test(what_is_not_there_has_no_temperature),
        cmocka_unit_test(every_fluid_has_both_of_its_boiling_points),
        cmocka_unit_test(heat_that_is_lost_is_told_as_a_part_of_all),
        cmocka_unit_test(a_warm_brake_that_is_insulated_stays_warm),
        cmocka_unit_test(a_part_that_is_left_out_has_no_surface),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
