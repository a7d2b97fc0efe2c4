/* SPDX-License-Identifier: MIT */
/* Small symmetric matrices; private to this folder. */
#ifndef BRAKE_STUDY_EIGEN_H
#define BRAKE_STUDY_EIGEN_H

/* Eigenvalues and, in columns, eigenvectors of a symmetric matrix of n rows, which is lost, row by
 * row in all of them. Jacobi's rotations. */
void eigen_symmetric(int n, double *matrix, double *value, double *vector);

#endif
