/* SPDX-License-Identifier: MIT */
/* What is uncertain about a vehicle, and its samples. Vehicle: ../vehicle/sheet.h. */
#include "../vehicle/sheet.h"

#include "criteria/judge.h"
#include "study/inputs.h"
#include "study/distribution.h"
#include "study/sobol.h"

static struct brake_sheet sheet;
static struct brake_inputs inputs;

/* Left out of the plain vehicle: front.disc.rotor, rear.disc.rotor, valve.bypass, heat.fluid; and
 * the model's errors. */
enum { CHOICES = 4, ERRORS = BRAKE_MODEL_ERRORS - 1 };

static void list(const char *text)
{
    read_sheet(&sheet, text);
    brake_inputs_list(&sheet, NULL, &inputs);
}

static void list_exact_but(const char *text, const char *path, double tolerance)
{
    read_sheet(&sheet, text);
    make_exact(&sheet);
    state_tolerance(&sheet, path, tolerance, BRAKE_ESTIMATED);
    brake_inputs_list(&sheet, NULL, &inputs);
}

static int number_of(const char *name)
{
    char found[160];
    for (int i = 0; i < brake_inputs_count(&inputs); i++) {
        brake_inputs_name(&inputs, i, found, sizeof found);
        if (strcmp(found, name) == 0)
            return i;
    }
    return -1;
}

static void what_comes_from_readings_is_not_doubtful_by_itself(void **state)
{
    (void)state;
    list(plus(swapped(plain, "mass = 2000 kg\nfront_share = 50 %\n", ""),
              "[scales]\nfront_left = 500 kg\nfront_right = 510 kg\nrear_left = 480 kg\n"
              "rear_right = 510 kg\n"));
    assert_true(number_of("scales.front_left") >= 0);
    assert_int_equal(number_of("vehicle.mass"), -1);
    assert_int_equal(number_of("vehicle.front_share"), -1);
}

static void only_numbers_with_a_tolerance_are_listed(void **state)
{
    (void)state;
    list_exact_but(plain, "front.disc.pads.mu", 0.04);
    assert_int_equal(inputs.count, 1 + CHOICES);
    assert_int_equal(inputs.causes, 0);
    assert_int_equal(brake_inputs_count(&inputs), 1 + CHOICES + ERRORS);
    assert_int_equal(number_of("front.disc.pads.mu"), 1);
}

static void a_vehicle_without_tolerances_has_nothing_uncertain(void **state)
{
    (void)state;
    read_sheet(&sheet, plain);
    make_exact(&sheet);
    brake_inputs_list(&sheet, NULL, &inputs);
    assert_int_equal(brake_inputs_count(&inputs), CHOICES + ERRORS);
}

static void a_cause_needs_two_numbers_that_share_it(void **state)
{
    (void)state;
    list_exact_but(plain, "front.disc.pads.mu", 0.04);
    assert_int_equal(number_of("shared.friction"), -1);
    state_tolerance(&sheet, "rear.disc.pads.mu", 0.04, BRAKE_ESTIMATED);
    brake_inputs_list(&sheet, NULL, &inputs);
    assert_int_equal(inputs.causes, 1);
    /* Behind the numbers. */
    assert_int_equal(number_of("shared.friction"), 2 + CHOICES);
}

static void every_cause_names_known_paths_and_a_reason(void **state)
{
    (void)state;
    const struct brake_cause *cause;
    for (int i = 0; (cause = brake_cause_at(i)) != NULL; i++) {
        /* half of what is off, or more where a rule or an age is all there is (common practice) */
        const bool more =
            strcmp(cause->id, "shared.gap") == 0 || strcmp(cause->id, "shared.inertia") == 0;
        assert_true(cause->correlation == (more ? 0.7 : 0.5));
        assert_true(strlen(cause->words) > 15 && strlen(cause->source) > 10);
        assert_non_null(cause->path[1]);
        for (int k = 0; k < BRAKE_CAUSE_PATHS && cause->path[k] != NULL; k++)
            assert_true(brake_catalogue_find(NULL, cause->path[k]) >= 0);
    }
    assert_null(brake_cause_at(-1));
}

/* In the middle of a range wide enough, half of the values lie below the one stated. */
static void the_middle_share_is_the_vehicle_as_stated(void **state)
{
    (void)state;
    double share[BRAKE_INPUTS];
    struct brake_vehicle vehicle;
    list_exact_but(plain, "front.disc.pads.mu", 0.04);
    state_tolerance(&sheet, "rear.disc.pads.mu", 0.04, BRAKE_ESTIMATED);
    brake_inputs_list(&sheet, NULL, &inputs);
    for (int i = 0; i < brake_inputs_count(&inputs); i++)
        share[i] = 0.5;
    brake_inputs_vehicle(&inputs, share, &vehicle);
    assert_near(vehicle.axle[BRAKE_FRONT].pads.mu, 0.4, 1e-14);
    assert_near(vehicle.axle[BRAKE_REAR].pads.mu, 0.4, 1e-14);
}

/* The frictions of both axles, 0.4 within 0.02 and 0.04, by one share at 0.975, all others in the
 * middle. */
static void values_at_a_high_share(const char *high, double value[BRAKE_INPUTS])
{
    double share[BRAKE_INPUTS];
    list_exact_but(plain, "front.disc.pads.mu", 0.02);
    state_tolerance(&sheet, "rear.disc.pads.mu", 0.04, BRAKE_ESTIMATED);
    brake_inputs_list(&sheet, NULL, &inputs);
    for (int i = 0; i < brake_inputs_count(&inputs); i++)
        share[i] = 0.5;
    share[number_of(high)] = 0.975;
    brake_inputs_values(&inputs, share, value);
}

/* A cause of correlation 0.5 at its share of 0.975: every number at Phi(1.96 sqrt(0.5)), that is
 * 1.96 sqrt(0.5) of its sigma of 0.02 / 1.96 up. */
static void a_cause_moves_all_its_numbers(void **state)
{
    (void)state;
    double value[BRAKE_INPUTS];
    values_at_a_high_share("shared.friction", value);
    assert_near(value[number_of("front.disc.pads.mu")], 0.4 + sqrt(0.5) * 0.02, 1e-12);
    assert_near(value[number_of("rear.disc.pads.mu")], 0.4 + sqrt(0.5) * 0.04, 1e-12);
}

/* A rollout 2 % up: the radius of both axles follows, as the rear tyre repeats the front one. */
static void a_sample_works_everything_out_anew(void **state)
{
    (void)state;
    double share[BRAKE_INPUTS];
    struct brake_vehicle vehicle;
    list_exact_but(
        swapped(plain, "rolling_radius = 400 mm\noverall_diameter = 800 mm\n", "rollout = 2.5 m\n"),
        "front.tyre.rollout", 0.05);
    for (int i = 0; i < brake_inputs_count(&inputs); i++)
        share[i] = 0.5;
    share[number_of("front.tyre.rollout")] = 0.975;
    brake_inputs_vehicle(&inputs, share, &vehicle);
    assert_near(vehicle.axle[BRAKE_FRONT].tyre.rolling_radius, 2.55 / 2.0 / BRAKE_PI, 1e-12);
    assert_near(vehicle.axle[BRAKE_REAR].tyre.rolling_radius, 2.55 / 2.0 / BRAKE_PI, 1e-12);
    assert_near(sheet.vehicle.axle[BRAKE_REAR].tyre.rolling_radius, 2.5 / 2.0 / BRAKE_PI, 1e-12);
}

static void hold_ranges(const enum brake_shape *shape)
{
    static struct brake_sobol sobol;
    double share[BRAKE_INPUTS];
    double value[BRAKE_INPUTS];
    brake_inputs_list(&sheet, shape, &inputs);
    brake_sobol_scrambled(brake_inputs_count(&inputs), 1, &sobol);
    for (uint32_t sample = 0; sample < 4096; sample++) {
        brake_sobol_middle(&sobol, sample, share);
        brake_inputs_values(&inputs, share, value);
        for (int i = 0; i < inputs.count; i++) {
            const struct brake_quantity *q = brake_quantity_at(inputs.input[i].index);
            assert_true(q->kind == BRAKE_CHOICE || (value[i] >= q->low && value[i] <= q->high));
        }
    }
}

/* With tolerances as large as the values themselves. */
static void no_sample_leaves_the_accepted_range(void **state)
{
    (void)state;
    read_sheet(&sheet, full_text());
    for (int i = 0; i < brake_catalogue_count(); i++) {
        struct brake_record *record = &sheet.record[i];
        const double value = brake_quantity_value(&sheet.vehicle, i);
        if (record->from != BRAKE_ABSENT && !record->worked && isfinite(value) &&
            brake_quantity_at(i)->kind == BRAKE_REAL)
            record->tolerance = fabs(value);
    }
    for (int shape = 0; shape < BRAKE_SHAPES; shape++) {
        enum brake_shape shapes[BRAKE_ROWS];
        for (int i = 0; i < BRAKE_ROWS; i++)
            shapes[i] = (enum brake_shape)shape;
        hold_ranges(shapes);
        assert_true(inputs.count > 50);
    }
}

/* Front and rear pads of +-0.04 share half of what they are off by: 0.04/1.96 (own + cause) / 2^1/2
 * each. Where they part the rear goes the other way, about what a drive has told of the cause: of a
 * cause at 0.7 + z standard deviations it is at 0.7 - z. */
static void what_parts_front_and_rear_turns_about_what_is_known(void **state)
{
    (void)state;
    static const double told[] = {0.0, 0.7};
    const double z = 1.2;
    read_sheet(&sheet, plain);
    make_exact(&sheet);
    state_tolerance(&sheet, "front.disc.pads.mu", 0.04, BRAKE_MEASURED);
    state_tolerance(&sheet, "rear.disc.pads.mu", 0.04, BRAKE_MEASURED);
    for (int i = 0; i < 2; i++) {
        struct brake_vehicle together;
        struct brake_vehicle parted;
        double share[BRAKE_INPUTS];
        brake_inputs_list(&sheet, NULL, &inputs);
        for (int k = 0; k < BRAKE_INPUTS; k++)
            share[k] = 0.5;
        share[number_of("shared.friction")] = brake_normal_share(z);
        inputs.learned.count = i;
        inputs.learned.share[0] = number_of("shared.friction");
        inputs.learned.shift[0] = told[i];
        brake_inputs_vehicle(&inputs, share, &together);
        brake_inputs_parted(&inputs, share, &parted);
        const double sigma = 0.04 / 1.96 / sqrt(2.0);
        assert_within(together.axle[BRAKE_FRONT].pads.mu, 0.4 + sigma * (told[i] + z), 1e-5);
        assert_within(together.axle[BRAKE_REAR].pads.mu, 0.4 + sigma * (told[i] + z), 1e-5);
        assert_within(parted.axle[BRAKE_FRONT].pads.mu, 0.4 + sigma * (told[i] + z), 1e-5);
        assert_within(parted.axle[BRAKE_REAR].pads.mu, 0.4 + sigma * (told[i] - z), 1e-5);
    }
}

/* A line has its own, a cause that of the weakest line that shares it, be that the first of all or
 * another; the model is estimated. */
static void hold_where_each_is_from(int weak)
{
    read_sheet(&sheet, plus(swapped(plain, "mass = 2000 kg\nfront_share = 50 %\n", ""),
                            "[scales]\nfront_left = 500 kg\nfront_right = 510 kg\n"
                            "rear_left = 480 kg\nrear_right = 510 kg\n"));
    brake_inputs_list(&sheet, NULL, &inputs);
    for (int i = 0; i < inputs.count; i++)
        sheet.record[inputs.input[i].index].from = i % 2 != weak ? BRAKE_MEASURED : BRAKE_ESTIMATED;
    assert_true(inputs.causes > 2);
    for (int i = 0; i < brake_inputs_count(&inputs); i++) {
        enum brake_from expected = i < inputs.count ? sheet.record[inputs.input[i].index].from
                                   : i < inputs.count + inputs.causes ? BRAKE_MEASURED
                                                                      : BRAKE_ESTIMATED;
        for (int k = 0; k < inputs.count && i >= inputs.count; k++) {
            if (inputs.input[k].cause == i - inputs.count && k % 2 == weak)
                expected = BRAKE_ESTIMATED;
        }
        assert_int_equal(brake_inputs_from(&inputs, i), expected);
    }
    assert_true(number_of("shared.scales") >= inputs.count); /* the first of all causes */
}

static void what_is_uncertain_is_known_from_somewhere(void **state)
{
    (void)state;
    hold_where_each_is_from(0);
    hold_where_each_is_from(1);
    /* the very first line */
    read_sheet(&sheet, plain);
    make_exact(&sheet);
    sheet.record[index_at(&sheet.vehicle, "front.disc.rotor")].from = BRAKE_MEASURED;
    state_tolerance(&sheet, "front.disc.pads.mu", 0.04, BRAKE_ESTIMATED);
    state_tolerance(&sheet, "rear.disc.pads.mu", 0.04, BRAKE_MEASURED);
    brake_inputs_list(&sheet, NULL, &inputs);
    assert_int_equal(number_of("front.disc.pads.mu"), 0);
    assert_int_equal(brake_inputs_from(&inputs, inputs.count), BRAKE_ESTIMATED);
}

/* Of a choice that is open the other one is so often as its odds say. */
static void a_choice_goes_by_its_odds(void **state)
{
    (void)state;
    double share[BRAKE_INPUTS];
    double value[BRAKE_INPUTS];
    int choices = 0;
    list(plain);
    for (int side = 0; side < 2; side++) {
        for (int i = 0; i < brake_inputs_count(&inputs); i++)
            share[i] = 0.5;
        for (int i = 0; i < inputs.count; i++) {
            if (inputs.input[i].choice)
                share[i] = brake_quantity_at(inputs.input[i].index)->odds - (side ? 0.0 : 1e-9);
        }
        brake_inputs_values(&inputs, share, value);
        for (int i = 0; i < inputs.count; i++) {
            const struct brake_quantity *q = brake_quantity_at(inputs.input[i].index);
            if (inputs.input[i].choice)
                assert_true(value[i] == (side ? q->fallback : q->other));
            choices += inputs.input[i].choice;
        }
    }
    assert_int_equal(choices, 2 * CHOICES);
}

/* Each error of the model 95 of 100 within its size; what is exact has none. */
static void errors_of_the_model_are_normal(void **state)
{
    (void)state;
    double share[BRAKE_INPUTS];
    double factor[BRAKE_MODEL_ERRORS + 1];
    list(plain);
    factor[BRAKE_MODEL_ERRORS] = -7.0; /* behind the last: stays */
    for (int i = 0; i < BRAKE_INPUTS; i++)
        share[i] = 0.5;
    for (int i = 0; i < ERRORS; i++)
        share[inputs.count + inputs.causes + i] = i == 1 ? 0.025 : 0.975;
    brake_inputs_model(&inputs, share, factor);
    assert_equal(factor[BRAKE_MODEL_EXACT], 1.0);
    for (int i = 1; i < BRAKE_MODEL_ERRORS; i++) {
        const double size = brake_model_error_size((enum brake_model_error)i);
        assert_within(factor[i], i == 2 ? 1.0 - size : 1.0 + size, 1e-4 * size);
    }
    assert_equal(factor[BRAKE_MODEL_ERRORS], -7.0);
}

/* The second cause of a vehicle, here that of its friction behind that of its scales, moves its own
 * numbers and those alone; parted, it moves front and rear apart. */
static void each_cause_moves_its_own_numbers(void **state)
{
    (void)state;
    double share[BRAKE_INPUTS];
    struct brake_vehicle together;
    struct brake_vehicle parted;
    read_sheet(&sheet, plus(swapped(plain, "mass = 2000 kg\nfront_share = 50 %\n", ""),
                            "[scales]\nfront_left = 500 kg\nfront_right = 510 kg\n"
                            "rear_left = 480 kg\nrear_right = 510 kg\n"));
    make_exact(&sheet);
    state_tolerance(&sheet, "scales.front_left", 5.0, BRAKE_MEASURED);
    state_tolerance(&sheet, "scales.front_right", 5.0, BRAKE_MEASURED);
    state_tolerance(&sheet, "front.disc.pads.mu", 0.04, BRAKE_MEASURED);
    state_tolerance(&sheet, "rear.disc.pads.mu", 0.04, BRAKE_MEASURED);
    brake_inputs_list(&sheet, NULL, &inputs);
    assert_int_equal(inputs.causes, 2);
    const int friction = number_of("shared.friction");
    assert_int_equal(friction, inputs.count + 1);
    for (int told = 0; told < 2; told++) {
        for (int i = 0; i < BRAKE_INPUTS; i++)
            share[i] = 0.5;
        share[friction] = brake_normal_share(1.2);
        inputs.learned.count = told;
        inputs.learned.share[0] = friction;
        inputs.learned.shift[0] = 0.7;
        memset(inputs.learned.along, 0, sizeof inputs.learned.along);
        brake_inputs_vehicle(&inputs, share, &together);
        brake_inputs_parted(&inputs, share, &parted);
        const double sigma = 0.04 / 1.96 / sqrt(2.0);
        const double middle = told ? 0.7 : 0.0;
        assert_within(together.axle[BRAKE_REAR].pads.mu, 0.4 + sigma * (middle + 1.2), 1e-5);
        assert_within(parted.axle[BRAKE_FRONT].pads.mu, 0.4 + sigma * (middle + 1.2), 1e-5);
        assert_within(parted.axle[BRAKE_REAR].pads.mu, 0.4 + sigma * (middle - 1.2), 1e-5);
        assert_near(together.general.mass, 2000.0, 1e-9);
    }
}

/* The same of what each number has by itself: at a share of 0.975 it is off by 1.96 (1 -
 * 0.5)^1/2 of its sigma of 0.02 / 1.96, the cause in its middle. */
static void a_number_moves_by_its_own_part_as_well(void **state)
{
    (void)state;
    double value[BRAKE_INPUTS];
    values_at_a_high_share("front.disc.pads.mu", value);
    assert_near(value[number_of("front.disc.pads.mu")], 0.4 + sqrt(0.5) * 0.02, 1e-12);
    assert_near(value[number_of("rear.disc.pads.mu")], 0.4, 1e-12);
}

/* What the day of a drive was off by is no uncertainty of the vehicle (brake/catalogue.h). */
static void what_a_day_was_off_by_is_not_listed(void **state)
{
    (void)state;
    list_exact_but(plus(plain, "[drive]\ngrade = 1 %\n"), "drive.grade", 0.01);
    assert_int_equal(number_of("drive.grade"), -1);
    assert_int_equal(inputs.count, CHOICES);
}

/* Behind its end a list has what another left there: that is neither found, nor drawn, nor does it
 * make a cause weaker. */
static void what_another_list_left_behind_is_not_looked_at(void **state)
{
    (void)state;
    double share[BRAKE_INPUTS];
    double value[BRAKE_INPUTS];
    list_exact_but(plain, "front.disc.pads.mu", 0.04);
    for (int i = 0; i < BRAKE_INPUTS; i++) {
        share[i] = 0.5;
        value[i] = -7.0;
        inputs.input[i].index = index_at(&sheet.vehicle, "rear.disc.pads.mu");
    }
    brake_inputs_list(&sheet, NULL, &inputs);
    assert_int_equal(inputs.causes, 0);
    brake_inputs_values(&inputs, share, value);
    assert_equal(value[inputs.count], -7.0);

    state_tolerance(&sheet, "front.disc.pads.mu", 0.04, BRAKE_MEASURED);
    state_tolerance(&sheet, "rear.disc.pads.mu", 0.04, BRAKE_MEASURED);
    brake_inputs_list(&sheet, NULL, &inputs);
    assert_int_equal(inputs.causes, 1);
    inputs.input[inputs.count] =
        (struct brake_input){.index = index_at(&sheet.vehicle, "vehicle.wheelbase"), .cause = 0};
    sheet.record[inputs.input[inputs.count].index].from = BRAKE_DEFAULT;
    assert_int_equal(brake_inputs_from(&inputs, number_of("shared.friction")), BRAKE_MEASURED);
}

/* Numbers, then causes, then what the model is off by: each of its errors has its word. */
static void each_error_of_the_model_has_its_name(void **state)
{
    (void)state;
    list(plain);
    assert_true(inputs.causes > 0);
    for (int i = 1; i < BRAKE_MODEL_ERRORS; i++)
        assert_int_equal(number_of(brake_model_error_word((enum brake_model_error)i)),
                         inputs.count + inputs.causes + i - 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_comes_from_readings_is_not_doubtful_by_itself),
        cmocka_unit_test(only_numbers_with_a_tolerance_are_listed),
        cmocka_unit_test(a_vehicle_without_tolerances_has_nothing_uncertain),
        cmocka_unit_test(a_cause_needs_two_numbers_that_share_it),
        cmocka_unit_test(every_cause_names_known_paths_and_a_reason),
        cmocka_unit_test(the_middle_share_is_the_vehicle_as_stated),
        cmocka_unit_test(a_cause_moves_all_its_numbers),
        cmocka_unit_test(a_sample_works_everything_out_anew),
        cmocka_unit_test(no_sample_leaves_the_accepted_range),
        cmocka_unit_test(what_parts_front_and_rear_turns_about_what_is_known),
        cmocka_unit_test(what_is_uncertain_is_known_from_somewhere),
        cmocka_unit_test(a_choice_goes_by_its_odds),
        cmocka_unit_test(errors_of_the_model_are_normal),
        cmocka_unit_test(each_cause_moves_its_own_numbers),
        cmocka_unit_test(a_number_moves_by_its_own_part_as_well),
        cmocka_unit_test(what_a_day_was_off_by_is_not_listed),
        cmocka_unit_test(what_another_list_left_behind_is_not_looked_at),
        cmocka_unit_test(each_error_of_the_model_has_its_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
