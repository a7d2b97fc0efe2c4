/* SPDX-License-Identifier: MIT */
/* Parts and surfaces of a brake in heat, worked out by hand from reference/method.md, section 8:
 * where that says "common practice, no source", so it is here. */
#include "sheet.h"

#include "vehicle/materials.h"

static const char heat[] = "[front.disc]\nrotor_mass = 7.2 kg\nrotor_diameter = 300 mm\n"
                           "hat_mass = 2 kg\nrotor = vented\n"
                           "[front.disc.pads]\ninner_radius = 100 mm\nouter_radius = 150 mm\n"
                           "arc = 60 deg\nthickness = 10 mm\n"
                           "[heat]\niron = grey_250\nambient = 20 degC\nfluid = DOT4\n"
                           "cooling = 0.9\npad_conduction = 1.2\npiston_conduction = 1.1\n";
static const char drum[] = "[rear.drum]\ndrum_mass = 7.2 kg\nwidth = 60 mm\n"
                           "[rear.drum.lining]\nthickness = 4 mm\n";

static struct brake_sheet sheet;
static struct brake_hot_rig hot;

/* In front discs, pistons 1 x 60 mm, pads of 10 mm; at the rear drums, 300 and 20 mm. */
static const struct brake_thermal_spec *spec_of(enum brake_axle axle)
{
    struct brake_error error;
    const char *text = swapped(drum_text(), "effective_radius = 125 mm\n", "");
    read_sheet(&sheet, plus(plus(text, heat), drum));
    assert_int_equal(brake_hot_rig_build(&sheet.vehicle, BRAKE_FULL, &hot, &error), BRAKE_OK);
    return &hot.thermal[axle].spec;
}

static double ring(double inner, double outer)
{
    return BRAKE_PI * (outer * outer - inner * inner);
}

static double circle(double diameter)
{
    return BRAKE_PI / 4.0 * diameter * diameter;
}

/* Half the thickness at 1.5 W/(m K) times 1.2; beside it the air of the gap, 0.04 W/(m K)
 * (materials.json, near 500 K). The plate gets what the pad has through its other half. */
static void expect_pad(const struct brake_thermal_spec *spec, double area, double thickness,
                       double gap)
{
    const struct brake_substance *pad = brake_substance_find("organic pad");
    const double half = 1.2 * 1.5 * area / (thickness / 2.0);
    const double released = 1.0 / (1.0 / half + gap / (0.04 * area));
    const struct brake_lump *lump = &spec->part[BRAKE_PART_PAD];
    assert_near(spec->share, 1.0, ROUNDING);
    assert_near(pad->material.conductivity[0], 1.5, ROUNDING);
    assert_near(lump->capacity,
                pad->material.density * pad->material.heat_capacity[0] * area * thickness, 1e-9);
    assert_near(lump->link, released, 1e-9);
    assert_near(spec->contact, half - released, 1e-9);
    assert_near(spec->part[BRAKE_PART_PLATE].link, half, 1e-9);
}

/* Steel of materials.json at 20 degC. */
static void expect_plate(const struct brake_thermal_spec *spec, double area, double thickness)
{
    const struct brake_material *steel = &brake_substance_find("carbon steel")->material;
    const double heat_capacity = brake_material_at(steel, 293.15).heat_capacity;
    assert_near(spec->part[BRAKE_PART_PLATE].capacity,
                steel->density * heat_capacity * area * thickness, 1e-9);
}

/* Per area of the pistons: 92 and 1160 kg/m2 of 480 J/(kg K), 20 mm of fluid of 1050 kg/m3 and
 * 2300 J/(kg K); links times 1.1. */
static void expect_pistons(const struct brake_thermal_spec *spec, double area, double touch)
{
    const struct brake_lump *part = spec->part;
    const struct brake_cooling *body = &part[BRAKE_PART_BODY].cooling;
    assert_near(part[BRAKE_PART_PISTON].capacity, 92.0 * 480.0 * area, 1e-9);
    assert_near(part[BRAKE_PART_FLUID].capacity, 0.02 * 1050.0 * 2300.0 * area, 1e-9);
    assert_near(part[BRAKE_PART_BODY].capacity, 1160.0 * 480.0 * area, 1e-9);
    assert_near(part[BRAKE_PART_PISTON].link, 1.1 * touch * area, 1e-9);
    assert_near(part[BRAKE_PART_FLUID].link, 1.1 * 4400.0 * area, 1e-9);
    assert_near(part[BRAKE_PART_BODY].link, 1.1 * 1500.0 * area, 1e-9);
    assert_int_equal(body->law, BRAKE_COOLING_CYLINDER);
    assert_near(body->area, 16.0 * area, 1e-9);
    assert_near(body->diameter, 0.1, ROUNDING);
    assert_near(body->factor, 0.5, ROUNDING);
    assert_near(body->emissivity, 0.5, ROUNDING);
    assert_near(body->still, 3.0, ROUNDING);
}

static void what_lies_between_a_disc_and_its_fluid(void **state)
{
    (void)state;
    const struct brake_thermal_spec *front = spec_of(BRAKE_FRONT);
    const double pads = 2.0 * ring(0.1, 0.15) / 6.0; /* 60 of 360 deg on either side */
    expect_pad(front, pads, 0.010, 0.00025);
    expect_plate(front, pads, 0.005);
    expect_pistons(front, circle(0.060), 270.0);
}

/* 110 degrees of two shoes on 95 % of 60 mm; both pistons of a cylinder of 20 mm. */
static void what_lies_between_a_drum_and_its_fluid(void **state)
{
    (void)state;
    const struct brake_thermal_spec *rear = spec_of(BRAKE_REAR);
    const double linings = 2.0 * (110.0 / 360.0 * BRAKE_PI * 0.3) * 0.95 * 0.06;
    expect_pad(rear, linings, 0.004, 0.0004);
    expect_plate(rear, linings, 0.004);
    expect_pistons(rear, 2.0 * circle(0.020), 150.0);
}

/* 36 vanes of 9 mm take 35 % of the inner circle, 96 mm about: their passages widen by what the
 * circle does. */
static void the_passages_between_the_cheeks(void **state)
{
    (void)state;
    const struct brake_cooling *back = &spec_of(BRAKE_FRONT)->back;
    const double vane = 0.35 * 2.0 * BRAKE_PI * 0.096 / 36.0;
    const double inlet = 0.65 * 2.0 * BRAKE_PI * 0.096 / 36.0;
    const double outlet = 2.0 * BRAKE_PI * 0.15 / 36.0 - vane;
    const double width = (inlet + outlet) / 2.0;
    assert_int_equal(back->law, BRAKE_COOLING_VANES);
    assert_near(back->area, 2.0 * ring(0.096, 0.15) + 72.0 * 0.009 * 0.054, 1e-12);
    assert_near(back->vanes.inner_radius, 0.096, ROUNDING);
    assert_near(back->vanes.outer_radius, 0.15, ROUNDING);
    assert_near(back->vanes.inlet_area, 36.0 * 0.009 * inlet, 1e-12);
    assert_near(back->vanes.outlet_area, 36.0 * 0.009 * outlet, 1e-12);
    assert_near(back->vanes.hydraulic_diameter, 2.0 * width * 0.009 / (width + 0.009), 1e-12);
    assert_near(back->rolling_radius, 0.4, ROUNDING);
    assert_equal(back->emissivity, 0.0); /* cheeks see each other */
}

/* A hat of 7 mm, 2 kg of iron of 7200 kg/m3 and 460 J/(kg K), its neck 30 mm long at 0.8 of the
 * pad's inner radius, 46 W/(m K). */
static void the_hat_behind_the_rim(void **state)
{
    (void)state;
    const struct brake_lump *hat = &spec_of(BRAKE_FRONT)->part[BRAKE_PART_HAT];
    assert_near(hat->capacity, 2.0 * 460.0, 1e-9);
    assert_near(hat->link, 46.0 * 2.0 * BRAKE_PI * 0.08 * 0.007 / 0.03, 1e-12);
    assert_near(hat->cooling.area, 2.0 / (7200.0 * 0.007), 1e-12);
    assert_near(hat->cooling.diameter, 0.16, ROUNDING);
    assert_int_equal(hat->cooling.law, BRAKE_COOLING_CYLINDER);
}

static void expect_surface(const struct brake_cooling *cooling, enum brake_cooling_law law,
                           double diameter, double emissivity)
{
    assert_int_equal(cooling->law, law);
    assert_near(cooling->diameter, diameter, 1e-12);
    assert_near(cooling->emissivity, emissivity, ROUNDING);
    assert_near(cooling->factor, 0.9, ROUNDING);
    assert_near(cooling->still, 3.0, ROUNDING); /* W/(m2 K) at rest */
}

/* 0.3 of rubbed iron, 0.8 of rusted; a drum's air is outside, its thickness beyond 300 mm. */
static void what_the_air_and_the_surroundings_see(void **state)
{
    (void)state;
    const struct brake_thermal_spec *front = spec_of(BRAKE_FRONT);
    expect_surface(&front->front, BRAKE_COOLING_FACE, 0.3, 0.3);
    expect_surface(&front->part[BRAKE_PART_RIM].cooling, BRAKE_COOLING_FACE, 0.3, 0.8);
    expect_surface(&front->part[BRAKE_PART_HAT].cooling, BRAKE_COOLING_CYLINDER, 0.16, 0.8);
    assert_near(front->back.factor, 0.9, ROUNDING);
    assert_near(front->back.still, 3.0, ROUNDING);
    assert_near(front->pressure, 101325.0, ROUNDING); /* ISO 2533 */
    assert_near(front->tolerance, 0.05, ROUNDING);    /* K; thermal.h says what it leaves */
    assert_int_equal(front->cells, 24);
    const struct brake_thermal_spec *rear = spec_of(BRAKE_REAR);
    const double outside = 0.3 + 2.0 * 7.2 / 7200.0 / (BRAKE_PI * 0.3 * 0.06);
    expect_surface(&rear->back, BRAKE_COOLING_DRUM, outside, 0.8);
    assert_near(rear->back.area, BRAKE_PI * outside * 0.06, 1e-12);
    assert_equal(rear->front.area, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_lies_between_a_disc_and_its_fluid),
        cmocka_unit_test(what_lies_between_a_drum_and_its_fluid),
        cmocka_unit_test(the_passages_between_the_cheeks),
        cmocka_unit_test(the_hat_behind_the_rim),
        cmocka_unit_test(what_the_air_and_the_surroundings_see),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
