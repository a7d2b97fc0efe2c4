/* SPDX-License-Identifier: MIT */
/* Friction, gain of the booster, brake factor and whatever else moves the stops of a drive, or the
 * forces on a tester, told by them together. Equations: reference/method.md, section 11. */
#include "brake/drivelog.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "distribution.h"
#include "driven.h"
#include "eigen.h"
#include "known.h"
#include "percentile.h"
#include "sobol.h"
#include "stops.h"
#include "tolerance.h"

enum {
    SAMPLES = 2048, /* of a round, and of the lines alone */
    MOST = 16384,
    STEPS = 3, /* of Gauss and Newton */
    ROUNDS = 3,
    MANY = BRAKE_DRIVE_STOPS + BRAKE_AXLES,
    DAYS = 3
};

static const double SAME = 0.02; /* [-] by which like stops of one vehicle differ, as a standard
                                     deviation: common practice, no source */
static const double TELLS = 0.1; /* standard deviations that a score must move a stop by */
static const double RARE = 0.01;
static const double ROLLERS = 0.05; /* [-] by which all forces of a tester are off, cold pads at a
                                       walking pace against a stop, as a standard deviation: common
                                       practice, no source */

struct identifying {
    struct brake_inputs inputs;
    struct brake_sobol sobol;
    const struct brake_loaded_drive *driven; /* drives, and how the vehicle was loaded in each */
    int drives;
    enum brake_axle axle[BRAKE_AXLES];         /* of the forces of the tester, which stand first */
    const struct brake_drive_stop *stop[MANY]; /* behind them; those that the tyres limited last */
    int of[MANY];                              /* the drive of each stop; -1: of none */
    int forces;
    int readings; /* forces and stops */
    int bounds;
    double scale;            /* [1/kg] that makes decelerations of the forces */
    double measured[MANY];   /* [m/s2] */
    double own[MANY];        /* [m/s2] standard deviation of it, by itself */
    double start[MANY];      /* [m/s2] predicted by the lines as they stand */
    double variance[MANY];   /* [m2/s4] of the difference, by itself */
    double day[DAYS][MANY];  /* [m/s2] by which grade, gauge and tester are off, in all of a drive
                                together */
    double root[MANY][MANY]; /* Cholesky factor of the covariance of the differences */
    double slope[MANY][BRAKE_INPUTS];
    int directions;
    double basis[KNOWN_SIZE][BRAKE_INPUTS]; /* orthonormal, of the scores that the stops tell of */
    double middle[KNOWN_SIZE];              /* of the coordinates in it */
    double spread[KNOWN_SIZE][KNOWN_SIZE];  /* covariance of them */
    double at[MOST][KNOWN_SIZE];            /* coordinates of each sample */
    double weight[MOST];                    /* its logarithm at first */
};

static int fitted(const struct identifying *id)
{
    return id->readings - id->bounds;
}

/* What of a day of measuring is off by its standard deviation. */
enum off { NOTHING, GRADE, GAUGE };

static struct brake_drive_day day_of(const struct brake_drive *drive, enum off off)
{
    struct brake_drive_day day = drive->day;
    day.grade.value += off == GRADE ? day.grade.half / BRAKE_P95 : 0.0;
    day.gauge.value += off == GAUGE ? day.gauge.half / BRAKE_P95 : 0.0;
    return day;
}

/* ---- prediction ----------------------------------------------------------------------------- */

static void predict_forces(const struct identifying *id, const struct brake_vehicle *vehicle,
                           double *value)
{
    struct brake_system system;
    brake_system_build(vehicle, (enum brake_load)vehicle->tester.load, BRAKE_INTACT, &system);
    const double pressure = brake_system_pressure(&system, vehicle->tester.pedal_force);
    for (int i = 0; i < id->forces; i++) {
        const enum brake_axle axle = id->axle[i];
        value[i] = id->scale * brake_axle_torque(&system.balance, axle, pressure) /
                   system.balance.axle[axle].radius;
    }
}

/* The stops of one drive. */
static void predict_drive(const struct identifying *id, int number,
                          const struct brake_vehicle *vehicle, enum off off, double *value)
{
    struct brake_system system;
    const struct brake_loaded_drive *driven = &id->driven[number];
    const struct brake_drive_day day = day_of(driven->drive, off);
    brake_system_build(vehicle, driven->load, BRAKE_INTACT, &system);
    for (int i = id->forces; i < id->readings; i++) {
        if (id->of[i] == number)
            value[i] = brake_drive_predict(driven->drive, &day, vehicle->heat.drag_area, &system,
                                           id->stop[i], BRAKE_DRIVE_GRIP);
    }
}

static void predict(const struct identifying *id, const struct brake_vehicle *vehicle, enum off off,
                    double *value)
{
    predict_forces(id, vehicle, value);
    for (int d = 0; d < id->drives; d++)
        predict_drive(id, d, vehicle, off, value);
}

static void predict_scores(const struct identifying *id, const double *score, double *value)
{
    struct brake_vehicle vehicle;
    double share[BRAKE_INPUTS];
    double factor[BRAKE_MODEL_ERRORS];
    for (int k = 0; k < brake_inputs_count(&id->inputs); k++)
        share[k] = brake_normal_share(score[k]);
    brake_inputs_vehicle(&id->inputs, share, &vehicle);
    brake_inputs_model(&id->inputs, share, factor);
    predict(id, &vehicle, NOTHING, value);
    for (int i = id->forces; i < id->readings; i++)
        value[i] *= factor[BRAKE_MODEL_STOP];
}

/* ---- forces ---------------------------------------------------------------------------------- */

/* Both wheels of an axle were read at a known pedal force. */
static void take_force(struct identifying *id, enum brake_axle axle, const char *left,
                       const char *right)
{
    const struct brake_sheet *sheet = id->inputs.sheet;
    const int line[2] = {brake_catalogue_find(NULL, left), brake_catalogue_find(NULL, right)};
    double squares = 0.0;
    double sum = 0.0;
    for (int i = 0; i < 2; i++) {
        const double sigma = sheet->record[line[i]].tolerance / 1.96; /* 95 of 100 */
        sum += brake_quantity_value(&sheet->vehicle, line[i]);
        squares += sigma * sigma;
    }
    if (!(sum + sheet->vehicle.tester.pedal_force > 0.0))
        return;
    id->axle[id->forces] = axle;
    id->of[id->forces] = -1;
    id->measured[id->forces] = id->scale * sum;
    id->own[id->forces] = id->scale * sqrt(squares);
    id->readings = ++id->forces;
}

static void take_forces(struct identifying *id, const struct brake_vehicle *vehicle)
{
    id->scale = 1.0 / brake_vehicle_body(vehicle, BRAKE_EMPTY).mass;
    take_force(id, BRAKE_FRONT, "tester.front_left", "tester.front_right");
    take_force(id, BRAKE_REAR, "tester.rear_left", "tester.rear_right");
}

/* ---- stops ---------------------------------------------------------------------------------- */

/* Whether the tyres, not the brakes, limit the prediction of a stop on its road. */
static bool is_capped(const struct identifying *id, int i, const struct brake_vehicle *vehicle)
{
    struct brake_system system;
    const struct brake_loaded_drive *driven = &id->driven[id->of[i]];
    const struct brake_drive_day day = day_of(driven->drive, NOTHING);
    brake_system_build(vehicle, driven->load, BRAKE_INTACT, &system);
    const double road = brake_drive_predict(driven->drive, &day, vehicle->heat.drag_area, &system,
                                            id->stop[i], system.adhesion);
    return road < id->start[i] * (1.0 - 1e-9);
}

static void put_first(struct identifying *id, const bool capped[MANY])
{
    const struct brake_drive_stop *limited[MANY] = {NULL};
    int of[MANY] = {0};
    int count = id->forces;
    int bounds = 0;
    for (int i = id->forces; i < id->readings; i++) {
        const struct brake_drive_stop *stop = id->stop[i];
        if (capped[i]) {
            of[bounds] = id->of[i];
            limited[bounds++] = stop;
        } else {
            id->of[count] = id->of[i];
            id->stop[count++] = stop;
        }
    }
    for (int i = 0; i < bounds; i++) {
        id->stop[count + i] = limited[i];
        id->of[count + i] = of[i];
    }
    id->bounds = bounds;
}

static void list_stops(struct identifying *id, int number)
{
    const struct brake_drive *drive = id->driven[number].drive;
    for (int i = 0; i < drive->stops; i++) {
        const struct brake_drive_stop *stop = &drive->stop[i];
        if (!brake_drive_counts(stop) || (isnan(stop->pedal_force) && isnan(stop->pressure)))
            continue;
        id->of[id->readings] = number;
        id->stop[id->readings++] = stop;
    }
}

static void take_stops(struct identifying *id, const struct brake_vehicle *vehicle)
{
    bool capped[MANY] = {false};
    for (int d = 0; d < id->drives; d++)
        list_stops(id, d);
    predict(id, vehicle, NOTHING, id->start);
    for (int i = id->forces; i < id->readings; i++)
        capped[i] = is_capped(id, i, vehicle);
    put_first(id, capped);
    for (int i = id->forces; i < id->readings; i++) {
        id->measured[i] = id->stop[i]->developed.value;
        id->own[i] = id->stop[i]->developed.half / BRAKE_P95;
    }
    predict(id, vehicle, NOTHING, id->start);
}

/* ---- errors of measuring --------------------------------------------------------------------- */

/* How measured over predicted differs between the stops of one drive. */
static double scatter_of(const struct identifying *id, int number)
{
    int count = 0;
    double sum = 0.0;
    double squares = 0.0;
    for (int i = id->forces; i < fitted(id); i++) {
        const double ratio = id->measured[i] / id->start[i];
        if (id->of[i] != number)
            continue;
        count++;
        sum += ratio;
        squares += ratio * ratio;
    }
    const double variance = count > 2 ? (squares - sum * sum / count) / (count - 1) : 0.0;
    return sqrt(fmax(SAME * SAME, variance));
}

static void find_errors(struct identifying *id, const struct brake_vehicle *vehicle)
{
    predict(id, vehicle, GRADE, id->day[0]);
    predict(id, vehicle, GAUGE, id->day[1]);
    for (int i = 0; i < id->readings; i++) {
        const double like = (i < id->forces ? SAME : scatter_of(id, id->of[i])) * id->start[i];
        id->variance[i] = id->own[i] * id->own[i] + like * like;
        for (int d = 0; d < 2; d++)
            id->day[d][i] -= id->start[i];
        id->day[2][i] = i < id->forces ? ROLLERS * id->start[i] : 0.0;
    }
}

static double covariance(const struct identifying *id, int i, int k)
{
    double sum = i == k ? id->variance[i] : 0.0;
    for (int d = 0; d < DAYS && id->of[i] == id->of[k]; d++)
        sum += id->day[d][i] * id->day[d][k];
    return sum;
}

static void find_root(struct identifying *id)
{
    for (int i = 0; i < fitted(id); i++) {
        for (int k = 0; k <= i; k++) {
            double left = covariance(id, i, k);
            for (int j = 0; j < k; j++)
                left -= id->root[i][j] * id->root[k][j];
            id->root[i][k] = i == k ? sqrt(left) : left / id->root[k][k];
        }
    }
}

/* Differences made independent, of variance 1. */
static void whiten(const struct identifying *id, double *difference)
{
    for (int i = 0; i < fitted(id); i++) {
        for (int j = 0; j < i; j++)
            difference[i] -= id->root[i][j] * difference[j];
        difference[i] /= id->root[i][i];
    }
}

/* Logarithm of how likely the stops are. Where the tyres gave way the brakes had that much or more;
 * a vehicle that cannot be worked out did not stop. */
static double likelihood(const struct identifying *id, const double *value)
{
    double difference[MANY] = {0.0};
    double squares = 0.0;
    for (int i = 0; i < id->readings; i++)
        difference[i] = id->measured[i] - value[i];
    whiten(id, difference);
    for (int i = 0; i < fitted(id); i++)
        squares += difference[i] * difference[i];
    for (int i = fitted(id); i < id->readings; i++) {
        const double lacks = fmax(0.0, difference[i]);
        squares += lacks * lacks / covariance(id, i, i);
    }
    return isfinite(squares) ? -0.5 * squares : -BRAKE_INFINITY;
}

/* ---- directions ------------------------------------------------------------------------------ */

static void find_slopes(struct identifying *id, const double centre[BRAKE_INPUTS])
{
    const int count = brake_inputs_count(&id->inputs);
    double score[BRAKE_INPUTS];
    double less[MANY] = {0.0};
    double more[MANY] = {0.0};
    memcpy(score, centre, sizeof score);
    for (int k = 0; k < count; k++) {
        if (k < id->inputs.count && id->inputs.input[k].choice)
            continue;
        score[k] = centre[k] + 0.5;
        predict_scores(id, score, more);
        score[k] = centre[k] - 0.5;
        predict_scores(id, score, less);
        score[k] = centre[k];
        for (int i = 0; i < id->readings; i++)
            id->slope[i][k] = isfinite(more[i] - less[i]) ? more[i] - less[i] : 0.0;
    }
}

static double product(const struct identifying *id, const double *one, const double *other)
{
    double sum = 0.0;
    for (int k = 0; k < brake_inputs_count(&id->inputs); k++)
        sum += one[k] * other[k];
    return sum;
}

/* What is left of a row of slopes beyond the directions so far, over what the stop is sure of. */
static double beyond(const struct identifying *id, int stop, double *left)
{
    const double sure = sqrt(covariance(id, stop, stop));
    for (int k = 0; k < brake_inputs_count(&id->inputs); k++)
        left[k] = id->slope[stop][k] / sure;
    for (int a = 0; a < id->directions; a++) {
        const double along = product(id, left, id->basis[a]);
        for (int k = 0; k < brake_inputs_count(&id->inputs); k++)
            left[k] -= along * id->basis[a][k];
    }
    return sqrt(product(id, left, left));
}

static void find_directions(struct identifying *id)
{
    double left[BRAKE_INPUTS] = {0.0};
    id->directions = 0;
    while (id->directions < KNOWN_SIZE) {
        double most = TELLS;
        int best = -1;
        for (int i = 0; i < id->readings; i++) {
            const double length = beyond(id, i, left);
            if (length > most) {
                most = length;
                best = i;
            }
        }
        if (best < 0)
            return;
        (void)beyond(id, best, left);
        for (int k = 0; k < brake_inputs_count(&id->inputs); k++)
            id->basis[id->directions][k] = left[k] / most;
        id->directions++;
    }
}

/* As if everything were straight about a vehicle: where the rounds begin. */
static void begin(struct identifying *id, const double centre[BRAKE_INPUTS])
{
    double column[KNOWN_SIZE][MANY] = {{0.0}};
    double difference[MANY] = {0.0};
    double normal[KNOWN_SIZE][KNOWN_SIZE] = {{0.0}};
    double value[KNOWN_SIZE];
    double vector[KNOWN_SIZE][KNOWN_SIZE];
    double pulled[KNOWN_SIZE] = {0.0};
    double at[MANY] = {0.0};
    memset(id->middle, 0, sizeof id->middle);
    memset(id->spread, 0, sizeof id->spread);
    predict_scores(id, centre, at);
    for (int i = 0; i < fitted(id); i++)
        difference[i] = id->measured[i] - at[i] + product(id, id->slope[i], centre);
    whiten(id, difference);
    for (int a = 0; a < id->directions; a++) {
        for (int i = 0; i < fitted(id); i++)
            column[a][i] = product(id, id->slope[i], id->basis[a]);
        whiten(id, column[a]);
    }
    for (int a = 0; a < KNOWN_SIZE; a++) {
        for (int b = 0; b < KNOWN_SIZE; b++) {
            normal[a][b] = a == b ? 1.0 : 0.0;
            for (int i = 0; i < fitted(id); i++)
                normal[a][b] += column[a][i] * column[b][i];
        }
        for (int i = 0; i < fitted(id); i++)
            pulled[a] += column[a][i] * difference[i];
    }
    eigen_symmetric(KNOWN_SIZE, normal[0], value, vector[0]);
    for (int a = 0; a < KNOWN_SIZE; a++) {
        for (int b = 0; b < KNOWN_SIZE; b++)
            for (int e = 0; e < KNOWN_SIZE; e++)
                id->spread[a][b] += vector[a][e] * vector[b][e] / value[e];
    }
    for (int a = 0; a < KNOWN_SIZE; a++)
        for (int b = 0; b < KNOWN_SIZE; b++)
            id->middle[a] += id->spread[a][b] * pulled[b];
}

/* ---- rounds --------------------------------------------------------------------------------- */

static void scores_of(const struct identifying *id, uint32_t sample, double *score)
{
    brake_sobol_middle(&id->sobol, sample, score);
    for (int k = 0; k < brake_inputs_count(&id->inputs); k++)
        score[k] = brake_normal_value(score[k]);
}

/* Moves a sample to where the last round said, and weighs it. */
static void weigh(struct identifying *id, double root[KNOWN_SIZE][KNOWN_SIZE], long sample)
{
    double score[BRAKE_INPUTS];
    double value[MANY] = {0.0};
    double was[KNOWN_SIZE];
    double *at = id->at[sample];
    double squares = 0.0;
    scores_of(id, (uint32_t)sample, score);
    for (int a = 0; a < id->directions; a++)
        was[a] = product(id, score, id->basis[a]);
    for (int a = 0; a < id->directions; a++) {
        at[a] = id->middle[a];
        for (int b = 0; b < id->directions; b++)
            at[a] += root[a][b] * was[b];
        squares += at[a] * at[a] - was[a] * was[a];
    }
    for (int a = 0; a < id->directions; a++)
        for (int k = 0; k < brake_inputs_count(&id->inputs); k++)
            score[k] += (at[a] - was[a]) * id->basis[a][k];
    predict_scores(id, score, value);
    id->weight[sample] = likelihood(id, value) - 0.5 * squares;
}

static void find_root_of_spread(const struct identifying *id, double root[KNOWN_SIZE][KNOWN_SIZE])
{
    double matrix[KNOWN_SIZE][KNOWN_SIZE];
    double value[KNOWN_SIZE];
    double vector[KNOWN_SIZE][KNOWN_SIZE];
    memcpy(matrix, id->spread, sizeof matrix);
    eigen_symmetric(KNOWN_SIZE, matrix[0], value, vector[0]);
    for (int a = 0; a < KNOWN_SIZE; a++) {
        for (int b = 0; b < KNOWN_SIZE; b++) {
            root[a][b] = 0.0;
            for (int e = 0; e < KNOWN_SIZE; e++)
                root[a][b] += vector[a][e] * sqrt(fmax(value[e], 0.0)) * vector[b][e];
        }
    }
}

/* Logarithms become weights whose sum is 1; returns how many samples of like weight they are
 * worth. */
static double normalise(struct identifying *id, long samples)
{
    double best = -BRAKE_INFINITY;
    double sum = 0.0;
    double squares = 0.0;
    for (long s = 0; s < samples; s++)
        best = fmax(best, id->weight[s]);
    for (long s = 0; s < samples; s++) {
        id->weight[s] = isfinite(best) ? exp(id->weight[s] - best) : 0.0;
        sum += id->weight[s];
        squares += id->weight[s] * id->weight[s];
    }
    for (long s = 0; s < samples && sum > 0.0; s++)
        id->weight[s] /= sum;
    return sum > 0.0 ? sum * sum / squares : 0.0;
}

static void take_moments(struct identifying *id, long samples)
{
    memset(id->middle, 0, sizeof id->middle);
    memset(id->spread, 0, sizeof id->spread);
    for (long s = 0; s < samples; s++)
        for (int a = 0; a < id->directions; a++)
            id->middle[a] += id->weight[s] * id->at[s][a];
    for (long s = 0; s < samples; s++)
        for (int a = 0; a < id->directions; a++)
            for (int b = 0; b < id->directions; b++)
                id->spread[a][b] +=
                    id->weight[s] * (id->at[s][a] - id->middle[a]) * (id->at[s][b] - id->middle[b]);
    for (int a = id->directions; a < KNOWN_SIZE; a++)
        id->spread[a][a] = 1.0;
}

/* Returns how many samples the round is worth; with none the last one stays. */
static double round_of(struct identifying *id, long samples)
{
    double root[KNOWN_SIZE][KNOWN_SIZE];
    find_root_of_spread(id, root);
#pragma omp parallel for schedule(dynamic, 16)
    for (long s = 0; s < samples; s++)
        weigh(id, root, s);
    const double effective = normalise(id, samples);
    if (effective > 8.0 * KNOWN_SIZE)
        take_moments(id, samples);
    return effective;
}

/* ---- against the lines alone ----------------------------------------------------------------- */

/* Mean of the stops that the tyres did not limit, in each sample of the lines alone. */
static void predict_means(struct identifying *id)
{
#pragma omp parallel for schedule(dynamic, 16)
    for (long s = 0; s < SAMPLES; s++) {
        double score[BRAKE_INPUTS];
        double value[MANY] = {0.0};
        double sum = 0.0;
        scores_of(id, (uint32_t)s, score);
        predict_scores(id, score, value);
        for (int i = 0; i < fitted(id); i++)
            sum += value[i];
        id->weight[s] = sum / fitted(id);
    }
}

/* As little as was measured, by lines and measuring; only where brakes were measured at all. */
static void hold_against_lines(struct identifying *id, struct brake_knowledge *known)
{
    double measured = 0.0;
    double variance = 0.0;
    if (fitted(id) == 0)
        return;
    for (int i = 0; i < fitted(id); i++) {
        measured += id->measured[i] / fitted(id);
        for (int k = 0; k < fitted(id); k++)
            variance += covariance(id, i, k) / fitted(id) / fitted(id);
    }
    predict_means(id);
    const long count = percentile_sort(id->weight, SAMPLES);
    const double middle = percentile_at(id->weight, count, 0.5);
    for (long s = 0; s < count; s++)
        known->likely += brake_normal_share((measured - id->weight[s]) / sqrt(variance)) / SAMPLES;
    known->ratio = measured / middle;
    known->low = percentile_at(id->weight, count, 0.05) / middle;
    known->high = percentile_at(id->weight, count, 0.95) / middle;
    known->word = known->likely < RARE         ? BRAKE_DRIVE_LESS
                  : known->likely > 1.0 - RARE ? BRAKE_DRIVE_MORE
                                               : BRAKE_DRIVE_AGREES;
    if (known->word == BRAKE_DRIVE_MORE)
        known->count = 0; /* what cannot be by the lines shall not make them look better */
}

/* ---- what is kept ---------------------------------------------------------------------------- */

static double told_of(const struct brake_known *known)
{
    double sum = known->shift * known->shift;
    for (int e = 0; e < KNOWN_SIZE; e++)
        sum += known->along[e] * known->along[e];
    return sum;
}

/* Those of which most was told; what little is told of others is let go. */
static void keep(const struct brake_known *one, struct brake_knowledge *known)
{
    int at = known->count;
    if (!(told_of(one) > 1e-6))
        return;
    for (; at > 0 && told_of(&known->of[at - 1]) < told_of(one); at--) {
        if (at < BRAKE_KNOWN)
            known->of[at] = known->of[at - 1];
    }
    if (at < BRAKE_KNOWN)
        known->of[at] = *one;
    known->count += known->count < BRAKE_KNOWN ? 1 : 0;
}

static void write_down(const struct identifying *id, struct brake_knowledge *known)
{
    double matrix[KNOWN_SIZE][KNOWN_SIZE];
    double value[KNOWN_SIZE];
    double vector[KNOWN_SIZE][KNOWN_SIZE];
    memcpy(matrix, id->spread, sizeof matrix);
    eigen_symmetric(KNOWN_SIZE, matrix[0], value, vector[0]);
    for (int k = 0; k < brake_inputs_count(&id->inputs); k++) {
        struct brake_known one = known_of(&id->inputs, k);
        for (int a = 0; a < id->directions; a++) {
            one.shift += id->basis[a][k] * id->middle[a];
            for (int e = 0; e < KNOWN_SIZE; e++)
                one.along[e] += id->basis[a][k] * vector[a][e] * sqrt(fmax(0.0, 1.0 - value[e]));
        }
        keep(&one, known);
    }
}

/* The lines that stand farthest from where the drive puts them. */
static void name_lines(struct brake_knowledge *known)
{
    int lines = 0;
    for (int i = 0; i < BRAKE_DRIVE_LINES; i++)
        known->line[i] = -1;
    while (lines < BRAKE_DRIVE_LINES) {
        const struct brake_known *most = NULL;
        for (int i = 0; i < known->count; i++) {
            const struct brake_known *one = &known->of[i];
            bool named = one->of != BRAKE_KNOWN_LINE;
            for (int k = 0; k < lines; k++)
                named = named || known->line[k] == one->number;
            if (!named && (most == NULL || fabs(one->shift) > fabs(most->shift)))
                most = one;
        }
        if (most == NULL)
            return;
        known->line[lines++] = most->number;
    }
}

/* ---- the whole ------------------------------------------------------------------------------ */

static void identify(struct identifying *id, struct brake_knowledge *known)
{
    double centre[BRAKE_INPUTS] = {0.0};
    long samples = SAMPLES;
    const struct brake_vehicle *vehicle = &id->inputs.sheet->vehicle;
    brake_sobol_scrambled(brake_inputs_count(&id->inputs), 0, &id->sobol);
    take_forces(id, vehicle);
    take_stops(id, vehicle);
    known->forces = id->forces;
    known->stops = id->readings - id->forces;
    known->bounds = id->bounds;
    known->left_out = -known->stops;
    for (int d = 0; d < id->drives; d++)
        known->left_out += id->driven[d].drive->stops;
    if (id->readings == 0)
        return;
    find_errors(id, vehicle);
    find_root(id);
    for (int i = 0; i < STEPS; i++) {
        find_slopes(id, centre);
        find_directions(id);
        begin(id, centre);
        memset(centre, 0, sizeof centre);
        for (int a = 0; a < id->directions; a++)
            for (int k = 0; k < brake_inputs_count(&id->inputs); k++)
                centre[k] += id->middle[a] * id->basis[a][k];
    }
    for (int i = 0; i < ROUNDS; i++)
        (void)round_of(id, SAMPLES);
    known->effective = round_of(id, samples);
    while (known->effective < BRAKE_KNOWN_EFFECTIVE && samples < MOST)
        known->effective = round_of(id, samples *= 2);
    write_down(id, known);
    name_lines(known);
    hold_against_lines(id, known);
}

enum brake_status brake_drives_learn(struct brake_sheet *sheet,
                                     const struct brake_loaded_drive *driven, int drives)
{
    int stops = 0;
    for (int d = 0; d < drives; d++)
        stops += driven[d].drive->stops;
    if (stops > BRAKE_DRIVE_STOPS)
        return BRAKE_E_SIZE;
    struct identifying *id = calloc(1, sizeof *id);
    if (id == NULL)
        return BRAKE_E_MEMORY;
    memset(&sheet->known, 0, sizeof sheet->known);
    id->driven = driven;
    id->drives = drives;
    brake_inputs_list(sheet, NULL, &id->inputs);
    identify(id, &sheet->known);
    free(id);
    return BRAKE_OK;
}

enum brake_status brake_drive_learn(struct brake_sheet *sheet, enum brake_load load,
                                    const struct brake_drive *drive)
{
    return brake_drives_learn(sheet, &(struct brake_loaded_drive){load, drive},
                              drive != NULL ? 1 : 0);
}

enum brake_status brake_tester_learn(struct brake_sheet *sheet)
{
    return isnan(sheet->vehicle.tester.pedal_force) ? BRAKE_OK
                                                    : brake_drive_learn(sheet, BRAKE_EMPTY, NULL);
}

void brake_drive_carry(const struct brake_sheet *before, struct brake_sheet *after)
{
    if (before->known.stops + before->known.forces == 0 ||
        after->known.stops + after->known.forces > 0)
        return;
    after->known = before->known;
    after->known.another = true;
}
