/* SPDX-License-Identifier: MIT */
/* The stops of a log: where they begin and end, and what they measure. Equations and sources:
 * brake/drivelog.h. */
#include "brake/drivelog.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "brake/stop.h"
#include "brake/tolerance.h"
#include "noise.h"
#include "stops.h"

static const double LEAST_SPEED = 5.0; /* [m/s] no stop from less is looked at */
static const double STANDING = 0.3;    /* [m/s] */
static const double GENTLE = 1.0;      /* [m/s2] less is no use of the brakes */
static const double TYRES = 12.0;      /* [m/s2] no road tyre slows a vehicle more */
static const double ENGINE = 8.0;      /* [m/s2] no engine speeds it up more */
static const double LONGEST_LOCK =
    3.0;                               /* [s] a wheel that stands longer does so with the vehicle */
static const double RISING = 0.3;      /* [m/s2] slope that still belongs to a stop */
static const double WINDOW = 0.5;      /* [s] over which a slope is taken */
static const double LEAD = 1.0;        /* [s] before the stop, for the initial speed */
static const double PEDAL_ON = 22.0;   /* [N] SAE J299 (2009), read second-hand */
static const double PRESSURE_ON = 1e5; /* [Pa] common practice, no source */
static const double LEAP = 0.1;        /* [s] within which a wheel locks */
static const double GAP = 3.5;         /* [-] intervals without a row */
static const double SHORT_GAP = 0.25;  /* [s] less is no gap */
static const double COARSE = 0.20;     /* [-] half width over deceleration */
static const double SIGMAS = 5.0;      /* more is no noise */

bool brake_foot_on(const struct brake_log_row *row)
{
    return row->value[BRAKE_LOG_PEDAL_FORCE] >= PEDAL_ON ||
           row->value[BRAKE_LOG_PRESSURE] >= PRESSURE_ON;
}

enum { SAMPLE = 1001 /* numbers that a median is taken of */ };

enum { NO_FOOT = BRAKE_LOG_TIME /* which tells of no foot */ };

struct search {
    const struct brake_log_row *row;
    long rows;
    double interval;
    int foot; /* column that tells when the foot is on; NO_FOOT: none */
    double foot_on;
    const struct brake_drive_day *day;
    const struct brake_nominal *nominal;
    struct brake_noise noise; /* none at first, that of all stops when they are measured */
};

static double time_at(const struct search *s, long i)
{
    return s->row[i].value[BRAKE_LOG_TIME];
}

static bool has_foot(const struct search *s)
{
    return s->foot != NO_FOOT;
}

static double speed_at(const struct search *s, long i)
{
    return s->row[i].value[BRAKE_LOG_SPEED];
}

/* ---- medians -------------------------------------------------------------------------------- */

static int by_size(const void *one, const void *other)
{
    const double a = *(const double *)one;
    const double b = *(const double *)other;
    return (a > b) - (a < b);
}

/* Median interval between rows; of evenly spread ones when there are many. */
static double median_interval(const struct search *s)
{
    double length[SAMPLE] = {0.0};
    const long intervals = s->rows - 1;
    const long count = intervals < SAMPLE ? intervals : SAMPLE;
    for (long i = 0; i < count; i++) {
        const long at = i * intervals / count;
        length[i] = time_at(s, at + 1) - time_at(s, at);
    }
    qsort(length, (size_t)count, sizeof length[0], by_size);
    return length[count / 2];
}

/* Noise by second differences, whose standard deviation is sqrt(6) times that of a row; the median
 * of their sizes, so that jumps do not count. */
static double rough_noise(const struct search *s, long first, long last)
{
    double bend[SAMPLE] = {0.0};
    const long most = last - first - 1;
    const long count = most < SAMPLE ? most : SAMPLE;
    if (most < 3)
        return 0.0;
    for (long i = 0; i < count; i++) {
        const long at = first + 1 + i * most / count;
        bend[i] = fabs(speed_at(s, at - 1) - 2.0 * speed_at(s, at) + speed_at(s, at + 1));
    }
    qsort(bend, (size_t)count, sizeof bend[0], by_size);
    return bend[count / 2] / (0.6745 * sqrt(6.0));
}

/* ---- where a stop begins and ends ----------------------------------------------------------- */

/* Row that lies a while before or after another. */
static long row_before(const struct search *s, long i, double while_)
{
    long at = i;
    while (at > 0 && time_at(s, i) - time_at(s, at) < while_ * (1.0 - 1e-9))
        at--;
    return at;
}

static long row_after(const struct search *s, long i, double while_)
{
    long at = i;
    while (at + 1 < s->rows && time_at(s, at) - time_at(s, i) < while_ * (1.0 - 1e-9))
        at++;
    return at;
}

/* Mean deceleration from one row to another; 0 when they are the same. */
static double slowing(const struct search *s, long from, long to)
{
    const double duration = time_at(s, to) - time_at(s, from);
    return duration > 0.0 ? (speed_at(s, from) - speed_at(s, to)) / duration : 0.0;
}

/* Last row of a wheel's standing still after which it is back at the vehicle's speed at once, as no
 * engine would bring it; 0 when the vehicle itself stands. */
static long comes_back(const struct search *s, long stood)
{
    long i = stood;
    while (i + 1 < s->rows && speed_at(s, i + 1) <= STANDING)
        i++;
    const bool soon = time_at(s, i) - time_at(s, stood) < LONGEST_LOCK;
    return soon && -slowing(s, i, row_after(s, i, WINDOW)) > ENGINE ? i : 0;
}

enum { NOWHERE = -1 };

/* Where a wheel that is back at the vehicle's speed in a row had it last, before it locked;
 * nowhere when it did not lock. */
static long before_lock(const struct search *s, long back)
{
    long low = back;
    for (long i = back; i > 0 && time_at(s, back) - time_at(s, i) < 2.0 * WINDOW; i--)
        low = speed_at(s, i) < speed_at(s, low) ? i : low;
    const double rise = speed_at(s, back) - speed_at(s, low);
    if (rise < 1.0 + 0.5 * ENGINE * (time_at(s, back) - time_at(s, low)))
        return NOWHERE;
    for (long i = low; i >= 0 && time_at(s, low) - time_at(s, i) < LONGEST_LOCK; i--) {
        if (speed_at(s, i) >= speed_at(s, back))
            return i;
    }
    return NOWHERE;
}

/* Row in which the slowing that ends at a standing row sets in. */
static long onset(const struct search *s, long last)
{
    long first = last;
    for (long back = last; back >= 0; back = before_lock(s, first)) {
        first = back;
        while (slowing(s, row_before(s, first, WINDOW), first) > RISING)
            first--;
    }
    const double mean = slowing(s, first, last);
    first = row_before(s, first, WINDOW);
    while (first < last && slowing(s, first, row_after(s, first, WINDOW)) < mean / 3.0)
        first++;
    return first;
}

static bool foot_is_on(const struct search *s, long i)
{
    return s->row[i].value[s->foot] >= s->foot_on;
}

/* The first row of the foot's being on that a row lies in. */
static long foot_begins(const struct search *s, long at)
{
    while (at > 0 && foot_is_on(s, at - 1))
        at--;
    return at;
}

/* ---- what is wrong with a stop --------------------------------------------------------------- */

static void flag(struct brake_drive_stop *stop, unsigned flag, long row)
{
    if (stop->flags == 0 || stop->flags == BRAKE_STOP_BEGUN)
        stop->flagged = row;
    stop->flags |= flag;
}

static void look_for_gaps(const struct search *s, struct brake_drive_stop *stop)
{
    const long lead = row_before(s, stop->first, LEAD);
    for (long i = lead; i < stop->last; i++) {
        const double interval = time_at(s, i + 1) - time_at(s, i);
        if (interval > GAP * s->interval && interval > SHORT_GAP)
            flag(stop, BRAKE_STOP_GAP, i + 1);
    }
}

/* Falls that no tyre gives, rises that no brake does; one after the other is a wheel that locks. */
static void look_for_jumps(const struct search *s, struct brake_drive_stop *stop)
{
    const double noise = SIGMAS * rough_noise(s, stop->first, stop->last) * sqrt(2.0);
    long fell = 0; /* none: it takes a row before to fall from */
    bool back = false;
    for (long i = stop->first; i < stop->last; i++) {
        const long next = row_after(s, i, LEAP);
        const double interval = time_at(s, next) - time_at(s, i);
        const double change = speed_at(s, next) - speed_at(s, i);
        if (-change > TYRES * interval + noise) {
            fell = fell == 0 ? i + 1 : fell;
        } else if (change > fmax(0.5 * ENGINE * interval + noise, 0.5)) {
            flag(stop, fell != 0 ? BRAKE_STOP_WHEEL_LOCK : BRAKE_STOP_JUMP,
                 fell != 0 ? fell : i + 1);
            back = true;
        } else if (back) {
            fell = 0;
            back = false;
        }
    }
    if (fell != 0 && !back)
        flag(stop, BRAKE_STOP_JUMP, fell);
}

/* ---- initial speed --------------------------------------------------------------------------- */

/* When the log shows the speed that the vehicle had as the foot came on, between two rows. */
static double begins_of(const struct search *s, const struct brake_drive_stop *stop)
{
    return 0.5 * (time_at(s, stop->first) + time_at(s, stop->first - 1)) +
           (has_foot(s) ? s->day->lag.value : 0.0);
}

/* A line through the rows ahead of the stop, at the moment when it begins. */
static void measure_initial(const struct search *s, struct brake_drive_stop *stop)
{
    struct brake_smooth line;
    double value[BRAKE_SMOOTH_TERMS];
    double unused[BRAKE_SMOOTH_TERMS];
    long lead = row_before(s, stop->first, LEAD);
    if (lead > stop->first - 3)
        lead = stop->first - 3;
    stop->initial.value = speed_at(s, stop->first);
    stop->initial.half = BRAKE_P95 * brake_noise_of_row(&s->noise);
    if (lead < 0 || !brake_smooth_fit(s->row, lead, stop->first - 1, 2, &line))
        return;
    const double begins = begins_of(s, stop);
    brake_smooth_terms(&line, begins, value, unused);
    stop->initial.value = brake_smooth_at(&line, begins);
    stop->initial.half = BRAKE_P95 * brake_noise_of_curve(&s->noise, &line, value);
}

/* ---- mean fully developed deceleration ------------------------------------------------------ */

/* When the curve passes a speed, by Newton from the straight line; NaN when it does not. */
static double passes(const struct brake_smooth *curve, double speed)
{
    double time = curve->middle;
    for (int i = 0; i < 50; i++) {
        const double step =
            (brake_smooth_at(curve, time) - speed) / brake_smooth_slope(curve, time);
        time -= step;
        if (fabs(step) < 1e-12 * curve->reach)
            break;
    }
    const bool near = fabs(time - curve->middle) < 2.0 * curve->reach;
    return near && brake_smooth_slope(curve, time) < 0.0 ? time : BRAKE_NAN;
}

/* More rows carry a more bent curve. */
static bool fit_rows(const struct search *s, long first, long last, struct brake_smooth *curve)
{
    const long points = last - first + 1;
    int terms = 4;
    if (points < BRAKE_STOP_POINTS)
        return false;
    if (points < 16)
        terms = points < 8 ? 2 : 3;
    return brake_smooth_fit(s->row, first, last, terms, curve);
}

/* Fitted again with the rows between the two passings: noise may have kept out a row at the
 * edge. */
static bool fit_band(const struct search *s, struct brake_drive_stop *stop, double begin,
                     double end, struct brake_smooth *curve)
{
    long first = stop->first;
    long last = stop->last;
    while (last > first && speed_at(s, last - 1) < end)
        last--;
    while (first < last && speed_at(s, first) > begin)
        first++;
    last -= last > first;
    for (int round = 0; round < 3; round++) {
        stop->points = (int)(last - first) + 1;
        if (!fit_rows(s, first, last, curve))
            return false;
        const double from = passes(curve, begin);
        const double to = passes(curve, end);
        if (!(to > from))
            return false;
        first = stop->first;
        while (first < stop->last && time_at(s, first) < from)
            first++;
        last = stop->last;
        while (last > first && time_at(s, last) > to)
            last--;
    }
    return true;
}

/* Mean of another column over the way between two moments, as d_m is one; NaN cells are passed
 * over. */
static double mean_of(const struct search *s, const struct brake_drive_stop *stop, int column,
                      const double span[2])
{
    double sum = 0.0;
    double weight = 0.0;
    for (long i = stop->first; i <= stop->last; i++) {
        const double value = s->row[i].value[column];
        if (isnan(value) || time_at(s, i) < span[0] || time_at(s, i) > span[1])
            continue;
        sum += value * speed_at(s, i);
        weight += speed_at(s, i);
    }
    return weight > 0.0 ? sum / weight : BRAKE_NAN;
}

/* The way between the two passings moves with the curve itself and with when it passes. */
static void measure_developed(const struct search *s, struct brake_drive_stop *stop,
                              const struct brake_smooth *curve)
{
    const double begin = 0.8 * stop->initial.value;
    const double end = 0.1 * stop->initial.value;
    const double span[2] = {passes(curve, begin), passes(curve, end)};
    double value[2][BRAKE_SMOOTH_TERMS];
    double integral[2][BRAKE_SMOOTH_TERMS];
    double gradient[BRAKE_SMOOTH_TERMS];
    double way = 0.0;
    for (int i = 0; i < 2; i++)
        brake_smooth_terms(curve, span[i], value[i], integral[i]);
    for (int k = 0; k < curve->terms; k++) {
        gradient[k] = integral[1][k] - integral[0][k];
        way += curve->c[k] * gradient[k];
        gradient[k] += begin * value[0][k] / brake_smooth_slope(curve, span[0]) -
                       end * value[1][k] / brake_smooth_slope(curve, span[1]);
    }
    stop->developed.value = brake_mfdd(begin, end, way);
    stop->developed.half =
        BRAKE_P95 * stop->developed.value / way * brake_noise_of_curve(&s->noise, curve, gradient);
    stop->pedal_force = mean_of(s, stop, BRAKE_LOG_PEDAL_FORCE, span);
    stop->pressure = mean_of(s, stop, BRAKE_LOG_PRESSURE, span);
    stop->indicated = mean_of(s, stop, BRAKE_LOG_DECELERATION, span);
    stop->grade = mean_of(s, stop, BRAKE_LOG_GRADE, span);
}

/* ---- distance ------------------------------------------------------------------------------- */

/* Trapezia from a moment to the last moving row, then to rest at the developed deceleration.
 * Variance: of the noise of the rows by their weights; of two bends between rows, a h^2/8 at most
 * each; of the moment, of which `uncertainty` is the standard deviation. */
static void measure_distance(const struct search *s, struct brake_drive_stop *stop, double begins,
                             double uncertainty)
{
    struct brake_noise_sum noise = {.variance = 0.0};
    const double slowing_down = stop->developed.value;
    const double speed = stop->initial.value;
    long last = stop->last;
    while (speed_at(s, last) <= STANDING) /* the first row is faster */
        last--;
    const double rest = speed_at(s, last) / slowing_down;
    double time = begins;
    double from = speed;
    double sum = 0.5 * speed_at(s, last) * rest;
    for (long i = stop->first; i <= last; i++) {
        const double interval = time_at(s, i) - time;
        if (interval <= 0.0)
            continue;
        sum += 0.5 * (from + speed_at(s, i)) * interval;
        time = time_at(s, i);
        from = speed_at(s, i);
        brake_noise_add(&s->noise, time, interval + (i == last ? rest : 0.0), &noise);
    }
    const double bend = slowing_down * s->interval * s->interval / 8.0;
    const double moment = uncertainty * speed;
    stop->distance.value = sum;
    stop->distance.half =
        BRAKE_P95 * sqrt(noise.variance + moment * moment + 2.0 * bend * bend / 3.0);
}

static double nominal_of(const struct brake_nominal *nominal, double speed)
{
    const double ten = 10.0 / 3.6;
    double nearest = nominal->count > 0 ? nominal->speed[0] : ten * fmax(1.0, round(speed / ten));
    for (int i = 1; i < nominal->count; i++) {
        if (fabs(nominal->speed[i] - speed) < fabs(nearest - speed))
            nearest = nominal->speed[i];
    }
    return nearest;
}

/* The initial speed is squared in the correction, and moves with the distance by its own
 * uncertainty. */
static void correct(const struct search *s, struct brake_drive_stop *stop)
{
    const double speed = stop->initial.value;
    stop->nominal = nominal_of(s->nominal, speed);
    stop->corrected.value = brake_distance_corrected(stop->distance.value, speed, stop->nominal);
    stop->corrected.half = stop->corrected.value * hypot(stop->distance.half / stop->distance.value,
                                                         2.0 * stop->initial.half / speed);
}

/* ---- one stop ------------------------------------------------------------------------------- */

static void forget(struct brake_drive_stop *stop)
{
    const struct brake_measured unknown = {BRAKE_NAN, BRAKE_NAN};
    stop->distance = stop->corrected = stop->developed = stop->predicted = unknown;
    stop->nominal = stop->indicated = stop->pedal_force = stop->pressure = stop->grade = BRAKE_NAN;
}

/* With a foot that tells, the stop begins between the last row without it and the first with it. */
static void measure_from_foot(const struct search *s, struct brake_drive_stop *stop,
                              const struct brake_smooth *curve)
{
    measure_developed(s, stop, curve);
    if (stop->flags & BRAKE_STOP_BEGUN) {
        stop->nominal = nominal_of(s->nominal, stop->initial.value);
        return;
    }
    const double between = time_at(s, stop->first) - time_at(s, stop->first - 1);
    measure_distance(s, stop, begins_of(s, stop),
                     hypot(between / sqrt(12.0), s->day->lag.half / BRAKE_P95));
    correct(s, stop);
}

/* Without, it begins where the curve, drawn on, meets the initial speed. */
static void measure_from_speed(const struct search *s, struct brake_drive_stop *stop,
                               const struct brake_smooth *curve)
{
    measure_developed(s, stop, curve);
    const double begin = passes(curve, 0.8 * stop->initial.value);
    const double developed = stop->developed.value;
    struct brake_drive_stop rest = *stop;
    rest.initial.value = 0.8 * stop->initial.value;
    measure_distance(s, &rest, begin, 0.0);
    stop->distance.value =
        rest.distance.value + 0.18 * stop->initial.value * stop->initial.value / developed;
    stop->distance.half =
        hypot(rest.distance.half,
              stop->distance.value * hypot(stop->developed.half / developed,
                                           2.0 * stop->initial.half / stop->initial.value));
    correct(s, stop);
}

/* What is wrong with a stop, and a curve through its rows where nothing is. */
static void look_at(const struct search *s, struct brake_drive_stop *stop,
                    struct brake_smooth *curve)
{
    forget(stop);
    look_for_gaps(s, stop);
    look_for_jumps(s, stop);
    measure_initial(s, stop);
    for (int axle = 0; axle < BRAKE_AXLES; axle++)
        stop->temperature[axle] = s->row[stop->first].value[BRAKE_LOG_FRONT_TEMPERATURE + axle];
    stop->heading = s->row[stop->first].value[BRAKE_LOG_HEADING];
    if (!brake_drive_counts(stop))
        return;
    if (!fit_band(s, stop, 0.8 * stop->initial.value, 0.1 * stop->initial.value, curve)) {
        flag(stop, BRAKE_STOP_COARSE, stop->first);
        curve->terms = 0;
    }
}

static void measure(const struct search *s, struct brake_drive_stop *stop,
                    const struct brake_smooth *curve)
{
    stop->noise = brake_noise_of_row(&s->noise);
    measure_initial(s, stop);
    if (has_foot(s))
        measure_from_foot(s, stop, curve);
    else
        measure_from_speed(s, stop, curve);
    if (!(stop->developed.half <= COARSE * stop->developed.value))
        flag(stop, BRAKE_STOP_COARSE, stop->first);
    if (stop->developed.value - stop->developed.half > TYRES)
        flag(stop, BRAKE_STOP_JUMP, stop->first);
}

/* ---- the whole log -------------------------------------------------------------------------- */

bool brake_drive_counts(const struct brake_drive_stop *stop)
{
    return (stop->flags & ~(unsigned)BRAKE_STOP_BEGUN) == 0;
}

/* First row of a stop that ends in a standing row. */
static long begins_at(const struct search *s, long last, struct brake_drive_stop *stop)
{
    long first = onset(s, last);
    if (has_foot(s)) {
        long on = first;
        while (on < last && !foot_is_on(s, on))
            on++;
        first = on < last ? foot_begins(s, on) : first;
    }
    if (first == 0)
        flag(stop, BRAKE_STOP_BEGUN, 0);
    return first;
}

static enum brake_status add_stop(const struct search *s, long last, struct brake_drive *drive,
                                  struct brake_smooth *curve)
{
    struct brake_drive_stop stop;
    memset(&stop, 0, sizeof stop);
    stop.last = last;
    stop.first = begins_at(s, last, &stop);
    if (!(speed_at(s, stop.first) > LEAST_SPEED))
        return BRAKE_OK;
    if (slowing(s, stop.first, last) < GENTLE) {
        drive->gentle++;
        return BRAKE_OK;
    }
    if (drive->stops == BRAKE_DRIVE_STOPS)
        return BRAKE_E_SIZE;
    look_at(s, &stop, &curve[drive->stops]);
    drive->stop[drive->stops++] = stop;
    return BRAKE_OK;
}

static void choose_foot(struct search *s)
{
    static const int columns[] = {BRAKE_LOG_PEDAL_FORCE, BRAKE_LOG_PRESSURE};
    const double on[] = {PEDAL_ON, PRESSURE_ON};
    s->foot = NO_FOOT;
    for (int c = 0; c < 2 && !has_foot(s); c++) {
        for (long i = 0; i < s->rows && !has_foot(s); i++)
            s->foot = s->row[i].value[columns[c]] >= on[c] ? columns[c] : NO_FOOT;
        s->foot_on = on[c];
    }
}

static struct brake_repeat *group_of(struct brake_drive *drive, double nominal)
{
    for (int g = 0; g < drive->repeats; g++) {
        if (fabs(drive->repeat[g].nominal - nominal) < 1e-9)
            return &drive->repeat[g];
    }
    if (drive->repeats == BRAKE_DRIVE_SPEEDS)
        return NULL;
    const struct brake_repeat empty = {.nominal = nominal,
                                       .least = {BRAKE_INFINITY, BRAKE_INFINITY},
                                       .most = {-BRAKE_INFINITY, -BRAKE_INFINITY}};
    drive->repeat[drive->repeats] = empty;
    return &drive->repeat[drive->repeats++];
}

/* Mean and sum of squares are carried on from stop to stop (Welford). */
static void add_to_group(struct brake_repeat *group, const struct brake_drive_stop *stop)
{
    const double value[2] = {stop->developed.value, stop->corrected.value};
    group->stops++;
    for (int k = 0; k < 2; k++) {
        const double step = value[k] - group->mean[k];
        group->mean[k] += step / group->stops;
        group->spread[k] += step * (value[k] - group->mean[k]);
        group->least[k] = fmin(group->least[k], value[k]);
        group->most[k] = fmax(group->most[k], value[k]);
    }
}

static enum brake_status repeatability(struct brake_drive *drive)
{
    for (int i = 0; i < drive->stops; i++) {
        const struct brake_drive_stop *stop = &drive->stop[i];
        if (stop->flags != 0)
            continue;
        struct brake_repeat *group = group_of(drive, stop->nominal);
        if (group == NULL)
            return BRAKE_E_SIZE;
        add_to_group(group, stop);
    }
    for (int g = 0; g < drive->repeats; g++) {
        struct brake_repeat *group = &drive->repeat[g];
        for (int k = 0; k < 2; k++)
            group->spread[k] =
                group->stops > 1 ? sqrt(group->spread[k] / (group->stops - 1)) : BRAKE_NAN;
    }
    return BRAKE_OK;
}

static enum brake_status find_stops(const struct search *s, struct brake_drive *drive,
                                    struct brake_smooth *curve)
{
    bool moving = false;
    for (long i = 0; i < s->rows; i++) {
        moving = moving || speed_at(s, i) > LEAST_SPEED;
        if (!moving || speed_at(s, i) > STANDING)
            continue;
        const long locked = comes_back(s, i);
        if (locked != 0) {
            i = locked;
            continue;
        }
        moving = false;
        const enum brake_status status = add_stop(s, i, drive, curve);
        if (status != BRAKE_OK)
            return status;
    }
    return BRAKE_OK;
}

enum brake_status brake_drive_measure(const struct brake_log_row *row, long rows,
                                      const struct brake_nominal *nominal,
                                      const struct brake_drive_day *day, struct brake_drive *drive)
{
    struct search s = {.row = row, .rows = rows, .day = day, .nominal = nominal};
    struct brake_smooth curve[BRAKE_DRIVE_STOPS];
    memset(drive, 0, sizeof *drive);
    memset(curve, 0, sizeof curve);
    drive->day = *day;
    if (rows < 2)
        return BRAKE_OK;
    s.interval = median_interval(&s);
    choose_foot(&s);
    drive->interval = s.interval;
    drive->timed = has_foot(&s);
    const enum brake_status status = find_stops(&s, drive, curve);
    if (status != BRAKE_OK)
        return status;
    brake_noise_find(curve, drive->stops, &s.noise);
    for (int i = 0; i < drive->stops; i++) {
        if (curve[i].terms > 0)
            measure(&s, &drive->stop[i], &curve[i]);
        drive->counted += brake_drive_counts(&drive->stop[i]);
    }
    return repeatability(drive);
}
