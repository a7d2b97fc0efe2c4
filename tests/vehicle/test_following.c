/* SPDX-License-Identifier: MIT */
/* What follows from a line: sweeps work out anew only the sections that may change with it, and
 * fill only the columns of lanes that are built from those. Expected: a vehicle worked out from
 * scratch with that line moved. */
#include "sheet.h"

#include "brake/system.h"

#include "vehicle/lane.h"
#include "vehicle/recalculation.h"
#include "vehicle/system.h"
#include "vehicle/work.h"

static struct brake_sheet sheet;
static struct brake_recalculation recalculation;

static void begin(const char *text)
{
    struct brake_error error;
    read_sheet(&sheet, text);
    assert_int_equal(brake_recalculation_begin(&sheet, NULL, NULL, 0, &recalculation, &error),
                     BRAKE_OK);
}

/* Numbers that stand by themselves, given or by default. */
static bool may_move(int index)
{
    const struct brake_record *record = &sheet.record[index];
    return brake_quantity_at(index)->kind == BRAKE_REAL && record->from != BRAKE_ABSENT &&
           !record->worked;
}

static void move(int index, struct brake_vehicle *moved)
{
    const double value = brake_quantity_value(&sheet.vehicle, index);
    brake_sheet_vary(&sheet, &recalculation.places, index, value + 1e-3 * fmax(fabs(value), 1e-3),
                     moved);
}

static bool same(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

static unsigned long long section_bit(int index)
{
    return 1ULL << (recalculation.places.of[index].section - brake_sections);
}

static void expect_reached(int from, int to)
{
    if ((work_reached(&recalculation, from) & section_bit(to)) == 0)
        print_error("%s moves %s\n", brake_quantity_at(from)->name, brake_quantity_at(to)->name);
    assert_true((work_reached(&recalculation, from) & section_bit(to)) != 0);
}

/* Each line is moved; what moves with it must be reached. */
static void expect_lines_reached(void)
{
    static struct brake_vehicle moved;
    for (int i = 0; i < brake_catalogue_count(); i++) {
        if (!may_move(i))
            continue;
        move(i, &moved);
        for (int j = 0; j < brake_catalogue_count(); j++) {
            if (!same(brake_quantity_value(&sheet.vehicle, j), brake_quantity_value(&moved, j)))
                expect_reached(i, j);
        }
    }
}

static void fill(const struct brake_vehicle *vehicle, enum brake_failure failure,
                 struct brake_lane_numbers *numbers)
{
    memset(numbers, 0, sizeof *numbers);
    brake_lane_fill(vehicle, (struct brake_lane_state){BRAKE_FULL, failure}, 0, numbers);
}

/* Whether columns of a part differ in the first lane. */
static bool differ(const struct brake_lane_part *part, const struct brake_lane_numbers *a,
                   const struct brake_lane_numbers *b)
{
    const brake_column *one = (const brake_column *)a;
    const brake_column *other = (const brake_column *)b;
    for (int column = part->first; column <= part->last; column++) {
        if (!same(one[column][0], other[column][0]))
            return true;
    }
    return false;
}

/* Each line is moved; the parts of a lane whose columns move must be built from a section that is
 * reached. Returns, as bits, which parts were seen to move. */
static unsigned expect_columns_reached(enum brake_failure failure)
{
    static struct brake_lane_numbers before;
    static struct brake_lane_numbers after;
    static struct brake_vehicle moved;
    unsigned seen = 0;
    fill(&sheet.vehicle, failure, &before);
    for (int i = 0; i < brake_catalogue_count(); i++) {
        if (!may_move(i))
            continue;
        move(i, &moved);
        fill(&moved, failure, &after);
        for (int number = 0; number < BRAKE_LANE_PARTS; number++) {
            const struct brake_lane_part part = brake_lane_part(number, failure);
            if (!differ(&part, &before, &after))
                continue;
            if ((part.sections & work_reached(&recalculation, i)) == 0)
                print_error("%s moves part %d\n", brake_quantity_at(i)->name, number);
            assert_true((part.sections & work_reached(&recalculation, i)) != 0);
            seen |= 1u << number;
        }
    }
    return seen;
}

/* Readings of every kind: scales, tilt, a tester, a pull, weighed loads, tyres of their own. */
static const char *read_off(const char *parking)
{
    const char *text =
        swapped(plain, "mass = 2000 kg\nfront_share = 50 %\ncg_height = 800 mm\n", "");
    text = swapped(text, "effective_radius = 125 mm\n", "");
    text = swapped(text, "effective_radius = 0.125 m\n", "");
    text = swapped(text, "unsprung_mass = 400 kg\n", "");
    text = swapped(text, "ratio = 4\n", "pad_arm = 300 mm\nrod_arm = 75 mm\ntravel = 150 mm\n");
    text = swapped(text,
                   "[load.full]\nmass = 500 kg\nbehind_front_axle = 2000 mm\n"
                   "height = 1000 mm\n",
                   "");
    text = plus(text, "[scales]\nfront_axle = 1000 kg\nrear_left = 500 kg\nrear_right = 500 kg\n"
                      "[tilt]\nrise = 0.7 m\nground_axle_level = 1000 kg\n"
                      "ground_axle_tilted = 1105 kg\nhub_height = 400 mm\n"
                      "[tester]\nfront_left = 2700 N\nfront_right = 3000 N\nrear_left = 900 N\n"
                      "rear_right = 1000 N\n[front.axle]\nrated_mass = 1200 kg\n"
                      "[rear.axle]\nrated_mass = 1400 kg\n[lift]\nsuspension = 50 mm\n"
                      "[rear.tyre]\nrollout = 2.6 m\nwheel_mass = 30 kg\n"
                      "[front.disc.pads]\ninner_radius = 100 mm\nouter_radius = 150 mm\n"
                      "[rear.disc.pads]\ninner_radius = 100 mm\nouter_radius = 150 mm\n"
                      "[part.winch]\nmass = 40 kg\nbehind_front_axle = -0.5 m\nheight = 0.7 m\n"
                      "[driveline]\naxle_ratio = 4\ngear_ratio = 0.8\n");
    return plus(text, parking);
}

/* Drums at both axles, with the shape of their shoes or without. */
static const char *drums(const char *shape, const char *parking)
{
    static const char *const names[] = {"front", "rear"};
    const char *text = "[vehicle]\nname = Drums\nmass = 1600 kg\nfront_share = 50 %\n"
                       "cg_height = 650 mm\nwheelbase = 2500 mm\nrated_mass = 2000 kg\n"
                       "[master]\nbore = 1 in\n[pedal]\nratio = 4\ntravel = 150 mm\n"
                       "[booster]\nbooster = hydraulic\npiston_diameter = 30 mm\n"
                       "[circuits]\nsplit = II\n";
    for (int i = 0; i < 2; i++) {
        char lines[600];
        snprintf(lines, sizeof lines,
                 "[%s.axle]\nbrake = drum\n[%s.tyre]\nmarking = LT235/85R16\nwheel_mass = %d kg\n"
                 "[%s.drum]\nshoes = duo_servo\ndiameter = 280 mm\ncylinder_diameter = 22 mm\n"
                 "[%s.drum.lining]\nmu = 0.3\n%s",
                 names[i], names[i], 25 + i, names[i], names[i], shape);
        text = plus(text, lines);
    }
    return plus(text, parking);
}

static const char shape[] = "pivot_radius = 110 mm\nforce_arm = 200 mm\nheel = 20 deg\n"
                            "toe = 130 deg\n";
static const char in_front[] = "[parking]\non = front\nratio = 25\nradius = 140 mm\n";
static const char at_rear[] = "[parking]\non = rear\nratio = 25\nradius = 140 mm\n";

static void what_moves_with_a_line_is_worked_out_anew(void **state)
{
    (void)state;
    const char *const texts[] = {plain,
                                 full_text(),
                                 read_off("[parking]\non = front\npull = 2000 N\n"),
                                 read_off("[parking]\non = rear\npull = 2000 N\n"),
                                 read_off("[tester]\nparking_left = 900 N\nparking_right = 950 N\n"
                                          "lever_force = 300 N\n"),
                                 drums(shape, in_front),
                                 drums(shape, at_rear),
                                 drums("", in_front),
                                 drums("", at_rear)};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        begin(texts[i]);
        expect_lines_reached();
    }
}

/* Some that are easily forgotten: each moves the other, and is seen to. */
static void lines_of_one_section_move_those_of_another(void **state)
{
    (void)state;
    static const struct {
        const char *from, *to;
        bool drums;
    } pairs[] = {{"front.tyre.rolling_radius", "parking.torque", false},
                 {"tester.front_left", "front.axle.side_difference", false},
                 {"tester.rear_right", "rear.axle.side_difference", false},
                 {"front.axle.rated_mass", "load.full.behind_front_axle", false},
                 {"rear.axle.rated_mass", "load.full.behind_front_axle", false},
                 {"scales.rear_left", "vehicle.mass", false},
                 {"scales.rear_left", "load.full.mass", false},
                 {"part.winch.mass", "load.full.mass", false},
                 {"tilt.rise", "vehicle.cg_height", false},
                 {"front.drum.cylinder_diameter", "front.drum.compliance", true},
                 {"front.drum.lining.mu", "parking.torque", true},
                 {"front.drum.diameter", "parking.torque", true},
                 {"front.drum.lining.heel", "front.drum.lining.secondary_heel", true}};
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        static struct brake_vehicle moved;
        begin(pairs[i].drums ? drums(shape, in_front)
                             : read_off("[parking]\non = front\npull = 2000 N\n"));
        const int to = index_at(&sheet.vehicle, pairs[i].to);
        move(index_at(&sheet.vehicle, pairs[i].from), &moved);
        assert_false(same(value_at(&sheet, pairs[i].to), brake_quantity_value(&moved, to)));
        expect_reached(index_at(&sheet.vehicle, pairs[i].from), to);
    }
}

/* A rear tyre that is left out moves with the front one, and nothing in front with the rear. */
static void a_tyre_that_repeats_another_is_reached_by_it(void **state)
{
    (void)state;
    begin(plain);
    const int front = index_at(&sheet.vehicle, "front.tyre.rolling_radius");
    const int rear = index_at(&sheet.vehicle, "rear.tyre.rolling_radius");
    expect_reached(front, rear);
    assert_int_equal(work_reached(&recalculation, rear) & section_bit(front), 0);
}

/* What no rule reads moves itself alone. */
static void a_line_that_nothing_follows_reaches_itself(void **state)
{
    (void)state;
    static const char *const paths[] = {"stop.speed", "road.adhesion", "driver.target",
                                        "heat.ambient", "trailer.mass"};
    begin(plain);
    for (size_t i = 0; i < sizeof paths / sizeof paths[0]; i++) {
        const int index = index_at(&sheet.vehicle, paths[i]);
        assert_true(work_reached(&recalculation, index) == section_bit(index));
    }
}

static void what_moves_in_a_lane_is_filled_anew(void **state)
{
    (void)state;
    static const enum brake_failure failures[] = {BRAKE_INTACT, BRAKE_FIRST_CIRCUIT,
                                                  BRAKE_NO_ASSIST, BRAKE_IN_GEAR};
    const char *const texts[] = {full_text(), read_off("[parking]\non = front\npull = 2000 N\n"),
                                 drums(shape, in_front), drums("", at_rear)};
    unsigned seen = 0;
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        begin(texts[i]);
        for (size_t j = 0; j < sizeof failures / sizeof failures[0]; j++)
            seen |= expect_columns_reached(failures[j]);
    }
    /* All parts but three: with a booster or without, which wheels are braked, and the grade of the
     * test of parking brakes move with no number. */
    assert_int_equal(seen, (1u << BRAKE_LANE_PARTS) - 1 - (1u << 15) - (1u << 16) - (1u << 23));
}

/* What a lane is told besides numbers of the file: whether there is a booster, a trailer of any
 * mass, a failure that there can be; and the sine of the slope that parking brakes are tested on,
 * 20 % (UN R13-H, Annex 3, 2.3). */
static void a_lane_is_told_what_is_there(void **state)
{
    (void)state;
    static struct brake_lane_numbers n;
    begin(full_text());
    fill(&sheet.vehicle, BRAKE_NO_ASSIST, &n);
    assert_equal(n.boosted[0], 1.0);
    assert_equal(n.there[0], 1.0);
    assert_near(n.trailer_ratio[0], 0.4, ROUNDING);
    assert_near(n.test_grade[0], sin(atan(0.20)), ROUNDING);
    begin(plus(plain, "[trailer]\nmass = 0.5 kg\nbraking_ratio = 30 %\n"));
    fill(&sheet.vehicle, BRAKE_NO_ASSIST, &n);
    assert_equal(n.boosted[0], 0.0);
    assert_equal(n.there[0], 0.0);
    assert_near(n.trailer_ratio[0], 0.3, ROUNDING);
    begin(plain);
    fill(&sheet.vehicle, BRAKE_INTACT, &n);
    assert_equal(n.there[0], 1.0);
    assert_nan(n.trailer_ratio[0]);
}

/* Both axles and both circuits stand in their own columns; iron: 450 J/(kg K),
 * reference/method.md. */
static void a_lane_holds_both_axles_and_both_circuits(void **state)
{
    (void)state;
    static struct brake_lane_numbers n;
    struct brake_system system;
    begin(full_text());
    fill(&sheet.vehicle, BRAKE_INTACT, &n);
    brake_system_build(&sheet.vehicle, BRAKE_FULL, BRAKE_INTACT, &system);
    for (int i = 0; i < 2; i++) {
        const struct brake_axle_of_vehicle *axle = &sheet.vehicle.axle[i];
        assert_equal(n.rated_axle[i][0], axle->axle.rated_mass);
        assert_equal(n.tyres[i][0], 2.0 * axle->tyre.load_capacity);
        assert_near(n.heat_capacity[i][0], 2.0 * axle->disc.rotor_mass * 450.0, ROUNDING);
        assert_equal(n.brakes[i].gain[0], system.balance.axle[i].gain);
        assert_equal(n.wheels[i].radius[0], axle->tyre.rolling_radius);
        assert_equal(n.circuit[i].gaps[0], system.circuit[i].gaps);
        assert_equal(n.circuit[i].take_up[0], system.circuit[i].take_up);
        assert_equal(n.stroke[i][0], system.stroke[i]);
    }
}

/* As brake_sheet_set and brake_sheet_complete give it. */
static enum brake_status from_scratch(const char *text, const int *index, const double *value,
                                      int count, struct brake_vehicle *vehicle)
{
    static struct brake_sheet scratch;
    struct brake_error error;
    read_sheet(&scratch, text);
    for (int i = 0; i < count; i++)
        assert_int_equal(brake_sheet_set(&scratch, index[i], value[i]), BRAKE_OK);
    const enum brake_status status = brake_sheet_complete(&scratch, &error);
    *vehicle = scratch.vehicle;
    return status;
}

static void expect_cases(const char *text, const char *const paths[2], const double (*values)[2],
                         int cases)
{
    static struct brake_vehicle vehicle;
    struct brake_error error;
    read_sheet(&sheet, text);
    const int index[] = {index_at(&sheet.vehicle, paths[0]), index_at(&sheet.vehicle, paths[1])};
    assert_int_equal(brake_recalculation_begin(&sheet, index, values[0], 2, &recalculation, &error),
                     BRAKE_OK);
    for (int i = 0; i < cases; i++) {
        const enum brake_status status = from_scratch(text, index, values[i], 2, &vehicle);
        assert_int_equal(brake_recalculation_case(&recalculation, index, values[i], 2, &error),
                         status);
        for (int j = 0; status == BRAKE_OK && j < brake_catalogue_count(); j++)
            assert_true(same(brake_quantity_value(&recalculation.sheet.vehicle, j),
                             brake_quantity_value(&vehicle, j)));
    }
}

/* Of no force at a tester no difference of sides is known, of the next case it is again. */
static void what_is_no_longer_known_is_forgotten(void **state)
{
    (void)state;
    static const double values[][2] = {{2700.0, 3000.0}, {0.0, 0.0}, {2700.0, 2700.0}, {0.0, 0.0}};
    static const char *const axles[][2] = {{"tester.front_left", "tester.front_right"},
                                           {"tester.rear_left", "tester.rear_right"}};
    const char *text = plus(plain, "[tester]\nfront_left = 2700 N\nfront_right = 3000 N\n"
                                   "rear_left = 2700 N\nrear_right = 3000 N\n");
    for (int axle = 0; axle < 2; axle++)
        expect_cases(text, axles[axle], values, 4);
    assert_nan(recalculation.sheet.vehicle.axle[BRAKE_REAR].axle.side_difference);
    assert_near(recalculation.sheet.vehicle.axle[BRAKE_FRONT].axle.side_difference, 0.1, 1e-12);
}

/* An inner edge outside of the outer one is refused while it is there, whatever else changes. */
static void a_refusal_lasts_as_long_as_its_reason(void **state)
{
    (void)state;
    static const double values[][2] = {{0.10, 20.0}, {0.16, 20.0}, {0.16, 25.0},
                                       {0.16, 25.0}, {0.12, 25.0}, {0.12, 30.0}};
    static const char *const paths[] = {"front.disc.pads.inner_radius", "stop.speed"};
    expect_cases(plus(swapped(plain, "effective_radius = 125 mm\n", ""),
                      "[front.disc.pads]\ninner_radius = 100 mm\nouter_radius = 150 mm\n"),
                 paths, values, 6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_moves_with_a_line_is_worked_out_anew),
        cmocka_unit_test(lines_of_one_section_move_those_of_another),
        cmocka_unit_test(a_tyre_that_repeats_another_is_reached_by_it),
        cmocka_unit_test(a_line_that_nothing_follows_reaches_itself),
        cmocka_unit_test(what_moves_in_a_lane_is_filled_anew),
        cmocka_unit_test(a_lane_is_told_what_is_there),
        cmocka_unit_test(a_lane_holds_both_axles_and_both_circuits),
        cmocka_unit_test(what_is_no_longer_known_is_forgotten),
        cmocka_unit_test(a_refusal_lasts_as_long_as_its_reason),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
