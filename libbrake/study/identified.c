/* SPDX-License-Identifier: MIT */
/* Equations: brake/identify.h. */
#include "brake/identify.h"

#include <math.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "brake/samples.h"
#include "eigen.h"
#include "vehicle/text.h"

enum { SAMPLES = 16384, LINES = BRAKE_IDENTIFY_LINES };

static const double NOTHING = 0.01; /* share that is as good as none: common practice, no source */

static enum brake_status refuse(struct brake_error *error, enum brake_status status,
                                const char *field, const char *text)
{
    *error = (struct brake_error){.status = status};
    brake_text_format(error->field, sizeof error->field, "%s", field);
    brake_text_format(error->text, sizeof error->text, "%s", text);
    return status;
}

/* ---- moments -------------------------------------------------------------------------------- */

/* Lines that are drawn, side by side, and which of them are asked for. */
struct drawn {
    int lines;
    double *value;
    int column[LINES];
};

static void take_moments(const struct drawn *d, int count, struct brake_moments *moments)
{
    memset(moments, 0, sizeof *moments);
    for (long s = 0; s < SAMPLES; s++)
        for (int i = 0; i < count; i++)
            moments->mean[i] += d->value[s * d->lines + d->column[i]] / SAMPLES;
    for (long s = 0; s < SAMPLES; s++) {
        double off[LINES];
        for (int i = 0; i < count; i++)
            off[i] = d->value[s * d->lines + d->column[i]] - moments->mean[i];
        for (int i = 0; i < count; i++)
            for (int k = 0; k < count; k++)
                moments->covariance[i][k] += off[i] * off[k] / SAMPLES;
    }
}

static enum brake_status find_columns(const struct brake_sheet *sheet,
                                      const struct brake_samples *samples, const int *line,
                                      int count, struct drawn *d, struct brake_error *error)
{
    d->lines = brake_samples_lines(samples);
    for (int i = 0; i < count; i++) {
        char path[160];
        int at = 0;
        while (at < d->lines && brake_samples_line(samples, at) != line[i])
            at++;
        d->column[i] = at;
        if (at < d->lines)
            continue;
        brake_catalogue_path(&sheet->vehicle, line[i], path, sizeof path);
        return refuse(error, BRAKE_E_MISSING, path,
                      "is exact, or worked out from other lines: identify those, or give it a "
                      "tolerance, value +- half width");
    }
    return BRAKE_OK;
}

/* Moments of some lines of a vehicle as it is drawn. */
static enum brake_status draw(const struct brake_sheet *sheet, const int *line, int count,
                              struct brake_moments *moments, struct brake_error *error)
{
    const struct brake_samples_options options = {.samples = SAMPLES, .seed = 1};
    struct drawn d = {.value = NULL};
    enum brake_status status;
    struct brake_samples *samples = brake_samples_new(sheet, &options, &status);
    if (samples == NULL)
        return refuse(error, status, "", brake_status_message(status));
    status = find_columns(sheet, samples, line, count, &d, error);
    if (status == BRAKE_OK) {
        d.value = malloc((size_t)SAMPLES * (size_t)d.lines * sizeof *d.value);
        if (d.value == NULL)
            status = refuse(error, BRAKE_E_MEMORY, "", "memory is short");
    }
    if (status == BRAKE_OK) {
        (void)brake_samples_draw(samples, NULL, d.value, NULL);
        take_moments(&d, count, moments);
    }
    free(d.value);
    brake_samples_free(samples);
    return status;
}

/* ---- combinations --------------------------------------------------------------------------- */

/* Lower triangle L of L L' = C, C over the standard deviations; false when C is singular. */
static bool find_root(const struct brake_moments *before, int count, double root[LINES][LINES])
{
    for (int i = 0; i < count; i++) {
        for (int k = 0; k <= i; k++) {
            double left = before->covariance[i][k] /
                          sqrt(before->covariance[i][i] * before->covariance[k][k]);
            for (int j = 0; j < k; j++)
                left -= root[i][j] * root[k][j];
            root[i][k] = i == k ? sqrt(left) : left / root[k][k];
        }
        if (!(root[i][i] > 1e-6))
            return false;
    }
    return true;
}

/* x of L x = b; x of L' x = b. */
static void solve(double root[LINES][LINES], int count, double *x)
{
    for (int i = 0; i < count; i++) {
        for (int k = 0; k < i; k++)
            x[i] -= root[i][k] * x[k];
        x[i] /= root[i][i];
    }
}

static void solve_transposed(double root[LINES][LINES], int count, double *x)
{
    for (int i = count - 1; i >= 0; i--) {
        for (int k = i + 1; k < count; k++)
            x[i] -= root[k][i] * x[k];
        x[i] /= root[i][i];
    }
}

/* L^-1 C' L^-T, row by row. */
static void whiten(const struct brake_identified *id, double root[LINES][LINES], double *matrix)
{
    const int n = id->count;
    double half[LINES][LINES];
    for (int k = 0; k < n; k++) {
        for (int i = 0; i < n; i++)
            half[k][i] = id->after.covariance[i][k] /
                         sqrt(id->before.covariance[i][i] * id->before.covariance[k][k]);
        solve(root, n, half[k]);
    }
    for (int i = 0; i < n; i++) {
        for (int k = 0; k < n; k++)
            matrix[i * n + k] = half[k][i];
        solve(root, n, &matrix[(ptrdiff_t)i * n]);
    }
}

static void keep_combination(struct brake_identified *id, int at, double share, double *weight)
{
    double most = 0.0;
    for (int i = 0; i < id->count; i++)
        most = fabs(weight[i]) > fabs(most) ? weight[i] : most;
    id->share[at] = fmin(fmax(share, 0.0), 1.0);
    for (int i = 0; i < id->count; i++)
        id->combination[at][i] = weight[i] / most;
}

/* The combinations of which most is told first. */
static void find_combinations(struct brake_identified *id, double root[LINES][LINES])
{
    const int n = id->count;
    double matrix[LINES * LINES];
    double value[LINES];
    double vector[LINES * LINES];
    whiten(id, root, matrix);
    eigen_symmetric(n, matrix, value, vector);
    for (int at = 0; at < n; at++) {
        double weight[LINES];
        int least = 0;
        for (int e = 0; e < n; e++)
            least = value[e] < value[least] ? e : least;
        for (int i = 0; i < n; i++)
            weight[i] = vector[i * n + least];
        solve_transposed(root, n, weight);
        keep_combination(id, at, 1.0 - value[least], weight);
        value[least] = BRAKE_INFINITY;
    }
}

static double information(double share)
{
    return share / (1.0 - share);
}

enum brake_status brake_identify(const struct brake_sheet *sheet, const int *line, int count,
                                 struct brake_identified *identified, struct brake_error *error)
{
    double root[LINES][LINES];
    *error = (struct brake_error){.status = BRAKE_OK};
    memset(identified, 0, sizeof *identified);
    identified->count = count;
    if (count < 1 || count > LINES)
        return refuse(error, BRAKE_E_SIZE, "", "accepts 1 to 12 lines");
    struct brake_sheet *alone = malloc(sizeof *alone);
    if (alone == NULL)
        return refuse(error, BRAKE_E_MEMORY, "", "memory is short");
    *alone = *sheet;
    memset(&alone->known, 0, sizeof alone->known);
    enum brake_status status = draw(alone, line, count, &identified->before, error);
    free(alone);
    if (status == BRAKE_OK)
        status = draw(sheet, line, count, &identified->after, error);
    if (status != BRAKE_OK)
        return status;
    if (!find_root(&identified->before, count, root))
        return refuse(error, BRAKE_E_FIT, "", "two of the lines are one and the same");
    find_combinations(identified, root);
    for (int i = 0; i < count; i++)
        identified->learnt[i] = fmax(0.0, 1.0 - identified->after.covariance[i][i] /
                                                    identified->before.covariance[i][i]);
    const double last = identified->share[count - 1];
    identified->condition = last > NOTHING
                                ? sqrt(information(identified->share[0]) / information(last))
                                : BRAKE_INFINITY;
    return BRAKE_OK;
}
