/* SPDX-License-Identifier: MIT */
/* Logs of drives made step by step and measured: nine of ten intervals hold the truth. 400 of each
 * case; LOGS=1000 makes as many. */
#include "../vehicle/sheet.h"

#include <stdint.h>
#include <stdlib.h>

#include "brake/drivelog.h"
#include "brake/stop.h"
#include "study/stops.h"

enum { STOPS = 6, ROWS = 14000 };

static const double STEP = 0.001; /* [s] of the drive */
static const double FRICTION = 0.95;

/* A case: the receiver, and what the log says of the road. */
struct measuring {
    double rate;           /* [1/s] */
    double white, carried; /* [m/s] standard deviations of the noise */
    double round;          /* [m/s] that the speed is rounded to; 0: none */
    double slope;          /* [-] of the road; NaN: drawn within what is usual */
    bool logged;           /* there is a column of it */
    bool both_ways;        /* every other stop goes back */
};

/* What is true of one log, drawn. */
struct truth {
    double grade, lag, gauge, rolling, area;
    double developed[STOPS], distance[STOPS];
};

static struct brake_log_row row[ROWS];
static struct brake_drive drive;
static uint64_t state_of_chance;

/* SplitMix64. */
static double chance(void)
{
    uint64_t z = state_of_chance += 0x9e3779b97f4a7c15U;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    return ((double)((z ^ (z >> 31)) >> 11) + 0.5) / 9007199254740992.0;
}

static double normal(void)
{
    const double radius = sqrt(-2.0 * log(chance()));
    return radius * cos(2.0 * BRAKE_PI * chance());
}

static double drawn(struct brake_measured m)
{
    return m.value + m.half / 1.6448536269514722 * normal();
}

/* One drive on its way. */
struct way {
    const struct measuring *of;
    struct truth *truth;
    double time, speed, force, braking; /* braking: share of the pressure that is there */
    double carried, next;
    double told[1000]; /* speeds of the last second, as the receiver holds them back */
    long steps, rows;
};

/* Deceleration on the road by the equation of the method page, section 5, pressure to torque of the
 * plain vehicle: 9 N m of both axles a newton of pedal force. */
static double slowing(const struct way *w, double way)
{
    const double mass = 2000.0;
    const double weight = mass * BRAKE_GRAVITY / sqrt(1.0 + w->truth->grade * w->truth->grade);
    const double air = 0.5 * 1.225 * w->truth->area * w->speed * w->speed;
    const double torque = FRICTION * 9.0 * w->braking * w->force * w->truth->gauge;
    return (torque / 0.4 + weight * (w->truth->rolling + way * w->truth->grade) + air) /
           (mass + 2.0 * 125.0);
}

static void log_row(struct way *w, double way)
{
    struct brake_log_row *at = &row[w->rows++];
    const double stays = exp(-1.0 / w->of->rate);
    const long late = w->steps - (long)(w->truth->lag / STEP);
    const double speed = late >= 0 ? w->told[late % 1000] : 0.0;
    double shown = speed;
    w->carried = stays * w->carried + sqrt(1.0 - stays * stays) * w->of->carried * normal();
    if (speed > 0.0)
        shown = fmax(0.0, speed + w->carried + w->of->white * normal());
    if (w->of->round > 0.0)
        shown = w->of->round * round(shown / w->of->round);
    assert_true(w->rows < ROWS);
    for (int c = 0; c < BRAKE_LOG_COLUMNS; c++)
        at->value[c] = BRAKE_NAN;
    at->line = (int)w->rows + 1;
    at->value[BRAKE_LOG_TIME] = w->time;
    at->value[BRAKE_LOG_SPEED] = shown;
    at->value[BRAKE_LOG_PEDAL_FORCE] = w->force;
    if (w->of->logged)
        at->value[BRAKE_LOG_GRADE] = way * w->truth->grade;
    if (w->of->both_ways)
        at->value[BRAKE_LOG_HEADING] = way > 0.0 ? 0.5 : 0.5 + BRAKE_PI;
}

static void step(struct way *w, double deceleration, double way)
{
    w->told[w->steps % 1000] = w->speed;
    if (w->time >= w->next) {
        log_row(w, way);
        w->next += 1.0 / w->of->rate;
    }
    w->speed = fmax(0.0, w->speed - deceleration * STEP);
    w->time += STEP;
    w->steps++;
}

/* Up to speed, a steady second and more, the stop, a rest. */
static void drive_stop(struct way *w, int number)
{
    const double speed = (60.0 + 20.0 * chance()) / 3.6;
    const double way = w->of->both_ways && number % 2 == 1 ? -1.0 : 1.0;
    double from[2] = {0.0, 0.0};
    for (const double until = w->time + 0.5; w->time < until;)
        step(w, 0.0, way);
    while (w->speed < speed)
        step(w, -3.0, way);
    for (const double until = w->time + 2.0 + chance(); w->time < until;)
        step(w, 0.0, way);
    const double initial = w->speed;
    const double on = w->time;
    double distance = 0.0;
    const double force = 350.0 + 150.0 * chance();
    while (w->speed > 0.0) {
        w->force = force;
        w->braking = fmin(1.0, fmax(0.0, (w->time - on - 0.08) / 0.28));
        const double before = w->speed;
        step(w, w->braking > 0.0 ? slowing(w, way) : 0.0, way);
        distance += 0.5 * (before + w->speed) * STEP;
        from[0] = w->speed > 0.8 * initial ? distance : from[0];
        from[1] = w->speed > 0.1 * initial ? distance : from[1];
    }
    for (const double until = w->time + 1.5; w->time < until;) {
        step(w, 0.0, way);
        w->force = 0.0;
    }
    w->truth->distance[number] = distance;
    w->truth->developed[number] = brake_mfdd(0.8 * initial, 0.1 * initial, from[1] - from[0]);
}

static long make_log(const struct measuring *of, struct truth *truth)
{
    struct way w = {.of = of, .truth = truth};
    w.carried = of->carried * normal();
    w.next = chance() / of->rate;
    for (int i = 0; i < STOPS; i++)
        drive_stop(&w, i);
    return w.rows;
}

/* Rolling and air are uncertain, and drawn; all else of the file is exact. */
static void draw(const struct brake_sheet *sheet, const struct measuring *of, struct truth *truth)
{
    const struct brake_drive_day *day = &brake_drive_usual_day;
    const double rolling = record_at(sheet, "vehicle.rolling_resistance")->tolerance / 2.0;
    const double area = record_at(sheet, "heat.drag_area")->tolerance / 2.0;
    truth->grade = isnan(of->slope) ? drawn(day->grade) : of->slope;
    truth->lag = fmin(0.9, fmax(0.0, drawn(day->lag)));
    truth->gauge = drawn(day->gauge);
    truth->rolling = sheet->vehicle.general.rolling_resistance + rolling * normal();
    truth->area = sheet->vehicle.heat.drag_area + area * normal();
}

static bool holds(struct brake_measured m, double truth)
{
    return fabs(truth - m.value) <= m.half;
}

static int logs_wanted(void)
{
    const char *wanted = getenv("LOGS");
    return wanted != NULL ? (int)strtol(wanted, NULL, 10) : 400;
}

/* How many of 100 intervals hold the truth: friction of the log; deceleration and distance of its
 * stops. */
static void cover(const struct measuring *of, double share[3])
{
    struct brake_sheet sheet;
    const struct brake_nominal none = {{0.0}, 0};
    const int logs = logs_wanted();
    int held[3] = {0, 0, 0};
    read_sheet(&sheet, plain);
    make_exact(&sheet);
    state_tolerance(&sheet, "vehicle.rolling_resistance", 0.006, BRAKE_MEASURED);
    state_tolerance(&sheet, "heat.drag_area", 0.4, BRAKE_MEASURED);
    sheet.vehicle.general.rolling_resistance = 0.02;
    state_of_chance = 20U;
    for (int i = 0; i < logs; i++) {
        struct truth truth;
        draw(&sheet, of, &truth);
        const long rows = make_log(of, &truth);
        assert_int_equal(brake_drive_measure(row, rows, &none, &brake_drive_usual_day, &drive),
                         BRAKE_OK);
        assert_int_equal(drive.counted, STOPS);
        brake_drive_compare(&sheet, BRAKE_EMPTY, &drive);
        held[0] += holds(drive.friction, FRICTION);
        held[1] += holds(drive.stop[0].developed, truth.developed[0]);
        held[2] += holds(drive.stop[0].distance, truth.distance[0]);
    }
    for (int k = 0; k < 3; k++)
        share[k] = 100.0 * held[k] / logs;
}

static void nine_of_ten_intervals_hold_the_truth(void **state)
{
    static const struct measuring cases[] = {
        {.rate = 5.0, .white = 0.05, .slope = BRAKE_NAN},
        {.rate = 10.0, .white = 0.05, .slope = BRAKE_NAN},
        {.rate = 20.0, .white = 0.05, .slope = BRAKE_NAN},
        {.rate = 50.0, .white = 0.05, .slope = BRAKE_NAN},
        {.rate = 100.0, .white = 0.05, .slope = BRAKE_NAN},
        {.rate = 5.0, .carried = 0.03, .slope = BRAKE_NAN},
        {.rate = 10.0, .carried = 0.03, .slope = BRAKE_NAN},
        {.rate = 20.0, .white = 0.03, .carried = 0.03, .slope = BRAKE_NAN},
        {.rate = 100.0, .carried = 0.03, .slope = BRAKE_NAN},
        {.rate = 100.0, .white = 0.05, .carried = 0.05, .slope = BRAKE_NAN},
        {.rate = 10.0, .white = 0.02, .round = 0.1, .slope = BRAKE_NAN},
        {.rate = 10.0, .white = 0.05, .slope = 0.03, .logged = true},
        {.rate = 10.0, .white = 0.05, .slope = 0.03, .both_ways = true},
        {.rate = 50.0, .carried = 0.03, .slope = -0.03, .both_ways = true},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        double share[3];
        cover(&cases[i], share);
        for (int k = 0; k < 3; k++) {
            if (!(share[k] >= 85.0 && share[k] <= 95.0))
                fail_msg("case %d: %.1f of 100 intervals of figure %d hold the truth", (int)i,
                         share[k], k);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(nine_of_ten_intervals_hold_the_truth)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
