/* SPDX-License-Identifier: MIT */
/* Closed-form heat. */
#include "near.h"

#include "brake/heat.h"

static const struct brake_solid iron = {
    .conductivity = 50.0, .density = 7200.0, .heat_capacity = 450.0};
static const struct brake_solid lining = {
    .conductivity = 1.5, .density = 2600.0, .heat_capacity = 1000.0};
static const struct brake_slab half_rotor = {.solid = {50.0, 7200.0, 450.0}, .thickness = 0.0125};

static double volume_heat(struct brake_solid solid)
{
    return solid.density * solid.heat_capacity;
}

/* Definitions: e = sqrt(k rho c), al = k / (rho c); so e sqrt(al) = k. */
static void effusivity_and_diffusivity_make_the_conductivity(void **state)
{
    (void)state;
    const struct brake_solid round = {4.0, 5.0, 20.0};
    assert_near(brake_effusivity(round), 20.0, ROUNDING);
    assert_near(brake_diffusivity(round), 0.04, ROUNDING);
    assert_near(brake_effusivity(iron) * sqrt(brake_diffusivity(iron)), iron.conductivity,
                ROUNDING);
}

/* Limpert, ch. 3. */
static void heat_goes_where_it_is_drawn_more_strongly(void **state)
{
    (void)state;
    assert_near(brake_heat_share(iron, iron, 1.0), 0.5, ROUNDING);
    assert_near(brake_heat_share(iron, lining, 1.0) + brake_heat_share(lining, iron, 1.0), 1.0,
                ROUNDING);
    /* Smaller pads draw less; none at all leave everything to the rotor. */
    assert_true(brake_heat_share(iron, lining, 0.2) > brake_heat_share(iron, lining, 1.0));
    assert_equal(brake_heat_share(iron, lining, 0.0), 1.0);
}

/* Carslaw and Jaeger, sec. 2.9: 2 q sqrt(t / pi) / e at the surface. */
static void the_surface_of_a_half_space_warms_with_the_root_of_time(void **state)
{
    (void)state;
    const double flux = 1e6;
    const double at_1 = brake_half_space_rise(iron, flux, 1.0, 0.0);
    assert_near(at_1, 2.0 * flux / (sqrt(BRAKE_PI) * brake_effusivity(iron)), ROUNDING);
    assert_near(brake_half_space_rise(iron, flux, 4.0, 0.0), 2.0 * at_1, ROUNDING);
    assert_near(brake_half_space_rise(iron, 3.0 * flux, 1.0, 0.0), 3.0 * at_1, ROUNDING);
    assert_equal(brake_half_space_rise(iron, flux, 0.0, 0.01), 0.0);
    assert_within(brake_half_space_rise(iron, flux, 1.0, 1.0), 0.0, 1e-100);
}

/* Fourier's law at the surface and conservation below it. */
static void what_flows_in_is_what_the_half_space_holds(void **state)
{
    (void)state;
    const double flux = 2e6;
    const double time = 3.0;
    const double step = 1e-6;
    const double slope = (brake_half_space_rise(iron, flux, time, step) -
                          brake_half_space_rise(iron, flux, time, 0.0)) /
                         step;
    assert_near(-iron.conductivity * slope, flux, 1e-3);

    const int cells = 400;
    const double depth = 0.1; /* 15 sqrt(al t): nothing beyond */
    double held = 0.0;
    for (int i = 0; i <= cells; i++) {
        const double weight = i == 0 || i == cells ? 1.0 : (i % 2 ? 4.0 : 2.0);
        held += weight * brake_half_space_rise(iron, flux, time, depth * i / cells);
    }
    held *= volume_heat(iron) * depth / (3.0 * cells);
    assert_near(held, flux * time, 1e-7);
}

/* Rise under a flux that falls linearly, from that under a constant one by Duhamel's integral: a
 * constant flux less one that begins anew in every instant. With t - s = w^2 the integrand is even
 * and smooth in w. */
static double by_superposition(double (*constant)(double time), double time, double duration)
{
    const int cells = 2000;
    const double root = sqrt(time);
    double integral = 0.0;
    for (int i = 1; i <= cells; i++) { /* nothing at w = 0 */
        const double weight = i == cells ? 1.0 : (i % 2 ? 4.0 : 2.0);
        const double w = root * i / cells;
        integral += weight * constant(w * w) * 2.0 * w;
    }
    integral *= root / (3.0 * cells);
    return constant(time) - integral / duration;
}

static double half_space_face(double time)
{
    return brake_half_space_rise(iron, 1.0, time, 0.0);
}

static double slab_face(double time)
{
    return brake_slab_rise(&half_rotor, 1.0, time, 0.0);
}

static void a_falling_flux_is_a_superposition_of_constant_ones(void **state)
{
    (void)state;
    const double duration = 4.0;
    for (double time = 0.5; time <= duration; time += 0.5) {
        assert_near(brake_falling_flux_rise(iron, 1.0, time, duration),
                    by_superposition(half_space_face, time, duration), 1e-10);
        assert_near(brake_slab_falling_rise(&half_rotor, 1.0, time, duration),
                    by_superposition(slab_face, time, duration), 1e-10);
    }
}

/* Newcomb 1960: the flux has halved when the surface is hottest. */
static void the_surface_is_hottest_half_way_through_the_stop(void **state)
{
    (void)state;
    const double most = brake_falling_flux_rise(iron, 4e6, 2.0, 4.0);
    for (double time = 0.1; time <= 4.0; time += 0.1)
        assert_true(brake_falling_flux_rise(iron, 4e6, time, 4.0) <= most * (1.0 + 1e-15));
    assert_equal(brake_falling_flux_rise(iron, 4e6, 0.0, 4.0), 0.0);
    /* A flux that falls over a very long time is a constant one. */
    assert_near(brake_falling_flux_rise(iron, 4e6, 1.0, 1e12),
                brake_half_space_rise(iron, 4e6, 1.0, 0.0), 1e-11);
}

static void a_slab_holds_what_flowed_in(void **state)
{
    (void)state;
    const double flux = 1e6;
    for (double time = 0.01; time < 30.0; time *= 2.0) {
        const int cells = 1000;
        double held = 0.0;
        for (int i = 0; i <= cells; i++) {
            const double weight = i == 0 || i == cells ? 1.0 : (i % 2 ? 4.0 : 2.0);
            const double depth = half_rotor.thickness * i / cells;
            held += weight * brake_slab_rise(&half_rotor, flux, time, depth);
        }
        held *= volume_heat(iron) * half_rotor.thickness / (3.0 * cells);
        assert_near(held, flux * time, 1e-8);
    }
}

static void a_slab_is_a_half_space_until_the_heat_gets_through(void **state)
{
    (void)state;
    const double time = 0.1; /* al t / l^2 = 0.01 */
    for (double depth = 0.0; depth < 0.3 * half_rotor.thickness; depth += 0.0005)
        assert_near(brake_slab_rise(&half_rotor, 1e6, time, depth),
                    brake_half_space_rise(iron, 1e6, time, depth), 1e-9);
    assert_near(brake_slab_falling_rise(&half_rotor, 1e6, time, 4.0),
                brake_falling_flux_rise(iron, 1e6, time, 4.0), 1e-9);
}

/* Carslaw and Jaeger, sec. 3.8: in the end the profile stays and all of it rises together, with
 * q l / (3 k) between face and mean and q l / (6 k) between mean and back. */
static void a_slab_heated_for_long_keeps_its_profile(void **state)
{
    (void)state;
    const double flux = 1e6;
    const double time = 200.0;
    const double mean = flux * time / (volume_heat(iron) * half_rotor.thickness);
    const double scale = flux * half_rotor.thickness / iron.conductivity;
    assert_near(brake_slab_rise(&half_rotor, flux, time, 0.0) - mean, scale / 3.0, 1e-10);
    assert_near(mean - brake_slab_rise(&half_rotor, flux, time, half_rotor.thickness), scale / 6.0,
                1e-10);
}

static void no_heat_has_come_in_at_time_zero_and_none_is_known_before(void **state)
{
    (void)state;
    assert_equal(brake_slab_rise(&half_rotor, 1e6, 0.0, 0.0), 0.0);
    assert_equal(brake_slab_falling_rise(&half_rotor, 1e6, 0.0, 4.0), 0.0);
    assert_nan(brake_slab_rise(&half_rotor, 1e6, -1.0, 0.0));
    assert_nan(brake_slab_falling_rise(&half_rotor, 1e6, -1.0, 4.0));
    /* And a moment after it is warm at the face only. */
    assert_near(brake_slab_rise(&half_rotor, 1e6, 1e-6, 0.0),
                brake_half_space_rise(iron, 1e6, 1e-6, 0.0), 1e-6);
}

/* Geometric series, term by term (Limpert, ch. 3). */
static void every_stop_adds_its_rise_to_what_the_last_left(void **state)
{
    (void)state;
    const double left = exp(-60.0 * 0.002);
    double rise = 0.0;
    for (int stop = 1; stop <= 50; stop++) {
        rise = rise * left + 30.0;
        assert_near(brake_repeated_rise(30.0, stop, 60.0, 0.002), rise, ROUNDING);
    }
    assert_equal(brake_repeated_rise(30.0, 0.0, 60.0, 0.002), 0.0);
}

static void without_cooling_rises_add_up(void **state)
{
    (void)state;
    assert_near(brake_repeated_rise(30.0, 10.0, 60.0, 0.0), 300.0, ROUNDING);
    assert_near(brake_repeated_rise(30.0, 10.0, 0.0, 0.002), 300.0, ROUNDING);
    assert_near(brake_repeated_rise(30.0, 10.0, 60.0, 1e-12), 300.0, 1e-8);
    assert_near(brake_lump_rise(2e3, 0.0, 4e3, 60.0), 30.0, ROUNDING);
    assert_near(brake_lump_rise(2e3, 1e-10, 4e3, 60.0), 30.0, 1e-10);
}

/* C dT/dt = P - G T, by central differences. */
static void a_lump_warms_by_what_it_does_not_shed(void **state)
{
    (void)state;
    const double power = 4e3;
    const double conductance = 16.0;
    const double capacity = 3.6e3;
    for (double time = 10.0; time < 1000.0; time += 50.0) {
        const double step = 0.01;
        const double rate = (brake_lump_rise(power, conductance, capacity, time + step) -
                             brake_lump_rise(power, conductance, capacity, time - step)) /
                            (2.0 * step);
        const double rise = brake_lump_rise(power, conductance, capacity, time);
        assert_within(capacity * rate, power - conductance * rise, 1e-6 * power);
    }
    assert_equal(brake_lump_rise(power, conductance, capacity, 0.0), 0.0);
    assert_near(brake_lump_rise(power, conductance, capacity, 1e6), power / conductance, ROUNDING);
}

/* Holman, sec. 4-2: what lags behind the end temperature decays as a cooling lump. */
static void cooling_takes_as_long_as_the_missing_part_of_warming(void **state)
{
    (void)state;
    const double rate = 16.0 / 3.6e3;
    const double end = 250.0;
    const double rise = brake_lump_rise(end * 16.0, 16.0, 3.6e3, 300.0);
    assert_near(brake_cooling_time(end, end - rise, rate), 300.0, ROUNDING);
    assert_equal(brake_cooling_time(100.0, 100.0, rate), 0.0);
    assert_infinite(brake_cooling_time(100.0, 0.0, rate));
}

/* Definition of a power law. */
static void the_cooling_exponent_is_that_of_the_law_behind_two_points(void **state)
{
    (void)state;
    const double slow = 12.0 * pow(5.0, 0.8);
    const double fast = 12.0 * pow(30.0, 0.8);
    assert_near(brake_cooling_exponent(5.0, 30.0, slow, fast), 0.8, ROUNDING);
    assert_near(brake_cooling_exponent(30.0, 5.0, fast, slow), 0.8, ROUNDING);
    assert_equal(brake_cooling_exponent(5.0, 30.0, slow, slow), 0.0);
    assert_nan(brake_cooling_exponent(5.0, 30.0, BRAKE_NAN, fast));
}

/* Hooke's law; Timoshenko and Goodier, ch. 13. */
static void a_hot_skin_held_in_two_axes_is_stressed_more_than_a_held_bar(void **state)
{
    (void)state;
    assert_near(brake_thermal_stress(100e9, 11e-6, 0.0, 100.0), 110e6, ROUNDING);
    assert_near(brake_thermal_stress(100e9, 11e-6, 0.25, 100.0), 110e6 / 0.75, ROUNDING);
    assert_equal(brake_thermal_stress(100e9, 11e-6, 0.25, 0.0), 0.0);
}

static void a_missing_value_gives_no_temperature(void **state)
{
    (void)state;
    struct brake_solid unknown = iron;
    unknown.conductivity = BRAKE_NAN;
    const struct brake_slab slab = {unknown, 0.0125};
    assert_nan(brake_effusivity(unknown));
    assert_nan(brake_diffusivity(unknown));
    assert_nan(brake_heat_share(unknown, lining, 1.0));
    assert_nan(brake_heat_share(iron, unknown, 1.0));
    assert_nan(brake_half_space_rise(unknown, 1e6, 1.0, 0.0));
    assert_nan(brake_falling_flux_rise(unknown, 1e6, 1.0, 4.0));
    assert_nan(brake_slab_rise(&slab, 1e6, 1.0, 0.0));
    assert_nan(brake_slab_falling_rise(&slab, 1e6, 1.0, 4.0));
    assert_nan(brake_slab_rise(&half_rotor, 1e6, BRAKE_NAN, 0.0));
    assert_nan(brake_slab_rise(&half_rotor, 1e6, 1.0, BRAKE_NAN));
    assert_nan(brake_slab_falling_rise(&half_rotor, 1e6, BRAKE_NAN, 4.0));
    assert_nan(brake_repeated_rise(30.0, 10.0, BRAKE_NAN, 0.002));
    assert_nan(brake_lump_rise(2e3, BRAKE_NAN, 4e3, 60.0));
    assert_nan(brake_cooling_time(BRAKE_NAN, 50.0, 0.002));
    assert_nan(brake_thermal_stress(100e9, 11e-6, BRAKE_NAN, 100.0));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(effusivity_and_diffusivity_make_the_conductivity),
        cmocka_unit_test(heat_goes_where_it_is_drawn_more_strongly),
        cmocka_unit_test(the_surface_of_a_half_space_warms_with_the_root_of_time),
        cmocka_unit_test(what_flows_in_is_what_the_half_space_holds),
        cmocka_unit_test(a_falling_flux_is_a_superposition_of_constant_ones),
        cmocka_unit_test(the_surface_is_hottest_half_way_through_the_stop),
        cmocka_unit_test(a_slab_holds_what_flowed_in),
        cmocka_unit_test(a_slab_is_a_half_space_until_the_heat_gets_through),
        cmocka_unit_test(a_slab_heated_for_long_keeps_its_profile),
        cmocka_unit_test(no_heat_has_come_in_at_time_zero_and_none_is_known_before),
        cmocka_unit_test(every_stop_adds_its_rise_to_what_the_last_left),
        cmocka_unit_test(without_cooling_rises_add_up),
        cmocka_unit_test(a_lump_warms_by_what_it_does_not_shed),
        cmocka_unit_test(cooling_takes_as_long_as_the_missing_part_of_warming),
        cmocka_unit_test(the_cooling_exponent_is_that_of_the_law_behind_two_points),
        cmocka_unit_test(a_hot_skin_held_in_two_axes_is_stressed_more_than_a_held_bar),
        cmocka_unit_test(a_missing_value_gives_no_temperature),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
