/* SPDX-License-Identifier: MIT */
/* A vehicle and its trailer. */
#include "near.h"

#include "brake/tow.h"

/* Momentum; UN R13-H, Annex 3, 2.1.2: the vehicle's brakes slow both masses. */
static void an_unbraked_trailer_dilutes_the_deceleration_by_mass(void **state)
{
    (void)state;
    assert_near(brake_tow_deceleration(2000.0, 6.0, 1000.0, 0.0, 1.0), 4.0, ROUNDING);
    /* Brakes of which none works are no brakes. */
    assert_near(brake_tow_deceleration(2000.0, 6.0, 1000.0, 0.5, 0.0), 4.0, ROUNDING);
}

static void a_trailer_that_brakes_as_the_vehicle_changes_nothing(void **state)
{
    (void)state;
    const double same = 6.0 / BRAKE_GRAVITY;
    assert_near(brake_tow_deceleration(2000.0, 6.0, 750.0, same, 1.0), 6.0, ROUNDING);
}

static void forces_of_both_slow_the_mass_of_both(void **state)
{
    (void)state;
    struct cases cases = {18};
    for (int i = 0; i < 500; i++) {
        const double mass = any_between(&cases, 800.0, 5000.0);
        const double trailer = any_between(&cases, 0.0, 3500.0);
        const double a = any_between(&cases, 0.0, 9.0);
        const double ratio = any_between(&cases, 0.0, 0.6);
        const double working = any_between(&cases, 0.0, 1.0);
        const double force = mass * a + working * ratio * trailer * BRAKE_GRAVITY;
        const double together = brake_tow_deceleration(mass, a, trailer, ratio, working);
        assert_near((mass + trailer) * together, force, ROUNDING);
        assert_between(together, fmin(a, working * ratio * BRAKE_GRAVITY) * (1.0 - 1e-12),
                       fmax(a, working * ratio * BRAKE_GRAVITY) * (1.0 + 1e-12));
    }
}

static void without_a_trailer_the_vehicle_stops_as_before(void **state)
{
    (void)state;
    assert_equal(brake_tow_deceleration(2000.0, 6.0, 0.0, 0.5, 1.0), 6.0);
    assert_nan(brake_tow_deceleration(2000.0, 6.0, BRAKE_NAN, 0.5, 1.0));
    assert_nan(brake_tow_deceleration(2000.0, 6.0, 500.0, BRAKE_NAN, 1.0));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_unbraked_trailer_dilutes_the_deceleration_by_mass),
        cmocka_unit_test(a_trailer_that_brakes_as_the_vehicle_changes_nothing),
        cmocka_unit_test(forces_of_both_slow_the_mass_of_both),
        cmocka_unit_test(without_a_trailer_the_vehicle_stops_as_before),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
