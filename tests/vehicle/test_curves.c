/* SPDX-License-Identifier: MIT */
/* Curves of the plain vehicle, worked out by hand in sheet.h: T_1 = 7.2 F, T_2 = 1.8 F, a = F/100
 * empty. */
#include "sheet.h"

#include "brake/curves.h"

static struct brake_sheet sheet;

/* F at the tyres: T/r - J a = 18 F - 125 F/100, 4.5 F - 1.25 F; m a = 2000 F/100 is their sum.
 * Load: (m g (L - x) + (m h + I/r) a) / L, I/r = 20/0.4 of each axle; adhesion is force over
 * load. */
static void a_pedal_force_gives_what_is_worked_out_by_hand(void **state)
{
    (void)state;
    static const double force[] = {0.0, 100.0, 400.0, -1.0, BRAKE_INFINITY, BRAKE_NAN};
    struct brake_curve_point point[6];
    read_sheet(&sheet, plain);
    brake_curves_at_force(&sheet.vehicle, BRAKE_EMPTY, BRAKE_INTACT, force, 6, point);
    for (int i = 0; i < 3; i++) {
        const double f = force[i];
        const double a = f / 100.0;
        const double front = (2000.0 * BRAKE_GRAVITY * 1.25 + (2000.0 * 0.8 + 100.0) * a) / 2.5;
        assert_within(point[i].deceleration, a, 1e-12);
        assert_within(point[i].torque[BRAKE_FRONT], 7.2 * f, 1e-9);
        assert_within(point[i].torque[BRAKE_REAR], 1.8 * f, 1e-9);
        assert_within(point[i].force[BRAKE_FRONT], 18.0 * f - 1.25 * f, 1e-9);
        assert_within(point[i].force[BRAKE_REAR], 4.5 * f - 1.25 * f, 1e-9);
        assert_within(point[i].load[BRAKE_FRONT], front, 1e-9);
        assert_within(point[i].load[BRAKE_REAR], 2000.0 * BRAKE_GRAVITY - front, 1e-9);
        assert_within(point[i].adhesion[BRAKE_FRONT], 16.75 * f / front, 1e-12);
        assert_equal(point[i].brake_pressure[BRAKE_FRONT], point[i].pressure);
    }
    for (int i = 3; i < 6; i++)
        assert_true(isnan(point[i].deceleration) && isnan(point[i].torque[BRAKE_REAR]));
}

static void a_deceleration_gives_the_same_point(void **state)
{
    (void)state;
    static const double deceleration[] = {1.0, 4.0};
    static const double force[] = {100.0, 400.0};
    struct brake_curve_point by_force[2], point[2];
    read_sheet(&sheet, plain);
    brake_curves_at_force(&sheet.vehicle, BRAKE_EMPTY, BRAKE_INTACT, force, 2, by_force);
    brake_curves_at_deceleration(&sheet.vehicle, BRAKE_EMPTY, BRAKE_INTACT, deceleration, 2, point);
    for (int i = 0; i < 2; i++) {
        assert_within(point[i].pedal_force, force[i], 1e-9);
        assert_within(point[i].pressure, by_force[i].pressure, 1e-6);
        assert_within(point[i].adhesion[BRAKE_REAR], by_force[i].adhesion[BRAKE_REAR], 1e-12);
    }
}

/* Front and rear on separate circuits: with one lost the other works alone. */
static void a_lost_circuit_has_no_pressure_and_no_torque(void **state)
{
    (void)state;
    static const double force[] = {200.0};
    struct brake_curve_point first, second;
    read_sheet(&sheet, plain);
    brake_curves_at_force(&sheet.vehicle, BRAKE_FULL, BRAKE_FIRST_CIRCUIT, force, 1, &first);
    brake_curves_at_force(&sheet.vehicle, BRAKE_FULL, BRAKE_SECOND_CIRCUIT, force, 1, &second);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const bool lost = first.torque[i] == 0.0;
        const struct brake_curve_point *with = lost ? &second : &first;
        const struct brake_curve_point *without = lost ? &first : &second;
        assert_equal(without->torque[i], 0.0);
        assert_equal(without->brake_pressure[i], 0.0);
        assert_equal(with->brake_pressure[i], with->pressure);
        assert_true(with->torque[i] > 0.0);
    }
    assert_true(first.torque[BRAKE_FRONT] * first.torque[BRAKE_REAR] == 0.0);
}

static void a_deceleration_out_of_reach_is_nowhere(void **state)
{
    (void)state;
    static const double deceleration[] = {BRAKE_INFINITY, BRAKE_NAN, 1.0};
    struct brake_curve_point point[3];
    read_sheet(&sheet, plain);
    brake_curves_at_deceleration(&sheet.vehicle, BRAKE_EMPTY, BRAKE_INTACT, deceleration, 3, point);
    for (int i = 0; i < 2; i++)
        assert_true(isnan(point[i].deceleration) && isnan(point[i].pedal_force));
    assert_within(point[2].pedal_force, 100.0, 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_pedal_force_gives_what_is_worked_out_by_hand),
        cmocka_unit_test(a_deceleration_gives_the_same_point),
        cmocka_unit_test(a_lost_circuit_has_no_pressure_and_no_torque),
        cmocka_unit_test(a_deceleration_out_of_reach_is_nowhere),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
