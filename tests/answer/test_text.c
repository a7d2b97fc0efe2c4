/* SPDX-License-Identifier: MIT */
/* The report as text: what stands where, and that it fits a terminal. */
#include "../vehicle/sheet.h"

#include <ctype.h>

#include "brake/answer.h"
#include "brake/version.h"
#include "vehicle/sections.h"
#include "criteria/judge.h"
#include "study/assess.h"
#include "study/conformance.h"

enum { REPORT_SIZE = 200000 };

/* Static: they are large. `page` is the report as written, `flat` with its lines joined. */
static struct brake_sheet sheet;
static struct brake_assessment assessment;
static struct brake_conformance_room room;
static char page[REPORT_SIZE];
static char flat[REPORT_SIZE];

static void join_lines(void)
{
    size_t used = 0;
    for (const char *at = page; *at != '\0'; at++) {
        const bool blank = isspace((unsigned char)*at) != 0;
        if (!blank)
            flat[used++] = *at;
        else if (used > 0 && flat[used - 1] != ' ')
            flat[used++] = ' ';
    }
    flat[used] = '\0';
}

static void print_page(void)
{
    FILE *file = tmpfile();
    assert_non_null(file);
    struct brake_document *document = brake_document_new(BRAKE_SI_FIRST);
    brake_answer_check(document, &sheet, &assessment);
    assert_int_equal(brake_document_print(document, BRAKE_AS_TEXT, file), BRAKE_OK);
    brake_document_free(document);
    rewind(file);
    const size_t length = fread(page, 1, sizeof page - 1, file);
    page[length] = '\0';
    assert_int_equal(fclose(file), 0);
    join_lines();
}

static void write_page(unsigned rules)
{
    brake_assess(&sheet, rules, &assessment);
    assert_true(brake_assess_conformance(&sheet, false, NULL, &room, &assessment));
    print_page();
}

static void report(const char *text, unsigned rules)
{
    read_sheet(&sheet, text);
    write_page(rules);
}

static void report_example(const char *path)
{
    struct brake_error error;
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    assert_int_equal(brake_file_read(file, &sheet, &error), BRAKE_OK);
    assert_int_equal(fclose(file), 0);
    complete(&sheet);
    write_page(BRAKE_RULES_ALL);
}

static int times(const char *text, const char *words)
{
    int found = 0;
    for (const char *at = strstr(text, words); at != NULL; at = strstr(at + 1, words))
        found++;
    return found;
}

static void expect(const char *words)
{
    if (strstr(flat, words) == NULL)
        print_error("the report should say '%s':\n%s\n", words, page);
    assert_non_null(strstr(flat, words));
}

static void expect_80_columns(void)
{
    for (const char *line = page; *line != '\0';) {
        const int length = (int)strcspn(line, "\n");
        if (length > 80)
            print_error("%d columns: %.*s\n", length, length, line);
        assert_true(length <= 80);
        line += length;
        line += *line == '\n';
    }
}

static const char long_names[] =
    "[part.a_winch_with_a_name_as_long_as_they_may_]\nmass = 40 kg\nbehind_front_axle = 1 m\n"
    "height = 1 m\n";

static void expect_cautions(void)
{
    assert_int_equal(times(flat, BRAKE_CAUTION), 1);
    assert_int_equal(times(flat, BRAKE_CAUTION_LINE), 1);
    assert_true(strstr(flat, BRAKE_CAUTION_LINE) < strstr(flat, "Verdict"));
}

/* None, one, all but one, all: a text names what a choice takes and what it leaves out. */
static bool few_or_most(unsigned rules)
{
    const unsigned left_out = BRAKE_RULES_ALL & ~rules;
    return (rules & (rules - 1)) == 0 || (left_out & (left_out - 1)) == 0;
}

/* Drawing takes the time, so all is asked once. */
static void every_line_fits_80_columns_and_the_caution_stands(void **state)
{
    (void)state;
    const char *const texts[] = {plain,
                                 full_text(),
                                 drum_text(),
                                 plus(full_text(), long_names),
                                 plus(plain, "[driveline]\ncentre = locked\n"),
                                 swapped(plain, "name = Plain\n", "")};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        for (unsigned rules = 0; rules <= BRAKE_RULES_ALL; rules++) {
            if (!few_or_most(rules))
                continue;
            report(texts[i], rules);
            expect_80_columns();
            expect_cautions();
        }
    }
    report_example(SOURCE_ROOT "/examples/heron.ini");
    expect_80_columns();
    report_example(SOURCE_ROOT "/examples/heron-before.ini");
    expect_80_columns();
}

static void the_name_and_the_verdict_come_first(void **state)
{
    (void)state;
    static const char named[] = "Plain\n" BRAKE_CAUTION_LINE "\nVerdict   FALLS SHORT. ";
    static const char unnamed[] = "Vehicle without a name\n" BRAKE_CAUTION_LINE "\nVerdict   ";
    report(plain, BRAKE_RULES_ALL);
    assert_int_equal(strncmp(page, named, sizeof named - 1), 0);
    report(swapped(plain, "name = Plain\n", ""), BRAKE_RULES_ALL);
    assert_int_equal(strncmp(page, unnamed, sizeof unnamed - 1), 0);
}

static void the_parts_stand_in_their_order(void **state)
{
    (void)state;
    static const char *const parts[] = {"\nVerdict   ",
                                        "\nLimiting  ",
                                        "\nMeasure   ",
                                        "\nRequirements\n",
                                        "\nWarnings\n",
                                        "\nResults\n",
                                        "\nLines of the vehicle file\n",
                                        "\nNot judged here",
                                        "\nCaution   "};
    report(full_text(), BRAKE_RULES_ALL);
    const char *last = page;
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        const char *at = strstr(page, parts[i]);
        if (at == NULL || at < last)
            print_error("'%s' does not stand in its place\n", parts[i]);
        assert_true(at != NULL && at >= last);
        last = at;
    }
}

static void nothing_follows_the_whole_caution(void **state)
{
    (void)state;
    report(full_text(), BRAKE_RULES_ALL);
    /* Nothing follows the whole one but the version. */
    const char *end = strstr(flat, BRAKE_CAUTION);
    assert_string_equal(end + strlen(BRAKE_CAUTION), " libbrake " BRAKE_VERSION " ");
}

/* ---- verdict --------------------------------------------------------------------------------- */

static void a_verdict_counts_what_was_judged(void **state)
{
    (void)state;
    char words[200];
    report(plain, BRAKE_RULES_UN);
    const struct brake_tally *hazards = &assessment.ruling.of[BRAKE_HAZARD];
    const struct brake_tally *yardsticks = &assessment.ruling.of[BRAKE_YARDSTICK];
    assert_true(hazards->falls_short > 0 && yardsticks->falls_short > 0);
    /* Country, use and date are left out: nothing is known to bind. */
    expect(
        "Verdict FALLS SHORT. What binds it is not known: vehicle.country is left out. Hazards: ");
    snprintf(words, sizeof words, "Hazards: %d met, %d short, ", hazards->meets,
             hazards->falls_short);
    expect(words);
    snprintf(words, sizeof words, "Yardstick %d met, %d short", yardsticks->meets,
             yardsticks->falls_short);
    expect(words);
}

static const char *strong(void)
{
    const char *text = swapped(strong_text(), delay_lines, "dead_time = 0.1 s\nbuild_up = 0 s\n");
    return plus(text, "[front.axle]\nside_difference = 5 %\n[rear.axle]\nside_difference = 5 %\n"
                      "[parking]\ntorque = 3000 N*m\n");
}

static const char *registered(const char *text, const char *country, const char *year)
{
    char lines[120];
    snprintf(lines, sizeof lines, "country = %s\nuse = private\nfirst_registered = %s\n", country,
             year);
    return swapped(text, "use = commercial\n", lines);
}

/* What is judged of it is met; the verdict is that of the rules. */
static void all_met(const char *text, unsigned rules)
{
    read_sheet(&sheet, text);
    brake_assess(&sheet, rules, &assessment);
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (assessment.judgement[i].scope != BRAKE_OUTSIDE)
            assessment.judgement[i].verdict = BRAKE_MEETS;
    }
    brake_assessment_count(&sheet.vehicle, &assessment);
    print_page();
}

static void a_vehicle_that_meets_everything_is_said_to_meet_it(void **state)
{
    (void)state;
    char words[120];
    all_met(registered(strong(), "DE", "1996"), BRAKE_RULES_OWN);
    snprintf(words, sizeof words,
             "Verdict meets. Of what binds it (DE, private, 1996): %d met. Hazards: %d met",
             assessment.ruling.of[BRAKE_BINDS].meets, assessment.ruling.of[BRAKE_HAZARD].meets);
    expect(words);
}

static void where_nothing_binds_nothing_meets(void **state)
{
    (void)state;
    all_met(registered(strong(), "AU", "1996"), BRAKE_RULES_OWN);
    expect("Verdict cannot say. Nothing that was looked at binds it (AU, private, 1996).");
}

static void what_the_rules_asked_for_leave_out_is_named(void **state)
{
    (void)state;
    all_met(registered(strong(), "NL", "1996"), BRAKE_RULES_EU);
    expect("NOT LOOKED AT, though it binds: nl");
    all_met(registered(strong(), "NL", "1996"), BRAKE_RULES_UN);
    expect("NOT LOOKED AT, though it binds: eu, nl");
}

/* a = 9/11 m/s2 without the front circuit, of 2.44; margin -66 %. */
static void the_limiting_requirement_is_told_in_full(void **state)
{
    (void)state;
    report(plain, BRAKE_RULES_UN);
    expect("Limiting Deceleration with either circuit failed, full, first circuit failed: "
           "0.8182 m/s2 (2.684 ft/s2, 0.0834 g) against at least 2.44 m/s2 (8.005 ft/s2, 0.249 "
           "g); margin -66 %, 90 of 100 within ");
    expect("[hazard.circuit, UN R13-H Annex 3, 2.2; check against the current text]");
}

/* Heron's parking brake holds 19 % of the 16 % that are asked for, by levers whose efficiency was
 * left out. */
static void the_next_measurement_is_told_with_how_to_make_it(void **state)
{
    (void)state;
    report_example(SOURCE_ROOT "/examples/heron.ini");
    expect("axle.side_difference must be measured, front and rear");
    expect("parking.efficiency (scale)");
    expect("Measuring, the cheapest first");
    expect("parking.efficiency scale 0.68, default ");
    expect("Pull scale at both ends of the cable.");
    read_sheet(&sheet, plain);
    make_exact(&sheet);
    write_page(BRAKE_RULES_UN);
    assert_int_equal(times(page, "Measuring, the cheapest first"), 0);
}

/* ---- requirements ---------------------------------------------------------------------------- */

static void every_requirement_that_applies_is_listed_once(void **state)
{
    (void)state;
    report(full_text(), BRAKE_RULES_US | BRAKE_RULES_EU);
    const char *list = strstr(flat, "Requirements");
    for (int i = 0; i < brake_criterion_count(); i++) {
        char mark[200];
        const struct brake_criterion *c = brake_criterion_at(i);
        const bool listed = assessment.judgement[i].scope != BRAKE_OUTSIDE;
        snprintf(mark, sizeof mark, "[%s, %s%s", c->id, c->clause,
                 assessment.judgement[i].scope == BRAKE_HAZARD ? "]" : "; ");
        assert_int_equal(times(list, mark), listed ? 1 : 0);
    }
    expect("Requirements Restated; check each against the current text of its clause.");
}

/* Number of the criterion whose mark "[id," stands first in a text; -1: none does. */
static int first_marked(const char **text)
{
    const char *first = NULL;
    int number = -1;
    for (int i = 0; i < brake_criterion_count(); i++) {
        char mark[80];
        snprintf(mark, sizeof mark, "[%s,", brake_criterion_at(i)->id);
        const char *at = strstr(*text, mark);
        if (at != NULL && (first == NULL || at < first)) {
            first = at;
            number = i;
        }
    }
    *text = first != NULL ? first + 1 : *text;
    return number;
}

/* Falls short, meets, cannot say; the smaller margin first. */
static void the_worst_requirement_comes_first(void **state)
{
    (void)state;
    static const int rank[] = {[BRAKE_FALLS_SHORT] = 0, [BRAKE_MEETS] = 1, [BRAKE_CANNOT_SAY] = 2};
    int count = 0;
    int scopes = 0;
    int verdicts[3] = {0, 0, 0};
    int last = -1;
    report(plain, BRAKE_RULES_ALL);
    const char *at = strstr(page, "\nRequirements");
    for (int i = first_marked(&at); i >= 0; i = first_marked(&at)) {
        const struct brake_judgement *j = &assessment.judgement[i];
        const struct brake_judgement *above = &assessment.judgement[last < 0 ? i : last];
        if (above->scope != j->scope) {
            assert_true(above->scope == BRAKE_HAZARD || j->scope == BRAKE_SCREEN);
            scopes++;
            above = j;
        }
        assert_true(rank[above->verdict] <= rank[j->verdict]);
        assert_false(above->verdict == j->verdict && above->margin > j->margin);
        last = i;
        verdicts[j->verdict]++;
        count++;
    }
    int all = 0;
    for (int s = BRAKE_HAZARD; s < BRAKE_SCOPES; s++) {
        const struct brake_tally *t = &assessment.ruling.of[s];
        all += t->meets + t->falls_short + t->cannot_say;
    }
    assert_int_equal(count, all);
    assert_true(verdicts[BRAKE_MEETS] > 1 && verdicts[BRAKE_FALLS_SHORT] > 1 &&
                verdicts[BRAKE_CANNOT_SAY] > 1);
    assert_int_equal(scopes, 2); /* hazards, yardsticks, then a screen */
}

static void what_cannot_be_said_tells_why(void **state)
{
    (void)state;
    report(plain, BRAKE_RULES_EU);
    expect("cannot say Parking brake efficiency; parking.torque, or what it is worked out from, is "
           "not given; [eu.45.parking, 2014/45/EU Annex I, 1.4.2; yardstick; read: own text]");
}

static void a_stop_that_never_ends_is_called_so(void **state)
{
    (void)state;
    report(swapped(plain, "split = II", "split = one"), BRAKE_RULES_US);
    expect("first circuit failed; value never; limit at most 168 m (551.2 ft); margin -100 %");
}

static void a_rear_that_never_leads_is_said_not_to(void **state)
{
    (void)state;
    report(plus(plain, "[driveline]\ncentre = locked\n"), BRAKE_RULES_UN);
    expect(
        "meets Rear wheels lock first only above 0.80 g; met by 100 of 100; the rear never takes "
        "the lead; [un.13h.lock_order");
    assert_int_equal(times(flat, " inf") + times(flat, "+inf") + times(flat, "nan"), 0);
}

/* More torque than the whole weight has on the wheels, 3000 g 0.4 = 11768 N m. */
static void a_margin_without_limit_is_called_so(void **state)
{
    (void)state;
    report(plus(plain, "[parking]\ntorque = 12000 N*m\n[trailer]\nmass = 500 kg\n"),
           BRAKE_RULES_UN);
    expect("Parking brake on 12 % with an unbraked trailer, rated; value without limit; limit at "
           "least 12 %; margin without limit; ");
    assert_int_equal(times(flat, "inf ") + times(flat, "null") + times(flat, "nan"), 0);
}

/* The torque of the parking brake within its tolerance of the whole weight, 3000 g 0.4 =
 * 11768 N m: the grade is finite, with more torque it is not. */
static void a_uncertainty_without_limit_is_left_out(void **state)
{
    (void)state;
    report(plus(plain, "[parking]\ntorque = 11767 N*m +- 10 N*m\n[trailer]\nmass = 500 kg\n"),
           BRAKE_RULES_UN);
    assert_int_equal(times(flat, "inf ") + times(flat, "nan"), 0);
}

static void shares_are_shown_in_percent_and_ratios_as_they_are(void **state)
{
    (void)state;
    report(strong(), BRAKE_RULES_ALL);
    expect("Left to right difference, empty; value 5 %; limit at most 30 %");
    expect("Use of adhesion, 0.2 to 0.8, ");
    assert_int_equal(times(flat, "limit at least 1;") > 0, 1);
}

/* ---- the rest -------------------------------------------------------------------------------- */

static void warnings_are_listed_or_there_are_none(void **state)
{
    (void)state;
    report(plain, BRAKE_RULES_ALL);
    expect("Warnings None. Results");
    report(plus(plain, "[lift]\nsuspension = 50 mm\n"), BRAKE_RULES_ALL);
    expect("Warnings ! The body sits 50 mm (1.969 in) higher");
}

static void numbers_stand_in_both_trades(void **state)
{
    (void)state;
    report(plain, BRAKE_RULES_ALL);
    expect("mass.total 2000 kg 2500 kg 4409 lb 5512 lb");
    expect("deceleration.most 5 m/s2 4.091 m/s2 16.4 ft/s2 13.42 ft/s2");
    expect("brakes.front_torque_gain 56.55 N*m/bar (2.876 lbf*ft/psi)");
    expect("mass.rated_margin 25 % 0 %");
    expect("stop.distance 87.16 m ");
    /* What cannot be given has no line; what only one load case has, a dash. */
    assert_int_equal(times(page, "  speedometer.true_over_shown"), 0);
    assert_int_equal(times(page, "  parking.available"), 0);
    report(full_text(), BRAKE_RULES_ALL);
    for (int i = brake_result_find("full.mass.total"); i < brake_result_count(); i++) {
        const bool diagonal = strstr(brake_result_at(i)->name, "_one_circuit") != NULL;
        assert_int_equal(times(page, brake_result_at(i)->name) > 0, !diagonal);
    }
    expect("speedometer.true_over_shown 1.047 ");
}

/* A rear that never leads when empty, as nothing but its wheels' spin works on it, but does when a
 * sensing valve opens with the load. */
static void a_number_of_one_load_case_leaves_a_dash_for_the_other(void **state)
{
    (void)state;
    report(plus(plain, "[valve]\nkind = load\nknee = 0 bar\nslope = 0\nknee_rate = 1 bar/kg\n"
                       "set_mass = 1000 kg\n"),
           BRAKE_RULES_ALL);
    assert_true(isnan(assessment.results.load[BRAKE_EMPTY].balance.rear_first_above));
    expect("balance.rear_first_above - ");
}

static void inputs_are_counted_by_where_they_came_from(void **state)
{
    (void)state;
    int count[BRAKE_MEASURED + 1] = {0};
    char words[160];
    report(
        plus(swapped(plain, "rolling_resistance = 0\n", "rolling_resistance = 0.01, catalogue\n"),
             "[vehicle]\ntop_speed = 150 km/h, measured\n"),
        BRAKE_RULES_ALL);
    for (int i = 0; i < brake_catalogue_count(); i++) {
        const bool repeated =
            brake_quantity_section(i)->same_as != NULL && sheet.record[i].from == BRAKE_DEFAULT;
        count[sheet.record[i].from] += repeated ? 0 : 1;
    }
    snprintf(words, sizeof words,
             "Lines of the vehicle file %d measured, %d from catalogues, %d estimated, %d left at "
             "default.",
             count[BRAKE_MEASURED], count[BRAKE_CATALOGUE], count[BRAKE_ESTIMATED],
             count[BRAKE_DEFAULT]);
    assert_int_equal(count[BRAKE_MEASURED], 1);
    assert_int_equal(count[BRAKE_CATALOGUE], 1);
    expect(words);
}

static void every_default_is_listed_with_its_reason(void **state)
{
    (void)state;
    report(plain, BRAKE_RULES_ALL);
    const char *inputs = strstr(flat, "Lines of the vehicle file");
    int repeated = 0;
    for (int i = 0; i < brake_catalogue_count(); i++) {
        char line[200];
        char path[160];
        brake_catalogue_path(&sheet.vehicle, i, path, sizeof path);
        snprintf(line, sizeof line, " - %s = ", path);
        const bool repeats = brake_quantity_section(i)->same_as != NULL;
        const bool by_default = sheet.record[i].from == BRAKE_DEFAULT;
        repeated += repeats && by_default ? 1 : 0;
        assert_int_equal(times(inputs, line), by_default && !repeats ? 1 : 0);
    }
    assert_true(repeated > 0);
    assert_int_equal(times(inputs, " - [rear.tyre] as [front.tyre]"), 1);
    expect("- driver.pedal_force_most = 500 N (112.4 lbf) (the most in tests of light vehicles)");
}

static void the_inspector_gets_every_item(void **state)
{
    (void)state;
    report(plain, BRAKE_RULES_ALL);
    expect("Not judged here, for the inspector");
    for (int i = 0; brake_inspector_item(i) != NULL; i++)
        expect(brake_inspector_item(i));
    int boxes = 0;
    while (brake_inspector_item(boxes) != NULL)
        boxes++;
    assert_int_equal(times(page, "\n  [ ] "), boxes);
}

/* DEVELOPERS.md, Words. */
static void nothing_is_called_legal_or_safe(void **state)
{
    (void)state;
    report(full_text(), BRAKE_RULES_ALL);
    static const char *const never[] = {"legal",     "approved", "certified",
                                        "compliant", " safe ",   "safe."};
    for (size_t i = 0; i < sizeof never / sizeof never[0]; i++)
        assert_int_equal(times(flat, never[i]), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_line_fits_80_columns_and_the_caution_stands),
        cmocka_unit_test(the_name_and_the_verdict_come_first),
        cmocka_unit_test(the_parts_stand_in_their_order),
        cmocka_unit_test(nothing_follows_the_whole_caution),
        cmocka_unit_test(a_verdict_counts_what_was_judged),
        cmocka_unit_test(a_vehicle_that_meets_everything_is_said_to_meet_it),
        cmocka_unit_test(where_nothing_binds_nothing_meets),
        cmocka_unit_test(what_the_rules_asked_for_leave_out_is_named),
        cmocka_unit_test(the_limiting_requirement_is_told_in_full),
        cmocka_unit_test(the_next_measurement_is_told_with_how_to_make_it),
        cmocka_unit_test(every_requirement_that_applies_is_listed_once),
        cmocka_unit_test(the_worst_requirement_comes_first),
        cmocka_unit_test(what_cannot_be_said_tells_why),
        cmocka_unit_test(a_stop_that_never_ends_is_called_so),
        cmocka_unit_test(a_rear_that_never_leads_is_said_not_to),
        cmocka_unit_test(a_margin_without_limit_is_called_so),
        cmocka_unit_test(a_uncertainty_without_limit_is_left_out),
        cmocka_unit_test(shares_are_shown_in_percent_and_ratios_as_they_are),
        cmocka_unit_test(warnings_are_listed_or_there_are_none),
        cmocka_unit_test(numbers_stand_in_both_trades),
        cmocka_unit_test(a_number_of_one_load_case_leaves_a_dash_for_the_other),
        cmocka_unit_test(inputs_are_counted_by_where_they_came_from),
        cmocka_unit_test(every_default_is_listed_with_its_reason),
        cmocka_unit_test(the_inspector_gets_every_item),
        cmocka_unit_test(nothing_is_called_legal_or_safe),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
