/* SPDX-License-Identifier: MIT */
#include "brake/cooldown.h"

#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "brake/rig.h"
#include "pair_fit.h"
#include "stops.h"
#include "vehicle/text.h"

/* All common practice, no source. */
static const double LEAST_HEAT = 60.0; /* [K] over the air when the log begins */
static const double LEAST_FALL = 0.2;  /* [-] of that */
static const double RISE = 5.0;        /* [K] and three times the scatter: braked */
static const double BELOW_AIR = 5.0;   /* [K] */
static const double BRAKED = 2.0;      /* [m/s2] more than engine and air take */
/* [-] of the factor, 90 of 100: what even heating leaves of how brakes are heated; measured, see
 * reference/method.md, section 8. */
static const double HISTORY = 0.05;
static const double AIR_HALF = 2.0; /* [K] by which heat.ambient, or the sensor, may be off */
static const double PASSES = 2.71;  /* 90 of 100 of chi square, one degree of freedom */
static const double HEATED[] = {30.0, 60.0, 120.0, 300.0, 600.0, 1200.0, 2400.0}; /* [s] */

enum { SPANS = BRAKE_PAIR_POINTS, LEAST_SPANS = 12, HISTORIES = 7 };

/* A mean over a span of time. */
struct span {
    double time, speed, temperature;
    int line; /* of its first row */
};

struct cooling {
    struct brake_vehicle vehicle;
    struct brake_hot_rig *hot; /* that of the model asked last */
    int axle;
    double heated; /* [s] */
    struct span span[SPANS];
    int spans;
    double measured[SPANS]; /* [K] */
};

struct room {
    struct cooling cooling;
    struct brake_hot_rig hot; /* it is large */
};

__attribute__((format(printf, 5, 6))) static enum brake_status refuse(struct brake_error *error,
                                                                      enum brake_status status,
                                                                      int line, const char *field,
                                                                      const char *format, ...)
{
    va_list list;
    *error = (struct brake_error){.status = status, .line = line};
    brake_text_format(error->field, sizeof error->field, "%s", field);
    va_start(list, format);
    brake_text_format_list(error->text, sizeof error->text, format, list);
    va_end(list);
    return status;
}

/* ---- the spans ------------------------------------------------------------------------------ */

static int column_of(int axle)
{
    return axle == BRAKE_FRONT ? BRAKE_LOG_FRONT_TEMPERATURE : BRAKE_LOG_REAR_TEMPERATURE;
}

static const char *name_of(int axle)
{
    return axle == BRAKE_FRONT ? "front_temperature" : "rear_temperature";
}

/* Row at which an axle is hottest; -1: it is not logged. */
static long hottest(const struct brake_log_row *row, long rows, int axle)
{
    long most = -1;
    for (long i = 0; i < rows; i++) {
        const double *value = row[i].value;
        if (!isnan(value[column_of(axle)]) &&
            (most < 0 || value[column_of(axle)] > row[most].value[column_of(axle)]))
            most = i;
    }
    return most;
}

/* Means over equal spans of time; a span without a reading is passed over. */
static void take_spans(struct cooling *c, const struct brake_log_row *row, long first, long rows)
{
    const double begin = row[first].value[BRAKE_LOG_TIME];
    const double each = (row[rows - 1].value[BRAKE_LOG_TIME] - begin) / SPANS;
    c->spans = 0;
    for (long i = first; i < rows && c->spans < SPANS;) {
        const double end =
            begin + each * (floor((row[i].value[BRAKE_LOG_TIME] - begin) / each) + 1);
        struct span sum = {.line = row[i].line};
        int count = 0;
        do {
            const double *value = row[i].value;
            if (!isnan(value[column_of(c->axle)])) {
                sum.time += value[BRAKE_LOG_TIME];
                sum.speed += fmax(0.0, value[BRAKE_LOG_SPEED]);
                sum.temperature += value[column_of(c->axle)];
                count++;
            }
        } while (++i < rows && (row[i].value[BRAKE_LOG_TIME] < end || i == rows - 1));
        if (count > 0)
            c->span[c->spans++] = (struct span){sum.time / count, sum.speed / count,
                                                sum.temperature / count, sum.line};
    }
    for (int i = 0; i < c->spans; i++)
        c->measured[i] = c->span[i].temperature;
}

/* ---- logs that tell nothing ----------------------------------------------------------------- */

static enum brake_status check_foot(const struct brake_log_row *row, long first, long rows,
                                    struct brake_error *error)
{
    for (long i = first; i < rows; i++) {
        if (brake_foot_on(&row[i]))
            return refuse(
                error, BRAKE_E_FIT, row[i].line, "",
                "the foot is on the brake; a cool-down needs the brakes off: cut the log");
    }
    return BRAKE_OK;
}

/* [K] by which neighbours scatter about the line through those beside them. */
static double scatter_of(const struct cooling *c)
{
    double sum = 0.0;
    for (int i = 1; i + 1 < c->spans; i++) {
        const double off = c->measured[i] - 0.5 * (c->measured[i - 1] + c->measured[i + 1]);
        sum += off * off / 1.5;
    }
    return sqrt(sum / (c->spans - 2));
}

static enum brake_status check_fall(const struct cooling *c, struct brake_error *error)
{
    const double most = RISE + 3.0 * scatter_of(c);
    double lowest = c->measured[0];
    for (int i = 1; i < c->spans; i++) {
        const struct span *span = &c->span[i];
        const double slowed = (span[-1].speed - span->speed) / (span->time - span[-1].time);
        if (slowed > BRAKED)
            return refuse(
                error, BRAKE_E_FIT, span->line, "speed",
                "falls by %.3g m/s2, more than engine and air take; a cool-down needs the "
                "brakes off: cut the log",
                slowed);
        if (c->measured[i] > lowest + most)
            return refuse(
                error, BRAKE_E_FIT, span->line, name_of(c->axle),
                "rises by %.0f K while it should fall: the brakes were used there; cut the "
                "log",
                c->measured[i] - lowest);
        lowest = fmin(lowest, c->measured[i]);
    }
    return BRAKE_OK;
}

static enum brake_status check_spans(const struct cooling *c, struct brake_error *error)
{
    const double air = c->vehicle.heat.ambient;
    const char *name = name_of(c->axle);
    if (c->spans < LEAST_SPANS)
        return refuse(
            error, BRAKE_E_FIT, c->span[0].line, name,
            "has %d readings from its hottest on; %d are the least: a log is too short that "
            "ends when the brakes are let off",
            c->spans, LEAST_SPANS);
    const double heat = c->measured[0] - air;
    const double fall = c->measured[0] - c->measured[c->spans - 1];
    if (!(heat >= LEAST_HEAT))
        return refuse(
            error, BRAKE_E_FIT, c->span[0].line, name,
            "is %.0f K over the air (heat.ambient) when it begins to fall; %.0f K are the "
            "least: heat the brakes first",
            heat, LEAST_HEAT);
    const enum brake_status status = check_fall(c, error);
    if (status != BRAKE_OK)
        return status;
    if (!(fall >= LEAST_FALL * heat))
        return refuse(error, BRAKE_E_FIT, c->span[c->spans - 1].line, name,
                      "fell by %.0f K of %.0f K over the air; %.0f K are the least: log for longer",
                      fall, heat, LEAST_FALL * heat);
    if (c->measured[c->spans - 1] < air - BELOW_AIR)
        return refuse(error, BRAKE_E_FIT, c->span[c->spans - 1].line, name,
                      "falls below heat.ambient, which is not the air of that day then");
    return BRAKE_OK;
}

/* ---- the model ------------------------------------------------------------------------------ */

/* From the air on: heated at an even power, then without. */
static bool heat_up(const struct cooling *c, double power, struct brake_thermal_state *state)
{
    const double air = c->vehicle.heat.ambient;
    const double speed = c->span[0].speed;
    const struct brake_thermal_drive drive = {power, power, speed, speed, air};
    const struct brake_thermal *thermal = &c->hot->thermal[c->axle];
    return brake_thermal_start(thermal, air, state) == BRAKE_OK &&
           brake_thermal_advance(thermal, &drive, c->heated, state) == BRAKE_OK;
}

/* Mean temperatures of the wall by the logarithms of the factor and of the power. */
static bool cool_down(const void *context, const double pair[2], double *temperature)
{
    const struct cooling *c = context;
    struct brake_vehicle vehicle = c->vehicle;
    struct brake_error error;
    struct brake_thermal_state state;
    vehicle.heat.cooling = exp(pair[0]);
    if (brake_hot_rig_build(&vehicle, BRAKE_EMPTY, c->hot, &error) != BRAKE_OK ||
        !heat_up(c, exp(pair[1]), &state))
        return false;
    const struct brake_thermal *thermal = &c->hot->thermal[c->axle];
    temperature[0] = brake_thermal_mean(thermal, &state);
    for (int i = 1; i < c->spans; i++) {
        const struct span *to = &c->span[i];
        const struct brake_thermal_drive drive = {0.0, 0.0, to[-1].speed, to->speed,
                                                  c->vehicle.heat.ambient};
        if (brake_thermal_advance(thermal, &drive, to->time - to[-1].time, &state) != BRAKE_OK)
            return false;
        temperature[i] = brake_thermal_mean(thermal, &state);
    }
    return true;
}

/* ---- the fit -------------------------------------------------------------------------------- */

/* Half of ln c that 90 of 100 lie within, the air aside. */
static double half_of(const struct brake_pair_fit *fit, int spans)
{
    const double counts = brake_pair_counts(fit, spans);
    return brake_student_95((int)fmax(1.0, floor(counts - 2.0))) * fit->sigma;
}

/* A start near enough: the power that brings a factor of 0.65 to the first temperature, from a
 * trial that takes heat as proportional to it. */
static bool guess(const struct cooling *c, struct brake_pair_fit *fit)
{
    double trial[SPANS];
    *fit = (struct brake_pair_fit){
        .pair = {log(0.65), log(2000.0)}, .least = log(0.02), .most = log(2.0)};
    if (!cool_down(c, fit->pair, trial))
        return false;
    const double air = c->vehicle.heat.ambient;
    fit->pair[1] += log((c->measured[0] - air) / (trial[0] - air));
    return true;
}

static bool fit_one(struct cooling *c, double heated, struct brake_pair_fit *fit)
{
    c->heated = heated;
    return guess(c, fit) && brake_pair_fit(cool_down, c, c->measured, c->spans, fit);
}

/* By how much ln c moves when the air was warmer than stated. */
static double moved_by_air(struct cooling *c, const struct brake_pair_fit *fit)
{
    struct brake_pair_fit warmer = *fit;
    c->vehicle.heat.ambient += AIR_HALF;
    const bool fitted = brake_pair_fit(cool_down, c, c->measured, c->spans, &warmer);
    c->vehicle.heat.ambient -= AIR_HALF;
    return fitted ? fabs(warmer.pair[0] - fit->pair[0]) : 0.0;
}

static void hold(struct cooling *c, const struct brake_pair_fit fit[HISTORIES], int best,
                 struct brake_cooldown_axle *axle)
{
    const double counts = brake_pair_counts(&fit[best], c->spans);
    c->heated = HEATED[best];
    const double air = moved_by_air(c, &fit[best]);
    double low = fit[best].pair[0];
    double high = low;
    for (int i = 0; i < HISTORIES; i++) {
        if (!(counts * log(fit[i].squares / fit[best].squares) <= PASSES))
            continue;
        const double half = hypot(half_of(&fit[i], c->spans), hypot(air, HISTORY));
        low = fmin(low, fit[i].pair[0] - half);
        high = fmax(high, fit[i].pair[0] + half);
    }
    axle->cooling = exp(fit[best].pair[0]);
    axle->low = exp(low);
    axle->high = exp(high);
    axle->scatter = sqrt(fit[best].squares / (c->spans - 2));
    axle->heated = HEATED[best];
}

static enum brake_status fit_axle(struct cooling *c, struct brake_cooldown_axle *axle,
                                  struct brake_error *error)
{
    struct brake_pair_fit fit[HISTORIES];
    int best = -1;
    for (int i = 0; i < HISTORIES; i++) {
        if (!fit_one(c, HEATED[i], &fit[i]))
            fit[i].squares = BRAKE_NAN;
        else if (best < 0 || fit[i].squares < fit[best].squares)
            best = i;
    }
    const bool inside = best >= 0 && fit[best].pair[0] > fit[best].least + 1e-6 &&
                        fit[best].pair[0] < fit[best].most - 1e-6;
    if (!inside)
        return refuse(
            error, BRAKE_E_FIT, c->span[0].line, name_of(c->axle),
            "cools as no factor from 0.02 to 2 makes this rotor or drum cool; are its mass, "
            "heat.ambient and the sensor right?");
    hold(c, fit, best, axle);
    return BRAKE_OK;
}

static void describe(const struct cooling *c, struct brake_cooldown_axle *axle)
{
    const struct span *last = &c->span[c->spans - 1];
    double way = 0.0;
    for (int i = 1; i < c->spans; i++)
        way += 0.5 * (c->span[i].speed + c->span[i - 1].speed) *
               (c->span[i].time - c->span[i - 1].time);
    axle->logged = true;
    axle->from = c->measured[0];
    axle->to = c->measured[c->spans - 1];
    axle->begin = c->span[0].time;
    axle->duration = last->time - c->span[0].time;
    axle->speed = way / axle->duration;
}

static enum brake_status take_axle(struct cooling *c, const struct brake_log_row *row, long rows,
                                   struct brake_cooldown_axle *axle, struct brake_error *error)
{
    const long first = hottest(row, rows, c->axle);
    if (first < 0)
        return BRAKE_OK;
    enum brake_status status = check_foot(row, first, rows, error);
    take_spans(c, row, first, rows);
    if (status == BRAKE_OK)
        status = check_spans(c, error);
    if (status != BRAKE_OK)
        return status;
    describe(c, axle);
    return fit_axle(c, axle, error);
}

/* ---- both axles ----------------------------------------------------------------------------- */

static void join(struct brake_cooldown *r)
{
    const struct brake_cooldown_axle *front = &r->axle[BRAKE_FRONT];
    const struct brake_cooldown_axle *rear = &r->axle[BRAKE_REAR];
    const struct brake_cooldown_axle *one =
        !rear->logged || (front->logged && front->cooling < rear->cooling) ? front : rear;
    r->differ =
        front->logged && rear->logged && (front->high < rear->low || rear->high < front->low);
    r->cooling = one->cooling;
    r->low = one->low;
    r->high = one->high;
    if (!front->logged || !rear->logged || r->differ)
        return;
    const double half[] = {0.5 * log(front->high / front->low), 0.5 * log(rear->high / rear->low)};
    const double weight[] = {1.0 / (half[0] * half[0]), 1.0 / (half[1] * half[1])};
    const double middle = (weight[0] * log(front->cooling) + weight[1] * log(rear->cooling)) /
                          (weight[0] + weight[1]);
    r->cooling = exp(middle);
    r->low = exp(middle - fmin(half[0], half[1])); /* histories and air are the same for both */
    r->high = exp(middle + fmin(half[0], half[1]));
}

static void say(struct brake_cooldown *r)
{
    const struct brake_quantity *usual =
        brake_quantity_at(brake_catalogue_find(NULL, "heat.cooling"));
    r->half = 1.96 / 1.645 * fmax(r->high - r->cooling, r->cooling - r->low);
    r->tells = 2.0 * r->half < usual->fallback * (usual->most - usual->least);
}

static enum brake_status check_air(const struct brake_sheet *sheet, struct brake_error *error)
{
    const int ambient = brake_catalogue_find(&sheet->vehicle, "heat.ambient");
    if (sheet->record[ambient].from > BRAKE_DEFAULT)
        return BRAKE_OK;
    return refuse(error, BRAKE_E_MISSING, 0, "heat.ambient",
                  "is missing: the temperature of the air on that day, such as --set "
                  "heat.ambient=18degC");
}

static enum brake_status check_rows(const struct brake_log_row *row, long rows,
                                    struct brake_error *error)
{
    if (hottest(row, rows, BRAKE_FRONT) >= 0 || hottest(row, rows, BRAKE_REAR) >= 0)
        return BRAKE_OK;
    return refuse(error, BRAKE_E_FIT, 0, "front_temperature",
                  "no such column, nor rear_temperature, with a reading; a cool-down needs one");
}

enum brake_status brake_cooldown_fit(const struct brake_sheet *sheet,
                                     const struct brake_log_row *row, long rows,
                                     struct brake_cooldown *result, struct brake_error *error)
{
    struct room *room = calloc(1, sizeof *room);
    *result = (struct brake_cooldown){.cooling = BRAKE_NAN};
    *error = (struct brake_error){.status = BRAKE_OK};
    if (room == NULL)
        return refuse(error, BRAKE_E_MEMORY, 0, "", "memory is short");
    struct cooling *c = &room->cooling;
    c->vehicle = sheet->vehicle;
    c->hot = &room->hot;
    enum brake_status status = check_air(sheet, error);
    if (status == BRAKE_OK)
        status = brake_hot_rig_build(&c->vehicle, BRAKE_EMPTY, c->hot, error);
    if (status == BRAKE_OK)
        status = check_rows(row, rows, error);
    for (c->axle = 0; status == BRAKE_OK && c->axle < BRAKE_AXLES; c->axle++)
        status = take_axle(c, row, rows, &result->axle[c->axle], error);
    if (status == BRAKE_OK) {
        join(result);
        say(result);
    }
    free(room);
    return status;
}
