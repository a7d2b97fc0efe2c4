/* SPDX-License-Identifier: MIT */
/* How sure a verdict is. Expected values by hand from the one line that moves: deceleration at 500
 * N, full, is 36/11 (mu/0.4) + 9/11 m/s2, mu that of the front pads; see test_tolerance.c. */
#include "../vehicle/sheet.h"

#include <stdlib.h>

#include "brake/distribution.h"
#include "brake/evaluate.h"
#include "brake/spread.h"
#include "study/drawn.h"
#include "criteria/judge.h"
#include "criteria/scope.h"
#include "study/distribution.h"
#include "study/indices.h"
#include "study/percentile.h"
#include "study/replicates.h"
#include "study/sample.h"

static struct brake_sheet sheet;
static struct brake_spread spread;
static struct brake_spread_options options;
static void *room;

static int start(void **state)
{
    (void)state;
    for (int i = 0; i < BRAKE_ROWS; i++)
        options.shape[i] = BRAKE_NORMAL;
    options.rules = BRAKE_RULES_ALL;
    options.samples = BRAKE_SPREAD_LEAST;
    options.seed = 1;
    room = NULL;
    return 0;
}

static int end(void **state)
{
    (void)state;
    free(room);
    return 0;
}

static bool draw(const struct brake_watch *watch)
{
    free(room);
    assert_int_equal(brake_spread_prepare(&sheet, &options, &spread), BRAKE_OK);
    room = malloc(brake_spread_room(&spread));
    return brake_spread_run(&spread, room, watch);
}

static void read_exact(const char *text)
{
    read_sheet(&sheet, text);
    make_exact(&sheet);
}

static double mu_for(double deceleration)
{
    return (deceleration - 9.0 / 11.0) * 11.0 / 36.0 * 0.4;
}

/* Chance that a deceleration is reached where the friction is 0.68 +- 0.04 and the model is off by
 * a factor, normal, 3 % wide: by the trapezium rule over that. */
static double chance(double deceleration, bool uniform)
{
    enum { STEPS = 4000 };
    double sum = 0.0;
    for (int i = 0; i <= STEPS; i++) {
        const double z = -7.0 + 14.0 * i / STEPS;
        const double needed = mu_for(deceleration / (1.0 + 0.03 / 1.96 * z));
        const double half = (0.68 - needed) / (0.04 / 0.95);
        const double share = uniform
                                 ? fmin(1.0, fmax(0.0, 0.5 + half / 2.0))
                                 : brake_normal_share((0.68 - needed) / (0.04 / 1.959963984540054));
        sum += share * exp(-0.5 * z * z) / sqrt(2.0 * BRAKE_PI) * 14.0 / STEPS;
    }
    return sum;
}

/* mu = 0.68 +- 0.04: sigma 0.04/1.96. On a road where nothing locks. */
static void read_one_friction(void)
{
    read_exact(swapped(swapped(plain, "mu = 0.4\n", "mu = 0.68\n"), "tyre_grip = 1\n",
                       "tyre_grip = 1.45\n"));
    state_tolerance(&sheet, "front.disc.pads.mu", 0.04, BRAKE_ESTIMATED);
}

static void a_margin_has_the_percentiles_of_what_moves_it(void **state)
{
    (void)state;
    const struct brake_spread_output *output = &spread.output[criterion_number("un.13h.type0")];
    options.samples = 4096;
    read_one_friction();
    assert_true(draw(NULL));
    for (int i = 0; i < BRAKE_PERCENTILES; i++) {
        const double deceleration = 6.43 * (1.0 + output->percentile[i]);
        near_hold(1.0 - chance(deceleration, false), brake_spread_percent(i), 0.01, "percentile",
                  __FILE__, __LINE__);
    }
    assert_true(output->judged == 1.0);
}

static void a_requirement_is_met_as_often_as_its_friction_is_there(void **state)
{
    (void)state;
    const struct brake_spread_output *output = &spread.output[criterion_number("un.13h.type0")];
    options.samples = 4096;
    read_one_friction();
    assert_true(draw(NULL));
    const double exact = chance(6.43, false);
    assert_in_range(exact > 0.3 && exact < 0.7, 1, 1);
    near_hold(output->met, exact, output->met_error, "met", __FILE__, __LINE__);
    /* Laid evenly they are no further off than numbers that are thrown. */
    assert_between(output->met_error, 3.0 / 4096, 1.96 * sqrt(exact * (1.0 - exact) / 4096));
}

/* Given exact lines, the middle of a margin is what the vehicle has: the model errs to both sides
 * alike. From the first criterion on. */
static void the_middle_of_a_margin_is_that_of_the_vehicle(void **state)
{
    (void)state;
    struct brake_judgement judgement[BRAKE_CRITERIA];
    int seen = 0;
    read_exact(full_text());
    assert_true(draw(NULL));
    brake_judge_all(BRAKE_RULES_ALL, &sheet.vehicle, judgement);
    for (int i = 0; i < spread.criteria; i++) {
        if (!isfinite(judgement[i].margin) || isnan(spread.output[i].met))
            continue;
        assert_within(spread.output[i].percentile[2], judgement[i].margin, 0.05);
        seen |= i == 0 ? 1 : 2;
    }
    assert_int_equal(seen, 3);
}

/* Uniform within 0.04/0.95. */
static void another_shape_gives_its_own_probability(void **state)
{
    (void)state;
    options.samples = 4096;
    read_one_friction();
    options.shape[index_at(&sheet.vehicle, "front.disc.pads.mu")] = BRAKE_UNIFORM;
    assert_true(draw(NULL));
    const struct brake_spread_output *output = &spread.output[criterion_number("un.13h.type0")];
    near_hold(output->met, chance(6.43, true), output->met_error, "met", __FILE__, __LINE__);
}

/* Probability and its error over 40 seeds: 38 intervals hold the exact one, give or take 3 standard
 * deviations of 1.4. Two inputs, so that the step runs across the net. */
static void the_error_of_a_probability_holds_it_in_about_95_of_100(void **state)
{
    (void)state;
    int held = 0;
    read_exact(
        swapped(swapped(swapped(plain, "mu = 0.4\n", "mu = 0.63\n"), "mu = 40 %", "mu = 0.63"),
                "tyre_grip = 1\n", "tyre_grip = 1.45\n"));
    state_tolerance(&sheet, "front.disc.pads.mu", 0.1, BRAKE_ESTIMATED);
    state_tolerance(&sheet, "rear.disc.pads.mu", 0.1, BRAKE_ESTIMATED);
    /* a = (36 mu_1 + 9 mu_2) / 4.4; variance with the correlation of 0.5 of shared.friction,
     * and the model's own 3 %. */
    const double sigma =
        hypot(0.1 / 1.959963984540054 / 4.4 * sqrt(36.0 * 36.0 + 81.0 + 1.0 * 36.0 * 9.0),
              0.03 / 1.96 * 6.43);
    const double exact = brake_normal_share((45.0 * 0.63 / 4.4 - 6.43) / sigma);
    for (options.seed = 0; options.seed < 40; options.seed++) {
        assert_true(draw(NULL));
        const struct brake_spread_output *output = &spread.output[criterion_number("un.13h.type0")];
        held += fabs(output->met - exact) <= output->met_error;
    }
    assert_in_range(held, 34, 40);
}

static void the_line_that_moves_a_margin_decides_it(void **state)
{
    (void)state;
    int number[3];
    read_one_friction();
    state_tolerance(&sheet, "stop.reaction_time", 0.1, BRAKE_ESTIMATED);
    assert_true(draw(NULL));
    const int criterion = criterion_number("un.13h.type0");
    assert_true(brake_spread_leading(&spread, criterion, number, 3) >= 1);
    const struct brake_index index = brake_spread_index(&spread, criterion, number[0]);
    assert_int_equal(spread.inputs.input[number[0]].index,
                     index_at(&sheet.vehicle, "front.disc.pads.mu"));
    near_hold(index.total, 0.8, 0.25, "total", __FILE__, __LINE__);
}

static void what_decides_comes_by_falling_index(void **state)
{
    (void)state;
    int number[5];
    options.samples = 4096;
    read_sheet(&sheet, full_text());
    assert_true(draw(NULL));
    const int criterion = brake_spread_limiting(&spread);
    assert_int_equal(brake_spread_leading(&spread, criterion, number, 5), 5);
    for (int i = 1; i < 5; i++)
        assert_true(brake_spread_index(&spread, criterion, number[i]).total <=
                    brake_spread_index(&spread, criterion, number[i - 1]).total);
    for (int k = 0; k < brake_inputs_count(&spread.inputs); k++) {
        bool named = false;
        for (int i = 0; i < 5; i++)
            named = named || number[i] == k;
        assert_true(named || brake_spread_index(&spread, criterion, k).total <=
                                 brake_spread_index(&spread, criterion, number[4]).total);
    }
}

static void a_vehicle_without_tolerances_is_certain(void **state)
{
    (void)state;
    int number;
    read_exact(plain);
    assert_true(draw(NULL));
    for (int i = 0; i < spread.criteria; i++) {
        const struct brake_spread_output *output = &spread.output[i];
        const double margin = spread.judgement[i].margin;
        if (isnan(margin)) {
            assert_true(isnan(output->met));
            continue;
        }
        if (brake_measure_error(brake_criterion_at(i)->measure) != BRAKE_MODEL_EXACT)
            continue;
        assert_true(output->met == (margin >= 0.0 ? 1.0 : 0.0));
        /* Rule of three: 3/1024, when nothing was seen. */
        assert_near(output->met_error, 3.0 / 1024.0, ROUNDING);
        assert_true(output->percentile[0] == margin && output->percentile[4] == margin);
        assert_int_equal(brake_spread_leading(&spread, i, &number, 1), 0);
    }
}

/* Results stand behind the criteria: each is that of the vehicle in every sample, and is met by
 * nothing. Of a requirement that was not asked nothing is known. */
static void results_are_those_of_the_vehicle(void **state)
{
    (void)state;
    struct brake_results results;
    options.rules = BRAKE_RULES_UN;
    read_exact(plain);
    for (int i = 0; i < brake_catalogue_count(); i++) { /* a choice that is open is no sample's */
        if (sheet.record[i].from == BRAKE_DEFAULT)
            sheet.record[i].from = BRAKE_ESTIMATED;
    }
    assert_true(draw(NULL));
    brake_evaluate(&sheet.vehicle, &results);
    assert_int_equal(spread.results, 12);
    for (int r = 0; r < spread.results; r++) {
        const struct brake_spread_output *output = &spread.output[spread.criteria + r];
        const double value = brake_result_value(&results, spread.result[r]);
        assert_nan(output->met);
        assert_nan(output->met_error);
        assert_true(output->judged == (isnan(value) ? 0.0 : 1.0));
        for (int k = 0; k < BRAKE_PERCENTILES; k++)
            assert_true(isnan(value) ? isnan(output->percentile[k])
                                     : output->percentile[k] == value);
    }
    const struct brake_spread_output *other = &spread.output[criterion_number("us.135.cold")];
    assert_nan(other->percentile[0]);
    assert_nan(other->met);
}

/* The percentiles are those that the header names. */
static void percentiles_are_those_of_the_header(void **state)
{
    (void)state;
    static const double share[BRAKE_PERCENTILES] = {0.05, 0.25, 0.50, 0.75, 0.95};
    for (int i = 0; i < BRAKE_PERCENTILES; i++)
        assert_true(brake_spread_percent(i) == share[i]);
}

/* Where everything but the model is exact, all are met together in the samples in which each is:
 * counted over those that count. */
static void all_are_met_where_each_is(void **state)
{
    (void)state;
    for (int strong = 0; strong < 2; strong++) {
        double least = 1.0;
        double misses = 0.0;
        options.rules = BRAKE_RULES_UN;
        read_exact(strong ? strong_text() : plain);
        assert_true(draw(NULL));
        for (int i = 0; i < spread.criteria; i++) {
            if (isnan(spread.output[i].met) || !brake_scope_counts(spread.judgement[i].scope))
                continue;
            least = fmin(least, spread.output[i].met);
            misses += 1.0 - spread.output[i].met;
        }
        assert_true(spread.all_met <= least);
        assert_true(spread.all_met >= fmax(0.0, 1.0 - misses) - 1e-12);
        assert_true(spread.all_met_error >= 3.0 / 1024.0);
    }
}

/* Brakes that a drive found weaker than their lines allow fall short by that alone. */
static void the_word_of_a_drive_is_one_of_the_verdict(void **state)
{
    (void)state;
    read_one_friction();
    assert_true(draw(NULL));
    for (int i = 0; i < spread.criteria; i++)
        spread.judgement[i].verdict = BRAKE_MEETS;
    const int before = brake_spread_exit(&spread);
    sheet.known.word = BRAKE_DRIVE_AGREES;
    assert_int_equal(brake_spread_exit(&spread), before);
    sheet.known.word = BRAKE_DRIVE_LESS;
    assert_int_equal(brake_spread_exit(&spread), 1);
    sheet.known.word = BRAKE_DRIVE_NONE;
}

/* Above 125 km/h (BRAKE_TO_FAST): at 125.1 +- 5 km/h it applies to about half, and those that it
 * does not apply to do not miss it. */
static void what_a_sample_is_not_held_to_it_does_not_miss(void **state)
{
    (void)state;
    read_exact(plus(plain, "[vehicle]\ntop_speed = 125.1 km/h\n"));
    state_tolerance(&sheet, "vehicle.top_speed", 5.0 / 3.6, BRAKE_ESTIMATED);
    assert_true(draw(NULL));
    const struct brake_spread_output *output =
        &spread.output[criterion_number("us.135.high_speed")];
    near_hold(output->met, 0.48, 0.03, "met", __FILE__, __LINE__);
    assert_true(output->percentile[0] < 0.0);
}

static void the_limiting_criterion_is_the_least_often_met(void **state)
{
    (void)state;
    read_sheet(&sheet, full_text());
    assert_true(draw(NULL));
    const int limiting = brake_spread_limiting(&spread);
    for (int i = 0; i < spread.criteria; i++) {
        const bool less = spread.output[i].met < spread.output[limiting].met;
        assert_false(less); /* where it does not apply, neither is */
    }
    /* of those that are met as often, the one of the least margin in the middle */
    read_exact(swapped(plain, "mu = 0.4\n", "mu = 0.1\n"));
    assert_true(draw(NULL));
    const int first = brake_spread_limiting(&spread);
    for (int i = 0; i < spread.criteria; i++) /* all but the first of them count */
        spread.judgement[i].scope = i == first ? BRAKE_YARDSTICK : BRAKE_BINDS;
    const struct brake_spread_output *least = &spread.output[brake_spread_limiting(&spread)];
    int alike = 0;
    for (int i = 0; i < spread.criteria; i++) {
        const struct brake_spread_output *one = &spread.output[i];
        if (!brake_scope_counts(spread.judgement[i].scope) || !(one->met <= least->met))
            continue;
        assert_true(one->met == least->met && one->percentile[2] >= least->percentile[2]);
        alike++;
    }
    assert_true(alike > 2);
    read_sheet(&sheet, full_text());
    assert_true(draw(NULL));
    assert_true(spread.all_met <= spread.output[limiting].met);
}

static void exit_follows_the_words(void **state)
{
    (void)state;
    const int circuit = criterion_number("hazard.circuit");
    read_one_friction();
    sheet.vehicle.general.country = BRAKE_IN_AT;
    sheet.vehicle.general.use = BRAKE_PRIVATE;
    sheet.vehicle.general.first_registered = 2004.0;
    assert_true(draw(NULL));
    assert_int_equal(brake_spread_exit(&spread), 1);
    for (int i = 0; i < spread.criteria; i++)
        spread.judgement[i].verdict = BRAKE_MEETS;
    assert_int_equal(brake_spread_exit(&spread), 0);
    spread.judgement[circuit].verdict = BRAKE_CANNOT_SAY;
    assert_int_equal(brake_spread_exit(&spread), 3);
    spread.judgement[circuit].scope = BRAKE_YARDSTICK;
    assert_int_equal(brake_spread_exit(&spread), 0);
}

static void other_rules_are_left_out(void **state)
{
    (void)state;
    options.rules = BRAKE_RULES_UN;
    read_one_friction();
    assert_true(draw(NULL));
    assert_true(spread.output[criterion_number("un.13h.type0")].judged == 1.0);
    assert_true(spread.output[criterion_number("us.135.cold")].judged == 0.0);
    assert_true(brake_spread_draws(&spread, criterion_number("un.13h.type0")));
    assert_false(brake_spread_draws(&spread, criterion_number("us.135.cold")));
    assert_false(brake_spread_draws(&spread, criterion_number("us.135.hot")));
    assert_false(brake_spread_draws(&spread, criterion_number("un.13h.hot")));
}

static void numbers_of_samples_that_do_not_fit_are_refused(void **state)
{
    (void)state;
    static const long wrong[] = {-1, 0, 1, 512, 1000, 1025, 3072, 262145, 524288};
    read_one_friction();
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        options.samples = wrong[i];
        assert_non_null(brake_spread_wrong(wrong[i]));
        assert_int_equal(brake_spread_prepare(&sheet, &options, &spread), BRAKE_E_RANGE);
    }
    assert_null(brake_spread_wrong(BRAKE_SPREAD_LEAST));
    assert_null(brake_spread_wrong(BRAKE_SPREAD_MOST));
}

struct told {
    double done[64], total;
    int times;
};

static void hear(void *context, double done, double total)
{
    struct told *told = context;
    assert_in_range(told->times, 0, 63);
    assert_true(told->times == 0 || total == told->total);
    told->done[told->times++] = done;
    told->total = total;
}

/* brake_spread_run(): 512 samples at a time, 32 where brakes are run hot; then 64 base samples of
 * each input and two more; then the end, of which one more is the middle. */
static void progress_tells_what_is_done_up_to_its_end(void **state)
{
    (void)state;
    read_one_friction();
    for (int faded = 0; faded < 2; faded++) {
        struct told told = {{0.0}, 0.0, 0};
        const struct brake_watch watch = {hear, &told, NULL};
        const int blocks = faded ? 32 : 2;
        options.faded = faded;
        options.rules = faded ? BRAKE_RULES_HAZARD : BRAKE_RULES_ALL;
        assert_true(draw(&watch));
        const double rows = brake_inputs_count(&spread.inputs) + 2.0;
        assert_int_equal(told.times, blocks + 2);
        for (int i = 0; i < blocks; i++)
            assert_true(told.done[i] == 1024.0 / blocks * (i + 1));
        assert_true(told.done[blocks] == 1024.0 + 64.0 * rows);
        assert_true(told.done[blocks + 1] == told.total);
        assert_true(told.total == 1024.0 + 64.0 * rows + 1.0);
    }
    options.faded = false;
}

static volatile sig_atomic_t stop;

static void stop_in_the_middle(void *context, double done, double total)
{
    (void)context;
    stop = done > total / 2.0;
}

static void a_study_told_to_stop_stops(void **state)
{
    (void)state;
    const struct brake_watch watch = {stop_in_the_middle, NULL, &stop};
    options.samples = 4096;
    read_one_friction();
    assert_false(draw(&watch));
    assert_true(stop != 0);
}

/* What is met less often limits; of what is met as often, what has the smaller margin in the
 * middle; what counts for nothing, or was not drawn, never. By hand. */
static void what_is_met_less_often_limits(void **state)
{
    (void)state;
    static struct brake_spread by_hand;
    struct brake_spread_output *output = by_hand.output;
    assert_int_equal(brake_spread_limiting(&by_hand), -1);
    by_hand.criteria = 4;
    for (int i = 0; i < 4; i++) {
        by_hand.judgement[i].scope = BRAKE_BINDS;
        output[i].met = 0.5;
        output[i].percentile[2] = 0.3 - 0.1 * (i == 1) + 0.1 * (i == 3);
    }
    assert_int_equal(brake_spread_limiting(&by_hand), 1);
    output[3].met = 0.4;
    assert_int_equal(brake_spread_limiting(&by_hand), 3);
    output[3].met = 0.6;
    output[3].percentile[2] = 0.0;
    assert_int_equal(brake_spread_limiting(&by_hand), 1);
    output[1].met = BRAKE_NAN;
    assert_int_equal(brake_spread_limiting(&by_hand), 0);
    by_hand.judgement[0].scope = BRAKE_OUTSIDE;
    assert_int_equal(brake_spread_limiting(&by_hand), 2);
}

/* What decides comes by falling index, of equals the earlier first; what moves nothing, or of which
 * nothing can be said, does not come; what there is no room for is left out. Of the second of two
 * requirements, by hand. */
static void what_moves_nothing_decides_nothing(void **state)
{
    (void)state;
    enum { LINES = 6 };
    static struct brake_spread by_hand;
    static struct brake_index index[2 * BRAKE_INPUTS];
    static const double totals[LINES] = {0.2, 0.0, 0.5, 0.2, BRAKE_NAN, 0.9};
    static const int falling[] = {5, 2, 0, 3};
    by_hand.inputs.count = LINES;
    const int inputs = brake_inputs_count(&by_hand.inputs);
    by_hand.criteria = 2;
    by_hand.index = index;
    for (int i = 0; i < LINES; i++)
        index[inputs + i].total = totals[i];
    for (int most = 1; most <= 5; most++) {
        int number[6] = {-7, -7, -7, -7, -7, -7};
        const int count = brake_spread_leading(&by_hand, 1, number, most);
        assert_int_equal(count, most < 4 ? most : 4);
        for (int i = 0; i < count; i++)
            assert_int_equal(number[i], falling[i]);
        assert_int_equal(number[count], -7);
        assert_int_equal(brake_spread_leading(&by_hand, 0, number, most), 0);
    }
}

static void another_seed_draws_other_samples(void **state)
{
    (void)state;
    const int criterion = criterion_number("un.13h.type0");
    read_one_friction();
    assert_true(draw(NULL));
    const double first = spread.output[criterion].percentile[2];
    assert_true(draw(NULL));
    assert_true(spread.output[criterion].percentile[2] == first);
    int decides;
    assert_int_equal(brake_spread_leading(&spread, criterion, &decides, 1), 1);
    const double index = brake_spread_index(&spread, criterion, decides).first;
    options.seed = 2;
    assert_true(draw(NULL));
    assert_true(spread.output[criterion].percentile[2] != first);
    const double other = brake_spread_index(&spread, criterion, decides).first;
    assert_true(fabs(other - index) > 0.0); /* the indices have samples of their own */
}

/* ---- against counting one by one ------------------------------------------------------------- */

static double margin_of[BRAKE_SPREAD_LEAST][BRAKE_CRITERIA];
static double result_of[BRAKE_SPREAD_LEAST][BRAKE_SPREAD_RESULTS];

/* Each sample by itself, at the shares that its replicate gives. */
static void draw_one_by_one(void)
{
    static struct brake_sobol sobol[BRAKE_REPLICATES];
    struct brake_results results;
    struct brake_vehicle vehicle;
    replicates_scramble(brake_inputs_count(&spread.inputs), 2 * BRAKE_REPLICATES * options.seed,
                        sobol);
    for (long i = 0; i < BRAKE_SPREAD_LEAST; i++) {
        double share[BRAKE_INPUTS];
        replicates_shares(sobol, BRAKE_SPREAD_LEAST / BRAKE_REPLICATES, i, share);
        sample_margins(&spread.inputs, options.rules, share, margin_of[i]);
        brake_inputs_vehicle(&spread.inputs, share, &vehicle);
        brake_evaluate(&vehicle, &results);
        for (int r = 0; r < spread.results; r++)
            result_of[i][r] = brake_result_value(&results, spread.result[r]);
    }
}

/* The share that is met, and its error: by the replicates, of each 64 samples one after the other,
 * or by the rule of three. */
static void assert_met(const bool met[BRAKE_SPREAD_LEAST], double share, double error)
{
    double part[BRAKE_REPLICATES] = {0.0};
    double all = 0.0;
    for (long i = 0; i < BRAKE_SPREAD_LEAST; i++) {
        part[i * BRAKE_REPLICATES / BRAKE_SPREAD_LEAST] +=
            met[i] ? (double)BRAKE_REPLICATES / BRAKE_SPREAD_LEAST : 0.0;
        all += met[i] ? 1.0 : 0.0;
    }
    assert_near(share, all / BRAKE_SPREAD_LEAST, ROUNDING);
    assert_near(error, fmax(replicates_error(part), 3.0 / BRAKE_SPREAD_LEAST), 1e-12);
}

/* Percentiles of what is known of one value in all samples, which stand `step` apart. */
static void assert_percentiles(const double *value, size_t step,
                               const struct brake_spread_output *output)
{
    static double known[BRAKE_SPREAD_LEAST];
    for (long i = 0; i < BRAKE_SPREAD_LEAST; i++)
        known[i] = value[(size_t)i * step];
    const long count = percentile_sort(known, BRAKE_SPREAD_LEAST);
    assert_near(output->judged, (double)count / BRAKE_SPREAD_LEAST, ROUNDING);
    for (int k = 0; k < BRAKE_PERCENTILES; k++) {
        if (count == 0)
            assert_nan(output->percentile[k]);
        else
            assert_true(output->percentile[k] ==
                        percentile_at(known, count, brake_spread_percent(k)));
    }
}

/* Every figure of every row and result, of a vehicle with everything uncertain and of one of which
 * some samples meet all that counts and some do not. */
static void figures_are_those_of_the_samples_counted_one_by_one(void **state)
{
    (void)state;
    for (int strong = 0; strong < 2; strong++) {
        bool met[BRAKE_SPREAD_LEAST];
        bool all[BRAKE_SPREAD_LEAST];
        int rows = 0;
        options.seed = 3;
        read_sheet(&sheet, strong ? strong_text() : full_text());
        if (strong) /* where the master cylinder may come to its end: the first of all criteria */
            change(&sheet, "master.primary_stroke=10 mm");
        assert_true(draw(NULL));
        draw_one_by_one();
        memset(all, 1, sizeof all);
        for (int c = 0; c < spread.criteria; c++) {
            assert_percentiles(&margin_of[0][c], BRAKE_CRITERIA, &spread.output[c]);
            if (isnan(spread.judgement[c].margin)) {
                assert_nan(spread.output[c].met);
                continue;
            }
            const bool counts =
                brake_spread_draws(&spread, c) && brake_scope_counts(spread.judgement[c].scope);
            for (long i = 0; i < BRAKE_SPREAD_LEAST; i++) {
                met[i] = margin_of[i][c] >= 0.0;
                all[i] = all[i] && (met[i] || !counts);
            }
            assert_met(met, spread.output[c].met, spread.output[c].met_error);
            rows++;
        }
        for (int r = 0; r < spread.results; r++)
            assert_percentiles(&result_of[0][r], BRAKE_SPREAD_RESULTS,
                               &spread.output[spread.criteria + r]);
        assert_met(all, spread.all_met, spread.all_met_error);
        assert_int_equal(spread.all_met > 0.0 && spread.all_met < 1.0, strong);
        assert_true(rows >= 3);
    }
}

static void margins_at(const void *context, const double *share, double *output)
{
    (void)context;
    sample_margins(&spread.inputs, options.rules, share, output);
}

/* Indices are those of the margins, of one base sample to 16 samples, by scrambles of their own. */
static void indices_are_those_of_the_margins(void **state)
{
    (void)state;
    options.seed = 3;
    read_one_friction();
    assert_true(draw(NULL));
    const int inputs = brake_inputs_count(&spread.inputs);
    const struct brake_model model = {inputs, spread.criteria, margins_at, NULL};
    const size_t count = (size_t)inputs * (size_t)spread.criteria;
    struct brake_index *index = calloc(count, sizeof *index);
    void *own = malloc(brake_indices_room(&model));
    const struct brake_indices_plan plan = {BRAKE_SPREAD_LEAST / 16,
                                            2 * BRAKE_REPLICATES * 3 + BRAKE_REPLICATES, own, NULL};
    assert_true(brake_indices(&model, &plan, index));
    for (int c = 0; c < spread.criteria; c++) {
        for (int i = 0; i < inputs; i++) {
            const struct brake_index one = brake_spread_index(&spread, c, i);
            assert_memory_equal(&one, &index[c * inputs + i], sizeof one);
        }
    }
    free(index);
    free(own);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, start, end)
    const struct CMUnitTest tests[] = {
        TEST(a_margin_has_the_percentiles_of_what_moves_it),
        TEST(a_requirement_is_met_as_often_as_its_friction_is_there),
        TEST(the_middle_of_a_margin_is_that_of_the_vehicle),
        TEST(another_shape_gives_its_own_probability),
        TEST(the_error_of_a_probability_holds_it_in_about_95_of_100),
        TEST(the_line_that_moves_a_margin_decides_it),
        TEST(what_decides_comes_by_falling_index),
        TEST(a_vehicle_without_tolerances_is_certain),
        TEST(results_are_those_of_the_vehicle),
        TEST(percentiles_are_those_of_the_header),
        TEST(all_are_met_where_each_is),
        TEST(the_word_of_a_drive_is_one_of_the_verdict),
        TEST(what_a_sample_is_not_held_to_it_does_not_miss),
        TEST(the_limiting_criterion_is_the_least_often_met),
        TEST(exit_follows_the_words),
        TEST(other_rules_are_left_out),
        TEST(numbers_of_samples_that_do_not_fit_are_refused),
        TEST(progress_tells_what_is_done_up_to_its_end),
        TEST(a_study_told_to_stop_stops),
        TEST(what_is_met_less_often_limits),
        TEST(figures_are_those_of_the_samples_counted_one_by_one),
        TEST(indices_are_those_of_the_margins),
        TEST(what_moves_nothing_decides_nothing),
        TEST(another_seed_draws_other_samples),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
