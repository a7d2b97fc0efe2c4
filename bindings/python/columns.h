/* SPDX-License-Identifier: MIT */
/* Numbers side by side: how arrays of Python reach a function of the model. */
#ifndef LIBBRAKE_PYTHON_COLUMNS_H
#define LIBBRAKE_PYTHON_COLUMNS_H

#include <stdbool.h>

#include "brake/status.h"

enum { COLUMNS = 32 /* most of one call */ };

/* An array, or one number that stands for as many as are wanted: step 0. */
struct column {
    const double *at;
    long step;
    long count;
};

struct columns;

static inline double column_at(struct column column, long i)
{
    return column.at[i * column.step];
}

static inline bool columns_move(const struct column *column, int count)
{
    for (int i = 0; i < count; i++) {
        if (column[i].step != 0)
            return true;
    }
    return false;
}

enum { SERIES = 4 /* most of one call */ };

/* A text, a list of numbers or points, or a struct that holds tables: one for all cases. */
struct series {
    void *at;
    long size; /* bytes */
};

/* A function of the model over columns. */
struct kernel {
    const char *names; /* of the inputs */
    int inputs;
    int outputs;
    unsigned whole; /* bits of the columns that must be whole numbers */
    int series;
    unsigned written;  /* bits of the series that are results */
    long size[SERIES]; /* bytes that each must have; 0: any */
    enum brake_status (*loop)(const struct series *series, const struct column *in,
                              double *const *out, long count);
};

extern const struct kernel kernels[];
extern const int kernels_count;

#endif
