/* SPDX-License-Identifier: MIT */
/* What a drive tells of the lines: reference/method.md, section 11. The plain vehicle of
 * ../vehicle/sheet.h: a = F / 100 empty. */
#include "../vehicle/sheet.h"

#include "brake/constants.h"
#include "study/driven.h"
#include "study/inputs.h"
#include "study/known.h"
#include "study/sobol.h"

enum { SAMPLES = 512, PRIOR = 32768, TRUTHS = 60 };

static struct brake_drive drive;
static struct brake_inputs inputs;
static struct brake_sobol sobol;

/* Level stops from 20 m/s whose own figure is exact, as a log with a grade and no heading has
 * them. */
static void stops(const double *force, const double *deceleration, int count)
{
    drive = (struct brake_drive){.stops = count, .counted = count};
    drive.day = (struct brake_drive_day){.gauge = {1.0, 0.0}};
    for (int i = 0; i < count; i++) {
        drive.stop[i] = (struct brake_drive_stop){.pedal_force = force[i],
                                                  .pressure = BRAKE_NAN,
                                                  .heading = BRAKE_NAN,
                                                  .initial = {20.0, 0.0},
                                                  .developed = {deceleration[i], 0.0}};
    }
}

static void a_hundred_stops(void)
{
    double force[100];
    double deceleration[100];
    for (int i = 0; i < 100; i++) {
        force[i] = 400.0;
        deceleration[i] = 4.0;
    }
    stops(force, deceleration, 100);
}

/* Of a stop, for the vehicle of some shares and a gauge that is off. */
static double asked(const double *share, const struct brake_drive_stop *stop, double gauge)
{
    struct brake_vehicle vehicle;
    struct brake_system system;
    double factor[BRAKE_MODEL_ERRORS];
    const struct brake_drive_day day = {.gauge = {gauge, 0.0}};
    brake_inputs_vehicle(&inputs, share, &vehicle);
    brake_inputs_model(&inputs, share, factor);
    brake_system_build(&vehicle, BRAKE_EMPTY, BRAKE_INTACT, &system);
    return factor[BRAKE_MODEL_STOP] * brake_drive_predict(&drive, &day, vehicle.heat.drag_area,
                                                          &system, stop, BRAKE_DRIVE_GRIP);
}

static void list(const struct brake_sheet *sheet, uint64_t seed)
{
    brake_inputs_list(sheet, NULL, &inputs);
    assert_int_equal(brake_sobol_scrambled(brake_inputs_count(&inputs), seed, &sobol), BRAKE_OK);
}

/* Mean and standard deviation of a stop over samples of a vehicle. */
static void draw(const struct brake_sheet *sheet, const struct brake_drive_stop *stop, double *mean,
                 double *sigma)
{
    double sum = 0.0;
    double squares = 0.0;
    list(sheet, 7);
    for (uint32_t s = 0; s < SAMPLES; s++) {
        double share[BRAKE_INPUTS];
        brake_sobol_middle(&sobol, s, share);
        const double value = asked(share, stop, 1.0);
        sum += value;
        squares += value * value;
    }
    *mean = sum / SAMPLES;
    *sigma = sqrt(squares / SAMPLES - *mean * *mean);
}

static void make_plain(struct brake_sheet *sheet)
{
    read_sheet(sheet, plain);
    make_exact(sheet);
    sheet->vehicle.heat.drag_area = 0.0;
    state_tolerance(sheet, "front.disc.pads.mu", 0.04, BRAKE_MEASURED);
    state_tolerance(sheet, "rear.disc.pads.mu", 0.04, BRAKE_MEASURED);
}

/* Straight and normal: sigma of each mu 0.04/1.96/0.4 = 0.05102, correlation 0.5, front 0.8 and
 * rear 0.2 of 4 m/s2, model 0.03/1.96; stops scatter by 0.02. P = 16 (0.05102^2 x 0.84 +
 * 0.015306^2) = 0.03873, R = 16 x 0.02^2 = 0.0064, so 4 - 0.2 P/(P + R) = 3.8284 and sqrt(P R/(P +
 * R)) = 0.0741. */
static void one_stop_moves_the_lines_by_bayes_rule(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    double mean;
    double sigma;
    make_plain(&sheet);
    stops((const double[]){400.0}, (const double[]){3.8}, 1);
    assert_int_equal(brake_drive_learn(&sheet, BRAKE_EMPTY, &drive), BRAKE_OK);
    draw(&sheet, &drive.stop[0], &mean, &sigma);
    assert_within(mean, 3.8284, 0.004);
    assert_within(sigma, 0.0741, 0.003);
    assert_int_equal(sheet.known.word, BRAKE_DRIVE_AGREES);
    assert_near(sheet.known.ratio, 0.95, 1e-3);
    assert_int_equal(sheet.known.left_out, 0);
    /* P^(1/2) is 0.0492 of 4 m/s2; 3.8 or less comes with a normal share of -0.2 over (P +
     * R)^(1/2) */
    assert_within(sheet.known.low, 1.0 - 1.6449 * 0.0492, 0.002);
    assert_within(sheet.known.high, 1.0 + 1.6449 * 0.0492, 0.002);
    assert_within(sheet.known.likely, 0.5 * erfc(0.2 / sqrt(0.03873 + 0.0064) / sqrt(2.0)), 0.002);
    /* of a stop the front has 0.8, and half of the rear's 0.2 goes with it; the rear 0.2 and 0.4 */
    assert_int_equal(sheet.known.line[0], index_at(&sheet.vehicle, "front.disc.pads.mu"));
    assert_int_equal(sheet.known.line[1], index_at(&sheet.vehicle, "rear.disc.pads.mu"));
    for (int i = 2; i < BRAKE_DRIVE_LINES; i++)
        assert_int_equal(sheet.known.line[i], -1);
    /* where all is straight, the samples of a round count alike */
    assert_in_range((long)sheet.known.effective, 2030, 2048);
}

/* Mean and standard deviation of the friction of an axle over samples. */
static void draw_friction(const struct brake_sheet *sheet, enum brake_axle axle, double *mean,
                          double *sigma)
{
    double sum = 0.0;
    double squares = 0.0;
    list(sheet, 7);
    for (uint32_t s = 0; s < SAMPLES; s++) {
        double share[BRAKE_INPUTS];
        struct brake_vehicle vehicle;
        brake_sobol_middle(&sobol, s, share);
        brake_inputs_vehicle(&inputs, share, &vehicle);
        sum += vehicle.axle[axle].pads.mu;
        squares += vehicle.axle[axle].pads.mu * vehicle.axle[axle].pads.mu;
    }
    *mean = sum / SAMPLES;
    *sigma = sqrt(squares / SAMPLES - *mean * *mean);
}

/* What a tester read teaches of the plain vehicle, of which friction alone is not known. */
static void read_tester(struct brake_sheet *sheet, const char *lines)
{
    char tester[400];
    snprintf(tester, sizeof tester, "[tester]\n%s", lines);
    read_sheet(sheet, plus(plain, tester));
    make_exact(sheet);
    state_tolerance(sheet, "front.disc.pads.mu", 0.04, BRAKE_MEASURED);
    state_tolerance(sheet, "rear.disc.pads.mu", 0.04, BRAKE_MEASURED);
    assert_int_equal(brake_drive_learn(sheet, BRAKE_EMPTY, NULL), BRAKE_OK);
}

/* The front axle gives 18 N per newton of pedal: 7200 N at 400 N, of which a tester reads nine
 * tenths. Straight and normal, over the middle: prior 0.05102 as above, the reading 0.02 by itself
 * and 0.05 for rollers against the road, R = 0.0029: 1 - 0.1 P/(P + R) = 0.9527 and sqrt(P R/(P +
 * R)) = 0.03704 of 0.4. The rear follows by its correlation of 0.5. */
static void a_tester_moves_the_friction_of_its_axle(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    double mean;
    double sigma;
    read_tester(&sheet, "front_left = 3240 N\nfront_right = 3240 N\npedal_force = 400 N\n");
    assert_int_equal(sheet.known.forces, 1);
    assert_int_equal(sheet.known.stops, 0);
    assert_near(sheet.known.ratio, 0.9, 1e-3);
    draw_friction(&sheet, BRAKE_FRONT, &mean, &sigma);
    assert_within(mean, 0.4 * 0.9527, 0.0008);
    assert_within(sigma, 0.4 * 0.03704, 0.0006);
    draw_friction(&sheet, BRAKE_REAR, &mean, &sigma);
    assert_within(mean, 0.4 * (1.0 - 0.5 * 0.0473), 0.0008);
}

/* A fortieth of the pedal force, and of what is read, teaches the same. What each wheel may be off
 * by in its reading, 10 % (95 of 100), adds to R: 2 (0.1 x 0.45 / 1.96)^2 = 0.001054. */
static void a_tester_counts_by_parts_of_what_it_reads(void **state)
{
    (void)state;
    static struct brake_sheet sheets[3];
    double mean[3];
    double sigma[3];
    static const double force[] = {3240.0, 81.0, 3240.0};
    for (int i = 0; i < 3; i++) {
        struct brake_sheet *sheet = &sheets[i];
        char lines[200];
        snprintf(lines, sizeof lines,
                 "[tester]\nfront_left = %g N\nfront_right = %g N\npedal_force = %g N\n", force[i],
                 force[i], force[i] / 8.1);
        read_sheet(sheet, plus(plain, lines));
        make_exact(sheet);
        state_tolerance(sheet, "front.disc.pads.mu", 0.04, BRAKE_MEASURED);
        if (i == 2) {
            state_tolerance(sheet, "tester.front_left", 324.0, BRAKE_MEASURED);
            state_tolerance(sheet, "tester.front_right", 324.0, BRAKE_MEASURED);
        }
        assert_int_equal(brake_drive_learn(sheet, BRAKE_EMPTY, NULL), BRAKE_OK);
        const double prior = 0.05102 * 0.05102;
        const double read = i < 2 ? 0.0029 : 0.0029 + 0.001054;
        draw_friction(sheet, BRAKE_FRONT, &mean[i], &sigma[i]);
        assert_within(mean[i], 0.4 * (1.0 - 0.1 * prior / (prior + read)), 0.0008);
        assert_within(sigma[i], 0.4 * sqrt(prior * read / (prior + read)), 0.0003);
    }
    assert_within(mean[1], mean[0], 1e-6);
    assert_within(sigma[1], sigma[0], 1e-6);
}

/* Rollers are off by the same at both axles: two equal ratios pull by both together, a front that
 * is high and a rear that is low part them. */
static void both_axles_of_a_tester_are_told_apart(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    double front;
    double rear;
    double sigma;
    read_tester(&sheet, "front_left = 3780 N\nfront_right = 3780 N\n"
                        "rear_left = 810 N\nrear_right = 810 N\npedal_force = 400 N\n");
    assert_int_equal(sheet.known.forces, 2);
    draw_friction(&sheet, BRAKE_FRONT, &front, &sigma);
    draw_friction(&sheet, BRAKE_REAR, &rear, &sigma);
    /* Ratios 1.05 and 0.9. Prior P (1, 0.5; 0.5, 1), readings R = 0.0004 I + 0.0025: with sum and
     * difference s = (f + r)/2, d = f - r apart: var s 0.75 P = 0.001952 against 0.0025 + 0.0002,
     * so s = -0.025 x 0.4196; var d P = 0.002603 against 0.0008, so d = 0.15 x 0.7649. */
    assert_within(front, 0.4 * (1.0 - 0.01049 + 0.05737), 0.0012);
    assert_within(rear, 0.4 * (1.0 - 0.01049 - 0.05737), 0.0012);
    /* Both together read 1.02 of the lines, the front being 0.8 of that: by the lines 0.84 P, by
     * the readings 0.0004 (0.64 + 0.04) + 0.0025. */
    const double variance = 0.84 * 0.05102 * 0.05102 + 0.0004 * 0.68 + 0.0025;
    assert_within(sheet.known.likely, 0.5 * erfc(-0.02 / sqrt(variance) / sqrt(2.0)), 0.001);
}

/* Mean and covariance of what a reading is linear in, after it (Kalman's update, from memory). */
static void update(double mean[4], double spread[4][4], const double of[4], double read,
                   double sigma)
{
    double along[4] = {0.0};
    double left = read;
    double size = sigma * sigma;
    for (int i = 0; i < 4; i++) {
        left -= of[i] * mean[i];
        for (int k = 0; k < 4; k++)
            along[i] += spread[i][k] * of[k];
    }
    for (int i = 0; i < 4; i++)
        size += of[i] * along[i];
    for (int i = 0; i < 4; i++) {
        mean[i] += along[i] / size * left;
        for (int k = 0; k < 4; k++)
            spread[i][k] -= along[i] * along[k] / size;
    }
}

/* Both axles on a tester and a stop are three directions. Over their middle: friction in front and
 * rear 0.05102 with correlation 0.5, the model of a stop 0.015306, the rollers 0.05; the front has
 * 0.8 of a stop. */
static void a_tester_and_a_stop_tell_three_things(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    double found[2];
    double sigma;
    const double f = 0.05102 * 0.05102;
    double mean[4] = {0.0};
    double spread[4][4] = {{f, f / 2.0, 0.0, 0.0},
                           {f / 2.0, f, 0.0, 0.0},
                           {0.0, 0.0, 0.015306 * 0.015306, 0.0},
                           {0.0, 0.0, 0.0, 0.05 * 0.05}};
    update(mean, spread, (const double[]){1.0, 0.0, 0.0, 1.0}, 0.04, 0.02);
    update(mean, spread, (const double[]){0.0, 1.0, 0.0, 1.0}, -0.05, 0.02);
    update(mean, spread, (const double[]){0.8, 0.2, 1.0, 0.0}, -0.03, 0.02);
    read_tester(&sheet, "front_left = 3744 N\nfront_right = 3744 N\n"
                        "rear_left = 855 N\nrear_right = 855 N\npedal_force = 400 N\n");
    sheet.vehicle.heat.drag_area = 0.0;
    stops((const double[]){400.0}, (const double[]){3.88}, 1);
    assert_int_equal(brake_drive_learn(&sheet, BRAKE_EMPTY, &drive), BRAKE_OK);
    assert_int_equal(sheet.known.forces, 2);
    assert_int_equal(sheet.known.stops, 1);
    assert_in_range((long)sheet.known.effective, 2000, 2048);
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        draw_friction(&sheet, (enum brake_axle)axle, &found[axle], &sigma);
        assert_within(found[axle], 0.4 * (1.0 + mean[axle]), 0.0012);
        assert_within(sigma, 0.4 * sqrt(spread[axle][axle]), 0.0006);
    }
}

/* The gauge is off by the same in all stops (90 of 100 within 10 %, sigma 0.0608): a hundred of
 * them know no better than that. Without it they would be sure within 0.02/10. */
static void many_stops_do_not_average_the_gauge(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    double mean;
    double sigma;
    make_plain(&sheet);
    a_hundred_stops();
    drive.day.gauge.half = 0.1;
    assert_int_equal(brake_drive_learn(&sheet, BRAKE_EMPTY, &drive), BRAKE_OK);
    draw(&sheet, &drive.stop[0], &mean, &sigma);
    /* P as above and R = 16 x 0.0608^2 = 0.0591: sqrt(P R/(P + R)) = 0.153 */
    assert_within(sigma, 0.153, 0.008);
}

/* Three stops whose measured over predicted scatter by 0.095, more than the 0.02 of like stops, are
 * as sure as that: over 4 m/s2, P = 0.002421 as above and R = 0.095^2/3, so 4 - 0.2 P/(P + R) and 4
 * (P R/(P + R))^(1/2). Two tell no scatter: R = 0.02^2/2. */
static void stops_that_scatter_tell_less(void **state)
{
    (void)state;
    static const double deceleration[2][3] = {{3.42, 4.18}, {3.42, 3.80, 4.18}};
    for (int three = 0; three < 2; three++) {
        struct brake_sheet sheet;
        double mean;
        double sigma;
        const double prior = 0.03873 / 16.0;
        const double read = three ? 0.095 * 0.095 / 3.0 : 0.02 * 0.02 / 2.0;
        make_plain(&sheet);
        stops((const double[]){400.0, 400.0, 400.0}, deceleration[three], 2 + three);
        assert_int_equal(brake_drive_learn(&sheet, BRAKE_EMPTY, &drive), BRAKE_OK);
        draw(&sheet, &drive.stop[0], &mean, &sigma);
        assert_within(mean, 4.0 - 0.2 * prior / (prior + read), 0.004);
        assert_within(sigma, 4.0 * sqrt(prior * read / (prior + read)), 0.003);
    }
}

/* 900 N would give 9 m/s2, normal by P as above, on a road that holds 8: where 9.5 were measured
 * all the same, the brakes had that or more. A vehicle with less is as likely as a stop that is
 * off by what it lacks, 0.02 of 9 m/s2; by the trapezium rule. */
static void a_bound_lifts_what_lies_below_it(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    const double prior = 9.0 * sqrt(0.03873) / 4.0;
    double weights = 0.0;
    double sum = 0.0;
    double squares = 0.0;
    double mean;
    double sigma;
    for (int i = -600; i <= 600; i++) {
        const double z = i / 100.0;
        const double value = 9.0 + prior * z;
        const double lacks = fmax(0.0, 9.5 - value) / (0.02 * 9.0);
        const double weight = exp(-0.5 * (z * z + lacks * lacks));
        weights += weight;
        sum += weight * value;
        squares += weight * value * value;
    }
    make_plain(&sheet);
    stops((const double[]){900.0}, (const double[]){9.5}, 1);
    assert_int_equal(brake_drive_learn(&sheet, BRAKE_EMPTY, &drive), BRAKE_OK);
    assert_int_equal(sheet.known.bounds, 1);
    draw(&sheet, &drive.stop[0], &mean, &sigma);
    assert_within(mean, sum / weights, 0.02);
    assert_within(sigma, sqrt(squares / weights - sum * sum / weights / weights), 0.02);
}

/* On two days the gauge is off by two errors: R is half of that above, 0.02955, and (P R/(P +
 * R))^(1/2) 0.1295. One stop more than there is room for is refused, and changes nothing. */
static void two_days_average_the_gauge(void **state)
{
    (void)state;
    static struct brake_drive other;
    struct brake_sheet sheet;
    double mean;
    double sigma;
    make_plain(&sheet);
    a_hundred_stops();
    drive.stops = drive.counted = BRAKE_DRIVE_STOPS / 2;
    drive.day.gauge.half = 0.1;
    other = drive;
    const struct brake_loaded_drive driven[] = {{BRAKE_EMPTY, &drive}, {BRAKE_EMPTY, &other}};
    assert_int_equal(brake_drives_learn(&sheet, driven, 2), BRAKE_OK);
    assert_int_equal(sheet.known.stops, BRAKE_DRIVE_STOPS);
    draw(&sheet, &drive.stop[0], &mean, &sigma);
    assert_within(mean, 4.0, 0.01);
    assert_within(sigma, 0.1295, 0.006);
    other.stops++;
    assert_int_equal(brake_drives_learn(&sheet, driven, 2), BRAKE_E_SIZE);
    assert_int_equal(sheet.known.stops, BRAKE_DRIVE_STOPS);
}

/* What no vehicle does makes no sample likely: nothing is told, and none counts. */
static void what_no_vehicle_does_tells_nothing(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    make_plain(&sheet);
    stops((const double[]){400.0}, (const double[]){1e200}, 1);
    assert_int_equal(brake_drive_learn(&sheet, BRAKE_EMPTY, &drive), BRAKE_OK);
    assert_equal(sheet.known.effective, 0.0);
    assert_int_equal(sheet.known.word, BRAKE_DRIVE_MORE);
    assert_int_equal(sheet.known.count, 0);
}

/* A road that may rise by 2 % (90 of 100) is the same in all stops of a day: 9.80665 x 2000/2250 x
 * 0.02/1.6449 = 0.106 m/s2, R = 0.01124, P as above: sqrt(P R/(P + R)) = 0.0933; what was measured
 * as it was predicted moves nothing. */
static void many_stops_do_not_average_the_road(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    double mean;
    double sigma;
    make_plain(&sheet);
    a_hundred_stops();
    for (int i = 0; i < 100; i++)
        drive.stop[i].grade = BRAKE_NAN;
    drive.day.grade.half = 0.02;
    assert_int_equal(brake_drive_learn(&sheet, BRAKE_EMPTY, &drive), BRAKE_OK);
    draw(&sheet, &drive.stop[0], &mean, &sigma);
    assert_within(mean, 4.0, 0.01);
    assert_within(sigma, 0.0933, 0.005);
}

/* All that was left out of the vehicle with everything is uncertain; weighed samples of the lines
 * alone, each with a gauge of its own drawn, need no straight line and no direction. */
static void what_is_told_is_what_weighing_the_lines_alone_gives(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    double weight_all = 0.0;
    double mean = 0.0;
    double squares = 0.0;
    double told_mean;
    double told_sigma;
    read_sheet(&sheet, full_text());
    list(&sheet, 3);
    double middle[BRAKE_INPUTS];
    for (int k = 0; k < BRAKE_INPUTS; k++)
        middle[k] = 0.5;
    const double force[] = {150.0, 200.0, 250.0};
    double deceleration[] = {4.0, 5.0, 6.0};
    stops(force, deceleration, 3);
    for (int i = 0; i < 3; i++)
        drive.stop[i].developed.value = (i == 1 ? 0.92 : 0.94) * asked(middle, &drive.stop[i], 1.0);
    drive.day.gauge.half = 0.02;
    for (uint32_t s = 0; s < PRIOR; s++) {
        double share[BRAKE_INPUTS];
        double left = 0.0;
        brake_sobol_middle(&sobol, s, share);
        const double off = brake_normal_value(((s * 2654435761U) % 65536U + 0.5) / 65536.0);
        for (int i = 0; i < 3; i++) {
            const double value = asked(share, &drive.stop[i], 1.0 + 0.02 / 1.6449 * off);
            const double sure = 0.02 * asked(middle, &drive.stop[i], 1.0);
            const double apart = (drive.stop[i].developed.value - value) / sure;
            left += apart * apart;
        }
        const double weight = exp(-0.5 * left);
        const double value = asked(share, &drive.stop[1], 1.0);
        weight_all += weight;
        mean += weight * value;
        squares += weight * value * value;
    }
    mean /= weight_all;
    const double sigma = sqrt(squares / weight_all - mean * mean);
    assert_int_equal(brake_drive_learn(&sheet, BRAKE_EMPTY, &drive), BRAKE_OK);
    draw(&sheet, &drive.stop[1], &told_mean, &told_sigma);
    assert_within(told_mean, mean, 0.15 * sigma);
    assert_within(told_sigma / sigma, 1.0, 0.1);
}

/* A uniform number, the same in every run (Lehmer, modulus 2^31 - 1). */
static double chance(uint64_t *state)
{
    *state = *state * 48271U % 2147483647U;
    return (double)*state / 2147483647.0;
}

/* Of vehicles that the lines allow, driven with a gauge and stops that are off as they may be, the
 * 90 % interval of a harder stop holds the truth in about 90 of 100. */
static void hidden_truths_are_held(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    uint64_t random = 20011;
    int held = 0;
    const double force[] = {150.0, 200.0, 250.0};
    for (uint32_t t = 0; t < TRUTHS; t++) {
        double share[BRAKE_INPUTS];
        double measured[3] = {0.0};
        double mean;
        double sigma;
        read_sheet(&sheet, drum_text());
        list(&sheet, 11);
        brake_sobol_middle(&sobol, t, share);
        const double gauge = 1.0 + 0.02 / 1.6449 * brake_normal_value(chance(&random));
        stops(force, measured, 3);
        drive.day.gauge.half = 0.02;
        for (int i = 0; i < 3; i++)
            drive.stop[i].developed.value = asked(share, &drive.stop[i], gauge) *
                                            (1.0 + 0.02 * brake_normal_value(chance(&random)));
        struct brake_drive_stop harder = drive.stop[0];
        harder.pedal_force = 350.0;
        const double truth = asked(share, &harder, 1.0);
        assert_int_equal(brake_drive_learn(&sheet, BRAKE_EMPTY, &drive), BRAKE_OK);
        draw(&sheet, &harder, &mean, &sigma);
        held += fabs(truth - mean) <= 1.6449 * sigma ? 1 : 0;
    }
    print_message("%d of %d held\n", held, TRUTHS);
    assert_in_range(held, TRUTHS * 85 / 100, TRUTHS * 97 / 100);
}

/* mu stated within 10 %: 0.7 of the deceleration is 8 sigma away, 1.3 too. */
static void too_little_brake_is_named_and_too_much_is_not_believed(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    make_plain(&sheet);
    stops((const double[]){400.0, 300.0}, (const double[]){2.8, 2.1}, 2);
    assert_int_equal(brake_drive_learn(&sheet, BRAKE_EMPTY, &drive), BRAKE_OK);
    assert_int_equal(sheet.known.word, BRAKE_DRIVE_LESS);
    assert_true(sheet.known.likely < 0.01);
    assert_true(sheet.known.count > 0);
    stops((const double[]){400.0, 300.0}, (const double[]){5.2, 3.9}, 2);
    assert_int_equal(brake_drive_learn(&sheet, BRAKE_EMPTY, &drive), BRAKE_OK);
    assert_int_equal(sheet.known.word, BRAKE_DRIVE_MORE);
    assert_int_equal(sheet.known.count, 0);
    assert_int_equal(sheet.known.line[0], index_at(&sheet.vehicle, "front.disc.pads.mu"));
}

/* 800 N would give 8 m/s2 and the road holds 0.8 at the most, shared badly: at 5 m/s2 the tyres
 * gave way, and the brakes had that or more. */
static void a_stop_that_the_tyres_limit_is_a_bound(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    struct brake_sheet alone;
    double before[2];
    double after[2];
    make_plain(&sheet);
    alone = sheet;
    stops((const double[]){900.0}, (const double[]){5.0}, 1);
    assert_int_equal(brake_drive_learn(&sheet, BRAKE_EMPTY, &drive), BRAKE_OK);
    assert_int_equal(sheet.known.bounds, 1);
    assert_int_equal(sheet.known.word, BRAKE_DRIVE_NONE);
    draw(&alone, &drive.stop[0], &before[0], &before[1]);
    draw(&sheet, &drive.stop[0], &after[0], &after[1]);
    assert_within(after[0], before[0], 0.02 * before[0]);
    assert_within(after[1], before[1], 0.05 * before[1]);
}

/* A caliper that is another one since takes what was told of its pads with it; the rear stays. */
static void a_changed_part_forgets_and_the_others_remember(void **state)
{
    (void)state;
    struct brake_sheet stock;
    struct brake_sheet changed;
    make_plain(&stock);
    stops((const double[]){400.0}, (const double[]){3.8}, 1);
    assert_int_equal(brake_drive_learn(&stock, BRAKE_EMPTY, &drive), BRAKE_OK);
    stock.known.forces = stock.known.stops; /* as many readings of a tester as stops */
    changed = stock;
    memset(&changed.known, 0, sizeof changed.known);
    set(&changed, "front.disc.effective_radius=150 mm");
    complete(&changed);
    brake_drive_carry(&stock, &changed);
    assert_true(changed.known.another);
    brake_inputs_list(&changed, NULL, &inputs);
    const int front = index_at(&changed.vehicle, "front.disc.pads.mu");
    const int rear = index_at(&changed.vehicle, "rear.disc.pads.mu");
    bool remembered = false;
    for (int i = 0; i < inputs.learned.count; i++) {
        const int share = inputs.learned.share[i];
        assert_true(share >= inputs.count || inputs.input[share].index != front);
        remembered = remembered || (share < inputs.count && inputs.input[share].index == rear);
    }
    assert_true(remembered);
}

static void stops_without_pedal_tell_nothing(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    make_plain(&sheet);
    stops((const double[]){BRAKE_NAN}, (const double[]){3.8}, 1);
    assert_int_equal(brake_drive_learn(&sheet, BRAKE_EMPTY, &drive), BRAKE_OK);
    assert_int_equal(sheet.known.stops, 0);
    assert_int_equal(sheet.known.left_out, 1);
    assert_int_equal(sheet.known.count, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_stop_moves_the_lines_by_bayes_rule),
        cmocka_unit_test(a_tester_moves_the_friction_of_its_axle),
        cmocka_unit_test(a_tester_counts_by_parts_of_what_it_reads),
        cmocka_unit_test(both_axles_of_a_tester_are_told_apart),
        cmocka_unit_test(a_tester_and_a_stop_tell_three_things),
        cmocka_unit_test(many_stops_do_not_average_the_gauge),
        cmocka_unit_test(stops_that_scatter_tell_less),
        cmocka_unit_test(a_bound_lifts_what_lies_below_it),
        cmocka_unit_test(two_days_average_the_gauge),
        cmocka_unit_test(what_no_vehicle_does_tells_nothing),
        cmocka_unit_test(many_stops_do_not_average_the_road),
        cmocka_unit_test(what_is_told_is_what_weighing_the_lines_alone_gives),
        cmocka_unit_test(hidden_truths_are_held),
        cmocka_unit_test(too_little_brake_is_named_and_too_much_is_not_believed),
        cmocka_unit_test(a_stop_that_the_tyres_limit_is_a_bound),
        cmocka_unit_test(a_changed_part_forgets_and_the_others_remember),
        cmocka_unit_test(stops_without_pedal_tell_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
