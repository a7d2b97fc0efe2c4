/* SPDX-License-Identifier: MIT */
/* What a cool-down tells: least squares of its two numbers, on cooling that is known exactly, and
 * whole logs of the plain vehicle of ../vehicle/sheet.h. */
#include "../vehicle/sheet.h"

#include "brake/constants.h"
#include "brake/cooldown.h"
#include "brake/log.h"
#include "brake/rig.h"
#include "study/pair_fit.h"

enum { POINTS = 100, LOGS = 400 };

static const double AIR = 20.0;   /* degC */
static const double HOT = 300.0;  /* K over the air at first */
static const double SLOW = 900.0; /* [s] time constant at a factor of 1 */

static double time_of(int i)
{
    return 12.0 * i;
}

/* Newton's law of cooling of a lump: the excess falls by e in a time constant (Incropera and
 * DeWitt, Fundamentals of Heat and Mass Transfer, sec. 5.1, from memory). */
static bool newton(const void *context, const double pair[2], double *y)
{
    (void)context;
    for (int i = 0; i < POINTS; i++)
        y[i] = AIR + HOT * exp(pair[1]) * exp(-exp(pair[0]) * time_of(i) / SLOW);
    return true;
}

static bool nothing(const void *context, const double pair[2], double *y)
{
    (void)context, (void)pair;
    y[0] = BRAKE_NAN;
    return false;
}

/* A generator of its own, sums of twelve shares: normal, standard deviation 1. */
static double noise(unsigned *seed)
{
    double sum = -6.0;
    for (int i = 0; i < 12; i++) {
        *seed = *seed * 1664525U + 1013904223U;
        sum += (*seed >> 8) / 16777216.0;
    }
    return sum;
}

static struct brake_pair_fit start(void)
{
    return (struct brake_pair_fit){.pair = {log(0.65), 0.2}, .least = log(0.02), .most = log(2.0)};
}

static void an_exact_cool_down_gives_its_factor(void **state)
{
    (void)state;
    static const double factors[] = {0.1, 0.4, 0.65, 0.9, 1.5};
    for (size_t k = 0; k < sizeof factors / sizeof factors[0]; k++) {
        const double truth[2] = {log(factors[k]), 0.0};
        double measured[POINTS];
        struct brake_pair_fit fit = start();
        newton(NULL, truth, measured);
        assert_true(brake_pair_fit(newton, NULL, measured, POINTS, &fit));
        assert_near(exp(fit.pair[0]), factors[k], 1e-6);
        assert_near(exp(fit.pair[1]), 1.0, 1e-6);
        assert_true(fit.sigma < 1e-5);
    }
}

/* The standard deviation that each log claims against how its answer scatters over 400 logs: their
 * ratio is known to 1/sqrt(800), 3.5 %, and four of these are allowed. White noise, so that the
 * neighbours' likeness, 0 at least, adds a few percent. */
static void the_scatter_of_the_factor_is_the_one_that_is_claimed(void **state)
{
    (void)state;
    const double truth[2] = {log(0.7), 0.0};
    double clean[POINTS];
    double measured[POINTS];
    double claimed = 0.0;
    double squares = 0.0;
    unsigned seed = 5;
    newton(NULL, truth, clean);
    for (int log = 0; log < LOGS; log++) {
        struct brake_pair_fit fit = start();
        for (int i = 0; i < POINTS; i++)
            measured[i] = clean[i] + 3.0 * noise(&seed);
        assert_true(brake_pair_fit(newton, NULL, measured, POINTS, &fit));
        claimed += fit.sigma / LOGS;
        squares += (fit.pair[0] - truth[0]) * (fit.pair[0] - truth[0]) / LOGS;
    }
    assert_between(claimed / sqrt(squares), 0.86, 1.20);
}

/* What one reading carries into the next, e^-0.5 of it, makes (1 - r)/(1 + r) of them count. */
static void neighbours_that_are_alike_count_for_less(void **state)
{
    (void)state;
    const double truth[2] = {log(0.7), 0.0};
    const double carried = exp(-0.5);
    double measured[POINTS];
    double drift = 0.0;
    unsigned seed = 11;
    struct brake_pair_fit fit = start();
    newton(NULL, truth, measured);
    for (int i = 0; i < POINTS; i++) {
        drift = carried * drift + sqrt(1.0 - carried * carried) * noise(&seed);
        measured[i] += 3.0 * drift;
    }
    assert_true(brake_pair_fit(newton, NULL, measured, POINTS, &fit));
    assert_between(fit.likeness, 0.4, 0.8); /* 0.61, known to 0.08 by 100 readings */
    assert_near(brake_pair_counts(&fit, POINTS),
                POINTS * (1.0 - fit.likeness) / (1.0 + fit.likeness), ROUNDING);
}

static void a_factor_out_of_range_stays_at_its_end(void **state)
{
    (void)state;
    const double truth[2] = {log(5.0), 0.0};
    double measured[POINTS];
    struct brake_pair_fit fit = start();
    newton(NULL, truth, measured);
    (void)brake_pair_fit(newton, NULL, measured, POINTS, &fit);
    assert_near(exp(fit.pair[0]), 2.0, 1e-9);
    assert_false(brake_pair_fit(nothing, NULL, measured, POINTS, &fit));
}

/* ---- whole logs ----------------------------------------------------------------------------- */

enum { ROWS = 240 };

static const char heat[] =
    "[front.disc]\nrotor_mass = 8 kg\nrotor_diameter = 300 mm\nhat_mass = 2 kg\nrotor = vented\n"
    "[rear.disc]\nrotor_mass = 5 kg\nrotor_diameter = 300 mm\n"
    "[heat]\ndrag_area = 0 m2\niron = grey_250\nambient = 20 degC\nfluid = DOT4\n";

static struct brake_sheet sheet;
static struct brake_log_row row[ROWS];
static struct brake_cooldown found;
static struct brake_error error;

/* A row each 5 s at 20 m/s; nothing but that is logged. */
static void begin_log(void)
{
    read_sheet(&sheet, plus(plain, heat));
    for (int i = 0; i < ROWS; i++) {
        for (int c = 0; c < BRAKE_LOG_COLUMNS; c++)
            row[i].value[c] = BRAKE_NAN;
        row[i].line = i + 2;
        row[i].value[BRAKE_LOG_TIME] = 100.0 + 5.0 * i;
        row[i].value[BRAKE_LOG_SPEED] = 20.0;
    }
}

/* An axle that was heated evenly for 120 s at a power and cools by a factor. */
static void log_axle_of(enum brake_axle axle, double factor, double power)
{
    static struct brake_hot_rig hot;
    struct brake_thermal_state now;
    struct brake_vehicle vehicle = sheet.vehicle;
    const double air = vehicle.heat.ambient;
    const struct brake_thermal_drive heated = {power, power, 20.0, 20.0, air};
    const struct brake_thermal_drive cooled = {0.0, 0.0, 20.0, 20.0, air};
    vehicle.heat.cooling = factor;
    assert_int_equal(brake_hot_rig_build(&vehicle, BRAKE_EMPTY, &hot, &error), BRAKE_OK);
    const struct brake_thermal *brake = &hot.thermal[axle];
    assert_int_equal(brake_thermal_start(brake, air, &now), BRAKE_OK);
    assert_int_equal(brake_thermal_advance(brake, &heated, 120.0, &now), BRAKE_OK);
    for (int i = 0; i < ROWS; i++) {
        row[i].value[BRAKE_LOG_FRONT_TEMPERATURE + (int)axle] = brake_thermal_mean(brake, &now);
        assert_int_equal(brake_thermal_advance(brake, &cooled, 5.0, &now), BRAKE_OK);
    }
}

static void log_axle(enum brake_axle axle, double factor)
{
    log_axle_of(axle, factor, 40000.0);
}

static enum brake_status fit(long rows)
{
    return brake_cooldown_fit(&sheet, row, rows, &found, &error);
}

/* 120 intervals of 5 s make 120 spans of one row each; the last row of all, at the end of the last
 * span, belongs to that. */
static void a_row_between_two_spans_begins_the_later_one(void **state)
{
    (void)state;
    begin_log();
    log_axle(BRAKE_FRONT, 0.8);
    assert_int_equal(fit(121), BRAKE_OK);
    const struct brake_cooldown_axle *axle = &found.axle[BRAKE_FRONT];
    assert_equal(axle->begin, 100.0);
    assert_equal(axle->from, row[0].value[BRAKE_LOG_FRONT_TEMPERATURE]);
    assert_near(axle->begin + axle->duration, 697.5, 1e-9);
    assert_near(axle->to,
                0.5 * (row[119].value[BRAKE_LOG_FRONT_TEMPERATURE] +
                       row[120].value[BRAKE_LOG_FRONT_TEMPERATURE]),
                1e-9);
}

/* It begins where the axle is hottest, the first time; what comes before is no cool-down, nor is
 * what stands behind the last row. */
static void it_begins_at_the_hottest(void **state)
{
    (void)state;
    enum { HEATING = 20, COOLING = 121 };
    begin_log();
    log_axle(BRAKE_FRONT, 0.8);
    for (int i = HEATING + COOLING - 1; i >= 0; i--) {
        double *value = row[i].value;
        value[BRAKE_LOG_FRONT_TEMPERATURE] =
            i >= HEATING ? row[i - HEATING].value[BRAKE_LOG_FRONT_TEMPERATURE] : 300.0 + i;
    }
    row[HEATING + 1].value[BRAKE_LOG_FRONT_TEMPERATURE] =
        row[HEATING].value[BRAKE_LOG_FRONT_TEMPERATURE];
    row[HEATING - 1].value[BRAKE_LOG_PEDAL_FORCE] = 100.0;
    row[HEATING + COOLING].value[BRAKE_LOG_PEDAL_FORCE] = 100.0;
    assert_int_equal(fit(HEATING + COOLING), BRAKE_OK);
    assert_equal(found.axle[BRAKE_FRONT].begin, row[HEATING].value[BRAKE_LOG_TIME]);
    assert_equal(found.axle[BRAKE_FRONT].from, row[HEATING].value[BRAKE_LOG_FRONT_TEMPERATURE]);
    assert_within(found.cooling, 0.8, 0.01);
}

/* A sensor that dropped out for 100 s, at 30 m/s: what is left are the same means, to the last, and
 * the way is that of a straight line between those beside the gap, at 20 m/s. */
static void a_span_without_a_reading_is_passed_over(void **state)
{
    (void)state;
    begin_log();
    log_axle(BRAKE_FRONT, 0.8);
    for (int i = 100; i < 120; i++) {
        row[i].value[BRAKE_LOG_FRONT_TEMPERATURE] = BRAKE_NAN;
        row[i].value[BRAKE_LOG_SPEED] = 30.0;
    }
    assert_int_equal(fit(ROWS), BRAKE_OK);
    const struct brake_cooldown_axle *axle = &found.axle[BRAKE_FRONT];
    assert_near(axle->to,
                0.5 * (row[ROWS - 2].value[BRAKE_LOG_FRONT_TEMPERATURE] +
                       row[ROWS - 1].value[BRAKE_LOG_FRONT_TEMPERATURE]),
                1e-9);
    assert_near(axle->duration, 1190.0, 1e-9);
    assert_within(axle->speed, 20.0, 1e-9);
    assert_within(axle->cooling, 0.8, 0.004);
}

/* Two factors that do not meet: each comes back, the lesser is taken for both. */
static void a_log_gives_the_factor_that_made_it(void **state)
{
    (void)state;
    begin_log();
    log_axle(BRAKE_FRONT, 0.8);
    log_axle(BRAKE_REAR, 0.5);
    assert_int_equal(fit(ROWS), BRAKE_OK);
    static const double made[BRAKE_AXLES] = {0.8, 0.5};
    for (int i = 0; i < BRAKE_AXLES; i++) {
        const struct brake_cooldown_axle *axle = &found.axle[i];
        assert_true(axle->logged);
        assert_near(axle->heated, 120.0, ROUNDING);
        assert_within(axle->cooling, made[i], 0.005 * made[i]);
        assert_between(axle->low, 0.85 * made[i], 0.99 * made[i]);
        assert_between(axle->high, 1.01 * made[i], 1.15 * made[i]);
        /* a 120th of 1195 s holds two rows: at 100 and 105 s the first, at 1290 and 1295 s the
         * last */
        const int column = BRAKE_LOG_FRONT_TEMPERATURE + i;
        assert_near(axle->begin, 102.5, 1e-9);
        assert_near(axle->duration, 1190.0, 1e-9);
        assert_within(axle->speed, 20.0, 1e-9);
        assert_near(axle->from, (row[0].value[column] + row[1].value[column]) / 2.0, 1e-9);
        assert_near(axle->to, (row[ROWS - 2].value[column] + row[ROWS - 1].value[column]) / 2.0,
                    1e-9);
    }
    assert_true(found.differ);
    assert_near(found.cooling, found.axle[BRAKE_REAR].cooling, ROUNDING);
    assert_near(found.low, found.axle[BRAKE_REAR].low, ROUNDING);
    assert_near(found.high, found.axle[BRAKE_REAR].high, ROUNDING);
    /* 90 of 100 made 95 of 100: 1.96 / 1.645 */
    assert_near(found.half, 1.96 / 1.645 * (found.high - found.cooling), 1e-9);
}

/* The mean of both by what each is sure of, as sure as the surer. */
static void axles_that_agree_are_one(void **state)
{
    (void)state;
    for (int rough = 0; rough < BRAKE_AXLES; rough++) {
        begin_log();
        log_axle(BRAKE_FRONT, 0.62);
        log_axle(BRAKE_REAR, 0.60);
        for (int i = 0; i < ROWS; i++) /* so that the other is the surer one */
            row[i].value[BRAKE_LOG_FRONT_TEMPERATURE + rough] += 8.0 * sin(i / 2);
        assert_int_equal(fit(ROWS), BRAKE_OK);
        const struct brake_cooldown_axle *axle = found.axle;
        double half[BRAKE_AXLES];
        double sum = 0.0;
        double weights = 0.0;
        for (int i = 0; i < BRAKE_AXLES; i++) {
            half[i] = 0.5 * log(axle[i].high / axle[i].low);
            sum += log(axle[i].cooling) / half[i] / half[i];
            weights += 1.0 / half[i] / half[i];
        }
        assert_true(half[rough] > half[1 - rough]);
        assert_false(found.differ);
        assert_near(found.cooling, exp(sum / weights), 1e-9);
        assert_near(found.high / found.low, exp(2.0 * half[1 - rough]), 1e-9);
        assert_true(found.tells);
    }
}

/* A log tells when its interval is narrower than the usual one of the file (sections.c): the
 * shorter it is, of readings that scatter, the wider, until it is not. */
static void a_short_log_does_not_tell(void **state)
{
    (void)state;
    int told = 0;
    int steps = 0;
    for (long rows = 60; rows >= 36; rows -= 2) {
        begin_log();
        log_axle_of(BRAKE_FRONT, 0.6, 12000.0);
        for (int i = 0; i < ROWS; i++)
            row[i].value[BRAKE_LOG_FRONT_TEMPERATURE] += 2.0 * sin(i / 2);
        assert_int_equal(fit(rows), BRAKE_OK);
        const struct brake_quantity *usual =
            brake_quantity_at(index_at(&sheet.vehicle, "heat.cooling"));
        const double wide = usual->fallback * (usual->most - usual->least);
        assert_int_equal(found.tells, 2.0 * found.half < wide);
        told += found.tells;
        steps++;
    }
    assert_true(told > 0 && told < steps);
}

/* Straight falls, so that what refuses them is seen in their numbers. */
static void fall(double from, double to)
{
    begin_log();
    for (int i = 0; i < ROWS; i++)
        row[i].value[BRAKE_LOG_FRONT_TEMPERATURE] =
            273.15 + from + (to - from) * i / (double)(ROWS - 1);
}

static void assert_refused(const char *words)
{
    assert_int_equal(fit(ROWS), BRAKE_E_FIT);
    if (strstr(error.text, words) == NULL)
        fail_msg("'%s' where '%s' was expected", error.text, words);
}

static void assert_not_refused(const char *words)
{
    if (fit(ROWS) != BRAKE_OK && strstr(error.text, words) != NULL)
        fail_msg("'%s'", error.text);
}

/* Limits of reference/method.md, section 8; common practice, no source. The means that are looked
 * at are those of two rows: half an interval, 1/478 of the fall, from its ends. */
static void logs_that_tell_nothing_are_refused(void **state)
{
    (void)state;
    static const struct {
        double refused[2], taken[2]; /* degC, from and to */
        const char *words;
    } falls[] = {/* 60 K over the air at 20 degC, less 40/478 */
                 {{80.0, 40.0}, {80.15, 40.0}, "over the air (heat.ambient) when it begins"},
                 /* 238/239 D = 0.2 (180 - D/478): a fall D of 36.14 K */
                 {{200.0, 200.0 - 36.04}, {200.0, 200.0 - 36.24}, "log for longer"},
                 /* 15 degC, 185.4/478 over the last row */
                 {{200.0, 14.59}, {200.0, 14.63}, "falls below heat.ambient"}};
    for (int i = 0; i < 3; i++) {
        fall(falls[i].refused[0], falls[i].refused[1]);
        assert_refused(falls[i].words);
        fall(falls[i].taken[0], falls[i].taken[1]);
        assert_not_refused(falls[i].words);
    }
    begin_log();
    assert_refused("no such column");
}

/* Twelve readings are the least. */
static void few_readings_are_refused(void **state)
{
    (void)state;
    static const int each[] = {22, 20}; /* 11 and 12 of 240 */
    static const char words[] = "readings from its hottest on; 12 are the least";
    for (int k = 0; k < 2; k++) {
        fall(200.0, 60.0);
        for (int i = 0; i < ROWS; i++) {
            if (i % each[k] != 0)
                row[i].value[BRAKE_LOG_FRONT_TEMPERATURE] = BRAKE_NAN;
        }
        if (k == 0) {
            assert_refused(words);
            assert_int_equal(error.line, row[0].line);
        } else {
            assert_not_refused(words);
        }
    }
}

/* A foot that is on; 2 m/s2 from one mean to the next, 10 s on; a rise B over the lowest of 5 K and
 * three times the scatter. One rise in a straight fall of s a mean makes scatter itself: off by B/2
 * at both means beside it, over 1.5 and the 118 that tell: B (1 - 3 / 354^(1/2)) = 5 + s. */
static void brakes_that_were_used_are_told(void **state)
{
    (void)state;
    const double rise = (5.0 + 140.0 * 2.0 / 239.0) / (1.0 - 3.0 / sqrt(354.0));
    const double last = (5.0 + 140.0 * 2.0 / 239.0) / (1.0 - 3.0 / sqrt(708.0));
    for (int k = 0; k < 2; k++) {
        fall(200.0, 60.0);
        row[130].value[BRAKE_LOG_PEDAL_FORCE] = k == 0 ? 22.0 : 21.9;
        (k == 0 ? assert_refused : assert_not_refused)("the foot is on the brake");
        fall(200.0, 60.0);
        for (int i = 0; i < ROWS; i++)
            row[i].value[BRAKE_LOG_SPEED] = i < 120 ? 50.0 : k == 0 ? 29.9 : 30.1;
        (k == 0 ? assert_refused : assert_not_refused)("more than engine and air take");
        fall(200.0, 60.0);
        for (int i = 150; i < ROWS; i++)
            row[i].value[BRAKE_LOG_FRONT_TEMPERATURE] += rise + (k == 0 ? 0.002 : -0.002);
        (k == 0 ? assert_refused : assert_not_refused)("the brakes were used there");
        fall(200.0, 60.0); /* of the last mean alone: it is off at the one before */
        for (int i = ROWS - 2; i < ROWS; i++)
            row[i].value[BRAKE_LOG_FRONT_TEMPERATURE] += last + (k == 0 ? 0.002 : -0.002);
        (k == 0 ? assert_refused : assert_not_refused)("the brakes were used there");
    }
}

/* A kelvin up and down from mean to mean is left over by the fit; two of the 120 are spent on its
 * two numbers; steps of heat over time add some hundredths. */
static void what_a_fit_leaves_over_is_told(void **state)
{
    (void)state;
    begin_log();
    log_axle(BRAKE_FRONT, 0.6);
    for (int i = 0; i < ROWS; i++)
        row[i].value[BRAKE_LOG_FRONT_TEMPERATURE] += i / 2 % 2 == 0 ? 1.0 : -1.0;
    assert_int_equal(fit(ROWS), BRAKE_OK);
    assert_within(found.axle[BRAKE_FRONT].scatter, sqrt(120.0 / 118.0), 0.009);
}

static void assert_told(const char *field, int line, const char *words)
{
    assert_int_equal(fit(ROWS), BRAKE_E_FIT);
    assert_string_equal(error.field, field);
    assert_int_equal(error.line, line);
    assert_non_null(strstr(error.text, words));
}

/* Line of the file, column and number; rows stand from line 2 on, two of them a mean. */
static void a_refusal_names_its_line(void **state)
{
    (void)state;
    fall(70.0, 40.0);
    assert_told("front_temperature", 2, "is 50 K over");
    fall(200.0, 190.0);
    assert_told("front_temperature", ROWS, "fell by 10 K of 180 K over the air; 36 K are");
    fall(200.0, 14.0);
    assert_told("front_temperature", ROWS, "falls below");
    fall(200.0, 60.0);
    for (int i = 150; i < ROWS; i++)
        row[i].value[BRAKE_LOG_FRONT_TEMPERATURE] += 40.0;
    assert_told("front_temperature", 152, "rises by 39 K"); /* 40, less what it falls in a mean */
    fall(200.0, 60.0);
    for (int i = 2; i < ROWS; i++)
        row[i].value[BRAKE_LOG_SPEED] = -10.0; /* stands, whatever a receiver makes of it */
    row[0].value[BRAKE_LOG_SPEED] = row[1].value[BRAKE_LOG_SPEED] = 50.0;
    assert_told("speed", 4, "falls by 5 m/s2");
    fall(200.0, 60.0);
    row[130].value[BRAKE_LOG_PEDAL_FORCE] = 100.0;
    assert_told("", 132, "the foot is on");
    for (int i = 0; i < ROWS; i++)
        row[i].value[BRAKE_LOG_PEDAL_FORCE] = BRAKE_NAN;
    begin_log();
    assert_told("front_temperature", 0, "nor rear_temperature");
    begin_log();
    log_axle(BRAKE_REAR, 2.4);
    assert_told("rear_temperature", 2, "cools as no factor");
}

/* The rear alone is enough, and is what both are taken to be; of exact readings the interval is
 * that of the histories, 5 %, and of air that may be off by 2 K (reference/method.md, section 8).
 */
static void one_axle_is_as_sure_as_histories_and_air(void **state)
{
    (void)state;
    begin_log();
    log_axle(BRAKE_REAR, 0.6);
    assert_int_equal(fit(ROWS), BRAKE_OK);
    const struct brake_cooldown exact = found;
    const struct brake_cooldown_axle *axle = &exact.axle[BRAKE_REAR];
    assert_false(exact.axle[BRAKE_FRONT].logged);
    assert_false(exact.differ);
    assert_true(exact.cooling == axle->cooling && exact.low == axle->low);
    sheet.vehicle.heat.ambient += 2.0;
    assert_int_equal(fit(ROWS), BRAKE_OK);
    assert_equal(found.axle[BRAKE_REAR].heated, axle->heated);
    const double air = log(found.cooling / exact.cooling);
    assert_within(log(exact.high / exact.low), 2.0 * hypot(air, 0.05), 3e-4);
    assert_near(exact.high / exact.cooling, exact.cooling / exact.low, 1e-9);
    const struct brake_quantity *usual =
        brake_quantity_at(index_at(&sheet.vehicle, "heat.cooling"));
    assert_int_equal(exact.tells,
                     2.0 * exact.half < usual->fallback * (usual->most - usual->least));
}

/* The less hot a brake is, the more 2 K of the air count beside the 5 % of its history. */
static void air_counts_for_more_where_less_is_hot(void **state)
{
    (void)state;
    begin_log();
    log_axle_of(BRAKE_REAR, 0.6, 5000.0);
    assert_int_equal(fit(ROWS), BRAKE_OK);
    const struct brake_cooldown exact = found;
    sheet.vehicle.heat.ambient += 2.0;
    assert_int_equal(fit(ROWS), BRAKE_OK);
    assert_equal(found.axle[BRAKE_REAR].heated, exact.axle[BRAKE_REAR].heated);
    const double air = log(found.cooling / exact.cooling);
    assert_true(air > 0.025);
    assert_within(log(exact.high / exact.low), 2.0 * hypot(air, 0.05), 1e-4);
}

/* However short or long it was heated: each of the histories that are tried may be the best, of a
 * power that makes the brake about as hot. */
static void each_heating_that_is_tried_is_found(void **state)
{
    (void)state;
    static const double heated[] = {30.0, 60.0, 120.0, 300.0, 600.0, 1200.0, 2400.0};
    for (size_t k = 0; k < sizeof heated / sizeof heated[0]; k++) {
        static struct brake_hot_rig hot;
        struct brake_thermal_state now;
        begin_log();
        struct brake_vehicle vehicle = sheet.vehicle;
        const double air = vehicle.heat.ambient;
        const double power = 40000.0 * 90.0 / (60.0 + heated[k]);
        const struct brake_thermal_drive drive = {power, power, 20.0, 20.0, air};
        const struct brake_thermal_drive off = {0.0, 0.0, 20.0, 20.0, air};
        vehicle.heat.cooling = 0.7;
        assert_int_equal(brake_hot_rig_build(&vehicle, BRAKE_EMPTY, &hot, &error), BRAKE_OK);
        const struct brake_thermal *brake = &hot.thermal[BRAKE_FRONT];
        assert_int_equal(brake_thermal_start(brake, air, &now), BRAKE_OK);
        assert_int_equal(brake_thermal_advance(brake, &drive, heated[k], &now), BRAKE_OK);
        for (int i = 0; i < ROWS; i++) {
            row[i].value[BRAKE_LOG_FRONT_TEMPERATURE] = brake_thermal_mean(brake, &now);
            assert_int_equal(brake_thermal_advance(brake, &off, 5.0, &now), BRAKE_OK);
        }
        assert_int_equal(fit(ROWS), BRAKE_OK);
        assert_equal(found.axle[BRAKE_FRONT].heated, heated[k]);
        assert_within(found.cooling, 0.7, 0.004);
    }
}

/* Cooled by more than twice what is customary; by so little that it takes forty times as long. */
static void a_factor_beyond_reason_is_refused(void **state)
{
    (void)state;
    begin_log();
    log_axle(BRAKE_FRONT, 2.4);
    assert_refused("cools as no factor from 0.02 to 2");
    begin_log();
    log_axle(BRAKE_FRONT, 0.3);
    for (int i = 0; i < ROWS; i++)
        row[i].value[BRAKE_LOG_TIME] *= 40.0;
    assert_refused("cools as no factor from 0.02 to 2");
}

/* The most that a factor may be, 2: just below it one is found. */
static void a_factor_just_within_reason_is_found(void **state)
{
    (void)state;
    begin_log();
    log_axle(BRAKE_FRONT, 1.99);
    assert_int_equal(fit(ROWS), BRAKE_OK);
    assert_within(found.cooling, 1.99, 0.009);
    begin_log();
    log_axle(BRAKE_FRONT, 2.01);
    assert_refused("cools as no factor from 0.02 to 2");
}

static void the_air_of_the_day_is_asked_for(void **state)
{
    (void)state;
    fall(200.0, 60.0);
    read_sheet(&sheet, plus(plain, swapped(heat, "ambient = 20 degC\n", "")));
    assert_int_equal(fit(ROWS), BRAKE_E_MISSING);
    assert_string_equal(error.field, "heat.ambient");
    assert_int_equal(error.line, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_exact_cool_down_gives_its_factor),
        cmocka_unit_test(the_scatter_of_the_factor_is_the_one_that_is_claimed),
        cmocka_unit_test(neighbours_that_are_alike_count_for_less),
        cmocka_unit_test(a_factor_out_of_range_stays_at_its_end),
        cmocka_unit_test(a_log_gives_the_factor_that_made_it),
        cmocka_unit_test(axles_that_agree_are_one),
        cmocka_unit_test(a_short_log_does_not_tell),
        cmocka_unit_test(logs_that_tell_nothing_are_refused),
        cmocka_unit_test(few_readings_are_refused),
        cmocka_unit_test(brakes_that_were_used_are_told),
        cmocka_unit_test(what_a_fit_leaves_over_is_told),
        cmocka_unit_test(a_refusal_names_its_line),
        cmocka_unit_test(one_axle_is_as_sure_as_histories_and_air),
        cmocka_unit_test(air_counts_for_more_where_less_is_hot),
        cmocka_unit_test(each_heating_that_is_tried_is_found),
        cmocka_unit_test(a_row_between_two_spans_begins_the_later_one),
        cmocka_unit_test(it_begins_at_the_hottest),
        cmocka_unit_test(a_span_without_a_reading_is_passed_over),
        cmocka_unit_test(a_factor_beyond_reason_is_refused),
        cmocka_unit_test(a_factor_just_within_reason_is_found),
        cmocka_unit_test(the_air_of_the_day_is_asked_for),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
