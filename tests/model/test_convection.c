/* SPDX-License-Identifier: MIT */
/* Cooling by air. */
#include "near.h"

#include "brake/convection.h"
#include "brake/heat.h"

static const double SEA = BRAKE_ATMOSPHERE;

/* Incropera and DeWitt, table A.4. */
static void air_is_that_of_the_tables(void **state)
{
    (void)state;
    static const struct {
        double temperature;
        double conductivity;
        double viscosity;
    } table[] = {
        {250.0, 0.0223, 11.44e-6}, {300.0, 0.0263, 15.89e-6}, {400.0, 0.0338, 26.41e-6},
        {500.0, 0.0407, 38.79e-6}, {600.0, 0.0469, 52.69e-6}, {800.0, 0.0573, 84.93e-6},
    };
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        const struct brake_air air = brake_air_at(table[i].temperature, SEA);
        assert_near(air.conductivity, table[i].conductivity, 0.03);
        assert_near(air.viscosity, table[i].viscosity, 0.035);
    }
    /* Thin air of half the pressure is twice as viscous by mass, and conducts alike. */
    const struct brake_air high = brake_air_at(300.0, 0.5 * SEA);
    assert_near(high.viscosity, 2.0 * brake_air_at(300.0, SEA).viscosity, ROUNDING);
    assert_equal(high.conductivity, brake_air_at(300.0, SEA).conductivity);
    /* It is air however cold and thin; of none nothing is told. */
    assert_near(brake_air_at(300.0, 0.5).viscosity, brake_air_at(300.0, SEA).viscosity * SEA / 0.5,
                ROUNDING);
    assert_true(brake_air_at(0.5, SEA).conductivity > 0.0);
    assert_nan(brake_air_at(0.0, SEA).viscosity);
    assert_nan(brake_air_at(300.0, 0.0).conductivity);
    assert_nan(brake_air_at(BRAKE_NAN, SEA).conductivity);
}

/* White, Viscous Fluid Flow, ch. 1: Sutherland's law with the coefficients of table 1-2, and the
 * density of an ideal gas of 287.05 J/(kg K). */
static void air_follows_the_law_of_sutherland(void **state)
{
    (void)state;
    for (double kelvin = 200.0; kelvin < 1500.0; kelvin += 50.0) {
        for (double pressure = 5e4; pressure < 1.2e5; pressure += 3e4) {
            const struct brake_air air = brake_air_at(kelvin, pressure);
            const double warmth = pow(kelvin / 273.0, 1.5);
            const double viscosity = 1.716e-5 * warmth * (273.0 + 111.0) / (kelvin + 111.0);
            assert_near(air.conductivity, 0.0241 * warmth * (273.0 + 194.0) / (kelvin + 194.0),
                        ROUNDING);
            assert_near(air.viscosity, viscosity * 287.05 * kelvin / pressure, ROUNDING);
        }
    }
}

/* Limpert, ch. 3: exponents, and no jump where the laws change. */
static void a_face_is_cooled_by_the_stream(void **state)
{
    (void)state;
    const struct brake_air air = {0.0263, 1.6e-5};
    const double diameter = 0.3;
    const double unit = air.viscosity / diameter; /* speed at Re = 1 */
    assert_equal(brake_convection_face(air, 0.0, diameter), 0.0);
    assert_near(brake_convection_face(air, 1e5 * unit, diameter),
                0.70 * 0.0263 / 0.3 * pow(1e5, 0.55), ROUNDING);
    assert_near(brake_convection_face(air, 1e6 * unit, diameter),
                0.04 * 0.0263 / 0.3 * pow(1e6, 0.8), ROUNDING);
    /* From Re = 2.4e5 to 3e5 one goes over into the other in a straight line. */
    for (double reynolds = 2e5; reynolds < 3.5e5; reynolds += 1e4) {
        const double part = fmin(1.0, fmax(0.0, (reynolds - 2.4e5) / 0.6e5));
        assert_near(
            brake_convection_face(air, reynolds * unit, diameter),
            0.0263 / 0.3 *
                ((1.0 - part) * 0.70 * pow(reynolds, 0.55) + part * 0.04 * pow(reynolds, 0.8)),
            ROUNDING);
    }
    double before = 0.0;
    for (double reynolds = 1e3; reynolds < 1e7; reynolds *= 1.01) {
        const double now = brake_convection_face(air, reynolds * unit, diameter);
        assert_true(now > before);
        assert_true(before == 0.0 || now < 1.05 * before);
        before = now;
    }
}

/* Local laws integrated over the face by hand; both regimes join without a jump. */
static void a_spinning_disc_is_the_mean_of_its_rings(void **state)
{
    (void)state;
    const struct brake_air air = {0.0263, 1.6e-5};
    const double radius = 0.15;
    for (double spin = 10.0; spin < 2000.0; spin *= 1.5) {
        double sum = 0.0;
        const int rings = 100000;
        for (int i = 0; i < rings; i++) {
            const double r = radius * (i + 0.5) / rings;
            const double reynolds = spin * r * r / air.viscosity;
            const double nusselt =
                reynolds < 2.5e5 ? 0.36 * sqrt(reynolds) : 0.0195 * pow(reynolds, 0.8);
            sum += nusselt * air.conductivity / r * 2.0 * r / radius / rings;
        }
        assert_near(brake_convection_disc(air, spin, radius), sum, 1e-5);
        /* the same integrals in closed form: convection.h, but that 2/2.6 of 0.0195 is 0.015 */
        const double reynolds = spin * radius * radius / air.viscosity;
        const double turns = fmin(1.0, sqrt(2.5e5 / reynolds)); /* r_t/R */
        const double at_turn = fmin(reynolds, 2.5e5);
        assert_near(brake_convection_disc(air, spin, radius) * radius / air.conductivity,
                    0.36 * sqrt(at_turn) * turns +
                        0.015 * (pow(reynolds, 0.8) - pow(at_turn, 0.8) * turns),
                    ROUNDING);
    }
    assert_equal(brake_convection_disc(air, 0.0, radius), 0.0);
}

/* McPhee and Johnson 2008 (CV-28): 27.0, 52.7, 78.3 W/(m2 K) at 342, 684, 1025 rev/min in the fins
 * of a vented rotor: 0.0789, 0.0770, 0.0764 a turn, 2 % about a straight line. The abstract does
 * not give its size; passages of an ordinary one are taken. */
static void vanes_are_within_the_scatter_of_what_was_measured(void **state)
{
    (void)state;
    const struct brake_vanes vanes = {0.085, 0.140, 0.0065, 0.0090, 0.0140};
    const struct brake_air air = brake_air_at(310.0, SEA);
    static const double speed[] = {342.0, 684.0, 1025.0};
    static const double measured[] = {27.0, 52.7, 78.3};
    double found[3];
    for (int i = 0; i < 3; i++) {
        found[i] = brake_convection_vanes(air, speed[i] * BRAKE_PI / 30.0, &vanes);
        assert_near(found[i], measured[i], 0.021);
    }
    assert_within(brake_cooling_exponent(speed[0], speed[2], found[0], found[2]), 0.97, 0.031);
    double before = 0.0;
    for (double spin = 0.1; spin < 1000.0; spin *= 1.01) {
        const double now = brake_convection_vanes(air, spin, &vanes);
        assert_true(now > before);
        assert_true(before == 0.0 || now < 1.05 * before);
        before = now;
    }
}

/* The law of convection.h: the air enters at w sqrt(ro^2 - ri^2), leaves as much faster as its way
 * narrows, and stirs passages more the shorter they are; rho c_p = Pr k/nu. */
static void vanes_follow_their_law(void **state)
{
    (void)state;
    const struct brake_air air = {0.03, 2e-5};
    struct cases cases = {3};
    for (int i = 0; i < 50; i++) {
        const double inner = any_between(&cases, 0.05, 0.1);
        const struct brake_vanes vanes = {
            inner, inner + any_between(&cases, 0.03, 0.1), any_between(&cases, 0.004, 0.008),
            any_between(&cases, 0.004, 0.012), any_between(&cases, 0.005, 0.02)};
        const double spin = any_between(&cases, 1.0, 200.0);
        const double entering = spin * sqrt(pow(vanes.outer_radius, 2.0) - inner * inner);
        const double leaving = entering * vanes.inlet_area / vanes.outlet_area;
        const double slender = vanes.hydraulic_diameter / (vanes.outer_radius - inner);
        assert_near(brake_convection_vanes(air, spin, &vanes),
                    0.00485 * (1.0 + pow(slender, 0.67)) * 0.70 * 0.03 / 2e-5 *
                        (entering + leaving) / 2.0,
                    ROUNDING);
    }
}

/* Churchill and Bernstein 1977: Nu = 0.3 + 0.62 Re^(1/2) Pr^(1/3) / (1 + (0.4/Pr)^(2/3))^(1/4)
 * (1 + (Re/282000)^(5/8))^(4/5), Pr = 0.70. */
static void a_cylinder_follows_churchill_and_bernstein(void **state)
{
    (void)state;
    const struct brake_air air = {0.03, 2e-5};
    for (double reynolds = 1.0; reynolds < 1e7; reynolds *= 3.0) {
        const double number = 0.3 + 0.62 * sqrt(reynolds) * cbrt(0.70) /
                                        pow(1.0 + pow(0.4 / 0.70, 2.0 / 3.0), 0.25) *
                                        pow(1.0 + pow(reynolds / 282000.0, 0.625), 0.8);
        assert_near(brake_convection_cylinder(air, reynolds * 2e-5 / 0.1, 0.1), number * 0.03 / 0.1,
                    ROUNDING);
    }
}

/* Limpert, ch. 3, for the drum; Churchill and Bernstein 1977 for the cylinder: the example of the
 * heat-transfer library ht for Re = 6071, Pr = 0.7 is 40.6371. */
static void drums_and_cylinders_follow_their_laws(void **state)
{
    (void)state;
    const struct brake_air air = {0.03, 2e-5};
    assert_near(brake_convection_drum(air, 20.0, 0.3),
                0.1 * 0.1 * pow(20.0 * 0.3 / 2e-5, 2.0 / 3.0), ROUNDING);
    assert_near(brake_convection_cylinder(air, 6071.0 * 2e-5 / 0.1, 0.1), 40.6371 * 0.03 / 0.1,
                1e-5);
    assert_near(brake_convection_cylinder(air, 0.0, 0.1), 0.3 * 0.03 / 0.1, ROUNDING);
}

static void still_air_is_the_least(void **state)
{
    (void)state;
    assert_equal(brake_convection_mixed(50.0, 0.0), 50.0);
    assert_near(brake_convection_mixed(0.0, 4.0), 4.0, ROUNDING);
    assert_near(brake_convection_mixed(3.0, 3.0), 3.0 * pow(2.0, 0.25), ROUNDING);
    assert_nan(brake_convection_mixed(BRAKE_NAN, 4.0));
}

static struct brake_cooling surface(enum brake_cooling_law law)
{
    return (struct brake_cooling){
        law, 0.1, 0.5, 0.0, 0.5, 0.8, 0.3, 0.4, {0.085, 0.140, 0.0065, 0.0090, 0.0140}};
}

static void a_surface_uses_the_law_that_it_names(void **state)
{
    (void)state;
    const struct brake_air air = brake_air_at(350.0, SEA);
    const struct brake_vanes vanes = surface(BRAKE_COOLING_VANES).vanes;
    const double speed = 20.0;
    const double expected[BRAKE_COOLING_LAWS] = {
        [BRAKE_COOLING_FIXED] = 1.0,
        [BRAKE_COOLING_POWER] = pow(speed, 0.8),
        [BRAKE_COOLING_FACE] = brake_convection_face(air, speed, 0.3),
        [BRAKE_COOLING_DISC] = brake_convection_disc(air, speed / 0.4, 0.15),
        [BRAKE_COOLING_VANES] = brake_convection_vanes(air, speed / 0.4, &vanes),
        [BRAKE_COOLING_DRUM] = brake_convection_drum(air, speed, 0.3),
        [BRAKE_COOLING_CYLINDER] = brake_convection_cylinder(air, speed, 0.3),
    };
    for (int law = 0; law < BRAKE_COOLING_LAWS; law++) {
        struct brake_cooling cooling = surface((enum brake_cooling_law)law);
        assert_true(brake_cooling_usable(&cooling));
        assert_near(brake_cooling_coefficient(&cooling, speed, 350.0, SEA), 0.5 * expected[law],
                    ROUNDING);
        cooling.still = 4.0;
        if (law != BRAKE_COOLING_FIXED && law != BRAKE_COOLING_CYLINDER) {
            assert_near(brake_cooling_coefficient(&cooling, 0.0, 350.0, SEA), 4.0, ROUNDING);
            assert_near(brake_cooling_coefficient(&cooling, -3.0, 350.0, SEA), 4.0, ROUNDING);
            assert_nan(brake_cooling_coefficient(&cooling, BRAKE_NAN, 350.0, SEA));
        }
    }
}

static void a_surface_that_lacks_something_cannot_be_used(void **state)
{
    (void)state;
    struct brake_cooling cooling = {.law = BRAKE_COOLING_FIXED};
    assert_true(brake_cooling_usable(&cooling));
    for (int law = 0; law < BRAKE_COOLING_LAWS; law++) {
        double *const common[] = {&cooling.area, &cooling.emissivity, &cooling.still,
                                  &cooling.factor};
        for (size_t i = 0; i < sizeof common / sizeof *common; i++) {
            cooling = surface((enum brake_cooling_law)law);
            *common[i] = -1.0;
            assert_false(brake_cooling_usable(&cooling));
            *common[i] = BRAKE_NAN;
            assert_false(brake_cooling_usable(&cooling));
        }
    }
    cooling = surface(BRAKE_COOLING_POWER);
    cooling.exponent = 9.0;
    assert_false(brake_cooling_usable(&cooling));
    cooling = surface(BRAKE_COOLING_FACE);
    cooling.diameter = 0.0;
    assert_false(brake_cooling_usable(&cooling));
    cooling = surface(BRAKE_COOLING_DISC);
    cooling.rolling_radius = 0.0;
    assert_false(brake_cooling_usable(&cooling));
    cooling = surface(BRAKE_COOLING_DISC);
    cooling.diameter = 0.0;
    assert_false(brake_cooling_usable(&cooling));
    cooling = surface(BRAKE_COOLING_VANES);
    cooling.rolling_radius = 0.0;
    assert_false(brake_cooling_usable(&cooling));
    double *const vanes[] = {&cooling.vanes.inner_radius, &cooling.vanes.outer_radius,
                             &cooling.vanes.inlet_area, &cooling.vanes.outlet_area,
                             &cooling.vanes.hydraulic_diameter};
    for (size_t i = 0; i < sizeof vanes / sizeof *vanes; i++) {
        cooling = surface(BRAKE_COOLING_VANES);
        *vanes[i] = -1.0;
        assert_false(brake_cooling_usable(&cooling));
    }
    cooling = surface(BRAKE_COOLING_VANES);
    cooling.vanes.inner_radius = cooling.vanes.outer_radius;
    assert_false(brake_cooling_usable(&cooling));
    cooling = surface(BRAKE_COOLING_LAWS);
    assert_false(brake_cooling_usable(&cooling));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(air_is_that_of_the_tables),
        cmocka_unit_test(air_follows_the_law_of_sutherland),
        cmocka_unit_test(vanes_follow_their_law),
        cmocka_unit_test(a_cylinder_follows_churchill_and_bernstein),
        cmocka_unit_test(a_face_is_cooled_by_the_stream),
        cmocka_unit_test(a_spinning_disc_is_the_mean_of_its_rings),
        cmocka_unit_test(vanes_are_within_the_scatter_of_what_was_measured),
        cmocka_unit_test(drums_and_cylinders_follow_their_laws),
        cmocka_unit_test(still_air_is_the_least),
        cmocka_unit_test(a_surface_uses_the_law_that_it_names),
        cmocka_unit_test(a_surface_that_lacks_something_cannot_be_used),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
