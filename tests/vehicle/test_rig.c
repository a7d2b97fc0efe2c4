/* SPDX-License-Identifier: MIT */
/* A vehicle made ready for heat. Vehicle: sheet.h, with lines for heat of round numbers. */
#include "sheet.h"

#include <cjson/cJSON.h>

#include "brake/rig.h"
#include "vehicle/materials.h"

/* Pads from 0.1 to 0.15 m, plate of iron 250 from 0.096 m, 4 mm inside of them, to the rim at
 * 0.15 m; 7.2 kg are a litre. */
static const char heat[] = "[front.disc]\nrotor_mass = 7.2 kg\nrotor_diameter = 300 mm\n"
                           "hat_mass = 2 kg\nrotor = vented\n"
                           "[front.disc.pads]\ninner_radius = 100 mm\nouter_radius = 150 mm\n"
                           "arc = 60 deg\nthickness = 10 mm\n"
                           "[rear.disc]\nrotor_mass = 3.6 kg\nrotor_diameter = 300 mm\n"
                           "[heat]\niron = grey_250\nambient = 20 degC\nfluid = DOT4\n";

static struct brake_sheet sheet;
static struct brake_hot_rig hot;
static struct brake_error error;

static const char *hot_text(void)
{
    return plus(swapped(plain, "effective_radius = 125 mm\n", ""), heat);
}

static enum brake_status build(const char *text)
{
    read_sheet(&sheet, text);
    return brake_hot_rig_build(&sheet.vehicle, BRAKE_FULL, &hot, &error);
}

static void a_solid_of_the_library_is_that_of_the_reference(void **state)
{
    (void)state;
    FILE *file = fopen(SOURCE_ROOT "/reference/materials.json", "rb");
    assert_non_null(file);
    static char text[20000];
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    cJSON *all = cJSON_Parse(text);
    const cJSON *solid;
    int count = 0;
    cJSON_ArrayForEach(solid, cJSON_GetObjectItem(all, "solids"))
    {
        static const char *const names[] = {"density", "modulus", "poisson", "expansion",
                                            "strength"};
        const struct brake_substance *own = brake_substance_find(solid->string);
        assert_non_null(own);
        assert_ptr_equal(own, brake_substance_at(count++));
        const double numbers[] = {own->material.density, own->modulus, own->poisson, own->expansion,
                                  own->strength};
        for (int i = 0; i < 5; i++) {
            const cJSON *number = cJSON_GetObjectItem(solid, names[i]);
            assert_equal(numbers[i], number != NULL ? number->valuedouble : 0.0);
        }
        const cJSON *temperature = cJSON_GetObjectItem(solid, "temperature");
        assert_int_equal(own->material.points, cJSON_GetArraySize(temperature));
        for (int i = 0; i < own->material.points; i++) {
            assert_equal(own->material.temperature[i],
                         273.15 + cJSON_GetArrayItem(temperature, i)->valuedouble);
            assert_equal(
                own->material.conductivity[i],
                cJSON_GetArrayItem(cJSON_GetObjectItem(solid, "conductivity"), i)->valuedouble);
            assert_equal(
                own->material.heat_capacity[i],
                cJSON_GetArrayItem(cJSON_GetObjectItem(solid, "heat_capacity"), i)->valuedouble);
        }
    }
    assert_null(brake_substance_at(count));
    assert_null(brake_substance_at(-1));
    assert_null(brake_substance_find("cheese"));
    cJSON_Delete(all);
}

static double ring(double inner, double outer)
{
    return BRAKE_PI * (outer * outer - inner * inner);
}

/* 2 mm beside the pad are hot with it where there is as much iron. */
static void the_wall_is_the_ring_that_pads_rub_and_the_rim_is_the_rest(void **state)
{
    (void)state;
    assert_int_equal(build(swapped(hot_text(), "rotor_mass = 7.2 kg\nrotor_diameter = 300 mm",
                                   "rotor_mass = 7.2 kg\nrotor_diameter = 330 mm")),
                     BRAKE_OK);
    const struct brake_thermal_spec *front = &hot.thermal[BRAKE_FRONT].spec;
    assert_near(front->area, 2.0 * ring(0.098, 0.152), ROUNDING);
    assert_near(front->thickness, 1e-3 / ring(0.096, 0.165) / 2.0, ROUNDING);
    /* grey iron 250 at 200 degC: 494 J/(kg*K), 47.5 W/(m*K) of materials.json */
    const struct brake_lump *rim = &front->part[BRAKE_PART_RIM];
    const double rest = ring(0.096, 0.165) - ring(0.098, 0.152);
    assert_near(rim->capacity, 494.0 * 7.2 * rest / ring(0.096, 0.165), 1e-9);
    assert_near(rim->cooling.area, 2.0 * rest, ROUNDING);
    /* a third of the ring's 54 mm and of the 2 mm inside, the 13 mm outside */
    const double edges = 0.098 / (0.056 / 3.0) + 0.152 / (0.067 / 3.0);
    assert_near(rim->link, 2.0 * BRAKE_PI * 47.5 * 2.0 * front->thickness * edges, 1e-9);
}

/* The middle of a rectangle's upper edge is nearer to the axle than its corners: 60 mm wide at
 * 125 mm its points lie 60^2 / (24 x 125) = 1.2 mm farther out in the mean. */
static void the_ring_follows_the_shape_of_the_pad(void **state)
{
    (void)state;
    const char *rectangle = swapped(hot_text(), "inner_radius = 100 mm\nouter_radius = 150 mm\n",
                                    "shape = rectangle\nouter_radius = 145 mm\n"
                                    "height = 40 mm\nwidth = 60 mm\n");
    assert_int_equal(build(rectangle), BRAKE_OK);
    assert_near(hot.thermal[BRAKE_FRONT].spec.area, 2.0 * ring(0.1042, 0.1481), 1e-12);
    const char *outline = swapped(hot_text(), "inner_radius = 100 mm\nouter_radius = 150 mm\n",
                                  "shape = outline\noutline = (96 mm, -28 mm) (112 mm, -84 mm)\n"
                                  "  (140 mm, 0 mm) (112 mm, 84 mm) (96 mm, 28 mm)\n");
    assert_int_equal(build(outline), BRAKE_OK); /* 20 (4.8, 1.4) = 100 mm; 28 (4, 3) = 140 mm */
    assert_near(hot.thermal[BRAKE_FRONT].spec.area, 2.0 * ring(0.098, 0.142), 1e-12);
}

/* Points of a circle of 30 mm scatter about their mean with 30/2 mm along the radius, as those of a
 * ring of 2 (3^1/2) 15 mm do; the mean lies 30^2 / (8 x 115) mm farther out than the centre. */
static void the_ring_of_a_circular_pad_scatters_as_the_circle(void **state)
{
    (void)state;
    const char *circle = swapped(hot_text(), "inner_radius = 100 mm\nouter_radius = 150 mm\n",
                                 "shape = circle\ncentre_radius = 115 mm\ndiameter = 60 mm\n");
    assert_int_equal(build(circle), BRAKE_OK);
    const double middle = 0.115 + 0.0009 / 0.92;
    const double half = 0.015 * sqrt(3.0);
    const double rubbed = ring(middle - half - 0.002, middle + half + 0.002);
    assert_near(hot.thermal[BRAKE_FRONT].spec.area, 2.0 * rubbed, 1e-12);
    assert_near(hot.thermal[BRAKE_FRONT].spec.front.area, 2.0 * (rubbed - BRAKE_PI * 0.030 * 0.030),
                1e-12);
}

static void mass_and_plate_give_the_thickness(void **state)
{
    (void)state;
    assert_int_equal(build(hot_text()), BRAKE_OK);
    const struct brake_thermal_spec *front = &hot.thermal[BRAKE_FRONT].spec;
    const double band = ring(0.1, 0.15);
    const double plate = ring(0.096, 0.15);
    assert_near(front->area, 2.0 * ring(0.098, 0.15), ROUNDING);
    assert_near(front->thickness, 1e-3 / plate / 2.0, ROUNDING);
    assert_near(front->front.area, front->area - 2.0 * band / 6.0, ROUNDING); /* 60 of 360 deg */
    assert_int_equal(front->back.law, BRAKE_COOLING_VANES);
    assert_true(front->part[BRAKE_PART_HAT].capacity > 0.0);
    /* rear: no pad radii; r_e = 125 mm lies half way between 150 mm and 100 mm; solid, no hat */
    const struct brake_thermal_spec *rear = &hot.thermal[BRAKE_REAR].spec;
    assert_near(rear->area, front->area, 1e-12);
    assert_near(rear->thickness, 0.5e-3 / plate / 2.0, 1e-12);
    assert_equal(rear->back.area, 0.0);
    assert_equal(rear->part[BRAKE_PART_HAT].capacity, 0.0);
    /* a fixed caliper has pistons on both sides: 30 mm twice beside 60 mm once, half the area */
    assert_near(rear->part[BRAKE_PART_FLUID].capacity, front->part[BRAKE_PART_FLUID].capacity / 2.0,
                1e-12);
}

static double conductance(const struct brake_cooling *cooling, double speed)
{
    return cooling->area * brake_cooling_coefficient(cooling, speed, 380.0, BRAKE_ATMOSPHERE);
}

/* Stephens, Aerodynamic Cooling of Automotive Disc Brakes (thesis, RMIT 2006), abstract: on a car
 * in the wind tunnel vented rotors cooled "40+%" better than solid ones of the same size. */
static void vanes_add_what_was_measured_on_a_car(void **state)
{
    (void)state;
    assert_int_equal(build(hot_text()), BRAKE_OK);
    const struct brake_thermal_spec *front = &hot.thermal[BRAKE_FRONT].spec;
    for (double speed = 50.0 / 3.6; speed < 35.0; speed += 5.0) {
        const double solid = conductance(&front->front, speed) +
                             conductance(&front->part[BRAKE_PART_RIM].cooling, speed) +
                             conductance(&front->part[BRAKE_PART_HAT].cooling, speed);
        assert_between(conductance(&front->back, speed) / solid, 0.35, 0.50);
    }
}

static void the_whole_heat_capacity_is_that_of_the_mass(void **state)
{
    (void)state;
    assert_int_equal(build(hot_text()), BRAKE_OK);
    const struct brake_thermal *front = &hot.thermal[BRAKE_FRONT];
    double mass = 0.0;
    for (int i = 0; i < front->spec.cells; i++)
        mass += front->mass[i];
    mass += front->capacity[BRAKE_PART_RIM] / 494.0; /* grey iron 250 at 200 degC */
    assert_near(mass, 7.2, 1e-9);
}

static void the_rig_is_that_of_the_load_case(void **state)
{
    (void)state;
    assert_int_equal(build(plus(hot_text(), "[heat]\ndrag_area = 2 m2\n")), BRAKE_OK);
    assert_near(hot.rig.balance.body.mass, 2500.0, ROUNDING);
    assert_near(hot.rig.air, 293.15, ROUNDING);
    assert_near(hot.rig.air_drag, 2.0 * 0.5 * 1.204, 1e-3); /* ISO 2533: 1.204 kg/m3 at 20 degC */
    assert_near(hot.boiling, 273.15 + 155.0, 1e-9);
    assert_near(hot.rig.rubbing[BRAKE_REAR], 0.125 / 0.4, ROUNDING);
    assert_near(hot.rig.law[BRAKE_FRONT].mu, 0.4, ROUNDING);
    assert_equal(hot.rig.law[BRAKE_FRONT].power, 1.0); /* T = 2 mu F r_e */
    assert_equal(hot.rig.step, 0.5);                   /* s; braking.h: at most */
    assert_equal(hot.rig.tolerance, 5e-4);
    assert_int_equal(brake_hot_rig_build(&sheet.vehicle, BRAKE_EMPTY, &hot, &error), BRAKE_OK);
    assert_near(hot.rig.balance.body.mass, 2000.0, ROUNDING);
}

/* Equilibrium of a pad, of a shoe: what the pistons of one side press stands on one lining. The pad
 * is 60 degrees of a ring of 100 and 150 mm; the shoe has 110 degrees and 95 % of the drum's 60 mm
 * (common practice, no source). No line of a file gives friction a curve over pressure; a program
 * that does so needs it. */
static void the_pressure_on_a_lining_is_what_its_pistons_press(void **state)
{
    (void)state;
    const char *weaker = "pistons = 1 x 60 mm\nefficiency = 0.9\n";
    assert_int_equal(build(swapped(hot_text(), "pistons = 1 x 60 mm\nefficiency = 1\n", weaker)),
                     BRAKE_OK);
    assert_near(hot.rig.lining[BRAKE_FRONT],
                0.9 * (BRAKE_PI / 4.0 * 0.0036) / (BRAKE_PI / 6.0 * (0.0225 - 0.01)), ROUNDING);
    const char *text = swapped(drum_text(), "brake_factor = 2\nefficiency = 1.0\n",
                               "brake_factor = 2\nefficiency = 0.9\nwidth = 60 mm\n");
    assert_int_equal(build(plus(text, "[front.disc]\nrotor_mass = 7.2 kg\nrotor_diameter = 300 mm\n"
                                      "[heat]\niron = grey_250\n"
                                      "[rear.drum]\ndrum_mass = 7.2 kg\n")),
                     BRAKE_OK);
    assert_near(hot.rig.lining[BRAKE_REAR],
                0.9 * (BRAKE_PI / 4.0 * 0.0004) / (BRAKE_PI * 110.0 / 180.0 * 0.15 * 0.95 * 0.06),
                ROUNDING);
}

static void friction_is_the_curve_that_is_given_or_the_usual_one(void **state)
{
    (void)state;
    assert_int_equal(build(plus(hot_text(), "[front.disc.pads]\nfriction = (100 degC, 0.4) "
                                            "(500 degC, 0.2)\n")),
                     BRAKE_OK);
    assert_near(hot.friction_until[BRAKE_FRONT], 773.15, ROUNDING);
    assert_near(brake_friction_at(&hot.friction[BRAKE_FRONT], 773.15, 5.0, 1e6), 0.2, ROUNDING);
    assert_near(brake_friction_at(&hot.friction[BRAKE_FRONT], 373.15, 5.0, 1e6), 0.4, ROUNDING);
    struct brake_friction usual;
    brake_friction_usual(0.4, 1.0, &usual);
    assert_nan(hot.friction_until[BRAKE_REAR]);
    assert_near(brake_friction_at(&hot.friction[BRAKE_REAR], 700.0, 5.0, 1e6),
                brake_friction_at(&usual, 700.0, 5.0, 1e6), ROUNDING);
}

static void a_friction_curve_that_does_not_rise_or_is_too_long_is_refused(void **state)
{
    (void)state;
    char text[1200] = "[front.disc.pads]\nfriction = (300 degC, 0.4) (200 degC, 0.3)\n";
    assert_int_equal(brake_file_read_text(plus(hot_text(), text), &sheet, &error), BRAKE_OK);
    assert_int_equal(brake_sheet_complete(&sheet, &error), BRAKE_E_FIT);
    snprintf(text, sizeof text, "[front.disc.pads]\nfriction = (10 degC, 0.4)\n");
    for (int i = 2; i <= 17; i++)
        snprintf(text + strlen(text), sizeof text - strlen(text), "  (%d degC, 0.4)\n", 10 * i);
    assert_int_equal(brake_file_read_text(plus(hot_text(), text), &sheet, &error), BRAKE_OK);
    assert_int_equal(brake_sheet_complete(&sheet, &error), BRAKE_E_SIZE);
}

static void all_that_is_missing_is_told_in_words(void **state)
{
    (void)state;
    assert_int_equal(build(plain), BRAKE_E_MISSING);
    assert_string_equal(error.field, "front.disc.rotor_mass");
    assert_string_equal(error.text, "heat cannot be said without front.disc.rotor_mass, "
                                    "front.disc.rotor_diameter, rear.disc.rotor_mass, "
                                    "rear.disc.rotor_diameter");
}

static void a_ring_that_cannot_be_is_refused(void **state)
{
    (void)state;
    assert_int_equal(build(swapped(hot_text(), "rotor_mass = 7.2 kg", "rotor_mass = 0.5 kg")),
                     BRAKE_E_RANGE);
    assert_string_equal(error.field, "front.disc.rotor_mass");
    assert_int_equal(build(swapped(hot_text(), "rotor_mass = 3.6 kg\nrotor_diameter = 300 mm",
                                   "rotor_mass = 3.6 kg\nrotor_diameter = 240 mm")),
                     BRAKE_E_RANGE);
    assert_string_equal(error.field, "rear.disc.rotor_diameter");
}

static enum brake_status build_as_thick(double thickness)
{
    char mass[80];
    snprintf(mass, sizeof mass, "rotor_mass = %.9g kg\nrotor_diameter = 300 mm",
             7200.0 * 2.0 * ring(0.096, 0.15) * thickness);
    return build(swapped(hot_text(), "rotor_mass = 7.2 kg\nrotor_diameter = 300 mm", mass));
}

/* A face of iron is 1 to 60 mm thick. Its first cell is a tenth of a millimetre, or as all 24 are
 * alike where they are less. */
static void a_face_is_one_to_sixty_millimetres_thick(void **state)
{
    (void)state;
    const struct brake_thermal_spec *front = &hot.thermal[BRAKE_FRONT].spec;
    assert_int_equal(build_as_thick(0.000995), BRAKE_E_RANGE);
    assert_string_equal(error.field, "front.disc.rotor_mass");
    assert_int_equal(build_as_thick(0.001005), BRAKE_OK);
    assert_near(front->thickness, 0.001005, 1e-8);
    assert_near(front->first_cell, 0.001005 / 24.0, 1e-8);
    assert_int_equal(build_as_thick(0.0025), BRAKE_OK);
    assert_near(front->first_cell, 1e-4, ROUNDING);
    assert_int_equal(build_as_thick(0.05995), BRAKE_OK);
    assert_near(front->first_cell, 1e-4, ROUNDING);
    assert_int_equal(build_as_thick(0.06005), BRAKE_E_RANGE);
    assert_string_equal(error.field, "front.disc.rotor_mass");
}

/* About an effective radius of 125 mm pads reach from the axle itself to 250 mm, or from the rim
 * to the rim: neither is a ring. */
static void a_ring_has_two_edges(void **state)
{
    (void)state;
    static const char *const diameters[] = {"500 mm", "250 mm"};
    for (int i = 0; i < 2; i++) {
        char lines[80];
        snprintf(lines, sizeof lines, "rotor_mass = 3.6 kg\nrotor_diameter = %s", diameters[i]);
        assert_int_equal(
            build(swapped(hot_text(), "rotor_mass = 3.6 kg\nrotor_diameter = 300 mm", lines)),
            BRAKE_E_RANGE);
        assert_string_equal(error.field, "rear.disc.rotor_diameter");
    }
}

/* The drum of sheet.h, 300 mm; 60 mm wide: pi 0.3 0.06 m2 of 7.2 kg, a litre. */
static void a_drum_takes_its_width_and_the_law_of_its_shoes(void **state)
{
    (void)state;
    const char *text = plus(drum_text(), "[front.disc]\nrotor_mass = 7.2 kg\n"
                                         "rotor_diameter = 300 mm\n[heat]\niron = grey_250\n"
                                         "[rear.drum]\ndrum_mass = 7.2 kg\n");
    assert_int_equal(build(text), BRAKE_E_MISSING);
    assert_string_equal(error.text, "heat cannot be said without rear.drum.width");
    assert_int_equal(build(plus(text, "[rear.drum]\nwidth = 60 mm\n")), BRAKE_OK);
    const struct brake_thermal_spec *rear = &hot.thermal[BRAKE_REAR].spec;
    assert_near(rear->area, BRAKE_PI * 0.3 * 0.06, ROUNDING);
    assert_near(rear->thickness, 1e-3 / rear->area, ROUNDING);
    assert_int_equal(rear->back.law, BRAKE_COOLING_DRUM);
    assert_false(hot.rig.law[BRAKE_REAR].shaped);
    assert_near(hot.rig.law[BRAKE_REAR].power, 1.2, ROUNDING); /* rig.c; common practice */
}

static void expect_ring(const char *old, const char *new, const char *field)
{
    assert_int_equal(build(swapped(hot_text(), old, new)), BRAKE_E_RANGE);
    assert_string_equal(error.field, field);
}

/* A band half way about the effective radius of 125 mm reaches inwards to 250 - 260 mm; 38 kg of
 * iron are thicker than 60 mm a face; half a kilogram of drum is thinner than 1 mm. */
static void rings_too_thick_too_thin_or_past_the_centre_are_refused(void **state)
{
    (void)state;
    expect_ring("rotor_mass = 3.6 kg\nrotor_diameter = 300 mm",
                "rotor_mass = 3.6 kg\nrotor_diameter = 520 mm", "rear.disc.rotor_diameter");
    expect_ring("rotor_mass = 3.6 kg", "rotor_mass = 38 kg", "rear.disc.rotor_mass");
    assert_int_equal(build(plus(drum_text(), "[front.disc]\nrotor_mass = 7.2 kg\n"
                                             "rotor_diameter = 300 mm\n[heat]\niron = grey_250\n"
                                             "[rear.drum]\ndrum_mass = 0.5 kg\n"
                                             "width = 100 mm\n")),
                     BRAKE_E_RANGE);
    assert_string_equal(error.field, "rear.drum.drum_mass");
}

/* What a file could not have told: a caller may write it. */
static void a_curve_that_falls_in_temperature_is_refused(void **state)
{
    (void)state;
    assert_int_equal(build(hot_text()), BRAKE_OK);
    sheet.vehicle.axle[BRAKE_FRONT].pads.friction =
        (struct brake_points){.count = 2, .at = {{573.15, 0.4}, {473.15, 0.3}}};
    assert_int_equal(brake_hot_rig_build(&sheet.vehicle, BRAKE_FULL, &hot, &error), BRAKE_E_RANGE);
    assert_string_equal(error.field, "front.disc.pads.friction");
    assert_int_equal(build(plus(drum_text(), "[front.disc]\nrotor_mass = 7.2 kg\n"
                                             "rotor_diameter = 300 mm\n[heat]\niron = grey_250\n"
                                             "[rear.drum]\ndrum_mass = 7.2 kg\n"
                                             "width = 60 mm\n")),
                     BRAKE_OK);
    sheet.vehicle.axle[BRAKE_REAR].lining.friction =
        (struct brake_points){.count = 2, .at = {{573.15, 0.4}, {473.15, 0.3}}};
    assert_int_equal(brake_hot_rig_build(&sheet.vehicle, BRAKE_FULL, &hot, &error), BRAKE_E_RANGE);
    assert_string_equal(error.field, "rear.drum.lining.friction");
}

/* The faces do not cool where the two pads lie: of pads whose edges are not told a sixth, their arc
 * of 60 degrees, of the band from 100 to 150 mm, which is half way about the effective radius. */
static void a_pad_without_its_edges_covers_its_arc(void **state)
{
    (void)state;
    const char *const shapes[] = {"shape = rectangle\n", "shape = circle\n", "shape = outline\n"};
    const char *edges = "inner_radius = 100 mm\nouter_radius = 150 mm\n";
    const char *given = plus(plain, heat);
    for (int i = 0; i < 3; i++) {
        assert_int_equal(build(swapped(given, edges, shapes[i])), BRAKE_OK);
        const struct brake_thermal_spec *spec = &hot.thermal[BRAKE_FRONT].spec;
        const double band = BRAKE_PI * (0.15 * 0.15 - 0.1 * 0.1);
        assert_near(spec->area - spec->front.area, 2.0 * band / 6.0, 1e-12);
    }
}

/* 300 mm of drum on tyres of 0.4 m. */
static void shoes_rub_at_half_of_the_diameter(void **state)
{
    (void)state;
    read_sheet(&sheet, plus(drum_text(), "[rear.drum]\ndrum_mass = 9 kg\nwidth = 50 mm\n"
                                         "[front.disc]\nrotor_mass = 8 kg\n"
                                         "rotor_diameter = 300 mm\n"));
    assert_int_equal(brake_hot_rig_build(&sheet.vehicle, BRAKE_FULL, &hot, &error), BRAKE_OK);
    assert_near(hot.rig.rubbing[BRAKE_REAR], 0.15 / 0.4, ROUNDING);
    assert_near(hot.rig.rubbing[BRAKE_FRONT], 0.125 / 0.4, ROUNDING);
}

/* Wherever an outline begins: one corner alone is the nearest, one alone the farthest. */
static void the_ring_does_not_ask_where_an_outline_begins(void **state)
{
    (void)state;
    static const char *const corners[] = {"(100 mm, 0 mm)", "(120 mm, -50 mm)", "(142 mm, 0 mm)",
                                          "(120 mm, 50 mm)"};
    for (int first = 0; first < 4; first++) {
        char lines[200];
        snprintf(lines, sizeof lines, "shape = outline\noutline = %s %s %s %s\n", corners[first],
                 corners[(first + 1) % 4], corners[(first + 2) % 4], corners[(first + 3) % 4]);
        assert_int_equal(
            build(swapped(hot_text(), "inner_radius = 100 mm\nouter_radius = 150 mm\n", lines)),
            BRAKE_OK);
        assert_near(hot.thermal[BRAKE_FRONT].spec.area, 2.0 * ring(0.098, 0.144), 1e-12);
    }
}

/* materials.json: 1.5 W/(m*K) of a pad, 0.04 of hot air. Pads that touch when released have 10 um
 * of air left. */
static void pads_that_are_let_go_have_air_before_them(void **state)
{
    (void)state;
    assert_int_equal(build(swapped(hot_text(), "gap = 0.25 mm", "gap = 0 mm")), BRAKE_OK);
    const struct brake_thermal_spec *spec = &hot.thermal[BRAKE_FRONT].spec;
    const double half = spec->part[BRAKE_PART_PLATE].link;
    const double area = half * value_at(&sheet, "front.disc.pads.thickness") / 2.0 / 1.5 /
                        value_at(&sheet, "heat.pad_conduction");
    const double released = 1.0 / (1.0 / half + 1e-5 / (0.04 * area));
    assert_near(spec->part[BRAKE_PART_PAD].link, released, 1e-12);
    assert_near(spec->contact, half - released, 1e-12);
}

/* Linings over 110 degrees of 300 mm where no ends are told, over both arcs of a servo in the mean;
 * 95 % of a width of 60 mm; wheel cylinders of 20 mm. */
static void linings_are_as_long_as_their_ends_tell(void **state)
{
    (void)state;
    static const char servo[] = "mu = 0.3\npivot_radius = 110 mm\nforce_arm = 200 mm\n"
                                "heel = 20 deg\ntoe = 130 deg\n"
                                "secondary_heel = 10 deg\nsecondary_toe = 140 deg\n";
    const char *const drum = plus(drum_text(), "[front.disc]\nrotor_mass = 7.2 kg\n"
                                               "rotor_diameter = 300 mm\n[heat]\niron = grey_250\n"
                                               "[rear.drum]\ndrum_mass = 7.2 kg\nwidth = 60 mm\n");
    const char *const bare = swapped(drum, "brake_factor = 2\n", "");
    const char *const shaped =
        plus(swapped(bare, "leading_trailing", "duo_servo"), plus("[rear.drum.lining]\n", servo));
    const double cylinder = BRAKE_PI * 0.01 * 0.01;
    const double degree = BRAKE_PI / 180.0 * 0.15 * 0.95 * 0.06;
    assert_int_equal(build(drum), BRAKE_OK);
    assert_near(hot.rig.lining[BRAKE_REAR], cylinder / (110.0 * degree), ROUNDING);
    const struct brake_thermal_spec *rear = &hot.thermal[BRAKE_REAR].spec;
    const double outside = 0.3 + 2.0 * rear->thickness;
    assert_near(rear->back.diameter, outside, ROUNDING);
    assert_near(rear->back.area, BRAKE_PI * outside * 0.06, ROUNDING);
    assert_int_equal(build(shaped), BRAKE_OK);
    assert_near(hot.rig.lining[BRAKE_REAR], cylinder / (120.0 * degree), ROUNDING);
}

/* A second lining of 0.28 beside a first of 0.35 has 0.8 of its friction. */
static void the_second_lining_of_a_servo_has_its_own_friction(void **state)
{
    (void)state;
    const char *const shaped =
        swapped(plus(shoe_text(), "secondary_mu = 0.28\n[front.disc]\nrotor_mass = 7.2 kg\n"
                                  "rotor_diameter = 300 mm\n"
                                  "[rear.drum]\ndrum_mass = 7.2 kg\nwidth = 60 mm\n"),
                "leading_trailing", "duo_servo");
    assert_int_equal(build(shaped), BRAKE_OK);
    assert_near(hot.rig.law[BRAKE_REAR].mu, 0.35, ROUNDING);
    assert_near(hot.rig.law[BRAKE_REAR].secondary_friction, 0.8, ROUNDING);
    assert_true(hot.rig.law[BRAKE_REAR].shaped);
    assert_int_equal(hot.rig.law[BRAKE_REAR].shoes, BRAKE_DUO_SERVO);
    assert_near(hot.rig.law[BRAKE_REAR].power, 2.3, ROUNDING); /* reference/method.md, section 3 */
}

/* Pads that reach the rim leave no cold edge there: heat goes inwards alone. */
static void pads_that_reach_the_rim_warm_one_edge_alone(void **state)
{
    (void)state;
    assert_int_equal(build(hot_text()), BRAKE_OK);
    const struct brake_thermal_spec *front = &hot.thermal[BRAKE_FRONT].spec;
    const double edge = 3.0 * 0.098 / (0.150 - 0.098 + 0.098 - 0.096);
    assert_near(front->part[BRAKE_PART_RIM].link,
                2.0 * BRAKE_PI * 47.5 * 2.0 * front->thickness * edge, 1e-9);
}

/* A rectangle of 60 by 40 mm covers so much of each face; a hat of half a kilogram is one. */
static void small_parts_count_as_they_are(void **state)
{
    (void)state;
    const char *rectangle = swapped(hot_text(), "inner_radius = 100 mm\nouter_radius = 150 mm\n",
                                    "shape = rectangle\nouter_radius = 145 mm\n"
                                    "height = 40 mm\nwidth = 60 mm\n");
    assert_int_equal(build(swapped(rectangle, "hat_mass = 2 kg", "hat_mass = 0.5 kg")), BRAKE_OK);
    const struct brake_thermal_spec *front = &hot.thermal[BRAKE_FRONT].spec;
    assert_near(front->front.area, front->area - 2.0 * 0.060 * 0.040, 1e-12);
    assert_near(front->part[BRAKE_PART_HAT].capacity, 0.5 * 460.0, ROUNDING);
    assert_near(front->part[BRAKE_PART_HAT].cooling.area, 0.5 / (7200.0 * 0.007), ROUNDING);
}

/* Linings whose shoes are known by their geometry: 110 degrees from 20 to 130, 90 from 30 to
 * 120. */
static void shaped_shoes_are_lined_from_heel_to_toe(void **state)
{
    (void)state;
    const char *const shaped =
        plus(shoe_text(), "[front.disc]\nrotor_mass = 7.2 kg\n"
                          "rotor_diameter = 300 mm\n"
                          "[rear.drum]\ndrum_mass = 7.2 kg\nwidth = 60 mm\n");
    const char *const shorter = swapped(swapped(shaped, "heel = 20 deg", "heel = 30 deg"),
                                        "toe = 130 deg", "toe = 120 deg");
    assert_int_equal(build(shaped), BRAKE_OK);
    const double whole = hot.rig.lining[BRAKE_REAR];
    assert_near(whole, BRAKE_PI * 1e-4 / (BRAKE_PI * 110.0 / 180.0 * 0.15 * 0.95 * 0.06), ROUNDING);
    assert_int_equal(build(shorter), BRAKE_OK);
    assert_near(hot.rig.lining[BRAKE_REAR], whole * 110.0 / 90.0, ROUNDING);
}

/* A single pair is known up to its own temperature. */
static void friction_is_known_up_to_its_last_pair(void **state)
{
    (void)state;
    const char *const one = plus(hot_text(), "[front.disc.pads]\nfriction = (150 degC, 0.38)\n");
    assert_int_equal(build(one), BRAKE_OK);
    assert_near(hot.friction_until[BRAKE_FRONT], 423.15, ROUNDING);
    assert_near(brake_friction_at(&hot.friction[BRAKE_FRONT], 300.0, 5.0, 1e6), 0.38, ROUNDING);
    assert_near(brake_friction_at(&hot.friction[BRAKE_FRONT], 800.0, 5.0, 1e6), 0.38, ROUNDING);
    assert_int_equal(build(swapped(one, "(150 degC, 0.38)", "(150 degC, 0.38) (400 degC, 0.3)")),
                     BRAKE_OK);
    assert_near(hot.friction_until[BRAKE_FRONT], 673.15, ROUNDING);
    assert_nan(hot.friction_until[BRAKE_REAR]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_solid_of_the_library_is_that_of_the_reference),
        cmocka_unit_test(the_wall_is_the_ring_that_pads_rub_and_the_rim_is_the_rest),
        cmocka_unit_test(the_ring_follows_the_shape_of_the_pad),
        cmocka_unit_test(the_ring_of_a_circular_pad_scatters_as_the_circle),
        cmocka_unit_test(mass_and_plate_give_the_thickness),
        cmocka_unit_test(vanes_add_what_was_measured_on_a_car),
        cmocka_unit_test(the_whole_heat_capacity_is_that_of_the_mass),
        cmocka_unit_test(the_rig_is_that_of_the_load_case),
        cmocka_unit_test(the_pressure_on_a_lining_is_what_its_pistons_press),
        cmocka_unit_test(friction_is_the_curve_that_is_given_or_the_usual_one),
        cmocka_unit_test(a_friction_curve_that_does_not_rise_or_is_too_long_is_refused),
        cmocka_unit_test(all_that_is_missing_is_told_in_words),
        cmocka_unit_test(a_ring_that_cannot_be_is_refused),
        cmocka_unit_test(a_face_is_one_to_sixty_millimetres_thick),
        cmocka_unit_test(a_ring_has_two_edges),
        cmocka_unit_test(a_drum_takes_its_width_and_the_law_of_its_shoes),
        cmocka_unit_test(rings_too_thick_too_thin_or_past_the_centre_are_refused),
        cmocka_unit_test(a_curve_that_falls_in_temperature_is_refused),
        cmocka_unit_test(a_pad_without_its_edges_covers_its_arc),
        cmocka_unit_test(shoes_rub_at_half_of_the_diameter),
        cmocka_unit_test(the_ring_does_not_ask_where_an_outline_begins),
        cmocka_unit_test(pads_that_are_let_go_have_air_before_them),
        cmocka_unit_test(linings_are_as_long_as_their_ends_tell),
        cmocka_unit_test(the_second_lining_of_a_servo_has_its_own_friction),
        cmocka_unit_test(pads_that_reach_the_rim_warm_one_edge_alone),
        cmocka_unit_test(small_parts_count_as_they_are),
        cmocka_unit_test(shaped_shoes_are_lined_from_heel_to_toe),
        cmocka_unit_test(friction_is_known_up_to_its_last_pair),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
