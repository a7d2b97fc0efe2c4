/* SPDX-License-Identifier: MIT */
/* What a brake in heat may be made of: from one end of each range, far beyond any road brake, to
 * the other, and nothing beyond. The ranges are the library's own (convection.h, thermal.h): the
 * ends of what its arithmetic was tried on; no source. */
#include <stdbool.h>

#include "near.h"

#include "brake/thermal.h"

struct range {
    double *at;
    double least, most;
};

static struct brake_thermal_spec spec;

static bool built(void)
{
    static struct brake_thermal brake;
    return brake_thermal_build(&spec, &brake) == BRAKE_OK;
}

/* At both ends, and a part in a billion beyond them; of an end at 0, less than nothing. */
static void hold_range(struct range range, bool (*good)(void))
{
    const double was = *range.at;
    const double ends[] = {range.least, range.most};
    const double beyond[] = {range.least > 0.0 ? range.least * (1.0 - 1e-9) : -1e-9,
                             range.most * (1.0 + 1e-9)};
    assert_true(good());
    for (int i = 0; i < 2; i++) {
        *range.at = ends[i];
        if (!good())
            fail_msg("%.17g is refused", ends[i]);
        *range.at = beyond[i];
        if (good())
            fail_msg("%.17g is taken", beyond[i]);
    }
    *range.at = was;
}

/* A wall of three points, ten cells of 1 mm or more, no surface that needs anything, one part. */
static void begin(void)
{
    spec = (struct brake_thermal_spec){.material = {.points = 3,
                                                    .density = 7200.0,
                                                    .temperature = {300.0, 500.0, 700.0},
                                                    .conductivity = {49.0, 47.0, 45.0},
                                                    .heat_capacity = {430.0, 500.0, 570.0}},
                                       .area = 0.09,
                                       .thickness = 0.010,
                                       .cells = 10,
                                       .ratio = 1.2,
                                       .share = 1.0,
                                       .front = {.law = BRAKE_COOLING_FIXED},
                                       .back = {.law = BRAKE_COOLING_FIXED},
                                       .pressure = BRAKE_ATMOSPHERE,
                                       .tolerance = 1e-3};
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++)
        spec.part[i].cooling.law = BRAKE_COOLING_FIXED;
    spec.part[BRAKE_PART_PAD] =
        (struct brake_lump){.capacity = 1000.0, .cooling = {.law = BRAKE_COOLING_FIXED}};
}

static void a_wall_has_ranges(void **state)
{
    (void)state;
    begin();
    const struct range ranges[] = {
        {&spec.material.density, 1.0, 1e5},
        {&spec.area, 1e-6, 1e3},
        {&spec.thickness, 1e-5, 10.0},
        {&spec.ratio, 1.0, 10.0},
        {&spec.share, 0.0, 1.0},
        {&spec.back_share, 0.0, 1.0},
        {&spec.contact, 0.0, 1e9},
        {&spec.pressure, 1e2, 1e7},
        {&spec.tolerance, 1e-9, 10.0},
    };
    for (size_t i = 0; i < sizeof ranges / sizeof *ranges; i++)
        hold_range(ranges[i], built);
    for (int i = 0; i < spec.material.points; i++) {
        hold_range((struct range){&spec.material.conductivity[i], 1e-3, 1e5}, built);
        hold_range((struct range){&spec.material.heat_capacity[i], 1.0, 1e5}, built);
    }
}

/* Temperatures rise: one that is its neighbour is refused, one above it is taken. */
static void a_table_of_a_material_rises(void **state)
{
    (void)state;
    begin();
    spec.material.points = 1;
    hold_range((struct range){&spec.material.temperature[0], 1.0, 1e4}, built);
    spec.material.points = 3;
    spec.material.temperature[1] = 300.0;
    assert_false(built());
    spec.material.temperature[1] = 300.0001;
    assert_true(built());
    spec.material.temperature[2] = 300.0001;
    assert_false(built());
}

/* The first cell is no thicker than the others can be. */
static void cells_have_ranges(void **state)
{
    (void)state;
    begin();
    spec.first_cell = 5e-4;
    hold_range((struct range){&spec.first_cell, 1e-7, 1e-3}, built);
    static const int counts[][2] = {
        {1, 1}, {BRAKE_WALL_CELLS, 1}, {0, 0}, {BRAKE_WALL_CELLS + 1, 0}};
    spec.first_cell = 0.0;
    spec.ratio = 1.0;
    for (int i = 0; i < 4; i++) {
        spec.cells = counts[i][0];
        assert_int_equal(built(), counts[i][1]);
    }
}

static void parts_have_ranges(void **state)
{
    (void)state;
    begin();
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++) {
        struct brake_lump *part = &spec.part[i];
        part->capacity = 1.0;
        hold_range((struct range){&part->capacity, 1e-3, 1e9}, built);
        hold_range((struct range){&part->link, 0.0, 1e9}, built);
        part->cooling.factor = -1.0;
        assert_false(built());
        part->cooling.factor = 0.0;
    }
    spec.front.factor = -1.0;
    assert_false(built());
    begin();
    spec.back.factor = -1.0;
    assert_false(built());
}

/* Without a pad nothing can take what the wall does not; heat at the back has no pad there. */
static void what_the_wall_does_not_take_needs_a_pad(void **state)
{
    (void)state;
    begin();
    spec.part[BRAKE_PART_PAD].capacity = 0.0;
    assert_true(built());
    spec.share = 0.9;
    assert_false(built());
    spec.share = 1.0;
    spec.contact = 1.0;
    assert_false(built());
    begin();
    spec.share = 0.9;
    spec.contact = 1.0;
    assert_true(built());
    spec.back_share = 0.5;
    assert_false(built());
    spec.contact = 0.0;
    assert_true(built());
}

static struct brake_thermal_drive drive;
static double duration, start;

/* A brake that goes on for so long from a temperature; no time is no change, but asks all else. */
static bool goes_on(void)
{
    static struct brake_thermal brake;
    static struct brake_thermal_state now;
    return brake_thermal_build(&spec, &brake) == BRAKE_OK &&
           brake_thermal_start(&brake, start, &now) == BRAKE_OK &&
           brake_thermal_advance(&brake, &drive, duration, &now) == BRAKE_OK;
}

static void what_happens_to_a_brake_has_ranges(void **state)
{
    (void)state;
    begin();
    drive = (struct brake_thermal_drive){0.0, 0.0, 0.0, 0.0, 300.0};
    duration = 0.0;
    start = 300.0;
    const struct range ranges[] = {
        {&drive.power_begin, 0.0, 1e12}, {&drive.power_end, 0.0, 1e12},
        {&drive.speed_begin, 0.0, 1e3},  {&drive.speed_end, 0.0, 1e3},
        {&drive.air, 1.0, 5000.0},       {&duration, 0.0, 1e9},
        {&start, 1.0, 5000.0},
    };
    for (size_t i = 0; i < sizeof ranges / sizeof *ranges; i++)
        hold_range(ranges[i], goes_on);
}

static struct brake_cooling cooling;

static bool usable(void)
{
    return brake_cooling_usable(&cooling) != 0;
}

static void surfaces_have_ranges(void **state)
{
    (void)state;
    static const struct {
        enum brake_cooling_law law;
        double *at;
        double least, most;
    } own[] = {
        {BRAKE_COOLING_POWER, &cooling.exponent, 0.0, 3.0},
        {BRAKE_COOLING_DISC, &cooling.rolling_radius, 1e-3, 1e3},
        {BRAKE_COOLING_DISC, &cooling.diameter, 1e-3, 1e3},
        {BRAKE_COOLING_FACE, &cooling.diameter, 1e-3, 1e3},
        {BRAKE_COOLING_DRUM, &cooling.diameter, 1e-3, 1e3},
        {BRAKE_COOLING_CYLINDER, &cooling.diameter, 1e-3, 1e3},
        {BRAKE_COOLING_VANES, &cooling.rolling_radius, 1e-3, 1e3},
        {BRAKE_COOLING_VANES, &cooling.vanes.inlet_area, 1e-12, 1e3},
        {BRAKE_COOLING_VANES, &cooling.vanes.outlet_area, 1e-12, 1e3},
        {BRAKE_COOLING_VANES, &cooling.vanes.hydraulic_diameter, 1e-6, 10.0},
    };
    for (size_t i = 0; i < sizeof own / sizeof *own; i++) {
        cooling = (struct brake_cooling){
            own[i].law, 0.1, 0.5, 0.0, 0.5, 0.8, 0.3, 0.4, {0.085, 0.140, 0.0065, 0.0090, 0.0140}};
        hold_range((struct range){&cooling.area, 0.0, 1e4}, usable);
        hold_range((struct range){&cooling.emissivity, 0.0, 1.0}, usable);
        hold_range((struct range){&cooling.still, 0.0, 1e6}, usable);
        hold_range((struct range){&cooling.factor, 0.0, 1e6}, usable);
        hold_range((struct range){own[i].at, own[i].least, own[i].most}, usable);
    }
    cooling.vanes.inner_radius = cooling.vanes.outer_radius;
    assert_false(usable());
    cooling.vanes.inner_radius = 0.0;
    cooling.vanes.outer_radius = 10.0;
    assert_true(usable());
    cooling.vanes.outer_radius = 10.0 * (1.0 + 1e-9);
    assert_false(usable());
    cooling.vanes = (struct brake_vanes){-1e-9, 0.14, 0.0065, 0.0090, 0.0140};
    assert_false(usable());
    cooling.law = BRAKE_COOLING_LAWS;
    assert_false(usable());
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_wall_has_ranges),
        cmocka_unit_test(a_table_of_a_material_rises),
        cmocka_unit_test(cells_have_ranges),
        cmocka_unit_test(parts_have_ranges),
        cmocka_unit_test(what_the_wall_does_not_take_needs_a_pad),
        cmocka_unit_test(what_happens_to_a_brake_has_ranges),
        cmocka_unit_test(surfaces_have_ranges),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
