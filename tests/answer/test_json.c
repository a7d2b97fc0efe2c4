/* SPDX-License-Identifier: MIT */
/* The report as JSON: one object, every number that of the structs, null for what is not known. */
#include "../vehicle/sheet.h"

#include <stdlib.h>

#include <cjson/cJSON.h>

#include "brake/answer.h"
#include "brake/version.h"
#include "criteria/judge.h"
#include "criteria/scope.h"
#include "study/assess.h"
#include "study/conformance.h"

/* Static: they are large. */
static struct brake_sheet sheet;
static struct brake_assessment assessment;
static struct brake_conformance_room room;

static char *printed(enum brake_format format)
{
    struct brake_document *document = brake_document_new(BRAKE_SI_FIRST);
    brake_answer_check(document, &sheet, &assessment);
    char *json = brake_document_text(document, format);
    brake_document_free(document);
    return json;
}

static cJSON *report(const char *text, unsigned rules)
{
    read_sheet(&sheet, text);
    brake_assess(&sheet, rules, &assessment);
    assert_true(brake_assess_conformance(&sheet, false, NULL, &room, &assessment));
    char *json = printed(BRAKE_AS_COMPACT_JSON);
    assert_non_null(json);
    cJSON *all = cJSON_Parse(json);
    assert_non_null(all);
    free(json);
    return all;
}

/* cJSON leaves a number at 15 digits when they come within DBL_EPSILON of it. */
#define WRITTEN 3e-16

static const cJSON *item(const cJSON *object, const char *name)
{
    const cJSON *found = cJSON_GetObjectItemCaseSensitive(object, name);
    if (found == NULL)
        print_error("no key %s\n", name);
    assert_non_null(found);
    return found;
}

static void expect_number(const cJSON *object, const char *name, double value)
{
    const cJSON *found = item(object, name);
    if (!isfinite(value)) {
        assert_true(cJSON_IsNull(found));
        return;
    }
    assert_true(cJSON_IsNumber(found));
    assert_near(found->valuedouble, value, WRITTEN);
}

static void expect_text(const cJSON *object, const char *name, const char *value)
{
    const cJSON *found = item(object, name);
    if (value == NULL) {
        assert_true(cJSON_IsNull(found));
        return;
    }
    assert_true(cJSON_IsString(found));
    assert_string_equal(found->valuestring, value);
}

static void the_keys_are_those_that_are_promised(void **state)
{
    (void)state;
    static const char *const keys[] = {"libbrake", "format",   "caution",  "summary",
                                       "measure",  "overturn", "criteria", "warnings",
                                       "results",  "vehicle",  "inspector"};
    cJSON *all = report(full_text(), BRAKE_RULES_ALL);
    assert_int_equal(cJSON_GetArraySize(all), sizeof keys / sizeof keys[0]);
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        assert_string_equal(cJSON_GetArrayItem(all, (int)i)->string, keys[i]);
    expect_text(all, "libbrake", BRAKE_VERSION);
    expect_text(all, "caution", BRAKE_CAUTION);
    cJSON_Delete(all);
}

static void every_result_is_there_in_si(void **state)
{
    (void)state;
    const char *const texts[] = {plain, full_text()};
    for (int t = 0; t < 2; t++) {
        cJSON *all = report(texts[t], BRAKE_RULES_ALL);
        const cJSON *results = item(all, "results");
        assert_int_equal(cJSON_GetArraySize(results), brake_result_count());
        for (int i = 0; i < brake_result_count(); i++) {
            char path[80];
            brake_result_path(i, path, sizeof path);
            const cJSON *one = item(results, path);
            expect_number(one, "value", brake_result_value(&assessment.results, i));
            expect_text(one, "unit", brake_unit_si(brake_result_at(i)->dimension)->name);
        }
        cJSON_Delete(all);
    }
}

static const cJSON *criterion(const cJSON *all, const char *id)
{
    const cJSON *one = NULL;
    cJSON_ArrayForEach(one, item(all, "criteria"))
    {
        if (strcmp(item(one, "id")->valuestring, id) == 0)
            return one;
    }
    fail();
    return NULL;
}

static void every_criterion_of_the_families_is_there(void **state)
{
    (void)state;
    cJSON *all = report(full_text(), BRAKE_RULES_US | BRAKE_RULES_EU);
    const cJSON *criteria = item(all, "criteria");
    int at = 0;
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_criterion *c = brake_criterion_at(i);
        const struct brake_judgement *j = &assessment.judgement[i];
        const struct brake_conformance *conformance = &assessment.conformance.of[i];
        if (j->scope == BRAKE_OUTSIDE)
            continue;
        at++;
        const cJSON *one = criterion(all, c->id);
        expect_text(one, "clause", c->clause);
        expect_text(one, "title", c->title);
        expect_text(one, "verdict", brake_verdict_words(j->verdict));
        expect_text(one, "limit_is", brake_measure_at_most(c->measure) ? "at most" : "at least");
        expect_text(one, "unit", brake_unit_si(brake_measure_dimension(c->measure))->name);
        expect_text(one, "reason", j->reason);
        expect_text(one, "read_in", c->text);
        expect_text(one, "mark", "check against the current text");
        expect_number(one, "value", j->value);
        expect_number(one, "limit", j->limit);
        expect_number(one, "margin", j->margin);
        expect_number(one, "margin_p05", conformance->margin[0]);
        expect_number(one, "margin_p95", conformance->margin[BRAKE_MARGIN_STEPS - 1]);
        expect_text(one, "load", isnan(j->margin) ? NULL : brake_load_word(j->load));
        expect_text(one, "state", isnan(j->margin) ? NULL : brake_failure_words(j->failure));
        expect_text(one, "scope", brake_scope_word(j->scope));
        expect_text(one, "read", brake_read_word(c->read));
    }
    assert_int_equal(cJSON_GetArraySize(criteria), at);
    cJSON_Delete(all);
}

static void what_has_no_number_is_null(void **state)
{
    (void)state;
    cJSON *all = report(swapped(plain, "split = II", "split = one"), BRAKE_RULES_ALL);
    /* Infinite. */
    const cJSON *never = criterion(all, "us.135.circuit_failed");
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (strcmp(brake_criterion_at(i)->id, "us.135.circuit_failed") == 0)
            assert_infinite(assessment.judgement[i].value);
    }
    assert_true(cJSON_IsNull(item(never, "value")));
    expect_number(never, "margin", -1.0);
    const cJSON *parking = criterion(all, "us.135.parking");
    assert_true(cJSON_IsNull(item(parking, "margin")));
    assert_true(cJSON_IsNull(item(parking, "margin_p05")));
    assert_true(cJSON_IsNull(item(parking, "load")));
    expect_text(parking, "reason", "parking.torque, or what it is worked out from, is not given");
    assert_true(cJSON_IsNull(item(item(item(all, "results"), "full.parking.available"), "value")));
    cJSON_Delete(all);
    all = report(plus(plain, "[driveline]\ncentre = locked\n"), BRAKE_RULES_ALL);
    const cJSON *order = criterion(all, "us.135.lock_order");
    assert_true(cJSON_IsNull(item(order, "value")));
    assert_true(cJSON_IsNull(item(order, "margin")));
    assert_true(cJSON_IsNull(item(order, "margin_p95")));
    expect_text(order, "verdict", "meets");
    cJSON_Delete(all);
}

static void the_vehicle_holds_every_line_that_is_known(void **state)
{
    (void)state;
    cJSON *all = report(plus(full_text(), "[part.winch]\nmass = 40 kg +- 1 kg, measured\n"
                                          "behind_front_axle = -500 mm\nheight = 700 mm\n"),
                        BRAKE_RULES_EU);
    const cJSON *vehicle = item(all, "vehicle");
    int known = 0;
    for (int i = 0; i < brake_catalogue_count(); i++) {
        const struct brake_record *record = &sheet.record[i];
        char path[160];
        brake_catalogue_path(&sheet.vehicle, i, path, sizeof path);
        if (record->from == BRAKE_ABSENT)
            continue;
        known++;
        const cJSON *one = item(vehicle, path);
        expect_number(one, "tolerance", record->tolerance);
        expect_text(one, "from", brake_from_word(record->from));
        expect_text(one, "unit", brake_unit_si(brake_quantity_at(i)->dimension)->name);
        if (brake_quantity_at(i)->kind == BRAKE_REAL)
            expect_number(one, "value", brake_quantity_value(&sheet.vehicle, i));
        assert_int_equal(cJSON_IsTrue(item(one, "worked_out")), record->worked);
        assert_int_equal(cJSON_IsTrue(item(one, "usual_tolerance")), record->typical);
    }
    assert_int_equal(cJSON_GetArraySize(vehicle), known);
    expect_text(item(vehicle, "part.winch.mass"), "from", "measured");
    cJSON_Delete(all);
}

static void expect_pair(const cJSON *list, int at, double first, double second)
{
    const cJSON *pair = cJSON_GetArrayItem(list, at);
    assert_int_equal(cJSON_GetArraySize(pair), 2);
    assert_near(cJSON_GetArrayItem(pair, 0)->valuedouble, first, WRITTEN);
    assert_near(cJSON_GetArrayItem(pair, 1)->valuedouble, second, WRITTEN);
}

static void every_kind_of_value_has_its_form(void **state)
{
    (void)state;
    const char *text = swapped(plain, "pistons = 1 x 60 mm", "pistons = 2 x 44 mm + 1 x 38 mm");
    cJSON *all = report(plus(text, "[front.tyre]\nmarking = 265/70R17\n[circuits]\n"
                                   "pumped = (20 bar, 3 cm3) (60 bar, 5 cm3), measured\n"),
                        BRAKE_RULES_EU);
    const cJSON *vehicle = item(all, "vehicle");
    const struct brake_pistons *pistons = &sheet.vehicle.axle[BRAKE_FRONT].disc.pistons;
    const struct brake_points *pumped = &sheet.vehicle.circuits.pumped;
    expect_text(item(vehicle, "vehicle.name"), "value", "Plain");
    expect_text(item(vehicle, "front.tyre.marking"), "value", "265/70R17");
    expect_text(item(vehicle, "circuits.split"), "value", "II");
    expect_text(item(vehicle, "rear.disc.mounting"), "value", "fixed");
    const cJSON *groups = item(item(vehicle, "front.disc.pistons"), "value");
    assert_int_equal(cJSON_GetArraySize(groups), 2);
    expect_pair(groups, 0, 2.0, pistons->diameter[0]);
    expect_pair(groups, 1, 1.0, pistons->diameter[1]);
    assert_near(pistons->diameter[1], 0.038, ROUNDING);
    const cJSON *points = item(item(vehicle, "circuits.pumped"), "value");
    assert_int_equal(cJSON_GetArraySize(points), 2);
    expect_pair(points, 0, pumped->at[0].x, pumped->at[0].y);
    expect_pair(points, 1, pumped->at[1].x, pumped->at[1].y);
    assert_near(pumped->at[1].y, 5e-6, ROUNDING);
    cJSON_Delete(all);
}

static void a_name_with_marks_of_json_comes_through(void **state)
{
    (void)state;
    cJSON *all =
        report(swapped(plain, "name = Plain", "name = \"Old\" \\ \xc3\x84gir"), BRAKE_RULES_EU);
    expect_text(item(item(all, "vehicle"), "vehicle.name"), "value", sheet.vehicle.general.name);
    assert_string_equal(sheet.vehicle.general.name, "\"Old\" \\ \xc3\x84gir");
    cJSON_Delete(all);
}

/* Criteria that stand to the vehicle in some way. */
static int listed(void)
{
    int count = 0;
    for (int i = 0; i < brake_criterion_count(); i++)
        count += assessment.judgement[i].scope != BRAKE_OUTSIDE;
    return count;
}

static void the_summary_counts_and_names_the_limiting_one(void **state)
{
    (void)state;
    cJSON *all = report(plain, BRAKE_RULES_UN);
    const cJSON *summary = item(all, "summary");
    expect_number(summary, "meets", assessment.ruling.counted.meets);
    expect_number(summary, "falls_short", assessment.ruling.counted.falls_short);
    expect_number(summary, "cannot_say", assessment.ruling.counted.cannot_say);
    expect_number(summary, "yardstick_meets", assessment.ruling.of[BRAKE_YARDSTICK].meets);
    expect_text(summary, "unstated", "vehicle.country");
    expect_text(summary, "limiting", brake_criterion_at(assessment.limiting)->id);
    /* Nothing that is measured gives another word. */
    assert_int_equal(assessment.conformance.settle.lines, 0);
    assert_true(cJSON_IsNull(item(summary, "measure_next")));
    cJSON_Delete(all);
    all = report(plain, 0);
    /* Hazards are judged whichever rules are asked for. */
    expect_text(item(all, "summary"), "limiting", "hazard.circuit");
    assert_int_equal(cJSON_GetArraySize(item(all, "criteria")), listed());
    cJSON_Delete(all);
}

static void warnings_and_the_inspectors_list_are_there(void **state)
{
    (void)state;
    cJSON *all = report(plus(plain, "[lift]\nsuspension = 50 mm\n"), BRAKE_RULES_EU);
    const cJSON *warnings = item(all, "warnings");
    const cJSON *inspector = item(all, "inspector");
    assert_int_equal(cJSON_GetArraySize(warnings), assessment.warnings);
    assert_true(assessment.warnings > 0);
    for (int i = 0; i < assessment.warnings; i++) {
        expect_text(cJSON_GetArrayItem(warnings, i), "id", assessment.warning[i].id);
        expect_text(cJSON_GetArrayItem(warnings, i), "text", assessment.warning[i].text);
    }
    int items = 0;
    for (; brake_inspector_item(items) != NULL; items++)
        assert_string_equal(cJSON_GetArrayItem(inspector, items)->valuestring,
                            brake_inspector_item(items));
    assert_int_equal(cJSON_GetArraySize(inspector), items);
    cJSON_Delete(all);
}

static void a_compact_report_is_one_line_and_says_the_same(void **state)
{
    (void)state;
    read_sheet(&sheet, full_text());
    brake_assess(&sheet, BRAKE_RULES_ALL, &assessment);
    assert_true(brake_assess_conformance(&sheet, false, NULL, &room, &assessment));
    char *compact = printed(BRAKE_AS_COMPACT_JSON);
    char *loose = printed(BRAKE_AS_JSON);
    assert_null(strchr(compact, '\n'));
    assert_non_null(strchr(loose, '\n'));
    cJSON *a = cJSON_Parse(compact);
    cJSON *b = cJSON_Parse(loose);
    assert_true(cJSON_Compare(a, b, true));
    cJSON_Delete(a);
    cJSON_Delete(b);
    free(compact);
    free(loose);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_keys_are_those_that_are_promised),
        cmocka_unit_test(every_result_is_there_in_si),
        cmocka_unit_test(every_criterion_of_the_families_is_there),
        cmocka_unit_test(what_has_no_number_is_null),
        cmocka_unit_test(the_vehicle_holds_every_line_that_is_known),
        cmocka_unit_test(every_kind_of_value_has_its_form),
        cmocka_unit_test(a_name_with_marks_of_json_comes_through),
        cmocka_unit_test(the_summary_counts_and_names_the_limiting_one),
        cmocka_unit_test(warnings_and_the_inspectors_list_are_there),
        cmocka_unit_test(a_compact_report_is_one_line_and_says_the_same),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
