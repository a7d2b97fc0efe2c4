/* SPDX-License-Identifier: MIT */
/* Parts that may be fitted: which sizes are offered, and what goes with them. Sizes are customary:
 * common practice, no source, as in study/parts.c. Vehicles: ../vehicle/sheet.h. */
#include "../vehicle/sheet.h"

#include "brake/thermal.h"
#include "study/parts.h"
#include "vehicle/sections.h"

static struct brake_sheet sheet;
static struct brake_part_offer offer[BRAKE_PARTS_OFFERED];
static int offers;

static void list(const char *text)
{
    read_sheet(&sheet, text);
    memset(offer, 0, sizeof offer);
    offers = brake_parts_offered(&sheet, offer);
    assert_in_range(offers, 1, BRAKE_PARTS_OFFERED);
    for (int i = 0; i < offers; i++)
        assert_true(offer[i].change.settings > 0);
}

/* The offers that change a line first, in order. */
static int offered(const char *path, const struct brake_part_offer *found[BRAKE_PARTS_OFFERED])
{
    const int line = index_at(&sheet.vehicle, path);
    int count = 0;
    for (int i = 0; i < offers; i++) {
        if (offer[i].change.line[0] == line)
            found[count++] = &offer[i];
    }
    return count;
}

static void expect_sizes(const char *path, const double *size, int sizes)
{
    const struct brake_part_offer *found[BRAKE_PARTS_OFFERED];
    const double now = value_at(&sheet, path);
    assert_int_equal(offered(path, found), sizes);
    for (int i = 0; i < sizes; i++) {
        assert_near(found[i]->change.value[0], size[i], ROUNDING);
        assert_near(found[i]->far, fabs(log(size[i] / now)), 1e-12);
        assert_int_equal(found[i]->place, found[0]->place);
    }
}

/* Pistons of 60 mm: from 0.6 to 1.5 times as large, and not the same once more. Friction of 0.40:
 * from 2 % more on. Pads 125 mm out: up to 15 % farther. */
static void sizes_that_go_onto_the_same_part_are_offered(void **state)
{
    (void)state;
    static const double pistons[] = {0.038, 0.0405, 0.043,  0.045, 0.048, 0.051,
                                     0.054, 0.057,  0.0635, 0.066, 0.070, 0.073};
    static const double friction[] = {0.45, 0.50};
    const double radius[] = {0.125 * 1.05, 0.125 * 1.10, 0.125 * 1.15};
    list(swapped(plain, "pistons = 1 x 60 mm", "pistons = 1 x 60.1 mm"));
    expect_sizes("front.disc.piston_diameter", pistons, 12);
    expect_sizes("front.disc.pads.mu", friction, 2);
    expect_sizes("rear.disc.pads.mu", friction, 2);
    expect_sizes("front.disc.effective_radius", radius, 3);
    const struct brake_part_offer *found[BRAKE_PARTS_OFFERED];
    offered("front.disc.piston_diameter", found);
    assert_string_equal(found[7]->change.words, "front calipers with 57.0 mm pistons");
    assert_int_equal(found[7]->change.takes, BRAKE_REPAIR_BRAKE);
    offered("front.disc.effective_radius", found);
    assert_string_equal(found[0]->change.words,
                        "front rotors that put the pads 1.05 times as far out");
}

/* Cylinders of 20 mm: sixteenths of an inch from 0.75 to 1.35 times as large. Shoes that travel
 * 1 mm are set to 0.8. */
/* Bores go by sixteenths of an inch up to 1 1/8, then 1 1/4. */
static void bores_go_by_sixteenths_of_an_inch(void **state)
{
    (void)state;
    const struct brake_part_offer *found[BRAKE_PARTS_OFFERED];
    list(swapped(plain, "bore = 20 mm", "bore = 27.5 mm"));
    const int count = offered("master.bore", found);
    assert_in_range(count, 4, 10);
    for (int i = 0; i < count; i++) {
        const int sixteenths = i == count - 1 ? 20 : 18 - (count - 2 - i);
        assert_near(found[i]->change.value[0], sixteenths / 16.0 * 0.0254, ROUNDING);
    }
}

static void drums_have_cylinders_and_are_set(void **state)
{
    (void)state;
    static const double travel[] = {0.0008};
    double bores[8];
    for (int i = 0; i < 8; i++)
        bores[i] = (10 + i) / 16.0 * 0.0254;
    list(drum_text());
    expect_sizes("rear.drum.cylinder_diameter", bores, 8);
    expect_sizes("rear.drum.piston_travel", travel, 1);
    list(swapped(drum_text(), "piston_travel = 1 mm", "piston_travel = 0.84 mm"));
    expect_sizes("rear.drum.piston_travel", NULL, 0);
}

/* All pistons of a caliper grow alike, and a rotor with its pads. */
static void what_belongs_to_a_part_grows_with_it(void **state)
{
    (void)state;
    const struct brake_part_offer *found[BRAKE_PARTS_OFFERED];
    list(plus(swapped(plain, "pistons = 1 x 60 mm", "pistons = 1 x 50 mm + 1 x 40 mm"),
              "[front.disc]\nrotor_diameter = 300 mm\n"));
    assert_true(offered("front.disc.piston_diameter", found) > 5);
    for (int i = 0; i < 5; i++) {
        const struct brake_repair_change *change = &found[i]->change;
        assert_int_equal(change->settings, 2);
        assert_int_equal(change->line[1], index_at(&sheet.vehicle, "front.disc.piston_diameter_2"));
        assert_near(change->value[1], 0.8 * change->value[0], ROUNDING);
    }
    static const char *const axles[] = {"front", "rear"};
    list(swapped(
        swapped(plain, "pistons = 1 x 60 mm", "pistons = 1 x 50 mm + 1 x 40 mm + 1 x 30 mm"),
        "pistons = 1 x 30 mm\n", "pistons = 1 x 50 mm + 1 x 40 mm + 1 x 30 mm\n"));
    for (int axle = 0; axle < 2; axle++) {
        char path[3][60];
        for (int i = 0; i < 3; i++)
            snprintf(path[i], sizeof path[i],
                     i > 0 ? "%s.disc.piston_diameter_%d" : "%s.disc.piston_diameter", axles[axle],
                     i + 1);
        assert_true(offered(path[0], found) > 5);
        assert_int_equal(found[0]->change.settings, 3);
        for (int i = 1; i < 3; i++) {
            assert_int_equal(found[0]->change.line[i], index_at(&sheet.vehicle, path[i]));
            assert_near(found[0]->change.value[i], (1.0 - 0.2 * i) * found[0]->change.value[0],
                        ROUNDING);
        }
    }
    list(plus(plain, "[front.disc]\nrotor_diameter = 300 mm\n"));
    assert_int_equal(offered("front.disc.effective_radius", found), 3);
    assert_int_equal(found[1]->change.line[1],
                     index_at(&sheet.vehicle, "front.disc.rotor_diameter"));
    assert_near(found[1]->change.value[1], 0.330, ROUNDING);
}

/* A list of one's own stands for the customary sizes of its lines, and of no other. */
static void ones_own_list_takes_the_place_of_the_customary_sizes(void **state)
{
    (void)state;
    static const double own[] = {0.052, 0.055};
    static const double friction[] = {0.45, 0.50};
    read_sheet(&sheet, plain);
    const int line = index_at(&sheet.vehicle, "front.disc.piston_diameter");
    sheet.own.count = 3;
    for (int i = 0; i < 2; i++) {
        sheet.own.line[2 * i] = line;
        sheet.own.value[2 * i] = own[i];
    }
    sheet.own.line[1] = index_at(&sheet.vehicle, "rear.disc.piston_diameter");
    sheet.own.value[1] = 0.032;
    offers = brake_parts_offered(&sheet, offer);
    expect_sizes("front.disc.piston_diameter", own, 2);
    expect_sizes("rear.disc.piston_diameter", &sheet.own.value[1], 1);
    expect_sizes("front.disc.pads.mu", friction, 2);
    sheet.own.count = 2; /* what stands behind the list is none of it */
    offers = brake_parts_offered(&sheet, offer);
    expect_sizes("front.disc.piston_diameter", own, 1);
    assert_true(brake_parts_sized(line));
    assert_true(brake_parts_sized(index_at(&sheet.vehicle, "front.disc.pads.mu")));
    assert_false(brake_parts_sized(index_at(&sheet.vehicle, "front.disc.effective_radius")));
    assert_false(brake_parts_sized(index_at(&sheet.vehicle, "vehicle.mass")));
}

/* Where no valve and no booster are fitted: those of 15 to 80 bar that let a third through, and one
 * of 8 in. */
static void what_is_not_there_may_be_fitted(void **state)
{
    (void)state;
    static const double knees[] = {15e5, 20e5, 30e5, 40e5, 50e5, 60e5, 80e5};
    const struct brake_part_offer *found[BRAKE_PARTS_OFFERED];
    list(plain);
    assert_int_equal(offered("valve.kind", found), 7);
    for (int i = 0; i < 7; i++) {
        assert_equal(found[i]->change.value[0], BRAKE_VALVE_FIXED);
        assert_near(found[i]->change.value[1], knees[i], ROUNDING);
        assert_near(found[i]->change.value[2], 0.35, ROUNDING);
        assert_near(found[i]->far, 0.5, ROUNDING);
    }
    assert_string_equal(found[3]->change.words, "a rear valve that opens at 40 bar");
    assert_string_equal(found[6]->change.words, "a rear valve that opens at 80 bar");
    assert_int_equal(offered("booster.booster", found), 1);
    assert_equal(found[0]->change.value[0], BRAKE_BOOSTER_VACUUM);
    assert_near(found[0]->change.value[1], 4.0, ROUNDING);
    assert_near(found[0]->change.value[2], 1500.0, ROUNDING);
}

/* The words of an offer of some lines, and that it is among cylinders, levers and valves. */
static void expect_words(const char *path, int number, const char *words)
{
    const struct brake_part_offer *found[BRAKE_PARTS_OFFERED];
    assert_true(number < offered(path, found));
    assert_string_equal(found[number]->change.words, words);
    assert_int_equal(found[number]->change.takes, BRAKE_REPAIR_BORE);
}

/* What is fitted, by sizes (common practice, no source, as in study/parts.c): assist 1200 N, lever
 * 2500 N m, knee 30 bar, pedal 4 to 1, which are not offered once more. */
static void what_is_there_may_be_had_in_other_sizes(void **state)
{
    (void)state;
    static const double assists[] = {1500.0, 1800.0};
    static const double levers[] = {2875.0, 3250.0, 3750.0, 4375.0};
    static const double knees[] = {15e5, 20e5, 40e5, 50e5, 60e5, 80e5};
    static const double pedals[] = {5.0, 6.0};
    const struct brake_part_offer *found[BRAKE_PARTS_OFFERED];
    list(plus(full_text(), "[valve]\nbypass = none\n"));
    expect_sizes("booster.assist", assists, 2);
    expect_sizes("parking.torque", levers, 4);
    expect_sizes("valve.knee", knees, 6);
    expect_sizes("pedal.ratio", pedals, 2);
    expect_words("booster.assist", 1, "a booster of 1.50 times the assist");
    expect_words("parking.torque", 0, "a parking lever and arms of 1.15 times the ratio");
    expect_words("valve.knee", 2, "a rear valve that opens at 40 bar");
    expect_words("valve.knee", 5, "a rear valve that opens at 80 bar");
    expect_words("pedal.ratio", 0, "a pedal of ratio 5.00");
    expect_words("valve.bypass", 0, "a rear valve with a bypass");
    assert_int_equal(offered("valve.bypass", found), 1);
    assert_equal(found[0]->change.value[0], BRAKE_FITTED);
    assert_int_equal(offered("valve.kind", found) + offered("booster.booster", found), 0);
    assert_int_equal(offered("circuits.split", found), 0);
    sheet.vehicle.circuits.split = BRAKE_SPLIT_ONE;
    sheet.vehicle.valve.bypass = BRAKE_FITTED;
    offers = brake_parts_offered(&sheet, offer);
    assert_int_equal(offered("valve.bypass", found), 0);
    expect_words("circuits.split", 0, "a second circuit (tandem master cylinder)");
    assert_int_equal(offered("circuits.split", found), 1);
    assert_equal(found[0]->change.value[0], BRAKE_SPLIT_II);
}

/* One of known levers has those changed, not its torque. */
static void a_lever_that_is_known_is_changed_itself(void **state)
{
    (void)state;
    static const double ratios[] = {69.0, 78.0, 90.0, 105.0};
    const struct brake_part_offer *found[BRAKE_PARTS_OFFERED];
    read_sheet(&sheet, full_text());
    sheet.vehicle.parking.ratio = 60.0;
    offers = brake_parts_offered(&sheet, offer);
    expect_sizes("parking.ratio", ratios, 4);
    assert_int_equal(offered("parking.torque", found), 0);
}

/* Cylinders from 0.75 to 1.35 times 20 mm, shoes that are set; in front as at the rear. */
static void drums_in_front_are_offered_the_same(void **state)
{
    (void)state;
    static const double travel[] = {0.0008};
    const struct brake_part_offer *found[BRAKE_PARTS_OFFERED];
    double bores[8];
    for (int i = 0; i < 8; i++)
        bores[i] = (10 + i) / 16.0 * 0.0254;
    list(drum_text());
    sheet.vehicle.axle[BRAKE_FRONT].axle.brake = BRAKE_DRUM;
    sheet.vehicle.axle[BRAKE_FRONT].drum = sheet.vehicle.axle[BRAKE_REAR].drum;
    offers = brake_parts_offered(&sheet, offer);
    expect_sizes("front.drum.cylinder_diameter", bores, 8);
    expect_sizes("front.drum.piston_travel", travel, 1);
    offered("front.drum.piston_travel", found);
    assert_string_equal(found[0]->change.words, "front shoes set to 0.8 mm of piston travel");
    assert_int_equal(found[0]->change.takes, BRAKE_REPAIR_ADJUST);
    assert_int_equal(offered("front.disc.piston_diameter", found), 0);
}

/* Whether a size is offered where another is fitted. */
static bool is_offered(const char *path, double size, double now)
{
    const struct brake_part_offer *found[BRAKE_PARTS_OFFERED];
    const int line = index_at(&sheet.vehicle, path);
    memcpy(brake_quantity_in(&sheet.vehicle, line), &now, sizeof now);
    offers = brake_parts_offered(&sheet, offer);
    const int count = offered(path, found);
    bool is = false;
    for (int i = 0; i < count; i++)
        is = is || fabs(found[i]->change.value[0] - size) <= 1e-9 * size;
    return is;
}

/* The smallest size and how small it may be of what is fitted, the largest and how large (common
 * practice, no source, as in study/parts.c); a hundredth from what is fitted is no change. */
static void a_size_goes_onto_a_part_within_limits(void **state)
{
    (void)state;
    static const struct {
        const char *path;
        double smallest, least, largest, most;
    } limits[] = {
        {"front.disc.pads.mu", 0.40, 1.02, 0.50, 1.6},
        {"rear.disc.pads.mu", 0.40, 1.02, 0.50, 1.6},
        {"front.disc.piston_diameter", 0.034, 0.6, 0.073, 1.5},
        {"rear.disc.piston_diameter", 0.034, 0.6, 0.073, 1.5},
        {"master.bore", 0.015875, 0.75, 0.03175, 1.35},
        {"pedal.ratio", 4.0, 1.05, 6.0, 4.0},
        {"valve.knee", 15e5, 0.1, 80e5, 10.0},
        {"front.drum.cylinder_diameter", 0.015875, 0.75, 0.03175, 1.35},
        {"rear.drum.cylinder_diameter", 0.015875, 0.75, 0.03175, 1.35},
        {"front.drum.piston_travel", BRAKE_NAN, 0.0, 0.0008, 0.95},
        {"rear.drum.piston_travel", BRAKE_NAN, 0.0, 0.0008, 0.95},
    };
    list(full_text());
    for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++) {
        const bool drum = strstr(limits[i].path, "drum") != NULL;
        for (int axle = 0; axle < BRAKE_AXLES; axle++)
            sheet.vehicle.axle[axle].axle.brake = drum ? BRAKE_DRUM : BRAKE_DISC;
        const char *path = limits[i].path;
        const double small = limits[i].smallest / limits[i].least;
        const double large = limits[i].largest / limits[i].most;
        assert_true(isnan(small) || is_offered(path, limits[i].smallest, small / 1.003));
        assert_true(isnan(small) || !is_offered(path, limits[i].smallest, small * 1.003));
        assert_true(is_offered(path, limits[i].largest, large * 1.003));
        assert_false(is_offered(path, limits[i].largest, large / 1.003));
    }
    for (int axle = 0; axle < BRAKE_AXLES; axle++)
        sheet.vehicle.axle[axle].axle.brake = BRAKE_DISC;
    assert_true(is_offered("front.disc.piston_diameter", 0.060, 0.060 / 1.01005));
    assert_false(is_offered("front.disc.piston_diameter", 0.060, 0.060 / 1.00995));
    assert_true(is_offered("front.disc.piston_diameter", 0.060, 0.060 / 0.98995));
    assert_true(is_offered("pedal.ratio", 6.0, 1.5)); /* limits belong to them */
    assert_true(is_offered("valve.knee", 15e5, 150e5));
}

/* A pedal of 4 to 1 may have 1.05 and 4 times as much: quarters of 4.2 and 16 are those to the last
 * bit. */
static void the_ends_of_what_goes_onto_a_part_are_offered(void **state)
{
    (void)state;
    static const double ratio[] = {4.2, 16.0};
    const int line = brake_catalogue_find(NULL, "pedal.ratio");
    read_sheet(&sheet, plain);
    for (int i = 0; i < 2; i++) {
        sheet.own.line[i] = line;
        sheet.own.value[i] = ratio[i];
    }
    sheet.own.count = 2;
    offers = brake_parts_offered(&sheet, offer);
    expect_sizes("pedal.ratio", ratio, 2);
}

/* One's own list may hold sizes of these, the first to the last that are no multiples of what is
 * fitted. */
static void sizes_of_these_may_be_listed(void **state)
{
    (void)state;
    static const char *const sized[] = {"front.drum.piston_travel", "rear.drum.piston_travel",
                                        "front.disc.pads.mu", "pedal.ratio",
                                        "rear.disc.piston_diameter"};
    for (size_t i = 0; i < sizeof sized / sizeof sized[0]; i++)
        assert_true(brake_parts_sized(brake_catalogue_find(NULL, sized[i])));
    assert_false(brake_parts_sized(brake_catalogue_find(NULL, "rear.disc.effective_radius")));
    assert_false(brake_parts_sized(brake_catalogue_find(NULL, "vehicle.mass")));
}

static void expect_fluids(const char *fluid, int better)
{
    const struct brake_part_offer *found[BRAKE_PARTS_OFFERED];
    char line[60];
    snprintf(line, sizeof line, "[heat]\nfluid = %s\n", fluid);
    list(plus(plain, line));
    assert_int_equal(offered("heat.fluid", found), better);
    const int best = brake_parts_best_fluid(offer, offers);
    if (better > 0) {
        assert_equal(offer[best].change.value[0], BRAKE_DOT_5_1);
        offer[offers] = offer[best]; /* behind the list, it is no offer */
        assert_int_equal(brake_parts_best_fluid(offer, offers), best);
    } else {
        assert_int_equal(best, -1);
    }
}

static void fluids_that_boil_later_are_offered(void **state)
{
    (void)state;
    expect_fluids("DOT3", 2);
    expect_fluids("DOT4", 1);
    expect_fluids("DOT5.1", 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sizes_that_go_onto_the_same_part_are_offered),
        cmocka_unit_test(bores_go_by_sixteenths_of_an_inch),
        cmocka_unit_test(drums_have_cylinders_and_are_set),
        cmocka_unit_test(what_belongs_to_a_part_grows_with_it),
        cmocka_unit_test(ones_own_list_takes_the_place_of_the_customary_sizes),
        cmocka_unit_test(what_is_not_there_may_be_fitted),
        cmocka_unit_test(what_is_there_may_be_had_in_other_sizes),
        cmocka_unit_test(a_lever_that_is_known_is_changed_itself),
        cmocka_unit_test(drums_in_front_are_offered_the_same),
        cmocka_unit_test(a_size_goes_onto_a_part_within_limits),
        cmocka_unit_test(the_ends_of_what_goes_onto_a_part_are_offered),
        cmocka_unit_test(sizes_of_these_may_be_listed),
        cmocka_unit_test(fluids_that_boil_later_are_offered),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
