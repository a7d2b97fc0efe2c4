/* SPDX-License-Identifier: MIT */
/* Pedal, booster, valve, fluid, circuits. */
#include "near.h"

#include "brake/pedal.h"

static const struct brake_valve no_valve = {.knee = BRAKE_INFINITY, .slope = 1.0};

static void the_area_of_pistons_is_that_of_circles(void **state)
{
    (void)state;
    /* pi (50 mm)^2 / 4 = 1963.495 mm2 (geometry) */
    assert_near(brake_piston_area(1.0, 0.05), 1.9634954084936207e-3, ROUNDING);
    assert_near(brake_piston_area(4.0, 0.05), 4.0 * brake_piston_area(1.0, 0.05), ROUNDING);
    assert_equal(brake_piston_area(0.0, 0.05), 0.0);
    assert_nan(brake_piston_area(1.0, BRAKE_NAN));
}

/* Limpert, ch. 5: half the vacuum, half the assist. */
static void assist_goes_with_vacuum(void **state)
{
    (void)state;
    assert_near(brake_booster_assist(60e3, 0.04, 0.9), 2160.0, ROUNDING);
    assert_near(brake_booster_assist(30e3, 0.04, 0.9), 1080.0, ROUNDING);
    assert_equal(brake_booster_assist(0.0, 0.04, 0.9), 0.0);
    assert_nan(brake_booster_assist(BRAKE_NAN, 0.04, 0.9));
}

/* Esposito, Fluid Power with Applications, ch. on accumulators, from memory: a press takes 2,827
 * in3 from a gas accumulator charged to 3,000 psia over a precharge of 1,200 psia, and 1,800 psia
 * are left (Boyle). Of volumes 1/1200, 1/3000 and 1/1800 in turn: 4/9 of what is stored. */
static void an_accumulator_gives_what_its_gas_pushes_out(void **state)
{
    (void)state;
    const double psi = 6894.757293168361;
    const double stored = 1.0 / 1200.0 - 1.0 / 3000.0;
    const double drawn = (1.0 / 1800.0 - 1.0 / 3000.0) / stored;
    const double charged = 3000.0 * psi - BRAKE_ATMOSPHERE;
    const double precharge = 1200.0 * psi - BRAKE_ATMOSPHERE;
    assert_near(drawn, 4.0 / 9.0, ROUNDING);
    assert_near(brake_accumulator_pressure(charged, precharge, 1.0, drawn),
                1800.0 * psi - BRAKE_ATMOSPHERE, ROUNDING);
    /* Full, and with the oil out. */
    assert_near(brake_accumulator_pressure(charged, precharge, 1.4, 0.0), charged, ROUNDING);
    assert_near(brake_accumulator_pressure(charged, precharge, 1.4, 1.0), precharge, ROUNDING);
    assert_equal(brake_accumulator_pressure(charged, precharge, 1.4, 1.0 + 1e-9), 0.0);
    assert_nan(brake_accumulator_pressure(BRAKE_NAN, precharge, 1.4, 0.5));
    assert_nan(brake_accumulator_pressure(charged, precharge, 1.4, BRAKE_NAN));
}

/* First law: gas that gives heat to nobody does the work that its inner energy c_v T loses, so
 * that the work p dv over the way is (p_1 v_1 - p_2 v_2) / (n - 1). */
static void gas_that_expands_quickly_works_at_the_cost_of_its_heat(void **state)
{
    (void)state;
    enum { STEPS = 2000 };
    const double from = 9.5e6 + BRAKE_ATMOSPHERE;
    const double to = 4.5e6 + BRAKE_ATMOSPHERE;
    const double least = pow(to / from, 1.0 / 1.4);
    const double width = (1.0 - least) / STEPS;
    double work = 0.0;
    for (int i = 0; i < STEPS; i++)
        work += width * (BRAKE_ATMOSPHERE +
                         brake_accumulator_pressure(9.5e6, 4.5e6, 1.4, (i + 0.5) / STEPS));
    assert_near(work, (from * least - to) / 0.4, 1e-6); /* midpoints: error of order width^2 */
}

static void the_booster_multiplies_up_to_the_knee_and_adds_past_it(void **state)
{
    (void)state;
    const double gain = 4.0;
    const double assist = 1500.0;
    const double knee = brake_booster_knee(gain, assist);
    assert_near(knee, 500.0, ROUNDING); /* A / (i - 1), Limpert, ch. 5 */
    assert_near(brake_booster_output(gain, assist, 0.5 * knee), gain * 0.5 * knee, ROUNDING);
    assert_near(brake_booster_output(gain, assist, knee), gain * knee, ROUNDING);
    assert_near(brake_booster_output(gain, assist, 3.0 * knee), 3.0 * knee + assist, ROUNDING);
}

static void a_failed_booster_passes_the_force_on(void **state)
{
    (void)state;
    assert_near(brake_booster_output(4.0, 0.0, 700.0), 700.0, ROUNDING);
    assert_near(brake_booster_output(1.0, 0.0, 700.0), 700.0, ROUNDING);
    assert_equal(brake_booster_knee(4.0, 0.0), 0.0);
    /* Nothing to run out of where nothing is added. */
    assert_infinite(brake_booster_knee(1.0, 1500.0));
    assert_infinite(brake_booster_knee(1.0, 0.0));
    assert_near(brake_booster_knee(1.05, 100.0), 2000.0, ROUNDING); /* A / (i - 1) */
}

static void booster_input_and_output_undo_each_other(void **state)
{
    (void)state;
    static const double gains[] = {1.0, 1.5, 4.0, 9.0};
    static const double assists[] = {0.0, 400.0, 3000.0};
    for (size_t g = 0; g < sizeof gains / sizeof gains[0]; g++) {
        for (size_t a = 0; a < sizeof assists / sizeof assists[0]; a++) {
            for (double force = 0.0; force <= 4000.0; force += 62.5) {
                const double out = brake_booster_output(gains[g], assists[a], force);
                assert_near(brake_booster_input(gains[g], assists[a], out), force, ROUNDING);
                const double in = brake_booster_input(gains[g], assists[a], force);
                assert_near(brake_booster_output(gains[g], assists[a], in), force, ROUNDING);
            }
        }
    }
}

static void pedal_force_and_pressure_undo_each_other(void **state)
{
    (void)state;
    const struct brake_pedal pedal = {
        .ratio = 4.0,
        .efficiency = 0.9,
        .gain = 4.0,
        .assist = 2000.0,
        .master_area = 4e-4,
        .master_efficiency = 0.95,
    };
    for (double force = 0.0; force <= 1000.0; force += 12.5)
        assert_near(brake_pedal_force(&pedal, brake_pedal_pressure(&pedal, force)), force,
                    ROUNDING);
    /* 100 N x 4 x 0.9 = 360 N in, below the knee of 667 N; x 4 x 0.95 / 4 cm2 (Limpert, ch. 5) */
    assert_near(brake_pedal_pressure(&pedal, 100.0), 3.42e6, ROUNDING);
}

static void a_missing_value_cannot_come_out_as_a_force(void **state)
{
    (void)state;
    assert_nan(brake_booster_output(BRAKE_NAN, 1500.0, 500.0));
    assert_nan(brake_booster_output(4.0, BRAKE_NAN, 500.0));
    assert_nan(brake_booster_output(4.0, 1500.0, BRAKE_NAN));
    assert_nan(brake_booster_input(BRAKE_NAN, 1500.0, 500.0));
    assert_nan(brake_booster_input(4.0, BRAKE_NAN, 500.0));
    assert_nan(brake_booster_input(4.0, 1500.0, BRAKE_NAN));
    assert_nan(brake_booster_knee(BRAKE_NAN, 1500.0));
    assert_nan(brake_booster_knee(4.0, BRAKE_NAN));
    const struct brake_pedal pedal = {4.0, 0.9, 4.0, BRAKE_NAN, 4e-4, 1.0};
    assert_nan(brake_pedal_pressure(&pedal, 300.0));
    assert_nan(brake_pedal_force(&pedal, 5e6));
}

/* Limpert, ch. 7. */
static void the_valve_passes_up_to_its_knee_and_part_of_what_is_above(void **state)
{
    (void)state;
    const struct brake_valve valve = {.knee = 3e6, .slope = 0.4};
    assert_equal(brake_valve_pressure(valve, 2e6), 2e6);
    assert_equal(brake_valve_pressure(valve, 3e6), 3e6);
    assert_near(brake_valve_pressure(valve, 8e6), 5e6, ROUNDING);
    assert_equal(brake_valve_pressure(no_valve, 1e9), 1e9);
    assert_infinite(brake_valve_pressure(no_valve, BRAKE_INFINITY));
}

static void the_rear_never_gets_more_than_the_front_nor_less_at_more_pressure(void **state)
{
    (void)state;
    struct cases cases = {4};
    for (int i = 0; i < 500; i++) {
        const struct brake_valve valve = {any_between(&cases, 0.0, 8e6),
                                          any_between(&cases, 0.0, 1.0)};
        double last = 0.0;
        for (double pressure = 0.0; pressure <= 16e6; pressure += 0.5e6) {
            const double behind = brake_valve_pressure(valve, pressure);
            assert_between(behind, last, pressure);
            last = behind;
        }
    }
}

static void a_valve_with_a_missing_value_passes_nothing_usable(void **state)
{
    (void)state;
    const struct brake_valve no_knee = {BRAKE_NAN, 0.4};
    const struct brake_valve no_slope = {3e6, BRAKE_NAN};
    assert_nan(brake_valve_pressure(no_knee, 2e6));
    assert_nan(brake_valve_pressure(no_slope, 4e6));
    assert_nan(brake_valve_pressure(no_valve, BRAKE_NAN));
}

/* Spring balance: a lift c/g kilograms per metre looks like load taken off. */
static void a_lift_makes_a_load_sensing_valve_cut_earlier(void **state)
{
    (void)state;
    const double stiffness = 60e3;
    const double rate = 5e3;
    const double knee = brake_valve_knee_sensed(4e6, rate, 0.0, 0.0, stiffness);
    assert_near(knee, 4e6, ROUNDING);
    assert_near(brake_valve_knee_sensed(4e6, rate, 200.0, 0.0, stiffness), 5e6, ROUNDING);
    const double lifted = brake_valve_knee_sensed(4e6, rate, 0.0, 0.05, stiffness);
    assert_near(lifted, 4e6 - rate * 3000.0 / BRAKE_GRAVITY, ROUNDING);
    /* The load that the lift hides, put back on the bed, restores the knee. */
    assert_near(brake_valve_knee_sensed(4e6, rate, 3000.0 / BRAKE_GRAVITY, 0.05, stiffness), 4e6,
                ROUNDING);
    assert_equal(brake_valve_knee_sensed(4e6, rate, 0.0, 0.5, stiffness), 0.0);
    assert_nan(brake_valve_knee_sensed(BRAKE_NAN, rate, 0.0, 0.0, stiffness));
    assert_nan(brake_valve_knee_sensed(4e6, rate, 0.0, BRAKE_NAN, stiffness));
}

/* Geometry; Limpert, ch. 5: an axle has two wheels, each of two gaps or two shoes. */
static void closing_the_gaps_takes_area_times_travel(void **state)
{
    (void)state;
    assert_near(brake_fluid_gaps(2e-3, 0.25e-3), 2e-6, ROUNDING);
    assert_near(brake_fluid_shoes(3e-4, 1e-3), 1.2e-6, ROUNDING);
    assert_nan(brake_fluid_gaps(BRAKE_NAN, 1e-3));
    assert_nan(brake_fluid_shoes(3e-4, BRAKE_NAN));
}

static struct brake_fluid some_fluid(double compliance, double air)
{
    const struct brake_fluid fluid = {
        .gaps = 1.5e-6,
        .shoes = 0.8e-6,
        .take_up = 0.2e-6,
        .compliance = compliance,
        .seating = 1.5e7 * compliance, /* as calipers have it: 4/3 of 11 MPa */
        .hoses = compliance / 4.0,
        .air = air,
    };
    return fluid;
}

static void two_halves_of_a_ledger_make_the_whole(void **state)
{
    (void)state;
    const struct brake_fluid whole = {1e-6, 2e-6, 3e-6, 4e-13, 7e-6, 5e-13, 6e-6};
    const struct brake_fluid part = brake_fluid_share(whole, 0.25);
    const struct brake_fluid rest = brake_fluid_share(whole, 0.75);
    const struct brake_fluid again = brake_fluid_sum(part, rest);
    assert_near(part.hoses, 1.25e-13, ROUNDING);
    assert_near(again.gaps, whole.gaps, ROUNDING);
    assert_near(again.shoes, whole.shoes, ROUNDING);
    assert_near(again.take_up, whole.take_up, ROUNDING);
    assert_near(again.compliance, whole.compliance, ROUNDING);
    assert_near(again.seating, whole.seating, ROUNDING);
    assert_near(again.hoses, whole.hoses, ROUNDING);
    assert_near(again.air, whole.air, ROUNDING);
}

/* Boyle's law: at one atmosphere above the atmosphere free air has half its volume. */
static void air_is_half_gone_at_one_atmosphere(void **state)
{
    (void)state;
    const struct brake_fluid air = {.air = 4e-6};
    assert_near(brake_fluid_volume(&air, BRAKE_ATMOSPHERE), 2e-6, ROUNDING);
    assert_equal(brake_fluid_volume(&air, 0.0), 0.0);
    assert_near(brake_fluid_pressure(&air, 2e-6), BRAKE_ATMOSPHERE, ROUNDING);
}

/* A caliper of 1 cm3 at 100 bar: six tenths of it below 30 bar, and never a softer brake with
 * pressure. Common practice, no source. */
static void a_caliper_gives_way_early(void **state)
{
    (void)state;
    const struct brake_fluid pair = brake_fluid_calipers(1e-6);
    assert_near(brake_fluid_volume(&pair, 1e7), 2e-6, ROUNDING);
    assert_near(brake_fluid_volume(&pair, 3e6), 1.2e-6, ROUNDING);
    assert_near(brake_fluid_seated(&pair, 1e7), 8e-6 / 7.0, ROUNDING);
    double last = BRAKE_INFINITY;
    for (double p = 0.0; p < 20e6; p += 1e6) {
        const double taken = brake_fluid_volume(&pair, p + 1e6) - brake_fluid_volume(&pair, p);
        assert_true(taken < last);
        last = taken;
    }
    assert_nan(brake_fluid_volume(&(struct brake_fluid){.seating = BRAKE_NAN}, 1e6));
}

static void fluid_volume_and_pressure_undo_each_other(void **state)
{
    (void)state;
    static const double compliances[] = {0.0, 1e-14, 4e-13, 2e-12};
    static const double airs[] = {0.0, 1e-9, 1e-6, 5e-6};
    for (size_t c = 0; c < sizeof compliances / sizeof compliances[0]; c++) {
        for (size_t a = 0; a < sizeof airs / sizeof airs[0]; a++) {
            if (compliances[c] == 0.0 && airs[a] == 0.0)
                continue; /* rigid: no pressure belongs to a volume */
            const struct brake_fluid fluid = some_fluid(compliances[c], airs[a]);
            for (double pressure = 0.05e6; pressure <= 16e6; pressure *= 1.25) {
                const double volume = brake_fluid_volume(&fluid, pressure);
                /* The volume is the sum of figures of which pressure moves the last digits only:
                 * its rounding, over its slope in pressure, is the error that is left. */
                const double total = pressure + BRAKE_ATMOSPHERE;
                const double slope = fluid.compliance + fluid.hoses +
                                     fluid.seating * 1e6 / ((pressure + 1e6) * (pressure + 1e6)) +
                                     fluid.air * BRAKE_ATMOSPHERE / (total * total);
                const double rounding = 4.0 * 2.3e-16 * volume / slope;
                assert_within(brake_fluid_pressure(&fluid, volume), pressure,
                              rounding + 1e-14 * pressure);
            }
        }
    }
}

static void a_volume_that_does_not_close_the_gaps_gives_no_pressure(void **state)
{
    (void)state;
    const struct brake_fluid fluid = some_fluid(4e-13, 1e-6);
    assert_equal(brake_fluid_pressure(&fluid, 0.0), 0.0);
    assert_equal(brake_fluid_pressure(&fluid, 2.4e-6), 0.0);
    assert_true(brake_fluid_pressure(&fluid, 2.6e-6) > 0.0);
}

/* Given air or calipers without gaps and a volume so small that the first digits of Boyle's law or
 * of the seating do, its pressure is found as that of a large one is: down to 1 mPa. */
static void the_least_pressure_is_found_too(void **state)
{
    (void)state;
    const struct brake_fluid air = {.air = 1e-6};
    const struct brake_fluid pair = brake_fluid_calipers(1e-6);
    for (double pressure = 1e-3; pressure < 1e4; pressure *= 10.0) {
        assert_near(brake_fluid_pressure(&air, 1e-6 * pressure / (pressure + BRAKE_ATMOSPHERE)),
                    pressure, ROUNDING);
        assert_near(brake_fluid_pressure(&pair, brake_fluid_volume(&pair, pressure)), pressure,
                    ROUNDING);
    }
}

static void a_rigid_circuit_takes_any_pressure(void **state)
{
    (void)state;
    const struct brake_fluid rigid = some_fluid(0.0, 0.0);
    assert_infinite(brake_fluid_pressure(&rigid, 3e-6));
    const struct brake_fluid gaps_only = {.gaps = 1e-6};
    assert_equal(brake_fluid_pressure(&gaps_only, 1e-6), 0.0);
    /* Air alone: pressure grows without bound as the last of it is squeezed. */
    const struct brake_fluid air = {.air = 1e-6};
    assert_infinite(brake_fluid_pressure(&air, 1e-6));
    assert_infinite(brake_fluid_pressure(&air, 2e-6));
}

static void a_ledger_with_a_missing_term_gives_no_pressure(void **state)
{
    (void)state;
    struct brake_fluid fluid = some_fluid(4e-13, 1e-6);
    fluid.shoes = BRAKE_NAN;
    assert_nan(brake_fluid_pressure(&fluid, 5e-6));
    assert_nan(brake_fluid_volume(&fluid, 5e6));
    fluid = some_fluid(BRAKE_NAN, 1e-6);
    assert_nan(brake_fluid_pressure(&fluid, 5e-6));
    fluid = some_fluid(0.0, 0.0);
    assert_nan(brake_fluid_pressure(&fluid, BRAKE_NAN));
}

static void two_circuits_together_are_the_whole_brake(void **state)
{
    (void)state;
    for (int split = BRAKE_SPLIT_II; split <= BRAKE_SPLIT_ONE; split++) {
        for (int axle = 0; axle < BRAKE_AXLES; axle++) {
            const struct brake_share first =
                brake_split_share((enum brake_split)split, 0, (enum brake_axle)axle);
            const struct brake_share second =
                brake_split_share((enum brake_split)split, 1, (enum brake_axle)axle);
            assert_equal(first.torque + second.torque, 1.0);
            /* Circuits may work on the same wheel; none may be left out. */
            assert_true(first.wheels + second.wheels >= 1.0);
            /* Torque without a braked wheel, or a braked wheel without torque, is nonsense. */
            assert_int_equal(first.torque > 0.0, first.wheels > 0.0);
            assert_int_equal(second.torque > 0.0, second.wheels > 0.0);
        }
    }
}

/* DIN 74000 (from memory); ONE is not of the norm. */
static void what_each_circuit_works_is_that_of_the_norm(void **state)
{
    (void)state;
    static const struct {
        enum brake_split split;
        double works[2][BRAKE_AXLES][2]; /* circuit, axle: torque, wheels */
    } expected[] = {
        {BRAKE_SPLIT_II, {{{1.0, 1.0}, {0.0, 0.0}}, {{0.0, 0.0}, {1.0, 1.0}}}},
        {BRAKE_SPLIT_X, {{{0.5, 0.5}, {0.5, 0.5}}, {{0.5, 0.5}, {0.5, 0.5}}}},
        {BRAKE_SPLIT_HI, {{{0.5, 1.0}, {1.0, 1.0}}, {{0.5, 1.0}, {0.0, 0.0}}}},
        {BRAKE_SPLIT_LL, {{{0.5, 1.0}, {0.5, 0.5}}, {{0.5, 1.0}, {0.5, 0.5}}}},
        {BRAKE_SPLIT_HH, {{{0.5, 1.0}, {0.5, 1.0}}, {{0.5, 1.0}, {0.5, 1.0}}}},
        {BRAKE_SPLIT_ONE, {{{1.0, 1.0}, {1.0, 1.0}}, {{0.0, 0.0}, {0.0, 0.0}}}},
    };
    for (size_t i = 0; i < sizeof expected / sizeof expected[0]; i++) {
        for (int circuit = 0; circuit < 2; circuit++) {
            for (int axle = 0; axle < BRAKE_AXLES; axle++) {
                const struct brake_share share =
                    brake_split_share(expected[i].split, circuit, (enum brake_axle)axle);
                assert_equal(share.torque, expected[i].works[circuit][axle][0]);
                assert_equal(share.wheels, expected[i].works[circuit][axle][1]);
            }
        }
    }
}

/* A number past the table was the end of the process that asked. */
static void what_is_no_split_circuit_or_axle_works_nothing_known(void **state)
{
    (void)state;
    const struct {
        int split, circuit, axle;
    } wrong[] = {{-1, 0, 0}, {BRAKE_SPLIT_ONE + 1, 0, 0}, {0, -1, 0}, {0, 2, 0}, {0, 0, 2}};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        const struct brake_share share = brake_split_share(
            (enum brake_split)wrong[i].split, wrong[i].circuit, (enum brake_axle)wrong[i].axle);
        assert_true(isnan(share.torque) && isnan(share.wheels));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_no_split_circuit_or_axle_works_nothing_known),
        cmocka_unit_test(the_area_of_pistons_is_that_of_circles),
        cmocka_unit_test(assist_goes_with_vacuum),
        cmocka_unit_test(an_accumulator_gives_what_its_gas_pushes_out),
        cmocka_unit_test(gas_that_expands_quickly_works_at_the_cost_of_its_heat),
        cmocka_unit_test(the_booster_multiplies_up_to_the_knee_and_adds_past_it),
        cmocka_unit_test(a_failed_booster_passes_the_force_on),
        cmocka_unit_test(booster_input_and_output_undo_each_other),
        cmocka_unit_test(pedal_force_and_pressure_undo_each_other),
        cmocka_unit_test(a_missing_value_cannot_come_out_as_a_force),
        cmocka_unit_test(the_valve_passes_up_to_its_knee_and_part_of_what_is_above),
        cmocka_unit_test(the_rear_never_gets_more_than_the_front_nor_less_at_more_pressure),
        cmocka_unit_test(a_valve_with_a_missing_value_passes_nothing_usable),
        cmocka_unit_test(a_lift_makes_a_load_sensing_valve_cut_earlier),
        cmocka_unit_test(closing_the_gaps_takes_area_times_travel),
        cmocka_unit_test(two_halves_of_a_ledger_make_the_whole),
        cmocka_unit_test(air_is_half_gone_at_one_atmosphere),
        cmocka_unit_test(a_caliper_gives_way_early),
        cmocka_unit_test(fluid_volume_and_pressure_undo_each_other),
        cmocka_unit_test(a_volume_that_does_not_close_the_gaps_gives_no_pressure),
        cmocka_unit_test(the_least_pressure_is_found_too),
        cmocka_unit_test(a_rigid_circuit_takes_any_pressure),
        cmocka_unit_test(a_ledger_with_a_missing_term_gives_no_pressure),
        cmocka_unit_test(two_circuits_together_are_the_whole_brake),
        cmocka_unit_test(what_each_circuit_works_is_that_of_the_norm),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
