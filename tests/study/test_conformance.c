/* SPDX-License-Identifier: MIT */
/* How sure a verdict is, and its word. Decision rule: JCGM 106:2012, sec. 8 (guarded acceptance),
 * with the limits of the method page. Vehicle: ../vehicle/sheet.h.
 *
 * Deceleration at 500 N, full: (36 mu/0.4 + 9)/11 m/s2, linear in the friction mu of the front
 * pads; the model's own error takes it times a factor f, normal, 3 % wide. Where friction alone is
 * uncertain, P(a f >= 6.43) is the integral over f of the chance that mu is enough. */
#include "../vehicle/sheet.h"

#include <stdlib.h>

#include "brake/conformance.h"
#include "criteria/judge.h"
#include "study/conformance.h"
#include "study/distribution.h"
#include "study/measuring.h"
#include "study/procedure.h"
#include "study/sample.h"

static struct brake_conformance_room room;
static struct brake_conformances conformance;
static struct brake_judgement judgement[BRAKE_CRITERIA];
static struct brake_sheet sheet;

static void draw(unsigned rules)
{
    const struct brake_conformance_options options = {rules, false, NULL};
    brake_judge_all(rules, &sheet.vehicle, judgement);
    assert_true(brake_conformance_draw(&sheet, &options, &room, judgement, &conformance));
}

static const struct brake_conformance *conformance_of(const char *id)
{
    draw(BRAKE_RULES_ALL);
    return &conformance.of[criterion_number(id)];
}

static void read_exact(const char *text)
{
    read_sheet(&sheet, text);
    make_exact(&sheet);
}

/* Front friction mu +- 0.04 on a road that does not limit. */
static void read_with_friction(const char *mu)
{
    char line[80];
    snprintf(line, sizeof line, "mu = %s\n", mu);
    read_exact(swapped(swapped(plain, "mu = 0.4\n", line), "tyre_grip = 1\n", "tyre_grip = 1.4\n"));
    state_tolerance(&sheet, "front.disc.pads.mu", 0.04, BRAKE_ESTIMATED);
}

/* Full, from a friction in front and one of 0.4 at the rear. */
static double deceleration_of(double mu)
{
    return (36.0 * mu / 0.4 + 9.0) / 11.0;
}

/* Of a normal deceleration, by the trapezium rule over seven standard deviations of the model's
 * factor. */
static double chance_of_type0(double mean, double sigma)
{
    enum { STEPS = 4000 };
    const double pi = acos(-1.0);
    double sum = 0.0;
    for (int i = 0; i <= STEPS; i++) {
        const double z = -7.0 + 14.0 * i / STEPS;
        const double factor = 1.0 + 0.03 / 1.96 * z;
        const double share = 0.5 * erfc((6.43 / factor - mean) / sigma / sqrt(2.0));
        sum += share * exp(-0.5 * z * z) / sqrt(2.0 * pi) * 14.0 / STEPS;
    }
    return sum;
}

static void p_is_the_share_that_the_integral_gives(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double mu;
    } cases[] = {{"0.66", 0.66}, {"0.68", 0.68}, {"0.69", 0.69}, {"0.70", 0.70}, {"0.72", 0.72}};
    for (int i = 0; i < 5; i++) {
        read_with_friction(cases[i].text);
        const struct brake_conformance *s = conformance_of("un.13h.type0");
        const double p = chance_of_type0(deceleration_of(cases[i].mu), 90.0 / 11.0 * 0.04 / 1.96);
        assert_true(s->met_low <= p && p <= s->met_high);
        assert_true(fabs(s->met - p) < 3.0 / sqrt((double)s->samples) / 2.0);
    }
}

/* Given frictions of front and rear that go through half of it together (causes.c), stated or left
 * out, when P is counted, then the variance of the deceleration has their covariance in it; P is
 * near 95 of 100, so that all samples are drawn. */
static void what_front_and_rear_share_is_in_p(void **state)
{
    (void)state;
    static const enum brake_from from[] = {BRAKE_ESTIMATED, BRAKE_DEFAULT};
    const double front = 90.0 / 11.0 * 0.04 / 1.96;
    const double rear = 22.5 / 11.0 * 0.16 / 1.96;
    const double sigma = sqrt(front * front + rear * rear + 2.0 * 0.5 * front * rear);
    const double p = chance_of_type0(deceleration_of(0.748), sigma);
    const double error = sqrt(p * (1.0 - p) / BRAKE_SAMPLES_MOST);
    for (int i = 0; i < 2; i++) {
        read_with_friction("0.748");
        state_tolerance(&sheet, "front.disc.pads.mu", 0.04, from[i]);
        state_tolerance(&sheet, "rear.disc.pads.mu", 0.16, from[i]);
        const struct brake_conformance *s = conformance_of("un.13h.type0");
        assert_int_equal(s->samples, BRAKE_SAMPLES_MOST);
        assert_within(s->met, p, 3.0 * error);
    }
    assert_true(chance_of_type0(deceleration_of(0.748), hypot(front, rear)) > p + 6.0 * error);
}

static void the_word_follows_from_the_least_that_p_may_be(void **state)
{
    (void)state;
    assert_int_equal(brake_conformance_word(1.0), BRAKE_MEETS);
    assert_int_equal(brake_conformance_word(0.95), BRAKE_MEETS);
    assert_int_equal(brake_conformance_word(0.9499), BRAKE_CANNOT_SAY);
    assert_int_equal(brake_conformance_word(0.50), BRAKE_CANNOT_SAY);
    assert_int_equal(brake_conformance_word(0.4999), BRAKE_FALLS_SHORT);
    assert_int_equal(brake_conformance_word(0.0), BRAKE_FALLS_SHORT);
}

static void what_a_limit_lies_within_is_open(void **state)
{
    (void)state;
    assert_true(brake_conformance_open(0.94, 0.96));
    assert_true(brake_conformance_open(0.45, 0.55));
    assert_false(brake_conformance_open(0.95, 1.0));
    assert_false(brake_conformance_open(0.60, 0.94));
    assert_false(brake_conformance_open(0.10, 0.49));
    /* a P of 95 meets, one of 50 does not fall short: where it may reach them it is open */
    assert_true(brake_conformance_open(0.94, 0.95));
    assert_false(brake_conformance_open(0.94, 0.9499));
    assert_true(brake_conformance_open(0.49, 0.50));
    assert_false(brake_conformance_open(0.49, 0.4999));
    assert_false(brake_conformance_open(0.50, 0.94));
}

/* brake/conformance.h: of 100 samples that come to a margin 5, 10 ... have less. */
static void the_steps_are_those_that_are_told(void **state)
{
    (void)state;
    static const int percent[BRAKE_MARGIN_STEPS] = {5, 10, 25, 50, 75, 90, 95};
    for (int k = 0; k < BRAKE_MARGIN_STEPS; k++)
        assert_near(100.0 * brake_conformance_step(k), (double)percent[k], ROUNDING);
}

/* Its ends p solve (share - p)^2 = z^2 p (1 - p)/n: Wilson (1927). */
static void the_interval_is_wilsons(void **state)
{
    (void)state;
    const double z = 2.5758293035489004;
    static const long counts[][2] = {{0, 256},   {1, 256},   {128, 256},
                                     {250, 256}, {256, 256}, {3900, 4096}};
    for (int i = 0; i < 6; i++) {
        const double n = (double)counts[i][1];
        const double share = (double)counts[i][0] / n;
        double end[2];
        brake_conformance_interval(counts[i][0], counts[i][1], &end[0], &end[1]);
        for (int k = 0; k < 2; k++)
            assert_near((share - end[k]) * (share - end[k]) + 1.0,
                        z * z * end[k] * (1.0 - end[k]) / n + 1.0, 1e-12);
        assert_true(end[0] <= share && share <= end[1]);
    }
}

/* Rounding left the end a bit below a share of 1 (found by tests/fuzz/changed.c). */
static void the_interval_holds_all_and_none(void **state)
{
    (void)state;
    for (long samples = 1; samples <= BRAKE_SAMPLES_MOST; samples++) {
        double none[2], all[2];
        brake_conformance_interval(0, samples, &none[0], &none[1]);
        brake_conformance_interval(samples, samples, &all[0], &all[1]);
        assert_true(none[0] == 0.0 && none[1] > 0.0 && all[0] < 1.0 && all[1] == 1.0);
    }
}

/* All of 256 met leaves P at 97 of 100 or more; half of them leave it open until there are 4096. */
static void more_is_drawn_while_the_word_is_open(void **state)
{
    (void)state;
    read_with_friction("0.687");
    draw(BRAKE_RULES_UN);
    assert_int_equal(conformance.samples, BRAKE_SAMPLES_MOST);
    read_with_friction("0.85");
    draw(0);
    assert_true(conformance.of[criterion_number("hazard.circuit")].samples < BRAKE_SAMPLES_MOST);
}

static void the_words_are_those_of_p(void **state)
{
    (void)state;
    const int type0 = criterion_number("un.13h.type0");
    static const struct {
        const char *mu;
        enum brake_verdict word;
    } cases[] = {{"0.62", BRAKE_FALLS_SHORT}, {"0.705", BRAKE_CANNOT_SAY}, {"0.76", BRAKE_MEETS}};
    for (int i = 0; i < 3; i++) {
        read_with_friction(cases[i].mu);
        draw(BRAKE_RULES_ALL);
        assert_int_equal(judgement[type0].verdict, cases[i].word);
    }
}

/* At even odds the margin is 0 or more and the old word was `meets`. */
static void even_odds_are_no_meets(void **state)
{
    (void)state;
    read_with_friction("0.687");
    const struct brake_conformance *s = conformance_of("un.13h.type0");
    assert_true(judgement[criterion_number("un.13h.type0")].margin > 0.0);
    assert_true(s->met > 0.5 && s->met < 0.6);
    assert_int_not_equal(judgement[criterion_number("un.13h.type0")].verdict, BRAKE_MEETS);
}

static void the_same_bytes_each_time_and_for_any_threads(void **state)
{
    (void)state;
    static struct brake_conformances again;
    read_sheet(&sheet, full_text());
    draw(BRAKE_RULES_ALL);
    again = conformance;
    draw(BRAKE_RULES_ALL);
    for (int i = 0; i < brake_criterion_count(); i++) {
        assert_memory_equal(&again.of[i].margin, &conformance.of[i].margin,
                            sizeof conformance.of[i].margin);
        assert_int_equal(again.of[i].samples, conformance.of[i].samples);
        assert_int_equal(again.of[i].failed, conformance.of[i].failed);
        assert_int_equal(again.of[i].leading, conformance.of[i].leading);
    }
}

/* What is met by all alone and by all together, of the samples that both are counted over. */
static void together_is_no_more_than_the_worst_row(void **state)
{
    (void)state;
    double least = 1.0;
    read_sheet(&sheet, full_text());
    draw(BRAKE_RULES_UN);
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (conformance.of[i].samples > 0)
            least = fmin(least, conformance.of[i].met);
    }
    assert_true(conformance.all_met <= least + 0.05);
    assert_int_equal(conformance.all_samples, conformance.samples < BRAKE_SAMPLES_KEPT
                                                  ? conformance.samples
                                                  : BRAKE_SAMPLES_KEPT);
}

/* Two rows that turn on the same friction alone, and by the same error of the model, are met
 * together as often as the harder one: 6.43 m/s2 implies the distance of the same test. */
static void rows_of_one_cause_are_met_together_as_often_as_the_harder(void **state)
{
    (void)state;
    read_with_friction("0.69");
    draw(BRAKE_RULES_ALL);
    const struct brake_conformance *deceleration =
        &conformance.of[criterion_number("un.13h.type0")];
    const struct brake_conformance *distance =
        &conformance.of[criterion_number("un.13h.type0_distance")];
    const struct brake_conformance *twin = &conformance.of[criterion_number("us.135.cold")];
    assert_equal(distance->met, twin->met);
    assert_true(deceleration->met > 0.0 && distance->met > 0.0);
}

/* The uncertain friction of the front; that of the rear is known. */
static void the_leading_line_is_the_one_that_is_uncertain(void **state)
{
    (void)state;
    read_with_friction("0.69");
    const struct brake_conformance *s = conformance_of("un.13h.type0");
    assert_int_equal(s->leading, index_at(&sheet.vehicle, "front.disc.pads.mu"));
    assert_true(s->share > 0.5);
}

/* What is measured already needs no better measurement, though it moves more. */
static void the_largest_of_those_not_measured_leads(void **state)
{
    (void)state;
    read_exact(plain);
    state_tolerance(&sheet, "front.disc.pads.mu", 0.04, BRAKE_MEASURED);
    state_tolerance(&sheet, "rear.disc.pads.mu", 0.08, BRAKE_CATALOGUE);
    assert_int_equal(conformance_of("un.13h.type0")->leading,
                     index_at(&sheet.vehicle, "rear.disc.pads.mu"));
    sheet.record[index_at(&sheet.vehicle, "rear.disc.pads.mu")].from = BRAKE_MEASURED;
    assert_int_equal(conformance_of("un.13h.type0")->leading,
                     index_at(&sheet.vehicle, "front.disc.pads.mu"));
}

static void what_cannot_be_judged_has_no_conformance(void **state)
{
    (void)state;
    read_sheet(&sheet, plain);
    /* Lacks an input; does not apply. */
    static const char *const ids[] = {"us.135.parking", "us.135.assist_failed"};
    for (int i = 0; i < 2; i++) {
        const struct brake_conformance *s = conformance_of(ids[i]);
        assert_nan(s->met);
        assert_int_equal(s->samples, 0);
        assert_int_equal(s->leading, -1);
        for (int k = 0; k < BRAKE_MARGIN_STEPS; k++)
            assert_nan(s->margin[k]);
        assert_int_equal(judgement[criterion_number(ids[i])].verdict, BRAKE_CANNOT_SAY);
    }
}

static void families_that_are_not_wanted_are_left_out_but_hazards_never(void **state)
{
    (void)state;
    read_sheet(&sheet, plain);
    draw(BRAKE_RULES_UN);
    assert_true(conformance.of[criterion_number("un.13h.type0")].samples > 0);
    assert_int_equal(conformance.of[criterion_number("us.135.cold")].samples, 0);
    assert_true(conformance.of[criterion_number("hazard.circuit")].samples > 0);
    for (int i = 0; i < brake_criterion_count(); i++) {
        const bool hot = brake_measure_hot(brake_criterion_at(i)->measure);
        assert_int_equal(conformance.of[i].samples > 0, !hot && !isnan(judgement[i].margin));
    }
}

/* From 80 % of any top speed 4 m/s2 is too little; 7 m/s2 is enough from some. */
static void what_is_missed_wherever_a_missing_line_may_stand_falls_short(void **state)
{
    (void)state;
    const int top_speed = criterion_number("un.13h.high_speed");
    read_exact(plain);
    draw(BRAKE_RULES_UN);
    assert_non_null(judgement[top_speed].missing);
    assert_int_equal(judgement[top_speed].verdict, BRAKE_FALLS_SHORT);
    read_with_friction("0.80");
    draw(BRAKE_RULES_UN);
    assert_int_equal(judgement[top_speed].verdict, BRAKE_CANNOT_SAY);
}

/* The interval of the friction reaches past the margin: stated it decides; taken from the
 * catalogue's default it rests on what was left out. */
static void a_word_rests_on_what_was_left_out(void **state)
{
    (void)state;
    read_with_friction("0.70");
    assert_false(conformance_of("un.13h.type0")->rests_on_defaults);
    sheet.record[index_at(&sheet.vehicle, "front.disc.pads.mu")].from = BRAKE_DEFAULT;
    assert_true(conformance_of("un.13h.type0")->rests_on_defaults);
}

/* 6.43 m/s2 take a friction of 0.686. Of the deceleration there 0.04 in 95 of 100 makes 2.6 %, the
 * model 1.5 %: the default carries 0.74 of a scatter of 3.0 %, of which 5 of 100 lie 1.645 times
 * further down or up. Within 1.645 x 3.0 % x sqrt(0.74) = 4.3 % of it, frictions of 0.652 to 0.720,
 * the word rests on the default. */
static void a_word_rests_on_either_side_of_the_limit(void **state)
{
    (void)state;
    static const struct {
        const char *mu;
        bool above, rests;
    } rows[] = {{"0.606", false, false}, {"0.649", false, false}, {"0.656", false, true},
                {"0.666", false, true},  {"0.706", true, true},   {"0.716", true, true},
                {"0.723", true, false},  {"0.766", true, false}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        read_with_friction(rows[i].mu);
        sheet.record[index_at(&sheet.vehicle, "front.disc.pads.mu")].from = BRAKE_DEFAULT;
        const struct brake_conformance *type0 = conformance_of("un.13h.type0");
        assert_true(type0->by_defaults > 0.5);
        const double margin = judgement[criterion_number("un.13h.type0")].margin;
        assert_int_equal(margin >= 0.0, rows[i].above);
        assert_int_equal(type0->rests_on_defaults, rows[i].rests);
    }
}

/* What nothing moves has no line that leads, and its word is had from the fewest samples. */
static void what_nothing_moves_has_no_leading_line(void **state)
{
    (void)state;
    read_exact(plain);
    const struct brake_conformance *mass = conformance_of("hazard.mass");
    assert_true(mass->met == 1.0);
    assert_int_equal(mass->leading, -1);
    assert_int_equal(mass->samples, BRAKE_SAMPLES_LEAST);
}

/* The first of all lines, the mass, alone uncertain: it leads, and as a default it is counted. */
static void the_first_line_may_lead(void **state)
{
    (void)state;
    static struct brake_inputs all_inputs;
    read_sheet(&sheet, plain);
    brake_inputs_list(&sheet, NULL, &all_inputs);
    const int first = all_inputs.input[0].index;
    make_exact(&sheet);
    sheet.record[first].tolerance = 0.2 * brake_quantity_value(&sheet.vehicle, first);
    sheet.record[first].from = BRAKE_DEFAULT;
    int led = 0;
    draw(BRAKE_RULES_ALL);
    for (int i = 0; i < brake_criterion_count(); i++)
        led += conformance.of[i].leading == first && conformance.of[i].by_defaults > 0.25;
    assert_true(led > 0);
}

static volatile sig_atomic_t stop_now = 1;

static void it_stops_when_told_to(void **state)
{
    (void)state;
    const struct brake_watch watch = {NULL, NULL, &stop_now};
    const struct brake_conformance_options options = {BRAKE_RULES_ALL, false, &watch};
    read_sheet(&sheet, plain);
    brake_judge_all(BRAKE_RULES_ALL, &sheet.vehicle, judgement);
    assert_false(brake_conformance_draw(&sheet, &options, &room, judgement, &conformance));
}

/* ---- against counting one by one ------------------------------------------------------------- */

static struct brake_inputs inputs;
static struct brake_sobol sobol;
static double margin_of[BRAKE_SAMPLES_MOST][BRAKE_CRITERIA];
static double share_of[BRAKE_SAMPLES_MOST][BRAKE_INPUTS];

static void draw_one_by_one(uint32_t samples)
{
    brake_inputs_list(&sheet, NULL, &inputs);
    assert_int_equal(brake_sobol_scrambled(brake_inputs_count(&inputs), 0, &sobol), BRAKE_OK);
    for (uint32_t i = 0; i < samples; i++) {
        brake_sobol_middle(&sobol, i, share_of[i]);
        sample_margins(&inputs, BRAKE_RULES_ALL, share_of[i], margin_of[i]);
    }
}

/* What cannot be worked out is the worst. */
static double worst_first(double margin)
{
    return isnan(margin) ? -BRAKE_INFINITY : margin;
}

/* Normal score of a sample's rank among so many, those alike sharing it. */
static double rank_score(int criterion, long sample, long kept)
{
    const double own = worst_first(margin_of[sample][criterion]);
    double below = 0.0;
    for (long i = 0; i < kept; i++) {
        const double other = worst_first(margin_of[i][criterion]);
        below += other < own ? 1.0 : other == own ? 0.5 : 0.0;
    }
    return brake_normal_value(below / (double)kept);
}

/* Of an input: a choice is one of two values of mean 0 and deviation 1. */
static double input_score(int k, double share)
{
    if (k >= inputs.count || !inputs.input[k].choice)
        return brake_normal_value(share);
    const double odds = brake_quantity_at(inputs.input[k].index)->odds;
    return ((share < odds ? 1.0 : 0.0) - odds) / sqrt(odds * (1.0 - odds));
}

/* Part of the scatter of the scores in room.own that an input carries: its correlation squared,
 * less what chance gives. */
static double carried_by(int k, long kept)
{
    double sum = 0.0;
    for (long i = 0; i < kept; i++)
        sum += room.own[i] * input_score(k, share_of[i][k]);
    return fmax(0.0, sum * sum / (double)kept / (double)kept - 4.0 / (double)kept);
}

static int by_size(const void *one, const void *other)
{
    const double a = *(const double *)one;
    const double b = *(const double *)other;
    return (a > b) - (a < b);
}

static void assert_steps(int criterion, long kept)
{
    static double sorted[BRAKE_SAMPLES_KEPT];
    for (long i = 0; i < kept; i++)
        sorted[i] = worst_first(margin_of[i][criterion]);
    qsort(sorted, (size_t)kept, sizeof sorted[0], by_size);
    for (int k = 0; k < BRAKE_MARGIN_STEPS; k++) {
        const double place = (double)(kept - 1) * brake_conformance_step(k);
        const long at = (long)place;
        const double next = sorted[at + 1 < kept ? at + 1 : at];
        const double step = conformance.of[criterion].margin[k];
        if (isfinite(sorted[at]) && isfinite(next))
            assert_within(step, sorted[at] + (place - (double)at) * (next - sorted[at]), 1e-12);
    }
}

/* What moves the margin of a criterion: that of defaults, and the line that carries most of those
 * not measured, with what it shares. */
static void assert_carried(int criterion, long kept)
{
    const struct brake_conformance *s = &conformance.of[criterion];
    double carried[BRAKE_INPUTS];
    double defaults = 0.0;
    double most[2] = {0.0, 0.0};
    int leading[2] = {-1, -1};
    for (long i = 0; i < kept; i++)
        room.own[i] = rank_score(criterion, i, kept);
    for (int k = 0; k < inputs.count + inputs.causes; k++) {
        carried[k] = carried_by(k, kept);
        defaults += brake_inputs_from(&inputs, k) == BRAKE_DEFAULT ? carried[k] : 0.0;
    }
    for (int k = 0; k < inputs.count; k++) {
        const int cause = inputs.input[k].cause;
        const double share = carried[k] + (cause >= 0 ? carried[inputs.count + cause] : 0.0);
        const int of = sheet.record[inputs.input[k].index].from == BRAKE_MEASURED;
        if (share > most[of] * (1.0 + 1e-9)) {
            most[of] = share;
            leading[of] = inputs.input[k].index;
        }
    }
    assert_within(s->by_defaults, defaults, 1e-9);
    assert_int_equal(s->leading, leading[leading[0] < 0]);
    assert_within(s->share, most[leading[0] < 0], 1e-9);
    const double margin = judgement[criterion].margin;
    const double reach = margin >= 0.0 ? margin - s->margin[0] : s->margin[6] - margin;
    assert_int_equal(s->rests_on_defaults,
                     s->by_defaults > 0.0 && fabs(margin) < reach * sqrt(fmin(1.0, defaults)));
}

/* The share of so many samples that meet all that counts. */
static void assert_together(long samples)
{
    double together = 0.0;
    for (long k = 0; k < samples; k++) {
        bool all = true;
        for (int i = 0; i < brake_criterion_count(); i++)
            all = all && (!brake_conformance_counts(&judgement[i], &conformance.of[i]) ||
                          margin_of[k][i] >= 0.0);
        together += all ? 1.0 : 0.0;
    }
    assert_int_equal(conformance.all_samples, samples);
    assert_equal(conformance.all_met, together / (double)samples);
}

/* Every figure of every row, of a vehicle with everything uncertain. */
static void figures_are_those_of_the_samples_counted_one_by_one(void **state)
{
    (void)state;
    int checked = 0;
    long samples = BRAKE_SAMPLES_KEPT;
    read_sheet(&sheet, full_text());
    draw(BRAKE_RULES_ALL);
    draw_one_by_one(BRAKE_SAMPLES_MOST);
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_conformance *s = &conformance.of[i];
        long met = 0;
        long failed = 0;
        const bool hot_one = brake_measure_hot(brake_criterion_at(i)->measure);
        assert_int_equal(s->samples > 0, !hot_one && !isnan(judgement[i].margin));
        if (s->samples == 0)
            continue;
        const long kept = s->samples < BRAKE_SAMPLES_KEPT ? s->samples : BRAKE_SAMPLES_KEPT;
        if (brake_conformance_counts(&judgement[i], s) && kept < samples)
            samples = kept;
        for (long k = 0; k < s->samples; k++) {
            met += margin_of[k][i] >= 0.0;
            failed += isnan(margin_of[k][i]);
        }
        assert_equal(s->met, (double)met / (double)s->samples);
        assert_int_equal(s->failed, failed);
        assert_int_equal(s->failing != NULL, failed > 0);
        assert_steps(i, kept);
        if (checked++ % 5 == 0) /* they take long */
            assert_carried(i, kept);
    }
    assert_true(checked > 10);
    assert_together(samples);
}

/* A master cylinder so large that the brakes with a failed circuit do in half of the samples what
 * is no hazard: all other hazards are passed. A little smaller or larger it is such that the first
 * of all samples just does it or does not. */
static void some_samples_meet_all_together(void **state)
{
    (void)state;
    const int row = criterion_number("hazard.circuit");
    double area = 0.0;
    char bore[60];
    read_sheet(&sheet, swapped(strong_text(), "pistons = 1 x 50 mm", "pistons = 1 x 40 mm"));
    draw(0);
    for (int i = 0; i < 3; i++) {
        area = i == 0 ? 1.0 + judgement[row].margin
                      : area * (1.0 + margin_of[0][row]) * (i == 1 ? 1.0 - 1e-6 : 1.0 + 1e-6);
        snprintf(bore, sizeof bore, "master.bore=%.9f mm", 20.0 * sqrt(area));
        change(&sheet, bore);
        make_exact(&sheet);
        state_tolerance(&sheet, "front.disc.pads.mu", 0.04, BRAKE_MEASURED);
        draw(0);
        draw_one_by_one(BRAKE_SAMPLES_KEPT);
        assert_true(conformance.all_met > 0.0 && conformance.all_met < 1.0);
        assert_together(conformance.all_samples);
        if (i > 0)
            assert_int_equal(margin_of[0][row] >= 0.0, i == 1);
        else
            assert_within(conformance.all_met, 0.5, 0.05);
    }
}

/* 2550 kg are 1.02 of the 2500 kg that are rated, as much as is allowed: a margin of nothing is
 * met, alone and, with a master cylinder small enough for a failed circuit, together with all
 * others. */
static void a_margin_of_nothing_is_met(void **state)
{
    (void)state;
    const int row = criterion_number("hazard.mass");
    const char *text = swapped(strong_text(), "pistons = 1 x 50 mm", "pistons = 1 x 40 mm");
    text = swapped(text, "bore = 20 mm", "bore = 16 mm");
    read_exact(swapped(swapped(text, "mass = 2000 kg\n", "mass = 2040 kg\n"), "mass = 500 kg\n",
                       "mass = 510 kg\n"));
    draw(0);
    assert_true(judgement[row].margin == 0.0);
    assert_true(conformance.of[row].met == 1.0);
    assert_int_equal(judgement[row].verdict, BRAKE_MEETS);
    assert_true(conformance.all_met == 1.0);
}

/* A choice alone moves this margin, where everything else is exact: by which of its two words each
 * sample has. */
static void a_choice_that_is_open_carries_its_part(void **state)
{
    (void)state;
    int carried = 0;
    read_exact(full_text());
    draw(BRAKE_RULES_ALL);
    draw_one_by_one(BRAKE_SAMPLES_MOST);
    for (int i = 0; i < brake_criterion_count(); i++) {
        const long samples = conformance.of[i].samples;
        if (samples == 0)
            continue;
        assert_carried(i, samples < BRAKE_SAMPLES_KEPT ? samples : BRAKE_SAMPLES_KEPT);
        const int leading = conformance.of[i].leading;
        carried += leading >= 0 && brake_quantity_at(leading)->kind == BRAKE_CHOICE;
    }
    assert_true(carried > 0);
}

/* The frictions of front and rear, which share a cause, are all that is uncertain beside the model:
 * estimated, and measured, where no line that was not leads. */
static void what_a_line_shares_is_carried_by_it_too(void **state)
{
    (void)state;
    static const enum brake_from from[] = {BRAKE_ESTIMATED, BRAKE_MEASURED};
    const int type0 = criterion_number("un.13h.type0");
    for (int i = 0; i < 2; i++) {
        read_with_friction("0.748");
        state_tolerance(&sheet, "front.disc.pads.mu", 0.16, from[i]);
        state_tolerance(&sheet, "rear.disc.pads.mu", 0.04, from[i]);
        draw(BRAKE_RULES_ALL);
        draw_one_by_one(BRAKE_SAMPLES_KEPT);
        assert_int_equal(inputs.causes, 1);
        assert_carried(type0, BRAKE_SAMPLES_KEPT);
        assert_int_equal(conformance.of[type0].leading,
                         index_at(&sheet.vehicle, "front.disc.pads.mu"));
    }
}

/* Lining whose friction stands 20 % below that at which its shoe locks itself, +- 25 %: about 6 of
 * 100 lock, and none of them may leave the count. */
static void a_sample_that_locks_itself_is_not_met(void **state)
{
    (void)state;
    read_exact(shoe_text());
    const int mu = index_at(&sheet.vehicle, "rear.drum.lining.mu");
    const double lock = locking_friction(&sheet);
    assert_true(lock < 0.89);
    char setting[80];
    snprintf(setting, sizeof setting, "rear.drum.lining.mu = %.6f", 0.8 * lock);
    set(&sheet, setting);
    complete(&sheet);
    make_exact(&sheet);
    sheet.record[mu].tolerance = 0.25 * lock;
    const struct brake_conformance *s = conformance_of("hazard.self_lock");
    const double p = 0.5 * erfc(-(0.2 * lock) / (0.25 * lock / 1.96) / sqrt(2.0));
    assert_true(s->met_low <= p + 0.01 && p - 0.01 <= s->met_high);
    const struct brake_conformance *stop = &conformance.of[criterion_number("hazard.circuit")];
    assert_within((double)stop->failed / (double)stop->samples, 1.0 - p, 0.01);
    assert_string_equal(stop->failing, "a shoe locks itself");
    assert_true(stop->met <= 1.0 - (double)stop->failed / (double)stop->samples + 1e-9);
    draw_one_by_one(BRAKE_SAMPLES_KEPT);
    assert_carried(criterion_number("hazard.circuit"), BRAKE_SAMPLES_KEPT);
}

static struct brake_measuring_row open_row[2][BRAKE_CRITERIA];

/* The rows that lines to measure are asked of: what counts and is not met, and what is met where
 * defaults carry more than a quarter of the scatter (brake/conformance.h). Of all or none that met
 * half a sample is taken off. */
static void list_open_rows(int rows[2])
{
    rows[0] = rows[1] = 0;
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_conformance *s = &conformance.of[i];
        const bool met = judgement[i].verdict == BRAKE_MEETS;
        if (!brake_conformance_counts(&judgement[i], s) || (met && !(s->by_defaults > 0.25)))
            continue;
        const double half = 0.5 / (double)s->samples;
        open_row[met][rows[met]++] = (struct brake_measuring_row){
            i, -brake_normal_value(fmin(fmax(s->met, half), 1.0 - half)), room.product[i],
            judgement[i].verdict};
    }
}

/* Lines that could settle what is open, and those that could overturn what is met. */
static void what_to_measure_is_asked_of_what_counts(void **state)
{
    (void)state;
    static const struct brake_measuring *const kept[] = {&conformance.settle,
                                                         &conformance.overturn};
    int all[2] = {0, 0};
    for (int exact = 0; exact < 2; exact++) {
        int rows[2];
        if (exact) {
            read_exact(strong_text());
            state_tolerance(&sheet, "front.disc.pads.mu", 0.04, BRAKE_DEFAULT);
        } else {
            read_sheet(&sheet, full_text());
        }
        draw(BRAKE_RULES_ALL);
        list_open_rows(rows);
        for (int met = 0; met < 2; met++) {
            static struct brake_measuring found;
            brake_measuring_find(&room.inputs, open_row[met], rows[met], &found);
            assert_int_equal(found.lines, kept[met]->lines);
            for (int k = 0; k < found.lines; k++) {
                assert_int_equal(found.line[k], kept[met]->line[k]);
                assert_near(found.sum[k], kept[met]->sum[k], ROUNDING);
            }
            assert_memory_equal(found.probability, kept[met]->probability,
                                sizeof found.probability);
            all[met] += rows[met];
        }
    }
    assert_true(all[0] > 0 && all[1] > 0);
}

struct told {
    int times;
    double done[16], total;
};

static void hear(void *context, double done, double total)
{
    struct told *told = context;
    assert_in_range(told->times, 0, 15);
    told->done[told->times++] = done;
    told->total = total;
}

static const char heat[] =
    "[vehicle]\ntop_speed = 160 km/h\n"
    "[front.disc]\nrotor_mass = 14 kg\nrotor_diameter = 300 mm\nhat_mass = 2 kg\nrotor = vented\n"
    "[rear.disc]\nrotor_mass = 9 kg\nrotor_diameter = 300 mm\n"
    "[heat]\niron = grey_250\nambient = 20 degC\nfluid = DOT4\n";

/* Of brakes whose rotors are not known nothing is drawn hot, and nothing told. */
static void without_hot_performance_no_samples_of_it_are_told(void **state)
{
    (void)state;
    struct told told = {0, {0.0}, 0.0};
    const struct brake_watch watch = {hear, &told, NULL};
    const struct brake_conformance_options options = {BRAKE_RULES_UN, true, &watch};
    read_exact(plain);
    brake_judge_all(BRAKE_RULES_UN, &sheet.vehicle, judgement);
    assert_true(brake_conformance_draw(&sheet, &options, &room, judgement, &conformance));
    assert_int_equal(told.times, 0);
}

/* 128 of hot performance, told by 32, each as by itself. */
static void hot_samples_are_told_and_are_those_one_by_one(void **state)
{
    (void)state;
    struct told told = {0, {0.0}, 0.0};
    const struct brake_watch watch = {hear, &told, NULL};
    const struct brake_conformance_options options = {BRAKE_RULES_ALL, true, &watch};
    struct brake_results results;
    long met[BRAKE_CRITERIA] = {0};
    int hot = 0;
    read_sheet(&sheet, plus(plain, heat));
    brake_judge_all(BRAKE_RULES_ALL, &sheet.vehicle, judgement);
    brake_fade_judge(&sheet, BRAKE_RULES_ALL, judgement, &results);
    assert_true(brake_conformance_draw(&sheet, &options, &room, judgement, &conformance));
    assert_int_equal(told.times, 4);
    for (int i = 0; i < 4; i++)
        assert_true(told.done[i] == 32.0 * (i + 1) && told.total == 128.0);
    brake_inputs_list(&sheet, NULL, &inputs);
    assert_int_equal(brake_sobol_scrambled(brake_inputs_count(&inputs), 0, &sobol), BRAKE_OK);
    for (uint32_t k = 0; k < BRAKE_SAMPLES_HOT; k++) {
        struct sample_hot sample = {share_of[0], margin_of[0]};
        brake_sobol_middle(&sobol, k, share_of[0]);
        sample_hot_margins(&inputs, BRAKE_RULES_ALL, &sample, 1);
        for (int i = 0; i < brake_criterion_count(); i++)
            met[i] += margin_of[0][i] >= 0.0;
    }
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (!brake_measure_hot(brake_criterion_at(i)->measure) || conformance.of[i].samples == 0)
            continue;
        assert_int_equal(conformance.of[i].samples, BRAKE_SAMPLES_HOT);
        assert_equal(conformance.of[i].met, (double)met[i] / BRAKE_SAMPLES_HOT);
        hot++;
    }
    assert_true(hot > 1);
}

static void keep_fade(void *context, int number, const struct brake_fade *one)
{
    struct brake_fade *into = context;
    into[number] = *one;
}

/* A sample's vehicle by itself, with its share of the model's error. */
static void assert_hot_margin(int criterion, const double *share, double margin)
{
    const struct brake_criterion *c = brake_criterion_at(criterion);
    static struct brake_fade fade;
    struct brake_vehicle vehicle;
    struct brake_judgement one;
    double factor[BRAKE_MODEL_ERRORS];
    brake_inputs_vehicle(&inputs, share, &vehicle);
    brake_inputs_model(&inputs, share, factor);
    const struct brake_vehicle *const alone = &vehicle;
    const struct brake_fades fades = {&alone, 1,         c->fade, brake_fade_part_of(c),
                                      true,   keep_fade, &fade};
    brake_fade_run_all(&fades);
    brake_judge_hot(c, &vehicle, &fade.figures, &one);
    const double error = factor[brake_measure_error(c->measure)];
    assert_equal(margin, brake_measure_margin_off(c->measure, one.margin, error));
}

/* Samples side by side are those one by one, to the bit, of a car and of goods; they differ among
 * themselves. */
static void hot_samples_do_not_depend_on_those_beside_them(void **state)
{
    (void)state;
    static const char *const categories[] = {"vehicle.category=M1", "vehicle.category=N1"};
    for (int category = 0; category < 2; category++) {
        static double alone[BRAKE_CRITERIA];
        struct sample_hot sample[BRAKE_TOGETHER];
        int hot = 0;
        read_sheet(&sheet, plus(strong_text(), heat));
        change(&sheet, categories[category]);
        draw_one_by_one(BRAKE_TOGETHER);
        for (int k = 0; k < BRAKE_TOGETHER; k++)
            sample[k] = (struct sample_hot){share_of[k], margin_of[k]};
        sample_hot_margins(&inputs, BRAKE_RULES_ALL, sample, BRAKE_TOGETHER);
        for (int k = 0; k < BRAKE_TOGETHER; k++) {
            struct sample_hot one = {share_of[k], alone};
            sample_hot_margins(&inputs, BRAKE_RULES_ALL, &one, 1);
            for (int i = 0; i < brake_criterion_count(); i++) {
                if (!brake_measure_hot(brake_criterion_at(i)->measure))
                    continue;
                assert_true(margin_of[k][i] == alone[i]);
                if (isfinite(alone[i]) && k == 0)
                    assert_hot_margin(i, share_of[k], alone[i]);
                if (isfinite(alone[i]) && k > 0)
                    hot += margin_of[k][i] != margin_of[k - 1][i];
            }
        }
        assert_true(hot >= 2 * (BRAKE_TOGETHER - 1));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(p_is_the_share_that_the_integral_gives),
        cmocka_unit_test(what_front_and_rear_share_is_in_p),
        cmocka_unit_test(the_word_follows_from_the_least_that_p_may_be),
        cmocka_unit_test(what_a_limit_lies_within_is_open),
        cmocka_unit_test(the_interval_is_wilsons),
        cmocka_unit_test(the_interval_holds_all_and_none),
        cmocka_unit_test(more_is_drawn_while_the_word_is_open),
        cmocka_unit_test(the_words_are_those_of_p),
        cmocka_unit_test(even_odds_are_no_meets),
        cmocka_unit_test(the_same_bytes_each_time_and_for_any_threads),
        cmocka_unit_test(together_is_no_more_than_the_worst_row),
        cmocka_unit_test(rows_of_one_cause_are_met_together_as_often_as_the_harder),
        cmocka_unit_test(the_leading_line_is_the_one_that_is_uncertain),
        cmocka_unit_test(the_largest_of_those_not_measured_leads),
        cmocka_unit_test(what_cannot_be_judged_has_no_conformance),
        cmocka_unit_test(families_that_are_not_wanted_are_left_out_but_hazards_never),
        cmocka_unit_test(a_sample_that_locks_itself_is_not_met),
        cmocka_unit_test(what_is_missed_wherever_a_missing_line_may_stand_falls_short),
        cmocka_unit_test(a_word_rests_on_what_was_left_out),
        cmocka_unit_test(a_word_rests_on_either_side_of_the_limit),
        cmocka_unit_test(what_nothing_moves_has_no_leading_line),
        cmocka_unit_test(the_first_line_may_lead),
        cmocka_unit_test(without_hot_performance_no_samples_of_it_are_told),
        cmocka_unit_test(it_stops_when_told_to),
        cmocka_unit_test(figures_are_those_of_the_samples_counted_one_by_one),
        cmocka_unit_test(some_samples_meet_all_together),
        cmocka_unit_test(a_margin_of_nothing_is_met),
        cmocka_unit_test(a_choice_that_is_open_carries_its_part),
        cmocka_unit_test(what_a_line_shares_is_carried_by_it_too),
        cmocka_unit_test(what_to_measure_is_asked_of_what_counts),
        cmocka_unit_test(the_steps_are_those_that_are_told),
        cmocka_unit_test(hot_samples_are_told_and_are_those_one_by_one),
        cmocka_unit_test(hot_samples_do_not_depend_on_those_beside_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
