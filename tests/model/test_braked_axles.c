/* SPDX-License-Identifier: MIT */
/* What the brakes of each axle do at an instant: equilibrium by hand. 1000 N*m a MPa in front, 250
 * at the rear, less 0.1 MPa; wheels of 0.4 m. */
#include "near.h"

#include "model/braked_axles.h"

static struct brake_rig rig;
static struct brake_braked_axle axle[BRAKE_AXLES];

static void start(void)
{
    rig = (struct brake_rig){
        .balance = {.body = {.mass = 2000.0, .behind = 1.2, .height = 0.5},
                    .wheelbase = 2.5,
                    .axle = {{.gain = 1e-3, .threshold = 1e5, .radius = 0.4, .wheels = 1.0},
                             {.gain = 2.5e-4, .threshold = 1e5, .radius = 0.4, .wheels = 1.0}},
                    .valve = {.knee = BRAKE_INFINITY, .slope = 1.0}},
        .adhesion = 50.0,
        .law = {{.mu = 0.4, .power = 1.0}, {.mu = 0.4, .power = 1.0}}};
}

static void ask(double pressure)
{
    const struct brake_braking at = {.pressure = pressure, .speed = 20.0, .friction = {0.2, 0.4}};
    brake_braked_axles(&rig, &at, axle);
}

static void brakes_that_are_off_do_nothing(void **state)
{
    (void)state;
    start();
    ask(0.0);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        assert_equal(axle[i].pressure, 0.0);
        assert_equal(axle[i].torque, 0.0);
        assert_equal(axle[i].force, 0.0);
    }
}

static void torque_and_force_follow_from_the_pressure(void **state)
{
    (void)state;
    start();
    ask(4e6);
    assert_near(axle[BRAKE_FRONT].pressure, 4e6, ROUNDING);
    assert_near(axle[BRAKE_REAR].pressure, 4e6, ROUNDING);
    assert_near(axle[BRAKE_FRONT].torque, 3900.0, ROUNDING);
    assert_near(axle[BRAKE_REAR].torque, 975.0, ROUNDING);
    assert_near(axle[BRAKE_FRONT].force, 3900.0 / 0.4, ROUNDING);
}

/* Wheels that slow down take a part of the torque: F r = T - I a / r; what turns with both axles is
 * slowed too, so a = F r / (m r^2 + 2 I) r. */
static void wheels_that_turn_take_part_of_the_torque(void **state)
{
    (void)state;
    start();
    rig.balance.axle[BRAKE_FRONT].inertia = 4.0;
    rig.balance.axle[BRAKE_REAR].inertia = 4.0;
    ask(4e6);
    const double deceleration = 4875.0 / 0.4 / (2000.0 + 8.0 / 0.16);
    assert_near(axle[BRAKE_FRONT].torque, 3900.0, 1e-9);
    assert_near(axle[BRAKE_FRONT].force, 3900.0 / 0.4 - 4.0 / 0.16 * deceleration, 1e-9);
    assert_near(axle[BRAKE_REAR].force, 975.0 / 0.4 - 4.0 / 0.16 * deceleration, 1e-9);
}

/* 0.4 of what goes past the knee. */
static void the_rear_has_the_pressure_behind_its_valve(void **state)
{
    (void)state;
    start();
    rig.balance.valve = (struct brake_valve){.knee = 3e6, .slope = 0.4};
    ask(4e6);
    assert_near(axle[BRAKE_FRONT].pressure, 4e6, ROUNDING);
    assert_near(axle[BRAKE_REAR].pressure, 3.4e6, ROUNDING);
    assert_near(axle[BRAKE_REAR].torque, 825.0, 1e-9);
    ask(2e6);
    assert_near(axle[BRAKE_REAR].pressure, 2e6, ROUNDING);
}

/* Between 2 and 5 MPa a half of the front, a quarter of the rear, gets no more: the mean of both
 * circuits lags by that part of what has gone past 2 MPa. The rear counts it behind the valve. */
static void a_chamber_that_ends_holds_its_part(void **state)
{
    (void)state;
    static const struct {
        double pressure, front, rear;
    } cases[] = {
        {1e6, 1e6, 1e6}, {4e6, 3e6, 3.4e6 - 0.25 * 1.4e6}, {8e6, 6.5e6, 5e6 - 0.25 * 1.8e6}};
    start();
    rig.balance.valve = (struct brake_valve){.knee = 3e6, .slope = 0.4};
    rig.balance.hold = (struct brake_hold){.from = 2e6, .to = 5e6};
    rig.balance.axle[BRAKE_FRONT].held = 0.5;
    rig.balance.axle[BRAKE_REAR].held = 0.25;
    for (int i = 0; i < 3; i++) {
        ask(cases[i].pressure);
        assert_near(axle[BRAKE_FRONT].pressure, cases[i].front, ROUNDING);
        assert_near(axle[BRAKE_REAR].pressure, cases[i].rear, ROUNDING);
    }
}

/* Half of the friction gives half of the torque, where friction follows heat. */
static void friction_that_has_fallen_gives_less_torque(void **state)
{
    (void)state;
    static const struct brake_friction friction;
    static const struct brake_thermal thermal;
    start();
    ask(4e6);
    assert_near(axle[BRAKE_FRONT].torque, 3900.0, ROUNDING);
    rig.friction[BRAKE_FRONT] = &friction;
    ask(4e6);
    assert_near(axle[BRAKE_FRONT].torque, 3900.0, ROUNDING); /* without heat it stays */
    rig.thermal[BRAKE_FRONT] = &thermal;
    ask(4e6);
    assert_near(axle[BRAKE_FRONT].torque, 1950.0, ROUNDING);
    assert_near(axle[BRAKE_FRONT].pressure, 4e6, ROUNDING);
    assert_near(axle[BRAKE_REAR].torque, 975.0, ROUNDING);
}

/* An anti-lock lets go what the road does not take: the brakes get the pressure of their torque. */
static void what_lets_go_lowers_the_pressure_with_the_torque(void **state)
{
    (void)state;
    start();
    rig.antilock = 1.0;
    rig.adhesion = 0.3;
    ask(8e6);
    const double weight = 2000.0 * BRAKE_GRAVITY;
    assert_near(axle[BRAKE_FRONT].force + axle[BRAKE_REAR].force, 0.3 * weight, 1e-6);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        assert_near(axle[i].torque, 0.4 * axle[i].force, 1e-9);
        assert_near(axle[i].pressure, 1e5 + axle[i].torque / rig.balance.axle[i].gain, 1e-9);
    }
}

/* As wheels_that_turn_take_part_of_the_torque: an engine that turns with them is slowed as well. */
static void an_engine_in_gear_takes_part_of_the_torque(void **state)
{
    (void)state;
    start();
    rig.balance.axle[BRAKE_FRONT].inertia = 4.0;
    rig.balance.axle[BRAKE_REAR].inertia = 1.0;
    rig.balance.axle[BRAKE_REAR].geared = 3.0;
    ask(4e6);
    const double deceleration = 4875.0 / 0.4 / (2000.0 + 8.0 / 0.16);
    assert_near(axle[BRAKE_REAR].torque, 975.0, 1e-9);
    assert_near(axle[BRAKE_REAR].force, 975.0 / 0.4 - 4.0 / 0.16 * deceleration, 1e-9);
}

/* A pascal is less than what brings a pad to bear, and not nothing. */
static void the_least_pressure_is_told(void **state)
{
    (void)state;
    start();
    ask(1.0);
    assert_equal(axle[BRAKE_FRONT].pressure, 1.0);
    assert_equal(axle[BRAKE_FRONT].torque, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(brakes_that_are_off_do_nothing),
        cmocka_unit_test(torque_and_force_follow_from_the_pressure),
        cmocka_unit_test(wheels_that_turn_take_part_of_the_torque),
        cmocka_unit_test(the_rear_has_the_pressure_behind_its_valve),
        cmocka_unit_test(a_chamber_that_ends_holds_its_part),
        cmocka_unit_test(friction_that_has_fallen_gives_less_torque),
        cmocka_unit_test(what_lets_go_lowers_the_pressure_with_the_torque),
        cmocka_unit_test(an_engine_in_gear_takes_part_of_the_torque),
        cmocka_unit_test(the_least_pressure_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
