/* SPDX-License-Identifier: MIT */
/* Least squares of two numbers; private to the library. */
#ifndef BRAKE_STUDY_PAIR_FIT_H
#define BRAKE_STUDY_PAIR_FIT_H

#include <stdbool.h>

enum { BRAKE_PAIR_POINTS = 120 };

/* Fills y of every point by the two numbers; false: they give none. */
typedef bool brake_pair_model(const void *context, const double pair[2], double *y);

struct brake_pair_fit {
    double pair[2];     /* begin, then the answer; both of the order of 1, such as logarithms */
    double least, most; /* of the first */
    double squares;     /* sum of what is left over */
    double likeness;    /* correlation of what neighbours leave over, 0 to 0.99 */
    double sigma;       /* standard deviation of the first, neighbours not independent */
};

/* Gauss and Newton, each step at most 1 and halved while the squares grow. False: the model gave
 * nothing, or the steps do not end. */
bool brake_pair_fit(brake_pair_model *model, const void *context, const double *measured,
                    int points, struct brake_pair_fit *fit);

/* How many of the points count, as what neighbours leave over is alike. */
double brake_pair_counts(const struct brake_pair_fit *fit, int points);

#endif
