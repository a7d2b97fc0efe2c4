/* SPDX-License-Identifier: MIT */
/* Source: Golub and Van Loan, Matrix Computations, section 8.5, cyclic Jacobi (from memory). */
#include "eigen.h"

#include <math.h>
#include <stddef.h>

/* A matrix, and the product of the rotations so far. */
struct turned {
    int n;
    double *m;
    double *v;
};

/* Turns rows and columns p and q so that their element goes. */
static void rotate(const struct turned *t, int p, int q)
{
    double *m = t->m;
    double *v = t->v;
    const int n = t->n;
    if (m[p * n + q] == 0.0)
        return;
    const double theta = (m[q * n + q] - m[p * n + p]) / (2.0 * m[p * n + q]);
    const double tangent = copysign(1.0, theta) / (fabs(theta) + hypot(theta, 1.0));
    const double c = 1.0 / hypot(tangent, 1.0);
    const double s = tangent * c;
    for (int i = 0; i < n; i++) {
        const double one = m[i * n + p];
        m[i * n + p] = c * one - s * m[i * n + q];
        m[i * n + q] = s * one + c * m[i * n + q];
    }
    for (int i = 0; i < n; i++) {
        const double one = m[p * n + i];
        const double own = v[i * n + p];
        m[p * n + i] = c * one - s * m[q * n + i];
        m[q * n + i] = s * one + c * m[q * n + i];
        v[i * n + p] = c * own - s * v[i * n + q];
        v[i * n + q] = s * own + c * v[i * n + q];
    }
}

void eigen_symmetric(int n, double *matrix, double *value, double *vector)
{
    enum { SWEEPS = 12 }; /* they double the digits each */
    struct turned t = {.n = n, .v = vector};
    t.m = matrix;
    for (int i = 0; i < n * n; i++)
        vector[i] = i % (n + 1) == 0 ? 1.0 : 0.0;
    for (int sweep = 0; sweep < SWEEPS; sweep++)
        for (int p = 0; p < n; p++)
            for (int q = p + 1; q < n; q++)
                rotate(&t, p, q);
    for (int i = 0; i < n; i++)
        value[i] = t.m[(ptrdiff_t)i * (n + 1)];
}
