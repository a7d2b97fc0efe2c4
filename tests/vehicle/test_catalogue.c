/* SPDX-License-Identifier: MIT */
/* The catalogue: what a quantity is called, where it lives, how it is set. */
#include "sheet.h"

#include "vehicle/sections.h"
#include "vehicle/recalculation.h"
#include "vehicle/trade.h"

static const char winch[] = "[part.winch]\nmass = 40 kg\nbehind_front_axle = -500 mm\n"
                            "height = 700 mm\n[part.rack]\nmass = 30 kg\n"
                            "behind_front_axle = 1500 mm\nheight = 2000 mm\n";

static int parts_first(void)
{
    return brake_section_first(brake_section_count() - 1);
}

static void every_quantity_finds_itself_again_by_its_path(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(plain, winch));
    const int first = parts_first();
    const int rows = brake_section_at(brake_section_count() - 1)->count;
    for (int i = 0; i < first + 2 * rows; i++) {
        char path[160];
        brake_catalogue_path(&sheet.vehicle, i, path, sizeof path);
        assert_int_equal(brake_catalogue_find(&sheet.vehicle, path), i);
    }
}

static void every_quantity_finds_itself_again_by_its_place(void **state)
{
    (void)state;
    static struct brake_recalculation recalculation;
    struct brake_sheet sheet;
    struct brake_error error;
    read_sheet(&sheet, plain);
    assert_int_equal(brake_recalculation_begin(&sheet, NULL, NULL, 0, &recalculation, &error),
                     BRAKE_OK);
    assert_int_equal(recalculation.places.count, brake_catalogue_count());
    for (int i = 0; i < brake_catalogue_count(); i++) {
        const char *at = brake_quantity_in(&sheet.vehicle, i);
        const size_t offset = (size_t)(at - (const char *)&sheet.vehicle);
        assert_int_equal(recalculation.places.of[i].offset, offset);
        assert_int_equal(offset % sizeof(int), 0);
        assert_int_equal(recalculation.places.index[offset / sizeof(int)], i);
        assert_ptr_equal(recalculation.places.of[i].row, brake_quantity_at(i));
        assert_ptr_equal(recalculation.places.of[i].section, brake_quantity_section(i));
    }
}

static void there_is_room_for_every_section(void **state)
{
    (void)state;
    assert_true(brake_section_count() <= BRAKE_SECTIONS);
    assert_true(BRAKE_SECTIONS <= 64); /* they stand as bits of one number */
}

static void the_sections_stand_in_the_order_of_the_struct(void **state)
{
    (void)state;
    for (int i = 1; i < brake_section_count(); i++)
        assert_true(brake_section_at(i)->offset > brake_section_at(i - 1)->offset);
    assert_string_equal(brake_section_at(brake_section_count() - 1)->path, "part");
}

static void a_sheet_has_room_for_every_quantity(void **state)
{
    (void)state;
    const int parts = BRAKE_PARTS * brake_section_at(brake_section_count() - 1)->count;
    assert_true(brake_catalogue_count() <= BRAKE_ROWS);
    assert_int_equal(brake_catalogue_count(), parts_first() + parts);
    char path[160];
    struct brake_sheet sheet;
    brake_sheet_clear(&sheet);
    memset(sheet.vehicle.part[BRAKE_PARTS - 1].name, 'n', 40);
    brake_catalogue_path(&sheet.vehicle, brake_catalogue_count() - 1, path, sizeof path);
    assert_string_equal(path, "part.nnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnn.height");
}

static void every_row_says_what_it_is_how_to_get_it_and_what_it_accepts(void **state)
{
    (void)state;
    for (int i = 0; i < brake_catalogue_count(); i++) {
        const struct brake_quantity *q = brake_quantity_at(i);
        assert_true(strlen(q->name) > 0 && strlen(q->meaning) > 0 && strlen(q->measure) > 0);
        if (q->kind == BRAKE_CHOICE) {
            assert_non_null(q->choices);
            continue;
        }
        if (q->kind == BRAKE_TEXT)
            continue;
        assert_true(q->low < q->high);
        if (q->role != BRAKE_PART_OF && q->means == BRAKE_BY_LOOK)
            fail_msg("%s does not say what it takes to measure it", q->name);
        assert_non_null(brake_unit_of(q->unit, q->dimension));
        if (q->kind == BRAKE_CURVE) {
            assert_true(q->second_low < q->second_high);
            assert_int_equal(brake_unit_find(q->second_unit)->dimension, q->second);
        }
        if (!isnan(q->fallback))
            assert_between(q->fallback, q->low, q->high);
        /* A default is only honest with its reason. */
        if (!isnan(q->fallback) && q->need == BRAKE_OPTIONAL)
            assert_non_null(q->why);
    }
}

static void a_default_of_a_choice_is_one_of_its_words(void **state)
{
    (void)state;
    for (int i = 0; i < parts_first(); i++) {
        const struct brake_quantity *q = brake_quantity_at(i);
        int words = 0;
        if (q->kind != BRAKE_CHOICE)
            continue;
        while (q->choices[words] != NULL)
            words++;
        assert_true(words >= 2);
        assert_true(isnan(q->fallback) || (q->fallback >= 0.0 && q->fallback < words));
        assert_true(!isnan(q->fallback) || q->need == BRAKE_NEEDED);
    }
}

static void a_path_that_is_none_is_not_found(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(plain, winch));
    static const char *const none[] = {"mass",
                                       "vehicle",
                                       "vehicle.",
                                       "vehicle.m",
                                       ".mass",
                                       "part.mass",
                                       "part..mass",
                                       "part.crane.mass",
                                       "part.winch.colour",
                                       "tyre.rollout",
                                       "front.tyre.rollout.x"};
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++)
        assert_int_equal(brake_catalogue_find(&sheet.vehicle, none[i]), -1);
    /* Without a vehicle no part has a name. */
    assert_int_equal(brake_catalogue_find(NULL, "part.winch.mass"), -1);
    assert_true(brake_catalogue_find(NULL, "vehicle.mass") >= 0);
}

static void parts_are_told_apart_by_their_names(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(plain, winch));
    assert_int_equal(brake_part_named(&sheet.vehicle, "winch", 5), 0);
    assert_int_equal(brake_part_named(&sheet.vehicle, "rack", 4), 1);
    assert_int_equal(brake_part_named(&sheet.vehicle, "winches", 7), -1);
    assert_int_equal(brake_part_named(&sheet.vehicle, "win", 3), -1);
    assert_near(value_at(&sheet, "part.winch.mass"), 40.0, ROUNDING);
    assert_near(value_at(&sheet, "part.rack.height"), 2.0, ROUNDING);
    assert_string_equal(brake_quantity_section(index_at(&sheet.vehicle, "part.rack.height"))->path,
                        "part");
}

static void expect_near(const char *wrong, const char *right)
{
    static const struct brake_vehicle no_parts;
    char path[160] = "nothing";
    const int index = brake_catalogue_nearest(wrong);
    if (index >= 0)
        brake_catalogue_path(&no_parts, index, path, sizeof path);
    assert_string_equal(path, right);
}

static void a_slip_of_the_pen_gets_the_nearest_name(void **state)
{
    (void)state;
    expect_near("vehicle.mas", "vehicle.mass");
    expect_near("front.tire.rollout", "front.tyre.rollout");
    expect_near("front.disk.pistons", "front.disc.pistons");
    expect_near("pedal.ratio", "pedal.ratio");
    expect_near("something.else.altogether", "nothing");
    expect_near("", "nothing");
    expect_near("x", "nothing");
    /* In a section that is there only the name can be wrong. */
    expect_near("vehicle.zzzz", "nothing");
    expect_near("stop.adhesion", "nothing");
    expect_near("stpo.speed", "stop.speed");
    expect_near("vehikle.name", "vehicle.name");
    expect_near("vehicle.nam", "vehicle.name");
}

static void a_section_misspelt_gets_the_nearest_one(void **state)
{
    (void)state;
    assert_string_equal(brake_section_at(brake_section_nearest("front.tire"))->path, "front.tyre");
    assert_string_equal(brake_section_at(brake_section_nearest("vehicel"))->path, "vehicle");
    assert_string_equal(brake_section_at(brake_section_nearest("parts"))->path, "part");
    assert_int_equal(brake_section_nearest("zzzzzzzz"), -1);
    assert_int_equal(brake_section_nearest(""), -1);
}

static void a_name_longer_than_any_is_near_none(void **state)
{
    (void)state;
    char word[100];
    memset(word, 'a', sizeof word - 1);
    word[sizeof word - 1] = '\0';
    assert_int_equal(brake_catalogue_nearest(word), -1);
    assert_int_equal(brake_section_nearest(word), -1);
    word[63] = '\0';
    assert_int_equal(brake_catalogue_nearest(word), -1);
    assert_int_equal(brake_section_nearest(word), -1);
}

/* Letters that differ: of 4 letters 2, of 10 and more 5, never more than half of the word. */
static void a_word_is_near_up_to_half_of_it_or_five_letters(void **state)
{
    (void)state;
    static const struct {
        size_t length, most;
    } words[] = {{1, 0}, {2, 1},  {3, 1},  {4, 2},  {5, 2},
                 {9, 4}, {10, 5}, {11, 5}, {12, 5}, {63, 5}};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        for (size_t off = 0; off <= words[i].length; off++) {
            char word[80] = "";
            char known[80] = "";
            memset(word, 'a', words[i].length);
            memset(known, 'a', words[i].length);
            memset(known, 'b', off);
            struct brake_nearest nearest = brake_nearest_to(word);
            assert_int_equal(brake_nearest_is(&nearest, known), off <= words[i].most);
            assert_int_equal(nearest.least, off <= words[i].most ? off : words[i].most + 1);
            assert_false(brake_nearest_is(&nearest, known)); /* no nearer than before */
        }
    }
    char longest[80] = "";
    memset(longest, 'a', BRAKE_LONGEST_PATH);
    struct brake_nearest none = brake_nearest_to(longest);
    assert_false(brake_nearest_is(&none, longest));
}

/* Letters left out and letters too many count each; large ones are small ones. */
static void letters_too_few_and_too_many_count(void **state)
{
    (void)state;
    static const struct {
        const char *word, *known;
        int off;
    } cases[] = {{"mass", "mass", 0},
                 {"MASS", "mass", 0},
                 {"mas", "mass", 1},
                 {"masss", "mass", 1},
                 {"amss", "mass", 2},
                 {"pedall", "pedal", 1},
                 {"wheelbase", "wheel_base", 1},
                 {"kitten", "sitting", 3}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct brake_nearest nearest = brake_nearest_to(cases[i].word);
        assert_true(brake_nearest_is(&nearest, cases[i].known));
        assert_int_equal(nearest.least, cases[i].off);
    }
}

static void a_name_of_nothing_is_no_section(void **state)
{
    (void)state;
    assert_int_equal(brake_section_named("nothing", 7), -1);
    assert_int_equal(brake_section_named("roads", 5), -1);
    assert_int_equal(brake_section_named("roads", 4), brake_section_named("road", 4));
    assert_int_equal(brake_section_named("", 0), -1);
}

static void a_value_is_given_for_numbers_and_choices_only(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(plain, "[front.tyre]\nmarking = 265/70R17\n[circuits]\n"
                                   "pumped = (20 bar, 1 cm3) (40 bar, 2 cm3)\n"));
    assert_near(value_at(&sheet, "vehicle.mass"), 2000.0, ROUNDING);
    assert_equal(value_at(&sheet, "rear.disc.mounting"), BRAKE_FIXED);
    assert_near(value_at(&sheet, "front.disc.piston_diameter"), 0.06, ROUNDING);
    assert_nan(value_at(&sheet, "front.disc.piston_diameter_2"));
    assert_nan(value_at(&sheet, "front.tyre.marking"));
    assert_nan(value_at(&sheet, "front.disc.pistons"));
    assert_nan(value_at(&sheet, "circuits.pumped"));
    assert_nan(value_at(&sheet, "vehicle.top_speed"));
}

static void a_value_inside_the_range_is_set_and_counts_as_an_estimate(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plain);
    const int mass = index_at(&sheet.vehicle, "vehicle.mass");
    const struct brake_quantity *q = brake_quantity_at(mass);
    assert_int_equal(brake_sheet_set(&sheet, mass, 2400.0), BRAKE_OK);
    assert_equal(value_at(&sheet, "vehicle.mass"), 2400.0);
    assert_int_equal(sheet.record[mass].from, BRAKE_ESTIMATED);
    assert_true(sheet.record[mass].set && sheet.record[mass].typical);
    assert_false(sheet.record[mass].worked);
    assert_int_equal(sheet.record[mass].line, 0);
    assert_near(sheet.record[mass].tolerance, 2400.0 * q->typical, ROUNDING);
    assert_int_equal(brake_sheet_set(&sheet, mass, q->low), BRAKE_OK);
    assert_int_equal(brake_sheet_set(&sheet, mass, q->high), BRAKE_OK);
    /* A quantity without a usual uncertainty is taken as exact. */
    const int rated = index_at(&sheet.vehicle, "vehicle.rated_mass");
    assert_int_equal(brake_sheet_set(&sheet, rated, 2600.0), BRAKE_OK);
    assert_false(sheet.record[rated].typical);
    assert_equal(sheet.record[rated].tolerance, 0.0);
}

static void a_value_outside_the_range_changes_nothing(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plain);
    const int mass = index_at(&sheet.vehicle, "vehicle.mass");
    const double wrong[] = {299.9, 12001.0, -1.0, BRAKE_NAN, BRAKE_INFINITY};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        assert_int_equal(brake_sheet_set(&sheet, mass, wrong[i]), BRAKE_E_RANGE);
        assert_near(value_at(&sheet, "vehicle.mass"), 2000.0, ROUNDING);
        assert_false(sheet.record[mass].set);
    }
}

static void what_is_not_a_number_is_not_set_as_one(void **state)
{
    (void)state;
    static const char *const paths[] = {"vehicle.name", "front.axle.brake", "front.disc.pistons",
                                        "valve.gauge_pairs"};
    struct brake_sheet sheet;
    read_sheet(&sheet, plain);
    for (size_t i = 0; i < sizeof paths / sizeof paths[0]; i++)
        assert_int_equal(brake_sheet_set(&sheet, index_at(&sheet.vehicle, paths[i]), 1.0),
                         BRAKE_E_UNKNOWN);
    assert_string_equal(sheet.vehicle.general.name, "Plain");
}

static void a_cleared_sheet_holds_nothing(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(full_text(), winch));
    brake_sheet_clear(&sheet);
    for (int i = 0; i < brake_catalogue_count(); i++) {
        const struct brake_quantity *q = brake_quantity_at(i);
        const void *at = brake_quantity_in(&sheet.vehicle, i);
        assert_int_equal(sheet.record[i].from, BRAKE_ABSENT);
        assert_equal(sheet.record[i].tolerance, 0.0);
        if (q->kind == BRAKE_REAL)
            assert_nan(brake_quantity_value(&sheet.vehicle, i));
        if (q->kind == BRAKE_TEXT)
            assert_string_equal(at, "");
        if (q->kind == BRAKE_PISTONS)
            assert_equal(((const struct brake_pistons *)at)->count[0], 0.0);
        if (q->kind == BRAKE_CURVE)
            assert_int_equal(((const struct brake_points *)at)->count, 0);
    }
    assert_int_equal(sheet.vehicle.parts, 0);
    for (int i = 0; i < brake_section_count(); i++)
        assert_false(brake_sheet_has(&sheet, i));
}

static void a_section_is_there_when_a_line_of_it_was_given(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plain);
    assert_true(brake_sheet_has(&sheet, brake_section_named("front.tyre", 10)));
    assert_true(brake_sheet_has(&sheet, brake_section_named("road", 4)));
    /* Defaults and repeated lines do not make a section. */
    assert_false(brake_sheet_has(&sheet, brake_section_named("rear.tyre", 9)));
    assert_false(brake_sheet_has(&sheet, brake_section_named("heat", 4)));
}

static void a_word_is_chosen_by_its_number(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plain);
    const int mounting = index_at(&sheet.vehicle, "front.disc.mounting");
    assert_int_equal(brake_sheet_choose(&sheet, mounting, BRAKE_FIXED), BRAKE_OK);
    assert_equal(value_at(&sheet, "front.disc.mounting"), BRAKE_FIXED);
    assert_int_equal(sheet.record[mounting].from, BRAKE_ESTIMATED);
    assert_true(sheet.record[mounting].set);
    int words = 0;
    while (brake_quantity_at(mounting)->choices[words] != NULL)
        words++;
    assert_int_equal(brake_sheet_choose(&sheet, mounting, -1), BRAKE_E_RANGE);
    assert_int_equal(brake_sheet_choose(&sheet, mounting, words), BRAKE_E_RANGE);
    assert_equal(value_at(&sheet, "front.disc.mounting"), BRAKE_FIXED);
    const int mass = index_at(&sheet.vehicle, "vehicle.mass");
    assert_int_equal(brake_sheet_choose(&sheet, mass, 1), BRAKE_E_UNKNOWN);
    assert_near(value_at(&sheet, "vehicle.mass"), 2000.0, ROUNDING);
}

static void every_word_of_every_choice_may_be_chosen(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    brake_sheet_clear(&sheet);
    for (int i = 0; i < parts_first(); i++) {
        const struct brake_quantity *q = brake_quantity_at(i);
        int word = 0;
        for (; q->kind == BRAKE_CHOICE && q->choices[word] != NULL; word++) {
            assert_int_equal(brake_sheet_choose(&sheet, i, word), BRAKE_OK);
            assert_equal(brake_quantity_value(&sheet.vehicle, i), word);
        }
        assert_int_equal(brake_sheet_choose(&sheet, i, word),
                         q->kind == BRAKE_CHOICE ? BRAKE_E_RANGE : BRAKE_E_UNKNOWN);
    }
}

/* What stands behind it moves up, its lines with it. */
static void a_part_taken_off_leaves_the_others(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(plain, winch));
    const int line = record_at(&sheet, "part.rack.mass")->line;
    const int mass = index_at(&sheet.vehicle, "vehicle.mass");
    sheet.known.count = 4;
    sheet.known.of[0] = (struct brake_known){.of = BRAKE_KNOWN_LINE, .number = mass};
    sheet.known.of[1].of = sheet.known.of[2].of = BRAKE_KNOWN_LINE;
    sheet.known.of[1].number = index_at(&sheet.vehicle, "part.winch.mass");
    sheet.known.of[2].number = index_at(&sheet.vehicle, "part.rack.mass");
    sheet.known.of[3] = (struct brake_known){.of = BRAKE_KNOWN_LINE + 1, .number = 1};
    brake_part_remove(&sheet, 0);
    assert_int_equal(sheet.vehicle.parts, 1);
    /* What a drive told of its lines goes with it, of the others moves with them. */
    assert_int_equal(sheet.known.count, 3);
    assert_int_equal(sheet.known.of[0].number, mass);
    assert_int_equal(sheet.known.of[1].number, index_at(&sheet.vehicle, "part.rack.mass"));
    assert_int_equal(sheet.known.of[2].number, 1);
    assert_int_equal(brake_catalogue_find(&sheet.vehicle, "part.winch.mass"), -1);
    assert_near(value_at(&sheet, "part.rack.mass"), 30.0, ROUNDING);
    assert_near(value_at(&sheet, "part.rack.height"), 2.0, ROUNDING);
    assert_int_equal(record_at(&sheet, "part.rack.mass")->line, line);
    brake_part_remove(&sheet, 0);
    assert_int_equal(sheet.vehicle.parts, 0);
    assert_int_equal(brake_catalogue_find(&sheet.vehicle, "part.rack.mass"), -1);
}

static const char *all_parts(void)
{
    const char *text = "[vehicle]\nname = Parts\n";
    for (int i = 0; i < BRAKE_PARTS; i++) {
        char part[120];
        snprintf(part, sizeof part,
                 "[part.p%d]\nmass = %d kg\nbehind_front_axle = %d mm\nheight = %d mm\n", i,
                 100 + i, 1000 + i, 500 + i);
        text = plus(text, part);
    }
    return text;
}

static void expect_part(const struct brake_sheet *sheet, int slot, int number)
{
    char path[80];
    const struct brake_part_lines *part = &sheet->vehicle.part[slot];
    snprintf(path, sizeof path, "part.p%d.height", number);
    assert_near(part->mass, 100.0 + number, ROUNDING);
    assert_near(part->behind_front_axle, 1.0 + 1e-3 * number, ROUNDING);
    assert_near(part->height, 0.5 + 1e-3 * number, ROUNDING);
    /* The name and the rest of four lines each. */
    assert_int_equal(record_at(sheet, path)->line, 2 + 4 * (number + 1));
    assert_int_equal(index_at(&sheet->vehicle, path), parts_first() + 3 * slot + 2);
}

/* As many as there is room for; each in turn goes, the others stay in their order, and nothing else
 * moves. */
static void any_part_may_go(void **state)
{
    (void)state;
    static struct brake_sheet whole;
    static struct brake_sheet sheet;
    read_only(&whole, all_parts());
    for (int gone = 0; gone < BRAKE_PARTS; gone++) {
        sheet = whole;
        brake_part_remove(&sheet, gone);
        assert_int_equal(sheet.vehicle.parts, BRAKE_PARTS - 1);
        for (int i = 0; i < BRAKE_PARTS - 1; i++)
            expect_part(&sheet, i, i < gone ? i : i + 1);
        for (int i = 0; i < 3; i++) {
            const int last = brake_catalogue_count() - 1 - i;
            assert_int_equal(sheet.record[last].from, BRAKE_ABSENT);
            assert_nan(brake_quantity_value(&sheet.vehicle, last));
        }
        assert_string_equal(sheet.vehicle.part[BRAKE_PARTS - 1].name, "");
        for (int i = 0; i < parts_first(); i++)
            assert_memory_equal(&sheet.record[i], &whole.record[i], sizeof whole.record[i]);
        assert_memory_equal(&sheet.vehicle, &whole.vehicle, offsetof(struct brake_vehicle, parts));
        for (int i = brake_catalogue_count(); i < BRAKE_ROWS; i++)
            assert_memory_equal(&sheet.record[i], &whole.record[i], sizeof whole.record[i]);
        assert_memory_equal(&sheet.known, &whole.known, sizeof whole.known);
    }
}

static void a_sheet_is_made_clear_and_freed(void **state)
{
    (void)state;
    struct brake_sheet *sheet = brake_sheet_new();
    assert_non_null(sheet);
    assert_nan(value_at(sheet, "vehicle.mass"));
    for (int i = 0; i < brake_catalogue_count(); i++)
        assert_int_equal(sheet->record[i].from, BRAKE_ABSENT);
    brake_sheet_free(sheet);
    brake_sheet_free(NULL);
}

/* A section is told with its lines, as many as there is room for; of a name that begins as that of
 * parts do, or longer than any word of the trade, there is nothing to tell. */
static void a_hint_tells_the_lines_of_a_section(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    char text[2000];
    char little[24];
    read_sheet(&sheet, plain);
    brake_catalogue_hint(&sheet.vehicle, "front.tyre", text, sizeof text);
    assert_non_null(strstr(text, "[front.tyre] takes "));
    assert_non_null(strstr(text, ", wheel_inertia"));
    brake_catalogue_hint(&sheet.vehicle, "front.tyre", little, sizeof little);
    assert_memory_equal(little, text, sizeof little - 1);
    brake_catalogue_hint(&sheet.vehicle, "partition.mass", text, sizeof text);
    assert_null(strstr(text, "[part"));
    char longest[200];
    memset(longest, 'q', sizeof longest);
    longest[sizeof longest - 1] = '\0';
    brake_catalogue_hint(&sheet.vehicle, longest, text, sizeof text);
    assert_string_equal(text, "");
}

/* Every line of every section is told, the first one too, each once and parted by commas. */
static void a_hint_leaves_no_line_of_a_section_out(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plain);
    for (int s = 0; s < BRAKE_SECTION_COUNT; s++) {
        const struct brake_section *section = &brake_sections[s];
        char text[2000];
        char expected[2000];
        int used = snprintf(expected, sizeof expected, "[%s] takes", section->path);
        for (int row = 0; row < section->count; row++) {
            if (section->rows[row].role != BRAKE_PART_OF)
                used += snprintf(expected + used, sizeof expected - (size_t)used, "%s %s",
                                 row > 0 ? "," : "", section->rows[row].name);
        }
        brake_catalogue_hint(&sheet.vehicle, section->path, text, sizeof text);
        if (strcmp(section->path, "part") != 0) /* [part.NAME] */
            assert_non_null(strstr(text, expected));
    }
}

/* reference/lines.md, the reason of each: 30 of 100 valves without a bypass, 40 of 100 vehicles
 * with DOT4; six of ten rotors vented. */
static void choices_left_out_have_the_odds_of_their_reason(void **state)
{
    (void)state;
    static const struct {
        const char *path;
        double odds;
    } cases[] = {{"valve.bypass", 0.30}, {"heat.fluid", 0.40}, {"front.disc.rotor", 0.60}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
        assert_equal(brake_quantity_at(brake_catalogue_find(NULL, cases[i].path))->odds,
                     cases[i].odds);
}

static void parts_are_told_by_the_lines_of_any_part(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    char text[400];
    read_sheet(&sheet, plain);
    brake_catalogue_hint(&sheet.vehicle, "part.winch.weight", text, sizeof text);
    assert_non_null(strstr(text, "[part.NAME] takes mass, behind_front_axle, height"));
}

/* What was meant, and what the section takes: the one where it is near, the other where the
 * section is there. */
static void a_hint_tells_what_was_meant_and_what_there_is(void **state)
{
    (void)state;
    static const char *const cases[][2] = {
        {"vehikle.name", "; did you mean vehicle.name?"},
        {"vehicle.nam", "; did you mean vehicle.name? [vehicle] takes name, before, "},
        {"road.zzzz", "; [road] takes adhesion, sliding"},
        {"road.slidin", "; did you mean road.sliding? [road] takes adhesion, sliding"},
        {"vehicle", "; [vehicle] takes name, before, "},
        {"nothing.at.all.of.it", ""}};
    struct brake_sheet sheet;
    char text[2000];
    read_sheet(&sheet, plain);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        brake_catalogue_hint(&sheet.vehicle, cases[i][0], text, sizeof text);
        assert_int_equal(strncmp(text, cases[i][1], strlen(cases[i][1])), 0);
        if (cases[i][1][0] == '\0')
            assert_string_equal(text, "");
    }
}

/* A hint writes into its room and not beyond, however much there is to tell. */
static void a_hint_stays_in_its_room(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    char text[400];
    read_sheet(&sheet, plain);
    static const char *const paths[] = {"front.tyre", "front.tyre.rollou"};
    for (int i = 0; i < 2; i++) {
        for (size_t room = 8; room < 120; room++) {
            memset(text, '#', sizeof text);
            brake_catalogue_hint(&sheet.vehicle, paths[i], text, room);
            assert_true(strlen(text) < room);
            for (size_t j = room; j < sizeof text; j++)
                assert_int_equal(text[j], '#');
        }
    }
}

/* Words of 39 letters are looked up, longer ones are none of the trade's. */
static void a_word_of_the_trade_has_39_letters_at_the_most(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    char word[60];
    char text[400];
    read_sheet(&sheet, plain);
    for (size_t length = 30; length < 50; length++) {
        memset(word, 'q', sizeof word);
        memcpy(word, "dually.", 7);
        word[length] = '\0';
        brake_catalogue_hint(&sheet.vehicle, word, text, sizeof text);
        assert_int_equal(strstr(text, "dual") != NULL, length <= 39);
    }
}

/* Without a word of the file every choice is its first one. */
static void a_cleared_choice_is_its_first_word(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    brake_sheet_clear(&sheet);
    for (int i = 0; i < brake_catalogue_count(); i++) {
        if (brake_quantity_at(i)->kind == BRAKE_CHOICE)
            assert_equal(brake_quantity_value(&sheet.vehicle, i), 0.0);
    }
}

/* Words of the trade lead to the line that stands for them, the first of the list and the last. */
static void words_of_the_trade_lead_to_their_lines(void **state)
{
    (void)state;
    static const char *const cases[][2] = {
        {"hydro-booster.hydraulic assist", "booster = hydraulic"},
        {"EBV", "kind = ebd of [valve]"},
        {"Dual-Wheels", "wheels = dual of [rear.axle]"},
        {"GVWR", "vehicle.rated_mass"},
        {"GAWR", "rated_mass of [front.axle] or [rear.axle]"},
        {"curb weight", "vehicle.mass"},
        {"front.caliper.pistons", "[front.disc] and [rear.disc]"},
        {"hand_brake", "[parking]"},
        {"LSPV", "[valve]"},
        {"servo", "[booster]"},
        {"edge code", "mu = FF"}};
    struct brake_sheet sheet;
    char text[600];
    read_sheet(&sheet, plain);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        brake_catalogue_hint(&sheet.vehicle, cases[i][0], text, sizeof text);
        assert_non_null(strstr(text, cases[i][1]));
    }
}

/* A path that lacks a word between two dots is no word of the trade. */
static void a_word_that_is_left_out_is_none_of_the_trade(void **state)
{
    (void)state;
    assert_null(brake_trade_says("vehicle..mass"));
    assert_null(brake_trade_says("."));
    assert_null(brake_trade_says(""));
    assert_non_null(brake_trade_says("rear..duals"));
}

/* Every line that a drive was told with moves up as a part before it goes. */
static void all_lines_of_a_drive_move_up_with_a_part(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(plain, winch));
    const int rack = index_at(&sheet.vehicle, "part.rack.mass");
    const int gone = index_at(&sheet.vehicle, "part.winch.mass");
    for (int i = 0; i < BRAKE_DRIVE_LINES; i++)
        sheet.known.line[i] = i % 2 == 0 ? rack : gone;
    sheet.known.count = 1;
    sheet.known.of[0] = (struct brake_known){.of = BRAKE_KNOWN_MODEL, .number = 0};
    brake_part_remove(&sheet, 0);
    for (int i = 0; i < BRAKE_DRIVE_LINES; i++)
        assert_int_equal(sheet.known.line[i],
                         i % 2 == 0 ? index_at(&sheet.vehicle, "part.rack.mass") : -1);
    assert_int_equal(sheet.known.count, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_quantity_finds_itself_again_by_its_path),
        cmocka_unit_test(every_quantity_finds_itself_again_by_its_place),
        cmocka_unit_test(the_sections_stand_in_the_order_of_the_struct),
        cmocka_unit_test(there_is_room_for_every_section),
        cmocka_unit_test(a_sheet_has_room_for_every_quantity),
        cmocka_unit_test(every_row_says_what_it_is_how_to_get_it_and_what_it_accepts),
        cmocka_unit_test(a_default_of_a_choice_is_one_of_its_words),
        cmocka_unit_test(a_path_that_is_none_is_not_found),
        cmocka_unit_test(parts_are_told_apart_by_their_names),
        cmocka_unit_test(a_slip_of_the_pen_gets_the_nearest_name),
        cmocka_unit_test(a_section_misspelt_gets_the_nearest_one),
        cmocka_unit_test(a_name_longer_than_any_is_near_none),
        cmocka_unit_test(a_word_is_near_up_to_half_of_it_or_five_letters),
        cmocka_unit_test(letters_too_few_and_too_many_count),
        cmocka_unit_test(a_name_of_nothing_is_no_section),
        cmocka_unit_test(a_value_is_given_for_numbers_and_choices_only),
        cmocka_unit_test(a_value_inside_the_range_is_set_and_counts_as_an_estimate),
        cmocka_unit_test(a_value_outside_the_range_changes_nothing),
        cmocka_unit_test(what_is_not_a_number_is_not_set_as_one),
        cmocka_unit_test(a_cleared_sheet_holds_nothing),
        cmocka_unit_test(a_section_is_there_when_a_line_of_it_was_given),
        cmocka_unit_test(a_word_is_chosen_by_its_number),
        cmocka_unit_test(every_word_of_every_choice_may_be_chosen),
        cmocka_unit_test(a_part_taken_off_leaves_the_others),
        cmocka_unit_test(any_part_may_go),
        cmocka_unit_test(a_sheet_is_made_clear_and_freed),
        cmocka_unit_test(a_hint_tells_the_lines_of_a_section),
        cmocka_unit_test(a_hint_leaves_no_line_of_a_section_out),
        cmocka_unit_test(choices_left_out_have_the_odds_of_their_reason),
        cmocka_unit_test(parts_are_told_by_the_lines_of_any_part),
        cmocka_unit_test(a_hint_tells_what_was_meant_and_what_there_is),
        cmocka_unit_test(a_hint_stays_in_its_room),
        cmocka_unit_test(a_word_of_the_trade_has_39_letters_at_the_most),
        cmocka_unit_test(a_cleared_choice_is_its_first_word),
        cmocka_unit_test(words_of_the_trade_lead_to_their_lines),
        cmocka_unit_test(a_word_that_is_left_out_is_none_of_the_trade),
        cmocka_unit_test(all_lines_of_a_drive_move_up_with_a_part),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
