/* SPDX-License-Identifier: MIT */
/* The Sobol sequence: points that fill the unit cube more evenly than random ones do.
 *
 * Of the first 2^m points every coordinate has one in each of the 2^m equal parts of [0, 1).
 * Scrambled, the points keep that, and each by itself is uniform over the cube: estimates from
 * several independent scrambles are independent and without bias, and their scatter tells the
 * error.
 *
 * Private to the library. */
#ifndef BRAKE_STUDY_SOBOL_H
#define BRAKE_STUDY_SOBOL_H

#include <stdint.h>

#include "brake/status.h"

enum { BRAKE_SOBOL_DIMENSIONS = 512, BRAKE_SOBOL_BITS = 32 /**< of a coordinate */ };

/** A sequence. */
struct brake_sobol {
    int dimensions;
    uint32_t shift[BRAKE_SOBOL_DIMENSIONS];
    uint32_t direction[BRAKE_SOBOL_DIMENSIONS][BRAKE_SOBOL_BITS];
};

/** The plain sequence.
 * @param dimensions  0 to BRAKE_SOBOL_DIMENSIONS
 * @param sobol       filled
 * @return            OK, or E_RANGE for another number of dimensions, nothing filled
 * @source            direction numbers: S. Joe and F. Y. Kuo, SIAM J. Sci. Comput. 30, 2635-2654
 *                    (2008), new-joe-kuo-6.21201
 */
enum brake_status brake_sobol_plain(int dimensions, struct brake_sobol *sobol);

/** The sequence scrambled: each coordinate by a random matrix over its binary digits, lower
 * triangular with ones on its diagonal, and by a random digital shift; drawn by the generator of
 * Steele, Lea and Flood (SplitMix64) from the seed.
 * @param dimensions  0 to BRAKE_SOBOL_DIMENSIONS
 * @param seed        of the generator; another seed, an independent scramble
 * @param sobol       filled
 * @return            OK, or E_RANGE for another number of dimensions, nothing filled
 * @source            J. Matousek, J. Complexity 14, 527-556 (1998); G. L. Steele, D. Lea and
 *                    C. H. Flood, OOPSLA 2014; both from memory
 */
enum brake_status brake_sobol_scrambled(int dimensions, uint64_t seed, struct brake_sobol *sobol);

/** A point of the sequence, in the order of the Gray code.
 * @param sobol  the sequence
 * @param index  of the point, from 0
 * @param point  [-] room for its coordinates, filled; multiples of 2^-32 in [0, 1)
 * @source       I. A. Antonov and V. M. Saleev, USSR Comput. Math. Math. Phys. 19, 252-256 (1979),
 *               from memory
 */
void brake_sobol_point(const struct brake_sobol *sobol, uint32_t index, double *point);

/** Middle of the smallest cell of the sequence that a point is in: no coordinate is 0 or 1.
 * @param sobol   the sequence
 * @param index   of the point, from 0
 * @param middle  [-] room for its coordinates, filled; in (0, 1)
 */
void brake_sobol_middle(const struct brake_sobol *sobol, uint32_t index, double *middle);

#endif
